//! From the space and the contents to a piece: sizes, parts, joints and screws.
//!
//! One pure function, [`design`]; one file a concept. The finished piece stands with its left
//! side's outer face at x = 0, the sides' front edges at y = 0 and the floor at z = 0.

mod back;
mod bay;
mod carcass;
pub(crate) mod contents;
mod doors;
mod drawers;
mod fit;
mod frame;
mod front;
mod levels;
mod limits;
mod listed;
mod making;
pub(crate) mod mass;
mod piece;
mod pins;
mod pullout;
mod runner;
mod shelves;
mod sizes;

#[cfg(test)]
mod samples;
#[cfg(test)]
mod tests;

use crate::assembly::joints::{Means, join};
use crate::assembly::{Assembly, MAIN, Role, check};
use crate::findings::{Finding, Severity, has_stop};
use crate::geometry::Direction;
use crate::outcome::SizeRow;
use crate::plan::Making;
use crate::scenario::{
    Build, Content, Front, FrontStyle, Interior, Material, Neighbour, PullOut, Scenario, Shelves,
    Shop, Space, Subject,
};
use crate::units::Notation;
use bay::Bay;
use frame::Frame;
use front::Site;
use levels::{Level, Levels};

/// A designed piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Design {
    /// Every size that was worked out, with the sum behind it.
    pub sizes: Vec<SizeRow>,
    /// Parts, joints and screws.
    pub assembly: Assembly,
    /// How each part is made; none for what is bought.
    pub making: Vec<Option<Making>>,
}

/// The sheets that the parts are cut from.
#[derive(Debug, Clone, Copy)]
struct Sheets<'a> {
    carcass: &'a Material,
    back: &'a Material,
    front: Option<&'a Material>,
    shelf: Option<&'a Material>,
    box_side: Option<&'a Material>,
    box_bottom: Option<&'a Material>,
}

/// A cabinet to design: what stands in the scenario of it.
#[derive(Debug, Clone, Copy)]
struct Job<'a> {
    title: &'a str,
    notation: Notation,
    space: &'a Space,
    contents: &'a [Content],
    build: &'a Build,
    shop: &'a Shop,
}

/// Designs the piece.
///
/// The design is absent when a finding of severity `stop` leaves nothing to build. It may be
/// present beside a `stop` (bins too wide for a carcass that could be built): ask
/// [`has_stop`] before planning; the sizes are then still worth showing.
pub fn design(s: &Scenario) -> (Option<Design>, Vec<Finding>) {
    match &s.subject {
        Subject::Cabinet(c) => cabinet(&Job {
            title: &s.title,
            notation: s.notation,
            space: &c.space,
            contents: &c.contents,
            build: &c.build,
            shop: &s.shop,
        }),
        Subject::Listed(piece) => listed::design(s, piece),
    }
}

/// Works a cabinet out from the space and the contents.
fn cabinet(s: &Job) -> (Option<Design>, Vec<Finding>) {
    let mut findings = limits::check(s);
    let sheets = sheets(s, &mut findings);
    let made = match sheets {
        Some(sheets) if !has_stop(&findings) => {
            let pinned = pins::meet(s, &sheets, &mut findings);
            let s = Job { build: pinned.as_ref().unwrap_or(s.build), ..*s };
            make(&s, &sheets, &mut findings)
        }
        _ => None,
    };
    (made, findings)
}

fn make(s: &Job, sheets: &Sheets, findings: &mut Vec<Finding>) -> Option<Design> {
    let (mut piece, sizes) = arrange(s, sheets, findings)?;
    together(&mut piece);
    if let Some(part) = piece.vanished() {
        let message =
            format!("Nothing is left of the {}: the sizes around it take all its room.", part.name);
        findings.push(Finding::new(
            Severity::Stop,
            "part-vanishes",
            format!("part {}", part.id),
            message,
            "Make the carcass bigger, or the parts beside it smaller.",
        ));
        return None;
    }
    let means = Means { screws: &s.shop.screws, notation: s.notation };
    let (joints, said) = join(&piece.parts, &piece.kinds, &piece.wanted, means);
    findings.extend(said);
    let assembly = Assembly {
        title: s.title.to_owned(),
        bodies: bodies(&piece),
        parts: piece.parts,
        joints,
        stands_on: Direction::Down,
    };
    // Where something was stopped already, what else is unsound follows from it.
    if !has_stop(findings) {
        findings.extend(check::check(&assembly));
    }
    let open = [s.space.left, s.space.right].map(|n| n == Neighbour::Open);
    let making = making::makings(&assembly, &piece.hints, s.build.banding.get(), open);
    Some(Design { sizes, assembly, making })
}

