//! From "this part is fixed to that one" to a joint with its screws placed.

use super::screws::{self, Fit, Heads, Stack};
use super::{Fastener, Joint, JointKind, Kind, Part, gauge, probe};
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Direction, Point};
use crate::scenario::{Head, MaterialKind, Screw};
use crate::units::{Length, Notation};

/// A joint that the design asks for.
#[derive(Debug, Clone)]
pub struct Wanted {
    /// The part the screws go through, and the part they bite into.
    pub parts: [usize; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Whether glue goes on.
    pub glue: bool,
    /// The screws, if any.
    pub screws: Option<Screws>,
}

/// The screws that a joint asks for.
#[derive(Debug, Clone)]
pub struct Screws {
    /// The way they are driven.
    pub direction: Direction,
    /// Heads that suit.
    pub heads: Heads,
    /// Where; none: along the middle of the largest face at which the parts meet. The
    /// coordinate along `direction` is not looked at.
    pub at: Option<Vec<Point>>,
}

/// The shop, as far as joints need it.
#[derive(Debug, Clone, Copy)]
pub struct Means<'a> {
    /// Screws on hand.
    pub screws: &'a [Screw],
    /// How lengths are printed.
    pub notation: Notation,
}

/// Makes the joints asked for, then one for every other two parts that share a face.
///
/// `kinds` says what each part is made of; bought parts have none.
pub fn join(
    parts: &[Part],
    kinds: &[Option<MaterialKind>],
    wanted: &[Wanted],
    means: Means,
) -> (Vec<Joint>, Vec<Finding>) {
    let mut driven = Driven { means, joints: Vec::new(), findings: Vec::new(), near: Vec::new() };
    for w in wanted {
        let [Some(first), Some(second)] = w.parts.map(|i| parts.get(i)) else {
            continue;
        };
        let kind = w.parts.map(|i| kinds.get(i).copied().flatten());
        let id = format!("{}+{}", first.id, second.id);
        let fasteners = match &w.screws {
            Some(asked) => driven.drive(&id, [first, second], kind, asked),
            None => Vec::new(),
        };
        driven.joints.push(Joint { id, parts: w.parts, kind: w.kind, glue: w.glue, fasteners });
    }
    let Driven { mut joints, mut findings, near, .. } = driven;
    for i in 0..parts.len() {
        for j in i + 1..parts.len() {
            let known = joints.iter().any(|k| k.parts == [i, j] || k.parts == [j, i]);
            if known || parts[i].solid.contacts(&parts[j].solid).is_empty() {
                continue;
            }
            let slides = parts[i].group != parts[j].group
                && (parts[i].kind == Kind::Hardware || parts[j].kind == Kind::Hardware);
            joints.push(Joint {
                id: format!("{}+{}", parts[i].id, parts[j].id),
                parts: [i, j],
                kind: if slides { JointKind::Slide } else { JointKind::Touch },
                glue: false,
                fasteners: Vec::new(),
            });
        }
    }
    if !near.is_empty() {
        findings.push(near_the_end(&near, means.notation));
    }
    (joints, findings)
}

/// A part that takes screws nearer to its edge than it should: its name, how near, how near is right.
type Near = (String, i64, i64);

struct Driven<'a> {
    means: Means<'a>,
    joints: Vec<Joint>,
    findings: Vec<Finding>,
    near: Vec<Near>,
}

