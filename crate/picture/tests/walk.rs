//! Walks the small plan through the scene, step by step, without a graphics processor.

// A test that cannot read its fixture should stop there.
#![allow(clippy::unwrap_used)]

use jointwise_picture::camera::Camera;
use jointwise_picture::labels::labels;
use jointwise_picture::scene::{Manner, Model, Moment, Role};

const PLAN: &str = include_str!("fixtures/plan-small.json");

fn model() -> Model {
    Model::read(PLAN).unwrap()
}

fn camera(model: &Model, step: usize) -> Camera {
    let mut camera = Camera::new();
    camera.resize(680.0, 640.0);
    camera.frame(model.view(step), model.frame(step));
    camera.arrive(1.0);
    camera
}

#[test]
fn every_part_comes_in_once_and_ends_in_its_place() {
    let model = model();
    let last = model.stations.len() - 1;
    let end = Moment::at(&model, last, 1.0, false).unwrap();
    assert_eq!(end.items.len(), model.parts.len());
    for item in &end.items {
        assert!(three_d::InnerSpace::magnitude(item.offset) < 1e-3);
    }
    for station in &model.stations {
        assert!(station.movers.iter().all(|m| !station.present.contains(m)));
    }
}

#[test]
fn what_moves_is_in_the_frame_from_start_to_end_and_its_pixels_move() {
    let model = model();
    for (step, station) in model.stations.iter().enumerate() {
        let camera = camera(&model, step);
        let boxes = |t: f32| -> Vec<[f32; 4]> {
            let moment = Moment::at(&model, step, t, false).unwrap();
            let ids = station.movers.iter().map(|&m| model.parts[m].id.clone());
            ids.map(|id| moment.pixels_box(&model, &camera, &id).unwrap()).collect()
        };
        for (from, to) in boxes(0.0).iter().zip(boxes(1.0)) {
            let way = (from[0] - to[0]).hypot(from[1] - to[1]);
            assert!(way > 15.0, "step {}: {way} px", step + 1);
            for [x0, y0, x1, y1] in [*from, to] {
                assert!(x0 >= 0.0 && y0 >= 0.0 && x1 <= 680.0 && y1 <= 640.0, "step {}", step + 1);
            }
        }
    }
}

#[test]
fn nothing_goes_below_the_bench_at_any_instant_of_a_turn() {
    let model = model();
    for (step, planned) in model.plan.steps.iter().enumerate() {
        if planned.action != jointwise::plan::Action::Turn {
            continue;
        }
        for i in 0..=10 {
            let moment = Moment::at(&model, step, i as f32 / 10.0, false).unwrap();
            for item in &moment.items {
                for corner in model.parts[item.index].bounds.corners() {
                    assert!(moment.pose.point(corner).z > -0.01);
                }
            }
        }
    }
}

#[test]
fn a_turn_starts_as_the_piece_lay_before() {
    let model = model();
    for step in 1..model.stations.len() {
        if model.plan.steps[step].action != jointwise::plan::Action::Turn {
            continue;
        }
        let before = Moment::at(&model, step - 1, 1.0, false).unwrap();
        let start = Moment::at(&model, step, 0.0, false).unwrap();
        for item in &start.items {
            let p = model.parts[item.index].bounds.min;
            let moved = before.pose.point(p) - start.pose.point(p);
            assert!(three_d::InnerSpace::magnitude(moved) < 0.1, "step {}", step + 1);
        }
    }
}

#[test]
fn screws_end_with_their_heads_on_the_face_and_start_away_from_it() {
    let model = model();
    for (step, station) in model.stations.iter().enumerate() {
        let end = Moment::at(&model, step, 1.0, false).unwrap();
        assert_eq!(end.screws.len(), station.driving.len());
        assert!(end.screws.iter().all(|s| three_d::InnerSpace::magnitude(s.offset) < 1e-3));
        if station.driving.is_empty() {
            continue;
        }
        let start = if station.movers.is_empty() { 0.0 } else { 0.6 };
        let moment = Moment::at(&model, step, start, false).unwrap();
        for item in &moment.screws {
            let screw = &model.screws[item.index];
            assert!(three_d::InnerSpace::magnitude(item.offset) > screw.length);
        }
    }
}

#[test]
fn a_click_on_the_middle_of_the_moving_part_finds_a_part_and_beside_the_piece_none() {
    let model = model();
    let camera = camera(&model, 0);
    let moment = Moment::at(&model, 0, 1.0, false).unwrap();
    let [x0, y0, x1, y1] = moment.pixels_box(&model, &camera, "left-side").unwrap();
    let (eye, way) = camera.ray((x0 + x1) / 2.0, (y0 + y1) / 2.0);
    assert_eq!(
        moment.pick(&model, eye, way).map(|i| model.parts[i].id.as_str()),
        Some("left-side")
    );
    let (eye, way) = camera.ray(1.0, 1.0);
    assert_eq!(moment.pick(&model, eye, way), None);
}

