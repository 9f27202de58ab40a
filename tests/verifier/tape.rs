//! The tape: it lies straight between its two points past everything that is there, and measures
//! what can still be put right.

use super::Violation;
use super::file::JointKind;
use super::replay::{Moment, Replay};
use super::space::Block;

/// Name of the rule.
pub const RULE: &str = "tape";

/// A share of the way from the one point to the other, as a fraction with a positive divisor.
type Share = (i128, i128);

fn less(a: Share, b: Share) -> bool {
    a.0 * b.1 < b.0 * a.1
}

/// The open range of shares of the way within the inside of a block, when there is one.
///
/// Everything is doubled and moved by `nudge` half micrometres, so that a line that lies in a face
/// can be looked at on either side of it.
fn within(line: &[[i64; 3]; 2], b: &Block, nudge: [i128; 3]) -> Option<(Share, Share)> {
    let (mut from, mut to): (Share, Share) = ((0, 1), (1, 1));
    for a in 0..3 {
        let p = 2 * i128::from(line[0][a]) + nudge[a];
        let d = 2 * i128::from(line[1][a] - line[0][a]);
        let (low, high) = (2 * i128::from(b[a]) - p, 2 * i128::from(b[a + 3]) - p);
        if d == 0 {
            if low >= 0 || high <= 0 {
                return None;
            }
            continue;
        }
        let (enters, leaves) =
            if d > 0 { ((low, d), (high, d)) } else { ((-high, -d), (-low, -d)) };
        from = if less(from, enters) { enters } else { from };
        to = if less(leaves, to) { leaves } else { to };
    }
    less(from, to).then_some((from, to))
}

/// Whether a straight line passes through the inside of a solid of blocks that may touch.
pub fn passes_through(line: &[[i64; 3]; 2], solid: &[Block]) -> bool {
    let flat: Vec<usize> = (0..3).filter(|a| line[0][*a] == line[1][*a]).collect();
    // In each of the ways the line could be nudged off a face that it lies in.
    let mut sides: Vec<Vec<(Share, Share)>> = Vec::new();
    for bits in 0..1 << flat.len() {
        let mut nudge = [0; 3];
        for (i, a) in flat.iter().enumerate() {
            nudge[*a] = if bits >> i & 1 == 1 { 1 } else { -1 };
        }
        sides.push(solid.iter().filter_map(|b| within(line, b, nudge)).collect());
    }
    let Some(mut common) = sides.pop() else {
        return false;
    };
    for other in sides {
        let mut both = Vec::new();
        for (f, t) in &common {
            for (g, u) in &other {
                let from = if less(*f, *g) { *g } else { *f };
                let to = if less(*t, *u) { *t } else { *u };
                if less(from, to) {
                    both.push((from, to));
                }
            }
        }
        common = both;
    }
    !common.is_empty()
}

/// Whether what is measured can be put right: something of the body is still open, or was closed in
/// the step itself or the one just before, so that its glue still gives or its screws can be backed
/// out.
fn is_open(replay: &Replay<'_>, m: &Moment<'_>) -> bool {
    let plan = replay.plan;
    if !m.wet.is_empty() || m.adds() {
        return true;
    }
    let here = m.after();
    let concerns = |j: usize| plan.ends(j).is_some_and(|e| e.iter().any(|p| here.contains(p)));
    let same = |s: &&Moment<'_>| s.step.body == m.step.body;
    let just_before = replay.moments.iter().filter(same).rfind(|s| s.step.n < m.step.n);
    let later = |s: &&Moment<'_>| s.step.n > m.step.n && same(s);
    let closes = |s: &Moment<'_>| {
        let mut joints = s.step.joints.iter().filter_map(|id| plan.joint(id));
        joints.any(|j| concerns(j) && plan.joints[j].kind != JointKind::Touch)
    };
    just_before.is_some_and(closes) || replay.moments.iter().filter(later).any(closes)
}

/// Judges every measurement that a tape is laid for.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        let taped = |kind: &str| kind == "diagonals" || kind == "equal-widths";
        for check in m.step.checks.iter().filter(|c| taped(&c.kind)) {
            let mut bad = |what: String| {
                out.push(Violation::new(RULE, m.step.n, format!("{}: {what}", check.kind)));
            };
            for line in &check.between {
                for p in m.after() {
                    if passes_through(line, &replay.solid([&p])) {
                        bad(format!("{line:?} passes through {}", replay.names([&p])));
                    }
                }
            }
            if !is_open(replay, m) {
                bad("everything was closed long before".into());
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn touching_is_free_and_a_seam_inside_is_not() {
        let cube = [[0, 0, 0, 10, 10, 10]];
        assert!(passes_through(&[[-5, -5, 5], [15, 15, 5]], &cube));
        assert!(!passes_through(&[[-5, 5, 10], [15, 5, 10]], &cube));
        assert!(!passes_through(&[[-5, 5, 0], [5, -5, 0]], &cube));
        assert!(!passes_through(&[[-5, 5, 5], [0, 5, 5]], &cube));
        assert!(passes_through(&[[-5, 5, 5], [1, 5, 5]], &cube));
        // Two blocks of one part: along their seam is inside it, along its edge is not.
        let two = [[0, 0, 0, 10, 10, 5], [0, 0, 5, 10, 10, 10]];
        assert!(passes_through(&[[-5, 5, 5], [15, 5, 5]], &two));
        assert!(!passes_through(&[[-5, 0, 5], [15, 0, 5]], &two));
        let four = [
            [0, 0, 0, 10, 5, 5],
            [0, 5, 0, 10, 10, 5],
            [0, 0, 5, 10, 5, 10],
            [0, 5, 5, 10, 10, 10],
        ];
        assert!(passes_through(&[[-5, 5, 5], [15, 5, 5]], &four));
        assert!(!passes_through(&[[-5, 5, 5], [15, 5, 5]], &four[..3]));
    }
}
