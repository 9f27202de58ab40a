//! Words laid over the picture by the page: what is called what, and where.

use jointwise::export::clamp::Since;
use jointwise::geometry::Direction;
use jointwise::plan::HoldWith;
use jointwise::units::Length;
use serde::Serialize;
use three_d::{Vec3, vec3};

use crate::camera::Camera;
use crate::edges::millimetres;
use crate::scene::{Model, Moment, Role};

/// One label. `x` and `y` are the middle of the text in CSS pixels.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Label {
    /// `section`, `bench-face`, `part`, `spacer`, `clamp`, `measure` or `hold`.
    pub kind: &'static str,
    /// What it says.
    pub text: String,
    /// From the left.
    pub x: f32,
    /// From the top.
    pub y: f32,
}

/// Guessed size of a letter and of a line, in CSS pixels, to keep labels apart.
const LETTER: f32 = 8.5;
const LINE: f32 = 26.0;
/// Radius of the ring round a screw, in CSS pixels.
const RING: f32 = 9.0;
/// Height kept free below for the buttons over the picture, in a frame as high as that of a phone at least; a lower one
/// has no room to give.
const BUTTONS: f32 = 60.0;
const HIGH: f32 = 340.0;
/// More new parts than this are named by the sentence alone.
const MOST_NAMES: usize = 3;
/// Letters of a name that a phone's picture has room for.
const LONG_NAME: usize = 30;

/// The labels of an instant.
pub fn labels(model: &Model, step: usize, moment: &Moment, camera: &Camera) -> Vec<Label> {
    let mut all: Vec<Label> = section(model, step, moment, camera).into_iter().collect();
    let (Some(station), Some(planned)) = (model.stations.get(step), model.plan.steps.get(step))
    else {
        spread(&mut all, &[], camera.size());
        return all;
    };
    let mut put = |kind, text: String, (x, y): (f32, f32)| {
        if !text.is_empty() {
            all.push(Label { kind, text, x, y });
        }
    };
    for measure in &moment.measures {
        // A little off the middle, so that two diagonals do not name the same spot.
        let at = measure.ends[0] + (measure.ends[1] - measure.ends[0]) * 0.38;
        put("measure", measure.text.clone(), camera.project(at));
    }
    let top = |parts: &[usize], offset: Vec3| {
        let corners = model.corners(parts);
        let seen: Vec<(f32, f32)> =
            corners.iter().map(|c| camera.project(moment.pose.point(*c + offset))).collect();
        let x = seen.iter().map(|p| p.0).sum::<f32>() / seen.len().max(1) as f32;
        let y = seen.iter().map(|p| p.1).fold(f32::INFINITY, f32::min);
        (x, y - LINE * 0.7)
    };
    let moving: Vec<_> = moment.items.iter().filter(|i| i.role == Role::Moving).collect();
    if let Some(body) = &planned.joins {
        let parts: Vec<usize> = moving.iter().map(|i| i.index).collect();
        if let Some(first) = moving.first() {
            put("part", short(model.plan.name_of(body)), top(&parts, first.offset));
        }
    } else if moving.len() <= MOST_NAMES {
        for item in &moving {
            if let Some(part) = model.parts.get(item.index) {
                put("part", part.name.clone(), top(&[item.index], item.offset));
            }
        }
    }
    if let (Some(slab), Some(spacer)) = (moment.spacer, &planned.spacer) {
        let size = model.plan.spacer_size(spacer);
        let text = format!("spacer: {}, {size}", model.plan.name_of(&spacer.part));
        let at = camera.project(moment.pose.point(slab.centre()));
        put("spacer", text.trim_end_matches([' ', ',']).to_owned(), at);
    }
    // Where they can be counted in the words, three names are enough.
    let clamps = moment.clamps.iter().filter(|c| c.since != Since::Before);
    for clamp in clamps.take(MOST_NAMES) {
        if let Some(at) = clamp.centre() {
            put("clamp", "clamp".to_owned(), camera.project(moment.pose.point(at)));
        }
    }
    let part_at = model.part_index();
    for hold in planned.hold.iter().filter(|h| h.clamp.is_none()) {
        let with = match hold.with {
            HoldWith::Hand => "hold by hand",
            HoldWith::Clamp => "clamp",
            HoldWith::Helper => "second person holds",
            HoldWith::Bench | HoldWith::Spacer => continue,
        };
        let Some(&index) = part_at.get(hold.what.as_str()) else {
            continue;
        };
        let Some(item) = moment.items.iter().find(|i| i.index == index) else {
            continue;
        };
        if let Some(part) = model.parts.get(index) {
            // Below the middle, where the guide's arrow is not.
            let up = moment.pose.vector_back(vec3(0., 0., 1.));
            let size = part.bounds.max - part.bounds.min;
            let high = (0..3).map(|a| size[a] * up[a].abs()).sum::<f32>();
            let at = part.bounds.centre() - up * (high * 0.25) + item.offset;
            put("hold", with.to_owned(), camera.project(moment.pose.point(at)));
        }
    }
    let here: Vec<usize> =
        if station.present.is_empty() { station.movers.clone() } else { station.present.clone() };
    if station.on_bench
        && let Some((x, y)) = foot(model, &here, moment, camera)
    {
        let text = format!("{} down", face_name(planned.bench_face));
        put("bench-face", text, (x, y + LINE * 0.8));
    }
    let rings: Vec<(f32, f32)> = moment.entries.iter().map(|[at, _]| camera.project(*at)).collect();
    spread(&mut all, &rings, camera.size());
    all
}

