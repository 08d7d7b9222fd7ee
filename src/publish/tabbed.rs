//! A comparison as text with its columns parted by tabs: what is copied to the clipboard for spreadsheets and mail.

use crate::units::visible;
use crate::words::Table;

/// Writes the table as it is shown.
#[must_use]
pub fn tabbed(table: &Table) -> String {
    let mut text = String::from("Figure\tUnit");
    for column in &table.columns {
        text.push('\t');
        text.push_str(&visible(&column.title));
    }
    text.push('\n');
    for row in &table.rows {
        text.push_str(&format!("{}\t{}", row.label, row.unit));
        for cell in &row.cells {
            text.push('\t');
            text.push_str(&visible(&cell.text));
        }
        text.push('\n');
    }
    text
}
