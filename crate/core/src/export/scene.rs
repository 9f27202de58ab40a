//! What a step's drawing shows and where: worked out from the plan alone, in view axes.

use std::collections::BTreeMap;

use crate::geometry::{Box3, Direction};
use crate::plan::{Plan, PlanPart, Step};

use super::clamp::{self, Since};
use super::painter::{ViewBox, bounds};
use super::projection::{View, add};
use super::words;

/// What a piece is to the step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Already there.
    In,
    /// Comes now; drawn back along its way.
    New,
    /// Lies there for the while.
    Spacer,
    /// A clamp that is put on now.
    Clamp,
    /// A clamp put on before.
    ClampOn,
    /// A clamp that comes off.
    ClampOff,
}

/// A solid in the drawing.
#[derive(Debug)]
pub struct Piece<'a> {
    /// Id of its part; of a clamp the word itself.
    pub id: &'a str,
    /// What it is to the step.
    pub role: Role,
    /// Its boxes where they are drawn.
    pub boxes: Vec<ViewBox>,
}

/// A screw drawn out of its hole.
#[derive(Debug, Clone, Copy)]
pub struct ScrewMark {
    /// Under the head.
    pub head: [i128; 3],
    /// The point.
    pub tip: [i128; 3],
    /// Where it goes in.
    pub entry: [i128; 3],
    /// Whether it comes from a side that the eye does not see.
    pub hidden: bool,
}

/// A measurement: between two points, with the wanted value where there is one.
#[derive(Debug, Clone, Copy)]
pub struct CheckMark {
    /// Its ends.
    pub ends: [[i128; 3]; 2],
    /// In micrometres; nothing to read off a tape where it is zero.
    pub expected: Option<i64>,
}

/// All that a drawing shows.
#[derive(Debug)]
pub struct Scene<'a> {
    /// Where the eye stands.
    pub view: View,
    /// Solids, those already in first.
    pub pieces: Vec<Piece<'a>>,
    /// Screws of the step in their order.
    pub screws: Vec<ScrewMark>,
    /// From where a new part is drawn to where it goes.
    pub guides: Vec<[[i128; 3]; 2]>,
    /// Measurements.
    pub checks: Vec<CheckMark>,
    /// The bench under the piece: a flat box whose top is the bench.
    pub bench: Option<ViewBox>,
    /// Greatest extent of what is drawn, before anything is drawn back.
    pub extent: i128,
    /// By how much new parts are drawn away from where they go.
    pub back: [i128; 3],
}

/// Parts of each body after the first `steps` steps.
fn bodies<'a>(plan: &'a Plan, steps: &'a [Step]) -> BTreeMap<&'a str, Vec<&'a PlanPart>> {
    let mut bodies: BTreeMap<&str, Vec<&PlanPart>> = BTreeMap::new();
    for step in steps {
        let mut coming = arriving(plan, step, &bodies);
        if let Some(joined) = &step.joins {
            bodies.remove(joined.as_str());
        }
        bodies.entry(step.body.as_str()).or_default().append(&mut coming);
    }
    bodies
}

/// What joins the body in a step: its parts, or the whole of another body.
fn arriving<'a>(
    plan: &'a Plan,
    step: &Step,
    bodies: &BTreeMap<&str, Vec<&'a PlanPart>>,
) -> Vec<&'a PlanPart> {
    let parts = plan.parts.iter().filter(|p| step.parts.contains(&p.id));
    let joined = step.joins.as_deref().and_then(|name| bodies.get(name));
    parts.chain(joined.into_iter().flatten().copied()).collect()
}

/// Whether more of the step comes from the left of the bench than from the right.
fn better_from_left(plan: &Plan, step: &Step) -> bool {
    let pose = super::pose::Pose::on_bench(step.bench_face);
    let screws = words::screws(plan, step);
    let ways = screws.iter().map(|f| f.direction).chain(step.direction);
    let balance: i64 = ways
        .map(|d| match pose.direction(d) {
            Direction::Right => 1,
            Direction::Left => -1,
            _ => 0,
        })
        .sum();
    balance > 0
}

