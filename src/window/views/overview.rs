//! The Overview: a column a frame, a row a measure. A cell leads to the view and the figure behind it; rows are chosen and
//! ordered, and limits are typed, at the right.

use std::sync::Arc;

use egui::{Id, RichText, ScrollArea, Sense, StrokeKind, Ui, pos2, vec2};

use super::super::canvas::{kept, tell};
use super::super::commands::Command;
use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::fit_edits::FitEdit;
use super::super::labels::{frameset as frameset_labels, overview as labels};
use super::super::named::{described, named};
use super::super::paint;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::{SMALL, Tones};
use super::side_panel::{arrow_ui, heading_ui, note_ui, side_panel_ui};
use super::{View, ViewId};
use crate::drawing::{OverviewLayout, OverviewPlace, Scene};
use crate::frameset::{Figure, FrameIndex};
use crate::lineup::{OverviewRow, PictureView, limit_need};
use crate::words::{Label, limit_in_brief, missing_entry_text, overview_table};

/// The overview.
pub(crate) struct Overview;

/// The least width at which it is laid out, points.
const LEAST_WIDTH: f32 = 360.0;

impl View for Overview {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        let is_open = shown.moment.has_overview_rows;
        if ui.selectable_label(is_open, labels::ROWS_AND_LIMITS).on_hover_text(labels::CHOOSES_ROWS).clicked() {
            out.push(Request::OverviewRows(!is_open));
        }
        if ui.button(labels::COPY_TABLE).on_hover_text(labels::COPIES_AS_TABS).clicked() {
            ui.ctx().copy_text(overview_table(shown.lineup(), shown.findings()).as_text());
        }
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        if shown.moment.has_overview_rows {
            side_panel_ui(ui, "overview rows", |ui| rows_ui(ui, shown, out));
        }
        let tones = Tones::of(ui);
        ScrollArea::both().id_salt("overview").auto_shrink([false, false]).show(ui, |ui| {
            cells_ui(ui, shown, tones, out);
            ui.horizontal(|ui| {
                ui.add_space(20.0);
                ui.label(RichText::new(labels::SELECT_A_CELL).size(SMALL).color(tones.second()));
            });
        });
        tell(ui.ctx(), None);
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::Overview)
    }
}

/// The scene and where its cells lie.
struct Laid {
    scene: Scene,
    places: Vec<OverviewPlace>,
}

/// The overview with its cells as buttons.
fn cells_ui(ui: &mut Ui, shown: Shown<'_>, tones: Tones, out: &mut Requests) {
    let (lineup, findings) = (shown.lineup(), shown.findings());
    let width = f64::from(ui.available_width().max(LEAST_WIDTH));
    let key = (shown.document.revision(), width.to_bits());
    let laid: Arc<Laid> = kept(ui, Id::unique("overview scene"), key, || {
        let layout = OverviewLayout::of(lineup, findings, width);
        Laid { scene: layout.scene(layout.height().max(60.0)), places: layout.places() }
    });
    let size = vec2(width as f32, laid.scene.page.height as f32);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    paint::scene(ui.painter(), rect.min, &laid.scene, tones);
    described(&response, labels::DRAWING, &laid.scene.description);
    for place in &laid.places {
        let corner = |x: f64, y: f64| pos2(rect.left() + x as f32, rect.top() + y as f32);
        let cell = egui::Rect::from_min_max(corner(place.rect.x, place.rect.y), corner(place.rect.right(), place.rect.bottom()));
        if !ui.is_rect_visible(cell) {
            continue;
        }
        let button = ui.interact(cell, Id::unique(("overview cell", place.row, place.frame)), Sense::click());
        named(&button, &place.name);
        if button.hovered() || button.has_focus() {
            ui.painter().rect_stroke(cell, 2.0, (1.2, tones.ink()), StrokeKind::Inside);
        }
        let missing = || findings.missing_behind(place.row?, place.frame);
        let button = button.on_hover_cursor(egui::CursorIcon::PointingHand).on_hover_ui(|ui| {
            ui.label(RichText::new(&place.name).strong());
            if !place.detail.is_empty() {
                ui.label(&place.detail);
            }
            if let Some((_, missing)) = missing() {
                ui.label(frameset_labels::select_to_enter(&missing_entry_text(missing)));
            }
        });
        if !button.clicked() {
            continue;
        }
        if let Some((frame, missing)) = missing() {
            out.push(Request::Enter(frame, missing));
        } else {
            out.push(Request::Select(place.frame));
            if let Some(figure) = place.row.and_then(|row| figure_behind(row, place.frame, shown)) {
                out.push(Request::Figure(figure));
            }
            out.command(Command::Show(view_behind(place.row)));
        }
    }
}

