//! What is done to single framesets: new ones, tables taken in, frame files saved and read again.

use std::path::Path;
use std::sync::Arc;

use eframe::Frame;
use egui::Context;

use super::app::Window;
use super::apply::file_name;
use super::edits::Edit;
use super::files::base_name;
use super::moment::Reading;
use super::questions::{Purpose, Question};
use super::reader::ReadPurpose;
use super::requests::Request;
use super::taking::Taking;
use super::views::table_command;
use crate::disk::{self, FileIdentity, FileProblem, Loaded, Opened};
use crate::frameset::{Frameset, write_frameset};
use crate::lineup::letter;

impl Window {
    /// An empty frameset, ready to be typed in.
    pub(super) fn new_frame(&mut self) {
        let mut blank = Frameset::blank();
        "New frame".clone_into(&mut blank.model);
        self.add_frame(blank, None);
        self.requests.push(Request::Command(table_command()));
    }

    /// A frameset taken from a table.
    pub(super) fn take(&mut self, frameset: Frameset, came_from: Option<&str>) {
        let came_from = came_from.and_then(|path| base_name(Path::new(path)));
        self.add_frame(frameset, came_from);
        self.next_table();
    }

    fn add_frame(&mut self, frameset: Frameset, came_from: Option<String>) {
        let place = self.document.lineup().frames.len();
        self.edit(Edit::Add(vec![(frameset, came_from)]));
        self.document.end_gesture();
        self.moment.selected = place;
    }

    /// Shows the next table that waits for its review.
    pub(super) fn next_table(&mut self) {
        if self.moment.question.is_none()
            && let Some(taking) = self.moment.tables.pop_front()
        {
            self.moment.question = Some(Question::Take(Box::new(taking)));
        }
    }

    /// Text pasted where nobody types is a table to look through.
    pub(super) fn take_pasted(&mut self, ctx: &Context) {
        if self.moment.question.is_some() || ctx.text_edit_focused() {
            return;
        }
        let pasted = ctx.input(|i| {
            i.events.iter().find_map(|e| match e {
                egui::Event::Paste(text) if !text.trim().is_empty() => Some(text.clone()),
                _ => None,
            })
        });
        if let Some(text) = pasted {
            self.moment.question = Some(Question::Take(Box::new(Taking::of_text(text))));
        }
    }

    /// Asks where to save the selected frame's file.
    pub(super) fn choose_frame_file(&mut self, ctx: &Context, desktop: Option<&Frame>) {
        if self.document.lineup().frames.get(self.moment.selected).is_none() {
            "Add a frame first.".clone_into(&mut self.moment.status);
            return;
        }
        let suggested = self.frame_file_suggestion();
        self.choose(Purpose::SaveFrame, suggested, ctx, desktop);
    }

    /// The file that the selected frame came from, or one by its name.
    pub(super) fn frame_file_suggestion(&self) -> String {
        let Some(entry) = self.document.lineup().frames.get(self.moment.selected) else { return String::new() };
        match self.document.frame_file(self.moment.selected) {
            Some(file) => file.path.display().to_string(),
            None => format!("{}.frame.ron", file_name(&entry.frameset.name().to_lowercase())),
        }
    }

    /// Saves the selected frame's file.
    pub(super) fn save_frame(&mut self, path: &Path) {
        let place = self.moment.selected;
        let Some(entry) = self.document.lineup().frames.get(place) else { return };
        let written = write_frameset(&entry.frameset).map_err(|e| format!("{}: cannot be written: {e}", path.display()));
        let saved = written.and_then(|text| {
            disk::save(path, text.as_bytes()).map_err(|e| e.to_string())?;
            Ok(FileIdentity::of(path, text.as_bytes()))
        });
        match saved {
            Ok(file) => {
                self.document.tie(place, file);
                self.moment.status = format!("Saved {}.", path.display());
                self.session.remember(path);
                self.outside.watch(path);
            }
            Err(problem) => self.moment.notify(problem),
        }
    }

    /// Begins to read a frame file again.
    pub(super) fn read_again(&mut self, path: &Path) {
        self.moment.reading.get_or_insert_with(Reading::default).queue(vec![path.to_owned()], ReadPurpose::Again);
    }

    /// Puts a frame file that was read again in the place of the frame that came from it.
    pub(super) fn replace_frame(&mut self, path: &Path, opened: Result<Opened, FileProblem>) {
        let full = disk::full_path(path);
        let frames = self.document.lineup().frames.len();
        let place = (0..frames).find(|place| self.document.frame_file(*place).is_some_and(|file| file.path == full));
        match (opened, place) {
            (Ok(Opened { loaded: Loaded::Frameset(frameset), identity }), Some(frame)) => {
                let what = format!("reading {} again", letter(frame));
                self.edit(Edit::Frameset { frame, frameset: Arc::new(*frameset), what, field: None });
                self.document.end_gesture();
                self.document.tie(frame, identity);
            }
            (Ok(_), _) => self.moment.notify(format!("{}: no frame here came from this file", path.display())),
            (Err(problem), _) => self.moment.notify(problem.to_string()),
        }
    }
}
