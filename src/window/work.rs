//! Work beside the window: the desktop's file dialog and the making of large pictures run on threads of their own, so
//! that the window never stands still. Dropping the work lets its result fall.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::{Duration, Instant};

use super::questions::Purpose;
use crate::publish::Pixels;

/// A dialog that comes back empty sooner than this was never seen by anybody: there is none on this desktop.
const UNSEEN: Duration = Duration::from_millis(300);

/// What a file dialog came to.
#[derive(Debug)]
pub(crate) enum Chosen {
    /// These files.
    Paths(Vec<PathBuf>),
    /// The user closed it.
    Nothing,
    /// There is no dialog on this desktop.
    NoDialog,
}

/// What a piece of work brings.
#[derive(Debug)]
pub(crate) enum Done {
    /// A file dialog was answered.
    Chosen(Purpose, Chosen),
    /// A picture file's bytes, to be written there.
    Picture(PathBuf, Result<Vec<u8>, String>),
    /// A picture for the clipboard.
    Copied(Result<Pixels, String>),
}

/// A piece of work going on.
pub(crate) struct Work {
    /// What is going on, for the status line.
    pub(crate) label: &'static str,
    /// Whether it can be stopped from the status line (a dialog has its own button).
    pub(crate) can_stop: bool,
    receiver: Receiver<Done>,
}

impl Work {
    /// Starts something; the window is woken when it ends.
    pub(crate) fn start(
        ctx: &egui::Context,
        label: &'static str,
        can_stop: bool,
        work: impl FnOnce() -> Done + Send + 'static,
    ) -> Self {
        let (sender, receiver) = channel();
        let ctx = ctx.clone();
        thread::spawn(move || {
            // Nobody waits for the result of work that was stopped.
            drop(sender.send(work()));
            ctx.request_repaint();
        });
        Self { label, can_stop, receiver }
    }

    /// The result, once. `Err` while it goes on; `Ok(None)` when it broke off without one.
    pub(crate) fn poll(&self) -> Result<Option<Done>, ()> {
        match self.receiver.try_recv() {
            Ok(done) => Ok(Some(done)),
            Err(TryRecvError::Empty) => Err(()),
            Err(TryRecvError::Disconnected) => Ok(None),
        }
    }
}

/// Opens the desktop's file dialog.
pub(crate) fn file_dialog(ctx: &egui::Context, desktop: Option<&eframe::Frame>, purpose: Purpose, suggested: &str) -> Work {
    let dialog = rfd::AsyncFileDialog::new();
    let dialog = match desktop {
        Some(frame) => dialog.set_parent(frame),
        None => dialog,
    };
    let dialog = match purpose {
        Purpose::Open => dialog
            .set_title("Open frame files or a line-up")
            .add_filter("Frames, line-ups, tables", &["ron", "csv", "tsv", "txt", "xlsx"])
            .add_filter("All files", &["*"]),
        Purpose::SaveLineup => dialog.set_title("Save the line-up").set_file_name(suggested).add_filter("Line-up", &["ron"]),
        Purpose::SaveFrame => dialog.set_title("Save the frame file").set_file_name(suggested).add_filter("Frame file", &["ron"]),
        Purpose::SavePicture => dialog.set_title("Save the picture").set_file_name(suggested),
        Purpose::SavePattern(_) => {
            dialog.set_title("Save the pattern").set_file_name(suggested).add_filter("PDF, SVG", &["pdf", "svg"])
        }
    };
    Work::start(ctx, "A file dialog is open", false, move || {
        let began = Instant::now();
        let paths = match purpose {
            Purpose::Open => {
                pollster::block_on(dialog.pick_files()).map(|files| files.iter().map(|f| f.path().to_owned()).collect::<Vec<_>>())
            }
            Purpose::SaveLineup | Purpose::SaveFrame | Purpose::SavePicture | Purpose::SavePattern(_) => {
                pollster::block_on(dialog.save_file()).map(|file| vec![file.path().to_owned()])
            }
        };
        let chosen = match paths {
            Some(paths) => Chosen::Paths(paths),
            None if began.elapsed() < UNSEEN => Chosen::NoDialog,
            None => Chosen::Nothing,
        };
        Done::Chosen(purpose, chosen)
    })
}
