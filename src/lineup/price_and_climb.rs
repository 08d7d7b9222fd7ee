//! Price and climb: the price of each frameset beside its weight, the price per gram saved, what the difference does
//! on a climb, and what gears do.
//!
//! Invariant: framesets are compared with framesets only; where two weights show no clear difference, neither a time nor a
//! price follows from it.

use rust_decimal::Decimal;

use super::document::Lineup;
use super::frame_findings::FrameFindings;
use super::riding_settings::RidingSettings;
use crate::frameset::{Figure, FrameIndex, OnePerFrame, Part, Standard};
use crate::money::{Candidate, Money, Offer, offer, per_gram, unbeaten};
use crate::riding::{ClimbError, GearError, GearsFound, climb_seconds, gears};
use crate::units::{Mass, Measured, Ratio, Time};
use crate::weight::PartWeight;

/// Price and climb of one frame of the line-up.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceAndClimb {
    /// Its prices as they are compared.
    pub offer: Offer,
    /// Loaded total; `None` where the frameset's weight is not published. Its u is the frameset's.
    pub loaded: Option<Measured<Mass>>,
    /// The frameset's share of it. Its u is from the frameset's weight.
    pub share_percent: Option<Measured<Ratio>>,
    /// The climb's whole time, or why there is none. Its u is from the weight's alone.
    pub climb: Result<Measured<Time>, NoClimb>,
    /// Against the reference; `None` for the reference itself and where either weight is not published.
    pub against: Option<Against>,
    /// Whether no shown frameset beats it in both price and weight; `None` where either is not published, and for a frame
    /// that is not shown.
    pub is_unbeaten: Option<bool>,
    /// One a build: what its gears do on this frame.
    pub gears: Vec<Result<GearsFound, NoGears>>,
    /// The front derailleur's mount as printed.
    pub front_derailleur: Option<String>,
}

impl OnePerFrame for PriceAndClimb {}

/// Reason why a climb has no time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoClimb {
    /// The frameset's weight is not published.
    WeightNotPublished,
    /// A number is outside its range.
    OutOfRange(ClimbError),
}

impl NoClimb {
    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::WeightNotPublished => "weight_not_published",
            Self::OutOfRange(_) => "out_of_range",
        }
    }
}

/// Reason why gears have no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoGears {
    /// The rear tyre's radius is unknown.
    TyreRadiusUnknown,
    /// Chainrings or cogs are not valid.
    NotValid(GearError),
}

impl NoGears {
    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::TyreRadiusUnknown => "tyre_radius_unknown",
            Self::NotValid(_) => "gears_not_valid",
        }
    }
}

/// A frameset against the reference.
#[derive(Clone, Debug, PartialEq)]
pub struct Against {
    /// Difference of the framesets' weights.
    pub mass: Measured<Mass>,
    /// The same as percent of the reference's loaded total.
    pub whole_percent: Measured<Ratio>,
    /// How much longer (+) or shorter (−) the climb takes; `None` where the weights show no clear difference or the climb has
    /// no time.
    pub climb: Option<Measured<Time>>,
    /// How much dearer (+) it is, where both are priced.
    pub price: Option<Money>,
    /// Price of each gram saved, with its ±, where the frameset is lighter beyond the ±.
    pub per_gram: Option<(Money, Money)>,
}

/// The lightest frameset of those shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lightest {
    /// Its place.
    pub frame: FrameIndex,
    /// The next lightest one's place, where there is one.
    pub next: Option<FrameIndex>,
    /// How much heavier the next one is.
    pub difference: Measured<Mass>,
    /// How probable it is that it really is lighter than the next one, 0.5 to 1, for normal errors.
    pub probability: f64,
}

/// The frameset's weight, which all of this is about.
fn frameset(frame: &FrameFindings) -> Option<&PartWeight> {
    frame.weights.part(Part::Frameset)
}

