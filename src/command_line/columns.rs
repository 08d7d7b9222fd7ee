//! Rows of text in columns, for a terminal.

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
