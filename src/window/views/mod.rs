//! The views behind the tabs. Adding one is a file here, a line in [`view`] and one in
//! [`ViewId`]; its tab, menu entry and key follow.

pub(crate) mod all_figures;
mod bags;
mod check;
mod check_slips;
mod contact_points;
pub(crate) mod decisions;
mod edited_frameset;
mod fork;
mod frameset_facts;
mod frameset_lists;
mod frameset_table;
mod key_figures;
mod loaded;
mod loaded_panel;
mod offers;
pub(crate) mod outline;
mod overview;
mod parts;
mod plot;
mod price_and_climb;
mod price_and_climb_panel;
mod publish;
mod publish_panel;
mod side_panel;
mod start_screen;
mod switch;
mod tabs;
mod view;
mod weight;
mod weight_ledger;
mod weight_panel;

use egui::{RichText, Ui};

use super::edits::Edit;
use super::fit_edits::FitEdit;
use super::labels::{contact_points as fit_labels, drawings as labels};
use super::requests::Requests;
use super::shown::Shown;
use super::theme::{SMALL, Tones};
pub(crate) use super::view_id::ViewId;
use crate::geometry::AdjustedSize;
use crate::lineup::with_matched_sizes;
use crate::words::{fit_sentences, unlike_text};
use switch::switch_ui;
pub(crate) use view::View;

/// What shows a view.
pub(crate) fn view(id: ViewId) -> &'static dyn View {
    match id {
        ViewId::Overview => &overview::Overview,
        ViewId::Outline => &outline::Outline,
        ViewId::Steering => &plot::STEERING,
        ViewId::StackAndReach => &plot::STACK_AND_REACH,
        ViewId::AllFigures => &all_figures::AllFigures,
        ViewId::Bags => &bags::Bags,
        ViewId::Parts => &parts::Parts,
        ViewId::Fork => &fork::Fork,
        ViewId::ContactPoints => &contact_points::ContactPoints,
        ViewId::Loaded => &loaded::Loaded,
        ViewId::Weight => &weight::Weight,
        ViewId::PriceAndClimb => &price_and_climb::PriceAndClimb,
        ViewId::Frameset => &frameset_table::FramesetTable,
        ViewId::Check => &check::Check,
        ViewId::Publish => &publish::Publish,
    }
}

/// The tabs and the view in front.
pub(crate) fn views_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let tones = Tones::of(ui);
    let front = shown.moment.view;
    let view = view(front);
    let has_frames = !shown.lineup().frames.is_empty();
    tabs::tabs_ui(ui, front, has_frames.then_some(view), shown, out);
    let line = ui.available_rect_before_wrap();
    ui.painter().hline(line.x_range(), line.top(), (1.0, tones.hairline()));
    ui.add_space(1.0);
    if has_frames {
        unlike_ui(ui, shown, tones, out);
        offers::offers_ui(ui, shown, front, out);
        view.ui(ui, shown, front, out);
    } else if shown.moment.reading.is_none() {
        start_screen::start_screen_ui(ui, shown, tones, out);
    }
}

/// The button that sets every other frame to the size that is closest in fit.
fn use_closest_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let sizes = with_matched_sizes(shown.lineup(), &shown.findings().fit);
    let button = ui.add_enabled(!sizes.is_empty(), egui::Button::new(fit_labels::USE_THE_CLOSEST_SIZES));
    if button.on_hover_text(fit_labels::SETS_CLOSEST_SIZES).clicked() {
        out.edit(Edit::Fit(FitEdit::Sizes(sizes)));
    }
}

/// Above every view that compares: which frames are not alike in fit.
fn unlike_ui(ui: &mut Ui, shown: Shown<'_>, tones: Tones, out: &mut Requests) {
    let units = shown.lineup().settings.units;
    let Some(text) = unlike_text(shown.findings(), units) else { return };
    egui::Frame::NONE.inner_margin(egui::Margin::symmetric(16, 3)).show(ui, |ui| {
        ui.horizontal(|ui| {
            let has_closer = shown.moment.view != ViewId::ContactPoints
                && !with_matched_sizes(shown.lineup(), &shown.findings().fit).is_empty();
            if has_closer {
                use_closest_ui(ui, shown, out);
            }
            let told = ui.add(egui::Label::new(RichText::new(text).size(SMALL).color(tones.ink())).truncate());
            told.on_hover_text(fit_sentences(shown.findings(), units).join(" "));
        });
    });
}

/// How many figures are unknown, and which, in a sentence.
pub(crate) fn missing_words(size: &AdjustedSize) -> (usize, String) {
    let missing: Vec<String> = size.missing().map(crate::words::in_sentence).collect();
    (missing.len(), labels::unknown(&missing.join(", ")))
}
