//! The opening of the main triangle: the region inside the inner edges of down tube, head tube, top tube and seat tube.
//!
//! Written over [`Scalar`], so that whatever is measured in it carries its exact gradient. The edges are the tubes' axes
//! moved by half their diameters, bends mitred; where they meet is where the edges cross, not where the axes do.
//! Invariant: an opening is a simple outline that runs counter-clockwise, or there is a reason why not.

use super::plane::{beside, meet, plain, signed_area, sub, turn};
use crate::frameset::{Bend, Figure, Frameset, Size, Tube};
use crate::geometry::{AdjustedSize, Point, Scalar, State, diameter_mm, points};

/// The tubes around the opening in the order in which its outline runs past them.
pub const AROUND: [Tube; 4] = [Tube::DownTube, Tube::HeadTube, Tube::TopTube, Tube::SeatTube];

/// What an opening needs besides the state.
#[derive(Clone, Copy, Debug)]
pub struct Tubes<'a> {
    /// Outside diameters, mm, in the order of [`AROUND`], and whether each is assumed from the material.
    pub diameters: [(f64, bool); 4],
    /// Bends of the top tube, from the seat tube to the head tube.
    pub top_tube_bends: &'a [Bend],
    /// Bends of the seat tube, from the bottom bracket up.
    pub seat_tube_bends: &'a [Bend],
}

impl<'a> Tubes<'a> {
    /// Those of a size.
    #[must_use]
    pub fn of(frameset: &Frameset, size: &'a Size) -> Self {
        Self {
            diameters: AROUND.map(|tube| diameter_mm(frameset, tube)),
            top_tube_bends: &size.top_tube_bends,
            seat_tube_bends: &size.seat_tube_bends,
        }
    }
}

/// The opening: a closed outline, counter-clockwise, each edge a tube's.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening<T> {
    /// Its corners and the tubes' bends, the first not repeated.
    pub outline: Vec<Point<T>>,
    /// The tube along the edge from each point to the next.
    pub edges: Vec<Tube>,
}

/// Why there is no opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoOpening {
    /// Figures that the edges need are unknown.
    Missing(Vec<Figure>),
    /// The seat tube has no length, so nothing says where the top tube meets it.
    NoSeatTubeJunction,
    /// Two tubes cross where they must not.
    Crossing(Tube, Tube),
}

impl NoOpening {
    /// Stable code, for programs that read JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Missing(_) => "figures_unknown",
            Self::NoSeatTubeJunction => "seat_tube_junction_unknown",
            Self::Crossing(..) => "tubes_cross",
        }
    }
}

/// Refuses a size whose figures do not fix the tubes around the opening.
///
/// # Errors
/// The figures that are missing.
pub(super) fn check(size: &AdjustedSize) -> Result<(), NoOpening> {
    let is_missing = |f: &Figure| size.value(*f).is_missing;
    let needed = [Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::HeadTube, Figure::SeatAngle, Figure::SeatTube];
    let missing: Vec<Figure> = needed.into_iter().filter(is_missing).collect();
    match missing.as_slice() {
        [] => Ok(()),
        [Figure::SeatTube] => Err(NoOpening::NoSeatTubeJunction),
        _ => Err(NoOpening::Missing(missing)),
    }
}

/// The opening of a state whose tubes have these radii, mm, in the order of [`AROUND`].
///
/// # Errors
/// When the tubes cross where they must not.
pub fn opening<T: Scalar>(state: &State<T>, radii: [T; 4], tubes: Tubes) -> Result<Opening<T>, NoOpening> {
    let p = points(state);
    let bottom = Point { x: T::of(0.0), y: T::of(0.0) };
    // Along the steering axis the top tube must meet the head tube above the down tube.
    let down_the_head = sub(plain(p.head_bottom), plain(p.head_top));
    let between = sub(plain(p.down_tube_front), plain(p.top_tube_front));
    if super::plane::dot(down_the_head, between) <= 0.0 {
        return Err(NoOpening::Crossing(Tube::TopTube, Tube::DownTube));
    }
    let mut top = bent(p.top_tube_rear, p.top_tube_front, tubes.top_tube_bends, 1.0);
    top.reverse();
    let mut seat = bent(p.seat_foot, p.seat_top, tubes.seat_tube_bends, -1.0);
    seat.reverse();
    let axes = [vec![bottom, p.down_tube_front], vec![p.head_bottom, p.head_top], top, seat];
    let sides: Vec<(Tube, Vec<Point<T>>)> =
        AROUND.iter().zip(&axes).zip(radii).map(|((tube, axis), r)| (*tube, beside(axis, r))).collect();
    match close(&sides) {
        Ok(opening) => Ok(opening),
        // Where top tube and down tube meet before the head tube shows, three sides are left.
        Err(NoOpening::Crossing(Tube::DownTube, Tube::TopTube)) => {
            let three: Vec<_> = sides.into_iter().filter(|(tube, _)| *tube != Tube::HeadTube).collect();
            close(&three)
        }
        Err(other) => Err(other),
    }
}

