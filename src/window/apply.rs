//! Does what panels, keys and dialogs asked for. Nothing else changes the document, the session or the moment.

use eframe::Frame;
use egui::{Context, ViewportCommand};

use super::app::Window;
use super::commands::Command;
use super::document::Document;
use super::edits::Edit;
use super::file_names::file_name;
use super::labels::notices as labels;
use super::moment::Awaited;
use super::question::{Purpose, Question, Saving, Then};
use super::requests::Request;
use super::session::Session;
use super::sheet_edits::Asked;
use super::shown::Shown;
use super::theme;
use super::view_id::ViewId;
use super::views::decisions::ask_for_keyboard;
use crate::frameset::FrameIndex;
use crate::lineup::{letter, read_lineup};
use crate::words::{frames_in_words, sizes_followed_text};

/// The sample comparison, built in so that it opens wherever the program is.
const SAMPLE_COMPARISON: &[u8] = include_bytes!("../../sample-frames/village-library.lineup.ron");

impl Window {
    /// Does all requests of the frame.
    pub(super) fn apply_all(&mut self, ctx: &Context, desktop: Option<&Frame>) {
        let mut requests = self.requests.take();
        while !requests.is_empty() {
            for request in requests {
                self.apply(request, ctx, desktop);
            }
            requests = self.requests.take();
            ctx.request_repaint();
        }
    }

    fn apply(&mut self, request: Request, ctx: &Context, desktop: Option<&Frame>) {
        match request {
            Request::Command(command) => self.command(command, ctx, desktop),
            Request::Edit(edit) => self.edit(*edit),
            Request::Select(index) => self.select(index),
            Request::Figure(figure) => self.moment.figure = figure,
            Request::Slip(slip) => self.moment.slip = Some((self.moment.selected, slip)),
            Request::Cell(size, figure) => self.moment.cell = Some((size, figure)),
            Request::Look(view, sight) => {
                match sight {
                    Some(sight) => self.moment.viewports.insert(view, sight),
                    None => self.moment.viewports.remove(&view),
                };
            }
            Request::Measure(measure) => self.moment.measure = measure,
            Request::Say(words) => self.moment.status = words,
            Request::Open(paths) => self.open(paths),
            Request::ForgetRecent => self.session.recent.clear(),
            Request::Dismiss(index) => {
                if index < self.moment.notices.len() {
                    self.moment.notices.remove(index);
                }
            }
            Request::DismissAll => self.moment.notices.clear(),
            Request::StopReading => self.stop(ctx),
            Request::Answer(answer) => self.answer(answer, ctx, desktop),
            Request::Paper(paper) => self.session.paper = paper,
            Request::RearFromAbove(is_shown) => self.session.is_rear_shown = is_shown,
            Request::Pattern(frame) => self.choose_pattern(frame, ctx, desktop),
            Request::Sheet(place) => self.moment.sheet.ask(place),
            Request::Enter(frame, missing) => {
                self.select(frame);
                self.moment.show(ViewId::Frameset);
                self.moment.awaited = Some(Awaited::Entry(missing));
            }
            Request::Entered => self.moment.awaited = None,
            Request::OverviewRows(is_open) => self.moment.has_overview_rows = is_open,
            Request::SheetFits(fits) => self.moment.sheet_fits = fits,
            Request::PanelWidth(width) => self.session.panel_width = width,
        }
    }

    pub(super) fn edit(&mut self, edit: Edit) {
        let words = edit.label(self.document.lineup());
        let moved = match edit {
            Edit::Move { from, to } => Some((from, to)),
            _ => None,
        };
        let followed = self.document.edit(edit);
        if let Some((from, to)) = moved
            && self.moment.selected == from
        {
            self.moment.selected = to;
        }
        self.keep_selection();
        self.moment.status = if words.is_empty() { String::new() } else { labels::done(&words) };
        if !followed.is_empty() {
            let sizes: Vec<_> = followed.into_iter().map(|f| (f.frame, f.from, f.to)).collect();
            self.moment.notify_of_sizes(&sizes_followed_text(&sizes));
        }
    }

    /// Selects the frame at a place; the cell that was chosen belongs to the frame before.
    fn select(&mut self, index: FrameIndex) {
        if self.moment.selected != index {
            self.moment.selected = index;
            self.moment.cell = None;
        }
    }