/// Sizes, parts and wanted joints.
fn arrange(
    s: &Job,
    sheets: &Sheets,
    findings: &mut Vec<Finding>,
) -> Option<(piece::Piece, Vec<SizeRow>)> {
    let build = s.build;
    let carried = matches!(build.interior, Interior::PullOut(_))
        || build.drawers.is_some()
        || build.doors.is_some();
    let front = build.front.as_ref().filter(|_| carried);
    if build.front.is_some() && !carried {
        findings.push(front::nothing_to_hold_it());
    }
    // Every bay is filled alike.
    let bays = i64::from(build.dividers) + 1;
    let need = fit::need(s.contents);
    let all = need.map(|n| fit::Need { width: bays * n.width, ..n });
    let (w, why_w) = fit::outside_width(s, sheets, all, findings)?;
    let (h, why_h) = fit::outside_height(s, findings);
    let thick = front.map_or(0, |f| front_thickness(f, sheets));
    let inset = front.is_some_and(|f| f.inset);
    let (d, why_d) = fit::carcass_depth(s, if inset { 0 } else { thick }, findings);
    let f = Frame::new(s, sheets, [w, h, d], if inset { thick } else { 0 });
    carcass::check(s, &f, findings);
    if has_stop(findings) && !f.has_room(bays) {
        return None;
    }

    let mut rows = sizes::Rows::new(s.notation);
    rows.carcass(&f, [why_w, why_h, why_d]);
    let mut job = InMaking {
        s,
        sheets,
        f: &f,
        bays: bay::all(s, &f),
        front: front.zip(sheets.front),
        need,
        levels: Levels::default(),
        piece: piece::Piece::default(),
        rows,
        findings,
    };
    let room = match &build.interior {
        Interior::Shelves(shelves) => job.shelves(shelves)?,
        Interior::PullOut(pull_out) => job.pull_out(pull_out)?,
    };
    let InMaking { piece, mut rows, levels, findings, .. } = job;
    if let (Some(need), Some(room)) = (all, room) {
        let lost = fit::lost_width(s, sheets);
        fit::contents_in_width(s, room, f.w, lost, need, findings);
        rows.contents(need, room, lost);
    }
    levels::judge(s, &levels, &mut rows, findings);
    Some((piece, rows.done()))
}

/// A cabinet that is being made.
struct InMaking<'a> {
    s: &'a Job<'a>,
    sheets: &'a Sheets<'a>,
    f: &'a Frame,
    bays: Vec<Bay>,
    front: Option<(&'a Front, &'a Material)>,
    need: Option<fit::Need>,
    levels: Levels,
    piece: piece::Piece,
    rows: sizes::Rows,
    findings: &'a mut Vec<Finding>,
}

impl<'a> InMaking<'a> {
    fn carcass(&mut self, cuts: &[(String, crate::geometry::Box3)]) {
        let (s, sheets, f) = (self.s, self.sheets, self.f);
        carcass::add(&mut self.piece, s, sheets, f, &self.bays, cuts);
        bay::add(&mut self.piece, s, sheets, f, &self.bays, cuts);
    }

