//! Words of statement pictures: the finding as a headline, callouts, conditions and small print.

use super::footnotes::{FootnoteKind, footnotes};
use super::phrases::{STATEMENT_CAUTION, in_sentence};
use super::picture_words::{aligned_text, common_texts};
use crate::frameset::{Figure, FrameIndex};
use crate::lineup::{
    BagSpaceFigure, CalloutFact, Findings, FrameFindings, Lineup, Sheet, Statement, StatementSubject, stated_frame,
};
use crate::units::{AnyKind, Measured, Quantity, System, fixed};

/// A callout: the difference, and what differs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CalloutWords {
    /// `29.0 ± 0.7 mm lower`.
    pub difference: String,
    /// `top of the head tube (stack)`.
    pub what: &'static str,
}

/// How a figure that is larger or smaller is said, and what it is called beside the drawing.
const fn said(figure: Figure) -> (&'static str, &'static str, &'static str) {
    match figure {
        Figure::Stack => ("higher", "lower", "top of the head tube (stack)"),
        Figure::Reach => ("farther forward", "farther back", "top of the head tube (reach)"),
        Figure::HeadAngle => ("steeper", "slacker", "head angle"),
        Figure::SeatAngle => ("steeper", "slacker", "seat angle"),
        Figure::SeatTube => ("longer", "shorter", "seat tube"),
        Figure::Chainstay => ("longer", "shorter", "chainstay"),
        Figure::BbDrop => ("more", "less", "bottom bracket drop"),
        Figure::Wheelbase => ("longer", "shorter", "wheelbase"),
        Figure::FrontCentre => ("longer", "shorter", "front centre"),
        Figure::AxleToCrownAlongAxis => ("longer", "shorter", "fork, axle to crown"),
        Figure::ForkOffset => ("more", "less", "fork offset"),
        Figure::Standover => ("higher", "lower", "standover height"),
        Figure::Trail => ("more", "less", "trail"),
        _ => ("more", "less", "difference"),
    }
}

/// The words of a callout.
#[must_use]
pub fn callout_words(units: System, fact: &CalloutFact) -> CalloutWords {
    let (more, less, what) = said(fact.figure);
    let how = if fact.difference.value > 0.0 { more } else { less };
    CalloutWords { difference: format!("{} {how}", units.text(fact.figure.quantity(), fact.difference.abs())), what }
}

/// A difference for a headline, without its ±: whole millimetres, tenths of what is smaller.
fn rounded(units: System, quantity: Quantity, difference: Measured<AnyKind>) -> String {
    let value = difference.value.abs() * units.factor(quantity);
    units.with_unit(quantity, &fixed(value, usize::from(value < 10.0)))
}

/// A finding as a headline: `Quern Halter has 12 mm less trail`, `Quern Halter’s wheelbase is 44 mm shorter`.
fn claim(units: System, name: &str, fact: &CalloutFact) -> String {
    let is_more = fact.difference.value > 0.0;
    let (more, less, what) = said(fact.figure);
    let how = if is_more { more } else { less };
    let amount = rounded(units, fact.figure.quantity(), fact.difference);
    match fact.figure {
        Figure::Stack | Figure::Reach | Figure::Trail | Figure::BbDrop | Figure::ForkOffset => {
            format!("{name} has {amount} {} {}", if is_more { "more" } else { "less" }, in_sentence(fact.figure))
        }
        Figure::Chainstay => format!("{name}’s chainstays are {amount} {how}"),
        Figure::AxleToCrownAlongAxis => format!("{name}’s fork is {amount} {how}"),
        _ => format!("{name}’s {what} is {amount} {how}"),
    }
}

/// Name of the frame, with its size where both frames have one name.
fn name(frame: &FrameFindings, other: &FrameFindings) -> String {
    if frame.name == other.name { format!("{} {}", frame.name, frame.size_label()) } else { frame.name.clone() }
}

/// The headline of a statement picture: the user's words, or the finding.
#[must_use]
pub fn statement_headline(lineup: &Lineup, findings: &Findings, sheet: &Sheet, statement: &Statement) -> String {
    let own = sheet.title.trim();
    if !own.is_empty() {
        return own.to_owned();
    }
    let pair = stated_frame(statement, findings).and_then(|place| Some((place, place.of(&findings.frames)?)));
    let (Some((place, frame)), Some(reference)) = (pair, findings.reference_frame()) else {
        return sheet.headline(lineup).to_owned();
    };
    let (units, about) = (lineup.settings.units, statement.about);
    let name = name(frame, reference);
    let found = match about {
        StatementSubject::Bags => bag_claim(units, &name, findings, place),
        StatementSubject::Outline | StatementSubject::Steering | StatementSubject::Lengths => {
            let facts = findings.callout_facts(place, about.figures());
            facts
                .iter()
                .find(|fact| about.leading() == Some(fact.figure))
                .or_else(|| facts.first())
                .map(|fact| claim(units, &name, fact))
        }
    };
    found.unwrap_or_else(|| format!("No clear difference in {}", subject_noun(about)))
}

/// `Quern Halter takes a frame bag 1.0 l larger`, where that is clear.
fn bag_claim(units: System, name: &str, findings: &Findings, place: FrameIndex) -> Option<String> {
    let difference = findings.bag_space_difference(place, BagSpaceFigure::Litres).filter(|d| d.is_clear())?;
    let how = if difference.value > 0.0 { "larger" } else { "smaller" };
    Some(format!("{name} takes a frame bag {} {how}", rounded(units, Quantity::Volume, difference)))
}

/// A subject in the middle of a sentence.
const fn subject_noun(about: StatementSubject) -> &'static str {
    match about {
        StatementSubject::Outline => "the frames’ shape",
        StatementSubject::Bags => "frame-bag volume",
        StatementSubject::Steering => "steering geometry",
        StatementSubject::Lengths => "chainstay and wheelbase",
    }
}

/// `A Marrowby Drift, size L`, shorter: letter, name and size.
#[must_use]
pub fn short_frame(frame: &FrameFindings) -> String {
    format!("{} {} {}", frame.letter, frame.name, frame.size_label())
}

/// What both frames share, and how they are aligned: `tyres 47-622 · aligned at the bottom bracket`.
#[must_use]
pub fn statement_conditions(lineup: &Lineup, findings: &Findings, sheet: &Sheet) -> String {
    let own = sheet.subtitle.trim();
    if !own.is_empty() {
        return own.to_owned();
    }
    let mut words: Vec<String> = common_texts(findings, true).into_iter().filter(|text| !text.starts_with("size ")).collect();
    words.push(aligned_text(lineup));
    words.join(" · ")
}

/// The small print, the most important first: the caution, doubtful figures, how alike in fit the frames are.
#[must_use]
pub fn statement_small_print(lineup: &Lineup, findings: &Findings, sheet: &Sheet) -> Vec<String> {
    let notes = footnotes(lineup, findings, sheet);
    let of = |kind: FootnoteKind| notes.iter().filter(move |note| note.kind == kind).map(|note| note.text.clone());
    std::iter::once(STATEMENT_CAUTION.to_owned()).chain(of(FootnoteKind::Doubtful)).chain(of(FootnoteKind::Fit)).collect()
}
