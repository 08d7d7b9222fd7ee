//! What the user decides about published figures: used as the others agree, used anyway, ignored, or measured. The same
//! controls stand below the maker's table and in Check; what is set shows in them, and any of them takes it back.

use std::convert::Infallible;

use egui::{Id, Key, RichText, Ui};

use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::labels::decisions as labels;
use super::super::named::named;
use super::super::requests::Requests;
use super::super::theme::Tones;
use super::edited_frameset::Sheet;
use crate::frameset::{Figure, FigureUse, OwnMeasurement, SizeIndex, Stated, import};
use crate::units::{Quantity, System, listed, lower_first};
use crate::words::{in_sentence, measured_text, published_value, stated_label, stated_meaning};

/// ± that a measurement has until the user enters another: a tape held to a frame, an angle gauge. Ours, trade practice,
/// unverified.
const USUAL_MM: f64 = 2.0;
const USUAL_DEG: f64 = 0.3;

/// The figures that are decided about together.
#[derive(Clone, Copy)]
pub(crate) struct Decided<'a> {
    /// Places of sizes and figures; at least one.
    pub(crate) cells: &'a [(SizeIndex, Figure)],
    /// The one that can be measured.
    pub(crate) measured: (SizeIndex, Figure),
}

/// Asks the controls to take the keyboard when they are next shown.
pub(crate) fn ask_for_keyboard(ctx: &egui::Context) {
    let frame = ctx.cumulative_frame_nr();
    ctx.data_mut(|d| d.insert_temp(Id::unique("decisions take the keyboard"), frame));
}

/// Whether the keyboard was asked for in the last frames, once.
fn takes_keyboard(ui: &Ui) -> bool {
    let id = Id::unique("decisions take the keyboard");
    let asked = ui.data(|d| d.get_temp::<u64>(id));
    ui.data_mut(|d| d.remove::<u64>(id));
    asked.is_some_and(|frame| frame + 4 >= ui.ctx().cumulative_frame_nr())
}

/// The controls. `back` is the field that Escape leads back to.
pub(crate) fn decisions_ui(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    decided: Decided<'_>,
    back: Option<Id>,
    tones: Tones,
    out: &mut Requests,
) {
    let takes_keyboard = takes_keyboard(ui);
    let is_published = uses(sheet, decided).next().is_some();
    if is_published {
        ui.horizontal_wrapped(|ui| use_ui(ui, sheet, decided, back, takes_keyboard, tones, out));
    }
    let takes_keyboard = takes_keyboard && !is_published;
    ui.horizontal_wrapped(|ui| measured_ui(ui, sheet, decided.measured, decided.cells.len() > 1, takes_keyboard, tones, out));
}

/// How the published ones among the figures are used.
fn uses(sheet: Sheet<'_>, decided: Decided<'_>) -> impl Iterator<Item = FigureUse> {
    decided.cells.iter().filter_map(move |(size, figure)| size.of(&sheet.frameset.sizes)?.figure_use(*figure))
}

/// `wheelbase, size L`, `wheelbase, all sizes`, `head angle and effective seat angle, size L`.
fn name_of(sheet: Sheet<'_>, decided: Decided<'_>) -> String {
    let mut figures: Vec<String> = decided.cells.iter().map(|(_, figure)| in_sentence(*figure)).collect();
    figures.dedup();
    let mut sizes: Vec<&str> =
        decided.cells.iter().filter_map(|(size, _)| size.of(&sheet.frameset.sizes)).map(|s| s.label.as_str()).collect();
    sizes.dedup();
    let sizes = match sizes.as_slice() {
        [one] => labels::one_size(&one),
        all if all.len() == sheet.frameset.sizes.len() => labels::ALL_SIZES.to_owned(),
        some => labels::sizes(&listed(some.iter().copied())),
    };
    format!("{}, {sizes}", listed(figures.iter().map(String::as_str)))
}

/// The edit that uses published figures in this way.
fn use_edit(sheet: Sheet<'_>, decided: Decided<'_>, what: &str, to: &FigureUse) -> Edit {
    let Ok(edit) = sheet.changed(&format!("{what} {}", name_of(sheet, decided)), None, |f| {
        decided.cells.iter().for_each(|(size, figure)| f.set_figure_use(*size, *figure, to.clone()));
        Ok::<(), Infallible>(())
    });
    edit
}

