//! What stands in the way when there is no order.

use crate::assembly::MAIN;
use crate::geometry::Direction;

use super::placing::{self, Refusal};
use super::scene::{Scene, members};
use super::search::Found;
use super::state::State;
use crate::wishes::Wishes;

/// Why a body has no order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoOrder {
    /// The body.
    pub body: String,
    /// What is in the way of each thing that does not come about, the nearest first.
    pub obstacles: Vec<Obstacle>,
    /// States expanded.
    pub states: u64,
    /// Whether every state was looked at.
    pub complete: bool,
}

/// One thing that does not come about, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Obstacle {
    /// A part has no way in: the part, the way that is least blocked, and what blocks it there.
    NoWayIn {
        /// Its index.
        part: usize,
        /// The way it would move.
        direction: Direction,
        /// Indices of the parts in its way; the bench, when there are none.
        blockers: Vec<usize>,
    },
    /// A screw is out of reach: the joint, the screw, and the parts where the tool would be.
    ScrewOutOfReach {
        /// Index of the joint.
        joint: usize,
        /// Index of the screw in it.
        screw: usize,
        /// Indices of the parts in the tool's way; bench or arm's reach, when there are none.
        blockers: Vec<usize>,
    },
    /// A glued joint finds no clamp, or no place for one.
    NoClamp {
        /// Index of the joint.
        joint: usize,
        /// The opening it would take, in micrometres.
        opening: i64,
    },
    /// Glue would wait too long for pressure.
    GlueWaits {
        /// Index of the part.
        part: usize,
        /// Minutes that pass.
        minutes: u32,
    },
    /// Nothing keeps a part in its place.
    NothingKeeps {
        /// Index of the part.
        part: usize,
    },
    /// Nothing joins a part to what is there.
    NothingJoins {
        /// Index of the part.
        part: usize,
    },
    /// A part waits for another that cannot go in.
    Waits {
        /// Index of the part.
        part: usize,
        /// Index of the other.
        other: usize,
    },
    /// A part would lie below the bench on every face there is.
    BelowBench {
        /// Index of the part.
        part: usize,
    },
    /// Some parts stay loose in the finished piece.
    StaysLoose {
        /// Their indices.
        parts: Vec<usize>,
    },
    /// A part goes in with the body on another face only, and it does not come to lie on that.
    CannotTurn {
        /// Index of the part.
        part: usize,
        /// The face on which it would go in.
        face: Direction,
        /// Why not.
        why: NoTurn,
    },
    /// Some tool reaches the screws of a joint only on a face on which the piece is not to lie.
    ScrewsNotWished {
        /// Index of the joint.
        joint: usize,
        /// That face.
        face: Direction,
    },
    /// Glue has to cure on what would not stand by itself that long.
    Unsteady {
        /// Indices of the parts that are together.
        parts: Vec<usize>,
    },
    /// It cannot be turned onto the face it is to stand on.
    NotUpright,
    /// It takes a second person, and none is to help.
    TakesHelper {
        /// Index of the part.
        part: usize,
    },
}

/// Why a body does not come to lie on a face.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoTurn {
    /// These parts would come loose in turning: their indices.
    Loose(Vec<usize>),
    /// It would not stand there.
    Falls,
    /// It is larger than the bench that way.
    TooLarge,
    /// The maker has decided that it lies on other faces only.
    NotWished,
}

/// What keeps a body from being finished, where the search got furthest.
pub fn explain(scene: &Scene, body: &str, wishes: &Wishes, found: &Found) -> NoOrder {
    let at = &found.furthest;
    let faces = Faces::of(scene, body, wishes);
    let mut obstacles = Vec::new();
    for item in members(scene.full() & !at.set) {
        obstacles.push(keeps_out(scene, wishes, &faces, item, at));
    }
    for l in members(scene.links_in(at.set) & !at.closed) {
        obstacles.push(match faces.reaches(scene, l, at.set) {
            Some(face) => Obstacle::ScrewsNotWished { joint: scene.links[l].joint, face },
            None => out_of_reach(scene, l, at.set),
        });
    }
    if at.wet != 0 && !scene.stands(at.set, at.face()) {
        obstacles.push(Obstacle::Unsteady { parts: parts(scene, at.set) });
    } else if obstacles.is_empty() {
        let loose = scene.loose(at.set, at.closed).unwrap_or_default();
        obstacles.push(if loose.is_empty() || scene.hangs_together(at.set, at.closed) {
            Obstacle::NotUpright
        } else {
            Obstacle::StaysLoose { parts: parts(scene, loose[0]) }
        });
    }
    // What is blocked by geometry, or by what was decided, tells more than what merely waits for it.
    obstacles.sort_by_key(|o| match o {
        Obstacle::NoWayIn { .. }
        | Obstacle::ScrewsNotWished { .. }
        | Obstacle::CannotTurn { why: NoTurn::NotWished, .. } => 0,
        Obstacle::ScrewOutOfReach { .. } | Obstacle::NoClamp { .. } | Obstacle::Unsteady { .. } => {
            1
        }
        Obstacle::Waits { .. } | Obstacle::NothingJoins { .. } => 3,
        _ => 2,
    });
    NoOrder { body: body.to_owned(), obstacles, states: found.states, complete: found.complete }
}

fn parts(scene: &Scene, set: u64) -> Vec<usize> {
    members(set).flat_map(|i| scene.items[i].parts.iter().copied()).collect()
}

fn first_part(scene: &Scene, item: usize) -> usize {
    scene.items[item].parts.first().copied().unwrap_or(0)
}

