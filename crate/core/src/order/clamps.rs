//! Where a clamp has a place: two jaws, the screw behind one of them, and the bar that joins them.

use std::cmp::Reverse;

use crate::assembly::{Assembly, Joint};
use crate::geometry::{Box3, Contact, Direction, Point, Solid};
use crate::plan::{ClampPlace, Workshop};

use super::access::meeting;
use super::bodies::Item;
use super::scene::Scene;

// A common F-clamp, by its order of size: common practice, no source.
/// Width of a jaw, both ways.
const JAW: i64 = 30_000;
/// Thickness of a jaw.
const JAW_THICK: i64 = 20_000;
/// Length of the screw behind one of the jaws.
const SCREW: i64 = 100_000;
/// Width and thickness of the bar.
const BAR: [i64; 2] = [30_000, 15_000];
/// From the middle of the jaws to the middle of the bar.
const THROAT: i64 = 60_000;
/// From an edge of the joint to the middle of the jaws.
const INSET: i64 = 20_000;

/// A place where a clamp presses a joint together, before asking what is in its way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClampRoom {
    /// The fixed jaw, then the other with its screw.
    pub jaws: [Box3; 2],
    /// The bar.
    pub bar: Box3,
    /// The items in its way.
    pub blockers: u64,
    /// Reach in each of the six directions, as coordinate times sign.
    pub reach: [i64; 6],
}

/// The places of a joint, and the opening all of them take.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Clamping {
    /// Distance between the jaws.
    pub opening: i64,
    /// Places, the best first.
    pub rooms: Vec<ClampRoom>,
}

impl Clamping {
    /// The places at which the two parts of a joint can be pressed together along the normal of
    /// their largest contact, with the clamps in the shop.
    pub fn new(assembly: &Assembly, joint: &Joint, items: &[Item], workshop: &Workshop) -> Self {
        let [a, b] = joint.parts.map(|p| &assembly.parts[p].solid);
        let Some(largest) = largest(a.contacts(b)) else {
            return Clamping::default();
        };
        let axis = largest.direction.axis();
        let around = a.bounds().union(&b.bounds());
        let opening = around.extent(axis);
        let mut rooms = Vec::new();
        if workshop.clamps.iter().any(|&c| c >= opening) {
            for middle in middles(&largest) {
                let on_faces = [around.min[axis], around.max[axis]].iter().all(|&at| {
                    let mut p = middle;
                    p[axis] = at;
                    a.holds(p) || b.holds(p)
                });
                if !on_faces {
                    continue;
                }
                for side in Direction::ALL.into_iter().filter(|d| d.axis() != axis) {
                    for screw_last in [true, false] {
                        rooms.push(room(middle, axis, &around, side, screw_last, items));
                    }
                }
            }
        }
        Clamping { opening, rooms }
    }

    /// Which place is the first that is free of the items of `set`, lying at `plane` in direction `face`.
    pub fn place(
        &self,
        set: u64,
        face: Direction,
        plane: i64,
        workshop: &Workshop,
    ) -> Option<usize> {
        self.rooms.iter().position(|r| {
            r.blockers & set == 0 && r.reach[face.index()] <= plane + workshop.bearers
        })
    }
}

/// A place as the plan shows it.
pub fn shown(scene: &Scene, link: usize, room: usize) -> Option<ClampPlace> {
    let clamping = &scene.links[link].clamping;
    let room = clamping.rooms.get(room)?;
    let joint = &scene.assembly.joints[scene.links[link].joint];
    let parts = joint.parts.map(|p| scene.assembly.parts[p].id.clone());
    Some(ClampPlace { parts, opening: clamping.opening, jaws: room.jaws, bar: room.bar })
}

/// Clamps left when each of `spans` has taken the shortest that reaches it, the longest span
/// first; nothing when they do not suffice.
pub fn left_over(clamps: &[i64], spans: &[i64]) -> Option<Vec<i64>> {
    let mut clamps = clamps.to_vec();
    clamps.sort_unstable();
    let mut spans = spans.to_vec();
    spans.sort_unstable_by_key(|&s| Reverse(s));
    for span in spans {
        let fits = clamps.iter().position(|&c| c >= span)?;
        clamps.remove(fits);
    }
    Some(clamps)
}

fn largest(contacts: Vec<Contact>) -> Option<Contact> {
    contacts.into_iter().min_by_key(|c| (Reverse(c.area()), c.direction, c.face))
}

/// The middle of a contact, then 20 mm in from the middle of each of its edges.
fn middles(contact: &Contact) -> Vec<Point> {
    let face = &contact.face;
    let middle: Point = std::array::from_fn(|a| i64::midpoint(face.min[a], face.max[a]));
    let mut found = vec![middle];
    for a in (0..3).filter(|&a| a != contact.direction.axis()) {
        for at in [face.min[a] + INSET, face.max[a] - INSET] {
            let mut p = middle;
            p[a] = at;
            found.push(p);
        }
    }
    found
}

fn room(
    middle: Point,
    axis: usize,
    around: &Box3,
    side: Direction,
    screw_last: bool,
    items: &[Item],
) -> ClampRoom {
    let (low, high) = (around.min[axis], around.max[axis]);
    let behind = |screw: bool| JAW_THICK + if screw { SCREW } else { 0 };
    let (before, after) = (behind(!screw_last), behind(screw_last));
    let across = |from: i64, to: i64| {
        let mut b = Box3::new(middle.map(|c| c - JAW / 2), middle.map(|c| c + JAW / 2));
        b.min[axis] = from;
        b.max[axis] = to;
        b
    };
    let (lower, upper) = (across(low - before, low), across(high, high + after));
    // The fixed jaw first.
    let jaws = if screw_last { [lower, upper] } else { [upper, lower] };
    let mut bar = across(low - before, high + after);
    let third = 3 - axis - side.axis();
    bar.min[third] = middle[third] - BAR[0] / 2;
    bar.max[third] = middle[third] + BAR[0] / 2;
    let centre = middle[side.axis()] + side.sign() * THROAT;
    bar.min[side.axis()] = centre - BAR[1] / 2;
    bar.max[side.axis()] = centre + BAR[1] / 2;
    let solid = Solid::from_boxes(vec![jaws[0], jaws[1], bar]);
    let bounds = solid.bounds();
    ClampRoom {
        jaws,
        bar,
        blockers: meeting(&solid, items),
        reach: Direction::ALL.map(|d| bounds.face(d) * d.sign()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_span_takes_the_shortest_clamp_that_reaches() {
        assert_eq!(left_over(&[600, 300, 900], &[250, 600]), Some(vec![900]));
        assert_eq!(left_over(&[600, 300], &[400, 500]), None);
        assert_eq!(left_over(&[], &[]), Some(Vec::new()));
    }

    #[test]
    fn the_bar_runs_beside_the_jaws_as_deep_as_the_throat() {
        let around = Box3::new([0; 3], [100_000, 18_000, 200_000]);
        let r = room([50_000, 9_000, 100_000], 0, &around, Direction::Up, true, &[]);
        assert_eq!(r.jaws[0], Box3::new([-20_000, -6_000, 85_000], [0, 24_000, 115_000]));
        assert_eq!(r.jaws[1].max[0], 220_000);
        assert_eq!(
            (r.bar.min, r.bar.max),
            ([-20_000, -6_000, 152_500], [220_000, 24_000, 167_500])
        );
    }
}
