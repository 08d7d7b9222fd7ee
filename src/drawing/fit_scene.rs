//! The tables of what fits as a picture: a mark and a few words a cell, the frames across or down, the reasons behind
//! each cell for the pointer.
//!
//! Marks tell by their shape: a disc fits, a half disc fits with an extra part or on a condition, a ring is
//! unknown, a cross does not fit.

use super::mark_key::{KEY_LINE, MarkKey, Meaning};
use super::measure::{shorten, text_width, wrap};
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pt, Role, Scene};
use crate::lineup::{Findings, Lineup};
use crate::words::drawings as labels;
use crate::words::{
    BUILD_NOTE, FRAME_CORNER, FitCell, FitMark, FitTable, build_table, contact_points_cautions, contact_points_table,
    gear_sentences, gears_table, loaded_table, more_rows_do_not_fit, needs_table, parts_cautions, parts_table,
    price_and_climb_table, rules_of_thumb_table, standards_notes, standards_table,
};

/// Which table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FitPart {
    /// The published standards of the frames.
    Standards,
    /// The parts against the frames.
    Parts,
    /// The frames against the rider's needs.
    Needs,
    /// The rider's contact points on the frames.
    ContactPoints,
    /// Prices, weights, shares and times of the framesets.
    PriceAndClimb,
    /// What the builds' gears do on the reference.
    Gears,
    /// The loaded bicycles with the loading at this place, 0 without luggage.
    Loaded(usize),
    /// What rules of thumb come to on the reference.
    RulesOfThumb,
    /// What it takes to build a bicycle on each frame.
    Build,
}

impl FitPart {
    /// Its title.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Standards => labels::STANDARDS_TITLE,
            Self::Parts => labels::PARTS_TITLE,
            Self::Needs => labels::NEEDS_TITLE,
            Self::ContactPoints => labels::CONTACT_POINTS_TITLE,
            Self::PriceAndClimb => labels::PRICE_AND_CLIMB_TABLE_TITLE,
            Self::Gears => labels::GEARS_TITLE,
            Self::Loaded(_) => labels::LOADED_TABLE_TITLE,
            Self::RulesOfThumb => labels::RULES_OF_THUMB_TITLE,
            Self::Build => labels::BUILD_TITLE,
        }
    }

    /// What it says where there is nothing to show.
    const fn empty(self) -> &'static str {
        match self {
            Self::Standards => labels::NO_STANDARD,
            Self::Parts => labels::NO_PART_IS_LISTED,
            Self::Needs => labels::NO_NEED_IS_LISTED,
            Self::ContactPoints => labels::NO_CONTACT_POINTS,
            Self::PriceAndClimb | Self::Loaded(_) | Self::RulesOfThumb => labels::NO_FRAME_IS_SHOWN,
            Self::Gears => labels::NO_GEARS,
            Self::Build => labels::NO_BUILD,
        }
    }

    /// Least width of a column in which its words wrap well, page units.
    const fn least_column(self) -> f64 {
        match self {
            Self::Needs => 92.0,
            Self::Standards | Self::Parts => 100.0,
            Self::Gears => 120.0,
            Self::ContactPoints | Self::PriceAndClimb | Self::Build | Self::Loaded(_) => 132.0,
            Self::RulesOfThumb => 150.0,
        }
    }

    fn table(self, lineup: &Lineup, findings: &Findings) -> FitTable {
        match self {
            Self::Standards => standards_table(findings),
            Self::Parts => parts_table(lineup, findings),
            Self::Needs => needs_table(lineup, findings),
            Self::ContactPoints => contact_points_table(lineup.settings.units, findings),
            Self::PriceAndClimb => price_and_climb_table(lineup, findings),
            Self::Gears => gears_table(lineup, findings, findings.reference.unwrap_or_default()),
            Self::Loaded(loading) => loaded_table(lineup, findings, loading),
            Self::RulesOfThumb => rules_of_thumb_table(lineup, findings),
            Self::Build => build_table(lineup, findings),
        }
    }
}

