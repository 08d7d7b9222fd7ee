//! Lines of a specification list read, one after the other: what the label names, what the user assigned, what the text
//! says, and what is asked.

use super::super::fold::fold;
use super::super::names::{Meaning, find_exact};
use super::super::question::{Question, Subject};
use super::super::reading::{Answers, Reading, RowReading};
use super::super::unit::bracketed;
use super::field::{SpecificationField, field_of};
use super::lines::{SpecificationLine, field_named, field_of_line};
use super::prices::{prices_in, tax_in};
use super::standards::{self, Taken};
use super::tyre_clearance::{rim_named, tyres_in};
use super::weights::{part_of, weight, weights_in};
use super::{SpecificationFact, SpecificationRow};
use crate::frameset::{Part, Price, Standard};
use crate::units::CurrencyMark;

/// Numbers of lines that were rows of the table: after those of the text.
const OF_TABLE: usize = 1_000_000;

const PARTS: [Part; 3] = [Part::Frame, Part::Frameset, Part::Fork];

/// Rows of the table that are lines of a specification are taken out of the reading's rows.
pub(in super::super) fn rows_of_table(reading: &mut Reading) -> Vec<SpecificationLine> {
    let sizes: Vec<String> = reading.sizes.iter().map(|s| s.label.clone()).collect();
    let mut lines = Vec::new();
    let mut kept: Vec<RowReading> = Vec::new();
    for row in std::mem::take(&mut reading.rows) {
        let is_line = row.figure.is_none()
            && row.kept_as_note
            && !reading.answers.assigned.contains_key(&row.line)
            && !reading.questions.iter().any(|q| q.subject == Subject::Meaning(row.line))
            && field_named(&row.label).is_some()
            && row.cells.iter().any(|c| !c.text.is_empty());
        if !is_line {
            kept.push(row);
            continue;
        }
        let cells: Vec<(Option<String>, String)> = sizes
            .iter()
            .zip(&row.cells)
            .filter(|(_, cell)| !cell.text.is_empty())
            .map(|(size, cell)| (Some(size.clone()), cell.text.clone()))
            .collect();
        lines.push(SpecificationLine { line: OF_TABLE + row.line, label: row.label, cells: for_all(cells, sizes.len()) });
    }
    reading.rows = kept;
    lines
}

/// One text where all sizes say the same, or where the first alone says something: a merged cell.
fn for_all(cells: Vec<(Option<String>, String)>, sizes: usize) -> Vec<(Option<String>, String)> {
    let Some((_, first)) = cells.first() else { return cells };
    let same = cells.iter().all(|(_, text)| text == first);
    if same && sizes > 1 && cells.len() == sizes { vec![(None, first.clone())] } else { cells }
}

/// Reads all lines; adds their questions.
pub(in super::super) fn read_lines(lines: &[SpecificationLine], answers: &Answers, reading: &mut Reading) {
    let sizes = sizes_of(lines, reading);
    let wheel = wheel_of(reading);
    let mut rows: Vec<SpecificationRow> = Vec::new();
    for line in lines {
        let mut row = read_line(line, (&sizes, wheel), answers, &mut reading.questions);
        settle(&mut row, &rows, reading);
        rows.push(row);
    }
    reading.specification = rows;
}

/// The sizes' labels: of the table, else of a line that lists them.
fn sizes_of(lines: &[SpecificationLine], reading: &Reading) -> Vec<String> {
    if !reading.sizes.is_empty() {
        return reading.sizes.iter().map(|s| s.label.clone()).collect();
    }
    lines
        .iter()
        .find(|l| field_of(&l.label) == Some(SpecificationField::Sizes))
        .map_or_else(Vec::new, |line| line.cells.iter().flat_map(|(_, text)| listed(text)).collect())
}

fn listed(text: &str) -> Vec<String> {
    let separator: &[char] = if text.contains([',', ';', '/', '|']) { &[',', ';', '/', '|'] } else { &[' '] };
    text.split(separator).map(|s| s.trim().to_owned()).filter(|s| !s.is_empty()).collect()
}

