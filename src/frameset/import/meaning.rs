//! What each row is, beside the others: a name that can be two figures gives way to a row that says it outright, degrees
//! make an angle of a tube, a bottom bracket height below nought is a drop.
//!
//! Invariant: below [`SURE`] nothing is assigned without an answer; a name of several meanings is assigned by its usual
//! one only with a question that says so.

use std::collections::BTreeSet;

use super::cell_values::{Scale, unit_of};
use super::names::{Found, Meaning, SURE};
use super::numeral::Cell;
use super::question::{Question, Subject};
use super::reading::{Answers, Reading};
use super::row::{BothWays, checked};
use super::skeleton::{RawRow, Skeleton};
use super::unit::Unit;
use crate::frameset::Figure;

/// What a row may be, and in the end is.
#[derive(Clone, Debug, Default)]
#[expect(clippy::struct_excessive_bools, reason = "four facts that do not exclude one another")]
pub(super) struct Candidate {
    /// What it can be, the usual first; empty for what is no figure.
    pub(super) choices: Vec<Figure>,
    usual: bool,
    or_aside: bool,
    assigned: bool,
    pub(super) likeness: f64,
    left_over: String,
    /// What it is taken for.
    pub(super) figure: Option<Figure>,
    /// Whether the signs of its values are to be turned.
    pub(super) negate: bool,
    pub(super) remarks: Vec<String>,
}

const NOTE: &str = "none of these: keep it as a note";

impl Candidate {
    /// By the label, the unit, and what the user assigned.
    pub(super) fn new(row: &RawRow, cells: &BothWays, answers: &Answers) -> Self {
        if let Some(assigned) = answers.assigned.get(&row.line) {
            let choices = assigned.iter().copied().collect();
            return Self { choices, assigned: true, likeness: 1.0, usual: true, figure: *assigned, ..Self::default() };
        }
        let Some(Found { meaning: Meaning::Figures { choices, usual, or_aside, .. }, likeness, left_over, .. }) = &row.found
        else {
            return Self::default();
        };
        let mut candidate = Self {
            choices: choices.clone(),
            usual: *usual,
            or_aside: *or_aside,
            likeness: *likeness,
            left_over: left_over.clone(),
            ..Self::default()
        };
        let in_degrees = row.unit == Some(Unit::Degree)
            || cells.iter().flatten().any(|c| matches!(c, Cell::Number(n) if n.unit == Some(Unit::Degree)));
        if in_degrees && let Some(angles) = angle_of_tube(choices) {
            candidate.choices = angles;
            candidate.usual = true;
            candidate.remarks.push("The numbers are in degrees, so this is the tube’s angle.".to_owned());
        }
        candidate
    }
}

/// The angle that a tube's name means when its numbers are degrees.
fn angle_of_tube(choices: &[Figure]) -> Option<Vec<Figure>> {
    match choices.first()? {
        Figure::HeadTube => Some(vec![Figure::HeadAngle]),
        Figure::SeatTube => Some(vec![Figure::SeatAngle, Figure::SeatTubeAngle]),
        _ => None,
    }
}

/// Decides all rows.
pub(super) fn settle(
    bones: &Skeleton,
    cells: &[BothWays],
    candidates: &mut [Candidate],
    scale: Scale,
    answers: &Answers,
    reading: &mut Reading,
) {
    let outright: BTreeSet<Figure> = candidates
        .iter()
        .filter(|c| c.assigned || (c.choices.len() == 1 && c.likeness >= SURE))
        .filter_map(|c| c.choices.first().copied())
        .collect();
    for ((row, cells), candidate) in bones.rows.iter().zip(cells).zip(candidates.iter_mut()) {
        if candidate.choices.is_empty() {
            continue;
        }
        let values = Values::of(bones, row, cells, candidate, scale, answers);
        if values.count == 0 && !candidate.assigned {
            // Nothing to assign; a row of dashes is still that figure's row.
            candidate.figure = candidate.choices.first().copied().filter(|_| candidate.likeness >= SURE);
            continue;
        }
        if !candidate.assigned {
            disguised(row, candidate, &values, &outright);
            by_label(row, candidate, &values, &outright, answers, reading);
        }
        bottom_bracket(row, candidate, &values, answers, reading);
    }
}

/// A row's numbers.
struct Values {
    count: usize,
    /// In millimetres or degrees.
    metric: Vec<f64>,
    /// Whether a unit is written anywhere for them.
    said: bool,
    /// As printed.
    bare: Vec<f64>,
    /// For each choice whether it can have all the values.
    possible: Vec<bool>,
}

impl Values {
    fn of(bones: &Skeleton, row: &RawRow, cells: &BothWays, candidate: &Candidate, scale: Scale, answers: &Answers) -> Self {
        let mut out =
            Self { count: 0, metric: Vec::new(), said: false, bare: Vec::new(), possible: vec![true; candidate.choices.len()] };
        let Some(first) = candidate.choices.first() else { return out };
        for (place, both) in cells.iter().enumerate() {
            out.count += usize::from(both.iter().any(Cell::is_numeric));
            let Cell::Number(n) = scale.of(both) else { continue };
            let (unit, said) = unit_of(bones, row, place, n, *first, scale, answers);
            out.said |= said;
            out.metric.push(n.value * unit.factor());
            out.bare.push(n.value);
            for (possible, figure) in out.possible.iter_mut().zip(&candidate.choices) {
                let (unit, _) = unit_of(bones, row, place, n, *figure, scale, answers);
                *possible &= checked(*figure, n.value, unit).is_ok();
            }
        }
        out
    }

    fn all_within(values: &[f64], low: f64, high: f64) -> bool {
        !values.is_empty() && values.iter().all(|v| (low..=high).contains(v))
    }
}

