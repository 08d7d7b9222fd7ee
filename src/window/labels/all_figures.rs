//! The view All figures: labels, tooltips and sentences.

use std::fmt::Display;

/// Label.
pub(crate) const NO_MARK_COMPUTED: &str = "no mark: computed";

/// Label.
pub(crate) const DOUBTFUL: &str = "doubtful";

/// Label.
pub(crate) const PARTLY_ASSUMED: &str = "partly assumed";

/// Label.
pub(crate) const PUBLISHED: &str = "published";

/// Label.
pub(crate) const NOT_PUBLISHED: &str = "Not published.";

/// Sentence.
pub(crate) fn weight_of(label: &dyn Display) -> String {
    format!("Weight of the {label} at the size compared.")
}

/// Label.
pub(crate) fn published(published: &dyn Display) -> String {
    format!("Published: {published}.")
}

/// Entry of a cell's menu.
pub(crate) const COPY_VALUE: &str = "Copy value";

/// Entry of a cell's menu.
pub(crate) const COPY_WITH_UNCERTAINTY: &str = "Copy value with ±";