    fn keep_selection(&mut self) {
        self.select(self.moment.selected.min(FrameIndex(self.document.lineup().frames.len().saturating_sub(1))));
    }

    fn command(&mut self, command: Command, ctx: &Context, desktop: Option<&Frame>) {
        let settings = self.document.lineup().settings.clone();
        let outline = settings.outline;
        match command {
            Command::New => self.leave(Then::New, ctx),
            Command::Open => self.choose(Purpose::Open, String::new(), ctx, desktop),
            Command::OpenByPath => self.ask_path(Purpose::Open, String::new(), ""),
            Command::PasteTable => self.paste_table(),
            Command::NewFrame => self.new_frame(),
            Command::Sample => self.leave(Then::Sample, ctx),
            Command::SaveFrame => self.choose_frame_file(ctx, desktop),
            Command::Save => self.save(ctx, desktop),
            Command::SaveAs => self.save_as(ctx, desktop),
            Command::SavePicture => self.ask_picture(ctx, desktop),
            Command::CopyPicture => self.copy_picture(ctx),
            Command::CopyFigures => self.copy_figures(ctx),
            Command::Publish => self.choose_publishing(false, ctx, desktop),
            Command::PublishAgain => self.choose_publishing(true, ctx, desktop),
            Command::Quit => ctx.send_viewport_cmd(ViewportCommand::Close),
            Command::Undo => {
                self.moment.status = match self.document.undo() {
                    Some(label) => labels::undid(&label),
                    None => labels::NOTHING_TO_UNDO.to_owned(),
                };
                self.keep_selection();
            }
            Command::Redo => {
                self.moment.status = match self.document.redo() {
                    Some(label) => labels::redid(&label),
                    None => labels::NOTHING_TO_REDO.to_owned(),
                };
                self.keep_selection();
            }
            Command::Decide => self.decide(ctx),
            Command::ShowGroup(group) => self.moment.show_group(group),
            Command::ShowPlace(place) => {
                if let Some(view) = self.moment.view.group().views().nth(place) {
                    self.moment.show(view);
                }
            }
            Command::Show(view) => self.moment.show(view),
            Command::NextView => self.moment.show(self.moment.view.next()),
            Command::PreviousView => self.moment.show(self.moment.view.previous()),
            Command::Fit => self.requests.push(Request::Look(self.moment.view, None)),
            Command::ZoomIn => self.moment.zoom = 1.25,
            Command::ZoomOut => self.moment.zoom = 0.8,
            Command::Wheels => self.edit(Edit::Wheels(!outline.wheels)),
            Command::AllWheels => self.edit(Edit::AllWheels(!outline.all_wheels)),
            Command::LinePatterns => self.edit(Edit::LinePatterns(!outline.line_patterns)),
            Command::Grid => self.edit(Edit::Grid(!outline.grid)),
            Command::Dimensions => self.edit(Edit::Dimensions(!outline.dimensions)),
            Command::Appearance(appearance) => {
                self.session.appearance = appearance;
                theme::set_appearance(ctx, appearance);
            }
            Command::LargerText | Command::SmallerText | Command::NormalText => self.scale_text(command, ctx),
            Command::Words => {
                let lineup = self.document.lineup();
                let (title, notes) = (lineup.title.clone(), lineup.notes.clone());
                self.moment.question = Some(Question::Words { title, notes });
            }
            Command::Guide => self.moment.question = Some(Question::Guide(0)),
            Command::Shortcuts => self.moment.question = Some(Question::Keyboard),
            Command::About => self.moment.question = Some(Question::About),
            Command::SelectNext
            | Command::SelectPrevious
            | Command::MoveUp
            | Command::MoveDown
            | Command::LargerSize
            | Command::SmallerSize
            | Command::MakeReference
            | Command::ShowOrHide
            | Command::Remove => self.command_on_frame(command),
        }
    }

    /// Leads the keyboard to what can be decided about the chosen figure.
    fn decide(&mut self, ctx: &Context) {
        if !matches!(self.moment.view, ViewId::Frameset | ViewId::Check) {
            self.moment.show(ViewId::Check);
        }
        ask_for_keyboard(ctx);
    }

