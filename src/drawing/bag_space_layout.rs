//! Where the frame-bag spaces of the shown frames stand on a page: overlaid in one field, and side by side in a cell each,
//! all to one scale and standing at the same corner; and which cut line a point of the page means.
//!
//! Not here: what is drawn. Invariant: cells never overlap, and every opening lies with its tubes wholly in its cell.

use super::rect::Rect;
use super::scene::{Page, Pt};
use super::view::{Canvas, View};
use crate::frameset::{FrameIndex, Tube};
use crate::geometry::Point;
use crate::lineup::{BagSpaceCorner, BagSpaceSettings, Findings, FrameFindings};
use crate::luggage::{BagPart, BagSpace, Cut};

/// Room around the openings that are overlaid, for their letters, mm.
const AROUND_MM: f64 = 54.0;
/// Room around the tubes of a cell, mm.
const AROUND_TUBES_MM: f64 = 6.0;
/// Height of a cell's heading and of the numbers below its drawing, page units.
pub(super) const HEADING: f64 = 34.0;
pub(super) const NUMBERS: f64 = 70.0;
/// Height of the words above the common field, and of the letters in it above the openings, the scale below them.
const WORDS: f64 = 24.0;
const TAGS: f64 = 26.0;
/// Space between cells.
const GAP: f64 = 14.0;
/// The smallest cell that a drawing and its words are legible in, page units.
const LEAST_CELL: (f64, f64) = (112.0, 168.0);
/// How near a point must come to the cut line to take hold of it, page units.
const NEAR: f64 = 9.0;

/// A frame's own cell.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cell {
    /// Place in the line-up.
    pub(super) place: FrameIndex,
    /// All of it.
    pub(super) rect: Rect,
    /// Its drawing, between heading and numbers.
    pub(super) canvas: Canvas,
}

/// The fields of a page.
#[derive(Clone, Debug)]
pub(super) struct BagSpaceLayout {
    /// All openings overlaid; `None` where fewer than two frames are shown, or the page is too small for both.
    pub(super) overlay: Option<Canvas>,
    /// Each shown frame for itself, as far as frames are drawn over one another.
    pub(super) cells: Vec<Cell>,
    corner: BagSpaceCorner,
}

impl BagSpaceLayout {
    /// The layout of a rectangle.
    pub(super) fn of(findings: &Findings, corner: BagSpaceCorner, rect: Rect) -> Self {
        let shown = findings.overlaid();
        let common = Extent::of(findings, corner, false, AROUND_MM);
        let own = Extent::with_tubes(findings, corner);
        // The number of columns that makes the drawings largest and leaves room for their words.
        let columns = |rest: Rect| {
            let worth = |columns: usize| {
                let cell = cell_of(rest, columns, shown.len(), 0);
                (cell.width >= LEAST_CELL.0, own.scale(drawing_of(cell)))
            };
            let better = |a: &usize, b: &usize| {
                let (a_fits, a_scale) = worth(*a);
                let (b_fits, b_scale) = worth(*b);
                a_fits.cmp(&b_fits).then(a_scale.total_cmp(&b_scale)).then(b.cmp(a))
            };
            (1..=shown.len()).max_by(better).unwrap_or(1)
        };
        let (field, beside) = parted(rect, shown.len());
        let first = cell_of(beside, columns(beside), shown.len(), 0);
        // On a small page the frames side by side matter more than the overlay.
        let has_overlay = shown.len() > 1 && first.width >= LEAST_CELL.0 && first.height >= LEAST_CELL.1;
        let (overlay, rest) = if has_overlay { (Some(field), beside) } else { (None, rect) };
        let rest = own.without_spare(rest, columns(rest), shown.len());
        let most = columns(rest);
        let cell = |(i, place): (usize, &FrameIndex)| {
            let rect = cell_of(rest, most, shown.len(), i);
            Cell { place: *place, rect, canvas: own.canvas(drawing_of(rect)) }
        };
        let cells = shown.iter().enumerate().map(cell).collect();
        let overlay = overlay.map(|r| {
            let height = (common.height(r.width) + 2.0 * TAGS).min(r.height - WORDS);
            let top = r.y + WORDS + (r.height - WORDS - height) / 2.0;
            common.canvas(Rect::new(r.x, top, r.width, height))
        });
        Self { overlay, cells, corner }
    }

