//! Panels: sag under what stands on them, racking, the back's screws, what a groove leaves.

use crate::assembly::{JointKind, Kind, Role};
use crate::findings::{JobStage, Severity};
use crate::geometry::Direction;
use crate::scenario::MaterialKind;
use std::collections::BTreeMap;

use super::beam::{Loaded, allowed, beam, plate, span_at_a_144th};
use super::facts::Facts;
use super::num;
use super::row::{CheckRow, Said, Theme};

/// What shelves and bottoms carry in the test of ANSI/KCMA A161.1 (quoted): 15 psf, 718 Pa, which
/// over 9.81 m/s² is so many grams on a square metre.
const TEST_G_PER_M2: i128 = 73_190;
/// A line that carries a panel does so along at least half of it.
const HALF: i64 = 2;

const SAG: &str = "limit and least load: ANSI/KCMA A161.1 (quoted); sag: mdf-info.eu \"MDF shelves and storage units\", E of MDF and creep up to 50 % (read); other E: low end of USDA Wood Handbook, table 12-1 (from memory); plate on four edges: Timoshenko's table (from memory)";
const SPAN: &str =
    "Architectural Woodwork Standards, 1st ed. 2009, section 10: L/144 at 40 psf (read)";
const RACK: &str = "common practice, no source: upright boards fixed to both sides along a third of the height, or a back";
const FIXED: &str =
    "screws round a thin back 6 to 8 in apart, 10 at most: common practice, no source";
const GROOVE: &str =
    "a groove takes half of the thickness, three fifths at most: common practice, no source";

/// Modulus of elasticity in N/mm², the low end of what is published.
pub fn modulus(kind: MaterialKind) -> i64 {
    match kind {
        MaterialKind::Mdf => 2_500,
        MaterialKind::Particleboard => 2_760,
        MaterialKind::Plywood => 6_960,
        MaterialKind::Softwood => 8_000,
        MaterialKind::Hardwood => 9_000,
        MaterialKind::Hardboard => 3_100,
    }
}

/// How much more a board sags over months, in percent of what it sags at once.
fn creep(kind: MaterialKind) -> i128 {
    match kind {
        MaterialKind::Mdf | MaterialKind::Particleboard | MaterialKind::Hardboard => 150,
        _ => 100,
    }
}

pub fn check(f: &Facts, said: &mut Said) {
    for i in 0..f.plan.parts.len() {
        sag(f, i, said);
    }
    racking(f, said);
    backs(f, said);
    grooves(f, said);
}

/// The clear span of a level panel along one axis: the widest between lines that carry it.
fn span(f: &Facts, panel: usize, axis: usize) -> Option<i64> {
    let b = &f.bounds[panel];
    let across = 1 - axis;
    let id = &f.part(panel).id;
    let mut lines: Vec<[i64; 2]> = Vec::new();
    for other in (0..f.plan.parts.len()).filter(|&o| o != panel) {
        let theirs = &f.part(other).id;
        let joined = f.plan.joints.iter().any(|j| {
            j.kind != JointKind::Slide && j.parts.contains(id) && j.parts.contains(theirs)
        });
        let contacts = f.solids[panel].contacts(&f.solids[other]);
        let carries = contacts
            .iter()
            .filter(|c| c.direction == Direction::Down || (joined && c.direction.axis() == axis));
        let faces: Vec<_> = carries.map(|c| c.face).collect();
        let along: i64 = faces.iter().map(|x| x.extent(across)).sum();
        let ends =
            (faces.iter().map(|x| x.min[axis]).min(), faces.iter().map(|x| x.max[axis]).max());
        if let ((Some(low), Some(high)), true) = (ends, along * HALF >= b.extent(across)) {
            lines.push([low, high]);
        }
    }
    lines.sort_unstable();
    lines.windows(2).map(|p| p[1][0] - p[0][1]).filter(|s| *s > 0).max()
}

