//! The overview: a small side view a frame, all to one scale, and below it a row a measure. Where the page is too narrow for
//! all frames side by side, they stand in bands below one another.

use super::fit_scene::mark;
use super::frame_shape::{self, FrameLook};
use super::mark_key::{KEY_LINE, MarkKey};
use super::measure::{text_width, wrap};
use super::pen::{Face, Pen, solid};
use super::picture::whole_table;
use super::rect::Rect;
use super::scene::{Anchor, Page, Pt, Role, Scene};
use super::standing::Standing;
use super::view::{Canvas, Margins, fitted};
use crate::frameset::FrameIndex;
use crate::geometry::Point;
use crate::lineup::{AlignAt, Findings, Lineup, OverviewRow};
use crate::units::listed;
use crate::words::drawings as labels;
use crate::words::{
    FitCell, FitMark, FitTable, OVERVIEW_KEY, more_do_not_fit, more_rows_do_not_fit, overlaid_text, overview_description,
    overview_table,
};

/// Margin at either side, page units.
pub(super) const SIDE: f64 = 20.0;
const TOP: f64 = 10.0;
const PAD: f64 = 6.0;
const LINE: f64 = 15.0;
/// The least width of a frame's column, and the most that it gets.
const LEAST_COLUMN: f64 = 86.0;
const MOST_COLUMN: f64 = 230.0;
/// Share of a page's width for the names of the rows, and its bounds.
const NAMES_SHARE: f64 = 0.2;
const NAMES: std::ops::RangeInclusive<f64> = 104.0..=190.0;
/// Height of a side view against its width, and the most.
const PICTURE_SHARE: f64 = 0.62;
const MOST_PICTURE: f64 = 112.0;
/// Side views are drawn so much larger and then made smaller, so that their lines are fine.
const FINER: f64 = 2.2;
/// Space for a mark before a cell's words.
const MARK: f64 = 13.0;
/// On a page that is too low for all rows, so many are worth a place.
const LEAST_ROWS: usize = 4;
/// A frame's name above its column takes no more lines; the line-up has it in full.
const NAME_LINES: usize = 3;
const BETWEEN_BANDS: f64 = 18.0;
/// What is free above the key.
const KEY_ABOVE: f64 = 10.0;
const NAME: Face = Face::regular(12.5, Role::SecondInk);
const CELL: Face = Face::regular(12.5, Role::Ink);
const BEST: Face = Face::semibold(12.5, Role::Ink);
const HEAD: Face = Face::semibold(12.5, Role::Ink);
const NOTE: Face = Face::regular(11.0, Role::SecondInk);

/// Where a cell of the overview lies.
#[derive(Clone, Debug, PartialEq)]
pub struct OverviewPlace {
    /// On the page.
    pub rect: Rect,
    /// Its row; `None` for the side view of a frame.
    pub row: Option<OverviewRow>,
    /// Its frame.
    pub frame: FrameIndex,
    /// What it is, `Trail, mm: A Marrowby Drift L`.
    pub name: String,
    /// What it says, and what is behind that.
    pub detail: String,
}

struct Row {
    which: Option<OverviewRow>,
    name: Vec<String>,
    cells: Vec<Vec<String>>,
    height: f64,
}

/// Some frames side by side with all rows.
struct Band {
    /// Places in the table's columns.
    columns: std::ops::Range<usize>,
    heads: Vec<Vec<String>>,
    head_height: f64,
    rows: Vec<Row>,
}

/// The overview laid out on a page of some width.
pub struct OverviewLayout<'a> {
    findings: &'a Findings,
    width: f64,
    table: FitTable,
    names: f64,
    column: f64,
    picture: f64,
    bands: Vec<Band>,
    key: MarkKey,
    /// Which frames it leaves out, where there are too many.
    note: Vec<String>,
}