fn read_line(
    line: &SpecificationLine,
    (sizes, wheel): (&[String], Option<u32>),
    answers: &Answers,
    questions: &mut Vec<Question>,
) -> SpecificationRow {
    let assigned = answers.specification.get(&line.line);
    let value = line.cells.first().map_or("", |(_, text)| text.as_str());
    let field = assigned.copied().unwrap_or_else(|| field_of_line(&line.label, value));
    // What stands in brackets behind a label that is known without it.
    let aside = if field_of(&line.label).is_some() { None } else { bracketed(&line.label).map(|(_, inside, _)| inside.trim()) };
    let text = text_of(line);
    let taken = match field {
        None => Taken { keep_text: true, ..Taken::default() },
        Some(SpecificationField::Weight(part)) => read_weights(line, part, aside, sizes, answers, questions),
        Some(SpecificationField::Price(part)) => read_prices(line, part, aside, answers, questions),
        Some(_) if line.cells.iter().any(|(_, t)| *t != line.cells.first().map_or("", |c| c.1.as_str())) => {
            Taken::nothing("This differs between sizes. A frameset has one for all its sizes, so it is kept as a note.")
        }
        Some(SpecificationField::Standard(standard @ (Standard::WidestTyre | Standard::WidestFrontTyre))) => {
            read_clearance(line, standard, aside, wheel, answers, questions)
        }
        Some(field) => read_text(field, value, aside),
    };
    SpecificationRow {
        line: line.line,
        label: line.label.clone(),
        text,
        field,
        kept_as_note: taken.keep_text || taken.facts.is_empty(),
        facts: taken.facts,
        remarks: taken.remarks,
    }
}

/// A line's text, with the sizes where they differ.
fn text_of(line: &SpecificationLine) -> String {
    let texts = line.cells.iter().map(|(size, text)| match size {
        Some(size) => format!("{size} {text}"),
        None => text.clone(),
    });
    texts.collect::<Vec<_>>().join("; ")
}

/// The bead seat diameter of the wheel that the table names, mm: by its tyre, else by its row of wheels.
fn wheel_of(reading: &Reading) -> Option<u32> {
    let by_tyre = reading.tyre.map(|tyre| u32::from(tyre.bead_seat()));
    by_tyre.or_else(|| {
        let row = reading.rows.iter().find(|row| find_exact(&row.label).is_some_and(|found| found.meaning == Meaning::Wheel))?;
        let mut named = row.cells.iter().filter(|cell| !cell.text.is_empty()).map(|cell| rim_named(&cell.text.to_lowercase()));
        let first = named.next()??;
        named.all(|other| other == Some(first)).then_some(first)
    })
}

/// A text with what stands in brackets behind its label.
fn with_aside(text: &str, aside: Option<&str>) -> String {
    match aside {
        Some(aside) if !matches!(fold(aside).as_str(), "mm" | "") => format!("{text} ({aside})"),
        _ => text.to_owned(),
    }
}

/// The widest tyres; which wheel is asked where widths name none.
fn read_clearance(
    line: &SpecificationLine,
    standard: Standard,
    aside: Option<&str>,
    wheel: Option<u32>,
    answers: &Answers,
    questions: &mut Vec<Question>,
) -> Taken {
    let text = with_aside(line.cells.first().map_or("", |(_, text)| text.as_str()), aside);
    if tyres_in(&text, None).is_some() || tyres_in(&text, Some(WHEELS[0].0)).is_none() {
        return standards::clearance(standard, &text, None);
    }
    let subject = Subject::Wheel(line.line);
    let mut choices: Vec<String> = WHEELS.iter().map(|(_, words)| (*words).to_owned()).collect();
    choices.push("keep the text as published".to_owned());
    let known = WHEELS.iter().position(|(bead_seat, _)| Some(*bead_seat) == wheel);
    let question = Question {
        answer: answers.chosen.get(&subject).copied(),
        subject,
        sentence: format!("“{}: {text}” does not name the wheel. Which is it?", line.label),
        proposal: Some(known.unwrap_or(WHEELS.len())),
        choices,
    };
    let chosen = question.in_force().and_then(|choice| WHEELS.get(choice)).map(|(bead_seat, _)| *bead_seat);
    questions.push(question);
    standards::clearance(standard, &text, chosen)
}

