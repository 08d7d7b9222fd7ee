//! Numbers as JSON and CSV have them.

use serde::Serialize;

use spandrel::units::Measured;

/// Rounded to four decimals, −0 as 0.
pub(super) fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4 + 0.0
}

/// A value with its u.
#[derive(Serialize)]
pub(super) struct Pair {
    value: f64,
    u: f64,
}

/// A measured value, rounded.
pub(super) fn pair<K>(measured: Measured<K>) -> Pair {
    Pair { value: rounded(measured.value), u: rounded(measured.u) }
}
