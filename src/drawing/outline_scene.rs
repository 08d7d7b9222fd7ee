//! The side view: all shown frames overlaid to scale, aligned at the chosen point, the reference a pale
//! shape beneath.
//!
//! Not here: figures (they come from the findings) and colours. Invariants: one letter a shown frame; what nothing
//! determines is not drawn but said in words.

use std::fmt::Write;

use super::balloons::{self, Balloon};
use super::dimensions;
use super::frame_shape::{self, FrameLook};
use super::ghost;
use super::grid;
use super::measure::wrap;
use super::order::{frame_pattern_of, overlaid_from_back_to_front};
use super::outline_targets;
use super::pen::{BALLOON, Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Page, Pt, Role, Scene};
use super::standing::Standing;
use super::view::{Canvas, Margins, View, fitted};
use crate::frameset::{Figure, FrameIndex};
use crate::geometry::Point;
use crate::lineup::{Findings, OutlineSettings};
use crate::units::System;
use crate::units::listed;
use crate::words::Label;
use crate::words::drawings as labels;
use crate::words::{frame_and_size, in_sentence, overlaid_text, value_text};

/// The side view on a page.
#[must_use]
pub fn outline_scene(findings: &Findings, settings: &OutlineSettings, units: System, page: Page, view: View) -> Scene {
    outline_scene_of(findings, settings, units, page, view, None)
}

/// The side view with one frame brought forward: the others but the reference step back.
#[must_use]
pub fn outline_scene_of(
    findings: &Findings,
    settings: &OutlineSettings,
    units: System,
    page: Page,
    view: View,
    forward: Option<FrameIndex>,
) -> Scene {
    let mut pen = Pen::default();
    let canvas = Canvas { rect: Rect::of_page(page), view };
    draw(&mut pen, findings, *settings, units, canvas, How { says_what_is_not_drawn: true, forward });
    pen.finish(page, labels::OUTLINE_TITLE, description(findings, *settings, units))
}

/// The view that shows everything on a page. Where nothing can be drawn, room for a bicycle.
#[must_use]
pub fn fit_outline(findings: &Findings, settings: &OutlineSettings, page: Page) -> View {
    let (low, high) = bounds(findings, *settings);
    let bottom = if settings.dimensions { dimensions::ROOM_BELOW } else { 34.0 };
    fitted(low, high, page, Margins { side: 28.0, top: 52.0, bottom })
}

/// The same with as little around it as letters and scale bar need.
pub(super) fn fit_outline_closely(findings: &Findings, settings: OutlineSettings, page: Page) -> View {
    let (low, high) = bounds(findings, settings);
    let bottom = if settings.dimensions { dimensions::ROOM_BELOW } else { 34.0 };
    fitted(low, high, page, Margins { side: 6.0, top: 34.0, bottom })
}

/// Lowest and highest corner of all that is drawn, mm. Where nothing can be drawn, room for a bicycle.
fn bounds(findings: &Findings, settings: OutlineSettings) -> (Point<f64>, Point<f64>) {
    let bounds = findings
        .overlaid()
        .into_iter()
        .filter_map(|i| Standing::of(&findings.frames[i], settings.align_at))
        .filter_map(|s| s.bounds(settings.wheels || settings.dimensions))
        .reduce(|(low, high), (l, h)| {
            (Point { x: low.x.min(l.x), y: low.y.min(l.y) }, Point { x: high.x.max(h.x), y: high.y.max(h.y) })
        });
    bounds.unwrap_or((Point { x: -800.0, y: -280.0 }, Point { x: 1000.0, y: 800.0 }))
}

