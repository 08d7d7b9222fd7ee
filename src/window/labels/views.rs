//! Views and their groups: names on tabs and in the menu, and what each shows.

use super::Named;

/// Group.
pub(crate) const COMPARE: Named = Named { label: "Compare", tooltip: "Compares the shown frames." };

/// Group.
pub(crate) const FIT: Named = Named { label: "Fit", tooltip: "Shows what fits each frameset: bags, parts, forks and the rider." };

/// Group.
pub(crate) const COST: Named = Named { label: "Cost", tooltip: "Compares weight and price." };

/// Group.
pub(crate) const DATA: Named = Named { label: "Data", tooltip: "Shows what each maker publishes, and what is doubtful." };

/// View.
pub(crate) const OVERVIEW: Named =
    Named { label: "Overview", tooltip: "Shows side by side what decides: fit, needs, weight, price, geometry, bags." };

/// View.
pub(crate) const OUTLINE: Named = Named { label: "Outline", tooltip: "Shows all frames overlaid, to scale." };

/// View.
pub(crate) const STEERING: Named = Named { label: "Steering", tooltip: "Plots trail against chainstay, or any two figures." };

/// View.
pub(crate) const STACK_AND_REACH: Named =
    Named { label: "Stack and reach", tooltip: "Plots stack against reach, or any two figures." };

/// View.
pub(crate) const ALL_FIGURES: Named =
    Named { label: "All figures", tooltip: "Lists all figures and their differences from the reference." };

/// View.
pub(crate) const BAGS: Named =
    Named { label: "Bags", tooltip: "Shows the space for bags and bottles in the main triangle, and the bag's pattern." };

/// View.
pub(crate) const PARTS: Named = Named { label: "Parts", tooltip: "Shows which parts fit each frameset, and why." };

/// View.
pub(crate) const FORK: Named =
    Named { label: "Fork", tooltip: "Shows how a longer or shorter fork or other tyres change the geometry." };

/// View.
pub(crate) const CONTACT_POINTS: Named = Named {
    label: "Contact points",
    tooltip: "Finds the stem and spacers for the same hand position; checks standover, toe overlap and saddle setback.",
};

/// View.
pub(crate) const LOADED: Named = Named {
    label: "Loaded",
    tooltip: "Shows wheel loads, braking and the speeds at which each bicycle steadies itself, with and without luggage.",
};

/// View.
pub(crate) const WEIGHT: Named = Named { label: "Weight", tooltip: "Shows what each frameset weighs, its ± and the workings." };

/// View.
pub(crate) const PRICE_AND_CLIMB: Named =
    Named { label: "Price and climb", tooltip: "Compares weight, price, time on a climb and gears." };

/// View.
pub(crate) const FRAMESET: Named = Named { label: "Frameset", tooltip: "Shows the selected frameset as a table to edit." };

/// View.
pub(crate) const CHECK: Named =
    Named { label: "Check", tooltip: "Finds doubtful published figures, and shows what each ± consists of." };

/// View.
pub(crate) const PUBLISH: Named =
    Named { label: "Publish", tooltip: "Shows the sheet as it will be published: pictures, animation, web page and PDF." };
