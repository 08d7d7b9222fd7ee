//! Bytes and texts cut in every way that could be meant.

use super::grid::{self, Grid, Separator};
use super::reading::{Layout, Orientation, Reading, Source};
use super::{ImportError, MAX_COLUMNS, MAX_ROWS, workbook};
use crate::frameset::FileKind;

/// Reads a pasted table.
///
/// # Errors
/// What is empty, too large, no table, or without the name of any figure.
pub fn read_text(text: &str) -> Result<Reading, ImportError> {
    read_with_remarks(text, Vec::new())
}

/// Reads a file: XLSX by its first bytes, else text in UTF-8, in UTF-16 with its mark, or, failing that, in Windows-1252,
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
    Reading::first(Source { layouts, remarks }).map_err(|e| match (e, widest) {
        (ImportError::NoFigures | ImportError::NotATable, Some(width)) => ImportError::TooWide(width),
        (e, _) => e,
    })
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
        Separator::Sheet => false,
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
    for (name, grid) in sheets {
        push_both_ways(&mut layouts, Separator::Sheet, several.then_some(name), grid);
    }
    if layouts.is_empty() {
        return Err(ImportError::Empty);
    }
    Reading::first(Source { layouts, remarks: Vec::new() })
}
