//! The view Bags: labels, tooltips and sentences.

use std::fmt::Display;

/// Button.
pub(crate) const COPY_TABLE: &str = "Copy table";

/// Tooltip.
pub(crate) const COPIES_THE_TABLE: &str = "Copies the table to the clipboard as tab-separated text.";

/// Choice.
pub(crate) const BOTTLES: &str = "Bottles";

/// Tooltip.
pub(crate) const SHOWS_OR_HIDES_THE_BOTTLES: &str = "Shows or hides the bottles.";

/// Choice.
pub(crate) const BAG: &str = "Bag";

/// Tooltip.
pub(crate) const SHOWS_OR_HIDES_THE_BAG: &str = "Shows or hides the bag.";

/// Heading.
pub(crate) const PATTERN_TO_PRINT: &str = "Pattern to print";

/// Heading.
pub(crate) const DRAWING: &str = "Drawing";

/// Label.
pub(crate) const ALIGN_BAGS_AT: &str = "Align bags at";

/// Heading.
pub(crate) const NOTES: &str = "Notes";

/// Label.
pub(crate) const CUT_LINE_ABOVE_BOTTOM_BRACKET: &str = "Cut line above bottom bracket";

/// Label.
pub(crate) const CUT_LINE_BELOW_TOP_TUBE: &str = "Cut line below top tube";

/// Label.
pub(crate) const GAP_TO_TUBES: &str = "Gap to tubes";

/// Label.
pub(crate) const CORNER_RADIUS: &str = "Corner radius";

/// Label.
pub(crate) const GUSSET_WIDTH_AT_TOP: &str = "Gusset width at top";

/// Label.
pub(crate) const GUSSET_WIDTH_AT_BOTTOM: &str = "Gusset width at bottom";

/// Label.
pub(crate) const SEAM_ALLOWANCE: &str = "Seam allowance";

/// Label.
pub(crate) const LARGEST_CHAINRING: &str = "Largest chainring";

/// Label.
pub(crate) const TEETH: &str = "teeth";

/// Label.
pub(crate) const NONE: &str = "none";

/// Label.
pub(crate) const PAPER: &str = "Paper";

/// Tooltip of a control that cannot be used now.
pub(crate) const NO_BAG_FITS_THIS_FRAME: &str = "No bag fits this frame. The notes below say why.";

/// Label.
pub(crate) fn bottle(holder_label: &dyn Display) -> String {
    format!("Bottle {holder_label}")
}

/// Label.
pub(crate) fn lower_boss(holder_label: &dyn Display) -> String {
    format!("Lower boss {holder_label}")
}

/// Label.
pub(crate) fn boss_plus_minus(holder_label: &dyn Display) -> String {
    format!("± of the boss {holder_label}")
}

/// Note.
pub(crate) const BOSSES_ARE_NOT_PUBLISHED: &str =
    "Makers do not publish boss heights. A bottle may stand anywhere within the ±. Measure the height and set ± 0.";

/// Label.
pub(crate) fn save_pattern_of(letter: &dyn Display) -> String {
    format!("Save pattern of {letter}…")
}

/// Sentence.
pub(crate) fn size_full_size_as_pdf(name: &dyn Display, size_label: &dyn Display) -> String {
    format!("{name}, size {size_label}: full size, as PDF for printing or as SVG.")
}