    fn site<'b>(&self, bay: &'b Bay) -> Option<Site<'b>>
    where
        'a: 'b,
    {
        let (front, board) = self.front?;
        Some(Site { s: self.s, f: self.f, bay, front, board })
    }

    /// A box on runners in every bay. Gives the room for the contents of all bays, if it is known.
    fn pull_out(&mut self, p: &PullOut) -> Option<Option<i64>> {
        let (s, f) = (self.s, self.f);
        let sheets = [self.sheets.box_side?, self.sheets.box_bottom?];
        let bays = self.bays.clone();
        let mut boxes = Vec::new();
        for bay in &bays {
            let slot = pullout::Slot {
                field: "build.pull_out",
                id: &bay.id("box"),
                bay,
                z: bay.z,
                under: pullout::UNDER_STRETCHER,
                need: self.need.map(|n| n.height),
                full: false,
            };
            boxes.push(pullout::sizes(s, p, sheets, f, slot, self.findings)?);
        }
        self.carcass(&[]);
        let behind = self.behind(&[]);
        back::add(&mut self.piece, s, self.sheets, f, &behind, self.findings);
        for b in &boxes {
            pullout::add(&mut self.piece, s, p, sheets, b);
            runner::add(&mut self.piece, s, p, b);
        }
        let one = boxes.first()?;
        self.rows.pull_out(p, f, one);
        for (bay, b) in bays.iter().zip(&boxes) {
            if let Some(site) = self.site(bay) {
                let outlines = front::add(&mut self.piece, &site, sheets[0], b, self.findings);
                self.rows.fronts(site.front, f, &outlines);
            }
        }
        self.levels.all.push(Level { name: "Box".to_owned(), room: one.room() });
        Some(Some(boxes.iter().map(pullout::BoxFrame::inside_width).sum()))
    }

    /// Drawers, and below them shelves, open or behind doors. As [`InMaking::pull_out`].
    fn shelves(&mut self, shelves: &Shelves) -> Option<Option<i64>> {
        let (s, sheets, f) = (self.s, self.sheets, self.f);
        let bays = self.bays.clone();
        let fill = !s.build.on_shelves();
        let mut ceiling = f.ceiling();
        let mut below = None;
        let mut drawers = Vec::new();
        if let Some(d) = &s.build.drawers {
            let boxes = [sheets.box_side?, sheets.box_bottom?];
            for bay in &bays {
                let site = self.site(bay)?;
                let (fronts, rest) = drawers::fronts(&site, d, fill, self.findings)?;
                let frames = drawers::boxes(&site, d, boxes, &fronts, fill, self.findings)?;
                if !fill {
                    ceiling = fronts.last().map_or(ceiling, |z| z[0]);
                }
                below = Some(rest);
                drawers.push(frames.into_iter().zip(fronts).collect::<Vec<_>>());
            }
        }
        let places = shelves::places(s, shelves, sheets, f, ceiling, self.findings);
        let placed = shelves::in_bays(s, shelves, f, &bays, &places, self.findings);
        let cuts: Vec<_> = placed.iter().flat_map(|p| p.cuts(f)).collect();
        self.carcass(&cuts);
        let fixed = if shelves.pins.is_none() { placed.as_slice() } else { &[] };
        let behind: Vec<_> = fixed.iter().map(shelves::Placed::edge).collect();
        let pin = shelves.pins.map_or(0, |r| r.hole.get());
        let level: Vec<[i64; 2]> = places.iter().map(|p| [p.1[0] - pin, p.1[1]]).collect();
        shelves::rows(&mut self.piece, shelves, f, &bays, ceiling);
        shelves::add(&mut self.piece, s, sheets, shelves, placed);
        let behind = self.behind(&behind);
        back::add(&mut self.piece, s, sheets, f, &behind, self.findings);
        let deep = f.inner - f.plane.max(shelves.setback.get());
        if !fill {
            self.rows.shelves(bays.first()?.width(), deep, &places);
        }
        for (n, bay) in bays.iter().enumerate() {
            let Some(site) = self.site(bay) else { continue };
            let mut outlines = Vec::new();
            if let Some(d) = &s.build.doors {
                let z = below.unwrap_or(site.field()[1]);
                let leaves = doors::leaves(&site, d, z, &level, self.findings);
                doors::add(&mut self.piece, &site, d, &leaves);
                if n == 0 {
                    self.rows.hinges(d, bay, &leaves);
                }
                outlines.extend(leaves.into_iter().map(|l| l.outline));
            }
            if let (Some(d), Some(places)) = (&s.build.drawers, drawers.get(n)) {
                let boxes = [sheets.box_side?, sheets.box_bottom?];
                let more = drawers::add(&mut self.piece, &site, d, boxes, places, &outlines);
                if n == 0 {
                    self.rows.drawers(&d.boxes, f, places);
                }
                outlines.extend(more);
            }
            self.rows.fronts(site.front, f, &outlines);
        }
        self.shelved(shelves, fill, ceiling, &places, &drawers);
        // What the width is judged by: every bay's lowest drawer, or the room on its shelves.
        let lowest = || drawers.iter().filter_map(|d| d.last()).map(|d| d.0.inside_width());
        Some(Some(if fill { lowest().sum() } else { bays.iter().map(Bay::width).sum() }))
    }

    /// Where things may stand in a bay: on the bottom and the shelves, and in its drawers.
    fn shelved(
        &mut self,
        shelves: &Shelves,
        fill: bool,
        ceiling: i64,
        places: &[(String, [i64; 2])],
        drawers: &[Vec<(pullout::BoxFrame, [i64; 2])>],
    ) {
        let f = self.f;
        if !fill {
            let deep = f.inner - f.plane.max(shelves.setback.get());
            let wide = self.bays.iter().map(Bay::width).min().unwrap_or(0);
            let heights = shelves::clear_heights(f, ceiling, places);
            self.levels.loose =
                shelves::loose(shelves, f, ceiling, places).map(|loose| (heights.len(), loose));
            for (n, height) in heights.into_iter().enumerate() {
                let name = if n == 0 { "Bottom".to_owned() } else { format!("Shelf {n}") };
                self.levels.all.push(Level { name, room: [wide, deep, height] });
            }
        }
        for (n, (drawer, _)) in drawers.first().into_iter().flatten().enumerate() {
            let name = format!("Drawer {}", n + 1);
            self.levels.all.push(Level { name, room: drawer.room() });
        }
    }

    /// What the back lies behind: dividers and the fixed shelves.
    fn behind(&self, shelves: &[(String, [i64; 2])]) -> Vec<(String, [i64; 2])> {
        // A divider is no level edge that a seam would have to clear.
        let divider = |b: &Bay| (b.walls[0].clone(), [i64::MIN / 2, i64::MIN / 2]);
        self.bays.iter().skip(1).map(divider).chain(shelves.iter().cloned()).collect()
    }
}

