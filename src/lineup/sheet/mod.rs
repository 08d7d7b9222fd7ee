//! A sheet: what is shown of a comparison to others, in which shape and with which words of the user's own.
//!
//! Not here: sentences that follow from the findings, and pixels and places on the page.

mod caption_key;
mod moves;
mod settings;

pub(crate) use caption_key::{BAG_SPACE, NO_CLEAR_DIFFERENCE};
pub use moves::{FORK_LONGER_MM, Movement, Moves, RATES, SECONDS};
pub use settings::{Block, EditedCaption, NoSheet, PIXELS_ACROSS, Shape, Sheet, SheetGround, find_sheet};
