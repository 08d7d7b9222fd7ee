//! A comparison as comma-separated values (RFC 4180), for spreadsheets: one figure a line, numbers as numbers in the
//! chosen units (mm and grams, or inches and pounds; degrees), the ± as 2u in a column of its own.
//!
//! Invariant: no cell is a formula: text that a spreadsheet would run begins with an apostrophe.

use ::csv::{QuoteStyle, Terminator, WriterBuilder};

use crate::units::{System, expanded, visible};
use crate::words::{Table, TableRow};

/// Writes the table in those units.
#[must_use]
pub fn csv(table: &Table, units: System) -> String {
    let mut head = vec!["figure".to_owned(), "unit".to_owned()];
    for column in &table.columns {
        head.push(column.title.clone());
        head.push(format!("± {}", column.title));
        head.push(format!("says {}", column.title));
    }
    let mut text = csv_line(&head, LineEnd::CrLf);
    for row in &table.rows {
        text.push_str(&csv_line(&cells(row, units), LineEnd::CrLf));
    }
    text
}

fn cells(row: &TableRow, units: System) -> Vec<String> {
    let quantity = row.subject.quantity();
    let factor = units.factor(quantity);
    let mut cells = vec![row.label.to_owned(), units.plain_unit(quantity).to_owned()];
    for cell in &row.cells {
        let number = |value: Option<f64>| value.map(|v| format!("{:.4}", v * factor + 0.0)).unwrap_or_default();
        cells.push(number(cell.value));
        cells.push(number(cell.u.map(expanded)));
        cells.push(cell.mark.meaning().to_owned());
    }
    cells
}

/// One line of CSV, its end included: fields guarded against formulas, quoted where they must be.
#[must_use]
pub fn csv_line<T: AsRef<str>>(fields: &[T], end: LineEnd) -> String {
    let guarded: Vec<String> = fields.iter().map(|field| guarded(field.as_ref())).collect();
    // Some spreadsheets part a line at semicolons and tabs as well, and drop leading blanks: there every text is quoted.
    let is_ambiguous = guarded.iter().any(|field| field.contains([';', '\t']) || field.starts_with(' '));
    let style = if is_ambiguous { QuoteStyle::NonNumeric } else { QuoteStyle::Necessary };
    let terminator = match end {
        LineEnd::CrLf => Terminator::CRLF,
        LineEnd::Lf => Terminator::Any(b'\n'),
    };
    let mut writer = WriterBuilder::new().quote_style(style).terminator(terminator).buffer_capacity(512).from_writer(Vec::new());
    // A single record written to memory cannot fail.
    drop(writer.write_record(&guarded));
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}

/// How a line of CSV ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineEnd {
    /// Carriage return and line feed, as RFC 4180 has it: in files.
    CrLf,
    /// Line feed: on standard output.
    Lf,
}

/// A field with an apostrophe before what a spreadsheet would run as a formula; some run the wide forms of the signs, too.
fn guarded(text: &str) -> String {
    let text = visible(text);
    let is_number = text.parse::<f64>().is_ok();
    let runs = text.trim_start().starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']);
    if runs && !is_number { format!("'{text}") } else { text.into_owned() }
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
            ("a;=b", "\"a;=b\""),
            ("a,b", "\"a,b\""),
            ("say \"so\"", "\"say \"\"so\"\"\""),
            (" =1+1", "' =1+1"),
            ("\t=1+1", "' =1+1"),
            ("\n@A1", "' @A1"),
            ("＝1+1", "'＝1+1"),
            ("Drift\u{202e}\u{1b}", "Drift[U+202E]␛"),
        ] {
            assert_eq!(csv_line(&[text], LineEnd::CrLf), format!("{field}\r\n"));
        }
    }

    #[test]
    fn a_line_holds_its_fields_and_numbers_stay_numbers() {
        assert_eq!(csv_line(&["Drift", "", "-1.5", "5 mm, wide"], LineEnd::Lf), "Drift,,-1.5,\"5 mm, wide\"\n");
        assert_eq!(csv_line(&["a;b", "Drift", "-1.5"], LineEnd::Lf), "\"a;b\",\"Drift\",-1.5\n");
        let mut reader =
            ::csv::ReaderBuilder::new().has_headers(false).from_reader("\"a;b\",\"say \"\"so\"\"\",-1.5\r\n".as_bytes());
        let read: Vec<String> = reader.records().next().unwrap().unwrap().iter().map(str::to_owned).collect();
        assert_eq!(csv_line(&read, LineEnd::CrLf), "\"a;b\",\"say \"\"so\"\"\",-1.5\r\n");
    }
}
