//! Dust, vapours, cold glue and finish: said once, where they matter.

use crate::findings::{JobStage, Severity};
use crate::scenario::MaterialKind;

use super::facts::Facts;
use super::num;
use super::row::{CheckRow, Said, Theme};

const DUST: &str = "wood dust: NIOSH REL 1 mg/m³, OSHA PEL 15 mg/m³ total and 5 respirable (osha.gov/SLTC/wooddust; read)";
const VAPOUR: &str = "TSCA Title VI, 40 CFR 770: hardwood plywood 0.05, particleboard 0.09, MDF 0.11, MDF of 8 mm or less 0.13 ppm (compositepanel.org; read)";
const COLD: &str = "white and yellow glue not below 50 °F (10 °C): woodrio.com \"How long does wood glue\" (read); the label comes first";
const FINISH: &str =
    "rags with drying oil, MDF edges: common practice, from memory, no source; the tin comes first";

pub fn check(f: &Facts, said: &mut Said) {
    let first = |kinds: &[MaterialKind]| {
        (0..f.plan.parts.len()).filter_map(|i| f.material(i)).find(|m| kinds.contains(&m.kind))
    };
    if let Some(m) = first(&[MaterialKind::Mdf, MaterialKind::Hardboard]) {
        let row =
            CheckRow::new("dust", Theme::Materials, JobStage::Cut, format!("material {}", m.id))
                .says(
                    format!("{}: the finest dust of all sheets", m.name),
                    "limit of the air one breathes",
                    DUST,
                )
                .gives("not measured", "1 mg/m³");
        let says = [
            format!("{} makes very fine dust when it is cut, routed or sanded.", m.name),
            "Wear a dust mask and use extraction, or saw outdoors; then accept this with what you do about it.".to_owned(),
        ];
        said.warn(row, Severity::Note, says);
    }
    let boards = [
        MaterialKind::Mdf,
        MaterialKind::Particleboard,
        MaterialKind::Plywood,
        MaterialKind::Hardboard,
    ];
    if let Some(m) = first(&boards) {
        let limit = match m.kind {
            MaterialKind::Plywood => "0.05 ppm",
            MaterialKind::Particleboard => "0.09 ppm",
            _ if m.thickness.get() <= 8_000 => "0.13 ppm",
            _ => "0.11 ppm",
        };
        let row = CheckRow::new(
            "formaldehyde",
            Theme::Materials,
            JobStage::Cut,
            format!("material {}", m.id),
        )
        .says(
            format!("{}: what its glue gives off", m.name),
            "limit for a new sheet, by its label",
            VAPOUR,
        )
        .gives("as labelled: look for “TSCA Title VI compliant”, or E1", limit);
        said.tell(row);
    }
    let drinks = first(&[MaterialKind::Mdf]).is_some();
    cold(f, drinks, said);
    finish(f, drinks, said);
}

/// Whether it is warm enough where it is glued, at the first step with glue.
fn cold(f: &Facts, drinks: bool, said: &mut Said) {
    let glued = |id: &String| f.plan.joints.iter().any(|j| j.glue && j.id == *id);
    let Some(step) = f.plan.steps.iter().find(|s| s.joints.iter().any(glued)) else { return };
    let least = f.scenario.shop.glue_least_c;
    let room = f.scenario.shop.room_c;
    let row = CheckRow::new("glue-cold", Theme::Materials, JobStage::Bench, "shop.room_c")
        .at(Some(step.n))
        .says("Is it warm enough for glue?", "the coldest of room, wood and glue", COLD)
        .gives(room.map_or("not known".to_owned(), warmth), format!("{} at least", warmth(least)));
    let edges = if drinks { " Edges of MDF drink it: spread twice." } else { "" };
    let hint = format!(
        "Warm room, wood and glue to {} or more and give what it is (`shop.room_c`); where the bottle allows less, give that (`shop.glue.least_c`).",
        warmth(least)
    );
    match room {
        None => {
            let asked =
                format!("Where it is glued, room, wood and glue want {}.{edges}", row.limit);
            said.warn(row, Severity::Note, [asked, hint]);
        }
        Some(room) => said.judge(row, room >= least, Severity::Caution, || {
            let cold = format!("At {} the glue does not hold as it should.{edges}", warmth(room));
            [cold, hint]
        }),
    }
}

/// What to mind when the piece is finished, after its last step on the bench.
fn finish(f: &Facts, drinks: bool, said: &mut Said) {
    let seal = if drinks { "seal edges of MDF first: they drink finish; " } else { "" };
    let row = CheckRow::new("finish", Theme::Materials, JobStage::Bench, "body main")
        .at(f.plan.steps.last().map(|s| s.n))
        .says("What is there to mind when it is finished?", "as the tin says", FINISH)
        .gives(
            format!("{seal}air the room; spread rags with oil out to dry, outdoors: in a heap they can catch fire by themselves"),
            "",
        );
    said.tell(row);
}

/// Whole degrees, both ways.
fn warmth(celsius: i64) -> String {
    let fahrenheit = num::div(i128::from(celsius) * 9, 5) + 32;
    format!("{celsius} °C ({fahrenheit} °F)")
}
