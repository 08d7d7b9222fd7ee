//! The outline: tubes as areas of true thickness, fork, wheels, seat post and saddle stub, in the side view.
//!
//! Millimetres, origin at the bottom bracket, x forward, y up. Thickness comes from the file or, by material, from an
//! assumption that is marked as one. A tube whose ends nothing determines is not drawn but named.

use super::adjusted::{Adjusted, AdjustedSize};
use super::formulas::{Point, Points};
use super::tubes::diameter_mm;
use crate::frameset::{Bend, Figure, Frameset, SizeIndex, Tube, TyreSize};

/// Radius of the bottom bracket shell's outside, mm: trade practice, unverified (a threaded shell is about 40 mm across).
const SHELL_RADIUS_MM: f64 = 20.0;
/// Rim radius where no tyre is stated, mm: half of 622.
const USUAL_RIM_RADIUS_MM: f64 = 311.0;
/// Seat post shown above the seat tube, and half of the saddle's stub, mm. A sketch: neither is anybody's figure.
const POST_MM: f64 = 90.0;
const SADDLE_HALF_MM: f64 = 65.0;
/// A fork's blade runs along the steering axis for this share of its length before it bends forward.
const STRAIGHT_BLADE: f64 = 0.45;

/// A tube in the side view.
#[derive(Clone, Debug, PartialEq)]
pub struct TubeOutline {
    /// Which.
    pub tube: Tube,
    /// Centre line, at least two points.
    pub axis: Vec<Point<f64>>,
    /// Closed outline, the first point not repeated.
    pub outline: Vec<Point<f64>>,
    /// Outside diameter, mm (of a tapering one at its wide end).
    pub diameter_mm: f64,
    /// Whether the diameter is assumed from the material.
    pub is_assumed: bool,
}

/// A wheel in the side view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wheel {
    /// Its axle.
    pub axle: Point<f64>,
    /// Radius of the tyre, mm.
    pub tyre_radius_mm: f64,
    /// Radius of the rim's bead seat, mm (311 assumed where no tyre is stated).
    pub rim_radius_mm: f64,
}

/// One size's side view.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Tubes, fork blade and seat post, in the order of painting.
    pub tubes: Vec<TubeOutline>,
    /// Tubes that cannot be drawn because nothing determines where they end.
    pub undrawn: Vec<Tube>,
    /// The saddle's stub: a short level line on the seat post; empty without one.
    pub saddle: Vec<Point<f64>>,
    /// Rear wheel.
    pub rear_wheel: Option<Wheel>,
    /// Front wheel.
    pub front_wheel: Option<Wheel>,
    /// Bottom bracket shell's radius, mm.
    pub shell_radius_mm: f64,
    /// Height of the road, mm below the bottom bracket being negative; `None` without a rear wheel.
    pub road_y: Option<f64>,
    /// The points; those of undrawn tubes mean nothing.
    pub points: Points<f64>,
}

/// The outline of the size at `index`; the first one beyond the last. `tyre` stands in for the frameset's own where all
/// frames stand on the same one.
#[must_use]
pub fn outline(frameset: &Frameset, adjusted: &Adjusted, index: SizeIndex, tyre: Option<TyreSize>) -> Option<Outline> {
    let size = index.of(&adjusted.sizes).or(adjusted.sizes.first())?;
    let printed = index.of(&frameset.sizes).or(frameset.sizes.first())?;
    let known = |figures: &[Figure]| figures.iter().all(|f| !size.value(*f).is_missing);
    let p = size.points();
    let has_head = known(&[Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::HeadTube]);
    let has_seat = known(&[Figure::SeatAngle, Figure::SeatTube, Figure::Stack]);
    let has_rear = known(&[Figure::Chainstay, Figure::BbDrop]);
    let has_fork = has_head && known(&[Figure::AxleToCrownAlongAxis, Figure::ForkOffset]);
    let bottom = Point { x: 0.0, y: 0.0 };
    let mut drawn = Drawn { frameset, tubes: Vec::new(), undrawn: Vec::new() };
    drawn.add(Tube::ChainStay, has_rear.then(|| vec![bottom, p.rear_axle]), 0.6);
    drawn.add(Tube::SeatStay, (has_rear && has_seat).then(|| vec![p.top_tube_rear, p.rear_axle]), 0.75);
    drawn.add(Tube::SeatPost, has_seat.then(|| vec![p.seat_top, beyond(p.seat_foot, p.seat_top, POST_MM)]), 1.0);
    let seat_foot = if size.value(Figure::SeatTubeSetback).value.abs() < 2.0 { bottom } else { p.seat_foot };
    drawn.add(Tube::SeatTube, has_seat.then(|| bent(seat_foot, p.seat_top, &printed.seat_tube_bends, Side::Forward)), 1.0);
    drawn.add(Tube::DownTube, has_head.then(|| vec![bottom, p.down_tube_front]), 1.0);
    let top = (has_seat && has_head).then(|| bent(p.top_tube_rear, p.top_tube_front, &printed.top_tube_bends, Side::Up));
    drawn.add(Tube::TopTube, top, 1.0);
    drawn.add(Tube::ForkBlade, has_fork.then(|| blade(size, &p)), 0.55);
    drawn.add(Tube::HeadTube, has_head.then(|| vec![p.head_top, p.head_bottom]), 1.0);
    let saddle = drawn.tubes.iter().find(|t| t.tube == Tube::SeatPost).and_then(|t| t.axis.last().copied());
    let wheel = |axle, radius: Figure, tyre: Option<TyreSize>| Wheel {
        axle,
        tyre_radius_mm: size.value(radius).value,
        rim_radius_mm: tyre.map_or(USUAL_RIM_RADIUS_MM, |t| t.bead_seat_mm() / 2.0),
    };
    let rear_wheel = has_rear.then(|| wheel(p.rear_axle, Figure::RearTyreRadius, tyre.or(frameset.tyre)));
    let front_wheel =
        has_fork.then(|| wheel(p.front_axle, Figure::FrontTyreRadius, tyre.or(frameset.front_tyre).or(frameset.tyre)));
    Some(Outline {
        tubes: drawn.tubes,
        undrawn: drawn.undrawn,
        saddle: saddle.map_or_else(Vec::new, |at| [-1.0, 1.0].map(|s| Point { x: at.x + s * SADDLE_HALF_MM, y: at.y }).to_vec()),
        road_y: rear_wheel.map(|w| w.axle.y - w.tyre_radius_mm),
        rear_wheel,
        front_wheel,
        shell_radius_mm: SHELL_RADIUS_MM,
        points: p,
    })
}