impl<'a> OverviewLayout<'a> {
    /// Lays it out on a page of that width, page units.
    #[must_use]
    pub fn of(lineup: &Lineup, findings: &'a Findings, width: f64) -> Self {
        let table = overview_table(lineup, findings);
        let which: Vec<OverviewRow> = lineup.settings.overview.rows().collect();
        let inner = (width - 2.0 * SIDE).max(160.0);
        let names = (inner * NAMES_SHARE).clamp(*NAMES.start(), *NAMES.end());
        let count = table.columns.len();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of columns on a page")]
        let most = (((inner - names) / LEAST_COLUMN) as usize).max(1);
        // As many in each band as in the others, or one fewer.
        let in_band = count.div_ceil(count.div_ceil(most).max(1)).max(1);
        let column = ((inner - names) / in_band as f64).min(MOST_COLUMN);
        let first = |band: usize| band * in_band;
        let bands = (0..count.div_ceil(in_band))
            .map(|band| Band::of(&table, &which, first(band)..count.min(first(band + 1)), names, column))
            .collect();
        let is_there = |mark: FitMark| table.rows.iter().flat_map(|r| &r.cells).any(|c| c.mark == mark);
        let key = MarkKey::of(OVERVIEW_KEY.into_iter().filter(|(mark, _)| is_there(*mark)), inner);
        let note = findings.overlaid_of_more().map(overlaid_text);
        let note = note.map_or_else(Vec::new, |note| wrap(&note, NOTE.size, NOTE.weight, inner, usize::MAX));
        Self { findings, width, picture: (column * PICTURE_SHARE).min(MOST_PICTURE), table, names, column, bands, key, note }
    }

    fn row_count(&self) -> usize {
        self.table.rows.len()
    }

    /// Where the first bands end, with the first rows of each.
    fn end_of(&self, bands: usize, rows: usize) -> f64 {
        let of = |band: &Band| {
            self.picture + band.head_height + band.rows.iter().take(rows).map(|r| r.height).sum::<f64>() + BETWEEN_BANDS
        };
        TOP + self.bands.iter().take(bands).map(of).sum::<f64>() - BETWEEN_BANDS
    }

    /// How many bands and how many rows of each end above `bottom`: all frames with the first rows, where one fits, else the
    /// first frames. One band is always there.
    fn fitting(&self, bottom: f64) -> (usize, usize) {
        let fits = |bands: usize, rows: usize| self.end_of(bands, rows) <= bottom + 1e-6;
        let bands = (1..=self.bands.len()).rev().find(|bands| fits(*bands, 1.min(self.row_count()))).unwrap_or(1);
        (bands, (0..=self.row_count()).rev().find(|rows| fits(bands, *rows)).unwrap_or(0))
    }

