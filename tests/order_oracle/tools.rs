//! Room for what drives a screw, and a place for a clamp.

use jointwise::assembly::{Assembly, Fastener};

use super::blocks::{Block, Contact, Way, across, any_meet, around, axis, contacts, largest, sign};
use super::body::{Body, Mask, blocks_of};

const MM: i64 = 1000;

/// The jaws are square, this wide.
const JAW: i64 = 30 * MM;
/// How thick a jaw is.
const JAW_THICK: i64 = 20 * MM;
/// How far the screw stands out behind the second jaw.
const SCREW: i64 = 100 * MM;
/// Thickness of the bar, across.
const BAR: i64 = 15 * MM;
/// From the middle of the jaws to the middle of the bar.
const THROAT: i64 = 60 * MM;
/// How far in from an edge of the contact the jaws may sit.
const INWARD: i64 = 20 * MM;

/// Which tool drives a joint: 0 the drill, else one more than its place among the others; none when
/// none of them reaches all its screws.
pub fn driver(body: &Body, link: usize, set: Mask, face: Way) -> Option<usize> {
    let shop = body.shop;
    let plane = body.plane(set, face);
    let there = &body.unit(set).blocks;
    let screws = &body.assembly.joints[body.links[link].joint].fasteners;
    (0..=shop.tools.len()).find(|&tool| {
        screws.iter().all(|screw| {
            let room = room(body, screw, tool);
            let above = plane - screw.entry[axis(face)] * sign(face);
            !any_meet(&room, there)
                && room.iter().all(|b| b.reach(face) <= plane + shop.bearers)
                && shop.bench_height + shop.bearers + above <= shop.reach_height
        })
    })
}

/// The room that the tool takes which drives a joint; nothing when none does.
pub fn driver_room(body: &Body, link: usize, set: Mask, face: Way) -> Vec<Block> {
    let screws = &body.assembly.joints[body.links[link].joint].fasteners;
    let tool = driver(body, link, set, face);
    tool.map_or_else(Vec::new, |t| screws.iter().flat_map(|s| room(body, s, t)).collect())
}

/// Bit and body of a tool behind a screw's entry.
fn room(body: &Body, screw: &Fastener, tool: usize) -> [Block; 2] {
    let shop = body.shop;
    let mut tools = vec![(shop.drill_length, shop.drill_width, shop.bit_width, shop.bit_length)];
    tools.extend(shop.tools.iter().map(|t| (t.length, t.width, t.bit_width, t.bit_length)));
    let (length, width, bit_width, bit_length) = tools[tool];
    let way: Way = screw.direction as usize;
    let behind = |from: i64, to: i64, wide: i64| {
        let mut b = Block { lo: screw.entry, hi: screw.entry };
        for a in across(axis(way)) {
            b.lo[a] -= wide / 2;
            b.hi[a] += wide / 2;
        }
        let ends = [from, to].map(|d| screw.entry[axis(way)] - sign(way) * d);
        b.lo[axis(way)] = ends[0].min(ends[1]);
        b.hi[axis(way)] = ends[0].max(ends[1]);
        b
    };
    let own = screw.length.0;
    [
        behind(0, own + bit_length, bit_width),
        behind(bit_length, own + length.max(bit_length + 1), width),
    ]
}

/// Whether a clamp has a place over the two parts of a joint.
pub fn has_place(body: &Body, link: usize, set: Mask, face: Way) -> bool {
    let Some((contact, both)) = pressed(body.assembly, body.links[link].joint) else {
        return false;
    };
    let there = &body.unit(set).blocks;
    let bench = body.plane(set, face) + body.shop.bearers;
    places(&contact, &both)
        .iter()
        .any(|place| !any_meet(place, there) && place.iter().all(|b| b.reach(face) <= bench))
}

/// The distance between the jaws of a clamp over the two parts of a joint.
pub fn opening(assembly: &Assembly, joint: usize) -> i64 {
    pressed(assembly, joint).map_or(0, |(contact, both)| around(&both).size(axis(contact.way)))
}

/// The largest contact of the two parts of a joint, and the room both take.
fn pressed(assembly: &Assembly, joint: usize) -> Option<(Contact, Vec<Block>)> {
    let [a, b] = assembly.joints[joint].parts.map(|p| blocks_of(assembly, p));
    let contact = largest(&contacts(&a, &b))?;
    Some((contact, [a, b].concat()))
}

/// Every place of a clamp over two parts: a jaw, the other jaw, the screw behind one, the bar.
fn places(contact: &Contact, both: &[Block]) -> Vec<[Block; 4]> {
    let normal = axis(contact.way);
    let [u, v] = across(normal);
    let face = contact.face;
    let middle = [u, v].map(|a| (face.lo[a] + face.hi[a]).div_euclid(2));
    let middles = [
        middle,
        [face.lo[u] + INWARD, middle[1]],
        [face.hi[u] - INWARD, middle[1]],
        [middle[0], face.lo[v] + INWARD],
        [middle[0], face.hi[v] - INWARD],
    ];
    let (low, high) = (around(both).lo[normal], around(both).hi[normal]);
    let slab = |from: i64, to: i64, [u0, u1]: [i64; 2], [v0, v1]: [i64; 2]| {
        let mut b = Block { lo: [from; 3], hi: [to; 3] };
        (b.lo[u], b.hi[u], b.lo[v], b.hi[v]) = (u0, u1, v0, v1);
        b
    };
    let wide = |m: i64, width: i64| [m - width / 2, m + width / 2];
    let mut found = Vec::new();
    for [mu, mv] in middles {
        let on = |at: i64| {
            let mut p = [at; 3];
            (p[u], p[v]) = (mu, mv);
            both.iter().any(|b| b.holds(p))
        };
        if !on(low) || !on(high) {
            continue;
        }
        let jaws = [
            slab(low - JAW_THICK, low, wide(mu, JAW), wide(mv, JAW)),
            slab(high, high + JAW_THICK, wide(mu, JAW), wide(mv, JAW)),
        ];
        for screw_is_low in [true, false] {
            let (start, end) = (low - JAW_THICK, high + JAW_THICK);
            let (from, to) = if screw_is_low { (start - SCREW, start) } else { (end, end + SCREW) };
            let screw = slab(from, to, wide(mu, JAW), wide(mv, JAW));
            let bar = |us: [i64; 2], vs: [i64; 2]| slab(start.min(from), end.max(to), us, vs);
            for far in [-THROAT, THROAT] {
                let aside = [
                    bar(wide(mu + far, BAR), wide(mv, JAW)),
                    bar(wide(mu, JAW), wide(mv + far, BAR)),
                ];
                found.extend(aside.map(|bar| [jaws[0], jaws[1], screw, bar]));
            }
        }
    }
    found
}

/// Whether there is a clamp of its own, long enough, for each opening.
pub fn enough_clamps(openings: &[i64], clamps: &[i64]) -> bool {
    let (mut wanted, mut there) = (openings.to_vec(), clamps.to_vec());
    wanted.sort_unstable_by_key(|o| -o);
    there.sort_unstable_by_key(|o| -o);
    wanted.len() <= there.len() && wanted.iter().zip(&there).all(|(w, t)| w <= t)
}
