//! Readings of the gap beyond its least sizes.

use super::context::{Context, Range, mm};
use super::piece::three;
use crate::geometry::Box3;
use crate::scenario::{Above, Measured, Obstacle, Passage, Slope, file};
use crate::units::Length;

const READINGS: usize = 12;

pub(super) fn read(ctx: &mut Context, from: &file::Space) -> Measured {
    let walls = from.walls.clone().unwrap_or_default();
    let floor = from.floor.clone().unwrap_or_default();
    Measured {
        heights: heights(ctx, from.heights.as_deref().unwrap_or_default()),
        depths: depths(ctx, from.depths.as_deref().unwrap_or_default()),
        diagonals: from.diagonals.as_ref().map(|d| {
            [("rising", &d.rising), ("falling", &d.falling)].map(|(field, written)| {
                let place = format!("space.diagonals.{field}");
                ctx.length_needed(&place, written.as_ref(), mm(200, 4500))
            })
        }),
        walls: [("left", walls.left), ("right", walls.right), ("back", walls.back)]
            .map(|(side, s)| slope(ctx, &format!("space.walls.{side}"), s?, true)),
        floor: [("across", floor.across), ("along", floor.along)]
            .map(|(way, s)| slope(ctx, &format!("space.floor.{way}"), s?, false)),
        above: match from.above.unwrap_or(file::Above::Counter) {
            file::Above::Counter => Above::Counter,
            file::Above::Ceiling => Above::Ceiling,
            file::Above::Open => Above::Open,
        },
        obstacles: obstacles(ctx, from.obstacles.as_deref().unwrap_or_default()),
        passages: passages(ctx, from.passages.as_deref().unwrap_or_default()),
    }
}

fn side(written: file::Side) -> u8 {
    match written {
        file::Side::Left => 0,
        file::Side::Middle => 1,
        file::Side::Right => 2,
    }
}

fn heights(ctx: &mut Context, listed: &[file::HeightAt]) -> Vec<(u8, Length)> {
    ctx.count("space.heights", listed.len(), 0, READINGS);
    let mut read = Vec::new();
    for (n, h) in listed.iter().take(READINGS).enumerate() {
        let at = |field: &str| format!("space.heights[{n}].{field}");
        if h.side.is_none() {
            ctx.missing(&at("side"), "Write `left`, `middle` or `right`.");
        }
        let height = ctx.length_needed(&at("height"), h.height.as_ref(), mm(200, 3000));
        read.push((h.side.map_or(1, side), height));
    }
    read
}

fn depths(ctx: &mut Context, listed: &[file::DepthAt]) -> Vec<(Length, u8, Length)> {
    ctx.count("space.depths", listed.len(), 0, READINGS);
    let mut read = Vec::new();
    for (n, d) in listed.iter().take(READINGS).enumerate() {
        let at = |field: &str| format!("space.depths[{n}].{field}");
        let height = ctx.length(&at("at"), d.at.as_ref(), mm(0, 3000), Length::ZERO);
        let depth = ctx.length_needed(&at("depth"), d.depth.as_ref(), mm(100, 1500));
        read.push((height, d.side.map_or(1, side), depth));
    }
    read
}

