//! The side view: all shown frames overlaid to scale, aligned at the chosen point, the reference on
//! top.
//!
//! Not here: figures (they come from the findings) and colours. Invariants: one letter a shown frame; what nothing
//! determines is not drawn but said in words.

use std::fmt::Write;

use super::balloons::{self, Balloon};
use super::dimensions;
use super::ghost;
use super::grid;
use super::measure::wrap;
use super::order::overlaid_from_back_to_front;
use super::outline_targets;
use super::palette::frame_pattern;
use super::pen::{BALLOON, Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pattern, Pt, Role, Scene, Stroke};
use super::standing::Standing;
use super::tube_lines::{Cover, seen};
use super::view::{Canvas, Margins, View, fitted};
use crate::frameset::{Figure, FrameIndex, Tube};
use crate::geometry::{Point, TubeOutline, Wheel};
use crate::lineup::{Findings, OutlineSettings};
use crate::units::System;
use crate::units::listed;
use crate::words::Label;
use crate::words::{NO_FRAME_IS_SHOWN, OUTLINE_TITLE, frame_and_size, in_sentence, overlaid_text, side_view_text, value_text};

/// The side view on a page.
#[must_use]
pub fn outline_scene(findings: &Findings, settings: &OutlineSettings, units: System, page: Page, view: View) -> Scene {
    let mut pen = Pen::default();
    draw(&mut pen, findings, *settings, units, Canvas { rect: Rect::of_page(page), view });
    pen.finish(page, OUTLINE_TITLE, description(findings, *settings, units))
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
        return NO_FRAME_IS_SHOWN.to_owned();
    }
    let mut text = side_view_text(shown, settings.align_at.label());
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
    draw_with(&mut pen, findings, settings, units, Canvas { rect: Rect::of_page(page), view }, false);
    pen.finish(page, OUTLINE_TITLE, String::new())
}

/// Draws the side view into a canvas.
pub(super) fn draw(pen: &mut Pen, findings: &Findings, settings: OutlineSettings, units: System, canvas: Canvas) {
    draw_with(pen, findings, settings, units, canvas, true);
}

