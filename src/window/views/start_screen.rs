//! The start screen, shown while the line-up is empty: the ways to begin, each with what it does, and the recent files.

use std::path::PathBuf;

use egui::{Button, Label, RichText, ScrollArea, Ui, UiBuilder, vec2};

use super::super::add_menu::WAYS;
use super::super::commands::{Command, about};
use super::super::file_names::{base_name, telling_name};
use super::super::labels::start_screen as labels;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::{BODY, SMALL, Tones, semibold};
use crate::disk::is_lineup_name;

/// Width of what is shown, points.
const WIDTH: f32 = 620.0;
/// Width of a button, points.
const BUTTON: f32 = 210.0;
/// How many recent files are shown; the menu has them all.
const MOST_RECENT: usize = 6;

/// Shows the screen.
pub(super) fn start_screen_ui(ui: &mut Ui, shown: Shown<'_>, tones: Tones, out: &mut Requests) {
    ScrollArea::vertical().id_salt("start screen").auto_shrink([false, false]).show(ui, |ui| {
        let whole = ui.available_rect_before_wrap();
        let width = WIDTH.min(whole.width() - 32.0);
        let left = whole.center().x - width / 2.0;
        let top = whole.top() + ((ui.clip_rect().height() - 552.0) / 3.0).max(8.0);
        let place = egui::Rect::from_min_size(egui::pos2(left, top), vec2(width, 0.0));
        ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
            sketch(ui, egui::pos2(whole.center().x, top + 74.0), tones);
            ui.add_space(172.0);
            ui.vertical_centered(|ui| {
                ui.label(RichText::new(labels::COMPARE_BICYCLE_FRAMESETS).font(semibold(22.0)).color(tones.ink()));
            });
            ui.add_space(14.0);
            ui.spacing_mut().item_spacing.y = 8.0;
            for command in WAYS {
                way_ui(ui, command, tones, out);
            }
            ui.add_space(10.0);
            recent_ui(ui, shown, tones, out);
            ui.label(RichText::new(labels::DROP_OR_F1).size(SMALL).color(tones.second()));
        });
    });
}

/// A button, and beside it what it does.
fn way_ui(ui: &mut Ui, command: Command, tones: Tones, out: &mut Requests) {
    let Some(about) = about(command) else { return };
    ui.horizontal(|ui| {
        let button = Button::new(RichText::new(about.label).size(BODY + 0.5)).min_size(vec2(BUTTON, 34.0));
        if ui.add(button).clicked() {
            out.command(command);
        }
        ui.add_space(6.0);
        ui.add(Label::new(RichText::new(about.tooltip).color(tones.second())).wrap());
    });
}

/// The recent line-ups and frames, line-ups first.
fn recent_ui(ui: &mut Ui, shown: Shown<'_>, tones: Tones, out: &mut Requests) {
    let recent = &shown.session.recent;
    if recent.is_empty() {
        return;
    }
    ui.label(RichText::new(labels::RECENT).size(SMALL).color(tones.second()));
    let (lineups, frames): (Vec<&PathBuf>, Vec<&PathBuf>) = recent.iter().partition(|path| is_lineup_name(path));
    ui.horizontal_wrapped(|ui| {
        for path in lineups.into_iter().chain(frames).take(MOST_RECENT) {
            let name = telling_name(path, recent.iter().map(PathBuf::as_path)).or_else(|| base_name(path)).unwrap_or_default();
            if ui.button(name).on_hover_text(path.display().to_string()).clicked() {
                out.push(Request::Open(vec![path.clone()]));
            }
        }
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
