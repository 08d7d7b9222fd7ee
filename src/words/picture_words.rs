//! What a picture says around its view: title, the line below it, the foot note; and what a sheet says frames have in common.

use super::bags::{BOTTLE_CAUTION, WIDTH_NOTE, bag_settings_texts};
use super::footnotes::doubts_in_brief;
use super::{
    CAUTION, LOADED_TITLE, assumed_sentences, caution_text, fit_sentences, frame_and_size, in_sentence, limit_text,
    price_and_climb_answers, value_text,
};
use crate::frameset::{Figure, Part};
use crate::geometry::AdjustedSize;
use crate::lineup::{Findings, FrameFindings, Lineup, NoAnimation, PictureView};
use crate::units::{Quantity, System, capitalised, fixed};
use crate::weight::{Method, WeightOrigin};
use crate::words::Label;

/// The figures that a picture of that view is about.
#[must_use]
pub fn picture_figures(lineup: &Lineup, view: PictureView) -> Vec<Figure> {
    match view.axes(lineup) {
        Some(axes) if axes.across == axes.up => vec![axes.up],
        Some(axes) => vec![axes.up, axes.across],
        None if view == PictureView::Outline => vec![Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::Trail],
        None => Vec::new(),
    }
}

/// The line-up's title, or what the picture shows.
#[must_use]
pub fn picture_headline(lineup: &Lineup, view: PictureView) -> String {
    let title = lineup.title.trim();
    if title.is_empty() { about(lineup, view) } else { title.to_owned() }
}

/// What the picture shows, as a title.
fn about(lineup: &Lineup, view: PictureView) -> String {
    if let Some(axes) = view.axes(lineup) {
        return format!("{} against {}", axes.up.label(), in_sentence(axes.across));
    }
    match view {
        PictureView::Overview => "Overview",
        PictureView::Outline => "Frame outlines",
        PictureView::Steering => "Steering",
        PictureView::StackAndReach => "Stack and reach",
        PictureView::Weight => "Weight",
        PictureView::PriceAndClimb => "Price, weight and climb",
        PictureView::Price => "Price against weight",
        PictureView::Climb => "The climb",
        PictureView::Gears => "Gears",
        PictureView::Build => "What a bicycle takes on each frame",
        PictureView::Standards => "Published standards",
        PictureView::Bags => "Frame-bag space",
        PictureView::Parts => "Parts that fit",
        PictureView::RearFromAbove => "The rear from above",
        PictureView::Needs => "The rider’s needs",
        PictureView::Fork => "Another fork or other tyres",
        PictureView::ContactPoints => "The rider’s contact points",
        PictureView::Loaded => LOADED_TITLE,
    }
    .to_owned()
}

/// What all shown frames have of something; `None` where they differ.
fn common(findings: &Findings, of: impl Fn(&FrameFindings) -> Option<String>) -> Option<String> {
    let mut shown = findings.frames.iter().filter(|f| f.shown);
    let first = of(shown.next()?)?;
    shown.all(|f| of(f).as_ref() == Some(&first)).then_some(first)
}

/// Size and tyres that all shown frames have in common: `size L`, `tyres 47-622`.
#[must_use]
pub fn common_texts(findings: &Findings, has_tyres: bool) -> Vec<String> {
    let size = common(findings, |f| Some(f.size_label().to_owned())).map(|size| format!("size {size}"));
    let tyres = common(findings, tyre_text).filter(|_| has_tyres).map(|tyre| format!("tyres {tyre}"));
    size.into_iter().chain(tyres).collect()
}

/// What an animation of a fork that gets longer says (mm; shorter below zero): by how much, what the frame then measures in
/// that size, and the caution in a line of its own.
#[must_use]
pub fn fork_longer_text(units: System, longer_mm: f64, size: Option<&AdjustedSize>) -> String {
    const TOLD: [Figure; 3] = [Figure::HeadAngle, Figure::Trail, Figure::BbDrop];
    let decimals = match units {
        System::Metric => 0,
        System::Imperial => 2,
    };
    let by = units.with_unit(Quantity::Length, &fixed(longer_mm.abs() * units.factor(Quantity::Length), decimals));
    let figures = size.into_iter().flat_map(|s| TOLD.map(|f| s.value(f))).filter(|v| !v.is_missing);
    let figures: Vec<String> = figures.map(|v| format!("{} {}", in_sentence(v.figure), value_text(units, v))).collect();
    let how = if longer_mm.is_sign_negative() { "shorter" } else { "longer" };
    format!("Fork {by} {how}: {}.\nThe maker’s limit for the fork comes first.", figures.join(", "))
}

/// Why an animation shows nothing, and what to do.
#[must_use]
pub const fn no_animation_text(why: NoAnimation) -> &'static str {
    match why {
        NoAnimation::ReferenceNotDrawn => {
            "the reference cannot be drawn, because too few of its figures are published: choose another reference"
        }
        NoAnimation::NoFrame => "no frame can be drawn: show a frame that has stack, reach and angles",
        NoAnimation::OneFrame => "one frame alone does not change into another: show the reference and one more frame",
    }
}

