//! What panels and views are given to look at.

use super::document::Document;
use super::moment::Moment;
use super::session::Session;
use crate::lineup::{Findings, Lineup};
use crate::words::Table;

/// What panels may look at.
#[derive(Clone, Copy)]
pub(crate) struct Shown<'a> {
    /// The open document.
    pub(crate) document: &'a Document,
    /// What is remembered.
    pub(crate) session: &'a Session,
    /// What is not.
    pub(crate) moment: &'a Moment,
    /// The table of figures that belongs to the document.
    pub(crate) table: &'a Table,
}

impl Shown<'_> {
    /// The line-up.
    pub(crate) fn lineup(&self) -> &Lineup {
        self.document.lineup()
    }

    /// What follows from it.
    pub(crate) fn findings(&self) -> &Findings {
        self.document.findings()
    }
}
