//! A scene: lines, areas, circles and text on a page, with no toolkit in it. The window paints it and the exporters
//! write it, so what is published is what was seen.
//!
//! Invariant: no toolkit, no file format, no colour outside the palette: items hold style *roles*; a palette turns roles
//! into colours.

mod bag_space_layout;
mod bag_space_scene;
#[cfg(test)]
mod bag_space_scene_tests;
mod balloons;
mod both_ways_scene;
mod callouts;
mod climb_scene;
mod dashing;
mod dimensions;
mod fit_scene;
pub mod fonts;
mod frame_shape;
mod ghost;
mod grid;
mod hatch;
mod legend;
mod line_chart;
mod loaded_charts;
mod loaded_picture;
mod loaded_scene;
mod loaded_sides_scene;
mod mark_key;
mod measure;
mod order;
mod outline_scene;
mod outline_targets;
mod overview_scene;
mod palette;
mod pattern;
mod pattern_paper;
mod pattern_plate;
#[cfg(test)]
mod pattern_tests;
mod pen;
mod picture;
#[cfg(test)]
mod picture_tests;
mod plot_axes;
mod plot_labels;
mod plot_marks;
mod plot_scene;
mod plot_view;
mod price_and_climb_scene;
mod price_scene;
mod reach;
mod rear_scene;
mod rect;
mod rider_shape;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod sample_files;
mod scene;
#[cfg(test)]
mod scene_tests;
mod sheet;
mod standing;
mod ticks;
mod view;
mod weight_scene;

pub use bag_space_layout::{cut_through, is_on_cut};
pub use bag_space_scene::bag_space_scene;
pub use both_ways_scene::both_ways_scene;
pub use climb_scene::climb_scene;
pub use dashing::broken;
pub use fit_scene::{FitPart, fit_bands_scene, fit_height, fit_scene, fit_width};
pub use ghost::{change_scene, fit_change};
pub use loaded_charts::{LoadedCharts, loaded_charts, loaded_charts_height};
pub use loaded_scene::{loaded_height, loaded_scene};
pub use loaded_sides_scene::{loaded_sides_height, loaded_sides_scene};
pub use measure::{ASCENT, CAP_HEIGHT, DESCENT, LINE_HEIGHT, drawable, shorten, text_width, wrap};
pub use order::frame_pattern_of;
pub use outline_scene::{fit_outline, outline_scene, outline_scene_of};
pub use overview_scene::{OverviewLayout, OverviewPlace, overview_side_views};
pub use palette::{Background, FRAME_COLOURS, Palette, Rgb, TEXT_CONTRAST, dashes};
pub use pattern::pattern_scenes;
pub use pattern_paper::{PX_PER_MM, Paper};
pub use picture::{Look, Picture, picture_scene};
pub use plot_marks::{PlotAxis, PlotDot, PlotJoin, PlotMarks, PlotValue};
pub use plot_scene::{plot_marks, plot_scene};
pub use plot_view::{PlotView, fit_plot};
pub use price_and_climb_scene::{price_and_climb_around_plot, price_and_climb_height, price_and_climb_scene};
pub use price_scene::{price_marks, price_scene};
pub use reach::near;
pub use rear_scene::{rear_height, rear_scene};
pub use rect::Rect;
pub use scene::{Anchor, Fill, Item, Page, Pattern, Pt, Role, Scene, Stroke, Target, Weight};
pub use sheet::{
    BACKING, Format, LEAST_ON_PAPER, LEAST_ON_SCREENS, Moving, SheetDrawing, block_scene, overlay_scene, sheet_scene,
};
pub use view::View;
pub use weight_scene::{weight_height, weight_scene};
