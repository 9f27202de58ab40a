//! A piece while it is being designed: parts and wanted joints, by name.

use super::making::Hint;
use super::mass;
use crate::assembly::joints::{Screws, Wanted};
use crate::assembly::screws::Heads;
use crate::assembly::{Grain, JointKind, Kind, Part, Role};
use crate::geometry::{Box3, Direction, Point, Solid};
use crate::scenario::{Material, MaterialKind};
use crate::units::Length;

/// What a panel is, apart from its place.
#[derive(Debug, Clone, Copy)]
pub struct Panel<'a> {
    /// Its id; its name follows from it.
    pub id: &'a str,
    /// The body it belongs to.
    pub group: &'a str,
    /// What it is for.
    pub role: Role,
    /// What it is cut from.
    pub material: &'a Material,
    /// Axis along which it is as thick as the sheet.
    pub thin: usize,
    /// Axis along which the grain runs, where there is grain.
    pub grain: usize,
}

/// What a bought part is.
#[derive(Debug, Clone, Copy)]
pub struct Bought<'a> {
    /// Its id; its name follows from it.
    pub id: &'a str,
    /// The body it belongs to.
    pub group: &'a str,
    /// What it is for.
    pub role: Role,
    /// Length it is sold by, height, and thickness.
    pub size: [i64; 3],
    /// Mass in grams.
    pub mass_g: i64,
}

/// What a maker calls the part with this id.
fn name(id: &str) -> String {
    let words = |id: &str| id.replace('-', " ");
    match id {
        "box-left" => "left box side".to_owned(),
        "box-right" => "right box side".to_owned(),
        "back-left" => "left piece of the back".to_owned(),
        "back-right" => "right piece of the back".to_owned(),
        "back-lower" => "lower piece of the back".to_owned(),
        "back-upper" => "upper piece of the back".to_owned(),
        "toe-kick" => "toe-kick board".to_owned(),
        "front-panel" => "backing board".to_owned(),
        "platform-left" | "platform-right" | "platform-middle" => {
            format!("{} board of the platform", words(id.trim_start_matches("platform-")))
        }
        "platform-front" => "front board of the platform".to_owned(),
        "platform-rear" => "rear board of the platform".to_owned(),
        // `drawer-2-left` is the left side of drawer 2.
        _ => match id.split_once(|c: char| c.is_ascii_digit()) {
            Some((of, rest)) if of == "drawer-" || of == "box-" => {
                let number = &id[of.len()..id.len() - rest.len()];
                let what = match rest.trim_start_matches('-') {
                    "left" => "left side".to_owned(),
                    "right" => "right side".to_owned(),
                    "front" => "inner front".to_owned(),
                    rest => words(rest),
                };
                format!("{what} of {}{number}", words(of))
            }
            _ => words(id),
        },
    }
}

/// Parts and wanted joints.
#[derive(Debug, Default)]
pub struct Piece {
    pub parts: Vec<Part>,
    pub kinds: Vec<Option<MaterialKind>>,
    pub wanted: Vec<Wanted>,
    /// How each part is made, besides what its solid says.
    pub hints: Vec<Hint>,
    /// What bodies besides the piece are called: id and name.
    pub bodies: Vec<(String, String)>,
}

impl Piece {
    /// Names a body that is built on its own.
    pub fn body(&mut self, id: &str, name: &str) {
        self.bodies.push((id.to_owned(), name.to_owned()));
    }

    /// Adds a panel that fills `outer` less the `cuts`.
    pub fn panel(&mut self, panel: Panel, outer: Box3, cuts: &[Box3]) {
        let mut solid = Solid::new(outer);
        for cut in cuts.iter().filter(|c| c.is_valid()) {
            solid.cut(cut);
        }
        let across: Vec<usize> = (0..3).filter(|&a| a != panel.thin).collect();
        let length = across.iter().map(|&a| outer.extent(a)).max().unwrap_or(0);
        let width = across.iter().map(|&a| outer.extent(a)).min().unwrap_or(0);
        let grain = match (panel.material.grain, outer.extent(panel.grain) == length) {
            (false, _) => Grain::None,
            (true, true) => Grain::Length,
            (true, false) => Grain::Width,
        };
        self.parts.push(Part {
            id: panel.id.to_owned(),
            name: name(panel.id),
            group: panel.group.to_owned(),
            material: panel.material.id.clone(),
            kind: Kind::Panel,
            role: panel.role,
            length: Length(length),
            width: Length(width),
            thickness: Length(outer.extent(panel.thin)),
            grain,
            mass_g: mass::of(solid.volume(), panel.material.density),
            solid,
            set_against: Vec::new(),
        });
        self.kinds.push(Some(panel.material.kind));
        self.hints.push(Hint {
            outer: Some(outer),
            cuts: cuts.to_vec(),
            round: true,
            ..Hint::default()
        });
    }

