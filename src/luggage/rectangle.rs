//! The largest rectangle with level and upright sides inside an outline.
//!
//! With z = (x₀, x₁, y₀, y₁) the area is quadratic and everything that can hold the rectangle (an edge at the corner that
//! meets it first, an inward corner at a side) is linear in z. So the best rectangle solves the linear system of some
//! two to four holders: stationary area (∇A + Σ μᵢ ∇gᵢ = 0) with gᵢ(z) = 0, and all sets of holders are tried. For a
//! convex outline the holders are its edges; otherwise a search finds the place and the holders near it. The winning
//! system is solved once more over numbers with derivatives.

use super::plane::{bounds, edges, is_convex, left, plain, solve};
use crate::geometry::{Point, Scalar};

/// A rectangle with level and upright sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Rectangle<T> {
    /// Its rear and front edge, mm ahead of the bottom bracket.
    pub(super) x: [T; 2],
    /// Its lower and upper edge, mm above the bottom bracket.
    pub(super) y: [T; 2],
}

impl<T: Scalar> Rectangle<T> {
    /// Level side, mm.
    pub(super) fn width(&self) -> T {
        self.x[1] - self.x[0]
    }

    /// Upright side, mm.
    pub(super) fn height(&self) -> T {
        self.y[1] - self.y[0]
    }
}

/// What can hold a rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Holder {
    /// The edge, at the corner that meets it first.
    Edge(usize),
    /// A corner of the outline against one side: 0 x₀, 1 x₁, 2 y₀, 3 y₁.
    Side(usize, usize),
}

/// The largest rectangle in a simple counter-clockwise outline; `None` where none was found (no area, or an outline that
/// winds so that no upright line crosses it just twice).
#[must_use]
pub(super) fn largest_rectangle<T: Scalar>(outline: &[Point<T>]) -> Option<Rectangle<T>> {
    let shape: Vec<Point<f64>> = outline.iter().map(|p| plain(*p)).collect();
    if shape.len() < 3 {
        return None;
    }
    let convex = is_convex(&shape);
    let holders = if convex && shape.len() <= 8 {
        (0..shape.len()).map(Holder::Edge).collect()
    } else {
        near_holders(&shape, search(&shape)?)
    };
    let mut best: Option<(f64, Vec<Holder>)> = None;
    for set in sets(holders.len()) {
        let chosen: Vec<Holder> = set.iter().map(|i| holders[*i]).collect();
        let Some(z) = held_by(&shape, &shape, &chosen) else { continue };
        let area = (z[1] - z[0]) * (z[3] - z[2]);
        if z[1] > z[0] && z[3] > z[2] && best.as_ref().is_none_or(|(a, _)| area > *a) && fits(&shape, convex, &z) {
            best = Some((area, chosen));
        }
    }
    let (_, chosen) = best?;
    let z = held_by(outline, &shape, &chosen)?;
    Some(Rectangle { x: [z[0], z[1]], y: [z[2], z[3]] })
}

/// All sets of two to four of `n` things.
fn sets(n: usize) -> impl Iterator<Item = Vec<usize>> {
    (0u32..1 << n.min(16))
        .filter(|bits| (2..=4).contains(&bits.count_ones()))
        .map(move |bits| (0..n.min(16)).filter(|i| bits >> i & 1 == 1).collect())
}

/// Coefficients of z and right-hand side of a holder's equation.
fn equation<T: Scalar>(outline: &[Point<T>], shape: &[Point<f64>], holder: Holder) -> ([T; 4], T) {
    let zero = T::of(0.0);
    let mut row = [zero; 4];
    match holder {
        Holder::Edge(i) => {
            let (a, b) = (outline[i], outline[(i + 1) % outline.len()]);
            let n = left(a, b);
            let plain = left(shape[i], shape[(i + 1) % shape.len()]);
            row[usize::from(plain.x < 0.0)] = n.x;
            row[2 + usize::from(plain.y < 0.0)] = n.y;
            (row, n.x * a.x + n.y * a.y)
        }
        Holder::Side(corner, side) => {
            row[side] = T::of(1.0);
            (row, if side < 2 { outline[corner].x } else { outline[corner].y })
        }
    }
}

