//! What fixes the piece: screws through its nailer into studs, into its neighbours, up into the
//! counter, or a bracket on its top.

use crate::assembly::lengths::{HALF_STUD, into_stud, joining};
use crate::assembly::screws::{self, Heads, Stack};
use crate::assembly::{Assembly, Fastener, Role, gauge, probe};
use crate::geometry::{Box3, Direction, Point, Solid};
use crate::order::access::{arm_boxes, drivers, tool_boxes};
use crate::plan::Workshop;
use crate::scenario::{Install, MaterialKind, Neighbour, Screw};
use crate::units::{Length, Notation};

use super::pieces::{Piece, is_free};
use super::room::Room;

/// Gauge of the screws into studs, and into a neighbour or a counter (common practice, no source).
const WALL_GAUGE: u8 = 10;
const GAUGE: u8 = 8;
/// From the edges of a nailer to its screws, and between two at one stud at least (common practice, no
/// source); from one height that is tried to the next; the length that room is tried for.
const FROM_EDGE: i64 = 20_000;
const APART: i64 = 30_000;
const ROW_STEP: i64 = 2_500;
const LONG: i64 = 75_000;
/// Half the width of a packer, along the wall and up.
const PACKER: i64 = 25_000;
/// Behind the front edge of a side, and from its ends, to the screws into the next cabinet, and from
/// one place that is tried to the next (common practice, no source).
const BEHIND_EDGE: i64 = 40_000;
const FROM_ENDS: i64 = 80_000;
const STEP: i64 = 20_000;
/// Half the width of the room that a screw's head and its driving take on a side's face.
const HEAD: i64 = 12_000;
/// How far clear it must be before the face, for the head.
const CLEAR: i64 = 30_000;
/// From the ends of a stretcher to the screws into the counter (common practice, no source).
const FROM_SIDES: i64 = 60_000;

/// Screws with what fills the gaps that they cross.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Fixing {
    /// The screws, from the piece into what is there.
    pub screws: Vec<Fastener>,
    /// Packers between the two.
    pub packers: Vec<Box3>,
    /// How thick those are; zero without.
    pub pack: i64,
}

/// What all of them need to know.
pub(super) struct Site<'a> {
    /// The piece as it was built.
    pub of: &'a Assembly,
    /// What of it is fixed.
    pub carcass: &'a Piece,
    /// The carcass as one solid.
    pub empty: &'a Solid,
    /// All boxes of the piece.
    pub boxes: &'a [Box3],
    /// Where.
    pub room: &'a Room,
    /// What is decided.
    pub install: &'a Install,
    /// Tools.
    pub workshop: &'a Workshop,
    /// Screws on hand.
    pub on_hand: &'a [Screw],
    /// How lengths are printed.
    pub notation: Notation,
}

