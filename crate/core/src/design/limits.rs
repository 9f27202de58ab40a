//! Ranges inside which the arithmetic of the design is meaningful and cannot overflow.

use std::ops::RangeInclusive;

use super::Job;
use crate::findings::{Finding, Severity};
use crate::scenario::{FrontStyle, Interior};
use crate::units::Length;

/// Longest length taken, 20 m.
const LONGEST: i64 = 20_000_000;
/// Thickest sheet taken, 80 mm.
const THICKEST: i64 = 80_000;
/// Most things of one size.
const MOST: u32 = 1000;
/// Densest material taken, kilograms per cubic metre.
const DENSEST: i64 = 30_000;

/// Gaps around fronts, as the file takes them.
pub const REVEAL: RangeInclusive<i64> = 0..=20_000;

/// Says which values lie outside what a cabinet can be.
pub fn check(s: &Job) -> Vec<Finding> {
    let mut check = Check { s, findings: Vec::new() };
    for w in &s.space.widths {
        check.range("space.widths", w.width, 1000, LONGEST);
    }
    check.range("space.height", s.space.height, 1000, LONGEST);
    check.range("space.depth", s.space.depth, 1000, LONGEST);
    check.range("space.floor.out_of_level", s.space.floor.out_of_level, 0, LONGEST);
    for c in s.contents {
        check.range("contents.width", c.width, 1, LONGEST);
        check.range("contents.depth", c.depth, 1, LONGEST);
        check.range("contents.height", c.height, 1, LONGEST);
        check.range("contents.clearance", c.clearance, 0, LONGEST);
        if c.count == 0 || c.count > MOST {
            check.say("contents.count", &c.count.to_string(), "1", &MOST.to_string());
        }
    }
    let c = &s.build.carcass;
    for (field, value) in [("width", c.width), ("height", c.height), ("depth", c.depth)] {
        if let Some(value) = value {
            check.range(&format!("build.carcass.{field}"), value, 1000, LONGEST);
        }
    }
    for (field, value) in [
        ("side_gap", c.side_gap),
        ("top_gap", c.top_gap),
        ("dado_depth", c.dado_depth),
        ("toe_height", c.toe_height),
        ("toe_recess", c.toe_recess),
    ] {
        check.range(&format!("build.carcass.{field}"), value, 0, LONGEST);
    }
    check.range("build.carcass.stretcher_width", c.stretcher_width, 1000, LONGEST);
    check.range("build.carcass.nailer_height", c.nailer_height, 1000, LONGEST);
    check.range("build.carcass.top_overhang", c.top_overhang, 0, LONGEST);
    if let Some(p) = s.build.boxes() {
        let at = if s.build.drawers.is_some() { "build.drawers.box" } else { "build.pull_out" };
        if let Some(height) = p.side_height {
            check.range(&format!("{at}.side_height"), height, 1000, LONGEST);
        }
        let r = &p.runner;
        for (field, value) in [
            ("groove_depth", p.groove_depth),
            ("bottom_recess", p.bottom_recess),
            ("bottom_play", p.bottom_play),
            ("runner.inside_deduction", r.inside_deduction),
            ("runner.side_limit", r.side_limit),
            ("runner.thickness", r.thickness),
            ("runner.height", r.height),
            ("runner.under", r.under),
            ("runner.notch_width", r.notch_width),
            ("runner.notch_height", r.notch_height),
        ] {
            check.range(&format!("{at}.{field}"), value, 0, LONGEST);
        }
        if let Some(travel) = r.travel {
            check.range(&format!("{at}.runner.travel"), travel, 1000, LONGEST);
        }
        for &length in &r.lengths {
            check.range(&format!("{at}.runner.lengths"), length, 100_000, LONGEST);
        }
    }
    if let Interior::Shelves(shelves) = &s.build.interior {
        check.range("build.shelves.setback", shelves.setback, 0, LONGEST);
        for &h in &shelves.heights {
            check.range("build.shelves.heights", h, 0, LONGEST);
        }
        if let Some(r) = shelves.pins {
            check.range("build.shelves.pitch", r.pitch, 1000, LONGEST);
            check.range("build.shelves.row_inset", r.inset, 1000, LONGEST);
            check.range("build.shelves.hole", r.hole, 1000, THICKEST);
            check.range("build.shelves.play", r.play, 0, THICKEST);
        }
    }
    if let Some(d) = &s.build.drawers {
        for &h in &d.heights {
            check.range("build.drawers.heights", h, 1000, LONGEST);
        }
    }
    if let Some(d) = &s.build.doors {
        for (field, value) in [
            ("hinge_inset", d.hinge_inset),
            ("cup", d.cup),
            ("cup_depth", d.cup_depth),
            ("cup_edge", d.cup_edge),
            ("plate_row", d.plate_row),
        ] {
            check.range(&format!("build.doors.{field}"), value, 1000, 500_000);
        }
    }
    if let Some(front) = &s.build.front {
        check.range("build.front.reveal", front.reveal, *REVEAL.start(), *REVEAL.end());
        if let FrontStyle::DrawerOverDoors { drawer_height } = front.style {
            check.range("build.front.drawer_height", drawer_height, 1000, LONGEST);
        }
    }
    for m in &s.shop.materials {
        check.range(&format!("shop.materials {}", m.id), m.thickness, 1000, THICKEST);
        if m.density < 1 || m.density > DENSEST {
            check.say(
                &format!("shop.materials {}", m.id),
                &m.density.to_string(),
                "1 kg/m3",
                &format!("{DENSEST} kg/m3"),
            );
        }
    }
    for screw in &s.shop.screws {
        check.range("shop.screws", screw.length, 1000, 500_000);
        if screw.gauge > 40 {
            check.say("shop.screws", &format!("#{}", screw.gauge), "#0", "#40");
        }
    }
    if s.shop.workshop.drill_width < 0 || s.shop.workshop.drill_width > 1_000_000 {
        check.say("shop.drill.width", &s.shop.workshop.drill_width.to_string(), "0", "1 m");
    }
    check.findings
}

struct Check<'a> {
    s: &'a Job<'a>,
    findings: Vec<Finding>,
}

impl Check<'_> {
    fn range(&mut self, field: &str, value: Length, least: i64, most: i64) {
        if value.get() < least || value.get() > most {
            let print = |um| self.s.notation.print(Length(um));
            let (value, least, most) = (print(value.get()), print(least), print(most));
            self.say(field, &value, &least, &most);
        }
    }

    fn say(&mut self, field: &str, value: &str, least: &str, most: &str) {
        self.findings.push(
            Finding::new(
                Severity::Stop,
                "value-range",
                field,
                format!("{value} is not a size that can be built here."),
                format!("Give a value from {least} to {most}."),
            )
            .number("value", value)
            .number("least", least)
            .number("most", most),
        );
    }
}
