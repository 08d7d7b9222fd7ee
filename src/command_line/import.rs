//! `spandrel import`: a geometry table becomes a frame file.

use std::io::Write;
use std::path::PathBuf;

use clap::Args;

use super::output;
use spandrel::disk;
use spandrel::frameset::import::{self, ImportError, Reading};
use spandrel::frameset::{FileKind, RoundedTo, TextKind, TyreSize, write_frameset};
use spandrel::units::visible_lines;

/// Arguments of `import`.
#[derive(Debug, Args)]
pub(crate) struct ImportArguments {
    /// The table: a CSV, XLSX, HTML or text file. `-` reads standard input.
    table: PathBuf,
    /// The maker's name.
    #[arg(long)]
    maker: String,
    /// The model's name.
    #[arg(long)]
    model: String,
    /// The frame file to write. `-` writes to standard output. An existing file is kept unless --replace is given.
    #[arg(long, value_name = "NAME.frame.ron")]
    to: Option<PathBuf>,
    /// Replace an existing file.
    #[arg(long, requires = "to")]
    replace: bool,
    /// Print what was read, row by row, with the questions and their numbers.
    #[arg(long)]
    report: bool,
    /// Answer a question of the report by its number, for example `--answer 2=1`. Can be given several times.
    #[arg(long = "answer", value_name = "QUESTION=CHOICE")]
    answers: Vec<String>,
    /// The step to which the table rounds lengths, mm.
    #[arg(long = "rounding-mm", alias = "printed-mm", value_name = "MM")]
    rounding_mm: Option<f64>,
    /// The step to which the table rounds angles, degrees.
    #[arg(long = "rounding-deg", alias = "printed-deg", value_name = "DEGREES")]
    rounding_deg: Option<f64>,
    /// The tyre that the geometry was drawn with, for example 47-622.
    #[arg(long)]
    tyre: Option<TyreSize>,
}

/// Runs it; the report goes to `out`.
pub(super) fn run(arguments: &ImportArguments, out: &mut impl Write, is_terminal: bool) -> Result<(), Vec<String>> {
    let name = arguments.table.display().to_string();
    let problem = |text: &str| vec![format!("{name}: {text}")];
    for (option, text) in [("--maker", &arguments.maker), ("--model", &arguments.model)] {
        TextKind::Name.check(option, text).map_err(|e| vec![e.to_string()])?;
    }
    if let Some(to) = &arguments.to {
        output::check(to, arguments.replace).map_err(|e| vec![e.to_string()])?;
        if arguments.report && output::is_standard(to) {
            let sentence = "--report and --to - both write to standard output: leave one away, or name a file";
            return Err(vec![sentence.to_owned()]);
        }
    }
    let bytes = disk::read_argument(&arguments.table, FileKind::Table).map_err(|e| vec![e.to_string()])?;
    let mut reading = import::read_bytes(&bytes).map_err(|e| problem(&e.to_string()))?;
    correct(&mut reading, arguments).map_err(|e| problem(&e.to_string()))?;
    if arguments.report {
        output::print(visible_lines(&import::report(&reading)).as_bytes(), out).map_err(|e| vec![e.to_string()])?;
    }
    for sentence in import::problems(&reading) {
        // The report says it too, but a file may be written without one.
        drop(writeln!(std::io::stderr().lock(), "{name}: {}", visible_lines(&sentence)));
    }
    let frameset = match reading.to_frameset(&arguments.maker, &arguments.model) {
        Ok(frameset) => frameset,
        Err(ImportError::Open(questions)) => {
            let mut lines: Vec<String> = questions.iter().map(|q| format!("{name}: {q}")).collect();
            lines.push(format!("{name}: answer with --answer QUESTION=CHOICE; --report lists the questions with their numbers"));
            return Err(lines);
        }
        Err(other) => return Err(problem(&other.to_string())),
    };
    let Some(to) = &arguments.to else { return Ok(()) };
    let text = write_frameset(&frameset).map_err(|e| problem(&e.to_string()))?;
    output::write(to, text.as_bytes(), arguments.replace, out, is_terminal).map_err(|e| vec![e.to_string()])
}

/// Why an answer or a correction is not accepted.
#[derive(Debug, thiserror::Error)]
enum CorrectionError {
    #[error("--answer {0}: is not a valid answer. Give the numbers of the question and the choice, for example --answer 1=2")]
    NotAnAnswer(String),
    #[error("--answer {0}: the question or choice does not exist. --report lists them")]
    NoSuchChoice(String),
    #[error("--rounding-mm and --rounding-deg must be above 0 and at most 50, for example 0.5")]
    Rounding,
}

/// Answers and corrections from the command line. Numbers are those of the report without any answer.
fn correct(reading: &mut Reading, arguments: &ImportArguments) -> Result<(), CorrectionError> {
    let numbered: Vec<import::Subject> = reading.questions.iter().map(|q| q.subject.clone()).collect();
    for answer in &arguments.answers {
        let parsed =
            answer.split_once('=').and_then(|(q, c)| Some((q.trim().parse::<usize>().ok()?, c.trim().parse::<usize>().ok()?)));
        let Some((question, choice)) = parsed else {
            return Err(CorrectionError::NotAnAnswer(answer.clone()));
        };
        let subject = question.checked_sub(1).and_then(|q| numbered.get(q)).cloned();
        let choices =
            subject.as_ref().and_then(|s| reading.questions.iter().find(|q| q.subject == *s)).map_or(0, |q| q.choices.len());
        match subject {
            Some(subject) if (1..=choices).contains(&choice) => reading.answer(&subject, choice - 1),
            _ => return Err(CorrectionError::NoSuchChoice(answer.clone())),
        }
    }
    if arguments.rounding_mm.is_some() || arguments.rounding_deg.is_some() {
        let wanted = RoundedTo {
            mm: arguments.rounding_mm.unwrap_or(reading.rounded_to.mm),
            deg: arguments.rounding_deg.unwrap_or(reading.rounded_to.deg),
        };
        reading.set_rounded_to(wanted);
        if reading.rounded_to != wanted {
            return Err(CorrectionError::Rounding);
        }
    }
    if arguments.tyre.is_some() {
        reading.set_tyre(arguments.tyre);
    }
    Ok(())
}
