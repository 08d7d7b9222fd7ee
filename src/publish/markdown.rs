//! A comparison as a Markdown table, for a post. Differences within their ± are in italics, since Markdown has no grey.
//!
//! Invariant: names stay text: nothing in them becomes markup, a link or a further cell.

use crate::units::visible;
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
            let words = format!("{}{}", markdown_text(&cell.text), cell.mark.behind());
            if cell.mark.is_grey() { text.push_str(&format!(" *{words}* |")) } else { text.push_str(&format!(" {words} |")) }
        }
        text.push('\n');
    }
    text
}

/// Sentences below a table, as a list; nothing where there are none.
#[must_use]
pub fn markdown_remarks(remarks: &[String]) -> String {
    let lines: Vec<String> = remarks.iter().map(|remark| format!("- {}\n", markdown_text(remark))).collect();
    if lines.is_empty() { String::new() } else { format!("\n{}", lines.concat()) }
}

/// Text as it stands, whatever is in it: no mark-up, no link, no mention of anybody.
///
/// Many readers of Markdown make links of addresses that nobody marked as such, from the text after its escapes are
/// undone. A word joiner (U+2060, no width, no break) inside each keeps them text.
#[must_use]
pub fn markdown_text(text: &str) -> String {
    let text = visible(text);
    let text = text.trim_start();
    // Only at the beginning of a line do these begin a list, a rule or a heading.
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let behind = text.get(digits + 1..).unwrap_or_default();
    let begins = match text[digits..].chars().next() {
        Some('.' | ')') => digits > 0 && (behind.is_empty() || behind.starts_with(' ')),
        Some('-' | '+' | '=') => digits == 0 && !behind.starts_with(char::is_alphanumeric),
        _ => false,
    };
    let mark = if begins { digits } else { usize::MAX };
    let mut out = String::with_capacity(text.len());
    let mut before = ' ';
    let mut rest = text.char_indices().peekable();
    while let Some((place, c)) = rest.next() {
        let next = rest.peek().map_or(' ', |(_, c)| *c);
        let joins_before = match c {
            '.' => !next.is_whitespace() && (before.is_alphabetic() || before.is_numeric() && next.is_alphabetic()),
            '@' => !before.is_whitespace(),
            _ => false,
        };
        if joins_before {
            out.push(WORD_JOINER);
        }
        match c {
            '\\' | '|' | '*' | '_' | '`' | '[' | ']' | '#' | '~' | '!' | '$' | '^' => {
                out.push('\\');
                out.push(c);
            }
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '&' => out.push_str("&amp;"),
            c => {
                if place == mark {
                    out.push('\\');
                }
                out.push(c);
            }
        }
        let joins_behind = match c {
            ':' => next == '/' || next == '+' || next == '-' || next.is_alphabetic(),
            '@' | '#' => !next.is_whitespace(),
            _ => false,
        };
        if joins_behind {
            out.push(WORD_JOINER);
        }
        before = c;
    }
    out
}

/// Has no width and no meaning, and lets no line break.
const WORD_JOINER: char = '\u{2060}';

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn remarks_stand_as_a_list_below_the_table() {
        assert_eq!(markdown_remarks(&["1. a".to_owned(), "b | c".to_owned()]), "\n- 1\\. a\n- b \\| c\n");
        assert_eq!(markdown_remarks(&[]), "");
    }

    #[test]
    fn names_stay_text() {
        assert_eq!(markdown_text("<script>|x|\n[a](b)"), "&lt;script&gt;\\|x\\| \\[a\\](b)");
        assert_eq!(markdown_text("Drift \u{202e}2026"), "Drift \\[U+202E\\]2026");
        assert_eq!(markdown_text("72.9 ± 0.9 mm: less trail, -3.5 at 12:30"), "72.9 ± 0.9 mm: less trail, -3.5 at 12:30");
    }

    /// What readers of GitHub Flavored Markdown (6.9, autolinks) and others that link by themselves look for is broken.
    #[test]
    fn no_address_becomes_a_link() {
        let joiner = WORD_JOINER.to_string();
        for text in ["http://a.example/x", "https://a.example", "ftp://a.example", "www.a.example", "me@a.example", "a.example"] {
            let written = markdown_text(text);
            for linked in ["://", "www.", "e@a", "a.example", "me@"] {
                assert!(!written.contains(linked), "{linked}: {written}");
            }
            assert_eq!(written.replace(&joiner, ""), text, "what is seen stays");
        }
        assert!(!markdown_text("@someone").contains("@s") && !markdown_text("#12").contains("#1"));
        assert!(!markdown_text(":smile:").contains(":s") && markdown_text("$x$") == "\\$x\\$");
    }

    #[test]
    fn no_name_begins_a_list_a_rule_or_code() {
        for (text, written) in
            [("- a", "\\- a"), ("+ a", "\\+ a"), ("===", "\\==="), ("1. a", "1\\. a"), ("12) a", "12\\) a"), ("    a", "a")]
        {
            assert_eq!(markdown_text(text), written);
        }
    }
}