/// Margin at either side, page units.
pub(super) const SIDE: f64 = 20.0;
const PAD: f64 = 8.0;
const MARK: f64 = 14.0;
const LINE: f64 = 15.0;
const HEAD: Face = Face::semibold(12.5, Role::Ink);
const NAME: Face = Face::regular(12.5, Role::Ink);
const CELL: Face = Face::regular(12.0, Role::Ink);
const EMPTY: Face = Face::regular(14.0, Role::SecondInk);
const NOTE: Face = Face::regular(11.0, Role::SecondInk);
/// A cell, a head or a name takes as many lines as its words need: what is cut off may be the condition.
const MOST_LINES: usize = usize::MAX;
/// A frame's name above its column takes no more; the line-up has it in full.
const FRAME_LINES: usize = 4;
const TOP: f64 = 16.0;
/// Notes are no wider, to be read without scrolling where the table is wide, page units.
const NOTE_WIDTH: f64 = 520.0;

struct Layout {
    names: f64,
    column: f64,
    heads: Vec<Vec<String>>,
    head_height: f64,
    rows: Vec<Row>,
    key_height: f64,
    notes: Vec<String>,
}

struct Row {
    name: Vec<String>,
    cells: Vec<Vec<String>>,
    height: f64,
}

impl Layout {
    fn of(table: &FitTable, told: &[String], width: f64) -> Self {
        let inner = (width - 2.0 * SIDE).max(120.0);
        let columns = table.columns.len().max(1) as f64;
        let widest = table.rows.iter().map(|r| text_width(&r.label, NAME.size, NAME.weight)).fold(0.0, f64::max) + 2.0 * PAD;
        let names = widest.min(inner * 0.26).clamp(80.0, 260.0);
        let column = ((inner - names) / columns).min(260.0);
        let head_lines = if table.columns.len() == table.frames.len() { FRAME_LINES } else { MOST_LINES };
        let heads: Vec<Vec<String>> =
            table.columns.iter().map(|c| wrap(c, HEAD.size, HEAD.weight, column - 2.0 * PAD, head_lines)).collect();
        let head_height = heads.iter().map(Vec::len).max().unwrap_or(1) as f64 * LINE + 2.0 * PAD;
        let rows = table
            .rows
            .iter()
            .map(|row| {
                let name = wrap(&row.label, NAME.size, NAME.weight, names - PAD, MOST_LINES);
                let room = |mark: FitMark| column - 2.0 * PAD - if mark == FitMark::Plain { 0.0 } else { MARK };
                let cells: Vec<Vec<String>> =
                    row.cells.iter().map(|c| wrap(&c.text, CELL.size, CELL.weight, room(c.mark), MOST_LINES)).collect();
                let lines = cells.iter().map(Vec::len).chain(std::iter::once(name.len())).max().unwrap_or(1).max(1);
                Row { name, cells, height: lines as f64 * LINE + PAD }
            })
            .collect();
        let notes = told.iter().flat_map(|t| wrap(t, NOTE.size, NOTE.weight, inner.min(NOTE_WIDTH), MOST_LINES)).collect();
        let has_marks = table.rows.iter().flat_map(|r| &r.cells).any(|c| !matches!(c.mark, FitMark::Plain | FitMark::Open));
        Self {
            names,
            column,
            heads,
            head_height,
            rows,
            key_height: if has_marks { 10.0 + KEY_LINE * MarkKey::of(KEY, inner).len() as f64 } else { 8.0 },
            notes,
        }
    }

    fn height(&self) -> f64 {
        let rows: f64 = self.rows.iter().map(|r| r.height).sum();
        TOP + self.head_height + rows + self.key_height + 14.0 * self.notes.len() as f64 + 16.0
    }
}

/// The least width at which a table's words stand comfortably, page units: narrower windows scroll.
#[must_use]
pub fn fit_width(part: FitPart, lineup: &Lineup, findings: &Findings) -> f64 {
    if !has_fit(part, lineup, findings) {
        return text_width(part.empty(), EMPTY.size, EMPTY.weight) + 2.0 * SIDE;
    }
    2.0 * SIDE + BAND_NAMES + part.least_column()
}

/// The height at which a table stands whole on a page of that width, page units.
#[must_use]
pub fn fit_height(part: FitPart, lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    if !has_fit(part, lineup, findings) {
        return 6.0 * LINE;
    }
    Layout::of(&part.table(lineup, findings), &told(part, lineup, findings), width).height()
}

/// Least width of the names of rows where a table is parted into bands, page units.
const BAND_NAMES: f64 = 150.0;

