//! How many hinges a door takes, by its mass and height.

/// The heaviest door on two, three, … hinges, in grams, for doors up to 600 mm wide. From memory, not seen; the
/// hinge's own sheet comes first.
const HEAVIEST: [i64; 4] = [6_000, 12_000, 17_000, 22_000];
/// The tallest on two, and what each further one is good for. Common practice, no source.
const TALLEST: i64 = 900_000;
const TALLER: i64 = 500_000;

/// The heaviest door that any number of hinges takes, in grams.
pub const MOST_G: i64 = HEAVIEST[HEAVIEST.len() - 1];

/// Hinges for a door's mass in grams and height in micrometres; none when it is too heavy for any number.
///
/// ```
/// use jointwise::assembly::hinges;
/// assert_eq!(hinges::usual(8_500, 1_700_000), Some(4));
/// assert_eq!(hinges::usual(30_000, 700_000), None);
/// ```
pub fn usual(mass_g: i64, tall: i64) -> Option<u8> {
    let enough = |n: &u8| HEAVIEST[usize::from(*n) - 2] >= mass_g;
    let heavy = (2..6).find(enough)?;
    Some(heavy.max(for_height(tall)))
}

/// Hinges for a door's height alone.
fn for_height(tall: i64) -> u8 {
    let further = (tall - TALLEST).max(0).unsigned_abs().div_ceil(TALLER.unsigned_abs());
    u8::try_from(further).map_or(u8::MAX, |n| n.saturating_add(2))
}

#[cfg(test)]
mod tests {
    use super::usual;

    #[test]
    fn a_door_takes_as_many_as_the_more_of_mass_and_height() {
        for (kg_10, mm, hinges) in [
            (60, 900, Some(2)),
            (61, 900, Some(3)),
            (120, 900, Some(3)),
            (121, 900, Some(4)),
            (220, 900, Some(5)),
            (221, 900, None),
            (60, 901, Some(3)),
            (60, 1400, Some(3)),
            (60, 1401, Some(4)),
            (130, 1400, Some(4)),
        ] {
            assert_eq!(usual(kg_10 * 100, mm * 1000), hinges, "{kg_10}/10 kg, {mm} mm");
        }
    }
}
