//! Conversion at rates that the user typed.
//!
//! A rate says what one unit of a currency buys of another, as central banks quote it: `1 EUR = 0.86905 GBP`. The other
//! way round it is divided by, never inverted and rounded. Two rates that share a currency are joined through it, without
//! rounding in between (Council Regulation (EC) No 1103/97, Art. 4, taken as a model: it binds the fixed rates of 1999 only).

use iso_currency::Currency;
use rust_decimal::Decimal;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

use super::amount::{Money, MoneyError, read_currency, read_decimal};
use crate::units::Day;

/// One unit of `one` buys `is` of `of`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rate {
    /// The currency of which one unit is bought.
    #[serde(serialize_with = "write_code", deserialize_with = "read_code")]
    pub one: Currency,
    /// What it costs; from a millionth to a million, so that no sum of prices outgrows the arithmetic.
    #[serde(serialize_with = "write_text", deserialize_with = "read_text")]
    pub is: Decimal,
    /// The currency that pays.
    #[serde(serialize_with = "write_code", deserialize_with = "read_code")]
    pub of: Currency,
    /// The day of the rate, year-month-day.
    #[serde(deserialize_with = "read_day")]
    pub on: String,
}

/// Reads a rate as typed.
///
/// # Errors
/// What is no decimal number from a millionth to a million.
pub fn read_rate(text: &str) -> Result<Decimal, MoneyError> {
    match read_decimal(text) {
        Some(rate) if rate >= Decimal::new(1, 6) && rate <= Decimal::from(1_000_000) => Ok(rate),
        _ => Err(MoneyError::Rate(text.trim().to_owned())),
    }
}

impl Rate {
    /// From what was typed.
    ///
    /// # Errors
    /// A currency, rate or date that cannot be, or one currency twice.
    pub fn read(one: &str, is: &str, of: &str, on: &str) -> Result<Self, MoneyError> {
        let rate = Self { one: read_currency(one)?, is: read_rate(is)?, of: read_currency(of)?, on: on.trim().to_owned() };
        if rate.one == rate.of {
            return Err(MoneyError::SameCurrency(rate.one.code().to_owned()));
        }
        if crate::frameset::check_date(&rate.on).is_err() {
            return Err(MoneyError::Date(rate.on));
        }
        Ok(rate)
    }

    /// From one line as [`Self::text`] writes it: `1 EUR = 0.86905 GBP, 2023-12-29`. Without a day it is of `today`.
    ///
    /// # Errors
    /// Text of another form, and what [`Self::read`] refuses.
    pub fn read_line(text: &str, today: Day) -> Result<Self, MoneyError> {
        let form = || MoneyError::RateLine(text.trim().to_owned());
        let (one, rest) = text.split_once('=').ok_or_else(form)?;
        let one: Vec<&str> = one.split_whitespace().collect();
        // A decimal comma may stand in the rate, so the date's comma is just another gap.
        let rest: Vec<&str> = rest.split_whitespace().map(|w| w.trim_end_matches(',')).collect();
        match (one.as_slice(), rest.as_slice()) {
            (["1", one] | [one], [is, of, on]) => Self::read(one, is, of, on),
            (["1", one] | [one], [is, of]) => Self::read(one, is, of, &today.to_string()),
            _ => Err(form()),
        }
    }

    /// `1 EUR = 0.86905 GBP, 2023-12-29`.
    #[must_use]
    pub fn text(&self) -> String {
        format!("1 {} = {} {}, {}", self.one.code(), self.is, self.of.code(), self.on)
    }

    fn apply(&self, money: Money, to: Currency) -> Option<Money> {
        let amount = if (self.one, self.of) == (money.currency, to) {
            money.amount.checked_mul(self.is)?
        } else if (self.of, self.one) == (money.currency, to) {
            money.amount.checked_div(self.is)?
        } else {
            return None;
        };
        Some(Money { amount, currency: to })
    }

    fn other(&self, currency: Currency) -> Option<Currency> {
        match currency {
            c if c == self.one => Some(self.of),
            c if c == self.of => Some(self.one),
            _ => None,
        }
    }
}

