//! Any text as a length.

use jointwise::units::{Length, MAX_LENGTH, Notation, Unit, parse_length};

/// Reads it in every unit; what is read prints to a text that reads back to what was printed.
///
/// # Panics
/// When it does not.
pub fn run(bytes: &[u8]) {
    let text = &String::from_utf8_lossy(bytes);
    for unit in [Unit::Inch, Unit::Foot, Unit::Millimetre, Unit::Centimetre, Unit::Metre] {
        if let Ok(length) = parse_length(text, unit) {
            assert!((Length(0)..=MAX_LENGTH).contains(&length), "{length:?} of {text:?}");
            Notation::ALL.iter().for_each(|notation| survives(*notation, length, text));
        }
    }
    // A length that no text gave: the first bytes as a number.
    if let Some(first) = bytes.first_chunk() {
        let um = i64::from_le_bytes(*first);
        for notation in Notation::ALL {
            notation.print(Length(um));
            survives(notation, Length(um.rem_euclid(MAX_LENGTH.get() + 1)), text);
        }
    }
}

fn survives(notation: Notation, length: Length, from: &str) {
    let printed = notation.print(length);
    // The unit is printed: the one for bare numbers must not matter.
    let read = parse_length(&printed, Unit::Foot);
    let Ok(read) = read else {
        // Rounded up over the longest.
        assert!(length > Length(MAX_LENGTH.get() - 1000), "{printed:?} of {from:?}: {read:?}");
        return;
    };
    assert_eq!(notation.print(read), printed, "of {from:?}");
    // Twice the distance times the steps is at most the unit, and a micrometre for the reader's own rounding.
    let off = 2 * (i128::from(read.get()) - i128::from(length.get())).abs();
    let unit = i128::from(notation.unit().micrometres());
    let steps = i128::from(notation.steps());
    assert!(off * steps <= unit + 2 * steps, "{length:?} of {from:?} is printed {printed}");
}
