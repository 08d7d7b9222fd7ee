//! What a picture says around its view: title, the line below it, the foot note.

use super::picture::PictureView;
use crate::frameset::{Figure, Part};
use crate::lineup::{Findings, FrameFindings, Lineup};
use crate::weight::WeightOrigin;
use crate::words::{CAUTION, in_sentence};
use crate::words::{leanings, price_and_climb_answers};

/// The figures that a picture of that view is about.
pub(super) fn figures(lineup: &Lineup, view: PictureView) -> Vec<Figure> {
    match view.axes(lineup) {
        Some(axes) if axes.across == axes.up => vec![axes.up],
        Some(axes) => vec![axes.up, axes.across],
        None if view == PictureView::Outline => vec![Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::Trail],
        None => Vec::new(),
    }
}

/// The line-up's title, or what the picture shows.
pub(super) fn headline(lineup: &Lineup, view: PictureView) -> String {
    let title = lineup.title.trim();
    if title.is_empty() { about(lineup, view) } else { title.to_owned() }
}

/// What the picture shows, as a title.
fn about(lineup: &Lineup, view: PictureView) -> String {
    match (view, view.axes(lineup)) {
        (_, Some(axes)) => format!("{} against {}", axes.up.label(), in_sentence(axes.across)),
        (PictureView::PriceAndClimb, None) => "Weight, price and the climb".to_owned(),
        (PictureView::Price, None) => "Price against weight".to_owned(),
        (PictureView::Climb, None) => "On the climb".to_owned(),
        (PictureView::Gears, None) => "What the gears do".to_owned(),
        (PictureView::Room, None) => "Room in the main triangle".to_owned(),
        (PictureView::Parts, None) => "Which parts fit".to_owned(),
        (PictureView::Needs, None) => "What the rider needs".to_owned(),
        (PictureView::Fork, None) => "With another fork or other tyres".to_owned(),
        (PictureView::Hands, None) => "The rider’s hands and saddle".to_owned(),
        (_, None) => view.label().to_owned(),
    }
}

/// `Outline, size L, tyres 47-622, aligned at the bottom bracket`: what all shown frames have in common.
pub(super) fn subline(findings: &Findings, lineup: &Lineup, view: PictureView) -> String {
    let shown: Vec<&FrameFindings> = findings.frames.iter().filter(|f| f.shown).collect();
    let mut words = Vec::new();
    if !lineup.title.trim().is_empty() {
        words.push(about(lineup, view));
    }
    let common = |of: fn(&FrameFindings) -> Option<String>| {
        let first = of(shown.first()?)?;
        shown.iter().all(|f| of(f).as_ref() == Some(&first)).then_some(first)
    };
    if let Some(size) = common(|f| Some(f.size_label().to_owned())) {
        words.push(format!("size {size}"));
    }
    if view.is_of_shape()
        && let Some(tyre) = common(tyre)
    {
        words.push(format!("tyres {tyre}"));
    }
    match view {
        PictureView::Outline if shown.len() > 1 => {
            words.push(format!("aligned at the {}", lineup.settings.outline.stand_at.label()));
        }
        PictureView::Room => words.extend(lineup.settings.room.words()),
        PictureView::Steering | PictureView::Position => words.push("small points are the other sizes".to_owned()),
        _ => {}
    }
    crate::units::capitalised(&words.join(", "))
}

/// The tyres that a frame's geometry was drawn with, as published.
pub(super) fn tyre(frame: &FrameFindings) -> Option<String> {
    let rear = frame.frameset.tyre?;
    match frame.frameset.front_tyre {
        Some(front) if front != rear => Some(format!("{rear} rear, {front} front")),
        Some(_) | None => Some(rear.to_string()),
    }
}

/// What is assumed in the figures, frame by frame, and the caution.
pub(super) fn foot_note(findings: &Findings, lineup: &Lineup, view: PictureView) -> String {
    let mut sentences = leanings(findings, &figures(lineup, view));
    if view == PictureView::Outline && assumes_thickness(findings) {
        sentences.push("Tube diameters that are not published are typical for the material.".to_owned());
    }
    if view == PictureView::Weight && is_any_estimated(findings) {
        sentences.push("Factors between sizes are the user’s own.".to_owned());
    }
    if view == PictureView::Room {
        sentences.push(crate::luggage::WIDTH_NOTE.to_owned());
        if lineup.settings.room.with_bottles {
            sentences.push(crate::luggage::BOTTLE_CAUTION.to_owned());
        }
    }
    if view == PictureView::Fork {
        let change = findings.fit.iter().find(|f| f.is_tried).and_then(|f| f.change.as_ref());
        sentences.extend(change.and_then(|c| c.limit.as_ref()).map(|l| crate::words::limit_text(lineup.settings.units, l)));
        sentences.extend(change.and_then(|c| c.caution).map(|c| crate::words::caution_text(c).to_owned()));
    }
    if view == PictureView::Price {
        sentences.push(price_and_climb_answers(lineup, findings).lightest);
    }
    let money = &lineup.settings.money;
    if matches!(view, PictureView::Price | PictureView::PriceAndClimb) && (!money.rates.is_empty() || money.tax_percent.is_some())
    {
        sentences.push("Exchange rates and tax are the user’s own.".to_owned());
    }
    sentences.push(CAUTION.to_owned());
    sentences.join(" ")
}

fn assumes_thickness(findings: &Findings) -> bool {
    let shown = findings.frames.iter().filter(|f| f.shown);
    shown.filter_map(|f| f.outline.as_ref()).flat_map(|o| &o.tubes).any(|t| t.is_assumed)
}

fn is_any_estimated(findings: &Findings) -> bool {
    let shown = findings.frames.iter().filter(|f| f.shown);
    let mut parts = shown.flat_map(|f| [Part::Frame, Part::Fork, Part::Frameset].map(|p| (f, p)));
    parts.any(|(f, p)| f.weights.origin(p) == Some(WeightOrigin::Estimated))
}
