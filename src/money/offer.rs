//! What a frameset costs: frame, fork and both, in one currency, with tax or without.

use iso_currency::Currency;
use rust_decimal::Decimal;

use super::amount::Money;
use super::rate::convert;
use super::settings::MoneySettings;
use crate::frameset::{Part, Price, Tax};

/// A price on the common footing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Charge {
    /// In the currency shown, unrounded.
    pub money: Money,
    /// How it came about: "1790.00 GBP without tax + 19 % = 2130.10 GBP; 1 GBP = 1.15 EUR, 2026-10-30".
    pub steps: String,
    /// Whether it was converted, or its tax changed.
    pub is_converted: bool,
}

/// Why there is no price.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotPriced {
    /// Nobody says.
    #[error("not stated")]
    NotStated,
    /// A set of which a part is not priced.
    #[error("not stated: the {} has no price", .0.label())]
    PartMissing(Part),
    /// Nobody says whether tax is in it.
    #[error("{0} does not say whether tax is in it")]
    TaxNotStated(String),
    /// Tax must be added or taken off, and no rate is typed.
    #[error("{0} {1} tax; type the tax rate to bring it {2} tax")]
    TaxRateMissing(String, &'static str, &'static str),
    /// Another currency, and no rate is typed.
    #[error("{0}; type a rate from {1} to {2}")]
    RateMissing(String, &'static str, &'static str),
    /// Why one part of a set has no price.
    #[error("the {part}: {why}", part = .0.label(), why = .1)]
    Part(Part, Box<NotPriced>),
    /// More than money can be counted in.
    #[error("frame and fork together cost more than can be counted")]
    TooMuch,
    /// A currency that does not exist.
    #[error("{0}")]
    Unreadable(String),
}

/// What a frameset costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// The frame alone.
    pub frame: Result<Charge, NotPriced>,
    /// The fork alone.
    pub fork: Result<Charge, NotPriced>,
    /// Both: the frameset's price, or the sum where frame and fork are priced.
    pub set: Result<Charge, NotPriced>,
}

impl Offer {
    /// One of them.
    ///
    /// # Errors
    /// Why there is no price.
    pub const fn part(&self, part: Part) -> Result<&Charge, &NotPriced> {
        match part {
            Part::Frame => self.frame.as_ref(),
            Part::Fork => self.fork.as_ref(),
            Part::Frameset => self.set.as_ref(),
        }
    }
}

/// The prices of one frameset on the common footing. Of several prices of one part the first in the currency shown
/// counts, else the latest.
#[must_use]
pub fn offer(prices: &[Price], settings: &MoneySettings) -> Offer {
    let charge = |part| best(prices, part, settings).map_or(Err(NotPriced::NotStated), |price| brought(price, settings));
    let (frame, fork) = (charge(Part::Frame), charge(Part::Fork));
    let set = match charge(Part::Frameset) {
        Err(NotPriced::NotStated) => sum(&frame, &fork),
        stated => stated,
    };
    Offer { frame, fork, set }
}

fn sum(frame: &Result<Charge, NotPriced>, fork: &Result<Charge, NotPriced>) -> Result<Charge, NotPriced> {
    match (frame, fork) {
        (Ok(frame), Ok(fork)) => {
            let Some(amount) = frame.money.amount.checked_add(fork.money.amount) else { return Err(NotPriced::TooMuch) };
            let money = Money { amount, ..frame.money };
            let steps = format!("frame {} + fork {} = {}", frame.money.text(), fork.money.text(), money.text());
            Ok(Charge { money, steps, is_converted: frame.is_converted || fork.is_converted })
        }
        (Err(NotPriced::NotStated), Err(NotPriced::NotStated)) => Err(NotPriced::NotStated),
        (Err(NotPriced::NotStated), _) => Err(NotPriced::PartMissing(Part::Frame)),
        (_, Err(NotPriced::NotStated)) => Err(NotPriced::PartMissing(Part::Fork)),
        (Err(why), _) => Err(NotPriced::Part(Part::Frame, Box::new(why.clone()))),
        (_, Err(why)) => Err(NotPriced::Part(Part::Fork, Box::new(why.clone()))),
    }
}

fn best<'a>(prices: &'a [Price], part: Part, settings: &MoneySettings) -> Option<&'a Price> {
    let own = || prices.iter().filter(move |p| p.part == part);
    own().find(|p| p.currency == settings.currency.code()).or_else(|| own().max_by(|a, b| a.on.cmp(&b.on)))
}

