//! The sheet of a drawing: fitting, numbers and text of SVG.

use super::painter::ViewBox;
use super::projection::{Flat, View};
use super::scene::Scene;

/// Room for the picture on the sheet, in tenths of its unit.
const ROOM: [i128; 2] = [10_000, 7_000];

/// Margin round the picture, in tenths.
pub const MARGIN: i128 = 500;

/// Width of the sheet, in tenths.
pub const WIDTH: i128 = ROOM[0] + 2 * MARGIN;

/// From view axes to tenths of a unit of the sheet.
pub struct Fit {
    /// Where the eye stands.
    pub view: View,
    min: Flat,
    /// Scale, as a fraction.
    scale: (i128, i128),
    /// What is left over to the left, to centre the picture.
    left: i128,
    /// Height of the picture, in tenths.
    pub height: i128,
}

impl Fit {
    /// The greatest scale at which the whole scene has room.
    pub fn new(scene: &Scene<'_>) -> Fit {
        let view = scene.view;
        let boxes = scene.pieces.iter().flat_map(|p| &p.boxes).chain(&scene.bench);
        let mut flats: Vec<Flat> = boxes.flat_map(corners).map(|p| view.flat(p)).collect();
        let points = scene.screws.iter().map(|s| s.head);
        let points = points.chain(scene.checks.iter().flat_map(|c| c.ends));
        flats.extend(points.chain(scene.guides.iter().copied().flatten()).map(|p| view.flat(p)));
        let range = |f: fn(&Flat) -> i128| {
            let lo = flats.iter().map(f).min().unwrap_or(0);
            (lo, flats.iter().map(f).max().unwrap_or(0) - lo)
        };
        let ((u, width), (v, height)) = (range(|p| p[0]), range(|p| p[1]));
        let (width, height) = (width.max(1), height.max(1));
        let wide = width * ROOM[1] >= height * ROOM[0];
        let scale = if wide { (ROOM[0], width) } else { (ROOM[1], height) };
        let size = |extent: i128| extent * scale.0 / scale.1;
        let left = (ROOM[0] - size(width)) / 2;
        Fit { view, min: [u, v], scale, left, height: size(height) }
    }

    /// The place on the sheet of a point in view axes.
    pub fn place(&self, p: [i128; 3]) -> Flat {
        let [u, v] = self.view.flat(p);
        let to = |c: i128, min: i128| (c - min) * self.scale.0 / self.scale.1 + MARGIN;
        [to(u, self.min[0]) + self.left, to(v, self.min[1])]
    }

    /// Path data through the points, closed.
    pub fn closed(&self, points: &[[i128; 3]]) -> String {
        let flats: Vec<_> = points.iter().map(|p| self.place(*p)).collect();
        polygon(&flats)
    }

    /// Path data of lines apart.
    pub fn lines(&self, lines: &[[[i128; 3]; 2]]) -> String {
        lines
            .iter()
            .map(|[p, q]| format!("M{}L{}", pair(self.place(*p)), pair(self.place(*q))))
            .collect()
    }
}

/// All corners of a box.
pub fn corners(b: &ViewBox) -> impl Iterator<Item = [i128; 3]> + use<> {
    let ([x0, y0, z0], [x1, y1, z1]) = (b.min, b.max);
    [x0, x1].into_iter().flat_map(move |x| {
        [y0, y1].into_iter().flat_map(move |y| [z0, z1].into_iter().map(move |z| [x, y, z]))
    })
}

/// Tenths as a number without a needless `.0`.
pub fn number(tenths: i128) -> String {
    let sign = if tenths < 0 { "-" } else { "" };
    let (whole, tenth) = (tenths.unsigned_abs() / 10, tenths.unsigned_abs() % 10);
    if tenth == 0 { format!("{sign}{whole}") } else { format!("{sign}{whole}.{tenth}") }
}

/// `x,y` of a place on the sheet.
pub fn pair([u, v]: Flat) -> String {
    format!("{},{}", number(u), number(v))
}

/// Path data through places on the sheet, closed.
pub fn polygon(places: &[Flat]) -> String {
    let places: Vec<_> = places.iter().map(|p| pair(*p)).collect();
    format!("M{}Z", places.join("L"))
}

/// Distance of two places, at least 1.
pub fn distance(a: Flat, b: Flat) -> i128 {
    ((b[0] - a[0]).pow(2) + (b[1] - a[1]).pow(2)).isqrt().max(1)
}

/// A place at `along` thousandths of the way from `from` to `to`, moved `aside` tenths square to
/// it.
pub fn beside(from: Flat, to: Flat, along: i128, aside: i128) -> Flat {
    let (du, dv) = (to[0] - from[0], to[1] - from[1]);
    let length = distance(from, to);
    [
        from[0] + du * along / 1000 - dv * aside / length,
        from[1] + dv * along / 1000 + du * aside / length,
    ]
}

/// Text safe inside an element or an attribute; what XML does not allow at all becomes U+FFFD.
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(c),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_signed() {
        for (tenths, wanted) in [(0, "0"), (5, "0.5"), (-5, "-0.5"), (120, "12"), (-123, "-12.3")] {
            assert_eq!(number(tenths), wanted);
        }
    }

    #[test]
    fn beside_goes_along_and_square() {
        assert_eq!(beside([0, 0], [1000, 0], 250, 40), [250, 40]);
        assert_eq!(beside([0, 0], [0, 1000], 250, 40), [-40, 250]);
    }
}
