//! Prices in words: how each came about, and why there is none.

use super::comparison_table::NOT_PUBLISHED;
use crate::frameset::{Part, Tax};
use crate::lineup::{Findings, FrameFindings, Lineup};
use crate::money::{ChargeStep, Money, NotPriced, Offer, Rate};
use crate::units::{System, THIN_SPACE, per_cent};
use rust_decimal::Decimal;

/// `with tax` or `without tax`.
#[must_use]
pub const fn tax_label(tax: Tax) -> &'static str {
    match tax {
        Tax::Included => "with tax",
        Tax::Excluded => "without tax",
    }
}

/// Steps of a price: `1790.00 GBP without tax, with 19 % tax 2130.10 GBP`.
#[must_use]
pub fn charge_text(steps: &[ChargeStep]) -> String {
    steps.iter().map(step_text).collect::<Vec<_>>().join("; ")
}

fn step_text(step: &ChargeStep) -> String {
    let percent = |rate: &Decimal| per_cent(&rate.to_string());
    match step {
        ChargeStep::Published { money, tax } => format!("{} {}", money.text(), tax_label(*tax)),
        ChargeStep::TaxAdded { percent: rate, money } => format!("plus {} tax = {}", percent(rate), money.text()),
        ChargeStep::TaxTakenOff { percent: rate, money } => format!("less {} tax = {}", percent(rate), money.text()),
        ChargeStep::TaxReplaced { from, to, money } => {
            format!("with {} tax instead of {} = {}", percent(to), percent(from), money.text())
        }
        ChargeStep::Converted { rates, money } => {
            let rates: Vec<String> = rates.iter().map(rate_text).collect();
            format!("converted at {}: {}", rates.join(" and "), money.text())
        }
        ChargeStep::Sum { frame, fork, money } => {
            format!("frame {} + fork {} = {}", frame.text(), fork.text(), money.text())
        }
    }
}

/// `1 EUR = 0.87 GBP (2026-10-12)`.
fn rate_text(rate: &Rate) -> String {
    format!("1{THIN_SPACE}{} = {}{THIN_SPACE}{} ({})", rate.one.code(), rate.is, rate.of.code(), rate.on)
}

/// Steps of a frameset's price with those of its parts.
#[must_use]
pub fn offer_text(offer: &Offer) -> Option<String> {
    let charge = offer.set.as_ref().ok()?;
    let is_sum = charge.steps.iter().any(|s| matches!(s, ChargeStep::Sum { .. }));
    let parts = [(Part::Frame, &offer.frame), (Part::Fork, &offer.fork)];
    let parts = parts.into_iter().filter(|_| is_sum).filter_map(|(part, charge)| {
        let charge = charge.as_ref().ok()?;
        Some(format!("{} {}", part.label(), charge_text(&charge.steps)))
    });
    Some(parts.chain([charge_text(&charge.steps)]).collect::<Vec<_>>().join("; "))
}

/// Reason why there is no price, without a full stop: `the price is not published`.
#[must_use]
pub fn not_priced_text(why: &NotPriced) -> String {
    match why {
        NotPriced::NotPublished => format!("the price is {NOT_PUBLISHED}"),
        NotPriced::PartNotPublished(part) => format!("the price of the {} is {NOT_PUBLISHED}", part.label()),
        NotPriced::TaxUnknown(money) => format!("{} is published without saying whether tax is included", money.text()),
        NotPriced::TaxRateMissing { money, tax } => {
            format!("{} is {}. Enter your tax rate", money.text(), tax_label(*tax))
        }
        NotPriced::RateMissing { money, to } => {
            format!("{} needs an exchange rate from {} to {}", money.text(), money.currency.code(), to.code())
        }
        NotPriced::Part(part, why) => format!("{} {}", part.label(), not_priced_text(why)),
        NotPriced::TooMuch => "the sum of frame and fork is too large".to_owned(),
        NotPriced::Invalid(error) => error.to_string(),
    }
}

