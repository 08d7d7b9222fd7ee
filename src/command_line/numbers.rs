//! Numbers as JSON and CSV have them.

/// Rounded to four decimals, −0 as 0.
pub(super) fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4 + 0.0
}
