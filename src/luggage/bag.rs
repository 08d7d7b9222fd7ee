//! A bag in the opening: its outline, area, litres and edges, each with its u, and the band in which the outline may lie.
//!
//! The outline is the opening shrunk by the clearance, cut, and its corners rounded (shrunk and grown again by their
//! radius): offsets and cuts by the polygon library. Gradients by moving each corner of the opening a hundredth of a
//! millimetre: the bag follows from the corners alone, and offsets have no formula of their own once something is cut.
//! Invariants: a bag lies inside its opening; a smaller clearance never makes a smaller bag.

use geo::algorithm::buffer::{BufferStyle, LineJoin};
use geo::{Area, BooleanOps, Buffer, Centroid, Coord, LineString, MultiPolygon, Polygon};

use super::bag_settings::{BagPart, BagSettings, Cut};
use super::plane::{along, bounds, cross, dot, edges, left, length, meet, sub};
use super::room::{Dual, Measured, Room, SHELL_RADIUS_MM, under_top_tube};
use crate::frameset::Tube;
use crate::geometry::{Point, Scalar};

/// Segments of arcs are this part of their radius: of 15 mm, arcs are true to 0.02 mm.
const ARC: f64 = 0.1;
/// Step of the differences that give the gradients, mm.
const STEP_MM: f64 = 0.01;
/// Larger than any bicycle, mm.
const FAR: f64 = 5000.0;

/// What an edge of the bag runs along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// A tube.
    Tube(Tube),
    /// The cut line.
    Cut,
}

impl Along {
    const ALL: [Self; 5] = [
        Self::Tube(Tube::DownTube),
        Self::Tube(Tube::HeadTube),
        Self::Tube(Tube::TopTube),
        Self::Tube(Tube::SeatTube),
        Self::Cut,
    ];

    /// Name on screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Tube(tube) => tube.label(),
            Self::Cut => "cut line",
        }
    }
}

/// A straight edge of the bag, between the roundings of its corners.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BagEdge {
    /// What it runs along.
    pub along: Along,
    /// Its length, mm: the longest zip that it takes.
    pub length_mm: Measured,
}

/// A bag.
#[derive(Clone, Debug, PartialEq)]
pub struct Bag {
    /// Its outline in the side view, counter-clockwise, mm from the bottom bracket.
    pub outline: Vec<Point<f64>>,
    /// The outline with seam allowance.
    pub seam: Vec<Point<f64>>,
    /// The outline if every tube's edge lay 2u further in; empty where nothing would be left.
    pub inner: Vec<Point<f64>>,
    /// The outline if every tube's edge lay 2u further out.
    pub outer: Vec<Point<f64>>,
    /// What lies within both: the bag whatever the ± does. Empty where there is none.
    pub in_both: Vec<Point<f64>>,
    /// The cut line from tube to tube, the rear end first; `None` of a full bag.
    pub cut: Option<[Point<f64>; 2]>,
    /// Area of one side panel, dm².
    pub area_dm2: Measured,
    /// Volume, litres: area × the width at its centroid's height, which is exact for a width that changes evenly.
    pub litres: Measured,
    /// Once around, mm: the length of the strip between the two panels.
    pub around_mm: Measured,
    /// Straight edges.
    pub edges: Vec<BagEdge>,
    /// The straight pieces of the outline, in its order: a bent tube has several.
    pub pieces: Vec<(Along, [Point<f64>; 2])>,
    /// Width at the bag's own highest and lowest points, mm.
    pub width_mm: (f64, f64),
    /// Whether the cut left more than one piece, of which the largest is the bag.
    pub is_in_pieces: bool,
}

/// Why there is no bag, in a sentence for the user.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum NoBag {
    /// Clearance and corners take everything.
    #[error("no bag fits: {clearance} mm clearance and corners of {radius} mm radius leave nothing; make them smaller")]
    TooTight {
        /// Clearance, mm.
        clearance: f64,
        /// Corner radius, mm.
        radius: f64,
    },
    /// Nothing lies above the cut line.
    #[error("no bag fits above the cut line; move the line down")]
    NothingAboveCut,
}

