//! Mass from volume and density, to the gram.

/// Mass of one member of a ball-bearing runner, in grams. Common practice, no source: put the
/// part on a scale when it matters.
pub const RUNNER_MEMBER_G: i64 = 350;

/// Grams of a volume in cubic micrometres at a density in kilograms per cubic metre.
pub fn of(volume: i128, density: i64) -> i64 {
    // um3 * kg/m3 = 1e-18 m3 * 1e3 g/m3 = 1e-15 g.
    const PER_GRAM: i128 = 1_000_000_000_000_000;
    let grams = (volume * i128::from(density) + PER_GRAM / 2) / PER_GRAM;
    i64::try_from(grams).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::of;
    use crate::units::Length;

    #[test]
    fn a_known_sheet_weighs_what_is_published() {
        // hunker.com/12001592: a 4 ft x 8 ft x 1/2 in sheet at 700 kg/m3 weighs about 26.4 kg
        // (the page's rounded steps give 26.39, exact arithmetic 26.429).
        let volume = i128::from(Length::inch(48, 1).get())
            * i128::from(Length::inch(96, 1).get())
            * i128::from(Length::inch(1, 2).get());
        assert_eq!(of(volume, 700), 26_429);
    }
}
