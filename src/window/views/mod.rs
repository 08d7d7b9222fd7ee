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
mod frameset_table;
mod key_figures;
pub(crate) mod outline;
mod parts;
mod plot;
mod price_and_climb;
mod price_and_climb_panel;
mod publish;
mod publish_panel;
mod side_panel;
mod switch;
mod view;
mod weight;
mod weight_ledger;
mod weight_panel;

use egui::{Align2, Id, RichText, Sense, Ui, vec2};

use super::commands::{Command, about};
use super::labels::drawings as labels;
use super::requests::Requests;
use super::shown::Shown;
use super::theme::{BODY, Tones, regular, semibold};
pub(crate) use super::view_id::ViewId;
use crate::geometry::AdjustedSize;
use switch::switch_ui;
pub(crate) use view::View;

/// What shows a view.
pub(crate) fn view(id: ViewId) -> &'static dyn View {
    match id {
        ViewId::Outline => &outline::Outline,
        ViewId::Steering => &plot::STEERING,
        ViewId::StackAndReach => &plot::STACK_AND_REACH,
        ViewId::AllFigures => &all_figures::AllFigures,
        ViewId::Bags => &bags::Bags,
        ViewId::Parts => &parts::Parts,
        ViewId::Fork => &fork::Fork,
        ViewId::ContactPoints => &contact_points::ContactPoints,
        ViewId::Weight => &weight::Weight,
        ViewId::PriceAndClimb => &price_and_climb::PriceAndClimb,
        ViewId::Frameset => &frameset_table::FramesetTable,
        ViewId::Check => &check::Check,
        ViewId::Publish => &publish::Publish,
    }
}

/// The row of tabs and the view in front.
pub(crate) fn views_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let tones = Tones::of(ui);
    let front = shown.moment.view;
    let view = view(front);
    let has_frames = !shown.lineup().frames.is_empty();
    let tools = has_frames.then_some(view);
    egui::Frame::NONE.inner_margin(egui::Margin { left: 16, right: 12, top: 4, bottom: 0 }).show(ui, |ui| {
        let wanted = Id::unique(("width of tools", front));
        let width = ui.data(|d| d.get_temp::<f32>(wanted)).unwrap_or(0.0);
        let gaps = TabGaps::within(ui);
        let is_narrow = tabs_width(ui, gaps) > ui.available_width();
        let mut row = |ui: &mut Ui| {
            tabs_ui(ui, front, gaps, tones, out);
            let fits = !is_narrow && ui.available_width() >= width + 16.0;
            if let (Some(view), true) = (tools, fits) {
                tools_ui(ui, view, wanted, shown, out);
            }
            fits
        };
        let rest = if is_narrow { ui.horizontal_wrapped(&mut row) } else { ui.horizontal(&mut row) };
        // Where the tabs leave too little room, the tools stand in a row of their own.
        if let (Some(view), false) = (tools, rest.inner) {
            ui.horizontal(|ui| tools_ui(ui, view, wanted, shown, out));
            ui.add_space(4.0);
        }
    });
    let line = ui.available_rect_before_wrap();
    ui.painter().hline(line.x_range(), line.top(), (1.0, tones.hairline()));
    ui.add_space(1.0);
    if has_frames {
        view.ui(ui, shown, front, out);
    } else {
        empty_ui(ui, tones, out);
    }
}

/// Spaces between tabs, points.
#[derive(Clone, Copy)]
struct TabGaps {
    /// Between two tabs.
    tabs: f32,
    /// Further space between two groups of tabs; none where tabs stand close.
    groups: f32,
}

impl TabGaps {
    const WIDE: Self = Self { tabs: 18.0, groups: 14.0 };
    const CLOSE: Self = Self { tabs: 9.0, groups: 0.0 };

    /// The widest spaces with which all tabs stand in one row; the closest where none do.
    fn within(ui: &Ui) -> Self {
        let (wide, close) = (tabs_width(ui, Self::WIDE), tabs_width(ui, Self::CLOSE));
        let share = ((ui.available_width() - close) / (wide - close)).clamp(0.0, 1.0);
        let between = |close: f32, wide: f32| close + share * (wide - close);
        Self { tabs: between(Self::CLOSE.tabs, Self::WIDE.tabs), groups: between(Self::CLOSE.groups, Self::WIDE.groups) }
    }
}

/// Width of all tabs in one row.
fn tabs_width(ui: &Ui, gaps: TabGaps) -> f32 {
    let width =
        |label: &str| ui.painter().layout_no_wrap(label.to_owned(), regular(BODY + 1.0), egui::Color32::PLACEHOLDER).size().x;
    let labels: f32 = ViewId::ALL.iter().map(|v| width(v.label())).sum();
    let groups = ViewId::ALL.iter().filter(|v| v.begins_group()).count() as f32;
    // Half a point for each tab, by which the row may round its place.
    labels + (gaps.tabs + 0.5) * (ViewId::ALL.len() - 1) as f32 + gaps.groups * groups
}

