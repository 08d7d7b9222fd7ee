//! The view Loaded: labels, tooltips and sentences.

use std::fmt::Display;

/// Button.
pub(crate) const COPY_TABLES: &str = "Copy tables";

/// Tooltip of the button that copies the tables.
pub(crate) const COPIES_AS_TABS: &str = "Copies all tables of this view for a spreadsheet.";

/// Heading of the rider's fields.
pub(crate) const RIDER: &str = "Rider";

/// Name of the field of the rider's weight.
pub(crate) const RIDER_WEIGHT: &str = "Rider, dressed to ride";

/// Name of the field of the body height.
pub(crate) const BODY_HEIGHT: &str = "Body height";

/// Name of the choice of the rider’s body proportions.
pub(crate) const BODY_TABLE: &str = "Body proportions";

/// Note below the rider's fields.
pub(crate) const WHERE_THE_RIDER_SITS: &str =
    "Saddle, handlebar and crank come from the Contact points view. The rider’s position is the same on every frame.";

/// Heading of a loading's fields.
pub(crate) fn loading(place: &dyn Display) -> String {
    format!("Luggage {place}")
}

/// Name of the field of a loading's name.
pub(crate) fn name_of_loading(place: &dyn Display) -> String {
    format!("Name of luggage {place}")
}

/// Name of the field of kilograms at a place, for screen readers.
pub(crate) fn at_place(place: &dyn Display, loading: &dyn Display) -> String {
    format!("{place}, luggage {loading}")
}

/// Name of the button that removes a loading.
pub(crate) fn remove_loading(place: &dyn Display) -> String {
    format!("Remove luggage {place}")
}

/// Button.
pub(crate) const ADD_LUGGAGE: &str = "Add luggage";

/// Name that a new loading begins with.
pub(crate) fn new_loading(place: &dyn Display) -> String {
    format!("luggage {place}")
}

/// What is checked, at the beginning of a refusal.
pub(crate) const THE_NAME: &str = "the name";

/// Refusal of a loading without a name.
pub(crate) const NAME_IS_EMPTY: &str = "luggage needs a name: write one, such as camping";

/// Note below the loadings.
pub(crate) const LIMITS_ARE_THE_MAKERS: &str =
    "Keep to the makers’ limits of load and speed for racks, forks, wheels and tyres. Tyre pressure is not calculated here.";

/// Change, as Undo names it.
pub(crate) const BODY_HEIGHT_CHANGE: &str = "body height";

/// Change, as Undo names it.
pub(crate) const BODY_TABLE_CHANGE: &str = "body proportions";

/// Change, as Undo names it.
pub(crate) const RIDER_CHANGE: &str = "rider";

/// Change, as Undo names it.
pub(crate) fn luggage_change(name: &dyn Display) -> String {
    format!("luggage {name}")
}

/// Said while the pictures of a change are on their way.
pub(crate) const COMPUTING: &str = "Computing…";