/// The scene of the step numbered `n`, if the plan holds one.
pub fn scene<'a>(plan: &'a Plan, n: u32) -> Option<(Scene<'a>, &'a Step)> {
    let place = plan.steps.iter().position(|s| s.n == n)?;
    let (earlier, step) = (plan.steps.get(..place)?, plan.steps.get(place)?);
    let view = View::new(step.bench_face, better_from_left(plan, step));
    let before = bodies(plan, earlier);
    let there: &[&PlanPart] = before.get(step.body.as_str()).map_or(&[], Vec::as_slice);
    let coming = arriving(plan, step, &before);

    let mut pieces: Vec<Piece<'a>> = Vec::new();
    let add_piece = |pieces: &mut Vec<Piece<'a>>, id, role, boxes: &[Box3]| {
        let item = pieces.len();
        let boxes =
            boxes.iter().map(|b| view.view_box(b, item)).filter(ViewBox::is_valid).collect();
        pieces.push(Piece { id, role, boxes });
    };
    for part in there {
        add_piece(&mut pieces, part.id.as_str(), Role::In, &part.boxes);
    }
    for part in &coming {
        add_piece(&mut pieces, part.id.as_str(), Role::New, &part.boxes);
    }
    if let Some(spacer) = &step.spacer {
        add_piece(&mut pieces, spacer.part.as_str(), Role::Spacer, &[spacer.at]);
    }

    let whole = bounds(pieces.iter().flat_map(|p| &p.boxes));
    // The bench and the scale are the work's own: clamps stand out of it.
    for (clamp, since) in clamp::seen(&plan.steps, place) {
        let role = match since {
            Since::Now => Role::Clamp,
            Since::Before => Role::ClampOn,
            Since::Off => Role::ClampOff,
        };
        add_piece(&mut pieces, "clamp", role, &clamp::solids(clamp));
    }

    let size = whole.map_or([0; 3], |w| add(w.max, w.min.map(|c| -c)));
    let extent = size.into_iter().max().unwrap_or(0);
    // Far enough to see the part on its own, near enough to see where it goes.
    let back = match step.direction {
        Some(d) if !there.is_empty() => view.vector(d.opposite(), extent * 2 / 5),
        _ => [0; 3],
    };
    let bench = whole.map(|w| bench(w, extent));
    let guides = guides(&pieces, step, view, back);
    for piece in pieces.iter_mut().filter(|p| p.role == Role::New) {
        for b in &mut piece.boxes {
            (b.min, b.max) = (add(b.min, back), add(b.max, back));
        }
    }
    let screws = words::screws(plan, step)
        .into_iter()
        .map(|f| {
            let moved = coming.iter().any(|p| holds(&p.boxes, f.entry));
            let entry = add(view.point(f.entry), if moved { back } else { [0; 3] });
            let out = |length| view.vector(f.direction.opposite(), length);
            let tip = add(entry, out(extent / 14));
            let length = i128::from(f.length.get()).clamp(extent / 10, extent.max(1));
            let hidden = view.direction(f.direction).1;
            ScrewMark { head: add(tip, out(length)), tip, entry, hidden }
        })
        .collect();
    let checks = step
        .checks
        .iter()
        .flat_map(|check| {
            check.between.iter().enumerate().map(|(i, ends)| CheckMark {
                ends: ends.map(|p| view.point(p)),
                expected: check.expected.get(i).copied().filter(|um| *um != 0),
            })
        })
        .collect();
    Some((Scene { view, pieces, screws, guides, checks, bench, extent, back }, step))
}

/// Whether a point lies in or on any of the boxes.
fn holds(boxes: &[Box3], p: [i64; 3]) -> bool {
    boxes.iter().any(|b| {
        b.min.iter().zip(&p).all(|(lo, c)| lo <= c) && p.iter().zip(&b.max).all(|(c, hi)| c <= hi)
    })
}

/// The bench: as large as what lies on it and a margin, a flat thing below.
fn bench(whole: ViewBox, extent: i128) -> ViewBox {
    let margin = extent / 12;
    let ([x0, y0, z], [x1, y1, _]) = (whole.min, whole.max);
    ViewBox { min: [x0 - margin, y0 - margin, z - 1], max: [x1 + margin, y1 + margin, z], ..whole }
}

