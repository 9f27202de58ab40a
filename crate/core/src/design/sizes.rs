//! The rows of the size table, each with its sum.

use super::Frame;
use super::bay::Bay;
use super::doors::{self, Leaf};
use super::fit::{self, Need};
use super::front::Outline;
use super::levels::Level;
use super::pullout::BoxFrame;
use super::runner::BEHIND_BOX;
use crate::assembly::{Assembly, Kind, Part};
use crate::outcome::SizeRow;
use crate::scenario::{BackSet, Doors, Front, PullOut, RunnerKind, Shop, Top};
use crate::units::{Length, Notation};

/// The rows so far.
pub struct Rows {
    notation: Notation,
    rows: Vec<SizeRow>,
}

impl Rows {
    pub fn new(notation: Notation) -> Self {
        Rows { notation, rows: Vec::new() }
    }

    pub fn done(self) -> Vec<SizeRow> {
        self.rows
    }

    /// As it stands in a sum: finer than the sizes themselves, so that the sum adds up.
    fn p(&self, um: i64) -> String {
        self.notation.finest().print(Length(um))
    }

    fn row(&mut self, id: &str, label: &str, value: i64, why: String) {
        let text = self.notation.print(Length(value));
        self.said(id, label, value, text, why);
    }

    /// A row whose text is more than one length.
    fn said(&mut self, id: &str, label: &str, value: i64, text: String, why: String) {
        self.rows.push(SizeRow { id: id.to_owned(), label: label.to_owned(), value, text, why });
    }

    /// `a − b = c`, with `n ×` before `b` when it is taken more than once.
    fn less(&self, a: (i64, &str), n: i64, b: (i64, &str), c: i64) -> String {
        let times = if n == 1 { String::new() } else { format!("{n} × ") };
        format!("{} {} − {times}{} {} = {}", self.p(a.0), a.1, self.p(b.0), b.1, self.p(c))
    }

    pub fn carcass(&mut self, f: &Frame, why: [String; 3]) {
        let [width, height, depth] = why;
        self.row("carcass-width", "Carcass, outside width", f.w, width);
        self.row("carcass-height", "Carcass, outside height", f.h, height);
        self.row("carcass-depth", "Carcass, depth with the back", f.d, depth);
        let inside = f.w - 2 * f.t;
        let why = self.less((f.w, "outside"), 2, (f.t, "side"), inside);
        self.row("carcass-inside-width", "Carcass, inside width", inside, why);
        let behind = if f.back == BackSet::Groove { "back and nailer" } else { "back" };
        let why = self.less((f.d, "depth"), 1, (f.d - f.inner, behind), f.inner);
        let label = match f.back {
            BackSet::Applied => "Carcass, inside depth (width of the sides)",
            BackSet::Rabbet | BackSet::Groove => "Carcass, inside depth",
        };
        self.row("carcass-inside-depth", label, f.inner, why);
        let inside = f.ceiling() - f.floor();
        let above = if f.top == Top::Panel { "top" } else { "stretcher" };
        let seat = match f.top {
            Top::Over => format!(" − {} top", self.p(f.h - f.crown)),
            Top::Stretcher | Top::Panel => String::new(),
        };
        let why = format!(
            "{} height − {} toe kick − {} bottom{seat} − {} {above} = {}",
            self.p(f.h),
            self.p(f.toe),
            self.p(f.t),
            self.p(f.t),
            self.p(inside)
        );
        let label = format!("Carcass, inside height under the {above}");
        self.row("carcass-inside-height", &label, inside, why);
    }

    pub fn shelves(&mut self, width: i64, depth: i64, places: &[(String, [i64; 2])]) {
        for (i, (id, [low, high])) in places.iter().enumerate() {
            let why = format!(
                "{} underside + {} thick = {}",
                self.p(*low),
                self.p(high - low),
                self.p(*high)
            );
            self.row(
                &format!("{id}-height"),
                &format!("Shelf {}, upper face above the floor", i + 1),
                *high,
                why,
            );
        }
        self.row(
            "shelf-room-width",
            "Room between the sides",
            width,
            format!("inside width {}", self.p(width)),
        );
        self.row(
            "shelf-room-depth",
            "Room on a shelf, front to back",
            depth,
            format!("inside depth less setback = {}", self.p(depth)),
        );
    }