/// The stationary rectangle that touches the holders.
fn held_by<T: Scalar>(outline: &[Point<T>], shape: &[Point<f64>], holders: &[Holder]) -> Option<[T; 4]> {
    let k = holders.len();
    let zero = T::of(0.0);
    let mut rows = vec![vec![zero; 5 + k]; 4 + k];
    // ∇A by (x₀, x₁, y₀, y₁).
    for (row, entries) in
        [[0.0, 0.0, 1.0, -1.0], [0.0, 0.0, -1.0, 1.0], [1.0, -1.0, 0.0, 0.0], [-1.0, 1.0, 0.0, 0.0]].into_iter().enumerate()
    {
        for (column, entry) in entries.into_iter().enumerate() {
            rows[row][column] = T::of(entry);
        }
    }
    for (i, holder) in holders.iter().enumerate() {
        let (coefficients, right) = equation(outline, shape, *holder);
        for (q, c) in coefficients.into_iter().enumerate() {
            // Multipliers scaled to lengths keep all entries near one.
            rows[q][4 + i] = c;
            rows[4 + i][q] = c;
        }
        rows[4 + i][4 + k] = right;
    }
    let solution = solve(&mut rows)?;
    solution.first_chunk::<4>().copied()
}

/// Whether the rectangle reaches over no edge, to within 10⁻⁷ of the outline's size.
fn fits(shape: &[Point<f64>], convex: bool, z: &[f64; 4]) -> bool {
    let (low, high) = bounds(shape);
    let slack = 1e-7 * (high.x - low.x).max(high.y - low.y);
    if convex {
        return (0..shape.len()).all(|i| {
            let ([a, b, c, d], right) = equation(shape, shape, Holder::Edge(i));
            a * z[0] + b * z[1] + c * z[2] + d * z[3] >= right - slack
        });
    }
    let Some((bottom, top)) = between(shape, z[0] + slack, z[1] - slack) else { return false };
    z[2] >= bottom - slack && z[3] <= top + slack
}

/// The highest lower edge and the lowest upper edge over the strip from x₀ to x₁; `None` where the strip reaches beyond
/// the outline. Counter-clockwise, lower edges run forwards and upper ones backwards; where an upright line crosses the
/// outline more than twice, the answer is too small rather than too large.
fn between(shape: &[Point<f64>], x0: f64, x1: f64) -> Option<(f64, f64)> {
    let (low, high) = bounds(shape);
    if x0 < low.x || x1 > high.x || x1 <= x0 {
        return None;
    }
    let (mut bottom, mut top) = (f64::NEG_INFINITY, f64::INFINITY);
    for [a, b] in edges(shape) {
        let (from, to) = (a.x.min(b.x).max(x0), a.x.max(b.x).min(x1));
        if to <= from {
            continue;
        }
        let at = |x: f64| a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
        if b.x > a.x {
            bottom = bottom.max(at(from)).max(at(to));
        } else {
            top = top.min(at(from)).min(at(to));
        }
    }
    Some((bottom, top))
}