/// How a panel is carried, and how much it sags.
fn sag(f: &Facts, panel: usize, said: &mut Said) {
    let part = f.part(panel);
    let stage = match part.role {
        Role::Shelf | Role::Bottom | Role::Top | Role::BoxBottom | Role::Stretcher => {
            JobStage::Size
        }
        _ => return,
    };
    let (Some(kind), b) = (f.kind(panel), &f.bounds[panel]) else { return };
    if b.extent(2) != part.thickness {
        return;
    }
    let [x, y] = [0, 1].map(|axis| span(f, panel, axis));
    let four = x.is_some() && y.is_some();
    // What lies on pins is carried at its ends.
    let span = match (x, y) {
        (Some(x), Some(y)) => x.min(y),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => b.extent(0).max(b.extent(1)),
    };
    let wide = match (x, y) {
        (Some(x), Some(y)) => x.max(y),
        (None, Some(_)) => b.extent(0),
        _ => b.extent(1),
    };
    let area = i128::from(b.extent(0)) * i128::from(b.extent(1));
    let test = num::small(num::div(TEST_G_PER_M2 * area, 1_000_000_000_000));
    let on_it = match part.role {
        Role::BoxBottom => f.load_of_a_box(),
        // Where there are shelves, the contents stand there and not in boxes.
        Role::Shelf => f.contents_g(),
        _ => 0,
    };
    let (load, loaded) = (test, "the test load of 15 psf").max((on_it, "the contents"));
    let sags = |thick: i64| {
        let own = part.mass_g * thick / part.thickness.max(1);
        let l = Loaded { span, wide, thick, modulus: modulus(kind), mass_g: load + own };
        num::div((if four { plate(&l) } else { beam(&l) }) * creep(kind), 100)
    };
    let (result, limit) = (sags(part.thickness), allowed(span));
    let row = CheckRow::new("sag", Theme::Panels, stage, format!("part {}", part.id))
        .says(
            format!("Does the {} sag under {loaded}?", part.name),
            if four {
                "α q a⁴/D, D = E t³/(12 (1 − 0.3²)), × creep; limit a/192, 1/4 in at most"
            } else {
                "5 W L³/(32 E b t³) × creep; limit L/192, 1/4 in at most"
            },
            SAG,
        )
        .with("span", f.length(span))
        .with("across", f.length(wide))
        .with("thickness", f.finest(part.thickness))
        .with("E", format!("{} N/mm²", modulus(kind)))
        .with("load with its own mass", f.mass(load + part.mass_g))
        .with("creep", format!("{} %", creep(kind)))
        .gives(num::fine(f.notation, result), num::fine(f.notation, limit));
    said.judge(row, result <= limit, Severity::Caution, || {
        let enough = (1..=120).map(|n| n * 500).find(|t| sags(*t) <= limit);
        let enough = enough.map_or("a support in its middle".to_owned(), |t| {
            format!(
                "{} of the same material, a stiffer material, or a support in its middle",
                num::fine(f.notation, i128::from(t))
            )
        });
        [
            format!(
                "The {} sags by {} under {loaded}{}, more than the {} that looks straight.",
                part.name,
                num::fine(f.notation, result),
                if creep(kind) > 100 { " over the months" } else { "" },
                num::fine(f.notation, limit)
            ),
            format!("Use {enough}, or put less on it."),
        ]
    });
    if part.role == Role::Shelf && !four {
        // N/mm² to psi: 145.038.
        let longest = span_at_a_144th(modulus(kind) * 145_038 / 1000, part.thickness, 40);
        let row = CheckRow::new("shelf-span", Theme::Panels, stage, format!("part {}", part.id))
            .says(
                format!("How long could the {} be at 40 psf?", part.name),
                "L³ = 384 E t³/12 / (5 w 144)",
                SPAN,
            )
            .with("span", f.length(span))
            .gives(f.length(longest), "");
        said.tell(row);
    }
}

/// What keeps the piece from leaning sideways.
fn racking(f: &Facts, said: &mut Said) {
    let sides: Vec<usize> = f.with_role(Role::Side).collect();
    let Some(around) = f.around(sides.iter().copied()) else { return };
    if sides.len() < 2 {
        return;
    }
    let joined = |i: usize| {
        let id = &f.part(i).id;
        let side = |s: &&usize| {
            let theirs = &f.part(**s).id;
            f.plan.joints.iter().any(|j| {
                j.kind != JointKind::Slide && j.parts.contains(id) && j.parts.contains(theirs)
            })
        };
        sides.iter().filter(side).count()
    };
    let upright = |i: &usize| {
        let (p, b) = (f.part(*i), &f.bounds[*i]);
        p.kind == Kind::Panel
            && b.extent(1) == p.thickness
            && joined(*i) > usize::from(p.role != Role::Back)
    };
    let mut heights: Vec<[i64; 2]> =
        f.standing().filter(upright).map(|i| [f.bounds[i].min[2], f.bounds[i].max[2]]).collect();
    heights.sort_unstable();
    let (mut held, mut up_to) = (0, i64::MIN);
    for [low, high] in heights {
        held += (high - low.max(up_to)).max(0);
        up_to = up_to.max(high);
    }
    let third = around.extent(2) / 3;
    let row = CheckRow::new("racking", Theme::Panels, JobStage::Size, "body main")
        .says(
            "What keeps it from leaning sideways?",
            "heights of back and upright boards that are fixed to both sides, laid over each other",
            RACK,
        )
        .with("height", f.length(around.extent(2)))
        .gives(f.length(held), format!("at least {}", f.length(third)));
    said.judge(row, held >= third, Severity::Caution, || {
        [
            "Hardly anything keeps the piece from leaning sideways: it has no back, and its upright boards are low.".to_owned(),
            format!("Give it a back fixed to both sides, or upright boards between them of {} together.", f.length(third)),
        ]
    });
}