fn brought(price: &Price, settings: &MoneySettings) -> Result<Charge, NotPriced> {
    let printed = Money::read(&price.amount, &price.currency).map_err(|e| NotPriced::Unreadable(e.to_string()))?;
    let Some(tax) = price.tax else { return Err(NotPriced::TaxNotStated(printed.text())) };
    let mut steps = format!("{} {} tax", printed.text(), with_or_without(tax));
    let taxed = taxed(printed, tax, price, settings, &mut steps)?;
    let (money, rates) = convert(taxed, settings.currency, &settings.rates)
        .ok_or_else(|| NotPriced::RateMissing(printed.text(), printed.currency.code(), settings.currency.code()))?;
    for rate in &rates {
        steps.push_str(&format!("; {}", rate.text()));
    }
    let is_converted = !rates.is_empty() || taxed != printed;
    if !rates.is_empty() || tax != settings.tax {
        steps.push_str(&format!(" → {}", money.text()));
    }
    Ok(Charge { money, steps, is_converted })
}

/// With the tax that is asked for. The rate of the price's own country comes first for taking tax off, the user's for
/// adding it; where a price has another country's tax in it, that is taken off and the user's is added.
fn taxed(printed: Money, tax: Tax, price: &Price, settings: &MoneySettings, steps: &mut String) -> Result<Money, NotPriced> {
    let own = price.tax_percent.as_deref().and_then(|p| p.parse::<Decimal>().ok());
    let factor = |percent: Decimal| Decimal::ONE + percent / Decimal::ONE_HUNDRED;
    if tax == settings.tax {
        let (Tax::Included, Some(own), Some(users)) = (tax, own, settings.tax_percent) else { return Ok(printed) };
        if own == users {
            return Ok(printed);
        }
        let money = Money { amount: printed.amount / factor(own) * factor(users), ..printed };
        let thin = crate::units::THIN_SPACE;
        steps.push_str(&format!(" of {own}{thin}%, with {users}{thin}% instead = {}", money.text()));
        return Ok(money);
    }
    let (rate, sign) = match tax {
        Tax::Included => (own.or(settings.tax_percent), MINUS_TAX),
        Tax::Excluded => (settings.tax_percent, "+"),
    };
    let rate =
        rate.ok_or_else(|| NotPriced::TaxRateMissing(printed.text(), with_or_without(tax), with_or_without(settings.tax)))?;
    let amount = match tax {
        Tax::Included => printed.amount / factor(rate),
        Tax::Excluded => printed.amount * factor(rate),
    };
    let money = Money { amount, ..printed };
    steps.push_str(&format!(" {sign} {rate}{}% = {}", crate::units::THIN_SPACE, money.text()));
    Ok(money)
}

const MINUS_TAX: &str = "−";

const fn with_or_without(tax: Tax) -> &'static str {
    match tax {
        Tax::Included => "with",
        Tax::Excluded => "without",
    }
}

/// Zero in a currency.
impl Money {
    /// No money.
    #[must_use]
    pub const fn zero(currency: Currency) -> Self {
        Self { amount: Decimal::ZERO, currency }
    }
}

#[cfg(test)]
mod tests {
    use super::super::rate::Rate;
    use super::*;

    fn price(part: Part, amount: &str, currency: &str, tax: Option<Tax>) -> Price {
        Price { part, amount: amount.to_owned(), currency: currency.to_owned(), tax, tax_percent: None, on: None }
    }

    fn settings() -> MoneySettings {
        MoneySettings {
            tax_percent: Some(Decimal::from(19)),
            rates: vec![Rate::read("EUR", "0.86905", "GBP", "2023-12-29").unwrap()],
            ..MoneySettings::default()
        }
    }

    #[test]
    fn tax_and_rate_are_applied_and_rounded_once() {
        let prices =
            [price(Part::Frame, "1790.00", "GBP", Some(Tax::Excluded)), price(Part::Fork, "365.00", "GBP", Some(Tax::Excluded))];
        let found = offer(&prices, &settings());
        // 1790 × 1.19 / 0.86905 = 2451.07…, 365 × 1.19 / 0.86905 = 499.79…: (1790 + 365) × 1.19 / 0.86905 = 2950.87….
        let plain = |part| found.part(part).unwrap().money.plain();
        assert_eq!(plain(Part::Frame), "2451.07");
        assert_eq!(plain(Part::Fork), "499.80");
        assert_eq!(plain(Part::Frameset), "2950.87");
        let steps = found.frame.unwrap().steps.replace('\u{2009}', " ");
        assert_eq!(steps, "1790.00 GBP without tax + 19 % = 2130.10 GBP; 1 EUR = 0.86905 GBP, 2023-12-29 → 2451.07 EUR");
    }