/// The menu entry that leaves a published figure out, or uses it again.
pub(crate) fn ignore_ui(ui: &mut Ui, sheet: Sheet<'_>, cell: (SizeIndex, Figure), out: &mut Requests) {
    let decided = Decided { cells: &[cell], measured: cell };
    let Some(now) = uses(sheet, decided).next() else { return };
    let (label, what, to) = match now {
        FigureUse::Ignored(_) => (labels::USE_IF_THE_OTHERS_AGREE, labels::USING_AGAIN, FigureUse::AsOthersAgree),
        _ => (labels::IGNORE_IT, labels::IGNORING, FigureUse::Ignored(String::new())),
    };
    let entry = egui::Button::new(label).frame_when_inactive(false);
    if ui.add(entry).on_hover_text(labels::published(&name_of(sheet, decided))).clicked() {
        out.edit(use_edit(sheet, decided, what, &to));
        ui.close();
    }
}

fn use_ui(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    decided: Decided<'_>,
    back: Option<Id>,
    takes_keyboard: bool,
    tones: Tones,
    out: &mut Requests,
) {
    let name = name_of(sheet, decided);
    let mut all = uses(sheet, decided);
    let first = all.next();
    let now = if all.all(|u| Some(&u) == first.as_ref()) { first } else { None };
    let published = match decided.cells {
        [(size, figure)] => size.of(&sheet.frameset.sizes).and_then(|s| s.figures.get(figure)).map(|value| {
            let value = published_value(*figure, *value, sheet.units);
            labels::published(&sheet.units.with_unit(figure.quantity(), &value))
        }),
        _ => None,
    };
    ui.label(RichText::new(published.unwrap_or_else(|| labels::published(&name))).color(tones.second()));
    let put = |what: &str, to: FigureUse, out: &mut Requests| out.edit(use_edit(sheet, decided, what, &to));
    let choices = [
        (FigureUse::AsOthersAgree, labels::USE_IF_THE_OTHERS_AGREE, labels::USED_AS_FAR_AS_THE_OTHERS_AGREE, labels::USING_AGAIN),
        (FigureUse::Anyway, labels::USE_IT_ANYWAY, labels::USED_FULLY, labels::USING_ANYWAY),
        (FigureUse::Ignored(String::new()), labels::IGNORE_IT, labels::IGNORED_BUT_KEPT, labels::IGNORING),
    ];
    for (place, (to, label, meaning, what)) in choices.into_iter().enumerate() {
        let is_set = now.as_ref().is_some_and(|now| std::mem::discriminant(now) == std::mem::discriminant(&to));
        let radio = ui.radio(is_set, label).on_hover_text(meaning);
        named(&radio, format!("{label}: {name}"));
        if takes_keyboard && place == 0 {
            radio.request_focus();
        }
        if let Some(back) = back.filter(|_| radio.lost_focus() && ui.input(|i| i.key_pressed(Key::Escape))) {
            ui.memory_mut(|m| m.request_focus(back));
        }
        if radio.clicked() && !is_set {
            put(what, to, out);
        }
    }
    let reason = match &now {
        Some(FigureUse::Ignored(reason)) => reason.clone(),
        _ => String::new(),
    };
    let field = TypedField {
        id: Id::unique(("reason", sheet.frame, decided.cells)),
        name: &labels::reason_for_ignoring(&name),
        current: reason,
        hint: labels::REASON_THEN_ENTER,
        width: 170.0,
    };
    let (field, entered) = field.show(ui, |text| Ok::<String, Infallible>(text.trim().to_owned()));
    field.on_hover_text(labels::ENTER_A_REASON_TO_IGNORE);
    if let Some(reason) = entered {
        put(labels::IGNORING, FigureUse::Ignored(reason), out);
    }
}

/// Whether the maker states a way of measuring, as a choice with these words.
pub(crate) fn stated_ui(ui: &mut Ui, sheet: Sheet<'_>, convention: Stated, words: &str, out: &mut Requests) {
    let mut is_stated = sheet.frameset.states(convention);
    let label = stated_label(convention);
    let choice = ui.checkbox(&mut is_stated, words).on_hover_text(stated_meaning(convention));
    named(&choice, labels::stated_by_the_maker(&lower_first(label)));
    if choice.changed() {
        let what = format!("{}: {}", if is_stated { labels::STATED } else { labels::NOT_STATED }, lower_first(label));
        let Ok(edit) = sheet.changed(&what, None, |f| {
            f.set_stated(convention, is_stated);
            Ok::<(), Infallible>(())
        });
        out.edit(edit);
    }
}