/// "Head tube 71.5" without a unit is an angle whose name was cut short, unless it is a very short head tube; "Seat tube
/// 73" an angle unless it is in centimetres. Both are asked.
fn disguised(row: &RawRow, candidate: &mut Candidate, values: &Values, outright: &BTreeSet<Figure>) {
    if values.said || row.unit.is_some() || !Values::all_within(&values.bare, 60.0, 85.0) {
        return;
    }
    let angles = match candidate.choices.as_slice() {
        [Figure::HeadTube] if !outright.contains(&Figure::HeadAngle) => vec![Figure::HeadAngle],
        [Figure::SeatTube] if !outright.contains(&Figure::SeatAngle) => vec![Figure::SeatAngle, Figure::SeatTubeAngle],
        _ => return,
    };
    candidate.choices.extend(angles);
    candidate.usual = false;
}

fn by_label(
    row: &RawRow,
    candidate: &mut Candidate,
    values: &Values,
    outright: &BTreeSet<Figure>,
    answers: &Answers,
    reading: &mut Reading,
) {
    let Some(first) = candidate.choices.first().copied() else { return };
    let sure = candidate.likeness >= SURE;
    if let ([only], true, false) = (candidate.choices.as_slice(), sure, candidate.or_aside) {
        candidate.figure = Some(*only);
        return;
    }
    if sure && !candidate.usual && !candidate.or_aside {
        let possible: Vec<Figure> =
            candidate.choices.iter().zip(&values.possible).filter(|(_, p)| **p).map(|(f, _)| *f).collect();
        if let ([only], true) = (possible.as_slice(), values.possible.len() == candidate.choices.len()) {
            candidate.figure = Some(*only);
            candidate.remarks.push(format!("Read as {}, the only figure of this name that fits the numbers.", only.label()));
            return;
        }
    }
    let note = candidate.choices.len();
    let proposal = if !sure || candidate.or_aside {
        Some(note)
    } else if candidate.usual {
        Some(candidate.choices.iter().position(|f| !outright.contains(f)).unwrap_or(0))
    } else {
        None
    };
    let names: Vec<&str> = candidate.choices.iter().map(|f| f.label()).collect();
    let sentence = if sure {
        if candidate.choices.len() == 1 {
            format!("“{}” can be {} or no figure of the frame. Which is it?", row.label, first.label())
        } else {
            format!("“{}” can be {}. Which is it?", row.label, names.join(" or "))
        }
    } else if candidate.left_over.is_empty() {
        format!("“{}” looks like {} ({:.0}\u{a0}% match). Is it?", row.label, first.label(), candidate.likeness * 100.0)
    } else {
        format!("“{}” also says “{}”. Is it still {}?", row.label, candidate.left_over, first.label())
    };
    let mut choices: Vec<String> = candidate.choices.iter().map(|f| format!("{}: {}", f.label(), f.meaning())).collect();
    choices.push(NOTE.to_owned());
    let subject = Subject::Meaning(row.line);
    let question = Question { answer: answers.chosen.get(&subject).copied(), subject, sentence, choices, proposal };
    candidate.figure = question.in_force().and_then(|c| candidate.choices.get(c).copied());
    if let (None, Some(figure)) = (question.answer, candidate.figure) {
        candidate.remarks.push(format!(
            "Read as {}, the usual meaning. It can also be {}.",
            figure.label(),
            others(&names, figure)
        ));
    }
    reading.questions.push(question);
}

fn others(names: &[&str], figure: Figure) -> String {
    names.iter().filter(|n| **n != figure.label()).copied().collect::<Vec<_>>().join(" or ")
}

/// A drop with a minus sign, and a height that is none.
fn bottom_bracket(row: &RawRow, candidate: &mut Candidate, values: &Values, answers: &Answers, reading: &mut Reading) {
    let negative = Values::all_within(&values.metric, -150.0, 0.0) && values.metric.iter().any(|v| *v < 0.0);
    let small = Values::all_within(&values.metric, -150.0, 149.0);
    let first = values.metric.iter().copied().find(|v| *v != 0.0).unwrap_or(0.0);
    let (sentence, proposal) = match candidate.figure {
        Some(Figure::BbDrop) if negative => {
            (format!("“{}” is published as {first}. Is the bottom bracket below the rear axle, or above it?", row.label), Some(0))
        }
        Some(Figure::BbHeight) if negative => (
            format!(
                "“{}” is published as {first}, so it is measured from the axles. Is the bottom bracket below them, or above?",
                row.label
            ),
            Some(0),
        ),
        Some(Figure::BbHeight) if small => (
            format!(
                "“{}” is published as {first}: too low for a height above ground. Is the bottom bracket so far below the rear axle, or above it?",
                row.label
            ),
            None,
        ),
        _ => return,
    };
    let subject = Subject::Sign(row.line);
    let question = Question {
        answer: answers.chosen.get(&subject).copied(),
        subject,
        sentence,
        choices: vec![
            format!("below: a drop of {}", first.abs()),
            format!("above: a drop of −{}", first.abs()),
            "keep it as a note".to_owned(),
        ],
        proposal,
    };
    match question.in_force() {
        Some(0) => (candidate.figure, candidate.negate) = (Some(Figure::BbDrop), first < 0.0),
        Some(1) => (candidate.figure, candidate.negate) = (Some(Figure::BbDrop), first > 0.0),
        Some(_) => candidate.figure = None,
        None if candidate.figure == Some(Figure::BbHeight) => candidate.figure = None,
        None => {}
    }
    if candidate.negate && question.answer.is_none() {
        candidate.remarks.push("A minus sign usually means below the axle, so this is read as a drop.".to_owned());
    }
    reading.questions.push(question);
}