/// The view that shows what is behind a cell; behind a side view, the outline.
const fn view_behind(row: Option<OverviewRow>) -> ViewId {
    match row {
        None => ViewId::Outline,
        Some(OverviewRow::SizeFit) => ViewId::ContactPoints,
        Some(OverviewRow::Needs | OverviewRow::WidestTyre) => ViewId::Parts,
        Some(OverviewRow::LoadedWeight | OverviewRow::Price) => ViewId::PriceAndClimb,
        Some(OverviewRow::FramesetWeight) => ViewId::Weight,
        Some(OverviewRow::BagVolume | OverviewRow::Bottles) => ViewId::Bags,
        Some(OverviewRow::Trail | OverviewRow::Chainstay | OverviewRow::Wheelbase | OverviewRow::DoubtfulFigures) => {
            ViewId::Check
        }
    }
}

/// The figure that is behind a cell: the row's own, or the first doubtful one.
fn figure_behind(row: OverviewRow, frame: FrameIndex, shown: Shown<'_>) -> Option<Figure> {
    if row == OverviewRow::DoubtfulFigures {
        return frame.of(&shown.findings().frames)?.chosen()?.doubts.first().map(|doubt| doubt.figure);
    }
    row.figure()
}

/// All rows, the shown ones first and in their order, each with its limit.
fn rows_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    heading_ui(ui, labels::ROWS);
    note_ui(ui, labels::LIMITS_JOIN_THE_NEEDS);
    let settings = &shown.lineup().settings.overview;
    let hidden = OverviewRow::ALL.into_iter().filter(|row| !settings.rows().any(|shown| shown == *row));
    for (row, is_shown) in settings.rows().map(|row| (row, true)).chain(hidden.map(|row| (row, false))) {
        row_of_list_ui(ui, row, is_shown, shown, out);
    }
}

fn row_of_list_ui(ui: &mut Ui, row: OverviewRow, is_shown: bool, shown: Shown<'_>, out: &mut Requests) {
    let listed = &shown.lineup().settings.overview;
    let change = |out: &mut Requests, then: &dyn Fn(&mut crate::lineup::OverviewSettings)| {
        let mut settings = shown.lineup().settings.overview.clone();
        then(&mut settings);
        out.edit(Edit::Overview(settings));
    };
    ui.horizontal(|ui| {
        let mut is_now = is_shown;
        let check = ui.checkbox(&mut is_now, row.label());
        named(&check, labels::show_row(&row.label()));
        if check.changed() {
            change(out, &|settings| settings.show(row, is_now));
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            for (name, is_up) in [(labels::move_down(&row.label()), false), (labels::move_up(&row.label()), true)] {
                let at_end = if is_up { listed.rows().next() } else { listed.rows().last() };
                if arrow_ui(ui, &name, is_up, is_shown && at_end != Some(row)) {
                    change(out, &|settings| settings.shift(row, is_up));
                }
            }
            if row.takes_limit() {
                limit_ui(ui, row, shown, out);
            }
        });
    });
}

/// The limit of a row: the first need that limits it.
fn limit_ui(ui: &mut Ui, row: OverviewRow, shown: Shown<'_>, out: &mut Requests) {
    let units = shown.lineup().settings.units;
    let bead_mm = shown.findings().overview_bead_mm();
    let needs = &shown.lineup().settings.needs;
    let place = needs.iter().position(|need| need.limit().is_some_and(|limit| row.is_limited_by(limit.of, bead_mm)));
    let limit = place.and_then(|place| needs.get(place)?.limit());
    let name = labels::limit_of(&row.label());
    let entry = TypedField {
        id: Id::unique(("overview limit", row)),
        name: &name,
        current: limit.map_or_else(String::new, |limit| limit_in_brief(units, &limit)),
        hint: "≤",
        width: 64.0,
    };
    let (_, entered) = entry.show(ui, |text| limit_need(row, text, units, bead_mm));
    match (entered, place) {
        (Some(Some(need)), Some(place)) => out.edit(Edit::Fit(FitEdit::Need(place, need))),
        (Some(Some(need)), None) => out.edit(Edit::Fit(FitEdit::AddNeed(need))),
        (Some(None), Some(place)) => out.edit(Edit::Fit(FitEdit::RemoveNeed(place))),
        _ => {}
    }
}
