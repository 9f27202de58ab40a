//! Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021.

use jointwise::checks::lift::{
    Coupling, Duration, Lift, Rounding, System, index, limit_mg, multipliers,
};

const INCH: i64 = 25_400;
const POUND_MG: f64 = 453_592.37;

fn lift(reach: i64, height: i64, travel: i64) -> Lift {
    Lift {
        reach: reach * INCH,
        height: height * INCH,
        origin: height * INCH,
        travel: travel * INCH,
        twist: 0,
        frequency: 2,
        duration: Duration::Hour,
        coupling: Coupling::Good,
    }
}

fn worksheet(l: &Lift) -> [i128; 6] {
    multipliers(l, System::Us, Rounding::Worksheet).all.map(|m| m / 10_000)
}

#[test]
fn printed_multipliers_come_out_in_inches() {
    // Tables 1, 2, 3, 4 of the manual; the entries at 22 and 23 in are read, the rest from memory.
    let reaches = [
        (10, 100),
        (11, 91),
        (12, 83),
        (13, 77),
        (14, 71),
        (15, 67),
        (16, 63),
        (17, 59),
        (18, 56),
        (19, 53),
        (20, 50),
        (21, 48),
        (22, 46),
        (23, 44),
        (24, 42),
        (25, 40),
        (26, 0),
    ];
    for (reach, printed) in reaches {
        assert_eq!(worksheet(&lift(reach, 30, 10))[0], printed, "H {reach} in");
    }
    assert_eq!(worksheet(&lift(5, 30, 10))[0], 100, "nearer than 10 in counts as 10");
    let heights = [
        (0, 78),
        (5, 81),
        (10, 85),
        (15, 89),
        (20, 93),
        (25, 96),
        (30, 100),
        (35, 96),
        (40, 93),
        (45, 89),
        (50, 85),
        (55, 81),
        (60, 78),
        (65, 74),
        (70, 70),
        (71, 0),
    ];
    for (height, printed) in heights {
        assert_eq!(worksheet(&lift(10, height, 10))[1], printed, "V {height} in");
    }
    let ways = [
        (0, 100),
        (10, 100),
        (15, 94),
        (20, 91),
        (25, 89),
        (30, 88),
        (35, 87),
        (40, 87),
        (45, 86),
        (50, 86),
        (55, 85),
        (60, 85),
        (70, 85),
        (71, 0),
    ];
    for (way, printed) in ways {
        assert_eq!(worksheet(&lift(10, 30, way))[2], printed, "D {way} in");
    }
    let twists = [
        (0, 100),
        (15, 95),
        (30, 90),
        (45, 86),
        (60, 81),
        (75, 76),
        (90, 71),
        (105, 66),
        (120, 62),
        (135, 57),
        (136, 0),
    ];
    for (twist, printed) in twists {
        assert_eq!(worksheet(&Lift { twist, ..lift(10, 30, 10) })[3], printed, "A {twist}");
    }
}

#[test]
fn metric_constants_differ_from_the_inch_ones() {
    // Read: 23 kg and 51 lb, 25/H with a limit of 63 cm, 0.003 a centimetre, 4.5/D; printed DM at 130 cm is 0.86.
    let l = |reach: i64, height: i64, travel: i64| Lift {
        reach: reach * 10_000,
        height: height * 10_000,
        origin: height * 10_000,
        travel: travel * 10_000,
        ..lift(10, 30, 10)
    };
    let all = |l: &Lift, r| multipliers(l, System::Metric, r).all;
    assert_eq!(all(&l(50, 75, 25), Rounding::Full)[..3], [500_000, 1_000_000, 1_000_000]);
    assert_eq!(all(&l(63, 175, 175), Rounding::Worksheet)[..3], [400_000, 700_000, 850_000]);
    assert_eq!(all(&l(64, 176, 176), Rounding::Full)[..3], [0, 0, 0]);
    assert_eq!(all(&l(25, 75, 130), Rounding::Worksheet)[2], 860_000);
    assert_eq!(all(&l(25, 75, 130), Rounding::Full)[2], 854_615);
    let best = l(25, 75, 25);
    assert_eq!(limit_mg(&best, System::Metric, Rounding::Full), 23_000_000);
    assert_eq!(limit_mg(&lift(10, 30, 10), System::Us, Rounding::Full), 23_133_210, "51 lb");
}

