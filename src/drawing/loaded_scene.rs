//! The loaded bicycle: for each loading and each shown frame, the range of speed in which the bicycle steadies itself, with
//! the ± of its lower end, and the share of the front wheel.
//!
//! Invariant: all bars stand on one scale of speed, so that loadings and frames are seen against one another.

use super::measure::{CAP_HEIGHT, shorten, wrap};
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pt, Role, Scene};
use super::ticks::ticks;
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, Lineup, LoadedFindings};
use crate::loaded::{LoadedFigure, Ride};
use crate::units::capitalised;
use crate::words::drawings as labels;
use crate::words::{
    LOADED_TITLE, MODEL_IN_BRIEF, MODEL_TEXT, loaded_sentences, loaded_text, loading_in_brief, more_do_not_fit, not_loaded_text,
    speed_unit,
};

/// Margin at either side, page units.
pub(super) const SIDE: f64 = 20.0;
const LETTER: f64 = 30.0;
const ROW: f64 = 24.0;
const LEAST_ROW: f64 = 15.0;
const GROUP: f64 = 28.0;
const AXIS: f64 = 34.0;
/// Between loadings that stand side by side, and the least width of one, page units.
const BETWEEN: f64 = 22.0;
const LEAST_ACROSS: f64 = 200.0;
const LINE: f64 = 17.5;
const NOTE_LINE: f64 = 15.0;
const SENTENCE: Face = Face::regular(13.0, Role::Ink);
const HEAD: Face = Face::semibold(12.5, Role::Ink);
const CELL: Face = Face::regular(12.5, Role::Ink);
const SMALL: Face = Face::regular(11.5, Role::SecondInk);
/// Widths of the columns behind the bars: from which speed, front wheel.
const COLUMNS: [f64; 2] = [124.0, 84.0];
/// Width of the speeds where loadings stand side by side.
const NARROW_COLUMN: f64 = 102.0;
/// The speed axis ends here at the latest, m/s: beyond, a bar has no end.
const FASTEST: f64 = 60.0 / 3.6;

/// The loaded bicycles on a page.
#[must_use]
pub fn loaded_scene(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let mut pen = Pen::default();
    let rect = Rect::of_page(page);
    Drawing::new(lineup, findings, false).draw(&mut pen, rect);
    let sentences = loaded_sentences(lineup, findings);
    let description = if sentences.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { sentences.join(" ") };
    pen.finish(page, LOADED_TITLE, description)
}

/// The height at which it stands at ease in that width, page units.
#[must_use]
pub fn loaded_height(lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    let drawing = Drawing::new(lineup, findings, false);
    drawing.height(width, ROW)
}

/// The bars for a sheet, which has sentences and footnotes of its own.
pub(super) fn loaded_on_sheet(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let mut pen = Pen::default();
    Drawing::new(lineup, findings, true).draw(&mut pen, Rect::of_page(page));
    pen.finish(page, LOADED_TITLE, String::new())
}

/// The height of the bars on a sheet: at ease, then at least, page units.
pub(super) fn loaded_heights_on_sheet(lineup: &Lineup, findings: &Findings, width: f64) -> [f64; 2] {
    let drawing = Drawing::new(lineup, findings, true);
    let down = drawing.found.loadings.len() / drawing.across(width - 2.0 * SIDE, 0.0);
    [drawing.height(width, ROW), drawing.height_of(down, LEAST_ROW) + drawing.below(width)]
}

struct Drawing<'a> {
    lineup: &'a Lineup,
    findings: &'a Findings,
    found: &'a LoadedFindings,
    /// Whether the sheet around it tells its sentences.
    is_on_sheet: bool,
}

/// Where speeds lie on the page.
struct Speeds {
    left: f64,
    right: f64,
    /// m/s at the right end.
    most: f64,
}

impl Speeds {
    fn x(&self, speed_m_s: f64) -> f64 {
        self.left + (self.right - self.left) * (speed_m_s / self.most).clamp(0.0, 1.0)
    }
}

impl<'a> Drawing<'a> {
    fn new(lineup: &'a Lineup, findings: &'a Findings, is_on_sheet: bool) -> Self {
        Self { lineup, findings, found: findings.loaded(lineup), is_on_sheet }
    }

    /// Loadings side by side: on a sheet all of them, where they do not find room below one another.
    fn across(&self, width: f64, room: f64) -> usize {
        let count = self.found.loadings.len();
        let is_low = self.height_of(count, LEAST_ROW) > room;
        let has_width = (width + BETWEEN) / count as f64 - BETWEEN >= LEAST_ACROSS;
        if self.is_on_sheet && is_low && has_width { count } else { 1 }
    }

    fn height_of(&self, down: usize, row: f64) -> f64 {
        down as f64 * (GROUP + row * self.shown().len().max(1) as f64) + AXIS
    }

