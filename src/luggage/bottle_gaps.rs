//! Gaps between a bottle and what stands around it, each with its u.
//!
//! A gap is negative where both overlap: by how far they would have to be moved apart. Its u holds the doubt of bottle and
//! cage, of the tube that carries the cage, and of what is met.

use geo::{Area, BooleanOps, ConvexHull, Distance, Euclidean, Intersects, Polygon};

use super::bag_shape::polygon;
use super::bag_space::BagSpace;
use super::bottles::{Bottle, Clash, Holder, own_tube};
use super::plane::{contains, distance_to_segment, dot, edges, left, sub};
use crate::frameset::Tube;
use crate::geometry::{Outline, Point};
use crate::units::{Length, Measured};

/// u of a bottle in its cage, mm: real ones differ by a centimetre. Trade practice, unverified.
pub const BOTTLE_U_MM: f64 = 2.5;
/// Distance from the bicycle's middle to the chain ring, mm: trade practice, unverified.
const CHAIN_LINE_MM: f64 = 47.0;
/// One link of a bicycle chain, mm: half an inch (ISO 9633; from memory).
const PITCH_MM: f64 = 12.7;
/// Tips of the teeth above the pitch circle, mm: trade practice, unverified.
const TOOTH_MM: f64 = 4.0;

/// How well the places around a bottle are known.
#[derive(Clone, Copy, Debug, Default)]
pub struct PlaceDoubts<'a> {
    /// The opening of the main triangle, whose edges have a u.
    pub bag_space: Option<&'a BagSpace>,
    /// u of the front tyre's place, mm.
    pub front_tyre_u_mm: f64,
    /// u of the rear tyre's place, mm.
    pub rear_tyre_u_mm: f64,
}

impl PlaceDoubts<'_> {
    /// u of a tube's inner edge beside a point, square to it, mm; 0 for a tube that is no side of the opening.
    fn of_tube(self, tube: Tube, beside: Point<f64>) -> f64 {
        let Some(space) = self.bag_space else { return 0.0 };
        let own = edges(&space.outline).zip(&space.edges).zip(&space.edge_u_mm).filter(|((_, t), _)| **t == tube);
        let nearest =
            own.min_by(|((a, _), _), ((b, _), _)| distance_to_segment(beside, *a).total_cmp(&distance_to_segment(beside, *b)));
        let Some((([a, b], _), [u_a, u_b])) = nearest else { return 0.0 };
        let d = sub(b, a);
        let share = (dot(sub(beside, a), d) / dot(d, d).max(1e-9)).clamp(0.0, 1.0);
        u_a + share * (u_b - u_a)
    }
}

/// The shape of something that a bottle may hit.
#[derive(Clone, Debug)]
enum Shape {
    Area(Polygon),
    Circle {
        centre: Point<f64>,
        radius_mm: f64,
    },
    /// A chainring: a circle that stands beside the bottle, so far across.
    Ring {
        radius_mm: f64,
        across_mm: f64,
    },
}

/// Something that a bottle may hit.
#[derive(Clone, Debug)]
pub(super) struct Obstacle {
    pub(super) clash: Clash,
    shape: Shape,
}

impl Obstacle {
    /// An area.
    pub(super) fn area(clash: Clash, outline: &[Point<f64>]) -> Self {
        Self { clash, shape: Shape::Area(polygon(outline)) }
    }
}

/// What stands around the bottle of one cage: all but bag and other bottles.
#[derive(Clone, Debug)]
pub(super) struct Surroundings(pub(super) Vec<Obstacle>);

impl Surroundings {
    pub(super) fn of(outline: &Outline, holder: Holder, chainring_teeth: u32) -> Self {
        let own = own_tube(holder);
        // Seat post and seat stays lie behind or above, whatever the side view shows.
        let tubes = outline.tubes.iter().filter(|t| t.tube != own && t.tube != Tube::SeatPost && t.tube != Tube::SeatStay);
        let mut all: Vec<Obstacle> = tubes.map(|t| Obstacle::area(Clash::Tube(t.tube), &t.outline)).collect();
        for (clash, wheel) in [(Clash::FrontTyre, outline.front_wheel), (Clash::RearTyre, outline.rear_wheel)] {
            if let Some(wheel) = wheel {
                let shape = Shape::Circle { centre: wheel.axle, radius_mm: wheel.tyre_radius_mm };
                all.push(Obstacle { clash, shape });
            }
        }
        // Inside the triangle a bottle is thinner than the chain line is far; under the down tube the ring comes near.
        if holder == Holder::UnderDownTube {
            let radius_mm = PITCH_MM / (2.0 * (std::f64::consts::PI / f64::from(chainring_teeth)).sin()) + TOOTH_MM;
            let across_mm = CHAIN_LINE_MM - Bottle::DIAMETER_MM / 2.0;
            all.push(Obstacle { clash: Clash::ChainRing, shape: Shape::Ring { radius_mm, across_mm } });
        }
        Self(all)
    }
}

