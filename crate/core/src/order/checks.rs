//! What to measure, where and when: found from the geometry, while it can still be put right.

use crate::assembly::JointKind;
use crate::geometry::{Box3, Direction, Point};
use crate::plan::{Check, CheckKind};
use crate::units::{Length, Notation};

use super::bodies::Grouping;
use super::locate::Gap;
use super::scene::{Scene, members};
use super::square;
use super::words;

/// Two diagonals may differ by 1/32 in (0.8 mm): common practice, no source.
pub const DIAGONAL_TOLERANCE: i64 = 794;
/// Two widths may differ by half a millimetre: common practice, no source.
pub const WIDTH_TOLERANCE: i64 = 500;
/// Faces are flush within what a fingertip feels, 0.4 mm: common practice, no source.
pub const FLUSH_TOLERANCE: i64 = 400;

/// Square root to the nearest integer.
pub fn root(n: i128) -> i64 {
    let low = n.max(0).isqrt();
    let up = n - low * low > low;
    i64::try_from(low + i128::from(up)).unwrap_or(i64::MAX)
}

/// Distance between two points, to the micrometre.
pub fn distance(p: Point, q: Point) -> i64 {
    root((0..3).map(|a| i128::from(p[a] - q[a]) * i128::from(p[a] - q[a])).sum())
}

/// Whether an item locks a frame: laid over three or more others in one plane.
pub fn braces(scene: &Scene, item: usize, set: u64) -> Option<Direction> {
    let mut planes = Vec::new();
    let mut under = 0u64;
    for l in members(scene.links_of(item, set)) {
        if scene.links[l].kind != JointKind::Overlay {
            continue;
        }
        let [own, other] = scene.ends(l, item);
        let largest = scene
            .contacts(own, other)
            .min_by_key(|c| (std::cmp::Reverse(c.area()), c.direction, c.face))?;
        under |= 1 << other;
        planes.push((largest.direction, largest.face.min[largest.direction.axis()]));
    }
    let first = *planes.first()?;
    (under.count_ones() >= 3 && planes.iter().all(|&p| p == first)).then_some(first.0)
}

/// Whether placing `item` closes a ring of fastened parts.
pub fn closes_ring(scene: &Scene, item: usize, set: u64) -> bool {
    members(scene.links_of(item, set)).filter(|&l| scene.links[l].fastens).count() >= 2
        && set.count_ones() >= 3
}

/// The diagonals of the rectangle a set shows on `side`, when a tape can lie along them.
pub fn diagonals(scene: &Scene, set: u64, side: Direction, notation: Notation) -> Option<Check> {
    let lines = square::lines(scene, set, side)?;
    let expected = distance(lines[0][0], lines[0][1]);
    // Of a difference, so much is the push along the longer side.
    let side = square::longer_side(&lines);
    let off = 4 * DIAGONAL_TOLERANCE;
    let push = square::shear(expected + off / 2, expected - off / 2, side);
    Some(Check {
        kind: CheckKind::Diagonals,
        expected: vec![expected, expected],
        tolerance: DIAGONAL_TOLERANCE,
        between: lines.to_vec(),
        text: format!(
            "Measure both diagonals: {} each. If one is longer, squeeze along it until they agree; at {} of difference the long sides shift by {}.",
            notation.print(Length(expected)),
            notation.print(Length(off)),
            notation.print(Length(push)),
        ),
    })
}

/// What a square held in a corner shows where the diagonals are just within their tolerance, for a shop that has
/// one rather than a tape long enough.
pub fn by_square(check: &Check, notation: Notation) -> Option<String> {
    let lines: square::Lines = check.between.clone().try_into().ok()?;
    let [long, short] = [square::longer_side(&lines), square::shorter_side(&lines)];
    let (expected, half) = (*check.expected.first()?, check.tolerance / 2);
    // What a usual square reaches: common practice, no source.
    let arm = if notation.unit().is_imperial() { Length::inch(12, 1) } else { Length::mm(300) };
    let lean = square::shear(expected + half, expected - half, long);
    let light = lean * arm.get() / short.max(1);
    Some(format!(
        " With a square in a corner instead: at {} along its arm no more light than {}.",
        notation.print(arm),
        notation.finest().print(Length(light))
    ))
}

