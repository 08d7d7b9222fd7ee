//! Figures that stand in several rows or columns: once in millimetres and once in inches, twice the same, or twice with
//! different values.

use std::collections::BTreeSet;

use super::question::{Question, Subject};
use super::reading::{Answers, CellReading, Reading};
use super::row::Row;
use super::skeleton::Skeleton;
use super::unit::Unit;
use crate::frameset::Figure;

/// Columns that repeat a size in another unit are taken out: the metric one is kept.
pub(super) fn metric_columns(bones: &mut Skeleton) {
    let mut out: Vec<usize> = Vec::new();
    for (place, size) in bones.sizes.iter().enumerate() {
        let twin = bones.sizes.iter().enumerate().find(|(other, s)| {
            *other != place && s.label == size.label && s.unit.is_some() && size.unit.is_some() && s.unit != size.unit
        });
        if size.unit == Some(Unit::Inch) && twin.is_some() {
            out.push(place);
        }
    }
    if out.is_empty() {
        return;
    }
    let kept = |place: &usize| !out.contains(place);
    bones.sizes = (0..bones.sizes.len()).filter(kept).filter_map(|p| bones.sizes.get(p).cloned()).collect();
    for row in &mut bones.rows {
        row.cells = (0..row.cells.len()).filter(kept).filter_map(|p| row.cells.get(p).cloned()).collect();
    }
    bones.remarks.push("The columns in inches repeat the metric ones and are ignored.".to_owned());
}

/// One row for each figure.
pub(super) fn one_row_each(rows: &mut [Row], answers: &Answers, reading: &mut Reading) {
    let figures: BTreeSet<Figure> = rows.iter().filter_map(|r| r.reading.figure.map(|(f, _)| f)).collect();
    for figure in figures {
        let of_it: Vec<usize> = (0..rows.len()).filter(|i| is_of(rows.get(*i), figure)).collect();
        if of_it.len() < 2 {
            continue;
        }
        let kept = match agreeing(rows, &of_it) {
            Some(best) => Some(best),
            None => ask(rows, &of_it, figure, answers, reading),
        };
        for place in of_it {
            if Some(place) == kept {
                continue;
            }
            let agrees = kept.is_some_and(|k| agree(rows, k, place));
            let Some(row) = rows.get_mut(place) else { continue };
            row.reading.figure = None;
            row.reading.kept_as_note = !agrees;
            row.reading.remarks.push(if agrees {
                format!("This row repeats another row of {}.", figure.label())
            } else {
                format!("Another row of {} is used. This row is kept as a note.", figure.label())
            });
            for cell in &mut row.reading.cells {
                *cell = CellReading { text: std::mem::take(&mut cell.text), ..CellReading::default() };
            }
            row.fineness.fill(None);
        }
    }
}

fn is_of(row: Option<&Row>, figure: Figure) -> bool {
    row.is_some_and(|r| r.reading.figure.is_some_and(|(f, _)| f == figure))
}

/// The finest of rows that all say the same, and as much as any of them.
fn agreeing(rows: &[Row], of_it: &[usize]) -> Option<usize> {
    let step = |i: usize| rows.get(i).map_or(f64::INFINITY, coarsest);
    let count = |i: usize| rows.get(i).map_or(0, |r| r.reading.cells.iter().filter(|c| c.value.is_some()).count());
    let best = *of_it.iter().min_by(|a, b| count(**b).cmp(&count(**a)).then(step(**a).total_cmp(&step(**b))))?;
    of_it.iter().all(|other| agree(rows, best, *other)).then_some(best)
}

/// A row's own half step, mm or degrees, by its coarsest cell.
fn coarsest(row: &Row) -> f64 {
    row.fineness
        .iter()
        .flatten()
        .map(|p| {
            let own = match p.fineness {
                super::numeral::Fineness::Decimals(d) => 10f64.powi(-i32::from(d)),
                super::numeral::Fineness::Fraction(d) => 1.0 / f64::from(d),
                super::numeral::Fineness::Minutes => 1.0 / 60.0,
            };
            own * p.unit.factor() / 2.0
        })
        .fold(0.0, f64::max)
}

/// Whether two rows say the same within their rounding at every size that both print, and the first prints all that the
/// second does.
fn agree(rows: &[Row], first: usize, second: usize) -> bool {
    let (Some(a), Some(b)) = (rows.get(first), rows.get(second)) else { return false };
    let room = coarsest(a) + coarsest(b) + 1e-6;
    let room = if a.reading.unit == b.reading.unit { 1e-6 } else { room };
    a.reading.cells.iter().zip(&b.reading.cells).all(|(a, b)| match (a.value, b.value) {
        (Some(a), Some(b)) => (a - b).abs() <= room,
        (None, Some(_)) => false,
        (_, None) => b.problem.is_none(),
    })
}

fn ask(rows: &[Row], of_it: &[usize], figure: Figure, answers: &Answers, reading: &mut Reading) -> Option<usize> {
    let subject = Subject::Twice(figure);
    let answer = answers.chosen.get(&subject).copied();
    let words = |i: &usize| {
        rows.get(*i).map_or_else(String::new, |r| {
            let cells: Vec<&str> = r.reading.cells.iter().map(|c| c.text.as_str()).collect();
            format!("“{}”: {}", r.reading.label, cells.join(" | "))
        })
    };
    reading.questions.push(Question {
        subject,
        sentence: format!("{} rows are read as {} and differ. Which one is right?", of_it.len(), figure.label()),
        choices: of_it.iter().map(words).collect(),
        proposal: None,
        answer,
    });
    answer.and_then(|a| of_it.get(a)).copied()
}
