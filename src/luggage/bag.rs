//! A bag in the opening: its outline, area, litres and edges, each with its u.
//!
//! Not here: how it is cut out ([`Shape`]), what is drawn beside it on paper. Invariants: a bag lies inside its opening;
//! a smaller clearance never makes a smaller bag.

use super::along::Along;
use super::bag_settings::BagSettings;
use super::bag_shape::{CHORD_RAD, Shape};
use super::bag_space::BagSpace;
use super::no_bag::NoBag;
use super::opening::NoOpening;
use super::plane::{bounds, edges, meet, plain};
use crate::frameset::Tube;
use crate::geometry::Point;
use crate::units::{Area, Length, Measured, Volume};

/// A straight edge of the bag, between the roundings of its corners.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BagEdge {
    /// What it runs along.
    pub along: Along,
    /// Its length, mm: the longest zip that it takes.
    pub length_mm: Measured<Length>,
}

/// A bag.
#[derive(Clone, Debug, PartialEq)]
pub struct Bag {
    /// Its outline in the side view, counter-clockwise, mm from the bottom bracket.
    pub outline: Vec<Point<f64>>,
    /// The cut line from tube to tube, the rear end first; `None` of a full bag.
    pub cut: Option<[Point<f64>; 2]>,
    /// Area of one side panel, dm².
    pub area_dm2: Measured<Area>,
    /// Volume, litres: area × the width at its centroid's height, which is exact for a width that changes evenly.
    pub litres: Measured<Volume>,
    /// Once around, mm: the length of the gusset between the two panels.
    pub around_mm: Measured<Length>,
    /// Straight edges.
    pub edges: Vec<BagEdge>,
    /// The straight pieces of the outline, in its order: a bent tube has several. Between them are round corners.
    pub pieces: Vec<(Along, [Point<f64>; 2])>,
    /// Width at the bag's own highest and lowest points, mm.
    pub width_mm: (f64, f64),
    /// Whether the cut left more than one piece, of which the largest is the bag.
    pub is_in_pieces: bool,
}

/// Why there is no pattern of a frame's bag.
#[derive(Clone, Debug, PartialEq)]
pub enum NoPattern {
    /// The frame has no opening that could be drawn.
    NoOpening(NoOpening),
    /// No bag fits the opening.
    NoBag(NoBag),
}

/// The bag of a room.
///
/// # Errors
/// When nothing is left of the opening.
pub fn bag(bag_space: &BagSpace, settings: &BagSettings) -> Result<Bag, NoBag> {
    let shape = Shape::of(bag_space, settings);
    let (measures, is_in_pieces) = shape.cut_out(&bag_space.dual)?;
    let outline = measures.outline(CHORD_RAD);
    let spread = &bag_space.spread;
    let along = Along::ALL.into_iter().map(|along| {
        let ends: Vec<_> = measures.pieces.iter().filter(|(of, _)| *of == along).map(|(_, ends)| *ends).collect();
        let straight = measures.straight(along);
        BagEdge { along, length_mm: spread.measured_to_second_order(&straight, |spread| spread.beyond_lengths(&ends), 1.0) }
    });
    let (low, high) = bounds(&outline);
    let width = |y: f64| shape.width(&bag_space.outline, y);
    Ok(Bag {
        cut: shape.cut_line(&bag_space.outline).and_then(|line| between_tubes(&bag_space.outline, line)),
        area_dm2: spread.measured(&measures.area, 1e-4),
        litres: spread.measured(&shape.litres(&bag_space.dual, &measures), 1.0),
        around_mm: spread.measured(&measures.around, 1.0),
        edges: along.filter(|edge| edge.length_mm.value > 0.5).collect(),
        pieces: measures.pieces.iter().map(|(along, ends)| (*along, ends.map(plain))).collect(),
        width_mm: (width(high.y), width(low.y)),
        is_in_pieces,
        outline,
    })
}

impl Bag {
    /// The edge that a zip is drawn along: the top tube's, where the bag has a straight edge there.
    #[must_use]
    pub fn zip(&self) -> Option<Along> {
        let along = Along::Tube(Tube::TopTube);
        self.edge(along).map(|_| along)
    }

    /// The straight edge along a tube or the cut line.
    #[must_use]
    pub fn edge(&self, along: Along) -> Option<&BagEdge> {
        self.edges.iter().find(|e| e.along == along)
    }
}

/// Where a line crosses the opening, the rear end first.
fn between_tubes(opening: &[Point<f64>], line: [Point<f64>; 2]) -> Option<[Point<f64>; 2]> {
    let mut crossings: Vec<Point<f64>> = edges(opening)
        .filter_map(|edge| meet(edge, line))
        .filter(|(s, _, _)| (0.0..1.0).contains(s))
        .map(|(_, _, p)| p)
        .collect();
    crossings.sort_by(|a, b| a.x.total_cmp(&b.x));
    Some([*crossings.first()?, *crossings.last()?])
}
