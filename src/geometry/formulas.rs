//! The figures and points as functions of the state: each formula once, over plain numbers or [`Jet`](super::Jet)s.
//!
//! Side view, bicycle facing right, origin at the bottom bracket, x forward, y up, mm and degrees. With
//! u = (cos θ, −sin θ) down the steering axis and n = (sin θ, cos θ) ahead of it, the front axle is
//! (R, S) + (H + h + f) u + o n and the rear axle (−√(c² − d²), d).

use super::jet::Scalar;
use super::state::{Quantity as Q, State};
use crate::frameset::Figure;

/// What a formula may need besides the state and the assumptions do not change: the top tube's half thickness and bend.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TopTubeShape {
    /// Half the top tube's outside diameter, mm.
    pub radius_mm: f64,
    /// How far its axis passes above (+) the straight line between its junctions, midway, mm.
    pub rise_midway_mm: f64,
}

/// A point of the side view, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point<T> {
    /// Forward of the bottom bracket.
    pub x: T,
    /// Above the bottom bracket.
    pub y: T,
}

impl From<Point<f64>> for [f64; 2] {
    fn from(point: Point<f64>) -> Self {
        [point.x, point.y]
    }
}

/// The points that a state fixes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Points<T> {
    /// Rear axle.
    pub rear_axle: Point<T>,
    /// Front axle.
    pub front_axle: Point<T>,
    /// Centre of the head tube's top.
    pub head_top: Point<T>,
    /// Centre of the head tube's bottom.
    pub head_bottom: Point<T>,
    /// Crown race seat.
    pub crown: Point<T>,
    /// Centre of the seat tube's top.
    pub seat_top: Point<T>,
    /// Where the top tube's axis meets the head tube's.
    pub top_tube_front: Point<T>,
    /// Where the top tube's axis meets the seat tube's.
    pub top_tube_rear: Point<T>,
    /// Where the down tube's axis meets the head tube's.
    pub down_tube_front: Point<T>,
    /// The seat tube axis's nearest point to the bottom bracket (the bottom bracket itself without setback).
    pub seat_foot: Point<T>,
    /// Where the seat post's axis is as high as the head tube's top.
    pub seat_at_stack: Point<T>,
}

impl<T: Scalar> Point<T> {
    /// The point `along` further in the direction of `unit`.
    fn plus(self, unit: Self, along: T) -> Self {
        Self { x: self.x + unit.x * along, y: self.y + unit.y * along }
    }
}

/// Direction down the steering axis, and the one ahead of it.
fn steering<T: Scalar>(state: &State<T>) -> (Point<T>, Point<T>) {
    let (sin, cos) = state.get(Q::HeadAngle).sin_cos_deg();
    (Point { x: cos, y: -sin }, Point { x: sin, y: cos })
}

fn head_top<T: Scalar>(state: &State<T>) -> Point<T> {
    Point { x: state.get(Q::Reach), y: state.get(Q::Stack) }
}

/// Level distance from the bottom bracket back to the seat post's axis at stack height.
fn seat_back<T: Scalar>(state: &State<T>) -> T {
    let (sin, cos) = state.get(Q::SeatAngle).sin_cos_deg();
    state.get(Q::Stack) * cos / sin
}

fn front_axle<T: Scalar>(state: &State<T>) -> Point<T> {
    let (down, ahead) = steering(state);
    let length = state.get(Q::HeadTube) + state.get(Q::LowerHeadset) + state.get(Q::AxleToCrown);
    head_top(state).plus(down, length).plus(ahead, state.get(Q::ForkOffset))
}

fn chainstay_level<T: Scalar>(state: &State<T>) -> T {
    let (c, d) = (state.get(Q::Chainstay), state.get(Q::BbDrop));
    (c * c - d * d).sqrt()
}

fn straight<T: Scalar>(x: T, y: T) -> T {
    (x * x + y * y).sqrt()
}

/// Direction up the seat tube, and its axis's nearest point to the bottom bracket.
fn seat_tube_axis<T: Scalar>(state: &State<T>) -> (Point<T>, Point<T>) {
    let setback = state.get(Q::SeatTubeSetback);
    let (dx, dy) = (setback - seat_back(state), state.get(Q::Stack));
    let length = straight(dx, dy);
    let up = Point { x: dx / length, y: dy / length };
    // The axis passes through (−setback, 0); the bottom bracket lies `setback · up.x` further along it.
    let foot = Point { x: -setback, y: T::of(0.0) }.plus(up, setback * up.x);
    (up, foot)
}

fn seat_top<T: Scalar>(state: &State<T>) -> (Point<T>, Point<T>) {
    let (up, foot) = seat_tube_axis(state);
    (up, foot.plus(up, state.get(Q::SeatTube)))
}

/// Where the top tube's axis meets the seat tube's and the head tube's.
pub(super) fn top_tube<T: Scalar>(state: &State<T>) -> (Point<T>, Point<T>) {
    let (down, _) = steering(state);
    let (up, top) = seat_top(state);
    let front = head_top(state).plus(down, state.get(Q::TopTubeBelowHeadTubeTop));
    let rear = top.plus(up, -state.get(Q::TopTubeBelowSeatTubeTop));
    (rear, front)
}

