//! Bottles in their cages: on the seat tube, on the down tube and under it; which fit, and what the others hit.
//!
//! Everything is seen from the side. Bottles and cages are envelopes of trade practice, unverified: real ones differ by
//! a centimetre, and bosses by more, so gaps carry no u; a caution stands beside them.

use geo::{Area, BooleanOps, Distance, Euclidean, Intersects, Polygon};
use serde::{Deserialize, Deserializer, Serialize};

use super::bag::Bag;
use super::bag_settings::checked;
use super::bag_shape::polygon;
use super::plane::{along, contains, distance_to_segment, edges, sub};
use crate::frameset::Tube;
use crate::geometry::{Outline, Point};

/// Distance between the two bosses of a cage, mm: trade practice, unverified.
pub const BOSSES_APART_MM: f64 = 64.0;
/// A bottle's base below the lower boss, mm: trade practice, unverified.
const BASE_BELOW_BOSS_MM: f64 = 45.0;
/// From the tube's surface to the bottle, mm: trade practice, unverified.
const CAGE_MM: f64 = 6.0;
/// Distance from the bicycle's middle to the chain ring, mm: trade practice, unverified.
const CHAIN_LINE_MM: f64 = 47.0;
/// One link of a bicycle chain, mm: half an inch (ISO 9633; from memory).
const PITCH_MM: f64 = 12.7;
/// Tips of the teeth above the pitch circle, mm: trade practice, unverified.
const TOOTH_MM: f64 = 4.0;

/// A bottle.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Bottle {
    /// 0.6 litres.
    Small,
    /// 0.75 litres.
    #[default]
    Middle,
    /// 1 litre.
    Large,
}

impl Bottle {
    /// All, smallest first.
    pub const ALL: [Self; 3] = [Self::Small, Self::Middle, Self::Large];

    /// Diameter and height of its envelope, mm: trade practice, unverified.
    #[must_use]
    pub const fn envelope_mm(self) -> (f64, f64) {
        match self {
            Self::Small => (74.0, 185.0),
            Self::Middle => (74.0, 212.0),
            Self::Large => (74.0, 265.0),
        }
    }
}

/// A cage.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cage {
    /// The bottle in it.
    #[serde(default)]
    pub bottle: Bottle,
    /// Its lower boss, mm along the tube from the bottom bracket, 0 to 600.
    #[serde(deserialize_with = "boss")]
    pub lower_boss_mm: f64,
}

fn boss<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, 0.0, 600.0, "a boss's distance from the bottom bracket")
}

fn teeth<'de, D: Deserializer<'de>>(deserializer: D) -> Result<u32, D::Error> {
    let teeth = u32::deserialize(deserializer)?;
    if (16..=70).contains(&teeth) {
        return Ok(teeth);
    }
    Err(serde::de::Error::custom(format!("a chain ring of {teeth} teeth is outside 16 to 70")))
}

/// Where cages are.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct CageSettings {
    /// On the down tube, inside the triangle.
    pub down_tube: Option<Cage>,
    /// On the seat tube, inside the triangle.
    pub seat_tube: Option<Cage>,
    /// Under the down tube.
    pub under_down_tube: Option<Cage>,
    /// Teeth of the largest chain ring, 16 to 70.
    #[serde(alias = "chain_ring_teeth", deserialize_with = "teeth")]
    pub chainring_teeth: u32,
}

impl Default for CageSettings {
    /// Two cages inside; boss heights are trade practice, unverified.
    fn default() -> Self {
        Self {
            down_tube: Some(Cage { bottle: Bottle::Middle, lower_boss_mm: 235.0 }),
            seat_tube: Some(Cage { bottle: Bottle::Small, lower_boss_mm: 165.0 }),
            under_down_tube: None,
            chainring_teeth: 40,
        }
    }
}

/// Where a cage sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holder {
    /// On the down tube.
    DownTube,
    /// On the seat tube.
    SeatTube,
    /// Under the down tube.
    UnderDownTube,
}

impl Holder {
    /// All, in the order of menus.
    pub const ALL: [Self; 3] = [Self::DownTube, Self::SeatTube, Self::UnderDownTube];
}

/// What a bottle may hit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clash {
    /// The bag.
    Bag,
    /// A tube.
    Tube(Tube),
    /// The bottle of another cage.
    Bottle(Holder),
    /// The front tyre, standing straight.
    FrontTyre,
    /// The rear tyre.
    RearTyre,
    /// The largest chain ring.
    ChainRing,
}

/// How a bottle stands to its surroundings.
#[derive(Clone, Debug, PartialEq)]
pub struct BottleFit {
    /// Where it sits.
    pub holder: Holder,
    /// Which bottle.
    pub bottle: Bottle,
    /// Its outline, counter-clockwise.
    pub outline: Vec<Point<f64>>,
    /// The bosses, the lower one first.
    pub bosses: [Point<f64>; 2],
    /// What it hits.
    pub hits: Vec<Clash>,
    /// What is nearest of the rest, and how far, mm.
    pub nearest: Option<(Clash, f64)>,
}

impl BottleFit {
    /// Whether it fits.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.hits.is_empty()
    }

    /// Whether it fits where there is no bag.
    #[must_use]
    pub fn fits_without_bag(&self) -> bool {
        self.hits.iter().all(|clash| *clash == Clash::Bag)
    }

    /// Whether it fits without a bag and without the other bottles.
    #[must_use]
    pub fn fits_alone(&self) -> bool {
        self.hits.iter().all(|clash| matches!(clash, Clash::Bag | Clash::Bottle(_)))
    }
}

/// All cages of a frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bottles {
    /// One a cage.
    pub fits: Vec<BottleFit>,
    /// Cages whose tube is not drawn.
    pub without_tube: Vec<Holder>,
}

