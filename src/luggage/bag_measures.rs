//! What a bag measures, exactly: from the lines that its outline follows and the arcs between them, over [`Scalar`], so
//! that every number carries its gradient.
//!
//! By Green's theorem along the outline: area ½ ∮ (x dy − y dx), first moment −½ ∮ y² dx. The arcs are true ones here, the
//! outline's chords are not asked. Not here: which lines those are. Invariant: pure; no NaN, or no answer.

use super::along::Along;
use super::plane::{along, cross, dot, left, length, meet, moved, plain, sub};
use crate::geometry::{Point, Scalar};

/// What a part of the outline runs along, counter-clockwise.
#[derive(Clone, Copy, Debug)]
pub(super) enum Follows<T> {
    /// A line; the bag lies to its left.
    Line(Along, [Point<T>; 2]),
    /// The circle of this radius about the bottom bracket; the bag lies outside.
    Shell(T),
}

/// A bag's measures.
#[derive(Clone, Debug)]
pub(super) struct Measures<T> {
    /// Area, mm².
    pub(super) area: T,
    /// Height of its centroid, mm.
    pub(super) height: T,
    /// Once around, mm.
    pub(super) around: T,
    /// Its straight pieces in order.
    pub(super) pieces: Vec<(Along, [Point<T>; 2])>,
    arcs: Vec<Arc<T>>,
}

impl<T: Scalar> Measures<T> {
    /// Those of an outline that follows all these in order and is rounded by this radius, mm, wherever it turns left. `None`
    /// where two that follow one another have no corner, or nothing is enclosed.
    pub(super) fn of(order: &[Follows<T>], radius: T) -> Option<Self> {
        let n = order.len();
        if n < 2 {
            return None;
        }
        let corners = (0..n).map(|i| corner(order[i], order[(i + 1) % n], radius)).collect::<Option<Vec<_>>>()?;
        let zero = T::of(0.0);
        let mut sum = Sum { area: zero, moment: zero, around: zero };
        let (mut pieces, mut arcs) = (Vec::with_capacity(n), Vec::with_capacity(n + 1));
        for (i, follows) in order.iter().enumerate() {
            let (from, to) = (corners[(i + n - 1) % n].to, corners[i].from);
            match follows {
                Follows::Line(what, _) => {
                    sum.line(from, to);
                    pieces.push((*what, [from, to]));
                }
                Follows::Shell(shell) => arcs.push(Arc { centre: Point { x: zero, y: zero }, radius: *shell, from, to }),
            }
            arcs.push(corners[i]);
        }
        arcs.iter().filter(|a| a.radius.value() > 0.0).for_each(|arc| sum.arc(arc));
        let height = sum.moment / sum.area;
        let found = Self { area: sum.area, height, around: sum.around, pieces, arcs };
        (found.area.value() > 0.0).then_some(found)
    }

    /// The outline, counter-clockwise, arcs as chords of no more than this angle, radians.
    pub(super) fn outline(&self, chord_rad: f64) -> Vec<Point<f64>> {
        let mut outline: Vec<Point<f64>> = Vec::new();
        let mut add = |p: Point<f64>| {
            if outline.last().is_none_or(|last| (p.x - last.x).hypot(p.y - last.y) > 1e-9) {
                outline.push(p);
            }
        };
        for arc in &self.arcs {
            let (centre, from, to) = (plain(arc.centre), plain(arc.from), plain(arc.to));
            let (u, v) = (sub(from, centre), sub(to, centre));
            let angle = cross(u, v).atan2(dot(u, v));
            add(from);
            let chords = (angle.abs() / chord_rad).ceil();
            let mut k = 1.0;
            while k < chords {
                let (sin, cos) = (angle * k / chords).sin_cos();
                add(Point { x: centre.x + u.x * cos - u.y * sin, y: centre.y + u.x * sin + u.y * cos });
                k += 1.0;
            }
            add(to);
        }
        outline
    }

    /// Length of the straight pieces along something, mm.
    pub(super) fn straight(&self, along: Along) -> T {
        let own = self.pieces.iter().filter(|(what, _)| *what == along);
        own.fold(T::of(0.0), |sum, (_, [a, b])| sum + length(sub(*b, *a)))
    }
}

