//! Cells of a figure's row become values: units said or fitting, the other decimal mark where only it makes sense,
//! ranges and merged cells as the user answers.

use super::cell_error::CellError;
use super::numeral::{Cell, DecimalMark, Numeral};
use super::question::{Question, Subject};
use super::reading::{Answers, Reading};
use super::row::{BothWays, Printed, Row, checked};
use super::skeleton::{RawRow, Skeleton};
use super::unit::Unit;
use crate::frameset::Figure;

/// How the table writes numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    pub(super) mark: DecimalMark,
    /// Of lengths that say none.
    pub(super) unit: Unit,
}

impl Scale {
    pub(super) fn of(self, both: &[Cell; 2]) -> &Cell {
        let [point, comma] = both;
        if self.mark == DecimalMark::Point { point } else { comma }
    }

    fn other_of(self, both: &[Cell; 2]) -> &Cell {
        let [point, comma] = both;
        if self.mark == DecimalMark::Point { comma } else { point }
    }
}

/// The unit that a cell's number is in, and whether anything says so.
pub(super) fn unit_of(
    bones: &Skeleton,
    row: &RawRow,
    place: usize,
    numeral: &Numeral,
    figure: Figure,
    scale: Scale,
    answers: &Answers,
) -> (Unit, bool) {
    if let Some(unit) = answers.units.get(&row.line) {
        return (*unit, true);
    }
    let column = bones.sizes.get(place).and_then(|s| s.unit).filter(|u| u.is_angle() == figure.is_angle());
    if let Some(unit) = numeral.unit.or(row.unit).or(column) {
        return (unit, true);
    }
    if figure.is_angle() {
        return (Unit::Degree, true);
    }
    bones.unit.map_or((scale.unit, false), |unit| (unit, true))
}

/// The value of a cell under a scale, if the figure can have it. A negative or small bottom bracket height may be a drop,
/// so both are believable there.
pub(super) fn believable(
    bones: &Skeleton,
    row: &RawRow,
    place: usize,
    both: &[Cell; 2],
    figure: Figure,
    scale: Scale,
    answers: &Answers,
) -> Option<f64> {
    let numerals: &[Numeral] = match scale.of(both) {
        Cell::Number(n) => &[*n],
        Cell::Range(a, b) => &[*a, *b],
        _ => return None,
    };
    let mut last = None;
    for numeral in numerals {
        let (unit, _) = unit_of(bones, row, place, numeral, figure, scale, answers);
        last = Some(
            checked(figure, numeral.value, unit)
                .or_else(|e| if figure == Figure::BbHeight { checked(Figure::BbDrop, numeral.value, unit) } else { Err(e) })
                .ok()?,
        );
    }
    last
}

/// Reads one row.
pub(super) struct RowReader<'a> {
    pub(super) bones: &'a Skeleton,
    pub(super) raw: &'a RawRow,
    pub(super) cells: &'a BothWays,
    pub(super) figure: Figure,
    pub(super) scale: Scale,
    pub(super) answers: &'a Answers,
}

