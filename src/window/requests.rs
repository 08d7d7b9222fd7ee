//! What panels ask for. They are given what they show behind `&` and push these; `apply` does them, in one place.

use std::path::PathBuf;

use super::commands::Command;
use super::edits::Edit;
use super::measure::Measure;
use super::question::Answer;
use super::sheet_edits::SheetPlace;
use super::view_id::ViewId;
use super::viewport::Viewport;
use crate::drawing::{Page, Paper};
use crate::frameset::{Figure, FrameIndex, SizeIndex};
use crate::lineup::MissingEntry;

/// A request of a panel.
#[derive(Debug)]
pub(crate) enum Request {
    /// A command of the table.
    Command(Command),
    /// A change of the line-up.
    Edit(Box<Edit>),
    /// Select the frame at this place.
    Select(FrameIndex),
    /// Explain this figure.
    Figure(Figure),
    /// Draw both ways what is perhaps wrong with the selected table, at this place among all that may be.
    Slip(usize),
    /// The figure of the size at this place has the keyboard in the maker's table.
    Cell(SizeIndex, Figure),
    /// Another part of a view's drawing, and the page that it was seen on; `None` fits it.
    Look(ViewId, Option<(Viewport, Page)>),
    /// A distance measured on the outline, or none.
    Measure(Option<Measure>),
    /// Words for the left end of the status line.
    Say(String),
    /// Files to be opened.
    Open(Vec<PathBuf>),
    /// Forget the recent files.
    ForgetRecent,
    /// Put the notice at this place away.
    Dismiss(usize),
    /// Put all notices away.
    DismissAll,
    /// Stop reading files.
    StopReading,
    /// The answer to a question.
    Answer(Answer),
    /// Patterns are printed on this.
    Paper(Paper),
    /// Show the rear from above in Parts, or the tables.
    RearFromAbove(bool),
    /// Save the bag's pattern for the frame at this place.
    Pattern(FrameIndex),
    /// This sheet in front.
    Sheet(SheetPlace),
    /// Lead the keyboard to where this is entered for a frame, in the Frameset view.
    Enter(FrameIndex, MissingEntry),
    /// The field that was waited for has the keyboard.
    Entered,
    /// The panel with the overview's rows and limits, open or not.
    OverviewRows(bool),
    /// The whole sheet in the room that there is, or true pixels.
    SheetFits(bool),
    /// The line-up's panel was made this wide, points.
    PanelWidth(f32),
}

/// The wishes of one frame, in order.
#[derive(Debug, Default)]
pub(crate) struct Requests(Vec<Request>);

impl Requests {
    /// Adds a request behind the others.
    pub(crate) fn push(&mut self, request: Request) {
        self.0.push(request);
    }

    /// Adds a command.
    pub(crate) fn command(&mut self, command: Command) {
        self.push(Request::Command(command));
    }

    /// Adds a change.
    pub(crate) fn edit(&mut self, edit: Edit) {
        self.push(Request::Edit(Box::new(edit)));
    }

    /// Takes them all.
    pub(crate) fn take(&mut self) -> Vec<Request> {
        std::mem::take(&mut self.0)
    }
}
