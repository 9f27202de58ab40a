//! Screws: do they bite, stay inside, miss each other, and is the pilot right?

use std::collections::BTreeMap;

use crate::assembly::screws::{
    Fit, Heads, SHORT_OF_FACE, Stack, end_distance, fit, name as bought, thickest, would_do,
};
use crate::assembly::{Fastener, Kind, Role, gauge, probe};
use crate::findings::{JobStage, Severity};
use crate::geometry::Point;
use crate::plan::PlanJoint;
use crate::scenario::{Head, MaterialKind, Screw};
use crate::units::Notation;

use super::facts::Facts;
use super::num;
use super::row::{CheckRow, Said, Theme};
use super::withdrawal::{Thread, board_mn, wood_mn};

/// Screws on edges stand no further apart (10 in): beyond it a joint opens between them.
const APART: i64 = 254_000;
/// From the axis of a screw into a face of MDF to the panel's edge.
const FACE_EDGE: i64 = 12_000;
/// The factor between what a screw withstands once and what one counts on.
const FACTOR: i128 = 5;

const PRACTICE: &str = "common practice, no source: two thirds of a screw, or an inch, in the second part; 1/8 in short of the far face";
const PILOTS: &str = "l-36.com/woodscrewpilot.php, 70 % of the core in softwood, 90 % in hardwood (read); MDF 85 to 95 %: mdf-info.eu \"Screwing\" (read); plywood: common practice, no source";
const EDGES: &str = "#8 at most in a 3/4 in edge: common practice, no source";
const ENDS: &str = "aim at 70 mm in MDF: European panel industry, mdf-info.eu \"Screwing\" (read); never nearer than 2 in: woodmagazine.com \"MDF joints that last\" (read); other sheets 1 1/2 in: common practice, no source";
/// Never nearer to the end of an edge of MDF, and of anything else.
const BOARD_END: i64 = 50_800;
const OTHER_END: i64 = 38_000;
const FACES: &str =
    "12 mm from the edge of an MDF face: European panel industry, mdf-info.eu \"Screwing\" (read)";
const SPACED: &str = "6 to 8 in apart, 10 at most: common practice, no source";
const CROWDED: &str = "3 mm of wood between two screws: common practice, no source";
const HOLDS: &str = "USDA Wood Handbook, ch. 8, withdrawal from side grain and from particleboard (from memory); an order of size, no rating";

/// A screw with what it goes through and bites into.
struct Driven<'a> {
    joint: &'a PlanJoint,
    screw: &'a Fastener,
    /// Through, bites, and material there is to bite into.
    lengths: [i64; 3],
    kind: MaterialKind,
    second: usize,
    on_edge: bool,
}

/// Screws that are alike: head, gauge, length, through, material to bite into, kind, edge.
type Alike = (bool, u8, i64, i64, i64, u8, Option<i64>);

pub fn check(f: &Facts, said: &mut Said) {
    let driven = driven(f);
    let mut groups: BTreeMap<Alike, Vec<&Driven>> = BTreeMap::new();
    for d in &driven {
        let [through, _, into] = d.lengths;
        let edge = d.on_edge.then(|| f.part(d.second).thickness);
        let key =
            (pan(d.screw), d.screw.gauge, d.screw.length.get(), through, into, d.kind as u8, edge);
        groups.entry(key).or_default().push(d);
    }
    for group in groups.values() {
        hold(f, group, said);
        pilot(f, group, said);
        withdrawal(f, group, said);
    }
    distances(f, said);
    faces(f, &driven, said);
    voids(f, &driven, said);
    crowd(f, &driven, said);
}

fn pan(screw: &Fastener) -> bool {
    screw.kind.starts_with("pan")
}

fn driven<'a>(f: &Facts<'a>) -> Vec<Driven<'a>> {
    let mut all = Vec::new();
    for joint in &f.plan.joints {
        let Some([a, b]) = f.ends(joint) else { continue };
        for screw in &joint.fasteners {
            let axis = screw.direction.axis();
            let through = probe::depth_from(&f.solids[a], screw.entry, screw.direction);
            let mut inner = screw.entry;
            inner[axis] += screw.direction.sign() * through;
            let into = probe::depth_from(&f.solids[b], inner, screw.direction);
            // Bought parts are metal or not known: their own instructions hold.
            let Some(kind) = f.kind(b) else { continue };
            let on_edge = f.bounds[b].extent(axis) != f.part(b).thickness;
            let lengths = [through, (screw.length.get() - through).min(into), into];
            all.push(Driven { joint, screw, lengths, kind, second: b, on_edge });
        }
    }
    all
}