    /// Height with rows of that height.
    fn height(&self, width: f64, row: f64) -> f64 {
        let groups = self.found.loadings.len() as f64;
        self.above(width) + groups * (GROUP + row * self.shown().len().max(1) as f64) + AXIS + self.below(width)
    }
    fn shown(&self) -> Vec<FrameIndex> {
        FrameIndex::all(self.findings.frames.len()).filter(|i| self.findings.frames[*i].shown).collect()
    }

    fn lines(&self, width: f64) -> Vec<String> {
        if self.is_on_sheet {
            return Vec::new();
        }
        let inner = (width - 2.0 * SIDE).max(60.0);
        let sentences = loaded_sentences(self.lineup, self.findings);
        sentences.iter().flat_map(|s| wrap(s, SENTENCE.size, SENTENCE.weight, inner, 2)).collect()
    }

    fn above(&self, width: f64) -> f64 {
        self.lines(width).len() as f64 * LINE + 8.0
    }

    fn notes(&self, width: f64) -> Vec<String> {
        let text = if self.is_on_sheet { MODEL_IN_BRIEF } else { MODEL_TEXT };
        wrap(text, SMALL.size, SMALL.weight, (width - 2.0 * SIDE).max(60.0), 6)
    }

    fn below(&self, width: f64) -> f64 {
        self.notes(width).len() as f64 * NOTE_LINE + 10.0
    }

    fn ride(&self, frame: FrameIndex, loading: usize) -> Option<&Ride> {
        frame.of(&self.found.frames)?.rides.get(loading)?.as_ref().ok()
    }

    /// Greatest speed on the axis, m/s: the fastest end of a range, in whole steps.
    fn fastest(&self, shown: &[FrameIndex]) -> f64 {
        let rides = shown.iter().flat_map(|i| (0..self.found.loadings.len()).filter_map(|l| self.ride(*i, l)));
        let ends =
            rides.flat_map(|ride| ride.speeds.self_steady.iter().map(|(from, to)| if to.is_finite() { *to } else { *from }));
        (ends.fold(8.0, f64::max) * 1.06).min(FASTEST)
    }

    fn draw(&self, pen: &mut Pen, rect: Rect) {
        let shown = self.shown();
        if shown.is_empty() {
            pen.text(rect.centre(), labels::NO_FRAME_IS_SHOWN, Face::regular(14.0, Role::SecondInk), Anchor::Middle);
            return;
        }
        let (left, right) = (rect.x + SIDE, rect.right() - SIDE);
        let mut y = rect.y;
        for line in self.lines(rect.width) {
            y += LINE;
            pen.text(Pt { x: left, y: y - 4.0 }, line, SENTENCE, Anchor::Start);
        }
        y += 8.0;
        let across = self.across(right - left, rect.bottom() - y - self.below(rect.width));
        let down = self.found.loadings.len().div_ceil(across);
        let room = rect.bottom() - y - AXIS - self.below(rect.width) - down as f64 * GROUP;
        let row = (room / (down * shown.len()) as f64).min(ROW * 1.6);
        // Rows of a low page keep their least height; the frames that then find no place are counted.
        let row = row.max(LEAST_ROW);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of rows on a page")]
        let fitting = ((room.max(0.0) / row / down as f64 + 1e-6) as usize).min(shown.len());
        let width = (right - left - BETWEEN * (across - 1) as f64) / across as f64;
        let columns = match width {
            480.0.. => COLUMNS.iter().sum(),
            300.0.. => COLUMNS[0],
            _ => NARROW_COLUMN,
        };
        let bottom = y + down as f64 * (GROUP + row * fitting as f64);
        for column in 0..across {
            let left = left + column as f64 * (width + BETWEEN);
            let right = left + width;
            let speeds =
                Speeds { left: left + LETTER, right: (right - columns).max(left + LETTER + 40.0), most: self.fastest(&shown) };
            self.axis(pen, &speeds, y + GROUP - 4.0, bottom);
            let mut y = y;
            for loading in column * down..((column + 1) * down).min(self.found.loadings.len()) {
                self.head(pen, loading, left, right, y, columns);
                y += GROUP;
                for place in &shown[..fitting] {
                    self.row(pen, &speeds, *place, loading, Rect::new(left, y, right - left, row), columns);
                    y += row;
                }
            }
        }
        y = bottom;
        y += AXIS;
        if fitting < shown.len() {
            pen.text(Pt { x: right, y: y - 4.0 }, more_do_not_fit(shown.len() - fitting), SMALL, Anchor::End);
        }
        for line in self.notes(rect.width) {
            y += NOTE_LINE;
            if y <= rect.bottom() {
                pen.text(Pt { x: left, y: y - 3.0 }, line, SMALL, Anchor::Start);
            }
        }
    }

    fn axis(&self, pen: &mut Pen, speeds: &Speeds, top: f64, bottom: f64) {
        let (factor, unit) = speed_unit(self.lineup.settings.units);
        for tick in ticks(0.0, speeds.most * factor, if speeds.right - speeds.left > 200.0 { 7 } else { 3 }) {
            let x = speeds.x(tick.value / factor);
            pen.line(vec![Pt { x, y: top }, Pt { x, y: bottom }], solid(Role::Hairline, 1.0));
            pen.text(Pt { x, y: bottom + 15.0 }, tick.label.clone(), SMALL, Anchor::Middle);
        }
        pen.text(Pt { x: speeds.right, y: bottom + 29.0 }, unit, SMALL, Anchor::End);
    }

