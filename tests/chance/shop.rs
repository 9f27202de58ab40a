//! What stands in the shop.

use jointwise::plan::{Driver, Glue, Workshop};

use crate::dice::Dice;

const MM: i64 = 1000;

/// A bench, a drill, clamps, sometimes other tools; now and then too little of something.
pub fn workshop(dice: &mut Dice) -> Workshop {
    let bit_length = dice.between(25, 110) * MM;
    let clamps = dice.between(0, 3);
    let lengths = [150, 300, 600, 900, 1250].map(|l| l * MM);
    let tools = (dice.between(0, 5) - 3).max(0);
    let short = dice.once_in(8);
    Workshop {
        drill_length: bit_length + dice.between(60, 200) * MM,
        drill_width: dice.between(20, 40) * 2 * MM,
        bit_width: dice.between(3, 8) * 2 * MM,
        bit_length,
        bench_length: dice.pick(&[900, 1200, 1800, 2400]).unwrap_or(1800) * MM,
        bench_width: dice.pick(&[450, 600, 760, 900]).unwrap_or(760) * MM,
        bench_height: dice.pick(&[0, 500, 750, 860, 920]).unwrap_or(860) * MM,
        bearers: dice.pick(&[0, 40]).unwrap_or(0) * MM,
        reach_height: dice.between(1200, 1900) * MM,
        clamps: (0..clamps).filter_map(|_| dice.pick(&lengths)).collect(),
        people: if dice.once_in(3) { 2 } else { 1 },
        square_check: "tape".to_owned(),
        tools: (0..tools).map(|n| driver(dice, n)).collect(),
        glue: Glue {
            open: u32::try_from(dice.between(1, if short { 2 } else { 8 })).unwrap_or(1),
            closed: u32::try_from(dice.between(1, if short { 2 } else { 12 })).unwrap_or(1),
            clamp: u32::try_from(dice.between(10, 60)).unwrap_or(30),
        },
        offcuts: Vec::new(),
        person: None,
    }
}

fn driver(dice: &mut Dice, n: i64) -> Driver {
    let bit_length = dice.between(5, 40) * MM;
    Driver {
        name: format!("driver {}", n + 1),
        length: bit_length + dice.between(10, 80) * MM,
        width: dice.between(8, 30) * 2 * MM,
        bit_width: dice.between(3, 8) * 2 * MM,
        bit_length,
    }
}
