//! What may be asked and answered: data. `questions.rs` asks, and `apply` does what follows.

use std::path::PathBuf;

use super::import_review::ImportReview;
use super::labels::questions as labels;
use crate::disk::{FileIdentity, Obstacle, Occupant};
use crate::frameset::{FrameIndex, Frameset};
use crate::lineup::{FrameKey, Lineup};

/// What goes on while the window is to close.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Busy {
    /// A sheet is published.
    Publishing,
    /// A picture or a pattern is made.
    Picture,
}

/// How the work is to end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ending {
    /// Nobody has said yet.
    Asked,
    /// The window closes when the work is done.
    Waiting,
    /// The work was told to stop; the window closes when it has.
    Stopping,
}

/// What is said of a line-up that was left unsaved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Offer {
    /// Its title, or that of its file.
    pub(crate) name: String,
    /// The file that it belongs to.
    pub(crate) file: Option<PathBuf>,
    /// How many frames it holds.
    pub(crate) frames: usize,
    /// How long ago it was last changed, in words.
    pub(crate) age: Option<String>,
    /// Whether its file holds something else now than when it was opened.
    pub(crate) has_changed: bool,
    /// Which of how many it is.
    pub(crate) number: (usize, usize),
}

/// What a path is wanted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Purpose {
    /// Files are opened.
    Open,
    /// Saving the line-up.
    SaveLineup,
    /// Saving this frame as a frame file.
    SaveFrame(FrameKey),
    /// Saving a picture.
    SavePicture,
    /// Saving the bag's pattern for the frame at this place.
    SavePattern(FrameIndex),
    /// Saving the sheet in front.
    SaveSheet,
    /// Publishing the sheet in front: a folder.
    Publish,
}

/// What is saved in a file that may hold something else.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Saving {
    /// The line-up.
    Lineup,
    /// A frame of it.
    Frame(FrameKey),
}

/// What was about to happen when unsaved work came in between.
#[derive(Clone, Debug)]
pub(crate) enum Then {
    /// An empty line-up.
    New,
    /// Another line-up, already read.
    Replace(Box<Lineup>, FileIdentity),
    /// The sample comparison.
    Sample,
    /// The unsaved line-up that is offered.
    Restore,
    /// The window closes.
    Quit,
}

/// A side of a picture that is not a number of pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", labels::the_must_be_a_whole(.0))]
pub(crate) struct SideError(&'static str);

/// Size and background of a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct PictureChoice {
    /// Width as typed, pixels.
    pub(crate) width: String,
    /// Height as typed, pixels.
    pub(crate) height: String,
    /// PNG rather than SVG.
    pub(crate) is_png: bool,
    /// Whether the background is dark.
    pub(crate) is_dark: bool,
}

/// An open question.
#[derive(Clone, Debug)]
pub(crate) enum Question {
    /// Save, discard or cancel.
    Unsaved(Then),
    /// A path to type, and why it has to be typed.
    Path {
        /// What the path is for.
        purpose: Purpose,
        /// As typed so far.
        text: String,
        /// Why it is asked here.
        why: String,
    },
    /// Whether a picture, a pattern or a sheet replaces what is there.
    ReplacePicture {
        /// What is saved.
        purpose: Purpose,
        /// File that is written.
        path: PathBuf,
        /// What is there.
        occupant: Occupant,
    },
    /// The window is to close, and something still goes on.
    Busy {
        /// What goes on.
        busy: Busy,
        /// How it is to end.
        ending: Ending,
        /// The line-up whose unsaved changes were asked about.
        revision: u64,
    },
    /// What picture to save.
    Picture(PictureChoice),
    /// A table to review before it is imported.
    Import(Box<ImportReview>),
    /// A line-up that was left unsaved.
    Restore(Offer),
    /// Something would be lost by saving.
    SaveOver {
        /// What is saved.
        saving: Saving,
        /// File that is written.
        path: PathBuf,
        /// What stands in the way.
        obstacle: Obstacle,
        /// What was agreed to before.
        agreed: Vec<Obstacle>,
    },
    /// A line-up that another window has open.
    OpenElsewhere(Then),
    /// The comparison's title and notes.
    Words {
        /// The title as typed so far.
        title: String,
        /// The notes as typed so far.
        notes: String,
    },
    /// The user guide, open at the page of this place.
    Guide(usize),
    /// List of all keys.
    Keyboard,
    /// What the program is.
    About,
}

/// An answer to the open question.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Answer {
    /// Nothing shall happen.
    Cancel,
    /// Saves first, and goes on.
    Save,
    /// Goes on without saving.
    Discard,
    /// The typed paths, one a line.
    Paths(Purpose, Vec<PathBuf>),
    /// Saves a picture of this size and background.
    Picture(PictureChoice),
    /// This frameset from a table, and the file that it came from.
    Imported(Box<Frameset>, Option<String>),
    /// This frameset in the place of that of the frame, which a specification was added to.
    Added(FrameKey, Box<Frameset>),
    /// Restore what was left unsaved.
    Restore,
    /// Discard what was left unsaved.
    DiscardLeft,
    /// Save beside the file.
    KeepBoth,
    /// Read the file again.
    ReadAgain,
    /// Replace the file, or make what is absent.
    Replace,
    /// Save in another place.
    SaveElsewhere,
    /// Open it all the same.
    Open,
    /// Close when what goes on has ended.
    Wait,
    /// Stop what goes on, and close.
    StopWork,
    /// This title and these notes.
    Words(String, String),
}

impl PictureChoice {
    /// Sizes offered in one click.
    pub(crate) const SIZES: [(&'static str, u32, u32); 4] =
        [("1920 × 1080", 1920, 1080), ("3840 × 2160", 3840, 2160), ("1080 × 1080", 1080, 1080), ("1080 × 1920", 1080, 1920)];

    /// The size in pixels.
    ///
    /// # Errors
    /// A side that is not a number of pixels.
    pub(crate) fn size(&self) -> Result<(u32, u32), SideError> {
        let side = |text: &str, name: &'static str| match text.trim().parse::<u32>() {
            Ok(pixels) if (320..=7680).contains(&pixels) => Ok(pixels),
            _ => Err(SideError(name)),
        };
        Ok((side(&self.width, labels::WIDTH)?, side(&self.height, labels::HEIGHT)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn picture_sizes_are_checked() {
        let choice = |width: &str, height: &str| PictureChoice {
            width: width.to_owned(),
            height: height.to_owned(),
            is_png: true,
            is_dark: false,
        };
        assert_eq!(choice("1920", " 1080 ").size(), Ok((1920, 1080)));
        for (width, height) in [("0", "1080"), ("1920", "-4"), ("99999", "10"), ("a", "b"), ("", "")] {
            assert!(choice(width, height).size().is_err());
        }
    }
}