    /// The height at which it stands whole, page units.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.end_of(self.bands.len(), self.row_count()) + self.key_height()
    }

    /// The height at which it says anything worth a place: the first rows of all frames, and how many are left out.
    fn least_height(&self) -> f64 {
        let rows = LEAST_ROWS.min(self.row_count());
        let own_line = if rows < self.row_count() { KEY_LINE } else { 0.0 };
        self.end_of(self.bands.len(), rows) + self.key_height() + own_line
    }

    /// Height of the key and the note below it.
    fn key_height(&self) -> f64 {
        KEY_ABOVE + KEY_LINE * (self.key.len() + self.note.len()) as f64
    }

    fn x_of(&self, column: usize) -> f64 {
        SIDE + self.names + self.column * column as f64
    }

    /// Cells and side views with their places, band by band.
    #[must_use]
    pub fn places(&self) -> Vec<OverviewPlace> {
        self.places_of(self.bands.len(), self.row_count())
    }

    fn places_of(&self, bands: usize, rows: usize) -> Vec<OverviewPlace> {
        let mut places = Vec::new();
        let mut y = TOP;
        for (number, band) in self.bands[..bands].iter().enumerate() {
            for (at, column) in band.columns.clone().enumerate() {
                let Some(frame) = self.table.frames.get(column).copied() else { continue };
                let title = &self.table.columns[column];
                let place = |rect, row, name, detail| OverviewPlace { rect, row, frame, name, detail };
                let x = self.x_of(at);
                let over = Rect::new(x, y, self.column, self.picture + band.head_height);
                places.push(place(over, None, title.clone(), String::new()));
                let mut top = y + self.picture + band.head_height;
                for (row, said) in band.rows.iter().zip(&self.table.rows).take(rows) {
                    let name = format!("{}: {title}", said.label);
                    places.push(place(Rect::new(x, top, self.column, row.height), row.which, name, in_full(&said.cells[column])));
                    top += row.height;
                }
            }
            y = self.end_of(number + 1, rows) + BETWEEN_BANDS;
        }
        places
    }

    /// The overview on a page of its width and this height. Rows that do not fit are left out and counted.
    #[must_use]
    pub fn scene(&self, height: f64) -> Scene {
        let page = Page { width: self.width, height };
        let mut pen = Pen::default();
        if self.table.columns.is_empty() {
            pen.text(
                Rect::of_page(page).centre(),
                labels::NO_FRAME_IS_SHOWN,
                Face::regular(15.0, Role::SecondInk),
                Anchor::Middle,
            );
            return pen.finish(page, labels::OVERVIEW_TITLE, labels::NO_FRAME_IS_SHOWN);
        }
        let bounds = bounds(self.findings, &self.table.frames);
        // A low page counts what it leaves out in a line of its own.
        let own_line = if self.height() > height + 1e-6 { KEY_LINE } else { 0.0 };
        let bottom = height - self.key_height() - own_line;
        let (bands, rows) = self.fitting(bottom);
        let mut y = TOP;
        for band in &self.bands[..bands] {
            for (at, column) in band.columns.clone().enumerate() {
                let place = self.table.frames[column];
                let picture = Rect::new(self.x_of(at), y, self.column, self.picture);
                side_view(&mut pen, self.findings, place, picture, bounds);
                for (i, line) in band.heads[at].iter().enumerate() {
                    let role = Role::FrameLetter(place);
                    let base = Pt { x: picture.centre().x, y: picture.bottom() + LINE * (i as f64 + 1.0) };
                    pen.text(base, line.as_str(), Face { role, ..HEAD }, Anchor::Middle);
                }
            }
            y += self.picture + band.head_height;
            let right = self.x_of(band.columns.len());
            pen.line(vec![Pt { x: SIDE, y }, Pt { x: right, y }], solid(Role::SecondInk, 1.0));
            for (row, said) in band.rows.iter().zip(&self.table.rows).take(rows) {
                row_of(&mut pen, row, &said.cells[band.columns.clone()], self, y);
                y += row.height;
                pen.line(vec![Pt { x: SIDE, y }, Pt { x: right, y }], solid(Role::Hairline, 0.8));
            }
            y += BETWEEN_BANDS;
        }
        let rows_left_out = self.row_count() - rows;
        let frames_left_out: usize = self.bands[bands..].iter().map(|band| band.columns.len()).sum();
        let left_out =
            [(rows_left_out, more_rows_do_not_fit(rows_left_out)), (frames_left_out, more_do_not_fit(frames_left_out))];
        let left_out: Vec<String> = left_out.into_iter().filter(|(count, _)| *count > 0).map(|(_, words)| words).collect();
        key(&mut pen, self, y - BETWEEN_BANDS + KEY_ABOVE + 6.0, &left_out.join(" "));
        for place in self.places_of(bands, rows) {
            pen.about(Some(place.frame));
            pen.target(place.rect.corners(), place.name, place.detail);
        }
        let note = self.findings.overlaid_of_more().map(overlaid_text);
        let description = note.into_iter().chain([overview_description(&self.table)]).collect::<Vec<_>>().join(" ");
        pen.finish(page, labels::OVERVIEW_TITLE, description)
    }
}

impl Band {
    fn of(table: &FitTable, which: &[OverviewRow], columns: std::ops::Range<usize>, names: f64, column: f64) -> Self {
        let wrapped = |text: &str, face: Face, width: f64, lines| wrap(text, face.size, face.weight, width, lines);
        let heads: Vec<Vec<String>> =
            table.columns[columns.clone()].iter().map(|c| wrapped(c, HEAD, column - 2.0 * PAD, NAME_LINES)).collect();
        let head_height = heads.iter().map(Vec::len).max().unwrap_or(1) as f64 * LINE + PAD + 4.0;
        let rows = table.rows.iter().enumerate().map(|(at, row)| {
            let name = wrapped(&row.label, NAME, names - PAD, usize::MAX);
            let room = |cell: &FitCell| column - 2.0 * PAD - if cell.mark == FitMark::Plain { 0.0 } else { MARK };
            let cells: Vec<Vec<String>> =
                row.cells[columns.clone()].iter().map(|c| wrapped(&c.text, face(c), room(c), usize::MAX)).collect();
            let lines = cells.iter().map(Vec::len).chain(std::iter::once(name.len())).max().unwrap_or(1).max(1);
            Row { which: which.get(at).copied(), name, cells, height: lines as f64 * LINE + PAD + 1.0 }
        });
        Self { rows: rows.collect(), columns, heads, head_height }
    }
}