/// The bag of a room.
///
/// # Errors
/// When nothing is left of the opening.
pub fn bag(room: &Room, settings: &BagSettings) -> Result<Bag, NoBag> {
    let shape = Shape { settings: *settings, tubes: &room.edges, shell: room.shell_intrudes };
    let (polygon, is_in_pieces) = shape.cut_out(&room.outline)?;
    let numbers = shape.numbers(&room.outline, &polygon);
    let mut gradients: Vec<Dual> = numbers.iter().map(|v| Dual::of(*v)).collect();
    let mut moved = room.outline.clone();
    for (k, corner) in room.dual.iter().enumerate() {
        for (is_x, coordinate) in [(true, corner.x), (false, corner.y)] {
            if is_x {
                moved[k].x += STEP_MM;
            } else {
                moved[k].y += STEP_MM;
            }
            if let Ok((polygon, _)) = shape.cut_out(&moved) {
                for (sum, (after, before)) in gradients.iter_mut().zip(shape.numbers(&moved, &polygon).iter().zip(&numbers)) {
                    let slope = (after - before) / STEP_MM;
                    for (g, c) in sum.gradient.iter_mut().zip(&coordinate.gradient) {
                        *g += slope * c;
                    }
                }
            }
            moved[k] = room.outline[k];
        }
    }
    let measured: Vec<Measured> = gradients.iter().map(|d| room.spread.measured(d, 1.0)).collect();
    let outline = points(&polygon);
    let pieces = shape.straight_pieces(&room.outline, &outline);
    let width = |y: f64| shape.width(&room.outline, y);
    let (low, high) = bounds(&outline);
    let banded = |sign: f64| shape.cut_out(&displaced(room, sign)).map(|(p, _)| points(&p)).unwrap_or_default();
    let seam = if settings.seam_mm > 0.0 {
        largest(polygon.buffer_with_style(style(settings.seam_mm))).map_or_else(|| outline.clone(), |(p, _)| points(&p))
    } else {
        outline.clone()
    };
    let (inner, outer) = (banded(1.0), banded(-1.0));
    let shared = largest(self::polygon(&inner).intersection(&self::polygon(&outer)));
    Ok(Bag {
        seam,
        in_both: shared.map(|(p, _)| points(&p)).unwrap_or_default(),
        inner,
        outer,
        cut: shape.cut_line(&room.outline).and_then(|line| between_tubes(&room.outline, line)),
        area_dm2: scaled(measured[AREA], 1e-4),
        litres: scaled(measured[LITRES], 1.0),
        around_mm: measured[AROUND_IT],
        edges: Along::ALL
            .into_iter()
            .zip(&measured[EDGES..])
            .filter(|(_, l)| l.value > 0.5)
            .map(|(along, length_mm)| BagEdge { along, length_mm: *length_mm })
            .collect(),
        pieces,
        width_mm: (width(high.y), width(low.y)),
        is_in_pieces,
        outline,
    })
}

fn scaled(m: Measured, factor: f64) -> Measured {
    Measured { value: m.value * factor, u: m.u * factor }
}

/// Places among a bag's numbers: area mm², litres, circumference mm, and the edges' lengths, mm.
const AREA: usize = 0;
const LITRES: usize = 1;
const AROUND_IT: usize = 2;
const EDGES: usize = 3;

/// A bag's shape as a function of the opening's outline.
struct Shape<'a> {
    settings: BagSettings,
    tubes: &'a [Tube],
    shell: bool,
}

