//! A comparison as one page for browsers that needs nothing beside it: drawings inside, with title and description for
//! screen readers, tables that are sorted without a network, the line-up itself to be taken away, and a look for paper.
//!
//! Not here: the drawings, which come as SVG. Invariants: no name becomes markup, and nothing on the page can load or run
//! but the one script that is named here by its fingerprint.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::carried::CARRIED_NAME;
use crate::drawing::{Background, FRAME_COLOURS, Palette, Role, Weight, fonts};
use crate::frameset::FrameIndex;
use crate::lineup::{Block, Findings, Lineup, Sheet};
use crate::units::visible;
use crate::words::drawings as labels;
use crate::words::{
    BUILD_NOTE, FitMark, FitTable, FrameLine, FrameTable, MODEL_TEXT, OVERVIEW_KEY, SmallCell, Table, build_table, captions,
    comparison_table, footnotes, frame_table, loaded_tables, needs_list, overview_table, parts_list, price_and_climb_answers,
    standards_notes, standards_table,
};

/// Sorts the rows of a table by the column whose head is pressed, once more the other way round.
const SCRIPT: &str = include_str!("sort.js");
/// The script's SHA-256 as the page's content security policy names it (W3C, Content Security Policy Level 3).
const SCRIPT_PRINT: &str = "sha256-3voR/0HNbixin1TEUjA98Jn5W3jjusSqRu3QjJcW5ac=";
const STYLE: &str = include_str!("page.css");

/// What a page is made of.
#[derive(Clone, Copy, Debug)]
pub struct WebPage<'a> {
    /// What follows from the line-up.
    pub findings: &'a Findings,
    /// The line-up.
    pub lineup: &'a Lineup,
    /// What is on the page, in its order.
    pub sheet: &'a Sheet,
    /// By which colours are chosen.
    pub background: Background,
    /// The drawings of its blocks as SVG without fonts, each with names of its own inside.
    pub drawings: &'a [(Block, String)],
    /// The line-up's file.
    pub file: &'a str,
}

/// The page as HTML.
#[must_use]
pub fn html(page: &WebPage) -> String {
    let (lineup, sheet) = (page.lineup, page.sheet);
    let title = visible(sheet.headline(lineup));
    let policy = format!(
        "default-src 'none'; script-src '{SCRIPT_PRINT}'; style-src 'unsafe-inline'; font-src data:; base-uri 'none'; form-action 'none'"
    );
    let signed: Vec<&str> = [sheet.author.trim(), sheet.date.trim()].into_iter().filter(|s| !s.is_empty()).collect();
    let link = format!("data:application/octet-stream;base64,{}", STANDARD.encode(page.file));
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy);
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="generator" content=(concat!("Spandrel ", env!("CARGO_PKG_VERSION")));
                title { (title) }
                style { (PreEscaped(style(page.background))) }
            }
            body {
                main {
                    header {
                        h1 { bdi { (title) } }
                        @if !sheet.subtitle.trim().is_empty() { p.second { bdi { (visible(sheet.subtitle.trim())) } } }
                        @if !signed.is_empty() { p.second { bdi { (visible(&signed.join(", "))) } } }
                    }
                    // An outline has its own legend.
                    @if !page.drawings.iter().any(|(b, _)| *b == Block::Outline) { (frames(page)) }
                    @for block in &sheet.contents { (of_block(page, *block)) }
                    (all_figures(page))
                    section aria-labelledby="notes" {
                        h2 #notes { "Notes" }
                        ol { @for note in footnotes(lineup, page.findings, sheet) { li { bdi { (visible(&note.text)) } } } }
                    }
                    p.take {
                        a download=(CARRIED_NAME) href=(link) { "This comparison as a file" }
                        " – Spandrel opens it with all its frames."
                    }
                }
                script { (PreEscaped(SCRIPT)) }
            }
        }
    };
    markup.into_string()
}

