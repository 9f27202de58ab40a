//! Small pieces that nobody designed, listed part by part: bytes choose sizes, places and joints.

use arbitrary::{Arbitrary, Result, Unstructured};
use serde_json::{Value, json};

use super::is_planned_or_told;

/// Few sizes, in millimetres, so that the same come again as they do in a workshop.
const THICK: [i64; 3] = [6, 12, 18];
const LONG: [i64; 6] = [40, 75, 120, 180, 300, 450];
/// How far a part that is let in goes in.
const DEEP: i64 = 4;

/// Plans it.
///
/// # Panics
/// When there is neither a sound plan nor a finding that stops it.
pub fn run(bytes: &[u8]) {
    let text = text(bytes);
    is_planned_or_told(&jointwise::build(&text), &text);
}

/// The scenario file that some bytes stand for.
pub fn text(bytes: &[u8]) -> String {
    // Bytes that run out give the least of everything: never an error here.
    Piece::arbitrary(&mut Unstructured::new(bytes)).map_or_else(|_| String::new(), |p| p.file())
}

/// A part in its place: left front lower corner and size.
#[derive(Debug, Clone, Copy)]
struct Block {
    at: [i64; 3],
    size: [i64; 3],
}

#[derive(Debug)]
struct Piece {
    parts: Vec<(Block, Vec<Block>)>,
    joints: Vec<Value>,
    rest: Value,
    shop: Value,
}

impl<'a> Arbitrary<'a> for Piece {
    fn arbitrary(u: &mut Unstructured<'a>) -> Result<Self> {
        let count = u.int_in_range(2..=6)?;
        let mut piece = Piece {
            parts: vec![(Block { at: [0; 3], size: panel(u)? }, Vec::new())],
            joints: Vec::new(),
            rest: json!({}),
            shop: Value::Null,
        };
        // What would lie in another is left out now and then: mostly the piece should get past the reader.
        for _ in 1..count {
            piece.stick(u)?;
        }
        let count = piece.parts.len();
        if u.ratio(1, 6)? {
            let ends = [u.choose_index(count)?, u.choose_index(count)?];
            let joint = joint(u, ends, None)?;
            piece.joints.push(joint);
        }
        piece.rest = wishes(u, count)?;
        piece.shop = shop(u)?;
        Ok(piece)
    }
}

impl Piece {
    /// One more part against a face of one that is there, now and then let into it.
    fn stick(&mut self, u: &mut Unstructured<'_>) -> Result<()> {
        let host = u.choose_index(self.parts.len())?;
        let (axis, high) = (u.choose_index(3)?, u.arbitrary()?);
        let base = self.parts[host].0;
        let mut new = Block { at: base.at, size: panel(u)? };
        for a in 0..3 {
            let room = base.size[a] - new.size[a];
            new.at[a] += match (a == axis, u.int_in_range(0..=3)?) {
                (true, _) if high => base.size[a],
                (true, _) => -new.size[a],
                (false, 0) => 0,
                (false, 1) => room,
                (false, 2) => room / 2,
                (false, _) => (*u.choose(&LONG)?).min(base.size[a] - THICK[0]),
            };
        }
        if self.parts.iter().any(|(b, _)| overlap(*b, new)) && !u.ratio(1, 20)? {
            return Ok(());
        }
        let mut kind = None;
        // Never by its thickness, which is its sheet's.
        if u.ratio(1, 4)? && base.size[axis] > 2 * DEEP && LONG.contains(&new.size[axis]) {
            new.size[axis] += DEEP;
            new.at[axis] -= if high { DEEP } else { 0 };
            let cut = Block { at: [0, 1, 2].map(|a| new.at[a] - base.at[a]), ..new };
            self.parts[host].1.push(within(cut, base.size));
            kind = Some(if u.arbitrary()? { "dado" } else { "groove" });
        }
        let joint = joint(u, [self.parts.len(), host], kind)?;
        self.joints.push(joint);
        self.parts.push((new, Vec::new()));
        Ok(())
    }

