//! The values a file may leave out, for inch and for metric files.
//!
//! They are common practice without a source unless a line says otherwise. Runner numbers are
//! generic and from memory: the sheet that comes with the runners decides.

use super::{Head, Material, MaterialKind, RunnerKind, Screw};
use crate::units::Length;

/// The lengths a file may leave out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Defaults {
    pub clearance: Length,
    /// Units as sold: the step, the narrowest, the widest; then the custom place and the fillers.
    pub unit_step: Length,
    pub unit_range: [Length; 2],
    pub custom_range: [Length; 2],
    pub filler_range: [Length; 2],
    pub side_gap: Length,
    pub top_gap: Length,
    pub dado_depth: Length,
    pub toe_height: Length,
    pub toe_recess: Length,
    pub stretcher_width: Length,
    pub nailer_height: Length,
    pub groove_depth: Length,
    pub bottom_recess: Length,
    pub bottom_play: Length,
    pub drawer_height: Length,
    pub reveal: Length,
    pub shelf_play: Length,
    pub hinge_inset: Length,
    pub drill_length: Length,
    pub drill_width: Length,
    pub bit_length: Length,
    pub bit_width: Length,
    pub bench_length: Length,
    pub bench_width: Length,
    pub bench_height: Length,
    /// Height of the strips the work lies on.
    pub bearers: Length,
    pub reach_height: Length,
    pub kerf: Length,
    /// Taken off a rough edge.
    pub trim: Length,
    /// Widest rip.
    pub fence: Length,
    /// Largest panel pushed over the saw.
    pub panel: [Length; 2],
    /// A whole sheet.
    pub sheet: [Length; 2],
    imperial: bool,
}

/// Mass of one thing that goes in, full, in grams.
pub(super) const MASS_G: i64 = 10_000;

/// Heaviest sheet that one person lifts onto a saw, in kilograms (common practice, no source).
pub(super) const LIFT_KG: i64 = 25;

const INCH: Defaults = Defaults {
    clearance: Length::inch(1, 4),
    unit_step: Length::inch(3, 1),
    unit_range: [Length::inch(9, 1), Length::inch(36, 1)],
    custom_range: [Length::inch(12, 1), Length::inch(36, 1)],
    filler_range: [Length::inch(3, 4), Length::inch(3, 1)],
    side_gap: Length::inch(1, 16),
    top_gap: Length::inch(1, 8),
    dado_depth: Length::inch(1, 4),
    toe_height: Length::inch(4, 1),
    toe_recess: Length::inch(3, 1),
    stretcher_width: Length::inch(4, 1),
    nailer_height: Length::inch(4, 1),
    groove_depth: Length::inch(1, 4),
    bottom_recess: Length::inch(1, 2),
    bottom_play: Length::inch(1, 16),
    drawer_height: Length::inch(6, 1),
    reveal: Length::inch(1, 8),
    shelf_play: Length::inch(1, 32),
    hinge_inset: Length::inch(4, 1),
    drill_length: Length::inch(10, 1),
    drill_width: Length::inch(3, 1),
    bit_length: Length::inch(7, 2),
    bit_width: Length::inch(1, 2),
    bench_length: Length::inch(72, 1),
    bench_width: Length::inch(30, 1),
    bench_height: Length::inch(34, 1),
    bearers: Length::inch(13, 8),
    reach_height: Length::inch(62, 1),
    kerf: Length::inch(1, 8),
    trim: Length::inch(1, 4),
    fence: Length::inch(30, 1),
    panel: [Length::inch(72, 1), Length::inch(36, 1)],
    sheet: [Length::inch(96, 1), Length::inch(48, 1)],
    imperial: true,
};

const METRIC: Defaults = Defaults {
    clearance: Length::mm(6),
    unit_step: Length::mm(50),
    unit_range: [Length::mm(300), Length::mm(900)],
    custom_range: [Length::mm(300), Length::mm(900)],
    filler_range: [Length::mm(20), Length::mm(75)],
    side_gap: Length::um(1_500),
    top_gap: Length::mm(3),
    dado_depth: Length::mm(6),
    toe_height: Length::mm(100),
    toe_recess: Length::mm(75),
    stretcher_width: Length::mm(100),
    nailer_height: Length::mm(100),
    groove_depth: Length::mm(6),
    bottom_recess: Length::mm(13),
    bottom_play: Length::um(1_500),
    drawer_height: Length::mm(150),
    reveal: Length::mm(3),
    shelf_play: Length::mm(1),
    hinge_inset: Length::mm(100),
    drill_length: Length::mm(250),
    drill_width: Length::mm(75),
    bit_length: Length::mm(90),
    bit_width: Length::mm(12),
    bench_length: Length::mm(1830),
    bench_width: Length::mm(760),
    bench_height: Length::mm(865),
    bearers: Length::mm(40),
    reach_height: Length::mm(1575),
    kerf: Length::um(3_200),
    trim: Length::mm(6),
    fence: Length::mm(760),
    panel: [Length::mm(1830), Length::mm(920)],
    sheet: [Length::mm(2440), Length::mm(1220)],
    imperial: false,
};

impl Defaults {
    /// For a file in inches, or a metric one.
    pub(super) const fn of(imperial: bool) -> Defaults {
        if imperial { INCH } else { METRIC }
    }

