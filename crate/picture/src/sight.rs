//! What of a step the eye meets, pixel by pixel: the same boxes seen by the same eye as in the
//! picture, drawn into a buffer of names instead of colours, without a graphics processor.

use jointwise::export::clamp::Since;
use three_d::{InnerSpace, Mat4, Vec3, Vec4, vec3};

use crate::camera::Camera;
use crate::edges::Skin;
use crate::pick::Slab;
use crate::scene::{Clamp, Model, Moment};
use crate::shapes::{ring, slab_skin};

/// A ring is drawn over two pixels wide, so that it wins against the face it lies on by as many.
const TOWARDS: f32 = 2.6;

/// Something that a step is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Target {
    /// Parts that come in as one, by their places in the model.
    Parts(Vec<usize>),
    /// A screw by its place among those driven: its head, and the ring round it.
    Screw(usize),
    /// Where parts touch, pair by pair; to see one of them is enough.
    Joint(Vec<[usize; 2]>),
}

/// How much of something is seen.
#[derive(Debug, Clone, Default)]
pub struct Seen {
    /// Pixels that are.
    pub clear: usize,
    /// Pixels that would be if nothing stood before it.
    pub all: usize,
    /// Parts that stand before it, with the pixels each hides.
    pub hidden_by: Vec<(usize, usize)>,
}

/// The nearest thing at each CSS pixel of a frame.
pub struct Sight<'a> {
    model: &'a Model,
    moment: &'a Moment,
    width: usize,
    height: usize,
    /// One more than the place of the part; 0 for all else.
    part: Vec<u32>,
    /// One through the distance from the plane of the eye: larger is nearer, 0 is nothing.
    near: Vec<f32>,
    matrix: Mat4,
    /// Where the eye is, standing pose.
    eye: Vec3,
    /// Millimetres under a pixel.
    pixel: f32,
}

/// A pixel of the frame, by its place in the buffer, and how near what lies there is.
type Spot = (usize, f32);