    pub fn pull_out(&mut self, p: &PullOut, f: &Frame, b: &BoxFrame) {
        let opening = b.bay[1] - b.bay[0];
        let (outside, inside) = (b.x[1] - b.x[0], b.inside_width());
        let side = (b.side, "side");
        match p.runner.kind {
            RunnerKind::Undermount => {
                let deduction = (p.runner.inside_deduction.get(), "for the runners");
                let why = self.less((opening, "inside the carcass"), 1, deduction, inside);
                self.row("box-inside-width", "Box, inside width", inside, why);
                let why = format!(
                    "{} inside + 2 × {} side = {}",
                    self.p(inside),
                    self.p(b.side),
                    self.p(outside)
                );
                self.row("box-width", "Box, outside width", outside, why);
            }
            RunnerKind::SideMount => {
                let runner = (p.runner.thickness.get(), "runner");
                let why = self.less((opening, "inside the carcass"), 2, runner, outside);
                self.row("box-width", "Box, outside width", outside, why);
                let why = self.less((outside, "outside"), 2, side, inside);
                self.row("box-inside-width", "Box, inside width", inside, why);
            }
        }
        let why = format!(
            "longest that fits: {} + {} behind it ≤ {} inside depth",
            self.p(b.length),
            self.p(BEHIND_BOX),
            self.p(f.inner - f.plane)
        );
        self.row("runner-length", "Runners, length", b.length, why.clone());
        self.row("box-depth", "Box, outside depth", b.length, why);
        let why = self.less((b.length, "outside"), 2, side, b.inside_depth());
        self.row("box-inside-depth", "Box, inside depth", b.inside_depth(), why);
        let height = b.z[1] - b.z[0];
        let why = match p.side_height {
            Some(_) => format!("{} as given", self.p(height)),
            None => format!("a third of what goes in, within the carcass = {}", self.p(height)),
        };
        self.row("box-height", "Box, height of the sides", height, why);
        let tall = b.ceiling - b.floor();
        let why = self.less(
            (b.ceiling, "underside of the stretcher"),
            1,
            (b.floor(), "box bottom"),
            tall,
        );
        self.row("box-room-height", "Room above the box bottom, under the stretcher", tall, why);
    }

    pub fn fronts(&mut self, front: &Front, f: &Frame, outline: &[Outline]) {
        let reveal = front.reveal.get();
        for Outline { id, x, z } in outline {
            let mut name = id.replace('-', " ");
            name.get_mut(..1).map(str::make_ascii_uppercase);
            let (width, height) = (x[1] - x[0], z[1] - z[0]);
            let why = if front.inset {
                format!("the room between the panels less {} on each side", self.p(reveal))
            } else if width > f.w / 2 {
                self.less((f.w, "carcass"), 1, (f.w - width, "reveal"), width)
            } else {
                format!("half of {} carcass less the reveals = {}", self.p(f.w), self.p(width))
            };
            self.row(&format!("{id}-width"), &format!("{name}, width"), width, why);
            let why = format!(
                "from {} to {} above the floor, reveal {}",
                self.p(z[0]),
                self.p(z[1]),
                self.p(reveal)
            );
            self.row(&format!("{id}-height"), &format!("{name}, height"), height, why);
        }
    }

    /// The boxes of drawers: what they share, and how high each is.
    pub fn drawers(&mut self, p: &PullOut, f: &Frame, places: &[(BoxFrame, [i64; 2])]) {
        let Some((one, _)) = places.first() else { return };
        let before = self.rows.len();
        self.pull_out(p, f, one);
        // Heights differ from box to box.
        let alike = |r: &SizeRow| !["box-height", "box-room-height"].contains(&r.id.as_str());
        let shared: Vec<SizeRow> = self.rows.drain(before..).filter(alike).collect();
        self.rows.extend(shared);
        for (b, z) in places {
            let height = b.z[1] - b.z[0];
            let why = format!("behind a front of {}: {}", self.p(z[1] - z[0]), self.p(height));
            let label = format!("{}, height of the sides", b.id.replace("drawer-", "Drawer "));
            self.row(&format!("{}-height", b.id), &label, height, why);
        }
    }

    /// Where hinges are bored, from the door's lower edge, and what the door covers.
    pub fn hinges(&mut self, d: &Doors, bay: &Bay, leaves: &[Leaf]) {
        let Some(leaf) = leaves.first() else { return };
        let covers = doors::overlay(bay, leaf);
        if covers >= 0 {
            let why =
                format!("from the door's edge to the panel's inner face = {}", self.p(covers));
            self.row("door-overlay", "Doors, overlay at the hinges", covers, why);
        }
        let cup = d.cup_edge.get() + d.cup.get() / 2;
        let why = format!(
            "{} from the edge + half of {} = {}",
            self.p(d.cup_edge.get()),
            self.p(d.cup.get()),
            self.p(cup)
        );
        self.row("hinge-cup", "Doors, edge to the middle of the cups", cup, why);
        for (n, h) in leaf.hinges.iter().enumerate() {
            let up = h - leaf.outline.z[0];
            let why = format!("{} above the floor", self.p(*h));
            let label = format!("Hinge {}, above the door's lower edge", n + 1);
            self.row(&format!("hinge-{}-height", n + 1), &label, up, why);
        }
    }

