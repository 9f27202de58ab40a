//! Every layout can be cut as it says: judged by a replay of its cuts that shares no code with the search.

use jointwise::cutting::{Aim, Job, Layout, Search};
use jointwise_tests::cutting::checker::faults;
use jointwise_tests::cutting::jobs;

/// How many jobs are made by chance.
const JOBS: u64 = 400;

fn laid_out(job: &Job, steps: u32) -> Layout {
    let mut search = Search::new(job);
    search.step(steps);
    search.best()
}

fn demand_sound(seed: u64, job: &Job, layout: &Layout) {
    let faults = faults(job, layout);
    assert!(faults.is_empty(), "seed {seed}: {faults:#?}\n{job:#?}\n{layout:#?}");
}

#[test]
fn layouts_of_random_jobs_can_be_cut() {
    let (mut placed, mut scraps, mut unplaced, mut stages) = (0, 0, 0, 0);
    for seed in 0..JOBS {
        let job = jobs::shop(seed);
        for steps in [0, 300] {
            let layout = laid_out(&job, steps);
            demand_sound(seed, &job, &layout);
            placed += layout.sheets.iter().map(|s| s.root.leaves().len()).sum::<usize>();
            scraps += layout.score.scraps;
            unplaced += layout.score.unplaced;
            stages += usize::from(layout.score.cuts > 0);
        }
    }
    // Otherwise the jobs try nothing.
    assert!(
        placed > 20_000 && scraps > 100 && unplaced > 100 && stages > 700,
        "{placed} {scraps} {unplaced} {stages}"
    );
}

#[test]
fn a_search_only_makes_a_layout_better() {
    for seed in 0..100 {
        let job = Job { aim: Aim::LeastCost, ..jobs::shop(seed) };
        let rank = |l: &Layout| {
            let s = l.score;
            (s.unplaced, s.price)
        };
        let (first, later) = (laid_out(&job, 0), laid_out(&job, 400));
        let longest = laid_out(&job, 1500);
        // By area, not by number, parts are left out: only complete layouts compare.
        if first.score.unplaced == 0 {
            assert!(rank(&later) <= rank(&first), "seed {seed}");
            assert!(rank(&longest) <= rank(&later), "seed {seed}");
        }
    }
}

/// Once the price is proved only the offcut, the settings and the cuts change, in that order of weight.
#[test]
fn polishing_makes_the_offcut_bigger_then_the_settings_fewer() {
    let (mut better, mut of) = (0, 0);
    for seed in 0..60 {
        let mut job = Job { aim: Aim::LeastCost, ..jobs::shop(seed) };
        job.stock.retain(|s| s.material == "ply" && !s.scrap);
        job.parts.retain(|p| p.material == "ply");
        let first = laid_out(&job, 0);
        if !first.proved || first.score.unplaced > 0 {
            continue;
        }
        let later = laid_out(&job, 2000);
        let rank = |l: &Layout| (l.score.price, -l.score.offcut, l.score.settings, l.score.cuts);
        assert!(rank(&later) <= rank(&first), "seed {seed}: {:?} {:?}", first.score, later.score);
        demand_sound(seed, &job, &later);
        of += 1;
        better += usize::from(rank(&later) < rank(&first));
    }
    assert!(better > 10, "only {better} of {of} became better");
}

#[test]
fn the_same_job_gives_the_same_bytes_however_the_steps_are_parted() {
    for seed in 0..40 {
        let job = jobs::shop(seed);
        let bytes = |layout: &Layout| serde_json::to_string(layout).unwrap();
        let whole = laid_out(&job, 240);
        let mut search = Search::new(&job);
        for part in [1, 7, 100, 0, 132] {
            search.step(part);
        }
        assert_eq!(bytes(&search.best()), bytes(&whole), "seed {seed}");
        assert_eq!(bytes(&laid_out(&job, 240)), bytes(&whole), "seed {seed}");
    }
}

#[test]
fn a_layout_survives_its_file() {
    let layout = laid_out(&jobs::shop(3), 50);
    let text = serde_json::to_string(&layout).unwrap();
    assert_eq!(serde_json::from_str::<Layout>(&text).unwrap(), layout);
}

/// A judge that finds nothing proves nothing: slips are put into good layouts.
#[test]
fn the_judge_finds_slips() {
    use jointwise::cutting::{Becomes, CutNode};
    fn each(node: &mut CutNode, slip: &mut impl FnMut(&mut CutNode)) {
        slip(node);
        if let Becomes::Cut { pieces, .. } = &mut node.becomes {
            for piece in pieces {
                each(piece, slip);
            }
        }
    }
    type Slip = fn(&mut CutNode) -> bool;
    let slips: [(&str, Slip); 5] = [
        ("a piece moved by a micrometre", |n| {
            n.rect.x += 1;
            true
        }),
        ("a cut moved by a micrometre", |n| match &mut n.becomes {
            Becomes::Cut { cuts, .. } => {
                cuts[0] += 1;
                true
            }
            _ => false,
        }),
        ("a part turned", |n| match &mut n.becomes {
            Becomes::Part { turned, .. } if n.rect.length != n.rect.width => {
                *turned = !*turned;
                true
            }
            _ => false,
        }),
        ("a part lost", |n| {
            let part = matches!(n.becomes, Becomes::Part { .. });
            if part {
                n.becomes = Becomes::Waste;
            }
            part
        }),
        ("a cut lost", |n| match &mut n.becomes {
            Becomes::Cut { cuts, .. } => cuts.pop().is_some(),
            _ => false,
        }),
    ];
    for (name, slip) in slips {
        let mut made = 0;
        for seed in 0..20 {
            let job = jobs::shop(seed);
            let good = laid_out(&job, 0);
            for sheet in 0..good.sheets.len() {
                let mut bad = good.clone();
                let mut done = false;
                each(&mut bad.sheets[sheet].root, &mut |node| {
                    if !done {
                        done = slip(node);
                    }
                });
                if done {
                    made += 1;
                    assert!(!faults(&job, &bad).is_empty(), "{name} is not found, seed {seed}");
                }
            }
        }
        assert!(made > 10, "{name}: {made}");
    }
}
