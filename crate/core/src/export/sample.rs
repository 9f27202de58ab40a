//! A small plan made by hand, for the writers' tests: a carcass with a turn, screws, a spacer
//! and checks, and a tray that joins it whole.

use crate::assembly::{Fastener, Grain, JointKind, Kind, MAIN};
use crate::findings::{Finding, Severity};
use crate::geometry::{Box3, Direction, Solid};
use crate::plan::{
    Action, Check, CheckKind, ClampPlace, Cost, FORMAT, Hold, HoldWith, Plan, PlanJoint, PlanPart,
    Proof, Reason, Spacer, Stage, Step, Workshop,
};
use crate::units::{Length, Notation};

const MM: i64 = 1000;

fn box_mm(v: [i64; 6]) -> Box3 {
    Box3::from(v.map(|c| c * MM))
}

fn part(id: &str, group: &str, solid: Solid) -> PlanPart {
    let outer = solid.bounds();
    let mut sizes = [outer.extent(0), outer.extent(1), outer.extent(2)];
    sizes.sort_unstable();
    PlanPart {
        id: id.to_owned(),
        name: id.replace('-', " "),
        group: group.to_owned(),
        material: "ply".to_owned(),
        material_name: "18 mm plywood".to_owned(),
        kind: Kind::Panel,
        role: Default::default(),
        length: sizes[2],
        width: sizes[1],
        thickness: sizes[0],
        grain: Grain::Length,
        mass_g: 4200,
        boxes: solid.boxes().to_vec(),
        making: None,
    }
}

fn side(id: &str, x: i64) -> PlanPart {
    let mut solid = Solid::new(box_mm([x, 0, 0, x + 18, 560, 720]));
    solid.cut(&box_mm([x, 0, 0, x + 18, 75, 100]));
    part(id, MAIN, solid)
}

fn panel(id: &str, group: &str, v: [i64; 6]) -> PlanPart {
    part(id, group, Solid::new(box_mm(v)))
}

/// A joint with a screw at each point, all driven the same way.
fn joint(a: &str, b: &str, kind: JointKind, way: Direction, at: &[[i64; 3]]) -> PlanJoint {
    let id = format!("{a}+{b}");
    let pan = kind == JointKind::Overlay;
    let fasteners = at.iter().enumerate().map(|(i, p)| Fastener {
        id: format!("{id}/{}", i + 1),
        kind: if pan { "pan-head screw" } else { "screw" }.to_owned(),
        gauge: if pan { 6 } else { 8 },
        length: Length::mm(if pan { 20 } else { 50 }),
        pilot: Length::um(if pan { 2_000 } else { 2_778 }),
        entry: p.map(|c| c * MM),
        direction: way,
    });
    PlanJoint {
        fasteners: fasteners.collect(),
        parts: [a.to_owned(), b.to_owned()],
        kind,
        glue: kind == JointKind::Butt,
        id,
    }
}

/// A step that only says something; the others start from it.
fn step(action: Action, bench_face: Direction, body: &str, text: &str) -> Step {
    Step {
        n: 0,
        stage: Stage::Bench,
        action,
        text: text.to_owned(),
        bench_face,
        body: body.to_owned(),
        parts: Vec::new(),
        joins: None,
        direction: None,
        fasteners: Vec::new(),
        joints: Vec::new(),
        people: 1,
        minutes: 3,
        drivers: Vec::new(),
        clamps: Vec::new(),
        hold: Vec::new(),
        spacer: None,
        checks: Vec::new(),
        lines: Vec::new(),
        why: Vec::new(),
        instead: None,
    }
}

fn place(face: Direction, body: &str, id: &str, way: Direction, joints: &[&PlanJoint]) -> Step {
    let name = id.replace('-', " ");
    let screws: Vec<String> =
        joints.iter().flat_map(|j| &j.fasteners).map(|f| f.id.clone()).collect();
    let text = format!("Set the {name} in place and drive {} screws.", screws.len());
    let mut step = step(Action::Place, face, body, &text);
    step.parts = vec![id.to_owned()];
    step.direction = Some(way);
    step.fasteners = screws;
    step.joints = joints.iter().map(|j| j.id.clone()).collect();
    step
}