/// A row about screws that are alike.
fn row(f: &Facts, rule: &str, group: &[&Driven]) -> Option<CheckRow> {
    let first = group.first()?;
    let row = at_joint(f, rule, first.joint);
    Some(row.with("screws", format!("{} × {}", group.len(), name(f, first.screw))))
}

/// A row about the screws of a joint.
fn at_joint(f: &Facts, rule: &str, joint: &PlanJoint) -> CheckRow {
    CheckRow::new(rule, Theme::Screws, JobStage::Bench, format!("joint {}", joint.id))
        .at(f.step_of_joint(&joint.id))
}

fn name(f: &Facts, screw: &Fastener) -> String {
    let head = if pan(screw) { " pan head" } else { "" };
    format!("#{} × {}{head}", screw.gauge, f.length(screw.length.get()))
}

/// The joints of a group, in words.
fn joints(f: &Facts, group: &[&Driven]) -> String {
    let mut said: Vec<String> = Vec::new();
    for d in group {
        let [a, b] = [0, 1].map(|n| f.plan.name_of(&d.joint.parts[n]));
        let pair = format!("{a} to {b}");
        if !said.contains(&pair) {
            said.push(pair);
        }
    }
    let more = said.len().saturating_sub(3);
    said.truncate(3);
    let listed = said.join("; ");
    if more > 0 { format!("{listed}; {more} more") } else { listed }
}

fn hold(f: &Facts, group: &[&Driven], said: &mut Said) {
    let (Some(row), Some(d)) = (row(f, "screw-hold", group), group.first()) else { return };
    let [through, bites, into] = d.lengths;
    let edge = d.on_edge.then(|| f.part(d.second).thickness);
    let head = if pan(d.screw) { Head::Pan } else { Head::Flat };
    let screw = Screw { gauge: d.screw.gauge, length: d.screw.length, head };
    let stack = Stack { through, into, edge, heads: Heads::Any };
    let fits = fit(&screw, &stack);
    let left = through + into - d.screw.length.get();
    let row = row
        .says(
            format!("Do the screws hold and stay inside? {}", joints(f, group)),
            "bite = length − through; bite ≥ 2/3 length, or 1 in, or 3/5 of the part; tip ≥ 1/8 in short of the far face",
            PRACTICE,
        )
        .with("goes through", f.finest(through))
        .with("there is to bite into", f.length(into))
        .gives(
            format!("bites {}, tip {} short of the far face", f.length(bites), f.length(left)),
            format!("tip at least {} short", f.length(SHORT_OF_FACE)),
        );
    said.judge(row, matches!(fits, Some(Fit::Good | Fit::Fair)), Severity::Fix, || {
        let split = edge.is_some_and(|e| d.screw.gauge > thickest(e));
        if split {
            let thin = thickest(edge.unwrap_or(0));
            [
                format!(
                    "#{} screws split an edge of {} ({}).",
                    d.screw.gauge,
                    f.length(edge.unwrap_or(0)),
                    joints(f, group)
                ),
                format!("Use #{thin} at most there: add it to the screws on hand ({EDGES})."),
            ]
        } else {
            [
                format!("{} do not hold, or come through: {}.", name(f, d.screw), joints(f, group)),
                instead(&stack, f.notation),
            ]
        }
    });
}

/// What to drive where a screw does not hold.
fn instead(stack: &Stack, notation: Notation) -> String {
    let suit = would_do(stack, notation);
    let names: Vec<String> = suit.iter().take(4).map(|s| bought(s, notation)).collect();
    if names.is_empty() {
        "No common screw holds there without coming through: give its place (`at`) where the part is whole, or use a thicker part.".to_owned()
    } else {
        format!(
            "Add one of these to the screws on hand: {}; or give its place (`at`) where the part is whole.",
            names.join(", ")
        )
    }
}