const fn face(cell: &FitCell) -> Face {
    match cell.mark {
        FitMark::Best => BEST,
        FitMark::Open => Face::regular(CELL.size, Role::Grey),
        _ => CELL,
    }
}

fn in_full(cell: &FitCell) -> String {
    if cell.detail.is_empty() {
        cell.text.clone()
    } else if cell.detail.starts_with(&cell.text) {
        cell.detail.clone()
    } else {
        format!("{}. {}", cell.text, cell.detail)
    }
}

/// The height at which the overview stands whole on a page of that width, page units.
pub(super) fn overview_height(lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    OverviewLayout::of(lineup, findings, width).height()
}

/// The least height of the overview on a page of that width, page units: the first rows of all frames.
pub(super) fn least_overview_height(lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    OverviewLayout::of(lineup, findings, width).least_height()
}

/// The overview on a page that it may not fill: where the page is low, in smaller letters.
pub(super) fn overview_on(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    whole_table(page, SIDE, |width| overview_height(lineup, findings, width), |page| overview_scene(lineup, findings, page))
}

/// The overview on a page. Rows that do not fit are left out and counted.
pub(super) fn overview_scene(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    OverviewLayout::of(lineup, findings, page.width).scene(page.height)
}

/// Size of a side view on a page for browsers, the space for its letter below, and how many stand side by side.
const ON_A_PAGE: Page = Page { width: 180.0, height: 104.0 };
const LETTER_BELOW: f64 = 26.0;
const IN_A_ROW: usize = 4;

/// The side views of the overview alone, with their letters, to stand above its table; `None` where no frame is shown.
#[must_use]
pub fn overview_side_views(findings: &Findings) -> Option<Scene> {
    let frames = findings.overlaid();
    let bounds = bounds(findings, &frames);
    let columns = frames.len().min(IN_A_ROW);
    let rows = frames.len().div_ceil(IN_A_ROW);
    let step = ON_A_PAGE.height + LETTER_BELOW;
    let mut pen = Pen::default();
    let mut names = Vec::new();
    for (at, place) in frames.iter().enumerate() {
        let frame = place.of(&findings.frames)?;
        let corner = ((at % IN_A_ROW) as f64 * ON_A_PAGE.width, (at / IN_A_ROW) as f64 * step);
        let rect = Rect::new(corner.0, corner.1, ON_A_PAGE.width, ON_A_PAGE.height);
        side_view(&mut pen, findings, *place, rect, bounds);
        let base = Pt { x: rect.centre().x, y: rect.bottom() + LINE + 3.0 };
        pen.text(base, frame.letter.as_str(), Face { role: Role::FrameLetter(*place), size: 17.0, ..HEAD }, Anchor::Middle);
        names.push(format!("{} {}", frame.letter, frame.name));
    }
    let page = Page { width: columns as f64 * ON_A_PAGE.width, height: rows as f64 * step };
    let names = listed(names.iter().map(String::as_str));
    (columns > 0).then(|| pen.finish(page, labels::OUTLINES_TITLE, format!("{names}.")))
}

fn row_of(pen: &mut Pen, row: &Row, said: &[FitCell], layout: &OverviewLayout<'_>, y: f64) {
    let base = y + LINE - 0.5;
    for (i, line) in row.name.iter().enumerate() {
        pen.text(Pt { x: SIDE, y: base + LINE * i as f64 }, line.as_str(), NAME, Anchor::Start);
    }
    for (at, (lines, cell)) in row.cells.iter().zip(said).enumerate() {
        let face = face(cell);
        let indent = if cell.mark == FitMark::Plain { 0.0 } else { MARK };
        let centre = layout.x_of(at) + layout.column / 2.0;
        let widest = lines.iter().map(|l| text_width(l, face.size, face.weight)).fold(0.0, f64::max);
        mark(pen, Pt { x: centre - widest / 2.0 - indent / 2.0 + 1.0, y: base - 4.2 }, cell.mark);
        for (i, line) in lines.iter().enumerate() {
            pen.text(Pt { x: centre + indent / 2.0, y: base + LINE * i as f64 }, line.as_str(), face, Anchor::Middle);
        }
    }
}

