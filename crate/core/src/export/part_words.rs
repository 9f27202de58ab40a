//! What is written beside a part's drawing: size, sheet, edges, twin, and each cut and hole from its edges.

use crate::assembly::{Fastener, Grain};
use crate::geometry::Direction;
use crate::plan::{Plan, Work, WorkKind};

use super::part_view::PartView;
use super::words::{self, ScrewGroup};

/// The sentences of a part, its label and size as cut first; nothing for a bought part, or when the plan has none
/// of that id or does not say how it is made.
///
/// They say in words what [`super::part_svg`] shows. Lengths in the plan's notation, thickness and pilots in its
/// finest.
pub fn part_words(plan: &Plan, id: &str) -> Option<Vec<String>> {
    Some(of_view(plan, &PartView::of(plan, id)?))
}

pub(super) fn of_view(plan: &Plan, view: &PartView<'_>) -> Vec<String> {
    let print = |um: i64| words::length(plan.unit, um);
    let (part, m) = (view.part, view.making);
    let [long, across] = m.cut.map(print);
    let thick = words::length(plan.unit.finest(), part.thickness);
    let grain = match part.grain {
        Grain::Length => ", grain along its length",
        Grain::Width => ", grain across its length",
        Grain::None => "",
    };
    let mut lines = vec![
        format!("{}: {long} × {across} × {thick}", m.label),
        format!("Cut from {}{grain}", part.material_name),
        format!(
            "Seen on the {} face; figures run from the corner with the dot, where the {} and the {} edge meet",
            words::face(view.face),
            view.edge(0, false).side(),
            view.edge(1, false).side()
        ),
    ];
    if !m.banded.is_empty() {
        let edges: Vec<&str> = m.banded.iter().map(|d| d.side()).collect();
        lines.push(format!("Band {} thick on these edges: {}", print(m.banding), edges.join(", ")));
    }
    let twin = |p: &&crate::plan::PlanPart| {
        p.making.as_ref().is_some_and(|m| m.mirrors.as_deref() == Some(part.id.as_str()))
    };
    let twins = m.mirrors.iter().map(|id| plan.name_of(id));
    for name in twins.chain(plan.parts.iter().filter(twin).map(|p| p.name.as_str())) {
        lines.push(format!("Mirror image of the {name}: not the same part twice"));
    }
    lines.extend(m.work.iter().map(|w| work(plan, w)));
    lines.extend(pilots(plan, view));
    lines
}

/// Screws that go in through a face, those alike together.
fn pilots(plan: &Plan, view: &PartView<'_>) -> Vec<String> {
    let mut groups: Vec<(Direction, ScrewGroup<'_>)> = Vec::new();
    let key = |f: &Fastener| (PartView::entered(f), f.kind.clone(), f.gauge, f.length, f.pilot);
    for screw in &view.pilots {
        match groups.iter_mut().find(|(_, g)| key(g.screw) == key(screw)) {
            Some((_, group)) => group.count += 1,
            None => groups.push((PartView::entered(screw), ScrewGroup { screw, count: 1 })),
        }
    }
    let said = groups.iter().map(|(face, group)| {
        format!(
            "{}, going in through the {} face, pilot {}",
            words::screw_group(group, plan.unit),
            words::face(*face),
            plan.unit.finest().print(group.screw.pilot)
        )
    });
    said.collect()
}

fn work(plan: &Plan, w: &Work) -> String {
    let print = |um: i64| words::length(plan.unit, um);
    // What starts in the banding starts at the edge of the part as cut.
    let at = w.from.map(|(from, d)| match d {
        ..=0 => format!("at the {} edge", from.side()),
        d => format!("{} from the {} edge", print(d), from.side()),
    });
    let deep = format!("{} deep in the {} face", print(w.depth), words::face(w.face));
    match (w.kind, w.row) {
        (WorkKind::Holes, Some((_, pitch, count))) => format!(
            "{count} holes {}, {deep}, every {} from {}, {}",
            print(w.size[0]),
            print(pitch),
            at[1],
            at[0]
        ),
        (WorkKind::Boring | WorkKind::Holes, _) => {
            format!("Bore {}, {deep}, {} and {}", print(w.size[0]), at[0], at[1])
        }
        (WorkKind::Notch, _) => {
            format!("Notch {} × {}, {} and {}", print(w.size[0]), print(w.size[1]), at[0], at[1])
        }
        (kind, _) => {
            let name = match kind {
                WorkKind::Groove => "Groove",
                WorkKind::Dado => "Dado",
                _ => "Rabbet",
            };
            // Which way it runs and how wide it is; where it starts along its run, when not at the edge.
            let across = usize::from(w.size[0] >= w.size[1]);
            let run = 1 - across;
            let start = if w.from[run].1 <= 0 { String::new() } else { format!(", {}", at[run]) };
            format!("{name} {} wide, {deep}, {}{start}", print(w.size[across]), at[across])
        }
    }
}