/// A rectangle near the best one: a grid of strips, then smaller and smaller steps around the best.
fn search(shape: &[Point<f64>]) -> Option<[f64; 4]> {
    const GRID: usize = 24;
    let (low, high) = bounds(shape);
    let mut best: Option<(f64, [f64; 4])> = None;
    let mut attempt = |x0: f64, x1: f64| -> f64 {
        let Some((bottom, top)) = between(shape, x0, x1) else { return 0.0 };
        let area = (x1 - x0) * (top - bottom).max(0.0);
        if area > 0.0 && best.is_none_or(|(a, _)| area > a) {
            best = Some((area, [x0, x1, bottom, top]));
        }
        area
    };
    let step = (high.x - low.x) / GRID as f64;
    let mut at = (0.0, low.x, high.x);
    for i in 0..GRID {
        for j in i + 1..=GRID {
            let (x0, x1) = (low.x + step * i as f64, low.x + step * j as f64);
            let area = attempt(x0, x1);
            if area > at.0 {
                at = (area, x0, x1);
            }
        }
    }
    let mut step = step / 2.0;
    for _ in 0..16 {
        let (_, x0, x1) = at;
        for (i, j) in [(-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (1.0, -1.0)] {
            let (a, b) = (x0 + i * step, x1 + j * step);
            let area = attempt(a, b);
            if area > at.0 {
                at = (area, a, b);
            }
        }
        step /= 1.6;
    }
    best.map(|(_, z)| z)
}

/// Holders within a twentieth of the rectangle's shorter side.
fn near_holders(shape: &[Point<f64>], z: [f64; 4]) -> Vec<Holder> {
    let near = 0.05 * (z[1] - z[0]).min(z[3] - z[2]);
    let mut holders = Vec::new();
    let mut offer = |gap: f64, holder| {
        if gap.abs() < near {
            holders.push((gap.abs(), holder));
        }
    };
    for i in 0..shape.len() {
        let ([a, b, c, d], right) = equation(shape, shape, Holder::Edge(i));
        offer(a * z[0] + b * z[1] + c * z[2] + d * z[3] - right, Holder::Edge(i));
        let p = shape[i];
        if p.y > z[2] - near && p.y < z[3] + near {
            offer(p.x - z[0], Holder::Side(i, 0));
            offer(p.x - z[1], Holder::Side(i, 1));
        }
        if p.x > z[0] - near && p.x < z[1] + near {
            offer(p.y - z[2], Holder::Side(i, 2));
            offer(p.y - z[3], Holder::Side(i, 3));
        }
    }
    holders.sort_by(|a, b| a.0.total_cmp(&b.0));
    holders.into_iter().take(9).map(|(_, h)| h).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rectangle(points: &[(f64, f64)]) -> Rectangle<f64> {
        let shape: Vec<Point<f64>> = points.iter().map(|(x, y)| Point { x: *x, y: *y }).collect();
        largest_rectangle(&shape).unwrap()
    }

    /// A right triangle with legs a and b: a/2 × b/2 (classical).
    #[test]
    fn half_the_legs_of_a_right_triangle() {
        for (a, b) in [(400.0, 300.0), (7.0, 1000.0), (55.5, 55.5)] {
            let r = rectangle(&[(0.0, 0.0), (a, 0.0), (0.0, b)]);
            assert!((r.width() - a / 2.0).abs() < 1e-9 && (r.height() - b / 2.0).abs() < 1e-9, "{r:?}");
        }
    }

    /// A trapezium of level sides p > q and height h whose sides lean evenly: of width w between q and p it is as high as
    /// h (p − w) / (p − q); w (p − w) is largest at p/2, so w = max(p/2, q). By hand.
    #[test]
    fn trapezia_by_hand() {
        let r = rectangle(&[(0.0, 0.0), (600.0, 0.0), (500.0, 200.0), (100.0, 200.0)]);
        assert!((r.width() - 400.0).abs() < 1e-9 && (r.height() - 200.0).abs() < 1e-9, "{r:?}");
        let r = rectangle(&[(0.0, 0.0), (600.0, 0.0), (400.0, 200.0), (200.0, 200.0)]);
        assert!((r.width() - 300.0).abs() < 1e-9 && (r.height() - 150.0).abs() < 1e-9, "{r:?}");
    }

    /// An L of arms 4 × 1 and 1 × 3: the level arm, 4.
    #[test]
    fn an_outline_that_turns_inwards() {
        let r = rectangle(&[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)]);
        assert!((r.width() * r.height() - 4.0).abs() < 1e-6, "{r:?}");
    }

    /// The best of a brute search over a fine grid is never better, and at most a little worse.
    #[test]
    fn no_grid_finds_a_larger_one() {
        let quadrilateral = [(0.0, 0.0), (420.0, 450.0), (390.0, 570.0), (-160.0, 520.0)];
        let dented = [(0.0, 0.0), (420.0, 450.0), (390.0, 570.0), (130.0, 500.0), (-160.0, 520.0)];
        for points in [&quadrilateral[..], &dented[..]] {
            let shape: Vec<Point<f64>> = points.iter().map(|(x, y)| Point { x: *x, y: *y }).collect();
            let r = rectangle(points);
            let mut most: f64 = 0.0;
            for i in 0..600 {
                for j in i..600 {
                    let at = |k: i32| -160.0 + 580.0 * f64::from(k) / 599.0;
                    if let Some((bottom, top)) = between(&shape, at(i), at(j)) {
                        most = most.max((at(j) - at(i)) * (top - bottom));
                    }
                }
            }
            let area = r.width() * r.height();
            assert!(area >= most - 1e-6 && area < most * 1.01, "{area} {most}");
        }
    }
}
