//! Standards of parts as data: one table a file, each row with its source, and the reading of what makers print into
//! what it means. What is not understood is said, with the nearest right form, and never taken for something else.
//!
//! Invariant: no rule of what fits what lives here.

mod bosses;
mod bottom_brackets;
mod brakes;
mod cranks;
mod dropouts;
mod front_derailleurs;
mod gaps;
mod headsets;
mod hubs;
mod rims;
mod seat_posts;
mod stay_outside;
mod tyres;
mod weight_limit;
mod wheel_names;

pub use bosses::{Bosses, Eyelets, PostRouting};
pub use bottom_brackets::{SHELLS, Shell, ShellRow, Thread};
pub use brakes::{Mount, MountKind, ROTORS, rotor};
pub use cranks::{CrankSpacing, SPACINGS, SpacingRow, crank_family};
pub use dropouts::{Dropouts, Tension};
pub use front_derailleurs::{Attachment, CLAMPS, FrontDerailleur, Pull};
pub use gaps::{GAPS, GapHoldsFor, GapRow};
pub use headsets::{BORES, Beware, BoreRow, CupKind, End, Headset, HeadsetEnd, STEERERS, ends_of};
pub(super) use hubs::GROOVE_MM;
pub use hubs::{Axle, HUBS, Hub, HubRow, Wheel};
pub use rims::{RIM_WIDTH_SOURCE, Rim, RimWidth, built_width, made_for_mm, rim_width};
pub use seat_posts::{LEAST_INSERTION, POST_DIAMETERS, SeatPost, least_insertion_mm};
pub use stay_outside::StayOutside;
pub use tyres::{TyreClearance, TyreClearances, named_tyre};
pub use weight_limit::{LimitOf, WeightLimit};
pub use wheel_names::{BY_WIDTH, NAMES, NameRow, WidthRow, bead_seat_named, names_of};

use super::source::Source;
use crate::frameset::trade_words::in_english;

/// A diameter in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DiameterRow {
    /// Diameter, mm.
    pub mm: f64,
    /// Where it is met.
    pub met: &'static str,
    /// How that is known.
    pub source: Source,
}

/// A row of a table of diameters.
const fn diameter(mm: f64, met: &'static str) -> DiameterRow {
    DiameterRow { mm, met, source: Source::TradePractice }
}

/// Why a text was not understood: one sentence with what is wrong and the nearest right form.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct NotUnderstood(pub String);

/// What a text means, unless it says what it is not. Trade words of six languages are understood.
///
/// # Errors
/// That, and what `read` finds.
pub(super) fn read_plainly<T>(text: &str, read: impl FnOnce(&str) -> Result<T, NotUnderstood>) -> Result<T, NotUnderstood> {
    match super::reading::negation(text) {
        Some(word) => refused(format!("`{}` says what it is `{word}`: write what it is", text.trim())),
        None => read(&in_english(text).0),
    }
}

/// That a folded text does not say what it lacks.
///
/// # Errors
/// The word, and how it is written: `example`.
fn lacks_nothing(folded: &str, example: &str) -> Result<(), NotUnderstood> {
    match ["no", "without"].into_iter().find(|w| super::reading::says(folded, w)) {
        Some(word) => refused(format!("`{word}` in `{folded}` says what is lacking: write what there is, such as {example}")),
        None => Ok(()),
    }
}

/// A sentence as the error.
pub(super) fn refused<T>(sentence: impl Into<String>) -> Result<T, NotUnderstood> {
    Err(NotUnderstood(sentence.into()))
}
