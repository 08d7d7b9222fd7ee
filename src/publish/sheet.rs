//! A sheet as SVG text, as a PNG file, as bare pixels and as a PDF page.
//!
//! Invariant: all of them show the one scene that the window shows.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

use super::carried::{CARRIED_KEYWORD, CARRIED_METADATA, CARRIED_NAME};
use super::pdf::{PdfError, pdf_with};
use super::png::{Pixels, PngError, pixels, png, png_carrying};
use super::svg::{SvgLook, svg_with};
use crate::drawing::{Background, PX_PER_MM, Page, Scene};
use crate::frameset::WriteError;
use crate::lineup::{Sheet, SheetBackground};

/// Why a sheet could not be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SheetError {
    /// Its picture could not.
    #[error("{0}")]
    Picture(#[from] PngError),
    /// Its PDF could not.
    #[error("{0}")]
    Pdf(#[from] PdfError),
    /// The comparison that it carries could not be written.
    #[error("{0}")]
    Write(#[from] WriteError),
}

/// The colours that a ground takes.
#[must_use]
pub const fn sheet_background(background: SheetBackground) -> Background {
    match background {
        SheetBackground::Light | SheetBackground::TransparentLight => Background::Light,
        SheetBackground::Dark | SheetBackground::TransparentDark => Background::Dark,
    }
}

/// Pixels across and down of a scene on that sheet.
#[must_use]
pub fn sheet_size(scene: &Scene, sheet: &Sheet) -> (u32, u32) {
    let width = sheet.pixels_across();
    let height = (f64::from(width) * scene.page.height / scene.page.width).round().clamp(1.0, f64::from(super::MOST_PIXELS));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between one and the most pixels")]
    let height = height as u32;
    (width, height)
}

fn look(sheet: &Sheet, has_fonts: bool) -> SvgLook {
    SvgLook {
        background: sheet_background(sheet.background),
        is_clear: sheet.background.is_clear(),
        has_fonts,
        ..SvgLook::default()
    }
}

/// A scene of the sheet as an SVG file of the sheet's size.
#[must_use]
pub fn sheet_svg(scene: &Scene, sheet: &Sheet) -> String {
    let (width, height) = sheet_size(scene, sheet);
    svg_with(scene, look(sheet, true), f64::from(width), f64::from(height))
}

/// The same with a line-up's file in its metadata.
#[must_use]
pub fn sheet_svg_carrying(scene: &Scene, sheet: &Sheet, file: &str) -> String {
    // What users wrote is escaped, so the first end of a description is the picture's own.
    let end = "</desc>\n";
    let carrying = format!("{end}{CARRIED_METADATA}{}</metadata>\n", STANDARD.encode(file));
    sheet_svg(scene, sheet).replacen(end, &carrying, 1)
}

/// The same for whoever paints it and has the fonts.
pub(super) fn for_painting(scene: &Scene, sheet: &Sheet) -> (String, (u32, u32)) {
    let (width, height) = sheet_size(scene, sheet);
    (svg_with(scene, look(sheet, false), f64::from(width), f64::from(height)), (width, height))
}

/// A scene of the sheet as a PNG file, see-through where its ground is clear.
///
/// # Errors
/// As [`png`](super::png()).
pub fn sheet_png(scene: &Scene, sheet: &Sheet) -> Result<Vec<u8>, SheetError> {
    let (svg, (width, height)) = for_painting(scene, sheet);
    Ok(png(&svg, width, height)?)
}

/// The same with a line-up's file in a chunk of text.
///
/// # Errors
/// As [`png`](super::png()).
pub fn sheet_png_carrying(scene: &Scene, sheet: &Sheet, file: &str) -> Result<Vec<u8>, SheetError> {
    Ok(png_carrying(&sheet_pixels(scene, sheet)?, CARRIED_KEYWORD, file)?)
}

/// A scene of the sheet as bare pixels.
///
/// # Errors
/// As [`png`](super::png()).
pub fn sheet_pixels(scene: &Scene, sheet: &Sheet) -> Result<Pixels, SheetError> {
    let (svg, (width, height)) = for_painting(scene, sheet);
    Ok(pixels(&svg, width, height)?)
}

/// A scene of a paper sheet as a PDF of that paper; of a screen's sheet, as large as its page. A clear ground is white.
///
/// # Errors
/// As [`pdf`](super::pdf()).
pub fn sheet_pdf(scene: &Scene, sheet: &Sheet) -> Result<Vec<u8>, SheetError> {
    sheet_pdf_carrying(scene, sheet, None)
}

/// The same with a line-up's file as its attachment.
///
/// # Errors
/// As [`pdf`](super::pdf()).
pub fn sheet_pdf_carrying(scene: &Scene, sheet: &Sheet, file: Option<&str>) -> Result<Vec<u8>, SheetError> {
    let background = if sheet.background == SheetBackground::Dark { Background::Dark } else { Background::White };
    let mut scene = scene.clone();
    if let Some((width, height)) = sheet.shape.paper_mm() {
        let page = Page { width: width * PX_PER_MM, height: height * PX_PER_MM };
        let by = page.width / scene.page.width;
        scene = scene.scaled(by);
        // Paper's sizes are rounded to millimetres: twice A4 is a twentieth of one higher than A3.
        scene.page = page;
    }
    Ok(pdf_with(&[scene], background, None, file.map(|f| (CARRIED_NAME, f.as_bytes())))?)
}