impl Site<'_> {
    fn imperial(&self) -> bool {
        self.notation.unit().is_imperial()
    }

    fn screw(
        &self,
        id: String,
        gauge: u8,
        length: i64,
        entry: Point,
        direction: Direction,
    ) -> Fastener {
        let pilot = gauge::pilot(gauge, MaterialKind::Softwood, self.notation);
        Fastener {
            id,
            kind: "screw".to_owned(),
            gauge,
            length: Length(length),
            pilot,
            entry,
            direction,
        }
    }

    /// How far the carcass goes on from a point in a direction.
    fn through(&self, from: Point, direction: Direction) -> i64 {
        probe::depth_from(self.empty, from, direction)
    }

    /// Where the middles of the studs are, and whether that is known.
    pub fn studs(&self, within: &Box3) -> (Vec<i64>, bool) {
        let given = &self.install.studs;
        if !given.is_empty() {
            return (given.iter().map(|s| s.get() + self.room.sides[0]).collect(), true);
        }
        // Somewhere within the spacing there is one: taken to be in the middle, and said so.
        let (middle, step) =
            (i64::midpoint(within.min[0], within.max[0]), self.install.stud_spacing.get());
        let most = (within.extent(0) / 2 - HALF_STUD).max(0) / step.max(1);
        ((-most..=most).map(|k| middle + k * step).collect(), false)
    }

    /// Through the nailer into the studs, or into a rail that is screwed to them.
    pub fn wall(&self) -> Option<Fixing> {
        let nailer = self.carcass.with_role(self.of, Role::Nailer).next()?;
        let b = self.of.parts[nailer].solid.bounds();
        let places = if self.install.rail {
            screws::stations(b.extent(0), FROM_SIDES).into_iter().map(|s| b.min[0] + s).collect()
        } else {
            self.studs(&b).0
        };
        let mut fixing = Fixing::default();
        for x in places {
            if x - HALF_STUD < b.min[0] || x + HALF_STUD > b.max[0] {
                continue;
            }
            let mut pack = 0;
            for z in self.rows(&b, x) {
                let entry = [x, b.min[1], z];
                let through = self.through(entry, Direction::Back);
                let back = b.min[1] + through;
                pack = self.room.wall - back;
                let board = self.install.wall_board.get();
                let length = self.install.wall_screw.map_or_else(
                    || into_stud(through + pack + board, self.imperial()),
                    |l| l.get(),
                );
                let id = format!("wall-{}", fixing.screws.len() + 1);
                let screw = self.screw(id, WALL_GAUGE, length, entry, Direction::Back);
                let bites = length - through - pack;
                if through > 0 && bites > 0 {
                    fixing.screws.push(screw);
                }
            }
            if pack > 0 {
                let y = self.room.wall - pack;
                let packer =
                    Box3::new([x - PACKER, y, b.min[2]], [x + PACKER, self.room.wall, b.max[2]]);
                if is_free(&packer, self.boxes) {
                    fixing.packers.push(packer);
                }
                fixing.pack = fixing.pack.max(pack);
            }
        }
        (!fixing.screws.is_empty()).then_some(fixing)
    }

    /// Heights of the screws through a nailer at `x`: the highest and the lowest where drill and arm
    /// have room, when they are far enough apart.
    fn rows(&self, nailer: &Box3, x: i64) -> Vec<i64> {
        let [low, high] = [nailer.min[2] + FROM_EDGE, nailer.max[2] - FROM_EDGE];
        let free = |z: &i64| {
            let probe = self.screw(
                String::new(),
                WALL_GAUGE,
                LONG,
                [x, nailer.min[1], *z],
                Direction::Back,
            );
            let mut others = self.of.joints.iter().flat_map(|j| &j.fasteners);
            self.reached(&probe) && others.all(|o| !screws::crowd(&probe, o))
        };
        let steps = (high - low).max(0) / ROW_STEP;
        let upper = (0..=steps).map(|n| high - n * ROW_STEP).find(free);
        let lower = (0..=steps).map(|n| low + n * ROW_STEP).find(free);
        match (lower, upper) {
            (Some(low), Some(high)) if high - low >= APART => vec![low, high],
            (Some(_), Some(high)) => vec![high],
            _ => Vec::new(),
        }
    }

    /// Whether some tool drives a screw past the empty carcass and the room, and an arm gets at it.
    fn reached(&self, screw: &Fastener) -> bool {
        let free = |b: &Box3| is_free(b, self.empty.boxes()) && is_free(b, self.room.solid.boxes());
        drivers(self.workshop).iter().any(|tool| {
            tool_boxes(screw, tool).iter().all(free)
                && arm_boxes(screw, tool, &super::PERSON).iter().any(|way| way.iter().all(free))
        })
    }

    /// Through a side into the cabinet beside it.
    pub fn beside(&self, side: usize) -> Option<Fixing> {
        if self.room.beside[side] != Neighbour::Unit {
            return None;
        }
        let (out, name) = [(Direction::Left, "left"), (Direction::Right, "right")][side];
        // The outermost side.
        let sides = self.carcass.with_role(self.of, Role::Side);
        let own = sides.max_by_key(|&p| self.of.parts[p].solid.bounds().face(out) * out.sign())?;
        let b = self.of.parts[own].solid.bounds();
        // Shelf pins may stand out of it.
        let thick = self.of.parts[own].thickness.get();
        let inner = b.face(out) - out.sign() * thick;
        let pack = (self.room.sides[side] - b.face(out)) * out.sign();
        let y = b.min[1] + BEHIND_EDGE;
        let free = |z: &i64| {
            let at = Box3::new([inner, y - HEAD, z - HEAD], [inner, y + HEAD, z + HEAD]);
            let before = super::pieces::span(at, out, inner, inner - out.sign() * CLEAR);
            let entry = [inner, y, *z];
            let through = self.through(entry, out);
            let probe = self.screw(String::new(), GAUGE, thick, entry, out);
            is_free(&before, self.boxes) && through == thick && self.reached(&probe)
        };
        let [low, high] = [b.min[2] + FROM_ENDS, b.max[2] - FROM_ENDS];
        let steps = (high - low).max(0) / STEP;
        let upper = (0..=steps).map(|n| high - n * STEP).find(free)?;
        let lower = (0..=steps).map(|n| low + n * STEP).find(free).filter(|z| *z < upper);
        let through = thick + pack;
        let length = self.install.joining_screw.map_or_else(
            || joining(through, self.install.neighbour_side.get(), self.imperial()),
            |l| l.get(),
        );
        if length <= through {
            return None;
        }
        let mut fixing = Fixing { pack, ..Fixing::default() };
        for z in [Some(upper), lower].into_iter().flatten() {
            let id = format!("{name}-{}", fixing.screws.len() + 1);
            fixing.screws.push(self.screw(id, GAUGE, length, [inner, y, z], out));
            if pack > 0 {
                let at =
                    Box3::new([inner, y - PACKER, z - PACKER], [inner, y + PACKER, z + PACKER]);
                fixing.packers.push(super::pieces::span(
                    at,
                    out,
                    b.face(out),
                    self.room.sides[side],
                ));
            }
        }
        Some(fixing)
    }

    /// Up through stretcher or top into a counter so thick.
    pub fn counter(&self, thick: i64) -> Option<Fixing> {
        let level = [Role::Stretcher, Role::Top];
        let carrier = level.into_iter().find_map(|r| self.carcass.with_role(self.of, r).next())?;
        let b = self.of.parts[carrier].solid.bounds();
        let through = b.extent(2);
        let length = self.install.counter_screw.map(|l| l.get()).or_else(|| {
            let stack = Stack { through, into: thick, edge: None, heads: Heads::Any };
            let on_hand = screws::choose(self.on_hand, &stack).map(|(s, _)| s);
            on_hand
                .or_else(|| screws::would_do(&stack, self.notation).first().copied())
                .map(|s| s.length.get())
        })?;
        if length <= through || length >= through + thick {
            return None;
        }
        let y = i64::midpoint(b.min[1], b.max[1]);
        let from_end = FROM_SIDES.min(b.extent(0) / 4);
        let screws =
            [b.min[0] + from_end, b.max[0] - from_end].into_iter().enumerate().map(|(n, x)| {
                let entry = [x, y, b.min[2]];
                self.screw(format!("counter-{}", n + 1), GAUGE, length, entry, Direction::Up)
            });
        Some(Fixing { screws: screws.collect(), ..Fixing::default() })
    }
}

