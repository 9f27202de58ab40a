//! A shop day: two thousand parts at once are laid out so that they can be cut, near the least area that could do.

use std::collections::BTreeMap;

use jointwise::cutting::{Becomes, Search};
use jointwise_tests::cutting::checker::faults;
use jointwise_tests::cutting::jobs;

const PIECES: u32 = 2000;
/// Steps of the search after the first layout.
const STEPS: u32 = 2000;
/// Sheets beyond what the area alone asks for, of a hundred. A judgement: backs as wide as three quarters of a sheet
/// leave strips that hold none.
const BEYOND: i128 = 22;

#[test]
fn two_thousand_parts_are_cut_as_said_and_near_what_the_area_asks_for() {
    let job = jobs::day(1, PIECES);
    assert_eq!(job.parts.iter().map(|p| p.count).sum::<u32>(), PIECES);
    let mut search = Search::new(&job);
    assert!(search.findings().is_empty(), "{:#?}", search.findings());
    let first = search.best();
    search.step(STEPS);
    let layout = search.best();
    let faults = faults(&job, &layout);
    assert!(faults.is_empty(), "{faults:#?}");
    assert_eq!(layout.score.unplaced, 0);
    assert!(layout.score.price <= first.score.price);

    // By hand: each sheet gives its usable area and no more, and every cut loses some of it.
    let mut wanted: BTreeMap<&str, i128> = BTreeMap::new();
    for p in &job.parts {
        *wanted.entry(&p.material).or_default() +=
            i128::from(p.length) * i128::from(p.width) * i128::from(p.count);
    }
    let mut all = [0, 0];
    for (material, area) in wanted {
        let of = |scrap| job.stock.iter().find(|s| s.material == material && s.scrap == scrap);
        let (sheet, scrap) = (of(false).unwrap(), of(true).unwrap());
        let usable = i128::from(sheet.length - 10_000) * i128::from(sheet.width - 10_000);
        let used: Vec<_> =
            layout.sheets.iter().filter(|s| job.stock[s.stock].material == material).collect();
        let sheets = used.iter().filter(|s| !job.stock[s.stock].scrap).count() as i128;
        let scraps = 2 * i128::from(scrap.length) * i128::from(scrap.width);
        let least = ((area - scraps).max(0) + usable - 1) / usable;
        assert!(sheets >= least, "{material}: {sheets}, {least}");
        all = [all[0] + sheets, all[1] + least];
    }
    let [sheets, least] = all;
    println!("{sheets} sheets, {} at first, by area {least} at least", first.score.sheets);
    assert!(sheets * 100 <= least * (100 + BEYOND), "{sheets} sheets, {least} at least");
    let parts = layout.sheets.iter().flat_map(|s| s.root.leaves());
    let placed = parts.filter(|l| matches!(l.becomes, Becomes::Part { .. })).count();
    assert_eq!(placed, PIECES as usize);
}
