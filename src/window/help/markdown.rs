//! Markdown as blocks that a panel can lay out: headings, paragraphs, items of lists, code, tables.
//!
//! Only what the guide's pages use is told apart; anything else is plain text. Pictures are left out, and with them what
//! holds nothing but pictures.

use pulldown_cmark::{Event, HeadingLevel, Options, Parser, Tag, TagEnd};

/// A block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Block {
    /// A heading of level 1 to 6.
    Heading(u8, Text),
    /// A paragraph.
    Paragraph(Text),
    /// An item of a list, with how deep its list lies (from 0) and its mark: "•", "3.", or none for a further paragraph.
    Item(usize, String, Text),
    /// Code, its lines as they are.
    Code(String),
    /// A table: its head, then its rows.
    Table(Vec<Text>, Vec<Vec<Text>>),
}

/// A text in runs.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Text(pub(crate) Vec<Run>);

/// A piece of text in one style.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Run {
    /// What it says.
    pub(crate) text: String,
    /// Whether it is bold.
    pub(crate) is_strong: bool,
    /// Whether it is slanted.
    pub(crate) is_slanted: bool,
    /// Whether it is code.
    pub(crate) is_code: bool,
    /// Where it leads.
    pub(crate) link: Option<String>,
}

impl Text {
    /// What it says, without styles.
    pub(crate) fn plain(&self) -> String {
        self.0.iter().map(|run| run.text.as_str()).collect()
    }

    fn is_empty(&self) -> bool {
        self.0.iter().all(|run| run.text.trim().is_empty())
    }
}

/// The blocks of a page.
pub(crate) fn blocks(markdown: &str) -> Vec<Block> {
    let mut reading = Reading::default();
    for event in Parser::new_ext(markdown, Options::ENABLE_TABLES) {
        reading.take(event);
    }
    reading.blocks
}

/// What is known while a page is read.
#[derive(Debug, Default)]
struct Reading {
    blocks: Vec<Block>,
    text: Text,
    /// The style of what comes next, without its text.
    style: Run,
    /// The open lists, outermost first: the next number, if they are numbered.
    lists: Vec<Option<u64>>,
    /// The mark of the open item, until its first block.
    mark: String,
    code: Option<String>,
    head: Vec<Text>,
    rows: Vec<Vec<Text>>,
    row: Vec<Text>,
    is_picture: bool,
}

impl Reading {
    fn take(&mut self, event: Event<'_>) {
        match event {
            Event::Start(tag) => self.begin(tag),
            Event::End(tag) => self.end(tag),
            Event::Text(text) => match &mut self.code {
                Some(code) => code.push_str(&text),
                None => self.push(&text, false),
            },
            Event::Code(text) => self.push(&text, true),
            Event::SoftBreak => self.push(" ", false),
            Event::HardBreak => self.push("\n", false),
            Event::InlineHtml(text) | Event::Html(text) => self.push(&text, false),
            _ => {}
        }
    }

    fn push(&mut self, text: &str, is_code: bool) {
        if !self.is_picture {
            self.text.0.push(Run { text: text.to_owned(), is_code, ..self.style.clone() });
        }
    }

    fn begin(&mut self, tag: Tag<'_>) {
        match tag {
            Tag::Strong => self.style.is_strong = true,
            Tag::Emphasis => self.style.is_slanted = true,
            Tag::Link { dest_url, .. } => self.style.link = Some(dest_url.into_string()),
            Tag::Image { .. } => self.is_picture = true,
            Tag::CodeBlock(_) => self.code = Some(String::new()),
            Tag::List(first) => {
                self.paragraph();
                self.lists.push(first);
            }
            Tag::Item => {
                self.mark = match self.lists.last_mut() {
                    Some(Some(number)) => {
                        *number += 1;
                        format!("{}.", *number - 1)
                    }
                    _ => "•".to_owned(),
                };
            }
            _ => {}
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Strong => self.style.is_strong = false,
            TagEnd::Emphasis => self.style.is_slanted = false,
            TagEnd::Link => self.style.link = None,
            TagEnd::Image => self.is_picture = false,
            TagEnd::CodeBlock => {
                let code = self.code.take().unwrap_or_default();
                self.blocks.push(Block::Code(code.trim_end().to_owned()));
            }
            TagEnd::Heading(level) => {
                let text = std::mem::take(&mut self.text);
                self.blocks.push(Block::Heading(number_of(level), text));
            }
            TagEnd::Paragraph | TagEnd::Item => self.paragraph(),
            TagEnd::List(_) => drop(self.lists.pop()),
            TagEnd::TableCell => self.row.push(std::mem::take(&mut self.text)),
            TagEnd::TableHead => self.head = std::mem::take(&mut self.row),
            TagEnd::TableRow => self.rows.push(std::mem::take(&mut self.row)),
            TagEnd::Table => {
                let (head, rows) = (std::mem::take(&mut self.head), std::mem::take(&mut self.rows));
                if !rows.iter().flatten().all(Text::is_empty) {
                    self.blocks.push(Block::Table(head, rows));
                }
            }
            _ => {}
        }
    }

