//! Whether a finished assembly is sound: nothing overlaps, nothing hangs in the air, every screw
//! runs inside the parts it joins.

use super::{Assembly, Fastener, Joint, JointKind, Part, gauge, probe, screws};
use crate::findings::{Finding, Severity};
use crate::geometry::{Point, Solid};

/// Everything that is wrong with the assembly; empty when it is sound.
pub fn check(assembly: &Assembly) -> Vec<Finding> {
    let mut findings = Vec::new();
    overlaps(assembly, &mut findings);
    joints_touch(assembly, &mut findings);
    every_part_is_held(assembly, &mut findings);
    for joint in &assembly.joints {
        let [Some(first), Some(second)] = joint.parts.map(|i| assembly.parts.get(i)) else {
            continue;
        };
        for f in &joint.fasteners {
            if let Some(wrong) = screw_is_wrong(f, first, second) {
                findings.push(wrong);
            }
        }
    }
    screws_clash(assembly, &mut findings);
    findings
}

/// Exact millimetres: what is wrong here is often less than a notation can show.
fn mm(um: i64) -> String {
    format!("{}{}.{:03} mm", if um < 0 { "-" } else { "" }, um.abs() / 1000, um.abs() % 1000)
}

fn overlaps(assembly: &Assembly, findings: &mut Vec<Finding>) {
    for (i, a) in assembly.parts.iter().enumerate() {
        for b in assembly.parts.iter().skip(i + 1) {
            let shared = a
                .solid
                .boxes()
                .iter()
                .flat_map(|x| b.solid.boxes().iter().filter_map(move |y| x.intersection(y)));
            let Some(worst) = shared.max_by_key(|s| s.volume()) else {
                continue;
            };
            let least = (0..3).map(|axis| worst.extent(axis)).min().unwrap_or(0);
            findings.push(
                Finding::new(
                    Severity::Stop,
                    "parts-overlap",
                    format!("part {}", a.id),
                    format!(
                        "{} and {} would take the same place, by {}.",
                        a.name,
                        b.name,
                        mm(least)
                    ),
                    "Change the size that brings them together.",
                )
                .number("other part", b.id.clone())
                .number("amount", mm(least)),
            );
        }
    }
}

fn joints_touch(assembly: &Assembly, findings: &mut Vec<Finding>) {
    for joint in &assembly.joints {
        let [Some(a), Some(b)] = joint.parts.map(|i| assembly.parts.get(i)) else {
            findings.push(Finding::new(
                Severity::Stop,
                "joint-parts",
                format!("joint {}", joint.id),
                "The joint names a part that is not there.",
                "This is a fault of the program: please report it with the scenario.",
            ));
            continue;
        };
        if a.solid.contacts(&b.solid).is_empty() && !a.solid.intersects(&b.solid) {
            let amount = mm(probe::gap(&a.solid, &b.solid));
            findings.push(
                Finding::new(
                    Severity::Stop,
                    "joint-gap",
                    format!("joint {}", joint.id),
                    format!("{} and {} should meet but are {amount} apart.", a.name, b.name),
                    "Change the size that keeps them apart.",
                )
                .number("gap", amount),
            );
        }
    }
    for (i, a) in assembly.parts.iter().enumerate() {
        for (j, b) in assembly.parts.iter().enumerate().skip(i + 1) {
            let joined = assembly.joints.iter().any(|k| k.parts == [i, j] || k.parts == [j, i]);
            if !joined && !a.solid.contacts(&b.solid).is_empty() {
                findings.push(Finding::new(
                    Severity::Stop,
                    "joint-missing",
                    format!("part {}", a.id),
                    format!("{} and {} share a face but nothing is said of it.", a.name, b.name),
                    "This is a fault of the program: please report it with the scenario.",
                ));
            }
        }
    }
}

/// Whether a joint keeps its parts together.
fn holds(joint: &Joint) -> bool {
    match joint.kind {
        JointKind::Groove | JointKind::Hinge => true,
        JointKind::Butt | JointKind::Dado | JointKind::Overlay => {
            joint.glue || !joint.fasteners.is_empty()
        }
        JointKind::Slide | JointKind::Touch => false,
    }
}

fn every_part_is_held(assembly: &Assembly, findings: &mut Vec<Finding>) {
    for (i, part) in assembly.parts.iter().enumerate() {
        // What lies loose on its pins slides within its own body; a box on its runner is another.
        let loose = |j: &Joint| {
            let [a, b] = j.parts.map(|n| assembly.parts.get(n).map(|p| &p.group));
            j.kind == JointKind::Slide && a == b
        };
        let kept = |j: &Joint| j.parts.contains(&i) && (holds(j) || loose(j));
        if !assembly.joints.iter().any(kept) {
            findings.push(Finding::new(
                Severity::Fix,
                "part-loose",
                format!("part {}", part.id),
                format!("Nothing holds {}.", part.name),
                "Put a screw on hand that suits it, or glue the joint.",
            ));
        }
    }
}

/// Whether the whole thickness of a screw runs in material from its entry over `length`.
fn runs_inside(solid: &Solid, from: Point, f: &Fastener, length: i64) -> bool {
    let (u, v) = probe::others(f.direction.axis());
    let r = gauge::diameter(f.gauge).get() / 2;
    [(0, 0), (r, 0), (-r, 0), (0, r), (0, -r)].into_iter().all(|(du, dv)| {
        let mut p = from;
        p[u] += du;
        p[v] += dv;
        probe::depth_from(solid, p, f.direction) >= length
    })
}