    /// The canvas under a point, and the frame that is meant there: the cell's own, or in the common field the reference.
    fn at<'a>(&self, findings: &'a Findings, at: Pt) -> Option<(Canvas, &'a FrameFindings)> {
        if let Some(cell) = self.cells.iter().find(|c| c.canvas.rect.contains(at)) {
            return Some((cell.canvas, cell.place.of(&findings.frames)?));
        }
        let canvas = self.overlay.filter(|c| c.rect.contains(at))?;
        Some((canvas, leading(findings)?))
    }
}

/// The frame whose cut line stands for all where they are overlaid: the reference, or the first that has a room.
pub(super) fn leading(findings: &Findings) -> Option<&FrameFindings> {
    let has_room = |f: &&FrameFindings| f.shown && f.luggage.bag_space.is_ok();
    findings.reference_frame().filter(has_room).or_else(|| findings.frames.iter().find(has_room))
}

/// The common field and what is left beside it, or below it on an upright page.
fn parted(rect: Rect, frames: usize) -> (Rect, Rect) {
    let share = if frames <= 4 { 0.4 } else { 0.34 };
    if rect.width > rect.height {
        let width = rect.width * share;
        let rest = Rect::new(rect.x + width + GAP, rect.y, rect.width - width - GAP, rect.height);
        (Rect::new(rect.x, rect.y, width, rect.height), rest)
    } else {
        let height = rect.height * share;
        let rest = Rect::new(rect.x, rect.y + height + GAP, rect.width, rect.height - height - GAP);
        (Rect::new(rect.x, rect.y, rect.width, height), rest)
    }
}

/// One of so many cells in columns.
pub(super) fn cell_of(rect: Rect, columns: usize, count: usize, index: usize) -> Rect {
    let rows = count.div_ceil(columns.max(1)).max(1);
    let width = (rect.width - GAP * (columns as f64 - 1.0)) / columns as f64;
    let height = (rect.height - GAP * (rows as f64 - 1.0)) / rows as f64;
    let (column, row) = (index % columns, index / columns);
    Rect::new(rect.x + column as f64 * (width + GAP), rect.y + row as f64 * (height + GAP), width, height)
}

fn drawing_of(cell: Rect) -> Rect {
    Rect::new(cell.x, cell.y + HEADING, cell.width, cell.height - HEADING - NUMBERS)
}

/// Where a frame's room stands, mm: what is taken off its points so that its corner comes to the origin.
pub(super) fn shift(room: &BagSpace, corner: BagSpaceCorner) -> Point<f64> {
    let found = corner.between().into_iter().find_map(|(a, b)| room.corner(a, b));
    found.map_or(Point { x: 0.0, y: 0.0 }, |c| c.at)
}

/// The tubes around the opening, which its drawing shows.
pub(super) const TUBES: [Tube; 4] = [Tube::SeatTube, Tube::TopTube, Tube::DownTube, Tube::HeadTube];

/// What a field must hold of all shown frames as they stand, mm.
#[derive(Clone, Copy)]
pub(super) struct Extent {
    low: Point<f64>,
    high: Point<f64>,
    around: f64,
}

impl Extent {
    /// Of the openings with the tubes around them.
    pub(super) fn with_tubes(findings: &Findings, corner: BagSpaceCorner) -> Self {
        Self::of(findings, corner, true, AROUND_TUBES_MM)
    }

