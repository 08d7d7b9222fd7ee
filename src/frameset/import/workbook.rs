//! Spreadsheet files (XLSX) as grids of texts, one a sheet. Merged cells that hold a number give it to every cell they
//! cover.
//!
//! Invariant: no more is unpacked or held than a geometry table can need, whatever the file claims of itself.

use std::io::{Cursor, Read};

use calamine::{DataRef, Reader, Xlsx};

use super::ImportError;
use super::grid::{Grid, tidy};
use super::numeral::{self, DecimalMark};
use super::{MAX_COLUMNS, MAX_ROWS};

/// The most bytes that a spreadsheet file may unpack to. A geometry table with its styles unpacks to some hundred
/// kilobytes.
const MAX_UNPACKED: u64 = 32 * 1024 * 1024;
/// The most sheets that are looked at.
const MAX_SHEETS: usize = 40;

/// Whether the bytes begin as a ZIP archive does, which an XLSX file is.
pub(super) fn is_archive(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04")
}

/// All sheets with any text, by name.
pub(super) fn sheets(bytes: &[u8]) -> Result<Vec<(String, Grid)>, ImportError> {
    check_size(bytes)?;
    let refuse = |e: calamine::XlsxError| ImportError::Workbook(e.to_string());
    let mut workbook: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(refuse)?;
    let mut sheets = Vec::new();
    for name in workbook.sheet_names().into_iter().take(MAX_SHEETS) {
        let Some(mut cells) = sheet(&mut workbook, &name)? else { continue };
        let merged = workbook.merge_cells_by_sheet_name(&name).unwrap_or_default();
        for region in merged {
            spread(&mut cells, region.start, region.end);
        }
        cells.retain(|row| row.iter().any(|c| !c.is_empty()));
        if !cells.is_empty() {
            sheets.push((name, Grid::new(cells, Vec::new())));
        }
    }
    Ok(sheets)
}

/// Unpacks every part of the archive once, only to count.
fn check_size(bytes: &[u8]) -> Result<(), ImportError> {
    let refuse = |e: zip::result::ZipError| ImportError::Workbook(e.to_string());
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).map_err(refuse)?;
    let mut left = MAX_UNPACKED;
    for index in 0..archive.len() {
        let part = archive.by_index(index).map_err(refuse)?;
        let unpacked =
            std::io::copy(&mut part.take(left + 1), &mut std::io::sink()).map_err(|e| ImportError::Workbook(e.to_string()))?;
        left = left.checked_sub(unpacked).ok_or(ImportError::TooLarge)?;
    }
    Ok(())
}

fn sheet(workbook: &mut Xlsx<Cursor<&[u8]>>, name: &str) -> Result<Option<Vec<Vec<String>>>, ImportError> {
    // A sheet of charts has no cells.
    let Ok(mut reader) = workbook.worksheet_cells_reader(name) else { return Ok(None) };
    let mut cells: Vec<Vec<String>> = Vec::new();
    loop {
        let cell = reader.next_cell().map_err(|e| ImportError::Workbook(e.to_string()))?;
        let Some(cell) = cell else { break };
        let text = text_of(cell.get_value());
        if text.is_empty() {
            continue;
        }
        let (row, column) = cell.get_position();
        let (row, column) = (row as usize, column as usize);
        if column >= MAX_COLUMNS {
            return Err(ImportError::TooWide(column + 1));
        }
        if row >= MAX_ROWS {
            return Err(ImportError::TooLong(row + 1));
        }
        if cells.len() <= row {
            cells.resize(row + 1, Vec::new());
        }
        if let Some(line) = cells.get_mut(row) {
            if line.len() <= column {
                line.resize(column + 1, String::new());
            }
            if let Some(slot) = line.get_mut(column) {
                *slot = text;
            }
        }
    }
    Ok(Some(cells))
}

fn text_of(value: &DataRef) -> String {
    match value {
        DataRef::Int(n) => n.to_string(),
        // The shortest text that gives the number back, without the noise of a computed cell.
        DataRef::Float(x) => format!("{}", (x * 1e6).round() / 1e6),
        DataRef::String(s) => tidy(s),
        DataRef::SharedString(s) => tidy(s),
        DataRef::Bool(b) => b.to_string(),
        DataRef::DateTimeIso(s) | DataRef::DurationIso(s) => s.clone(),
        DataRef::DateTime(d) => format!("{}", d.as_f64()),
        DataRef::Error(_) | DataRef::Empty => String::new(),
    }
}

/// A number in a merged cell counts for all that it covers.
fn spread(cells: &mut [Vec<String>], start: (u32, u32), end: (u32, u32)) {
    let text = cells.get(start.0 as usize).and_then(|r| r.get(start.1 as usize)).cloned().unwrap_or_default();
    if !numeral::read(&text, DecimalMark::Point).is_numeric() {
        return;
    }
    let (first_row, first_column) = (start.0 as usize, start.1 as usize);
    for line in cells.iter_mut().take(end.0 as usize + 1).skip(first_row) {
        for column in first_column..=(end.1 as usize).min(MAX_COLUMNS) {
            if line.len() <= column {
                line.resize(column + 1, String::new());
            }
            if let Some(slot) = line.get_mut(column) {
                slot.clone_from(&text);
            }
        }
    }
}
