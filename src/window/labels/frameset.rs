//! The view Frameset: labels, tooltips and sentences.

use std::fmt::Display;

/// Name of a field.
pub(crate) const MAKER: &str = "Maker";

/// Name of a field.
pub(crate) const MODEL: &str = "Model";

/// Name of a field.
pub(crate) const YEAR: &str = "Year";

/// Name of a field.
pub(crate) const TYRE: &str = "Tyre";

/// Name of a field.
pub(crate) const FRONT_TYRE: &str = "Front tyre";

/// Name of a field.
pub(crate) const ANGLE_STEP_DEGREES: &str = "Angle step, °";

/// Error.
pub(crate) const NUMBER_IS_NOT_VALID: &str = "this is not a valid number: write one such as 1 or 0.5";

/// Error.
pub(crate) const YEAR_IS_NOT_VALID: &str = "this is not a valid year: write one from 1900 to 2199, such as 2026";

/// Error.
pub(crate) const SCALE_STEP_METRIC: &str = "50 g, such as 5";

/// Error.
pub(crate) const SCALE_STEP_IMPERIAL: &str = "0.11 lb, such as 0.01";

/// Error.
pub(crate) fn a_step(what: &dyn Display) -> String {
    format!("a step of {what} in is not accepted: write 0.0004 to 1.968")
}

/// Error.
pub(crate) const A_PRICE_NEEDS_AN_AMOUNT: &str = "a price needs an amount and a currency, such as 648.00 EUR";

/// Error.
pub(crate) const A_SOURCE_CANNOT_BE_EMPTY: &str =
    "a source cannot be empty: write where the figures are from, such as the maker’s page";

/// Choice where nothing is published.
pub(crate) const NOT_PUBLISHED: &str = "not published";

/// Name of a field.
pub(crate) const MATERIAL: &str = "Material";

/// Change, as Undo names it.
pub(crate) const MATERIAL_CHANGE: &str = "material";

/// Choice of a handlebar.
pub(crate) const FLAT: &str = "flat";

/// Choice of a handlebar.
pub(crate) const DROP: &str = "drop";

/// Choice of a handlebar.
pub(crate) const EITHER: &str = "either";

/// Name of a field.
pub(crate) const HANDLEBAR: &str = "Handlebar";

/// Change, as Undo names it.
pub(crate) const HANDLEBAR_CHANGE: &str = "handlebar";

/// Note above what the maker states.
pub(crate) const TICK_WHAT_THE_MAKER_STATES: &str = "Tick only what the maker states. It is then neither assumed nor doubted.";

/// One item of a list of the frameset, in its title and in what Undo names.
pub(crate) const WEIGHT: &str = "weight";

/// One item of a list of the frameset, in its title and in what Undo names.
pub(crate) const PRICE: &str = "price";

/// One item of a list of the frameset, in its title and in what Undo names.
pub(crate) const STANDARD: &str = "standard";

/// One item of a list of the frameset, in its title and in what Undo names.
pub(crate) const SOURCE: &str = "source";

/// What a weight or a price is of.
pub(crate) const FRAME: &str = "frame";

/// What a weight or a price is of.
pub(crate) const FORK: &str = "fork";

/// What a weight or a price is of.
pub(crate) const FRAMESET: &str = "frameset";

/// Button: what a frame lacks.
pub(crate) fn offer(letter: &dyn Display, missing: &dyn Display) -> String {
    format!("{letter}: {missing}")
}

/// Tooltip.
pub(crate) const WHAT_AN_OFFER_DOES: &str = "Goes to its field in the Frameset view.";

/// Tooltip of a cell that is unknown.
pub(crate) fn select_to_enter(missing: &dyn Display) -> String {
    format!("{missing}. Select this cell to go to its field.")
}

/// Choice of a weight's size.
pub(crate) const ALL_SIZES: &str = "all sizes, or not published";

/// Unit of a new weight.
pub(crate) const GRAMS: &str = "grams";

/// Unit of a new weight.
pub(crate) const POUNDS: &str = "pounds";

/// Heading of a list of the frameset.
pub(crate) const WEIGHTS: &str = "Weights";

/// Name of the field of a new item.
pub(crate) const NEW_WEIGHT: &str = "New weight";

/// Change, as Undo names it.
pub(crate) const ADDING_A_WEIGHT: &str = "adding a weight";

/// Name of a field.
pub(crate) const PART: &str = "part";

/// Hint in an empty field.
pub(crate) const SIZE: &str = "size";

/// Name of a field.
pub(crate) const NOTE: &str = "note";

/// Change, as Undo names it.
pub(crate) const REMOVING_A_WEIGHT: &str = "removing a weight";

/// Heading of a list of the frameset.
pub(crate) const PRICES: &str = "Prices";

/// Name of the field of a new item.
pub(crate) const NEW_PRICE: &str = "New price";

/// Hint in the empty field of a new price.
pub(crate) const NEW_PRICE_EXAMPLE: &str = "new price, such as 648.00 EUR, then Enter";

