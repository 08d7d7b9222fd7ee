//! What was understood of a table, as a text for people.

use std::fmt::Write;

use super::question::Question;
use super::reading::{Orientation, Reading, RowReading};
use super::specification::SpecificationRow;
use super::{DecimalMark, Language, Unit};

/// The report: how the table was read, every row, every question with its choices (numbered from 1, the one in force
/// marked), and what is kept as a note.
#[must_use]
pub fn report(reading: &Reading) -> String {
    let mut out = String::new();
    // Writing to a text cannot fail.
    let _ = write_report(&mut out, reading);
    out
}

/// Values that were not taken, a sentence each with its size and row: what is wrong, and what it probably is.
#[must_use]
pub fn problems(reading: &Reading) -> Vec<String> {
    let mut all = Vec::new();
    for row in reading.rows.iter().filter(|row| row.figure.is_some()) {
        for (cell, size) in row.cells.iter().zip(&reading.sizes) {
            if let Some(problem) = &cell.problem {
                all.push(format!("{}, size {}, {}: {problem}; kept as a note", row.label, size.label, cell.text));
            }
        }
    }
    all
}

fn write_report(out: &mut String, reading: &Reading) -> std::fmt::Result {
    if reading.rows.is_empty() {
        writeln!(out, "No geometry table; a specification list")?;
    } else {
        writeln!(out, "Table: {}", table_in_words(reading))?;
    }
    let sizes: Vec<String> =
        reading.sizes.iter().map(|s| if s.left_out { format!("{} (left out)", s.label) } else { s.label.clone() }).collect();
    writeln!(out, "Sizes: {}", sizes.join(", "))?;
    writeln!(out, "Rounded to: {} mm, {}°", reading.rounded_to.mm, reading.rounded_to.deg)?;
    if let Some(tyre) = reading.tyre {
        writeln!(out, "Tyre: {tyre}")?;
    }
    if let Some(tyre) = reading.front_tyre {
        writeln!(out, "Front tyre: {tyre}")?;
    }
    for remark in &reading.remarks {
        writeln!(out, "Note: {remark}")?;
    }
    if !reading.rows.is_empty() {
        writeln!(out, "\nRows:")?;
    }
    for row in &reading.rows {
        write_row(out, reading, row)?;
    }
    if !reading.specification.is_empty() {
        writeln!(out, "\nSpecification:")?;
    }
    for row in &reading.specification {
        write_specification(out, row)?;
    }
    if !reading.questions.is_empty() {
        writeln!(out, "\nQuestions:")?;
        for (number, question) in reading.questions.iter().enumerate() {
            write_question(out, number + 1, question)?;
        }
    }
    let notes = reading.notes();
    if !notes.is_empty() {
        writeln!(out, "\nKept as a note:")?;
        for note in notes {
            writeln!(out, "  {note}")?;
        }
    }
    Ok(())
}

fn table_in_words(reading: &Reading) -> String {
    let mut words = vec![
        format!("cells separated by {}", reading.separator.label()),
        match reading.orientation {
            Orientation::FiguresDown => "one row per figure".to_owned(),
            Orientation::SizesDown => "one row per size".to_owned(),
        },
    ];
    match reading.decimal_mark {
        Some(DecimalMark::Point) => words.push("decimal points".to_owned()),
        Some(DecimalMark::Comma) => words.push("decimal commas".to_owned()),
        None => {}
    }
    if let Some(unit) = reading.length_unit {
        words.push(format!("lengths in {}", unit.plural()));
    }
    if let Some(language) = reading.languages.first() {
        words.push(format!("labels in {}", language_label(*language)));
    }
    words.join(", ")
}

fn language_label(language: Language) -> &'static str {
    match language {
        Language::English => "English",
        Language::German => "German",
        Language::French => "French",
        Language::Spanish => "Spanish",
        Language::Italian => "Italian",
        Language::Dutch => "Dutch",
    }
}

fn write_row(out: &mut String, reading: &Reading, row: &RowReading) -> std::fmt::Result {
    let label = if row.label.is_empty() { "(no label)" } else { &row.label };
    match row.figure {
        Some((figure, likeness)) => {
            let unit = row.unit.map_or("", Unit::conversion);
            write!(out, "  {label} → {} [{unit}]", figure.label())?;
            if likeness < 1.0 {
                write!(out, " (match {likeness:.2})")?;
            }
            let values: Vec<String> = row
                .cells
                .iter()
                .map(|cell| match (cell.value, &cell.problem) {
                    (Some(value), _) => value.to_string(),
                    (None, Some(_)) => format!("({})", cell.text),
                    (None, None) => "–".to_owned(),
                })
                .collect();
            write!(out, ": {}", values.join(", "))?;
            if let Some(step) = row.step {
                write!(out, "; to {step}{}", if figure.is_angle() { "°" } else { " mm" })?;
            }
            writeln!(out)?;
        }
        None if row.kept_as_note => writeln!(out, "  {label} → kept as a note")?,
        None => writeln!(out, "  {label} → read together with the figures")?,
    }
    for remark in &row.remarks {
        writeln!(out, "      {remark}")?;
    }
    for (cell, size) in row.cells.iter().zip(&reading.sizes) {
        if let Some(problem) = &cell.problem {
            writeln!(out, "      {}, {}: {problem}; kept as a note", size.label, cell.text)?;
        }
    }
    Ok(())
}

fn write_specification(out: &mut String, row: &SpecificationRow) -> std::fmt::Result {
    let facts: Vec<String> = row.facts.iter().map(super::SpecificationFact::text).collect();
    let read = if facts.is_empty() { "kept as a note".to_owned() } else { facts.join("; ") };
    writeln!(out, "  {}: {} → {read}", row.label, row.text)?;
    for remark in &row.remarks {
        writeln!(out, "      {remark}")?;
    }
    Ok(())
}

fn write_question(out: &mut String, number: usize, question: &Question) -> std::fmt::Result {
    let state = if question.is_open() {
        " (must be answered)"
    } else if question.answer.is_none() {
        " (usual choice)"
    } else {
        ""
    };
    writeln!(out, "  {number}. {}{state}", question.sentence)?;
    for (choice, words) in question.choices.iter().enumerate() {
        let mark = if question.in_force() == Some(choice) { "→" } else { " " };
        writeln!(out, "    {mark} {number}={}: {words}", choice + 1)?;
    }
    Ok(())
}
