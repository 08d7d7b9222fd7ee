//! The largest circle inside an outline.
//!
//! A convex outline: its centre is as far from three edges, so every three edges are tried (a linear programme of three
//! unknowns, solved by its vertices). An outline with corners that turn inwards: a quadtree search with the bound
//! "depth at the middle + half diagonal" finds the place, then Newton's method makes it exact on the edges and inward
//! corners nearest to it. The radius's gradient is Σ λᵢ ∇dᵢ at the fixed centre, where dᵢ are the distances that
//! hold the circle and λᵢ ≥ 0 their weights, Σ λᵢ = 1, Σ λᵢ nᵢ = 0 (the envelope theorem).

use std::collections::BinaryHeap;

use super::plane::{bounds, constant, cross, depth, dot, is_convex, left, length, plain, solve, sub, turn};
use crate::geometry::{Point, Scalar};

/// A circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Circle<T> {
    /// Its centre; where several are as good, one of them.
    pub(super) centre: Point<f64>,
    /// Its radius, mm.
    pub(super) radius: T,
}

/// What can hold a circle: an edge, or a corner that turns inwards.
#[derive(Clone, Copy)]
enum Holder {
    Edge(usize),
    Corner(usize),
}

/// The largest circle inside a simple counter-clockwise outline; `None` of one without area.
#[must_use]
pub(super) fn largest_circle<T: Scalar>(outline: &[Point<T>]) -> Option<Circle<T>> {
    let shape: Vec<Point<f64>> = outline.iter().map(|p| plain(*p)).collect();
    if shape.len() < 3 {
        return None;
    }
    let found = if is_convex(&shape) {
        let holders: Vec<Holder> = (0..shape.len()).map(Holder::Edge).collect();
        best(&shape, &holders, None)?
    } else {
        let start = search(&shape)?;
        let mut holders: Vec<(f64, Holder)> = (0..shape.len())
            .flat_map(|i| {
                let corner = (turn(&shape, i) < 0.0).then_some(Holder::Corner(i));
                [Some(Holder::Edge(i)), corner].into_iter().flatten()
            })
            .map(|h| (distance(&shape, h, start), h))
            .collect();
        holders.sort_by(|a, b| a.0.total_cmp(&b.0));
        let near: Vec<Holder> = holders.into_iter().take(6).map(|(_, h)| h).collect();
        best(&shape, &near, Some(start)).unwrap_or(Held { centre: start, radius: depth(&shape, start), by: Vec::new() })
    };
    if found.by.is_empty() {
        return (found.radius > 0.0).then(|| Circle { centre: found.centre, radius: T::of(found.radius) });
    }
    let mut radius = T::of(0.0);
    for (holder, weight) in &found.by {
        radius = radius + T::of(*weight) * signed_distance(outline, *holder, found.centre);
    }
    Some(Circle { centre: found.centre, radius })
}

struct Held {
    centre: Point<f64>,
    radius: f64,
    by: Vec<(Holder, f64)>,
}

/// Distance of a point from a holder: from an edge's line, inside positive, or from a corner.
fn signed_distance<T: Scalar>(outline: &[Point<T>], holder: Holder, centre: Point<f64>) -> T {
    let c = constant::<T>(centre);
    match holder {
        Holder::Edge(i) => {
            let (a, b) = (outline[i], outline[(i + 1) % outline.len()]);
            dot(sub(c, a), left(a, b))
        }
        Holder::Corner(i) => length(sub(c, outline[i])),
    }
}

/// Distance from the holder itself, not from its line.
fn distance(shape: &[Point<f64>], holder: Holder, p: Point<f64>) -> f64 {
    match holder {
        Holder::Edge(i) => super::plane::distance_to_segment(p, [shape[i], shape[(i + 1) % shape.len()]]),
        Holder::Corner(i) => length(sub(p, shape[i])),
    }
}

/// Gradient of a holder's distance by the centre.
fn direction(shape: &[Point<f64>], holder: Holder, p: Point<f64>) -> Point<f64> {
    match holder {
        Holder::Edge(i) => left(shape[i], shape[(i + 1) % shape.len()]),
        Holder::Corner(i) => {
            let d = sub(p, shape[i]);
            let l = length(d);
            Point { x: d.x / l, y: d.y / l }
        }
    }
}

/// The largest circle held by three of the holders that reaches over no edge. `near` says where to begin with corners.
fn best(shape: &[Point<f64>], holders: &[Holder], near: Option<Point<f64>>) -> Option<Held> {
    let (low, high) = bounds(shape);
    let slack = 1e-9 * length(sub(high, low));
    let mut found: Option<Held> = None;
    for i in 0..holders.len() {
        for j in i + 1..holders.len() {
            for k in j + 1..holders.len() {
                let three = [holders[i], holders[j], holders[k]];
                let Some(held) = held_by(shape, three, near) else { continue };
                if found.as_ref().is_some_and(|f| f.radius >= held.radius) || held.radius <= 0.0 {
                    continue;
                }
                let fits = if near.is_some() {
                    depth(shape, held.centre) >= held.radius - slack
                } else {
                    (0..shape.len()).all(|e| signed_distance(shape, Holder::Edge(e), held.centre) >= held.radius - slack)
                };
                if fits {
                    found = Some(held);
                }
            }
        }
    }
    found
}

