//! How prices are brought together: the currency shown, with tax or without, and the user's rates.

use iso_currency::Currency;
use rust_decimal::Decimal;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

use super::amount::{MoneyError, read_decimal};
use super::rate::{Rate, read_code};
use crate::frameset::Tax;

/// How prices are brought together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct MoneySettings {
    /// The currency shown.
    #[serde(serialize_with = "write_currency", deserialize_with = "read_code")]
    pub currency: Currency,
    /// Whether prices are shown with tax or without.
    pub tax: Tax,
    /// The user's tax rate, percent; `None` until it is typed.
    #[serde(serialize_with = "write_percent", deserialize_with = "read_optional_percent")]
    pub tax_percent: Option<Decimal>,
    /// Rates of exchange, each with its day; one for a pair of currencies.
    #[serde(deserialize_with = "read_rates")]
    pub rates: Vec<Rate>,
}

impl Default for MoneySettings {
    fn default() -> Self {
        Self { currency: Currency::EUR, tax: Tax::Included, tax_percent: None, rates: Vec::new() }
    }
}

/// Reads a tax rate as typed: `19`, `19 %`, `7,5`; empty is none.
///
/// # Errors
/// What is no percentage from 0 to 50, and a fraction such as 0.19, which is asked about.
pub fn read_percent(text: &str) -> Result<Option<Decimal>, MoneyError> {
    let plain = text.trim().trim_end_matches('%').trim();
    if plain.is_empty() {
        return Ok(None);
    }
    let percent = read_decimal(plain).ok_or_else(|| MoneyError::Percent(text.trim().to_owned()))?;
    if percent > Decimal::from(50) {
        return Err(MoneyError::Percent(text.trim().to_owned()));
    }
    if percent > Decimal::ZERO && percent < Decimal::ONE {
        let meant = (percent * Decimal::ONE_HUNDRED).normalize();
        return Err(MoneyError::Fraction(percent.to_string(), meant.to_string()));
    }
    Ok(Some(percent))
}

/// Whether a rate can stand beside those before it.
///
/// # Errors
/// A currency paired with itself, or a pair that has a rate already.
pub fn check_rate(before: &[Rate], rate: &Rate) -> Result<(), MoneyError> {
    if rate.one == rate.of {
        return Err(MoneyError::SameCurrency(rate.one.code().to_owned()));
    }
    let is_same = |r: &&Rate| (r.one, r.of) == (rate.one, rate.of) || (r.of, r.one) == (rate.one, rate.of);
    match before.iter().find(is_same) {
        Some(other) => Err(MoneyError::TwoRates(other.text())),
        None => Ok(()),
    }
}

fn read_rates<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Rate>, D::Error> {
    crate::frameset::checked_list(
        deserializer,
        "a list of rates in brackets, `[(one: \"EUR\", is: \"0.87\", of: \"GBP\", on: \"2026-10-12\")]`",
        |before, rate: &Rate| check_rate(before, rate).map_err(|e| ("one", e.to_string())),
    )
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde's signature")]
fn write_currency<S: Serializer>(currency: &Currency, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(currency.code())
}

#[expect(clippy::ref_option, reason = "serde's signature")]
fn write_percent<S: Serializer>(percent: &Option<Decimal>, serializer: S) -> Result<S::Ok, S::Error> {
    percent.map(|p| p.to_string()).serialize(serializer)
}

fn read_optional_percent<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<Decimal>, D::Error> {
    match Option::<String>::deserialize(deserializer)? {
        Some(text) => read_percent(&text).map_err(D::Error::custom),
        None => Ok(None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percentages_as_typed() {
        let read = |text| read_percent(text).unwrap().map(|p| p.to_string());
        assert_eq!(read("19"), Some("19".to_owned()));
        assert_eq!(read(" 7,5 % "), Some("7.5".to_owned()));
        assert_eq!(read("0"), Some("0".to_owned()));
        assert_eq!(read(""), None);
        let asked = read_percent("0.19").unwrap_err().to_string();
        assert_eq!(asked, "a tax rate of 0.19 % looks like a fraction: for 19 % write 19");
        for text in ["-3", "119", "nineteen"] {
            assert!(matches!(read_percent(text), Err(MoneyError::Percent(_))), "{text}");
        }
    }
}