/// The plan.
pub fn plan() -> Plan {
    use Direction::{Back, Down, Front, Left, Right, Up};
    let parts = vec![
        side("left-side", 0),
        side("right-side", 482),
        panel("bottom", MAIN, [18, 0, 100, 482, 560, 118]),
        panel("toe-board", MAIN, [18, 75, 0, 482, 93, 100]),
        panel("nailer", MAIN, [18, 542, 620, 482, 560, 720]),
        panel("back", MAIN, [0, 560, 0, 500, 566, 720]),
        panel("tray-bottom", "tray", [40, 20, 140, 460, 520, 152]),
        panel("tray-side", "tray", [28, 20, 140, 40, 520, 300]),
    ];
    let butt = JointKind::Butt;
    let along = [[0, 100, 109], [0, 280, 109], [0, 460, 109]];
    let across = along.map(|p| [500, p[1], p[2]]);
    let skin = [[9, 566, 40], [9, 566, 360], [9, 566, 680], [491, 566, 40], [491, 566, 680]];
    let joints = vec![
        joint("left-side", "bottom", butt, Right, &along),
        joint("right-side", "bottom", butt, Left, &across),
        joint("left-side", "toe-board", butt, Right, &[[0, 84, 30], [0, 84, 70]]),
        joint("right-side", "toe-board", butt, Left, &[[500, 84, 30], [500, 84, 70]]),
        joint("left-side", "nailer", butt, Right, &[[0, 551, 640], [0, 551, 700]]),
        joint("right-side", "nailer", butt, Left, &[[500, 551, 640], [500, 551, 700]]),
        joint("left-side", "back", JointKind::Overlay, Front, &skin),
        joint("tray-side", "tray-bottom", butt, Right, &[[28, 80, 146], [28, 460, 146]]),
        joint("tray-bottom", "bottom", JointKind::Slide, Down, &[]),
    ];

    let mut first = step(Action::LayOut, Back, MAIN, "Lay the left side on its back edge.");
    first.parts = vec!["left-side".to_owned()];

    let mut bottom = place(Back, MAIN, "bottom", Left, &[&joints[0]]);
    bottom.hold = vec![Hold {
        what: "left-side".to_owned(),
        name: None,
        with: HoldWith::Clamp,
        why: "it stands on an edge of 18 mm".to_owned(),
        clamp: None,
    }];
    bottom.spacer = Some(Spacer {
        part: "toe-board".to_owned(),
        dimension: 100 * MM,
        sets: "the height of the bottom above the floor".to_owned(),
        at: box_mm([18, 300, 0, 482, 318, 100]),
        out: Down,
    });
    bottom.why = vec![Reason {
        rule: "clear-path".to_owned(),
        text: "Nothing stands in its way from the right.".to_owned(),
        numbers: vec![464 * MM],
    }];

    let mut right = place(Back, MAIN, "right-side", Left, &[&joints[1]]);
    right.people = 2;
    right.checks = vec![Check {
        kind: CheckKind::EqualWidths,
        expected: vec![464 * MM, 464 * MM],
        tolerance: 500,
        between: [[118, 0], [720, 0]]
            .map(|[z, y]| [[18, y, z], [482, y, z]].map(|p| p.map(|c| c * MM)))
            .to_vec(),
        text: "Measure the width inside at the bottom and at the top.".to_owned(),
    }];

    let toe = place(Back, MAIN, "toe-board", Up, &[&joints[2], &joints[3]]);
    let nailer = place(Back, MAIN, "nailer", Down, &[&joints[4], &joints[5]]);
    let over = step(Action::Turn, Front, MAIN, "Turn the carcass onto its front edges.");
    let mut back = place(Front, MAIN, "back", Front, &[&joints[6]]);
    back.checks = vec![Check {
        kind: CheckKind::Diagonals,
        expected: vec![876_584; 2],
        tolerance: 1_000,
        between: vec![
            [[0, 566 * MM, 0], [500 * MM, 566 * MM, 720 * MM]],
            [[500 * MM, 566 * MM, 0], [0, 566 * MM, 720 * MM]],
        ],
        text: "Measure both diagonals before the second screw.".to_owned(),
    }];
    let up = step(Action::Turn, Down, MAIN, "Stand the carcass up.");
    let aside = step(Action::SetAside, Down, MAIN, "Set the carcass aside.");
    let mut tray = step(Action::LayOut, Down, "tray", "Lay the tray bottom flat.");
    tray.parts = vec!["tray-bottom".to_owned()];
    let wall = place(Down, "tray", "tray-side", Right, &[&joints[7]]);
    let mut hang = step(Action::Hang, Down, MAIN, "Slide the tray into the carcass.");
    hang.joins = Some("tray".to_owned());
    hang.direction = Some(Back);
    hang.joints = vec![joints[8].id.clone()];

    let mut steps =
        vec![first, bottom, right, toe, nailer, over, back, up, aside, tray, wall, hang];
    for (n, step) in (1..).zip(&mut steps) {
        step.n = n;
    }
    let cost = Cost { helper_steps: 1, turns: 2, minutes: 36, ..Cost::default() };
    Plan {
        format: FORMAT.to_owned(),
        bodies: Vec::new(),
        title: "Small base with a tray".to_owned(),
        unit: Notation::MmHalf,
        workshop: Workshop {
            drill_length: 250 * MM,
            drill_width: 70 * MM,
            bit_width: 12 * MM,
            bit_length: 90 * MM,
            bench_length: 1800 * MM,
            bench_width: 750 * MM,
            bench_height: 860 * MM,
            bearers: 40_000,
            reach_height: 1600 * MM,
            clamps: vec![600 * MM],
            people: 2,
            square_check: "tape".to_owned(),
            tools: Vec::new(),
            glue: crate::plan::Glue::default(),
            offcuts: Vec::new(),
            person: None,
        },
        parts,
        joints,
        steps,
        cost,
        proof: Proof { optimal: true, states: 120, bound: cost },
        cutting: None,
        install: None,
        findings: vec![Finding::new(
            Severity::Caution,
            "heavy",
            "step 6",
            "The carcass weighs 21 kg when it is turned.",
            "Turn it with a second person.",
        )],
    }
}

