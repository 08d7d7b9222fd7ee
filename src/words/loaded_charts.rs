//! Titles, axes and sentences of the pictures of the loaded bicycle.

use super::loaded_table::{loaded_label, luggage_text, unit, with_unit};
use crate::loaded::{CriticalSpeeds, LoadedFigure, Loading, NamedMotion};
use crate::units::{System, THIN_SPACE, fixed};

/// A speed in the chosen units, for an axis: its number for 1 m/s, and its unit.
#[must_use]
pub const fn speed_unit(units: System) -> (f64, &'static str) {
    unit(units, LoadedFigure::WeaveSpeed)
}

/// Title of the picture.
pub const LOADED_TITLE: &str = "Speeds at which each bicycle steadies itself, hands off";

/// Title of the charts of luggage that is moved.
pub const SPREAD_TITLE: &str = "Where the luggage hangs";
/// What the lines of those charts are.
pub const SPREAD_NOTE: &str = "Solid lines: the luggage hangs in the rear and the low front panniers. Broken lines: a third of it \
                               is in the frame bag. Bands: ±.";
/// Title of the charts of motions over the speed.
pub const MOTIONS_TITLE: &str = "How motions grow or die out";
/// What lies below zero in those charts.
pub const DIES_OUT: &str = "below this line it dies out by itself";

/// Title of the vertical axis of a motion.
#[must_use]
pub const fn motion_title(motion: NamedMotion) -> &'static str {
    match motion {
        NamedMotion::Weave => "Growth of weaving, 1/s",
        NamedMotion::Capsize => "Growth of falling into a turn, 1/s",
    }
}

/// What the lines of the charts of motions are.
#[must_use]
pub fn motions_note(loading: Option<&str>) -> String {
    match loading {
        Some(loading) => format!(
            "Solid lines: no luggage. Broken lines: {loading}. Bands: ±. The third motion, the front wheel’s \
                                  castering, dies out quickly."
        ),
        None => "Bands: ±. The third motion, the front wheel’s castering, dies out quickly.".to_owned(),
    }
}

/// Factor by which a figure of the loaded bicycle is shown.
#[must_use]
pub const fn loaded_factor(units: System, figure: LoadedFigure) -> f64 {
    unit(units, figure).0
}

/// Title of the vertical axis of a chart of luggage that is moved: `Steadies itself from, km/h`.
#[must_use]
pub fn spread_up(units: System, figure: LoadedFigure) -> String {
    format!("{}, {}", loaded_label(figure), unit(units, figure).1)
}

/// Title of the axis of speed: `Speed, km/h`.
#[must_use]
pub fn speed_axis(units: System) -> String {
    format!("Speed, {}", speed_unit(units).1)
}

/// Title of the axis of luggage in front: `Share of 15 kg in front, %`.
#[must_use]
pub fn spread_across(units: System, kg: f64) -> String {
    format!("Share of {} in front, %", luggage_text(units, kg))
}

/// What a line of a chart of luggage says: its ends, in the units shown.
#[must_use]
pub fn spread_sentences(
    units: System,
    figure: LoadedFigure,
    letter: &str,
    (behind, in_front): (f64, f64),
    is_in_frame: bool,
) -> String {
    let number = |v: f64| match figure {
        LoadedFigure::PitchOver => fixed(v, 2),
        _ => fixed(v, 1),
    };
    let value = |v: f64| if v.is_finite() { with_unit(units, figure, &number(v)) } else { "none".to_owned() };
    let (load, rest) = if is_in_frame {
        ("a third of the luggage in the frame bag and the rest", "the rest")
    } else {
        ("all luggage", "all of it")
    };
    let what = loaded_label(figure).to_lowercase();
    format!("{letter} with {load} behind, {what}: {}; with {rest} in front: {}.", value(behind), value(in_front))
}

/// A frame's letter with its loading, short: `A`, `A, rear panniers`.
#[must_use]
pub fn loaded_short_name(letter: &str, loading: Option<&Loading>) -> String {
    loading.map_or_else(|| letter.to_owned(), |l| format!("{letter}, {}", l.name))
}

/// In which speeds a bicycle steadies itself: `A, rear panniers: 21.8 to 34.2 km/h.`
#[must_use]
pub fn steady_range_sentence(units: System, name: &str, speeds: &CriticalSpeeds) -> String {
    let (factor, unit) = speed_unit(units);
    let range = |(from, to): &(f64, f64)| {
        if to.is_finite() {
            format!("{} to {}{THIN_SPACE}{unit}", fixed(from * factor, 1), fixed(to * factor, 1))
        } else {
            format!("from {}{THIN_SPACE}{unit}", fixed(from * factor, 1))
        }
    };
    let ranges: Vec<String> = speeds.self_steady.iter().map(range).collect();
    if ranges.is_empty() { format!("{name}: at no speed.") } else { format!("{name}: {}.", ranges.join(", ")) }
}
