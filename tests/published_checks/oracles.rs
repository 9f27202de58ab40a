//! The same numbers by other ways.

use std::fs;
use std::path::Path;

use jointwise::checks::beam::{Loaded, beam, plate};
use jointwise::checks::stack::stack;
use jointwise::checks::weigh;
use jointwise::scenario;
use jointwise_tests::dice::Dice;

/// Poisson's equation on a line with nothing at its ends: `u'' = f`.
fn poisson(f: &[f64], step: f64) -> Vec<f64> {
    let n = f.len();
    let (mut c, mut d) = (vec![0.0; n], vec![0.0; n]);
    for i in 0..n {
        let before = if i == 0 { (0.0, 0.0) } else { (c[i - 1], d[i - 1]) };
        let m = -2.0 - before.0;
        c[i] = 1.0 / m;
        d[i] = (f[i] * step * step - before.1) / m;
    }
    for i in (0..n - 1).rev() {
        d[i] -= c[i] * d[i + 1];
    }
    d
}

#[test]
fn a_beam_sags_as_by_finite_differences() {
    for (span, wide, thick, modulus, mass_g) in [
        (470_000, 580_000, 19_050, 2500, 24_000),
        (900_000, 300_000, 18_000, 2500, 20_000),
        (1_200_000, 250_000, 12_000, 6960, 5_000),
    ] {
        let l = Loaded { span, wide, thick, modulus, mass_g };
        let n = 999;
        let step = span as f64 / 1000.0 / (n + 1) as f64;
        let inertia = wide as f64 / 1000.0 * (thick as f64 / 1000.0).powi(3) / 12.0;
        let q = mass_g as f64 / 1000.0 * 9.81 / (span as f64 / 1000.0);
        let moment = poisson(&vec![-q; n], step);
        let sag = poisson(
            &moment.iter().map(|m| -m / (modulus as f64 * inertia)).collect::<Vec<_>>(),
            step,
        );
        let most = sag.iter().copied().fold(0.0, f64::max) * 1000.0;
        assert!((beam(&l) as f64 - most).abs() < 1.0 + most * 1e-5, "{} {most}", beam(&l));
    }
}

/// Poisson's equation on a rectangle with nothing along its edges, by overrelaxation.
fn poisson_2d(f: &[f64], n: usize, m: usize, hx: f64, hy: f64) -> Vec<f64> {
    let at = |i: usize, j: usize| i * (m + 2) + j;
    let mut u = vec![0.0; (n + 2) * (m + 2)];
    let (ax, ay) = (1.0 / (hx * hx), 1.0 / (hy * hy));
    // The best factor has the sine of pi / (n + 1) here; for a grid this fine, the angle will do.
    let over = 2.0 / (1.0 + std::f64::consts::PI / (n.max(m) + 1) as f64);
    for _ in 0..600 {
        for i in 1..=n {
            for j in 1..=m {
                let around = ax * (u[at(i - 1, j)] + u[at(i + 1, j)])
                    + ay * (u[at(i, j - 1)] + u[at(i, j + 1)]);
                let new = (around - f[at(i, j)]) / (2.0 * (ax + ay));
                u[at(i, j)] += over * (new - u[at(i, j)]);
            }
        }
    }
    u
}

#[test]
fn a_plate_sags_as_by_finite_differences() {
    for ratio in [1.0, 1.15, 1.5, 1.75, 2.0, 2.5, 3.0, 4.0] {
        let span = 400_000;
        let l = Loaded {
            span,
            wide: (400_000.0 * ratio) as i64,
            thick: 5_600,
            modulus: 6960,
            mass_g: 18_000,
        };
        let (n, m) = (39, 39);
        let [a, b] = [l.span, l.wide].map(|v| v as f64 / 1000.0);
        let (hx, hy) = (a / 40.0, b / 40.0);
        let stiff = 6960.0 * 5.6_f64.powi(3) / (12.0 * (1.0 - 0.09));
        let q = 18.0 * 9.81 / (a * b);
        let moment = poisson_2d(&vec![-q; (n + 2) * (m + 2)], n, m, hx, hy);
        let sag = poisson_2d(&moment.iter().map(|v| -v / stiff).collect::<Vec<_>>(), n, m, hx, hy);
        let most = sag.iter().copied().fold(0.0, f64::max) * 1000.0;
        let ours = plate(&l) as f64;
        assert!((ours / most - 1.0).abs() < 0.012, "{ratio}: {ours} {most}");
    }
}

