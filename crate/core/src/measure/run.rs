//! A wall filled with bought units, one made for it, and fillers: the best ways, all of them tried.
//!
//! Bought widths lie on one ladder of steps, so how many units and their sum say everything: every
//! sum between the least and the most is met, most evenly by two neighbouring widths. All pairs of
//! number and sum are tried, which is every fill there is.

use serde::{Deserialize, Serialize};

use crate::findings::{Finding, Severity};
use crate::scenario::Run;
use crate::units::{Length, Notation};

/// So many ways are listed.
const LISTED: usize = 8;
/// More units stand on no wall.
const MOST: i64 = 60;

/// One way to fill the wall, in micrometres.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fill {
    /// Widths of the bought units, widest first, the wanted ones among them.
    pub units: Vec<i64>,
    /// Width of the place for the piece.
    pub custom: i64,
    /// Width of the filler at the left and at the right end; zero for none.
    pub fillers: [i64; 2],
    /// In words.
    pub text: String,
    /// Why it stands where it does in the list.
    pub why: String,
}

/// What makes one way better than another, most important first: less filler, nearer to the wish,
/// fewer units, more even widths, then the wider place for the piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Rank {
    /// Filler in all.
    pub filler: i64,
    /// Distance of the place's width from the wish.
    pub off: i64,
    /// Bought units, the wanted ones not counted.
    pub count: i64,
    /// Widest less narrowest of them.
    pub uneven: i64,
    /// The place's width, negative.
    pub narrow: i64,
}

/// Place and fillers for what the units leave, with the least filler; none when nothing fits.
pub fn close(run: &Run, rest: i64) -> Option<(i64, [i64; 2])> {
    let [least, most] = run.custom.map(Length::get);
    let [thin, wide] = run.filler.map(Length::get);
    if rest < least {
        return None;
    }
    if rest <= most {
        return Some((rest, [0, 0]));
    }
    let walls = i64::from(run.walls[0]) + i64::from(run.walls[1]);
    (1..=walls).find_map(|n| {
        let filler = (rest - most).max(n * thin);
        if filler > n * wide || rest - filler < least {
            return None;
        }
        let fillers = match (n, run.walls) {
            (2, _) => [filler / 2, filler - filler / 2],
            (_, [true, _]) => [filler, 0],
            _ => [0, filler],
        };
        Some((rest - filler, fillers))
    })
}

/// Every number and sum of units with what closes the rest, best first.
fn ways(run: &Run) -> Vec<(Rank, i64, i64, [i64; 2])> {
    let (least, step) = (run.least.get(), run.step.get().max(1));
    let rungs = (run.most.get() - least).max(0) / step;
    let wanted: i64 = run.wanted.iter().map(|w| w.get()).sum();
    let base = run.wall.get() - wanted;
    let counts = match run.count {
        Some(n) => i64::from(n)..=i64::from(n),
        None => 0..=(base / least.max(1)).clamp(0, MOST),
    };
    let mut found = Vec::new();
    for count in counts {
        for steps in 0..=count * rungs {
            let rest = base - count * least - steps * step;
            if rest < run.custom[0].get() {
                break;
            }
            if let Some((custom, fillers)) = close(run, rest) {
                let rank = Rank {
                    filler: fillers[0] + fillers[1],
                    off: run.wish.map_or(0, |w| (w.get() - custom).abs()),
                    count,
                    uneven: if count > 0 && steps % count > 0 { step } else { 0 },
                    narrow: -custom,
                };
                found.push((rank, steps, custom, fillers));
            }
        }
    }
    found.sort_unstable();
    found
}

/// The best ways, or a finding that says what keeps the wall from being filled.
pub fn fill(run: &Run, notation: Notation) -> (Vec<Fill>, Vec<Finding>) {
    let p = |um: i64| notation.print(Length(um));
    let ways = ways(run);
    if ways.is_empty() {
        return (Vec::new(), vec![nothing(run, notation)]);
    }
    let mut listed: Vec<Fill> = Vec::new();
    for (n, &(rank, steps, custom, fillers)) in ways.iter().take(LISTED).enumerate() {
        let (least, step) = (run.least.get(), run.step.get().max(1));
        let mut units: Vec<i64> = run.wanted.iter().map(|w| w.get()).collect();
        for i in 0..rank.count {
            let more = steps / rank.count + i64::from(i < steps % rank.count);
            units.push(least + more * step);
        }
        units.sort_unstable_by(|a, b| b.cmp(a));
        let before = n.checked_sub(1).and_then(|b| ways.get(b)).map(|w| w.0);
        listed.push(Fill {
            text: text(&units, custom, fillers, p),
            why: why(rank, before, p),
            units,
            custom,
            fillers,
        });
    }
    (listed, Vec::new())
}

