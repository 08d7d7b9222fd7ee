//! An amount of money.

use iso_currency::Currency;
use rust_decimal::{Decimal, RoundingStrategy};

use crate::units::{CurrencyMark, MINUS, THIN_SPACE, printed_prices, with_sign};

/// An amount in a currency; exact until it is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Money {
    /// The amount; negative for a difference.
    pub amount: Decimal,
    /// The currency.
    pub currency: Currency,
}

/// Why text is not money.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MoneyError {
    /// Not a currency.
    #[error("“{0}” is not a currency code of ISO 4217: write three letters such as EUR, GBP or USD")]
    Currency(String),
    /// Not a decimal amount.
    #[error("“{0}” is not an amount: write digits and a point, such as 648.00")]
    Amount(String),
    /// A sign that several currencies share.
    #[error("“{sign}” stands for several currencies: write {}, such as {} 1299", listed_codes(currencies), currencies.first().map_or("USD", |c| c.code()))]
    Sign {
        /// The sign as typed.
        sign: &'static str,
        /// What it can stand for.
        currencies: &'static [Currency],
    },
    /// More digits than money has.
    #[error("an amount of {0} is too large: write at most 1000000, such as 648.00")]
    TooMuch(String),
    /// A rate that cannot be.
    #[error("“{0}” is not an exchange rate: write a number from 0.000001 to 1000000, such as 1.1506")]
    Rate(String),
    /// A percentage that cannot be.
    #[error("“{0}” is not a tax rate: write a percentage from 0 to 50, such as 19")]
    Percent(String),
    /// A fraction typed for a percentage.
    #[error("a tax rate of {0} % looks like a fraction: for {1} % write {1}")]
    Fraction(String, String),
    /// A date that cannot be.
    #[error("“{0}” is not a date: write year-month-day, such as 2026-10-30")]
    Date(String),
    /// A rate's line of another form.
    #[error("“{0}” is not an exchange rate: write 1 EUR = 0.87 GBP, with a day if you like: 2026-10-12")]
    RateLine(String),
    /// Two rates between the same currencies.
    #[error("these currencies have an exchange rate already: {0}")]
    TwoRates(String),
    /// A rate between a currency and itself.
    #[error("an exchange rate needs two different currencies, not {0} twice")]
    SameCurrency(String),
}

/// Reads an ISO 4217 code, in capitals or not.
///
/// # Errors
/// What is not such a code.
pub fn read_currency(text: &str) -> Result<Currency, MoneyError> {
    let code = text.trim().to_ascii_uppercase();
    Currency::from_code(&code).ok_or_else(|| MoneyError::Currency(text.trim().to_owned()))
}

/// Reads an amount as typed, with a point or one comma before the minor unit.
///
/// # Errors
/// What is no decimal number from zero to a million.
pub fn read_amount(text: &str) -> Result<Decimal, MoneyError> {
    let refuse = || MoneyError::Amount(text.trim().to_owned());
    let amount = read_decimal(text).ok_or_else(refuse)?;
    if amount > Decimal::from(1_000_000) { Err(MoneyError::TooMuch(text.trim().to_owned())) } else { Ok(amount) }
}

/// The codes of currencies, as a choice.
fn listed_codes(currencies: &[Currency]) -> String {
    let codes: Vec<&str> = currencies.iter().map(Currency::code).collect();
    match codes.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} or {last}", before.join(", ")),
        _ => codes.concat(),
    }
}