/// One arrow for each new part, or one for a body that joins whole: from the middle of its
/// leading face, where it is drawn, to where that face ends up.
fn guides(pieces: &[Piece<'_>], step: &Step, view: View, back: [i128; 3]) -> Vec<[[i128; 3]; 2]> {
    let Some(direction) = step.direction.filter(|_| back != [0; 3]) else {
        return Vec::new();
    };
    let new = || pieces.iter().filter(|p| p.role == Role::New);
    let boxes: Vec<ViewBox> = if step.joins.is_some() {
        bounds(new().flat_map(|p| &p.boxes)).into_iter().collect()
    } else {
        new().filter_map(|p| bounds(&p.boxes)).collect()
    };
    let (axis, nearer) = view.direction(direction);
    let lead = |b: &ViewBox| {
        let mut middle = add(b.min, b.max).map(|c| c / 2);
        let face = if nearer { b.max } else { b.min };
        if let (Some(c), Some(f)) = (middle.get_mut(axis), face.get(axis)) {
            *c = *f;
        }
        middle
    };
    boxes.iter().map(|b| [add(lead(b), back), lead(b)]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    fn ids<'a>(scene: &'a Scene<'_>, role: Role) -> Vec<&'a str> {
        scene.pieces.iter().filter(|p| p.role == role).map(|p| p.id).collect()
    }

    #[test]
    fn bodies_grow_apart_and_join() {
        let plan = sample::plan();
        let (s, _) = scene(&plan, 2).unwrap();
        assert_eq!(ids(&s, Role::In), ["left-side"]);
        assert_eq!(ids(&s, Role::New), ["bottom"]);
        assert_eq!(ids(&s, Role::Spacer), ["toe-board"]);
        let (s, _) = scene(&plan, 11).unwrap();
        assert_eq!(ids(&s, Role::In), ["tray-bottom"]);
        let (s, _) = scene(&plan, 12).unwrap();
        assert_eq!(ids(&s, Role::In).len(), 6);
        assert_eq!(ids(&s, Role::New), ["tray-bottom", "tray-side"]);
        assert_eq!(s.guides.len(), 1, "a body moves as one");
        assert!(scene(&plan, 0).is_none() && scene(&plan, 13).is_none());
    }

    #[test]
    fn clamps_stand_out_of_the_work_and_change_neither_bench_nor_scale() {
        let (plain, plan) = (sample::plan(), sample::clamped());
        let (without, with) = (scene(&plain, 2).unwrap().0, scene(&plan, 2).unwrap().0);
        assert_eq!(ids(&with, Role::Clamp), ["clamp"]);
        assert_eq!((with.bench, with.extent), (without.bench, without.extent));
        for (n, role) in [(3, Role::Clamp), (4, Role::ClampOn), (5, Role::ClampOff)] {
            assert_eq!(ids(&scene(&plan, n).unwrap().0, role), ["clamp"], "step {n}");
        }
    }

    #[test]
    fn a_new_part_is_drawn_back_along_its_way_and_its_screws_with_it() {
        let plan = sample::plan();
        let (s, step) = scene(&plan, 3).unwrap();
        let home: Vec<_> = plan.parts[1].boxes.iter().map(|b| s.view.view_box(b, 0)).collect();
        let there = &s.pieces.iter().find(|p| p.role == Role::New).unwrap().boxes;
        let (axis, nearer) = s.view.direction(step.direction.unwrap());
        let moved = there[0].min[axis] - home[0].min[axis];
        assert!(moved != 0 && (moved < 0) == nearer);
        let outer = |s: &ScrewMark| there.iter().any(|b| b.max[axis] == s.entry[axis]);
        assert!(s.screws.iter().all(outer), "the screws go in where the side is drawn");
    }

    #[test]
    fn the_eye_stands_where_the_screws_come_from() {
        let plan = sample::plan();
        for n in 1..=12 {
            let (s, _) = scene(&plan, n).unwrap();
            let hidden = s.screws.iter().filter(|m| m.hidden).count();
            assert!(hidden * 2 <= s.screws.len(), "step {n}");
        }
    }
}
