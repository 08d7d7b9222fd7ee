//! JSON of weights, prices and the climb. Amounts of money are decimal text; grams, seconds and the rest are numbers.

use serde::Serialize;

use super::numbers::rounded;
use spandrel::frameset::{Frameset, Part, Tax};
use spandrel::lineup::{Against, PriceAndClimb, RidingSettings};
use spandrel::money::{Charge, Money, MoneySettings, NotPriced};
use spandrel::units::{Measured, System, Time};
use spandrel::weight::{Estimate, Method, NoWay, PartWeight, Ways, WeightNote, Weights};
use spandrel::words::{
    charge_text, no_climb_text, no_gears_text, no_way_text, not_priced_text, note_text, row_label, weight_steps,
};

/// Weights of one size.
#[derive(Serialize)]
pub(super) struct WeightsEntry {
    frame: Option<PartEntry>,
    fork: Option<PartEntry>,
    frameset: Option<PartEntry>,
}

#[derive(Serialize)]
struct PartEntry {
    grams: f64,
    u: f64,
    estimated: bool,
    sum: String,
    method: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ways: Option<WaysEntry>,
    lines: Vec<LineEntry>,
    says: Vec<String>,
    /// Stable codes of what `says` says, in the same order.
    says_codes: Vec<&'static str>,
}

#[derive(Serialize)]
struct LineEntry {
    line: String,
    grams: f64,
    u: f64,
}

#[derive(Serialize)]
struct WaysEntry {
    your_factor: WayEntry,
    tube_lengths: WayEntry,
    between_weighed_sizes: WayEntry,
}

