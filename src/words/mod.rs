//! Words: facts as sentences, labels and tables with their headings, in the units that the user chose.
//!
//! The only module that writes English for what was found. Not here: arithmetic, places on a page, and the sentences of
//! errors about files, which arise where a file is read. Invariant: nothing reads a fact back out of a sentence.

mod assumptions;
mod bag_space_table;
mod bags;
mod both_ways;
mod build_sheet;
mod build_table;
mod captions;
pub mod check;
mod comparison_table;
mod contact_points;
mod decisions;
mod doubts;
pub mod drawings;
mod fit_table;
mod footnotes;
mod frame_table;
mod labels;
mod left_out;
mod lengths;
mod lists;
mod loaded;
mod loaded_charts;
mod loaded_motions;
mod loaded_side;
mod loaded_table;
mod missing_entry;
mod overview;
mod parts;
mod phrases;
mod picture_words;
mod placing;
mod price_and_climb;
mod price_and_climb_table;
#[cfg(test)]
mod price_and_climb_tests;
mod prices;
mod published_table;
mod rear_view;
mod riding;
mod size_fit;
mod small_table;
mod standards_table;
mod statement;
mod weights;
#[cfg(test)]
mod weights_tests;

pub use assumptions::{assumption_label, no_fit, partly_assumed};
pub use bag_space_table::{bag_space_difference_text, bag_space_table, bag_space_text, bag_space_unit};
pub use bags::{
    BOTTLE_CAUTION, PATTERN_CAUTION, PatternKey, PatternWords, WIDTH_NOTE, along_label, bag_figure_label, bag_figure_meaning,
    bag_note_text, bag_notes_text, bag_part_label, bag_settings_texts, bottle_count_text, bottle_fit_text, bottle_label,
    corner_label, cut_line_text, holder_label, no_bag_text, no_bottle_beside_bag, no_opening_text, no_pattern_text,
};
pub use both_ways::{both_ways_legend, farthest_text};
pub use build_sheet::{build_list, build_small_table};
pub use build_table::{BUILD_NOTE, build_item_text, build_table};
pub use captions::{Caption, captions};
pub use comparison_table::{Cell, Column, Mark, NOT_PUBLISHED, Subject, Table, TableRow, UNKNOWN, comparison_table};
pub use contact_points::{
    inside_leg_range_text, matched_code, matched_text, position_limits_text, repeated_code, repeated_name, repeated_text,
    saddle_code, saddle_text, spacers_text, standover_code, standover_text, stem_text, toe_code, toe_text, upper_headset_code,
    upper_headset_range_text, upper_headset_text,
};
pub use decisions::{decision_texts, measured_text, stated_label, stated_meaning};
pub use doubts::{chance_text, doubt_brief, doubt_text, settling_text, several_wrong_text, slip_text};
pub use fit_table::{
    CHANGE_COLUMNS, ChangeCell, ChangeRow, FRAME_CORNER, FitCell, FitMark, FitRow, FitTable, change_rows,
    contact_points_cautions, contact_points_table, needs_table, parts_cautions, parts_table,
};
pub use footnotes::{Footnote, FootnoteKind, assumed_sentences, figure_remarks, footnotes, sag_brief};
pub use frame_table::{FrameCell, FrameRow, FrameTable, frame_table};
pub use labels::Label;
pub use left_out::{LeftOut, left_out_text};
pub use lists::{FrameLine, needs_list, parts_list};
pub use loaded::{MODEL_IN_BRIEF, MODEL_TEXT, bicycle_text, self_steady_text};
pub use loaded_charts::{
    DIES_OUT, LOADED_TITLE, MOTIONS_TITLE, SPREAD_NOTE, SPREAD_TITLE, loaded_factor, loaded_short_name, motion_title,
    motions_note, speed_axis, speed_unit, spread_across, spread_sentences, spread_up, steady_range_sentence,
};
pub use loaded_side::{CENTRE_OF_MASS, hung_bag_text, loaded_side_sentences, loaded_sides_title};
pub use loaded_table::{
    body_table_label, loaded_difference_text, loaded_label, loaded_meaning, loaded_sentences, loaded_table, loaded_tables,
    loaded_tables_in_one, loaded_text, loading_in_brief, loading_name, luggage_place_label, luggage_text, not_loaded_text,
    rule_of_thumb_label, rules_of_thumb_table,
};
pub use missing_entry::missing_entry_text;
pub use overview::{OVERVIEW_KEY, limit_in_brief, overview_description, overview_table};
pub use parts::{
    answer_text, caution_text, change_sentence, correction_text, extras_text, fit_name, fit_text, limit_text, met_name,
    put_on_text, reason_text, reasons_text, source_text, verdict_in_full, verdict_title,
};
pub use phrases::{
    CAUTION, difference_text, frame_and_size, frames_in_words, in_sentence, more_do_not_fit, more_rows_do_not_fit, overlaid_text,
    plus_minus_alone, published_value, shortest, value_and_assumed, value_text,
};
pub use picture_words::{
    aligned_text, changes_into_text, common_texts, fork_longer_text, no_animation_text, picture_figures, picture_foot_note,
    picture_headline, picture_subline, tyre_text,
};
pub use placing::placing_text;
pub use price_and_climb::{
    PriceAndClimbAnswers, climb_sentence, cost_sentence, gear_sentences, is_in_tables, price_and_climb_answers,
};
pub use price_and_climb_table::{gears_table, price_and_climb_table};
pub use prices::{
    charge_text, missing_from_plot, missing_price_text, not_priced_text, offer_text, per_gram_text, price_title, ring_sentence,
    tax_label,
};
pub use published_table::{PublishedCell, PublishedRow, PublishedTable, published_table};
pub use rear_view::{
    CHOSEN_GEAR_KEY, REAR_TITLE, REAR_VIEW_CAUTION, REAR_VIEW_KEY, RearItem, chosen_gear_text, from_the_middle,
    over_reference_text, rear_chain_text, rear_tyre_text, rear_view_sentences,
};
pub use riding::{
    climb_described, duration_text, label_with_unit, load_text, no_climb_text, no_gears_text, out_of_range_text, shown_unit,
};
pub use size_fit::{
    fit_sentences, size_fit_badge, size_fit_short, size_fit_text, size_rule_text, sizes_followed_text, unlike_text,
};
pub use small_table::{SmallCell, SmallRow, SmallTable, small_table};
pub use standards_table::{standards_list, standards_notes, standards_table};
pub use statement::{CalloutWords, callout_words, short_frame, statement_conditions, statement_headline, statement_small_print};
pub use weights::{
    WeightDifference, estimate_text, frameset_workings, line_name, mass_alone, method_label, no_way_text, note_text,
    offered_text, origin_label, part_heading, per_label, published_weight, row_label, signed_mass_alone, weight_difference,
    weight_steps, weight_text, weight_workings,
};