/// Lowest and highest corner of all side views, mm, each about its own bottom bracket.
fn bounds(findings: &Findings, frames: &[FrameIndex]) -> Option<(Point<f64>, Point<f64>)> {
    let of = |place: &FrameIndex| Standing::of(place.of(&findings.frames)?, AlignAt::BottomBracket)?.bounds(true);
    frames.iter().filter_map(of).reduce(|(low, high), (l, h)| {
        (Point { x: low.x.min(l.x), y: low.y.min(l.y) }, Point { x: high.x.max(h.x), y: high.y.max(h.y) })
    })
}

/// One frame with its wheels, at the scale of all.
fn side_view(pen: &mut Pen, findings: &Findings, place: FrameIndex, rect: Rect, bounds: Option<(Point<f64>, Point<f64>)>) {
    let stands = place.of(&findings.frames).and_then(|frame| Standing::of(frame, AlignAt::BottomBracket));
    let (Some(stands), Some((low, high))) = (stands.filter(|s| s.head().is_some()), bounds) else {
        let at = Pt { x: rect.centre().x, y: rect.centre().y };
        pen.text(at, labels::NOT_DRAWN, NOTE, Anchor::Middle);
        return;
    };
    let page = Page { width: rect.width * FINER, height: rect.height * FINER };
    let view = fitted(low, high, page, Margins { side: 8.0, top: 6.0, bottom: 6.0 });
    let mut own = Pen::default();
    let canvas = Canvas { rect: Rect::of_page(page), view };
    frame_shape::draw_wheels(&mut own, canvas, &stands, place);
    frame_shape::draw(&mut own, canvas, &stands, FrameLook::alone(place));
    let scene = own.finish(page, "", "").scaled(1.0 / FINER);
    pen.place(scene, Pt { x: rect.x, y: rect.y });
}