    fn head(&self, pen: &mut Pen, loading: usize, left: f64, right: f64, y: f64, columns: f64) {
        let base = y + GROUP - 9.0;
        let name = loading_in_brief(self.lineup.settings.units, self.found.loadings.get(loading).and_then(Option::as_ref));
        let room = if right - left > 300.0 { right - left - columns - 8.0 } else { right - left };
        pen.text(Pt { x: left, y: base }, shorten(&capitalised(&name), HEAD.size, HEAD.weight, room), HEAD, Anchor::Start);
        // Side by side, the heading of a loading takes the whole width.
        if loading == 0 && right - left > 300.0 {
            let ends = [(right - columns + COLUMNS[0]).min(right), right];
            pen.text(Pt { x: ends[0], y: base }, labels::STEADY_FROM, SMALL, Anchor::End);
            if columns > COLUMNS[0] {
                pen.text(Pt { x: ends[1], y: base }, labels::FRONT_WHEEL, SMALL, Anchor::End);
            }
        }
    }

    fn row(&self, pen: &mut Pen, speeds: &Speeds, place: FrameIndex, loading: usize, row: Rect, columns: f64) {
        let Some(frame) = place.of(&self.findings.frames) else { return };
        let units = self.lineup.settings.units;
        let middle = row.y + row.height / 2.0;
        let base = middle + CELL.size * CAP_HEIGHT / 2.0;
        let face = Face::semibold(12.5, Role::FrameLetter(place));
        pen.text(Pt { x: row.x + 11.0, y: base }, frame.letter.clone(), face, Anchor::Middle);
        let ends = [(row.right() - columns + COLUMNS[0]).min(row.right()), row.right()];
        let ride = match place.of(&self.found.frames).and_then(|f| f.rides.get(loading)) {
            Some(Ok(ride)) => ride,
            Some(Err(why)) => {
                let text = shorten(&not_loaded_text(units, why), SMALL.size, SMALL.weight, row.right() - speeds.left);
                pen.text(Pt { x: speeds.left, y: base }, text, SMALL, Anchor::Start);
                return;
            }
            None => return,
        };
        let name = format!("{} {}", frame.letter, frame.name);
        let half = (row.height * 0.22).clamp(2.5, 5.0);
        for (from, to) in &ride.speeds.self_steady {
            let (x, end) = (speeds.x(*from), speeds.x(*to));
            let bar = Rect::new(x, middle - half, (end - x).max(1.0), 2.0 * half);
            pen.area(bar.corners(), Some(Fill { role: Role::FrameLine(place), opacity: 0.85 }), None);
            pen.target(bar.corners(), name.clone(), loaded_sentences_of(self, place, loading).join(" "));
        }
        if let Some(weave) = ride.figure(LoadedFigure::WeaveSpeed).filter(|w| w.u.is_finite()) {
            let (low, high) = (speeds.x(weave.low()), speeds.x(weave.high()));
            let stroke = solid(Role::Ink, 1.3);
            pen.line(vec![Pt { x: low, y: middle }, Pt { x: high, y: middle }], stroke);
            for x in [low, high] {
                pen.line(vec![Pt { x, y: middle - half }, Pt { x, y: middle + half }], stroke);
            }
        }
        let text = match ride.figure(LoadedFigure::WeaveSpeed) {
            Some(weave) if !ride.speeds.self_steady.is_empty() => loaded_text(units, LoadedFigure::WeaveSpeed, weave),
            _ => labels::AT_NO_SPEED.to_owned(),
        };
        pen.text(Pt { x: ends[0], y: base }, text, CELL, Anchor::End);
        if columns > COLUMNS[0]
            && let Some(share) = ride.figure(LoadedFigure::FrontShare)
        {
            pen.text(Pt { x: ends[1], y: base }, loaded_text(units, LoadedFigure::FrontShare, share), CELL, Anchor::End);
        }
    }
}

/// What a bar says to the pointer.
fn loaded_sentences_of(drawing: &Drawing<'_>, place: FrameIndex, loading: usize) -> Vec<String> {
    let units = drawing.lineup.settings.units;
    let Some(ride) = drawing.ride(place, loading) else { return Vec::new() };
    [
        LoadedFigure::WeaveSpeed,
        LoadedFigure::CapsizeSpeed,
        LoadedFigure::FrontLoad,
        LoadedFigure::RearLoad,
        LoadedFigure::PitchOver,
    ]
    .into_iter()
    .filter_map(|figure| {
        Some(format!("{}: {}.", crate::words::loaded_label(figure), loaded_text(units, figure, ride.figure(figure)?)))
    })
    .collect()
}
