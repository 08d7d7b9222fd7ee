//! The tables of what fits as CSV and Markdown: the words of each cell, in CSV with the reason beside it.

use super::{LineEnd, csv_line, markdown_text};
use crate::words::FitTable;

/// Comma-separated values (RFC 4180): one line a cell, with row, column, words and reason.
#[must_use]
pub fn fit_csv(table: &FitTable) -> String {
    let mut out = csv_line(&["row", "column", "says", "reason"], LineEnd::CrLf);
    for row in &table.rows {
        for (cell, column) in row.cells.iter().zip(&table.columns) {
            out.push_str(&csv_line(&[&row.label, column, &cell.text, &cell.detail], LineEnd::CrLf));
        }
    }
    out
}

/// A Markdown table with a mark before each cell's words.
#[must_use]
pub fn fit_markdown(table: &FitTable) -> String {
    let mut out = format!("| {} |", markdown_text(&table.corner));
    for column in &table.columns {
        out.push_str(&format!(" {} |", markdown_text(column)));
    }
    out.push_str("\n|---|");
    out.push_str(&"---|".repeat(table.columns.len()));
    for row in &table.rows {
        out.push_str(&format!("\n| {} |", markdown_text(&row.label)));
        for cell in &row.cells {
            let words = format!("{} {}", cell.mark.sign(), markdown_text(&cell.text));
            out.push_str(&format!(" {} |", words.trim_start()));
        }
    }
    out.push('\n');
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::FrameIndex;
    use crate::words::{FitCell, FitMark, FitRow};

    #[test]
    fn cells_are_guarded() {
        let cell = FitCell { text: "fits with a | b".to_owned(), detail: "=1, \"so\"".to_owned(), mark: FitMark::With };
        let table = FitTable {
            corner: "Part".to_owned(),
            frames: vec![FrameIndex(0)],
            columns: vec!["A Quern, L".to_owned()],
            rows: vec![FitRow { label: "Crank".to_owned(), cells: vec![cell] }],
        };
        assert_eq!(fit_csv(&table), "row,column,says,reason\r\nCrank,\"A Quern, L\",fits with a | b,\"'=1, \"\"so\"\"\"\r\n");
        let markdown = fit_markdown(&table);
        assert!(markdown.contains("| Crank | ◐ fits with a \\| b |"), "{markdown}");
    }
}