fn pilot(f: &Facts, group: &[&Driven], said: &mut Said) {
    let wanted = |d: &Driven| gauge::root(d.screw.gauge).get() * gauge::pilot_percent(d.kind) / 100;
    let worst = group.iter().max_by_key(|d| (d.screw.pilot.get() - wanted(d)).abs());
    let (Some(row), Some(d)) = (row(f, "pilot", group), worst) else { return };
    let (core, share) = (gauge::root(d.screw.gauge).get(), gauge::pilot_percent(d.kind));
    let wanted = wanted(d);
    let drill = d.screw.pilot.get();
    // A sixty-fourth: the step in which drills are sold.
    let off = 397;
    let row = row
        .says(
            format!("Is the pilot hole right? {}", joints(f, group)),
            "core × share of the material, to the nearest drill",
            PILOTS,
        )
        .with("core", num::fine(f.notation, i128::from(core)))
        .with("share", format!("{share} %"))
        .gives(
            num::fine(f.notation, i128::from(drill)),
            format!("{} ± 1/64 in", num::fine(f.notation, i128::from(wanted))),
        );
    said.judge(row, (drill - wanted).abs() <= off, Severity::Fix, || {
        [
            format!(
                "The pilot of {} does not suit #{} screws.",
                f.notation.finest().print(d.screw.pilot),
                d.screw.gauge
            ),
            // To a drill that is sold, in the step in which drills are.
            format!(
                "Drill {} instead.",
                f.notation.finest().print(gauge::pilot(d.screw.gauge, d.kind, f.notation))
            ),
        ]
    });
}

fn withdrawal(f: &Facts, group: &[&Driven], said: &mut Said) {
    let (Some(row), Some(d)) = (row(f, "withdrawal", group), group.first()) else { return };
    let density = f.material(d.second).map_or(0, |m| m.density);
    let thread = Thread {
        diameter: gauge::diameter(d.screw.gauge).get(),
        bites: d.lengths[1],
        gravity: density,
    };
    let board =
        matches!(d.kind, MaterialKind::Mdf | MaterialKind::Particleboard | MaterialKind::Hardboard);
    let (force, formula) = if board {
        (
            board_mn(&thread, d.on_edge),
            "P = K √D (L − D/3)^(5/4) G², K 41.1 into a face, 31.8 into an edge (N, mm)",
        )
    } else {
        (wood_mn(&thread), "P = 108.25 G² D L (N, mm)")
    };
    let caution = if d.kind == MaterialKind::Plywood {
        "; fitted to solid wood"
    } else if d.kind == MaterialKind::Mdf {
        "; fitted to particleboard"
    } else {
        ""
    };
    let row = row
        .says(
            format!("Roughly, what pulls one such screw out? {}", joints(f, group)),
            formula,
            HOLDS,
        )
        .with("G", num::decimal(i128::from(density), 1_000, 2))
        .with("D", num::fine(f.notation, i128::from(thread.diameter)))
        .with("L", f.length(thread.bites))
        .gives(
            format!(
                "about {}; count on a fifth, {}{caution}",
                num::force(f.notation, force),
                num::force(f.notation, force / FACTOR)
            ),
            "",
        );
    said.tell(row);
}

/// Where the screws of a joint on an edge stand.
struct Row<'a> {
    joint: &'a PlanJoint,
    /// From an end to the first, where the joint has room for the distance, and what is wanted.
    nearest: Option<[i64; 2]>,
    widest: Option<i64>,
}

fn along<'a>(f: &Facts<'a>, joint: &'a PlanJoint) -> Option<Row<'a>> {
    let [a, b] = f.ends(joint)?;
    let loose = [Role::Front, Role::FalseFront, Role::Backing, Role::Door, Role::Leg];
    let hardware = |i: usize| f.part(i).kind == Kind::Hardware || loose.contains(&f.part(i).role);
    let (first, kind) = (joint.fasteners.first()?, f.kind(b)?);
    let axis = first.direction.axis();
    if hardware(a) || hardware(b) || f.bounds[b].extent(axis) == f.part(b).thickness {
        return None;
    }
    let faces = probe::faces_towards(&f.solids[a], &f.solids[b], first.direction);
    let face = faces.first()?;
    let (u, v) = probe::others(axis);
    let long = [v, u].into_iter().max_by_key(|&across| face.extent(across))?;
    let mut at: Vec<i64> = joint.fasteners.iter().map(|s| s.entry[long]).collect();
    at.sort_unstable();
    let nearest = (at.first()? - face.min[long]).min(face.max[long] - at.last()?);
    let board = matches!(kind, MaterialKind::Mdf | MaterialKind::Particleboard);
    let least = if board { BOARD_END } else { OTHER_END };
    // Where the joint is too short for the distance, the joint itself has said so.
    let room = face.extent(long) >= 2 * end_distance(kind) + 2 * least;
    let widest = at.windows(2).map(|p| p[1] - p[0]).max();
    Some(Row { joint, nearest: room.then_some([nearest, least]), widest })
}

