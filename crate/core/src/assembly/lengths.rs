//! How long the screws are that fix a piece in the room.

/// Into a stud at least: 1 in (common practice, no source).
pub const BITE: i64 = 25_400;
/// A cable may lie so far behind a stud's face without a steel plate: 1 1/4 in, NEC 300.4 (read).
pub const CABLE: i64 = 31_750;
/// Half of a stud, less 6 mm so that the screw does not split out (common practice, no source).
pub const HALF_STUD: i64 = 13_000;
/// Short of the face that shows: 1/8 in (common practice, no source).
pub const SHORT: i64 = 3_000;
/// Two cabinets: the screw stays so far in the second side (common practice, no source).
pub const SHORT_IN_SIDE: i64 = 1_500;

/// A length that is sold: down to a quarter of an inch, or 5 mm.
fn sold(length: i64, imperial: bool) -> i64 {
    let step = if imperial { 6_350 } else { 5_000 };
    length / step * step
}

/// The longest screw that is sold and goes no deeper into a stud than a cable may lie, behind what it
/// goes `through`. It goes deeper than [`BITE`], or as deep as that.
pub fn into_stud(through: i64, imperial: bool) -> i64 {
    sold(through + CABLE, imperial)
}

/// The longest screw that is sold, goes `through` one side and stays inside the `next`.
pub fn joining(through: i64, next: i64, imperial: bool) -> i64 {
    let step = if imperial { 3_175 } else { 5_000 };
    (through + next - SHORT_IN_SIDE) / step * step
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn screws_into_studs_hold_and_stay_short_of_a_cable() {
        for through in (0..120_000).step_by(137) {
            for imperial in [true, false] {
                let into = into_stud(through, imperial) - through;
                assert!((BITE..=CABLE).contains(&into), "{through}: {into}");
            }
        }
    }

    #[test]
    fn an_inch_and_an_eighth_joins_two_sides_of_three_quarters() {
        // The usual length for two 3/4 in sides (common practice, no source) is no longer than ours.
        let length = joining(19_050, 19_050, true);
        assert!((28_575..=38_100 - SHORT_IN_SIDE).contains(&length), "{length}");
    }
}
