//! The workshop and its clamps as the verifier reads them.

use serde::Deserialize;

use super::space::Block;

/// Tools and room.
#[derive(Debug, Deserialize)]
pub struct Workshop {
    /// Tip of the bit to the back of the drill.
    pub drill_length: i64,
    /// Widest part of the drill.
    pub drill_width: i64,
    /// Clear width round the bit.
    pub bit_width: i64,
    /// How far the bit stands out.
    pub bit_length: i64,
    /// Bench, the long way.
    pub bench_length: i64,
    /// Bench, the short way.
    pub bench_width: i64,
    /// Bench top above the floor.
    pub bench_height: i64,
    /// Height of the strips the work lies on.
    #[serde(default)]
    pub bearers: i64,
    /// Highest screw above the floor.
    pub reach_height: i64,
    /// Longest opening of each clamp.
    pub clamps: Vec<i64>,
    /// Who is there.
    pub people: u32,
    /// Other tools that drive screws.
    #[serde(default)]
    pub tools: Vec<Tool>,
    /// The glue's times.
    #[serde(default)]
    pub glue: Glue,
    /// Pieces left over.
    #[serde(default)]
    pub offcuts: Vec<Offcut>,
    /// The room that the person takes, where it counts.
    #[serde(default)]
    pub person: Option<Person>,
}

/// The room that a person takes.
#[derive(Debug, Deserialize)]
pub struct Person {
    /// Of an arm, both ways across.
    pub arm: i64,
    /// Back of the tool to the shoulder.
    pub reach: i64,
    /// Across the shoulders.
    pub shoulders: i64,
    /// The other ways.
    pub chest: i64,
    /// What one hand holds up, in grams.
    pub hand_g: i64,
}

/// A tool that drives screws.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct Tool {
    /// Its name.
    pub name: String,
    /// Tip of the bit to its back.
    pub length: i64,
    /// Its widest part.
    pub width: i64,
    /// Clear width round the bit.
    pub bit_width: i64,
    /// How far the bit stands out.
    pub bit_length: i64,
}

/// Minutes of the glue.
#[derive(Debug, Deserialize)]
pub struct Glue {
    /// From spreading to bringing together.
    pub open: u64,
    /// From then to pressure.
    pub closed: u64,
    /// Under pressure.
    pub clamp: u64,
}

impl Default for Glue {
    /// What the contract says a plan without them means.
    fn default() -> Self {
        Glue { open: 5, closed: 10, clamp: 30 }
    }
}

/// A piece left over.
#[derive(Debug, Deserialize)]
pub struct Offcut {
    /// Its id.
    pub id: String,
    /// Longest way.
    pub length: i64,
    /// Across.
    pub width: i64,
    /// Of the sheet.
    pub thickness: i64,
}

/// Where a clamp goes.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct ClampPlace {
    /// Ids of the two parts it presses together.
    pub parts: [String; 2],
    /// Distance between the jaws.
    pub opening: i64,
    /// Fixed jaw, then the jaw with the screw behind it.
    pub jaws: [Block; 2],
    /// The bar.
    pub bar: Block,
}

impl Workshop {
    /// The drill as a tool like the others.
    pub fn drill(&self) -> Tool {
        Tool {
            name: "drill".into(),
            length: self.drill_length,
            width: self.drill_width,
            bit_width: self.bit_width,
            bit_length: self.bit_length,
        }
    }

    /// Every number that geometry adds or multiplies.
    pub fn numbers(&self) -> Vec<i64> {
        let mut all = vec![
            self.bench_length,
            self.bench_width,
            self.bench_height,
            self.bearers,
            self.reach_height,
        ];
        for t in self.tools.iter().chain([&self.drill()]) {
            all.extend([t.length, t.width, t.bit_width, t.bit_length]);
        }
        for o in &self.offcuts {
            all.extend([o.length, o.width, o.thickness]);
        }
        all.extend(&self.clamps);
        if let Some(p) = &self.person {
            all.extend([p.arm, p.reach, p.shoulders, p.chest]);
        }
        all
    }
}

impl ClampPlace {
    /// Every number that geometry adds or multiplies.
    pub fn numbers(&self) -> Vec<i64> {
        let boxes = self.jaws.iter().chain([&self.bar]).flatten().copied();
        boxes.chain([self.opening]).collect()
    }
}
