//! Names in Markdown, read by two other programs' readers: whatever a name is, it stays text.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

use comrak::nodes::{NodeTable, NodeValue};
use proptest::prelude::*;
use pulldown_cmark::{Event, Options, Parser, Tag};
use spandrel::publish::markdown_text;
use spandrel::units::visible;

/// What mark-up, links and mentions are made of.
const PIECES: [&str; 64] = [
    "http://",
    "https://",
    "ftp://",
    "HTTP://",
    "www.",
    "WWW.",
    "a.example",
    "/path?x=1",
    "me",
    "@",
    "mailto:",
    "xmpp:",
    "<",
    ">",
    "<b>",
    "</b>",
    "<!--",
    "-->",
    "<?",
    "<script>",
    "&amp;",
    "&#64;",
    "&",
    "[",
    "]",
    "(",
    ")",
    "![",
    "](",
    "[^1]",
    "[^1]: ",
    "[[",
    "]]",
    "|",
    "||",
    "`",
    "``",
    "*",
    "**",
    "_",
    "__",
    "~",
    "~~",
    "#",
    "# ",
    "1. ",
    "- ",
    "+ ",
    "--",
    "===",
    "\n",
    "\\",
    "$",
    "$$",
    ":smile:",
    ": ",
    "^",
    "{#id}",
    "    ",
    "\t",
    "Drift",
    "é",
    " ",
    "\u{202e}",
];

fn hostile() -> impl Strategy<Value = String> {
    let piece = prop_oneof![9 => (0..PIECES.len()).prop_map(|i| PIECES[i].to_owned()), 1 => any::<char>().prop_map(String::from)];
    proptest::collection::vec(piece, 1..12).prop_map(|pieces| pieces.concat())
}

/// The places in which names stand: a line of its own, a heading, cells of a table.
fn pages(name: &str) -> [String; 3] {
    let written = markdown_text(name);
    let table = format!("| figure | {written} |\n|---|---|\n| {written} | 612 |\n");
    [format!("{written}\n"), format!("### {written}\n"), table]
}

/// What is seen of a name: word joiners are not, and blanks are one.
fn seen(text: &str) -> String {
    text.replace('\u{2060}', "").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// How often a page shows a name.
const TIMES: [usize; 3] = [1, 1, 2];

/// The texts that one reader finds on a page, or what it takes for more than text.
fn read_by_pulldown(page: &str) -> Result<String, String> {
    let mut text = String::new();
    for event in Parser::new_ext(page, Options::all() - Options::ENABLE_SMART_PUNCTUATION) {
        match event {
            Event::Text(found) => text.push_str(&found),
            Event::SoftBreak | Event::End(_) => text.push(' '),
            Event::Start(
                Tag::Paragraph | Tag::Heading { .. } | Tag::Table(_) | Tag::TableHead | Tag::TableRow | Tag::TableCell,
            ) => {}
            other => return Err(format!("{other:?}")),
        }
    }
    Ok(text)
}

fn read_by_comrak(page: &str) -> Result<String, String> {
    let mut options = comrak::Options::default();
    let extension = &mut options.extension;
    for is_on in [
        &mut extension.autolink,
        &mut extension.table,
        &mut extension.strikethrough,
        &mut extension.tasklist,
        &mut extension.footnotes,
        &mut extension.description_lists,
        &mut extension.math_dollars,
        &mut extension.superscript,
        &mut extension.subscript,
        &mut extension.underline,
        &mut extension.alerts,
        &mut extension.wikilinks_title_after_pipe,
    ] {
        *is_on = true;
    }
    let arena = comrak::Arena::new();
    let mut text = String::new();
    for node in comrak::parse_document(&arena, page, &options).descendants() {
        match &node.data.borrow().value {
            NodeValue::Text(found) => text.push_str(found),
            NodeValue::TableCell | NodeValue::SoftBreak => text.push(' '),
            NodeValue::Document | NodeValue::Paragraph | NodeValue::Heading(_) | NodeValue::TableRow(_) => {}
            NodeValue::Table(table) => assert!(matches!(**table, NodeTable { num_columns: 2, .. })),
            other => return Err(format!("{other:?}")),
        }
    }
    Ok(text)
}

fn check(name: &str) {
    let shown = seen(&visible(name));
    for (page, times) in pages(name).iter().zip(TIMES) {
        for (reader, found) in [("pulldown-cmark", read_by_pulldown(page)), ("comrak", read_by_comrak(page))] {
            let found = found.unwrap_or_else(|what| panic!("{reader} finds {what} in {page}"));
            // Blanks at the edges of cells and between them are not compared.
            let squeezed = |text: &str| seen(text).replace(' ', "");
            let count = if shown.is_empty() { times } else { squeezed(&found).matches(&squeezed(&shown)).count() };
            assert!(count >= times, "{reader} shows {found:?} for {name:?} in {page}");
        }
    }
}

#[test]
fn known_tricks_stay_text() {
    for name in [
        "http://a.example/x",
        "see https://a.example.",
        "www.a.example",
        "www.1",
        "me@a.example",
        "mailto:me@a.example",
        "xmpp:me@a.example/x",
        "<http://a.example>",
        "[text](http://a.example)",
        "![picture](http://a.example/x.png)",
        "[^1]",
        "[^1]: note",
        "<b>bold</b>",
        "<!-- hidden -->",
        "&#104;ttp://a.example",
        "|x|y|",
        "# heading",
        "1. list",
        "- list",
        "---",
        "===",
        "    code",
        "`code`",
        "*a* _b_ ~c~ **d**",
        "$x$",
        "$$x$$",
        "[[wiki|link]]",
        "line\n\n# next",
        "\\",
        "2^nd^",
    ] {
        check(name);
    }
    let linked = read_by_comrak("see http://a.example");
    assert!(linked.is_err(), "the reader links what is not guarded: {linked:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn whatever_a_name_is_it_stays_text(name in hostile()) {
        check(&name);
    }
}