impl<'a> Sight<'a> {
    /// Everything with faces that the picture shows at an instant.
    pub fn of(model: &'a Model, step: usize, moment: &'a Moment, camera: &Camera) -> Sight<'a> {
        let (w, h) = camera.size();
        let (width, height) = (w.ceil().max(1.0) as usize, h.ceil().max(1.0) as usize);
        let cells = width.saturating_mul(height);
        let mut sight = Sight {
            model,
            moment,
            width,
            height,
            part: vec![0; cells],
            near: vec![0.0; cells],
            matrix: camera.matrix(),
            eye: moment.pose.point_back(camera.eye()),
            pixel: camera.millimetres_per_pixel(),
        };
        for item in moment.items.iter().filter(|i| !moment.through && !i.open) {
            let mut spots = Vec::new();
            sight.part_spots(item.index, |spot| spots.push(spot));
            sight.cover(spots, item.index as u32 + 1);
        }
        if moment.aids_open {
            return sight;
        }
        let place = moment.pose.matrix(vec3(0., 0., 0.));
        let off = |c: &&Clamp| c.since != Since::Off;
        let clamps = moment.clamps.iter().filter(off).flat_map(|c| &c.slabs);
        let solid = clamps.chain(&moment.spacer).map(|slab| (slab, place));
        let strips = model.bearers.get(step).into_iter().flatten();
        for (slab, place) in solid.chain(strips.map(|slab| (slab, Camera::unmoved()))) {
            let mut spots = Vec::new();
            sight.skin(&slab_skin(slab), place, |spot| spots.push(spot));
            sight.cover(spots, 0);
        }
        sight
    }

    /// The part at a pixel, by its place in the model.
    pub fn at(&self, x: usize, y: usize) -> Option<usize> {
        let id = *self.part.get(y.checked_mul(self.width)?.checked_add(x)?)?;
        (x < self.width && id > 0).then(|| id as usize - 1)
    }

    /// How much of something is seen.
    pub fn look(&self, target: &Target) -> Seen {
        match target {
            Target::Parts(parts) => {
                let mut spots = Vec::new();
                for part in parts {
                    self.part_spots(*part, |spot| spots.push(spot));
                }
                self.weigh(spots, parts)
            }
            Target::Screw(nth) => self.weigh(self.screw_spots(*nth), &[]),
            Target::Joint(pairs) => {
                let each = pairs.iter().map(|pair| self.weigh(self.joint_spots(*pair), &[]));
                each.max_by_key(|seen| seen.clear).unwrap_or_default()
            }
        }
    }

    fn cover(&mut self, spots: Vec<Spot>, id: u32) {
        for (i, near) in spots {
            if let (Some(nearest), Some(part)) = (self.near.get_mut(i), self.part.get_mut(i))
                && near > *nearest
            {
                (*nearest, *part) = (near, id);
            }
        }
    }

    /// Counts each pixel once, by the nearest that lies there.
    fn weigh(&self, mut spots: Vec<Spot>, own: &[usize]) -> Seen {
        spots.sort_unstable_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)));
        spots.dedup_by_key(|spot| spot.0);
        let mut seen = Seen { all: spots.len(), ..Seen::default() };
        let mut hiders: Vec<usize> = Vec::new();
        for (i, near) in spots {
            let id = self.part.get(i).copied().unwrap_or(0);
            let part = (id > 0).then(|| id as usize - 1);
            if part.is_some_and(|p| own.contains(&p)) || self.near.get(i).is_none_or(|n| near > *n)
            {
                seen.clear += 1;
            } else if let Some(part) = part {
                hiders.push(part);
            }
        }
        hiders.sort_unstable();
        let runs = hiders.chunk_by(|a, b| a == b);
        seen.hidden_by = runs.filter_map(|run| Some((*run.first()?, run.len()))).collect();
        seen
    }

    fn part_spots(&self, index: usize, mut at: impl FnMut(Spot)) {
        let item = self.moment.items.iter().find(|i| i.index == index);
        let (Some(item), Some(part)) = (item, self.model.parts.get(index)) else {
            return;
        };
        let matrix = self.matrix * self.moment.pose.matrix(item.offset);
        let eye = self.eye - item.offset;
        let faces = part.skin.positions.chunks_exact(3).zip(part.skin.normals.chunks_exact(3));
        for (corners, normals) in faces {
            let (&[a, b, c], &[n, ..]) = (corners, normals) else { continue };
            if n.dot(eye - a) > 0.0 {
                self.fill([a, b, c].map(|p| matrix * p.extend(1.0)), &mut at);
            }
        }
    }

    fn screw_spots(&self, nth: usize) -> Vec<Spot> {
        let mut spots = Vec::new();
        let driven = self.moment.screws.get(nth);
        if let Some((item, screw)) =
            driven.and_then(|item| Some((item, self.model.screws.get(item.index)?)))
        {
            let matrix = self.matrix * self.moment.pose.matrix(item.offset);
            let of_head = |p: &Vec3| (*p - screw.entry).dot(screw.along) <= screw.head;
            for triangle in screw.skin.positions.chunks_exact(3) {
                if let &[a, b, c] = triangle
                    && triangle.iter().all(of_head)
                {
                    let corners = [a, b, c].map(|p| matrix * p.extend(1.0));
                    self.fill(corners, &mut |spot| spots.push(spot));
                }
            }
        }
        if let Some([at, along]) = self.moment.entries.get(nth) {
            for ends in ring(*at, *along, self.moment.ring(self.pixel)) {
                self.line(ends, |spot| spots.push(spot));
            }
        }
        spots
    }

    /// The place where two parts touch, a pixel wider all round: where the seam comes to the light it
    /// stands out of the wood by that.
    fn joint_spots(&self, pair: [usize; 2]) -> Vec<Spot> {
        let mut spots = Vec::new();
        let place = self.moment.pose.matrix(vec3(0., 0., 0.));
        for touch in touching(self.model, pair) {
            let skin = slab_skin(&touch.grown(self.pixel));
            self.skin(&skin, place, |spot| spots.push(spot));
        }
        spots
    }

    fn skin(&self, skin: &Skin, place: Mat4, mut at: impl FnMut(Spot)) {
        let matrix = self.matrix * place;
        for triangle in skin.positions.chunks_exact(3) {
            if let &[a, b, c] = triangle {
                self.fill([a, b, c].map(|p| matrix * p.extend(1.0)), &mut at);
            }
        }
    }

    /// Where a corner lies in the frame, and how near it is; nothing behind the eye.
    fn corner(&self, c: Vec4) -> Option<[f32; 3]> {
        (c.w > 1.0).then(|| {
            let x = (c.x / c.w + 1.0) * 0.5 * self.width as f32;
            let y = (1.0 - c.y / c.w) * 0.5 * self.height as f32;
            [x, y, 1.0 / c.w]
        })
    }

    /// The pixels whose middle lies in a triangle. One with a corner behind the eye is left out: the
    /// eye stands off by more than the size of what is shown.
    fn fill(&self, corners: [Vec4; 3], at: &mut impl FnMut(Spot)) {
        let [Some(a), Some(b), Some(c)] = corners.map(|c| self.corner(c)) else {
            return;
        };
        let area = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
        if area.abs() < 1e-6 {
            return;
        }
        // The share that each corner has in a point: a plane over the frame, from 0 on the side across.
        let share = |p: [f32; 3], q: [f32; 3]| {
            let (dx, dy) = ((q[0] - p[0]) / area, (q[1] - p[1]) / area);
            [-dy, dx, p[0] * dy - p[1] * dx]
        };
        let shares = [share(b, c), share(c, a), share(a, b)];
        let near: [f32; 3] = std::array::from_fn(|i| {
            shares[0][i] * a[2] + shares[1][i] * b[2] + shares[2][i] * c[2]
        });
        let (low, high) = (a[1].min(b[1]).min(c[1]), a[1].max(b[1]).max(c[1]));
        let last = (high.ceil().max(0.0) as usize).min(self.height);
        for y in low.floor().max(0.0) as usize..last {
            let py = y as f32 + 0.5;
            let (mut from, mut to) = (0.0_f32, self.width as f32);
            for [x, across, rest] in shares {
                let rest = across * py + rest;
                if x.abs() < 1e-9 {
                    if rest < 0.0 {
                        to = -1.0;
                    }
                } else if x > 0.0 {
                    from = from.max(-rest / x);
                } else {
                    to = to.min(-rest / x);
                }
            }
            let first = (from - 0.5).ceil().max(0.0) as usize;
            for x in first..((to + 0.5).floor().max(0.0) as usize).min(self.width) {
                let deep = near[0] * (x as f32 + 0.5) + near[1] * py + near[2];
                at((y * self.width + x, deep));
            }
        }
    }

    /// The pixels along a line.
    fn line(&self, ends: [Vec3; 2], mut at: impl FnMut(Spot)) {
        let [Some(a), Some(b)] = ends.map(|p| self.corner(self.matrix * p.extend(1.0))) else {
            return;
        };
        let steps = (b[0] - a[0]).abs().max((b[1] - a[1]).abs()).ceil().clamp(1.0, 1e5);
        for k in 0..=steps as usize {
            let t = k as f32 / steps;
            let [x, y, near] = std::array::from_fn(|i| a[i] + (b[i] - a[i]) * t);
            if x >= 0.0 && y >= 0.0 && x < self.width as f32 && y < self.height as f32 {
                let near = near / (1.0 - near * self.pixel * TOWARDS).max(0.5);
                at((y as usize * self.width + x as usize, near));
            }
        }
    }
}

/// Where two parts touch each other in their places, in millimetres of the standing pose.
fn touching(model: &Model, [a, b]: [usize; 2]) -> Vec<Slab> {
    /// Faces this near are one.
    const ONE: f32 = 0.05;
    let slabs = |i: usize| model.parts.get(i).map(|p| p.slabs.as_slice()).unwrap_or_default();
    let mut all = Vec::new();
    for one in slabs(a) {
        for other in slabs(b) {
            let low = |i: usize| one.min[i].max(other.min[i]);
            let high = |i: usize| one.max[i].min(other.max[i]);
            if (0..3).all(|i| high(i) - low(i) > -ONE) {
                let (min, max) = (vec3(low(0), low(1), low(2)), vec3(high(0), high(1), high(2)));
                all.push(Slab { min, max });
            }
        }
    }
    all
}