/// Six times the volume, and twenty-four times the first moments, of a box as the sum of tetrahedra from the origin
/// over the twelve triangles of its skin.
fn tetrahedra(b: [i64; 6]) -> (i128, [i128; 3]) {
    let corner = |n: usize| -> [i128; 3] {
        std::array::from_fn(|axis| i128::from(b[axis + if n >> axis & 1 == 1 { 3 } else { 0 }]))
    };
    // Each face by its corners, seen from outside, going round against the clock.
    let faces =
        [[0, 4, 6, 2], [1, 3, 7, 5], [0, 1, 5, 4], [2, 6, 7, 3], [0, 2, 3, 1], [4, 5, 7, 6]];
    let (mut volume, mut moments) = (0, [0; 3]);
    for face in faces {
        for [p, q, r] in [[face[0], face[1], face[2]], [face[0], face[2], face[3]]] {
            let [p, q, r] = [p, q, r].map(corner);
            let six = p[0] * (q[1] * r[2] - q[2] * r[1]) - p[1] * (q[0] * r[2] - q[2] * r[0])
                + p[2] * (q[0] * r[1] - q[1] * r[0]);
            volume += six;
            for axis in 0..3 {
                moments[axis] += six * (p[axis] + q[axis] + r[axis]);
            }
        }
    }
    (volume, moments)
}

#[test]
fn every_scenario_weighs_and_balances_as_by_tetrahedra() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut seen = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|e| e != "json") {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        let plan = jointwise::build(&text).plan.unwrap();
        let scenario = scenario::read(&text).0.unwrap();
        let (mass, centre) = weigh(&plan, &scenario);
        let (mut sum, mut moments) = (0.0, [0.0; 3]);
        for part in &plan.parts {
            let (mut volume, mut first) = (0, [0; 3]);
            for b in &part.boxes {
                let (v, m) = tetrahedra((*b).into());
                volume += v;
                for axis in 0..3 {
                    first[axis] += m[axis];
                }
            }
            // What is cut weighs by its material's density; what is bought as the plan says.
            let grams = match scenario.shop.material(&part.material) {
                Some(m) => volume as f64 / 6.0 * m.density as f64 * 1e-15,
                None => part.mass_g as f64,
            };
            sum += grams;
            for axis in 0..3 {
                moments[axis] += grams * first[axis] as f64 / (4.0 * volume as f64);
            }
        }
        // Each part is rounded to the gram.
        let parts = plan.parts.len() as f64;
        assert!((mass as f64 - sum).abs() <= parts, "{}: {mass} {sum}", path.display());
        for axis in 0..3 {
            let off = centre[axis] as f64 - moments[axis] / sum;
            assert!(off.abs() < 200.0, "{} axis {axis}: off by {off} um", path.display());
        }
        seen += 1;
    }
    assert!(seen >= 8);
}

#[test]
fn tolerances_add_up_as_they_do_by_chance() {
    let each = [250, 250, 500, 500, 1000];
    let (worst, likely) = stack(&each);
    assert_eq!((worst, likely), (2500, 1274));
    let mut dice = Dice::new(7);
    let (draws, mut squares, mut widest) = (40_000, 0.0, 0);
    for _ in 0..draws {
        let off: i64 = each.iter().map(|t| dice.between(-t, *t)).sum();
        squares += (off * off) as f64;
        widest = widest.max(off.abs());
    }
    assert!(widest <= worst && widest > likely, "{widest}");
    // Each lies anywhere within its own: a deviation of t/√3.
    let deviation = (squares / f64::from(draws)).sqrt() * 3.0_f64.sqrt();
    assert!((deviation / likely as f64 - 1.0).abs() < 0.02, "{deviation}");
}
