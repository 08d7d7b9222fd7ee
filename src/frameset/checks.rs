//! Checks of single published values that are no figures: weights, money, dates. Reading a file and typing in a field
//! are refused by the same sentence.

use super::value_error::ValueError;
use crate::units::Day;

/// A weight in grams, from 50 g to 15 kg.
///
/// # Errors
/// A weight outside the range, or one that looks like kilograms.
pub fn check_grams(grams: f64) -> Result<(), ValueError> {
    if grams.is_finite() && grams > 0.0 && grams < 50.0 {
        return Err(ValueError::LooksLikeKilograms { grams });
    }
    within(grams, 50.0, 15000.0, "a weight", "g")
}

/// Decimal text of an amount of money: digits, at most one point, no sign.
///
/// # Errors
/// A text of another form.
pub fn check_amount(text: &str) -> Result<(), ValueError> {
    let digits = text.bytes().filter(u8::is_ascii_digit).count();
    let points = text.bytes().filter(|b| *b == b'.').count();
    if digits == 0 || digits > 15 || points > 1 || digits + points != text.len() || text.starts_with('.') || text.ends_with('.') {
        return Err(ValueError::Amount(text.to_owned()));
    }
    if text.bytes().all(|b| matches!(b, b'0' | b'.')) {
        return Err(ValueError::NoPrice);
    }
    Ok(())
}

/// Three capital letters, as ISO 4217 codes are.
///
/// # Errors
/// A text of another form.
pub(super) fn check_currency(code: &str) -> Result<(), ValueError> {
    if code.len() == 3 && code.bytes().all(|b| b.is_ascii_uppercase()) {
        return Ok(());
    }
    Err(ValueError::Currency(code.to_owned()))
}

/// A date as `2026-10-02`, one that the calendar has.
///
/// # Errors
/// A text of another form.
pub fn check_date(text: &str) -> Result<(), ValueError> {
    if Day::read(text).is_some() {
        return Ok(());
    }
    Err(ValueError::Date(text.to_owned()))
}

pub(super) fn within(value: f64, low: f64, high: f64, what: &str, unit: &'static str) -> Result<(), ValueError> {
    if value.is_finite() && (low..=high).contains(&value) {
        return Ok(());
    }
    Err(ValueError::OutOfRange { what: what.to_owned(), value, low, high, unit })
}