/// The gap between a bottle's outline and something, mm.
pub(super) fn gap(bottle: &[Point<f64>], own: Tube, to: &Obstacle, doubts: PlaceDoubts) -> Measured<Length> {
    let value = match &to.shape {
        Shape::Area(area) => gap_of_areas(&polygon(bottle), area),
        Shape::Circle { centre, radius_mm } => gap_to_circle(bottle, *centre, *radius_mm),
        Shape::Ring { radius_mm, across_mm } => {
            let seen = gap_to_circle(bottle, Point { x: 0.0, y: 0.0 }, *radius_mm);
            if seen > 0.0 { seen.hypot(*across_mm) } else { *across_mm }
        }
    };
    let middle = middle(bottle);
    let other = match to.clash {
        Clash::Tube(tube) => doubts.of_tube(tube, middle),
        Clash::FrontTyre => doubts.front_tyre_u_mm,
        Clash::RearTyre => doubts.rear_tyre_u_mm,
        Clash::Bottle(holder) => BOTTLE_U_MM.hypot(doubts.of_tube(own_tube(holder), middle)),
        // A bag is cut to the opening; what it follows above is the top tube.
        Clash::Bag => doubts.of_tube(Tube::TopTube, middle),
        Clash::ChainRing => 0.0,
    };
    Measured::new(value, BOTTLE_U_MM.hypot(doubts.of_tube(own, middle)).hypot(other))
}

fn middle(outline: &[Point<f64>]) -> Point<f64> {
    let count = outline.len().max(1) as f64;
    let sum = |of: fn(&Point<f64>) -> f64| outline.iter().map(of).sum::<f64>() / count;
    Point { x: sum(|p| p.x), y: sum(|p| p.y) }
}

/// Distance between two areas, mm; where they share more than 1 mm², how far they reach into one another, negative.
fn gap_of_areas(a: &Polygon, b: &Polygon) -> f64 {
    if a.intersects(b) && a.intersection(b).unsigned_area() > 1.0 {
        -overlap_mm(a, b).max(1e-6)
    } else {
        Euclidean.distance(a, b).max(1e-6)
    }
}

/// How far two areas that overlap would have to be moved apart, mm: the least overlap of their convex hulls' shadows over
/// the normals of all their edges (separating axes).
fn overlap_mm(a: &Polygon, b: &Polygon) -> f64 {
    let hull = |p: &Polygon| -> Vec<Point<f64>> {
        let ring = p.convex_hull();
        ring.exterior().coords().skip(1).map(|c| Point { x: c.x, y: c.y }).collect()
    };
    let (a, b) = (hull(a), hull(b));
    let shadow = |of: &[Point<f64>], n: Point<f64>| {
        of.iter().map(|p| dot(*p, n)).fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), s| (low.min(s), high.max(s)))
    };
    let normals = edges(&a).chain(edges(&b)).filter(|[p, q]| (p.x - q.x).hypot(p.y - q.y) > 1e-9).map(|[p, q]| left(p, q));
    let overlaps = normals.map(|n| {
        let ((a_low, a_high), (b_low, b_high)) = (shadow(&a, n), shadow(&b, n));
        (a_high - b_low).min(b_high - a_low)
    });
    overlaps.fold(f64::INFINITY, f64::min).max(0.0)
}

/// Distance between an area and a circle, mm; negative where they overlap.
fn gap_to_circle(outline: &[Point<f64>], centre: Point<f64>, radius: f64) -> f64 {
    let nearest = edges(outline).map(|e| distance_to_segment(centre, e)).fold(f64::INFINITY, f64::min);
    if contains(outline, centre) { -nearest - radius } else { nearest - radius }
}
