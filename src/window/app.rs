//! The window itself: its state, and one frame from input to requests to their doing.

use std::path::PathBuf;

use eframe::{CreationContext, Frame, Storage};
use egui::{CentralPanel, Context, Ui, ViewportCommand};

use super::clipboard::Clipboard;
use super::commands::Command;
use super::document::Document;
use super::entry::{enter_typed, refused};
use super::key_order::KeyOrder;
use super::moment::{Moment, Reading};
use super::outside::Outside;
use super::question::{PictureChoice, Question, Then};
use super::recovery::Recovery;
use super::requests::{Request, Requests};
use super::session::{self, Session};
use super::shown::Shown;
use super::theme::{self, Tones};
use super::view_id::ViewId;
use super::work::Work;
use super::{commands, lineup_panel, menu, notices, questions, views};
use crate::frameset::{Figure, FrameIndex};
use crate::lineup::Lineup;
use crate::words::{Table, comparison_table};

/// How files are chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chooser {
    /// By the desktop's dialog, and by typing where there is none.
    Desktop,
    /// By typing alone: no desktop is asked.
    Typed,
}

/// How many frames a key may need until all that follows from it is done and given to the journal.
const UNSEEN_FRAMES: u8 = 8;

/// The program's window: its document, its session, its moment, and what goes on beside it.
pub struct Window {
    pub(super) document: Document,
    pub(super) session: Session,
    pub(super) moment: Moment,
    pub(super) chooser: Chooser,
    pub(super) work: Vec<Work>,
    pub(super) then: Option<Then>,
    pub(super) picture: Option<PictureChoice>,
    pub(super) clipboard: Clipboard,
    pub(super) recovery: Recovery,
    pub(super) outside: Outside,
    pub(super) requests: Requests,
    /// How many more frames are asked for while nobody sees the window.
    unseen_frames: u8,
    pub(super) table: (u64, Table),
}

impl Window {
    /// A window on these files. They are the starting point: closing without a change asks nothing.
    #[must_use]
    pub fn new(cc: &CreationContext<'_>, files: Vec<PathBuf>, chooser: Chooser) -> Self {
        Self::reading(cc, Reading::at_start(files), chooser)
    }

    /// A window on what is being read.
    pub(super) fn reading(cc: &CreationContext<'_>, reading: Option<Reading>, chooser: Chooser) -> Self {
        let stored = cc.storage.and_then(|storage| eframe::get_value::<Session>(storage, session::SESSION_ID));
        let mut window = Self::with_session(&cc.egui_ctx, reading, chooser, stored.unwrap_or_default().made_sane());
        if let (Chooser::Desktop, Some(folder)) = (chooser, eframe::storage_dir(session::APP_ID)) {
            window.keep_state_in(&folder);
        }
        window
    }

    /// A window without a desktop, for tests and measurements: drive it with [`Window::frame_ui`].
    #[must_use]
    pub fn headless(ctx: &Context, lineup: Lineup) -> Self {
        let mut window = Self::with_session(ctx, None, Chooser::Typed, Session::default());
        window.document = Document::new(lineup, None);
        window
    }

    fn with_session(ctx: &Context, reading: Option<Reading>, chooser: Chooser, session: Session) -> Self {
        theme::install(ctx);
        ctx.add_plugin(KeyOrder::default());
        theme::set_appearance(ctx, session.appearance);
        ctx.set_zoom_factor(session.text_scale);
        let moment = Moment { reading, ..Moment::default() };
        let document = Document::default();
        Self {
            table: (document.revision(), comparison_table(document.findings(), document.lineup().settings.units)),
            document,
            session,
            moment,
            chooser,
            work: Vec::new(),
            then: None,
            picture: None,
            clipboard: Clipboard::default(),
            recovery: Recovery::default(),
            outside: Outside::default(),
            requests: Requests::default(),
            unseen_frames: 0,
        }
    }

    /// The line-up as it stands.
    #[must_use]
    pub fn lineup(&self) -> &Lineup {
        self.document.lineup()
    }

    /// Whether files are still being read.
    #[must_use]
    pub const fn is_reading(&self) -> bool {
        self.moment.reading.is_some()
    }

    /// Whether pictures that are made beside the window are still on their way.
    #[must_use]
    pub fn is_making_pictures(ctx: &egui::Context) -> bool {
        super::beside::are_on_their_way(ctx)
    }

    /// Whether closing now would lose something.
    #[must_use]
    pub fn is_unsaved(&self) -> bool {
        self.document.is_unsaved()
    }

    /// The view in front.
    #[must_use]
    pub fn view(&self) -> ViewId {
        self.moment.view
    }

