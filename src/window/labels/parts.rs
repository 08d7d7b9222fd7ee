//! The view Parts: labels, tooltips and sentences.

use std::fmt::Display;

/// Button.
pub(crate) const COPY_PARTS: &str = "Copy parts";

/// Tooltip of the button that copies the tables.
pub(crate) const COPIES_THE_TABLES: &str = "Copies the tables to the clipboard as tab-separated text.";

/// Choice.
pub(crate) const REAR_FROM_ABOVE: &str = "Rear from above";

/// Tooltip of the choice Rear from above.
pub(crate) const SHOWS_THE_REAR: &str =
    "Draws the rear of each frame from above, to scale: tyre, hub, sprockets, chainrings and chain.";

/// Choice.
pub(crate) const REFERENCE_BELOW: &str = "Reference below";

/// Tooltip.
pub(crate) const DRAWS_THE_REFERENCE_BELOW: &str =
    "Draws the reference's rear below every other frame's, at the same axle and scale.";

/// Name of a choice.
pub(crate) const CHAINRING: &str = "Chainring";

/// Name of a choice.
pub(crate) const SPROCKET: &str = "Sprocket";

/// Choice.
pub(crate) const NO_GEAR: &str = "no chosen gear";

/// Tooltip.
pub(crate) const DRAWS_ITS_CHAIN: &str =
    "Draws the chain in this gear, too. Rings count from the smallest, sprockets from the largest.";

/// A choice with what is chosen.
pub(crate) fn chosen_ring(ring: Option<u8>) -> String {
    ring.map_or_else(|| CHAINRING.to_owned(), |ring| format!("Ring {ring}"))
}

/// A choice with what is chosen.
pub(crate) fn chosen_sprocket(sprocket: Option<u8>) -> String {
    sprocket.map_or_else(|| SPROCKET.to_owned(), |sprocket| format!("Sprocket {sprocket}"))
}

/// Heading.
pub(crate) const NEEDS: &str = "Needs";

/// Name of a field.
pub(crate) const NEW_NEED: &str = "New need";

/// Heading.
pub(crate) const PARTS_OF_THE_BUILD: &str = "Parts of the build";

/// Menu of what can be added.
pub(crate) const ADD_A_PART: &str = "Add a part…";

/// Name for screen readers.
pub(crate) const KIND_OF_PART_TO_ADD: &str = "Add a part";

/// Note.
pub(crate) const A_NEW_PART_IS_AN_EXAMPLE: &str =
    "A new part starts with an example. Replace it with your own. Hover over a cell of the table for the reason and its source.";

/// Length of the listed fork.
pub(crate) const AXLE_TO_CROWN: &str = "axle-to-crown";

/// Length of the listed fork.
pub(crate) const OFFSET: &str = "offset";

/// Length of the listed fork.
pub(crate) const TRAVEL: &str = "travel";

/// Heading.
pub(crate) const FORK_OF_THE_BUILD: &str = "Fork of the build";

/// Note.
pub(crate) const FRONT_PARTS_NEED_A_FORK: &str =
    "Front parts are checked against each frame's own fork. Add a fork that you own to check against it instead.";

/// Button.
pub(crate) const ADD_A_FORK: &str = "Add a fork";

/// Name of a field of the listed fork.
pub(crate) const FORK_NAME: &str = "Fork: name";

/// Hint in an empty field.
pub(crate) const FORK_NAME_EXAMPLE: &str = "spare fork";

/// Name of a field of the listed fork.
pub(crate) const FORK_SAG_PERCENT_OF_TRAVEL: &str = "Fork: sag, % of travel";

/// Name of a field of the listed fork.
pub(crate) const FORK_STEERER_CROWN_RACE: &str = "Fork: steerer | crown race";

/// Name of a field of the listed fork.
pub(crate) const FORK_HUB: &str = "Fork: hub";

/// Name of a field of the listed fork.
pub(crate) const FORK_BRAKE: &str = "Fork: brake";

/// Hint in an empty field.
pub(crate) const FORK_BRAKE_EXAMPLE: &str = "IS 160-180";

/// Name of a field of the listed fork.
pub(crate) const FORK_WIDEST_TYRE: &str = "Fork: widest tyre";

/// Name of a field of the listed fork.
pub(crate) const FORK_BOSSES: &str = "Fork: bosses";

/// Name of a field of the listed fork.
pub(crate) const FORK_EYELETS: &str = "Fork: eyelets";

/// Hint in an empty field.
pub(crate) const FORK_EYELETS_EXAMPLE: &str = "rack, mudguards";

/// Choice.
pub(crate) const MEASURED_ALONG_THE_STEERING_AXIS: &str = "measured along the steering axis";

/// Tooltip of the choice of how the fork’s length is measured.
pub(crate) const OTHERWISE_MEASURED_DIRECTLY: &str = "Otherwise directly from crown race seat to axle.";

/// Button.
pub(crate) const REMOVE_THE_FORK: &str = "Remove the fork";

/// Error.
pub(crate) fn is_not_a_number_write(what: &dyn Display) -> String {
    format!("“{what}” is not a number: write one such as 420 or 42.5")
}

/// Tooltip of the button that removes a need or a part.
pub(crate) const REMOVES_IT_FROM_THE_LIST: &str = "Removes it from the list.";

/// Name of a field.
pub(crate) fn need(place: &dyn Display) -> String {
    format!("Need {place}")
}

/// Name of the button that removes an item.
pub(crate) fn remove_need(place: &dyn Display) -> String {
    format!("Remove need {place}")
}

/// Tooltip of the field of a need.
pub(crate) fn what_the_frame_must_have(what: &dyn Display) -> String {
    format!("What the frame must have, for example: {what}.")
}

/// Name of a field with its unit.
pub(crate) fn fork(name: &dyn Display, unit: &dyn Display) -> String {
    format!("Fork: {name}, {unit}")
}

/// Name of a field.
pub(crate) fn part(label: &dyn Display, place: &dyn Display) -> String {
    format!("{label} (part {place})")
}

/// Tooltip of the field of a part.
pub(crate) fn as_in(example: &dyn Display) -> String {
    format!("As in: {example}")
}

/// Name of the button that removes an item.
pub(crate) fn remove_part(place: &dyn Display) -> String {
    format!("Remove part {place}")
}

/// Choice.
pub(crate) const TO_BUY: &str = "to buy";

/// Tooltip.
pub(crate) const OTHERWISE_YOU_OWN_IT: &str = "To be bought. Otherwise you own it, and it costs nothing.";

/// Tooltip.
pub(crate) const WEIGHT_OF_A_PART: &str = "Weight, with its ± if you know it: 340 ± 5. Of what is sold in pairs, the pair's.";

/// Tooltip.
pub(crate) const PRICE_OF_A_PART: &str = "Price with tax: 89.00 EUR. It counts where the part is bought.";

/// Heading.
pub(crate) const NEEDED_BESIDES: &str = "Needed besides";

/// Note.
pub(crate) const NEEDED_BESIDES_NOTE: &str = "Parts that a frame needs beside those of the list. Enter their weight and price.";

/// Hint of a field.
pub(crate) const PRICE_HINT: &str = "price";

/// Name of a box to tick.
pub(crate) fn to_buy(what: &str) -> String {
    format!("{what}, to buy")
}

/// Name of a field.
pub(crate) fn weight_of(what: &str, unit: &str) -> String {
    format!("{what}, weight, {unit}")
}

/// Name of a field.
pub(crate) fn price_of(what: &str) -> String {
    format!("{what}, price")
}