/// The two ends of a frame whose diagonals are measured: equal diagonals prove it square only when
/// opposite sides are equal too.
pub fn ends(check: &Check, notation: Notation) -> Option<Check> {
    let lines: square::Lines = check.between.clone().try_into().ok()?;
    let [first, second] = square::sides(&lines);
    // Across the frame, from one long side to the other: the distance that a part cut short or set
    // askew changes.
    let across = |s: &(usize, [[Point; 2]; 2])| distance(s.1[0][0], s.1[0][1]);
    let (_, between) = if across(&first) <= across(&second) { first } else { second };
    let width = distance(between[0][0], between[0][1]);
    Some(Check {
        kind: CheckKind::EqualWidths,
        expected: vec![width, width],
        tolerance: WIDTH_TOLERANCE,
        between: between.to_vec(),
        text: format!(
            "Equal diagonals are square only between equal ends: {} at both.",
            notation.print(Length(width))
        ),
    })
}

/// Widths to compare when `item` comes to stand opposite a part already there, both joined to a
/// third.
pub fn equal_widths(
    scene: &Scene,
    grouping: &Grouping,
    item: usize,
    set: u64,
    notation: Notation,
) -> Option<Check> {
    let own = scene.items[item].datum;
    let there = set | scene.masks[item];
    let mut best: Option<(i128, Check)> = None;
    for other in members(set) {
        let theirs = scene.items[other].datum;
        for axis in 0..3 {
            let gap = -own.overlap(&theirs, axis);
            let [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
            let (wide, high) = (own.overlap(&theirs, u), own.overlap(&theirs, v));
            // Opposite and alike: most of each face looks at the other.
            if gap <= 0 || 2 * wide < own.extent(u) || 2 * high < own.extent(v) {
                continue;
            }
            if own.extent(axis) > own.extent(u) || own.extent(axis) > own.extent(v) {
                continue;
            }
            // Some third part spans the gap and is fastened to both.
            let spans = |third: usize, end: usize| {
                let butted = members(scene.links_of(end, 1 << third))
                    .any(|l| !scene.links[l].kind.is_channel());
                butted
                    && scene.items[end]
                        .solid
                        .contacts(&scene.items[third].solid)
                        .iter()
                        .any(|c| c.direction.axis() == axis)
            };
            if !members(set & !(1 << other)).any(|t| spans(t, item) && spans(t, other)) {
                continue;
            }
            let (long, across) = if wide >= high { (u, v) } else { (v, u) };
            let area = i128::from(wide) * i128::from(high);
            let (from, to) = if own.min[axis] > theirs.min[axis] {
                (theirs.max[axis], own.min[axis])
            } else {
                (own.max[axis], theirs.min[axis])
            };
            let ends = [own.min[long].max(theirs.min[long]), own.max[long].min(theirs.max[long])];
            let rows =
                [own.min[across].max(theirs.min[across]), own.max[across].min(theirs.max[across])];
            let line = |at_long: i64, at_across: i64| {
                let mut p = [0; 3];
                p[long] = at_long;
                p[across] = at_across;
                let mut q = p;
                p[axis] = from;
                q[axis] = to;
                [p, q]
            };
            let clear = |l: &[Point; 2]| {
                let mut thread = Box3::new(
                    std::array::from_fn(|a| l[0][a].min(l[1][a]) - 1),
                    std::array::from_fn(|a| l[0][a].max(l[1][a]) + 1),
                );
                thread.min[axis] += 1;
                thread.max[axis] -= 1;
                let crossed = members(there)
                    .any(|i| scene.items[i].solid.boxes().iter().any(|b| b.intersects(&thread)));
                let ends_on =
                    l.iter().all(|p| [item, other].iter().any(|&i| scene.items[i].solid.holds(*p)));
                ends_on && !crossed
            };
            let middle = i64::midpoint(rows[0], rows[1]);
            let pair = [rows[1], rows[0], middle].into_iter().find_map(|row| {
                // Just inside the ends, where a tape can lie.
                let inset = 10_000;
                let lines = [line(ends[0] + inset, row), line(ends[1] - inset, row)];
                lines.iter().all(clear).then_some(lines)
            });
            let Some(lines) = pair else { continue };
            let name = words::mate_name(scene, grouping, other);
            let check = Check {
                kind: CheckKind::EqualWidths,
                expected: vec![gap, gap],
                tolerance: WIDTH_TOLERANCE,
                between: lines.to_vec(),
                text: format!(
                    "Measure to the {name} at both ends: {} at each.",
                    notation.print(Length(gap))
                ),
            };
            if best.as_ref().is_none_or(|(a, _)| area > *a) {
                best = Some((area, check));
            }
        }
    }
    best.map(|(_, check)| check)
}

/// A distance that nothing sets.
pub fn gap(
    scene: &Scene,
    grouping: &Grouping,
    item: usize,
    gap: &Gap,
    notation: Notation,
) -> Check {
    let size = (gap.to - gap.from).abs();
    let mate = words::mate_name(scene, grouping, gap.mate);
    let own = words::mate_name(scene, grouping, item);
    let end = words::part_side(&scene.items[gap.mate].datum, gap.side);
    // A place where both ends of the distance are there to measure between.
    let axis = gap.direction.axis();
    let between = scene.contacts(item, gap.mate).find_map(|c| {
        [c.face.min, c.face.max].into_iter().find_map(|corner| {
            let (mut p, mut q) = (corner, corner);
            p[axis] = gap.from;
            q[axis] = gap.to;
            let there = scene.items[gap.mate].solid.holds(p) && scene.items[item].solid.holds(q);
            there.then_some([p, q])
        })
    });
    Check {
        kind: CheckKind::Gap,
        expected: if between.is_some() { vec![size] } else { Vec::new() },
        tolerance: WIDTH_TOLERANCE,
        between: between.into_iter().collect(),
        text: format!(
            "Set the {own}: {} from the {end} of the {mate}.",
            notation.print(Length(size))
        ),
    }
}

/// Two faces that must be level.
pub fn flush(
    scene: &Scene,
    grouping: &Grouping,
    [item, mate]: [usize; 2],
    side: Direction,
) -> Check {
    // A face that is not the mate's outermost on that side lies in a notch or a step of it.
    let level = scene.items[item].datum.face(side);
    let outermost = scene.items[mate].bounds.face(side) == level;
    let mate = words::mate_name(scene, grouping, mate);
    let text = if outermost {
        format!("Flush with the {mate} at the {}.", side_name(side))
    } else {
        format!("Flush with the edge that is cut into the {mate} at the {}.", side_name(side))
    };
    Check {
        kind: CheckKind::Flush,
        expected: vec![0],
        tolerance: FLUSH_TOLERANCE,
        between: Vec::new(),
        text,
    }
}

fn side_name(d: Direction) -> &'static str {
    match d {
        Direction::Left => "left",
        Direction::Right => "right",
        Direction::Front => "front",
        Direction::Back => "back",
        Direction::Down => "bottom",
        Direction::Up => "top",
    }
}

/// Items of `set` that lie in a channel and can no longer come out once `item` is in.
pub fn shut_in(scene: &Scene, item: usize, set: u64) -> Vec<usize> {
    let there = set | scene.masks[item];
    members(set)
        .filter(|&j| {
            let channel = members(scene.links_of(item, 1 << j))
                .any(|l| scene.links[l].kind == JointKind::Groove);
            channel && scene.blocking.is_captive(j, there) && !scene.blocking.is_captive(j, set)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distance_is_to_the_nearest_micrometre() {
        assert_eq!(distance([0, 0, 0], [3, 4, 0]), 5);
        assert_eq!(distance([0, 0, 0], [1, 1, 1]), 2); // 1.73
        assert_eq!(distance([0, 0, 0], [600_000, 0, 800_000]), 1_000_000);
        assert_eq!(distance([0, 0, 0], [1, 0, 1]), 1); // 1.41
    }
}
