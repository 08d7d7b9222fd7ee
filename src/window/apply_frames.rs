//! What is done to single framesets: new ones, tables taken in, frame files chosen.

use std::path::Path;
use std::sync::Arc;

use eframe::Frame;
use egui::Context;

use super::app::{Chooser, Window};
use super::commands::Command;
use super::edits::Edit;
use super::file_names::base_name;
use super::file_names::{file_name, pasted_files};
use super::import_review::{ImportReview, SelectedFrame};
use super::labels::notices as labels;
use super::moment::Awaited;
use super::question::{Purpose, Question};
use super::requests::Request;
use super::view_id::ViewId;
use crate::frameset::{FrameIndex, Frameset};
use crate::lineup::{FrameKey, letter};

impl Window {
    /// An empty frameset, ready to be typed in.
    pub(super) fn new_frame(&mut self) {
        let mut blank = Frameset::blank();
        labels::NEW_FRAME.clone_into(&mut blank.model);
        self.add_frame(blank, None);
        self.moment.awaited = Some(Awaited::Maker);
        self.requests.push(Request::Command(Command::Show(ViewId::Frameset)));
    }

    /// A frameset taken from a table.
    pub(super) fn import(&mut self, frameset: Frameset, came_from: Option<&str>) {
        let came_from = came_from.and_then(|path| base_name(Path::new(path)));
        self.add_frame(frameset, came_from);
        self.next_table();
    }

    fn add_frame(&mut self, frameset: Frameset, came_from: Option<String>) {
        let place = FrameIndex(self.document.lineup().frames.len());
        self.edit(Edit::Add(vec![(frameset, came_from)]));
        self.document.end_gesture();
        self.moment.selected = place;
    }

    /// Shows the next table that waits for its review.
    pub(super) fn next_table(&mut self) {
        if self.moment.question.is_none()
            && let Some(review) = self.moment.tables.pop_front()
        {
            self.moment.question = Some(Question::Import(Box::new(review)));
        }
    }

    /// Opens the review on what the clipboard holds; on an empty field where it holds no text.
    pub(super) fn paste_table(&mut self) {
        let text = match self.chooser {
            Chooser::Desktop => self.clipboard.text(),
            Chooser::Typed => None,
        };
        self.review_pasted(text.unwrap_or_default());
    }

    /// Opens the review on a pasted text.
    fn review_pasted(&mut self, text: String) {
        let review = if text.trim().is_empty() {
            ImportReview::default()
        } else {
            ImportReview::of_copied(text, self.clipboard.page().as_deref())
        };
        let onto = self.selected_frame();
        self.moment.question = Some(Question::Import(Box::new(ImportReview { onto, ..review })));
    }

    /// The selected frame, as a review can add to it.
    fn selected_frame(&self) -> Option<SelectedFrame> {
        let place = self.moment.selected;
        let frameset = place.of(&self.document.lineup().frames)?.frameset.clone();
        let name = format!("{} {}", letter(place), frameset.name());
        Some(SelectedFrame { key: self.document.key_at(place)?, name, frameset })
    }

    /// A frame whose specification was added.
    pub(super) fn add_specification(&mut self, key: FrameKey, frameset: Frameset) {
        if let Some(frame) = self.document.place_of(key) {
            let what = labels::adding_the_specification(&letter(frame));
            self.edit(Edit::Frameset { frame, frameset: Arc::new(frameset), what, field: None });
        }
        self.next_table();
    }

    /// Text pasted where nobody types is a table to look through, or the paths of files to open.
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
        let Some(text) = pasted else { return };
        match pasted_files(&text) {
            Some(paths) => self.requests.push(Request::Open(paths)),
            None => self.review_pasted(text),
        }
    }

    /// Asks where to save the selected frame's file.
    pub(super) fn choose_frame_file(&mut self, ctx: &Context, desktop: Option<&Frame>) {
        let Some(key) = self.document.key_at(self.moment.selected) else {
            labels::ADD_A_FRAME_FIRST.clone_into(&mut self.moment.status);
            return;
        };
        let suggested = self.frame_file_suggestion(key);
        self.choose(Purpose::SaveFrame(key), suggested, ctx, desktop);
    }

    /// The file that the frame came from, or one by its name.
    pub(super) fn frame_file_suggestion(&self, key: FrameKey) -> String {
        let Some(place) = self.document.place_of(key) else { return String::new() };
        let Some(entry) = place.of(&self.document.lineup().frames) else { return String::new() };
        match self.document.frame_file(place) {
            Some(file) => file.path.display().to_string(),
            None => format!("{}.frame.ron", file_name(&entry.frameset.name().to_lowercase())),
        }
    }
}
