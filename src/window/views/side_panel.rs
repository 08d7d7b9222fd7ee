//! The panel at the right of a view for what is typed there: headings, and rows of a name and a control.

use std::ops::RangeInclusive;

use egui::{Align, ComboBox, DragValue, Layout, Panel, RichText, ScrollArea, Ui};

use super::super::named::named;
use super::super::theme::{SMALL, Tones};

/// The panel, as wide as a third of a small window.
pub(super) fn side_panel_ui(ui: &mut Ui, id: &'static str, content: impl FnOnce(&mut Ui)) {
    let tones = Tones::of(ui);
    let width = (ui.available_width() * 0.42).clamp(280.0, 420.0);
    let frame = egui::Frame::NONE.fill(tones.panel()).inner_margin(egui::Margin { left: 12, right: 4, top: 8, bottom: 8 });
    Panel::right(id).exact_size(width).resizable(false).frame(frame).show(ui, |ui| {
        // Across as well: what is wider than the panel is scrolled to and never spoils its edge.
        ScrollArea::both().id_salt(id).auto_shrink([false, false]).show(ui, |ui| {
            ui.set_max_width(width - 32.0);
            ui.spacing_mut().item_spacing.y = 3.0;
            content(ui);
        });
    });
}

/// A heading.
pub(super) fn heading_ui(ui: &mut Ui, text: &str) {
    ui.add_space(6.0);
    ui.label(RichText::new(text).heading());
}

/// Words of second rank, over as many lines as they need.
pub(super) fn note_ui(ui: &mut Ui, text: &str) {
    let tones = Tones::of(ui);
    ui.add(egui::Label::new(RichText::new(text).size(SMALL).color(tones.second())).wrap());
}

/// A name and a control at the right.
pub(super) fn row_ui(ui: &mut Ui, label: &str, control: impl FnOnce(&mut Ui)) {
    let tones = Tones::of(ui);
    ui.horizontal(|ui| {
        ui.label(RichText::new(label).color(tones.second()));
        ui.with_layout(Layout::right_to_left(Align::Center), control);
    });
}

/// A picker of one of a few; gives the new one when another was picked.
pub(super) fn pick_ui<T: Copy + PartialEq>(
    ui: &mut Ui,
    name: &str,
    width: f32,
    now: T,
    all: &[T],
    label: impl Fn(T) -> &'static str,
) -> Option<T> {
    let mut picked = None;
    row_ui(ui, name, |ui| {
        let combo = ComboBox::from_id_salt(name).width(width).selected_text(label(now)).show_ui(ui, |ui| {
            for choice in all {
                if ui.selectable_label(*choice == now, label(*choice)).clicked() && *choice != now {
                    picked = Some(*choice);
                }
            }
        });
        named(&combo.response, name);
    });
    picked
}

/// A number that is dragged or typed; gives the new one when it changed.
pub(super) fn number_ui(ui: &mut Ui, label: &str, value: f64, range: RangeInclusive<f64>, unit: &str) -> Option<f64> {
    let mut number = value;
    let mut changed = None;
    row_ui(ui, label, |ui| {
        let thin = if unit == "°" { "" } else { "\u{2009}" };
        let drag = DragValue::new(&mut number)
            .range(range)
            .speed(0.5)
            .max_decimals(1)
            .custom_formatter(|n, _| crate::units::fixed(n, 1))
            .custom_parser(crate::units::typed_number)
            .suffix(format!("{thin}{unit}"));
        let field = ui.add(drag);
        named(&field, label);
        if field.changed() && number.is_finite() {
            changed = Some(number);
        }
    });
    changed
}