    /// Name of the view in front.
    #[must_use]
    pub fn view_label(&self) -> &'static str {
        self.moment.view.label()
    }

    /// The notices that stand open.
    pub fn notices(&self) -> impl Iterator<Item = &str> {
        self.moment.notices.iter().map(|n| n.text.as_str())
    }

    /// Words at the left end of the status line.
    #[must_use]
    pub fn status(&self) -> &str {
        &self.moment.status
    }

    /// The figure that Check explains.
    #[must_use]
    pub fn figure(&self) -> Figure {
        self.moment.figure
    }

    /// Place of the selected frame.
    #[must_use]
    pub fn selected(&self) -> FrameIndex {
        self.moment.selected
    }

    /// Light, dark or as the desktop is.
    #[must_use]
    pub fn appearance(&self) -> session::Appearance {
        self.session.appearance
    }

    /// Asks for a command, as its menu entry would.
    pub fn ask(&mut self, command: Command) {
        self.requests.command(command);
    }

    /// One frame: shows all panels and does what they asked for. File dialogs belong to `desktop`'s window, or to none.
    pub fn frame_ui(&mut self, ui: &mut Ui, desktop: Option<&Frame>) {
        let ctx = ui.ctx().clone();
        let commands = self.take_input(&ctx);
        self.go_on_reading(&ctx);
        self.look_outside(&ctx);
        self.take_work(&ctx);
        self.offer_left();
        self.renew_table();
        self.panels_ui(ui);
        self.ask_ui(&ctx);
        // Behind what the panels asked for: what was typed before a command is entered before it.
        for command in commands {
            self.requests.command(command);
        }
        if let Some(words) = refused(&ctx) {
            self.requests.push(Request::Say(words));
            ctx.request_repaint();
        }
        self.end_gesture(&ctx);
        self.apply_all(&ctx, desktop);
        self.keep_for_recovery(&ctx);
        self.take_close(&ctx);
        self.renew_table();
        self.set_title(&ctx);
    }

    fn panels_ui(&mut self, ui: &mut Ui) {
        let mut out = std::mem::take(&mut self.requests);
        let shown = Shown { document: &self.document, session: &self.session, moment: &self.moment, table: &self.table.1 };
        menu::menu_ui(ui, shown, &mut out);
        notices::status_ui(ui, shown, &self.work, &mut out);
        lineup_panel::panel_ui(ui, shown, &mut out);
        // The window is cleared to paper: nothing is gained by painting paper over it, and it costs on slow graphics.
        CentralPanel::default().frame(egui::Frame::NONE).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            notices::notices_ui(ui, shown, &mut out);
            views::views_ui(ui, shown, &mut out);
        });
        self.requests = out;
        self.end_zoom();
    }

    fn ask_ui(&mut self, ctx: &Context) {
        let name = match self.moment.question {
            Some(Question::SaveOver { saving, .. }) => self.words_for(saving),
            _ => self.document.name(),
        };
        if let Some(question) = &mut self.moment.question {
            questions::question_ui(ctx, question, &name, &mut self.requests);
        }
    }

    /// Takes what was pasted and dropped; gives the commands that were pressed.
    fn take_input(&mut self, ctx: &Context) -> Vec<Command> {
        let commands = if self.moment.question.is_none() { commands::pressed(ctx) } else { Vec::new() };
        if !commands.is_empty() || ctx.input(|i| i.viewport().close_requested()) {
            enter_typed(ctx);
        }
        self.take_pasted(ctx);
        let dropped: Vec<PathBuf> = ctx.input(|i| i.raw.dropped_files.iter().map(|f| f.path().to_owned()).collect());
        if !dropped.is_empty() {
            self.requests.push(Request::Open(dropped));
        }
        commands
    }

    pub(super) fn table(&self) -> &Table {
        &self.table.1
    }
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut Ui, frame: &mut Frame) {
        self.frame_ui(ui, Some(frame));
    }

    /// A window that is covered or put away is not painted, and what is pressed or typed there would wait until it is seen
    /// again: frames are asked for, as many as a key may need, so that it is done, and kept, at once.
    fn raw_input_hook(&mut self, ctx: &Context, input: &mut egui::RawInput) {
        use egui::Event::{Ime, Key, Paste, Text};
        if input.viewport().visible() != Some(false) {
            self.unseen_frames = 0;
            return;
        }
        if input.events.iter().any(|event| matches!(event, Key { .. } | Text(_) | Paste(_) | Ime(_))) {
            self.unseen_frames = UNSEEN_FRAMES;
        }
        if self.unseen_frames > 0 {
            self.unseen_frames -= 1;
            ctx.send_viewport_cmd(ViewportCommand::RequestPaintWhileHidden);
        }
    }

    fn save(&mut self, storage: &mut dyn Storage) {
        eframe::set_value(storage, session::SESSION_ID, &self.session);
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        self.end_recovery();
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }

    fn clear_color(&self, visuals: &egui::Visuals) -> [f32; 4] {
        Tones::on(visuals.dark_mode).paper().to_normalized_gamma_f32()
    }
}
