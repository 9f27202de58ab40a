//! Words over the picture, put where they cover the least.

use std::fmt::Write;

use super::painter::ViewBox;
use super::projection::Flat;
use super::sheet::{Fit, WIDTH, beside, escape, number};

/// Half the height of a line of words with its halo, in tenths.
const HALF_LINE: i128 = 170;

/// Half the width of a letter, in tenths: a bold letter of 24 units is about 14 wide.
const HALF_LETTER: i128 = 70;

/// What a hidden place weighs against one thing covered.
const HIDDEN: usize = 6;

/// Where words already are, and what they should leave free.
#[derive(Default)]
pub struct Labels {
    spots: Vec<Flat>,
    out: String,
}

impl Labels {
    /// Keeps a line of the drawing free: an arrow, a screw.
    pub fn avoid_line(&mut self, from: Flat, to: Flat) {
        self.spots.extend((0..=10).map(|k| beside(from, to, k * 100, 0)));
    }

    /// Writes the words at a place, moved inside the sheet.
    pub fn at(&mut self, place: Flat, class: &str, text: &str) {
        let half = half_width(text);
        let u = place[0].min(WIDTH - half).max(half.min(WIDTH / 2));
        // Writing to a String cannot fail; the result is let go.
        let _ = writeln!(
            self.out,
            "<text class=\"words halo {class}\" text-anchor=\"middle\" x=\"{}\" y=\"{}\">{}</text>",
            number(u),
            number(place[1] + 80),
            escape(text)
        );
        for k in -4..=4 {
            self.spots.push([u + half * k / 4, place[1]]);
        }
    }

    /// Writes the words on a line, where along it they cover the least.
    pub fn along(&mut self, from: Flat, to: Flat, class: &str, text: &str) {
        let places = [250, 750, 350, 650, 150, 850, 500].map(|k| beside(from, to, k, 0));
        if let Some(best) = places.into_iter().min_by_key(|p| self.covered(*p, text)) {
            self.at(best, class, text);
        }
    }

    /// How many spots the words would cover at a place.
    fn covered(&self, place: Flat, text: &str) -> usize {
        let half = half_width(text);
        let under =
            |s: &&Flat| (s[0] - place[0]).abs() <= half && (s[1] - place[1]).abs() <= HALF_LINE;
        self.spots.iter().filter(under).count()
    }

    /// Writes the words on a part: in its middle or up to a quarter of its size away, where they
    /// cover the least and where no other of `boxes` lies before it.
    pub fn on(&mut self, fit: &Fit, part: &ViewBox, boxes: &[&ViewBox], class: &str, text: &str) {
        let cost = |p: [i128; 3]| {
            let hidden = boxes.iter().any(|b| is_before(b, p));
            self.covered(fit.place(p), text) + if hidden { HIDDEN } else { 0 }
        };
        if let Some(best) = candidates(part).into_iter().min_by_key(|p| cost(*p)) {
            self.at(fit.place(best), class, text);
        }
    }

    /// All words, to stand over everything else.
    pub fn finish(self) -> String {
        self.out
    }
}

fn half_width(text: &str) -> i128 {
    i128::try_from(text.chars().count()).unwrap_or(0) * HALF_LETTER
}

/// Whether the box hides the point from the eye.
fn is_before(b: &ViewBox, p: [i128; 3]) -> bool {
    let enter = b.min.iter().zip(&p).map(|(c, p)| c - p).max();
    let leave = b.max.iter().zip(&p).map(|(c, p)| c - p).min();
    matches!((enter, leave), (Some(a), Some(b)) if a < b && b > 0)
}

/// Points of a part, its middle first.
fn candidates(part: &ViewBox) -> Vec<[i128; 3]> {
    let quarters = |k: usize| {
        let (lo, hi) =
            (part.min.get(k).copied().unwrap_or(0), part.max.get(k).copied().unwrap_or(0));
        [2, 3, 1].map(|q| lo + (hi - lo) * q / 4)
    };
    let (xs, ys, zs) = (quarters(0), quarters(1), quarters(2));
    let mut points = Vec::with_capacity(27);
    for x in xs {
        for y in ys {
            points.extend(zs.map(|z| [x, y, z]));
        }
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_lies_towards_the_eye_hides() {
        let b = |v: [i128; 3]| ViewBox { min: v, max: v.map(|c| c + 4), item: 0, splits: true };
        assert!(is_before(&b([1, 1, 1]), [0, 0, 0]));
        assert!(!is_before(&b([-9, -9, -9]), [0, 0, 0]));
        assert!(!is_before(&b([1, 1, 9]), [0, 0, 0]));
    }
}
