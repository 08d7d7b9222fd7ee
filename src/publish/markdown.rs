//! A comparison as a Markdown table, for a post. Differences within their ± are in italics, since Markdown has no grey.
//!
//! Invariant: names stay text: nothing in them becomes markup, a link or a further cell.

use crate::units::plain;
use crate::words::Table;

/// Writes the table.
#[must_use]
pub fn markdown(table: &Table) -> String {
    let mut text = String::from("| figure | unit |");
    for column in &table.columns {
        text.push_str(&format!(" {} |", markdown_text(&column.title)));
    }
    text.push_str("\n|---|---|");
    text.push_str(&"---:|".repeat(table.columns.len()));
    text.push('\n');
    for row in &table.rows {
        text.push_str(&format!("| {} | {} |", row.label, row.unit));
        for cell in &row.cells {
            let words = markdown_text(&cell.text);
            if cell.mark.is_grey() { text.push_str(&format!(" *{words}* |")) } else { text.push_str(&format!(" {words} |")) }
        }
        text.push('\n');
    }
    text
}

/// Text as it stands, whatever is in it.
#[must_use]
pub fn markdown_text(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in plain(text).chars() {
        match c {
            '\\' | '|' | '*' | '_' | '`' | '[' | ']' | '#' | '~' | '!' => {
                out.push('\\');
                out.push(c);
            }
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '&' => out.push_str("&amp;"),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_stay_text() {
        assert_eq!(markdown_text("<script>|x|\n[a](b)"), "&lt;script&gt;\\|x\\| \\[a\\](b)");
        assert_eq!(markdown_text("Drift \u{202e}2026"), "Drift 2026");
    }
}