/// The findings in sentences, for those who do not see the picture.
pub(super) fn description(findings: &Findings, settings: OutlineSettings, units: System) -> String {
    let shown = findings.frames.iter().filter(|f| f.shown).count();
    if shown == 0 {
        return labels::NO_FRAME_IS_SHOWN.to_owned();
    }
    let mut text = labels::side_view_text(shown, settings.align_at.label());
    if let Some(more) = findings.overlaid_of_more() {
        let _ = write!(text, " {}", overlaid_text(more));
    }
    for frame in findings.overlaid().into_iter().map(|place| &findings.frames[place]) {
        let figures = [Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::Chainstay, Figure::Wheelbase, Figure::Trail];
        let words: Vec<String> = figures
            .iter()
            .filter_map(|f| frame.value(*f))
            .map(|v| format!("{} {}", in_sentence(v.figure), value_text(units, v)))
            .collect();
        let _ = write!(text, " {}: {}.", frame_and_size(frame), words.join(", "));
    }
    text
}

/// The side view for a sheet, whose footnotes say what is not drawn.
pub(super) fn outline_on_sheet(findings: &Findings, settings: OutlineSettings, units: System, page: Page, view: View) -> Scene {
    let mut pen = Pen::default();
    let canvas = Canvas { rect: Rect::of_page(page), view };
    draw(&mut pen, findings, settings, units, canvas, How { says_what_is_not_drawn: false, forward: None });
    pen.finish(page, labels::OUTLINE_TITLE, String::new())
}

/// How the side view is drawn.
#[derive(Clone, Copy)]
struct How {
    says_what_is_not_drawn: bool,
    /// The frame that is brought forward.
    forward: Option<FrameIndex>,
}

/// Draws the side view into a canvas.
fn draw(pen: &mut Pen, findings: &Findings, settings: OutlineSettings, units: System, canvas: Canvas, how: How) {
    pen.clip(canvas.rect);
    if settings.grid {
        grid::draw(pen, canvas, units);
    }
    let mut order = overlaid_from_back_to_front(findings);
    let forward = how.forward.filter(|place| order.contains(place));
    order.sort_by_key(|place| forward == Some(*place) && findings.reference != Some(*place));
    let standing: Vec<(FrameIndex, Standing)> =
        order.iter().filter_map(|i| Some((*i, Standing::of(&findings.frames[*i], settings.align_at)?))).collect();
    ground(pen, canvas, findings, &standing);
    if settings.wheels {
        let one_pair = with_wheels(findings, &standing);
        for (place, stands) in standing.iter().filter(|(place, _)| settings.all_wheels || one_pair == Some(*place)) {
            frame_shape::draw_wheels(pen, canvas, stands, *place);
        }
    }
    let is_drawn = |wanted: &FrameIndex| standing.iter().any(|(place, _)| place == wanted);
    let one_saddle = findings.reference.filter(is_drawn).or_else(|| standing.last().map(|(place, _)| *place));
    for (place, stands) in &standing {
        let is_reference = findings.reference == Some(*place);
        let look = FrameLook {
            place: *place,
            is_filled: is_reference,
            has_saddle: settings.all_wheels || one_saddle == Some(*place),
            pattern: frame_pattern_of(findings, *place),
            frames: standing.len(),
            steps_back: forward.is_some_and(|forward| forward != *place && !is_reference),
        };
        frame_shape::draw(pen, canvas, stands, look);
        pen.about(Some(*place));
        outline_targets::add(pen, canvas, stands, &findings.frames[*place], units);
        pen.about(None);
    }
    ghost::draw_all(pen, canvas, findings, settings, units);
    let mut said = Vec::new();
    if settings.dimensions
        && let Some((place, stands)) = standing.iter().find(|(i, _)| findings.reference == Some(*i))
    {
        said.extend(dimensions::draw(pen, canvas, stands, &findings.frames[*place], units));
    }
    // In the line-up's order, so that the letters do not change places with the reference.
    let mut by_place: Vec<&(FrameIndex, Standing)> = standing.iter().collect();
    by_place.sort_by_key(|(i, _)| *i);
    let tags: Vec<Balloon> = by_place
        .iter()
        .filter_map(|(i, s)| Some(Balloon { place: *i, letter: findings.frames[*i].letter.clone(), at: canvas.at(s.head()?) }))
        .collect();
    balloons::draw(pen, &tags, canvas.rect);
    if how.says_what_is_not_drawn {
        notes(pen, canvas.rect, findings, settings, &said);
    }
    grid::scale_bar(pen, canvas, units);
    pen.unclip();
}

