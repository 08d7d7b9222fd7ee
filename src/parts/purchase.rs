//! Whether a part is owned or to be bought, and what it weighs and costs. A price includes tax, as shops print it.

use iso_currency::Currency;
use serde::{Deserialize, Deserializer, Serialize};

use super::extra::Extra;
use super::list::PartKind;
use crate::frameset::{Price, Tax, check_amount};
use crate::units::{Quantity, System, typed_mass, typed_number};

/// Whether a part is owned or to be bought, and what it weighs and costs, so far as it is entered.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Purchase {
    /// Whether it is to be bought; else the user owns it and it costs nothing.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub to_buy: bool,
    /// Weight, g, above 0, at most 20 kg; of what is sold in pairs the pair's.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "grams")]
    pub grams: Option<f64>,
    /// ± of the weight, g; where it is not entered, that of claimed weights.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "plus_minus")]
    pub plus_minus: Option<f64>,
    /// Price with tax: an amount and a currency, `89.00 EUR`.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "price")]
    pub price: Option<String>,
}

/// Why a weight or price of a part is not valid.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PurchaseError {
    /// A weight out of its range.
    #[error("a part's weight must be above 0 and at most 20000 g: write grams such as 340")]
    Grams,
    /// A ± out of its range.
    #[error("the ± of a part's weight must be 0 to 5000 g: write grams such as 5")]
    PlusMinus,
    /// A price of another form.
    #[error("“{0}” is not a part's price: write an amount and a currency, such as 89.00 EUR")]
    Price(String),
    /// A thing that no frame asks for.
    #[error("“{0}” is not a part that a frame may need besides: write such as headset, end_caps or rear_axle")]
    Besides(String),
}

impl Purchase {
    /// Whether nothing is entered.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Its price, as money is compared.
    #[must_use]
    pub fn published_price(&self) -> Option<Price> {
        let (amount, currency) = self.price.as_deref()?.split_once(' ')?;
        Some(Price {
            part: crate::frameset::Part::Frameset,
            amount: amount.to_owned(),
            currency: currency.to_owned(),
            tax: Some(Tax::Included),
            tax_percent: None,
            on: None,
        })
    }
}

/// Whether a weight can be a part's, g.
///
/// # Errors
/// A weight out of range.
pub fn check_part_grams(grams: f64) -> Result<f64, PurchaseError> {
    if grams > 0.0 && grams <= 20_000.0 { Ok(grams) } else { Err(PurchaseError::Grams) }
}

/// Whether a ± can be that of a part's weight, g.
///
/// # Errors
/// A ± out of range.
pub fn check_part_plus_minus(grams: f64) -> Result<f64, PurchaseError> {
    if (0.0..=5000.0).contains(&grams) { Ok(grams) } else { Err(PurchaseError::PlusMinus) }
}

/// A weight as it is typed, with its ± where that is known, both g: `340`, `340 ± 5`, `0.34 kg`; nothing where the text is
/// empty. Without a unit it is in that of `units`.
///
/// # Errors
/// What is no weight, or out of range.
pub fn typed_part_weight(text: &str, units: System) -> Result<(Option<f64>, Option<f64>), PurchaseError> {
    if text.trim().is_empty() {
        return Ok((None, None));
    }
    let (weight, plus_minus) = text.split_once('±').map_or((text, None), |(weight, pm)| (weight, Some(pm)));
    let grams = |text: &str| {
        let text = text.trim();
        let bare = || typed_number(text).map(|number| units.from_field(Quantity::Mass, number));
        // A few grams are not read as a printed weight.
        let few = || text.strip_suffix('g').and_then(|few| typed_number(few.trim_end()));
        typed_mass(text).or_else(few).or_else(bare)
    };
    let weight = grams(weight).ok_or(PurchaseError::Grams).and_then(check_part_grams)?;
    let plus_minus =
        plus_minus.map(|pm| grams(pm).ok_or(PurchaseError::PlusMinus).and_then(check_part_plus_minus)).transpose()?;
    Ok((Some(weight), plus_minus))
}

/// A weight as it stands in its field: `340 ± 5`.
#[must_use]
pub fn written_part_weight(purchase: &Purchase, units: System) -> String {
    let in_field = |grams: f64| units.in_field(Quantity::Mass, grams);
    match (purchase.grams.map(in_field), purchase.plus_minus.map(in_field)) {
        (Some(grams), Some(pm)) => format!("{grams} ± {pm}"),
        (Some(grams), None) => grams,
        (None, _) => String::new(),
    }
}

