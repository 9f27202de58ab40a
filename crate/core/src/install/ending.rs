//! The last step in the room: what is measured and tried when all is in.

use crate::assembly::Role;
use crate::checks::num::mass;
use crate::geometry::Box3;
use crate::plan::{Action, Check, CheckKind, Step};
use crate::scenario::Subject;

use super::pieces::Held;
use super::write::Writer;

/// A gap of a front is right within so much: half a millimetre (common practice, no source).
const GAP_TOLERANCE: i64 = 500;

impl Writer<'_> {
    /// What is measured and tried when all is in.
    pub(super) fn end(&self, last: &Step) -> Step {
        let mut end = self.following(last, Action::Check);
        end.hold.clear();
        end.people = 1;
        end.text = "Go through the piece once more before it is loaded.".to_owned();
        let mut checks = vec![self.level_check()];
        checks.extend(self.gaps());
        let works = |text: String| Check {
            kind: CheckKind::Works,
            expected: Vec::new(),
            tolerance: 0,
            between: Vec::new(),
            text,
        };
        let moving = self.facts.pieces.iter().skip(1);
        for piece in moving.filter(|p| p.held == Held::Hangs || p.parts.len() > 1) {
            let what = if piece.held == Held::Hangs { "swings" } else { "runs" };
            checks.push(works(format!(
                "The {} {what} free over its whole way and touches nothing.",
                piece.name
            )));
        }
        if self.facts.held {
            checks.push(works("Pull the top to the front by hand: nothing moves.".to_owned()));
        }
        if let Subject::Cabinet(cabinet) = &self.facts.scenario.subject {
            let grams: i64 = cabinet.contents.iter().map(|c| c.mass_g * i64::from(c.count)).sum();
            if grams > 0 {
                let mass = mass(self.facts.scenario.notation, grams);
                checks.push(works(format!(
                    "Load it from below, in all {mass}, and open it slowly the first time."
                )));
            }
        }
        end.minutes = u32::try_from(checks.len()).unwrap_or(1);
        end.checks = checks;
        end
    }

    /// The gaps beside each front, in the middle of its height.
    fn gaps(&self) -> Vec<Check> {
        let of = self.facts.piece;
        let fronts: Vec<(usize, Box3)> = of
            .parts
            .iter()
            .enumerate()
            .filter(|(_, p)| matches!(p.role, Role::Front | Role::FalseFront | Role::Door))
            .map(|(i, p)| (i, p.solid.bounds()))
            .collect();
        let room = self.facts.room.solid.boxes();
        let mut found = Vec::new();
        for (i, front) in &fronts {
            let beside: Vec<Box3> = fronts
                .iter()
                .filter(|(j, _)| j != i)
                .map(|(_, b)| *b)
                .chain(room.iter().copied())
                .collect();
            let middle = [0, 1, 2].map(|a| i64::midpoint(front.min[a], front.max[a]));
            let to = |right: bool| {
                let gaps =
                    beside.iter().filter(|b| b.overlap(front, 1) > 0 && b.overlap(front, 2) > 0);
                let gaps = gaps.filter_map(|b| {
                    let inside = b.min[2] <= middle[2] && middle[2] <= b.max[2];
                    let gap = if right { b.min[0] - front.max[0] } else { front.min[0] - b.max[0] };
                    (inside && (1..=20_000).contains(&gap)).then_some(gap)
                });
                gaps.min()
            };
            let y = front.min[1];
            let mut lines = Vec::new();
            for right in [false, true] {
                if let Some(gap) = to(right) {
                    let x = if right { front.max[0] } else { front.min[0] };
                    let other = if right { x + gap } else { x - gap };
                    lines.push([[x, y, middle[2]], [other, y, middle[2]]]);
                }
            }
            if lines.is_empty() {
                continue;
            }
            let sizes: Vec<i64> = lines.iter().map(|[p, q]| (p[0] - q[0]).abs()).collect();
            let name = &of.parts[*i].name;
            let said = match sizes[..] {
                [a, b] if a == b => {
                    format!("Gaps beside the {name}: {} left and right.", self.print(a))
                }
                [a, b] => {
                    format!(
                        "Gaps beside the {name}: {} left, {} right.",
                        self.print(a),
                        self.print(b)
                    )
                }
                _ => {
                    let only = sizes.first().map_or_else(String::new, |g| self.print(*g));
                    format!("Gap beside the {name}: {only}.")
                }
            };
            // Common practice, no source.
            let how = if of.parts[*i].role == Role::Door {
                "Off on one side: turn the side screws of its hinges alike, by half of what the two \
                 gaps differ. Off at one end: those of one hinge."
            } else {
                "Off on one side: loosen its screws from inside and shift it by half of what the two \
                 gaps differ."
            };
            let text = format!("{said} {how}");
            found.push(Check {
                kind: CheckKind::Gap,
                expected: sizes,
                tolerance: GAP_TOLERANCE,
                between: lines,
                text,
            });
        }
        found
    }
}
