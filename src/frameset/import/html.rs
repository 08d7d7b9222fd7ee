//! Copied web pages as rows of cells: tables with their spans, lists of terms, headings and paragraphs as rows of one or two
//! cells. A number in a cell over several columns or rows counts for all that it covers, as in a spreadsheet.
//!
//! Invariant: every visible text is in some cell; depth costs nothing, since no tree is built; nothing is fetched or run.

use std::cell::RefCell;

use html5ever::tendril::StrTendril;
use html5ever::tokenizer::states::RawKind;
use html5ever::tokenizer::{BufferQueue, Tag, TagKind, Token, TokenSink, TokenSinkResult, Tokenizer, TokenizerOpts};

use super::grid::tidy;
use super::numeral::{self, DecimalMark};
use super::{ImportError, MAX_COLUMNS, MAX_ROWS};

/// The most columns or rows that one cell covers, whatever the page claims.
const MOST_SPAN: usize = MAX_COLUMNS;
/// Stands where one inline element ends and the next begins.
const PART: char = '\u{1f}';

/// Whether a text is a web page or a piece of one.
pub(super) fn is_page(text: &str) -> bool {
    let start = text.trim_start_matches(|c: char| c.is_whitespace() || c == '\u{feff}');
    let head: String = start.chars().take(4000).collect::<String>().to_lowercase();
    head.starts_with("<!doctype html")
        || (head.starts_with('<') && ["<html", "<meta", "<table", "<div", "<body", "<tr", "<dl", "<ul", "<span", "<p", "<h"].iter().any(|t| head.contains(t)))
        // Windows' clipboard begins with a head of its own.
        || (head.starts_with("version:") && head.contains("startfragment:"))
}

/// The rows of a page.
///
/// # Errors
/// A page with more rows or columns than are read.
pub(super) fn rows(text: &str) -> Result<Vec<Vec<String>>, ImportError> {
    let page = match text.find('<') {
        Some(at) => text.get(at..).unwrap_or(text),
        None => text,
    };
    let sink = Reader { page: RefCell::new(Page::default()) };
    let queue = BufferQueue::default();
    queue.push_back(StrTendril::from_slice(page));
    let tokenizer = Tokenizer::new(sink, TokenizerOpts::default());
    // Scripts are not run, so the tokenizer never waits for one.
    drop(tokenizer.feed(&queue));
    tokenizer.end();
    let mut page = tokenizer.sink.page.into_inner();
    page.end_row();
    page.end_line();
    if page.too_wide {
        return Err(ImportError::TooWide(MAX_COLUMNS + 1));
    }
    let mut rows = page.rows;
    rows.retain(|row| row.iter().any(|cell| !cell.is_empty()));
    if rows.len() > MAX_ROWS {
        return Err(ImportError::TooLong(rows.len()));
    }
    Ok(rows)
}

struct Reader {
    page: RefCell<Page>,
}

impl TokenSink for Reader {
    type Handle = ();

    fn process_token(&self, token: Token, _line: u64) -> TokenSinkResult<()> {
        let mut page = self.page.borrow_mut();
        match token {
            Token::CharacterTokens(text) => page.text(&text),
            Token::TagToken(tag) => return page.tag(&tag),
            _ => {}
        }
        TokenSinkResult::Continue
    }
}

/// A cell under way.
#[derive(Default)]
struct OpenCell {
    text: String,
    columns: usize,
    rows: usize,
}

/// A cell of an upper row that reaches down.
struct Hanging {
    column: usize,
    text: String,
    left: usize,
}

/// What was read so far.
#[derive(Default)]
struct Page {
    rows: Vec<Vec<String>>,
    row: Option<Vec<String>>,
    cell: Option<OpenCell>,
    hanging: Vec<Hanging>,
    /// Text outside of tables.
    line: String,
    /// A term of a list, waiting for what is said of it.
    term: Option<String>,
    /// Whether the line under way is a term.
    in_term: bool,
    /// Depth of elements whose text is not seen.
    hidden: usize,
    /// Whether text is raised: a footnote's sign, or a numerator.
    raised: bool,
    too_wide: bool,
}

