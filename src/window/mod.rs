//! The window: the only room that knows the toolkit. Panels, keyboard, undo, dialogs; it paints scenes and shows tables.
//!
//! No figure is computed here. Three kinds of state: the *document* (`document.rs`: saved, undoable), the *session*
//! (`session.rs`: remembered, losable) and the *moment* (`moment.rs`). Panels are given them behind `&` and push
//! requests; `apply.rs` alone does what is asked for.

#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "drawings are f64, the screen's places f32: a point is enough"
)]

mod add_menu;
mod app;
mod apply;
mod apply_answers;
mod apply_frame;
mod apply_frames;
mod apply_pattern;
mod apply_picture;
mod apply_reading;
mod apply_saving;
mod apply_sheet;
mod beside;
mod canvas;
mod card;
mod clipboard;
pub mod commands;
mod common_settings;
mod document;
mod edits;
mod entry;
mod file_names;
mod files;
mod fit_edits;
mod help;
mod import_review;
mod import_review_specification;
mod import_review_ui;
mod keeper;
mod key_order;
mod labels;
mod lineup_panel;
mod measure;
mod menu;
mod moment;
mod named;
mod notices;
mod outside;
mod paint;
mod plot_field;
mod question;
mod question_parts;
mod questions;
mod quitting;
mod reader;
mod recovery;
mod requests;
mod saving_questions;
mod session;
mod sheet_edits;
mod shown;
mod start;
mod theme;
mod view_id;
mod viewport;
mod views;
mod weight_and_price_edits;
mod work;

pub use app::{Chooser, Window};
pub use edits::{Edit, Plot};
pub use fit_edits::FitEdit;
pub use session::Appearance;
pub use sheet_edits::{SheetEdit, SheetPlace};
pub use start::{StartError, run};
pub use view_id::{ViewGroup, ViewId};
pub use weight_and_price_edits::WeightAndPriceEdit;
