//! Room for the drill: behind every screw, at the moment it is driven, as the piece lies then.

use super::Violation;
use super::file::{Fastener, Workshop};
use super::replay::Replay;
use super::space::{Block, overlap};

/// Name of the rule.
pub const RULE: &str = "tool-access";

/// All the space that bit and drill pass through while the screw goes in.
///
/// At first the whole screw stands out, so the tool starts a screw's length further back.
pub fn sweep(f: &Fastener, shop: &Workshop) -> Vec<Block> {
    let way = f.direction;
    let at = way.depth(f.entry);
    let square =
        |width: i64| way.across().map(|a| [f.entry[a] - width / 2, f.entry[a] + width / 2]);
    let mut out = Vec::new();
    if shop.bit_width > 1 && shop.bit_length > 0 {
        out.push(way.block(at - f.length - shop.bit_length, at, square(shop.bit_width)));
    }
    if shop.drill_width > 1 && shop.drill_length > shop.bit_length {
        out.push(way.block(
            at - f.length - shop.drill_length,
            at - shop.bit_length,
            square(shop.drill_width),
        ));
    }
    out
}

/// Judges the room behind every screw and its height above the floor.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let (plan, shop) = (replay.plan, &replay.plan.workshop);
    let mut out = Vec::new();
    if shop.bit_width <= 0
        || shop.bit_length <= 0
        || shop.drill_width <= 0
        || shop.drill_length < shop.bit_length
    {
        out.push(Violation::new(RULE, 0, "the drill has no size"));
    }
    for m in &replay.moments {
        let face = m.step.bench_face;
        let Some(bench) = replay.bench(m) else {
            continue;
        };
        let here = m.after();
        for (_, f) in m.step.fasteners.iter().filter_map(|id| plan.fastener(id)) {
            let mut bad = |what: String| {
                out.push(Violation::new(RULE, m.step.n, format!("{}: {what}", f.id)));
            };
            let tool = sweep(f, shop);
            for p in &here {
                if overlap(&tool, &replay.solid([p])) {
                    bad(format!("the drill runs into {}", replay.names([p])));
                }
            }
            if let Some(s) = m.step.spacer.as_ref().filter(|s| overlap(&tool, &[s.at])) {
                bad(format!("the drill runs into the spacer {}", s.part));
            }
            let low = tool.iter().map(|b| face.span(b)[1]).max().unwrap_or(bench);
            if low > bench {
                bad(format!("the drill would reach {} below the bench's top", low - bench));
            }
            let height = shop.bench_height + bench - face.depth(f.entry);
            if height > shop.reach_height {
                bad(format!("is {height} above the floor, out of reach"));
            }
        }
    }
    out
}