impl Page {
    fn text(&mut self, text: &str) {
        if self.hidden > 0 {
            return;
        }
        let is_raised = self.raised;
        let target = self.cell.as_mut().map_or(&mut self.line, |cell| &mut cell.text);
        if !is_raised && text.starts_with(['/', '⁄']) {
            lower_numerator(target);
        }
        target
            .extend(text.chars().filter(|c| c.is_whitespace() || !c.is_control()).map(|c| if is_raised { raised(c) } else { c }));
    }

    /// A place where one inline element ends.
    fn part(&mut self) {
        if self.hidden == 0 {
            self.cell.as_mut().map_or(&mut self.line, |cell| &mut cell.text).push(PART);
        }
    }

    fn tag(&mut self, tag: &Tag) -> TokenSinkResult<()> {
        let opens = tag.kind == TagKind::StartTag;
        match &*tag.name {
            "script" | "style" if opens => {
                self.hidden += 1;
                let kind = if &*tag.name == "script" { RawKind::ScriptData } else { RawKind::Rawtext };
                return TokenSinkResult::RawData(kind);
            }
            "title" | "textarea" if opens => return TokenSinkResult::RawData(RawKind::Rcdata),
            "script" | "style" => self.hidden = self.hidden.saturating_sub(1),
            "td" | "th" => {
                self.end_cell();
                if opens {
                    self.end_line();
                    self.row.get_or_insert_with(Vec::new);
                    self.cell = Some(OpenCell { text: String::new(), columns: span(tag, "colspan"), rows: span(tag, "rowspan") });
                }
            }
            "tr" => {
                self.end_row();
                if opens {
                    self.end_line();
                    self.row = Some(Vec::new());
                }
            }
            "table" | "thead" | "tbody" | "tfoot" => {
                self.end_row();
                self.end_line();
                if &*tag.name == "table" {
                    self.hanging.clear();
                }
            }
            "dt" | "dd" => {
                self.end_line();
                if std::mem::take(&mut self.in_term) {
                    self.take_term();
                }
                self.in_term = opens && &*tag.name == "dt";
            }
            "sup" => self.raised = opens,
            "br" | "hr" | "p" | "div" | "li" | "ul" | "ol" | "dl" | "h1" | "h2" | "h3" | "h4" | "h5" | "h6" | "section"
            | "article" | "header" | "footer" | "caption" | "figcaption" | "option" | "title" | "body" | "head"
            | "blockquote" | "button" => {
                self.break_line();
            }
            // Pages lay such elements out beside one another.
            "span" | "label" | "strong" | "b" => self.part(),
            _ => {}
        }
        TokenSinkResult::Continue
    }

    /// A break: a blank in a cell, a new line outside.
    fn break_line(&mut self) {
        match &mut self.cell {
            Some(cell) => cell.text.push('\n'),
            None => self.end_line(),
        }
    }

    fn end_line(&mut self) {
        let line = std::mem::take(&mut self.line);
        let parts: Vec<String> = line.split(PART).map(tidy).filter(|part| !part.is_empty()).collect();
        if parts.is_empty() {
            return;
        }
        let row = match (self.term.take(), parts.as_slice()) {
            (Some(term), parts) => vec![term, parts.join(" ")],
            (None, [_, _]) => parts,
            (None, parts) => vec![parts.join(" ")],
        };
        self.rows.push(row);
    }

    /// The last line was a term.
    fn take_term(&mut self) {
        if let Some(row) = self.rows.pop() {
            match row.as_slice() {
                [term] => self.term = Some(term.clone()),
                _ => self.rows.push(row),
            }
        }
    }

    fn end_cell(&mut self) {
        let Some(cell) = self.cell.take() else { return };
        let text = tidy(&cell.text.replace(PART, " "));
        let Some(row) = &mut self.row else { return };
        place_hanging(row, &mut self.hanging);
        let counts_for_all =
            numeral::read(&text, DecimalMark::Point).is_numeric() || numeral::read(&text, DecimalMark::Comma).is_numeric();
        for place in 0..cell.columns {
            if row.len() >= MAX_COLUMNS {
                // Blank columns that a span claims are left out, cells are not.
                self.too_wide |= place == 0;
                break;
            }
            let copy = if place == 0 || counts_for_all { text.clone() } else { String::new() };
            if cell.rows > 1 {
                let below = if counts_for_all { text.clone() } else { String::new() };
                self.hanging.push(Hanging { column: row.len(), text: below, left: cell.rows });
            }
            row.push(copy);
        }
    }

