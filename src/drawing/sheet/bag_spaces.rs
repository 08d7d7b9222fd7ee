//! The frame-bag spaces on a sheet: one drawing a frame, all to one scale, each with its bag's litres, the
//! difference and what else the Bags view says of it. Names stand in the sheet's legend.
//!
//! Invariants: no drawing is smaller than [`LEAST`]; what stands above a drawing ends in its own cell.

use super::sheeted::Sheeted;
use crate::drawing::bag_space_layout::{Extent, cell_of};
use crate::drawing::bag_space_scene::{BagSpaces, DifferenceWords, line};
use crate::drawing::measure::wrap;
use crate::drawing::pen::{BALLOON, Face, Pen};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Anchor, Page, Pt, Role, Scene};
use crate::frameset::FrameIndex;
use crate::lineup::{BagSpaceSettings, Findings, Lineup};
use crate::luggage::BagPart;
use crate::words::drawings as labels;
use crate::words::{bag_figure_label, no_bag_text, no_opening_text};

/// The least size of one drawing, page units.
const LEAST: (f64, f64) = (96.0, 62.0);
/// Width that one likes.
const LIKED: f64 = 200.0;
/// Height of the line with the letter, and of each line below it.
const HEADING: f64 = 32.0;
const LINE: f64 = 16.0;
/// Free between cells.
const GAP: f64 = 14.0;
const NUMBER: Face = Face::semibold(14.0, Role::Ink);
const WORDS: Face = Face::regular(12.0, Role::SecondInk);

/// The settings as they are drawn here: a bag that fills the triangle leaves no bottle to be shown.
fn settings(lineup: &Lineup) -> BagSpaceSettings {
    let room = lineup.settings.bags;
    let is_full = room.with_bag && room.bag.part == BagPart::Full;
    BagSpaceSettings { with_bottles: room.with_bottles && !is_full, ..room }
}

fn shown(findings: &Findings) -> Vec<FrameIndex> {
    FrameIndex::all(findings.frames.len()).filter(|i| findings.frames[*i].shown).collect()
}

/// The rooms in words.
pub(super) fn description(findings: &Findings, lineup: &Lineup) -> String {
    BagSpaces { findings, settings: &settings(lineup), units: lineup.settings.units }.description()
}

/// What is written above a frame's drawing: the number in its forms, then lines, each in its forms with its role.
fn words(spaces: &BagSpaces, place: FrameIndex) -> (Vec<String>, Vec<(Vec<String>, Role)>) {
    let frame = &spaces.findings.frames[place];
    let figure = spaces.figure();
    let Some(measured) = figure.of(frame) else { return (Vec::new(), Vec::new()) };
    let number = spaces.with_unit(figure, &crate::words::bag_space_text(figure, measured, spaces.units));
    let mut lines = Vec::new();
    if let Some(DifferenceWords { forms, role }) = spaces.difference(place, figure) {
        lines.push((forms, role));
    } else if spaces.findings.reference == Some(place) && shown(spaces.findings).len() > 1 {
        lines.push((vec![labels::REFERENCE.to_owned()], Role::SecondInk));
    }
    let last = spaces.last_line(frame);
    if !last.is_empty() {
        lines.push((last, Role::SecondInk));
    }
    (vec![format!("{} {number}", bag_figure_label(figure)), number], lines)
}

/// Height of what is written above each drawing.
fn written(spaces: &BagSpaces) -> f64 {
    let lines = shown(spaces.findings).into_iter().map(|i| words(spaces, i).1.len()).max().unwrap_or(0);
    HEADING + LINE * lines as f64 + 4.0
}

fn with_bag_spaces<T>(with: &Sheeted, answer: impl Fn(&BagSpaces) -> T) -> T {
    let settings = settings(with.lineup);
    answer(&BagSpaces { findings: with.findings, settings: &settings, units: with.lineup.settings.units })
}

fn columns_in(width: f64, cell: f64, count: usize) -> usize {
    (1..=count).rev().find(|n| cell * *n as f64 + GAP * (*n as f64 - 1.0) <= width).unwrap_or(1)
}

/// Least size of the block where it may be so wide.
pub(super) fn least_size(with: &Sheeted, width: f64) -> Page {
    let count = shown(with.findings).len().max(1);
    let rows = count.div_ceil(columns_in(width, LEAST.0, count)) as f64;
    let cell = with_bag_spaces(with, written) + LEAST.1;
    Page { width: LEAST.0, height: rows * cell + GAP * (rows - 1.0) }
}

/// Height that the block likes at a width.
pub(super) fn natural_height(with: &Sheeted, width: f64) -> f64 {
    let count = shown(with.findings).len().max(1);
    let columns = columns_in(width, LIKED, count);
    let rows = count.div_ceil(columns) as f64;
    let across = (width - GAP * (columns as f64 - 1.0)) / columns as f64;
    let extent = Extent::with_tubes(with.findings, with.lineup.settings.bags.align_at);
    let cell = with_bag_spaces(with, written) + extent.height(across.min(LIKED));
    rows * cell + GAP * (rows - 1.0)
}

