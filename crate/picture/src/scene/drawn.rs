//! What the picture shows of a plan, read and no more.
//!
//! Read by name out of the tree, because a derived reader for each of these types makes the picture's
//! module, which everybody waits for, a third larger.

use jointwise::assembly::{Fastener, Grain, JointKind};
use jointwise::json::{self, Misfit};
use jointwise::plan::{
    Check, CheckKind, ClampPlace, Cost, FORMAT, Hold, Offcut, Plan, PlanBody, PlanJoint, PlanPart,
    Proof, Spacer, Step, Workshop,
};
use jointwise::scenario::Role;
use jointwise::units::Length;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// A plan with nothing said where the picture shows nothing.
///
/// # Errors
/// When the text is not JSON, or something that is drawn is missing or of another kind; the message
/// names it.
pub(super) fn read(text: &str) -> Result<Plan, Misfit> {
    let tree: Value = json::read_text(text)?;
    let top = At(&tree);
    Ok(Plan {
        format: FORMAT.to_owned(),
        title: String::new(),
        unit: top.read("unit")?,
        workshop: workshop(At(top.need("workshop")?))?,
        bodies: top.list("bodies", body)?,
        parts: top.list("parts", part)?,
        joints: top.list("joints", joint)?,
        steps: top.list("steps", step)?,
        cost: Cost::default(),
        proof: Proof { optimal: false, states: 0, bound: Cost::default() },
        cutting: None,
        install: None,
        findings: Vec::new(),
    })
}

/// A place in the tree.
#[derive(Clone, Copy)]
struct At<'a>(&'a Value);

