//! A part as it was made against the part that the design wants now.

use crate::assembly::Part;
use crate::geometry::{Box3, Solid};
use crate::units::Length;

/// So much off is fine: a sixty-fourth of an inch (common practice, no source).
pub const FINE: i64 = 397;

/// What becomes of a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// It serves.
    Fine,
    /// Something has to come off.
    Trim(Vec<Off>),
    /// It lacks wood.
    Remake(Short),
}

/// What comes off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Off {
    /// Of its length (0) or width (1), so much.
    Size(usize, i64),
    /// Grooves, dadoes or notches.
    Inside,
}

/// What is missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Short {
    /// Of its length (0) or width (1), so much.
    Size(usize, i64),
    /// It is of another thickness.
    Thickness(i64),
    /// Wood where a groove or notch is.
    Inside,
}

/// Length, width, thickness.
pub fn sizes(part: &Part) -> [i64; 3] {
    [part.length.get(), part.width.get(), part.thickness.get()]
}

/// Along which axis a part has its length, its width and its thickness.
fn axes(part: &Part) -> [usize; 3] {
    let bounds = part.solid.bounds();
    let mut left = vec![0, 1, 2];
    let mut take = |size: Length| {
        let at = left.iter().position(|&a| bounds.extent(a) == size.get()).unwrap_or(0);
        left.remove(at)
    };
    let thin = take(part.thickness);
    let long = take(part.length);
    [long, take(part.width), thin]
}

/// Gives a part other sizes; what is cut into it stays measured from its left, front, lower corner.
pub fn resize(part: &mut Part, to: [Option<Length>; 3]) {
    let axes = axes(part);
    let bounds = part.solid.bounds();
    let mut boxes: Vec<Box3> = part.solid.boxes().to_vec();
    for (axis, to) in axes.into_iter().zip(to) {
        let Some(to) = to else { continue };
        let end = bounds.min[axis] + to.get();
        for b in &mut boxes {
            if b.max[axis] == bounds.max[axis] || b.max[axis] > end {
                b.max[axis] = end;
            }
        }
        boxes.retain(Box3::is_valid);
    }
    let [length, width, thickness] = sizes(part);
    part.length = to[0].unwrap_or(Length(length));
    part.width = to[1].unwrap_or(Length(width));
    part.thickness = to[2].unwrap_or(Length(thickness));
    part.solid = Solid::from_boxes(boxes);
}

/// Judges a part as made against the one wanted.
pub fn compare(made: &Part, wanted: &Part) -> Verdict {
    let along = axes(wanted);
    let (is, must) = (sizes(made), sizes(wanted));
    let more: Vec<i64> = is.iter().zip(must).map(|(is, must)| is - must).collect();
    if more[2].abs() > FINE {
        return Verdict::Remake(Short::Thickness(more[2].abs()));
    }
    if let Some((way, less)) = more.iter().enumerate().take(2).find(|(_, more)| **more < -FINE) {
        return Verdict::Remake(Short::Size(way, -less));
    }
    let mut off: Vec<Off> =
        (0..2).filter(|&w| more[w] > FINE).map(|w| Off::Size(w, more[w])).collect();
    // Off either end: the first way that leaves wood wherever it is wanted.
    let ends = 1 << off.len();
    let fits = (0..ends).find_map(|choice| {
        let mut by = [0; 3];
        for (n, o) in off.iter().enumerate() {
            if let (Off::Size(way, more), true) = (o, choice >> n & 1 == 1) {
                by[along[*way]] = *more;
            }
        }
        inside(made, wanted, by)
    });
    match fits {
        None => Verdict::Remake(Short::Inside),
        Some(same) => {
            if off.is_empty() && !same {
                off.push(Off::Inside);
            }
            if off.is_empty() { Verdict::Fine } else { Verdict::Trim(off) }
        }
    }
}

/// Whether all the wood of the wanted part is there in the made one, moved so from its left, front,
/// lower corner: and if so, whether nothing else is inside its outline.
fn inside(made: &Part, wanted: &Part, by: [i64; 3]) -> Option<bool> {
    let (have, want) = (made.solid.bounds(), wanted.solid.bounds());
    let have_boxes: Vec<Box3> =
        made.solid.boxes().iter().map(|b| b.moved(have.min.map(|v| -v))).collect();
    let near = |axis: usize, v: i64| {
        let edges = have_boxes.iter().flat_map(|b| [b.min[axis], b.max[axis]]);
        edges.min_by_key(|e| ((e - v).abs(), *e)).filter(|e| (e - v).abs() <= FINE).unwrap_or(v)
    };
    let snapped = |b: &Box3| {
        let at = b.moved([0, 1, 2].map(|a| by[a] - want.min[a]));
        Box3 {
            min: [0, 1, 2].map(|a| near(a, at.min[a])),
            max: [0, 1, 2].map(|a| near(a, at.max[a])),
        }
    };
    let want_boxes: Vec<Box3> =
        wanted.solid.boxes().iter().map(snapped).filter(Box3::is_valid).collect();
    let shared: i128 = want_boxes
        .iter()
        .flat_map(|w| have_boxes.iter().filter_map(|h| w.intersection(h)))
        .map(|b| b.volume())
        .sum();
    let wanted: i128 = want_boxes.iter().map(Box3::volume).sum();
    if shared < wanted {
        return None;
    }
    let outline = want_boxes.iter().copied().reduce(|a, b| a.union(&b))?;
    let there: i128 =
        have_boxes.iter().filter_map(|h| h.intersection(&outline)).map(|b| b.volume()).sum();
    Some(there == wanted)
}
