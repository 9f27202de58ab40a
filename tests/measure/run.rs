//! Runs against trying every set of units.

use super::chance::Chance;
use super::{cabinet, told};
use jointwise::measure::run::{Fill, Rank, fill};
use jointwise::scenario::Run;
use jointwise::units::{Length, Notation};
use serde_json::json;

/// Every set of widths that leaves room, and every filler in whole millimetres; the best rank.
fn brute(run: &Run) -> Option<Rank> {
    let (least, most, step) = (run.least.get(), run.most.get(), run.step.get());
    let widths: Vec<i64> = (0..).map(|n| least + n * step).take_while(|w| *w <= most).collect();
    let wanted: i64 = run.wanted.iter().map(|w| w.get()).sum();
    let mut best = None;
    let mut set = Vec::new();
    all(run, &widths, 0, run.wall.get() - wanted, &mut set, &mut best);
    best
}

fn all(
    run: &Run,
    widths: &[i64],
    from: usize,
    rest: i64,
    set: &mut Vec<i64>,
    best: &mut Option<Rank>,
) {
    if run.count.is_none_or(|n| n as usize == set.len()) {
        close(run, rest, set, best);
    }
    for i in from..widths.len() {
        if widths[i] <= rest {
            set.push(widths[i]);
            all(run, widths, i, rest - widths[i], set, best);
            set.pop();
        }
    }
}

fn close(run: &Run, rest: i64, set: &[i64], best: &mut Option<Rank>) {
    let walls = run.walls.iter().filter(|w| **w).count() as i64;
    let [thin, wide] = run.filler.map(Length::get);
    for filler in (0..=walls * wide).step_by(1000) {
        let custom = rest - filler;
        let may = filler == 0 || (1..=walls).any(|n| (n * thin..=n * wide).contains(&filler));
        if !may || custom < run.custom[0].get() || custom > run.custom[1].get() {
            continue;
        }
        let spread = set.iter().max().unwrap_or(&0) - set.iter().min().unwrap_or(&0);
        let rank = Rank {
            filler,
            off: run.wish.map_or(0, |w| (w.get() - custom).abs()),
            count: set.len() as i64,
            uneven: spread,
            narrow: -custom,
        };
        if best.is_none_or(|b| rank < b) {
            *best = Some(rank);
        }
    }
}

fn rank(run: &Run, f: &Fill) -> Rank {
    let mut bought = f.units.clone();
    for w in &run.wanted {
        let at = bought.iter().position(|b| *b == w.get()).expect("a wanted unit is not there");
        bought.remove(at);
    }
    Rank {
        filler: f.fillers.iter().sum(),
        off: run.wish.map_or(0, |w| (w.get() - f.custom).abs()),
        count: bought.len() as i64,
        uneven: bought.iter().max().unwrap_or(&0) - bought.iter().min().unwrap_or(&0),
        narrow: -f.custom,
    }
}

fn mm(n: i64) -> Length {
    Length::mm(n)
}

#[test]
fn the_best_fill_is_that_of_trying_all_on_200_walls() {
    let mut chance = Chance(7);
    let mut filled = 0;
    for n in 0..200 {
        let step = [50, 100, 150][chance.within(0, 2) as usize];
        let least = chance.within(6, 12) * 50;
        let low = chance.within(200, 700);
        let thin = chance.within(0, 40);
        let run = Run {
            wall: mm(chance.within(500, 3200)),
            least: mm(least),
            most: mm(least + step * chance.within(0, 6)),
            step: mm(step),
            count: [None, None, Some(chance.within(0, 4) as u32)][chance.within(0, 2) as usize],
            wanted: (0..chance.within(0, 1)).map(|_| mm(chance.within(3, 8) * 100)).collect(),
            custom: [mm(low), mm(low + chance.within(0, 250))],
            wish: (chance.within(0, 1) == 1).then(|| mm(low + 20)),
            filler: [mm(thin), mm(thin + chance.within(0, 60))],
            walls: [chance.within(0, 1) == 1, chance.within(0, 1) == 1],
        };
        let (ways, said) = fill(&run, Notation::MmTenth);
        let best = brute(&run);
        assert_eq!(ways.first().map(|f| rank(&run, f)), best, "wall {n}: {run:?}");
        assert_eq!(ways.is_empty(), !said.is_empty(), "wall {n}");
        for (f, next) in ways.iter().zip(ways.iter().skip(1)) {
            assert!(rank(&run, f) <= rank(&run, next), "wall {n}: not best first");
        }
        for f in &ways {
            let sum: i64 = f.units.iter().sum::<i64>() + f.custom + f.fillers.iter().sum::<i64>();
            assert_eq!(sum, run.wall.get(), "wall {n}: {f:?}");
            assert!(
                f.fillers.iter().zip(run.walls).all(|(w, wall)| *w == 0 || wall),
                "wall {n}: {f:?}"
            );
            let [thin, wide] = run.filler.map(Length::get);
            assert!(
                f.fillers.iter().all(|w| *w == 0 || (thin..=wide).contains(w)),
                "wall {n}: {f:?}"
            );
            assert!(!f.text.is_empty() && !f.why.is_empty());
        }
        filled += i64::from(!ways.is_empty());
    }
    assert!((60..200).contains(&filled), "{filled} of 200 can be filled");
}

#[test]
fn a_wall_that_nothing_fills_is_told_with_what_would() {
    let outcome = cabinet(|s| {
        s["run"] = json!({ "wall": 3290, "count": 3, "least": 600, "most": 900, "step": 300, "custom": { "least": 400, "most": 420 } });
    });
    assert!(outcome.run.is_empty());
    let f = told(&outcome, "run-no-fill", "run.wall");
    assert!(f.hint.contains("run."), "{f:?}");
    let wide =
        cabinet(|s| s["run"] = json!({ "wall": 1000, "wanted": [{ "width": 800, "count": 2 }] }));
    told(&wide, "run-no-fill", "run.wall");
    let good = cabinet(|s| s["run"] = json!({ "wall": 3200, "step": 100 }));
    assert_eq!(good.run.len(), 8);
}