impl Shape<'_> {
    /// The bag in an opening, and whether other pieces were left out.
    fn cut_out(&self, opening: &[Point<f64>]) -> Result<(Polygon, bool), NoBag> {
        let s = &self.settings;
        let too_tight = NoBag::TooTight { clearance: s.clearance_mm, radius: s.corner_radius_mm };
        let mut left_over = MultiPolygon::new(vec![polygon(opening)]);
        if s.clearance_mm > 0.0 {
            left_over = left_over.buffer_with_style(sharp(-s.clearance_mm));
        }
        if self.shell {
            let shell = geo::Point::new(0.0, 0.0).buffer(SHELL_RADIUS_MM + s.clearance_mm);
            left_over = left_over.difference(&shell);
        }
        let (whole, _) = largest(left_over).ok_or(too_tight)?;
        let mut left_over = MultiPolygon::new(vec![whole]);
        if let Some([a, b]) = self.cut_line(opening) {
            // Everything to the right of a → b, which runs backwards: above it.
            let d = sub(b, a);
            let n = left(a, b);
            let unit = Point { x: d.x / length(d), y: d.y / length(d) };
            let far = |p: Point<f64>, s: f64| along(p, unit, s * FAR);
            let above = |p: Point<f64>| along(p, n, -FAR);
            let keep = [far(a, -1.0), far(b, 1.0), above(far(b, 1.0)), above(far(a, -1.0))];
            left_over = left_over.intersection(&polygon(&keep));
            if left_over.0.is_empty() {
                return Err(NoBag::NothingAboveCut);
            }
        }
        if s.corner_radius_mm > 0.0 {
            left_over = left_over.buffer_with_style(sharp(-s.corner_radius_mm));
            let (core, is_in_pieces) = largest(left_over).ok_or(too_tight)?;
            let (rounded, _) = largest(core.buffer_with_style(style(s.corner_radius_mm))).ok_or(too_tight)?;
            return Ok((rounded, is_in_pieces));
        }
        largest(left_over).ok_or(too_tight)
    }

    /// The cut line, from the front to the rear, so that what is kept lies to its right.
    fn cut_line(&self, opening: &[Point<f64>]) -> Option<[Point<f64>; 2]> {
        match self.settings.part {
            BagPart::Full => None,
            BagPart::Above(Cut::Level { above_bb_mm }) => {
                Some([Point { x: 1000.0, y: above_bb_mm }, Point { x: -1000.0, y: above_bb_mm }])
            }
            BagPart::Above(Cut::AlongTopTube { below_mm }) => {
                let [a, b] = under_top_tube(opening, self.tubes)?;
                let n = left(a, b);
                Some([along(a, n, below_mm), along(b, n, below_mm)])
            }
        }
    }

    /// Width at a height.
    fn width(&self, opening: &[Point<f64>], y: f64) -> f64 {
        let (low, high) = bounds(opening);
        let part = (y - low.y) / (high.y - low.y).max(1e-9);
        self.settings.width_bottom_mm + (self.settings.width_top_mm - self.settings.width_bottom_mm) * part
    }

    fn numbers(&self, opening: &[Point<f64>], bag: &Polygon) -> Vec<f64> {
        let area = bag.unsigned_area();
        let middle = bag.centroid().map_or(0.0, geo::Point::y);
        let outline = points(bag);
        let mut numbers = vec![area, area * self.width(opening, middle) * 1e-6, 0.0];
        numbers[AROUND_IT] = edges(&outline).map(|[a, b]| length(sub(b, a))).sum();
        numbers.extend(self.edge_lengths(opening, &outline));
        numbers
    }

    /// Lengths of the straight edges along each tube and the cut line.
    fn edge_lengths(&self, opening: &[Point<f64>], outline: &[Point<f64>]) -> [f64; Along::ALL.len()] {
        let mut lengths = [0.0; Along::ALL.len()];
        for (along, [a, b]) in self.straight_pieces(opening, outline) {
            if let Some(slot) = Along::ALL.iter().position(|x| *x == along) {
                lengths[slot] += length(sub(b, a));
            }
        }
        lengths
    }

    /// The edges of the bag's outline that run along a tube or the cut line, in the outline's order.
    fn straight_pieces(&self, opening: &[Point<f64>], outline: &[Point<f64>]) -> Vec<(Along, [Point<f64>; 2])> {
        let mut lines: Vec<(Along, [Point<f64>; 2], f64)> =
            edges(opening).zip(self.tubes).map(|(e, t)| (Along::Tube(*t), e, self.settings.clearance_mm)).collect();
        lines.extend(self.cut_line(opening).map(|[a, b]| (Along::Cut, [b, a], 0.0)));
        let beside = |[a, b]: [Point<f64>; 2]| {
            let d = sub(b, a);
            let found = lines.iter().find(|(_, [p, q], gap)| {
                let e = sub(*q, *p);
                let is_parallel = cross(d, e).abs() < 1e-3 * length(d) * length(e) && dot(d, e) > 0.0;
                is_parallel && (dot(sub(a, *p), left(*p, *q)) - gap).abs() < 0.01
            });
            found.map(|(along, ..)| (*along, [a, b]))
        };
        edges(outline).filter_map(beside).collect()
    }
}

/// The opening with every edge moved by 2u, inwards (`sign` 1) or outwards (−1).
fn displaced(room: &Room, sign: f64) -> Vec<Point<f64>> {
    let moved: Vec<[Point<f64>; 2]> = edges(&room.outline)
        .zip(&room.edge_u_mm)
        .map(|([a, b], [ua, ub])| {
            let n = left(a, b);
            [along(a, n, 2.0 * sign * ua), along(b, n, 2.0 * sign * ub)]
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

pub(super) fn polygon(outline: &[Point<f64>]) -> Polygon {
    Polygon::new(LineString(outline.iter().map(|p| Coord { x: p.x, y: p.y }).collect()), Vec::new())
}

/// The outside of a polygon, counter-clockwise.
fn points(polygon: &Polygon) -> Vec<Point<f64>> {
    let ring = &polygon.exterior().0;
    let mut outline: Vec<Point<f64>> = ring.iter().take(ring.len().saturating_sub(1)).map(|c| Point { x: c.x, y: c.y }).collect();
    if super::plane::signed_area(&outline) < 0.0 {
        outline.reverse();
    }
    outline
}

fn sharp(distance: f64) -> BufferStyle<f64> {
    BufferStyle::new(distance).line_join(LineJoin::Miter(0.02))
}

fn style(distance: f64) -> BufferStyle<f64> {
    BufferStyle::new(distance).line_join(LineJoin::Round(ARC))
}

/// The largest piece, and whether there are others worth the name (over 1 cm²).
fn largest(pieces: MultiPolygon) -> Option<(Polygon, bool)> {
    let others = pieces.0.iter().filter(|p| p.unsigned_area() > 100.0).count() > 1;
    pieces.0.into_iter().max_by(|a, b| a.unsigned_area().total_cmp(&b.unsigned_area())).map(|p| (p, others))
}
