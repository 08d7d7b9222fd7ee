//! What a maker says of how its figures are measured, and what the user measured: both settle what is else assumed or
//! doubted.

use std::collections::BTreeMap;

use serde::de::{Deserializer, Error};
use serde::{Deserialize, Serialize};

use super::figure::Figure;
use super::value_error::ValueError;
use super::values::{check_figure, checked_map};

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

/// Measured values, each once, each one that the figure can have, with a ± above zero.
pub(super) fn measurements<'de, D: Deserializer<'de>>(deserializer: D) -> Result<BTreeMap<Figure, OwnMeasurement>, D::Error> {
    checked_map(deserializer, |figure: &Figure, measured: &OwnMeasurement| check_measurement(*figure, *measured))
}

/// Whether the user can have measured this of a figure.
///
/// # Errors
/// A value that the figure cannot have, a ± that is not above 0 or above 50.
pub fn check_measurement(figure: Figure, measured: OwnMeasurement) -> Result<(), ValueError> {
    check_figure(figure, measured.value)?;
    if measured.plus_minus > 0.0 && measured.plus_minus <= 50.0 {
        return Ok(());
    }
    Err(ValueError::PlusMinus(measured.plus_minus))
}

/// Stated ways of measuring, each once.
pub(super) fn stated<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Stated>, D::Error> {
    let list = Vec::<Stated>::deserialize(deserializer)?;
    match list.iter().enumerate().find(|(i, s)| list[..*i].contains(s)) {
        Some((_, twice)) => Err(D::Error::custom(format!("{twice:?} is stated twice"))),
        None => Ok(list),
    }
}
