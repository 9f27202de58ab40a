//! Bodies that are alike: what is found for one holds for all.
//!
//! Two boxes of the same parts, joined by the same joints, have the same orders at the same costs, wherever
//! in the piece they go: a body is built on the bench, and nothing outside it counts. So the search
//! looks at the first of them only.

use crate::assembly::{Assembly, JointKind, Kind};
use crate::geometry::{Box3, Direction, Point};

use super::bodies::{Body, Content};

/// All of a body that its order hangs on, but not where it stands nor what it is called.
///
/// Bodies with equal likeness are moved onto each other with the first part on the first, and so on: the
/// search does the same in both, to the last choice between equals.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Likeness {
    /// Along each axis whether it lies above nought (1), below (-1), or across it. Half distances are
    /// rounded towards nought: what is moved across it need not round alike.
    sides: [i64; 3],
    parts: Vec<Shape>,
    joints: Vec<Seam>,
}

/// A part of it.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Shape {
    boxes: Vec<Box3>,
    /// Length, width and thickness: what it measures as a spacer.
    sizes: [i64; 3],
    mass_g: i64,
    kind: Kind,
    /// The parts that must be in before it.
    after: Vec<usize>,
}

/// A joint of it.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Seam {
    parts: [usize; 2],
    kind: JointKind,
    glue: bool,
    screws: Vec<Screw>,
}

/// A screw: kind, gauge, length, entry and direction.
type Screw = (String, u8, i64, Point, Direction);

impl Likeness {
    /// Of a body made of parts only; none of one that takes in others.
    pub fn of(assembly: &Assembly, body: &Body) -> Option<Likeness> {
        let part_of = |content: &Content| match content {
            Content::Part(p) => Some(*p),
            _ => None,
        };
        let own: Vec<usize> =
            body.items.iter().map(|i| part_of(&i.content)).collect::<Option<_>>()?;
        let place = |part: usize| own.iter().position(|&p| p == part);
        let bounds = body.items.iter().map(|i| i.bounds).reduce(|a, b| a.union(&b))?;
        let sides =
            [0, 1, 2].map(|a| i64::from(bounds.min[a] >= 0) - i64::from(bounds.max[a] <= 0));
        // What lies across nought is alike only where it is.
        let home: Point = std::array::from_fn(|a| if sides[a] == 0 { 0 } else { -bounds.min[a] });
        let moved = |p: Point| std::array::from_fn(|a| p[a] + home[a]);
        let shape = |&p: &usize| {
            let part = &assembly.parts[p];
            let after = part.set_against.iter().filter_map(|id| place(assembly.index_of(id)?));
            Shape {
                boxes: part.solid.boxes().iter().map(|b| b.moved(home)).collect(),
                sizes: [part.length, part.width, part.thickness].map(|l| l.get()),
                mass_g: part.mass_g,
                kind: part.kind,
                after: after.collect(),
            }
        };
        let seams = assembly.joints.iter().filter_map(|joint| {
            let [a, b] = joint.parts.map(place);
            let screw = |s: &crate::assembly::Fastener| {
                (s.kind.clone(), s.gauge, s.length.get(), moved(s.entry), s.direction)
            };
            Some(Seam {
                parts: [a?, b?],
                kind: joint.kind,
                glue: joint.glue,
                screws: joint.fasteners.iter().map(screw).collect(),
            })
        });
        let (parts, joints) = (own.iter().map(shape).collect(), seams.collect());
        Some(Likeness { sides, parts, joints })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::bodies::named;
    use crate::order::tests::carcass;

    /// The carcass built on its own, and once more, moved.
    fn twice(by: Point) -> Assembly {
        let mut both = carcass();
        let parts = both.parts.len();
        for p in 0..parts {
            both.parts[p].group = "first".to_owned();
            let mut other = both.parts[p].clone();
            other.id = format!("{}-2", other.id);
            other.group = "second".to_owned();
            other.solid = crate::geometry::Solid::from_boxes(
                other.solid.boxes().iter().map(|b| b.moved(by)).collect(),
            );
            both.parts.push(other);
        }
        for mut joint in both.joints.clone() {
            joint.parts = joint.parts.map(|p| p + parts);
            for screw in &mut joint.fasteners {
                screw.entry = std::array::from_fn(|a| screw.entry[a] + by[a]);
            }
            both.joints.push(joint);
        }
        both
    }

    fn are_alike(assembly: &Assembly) -> bool {
        let [first, second] =
            [0, 1].map(|b| Likeness::of(assembly, &named(assembly).bodies[b]).unwrap());
        first == second
    }

    #[test]
    fn bodies_are_alike_wherever_they_stand_on_the_same_side_of_nought() {
        assert!(are_alike(&twice([700_000, 0, 1])));
        assert!(!are_alike(&twice([-100_000, 0, 0])));
    }

    #[test]
    fn whatever_an_order_hangs_on_makes_a_difference() {
        let changes: [fn(&mut Assembly); 6] = [
            |a| a.parts[9].mass_g += 1,
            |a| a.parts[9].length = crate::units::Length(1),
            |a| a.parts[9].set_against = vec!["left-side-2".to_owned()],
            |a| a.joints.last_mut().unwrap().glue = false,
            |a| a.joints.last_mut().unwrap().fasteners[0].entry[0] += 1,
            |a| a.parts.swap(8, 9),
        ];
        for (n, change) in changes.iter().enumerate() {
            let mut assembly = twice([700_000, 0, 0]);
            change(&mut assembly);
            assert!(!are_alike(&assembly), "{n}");
        }
    }

    #[test]
    fn names_and_what_is_outside_make_none() {
        let mut assembly = twice([700_000, 0, 0]);
        assembly.parts[9].name = "other".to_owned();
        assembly.parts[9].set_against = vec!["left-side".to_owned()];
        assert!(are_alike(&assembly));
    }

    /// What is found for one is what is found for the other, when each is searched by itself.
    #[test]
    fn the_order_of_one_is_that_of_the_other() {
        let workshop = crate::order::tests::workshop();
        let assembly = twice([700_001, 3, 5]);
        let bodies = named(&assembly).bodies;
        let wishes = crate::wishes::Wishes::default();
        let [first, second] = [0, 1].map(|b: usize| {
            crate::order::planned::order(&assembly, &workshop, &wishes, &bodies[b], u64::MAX).2
        });
        assert!(first.path.is_some());
        assert_eq!(first, second);
    }
}