/// What a maker calls the bodies: those the parts make up, the piece itself first.
fn bodies(piece: &piece::Piece) -> Vec<(String, String)> {
    let whole = if piece.bodies.iter().any(|(id, _)| id == CARCASS) { "cabinet" } else { CARCASS };
    let main = std::iter::once((MAIN.to_owned(), whole.to_owned()));
    main.chain(piece.bodies.iter().cloned()).collect()
}

/// A body that is put together before drawers, doors and fronts go into it.
const CARCASS: &str = "carcass";
/// From so many things on, the carcass is a body of its own: makers finish it before they fill it,
/// and an order is found sooner. Common practice, no source.
const MANY: usize = 15;

/// A piece of many parts is put together from a carcass and what goes into it.
fn together(piece: &mut piece::Piece) {
    let main = piece.parts.iter().filter(|p| p.group == MAIN).count();
    if main + piece.bodies.len() < MANY {
        return;
    }
    // A front goes to the box that it is screwed to; false fronts and doors are bodies already.
    for wanted in &piece.wanted {
        let [first, second] = wanted.parts;
        let group = piece.parts[first].group.clone();
        if piece.parts[second].role == Role::Front && group != MAIN {
            piece.parts[second].group = group;
        }
    }
    let stays = [Role::Front, Role::Backing];
    for part in piece.parts.iter_mut().filter(|p| p.group == MAIN && !stays.contains(&p.role)) {
        CARCASS.clone_into(&mut part.group);
    }
    piece.body(CARCASS, CARCASS);
}

/// What the front takes of the depth.
fn front_thickness(front: &Front, sheets: &Sheets) -> i64 {
    let board = sheets.front.map_or(0, |m| m.thickness.get());
    match front.style {
        FrontStyle::DrawerOverDoors { .. } if sheets.shelf.is_none() => {
            board + sheets.box_side.map_or(0, |m| m.thickness.get())
        }
        _ => board,
    }
}

/// Looks the materials up; a finding for each that the shop does not have.
fn sheets<'a>(s: &Job<'a>, findings: &mut Vec<Finding>) -> Option<Sheets<'a>> {
    let mut find = |field: &str, id: &str| {
        let found = s.shop.material(id);
        if found.is_none() {
            let known: Vec<&str> = s.shop.materials.iter().map(|m| m.id.as_str()).collect();
            findings.push(
                Finding::new(
                    Severity::Stop,
                    "unknown-material",
                    field,
                    format!("The shop has no material `{id}`."),
                    format!("Add it to shop.materials, or use one of: {}.", known.join(", ")),
                )
                .number("value", id),
            );
        }
        found
    };
    let b = &s.build;
    let carcass = find("build.carcass.material", &b.carcass.material);
    let back = find("build.back.material", &b.back.material);
    let front = b.front.as_ref().map(|f| find("build.front.material", &f.material));
    let shelf = match &b.interior {
        Interior::Shelves(i) => find("build.shelves.material", &i.material),
        Interior::PullOut(_) => None,
    };
    let at = if b.drawers.is_some() { "build.drawers.box" } else { "build.pull_out" };
    let box_side = b.boxes().and_then(|p| find(&format!("{at}.material"), &p.material));
    let bottom = |p: &PullOut| find(&format!("{at}.bottom_material"), &p.bottom_material);
    let box_bottom = b.boxes().and_then(bottom);
    Some(Sheets {
        carcass: carcass?,
        back: back?,
        front: front.flatten(),
        shelf,
        box_side,
        box_bottom,
    })
}
