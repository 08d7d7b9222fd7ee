//! Where luggage hangs on a bicycle, and what turns with the bar.
//!
//! Sizes and places of bags are trade practice, unverified; each place is uncertain by [`PLACE_U_M`] forward and up.

use serde::{Deserialize, Serialize};

use super::body::Body;
use crate::geometry::{Point, Points};

/// Standard uncertainty of a bag's centre of mass, forward and up, m: trade practice, unverified.
pub const PLACE_U_M: f64 = 0.03;

/// Greatest load that is accepted at one place, kg.
pub const MOST_KG: f64 = 60.0;

/// A place for luggage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum LuggagePlace {
    /// In the main triangle.
    FrameBag,
    /// Behind the saddle.
    SaddleBag,
    /// On top of a rear rack.
    RackTop,
    /// On both sides of a rear rack.
    RearPanniers,
    /// On the bar.
    BarBag,
    /// On both fork blades.
    ForkCages,
    /// On both sides of a low front rack, at the height of the axle.
    FrontPanniersLow,
    /// On both sides of a front rack beside the tyre's top.
    FrontPanniersHigh,
}

/// Points of a bicycle that luggage hangs on, m, x forward and y up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Anchors {
    /// Middle of the main triangle's bag.
    pub frame_bag: [f64; 2],
    /// Top of the saddle.
    pub saddle: [f64; 2],
    /// Middle of the bar's clamp.
    pub bar: [f64; 2],
    /// Rear axle.
    pub rear_axle: [f64; 2],
    /// Front axle.
    pub front_axle: [f64; 2],
    /// Crown race seat.
    pub crown: [f64; 2],
}

/// A bag as a box, or a pair of them, one on either side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bag {
    /// Middle, m, from where the anchors are given from.
    pub centre: [f64; 2],
    /// Length, height and width, m.
    pub size: [f64; 3],
    /// How far either of a pair is from the bicycle's plane, m; 0 for one bag.
    pub beside: f64,
}

impl Anchors {
    /// Anchors of a bicycle whose points are given from the bottom bracket, mm, and whose bag, saddle and bar, m. They are
    /// counted from the bottom bracket.
    #[must_use]
    pub fn of(points: &Points<f64>, frame_bag: [f64; 2], saddle: [f64; 2], bar: [f64; 2]) -> Self {
        let metres = |p: Point<f64>| [p.x / 1000.0, p.y / 1000.0];
        let [rear_axle, front_axle, crown] = [points.rear_axle, points.front_axle, points.crown].map(metres);
        Self { frame_bag, saddle, bar, rear_axle, front_axle, crown }
    }

    /// The same counted from a point that lies there.
    #[must_use]
    pub fn from_point(self, origin: [f64; 2]) -> Self {
        let moved = |[x, y]: [f64; 2]| [x - origin[0], y - origin[1]];
        Self {
            frame_bag: moved(self.frame_bag),
            saddle: moved(self.saddle),
            bar: moved(self.bar),
            rear_axle: moved(self.rear_axle),
            front_axle: moved(self.front_axle),
            crown: moved(self.crown),
        }
    }
}

impl LuggagePlace {
    /// All, in the order of menus.
    pub const ALL: [Self; 8] = [
        Self::FrameBag,
        Self::SaddleBag,
        Self::RackTop,
        Self::RearPanniers,
        Self::BarBag,
        Self::ForkCages,
        Self::FrontPanniersLow,
        Self::FrontPanniersHigh,
    ];

    /// Its place in [`ALL`](Self::ALL).
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Stable key, for JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::FrameBag => "frame_bag",
            Self::SaddleBag => "saddle_bag",
            Self::RackTop => "rack_top",
            Self::RearPanniers => "rear_panniers",
            Self::BarBag => "bar_bag",
            Self::ForkCages => "fork_cages",
            Self::FrontPanniersLow => "front_panniers_low",
            Self::FrontPanniersHigh => "front_panniers_high",
        }
    }

    /// Whether it turns with the bar.
    #[must_use]
    pub const fn turns_with_the_bar(self) -> bool {
        matches!(self, Self::BarBag | Self::ForkCages | Self::FrontPanniersLow | Self::FrontPanniersHigh)
    }

    /// The bag there.
    #[must_use]
    pub fn bag(self, at: &Anchors) -> Bag {
        let from = |point: [f64; 2], forward: f64, up: f64| [point[0] + forward, point[1] + up];
        let middle = |a: [f64; 2], b: [f64; 2]| [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])];
        let (centre, size, beside) = match self {
            Self::FrameBag => (at.frame_bag, [0.40, 0.20, 0.06], 0.0),
            Self::SaddleBag => (from(at.saddle, -0.22, -0.08), [0.42, 0.16, 0.16], 0.0),
            Self::RackTop => (from(at.rear_axle, -0.02, 0.52), [0.40, 0.20, 0.25], 0.0),
            Self::RearPanniers => (from(at.rear_axle, -0.06, 0.06), [0.30, 0.34, 0.16], 0.20),
            Self::BarBag => (from(at.bar, 0.12, -0.06), [0.18, 0.20, 0.35], 0.0),
            Self::ForkCages => (from(middle(at.crown, at.front_axle), 0.04, 0.0), [0.12, 0.28, 0.12], 0.11),
            Self::FrontPanniersLow => (from(at.front_axle, 0.0, 0.03), [0.26, 0.30, 0.14], 0.18),
            Self::FrontPanniersHigh => (from(at.front_axle, 0.02, 0.26), [0.26, 0.30, 0.14], 0.19),
        };
        Bag { centre, size, beside }
    }

    /// Luggage of `mass` kg there.
    #[must_use]
    pub fn body(self, mass: f64, at: &Anchors) -> Body {
        let bag = self.bag(at);
        Body::cuboid(mass, bag.centre, bag.size).beside(bag.beside)
    }
}
