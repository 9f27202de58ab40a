//! Six carcasses taken apart into two: in how many of the six directions each pair of halves parts.
//!
//! The method is that of the blocking graphs of Wilson and Latombe, "Geometric reasoning about
//! mechanical assembly", Artificial Intelligence 71 (1994): a half leaves along a direction when no
//! part of it meets a part of the other. The carcasses and their counts are none of theirs: they were
//! derived by a program of its own, and are written down here as data.
//!
//! Outside 600 wide, 560 deep, 720 high in 18 mm board, in millimetres. L and R sides, B bottom, T top,
//! K back, S shelf.

use jointwise::assembly::{Assembly, Grain, Kind, MAIN, Part};
use jointwise::geometry::{Box3, Direction, Solid};
use jointwise::order::blocking::Blocking;
use jointwise::order::bodies::{Item, named};
use jointwise::order::splits::{Splits, free_directions};
use jointwise::units::Length;

type Carcass = [(char, &'static [[i64; 6]]); 5];

const TOP: (char, &[[i64; 6]]) = ('T', &[[18, 0, 702, 582, 560, 720]]);
const BOTTOM: (char, &[[i64; 6]]) = ('B', &[[18, 0, 0, 582, 560, 18]]);

/// Butted, the back between the sides.
const BUTTED: Carcass = [
    ('L', &[[0, 0, 0, 18, 560, 720]]),
    ('R', &[[582, 0, 0, 600, 560, 720]]),
    BOTTOM,
    TOP,
    ('K', &[[18, 542, 18, 582, 560, 702]]),
];

const GROOVED_LEFT: &[[i64; 6]] =
    &[[0, 0, 0, 12, 560, 720], [12, 0, 0, 18, 540, 720], [12, 546, 0, 18, 560, 720]];
const GROOVED_RIGHT: &[[i64; 6]] =
    &[[588, 0, 0, 600, 560, 720], [582, 0, 0, 588, 540, 720], [582, 546, 0, 588, 560, 720]];
const GROOVED_TOP: &[[i64; 6]] =
    &[[18, 0, 708, 582, 560, 720], [18, 0, 702, 582, 540, 708], [18, 546, 702, 582, 560, 708]];

/// A thin back caught in grooves all round.
const GROOVED: Carcass = [
    ('L', GROOVED_LEFT),
    ('R', GROOVED_RIGHT),
    ('B', &[[18, 0, 0, 582, 560, 12], [18, 0, 12, 582, 540, 18], [18, 546, 12, 582, 560, 18]]),
    ('T', GROOVED_TOP),
    ('K', &[[12, 540, 12, 588, 546, 708]]),
];

/// The bottom stopped short, so that the back slides in from below.
const SLID_IN: Carcass = [
    ('L', GROOVED_LEFT),
    ('R', GROOVED_RIGHT),
    ('B', &[[18, 0, 0, 582, 540, 18]]),
    ('T', GROOVED_TOP),
    ('K', &[[12, 540, 0, 588, 546, 708]]),
];

/// The back laid into rabbets of the sides.
const RABBETED: Carcass = [
    ('L', &[[0, 0, 0, 12, 560, 720], [12, 0, 0, 18, 554, 720]]),
    ('R', &[[588, 0, 0, 600, 560, 720], [582, 0, 0, 588, 554, 720]]),
    ('B', &[[18, 0, 0, 582, 554, 18]]),
    ('T', &[[18, 0, 702, 582, 554, 720]]),
    ('K', &[[12, 554, 0, 588, 560, 720]]),
];

/// No back; a shelf in dadoes that run through.
const DADOED: Carcass = [
    ('L', &[[0, 0, 0, 12, 560, 720], [12, 0, 0, 18, 560, 350], [12, 0, 368, 18, 560, 720]]),
    ('R', &[[588, 0, 0, 600, 560, 720], [582, 0, 0, 588, 560, 350], [582, 0, 368, 588, 560, 720]]),
    BOTTOM,
    TOP,
    ('S', &[[12, 0, 350, 588, 560, 368]]),
];

/// No back; a shelf in dadoes stopped 20 mm short of both edges.
const STOPPED: Carcass = [
    (
        'L',
        &[
            [0, 0, 0, 12, 560, 720],
            [12, 0, 0, 18, 560, 350],
            [12, 0, 368, 18, 560, 720],
            [12, 0, 350, 18, 20, 368],
            [12, 540, 350, 18, 560, 368],
        ],
    ),
    (
        'R',
        &[
            [588, 0, 0, 600, 560, 720],
            [582, 0, 0, 588, 560, 350],
            [582, 0, 368, 588, 560, 720],
            [582, 0, 350, 588, 20, 368],
            [582, 540, 350, 588, 560, 368],
        ],
    ),
    BOTTOM,
    TOP,
    (
        'S',
        &[[12, 20, 350, 588, 540, 368], [18, 0, 350, 582, 20, 368], [18, 540, 350, 582, 560, 368]],
    ),
];

/// Splits of the four carcasses with a back, and the ways their halves part in each; 0 where they do
/// not.
const WITH_BACK: [(&str, [u32; 4]); 13] = [
    ("LBTK|R", [5, 3, 3, 4]),
    ("LRTK|B", [3, 1, 2, 2]),
    ("LTK|RB", [4, 2, 2, 3]),
    ("LRBK|T", [3, 1, 1, 2]),
    ("LBK|RT", [4, 2, 2, 3]),
    ("LK|RBT", [3, 1, 2, 4]),
    ("LRBT|K", [2, 0, 1, 3]),
    ("LBT|RK", [3, 1, 2, 4]),
    ("LRT|BK", [3, 1, 1, 2]),
    ("LT|RBK", [4, 2, 2, 3]),
    ("LRB|TK", [3, 1, 1, 2]),
    ("LB|RTK", [4, 2, 2, 3]),
    ("L|RBTK", [5, 3, 3, 4]),
];

/// The same for the two with a shelf.
const WITH_SHELF: [(&str, [u32; 2]); 11] = [
    ("LBTS|R", [3, 1]),
    ("LRTS|B", [3, 3]),
    ("LTS|RB", [3, 1]),
    ("LRBS|T", [3, 3]),
    ("LBS|RT", [3, 1]),
    ("LS|RBT", [3, 1]),
    ("LRBT|S", [2, 0]),
    ("LBT|RS", [3, 1]),
    ("LT|RBS", [3, 1]),
    ("LB|RTS", [3, 1]),
    ("L|RBTS", [3, 1]),
];

/// The items of a carcass as the search sees them.
fn items(carcass: &Carcass) -> Vec<Item> {
    let part = |(name, boxes): &(char, &[[i64; 6]])| Part {
        id: name.to_string(),
        name: name.to_string(),
        group: MAIN.to_owned(),
        material: String::new(),
        kind: Kind::Panel,
        role: Default::default(),
        length: Length(0),
        width: Length(0),
        thickness: Length(0),
        grain: Grain::None,
        mass_g: 1000,
        solid: Solid::from_boxes(boxes.iter().map(|b| Box3::from(b.map(|v| v * 1000))).collect()),
        set_against: Vec::new(),
    };
    let assembly = Assembly {
        title: String::new(),
        parts: carcass.iter().map(part).collect(),
        joints: Vec::new(),
        stands_on: Direction::Down,
        bodies: Vec::new(),
    };
    let all = named(&assembly).bodies.pop();
    all.map(|body| body.items).unwrap_or_default()
}

/// The letters of a half as a set of items.
fn half(carcass: &Carcass, letters: &str) -> u64 {
    (0..carcass.len()).filter(|&i| letters.contains(carcass[i].0)).fold(0, |set, i| set | 1 << i)
}

/// Whether the parts of a set hang together by shared faces.
fn is_connected(items: &[Item], set: u64) -> bool {
    let mut reached = set & set.wrapping_neg();
    loop {
        let next = (0..items.len())
            .filter(|&i| set >> i & 1 == 1)
            .filter(|&i| {
                (0..items.len()).any(|j| {
                    reached >> j & 1 == 1 && !items[i].solid.contacts(&items[j].solid).is_empty()
                })
            })
            .fold(reached, |all, i| all | 1 << i);
        if next == reached {
            return reached == set;
        }
        reached = next;
    }
}

/// Compares every split of a carcass into two connected halves with the table.
fn compare(name: &str, carcass: &Carcass, table: &[(&str, u32)]) {
    let items = items(carcass);
    assert_eq!(items.len(), 5, "{name}");
    let blocking = Blocking::new(&items);
    let listed: Vec<(u64, u32, &str)> = table
        .iter()
        .map(|(split, count)| {
            let first = split.split('|').next().unwrap_or_default();
            (half(carcass, first), *count, *split)
        })
        .collect();
    let full = (1u64 << items.len()) - 1;
    // The left side is in the first half, so that no split comes twice.
    for first in (1..full).filter(|set| set & 1 == 1) {
        let second = full & !first;
        let connected = is_connected(&items, first) && is_connected(&items, second);
        let found = if connected { free_directions(&blocking, first, second).len() } else { 0 };
        let wanted = listed.iter().find(|l| l.0 == first).map_or(0, |l| l.1);
        let split = listed.iter().find(|l| l.0 == first).map_or("a split not listed", |l| l.2);
        assert_eq!(found, wanted as usize, "{name}, {split}, halves {first:b} and {second:b}");
        // What leaves one way lets the other half leave the other way.
        let mut back: Vec<Direction> = free_directions(&blocking, second, first)
            .into_iter()
            .map(Direction::opposite)
            .collect();
        back.sort_unstable();
        assert_eq!(free_directions(&blocking, first, second), back, "{name}, {split}");
    }
}

#[test]
fn halves_part_in_as_many_directions_as_derived() {
    let with_back = [
        ("butted", &BUTTED),
        ("grooved", &GROOVED),
        ("slid in", &SLID_IN),
        ("rabbeted", &RABBETED),
    ];
    for (column, (name, carcass)) in with_back.into_iter().enumerate() {
        let table: Vec<(&str, u32)> = WITH_BACK.iter().map(|(s, c)| (*s, c[column])).collect();
        compare(name, carcass, &table);
    }
    for (column, (name, carcass)) in
        [("dadoed", &DADOED), ("stopped", &STOPPED)].into_iter().enumerate()
    {
        let table: Vec<(&str, u32)> = WITH_SHELF.iter().map(|(s, c)| (*s, c[column])).collect();
        compare(name, carcass, &table);
    }
}

/// Nodes, hyperarcs, trees, orders and linear orders of each carcass, halves hanging together by shared
/// faces and parting along one of six directions. Derived by a program of our own, which found the same
/// with 18 and with 26 directions.
const COUNTS: [(&str, &Carcass, [u128; 5]); 6] = [
    ("butted", &BUTTED, [29, 75, 78, 128, 48]),
    ("grooved", &GROOVED, [28, 68, 68, 116, 40]),
    ("slid in", &SLID_IN, [29, 75, 78, 128, 48]),
    ("rabbeted", &RABBETED, [29, 75, 78, 128, 48]),
    ("dadoed", &DADOED, [26, 59, 54, 84, 36]),
    ("stopped", &STOPPED, [23, 46, 40, 68, 24]),
];

#[test]
fn carcasses_come_apart_in_as_many_ways_as_derived() {
    for (name, carcass, wanted) in COUNTS {
        let items = items(carcass);
        let splits = Splits::of_items(&items, &Blocking::new(&items)).unwrap();
        let counts = splits.counts().unwrap();
        let found = [counts.nodes, counts.hyperarcs, counts.trees, counts.orders, counts.linear];
        assert_eq!(found, wanted, "{name}");
    }
}

/// Eight pairs of parts share a face in a carcass with a back, six in one with a shelf.
#[test]
fn carcasses_have_as_many_liaisons_as_derived() {
    for (name, carcass, _) in COUNTS {
        let items = items(carcass);
        let joined = |(i, a): (usize, &Item)| {
            items[..i].iter().filter(|b| !a.solid.contacts(&b.solid).is_empty()).count()
        };
        let count: usize = items.iter().enumerate().map(joined).sum();
        let with_back = carcass[4].0 == 'K';
        assert_eq!(count, if with_back { 8 } else { 6 }, "{name}");
    }
}

/// The ways in which the fifth part, back or shelf, leaves all others.
fn fifth_leaves(carcass: &Carcass) -> Vec<Direction> {
    free_directions(&Blocking::new(&items(carcass)), 0b10000, 0b01111)
}

#[test]
fn what_grooves_catch_is_never_last() {
    assert!(fifth_leaves(&GROOVED).is_empty());
    assert!(Blocking::new(&items(&GROOVED)).is_captive(4, 0b11111));
    assert!(fifth_leaves(&STOPPED).is_empty());
    assert!(Blocking::new(&items(&STOPPED)).is_captive(4, 0b11111));
    // One side off, and both come out.
    assert!(!Blocking::new(&items(&GROOVED)).is_captive(4, 0b11101));
    assert!(!Blocking::new(&items(&STOPPED)).is_captive(4, 0b11101));
}

#[test]
fn what_an_open_end_lets_out_leaves_that_way_only() {
    assert_eq!(fifth_leaves(&SLID_IN), [Direction::Down]);
    assert_eq!(fifth_leaves(&DADOED), [Direction::Front, Direction::Back]);
}

/// Top and bottom of the carcass with a grooved back leave upright only.
#[test]
fn a_grooved_back_holds_top_and_bottom_to_one_way_each() {
    let blocking = Blocking::new(&items(&GROOVED));
    assert_eq!(free_directions(&blocking, 0b00100, 0b11011), [Direction::Down]);
    assert_eq!(free_directions(&blocking, 0b01000, 0b10111), [Direction::Up]);
}
