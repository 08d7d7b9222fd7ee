//! Prices in printed and typed text: `1.299,00 EUR`, `1,195.00 USD`, `£1250`, `1299 €`, `EUR 1299`.

use iso_currency::Currency;

use super::printed_number::printed_numbers;

/// What is written beside an amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CurrencyMark {
    /// A currency.
    Is(Currency),
    /// A sign that several currencies share, the commonest first.
    OneOf(&'static str, &'static [Currency]),
}

/// An amount with its currency in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintedPrice {
    /// Digits and at most one point.
    pub amount: String,
    /// What stands beside it; `None` for a bare number.
    pub currency: Option<CurrencyMark>,
    /// Where it begins, with the mark, bytes.
    pub start: usize,
    /// Where it ends, with the mark, bytes.
    pub end: usize,
}

/// Signs that stand for several currencies.
const DOLLAR: CurrencyMark =
    CurrencyMark::OneOf("$", &[Currency::USD, Currency::CAD, Currency::AUD, Currency::NZD, Currency::SGD]);
const CROWN: CurrencyMark = CurrencyMark::OneOf("kr", &[Currency::SEK, Currency::NOK, Currency::DKK, Currency::ISK]);
const YEN: CurrencyMark = CurrencyMark::OneOf("¥", &[Currency::JPY, Currency::CNY]);

/// Signs and words of currencies (Unicode CLDR, from memory).
const SIGNS: [(&str, CurrencyMark); 22] = [
    ("US$", CurrencyMark::Is(Currency::USD)),
    ("CA$", CurrencyMark::Is(Currency::CAD)),
    ("C$", CurrencyMark::Is(Currency::CAD)),
    ("AU$", CurrencyMark::Is(Currency::AUD)),
    ("A$", CurrencyMark::Is(Currency::AUD)),
    ("NZ$", CurrencyMark::Is(Currency::NZD)),
    ("S$", CurrencyMark::Is(Currency::SGD)),
    ("$", DOLLAR),
    ("euros", CurrencyMark::Is(Currency::EUR)),
    ("Euros", CurrencyMark::Is(Currency::EUR)),
    ("euro", CurrencyMark::Is(Currency::EUR)),
    ("Euro", CurrencyMark::Is(Currency::EUR)),
    ("€", CurrencyMark::Is(Currency::EUR)),
    ("£", CurrencyMark::Is(Currency::GBP)),
    ("zł", CurrencyMark::Is(Currency::PLN)),
    ("Kč", CurrencyMark::Is(Currency::CZK)),
    ("Ft", CurrencyMark::Is(Currency::HUF)),
    ("SFr.", CurrencyMark::Is(Currency::CHF)),
    ("Fr.", CurrencyMark::Is(Currency::CHF)),
    ("kr.", CROWN),
    ("kr", CROWN),
    ("¥", YEN),
];

/// All amounts of a text, in order. A mark before three digits parts thousands, unless the currency has three decimals,
/// when the amount is left out. A mark between two amounts belongs to the one that has none yet.
#[must_use]
pub fn printed_prices(text: &str) -> Vec<PrintedPrice> {
    let mut found: Vec<PrintedPrice> = Vec::new();
    for number in printed_numbers(text) {
        let from = found.last().map_or(0, |p| p.end);
        let before = mark_before(text, from, number.start);
        let dash = dash_after(text, number.end);
        let after = if before.is_none() { mark_after(text, dash) } else { None };
        let currency = before.or(after);
        let has_three = matches!(currency, Some((CurrencyMark::Is(c), _)) if c.exponent() == Some(3));
        let amount = match (&number.with_thousands, &number.with_decimals) {
            (Some(a), Some(b)) if a != b && has_three => continue,
            (Some(amount), _) | (None, Some(amount)) => amount.clone(),
            (None, None) => continue,
        };
        found.push(PrintedPrice {
            amount,
            currency: currency.map(|(mark, _)| mark),
            start: before.map_or(number.start, |(_, at)| at),
            end: after.map_or(dash, |(_, at)| at),
        });
    }
    found
}