/// The same in a narrow place: `no exchange rate`.
#[must_use]
pub(super) fn not_priced_in_brief(why: &NotPriced) -> &'static str {
    match why {
        NotPriced::NotPublished | NotPriced::PartNotPublished(_) => NOT_PUBLISHED,
        NotPriced::TaxUnknown(_) => "tax not published",
        NotPriced::TaxRateMissing { .. } => "no tax rate",
        NotPriced::RateMissing { .. } => "no exchange rate",
        NotPriced::Part(_, why) => not_priced_in_brief(why),
        NotPriced::TooMuch | NotPriced::Invalid(_) => "not valid",
    }
}

/// Sentence on a frame without a price to compare: `B has no price to compare: …`; `None` where it has one.
#[must_use]
pub fn missing_price_text(letter: &str, offer: &Offer) -> Option<String> {
    let why = offer.set.as_ref().err()?;
    Some(format!("{letter} has no price to compare: {}.", not_priced_text(why)))
}

/// Sentences on the shown frames that are not in the plot of price against weight.
#[must_use]
pub fn missing_from_plot(findings: &Findings) -> Vec<String> {
    let shown = findings.frames.iter().zip(&findings.price_and_climb).filter(|(f, _)| f.shown);
    let sentence = |frame: &FrameFindings, offer: &Offer| {
        let letter = &frame.letter;
        match (frame.weights.part(Part::Frameset), &offer.set) {
            (Some(_), _) => missing_price_text(letter, offer),
            (None, Ok(_)) => Some(format!("{letter} has no weight to compare: that of the frameset is {NOT_PUBLISHED}.")),
            (None, Err(why)) => Some(format!("{letter} has no frameset weight, and no price: {}.", not_priced_text(why))),
        }
    };
    shown.filter_map(|(frame, found)| sentence(frame, &found.offer)).collect()
}

/// Sentence on a frameset with a ring: `Nothing shown is both lighter and cheaper than A.`
#[must_use]
pub fn ring_sentence(letter: &str) -> String {
    format!("Nothing shown is both lighter and cheaper than {letter}.")
}

/// Ounces saved cost so many times what grams do.
fn per_unit(units: System, money: Money) -> Money {
    match units {
        System::Metric => money,
        // An avoirdupois ounce is 28.349523125 g exactly.
        System::Imperial => Money { amount: money.amount * Decimal::new(28_349_523_125, 9), ..money },
    }
}

/// Unit of mass in which a saving is priced: `gram`.
pub(super) const fn saved_unit(units: System) -> &'static str {
    match units {
        System::Metric => "gram",
        System::Imperial => "ounce",
    }
}

/// Price of each gram or ounce, with its ±, without a unit: `0.69 ± 0.03 EUR`.
pub(super) fn price_each(units: System, (each, plus_minus): &(Money, Money)) -> String {
    let (each, plus_minus) = (per_unit(units, *each), per_unit(units, *plus_minus));
    if plus_minus.rounded().amount.is_zero() {
        return each.text();
    }
    format!("{}{THIN_SPACE}±{THIN_SPACE}{}{THIN_SPACE}{}", each.digits(), plus_minus.digits(), each.currency.code())
}

/// Price per gram or ounce saved: `0.69 ± 0.03 EUR/g`; `lighter and cheaper` where nothing is paid for it.
#[must_use]
pub fn per_gram_text(units: System, per_gram: &(Money, Money)) -> String {
    if per_gram.0.amount.is_zero() {
        return "lighter, same price".to_owned();
    }
    if per_gram.0.amount.is_sign_negative() {
        return "lighter and cheaper".to_owned();
    }
    let unit = match units {
        System::Metric => "g",
        System::Imperial => "oz",
    };
    format!("{}/{unit}", price_each(units, per_gram))
}

/// Title of an axis or a row of prices: `Price of frame and fork, EUR with tax`.
#[must_use]
pub fn price_title(lineup: &Lineup) -> String {
    let money = &lineup.settings.money;
    format!("Price of frame and fork, {} {}", money.currency.code(), tax_label(money.tax))
}
