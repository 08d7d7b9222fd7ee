//! Rows of text in columns, for a terminal.

use spandrel::units::{NO_BREAK_SPACE, THIN_SPACE, visible};
use spandrel::words::FitTable;

/// Text for a terminal: its spaces are plain ones, nothing in it is invisible.
pub(super) fn plain(text: &str) -> String {
    visible(text).replace([THIN_SPACE, NO_BREAK_SPACE], " ")
}

/// A table in columns.
pub(super) fn table_text(table: &FitTable) -> String {
    let head = std::iter::once(&table.corner).chain(&table.columns).map(|text| plain(text)).collect();
    let row = |r: &spandrel::words::FitRow| {
        std::iter::once(&r.label).chain(r.cells.iter().map(|c| &c.text)).map(|text| plain(text)).collect::<Vec<_>>()
    };
    let rows: Vec<Vec<String>> = std::iter::once(head).chain(table.rows.iter().map(row)).collect();
    in_columns(&rows, 1)
}

/// Rows in columns parted by two spaces: the first `left` of them begin together, the others end together.
pub(super) fn in_columns(rows: &[Vec<String>], left: usize) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let widths: Vec<usize> =
        (0..columns).map(|c| rows.iter().filter_map(|r| r.get(c)).map(|t| t.chars().count()).max().unwrap_or(0)).collect();
    let mut out = String::new();
    for row in rows {
        let mut line = String::new();
        for (c, (text, width)) in row.iter().zip(&widths).enumerate() {
            let pad = " ".repeat(width.saturating_sub(text.chars().count()));
            if c < left { line.push_str(&format!("{text}{pad}  ")) } else { line.push_str(&format!("{pad}{text}  ")) }
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}