impl RowReader<'_> {
    /// Fills the row's cells; `negate` turns the sign of every value.
    pub(super) fn read(&mut self, row: &mut Row, negate: bool, reading: &mut Reading) {
        self.settle_unit(row, reading);
        let range_end = self.range_end(reading);
        for place in 0..self.cells.len() {
            let Some(both) = self.cells.get(place) else { continue };
            let taken = match self.scale.of(both) {
                Cell::Blank | Cell::NotStated => continue,
                Cell::Range(a, b) => match range_end {
                    Some(0) => Ok(if a.value <= b.value { *a } else { *b }),
                    Some(1) => Ok(if a.value <= b.value { *b } else { *a }),
                    _ => Err(CellError::TwoValues),
                },
                Cell::Number(n) => Ok(*n),
                Cell::Words => self.by_other_mark(both, place, row),
            };
            let taken = taken.and_then(|numeral| self.value(numeral, both, place, negate, row));
            let Some(cell) = row.reading.cells.get_mut(place) else { continue };
            match taken {
                Ok((value, printed)) => {
                    cell.value = Some(value);
                    if let Some(slot) = row.fineness.get_mut(place) {
                        *slot = Some(printed);
                    }
                }
                Err(problem) => cell.problem = Some(problem.to_string()),
            }
        }
        self.merged(row, reading);
    }

    /// A text that is a number under the other mark only: `71,5` in a table with decimal points.
    fn by_other_mark(&self, both: &[Cell; 2], place: usize, row: &mut Row) -> Result<Numeral, CellError> {
        let Cell::Number(n) = self.scale.other_of(both) else { return Err(CellError::NotANumber) };
        let text = self.raw.cells.get(place).map_or("", String::as_str);
        row.reading.remarks.push(format!("“{text}” has another decimal mark than the table"));
        Ok(*n)
    }

    fn value(
        &self,
        numeral: Numeral,
        both: &[Cell; 2],
        place: usize,
        negate: bool,
        row: &mut Row,
    ) -> Result<(f64, Printed), CellError> {
        let sign = if negate { -1.0 } else { 1.0 };
        let read = |n: &Numeral| {
            let (unit, _) = self.unit(place, n);
            checked(self.figure, sign * n.value, unit)
                .map(|value| (value, Printed { fineness: n.fineness, value: n.value, unit }))
        };
        if numeral.approximate {
            row.reading.remarks.push("The value is published as approximate.".to_owned());
        }
        read(&numeral).or_else(|problem| {
            // 1.118 among decimal points is 1118, for nothing else is in range: a thousand, or metres, which is the same.
            let Cell::Number(other) = self.scale.other_of(both) else { return Err(problem) };
            let thousand = read(other).ok().filter(|_| *other != numeral).ok_or(problem)?;
            let text = self.raw.cells.get(place).map_or("", String::as_str);
            row.reading.remarks.push(format!("“{text}” can only be {}", thousand.0));
            Ok(thousand)
        })
    }

    fn unit(&self, place: usize, numeral: &Numeral) -> (Unit, bool) {
        unit_of(self.bones, self.raw, place, numeral, self.figure, self.scale, self.answers)
    }

    /// The unit of a row whose numbers say none and do not fit the table's: the one other unit that fits them all, or a
    /// question where several do.
    fn settle_unit(&mut self, row: &mut Row, reading: &mut Reading) {
        let numbers: Vec<(usize, Numeral)> = self
            .cells
            .iter()
            .enumerate()
            .filter_map(|(place, both)| match self.scale.of(both) {
                Cell::Number(n) | Cell::Range(n, _) => Some((place, *n)),
                _ => None,
            })
            .collect();
        let fits =
            |reader: &Self| numbers.iter().all(|(place, n)| checked(reader.figure, n.value, reader.unit(*place, n).0).is_ok());
        let unsaid = !self.figure.is_angle() && numbers.iter().any(|(place, n)| !self.unit(*place, n).1);
        if unsaid && !fits(self) && self.figure != Figure::BbHeight {
            let table = self.scale;
            let others: Vec<Unit> = Unit::UNSAID
                .into_iter()
                .filter(|unit| *unit != table.unit)
                .filter(|unit| {
                    self.scale.unit = *unit;
                    fits(self)
                })
                .collect();
            self.scale = table;
            match others.as_slice() {
                [] => {}
                [only] => {
                    self.scale.unit = *only;
                    row.reading.remarks.push(format!(
                        "Read as {}. As {} it would be out of range.",
                        only.label(),
                        table.unit.label()
                    ));
                }
                several => {
                    let subject = Subject::RowUnit(self.raw.line);
                    let answer = self.answers.chosen.get(&subject).copied();
                    reading.questions.push(Question {
                        subject,
                        sentence: format!(
                            "“{}” does not say its unit, and its numbers fit more than one. Which is it?",
                            self.raw.label
                        ),
                        choices: several.iter().map(|u| u.label().to_owned()).collect(),
                        proposal: None,
                        answer,
                    });
                    if let Some(unit) = answer.and_then(|a| several.get(a)) {
                        self.scale.unit = *unit;
                    }
                }
            }
        }
        row.reading.unit = numbers.first().map(|(place, n)| self.unit(*place, n).0);
    }

    /// Which end of the row's ranges is wanted: 0 the smaller, 1 the greater, 2 neither.
    fn range_end(&self, reading: &mut Reading) -> Option<usize> {
        let place = self.cells.iter().position(|both| matches!(self.scale.of(both), Cell::Range(..)))?;
        let subject = Subject::Range(self.raw.line);
        let answer = self.answers.chosen.get(&subject).copied();
        let text = self.raw.cells.get(place).map_or("", String::as_str);
        reading.questions.push(Question {
            subject,
            sentence: format!("“{}” gives two values for one size ({text}). Which one is wanted?", self.raw.label),
            choices: vec!["the smaller".to_owned(), "the larger".to_owned(), "neither: keep both as a note".to_owned()],
            proposal: None,
            answer,
        });
        answer
    }

    /// Blank cells after a value may be one merged cell over several sizes.
    fn merged(&self, row: &mut Row, reading: &mut Reading) {
        let is_blank = |place: usize| self.cells.get(place).is_some_and(|both| matches!(self.scale.of(both), Cell::Blank));
        let values = row.reading.cells.iter().filter(|c| c.value.is_some()).count();
        let blanks = (0..self.cells.len()).filter(|p| is_blank(*p)).count();
        let first_stands = row.reading.cells.first().is_some_and(|c| c.value.is_some());
        // One blank among many values is a size without that figure; blanks as many as values may be merged cells.
        if !first_stands || blanks == 0 || values + blanks < self.cells.len() || (values > 1 && blanks < values) {
            return;
        }
        let subject = Subject::Merged(self.raw.line);
        let answer = self.answers.chosen.get(&subject).copied();
        let first = row.reading.cells.first().map_or("", |c| c.text.as_str()).to_owned();
        let (sentence, proposal) = if values == 1 {
            (
                format!(
                    "“{}” gives {first} once and nothing for the other sizes. Is it one value for all of them?",
                    self.raw.label
                ),
                0,
            )
        } else {
            (format!("“{}” leaves some sizes blank after a value. Does the value before count for them?", self.raw.label), 1)
        };
        let question = Question {
            subject,
            sentence,
            choices: vec!["yes".to_owned(), "no, only where it is published".to_owned()],
            proposal: Some(proposal),
            answer,
        };
        if question.in_force() == Some(0) {
            let mut last = None;
            for place in 0..self.cells.len() {
                let Some(cell) = row.reading.cells.get_mut(place) else { continue };
                if cell.value.is_some() {
                    last = Some((cell.value, row.fineness.get(place).copied().flatten(), cell.text.clone()));
                } else if let (true, Some((value, printed, text))) = (is_blank(place), &last) {
                    cell.value = *value;
                    cell.text.clone_from(text);
                    if let Some(slot) = row.fineness.get_mut(place) {
                        *slot = *printed;
                    }
                }
            }
        }
        reading.questions.push(question);
    }
}
