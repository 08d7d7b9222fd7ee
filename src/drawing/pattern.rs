//! A bag's pattern on paper, exactly 1:1: a cover page with everything in words and a map of the pages, then the pages,
//! each with check bars, marks where it joins its neighbours, and its number; or all of it on one large sheet.
//!
//! Invariant: a millimetre of the bag is a millimetre on the page, and every page has 100 mm or 4 in to check it by, both
//! ways.

use super::measure::{LINE_HEIGHT, wrap};
use super::pattern_paper::{MARGIN_MM, OVERLAP_MM, PX_PER_MM, Paper, Tiling, page_of_mm, touches};
use super::pattern_plate::Plate;
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pattern, Pt, Role, Scene, Stroke};
use super::view::{Canvas, View};
use crate::frameset::FrameIndex;
use crate::geometry::Point;
use crate::lineup::FrameFindings;
use crate::luggage::{NoOpening, NoPattern, band};
use crate::units::{Day, System};
use crate::words::drawings as labels;
use crate::words::{PATTERN_CAUTION, PatternKey, PatternWords};

/// Length of the check bars, mm: 100 mm, or 4 inches.
const fn bar_mm(units: System) -> f64 {
    match units {
        System::Metric => 100.0,
        System::Imperial => 4.0 * 25.4,
    }
}
/// Height of the words below a pattern on one large sheet, mm.
const WORDS_MM: f64 = 78.0;
/// Least width of a large sheet, mm.
const LEAST_SHEET_MM: f64 = 250.0;

const TITLE: Face = Face::regular(24.0, Role::Ink);
const SUBLINE: Face = Face::regular(14.0, Role::SecondInk);
const WORDS: Face = Face::regular(12.5, Role::Ink);
const STRONG: Face = Face::semibold(13.5, Role::Ink);
const SMALL: Face = Face::regular(10.5, Role::SecondInk);

/// The pages of a frame's bag pattern, in order, and the day that is written on them.
///
/// # Errors
/// Where the frame has no room, or no bag fits.
pub fn pattern_scenes(frame: &FrameFindings, units: System, paper: Paper, day: Option<Day>) -> Result<Vec<Scene>, NoPattern> {
    let room = frame.luggage.bag_space.as_ref().map_err(|why| NoPattern::NoOpening(why.clone()))?;
    let bag = match &frame.luggage.bag {
        Some(Ok(bag)) => bag,
        Some(Err(why)) => return Err(NoPattern::NoBag(*why)),
        None => return Err(NoPattern::NoOpening(NoOpening::NoSeatTubeJunction)),
    };
    let band = band(room, &frame.luggage.settings().bag, bag);
    let words = PatternWords { frame, bag_space: room, bag, units };
    let mut sheets = Sheets { plate: Plate { words, band, pages: Vec::new() }, day };
    Ok(match paper.size_mm() {
        Some(size) => sheets.tiled(size, paper),
        None => vec![sheets.one()],
    })
}

struct Sheets<'a> {
    plate: Plate<'a>,
    day: Option<Day>,
}

