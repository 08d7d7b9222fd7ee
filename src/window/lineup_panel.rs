//! The panel at the left: the frames of the line-up as cards, and what puts them on one footing.

use egui::{Id, Panel, Rect, RichText, ScrollArea, Sense, Ui, vec2};

use super::add_menu::add_menu_ui;
use super::card::{HANDLE_ID, card_ui};
use super::common_settings::common_settings_ui;
use super::edits::Edit;
use super::labels::line_up as labels;
use super::requests::{Request, Requests};
use super::shown::Shown;
use super::theme::{SMALL, Tones};
use crate::frameset::FrameIndex;

/// So many cards are always shown whole.
const MOST_CARDS: usize = 60;
/// Height of a card that was not shown yet, points.
const HEIGHT_OF_CARD: f32 = 72.0;

/// Shows the panel.
pub(crate) fn panel_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let tones = Tones::of(ui);
    let frame = egui::Frame::NONE.fill(tones.panel()).inner_margin(egui::Margin { left: 12, right: 12, top: 8, bottom: 8 });
    let panel = Panel::left("line-up").default_size(shown.session.panel_width).size_range(296.0..=460.0).resizable(true);
    let response = panel.frame(frame).show(ui, |ui| {
        Panel::bottom("footing").resizable(false).show_separator_line(false).frame(egui::Frame::NONE).show(ui, |ui| {
            common_settings_ui(ui, shown, out);
        });
        head_ui(ui, shown, tones, out);
        ScrollArea::vertical().id_salt("cards").auto_shrink([false, false]).show(ui, |ui| {
            cards_ui(ui, shown, tones, out);
        });
    });
    let width = response.response.rect.width();
    if (width - shown.session.panel_width).abs() > 0.5 {
        out.push(Request::PanelWidth(width));
    }
}

fn head_ui(ui: &mut Ui, shown: Shown<'_>, tones: Tones, out: &mut Requests) {
    ui.horizontal(|ui| {
        ui.label(RichText::new(labels::LINE_UP).heading().color(tones.ink()));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            ui.menu_button(labels::ADD, |ui| add_menu_ui(ui, shown, out));
        });
    });
    ui.add_space(2.0);
}

fn cards_ui(ui: &mut Ui, shown: Shown<'_>, tones: Tones, out: &mut Requests) {
    ui.spacing_mut().item_spacing.y = 6.0;
    let rects = rects_of_cards(ui, shown, tones, out);
    drag_ui(ui, &rects, tones, out);
    show_selected(ui, &rects, shown);
    ui.add_space(2.0);
    let hint = if rects.is_empty() { labels::DROP_FRAME_FILES_HERE } else { labels::DROP_MORE_FRAME_FILES_ANYWHERE };
    // Below many cards it would be cut off and say nothing.
    if rects.is_empty() || ui.cursor().top() + 2.0 * SMALL < ui.clip_rect().bottom() {
        ui.label(RichText::new(hint).size(SMALL).color(tones.second()));
    }
}

/// Shows the cards and says where each lies. Of very many, those far out of view are left empty, as high as they last were.
fn rects_of_cards(ui: &mut Ui, shown: Shown<'_>, tones: Tones, out: &mut Requests) -> Vec<Rect> {
    let count = shown.lineup().frames.len();
    if count <= MOST_CARDS {
        return FrameIndex::all(count).map(|index| card_ui(ui, index, shown, tones, out)).collect();
    }
    let id = Id::unique("heights of cards");
    let mut heights: Vec<f32> = ui.data_mut(|d| d.remove_temp(id)).unwrap_or_default();
    heights.resize(count, HEIGHT_OF_CARD);
    let near = ui.clip_rect().expand2(vec2(0.0, ui.clip_rect().height()));
    let rects = FrameIndex::numbered(&mut heights).map(|(index, height)| {
        let place = Rect::from_min_size(ui.cursor().min, vec2(ui.available_width(), *height));
        if near.intersects(place) {
            let rect = card_ui(ui, index, shown, tones, out);
            *height = rect.height();
            rect
        } else {
            ui.allocate_space(place.size()).1
        }
    });
    let rects = rects.collect();
    ui.data_mut(|d| d.insert_temp(id, heights));
    rects
}

/// Brings the selected frame's card into view when another one was selected or added.
fn show_selected(ui: &Ui, rects: &[Rect], shown: Shown<'_>) {
    let now = (shown.moment.selected, rects.len());
    let id = Id::unique("card in view");
    if ui.data(|d| d.get_temp(id)) != Some(now) {
        ui.data_mut(|d| d.insert_temp(id, now));
        if let Some(rect) = rects.get(now.0.0) {
            ui.scroll_to_rect(*rect, None);
        }
    }
}

/// A card being dragged by its handle: a rule shows where it would go, and it goes there when the button is let go.
fn drag_ui(ui: &Ui, rects: &[Rect], tones: Tones, out: &mut Requests) {
    let ctx = ui.ctx();
    let Some(from) = (0..rects.len()).find(|i| {
        let id = egui::Id::unique((HANDLE_ID, *i));
        ctx.is_being_dragged(id) || ctx.drag_stopped_id() == Some(id)
    }) else {
        return;
    };
    let Some(pointer) = ctx.pointer_interact_pos() else { return };
    let gap = rects.iter().filter(|r| r.center().y < pointer.y).count();
    let to = if gap > from { gap - 1 } else { gap };
    if ctx.drag_stopped_id() == Some(egui::Id::unique((HANDLE_ID, from))) {
        if to != from {
            out.push(Request::Select(FrameIndex(from)));
            out.edit(Edit::Move { from: FrameIndex(from), to: FrameIndex(to) });
        }
        return;
    }
    let edge = match rects.get(gap) {
        Some(next) => next.top() - 3.0,
        None => rects.last().map_or(0.0, |last| last.bottom() + 3.0),
    };
    if let Some(first) = rects.first() {
        ui.painter().hline(first.x_range(), edge, (2.0, tones.ink()));
    }
    ctx.set_cursor_icon(egui::CursorIcon::Grabbing);
}

/// Senses a click anywhere on a card that none of its controls takes.
pub(crate) fn background(ui: &Ui, rect: Rect, index: FrameIndex) -> egui::Response {
    ui.interact(rect, egui::Id::unique(("card", index)), Sense::click())
}