    /// Ends a paragraph, in a list or out of one.
    fn paragraph(&mut self) {
        let text = std::mem::take(&mut self.text);
        if text.is_empty() {
            return;
        }
        self.blocks.push(match self.lists.len().checked_sub(1) {
            Some(depth) => Block::Item(depth, std::mem::take(&mut self.mark), text),
            None => Block::Paragraph(text),
        });
    }
}

const fn number_of(level: HeadingLevel) -> u8 {
    match level {
        HeadingLevel::H1 => 1,
        HeadingLevel::H2 => 2,
        HeadingLevel::H3 => 3,
        HeadingLevel::H4 => 4,
        HeadingLevel::H5 => 5,
        HeadingLevel::H6 => 6,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(blocks: &[Block]) -> Vec<String> {
        let line = |block: &Block| match block {
            Block::Heading(level, text) => format!("h{level} {}", text.plain()),
            Block::Paragraph(text) => format!("p {}", text.plain()),
            Block::Item(depth, mark, text) => format!("i{depth} {mark} {}", text.plain()),
            Block::Code(code) => format!("c {code}"),
            Block::Table(head, rows) => {
                let row = |row: &Vec<Text>| row.iter().map(Text::plain).collect::<Vec<_>>().join("|");
                format!("t {} / {}", row(head), rows.iter().map(row).collect::<Vec<_>>().join(" / "))
            }
        };
        blocks.iter().map(line).collect()
    }

    #[test]
    fn each_kind_of_block_is_told_apart() {
        let page = "# Frames\n\nA *frame*\nand `code`.\n\n- one\n  - deep\n- two\n\n3. third\n\n   more\n4. fourth\n\n```ron\n(a: 1,\n b)\n```\n\n    indented\n\n| a | b |\n|---|---|\n| 1 | **2** |\n";
        assert_eq!(
            plain(&blocks(page)),
            [
                "h1 Frames",
                "p A frame and code.",
                "i0 • one",
                "i1 • deep",
                "i0 • two",
                "i0 3. third",
                "i0  more",
                "i0 4. fourth",
                "c (a: 1,\n b)",
                "c indented",
                "t a|b / 1|2",
            ]
        );
    }

    #[test]
    fn runs_keep_their_style_and_their_link() {
        let [Block::Paragraph(text)] = &blocks("a **b** *c* `d` [e](f.md) g")[..] else { panic!("one paragraph") };
        let run = |text: &str| Run { text: text.to_owned(), ..Run::default() };
        assert_eq!(
            text.0,
            [
                run("a "),
                Run { is_strong: true, ..run("b") },
                run(" "),
                Run { is_slanted: true, ..run("c") },
                run(" "),
                Run { is_code: true, ..run("d") },
                run(" "),
                Run { link: Some("f.md".to_owned()), ..run("e") },
                run(" g"),
            ]
        );
    }

    #[test]
    fn what_is_only_a_picture_is_left_out() {
        assert!(blocks("![The window](window.png)\n\n| | |\n|---|---|\n| ![a](b.png) | ![c](d.png) |\n").is_empty());
        assert_eq!(plain(&blocks("Seen ![here](b.png).")), ["p Seen ."]);
    }
}
