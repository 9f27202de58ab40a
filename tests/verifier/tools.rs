//! Room for the tool: behind every screw, at the moment it is driven, as the piece lies then.

use std::collections::BTreeMap;

use super::Violation;
use super::file::Fastener;
use super::replay::{Moment, Replay};
use super::shop::{Person, Tool, Workshop};
use super::space::{Block, Way, overlap};

/// Name of the rule.
pub const RULE: &str = "tool-access";

/// All the space that bit and drill pass through while the screw goes in.
pub fn sweep(f: &Fastener, shop: &Workshop) -> Vec<Block> {
    room(f, &shop.drill())
}

/// All the space that a tool passes through while the screw goes in.
///
/// At first the whole screw stands out, so the tool starts a screw's length further back.
pub fn room(f: &Fastener, tool: &Tool) -> Vec<Block> {
    let way = f.direction;
    let at = way.depth(f.entry);
    let square =
        |width: i64| way.across().map(|a| [f.entry[a] - width / 2, f.entry[a] + width / 2]);
    let mut out = Vec::new();
    if tool.bit_width > 1 && tool.bit_length > 0 {
        out.push(way.block(at - f.length - tool.bit_length, at, square(tool.bit_width)));
    }
    if tool.width > 1 {
        let back = f.length + tool.length.max(tool.bit_length + 1);
        out.push(way.block(at - back, at - tool.bit_length, square(tool.width)));
    }
    out
}

/// The ways in which a person gets at the back of a tool: arm, then trunk at the end of it.
///
/// The hand is round the last of the tool. The arm goes off square to it or straight behind; the
/// trunk lies lengthwise in one of the two ways across, level with the arm at its middle or at
/// either edge.
fn stances(f: &Fastener, tool: &Tool, person: &Person) -> Vec<[Block; 2]> {
    let way = f.direction;
    let back = way.depth(f.entry) - f.length - tool.length.max(tool.bit_length + 1);
    let half = person.arm / 2;
    let round = way.across().map(|a| [f.entry[a] - half, f.entry[a] + half]);
    let hand = way.block(back, back + person.arm, round);
    let mut out = Vec::new();
    for off in Way::ALL.into_iter().filter(|o| *o != way) {
        let [from, end] = off.span(&hand);
        // Behind the tool the arm begins at its back.
        let start = if off == way.back() { end } else { from };
        let shoulder = end + person.reach;
        let across = off.across();
        let beside = across.map(|a| [hand[a], hand[a + 3]]);
        let arm = off.block(start, shoulder, beside);
        for long in [0, 1] {
            let middle = (beside[long][0] + beside[long][1]).div_euclid(2);
            let wide = [middle - person.shoulders / 2, middle + person.shoulders / 2];
            let [low, high] = beside[1 - long];
            let centre = (low + high).div_euclid(2) - person.chest / 2;
            for at in [centre, low, high - person.chest] {
                let mut rect = [wide; 2];
                rect[1 - long] = [at, at + person.chest];
                out.push([arm, off.block(shoulder, shoulder + person.chest, rect)]);
            }
        }
    }
    out
}

/// What keeps a tool from driving a screw.
fn hindrances(replay: &Replay<'_>, m: &Moment<'_>, f: &Fastener, tool: &Tool) -> Vec<String> {
    let shop = &replay.plan.workshop;
    let face = m.step.bench_face;
    let Some(bench) = replay.bench(m) else {
        return Vec::new();
    };
    let mut out = Vec::new();
    let room = room(f, tool);
    for p in &m.after() {
        if overlap(&room, &replay.solid([p])) {
            out.push(format!("the {} runs into {}", tool.name, replay.names([p])));
        }
    }
    if let Some(s) = m.step.spacer.as_ref().filter(|s| overlap(&room, &[s.at])) {
        out.push(format!("the {} runs into the spacer {}", tool.name, s.part));
    }
    if let Some(person) = &shop.person {
        let here = replay.solid(&m.after());
        if !stances(f, tool, person).iter().any(|s| !overlap(s, &here)) {
            out.push(format!("no arm gets at the {}", tool.name));
        }
    }
    let low = room.iter().map(|b| face.span(b)[1]).max().unwrap_or(bench);
    // The work lies on bearers: the bench's own top is that much further down.
    let top = bench + shop.bearers;
    if low > top {
        out.push(format!("the {} would reach {} below the bench's top", tool.name, low - top));
    }
    let height = shop.bench_height + top - face.depth(f.entry);
    if height > shop.reach_height {
        out.push(format!("is {height} above the floor, out of reach"));
    }
    out
}

/// Judges the room behind every screw and its height above the floor.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let (plan, shop) = (replay.plan, &replay.plan.workshop);
    let drill = shop.drill();
    let mut out = Vec::new();
    for t in shop.tools.iter().chain([&drill]) {
        if t.bit_width <= 0 || t.bit_length <= 0 || t.width <= 0 || t.length <= 0 {
            out.push(Violation::new(RULE, 0, format!("the {} has no size", t.name)));
        }
    }
    for m in &replay.moments {
        let mut bad = |what: String| out.push(Violation::new(RULE, m.step.n, what));
        let mut by: BTreeMap<&str, &Tool> = BTreeMap::new();
        for d in &m.step.drivers {
            let Some(tool) = shop.tools.iter().find(|t| t.name == d.tool) else {
                bad(format!("there is no {}", d.tool));
                continue;
            };
            if d.fasteners.is_empty() {
                bad(format!("the {} drives nothing", d.tool));
            }
            for id in &d.fasteners {
                if !m.step.fasteners.contains(id) {
                    bad(format!("the {} drives {id}, which is not driven here", d.tool));
                } else if by.insert(id, tool).is_some() {
                    bad(format!("{id} is driven by two tools"));
                }
            }
        }
        let mut joints: BTreeMap<usize, Vec<(&Fastener, &Tool)>> = BTreeMap::new();
        for (joint, f) in m.step.fasteners.iter().filter_map(|id| plan.fastener(id)) {
            let tool = by.get(f.id.as_str()).copied().unwrap_or(&drill);
            for what in hindrances(replay, m, f, tool) {
                bad(format!("{}: {what}", f.id));
            }
            joints.entry(joint).or_default().push((f, tool));
        }
        // One tool drives a whole joint: the first that reaches all of it, the drill before all.
        for (joint, screws) in joints {
            let id = &plan.joints[joint].id;
            let taken = screws[0].1;
            if screws.iter().any(|(_, t)| *t != taken) {
                bad(format!("{id} is driven by several tools"));
            }
            let reaches =
                |t: &&Tool| screws.iter().all(|(f, _)| hindrances(replay, m, f, t).is_empty());
            let before = [&drill].into_iter().chain(&shop.tools).take_while(|t| *t != taken);
            if let Some(t) = before.into_iter().find(reaches) {
                bad(format!("{id}: the {} would reach", t.name));
            }
        }
    }
    out
}
