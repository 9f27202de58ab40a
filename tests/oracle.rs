//! The least that any order of a body's pieces can cost, found by trying them all.
//!
//! Uses the verifier's geometry and the rules that bind every order: a clear way in, the bench's
//! top, and a joint that lets it in or whose screws the drill has room for. What else a plan must
//! respect (balance, hands, glue, spacers) is left out, so the result is a lower bound: no sound plan beats it.

use std::collections::{BTreeMap, BTreeSet};

use crate::verifier::file::{Action, Fastener, JointKind, PlanFile};
use crate::verifier::replay::Replay;
use crate::verifier::space::{Block, Way, contacts, overlap, reach, runs_into};
use crate::verifier::tools::sweep;

/// Parts in the air while they are fastened, then turns: compared in this order.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Effort {
    /// Pieces that go in with neither bench nor another piece under them.
    pub lifted: u32,
    /// Turns of the body.
    pub turns: u32,
}

/// The pieces of one body: loose parts, and bodies that join it whole.
pub struct Pieces<'a> {
    plan: &'a PlanFile,
    /// Parts of each piece, in the plan's order of going in.
    parts: Vec<BTreeSet<usize>>,
    solids: Vec<Vec<Block>>,
}

/// More pieces than this are not tried.
pub const MOST: usize = 12;

impl<'a> Pieces<'a> {
    /// The pieces of a body, unless there are too many.
    pub fn of(replay: &Replay<'a>, body: &str) -> Option<Self> {
        let mut parts = Vec::new();
        for m in replay.moments.iter().filter(|m| m.step.body == body && !m.arriving.is_empty()) {
            match m.step.joins {
                Some(_) => parts.push(m.arriving.clone()),
                None => parts.extend(m.arriving.iter().map(|p| BTreeSet::from([*p]))),
            }
        }
        let solids = parts.iter().map(|p| replay.solid(p)).collect();
        (!parts.is_empty() && parts.len() <= MOST).then_some(Pieces {
            plan: replay.plan,
            parts,
            solids,
        })
    }

    /// The least effort of all orders and faces, or none when no order works.
    pub fn least(&self) -> Option<Effort> {
        let full = (1_usize << self.parts.len()) - 1;
        let mut best: BTreeMap<(usize, Way), Effort> = BTreeMap::new();
        let mut open: BTreeSet<(Effort, usize, Way)> = BTreeSet::new();
        for piece in 0..self.parts.len() {
            open.extend(Way::ALL.map(|face| (Effort::default(), 1 << piece, face)));
        }
        while let Some((effort, set, face)) = open.pop_first() {
            if best.contains_key(&(set, face)) {
                continue;
            }
            best.insert((set, face), effort);
            if set == full {
                return Some(effort);
            }
            for other in Way::ALL.into_iter().filter(|w| *w != face) {
                open.insert((Effort { turns: effort.turns + 1, ..effort }, set, other));
            }
            for piece in (0..self.parts.len()).filter(|p| set & (1 << p) == 0) {
                if let Some(lifted) = self.add(set, face, piece) {
                    let lifted = effort.lifted + u32::from(lifted);
                    open.insert((Effort { lifted, ..effort }, set | (1 << piece), face));
                }
            }
        }
        None
    }

    /// Whether a piece can be added, and if so, whether it hangs in the air meanwhile.
    fn add(&self, set: usize, face: Way, piece: usize) -> Option<bool> {
        let here: Vec<usize> = (0..self.parts.len()).filter(|p| set & (1 << p) != 0).collect();
        let standing: Vec<Block> =
            here.iter().flat_map(|p| self.solids[*p].iter().copied()).collect();
        let solid = &self.solids[piece];
        let bench = reach(face, &standing)?;
        let low = reach(face, solid)?;
        let way_in = |way: &Way| *way != face.back() && !runs_into(*way, solid, &standing);
        if low > bench || !Way::ALL.iter().any(way_in) {
            return None;
        }
        let mut all = standing.clone();
        all.extend(solid);
        let fixes = |joint: &usize| {
            let j = &self.plan.joints[*joint];
            let meets = self.plan.ends(*joint).is_some_and(|[a, b]| {
                let old = |p| here.iter().any(|h| self.parts[*h].contains(&p));
                let new = |p| self.parts[piece].contains(&p);
                (old(a) && new(b)) || (old(b) && new(a))
            });
            meets
                && j.kind != JointKind::Touch
                && (matches!(j.kind, JointKind::Dado | JointKind::Groove)
                    || j.fasteners.iter().all(|f| self.reaches(f, face, bench, &all)))
        };
        if !(0..self.plan.joints.len()).any(|j| fixes(&j)) {
            return None;
        }
        Some(low < bench && contacts(face, solid, &standing).is_empty())
    }

    fn reaches(&self, f: &Fastener, face: Way, bench: i64, all: &[Block]) -> bool {
        let shop = &self.plan.workshop;
        // Another tool than the drill may reach anything.
        if !shop.tools.is_empty() {
            return true;
        }
        let tool = sweep(f, shop);
        shop.bench_height + shop.bearers + bench - face.depth(f.entry) <= shop.reach_height
            && tool.iter().all(|b| face.span(b)[1] <= bench + shop.bearers)
            && !overlap(&tool, all)
    }
}

/// What the plan itself spends on a body, by the same count.
pub fn spent(replay: &Replay<'_>, body: &str) -> Effort {
    let mut out = Effort::default();
    for m in replay.moments.iter().filter(|m| m.step.body == body) {
        out.turns += u32::from(m.step.action == Action::Turn);
        let (face, standing) = (m.step.bench_face, replay.solid(&m.before));
        let Some(bench) = reach(face, &standing) else {
            continue;
        };
        let solid = replay.solid(&m.arriving);
        let low = reach(face, &solid);
        let hangs =
            low.is_some_and(|low| low < bench) && contacts(face, &solid, &standing).is_empty();
        out.lifted += u32::from(hangs);
    }
    out
}
