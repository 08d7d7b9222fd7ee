//! What a frame lacks and could be entered, in words.

use super::in_sentence;
use crate::frameset::Standard;
use crate::lineup::MissingEntry;

/// `No weight yet: enter one`, `Needs fork offset: enter it`.
#[must_use]
pub fn missing_entry_text(missing: MissingEntry) -> String {
    match missing {
        MissingEntry::Weight => "No weight yet: enter one".to_owned(),
        MissingEntry::Price => "No price yet: enter one".to_owned(),
        MissingEntry::Standard(Standard::WidestTyre) => "No tyre clearance yet: enter one".to_owned(),
        MissingEntry::Standard(_) => "No standards yet: enter one".to_owned(),
        MissingEntry::Figure(figure) => format!("Needs {}: enter it", in_sentence(figure)),
    }
}
