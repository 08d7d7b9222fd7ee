//! `spandrel extract`: the line-up in a published picture or page.

use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;

use super::output;
use spandrel::disk;
use spandrel::frameset::FileKind;
use spandrel::lineup::read_lineup;
use spandrel::publish::carried;

/// Arguments of `extract`.
#[derive(Debug, Args)]
pub(crate) struct ExtractArguments {
    /// A picture (PNG, SVG) or page (HTML) published by Spandrel. `-` reads standard input.
    file: PathBuf,
    /// The line-up to write. Without this, or with `-`, it is printed. An existing file is kept unless --replace is given.
    #[arg(long, value_name = "NAME.lineup.ron")]
    to: Option<PathBuf>,
    /// Replace an existing file.
    #[arg(long, requires = "to")]
    replace: bool,
}

/// Runs it; the line-up goes to its file or to `out`.
pub(super) fn run(arguments: &ExtractArguments, out: &mut impl Write, is_terminal: bool) -> Result<(), Vec<String>> {
    let problem = |text: String| vec![format!("{}: {text}", arguments.file.display())];
    let to = arguments.to.as_deref().unwrap_or(Path::new("-"));
    output::check(to, arguments.replace).map_err(|e| vec![e.to_string()])?;
    let bytes = disk::read_argument(&arguments.file, FileKind::Published).map_err(|e| vec![e.to_string()])?;
    let file = carried(&bytes).map_err(|why| problem(why.to_string()))?;
    // Anybody may have put it there: only what is a line-up is handed on.
    read_lineup(&file).map_err(|e| problem(format!("this file does not carry a valid line-up: {e}")))?;
    output::write(to, &file, arguments.replace, out, is_terminal).map_err(|e| vec![e.to_string()])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_hands_out_a_line_up_and_overwrites_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let (page, to) = (folder.path().join("page.svg"), folder.path().join("found.lineup.ron"));
        let written = |inside: &str| {
            use base64::Engine;
            let inside = base64::engine::general_purpose::STANDARD.encode(inside);
            disk::save(&page, format!("<svg><metadata id=\"comparison\">{inside}</metadata></svg>").as_bytes()).unwrap();
        };
        let file = spandrel::lineup::write_lineup(&spandrel::lineup::Lineup::default()).unwrap();
        written(&file);
        let arguments = ExtractArguments { file: page.clone(), to: Some(to.clone()), replace: false };
        run(&arguments, &mut Vec::new(), false).unwrap();
        assert_eq!(std::fs::read_to_string(&to).unwrap(), file);
        assert!(run(&arguments, &mut Vec::new(), false).unwrap_err()[0].contains("exists already"));
        let mut printed = Vec::new();
        run(&ExtractArguments { file: page.clone(), to: None, replace: false }, &mut printed, false).unwrap();
        assert_eq!(printed, file.as_bytes());
        let title = "Drift\u{202e}";
        let lineup = spandrel::lineup::Lineup { title: title.to_owned(), ..spandrel::lineup::Lineup::default() };
        // Our own files write it by its number; others may not.
        written(&spandrel::lineup::write_lineup(&lineup).unwrap().replace("\\u{202e}", "\u{202e}"));
        for (is_terminal, seen) in [(true, "Drift[U+202E]"), (false, title)] {
            let mut printed = Vec::new();
            run(&ExtractArguments { file: page.clone(), to: None, replace: false }, &mut printed, is_terminal).unwrap();
            assert!(String::from_utf8(printed).unwrap().contains(seen), "{seen:?}");
        }
        written("Rm(-rf)");
        let why = run(&ExtractArguments { file: page.clone(), to: None, replace: false }, &mut Vec::new(), false).unwrap_err();
        assert!(why[0].contains("valid line-up"), "{why:?}");
    }
}