    /// The clear room of a place, and what stands there.
    pub fn level(&mut self, level: &Level, things: &str, need: [i64; 3]) {
        let three = |all: [i64; 3], print: &dyn Fn(i64) -> String| all.map(print).join(" × ");
        let n = self.rows.iter().filter(|r| r.id.starts_with("contents-on-")).count() + 1;
        let label = format!("{}, clear width × depth × height for {things}", level.name);
        let text = three(level.room, &|um| self.notation.print(Length(um)));
        let left = [0, 1, 2].map(|way| level.room[way] - need[way]);
        let why = format!(
            "with the air around them they take {}; {} are left",
            three(need, &|um| self.p(um)),
            three(left, &|um| self.p(um))
        );
        self.said(&format!("contents-on-{n}"), &label, level.room[0], text, why);
    }

    pub fn contents(&mut self, need: Need, room: i64, lost: i64) {
        let left = room - need.width;
        let why = self.less((room, "room"), 1, (need.width, "needed with clearances"), left);
        self.row("contents-left-over", "Width left over beside the contents", left, why);
        let least = fit::round_up(need.width + lost, self.notation);
        let why = format!(
            "{} needed + {} for sides and runners, rounded up = {}",
            self.p(need.width),
            self.p(lost),
            self.p(least)
        );
        self.row("least-width", "Least carcass that takes the contents", least, why);
        let standard = fit::standard_width(least, self.notation);
        let why = format!("the next standard width from {}", self.p(least));
        self.row("standard-width", "Least standard width that takes the contents", standard, why);
    }

    /// Outside sizes, mass and parts of a listed piece.
    pub fn listed(&mut self, a: &Assembly, shop: &Shop) {
        let Some(all) = a.parts.iter().map(|p| p.solid.bounds()).reduce(|x, y| x.union(&y)) else {
            return;
        };
        let ways = [("width", "left to right"), ("depth", "front to back"), ("height", "up")];
        for (axis, (id, way)) in ways.into_iter().enumerate() {
            let at = |side: i64| {
                let ends = |p: &&Part| {
                    [p.solid.bounds().min[axis], p.solid.bounds().max[axis]].contains(&side)
                };
                a.parts.iter().find(ends).map_or("", |p| p.name.as_str())
            };
            let (from, to) = (all.min[axis], all.max[axis]);
            let why = format!(
                "{way}, from {} ({}) to {} ({}) = {}",
                self.p(from),
                at(from),
                self.p(to),
                at(to),
                self.p(to - from)
            );
            self.row(&format!("piece-{id}"), &format!("Outside {id}"), to - from, why);
        }
        let of = |kind: Kind| a.parts.iter().filter(move |p| p.kind == kind);
        let grams = |kind: Kind| -> i64 { of(kind).map(|p| p.mass_g).sum() };
        let (cut, bought) = (grams(Kind::Panel), grams(Kind::Hardware));
        let bought_too = match of(Kind::Hardware).count() {
            0 => String::new(),
            n => format!(" + {} for {n} bought", kilograms(bought)),
        };
        let why = format!(
            "{} for {} cut parts{bought_too} = {}",
            kilograms(cut),
            of(Kind::Panel).count(),
            kilograms(cut + bought)
        );
        self.said("piece-mass", "Mass", cut + bought, kilograms(cut + bought), why);
        for p in &a.parts {
            let [length, width] = [p.length, p.width].map(|l| self.bare(l));
            let text = format!("{length} × {width} × {}", self.notation.print(p.thickness));
            let made = match (p.kind, shop.material(&p.material)) {
                (Kind::Panel, Some(m)) => format!("cut from {}", m.name),
                _ => format!("bought: {}", p.material),
            };
            let b = p.solid.bounds();
            let why = format!(
                "{made}; {} left to right, {} front to back, {} up; {}",
                self.p(b.extent(0)),
                self.p(b.extent(1)),
                self.p(b.extent(2)),
                kilograms(p.mass_g)
            );
            self.said(&format!("part-{}", p.id), &p.name, p.length.get(), text, why);
        }
    }

    /// A length without its unit, for a row of lengths that names it once.
    fn bare(&self, length: Length) -> String {
        let text = self.notation.print(length);
        text.rsplit_once(' ').map_or(text.clone(), |(number, _)| number.to_owned())
    }
}

/// Grams as kilograms, to ten grams.
fn kilograms(grams: i64) -> String {
    let tens = grams.saturating_add(5) / 10;
    format!("{}.{:02} kg", tens / 100, tens % 100)
}