/// `money` in another currency, unrounded, and the rates that it took (none for the currency itself, one, or two that
/// share a currency). `None` where no rate leads there. The first rate that fits counts.
#[must_use]
pub fn convert(money: Money, to: Currency, rates: &[Rate]) -> Option<(Money, Vec<&Rate>)> {
    if money.currency == to {
        return Some((money, Vec::new()));
    }
    for rate in rates {
        if let Some(converted) = rate.apply(money, to) {
            return Some((converted, vec![rate]));
        }
    }
    for first in rates {
        let Some(between) = first.other(money.currency).and_then(|c| first.apply(money, c)) else { continue };
        for second in rates {
            if let Some(converted) = second.apply(between, to) {
                return Some((converted, vec![first, second]));
            }
        }
    }
    None
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde's signature")]
fn write_code<S: Serializer>(currency: &Currency, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(currency.code())
}

pub(super) fn read_code<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Currency, D::Error> {
    read_currency(&String::deserialize(deserializer)?).map_err(D::Error::custom)
}

fn write_text<S: Serializer>(decimal: &Decimal, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(&decimal.to_string())
}

fn read_text<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Decimal, D::Error> {
    read_rate(&String::deserialize(deserializer)?).map_err(D::Error::custom)
}

fn read_day<'de, D: Deserializer<'de>>(deserializer: D) -> Result<String, D::Error> {
    let text = String::deserialize(deserializer)?;
    if crate::frameset::check_date(&text).is_ok() { Ok(text) } else { Err(D::Error::custom(MoneyError::Date(text))) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rates(day: &str, list: &[(&str, &str)]) -> Vec<Rate> {
        list.iter().map(|(of, is)| Rate::read("EUR", is, of, day).unwrap()).collect()
    }

    fn in_currency(amount: &str, from: &str, to: &str, rates: &[Rate]) -> Money {
        convert(Money::read(amount, from).unwrap(), read_currency(to).unwrap(), rates).unwrap().0
    }

    #[test]
    fn reference_rates_of_the_central_bank() {
        // European Central Bank, euro foreign exchange reference rates of 2013-03-21.
        let of_2013 = rates("2013-03-21", &[("USD", "1.2910"), ("GBP", "0.85165"), ("CHF", "1.2225"), ("JPY", "122.95")]);
        assert_eq!(in_currency("100", "EUR", "USD", &of_2013).plain(), "129.10");
        assert_eq!(in_currency("100", "USD", "EUR", &of_2013).plain(), "77.46");
        assert_eq!(in_currency("100", "EUR", "JPY", &of_2013).plain(), "12295");
        // Council Regulation (EC) No 1103/97, Art. 4: through the euro, not rounded below three decimals.
        let euros = in_currency("250", "GBP", "EUR", &of_2013).amount;
        assert_eq!(euros.round_dp(3).to_string(), "293.548");
        assert_eq!(in_currency("250", "GBP", "USD", &of_2013).plain(), "378.97");
        let (_, taken) = convert(Money::read("250", "GBP").unwrap(), Currency::USD, &of_2013).unwrap();
        assert_eq!(taken.iter().map(|r| r.of.code()).collect::<Vec<_>>(), ["GBP", "USD"]);
        // The rates of 2023-12-29 and 2020-01-02.
        assert_eq!(in_currency("648", "EUR", "GBP", &rates("2023-12-29", &[("GBP", "0.86905")])).plain(), "563.14");
        assert_eq!(in_currency("648", "EUR", "CHF", &rates("2020-01-02", &[("CHF", "1.0865")])).plain(), "704.05");
    }

    #[test]
    fn a_missing_rate_is_missing() {
        let one = rates("2023-12-29", &[("GBP", "0.86905")]);
        assert_eq!(convert(Money::read("1", "SEK").unwrap(), Currency::EUR, &one), None);
        let same = convert(Money::read("1", "SEK").unwrap(), Currency::SEK, &[]).unwrap();
        assert!(same.1.is_empty());
    }

    #[test]
    fn there_and_back_is_the_same_money() {
        let one = rates("2023-12-29", &[("GBP", "0.86905")]);
        for amount in ["0.01", "648.00", "1790.00", "99999.99"] {
            let there = in_currency(amount, "EUR", "GBP", &one);
            let back = convert(there, Currency::EUR, &one).unwrap().0;
            assert_eq!(back.plain(), Money::read(amount, "EUR").unwrap().plain());
        }
    }

    #[test]
    fn a_line_is_read_as_it_is_written() {
        let rate = Rate::read("EUR", "0.86905", "GBP", "2023-12-29").unwrap();
        let today = Day::new(2026, 10, 30).unwrap();
        for text in [rate.text().as_str(), "eur = 0,86905 gbp 2023-12-29", " 1 EUR =0.86905 GBP,  2023-12-29 "] {
            assert_eq!(Rate::read_line(text, today), Ok(rate.clone()), "{text}");
        }
        let of_today = Rate::read("EUR", "0.87", "GBP", "2026-10-30").unwrap();
        assert_eq!(Rate::read_line("1 EUR = 0,87 GBP", today), Ok(of_today), "the day is today’s");
        for text in ["", "0.87", "EUR GBP 0.87", "2 EUR = 0.87 GBP, 2026-10-12"] {
            assert!(matches!(Rate::read_line(text, today), Err(MoneyError::RateLine(_))), "{text}");
        }
        assert!(matches!(Rate::read_line("1 EUR = 0.87 QQQ, 2026-10-12", today), Err(MoneyError::Currency(_))));
        assert!(matches!(Rate::read_line("1 EUR = 0 GBP, 2026-10-12", today), Err(MoneyError::Rate(_))));
    }

    #[test]
    fn a_rate_that_outgrows_the_arithmetic_is_refused() {
        for is in ["0.0000001", "0.000000000000000001", "1000001"] {
            assert!(matches!(Rate::read("USD", is, "GBP", "2026-10-30"), Err(MoneyError::Rate(_))), "{is}");
        }
        // The dearest price at the steepest rates there and on is still a number.
        let steep = [
            Rate::read("USD", "0.000001", "GBP", "2026-10-30").unwrap(),
            Rate::read("USD", "1000000", "EUR", "2026-10-30").unwrap(),
        ];
        let dear = convert(Money::read("1000000", "GBP").unwrap(), Currency::EUR, &steep).unwrap().0;
        assert_eq!(dear.plain(), "1000000000000000000.00");
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert!(matches!(Rate::read("EUR", "0", "GBP", "2026-10-30"), Err(MoneyError::Rate(_))));
        assert!(matches!(Rate::read("EUR", "0.87", "GBP", "30.10.2026"), Err(MoneyError::Date(_))));
        assert!(matches!(Rate::read("EUR", "1", "EUR", "2026-10-30"), Err(MoneyError::SameCurrency(_))));
        assert!(matches!(Rate::read("EUR", "0.87", "QQQ", "2026-10-30"), Err(MoneyError::Currency(_))));
    }
}
