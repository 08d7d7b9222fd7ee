//! `spandrel figures`: reads and adjusts on all cores, writes in the order of the files, a batch at a time so that ten
//! thousand files need no more memory than a few hundred.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::Args;
use rayon::prelude::*;

use super::columns::in_columns;
use super::numbers::rounded;
use super::overview_json::OverviewColumns;
use super::{fit_json, json, price_and_climb_text};
use spandrel::disk::{FileProblem, Loaded, load_argument};
use spandrel::frameset::FrameIndex;
use spandrel::frameset::{Figure, Frameset};
use spandrel::geometry::{Adjusted, AdjustedSize, adjust, settled_by};
use spandrel::lineup::{Findings, Lineup};
use spandrel::parts::Statements;
use spandrel::publish::{LineEnd, csv_line, markdown_text};
use spandrel::units::{System, THIN_SPACE, visible};
use spandrel::words::check::unknown_texts;
use spandrel::words::{doubt_text, no_fit, settling_text};

/// What `figures` takes.
#[derive(Debug, Args)]
pub(crate) struct FiguresArguments {
    /// Frame files and line-ups. `-` reads standard input.
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// JSON, documented in docs/json.md.
    #[arg(long, conflicts_with_all = ["csv", "markdown"])]
    json: bool,
    /// Comma-separated values, one figure per line.
    #[arg(long, conflicts_with = "markdown")]
    csv: bool,
    /// Markdown tables.
    #[arg(long)]
    markdown: bool,
}

/// A file's answers, and what there is to say of it beside them.
struct Answer {
    frames: Vec<String>,
    notes: Vec<String>,
}

/// How many files are in memory at once.
const BATCH: usize = 512;

#[derive(Clone, Copy)]
enum Form {
    Text,
    Json,
    Csv,
    Markdown,
}

