//! Every step of every scenario, on the bench and in the room, pixel by pixel: what is new is seen.

// A test that cannot read its fixture should stop there.
#![allow(clippy::unwrap_used)]

use std::fs;
use std::path::Path;

use jointwise::plan::Plan;
use jointwise_picture::camera::Camera;
use jointwise_picture::cutaway::{cutaway, enough, judge, targets};
use jointwise_picture::labels::{Label, clash, covers, labels};
use jointwise_picture::scene::{Glass, Manner, Model, Moment, Section};
use jointwise_picture::sight::{Sight, Target};

/// All kept plans, and those for their rooms.
fn models() -> Vec<(String, Model)> {
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/expected");
    let mut folders: Vec<_> = fs::read_dir(kept).unwrap().map(|e| e.unwrap().path()).collect();
    folders.sort();
    let mut all = Vec::new();
    for folder in folders {
        let Ok(text) = fs::read_to_string(folder.join("plan.json")) else { continue };
        let mut plan: Plan = serde_json::from_str(&text).unwrap();
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        if let Some(room) = plan.install.take() {
            all.push((format!("{name}, room"), Model::new(*room)));
        }
        all.push((name, Model::new(plan)));
    }
    assert!(all.len() > 20, "{} plans", all.len());
    all
}

#[test]
fn nothing_that_is_drawn_is_lost_in_reading() {
    let shown = |model: &Model| {
        let mut all = vec![format!("{:?}", model.parts), format!("{:?}", model.screws)];
        all.push(format!("{:?} {:?}", model.bearers, model.apart));
        for step in 0..=model.stations.len() {
            let camera = judge(model, step);
            all.push(format!("{step}: {:?} {:?}", model.view(step), model.station(step)));
            all.push(format!("{step}: {:?}", targets(model, step)));
            for t in [0.0, 1.0] {
                let Some(moment) = Moment::at(model, step, t, false) else { continue };
                all.push(format!("{step}: {moment:?}"));
                all.push(format!("{step}: {:?}", labels(model, step, &moment, &camera)));
            }
        }
        all
    };
    for (name, model) in models() {
        let read = Model::read(&serde_json::to_string(&model.plan).unwrap()).unwrap();
        for (found, wanted) in shown(&read).iter().zip(shown(&model)) {
            assert_eq!(*found, wanted, "{name}");
        }
    }
}

/// The thing as a maker would look for it.
fn named(model: &Model, step: usize, target: &Target) -> String {
    let id = |part: &usize| model.parts[*part].id.as_str();
    match target {
        Target::Parts(parts) => parts.iter().map(id).collect::<Vec<_>>().join(" with "),
        Target::Screw(nth) => model.screws[model.stations[step].driving[*nth]].id.clone(),
        Target::Joint(pairs) => {
            pairs.iter().map(|[a, b]| format!("{}|{}", id(a), id(b))).collect::<Vec<_>>().join(", ")
        }
    }
}

#[test]
fn every_step_shows_its_new_parts_its_joints_and_each_screw_it_drives() {
    let (mut steps, mut things, mut opened) = (0, 0, 0);
    let mut lost = Vec::new();
    for (name, model) in models() {
        for (step, planned) in model.plan.steps.iter().enumerate() {
            let open = cutaway(&model, step);
            let moment = Moment::at(&model, step, 1.0, false).unwrap().opened(&open);
            let camera = judge(&model, step);
            let sight = Sight::of(&model, step, &moment, &camera);
            for target in targets(&model, step) {
                let seen = sight.look(&target);
                things += 1;
                if !enough(&target, &seen) {
                    let what = named(&model, step, &target);
                    lost.push(format!("{name}, step {}: {what}: {seen:?}", planned.n));
                }
            }
            steps += 1;
            opened += usize::from(open != Glass::default());
        }
    }
    // A cut-away that opened everything would show everything, and the piece no more.
    assert!(opened * 3 < steps, "{opened} of {steps} steps are cut away");
    assert!(lost.is_empty(), "{} of {things} not seen:\n{}", lost.len(), lost.join("\n"));
}

