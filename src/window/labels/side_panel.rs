//! Refusals of numbers that are typed in a panel at the right of a view.

use std::fmt::Display;

/// Refusal of a number outside its range: `500 is outside 20.0 to 250.0 kg: write one between, such as 70.0 kg`.
pub(crate) fn outside_range(
    text: &dyn Display,
    low: &dyn Display,
    high: &dyn Display,
    unit: &dyn Display,
    now: &dyn Display,
) -> String {
    format!("“{text}” is outside {low} to {high}{unit}: write a number between them, such as {now}{unit}")
}

/// Refusal of what is no number.
pub(crate) fn not_a_number(text: &dyn Display, unit: &dyn Display, now: &dyn Display) -> String {
    format!("“{text}” is not a number: write one, such as {now}{unit}")
}
