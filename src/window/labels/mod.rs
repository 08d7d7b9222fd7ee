//! Every label, tooltip, heading and sentence of the window, one file a panel or a group of views. Who translates or
//! proof-reads the window reads this folder alone; findings get their words in `words`.
//!
//! A text with values is a function: its parameters are already formatted. Nothing here decides what is shown.

pub(crate) mod all_figures;
pub(crate) mod bags;
pub(crate) mod changes;
pub(crate) mod check;
pub(crate) mod commands;
pub(crate) mod contact_points;
pub(crate) mod decisions;
pub(crate) mod drawings;
pub(crate) mod fork;
pub(crate) mod frameset;
pub(crate) mod help;
pub(crate) mod import_review;
pub(crate) mod line_up;
pub(crate) mod loaded;
pub(crate) mod notices;
pub(crate) mod overview;
pub(crate) mod parts;
pub(crate) mod price_and_climb;
pub(crate) mod publish;
pub(crate) mod questions;
pub(crate) mod side_panel;
pub(crate) mod start_screen;
pub(crate) mod views;
pub(crate) mod weight;

/// What a command or a view is called, and what it does in a sentence.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Named {
    /// Name on screen.
    pub(crate) label: &'static str,
    /// What it does or shows, in one sentence.
    pub(crate) tooltip: &'static str,
}
