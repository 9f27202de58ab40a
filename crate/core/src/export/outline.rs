//! The lines of a part: edges of its solid, and none where two of its boxes run on flush.

use super::painter::ViewBox;

/// A line between two points in view axes.
pub type Line = [[i128; 3]; 2];

/// The parts of `piece`'s nine edges on its near faces that are edges of the solid made of
/// `solid`, a superset of `piece`. Lines come in a fixed order.
pub fn edges(piece: &ViewBox, solid: &[ViewBox]) -> Vec<Line> {
    let mut lines = Vec::new();
    for along in 0..3 {
        let (i, j) = ((along + 1) % 3, (along + 2) % 3);
        let ends = |axis| (at(&piece.min, axis), at(&piece.max, axis));
        let ((i0, i1), (j0, j1)) = (ends(i), ends(j));
        // Not the edge at both far sides: the box itself hides it.
        for (p, q) in [(i1, j1), (i1, j0), (i0, j1)] {
            for (from, to) in real(piece, solid, along, p, q) {
                let point = |t| {
                    let mut point = [0; 3];
                    for (axis, value) in [(along, t), (i, p), (j, q)] {
                        if let Some(c) = point.get_mut(axis) {
                            *c = value;
                        }
                    }
                    point
                };
                lines.push([point(from), point(to)]);
            }
        }
    }
    lines
}

/// A coordinate; axes are always 0 to 2.
fn at(p: &[i128; 3], axis: usize) -> i128 {
    p.get(axis).copied().unwrap_or(0)
}

/// The stretches of the line along axis `along` through (`p`, `q`) on the next two axes, within
/// `piece`, on which the solid has an edge.
fn real(piece: &ViewBox, solid: &[ViewBox], along: usize, p: i128, q: i128) -> Vec<(i128, i128)> {
    let (i, j) = ((along + 1) % 3, (along + 2) % 3);
    let (lo, hi) = (at(&piece.min, along), at(&piece.max, along));
    let touching: Vec<_> = solid
        .iter()
        .filter(|b| {
            at(&b.min, i) <= p && p <= at(&b.max, i) && at(&b.min, j) <= q && q <= at(&b.max, j)
        })
        .collect();
    let mut stops = vec![lo, hi];
    stops.extend(
        touching
            .iter()
            .flat_map(|b| [at(&b.min, along), at(&b.max, along)])
            .filter(|t| lo < *t && *t < hi),
    );
    stops.sort_unstable();
    stops.dedup();
    let mut found: Vec<(i128, i128)> = Vec::new();
    for pair in stops.windows(2) {
        let &[from, to] = pair else { continue };
        // Which of the four quarters round the line are wood.
        let quarter = |after_i: bool, after_j: bool| {
            let side = |b: &ViewBox, axis, c, after| {
                if after {
                    at(&b.min, axis) <= c && c < at(&b.max, axis)
                } else {
                    at(&b.min, axis) < c && c <= at(&b.max, axis)
                }
            };
            touching.iter().any(|b| {
                at(&b.min, along) <= from
                    && to <= at(&b.max, along)
                    && side(b, i, p, after_i)
                    && side(b, j, q, after_j)
            })
        };
        let quarters = [(false, false), (false, true), (true, true), (true, false)]
            .map(|(a, b)| quarter(a, b));
        let flat = match quarters.iter().filter(|w| **w).count() {
            0 | 4 => true,
            // Two quarters side by side are a face that runs on; across, an edge from both sides.
            2 => quarters != [true, false, true, false] && quarters != [false, true, false, true],
            _ => false,
        };
        if flat {
            continue;
        }
        match found.last_mut() {
            Some(last) if last.1 == from => last.1 = to,
            _ => found.push((from, to)),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn boxed(v: [i128; 6]) -> ViewBox {
        let [a, b, c, d, e, f] = v;
        ViewBox { min: [a, b, c], max: [d, e, f], item: 0, splits: true }
    }

    fn length(lines: &[Line]) -> i128 {
        lines.iter().flat_map(|[p, q]| (0..3).map(|k| (q[k] - p[k]).abs())).sum()
    }

    #[test]
    fn a_plain_box_shows_nine_edges() {
        let b = boxed([0, 0, 0, 2, 3, 5]);
        let lines = edges(&b, &[b]);
        assert_eq!(lines.len(), 9);
        assert_eq!(length(&lines), 3 * (2 + 3 + 5));
    }

    #[test]
    fn no_line_where_two_halves_run_on_flush() {
        let halves = [boxed([0, 0, 0, 4, 3, 5]), boxed([4, 0, 0, 9, 3, 5])];
        let whole = boxed([0, 0, 0, 9, 3, 5]);
        let drawn: Vec<_> = halves.iter().flat_map(|h| edges(h, &halves)).collect();
        assert!(drawn.iter().all(|[p, q]| p[0] != 4 || q[0] != 4), "{drawn:?}");
        assert_eq!(length(&drawn), length(&edges(&whole, &[whole])));
    }

    #[test]
    fn a_step_keeps_its_inner_line() {
        // A low box before a high one, as at a notch: the line at the foot of the riser stays.
        let stairs = [boxed([0, 0, 0, 4, 3, 9]), boxed([4, 0, 0, 9, 3, 5])];
        let low = edges(&stairs[1], &stairs);
        assert!(low.contains(&[[4, 0, 5], [4, 3, 5]]), "{low:?}");
        let high = edges(&stairs[0], &stairs);
        assert!(high.contains(&[[4, 3, 5], [4, 3, 9]]), "the riser's side ends at the step");
        assert!(!high.contains(&[[4, 3, 0], [4, 3, 9]]));
    }
}