/// The frame whose wheels are drawn: the reference, or the frame drawn last that has wheels.
fn with_wheels(findings: &Findings, standing: &[(FrameIndex, Standing)]) -> Option<FrameIndex> {
    let has_wheels = |s: &Standing| s.outline.rear_wheel.is_some() || s.outline.front_wheel.is_some();
    let mut rolling = standing.iter().rev().filter(|(_, s)| has_wheels(s)).map(|(place, _)| *place);
    findings.reference.filter(|r| rolling.clone().any(|place| place == *r)).or_else(|| rolling.next())
}

/// The road under the reference, or under the frame drawn last.
fn ground(pen: &mut Pen, canvas: Canvas, findings: &Findings, standing: &[(FrameIndex, Standing)]) {
    let with_road = || standing.iter().rev().filter_map(|(i, s)| Some((*i, s, s.outline.road_y?)));
    let found = with_road().find(|(i, ..)| findings.reference == Some(*i)).or_else(|| with_road().next());
    if let Some((_, stands, _)) = found {
        road(pen, canvas, stands);
    }
}

/// The road that a frame stands on.
pub(super) fn road(pen: &mut Pen, canvas: Canvas, stands: &Standing) {
    if let Some(road_y) = stands.outline.road_y {
        let y = canvas.at(stands.on_drawing(Point { x: 0.0, y: road_y })).y;
        let (left, right) = (canvas.rect.x, canvas.rect.right());
        pen.line(vec![Pt { x: left, y }, Pt { x: right, y }], solid(Role::Ink, 1.6));
    }
}

/// What is not drawn, in words, at the top left; a frame of which nothing is drawn with its letter.
fn notes(pen: &mut Pen, rect: Rect, findings: &Findings, settings: OutlineSettings, said: &[String]) {
    let mut lines = Notes { rect, y: rect.y + 22.0 };
    if let Some(more) = findings.overlaid_of_more() {
        lines.write(pen, 0.0, &overlaid_text(more));
    }
    for (place, frame) in findings.overlaid().into_iter().map(|place| (place, &findings.frames[place])) {
        let undrawn = frame.outline.as_ref().map_or(&[][..], |o| &o.undrawn);
        if Standing::of(frame, settings.align_at).and_then(|s| s.head()).is_none() {
            pen.balloon(Pt { x: rect.x + 20.0 + BALLOON, y: lines.y - 4.0 }, &frame.letter, place);
            lines.write(pen, 2.0 * BALLOON + 8.0, labels::FRAME_NOT_DRAWN);
            continue;
        }
        if !undrawn.is_empty() {
            let tubes = listed(undrawn.iter().map(|t| t.label()));
            lines.write(pen, 0.0, &labels::tubes_not_drawn(&frame.letter, &tubes));
        }
        if Standing::of(frame, settings.align_at).is_some_and(|s| s.is_astray) {
            let point = settings.align_at.label();
            lines.write(pen, 0.0, &labels::aligned_elsewhere(&frame.letter, point));
        }
    }
    for sentence in said {
        lines.write(pen, 0.0, sentence);
    }
    if findings.frames.iter().all(|f| !f.shown) {
        pen.text(rect.centre(), labels::NO_FRAME_IS_SHOWN, Face::regular(15.0, Role::SecondInk), Anchor::Middle);
    }
}

/// Lines of notes in a column from the top left, where a bicycle leaves room above its rear wheel.
struct Notes {
    rect: Rect,
    y: f64,
}

impl Notes {
    fn write(&mut self, pen: &mut Pen, indent: f64, text: &str) {
        let face = Face::regular(12.0, Role::SecondInk);
        let x = self.rect.x + 20.0 + indent;
        let column = (self.rect.width * 0.27).clamp(140.0, 360.0) - indent;
        for line in wrap(text, face.size, face.weight, column, 4) {
            pen.backed_text(Pt { x, y: self.y }, line, face, Anchor::Start);
            self.y += 16.0;
        }
        self.y += if indent > 0.0 { 8.0 } else { 4.0 };
    }
}
