//! Where a number of a table or a rule comes from: said beside every verdict, so that nobody takes custom for a standard.

/// Where a number or a rule comes from.
///
/// A number from outside is a standard's or trade practice; the others are what this frame's or part's own maker states.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A standard, law or paper, named; it says so where it is quoted from memory.
    Standard(&'static str),
    /// What the trade does; checked against no standard and no paper.
    TradePractice,
    /// The frame's or part's maker says so.
    Maker,
    /// It follows by arithmetic from what the maker says.
    Arithmetic,
}