#[test]
fn labels_name_the_bench_face_the_new_part_and_the_spacer_inside_the_frame() {
    let model = model();
    for step in 0..model.stations.len() {
        let moment = Moment::at(&model, step, 1.0, false).unwrap();
        let all = labels(&model, step, &moment, &camera(&model, step));
        let has = |kind: &str| all.iter().any(|l| l.kind == kind);
        assert!(has("bench-face"), "step {}", step + 1);
        assert_eq!(has("spacer"), model.plan.steps[step].spacer.is_some());
        assert_eq!(has("part"), moment.items.iter().any(|i| i.role == Role::Moving));
        for l in &all {
            assert!((0.0..=680.0).contains(&l.x) && (0.0..=640.0).contains(&l.y), "{l:?}");
        }
    }
}

#[test]
fn the_work_lies_on_the_strips_and_they_stay_while_it_lies_the_same_way() {
    let mut plan = model().plan;
    plan.workshop.bearers = 40_000;
    let model = Model::new(plan);
    for (step, planned) in model.plan.steps.iter().enumerate() {
        let strips = &model.bearers[step];
        let on_bench = model.stations[step].on_bench;
        assert_eq!(strips.len(), if on_bench { 2 } else { 0 });
        let end = Moment::at(&model, step, 1.0, false).unwrap();
        let corners = end.items.iter().flat_map(|i| model.parts[i.index].bounds.corners());
        let low = corners.map(|c| end.pose.point(c).z).fold(f32::MAX, f32::min);
        if planned.action != jointwise::plan::Action::DryFit && !end.items.is_empty() {
            assert!((low - if on_bench { 40.0 } else { 0.0 }).abs() < 0.1, "step {step}: {low}");
        }
        assert!(strips.iter().all(|s| s.min.z == 0.0 && (s.max.z - 40.0).abs() < 1e-3));
        let before = step.checked_sub(1).map(|b| (&model.plan.steps[b], &model.bearers[b]));
        if let Some((was, lay)) = before
            && (&was.body, was.bench_face) == (&planned.body, planned.bench_face)
        {
            assert_eq!(format!("{lay:?}"), format!("{strips:?}"), "step {step}");
        }
    }
}

#[test]
fn the_finished_piece_stands_whole_and_at_rest() {
    let model = model();
    let end = Moment::at(&model, model.stations.len(), 0.0, false).unwrap();
    assert_eq!(end.items.len(), model.parts.len());
    assert!(end.items.iter().all(|i| i.role == Role::Focus));
    assert!(end.guides.is_empty() && end.screws.is_empty() && end.axes.is_empty());
    let up = end.pose.vector(three_d::vec3(0.0, 0.0, 1.0));
    assert!(up.z > 0.999);
    assert!(labels(&model, model.stations.len(), &end, &camera(&model, 0)).is_empty());
}

#[test]
fn what_is_tried_dry_is_shown_going_in_and_is_not_in_afterwards() {
    let mut model = model();
    let place = model.plan.steps.iter().rposition(|s| !s.parts.is_empty()).unwrap();
    let mut dry = model.plan.steps[place].clone();
    dry.action = jointwise::plan::Action::DryFit;
    for empty in [&mut dry.parts, &mut dry.fasteners, &mut dry.joints] {
        empty.clear();
    }
    dry.hold.clear();
    model.plan.steps.insert(place, dry);
    let model = Model::new(model.plan);
    let (tried, joined) = (&model.stations[place], &model.stations[place + 1]);
    assert!(!tried.movers.is_empty());
    assert_eq!(tried.movers, joined.movers);
    assert_eq!(tried.present, joined.present);
}

#[test]
fn steps_on_one_piece_that_lies_the_same_way_keep_the_eye_where_it_is() {
    let model = model();
    let lying = |i: usize| (&model.plan.steps[i].body, model.plan.steps[i].bench_face);
    let pairs: Vec<usize> =
        (1..model.stations.len()).filter(|&i| lying(i) == lying(i - 1)).collect();
    let stays = pairs.iter().filter(|&&i| model.view(i) == model.view(i - 1)).count();
    assert!(!pairs.is_empty() && 4 * stays >= 3 * pairs.len(), "{stays} of {}", pairs.len());
}

