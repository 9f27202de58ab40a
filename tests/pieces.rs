//! Pieces of any number of parts, for measuring and for properties: a shelved case with boxes in it.
//!
//! Everything is in whole millimetres until it becomes an assembly.

use jointwise::assembly::{Assembly, Fastener, Grain, Joint, JointKind, Kind, MAIN, Part};
use jointwise::geometry::{Box3, Direction, Solid};
use jointwise::plan::{Glue, Workshop};
use jointwise::units::Length;

const MM: i64 = 1000;

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
    /// Whether two screws hold it.
    pub screws: bool,
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
        let parts = [through, into];
        self.meets.push(Meet { parts, kind: JointKind::Butt, glue: true, screws: true });
    }

    fn loose(&mut self, parts: [usize; 2], kind: JointKind) {
        self.meets.push(Meet { parts, kind, glue: false, screws: false });
    }

    /// The piece as the planner takes it: screws placed, and a touch for every other two parts that
    /// share a face.
    pub fn assembly(&self) -> Assembly {
        let parts: Vec<Part> = self.panels.iter().map(part).collect();
        let mut joints: Vec<Joint> = self.meets.iter().map(|m| joint(&parts, m)).collect();
        for (b, second) in parts.iter().enumerate() {
            for (a, first) in parts[..b].iter().enumerate() {
                let known = joints.iter().any(|j| j.parts == [a, b] || j.parts == [b, a]);
                if !known && !first.solid.contacts(&second.solid).is_empty() {
                    let kind = JointKind::Touch;
                    let touch = Meet { parts: [a, b], kind, glue: false, screws: false };
                    joints.push(joint(&parts, &touch));
                }
            }
        }
        let mut bodies = vec![(MAIN.to_owned(), "case".to_owned())];
        for part in &parts {
            if !bodies.iter().any(|b| b.0 == part.group) {
                bodies.push((part.group.clone(), part.group.replace('-', " ")));
            }
        }
        Assembly {
            title: format!("Case of {} parts", parts.len()),
            parts,
            joints,
            stands_on: Direction::Down,
            bodies,
        }
    }
}

fn part(panel: &Panel) -> Part {
    let um = |b: &[i64; 6]| Box3::from(b.map(|v| v * MM));
    let outer = um(&panel.at);
    let mut solid = Solid::new(outer);
    panel.cuts.iter().for_each(|cut| solid.cut(&um(cut)));
    let mut sizes = [0, 1, 2].map(|a| outer.extent(a));
    sizes.sort_unstable();
    // Plywood of 650 kg/m³.
    let mass = solid.volume() * 65 / 100_000_000_000_000;
    Part {
        id: panel.id.clone(),
        name: panel.id.replace('-', " "),
        group: panel.group.clone(),
        material: "ply".to_owned(),
        kind: Kind::Panel,
        length: Length(sizes[2]),
        width: Length(sizes[1]),
        thickness: Length(sizes[0]),
        grain: Grain::None,
        mass_g: i64::try_from(mass).unwrap_or(i64::MAX).max(1),
        solid,
        set_against: Vec::new(),
    }
}

/// A joint with its two screws, a quarter of the way in from each end of the largest shared face.
fn joint(parts: &[Part], meet: &Meet) -> Joint {
    let [a, b] = meet.parts.map(|p| &parts[p]);
    let id = format!("{}+{}", a.id, b.id);
    let contacts = a.solid.contacts(&b.solid);
    let largest = contacts.iter().max_by_key(|c| c.area()).filter(|_| meet.screws);
    let screws = |c: &jointwise::geometry::Contact| {
        let axis = c.direction.axis();
        let long = (0..3).max_by_key(|&i| c.face.extent(i)).unwrap_or(0);
        let through = a.thickness.get();
        let into = b.solid.bounds().extent(axis);
        [1, 3].map(|quarter| {
            let mut entry = [0, 1, 2].map(|i| i64::midpoint(c.face.min[i], c.face.max[i]));
            entry[long] = c.face.min[long] + c.face.extent(long) * quarter / 4;
            entry[axis] = a.solid.bounds().face(c.direction.opposite());
            Fastener {
                id: format!("{id}-{quarter}"),
                kind: "screw".to_owned(),
                gauge: 8,
                // Short of the far side.
                length: Length(through + (into - 3 * MM).min(28 * MM)),
                pilot: Length(2800),
                entry,
                direction: c.direction,
            }
        })
    };
    let fasteners = largest.map(|c| screws(c).to_vec()).unwrap_or_default();
    Joint { id, parts: meet.parts, kind: meet.kind, glue: meet.glue, fasteners }
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
        pull_out(&mut p, cleats, &format!("box-{n}"), z + 30);
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

/// A box of 15 mm board with a thin bottom in grooves, on two cleats.
fn pull_out(p: &mut Piece, cleats: [usize; 2], id: &str, z: i64) {
    let (low, high) = (z + 10, z + 16);
    let top = z + 100;
    let side = |p: &mut Piece, name: &str, x: i64, groove: i64| {
        let cut = [groove, 9, low, groove + 6, 361, high];
        p.panel(&format!("{id}-{name}"), id, [x, 0, z, x + 15, 370, top], &[cut])
    };
    let left = side(p, "left", 19, 28);
    let right = side(p, "right", 566, 566);
    let end = |p: &mut Piece, name: &str, y: i64, groove: i64| {
        let cut = [34, groove, low, 566, groove + 6, high];
        p.panel(&format!("{id}-{name}"), id, [34, y, z, 566, y + 15, top], &[cut])
    };
    let front = end(p, "front", 0, 9);
    let rear = end(p, "rear", 355, 355);
    let bottom = p.panel(&format!("{id}-bottom"), id, [28, 9, low, 572, 361, high], &[]);
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

/// Sizes measured, as [`case`] takes them: 5, 8, 11, 14, 16, 24, 40 and 60 parts.
pub const FAMILY: [(i64, i64, i64); 8] =
    [(0, 0, 0), (0, 1, 0), (0, 2, 0), (0, 3, 0), (2, 3, 0), (0, 4, 1), (0, 0, 5), (0, 2, 7)];

/// A shop with a long bench and a drill of common size.
pub fn workshop() -> Workshop {
    Workshop {
        drill_length: 250 * MM,
        drill_width: 75 * MM,
        bit_width: 12 * MM,
        bit_length: 90 * MM,
        bench_length: 2400 * MM,
        bench_width: 800 * MM,
        bench_height: 860 * MM,
        bearers: 40 * MM,
        reach_height: 1800 * MM,
        clamps: vec![900 * MM; 4],
        people: 2,
        square_check: "tape".to_owned(),
        tools: Vec::new(),
        glue: Glue::default(),
        offcuts: Vec::new(),
    }
}
