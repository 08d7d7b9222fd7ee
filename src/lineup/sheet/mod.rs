//! A sheet: what is shown of a comparison to others, in which shape and with which words of the user's own.
//!
//! Not here: sentences that follow from the findings, and pixels and places on the page.

mod animation;
mod caption_key;
mod settings;
mod statement;

pub use animation::{Animation, FORK_LONGER_MM, Movement, NoAnimation, RATES, SECONDS};
pub(crate) use caption_key::{BAG_SPACE, NO_CLEAR_DIFFERENCE};
pub use settings::{Block, EditedCaption, NoSheet, PIXELS_ACROSS, Shape, Sheet, SheetBackground, find_sheet};
pub use statement::{Statement, StatementSubject};