    /// Of the openings, with the tubes around them or alone, and so many mm around.
    fn of(findings: &Findings, corner: BagSpaceCorner, has_tubes: bool, around: f64) -> Self {
        let far = f64::INFINITY;
        let mut found = Self { low: Point { x: far, y: far }, high: Point { x: -far, y: -far }, around };
        for frame in findings.frames.iter().filter(|f| f.shown) {
            let Ok(room) = &frame.luggage.bag_space else { continue };
            let shift = shift(room, corner);
            let mut hold = |x: f64, y: f64| {
                let (x, y) = (x - shift.x, y - shift.y);
                found.low = Point { x: found.low.x.min(x), y: found.low.y.min(y) };
                found.high = Point { x: found.high.x.max(x), y: found.high.y.max(y) };
            };
            room.outline.iter().for_each(|p| hold(p.x, p.y));
            if let Some(outline) = frame.outline.as_ref().filter(|_| has_tubes) {
                let tubes = outline.tubes.iter().filter(|t| TUBES.contains(&t.tube));
                tubes.flat_map(|t| &t.outline).for_each(|p| hold(p.x, p.y));
                hold(-outline.shell_radius_mm, -outline.shell_radius_mm);
            }
        }
        // Nothing to draw: as large as a room usually is.
        if !found.low.x.is_finite() {
            (found.low, found.high) = (Point { x: -150.0, y: 0.0 }, Point { x: 450.0, y: 480.0 });
        }
        found
    }

    fn size(self) -> (f64, f64) {
        (self.high.x - self.low.x + 2.0 * self.around, self.high.y - self.low.y + 2.0 * self.around)
    }

    /// Page units a millimetre in a rectangle.
    pub(super) fn scale(self, rect: Rect) -> f64 {
        let (width, height) = self.size();
        (rect.width / width).min(rect.height / height).max(0.005)
    }

    /// The height that all of it takes in a width.
    pub(super) fn height(self, width: f64) -> f64 {
        let (wide, high) = self.size();
        width * high / wide
    }

    pub(super) fn canvas(self, rect: Rect) -> Canvas {
        let (low, high) = (self.low, self.high);
        let centre_mm = Point { x: f64::midpoint(low.x, high.x), y: f64::midpoint(low.y, high.y) };
        Canvas { rect, view: View { centre_mm, px_per_mm: self.scale(rect) } }
    }

    /// The part of a rectangle, in its middle, that so many cells need.
    fn without_spare(self, rect: Rect, columns: usize, count: usize) -> Rect {
        let cell = cell_of(rect, columns, count, 0);
        let spare = (cell.height - HEADING - NUMBERS - self.height(cell.width)).max(0.0) * count.div_ceil(columns.max(1)) as f64;
        Rect::new(rect.x, rect.y + spare / 2.0, rect.width, rect.height - spare)
    }
}

/// The cut line, of the kind that is chosen, through a point of the page, as the drawing around `from` measures it: where a
/// drag began, so that it stays with that frame. `None` where the bag is full or `from` lies in no drawing. To the
/// millimetre, within the line's range.
#[must_use]
pub fn cut_through(findings: &Findings, settings: &BagSpaceSettings, page: Page, from: Pt, at: Pt) -> Option<Cut> {
    let (cut, _) = measured(findings, settings, page, from, at)?;
    Some(match cut {
        Cut::Level { above_bb_mm } => Cut::Level { above_bb_mm: above_bb_mm.round().clamp(-200.0, 1000.0) },
        Cut::AlongTopTube { below_mm } => Cut::AlongTopTube { below_mm: below_mm.round().clamp(0.0, 1000.0) },
    })
}

/// Whether a point of the page is so near the cut line that a drag takes hold of it.
#[must_use]
pub fn is_on_cut(findings: &Findings, settings: &BagSpaceSettings, page: Page, at: Pt) -> bool {
    let Some((through, px_per_mm)) = measured(findings, settings, page, at, at) else { return false };
    let off = match (through, settings.bag.part) {
        (Cut::Level { above_bb_mm: a }, BagPart::Above(Cut::Level { above_bb_mm: b })) => a - b,
        (Cut::AlongTopTube { below_mm: a }, BagPart::Above(Cut::AlongTopTube { below_mm: b })) => a - b,
        _ => return false,
    };
    off.abs() * px_per_mm <= NEAR
}