#[derive(Serialize)]
#[serde(untagged)]
enum WayEntry {
    Found { grams: f64, u: f64, percent: f64, percent_u: f64 },
    Not { why: String, why_code: &'static str },
}

impl WayEntry {
    fn of(units: System, frameset: &Frameset, way: Result<&Estimate, &NoWay>) -> Self {
        match way {
            Ok(e) => Self::Found {
                grams: rounded(e.mass.value),
                u: rounded(e.mass.u),
                percent: rounded(e.percent.value),
                percent_u: rounded(e.percent.u),
            },
            Err(why) => Self::Not { why: plain(&no_way_text(units, frameset, why)), why_code: why.code() },
        }
    }
}

/// Thin spaces are for screens.
fn plain(text: &str) -> String {
    text.replace(spandrel::units::THIN_SPACE, " ")
}

impl WeightsEntry {
    /// Numbers in grams, sentences in the comparison's units.
    pub(super) fn of(units: System, frameset: &Frameset, weights: &Weights) -> Self {
        let part = |part| weights.part(part).map(|weight| PartEntry::of(units, frameset, weights, weight));
        Self { frame: part(Part::Frame), fork: part(Part::Fork), frameset: part(Part::Frameset) }
    }
}

impl PartEntry {
    fn of(units: System, frameset: &Frameset, weights: &Weights, weight: &PartWeight) -> Self {
        let line = |row: &spandrel::weight::Row| LineEntry {
            line: plain(&row_label(units, frameset, weight, row)),
            grams: rounded(row.mass.value),
            u: rounded(row.mass.u),
        };
        let way = |ways: &Ways, method| WayEntry::of(units, frameset, ways.by(method));
        Self {
            grams: rounded(weight.mass.value),
            u: rounded(weight.mass.u),
            estimated: weight.is_estimate,
            sum: plain(&weight_steps(units, frameset, weights, weight.part).join("; ")),
            method: weight.counted.map(Method::key),
            ways: weight.ways.as_ref().map(|w| WaysEntry {
                your_factor: way(w, Method::YourFactor),
                tube_lengths: way(w, Method::TubeLengths),
                between_weighed_sizes: way(w, Method::BetweenWeighedSizes),
            }),
            lines: weight.rows.iter().map(line).collect(),
            says: weight.notes.iter().map(|n| plain(&note_text(units, frameset, n))).collect(),
            says_codes: weight.notes.iter().map(WeightNote::code).collect(),
        }
    }
}

/// Prices of one frameset as they are compared.
#[derive(Serialize)]
pub(super) struct MoneyEntry {
    currency: &'static str,
    tax: &'static str,
    frame: PriceEntry,
    fork: PriceEntry,
    frameset: PriceEntry,
}

#[derive(Serialize)]
#[serde(untagged)]
enum PriceEntry {
    Stated { amount: String, steps: String },
    Not { why: String, why_code: &'static str },
}

impl PriceEntry {
    fn of(price: Result<&Charge, &NotPriced>) -> Self {
        match price {
            Ok(charge) => Self::Stated { amount: charge.money.plain(), steps: plain(&charge_text(&charge.steps)) },
            Err(why) => Self::Not { why: plain(&not_priced_text(why)), why_code: why.code() },
        }
    }
}

impl MoneyEntry {
    pub(super) fn of(worth: &PriceAndClimb, settings: &MoneySettings) -> Self {
        let part = |part| PriceEntry::of(worth.offer.part(part));
        Self {
            currency: settings.currency.code(),
            tax: match settings.tax {
                Tax::Included => "included",
                Tax::Excluded => "excluded",
            },
            frame: part(Part::Frame),
            fork: part(Part::Fork),
            frameset: part(Part::Frameset),
        }
    }
}

/// Price and climb of a frame at the size compared.
#[derive(Serialize)]
pub(super) struct PriceAndClimbEntry {
    size: String,
    loaded_total_kg: Option<f64>,
    loaded_total_kg_u: Option<f64>,
    share_percent: Option<f64>,
    share_u: Option<f64>,
    climb: ClimbEntry,
    against: Option<AgainstEntry>,
    unbeaten: Option<bool>,
    gears: Vec<GearsEntry>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum ClimbEntry {
    Found { seconds: f64, u: f64 },
    Not { why: String, why_code: &'static str },
}

#[derive(Serialize)]
struct AgainstEntry {
    grams: f64,
    u: f64,
    clear: bool,
    loaded_total_percent: f64,
    loaded_total_u: f64,
    climb: Option<ClimbEntry>,
    price: Option<String>,
    per_gram: Option<PerGramEntry>,
}

#[derive(Serialize)]
struct PerGramEntry {
    amount: String,
    plus_minus: String,
}

#[derive(Serialize)]
#[serde(untagged)]
enum GearsEntry {
    Found {
        build: String,
        range_percent: f64,
        lowest_m: f64,
        highest_m: f64,
        lowest_km_h: f64,
        highest_km_h: f64,
        steepest_percent: f64,
        steepest_u: f64,
        share_u: f64,
    },
    Not {
        build: String,
        why: String,
        why_code: &'static str,
    },
}

fn timed(time: &Measured<Time>) -> ClimbEntry {
    ClimbEntry::Found { seconds: rounded(time.value), u: rounded(time.u) }
}

impl AgainstEntry {
    fn of(against: &Against) -> Self {
        let plain = |money: &Money| money.plain();
        Self {
            grams: rounded(against.mass.value),
            u: rounded(against.mass.u),
            clear: against.mass.is_clear(),
            loaded_total_percent: rounded(against.whole_percent.value),
            loaded_total_u: rounded(against.whole_percent.u),
            climb: against.climb.as_ref().map(timed),
            price: against.price.as_ref().map(plain),
            per_gram: against
                .per_gram
                .as_ref()
                .map(|(amount, plus_minus)| PerGramEntry { amount: plain(amount), plus_minus: plain(plus_minus) }),
        }
    }
}

impl PriceAndClimbEntry {
    pub(super) fn of(units: System, size: &str, worth: &PriceAndClimb, settings: &RidingSettings) -> Self {
        let gears = settings.builds.iter().zip(&worth.gears).map(|(build, found)| {
            let build = build.name.clone();
            match found {
                Ok(g) => GearsEntry::Found {
                    build,
                    range_percent: rounded(g.range_percent),
                    lowest_m: rounded(g.lowest_m),
                    highest_m: rounded(g.highest_m),
                    lowest_km_h: rounded(g.lowest_km_h),
                    highest_km_h: rounded(g.highest_km_h),
                    steepest_percent: rounded(g.steepest.value),
                    steepest_u: rounded(g.steepest.u),
                    share_u: rounded(g.share_u),
                },
                Err(why) => GearsEntry::Not { build, why: plain(&no_gears_text(why)), why_code: why.code() },
            }
        });
        Self {
            size: size.to_owned(),
            loaded_total_kg: worth.loaded.map(|total| rounded(total.value / 1000.0)),
            loaded_total_kg_u: worth.loaded.map(|total| rounded(total.u / 1000.0)),
            share_percent: worth.share_percent.map(|share| rounded(share.value)),
            share_u: worth.share_percent.map(|share| rounded(share.u)),
            climb: match &worth.climb {
                Ok(time) => timed(time),
                Err(why) => ClimbEntry::Not { why: plain(&no_climb_text(units, why)), why_code: why.code() },
            },
            against: worth.against.as_ref().map(AgainstEntry::of),
            unbeaten: worth.is_unbeaten,
            gears: gears.collect(),
        }
    }
}