/// How many screws hold each piece of the back.
fn backs(f: &Facts, said: &mut Said) {
    for i in f.with_role(Role::Back) {
        let part = f.part(i);
        let of: Vec<_> = f.plan.joints.iter().filter(|j| j.parts.contains(&part.id)).collect();
        if of.iter().any(|j| j.kind.is_channel()) {
            continue;
        }
        let screws: usize = of.iter().map(|j| j.fasteners.len()).sum();
        // Three of its four edges at least are held; the fourth may be a seam.
        let held = part.length + part.width + part.width.min(part.length);
        let wanted = usize::try_from(held / 254_000).unwrap_or(0);
        let row = CheckRow::new(
            "back-fixing",
            Theme::Panels,
            JobStage::Bench,
            format!("part {}", part.id),
        )
        .at(f.step_of(i))
        .says(
            format!("Is the {} held often enough to keep the piece square?", part.name),
            "screws ≥ three edges / 10 in",
            FIXED,
        )
        .with("three edges", f.length(held))
        .gives(screws.to_string(), format!("at least {wanted}"));
        said.judge(row, screws >= wanted, Severity::Caution, || {
            [
                format!(
                    "Only {screws} screws hold the {}: it may not keep the piece square.",
                    part.name
                ),
                format!("Give it {wanted} screws or more, 6 to 8 in apart."),
            ]
        });
    }
}

/// How deep the host is cut where the guest lies in it: its thickness less the wood left there.
fn cut_deep(f: &Facts, host: usize, guest: usize, axis: usize) -> i64 {
    let (h, g) = (&f.bounds[host], &f.bounds[guest]);
    if h.overlap(g, axis) <= 0 {
        return 0;
    }
    let middle = |a: usize| i64::midpoint(h.min[a].max(g.min[a]), h.max[a].min(g.max[a]));
    let beside = |b: &&crate::geometry::Box3| {
        (0..3).all(|a| a == axis || (b.min[a] <= middle(a) && middle(a) < b.max[a]))
    };
    let wood: i64 = f.solids[host].boxes().iter().filter(beside).map(|b| b.extent(axis)).sum();
    f.part(host).thickness - wood
}

/// What grooves and dadoes leave of the panel they are cut in.
fn grooves(f: &Facts, said: &mut Said) {
    let mut cut: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
    for joint in f.plan.joints.iter().filter(|j| j.kind.is_channel()) {
        let Some([a, b]) = f.ends(joint) else { continue };
        for (host, guest) in [(a, b), (b, a)] {
            let (part, bounds) = (f.part(host), &f.bounds[host]);
            let thin = (0..3).find(|&axis| bounds.extent(axis) == part.thickness);
            let deep = thin.map_or(0, |axis| cut_deep(f, host, guest, axis));
            if part.kind == Kind::Panel && deep > 0 && deep < part.thickness {
                let hosts = cut.entry((part.thickness, deep)).or_default();
                if !hosts.contains(&host) {
                    hosts.push(host);
                }
            }
        }
    }
    for ((thickness, deep), hosts) in cut {
        let Some(first) = hosts.first() else { continue };
        let names: Vec<&str> = hosts.iter().map(|&i| f.part(i).name.as_str()).collect();
        let (left, least) = (thickness - deep, thickness * 2 / 5);
        let row = CheckRow::new(
            "groove-left",
            Theme::Panels,
            JobStage::Size,
            format!("part {}", f.part(*first).id),
        )
        .says(
            format!("What do grooves leave of the panel? {}", names.join(", ")),
            "thickness − depth",
            GROOVE,
        )
        .with("thickness", f.finest(thickness))
        .with("cut", f.finest(deep))
        .gives(f.finest(left), format!("at least {}", f.finest(least)));
        said.judge(row, left >= least, Severity::Caution, || {
            [
                format!(
                    "The groove leaves only {} of {} in: {}.",
                    f.finest(left),
                    f.finest(thickness),
                    names.join(", ")
                ),
                format!(
                    "Make it {} deep at most, or take thicker stock.",
                    f.finest(thickness - least)
                ),
            ]
        });
    }
}