/// The cut line through a point, and the scale there.
fn measured(findings: &Findings, settings: &BagSpaceSettings, page: Page, from: Pt, at: Pt) -> Option<(Cut, f64)> {
    let BagPart::Above(cut) = settings.bag.part else { return None };
    let layout = BagSpaceLayout::of(findings, settings.align_at, Rect::of_page(page).inset(super::bag_space_scene::MARGIN));
    let (canvas, frame) = layout.at(findings, from)?;
    let room = frame.luggage.bag_space.as_ref().ok()?;
    let shift = shift(room, layout.corner);
    let mm = canvas.mm(at);
    let point = Point { x: mm.x + shift.x, y: mm.y + shift.y };
    let through = match cut {
        Cut::Level { .. } => Cut::Level { above_bb_mm: point.y },
        Cut::AlongTopTube { .. } => Cut::AlongTopTube { below_mm: room.below_top_tube_mm(point)? },
    };
    Some((through, canvas.view.px_per_mm))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::lineup_with_gaps;
    use crate::lineup::Lineup;

    fn lineup() -> Lineup {
        crate::drawing::sample::lineup(5)
    }

    const PAGE: Page = Page { width: 1000.0, height: 620.0 };

    fn with_cut(cut: Cut) -> (Lineup, Findings) {
        let mut lineup = lineup();
        lineup.settings.bags.bag.part = BagPart::Above(cut);
        let findings = Findings::of(&lineup);
        (lineup, findings)
    }

    #[test]
    fn cells_hold_their_openings_and_keep_apart() {
        for corner in BagSpaceCorner::ALL {
            for (width, height) in [(1000.0, 620.0), (500.0, 900.0), (1800.0, 500.0), (300.0, 640.0)] {
                let findings = Findings::of(&if width < 400.0 { lineup_with_gaps() } else { lineup() });
                let layout = BagSpaceLayout::of(&findings, corner, Rect::new(0.0, 0.0, width, height));
                for (i, cell) in layout.cells.iter().enumerate() {
                    assert!(layout.cells[i + 1..].iter().all(|c| !c.rect.overlaps(cell.rect)));
                    assert!(layout.overlay.is_none_or(|o| !o.rect.overlaps(cell.rect)));
                    let Ok(room) = &findings.frames[cell.place].luggage.bag_space else { continue };
                    let shift = shift(room, corner);
                    let on_page = |p: &Point<f64>| cell.canvas.at(Point { x: p.x - shift.x, y: p.y - shift.y });
                    let frame = findings.frames[cell.place].outline.as_ref().unwrap();
                    let tubes = frame.tubes.iter().filter(|t| TUBES.contains(&t.tube)).flat_map(|t| &t.outline);
                    let field = cell.canvas.rect.inset(-1e-6);
                    assert!(room.outline.iter().chain(tubes).all(|p| field.contains(on_page(p))), "{corner:?}");
                }
            }
        }
    }

    #[test]
    fn a_point_on_the_line_means_that_line() {
        for cut in [Cut::Level { above_bb_mm: 330.0 }, Cut::AlongTopTube { below_mm: 120.0 }] {
            let (lineup, findings) = with_cut(cut);
            let settings = &lineup.settings.bags;
            let rect = Rect::of_page(PAGE).inset(super::super::bag_space_scene::MARGIN);
            let layout = BagSpaceLayout::of(&findings, settings.align_at, rect);
            let mut tried = 0;
            for cell in &layout.cells {
                let frame = &findings.frames[cell.place];
                let (Ok(room), Some(bag)) = (&frame.luggage.bag_space, frame.luggage.bag()) else { continue };
                let Some([a, b]) = bag.cut else { continue };
                let shift = shift(room, settings.align_at);
                let middle = Point { x: f64::midpoint(a.x, b.x) - shift.x, y: f64::midpoint(a.y, b.y) - shift.y };
                let at = cell.canvas.at(middle);
                assert_eq!(cut_through(&findings, settings, PAGE, at, at), Some(cut), "{}", frame.name);
                assert!(is_on_cut(&findings, settings, PAGE, at));
                assert!(!is_on_cut(&findings, settings, PAGE, Pt { y: at.y + 30.0, ..at }));
                tried += 1;
            }
            assert!(tried > 0);
        }
        let full = lineup();
        let findings = Findings::of(&full);
        assert_eq!(cut_through(&findings, &full.settings.bags, PAGE, Pt { x: 500.0, y: 300.0 }, Pt { x: 500.0, y: 300.0 }), None);
    }
}
