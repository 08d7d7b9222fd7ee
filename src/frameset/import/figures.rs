//! Rows become figures: what each label means beside the others, whether the table has decimal points or commas, in
//! which unit its lengths are, and what each cell is then worth.
//!
//! Invariant: a reading is taken without asking only where every other reading would be outside the figures' ranges.

use std::collections::BTreeSet;

use super::cell_values::{self, Scale};
use super::meaning::{self, Candidate};
use super::numeral::{self, Cell, DecimalMark};
use super::question::{Question, Subject};
use super::reading::{Answers, CellReading, Reading, RowReading};
use super::row::{BothWays, Row};
use super::skeleton::{RawRow, Skeleton};

use super::unit::Unit;

/// Reads all rows; adds questions and remarks.
pub(super) fn read_rows(bones: &Skeleton, answers: &Answers, reading: &mut Reading) -> Vec<Row> {
    let cells: Vec<BothWays> =
        bones.rows.iter().map(|row| row.cells.iter().map(|t| DecimalMark::BOTH.map(|m| numeral::read(t, m))).collect()).collect();
    let mut candidates: Vec<Candidate> =
        bones.rows.iter().zip(&cells).map(|(row, cells)| Candidate::new(row, cells, answers)).collect();
    let scale = decide_scale(bones, &cells, &candidates, answers, reading);
    meaning::settle(bones, &cells, &mut candidates, scale, answers, reading);
    bones
        .rows
        .iter()
        .zip(&cells)
        .zip(&candidates)
        .map(|((row, cells), candidate)| read_row(bones, row, cells, candidate, scale, answers, reading))
        .collect()
}

/// Which mark and which unit make most cells believable. Where several do and the values differ, it is asked.
fn decide_scale(
    bones: &Skeleton,
    cells: &[BothWays],
    candidates: &[Candidate],
    answers: &Answers,
    reading: &mut Reading,
) -> Scale {
    let mut tried: Vec<(usize, Scale, Vec<Option<u64>>)> = Vec::new();
    for mark in DecimalMark::BOTH {
        for unit in Unit::UNSAID {
            let scale = Scale { mark, unit };
            let mut rejected = 0;
            let mut values = Vec::new();
            for ((row, cells), candidate) in bones.rows.iter().zip(cells).zip(candidates) {
                if candidate.choices.is_empty() {
                    continue;
                }
                for (place, both) in cells.iter().enumerate() {
                    let value = candidate
                        .choices
                        .iter()
                        .find_map(|f| cell_values::believable(bones, row, place, both, *f, scale, answers));
                    let has_number = both.iter().any(Cell::is_numeric);
                    rejected += usize::from(has_number && value.is_none());
                    values.push(value.map(f64::to_bits));
                }
            }
            tried.push((rejected, scale, values));
        }
    }
    let least = tried.iter().map(|t| t.0).min().unwrap_or(0);
    tried.retain(|t| t.0 == least);
    let mut distinct: Vec<(Scale, Vec<Option<u64>>)> = Vec::new();
    for (_, scale, values) in tried {
        if distinct.iter().all(|(_, other)| *other != values) {
            distinct.push((scale, values));
        }
    }
    let marks: BTreeSet<DecimalMark> = distinct.iter().map(|(s, _)| s.mark).collect();
    let mut chosen = distinct.first().map_or(Scale { mark: DecimalMark::Point, unit: Unit::Millimetre }, |(s, _)| *s);
    if marks.len() > 1 {
        let answer = answers.chosen.get(&Subject::Decimals).copied();
        reading.questions.push(Question {
            subject: Subject::Decimals,
            sentence: "The table can be read with decimal points or decimal commas. Which are used?".to_owned(),
            choices: vec![
                "decimal points: 71.5 is a fraction, 1,118 is over a thousand".to_owned(),
                "decimal commas: 71,5 is a fraction, 1.118 is over a thousand".to_owned(),
            ],
            proposal: None,
            answer,
        });
        let mark = if answer == Some(1) { DecimalMark::Comma } else { DecimalMark::Point };
        if let Some((scale, _)) = distinct.iter().find(|(s, _)| s.mark == mark) {
            chosen = *scale;
        }
    }
    distinct.retain(|(s, _)| s.mark == chosen.mark);
    if distinct.len() > 1 {
        let answer = answers.chosen.get(&Subject::LengthUnit).copied();
        reading.questions.push(Question {
            subject: Subject::LengthUnit,
            sentence: "The unit of length is not published, and more than one is possible. Which is used?".to_owned(),
            choices: distinct.iter().map(|(s, _)| s.unit.label().to_owned()).collect(),
            proposal: None,
            answer,
        });
        if let Some((scale, _)) = answer.and_then(|a| distinct.get(a)) {
            chosen = *scale;
        }
    }
    tell_scale(bones, cells, candidates, chosen, reading);
    chosen
}

fn tell_scale(bones: &Skeleton, cells: &[BothWays], candidates: &[Candidate], scale: Scale, reading: &mut Reading) {
    let of_figures = || cells.iter().zip(candidates).filter(|(_, c)| !c.choices.is_empty()).flat_map(|(cells, _)| cells);
    if of_figures().any(|[point, comma]| point != comma) {
        reading.decimal_mark = Some(scale.mark);
    }
    let unsaid = bones.rows.iter().zip(cells).zip(candidates).any(|((row, cells), candidate)| {
        bones.unit.is_none()
            && row.unit.is_none()
            && candidate.choices.first().is_some_and(|f| !f.is_angle())
            && cells.iter().any(|both| matches!(scale.of(both), Cell::Number(n) if n.unit.is_none()))
    });
    reading.length_unit = bones.unit.or(unsaid.then_some(scale.unit));
    if unsaid && scale.unit != Unit::Millimetre {
        reading.remarks.push(format!(
            "The unit of length is not published. Lengths are read as {}. As mm they would be out of range.",
            scale.unit.label()
        ));
    }
}

/// One row with its cells, under the figure that it is taken for.
fn read_row(
    bones: &Skeleton,
    raw: &RawRow,
    cells: &BothWays,
    candidate: &Candidate,
    scale: Scale,
    answers: &Answers,
    reading: &mut Reading,
) -> Row {
    let mut row = Row {
        reading: RowReading {
            line: raw.line,
            label: raw.label.clone(),
            figure: candidate.figure.map(|f| (f, candidate.likeness)),
            unit: None,
            cells: raw.cells.iter().map(|text| CellReading { text: text.clone(), ..CellReading::default() }).collect(),
            kept_as_note: candidate.figure.is_none(),
            step: None,
            remarks: candidate.remarks.clone(),
        },
        fineness: vec![None; raw.cells.len()],
    };
    if !raw.beside.is_empty() {
        row.reading.remarks.push(format!("beside it: {}", raw.beside));
        reading.lines.push(format!("{}: {}", raw.label, raw.beside));
    }
    if raw.label.contains(super::fold::is_footnote) || raw.cells.iter().any(|c| c.contains(super::fold::is_footnote)) {
        row.reading.remarks.push("A footnote mark follows it.".to_owned());
    }
    let Some(figure) = candidate.figure else { return row };
    let mut reader = cell_values::RowReader { bones, raw, cells, figure, scale, answers };
    reader.read(&mut row, candidate.negate, reading);
    row
}
