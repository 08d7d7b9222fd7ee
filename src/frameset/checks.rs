//! Checks of single published values that are no figures: weights, money, dates. Reading a file and typing in a field
//! are refused by the same sentence.

use crate::units::{Day, as_typed, fixed};

/// A weight in grams, from 50 g to 15 kg.
///
/// # Errors
/// A sentence with the range, or with the grams that kilograms were meant to be.
pub fn check_grams(grams: f64) -> Result<(), String> {
    if grams.is_finite() && grams > 0.0 && grams < 50.0 {
        let right = fixed(grams * 1000.0, 0);
        return Err(format!("{grams} g is too light: it looks like kilograms, so write {right}"));
    }
    within(grams, 50.0, 15000.0, "a weight", "g")
}

/// Decimal text of an amount of money: digits, at most one point, no sign.
///
/// # Errors
/// A sentence with the right form.
pub fn check_amount(text: &str) -> Result<(), String> {
    let digits = text.bytes().filter(u8::is_ascii_digit).count();
    let points = text.bytes().filter(|b| *b == b'.').count();
    if digits == 0 || digits > 15 || points > 1 || digits + points != text.len() || text.starts_with('.') || text.ends_with('.') {
        return Err(format!("amount \"{text}\" is not decimal text: write digits and a point, such as \"648.00\""));
    }
    if text.bytes().all(|b| matches!(b, b'0' | b'.')) {
        return Err("0 is not a valid price: leave the price out if it is unknown".to_owned());
    }
    Ok(())
}

/// Three capital letters, as ISO 4217 codes are.
///
/// # Errors
/// A sentence with the right form.
pub(super) fn check_currency(code: &str) -> Result<(), String> {
    if code.len() == 3 && code.bytes().all(|b| b.is_ascii_uppercase()) {
        return Ok(());
    }
    Err(format!("currency \"{code}\" is not an ISO 4217 code: three capital letters, such as \"EUR\""))
}

/// A date as `2026-10-02`, one that the calendar has.
///
/// # Errors
/// A sentence with the right form.
pub fn check_date(text: &str) -> Result<(), String> {
    if Day::read(text).is_some() {
        return Ok(());
    }
    Err(format!("\"{text}\" is not a date: write year-month-day, such as \"2026-10-02\""))
}

pub(super) fn within(value: f64, low: f64, high: f64, what: &str, unit: &str) -> Result<(), String> {
    if value.is_finite() && (low..=high).contains(&value) {
        return Ok(());
    }
    Err(format!("{what} of {} {unit} is outside {} to {} {unit}", as_typed(value), as_typed(low), as_typed(high)))
}
