//! The view Check: labels, tooltips and sentences.

use std::fmt::Display;

/// Name for screen readers.
pub(crate) const FRAME_SHOWN: &str = "Frame shown";

/// Heading of a column.
pub(crate) const PUBLISHED: &str = "published";

/// Heading of a column.
pub(crate) const BEST_ESTIMATE: &str = "best estimate";

/// What the user decided about a figure, behind its name.
pub(crate) const USED_ANYWAY: &str = " (used anyway)";

/// What the user decided about a figure, behind its name.
pub(crate) const USED_ANYWAY_MEASURED: &str = " (used anyway, measured)";

/// What the user decided about a figure, behind its name.
pub(crate) const MEASURED: &str = " (measured)";

/// Name for screen readers.
pub(crate) const NOT_PUBLISHED: &str = "not published";

/// Heading.
pub(crate) const DOUBTFUL_FIGURE: &str = "Doubtful figure";

/// Tooltip of the bars that show where a ± comes from.
pub(crate) const BARS_OF_UNCERTAINTY: &str =
    "Shares of the uncertainty (variance). Hatched: assumed. Plain: rounding of published figures.";

/// Heading of a column.
pub(crate) const WITH_IT: &str = "with it";

/// Heading of a column.
pub(crate) const WITHOUT_IT: &str = "without it";

/// Label of a figure with its unit: `Head angle, °`.
pub(crate) fn figure_in(label: &dyn Display, unit: &dyn Display) -> String {
    format!("{label}, {unit}")
}

/// In place of doubtful figures, where there are none.
pub(crate) const NO_FIGURE_IS_DOUBTFUL: &str = "No published figure of this size is doubtful.";

/// Heading.
pub(crate) const UNKNOWN_FIGURES: &str = "Unknown figures";

/// Name for screen readers.
pub(crate) fn published(printed: &dyn Display) -> String {
    format!("published {printed}")
}

/// Name for screen readers.
pub(crate) fn best_estimate(label: &dyn Display, printed: &dyn Display, adjusted: &dyn Display, meaning: &dyn Display) -> String {
    format!("{label}: {printed}, best estimate {adjusted}, {meaning}")
}

/// Name for screen readers.
pub(crate) fn where_the_plus_minus_comes_from(text: &dyn Display) -> String {
    format!("Where the ± comes from. {text}")
}

/// Heading over what one doubtful figure changes.
pub(crate) fn with_and_without_the_published(label: &dyn Display) -> String {
    format!("With and without the published {label}")
}

/// Heading: a frame at one size.
pub(crate) fn size(letter: &dyn Display, name: &dyn Display, label: &dyn Display) -> String {
    format!("{letter} {name}, size {label}")
}

/// Heading.
pub(crate) const POSSIBLE_ERRORS_IN_THE_TABLE: &str = "Possible errors in the table";

/// In place of a frame drawn both ways, where both are the same.
pub(crate) const NO_FIGURE_CHANGES: &str = "There is no drawing: no published figure changes.";

/// Box to tick: a convention that the maker states.
pub(crate) fn stated_by_the_maker(convention: &dyn Display) -> String {
    format!("Stated by the maker: {convention}")
}
