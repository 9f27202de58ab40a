//! Bad stock and bad parts are findings with a cure; the rest is laid out.

use jointwise::assembly::Grain;
use jointwise::cutting::{CutPart, GrainRule, Job, Layout, Search, Stock, Trim, Why};
use jointwise::findings::{Finding, Severity};
use jointwise_tests::cutting::checker::faults;
use jointwise_tests::cutting::jobs::{part, sheet};

const MM: i64 = 1000;

fn good() -> Job {
    Job {
        stock: vec![sheet(2440 * MM, 1220 * MM)],
        parts: vec![part(720 * MM, 560 * MM, 2, GrainRule::Locked)],
        kerf: 3 * MM,
        ..Job::default()
    }
}

fn tried(job: &Job) -> (Layout, Vec<Finding>) {
    let mut search = Search::new(job);
    search.step(20);
    let layout = search.best();
    let faults = faults(job, &layout);
    assert!(faults.is_empty(), "{faults:#?}");
    (layout, search.findings())
}

/// One finding with that code at that place, with something to do about it.
fn says(findings: &[Finding], code: &str, place: &str) -> Finding {
    let found: Vec<_> = findings.iter().filter(|f| f.code == code && f.place == place).collect();
    assert_eq!(found.len(), 1, "{code} at {place}: {findings:#?}");
    assert!(found[0].hint.len() > 20 && found[0].message.len() > 10);
    found[0].clone()
}

#[test]
fn a_good_job_has_no_findings() {
    let (layout, findings) = tried(&good());
    assert_eq!((layout.score.unplaced, findings.len()), (0, 0));
}

#[test]
fn a_kerf_that_no_saw_cuts_stops_it() {
    for kerf in [-1, 11 * MM, i64::MAX, i64::MIN] {
        let (layout, findings) = tried(&Job { kerf, ..good() });
        assert_eq!(says(&findings, "cut-length-range", "kerf").severity, Severity::Stop);
        assert!(layout.sheets.is_empty());
        assert_eq!(layout.unplaced[0].why, Why::Refused);
    }
    // No kerf is a laser or a knife.
    assert!(tried(&Job { kerf: 0, ..good() }).1.is_empty());
}

#[test]
fn bad_stock_is_left_out_and_the_rest_used() {
    let other = |change: fn(&mut Stock)| {
        let mut job = good();
        let mut stock = sheet(1500 * MM, 1500 * MM);
        stock.id = "other".to_owned();
        change(&mut stock);
        job.stock.push(stock);
        job
    };
    type Case = (fn(&mut Stock), &'static str, &'static str);
    let cases: [Case; 7] = [
        (|s| s.price = -1, "price-range", "stock other.price"),
        (|s| s.price = i64::MAX, "price-range", "stock other.price"),
        (|s| s.length = 0, "cut-length-range", "stock other.length"),
        (|s| s.width = i64::MAX, "cut-length-range", "stock other.width"),
        (|s| s.trim.left = -5, "cut-length-range", "stock other.trim.left"),
        (|s| s.trim.back = i64::MAX, "cut-length-range", "stock other.trim.back"),
        (|s| s.trim = Trim::all(750 * MM), "trim-takes-all", "stock other.trim"),
    ];
    for (change, code, place) in cases {
        let (layout, findings) = tried(&other(change));
        says(&findings, code, place);
        assert_eq!((layout.score.unplaced, layout.score.sheets), (0, 1), "{code}");
        assert_eq!(layout.sheets[0].stock, 0);
    }
}