fn tabs_ui(ui: &mut Ui, front: ViewId, gaps: TabGaps, tones: Tones, out: &mut Requests) {
    ui.spacing_mut().item_spacing.x = gaps.tabs;
    for view in ViewId::ALL {
        if view.begins_group() {
            ui.add_space(gaps.groups);
        }
        if tab_ui(ui, view, view == front, tones) {
            out.command(Command::Show(view));
        }
    }
    ui.spacing_mut().item_spacing.x = 8.0;
}

/// A view's tools at the right end of a row; remembers how wide they are.
fn tools_ui(ui: &mut Ui, view: &dyn View, wanted: Id, shown: Shown<'_>, out: &mut Requests) {
    let row = ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
        view.tools_ui(ui, shown, out);
        ui.min_rect().width()
    });
    ui.data_mut(|d| d.insert_temp(wanted, row.inner));
}

fn tab_ui(ui: &mut Ui, view: ViewId, is_front: bool, tones: Tones) -> bool {
    let label = view.label();
    let galley = ui.painter().layout_no_wrap(label.to_owned(), regular(BODY + 1.0), tones.ink());
    let (rect, response) = ui.allocate_exact_size(vec2(galley.size().x, 34.0), Sense::click());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Tab, true, is_front, label));
    let colour = if is_front || response.hovered() || response.has_focus() { tones.ink() } else { tones.second() };
    ui.painter().galley_with_override_text_color(
        egui::pos2(rect.left(), rect.center().y - galley.size().y / 2.0),
        galley,
        colour,
    );
    if is_front {
        ui.painter().hline(rect.x_range(), rect.bottom() - 1.5, (2.0, tones.ink()));
    } else if response.has_focus() {
        ui.painter().hline(rect.x_range(), rect.bottom() - 1.5, (1.0, tones.second()));
    }
    let keys = about(Command::Show(view)).and_then(|a| a.shortcut).map(|s| ui.ctx().format_shortcut(&s)).unwrap_or_default();
    response.on_hover_text(format!("{} {keys}", view.tooltip())).clicked()
}

/// How to begin.
fn empty_ui(ui: &mut Ui, tones: Tones, out: &mut Requests) {
    let rect = ui.available_rect_before_wrap();
    let middle = rect.center() - vec2(0.0, 90.0);
    sketch(ui, middle - vec2(0.0, 34.0), tones);
    ui.painter().text(
        middle + vec2(0.0, 86.0),
        Align2::CENTER_CENTER,
        labels::DROP_FRAME_FILES_HERE,
        semibold(22.0),
        tones.ink(),
    );
    let below = egui::Rect::from_min_max(egui::pos2(rect.left(), middle.y + 108.0), rect.max);
    ui.scope_builder(egui::UiBuilder::new().max_rect(below), |ui| {
        ui.vertical_centered(|ui| {
            ui.spacing_mut().item_spacing.y = 10.0;
            ui.label(RichText::new(labels::OR_OPEN_A_SAVED_LINE).color(tones.second()));
            ui.add_space(4.0);
            if ui.button(labels::OPEN_FILES).clicked() {
                out.command(Command::Open);
            }
            ui.label(RichText::new(labels::CTRL_O_OPENS_FILES_CTRL).size(super::theme::SMALL).color(tones.second()));
        });
    });
}

/// A frame in a few strokes, as a sign of what belongs here.
fn sketch(ui: &Ui, middle: egui::Pos2, tones: Tones) {
    let at = |x: f32, y: f32| middle + vec2(x, y);
    let (rear, bb, seat, head, low, front) =
        (at(-92.0, 34.0), at(-22.0, 46.0), at(-46.0, -30.0), at(48.0, -50.0), at(54.0, -28.0), at(88.0, 34.0));
    for axle in [rear, front] {
        ui.painter().circle_stroke(axle, 52.0, (1.0, tones.hairline()));
    }
    for (a, b) in [(rear, bb), (rear, seat), (bb, seat), (seat, head), (bb, low), (head, low), (low, front)] {
        ui.painter().line_segment([a, b], (2.0, tones.second()));
    }
}

/// How many figures are unknown, and which, in a sentence.
pub(crate) fn missing_words(size: &AdjustedSize) -> (usize, String) {
    let missing: Vec<String> = size.missing().map(crate::words::in_sentence).collect();
    (missing.len(), labels::unknown(&missing.join(", ")))
}
