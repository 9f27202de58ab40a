//! Checks: the numbers to be measured are those of the finished piece, between points on parts
//! that are there.

use super::Violation;
use super::file::Check;
use super::replay::Replay;
use super::space::holds_point;

/// Name of the rule.
pub const RULE: &str = "checks";

/// Diagonals are no whole numbers: they may be rounded to a millimetre for the tape.
const ROUNDED: i64 = 1_000;

/// Judges every measurement of every step.
pub fn judge(replay: &Replay<'_>) -> Vec<Violation> {
    let mut out = Vec::new();
    for m in &replay.moments {
        let here = replay.solid(&m.after());
        for check in &m.step.checks {
            let mut bad = numbers(check);
            if check.kind != "gap" {
                let astray = check.between.iter().flatten().filter(|p| !holds_point(&here, **p));
                bad.extend(astray.map(|p| format!("{p:?} lies on no part")));
            }
            out.extend(
                bad.into_iter()
                    .map(|what| Violation::new(RULE, m.step.n, format!("{}: {what}", check.kind))),
            );
        }
    }
    out
}

/// Squared distance of two points.
fn squared(pair: &[[i64; 3]; 2]) -> i128 {
    (0..3).map(|a| i128::from(pair[1][a] - pair[0][a]).pow(2)).sum()
}

/// Whether a length lies within `slack` of the distance of two points, in whole numbers.
fn is_distance(length: i64, pair: &[[i64; 3]; 2], slack: i64) -> bool {
    let (low, high) = (i128::from((length - slack).max(0)), i128::from(length + slack));
    length > 0 && low * low <= squared(pair) && squared(pair) <= high * high
}

fn numbers(check: &Check) -> Vec<String> {
    let mut out = Vec::new();
    if check.tolerance < 0 {
        out.push(format!("tolerance {}", check.tolerance));
    }
    let (pairs, slack) = match check.kind.as_str() {
        "diagonals" => (2, ROUNDED),
        "equal-widths" => (2, 1),
        "gap" => (0, 1),
        "flush" | "dry-fit" | "works" => return out,
        "level" => {
            // Between points at one height, or one above the other: nothing to be found there.
            let askew = |[p, q]: &&[[i64; 3]; 2]| p[2] != q[2] && (p[0] != q[0] || p[1] != q[1]);
            out.extend(check.between.iter().filter(askew).map(|p| format!("{p:?} is not level")));
            if check.between.is_empty() || check.expected.iter().any(|e| *e != 0) {
                out.push("is level by nothing".into());
            }
            return out;
        }
        other => return vec![format!("{other} is no check")],
    };
    if check.expected.len() != check.between.len() || check.between.len() < pairs {
        out.push(format!(
            "{} values for {} pairs of points",
            check.expected.len(),
            check.between.len()
        ));
    }
    for (length, pair) in check.expected.iter().zip(&check.between) {
        if !is_distance(*length, pair, slack) {
            out.push(format!("{length} is not the distance of {pair:?}"));
        }
    }
    if check.kind == "gap" {
        return out;
    }
    let (least, most) = (check.expected.iter().min(), check.expected.iter().max());
    if let (Some(least), Some(most)) = (least, most)
        && most - least > check.tolerance
    {
        out.push(format!("{least} and {most} should be equal"));
    }
    // Equal diagonals prove a right angle only when they halve each other.
    if let ("diagonals", [a, b]) = (check.kind.as_str(), check.between.as_slice()) {
        let apart = (0..3)
            .any(|i| (a[0][i] + a[1][i] - b[0][i] - b[1][i]).abs() > 2 * check.tolerance.max(1));
        if apart {
            out.push("the two lines do not cross in their middles".into());
        }
    }
    out
}