#[test]
fn what_does_not_fit_is_listed_and_the_rest_laid_out() {
    let with = |wrong: CutPart| {
        let mut job = good();
        job.parts.push(CutPart { id: "wrong".to_owned(), ..wrong });
        job
    };
    let cases = [
        (part(2441 * MM, 100 * MM, 1, GrainRule::Free), "bigger-than-stock"),
        (part(600 * MM, 1300 * MM, 3, GrainRule::Locked), "grain-does-not-fit"),
        (
            CutPart { material: "cork".to_owned(), ..part(100 * MM, 100 * MM, 1, GrainRule::Free) },
            "no-stock",
        ),
    ];
    for (wrong, code) in cases {
        let count = wrong.count;
        let (layout, findings) = tried(&with(wrong));
        says(&findings, code, "part wrong");
        assert_eq!(layout.score.unplaced, count);
        assert_eq!((layout.unplaced[0].part, layout.unplaced[0].why), (1, Why::FitsNowhere));
        assert_eq!(layout.sheets.len(), 1);
    }
    for (length, width) in [(0, 100 * MM), (100 * MM, -1), (i64::MAX, i64::MAX), (i64::MIN, 1)] {
        let (layout, findings) = tried(&with(part(length, width, 1, GrainRule::Free)));
        assert!(findings.iter().any(|f| f.code == "cut-length-range"), "{findings:#?}");
        assert_eq!(layout.unplaced[0].why, Why::Refused);
    }
}

#[test]
fn grain_keeps_a_part_off_a_narrow_scrap() {
    let scrap = Stock {
        id: "scrap".to_owned(),
        count: Some(1),
        price: 0,
        scrap: true,
        grain: Grain::Length,
        ..sheet(300 * MM, 900 * MM)
    };
    let mut hidden = part(800 * MM, 250 * MM, 1, GrainRule::Locked);
    hidden.hidden = true;
    let job = Job { stock: vec![scrap], parts: vec![hidden.clone()], ..good() };
    says(&tried(&job).1, "grain-does-not-fit", "part 800000 x 250000");

    let free = CutPart { grain: GrainRule::Free, ..hidden.clone() };
    let (layout, findings) = tried(&Job { parts: vec![free.clone()], ..job.clone() });
    assert_eq!((layout.score.scraps, layout.score.sheets, findings.len()), (1, 0, 0));

    let seen = CutPart { hidden: false, ..free };
    says(&tried(&Job { parts: vec![seen], ..job }).1, "only-scrap-fits", "part 800000 x 250000");
}

#[test]
fn short_stock_is_said_with_what_is_missing() {
    let mut job = good();
    job.stock[0].count = Some(1);
    job.parts[0].count = 20;
    let (layout, findings) = tried(&job);
    // Three by two on a sheet of 2440 by 1220.
    assert_eq!(layout.score.unplaced, 14);
    assert_eq!(layout.unplaced[0].why, Why::StockUsedUp);
    assert!(says(&findings, "stock-used-up", "part 720000 x 560000").message.contains("14 of 20"));
    assert!(!layout.proved);
}

#[test]
fn nothing_narrower_than_a_safe_cut_is_cut_out() {
    let mut job = Job { least_cut: 40 * MM, ..good() };
    job.parts[0].width = 30 * MM;
    says(&tried(&job).1, "narrower-than-safe", "part 720000 x 560000");
    // 1200 leaves 20 beside it: less than a kerf and 40.
    job.parts[0].width = 1200 * MM;
    job.parts[0].length = 2440 * MM;
    says(&tried(&job).1, "no-safe-cut", "part 720000 x 560000");
    job.parts[0].width = 1220 * MM;
    assert!(tried(&job).1.is_empty());
    for least_cut in [-1, i64::MAX] {
        says(&tried(&Job { least_cut, ..good() }).1, "cut-length-range", "least_cut");
    }
}

#[test]
fn too_many_pieces_and_twice_the_same_name() {
    let mut job = good();
    job.parts[0].count = u32::MAX;
    says(&tried(&job).1, "too-many-pieces", "part 720000 x 560000.count");
    let mut job = good();
    job.parts.push(job.parts[0].clone());
    says(&tried(&job).1, "cut-id-twice", "part 720000 x 560000");
}

#[test]
fn an_empty_job_is_no_layout() {
    let (layout, findings) = tried(&Job::default());
    assert!(layout.sheets.is_empty() && !layout.proved && findings.is_empty());
}