/// Change, as Undo names it.
pub(crate) const ADDING_A_PRICE: &str = "adding a price";

/// Name of a field.
pub(crate) const AMOUNT: &str = "amount";

/// Name of a field.
pub(crate) const CURRENCY: &str = "currency";

/// Choice of a price’s tax.
pub(crate) const INCLUDED: &str = "included";

/// Choice of a price’s tax.
pub(crate) const EXCLUDED: &str = "excluded";

/// Name of a field.
pub(crate) const TAX: &str = "tax";

/// Change, as Undo names it.
pub(crate) const REMOVING_A_PRICE: &str = "removing a price";

/// Name of a field.
pub(crate) const DATE: &str = "date";

/// Heading of a list of the frameset.
pub(crate) const STANDARDS_AS_PUBLISHED: &str = "Standards, as published";

/// Heading of a list of the frameset.
pub(crate) const SOURCES: &str = "Sources";

/// Name of the field of a new item.
pub(crate) const NEW_SOURCE: &str = "New source";

/// Hint in an empty field.
pub(crate) const NEW_SOURCE_THEN_ENTER: &str = "new source, then Enter";

/// Change, as Undo names it.
pub(crate) const ADDING_A_SOURCE: &str = "adding a source";

/// Change, as Undo names it.
pub(crate) const REMOVING_A_SOURCE: &str = "removing a source";

/// Name of a field with its unit.
pub(crate) fn length_step(unit: &dyn Display) -> String {
    format!("Length step, {unit}")
}

/// Title of a closed list: how much of it there is.
pub(crate) fn stated_by_the_maker_of(stated: &dyn Display, conventions: &dyn Display) -> String {
    format!("Stated by the maker: {stated} of {conventions}")
}

/// Number of items in a list.
pub(crate) fn none_of(name: &dyn Display) -> String {
    format!("no {name}s")
}

/// Number of items in a list.
pub(crate) fn several(count: &dyn Display, name: &dyn Display) -> String {
    format!("{count} {name}s")
}

/// Title of a closed list: how much of it there is.
pub(crate) fn also_published(words: &dyn Display) -> String {
    format!("Also published: {words}")
}

/// Hint in the empty field of a new weight.
pub(crate) fn new_weight_in_then_enter(unit_words: &dyn Display) -> String {
    format!("new weight in {unit_words}, then Enter")
}

/// Name of a field with its unit.
pub(crate) fn scale_step_empty_if_claimed(unit: &dyn Display) -> String {
    format!("scale step, {unit} (empty if claimed)")
}

/// Name of the button that removes an item.
pub(crate) fn remove_weight(index: &dyn Display) -> String {
    format!("Remove weight {index}")
}

/// Name of the button that removes an item.
pub(crate) fn remove_price(index: &dyn Display) -> String {
    format!("Remove price {index}")
}

/// Name of the button that removes an item.
pub(crate) fn remove_source(index: &dyn Display) -> String {
    format!("Remove source {index}")
}

/// Words at the head of the table.
pub(crate) const PUBLISHED_BEST_ESTIMATE_BELOW: &str = "published (best estimate below)";

/// Change, as Undo names it.
pub(crate) const RENAMING_A_SIZE: &str = "renaming a size";

/// Entry of a size’s menu.
pub(crate) const ADD_A_SIZE_AFTER_THIS_ONE: &str = "Add a size after this one";

/// Change, as Undo names it.
pub(crate) const ADDING_A_SIZE: &str = "adding a size";

/// Entry of a size’s menu.
pub(crate) const COPY_THIS_SIZE: &str = "Copy this size";

/// Change, as Undo names it.
pub(crate) const COPYING_A_SIZE: &str = "copying a size";

/// Entry of a size’s menu.
pub(crate) const REMOVE_THIS_SIZE: &str = "Remove this size";

/// Change, as Undo names it.
pub(crate) const REMOVING_A_SIZE: &str = "removing a size";

/// What the user decided about a figure, behind its name.
pub(crate) const IGNORED: &str = "ignored";

/// What the user decided about a figure, behind its name.
pub(crate) const USED_ANYWAY: &str = "used anyway";

/// What the user decided about a figure, behind its name.
pub(crate) const MEASURED: &str = "measured";

/// Name of a field.
pub(crate) fn label_of_size(label: &dyn Display) -> String {
    format!("Label of size {label}")
}

/// Name for screen readers.
pub(crate) fn size_menu(label: &dyn Display) -> String {
    format!("Size {label}: add, copy, remove")
}

/// A figure and the size that it is of.
pub(crate) fn figure_of_size(label: &dyn Display, size: &dyn Display) -> String {
    format!("{label}, size {size}")
}

/// Error.
pub(crate) fn scale_step_out_of_range(most: &dyn Display) -> String {
    format!("the scale step must be above 0 and at most {most}")
}

/// Error.
pub(crate) fn is_outside_in_pounds(pounds: &dyn Display) -> String {
    format!("{pounds} lb is outside 0.111 to 33.069 lb: for 2600 g, write 5.73")
}
