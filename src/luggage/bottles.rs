//! Bottles in their cages: on the seat tube, on the down tube and under it; which fit, and what the others hit.
//!
//! Everything is seen from the side. Bottles and cages are envelopes of trade practice, unverified: real ones differ by
//! a centimetre. Makers publish no heights of bosses, so a bottle may stand anywhere within the ± of its boss.

use serde::{Deserialize, Deserializer, Serialize};

use super::bag::Bag;
use super::bag_settings::checked;
use super::bottle_gaps::{Obstacle, PlaceDoubts, Surroundings};
use super::bottle_verdict::{BottleVerdict, Slides};
use super::plane::{along, sub};
use crate::frameset::Tube;
use crate::geometry::{Outline, Point};
use crate::units::{Length, Measured};

/// Distance between the two bosses of a cage, mm: trade practice, unverified.
pub const BOSSES_APART_MM: f64 = 64.0;
/// A bottle's base below the lower boss, mm: trade practice, unverified.
const BASE_BELOW_BOSS_MM: f64 = 45.0;
/// From the tube's surface to the bottle, mm: trade practice, unverified.
const CAGE_MM: f64 = 6.0;
/// Half the range in which a lower boss lies where nobody measured it, mm: trade practice, unverified.
pub const BOSS_PLUS_MINUS_MM: f64 = 25.0;

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

    /// Diameter of its envelope, mm: trade practice, unverified.
    pub const DIAMETER_MM: f64 = 74.0;

    /// Diameter and height of its envelope, mm: trade practice, unverified.
    #[must_use]
    pub const fn envelope_mm(self) -> (f64, f64) {
        let height = match self {
            Self::Small => 185.0,
            Self::Middle => 212.0,
            Self::Large => 265.0,
        };
        (Self::DIAMETER_MM, height)
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
    /// How far the lower boss may be from there, either way, mm, 0 to 100.
    #[serde(default = "usual_plus_minus", deserialize_with = "plus_minus")]
    pub boss_plus_minus_mm: f64,
}

impl Cage {
    /// A cage whose boss nobody measured.
    #[must_use]
    pub const fn unmeasured(bottle: Bottle, lower_boss_mm: f64) -> Self {
        Self { bottle, lower_boss_mm, boss_plus_minus_mm: BOSS_PLUS_MINUS_MM }
    }
}

const fn usual_plus_minus() -> f64 {
    BOSS_PLUS_MINUS_MM
}

fn plus_minus<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    checked(deserializer, 0.0, 100.0, "the ± of a boss")
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
            down_tube: Some(Cage::unmeasured(Bottle::Middle, 235.0)),
            seat_tube: Some(Cage::unmeasured(Bottle::Small, 165.0)),
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
    /// Where its lower boss is drawn, mm along the tube: as set, or at the nearest place within its ± where it fits.
    pub lower_boss_mm: f64,
    /// Its outline there, counter-clockwise.
    pub outline: Vec<Point<f64>>,
    /// The bosses, the lower one first.
    pub bosses: [Point<f64>; 2],
    /// What it hits there.
    pub hits: Vec<Clash>,
    /// What is nearest of the rest, and how far, mm.
    pub nearest: Option<(Clash, Measured<Length>)>,
    /// Lower bosses at which it would hit neither tubes, tyres, chainring nor bag, where that is only a part of its ±, mm.
    pub free_mm: Option<(f64, f64)>,
    /// On its own, without a bag.
    pub alone: BottleVerdict,
    /// Beside the other bottles, without a bag.
    pub without_bag: BottleVerdict,
    /// Beside the other bottles and the bag, where there is one.
    pub with_bag: BottleVerdict,
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
pub fn bottles(outline: &Outline, bag: Option<&Bag>, settings: &CageSettings, doubts: PlaceDoubts) -> Bottles {
    let mut without_tube = Vec::new();
    let mut standing: Vec<Slides> = Vec::new();
    for (holder, cage) in [
        (Holder::DownTube, settings.down_tube),
        (Holder::SeatTube, settings.seat_tube),
        (Holder::UnderDownTube, settings.under_down_tube),
    ] {
        let Some(cage) = cage else { continue };
        match CageOnTube::of(outline, holder, cage) {
            Some(cage) => {
                let around = Surroundings::of(outline, holder, settings.chainring_teeth);
                standing.push(Slides::of(cage, around, bag.map(|bag| Obstacle::area(Clash::Bag, &bag.outline))));
            }
            None => without_tube.push(holder),
        }
    }
    let fits = (0..standing.len()).filter_map(|i| super::bottle_verdict::fit(&standing, i, doubts)).collect();
    Bottles { fits, without_tube }
}

/// The tube on which a cage of that holder sits.
pub(super) fn own_tube(holder: Holder) -> Tube {
    match holder {
        Holder::SeatTube => Tube::SeatTube,
        Holder::DownTube | Holder::UnderDownTube => Tube::DownTube,
    }
}

/// A cage, and the line of its tube along which it may stand.
#[derive(Clone, Copy, Debug)]
pub(super) struct CageOnTube {
    pub(super) holder: Holder,
    pub(super) cage: Cage,
    from: Point<f64>,
    up: Point<f64>,
    out: Point<f64>,
    surface_mm: f64,
}

impl CageOnTube {
    fn of(outline: &Outline, holder: Holder, cage: Cage) -> Option<Self> {
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
        Some(Self { holder, cage, from, up, out, surface_mm: tube.diameter_mm / 2.0 })
    }

    /// The point `along_mm` along the tube's axis and `off_mm` off it.
    fn at(&self, along_mm: f64, off_mm: f64) -> Point<f64> {
        along(along(self.from, self.up, along_mm), self.out, off_mm)
    }

    /// Both bosses with the lower one there.
    pub(super) fn bosses(&self, lower_boss_mm: f64) -> [Point<f64>; 2] {
        [lower_boss_mm, lower_boss_mm + BOSSES_APART_MM].map(|along_mm| self.at(along_mm, self.surface_mm))
    }

    /// The bottle's outline with the lower boss there, counter-clockwise.
    pub(super) fn bottle(&self, lower_boss_mm: f64) -> Vec<Point<f64>> {
        let (diameter, height) = self.cage.bottle.envelope_mm();
        let base = lower_boss_mm - BASE_BELOW_BOSS_MM;
        let middle = self.surface_mm + CAGE_MM + diameter / 2.0;
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
        .map(|(s, t)| self.at(s, middle + t))
        .collect();
        if super::plane::signed_area(&shape) < 0.0 {
            shape.reverse();
        }
        shape
    }
}
