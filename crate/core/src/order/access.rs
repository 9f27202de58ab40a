//! Where a driver has room.

use crate::assembly::Fastener;
use crate::geometry::{Box3, Direction, Solid};
use crate::plan::{Driver, Person, Workshop};

use super::bodies::Item;

/// The room one screw's driving takes: bit and tool behind its entry, from the start, with the
/// screw's own length still outside, to the end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToolRoom {
    /// Bit, then the body of the tool.
    pub solid: Solid,
    /// The items in that room.
    pub blockers: u64,
    /// Reach of the room in each of the six directions, as coordinate times sign.
    pub reach: [i64; 6],
    /// Coordinate times sign of the entry, in each of the six directions.
    pub entry: [i64; 6],
    /// The items in the room of arm and shoulders, for each way to reach the tool; empty where the
    /// piece can be walked round.
    ways: Vec<u64>,
}

/// All tools that drive screws, in the order in which they are tried: the drill first.
pub fn drivers(workshop: &Workshop) -> Vec<Driver> {
    let drill = Driver {
        name: "drill".to_owned(),
        length: workshop.drill_length,
        width: workshop.drill_width,
        bit_width: workshop.bit_width,
        bit_length: workshop.bit_length,
    };
    [drill].into_iter().chain(workshop.tools.iter().cloned()).collect()
}

/// The boxes a tool needs for a screw: bit, then body.
pub fn tool_boxes(screw: &Fastener, tool: &Driver) -> [Box3; 2] {
    let axis = screw.direction.axis();
    let sign = screw.direction.sign();
    let beside = |from: i64, to: i64, width: i64| {
        let mut b = Box3::new(screw.entry, screw.entry);
        for a in 0..3 {
            if a == axis {
                let (p, q) = (screw.entry[a] - sign * from, screw.entry[a] - sign * to);
                b.min[a] = p.min(q);
                b.max[a] = p.max(q);
            } else {
                b.min[a] = screw.entry[a] - width / 2;
                b.max[a] = screw.entry[a] + width / 2;
            }
        }
        b
    };
    let length = screw.length.get();
    // The tool comes forward by the screw's length while it drives: its body sweeps from where it
    // starts to where the screw is home.
    let behind = length + tool.length.max(tool.bit_length + 1);
    [
        beside(0, length + tool.bit_length, tool.bit_width),
        beside(tool.bit_length, behind, tool.width),
    ]
}

/// The room of arm and shoulders for each way to reach a tool that drives a screw: the arm straight
/// behind the tool or square to it at its back, the shoulders where the arm ends, upright or
/// sideways, level with it at their middle, top or bottom.
pub fn arm_boxes(screw: &Fastener, tool: &Driver, person: &Person) -> Vec<[Box3; 2]> {
    let [_, body] = tool_boxes(screw, tool);
    let back = body.face(screw.direction.opposite());
    // The fist is round the last of the tool.
    let axis = screw.direction.axis();
    let half = person.arm / 2;
    let mut fist = Box3::new(screw.entry.map(|v| v - half), screw.entry.map(|v| v + half));
    let inner = back + screw.direction.sign() * person.arm;
    (fist.min[axis], fist.max[axis]) = (back.min(inner), back.max(inner));
    let mut ways = Vec::new();
    for way in Direction::ALL.into_iter().filter(|d| *d != screw.direction) {
        let along = way.axis();
        let from = fist.face(way.opposite());
        let to = fist.face(way) + way.sign() * person.reach;
        let mut arm = fist;
        (arm.min[along], arm.max[along]) = (from.min(to), from.max(to));
        if along == axis {
            // Straight behind: the tool's own room comes first.
            (arm.min[along], arm.max[along]) = (back.min(to), back.max(to));
        }
        let end = to + way.sign() * person.chest;
        let across = [(along + 1) % 3, (along + 2) % 3];
        for [wide, deep] in [across, [across[1], across[0]]] {
            let middle = |a: usize| i64::midpoint(fist.min[a], fist.max[a]);
            let (half, chest) = (person.shoulders / 2, person.chest);
            let levels = [middle(deep) - chest / 2, fist.min[deep], fist.max[deep] - chest];
            for low in levels {
                let mut trunk = arm;
                (trunk.min[along], trunk.max[along]) = (to.min(end), to.max(end));
                (trunk.min[wide], trunk.max[wide]) = (middle(wide) - half, middle(wide) + half);
                (trunk.min[deep], trunk.max[deep]) = (low, low + chest);
                ways.push([arm, trunk]);
            }
        }
    }
    ways
}

