//! `spandrel publish`: the pictures and tables of a comparison into a folder, the same that the window saves; with
//! `--sheet`, everything that one of its sheets is published as.

use std::io::Write;
use std::path::PathBuf;

use clap::Args;

use super::output;
use spandrel::disk::{Loaded, Publication, Replace, load_argument, publish_into};
use spandrel::drawing::{Background, Picture};
use spandrel::frameset::{TextKind, ValueError};
use spandrel::lineup::{Findings, Lineup, NoSheet, PictureView, find_sheet, write_lineup};
use spandrel::publish;
use spandrel::words::{
    MODEL_TEXT, bag_space_table, build_table, comparison_table, figure_remarks, gears_table, loaded_tables, loaded_tables_in_one,
    price_and_climb_table, rules_of_thumb_table,
};

/// Arguments of `publish`.
#[derive(Debug, Args)]
pub(crate) struct PublishArguments {
    /// One line-up, or frame files, compared in the order given. `-` reads standard input.
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// The folder to write to. It is created if it does not exist. What was published there before is replaced. Other
    /// files, and files that were changed since, are kept unless --replace is given.
    #[arg(long, value_name = "DIR")]
    to: PathBuf,
    /// Replace all files of the same names, even those changed by hand.
    #[arg(long)]
    replace: bool,
    /// Publish this sheet instead of single views: a sheet of the line-up, or Film, Dark film, Phone, Square, Blog,
    /// Wall, "Statement: outline", "Statement: bags", "Statement: steering" or "Statement: lengths".
    #[arg(long, value_name = "NAME", conflicts_with_all = ["width", "height", "dark"])]
    sheet: Option<String>,
    /// Leave out the sheet's animation.
    #[arg(long, requires = "sheet")]
    still: bool,
    /// Width, pixels.
    #[arg(long, default_value_t = 1920, value_parser = clap::value_parser!(u32).range(320..=7680))]
    width: u32,
    /// Height, pixels.
    #[arg(long, default_value_t = 1080, value_parser = clap::value_parser!(u32).range(320..=7680))]
    height: u32,
    /// Use a dark background.
    #[arg(long)]
    dark: bool,
}

