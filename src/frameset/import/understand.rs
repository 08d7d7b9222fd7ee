//! The table read: of all ways to cut and lay it, the one in which most cells are believable figures; then rows, units,
//! decimals, sizes, steps.
//!
//! Invariant: a pure function of the text and the answers, so that an undone answer undoes all that followed from it.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::grid::{Grid, Separator};
use super::names::Language;
use super::question::{Question, Subject};
use super::reading::{Answers, Layout, Orientation, Reading, Source};
use super::skeleton::{self, Skeleton};
use super::{figures, settle, size_order, specification, steps, tyres};
use crate::frameset::RoundedTo;

/// The best reading of the source under the user's answers.
pub(super) fn understand(source: &Arc<Source>, answers: &Answers) -> Reading {
    let none = Answers::default();
    let mut ranked: Vec<(usize, Reading)> = Vec::new();
    for (index, layout) in source.layouts.iter().enumerate() {
        // The choice of layout is judged on the table alone; answers are about the rows of the chosen one.
        ranked.push((index, read_layout(source, layout, &none)));
    }
    ranked.sort_by_key(|(index, reading)| (std::cmp::Reverse(worth(reading)), *index));
    let top = ranked.first().map_or(0, |(_, r)| worth(r));
    let tied: Vec<usize> = ranked.iter().filter(|(_, r)| worth(r) == top && top > 0).map(|(i, _)| *i).collect();
    let distinct = distinct_readings(&ranked, &tied);
    let question = (distinct.len() > 1).then(|| layout_question(source, &distinct, answers));
    let chosen = question
        .as_ref()
        .and_then(|q| q.answer)
        .and_then(|choice| distinct.get(choice).copied())
        .or_else(|| ranked.first().map(|(i, _)| *i));
    let Some(layout) = chosen.and_then(|i| source.layouts.get(i)) else {
        let mut reading = nothing(source, answers);
        read_specification(source, answers, &mut reading);
        return reading;
    };
    let mut reading = if *answers == none {
        ranked.into_iter().find(|(i, _)| Some(*i) == chosen).map_or_else(|| nothing(source, answers), |(_, r)| r)
    } else {
        read_layout(source, layout, answers)
    };
    if let Some(question) = question {
        reading.questions.insert(0, question);
    }
    read_specification(source, answers, &mut reading);
    reading
}

/// The lines of a specification list, of the text and of the table.
fn read_specification(source: &Source, answers: &Answers, reading: &mut Reading) {
    if reading.rows.iter().all(|r| r.figure.is_none()) && reading.questions.is_empty() && !source.specification.is_empty() {
        // No table: what is left of the text are notes.
        reading.sizes.clear();
        reading.rows.clear();
        reading.lines.clone_from(&source.other_lines);
    }
    let mut lines = specification::rows_of_table(reading);
    lines.splice(0..0, source.specification.iter().cloned());
    specification::read_lines(&lines, answers, reading);
}

/// How much of a table a reading makes sense of: values taken, less cells that could not be.
fn worth(reading: &Reading) -> i64 {
    let count = |f: &dyn Fn(&super::CellReading) -> bool| {
        let cells = reading.rows.iter().filter(|r| r.figure.is_some()).flat_map(|r| &r.cells).filter(|c| f(c)).count();
        i64::try_from(cells).unwrap_or(i64::MAX)
    };
    let asked = reading.questions.iter().filter(|q| matches!(q.subject, Subject::Meaning(_))).count();
    4 * count(&|c| c.value.is_some()) - count(&|c| c.problem.is_some()) + i64::try_from(asked).unwrap_or(0)
}

/// Of the tied layouts, those that read differently.
fn distinct_readings(ranked: &[(usize, Reading)], tied: &[usize]) -> Vec<usize> {
    let mut kept: Vec<(usize, &Reading)> = Vec::new();
    for (index, reading) in ranked.iter().filter(|(i, _)| tied.contains(i)) {
        if kept.iter().all(|(_, other)| !same_figures(other, reading)) {
            kept.push((*index, reading));
        }
    }
    kept.into_iter().map(|(i, _)| i).collect()
}

fn same_figures(a: &Reading, b: &Reading) -> bool {
    let figures = |r: &Reading| {
        let mut all: Vec<(usize, String, u64)> = Vec::new();
        for row in &r.rows {
            let Some((figure, _)) = row.figure else { continue };
            for (cell, size) in row.cells.iter().zip(&r.sizes) {
                if let Some(value) = cell.value {
                    all.push((figure as usize, size.label.clone(), value.to_bits()));
                }
            }
        }
        all.sort();
        all
    };
    figures(a) == figures(b)
}