/// The block.
pub(super) fn bag_spaces_scene(findings: &Findings, lineup: &Lineup, page: Page) -> Scene {
    let settings = settings(lineup);
    let spaces = BagSpaces { findings, settings: &settings, units: lineup.settings.units };
    let mut pen = Pen::default();
    let shown = shown(findings);
    let extent = Extent::with_tubes(findings, settings.align_at);
    let above = written(&spaces);
    let cell = |columns: usize, index: usize| cell_of(Rect::of_page(page), columns, shown.len(), index);
    // As high as it needs to be: the numbers stand close above it.
    let drawing = |cell: Rect| {
        let height = (cell.height - above).min(extent.height(cell.width));
        Rect::new(cell.x, cell.y + above, cell.width, height)
    };
    let worth = |columns: &usize| {
        let first = cell(*columns, 0);
        (first.width >= LEAST.0, extent.scale(drawing(first)))
    };
    let better = |a: &usize, b: &usize| {
        let ((a_fits, a_scale), (b_fits, b_scale)) = (worth(a), worth(b));
        a_fits.cmp(&b_fits).then(a_scale.total_cmp(&b_scale)).then(b.cmp(a))
    };
    let columns = (1..=shown.len()).max_by(better).unwrap_or(1);
    for (index, place) in shown.iter().enumerate() {
        let cell = cell(columns, index);
        one(&mut pen, &spaces, *place, cell, extent, drawing(cell));
    }
    if shown.is_empty() {
        pen.text(Rect::of_page(page).centre(), labels::NO_FRAME_IS_SHOWN, WORDS, Anchor::Middle);
    }
    pen.finish(page, labels::BAGS_TITLE, spaces.description())
}

/// A frame's cell.
fn one(pen: &mut Pen, spaces: &BagSpaces, place: FrameIndex, cell: Rect, extent: Extent, drawing: Rect) {
    let frame = &spaces.findings.frames[place];
    pen.balloon(Pt { x: cell.x + BALLOON + 1.0, y: cell.y + BALLOON + 1.0 }, &frame.letter, place);
    let (number, lines) = words(spaces, place);
    let left = 2.0 * BALLOON + 9.0;
    let beside = Rect::new(cell.x + left, cell.y, cell.width - left, cell.height);
    line(pen, beside, cell.y + BALLOON + 6.0, &number, NUMBER);
    for (n, (forms, role)) in lines.iter().enumerate() {
        line(pen, cell, cell.y + HEADING + LINE * n as f64 + 10.0, forms, Face { role: *role, ..WORDS });
    }
    let why = match (&frame.luggage.bag_space, &frame.luggage.bag) {
        (Err(why), _) => Some(no_opening_text(why)),
        (Ok(_), Some(Err(why))) if spaces.settings.with_bag => Some(no_bag_text(spaces.units, *why)),
        _ => None,
    };
    if let Ok(room) = &frame.luggage.bag_space {
        pen.clip(drawing);
        spaces.drawing(pen, extent.canvas(drawing), place, room);
        pen.unclip();
    }
    let Some(why) = why else { return };
    // Where there is no number, its place tells why.
    for (n, text) in wrap(&why, WORDS.size, WORDS.weight, beside.width, 2).into_iter().enumerate() {
        pen.text(Pt { x: beside.x, y: cell.y + 12.0 + LINE * n as f64 }, text, WORDS, Anchor::Start);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::scene::Item;
    use crate::lineup::read_lineup;

    #[test]
    fn every_shown_frame_has_its_room_to_one_scale_with_its_litres_and_difference() {
        let lineup = read_lineup(include_bytes!("../../../sample-frames/village-library.lineup.ron")).unwrap();
        let findings = Findings::of(&lineup);
        let scene = bag_spaces_scene(&findings, &lineup, Page { width: 500.0, height: 300.0 });
        let texts: Vec<&str> =
            scene.items.iter().filter_map(|i| if let Item::Text { text, .. } = i { Some(text.as_str()) } else { None }).collect();
        let shown = shown(&findings);
        for place in &shown {
            let frame = &findings.frames[*place];
            assert!(texts.contains(&frame.letter.as_str()));
            let figure = crate::lineup::BagSpaceFigure::Litres;
            let litres = crate::words::bag_space_text(figure, figure.of(frame).unwrap(), lineup.settings.units);
            assert!(texts.iter().any(|t| t.contains(&litres)), "{litres} is not among {texts:?}");
        }
        // The widths of the bags on the page are to each other as in millimetres.
        let span = |points: &mut dyn Iterator<Item = f64>| {
            let (low, high) = points.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (l.min(x), h.max(x)));
            high - low
        };
        let scales: Vec<f64> = shown
            .iter()
            .map(|place| {
                let frame = &findings.frames[*place];
                let bag = frame.luggage.bag().unwrap();
                let target = scene.targets.iter().find(|t| t.name == format!("{} bag", frame.letter)).unwrap();
                span(&mut target.shape.iter().map(|p| p.x)) / span(&mut bag.outline.iter().map(|p| p.x))
            })
            .collect();
        assert!(scales.iter().all(|s| (s / scales[0] - 1.0).abs() < 1e-9 && *s > 0.1), "{scales:?}");
    }

    #[test]
    fn a_bag_that_fills_the_triangle_hides_no_bottles_behind_itself() {
        let mut lineup = read_lineup(include_bytes!("../../../sample-frames/village-library.lineup.ron")).unwrap();
        assert!(lineup.settings.bags.with_bottles && !settings(&lineup).with_bottles);
        lineup.settings.bags.with_bag = false;
        assert!(settings(&lineup).with_bottles);
    }
}
