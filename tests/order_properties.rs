//! What must hold of any order: replayed backwards it never collides, a mirror or other names change
//! nothing, and what grooves catch does not come last.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the helpers of a test fail, too")]

use jointwise::assembly::{Assembly, JointKind, Part};
use jointwise::geometry::{Box3, Direction, Solid};
use jointwise::order::blocking::Blocking;
use jointwise::order::bodies::{Item, named};
use jointwise::order::{Order, plan_order};
use jointwise::plan::{Action, Cost, Workshop};
use jointwise::units::Notation;
use jointwise::wishes::Wishes;
use jointwise_tests::dice::Dice;
use jointwise_tests::pieces::case;

/// The one place that calls the planner.
fn planned(assembly: &Assembly, workshop: &Workshop) -> Order {
    let (order, findings) = plan_order(assembly, workshop, &Wishes::default(), Notation::MmHalf);
    order.unwrap_or_else(|| panic!("{findings:#?}"))
}

fn designed(rails: i64, shelves: i64, boxes: i64) -> (Assembly, Workshop) {
    case(rails, shelves, boxes).designed().unwrap_or_else(|findings| panic!("{findings:#?}"))
}

/// Cases small enough to be planned in a moment.
fn small_cases() -> Vec<(Assembly, Workshop)> {
    [(0, 0, 0), (2, 0, 0), (0, 1, 0), (1, 0, 1)].map(|(r, s, b)| designed(r, s, b)).to_vec()
}

/// Boxes thrown into a room, none in another's space.
fn random_items(model: &Assembly, dice: &mut Dice) -> Vec<Item> {
    let mut boxes: Vec<Box3> = Vec::new();
    for _ in 0..40 {
        let min = [0; 3].map(|_: i64| dice.between(0, 12));
        let new = Box3::new(min, min.map(|v| v + dice.between(1, 6)));
        if boxes.iter().all(|b| !b.intersects(&new)) && boxes.len() < 12 {
            boxes.push(new);
        }
    }
    let mut assembly = model.clone();
    let model = assembly.parts[0].clone();
    let part =
        |(i, b): (usize, Box3)| Part { id: i.to_string(), solid: Solid::new(b), ..model.clone() };
    assembly.parts = boxes.into_iter().enumerate().map(part).collect();
    assembly.joints.clear();
    named(&assembly).bodies.pop().map(|b| b.items).unwrap_or_default()
}

/// Along one axis the boxes have an order; so one after another leaves, and with them all. For
/// rectangles in the plane: L. J. Guibas and F. F. Yao, "On translating a set of rectangles" (1980), from
/// memory; for boxes in space derived by a program of our own.
#[test]
fn boxes_leave_one_by_one_along_any_axis() {
    let model = designed(0, 0, 0).0;
    for seed in 0..300 {
        let items = random_items(&model, &mut Dice::new(seed));
        let blocking = Blocking::new(&items);
        for d in Direction::ALL {
            let mut left = (1u64 << items.len()) - 1;
            while left != 0 {
                let free = (0..items.len())
                    .find(|&i| left >> i & 1 == 1 && blocking.leaving(i, d, left) == 0);
                let free =
                    free.unwrap_or_else(|| panic!("seed {seed}: a ring along {d:?}: {left:b}"));
                left &= !(1 << free);
            }
        }
    }
}

/// Whether `moving` shares space with `there` at any distance along a direction. Between two distances
/// at which faces are level nothing changes: just before and after each of them is enough.
fn collides(moving: &[Solid], there: &[Solid], along: Direction) -> bool {
    let boxes = |solids: &[Solid]| -> Vec<Box3> {
        solids.iter().flat_map(|s| s.boxes().to_vec()).collect()
    };
    let (moving, there) = (boxes(moving), boxes(there));
    let axis = along.axis();
    let faces = |b: &Box3| [b.min[axis], b.max[axis]];
    moving.iter().any(|m| {
        there.iter().any(|t| {
            let level = faces(m).into_iter().flat_map(|a| faces(t).map(|b| (b - a) * along.sign()));
            level.chain([0]).flat_map(|far| [far - 1, far, far + 1]).filter(|far| *far >= 0).any(
                |far| {
                    let mut by = [0; 3];
                    by[axis] = far * along.sign();
                    m.moved(by).intersects(t)
                },
            )
        })
    })
}

/// Taken apart in the reverse order of the steps, each part leaves against the way it went in and meets
/// nothing of what is still there.
#[test]
fn an_order_replayed_backwards_never_collides() {
    for (assembly, shop) in small_cases() {
        let order = planned(&assembly, &shop);
        let solid = |id: &String| assembly.parts[assembly.index_of(id).unwrap()].solid.clone();
        // The parts of each body as the steps say, over the bodies that join it.
        let mut bodies: Vec<(String, Vec<String>)> = Vec::new();
        let (mut moved, mut other_way) = (0, 0);
        for step in &order.steps {
            let mut new = step.parts.clone();
            if let Some(joined) = &step.joins {
                let body = bodies.iter().find(|b| b.0 == *joined);
                new.extend(body.map(|b| b.1.clone()).unwrap_or_default());
                assert!(!new.is_empty(), "step {} brings in {joined}, which is nothing", step.n);
            }
            if !bodies.iter().any(|b| b.0 == step.body) {
                bodies.push((step.body.clone(), Vec::new()));
            }
            let body = bodies.iter_mut().find(|b| b.0 == step.body).unwrap();
            if let Some(way) = step.direction.filter(|_| !new.is_empty()) {
                let [new, there] =
                    [&new, &body.1].map(|ids| ids.iter().map(solid).collect::<Vec<_>>());
                assert!(!collides(&new, &there, way.opposite()), "step {}", step.n);
                moved += 1;
                other_way += u32::from(collides(&new, &there, way));
            }
            body.1.extend(new);
        }
        assert!(moved > 3);
        assert!(other_way > 0, "on through what is there: the test sees no collision at all");
        let main = bodies.iter().find(|b| b.0 == "main").unwrap();
        assert_eq!(main.1.len(), assembly.parts.len());
    }
}