/// An arc of less than half a turn, or, where its radius is zero, a point.
#[derive(Clone, Copy, Debug)]
struct Arc<T> {
    centre: Point<T>,
    radius: T,
    from: Point<T>,
    to: Point<T>,
}

/// How the outline goes over from one line to the next.
fn corner<T: Scalar>(before: Follows<T>, after: Follows<T>, radius: T) -> Option<Arc<T>> {
    match (before, after) {
        (Follows::Line(_, a), Follows::Line(_, b)) => {
            let turns_left = cross(sub(a[1], a[0]), sub(b[1], b[0])).value() > 0.0;
            if !turns_left || radius.value() <= 0.0 {
                let (_, _, at) = meet(a, b)?;
                return Some(Arc { centre: at, radius: T::of(0.0), from: at, to: at });
            }
            let (_, _, centre) = meet(moved(a, radius), moved(b, radius))?;
            let touch = |line: [Point<T>; 2]| along(centre, left(line[0], line[1]), -radius);
            Some(Arc { centre, radius, from: touch(a), to: touch(b) })
        }
        (Follows::Line(_, line), Follows::Shell(shell)) => {
            let (centre, from, to) = at_shell(line, shell, radius, -1.0)?;
            Some(Arc { centre, radius, from, to })
        }
        (Follows::Shell(shell), Follows::Line(_, line)) => {
            let (centre, to, from) = at_shell(line, shell, radius, 1.0)?;
            Some(Arc { centre, radius, from, to })
        }
        (Follows::Shell(_), Follows::Shell(_)) => None,
    }
}

/// The arc between a line and the shell, before (`side` −1) or after (1) the line's nearest point to it: its centre, and
/// where it touches the line and the shell.
fn at_shell<T: Scalar>(line: [Point<T>; 2], shell: T, radius: T, side: f64) -> Option<(Point<T>, Point<T>, Point<T>)> {
    let [a, b] = moved(line, radius);
    let n = left(a, b);
    let forward = Point { x: n.y, y: -n.x };
    let far = shell + radius;
    let off = dot(a, n);
    let rest = far * far - off * off;
    if rest.value() <= 0.0 {
        return None;
    }
    let foot = Point { x: n.x * off, y: n.y * off };
    let centre = along(foot, forward, rest.sqrt() * T::of(side));
    let part = shell / far;
    Some((centre, along(centre, n, -radius), Point { x: centre.x * part, y: centre.y * part }))
}

/// Integrals along an outline.
struct Sum<T> {
    area: T,
    moment: T,
    around: T,
}

impl<T: Scalar> Sum<T> {
    fn line(&mut self, a: Point<T>, b: Point<T>) {
        let half = T::of(0.5);
        self.area = self.area + half * cross(a, b);
        self.moment = self.moment - (b.x - a.x) * (a.y * a.y + a.y * b.y + b.y * b.y) / T::of(6.0);
        self.around = self.around + length(sub(b, a));
    }

    fn arc(&mut self, arc: &Arc<T>) {
        let half = T::of(0.5);
        let Arc { centre, radius, .. } = *arc;
        let (u, v) = (sub(arc.from, centre), sub(arc.to, centre));
        let angle = cross(u, v).atan2_deg(dot(u, v)) * T::of(std::f64::consts::PI / 180.0);
        self.area = self.area + half * (radius * radius * angle + cross(centre, sub(arc.to, arc.from)));
        // y = centre.y + v.y and dx = −v.y dφ: ½ ∫ (centre.y² v.y + 2 centre.y v.y² + v.y³) dφ.
        let first = u.x - v.x;
        let second = half * (radius * radius * angle - (v.x * v.y - u.x * u.y));
        let cube = |p: Point<T>| p.x * p.x * p.x / T::of(3.0) - radius * radius * p.x;
        let third = cube(v) - cube(u);
        let twice = centre.y * centre.y * first + T::of(2.0) * centre.y * second + third;
        self.moment = self.moment + half * twice;
        let way = if angle.value() < 0.0 { -angle } else { angle };
        self.around = self.around + radius * way;
    }
}
