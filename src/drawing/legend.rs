//! The legend of a picture: each shown frame with its letter, line pattern, name, size and tyres, and, where there is
//! room, its figures or their differences from the reference.

use super::measure::{LINE_HEIGHT, shorten, wrap};
use super::order::frame_pattern_of;
use super::pen::{BALLOON, Face, Pen};
use super::rect::Rect;
use super::scene::{Anchor, Pattern, Pt, Role, Stroke, Weight};
use crate::frameset::{Figure, FrameIndex};
use crate::lineup::{Findings, Lineup, PictureView};
use crate::units::System;
use crate::words::drawings as labels;
use crate::words::{UNKNOWN, difference_text, in_sentence, picture_figures, sag_brief, tyre_text, value_text};

const NAME: Face = Face::semibold(14.0, Role::Ink);
const DETAIL: Face = Face::regular(12.5, Role::SecondInk);
/// Room for the letter before the words.
const INDENT: f64 = 2.0 * BALLOON + 10.0;
/// Length of the pattern's sample; less in a narrow column.
const SAMPLE: f64 = 40.0;
const GAP: f64 = 12.0;

/// What the legend says.
#[derive(Debug)]
pub(super) struct Legend {
    entries: Vec<LegendEntry>,
}

#[derive(Debug)]
struct LegendEntry {
    place: FrameIndex,
    pattern: Pattern,
    letter: String,
    name: String,
    /// `size L, reference, 47-622`.
    size: String,
    /// Figures or differences, each with its role.
    figures: Vec<(String, Role)>,
}

/// How much of an entry is shown.
#[derive(Clone, Copy, Debug)]
struct Detail {
    name_lines: usize,
    has_size: bool,
    has_figures: bool,
}

/// From the fullest to the barest.
const DETAILS: [Detail; 4] = [
    Detail { name_lines: 2, has_size: true, has_figures: true },
    Detail { name_lines: 2, has_size: true, has_figures: false },
    Detail { name_lines: 1, has_size: true, has_figures: false },
    Detail { name_lines: 1, has_size: false, has_figures: false },
];

impl Legend {
    /// The legend of the shown frames.
    pub(super) fn of(findings: &Findings, lineup: &Lineup, view: PictureView) -> Self {
        let figures = picture_figures(lineup, view);
        let units = lineup.settings.units;
        let shown = FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown);
        let entries = shown.map(|(place, frame)| {
            let mut size = vec![labels::size_text(frame.size_label())];
            if findings.reference == Some(place) {
                size.push(labels::REFERENCE.to_owned());
            }
            size.extend(tyre_text(frame).filter(|_| view.is_of_shape()));
            size.extend(sag_brief(units, lineup.settings.sag, &frame.frameset));
            LegendEntry {
                place,
                pattern: frame_pattern_of(findings, place),
                letter: frame.letter.clone(),
                name: frame.name.clone(),
                size: size.join(", "),
                figures: figure_lines(findings, place, &figures, units),
            }
        });
        Self { entries: entries.collect() }
    }
}

/// The figures' lines; differences under a line that says what they are from.
fn figure_lines(findings: &Findings, place: FrameIndex, figures: &[Figure], units: System) -> Vec<(String, Role)> {
    let has_difference = figures.iter().any(|f| findings.difference(place, *f).is_some());
    let reference = findings.reference_frame().filter(|_| has_difference);
    let heading = reference.map(|r| (labels::difference_from(&r.letter) + ":", Role::SecondInk));
    heading.into_iter().chain(figures.iter().map(|f| figure_line(findings, place, *f, units))).collect()
}

/// The reference's value, another's difference from it, or another's value where there is no difference to state.
fn figure_line(findings: &Findings, place: FrameIndex, figure: Figure, units: System) -> (String, Role) {
    let name = in_sentence(figure);
    if let Some(difference) = findings.difference(place, figure) {
        let (grade, role) =
            if difference.is_clear() { ("", Role::Ink) } else { (labels::NO_CLEAR_DIFFERENCE_BEHIND, Role::Grey) };
        return (format!("{name} {}{grade}", difference_text(units, figure, difference)), role);
    }
    let value = place.of(&findings.frames).and_then(|f| f.value(figure));
    let text = value.map_or_else(|| UNKNOWN.to_owned(), |v| value_text(units, v));
    (format!("{name} {text}"), Role::SecondInk)
}