/// Reads a price as pages print it, with its currency where one stands beside it: `1.299,00 EUR`, `£1250`, `1299 €`,
/// `1,195.00`. A mark before three digits parts thousands.
///
/// # Errors
/// What is no single price from zero to a million; a sign that several currencies share, such as $.
///
/// # Examples
/// ```
/// use spandrel::money::typed_price;
/// let (amount, currency) = typed_price("1.299,00 EUR")?;
/// assert_eq!((amount.to_string(), currency.map(|c| c.code())), ("1299.00".to_owned(), Some("EUR")));
/// # Ok::<(), spandrel::money::MoneyError>(())
/// ```
pub fn typed_price(text: &str) -> Result<(Decimal, Option<Currency>), MoneyError> {
    let text = text.trim();
    let refuse = || MoneyError::Amount(text.to_owned());
    let [price] = &printed_prices(text)[..] else { return Err(refuse()) };
    let (before, after) = (text.get(..price.start).unwrap_or_default(), text.get(price.end..).unwrap_or_default());
    // Three letters beside an amount are meant as a currency.
    if let Some(word) =
        [before.trim(), after.trim()].into_iter().find(|w| w.len() == 3 && w.bytes().all(|b| b.is_ascii_alphabetic()))
    {
        return Err(MoneyError::Currency(word.to_owned()));
    }
    if !(before.is_empty() && after.is_empty()) {
        return Err(refuse());
    }
    let currency = match price.currency {
        None => None,
        Some(CurrencyMark::Is(currency)) => Some(currency),
        Some(CurrencyMark::OneOf(sign, currencies)) => return Err(MoneyError::Sign { sign, currencies }),
    };
    Ok((read_amount(&price.amount)?, currency))
}

/// A decimal number without sign: digits with at most one point or comma, spaces dropped.
pub(super) fn read_decimal(text: &str) -> Option<Decimal> {
    let plain: String = text.chars().filter(|c| !c.is_whitespace()).map(|c| if c == ',' { '.' } else { c }).collect();
    let is_plain = plain.bytes().all(|b| b.is_ascii_digit() || b == b'.')
        && plain.bytes().any(|b| b.is_ascii_digit())
        && plain.bytes().filter(|b| *b == b'.').count() <= 1;
    if is_plain && plain.len() <= 20 { plain.parse().ok() } else { None }
}

impl Money {
    /// From the text of a price.
    ///
    /// # Errors
    /// What is no amount or no currency.
    pub fn read(amount: &str, currency: &str) -> Result<Self, MoneyError> {
        Ok(Self { amount: read_amount(amount)?, currency: read_currency(currency)? })
    }

    /// Rounded to the currency's minor unit, exact halves away from zero (half up for what is paid). Currencies without
    /// a minor unit in ISO 4217 (gold, testing) keep two decimals.
    #[must_use]
    pub fn rounded(self) -> Self {
        let amount = self.amount.round_dp_with_strategy(self.decimals(), RoundingStrategy::MidpointAwayFromZero);
        Self { amount, ..self }
    }

    /// Decimals of the minor unit: 2 for the euro, 0 for the yen.
    #[must_use]
    pub fn decimals(self) -> u32 {
        self.currency.exponent().map_or(2, u32::from)
    }

    /// Rounded, without the currency: `648.00`, with a real minus sign.
    #[must_use]
    pub fn digits(self) -> String {
        let decimals = self.decimals() as usize;
        let rounded = self.rounded().amount;
        let sign = if rounded.is_sign_negative() && !rounded.is_zero() { MINUS.to_string() } else { String::new() };
        format!("{sign}{:.decimals$}", rounded.abs())
    }

    /// Rounded, with its currency: `648.00 EUR`.
    #[must_use]
    pub fn text(self) -> String {
        format!("{}{THIN_SPACE}{}", self.digits(), self.currency.code())
    }

    /// Rounded, with its sign, as a difference: `+48.00 EUR`.
    #[must_use]
    pub fn signed_text(self) -> String {
        format!("{}{THIN_SPACE}{}", with_sign(self.digits()), self.currency.code())
    }

