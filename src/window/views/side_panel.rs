//! The panel at the right of a view for what is typed there: headings, and rows of a name and a control.

use std::cell::Cell;
use std::ops::RangeInclusive;

use egui::{
    Align, ComboBox, DragValue, Id, Layout, Panel, RichText, ScrollArea, Sense, Stroke, StrokeKind, Tooltip, Ui, WidgetInfo, vec2,
};

use super::super::entry::note_refused;
use super::super::labels::side_panel as labels;
use super::super::named::named;
use super::super::theme::{SMALL, Tones};
use crate::units::{Quantity, System};

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

/// A button with an arrow, which the fonts lack. It goes by its words, so that the keyboard follows the row that it moves,
/// and is never disabled: the keyboard would be lost where a row has come to the end.
pub(super) fn arrow_ui(ui: &mut Ui, words: &str, is_up: bool, is_possible: bool) -> bool {
    let (rect, _) = ui.allocate_exact_size(vec2(22.0, 18.0), Sense::hover());
    let button = ui.interact(rect, Id::unique(("arrow", words)), Sense::click());
    button.widget_info(|| WidgetInfo::labeled(egui::Role::Button, is_possible, words));
    let look = *ui.style().interact(&button);
    ui.painter().rect(rect.shrink(0.5), look.corner_radius, look.weak_bg_fill, look.bg_stroke, StrokeKind::Inside);
    let tones = Tones::of(ui);
    let colour = if is_possible { tones.ink() } else { tones.grey() };
    let tip = if is_up { -3.0 } else { 3.0 };
    let corners = vec![rect.center() + vec2(-4.0, -tip), rect.center() + vec2(4.0, -tip), rect.center() + vec2(0.0, tip)];
    ui.painter().add(egui::Shape::convex_polygon(corners, colour, Stroke::NONE));
    button.on_hover_text(words).clicked() && is_possible
}

/// A button that removes what it stands beside, named for that; whether it was pressed.
pub(super) fn remove_ui(ui: &mut Ui, name: &str) -> bool {
    let button = ui.button("×").on_hover_text(name);
    named(&button, name);
    button.clicked()
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
    let space = if unit == "°" { "" } else { "\u{2009}" };
    drag_ui(ui, (label, label), value, range, (0.5, 1), &format!("{space}{unit}"))
}

/// A length, mm, that is dragged or typed in the chosen units; gives the new one when it changed. In inches a step is a
/// twentieth, and what is shown is rounded to a hundredth, which changes nothing until it is edited.
pub(super) fn length_ui(ui: &mut Ui, units: System, label: &str, mm: f64, range_mm: RangeInclusive<f64>) -> Option<f64> {
    let factor = units.factor(Quantity::Length);
    let suffix = format!("\u{2009}{}", units.unit(Quantity::Length));
    let (step, decimals) = match units {
        System::Metric => (0.5, 1),
        System::Imperial => (0.02, 2),
    };
    let range = range_mm.start() * factor..=range_mm.end() * factor;
    let changed = drag_ui(ui, (label, label), mm * factor, range, (step, decimals), &suffix)?;
    let after = units.from_field(Quantity::Length, changed);
    Some(after.clamp(*range_mm.start(), *range_mm.end()))
}

/// A field to drag or type in, in steps, with so many decimals at most. It has a label beside it and a name of its own.
pub(super) fn drag_ui(
    ui: &mut Ui,
    (label, name): (&str, &str),
    value: f64,
    range: RangeInclusive<f64>,
    steps: (f64, usize),
    suffix: &str,
) -> Option<f64> {
    let mut changed = None;
    row_ui(ui, label, |ui| changed = plain_number_ui(ui, name, value, range, steps, suffix));
    changed
}

/// The field alone. What is typed and is no number within the range changes nothing and is said at the field.
pub(super) fn plain_number_ui(
    ui: &mut Ui,
    name: &str,
    value: f64,
    range: RangeInclusive<f64>,
    (step, decimals): (f64, usize),
    suffix: &str,
) -> Option<f64> {
    let mut number = value;
    let shown = |n: f64| crate::units::fixed(n, decimals);
    // What was typed last and why it is not taken, where it was read in this window frame.
    let read_now: Cell<Option<Result<(), (String, String)>>> = Cell::new(None);
    // As exact as what is shown, so that the ends of the range can be typed as they are said.
    let half = 0.5 / 10f64.powi(i32::try_from(decimals).unwrap_or(0));
    let read = |text: &str| match crate::units::typed_number(text) {
        Some(typed) if (range.start() - half..=range.end() + half).contains(&typed) => {
            read_now.set(Some(Ok(())));
            Some(typed)
        }
        Some(_) => {
            let [low, high] = [*range.start(), *range.end()].map(shown);
            let sentence = labels::outside_range(&text.trim(), &low, &high, &suffix, &shown(value));
            read_now.set(Some(Err((text.to_owned(), sentence))));
            None
        }
        None => {
            read_now.set(Some(Err((text.to_owned(), labels::not_a_number(&text.trim(), &suffix, &shown(value))))));
            None
        }
    };
    let drag = DragValue::new(&mut number)
        .range(range.clone())
        .speed(step)
        .max_decimals(decimals)
        .custom_formatter(|n, _| shown(n))
        .custom_parser(read)
        .suffix(suffix);
    let field = ui.add(drag);
    named(&field, name);
    let id = field.id.with("refused");
    match read_now.take() {
        Some(Err(refused)) => {
            ui.data_mut(|d| d.insert_temp(id, refused));
        }
        Some(Ok(())) => {
            ui.data_mut(|d| d.remove::<(String, String)>(id));
        }
        None => {}
    }
    if let Some((text, sentence)) = ui.data(|d| d.get_temp::<(String, String)>(id)) {
        if field.has_focus() {
            Tooltip::always_open(ui.ctx().clone(), ui.layer_id(), field.id.with("why"), &field).show(|ui| ui.label(sentence));
        } else {
            ui.data_mut(|d| d.remove::<(String, String)>(id));
            note_refused(ui, name, &text, &sentence);
        }
    }
    // A field that is left as it was shown changes nothing, though the value has more decimals.
    (field.changed() && number.is_finite() && shown(number) != shown(value)).then_some(number)
}
