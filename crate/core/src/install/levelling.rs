//! Steps that level: shims where the corners come, and the carcass made level and plumb before it is screwed.

use crate::assembly::Role;
use crate::geometry::{Box3, Point};
use crate::order::steps::reason;
use crate::order::words;
use crate::plan::{Action, Check, CheckKind, Step};
use crate::units::Length;

use super::CARCASS;
use super::level::{self, CORNERS};
use super::write::Writer;

/// A floor in wind by more than this at a corner is said so: half a millimetre (common practice, no source).
const WIND: i64 = 500;

impl Writer<'_> {
    /// Where the corners come, what is laid there.
    pub(super) fn shims(&self, step: &Step) -> Step {
        let mut step = self.kept(step);
        let shims = self.facts.heights.map_or([0; 4], |h| h.shims());
        let each: Vec<String> = (0..4)
            .filter(|&i| shims[i] > 0)
            .map(|i| format!("{} at the {}", self.print(shims[i]), CORNERS[i]))
            .collect();
        step.text = format!("Lay shims where the corners come: {}.", words::list(&each));
        if let Some(plane) = self.facts.heights.map(|h| h.plane()) {
            let way = |by: i64, up: &str, down: &str| match by {
                0 => None,
                by if by > 0 => Some(format!("rises {} {up}", self.print(by))),
                by => Some(format!("falls {} {down}", self.print(-by))),
            };
            let mut says: Vec<String> = [
                way(plane.across, "to the right", "to the right"),
                way(plane.back, "to the back", "to the back"),
            ]
            .into_iter()
            .flatten()
            .collect();
            if plane.twist > WIND {
                says.push(format!("is in wind by {} at each corner", self.print(plane.twist)));
            }
            step.why.push(reason(
                "floor-plane",
                &format!(
                    "The floor {}.",
                    if says.is_empty() { "is level".to_owned() } else { words::list(&says) }
                ),
                &[plane.across, plane.back, plane.twist],
            ));
        }
        step.minutes += shims.iter().filter(|s| **s > 0).count() as u32;
        step
    }

    /// Level from side to side and from front to back, plumb at the side.
    pub(super) fn levelled(&self, step: &Step) -> Step {
        let mut check = self.following(step, Action::Check);
        check.minutes = 2 + u32::try_from(check.hold.len()).unwrap_or(0);
        check.checks = vec![self.level_check()];
        let unknown = self.facts.heights.is_none() && self.facts.room.floor == 0;
        let shims = if unknown {
            " The floor's fall is known, its way is not: shim from its highest point."
        } else {
            ""
        };
        check.text =
            format!("Level the carcass: side to side, front to back, and its sides plumb.{shims}");
        check.why = vec![reason(
            "level-first",
            "Once it is screwed to wall and neighbours it cannot be levelled any more.",
            &[],
        )];
        check
    }

    /// What the level is laid on.
    pub(super) fn level_check(&self) -> Check {
        let lines = self.level_lines();
        let longest =
            lines.iter().map(|[p, q]| (0..3).map(|a| (q[a] - p[a]).abs()).max().unwrap_or(0));
        let longest = longest.max().unwrap_or(0);
        let level = self.facts.scenario.install.level.get();
        let wide = self.boxes(CARCASS).extent(0);
        let gap = if self.facts.scenario.notation.unit().is_imperial() { 1_588 } else { 1_000 };
        let shim = level::shim_for(gap, level, wide);
        let how = if self.facts.room.floor < 0 {
            "raise the low end".to_owned()
        } else {
            format!(
                "lift its low end until the bubble stands: {} under a {} level is {} under the low side",
                self.facts.scenario.notation.finest().print(Length(gap)),
                self.print(level),
                self.facts.scenario.notation.finest().print(Length(shim)),
            )
        };
        Check {
            kind: CheckKind::Level,
            expected: vec![0; lines.len()],
            tolerance: level::tolerance(longest),
            between: lines,
            text: format!("Level and plumb. Where it is not, {how}."),
        }
    }

    /// Across the front, along a side, and up a side.
    fn level_lines(&self) -> Vec<[Point; 2]> {
        let of = self.facts.piece;
        let Some(carcass) = self.facts.pieces.first() else { return Vec::new() };
        let bounds = |p: usize| of.parts[p].solid.bounds();
        let mut sides: Vec<Box3> = carcass.with_role(of, Role::Side).map(bounds).collect();
        sides.sort_by_key(|b| b.min[0]);
        let (Some(left), Some(right)) = (sides.first(), sides.last()) else { return Vec::new() };
        let mut lines = Vec::new();
        let (l, r) =
            ([left.min[0], left.min[1], left.max[2]], [right.max[0], right.min[1], right.max[2]]);
        if l[2] == r[2] && l[0] < r[0] {
            lines.push([l, r]);
        }
        lines.push([l, [left.min[0], left.max[1], left.max[2]]]);
        lines.push([[left.min[0], left.min[1], left.min[2]], l]);
        let solid = of.parts.iter().map(|p| &p.solid);
        let there = |p: &Point| solid.clone().any(|s| s.holds(*p));
        lines.retain(|line| line.iter().all(there));
        lines
    }
}
