//! Questions about files: what stands in the way of saving, a line-up open in two windows, work to restore.

use std::path::Path;

use egui::{RichText, Ui};

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
        Saving::Lineup => ("This line-up".to_owned(), "the file of this line-up".to_owned()),
        Saving::Frame(_) => (format!("Frame {what}"), format!("the file of frame {what}")),
    };
    let (title, text) = match obstacle {
        Obstacle::Changed(_) => (
            "The file has changed",
            format!("Another program or window has changed this file. {here} does not include those changes."),
        ),
        Obstacle::Exists(_) => ("Replace this file?", format!("A file with this name exists already. It is not {file_of}.")),
        Obstacle::Gone => ("The file is gone. Save it again?", format!("This was {file_of}. It has been deleted or moved.")),
        Obstacle::NoFolder(_) => {
            ("The folder is gone. Create it again?", "The folder has been deleted or moved, together with the file.".to_owned())
        }
        Obstacle::WriteProtected => ("Replace a write-protected file?", "The file is marked as read-only.".to_owned()),
        Obstacle::DanglingLink(target) => {
            ("Create the file that the link names?", format!("This is a link to {}. That file does not exist.", target.display()))
        }
    };
    heading(ui, title);
    path_ui(ui, path);
    ui.label(text);
    if matches!(obstacle, Obstacle::Changed(_)) {
        ui.add_space(6.0);
        for line in [
            "Keep both: saves this version beside it under a new name.",
            "Read again: shows the version on disk. Undo brings this version back.",
            "Replace: saves this version over the one on disk.",
        ] {
            ui.label(line);
        }
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let first = match obstacle {
            Obstacle::Changed(_) => {
                let first = button(ui, "Keep both", Answer::KeepBoth, out);
                button(ui, "Read again", Answer::ReadAgain, out);
                button(ui, "Replace", Answer::Replace, out);
                first
            }
            Obstacle::Exists(_) | Obstacle::WriteProtected => {
                let first = button(ui, "Save elsewhere…", Answer::SaveElsewhere, out);
                button(ui, "Replace", Answer::Replace, out);
                first
            }
            Obstacle::Gone => {
                let first = button(ui, "Save again", Answer::Replace, out);
                button(ui, "Save elsewhere…", Answer::SaveElsewhere, out);
                first
            }
            Obstacle::NoFolder(_) => {
                let first = button(ui, "Create folder and save", Answer::Replace, out);
                button(ui, "Save elsewhere…", Answer::SaveElsewhere, out);
                first
            }
            Obstacle::DanglingLink(_) => {
                let first = button(ui, "Save elsewhere…", Answer::SaveElsewhere, out);
                button(ui, "Create file", Answer::Replace, out);
                first
            }
        };
        button(ui, "Cancel", Answer::Cancel, out);
        focus_first(ui, &first);
    });
}

/// Asks whether a picture, a pattern or a sheet replaces what is there.
pub(super) fn replace_picture_ui(ui: &mut Ui, path: &Path, occupant: &Occupant, out: &mut Requests) {
    let (title, text, verb) = match occupant {
        Occupant::Protected => ("Replace a write-protected file?", "The file is marked as read-only.".to_owned(), "Replace"),
        Occupant::DanglingLink(target) => (
            "Create the file that the link names?",
            format!("This is a link to {}. That file does not exist.", target.display()),
            "Create file",
        ),
        _ => ("Replace this file?", "The file exists already.".to_owned(), "Replace"),
    };
    heading(ui, title);
    path_ui(ui, path);
    ui.label(text);
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let first = button(ui, "Save elsewhere…", Answer::SaveElsewhere, out);
        button(ui, verb, Answer::Replace, out);
        button(ui, "Cancel", Answer::Cancel, out);
        focus_first(ui, &first);
    });
}

/// Tells that another window has the line-up open.
pub(super) fn open_elsewhere_ui(ui: &mut Ui, path: &Path, out: &mut Requests) {
    heading(ui, "Open a second time?");
    path_ui(ui, path);
    ui.label("This line-up is already open in another window. Saving asks first if the other window has saved its changes.");
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let cancel = button(ui, "Cancel", Answer::Cancel, out);
        button(ui, "Open", Answer::Open, out);
        focus_first(ui, &cancel);
    });
}

/// Offers a line-up that was left unsaved.
pub(super) fn restore_ui(ui: &mut Ui, offer: &Offer, tones: Tones, out: &mut Requests) {
    heading(ui, "Restore unsaved work?");
    let (number, of) = offer.number;
    let frames = frames_in_words(offer.frames);
    let age = offer.age.as_ref().map(|age| format!(", last changed {age}")).unwrap_or_default();
    ui.label(format!("Spandrel closed before “{}” was saved. The line-up has {frames}{age}.", offer.name));
    match &offer.file {
        Some(path) => path_ui(ui, path),
        None => {
            ui.label("It was never saved to a file of its own.");
        }
    }
    if offer.has_changed {
        ui.label("The file has changed since or is gone. Saving asks before it replaces the file.");
    }
    if of > 1 {
        ui.add_space(4.0);
        ui.label(RichText::new(format!("{number} of {of} line-ups with unsaved work")).color(tones.second()));
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let restore = button(ui, "Restore", Answer::Restore, out);
        button(ui, "Discard", Answer::DiscardLeft, out);
        button(ui, "Decide later", Answer::Cancel, out);
        focus_first(ui, &restore);
    });
}