/// A table on a page of that width, as high as it is. Where its columns do not stand side by side, they stand in bands
/// below one another, each with the names of the rows.
#[must_use]
pub fn fit_bands_scene(part: FitPart, lineup: &Lineup, findings: &Findings, width: f64) -> Scene {
    if !has_fit(part, lineup, findings) {
        return fit_scene(part, lineup, findings, Page { width, height: 6.0 * LINE });
    }
    let (table, told) = (part.table(lineup, findings), told(part, lineup, findings));
    let room = width - 2.0 * SIDE - BAND_NAMES;
    let most = (1..=table.columns.len()).rev().find(|n| *n as f64 * part.least_column() <= room).unwrap_or(1);
    let bands = table.columns.len().div_ceil(most).max(1);
    let columns = table.columns.len().div_ceil(bands).max(1);
    let mut pen = Pen::default();
    let mut height = 0.0;
    for band in 0..bands {
        let is_last = band + 1 == bands;
        let table = table.columns_from(band * columns, columns);
        let layout = Layout::of(&table, if is_last { &told } else { &[] }, width);
        let layout = if is_last { layout } else { Layout { key_height: 8.0, ..layout } };
        let page = Page { width, height: layout.height() };
        let mut own = Pen::default();
        draw(&mut own, &table, &layout, findings, page);
        pen.place(own.finish(page, title(part, &table), String::new()), Pt { x: 0.0, y: height });
        height += page.height;
    }
    pen.finish(Page { width, height: height.max(60.0) }, title(part, &table), description(&table, &told))
}

/// The title of a table. There is one of loaded bicycles for each loading.
fn title(part: FitPart, table: &FitTable) -> String {
    if matches!(part, FitPart::Loaded(_)) { labels::loaded_title(&table.corner) } else { part.label().to_owned() }
}

/// The cautions and sentences that belong below a table.
fn told(part: FitPart, lineup: &Lineup, findings: &Findings) -> Vec<String> {
    let cautions = |cautions: Vec<&str>| cautions.into_iter().map(str::to_owned).collect();
    match part {
        FitPart::Needs | FitPart::PriceAndClimb | FitPart::Loaded(_) | FitPart::RulesOfThumb => Vec::new(),
        FitPart::Standards => standards_notes(findings),
        FitPart::Parts => cautions(parts_cautions(findings)),
        FitPart::ContactPoints => cautions(contact_points_cautions(findings)),
        FitPart::Gears => gear_sentences(lineup, findings),
        FitPart::Build => vec![BUILD_NOTE.to_owned()],
    }
}

/// Whether that table has anything to say: a part is listed, a need, something of the rider.
pub(super) fn has_fit(part: FitPart, lineup: &Lineup, findings: &Findings) -> bool {
    if matches!(part, FitPart::Loaded(_) | FitPart::RulesOfThumb) {
        return findings.frames.iter().any(|f| f.shown);
    }
    let is_asked = part != FitPart::Needs || !lineup.settings.needs.is_empty();
    let table = part.table(lineup, findings);
    is_asked && !table.rows.is_empty() && !table.columns.is_empty()
}

/// A table on a page. What does not fit on it is left out and counted.
#[must_use]
pub fn fit_scene(part: FitPart, lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let mut pen = Pen::default();
    let table = part.table(lineup, findings);
    if !has_fit(part, lineup, findings) {
        pen.text(Rect::of_page(page).centre(), part.empty(), EMPTY, Anchor::Middle);
        return pen.finish(page, part.label(), part.empty());
    }
    let told = told(part, lineup, findings);
    let layout = Layout::of(&table, &told, page.width);
    draw(&mut pen, &table, &layout, findings, page);
    pen.finish(page, title(part, &table), description(&table, &told))
}