/// Where it is cut open, at the upper edge of the plane.
fn section(model: &Model, step: usize, moment: &Moment, camera: &Camera) -> Option<Label> {
    let section = moment.section?;
    let station = model.station(step)?;
    let there: Vec<usize> = station.present.iter().chain(&station.movers).copied().collect();
    let bounds = model.bounds(&there)?;
    let on_plane = bounds.corners().into_iter().map(|mut corner| {
        corner[section.axis] = millimetres(section.at);
        camera.project(moment.pose.point(corner))
    });
    let top = on_plane.reduce(|a, b| if b.1 < a.1 { b } else { a })?;
    let from = ["the left", "the front", "below"].get(section.axis)?;
    let far = model.plan.unit.print(Length::um(section.in_it));
    Some(Label {
        kind: "section",
        text: format!("cut {far} from {from}"),
        x: top.0,
        y: top.1 - LINE * 0.7,
    })
}

/// The name of a set may list its parts; the sentence has them all, the picture has room for one.
fn short(name: &str) -> String {
    match name.split_once(", ").or_else(|| name.split_once(" and ")) {
        Some((first, rest)) if name.chars().count() > LONG_NAME => {
            let more = 1 + rest.matches(", ").count() + rest.matches(" and ").count();
            format!("{first} and {more} more")
        }
        _ => name.to_owned(),
    }
}

/// A face of the piece as a maker says it.
pub fn face_name(face: Direction) -> &'static str {
    match face {
        Direction::Left => "left side",
        Direction::Right => "right side",
        Direction::Front => "front",
        Direction::Back => "back",
        Direction::Down => "bottom",
        Direction::Up => "top",
    }
}