/// All points of a state.
#[must_use]
pub fn points<T: Scalar>(state: &State<T>) -> Points<T> {
    let (down, ahead) = steering(state);
    let head_top = head_top(state);
    let head_bottom = head_top.plus(down, state.get(Q::HeadTube));
    let crown = head_bottom.plus(down, state.get(Q::LowerHeadset));
    let (_, seat_foot) = seat_tube_axis(state);
    let (_, seat_top) = seat_top(state);
    let (top_tube_rear, top_tube_front) = top_tube(state);
    Points {
        rear_axle: Point { x: -chainstay_level(state), y: state.get(Q::BbDrop) },
        front_axle: crown.plus(down, state.get(Q::AxleToCrown)).plus(ahead, state.get(Q::ForkOffset)),
        head_top,
        head_bottom,
        crown,
        seat_top,
        top_tube_front,
        top_tube_rear,
        down_tube_front: head_bottom.plus(down, -state.get(Q::DownTubeAboveHeadTubeBottom)),
        seat_foot,
        seat_at_stack: Point { x: -seat_back(state), y: state.get(Q::Stack) },
    }
}

/// How far the front wheel's lowest point stands above the rear wheel's: zero on a level road.
#[must_use]
pub fn closure<T: Scalar>(state: &State<T>) -> T {
    front_axle(state).y - state.get(Q::FrontTyreRadius) - state.get(Q::BbDrop) + state.get(Q::RearTyreRadius)
}

/// Trail of a wheel of radius `r` with offset `o` at head angle θ (degrees): (r cos θ − o) / sin θ.
///
/// Positive when the tyre touches the ground behind the steering axis. θ of 0° or 180° divides by zero; printed angles
/// lie between 50° and 90°.
#[must_use]
pub fn trail<T: Scalar>(radius: T, offset: T, head_angle_deg: T) -> T {
    let (sin, cos) = head_angle_deg.sin_cos_deg();
    (radius * cos - offset) / sin
}

/// The value of `figure` in `state`.
#[must_use]
pub fn figure<T: Scalar>(figure: Figure, state: &State<T>, top: TopTubeShape) -> T {
    match figure {
        Figure::Stack => state.get(Q::Stack),
        Figure::Reach => state.get(Q::Reach),
        Figure::HeadAngle => state.get(Q::HeadAngle),
        Figure::SeatAngle => state.get(Q::SeatAngle),
        Figure::SeatTubeSetback => state.get(Q::SeatTubeSetback),
        Figure::HeadTube => state.get(Q::HeadTube),
        Figure::LowerHeadset => state.get(Q::LowerHeadset),
        Figure::AxleToCrownAlongAxis => state.get(Q::AxleToCrown),
        Figure::ForkOffset => state.get(Q::ForkOffset),
        Figure::Chainstay => state.get(Q::Chainstay),
        Figure::BbDrop => state.get(Q::BbDrop),
        Figure::SeatTube => state.get(Q::SeatTube),
        Figure::FrontTyreRadius => state.get(Q::FrontTyreRadius),
        Figure::RearTyreRadius => state.get(Q::RearTyreRadius),
        Figure::SeatTubeAngle => {
            let back = seat_back(state) - state.get(Q::SeatTubeSetback);
            state.get(Q::Stack).atan2_deg(back)
        }
        Figure::EffectiveTopTube => state.get(Q::Reach) + seat_back(state),
        Figure::TopTube => {
            let (rear, front) = top_tube(state);
            straight(front.x - rear.x, front.y - rear.y)
        }
        Figure::AxleToCrownDirect => straight(state.get(Q::AxleToCrown), state.get(Q::ForkOffset)),
        Figure::AxleToCrown => {
            let along = state.get(Q::AxleToCrown);
            (along + straight(along, state.get(Q::ForkOffset))) / T::of(2.0)
        }
        Figure::ChainstayHorizontal => chainstay_level(state),
        Figure::BbHeight => state.get(Q::RearTyreRadius) - state.get(Q::BbDrop),
        Figure::Wheelbase => front_axle(state).x + chainstay_level(state),
        Figure::FrontCentre => {
            let axle = front_axle(state);
            straight(axle.x, axle.y)
        }
        Figure::FrontCentreHorizontal => front_axle(state).x,
        Figure::Trail => trail(state.get(Q::FrontTyreRadius), state.get(Q::ForkOffset), state.get(Q::HeadAngle)),
        Figure::MechanicalTrail => {
            let (_, cos) = state.get(Q::HeadAngle).sin_cos_deg();
            state.get(Q::FrontTyreRadius) * cos - state.get(Q::ForkOffset)
        }
        Figure::WheelFlop => {
            let (_, cos) = state.get(Q::HeadAngle).sin_cos_deg();
            (state.get(Q::FrontTyreRadius) * cos - state.get(Q::ForkOffset)) * cos
        }
        Figure::Standover => {
            let (rear, front) = top_tube(state);
            let (dx, dy) = (front.x - rear.x, front.y - rear.y);
            // The upper edge stands radius / cos(slope) above the axis, and so does a bend's rise off the straight line.
            let above = straight(dx, dy) / dx * T::of(top.radius_mm + top.rise_midway_mm);
            (rear.y + front.y) / T::of(2.0) + above + state.get(Q::RearTyreRadius) - state.get(Q::BbDrop)
        }
    }
}