/// What the marks mean, which frames the overview has no place for, and what this page leaves out.
fn key(pen: &mut Pen, layout: &OverviewLayout<'_>, y: f64, left_out: &str) {
    layout.key.draw(pen, SIDE, y);
    let y = y + KEY_LINE * layout.key.len() as f64;
    for (line, words) in layout.note.iter().map(String::as_str).chain(Some(left_out)).enumerate() {
        pen.text(Pt { x: SIDE, y: y + KEY_LINE * line as f64 }, words, NOTE, Anchor::Start);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Item;
    use crate::lineup::read_lineup;

    fn frames(count: usize) -> Lineup {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let sample = lineup.frames.clone();
        lineup.frames = sample.iter().cycle().take(count).cloned().collect();
        for entry in &mut lineup.frames {
            entry.shown = true;
        }
        lineup
    }

    #[test]
    fn words_stay_in_their_cells_and_are_whole_at_every_width() {
        for count in [1, 3, 8, 20] {
            let lineup = frames(count);
            let findings = Findings::of(&lineup);
            for width in [352.0, 640.0, 970.0, 1400.0] {
                let page = Page { width, height: overview_height(&lineup, &findings, width) };
                let scene = overview_scene(&lineup, &findings, page);
                let places = OverviewLayout::of(&lineup, &findings, width).places();
                assert_eq!(places.len(), count * 13, "{count} at {width}");
                for place in &places {
                    assert!(place.rect.x >= 0.0 && place.rect.right() <= width + 1e-6, "{count} at {width}");
                    assert!(place.rect.bottom() <= page.height + 1e-6);
                }
                for (i, a) in places.iter().enumerate() {
                    let apart = |b: &OverviewPlace| {
                        let (a, b) = (a.rect, b.rect);
                        a.right() <= b.x + 1e-6 || b.right() <= a.x + 1e-6 || a.bottom() <= b.y + 1e-6 || b.bottom() <= a.y + 1e-6
                    };
                    assert!(places[i + 1..].iter().all(apart), "{count} at {width}");
                }
                let inside = |at: Pt, text: &str, size, anchor, weight| {
                    let covered = Rect::of_text(at, text, size, anchor, weight);
                    covered.x >= -1.0 && covered.right() <= width + 1.0 && covered.bottom() <= page.height + 1.0
                };
                for item in &scene.items {
                    if let Item::Text { at, text, size, anchor, weight, .. } = item {
                        assert!(inside(*at, text, *size, *anchor, *weight), "{count} at {width}: {text}");
                    }
                }
            }
        }
    }

    #[test]
    fn side_views_for_a_page_stand_apart_four_in_a_row() {
        for (count, width, rows) in [(1, 180.0, 1.0), (4, 720.0, 1.0), (8, 720.0, 2.0)] {
            let scene = overview_side_views(&Findings::of(&frames(count))).unwrap();
            assert_eq!((scene.page.width, scene.page.height), (width, rows * 130.0));
            let letters: Vec<&str> = scene
                .items
                .iter()
                .filter_map(|item| match item {
                    Item::Text { text, .. } => Some(text.as_str()),
                    _ => None,
                })
                .collect();
            assert_eq!(letters, ["A", "B", "C", "D", "E", "F", "G", "H"][..count]);
        }
        assert_eq!(overview_side_views(&Findings::of(&Lineup::default())), None);
    }

    #[test]
    fn eight_frames_stand_side_by_side_in_a_window_of_1280() {
        let lineup = frames(8);
        let findings = Findings::of(&lineup);
        let tops: std::collections::BTreeSet<u64> = OverviewLayout::of(&lineup, &findings, 972.0)
            .places()
            .iter()
            .filter(|p| p.row.is_none())
            .map(|p| p.rect.y.to_bits())
            .collect();
        assert_eq!(tops.len(), 1);
    }

    #[test]
    fn a_low_page_says_what_it_leaves_out() {
        let says =
            |scene: &Scene, words: &str| scene.items.iter().any(|i| matches!(i, Item::Text { text, .. } if text.contains(words)));
        let texts_end_by = |scene: &Scene, bottom: f64| {
            scene.items.iter().all(|item| match item {
                Item::Text { at, .. } => at.y <= bottom,
                _ => true,
            })
        };
        let lineup = frames(3);
        let findings = Findings::of(&lineup);
        let scene = overview_scene(&lineup, &findings, Page { width: 900.0, height: 300.0 });
        assert!(says(&scene, "more rows do not fit on this page") && !says(&scene, "more frames"));
        assert!(says(&scene, "clearly best"), "the marks are explained all the same");
        assert!(texts_end_by(&scene, 300.0));
        assert!(scene.description.contains("Price"), "those who do not see it get all");
        // Two bands one below the other: the first rows of all frames, and only where none fits, the first frames.
        let lineup = frames(16);
        let findings = Findings::of(&lineup);
        let whole = overview_height(&lineup, &findings, 900.0);
        let on = |height: f64| overview_scene(&lineup, &findings, Page { width: 900.0, height });
        let least = least_overview_height(&lineup, &findings, 900.0);
        assert!(least < whole);
        assert!(says(&on(least), "8 more rows do not fit") && !says(&on(least), "more frames"));
        assert!(texts_end_by(&on(least), least));
        assert!(says(&on(240.0), "8 more frames do not fit here.") && says(&on(240.0), "more rows"));
        assert!(texts_end_by(&on(240.0), 240.0));
        assert!(!says(&on(whole), "do not fit"));
    }

    #[test]
    fn of_very_many_frames_it_shows_the_reference_and_the_first_others() {
        let mut lineup = frames(60);
        lineup.reference = FrameIndex(59);
        let findings = Findings::of(&lineup);
        let layout = OverviewLayout::of(&lineup, &findings, 1200.0);
        let places = layout.places();
        let shown: Vec<FrameIndex> = places.iter().filter(|p| p.row.is_none()).map(|p| p.frame).collect();
        assert_eq!((shown.len(), shown.last()), (40, Some(&FrameIndex(59))));
        let scene = layout.scene(layout.height());
        let note = "40 of 60 shown frames are drawn";
        assert!(scene.items.iter().any(|i| matches!(i, Item::Text { text, .. } if text.contains(note))));
        assert!(scene.description.contains(note));
    }
}
