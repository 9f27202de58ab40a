//! Pieces of any number of parts, for measuring and for properties: a shelved case with boxes in it.
//!
//! Written as scenario files, so that they go the whole way, here and in the page's module. In whole
//! millimetres.

use jointwise::assembly::{Assembly, JointKind, MAIN};
use jointwise::findings::{Finding, has_stop};
use jointwise::plan::Workshop;
use serde_json::json;

/// A panel: id, body, outer box, what is cut out of it.
#[derive(Debug, Clone)]
pub struct Panel {
    /// Unique.
    pub id: String,
    /// The body it belongs to.
    pub group: String,
    /// Outer box `[x0, y0, z0, x1, y1, z1]`.
    pub at: [i64; 6],
    /// Grooves and dadoes.
    pub cuts: Vec<[i64; 6]>,
}

/// How two panels are joined; screws go through the first.
#[derive(Debug, Clone)]
pub struct Meet {
    /// Indices of the panels.
    pub parts: [usize; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Whether glue goes on.
    pub glue: bool,
    /// Whether screws hold it.
    pub screws: bool,
    /// Where they go, when they are not left to the planner: two in the middle of the joint.
    pub places: Vec<[i64; 3]>,
}

/// Panels and how they are joined.
#[derive(Debug, Clone, Default)]
pub struct Piece {
    /// All panels, in the order of the cut list.
    pub panels: Vec<Panel>,
    /// All joints between them.
    pub meets: Vec<Meet>,
}

impl Piece {
    fn panel(&mut self, id: &str, group: &str, at: [i64; 6], cuts: &[[i64; 6]]) -> usize {
        self.panels.push(Panel {
            id: id.to_owned(),
            group: group.to_owned(),
            at,
            cuts: cuts.to_vec(),
        });
        self.panels.len() - 1
    }

    fn screwed(&mut self, through: usize, into: usize) {
        self.placed_screws([through, into], true, &[]);
    }

    fn placed_screws(&mut self, parts: [usize; 2], glue: bool, places: &[[i64; 3]]) {
        let (kind, places) = (JointKind::Butt, places.to_vec());
        self.meets.push(Meet { parts, kind, glue, screws: true, places });
    }

    fn loose(&mut self, parts: [usize; 2], kind: JointKind) {
        self.meets.push(Meet { parts, kind, glue: false, screws: false, places: Vec::new() });
    }

    /// Takes up all of another piece, moved along x, its ids after a prefix; the place of its first panel.
    fn take(&mut self, other: Piece, prefix: &str, x: i64) -> usize {
        let first = self.panels.len();
        let moved = |b: [i64; 6]| [b[0] + x, b[1], b[2], b[3] + x, b[4], b[5]];
        self.panels.extend(other.panels.into_iter().map(|p| Panel {
            id: format!("{prefix}-{}", p.id),
            group: p.group,
            at: moved(p.at),
            cuts: p.cuts.into_iter().map(moved).collect(),
        }));
        let meets = other.meets.into_iter();
        self.meets.extend(meets.map(|m| Meet { parts: m.parts.map(|p| p + first), ..m }));
        first
    }

