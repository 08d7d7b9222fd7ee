//! A pattern's pages as a file to print: PDF, or SVG where all is on one sheet.

use super::pdf::{PdfError, pdf};
use super::svg::svg_in_mm;
use crate::drawing::{Background, Scene};
use crate::units::Day;

/// The file's bytes, on white. An SVG holds the first page only: ask for one sheet.
///
/// # Errors
/// As [`pdf`].
pub fn pattern_file(pages: &[Scene], is_pdf: bool, day: Option<Day>) -> Result<Vec<u8>, PdfError> {
    if is_pdf {
        return pdf(pages, Background::White, day);
    }
    pages.first().map(|page| svg_in_mm(page, Background::White).into_bytes()).ok_or(PdfError::NoPage)
}
