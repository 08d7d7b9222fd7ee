//! Prices of a specification's line.

use iso_currency::Currency;

use super::super::fold::words;
use crate::frameset::{Tax, check_amount};
use crate::units::{CurrencyMark, printed_prices};

/// A price found: decimal text, its currency or those that its sign stands for.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct FoundPrice {
    pub(super) amount: String,
    pub(super) currency: CurrencyMark,
}

/// The prices of a text; the error says why none is taken. `unit` is the currency that the label says.
pub(super) fn prices_in(text: &str, unit: Option<&str>) -> Result<Vec<FoundPrice>, String> {
    let said = unit.and_then(|unit| Currency::from_code(&unit.trim().to_ascii_uppercase())).map(CurrencyMark::Is).or_else(|| {
        let sign = unit?;
        printed_prices(&format!("{sign} 1")).first().and_then(|p| p.currency)
    });
    let all = printed_prices(text);
    let mut found: Vec<FoundPrice> =
        all.iter().filter_map(|p| Some(FoundPrice { amount: p.amount.clone(), currency: p.currency? })).collect();
    if found.is_empty() {
        match (all.as_slice(), said) {
            ([only], Some(currency)) => found.push(FoundPrice { amount: only.amount.clone(), currency }),
            ([], _) => return Err("No amount was found.".to_owned()),
            _ => return Err("The price has no currency. Write for example 1299 EUR.".to_owned()),
        }
    }
    found.dedup();
    for (at, price) in found.iter().enumerate() {
        check_amount(&price.amount).map_err(|why| format!("{}.", crate::units::capitalised(&why.to_string())))?;
        if found.iter().skip(at + 1).any(|other| other.currency == price.currency) {
            return Err("Two prices are given in one currency. Neither is used.".to_owned());
        }
    }
    Ok(found)
}

/// Whether tax is in a price, and its rate, as far as the words say so.
pub(super) fn tax_in(text: &str) -> (Option<Tax>, Option<String>) {
    let all = words(text);
    let has = |list: &[&str]| all.iter().any(|w| list.contains(&w.as_str()));
    let names_tax = has(&["vat", "tax", "taxes", "mwst", "ust", "tva", "iva", "btw", "gst", "taxe"]);
    let excluded = has(&[
        "excl",
        "excluding",
        "exc",
        "ex",
        "zzgl",
        "exkl",
        "plus",
        "netto",
        "sin",
        "escl",
        "esclusa",
        "ohne",
        "hors",
        "exclusief",
        "excluida",
        "without",
    ]);
    let included = has(&[
        "incl",
        "inc",
        "including",
        "inkl",
        "inclus",
        "incluido",
        "incluida",
        "inclusa",
        "inclusief",
        "einschliesslich",
        "mit",
        "comprise",
        "with",
        "compresa",
    ]);
    let tax = if has(&["ttc"]) {
        Some(Tax::Included)
    } else if has(&["ht"]) || (names_tax && excluded) {
        Some(Tax::Excluded)
    } else if names_tax && included {
        Some(Tax::Included)
    } else {
        None
    };
    let percent = text.split_once('%').and_then(|(before, _)| {
        let before = before.trim_end();
        let start = before.rfind(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))).map_or(0, |i| i + 1);
        let number = before.get(start..)?.replace(',', ".");
        number.parse::<f64>().ok().filter(|p| (0.0..=50.0).contains(p)).map(|_| number)
    });
    (tax, percent.filter(|_| tax.is_some()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prices_and_their_tax_are_read() {
        let read = |text: &str| prices_in(text, None).map(|all| all.into_iter().map(|p| p.amount).collect::<Vec<_>>());
        assert_eq!(read("1.299,00 € inkl. 19 % MwSt."), Ok(vec!["1299.00".to_owned()]));
        assert_eq!(read("€1,299 / £1,150"), Ok(vec!["1299".to_owned(), "1150".to_owned()]));
        assert!(read("1499 € 1299 €").is_err() && read("1299").is_err() && read("on request").is_err());
        assert_eq!(prices_in("1299", Some("EUR")).unwrap().len(), 1);
        assert_eq!(tax_in("1.299,00 € inkl. 19 % MwSt."), (Some(Tax::Included), Some("19".to_owned())));
        assert_eq!(tax_in("1 250 € TTC"), (Some(Tax::Included), None));
        assert_eq!(tax_in("£1,150 ex VAT"), (Some(Tax::Excluded), None));
        assert_eq!(tax_in("1299 €, 5 % off"), (None, None));
    }
}