impl<'a> At<'a> {
    /// What is there under a name; `null` is nothing.
    fn get(self, name: &str) -> Option<&'a Value> {
        self.0.get(name).filter(|value| !value.is_null())
    }

    fn need(self, name: &str) -> Result<&'a Value, Misfit> {
        self.get(name).ok_or_else(|| misfit(name))
    }

    fn text(self, name: &str) -> Result<String, Misfit> {
        self.need(name)?.as_str().map(str::to_owned).ok_or_else(|| misfit(name))
    }

    fn whole(self, name: &str) -> Result<i64, Misfit> {
        self.need(name)?.as_i64().ok_or_else(|| misfit(name))
    }

    /// A value with a reader of its own: a box, a point, one of a few words.
    fn read<T: DeserializeOwned>(self, name: &str) -> Result<T, Misfit> {
        json::read(self.need(name)?).map_err(|_| misfit(name))
    }

    fn maybe<T>(
        self,
        name: &str,
        one: fn(At<'_>) -> Result<T, Misfit>,
    ) -> Result<Option<T>, Misfit> {
        self.get(name).map(|value| one(At(value))).transpose()
    }

    /// The entries of a list; none when it is not there.
    fn list<T>(self, name: &str, one: fn(At<'_>) -> Result<T, Misfit>) -> Result<Vec<T>, Misfit> {
        let Some(value) = self.get(name) else { return Ok(Vec::new()) };
        let entries = value.as_array().ok_or_else(|| misfit(name))?;
        entries.iter().map(|entry| one(At(entry))).collect()
    }

    fn texts(self, name: &str) -> Result<Vec<String>, Misfit> {
        self.need(name)?;
        self.list(name, |entry| entry.0.as_str().map(str::to_owned).ok_or_else(|| misfit("a name")))
    }
}

fn misfit(name: &str) -> Misfit {
    Misfit { said: format!("the plan lacks {name}, or has it in another form"), steps: Vec::new() }
}

fn workshop(at: At<'_>) -> Result<Workshop, Misfit> {
    Ok(Workshop {
        drill_length: 0,
        drill_width: 0,
        bit_width: 0,
        bit_length: 0,
        bench_length: at.whole("bench_length")?,
        bench_width: at.whole("bench_width")?,
        bench_height: 0,
        bearers: at.get("bearers").and_then(Value::as_i64).unwrap_or(0),
        reach_height: 0,
        clamps: Vec::new(),
        people: 0,
        square_check: String::new(),
        tools: Vec::new(),
        glue: Default::default(),
        offcuts: at.list("offcuts", offcut)?,
        person: None,
    })
}

fn offcut(at: At<'_>) -> Result<Offcut, Misfit> {
    Ok(Offcut { id: at.text("id")?, name: at.text("name")?, length: 0, width: 0, thickness: 0 })
}

fn body(at: At<'_>) -> Result<PlanBody, Misfit> {
    Ok(PlanBody { id: at.text("id")?, name: at.text("name")? })
}

fn part(at: At<'_>) -> Result<PlanPart, Misfit> {
    Ok(PlanPart {
        id: at.text("id")?,
        name: at.text("name")?,
        group: String::new(),
        material: at.text("material")?,
        material_name: at.text("material_name")?,
        kind: at.read("kind")?,
        role: Role::default(),
        length: 0,
        width: 0,
        thickness: 0,
        grain: Grain::None,
        mass_g: 0,
        boxes: at.read("boxes")?,
        making: None,
    })
}

fn joint(at: At<'_>) -> Result<PlanJoint, Misfit> {
    let fasteners = at.list("fasteners", fastener)?;
    Ok(PlanJoint {
        id: at.text("id")?,
        parts: at.read("parts")?,
        kind: JointKind::Butt,
        glue: false,
        fasteners,
    })
}

fn fastener(at: At<'_>) -> Result<Fastener, Misfit> {
    Ok(Fastener {
        id: at.text("id")?,
        kind: at.text("kind")?,
        gauge: u8::try_from(at.whole("gauge")?).map_err(|_| misfit("gauge"))?,
        length: Length::um(at.whole("length")?),
        pilot: Length::um(0),
        entry: at.read("entry")?,
        direction: at.read("direction")?,
    })
}

fn step(at: At<'_>) -> Result<Step, Misfit> {
    Ok(Step {
        n: u32::try_from(at.whole("n")?).map_err(|_| misfit("n"))?,
        stage: at.read("stage")?,
        action: at.read("action")?,
        text: String::new(),
        bench_face: at.read("bench_face")?,
        body: at.text("body")?,
        parts: at.texts("parts")?,
        joins: at.get("joins").and_then(Value::as_str).map(str::to_owned),
        direction: at.get("direction").map(|_| at.read("direction")).transpose()?,
        fasteners: at.texts("fasteners")?,
        joints: at.texts("joints")?,
        people: 1,
        minutes: 0,
        drivers: Vec::new(),
        clamps: at.list("clamps", clamp)?,
        hold: at.list("hold", hold)?,
        spacer: at.maybe("spacer", spacer)?,
        checks: at.list("checks", check)?,
        lines: Vec::new(),
        why: Vec::new(),
        instead: None,
    })
}

fn clamp(at: At<'_>) -> Result<ClampPlace, Misfit> {
    let parts = [String::new(), String::new()];
    Ok(ClampPlace { parts, opening: 0, jaws: at.read("jaws")?, bar: at.read("bar")? })
}

fn hold(at: At<'_>) -> Result<Hold, Misfit> {
    Ok(Hold {
        what: at.text("what")?,
        name: None,
        with: at.read("with")?,
        why: String::new(),
        clamp: at.maybe("clamp", clamp)?,
    })
}

fn spacer(at: At<'_>) -> Result<Spacer, Misfit> {
    Ok(Spacer {
        part: at.text("part")?,
        dimension: at.whole("dimension")?,
        sets: String::new(),
        at: at.read("at")?,
        out: at.read("out")?,
    })
}

fn check(at: At<'_>) -> Result<Check, Misfit> {
    Ok(Check {
        kind: CheckKind::Gap,
        expected: at.read("expected")?,
        tolerance: 0,
        between: at.read("between")?,
        text: String::new(),
    })
}