    #[test]
    fn tax_is_taken_off_by_the_price_s_own_rate_first() {
        let mut with = price(Part::Frameset, "119.00", "EUR", Some(Tax::Included));
        let excluded = MoneySettings { tax: Tax::Excluded, ..settings() };
        assert_eq!(offer(std::slice::from_ref(&with), &excluded).set.unwrap().money.plain(), "100.00");
        with.tax_percent = Some("25".to_owned());
        assert_eq!(offer(&[with], &excluded).set.unwrap().money.plain(), "95.20");
    }

    #[test]
    fn another_country_s_tax_makes_way_for_the_user_s() {
        let mut with = price(Part::Frameset, "648.00", "EUR", Some(Tax::Included));
        with.tax_percent = Some("25".to_owned());
        // 648 / 1.25 × 1.19 = 616.896.
        let found = offer(std::slice::from_ref(&with), &settings()).set.unwrap();
        assert_eq!((found.money.plain().as_str(), found.is_converted), ("616.90", true));
        let steps = found.steps.replace('\u{2009}', " ");
        assert_eq!(steps, "648.00 EUR with tax of 25 %, with 19 % instead = 616.90 EUR");
        with.tax_percent = Some("19".to_owned());
        assert!(!offer(&[with], &settings()).set.unwrap().is_converted);
    }

    #[test]
    fn a_set_says_which_part_has_no_price_and_why() {
        let prices =
            [price(Part::Frame, "499.00", "SEK", Some(Tax::Included)), price(Part::Fork, "389.00", "EUR", Some(Tax::Included))];
        let why = offer(&prices, &settings()).set.unwrap_err().to_string().replace('\u{2009}', " ");
        assert_eq!(why, "the frame: 499.00 SEK; type a rate from SEK to EUR");
    }

    #[test]
    fn a_set_is_totalled_only_when_all_of_it_is_known() {
        let frame = price(Part::Frame, "499.00", "EUR", Some(Tax::Included));
        let found = offer(std::slice::from_ref(&frame), &settings());
        assert!(found.frame.is_ok());
        assert_eq!(found.set, Err(NotPriced::PartMissing(Part::Fork)));
        assert_eq!(found.set.unwrap_err().to_string(), "not stated: the fork has no price");
        assert_eq!(offer(&[], &settings()).set, Err(NotPriced::NotStated));
        let both = [frame, price(Part::Fork, "389.00", "EUR", Some(Tax::Included))];
        assert_eq!(offer(&both, &settings()).set.unwrap().money.plain(), "888.00");
    }

    #[test]
    fn what_is_missing_is_asked_for() {
        let bare = MoneySettings::default();
        let of = |tax, currency| offer(&[price(Part::Frameset, "100.00", currency, tax)], &bare).set.unwrap_err().to_string();
        assert_eq!(
            of(Some(Tax::Excluded), "EUR").replace('\u{2009}', " "),
            "100.00 EUR without tax; type the tax rate to bring it with tax"
        );
        assert_eq!(of(Some(Tax::Included), "GBP").replace('\u{2009}', " "), "100.00 GBP; type a rate from GBP to EUR");
        assert_eq!(of(None, "EUR").replace('\u{2009}', " "), "100.00 EUR does not say whether tax is in it");
        assert!(of(Some(Tax::Included), "XQX").contains("no currency of ISO 4217"));
    }

    #[test]
    fn the_currency_shown_comes_before_the_latest() {
        let mut old = price(Part::Frameset, "100.00", "EUR", Some(Tax::Included));
        old.on = Some("2024-01-01".to_owned());
        let mut new = price(Part::Frameset, "80.00", "GBP", Some(Tax::Included));
        new.on = Some("2026-01-01".to_owned());
        let found = offer(&[new, old], &settings()).set.unwrap();
        assert_eq!((found.money.plain().as_str(), found.is_converted), ("100.00", false));
    }
}