/// The circle that touches three holders, with their weights; `None` where they do not hold it from all sides.
fn held_by(shape: &[Point<f64>], three: [Holder; 3], near: Option<Point<f64>>) -> Option<Held> {
    let mut centre = near.unwrap_or(shape[0]);
    let mut radius = 0.0;
    let rounds = if three.iter().all(|h| matches!(h, Holder::Edge(_))) { 1 } else { 20 };
    for _ in 0..rounds {
        // d(c) + n·Δ = r for the three.
        let mut rows: Vec<Vec<f64>> = three
            .iter()
            .map(|h| {
                let n = direction(shape, *h, centre);
                vec![n.x, n.y, -1.0, -signed_distance(shape, *h, centre)]
            })
            .collect();
        let step = solve(&mut rows)?;
        centre = Point { x: centre.x + step[0], y: centre.y + step[1] };
        radius = step[2];
        if !radius.is_finite() {
            return None;
        }
        if step[0].hypot(step[1]) < 1e-12 * (1.0 + radius.abs()) {
            break;
        }
    }
    // λ: Σ λ n = 0, so each is the cross product of the two others.
    let n = three.map(|h| direction(shape, h, centre));
    let lambda = [cross(n[1], n[2]), cross(n[2], n[0]), cross(n[0], n[1])];
    let sum: f64 = lambda.iter().sum();
    if sum.abs() < 1e-12 {
        return None;
    }
    let lambda = lambda.map(|l| l / sum);
    if lambda.iter().any(|l| *l < -1e-9) {
        return None;
    }
    Some(Held { centre, radius, by: three.into_iter().zip(lambda).collect() })
}

/// A square of the search, ordered by how deep a point in it can lie at most.
struct Cell {
    centre: Point<f64>,
    half: f64,
    most: f64,
}

impl PartialEq for Cell {
    fn eq(&self, other: &Self) -> bool {
        self.most == other.most
    }
}
impl Eq for Cell {}
impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Cell {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.most.total_cmp(&other.most)
    }
}

/// The deepest point, to a thousandth of the outline's size.
fn search(shape: &[Point<f64>]) -> Option<Point<f64>> {
    let (low, high) = bounds(shape);
    let size = (high.x - low.x).max(high.y - low.y);
    if size.is_nan() || size <= 0.0 {
        return None;
    }
    let mut best: Option<(f64, Point<f64>)> = None;
    let mut cells = BinaryHeap::new();
    let push = |cells: &mut BinaryHeap<Cell>, best: &mut Option<(f64, Point<f64>)>, centre, half: f64| {
        let depth = depth(shape, centre);
        if best.is_none_or(|(d, _)| depth > d) {
            *best = Some((depth, centre));
        }
        cells.push(Cell { centre, half, most: depth + half * std::f64::consts::SQRT_2 });
    };
    let half = size / 8.0;
    for i in 0..4 {
        for j in 0..4 {
            let at = |k: i32, from: f64| from + half * f64::from(2 * k + 1);
            push(&mut cells, &mut best, Point { x: at(i, low.x), y: at(j, low.y) }, half);
        }
    }
    while let Some(cell) = cells.pop() {
        let (deepest, _) = best?;
        if cell.most - deepest < 1e-3 * size {
            break;
        }
        let half = cell.half / 2.0;
        for (dx, dy) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
            push(&mut cells, &mut best, Point { x: cell.centre.x + dx, y: cell.centre.y + dy }, half);
        }
    }
    best.map(|(_, p)| p)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(points: &[(f64, f64)]) -> Vec<Point<f64>> {
        points.iter().map(|(x, y)| Point { x: *x, y: *y }).collect()
    }

    /// Radii by shapely 2.2.0 `maximum_inscribed_circle`; the triangle's is (a + b − c) / 2, the L's 2 − √2.
    #[test]
    fn circles_as_shapely_finds_them() {
        for (points, radius, centre) in [
            (vec![(0.0, 0.0), (400.0, 0.0), (0.0, 300.0)], 100.0, Some((100.0, 100.0))),
            (
                vec![(0.0, 0.0), (420.0, 450.0), (390.0, 570.0), (-160.0, 520.0)],
                183.774033991545,
                Some((82.2787098, 357.4934682)),
            ),
            (vec![(0.0, 0.0), (600.0, 0.0), (500.0, 200.0), (100.0, 200.0)], 100.0, None),
            (
                vec![(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)],
                2.0 - 2f64.sqrt(),
                Some((2.0 - 2f64.sqrt(), 2.0 - 2f64.sqrt())),
            ),
        ] {
            let circle = largest_circle(&shape(&points)).unwrap();
            assert!((circle.radius - radius).abs() < 1e-9, "{circle:?}");
            if let Some((x, y)) = centre {
                assert!((circle.centre.x - x).abs() < 1e-6 && (circle.centre.y - y).abs() < 1e-6, "{circle:?}");
            }
        }
    }
}
