//! Sag and spans of shelves and bottoms.

use jointwise::checks::beam::{Loaded, allowed, beam, plate_coefficient, span_at_a_144th};

const INCH: i64 = 25_400;

#[test]
fn the_twelve_spans_of_the_architectural_woodwork_standards_come_out() {
    // Architectural Woodwork Standards, 1st ed. 2009, section 10, 4.4.14.10, p. 279 (read): MOE in psi, thickness
    // in quarters of an inch, longest spans in inches at 40 and at 50 psf.
    let printed = [
        (950_000, 3, [40, 37]),
        (950_000, 4, [53, 49]),
        (1_800_000, 3, [49, 46]),
        (1_800_000, 4, [66, 61]),
        (1_820_000, 3, [49, 46]),
        (1_820_000, 4, [66, 61]),
    ];
    for (psi, quarters, spans) in printed {
        for (psf, span) in [40, 50].into_iter().zip(spans) {
            let ours = span_at_a_144th(psi, quarters * INCH / 4, psf);
            // The standard prints whole inches, and 45.98 as 46.
            assert_eq!(
                (ours + INCH / 20) / INCH,
                span,
                "{psi} psi, {quarters}/4 in, {psf} psf: {ours}"
            );
        }
    }
}

#[test]
fn mdf_sags_as_its_industry_says() {
    // mdf-info.eu, "MDF shelves and storage units" (read): d = 5 W L^3 9.81/(32 E b t^3), E 2500 N/mm2; 20 kg on 300 by
    // 18 mm, lengths 600, 800, 1000 mm give 1.514, 3.588, 7.009 mm (worked out).
    for (span, um) in [(600, 1_514), (800, 3_588), (1000, 7_009)] {
        let l = Loaded {
            span: span * 1000,
            wide: 300_000,
            thick: 18_000,
            modulus: 2500,
            mass_g: 20_000,
        };
        assert!((beam(&l) - um).abs() <= 1, "{span}: {}", beam(&l));
    }
}

#[test]
fn a_bottom_stays_within_the_limit_of_the_cabinet_makers_test() {
    // ANSI/KCMA A161.1 (quoted): 15 psf, 1/16 in on 12 in. 3/4 in MDF, E 2500 N/mm2: 22.5 in sags 0.027 of 0.117 in,
    // 34.5 in 0.151 of 0.180 in (worked out).
    for (span, sag, limit) in [(22.5, 0.027, 0.117), (34.5, 0.151, 0.180)] {
        let span = (span * INCH as f64) as i64;
        let pascal = 15.0 * 47.880_259;
        let area = span as f64 * 1e-6;
        let mass_g = (pascal * area / 9.81 * 1000.0).round() as i64;
        let l = Loaded { span, wide: 1_000_000, thick: INCH * 3 / 4, modulus: 2500, mass_g };
        let inches = |um: i128| um as f64 / INCH as f64;
        assert!((inches(beam(&l)) - sag).abs() < 0.0006, "{}", inches(beam(&l)));
        assert!((inches(allowed(span)) - limit).abs() < 0.0006, "{}", inches(allowed(span)));
    }
    assert_eq!(allowed(2_000_000), 6_350, "1/4 in at most");
}

#[test]
fn plate_coefficients_lie_between_the_square_and_the_strip() {
    assert_eq!(
        [plate_coefficient(1000), plate_coefficient(1050), plate_coefficient(2500)],
        [406, 446, 1150]
    );
    assert_eq!([plate_coefficient(900), plate_coefficient(6000)], [406, 1302]);
}
