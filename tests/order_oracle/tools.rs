//! Room for what drives a screw, and a place for a clamp.

use super::blocks::{
    Block, Contact, Way, across, any_meet, around, axis, back, contacts, largest, sign,
};
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
/// From the middle of the jaws to the bar.
const THROAT: i64 = 60 * MM;
/// How far in from an edge of the contact the jaws may sit.
const INWARD: i64 = 20 * MM;

/// Which tool drives a joint: 0 the drill, else one more than its place among the others; none when
/// none of them reaches all its screws.
pub fn driver(body: &Body, link: usize, set: Mask, face: Way) -> Option<usize> {
    let shop = body.shop;
    let mut tools = vec![(shop.drill_length, shop.drill_width, shop.bit_width, shop.bit_length)];
    tools.extend(shop.tools.iter().map(|t| (t.length, t.width, t.bit_width, t.bit_length)));
    let plane = body.plane(set, face);
    let there = body.blocks(set);
    let screws = &body.assembly.joints[body.links[link].joint].fasteners;
    tools.iter().position(|&(length, width, bit_width, bit_length)| {
        screws.iter().all(|screw| {
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
            let room = [
                behind(0, own + bit_length, bit_width),
                behind(bit_length, own + length.max(bit_length + 1), width),
            ];
            let above = plane - screw.entry[axis(face)] * sign(face);
            !any_meet(&room, &there)
                && room.iter().all(|b| b.reach(face) <= plane + shop.bearers)
                && shop.bench_height + shop.bearers + above <= shop.reach_height
        })
    })
}

/// The opening a clamp needs to press the two parts of a joint together, when it has a place.
pub fn clamp(body: &Body, link: usize, set: Mask, face: Way) -> Option<i64> {
    let [a, b] = body.assembly.joints[body.links[link].joint].parts;
    let [a, b] = [a, b].map(|p| blocks_of(body.assembly, p));
    let contact = largest(&contacts(&a, &b))?;
    let there = body.blocks(set);
    let bench = body.plane(set, face) + body.shop.bearers;
    let fits = |first: &[Block], second: &[Block], way: Way| {
        places(first, second, &contact, way)
            .into_iter()
            .any(|place| !any_meet(&place, &there) && place.iter().all(|b| b.reach(face) <= bench))
    };
    // The screw is at either end.
    let found = fits(&a, &b, contact.way) || fits(&b, &a, back(contact.way));
    found.then(|| opening(body, link))
}

/// The distance between the jaws of a clamp over the two parts of a joint.
pub fn opening(body: &Body, link: usize) -> i64 {
    let parts = body.assembly.joints[body.links[link].joint].parts;
    let [a, b] = parts.map(|p| blocks_of(body.assembly, p));
    largest(&contacts(&a, &b))
        .map_or(0, |c| around(&b).reach(c.way) + around(&a).reach(back(c.way)))
}

/// Every place of a clamp that presses `first` and `second` together, which lies from it in
/// direction `way`: both jaws, the screw and the bar.
fn places(first: &[Block], second: &[Block], contact: &Contact, way: Way) -> Vec<[Block; 4]> {
    let normal = axis(way);
    let [u, v] = across(normal);
    let face = contact.face;
    let middle = [u, v].map(|a| (face.lo[a] + face.hi[a]) / 2);
    let middles = [
        middle,
        [face.lo[u] + INWARD, middle[1]],
        [face.hi[u] - INWARD, middle[1]],
        [middle[0], face.lo[v] + INWARD],
        [middle[0], face.hi[v] - INWARD],
    ];
    // Along the clamp, counted in its own direction.
    let start = -around(first).reach(back(way));
    let end = around(second).reach(way);
    let slab = |from: i64, to: i64, [u0, u1]: [i64; 2], [v0, v1]: [i64; 2]| {
        let ends = [from * sign(way), to * sign(way)];
        let mut b = Block { lo: [0; 3], hi: [0; 3] };
        (b.lo[normal], b.hi[normal]) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        (b.lo[u], b.hi[u], b.lo[v], b.hi[v]) = (u0, u1, v0, v1);
        b
    };
    let mut found = Vec::new();
    for [mu, mv] in middles {
        let on = |blocks: &[Block], at: i64| {
            let mut p = [0; 3];
            (p[normal], p[u], p[v]) = (at * sign(way), mu, mv);
            blocks
                .iter()
                .any(|b| b.holds(p) && [b.lo[normal], b.hi[normal]].contains(&(at * sign(way))))
        };
        if !on(first, start) || !on(second, end) {
            continue;
        }
        let wide = |m: i64| [m - JAW / 2, m + JAW / 2];
        let aside = |m: i64, far: bool| {
            if far { [m + THROAT, m + THROAT + BAR] } else { [m - THROAT - BAR, m - THROAT] }
        };
        let length = (start - JAW_THICK, end + JAW_THICK + SCREW);
        let bars = [
            slab(length.0, length.1, aside(mu, false), wide(mv)),
            slab(length.0, length.1, aside(mu, true), wide(mv)),
            slab(length.0, length.1, wide(mu), aside(mv, false)),
            slab(length.0, length.1, wide(mu), aside(mv, true)),
        ];
        found.extend(bars.map(|bar| {
            [
                slab(start - JAW_THICK, start, wide(mu), wide(mv)),
                slab(end, end + JAW_THICK, wide(mu), wide(mv)),
                slab(end + JAW_THICK, end + JAW_THICK + SCREW, wide(mu), wide(mv)),
                bar,
            ]
        }));
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