/// Behind `,-` and `.–`, which stand for no cents.
fn dash_after(text: &str, at: usize) -> usize {
    let rest = text.get(at..).unwrap_or_default();
    for mark in [",-", ",–", ",—", ".-", ".–", ".—"] {
        if rest.starts_with(mark) {
            return at + mark.len();
        }
    }
    at
}

fn mark_before(text: &str, from: usize, at: usize) -> Option<(CurrencyMark, usize)> {
    let before = text.get(from..at)?.trim_end();
    for (sign, mark) in SIGNS {
        if let Some(rest) = before.strip_suffix(sign)
            && (!sign.starts_with(char::is_alphabetic) || !rest.ends_with(char::is_alphanumeric))
        {
            return Some((mark, from + rest.len()));
        }
    }
    let start = before
        .rfind(|c: char| !c.is_ascii_alphabetic())
        .map_or(0, |i| i + before.get(i..).and_then(|t| t.chars().next()).map_or(1, char::len_utf8));
    Some((code(before.get(start..)?)?, from + start))
}

fn mark_after(text: &str, at: usize) -> Option<(CurrencyMark, usize)> {
    let rest = text.get(at..)?;
    let start = at + (rest.len() - rest.trim_start().len());
    let rest = rest.trim_start();
    for (sign, mark) in SIGNS {
        if let Some(behind) = rest.strip_prefix(sign)
            && (!sign.ends_with(char::is_alphabetic) || !behind.starts_with(char::is_alphanumeric))
        {
            return Some((mark, start + sign.len()));
        }
    }
    let length = rest.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(rest.len());
    Some((code(rest.get(..length)?)?, start + length))
}

/// A code of ISO 4217, in capitals or not.
fn code(word: &str) -> Option<CurrencyMark> {
    (word.len() == 3).then(|| Currency::from_code(&word.to_ascii_uppercase())).flatten().map(CurrencyMark::Is)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prices_are_read_as_pages_print_them() {
        let eur = Some(CurrencyMark::Is(Currency::EUR));
        for (text, amount, currency) in [
            ("1.299,00 EUR", "1299.00", eur),
            ("1,195.00 USD", "1195.00", Some(CurrencyMark::Is(Currency::USD))),
            ("£1250", "1250", Some(CurrencyMark::Is(Currency::GBP))),
            ("1299 €", "1299", eur),
            ("EUR 1299", "1299", eur),
            ("€1,299", "1299", eur),
            ("1.299 €", "1299", eur),
            ("1.299,- €", "1299", eur),
            ("CHF 1'450.00", "1450.00", Some(CurrencyMark::Is(Currency::CHF))),
            ("US$1,395", "1395", Some(CurrencyMark::Is(Currency::USD))),
            ("$1,395", "1395", Some(DOLLAR)),
            ("12 500 kr", "12500", Some(CROWN)),
            ("648.50", "648.50", None),
        ] {
            let found = printed_prices(text);
            assert_eq!(found.len(), 1, "{text}: {found:?}");
            assert_eq!((found[0].amount.as_str(), found[0].currency), (amount, currency), "{text}");
            assert_eq!((found[0].start, found[0].end), (0, text.len()), "{text}");
        }
        // A Kuwaiti dinar has a thousand fils: 1.250 can be either.
        assert_eq!(printed_prices("1.250 KWD"), []);
    }

    #[test]
    fn several_prices_keep_their_own_currencies() {
        let found = printed_prices("1.299 € / £1,150 / US$1,395 (incl. 19 % VAT)");
        let read: Vec<(&str, bool)> = found.iter().map(|p| (p.amount.as_str(), p.currency.is_some())).collect();
        assert_eq!(read, [("1299", true), ("1150", true), ("1395", true), ("19", false)]);
    }
}
