//! The Sheet view: what is published, as it will be: at true pixels or fitted into the room there is. What stands on it is
//! chosen at the right; it is published from here, and again.

use egui::{Id, Mesh, Panel, Rect, ScrollArea, Ui, pos2, vec2};

use super::super::canvas::{Field, kept, tell};
use super::super::commands::{Command, about};
use super::super::labels::publish as labels;
use super::super::menu::context_menu_ui;
use super::super::requests::{Request, Requests};
use super::super::sheet_edits::sheet_in_front;
use super::super::shown::Shown;
use super::super::theme::Tones;
use super::publish_panel::sheet_panel_ui;
use super::side_panel::{note_ui, side_panel_ui};
use super::{View, ViewId};
use crate::drawing::{Background, Scene, SheetDrawing, sheet_scene};
use crate::lineup::{Shape, Sheet, SheetBackground};
use crate::publish::sheet_background;
use crate::words::left_out_text;

/// The Publish view.
pub(crate) struct Publish;

impl View for Publish {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        let published_in = shown.published_in();
        let folder = published_in.map(|f| format!(" {}", f.display())).unwrap_or_default();
        for command in [Command::PublishAgain, Command::Publish] {
            let Some(about) = about(command) else { continue };
            let is_ready = command != Command::PublishAgain || published_in.is_some();
            let button = ui.add_enabled(is_ready, egui::Button::new(about.label));
            let button = button.on_hover_text(format!("{}{folder}", about.tooltip));
            if button.on_disabled_hover_text(labels::SHEET_IS_NOT_PUBLISHED_YET).clicked() {
                out.command(command);
            }
        }
        ui.add_space(8.0);
        for (words, fits) in [(labels::ACTUAL_SIZE_100_PERCENT, false), (labels::ZOOM_TO_FIT, true)] {
            let tooltip = if fits { labels::FITS_THE_SHEET_INTO_THE_WINDOW } else { labels::SHOWS_TRUE_PIXELS };
            if ui.selectable_label(shown.moment.sheet_fits == fits, words).on_hover_text(tooltip).clicked() {
                out.push(Request::SheetFits(fits));
            }
        }
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        tell(ui.ctx(), None);
        let (place, sheet) = sheet_in_front(shown.lineup(), shown.moment.sheet);
        side_panel_ui(ui, "sheet", |ui| sheet_panel_ui(ui, shown, place, &sheet, out));
        let revision = shown.document.revision();
        let key = (revision, place, shown.lineup().sheets.len());
        let drawing = kept(ui, Id::unique("sheet drawing"), key, || sheet_scene(shown.findings(), shown.lineup(), &sheet));
        left_out_ui(ui, &drawing);
        let available = ui.available_size() - vec2(2.0 * AROUND, 2.0 * AROUND);
        let by = if shown.moment.sheet_fits {
            let page = drawing.scene.page;
            let across = f64::from(available.x) / page.width;
            // A column is read by scrolling.
            let down = if sheet.shape == Shape::BlogColumn { across } else { f64::from(available.y) / page.height };
            across.min(down).max(0.05)
        } else {
            f64::from(sheet.pixels_across()) / drawing.scene.page.width / f64::from(ui.ctx().pixels_per_point())
        };
        let scene = kept(ui, Id::unique("sheet scene"), (key, by.to_bits()), || drawing.scene.clone().scaled(by));
        ScrollArea::both().id_salt("sheet").auto_shrink([false, false]).show(ui, |ui| {
            let size = vec2(scene.page.width as f32, scene.page.height as f32);
            ui.allocate_space(vec2(size.x + 2.0 * AROUND, AROUND - ui.spacing().item_spacing.y));
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 0.0;
                ui.add_space(AROUND);
                preview_ui(ui, &scene, &sheet, size, shown, out);
            });
        });
    }

    fn sheet(&self, shown: Shown<'_>) -> Option<Sheet> {
        Some(sheet_in_front(shown.lineup(), shown.moment.sheet).1)
    }
}

/// What the sheet's context menu offers.
const OF_SHEET: [Command; 4] = [Command::SavePicture, Command::CopyPicture, Command::Publish, Command::PublishAgain];

/// Room around the sheet, points.
const AROUND: f32 = 14.0;

/// What does not fit, below the sheet.
fn left_out_ui(ui: &mut Ui, drawing: &SheetDrawing) {
    if drawing.left_out.is_empty() {
        return;
    }
    let tones = Tones::of(ui);
    let frame = egui::Frame::NONE.fill(tones.panel()).inner_margin(egui::Margin::symmetric(16, 6));
    Panel::bottom("left out").resizable(false).frame(frame).show(ui, |ui| {
        let sentences: Vec<String> = drawing.left_out.iter().map(left_out_text).collect();
        note_ui(ui, &labels::left_out(&sentences.join(" ")));
    });
}

fn preview_ui(ui: &mut Ui, scene: &Scene, sheet: &Sheet, size: egui::Vec2, shown: Shown<'_>, out: &mut Requests) {
    let field = Field::of_size(ui, Id::unique("sheet preview"), size);
    let is_dark = sheet_background(sheet.background) == Background::Dark;
    let tones = Tones::on(is_dark);
    match sheet.background {
        SheetBackground::Light | SheetBackground::Dark => {
            ui.painter().rect_filled(field.rect, 0.0, tones.paper());
        }
        SheetBackground::TransparentLight | SheetBackground::TransparentDark => chequer(ui, field.rect, is_dark),
    }
    context_menu_ui(&field.response, &OF_SHEET, shown, out);
    field.show(ui, scene, tones);
    ui.painter().rect_stroke(field.rect, 0.0, (1.0, Tones::of(ui).hairline()), egui::StrokeKind::Outside);
}

/// A chequered ground where film shows through.
fn chequer(ui: &Ui, rect: Rect, is_dark: bool) {
    const SQUARE: f32 = 16.0;
    let [one, other] = Tones::on(is_dark).chequer();
    ui.painter().rect_filled(rect, 0.0, one);
    let seen = rect.intersect(ui.clip_rect());
    let mut mesh = Mesh::default();
    let first = |from: f32, seen: f32| ((seen - from) / SQUARE).floor().max(0.0);
    let mut row = first(rect.top(), seen.top());
    while rect.top() + row * SQUARE < seen.bottom() {
        let mut column = first(rect.left(), seen.left());
        while rect.left() + column * SQUARE < seen.right() {
            if (row + column) % 2.0 == 0.0 {
                let corner = pos2(rect.left() + column * SQUARE, rect.top() + row * SQUARE);
                let square = Rect::from_min_size(corner, vec2(SQUARE, SQUARE)).intersect(rect);
                mesh.add_colored_rect(square, other);
            }
            column += 1.0;
        }
        row += 1.0;
    }
    ui.painter().add(mesh);
}