/// Left for right.
fn mirrored(assembly: &Assembly) -> Assembly {
    let mut mirror = assembly.clone();
    let turn =
        |b: &Box3| Box3::new([-b.max[0], b.min[1], b.min[2]], [-b.min[0], b.max[1], b.max[2]]);
    for part in &mut mirror.parts {
        part.solid = Solid::from_boxes(part.solid.boxes().iter().map(turn).collect());
    }
    for screw in mirror.joints.iter_mut().flat_map(|j| &mut j.fasteners) {
        screw.entry[0] = -screw.entry[0];
        if screw.direction.axis() == 0 {
            screw.direction = screw.direction.opposite();
        }
    }
    mirror
}

#[test]
fn a_mirrored_piece_costs_the_same() {
    for (assembly, shop) in small_cases() {
        assert_eq!(
            planned(&mirrored(&assembly), &shop).cost,
            planned(&assembly, &shop).cost,
            "{}",
            assembly.title
        );
    }
}

/// Other ids and names for parts, joints and screws, in the same cut list.
fn renamed(assembly: &Assembly) -> Assembly {
    let mut other = assembly.clone();
    let count = other.parts.len();
    for (i, part) in other.parts.iter_mut().enumerate() {
        part.id = format!("p{:03}", (i * 7 + 3) % 1000 + 100 * (count - i));
        part.name = format!("part {i}");
    }
    let ids: Vec<String> = other.parts.iter().map(|p| p.id.clone()).collect();
    for joint in &mut other.joints {
        joint.id = format!("{}+{}", ids[joint.parts[0]], ids[joint.parts[1]]);
        for (n, screw) in joint.fasteners.iter_mut().enumerate() {
            screw.id = format!("{}/{n}", joint.id);
        }
    }
    other
}

/// A step without its words, parts and screws by their places in the assembly.
type Bare = (Action, Direction, Option<Direction>, Vec<usize>, Vec<usize>, bool, u8, u32, usize);

fn bare(assembly: &Assembly, order: &Order) -> Vec<Bare> {
    let joint = |id: &String| assembly.joints.iter().position(|j| j.id == *id).unwrap();
    order
        .steps
        .iter()
        .map(|s| {
            let parts = s.parts.iter().map(|id| assembly.index_of(id).unwrap()).collect();
            let joints = s.joints.iter().map(joint).collect();
            let held = s.hold.len() + s.checks.len();
            let joins = s.joins.is_some();
            (s.action, s.bench_face, s.direction, parts, joints, joins, s.people, s.minutes, held)
        })
        .collect()
}

#[test]
fn other_names_change_nothing_but_the_names() {
    for (assembly, shop) in small_cases() {
        let other = renamed(&assembly);
        let orders = [planned(&assembly, &shop), planned(&other, &shop)];
        assert_eq!(orders[0].cost, orders[1].cost, "{}", assembly.title);
        assert_eq!(bare(&assembly, &orders[0]), bare(&other, &orders[1]), "{}", assembly.title);
    }
}

/// The cut list in another order: only what follows it, the scatter, may cost more or less.
#[test]
fn another_cut_list_changes_only_the_scatter() {
    for (assembly, shop) in small_cases() {
        let mut other = assembly.clone();
        let count = other.parts.len();
        other.parts.reverse();
        other.joints.reverse();
        other.joints.iter_mut().for_each(|j| j.parts = j.parts.map(|p| count - 1 - p));
        let [a, b] = [planned(&assembly, &shop).cost, planned(&other, &shop).cost].map(|c| Cost {
            scatter: 0,
            turns: 0,
            lifted: 0,
            ..c
        });
        assert_eq!(a, b, "{}", assembly.title);
    }
}

/// A back in grooves all round goes in before the last of what holds it.
#[test]
fn a_grooved_back_is_never_last() {
    for (assembly, shop) in small_cases() {
        let order = planned(&assembly, &shop);
        let placed = |id: &str| order.steps.iter().position(|s| s.parts.iter().any(|p| p == id));
        // A panel with its cleats counts from when it joins.
        let joined = |id: &str| {
            let ready = format!("{id}-ready");
            order.steps.iter().position(|s| s.joins.as_ref() == Some(&ready)).or_else(|| placed(id))
        };
        let back = placed("back").unwrap();
        let grooved = assembly.joints.iter().filter(|j| j.kind == JointKind::Groove);
        let later = grooved
            .flat_map(|j| j.parts.map(|p| assembly.parts[p].id.clone()))
            .filter(|id| !id.starts_with("box") && joined(id).is_some_and(|at| at > back));
        assert!(later.count() > 0, "{}", assembly.title);
    }
}