/// Who is compared.
fn frames(page: &WebPage) -> Markup {
    let findings = page.findings;
    let shown = || FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown);
    html! {
        @if shown().next().is_none() { p { "No frame is shown." } }
        ul.frames {
            @for (place, frame) in shown() {
                li {
                    (letter(place, &frame.letter)) " "
                    strong { bdi { (name(&frame.name)) } } " "
                    span.second {
                        bdi { (visible(frame.size_label())) }
                        @if findings.reference == Some(place) { ", reference" }
                    }
                }
            }
        }
    }
}

fn name(name: &str) -> String {
    if name.is_empty() { "no name".to_owned() } else { visible(name).into_owned() }
}

/// A frame's letter in its ring and colour.
fn letter(place: FrameIndex, letter: &str) -> Markup {
    html! { span class=(format!("letter f{}", place.0 % FRAME_COLOURS)) { (letter) } }
}

fn of_block(page: &WebPage, block: Block) -> Markup {
    let drawing = page.drawings.iter().find(|(b, _)| *b == block).map(|(_, svg)| svg);
    html! {
        @if let Some(svg) = drawing { figure { (PreEscaped(svg)) } }
        @if drawing.is_none() || matches!(block, Block::Overview | Block::Loaded) { (words_of_block(page, block)) }
    }
}

/// A block as a table or sentences.
fn words_of_block(page: &WebPage, block: Block) -> Markup {
    let (lineup, findings, sheet) = (page.lineup, page.findings, page.sheet);
    match block {
        Block::Table => sortable(findings, &frame_table(lineup, findings, sheet)),
        Block::Captions => {
            let own = sheet.words.trim();
            let found: Vec<_> = captions(lineup, findings, sheet).into_iter().filter(|c| !c.text.is_empty()).collect();
            let has_words = !own.is_empty() || !found.is_empty();
            html! {
                @if has_words {
                    section aria-labelledby="findings" {
                        h2 #findings { "Main differences" }
                        @if !own.is_empty() { p { bdi { (visible(own)) } } }
                        ul {
                            @for caption in &found {
                                li.grey[!caption.is_clear && !caption.is_edited] { bdi { (visible(&caption.text)) } }
                            }
                        }
                    }
                }
            }
        }
        Block::PriceAndClimb => {
            let said = price_and_climb_answers(lineup, findings);
            let all = std::iter::once(said.lightest).chain(said.cost).chain(said.climb);
            let all: Vec<String> = all.filter(|s| !s.is_empty()).collect();
            html! {
                @if !all.is_empty() {
                    section aria-labelledby="price-and-climb" {
                        h2 #price-and-climb { "Price and climb" }
                        ul { @for sentence in &all { li { bdi { (visible(sentence)) } } } }
                    }
                }
            }
        }
        Block::Overview => fit_table("overview", labels::OVERVIEW_TITLE, &overview_table(lineup, findings), &overview_notes()),
        Block::Loaded => loaded(lineup, findings),
        Block::Needs => lines("needs", "Needs", needs_list(findings, &lineup.settings.needs)),
        Block::Parts => lines("parts", "Parts", parts_list(findings)),
        Block::Standards => fit_table("standards", "Standards", &standards_table(findings), &standards_notes(findings)),
        Block::Build => fit_table("build", "Build", &build_table(lineup, findings), &[BUILD_NOTE.to_owned()]),
        Block::Outline
        | Block::Steering
        | Block::StackAndReach
        | Block::Bags
        | Block::RearFromAbove
        | Block::Weights
        | Block::PriceAgainstWeight => {
            html! {}
        }
    }
}

fn lines(id: &str, title: &str, lines: Option<Vec<FrameLine>>) -> Markup {
    html! {
        @if let Some(lines) = lines {
            section aria-labelledby=(id) {
                h2 id=(id) { (title) }
                ul.frames.wide {
                    @for line in &lines { li { (letter(line.frame, &line.letter)) " " bdi { (visible(&line.text)) } } }
                }
            }
        }
    }
}

