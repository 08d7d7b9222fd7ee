//! Points, lines and closed outlines of the plane, over plain numbers or numbers with derivatives.
//!
//! Outlines run counter-clockwise: their inside lies to the left of every edge. Not here: anything that knows a bicycle.

pub(super) use crate::geometry::plane::contains;
use crate::geometry::{Point, Scalar};

pub(super) fn sub<T: Scalar>(a: Point<T>, b: Point<T>) -> Point<T> {
    Point { x: a.x - b.x, y: a.y - b.y }
}

/// `a + b · along`.
pub(super) fn along<T: Scalar>(a: Point<T>, b: Point<T>, along: T) -> Point<T> {
    Point { x: a.x + b.x * along, y: a.y + b.y * along }
}

pub(super) fn dot<T: Scalar>(a: Point<T>, b: Point<T>) -> T {
    a.x * b.x + a.y * b.y
}

/// z of a × b: positive when b lies to the left of a.
pub(super) fn cross<T: Scalar>(a: Point<T>, b: Point<T>) -> T {
    a.x * b.y - a.y * b.x
}

pub(super) fn length<T: Scalar>(a: Point<T>) -> T {
    dot(a, a).sqrt()
}

/// The unit vector to the left of a → b. Of two equal points it means nothing but is finite.
pub(super) fn left<T: Scalar>(a: Point<T>, b: Point<T>) -> Point<T> {
    let d = sub(b, a);
    let l = length(d);
    Point { x: -d.y / l, y: d.x / l }
}

pub(super) fn plain<T: Scalar>(p: Point<T>) -> Point<f64> {
    Point { x: p.x.value(), y: p.y.value() }
}

/// A plain point as constants.
pub(super) fn constant<T: Scalar>(p: Point<f64>) -> Point<T> {
    Point { x: T::of(p.x), y: T::of(p.y) }
}

/// Where the lines a and b meet, as parts of their segments (0 at the start, 1 at the end); `None` when they are
/// parallel to within 10⁻⁹ rad.
pub(super) fn meet<T: Scalar>(a: [Point<T>; 2], b: [Point<T>; 2]) -> Option<(T, T, Point<T>)> {
    let (da, db) = (sub(a[1], a[0]), sub(b[1], b[0]));
    let sine = cross(da, db);
    let scale = (length(plain(da)) * length(plain(db))).max(1e-12);
    if sine.value().abs() < 1e-9 * scale {
        return None;
    }
    let between = sub(b[0], a[0]);
    let s = cross(between, db) / sine;
    let t = cross(between, da) / sine;
    Some((s, t, along(a[0], da, s)))
}

/// A line so far to its left.
pub(super) fn moved<T: Scalar>([a, b]: [Point<T>; 2], by: T) -> [Point<T>; 2] {
    let n = left(a, b);
    [along(a, n, by), along(b, n, by)]
}

/// The line `r` to the left of a polyline, its joints mitred.
pub(super) fn beside<T: Scalar>(line: &[Point<T>], r: T) -> Vec<Point<T>> {
    let normals: Vec<Point<T>> = line.windows(2).map(|w| left(w[0], w[1])).collect();
    line.iter()
        .enumerate()
        .filter_map(|(i, p)| {
            let before = i.checked_sub(1).and_then(|j| normals.get(j));
            match (before, normals.get(i)) {
                (Some(b), Some(a)) => {
                    // The bisector's foot: r (n₁ + n₂) / (1 + n₁·n₂).
                    let sum = Point { x: a.x + b.x, y: a.y + b.y };
                    Some(along(*p, sum, r / (T::of(1.0) + dot(*a, *b))))
                }
                (Some(n), None) | (None, Some(n)) => Some(along(*p, *n, r)),
                (None, None) => None,
            }
        })
        .collect()
}

/// Area by the shoelace formula: positive for a counter-clockwise outline, negative for a clockwise one.
pub(super) fn signed_area<T: Scalar>(outline: &[Point<T>]) -> T {
    let Some(first) = outline.first() else { return T::of(0.0) };
    // From the first corner, so that an outline far from the origin loses no digits.
    let mut twice = T::of(0.0);
    for pair in outline.windows(2).skip(1) {
        twice = twice + cross(sub(pair[0], *first), sub(pair[1], *first));
    }
    twice / T::of(2.0)
}

/// The edges of a closed outline.
pub(super) fn edges<T: Copy>(outline: &[Point<T>]) -> impl Iterator<Item = [Point<T>; 2]> {
    outline.iter().zip(outline.iter().cycle().skip(1)).map(|(a, b)| [*a, *b])
}

/// Whether every corner turns left or hardly turns.
pub(super) fn is_convex(outline: &[Point<f64>]) -> bool {
    (0..outline.len()).all(|i| turn(outline, i) > -1e-9)
}

/// Sine of the turn at a corner: negative where the outline turns into itself.
pub(super) fn turn(outline: &[Point<f64>], i: usize) -> f64 {
    let n = outline.len();
    let (a, b, c) = (outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]);
    let (u, v) = (sub(b, a), sub(c, b));
    cross(u, v) / (length(u) * length(v)).max(1e-12)
}

/// Distance of a point from a segment.
pub(super) fn distance_to_segment(p: Point<f64>, [a, b]: [Point<f64>; 2]) -> f64 {
    let d = sub(b, a);
    let t = (dot(sub(p, a), d) / dot(d, d).max(1e-300)).clamp(0.0, 1.0);
    length(sub(p, along(a, d, t)))
}

/// Distance from the outline: positive inside, negative outside.
pub(super) fn depth(outline: &[Point<f64>], p: Point<f64>) -> f64 {
    let nearest = edges(outline).map(|e| distance_to_segment(p, e)).fold(f64::INFINITY, f64::min);
    if contains(outline, p) { nearest } else { -nearest }
}

/// The box around points: lowest and highest x and y.
pub(super) fn bounds(points: &[Point<f64>]) -> (Point<f64>, Point<f64>) {
    let far = f64::INFINITY;
    points.iter().fold((Point { x: far, y: far }, Point { x: -far, y: -far }), |(low, high), p| {
        (Point { x: low.x.min(p.x), y: low.y.min(p.y) }, Point { x: high.x.max(p.x), y: high.y.max(p.y) })
    })
}

/// Solves a square system of at most eight unknowns by elimination with row pivots; `None` when it is singular to
/// within 10⁻¹⁰ of its largest entry. `rows` hold the matrix and, last, the right-hand side.
pub(super) fn solve<T: Scalar>(rows: &mut [Vec<T>]) -> Option<Vec<T>> {
    let n = rows.len();
    let largest = rows.iter().flat_map(|r| r.iter().take(n)).map(|v| v.value().abs()).fold(0.0, f64::max);
    for column in 0..n {
        let pivot = (column..n).max_by(|a, b| rows[*a][column].value().abs().total_cmp(&rows[*b][column].value().abs()))?;
        if rows[pivot][column].value().abs() <= 1e-10 * largest {
            return None;
        }
        rows.swap(column, pivot);
        for row in column + 1..n {
            let factor = rows[row][column] / rows[column][column];
            for k in column..=n {
                let taken = factor * rows[column][k];
                rows[row][k] = rows[row][k] - taken;
            }
        }
    }
    let mut solution = vec![T::of(0.0); n];
    for row in (0..n).rev() {
        let mut rest = rows[row][n];
        for k in row + 1..n {
            rest = rest - rows[row][k] * solution[k];
        }
        solution[row] = rest / rows[row][row];
    }
    Some(solution)
}