    /// Lengths runners are sold in, shortest first (common practice, no source).
    pub(super) fn runner_lengths(&self, kind: RunnerKind) -> Vec<Length> {
        let every = |from: i64, to: i64, step: usize| (from..=to).step_by(step);
        match (self.imperial, kind) {
            (true, RunnerKind::Undermount) => every(9, 21, 3).map(|n| Length::inch(n, 1)).collect(),
            (true, RunnerKind::SideMount) => every(10, 28, 2).map(|n| Length::inch(n, 1)).collect(),
            (false, RunnerKind::Undermount) => every(250, 550, 50).map(Length::mm).collect(),
            (false, RunnerKind::SideMount) => every(250, 700, 50).map(Length::mm).collect(),
        }
    }

    /// A small rack of sheets. Inch plywood is thinner than its name.
    pub(super) fn materials(&self) -> Vec<Material> {
        use MaterialKind::{Mdf, Plywood};
        let sheet = |id: &str, name: &str, kind, thickness| Material {
            id: id.to_owned(),
            name: name.to_owned(),
            kind,
            thickness,
            density: density(kind),
            grain: grain(kind),
        };
        if self.imperial {
            vec![
                sheet("mdf-3/4", "3/4 in MDF", Mdf, Length::inch(3, 4)),
                sheet("ply-3/4", "3/4 in plywood", Plywood, Length::inch(23, 32)),
                sheet("ply-1/2", "1/2 in plywood", Plywood, Length::inch(15, 32)),
                sheet("ply-1/4", "1/4 in plywood", Plywood, Length::inch(7, 32)),
            ]
        } else {
            vec![
                sheet("mdf-18", "18 mm MDF", Mdf, Length::mm(18)),
                sheet("ply-18", "18 mm plywood", Plywood, Length::mm(18)),
                sheet("ply-12", "12 mm plywood", Plywood, Length::mm(12)),
                sheet("ply-6", "6 mm plywood", Plywood, Length::mm(6)),
            ]
        }
    }

    /// A small box of screws.
    pub(super) fn screws(&self) -> Vec<Screw> {
        let screw = |gauge, length, head| Screw { gauge, length, head };
        let length = |inch: (i64, i64), mm| {
            if self.imperial { Length::inch(inch.0, inch.1) } else { Length::mm(mm) }
        };
        vec![
            screw(8, length((2, 1), 50), Head::Flat),
            screw(8, length((5, 4), 30), Head::Flat),
            screw(6, length((5, 4), 30), Head::Flat),
            screw(6, length((1, 1), 25), Head::Flat),
            screw(6, length((1, 1), 25), Head::Pan),
            screw(6, length((3, 4), 20), Head::Pan),
            screw(6, length((1, 2), 12), Head::Pan),
            screw(4, length((3, 8), 10), Head::Pan),
        ]
    }
}

/// Undermount: the opening less this is the box's inside width (from memory: the metric rule).
pub(super) const INSIDE_DEDUCTION: Length = Length::mm(42);
/// Undermount: the thickest box side (from memory).
pub(super) const SIDE_LIMIT: Length = Length::mm(16);
/// How far a knob or bar stands out before a front. Common practice, no source.
pub(super) const HANDLE: Length = Length::mm(40);
/// Down to what a white or yellow glue holds, in degrees Celsius (50 °F): woodrio.com "How long does wood glue"
/// (read); the label comes first.
pub(super) const GLUE_LEAST_C: i64 = 10;
/// Side-mount: thickness on each side, half an inch (common practice, no source).
pub(super) const RUNNER_THICKNESS: Length = Length::um(12_700);
/// Side-mount: height (from memory).
pub(super) const RUNNER_HEIGHT: Length = Length::mm(45);
/// Undermount: notches at the lower corners of the box's back (from memory).
pub(super) const NOTCH_WIDTH: Length = Length::mm(35);
/// See [`NOTCH_WIDTH`].
pub(super) const NOTCH_HEIGHT: Length = Length::mm(13);

/// Pitch and inset of the rows of holes of the 32 mm grid, and the diameter of its holes
/// (32mm.dalrun.com/System_Design/Introduction.html; defined by no standard).
pub(super) const PITCH: Length = Length::mm(32);
/// See [`PITCH`].
pub(super) const ROW_INSET: Length = Length::mm(37);
/// See [`PITCH`].
pub(super) const PIN_HOLE: Length = Length::mm(5);
/// A concealed hinge's cup: diameter of its boring (common practice, no source).
pub(super) const CUP: Length = Length::mm(35);
/// Depth of the cup's boring (common practice, no source).
pub(super) const CUP_DEPTH: Length = Length::mm(12);
/// From the door's edge to the cup's boring (common practice, no source).
pub(super) const CUP_EDGE: Length = Length::mm(4);

/// Free height under the box (from memory).
pub(super) const fn runner_under(kind: RunnerKind) -> Length {
    match kind {
        RunnerKind::Undermount => Length::mm(3),
        RunnerKind::SideMount => Length::mm(10),
    }
}

/// Density in kg/m³, rounded from the usual ranges (MDF 680–830, published; the others from memory).
pub(super) const fn density(kind: MaterialKind) -> i64 {
    match kind {
        MaterialKind::Mdf => 750,
        MaterialKind::Plywood => 600,
        MaterialKind::Particleboard => 680,
        MaterialKind::Softwood => 500,
        MaterialKind::Hardwood => 700,
        MaterialKind::Hardboard => 900,
    }
}

/// Whether the face of such a sheet shows a grain.
pub(super) const fn grain(kind: MaterialKind) -> bool {
    matches!(kind, MaterialKind::Plywood | MaterialKind::Softwood | MaterialKind::Hardwood)
}