/// Draws the legend beside the view where the rectangle is wide, else below it; gives back what is left for the view.
pub(super) fn draw(pen: &mut Pen, rect: Rect, legend: &Legend) -> Rect {
    if legend.entries.is_empty() {
        return rect;
    }
    if rect.width > rect.height * 1.25 && rect.width > 560.0 {
        let width = (rect.width * 0.235).clamp(170.0, 300.0);
        let column = Rect::new(rect.right() - width, rect.y + 4.0, width, rect.height - 4.0);
        columns(pen, column, legend, 1);
        return Rect::new(rect.x, rect.y, rect.width - width - 28.0, rect.height);
    }
    let count = if rect.width > 520.0 { 2 } else { 1 };
    let room = Rect::new(rect.x, rect.y + rect.height * 0.6, rect.width, rect.height * 0.4);
    let height = needed(legend, room.width / f64::from(count) - GAP, count, choose(legend, room, count));
    let height = height.min(room.height);
    columns(pen, Rect::new(rect.x, rect.bottom() - height, rect.width, height), legend, count);
    Rect::new(rect.x, rect.y, rect.width, rect.height - height - 16.0)
}

/// The fullest detail with which everything fits; the barest where nothing does.
fn choose(legend: &Legend, rect: Rect, count: u32) -> Detail {
    let width = rect.width / f64::from(count) - GAP;
    let fits = |d: &&Detail| needed(legend, width, count, **d) <= rect.height;
    DETAILS.iter().find(fits).copied().unwrap_or(DETAILS[DETAILS.len() - 1])
}

fn needed(legend: &Legend, width: f64, count: u32, detail: Detail) -> f64 {
    let heights: Vec<f64> = legend.entries.iter().map(|e| height(e, width, detail)).collect();
    rows(&heights, count).iter().map(|row| row.iter().copied().fold(0.0, f64::max)).sum()
}

fn rows(heights: &[f64], count: u32) -> Vec<&[f64]> {
    heights.chunks(count.max(1) as usize).collect()
}

fn name_lines(entry: &LegendEntry, width: f64, detail: Detail) -> Vec<String> {
    let name = if entry.name.is_empty() { labels::NO_NAME } else { &entry.name };
    let text = if detail.has_size { name.to_owned() } else { format!("{name}, {}", entry.size) };
    wrap(&text, NAME.size, NAME.weight, width - INDENT, detail.name_lines)
}

fn height(entry: &LegendEntry, width: f64, detail: Detail) -> f64 {
    let names = name_lines(entry, width, detail).len() as f64 * NAME.size * LINE_HEIGHT;
    let details = f64::from(u8::from(detail.has_size)) + if detail.has_figures { entry.figures.len() as f64 } else { 0.0 };
    (names + details * DETAIL.size * LINE_HEIGHT).max(2.0 * BALLOON) + if detail.has_size { GAP } else { 3.0 }
}

fn columns(pen: &mut Pen, rect: Rect, legend: &Legend, count: u32) {
    let detail = choose(legend, rect, count);
    let width = rect.width / f64::from(count) - if count > 1 { GAP } else { 0.0 };
    let mut y = rect.y;
    let mut left_out = 0;
    for row in legend.entries.chunks(count.max(1) as usize) {
        let height = row.iter().map(|e| height(e, width, detail)).fold(0.0, f64::max);
        if y + height > rect.bottom() + GAP {
            left_out += row.len();
            continue;
        }
        for (i, entry) in row.iter().enumerate() {
            let x = rect.x + i as f64 * (width + GAP);
            draw_entry(pen, Pt { x, y }, width, entry, detail);
        }
        y += height;
    }
    if left_out > 0 {
        let text = labels::and_more(left_out);
        pen.text(Pt { x: rect.right(), y: rect.bottom() }, text, DETAIL, Anchor::End);
    }
}

fn draw_entry(pen: &mut Pen, at: Pt, width: f64, entry: &LegendEntry, detail: Detail) {
    let x = at.x + INDENT;
    let mut y = at.y;
    pen.balloon(Pt { x: at.x + BALLOON, y: at.y + BALLOON }, &entry.letter, entry.place);
    for line in name_lines(entry, width, detail) {
        pen.text(Pt { x, y: y + NAME.size + 1.0 }, line, NAME, Anchor::Start);
        y += NAME.size * LINE_HEIGHT;
    }
    if !detail.has_size {
        return;
    }
    let pitch = DETAIL.size * LINE_HEIGHT;
    let role = Role::FrameLine(entry.place);
    let sample = if width < 210.0 { SAMPLE * 0.55 } else { SAMPLE };
    let middle = y + pitch * 0.55;
    let stroke = Stroke { role, width: 2.2, pattern: entry.pattern, opacity: 1.0 };
    pen.line(vec![Pt { x, y: middle }, Pt { x: x + sample, y: middle }], stroke);
    let room = width - INDENT - sample - 8.0;
    let text = shorten(&entry.size, DETAIL.size, Weight::Regular, room);
    pen.text(Pt { x: x + sample + 8.0, y: y + DETAIL.size }, text, DETAIL, Anchor::Start);
    y += pitch;
    if detail.has_figures {
        for (text, role) in &entry.figures {
            let text = shorten(text, DETAIL.size, DETAIL.weight, width - INDENT);
            pen.text(Pt { x, y: y + DETAIL.size }, text, Face { role: *role, ..DETAIL }, Anchor::Start);
            y += pitch;
        }
    }
}
