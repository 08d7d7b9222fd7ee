//! The outline: tubes as areas of true thickness, fork, wheels, seat post and saddle stub, in the side view.
//!
//! Millimetres, origin at the bottom bracket, x forward, y up. Thickness comes from the file or, by material, from an
//! assumption that is marked as one.

use super::formulas::{Point, Points};
use crate::frameset::Tube;

/// A tube in the side view.
#[derive(Clone, Debug, PartialEq)]
pub struct TubeOutline {
    /// Which.
    pub tube: Tube,
    /// Centre line, at least two points.
    pub axis: Vec<Point<f64>>,
    /// Closed outline.
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
    /// Radius of the rim's bead seat, mm (assumed 311 where no tyre is stated).
    pub rim_radius_mm: f64,
}

/// One size's side view.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Tubes, fork blade, seat post and saddle stub, from back to front.
    pub tubes: Vec<TubeOutline>,
    /// The saddle's stub: a short level line on the seat post.
    pub saddle: Vec<Point<f64>>,
    /// Rear wheel.
    pub rear_wheel: Wheel,
    /// Front wheel.
    pub front_wheel: Wheel,
    /// Bottom bracket shell's radius, mm.
    pub shell_radius_mm: f64,
    /// The points.
    pub points: Points<f64>,
    /// Whether enough is known to draw the seat tube's top, the top tube and what hangs on them.
    pub has_main_triangle: bool,
    /// Whether enough is known to draw it at all (stack, reach, chainstay, fork).
    pub is_drawable: bool,
}
