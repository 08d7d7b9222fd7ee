//! A scene: lines, areas, circles and text on a page, with no toolkit in it. The window paints it and the exporters
//! write it, so what is published is what was seen.
//!
//! Invariant: no toolkit, no file format, no colour outside the palette: items hold style *roles*; a palette turns roles
//! into colours.

pub mod fonts;
mod measure;
mod palette;
mod scene;

pub use measure::{ASCENT, CAP_HEIGHT, DESCENT, LINE_HEIGHT, shorten, text_width, wrap};
pub use palette::{FRAME_COLOURS, Ground, LINE_CONTRAST, Palette, Rgb, TEXT_CONTRAST, dashes, frame_pattern};
pub use scene::{Anchor, Fill, Item, Page, Pattern, Pt, Role, Scene, Stroke, Target, Weight};
