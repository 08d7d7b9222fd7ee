//! A sheet: what is shown of a comparison to others, in which shape, with which words, and what follows for it from the
//! findings: captions in sentences and footnotes that nobody has to remember.
//!
//! Not here: pixels and places on the page. Invariant: nothing is stated without its ±, and a difference within its ± is
//! never called one.

mod captions;
mod footnotes;
mod frame_table;
mod lists;
mod moves;
mod settings;
mod small_table;

pub use captions::{Caption, captions};
pub use footnotes::{Footnote, FootnoteKind, footnotes, leanings};
pub use frame_table::{FrameCell, FrameRow, FrameTable, frame_table};
pub use lists::{FrameLine, needs_list, parts_list};
pub use moves::{FORK_LONGER_MM, Movement, Moves, RATES, SECONDS};
pub use settings::{Block, EditedCaption, PIXELS_ACROSS, Shape, Sheet, SheetGround, find_sheet};
pub use small_table::{SmallCell, SmallRow, SmallTable, small_table};

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    let words: Vec<&str> = words.collect();
    match words.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}
