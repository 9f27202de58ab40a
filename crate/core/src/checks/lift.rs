//! The revised lifting equation: what one person lifts with both hands, in fixed point.
//!
//! Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) Publication 94-110,
//! rev. 9/2021: `RWL = LC HM VM DM AM FM CM`, `LI = L/RWL`. Multipliers are millionths.

use super::num::{ONE, POUND_UG, div};

/// Which of the manual's two sets of constants: they give different answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// Centimetres and kilograms.
    Metric,
    /// Inches and pounds.
    Us,
}

/// How a worksheet is filled in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rounding {
    /// As printed: multipliers to two decimals, with the entries of the printed tables.
    Worksheet,
    /// To the millionth.
    Full,
}

/// How well hands hold the load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Coupling {
    /// Handles.
    Good,
    /// Handles or cut-outs that are less than good.
    Fair,
    /// None, or a load too big to hold well.
    Poor,
}

/// For how long one lifts: the columns of table 5.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Duration {
    /// Up to an hour.
    Hour,
    /// One to two hours.
    TwoHours,
    /// Two to eight hours.
    EightHours,
}

/// One lift, evaluated at one of its ends. Lengths in micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lift {
    /// From between the ankles to between the hands, level.
    pub reach: i64,
    /// Height of the hands at the end that is evaluated.
    pub height: i64,
    /// Height of the hands where the lift begins: table 5 asks for it.
    pub origin: i64,
    /// How far the hands move up or down.
    pub travel: i64,
    /// How far one twists, in degrees.
    pub twist: i64,
    /// Lifts a minute, in tenths.
    pub frequency: i64,
    /// For how long.
    pub duration: Duration,
    /// The hold.
    pub coupling: Coupling,
}

/// The six multipliers in millionths.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Multipliers {
    /// HM, VM, DM, AM, FM, CM.
    pub all: [i128; 6],
}

/// Rows of table 5: lifts a minute in tenths; hundredths for up to one, two and eight hours, each
/// with the hands below 30 in (75 cm) and above.
const FREQUENCY: [(i64, [i128; 6]); 17] = [
    (2, [100, 100, 95, 95, 85, 85]),
    (5, [97, 97, 92, 92, 81, 81]),
    (10, [94, 94, 88, 88, 75, 75]),
    (20, [91, 91, 84, 84, 65, 65]),
    (30, [88, 88, 79, 79, 55, 55]),
    (40, [84, 84, 72, 72, 45, 45]),
    (50, [80, 80, 60, 60, 35, 35]),
    (60, [75, 75, 50, 50, 27, 27]),
    (70, [70, 70, 42, 42, 22, 22]),
    (80, [60, 60, 35, 35, 18, 18]),
    (90, [52, 52, 30, 30, 0, 15]),
    (100, [45, 45, 26, 26, 0, 13]),
    (110, [41, 41, 0, 23, 0, 0]),
    (120, [37, 37, 0, 21, 0, 0]),
    (130, [0, 34, 0, 0, 0, 0]),
    (140, [0, 31, 0, 0, 0, 0]),
    (150, [0, 28, 0, 0, 0, 0]),
];

/// Below this height of the hands the columns and couplings differ.
fn knuckles(system: System) -> i64 {
    match system {
        System::Metric => 750_000,
        System::Us => 762_000,
    }
}

/// Table 5, read between its rows.
fn frequency(tenths: i64, column: usize) -> i128 {
    let at = tenths.max(2);
    for pair in FREQUENCY.windows(2) {
        let [(low, a), (high, b)] = [pair[0], pair[1]];
        if at <= high {
            let [a, b] = [a[column], b[column]].map(|v| v * 10_000);
            return a + div((b - a) * i128::from(at - low), i128::from(high - low));
        }
    }
    0
}

/// The multipliers of a lift.
pub fn multipliers(l: &Lift, system: System, rounding: Rounding) -> Multipliers {
    let us = system == System::Us;
    // One inch or one centimetre, and the limits of the table in them.
    let unit: i64 = if us { 25_400 } else { 10_000 };
    let (near, far) = if us { (10, 25) } else { (25, 63) };
    let most: i64 = if us { 70 } else { 175 };
    let reach = l.reach.max(near * unit);
    let hm =
        if reach > far * unit { 0 } else { div(i128::from(near * unit) * ONE, i128::from(reach)) };
    let off = i128::from((l.height - knuckles(system)).abs());
    let slope = if us { 7_500 } else { 3_000 };
    let vm = if l.height > most * unit || l.height < 0 {
        0
    } else {
        ONE - div(slope * off, i128::from(unit))
    };
    let travel = l.travel.abs().max(near * unit);
    let over = if us { 1_800_000 } else { 4_500_000 };
    let dm = if travel > most * unit {
        0
    } else {
        820_000 + div(over * i128::from(unit), i128::from(travel))
    };
    let am = if l.twist > 135 { 0 } else { ONE - 3_200 * i128::from(l.twist) };
    let column = match l.duration {
        Duration::Hour => 0,
        Duration::TwoHours => 2,
        Duration::EightHours => 4,
    } + usize::from(l.origin >= knuckles(system));
    let fm = frequency(l.frequency, column);
    let cm = match (l.coupling, l.height >= knuckles(system)) {
        (Coupling::Good, _) | (Coupling::Fair, true) => ONE,
        (Coupling::Fair, false) => 950_000,
        (Coupling::Poor, _) => 900_000,
    };
    let mut all = [hm, vm, dm, am, fm, cm];
    if rounding == Rounding::Worksheet {
        all = all.map(|m| div(m, 10_000) * 10_000);
        // Three entries of the printed tables are not what the formula rounds to.
        match (us, reach / unit, reach % unit) {
            (true, 22, 0) => all[0] = 460_000,
            (true, 23, 0) => all[0] = 440_000,
            _ => {}
        }
        if !us && travel == 130 * unit {
            all[2] = 860_000;
        }
    }
    Multipliers { all }
}

/// The recommended weight limit in milligrams.
pub fn limit_mg(l: &Lift, system: System, rounding: Rounding) -> i128 {
    let constant = match system {
        System::Metric => 23_000_000,
        System::Us => 51 * POUND_UG / 1_000,
    };
    let m = multipliers(l, system, rounding);
    m.all.iter().fold(constant, |limit, multiplier| div(limit * multiplier, ONE))
}

/// The lifting index in millionths; none when nothing may be lifted so.
pub fn index(mass_g: i64, limit_mg: i128) -> Option<i128> {
    (limit_mg > 0).then(|| div(i128::from(mass_g) * 1_000 * ONE, limit_mg))
}
