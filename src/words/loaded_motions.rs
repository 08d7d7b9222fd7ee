//! How the motions of a loaded bicycle grow or die out, in words.

use super::fit_table::{FitCell, open, plain};
use super::loaded_charts::speed_unit;
use crate::loaded::{NamedMotion, Ride, USUAL_SPEED};
use crate::units::{System, THIN_SPACE, expanded, fixed, plus_minus};

/// What a time constant is.
const MEANING: &str =
    "Time constant: the time in which the motion falls to 37\u{a0}% of what it was, or grows to 2.7 times that.";

/// Label of a row: `Weaving at 20 km/h`.
pub(super) fn motion_label(units: System, motion: NamedMotion) -> String {
    let (factor, unit) = speed_unit(units);
    let speed = match units {
        System::Metric => fixed(USUAL_SPEED * factor, 0),
        System::Imperial => fixed(USUAL_SPEED * factor, 1),
    };
    let name = match motion {
        NamedMotion::Weave => "Weaving",
        NamedMotion::Capsize => "Falling into a turn",
    };
    format!("{name} at {speed}{THIN_SPACE}{unit}")
}

/// How a motion goes at the usual speed: `dies out, 0.8 ± 0.1 s`.
pub(super) fn motion_cell(motion: NamedMotion, ride: &Ride) -> FitCell {
    let Some(found) = ride.motion(motion, USUAL_SPEED) else {
        return open("–", "At this speed weaving and falling cannot be told apart.");
    };
    match found.time_constant().filter(|_| found.growth.is_clear()) {
        Some(time) => {
            let way = if found.growth.value < 0.0 { "dies out" } else { "grows" };
            plain(format!("{way}, {}{THIN_SPACE}s", plus_minus(time.value, expanded(time.u))), MEANING)
        }
        None => open("no clear change", MEANING),
    }
}
