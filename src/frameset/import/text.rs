//! Bytes and texts cut in every way that could be meant.

use super::grid::{self, Grid, Separator};
use super::reading::{Layout, Orientation, Reading, Source};
use super::specification::{SpecificationLine, take_from_rows, take_from_text};
use super::{ImportError, MAX_COLUMNS, MAX_ROWS, html, workbook};
use crate::frameset::FileKind;

/// Reads a pasted table, specification list, or both; also as a web page's HTML.
///
/// # Errors
/// What is empty, too large, no table, or without the name of any figure.
pub fn read_text(text: &str) -> Result<Reading, ImportError> {
    read_with_remarks(text, Vec::new())
}

/// Reads what was copied of a web page: its HTML where that holds the copied text and can be read, since it has the cells
/// of tables, else the text.
///
/// # Errors
/// As [`read_text`].
pub fn read_copied(text: &str, page: &str) -> Result<Reading, ImportError> {
    if page.len() <= FileKind::Table.max_bytes() && html::is_page(page) && holds(page, text) {
        let reading = read_text(page);
        if reading.is_ok() {
            return reading;
        }
    }
    read_text(text)
}

/// Whether a page shows the first words of a text: another program may have copied since.
fn holds(page: &str, text: &str) -> bool {
    const LETTERS: usize = 30;
    let bare = |text: &str| -> String { text.chars().filter(|c| c.is_alphanumeric()).collect() };
    let wanted: String = bare(text).chars().take(LETTERS).collect();
    html::rows(page).is_ok_and(|rows| bare(&rows.iter().flatten().cloned().collect::<String>()).contains(&wanted))
}

/// Reads a file: XLSX by its first bytes, HTML by its tags, else text in UTF-8, in UTF-16 with its mark, or, failing that, in Windows-1252,
/// which is then said.
///
/// # Errors
/// As [`read_text`], and for what is neither text nor XLSX.
pub fn read_bytes(bytes: &[u8]) -> Result<Reading, ImportError> {
    if bytes.len() > FileKind::Table.max_bytes() {
        return Err(ImportError::TooLarge);
    }
    if workbook::is_archive(bytes) {
        return read_workbook(bytes);
    }
    if let Some((encoding, _)) = encoding_rs::Encoding::for_bom(bytes) {
        let (text, _, failed) = encoding.decode(bytes);
        return if failed { Err(ImportError::Binary) } else { read_text(&text) };
    }
    if let Ok(text) = std::str::from_utf8(bytes) {
        return read_text(text);
    }
    if bytes.iter().any(|b| matches!(b, 0..=8 | 14..=26 | 28..=31)) {
        return Err(ImportError::Binary);
    }
    let (text, _, _) = encoding_rs::WINDOWS_1252.decode(bytes);
    read_with_remarks(&text, vec!["The text is not UTF-8. It was read as Windows-1252. Check the accented letters.".to_owned()])
}

fn read_with_remarks(text: &str, remarks: Vec<String>) -> Result<Reading, ImportError> {
    if text.len() > FileKind::Table.max_bytes() {
        return Err(ImportError::TooLarge);
    }
    let text = plain(text);
    if text.trim().is_empty() {
        return Err(ImportError::Empty);
    }
    if text.contains(|c: char| c.is_control() && !matches!(c, '\n' | '\t')) {
        return Err(ImportError::Binary);
    }
    if html::is_page(&text) {
        return read_page(&text, remarks);
    }
    let (text, specification) = take_from_text(&text);
    let rows = text.lines().filter(|l| !l.trim().is_empty()).count();
    let cuts: Vec<Separator> = Separator::OF_TEXT.into_iter().filter(|s| worth_cutting(&text, *s, rows)).collect();
    if rows > MAX_ROWS {
        // Prose of any length is told that it is no table; a table, that it is too long.
        return Err(if cuts.is_empty() { ImportError::NotATable } else { ImportError::TooLong(rows) });
    }
    let mut layouts = Vec::new();
    let mut widest = None;
    for separator in cuts {
        let Some(grid) = grid::cut(&text, separator) else { continue };
        if grid.width() > MAX_COLUMNS {
            widest = widest.max(Some(grid.width()));
            continue;
        }
        push_both_ways(&mut layouts, separator, None, grid);
    }
    if let (true, Some(width)) = (layouts.is_empty() || widest.is_some_and(|w| w > 5 * MAX_COLUMNS), widest) {
        return Err(ImportError::TooWide(width));
    }
    let other_lines = if specification.is_empty() { Vec::new() } else { filled_lines(&text) };
    Reading::first(Source { layouts, specification, other_lines, remarks }).map_err(|e| match (e, widest) {
        (ImportError::NoFigures | ImportError::NotATable, Some(width)) => ImportError::TooWide(width),
        (e, _) => e,
    })
}

