//! The view Bags: labels, tooltips and sentences.

use std::fmt::Display;

/// Button.
pub(crate) const COPY_TABLE: &str = "Copy table";

/// Tooltip of the button that copies the table.
pub(crate) const COPIES_THE_TABLE: &str = "Copies the table to the clipboard as tab-separated text.";

/// Choice.
pub(crate) const BOTTLES: &str = "Bottles";

/// Tooltip of the choice Bottles.
pub(crate) const SHOWS_OR_HIDES_THE_BOTTLES: &str = "Shows or hides the bottles.";

/// Choice.
pub(crate) const BAG: &str = "Bag";

/// Tooltip of the choice Bag.
pub(crate) const SHOWS_OR_HIDES_THE_BAG: &str = "Shows or hides the bag.";

/// Heading.
pub(crate) const PATTERN_TO_PRINT: &str = "Pattern to print";

/// Heading.
pub(crate) const DRAWING: &str = "Drawing";

/// Name of a field.
pub(crate) const ALIGN_BAGS_AT: &str = "Align bags at";

/// Heading.
pub(crate) const NOTES: &str = "Notes";

/// Name of a field.
pub(crate) const CUT_LINE_ABOVE_BOTTOM_BRACKET: &str = "Cut line above bottom bracket";

/// Name of a field.
pub(crate) const CUT_LINE_BELOW_TOP_TUBE: &str = "Cut line below top tube";

/// Name of a field.
pub(crate) const GAP_TO_TUBES: &str = "Gap to tubes";

/// Name of a field.
pub(crate) const CORNER_RADIUS: &str = "Corner radius";

/// Name of a field.
pub(crate) const GUSSET_WIDTH_AT_TOP: &str = "Gusset width at top";

/// Name of a field.
pub(crate) const GUSSET_WIDTH_AT_BOTTOM: &str = "Gusset width at bottom";

/// Name of a field.
pub(crate) const SEAM_ALLOWANCE: &str = "Seam allowance";

/// Name of a field.
pub(crate) const LARGEST_CHAINRING: &str = "Largest chainring";

/// Unit of a chainring’s size.
pub(crate) const TEETH: &str = "teeth";

/// Choice of no bottle.
pub(crate) const NONE: &str = "none";

/// Name of a field.
pub(crate) const PAPER: &str = "Paper";

/// Tooltip of a control that cannot be used now.
pub(crate) const NO_BAG_FITS_THIS_FRAME: &str = "No bag fits this frame. The notes below say why.";

/// Name of a field: the bottle of a holder.
pub(crate) fn bottle(holder_label: &dyn Display) -> String {
    format!("Bottle {holder_label}")
}

/// Name of a field: where a holder’s lower boss is.
pub(crate) fn lower_boss(holder_label: &dyn Display) -> String {
    format!("Lower boss {holder_label}")
}

/// Name of a field: how well a boss’s height is known.
pub(crate) fn boss_plus_minus(holder_label: &dyn Display) -> String {
    format!("± of the boss {holder_label}")
}

/// Note.
pub(crate) const BOSSES_ARE_NOT_PUBLISHED: &str =
    "Makers do not publish boss heights. A bottle may stand anywhere within the ±. Measure the height and set ± 0.";

/// Button that saves the pattern of one frame’s bag.
pub(crate) fn save_pattern_of(letter: &dyn Display) -> String {
    format!("Save pattern of {letter}…")
}

/// Tooltip of the button that saves a pattern: whose it is, and in which files.
pub(crate) fn size_full_size_as_pdf(name: &dyn Display, size_label: &dyn Display) -> String {
    format!("{name}, size {size_label}: full size, as PDF for printing or as SVG.")
}
