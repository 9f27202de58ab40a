//! Words and small text tools that the writers share.

use crate::assembly::Fastener;
use crate::geometry::Direction;
use crate::plan::{ClampPlace, DriverUse, Plan, Spacer, Step};
use crate::units::{Length, Notation};

/// A face of the standing piece, as a maker says it.
pub fn face(d: Direction) -> &'static str {
    match d {
        Direction::Left => "left side",
        Direction::Right => "right side",
        Direction::Front => "front",
        Direction::Back => "back",
        Direction::Down => "underside",
        Direction::Up => "top",
    }
}

/// The way a part moves, in the standing piece.
pub fn way(d: Direction) -> &'static str {
    match d {
        Direction::Left => "towards the left of the piece",
        Direction::Right => "towards the right of the piece",
        Direction::Front => "towards the front of the piece",
        Direction::Back => "towards the back of the piece",
        Direction::Down => "towards the underside of the piece",
        Direction::Up => "towards the top of the piece",
    }
}

/// Name of a part by its id, or the id itself: holds may name a body instead.
pub fn name<'a>(plan: &'a Plan, id: &'a str) -> &'a str {
    plan.name_of(id)
}

/// Screws of one step that are alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScrewGroup<'a> {
    /// One of them.
    pub screw: &'a Fastener,
    /// How many there are.
    pub count: usize,
}

/// The screws of a step with their joints, in the order they are driven. Ids that the plan does
/// not hold are passed over.
pub fn screws<'a>(plan: &'a Plan, step: &Step) -> Vec<&'a Fastener> {
    step.fasteners
        .iter()
        .filter_map(|id| plan.joints.iter().flat_map(|j| &j.fasteners).find(|f| f.id == *id))
        .collect()
}

/// The screws of a step by kind and size, in the order they come first.
pub fn screw_groups<'a>(plan: &'a Plan, step: &Step) -> Vec<ScrewGroup<'a>> {
    let mut groups: Vec<ScrewGroup<'a>> = Vec::new();
    for screw in screws(plan, step) {
        let alike = |f: &Fastener| {
            f.kind == screw.kind
                && f.gauge == screw.gauge
                && f.length == screw.length
                && f.pilot == screw.pilot
        };
        match groups.iter_mut().find(|g| alike(g.screw)) {
            Some(group) => group.count += 1,
            None => groups.push(ScrewGroup { screw, count: 1 }),
        }
    }
    groups
}

/// `3 screws, #8 × 2 in`, without the pilot.
pub fn screw_group(group: &ScrewGroup<'_>, unit: Notation) -> String {
    let f = group.screw;
    let plural = if group.count == 1 { "" } else { "s" };
    let length = unit.finest().print(f.length);
    format!("{} {}{plural}, #{} × {length}", group.count, tidy(&f.kind), f.gauge)
}

/// `left side to right side, opening 500 mm`.
pub fn clamp(plan: &Plan, clamp: &ClampPlace) -> String {
    let [a, b] = [&clamp.parts[0], &clamp.parts[1]].map(|id| plan.name_of(id));
    format!("{a} to {b}, opening {}", length(plan.unit, clamp.opening))
}

/// `offset driver, for 2 of the screws`, or `for all screws` of the step.
pub fn driver(step: &Step, with: &DriverUse) -> String {
    let screws = if with.fasteners.len() >= step.fasteners.len() {
        "all screws".to_owned()
    } else {
        format!("{} of the {} screws", with.fasteners.len(), step.fasteners.len())
    };
    format!("{}, for {screws}", with.tool)
}

/// A length in micrometres in the given notation: the finest where it must not be rounded, for a pilot of
/// 7/64 in is not 1/8 in, nor a sheet of 15/32 in 1/2 in.
pub fn length(unit: Notation, um: i64) -> String {
    unit.print(Length::um(um))
}

/// `bottom, 18 mm`: what serves as a spacer, and its size across the gap.
pub fn spacer(plan: &Plan, spacer: &Spacer) -> String {
    format!("{}, {}", tidy(name(plan, &spacer.part)), plan.spacer_size(spacer))
}

/// The text on one line: runs of white space and control characters become one space.
pub fn tidy(text: &str) -> String {
    text.split(|c: char| c.is_whitespace() || c.is_control())
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

/// Columns of a text on paper: a page of 80 with a margin.
pub const COLUMNS: usize = 78;

/// The title of a text on paper, underlined, and an empty line.
pub fn title(text: &str) -> String {
    let lines = wrap("", text, COLUMNS);
    let widest = lines.lines().map(|l| l.chars().count()).max().unwrap_or(0);
    format!("{lines}{}\n\n", "=".repeat(widest))
}

/// The text as lines of at most `columns` characters: `first` starts the first, spaces of the
/// same width the others. A word too long for a line is broken, never let out.
pub fn wrap(first: &str, text: &str, columns: usize) -> String {
    let indent = first.chars().count();
    let room = columns.saturating_sub(indent).max(8);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    let mut used = 0;
    for word in tidy(text).split(' ') {
        let letters: Vec<char> = word.chars().collect();
        for piece in letters.chunks(room) {
            if used > 0 && used + 1 + piece.len() > room {
                lines.push(std::mem::take(&mut line));
                used = 0;
            }
            if used > 0 {
                line.push(' ');
                used += 1;
            }
            line.extend(piece);
            used += piece.len();
        }
    }
    lines.push(line);
    let mut out = String::new();
    for (i, line) in lines.iter().enumerate() {
        if i == 0 {
            out.push_str(first);
        } else {
            out.push_str(&" ".repeat(indent));
        }
        out.push_str(line);
        out.truncate(out.trim_end_matches(' ').len());
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrapping_keeps_every_word_and_the_width() {
        let text = "Lay the left side on its back edge, outer face to the left, and mind \
                    the toe-kick notch: it points to the right.";
        let out = wrap("  1. ", text, 30);
        assert!(out.lines().all(|l| l.chars().count() <= 30), "{out}");
        assert!(out.lines().skip(1).all(|l| l.starts_with("     ") && !l.starts_with("      ")));
        let words: Vec<_> = out.split_whitespace().skip(1).collect();
        assert_eq!(words, text.split_whitespace().collect::<Vec<_>>());
    }

    #[test]
    fn a_word_longer_than_the_line_is_broken() {
        let out = wrap("- ", &"x".repeat(50), 22);
        assert!(out.lines().all(|l| l.chars().count() <= 22));
        assert_eq!(out.matches('x').count(), 50);
    }

    #[test]
    fn line_breaks_in_names_do_not_break_lines() {
        assert_eq!(tidy(" left\r\n side\u{7} "), "left side");
    }
}