/// The tables of the loaded bicycles, one a loading.
fn loaded(lineup: &Lineup, findings: &Findings) -> Markup {
    let tables: Vec<_> = loaded_tables(lineup, findings).collect();
    html! {
        @for (place, table) in tables.iter().enumerate() {
            @let notes = if place + 1 == tables.len() { vec![MODEL_TEXT.to_owned()] } else { Vec::new() };
            (fit_table(&format!("with-luggage-{place}"), &table.corner, table, &notes))
        }
    }
}

/// What the marks of the overview mean.
fn overview_notes() -> Vec<String> {
    let marks = OVERVIEW_KEY.map(|(mark, words)| format!("{} {words}", mark.sign()));
    vec![format!("{}.", marks.join("; "))]
}

/// A table with the frames across and a mark before a cell that has one.
fn fit_table(id: &str, title: &str, table: &FitTable, notes: &[String]) -> Markup {
    html! {
        @if !table.rows.is_empty() {
            section aria-labelledby=(id) {
                h2 id=(id) { (title) }
                div.scroll tabindex="0" role="region" aria-label=(format!("{title} table")) {
                    table aria-labelledby=(id) {
                        thead { tr {
                            th scope="col" { (table.corner) }
                            @for column in &table.columns { th scope="col" { bdi { (visible(column)) } } }
                        } }
                        tbody {
                            @for row in &table.rows { tr {
                                th scope="row" { bdi { (visible(&row.label)) } }
                                @for cell in &row.cells { td {
                                    span.grey[cell.mark.is_grey()] {
                                        @if !matches!(cell.mark, FitMark::Plain) { (cell.mark.sign()) " " }
                                        bdi { (visible(&cell.text)) }
                                    }
                                } }
                            } }
                        }
                    }
                }
                @for note in notes { p.hint { (note) } }
            }
        }
    }
}

fn cell(cell: &SmallCell) -> Markup {
    html! { span.grey[cell.is_grey] { (visible(&cell.text)) } }
}

