//! The view Price and climb: labels, tooltips and sentences.

use std::fmt::Display;

/// Button.
pub(crate) const COPY_PRICE_AND_CLIMB: &str = "Copy price and climb";

/// Tooltip of the button that copies the tables.
pub(crate) const COPIES_BOTH_TABLES: &str = "Copies both tables to the clipboard as tab-separated text.";

/// Words before the choices of how weights are converted.
pub(crate) const CONVERTED_WEIGHTS: &str = "Converted weights:";

/// Change, as Undo names it.
pub(crate) const WAY_TO_OTHER_SIZES: &str = "conversion method for all weights";

/// Tooltip of the choice of a factor for converted weights.
pub(crate) const USES_YOUR_OWN_ESTIMATE: &str = "Uses your own estimate: a factor or a change, such as 1.05 or +5 % per size.";

/// Tooltip of the choice of tube lengths for converted weights.
pub(crate) const CONVERTS_BY_TUBE_LENGTHS: &str =
    "Fixed parts keep their weight. Tubes gain weight with their lengths in the two outlines.";

/// Tooltip of the choice of published sizes for converted weights.
pub(crate) const CONVERTS_BETWEEN_PUBLISHED_SIZES: &str = "Draws a straight line between two sizes whose weights are published.";

/// Error.
pub(crate) fn is_not_a_number_write(what: &dyn Display) -> String {
    format!("“{what}” is not a number: write digits, such as 12.5")
}

/// Error.
pub(crate) const TODAYS_DATE_IS_UNKNOWN: &str = "today’s date is unknown: write the day, such as 2026-10-12";

/// Error.
pub(crate) const A_BUILD_NEEDS_A_NAME: &str = "a build needs a name: write one, such as 1 × 12";

/// Heading.
pub(crate) const RIDER_LUGGAGE_AND_OTHER_PARTS: &str = "Rider, luggage and other parts";

/// Name of a field.
pub(crate) const RIDER: &str = "Rider";

/// Change, as Undo names it.
pub(crate) const RIDER_LOWER: &str = "rider";

/// Name of a field.
pub(crate) const LUGGAGE: &str = "Luggage";

/// Change, as Undo names it.
pub(crate) const LUGGAGE_LOWER: &str = "luggage";

/// Name of a field.
pub(crate) const OTHER_PARTS: &str = "Other parts";

/// Change, as Undo names it.
pub(crate) const WEIGHT_OF_OTHER_PARTS: &str = "weight of other parts";

/// Heading.
pub(crate) const CLIMB: &str = "Climb";

/// Name of a field.
pub(crate) const LENGTH: &str = "Length";

/// Change, as Undo names it.
pub(crate) const LENGTH_OF_THE_CLIMB: &str = "length of the climb";

/// Name of a field.
pub(crate) const GRADIENT: &str = "Gradient";

/// Change, as Undo names it.
pub(crate) const GRADIENT_OF_THE_CLIMB: &str = "gradient of the climb";

/// Name of a field.
pub(crate) const POWER: &str = "Power";

/// Change, as Undo names it.
pub(crate) const POWER_ON_THE_CLIMB: &str = "power on the climb";

/// Heading.
pub(crate) const AIR_TYRES_AND_DRIVETRAIN: &str = "Air, tyres and drivetrain";

/// Name of a field.
pub(crate) const DRAG_AREA_CDA: &str = "Drag area CdA";

/// Change, as Undo names it.
pub(crate) const DRAG_AREA: &str = "drag area";

/// Name of a field.
pub(crate) const WHEELS_DRAG_AREA: &str = "Wheels’ drag area";

/// Change, as Undo names it.
pub(crate) const WHEELS_DRAG_AREA_CHANGE: &str = "wheels' drag area";

/// Name of a field.
pub(crate) const ROLLING_RESISTANCE: &str = "Rolling resistance";

/// Change, as Undo names it.
pub(crate) const ROLLING_RESISTANCE_LOWER: &str = "rolling resistance";

/// Name of a field.
pub(crate) const AIR_DENSITY: &str = "Air density";

/// Change, as Undo names it.
pub(crate) const DENSITY_OF_THE_AIR: &str = "density of the air";

/// Name of a field.
pub(crate) const DRIVE_EFFICIENCY: &str = "Drivetrain efficiency";

/// Change, as Undo names it.
pub(crate) const EFFICIENCY_OF_THE_DRIVE: &str = "drivetrain efficiency";