/// The middle of the lower edge of the piece that is lowest on the screen, in CSS pixels; rather
/// another one when what moves is there.
fn foot(model: &Model, parts: &[usize], moment: &Moment, camera: &Camera) -> Option<(f32, f32)> {
    let busy: Vec<[f32; 4]> = moment
        .items
        .iter()
        .filter(|i| i.role == Role::Moving)
        .filter_map(|i| model.parts.get(i.index))
        .filter_map(|p| moment.pixels_box(model, camera, &p.id))
        .collect();
    let taken = |(x, y): (f32, f32)| {
        let near = |[x0, y0, x1, y1]: &[f32; 4]| {
            x > x0 - 70.0 && x < x1 + 70.0 && y > y0 - LINE && y < y1 + LINE
        };
        moment.items.len() > busy.len() && busy.iter().any(near)
    };
    let corners: Vec<Vec3> =
        model.corners(parts).iter().map(|c| moment.pose.point(*c + moment.driven_offset)).collect();
    let first = corners.first()?;
    let (mut low, mut high) = (*first, *first);
    for c in &corners {
        for a in 0..3 {
            low[a] = low[a].min(c[a]);
            high[a] = high[a].max(c[a]);
        }
    }
    let middle = (low + high) / 2.0;
    [(middle.x, low.y), (high.x, middle.y), (low.x, middle.y), (middle.x, high.y)]
        .into_iter()
        .map(|(x, y)| camera.project(vec3(x, y, low.z)))
        .reduce(|a, b| if (!taken(b), b.1) > (!taken(a), a.1) { b } else { a })
}

/// Width that a label is taken to have, in CSS pixels.
fn wide(label: &Label) -> f32 {
    label.text.chars().count() as f32 * LETTER + 16.0
}

/// Whether two labels would lie on each other.
pub fn clash(a: &Label, b: &Label) -> bool {
    (a.x - b.x).abs() < (wide(a) + wide(b)) / 2.0 && (a.y - b.y).abs() < LINE
}

/// Whether a label lies on the ring round a screw.
pub fn covers(label: &Label, ring: (f32, f32)) -> bool {
    (label.x - ring.0).abs() < wide(label) / 2.0 + RING
        && (label.y - ring.1).abs() < LINE / 2.0 + RING
}

/// Keeps labels inside the frame, off each other and off the rings round screws: the later one gives
/// way, line by line, to the nearest free place below or above. Where rings leave none, they are
/// covered rather than a label.
fn spread(all: &mut [Label], rings: &[(f32, f32)], (width, height): (f32, f32)) {
    let below = if height >= HIGH { BUTTONS } else { 0.0 };
    let room = (height - below - LINE / 2.0).max(LINE / 2.0);
    for i in 0..all.len() {
        let (before, rest) = all.split_at_mut(i);
        let Some(label) = rest.first_mut() else { break };
        let half = (wide(label) / 2.0).min(width / 2.0);
        label.x = label.x.clamp(half, (width - half).max(half));
        let own = label.y.clamp(LINE / 2.0, room);
        let halves = (2.0 * height / LINE) as usize;
        let places = (0..=halves).flat_map(|n| {
            let off = LINE / 2.0 * n as f32;
            [own + off, own - off]
        });
        let free: Vec<Label> = places
            .filter(|y| (LINE / 2.0..=room).contains(y))
            .map(|y| Label { y, ..label.clone() })
            .filter(|here| !before.iter().any(|other| clash(other, here)))
            .collect();
        let clear = free.iter().find(|here| !rings.iter().any(|ring| covers(here, *ring)));
        label.y = clear.or(free.first()).map_or(own, |here| here.y);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn label(x: f32, y: f32) -> Label {
        Label { kind: "part", text: "left side".into(), x, y }
    }

    #[test]
    fn a_set_that_lists_its_parts_is_named_by_the_first() {
        assert_eq!(short("back, right end and right handle cleat"), "back and 2 more");
        assert_eq!(short("left side with its runner"), "left side with its runner");
        assert_eq!(short("front and back"), "front and back");
    }

    #[test]
    fn labels_give_way_and_stay_inside() {
        let mut all = [label(200.0, 100.0), label(210.0, 105.0), label(-50.0, 900.0)];
        spread(&mut all, &[], (400.0, 300.0));
        assert!((all[1].y - all[0].y).abs() >= LINE);
        assert!(all[2].x > 0.0 && all[2].y < 300.0);
        let mut low = [label(100.0, 635.0)];
        spread(&mut low, &[], (680.0, 640.0));
        assert!(low[0].y <= 640.0 - BUTTONS, "a label lies on the buttons");
    }
}
