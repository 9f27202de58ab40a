//! Single-precision numbers (IEEE 754 binary32) and decimals from whole micrometres, by integers
//! alone: the core counts in no floating point, but models are exchanged in it.

/// Bits of the number of metres nearest to `um` micrometres; of two equally near, the even one.
pub fn metres(um: i64) -> u32 {
    /// Micrometres in a metre.
    const DEN: u128 = 1_000_000;
    let n = u128::from(um.unsigned_abs());
    let Some(size) = n.checked_ilog2() else { return 0 };
    // n / DEN = q × 2^-k with 25 bits in q: 24 that stay, and one that decides how to round.
    let mut k = 44 - i64::from(size);
    let (mut q, mut rest);
    loop {
        let (above, below) = if k >= 0 { (n << k, DEN) } else { (n, DEN << -k) };
        (q, rest) = (above / below, above % below);
        if q >= 1 << 25 {
            k -= 1;
        } else if q < 1 << 24 {
            k += 1;
        } else {
            break;
        }
    }
    let mut mantissa = q >> 1;
    let half = q & 1 == 1;
    if half && (rest != 0 || mantissa & 1 == 1) {
        mantissa += 1;
    }
    // The leading one is not written; a carry into the next power of two adds one to the exponent.
    let exponent = 127 + 23 + 1 - k;
    let bits = (u128::from(exponent.unsigned_abs()) << 23) + (mantissa - (1 << 23));
    let sign = if um < 0 { 1 << 31 } else { 0 };
    u32::try_from(bits).unwrap_or(0) | sign
}

/// `um` micrometres in metres as a decimal, exact: `0.018`.
pub fn decimal(um: i64) -> String {
    let size = um.unsigned_abs();
    let sign = if um < 0 { "-" } else { "" };
    let text = format!("{sign}{}.{:06}", size / 1_000_000, size % 1_000_000);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bits_are_those_of_the_nearest_single() {
        let mut um: i64 = 1;
        let mut tried = 0;
        while um < 1 << 52 {
            for near in [um, um + 1, um - 1, um * 3 / 2, -um] {
                // The quotient of two exact doubles, rounded once more to a single, is the nearest
                // single here: a double has more than twice a single's digits and two.
                let wanted = ((near as f64) / 1e6) as f32;
                assert_eq!(metres(near), wanted.to_bits(), "{near}");
                tried += 1;
            }
            um = um * 7 / 5 + 1;
        }
        assert!(tried > 400);
        assert_eq!(metres(0), 0);
        assert_eq!(metres(1_000_000), 1.0_f32.to_bits());
        assert_eq!(metres(i64::MIN), (-9_223_372_036_854.776_f32).to_bits());
    }

    #[test]
    fn decimals_are_exact_and_short() {
        for (um, text) in
            [(0, "0"), (1, "0.000001"), (18_000, "0.018"), (-600_000, "-0.6"), (1_000_000, "1")]
        {
            assert_eq!(decimal(um), text);
        }
    }
}