    fn file(&self) -> String {
        let low = |a: usize| self.parts.iter().map(|(b, _)| b.at[a]).min().unwrap_or(0);
        let low = [low(0), low(1), low(2)];
        let part = |(n, (b, cuts)): (usize, &(Block, Vec<Block>))| {
            let thick = b.size.iter().min().copied().unwrap_or(0);
            let sheet = THICK.iter().find(|t| b.size.contains(t)).unwrap_or(&thick);
            let cuts: Vec<Value> =
                cuts.iter().map(|c| json!({ "at": c.at, "size": c.size })).collect();
            let at = [0, 1, 2].map(|a| b.at[a] - low[a]);
            let material = format!("sheet-{sheet}");
            json!({ "id": id(n), "material": material, "at": at, "size": b.size, "cuts": cuts })
        };
        let parts: Vec<Value> = self.parts.iter().enumerate().map(part).collect();
        let mut piece = self.rest["piece"].clone();
        piece["parts"] = json!(parts);
        piece["joints"] = json!(self.joints);
        json!({
            "format": "jointwise-scenario/1",
            "unit": "mm",
            "piece": piece,
            "order": self.rest["order"],
            "shop": self.shop,
        })
        .to_string()
    }
}

fn id(n: usize) -> String {
    format!("part-{}", n + 1)
}

fn overlap(a: Block, b: Block) -> bool {
    (0..3).all(|n| a.at[n] < b.at[n] + b.size[n] && b.at[n] < a.at[n] + a.size[n])
}

/// What of a block lies in a part of that size.
fn within(b: Block, size: [i64; 3]) -> Block {
    let at = [0, 1, 2].map(|a| b.at[a].clamp(0, size[a]));
    let end = [0, 1, 2].map(|a| (b.at[a] + b.size[a]).clamp(0, size[a]));
    Block { at, size: [0, 1, 2].map(|a| end[a] - at[a]) }
}

/// The sizes of a panel, its thickness along any axis.
fn panel(u: &mut Unstructured<'_>) -> Result<[i64; 3]> {
    let mut size = [*u.choose(&THICK)?, *u.choose(&LONG)?, *u.choose(&LONG)?];
    size.rotate_right(u.choose_index(3)?);
    Ok(size)
}

fn joint(u: &mut Unstructured<'_>, ends: [usize; 2], kind: Option<&str>) -> Result<Value> {
    let usual = if u.ratio(1, 10)? { "slide" } else { u.choose(&["butt", "overlay"])? };
    let kind = kind.unwrap_or(usual);
    let mut ends = ends.map(id);
    if u.arbitrary()? {
        ends.reverse();
    }
    let mut joint = json!({ "parts": ends, "kind": kind });
    if kind != "slide" {
        let screws = kind != "groove" && u.ratio(4, 5)?;
        joint["glue"] = (!screws || u.ratio(1, 4)?).into();
        if screws {
            joint["screws"] = json!({});
        }
    }
    Ok(joint)
}

/// How the piece stands, what is a body of its own, and what is decided about the order.
fn wishes(u: &mut Unstructured<'_>, count: usize) -> Result<Value> {
    const FACES: [&str; 6] = ["bottom", "left", "right", "front", "back", "top"];
    let mut rest = json!({ "piece": { "stands_on": u.choose(&FACES)? }, "order": {} });
    if u.ratio(1, 8)? {
        rest["order"]["first"] = id(u.choose_index(count)?).into();
    }
    if u.ratio(1, 8)? {
        rest["order"]["alone"] = true.into();
    }
    if u.ratio(1, 8)? {
        rest["order"]["lay_on"] = json!([u.choose(&FACES)?, u.choose(&FACES)?]);
    }
    if u.ratio(1, 12)? {
        let parts = [id(u.choose_index(count)?), id(u.choose_index(count)?)];
        rest["order"]["done"] = json!({ "parts": parts, "face": u.choose(&FACES)? });
    }
    Ok(rest)
}

fn shop(u: &mut Unstructured<'_>) -> Result<Value> {
    let materials = THICK.map(|t| {
        json!({ "id": format!("sheet-{t}"), "name": format!("sheet of {t} mm"), "kind": "plywood", "thickness": t })
    });
    let screws = [16, 25, 30, 40].map(|l| json!({ "gauge": 6, "length": l }));
    let clamps: Vec<i64> = (0..u.int_in_range(0..=3)?)
        .map(|_| u.choose(&[150, 300, 600, 900]).copied())
        .collect::<Result<_>>()?;
    Ok(json!({
        "materials": materials,
        "screws": screws,
        "clamps": clamps,
        "drill": { "length": *u.choose(&[100, 200, 300])?, "width": *u.choose(&[40, 70])? },
        "people": u.int_in_range(1..=2)?,
        "glue": { "open_minutes": u.int_in_range(1..=8)?, "closed_minutes": 10, "clamp_minutes": 30 },
    }))
}
