//! Figures in words, alike everywhere: value ± 2u with its unit, what it leans on, what is not determined.

use crate::frameset::Figure;
use crate::geometry::{Assumption, Value};
use crate::lineup::FrameFindings;
use crate::units::{AnyKind, Measured, System, listed};

/// What every picture says about its figures, and about trusting them.
pub const CAUTION: &str = "Each ± is two standard uncertainties of what was printed and assumed. This is arithmetic on published \
                           figures: the maker’s limits and local rules come first, and a competent mechanic should check the \
                           built bicycle.";

/// `445.0 ± 0.6 mm`, or that it is not determined.
#[must_use]
pub fn value_text(units: System, value: &Value) -> String {
    if value.is_missing {
        return "not determined".to_owned();
    }
    units.text(value.figure.quantity(), value.measured())
}

/// The same, followed by the assumptions that make a tenth or more of its u².
#[must_use]
pub fn value_and_leans(units: System, value: &Value) -> String {
    let text = value_text(units, value);
    if value.is_missing || value.leans_on.is_empty() {
        return text;
    }
    format!("{text}, leans on {}", listed(value.leans_on.iter().map(Assumption::label)))
}

/// A difference from the reference: `+12 ± 3 mm`.
#[must_use]
pub fn difference_text(units: System, figure: Figure, difference: Measured<AnyKind>) -> String {
    units.signed_text(figure.quantity(), difference)
}

/// `one frame`, `7 frames`.
#[must_use]
pub fn frames_in_words(count: usize) -> String {
    if count == 1 { "one frame".to_owned() } else { format!("{count} frames") }
}

/// A figure's name inside a sentence: `bottom bracket drop`.
#[must_use]
pub fn in_sentence(figure: Figure) -> String {
    let label = figure.label();
    let mut chars = label.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

/// A frame with its letter and size: `A Marrowby Drift, size L`.
#[must_use]
pub fn frame_and_size(frame: &FrameFindings) -> String {
    format!("{} {}, size {}", frame.letter, frame.name, frame.size_label())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_inside_a_sentence_begins_small() {
        assert_eq!(in_sentence(Figure::BbDrop), "bottom bracket drop");
    }
}
