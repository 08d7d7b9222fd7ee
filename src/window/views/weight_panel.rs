//! What is typed for the Weight view: how all weights are brought to the size compared, and the ledgers of the selected
//! frame.

use egui::{Id, Ui};

use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::labels::weight as labels;
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::weight_and_price_edits::WeightAndPriceEdit;
use super::check::frame_picker_ui;
use super::price_and_climb::method_ui;
use super::side_panel::{heading_ui, note_ui, row_ui};
use super::weight_ledger::Ledger;
use crate::frameset::Part;
use crate::lineup::WeightSettings;
use crate::units::Quantity;
use crate::weight::{Per, TypedError, read_factor, read_fixed_parts, read_plus_minus, read_within, write_factor};
use crate::words::{per_label, shortest};

/// All of it.
pub(super) fn panel_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    all_ui(ui, shown, out);
    heading_ui(ui, labels::WEIGHTS_OF_ONE_FRAME);
    frame_picker_ui(ui, shown, out);
    let place = shown.moment.selected;
    let (Some(frame), Some(entry)) = (place.of(&shown.findings().frames), place.of(&shown.lineup().frames)) else { return };
    for part in [Part::Frame, Part::Fork, Part::Frameset] {
        let own = entry.weight_choices.part(part);
        let settings = &shown.lineup().settings;
        let ledger = Ledger { place, part, own, frame, settings: settings.weight, units: settings.units };
        ledger.ui(ui, out);
    }
    note_ui(ui, labels::ADD_PUBLISHED_WEIGHTS);
}

fn put_all(out: &mut Requests, settings: WeightSettings, what: &'static str) {
    out.edit(Edit::WeightAndPrice(WeightAndPriceEdit::Weights { settings, what }));
}

/// Empty text is none.
pub(super) fn optional(text: &str, read: impl Fn(&str) -> Result<f64, TypedError>) -> Result<Option<f64>, TypedError> {
    if text.trim().is_empty() { Ok(None) } else { read(text).map(Some) }
}

/// What counts for every weight without a choice of its own.
fn all_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let (before, units) = (shown.lineup().settings.weight, shown.lineup().settings.units);
    let unit = units.unit(Quantity::Mass);
    heading_ui(ui, labels::CONVERTING_WEIGHTS_TO_ANOTHER_SIZE);
    ui.horizontal_wrapped(|ui| method_ui(ui, shown, false, out));
    row_ui(ui, labels::WEIGHT_FACTOR, |ui| {
        let name = labels::WEIGHT_FACTOR;
        let entry = TypedField {
            id: Id::unique(name),
            name,
            current: before.factor.map(write_factor).unwrap_or_default(),
            hint: labels::NONE,
            width: 60.0,
        };
        let (field, factor) = entry.show_asking_or_none(ui, read_factor);
        field.on_hover_text(labels::YOUR_OWN_ESTIMATE);
        if let Some(factor) = factor {
            put_all(out, WeightSettings { factor, ..before }, labels::WEIGHT_FACTOR_PER_SIZE);
        }
        for per in [Per::All, Per::Step] {
            if ui.selectable_label(before.per == per, per_label(per)).clicked() && before.per != per {
                put_all(out, WeightSettings { per, ..before }, labels::WHAT_THE_FACTOR_IS_FOR);
            }
        }
    });
    let mut field = |ui: &mut Ui,
                     name: &str,
                     current: String,
                     hint: &str,
                     read: &dyn Fn(&str) -> Result<WeightSettings, TypedError>,
                     what| {
        row_ui(ui, name, |ui| {
            if let Some(settings) = (TypedField { id: Id::unique(name), name, current, hint, width: 60.0 }).show(ui, read).1 {
                put_all(out, settings, what);
            }
        });
    };
    let current = before.factor_plus_minus.map(shortest).unwrap_or_default();
    field(
        ui,
        labels::PLUS_MINUS_OF_THE_FACTOR,
        current,
        labels::HALF,
        &|t| {
            let factor_plus_minus = optional(t, |t| read_within(t, labels::A_FACTORS_PLUS_MINUS, "", 0.0, 0.5))?;
            Ok(WeightSettings { factor_plus_minus, ..before })
        },
        labels::PLUS_MINUS_OF_THE_FACTOR,
    );
    field(
        ui,
        labels::PLUS_MINUS_OF_CLAIMED_WEIGHTS_PERCENT,
        shortest(before.claimed_percent),
        "5",
        &|t| {
            let claimed_percent = read_within(t, labels::A_PLUS_MINUS_OF_CLAIMED_WEIGHTS, "%", 0.0, 50.0)?;
            Ok(WeightSettings { claimed_percent, ..before })
        },
        labels::PLUS_MINUS_OF_CLAIMED_WEIGHTS,
    );
    let mass = |grams| units.in_field(Quantity::Mass, grams);
    let current = before.fixed_grams.map(mass).unwrap_or_default();
    field(
        ui,
        &labels::fixed_parts(&unit),
        current,
        labels::USUAL,
        &|t| {
            let fixed_grams = optional(t, |t| read_fixed_parts(t, units))?;
            Ok(WeightSettings { fixed_grams, ..before })
        },
        labels::FIXED_PARTS,
    );
    field(
        ui,
        &labels::plus_minus_of_fixed_parts(&unit),
        mass(before.fixed_plus_minus),
        "",
        &|t| {
            let fixed_plus_minus = read_plus_minus(t, units)?;
            Ok(WeightSettings { fixed_plus_minus, ..before })
        },
        labels::PLUS_MINUS_OF_FIXED_PARTS,
    );
}
