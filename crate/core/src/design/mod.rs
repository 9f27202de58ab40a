//! From the space and the contents to a piece: sizes, parts, joints and screws.
//!
//! One pure function, [`design`]; one file a concept. The finished piece stands with its left
//! side's outer face at x = 0, the sides' front edges at y = 0 and the floor at z = 0.

mod back;
mod carcass;
mod fit;
mod front;
mod limits;
mod listed;
mod mass;
mod piece;
mod pullout;
mod runner;
mod shelves;
mod sizes;

#[cfg(test)]
mod samples;
#[cfg(test)]
mod tests;

use crate::assembly::joints::{Means, join};
use crate::assembly::{Assembly, MAIN, Part, check};
use crate::findings::{Finding, Severity, has_stop};
use crate::geometry::Direction;
use crate::outcome::SizeRow;
use crate::scenario::{
    Build, CarcassJoint, Content, Front, FrontStyle, Interior, Material, Scenario, Shop, Space,
    Subject,
};
use crate::units::{Length, Notation};

/// A designed piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Design {
    /// Every size that was worked out, with the sum behind it.
    pub sizes: Vec<SizeRow>,
    /// Parts, joints and screws.
    pub assembly: Assembly,
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

/// The sizes of the carcass that all parts follow from, in micrometres.
#[derive(Debug, Clone, Copy)]
struct Frame {
    /// Outside width, height, and depth with the back.
    w: i64,
    h: i64,
    d: i64,
    /// Thickness of the carcass's sheet and of the back's.
    t: i64,
    bt: i64,
    /// Depth of the sides: without the back.
    sd: i64,
    /// Height and recess of the toe kick.
    toe: i64,
    recess: i64,
    /// Width of the stretcher, height of the nailer.
    stretcher: i64,
    nailer: i64,
    /// Depth of the dadoes; zero when panels are butted.
    dado: i64,
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
        Some(sheets) if !has_stop(&findings) => make(s, &sheets, &mut findings),
        _ => None,
    };
    (made, findings)
}

fn make(s: &Job, sheets: &Sheets, findings: &mut Vec<Finding>) -> Option<Design> {
    let c = &s.build.carcass;
    let front = match &s.build.interior {
        Interior::PullOut(_) => s.build.front.as_ref(),
        Interior::Shelves(_) => {
            if s.build.front.is_some() {
                findings.push(front::nothing_to_hold_it());
            }
            None
        }
    };
    let need = fit::need(s.contents);
    let (w, why_w) = fit::outside_width(s, sheets, need, findings)?;
    let (h, why_h) = fit::outside_height(s, findings);
    let (d, why_d) =
        fit::carcass_depth(s, front.map_or(0, |f| front_thickness(f, sheets)), findings);
    let bt = sheets.back.thickness.get();
    let f = Frame {
        w,
        h,
        d,
        t: sheets.carcass.thickness.get(),
        bt,
        sd: d - bt,
        toe: c.toe_height.get(),
        recess: if c.toe_height == Length::ZERO { 0 } else { c.toe_recess.get() },
        stretcher: c.stretcher_width.get(),
        nailer: c.nailer_height.get(),
        dado: if c.joint == CarcassJoint::Dado { c.dado_depth.get() } else { 0 },
    };
    carcass::check(s, &f, findings);
    if has_stop(findings) && (f.w <= 2 * f.t || f.h <= f.t + f.toe || f.sd <= 0) {
        return None;
    }

    let mut piece = piece::Piece::default();
    let mut rows = sizes::Rows::new(s.notation);
    rows.carcass(&f, [why_w, why_h, why_d]);
    let lost = fit::lost_width(s, sheets);
    match &s.build.interior {
        Interior::Shelves(interior) => {
            let places = shelves::places(s, interior, sheets, &f, findings);
            let spans: Vec<[i64; 2]> = places.iter().map(|p| p.1).collect();
            carcass::add(&mut piece, s, sheets, &f, &spans);
            shelves::add(&mut piece, s, interior, sheets, &f, &places);
            back::add(&mut piece, s, sheets, &f, &places, findings);
            let room = f.w - 2 * f.t;
            let deep = f.sd - interior.setback.get();
            let tall = shelves::tallest_bay(&f, &places);
            rows.shelves(room, deep, &places);
            if let Some(need) = need {
                fit::contents_in_width(s, room, f.w, lost, need, findings);
                let cure = "Make the carcass deeper, or let them stand side by side.";
                fit::contents_in(s, "depth", "contents-too-deep", need.depth, deep, cure, findings);
                let cure = "Make the carcass higher, or give fewer shelves.";
                fit::contents_in(
                    s,
                    "height",
                    "contents-too-high",
                    need.height,
                    tall,
                    cure,
                    findings,
                );
                rows.contents(need, room, lost);
            }
        }
        Interior::PullOut(interior) => {
            let side = sheets.box_side?;
            let bottom = sheets.box_bottom?;
            let b = pullout::sizes(s, interior, side, bottom, &f, need, findings)?;
            carcass::add(&mut piece, s, sheets, &f, &[]);
            back::add(&mut piece, s, sheets, &f, &[], findings);
            pullout::add(&mut piece, s, interior, [side, bottom], &b);
            runner::add(&mut piece, s, interior, &f, &b);
            rows.pull_out(interior, &f, &b);
            if let (Some(front), Some(material)) = (front, sheets.front) {
                let outline = front::add(&mut piece, s, front, [material, side], &f, &b, findings);
                rows.fronts(front, &f, &outline);
            }
            if let Some(need) = need {
                let room = b.inside_width();
                fit::contents_in_width(s, room, f.w, lost, need, findings);
                pullout::contents(s, &f, &b, need, findings);
                rows.contents(need, room, lost);
            }
        }
    }
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
        bodies: bodies(&piece.parts),
        parts: piece.parts,
        joints,
        stands_on: Direction::Down,
    };
    findings.extend(check::check(&assembly));
    Some(Design { sizes: rows.done(), assembly })
}

/// What the bodies that the parts make up are called.
fn bodies(parts: &[Part]) -> Vec<(String, String)> {
    let called = [(MAIN, "carcass"), (pullout::BOX, "box"), (front::FRONT, "front")];
    called
        .iter()
        .filter(|(id, _)| parts.iter().any(|p| p.group == *id))
        .map(|&(id, name)| (id.to_owned(), name.to_owned()))
        .collect()
}

/// What the front takes of the depth.
fn front_thickness(front: &Front, sheets: &Sheets) -> i64 {
    let board = sheets.front.map_or(0, |m| m.thickness.get());
    match front.style {
        FrontStyle::One => board,
        FrontStyle::DrawerOverDoors { .. } => {
            board + sheets.box_side.map_or(0, |m| m.thickness.get())
        }
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
    let (mut shelf, mut box_side, mut box_bottom) = (None, None, None);
    match &b.interior {
        Interior::Shelves(i) => shelf = find("build.shelves.material", &i.material),
        Interior::PullOut(p) => {
            box_side = find("build.pull_out.material", &p.material);
            box_bottom = find("build.pull_out.bottom_material", &p.bottom_material);
        }
    }
    Some(Sheets {
        carcass: carcass?,
        back: back?,
        front: front.flatten(),
        shelf,
        box_side,
        box_bottom,
    })
}