fn draw(pen: &mut Pen, table: &FitTable, layout: &Layout, findings: &Findings, page: Page) {
    let left = SIDE;
    let right = left + layout.names + layout.column * table.columns.len() as f64;
    let x_of = |column: usize| left + layout.names + layout.column * column as f64;
    let mut y = TOP;
    pen.text(Pt { x: left, y: y + layout.head_height - PAD }, table.corner.as_str(), NOTE, Anchor::Start);
    for (column, lines) in layout.heads.iter().enumerate() {
        let over = table.frames.get(column).filter(|_| table.columns.len() == table.frames.len());
        let first = y + layout.head_height - PAD - LINE * (lines.len().saturating_sub(1)) as f64;
        let role = over.map_or(HEAD.role, |place| Role::FrameLetter(*place));
        for (i, line) in lines.iter().enumerate() {
            pen.text(
                Pt { x: x_of(column) + PAD, y: first + LINE * i as f64 },
                line.as_str(),
                Face { role, ..HEAD },
                Anchor::Start,
            );
        }
    }
    y += layout.head_height;
    pen.line(vec![Pt { x: left, y }, Pt { x: right, y }], solid(Role::SecondInk, 1.0));
    let below = layout.key_height + 14.0 * layout.notes.len() as f64 + 16.0;
    for (place, (row, said)) in layout.rows.iter().zip(&table.rows).enumerate() {
        if y + row.height > page.height - below.min(page.height * 0.3) {
            let text = more_rows_do_not_fit(layout.rows.len() - place);
            pen.text(Pt { x: left, y: y + LINE }, text, NOTE, Anchor::Start);
            y += LINE + PAD;
            break;
        }
        let base = y + LINE - 1.0;
        // Where frames stand down the side, their letter has their colour.
        let letter =
            table.frames.get(place).filter(|_| table.columns.len() != table.frames.len() || table.corner == FRAME_CORNER);
        for (i, line) in row.name.iter().enumerate() {
            let role = match letter {
                Some(frame) if i == 0 && frame.of(&findings.frames).is_some() && table.corner == FRAME_CORNER => {
                    Role::FrameLetter(*frame)
                }
                _ => NAME.role,
            };
            pen.text(Pt { x: left, y: base + LINE * i as f64 }, line.as_str(), Face { role, ..NAME }, Anchor::Start);
        }
        for (column, (lines, cell)) in row.cells.iter().zip(&said.cells).enumerate() {
            let x = x_of(column) + PAD;
            mark(pen, Pt { x: x + 4.0, y: base - 4.0 }, cell.mark);
            let role = if cell.mark.is_grey() { Role::Grey } else { CELL.role };
            let indent = if cell.mark == FitMark::Plain { 0.0 } else { MARK };
            for (i, line) in lines.iter().enumerate() {
                pen.text(Pt { x: x + indent, y: base + LINE * i as f64 }, line.as_str(), Face { role, ..CELL }, Anchor::Start);
            }
            let area = Rect::new(x_of(column), y, layout.column, row.height);
            let name = table.columns.get(column).map_or_else(|| said.label.clone(), |c| format!("{}: {c}", said.label));
            pen.target(area.corners(), name, in_full(cell));
        }
        y += row.height;
        pen.line(vec![Pt { x: left, y }, Pt { x: right, y }], solid(Role::Hairline, 0.8));
    }
    if layout.key_height > 20.0 {
        MarkKey::of(KEY, page.width - 2.0 * SIDE).draw(pen, left, y + 18.0);
    }
    y += layout.key_height + 12.0;
    for line in &layout.notes {
        pen.text(Pt { x: left, y }, shorten(line, NOTE.size, NOTE.weight, page.width - 2.0 * SIDE), NOTE, Anchor::Start);
        y += 14.0;
    }
}

fn in_full(cell: &FitCell) -> String {
    if cell.detail.is_empty() { cell.text.clone() } else { format!("{}. {}", cell.text, cell.detail) }
}

const RADIUS: f64 = 4.2;

/// The mark of a cell, about a point.
pub(super) fn mark(pen: &mut Pen, at: Pt, mark: FitMark) {
    let line = solid(Role::Ink, 1.2);
    let full = Fill { role: Role::Ink, opacity: 1.0 };
    match mark {
        FitMark::Yes | FitMark::Best => pen.circle(at, RADIUS, Some(full), None),
        FitMark::With => {
            let half: Vec<Pt> = (0..=12)
                .map(|i| {
                    let (sin, cos) = (f64::from(i) / 12.0 * std::f64::consts::PI + std::f64::consts::FRAC_PI_2).sin_cos();
                    Pt { x: at.x + RADIUS * cos, y: at.y + RADIUS * sin }
                })
                .collect();
            pen.area(half, Some(full), None);
            pen.circle(at, RADIUS, None, Some(line));
        }
        FitMark::Open => pen.circle(at, RADIUS, None, Some(solid(Role::Grey, 1.1))),
        FitMark::No => {
            for side in [-1.0, 1.0] {
                let d = RADIUS - 0.6;
                pen.line(
                    vec![Pt { x: at.x - d, y: at.y - d * side }, Pt { x: at.x + d, y: at.y + d * side }],
                    solid(Role::Ink, 1.6),
                );
            }
        }
        FitMark::Plain => {}
    }
}

