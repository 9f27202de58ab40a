//! Sag of a panel under an even load, in micrometres and grams.
//!
//! Two supports: `5/384 W L³/(E I)` with `I = b t³/12`, which is `5 W L³/(32 E b t³)` as
//! mdf-info.eu "MDF shelves and storage units" prints it (read). Four edges: the thin plate on
//! simple supports, coefficients of Timoshenko's table for a Poisson's ratio of 0.3 (from memory;
//! a test holds them to finite differences).

use super::num::{GRAVITY, cube_root, div};

/// A panel that carries an even load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Loaded {
    /// Between its supports, the short way of a plate.
    pub span: i64,
    /// Across the span.
    pub wide: i64,
    /// Thickness.
    pub thick: i64,
    /// Modulus of elasticity in N/mm².
    pub modulus: i64,
    /// Everything on it and its own mass, in grams.
    pub mass_g: i64,
}

/// Greatest sag between two supports.
pub fn beam(l: &Loaded) -> i128 {
    let [span, wide, thick] = [l.span, l.wide, l.thick].map(i128::from);
    let above = 5 * GRAVITY * i128::from(l.mass_g) * span.pow(3);
    div(above, 32 * i128::from(l.modulus) * wide * thick.pow(3))
}

/// Deflection of a plate on four edges: long side over short side in tenths, coefficient of
/// `q a⁴/D` in hundred-thousandths. At 2.5 by finite differences, the rest Timoshenko's.
const PLATE: [(i128, i128); 15] = [
    (10, 406),
    (11, 485),
    (12, 564),
    (13, 638),
    (14, 705),
    (15, 772),
    (16, 830),
    (17, 883),
    (18, 931),
    (19, 974),
    (20, 1013),
    (25, 1150),
    (30, 1223),
    (40, 1282),
    (50, 1297),
];
/// A plate that is very long.
const STRIP: i128 = 1302;

/// The coefficient for a ratio of the sides in thousandths, read between the lines of the table.
pub fn plate_coefficient(ratio: i128) -> i128 {
    for pair in PLATE.windows(2) {
        let ([(low, a), (high, b)], at) = ([pair[0], pair[1]], ratio.max(1000));
        if at <= high * 100 {
            return a + div((b - a) * (at - low * 100), (high - low) * 100);
        }
    }
    STRIP
}

/// Greatest sag of a panel held along four edges.
pub fn plate(l: &Loaded) -> i128 {
    let [a, b] = [l.span.min(l.wide), l.span.max(l.wide)].map(i128::from);
    let thick = i128::from(l.thick);
    let coefficient = plate_coefficient(div(b * 1000, a));
    // 12 (1 - 0.3²) = 10.92, in hundredths; the coefficient in hundred-thousandths.
    let above = coefficient * 1092 * GRAVITY * i128::from(l.mass_g) * a.pow(3);
    div(above, 100_000 * 100 * i128::from(l.modulus) * b * thick.pow(3))
}

/// The longest span whose sag is no more than its 144th under an even load.
///
/// Architectural Woodwork Standards, 1st ed. 2009, section 10: L/144 at 40 or 50 psf (read). From
/// `5 w L⁴/(384 E I) = L/144` with w in psf and E in psi; both cancel to a pure number.
pub fn span_at_a_144th(psi: i64, thick: i64, psf: i64) -> i64 {
    let cubed = 64 * i128::from(psi) * i128::from(thick).pow(3);
    super::num::small(cube_root(cubed / (10 * i128::from(psf.max(1)))))
}

/// What shelves and bottoms may sag: 1/16 in on 12 in of span, 1/4 in at most (ANSI/KCMA A161.1,
/// quoted).
pub fn allowed(span: i64) -> i128 {
    i128::from((span / 192).min(6_350))
}
