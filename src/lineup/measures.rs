//! What needs may limit of a frame besides its figures and standards: weights, price, bag and bottles.

use rust_decimal::prelude::ToPrimitive;

use super::bag_space_findings::BagSpaceFigure;
use super::frame_findings::FrameFindings;
use super::price_and_climb::PriceAndClimb;
use crate::frameset::Part;
use crate::parts::{Measure, Measures};
use crate::units::Measured;

/// A frame's measures; unknown ones are left out.
pub(super) fn measures(frame: &FrameFindings, cost: &PriceAndClimb) -> Measures {
    let weight = frame.weights.part(Part::Frameset).map(|w| w.mass.of_any_kind());
    let price = cost.offer.set.as_ref().ok().and_then(|charge| charge.money.amount.to_f64());
    Measures::default()
        .with(Measure::FramesetWeight, weight)
        .with(Measure::LoadedWeight, cost.loaded.map(Measured::of_any_kind))
        .with(Measure::Price, price.map(Measured::exact))
        .with(Measure::BagVolume, BagSpaceFigure::Litres.of(frame))
        .with(Measure::Bottles, bottles(frame).map(|count| Measured::exact(count as f64)))
}

/// How many bottles fit at once where there is no bag; `None` where a cage's tube is not drawn.
pub(super) fn bottles(frame: &FrameFindings) -> Option<usize> {
    let bottles = &frame.luggage.bottles;
    let is_known = frame.outline.is_some() && bottles.without_tube.is_empty();
    is_known.then(|| bottles.fits.iter().filter(|bottle| bottle.fits_without_bag()).count())
}
