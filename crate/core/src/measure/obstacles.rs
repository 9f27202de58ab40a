//! What stands in the gap against where the piece comes to stand.

use super::{Found, Standing};
use crate::assembly::{Assembly, Kind};
use crate::findings::Severity;
use crate::geometry::Box3;
use crate::order::words::capital;
use crate::scenario::{Cabinet, Obstacle};

/// The shallowest carcass that is still offered as a cure (common practice, no source).
const SHALLOW: i64 = 200_000;

pub(super) fn judge(found: &mut Found, c: &Cabinet, piece: &Assembly, standing: &Standing) {
    for (n, obstacle) in c.space.measured.obstacles.iter().enumerate() {
        one(found, n, obstacle, piece, standing);
    }
}

/// Grown by the air around it; what is flat has no thickness of its own, only that.
fn grown(obstacle: &Obstacle) -> Box3 {
    let air = obstacle.clear.get();
    Box3 { min: obstacle.at.min.map(|v| v - air), max: obstacle.at.max.map(|v| v + air) }
}

fn one(found: &mut Found, n: usize, obstacle: &Obstacle, piece: &Assembly, standing: &Standing) {
    let place = format!("space.obstacles[{n}]");
    let kept = grown(obstacle).moved(standing.at.map(|v| -v));
    let hit: Vec<(usize, Box3)> = piece
        .parts
        .iter()
        .enumerate()
        .filter_map(|(i, part)| {
            let meets = part.solid.boxes().iter().filter_map(|b| b.intersection(&kept));
            meets.reduce(|a, b| a.union(&b)).map(|b| (i, b))
        })
        .collect();
    let name = &obstacle.name;
    if hit.is_empty() {
        if obstacle.open {
            covered(found, &place, obstacle, piece, standing);
        }
        return;
    }
    let names: Vec<&str> = hit.iter().take(4).map(|(i, _)| piece.parts[*i].name.as_str()).collect();
    let more = if hit.len() > names.len() { " and more" } else { "" };
    let mut cures = Vec::new();
    let front = standing.at[1];
    let depth = kept.min[1];
    if depth >= SHALLOW && depth < standing.carcass {
        cures.push(format!("make `build.carcass.depth` {} at most", found.p(depth)));
    }
    let panels: Vec<String> = hit
        .iter()
        .filter(|(i, _)| piece.parts[*i].kind == Kind::Panel)
        .take(3)
        .map(|(i, b)| notch(found, piece, *i, b))
        .collect();
    if panels.len() == hit.len().min(3) {
        cures.push(format!("cut away: {}", panels.join("; ")));
    }
    cures.push(format!("{}move the {name}", if cures.is_empty() { "" } else { "or " }));
    let hint = capital(&cures.join("; "));
    let into =
        hit.iter().map(|(_, b)| (0..3).map(|a| b.extent(a)).min().unwrap_or(0)).max().unwrap_or(0);
    let (into, front) = (found.p(into), found.p(front));
    let finding = found.say(
        Severity::Fix,
        "in-the-way",
        &place,
        format!("The {name} stands where {}{more} would be.", names.join(", ")),
        format!("{hint}."),
    );
    *finding = finding
        .clone()
        .number("reaches into the piece by", into)
        .number("carcass behind the front line", front);
}

/// What to cut out of a part, measured from its nearer edges.
fn notch(found: &Found, piece: &Assembly, part: usize, b: &Box3) -> String {
    let part = &piece.parts[part];
    let all = part.solid.bounds();
    const WAYS: [[&str; 3]; 3] =
        [["wide", "left", "right"], ["deep", "front", "rear"], ["high", "lower", "upper"]];
    let thin = (0..3).min_by_key(|&a| all.extent(a)).unwrap_or(0);
    let said: Vec<String> = (0..3)
        .filter(|&a| a != thin)
        .map(|a| {
            let [way, low, high] = WAYS[a];
            let (from_low, from_high) = (b.min[a] - all.min[a], all.max[a] - b.max[a]);
            let (edge, off) =
                if from_low <= from_high { (low, from_low) } else { (high, from_high) };
            let at = if off == 0 {
                format!("at its {edge} edge")
            } else {
                format!("{} from its {edge} edge", found.p(off))
            };
            format!("{} {way} {at}", found.p(b.extent(a)))
        })
        .collect();
    format!("{} {}", part.name, said.join(", "))
}

/// A socket or vent that would vanish behind the back.
fn covered(
    found: &mut Found,
    place: &str,
    obstacle: &Obstacle,
    piece: &Assembly,
    standing: &Standing,
) {
    let at = obstacle.at.moved(standing.at.map(|v| -v));
    let behind = piece.parts.iter().filter(|p| p.kind == Kind::Panel).find(|p| {
        let b = p.solid.bounds();
        let thin = b.extent(1) < b.extent(0).min(b.extent(2));
        thin && b.max[1] <= at.max[1]
            && [0, 2].iter().all(|&a| at.min[a] < b.max[a] && b.min[a] < at.max[a])
            && b.max[1] + 1_000 >= standing.carcass.min(b.max[1])
            && b.min[1] > standing.carcass / 2
    });
    let Some(part) = behind else { return };
    let b = part.solid.bounds();
    let air = obstacle.clear.get();
    let (wide, high) = (found.p(at.extent(0) + 2 * air), found.p(at.extent(2) + 2 * air));
    let (x, z) = (found.p(at.min[0] - air - b.min[0]), found.p(at.min[2] - air - b.min[2]));
    let name = &obstacle.name;
    let part = part.name.clone();
    let finding = found.say(
        Severity::Caution,
        "covered",
        place,
        format!("The {part} would cover the {name}, which must stay within reach."),
        format!("Cut an opening {wide} wide and {high} high into the {part}, {x} from its left and {z} from its lower edge; a live outlet is moved by an electrician."),
    );
    *finding = finding
        .clone()
        .number("wide", wide)
        .number("high", high)
        .source("common practice, no source");
}
