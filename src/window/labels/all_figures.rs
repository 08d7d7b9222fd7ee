//! The view All figures: labels, tooltips and sentences.

use std::fmt::Display;

/// Meaning of a mark, in the key below the table.
pub(crate) const NO_MARK_COMPUTED: &str = "no mark: computed";

/// Meaning of a mark, in the key below the table.
pub(crate) const DOUBTFUL: &str = "doubtful";

/// Meaning of a mark, in the key below the table.
pub(crate) const PARTLY_ASSUMED: &str = "partly assumed";

/// Meaning of a mark, in the key below the table.
pub(crate) const PUBLISHED: &str = "published";

/// A figure that the maker does not publish, in a tooltip.
pub(crate) const NOT_PUBLISHED: &str = "Not published.";

/// Tooltip of a weight in the table.
pub(crate) fn weight_of(label: &dyn Display) -> String {
    format!("Weight of the {label} at the size compared.")
}

/// A published figure, in a tooltip.
pub(crate) fn published(published: &dyn Display) -> String {
    format!("Published: {published}.")
}

/// Entry of a cell's menu.
pub(crate) const COPY_VALUE: &str = "Copy value";

/// Entry of a cell's menu.
pub(crate) const COPY_WITH_UNCERTAINTY: &str = "Copy value with ±";
