//! One figure against another: every size of every shown frame a point with its ± as bars, the chosen sizes strong, the
//! sizes of one frame joined in their order.
//!
//! The marks themselves are data (`plot_marks`), which the window's plot reads too; this lays them on a page with axes.
//! Invariant: what is unknown stands in words under the plot, never at a made-up place.

use std::fmt::Write;

use super::measure::wrap;
use super::order::{frame_pattern_of, from_back_to_front};
use super::pen::{Face, Pen};
use super::plot_axes::{BOTTOM, LEFT, RIGHT, TOP};
use super::plot_marks::{MarkLook, PlotAxis, PlotDot, PlotJoin, PlotMarks, PlotValue};
use super::plot_view::{PlotView, fit_plot};
use super::rect::Rect;
use super::scene::{Anchor, Page, Pt, Role, Scene, Stroke};
use crate::frameset::{Figure, FrameIndex, SizeIndex};
use crate::geometry::AdjustedSize;
use crate::lineup::{Axes, Findings};
use crate::units::{System, listed};
use crate::words::drawings as labels;
use crate::words::{difference_text, frame_and_size, in_sentence, value_and_assumed, value_text};

const NOTE_LINE: f64 = 17.0;
const NOTE: Face = Face::regular(12.0, Role::SecondInk);

/// The plot on a page.
#[must_use]
pub fn plot_scene(findings: &Findings, axes: Axes, units: System, page: Page, view: PlotView) -> Scene {
    let mut pen = Pen::default();
    let marks = plot_marks(findings, axes, units);
    draw(&mut pen, &marks, Rect::of_page(page), view);
    pen.finish(page, marks.title, marks.description)
}

/// The marks of the plot.
#[must_use]
pub fn plot_marks(findings: &Findings, axes: Axes, units: System) -> PlotMarks {
    let order = from_back_to_front(findings);
    let axis = |figure: Figure, spacing: f64| {
        let title = match units.unit(figure.quantity()) {
            "°" => labels::in_degrees(figure.label()),
            unit => format!("{}, {unit}", figure.label()),
        };
        PlotAxis { title, factor: units.factor(figure.quantity()), spacing }
    };
    let dots: Vec<PlotDot> = order.iter().flat_map(|place| dots(findings, axes, units, *place)).collect();
    let join = |place: &FrameIndex| {
        let own = dots.iter().filter(|d| d.place == *place);
        let pattern = frame_pattern_of(findings, *place);
        PlotJoin {
            points: own.map(|d| (d.across.value, d.up.value)).collect(),
            stroke: Stroke { role: Role::FrameLine(*place), width: 1.4, pattern, opacity: 0.75 },
            label: None,
        }
    };
    PlotMarks {
        title: labels::plot_title(axes.up.label(), &in_sentence(axes.across)),
        description: description(findings, axes, units),
        across: axis(axes.across, 84.0),
        up: axis(axes.up, 52.0),
        bounds: fit_plot(findings, axes),
        joins: order.iter().map(join).collect(),
        dots,
        key: Vec::new(),
        notes: notes(findings, axes),
        empty: if order.is_empty() { labels::NO_FRAME_IS_SHOWN } else { "" },
        look: LOOK,
    }
}

const LOOK: MarkLook = MarkLook {
    rings: [5.0, 16.0, 30.0, 46.0],
    leader_from: 10.0,
    bar_from: 0.0,
    edge: 1.4,
    clear: 6.5,
    bar_clear: 2.0,
    targets: (9.0, 7.0),
};

/// The sizes of a frame that have both figures, in their order.
fn dots(findings: &Findings, axes: Axes, units: System, place: FrameIndex) -> Vec<PlotDot> {
    let frame = &findings.frames[place];
    let against = against_reference(findings, place, axes, units);
    let dot = |(i, size): (SizeIndex, &AdjustedSize)| {
        let (across, up) = (size.value(axes.across), size.value(axes.up));
        if across.is_missing || up.is_missing {
            return None;
        }
        let is_chosen = i == frame.size;
        let figures = [up, across].map(|v| format!("{} {}", in_sentence(v.figure), value_and_assumed(units, v)));
        let mut detail = figures.join("; ");
        if is_chosen && !against.is_empty() {
            let _ = write!(detail, "; {against}");
        }
        Some(PlotDot {
            place,
            letter: frame.letter.clone(),
            label: size.label.clone(),
            is_chosen,
            has_ring: false,
            across: PlotValue { value: across.value, low: across.measured().low(), high: across.measured().high() },
            up: PlotValue { value: up.value, low: up.measured().low(), high: up.measured().high() },
            name: labels::frame_at_size(&frame.letter, &frame.name, &size.label),
            detail,
        })
    };
    SizeIndex::numbered(&frame.adjusted.sizes).filter_map(dot).collect()
}