fn text(units: &[i64], custom: i64, fillers: [i64; 2], p: impl Fn(i64) -> String) -> String {
    let mut said: Vec<String> = Vec::new();
    for (i, &unit) in units.iter().enumerate() {
        if i > 0 && units[i - 1] == unit {
            continue;
        }
        let count = units.iter().filter(|u| **u == unit).count();
        said.push(if count == 1 { p(unit) } else { format!("{count} × {}", p(unit)) });
    }
    said.push(format!("{} for this piece", p(custom)));
    for (filler, side) in fillers.into_iter().zip(["left", "right"]) {
        if filler > 0 {
            said.push(format!("filler {} at the {side} wall", p(filler)));
        }
    }
    said.join(" + ")
}

/// The first thing in which it is worse than the way before it.
fn why(rank: Rank, before: Option<Rank>, p: impl Fn(i64) -> String) -> String {
    let Some(b) = before else {
        return "least filler, then nearest to the wish, then fewest and most even units"
            .to_owned();
    };
    if rank.filler > b.filler {
        format!("{} more filler than the one above", p(rank.filler - b.filler))
    } else if rank.off > b.off {
        format!("as little filler, but {} further from the wished width", p(rank.off - b.off))
    } else if rank.count > b.count {
        "as little filler, but more units".to_owned()
    } else if rank.uneven > b.uneven {
        "as many units, but of two widths".to_owned()
    } else {
        "as good as the one above: only the place for this piece is narrower".to_owned()
    }
}

/// What is nearest to filling the wall, and what would have to give.
fn nothing(run: &Run, notation: Notation) -> Finding {
    let p = |um: i64| notation.print(Length(um));
    let (least, step) = (run.least.get(), run.step.get().max(1));
    let rungs = (run.most.get() - least).max(0) / step;
    let wanted: i64 = run.wanted.iter().map(|w| w.get()).sum();
    let base = run.wall.get() - wanted;
    let counts =
        run.count.map_or(0..=(base / least.max(1)).clamp(0, MOST), |n| i64::from(n)..=i64::from(n));
    let walls = i64::from(run.walls[0]) + i64::from(run.walls[1]);
    let [low, high] = [run.custom[0].get(), run.custom[1].get() + walls * run.filler[1].get()];
    let rests = counts.flat_map(|n| (0..=n * rungs).map(move |s| base - n * least - s * step));
    let nearest = rests.min_by_key(|&r| (if r < low { low - r } else { (r - high).max(0) }, r));
    let finding = |message: String, hint: String| {
        Finding::new(Severity::Fix, "run-no-fill", "run.wall", message, hint)
            .number("wall", p(run.wall.get()))
            .number("wanted units", p(wanted))
            .number("least for this piece", p(low))
            .number("most for this piece", p(run.custom[1].get()))
    };
    match nearest {
        Some(rest) if rest >= low && rest <= high => finding(
            format!("No units fill `run.wall` of {}: {} would be left, and no filler of the allowed widths closes it.", p(run.wall.get()), p(rest)),
            "Allow narrower fillers with `run.filler_least`, or a wider piece with `run.custom.most`.".to_owned(),
        ),
        Some(rest) if rest > high => finding(
            format!("No units fill `run.wall` of {}: {} would be left for this piece and fillers.", p(run.wall.get()), p(rest)),
            format!("Let `run.custom.most` be {} or more, allow wider fillers, or more units.", p(rest - (high - run.custom[1].get()))),
        ),
        Some(rest) if rest > 0 => finding(
            format!("No units fill `run.wall` of {}: at most {} would be left for this piece.", p(run.wall.get()), p(rest)),
            format!("Let `run.custom.least` be {} or less, or ask for fewer units.", p(rest)),
        ),
        _ => finding(
            format!("The units asked for are longer than `run.wall` of {}.", p(run.wall.get())),
            "Ask for fewer or narrower units in `run.wanted` and `run.count`.".to_owned(),
        ),
    }
}
