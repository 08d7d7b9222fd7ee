//! What a pattern on paper shows besides the bag's outline: its seam allowance, and the band in which the outline may lie.
//!
//! Made only where a pattern is: it takes several offsets. Invariant: pure.

use geo::{BooleanOps, Buffer};

use super::bag::Bag;
use super::bag_settings::BagSettings;
use super::bag_shape::{CHORD_RAD, Shape, largest, points, polygon, style};
use super::bag_space::BagSpace;
use super::plane::{along, edges, left, meet};
use crate::geometry::Point;
use crate::units::expanded;

/// The outlines beside a bag's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// The outline with seam allowance.
    pub seam: Vec<Point<f64>>,
    /// The outline if every tube's edge lay 2u further in; empty where nothing would be left.
    pub inner: Vec<Point<f64>>,
    /// The outline if every tube's edge lay 2u further out.
    pub outer: Vec<Point<f64>>,
    /// What lies within both: the bag whatever the ± does. Empty where there is none.
    pub in_both: Vec<Point<f64>>,
}

/// The band around a room's bag.
#[must_use]
pub fn band(bag_space: &BagSpace, settings: &BagSettings, bag: &Bag) -> Band {
    let shape = Shape::of(bag_space, settings);
    let displaced = |sign: f64| shape.cut_out(&displaced(bag_space, sign)).map(|(m, _)| m.outline(CHORD_RAD)).unwrap_or_default();
    let with_seam = || largest(polygon(&bag.outline).buffer_with_style(style(settings.seam_allowance_mm)));
    let seam = if settings.seam_allowance_mm > 0.0 { with_seam() } else { None };
    let (inner, outer) = (displaced(1.0), displaced(-1.0));
    let shared = largest(polygon(&inner).intersection(&polygon(&outer)));
    Band {
        seam: seam.map_or_else(|| bag.outline.clone(), |(p, _)| points(&p)),
        in_both: shared.map(|(p, _)| points(&p)).unwrap_or_default(),
        inner,
        outer,
    }
}

/// The opening with every edge moved by 2u, inwards (`sign` 1) or outwards (−1).
fn displaced(bag_space: &BagSpace, sign: f64) -> Vec<Point<f64>> {
    let moved: Vec<[Point<f64>; 2]> = edges(&bag_space.outline)
        .zip(&bag_space.edge_u_mm)
        .map(|([a, b], [ua, ub])| {
            let n = left(a, b);
            [along(a, n, sign * expanded(*ua)), along(b, n, sign * expanded(*ub))]
        })
        .collect();
    let n = moved.len();
    (0..n)
        .map(|i| {
            let (before, after) = (moved[(i + n - 1) % n], moved[i]);
            // Two edges of one tube hardly turn: there the moved ends themselves are as good.
            meet(before, after).map_or(after[0], |(_, _, p)| p)
        })
        .collect()
}
