//! A table from small keys to small values that is quick and alike on every machine: open
//! addressing with a fixed mix of the key's words. It is never walked through, so that no order
//! hangs on it.

/// A key made of machine words.
pub trait Key: Copy + Eq {
    /// Its words, spread by [`mix`].
    fn mixed(&self) -> u64;
}

/// The table.
#[derive(Debug, Clone)]
pub struct Table<K, V> {
    slots: Vec<Option<(K, V)>>,
    filled: usize,
}

impl<K: Key, V> Default for Table<K, V> {
    fn default() -> Self {
        Table { slots: Vec::new(), filled: 0 }
    }
}

impl<K: Key, V> Table<K, V> {
    /// What is kept under a key.
    pub fn get(&self, key: &K) -> Option<&V> {
        if self.slots.is_empty() {
            return None;
        }
        self.slots[self.slot(key)].as_ref().map(|(_, value)| value)
    }

    /// Keeps a value under a key, in place of what was there.
    pub fn insert(&mut self, key: K, value: V) {
        if 2 * (self.filled + 1) > self.slots.len() {
            self.grow();
        }
        let slot = self.slot(&key);
        self.filled += usize::from(self.slots[slot].is_none());
        self.slots[slot] = Some((key, value));
    }

    /// Where a key is, or where it would go. The table is never full.
    fn slot(&self, key: &K) -> usize {
        let last = self.slots.len() - 1;
        let mut at = key.mixed() as usize & last;
        while let Some((other, _)) = &self.slots[at] {
            if other == key {
                break;
            }
            at = (at + 1) & last;
        }
        at
    }

    fn grow(&mut self) {
        let size = (2 * self.slots.len()).max(64);
        let mut fresh = Vec::with_capacity(size);
        fresh.resize_with(size, || None);
        let old = std::mem::replace(&mut self.slots, fresh);
        for (key, value) in old.into_iter().flatten() {
            let slot = self.slot(&key);
            self.slots[slot] = Some((key, value));
        }
    }
}

/// Spreads the bits of some words: each is multiplied in and folded down, as in the finaliser of the
/// 64-bit variant of MurmurHash3 (public domain), whose factors these are.
pub fn mix<const N: usize>(words: [u64; N]) -> u64 {
    let h = words.into_iter().fold(0x9e37_79b9_7f4a_7c15u64, |h, word| {
        let h = (h ^ word).wrapping_mul(0xff51_afd7_ed55_8ccd);
        h ^ (h >> 32)
    });
    let h = h.wrapping_mul(0xc4ce_b9fe_1a85_ec53);
    h ^ (h >> 32)
}

#[cfg(test)]
mod tests {
    use super::*;

    impl Key for u64 {
        fn mixed(&self) -> u64 {
            mix([*self])
        }
    }

    #[test]
    fn it_finds_what_was_put_in_and_nothing_else() {
        let mut table = Table::default();
        for n in 0..1000u64 {
            table.insert(n * n, n);
        }
        table.insert(9, 77);
        assert_eq!(table.get(&9), Some(&77));
        assert_eq!(table.get(&16), Some(&4));
        assert_eq!(table.get(&17), None);
        assert_eq!(Table::<u64, u64>::default().get(&1), None);
    }
}