/// What is unknown, in sentences.
fn notes(findings: &Findings, axes: Axes) -> String {
    let figures = if axes.across == axes.up { vec![axes.up] } else { vec![axes.up, axes.across] };
    let mut sentences = Vec::new();
    for frame in findings.frames.iter().filter(|f| f.shown) {
        let sizes = &frame.adjusted.sizes;
        let lacks = |figure: Figure| sizes.iter().filter(move |s| s.value(figure).is_missing);
        let (nowhere, here_and_there): (Vec<Figure>, Vec<Figure>) =
            figures.iter().copied().filter(|f| lacks(*f).next().is_some()).partition(|f| lacks(*f).count() == sizes.len());
        if !nowhere.is_empty() {
            let names: Vec<String> = nowhere.into_iter().map(in_sentence).collect();
            sentences.push(labels::figures_unknown(&frame.letter, &listed(names.iter().map(String::as_str))) + ".");
        }
        for figure in here_and_there {
            let sizes = listed(lacks(figure).map(|s| s.label.as_str()));
            sentences.push(labels::figure_unknown_in(&frame.letter, &in_sentence(figure), &sizes));
        }
    }
    sentences.join(" ")
}

/// The notes in lines that fit the width.
fn note_lines(marks: &PlotMarks, rect: Rect) -> Vec<String> {
    let most = if rect.height > 320.0 { 4 } else { 1 };
    wrap(&marks.notes, NOTE.size, NOTE.weight, (rect.width - LEFT - RIGHT).max(0.0), most)
}

/// The findings in sentences, for those who do not see the picture.
pub(super) fn description(findings: &Findings, axes: Axes, units: System) -> String {
    let mut text = String::new();
    for (place, frame) in FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown) {
        let figures: Vec<String> = [axes.across, axes.up]
            .iter()
            .filter_map(|f| frame.value(*f))
            .map(|v| format!("{} {}", in_sentence(v.figure), value_text(units, v)))
            .collect();
        let _ = write!(text, "{}: {}", frame_and_size(frame), figures.join(", "));
        let against = against_reference(findings, place, axes, units);
        let _ = if against.is_empty() { write!(text, ". ") } else { write!(text, "; {against}. ") };
    }
    if text.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { text.trim_end().to_owned() }
}

/// `difference from A: trail +11 ± 2 mm, chainstay −5 ± 6 mm (no clear difference)`; empty for the reference.
fn against_reference(findings: &Findings, place: FrameIndex, axes: Axes, units: System) -> String {
    let Some(reference) = findings.reference_frame() else { return String::new() };
    let words: Vec<String> = [axes.across, axes.up]
        .iter()
        .filter_map(|f| Some((*f, findings.difference(place, *f)?)))
        .map(|(figure, difference)| {
            let text = format!("{} {}", in_sentence(figure), difference_text(units, figure, difference));
            if difference.is_clear() { text } else { labels::not_clear(&text) }
        })
        .collect();
    if words.is_empty() { String::new() } else { format!("{}: {}", labels::difference_from(&reference.letter), words.join(", ")) }
}

/// Draws the plot into a rectangle.
fn draw(pen: &mut Pen, marks: &PlotMarks, rect: Rect, view: PlotView) {
    let notes = note_lines(marks, rect);
    let below = BOTTOM + NOTE_LINE * notes.len() as f64;
    let area = Rect::new(rect.x + LEFT, rect.y + TOP, rect.width - LEFT - RIGHT, rect.height - TOP - below);
    if area.width < 40.0 || area.height < 40.0 {
        return;
    }
    marks.draw_axes(pen, rect, area, view);
    for (i, line) in notes.into_iter().enumerate() {
        let y = area.bottom() + BOTTOM + NOTE_LINE * (i as f64 + 0.35);
        pen.text(Pt { x: area.x, y }, line, NOTE, Anchor::Start);
    }
    pen.clip(area);
    marks.draw(pen, area, view);
    pen.unclip();
    marks.targets(pen, area, view);
    if !marks.empty.is_empty() {
        pen.text(area.centre(), marks.empty, Face::regular(15.0, Role::SecondInk), Anchor::Middle);
    }
}
