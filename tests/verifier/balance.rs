//! Weight over support: the centre of gravity of some parts above the hull of what they stand on.

use super::file::Part;
use super::space::Way;

/// Tangent of the tilt that a free-standing thing must bear, 5 degrees.
///
/// Common practice, no source: a thin panel on its edge passes a mere equilibrium test.
const TILT: f64 = 0.087_488_663_5;

/// Slack for rounding, micrometres. Everything else in the verifier is exact.
const SLACK: f64 = 2.0;

/// Centre of gravity of parts of uniform solids.
pub fn centre<'a>(parts: impl Iterator<Item = &'a Part>) -> Option<[f64; 3]> {
    let (mut total, mut moment) = (0.0, [0.0; 3]);
    for part in parts {
        let size = |b: &[i64; 6]| (0..3).map(|a| (b[a + 3] - b[a]) as f64).product::<f64>();
        let volume: f64 = part.boxes.iter().map(size).sum();
        if volume <= 0.0 {
            continue;
        }
        let mass = part.mass_g as f64;
        total += mass;
        for b in &part.boxes {
            for (a, sum) in moment.iter_mut().enumerate() {
                *sum += mass * size(b) / volume * (b[a] + b[a + 3]) as f64 / 2.0;
            }
        }
    }
    (total > 0.0).then(|| moment.map(|sum| sum / total))
}

/// Left turns only, in order; collinear points left out (Andrew's monotone chain).
fn hull(mut points: Vec<[i64; 2]>) -> Vec<[i64; 2]> {
    points.sort_unstable();
    points.dedup();
    let cross = |o: [i64; 2], a: [i64; 2], b: [i64; 2]| {
        i128::from(a[0] - o[0]) * i128::from(b[1] - o[1])
            - i128::from(a[1] - o[1]) * i128::from(b[0] - o[0])
    };
    let half = |points: &mut dyn Iterator<Item = [i64; 2]>| {
        let mut out: Vec<[i64; 2]> = Vec::new();
        for p in points {
            while out.len() >= 2 && cross(out[out.len() - 2], out[out.len() - 1], p) <= 0 {
                out.pop();
            }
            out.push(p);
        }
        out.pop();
        out
    };
    let mut out = half(&mut points.iter().copied());
    out.extend(half(&mut points.iter().rev().copied()));
    out
}

/// How a thing lies on what carries it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rest {
    /// It bears a tilt of 5 degrees.
    Stands,
    /// Its centre is over what carries it, too near the edge.
    Tips,
    /// Nothing carries it, or only beside its centre.
    Lifted,
}

/// How far inside the hull of the support the centre stays when the whole is tilted by 5 degrees,
/// and without a tilt. Nothing when nothing carries it.
///
/// `support` lists rectangles across `down`, each with its depth along it.
fn margins(
    down: Way,
    centre: [f64; 3],
    support: &[(i64, [[i64; 2]; 2])],
) -> Option<(f64, f64, f64)> {
    let lowest = support.iter().map(|s| s.0).max()?;
    let corners = support
        .iter()
        .flat_map(|(_, [u, v])| [[u[0], v[0]], [u[1], v[0]], [u[1], v[1]], [u[0], v[1]]]);
    let hull = hull(corners.collect());
    if hull.len() < 3 {
        return None;
    }
    let sign = if down.grows() { 1.0 } else { -1.0 };
    let height = (lowest as f64 - sign * centre[down.axis()]).max(0.0);
    let [p, q] = down.across().map(|a| centre[a]);
    let inside = |a: &[i64; 2], b: &[i64; 2]| {
        let (du, dv) = ((b[0] - a[0]) as f64, (b[1] - a[1]) as f64);
        (du * (q - a[1] as f64) - dv * (p - a[0] as f64)) / du.hypot(dv)
    };
    let edges = hull.iter().zip(hull.iter().cycle().skip(1));
    let least = edges.map(|(a, b)| inside(a, b)).fold(f64::INFINITY, f64::min);
    Some((least - height * TILT, least, height))
}

/// Whether a centre of gravity stays over its support when the whole is tilted by 5 degrees.
pub fn is_stable(down: Way, centre: [f64; 3], support: &[(i64, [[i64; 2]; 2])]) -> bool {
    margins(down, centre, support).is_some_and(|(tilted, ..)| tilted + SLACK >= 0.0)
}

/// As [`is_stable`], beyond what rounding the angle or the centre could make of it.
pub fn is_surely_stable(down: Way, centre: [f64; 3], support: &[(i64, [[i64; 2]; 2])]) -> bool {
    margins(down, centre, support)
        .is_some_and(|(tilted, _, height)| tilted - SLACK - height / 1_000.0 > 0.0)
}

/// The ways in which a thing that does not stand may be said to lie: both where its centre is
/// outside the hull of what carries it, and yet not beyond its ends.
pub fn rest(down: Way, centre: [f64; 3], support: &[(i64, [[i64; 2]; 2])]) -> Vec<Rest> {
    let mut out = Vec::new();
    if is_stable(down, centre, support) {
        out.push(Rest::Stands);
    }
    if is_surely_stable(down, centre, support) {
        return out;
    }
    let over = |slack: f64| {
        down.across().into_iter().enumerate().all(|(i, a)| {
            let ends = support.iter().map(|s| s.1[i]);
            let low = ends.clone().map(|e| e[0]).min().unwrap_or(i64::MAX) as f64;
            let high = ends.map(|e| e[1]).max().unwrap_or(i64::MIN) as f64;
            low - slack <= centre[a] && centre[a] <= high + slack
        })
    };
    let within = margins(down, centre, support).map_or(f64::NEG_INFINITY, |m| m.1);
    if over(SLACK) {
        out.push(Rest::Tips);
    }
    if within < SLACK {
        out.push(Rest::Lifted);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verifier::space::Block;

    fn part(b: Block) -> Part {
        Part {
            id: "panel".into(),
            group: "main".into(),
            kind: "panel".into(),
            length: 0,
            width: 0,
            thickness: 0,
            mass_g: 1_000,
            boxes: vec![b],
        }
    }

    fn stands(thickness: i64, height: i64) -> bool {
        let b = [0, 0, 0, thickness, 500_000, height];
        let centre = centre([part(b)].iter()).unwrap_or_default();
        is_stable(Way::Down, centre, &[(0, [[0, thickness], [0, 500_000]])])
    }

    /// A panel on its edge bears a tilt of 5 degrees up to a height of its thickness / tan 5°.
    #[test]
    fn a_panel_stands_up_to_its_thickness_over_the_tangent() {
        assert!(stands(18_000, 205_700));
        assert!(!stands(18_000, 205_900));
        assert!(!stands(18_000, 700_000));
    }

    /// Two panels of one mass: the centre is half way between theirs, and outside one's foot.
    #[test]
    fn the_centre_follows_the_masses() {
        let two = [part([0, 0, 0, 10, 10, 10]), part([100, 0, 0, 120, 10, 40])];
        assert_eq!(centre(two.iter()), Some([57.5, 5.0, 12.5]));
        let foot = (0, [[0, 10_000], [0, 10_000]]);
        assert!(!is_stable(Way::Down, [57_500.0, 5_000.0, 0.0], &[foot]));
        let feet = [foot, (0, [[100_000, 120_000], [0, 10_000]])];
        assert!(is_stable(Way::Down, [57_500.0, 5_000.0, 0.0], &feet));
    }
}
