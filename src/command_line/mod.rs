//! The headless face: the same engine for scripts, tests and people who publish.
//!
//! Invariant: nothing is computed here. Answers go to standard output, one clear line a problem to standard error;
//! status 0, or 1 when there was a problem. Good files are answered beside bad ones.

mod bag_space_json;
mod bottles_json;
mod build_json;
mod columns;
mod extract;
mod figures;
mod fit_json;
mod import;
mod json;
mod json_price_and_climb;
mod loaded;
mod loaded_json;
mod numbers;
mod output;
mod overview_json;
mod pattern;
mod price_and_climb_text;
mod publish;
mod rear_json;

use std::io::{self, IsTerminal, Write};
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Parser, Subcommand};

use spandrel::disk::STANDARD_INPUT;
use spandrel::frameset::TextKind;
use spandrel::units::{visible, visible_lines};

/// Compare bicycle framesets. Every figure has its ±.
#[derive(Debug, Parser)]
#[command(name = "spandrel", version, about, args_conflicts_with_subcommands = true)]
struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
    /// Frame files (NAME.frame.ron) and line-ups (NAME.lineup.ron) to open in the window. Without any, the window
    /// begins with its start screen.
    files: Vec<PathBuf>,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Print every figure of every size, with its ± and what is assumed.
    Figures(figures::FiguresArguments),
    /// Extract the line-up in a published picture or page.
    Extract(extract::ExtractArguments),
    /// Write the sewing pattern of a frame bag at 1:1.
    Pattern(pattern::PatternArguments),
    /// Write the pictures and tables of a comparison to a folder.
    Publish(publish::PublishArguments),
    /// Print wheel loads, braking, and the speeds at which a bicycle steadies itself.
    Loaded(loaded::LoadedArguments),
    /// Import a geometry table (CSV, XLSX, HTML, text) as a frame file.
    Import(import::ImportArguments),
    /// The name of `import` before version 0.2.
    #[command(hide = true)]
    Take(import::ImportArguments),
    /// The name of `extract` before version 0.2.
    #[command(hide = true)]
    Comparison(extract::ExtractArguments),
}

/// Runs the command line; `open_window` opens the window on files.
pub(crate) fn run<E: std::fmt::Display>(open_window: impl FnOnce(Vec<PathBuf>) -> Result<(), E>) -> ExitCode {
    for argument in std::env::args_os().skip(1) {
        // A longer one would be repeated whole by the refusal of whatever it is an argument of.
        if let Err(sentence) = TextKind::Path.check("an argument", &argument.to_string_lossy()) {
            drop(writeln!(io::stderr().lock(), "{sentence}"));
            return ExitCode::from(1);
        }
    }
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help and version are answers, the rest are problems; clap writes each where it belongs.
            if !error.use_stderr() {
                drop(error.print());
                return ExitCode::SUCCESS;
            }
            // It repeats what was given, which may be the name of a file.
            drop(write!(io::stderr().lock(), "{}", visible_lines(&error.render().to_string())));
            return ExitCode::from(1);
        }
    };
    let is_terminal = io::stdout().is_terminal();
    let outcome = match arguments.command {
        None if arguments.files.iter().any(|file| file.as_os_str() == STANDARD_INPUT) => Err(vec![
            "-: the window opens files only: write standard input to a file, such as NAME.frame.ron, and open that".to_owned(),
        ]),
        None => open_window(arguments.files).map_err(|why| vec![why.to_string()]),
        Some(Command::Import(arguments)) => import::run(&arguments, &mut io::stdout().lock(), is_terminal),
        Some(Command::Take(arguments)) => {
            tell_new_name("take", "import");
            import::run(&arguments, &mut io::stdout().lock(), is_terminal)
        }
        Some(Command::Extract(arguments)) => extract::run(&arguments, &mut io::stdout().lock(), is_terminal),
        Some(Command::Comparison(arguments)) => {
            tell_new_name("comparison", "extract");
            extract::run(&arguments, &mut io::stdout().lock(), is_terminal)
        }
        Some(Command::Pattern(arguments)) => pattern::pattern(&arguments, &mut io::stdout().lock(), is_terminal),
        Some(Command::Publish(arguments)) => publish::publish(&arguments, &mut io::stdout().lock()),
        Some(Command::Loaded(arguments)) => loaded::print(&arguments, &mut io::stdout().lock()),
        Some(Command::Figures(arguments)) => figures::print(&arguments, &mut io::stdout().lock()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(problems) => {
            let mut errors = io::stderr().lock();
            for problem in problems {
                drop(writeln!(errors, "{}", visible(&problem)));
            }
            ExitCode::from(1)
        }
    }
}

/// One line on standard error for a command that was called by its old name.
fn tell_new_name(old: &str, new: &str) {
    drop(writeln!(io::stderr().lock(), "`spandrel {old}` is now `spandrel {new}`. The old name still works."));
}
