//! Two rows of tabs: the groups of views, and below them the views of the group in front with their tools.

use egui::{Color32, Id, Response, Sense, Ui, vec2};

use super::super::commands::{Command, about, keys_in_group};
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::theme::{BODY, Tones, regular, semibold};
use super::super::view_id::{ViewGroup, ViewId};
use super::view::View;

/// Height of the row of groups, points.
const GROUPS: f32 = 32.0;
/// Height of the row of views, points.
const VIEWS: f32 = 30.0;
/// Space between two groups, points.
const BETWEEN_GROUPS: f32 = 24.0;
/// Space between two views, points.
const BETWEEN_VIEWS: f32 = 4.0;
/// Space at either side of a view's name, within its tab, points.
const BESIDE_NAME: f32 = 8.0;

/// Shows both rows. The tools are those of the view in front; without frames there are none.
pub(super) fn tabs_ui(ui: &mut Ui, front: ViewId, tools: Option<&dyn View>, shown: Shown<'_>, out: &mut Requests) {
    let tones = Tones::of(ui);
    egui::Frame::NONE.inner_margin(egui::Margin { left: 16, right: 12, top: 2, bottom: 4 }).show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = BETWEEN_GROUPS;
            for group in ViewGroup::ALL {
                group_ui(ui, group, group == front.group(), tones, out);
            }
        });
        let wanted = Id::unique(("width of tools", front));
        let width = ui.data(|d| d.get_temp::<f32>(wanted)).unwrap_or(0.0);
        let has_views = front.group().only_view().is_none();
        // Where the views leave too little room, the tools stand in a row of their own.
        let fits = views_width(ui, front.group()) + 16.0 + width <= ui.available_width();
        if has_views || (fits && tools.is_some()) {
            let row = |ui: &mut Ui| {
                if has_views {
                    views_of_group_ui(ui, front, tones, out);
                }
                if let (Some(view), true) = (tools, fits) {
                    tools_ui(ui, view, wanted, shown, out);
                }
            };
            if fits {
                ui.horizontal(row)
            } else {
                ui.horizontal_wrapped(row)
            };
        }
        if let (Some(view), false) = (tools, fits) {
            ui.horizontal(|ui| tools_ui(ui, view, wanted, shown, out));
        }
    });
}

/// Width of the second row's tabs; none where a group has one view alone.
fn views_width(ui: &Ui, group: ViewGroup) -> f32 {
    if group.only_view().is_some() {
        return 0.0;
    }
    let width = |view: ViewId| {
        let name = ui.painter().layout_no_wrap(view.label().to_owned(), regular(BODY), Color32::PLACEHOLDER);
        name.size().x + 2.0 * BESIDE_NAME + BETWEEN_VIEWS
    };
    group.views().map(width).sum()
}

/// A group's tab. That of a group with one view alone is the view's.
fn group_ui(ui: &mut Ui, group: ViewGroup, is_front: bool, tones: Tones, out: &mut Requests) {
    let name = ui.painter().layout_no_wrap(group.label().to_owned(), semibold(BODY + 1.0), tones.ink());
    let (rect, response) = ui.allocate_exact_size(vec2(name.size().x, GROUPS), Sense::click());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Tab, true, is_front, group.label()));
    let colour = colour_of(&response, is_front, tones);
    let place = egui::pos2(rect.left(), rect.center().y - name.size().y / 2.0);
    ui.painter().galley_with_override_text_color(place, name, colour);
    if is_front {
        ui.painter().hline(rect.x_range(), rect.bottom() - 2.0, (2.0, tones.ink()));
    } else if response.has_focus() {
        ui.painter().hline(rect.x_range(), rect.bottom() - 2.0, (1.0, tones.second()));
    }
    let command = group.only_view().map_or(Command::ShowGroup(group), Command::Show);
    let keys = about(command).and_then(|a| a.shortcut).map(|s| ui.ctx().format_shortcut(&s)).unwrap_or_default();
    if response.on_hover_text(format!("{} {keys}", group.tooltip())).clicked() {
        out.command(command);
    }
}

fn views_of_group_ui(ui: &mut Ui, front: ViewId, tones: Tones, out: &mut Requests) {
    ui.spacing_mut().item_spacing.x = BETWEEN_VIEWS;
    // Names stand in line with those of the groups.
    ui.add_space(-BESIDE_NAME);
    for view in front.group().views() {
        if view_ui(ui, view, view == front, tones) {
            out.command(Command::Show(view));
        }
    }
    ui.spacing_mut().item_spacing.x = 8.0;
}

fn view_ui(ui: &mut Ui, view: ViewId, is_front: bool, tones: Tones) -> bool {
    let label = view.label();
    let name = ui.painter().layout_no_wrap(label.to_owned(), regular(BODY), tones.ink());
    let (rect, response) = ui.allocate_exact_size(vec2(name.size().x + 2.0 * BESIDE_NAME, VIEWS), Sense::click());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Tab, true, is_front, label));
    let ground = rect.shrink2(vec2(0.0, 3.0));
    if is_front {
        ui.painter().rect_filled(ground, 3.0, tones.hairline());
    } else if response.has_focus() {
        ui.painter().rect_stroke(ground, 3.0, (1.0, tones.second()), egui::StrokeKind::Inside);
    }
    let colour = colour_of(&response, is_front, tones);
    let place = egui::pos2(rect.left() + BESIDE_NAME, rect.center().y - name.size().y / 2.0);
    ui.painter().galley_with_override_text_color(place, name, colour);
    let keys = keys_in_group(view).map(|s| ui.ctx().format_shortcut(&s)).unwrap_or_default();
    response.on_hover_text(format!("{} {keys}", view.tooltip())).clicked()
}

fn colour_of(response: &Response, is_front: bool, tones: Tones) -> Color32 {
    if is_front || response.hovered() || response.has_focus() { tones.ink() } else { tones.second() }
}

/// A view's tools at the right end of a row; remembers how wide they are.
fn tools_ui(ui: &mut Ui, view: &dyn View, wanted: Id, shown: Shown<'_>, out: &mut Requests) {
    let row = ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
        view.tools_ui(ui, shown, out);
        ui.min_rect().width()
    });
    ui.data_mut(|d| d.insert_temp(wanted, row.inner));
}