/// What an animation says while one frame's outline changes into another's.
#[must_use]
pub fn changes_into_text(from: &FrameFindings, to: &FrameFindings) -> String {
    format!("{} changes into {}", frame_and_size(from), frame_and_size(to))
}

/// Where outlines are aligned, in the middle of a sentence.
#[must_use]
pub fn aligned_text(lineup: &Lineup) -> String {
    format!("aligned at the {}", lineup.settings.outline.align_at.label())
}

/// `Outline, size L, tyres 47-622, aligned at the bottom bracket`: what all shown frames have in common.
#[must_use]
pub fn picture_subline(findings: &Findings, lineup: &Lineup, view: PictureView) -> String {
    let mut words = Vec::new();
    if !lineup.title.trim().is_empty() {
        words.push(about(lineup, view));
    }
    words.extend(common_texts(findings, view.is_of_shape()));
    match view {
        PictureView::Outline if findings.frames.iter().filter(|f| f.shown).count() > 1 => words.push(aligned_text(lineup)),
        PictureView::Bags => words.extend(bag_settings_texts(lineup.settings.units, &lineup.settings.bags)),
        PictureView::Steering | PictureView::StackAndReach => words.push("small points are the other sizes".to_owned()),
        _ => {}
    }
    capitalised(&words.join(", "))
}

/// The tyres that a frame's geometry was published with: `47-622`, `50-622 rear, 47-622 front`.
#[must_use]
pub fn tyre_text(frame: &FrameFindings) -> Option<String> {
    let rear = frame.frameset.tyre?;
    match frame.frameset.front_tyre {
        Some(front) if front != rear => Some(format!("{rear} rear, {front} front")),
        Some(_) | None => Some(rear.to_string()),
    }
}

/// How alike in fit the frames are, what is doubtful and what is assumed in the figures, frame by frame, and the caution.
#[must_use]
pub fn picture_foot_note(findings: &Findings, lineup: &Lineup, view: PictureView) -> String {
    let settings = &lineup.settings;
    let mut sentences = fit_sentences(findings, settings.units);
    if view.is_of_shape() {
        sentences.extend(doubts_in_brief(findings));
    }
    sentences.extend(assumed_sentences(findings, &picture_figures(lineup, view)));
    if view == PictureView::Outline && assumes_diameter(findings) {
        sentences.push("Tube diameters that are not published are typical for the material.".to_owned());
    }
    if view == PictureView::Weight && settings.weight.method == Method::YourFactor && is_any_converted(findings) {
        sentences.push("The weight factor per size is the user’s own.".to_owned());
    }
    if view == PictureView::Bags {
        sentences.push(WIDTH_NOTE.to_owned());
        if settings.bags.with_bottles {
            sentences.push(BOTTLE_CAUTION.to_owned());
        }
    }
    if view == PictureView::Fork {
        let change = findings.fit.iter().find(|f| f.is_tried).and_then(|f| f.change.as_ref());
        sentences.extend(change.and_then(|c| c.limit.as_ref()).map(|l| limit_text(settings.units, l)));
        sentences.extend(change.and_then(|c| c.caution).map(|c| caution_text(c).to_owned()));
    }
    if view == PictureView::Price {
        sentences.push(price_and_climb_answers(lineup, findings).lightest);
    }
    let money = &settings.money;
    if matches!(view, PictureView::Price | PictureView::PriceAndClimb) && (!money.rates.is_empty() || money.tax_percent.is_some())
    {
        sentences.push("Exchange rates and tax are the user’s own.".to_owned());
    }
    sentences.push(CAUTION.to_owned());
    sentences.join(" ")
}

fn assumes_diameter(findings: &Findings) -> bool {
    let shown = findings.frames.iter().filter(|f| f.shown);
    shown.filter_map(|f| f.outline.as_ref()).flat_map(|o| &o.tubes).any(|t| t.is_assumed)
}

/// Whether any shown weight was brought from another size.
fn is_any_converted(findings: &Findings) -> bool {
    let shown = findings.frames.iter().filter(|f| f.shown);
    let mut origins = shown.flat_map(|f| [Part::Frame, Part::Fork, Part::Frameset].map(|p| f.weights.origin(p)));
    origins.any(|origin| origin == Some(WeightOrigin::Estimated))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    #[test]
    fn a_longer_fork_is_told_in_the_chosen_units() {
        let lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let findings = Findings::of(&lineup);
        let said = |units, longer| fork_longer_text(units, longer, findings.frames[0].chosen()).replace('\u{2009}', " ");
        let metric = said(System::Metric, 40.0);
        assert!(metric.starts_with("Fork 40 mm longer: head angle 70.") && metric.contains(" mm"), "{metric}");
        let inches = said(System::Imperial, -25.4);
        assert!(inches.starts_with("Fork 1.00 in shorter: ") && !inches.contains("mm"), "{inches}");
    }
}
