//! A frame with another fork or other tyres, drawn as a ghost over the frame as its maker drew it: thin broken lines
//! without areas, so that nobody takes it for a frame that is sold.

use super::frame_shape::{self, FrameLook};
use super::grid;
use super::measure::{CAP_HEIGHT, shorten, wrap};
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Page, Pattern, Pt, Role, Scene, Stroke};
use super::standing::Standing;
use super::view::{Canvas, Margins, View, fitted};
use crate::frameset::FrameIndex;
use crate::geometry::{Outline, Point, SilhouettePart};
use crate::lineup::{Findings, FrameFindings, FrameFit, OutlineSettings};
use crate::units::System;
use crate::words::drawings as labels;
use crate::words::{CHANGE_COLUMNS, change_rows, change_sentence, frame_and_size, put_on_text};

/// The ghosts that belong on the outline of all frames.
pub(super) fn draw_all(pen: &mut Pen, canvas: Canvas, findings: &Findings, settings: OutlineSettings, units: System) {
    for (place, frame) in FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown) {
        if let Some(ghost) = place.of(&findings.fit).and_then(|f| f.ghost.as_ref()).filter(|g| g.is_on_outline) {
            draw(pen, canvas, &ghost.outline, settings, place);
            let name = labels::with_another_fork(&frame_and_size(frame));
            let stands = Standing::of_outline(&ghost.outline, settings.align_at);
            if let Some(head) = stands.head() {
                let detail = place.of(&findings.fit).and_then(|f| f.change.as_ref()).map(|c| change_sentence(units, c));
                pen.spot(canvas.at(head), 9.0, name, detail.unwrap_or_default());
            }
        }
    }
}

/// One ghost in the tone of its frame.
fn draw(pen: &mut Pen, canvas: Canvas, outline: &Outline, settings: OutlineSettings, place: FrameIndex) {
    let line = Stroke { role: Role::FrameLine(place), width: 1.0, pattern: Pattern::Dashes, opacity: 0.9 };
    outlined(pen, canvas, &Standing::of_outline(outline, settings.align_at), line, settings.wheels);
}

/// The edge of a frame without area, and its axles.
pub(super) fn outlined(pen: &mut Pen, canvas: Canvas, stands: &Standing, line: Stroke, with_wheels: bool) {
    let faint = Stroke { opacity: 0.67 * line.opacity, ..line };
    for ring in stands.silhouette().iter().flat_map(SilhouettePart::rings) {
        pen.area(ring.iter().map(|p| canvas.at(stands.on_drawing(*p))).collect(), None, Some(line));
    }
    for wheel in [stands.outline.rear_wheel, stands.outline.front_wheel].into_iter().flatten() {
        let centre = canvas.at(stands.on_drawing(wheel.axle));
        if with_wheels {
            pen.circle(centre, canvas.px(wheel.tyre_radius_mm), None, Some(faint));
        }
        pen.circle(centre, 3.0, None, Some(solid(line.role, 1.0)));
    }
}

/// The frame that the other fork or tyres go on, changed or not.
fn tried(findings: &Findings) -> Option<(FrameIndex, &FrameFindings, &FrameFit)> {
    let (place, fit) = FrameIndex::numbered(&findings.fit).find(|(_, f)| f.is_tried)?;
    Some((place, place.of(&findings.frames)?, fit))
}

/// Whether a change is to be drawn.
pub(super) fn is_changed(findings: &Findings) -> bool {
    tried(findings).is_some_and(|(_, _, fit)| fit.ghost.is_some())
}

/// The view that shows the frame and its ghost. Where no frame can be drawn, room for a bicycle.
#[must_use]
pub fn fit_change(findings: &Findings, settings: &OutlineSettings, page: Page) -> View {
    let bounds = tried(findings).and_then(|(_, frame, fit)| {
        let own = Standing::of(frame, settings.align_at)?.bounds(true)?;
        let ghost = fit.ghost.as_ref().and_then(|g| Standing::of_outline(&g.outline, settings.align_at).bounds(true));
        let ghost = ghost.unwrap_or(own);
        let low = Point { x: own.0.x.min(ghost.0.x), y: own.0.y.min(ghost.0.y) };
        Some((low, Point { x: own.1.x.max(ghost.1.x), y: own.1.y.max(ghost.1.y) }))
    });
    let (low, high) = bounds.unwrap_or((Point { x: -800.0, y: -280.0 }, Point { x: 1000.0, y: 800.0 }));
    fitted(low, high, page, Margins { side: 28.0, top: 44.0, bottom: 54.0 })
}

