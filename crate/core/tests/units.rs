//! Reading and printing lengths, over lengths and texts nobody thought of.

use jointwise::units::{Length, MAX_LENGTH, Notation, Unit, parse_length};
use proptest::prelude::*;

const UNITS: [Unit; 5] = [Unit::Inch, Unit::Foot, Unit::Millimetre, Unit::Centimetre, Unit::Metre];

proptest! {
    #[test]
    fn printing_what_was_printed_changes_nothing(um in 0..=MAX_LENGTH.get() - 1_000, unit in 0..5usize) {
        for notation in Notation::ALL {
            let text = notation.print(Length::um(um));
            let read = parse_length(&text, UNITS[unit]);
            prop_assert!(read.is_ok(), "{text}: {read:?}");
            let read = read.unwrap();
            prop_assert_eq!(&notation.print(read), &text);
            // Half a step, and half a micrometre from the rounding of the reading.
            let off = (read.get() - um).abs();
            prop_assert!(
                2 * off * notation.steps() <= notation.unit().micrometres() + notation.steps(),
                "{um} printed {text}, off by {off}"
            );
        }
    }

    #[test]
    fn what_a_notation_can_hold_comes_back_exactly(steps in 0..60_000i64) {
        for notation in Notation::ALL {
            let per = notation.steps();
            // By the definition of the unit, not by the code under test.
            let exact = 2 * steps * notation.unit().micrometres();
            let length = Length::um((exact + per) / (2 * per));
            prop_assert_eq!(parse_length(&notation.print(length), Unit::Metre), Ok(length));
        }
    }

    #[test]
    fn a_fraction_is_its_quotient(whole in 0..500i64, above in 0..64i64, power in 1..7u32) {
        let below = 1i64 << power;
        let above = above % below;
        let want = Length::inch(whole * below + above, below);
        let text = format!("{whole} {above}/{below}");
        prop_assert_eq!(parse_length(&text, Unit::Inch), Ok(want));
        let feet = format!("{}' {} {above}/{below}\"", whole / 12, whole % 12);
        prop_assert_eq!(parse_length(&feet, Unit::Millimetre), Ok(want));
    }

    #[test]
    fn any_text_gives_a_length_in_range_or_a_sentence(text in "\\PC{0,80}") {
        check(&text)?;
    }

    #[test]
    fn near_misses_give_a_length_in_range_or_a_sentence(
        text in "[0-9./,'\" \\-½⅝′″ainmcfteN]{0,40}"
    ) {
        check(&text)?;
    }
}

fn check(text: &str) -> Result<(), TestCaseError> {
    for unit in UNITS {
        match parse_length(text, unit) {
            Ok(length) => prop_assert!((Length::ZERO..=MAX_LENGTH).contains(&length)),
            Err(error) => prop_assert!(error.to_string().ends_with('.')),
        }
    }
    Ok(())
}
