//! The room as one solid that is there already: floor as measured, walls, neighbours, what is above,
//! and what stands in the gap.

use crate::geometry::{Box3, Solid};
use crate::measure::{Standing, rectangle};
use crate::scenario::{Above, Cabinet, Install, Neighbour};

use super::pieces::{around, is_free};

/// How thick floor and walls are drawn, and how far beside, before and above the gap the room goes on:
/// as far as an arm comes from there, and no farther, so that the piece is not small in its picture.
const THICK: i64 = 100_000;
const BESIDE: i64 = 400_000;
const BEFORE: i64 = 700_000;
const ABOVE: i64 = 400_000;
/// Thickness of a counter that is there (common practice, no source).
const COUNTER: i64 = 40_000;

/// The room around a piece, in the piece's own pose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Room {
    /// All that is there.
    pub solid: Solid,
    /// The faces left and right of the gap.
    pub sides: [i64; 2],
    /// What stands there.
    pub beside: [Neighbour; 2],
    /// The face of the wall behind.
    pub wall: i64,
    /// The highest point of the floor.
    pub floor: i64,
    /// The line that fronts come to.
    pub front: i64,
}

/// Lays the room round a piece that fills those boxes. `shims` say how far the floor lies below its
/// highest point under each corner.
pub(super) fn room(
    cabinet: &Cabinet,
    install: &Install,
    standing: &Standing,
    piece: &[Box3],
    shims: [i64; 4],
) -> Room {
    let whole = around(piece);
    let space = &cabinet.space;
    let measured = rectangle::sides(space).map(|s| s.map(|x| x - standing.at[0]));
    let [left, right] = measured.unwrap_or([whole.min[0], whole.max[0]]);
    let sides = [left.min(whole.min[0]), right.max(whole.max[0])];
    let beside = if measured.is_some() { [space.left, space.right] } else { [Neighbour::Open; 2] };
    let wall = (rectangle::depth(space) - standing.at[1]).max(whole.max[1]);
    let floor = -install.height.get();
    let front = whole.min[1];
    let above = (rectangle::height(space)).max(whole.max[2]);
    // A counter that comes on top later is not there yet, and the neighbours are as high as the piece.
    let later = install.counter.is_some();
    let head = if later { whole.max[2] } else { above };
    let reach = [sides[0] - BESIDE, sides[1] + BESIDE];
    let mut boxes = Vec::new();
    let mut add = |x: [i64; 2], y: [i64; 2], z: [i64; 2]| {
        let new = Box3::new([x[0], y[0], z[0]], [x[1], y[1], z[1]]);
        if new.is_valid() && is_free(&new, &boxes) {
            boxes.push(new);
        }
    };
    let under = [front - BEFORE, wall + THICK];
    if shims == [0; 4] {
        add(reach, under, [floor - THICK, floor]);
    } else {
        let middle = [0, 1].map(|a| i64::midpoint(whole.min[a], whole.max[a]));
        let xs = [[reach[0], middle[0]], [middle[0], reach[1]]];
        let ys = [[under[0], middle[1]], [middle[1], under[1]]];
        for (corner, low) in shims.into_iter().enumerate() {
            add(xs[corner % 2], ys[corner / 2], [floor - 2 * THICK, floor - low]);
        }
    }
    let top = above.max(whole.max[2]) + ABOVE;
    add(reach, [wall, wall + THICK], [floor, top]);
    for (side, neighbour) in beside.into_iter().enumerate() {
        let out = |far: i64| {
            if side == 0 { [sides[0] - far, sides[0]] } else { [sides[1], sides[1] + far] }
        };
        match neighbour {
            Neighbour::Wall => add(out(THICK), [front - BESIDE, wall], [floor, top]),
            Neighbour::Unit => {
                let foot = if floor == 0 { 0 } else { whole.min[2] };
                add(out(BESIDE), [front, wall], [foot, head]);
            }
            Neighbour::Open => {}
        }
    }
    let across = [0, 1].map(|side| match (beside[side], side) {
        (Neighbour::Wall, _) => sides[side],
        (_, side) => reach[side],
    });
    match space.measured.above {
        Above::Counter if !later && floor == 0 => {
            add(across, [front - COUNTER / 2, wall], [above, above + COUNTER]);
        }
        Above::Ceiling => add(across, [front - BESIDE, wall], [above, above + THICK]),
        _ => {}
    }
    // What stands in the gap, as far as the piece stays clear of it: where it does not, that is a
    // finding of its own.
    for obstacle in &space.measured.obstacles {
        let at = obstacle.at.moved(standing.at.map(|v| -v));
        let low = [sides[0], front, floor];
        let high = [sides[1], wall, above];
        let inside = Box3 {
            min: std::array::from_fn(|a| at.min[a].max(low[a])),
            max: std::array::from_fn(|a| at.max[a].min(high[a])),
        };
        if inside.is_valid() && is_free(&inside, piece) {
            add(
                [inside.min[0], inside.max[0]],
                [inside.min[1], inside.max[1]],
                [inside.min[2], inside.max[2]],
            );
        }
    }
    Room { solid: Solid::from_boxes(boxes), sides, beside, wall, floor, front }
}