/// The faces on which a body may lie.
struct Faces {
    /// As the maker wishes.
    wished: Vec<Direction>,
    /// On which it fits the bench.
    fitting: Vec<Direction>,
    /// Those to look at: all, but what is built into a room is never turned.
    tried: Vec<Direction>,
}

impl Faces {
    fn of(scene: &Scene, body: &str, wishes: &Wishes) -> Faces {
        let mut wished = Direction::ALL.to_vec();
        if body == MAIN {
            wished.retain(|f| wishes.lets_lie_on(*f, scene.assembly.stands_on));
        }
        let in_room = scene.workshop.person.is_some();
        let tried = if in_room { wished.clone() } else { Direction::ALL.to_vec() };
        Faces { wished, fitting: scene.faces(scene.full()), tried }
    }

    /// The first face not wished on which some tool reaches a link, when none does on those that are.
    fn reaches(&self, scene: &Scene, link: usize, set: u64) -> Option<Direction> {
        let on = |&&f: &&Direction| {
            self.fitting.contains(&f) && scene.tool(link, set, f, scene.plane(set, f)).is_some()
        };
        let face = self.tried.iter().find(on)?;
        (!self.tried.iter().filter(on).any(|f| self.wished.contains(f))).then_some(*face)
    }

    /// Why what is there does not come to lie on one of some faces, on each of which `part` would go in.
    fn missing(&self, scene: &Scene, at: &State, part: usize, faces: &[Direction]) -> Obstacle {
        let loose = scene.loose(at.set, at.closed).unwrap_or_default();
        let loose: Vec<usize> = loose.into_iter().flat_map(|lump| parts(scene, lump)).collect();
        let hinders = |&face: &Direction| {
            if !self.fitting.contains(&face) {
                Some(NoTurn::TooLarge)
            } else if !loose.is_empty() {
                Some(NoTurn::Loose(loose.clone()))
            } else if at.set.count_ones() > 1 && !scene.stands(at.set, face) {
                Some(NoTurn::Falls)
            } else {
                None
            }
        };
        let (wished, other): (Vec<Direction>, Vec<Direction>) =
            faces.iter().partition(|f| self.wished.contains(f));
        let only_wish = other.iter().find(|f| hinders(f).is_none());
        let (face, why) = match (only_wish, wished.first(), other.first()) {
            (Some(face), ..) | (None, None, Some(face)) => (*face, NoTurn::NotWished),
            (None, Some(face), _) => (*face, hinders(face).unwrap_or(NoTurn::Falls)),
            (None, None, None) => return Obstacle::NotUpright,
        };
        Obstacle::CannotTurn { part, face, why }
    }
}

/// What keeps an item out: on the face on which it gets nearest to going in.
fn keeps_out(scene: &Scene, wishes: &Wishes, faces: &Faces, item: usize, at: &State) -> Obstacle {
    let part = first_part(scene, item);
    let on = |face: Direction| State { face: face.index() as u8, ..*at };
    let mut refusals = Vec::new();
    let mut goes_in = Vec::new();
    for &face in &faces.tried {
        match placing::placing(scene, scene.full(), item, &on(face)) {
            Ok(p) if wishes.alone && p.holding.helper() => return Obstacle::TakesHelper { part },
            Ok(_) => goes_in.push(face),
            Err(refusal) => refusals.push(refusal),
        }
    }
    if !goes_in.is_empty() {
        return faces.missing(scene, at, part, &goes_in);
    }
    let nearest = refusals.into_iter().max_by_key(|r| match r {
        Refusal::Apart | Refusal::Wet | Refusal::InClamp(_) => 0,
        Refusal::After(_) => 1,
        Refusal::BelowBench(_) => 2,
        Refusal::Blocked(..) => 3,
        Refusal::Loose => 4,
        Refusal::GlueWaits(_) => 5,
        Refusal::NoClamp(_) => 6,
        Refusal::GlueOutOfReach(_) | Refusal::OutOfReach(_) => 7,
    });
    match nearest {
        Some(Refusal::Apart) => Obstacle::NothingJoins { part },
        Some(Refusal::After(missing)) => {
            Obstacle::Waits { part, other: parts(scene, missing).first().copied().unwrap_or(0) }
        }
        Some(Refusal::Blocked(direction, blockers)) => {
            Obstacle::NoWayIn { part, direction, blockers: parts(scene, blockers) }
        }
        Some(Refusal::Loose) => Obstacle::NothingKeeps { part },
        Some(Refusal::GlueWaits(minutes)) => Obstacle::GlueWaits { part, minutes },
        Some(Refusal::NoClamp(l)) => Obstacle::NoClamp {
            joint: scene.links[l].joint,
            opening: scene.links[l].clamping.opening,
        },
        Some(Refusal::GlueOutOfReach(l) | Refusal::OutOfReach(l)) => {
            out_of_reach(scene, l, at.set | scene.masks[item])
        }
        Some(Refusal::BelowBench(_)) => Obstacle::BelowBench { part },
        Some(Refusal::Wet | Refusal::InClamp(_)) => {
            Obstacle::Unsteady { parts: parts(scene, at.set) }
        }
        // It goes in on some face, but the body cannot be turned onto it.
        None => Obstacle::NotUpright,
    }
}

/// The first screw of a joint that the drill does not reach on any face, past those of `set`.
fn out_of_reach(scene: &Scene, link: usize, set: u64) -> Obstacle {
    let joint = scene.links[link].joint;
    let drill = scene.links[link].rooms.first();
    let mut blocked = drill.into_iter().flatten().map(|r| r.in_the_way(set)).enumerate();
    let (screw, mask) = blocked.find(|(_, mask)| *mask != 0).unwrap_or((0, 0));
    Obstacle::ScrewOutOfReach { joint, screw, blockers: parts(scene, mask) }
}
