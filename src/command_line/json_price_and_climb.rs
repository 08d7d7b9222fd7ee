//! The JSON of weights, money and worth. Amounts of money are decimal text; grams, seconds and the rest are numbers.

use serde::Serialize;

use super::numbers::rounded;
use spandrel::frameset::{Part, Tax};
use spandrel::lineup::{Against, PriceAndClimb, RidingSettings};
use spandrel::money::{Charge, Money, MoneySettings, NotPriced};
use spandrel::units::{Measured, Time};
use spandrel::weight::{Estimate, PartWeight, Weights};

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
    Not { why: String },
}

impl WayEntry {
    fn of(way: &Result<Estimate, String>) -> Self {
        match way {
            Ok(e) => Self::Found {
                grams: rounded(e.mass.value),
                u: rounded(e.mass.u),
                percent: rounded(e.percent.value),
                percent_u: rounded(e.percent.u),
            },
            Err(why) => Self::Not { why: plain(why) },
        }
    }
}

/// Thin spaces are for screens.
fn plain(text: &str) -> String {
    text.replace(spandrel::units::THIN_SPACE, " ")
}

impl WeightsEntry {
    pub(super) fn of(weights: &Weights) -> Self {
        let part = |part| weights.part(part).map(PartEntry::of);
        Self { frame: part(Part::Frame), fork: part(Part::Fork), frameset: part(Part::Frameset) }
    }
}

impl PartEntry {
    fn of(weight: &PartWeight) -> Self {
        let line = |row: &spandrel::weight::Row| LineEntry {
            line: plain(&row.label),
            grams: rounded(row.mass.value),
            u: rounded(row.mass.u),
        };
        Self {
            grams: rounded(weight.mass.value),
            u: rounded(weight.mass.u),
            estimated: weight.is_estimate,
            sum: plain(&weight.sum),
            method: weight.counted.map(spandrel::weight::Method::key),
            ways: weight.ways.as_ref().map(|w| WaysEntry {
                your_factor: WayEntry::of(&w.stated),
                tube_lengths: WayEntry::of(&w.tube_lengths),
                between_weighed_sizes: WayEntry::of(&w.between),
            }),
            lines: weight.rows.iter().map(line).collect(),
            says: weight.says.iter().map(|s| plain(s)).collect(),
        }
    }
}

/// Prices of one frameset on the common footing.
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
    Not { why: String },
}

impl PriceEntry {
    fn of(price: Result<&Charge, &NotPriced>) -> Self {
        match price {
            Ok(charge) => Self::Stated { amount: charge.money.plain(), steps: plain(&charge.steps) },
            Err(why) => Self::Not { why: plain(&why.to_string()) },
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

/// What the frame is worth at the size compared.
#[derive(Serialize)]
pub(super) struct PriceAndClimbEntry {
    size: String,
    loaded_total_kg: Option<f64>,
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
    Not { why: String },
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
    pub(super) fn of(size: &str, worth: &PriceAndClimb, settings: &RidingSettings) -> Self {
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
                Err(why) => GearsEntry::Not { build, why: why.clone() },
            }
        });
        Self {
            size: size.to_owned(),
            loaded_total_kg: worth.whole_kg.map(rounded),
            share_percent: worth.share_percent.map(|share| rounded(share.value)),
            share_u: worth.share_percent.map(|share| rounded(share.u)),
            climb: match &worth.climb {
                Ok(time) => timed(time),
                Err(why) => ClimbEntry::Not { why: why.clone() },
            },
            against: worth.against.as_ref().map(AgainstEntry::of),
            unbeaten: worth.is_unbeaten,
            gears: gears.collect(),
        }
    }
}