fn layout_question(source: &Source, layouts: &[usize], answers: &Answers) -> Question {
    let words = |layout: &Layout| {
        let lies = match layout.orientation {
            Orientation::FiguresDown => "one row per figure",
            Orientation::SizesDown => "one row per size",
        };
        match &layout.sheet {
            Some(sheet) => format!("sheet “{sheet}”, {lies}"),
            None => format!("separated by {}, {lies}", layout.separator.label()),
        }
    };
    let sheets = layouts.iter().filter_map(|i| source.layouts.get(*i)).any(|l| l.sheet.is_some());
    Question {
        subject: Subject::Layout,
        sentence: if sheets {
            "Several tables were found. Which one is right?".to_owned()
        } else {
            "The table can be read in more than one way. Which is right?".to_owned()
        },
        choices: layouts.iter().filter_map(|i| source.layouts.get(*i)).map(words).collect(),
        proposal: None,
        answer: answers.chosen.get(&Subject::Layout).copied(),
    }
}

fn nothing(source: &Arc<Source>, answers: &Answers) -> Reading {
    Reading {
        separator: Separator::Tab,
        orientation: Orientation::FiguresDown,
        decimal_mark: None,
        length_unit: None,
        languages: Vec::new(),
        sizes: Vec::new(),
        rows: Vec::new(),
        specification: Vec::new(),
        lines: Vec::new(),
        rounded_to: RoundedTo::default(),
        steps: BTreeMap::new(),
        tyre: None,
        front_tyre: None,
        questions: Vec::new(),
        remarks: source.remarks.clone(),
        source: Arc::clone(source),
        answers: answers.clone(),
    }
}

fn read_layout(source: &Arc<Source>, layout: &Layout, answers: &Answers) -> Reading {
    let mut reading = nothing(source, answers);
    reading.separator = layout.separator;
    reading.orientation = layout.orientation;
    let (grid, cuts) = recut(&layout.grid, answers);
    let grid = if layout.orientation == Orientation::SizesDown { grid.turned() } else { grid };
    let Some(mut bones) = skeleton::skeleton(&grid) else { return reading };
    settle::metric_columns(&mut bones);
    reading.questions.extend(cuts);
    reading.lines.clone_from(&bones.lines);
    reading.remarks.extend(bones.remarks.iter().cloned());
    reading.languages = languages(&bones);
    size_order::name_sizes(&bones, answers, &mut reading);
    let mut rows = figures::read_rows(&bones, answers, &mut reading);
    settle::one_row_each(&mut rows, answers, &mut reading);
    tyres::read_tyres(&bones, &mut rows, answers, &mut reading);
    steps::rounded_to(&rows, answers, &mut reading);
    steps::tell(&mut rows, &reading);
    reading.rows = rows.into_iter().map(|row| row.reading).collect();
    size_order::put_in_order(&mut reading);
    reading
}

/// Lines that can be cut in several ways, cut as the user said.
fn recut(grid: &Grid, answers: &Answers) -> (Grid, Vec<Question>) {
    let mut grid = grid.clone();
    let mut questions = Vec::new();
    let cuts = std::mem::take(&mut grid.other_cuts);
    for (line, ways) in cuts {
        let subject = Subject::Cut(line);
        let answer = answers.chosen.get(&subject).copied();
        if let Some(row) = answer.and_then(|choice| ways.get(choice)) {
            let width = grid.width();
            if let Some(slot) = grid.cells.get_mut(line) {
                slot.clone_from(row);
                slot.resize(width, String::new());
            }
        }
        let label = ways.first().and_then(|w| w.first()).cloned().unwrap_or_default();
        questions.push(Question {
            subject,
            sentence: format!("“{label}” has commas between cells and before decimals. Which cells are meant?"),
            choices: ways.iter().map(|w| w.get(1..).unwrap_or_default().join(" | ")).collect(),
            proposal: None,
            answer,
        });
    }
    (grid, questions)
}

fn languages(bones: &Skeleton) -> Vec<Language> {
    let mut tally = BTreeMap::<Language, usize>::new();
    for found in bones.rows.iter().filter_map(|r| r.found.as_ref()) {
        *tally.entry(found.language).or_default() += 1;
    }
    let mut languages: Vec<(Language, usize)> = tally.into_iter().collect();
    languages.sort_by_key(|(language, times)| (std::cmp::Reverse(*times), *language));
    languages.into_iter().map(|(l, _)| l).collect()
}
