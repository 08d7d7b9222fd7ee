//! Does what panels, keys and dialogs asked for. Nothing else changes the document, the session or the moment.

use std::path::PathBuf;
use std::time::Duration;

use eframe::Frame;
use egui::{Context, ViewportCommand};

use super::app::Window;
use super::commands::Command;
use super::document::Document;
use super::edits::Edit;
use super::file_names::file_name;
use super::file_names::{base_name, with_ending};
use super::moment::Reading;
use super::question::{Answer, PictureChoice, Purpose, Question, Saving, Then};
use super::reader::ReadPurpose;
use super::requests::Request;
use super::session::Session;
use super::sheet_edits::Asked;
use super::shown::Shown;
use super::theme;
use super::viewport::Viewport;
use super::views;
use super::work::{Chosen, Done, Work, file_dialog};
use crate::disk::{FileIdentity, Replace};
use crate::drawing::{Ground, Look, Picture};
use crate::lineup::letter;
use crate::publish;
use crate::words::frames_in_words;

/// How often the window looks for a file that lets it wait.
const SLOW: Duration = Duration::from_millis(30);

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
            Request::Edit(edit) => self.edit(edit),
            Request::Select(index) => self.moment.selected = index,
            Request::Figure(figure) => self.moment.figure = figure,
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
            Request::Pattern(frame) => self.choose_pattern(frame, ctx, desktop),
            Request::Sheet(place) => self.moment.sheet.ask(place),
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
        self.document.edit(edit);
        if let Some((from, to)) = moved
            && self.moment.selected == from
        {
            self.moment.selected = to;
        }
        self.keep_selection();
        self.moment.status = if words.is_empty() { String::new() } else { format!("Done: {words}.") };
    }

    fn keep_selection(&mut self) {
        self.moment.selected = self.moment.selected.min(self.document.lineup().frames.len().saturating_sub(1));
    }

    fn command(&mut self, command: Command, ctx: &Context, desktop: Option<&Frame>) {
        let settings = self.document.lineup().settings.clone();
        let outline = settings.outline;
        match command {
            Command::New => self.leave(Then::New, ctx),
            Command::Open => self.choose(Purpose::Open, String::new(), ctx, desktop),
            Command::OpenByPath => self.ask_path(Purpose::Open, String::new(), ""),
            Command::PasteTable => self.moment.question = Some(Question::Import(Box::default())),
            Command::NewFrame => self.new_frame(),
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
                    Some(label) => format!("Undid: {label}."),
                    None => "Nothing to undo.".to_owned(),
                };
                self.keep_selection();
            }
            Command::Redo => {
                self.moment.status = match self.document.redo() {
                    Some(label) => format!("Redid: {label}."),
                    None => "Nothing to redo.".to_owned(),
                };
                self.keep_selection();
            }
            Command::Show(view) => self.moment.view = view,
            Command::NextView => self.moment.view = self.moment.view.next(),
            Command::PreviousView => self.moment.view = self.moment.view.previous(),
            Command::Fit => self.requests.push(Request::Look(self.moment.view, None)),
            Command::ZoomIn => self.moment.zoom = 1.25,
            Command::ZoomOut => self.moment.zoom = 0.8,
            Command::Wheels => self.edit(Edit::Wheels(!outline.wheels)),
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
        let Some(entry) = lineup.frames.get(selected) else {
            "Add a frame first.".clone_into(&mut self.moment.status);
            return;
        };
        let last = lineup.frames.len() - 1;
        let resized = |step: isize| {
            let label =
                entry.size_index().checked_add_signed(step).and_then(|i| entry.frameset.sizes.get(i)).map(|s| s.label.clone());
            label.map(|label| Edit::Size { frame: selected, label })
        };
        let edit = match command {
            Command::SelectNext | Command::SelectPrevious => {
                let next = if command == Command::SelectNext { (selected + 1).min(last) } else { selected.saturating_sub(1) };
                self.moment.status =
                    lineup.frames.get(next).map(|e| format!("{} {}", letter(next), e.frameset.name())).unwrap_or_default();
                self.moment.selected = next;
                None
            }
            Command::MoveUp => selected.checked_sub(1).map(|to| Edit::Move { from: selected, to }),
            Command::MoveDown => (selected < last).then_some(Edit::Move { from: selected, to: selected + 1 }),
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

    // Files in.

    fn open(&mut self, paths: Vec<PathBuf>) {
        self.moment.reading.get_or_insert_with(Reading::default).queue(paths, ReadPurpose::Open);
    }

    /// Takes what was read since the last frame.
    pub(super) fn go_on_reading(&mut self, ctx: &Context) {
        let Some(reading) = &mut self.moment.reading else { return };
        let progress = reading.go_on();
        let is_slow = reading.is_slow;
        if let Some(computed) = progress.computed {
            self.document.expect(computed);
        }
        for path in &progress.good {
            self.session.remember(path);
        }
        self.moment.tables.extend(progress.tables);
        self.next_table();
        for problem in progress.problems {
            self.moment.notify(problem);
        }
        for (saving, path, opened) in progress.again {
            self.take_again(saving, &path, opened);
        }
        for (lineup, file) in progress.lineups {
            self.open_lineup(lineup, file, ctx);
        }
        if progress.is_done {
            self.end_reading();
        }
        if is_slow && !progress.is_done {
            ctx.request_repaint_after(SLOW);
        } else {
            ctx.request_repaint();
        }
    }

    fn end_reading(&mut self) {
        let Some(reading) = self.moment.reading.take() else { return };
        if reading.frames.is_empty() {
            return;
        }
        let first = self.document.lineup().frames.len();
        let (frames, files): (Vec<_>, Vec<FileIdentity>) =
            reading.frames.into_iter().map(|(frameset, file)| ((frameset, base_name(&file.path)), file)).unzip();
        self.edit(Edit::Add(frames));
        self.document.end_gesture();
        for (place, file) in (first..).zip(files) {
            self.document.tie(place, file);
        }
        if reading.is_start {
            self.document.mark_start();
        } else {
            self.moment.selected = first;
        }
    }

    /// Stops reading and whatever else goes on; what was read stays.
    fn stop(&mut self, ctx: &Context) {
        if let Some(reading) = &mut self.moment.reading {
            let left = match reading.total - reading.done {
                1 => "1 file was not read".to_owned(),
                left => format!("{left} files were not read"),
            };
            let lineups = std::mem::take(&mut reading.lineups);
            self.moment.notify(format!("Reading was stopped: {left}."));
            for (lineup, file) in lineups {
                self.leave(Then::Replace(Box::new(lineup), file), ctx);
            }
            self.end_reading();
        }
        self.stop_work();
    }

    // The line-up's own file.

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
        self.moment.selected = 0;
        self.moment.measure = None;
        self.moment.viewports.clear();
        self.moment.sheet = Asked::default();
        self.moment.published.clear();
    }

    fn save(&mut self, ctx: &Context, desktop: Option<&Frame>) {
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

    // Choosing and answering.

    pub(super) fn choose(&mut self, purpose: Purpose, suggested: String, ctx: &Context, desktop: Option<&Frame>) {
        match self.chooser {
            super::app::Chooser::Desktop => {
                let name = suggested.rsplit('/').next().unwrap_or(&suggested).to_owned();
                self.work.push(file_dialog(ctx, desktop, purpose, &name));
            }
            super::app::Chooser::Typed => self.ask_path(purpose, suggested, ""),
        }
    }

    fn ask_path(&mut self, purpose: Purpose, text: String, why: &str) {
        self.moment.question = Some(Question::Path { purpose, text, why: why.to_owned() });
    }

    /// Takes what dialogs and pictures came to.
    pub(super) fn take_work(&mut self, ctx: &Context) {
        let mut done = Vec::new();
        self.work.retain(|work| match work.poll() {
            Ok(result) => {
                done.push((work.label, result));
                false
            }
            Err(()) => true,
        });
        for (label, result) in done {
            match result {
                None => {
                    self.stay_open();
                    self.moment.notify(format!("{label} failed. Try again."));
                }
                Some(Done::Chosen(purpose, Chosen::Paths(paths))) => self.take_paths(purpose, paths, true, ctx),
                Some(Done::Chosen(_, Chosen::Nothing)) => self.then = None,
                Some(Done::Chosen(purpose, Chosen::NoDialog)) => {
                    let text = self.suggestion(purpose);
                    self.ask_path(purpose, text, "No file dialog is available here. Enter the path.");
                }
                Some(Done::Picture(path, replace, made)) => self.keep_picture(&path, replace, made),
                Some(Done::Published(folder, published)) => self.tell_published(folder, published),
                Some(Done::Copied(made)) => match made.and_then(|pixels| self.clipboard.copy_picture(pixels)) {
                    Ok(()) => "Picture copied to the clipboard.".clone_into(&mut self.moment.status),
                    Err(problem) => self.moment.notify(problem),
                },
            }
        }
        self.go_on_quitting(ctx);
    }

    pub(super) fn suggestion(&self, purpose: Purpose) -> String {
        let folder = self.document.path().and_then(|p| p.parent()).map(|p| format!("{}/", p.display())).unwrap_or_default();
        let name = file_name(&self.document.name());
        match purpose {
            Purpose::Open => String::new(),
            Purpose::SaveLineup => format!("{folder}{name}.lineup.ron"),
            Purpose::SaveFrame(key) => self.frame_file_suggestion(key),
            Purpose::SavePicture => format!("{folder}{}", self.picture_name()),
            Purpose::SavePattern(frame) => format!("{folder}{}", self.pattern_name(frame)),
            Purpose::SaveSheet => format!("{folder}{}.png", self.sheet_name()),
            Purpose::Publish => format!("{folder}{}", self.sheet_name()),
        }
    }

    fn picture_name(&self) -> String {
        let view = self.moment.view.label().to_lowercase().replace(' ', "-");
        let ending = if self.picture.as_ref().is_some_and(|p| p.is_png) { "png" } else { "svg" };
        format!("{}-{view}.{ending}", file_name(&self.document.name()))
    }

    /// Goes on with chosen paths. A dialog has asked about writing over a file already; a typed path has not.
    fn take_paths(&mut self, purpose: Purpose, paths: Vec<PathBuf>, has_asked: bool, ctx: &Context) {
        if purpose == Purpose::Open {
            self.open(paths);
            return;
        }
        let Some(path) = paths.into_iter().next() else { return };
        if purpose == Purpose::Publish {
            self.publish_into(path, ctx);
            return;
        }
        let is_png = self.picture.as_ref().is_some_and(|p| p.is_png);
        let ending = match purpose {
            Purpose::SavePicture if is_png => ".png",
            Purpose::SaveSheet => ".png",
            Purpose::SavePicture => ".svg",
            Purpose::SaveFrame(_) => ".frame.ron",
            Purpose::SavePattern(_) => ".pdf",
            _ => ".lineup.ron",
        };
        let whole = with_ending(&path, ending);
        let has_asked = has_asked && whole == path;
        let saving = match purpose {
            Purpose::SaveLineup => Some(Saving::Lineup),
            Purpose::SaveFrame(key) => Some(Saving::Frame(key)),
            _ => None,
        };
        if let Some(saving) = saving {
            self.save_chosen(saving, whole, has_asked, ctx);
            return;
        }
        self.picture_chosen(purpose, whole, has_asked, ctx);
    }

    fn answer(&mut self, answer: Answer, ctx: &Context, desktop: Option<&Frame>) {
        let question = self.moment.question.take();
        match (answer, question) {
            (Answer::Save, Some(Question::Unsaved(then))) => {
                self.then = Some(then);
                self.save(ctx, desktop);
            }
            (Answer::Discard, Some(Question::Unsaved(then))) => self.go_on_with(then, ctx),
            (Answer::Paths(purpose, paths), _) => self.take_paths(purpose, paths, false, ctx),
            (answer, Some(Question::Busy { busy, revision, .. })) => self.answer_busy(&answer, busy, revision),
            (answer, Some(Question::ReplacePicture { purpose, path, occupant })) => match answer {
                Answer::Replace => self.picture_agreed(purpose, path, &occupant, ctx),
                Answer::SaveElsewhere => {
                    let suggested = self.suggestion(purpose);
                    self.choose(purpose, suggested, ctx, desktop);
                }
                _ => {}
            },
            (Answer::Picture(choice), _) => {
                self.session.picture = choice.size().unwrap_or(self.session.picture);
                self.session.is_picture_dark = choice.is_dark;
                self.picture = Some(choice);
                let suggested = self.suggestion(Purpose::SavePicture);
                self.choose(Purpose::SavePicture, suggested, ctx, desktop);
            }
            (Answer::Words(title, notes), _) => self.edit(Edit::Words { title, notes }),
            (Answer::Imported(frameset, came_from), _) => self.import(*frameset, came_from.as_deref()),
            (Answer::Restore, Some(Question::Restore(_))) => self.leave(Then::Restore, ctx),
            (Answer::DiscardLeft, Some(Question::Restore(_))) => self.discard_left(),
            (Answer::Cancel, Some(Question::Restore(_))) => self.postpone_left(),
            (Answer::Open, Some(Question::OpenElsewhere(then))) => self.leave(then, ctx),
            (answer, Some(Question::SaveOver { saving, path, obstacle, agreed })) => match answer {
                Answer::KeepBoth => self.keep_both(saving, &path, ctx),
                Answer::ReadAgain => self.read_again(saving, path),
                Answer::Replace => self.save_agreed(saving, path, obstacle, agreed, ctx),
                Answer::SaveElsewhere => self.save_elsewhere(saving, ctx, desktop),
                _ => self.then = None,
            },
            _ => {
                self.then = None;
                self.next_table();
            }
        }
    }

    // Pictures and tables out.

    fn ask_picture(&mut self, ctx: &Context, desktop: Option<&Frame>) {
        if self.sheet_shown().is_some() {
            let suggested = self.suggestion(Purpose::SaveSheet);
            self.choose(Purpose::SaveSheet, suggested, ctx, desktop);
            return;
        }
        if self.picture_of_view((16, 9), Ground::Paper).is_none() {
            self.say_no_picture();
            return;
        }
        let (width, height) = self.session.picture;
        let is_dark = self.picture.as_ref().map_or(ctx.global_style().visuals.dark_mode, |p| p.is_dark);
        let is_png = self.picture.as_ref().is_none_or(|p| p.is_png);
        let choice = PictureChoice { width: width.to_string(), height: height.to_string(), is_png, is_dark };
        self.moment.question = Some(Question::Picture(choice));
    }

    fn say_no_picture(&mut self) {
        let view = self.moment.view.label();
        self.moment.status = if self.document.lineup().frames.is_empty() {
            "Add a frame first.".to_owned()
        } else {
            format!("{view} is a table. Copy it as text.")
        };
    }

    /// What the view in front shows, with title, legend and foot note, as it is seen: the same part of the drawing.
    fn picture_of_view(&self, (width_px, height_px): (u32, u32), ground: Ground) -> Option<Picture> {
        let id = self.moment.view;
        let view = views::view(id).picture(self.shown()).filter(|_| !self.document.lineup().frames.is_empty())?;
        let look = match self.moment.viewports.get(&id).copied() {
            Some((Viewport::Scale(seen), on)) => Some(Look::Scale(seen, on)),
            Some((Viewport::Plot(seen), _)) => Some(Look::Plot(seen)),
            None => None,
        };
        Some(Picture { view, width_px, height_px, ground, look })
    }

    pub(super) fn save_picture(&mut self, path: PathBuf, replace: Replace, ctx: &Context) {
        let Some(choice) = self.picture.clone() else { return };
        let ground = if choice.is_dark { Ground::Dark } else { Ground::Paper };
        let Some(picture) = choice.size().ok().and_then(|size| self.picture_of_view(size, ground)) else {
            self.say_no_picture();
            return;
        };
        let is_png = path.extension().map_or(choice.is_png, |e| e.eq_ignore_ascii_case("png"));
        // The line-up as it is now, whatever is changed while the pixels are made.
        let svg = publish::picture_svg(self.document.findings(), self.document.lineup(), &picture);
        self.work.push(Work::start(ctx, "Creating the picture", true, move || {
            let made = if is_png {
                publish::png(&svg, picture.width_px, picture.height_px).map_err(|e| e.to_string())
            } else {
                Ok(svg.into_bytes())
            };
            Done::Picture(path, replace, made)
        }));
    }

    fn copy_picture(&mut self, ctx: &Context) {
        if let Some(sheet) = self.sheet_shown() {
            self.copy_sheet(sheet, ctx);
            return;
        }
        let ground = if ctx.global_style().visuals.dark_mode { Ground::Dark } else { Ground::Paper };
        let Some(picture) = self.picture_of_view(self.session.picture, ground) else {
            self.say_no_picture();
            return;
        };
        let svg = publish::picture_svg(self.document.findings(), self.document.lineup(), &picture);
        self.work.push(Work::start(ctx, "Creating the picture", true, move || {
            Done::Copied(publish::pixels(&svg, picture.width_px, picture.height_px).map_err(|e| e.to_string()))
        }));
    }

    fn copy_figures(&mut self, ctx: &Context) {
        if self.document.lineup().frames.is_empty() {
            "Add a frame first.".clone_into(&mut self.moment.status);
            return;
        }
        ctx.copy_text(publish::tabbed(self.table()));
        "Figures copied to the clipboard as tab-separated text.".clone_into(&mut self.moment.status);
    }
}