/// How the bottles of a frame stand to tubes, bag, wheels and each other.
#[must_use]
pub fn bottles(outline: &Outline, bag: Option<&Bag>, settings: &CageSettings) -> Bottles {
    let mut found = Bottles::default();
    for (holder, cage) in [
        (Holder::DownTube, settings.down_tube),
        (Holder::SeatTube, settings.seat_tube),
        (Holder::UnderDownTube, settings.under_down_tube),
    ] {
        let Some(cage) = cage else { continue };
        match stand(outline, holder, cage) {
            Some(fit) => found.fits.push(fit),
            None => found.without_tube.push(holder),
        }
    }
    let shapes: Vec<Polygon> = found.fits.iter().map(|f| polygon(&f.outline)).collect();
    for i in 0..found.fits.len() {
        let own = own_tube(found.fits[i].holder);
        let mut near: Vec<(Clash, f64)> = Vec::new();
        if let Some(bag) = bag {
            near.push((Clash::Bag, gap(&shapes[i], &polygon(&bag.outline))));
        }
        for tube in outline.tubes.iter().filter(|t| t.tube != own && t.tube != Tube::SeatPost && t.tube != Tube::SeatStay) {
            near.push((Clash::Tube(tube.tube), gap(&shapes[i], &polygon(&tube.outline))));
        }
        for (j, other) in shapes.iter().enumerate().filter(|(j, _)| *j != i) {
            near.push((Clash::Bottle(found.fits[j].holder), gap(&shapes[i], other)));
        }
        for (clash, wheel) in [(Clash::FrontTyre, outline.front_wheel), (Clash::RearTyre, outline.rear_wheel)] {
            if let Some(wheel) = wheel {
                near.push((clash, gap_to_circle(&found.fits[i].outline, wheel.axle, wheel.tyre_radius_mm)));
            }
        }
        // Inside the triangle a bottle is thinner than the chain line is far; under the down tube the ring comes near.
        if found.fits[i].holder == Holder::UnderDownTube {
            let radius = PITCH_MM / (2.0 * (std::f64::consts::PI / f64::from(settings.chainring_teeth)).sin()) + TOOTH_MM;
            let seen = gap_to_circle(&found.fits[i].outline, Point { x: 0.0, y: 0.0 }, radius);
            let across = CHAIN_LINE_MM - found.fits[i].bottle.envelope_mm().0 / 2.0;
            near.push((Clash::ChainRing, if seen > 0.0 { seen.hypot(across) } else { across }));
        }
        let fit = &mut found.fits[i];
        fit.hits = near.iter().filter(|(_, gap)| *gap <= 0.0).map(|(c, _)| *c).collect();
        fit.nearest = near.into_iter().filter(|(_, gap)| *gap > 0.0).min_by(|a, b| a.1.total_cmp(&b.1));
    }
    found
}

fn own_tube(holder: Holder) -> Tube {
    match holder {
        Holder::SeatTube => Tube::SeatTube,
        Holder::DownTube | Holder::UnderDownTube => Tube::DownTube,
    }
}

/// Distance between two areas, mm; 0 when they share more than 1 mm².
fn gap(a: &Polygon, b: &Polygon) -> f64 {
    if a.intersects(b) && a.intersection(b).unsigned_area() > 1.0 { 0.0 } else { Euclidean.distance(a, b).max(1e-6) }
}

/// Distance between an area and a circle, mm; 0 when they overlap.
fn gap_to_circle(outline: &[Point<f64>], centre: Point<f64>, radius: f64) -> f64 {
    if contains(outline, centre) {
        return 0.0;
    }
    let nearest = edges(outline).map(|e| distance_to_segment(centre, e)).fold(f64::INFINITY, f64::min);
    (nearest - radius).max(0.0)
}

/// A cage's bottle on its tube.
fn stand(outline: &Outline, holder: Holder, cage: Cage) -> Option<BottleFit> {
    let tube = outline.tubes.iter().find(|t| t.tube == own_tube(holder))?;
    let (from, to) = (*tube.axis.first()?, *tube.axis.get(1)?);
    let d = sub(to, from);
    let l = d.x.hypot(d.y);
    if l < 1.0 {
        return None;
    }
    let up = Point { x: d.x / l, y: d.y / l };
    // Inside the triangle lies to the left of the down tube and to the right of the seat tube.
    let side = match holder {
        Holder::DownTube => 1.0,
        Holder::SeatTube | Holder::UnderDownTube => -1.0,
    };
    let out = Point { x: -up.y * side, y: up.x * side };
    let (diameter, height) = cage.bottle.envelope_mm();
    let surface = tube.diameter_mm / 2.0;
    let at = |s: f64, t: f64| along(along(from, up, s), out, t);
    let base = cage.lower_boss_mm - BASE_BELOW_BOSS_MM;
    let middle = surface + CAGE_MM + diameter / 2.0;
    let (body, neck) = (height - 50.0, 21.0);
    let half = diameter / 2.0;
    let mut shape: Vec<Point<f64>> = [
        (base, -half),
        (base, half),
        (base + body, half),
        (base + body + 25.0, neck),
        (base + height, neck),
        (base + height, -neck),
        (base + body + 25.0, -neck),
        (base + body, -half),
    ]
    .into_iter()
    .map(|(s, t)| at(s, middle + t))
    .collect();
    if super::plane::signed_area(&shape) < 0.0 {
        shape.reverse();
    }
    Some(BottleFit {
        holder,
        bottle: cage.bottle,
        outline: shape,
        bosses: [at(cage.lower_boss_mm, surface), at(cage.lower_boss_mm + BOSSES_APART_MM, surface)],
        hits: Vec::new(),
        nearest: None,
    })
}
