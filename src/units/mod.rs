//! Numbers as people read them: decimals that fit the ±, a real minus sign, a thin space before the unit, inches and
//! pounds as a display choice.
//!
//! Invariant: nothing here knows bicycles. Files are always metric (millimetres, degrees, grams); only what is shown
//! is converted.

mod computed_once;
mod day;
mod field;
mod measured;
mod normal_distribution;
mod number;
mod printed_mass;
mod printed_number;
mod printed_price;
mod system;
mod typed;
mod visible;
mod words;

pub use computed_once::ComputedOnce;
pub use day::Day;
pub use measured::{
    Angle, AnyKind, Area, COVERAGE_FACTOR, Common, Kind, Length, Likeliest, Mass, Measured, Ratio, SURE_FROM, Time, Volume,
    expanded,
};
pub use normal_distribution::{probability_below, two_sided};
pub use number::{
    MINUS, NO_BREAK_SPACE, THIN_SPACE, as_typed, decimals_for, fixed, per_cent, plus_minus, signed_plus_minus, with_sign,
};
pub use printed_mass::{PrintedMass, printed_masses, typed_mass};
pub use printed_number::DecimalMark;
#[cfg(feature = "import")]
pub(crate) use printed_number::digits_at;
pub use printed_price::{CurrencyMark, PrintedPrice, printed_prices};
pub use system::{Quantity, System};
pub use typed::{typed_digits, typed_length, typed_number};
pub use visible::{visible, visible_lines};
pub use words::{capitalised, listed, lower_first};
