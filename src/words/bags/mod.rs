//! Words of frame-bag space, bags, bottles and patterns: labels, notes, and what stands on a printed pattern.

mod labels;
mod notes;
mod pattern;

pub use labels::{along_label, bag_figure_label, bag_figure_meaning, bag_part_label, bottle_label, corner_label, holder_label};
pub use notes::{
    BOTTLE_CAUTION, WIDTH_NOTE, bag_note_text, bag_notes_text, bag_settings_texts, bottle_count_text, bottle_fit_text,
    cut_line_text, no_bag_text, no_bottle_beside_bag, no_opening_text,
};
pub use pattern::{PATTERN_CAUTION, PatternKey, PatternWords, no_pattern_text};
