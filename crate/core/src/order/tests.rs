//! The order of a small carcass, made by hand.

use super::*;
use crate::assembly::{Fastener, Grain, Joint, JointKind, Kind, MAIN, Part};
use crate::geometry::{Box3, Direction, Solid};
use crate::plan::{Action, BY_SQUARE, CheckKind};
use crate::units::Length;

const MM: i64 = 1000;

pub(super) fn workshop() -> Workshop {
    Workshop {
        drill_length: 250 * MM,
        drill_width: 75 * MM,
        bit_width: 12 * MM,
        bit_length: 90 * MM,
        bench_length: 1800 * MM,
        bench_width: 760 * MM,
        bench_height: 860 * MM,
        bearers: 40 * MM,
        reach_height: 1575 * MM,
        clamps: Vec::new(),
        people: 1,
        square_check: "tape".to_owned(),
        tools: Vec::new(),
        glue: crate::plan::Glue::default(),
        offcuts: Vec::new(),
        person: None,
    }
}

fn part(id: &str, b: [i64; 6]) -> Part {
    let b = Box3::from(b.map(|v| v * MM));
    let mut sizes = [b.extent(0), b.extent(1), b.extent(2)];
    sizes.sort_unstable();
    Part {
        id: id.to_owned(),
        name: id.replace('-', " "),
        group: MAIN.to_owned(),
        material: "ply".to_owned(),
        kind: Kind::Panel,
        role: Default::default(),
        length: Length(sizes[2]),
        width: Length(sizes[1]),
        thickness: Length(sizes[0]),
        grain: Grain::None,
        mass_g: (b.volume() / 1_000_000_000 * 6 / 10_000).try_into().unwrap(),
        solid: Solid::new(b),
        set_against: Vec::new(),
    }
}

/// A joint with two screws at each contact, through the first part into the second.
fn joint(parts: &[Part], a: &str, b: &str, kind: JointKind) -> Joint {
    let at = |id: &str| parts.iter().position(|p| p.id == id).unwrap();
    let (ia, ib) = (at(a), at(b));
    let contact = parts[ia].solid.contacts(&parts[ib].solid)[0];
    let axis = contact.direction.axis();
    let long = (0..3).filter(|&i| i != axis).max_by_key(|&i| contact.face.extent(i)).unwrap();
    let fasteners = [1, 3]
        .map(|quarter| {
            let mut entry =
                std::array::from_fn(|i| i64::midpoint(contact.face.min[i], contact.face.max[i]));
            entry[long] = contact.face.min[long] + contact.face.extent(long) * quarter / 4;
            entry[axis] = parts[ia].solid.bounds().face(contact.direction.opposite());
            Fastener {
                id: format!("{a}+{b}-{quarter}"),
                kind: "screw".to_owned(),
                gauge: 8,
                length: Length(45 * MM),
                pilot: Length(2800),
                entry,
                direction: contact.direction,
            }
        })
        .to_vec();
    Joint { id: format!("{a}+{b}"), parts: [ia, ib], kind, glue: true, fasteners }
}

/// Sides, bottom on a toe board and a rear board, nailer, stretcher, thin back: 600 x 560 x 870.
pub(super) fn carcass() -> Assembly {
    let mut left = part("left-side", [0, 0, 0, 18, 554, 870]);
    let mut right = part("right-side", [582, 0, 0, 600, 554, 870]);
    for side in [&mut left, &mut right] {
        let b = side.solid.bounds();
        side.solid.cut(&Box3::new([b.min[0], 0, 0], [b.max[0], 75 * MM, 100 * MM]));
    }
    let parts = vec![
        left,
        right,
        part("bottom", [18, 0, 100, 582, 554, 118]),
        part("toe-board", [18, 75, 0, 582, 93, 100]),
        part("rear-board", [18, 536, 0, 582, 554, 100]),
        part("nailer", [18, 536, 770, 582, 554, 870]),
        part("stretcher", [18, 0, 852, 582, 100, 870]),
        part("back", [0, 554, 100, 600, 560, 870]),
    ];
    let mut joints = Vec::new();
    for side in ["left-side", "right-side"] {
        for rail in ["bottom", "toe-board", "rear-board", "nailer", "stretcher"] {
            joints.push(joint(&parts, side, rail, JointKind::Butt));
        }
        joints.push(joint(&parts, "back", side, JointKind::Overlay));
    }
    joints.push(joint(&parts, "bottom", "toe-board", JointKind::Butt));
    joints.push(joint(&parts, "bottom", "rear-board", JointKind::Butt));
    joints.push(joint(&parts, "back", "bottom", JointKind::Overlay));
    joints.push(joint(&parts, "back", "nailer", JointKind::Overlay));
    Assembly {
        title: "carcass".to_owned(),
        parts,
        joints,
        stands_on: Direction::Down,
        bodies: vec![(MAIN.to_owned(), "carcass".to_owned())],
    }
}

#[test]
fn a_carcass_starts_on_its_back_edges_and_turns_for_the_back() {
    let assembly = carcass();
    let (order, findings) =
        plan_order(&assembly, &workshop(), &Wishes::default(), Notation::MmHalf);
    let order = order.unwrap_or_else(|| panic!("{findings:#?}"));
    for s in &order.steps {
        println!(
            "{:2} {:?} {} {} | hold {:?} | spacer {:?} | checks {:?} | {}",
            s.n,
            s.action,
            s.bench_face.code(),
            s.text,
            s.hold.iter().map(|h| (&h.what, h.with)).collect::<Vec<_>>(),
            s.spacer.as_ref().map(|s| (&s.part, s.at, s.out)),
            s.checks.iter().map(|c| &c.text).collect::<Vec<_>>(),
            s.why.iter().map(|w| w.text.clone()).collect::<Vec<_>>().join(" / "),
        );
    }
    println!("{:?} {:?}", order.cost, order.proof);
    assert_eq!(order.steps[0].bench_face, Direction::Back);
    let turns: Vec<_> =
        order.steps.iter().filter(|s| s.action == Action::Turn).map(|s| s.bench_face).collect();
    assert_eq!(turns.first(), Some(&Direction::Front));
}

/// Where the diagonals are just within their tolerance, by the law of cosines in floating point.
#[test]
fn a_square_shows_what_the_diagonals_would() {
    let assembly = carcass();
    let asked = |square_check: &str| {
        let shop = Workshop { square_check: square_check.to_owned(), ..workshop() };
        let (order, _) = plan_order(&assembly, &shop, &Wishes::default(), Notation::MmHalf);
        let steps = order.expect("an order").steps;
        let mut checks = steps.into_iter().flat_map(|s| s.checks);
        checks.find(|c| c.kind == CheckKind::Diagonals).expect("a check of diagonals")
    };
    let (tape, square) = (asked("tape"), asked(BY_SQUARE));
    let added = square.text.strip_prefix(&tape.text).expect("the same, and more");
    let apart = |p: [i64; 3], q: [i64; 3]| {
        p.iter().zip(q).map(|(a, b)| (a - b) as f64).map(|d| d * d).sum::<f64>().sqrt()
    };
    let ([a, _], [b, d]) = (square.between[0], square.between[1]);
    let (one, other) = (apart(a, b), apart(a, d));
    let long = square.expected[0] as f64 + square.tolerance as f64 / 2.0;
    let cosine = (one * one + other * other - long * long) / (2.0 * one * other);
    let light = (300.0 * cosine.abs() * 10.0).round() / 10.0;
    assert!(
        added.contains(&format!("at 300 mm along its arm no more light than {light} mm")),
        "{added}"
    );
}