/// Publishes; problems with single files do not stop the others.
pub(super) fn publish(arguments: &PublishArguments, out: &mut dyn Write) -> Result<(), Vec<String>> {
    if output::is_standard(&arguments.to) {
        return Err(vec![format!("{}: several files are published: name a folder, such as --to out", arguments.to.display())]);
    }
    let mut problems = Vec::new();
    let lineup = lineup_of(&arguments.files, &mut problems);
    if lineup.frames.is_empty() {
        if problems.is_empty() {
            let files: Vec<String> = arguments.files.iter().map(|f| f.display().to_string()).collect();
            problems.push(format!("{}: there are no frames to publish: add a frame to the line-up", files.join(", ")));
        }
        return Err(problems);
    }
    let made = match &arguments.sheet {
        Some(name) => sheet_of(&lineup, name, arguments),
        None => Ok(views_of(&lineup, arguments)),
    };
    match made {
        Ok(made) => problems.extend(write_all(made, arguments, out)),
        Err(problem) => problems.push(problem.to_string()),
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
    let settled = lineup.frames.len();
    for (frameset, path) in single {
        lineup.add(frameset, path.file_name().map(|n| n.to_string_lossy().into_owned()));
    }
    lineup.put_added_into_their_sizes(settled);
    lineup
}

/// Why a sheet is not published.
#[derive(Debug, thiserror::Error)]
enum NotPublished {
    #[error("{0}")]
    Name(#[from] ValueError),
    #[error("{0}")]
    NoSheet(#[from] NoSheet),
    #[error("{0}")]
    Stopped(#[from] publish::Stopped),
}

/// Everything that a sheet is published as.
fn sheet_of(lineup: &Lineup, name: &str, arguments: &PublishArguments) -> Result<publish::PublishedFiles, NotPublished> {
    TextKind::Name.check("--sheet", name)?;
    let mut sheet = find_sheet(lineup, name)?;
    if arguments.still {
        sheet.animation = None;
    }
    Ok(publish::sheet_folder(&Findings::of(lineup), lineup, &sheet, &publish::PublishProgress::default())?)
}

/// All single views and tables.
fn views_of(lineup: &Lineup, arguments: &PublishArguments) -> publish::PublishedFiles {
    let findings = Findings::of(lineup);
    let background = if arguments.dark { Background::Dark } else { Background::Light };
    let mut made = publish::PublishedFiles::default();
    for view in PictureView::ALL.into_iter().filter(|v| v.has_something(&findings, lineup)) {
        let picture = Picture { view, width_px: arguments.width, height_px: arguments.height, background, look: None };
        let name = view.file_stem();
        made.add(&format!("{name}.svg"), Ok(publish::picture_svg(&findings, lineup, &picture).into_bytes()));
        made.add(&format!("{name}.png"), publish::picture_png(&findings, lineup, &picture).map_err(publish::SheetError::from));
    }
    let table = comparison_table(&findings, lineup.settings.units);
    made.add("figures.csv", Ok(publish::csv(&table, lineup.settings.units).into_bytes()));
    let remarks = publish::markdown_remarks(&figure_remarks(&findings, lineup.settings.units));
    made.add("figures.md", Ok((publish::markdown(&table) + &remarks).into_bytes()));
    let room = bag_space_table(&findings, lineup.settings.units);
    made.add("bags.csv", Ok(publish::csv(&room, lineup.settings.units).into_bytes()));
    made.add("bags.md", Ok(publish::markdown(&room).into_bytes()));
    let prices = price_and_climb_table(lineup, &findings);
    let gears = gears_table(lineup, &findings, findings.reference.unwrap_or_default());
    made.add("price-and-climb.csv", Ok(publish::fit_csv(&prices).into_bytes()));
    made.add(
        "price-and-climb.md",
        Ok(format!("{}\n{}", publish::fit_markdown(&prices), publish::fit_markdown(&gears)).into_bytes()),
    );
    made.add("loaded.csv", Ok(publish::fit_csv(&loaded_tables_in_one(lineup, &findings)).into_bytes()));
    let tables = loaded_tables(lineup, &findings).chain([rules_of_thumb_table(lineup, &findings)]);
    let tables = tables.map(|table| publish::fit_markdown(&table));
    made.add("loaded.md", Ok((tables.collect::<Vec<_>>().join("\n") + "\n" + MODEL_TEXT + "\n").into_bytes()));
    let build = build_table(lineup, &findings);
    if !build.rows.is_empty() {
        made.add("build.csv", Ok(publish::fit_csv(&build).into_bytes()));
        made.add("build.md", Ok(publish::fit_markdown(&build).into_bytes()));
    }
    made.add(publish::CARRIED_NAME, write_lineup(lineup).map(String::into_bytes).map_err(publish::SheetError::from));
    made
}

/// Writes all of it into the folder. What does not fit is said on standard output, what was kept is a problem.
fn write_all(made: publish::PublishedFiles, arguments: &PublishArguments, out: &mut dyn Write) -> Vec<String> {
    let mut problems = made.problems;
    let replace = if arguments.replace { Replace::Asked } else { Replace::Made };
    match publish_into(&arguments.to, &made.files, replace, &|| true) {
        Ok(Publication::Written { kept, .. }) => {
            let is_advice_due = !kept.is_empty() && !arguments.replace;
            problems.extend(kept);
            if is_advice_due {
                problems.push(format!("{}: add --replace to replace these files as well", arguments.to.display()));
            }
        }
        Ok(Publication::Stopped) => problems.push(publish::Stopped.to_string()),
        Err(problem) => problems.push(problem.to_string()),
    }
    let left_out = made.left_out.iter().fold(String::new(), |lines, sentence| lines + sentence + "\n");
    problems.extend(output::print(left_out.as_bytes(), out).err().map(|why| why.to_string()));
    problems
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What lies in a folder, in order.
    fn published(folder: &std::path::Path) -> Vec<String> {
        let mut names = spandrel::disk::names_in(folder);
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
            replace: false,
            sheet: None,
            still: false,
            width: 640,
            height: 360,
            dark: false,
        };
        let problems = publish(&arguments, &mut Vec::new()).unwrap_err();
        assert_eq!(problems.len(), 1);
        assert_eq!(published(&to).len(), 36, "{:?}", published(&to));
        let prices = std::fs::read_to_string(to.join("price-and-climb.md")).unwrap();
        assert!(prices.contains("| Price, frameset, with tax | 585.00") && prices.contains("| Lowest development |"), "{prices}");
        let room = std::fs::read_to_string(to.join("bags.csv")).unwrap();
        assert!(room.contains("\"Top tube, inside\",mm,") && room.contains("Bag volume,l,"), "{room}");
        // The same input gives the same bytes.
        let before = std::fs::read(to.join("outline.png")).unwrap();
        publish(&arguments, &mut Vec::new()).unwrap_err();
        assert_eq!(std::fs::read(to.join("outline.png")).unwrap(), before);
    }
}
