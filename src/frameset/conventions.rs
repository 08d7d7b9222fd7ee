//! What a maker says of how its figures are measured, and what the user measured: both settle what is else assumed or
//! doubted.

use serde::{Deserialize, Serialize};

use crate::units::{AnyKind, COVERAGE_FACTOR, Measured};

/// A way of measuring that the maker states, so that it is neither assumed nor doubted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Stated {
    /// The seat tube's axis passes through the bottom bracket.
    StraightSeatTube,
    /// Chainstays are measured along the stay, not horizontally.
    ChainstayAlong,
    /// The axle-to-crown length is measured along the steering axis.
    ForkAlong,
    /// The head tube is measured without the cups of the headset.
    HeadTubeWithoutCups,
    /// The top tube is measured along the tube.
    TopTubeAlong,
    /// The front centre is measured directly from axle to bottom bracket, not horizontally.
    FrontCentreDirect,
    /// Standover is measured midway along the top tube.
    StandoverMidway,
}

impl Stated {
    /// All, in the order of tables.
    pub const ALL: [Self; 7] = [
        Self::StraightSeatTube,
        Self::ChainstayAlong,
        Self::ForkAlong,
        Self::HeadTubeWithoutCups,
        Self::TopTubeAlong,
        Self::FrontCentreDirect,
        Self::StandoverMidway,
    ];
}

/// What the user measured of a figure.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnMeasurement {
    /// Measured value, mm or degrees.
    pub value: f64,
    /// Its ±, two standard uncertainties, mm or degrees; above 0, at most 50.
    pub plus_minus: f64,
}

impl OwnMeasurement {
    /// The widest ± that is accepted, mm or degrees.
    pub const WIDEST: f64 = 50.0;

    /// Value and standard uncertainty, mm or degrees.
    #[must_use]
    pub fn measured(self) -> Measured<AnyKind> {
        Measured::new(self.value, self.plus_minus / COVERAGE_FACTOR)
    }
}