/// Ends and spacing: a row for the worst that pass, and one for each joint that does not.
fn distances(f: &Facts, said: &mut Said) {
    let rows: Vec<Row> = f.plan.joints.iter().filter_map(|j| along(f, j)).collect();
    let names = |r: &Row| {
        format!("{} to {}", f.plan.name_of(&r.joint.parts[0]), f.plan.name_of(&r.joint.parts[1]))
    };
    let new = |rule: &str, r: &Row| at_joint(f, rule, r.joint);
    let mut best: Option<(i64, &Row)> = None;
    let mut ends: Vec<(&Row, [i64; 2])> = Vec::new();
    for row in &rows {
        let Some([nearest, least]) = row.nearest else { continue };
        if nearest < least {
            ends.push((row, [nearest, least]));
        } else if best.is_none_or(|(spare, _)| nearest - least < spare) {
            best = Some((nearest - least, row));
        }
    }
    ends.extend(best.and_then(|(_, r)| r.nearest.map(|n| (r, n))));
    for (row, [nearest, least]) in ends {
        let names = names(row);
        let out = new("screw-end", row)
            .says(
                format!("Are the screws far enough from the ends? Nearest: {names}"),
                "from the end of the edge to the first screw",
                ENDS,
            )
            .with(
                "joints looked at",
                rows.iter().filter(|r| r.nearest.is_some()).count().to_string(),
            )
            .gives(f.length(nearest), format!("at least {}", f.length(least)));
        said.judge(out, nearest >= least, Severity::Caution, || {
            [
                format!("A screw stands {} from the end of the joint of {names}: the edge may split.", f.length(nearest)),
                format!("Move it {} or more from the end, or leave `at` out so that the screws are placed.", f.length(least)),
            ]
        });
    }
    let wide = rows.iter().filter(|r| r.widest.is_some_and(|w| w > APART));
    let mut spaced: Vec<&Row> = wide.collect();
    let good = rows.iter().filter(|r| r.widest.is_some_and(|w| w <= APART));
    spaced.extend(good.max_by_key(|r| r.widest));
    for row in spaced {
        let (widest, names) = (row.widest.unwrap_or(0), names(row));
        let out = new("screw-spacing", row)
            .says(
                format!("Are the screws near enough to each other? Widest: {names}"),
                "widest distance between two neighbours",
                SPACED,
            )
            .with("joints looked at", rows.len().to_string())
            .gives(f.length(widest), format!("at most {}", f.length(APART)));
        said.judge(out, widest <= APART, Severity::Caution, || {
            [
                format!(
                    "The screws of {names} stand {} apart: the joint may open between them.",
                    f.length(widest)
                ),
                "Add a screw between them, or leave `at` out so that the screws are placed."
                    .to_owned(),
            ]
        });
    }
}

/// Screws into faces of MDF and the like near an edge.
fn faces(f: &Facts, driven: &[Driven], said: &mut Said) {
    let board = |d: &&Driven| {
        matches!(d.kind, MaterialKind::Mdf | MaterialKind::Particleboard) && !d.on_edge
    };
    let nearest = driven.iter().filter(board).min_by_key(|d| from_edge(f, d));
    let Some(d) = nearest else { return };
    let off = from_edge(f, d);
    let row = at_joint(f, "screw-face", d.joint)
        .says(
            "How near do screws into MDF faces come to an edge?",
            "from the axis to the nearest edge of the panel",
            FACES,
        )
        .gives(f.length(off), format!("at least {}", f.length(FACE_EDGE)));
    said.judge(row, off >= FACE_EDGE, Severity::Caution, || {
        [
            format!(
                "A screw into the face of the {} stands {} from its edge: the face may lift.",
                f.part(d.second).name,
                f.length(off)
            ),
            format!(
                "Move the joint's screws to {} from the edge, or use plywood there.",
                f.length(FACE_EDGE)
            ),
        ]
    });
}

fn from_edge(f: &Facts, d: &Driven) -> i64 {
    let (u, v) = probe::others(d.screw.direction.axis());
    let b = &f.bounds[d.second];
    let off = |a: usize| (d.screw.entry[a] - b.min[a]).min(b.max[a] - d.screw.entry[a]);
    off(u).min(off(v))
}

