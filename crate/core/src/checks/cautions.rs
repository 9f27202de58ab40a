//! Dust, vapours and cold glue: said once, where they matter.

use crate::findings::{JobStage, Severity};
use crate::scenario::MaterialKind;

use super::facts::Facts;
use super::row::{CheckRow, Said, Theme};

const DUST: &str = "wood dust: NIOSH REL 1 mg/m³, OSHA PEL 15 mg/m³ total and 5 respirable (osha.gov/SLTC/wooddust; read)";
const VAPOUR: &str = "TSCA Title VI, 40 CFR 770: hardwood plywood 0.05, particleboard 0.09, MDF 0.11, MDF of 8 mm or less 0.13 ppm (compositepanel.org; read)";
const COLD: &str = "white and yellow glue not below 50 °F (10 °C): woodrio.com \"How long does wood glue\" (read); the label comes first";

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
    let glued =
        f.plan.steps.iter().find(|s| {
            s.joints.iter().any(|id| f.plan.joints.iter().any(|j| j.glue && j.id == *id))
        });
    if let Some(step) = glued {
        let edges = first(&[MaterialKind::Mdf]).is_some();
        let row = CheckRow::new("glue-cold", Theme::Materials, JobStage::Bench, "shop.glue")
            .at(Some(step.n))
            .says("Is it warm enough for glue?", "temperature of room, wood and glue", COLD)
            .gives(
                if edges { "not known; MDF edges drink glue: spread twice" } else { "not known" },
                "10 °C (50 °F) at least",
            );
        said.tell(row);
    }
}
