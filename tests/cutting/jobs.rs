//! Jobs of cutting sheets: made by chance, and from lists of sizes.

use jointwise::assembly::Grain;
use jointwise::cutting::{Aim, CutPart, GrainRule, Job, Keep, Stages, Stock, Trim};

use crate::dice::Dice;

/// A unit of a published list, as a length.
pub const UNIT: i64 = 1000;

/// Sheets as many as it takes, price 1, grain along the length.
pub fn sheet(length: i64, width: i64) -> Stock {
    Stock {
        id: format!("{length} x {width}"),
        material: "sheet".to_owned(),
        length,
        width,
        count: None,
        price: 1,
        trim: Trim::default(),
        grain: Grain::Length,
        scrap: false,
    }
}

/// A part of the material of [`sheet`].
pub fn part(length: i64, width: i64, count: u32, grain: GrainRule) -> CutPart {
    CutPart {
        id: format!("{length} x {width}"),
        material: "sheet".to_owned(),
        length,
        width,
        count,
        grain,
        hidden: false,
        value: 0,
    }
}

/// Parts of a published list (length, width, count) on one sheet, without kerf, as many stages as it takes.
pub fn published(size: (i64, i64), list: &[(i64, i64, u32)], grain: GrainRule) -> Job {
    Job {
        stock: vec![sheet(size.0 * UNIT, size.1 * UNIT)],
        parts: list.iter().map(|(l, w, n)| part(l * UNIT, w * UNIT, *n, grain)).collect(),
        stages: Stages::Unlimited,
        ..Job::default()
    }
}

const STAGES: [Stages; 4] = [Stages::Two, Stages::Three, Stages::Four, Stages::Unlimited];
const GRAINS: [Grain; 3] = [Grain::Length, Grain::Width, Grain::None];

fn rule(dice: &mut Dice) -> GrainRule {
    if dice.once_in(2) { GrainRule::Locked } else { GrainRule::Free }
}

/// A few parts on one or two sizes of sheet, small enough for the oracle. Sizes are small numbers, so that exact fits
/// are common.
pub fn small(seed: u64) -> Job {
    let mut dice = Dice::new(seed);
    let dice = &mut dice;
    let mut job = Job {
        kerf: dice.pick(&[0, 0, 1, 2]).unwrap_or(0),
        stages: dice.pick(&STAGES).unwrap_or_default(),
        seed,
        keep: Keep { long: 4, short: 3 },
        ..Job::default()
    };
    let grain = dice.pick(&GRAINS).unwrap_or(Grain::None);
    let first = (dice.between(10, 16), dice.between(8, 14));
    job.stock.push(Stock { price: dice.between(5, 9), grain, ..sheet(first.0, first.1) });
    if dice.once_in(3) {
        let (length, width) = (dice.between(6, 20), dice.between(6, 12));
        job.stock.push(Stock { price: dice.between(2, 9), grain, ..sheet(length, width) });
    }
    let mut left = dice.between(3, 6);
    while left > 0 {
        let count = dice.between(1, left.min(3));
        left -= count;
        let (length, width) = (dice.between(2, 8), dice.between(2, 8));
        let grain = rule(dice);
        let value = length * width + dice.between(0, 9);
        let count = u32::try_from(count).unwrap_or(1);
        job.parts.push(CutPart { value, ..part(length, width, count, grain) });
    }
    job
}

/// A job as a shop may have it: several materials, trims, scraps, hidden parts, a smallest safe cut, short stock.
pub fn shop(seed: u64) -> Job {
    let mut dice = Dice::new(seed);
    let dice = &mut dice;
    let mut job = Job {
        kerf: dice.pick(&[0, 2200, 3200, 3175]).unwrap_or(0),
        least_cut: dice.pick(&[0, 0, 5000, 20_000]).unwrap_or(0),
        stages: dice.pick(&STAGES).unwrap_or_default(),
        aim: dice
            .pick(&[
                Aim::LeastCost,
                Aim::LeastCost,
                Aim::FewestSheets,
                Aim::CostAlone,
                Aim::MostValue,
            ])
            .unwrap_or_default(),
        seed,
        ..Job::default()
    };
    for material in ["ply", "board"].iter().take(if dice.once_in(2) { 1 } else { 2 }) {
        stock(&mut job, material, dice);
        for n in 0..dice.between(1, 12) {
            let mm = dice.once_in(2);
            let mut side = |most: i64| {
                let mm_side = dice.between(50, most);
                if mm {
                    mm_side * 1000
                } else {
                    mm_side / 25 * 25_400 + 1588 * (mm_side % 16) + 20_000
                }
            };
            let (length, width) = (side(1100), side(600));
            job.parts.push(CutPart {
                id: format!("{material} {n}"),
                material: (*material).to_owned(),
                hidden: dice.once_in(3),
                value: dice.between(0, 5000),
                ..part(length, width, u32::try_from(dice.between(1, 4)).unwrap_or(1), rule(dice))
            });
        }
    }
    job
}

