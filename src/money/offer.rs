//! What a frameset costs: frame, fork and both, in one currency, with tax or without.

use iso_currency::Currency;
use rust_decimal::Decimal;

use super::amount::{Money, MoneyError};
use super::rate::{Rate, convert};
use super::settings::MoneySettings;
use crate::frameset::{Part, Price, Tax};

/// A price as it is compared.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Charge {
    /// In the currency shown, unrounded.
    pub money: Money,
    /// How it came about, step by step.
    pub steps: Vec<ChargeStep>,
    /// Whether it was converted, or its tax changed.
    pub is_converted: bool,
}

/// Step from a published price to the price compared. Amounts are unrounded, after the step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChargeStep {
    /// The published price.
    Published {
        /// As published.
        money: Money,
        /// Whether tax is included.
        tax: Tax,
    },
    /// Tax added to it.
    TaxAdded {
        /// Tax rate, percent.
        percent: Decimal,
        /// The amount with tax.
        money: Money,
    },
    /// Tax taken off it.
    TaxTakenOff {
        /// Tax rate, percent.
        percent: Decimal,
        /// The amount without tax.
        money: Money,
    },
    /// Another country's tax replaced by the user's.
    TaxReplaced {
        /// Tax rate that was included, percent.
        from: Decimal,
        /// The user's tax rate, percent.
        to: Decimal,
        /// The amount with the user's tax.
        money: Money,
    },
    /// Another currency.
    Converted {
        /// Exchange rates, in their order.
        rates: Vec<Rate>,
        /// The amount in the currency shown.
        money: Money,
    },
    /// The sum of frame and fork.
    Sum {
        /// Price of the frame.
        frame: Money,
        /// Price of the fork.
        fork: Money,
        /// Both.
        money: Money,
    },
}

/// Reason why a part has no price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotPriced {
    /// No price is published.
    NotPublished,
    /// One part of the frameset has no published price.
    PartNotPublished(Part),
    /// The price is published without saying whether tax is included.
    TaxUnknown(Money),
    /// Tax must be added or taken off, and no tax rate is entered.
    TaxRateMissing {
        /// The published price.
        money: Money,
        /// Whether tax is included in it.
        tax: Tax,
    },
    /// The price is in another currency, and no exchange rate is entered.
    RateMissing {
        /// The published price.
        money: Money,
        /// The currency shown.
        to: Currency,
    },
    /// One part of the frameset has no price that can be compared.
    Part(Part, Box<NotPriced>),
    /// The sum of frame and fork is beyond the range of amounts.
    TooMuch,
    /// The published amount or currency is not valid.
    Invalid(MoneyError),
}

impl NotPriced {
    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotPublished => "price_not_published",
            Self::PartNotPublished(_) => "part_price_not_published",
            Self::TaxUnknown(_) => "tax_unknown",
            Self::TaxRateMissing { .. } => "tax_rate_missing",
            Self::RateMissing { .. } => "exchange_rate_missing",
            Self::Part(_, why) => why.code(),
            Self::TooMuch => "sum_too_large",
            Self::Invalid(_) => "price_not_valid",
        }
    }
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

/// The prices of one frameset as they are compared. Of several prices of one part the first in the currency shown
/// counts, else the latest.
#[must_use]
pub fn offer(prices: &[Price], settings: &MoneySettings) -> Offer {
    let charge = |part| best(prices, part, settings).map_or(Err(NotPriced::NotPublished), |price| brought(price, settings));
    let (frame, fork) = (charge(Part::Frame), charge(Part::Fork));
    let set = match charge(Part::Frameset) {
        Err(NotPriced::NotPublished) => sum(&frame, &fork),
        published => published,
    };
    Offer { frame, fork, set }
}

fn sum(frame: &Result<Charge, NotPriced>, fork: &Result<Charge, NotPriced>) -> Result<Charge, NotPriced> {
    match (frame, fork) {
        (Ok(frame), Ok(fork)) => {
            let Some(amount) = frame.money.amount.checked_add(fork.money.amount) else { return Err(NotPriced::TooMuch) };
            let money = Money { amount, ..frame.money };
            let steps = vec![ChargeStep::Sum { frame: frame.money, fork: fork.money, money }];
            Ok(Charge { money, steps, is_converted: frame.is_converted || fork.is_converted })
        }
        (Err(NotPriced::NotPublished), Err(NotPriced::NotPublished)) => Err(NotPriced::NotPublished),
        (Err(NotPriced::NotPublished), _) => Err(NotPriced::PartNotPublished(Part::Frame)),
        (_, Err(NotPriced::NotPublished)) => Err(NotPriced::PartNotPublished(Part::Fork)),
        (Err(why), _) => Err(NotPriced::Part(Part::Frame, Box::new(why.clone()))),
        (_, Err(why)) => Err(NotPriced::Part(Part::Fork, Box::new(why.clone()))),
    }
}

fn best<'a>(prices: &'a [Price], part: Part, settings: &MoneySettings) -> Option<&'a Price> {
    let own = || prices.iter().filter(move |p| p.part == part);
    own().find(|p| p.currency == settings.currency.code()).or_else(|| own().max_by(|a, b| a.on.cmp(&b.on)))
}