fn filled_lines(text: &str) -> Vec<String> {
    text.lines().map(grid::tidy).filter(|line| !line.is_empty()).collect()
}

/// A web page, or what was copied of one.
fn read_page(text: &str, remarks: Vec<String>) -> Result<Reading, ImportError> {
    let (rows, specification) = take_from_rows(html::rows(text)?, 0);
    let other_lines = if specification.is_empty() { Vec::new() } else { joined(&rows) };
    let mut layouts = Vec::new();
    if rows.iter().any(|row| row.iter().filter(|cell| !cell.is_empty()).count() >= 2) {
        push_both_ways(&mut layouts, Separator::Page, None, Grid::new(rows, Vec::new()));
    }
    Reading::first(Source { layouts, specification, other_lines, remarks })
}

fn joined(rows: &[Vec<String>]) -> Vec<String> {
    let line = |row: &Vec<String>| row.iter().filter(|c| !c.is_empty()).cloned().collect::<Vec<_>>().join(" ");
    rows.iter().map(line).filter(|line| !line.is_empty()).collect()
}

/// Line ends, page ends and exotic blanks made plain.
fn plain(text: &str) -> String {
    let text = text.trim_start_matches('\u{feff}').replace("\r\n", "\n");
    text.chars()
        .filter(|c| !matches!(c, '\u{feff}' | '\u{200b}' | '\u{ad}' | '\u{200e}' | '\u{200f}'))
        .map(|c| match c {
            '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => '\n',
            c => c,
        })
        .collect()
}

/// Whether a separator stands in enough lines to be one. Blanks are tried only where no sign stands between cells.
fn worth_cutting(text: &str, separator: Separator, rows: usize) -> bool {
    let lines = |f: &dyn Fn(&str) -> bool| text.lines().filter(|l| f(l)).count();
    let with = |c: &dyn Fn(char) -> bool| lines(&|l| l.chars().any(c));
    let tabs = with(&|c| c == '\t');
    let bars = with(&|c| matches!(c, '|' | '─'..='╿'));
    let semicolons = with(&|c| c == ';');
    match separator {
        Separator::Tab => tabs > 0,
        Separator::Bar => bars * 2 >= rows,
        Separator::Semicolon => semicolons * 2 >= rows,
        Separator::Comma => with(&|c| c == ',') * 2 >= rows,
        Separator::Blanks => tabs == 0 && lines(&|l| l.trim().contains("  ")) > 0,
        Separator::Blank => {
            tabs * 2 < rows && bars * 2 < rows && semicolons * 2 < rows && lines(&|l| l.trim().contains(' ')) * 2 >= rows
        }
        Separator::Lines => tabs * 2 < rows && semicolons * 2 < rows && bars * 2 < rows,
        Separator::Sheet | Separator::Page => false,
    }
}

fn push_both_ways(layouts: &mut Vec<Layout>, separator: Separator, sheet: Option<String>, grid: Grid) {
    layouts.push(Layout { separator, orientation: Orientation::FiguresDown, sheet: sheet.clone(), grid: grid.clone() });
    layouts.push(Layout { separator, orientation: Orientation::SizesDown, sheet, grid });
}

fn read_workbook(bytes: &[u8]) -> Result<Reading, ImportError> {
    let mut layouts = Vec::new();
    let sheets = workbook::sheets(bytes)?;
    let several = sheets.len() > 1;
    let mut specification: Vec<SpecificationLine> = Vec::new();
    let mut other_lines = Vec::new();
    let mut first_line = 0;
    for (name, grid) in sheets {
        let rows = grid.cells.len();
        let (cells, lines) = take_from_rows(grid.cells, first_line);
        first_line += rows;
        let has_lines = !lines.is_empty();
        specification.extend(lines);
        if has_lines {
            other_lines.extend(joined(&cells));
        }
        if !cells.is_empty() {
            push_both_ways(&mut layouts, Separator::Sheet, several.then_some(name), Grid::new(cells, Vec::new()));
        }
    }
    if layouts.is_empty() && specification.is_empty() {
        return Err(ImportError::Empty);
    }
    Reading::first(Source { layouts, specification, other_lines, remarks: Vec::new() })
}