#[test]
fn frequency_is_read_from_table_5() {
    // Table 5 (read): lifts a minute in tenths, then up to 1, 2, 8 hours, hands low and high.
    let table: [(i64, [i128; 6]); 17] = [
        (2, [100, 100, 95, 95, 85, 85]),
        (5, [97, 97, 92, 92, 81, 81]),
        (10, [94, 94, 88, 88, 75, 75]),
        (20, [91, 91, 84, 84, 65, 65]),
        (30, [88, 88, 79, 79, 55, 55]),
        (40, [84, 84, 72, 72, 45, 45]),
        (50, [80, 80, 60, 60, 35, 35]),
        (60, [75, 75, 50, 50, 27, 27]),
        (70, [70, 70, 42, 42, 22, 22]),
        (80, [60, 60, 35, 35, 18, 18]),
        (90, [52, 52, 30, 30, 0, 15]),
        (100, [45, 45, 26, 26, 0, 13]),
        (110, [41, 41, 0, 23, 0, 0]),
        (120, [37, 37, 0, 21, 0, 0]),
        (130, [0, 34, 0, 0, 0, 0]),
        (140, [0, 31, 0, 0, 0, 0]),
        (150, [0, 28, 0, 0, 0, 0]),
    ];
    let durations = [Duration::Hour, Duration::TwoHours, Duration::EightHours];
    for (frequency, printed) in table {
        for (column, wanted) in printed.into_iter().enumerate() {
            let height = if column % 2 == 0 { 29 } else { 30 };
            let l = Lift { frequency, duration: durations[column / 2], ..lift(10, height, 10) };
            assert_eq!(worksheet(&l)[4], wanted, "{frequency} {column}");
        }
    }
    let at = |frequency| worksheet(&Lift { frequency, ..lift(10, 29, 10) })[4];
    assert_eq!(
        (at(1), at(151)),
        (100, 0),
        "seldom counts as 0.2; more than 15 a minute is too much"
    );
    // Read, p. 16: 10 lifts a minute for 8 of 15 minutes are 5.33 a minute; between 0.80 and 0.75.
    assert_eq!(
        multipliers(&Lift { frequency: 53, ..lift(10, 29, 10) }, System::Us, Rounding::Full).all[4],
        785_000
    );
}

#[test]
fn couplings_are_those_of_table_7() {
    // Table 7 (read).
    let at = |coupling, height| worksheet(&Lift { coupling, ..lift(10, height, 10) })[5];
    assert_eq!([at(Coupling::Good, 29), at(Coupling::Good, 30)], [100, 100]);
    assert_eq!([at(Coupling::Fair, 29), at(Coupling::Fair, 30)], [95, 100]);
    assert_eq!([at(Coupling::Poor, 29), at(Coupling::Poor, 30)], [90, 90]);
}

/// Name, load in lb, the lift, multipliers in hundredths, RWL on the worksheet, to full precision, LI.
type Example = (&'static str, i64, Lift, [i128; 6], f64, f64, f64);

#[test]
fn worked_examples_come_out_on_the_worksheet_and_to_full_precision() {
    let fair = |l: Lift| Lift { coupling: Coupling::Fair, ..l };
    let poor = |l: Lift| Lift { coupling: Coupling::Poor, ..l };
    let inspection = |l: Lift| Lift { frequency: 30, origin: 22 * INCH, ..fair(l) };
    // 1 to 3 from memory, consistent in themselves; 4, p. 46: RWL, V and multipliers read.
    let examples: [Example; 7] = [
        ("1 origin", 44, fair(lift(23, 15, 48)), [44, 89, 86, 100, 100, 95], 16.3, 16.03, 2.7),
        (
            "1 destination",
            44,
            fair(Lift { origin: 15 * INCH, ..lift(23, 63, 48) }),
            [44, 75, 86, 100, 100, 100],
            14.5,
            14.31,
            3.0,
        ),
        ("2 origin", 35, poor(lift(15, 27, 17)), [67, 98, 93, 100, 100, 90], 28.0, 27.70, 1.3),
        ("2 destination", 35, poor(lift(20, 10, 17)), [50, 85, 93, 100, 100, 90], 18.1, 18.06, 1.9),
        (
            "3",
            40,
            fair(Lift { twist: 45, ..lift(18, 15, 21) }),
            [56, 89, 91, 86, 100, 95],
            18.9,
            18.52,
            2.1,
        ),
        ("4 origin", 26, inspection(lift(10, 22, 37)), [100, 94, 87, 100, 88, 95], 34.9, 34.8, 0.7),
        (
            "4 destination",
            26,
            inspection(lift(20, 59, 37)),
            [50, 78, 87, 100, 88, 100],
            15.2,
            15.3,
            1.7,
        ),
    ];
    for (name, load, l, printed, sheet, full, li) in examples {
        assert_eq!(worksheet(&l), printed, "{name}");
        let pounds = |r| limit_mg(&l, System::Us, r) as f64 / POUND_MG;
        assert!(
            (pounds(Rounding::Worksheet) - sheet).abs() < 0.06,
            "{name}: {}",
            pounds(Rounding::Worksheet)
        );
        assert!((pounds(Rounding::Full) - full).abs() < 0.06, "{name}: {}", pounds(Rounding::Full));
        let mass = (load as f64 * POUND_MG / 1000.0).round() as i64;
        let ours = index(mass, limit_mg(&l, System::Us, Rounding::Worksheet)).unwrap() as f64 / 1e6;
        assert!((ours - li).abs() < 0.06, "{name}: LI {ours}");
    }
    assert_eq!(index(1000, 0), None);
}