fn brought(price: &Price, settings: &MoneySettings) -> Result<Charge, NotPriced> {
    let published = Money::read(&price.amount, &price.currency).map_err(NotPriced::Invalid)?;
    let Some(tax) = price.tax else { return Err(NotPriced::TaxUnknown(published)) };
    let mut steps = vec![ChargeStep::Published { money: published, tax }];
    let taxed = taxed(published, tax, price, settings, &mut steps)?;
    let (money, rates) = convert(taxed, settings.currency, &settings.rates)
        .ok_or(NotPriced::RateMissing { money: published, to: settings.currency })?;
    let is_converted = !rates.is_empty() || taxed != published;
    if !rates.is_empty() {
        steps.push(ChargeStep::Converted { rates: rates.into_iter().cloned().collect(), money });
    }
    Ok(Charge { money, steps, is_converted })
}

/// With the tax that is asked for. The rate of the price's own country comes first for taking tax off, the user's for
/// adding it; where a price has another country's tax in it, that is taken off and the user's is added.
fn taxed(
    published: Money,
    tax: Tax,
    price: &Price,
    settings: &MoneySettings,
    steps: &mut Vec<ChargeStep>,
) -> Result<Money, NotPriced> {
    let own = price.tax_percent.as_deref().and_then(|p| p.parse::<Decimal>().ok());
    let factor = |percent: Decimal| Decimal::ONE + percent / Decimal::ONE_HUNDRED;
    let users = settings.tax_percent;
    let missing = || NotPriced::TaxRateMissing { money: published, tax };
    let (off, on) = match (tax, settings.tax) {
        (Tax::Included, Tax::Included) => {
            own.zip(users).filter(|(from, to)| from != to).map_or((None, None), |(from, to)| (Some(from), Some(to)))
        }
        (Tax::Excluded, Tax::Excluded) => (None, None),
        (Tax::Included, Tax::Excluded) => (Some(own.or(users).ok_or_else(missing)?), None),
        (Tax::Excluded, Tax::Included) => (None, Some(users.ok_or_else(missing)?)),
    };
    let without = off.map_or(published.amount, |percent| published.amount / factor(percent));
    let amount = on.map_or(without, |percent| without * factor(percent));
    let money = Money { amount, ..published };
    steps.extend(match (off, on) {
        (Some(from), Some(to)) => Some(ChargeStep::TaxReplaced { from, to, money }),
        (Some(percent), None) => Some(ChargeStep::TaxTakenOff { percent, money }),
        (None, Some(percent)) => Some(ChargeStep::TaxAdded { percent, money }),
        (None, None) => None,
    });
    Ok(money)
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
        let frame = found.frame.unwrap();
        let [
            ChargeStep::Published { money: published, tax: Tax::Excluded },
            ChargeStep::TaxAdded { percent, money: taxed },
            ChargeStep::Converted { rates, money },
        ] = frame.steps.as_slice()
        else {
            unreachable!("{:?}", frame.steps)
        };
        assert_eq!((published.plain().as_str(), taxed.plain().as_str(), *money), ("1790.00", "2130.10", frame.money));
        assert_eq!((*percent, rates), (Decimal::from(19), &settings().rates));
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
        let replaced = ChargeStep::TaxReplaced { from: Decimal::from(25), to: Decimal::from(19), money: found.money };
        assert_eq!(found.steps.last(), Some(&replaced));
        with.tax_percent = Some("19".to_owned());
        assert!(!offer(&[with], &settings()).set.unwrap().is_converted);
    }

    #[test]
    fn a_set_says_which_part_has_no_price_and_why() {
        let prices =
            [price(Part::Frame, "499.00", "SEK", Some(Tax::Included)), price(Part::Fork, "389.00", "EUR", Some(Tax::Included))];
        let why = offer(&prices, &settings()).set.unwrap_err();
        let money = Money::read("499.00", "SEK").unwrap();
        let missing = NotPriced::RateMissing { money, to: Currency::EUR };
        assert_eq!(why, NotPriced::Part(Part::Frame, Box::new(missing)));
        assert_eq!(why.code(), "exchange_rate_missing");
    }

    #[test]
    fn a_set_is_totalled_only_when_all_of_it_is_known() {
        let frame = price(Part::Frame, "499.00", "EUR", Some(Tax::Included));
        let found = offer(std::slice::from_ref(&frame), &settings());
        assert!(found.frame.is_ok());
        assert_eq!(found.set, Err(NotPriced::PartNotPublished(Part::Fork)));
        assert_eq!(offer(&[], &settings()).set, Err(NotPriced::NotPublished));
        let both = [frame, price(Part::Fork, "389.00", "EUR", Some(Tax::Included))];
        assert_eq!(offer(&both, &settings()).set.unwrap().money.plain(), "888.00");
    }

    #[test]
    fn what_is_missing_is_asked_for() {
        let bare = MoneySettings::default();
        let of = |tax, currency| offer(&[price(Part::Frameset, "100.00", currency, tax)], &bare).set.unwrap_err();
        let money = |currency| Money::read("100.00", currency).unwrap();
        let (euros, pounds) = (money("EUR"), money("GBP"));
        assert_eq!(of(Some(Tax::Excluded), "EUR"), NotPriced::TaxRateMissing { money: euros, tax: Tax::Excluded });
        assert_eq!(of(Some(Tax::Included), "GBP"), NotPriced::RateMissing { money: pounds, to: Currency::EUR });
        assert_eq!(of(None, "EUR"), NotPriced::TaxUnknown(euros));
        assert_eq!(of(Some(Tax::Included), "XQX"), NotPriced::Invalid(MoneyError::Currency("XQX".to_owned())));
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
