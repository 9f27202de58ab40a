//! The skin of a solid made of disjoint boxes: its outer faces, and the edges a maker would see.
//!
//! Where two boxes of one part touch there is wood on both sides: neither the shared face nor the
//! seam between level faces exists on the real piece, so neither may be drawn.

use jointwise::geometry::Box3;
use three_d::{Vec3, vec3};

/// Cells of the grid laid through all corners above which a solid is drawn box by box instead;
/// no real part comes near it.
const MOST_CELLS: usize = 400_000;

/// What is drawn of a part, in millimetres of the standing pose.
#[derive(Debug, Clone, Default)]
pub struct Skin {
    /// Corners of the triangles, three each.
    pub positions: Vec<Vec3>,
    /// The outward direction at each corner.
    pub normals: Vec<Vec3>,
    /// Straight edges, by their ends.
    pub edges: Vec<[Vec3; 2]>,
}

impl Skin {
    /// Adds a flat four-sided face; the corners go round it.
    pub fn quad(&mut self, corners: [Vec3; 4], normal: Vec3) {
        let [a, b, c, d] = corners;
        self.positions.extend([a, b, c, a, c, d]);
        self.normals.extend([normal; 6]);
    }

    /// The skin of a union of disjoint boxes in micrometres.
    pub fn of(boxes: &[Box3]) -> Skin {
        let mut skin = Skin::default();
        let valid: Vec<Box3> = boxes.iter().copied().filter(Box3::is_valid).collect();
        match Grid::new(&valid) {
            Some(grid) => {
                grid.faces(&mut skin);
                grid.edges(&mut skin);
            }
            None => {
                for one in valid {
                    if let Some(grid) = Grid::new(&[one]) {
                        grid.faces(&mut skin);
                        grid.edges(&mut skin);
                    }
                }
            }
        }
        skin
    }
}

/// Micrometres to millimetres for drawing.
pub fn millimetres(um: i64) -> f32 {
    // Display only: a tablet's pixel is far coarser than what the conversion drops.
    (um as f64 / 1000.0) as f32
}

/// Space cut along every coordinate that occurs; each cell is wood or air.
struct Grid {
    at: [Vec<i64>; 3],
    wood: Vec<bool>,
}

impl Grid {
    fn new(boxes: &[Box3]) -> Option<Grid> {
        let at: [Vec<i64>; 3] = std::array::from_fn(|a| {
            let mut all: Vec<i64> = boxes.iter().flat_map(|b| [b.min[a], b.max[a]]).collect();
            all.sort_unstable();
            all.dedup();
            all
        });
        let cells = at
            .iter()
            .map(|c| c.len().saturating_sub(1))
            .try_fold(1_usize, |product, n| product.checked_mul(n))?;
        if cells > MOST_CELLS {
            return None;
        }
        let mut grid = Grid { at, wood: vec![false; cells] };
        for b in boxes {
            let range = |a: usize| {
                let find = |v: i64| grid.at[a].binary_search(&v).unwrap_or(0);
                find(b.min[a])..find(b.max[a])
            };
            let (xs, ys, zs) = (range(0), range(1), range(2));
            for x in xs {
                for y in ys.clone() {
                    for z in zs.clone() {
                        let i = grid.index([x, y, z]);
                        if let Some(cell) = i.and_then(|i| grid.wood.get_mut(i)) {
                            *cell = true;
                        }
                    }
                }
            }
        }
        Some(grid)
    }

    fn count(&self, axis: usize) -> usize {
        self.at[axis].len().saturating_sub(1)
    }

    fn index(&self, cell: [usize; 3]) -> Option<usize> {
        (0..3)
            .all(|a| cell[a] < self.count(a))
            .then(|| (cell[0] * self.count(1) + cell[1]) * self.count(2) + cell[2])
    }

    /// Whether the cell is wood; a step below the first cell is air.
    fn is_wood(&self, cell: [Option<usize>; 3]) -> bool {
        let [Some(x), Some(y), Some(z)] = cell else {
            return false;
        };
        self.index([x, y, z]).and_then(|i| self.wood.get(i)).copied().unwrap_or(false)
    }

    fn mm(&self, axis: usize, i: usize) -> f32 {
        millimetres(self.at[axis].get(i).copied().unwrap_or(0))
    }

    fn point(&self, p: [usize; 3]) -> Vec3 {
        vec3(self.mm(0, p[0]), self.mm(1, p[1]), self.mm(2, p[2]))
    }

