//! Steps for what is cut out of parts that have their size.

use std::collections::BTreeMap;

use super::saw::list;
use super::shapes::{Frame, Shape, ShapeKind, shapes};
use crate::assembly::Kind;
use crate::geometry::Direction;
use crate::plan::{Plan, SawStep, SawTool, SawWork, mark};
use crate::units::{Length, Notation};

/// What is made with one setting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Setting {
    kind: ShapeKind,
    depth: i64,
    width: i64,
    /// From the nearer edge that it runs along.
    edge: i64,
    /// Where it is stopped: its length; 0 where it runs through.
    run: i64,
}

/// One shape in one part.
struct Place {
    id: String,
    text: String,
}

/// The steps, without their numbers. Parts that are cut already have their shapes still to be made.
pub(super) fn steps(plan: &Plan) -> Vec<SawStep> {
    let mut groups: BTreeMap<Setting, Vec<Place>> = BTreeMap::new();
    for (index, part) in plan.parts.iter().enumerate().filter(|(_, p)| p.kind == Kind::Panel) {
        let frame = Frame::of(part);
        for shape in shapes(part) {
            let (setting, told) = told(&frame, &shape, plan.unit);
            let text = format!("{} ({}), {told}", part.name, mark(index));
            groups.entry(setting).or_default().push(Place { id: part.id.clone(), text });
        }
    }
    groups.into_iter().map(|(setting, places)| step(plan.unit, setting, places)).collect()
}

/// A shape as a setting, and where it lies in its part.
fn told(frame: &Frame, s: &Shape, unit: Notation) -> (Setting, String) {
    let [length, width] = frame.size();
    // The channel runs along `run` and is as wide as `side` says.
    let lengthwise = match s.kind {
        ShapeKind::Dado => false,
        ShapeKind::Rabbet => s.along[1] - s.along[0] >= s.across[1] - s.across[0],
        _ => true,
    };
    let ((run, full, run_axis), (side, across, side_axis)) = if lengthwise {
        ((s.along, length, frame.along), (s.across, width, frame.across))
    } else {
        ((s.across, width, frame.across), (s.along, length, frame.along))
    };
    let near = side[0] <= across - side[1];
    let edge = if near { side[0] } else { across - side[1] };
    let stopped = run[1] - run[0] < full;
    let through = matches!(s.kind, ShapeKind::Notch | ShapeKind::CutOut);
    let setting = Setting {
        kind: s.kind,
        depth: s.depth,
        width: side[1] - side[0],
        edge,
        run: if stopped || through { run[1] - run[0] } else { 0 },
    };
    let print = |um: i64| unit.print(Length::um(um));
    let side_name = edge_name(Direction::from_axis(side_axis, !near));
    if through {
        let near = run[0] <= full - run[1];
        let end = edge_name(Direction::from_axis(run_axis, !near));
        let long = print(run[1] - run[0]);
        let text = match (edge, if near { run[0] } else { full - run[1] }) {
            (0, 0) => {
                format!("where its {side_name} and its {end} meet, {long} along the {side_name}")
            }
            (0, off) => {
                format!("in its {side_name}, {long} along it, {} from its {end}", print(off))
            }
            (off, 0) => format!("in its {end}, {} from its {side_name}", print(off)),
            (off, along) => {
                format!("{} from its {side_name}, {} from its {end}", print(off), print(along))
            }
        };
        return (setting, text);
    }
    let mut text = format!("in its {}, from its {side_name}", face_name(s.face));
    if stopped {
        let near = run[0] <= full - run[1];
        let end = edge_name(Direction::from_axis(run_axis, !near));
        let from = if near { run[0] } else { full - run[1] };
        if from == 0 {
            text.push_str(&format!(", beginning at its {end}"));
        } else {
            text.push_str(&format!(", {} from its {end}", print(from)));
        }
    }
    (setting, text)
}

fn step(unit: Notation, s: Setting, places: Vec<Place>) -> SawStep {
    // Widths and depths fit measured sheets.
    let print = |um: i64| unit.finest().print(Length::um(um));
    let through = matches!(s.kind, ShapeKind::Notch | ShapeKind::CutOut);
    let at = if s.edge == 0 || through {
        String::new()
    } else {
        format!(", {} from the edge", print(s.edge))
    };
    let run = if s.run == 0 { String::new() } else { format!(", {} long", print(s.run)) };
    let (tool, what) = match s.kind {
        ShapeKind::Groove => (SawTool::DadoOrRouter, "Groove"),
        ShapeKind::Dado => (SawTool::DadoOrRouter, "Dado"),
        ShapeKind::Rabbet => (SawTool::DadoOrRouter, "Rabbet"),
        ShapeKind::Recess => (SawTool::DadoOrRouter, "Recess"),
        ShapeKind::Notch => (SawTool::Jigsaw, "Notch"),
        ShapeKind::CutOut => (SawTool::Jigsaw, "Cut-out"),
    };
    let size = if through {
        format!("{} × {}", print(s.run), print(s.width))
    } else {
        format!("{} wide, {} deep{run}", print(s.width), print(s.depth))
    };
    let texts: Vec<String> = places.iter().map(|p| p.text.clone()).collect();
    let mut parts: Vec<String> = places.into_iter().map(|p| p.id).collect();
    parts.dedup();
    let caution = if through {
        "Clamp the part down; saw outside the line and pare to it."
    } else {
        "Cut the same in a scrap first and try the mating part in it. Use push blocks: the part hides the cutter."
    };
    SawStep {
        n: 0,
        work: SawWork::Shape,
        tool,
        text: format!("{what} {size}{at}: {}.", list(&texts, "; ")),
        setting: s.edge,
        along: None,
        cuts: Vec::new(),
        parts,
        cautions: vec![caution.to_owned()],
    }
}

fn edge_name(d: Direction) -> String {
    format!("{} edge", d.side())
}

fn face_name(d: Direction) -> &'static str {
    match d {
        Direction::Left => "left face",
        Direction::Right => "right face",
        Direction::Front => "front face",
        Direction::Back => "back face",
        Direction::Down => "underside",
        Direction::Up => "upper face",
    }
}