/// A straight line with its bends, each `off` to the left (`side` 1) or to the right (−1) of it.
fn bent<T: Scalar>(from: Point<T>, to: Point<T>, bends: &[Bend], side: f64) -> Vec<Point<T>> {
    let d = sub(to, from);
    let n = super::plane::left(from, to);
    let between = bends.iter().map(|b| super::plane::along(super::plane::along(from, d, T::of(b.along)), n, T::of(b.off * side)));
    std::iter::once(from).chain(between).chain([to]).collect()
}

/// Where a side meets the next one: segment and part of it on either.
struct Corner<T> {
    at: Point<T>,
    end: (usize, f64),
    start: (usize, f64),
}

/// The corner where side `a` ends and side `b` begins: the crossing nearest to `a`'s end and `b`'s start. Both go on
/// straight beyond their ends.
fn corner<T: Scalar>(a: &[Point<T>], b: &[Point<T>]) -> Option<Corner<T>> {
    let (na, nb) = (a.len().checked_sub(1)?, b.len().checked_sub(1)?);
    let mut pairs: Vec<(usize, usize)> = (0..na).flat_map(|i| (0..nb).map(move |j| (i, j))).collect();
    pairs.sort_by_key(|(i, j)| (na - 1 - i) + j);
    pairs.into_iter().find_map(|(i, j)| {
        let (s, t, at) = meet([a[i], a[i + 1]], [b[j], b[j + 1]])?;
        let (sv, tv) = (s.value(), t.value());
        let fits = |v: f64, i: usize, n: usize| (v >= 0.0 || i == 0) && (v <= 1.0 || i + 1 == n);
        (fits(sv, i, na) && fits(tv, j, nb)).then_some(Corner { at, end: (i, sv), start: (j, tv) })
    })
}

/// The outline that the sides enclose, each cut where it meets its neighbours.
fn close<T: Scalar>(sides: &[(Tube, Vec<Point<T>>)]) -> Result<Opening<T>, NoOpening> {
    let n = sides.len();
    let mut corners = Vec::with_capacity(n);
    for (i, (tube, side)) in sides.iter().enumerate() {
        let (next_tube, next) = &sides[(i + 1) % n];
        corners.push(corner(side, next).ok_or(NoOpening::Crossing(*tube, *next_tube))?);
    }
    let mut outline = Vec::with_capacity(n + 4);
    let mut edges = Vec::with_capacity(n + 4);
    for (i, (tube, side)) in sides.iter().enumerate() {
        let (start, end) = (&corners[(i + n - 1) % n], &corners[i]);
        let ((from, s), (to, t)) = (start.start, end.end);
        if (from, s) >= (to, t) {
            // The side's ends have changed places: its neighbours meet before it shows.
            return Err(NoOpening::Crossing(sides[(i + n - 1) % n].0, sides[(i + 1) % n].0));
        }
        outline.push(start.at);
        outline.extend(side.get(from + 1..=to).unwrap_or_default());
        edges.resize(outline.len(), *tube);
    }
    let plain: Vec<Point<f64>> = outline.iter().map(|p| plain(*p)).collect();
    if signed_area(&plain) <= 0.0 || !turns_once(&plain) {
        return Err(NoOpening::Crossing(Tube::SeatTube, Tube::DownTube));
    }
    Ok(Opening { outline, edges })
}

/// Whether an outline turns by one full turn, as a simple one does.
fn turns_once(outline: &[Point<f64>]) -> bool {
    let n = outline.len();
    let total: f64 = (0..n)
        .map(|i| {
            let (a, b, c) = (outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]);
            let (u, v) = (sub(b, a), sub(c, b));
            super::plane::cross(u, v).atan2(super::plane::dot(u, v))
        })
        .sum();
    (total - std::f64::consts::TAU).abs() < 1e-6 && (0..n).all(|i| turn(outline, i).is_finite())
}

#[cfg(test)]
mod tests {
    use super::super::tests::shape;
    use super::*;

    /// A segment of a side and the part of it.
    type Place = (usize, f64);

    /// Where side `a` ends and side `b` begins, and the point.
    fn meeting(a: &[(f64, f64)], b: &[(f64, f64)]) -> Option<(Place, Place, (f64, f64))> {
        corner(&shape(a), &shape(b)).map(|c| (c.end, c.start, (c.at.x, c.at.y)))
    }