#[test]
fn a_plan_of_nonsense_is_shown_as_far_as_it_goes_and_broken_json_is_an_error() {
    assert!(Model::read("{").is_err());
    assert!(Model::read("[]").is_err());
    let mut plan: serde_json::Value = serde_json::from_str(PLAN).unwrap();
    plan["steps"][1]["parts"][0] = "no-such-part".into();
    plan["steps"][1]["fasteners"][0] = "no-such-screw".into();
    plan["steps"][14]["joins"] = "no-such-body".into();
    plan["parts"][0]["boxes"][0] = serde_json::json!([i64::MIN, 5, 5, i64::MAX, 5, 5]);
    plan["parts"][1]["boxes"][0] =
        serde_json::json!([i64::MIN, i64::MIN, 0, i64::MAX, i64::MAX, 5]);
    plan["parts"][2]["boxes"] = serde_json::json!([]);
    plan["steps"][3]["checks"][0]["expected"] = serde_json::json!([]);
    plan["joints"][0]["fasteners"][0]["length"] = i64::MIN.into();
    let model = Model::read(&plan.to_string()).unwrap();
    for step in 0..model.stations.len() {
        for t in [0.0, 0.5, 1.0, f32::NAN] {
            let moment = Moment::at(&model, step, t, false).unwrap();
            let _ = labels(&model, step, &moment, &camera(&model, step));
        }
    }
    assert!(Moment::at(&model, 99, 0.0, false).is_none());
}

#[test]
fn clamps_are_seen_from_when_they_are_put_on_until_they_come_off() {
    use jointwise::export::clamp::Since;
    use jointwise::geometry::Box3;
    use jointwise::plan::{Action, ClampPlace};
    let mut plan = model().plan;
    let place = plan.steps.iter().position(|s| s.action == Action::Place).unwrap();
    let mm = |v: [i64; 6]| Box3::from(v.map(|c| c * 1000));
    plan.steps[place].clamps = vec![ClampPlace {
        parts: [plan.parts[0].id.clone(), plan.parts[1].id.clone()],
        opening: 300_000,
        jaws: [mm([-20, 0, 0, 0, 30, 30]), mm([300, 0, 0, 420, 30, 30])],
        bar: mm([-20, 0, 67, 420, 30, 82]),
    }];
    let mut wait = plan.steps[place].clone();
    wait.action = Action::Wait;
    (wait.parts, wait.fasteners, wait.joints) = Default::default();
    (wait.clamps, wait.hold, wait.checks) = Default::default();
    (wait.direction, wait.spacer, wait.joins) = (None, None, None);
    let mut off = wait.clone();
    off.action = Action::Unclamp;
    plan.steps.splice(place + 1..place + 1, [wait, off]);
    let model = Model::new(plan);
    let at = |step: usize, t: f32| Moment::at(&model, step, t, false).unwrap().clamps;
    assert!(at(place, 0.0).is_empty(), "it hangs in the air before the part is there");
    let since = |step: usize| at(step, 1.0).iter().map(|c| c.since).collect::<Vec<_>>();
    assert_eq!(since(place), [Since::Now]);
    assert_eq!(since(place + 1), [Since::Before]);
    assert_eq!(since(place + 2), [Since::Off]);
    assert!(since(place + 3).is_empty());
    assert_eq!(at(place, 1.0)[0].slabs.len(), 6, "bar, two jaws, two arms, one screw");
    let named = |step: usize| {
        let moment = Moment::at(&model, step, 1.0, false).unwrap();
        let all = labels(&model, step, &moment, &camera(&model, step));
        all.iter().filter(|l| l.kind == "clamp").count()
    };
    assert_eq!([place, place + 1, place + 2].map(named), [1, 0, 1]);
}

#[test]
fn pulled_apart_each_part_stands_back_along_the_way_it_goes_in() {
    let model = model();
    let last = model.stations.len();
    let together = Moment::at(&model, last, 1.0, false).unwrap();
    let apart = Manner { apart: true, ..Manner::default() };
    let moment = together.clone().looked_at(&model, last, apart);
    assert_eq!(moment.items.len(), model.parts.len());
    let mut moved = 0;
    for step in &model.plan.steps {
        let Some(way) = step.direction else { continue };
        for id in &step.parts {
            let at = model.parts.iter().position(|p| p.id == *id).unwrap();
            let item = moment.items.iter().find(|i| i.index == at).unwrap();
            let along = item.offset[way.axis()] * way.sign() as f32;
            assert!(along < -20.0, "{id}: {along}");
            moved += 1;
        }
    }
    assert!(moved > 2);
    assert!(moment.corners(&model).len() > together.items.len());
    assert!(moment.screws.is_empty() && moment.guides.is_empty());
}

#[test]
fn what_comes_next_is_shown_in_its_place_by_its_edges() {
    let model = model();
    let next = Manner { next: true, ..Manner::default() };
    let mut shown = 0;
    for (n, step) in model.plan.steps.iter().enumerate() {
        let moment = Moment::at(&model, n, 1.0, false).unwrap().looked_at(&model, n, next);
        let here: Vec<usize> = moment.items.iter().map(|i| i.index).collect();
        for ghost in &moment.ghosts {
            assert!(!here.contains(&ghost.index), "step {}: it is there already", step.n);
            assert!(three_d::InnerSpace::magnitude(ghost.offset) < 1e-6);
            shown += 1;
        }
    }
    assert!(shown > 0);
}