    /// Rounded, as decimal text for files: `648.00`, with a hyphen for minus.
    #[must_use]
    pub fn plain(self) -> String {
        self.digits().replace(MINUS, "-")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_go_up_and_decimals_are_exact() {
        // Exact decimals (Council Regulation (EC) No 1103/97, Art. 5: exact half up; half even and binary floats differ).
        for (amount, rounded) in [("0.125", "0.13"), ("0.135", "0.14"), ("2.675", "2.68"), ("1.005", "1.01")] {
            assert_eq!(Money::read(amount, "EUR").unwrap().plain(), rounded);
        }
        let even = |text: &str| text.parse::<Decimal>().unwrap().round_dp_with_strategy(2, RoundingStrategy::MidpointNearestEven);
        assert_eq!((even("0.125").to_string(), even("1.005").to_string()), ("0.12".to_owned(), "1.00".to_owned()));
    }

    #[test]
    fn minor_units_are_those_of_iso_4217() {
        // ISO 4217 via Unicode CLDR.
        for (code, decimals) in [
            ("EUR", 2),
            ("USD", 2),
            ("GBP", 2),
            ("CHF", 2),
            ("SEK", 2),
            ("PLN", 2),
            ("JPY", 0),
            ("KRW", 0),
            ("ISK", 0),
            ("KWD", 3),
            ("TWD", 2),
            ("HUF", 2),
        ] {
            assert_eq!(Money { amount: Decimal::ONE, currency: read_currency(code).unwrap() }.decimals(), decimals, "{code}");
        }
        assert_eq!(Money::read("1234.5", "JPY").unwrap().plain(), "1235");
        assert_eq!(Money::read("1.2345", "KWD").unwrap().plain(), "1.235");
    }

    #[test]
    fn texts() {
        assert_eq!(Money::read("648", "eur").unwrap().text(), "648.00\u{2009}EUR");
        let negative = Money { amount: "-0.004".parse().unwrap(), currency: Currency::EUR };
        assert_eq!(negative.text(), "0.00\u{2009}EUR");
        let negative = Money { amount: "-12.5".parse().unwrap(), currency: Currency::EUR };
        assert_eq!((negative.digits().as_str(), negative.plain().as_str()), ("−12.50", "-12.50"));
    }

    #[test]
    fn prices_are_typed_as_pages_print_them() {
        let read = |text: &str| typed_price(text).map(|(amount, currency)| (amount.to_string(), currency.map(|c| c.code())));
        for (text, amount, code) in [
            ("1.299,00 EUR", "1299.00", Some("EUR")),
            ("1,195.00 usd", "1195.00", Some("USD")),
            ("£1250", "1250", Some("GBP")),
            ("1299 €", "1299", Some("EUR")),
            ("EUR 1299", "1299", Some("EUR")),
            ("1,299", "1299", None),
            ("648.00", "648.00", None),
        ] {
            assert_eq!(read(text), Ok((amount.to_owned(), code)), "{text}");
        }
        assert_eq!(
            read("$1,395").unwrap_err().to_string(),
            "“$” stands for several currencies: write USD, CAD, AUD, NZD or SGD, such as USD 1299"
        );
        assert!(matches!(read("1299 XQX"), Err(MoneyError::Currency(_))));
        for text in ["", "from 1299 €", "1299 € 1199 €", "-5 €", "ten"] {
            assert!(matches!(read(text), Err(MoneyError::Amount(_))), "{text}");
        }
    }

    #[test]
    fn what_is_no_money_is_refused_in_a_sentence() {
        assert_eq!(
            read_currency("EURO").unwrap_err().to_string(),
            "“EURO” is not a currency code of ISO 4217: write three letters such as EUR, GBP or USD"
        );
        assert!(read_currency("XQX").is_err());
        for text in ["", "-5", "1.2.3", "ten", "1e3", "."] {
            assert!(matches!(read_amount(text), Err(MoneyError::Amount(_))), "{text}");
        }
        assert!(matches!(read_amount("12345678"), Err(MoneyError::TooMuch(_))));
        assert_eq!(read_amount("1 140,50").unwrap().to_string(), "1140.50");
    }
}
