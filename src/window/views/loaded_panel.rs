//! What is typed for the Loaded view: the rider's weight, height and body table; luggage in its places.

use egui::{Id, Ui};

use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::fit_edits::FitEdit;
use super::super::labels::loaded as labels;
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::weight_and_price_edits::WeightAndPriceEdit;
use super::side_panel::{drag_ui, heading_ui, length_ui, note_ui, pick_ui, remove_ui, row_ui};
use crate::frameset::TextKind;
use crate::lineup::{RidingNumber, RidingSettings};
use crate::loaded::{BODY_HEIGHT_MM, BodyTable, LoadedSettings, Loading, LuggagePlace, MOST_KG, MOST_LOADINGS};
use crate::riding::RidingUnit;
use crate::units::{System, THIN_SPACE};
use crate::words::{body_table_label, luggage_place_label, shown_unit};

/// All of it.
pub(super) fn panel_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    rider_ui(ui, shown, out);
    let settings = &shown.lineup().settings.loaded;
    for (place, loading) in settings.loadings.iter().enumerate() {
        loading_ui(ui, shown, place, loading, out);
    }
    if settings.loadings.len() < MOST_LOADINGS && ui.button(labels::ADD_LUGGAGE).clicked() {
        let name = labels::new_loading(&(settings.loadings.len() + 1));
        let mut after = settings.clone();
        after.loadings.push(Loading { name: name.clone(), kg: [(LuggagePlace::FrameBag, 3.0)].into_iter().collect() });
        put(out, after, labels::luggage_change(&name));
    }
    note_ui(ui, labels::LIMITS_ARE_THE_MAKERS);
}

fn put(out: &mut Requests, settings: LoadedSettings, what: String) {
    out.edit(Edit::Fit(FitEdit::Loaded(settings, what)));
}

/// Kilograms that are dragged or typed in the chosen units; gives the new ones when they changed.
fn mass_ui(ui: &mut Ui, units: System, names: (&str, &str), kg: f64, range: (f64, f64)) -> Option<f64> {
    let (unit, factor) = shown_unit(units, RidingUnit::Kilograms);
    let changed = drag_ui(ui, names, kg * factor, range.0 * factor..=range.1 * factor, (0.1, 1), &format!("{THIN_SPACE}{unit}"))?;
    Some(((changed / factor * 1e4).round() / 1e4).clamp(range.0, range.1))
}

fn rider_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let (settings, units) = (&shown.lineup().settings.loaded, shown.lineup().settings.units);
    let riding = &shown.lineup().settings.price_and_climb;
    heading_ui(ui, labels::RIDER);
    if let Some(rider_kg) =
        mass_ui(ui, units, (labels::RIDER_WEIGHT, labels::RIDER_WEIGHT), riding.rider_kg, RidingNumber::Rider.range())
    {
        let settings = RidingSettings { rider_kg, ..riding.clone() };
        out.edit(Edit::WeightAndPrice(WeightAndPriceEdit::Riding { settings, what: labels::RIDER_CHANGE }));
    }
    let height = length_ui(ui, units, labels::BODY_HEIGHT, settings.body_height, BODY_HEIGHT_MM.0..=BODY_HEIGHT_MM.1);
    if let Some(body_height) = height {
        put(out, LoadedSettings { body_height, ..settings.clone() }, labels::BODY_HEIGHT_CHANGE.to_owned());
    }
    if let Some(body) = pick_ui(ui, labels::BODY_TABLE, 160.0, settings.body, &BodyTable::ALL, body_table_label) {
        put(out, LoadedSettings { body, ..settings.clone() }, labels::BODY_TABLE_CHANGE.to_owned());
    }
    note_ui(ui, labels::WHERE_THE_RIDER_SITS);
}

fn loading_ui(ui: &mut Ui, shown: Shown<'_>, place: usize, loading: &Loading, out: &mut Requests) {
    let (settings, units) = (&shown.lineup().settings.loaded, shown.lineup().settings.units);
    let number = place + 1;
    let change = |out: &mut Requests, changed: Loading| {
        let mut after = settings.clone();
        let what = labels::luggage_change(&changed.name);
        after.loadings[place] = changed;
        put(out, after, what);
    };
    heading_ui(ui, &labels::loading(&number));
    let name = labels::name_of_loading(&number);
    row_ui(ui, "", |ui| {
        let remove = labels::remove_loading(&number);
        if remove_ui(ui, &remove) {
            let mut after = settings.clone();
            after.loadings.remove(place);
            put(out, after, remove);
        }
        let width = ui.available_width() - 8.0;
        let field =
            TypedField { id: Id::unique(("loading", place)), name: &name, current: loading.name.clone(), hint: "", width };
        let read = |text: &str| match text.trim() {
            "" => Err(labels::NAME_IS_EMPTY.to_owned()),
            name => TextKind::Name.check(labels::THE_NAME, name).map(|()| name.to_owned()).map_err(|why| why.to_string()),
        };
        if let Some(name) = field.show(ui, read).1 {
            change(out, Loading { name, ..loading.clone() });
        }
    });
    for at in LuggagePlace::ALL {
        let kg = ui.push_id((place, at), |ui| mass_of_place_ui(ui, units, number, at, loading.at(at))).inner;
        if let Some(kg) = kg {
            let mut changed = loading.clone();
            if kg > 0.0 {
                changed.kg.insert(at, kg)
            } else {
                changed.kg.remove(&at)
            };
            change(out, changed);
        }
    }
}

fn mass_of_place_ui(ui: &mut Ui, units: System, loading: usize, at: LuggagePlace, kg: f64) -> Option<f64> {
    let label = luggage_place_label(at);
    mass_ui(ui, units, (label, &labels::at_place(&label, &loading)), kg, (0.0, MOST_KG))
}