/// Screws whose thread breaks out into a groove, a notch or a boring.
fn voids(f: &Facts, driven: &[Driven], said: &mut Said) {
    let open: Vec<&Driven> = driven.iter().filter(|d| bare(f, d) > 0).collect();
    let row = CheckRow::new("screw-void", Theme::Screws, JobStage::Bench, open.first().map_or("joints".to_owned(), |d| format!("joint {}", d.joint.id)))
        .at(open.first().and_then(|d| f.step_of_joint(&d.joint.id)))
        .says(
            "Does a screw break out into a groove, a notch or a boring?",
            "five lines along each screw, in its middle and on its thread, run in wood from head to tip",
            "common practice, no source",
        )
        .with("screws", driven.len().to_string())
        .gives(open.len().to_string(), "0");
    said.judge(row, open.is_empty(), Severity::Fix, || {
        [
            format!(
                "A screw breaks out of the wood, into a groove or boring: {}.",
                joints(f, &open)
            ),
            "Move it along the joint, or give its place (`at`) where the wood is whole.".to_owned(),
        ]
    });
}

/// The most that any line along a screw runs in air.
fn bare(f: &Facts, d: &Driven) -> i64 {
    let Some([a, b]) = f.ends(d.joint) else { return 0 };
    let axis = d.screw.direction.axis();
    let (u, v) = probe::others(axis);
    let radius = gauge::diameter(d.screw.gauge).get() / 2;
    let start = d.screw.entry[axis];
    let end = start + d.screw.direction.sign() * d.screw.length.get();
    let [low, high] = [start.min(end), start.max(end)];
    let bare = |at: Point| {
        let boxes = f.solids[a].boxes().iter().chain(f.solids[b].boxes());
        let beside =
            boxes.filter(|x| [u, v].iter().all(|&i| x.min[i] <= at[i] && at[i] < x.max[i]));
        let wood: i64 = beside.map(|x| (x.max[axis].min(high) - x.min[axis].max(low)).max(0)).sum();
        high - low - wood
    };
    let mut lines = vec![d.screw.entry];
    for across in [u, v] {
        let middle = d.screw.entry[across];
        for beside in [middle - radius, middle + radius] {
            let mut at = d.screw.entry;
            at[across] = beside;
            lines.push(at);
        }
    }
    lines.into_iter().map(bare).max().unwrap_or(0)
}

/// The two screws nearest to each other.
fn crowd(f: &Facts, driven: &[Driven], said: &mut Said) {
    let mut nearest: Option<(i64, &Driven, &Driven)> = None;
    for (n, a) in driven.iter().enumerate() {
        for b in &driven[n + 1..] {
            let air = air(a.screw, b.screw);
            if nearest.is_none_or(|(least, ..)| air < least) {
                nearest = Some((air, a, b));
            }
        }
    }
    let Some((air, a, b)) = nearest else { return };
    const LEAST: i64 = 3_000;
    let row = at_joint(f, "screw-crowd", a.joint)
        .says(
            "Do any two screws run into each other?",
            "wood between the threads of the two nearest, taken as boxes round them",
            CROWDED,
        )
        .with("nearest", format!("{} and {}", joints(f, &[a]), joints(f, &[b])))
        .gives(f.length(air), format!("at least {}", f.length(LEAST)));
    said.judge(row, air >= LEAST, Severity::Caution, || {
        [
            format!(
                "Two screws come within {} of each other: {}, and {}.",
                f.length(air.max(0)),
                joints(f, &[a]),
                joints(f, &[b])
            ),
            "Move one of them along its joint, by its place (`at`), or use a shorter screw."
                .to_owned(),
        ]
    });
}

/// Wood between two screws, taken as boxes round their threads.
fn air(a: &Fastener, b: &Fastener) -> i64 {
    let span = |s: &Fastener, axis: usize| {
        let r = gauge::diameter(s.gauge).get() / 2;
        if s.direction.axis() == axis {
            let tip = s.entry[axis] + s.direction.sign() * s.length.get();
            [s.entry[axis].min(tip), s.entry[axis].max(tip)]
        } else {
            [s.entry[axis] - r, s.entry[axis] + r]
        }
    };
    let apart = |axis: usize| {
        let ([a0, a1], [b0, b1]) = (span(a, axis), span(b, axis));
        (b0 - a1).max(a0 - b1)
    };
    (0..3).map(apart).max().unwrap_or(0)
}