/// Wheels that a width may be for, by bead seat diameter, mm, with their trade names (trade practice, unverified).
const WHEELS: [(u32, &str); 3] = [(622, "700C or 29 in"), (584, "650B or 27.5 in"), (559, "26 in (559)")];

fn read_text(field: SpecificationField, text: &str, aside: Option<&str>) -> Taken {
    let with_aside = with_aside(text, aside);
    let text = with_aside.as_str();
    match field {
        SpecificationField::Standard(standard) => standards::standard(standard, text),
        SpecificationField::Axles => standards::axles(text),
        SpecificationField::Brakes => standards::brakes(text),
        SpecificationField::Headsets => standards::headsets(text),
        SpecificationField::Fork => standards::fork(text),
        SpecificationField::Tubing => standards::tubing(text),
        SpecificationField::Year => match text.trim().parse::<i32>() {
            Ok(year) if (1900..2200).contains(&year) => Taken { facts: vec![SpecificationFact::Year(year)], ..Taken::default() },
            _ => Taken::nothing("This is not a year, such as 2026."),
        },
        SpecificationField::Sizes => {
            Taken { facts: listed(text).into_iter().map(SpecificationFact::Size).collect(), ..Taken::default() }
        }
        SpecificationField::Weight(_) | SpecificationField::Price(_) => Taken::default(),
    }
}

/// The part of a weight or price that none is said of: a question.
fn ask_part(
    line: &SpecificationLine,
    what: &str,
    proposal: Option<usize>,
    answers: &Answers,
    questions: &mut Vec<Question>,
) -> Option<Part> {
    let subject = Subject::Part(line.line);
    let question = Question {
        answer: answers.chosen.get(&subject).copied(),
        subject,
        sentence: format!("“{}: {}” does not say what the {what} is of. Which is it?", line.label, text_of(line)),
        choices: vec!["the frame".to_owned(), "frame and fork".to_owned(), "the fork".to_owned(), "keep it as a note".to_owned()],
        proposal,
    };
    let part = question.in_force().and_then(|choice| PARTS.get(choice)).copied();
    questions.push(question);
    part
}

fn read_weights(
    line: &SpecificationLine,
    part: Option<Part>,
    aside: Option<&str>,
    sizes: &[String],
    answers: &Answers,
    questions: &mut Vec<Question>,
) -> Taken {
    let unit = aside.filter(|a| matches!(fold(a).as_str(), "g" | "kg" | "lb" | "lbs"));
    let mut taken = Taken::default();
    let mut asked = None;
    for (size, text) in &line.cells {
        let text = match aside {
            Some(aside) if unit.is_none() => format!("{text} ({aside})"),
            _ => text.clone(),
        };
        let found = weights_in(&text, unit, size.as_ref(), sizes);
        taken.keep_text |= found.weights.is_empty() || !found.problems.is_empty();
        taken.remarks.extend(found.problems);
        for found in found.weights {
            let part = found.part.filter(|_| part.is_none()).or(part).or_else(|| part_of(&line.label));
            let part = part.or_else(|| *asked.get_or_insert_with(|| ask_part(line, "weight", None, answers, questions)));
            match part {
                Some(part) => taken.facts.push(SpecificationFact::Weight(weight(found, part))),
                None => taken.keep_text = true,
            }
        }
    }
    if taken.facts.is_empty() && taken.remarks.is_empty() && asked.is_none() {
        taken.remarks.push("No weight with its unit was found, such as 2.3 kg.".to_owned());
    }
    taken
}