    #[test]
    fn sides_go_on_straight_beyond_their_outer_ends() {
        let level = [(0.0, 0.0), (10.0, 0.0)];
        assert_eq!(meeting(&level, &[(12.0, -5.0), (12.0, 5.0)]), Some(((0, 1.2), (0, 0.5), (12.0, 0.0))));
        assert_eq!(meeting(&level, &[(-5.0, 5.0), (-5.0, 15.0)]), Some(((0, -0.5), (0, -0.5), (-5.0, 0.0))));
        assert_eq!(meeting(&level, &[(5.0, 10.0), (5.0, 2.0)]), Some(((0, 0.5), (0, 1.25), (5.0, 0.0))));
        assert_eq!(meeting(&level, &[(0.0, 4.0), (10.0, 4.0)]), None, "parallels have no corner");
        assert_eq!(meeting(&level[..1], &level), None);
    }

    #[test]
    fn bent_sides_do_not_go_on_beyond_their_bends() {
        // The second segment would meet the other side before its own beginning.
        let up = [(0.0, 0.0), (10.0, 0.0), (20.0, 10.0)];
        assert_eq!(meeting(&up, &[(5.0, -8.0), (5.0, 8.0)]), Some(((0, 0.5), (0, 0.5), (5.0, 0.0))));
        // The first segment would meet it beyond its own end.
        let level = [(0.0, 0.0), (10.0, 0.0)];
        let down = [(5.0, 5.0), (5.0, 2.0), (9.0, 1.0)];
        assert_eq!(meeting(&level, &down), Some(((0, 1.3), (1, 2.0), (13.0, 0.0))));
        // Before its first point the other side goes on, before its bend it does not.
        assert_eq!(meeting(&level, &[(5.0, 5.0), (5.0, 10.0), (0.0, 10.0)]), Some(((0, 0.5), (0, -1.0), (5.0, 0.0))));
        assert_eq!(meeting(&level, &[(0.0, 5.0), (10.0, 5.0), (10.0, 9.0)]), None);
    }

    #[test]
    fn of_several_crossings_the_one_at_the_corner_counts() {
        let there_and_back = [(0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (0.0, 4.0)];
        assert_eq!(meeting(&there_and_back, &[(5.0, -6.0), (5.0, 10.0)]), Some(((2, 0.5), (0, 0.625), (5.0, 4.0))));
        let up_and_down = [(4.0, -5.0), (4.0, 5.0), (7.0, 5.0), (7.0, -5.0)];
        assert_eq!(meeting(&[(0.0, 0.0), (10.0, 0.0)], &up_and_down), Some(((0, 0.4), (0, 0.5), (4.0, 0.0))));
    }

    /// Sides that are the edges of an outline, named in the order around an opening.
    fn closed(points: &[(f64, f64)]) -> Result<Opening<f64>, NoOpening> {
        let edge = |i: usize| shape(&[points[i], points[(i + 1) % points.len()]]);
        close(&AROUND.into_iter().enumerate().map(|(i, tube)| (tube, edge(i))).collect::<Vec<_>>())
    }

    #[test]
    fn only_a_simple_outline_that_runs_counter_clockwise_is_an_opening() {
        let square = closed(&[(0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (0.0, 8.0)]).unwrap();
        assert_eq!((square.edges.as_slice(), square.outline.len()), (&AROUND[..], 4));
        let crossing = Err(NoOpening::Crossing(Tube::SeatTube, Tube::DownTube));
        assert_eq!(closed(&[(0.0, 0.0), (0.0, 8.0), (10.0, 8.0), (10.0, 0.0)]), crossing, "clockwise");
        // A figure of eight whose larger half runs counter-clockwise: 15 more than the other.
        assert_eq!(closed(&[(0.0, 0.0), (10.0, 0.0), (0.0, 6.0), (5.0, -1.0)]), crossing);
    }

    /// A side that lies beyond the crossing of its neighbours does not show.
    #[test]
    fn neighbours_that_meet_first_cross() {
        let sides = [
            (Tube::DownTube, shape(&[(0.0, 0.0), (10.0, 0.0)])),
            (Tube::HeadTube, shape(&[(20.0, 1.0), (20.0, 2.0)])),
            (Tube::TopTube, shape(&[(10.0, 5.0), (0.0, 10.0)])),
            (Tube::SeatTube, shape(&[(0.0, 10.0), (0.0, 0.0)])),
        ];
        // Down tube and top tube meet at x = 20: a head tube there has no length; nearer it shows, further away it does not.
        let with = |x: f64| {
            let mut sides = sides.to_vec();
            sides[1].1 = shape(&[(x, 1.0), (x, 2.0)]);
            close(&sides).map(|o| o.outline.len())
        };
        assert_eq!(with(19.0), Ok(4));
        assert_eq!(with(21.0), Err(NoOpening::Crossing(Tube::DownTube, Tube::TopTube)));
    }
}