    /// A face wherever wood meets air.
    fn faces(&self, skin: &mut Skin) {
        for axis in 0..3 {
            let (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
            for i in 0..=self.count(axis) {
                for j in 0..self.count(u) {
                    for k in 0..self.count(v) {
                        let cell = |along: Option<usize>| {
                            let mut c = [None; 3];
                            c[axis] = along;
                            c[u] = Some(j);
                            c[v] = Some(k);
                            self.is_wood(c)
                        };
                        let (before, after) = (cell(i.checked_sub(1)), cell(Some(i)));
                        if before == after {
                            continue;
                        }
                        let corner = |dj: usize, dk: usize| {
                            let mut p = [0; 3];
                            p[axis] = i;
                            p[u] = j + dj;
                            p[v] = k + dk;
                            self.point(p)
                        };
                        let mut normal = [0.0; 3];
                        normal[axis] = if before { 1.0 } else { -1.0 };
                        skin.quad(
                            [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)],
                            Vec3::from(normal),
                        );
                    }
                }
            }
        }
    }

    /// An edge wherever the wood round a grid line is neither flat nor absent, joined end to end.
    fn edges(&self, skin: &mut Skin) {
        for axis in 0..3 {
            let (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
            for j in 0..=self.count(u) {
                for k in 0..=self.count(v) {
                    let mut start: Option<usize> = None;
                    for i in 0..=self.count(axis) {
                        let creased = i < self.count(axis) && self.creased(axis, i, j, k);
                        match (creased, start) {
                            (true, None) => start = Some(i),
                            (false, Some(from)) => {
                                let end = |along: usize| {
                                    let mut p = [0; 3];
                                    p[axis] = along;
                                    p[u] = j;
                                    p[v] = k;
                                    self.point(p)
                                };
                                skin.edges.push([end(from), end(i)]);
                                start = None;
                            }
                            _ => {}
                        }
                    }
                }
            }
        }
    }

    fn creased(&self, axis: usize, i: usize, j: usize, k: usize) -> bool {
        let (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
        let wood = |left: bool, below: bool| {
            let mut c = [None; 3];
            c[axis] = Some(i);
            c[u] = if left { j.checked_sub(1) } else { Some(j) };
            c[v] = if below { k.checked_sub(1) } else { Some(k) };
            self.is_wood(c)
        };
        let round = [wood(true, true), wood(true, false), wood(false, false), wood(false, true)];
        match round.iter().filter(|w| **w).count() {
            1 | 3 => true,
            // Two across the line meet in an edge; two side by side are flat.
            2 => round[0] == round[2],
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn b(v: [i64; 6]) -> Box3 {
        Box3::from(v)
    }

    fn area(skin: &Skin) -> f32 {
        use three_d::InnerSpace;
        skin.positions.chunks(3).map(|t| (t[1] - t[0]).cross(t[2] - t[0]).magnitude() / 2.0).sum()
    }

    #[test]
    fn a_box_has_twelve_edges_and_six_faces() {
        let skin = Skin::of(&[b([0, 0, 0, 1000, 2000, 3000])]);
        assert_eq!(skin.edges.len(), 12);
        assert_eq!(skin.positions.len(), 36);
        assert_eq!(area(&skin), 22.0);
    }

    #[test]
    fn a_box_in_two_halves_looks_like_one() {
        let whole = Skin::of(&[b([0, 0, 0, 1000, 2000, 4000])]);
        let halves = Skin::of(&[b([0, 0, 0, 1000, 2000, 3000]), b([0, 0, 3000, 1000, 2000, 4000])]);
        assert_eq!(halves.edges, whole.edges);
        assert_eq!(area(&halves), area(&whole));
    }

    #[test]
    fn an_l_has_eighteen_edges_and_no_inner_face() {
        // A square of 2 with a quarter cut away, 1 thick.
        let skin = Skin::of(&[b([0, 0, 0, 2000, 1000, 1000]), b([0, 1000, 0, 1000, 2000, 1000])]);
        assert_eq!(skin.edges.len(), 18);
        assert_eq!(area(&skin), 3.0 + 3.0 + 8.0);
        let seam = [vec3(0.0, 1.0, 1.0), vec3(1.0, 1.0, 1.0)];
        assert!(!skin.edges.contains(&seam));
    }

    #[test]
    fn nonsense_boxes_are_left_out() {
        let skin = Skin::of(&[b([5, 0, 0, 1, 1, 1]), b([i64::MIN, 0, 0, i64::MAX, 1, 1])]);
        assert_eq!(skin.edges.len(), 12);
        assert!(Skin::of(&[]).positions.is_empty());
    }
}
