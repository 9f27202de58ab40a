//! What the things that go in take: room, runners, and sizes that the saw is set to.

use crate::scenario::{Arrange, Content, Runner, RunnerKind};
use crate::units::{Length, Notation};

/// Room that the contents take with their clearances.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Need {
    /// Left to right.
    pub width: i64,
    /// Front to back.
    pub depth: i64,
    /// From the surface they stand on.
    pub height: i64,
}

/// What the contents need; none when nothing goes in.
///
/// Things of one size stand in one row; rows of different things stand one behind the other,
/// with the wider of the two clearances between them.
pub fn need(contents: &[Content]) -> Option<Need> {
    need_of(contents.iter())
}

/// The same of some of them.
pub fn need_of<'a>(contents: impl Iterator<Item = &'a Content>) -> Option<Need> {
    let mut contents = contents.peekable();
    let air = contents.peek()?.clearance.get();
    let mut need = Need { width: 0, depth: air, height: 0 };
    while let Some(c) = contents.next() {
        let air = c.clearance.get();
        let (across, deep) = rows(c);
        let (across, deep) = (i64::from(across), i64::from(deep));
        need.width = need.width.max(across * c.width.get() + (across + 1) * air);
        need.height = need.height.max(c.height.get() + air);
        let behind = contents.peek().map_or(air, |next| next.clearance.get().max(air));
        need.depth += deep * c.depth.get() + (deep - 1) * air + behind;
    }
    Some(need)
}

/// How many stand across the width, and in how many rows.
pub fn rows(c: &Content) -> (u32, u32) {
    match c.arrange {
        Arrange::SideBySide => (c.count, 1),
        Arrange::InLine => (1, c.count),
        Arrange::Grid(across) => (across.max(1), c.count.div_ceil(across.max(1))),
    }
}

/// What the width loses from the inside of the carcass to the inside of the box.
///
/// Undermount: one number whatever the side's thickness, because the hook sits at the side's
/// inner face (generic: opening less 1 5/8 in, or 42 mm; common practice, no source).
/// Side-mount: the runners and the sides.
pub fn lost_in_box(runner: &Runner, side: Length) -> i64 {
    match runner.kind {
        RunnerKind::Undermount => runner.inside_deduction.get(),
        RunnerKind::SideMount => 2 * runner.thickness.get() + 2 * side.get(),
    }
}

/// What the width loses from the outside of a carcass to the insides of all its bays: sides and dividers of that
/// thickness, and in each bay what a box there loses.
pub fn lost_in_carcass(dividers: u8, thickness: Length, in_box: i64) -> i64 {
    let bays = i64::from(dividers) + 1;
    (bays + 1) * thickness.get() + bays * in_box
}

/// Up to the next sixteenth of an inch, or half millimetre, that the saw is set to.
pub fn round_up(um: i64, notation: Notation) -> i64 {
    match notation {
        Notation::Inch16 | Notation::Inch32 | Notation::Inch64 => {
            let mut n = um * 16 / Length::INCH;
            while Length::inch(n, 16).get() < um {
                n += 1;
            }
            Length::inch(n, 16).get()
        }
        Notation::MmHalf | Notation::MmTenth => (um + 499).div_euclid(500) * 500,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bin(count: u32, arrange: Arrange) -> Content {
        Content {
            name: "bin".to_owned(),
            width: Length::mm(300),
            depth: Length::mm(400),
            height: Length::mm(500),
            count,
            clearance: Length::mm(6),
            mass_g: 0,
            lift: Length::ZERO,
            arrange,
        }
    }

    #[test]
    fn air_stands_between_and_on_both_sides() {
        let side = need(&[bin(2, Arrange::SideBySide)]);
        assert_eq!(side, Some(Need { width: 618_000, depth: 412_000, height: 506_000 }));
        let line = need(&[bin(2, Arrange::InLine)]);
        assert_eq!(line, Some(Need { width: 312_000, depth: 818_000, height: 506_000 }));
        let both = need(&[bin(2, Arrange::SideBySide), bin(1, Arrange::InLine)]);
        assert_eq!(both, Some(Need { width: 618_000, depth: 818_000, height: 506_000 }));
        assert_eq!(need(&[]), None);
    }

    #[test]
    fn rounding_up_never_loses() {
        for um in (1..600_000).step_by(397) {
            for notation in [Notation::Inch16, Notation::MmHalf] {
                let up = round_up(um, notation);
                assert!(up >= um && up - um <= 1588, "{um} -> {up}");
                assert_eq!(round_up(up, notation), up);
            }
        }
    }
}
