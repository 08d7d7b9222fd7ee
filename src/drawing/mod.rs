//! A scene: lines, areas, circles and text on a page, with no toolkit in it. The window paints it and the exporters
//! write it, so what is published is what was seen.
//!
//! Invariant: no toolkit, no file format, no colour outside the palette: items hold style *roles*; a palette turns roles
//! into colours.

mod balloons;
mod dimensions;
pub mod fonts;
mod grid;
mod measure;
mod outline_scene;
mod outline_targets;
mod palette;
mod pen;
mod rect;
#[cfg(test)]
mod sample;
mod scene;
mod standing;
mod tube_lines;
mod view;
mod wording;

pub use measure::{ASCENT, CAP_HEIGHT, DESCENT, LINE_HEIGHT, shorten, text_width, wrap};
pub use outline_scene::{fit_outline, outline_scene};
pub use palette::{FRAME_COLOURS, Ground, LINE_CONTRAST, Palette, Rgb, TEXT_CONTRAST, dashes, frame_pattern};
pub use rect::Rect;
pub use scene::{Anchor, Fill, Item, Page, Pattern, Pt, Role, Scene, Stroke, Target, Weight};
pub use view::View;
pub use wording::{CAUTION, difference_text, frame_and_size, in_sentence, value_and_leans, value_text};
