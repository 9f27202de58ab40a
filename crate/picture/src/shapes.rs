//! Small shapes made for a frame: boxes, rings, corner marks.

use three_d::{InnerSpace, Vec3, vec3};

use crate::edges::Skin;
use crate::pick::Slab;

/// The least box around some points.
pub fn around(points: &[Vec3]) -> Slab {
    let mut spread = Slab { min: vec3(1., 1., 1.) * f32::MAX, max: vec3(1., 1., 1.) * f32::MIN };
    for p in points {
        spread = spread.union(&Slab { min: *p, max: *p });
    }
    spread
}

/// A box's faces and twelve edges.
pub fn slab_skin(slab: &Slab) -> Skin {
    let c = slab.corners();
    let mut skin = Skin::default();
    for (axis, normal) in
        [vec3(1., 0., 0.), vec3(0., 1., 0.), vec3(0., 0., 1.)].into_iter().enumerate()
    {
        let (a, b, s) = (1 << axis, 1 << ((axis + 1) % 3), 1 << ((axis + 2) % 3));
        skin.quad([c[0], c[b], c[b | s], c[s]], -normal);
        skin.quad([c[a], c[a | b], c[a | b | s], c[a | s]], normal);
        for (i, j) in [(0, 0), (b, 0), (0, s), (b, s)] {
            skin.edges.push([c[i | j], c[i | j | a]]);
        }
    }
    skin
}

/// The bench top: length, width, thickness; its upper face at z = 0.
pub fn bench_skin(size: Vec3) -> Skin {
    slab_skin(&Slab {
        min: vec3(-size.x / 2.0, -size.y / 2.0, -size.z),
        max: vec3(size.x / 2.0, size.y / 2.0, 0.0),
    })
}

/// A ring on the face a screw goes into.
pub fn ring(at: Vec3, along: Vec3, radius: f32) -> Vec<[Vec3; 2]> {
    let seed = if along.z.abs() > 0.5 { vec3(1., 0., 0.) } else { vec3(0., 0., 1.) };
    let u = along.cross(seed);
    let v = along.cross(u);
    let point = |i: u8| {
        let angle = std::f32::consts::TAU * f32::from(i) / 20.0;
        at + (u * angle.cos() + v * angle.sin()) * radius
    };
    (0..20).map(|i| [point(i), point(i + 1)]).collect()
}

/// A small square at each end of a measurement, in the plane it is taken in.
pub fn corner_marks(ends: [Vec3; 2]) -> Vec<[Vec3; 2]> {
    let mut marks = Vec::new();
    for (at, other) in [(ends[0], ends[1]), (ends[1], ends[0])] {
        let way = other - at;
        let size = (way.magnitude() * 0.05).clamp(12.0, 40.0);
        // The two axes it runs along most; for a straight width, any second one will do.
        let mut axes = [0, 1, 2];
        axes.sort_by(|&a, &b| way[b].abs().total_cmp(&way[a].abs()));
        let arm = |axis: usize| {
            let mut v = vec3(0., 0., 0.);
            v[axis] = if way[axis] < 0.0 { -size } else { size };
            v
        };
        let (u, v) = (arm(axes[0]), arm(axes[1]));
        marks.extend([[at, at + u], [at + u, at + u + v], [at + u + v, at + v], [at + v, at]]);
    }
    marks
}