/// Why a ± is not taken.
#[derive(Debug, thiserror::Error)]
#[error("{}", labels::the_plus_minus_is_above(most, example))]
struct NoPlusMinus {
    most: String,
    example: String,
}

fn plus_minus(figure: Figure, text: &str, units: System) -> Result<f64, NoPlusMinus> {
    let quantity = figure.quantity();
    let value = crate::units::typed_number(text).map(|number| units.from_field(quantity, number));
    let is_taken = |value: &f64| *value > 0.0 && *value <= OwnMeasurement::WIDEST;
    value.filter(is_taken).ok_or_else(|| NoPlusMinus {
        most: units.with_unit(quantity, &units.in_field(quantity, OwnMeasurement::WIDEST)),
        example: units.in_field(quantity, usual(figure)),
    })
}

const fn usual(figure: Figure) -> f64 {
    if matches!(figure.quantity(), Quantity::Angle) { USUAL_DEG } else { USUAL_MM }
}

/// The value and the ± that the user measured, and a button that drops them.
fn measured_ui(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    (place, figure): (SizeIndex, Figure),
    is_among_several: bool,
    takes_keyboard: bool,
    tones: Tones,
    out: &mut Requests,
) {
    let Some(size) = place.of(&sheet.frameset.sizes) else { return };
    let (units, quantity) = (sheet.units, figure.quantity());
    let now = size.measured.get(&figure).copied();
    let name = labels::size(&in_sentence(figure), &size.label);
    let pending = Id::unique(("± to come", sheet.frame, place, figure as usize));
    let spread = now.map(|m| m.plus_minus).or_else(|| ui.data(|d| d.get_temp::<f64>(pending))).unwrap_or_else(|| usual(figure));
    let put = |what: String, to: Option<OwnMeasurement>, out: &mut Requests| {
        if let Ok(edit) = sheet.changed(&what, None, |f| f.set_measured(place, figure, to)) {
            out.edit(edit);
        }
    };
    let words = if is_among_several { labels::i_measured(&name) } else { labels::I_MEASURED_IT.to_owned() };
    ui.label(RichText::new(words).color(tones.second()));
    let field = TypedField {
        id: Id::unique(("measured", sheet.frame, place, figure as usize)),
        name: &labels::measured(&name),
        current: now.map(|m| units.in_field(quantity, m.value)).unwrap_or_default(),
        hint: labels::VALUE,
        width: 72.0,
    };
    let (field, value) = field.show(ui, |text| import::typed(figure, text, units));
    if takes_keyboard {
        field.request_focus();
    }
    field.on_hover_text(labels::MEASUREMENT_COUNTS_TOO);
    match value {
        Some(Some(value)) => {
            put(labels::measuring(&name), Some(OwnMeasurement { value, plus_minus: spread }), out);
        }
        Some(None) if now.is_some() => put(labels::removing_the_measured(&name), None, out),
        _ => {}
    }
    ui.label("±");
    let field = TypedField {
        id: Id::unique(("± measured", sheet.frame, place, figure as usize)),
        name: &labels::plus_minus_of_measured(&name),
        current: units.in_field(quantity, spread),
        hint: "±",
        width: 44.0,
    };
    let (field, entered) = field.show(ui, |text| plus_minus(figure, text, units));
    field.on_hover_text(labels::PLUS_MINUS_OF_THE_MEASUREMENT);
    if let Some(plus_minus) = entered {
        match now {
            Some(before) => put(labels::plus_minus_of_the_measured(&name), Some(OwnMeasurement { plus_minus, ..before }), out),
            None => {
                ui.data_mut(|d| d.insert_temp(pending, plus_minus));
            }
        }
    }
    ui.label(RichText::new(units.unit(quantity)).color(tones.second()));
    if let Some(measured) = now {
        let button =
            ui.button(labels::REMOVE_MEASUREMENT).on_hover_text(labels::removes(&measured_text(figure, measured, units)));
        named(&button, labels::remove_the_measured(&name));
        if button.clicked() {
            put(labels::removing_the_measured(&name), None, out);
        }
    }
}