impl Driven<'_> {
    /// The screws of one joint.
    fn drive(
        &mut self,
        id: &str,
        parts: [&Part; 2],
        kinds: [Option<MaterialKind>; 2],
        asked: &Screws,
    ) -> Vec<Fastener> {
        let [first, second] = parts;
        let axis = asked.direction.axis();
        let faces = probe::faces_towards(&first.solid, &second.solid, asked.direction);
        // Points say which face is meant when the parts meet at several; else the largest. Without a
        // common face there is nothing to drive into; the check reports the gap.
        let point = asked.at.as_ref().and_then(|points| points.first());
        let (u, v) = probe::others(axis);
        let under = |f: &&Box3| {
            point.is_some_and(|p| [u, v].iter().all(|&a| f.min[a] <= p[a] && p[a] <= f.max[a]))
        };
        let Some(face) = faces.iter().find(under).or(faces.first()) else {
            return Vec::new();
        };
        // A panel out of whose face something stands is wider than its sheet, but not where it is met.
        let (from, sheet) = (probe_into(face), second.thickness.get());
        let on_edge = second.solid.bounds().extent(axis) != sheet
            && probe::depth_from(&second.solid, from, asked.direction) != sheet;
        let bites = kinds[1].unwrap_or(MaterialKind::Hardwood);
        let points = match &asked.at {
            Some(points) => {
                let along = probe::others(axis).0;
                let line = Some((along, face.min[along], face.max[along]));
                points.iter().map(|p| Spot { at: on_plane(*p, face, axis), along: line }).collect()
            }
            None => {
                let end = screws::end_distance(bites);
                let (line, along) = along_the_middle(face, axis, end);
                let nearest = line.first().map_or(0, |p| p[along] - face.min[along]);
                if on_edge && nearest < end {
                    self.near.push((second.name.clone(), nearest, end));
                }
                line.into_iter()
                    .map(|at| Spot { at, along: Some((along, face.min[along], face.max[along])) })
                    .collect()
            }
        };
        let points: Vec<Spot> = points;
        let Some(probe_at) = points.first().map(|s| s.at) else {
            return Vec::new();
        };
        let stack = Stack {
            through: probe::depth_from(&first.solid, probe_at, asked.direction.opposite()),
            into: probe::depth_from(&second.solid, probe_at, asked.direction),
            edge: on_edge.then(|| second.thickness.get()),
            heads: asked.heads,
        };
        let Some(screw) = self.pick(id, parts, &stack) else {
            return Vec::new();
        };
        let mut placed: Vec<Fastener> = Vec::new();
        for spot in &points {
            let fastener = |at: Point| {
                let through = probe::depth_from(&first.solid, at, asked.direction.opposite());
                let mut entry = at;
                entry[axis] -= asked.direction.sign() * through;
                Fastener {
                    id: format!("{id}-{}", placed.len() + 1),
                    kind: match screw.head {
                        Head::Flat => "screw".to_owned(),
                        Head::Pan => "pan-head screw".to_owned(),
                    },
                    gauge: screw.gauge,
                    length: screw.length,
                    pilot: gauge::pilot(screw.gauge, bites, self.means.notation),
                    entry,
                    direction: asked.direction,
                }
            };
            let free = |f: &Fastener| {
                let others = self.joints.iter().flat_map(|j| &j.fasteners).chain(&placed);
                others.into_iter().all(|o| !screws::crowd(f, o))
            };
            let best = spot.shifts().map(fastener).find(free);
            placed.push(best.unwrap_or_else(|| fastener(spot.at)));
        }
        placed
    }

    /// The screw for a joint, and a finding when none on hand is right.
    fn pick(&mut self, id: &str, parts: [&Part; 2], stack: &Stack) -> Option<Screw> {
        let best = screws::choose(self.means.screws, stack);
        if let Some((screw, Fit::Good | Fit::Fair)) = best {
            return Some(screw);
        }
        let notation = self.means.notation;
        let suit = screws::would_do(stack, notation);
        let names: Vec<String> = suit.iter().take(4).map(|s| screws::name(s, notation)).collect();
        let wish = if names.is_empty() {
            "use a thicker part there: no common screw holds without coming through".to_owned()
        } else {
            format!("add one of these to the screws on hand: {}", names.join(", "))
        };
        let now = match (best, suit.first()) {
            (Some((s, _)), _) => {
                format!("The plan uses {}, too little of which bites", screws::name(&s, notation))
            }
            (None, Some(s)) => {
                format!("The plan counts on {}, which is not on hand", screws::name(s, notation))
            }
            (None, None) => "The joint stays without screws".to_owned(),
        };
        self.findings.push(
            Finding::new(
                Severity::Fix,
                "no-screw",
                "shop.screws",
                format!(
                    "No screw on hand suits the joint of {} and {}. {now}.",
                    parts[0].name, parts[1].name
                ),
                format!("For {id}, {wish}."),
            )
            .number("goes through", notation.print(Length(stack.through)))
            .number(
                "may bite up to",
                notation.print(Length((stack.into - screws::SHORT_OF_FACE).max(0))),
            )
            .source(
                "common practice, no source: two thirds of a screw, or an inch, in the second part",
            ),
        );
        best.map(|(s, _)| s).or_else(|| suit.first().copied())
    }
}

/// A place for a screw, and the line along which it may give way to another.
struct Spot {
    at: Point,
    along: Option<(usize, i64, i64)>,
}

impl Spot {
    /// The place itself, then places ever farther off along the line but never off its ends.
    fn shifts(&self) -> impl Iterator<Item = Point> + '_ {
        const STEP: i64 = 6000;
        let steps = if self.along.is_some() { 6 } else { 0 };
        (0..=steps).flat_map(|n| [n * STEP, -n * STEP]).filter_map(|by| {
            let mut at = self.at;
            if let Some((axis, least, most)) = self.along {
                at[axis] += by;
                let margin = 2 * STEP;
                if by != 0 && (at[axis] < least + margin || at[axis] > most - margin) {
                    return None;
                }
            }
            Some(at)
        })
    }
}

/// The middle of a face.
fn probe_into(face: &Box3) -> Point {
    [0, 1, 2].map(|a| i64::midpoint(face.min[a], face.max[a]))
}

/// Points along the middle of a face's long way, and that way.
fn along_the_middle(face: &Box3, normal: usize, end: i64) -> (Vec<Point>, usize) {
    let (u, v) = probe::others(normal);
    let (long, short) = if face.extent(v) > face.extent(u) { (v, u) } else { (u, v) };
    let points = screws::stations(face.extent(long), end).into_iter().map(|s| {
        let mut at = face.min;
        at[long] += s;
        at[short] += face.extent(short) / 2;
        at
    });
    (points.collect(), long)
}

fn on_plane(mut at: Point, face: &Box3, axis: usize) -> Point {
    at[axis] = face.min[axis];
    at
}

fn near_the_end(near: &[Near], notation: Notation) -> Finding {
    let least = near.iter().map(|n| n.1).min().unwrap_or(0);
    let wanted = near.iter().map(|n| n.2).max().unwrap_or(0);
    let mut names: Vec<&str> = Vec::new();
    for (name, ..) in near {
        if !names.contains(&name.as_str()) {
            names.push(name);
        }
    }
    Finding::new(
        Severity::Caution,
        "edge-distance",
        "joints",
        format!(
            "The ends of narrow parts leave no room for the usual distance of screws from a corner: {}.",
            names.join(", ")
        ),
        "Drill the pilots to full depth, clamp the end so that it cannot swell or split, and stop the \
         driver before the head bites deep; or make these parts wider.",
    )
    .number("nearest to a corner", notation.print(Length(least)))
    .number("usual", notation.print(Length(wanted)))
    .source(
        "MDF 70 mm: European panel industry, mdf-info.eu \"Screwing\"; plywood 2 in: common practice, no source",
    )
}
