//! Scenes and tables as files: SVG, PNG, PDF and HTML, moving PNG and GIF; CSV, Markdown and tabbed text.
//!
//! Not here: deciding what is shown, and the disk: everything ends in text or bytes. Invariant: no exporter knows
//! another; a PNG is made from an SVG's text, which whoever wants it hands over.

mod apng;
mod carried;
mod csv;
mod film_error;
mod fit_tables;
mod gif;
mod html;
mod markdown;
mod pattern;
mod pdf;
mod picture;
mod png;
mod sequence;
mod sheet;
mod sheet_folder;
mod sheet_page;
mod svg;
mod tabbed;

pub use apng::MovingPng;
pub use carried::{CARRIED_KEYWORD, CARRIED_METADATA, CARRIED_NAME, NotCarried, carried};
pub use csv::{LineEnd, csv, csv_line};
pub use film_error::FilmError;
pub use fit_tables::{fit_csv, fit_markdown};
pub use gif::MovingGif;
pub use html::{WebPage, html};
pub use markdown::{markdown, markdown_remarks, markdown_text};
pub use pattern::pattern_file;
pub use pdf::{PdfError, pdf, pdf_with};
pub use picture::{picture_png, picture_svg};
pub use png::{MOST_PIXELS, Painter, Pixels, PngError, pixels, png, png_carrying, png_quickly};
pub use sequence::{Files, film_ground, sequence};
pub use sheet::{
    SheetError, sheet_background, sheet_pdf, sheet_pdf_carrying, sheet_pixels, sheet_png, sheet_png_carrying, sheet_size,
    sheet_svg, sheet_svg_carrying,
};
pub use sheet_folder::{PublishProgress, PublishedFiles, Stopped, sheet_folder};
pub use sheet_page::sheet_page;
pub use svg::{SvgLook, svg, svg_in_mm, svg_of_size, svg_with};
pub use tabbed::tabbed;
