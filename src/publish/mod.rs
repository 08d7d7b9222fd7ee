//! Scenes and tables as files: SVG, PNG and PDF; CSV, Markdown and tabbed text.
//!
//! Not here: deciding what is shown, and the disk: everything ends in text or bytes. Invariant: no exporter knows
//! another; a PNG is made from an SVG's text, which whoever wants it hands over.

mod csv;
mod fit_tables;
mod markdown;
mod pdf;
mod picture;
mod png;
mod svg;
mod tabbed;

pub use csv::{csv, csv_field};
pub use fit_tables::{fit_csv, fit_markdown};
pub use markdown::{markdown, markdown_text};
pub use pdf::{PdfError, pdf};
pub use picture::{picture_png, picture_svg};
pub use png::{MOST_PIXELS, Pixels, PngError, pixels, png};
pub use svg::{svg, svg_in_mm, svg_of_size};
pub use tabbed::tabbed;
