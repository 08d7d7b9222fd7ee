//! How a row of a table or a rule is known: said beside every verdict, so that nobody takes custom for a standard.

/// How something is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// Read in the named text.
    Published(&'static str),
    /// What workshops do; nobody prints it as a rule.
    CommonPractice,
    /// Known by heart, seen in no text: to be checked before it is relied on.
    FromMemory,
    /// The frame's or part's maker says so.
    Maker,
    /// It follows by arithmetic from what the maker says.
    Arithmetic,
}

impl Source {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published(text) => text,
            Self::CommonPractice => "common practice, no source",
            Self::FromMemory => "from memory",
            Self::Maker => "the maker's statement",
            Self::Arithmetic => "arithmetic on the maker's statement",
        }
    }
}