/// One frame as drawn and its ghost, with what changes in words below.
#[must_use]
pub fn change_scene(findings: &Findings, settings: &OutlineSettings, units: System, page: Page, view: View) -> Scene {
    let mut pen = Pen::default();
    let rect = Rect::of_page(page);
    let canvas = Canvas { rect, view };
    let words = Face::regular(13.0, Role::SecondInk);
    pen.clip(rect);
    if settings.grid {
        grid::draw(&mut pen, canvas, units);
    }
    let nothing = labels::NOTHING_IS_CHANGED;
    let Some((place, frame, fit)) = tried(findings) else {
        pen.unclip();
        return pen.finish(page, labels::ANOTHER_FORK_TITLE, nothing);
    };
    if let Some(stands) = Standing::of(frame, settings.align_at) {
        if settings.wheels {
            frame_shape::draw_wheels(&mut pen, canvas, &stands, place);
        }
        frame_shape::draw(&mut pen, canvas, &stands, FrameLook::alone(place));
    }
    if let Some(ghost) = &fit.ghost {
        draw(&mut pen, canvas, &ghost.outline, *settings, place);
    }
    let sentence = fit.change.as_ref().map_or_else(|| nothing.to_owned(), |c| change_sentence(units, c));
    let base = Pt { x: rect.x + 20.0, y: rect.y + 14.0 + 14.0 * CAP_HEIGHT };
    let width = rect.width - 40.0;
    let head = Face::semibold(14.0, Role::Ink);
    pen.backed_text(base, shorten(&frame_and_size(frame), head.size, head.weight, width), head, Anchor::Start);
    let mut y = base.y;
    for text in wrap(&sentence, words.size, words.weight, width, 4) {
        y += if y > base.y { 17.0 } else { 20.0 };
        pen.backed_text(Pt { y, ..base }, text, words, Anchor::Start);
    }
    let what = fit.change.as_ref().map(|c| put_on_text(units, &c.put_on)).unwrap_or_default();
    if fit.ghost.is_some() {
        // Beside the saddle, not over it.
        let narrow = width.min((rect.width * 0.36).max(300.0));
        key(&mut pen, Pt { y: y + 20.0, ..base }, place, &what, narrow);
    }
    grid::scale_bar(&mut pen, canvas, units);
    pen.unclip();
    let told: Vec<String> = change_rows(units, findings, place)
        .iter()
        .map(|r| format!("{}: {}", r.label, r.cells.each_ref().map(|c| c.text_with_unit(units, r.quantity)).join(", ")))
        .collect();
    let columns = crate::units::capitalised(&CHANGE_COLUMNS.join(", "));
    let told = if told.is_empty() { String::new() } else { format!(" {columns}. {}.", told.join("; ")) };
    let with = if what.is_empty() { String::new() } else { format!(" {}", labels::with_text(&what)) };
    pen.finish(page, labels::ANOTHER_FORK_TITLE, format!("{}{with}. {sentence}{told}", frame_and_size(frame)))
}

/// What the whole and the broken lines are: the frame as drawn, and what is put on it.
fn key(pen: &mut Pen, at: Pt, place: FrameIndex, what: &str, width: f64) {
    const SAMPLE: f64 = 30.0;
    let words = Face::regular(13.0, Role::SecondInk);
    let whole = solid(Role::FrameLine(place), 2.0);
    let broken = Stroke { role: Role::FrameLine(place), width: 1.0, pattern: Pattern::Dashes, opacity: 0.9 };
    let mut y = at.y;
    for (stroke, text) in [(whole, labels::AS_PUBLISHED.to_owned()), (broken, labels::with_text(what))] {
        let level = y - words.size * 0.35;
        pen.line(vec![Pt { x: at.x, y: level }, Pt { x: at.x + SAMPLE, y: level }], stroke);
        for line in wrap(&text, words.size, words.weight, width - SAMPLE - 10.0, 3) {
            pen.backed_text(Pt { x: at.x + SAMPLE + 10.0, y }, line, words, Anchor::Start);
            y += 17.0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::{Lineup, read_lineup};

    fn lineup() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    #[test]
    fn the_ghost_stands_only_where_it_is_asked_for() {
        let mut lineup = lineup();
        let page = Page { width: 800.0, height: 600.0 };
        let settings = lineup.settings.outline;
        let plain = Findings::of(&lineup);
        let view = fit_change(&plain, &settings, page);
        let scene = |f: &Findings| super::super::outline_scene(f, &settings, System::Metric, page, view);
        let without = scene(&plain).items.len();
        lineup.settings.fork_trial.is_drawn = true;
        let with = Findings::of(&lineup);
        assert!(scene(&with).items.len() > without);
        assert_eq!(with.fit.iter().filter(|f| f.ghost.is_some()).count(), 1);
        lineup.settings.fork_trial.use_listed_fork = false;
        assert_eq!(scene(&Findings::of(&lineup)).items.len(), without);
    }

    #[test]
    fn the_change_is_told_in_words_too() {
        let findings = Findings::of(&lineup());
        let page = Page { width: 800.0, height: 600.0 };
        let settings = OutlineSettings::default();
        let view = fit_change(&findings, &settings, page);
        let scene = change_scene(&findings, &settings, System::Metric, page, view);
        assert!(scene.description.contains("Head angle"), "{}", scene.description);
        // Which fork, how long, and which lines are which.
        let text = |i: &super::super::Item| match i {
            super::super::Item::Text { text, .. } => Some(text.clone()),
            _ => None,
        };
        // Lines are broken where the page is narrow.
        let told = scene.items.iter().filter_map(text).collect::<Vec<_>>().join(" ");
        let says = |words: &str| told.contains(words);
        assert!(says("as published") && says("with spare fork, 469.7\u{2009}mm along the steering axis"));
        assert!(scene.description.contains("spare fork"), "{}", scene.description);
    }
}
