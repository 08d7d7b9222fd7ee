//! A pasted text cut into cells by one kind of separator. It does not know what the cells mean; which separator is
//! right is decided by whoever understands more of the table (see `reading`).
//!
//! Invariant: every non-blank piece of the text is in some cell, save lines of a Markdown or drawn table that hold
//! nothing but its rules.

use super::refit;

/// What stands between cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Separator {
    /// Tabulators, as spreadsheets and web pages copy.
    Tab,
    /// Upright bars, as in Markdown.
    Bar,
    /// Semicolons.
    Semicolon,
    /// Commas.
    Comma,
    /// Two or more blanks.
    Blanks,
    /// Single blanks, as text copied from a printed page.
    Blank,
    /// Line ends: one cell a line, so many to a row.
    Lines,
    /// Cells of a spreadsheet file.
    Sheet,
    /// Cells of a web page.
    Page,
}

impl Separator {
    /// Those of texts, the safest first.
    pub(super) const OF_TEXT: [Self; 7] =
        [Self::Tab, Self::Bar, Self::Semicolon, Self::Comma, Self::Blanks, Self::Blank, Self::Lines];

    /// In words.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Tab => "tabs",
            Self::Bar => "vertical bars",
            Self::Semicolon => "semicolons",
            Self::Comma => "commas",
            Self::Blanks => "several spaces",
            Self::Blank => "single spaces",
            Self::Lines => "line breaks",
            Self::Sheet => "spreadsheet cells",
            Self::Page => "cells of a web page",
        }
    }
}

/// Cells in rows, all rows as wide as the widest.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Grid {
    pub(super) cells: Vec<Vec<String>>,
    /// Rows that can be cut in more than one way, each with all its ways (the first is the one in `cells`).
    pub(super) other_cuts: Vec<(usize, Vec<Vec<String>>)>,
}

impl Grid {
    pub(super) fn new(mut cells: Vec<Vec<String>>, other_cuts: Vec<(usize, Vec<Vec<String>>)>) -> Self {
        let width = cells.iter().map(Vec::len).max().unwrap_or(0);
        for row in &mut cells {
            row.resize(width, String::new());
        }
        Self { cells, other_cuts }
    }

    pub(super) fn width(&self) -> usize {
        self.cells.first().map_or(0, Vec::len)
    }

    pub(super) fn cell(&self, row: usize, column: usize) -> &str {
        self.cells.get(row).and_then(|r| r.get(column)).map_or("", String::as_str)
    }

    /// Rows made columns.
    pub(super) fn turned(&self) -> Self {
        let cells =
            (0..self.width()).map(|c| self.cells.iter().map(|r| r.get(c).cloned().unwrap_or_default()).collect()).collect();
        Self { cells, other_cuts: Vec::new() }
    }
}

/// The text cut by one separator; `None` where that makes no table of two by two.
pub(super) fn cut(text: &str, separator: Separator) -> Option<Grid> {
    let grid = match separator {
        Separator::Tab => delimited(text, b'\t'),
        Separator::Semicolon => delimited(text, b';'),
        Separator::Comma => {
            let plain = delimited(text, b',')?;
            let (cells, cuts) = refit::join_decimals(plain.cells);
            Some(Grid::new(cells, cuts))
        }
        Separator::Bar => bars(text),
        Separator::Blanks => refit::by_blanks(text).map(|cells| Grid::new(cells, Vec::new())),
        Separator::Blank => refit::by_single_blanks(text).map(|cells| Grid::new(cells, Vec::new())),
        Separator::Lines => refit::by_lines(text).map(|cells| Grid::new(cells, Vec::new())),
        Separator::Sheet | Separator::Page => None,
    }?;
    let with_two = grid.cells.iter().filter(|r| r.iter().filter(|c| !c.is_empty()).count() >= 2).count();
    // A single figure of a single size, "Stack <tab> 580", is a table too where the separator leaves no doubt.
    let least = if matches!(separator, Separator::Tab | Separator::Bar | Separator::Semicolon) { 1 } else { 2 };
    (with_two >= least).then_some(grid)
}