/// Name of a field.
pub(crate) const HEAD_WIND: &str = "Head wind";

/// Change, as Undo names it.
pub(crate) const HEAD_WIND_LOWER: &str = "head wind";

/// Note.
pub(crate) const HOW_A_CLIMB_IS_COMPUTED: &str =
    "Steady riding, by the equation of Martin and others (1998). Drag area and rolling resistance: trade practice, unverified.";

/// Heading.
pub(crate) const PRICES: &str = "Prices";

/// Name of a field.
pub(crate) const CURRENCY_SHOWN: &str = "Currency shown";

/// Hint in an empty field.
pub(crate) const EUR: &str = "EUR";

/// Change, as Undo names it.
pub(crate) const CURRENCY_SHOWN_LOWER: &str = "currency shown";

/// Name of a field.
pub(crate) const PRICES_SHOWN: &str = "Prices shown";

/// Change, as Undo names it.
pub(crate) const TAX_SHOWN: &str = "tax shown";

/// Name of a field.
pub(crate) const YOUR_TAX_RATE_PERCENT: &str = "Your tax rate, %";

/// Hint in an empty field.
pub(crate) const NONE: &str = "none";

/// Change, as Undo names it.
pub(crate) const TAX_RATE: &str = "tax rate";

/// Change, as Undo names it.
pub(crate) const EXCHANGE_RATE: &str = "exchange rate";

/// Change, as Undo names it.
pub(crate) const REMOVING_AN_EXCHANGE_RATE: &str = "removing an exchange rate";

/// Words above the field of a new exchange rate.
pub(crate) const EXCHANGE_RATE_DAY_OPTIONAL_TODAY: &str = "Exchange rate (day optional: today)";

/// Hint in an empty field.
pub(crate) const EXCHANGE_RATE_EXAMPLE: &str = "1 EUR = 0.87 GBP, 2026-10-12";

/// Name of a field.
pub(crate) const NEW_EXCHANGE_RATE: &str = "New exchange rate";

/// Tooltip of the field of a new exchange rate.
pub(crate) const HOW_TO_ENTER_AN_EXCHANGE_RATE: &str =
    "Enter what one unit of a currency buys in another. Without a day, today is used.";

/// Change, as Undo names it.
pub(crate) const ADDING_AN_EXCHANGE_RATE: &str = "adding an exchange rate";

/// Note.
pub(crate) const ENTER_PUBLISHED_PRICES: &str = "Enter published prices in the Frameset view, under “Also published”.";

/// Heading.
pub(crate) const GEARS: &str = "Gears";

/// Name of a field.
pub(crate) const CADENCE_RPM: &str = "Cadence, rpm";

/// Change, as Undo names it.
pub(crate) const CADENCE: &str = "cadence";

/// Change, as Undo names it.
pub(crate) const GEARS_LOWER: &str = "gears";

/// Hint in an empty field.
pub(crate) const NAME: &str = "name";

/// Change, as Undo names it.
pub(crate) const REMOVING_A_BUILD: &str = "removing a build";

/// Name of a field.
pub(crate) const CHAINRINGS: &str = "chainrings";

/// Name of a field.
pub(crate) const SPROCKETS: &str = "sprockets";

/// Button.
pub(crate) const ADD_A_BUILD: &str = "Add a build";

/// Change, as Undo names it.
pub(crate) const ADDING_A_BUILD: &str = "adding a build";

/// Field, in an error.
pub(crate) const THE_NAME: &str = "the name";

/// Name of a field.
pub(crate) fn exchange_rate(place: &dyn Display) -> String {
    format!("Exchange rate {place}")
}

/// Name of the button that removes an item.
pub(crate) fn remove_exchange_rate(place: &dyn Display) -> String {
    format!("Remove exchange rate {place}")
}

/// Name of a field.
pub(crate) fn build_name(number: &dyn Display) -> String {
    format!("Build {number}: name")
}

/// Name of the button that removes an item.
pub(crate) fn remove_build(number: &dyn Display) -> String {
    format!("Remove build {number}")
}

/// Name of a new build.
pub(crate) fn new_build_name(builds: &dyn Display) -> String {
    format!("build {builds}")
}

/// Name of a field.
pub(crate) fn build(build: &dyn Display, what: &dyn Display) -> String {
    format!("Build {build}: {what}")
}