fn screw_is_wrong(f: &Fastener, first: &Part, second: &Part) -> Option<Finding> {
    let axis = f.direction.axis();
    let through = probe::depth_from(&first.solid, f.entry, f.direction);
    let mut meets = f.entry;
    meets[axis] += f.direction.sign() * through;
    let into = probe::depth_from(&second.solid, meets, f.direction);
    let bites = f.length.get() - through;
    let say = |code: &str, message: String| {
        Some(
            Finding::new(
                Severity::Fix,
                code,
                format!("screw {}", f.id),
                message,
                "Change the screws on hand or the size of the part.",
            )
            .number("goes through", mm(through))
            .number("bites", mm(bites))
            .number("material there", mm(into)),
        )
    };
    if through == 0 || !runs_inside(&first.solid, f.entry, f, through) {
        return say("screw-outside", format!("The screw does not run inside {}.", first.name));
    }
    if bites <= 0 || into == 0 {
        return say("screw-misses", format!("The screw does not reach {}.", second.name));
    }
    if bites > into {
        return say("screw-through", format!("The screw comes out of {}.", second.name));
    }
    if !runs_inside(&second.solid, meets, f, bites) {
        return say("screw-outside", format!("The screw does not run inside {}.", second.name));
    }
    if into - bites < screws::SHORT_OF_FACE {
        return say(
            "screw-near-face",
            format!("The screw ends too near the far face of {}.", second.name),
        );
    }
    None
}

fn screws_clash(assembly: &Assembly, findings: &mut Vec<Finding>) {
    let all: Vec<&Fastener> = assembly.joints.iter().flat_map(|j| &j.fasteners).collect();
    for (i, a) in all.iter().enumerate() {
        for b in all.iter().skip(i + 1) {
            if screws::clash(a, b) {
                findings.push(Finding::new(
                    Severity::Fix,
                    "screws-clash",
                    format!("screw {}", a.id),
                    format!("The screws {} and {} run into each other.", a.id, b.id),
                    "Drive one of them a little to the side along its joint.",
                ));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assembly::{Grain, Kind, MAIN};
    use crate::geometry::{Box3, Direction};
    use crate::units::Length;

    fn part(id: &str, solid: Box3) -> Part {
        Part {
            id: id.to_owned(),
            name: id.to_owned(),
            group: MAIN.to_owned(),
            material: "board".to_owned(),
            kind: Kind::Panel,
            role: Default::default(),
            length: Length(0),
            width: Length(0),
            thickness: Length(18_000),
            grain: Grain::None,
            mass_g: 1,
            solid: Solid::new(solid),
            set_against: Vec::new(),
        }
    }

    fn screw(id: &str, z: i64, length: i64) -> Fastener {
        Fastener {
            id: id.to_owned(),
            kind: "screw".to_owned(),
            gauge: 8,
            length: Length(length),
            pilot: Length(2500),
            entry: [0, 100_000, z],
            direction: Direction::Right,
        }
    }

    /// A side and a shelf against it, `gap` apart, held by the screws.
    fn corner(gap: i64, fasteners: Vec<Fastener>) -> Assembly {
        let side = part("side", Box3::new([0, 0, 0], [18_000, 300_000, 700_000]));
        let shelf =
            part("shelf", Box3::new([18_000 + gap, 0, 300_000], [118_000, 300_000, 318_000]));
        let joint = Joint {
            id: "side+shelf".to_owned(),
            parts: [0, 1],
            kind: JointKind::Butt,
            glue: false,
            fasteners,
        };
        Assembly {
            title: String::new(),
            bodies: Vec::new(),
            parts: vec![side, shelf],
            joints: vec![joint],
            stands_on: Direction::Down,
        }
    }

    fn codes(a: &Assembly) -> Vec<String> {
        check(a).into_iter().map(|f| f.code).collect()
    }

    #[test]
    fn a_sound_corner_passes() {
        assert!(codes(&corner(0, vec![screw("a", 309_000, 50_000)])).is_empty());
    }

    #[test]
    fn each_fault_is_found_and_named() {
        let good = || screw("a", 309_000, 50_000);
        for (assembly, code) in [
            (corner(-1, vec![good()]), "parts-overlap"),
            (corner(1, vec![good()]), "joint-gap"),
            (corner(0, vec![]), "part-loose"),
            (corner(0, vec![screw("a", 317_000, 50_000)]), "screw-outside"),
            (corner(0, vec![screw("a", 400_000, 50_000)]), "screw-misses"),
            (corner(0, vec![screw("a", 309_000, 18_000)]), "screw-misses"),
            (corner(0, vec![screw("a", 309_000, 118_001)]), "screw-through"),
            (corner(0, vec![screw("a", 309_000, 117_000)]), "screw-near-face"),
            (corner(0, vec![good(), screw("b", 311_000, 50_000)]), "screws-clash"),
        ] {
            assert!(codes(&assembly).contains(&code.to_owned()), "{code}: {:?}", codes(&assembly));
        }
        let mut unsaid = corner(0, vec![good()]);
        unsaid.joints.clear();
        assert!(codes(&unsaid).contains(&"joint-missing".to_owned()));
        let amount = &check(&corner(-1, vec![good()]))[0].numbers["amount"];
        assert_eq!(amount, "0.001 mm");
    }
}