#[test]
fn what_the_buffer_names_at_a_pixel_is_what_a_ray_through_it_meets() {
    let (mut asked, mut other) = (0, 0);
    for (_, model) in models().iter().step_by(3) {
        for step in (0..model.stations.len()).step_by(4) {
            // Clamps and spacers stand in the way of the eye, but the ray asks for parts.
            let glass = Glass { parts: Vec::new(), aids: true };
            let moment = Moment::at(model, step, 1.0, false).unwrap().opened(&glass);
            let camera = judge(model, step);
            let sight = Sight::of(model, step, &moment, &camera);
            for y in (7..640).step_by(29) {
                for x in (5..680).step_by(31) {
                    let (eye, way) = camera.ray(x as f32 + 0.5, y as f32 + 0.5);
                    asked += 1;
                    other += usize::from(sight.at(x, y) != moment.pick(model, eye, way));
                }
            }
        }
    }
    // Along an edge the two may round apart.
    assert!(asked > 10_000 && other * 500 < asked, "{other} of {asked}");
}

#[test]
fn no_label_lies_on_another_or_on_a_screw_and_all_are_in_the_frame() {
    let (mut seen, mut covered) = (0, 0);
    for (name, model) in models() {
        for (step, planned) in model.plan.steps.iter().enumerate() {
            for (width, height) in [(680.0, 640.0), (390.0, 360.0)] {
                let mut camera = Camera::new();
                camera.resize(width, height);
                camera.frame(model.view(step), model.frame(step));
                camera.arrive(1.0);
                for t in [0.0, 0.6, 1.0] {
                    let moment = Moment::at(&model, step, t, false).unwrap();
                    let all = labels(&model, step, &moment, &camera);
                    seen += all.len();
                    let rings: Vec<_> =
                        moment.entries.iter().map(|[at, _]| camera.project(*at)).collect();
                    let on_ring = |l: &&Label| rings.iter().any(|ring| covers(l, *ring));
                    covered += all.iter().filter(on_ring).count();
                    for (i, label) in all.iter().enumerate() {
                        let at = format!("{name}, step {} at {t}: {label:?}", planned.n);
                        assert!((0.0..=width).contains(&label.x), "{at}");
                        assert!((0.0..=height).contains(&label.y), "{at}");
                        let on = all[..i].iter().find(|other| clash(other, label));
                        assert!(on.is_none(), "{at} on {on:?}");
                    }
                }
            }
        }
    }
    assert!(seen > 5_000, "{seen} labels");
    assert_eq!(covered, 0, "labels on screws");
}

#[test]
fn a_section_takes_away_the_side_of_the_eye_and_shows_faces_where_it_cuts() {
    let mut cut = 0;
    for (name, model) in models().iter().step_by(4) {
        let last = model.stations.len() - 1;
        for axis in 0..3 {
            let section = Section::through(model, last, axis, 0.5).unwrap();
            let manner = Manner { section: Some(section), ..Manner::default() };
            let moment =
                Moment::at(model, last, 1.0, false).unwrap().looked_at(model, last, manner);
            let said = labels(model, last, &moment, &judge(model, last));
            assert_eq!(said.iter().filter(|l| l.kind == "section").count(), 1);
            let eye = moment.pose.vector_back(model.view(last).towards_eye());
            assert_eq!(section.keeps_high, eye[axis] < 0.0, "{name}");
            for part in &model.parts {
                let (rest, faces) = section.skins(part);
                let area = |s: &jointwise_picture::edges::Skin| s.positions.len();
                cut += usize::from(area(&faces) > 0);
                let plane = section.at as f32 / 1000.0;
                let beyond = rest.positions.iter().chain(&faces.positions).all(|p| {
                    if section.keeps_high { p[axis] > plane - 0.01 } else { p[axis] < plane + 0.01 }
                });
                assert!(beyond, "{name}: {}", part.id);
            }
        }
    }
    assert!(cut > 30, "{cut} parts are cut");
}
