//! Many cases on all threads there are.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// What `one` makes of each case, in the order of the cases. Each thread takes the next case that none
/// has begun, so that a long one holds up nobody.
///
/// # Panics
/// When `one` does, once all threads have ended.
pub fn spread<T: Sync, R: Send>(cases: &[T], one: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<(usize, R)>> = Mutex::new(Vec::with_capacity(cases.len()));
    let work = || {
        while let Some((n, case)) = {
            let n = next.fetch_add(1, Ordering::Relaxed);
            cases.get(n).map(|case| (n, case))
        } {
            let result = one(case);
            // A thread that panics does so in `one`, outside the lock.
            if let Ok(mut done) = done.lock() {
                done.push((n, result));
            }
        }
    };
    let threads = thread::available_parallelism().map_or(1, usize::from).min(cases.len());
    thread::scope(|s| (0..threads).for_each(|_| drop(s.spawn(work))));
    let mut done = done.into_inner().unwrap_or_default();
    done.sort_by_key(|(n, _)| *n);
    done.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_come_in_the_order_of_the_cases() {
        let cases: Vec<u64> = (0..100).collect();
        // The first take longest.
        let slow = |&n: &u64| (0..(100 - n) * 1000).fold(n, |all, m| all ^ m ^ m);
        assert_eq!(spread(&cases, slow), cases);
        assert!(spread(&cases[..0], slow).is_empty());
    }

    #[test]
    #[should_panic(expected = "scoped thread panicked")]
    fn a_case_that_panics_is_not_passed_over() {
        spread(&[1, 2, 3], |&n| assert_ne!(n, 2));
    }
}