struct Drawn<'a> {
    frameset: &'a Frameset,
    tubes: Vec<TubeOutline>,
    undrawn: Vec<Tube>,
}

impl Drawn<'_> {
    /// A tube along `axis` that keeps `taper` of its diameter at the far end, or its name where there is no axis.
    fn add(&mut self, tube: Tube, axis: Option<Vec<Point<f64>>>, taper: f64) {
        let Some(axis) = axis else {
            self.undrawn.push(tube);
            return;
        };
        let (diameter_mm, is_assumed) = diameter_mm(self.frameset, tube);
        let outline = thicken(&axis, diameter_mm / 2.0, diameter_mm / 2.0 * taper);
        self.tubes.push(TubeOutline { tube, axis, outline, diameter_mm, is_assumed });
    }
}

/// The point `mm` beyond `to`, seen from `from`.
fn beyond(from: Point<f64>, to: Point<f64>, mm: f64) -> Point<f64> {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy).max(1e-9);
    Point { x: to.x + dx / length * mm, y: to.y + dy / length * mm }
}

/// Which side of a tube its bends are measured to.
#[derive(Clone, Copy)]
enum Side {
    Up,
    Forward,
}

/// The straight line from `from` to `to` with its bends.
fn bent(from: Point<f64>, to: Point<f64>, bends: &[Bend], side: Side) -> Vec<Point<f64>> {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy).max(1e-9);
    // Square to the line: left of it is up for a tube that runs forward, right of it is forward for one that runs up.
    let (nx, ny) = match side {
        Side::Up => (-dy / length, dx / length),
        Side::Forward => (dy / length, -dx / length),
    };
    let between = bends.iter().map(|b| Point { x: from.x + dx * b.along + nx * b.off, y: from.y + dy * b.along + ny * b.off });
    std::iter::once(from).chain(between).chain([to]).collect()
}

/// The fork blade: along the steering axis, then in a smooth bend to the axle (a quadratic Bézier curve whose first
/// tangent is the axis); straight where there is hardly an offset.
fn blade(size: &AdjustedSize, p: &Points<f64>) -> Vec<Point<f64>> {
    let length = size.value(Figure::AxleToCrownAlongAxis).value;
    let at = |along: f64| beyond(p.head_top, p.crown, along);
    let bend = at(length * STRAIGHT_BLADE);
    let control = at(length * (1.0 + STRAIGHT_BLADE) / 2.0);
    let mut axis = vec![p.crown, bend];
    for i in 1..=10 {
        let t = f64::from(i) / 10.0;
        let (a, b, c) = ((1.0 - t) * (1.0 - t), 2.0 * t * (1.0 - t), t * t);
        axis.push(Point {
            x: a * bend.x + b * control.x + c * p.front_axle.x,
            y: a * bend.y + b * control.y + c * p.front_axle.y,
        });
    }
    axis
}

/// The closed outline of a line thickened by half-widths that change evenly from its start to its end, joints mitred
/// (up to twice the half-width).
#[must_use]
pub fn thicken(axis: &[Point<f64>], half_start: f64, half_end: f64) -> Vec<Point<f64>> {
    let total: f64 = axis.windows(2).map(|w| (w[1].x - w[0].x).hypot(w[1].y - w[0].y)).sum::<f64>().max(1e-9);
    let normal = |a: Point<f64>, b: Point<f64>| {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let length = dx.hypot(dy).max(1e-9);
        (-dy / length, dx / length)
    };
    let (mut left, mut right) = (Vec::with_capacity(axis.len() * 2), Vec::with_capacity(axis.len()));
    let mut along = 0.0;
    for (i, point) in axis.iter().enumerate() {
        if i > 0 {
            along += (point.x - axis[i - 1].x).hypot(point.y - axis[i - 1].y);
        }
        let half = half_start + (half_end - half_start) * along / total;
        let before = if i > 0 { Some(normal(axis[i - 1], *point)) } else { None };
        let after = axis.get(i + 1).map(|next| normal(*point, *next));
        let (nx, ny) = match (before, after) {
            (Some(b), Some(a)) => {
                let (sx, sy) = (b.0 + a.0, b.1 + a.1);
                let square = (sx * sx + sy * sy).max(1.0);
                (2.0 * sx / square, 2.0 * sy / square)
            }
            (Some(n), None) | (None, Some(n)) => n,
            (None, None) => (0.0, 1.0),
        };
        left.push(Point { x: point.x + nx * half, y: point.y + ny * half });
        right.push(Point { x: point.x - nx * half, y: point.y - ny * half });
    }
    left.extend(right.into_iter().rev());
    left
}
