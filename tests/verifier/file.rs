//! The plan file as the verifier reads it: only the fields that are judged.

use serde::Deserialize;

use super::shop::{ClampPlace, Workshop};
use super::space::{Block, Way};

/// Name of the rule.
pub const RULE: &str = "format";

/// The only version judged.
const FORMAT: &str = "jointwise-plan/1";

/// Nothing on a bench is longer than a kilometre: beyond it sums could overflow.
const FAR: i64 = 1_000_000_000;

/// A plan. Lengths in micrometres, masses in grams, standing pose.
#[derive(Debug, Deserialize)]
pub struct PlanFile {
    /// Version of the file.
    pub format: String,
    /// Tools and room.
    pub workshop: Workshop,
    /// Parts in their finished places.
    pub parts: Vec<Part>,
    /// Where they meet.
    pub joints: Vec<Joint>,
    /// What is done, in order.
    pub steps: Vec<Step>,
    /// What the plan says it costs.
    pub cost: Cost,
    /// What the plan warns of.
    pub findings: Vec<Finding>,
    /// Of how the parts are cut, what is kept for the bench.
    #[serde(default)]
    pub cutting: Option<Cutting>,
}

/// Of how the parts are cut, what is kept for the bench.
#[derive(Debug, Deserialize)]
pub struct Cutting {
    /// Strips that set distances.
    #[serde(default)]
    pub spacers: Vec<Strip>,
}

/// A strip sawn to set a distance.
#[derive(Debug, Deserialize)]
pub struct Strip {
    /// Its id.
    pub id: String,
    /// Its sides, the distance first.
    pub size: [i64; 3],
    /// The steps that use it.
    pub steps: Vec<u32>,
}

/// A part.
#[derive(Debug, Deserialize)]
pub struct Part {
    /// Its id.
    pub id: String,
    /// The body it belongs to.
    pub group: String,
    /// `panel` or `hardware`.
    pub kind: String,
    /// Longest way.
    pub length: i64,
    /// Across.
    pub width: i64,
    /// Of the sheet.
    pub thickness: i64,
    /// In grams.
    pub mass_g: i64,
    /// Its solid.
    pub boxes: Vec<Block>,
}

/// A joint.
#[derive(Debug, Deserialize)]
pub struct Joint {
    /// Its id.
    pub id: String,
    /// Ids of its parts.
    pub parts: [String; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Whether it is glued.
    pub glue: bool,
    /// Its screws.
    pub fasteners: Vec<Fastener>,
}

/// How two parts meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum JointKind {
    /// End against face.
    Butt,
    /// Let into a channel across.
    Dado,
    /// Edge captured in a channel.
    Groove,
    /// Laid on.
    Overlay,
    /// Stays loose, slides.
    Slide,
    /// Turns, and is held once hung.
    Hinge,
    /// Only touches.
    Touch,
}

/// A screw.
#[derive(Debug, Deserialize)]
pub struct Fastener {
    /// Its id.
    pub id: String,
    /// Which screw: with the gauge it says which bit drives it.
    pub kind: String,
    /// Gauge number.
    pub gauge: i64,
    /// Head to tip.
    pub length: i64,
    /// Diameter of the pilot.
    pub pilot: i64,
    /// Where the tip goes in.
    pub entry: [i64; 3],
    /// The way it is driven.
    pub direction: Way,
}

/// What a step is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Action {
    /// First part of a body.
    LayOut,
    /// A part joins.
    Place,
    /// Screws only.
    Drive,
    /// Onto another face.
    Turn,
    /// A measurement.
    Check,
    /// Without glue.
    DryFit,
    /// Clamp on.
    Clamp,
    /// Clamp off.
    Unclamp,
    /// Glue cures.
    Wait,
    /// Leaves the bench.
    SetAside,
    /// Comes back.
    BringIn,
    /// Goes in and stays movable.
    Hang,
}

/// A step.
#[derive(Debug, Deserialize)]
pub struct Step {
    /// Its number.
    pub n: u32,
    /// What it is.
    pub action: Action,
    /// Its sentence.
    pub text: String,
    /// The face that lies on the bench.
    pub bench_face: Way,
    /// The piece on the bench.
    pub body: String,
    /// Parts that join.
    pub parts: Vec<String>,
    /// Body that joins whole.
    #[serde(default)]
    pub joins: Option<String>,
    /// The way they move.
    #[serde(default)]
    pub direction: Option<Way>,
    /// Screws driven.
    pub fasteners: Vec<String>,
    /// Joints closed.
    pub joints: Vec<String>,
    /// People it takes.
    pub people: u32,
    /// How long it takes.
    pub minutes: u32,
    /// Screws that another tool drives than the drill.
    #[serde(default)]
    pub drivers: Vec<DriverUse>,
    /// Clamps that stay on until the glue has cured.
    #[serde(default)]
    pub clamps: Vec<ClampPlace>,
    /// What must not move.
    pub hold: Vec<Hold>,
    /// What sets a distance.
    #[serde(default)]
    pub spacer: Option<Spacer>,
    /// What is measured.
    pub checks: Vec<Check>,
}