fn read_prices(
    line: &SpecificationLine,
    part: Option<Part>,
    aside: Option<&str>,
    answers: &Answers,
    questions: &mut Vec<Question>,
) -> Taken {
    let [(_, text)] = line.cells.as_slice() else {
        return Taken::nothing("Prices differ between sizes. They are kept as a note, because a price is for all sizes.");
    };
    let found = match prices_in(text, aside) {
        Ok(found) => found,
        Err(why) => return Taken::nothing(why),
    };
    let told = format!("{} {text}", line.label);
    let (tax, tax_percent) = tax_in(&told);
    let part = part.or_else(|| part_of(&told)).or_else(|| ask_part(line, "price", Some(1), answers, questions));
    let Some(part) = part else { return Taken { keep_text: true, ..Taken::default() } };
    let mut taken = Taken::default();
    for price in found {
        let currency = match price.currency {
            CurrencyMark::Is(currency) => Some(currency),
            CurrencyMark::OneOf(sign, currencies) => {
                let subject = Subject::Currency(line.line);
                let question = Question {
                    answer: answers.chosen.get(&subject).copied(),
                    subject,
                    sentence: format!(
                        "“{}: {text}” has the sign {sign}, which several currencies share. Which is it?",
                        line.label
                    ),
                    choices: currencies.iter().map(|c| c.code().to_owned()).collect(),
                    proposal: (sign != "kr").then_some(0),
                };
                let chosen = question.in_force().and_then(|choice| currencies.get(choice)).copied();
                questions.push(question);
                chosen
            }
        };
        let Some(currency) = currency else {
            taken.keep_text = true;
            continue;
        };
        taken.facts.push(SpecificationFact::Price(Price {
            part,
            amount: price.amount,
            currency: currency.code().to_owned(),
            tax,
            tax_percent: tax_percent.clone(),
            on: None,
        }));
    }
    taken
}

/// What an earlier line says already is not said twice; what contradicts it is kept as a note.
fn settle(row: &mut SpecificationRow, earlier: &[SpecificationRow], reading: &Reading) {
    let before: Vec<&SpecificationFact> = earlier.iter().flat_map(|r| &r.facts).collect();
    let mut repeats = false;
    let mut contradicts = false;
    row.facts.retain(|fact| {
        let other = before.iter().find(|other| is_about_the_same(fact, other));
        repeats |= other.is_some_and(|other| **other == *fact);
        contradicts |= other.is_some_and(|other| **other != *fact);
        other.is_none()
    });
    if repeats {
        row.remarks.push("This repeats an earlier line.".to_owned());
    }
    if contradicts {
        row.remarks.push("An earlier line says something else and is used. This line is kept as a note.".to_owned());
        row.kept_as_note = true;
    }
    // A fork of a table's figures keeps its own; sizes of the table are its own.
    if row.field == Some(SpecificationField::Sizes) && !reading.sizes.is_empty() {
        let known = |fact: &SpecificationFact| matches!(fact, SpecificationFact::Size(size) if reading.sizes.iter().any(|s| fold(&s.label) == fold(size)));
        let all = row.facts.iter().all(known);
        row.facts.clear();
        row.kept_as_note = !all;
        row.remarks.push(if all {
            "This repeats the sizes of the table.".to_owned()
        } else {
            "The table has other sizes. This line is kept as a note.".to_owned()
        });
    }
}

fn is_about_the_same(a: &SpecificationFact, b: &SpecificationFact) -> bool {
    match (a, b) {
        (SpecificationFact::Weight(a), SpecificationFact::Weight(b)) => a.part == b.part && a.size == b.size,
        (SpecificationFact::Price(a), SpecificationFact::Price(b)) => a.part == b.part && a.currency == b.currency,
        (SpecificationFact::Standard(a, _), SpecificationFact::Standard(b, _)) => a == b,
        (SpecificationFact::Size(a), SpecificationFact::Size(b)) => a == b,
        (SpecificationFact::Fork(_), SpecificationFact::Fork(_))
        | (SpecificationFact::Tubing(_), SpecificationFact::Tubing(_))
        | (SpecificationFact::Year(_), SpecificationFact::Year(_)) => true,
        _ => false,
    }
}