/// A price as it is written: an amount with a point, a space, a code of ISO 4217.
///
/// # Errors
/// Text of another form.
pub fn check_part_price(text: &str) -> Result<String, PurchaseError> {
    let refuse = || PurchaseError::Price(text.trim().to_owned());
    let (amount, currency) = text.trim().split_once(' ').ok_or_else(refuse)?;
    let currency = Currency::from_code(currency.trim()).ok_or_else(refuse)?;
    if check_amount(amount).is_err() {
        return Err(refuse());
    }
    Ok(format!("{amount} {}", currency.code()))
}

fn grams<'de, D: Deserializer<'de>>(d: D) -> Result<Option<f64>, D::Error> {
    Option::<f64>::deserialize(d)?.map(check_part_grams).transpose().map_err(serde::de::Error::custom)
}

fn plus_minus<'de, D: Deserializer<'de>>(d: D) -> Result<Option<f64>, D::Error> {
    Option::<f64>::deserialize(d)?.map(check_part_plus_minus).transpose().map_err(serde::de::Error::custom)
}

fn price<'de, D: Deserializer<'de>>(d: D) -> Result<Option<String>, D::Error> {
    let text = Option::<String>::deserialize(d)?;
    text.map(|text| check_part_price(&text)).transpose().map_err(serde::de::Error::custom)
}

/// Keys of what a frame may need besides the list: extra parts, parts that take another's place, axles.
pub fn besides_keys() -> impl Iterator<Item = &'static str> {
    let parts = PartKind::ALL.into_iter().map(PartKind::key);
    Extra::CODES.iter().copied().chain(parts).chain(AXLE_KEYS)
}

/// Keys of the front and of the rear through axle.
pub const AXLE_KEYS: [&str; 2] = ["front_axle", "rear_axle"];

/// Whether a key names what a frame may need besides.
///
/// # Errors
/// A key that does not.
pub fn check_besides(key: &str) -> Result<(), PurchaseError> {
    if besides_keys().any(|known| known == key) { Ok(()) } else { Err(PurchaseError::Besides(key.to_owned())) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_are_typed_with_their_plus_minus() {
        let read = |text: &str| typed_part_weight(text, System::Metric);
        assert_eq!(read("340"), Ok((Some(340.0), None)));
        assert_eq!(read("0.34 kg ± 5 g"), Ok((Some(340.0), Some(5.0))));
        assert_eq!(read(" "), Ok((None, None)));
        assert_eq!(
            (read("light"), read("0"), read("340 ± x")),
            (Err(PurchaseError::Grams), Err(PurchaseError::Grams), Err(PurchaseError::PlusMinus))
        );
        let pounds = typed_part_weight("1", System::Imperial).unwrap().0.unwrap();
        assert!((pounds - 453.592_37).abs() < 0.05, "{pounds}");
        let purchase = Purchase { grams: Some(340.0), plus_minus: Some(5.0), ..Purchase::default() };
        assert_eq!(read(&written_part_weight(&purchase, System::Metric)), Ok((Some(340.0), Some(5.0))));
    }

    #[test]
    fn a_purchase_is_read_as_it_is_written() {
        let read = |text: &str| ron::from_str::<Purchase>(text);
        let hub = read("(to_buy: true, grams: Some(340), plus_minus: Some(5), price: Some(\"89.00 EUR\"))").unwrap();
        assert_eq!((hub.to_buy, hub.grams, hub.plus_minus), (true, Some(340.0), Some(5.0)));
        assert_eq!(hub.published_price().map(|p| (p.amount, p.currency)), Some(("89.00".to_owned(), "EUR".to_owned())));
        assert_eq!(read(&ron::to_string(&hub).unwrap()), Ok(hub));
        assert!(read("()").unwrap().is_empty());
        for (text, says) in [
            ("(grams: Some(0))", "grams such as 340"),
            ("(grams: Some(30000))", "20000"),
            ("(plus_minus: Some(-1))", "such as 5"),
            ("(price: Some(\"89\"))", "89.00 EUR"),
            ("(price: Some(\"89.00 QQQ\"))", "89.00 EUR"),
            ("(price: Some(\"-5 EUR\"))", "89.00 EUR"),
        ] {
            assert!(read(text).unwrap_err().to_string().contains(says), "{text}");
        }
        assert!(check_besides("end_caps").is_ok() && check_besides("headset").is_ok() && check_besides("rear_axle").is_ok());
        assert!(check_besides("bell").unwrap_err().to_string().contains("rear_axle"));
    }
}