    fn end_row(&mut self) {
        self.end_cell();
        let Some(mut row) = self.row.take() else { return };
        place_hanging(&mut row, &mut self.hanging);
        for hanging in &mut self.hanging {
            hanging.left = hanging.left.saturating_sub(1);
        }
        self.hanging.retain(|hanging| hanging.left > 0);
        self.rows.push(row);
    }
}

/// Cells from above stand before the next own one.
fn place_hanging(row: &mut Vec<String>, hanging: &mut [Hanging]) {
    while row.len() < MAX_COLUMNS
        && let Some(above) = hanging.iter().find(|h| h.column == row.len())
    {
        row.push(above.text.clone());
    }
}

/// How many columns or rows a cell covers.
fn span(tag: &Tag, name: &str) -> usize {
    let value = tag.attrs.iter().find(|a| &*a.name.local == name).and_then(|a| a.value.trim().parse::<usize>().ok());
    value.unwrap_or(1).clamp(1, MOST_SPAN)
}

/// A digit as a footnote's sign.
fn raised(c: char) -> char {
    match c {
        '0' => '⁰',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        '4'..='9' => c.to_digit(10).and_then(|digit| char::from_u32(0x2070 + digit)).unwrap_or(c),
        c => c,
    }
}

/// What was taken for a footnote's sign is a numerator when a stroke follows: `28<sup>5</sup>/<sub>8</sub>`.
fn lower_numerator(text: &mut String) {
    let digits: Vec<u32> =
        text.chars().rev().map_while(|c| (0..10).find(|d| char::from_digit(*d, 10).map(raised) == Some(c))).collect();
    if digits.is_empty() {
        return;
    }
    for _ in &digits {
        text.pop();
    }
    text.push(' ');
    text.extend(digits.iter().rev().filter_map(|digit| char::from_digit(*digit, 10)));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(page: &str) -> Vec<String> {
        rows(page).unwrap().iter().map(|row| row.join("|")).collect()
    }

    #[test]
    fn tables_keep_their_spans() {
        let page = "<h2>Geometry</h2><table><tr><th colspan=4>All sizes<tr><th rowspan='2'>Top tube<td>effective<td>540<td>560\
            <tr><td>actual<td colspan=2>530</table>";
        assert_eq!(read(page), ["Geometry", "All sizes|||", "Top tube|effective|540|560", "|actual|530|530"]);
    }

    #[test]
    fn what_is_raised_is_a_footnote_or_a_numerator() {
        let page = "<table><tr><td>Stack<td>590<sup>1</sup><td>28<sup>5</sup>/<sub>8</sub>&quot;<td>71&deg;</table>";
        assert_eq!(read(page), ["Stack|590¹|28 5/8\"|71°"]);
    }

    #[test]
    fn lists_are_rows_of_two_cells() {
        let page = "<dl><dt>Frame weight<dd>2.3 kg</dd><dt>Axle</dt><dd>142 x 12</dd></dl>\
            <ul><li><span>Price</span><span>1,299 EUR</span><li><b>Colour:</b> moss</ul><p>Painted <b>by</b> hand</p>";
        assert_eq!(read(page), ["Frame weight|2.3 kg", "Axle|142 x 12", "Price|1,299 EUR", "Colour:|moss", "Painted by hand"]);
    }

    #[test]
    fn what_is_not_seen_is_not_read_and_bounds_hold() {
        assert_eq!(read("<script>if (a < b) {'<td>'}</script><style>td{}</style><table><tr><td>A<td>1</table>"), ["A|1"]);
        assert_eq!(read("<table><tr><td colspan=999999>5</table>").len(), 1);
        assert!(matches!(rows(&"<tr><td>x".repeat(1001)), Err(ImportError::TooLong(1001))));
        assert!(matches!(rows(&format!("<tr>{}", "<td>x".repeat(201))), Err(ImportError::TooWide(201))));
        assert!(is_page("  <!DOCTYPE html><p>") && is_page("<meta charset='utf-8'><table>") && !is_page("Stack\t580\n<5"));
    }
}