impl Sheets<'_> {
    fn words(&self) -> &PatternWords<'_> {
        &self.plate.words
    }

    fn finish(&self, pen: Pen, page: Page) -> Scene {
        pen.finish(page, self.words().title(), self.words().description())
    }

    /// Cover and tiles. Tiles that would be blank are left out.
    fn tiled(&mut self, size: (f64, f64), paper: Paper) -> Vec<Scene> {
        let (low, high) = self.plate.bounds();
        let tiling = Tiling::fewest(size, low, high);
        let mut tiles: Vec<(usize, usize)> = Vec::new();
        for row in 0..tiling.rows {
            for column in 0..tiling.columns {
                let (from, to) = tiling.window(column, row);
                if self.plate.outlines().iter().any(|o| touches(o, from, to)) {
                    tiles.push((column, row));
                }
            }
        }
        self.plate.pages = tiles.iter().map(|(column, row)| tiling.between_joints(*column, *row)).collect();
        let mut scenes = vec![self.cover(&tiling, &tiles, paper)];
        scenes.extend(tiles.iter().map(|tile| self.tile(&tiling, &tiles, *tile)));
        scenes
    }

    fn one(&self) -> Scene {
        let (low, high) = self.plate.bounds();
        let width = (high.x - low.x).max(LEAST_SHEET_MM - 2.0 * MARGIN_MM);
        let height = high.y - low.y;
        let page = page_of_mm((width + 2.0 * MARGIN_MM, height + WORDS_MM + 2.0 * MARGIN_MM));
        let mut pen = Pen::default();
        let area = Rect::of_page(page).inset(MARGIN_MM * PX_PER_MM);
        let rect = Rect::new(area.x, area.y, area.width, height * PX_PER_MM);
        let view = View { centre_mm: middle(low, high), px_per_mm: PX_PER_MM };
        self.plate.draw(&mut pen, Canvas { rect, view });
        let words = Rect::new(area.x, rect.bottom() + 18.0, area.width, area.bottom() - rect.bottom() - 18.0);
        let half = words.width / 2.0 - 12.0;
        let left = self.heading(&mut pen, Rect::new(words.x, words.y, half, words.height));
        paragraphs(&mut pen, left, &self.words().facts(), WORDS);
        let right = Rect::new(words.x + half + 24.0, words.y, half, words.height);
        let left = Self::caution(&mut pen, right);
        let left = self.key(&mut pen, left);
        paragraphs(&mut pen, left, &self.words().notes(), WORDS);
        check_bars(&mut pen, page, self.words());
        self.finish(pen, page)
    }

    fn cover(&self, tiling: &Tiling, tiles: &[(usize, usize)], paper: Paper) -> Scene {
        let page = page_of_mm(tiling.page_mm);
        let mut pen = Pen::default();
        let area = Rect::of_page(page).inset(MARGIN_MM * PX_PER_MM + 8.0);
        let left = self.heading(&mut pen, area);
        let left = Self::caution(&mut pen, left);
        let how = self.words().how_to_print(tiles.len() + 1, paper.label(), OVERLAP_MM);
        let left = paragraphs(&mut pen, left, &[how], WORDS);
        let is_wide = left.width > left.height * 1.2;
        let (words, map) = if is_wide {
            let half = left.width * 0.5;
            (Rect::new(left.x, left.y, half - 16.0, left.height), Rect::new(left.x + half, left.y, half, left.height))
        } else {
            let height = (left.height * 0.42).min(left.height);
            (Rect::new(left.x, left.y + height, left.width, left.height - height), Rect::new(left.x, left.y, left.width, height))
        };
        self.map(&mut pen, map, tiling, tiles);
        let words = self.key(&mut pen, words);
        let words = paragraphs(&mut pen, words, &self.words().facts(), WORDS);
        paragraphs(&mut pen, words, &self.words().notes(), WORDS);
        self.margin_words(&mut pen, page, 1, tiles.len() + 1);
        check_bars(&mut pen, page, self.words());
        self.finish(pen, page)
    }

    fn tile(&self, tiling: &Tiling, tiles: &[(usize, usize)], (column, row): (usize, usize)) -> Scene {
        let page = page_of_mm(tiling.page_mm);
        let mut pen = Pen::default();
        let rect = tiling.on_page();
        let (from, to) = tiling.window(column, row);
        pen.clip(rect);
        self.plate.draw(&mut pen, Canvas { rect, view: View { centre_mm: middle(from, to), px_per_mm: PX_PER_MM } });
        pen.unclip();
        let number = |at: (usize, usize)| tiles.iter().position(|t| *t == at).map(|i| i + 2);
        joints(&mut pen, tiling);
        let thin = Stroke { role: Role::SecondInk, width: 0.6, pattern: Pattern::Solid, opacity: 0.8 };
        let joint = rect.inset(OVERLAP_MM / 2.0 * PX_PER_MM);
        let sides = [
            (column.checked_sub(1).map(|c| (c, row)), [0, 3]),
            (Some((column + 1, row)), [1, 2]),
            (row.checked_sub(1).map(|r| (column, r)), [0, 1]),
            (Some((column, row + 1)), [3, 2]),
        ];
        let corners = joint.corners();
        for (neighbour, [a, b]) in sides {
            let Some(next) = neighbour.and_then(number) else { continue };
            pen.line(vec![corners[a], corners[b]], thin);
            let text = labels::page_text(next);
            let centre = Pt { x: f64::midpoint(corners[a].x, corners[b].x), y: f64::midpoint(corners[a].y, corners[b].y) };
            let (at, anchor) = match (a, b) {
                (0, 3) => (Pt { x: centre.x + 4.0, y: centre.y + 120.0 }, Anchor::Start),
                (1, 2) => (Pt { x: centre.x - 4.0, y: centre.y + 120.0 }, Anchor::End),
                (0, 1) => (Pt { x: centre.x + 120.0, y: centre.y + 13.0 }, Anchor::Middle),
                _ => (Pt { x: centre.x + 120.0, y: centre.y - 5.0 }, Anchor::Middle),
            };
            pen.backed_text(at, text, SMALL, anchor);
        }
        let place = number((column, row)).unwrap_or_default();
        self.margin_words(&mut pen, page, place, tiles.len() + 1);
        check_bars(&mut pen, page, self.words());
        self.finish(pen, page)
    }

    /// Which page lies where, over a small picture of the pattern.
    fn map(&self, pen: &mut Pen, rect: Rect, tiling: &Tiling, tiles: &[(usize, usize)]) {
        let (from, _) = tiling.window(0, 0);
        let (_, to) = tiling.window(tiling.columns - 1, tiling.rows - 1);
        let scale = (rect.width / (to.x - from.x)).min((rect.height - 20.0) / (from.y - to.y)).max(0.01);
        let canvas = Canvas { rect, view: View { centre_mm: middle(from, to), px_per_mm: scale } };
        let outline: Vec<Pt> = self.words().bag.outline.iter().map(|p| canvas.at(*p)).collect();
        pen.area(outline, Some(Fill { role: Role::Ink, opacity: 0.08 }), Some(solid(Role::Ink, 1.2)));
        for (i, (column, row)) in tiles.iter().enumerate() {
            let (from, to) = tiling.window(*column, *row);
            let half = OVERLAP_MM / 2.0;
            let (from, to) = (Point { x: from.x + half, y: from.y - half }, Point { x: to.x - half, y: to.y + half });
            let (a, b) = (canvas.at(from), canvas.at(to));
            let tile = Rect::new(a.x, a.y, b.x - a.x, b.y - a.y);
            pen.area(tile.corners(), None, Some(solid(Role::SecondInk, 0.8)));
            let at = Pt { x: tile.centre().x, y: tile.centre().y + 6.0 };
            pen.backed_text(at, (i + 2).to_string(), Face::semibold(17.0, Role::Ink), Anchor::Middle);
        }
    }

    fn heading(&self, pen: &mut Pen, rect: Rect) -> Rect {
        let rect = paragraphs(pen, rect, &[self.words().frame_and_size()], TITLE);
        let rect = paragraphs(pen, rect, &[self.words().subline(self.day)], SUBLINE);
        Rect::new(rect.x, rect.y + 4.0, rect.width, rect.height - 4.0)
    }

    fn caution(pen: &mut Pen, rect: Rect) -> Rect {
        paragraphs(pen, rect, &[PATTERN_CAUTION.to_owned()], STRONG)
    }

    /// What the lines mean.
    fn key(&self, pen: &mut Pen, rect: Rect) -> Rect {
        let dashed = Stroke { role: Role::SecondInk, width: 1.0, pattern: Pattern::Dashes, opacity: 1.0 };
        let bag = self.words().bag;
        let mut rows: Vec<(Stroke, PatternKey)> = vec![(solid(Role::Ink, 2.0), PatternKey::FinishedEdge)];
        if self.plate.has_seam() {
            rows.push((solid(Role::Ink, 0.8), PatternKey::SeamAllowance));
        }
        if bag.zip().is_some() {
            rows.push((solid(Role::Ink, 0.8), PatternKey::Zip));
        }
        rows.push((dashed, PatternKey::Band));
        if bag.cut.is_some() {
            let stroke = Stroke { role: Role::Ink, width: 1.3, pattern: Pattern::Frame(FrameIndex(2)), opacity: 1.0 };
            rows.push((stroke, PatternKey::CutLine));
        }
        let mut y = rect.y;
        for (stroke, what) in rows {
            let middle = y + WORDS.size * 0.65;
            pen.line(vec![Pt { x: rect.x, y: middle }, Pt { x: rect.x + 44.0, y: middle }], stroke);
            if what == PatternKey::Zip {
                for x in (0..=44).step_by(11) {
                    let x = rect.x + f64::from(x);
                    pen.line(vec![Pt { x, y: middle - 3.0 }, Pt { x, y: middle + 3.0 }], stroke);
                }
            }
            pen.text(Pt { x: rect.x + 54.0, y: y + WORDS.size }, what.label(), WORDS, Anchor::Start);
            y += WORDS.size * LINE_HEIGHT;
        }
        Rect::new(rect.x, y + 8.0, rect.width, rect.bottom() - y - 8.0)
    }

    /// Frame, day and number in the upper margin.
    fn margin_words(&self, pen: &mut Pen, page: Page, number: usize, of: usize) {
        let y = MARGIN_MM * PX_PER_MM - 12.0;
        let left = Pt { x: MARGIN_MM * PX_PER_MM, y };
        let mut words = vec![self.words().title()];
        words.extend(self.day.map(|d| d.to_string()));
        let width = page.width - 2.0 * left.x - 110.0;
        let text = super::measure::shorten(&words.join(" · "), SMALL.size, SMALL.weight, width);
        pen.text(left, text, SMALL, Anchor::Start);
        let face = Face::semibold(12.5, Role::Ink);
        pen.text(Pt { x: page.width - left.x, y }, labels::page_of(number, of), face, Anchor::End);
    }
}

