//! The moment: what is neither saved nor remembered: the view in front, what is selected, how far a drawing is moved,
//! notices, an open question, files being read.

use std::collections::{BTreeMap, VecDeque};
use std::path::PathBuf;

use super::import_review::ImportReview;
use super::measure::Measure;
use super::question::Question;
use super::reader::Reader;
use super::sheet_edits::Asked;
use super::view_id::{ViewGroup, ViewId};
use super::viewport::Viewport;
use crate::disk::FileIdentity;
use crate::drawing::Page;
use crate::frameset::{Figure, FrameIndex, Frameset, SizeIndex};
use crate::lineup::{Lineup, MissingEntry};
use crate::units::visible;

/// Something that went wrong or is worth knowing, until it is put away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Notice {
    /// One sentence, with the file and the place in it where there is one.
    pub(crate) text: String,
    /// Whether it tells of sizes that followed the reference: the next one of these takes its place.
    pub(crate) is_of_sizes: bool,
}

/// Files being read, on a thread of their own, so that the window stays alive and reading can be stopped.
#[derive(Default)]
pub(crate) struct Reading {
    /// Thread that reads the files.
    pub(crate) reader: Reader,
    /// Frames that were read, each with its file.
    pub(crate) frames: Vec<(Frameset, FileIdentity)>,
    /// Line-ups that were read, with their files.
    pub(crate) lineups: Vec<(Lineup, FileIdentity)>,
    /// How many files were asked for.
    pub(crate) total: usize,
    /// How many of them were read or refused.
    pub(crate) done: usize,
    /// Whether the findings of the starting files are still to come.
    pub(crate) awaits_findings: bool,
    /// Whether the window has waited for a file in vain.
    pub(crate) is_slow: bool,
    /// Whether the frames are the starting point rather than a change.
    pub(crate) is_start: bool,
}

/// A field of the Frameset view that waits for the keyboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Awaited {
    /// The maker's name, the first field of a new frame.
    Maker,
    /// Where this is entered.
    Entry(MissingEntry),
}

/// What lasts as long as the window.
pub(crate) struct Moment {
    /// The view in front.
    pub(crate) view: ViewId,
    /// The view of each group that was last in front.
    pub(crate) last_of_group: BTreeMap<ViewGroup, ViewId>,
    /// Place of the selected frame.
    pub(crate) selected: FrameIndex,
    /// The figure that Check explains.
    pub(crate) figure: Figure,
    /// Which possible error of which frame Check draws, by the places of frame and error.
    pub(crate) slip: Option<(FrameIndex, usize)>,
    /// Size and figure that last had the keyboard in the maker's table.
    pub(crate) cell: Option<(SizeIndex, Figure)>,
    /// What the Frameset view is to lead the keyboard to.
    pub(crate) awaited: Option<Awaited>,
    /// How a view's drawing is moved, and on what page it was seen so; a view that is absent is fitted.
    pub(crate) viewports: BTreeMap<ViewId, (Viewport, Page)>,
    /// The sheet asked for.
    pub(crate) sheet: Asked,
    /// Where the sheets of a line-up that is in no file yet were published, by their names.
    pub(crate) published: Vec<(String, PathBuf)>,
    /// Whether the panel with the overview's rows and limits is open.
    pub(crate) has_overview_rows: bool,
    /// Whether the sheet is fitted into its room rather than shown at true pixels.
    pub(crate) sheet_fits: bool,
    /// By how much the next frame enlarges the drawing in front; 1 leaves it.
    pub(crate) zoom: f64,
    /// What was measured on the outline.
    pub(crate) measure: Option<Measure>,
    /// Notices that stand open, newest last.
    pub(crate) notices: Vec<Notice>,
    /// Left end of the status line.
    pub(crate) status: String,
    /// The question that waits for an answer.
    pub(crate) question: Option<Question>,
    /// Files being read.
    pub(crate) reading: Option<Reading>,
    /// Tables that wait for their review.
    pub(crate) tables: VecDeque<ImportReview>,
    /// Whether the window may close without asking.
    pub(crate) may_close: bool,
    /// The window's title as it was last set.
    pub(crate) title: String,
}

impl Default for Moment {
    fn default() -> Self {
        Self {
            view: ViewId::default(),
            last_of_group: BTreeMap::new(),
            selected: FrameIndex(0),
            figure: Figure::Trail,
            slip: None,
            cell: None,
            awaited: None,
            viewports: BTreeMap::new(),
            sheet: Asked::default(),
            published: Vec::new(),
            has_overview_rows: false,
            sheet_fits: true,
            zoom: 1.0,
            measure: None,
            notices: Vec::new(),
            status: String::new(),
            question: None,
            reading: None,
            tables: VecDeque::new(),
            may_close: false,
            title: String::new(),
        }
    }
}

impl Moment {
    /// Brings a view to the front.
    pub(crate) fn show(&mut self, view: ViewId) {
        self.view = view;
        self.last_of_group.insert(view.group(), view);
    }

    /// Brings the view of a group to the front that was last seen there, or its first one.
    pub(crate) fn show_group(&mut self, group: ViewGroup) {
        let last = self.last_of_group.get(&group).copied();
        if let Some(view) = last.or_else(|| group.views().next()) {
            self.show(view);
        }
    }

    /// Adds a notice, once.
    pub(crate) fn notify(&mut self, text: impl Into<String>) {
        let notice = Notice { text: visible(&text.into()).into_owned(), is_of_sizes: false };
        self.notices.retain(|known| *known != notice);
        self.notices.push(notice);
    }

    /// Adds a notice of sizes that followed the reference, in the place of the last one.
    pub(crate) fn notify_of_sizes(&mut self, text: &str) {
        self.notices.retain(|known| !known.is_of_sizes);
        self.notices.push(Notice { text: visible(text).into_owned(), is_of_sizes: true });
    }
}
