//! Why a single value of a file or a field is not accepted.

use super::figure::Figure;
use super::limits::grouped;
use crate::units::{as_typed, fixed};

/// Why a single value is not accepted. Its sentence says what is wrong and what is allowed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ValueError {
    /// A weight, g, that looks like kilograms.
    #[error("{grams} g is too light: it looks like kilograms, so write {}", fixed(grams * 1000.0, 0))]
    LooksLikeKilograms {
        /// The weight as given, g.
        grams: f64,
    },
    /// An amount of money that is not decimal text.
    #[error("amount \"{0}\" is not decimal text: write digits and a point, such as \"648.00\"")]
    Amount(String),
    /// A price of 0.
    #[error("0 is not a valid price: leave the price out if it is unknown")]
    NoPrice,
    /// A currency that is not a code of ISO 4217.
    #[error("currency \"{0}\" is not an ISO 4217 code: three capital letters, such as \"EUR\"")]
    Currency(String),
    /// A text that is not a date of the calendar.
    #[error("\"{0}\" is not a date: write year-month-day, such as \"2026-10-02\"")]
    Date(String),
    /// A value outside its range.
    #[error("{what} of {} {unit} is outside {} to {} {unit}", as_typed(*value), as_typed(*low), as_typed(*high))]
    OutOfRange {
        /// What it is, with its article where it has one.
        what: String,
        /// The value, in `unit`.
        value: f64,
        /// Least accepted value.
        low: f64,
        /// Greatest accepted value.
        high: f64,
        /// Unit of the three.
        unit: &'static str,
    },
    /// A value for a figure that is always computed.
    #[error("{} is always computed: leave it out", .0.about().name)]
    Computed(Figure),
    /// A figure that is infinite or not a number.
    #[error("{} {value} is not a finite number", figure.about().name)]
    NotFinite {
        /// Figure that the value is of.
        figure: Figure,
        /// The value as given.
        value: f64,
    },
    /// A figure outside its range, mm or degrees.
    #[error("{}", figure_out_of_range(*figure, *value, *looks_like))]
    Figure {
        /// Figure that the value is of.
        figure: Figure,
        /// The value as given, mm or degrees.
        value: f64,
        /// The unit or slip that would explain it, and the factor that mends it.
        looks_like: Option<(&'static str, f64)>,
    },
    /// A ± of a measured value that is not above 0, or above 50.
    #[error("plus_minus {0} is not a valid ±: above 0 and at most 50, such as 2")]
    PlusMinus(f64),
    /// A rounding step that is not above 0.
    #[error("a step of {0} is not valid: write the smallest published difference, such as 1 or 0.5")]
    StepNotAboveZero(f64),
    /// A rounding step above 50.
    #[error("a step of {0} is too large: write at most 50, such as 1")]
    StepTooCoarse(f64),
    /// A rounding step of a figure that is never published.
    #[error("{} is never published, so it has no step", .0.about().name)]
    StepOfComputed(Figure),
    /// A rounding step of one figure.
    #[error("step of {}: {why}", figure.about().name)]
    StepOf {
        /// Figure that the value is of.
        figure: Figure,
        /// Why the step is not accepted.
        why: Box<ValueError>,
    },
    /// A text that is too long.
    #[error("{what} has {} characters: at most {} are accepted", grouped(*characters), grouped(*most))]
    TooLong {
        /// What it is, as in "the maker".
        what: String,
        /// Characters that it has.
        characters: usize,
        /// Characters that are accepted.
        most: usize,
    },
}

fn figure_out_of_range(figure: Figure, value: f64, looks_like: Option<(&'static str, f64)>) -> String {
    let about = figure.about();
    let unit = if figure.is_angle() { "°" } else { " mm" };
    let (typed, low, high) = (as_typed(value), as_typed(about.low), as_typed(about.high));
    let mut sentence = format!("{} {typed}{unit} is outside {low} to {high}{unit}", about.name);
    if let Some((other, factor)) = looks_like {
        let right = fixed(value * factor, 1);
        sentence.push_str(&format!(": it looks like {other}, so write {}", right.strip_suffix(".0").unwrap_or(&right)));
    }
    sentence
}