/// A clamp across the sides, its bar in front of the lower ends of the sides.
pub fn clamp() -> ClampPlace {
    ClampPlace {
        parts: ["left-side", "right-side"].map(str::to_owned),
        opening: 500 * MM,
        jaws: [box_mm([-20, 265, 95, 0, 295, 125]), box_mm([500, 265, 95, 620, 295, 125])],
        bar: box_mm([-20, 265, 162, 620, 295, 177]),
    }
}

/// The plan with a clamp that holds in step 2, one that stays on from step 3 to step 5, a wait, an
/// unclamp, another driver, a screw line and what was not done instead.
pub fn clamped() -> Plan {
    use crate::plan::{Driver, DriverUse, Instead, ScrewLine};
    let mut plan = plan();
    let face = plan.steps[2].bench_face;
    plan.steps[1].hold[0].clamp = Some(clamp());
    plan.steps[2].clamps = vec![clamp()];
    let mut wait = step(Action::Wait, face, MAIN, "Leave the clamps on for 30 minutes.");
    wait.minutes = 30;
    wait.why = vec![Reason {
        rule: "meanwhile".to_owned(),
        text: "Meanwhile there is time for the tray.".to_owned(),
        numbers: Vec::new(),
    }];
    let off = step(Action::Unclamp, face, MAIN, "Take the clamp off.");
    plan.steps.splice(3..3, [wait, off]);
    plan.workshop.tools = vec![Driver {
        name: "offset driver".to_owned(),
        length: 90 * MM,
        width: 40 * MM,
        bit_width: 12 * MM,
        bit_length: 20 * MM,
    }];
    plan.steps[5].drivers = vec![DriverUse {
        tool: "offset driver".to_owned(),
        fasteners: plan.joints[2].fasteners.iter().map(|f| f.id.clone()).collect(),
    }];
    plan.steps[1].lines.push(ScrewLine {
        part: "left-side".to_owned(),
        behind: "bottom".to_owned(),
        side: Direction::Down,
        edge: "lower edge".to_owned(),
        distance: 109 * MM,
        text: "Screw line on the left side, for the bottom behind it: 109 mm from its lower edge."
            .to_owned(),
        tip: String::new(),
    });
    plan.steps[1].instead = Some(Instead {
        text: "The toe board instead: 3 minutes more.".to_owned(),
        cost: Some(plan.cost),
    });
    for (n, step) in (1..).zip(&mut plan.steps) {
        step.n = n;
    }
    plan
}