fn draw_with(
    pen: &mut Pen,
    findings: &Findings,
    settings: OutlineSettings,
    units: System,
    canvas: Canvas,
    says_what_is_not_drawn: bool,
) {
    pen.clip(canvas.rect);
    if settings.grid {
        grid::draw(pen, canvas, units);
    }
    let order = overlaid_from_back_to_front(findings);
    let standing: Vec<(FrameIndex, Standing)> =
        order.iter().filter_map(|i| Some((*i, Standing::of(&findings.frames[*i], settings.align_at)?))).collect();
    ground(pen, canvas, findings, &standing);
    if settings.wheels {
        for (place, stands) in &standing {
            let is_reference = findings.reference == Some(*place);
            for wheel in [stands.outline.rear_wheel, stands.outline.front_wheel].into_iter().flatten() {
                draw_wheel(pen, canvas, stands, wheel, *place, is_reference);
            }
        }
    }
    for (place, stands) in &standing {
        let is_reference = findings.reference == Some(*place);
        draw_frame(pen, canvas, stands, *place, is_reference, standing.len());
        outline_targets::add(pen, canvas, stands, &findings.frames[*place], units);
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
    if says_what_is_not_drawn {
        notes(pen, canvas.rect, findings, settings, &said);
    }
    grid::scale_bar(pen, canvas, units);
    pen.unclip();
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

fn draw_wheel(pen: &mut Pen, canvas: Canvas, stands: &Standing, wheel: Wheel, place: FrameIndex, is_reference: bool) {
    let centre = canvas.at(stands.on_drawing(wheel.axle));
    let pattern = if is_reference { Pattern::Solid } else { Pattern::Wheel(place) };
    let tyre = Stroke { role: Role::FrameLine(place), width: 0.9, pattern, opacity: 0.7 };
    let rim = Stroke { role: Role::FrameLine(place), width: 0.7, pattern, opacity: 0.4 };
    pen.circle(centre, canvas.px(wheel.tyre_radius_mm), None, Some(tyre));
    pen.circle(centre, canvas.px(wheel.rim_radius_mm), None, Some(rim));
}

/// Which tube lies in front where two meet: the later one.
const fn layer(tube: Tube) -> u8 {
    match tube {
        Tube::SeatPost => 0,
        Tube::ChainStay => 1,
        Tube::SeatStay => 2,
        Tube::ForkBlade => 3,
        Tube::DownTube => 4,
        Tube::TopTube => 5,
        Tube::SeatTube => 6,
        Tube::HeadTube => 7,
    }
}

/// Radius of the circle at an axle, mm.
const AXLE_MM: f64 = 9.0;

/// One frame with its wheels, as the reference is drawn.
pub(super) fn draw_frame_alone(pen: &mut Pen, canvas: Canvas, stands: &Standing, place: FrameIndex, with_wheels: bool) {
    draw_frame_among(pen, canvas, stands, place, (true, 1), with_wheels);
}

/// One frame with its wheels, as it is drawn where it is the reference or not, among so many frames.
pub(super) fn draw_frame_among(
    pen: &mut Pen,
    canvas: Canvas,
    stands: &Standing,
    place: FrameIndex,
    (is_reference, frames): (bool, usize),
    with_wheels: bool,
) {
    if with_wheels {
        for wheel in [stands.outline.rear_wheel, stands.outline.front_wheel].into_iter().flatten() {
            draw_wheel(pen, canvas, stands, wheel, place, is_reference);
        }
    }
    draw_frame(pen, canvas, stands, place, is_reference, frames);
}

fn draw_frame(pen: &mut Pen, canvas: Canvas, stands: &Standing, place: FrameIndex, is_reference: bool, frames: usize) {
    let outline = stands.outline;
    let pattern = frame_pattern(place, is_reference);
    let role = Role::FrameLine(place);
    let width = match (is_reference, frames) {
        (true, _) => 1.9,
        (false, 0..=4) => 1.6,
        (false, _) => 1.4,
    };
    let opacity = match (is_reference, frames) {
        (true, _) => 0.14,
        (false, 0..=3) => 0.09,
        (false, _) => 0.05,
    };
    let on_page = |points: &[Point<f64>]| points.iter().map(|p| canvas.at(stands.on_drawing(*p))).collect::<Vec<Pt>>();
    let mut tubes: Vec<(&TubeOutline, Cover, Vec<Pt>)> = outline
        .tubes
        .iter()
        .map(|t| {
            let points = on_page(&t.outline);
            (t, Cover::new(points.clone()), points)
        })
        .collect();
    tubes.sort_by_key(|(t, ..)| layer(t.tube));
    let discs = joints(canvas, stands);
    let disc_covers: Vec<Cover> = discs.iter().map(|(centre, radius, _)| Cover::disc(*centre, *radius)).collect();
    cups(pen, canvas, stands, Stroke { role, width: width * 0.6, pattern: Pattern::Solid, opacity: 0.8 });
    for (tube, _, points) in &tubes {
        let share = if tube.tube == Tube::SeatPost { 0.4 } else { 1.0 };
        pen.area(points.clone(), Some(Fill { role, opacity: opacity * share }), None);
    }
    for (i, (tube, _, points)) in tubes.iter().enumerate() {
        let in_front: Vec<&Cover> = tubes[i + 1..].iter().map(|(_, c, _)| c).chain(&disc_covers).collect();
        let is_post = tube.tube == Tube::SeatPost;
        let stroke =
            Stroke { role, width: if is_post { width * 0.6 } else { width }, pattern, opacity: if is_post { 0.7 } else { 1.0 } };
        for run in seen(points, &in_front) {
            pen.line(run, stroke);
        }
    }
    pen.line(on_page(&outline.saddle), Stroke { role, width: width * 2.0, pattern: Pattern::Solid, opacity: 0.55 });
    for (centre, radius, is_shell) in discs {
        let fill = if is_shell { Fill { role: Role::Background, opacity: 1.0 } } else { Fill { role, opacity: 0.25 } };
        pen.circle(centre, radius, Some(fill), Some(Stroke { role, width, pattern: Pattern::Solid, opacity: 1.0 }));
        if !is_shell {
            pen.circle(centre, (radius * 0.35).max(1.4), Some(Fill { role, opacity: 1.0 }), None);
        }
    }
}

/// Bottom bracket shell and axles: centre, radius on the page, whether it is the shell.
fn joints(canvas: Canvas, stands: &Standing) -> Vec<(Pt, f64, bool)> {
    let outline = stands.outline;
    let at = |p: Point<f64>| canvas.at(stands.on_drawing(p));
    let mut discs = Vec::with_capacity(3);
    for wheel in [outline.rear_wheel, outline.front_wheel].into_iter().flatten() {
        discs.push((at(wheel.axle), canvas.px(AXLE_MM).max(3.0), false));
    }
    discs.push((at(Point { x: 0.0, y: 0.0 }), canvas.px(outline.shell_radius_mm), true));
    discs
}

/// The lower headset between head tube and crown race seat, as two thin lines.
fn cups(pen: &mut Pen, canvas: Canvas, stands: &Standing, stroke: Stroke) {
    let outline = stands.outline;
    let tube = |wanted| outline.tubes.iter().find(|t| t.tube == wanted);
    let (Some(head), Some(_)) = (tube(Tube::HeadTube), tube(Tube::ForkBlade)) else { return };
    let p = &outline.points;
    let (dx, dy) = (p.crown.x - p.head_bottom.x, p.crown.y - p.head_bottom.y);
    let length = dx.hypot(dy);
    if length < 0.5 {
        return;
    }
    let half = head.diameter_mm * 0.42;
    for side in [-half, half] {
        let (ox, oy) = (-dy / length * side, dx / length * side);
        let ends = [p.head_bottom, p.crown].map(|q| canvas.at(stands.on_drawing(Point { x: q.x + ox, y: q.y + oy })));
        pen.line(ends.to_vec(), stroke);
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
            lines.write(pen, 2.0 * BALLOON + 8.0, "not drawn: too few figures are published");
            continue;
        }
        if !undrawn.is_empty() {
            let tubes = listed(undrawn.iter().map(|t| t.label()));
            lines.write(pen, 0.0, &format!("{}: {tubes} not drawn: too few figures are published", frame.letter));
        }
        if Standing::of(frame, settings.align_at).is_some_and(|s| s.is_astray) {
            let point = settings.align_at.label();
            lines.write(pen, 0.0, &format!("{}: aligned at its bottom bracket, because its {point} is unknown", frame.letter));
        }
    }
    for sentence in said {
        lines.write(pen, 0.0, sentence);
    }
    if findings.frames.iter().all(|f| !f.shown) {
        pen.text(rect.centre(), NO_FRAME_IS_SHOWN, Face::regular(15.0, Role::SecondInk), Anchor::Middle);
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