/// Cells trimmed, line breaks inside them made blanks.
pub(super) fn tidy(cell: &str) -> String {
    let mut tidy = String::with_capacity(cell.len());
    for word in cell.split(|c: char| c.is_whitespace() && c != '\u{202f}' && c != '\u{a0}').filter(|w| !w.is_empty()) {
        if !tidy.is_empty() {
            tidy.push(' ');
        }
        tidy.push_str(word);
    }
    tidy
}

fn delimited(text: &str, delimiter: u8) -> Option<Grid> {
    if !text.as_bytes().contains(&delimiter) {
        return None;
    }
    // A first line `sep=;` is a note to spreadsheets.
    let text = match text.split_once('\n') {
        Some((first, rest)) if first.trim().to_ascii_lowercase().starts_with("sep=") => rest,
        _ => text,
    };
    let quoted = parse(text, delimiter, true);
    // A cell over more than a few lines is an inch mark at the start of a cell, not a quotation.
    let sound = |cells: &Vec<Vec<String>>| cells.iter().flatten().all(|c| c.bytes().filter(|b| *b == b'\n').count() <= 4);
    let cells = match quoted {
        Some(cells) if sound(&cells) => cells,
        _ => parse(text, delimiter, false)?,
    };
    Some(Grid::new(cells.into_iter().map(|r| r.iter().map(|c| tidy(c)).collect()).collect(), Vec::new()))
}

fn parse(text: &str, delimiter: u8, quoting: bool) -> Option<Vec<Vec<String>>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .quoting(quoting)
        .from_reader(text.as_bytes());
    reader.records().map(|record| Some(record.ok()?.iter().map(str::to_owned).collect())).collect()
}

fn bars(text: &str) -> Option<Grid> {
    let lines: Vec<String> = text.lines().map(|l| l.replace(['│', '┃', '║', '¦'], "|")).collect();
    let filled = lines.iter().filter(|l| !l.trim().is_empty() && !is_rule(l)).count();
    if lines.iter().filter(|l| l.contains('|')).count() * 2 < filled {
        return None;
    }
    let mut cells = Vec::new();
    for line in &lines {
        let line = line.trim();
        if is_rule(line) {
            continue;
        }
        let inner = line.strip_prefix('|').unwrap_or(line);
        let inner = inner.strip_suffix('|').unwrap_or(inner);
        cells.push(inner.split('|').map(|c| tidy(c.trim().trim_matches(['*', '`', '_']))).collect());
    }
    Some(Grid::new(cells, Vec::new()))
}

/// A line of dashes and corners between the rows of a drawn or Markdown table.
fn is_rule(line: &str) -> bool {
    let line = line.trim();
    line.len() > 1
        && line.chars().all(|c| matches!(c, '|' | '-' | ':' | '+' | '=' | ' ' | '─'..='╿'))
        && ["--", "==", "─", "━", "═"].iter().any(|dash| line.contains(dash))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(text: &str, separator: Separator) -> Vec<String> {
        cut(text, separator).map_or(Vec::new(), |g| g.cells.iter().map(|r| r.join("|")).collect())
    }

    #[test]
    fn delimited_texts_are_cut_with_and_without_quotes() {
        assert_eq!(rows("Size\tS\tM\nStack\t580\t600", Separator::Tab), ["Size|S|M", "Stack|580|600"]);
        assert_eq!(rows("sep=;\nSize;S\nStack;\"580,5\"", Separator::Semicolon), ["Size|S", "Stack|580,5"]);
        assert_eq!(
            rows("Size,S\n\"Top tube, effective\",\"22 \"\"\"", Separator::Comma),
            ["Size|S", "Top tube, effective|22 \""]
        );
        assert_eq!(rows("A\t28 5/8\"\nB\t29\"", Separator::Tab), ["A|28 5/8\"", "B|29\""]);
        assert!(cut("no table here", Separator::Tab).is_none());
    }

    #[test]
    fn bars_of_markdown_and_of_drawn_tables() {
        let markdown = "| Size | S | M |\n|---|:-:|--:|\n| **Stack** | 580 | 600 |";
        assert_eq!(rows(markdown, Separator::Bar), ["Size|S|M", "Stack|580|600"]);
        let drawn = "┌──┬──┐\n│ Size │ S │\n├──┼──┤\n│ Stack │ 580 │\n└──┴──┘";
        assert_eq!(rows(drawn, Separator::Bar), ["Size|S", "Stack|580"]);
    }
}