/// What holds a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum HoldWith {
    /// It lies there.
    Bench,
    /// A clamp.
    Clamp,
    /// Something under it.
    Spacer,
    /// One hand.
    Hand,
    /// A second person.
    Helper,
}

/// Something held.
#[derive(Debug, Deserialize)]
pub struct Hold {
    /// Part or body.
    pub what: String,
    /// What holds it.
    pub with: HoldWith,
    /// Where the clamp goes.
    #[serde(default)]
    pub clamp: Option<ClampPlace>,
}

/// Screws that another tool drives.
#[derive(Debug, Deserialize)]
pub struct DriverUse {
    /// Name of the tool.
    pub tool: String,
    /// Ids of the screws.
    pub fasteners: Vec<String>,
}

/// A loose part that sets a distance.
#[derive(Debug, Deserialize)]
pub struct Spacer {
    /// Its id.
    pub part: String,
    /// The dimension used.
    pub dimension: i64,
    /// Where it lies.
    pub at: Block,
    /// The way it leaves.
    pub out: Way,
}

/// A measurement.
#[derive(Debug, Deserialize)]
pub struct Check {
    /// `diagonals`, `equal-widths`, `flush`, `dry-fit` or `gap`.
    pub kind: String,
    /// Wanted values.
    pub expected: Vec<i64>,
    /// May differ by.
    pub tolerance: i64,
    /// Points to measure between.
    pub between: Vec<[[i64; 3]; 2]>,
}

/// What the plan says it costs.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub struct Cost {
    /// Steps for two.
    pub helper_steps: u64,
    /// Turns, and parts held in the air.
    pub handlings: u64,
    /// Things held.
    pub holds: u64,
    /// Distances that nothing sets.
    pub measured: u64,
    /// Changes of bit, clamps put on, joints driven by another tool.
    pub tool_changes: u64,
    /// Working time.
    pub minutes: u64,
    /// Departures from the cut list.
    pub scatter: u64,
    /// Turns.
    pub turns: u64,
    /// Parts held in the air.
    pub lifted: u64,
}

/// A remark.
#[derive(Debug, Deserialize)]
pub struct Finding {
    /// Its rule.
    pub code: String,
    /// How much it matters.
    pub severity: String,
    /// Its sentence.
    pub message: String,
}

impl PlanFile {
    /// Reads and bounds a plan.
    ///
    /// # Errors
    /// A sentence saying why it cannot be judged.
    pub fn read(text: &str) -> Result<Self, String> {
        let plan: PlanFile = serde_json::from_str(text).map_err(|e| format!("not a plan: {e}"))?;
        if plan.format != FORMAT {
            return Err(format!("format {:?} is not {FORMAT:?}", plan.format));
        }
        match plan.numbers().into_iter().find(|n| n.unsigned_abs() > FAR.unsigned_abs()) {
            Some(far) => Err(format!("{far} lies beyond {FAR} micrometres")),
            None => Ok(plan),
        }
    }

    /// Place of a part by its id.
    pub fn part(&self, id: &str) -> Option<usize> {
        self.parts.iter().position(|p| p.id == id)
    }

    /// Place of a joint by its id.
    pub fn joint(&self, id: &str) -> Option<usize> {
        self.joints.iter().position(|j| j.id == id)
    }

    /// Joint and screw by the screw's id.
    pub fn fastener(&self, id: &str) -> Option<(usize, &Fastener)> {
        self.joints
            .iter()
            .enumerate()
            .find_map(|(j, joint)| joint.fasteners.iter().find(|f| f.id == id).map(|f| (j, f)))
    }

    /// The two parts of a joint, when both exist and differ.
    pub fn ends(&self, joint: usize) -> Option<[usize; 2]> {
        let [a, b] = &self.joints.get(joint)?.parts;
        let ends = [self.part(a)?, self.part(b)?];
        (ends[0] != ends[1]).then_some(ends)
    }

    /// Every number that geometry adds or multiplies.
    fn numbers(&self) -> Vec<i64> {
        let mut all = self.workshop.numbers();
        for p in &self.parts {
            all.extend([p.length, p.width, p.thickness, p.mass_g]);
            all.extend(p.boxes.iter().flatten());
        }
        for f in self.joints.iter().flat_map(|j| &j.fasteners) {
            all.extend([f.gauge, f.length, f.pilot]);
            all.extend(f.entry);
        }
        let strips = self.cutting.iter().flat_map(|c| &c.spacers);
        all.extend(strips.flat_map(|s| s.size));
        for s in &self.steps {
            if let Some(spacer) = &s.spacer {
                all.push(spacer.dimension);
                all.extend(spacer.at);
            }
            let held = s.hold.iter().filter_map(|h| h.clamp.as_ref());
            for clamp in s.clamps.iter().chain(held) {
                all.extend(clamp.numbers());
            }
            for c in &s.checks {
                all.push(c.tolerance);
                all.extend(&c.expected);
                all.extend(c.between.iter().flatten().flatten());
            }
        }
        all
    }
}
