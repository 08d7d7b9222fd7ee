//! What is typed for the view of price and climb: currency, tax and rates; rider, luggage and the rest of the bicycle; the climb,
//! air and tyres; gears. What is not valid is said at its field and changes nothing.

use egui::{Id, RichText, Ui};

use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::labels::price_and_climb as labels;
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::theme::{SMALL, Tones};
use super::super::weight_and_price_edits::WeightAndPriceEdit;
use super::side_panel::{heading_ui, note_ui, pick_ui, remove_ui, row_ui};
use crate::disk::today;
use crate::frameset::{Tax, TextKind, ValueError};
use crate::lineup::{RidingNumber, RidingSettings};
use crate::money::{MoneyError, MoneySettings, Rate, check_rate, read_currency, read_percent};
use crate::riding::{ClimbError, GearError, Gearing, RidingUnit, read_teeth, write_teeth};
use crate::units::System;
use crate::words::{label_with_unit, missing_price_text, out_of_range_text, shortest, shown_unit, tax_label};

/// All of it.
pub(super) fn panel_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    moving_ui(ui, shown, out);
    climb_ui(ui, shown, out);
    money_ui(ui, shown, out);
    gears_ui(ui, shown, out);
    conditions_ui(ui, shown, out);
}

/// A labelled field at the right of its row; gives what was entered.
fn field_ui<T>(
    ui: &mut Ui,
    name: &str,
    current: String,
    hint: &str,
    width: f32,
    read: impl Fn(&str) -> Result<T, EntryError>,
) -> Option<T> {
    let mut entered = None;
    row_ui(ui, name, |ui| {
        entered = TypedField { id: Id::unique(("riding", name)), name, current, hint, width }.show(ui, read).1;
    });
    entered
}