    /// Adds a bought part.
    pub fn bought(&mut self, bought: Bought, boxes: Vec<Box3>) {
        let [length, width, thickness] = bought.size;
        self.parts.push(Part {
            id: bought.id.to_owned(),
            name: name(bought.id),
            group: bought.group.to_owned(),
            material: "bought".to_owned(),
            kind: Kind::Hardware,
            role: bought.role,
            length: Length(length),
            width: Length(width),
            thickness: Length(thickness),
            grain: Grain::None,
            mass_g: bought.mass_g,
            solid: Solid::from_boxes(boxes),
            set_against: Vec::new(),
        });
        self.kinds.push(None);
        self.hints.push(Hint::default());
    }

    /// Gives a panel what stands out of it.
    pub fn knobs(&mut self, id: &str, boxes: &[Box3]) {
        if let Some(part) = self.parts.iter_mut().find(|p| p.id == id) {
            let all = part.solid.boxes().iter().chain(boxes).copied().collect();
            part.solid = Solid::from_boxes(all);
        }
    }

    /// What else there is to say of how the last part is made.
    pub fn last_hint(&mut self) -> Option<&mut Hint> {
        self.hints.last_mut()
    }

    /// Says that `first` is fixed to `second`, with or without screws; nothing when either is not
    /// part of this piece.
    pub fn join(
        &mut self,
        first: &str,
        second: &str,
        kind: JointKind,
        glue: bool,
        screws: Option<Screws>,
    ) {
        let place = |id: &str| self.parts.iter().position(|p| p.id == id);
        if let (Some(a), Some(b)) = (place(first), place(second)) {
            self.wanted.push(Wanted { parts: [a, b], kind, glue, screws });
        }
    }

    /// The last part added is a front: wherever edges are banded, all of its are.
    pub fn banded_all_round(&mut self) {
        if let Some(hint) = self.last_hint() {
            hint.all_round = true;
        }
    }

    /// The last part added has its gaps set against these.
    pub fn set_last_against(&mut self, ids: &[&str]) {
        if let Some(last) = self.parts.last_mut() {
            last.set_against = ids.iter().map(|&id| id.to_owned()).collect();
        }
    }

    /// The first part whose size comes to nothing or less, with its sizes.
    pub fn vanished(&self) -> Option<&Part> {
        self.parts
            .iter()
            .find(|p| p.solid.boxes().is_empty() || p.solid.boxes().iter().any(|b| !b.is_valid()))
    }
}

/// Countersunk screws along the middle of the joint.
pub fn row(direction: Direction) -> Option<Screws> {
    Some(Screws { direction, heads: Heads::Flat, at: None })
}

/// Pan-head screws along the middle of the joint.
pub fn pan_row(direction: Direction) -> Option<Screws> {
    Some(Screws { direction, heads: Heads::Pan, at: None })
}

/// Screws at given points.
pub fn at(direction: Direction, heads: Heads, points: Vec<Point>) -> Option<Screws> {
    Some(Screws { direction, heads, at: Some(points) })
}

/// The box seen in a mirror in the middle of its bay.
pub fn mirrored(b: Box3, bay: [i64; 2]) -> Box3 {
    let w = bay[0] + bay[1];
    block([w - b.max[0], w - b.min[0]], [b.min[1], b.max[1]], [b.min[2], b.max[2]])
}

/// A box from its extents along x, y and z.
pub fn block(x: [i64; 2], y: [i64; 2], z: [i64; 2]) -> Box3 {
    Box3::new([x[0], y[0], z[0]], [x[1], y[1], z[1]])
}