impl ToolRoom {
    /// Room and blockers of a screw among `items`.
    pub fn new(screw: &Fastener, tool: &Driver, items: &[Item], person: Option<&Person>) -> Self {
        let solid = Solid::from_boxes(tool_boxes(screw, tool).to_vec());
        let blockers = meeting(&solid, items);
        let bounds = solid.bounds();
        let arms = person.map_or_else(Vec::new, |p| arm_boxes(screw, tool, p));
        let mut ways: Vec<u64> = arms
            .into_iter()
            .map(|[arm, trunk]| {
                meeting(&Solid::new(arm), items) | meeting(&Solid::new(trunk), items)
            })
            .collect();
        ways.sort_unstable();
        ways.dedup();
        ToolRoom {
            ways,
            reach: Direction::ALL.map(|d| bounds.face(d) * d.sign()),
            entry: Direction::ALL.map(|d| screw.entry[d.axis()] * d.sign()),
            solid,
            blockers,
        }
    }

    /// The items of `set` in the tool's room; where there are none, those in the way of the arm.
    pub fn in_the_way(&self, set: u64) -> u64 {
        let arm = self.ways.iter().map(|way| way & set).min_by_key(|mask| mask.count_ones());
        match self.blockers & set {
            0 => arm.unwrap_or(0),
            blockers => blockers,
        }
    }

    /// Whether the tool gets there past the items of `set`, which lie at `plane` in direction
    /// `face`, on bearers on the bench, and no higher than the arm reaches.
    pub fn is_free(&self, set: u64, face: Direction, plane: i64, workshop: &Workshop) -> bool {
        self.may_be_free(set, face, [plane; 2], workshop)
    }

    /// The same when the plane is only known to be between two levels: whether it is free for some.
    pub fn may_be_free(
        &self,
        set: u64,
        face: Direction,
        [least, most]: [i64; 2],
        workshop: &Workshop,
    ) -> bool {
        let height = workshop.bench_height + workshop.bearers + least - self.entry[face.index()];
        self.blockers & set == 0
            && (self.ways.is_empty() || self.ways.iter().any(|way| way & set == 0))
            && self.reach[face.index()] <= most + workshop.bearers
            && height <= workshop.reach_height
    }
}

/// The items that share space with `solid`.
pub fn meeting(solid: &Solid, items: &[Item]) -> u64 {
    let around = solid.bounds();
    items.iter().enumerate().fold(0, |mask, (i, item)| {
        let meets = item.bounds.intersects(&around) && item.solid.intersects(solid);
        mask | (u64::from(meets) << i)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    #[test]
    fn the_drill_sweeps_from_its_start_to_the_home_of_the_screw() {
        let workshop = super::super::tests::workshop();
        let screw = Fastener {
            id: "a".to_owned(),
            kind: "screw".to_owned(),
            gauge: 8,
            length: Length::mm(40),
            pilot: Length::mm(3),
            entry: [0; 3],
            direction: Direction::Right,
        };
        let [bit, drill] = tool_boxes(&screw, &drivers(&workshop)[0]);
        assert_eq!((bit.min[0], bit.max[0]), (-130_000, 0));
        // 90 mm of bit ahead of it with the screw home; 250 mm long and 40 mm back at the start.
        assert_eq!((drill.min[0], drill.max[0]), (-290_000, -90_000));
        assert_eq!(drill.extent(1), workshop.drill_width);
    }
}
