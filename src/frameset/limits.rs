//! The most that is accepted: bytes of a file, characters of a text. One table for reading and for writing, so that what
//! is written can be read back.

use std::fmt;

use super::value_error::ValueError;

/// Kind of a file, by which its size is limited.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// A frame file, with one frameset.
    Frame,
    /// A comparison with its framesets.
    Lineup,
    /// A geometry table: CSV, text or a workbook, in a file or pasted.
    Table,
    /// A picture or page that Spandrel published.
    Published,
    /// A bicycle given by its parameters.
    Parameters,
}

const MB: usize = 1 << 20;

impl FileKind {
    /// The largest file of this kind, bytes.
    ///
    /// A frame file with every field has 3 kB, and a table is no larger: 4 MB is a thousand of them. A line-up holds up to
    /// 10,000 framesets of 3.6 kB each, which are 36 MB (measured on the sample comparison). A page carries a line-up in
    /// base 64, which is a third longer, and its drawings.
    #[must_use]
    pub const fn max_bytes(self) -> usize {
        match self {
            Self::Frame | Self::Table | Self::Parameters => 4 * MB,
            Self::Lineup => 64 * MB,
            Self::Published => 128 * MB,
        }
    }

    /// Name in sentences, with its article.
    #[must_use]
    pub const fn with_article(self) -> &'static str {
        match self {
            Self::Frame => "a frame file",
            Self::Lineup => "a line-up",
            Self::Table => "a geometry table",
            Self::Published => "a picture or page",
            Self::Parameters => "a file of parameters",
        }
    }

    /// The limit as people read it: `4 MB`.
    #[must_use]
    pub fn limit(self) -> String {
        format!("{} MB", self.max_bytes() / MB)
    }
}

/// Kind of a text, by which its length is limited.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextKind {
    /// A name, label or title: one line.
    Name,
    /// Any other words of one line: a standard, a need, a source, a reason.
    Words,
    /// A path of a file or folder.
    Path,
    /// Notes and other words of many lines.
    Notes,
}

impl TextKind {
    /// The longest text of this kind, characters. A line of a wide window holds about 200; Linux has no path above 4,096
    /// bytes (`PATH_MAX`); 20,000 are ten printed pages.
    #[must_use]
    pub const fn max_characters(self) -> usize {
        match self {
            Self::Name => 200,
            Self::Words => 1000,
            Self::Path => 4096,
            Self::Notes => 20_000,
        }
    }

    /// The kind of the text that a field of a file holds.
    #[must_use]
    pub fn of_field(field: &str) -> Self {
        match field {
            "maker" | "model" | "label" | "size" | "name" | "title" | "subtitle" | "author" | "date" => Self::Name,
            "came_from" | "path" | "file" | "folder" | "published_in" => Self::Path,
            "note" | "notes" | "words" => Self::Notes,
            _ => Self::Words,
        }
    }

    /// Checks a text of this kind; `what` names it in the refusal, as in "the maker".
    ///
    /// # Errors
    /// A text that is too long.
    pub fn check(self, what: &str, text: &str) -> Result<(), ValueError> {
        // A character has at least one byte, so that most texts need not be counted.
        if text.len() <= self.max_characters() { Ok(()) } else { self.check_length(what, text.chars().count()) }
    }

    /// The same for a length that is known, in characters.
    ///
    /// # Errors
    /// As [`TextKind::check`].
    pub fn check_length(self, what: &str, characters: usize) -> Result<(), ValueError> {
        let most = self.max_characters();
        if characters <= most {
            return Ok(());
        }
        Err(ValueError::TooLong { what: what.to_owned(), characters, most })
    }

    /// `text` with `behind` at its end, where that is too long with the end of `text` left out.
    #[must_use]
    pub fn with_behind(self, text: &str, behind: &str) -> String {
        let left = self.max_characters().saturating_sub(behind.chars().count());
        let end = text.char_indices().nth(left).map_or(text.len(), |(end, _)| end);
        format!("{}{behind}", text.get(..end).unwrap_or_default())
    }
}

/// A count with its thousands apart: `20,000`.
pub(super) fn grouped(count: usize) -> impl fmt::Display {
    Grouped(count)
}

struct Grouped(usize);

impl fmt::Display for Grouped {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.checked_div(1000) {
            Some(thousands) if thousands > 0 => write!(f, "{},{:03}", Grouped(thousands), self.0 % 1000),
            _ => write!(f, "{}", self.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_accepted_up_to_its_limit_in_characters() {
        assert_eq!(TextKind::Name.check("the maker", &"é".repeat(200)), Ok(()));
        let sentence = TextKind::Name.check("the maker", &"é".repeat(10_001)).unwrap_err().to_string();
        assert_eq!(sentence, "the maker has 10,001 characters: at most 200 are accepted");
        assert_eq!(TextKind::Name.with_behind("M", " copy"), "M copy");
        let longest = TextKind::Name.with_behind(&"é".repeat(200), " copy 2");
        assert_eq!((longest.chars().count(), longest.ends_with("é copy 2")), (200, true));
        assert_eq!(Grouped(1_002_003).to_string(), "1,002,003");
        assert_eq!(Grouped(999).to_string(), "999");
    }

    #[test]
    fn a_published_file_can_carry_the_largest_line_up() {
        assert!(FileKind::Published.max_bytes() > FileKind::Lineup.max_bytes() / 3 * 4);
        assert_eq!(FileKind::Lineup.limit(), "64 MB");
    }
}
