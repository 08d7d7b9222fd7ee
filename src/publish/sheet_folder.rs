//! Everything that a sheet is published as, in one go: the picture in its own shape, one for a telephone, an overlay for
//! film, a sheet of paper, the tables, and the line-up itself.
//!
//! Not here: the disk. Invariants: the same line-up and sheet give the same names and bytes; it can be stopped between any
//! two pieces.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use super::{csv, markdown, sheet_pdf, sheet_png, sheet_svg};
use crate::drawing::{SheetDrawing, overlay_scene, sheet_scene};
use crate::lineup::{Findings, Lineup, Shape, Sheet, SheetGround, comparison_table, write_lineup};

/// How far it is, for whoever waits; and whether they still want it.
#[derive(Debug, Default)]
pub struct Going {
    done: AtomicUsize,
    of: AtomicUsize,
    is_stopped: AtomicBool,
}

impl Going {
    /// Pieces made, and how many there will be.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.done.load(Ordering::Relaxed), self.of.load(Ordering::Relaxed))
    }

    /// Asks for an end.
    pub fn stop(&self) {
        self.is_stopped.store(true, Ordering::Relaxed);
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
        if self.is_stopped.load(Ordering::Relaxed) { Err(Stopped) } else { Ok(()) }
    }
}

/// It was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("it was stopped")]
pub struct Stopped;

/// What a sheet was made into.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Made {
    /// Names, with `/` between folder and file, and bytes, in order.
    pub files: Vec<(String, Vec<u8>)>,
    /// What had no room, each with the file that it is missing from.
    pub left_out: Vec<String>,
    /// What could not be made, in sentences.
    pub problems: Vec<String>,
}

impl Made {
    fn add(&mut self, name: &str, bytes: Result<Vec<u8>, String>) {
        match bytes {
            Ok(bytes) => self.files.push((name.to_owned(), bytes)),
            Err(problem) => self.problems.push(format!("{name}: {problem}")),
        }
    }
}

/// Makes all of it.
///
/// # Errors
/// When it was stopped.
pub fn sheet_folder(findings: &Findings, lineup: &Lineup, sheet: &Sheet, going: &Going) -> Result<Made, Stopped> {
    let mut made = Made::default();
    going.expect(6);
    let drawing = sheet_scene(findings, lineup, sheet);
    made.add("picture.svg", Ok(sheet_svg(&drawing.scene, sheet).into_bytes()));
    picture(&mut made, "picture.png", &drawing, sheet);
    step(going)?;
    let upright = in_shape(sheet, Shape::Upright, &[Shape::Upright]);
    picture(&mut made, "upright.png", &sheet_scene(findings, lineup, &upright), &upright);
    step(going)?;
    let overlay = overlay_of(sheet);
    let scene = overlay_scene(findings, lineup, &overlay);
    made.add("overlay.png", sheet_png(&scene, &overlay).map_err(|e| e.to_string()));
    step(going)?;
    let paper = in_shape(sheet, Shape::A4, &[Shape::A4, Shape::A4Across, Shape::A3, Shape::A3Across]);
    let drawing = sheet_scene(findings, lineup, &paper);
    made.add("sheet.pdf", sheet_pdf(&drawing.scene, &paper).map_err(|e| e.to_string()));
    made.left_out.extend(drawing.left_out.iter().map(|why| format!("sheet.pdf: {why}")));
    step(going)?;
    let table = comparison_table(findings, lineup.settings.units);
    made.add("figures.csv", Ok(csv(&table).into_bytes()));
    made.add("figures.md", Ok(markdown(&table).into_bytes()));
    step(going)?;
    made.add("comparison.lineup.ron", write_lineup(lineup).map(String::into_bytes).map_err(|e| e.to_string()));
    step(going)?;
    Ok(made)
}

fn step(going: &Going) -> Result<(), Stopped> {
    going.count();
    going.check()
}

fn picture(made: &mut Made, name: &str, drawing: &SheetDrawing, sheet: &Sheet) {
    made.add(name, sheet_png(&drawing.scene, sheet).map_err(|e| e.to_string()));
    made.left_out.extend(drawing.left_out.iter().map(|why| format!("{name}: {why}")));
}

/// The sheet in another shape, unless its own is among those that will do.
fn in_shape(sheet: &Sheet, shape: Shape, will_do: &[Shape]) -> Sheet {
    if will_do.contains(&sheet.shape) {
        return sheet.clone();
    }
    let ground = if shape.paper_mm().is_some() { SheetGround::Paper } else { sheet.ground };
    Sheet { shape, width: None, ground, ..sheet.clone() }
}

/// The sheet for laying over film: light lines for a dark one, dark ones for a light one.
fn overlay_of(sheet: &Sheet) -> Sheet {
    let ground = match sheet.ground {
        SheetGround::Paper | SheetGround::ClearLight => SheetGround::ClearLight,
        SheetGround::Dark | SheetGround::ClearDark => SheetGround::ClearDark,
    };
    match sheet.shape {
        Shape::Wide | Shape::Upright | Shape::Square => Sheet { ground, ..sheet.clone() },
        _ => Sheet { ground, shape: Shape::Wide, width: None, ..sheet.clone() },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lineup::read_lineup;

    fn small() -> (Lineup, Sheet) {
        let lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        (lineup, Sheet { width: Some(320), ..Sheet::default() })
    }

    #[test]
    fn the_same_line_up_gives_the_same_folder() {
        let (lineup, sheet) = small();
        let findings = Findings::of(&lineup);
        let going = Going::default();
        let made = sheet_folder(&findings, &lineup, &sheet, &going).unwrap();
        assert_eq!(made.problems, Vec::<String>::new());
        let (done, of) = going.progress();
        assert!(done == of && of > 0, "{done} of {of}");
        assert_eq!(made, sheet_folder(&findings, &lineup, &sheet, &Going::default()).unwrap());
        let names: Vec<&str> = made.files.iter().map(|f| f.0.as_str()).collect();
        for name in ["picture.svg", "picture.png", "upright.png", "overlay.png", "sheet.pdf", "figures.csv", "figures.md"] {
            assert!(names.contains(&name), "{name} is missing from {names:?}");
        }
    }

    #[test]
    fn it_can_be_stopped() {
        let (lineup, sheet) = small();
        let going = Going::default();
        going.stop();
        assert_eq!(sheet_folder(&Findings::of(&lineup), &lineup, &sheet, &going), Err(Stopped));
        assert!(going.progress().0 <= 1);
    }
}