impl Site<'_> {
    /// A bracket's two legs on a top, at the stud nearest to its middle, with the screws down into the
    /// top and back into the stud. `size` is half its width, its legs, its thickness.
    pub fn bracket(&self, top: &Box3, size: [i64; 3]) -> Option<([Box3; 2], [Vec<Fastener>; 2])> {
        let [half, leg, thick] = size;
        let middle = i64::midpoint(top.min[0], top.max[0]);
        let inside = |x: &i64| x - half >= top.min[0] && x + half <= top.max[0];
        let x = self.studs(top).0.into_iter().filter(inside).min_by_key(|x| (x - middle).abs())?;
        let z = top.max[2];
        let wall = self.room.wall;
        let y = top.max[1] - leg;
        let plate = Box3::new([x - half, y, z], [x + half, wall - thick, z + thick]);
        let upright = Box3::new([x - half, wall - thick, z], [x + half, wall, z + leg]);
        if !plate.is_valid() || !is_free(&plate, self.boxes) || !is_free(&upright, self.boxes) {
            return None;
        }
        let stack = Stack { through: thick, into: top.extent(2), edge: None, heads: Heads::Pan };
        let on_hand = screws::choose(self.on_hand, &stack).map(|(s, _)| s);
        let small = on_hand.or_else(|| screws::would_do(&stack, self.notation).first().copied())?;
        let at = |n: usize, dx: i64| {
            let entry = [x + dx, y + leg / 2, z + thick];
            let id = format!("bracket-{n}");
            self.screw(id, small.gauge, small.length.get(), entry, Direction::Down)
        };
        let down = vec![at(1, -half / 2), at(2, half / 2)];
        let long = into_stud(thick + self.install.wall_board.get(), self.imperial());
        let entry = [x, wall - thick, z + leg * 3 / 4];
        let back =
            vec![self.screw("bracket-3".to_owned(), WALL_GAUGE, long, entry, Direction::Back)];
        Some(([plate, upright], [down, back]))
    }
}