pub(super) fn print(arguments: &FiguresArguments, out: &mut impl Write) -> Result<(), Vec<String>> {
    let form = match (arguments.json, arguments.csv, arguments.markdown) {
        (true, _, _) => Form::Json,
        (_, true, _) => Form::Csv,
        (_, _, true) => Form::Markdown,
        _ => Form::Text,
    };
    let mut problems = Vec::new();
    let written = write_all(&arguments.files, form, &mut io::BufWriter::new(out), &mut problems);
    match written {
        // The reader of a pipe had enough: nothing is wrong.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => {}
        Err(error) => problems.push(format!("standard output: {error}")),
        Ok(()) => {}
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

fn write_all(files: &[PathBuf], form: Form, out: &mut impl Write, problems: &mut Vec<String>) -> io::Result<()> {
    match form {
        Form::Json => write!(out, "{{\"spandrel\": \"{}\", \"frames\": [", env!("CARGO_PKG_VERSION"))?,
        Form::Csv => writeln!(out, "file,maker,model,size,figure,published,value,u,unit,origin,assumed,suspect")?,
        Form::Text | Form::Markdown => {}
    }
    let mut is_first = true;
    for batch in files.chunks(BATCH) {
        let answers: Vec<Result<Answer, NoAnswer>> = batch.par_iter().map(|path| answer(path, form)).collect();
        for answer in answers {
            match answer {
                Ok(answer) => {
                    // Printed words that are not understood are kept and stop nothing: said, and the status stays 0.
                    for note in &answer.notes {
                        drop(writeln!(io::stderr().lock(), "{}", visible(note)));
                    }
                    for frame in answer.frames {
                        let between = match form {
                            Form::Json if is_first => "\n",
                            Form::Json => ",\n",
                            Form::Text | Form::Markdown if !is_first => "\n",
                            Form::Text | Form::Markdown | Form::Csv => "",
                        };
                        write!(out, "{between}{frame}")?;
                        is_first = false;
                    }
                }
                Err(problem) => problems.push(problem.to_string()),
            }
        }
    }
    if matches!(form, Form::Json) {
        writeln!(out, "\n]}}")?;
    }
    out.flush()
}

/// Why a file is not answered.
#[derive(Debug, thiserror::Error)]
enum NoAnswer {
    #[error("{0}")]
    File(#[from] FileProblem),
    #[error("{file}: {why}")]
    Json { file: String, why: serde_json::Error },
}

fn answer(path: &Path, form: Form) -> Result<Answer, NoAnswer> {
    let file = path.display().to_string();
    let (lineup, is_lineup) = match load_argument(path)? {
        Loaded::Frameset(frameset) => (Lineup::from(*frameset), false),
        Loaded::Lineup(lineup) => (*lineup, true),
    };
    let notes = lineup.frames.iter().flat_map(|entry| {
        let slips = Statements::of(&entry.frameset).slips();
        slips.into_iter().map(|slip| format!("{file}: {}: {slip}", entry.frameset.name())).collect::<Vec<_>>()
    });
    let notes = notes.collect();
    if matches!(form, Form::Json) {
        // What depends on a line-up's settings is found for all its frames together, and only where it is written.
        let findings = Findings::of(&lineup);
        let overview = is_lineup.then(|| OverviewColumns::of(&lineup, &findings));
        let compared = |index: FrameIndex| {
            let (found, overview) = (index.of(&findings.fit)?, overview.as_ref()?);
            Some((fit_json::FitKeys::of(&lineup, index, found, &findings), overview.of_frame(index)))
        };
        let frames = FrameIndex::all(findings.frames.len())
            .filter_map(|index| json::frame(&file, &lineup, &findings, index, compared(index)));
        let frames = frames.map(|frame| {
            serde_json::to_string(&frame).map(|t| escaped(&t)).map_err(|why| NoAnswer::Json { file: file.clone(), why })
        });
        return Ok(Answer { frames: frames.collect::<Result<_, _>>()?, notes });
    }
    let units = lineup.settings.units;
    // A comparison's own findings follow its frames' figures.
    let price_and_climb = is_lineup.then(|| {
        let findings = Findings::of(&lineup);
        match form {
            Form::Csv => price_and_climb_text::csv(&file, &lineup, &findings),
            Form::Markdown => price_and_climb_text::markdown(&lineup, &findings),
            Form::Text | Form::Json => price_and_climb_text::text(&file, &lineup, &findings),
        }
    });
    let answers = lineup.frames.iter().map(|entry| {
        let (frameset, adjusted) = (&entry.frameset, adjust(&entry.frameset));
        match form {
            Form::Csv => csv(&file, frameset, &adjusted),
            Form::Markdown => markdown(frameset, &adjusted, units),
            Form::Text | Form::Json => text(&file, frameset, &adjusted, units),
        }
    });
    Ok(Answer { frames: answers.chain(price_and_climb).collect(), notes })
}

fn csv(file: &str, frameset: &Frameset, adjusted: &Adjusted) -> String {
    let mut out = String::new();
    for size in &adjusted.sizes {
        for value in size.values().iter().filter(|v| !v.is_missing) {
            let assumed: Vec<&str> = value.assumed.iter().map(spandrel::geometry::Assumption::key).collect();
            let fields = [
                file,
                &frameset.maker,
                &frameset.model,
                &size.label,
                value.figure.key(),
                &value.printed.map(|p| p.to_string()).unwrap_or_default(),
                &rounded(value.value).to_string(),
                &rounded(value.u).to_string(),
                value.figure.file_unit(),
                value.origin.key(),
                &assumed.join(" "),
                size.doubt(value.figure).map_or("", |d| d.kind.key()),
            ];
            out.push_str(&csv_line(&fields, LineEnd::Lf));
        }
    }
    out
}

fn cell(size: &AdjustedSize, figure: Figure, units: System) -> String {
    let value = size.value(figure);
    if value.is_missing {
        return "–".to_owned();
    }
    let doubt = if size.doubt(figure).is_some() { " ?" } else { "" };
    format!("{}{doubt}", units.plus_minus(figure.quantity(), value.measured()))
}

fn markdown(frameset: &Frameset, adjusted: &Adjusted, units: System) -> String {
    let mut out = format!("### {}\n\n| figure | unit |", markdown_text(&frameset.name()));
    for size in &adjusted.sizes {
        out.push_str(&format!(" {} |", markdown_text(&size.label)));
    }
    out.push_str("\n|---|---|");
    out.push_str(&"---:|".repeat(adjusted.sizes.len()));
    out.push('\n');
    for figure in known(adjusted) {
        let unit = units.unit(figure.quantity());
        out.push_str(&format!("| {} | {unit} |", figure.label()));
        for size in &adjusted.sizes {
            out.push_str(&format!(" {} |", cell(size, figure, units)));
        }
        out.push('\n');
    }
    for sentence in remarks(frameset, adjusted, units) {
        out.push_str(&format!("\n{}\n", markdown_text(&sentence)));
    }
    out
}

fn text(file: &str, frameset: &Frameset, adjusted: &Adjusted, units: System) -> String {
    let mut rows: Vec<Vec<String>> = vec![vec![String::new(), String::new()]];
    if let Some(header) = rows.first_mut() {
        header.extend(adjusted.sizes.iter().map(|s| visible(&s.label).into_owned()));
    }
    for figure in known(adjusted) {
        let unit = units.unit(figure.quantity());
        let mut row = vec![figure.label().to_owned(), unit.to_owned()];
        row.extend(adjusted.sizes.iter().map(|s| cell(s, figure, units).replace(THIN_SPACE, " ")));
        rows.push(row);
    }
    let mut out = format!("{} ({})\n", visible(&frameset.name()), visible(file));
    out.push_str(&in_columns(&rows, 2));
    for sentence in remarks(frameset, adjusted, units) {
        out.push_str(&visible(&sentence));
        out.push('\n');
    }
    out
}

/// JSON in which every character that acts or hides is written by its number (RFC 8259, 7): the data stay as they are,
/// and a terminal that shows them is safe.
fn escaped(json: &str) -> String {
    let mut out = String::with_capacity(json.len());
    let mut units = [0; 2];
    for c in json.chars() {
        if c.is_ascii() || visible(c.encode_utf8(&mut [0; 4])).starts_with(c) {
            out.push(c);
        } else {
            c.encode_utf16(&mut units).iter().for_each(|unit| out.push_str(&format!("\\u{unit:04x}")));
        }
    }
    out.replace('\u{7f}', "\\u007f")
}

/// Figures that at least one size determines.
fn known(adjusted: &Adjusted) -> impl Iterator<Item = Figure> {
    Figure::ALL.iter().copied().filter(|f| adjusted.sizes.iter().any(|s| !s.value(*f).is_missing))
}

/// What there is to say below the figures: that no frame fits, doubtful figures, and unknown ones with what they need.
fn remarks(frameset: &Frameset, adjusted: &Adjusted, units: System) -> Vec<String> {
    let mut sentences: Vec<String> = no_fit(adjusted).map(str::to_owned).into_iter().collect();
    for (published, size) in frameset.sizes.iter().zip(&adjusted.sizes) {
        let texts = size.doubts.iter().map(|doubt| doubt_text(doubt, units));
        let unknown = settled_by(frameset, published, size);
        let texts = texts.chain(unknown_texts(&unknown).into_iter().map(|text| format!("{text}.")));
        sentences.extend(texts.map(|text| format!("{}: {text}", size.label)));
    }
    if let Some(settling) = &adjusted.settling {
        sentences.push(settling_text(settling, &adjusted.size_labels()));
    }
    sentences
}
