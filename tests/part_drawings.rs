//! The drawing of each part, read back from its text: every distance has a figure of its own, the figures
//! stand clear of each other, and each cut lies where the part has it.

use std::collections::BTreeSet;

use jointwise::export::{part_picture, part_svg, part_words};
use jointwise::geometry::Direction;
use jointwise::plan::{Plan, PlanPart, WorkKind};
use jointwise::units::Length;
use jointwise_tests::scenarios::scenarios;

/// What stands between quotes after a name in a tag.
fn value<'a>(tag: &'a str, name: &str) -> &'a str {
    let from = tag.find(&format!(" {name}=\"")).map(|at| at + name.len() + 3);
    from.and_then(|from| tag[from..].split('"').next()).unwrap_or("")
}

/// Tenths of the sheet's unit.
fn tenths(tag: &str, name: &str) -> i64 {
    let (whole, part) = value(tag, name).split_once('.').unwrap_or((value(tag, name), "0"));
    let sign = if whole.starts_with('-') { -1 } else { 1 };
    whole.parse::<i64>().unwrap_or(0) * 10 + sign * part.parse::<i64>().unwrap_or(0)
}

/// The figures of a drawing: whether it stands along the upright edge, where, and what it says.
fn figures(svg: &str) -> Vec<(bool, i64, String)> {
    let tags = svg.lines().filter(|l| l.starts_with("<text class=\"figure"));
    let of = |tag: &str| {
        let upright = value(tag, "transform").is_empty();
        let said = tag.split('>').nth(1).unwrap_or("").split('<').next().unwrap_or("").to_owned();
        (upright, tenths(tag, if upright { "y" } else { "x" }), said)
    };
    tags.map(of).collect()
}

/// Distances that a part's drawing must give along its two axes, worked out from the plan alone.
fn wanted(plan: &Plan, part: &PlanPart) -> Option<[BTreeSet<i64>; 2]> {
    let making = part.making.as_ref()?;
    let outer = part.boxes.iter().copied().reduce(|a, b| a.union(&b))?;
    let thin = (0..3).find(|a| {
        let rest: Vec<i64> = (0..3).filter(|b| b != a).map(|b| outer.extent(b)).collect();
        rest.iter().max() == Some(&part.length) && rest.iter().min() == Some(&part.width)
    })?;
    let axes: Vec<usize> = (0..3).filter(|a| *a != thin).collect();
    let long_first = outer.extent(axes[0]) >= outer.extent(axes[1]);
    let cut = if long_first { making.cut } else { [making.cut[1], making.cut[0]] };
    let mut sets = cut.map(|whole| BTreeSet::from([whole]));
    for w in &making.work {
        let hole = matches!(w.kind, WorkKind::Boring | WorkKind::Holes);
        for (set, (from, size)) in sets.iter_mut().zip(w.from.iter().zip(w.size)) {
            set.extend([from.1, from.1 + size].into_iter().take(if hole { 1 } else { 2 }));
        }
    }
    let own = plan.joints.iter().filter(|j| j.parts[0] == part.id);
    for screw in own.flat_map(|j| &j.fasteners).filter(|f| f.direction.axis() == thin) {
        for (set, (axis, cut)) in sets.iter_mut().zip(axes.iter().zip(cut)) {
            let low = Direction::from_axis(*axis, false);
            let edges = making.banded.iter().filter(|d| d.axis() == *axis).count();
            let banded = making.banding * i64::try_from(edges).unwrap_or(0);
            let air = outer.extent(*axis) - cut - banded;
            let band = if making.banded.contains(&low) { making.banding } else { 0 };
            set.insert(screw.entry[*axis] - outer.min[*axis] - band - air / 2);
        }
    }
    for (set, cut) in sets.iter_mut().zip(cut) {
        set.retain(|d| *d > 0 && *d <= cut);
    }
    Some(sets)
}

#[test]
fn every_distance_has_a_figure_and_none_stands_in_another() {
    let mut drawn = 0;
    for (name, text) in scenarios() {
        let Some(plan) = jointwise::build(&text).plan else { panic!("{name} has no plan") };
        for part in &plan.parts {
            let Some(svg) = part_picture(&plan, &part.id) else { continue };
            drawn += 1;
            let figures = figures(&svg);
            let Some(sets) = wanted(&plan, part) else { panic!("{name}, {}", part.id) };
            for (n, set) in sets.iter().enumerate() {
                let mut here: Vec<&(bool, i64, String)> =
                    figures.iter().filter(|f| f.0 == (n == 1)).collect();
                let mut said: Vec<&str> = here.iter().map(|f| f.2.as_str()).collect();
                let mut printed: Vec<String> =
                    set.iter().map(|d| plan.unit.print(Length::um(*d))).collect();
                said.sort_unstable();
                printed.sort_unstable();
                assert_eq!(said, printed, "{name}, {}", part.id);
                here.sort_by_key(|f| f.1);
                for pair in here.windows(2) {
                    assert!(pair[1].1 - pair[0].1 >= 260, "{name}, {}: {pair:?}", part.id);
                }
            }
        }
    }
    assert!(drawn > 150, "{drawn} drawings");
}

#[test]
fn the_whole_drawing_is_the_picture_with_its_words() {
    for (name, text) in scenarios() {
        let Some(plan) = jointwise::build(&text).plan else { panic!("{name} has no plan") };
        for part in &plan.parts {
            let (Some(whole), Some(words)) =
                (part_svg(&plan, &part.id), part_words(&plan, &part.id))
            else {
                assert!(part_picture(&plan, &part.id).is_none(), "{name}, {}", part.id);
                continue;
            };
            let label = part.making.as_ref().map_or("", |m| m.label.as_str());
            assert!(words[0].starts_with(label), "{name}: {words:?}");
            // Wrapped, a sentence stands in pieces; all its words are there in their order.
            let lines = whole.lines().filter(|l| l.starts_with("<text class=\"said"));
            let drawn: Vec<&str> =
                lines.filter_map(|l| l.split('>').nth(1)?.split('<').next()).collect();
            let escaped = |s: &str| s.replace('&', "&amp;").replace('<', "&lt;");
            let all = |s: &str| s.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
            assert_eq!(
                all(&drawn.join(" ")),
                all(&escaped(&words.join(" "))),
                "{name}, {}",
                part.id
            );
        }
    }
}

#[test]
fn both_of_a_mirror_pair_say_so() {
    let mut pairs = 0;
    for (name, text) in scenarios() {
        let Some(plan) = jointwise::build(&text).plan else { panic!("{name} has no plan") };
        for part in &plan.parts {
            let Some(other) = part.making.as_ref().and_then(|m| m.mirrors.as_deref()) else {
                continue;
            };
            pairs += 1;
            for (id, twin) in [(part.id.as_str(), other), (other, part.id.as_str())] {
                let said = part_words(&plan, id).unwrap_or_default().join("\n");
                let wanted = format!("Mirror image of the {}", plan.name_of(twin));
                assert!(said.contains(&wanted), "{name}: {said}");
            }
        }
    }
    assert!(pairs > 5, "{pairs} pairs");
}