    /// The piece as a scenario file, in a shop with a bench, or room on the floor, on which it fits, and a
    /// drill of common size.
    pub fn scenario(&self) -> String {
        let size = |b: &[i64; 6]| [b[3] - b[0], b[4] - b[1], b[5] - b[2]];
        let material = |p: &Panel| {
            let thin = size(&p.at).into_iter().min().unwrap_or(0);
            format!("sheet-{thin}")
        };
        let mut thicknesses: Vec<i64> =
            self.panels.iter().filter_map(|p| size(&p.at).into_iter().min()).collect();
        thicknesses.sort_unstable();
        thicknesses.dedup();
        let mut bodies: Vec<&str> = self.panels.iter().map(|p| p.group.as_str()).collect();
        bodies.sort_unstable();
        bodies.dedup();
        let part = |p: &Panel| {
            let from = |b: &[i64; 6]| [b[0] - p.at[0], b[1] - p.at[1], b[2] - p.at[2]];
            let cuts = p.cuts.iter().map(|c| json!({ "at": from(c), "size": size(c) }));
            json!({
                "id": p.id,
                "body": p.group,
                "material": material(p),
                "at": p.at[..3],
                "size": size(&p.at),
                "cuts": cuts.collect::<Vec<_>>(),
            })
        };
        let joint = |m: &Meet| {
            let mut joint = json!({
                "parts": m.parts.map(|p| self.panels[p].id.as_str()),
                "kind": m.kind,
                "glue": m.glue,
            });
            if m.screws {
                joint["screws"] = match m.places[..] {
                    [] => json!({}),
                    _ => json!({ "at": m.places }),
                };
            }
            joint
        };
        let extent = |a: usize| {
            let (least, most) =
                (self.panels.iter().map(|p| p.at[a]), self.panels.iter().map(|p| p.at[a + 3]));
            most.max().unwrap_or(0) - least.min().unwrap_or(0)
        };
        let mut extents = [0, 1, 2].map(extent);
        extents.sort_unstable();
        let [_, broad, long] = extents;
        let screw = |gauge: u8, length: u8| json!({ "gauge": gauge, "length": length });
        let file = json!({
            "format": "jointwise-scenario/1",
            "title": format!("Case of {} parts", self.panels.len()),
            "unit": "mm",
            "piece": {
                "bodies": bodies.iter().map(|b| json!({ "id": b })).collect::<Vec<_>>(),
                "parts": self.panels.iter().map(part).collect::<Vec<_>>(),
                "joints": self.meets.iter().map(joint).collect::<Vec<_>>(),
            },
            "shop": {
                "materials": thicknesses.iter().map(|t| json!({
                    "id": format!("sheet-{t}"), "kind": "plywood", "thickness": t,
                })).collect::<Vec<_>>(),
                "screws": [screw(8, 50), screw(8, 45), screw(8, 35), screw(8, 30), screw(6, 40),
                    screw(6, 35), screw(6, 30), screw(4, 35), screw(4, 30)],
                "clamps": [900, 900, 900, 900],
                "bench": { "length": long.max(2400), "width": broad.max(800) },
                "reach_height": 1800,
                "people": 2,
            },
        });
        format!("{file:#}\n")
    }

