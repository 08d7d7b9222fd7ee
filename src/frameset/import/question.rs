//! Questions: where a table can be read in more than one way. Each has its choices in words and, where the trade has a
//! usual reading, a proposal, which holds until another choice is made. A question without a proposal must be answered
//! before a frameset is made.

use crate::frameset::Figure;

/// What a question is about. Stable while the table is read anew, so that an answer keeps its question.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// How the text is cut, which way round it lies, which sheet.
    Layout,
    /// Decimal point or decimal comma.
    Decimals,
    /// The unit of lengths that say none.
    LengthUnit,
    /// What figure the row with this number is.
    Meaning(usize),
    /// The unit of a row's numbers.
    RowUnit(usize),
    /// Which end of ranges in a row.
    Range(usize),
    /// What a minus sign in a row means.
    Sign(usize),
    /// Whether blank cells of a row belong to the one before them.
    Merged(usize),
    /// How a line of the text is cut.
    Cut(usize),
    /// Several rows of one figure.
    Twice(Figure),
    /// Several sizes of one label.
    SameSize(String),
    /// What a weight or price of a specification's line is of.
    Part(usize),
    /// Which currency a sign in a specification's line is.
    Currency(usize),
    /// Which wheel a tyre clearance in a specification's line is for.
    Wheel(usize),
}

/// A question about the table, with its possible answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What it is about.
    pub subject: Subject,
    /// The question in a sentence.
    pub sentence: String,
    /// The choices in words.
    pub choices: Vec<String>,
    /// The usual reading, which holds while nothing is chosen.
    pub proposal: Option<usize>,
    /// What was chosen.
    pub answer: Option<usize>,
}

impl Question {
    /// The choice in force: the answer, else the proposal.
    #[must_use]
    pub fn in_force(&self) -> Option<usize> {
        self.answer.or(self.proposal)
    }

    /// Whether it must still be answered.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.in_force().is_none()
    }
}
