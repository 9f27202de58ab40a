//! Small jobs come out as the oracle says, which tries everything.

use jointwise::cutting::{Aim, Job, Search};
use jointwise_tests::cutting::checker::faults;
use jointwise_tests::cutting::jobs;
use jointwise_tests::cutting::oracle::Oracle;

/// How many jobs.
const JOBS: u64 = 200;
/// Steps in which a few parts are laid out as well as can be.
const STEPS: u32 = 6000;

#[test]
fn small_jobs_cost_what_the_oracle_says() {
    let (mut several, mut with_kerf, mut proved) = (0, 0, 0);
    for seed in 0..JOBS {
        let job = Job { aim: Aim::CostAlone, ..jobs::small(seed) };
        let mut search = Search::new(&job);
        search.step(STEPS);
        let layout = search.best();
        let found = (layout.score.unplaced == 0).then_some(layout.score.price);
        let least = Oracle::new(&job).least_price();
        assert_eq!(found, least, "seed {seed}: {job:#?}\n{layout:#?}");
        let faults = faults(&job, &layout);
        assert!(faults.is_empty(), "seed {seed}: {faults:#?}");
        several += usize::from(layout.sheets.len() > 1);
        with_kerf += usize::from(job.kerf > 0);
        proved += usize::from(layout.proved);
    }
    assert!(several > 40 && with_kerf > 60 && proved > 80, "{several} {with_kerf} {proved}");
}

#[test]
fn the_value_of_one_small_sheet_is_what_the_oracle_says() {
    let mut left_out = 0;
    for seed in 1000..1000 + JOBS {
        let mut job = Job { aim: Aim::MostValue, ..jobs::small(seed) };
        job.stock.truncate(1);
        job.stock[0].count = Some(1);
        let mut search = Search::new(&job);
        search.step(STEPS);
        let layout = search.best();
        let most = Oracle::new(&job).most_value();
        assert_eq!(layout.score.value, most, "seed {seed}: {job:#?}\n{layout:#?}");
        let faults = faults(&job, &layout);
        assert!(faults.is_empty(), "seed {seed}: {faults:#?}");
        left_out += usize::from(layout.score.unplaced > 0);
    }
    assert!(left_out > 60, "{left_out}");
}