    /// The piece as the planner takes it, with the shop; what the reader or the design finds wrong
    /// when there is any.
    pub fn designed(&self) -> Result<(Assembly, Workshop), Vec<Finding>> {
        let (scenario, mut findings) = jointwise::scenario::read(&self.scenario());
        let Some(scenario) = scenario else {
            return Err(findings);
        };
        let (design, said) = jointwise::design::design(&scenario);
        findings.extend(said);
        match design {
            Some(design) if !has_stop(&findings) => Ok((design.assembly, scenario.shop.workshop)),
            _ => Err(findings),
        }
    }
}

/// A case 600 wide and 400 deep in 18 mm board: two sides, bottom, top, a thin back in grooves all
/// round; `rails` below the top, at most two; `shelves`, each on two cleats; `boxes` of five parts, each
/// sliding on two cleats. That is 5 + rails + 3 a shelf + 7 a box.
pub fn case(rails: i64, shelves: i64, boxes: i64) -> Piece {
    const SHELF_BAY: i64 = 130;
    const BOX_BAY: i64 = 150;
    let high = 300 + shelves * SHELF_BAY + boxes * BOX_BAY;
    let mut p = Piece::default();
    let left_groove = [12, 380, 12, 18, 386, high - 12];
    let right_groove = [582, 380, 12, 588, 386, high - 12];
    let left = p.panel("left-side", MAIN, [0, 0, 0, 18, 400, high], &[left_groove]);
    let right = p.panel("right-side", MAIN, [582, 0, 0, 600, 400, high], &[right_groove]);
    let bottom = p.panel("bottom", MAIN, [18, 0, 0, 582, 400, 18], &[[18, 380, 12, 582, 386, 18]]);
    let top = p.panel(
        "top",
        MAIN,
        [18, 0, high - 18, 582, 400, high],
        &[[18, 380, high - 18, 582, 386, high - 12]],
    );
    let back = p.panel("back", MAIN, [12, 380, 12, 588, 386, high - 12], &[]);
    for end in [bottom, top] {
        p.screwed(left, end);
        p.screwed(right, end);
    }
    for grooved in [left, right, bottom, top] {
        p.loose([grooved, back], JointKind::Groove);
    }
    for (id, y) in [("front-rail", 0), ("rear-rail", 362)].into_iter().take(rails.max(0) as usize) {
        let rail = p.panel(id, MAIN, [18, y, high - 78, 582, y + 18, high - 18], &[]);
        p.screwed(left, rail);
        p.screwed(right, rail);
    }
    let mut z = 18;
    for n in 1..=shelves {
        cleats(&mut p, [left, right], &format!("shelf-{n}"), z + SHELF_BAY - 38);
        let at = z + SHELF_BAY - 18;
        let shelf = p.panel(&format!("shelf-{n}"), MAIN, [18, 0, at, 582, 380, at + 18], &[]);
        p.screwed(left, shelf);
        p.screwed(right, shelf);
        z += SHELF_BAY;
    }
    for n in 1..=boxes {
        let cleats = cleats(&mut p, [left, right], &format!("box-{n}"), z + 10);
        let id = format!("box-{n}");
        pull_out(&mut p, cleats, &id, &id, z + 30);
        z += BOX_BAY;
    }
    p
}

/// A cleat on each side, screwed from inside.
fn cleats(p: &mut Piece, sides: [usize; 2], of: &str, z: i64) -> [usize; 2] {
    let at = |x: i64| [x, 20, z, x + 20, 360, z + 20];
    let cleats = [("left", 18), ("right", 562)]
        .map(|(side, x)| p.panel(&format!("{of}-{side}-cleat"), MAIN, at(x), &[]));
    for (cleat, side) in cleats.into_iter().zip(sides) {
        p.screwed(cleat, side);
    }
    cleats
}

/// A box of 15 mm board with a thin bottom in grooves, on two cleats; its parts in a body.
fn pull_out(p: &mut Piece, cleats: [usize; 2], id: &str, body: &str, z: i64) {
    let (low, high) = (z + 10, z + 16);
    let top = z + 100;
    let side = |p: &mut Piece, name: &str, x: i64, groove: i64| {
        let cut = [groove, 9, low, groove + 6, 361, high];
        p.panel(&format!("{id}-{name}"), body, [x, 0, z, x + 15, 370, top], &[cut])
    };
    let left = side(p, "left", 19, 28);
    let right = side(p, "right", 566, 566);
    let end = |p: &mut Piece, name: &str, y: i64, groove: i64| {
        let cut = [34, groove, low, 566, groove + 6, high];
        p.panel(&format!("{id}-{name}"), body, [34, y, z, 566, y + 15, top], &[cut])
    };
    let front = end(p, "front", 0, 9);
    let rear = end(p, "rear", 355, 355);
    let bottom = p.panel(&format!("{id}-bottom"), body, [28, 9, low, 572, 361, high], &[]);
    for end in [front, rear] {
        p.screwed(left, end);
        p.screwed(right, end);
    }
    for grooved in [left, right, front, rear] {
        p.loose([grooved, bottom], JointKind::Groove);
    }
    for (cleat, side) in cleats.into_iter().zip([left, right]) {
        p.loose([cleat, side], JointKind::Slide);
    }
}

/// A wall of cases side by side, each of 20 parts with 5 shelves, screwed to the next through their sides
/// above the top shelf. All parts are of one body.
pub fn wall(cases: i64) -> Piece {
    const SHELVES: i64 = 5;
    let mut p = Piece::default();
    let mut before: Option<usize> = None;
    for n in 0..cases {
        let one = case(0, SHELVES, 0);
        let high = one.panels[0].at[5];
        let x = 600 * n;
        let left = p.take(one, &format!("case-{}", n + 1), x);
        if let Some(right) = before {
            p.placed_screws([right, left], false, &[[x, 100, high - 150], [x, 300, high - 150]]);
        }
        before = Some(left + 1);
    }
    p
}

/// A chest of one or two columns of boxes, each of five parts sliding on two cleats, with a divider between
/// two columns: 5 parts and 7 a row, or 6 and 14. All parts are of one body.
pub fn chest(columns: i64, rows: i64) -> Piece {
    const BAY: i64 = 150;
    let two = columns > 1;
    let high = 100 + rows * BAY;
    let wide = if two { 1182 } else { 600 };
    let groove = |x: i64| [x, 380, 12, x + 6, 386, high - 12];
    let mut p = Piece::default();
    let left = p.panel("left-side", MAIN, [0, 0, 0, 18, 400, high], &[groove(12)]);
    let divider = two.then(|| p.panel("divider", MAIN, [582, 0, 18, 600, 380, high - 18], &[]));
    let right =
        p.panel("right-side", MAIN, [wide - 18, 0, 0, wide, 400, high], &[groove(wide - 18)]);
    let level = |z: i64, cut: i64| {
        ([18, 0, z, wide - 18, 400, z + 18], [18, 380, cut, wide - 18, 386, cut + 6])
    };
    let (at, cut) = level(0, 12);
    let bottom = p.panel("bottom", MAIN, at, &[cut]);
    let (at, cut) = level(high - 18, high - 18);
    let top = p.panel("top", MAIN, at, &[cut]);
    let back = p.panel("back", MAIN, [12, 380, 12, wide - 12, 386, high - 12], &[]);
    for end in [bottom, top] {
        p.screwed(left, end);
        p.screwed(right, end);
        if let Some(divider) = divider {
            p.screwed(end, divider);
        }
    }
    for grooved in [left, right, bottom, top] {
        p.loose([grooved, back], JointKind::Groove);
    }
    // Not level with each other: the divider takes screws from both sides.
    let columns = match divider {
        Some(divider) => {
            vec![("left-", [left, divider], 0, 0), ("right-", [divider, right], 582, 40)]
        }
        None => vec![("", [left, right], 0, 0)],
    };
    for (column, sides, x, up) in columns {
        for row in 1..=rows {
            let z = 18 + up + (row - 1) * BAY;
            let id = format!("{column}box-{row}");
            let mut one = Piece::default();
            let own = [18, 562].map(|side| {
                let name = if side == 18 { "left-cleat" } else { "right-cleat" };
                one.panel(name, MAIN, [side, 20, z + 10, side + 20, 360, z + 30], &[])
            });
            pull_out(&mut one, own, "box", MAIN, z + 30);
            let first = p.take(one, &id, x);
            for (cleat, side) in own.into_iter().zip(sides) {
                p.screwed(first + cleat, side);
            }
        }
    }
    p
}

/// Sizes measured, as [`case`] takes them: 5, 8, 11, 14, 16, 24, 40 and 60 parts.
pub const FAMILY: [(i64, i64, i64); 8] =
    [(0, 0, 0), (0, 1, 0), (0, 2, 0), (0, 3, 0), (2, 3, 0), (0, 4, 1), (0, 0, 5), (0, 2, 7)];

/// Pieces that are too large to be ordered in one: a wall of 200 parts, and a chest of 90.
pub fn large() -> [(&'static str, Piece); 2] {
    [("wall", wall(10)), ("chest", chest(2, 6))]
}