/// Price and climb of every frame, in the line-up's order.
pub(super) fn price_and_climb(lineup: &Lineup, frames: &[FrameFindings]) -> Vec<PriceAndClimb> {
    let settings = &lineup.settings.price_and_climb;
    let reference = lineup.reference_index();
    let offers: Vec<Offer> = frames.iter().map(|f| offer(&f.frameset.prices, &lineup.settings.money)).collect();
    let candidates: Vec<Option<Candidate>> = frames.iter().zip(&offers).map(|(f, o)| candidate(f, o)).collect();
    let in_plot = |i: FrameIndex| i.of(frames).is_some_and(|f| f.shown) || reference == Some(i);
    let shown: Vec<Option<Candidate>> = FrameIndex::numbered(&candidates).map(|(i, c)| c.filter(|_| in_plot(i))).collect();
    let marks = unbeaten(&shown, |a, b| {
        let apart = frames.get(a).zip(frames.get(b)).and_then(|(a, b)| a.weight_difference(b, Part::Frameset));
        apart.and_then(|d| grams(d.u)).unwrap_or_default()
    });
    let climbs: Vec<Result<Measured<Time>, NoClimb>> = frames.iter().map(|f| climb(f, settings)).collect();
    let mut all = Vec::with_capacity(frames.len());
    for (index, (frame, offer)) in FrameIndex::numbered(frames.iter().zip(offers)) {
        let other = reference.filter(|r| *r != index);
        let against = other.and_then(|r| {
            let base = frameset(r.of(frames)?)?;
            let mass = frame.weight_difference(r.of(frames)?, Part::Frameset)?;
            let pair = candidates[index.0].as_ref().zip(candidates[r.0].as_ref());
            let base_kg = settings.whole_kg(base.mass.value);
            let climb = match (&climbs[index.0], &climbs[r.0]) {
                (Ok(own), Ok(base)) if mass.is_clear() => {
                    Some(Measured::new(own.value - base.value, mass.u / 1000.0 * slope(settings, base_kg)))
                }
                _ => None,
            };
            Some(Against {
                mass,
                whole_percent: Measured::new(mass.value / 10.0 / base_kg, mass.u / 10.0 / base_kg),
                climb,
                price: pair.map(|(own, base)| Money { amount: own.money.amount - base.money.amount, ..own.money }),
                per_gram: pair.and_then(|(own, base)| per_gram(own, base, grams(mass.u)?)),
            })
        });
        let whole_kg = frameset(frame).map(|w| settings.whole_kg(w.mass.value));
        let others_g = settings.whole_kg(0.0) * 1000.0;
        all.push(PriceAndClimb {
            offer,
            loaded: frameset(frame).map(|w| w.mass.moved(others_g)),
            share_percent: frameset(frame).zip(whole_kg).map(|(w, whole)| {
                let share = w.mass.value / 10.0 / whole;
                // The whole grows with the frameset.
                Measured::new(share, w.mass.u / 10.0 / whole * (1.0 - share / 100.0))
            }),
            climb: climbs[index.0],
            against,
            is_unbeaten: marks[index.0],
            gears: settings.builds.iter().map(|b| gears_on(frame, b, settings)).collect(),
            front_derailleur: frame.frameset.standards.get(&Standard::FrontDerailleur).cloned(),
        });
    }
    all
}

fn candidate(frame: &FrameFindings, offer: &Offer) -> Option<Candidate> {
    let weight = frameset(frame)?;
    let money = offer.set.as_ref().ok()?.money;
    Some(Candidate { money, grams: grams(weight.mass.value)? })
}

/// Grams to a tenth, for arithmetic with prices.
fn grams(grams: f64) -> Option<Decimal> {
    Decimal::try_from(grams).ok().map(|d| d.round_dp(1))
}

fn climb(frame: &FrameFindings, settings: &RidingSettings) -> Result<Measured<Time>, NoClimb> {
    let weight = frameset(frame).ok_or(NoClimb::WeightNotPublished)?;
    let whole = settings.whole_kg(weight.mass.value);
    let seconds = climb_seconds(&settings.climb, whole, &settings.conditions).map_err(NoClimb::OutOfRange)?;
    Ok(Measured::new(seconds, weight.mass.u / 1000.0 * slope(settings, whole)))
}

/// Seconds that a further kilogram costs on the climb.
fn slope(settings: &RidingSettings, whole_kg: f64) -> f64 {
    let at = |kg| climb_seconds(&settings.climb, kg, &settings.conditions).unwrap_or(0.0);
    (at(whole_kg + 0.5) - at(whole_kg - 0.5)).abs()
}

fn gears_on(frame: &FrameFindings, build: &crate::riding::Gearing, settings: &RidingSettings) -> Result<GearsFound, NoGears> {
    let radius = frame.value(Figure::RearTyreRadius).filter(|v| !v.is_missing).ok_or(NoGears::TyreRadiusUnknown)?;
    let whole = settings.whole_kg(weight_for_gears(frame));
    gears(build, radius.measured().as_length(), settings.cadence_rpm, settings.climb.power_w, whole, &settings.conditions)
        .map_err(NoGears::NotValid)
}

/// What the frameset weighs where gears are concerned, g.
#[must_use]
pub fn weight_for_gears(frame: &FrameFindings) -> f64 {
    frameset(frame).map_or(USUAL_FRAMESET_G, |w| w.mass.value)
}

/// Stands in for a frameset whose weight is not published where gears are concerned: a kilogram either way changes the
/// steepest grade by a hundredth of itself.
const USUAL_FRAMESET_G: f64 = 3500.0;

/// The lightest of the shown framesets (and the reference).
pub(super) fn lightest(frames: &[FrameFindings], reference: Option<FrameIndex>) -> Option<Lightest> {
    let stated = FrameIndex::numbered(frames).filter(|(i, f)| f.shown || reference == Some(*i));
    let masses = stated.filter_map(|(i, f)| frameset(f).map(|w| (i, w.mass))).collect();
    lightest_of(masses, |heavier, lighter| heavier.of(frames)?.weight_difference(lighter.of(frames)?, Part::Frameset))
}

/// The lightest of framesets, each with its place and its mass; `difference` knows what two of them share, by place.
#[must_use]
pub fn lightest_of(
    mut stated: Vec<(FrameIndex, Measured<Mass>)>,
    difference: impl Fn(FrameIndex, FrameIndex) -> Option<Measured<Mass>>,
) -> Option<Lightest> {
    stated.sort_by(|a, b| a.1.value.total_cmp(&b.1.value));
    let (frame, first) = *stated.first()?;
    let Some((next, second)) = stated.get(1) else {
        return Some(Lightest { frame, next: None, difference: Measured::exact(0.0), probability: 1.0 });
    };
    let difference = difference(*next, frame).unwrap_or_else(|| second.minus(first));
    Some(Lightest { frame, next: Some(*next), difference, probability: difference.chance_above(0.0) })
}
