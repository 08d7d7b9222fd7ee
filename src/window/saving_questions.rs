//! Questions about files: what stands in the way of saving, a line-up open in two windows, work to restore.

use std::path::Path;

use egui::{RichText, Ui};

use super::labels::questions as labels;
use super::question::{Answer, Offer, Saving};
use super::question_parts::{button, focus_first, heading};
use super::requests::Requests;
use super::theme::Tones;
use crate::disk::{Obstacle, Occupant};
use crate::words::frames_in_words;

/// A file's path, on lines of its own, whole.
fn path_ui(ui: &mut Ui, path: &Path) {
    ui.add_space(2.0);
    ui.add(egui::Label::new(RichText::new(path.display().to_string()).monospace()).wrap().selectable(true));
    ui.add_space(4.0);
}

/// Asks about an obstacle to saving. `what` is saved: the line-up, or a frame by its letter and name.
pub(super) fn save_over_ui(ui: &mut Ui, saving: Saving, what: &str, path: &Path, obstacle: &Obstacle, out: &mut Requests) {
    let (here, file_of) = match saving {
        Saving::Lineup => (labels::THIS_LINE_UP.to_owned(), labels::THE_FILE_OF_THIS_LINE_UP.to_owned()),
        Saving::Frame(_) => (labels::frame(&what), labels::the_file_of_frame(&what)),
    };
    let (title, text) = match obstacle {
        Obstacle::Changed(_) => (labels::THE_FILE_HAS_CHANGED, labels::another_program_or_window(&here)),
        Obstacle::Exists(_) => (labels::REPLACE_THIS_FILE, labels::a_file_with_this_name(&file_of)),
        Obstacle::Gone => (labels::SAVE_THE_MISSING_FILE_AGAIN, labels::this_was_it_has_been(&file_of)),
        Obstacle::NoFolder(_) => (labels::CREATE_THE_MISSING_FOLDER_AGAIN, labels::FOLDER_AND_FILE_ARE_GONE.to_owned()),
        Obstacle::WriteProtected => (labels::REPLACE_A_WRITE_PROTECTED_FILE, labels::FILE_IS_READ_ONLY.to_owned()),
        Obstacle::DanglingLink(target) => (labels::CREATE_THE_FILE_OF_A_LINK, labels::this_is_a_link(&target.display())),
    };
    heading(ui, title);
    path_ui(ui, path);
    ui.label(text);
    if matches!(obstacle, Obstacle::Changed(_)) {
        ui.add_space(6.0);
        for line in [labels::WHAT_KEEP_BOTH_DOES, labels::WHAT_READ_AGAIN_DOES, labels::WHAT_REPLACE_DOES] {
            ui.label(line);
        }
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let first = match obstacle {
            Obstacle::Changed(_) => {
                let first = button(ui, labels::KEEP_BOTH, Answer::KeepBoth, out);
                button(ui, labels::READ_AGAIN, Answer::ReadAgain, out);
                button(ui, labels::REPLACE, Answer::Replace, out);
                first
            }
            Obstacle::Exists(_) | Obstacle::WriteProtected => {
                let first = button(ui, labels::SAVE_ELSEWHERE, Answer::SaveElsewhere, out);
                button(ui, labels::REPLACE, Answer::Replace, out);
                first
            }
            Obstacle::Gone => {
                let first = button(ui, labels::SAVE_AGAIN, Answer::Replace, out);
                button(ui, labels::SAVE_ELSEWHERE, Answer::SaveElsewhere, out);
                first
            }
            Obstacle::NoFolder(_) => {
                let first = button(ui, labels::CREATE_FOLDER_AND_SAVE, Answer::Replace, out);
                button(ui, labels::SAVE_ELSEWHERE, Answer::SaveElsewhere, out);
                first
            }
            Obstacle::DanglingLink(_) => {
                let first = button(ui, labels::SAVE_ELSEWHERE, Answer::SaveElsewhere, out);
                button(ui, labels::CREATE_FILE, Answer::Replace, out);
                first
            }
        };
        button(ui, labels::CANCEL, Answer::Cancel, out);
        focus_first(ui, &first);
    });
}

/// Asks whether a picture, a pattern or a sheet replaces what is there.
pub(super) fn replace_picture_ui(ui: &mut Ui, path: &Path, occupant: &Occupant, out: &mut Requests) {
    let (title, text, verb) = match occupant {
        Occupant::Protected => (labels::REPLACE_A_WRITE_PROTECTED_FILE, labels::FILE_IS_READ_ONLY.to_owned(), labels::REPLACE),
        Occupant::DanglingLink(target) => {
            (labels::CREATE_THE_FILE_OF_A_LINK, labels::this_is_a_link(&target.display()), labels::CREATE_FILE)
        }
        _ => (labels::REPLACE_THIS_FILE, labels::THE_FILE_EXISTS_ALREADY.to_owned(), labels::REPLACE),
    };
    heading(ui, title);
    path_ui(ui, path);
    ui.label(text);
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let first = button(ui, labels::SAVE_ELSEWHERE, Answer::SaveElsewhere, out);
        button(ui, verb, Answer::Replace, out);
        button(ui, labels::CANCEL, Answer::Cancel, out);
        focus_first(ui, &first);
    });
}

/// Tells that another window has the line-up open.
pub(super) fn open_elsewhere_ui(ui: &mut Ui, path: &Path, out: &mut Requests) {
    heading(ui, labels::OPEN_A_SECOND_TIME);
    path_ui(ui, path);
    ui.label(labels::OPEN_IN_ANOTHER_WINDOW);
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let cancel = button(ui, labels::CANCEL, Answer::Cancel, out);
        button(ui, labels::OPEN, Answer::Open, out);
        focus_first(ui, &cancel);
    });
}

/// Offers a line-up that was left unsaved.
pub(super) fn restore_ui(ui: &mut Ui, offer: &Offer, tones: Tones, out: &mut Requests) {
    heading(ui, labels::RESTORE_UNSAVED_WORK);
    let (number, of) = offer.number;
    let frames = frames_in_words(offer.frames);
    let age = offer.age.as_ref().map(|age| labels::last_changed(&age)).unwrap_or_default();
    ui.label(labels::spandrel_closed_before_was_saved(&offer.name, &frames, &age));
    match &offer.file {
        Some(path) => path_ui(ui, path),
        None => {
            ui.label(labels::IT_WAS_NEVER_SAVED);
        }
    }
    if offer.has_changed {
        ui.label(labels::FILE_HAS_CHANGED_OR_IS_GONE);
    }
    if of > 1 {
        ui.add_space(4.0);
        ui.label(RichText::new(labels::of_line_ups_with_unsaved_work(&number, &of)).color(tones.second()));
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let restore = button(ui, labels::RESTORE, Answer::Restore, out);
        button(ui, labels::DISCARD, Answer::DiscardLeft, out);
        button(ui, labels::DECIDE_LATER, Answer::Cancel, out);
        focus_first(ui, &restore);
    });
}