/// Why what is typed here is not taken.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
enum EntryError {
    /// No number.
    #[error("{}", labels::is_not_a_number_write(.0))]
    NotANumber(String),
    /// A number of the rider, the climb or what resists outside its range, in the units shown.
    #[error("{}", out_of_range_text(*.0, .1))]
    OutOfRange(System, ClimbError),
    /// A currency, a tax rate or an exchange rate.
    #[error(transparent)]
    Money(#[from] MoneyError),
    /// An exchange rate without a day, where no clock says what day it is.
    #[error("{}", labels::TODAYS_DATE_IS_UNKNOWN)]
    NoToday,
    /// Teeth.
    #[error(transparent)]
    Gears(#[from] GearError),
    /// A build without a name.
    #[error("{}", labels::A_BUILD_NEEDS_A_NAME)]
    NoName,
    /// A name that is too long.
    #[error(transparent)]
    Name(#[from] ValueError),
}

fn read_number(text: &str) -> Result<f64, EntryError> {
    crate::units::typed_number(text).ok_or_else(|| EntryError::NotANumber(text.trim().to_owned()))
}

fn riding(out: &mut Requests, settings: RidingSettings, what: &'static str) {
    out.edit(Edit::WeightAndPrice(WeightAndPriceEdit::Riding { settings, what }));
}

fn money(out: &mut Requests, settings: MoneySettings, what: &'static str) {
    out.edit(Edit::WeightAndPrice(WeightAndPriceEdit::Money { settings, what }));
}

/// Where a number of the settings stands.
type Number = fn(&mut RidingSettings) -> &mut f64;

/// A number in its field, in the units shown.
#[derive(Clone, Copy)]
struct NumberField {
    units: System,
    unit: RidingUnit,
}

impl NumberField {
    /// As it stands in its field.
    fn written(self, value: f64) -> String {
        match shown_unit(self.units, self.unit) {
            (_, 1.0) => trimmed(value, 4),
            (_, factor) => trimmed(value * factor, 2),
        }
    }

    /// As typed, in the file's unit, to the step at which the field shows it again.
    fn read(self, text: &str) -> Result<f64, EntryError> {
        let number = read_number(text)?;
        match shown_unit(self.units, self.unit) {
            (_, 1.0) => Ok(number),
            (_, factor) => Ok((number / factor * 1e4).round() / 1e4),
        }
    }
}

fn moving_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let (settings, units) = (&shown.lineup().settings.price_and_climb, shown.lineup().settings.units);
    heading_ui(ui, labels::RIDER_LUGGAGE_AND_OTHER_PARTS);
    let fields: [(&str, &'static str, RidingNumber, Number); 3] = [
        (labels::RIDER, labels::RIDER_LOWER, RidingNumber::Rider, |s| &mut s.rider_kg),
        (labels::LUGGAGE, labels::LUGGAGE_LOWER, RidingNumber::Luggage, |s| &mut s.luggage_kg),
        (labels::OTHER_PARTS, labels::WEIGHT_OF_OTHER_PARTS, RidingNumber::Rest, |s| &mut s.other_parts_kg),
    ];
    for (label, what, number, of) in fields {
        let mut after = settings.clone();
        let field = NumberField { units, unit: number.unit() };
        let name = label_with_unit(units, label, number.unit());
        let read = |t: &str| number.check(field.read(t)?).map_err(|e| EntryError::OutOfRange(units, e));
        if let Some(value) = field_ui(ui, &name, field.written(*of(&mut after)), "", 70.0, read) {
            *of(&mut after) = value;
            riding(out, after, what);
        }
    }
}

/// A number of the climb or of what resists: its label and unit, what it is called in undo, and where it stands.
type Quantity = (&'static str, RidingUnit, &'static str, Number);

fn quantities_ui(ui: &mut Ui, shown: Shown<'_>, quantities: &[Quantity], out: &mut Requests) {
    let (settings, units) = (&shown.lineup().settings.price_and_climb, shown.lineup().settings.units);
    for (label, unit, what, of) in quantities {
        let mut after = settings.clone();
        let field = NumberField { units, unit: *unit };
        let current = field.written(*of(&mut after));
        let read = |text: &str| {
            let mut after = settings.clone();
            *of(&mut after) = field.read(text)?;
            let is_valid = after.climb.checked().and_then(|()| after.conditions.checked());
            is_valid.map(|()| after).map_err(|e| EntryError::OutOfRange(units, e))
        };
        if let Some(after) = field_ui(ui, &label_with_unit(units, label, *unit), current, "", 70.0, read) {
            riding(out, after, what);
        }
    }
}

/// A number with the decimals that it needs, a real minus sign.
fn trimmed(value: f64, decimals: usize) -> String {
    let text = crate::units::fixed(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

fn climb_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    heading_ui(ui, labels::CLIMB);
    quantities_ui(
        ui,
        shown,
        &[
            (labels::LENGTH, RidingUnit::Kilometres, labels::LENGTH_OF_THE_CLIMB, |s| &mut s.climb.length_km),
            (labels::GRADIENT, RidingUnit::Percent, labels::GRADIENT_OF_THE_CLIMB, |s| &mut s.climb.gradient_percent),
            (labels::POWER, RidingUnit::Watts, labels::POWER_ON_THE_CLIMB, |s| &mut s.climb.power_w),
        ],
        out,
    );
}

fn conditions_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    heading_ui(ui, labels::AIR_TYRES_AND_DRIVETRAIN);
    quantities_ui(
        ui,
        shown,
        &[
            (labels::DRAG_AREA_CDA, RidingUnit::SquareMetres, labels::DRAG_AREA, |s| &mut s.conditions.drag_area_m2),
            (labels::WHEELS_DRAG_AREA, RidingUnit::SquareMetres, labels::WHEELS_DRAG_AREA_CHANGE, |s| {
                &mut s.conditions.wheel_area_m2
            }),
            (labels::ROLLING_RESISTANCE, RidingUnit::One, labels::ROLLING_RESISTANCE_LOWER, |s| &mut s.conditions.rolling),
            (labels::AIR_DENSITY, RidingUnit::Density, labels::DENSITY_OF_THE_AIR, |s| &mut s.conditions.air_kg_m3),
            (labels::DRIVE_EFFICIENCY, RidingUnit::One, labels::EFFICIENCY_OF_THE_DRIVE, |s| &mut s.conditions.efficiency),
            (labels::HEAD_WIND, RidingUnit::MetresPerSecond, labels::HEAD_WIND_LOWER, |s| &mut s.conditions.head_wind_m_s),
        ],
        out,
    );
    note_ui(ui, labels::HOW_A_CLIMB_IS_COMPUTED);
}

fn money_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let settings = &shown.lineup().settings.money;
    heading_ui(ui, labels::PRICES);
    let current = settings.currency.code().to_owned();
    let currency = field_ui(ui, labels::CURRENCY_SHOWN, current, labels::EUR, 70.0, |t| Ok(read_currency(t)?));
    if let Some(currency) = currency {
        money(out, MoneySettings { currency, ..settings.clone() }, labels::CURRENCY_SHOWN_LOWER);
    }
    if let Some(tax) = pick_ui(ui, labels::PRICES_SHOWN, 100.0, settings.tax, &[Tax::Included, Tax::Excluded], tax_label) {
        money(out, MoneySettings { tax, ..settings.clone() }, labels::TAX_SHOWN);
    }
    let current = settings.tax_percent.map(|p| p.to_string()).unwrap_or_default();
    let percent = field_ui(ui, labels::YOUR_TAX_RATE_PERCENT, current, labels::NONE, 70.0, |t| Ok(read_percent(t)?));
    if let Some(tax_percent) = percent {
        money(out, MoneySettings { tax_percent, ..settings.clone() }, labels::TAX_RATE);
    }
    let width = ui.available_width() - 44.0;
    for (place, rate) in settings.rates.iter().enumerate() {
        ui.horizontal(|ui| {
            let name = labels::exchange_rate(&(place + 1));
            let entry = TypedField { id: Id::unique(("rate", place)), name: &name, current: rate.text(), hint: "", width };
            let others: Vec<Rate> =
                settings.rates.iter().enumerate().filter(|(i, _)| *i != place).map(|(_, r)| r.clone()).collect();
            if let Some(rate) = entry.show(ui, |t| read_rate(t, &others)).1 {
                let mut after = settings.clone();
                if let Some(own) = after.rates.get_mut(place) {
                    *own = rate;
                }
                money(out, after, labels::EXCHANGE_RATE);
            }
            if remove_ui(ui, &labels::remove_exchange_rate(&(place + 1))) {
                let mut after = settings.clone();
                after.rates.remove(place);
                money(out, after, labels::REMOVING_AN_EXCHANGE_RATE);
            }
        });
    }
    ui.label(RichText::new(labels::EXCHANGE_RATE_DAY_OPTIONAL_TODAY).size(SMALL).color(Tones::of(ui).second()));
    let hint = labels::EXCHANGE_RATE_EXAMPLE;
    let entry =
        TypedField { id: Id::unique("new exchange rate"), name: labels::NEW_EXCHANGE_RATE, current: String::new(), hint, width };
    let read = |text: &str| if text.trim().is_empty() { Ok(None) } else { read_rate(text, &settings.rates).map(Some) };
    let (field, entered) = entry.show(ui, read);
    field.on_hover_text(labels::HOW_TO_ENTER_AN_EXCHANGE_RATE);
    if let Some(Some(rate)) = entered {
        let mut after = settings.clone();
        after.rates.push(rate);
        money(out, after, labels::ADDING_AN_EXCHANGE_RATE);
    }
    for (frame, worth) in shown.findings().frames.iter().zip(&shown.findings().price_and_climb).filter(|(f, _)| f.shown) {
        if let Some(sentence) = missing_price_text(&frame.letter, &worth.offer) {
            note_ui(ui, &sentence);
        }
    }
    note_ui(ui, labels::ENTER_PUBLISHED_PRICES);
}

fn read_rate(text: &str, others: &[Rate]) -> Result<Rate, EntryError> {
    let today = today().ok_or(EntryError::NoToday)?;
    let rate = Rate::read_line(text, today)?;
    check_rate(others, &rate)?;
    Ok(rate)
}

fn gears_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let settings = &shown.lineup().settings.price_and_climb;
    heading_ui(ui, labels::GEARS);
    let current = shortest(settings.cadence_rpm);
    let read =
        |text: &str| RidingNumber::Cadence.check(read_number(text)?).map_err(|e| EntryError::OutOfRange(System::Metric, e));
    if let Some(cadence_rpm) = field_ui(ui, labels::CADENCE_RPM, current, "", 70.0, read) {
        riding(out, RidingSettings { cadence_rpm, ..settings.clone() }, labels::CADENCE);
    }
    for (place, build) in settings.builds.iter().enumerate() {
        let number = place + 1;
        let put = |out: &mut Requests, build: Gearing| {
            let mut after = settings.clone();
            if let Some(own) = after.builds.get_mut(place) {
                *own = build;
            }
            riding(out, after, labels::GEARS_LOWER);
        };
        ui.add_space(4.0);
        ui.horizontal(|ui| {
            let (name, width) = (labels::build_name(&number), ui.available_width() - 44.0);
            let entry = TypedField {
                id: Id::unique(("build", place)),
                name: &name,
                current: build.name.clone(),
                hint: labels::NAME,
                width,
            };
            if let Some(name) = entry.show(ui, read_name).1 {
                put(out, Gearing { name, ..build.clone() });
            }
            if remove_ui(ui, &labels::remove_build(&number)) {
                let mut after = settings.clone();
                after.builds.remove(place);
                riding(out, after, labels::REMOVING_A_BUILD);
            }
        });
        if let Some(chainrings) = teeth_ui(ui, number, labels::CHAINRINGS, &build.chainrings) {
            put(out, Gearing { chainrings, ..build.clone() });
        }
        if let Some(cogs) = teeth_ui(ui, number, labels::SPROCKETS, &build.cogs) {
            put(out, Gearing { cogs, ..build.clone() });
        }
    }
    if settings.builds.len() < MOST_BUILDS && ui.button(labels::ADD_A_BUILD).clicked() {
        let mut after = settings.clone();
        let like = after.builds.last().cloned().or_else(|| RidingSettings::default().builds.into_iter().next());
        after.builds.extend(like.map(|b| Gearing { name: labels::new_build_name(&(settings.builds.len() + 1)), ..b }));
        riding(out, after, labels::ADDING_A_BUILD);
    }
}

/// Teeth in a field as wide as the panel leaves.
fn teeth_ui(ui: &mut Ui, build: usize, what: &str, teeth: &[u32]) -> Option<Vec<u32>> {
    let mut entered = None;
    ui.horizontal(|ui| {
        ui.label(egui::RichText::new(what).color(Tones::of(ui).second()));
        let name = labels::build(&build, &what);
        let width = ui.available_width() - 20.0;
        let entry = TypedField { id: Id::unique(&name), name: &name, current: write_teeth(teeth), hint: "11, 13, 15", width };
        entered = entry.show(ui, read_teeth).1;
    });
    entered
}

/// More do not fit side by side.
const MOST_BUILDS: usize = 6;

fn read_name(text: &str) -> Result<String, EntryError> {
    let name = text.trim();
    if name.is_empty() {
        return Err(EntryError::NoName);
    }
    TextKind::Name.check(labels::THE_NAME, name)?;
    Ok(name.to_owned())
}