    fn scale_text(&mut self, command: Command, ctx: &Context) {
        match command {
            Command::LargerText => self.session.scale_text(1.0),
            Command::SmallerText => self.session.scale_text(-1.0),
            _ => self.session.text_scale = Session::default().text_scale,
        }
        ctx.set_zoom_factor(self.session.text_scale);
    }

    fn command_on_frame(&mut self, command: Command) {
        let lineup = self.document.lineup();
        let selected = self.moment.selected;
        let Some(entry) = selected.of(&lineup.frames) else {
            labels::ADD_A_FRAME_FIRST.clone_into(&mut self.moment.status);
            return;
        };
        let last = FrameIndex(lineup.frames.len() - 1);
        let resized = |step: isize| {
            let label =
                entry.size_index().0.checked_add_signed(step).and_then(|i| entry.frameset.sizes.get(i)).map(|s| s.label.clone());
            label.map(|label| Edit::Size { frame: selected, label })
        };
        let edit = match command {
            Command::SelectNext | Command::SelectPrevious => {
                let next = if command == Command::SelectNext {
                    selected.after().min(last)
                } else {
                    selected.before().unwrap_or_default()
                };
                self.moment.status =
                    next.of(&lineup.frames).map(|e| format!("{} {}", letter(next), e.frameset.name())).unwrap_or_default();
                self.select(next);
                None
            }
            Command::MoveUp => selected.before().map(|to| Edit::Move { from: selected, to }),
            Command::MoveDown => (selected < last).then_some(Edit::Move { from: selected, to: selected.after() }),
            Command::LargerSize => resized(1),
            Command::SmallerSize => resized(-1),
            Command::MakeReference => Some(Edit::Reference(selected)),
            Command::ShowOrHide => Some(Edit::Shown { frame: selected, shown: !entry.shown }),
            Command::Remove => Some(Edit::Remove(selected)),
            _ => None,
        };
        if let Some(edit) = edit {
            self.edit(edit);
        }
    }

    pub(super) fn shown(&self) -> Shown<'_> {
        Shown { document: &self.document, session: &self.session, moment: &self.moment, table: self.table() }
    }

    /// Does something that replaces the line-up, after asking about unsaved work.
    pub(super) fn leave(&mut self, then: Then, ctx: &Context) {
        if self.document.is_unsaved() {
            self.ask_about(then);
        } else {
            self.go_on_with(then, ctx);
        }
    }

    /// Asks about unsaved work.
    pub(super) fn ask_about(&mut self, then: Then) {
        self.moment.question = Some(Question::Unsaved(then));
    }

    pub(super) fn go_on_with(&mut self, then: Then, ctx: &Context) {
        match then {
            Then::New => {
                self.replace(Document::default());
                self.claim_file(None);
            }
            Then::Sample => match read_lineup(SAMPLE_COMPARISON) {
                Ok(lineup) => {
                    self.replace(Document::new(lineup, None));
                    self.claim_file(None);
                }
                Err(why) => self.moment.notify(why.to_string()),
            },
            Then::Restore => self.restore_left(),
            Then::Replace(lineup, file) => {
                self.claim_file(Some(&file.path));
                let opened = self.document.opened(*lineup, file);
                self.replace(opened);
            }
            Then::Quit => self.quit(ctx),
        }
    }

    pub(super) fn replace(&mut self, document: Document) {
        self.moment.status = format!("{}: {}.", document.name(), frames_in_words(document.lineup().frames.len()));
        self.document = document.in_place_of(&self.document);
        self.moment.selected = FrameIndex(0);
        self.moment.cell = None;
        self.moment.slip = None;
        self.moment.measure = None;
        self.moment.viewports.clear();
        self.moment.sheet = Asked::default();
        self.moment.published.clear();
    }

    /// Saves the line-up in its file, or asks where.
    pub(super) fn save(&mut self, ctx: &Context, desktop: Option<&Frame>) {
        match self.document.path() {
            Some(path) => {
                let path = path.to_owned();
                self.save_over(Saving::Lineup, path, Vec::new(), ctx);
            }
            None => self.save_as(ctx, desktop),
        }
    }

    fn save_as(&mut self, ctx: &Context, desktop: Option<&Frame>) {
        let suggested = match self.document.path() {
            Some(path) => path.to_string_lossy().into_owned(),
            None => format!("{}.lineup.ron", file_name(&self.document.name())),
        };
        self.choose(Purpose::SaveLineup, suggested, ctx, desktop);
    }
}
