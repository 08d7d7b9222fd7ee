//! Everything that a sheet is published as, in one go: the picture in its own shape, one for a phone, an overlay for
//! film, a sheet of paper, the tables, and the line-up itself.
//!
//! Not here: the disk. Invariants: the same line-up and sheet give the same names and bytes; it can be stopped between any
//! two pieces.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use rayon::prelude::*;

use super::carried::CARRIED_NAME;
use super::sheet::SheetError;
use super::{
    csv, film_ground, markdown, markdown_remarks, sequence, sheet_page, sheet_pdf_carrying, sheet_png, sheet_png_carrying,
    sheet_svg_carrying,
};
use crate::drawing::{overlay_scene, sheet_scene};
use crate::frameset::{Figure, WriteError};
use crate::lineup::{Block, Findings, Lineup, Shape, Sheet, SheetBackground, write_lineup};
use crate::words::{comparison_table, figure_remarks, left_out_text};

/// How far it is, for whoever waits; and whether they still want it.
#[derive(Debug, Default)]
pub struct PublishProgress {
    done: AtomicUsize,
    of: AtomicUsize,
    is_stopped: AtomicBool,
}

impl PublishProgress {
    /// Pieces made, and how many there will be.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.done.load(Ordering::Relaxed), self.of.load(Ordering::Relaxed))
    }

    /// Asks for an end.
    pub fn stop(&self) {
        self.is_stopped.store(true, Ordering::Relaxed);
    }

    /// Whether an end was asked for.
    #[must_use]
    pub fn is_stopped(&self) -> bool {
        self.is_stopped.load(Ordering::Relaxed)
    }

    /// Says how many pieces there will be.
    pub(super) fn expect(&self, pieces: usize) {
        self.of.fetch_add(pieces, Ordering::Relaxed);
    }

    /// Counts a piece.
    pub(super) fn count(&self) {
        self.done.fetch_add(1, Ordering::Relaxed);
    }

    /// Whether to go on.
    pub(super) fn check(&self) -> Result<(), Stopped> {
        if self.is_stopped() { Err(Stopped) } else { Ok(()) }
    }
}

/// It was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("it was stopped")]
pub struct Stopped;

/// What a sheet was made into.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PublishedFiles {
    /// Names, with `/` between folder and file, and bytes, in order.
    pub files: Vec<(String, Vec<u8>)>,
    /// What does not fit, each with the file that it is missing from.
    pub left_out: Vec<String>,
    /// What could not be made, in sentences.
    pub problems: Vec<String>,
}

impl PublishedFiles {
    /// Adds a file, or the problem that there was in making it.
    pub fn add(&mut self, name: &str, bytes: Result<Vec<u8>, SheetError>) {
        match bytes {
            Ok(bytes) => self.files.push((name.to_owned(), bytes)),
            Err(problem) => self.problems.push(format!("{name}: {problem}")),
        }
    }
}

/// A piece of the folder, made by itself.
type Piece<'a> = Box<dyn Fn() -> PublishedFiles + Send + Sync + 'a>;

/// Makes all of it, on all cores.
///
/// # Errors
/// When it was stopped.
pub fn sheet_folder(
    findings: &Findings,
    lineup: &Lineup,
    sheet: &Sheet,
    going: &PublishProgress,
) -> Result<PublishedFiles, Stopped> {
    let file = write_lineup(lineup);
    let pieces = pieces(findings, lineup, sheet, &file);
    going.expect(pieces.len());
    let make = |piece: &Piece| {
        going.check()?;
        let made = piece();
        going.count();
        Ok(made)
    };
    let made: Vec<PublishedFiles> = pieces.par_iter().map(make).collect::<Result<_, Stopped>>()?;
    let mut whole = PublishedFiles::default();
    for piece in made {
        whole.files.extend(piece.files);
        whole.left_out.extend(piece.left_out);
        whole.problems.extend(piece.problems);
    }
    if let Some(animation) = sheet.animation {
        let film = Sheet { animation: Some(animation), ..overlay_of(sheet) };
        match sequence(findings, lineup, &film, going)? {
            Ok(files) => whole.files.extend(files),
            Err(why) => whole.problems.push(format!("moving.png: {why}")),
        }
    }
    Ok(whole)
}

