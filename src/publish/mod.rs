//! Scenes and tables as files: SVG and PNG.
//!
//! Not here: deciding what is shown, and the disk: everything ends in text or bytes. Invariant: no exporter knows
//! another; a PNG is made from an SVG's text, which whoever wants it hands over.

mod png;
mod svg;

pub use png::{MOST_PIXELS, Pixels, PngError, pixels, png};
pub use svg::{svg, svg_of_size};
