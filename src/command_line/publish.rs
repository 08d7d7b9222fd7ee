//! `spandrel publish`: the pictures and tables of a comparison into a folder, the same that the window saves; with
//! `--sheet`, everything that one of its sheets is published as.

use std::io::Write;
use std::path::PathBuf;

use clap::Args;

use crate::disk::{Loaded, load_argument, make_folder, save, write_made};
use crate::drawing::{Ground, Picture, PictureView};
use crate::lineup::{Findings, Lineup, find_sheet, write_lineup};
use crate::publish;
use crate::words::{comparison_table, gears_table, room_table, worth_table};

/// What `publish` takes.
#[derive(Debug, Args)]
pub(crate) struct PublishArguments {
    /// One line-up, or frame files that are set side by side in the order given; `-` reads standard input.
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// The folder to write into; it is made where there is none.
    #[arg(long, value_name = "DIR")]
    to: PathBuf,
    /// Publishes this sheet instead of single views: one of the line-up's, or Film, Dark film, Telephone, Square, Blog,
    /// Wall.
    #[arg(long, value_name = "NAME", conflicts_with_all = ["width", "height", "dark"])]
    sheet: Option<String>,
    /// Leaves the sheet's moving pictures out.
    #[arg(long, requires = "sheet")]
    still: bool,
    /// Pixels across.
    #[arg(long, default_value_t = 1920, value_parser = clap::value_parser!(u32).range(320..=7680))]
    width: u32,
    /// Pixels down.
    #[arg(long, default_value_t = 1080, value_parser = clap::value_parser!(u32).range(320..=7680))]
    height: u32,
    /// On a dark ground.
    #[arg(long)]
    dark: bool,
}

/// Publishes; problems with single files do not stop the others.
pub(super) fn publish(arguments: &PublishArguments, out: &mut dyn Write) -> Result<(), Vec<String>> {
    let mut problems = Vec::new();
    let lineup = lineup_of(&arguments.files, &mut problems);
    if !lineup.frames.is_empty() {
        problems.extend(match &arguments.sheet {
            Some(name) => write_sheet(&lineup, name, arguments, out),
            None => write_all(&lineup, arguments),
        });
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

/// The first line-up with the frames of all other files behind its own.
fn lineup_of(files: &[PathBuf], problems: &mut Vec<String>) -> Lineup {
    let mut whole: Option<Lineup> = None;
    let mut single = Vec::new();
    for path in files {
        match load_argument(path) {
            Ok(Loaded::Lineup(lineup)) => match &mut whole {
                None => whole = Some(*lineup),
                Some(first) => first.frames.extend(lineup.frames),
            },
            Ok(Loaded::Frameset(frameset)) => single.push((*frameset, path)),
            Err(problem) => problems.push(problem.to_string()),
        }
    }
    let mut lineup = whole.unwrap_or_default();
    for (frameset, path) in single {
        lineup.add(frameset, path.file_name().map(|n| n.to_string_lossy().into_owned()));
    }
    lineup
}

/// Everything that a sheet is published as; what had no room is said on standard output.
fn write_sheet(lineup: &Lineup, name: &str, arguments: &PublishArguments, out: &mut dyn Write) -> Vec<String> {
    let mut sheet = match find_sheet(lineup, name) {
        Ok(sheet) => sheet,
        Err(problem) => return vec![problem],
    };
    if arguments.still {
        sheet.moves = None;
    }
    let made = match publish::sheet_folder(&Findings::of(lineup), lineup, &sheet, &publish::Going::default()) {
        Ok(made) => made,
        Err(stopped) => return vec![stopped.to_string()],
    };
    let mut problems = made.problems;
    match write_made(&arguments.to, &made.files) {
        Ok(kept) => problems.extend(kept),
        Err(problem) => problems.push(problem.to_string()),
    }
    for sentence in made.left_out {
        drop(writeln!(out, "{sentence}"));
    }
    problems
}

fn write_all(lineup: &Lineup, arguments: &PublishArguments) -> Vec<String> {
    if let Err(problem) = make_folder(&arguments.to) {
        return vec![problem.to_string()];
    }
    let findings = Findings::of(lineup);
    let ground = if arguments.dark { Ground::Dark } else { Ground::Paper };
    let mut problems = Vec::new();
    let mut write = |name: &str, bytes: Result<Vec<u8>, String>| {
        let path = arguments.to.join(name);
        let saved =
            bytes.map_err(|e| format!("{}: {e}", path.display())).and_then(|b| save(&path, &b).map_err(|e| e.to_string()));
        problems.extend(saved.err());
    };
    for view in PictureView::ALL.into_iter().filter(|v| v.has_something(&findings, lineup)) {
        let picture = Picture { view, width_px: arguments.width, height_px: arguments.height, ground, look: None };
        let name = view.label().to_lowercase();
        write(&format!("{name}.svg"), Ok(publish::picture_svg(&findings, lineup, &picture).into_bytes()));
        write(&format!("{name}.png"), publish::picture_png(&findings, lineup, &picture).map_err(|e| e.to_string()));
    }
    let table = comparison_table(&findings, lineup.settings.units);
    write("figures.csv", Ok(publish::csv(&table).into_bytes()));
    write("figures.md", Ok(publish::markdown(&table).into_bytes()));
    let room = room_table(&findings, lineup.settings.units);
    write("room.csv", Ok(publish::csv(&room).into_bytes()));
    write("room.md", Ok(publish::markdown(&room).into_bytes()));
    let worth = worth_table(lineup, &findings);
    let gears = gears_table(lineup, &findings, findings.reference.unwrap_or_default());
    write("worth.csv", Ok(publish::fit_csv(&worth).into_bytes()));
    write("worth.md", Ok(format!("{}\n{}", publish::fit_markdown(&worth), publish::fit_markdown(&gears)).into_bytes()));
    write("comparison.lineup.ron", write_lineup(lineup).map(String::into_bytes).map_err(|e| e.to_string()));
    problems
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What lies in a folder, in order.
    fn published(folder: &std::path::Path) -> Vec<String> {
        let mut names = crate::disk::names_in(folder);
        names.sort();
        names
    }

    #[test]
    fn one_call_makes_the_folder_and_bad_files_do_not_stop_it() {
        let folder = tempfile::tempdir().unwrap();
        let to = folder.path().join("out");
        let arguments = PublishArguments {
            files: vec!["sample-frames/marrowby-drift.frame.ron".into(), "sample-frames/none.frame.ron".into()],
            to: to.clone(),
            sheet: None,
            still: false,
            width: 640,
            height: 360,
            dark: false,
        };
        let problems = publish(&arguments, &mut Vec::new()).unwrap_err();
        assert_eq!(problems.len(), 1);
        assert_eq!(published(&to).len(), 25, "{:?}", published(&to));
        let worth = std::fs::read_to_string(to.join("worth.md")).unwrap();
        assert!(worth.contains("| Price, set, with tax | 585.00") && worth.contains("| Lowest development |"), "{worth}");
        let room = std::fs::read_to_string(to.join("room.csv")).unwrap();
        assert!(room.contains("Edge under the top tube,mm,") && room.contains("Bag,l,"), "{room}");
        // The same input gives the same bytes.
        let before = std::fs::read(to.join("outline.png")).unwrap();
        publish(&arguments, &mut Vec::new()).unwrap_err();
        assert_eq!(std::fs::read(to.join("outline.png")).unwrap(), before);
    }
}