fn stock(job: &mut Job, material: &str, dice: &mut Dice) {
    let sizes = [(2440, 1220), (2500, 1250), (1525, 1525), (2800, 2070)];
    let kinds = dice.between(1, 2);
    for n in 0..kinds {
        let (length, width) = dice.pick(&sizes).unwrap_or((2440, 1220));
        let trim = Trim {
            left: dice.between(0, 12) * 1000,
            right: dice.between(0, 12) * 1000,
            front: dice.between(0, 12) * 1000,
            back: dice.between(0, 12) * 1000,
        };
        job.stock.push(Stock {
            id: format!("{material} sheet {n}"),
            material: material.to_owned(),
            count: if dice.once_in(3) {
                Some(u32::try_from(dice.between(0, 3)).unwrap_or(1))
            } else {
                None
            },
            price: dice.between(1000, 9000),
            trim: if dice.once_in(2) { trim } else { Trim::default() },
            grain: dice.pick(&GRAINS).unwrap_or(Grain::None),
            ..sheet(length * 1000, width * 1000)
        });
    }
    for n in 0..dice.between(0, 3) {
        job.stock.push(Stock {
            id: format!("{material} scrap {n}"),
            material: material.to_owned(),
            count: Some(1),
            price: 0,
            grain: dice.pick(&GRAINS).unwrap_or(Grain::None),
            scrap: true,
            ..sheet(dice.between(150, 1300) * 1000, dice.between(80, 700) * 1000)
        });
    }
}

/// What a busy shop cuts in a day: `pieces` parts of cabinets of chance, of four materials, in millimetres a maker
/// would meet. Sheets as many as it takes, and a few scraps.
pub fn day(seed: u64, pieces: u32) -> Job {
    let mut dice = Dice::new(seed);
    let stock = |material: &str, length: i64, width: i64, count, grain, scrap| Stock {
        id: format!("{material}, {length} x {width}"),
        material: material.to_owned(),
        length: length * 1000,
        width: width * 1000,
        count,
        price: if scrap { 0 } else { 60 },
        trim: Trim::all(if scrap { 0 } else { 5000 }),
        grain,
        scrap,
    };
    let mut job = Job { kerf: 3200, ..Job::default() };
    for material in ["carcass 18", "front 19", "box 12", "back 6"] {
        let grain = if material == "front 19" { Grain::None } else { Grain::Length };
        job.stock.push(stock(material, 2440, 1220, None, grain, false));
        let (length, width) = (dice.between(500, 1100), dice.between(250, 600));
        job.stock.push(stock(material, length, width, Some(2), grain, true));
    }
    let mut left = pieces;
    for n in 0.. {
        // Pairs and sets of alike parts, as cabinets have them.
        let count = u32::try_from(dice.between(1, 4)).unwrap_or(1).min(left);
        let usual = [
            ("carcass 18", (560, 2000), (250, 600)),
            ("front 19", (300, 900), (120, 600)),
            ("box 12", (200, 550), (80, 250)),
            ("back 6", (400, 2000), (300, 900)),
        ];
        let (name, lengths, widths) = usual[usize::try_from(dice.between(0, 3)).unwrap_or(0)];
        job.parts.push(CutPart {
            id: format!("part {n}"),
            material: name.to_owned(),
            length: dice.between(lengths.0, lengths.1) * 1000,
            width: dice.between(widths.0, widths.1) * 1000,
            count,
            grain: rule(&mut dice),
            hidden: dice.once_in(3),
            value: 0,
        });
        left -= count;
        if left == 0 {
            break;
        }
    }
    job
}
