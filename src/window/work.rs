//! Work beside the window: the desktop's file dialog and the making of large pictures run on threads of their own, so
//! that the window never stands still. Dropping the work lets its result fall.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::{Duration, Instant};

use super::clipboard::ClipboardError;
use super::labels::notices as labels;
use super::question::Purpose;
use crate::disk::{FileProblem, Replace};
use crate::frameset::WriteError;
use crate::publish::{PdfError, Pixels, PngError, PublishProgress, SheetError};

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

/// Why a piece of work failed.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub(crate) enum WorkError {
    /// A picture could not be painted.
    #[error(transparent)]
    Picture(#[from] PngError),
    /// A pattern could not be made.
    #[error(transparent)]
    Pattern(#[from] PdfError),
    /// A sheet could not be made.
    #[error(transparent)]
    Sheet(#[from] SheetError),
    /// A document has something that no file may have.
    #[error("{}", labels::cannot_be_written(&.path.display(), why))]
    Document {
        /// The file.
        path: PathBuf,
        /// Why.
        why: WriteError,
    },
    /// A file could not be read or written.
    #[error(transparent)]
    File(#[from] FileProblem),
    /// The clipboard did not take it.
    #[error(transparent)]
    Clipboard(#[from] ClipboardError),
}

/// What a piece of work brings.
#[derive(Debug)]
pub(crate) enum Done {
    /// A file dialog was answered.
    Chosen(Purpose, Chosen),
    /// A picture file's bytes, to be written there, and what may be replaced by it.
    Picture(PathBuf, Replace, Result<Vec<u8>, WorkError>),
    /// A sheet, published into that folder; nothing where it was stopped before anything changed there.
    Published(PathBuf, Result<Option<Published>, WorkError>),
    /// A picture for the clipboard.
    Copied(Result<Pixels, WorkError>),
}

/// What publishing a sheet came to.
#[derive(Debug)]
pub(crate) struct Published {
    /// The sheet's name.
    pub(crate) sheet: String,
    /// How many files were written or found as they should be.
    pub(crate) files: usize,
    /// What does not fit, could not be made or was kept as it is, in sentences.
    pub(crate) said: Vec<String>,
    /// Whether every file was made and written.
    pub(crate) is_whole: bool,
}

/// A piece of work going on.
pub(crate) struct Work {
    /// What is going on, for the status line.
    pub(crate) label: &'static str,
    /// Whether it can be stopped from the status line (a dialog has its own button).
    pub(crate) can_stop: bool,
    receiver: Receiver<Done>,
    going: Option<Arc<PublishProgress>>,
}

impl Drop for Work {
    fn drop(&mut self) {
        self.stop();
    }
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
        Self { label, can_stop, receiver, going: None }
    }

    /// The same for what takes long: it tells how far it is, and dropping the work stops it.
    pub(crate) fn start_long(
        ctx: &egui::Context,
        label: &'static str,
        going: Arc<PublishProgress>,
        work: impl FnOnce() -> Done + Send + 'static,
    ) -> Self {
        let mut started = Self::start(ctx, label, true, work);
        started.going = Some(going);
        started
    }

    /// Asks for its end, which it reports as a result.
    pub(crate) fn stop(&self) {
        if let Some(going) = &self.going {
            going.stop();
        }
    }

    /// Whether its end was asked for.
    pub(crate) fn is_stopping(&self) -> bool {
        self.going.as_ref().is_some_and(|going| going.is_stopped())
    }

    /// Whether it tells how far it is.
    pub(crate) fn is_long(&self) -> bool {
        self.going.is_some()
    }

    /// Pieces done, and of how many; nothing where the work does not tell.
    pub(crate) fn progress(&self) -> Option<(usize, usize)> {
        self.going.as_ref().map(|g| g.progress()).filter(|(_, of)| *of > 0)
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
            .set_title(labels::OPEN_FRAME_FILES)
            .add_filter(labels::FRAMES_LINE_UPS_TABLES, &["ron", "csv", "tsv", "txt", "xlsx"])
            .add_filter(labels::ALL_FILES, &["*"]),
        Purpose::SaveLineup => {
            dialog.set_title(labels::SAVE_THE_LINE_UP).set_file_name(suggested).add_filter(labels::LINE_UP_CAPITAL, &["ron"])
        }
        Purpose::SaveFrame(_) => {
            dialog.set_title(labels::SAVE_THE_FRAME_FILE).set_file_name(suggested).add_filter(labels::FRAME_FILE, &["ron"])
        }
        Purpose::SavePicture => dialog.set_title(labels::SAVE_THE_PICTURE).set_file_name(suggested),
        Purpose::SaveSheet => {
            dialog.set_title(labels::SAVE_THE_SHEET).set_file_name(suggested).add_filter(labels::PICTURES, &["png", "svg", "pdf"])
        }
        Purpose::Publish => dialog.set_title(labels::PUBLISH_THE_SHEET_INTO_THIS_FOLDER),
        Purpose::SavePattern(_) => {
            dialog.set_title(labels::SAVE_THE_PATTERN).set_file_name(suggested).add_filter(labels::PDF_SVG, &["pdf", "svg"])
        }
    };
    Work::start(ctx, labels::A_FILE_DIALOG_IS_OPEN, false, move || {
        let began = Instant::now();
        let paths = match purpose {
            Purpose::Open => {
                pollster::block_on(dialog.pick_files()).map(|files| files.iter().map(|f| f.path().to_owned()).collect::<Vec<_>>())
            }
            Purpose::Publish => pollster::block_on(dialog.pick_folder()).map(|folder| vec![folder.path().to_owned()]),
            Purpose::SaveSheet | Purpose::SaveLineup | Purpose::SaveFrame(_) | Purpose::SavePicture | Purpose::SavePattern(_) => {
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
