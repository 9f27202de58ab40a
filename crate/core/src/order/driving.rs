//! The part of a step that drives and clamps: which screws, with which tool, under which clamps.

use crate::assembly::Fastener;
use crate::geometry::Direction;
use crate::plan::{DriverUse, Reason, Step};
use crate::units::Length;

use super::clamps;
use super::placing::Placing;
use super::scene::{Scene, members};
use super::steps::{Writer, reason};

impl Writer<'_> {
    /// Screws that another tool drives than the drill.
    pub(super) fn drivers(
        &self,
        scene: &Scene,
        links: u64,
        there: u64,
        face: Direction,
    ) -> Vec<DriverUse> {
        let plane = scene.plane(there, face);
        let mut uses: Vec<DriverUse> = Vec::new();
        for l in members(links) {
            let screws = &self.assembly.joints[scene.links[l].joint].fasteners;
            let tool = scene.tool(l, there, face, plane).unwrap_or(0);
            // The first tool is the drill, the others are listed.
            let Some(tool) = tool.checked_sub(1).filter(|_| !screws.is_empty()) else { continue };
            let tool = &self.workshop.tools[tool].name;
            let ids = screws.iter().map(|s| s.id.clone());
            match uses.iter_mut().find(|u| u.tool == *tool) {
                Some(known) => known.fasteners.extend(ids),
                None => uses.push(DriverUse { tool: tool.clone(), fasteners: ids.collect() }),
            }
        }
        uses
    }

    /// Names the tool where it is not the drill.
    pub(super) fn say_drivers(&self, step: &mut Step) {
        let all = step.fasteners.len();
        for driver in &step.drivers {
            let which = match driver.fasteners.len() {
                n if n == all => "Use".to_owned(),
                1 => "For one of them use".to_owned(),
                n => format!("For {n} of them use"),
            };
            step.text.push_str(&format!(" {which} the {}.", driver.tool));
        }
    }

    /// The clamps that press what only glue holds, each in a place clear of all that is in `by_then`,
    /// when they come off.
    pub(super) fn clamps(
        &self,
        step: &mut Step,
        scene: &Scene,
        placing: &Placing,
        by_then: u64,
        face: Direction,
    ) {
        let plane = scene.plane(by_then, face);
        for l in members(placing.wet) {
            let place = scene.links[l].clamping.place(by_then, face, plane, self.workshop);
            step.clamps.extend(place.and_then(|room| clamps::shown(scene, l, room)));
        }
        if !step.clamps.is_empty() {
            let glue = &self.workshop.glue;
            let text = format!(
                "Its glue may lie open {} minutes and wait {} more for pressure: the clamps go on at once.",
                glue.open, glue.closed
            );
            step.why.push(reason(
                "glue-time",
                &text,
                &[i64::from(glue.open), i64::from(glue.closed)],
            ));
        }
    }

    pub(super) fn screws(&self, scene: &Scene, links: u64) -> Vec<&Fastener> {
        members(links).flat_map(|l| &self.assembly.joints[scene.links[l].joint].fasteners).collect()
    }

    pub(super) fn joints(&self, scene: &Scene, links: u64) -> Vec<String> {
        members(links).map(|l| self.assembly.joints[scene.links[l].joint].id.clone()).collect()
    }

    pub(super) fn tool_reason(&self, screws: &[&Fastener]) -> Reason {
        let longest = screws.iter().map(|s| s.length.get()).max().unwrap_or(0);
        let room = longest + self.workshop.drill_length;
        let text = format!(
            "The drill needs {} behind each screw and has it.",
            self.notation.print(Length(room))
        );
        reason("tool-room", &text, &[room])
    }
}
