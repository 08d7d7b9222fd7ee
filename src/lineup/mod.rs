//! The user's document (which frames, sizes, reference, settings) and the findings computed from it, purely.
//!
//! Invariant: findings are a pure function of the document; no pixels, no disk, no clock.

mod carried;
mod document;
mod findings;
mod fit;
mod fit_table;
mod printed;
mod room_findings;
mod room_settings;
mod room_table;
mod sheet;
mod table;
pub mod trust;
mod worth;
mod worth_settings;
mod worth_table;
#[cfg(test)]
mod worth_tests;
mod worth_words;

pub use carried::{CARRIED_KEYWORD, CARRIED_METADATA, CARRIED_NAME, carried};
pub use document::{Axes, Entry, Lineup, OutlineSettings, Settings, StandAt, Tyres, letter, read_lineup, write_lineup};
pub use findings::{Difference, Findings, FrameFindings, weights_of};
pub use fit::{FrameFit, Ghost, PositionFindings, by_unmet_needs, with_matched_sizes};
pub use fit_table::{
    FitCell, FitMark, FitRow, FitTable, change_table, needs_table, parts_cautions, parts_table, position_cautions,
    position_table, verdict_in_full,
};
pub use printed::{PrintedCell, PrintedRow, PrintedTable, plus_minus_alone, printed_table, shortest};
pub use room_findings::{RoomFigure, RoomFindings, RoomUnit};
pub use room_settings::{RoomCorner, RoomSettings};
pub use room_table::{room_difference_text, room_table, room_text, room_unit};
pub use sheet::{
    Block, Caption, EditedCaption, FORK_LONGER_MM, Footnote, FootnoteKind, FrameCell, FrameLine, FrameRow, FrameTable, Movement,
    Moves, PIXELS_ACROSS, RATES, SECONDS, Shape, Sheet, SheetGround, SmallCell, SmallRow, SmallTable, captions, find_sheet,
    footnotes, frame_table, leanings, listed, needs_list, parts_list, small_table,
};
pub use table::{Cell, Column, Mark, NOT_DETERMINED, NOT_STATED, Subject, Table, TableRow, comparison_table};
pub use worth::{Against, Lightest, Timed, Worth};
pub use worth_settings::{Moving, WorthSettings};
pub use worth_table::{gears_table, worth_table};
pub use worth_words::{
    WorthWords, climb_sentence, cost_sentence, disagreement_sentence, gear_sentences, per_gram_text, percent_text, seconds_text,
    worth_words,
};

pub use crate::weight::{PartWeight, Weighing, WeightSettings, Weights};
