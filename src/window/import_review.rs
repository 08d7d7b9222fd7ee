//! A pasted or opened table under review: data. `import_review_ui.rs` shows it.

use std::sync::Arc;

use super::labels::import_review as labels;
use crate::frameset::Frameset;
use crate::frameset::import::{self, ImportError, Reading};
use crate::lineup::FrameKey;

/// Why a table under review makes no frameset yet.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub(crate) enum ReviewError {
    /// Nothing was pasted.
    #[error("{}", labels::PASTE_A_TABLE_FIRST)]
    NoTable,
    /// The table cannot be read, or is not complete.
    #[error("{0}")]
    Import(#[from] ImportError),
}

/// A table under review.
#[derive(Clone, Debug, Default)]
pub(crate) struct ImportReview {
    /// The text as pasted; empty for a spreadsheet file.
    pub(crate) text: String,
    /// The file it came from.
    pub(crate) came_from: Option<String>,
    /// What was understood, or why nothing was.
    pub(crate) reading: Option<Result<Reading, ImportError>>,
    /// Maker's name as typed.
    pub(crate) maker: String,
    /// Model's name as typed.
    pub(crate) model: String,
    /// Steps as typed, mm and degrees.
    pub(crate) steps: Option<(String, String)>,
    /// The frame that was selected, which a specification list can be added to.
    pub(crate) onto: Option<SelectedFrame>,
}

/// The frame that was selected when a table was pasted.
#[derive(Clone, Debug)]
pub(crate) struct SelectedFrame {
    /// Which frame.
    pub(crate) key: FrameKey,
    /// Its letter and name.
    pub(crate) name: String,
    /// As it is.
    pub(crate) frameset: Arc<Frameset>,
}

impl ImportReview {
    /// A pasted text.
    pub(crate) fn of_text(text: String) -> Self {
        let reading = Some(import::read_text(&text));
        Self { text, reading, ..Self::default() }
    }

    /// A pasted text, and the web page that it was copied from where there is one.
    pub(crate) fn of_copied(text: String, page: Option<&str>) -> Self {
        match page {
            Some(page) => Self { reading: Some(import::read_copied(&text, page)), text, ..Self::default() },
            None => Self::of_text(text),
        }
    }

    /// A file's bytes.
    pub(crate) fn of_file(bytes: &[u8], came_from: String) -> Self {
        let reading = Some(import::read_bytes(bytes));
        Self { reading, came_from: Some(came_from), ..Self::default() }
    }

    /// The selected frame with the specification added; `None` where a list alone was not pasted, or no frame is selected.
    pub(crate) fn added(&self) -> Option<(&SelectedFrame, Result<Frameset, ImportError>)> {
        let (Some(onto), Some(Ok(reading))) = (&self.onto, &self.reading) else { return None };
        reading.is_specification_alone().then(|| (onto, reading.added_to(&onto.frameset)))
    }

    /// The frameset that the review comes to.
    ///
    /// # Errors
    /// What is still missing.
    pub(crate) fn frameset(&self) -> Result<Frameset, ReviewError> {
        match &self.reading {
            None => Err(ReviewError::NoTable),
            Some(Err(why)) => Err(why.clone().into()),
            Some(Ok(reading)) => {
                let maker = if self.maker.trim().is_empty() && self.model.trim().is_empty() {
                    labels::UNNAMED
                } else {
                    self.maker.trim()
                };
                Ok(reading.to_frameset(maker, &self.model)?)
            }
        }
    }
}