/// What the marks mean.
const KEY: [Meaning; 4] = [
    (FitMark::Yes, labels::MARK_YES),
    (FitMark::With, labels::MARK_WITH),
    (FitMark::Open, labels::MARK_OPEN),
    (FitMark::No, labels::MARK_NO),
];

/// The table in sentences, for those who do not see the picture.
fn description(table: &FitTable, told: &[String]) -> String {
    let mut text = String::new();
    for row in &table.rows {
        let cells: Vec<String> =
            row.cells.iter().zip(&table.columns).map(|(cell, column)| format!("{column} {}", cell.text)).collect();
        text.push_str(&format!("{}: {}. ", row.label, cells.join("; ")));
    }
    text.push_str(&told.join(" "));
    text.trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Item;
    use crate::frameset::Standard;
    use crate::lineup::read_lineup;

    fn lineup() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    #[test]
    fn every_cell_has_a_reason_for_the_pointer() {
        let lineup = lineup();
        let findings = Findings::of(&lineup);
        for part in [FitPart::Parts, FitPart::Needs, FitPart::ContactPoints] {
            let page = Page { width: 1280.0, height: fit_height(part, &lineup, &findings, 1280.0) };
            let scene = fit_scene(part, &lineup, &findings, page);
            let table = part.table(&lineup, &findings);
            assert_eq!(scene.targets.len(), table.rows.iter().map(|r| r.cells.len()).sum::<usize>(), "{part:?}");
            assert!(scene.targets.iter().all(|t| !t.detail.is_empty()));
            assert!(scene.description.contains(&table.rows[0].label));
        }
    }

    #[test]
    fn no_word_of_a_cell_is_cut_off() {
        let lineup = lineup();
        let findings = Findings::of(&lineup);
        for part in [FitPart::Parts, FitPart::Needs, FitPart::ContactPoints] {
            let scene = fit_bands_scene(part, &lineup, &findings, fit_width(part, &lineup, &findings));
            let texts = scene.items.iter().filter_map(|i| if let Item::Text { text, .. } = i { Some(text) } else { None });
            let cut: Vec<_> = texts.filter(|t| t.ends_with('…')).collect();
            assert!(cut.is_empty(), "{part:?}: {cut:?}");
        }
    }

    #[test]
    fn a_small_page_says_what_it_leaves_out() {
        let lineup = lineup();
        let findings = Findings::of(&lineup);
        let scene = fit_scene(FitPart::Parts, &lineup, &findings, Page { width: 700.0, height: 320.0 });
        let says = |words: &str| scene.items.iter().any(|i| matches!(i, Item::Text { text, .. } if text.contains(words)));
        assert!(says("do not fit on this page"));
    }

    #[test]
    fn nothing_listed_is_said() {
        let empty = Lineup::default();
        let scene = fit_scene(FitPart::Parts, &empty, &Findings::of(&empty), Page { width: 700.0, height: 320.0 });
        assert!(scene.description.contains("No part is listed"));
    }

    #[test]
    fn frames_that_do_not_stand_side_by_side_stand_in_bands() {
        let mut lineup = crate::drawing::sample::lineup(7);
        for entry in &mut lineup.frames {
            let published = [(Standard::RearHub, "142 x 12"), (Standard::BottomBracket, "BSA 68")];
            std::sync::Arc::make_mut(&mut entry.frameset).standards = published.map(|(s, text)| (s, text.to_owned())).into();
        }
        let findings = Findings::of(&lineup);
        let of = |width: f64| {
            let scene = fit_bands_scene(FitPart::Standards, &lineup, &findings, width);
            let texts = || {
                scene.items.iter().filter_map(|i| match i {
                    Item::Text { at, text, .. } => Some((at.y, text.as_str())),
                    _ => None,
                })
            };
            let right = scene.targets.iter().flat_map(|t| &t.shape).map(|p| p.x).fold(0.0, f64::max);
            assert!(right <= width, "{right} of {width}");
            assert_eq!(scene.targets.len(), 7 * 2, "no cell is lost");
            assert!(texts().map(|(y, _)| y).fold(0.0, f64::max) <= scene.page.height);
            texts().filter(|(_, text)| *text == "Standard").count()
        };
        assert_eq!([1000.0, 690.0, 400.0, 200.0].map(of), [1, 2, 4, 7]);
    }
}