/// A slope from a level's gap or from two distances. Of a wall, into the gap is positive: the
/// distance from a plumb line that hangs in the gap grows less towards the top.
fn slope(ctx: &mut Context, place: &str, from: file::Slope, wall: bool) -> Option<Slope> {
    let at = |field: &str| format!("{place}.{field}");
    let over = ctx.length_needed(&at("over"), from.over.as_ref(), mm(200, 3000));
    let two = from.first.is_some() || from.second.is_some();
    if from.gap.is_some() == two {
        ctx.stop(
            "slope-form",
            place,
            format!(
                "`{place}` needs either the gap under the level, or two distances from a line."
            ),
            "Write `over`, `gap` and `way`, or `over`, `first` and `second`.",
        );
        return None;
    }
    if two {
        let [first, second] = [("first", &from.first), ("second", &from.second)]
            .map(|(f, written)| ctx.length_needed(&at(f), written.as_ref(), mm(0, 3000)));
        let rise = (first - second).get();
        if rise.abs() > 100_000 {
            too_steep(ctx, place);
        }
        return Some(Slope { rise, over: over.get() });
    }
    let gap = ctx.length_needed(&at("gap"), from.gap.as_ref(), mm(0, 100)).get();
    let (ways, up) = if wall {
        (
            [file::Lean::In, file::Lean::Out],
            "`in` when its top stands into the gap, `out` when away from it",
        )
    } else {
        (
            [file::Lean::Rises, file::Lean::Falls],
            "`rises` when it is higher at the far end, `falls` when lower",
        )
    };
    let rise = match from.way {
        Some(way) if way == ways[0] => gap,
        Some(way) if way == ways[1] => -gap,
        None if gap == 0 => 0,
        None => {
            ctx.missing(&at("way"), format!("Write {up}."));
            0
        }
        Some(_) => {
            ctx.stop(
                "slope-way",
                &at("way"),
                format!(
                    "`{}` does not go with a {}.",
                    at("way"),
                    if wall { "wall" } else { "floor" }
                ),
                format!("Write {up}."),
            );
            0
        }
    };
    Some(Slope { rise, over: over.get() })
}

fn too_steep(ctx: &mut Context, place: &str) {
    let most = ctx.notation.print(Length::mm(100));
    ctx.stop(
        "slope-steep",
        place,
        format!("`{place}`: its two distances differ by more than {most}."),
        format!("Measure both from one line; they differ by {most} at most."),
    );
}

fn obstacles(ctx: &mut Context, listed: &[file::Obstacle]) -> Vec<Obstacle> {
    ctx.count("space.obstacles", listed.len(), 0, 20);
    let mut read = Vec::new();
    for (n, o) in listed.iter().take(20).enumerate() {
        let at = |field: &str| format!("space.obstacles[{n}].{field}");
        let (usual, open) = match o.kind.unwrap_or(file::ObstacleKind::Other) {
            file::ObstacleKind::Baseboard => ("baseboard", false),
            file::ObstacleKind::Pipe => ("pipe", false),
            file::ObstacleKind::Outlet => ("outlet", true),
            file::ObstacleKind::Vent => ("vent", true),
            file::ObstacleKind::Other => ("obstacle", false),
        };
        let name = ctx.text(&at("name"), o.name.as_deref(), 60, usual);
        let clear = ctx.length(&at("clear"), o.clear.as_ref(), mm(0, 300), Length::ZERO);
        const ANYWHERE: Range = mm(0, 3000);
        let corner = three(ctx, &at("at"), o.at.as_ref(), ANYWHERE);
        let size = three(ctx, &at("size"), o.size.as_ref(), ANYWHERE);
        if let (Some(corner), Some(size)) = (corner, size) {
            let far = [0, 1, 2].map(|a| corner[a] + size[a]);
            read.push(Obstacle { name, open, at: Box3 { min: corner, max: far }, clear });
        }
    }
    read
}

fn passages(ctx: &mut Context, listed: &[file::Passage]) -> Vec<Passage> {
    ctx.count("space.passages", listed.len(), 0, READINGS);
    let mut read = Vec::new();
    for (n, p) in listed.iter().take(READINGS).enumerate() {
        let at = |field: &str| format!("space.passages[{n}].{field}");
        read.push(Passage {
            name: ctx.text(&at("name"), p.name.as_deref(), 60, "door"),
            width: ctx.length_needed(&at("width"), p.width.as_ref(), mm(300, 3000)),
            height: ctx.length_needed(&at("height"), p.height.as_ref(), mm(300, 4000)),
            turn: ctx.length_if_any(&at("turn"), p.turn.as_ref(), mm(300, 3000)),
        });
    }
    read
}
