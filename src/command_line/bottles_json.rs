//! Bottles in the JSON of `figures --json`: the key `bottles` of each frame of a line-up, for its chosen size.

use serde::Serialize;

use super::numbers::{Pair, pair, rounded};
use spandrel::luggage::{BottleFit, Holder};
use spandrel::units::System;
use spandrel::words::bottle_fit_text;

/// A bottle in its cage.
#[derive(Serialize)]
pub(super) struct BottleEntry {
    place: &'static str,
    alone: &'static str,
    without_bag: &'static str,
    with_bag: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    lower_boss_from_to: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    nearest: Option<Pair>,
    reason: String,
}

impl BottleEntry {
    pub(super) fn of(units: System, fit: &BottleFit) -> Self {
        Self {
            place: match fit.holder {
                Holder::DownTube => "down_tube",
                Holder::SeatTube => "seat_tube",
                Holder::UnderDownTube => "under_down_tube",
            },
            alone: fit.alone.code(),
            without_bag: fit.without_bag.code(),
            with_bag: fit.with_bag.code(),
            lower_boss_from_to: fit.free_mm.map(|(from, to)| [rounded(from), rounded(to)]),
            nearest: fit.nearest.map(|(_, gap)| pair(gap)),
            reason: bottle_fit_text(units, fit),
        }
    }
}
