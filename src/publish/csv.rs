//! A comparison as comma-separated values (RFC 4180), for spreadsheets: one figure a line, numbers as numbers in the
//! file's units (mm, degrees, grams), the ± as 2u in a column of its own.
//!
//! Invariant: no cell is a formula: text that a spreadsheet would run begins with an apostrophe.

use crate::units::{expanded, visible};
use crate::words::{Table, TableRow};

/// Writes the table.
#[must_use]
pub fn csv(table: &Table) -> String {
    let mut head = vec!["figure".to_owned(), "unit".to_owned()];
    for column in &table.columns {
        head.push(column.title.clone());
        head.push(format!("± {}", column.title));
        head.push(format!("says {}", column.title));
    }
    let mut text = line(&head);
    for row in &table.rows {
        text.push_str(&line(&cells(row)));
    }
    text
}

fn cells(row: &TableRow) -> Vec<String> {
    let mut cells = vec![row.label.to_owned(), row.subject.file_unit().to_owned()];
    for cell in &row.cells {
        let number = |value: Option<f64>| value.map(|v| format!("{:.4}", v + 0.0)).unwrap_or_default();
        cells.push(number(cell.value));
        cells.push(number(cell.u.map(expanded)));
        cells.push(cell.mark.meaning().to_owned());
    }
    cells
}

fn line(cells: &[String]) -> String {
    let mut line = cells.iter().map(|c| csv_field(c)).collect::<Vec<_>>().join(",");
    line.push_str("\r\n");
    line
}

/// One field: quoted where it must be, an apostrophe before what a spreadsheet would take for a formula; some take the
/// wide forms of the signs, too.
#[must_use]
pub fn csv_field(text: &str) -> String {
    let text = visible(text);
    let is_number = text.parse::<f64>().is_ok();
    let runs = text.trim_start().starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']);
    let guarded = if runs && !is_number { format!("'{text}") } else { text.into_owned() };
    if guarded.contains([',', '"', '\n', '\r', ';', '\t']) || guarded.starts_with(' ') {
        format!("\"{}\"", guarded.replace('"', "\"\""))
    } else {
        guarded
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_field_is_a_formula_or_breaks_its_line() {
        for (text, field) in [
            ("Drift", "Drift"),
            ("=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0"),
            ("-12.5", "-12.5"),
            ("-Drift", "'-Drift"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("a,b", "\"a,b\""),
            ("say \"so\"", "\"say \"\"so\"\"\""),
            (" =1+1", "' =1+1"),
            ("\t=1+1", "' =1+1"),
            ("\n@A1", "' @A1"),
            ("＝1+1", "'＝1+1"),
            ("Drift\u{202e}\u{1b}", "Drift[U+202E]␛"),
        ] {
            assert_eq!(csv_field(text), field);
        }
    }
}