fn middle(a: Point<f64>, b: Point<f64>) -> Point<f64> {
    Point { x: f64::midpoint(a.x, b.x), y: f64::midpoint(a.y, b.y) }
}

/// Circles with crosses where four tiles meet.
fn joints(pen: &mut Pen, tiling: &Tiling) {
    let stroke = solid(Role::Ink, 0.7);
    let (radius, reach) = (2.5 * PX_PER_MM, OVERLAP_MM / 2.0 * PX_PER_MM);
    for at in tiling.joints() {
        pen.circle(at, radius, None, Some(stroke));
        pen.line(vec![Pt { x: at.x - reach, ..at }, Pt { x: at.x + reach, ..at }], stroke);
        pen.line(vec![Pt { y: at.y - reach, ..at }, Pt { y: at.y + reach, ..at }], stroke);
    }
}

/// 100 mm or 4 in along the lower edge and along the left one, in the margins.
fn check_bars(pen: &mut Pen, page: Page, words: &PatternWords) {
    let long_mm = bar_mm(words.units);
    let [whole, short] = words.check_bar(long_mm);
    let (margin, length) = (MARGIN_MM * PX_PER_MM, long_mm * PX_PER_MM);
    let stroke = Stroke { role: Role::Ink, width: 1.2, pattern: Pattern::Solid, opacity: 1.0 };
    let tick = 6.0;
    let y = page.height - margin / 2.0;
    pen.line(vec![Pt { x: margin, y }, Pt { x: margin + length, y }], stroke);
    for part in [0.0, 0.5, 1.0] {
        let x = margin + part * length;
        pen.line(vec![Pt { x, y: y - tick }, Pt { x, y: y + tick }], stroke);
    }
    pen.text(Pt { x: margin + length + 10.0, y: y + 4.0 }, whole, SMALL, Anchor::Start);
    let x = margin / 2.0;
    let bottom = page.height - margin;
    pen.line(vec![Pt { x, y: bottom }, Pt { x, y: bottom - length }], stroke);
    for part in [0.0, 0.5, 1.0] {
        let y = bottom - part * length;
        pen.line(vec![Pt { x: x - tick, y }, Pt { x: x + tick, y }], stroke);
    }
    pen.text(Pt { x: x - tick, y: bottom + 13.0 }, short, SMALL, Anchor::Start);
}

/// Paragraphs one below the other; gives back what is left.
fn paragraphs(pen: &mut Pen, rect: Rect, words: &[String], face: Face) -> Rect {
    let mut y = rect.y;
    for paragraph in words {
        for line in wrap(paragraph, face.size, face.weight, rect.width, 12) {
            if y + face.size > rect.bottom() {
                break;
            }
            pen.text(Pt { x: rect.x, y: y + face.size }, line, face, Anchor::Start);
            y += face.size * LINE_HEIGHT;
        }
        y += face.size * 0.35;
    }
    Rect::new(rect.x, y, rect.width, rect.bottom() - y)
}
