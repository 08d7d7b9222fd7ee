//! What Undo and Redo name: labels, tooltips and sentences.

use std::fmt::Display;

/// Change, as Undo names it.
pub(crate) const ON: &str = "on";

/// Change, as Undo names it.
pub(crate) const OFF: &str = "off";

/// Change, as Undo names it.
pub(crate) const REMOVING: &str = "removing";

/// Change, as Undo names it.
pub(crate) const WEIGHT_FACTOR_PER_SIZE: &str = "weight factor per size";

/// Change, as Undo names it.
pub(crate) const FORKS_WITHOUT_SAG: &str = "forks without sag";

/// Change, as Undo names it.
pub(crate) const SAG_OF_SUSPENSION_FORKS: &str = "sag of suspension forks";

/// Change, as Undo names it.
pub(crate) const TYRES_AS_PUBLISHED: &str = "tyres as published";

/// Change, as Undo names it.
pub(crate) const METRIC_UNITS: &str = "metric units";

/// Change, as Undo names it.
pub(crate) const INCHES_AND_POUNDS: &str = "inches and pounds";

/// Change, as Undo names it.
pub(crate) const TITLE_AND_NOTES: &str = "title and notes";

/// Change, as Undo names it.
pub(crate) const CUT_LINE_OF_THE_BAG: &str = "cut line of the bag";

/// Change, as Undo names it.
pub(crate) const BAG: &str = "bag";

/// Change, as Undo names it.
pub(crate) const BOTTLES: &str = "bottles";

/// Change, as Undo names it.
pub(crate) fn adding(name: &dyn Display) -> String {
    format!("adding {name}")
}

/// Change, as Undo names it.
pub(crate) fn adding_frames(more: &dyn Display) -> String {
    format!("adding {more} frames")
}

/// Change, as Undo names it.
pub(crate) fn removing(name: &dyn Display) -> String {
    format!("removing {name}")
}

/// Change, as Undo names it.
pub(crate) fn moving_to(letter: &dyn Display, place_of: &dyn Display) -> String {
    format!("moving {letter} to the place of {place_of}")
}

/// Change, as Undo names it.
pub(crate) fn size_for(label: &dyn Display, letter: &dyn Display) -> String {
    format!("size {label} for {letter}")
}

/// Change, as Undo names it.
pub(crate) fn showing(letter: &dyn Display) -> String {
    format!("showing {letter}")
}

/// Change, as Undo names it.
pub(crate) fn hiding(letter: &dyn Display) -> String {
    format!("hiding {letter}")
}

/// Change, as Undo names it.
pub(crate) fn as_the_reference(letter: &dyn Display) -> String {
    format!("{letter} as the reference")
}

/// Change, as Undo names it.
pub(crate) fn wheels(on: &dyn Display) -> String {
    format!("wheels {on}")
}

/// Change, as Undo names it.
pub(crate) fn all_wheels(on: &dyn Display) -> String {
    format!("all wheels and saddles {on}")
}

/// Change, as Undo names it.
pub(crate) fn line_patterns(on: &dyn Display) -> String {
    format!("line patterns {on}")
}

/// Change, as Undo names it.
pub(crate) fn grid(on: &dyn Display) -> String {
    format!("grid {on}")
}

/// Change, as Undo names it.
pub(crate) fn dimensions(on: &dyn Display) -> String {
    format!("dimensions {on}")
}

/// Change, as Undo names it.
pub(crate) fn against(up: &dyn Display, across: &dyn Display) -> String {
    format!("{up} against {across}")
}

/// Change, as Undo names it.
pub(crate) fn weight_factor_of(letter: &dyn Display) -> String {
    format!("weight factor of {letter}")
}

/// Change, as Undo names it.
pub(crate) fn tyre_on_all_frames(tyre: &dyn Display) -> String {
    format!("tyre {tyre} on all frames")
}

/// Change, as Undo names it.
pub(crate) fn aligned_at_the(align_at: &dyn Display) -> String {
    format!("aligned at the {align_at}")
}

/// Change, as Undo names it.
pub(crate) const REAR_FROM_ABOVE: &str = "rear from above";

/// Change, as Undo names it.
pub(crate) const WEIGHT_OR_PRICE_OF_A_PART: &str = "weight or price of a part";

/// Change, as Undo names it.
pub(crate) const REMOVING_A_PART: &str = "removing a part";

/// Change, as Undo names it.
pub(crate) const FORK_IN_THE_PARTS_LIST: &str = "fork in the parts list";

/// Change, as Undo names it.
pub(crate) const NO_FORK_IN_THE_PARTS_LIST: &str = "no fork in the parts list";

/// Change, as Undo names it.
pub(crate) const REMOVING_A_NEED: &str = "removing a need";

/// Change, as Undo names it.
pub(crate) const ANOTHER_FORK_OR_TYRE: &str = "another fork or tyre";

/// Change, as Undo names it.
pub(crate) const CONTACT_POINTS: &str = "contact points";

/// Change, as Undo names it.
pub(crate) const CLOSEST_SIZES: &str = "closest sizes";

/// Change, as Undo names it.
pub(crate) fn need(need: &dyn Display) -> String {
    format!("need: {need}")
}

/// Change, as Undo names it.
pub(crate) fn of_the_sheet(what: &dyn Display, name: &dyn Display) -> String {
    format!("{what} of the sheet “{name}”")
}

/// Change, as Undo names it.
pub(crate) fn removing_the_sheet(name: &dyn Display) -> String {
    format!("removing the sheet “{name}”")
}

/// Change, as Undo names it.
pub(crate) fn change_of(what: &dyn Display, letter: &dyn Display) -> String {
    format!("{what} of {letter}")
}

/// Change, as Undo names it.
pub(crate) fn change_of_weight(what: &dyn Display, label: &dyn Display, letter: &dyn Display) -> String {
    format!("{what} of the {label} of {letter}")
}

/// Change, as Undo names it.
pub(crate) fn size_by_fit(letter: &dyn Display) -> String {
    format!("size of {letter} by fit")
}

/// Change, as Undo names it.
pub(crate) fn sizes(rule: &dyn Display) -> String {
    format!("sizes {rule}")
}

/// Change, as Undo names it.
pub(crate) const ROWS_OF_THE_OVERVIEW: &str = "rows of the overview";