fn pieces<'a>(
    findings: &'a Findings,
    lineup: &'a Lineup,
    sheet: &'a Sheet,
    file: &'a Result<String, WriteError>,
) -> Vec<Piece<'a>> {
    // Where the line-up cannot be written, pictures carry none, and that is told once.
    let carried = file.as_ref().map(String::as_str).unwrap_or_default();
    let picture = move |name: &'static str, sheet: Sheet| -> Piece<'a> {
        Box::new(move || {
            let drawing = sheet_scene(findings, lineup, &sheet);
            let mut made = PublishedFiles::default();
            made.add(name, sheet_png_carrying(&drawing.scene, &sheet, carried));
            made.left_out.extend(drawing.left_out.iter().map(|l| format!("{name}: {}", left_out_text(l))));
            made
        })
    };
    let other = |name: &'static str, shape: Shape| (sheet.shape != shape).then(|| picture(name, in_shape(sheet, shape)));
    let one = |name: &'static str, make: Box<dyn Fn() -> Result<Vec<u8>, SheetError> + Send + Sync + 'a>| -> Piece<'a> {
        Box::new(move || {
            let mut made = PublishedFiles::default();
            made.add(name, make());
            made
        })
    };
    let table = move || comparison_table(findings, lineup.settings.units);
    let mut pieces: Vec<Piece<'a>> = vec![picture("picture.png", sheet.clone())];
    pieces.push(one(
        "picture.svg",
        Box::new(move || Ok(sheet_svg_carrying(&sheet_scene(findings, lineup, sheet).scene, sheet, carried).into_bytes())),
    ));
    pieces.extend(other("wide.png", Shape::Wide));
    pieces.extend(other("upright.png", Shape::Upright));
    pieces.extend(other("square.png", Shape::Square));
    let overlay = overlay_of(sheet);
    pieces.push(one("overlay.png", Box::new(move || sheet_png(&overlay_scene(findings, lineup, &overlay), &overlay))));
    let paper = if sheet.shape.paper_mm().is_some() { sheet.clone() } else { in_shape(sheet, Shape::A4) };
    pieces.push(Box::new(move || {
        let drawing = sheet_scene(findings, lineup, &paper);
        let mut made = PublishedFiles::default();
        made.add("sheet.pdf", sheet_pdf_carrying(&drawing.scene, &paper, Some(carried)));
        made.left_out.extend(drawing.left_out.iter().map(|l| format!("sheet.pdf: {}", left_out_text(l))));
        made
    }));
    pieces.push(one("page.html", Box::new(move || Ok(sheet_page(findings, lineup, sheet)?.into_bytes()))));
    pieces.push(one("figures.csv", Box::new(move || Ok(csv(&table(), lineup.settings.units).into_bytes()))));
    let remarks = move || markdown_remarks(&figure_remarks(findings, lineup.settings.units));
    pieces.push(one("figures.md", Box::new(move || Ok((markdown(&table()) + &remarks()).into_bytes()))));
    pieces.push(one(CARRIED_NAME, Box::new(move || Ok(file.clone()?.into_bytes()))));
    pieces
}

/// The sheet in another shape. A screen has room for one drawing, the table and, where it is no square, sentences.
fn in_shape(sheet: &Sheet, shape: Shape) -> Sheet {
    let background = if shape.paper_mm().is_some() { SheetBackground::Light } else { sheet.background };
    let mut sheet = Sheet { shape, width: None, background, ..sheet.clone() };
    let first = sheet.contents.iter().copied().find(|b| b.is_drawing());
    if matches!(shape, Shape::Wide | Shape::Upright | Shape::Square) {
        let has_words = shape != Shape::Square;
        sheet.contents.retain(|b| Some(*b) == first || *b == Block::Table || (has_words && *b == Block::Captions));
    }
    if shape == Shape::Square {
        let few: Vec<Figure> = sheet.figures.iter().copied().filter(|f| FEW.contains(f)).collect();
        if few.is_empty() {
            sheet.figures.truncate(FEW.len());
        } else {
            sheet.figures = few;
        }
    }
    sheet
}

/// The figures that a square has room for.
const FEW: [Figure; 3] = [Figure::Stack, Figure::Reach, Figure::Trail];

/// The sheet for laying over film: light lines for a dark one, dark ones for a light one.
fn overlay_of(sheet: &Sheet) -> Sheet {
    let background = film_ground(sheet.background);
    match sheet.shape {
        Shape::Wide | Shape::Upright | Shape::Square => Sheet { background, ..sheet.clone() },
        _ => Sheet { background, shape: Shape::Wide, width: None, ..sheet.clone() },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;
    use crate::publish::carried;

    fn small() -> (Lineup, Sheet) {
        let lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        (lineup, Sheet { width: Some(320), ..Sheet::default() })
    }

    #[test]
    fn the_same_line_up_gives_the_same_folder() {
        let (lineup, sheet) = small();
        let findings = Findings::of(&lineup);
        let going = PublishProgress::default();
        let made = sheet_folder(&findings, &lineup, &sheet, &going).unwrap();
        assert_eq!(made.problems, Vec::<String>::new());
        let (done, of) = going.progress();
        assert!(done == of && of > 0, "{done} of {of}");
        assert_eq!(made, sheet_folder(&findings, &lineup, &sheet, &PublishProgress::default()).unwrap());
        let names: Vec<&str> = made.files.iter().map(|f| f.0.as_str()).collect();
        let expected = [
            "picture.png",
            "picture.svg",
            "upright.png",
            "square.png",
            "overlay.png",
            "sheet.pdf",
            "page.html",
            "figures.csv",
            "figures.md",
            "comparison.lineup.ron",
        ];
        assert_eq!(names, expected);
    }

    #[test]
    fn whoever_has_only_one_file_has_the_comparison() {
        let (lineup, sheet) = small();
        let made = sheet_folder(&Findings::of(&lineup), &lineup, &sheet, &PublishProgress::default()).unwrap();
        for name in ["picture.png", "picture.svg", "upright.png", "square.png", "page.html"] {
            let (_, bytes) = made.files.iter().find(|f| f.0 == name).unwrap();
            assert_eq!(read_lineup(&carried(bytes).unwrap()).unwrap(), lineup, "{name}");
        }
        let (_, film) = made.files.iter().find(|f| f.0 == "overlay.png").unwrap();
        assert!(carried(film).unwrap_err().to_string().contains("carries no comparison"));
        // A file without it is none that was cut off.
        let (_, picture) = &made.files[0];
        assert!(carried(&picture[..picture.len() / 20]).is_err());
    }

    #[test]
    fn it_can_be_stopped() {
        let (lineup, sheet) = small();
        let going = PublishProgress::default();
        going.stop();
        assert_eq!(sheet_folder(&Findings::of(&lineup), &lineup, &sheet, &going), Err(Stopped));
        assert_eq!(going.progress().0, 0);
    }
}
