//! Notices over the view, until they are put away, and the status line below everything.

use egui::{Align, Align2, Area, Id, Layout, Order, Panel, ProgressBar, RichText, ScrollArea, Ui, vec2};

use super::labels::notices as labels;
use super::named::named;
use super::requests::{Request, Requests};
use super::shown::Shown;
use super::theme::{SMALL, Tones};
use super::work::Work;
use crate::units::visible;

/// Which end of the view the notices lie at, as long as any stand open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum End {
    Top,
    Bottom,
}

/// Widest block of notices, points.
const WIDEST: f32 = 900.0;

/// What went wrong, one line each, over the view: nothing below them moves. They appear at the end of the view that the
/// pointer is not at.
pub(crate) fn notices_ui(ui: &Ui, shown: Shown<'_>, out: &mut Requests) {
    let notices = &shown.moment.notices;
    let id = Id::unique("end of the notices");
    if notices.is_empty() {
        ui.data_mut(|d| d.remove::<End>(id));
        return;
    }
    let tones = Tones::of(ui);
    let place = ui.available_rect_before_wrap();
    let end = ui.data(|d| d.get_temp::<End>(id)).unwrap_or_else(|| {
        let is_low = ui.ctx().pointer_latest_pos().is_some_and(|at| at.y > place.center().y);
        if is_low { End::Top } else { End::Bottom }
    });
    ui.data_mut(|d| d.insert_temp(id, end));
    let (pivot, corner) = match end {
        End::Top => (Align2::LEFT_TOP, place.left_top() + vec2(12.0, 104.0)),
        End::Bottom => (Align2::LEFT_BOTTOM, place.left_bottom() + vec2(12.0, -8.0)),
    };
    let width = (place.width() - 24.0).min(WIDEST);
    let frame = egui::Frame::popup(ui.style()).fill(tones.panel()).stroke((1.0, tones.second()));
    Area::new(Id::unique("notices")).order(Order::Middle).pivot(pivot).fixed_pos(corner).show(ui.ctx(), |ui| {
        frame.inner_margin(egui::Margin::symmetric(12, 6)).show(ui, |ui| {
            ui.set_width(width - 24.0);
            ScrollArea::vertical().id_salt("notices").max_height(120.0).auto_shrink([false, true]).show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 2.0;
                for (index, notice) in notices.iter().enumerate() {
                    ui.horizontal_top(|ui| {
                        let away = ui.small_button("×");
                        named(&away, labels::dismiss_notice(&(index + 1)));
                        if away.on_hover_text(labels::DISMISSES_THIS_NOTICE).clicked() {
                            out.push(Request::Dismiss(index));
                        }
                        ui.add(egui::Label::new(&notice.text).wrap().selectable(true));
                    });
                }
                if notices.len() > 1 && ui.small_button(labels::DISMISS_ALL).clicked() {
                    out.push(Request::DismissAll);
                }
            });
        });
    });
}

/// The line along the bottom: what happened at its left, where the pointer is at its right.
pub(crate) fn status_ui(ui: &mut Ui, shown: Shown<'_>, work: &[Work], out: &mut Requests) {
    let tones = Tones::of(ui);
    let frame = egui::Frame::NONE.fill(tones.panel()).inner_margin(egui::Margin::symmetric(12, 3));
    Panel::bottom("status").resizable(false).show_separator_line(true).frame(frame).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.set_min_height(18.0);
            let small = |text: &str| RichText::new(text).size(SMALL).color(tones.second());
            if let Some(reading) = &shown.moment.reading {
                ui.label(small(&labels::reading_of_files(&reading.done, &reading.total)));
                let share = reading.done as f32 / reading.total.max(1) as f32;
                ui.add(ProgressBar::new(share).desired_width(120.0).desired_height(8.0).fill(tones.second()));
                stop_ui(ui, labels::STOPS_AND_KEEPS_WHAT_IS_DONE, out);
            } else if let Some(work) = work.first() {
                ui.label(small(if work.is_stopping() { labels::STOPPING } else { work.label }));
                if let Some((done, of)) = work.progress() {
                    ui.label(small(&labels::progress(&done, &of)));
                    let share = done as f32 / of as f32;
                    ui.add(ProgressBar::new(share).desired_width(120.0).desired_height(8.0).fill(tones.second()));
                    ui.ctx().request_repaint_after(std::time::Duration::from_millis(100));
                }
                if work.can_stop && !work.is_stopping() {
                    stop_ui(ui, labels::STOPS, out);
                }
            }
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if let Some(place) = super::canvas::readout(ui.ctx()) {
                    ui.label(small(&place));
                }
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    ui.add(egui::Label::new(small(&visible(&shown.moment.status))).truncate());
                });
            });
        });
    });
}

fn stop_ui(ui: &mut Ui, tooltip: &str, out: &mut Requests) {
    if ui.small_button(labels::STOP).on_hover_text(tooltip).clicked() {
        out.push(Request::StopReading);
    }
}
