//! A scene: lines, areas, circles and text on a page, with no toolkit in it. The window paints it and the exporters
//! write it, so what is published is what was seen.
//!
//! Invariant: no toolkit, no file format, no colour: items hold style *roles*; a palette turns roles into colours.

mod scene;

pub use scene::{Anchor, Fill, Item, Page, Pattern, Pt, Role, Scene, Stroke, Target, Weight};
