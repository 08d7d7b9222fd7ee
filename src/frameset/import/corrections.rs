//! What the user says about a table: answers to questions, other figures, units, names and steps. Each reads it anew.

use std::sync::Arc;

use super::ImportError;
use super::question::Subject;
use super::reading::{Answers, Reading, Source, Stated};
use super::specification::SpecificationField;
use super::understand::understand;
use super::unit::Unit;
use crate::frameset::{Figure, RoundedTo, TyreSize};

impl Reading {
    /// Answers a question with one of its choices (from 0). A question or choice that is not there changes nothing.
    pub fn answer(&mut self, subject: &Subject, choice: usize) {
        let exists = self.questions.iter().any(|q| q.subject == *subject && choice < q.choices.len());
        if exists {
            if *subject == Subject::Layout {
                // Rows and sizes of another layout are others.
                self.answers = Answers { rounded_to: self.answers.rounded_to, tyre: self.answers.tyre, ..Answers::default() };
            }
            self.answers.chosen.insert(subject.clone(), choice);
            self.anew();
        }
    }

    /// Takes the row for that figure, or for none: then it is kept as a note.
    pub fn assign(&mut self, line: usize, figure: Option<Figure>) {
        self.answers.assigned.insert(line, figure);
        self.answers.chosen.remove(&Subject::Meaning(line));
        self.anew();
    }

    /// Takes a line of a specification list for that field, or for none: then it is kept as a note.
    pub fn assign_specification(&mut self, line: usize, field: Option<SpecificationField>) {
        self.answers.specification.insert(line, field);
        self.answers.chosen.remove(&Subject::Part(line));
        self.answers.chosen.remove(&Subject::Currency(line));
        self.anew();
    }

    /// Says what unit the row's numbers are in.
    pub fn set_unit(&mut self, line: usize, unit: Unit) {
        self.answers.units.insert(line, unit);
        self.anew();
    }

    /// Names the size in that column of the table.
    pub fn name_size(&mut self, column: usize, label: &str) {
        self.answers.labels.insert(column, label.trim().to_owned());
        self.anew();
    }

    /// Leaves the size in that column out, or takes it in again.
    pub fn leave_out_size(&mut self, column: usize, left_out: bool) {
        self.answers.left_out.insert(column, left_out);
        self.anew();
    }

    /// Corrects to which step the table is printed, mm and degrees. Steps that are not above 0 are ignored.
    pub fn set_rounded_to(&mut self, rounded_to: RoundedTo) {
        if rounded_to.mm > 0.0 && rounded_to.deg > 0.0 && rounded_to.mm <= 50.0 && rounded_to.deg <= 50.0 {
            self.answers.rounded_to = Some(rounded_to);
            self.anew();
        }
    }

    /// Corrects to which step one figure is printed, mm or degrees. A step that is not above 0 is ignored.
    pub fn set_step(&mut self, figure: Figure, step: f64) {
        if step > 0.0 && step <= 50.0 {
            self.answers.steps.insert(figure, step);
            self.anew();
        }
    }

    /// States the tyre, or that none is stated.
    pub fn set_tyre(&mut self, tyre: Option<TyreSize>) {
        self.answers.tyre = Stated::ByUser(tyre);
        self.anew();
    }

    fn anew(&mut self) {
        *self = understand(&self.source, &self.answers);
    }

    /// Reads the source for the first time.
    pub(super) fn first(source: Source) -> Result<Self, ImportError> {
        let has_list = !source.specification.is_empty();
        if source.layouts.is_empty() && !has_list {
            return Err(ImportError::NotATable);
        }
        let reading = understand(&Arc::new(source), &Answers::default());
        let states_something = reading.specification.iter().any(|row| row.field.is_some());
        if !states_something
            && reading.rows.iter().all(|r| r.figure.is_none())
            && reading.questions.iter().all(|q| !matches!(q.subject, Subject::Meaning(_)))
        {
            return Err(ImportError::NoFigures);
        }
        Ok(reading)
    }
}