/// Frames down, figures across; its heads are pressed to sort it.
fn sortable(findings: &Findings, table: &FrameTable) -> Markup {
    let reference = findings.reference_frame().map(|f| f.letter.as_str()).unwrap_or_default();
    html! {
        section aria-labelledby="compared" {
            h2 #compared { "Comparison" }
            p.hint #sorting {
                "Press a column heading to sort. "
                @if table.rows.len() > 1 { "Below a figure: its difference from " (reference) ", grey where there is no clear difference." }
            }
            div.scroll tabindex="0" role="region" aria-label="Comparison table" {
                table.sortable aria-labelledby="compared" aria-describedby="sorting" {
                    thead {
                        tr {
                            th scope="col" { button type="button" { "Frame" } }
                            @for (label, unit) in &table.heads {
                                th scope="col" {
                                    button type="button" { (label) @if !unit.is_empty() { " " span.second { (unit) } } }
                                }
                            }
                        }
                    }
                    tbody {
                        @for row in &table.rows {
                            @if let Some(frame) = row.frame.of(&findings.frames) {
                                tr {
                                    th scope="row" data-number=(row.frame.0) {
                                        (letter(row.frame, &frame.letter)) " "
                                        bdi { (name(&frame.name)) } " "
                                        span.second { bdi { (visible(frame.size_label())) } }
                                    }
                                    @for found in &row.cells {
                                        td data-number=[found.number] {
                                            (cell(&found.own))
                                            @if let Some(difference) = &found.difference { br; small { (cell(difference)) } }
                                        }
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The whole table of figures, folded away.
fn all_figures(page: &WebPage) -> Markup {
    let table: Table = comparison_table(page.findings, page.lineup.settings.units);
    html! {
        @if !table.columns.is_empty() {
            details {
                summary { "All figures" }
                div.scroll tabindex="0" role="region" aria-label="All figures" {
                    table {
                        thead {
                            tr {
                                th scope="col" { "Figure" }
                                @for column in &table.columns { th scope="col" { bdi { (visible(&column.title)) } } }
                            }
                        }
                        tbody {
                            @for row in &table.rows {
                                tr {
                                    th scope="row" { (row.label) " " span.second { (row.unit) } }
                                    @for found in &row.cells {
                                        td { span.grey[found.mark.is_grey()] { (visible(&found.text)) (found.mark.behind()) } }
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The look, in the ground's colours; on paper in those of white.
fn style(background: Background) -> String {
    let mut css = String::new();
    for weight in [Weight::Regular, Weight::Semibold] {
        let data = STANDARD.encode(fonts::file(weight));
        css.push_str(&format!(
            "@font-face {{ font-family: \"{}\"; font-weight: {}; src: url(\"data:font/ttf;base64,{data}\") format(\"truetype\"); }}\n",
            fonts::family(weight),
            fonts::css_weight(weight)
        ));
    }
    css.push_str(&colours(background));
    css.push_str(STYLE);
    css.push_str(&format!("@media print {{ {} }}\n", colours(Background::White)));
    css
}

fn colours(background: Background) -> String {
    let palette = Palette::of(background);
    let of = |role: Role| palette.colour(role).hex();
    let mut css = format!(
        ":root {{ --paper: {}; --panel: {}; --hairline: {}; --ink: {}; --second: {}; --grey: {}; }}\n",
        of(Role::Background),
        of(Role::Panel),
        of(Role::Hairline),
        of(Role::Ink),
        of(Role::SecondInk),
        of(Role::Grey)
    );
    for place in 0..FRAME_COLOURS {
        let (line, text) = (of(Role::FrameLine(FrameIndex(place))), of(Role::FrameLetter(FrameIndex(place))));
        css.push_str(&format!(".f{place} {{ border-color: {line}; color: {text}; }}\n"));
    }
    css
}

#[cfg(test)]
mod tests {
    use sha2::{Digest, Sha256};

    use super::*;
    use crate::lineup::read_lineup;

    fn page(change: impl Fn(&mut Lineup)) -> String {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        change(&mut lineup);
        let sheet =
            Sheet { contents: vec![Block::Table, Block::Captions, Block::PriceAndClimb, Block::Needs], ..Sheet::default() };
        let findings = Findings::of(&lineup);
        let drawings = [];
        html(&WebPage {
            findings: &findings,
            lineup: &lineup,
            sheet: &sheet,
            background: Background::Light,
            drawings: &drawings,
            file: "x",
        })
    }

    #[test]
    fn the_policy_names_the_script_that_is_there() {
        let print = format!("sha256-{}", STANDARD.encode(Sha256::digest(SCRIPT)));
        assert_eq!(SCRIPT_PRINT, print);
        let page = page(|_| {});
        assert!(page.contains(&format!("<script>{SCRIPT}</script>")));
        assert_eq!(page.matches("<script").count(), 1);
        // Nothing is loaded from anywhere.
        for outside in ["http:", "https:", "src=\"", "@import", "url(\"h"] {
            assert!(!page.contains(outside), "{outside}");
        }
    }

    #[test]
    fn no_name_becomes_markup() {
        let name = "<script>alert(1)</script>\"'><img onerror=x>\u{202e}";
        let page = page(|lineup| {
            lineup.title = name.to_owned();
            let mut frameset = crate::frameset::Frameset::clone(&lineup.frames[1].frameset);
            frameset.maker = name.to_owned();
            lineup.frames[1].frameset = std::sync::Arc::new(frameset);
        });
        assert_eq!(page.matches("<script").count(), 1);
        assert!(!page.contains("<img") && !page.contains('\u{202e}') && page.contains("[U+202E]"));
        assert!(page.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
    }

    #[test]
    fn every_figure_can_be_sorted_by() {
        let page = page(|_| {});
        for head in ["Frame", "Stack", "Trail", "Weight", "Price"] {
            assert!(page.contains(&format!("<button type=\"button\">{head}")), "{head}");
        }
        assert!(page.contains("data-number=\"585\""));
    }
}
