//! The Contact points view: stem, spacers, bar and saddle on the reference, and what repeats that position on every other frame.

use egui::{ComboBox, Id, Ui};

use super::super::canvas::tell;
use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::fit_edits::FitEdit;
use super::super::labels::contact_points as labels;
use super::super::named::named;
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::parts::table_ui;
use super::side_panel::{heading_ui, length_ui, note_ui, number_ui, row_ui, side_panel_ui};
use super::{View, ViewId};
use crate::drawing::FitPart;
use crate::lineup::PictureView;
use crate::parts::contact_points::{Cockpit, Handlebar, Rider, Saddle};
use crate::units::{Quantity, System};
use crate::words::Label;
use crate::words::{inside_leg_range_text, matched_text, position_limits_text, repeated_text, upper_headset_range_text};

/// The Contact points view.
pub(crate) struct ContactPoints;

impl View for ContactPoints {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        super::use_closest_ui(ui, shown, out);
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        side_panel_ui(ui, "rider", |ui| rider_ui(ui, shown, out));
        tell(ui.ctx(), None);
        let visible = ui.available_width();
        let units = shown.lineup().settings.units;
        egui::ScrollArea::both().id_salt("hands table").auto_shrink([false, false]).show(ui, |ui| {
            table_ui(ui, FitPart::ContactPoints, shown);
            ui.add_space(8.0);
            for frame in shown.findings().frames.iter().zip(&shown.findings().fit) {
                let (frame, fit) = frame;
                let repeated = fit.contact_points.repeated.as_ref().map(|r| repeated_text(units, r));
                let matched = fit.contact_points.closest_size.as_ref().map(|m| matched_text(units, m));
                let sentences: Vec<String> = repeated.into_iter().chain(matched).collect();
                if frame.shown && !sentences.is_empty() {
                    let margin = egui::Margin::symmetric(20, 2);
                    egui::Frame::NONE.inner_margin(margin).show(ui, |ui| {
                        ui.set_max_width((visible - 56.0).max(120.0));
                        note_ui(ui, &format!("{}: {}", frame.letter, sentences.join(" ")));
                    });
                }
            }
        });
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::ContactPoints)
    }
}

fn put(out: &mut Requests, rider: Rider) {
    out.edit(Edit::Fit(FitEdit::Rider(rider)));
}

fn rider_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let (rider, units) = (shown.lineup().settings.rider, shown.lineup().settings.units);
    let letter = shown.findings().reference_frame().map_or(labels::LETTER_A, |f| f.letter.as_str());
    heading_ui(ui, &labels::handlebar_on(&letter));
    match rider.cockpit {
        None => {
            note_ui(ui, labels::WHY_ENTER_STEM_AND_HANDLEBAR);
            if ui.button(labels::ENTER_STEM_AND_HANDLEBAR).clicked() {
                put(out, Rider { cockpit: Some(Cockpit::default()), ..rider });
            }
        }
        Some(cockpit) => cockpit_ui(ui, units, rider, cockpit, out),
    }
    heading_ui(ui, labels::SADDLE);
    match rider.saddle {
        None => {
            if ui.button(labels::ENTER_SADDLE).clicked() {
                put(out, Rider { saddle: Some(Saddle { height: 740.0, setback: 210.0 }), ..rider });
            }
        }
        Some(saddle) => {
            if let Some(height) = length_ui(ui, units, labels::SADDLE_HEIGHT, saddle.height, 400.0..=950.0) {
                put(out, Rider { saddle: Some(Saddle { height, ..saddle }), ..rider });
            }
            if let Some(setback) = length_ui(ui, units, labels::SADDLE_SETBACK_FROM_BOTTOM_BRACKET, saddle.setback, 0.0..=400.0) {
                put(out, Rider { saddle: Some(Saddle { setback, ..saddle }), ..rider });
            }
        }
    }
    heading_ui(ui, labels::LEGS_AND_FEET);
    let inside_leg = optional_length_ui(ui, units, &INSIDE_LEG, rider.inside_leg);
    if inside_leg != rider.inside_leg {
        put(out, Rider { inside_leg, ..rider });
    }
    if let Some(crank) = length_ui(ui, units, labels::CRANK_LENGTH, rider.crank, 100.0..=220.0) {
        put(out, Rider { crank, ..rider });
    }
    if let Some(shoe_ahead) = length_ui(ui, units, labels::SHOE_AHEAD_OF_PEDAL_AXLE, rider.shoe_ahead, 0.0..=220.0) {
        put(out, Rider { shoe_ahead, ..rider });
    }
    if let Some(mudguard) = length_ui(ui, units, labels::MUDGUARD_GAP_TO_FRONT_TYRE, rider.mudguard, 0.0..=60.0) {
        put(out, Rider { mudguard, ..rider });
    }
    let mut clipped_in = rider.clipped_in;
    if ui.checkbox(&mut clipped_in, labels::CLIPPED_IN).changed() {
        put(out, Rider { clipped_in, ..rider });
    }
    note_ui(ui, &position_limits_text(units));
}

/// A length that may be left empty.
struct OptionalLength {
    name: &'static str,
    /// What the field says while it is empty.
    hint: &'static str,
    /// Accepted lengths, mm.
    range_mm: std::ops::RangeInclusive<f64>,
    /// What is accepted, in a sentence.
    range_text: fn(System, f64, f64) -> String,
}

const INSIDE_LEG: OptionalLength = OptionalLength {
    name: labels::INSIDE_LEG,
    hint: labels::NOT_ENTERED,
    range_mm: 500.0..=1100.0,
    range_text: inside_leg_range_text,
};
const UPPER_HEADSET: OptionalLength = OptionalLength {
    name: labels::UPPER_HEADSET_STACK_HEIGHT,
    hint: labels::ASSUMED,
    range_mm: 0.0..=60.0,
    range_text: upper_headset_range_text,
};
/// The field of a length that may be left empty; gives the length as it is now.
fn optional_length_ui(ui: &mut Ui, units: System, of: &OptionalLength, mm: Option<f64>) -> Option<f64> {
    let read = |text: &str| match text.trim() {
        "" => Ok(None),
        length => match crate::units::typed_length(length, units) {
            Some(mm) if of.range_mm.contains(&mm) => Ok(Some(mm)),
            _ => Err((of.range_text)(units, *of.range_mm.start(), *of.range_mm.end())),
        },
    };
    let mut entered = None;
    row_ui(ui, &labels::with_unit(&of.name, &units.unit(Quantity::Length)), |ui| {
        let current = mm.map(|mm| units.in_field(Quantity::Length, mm)).unwrap_or_default();
        let entry = TypedField { id: Id::unique(of.name), name: of.name, current, hint: of.hint, width: 100.0 };
        entered = entry.show(ui, read).1;
    });
    entered.unwrap_or(mm)
}

fn cockpit_ui(ui: &mut Ui, units: System, rider: Rider, cockpit: Cockpit, out: &mut Requests) {
    let mut changed = cockpit;
    let take = |value: Option<f64>, place: &mut f64| {
        if let Some(value) = value {
            *place = value;
        }
    };
    take(length_ui(ui, units, labels::STEM_LENGTH, cockpit.stem_length, 20.0..=160.0), &mut changed.stem_length);
    take(number_ui(ui, labels::STEM_ANGLE, cockpit.stem_angle, -45.0..=60.0, "°"), &mut changed.stem_angle);
    take(length_ui(ui, units, labels::SPACERS, cockpit.spacers, 0.0..=150.0), &mut changed.spacers);
    changed.upper_headset_stack_height = optional_length_ui(ui, units, &UPPER_HEADSET, cockpit.upper_headset_stack_height);
    changed.bar = bar_ui(ui, units, labels::HANDLEBAR, cockpit.bar);
    let mut differs = rider.bar_elsewhere.is_some();
    let check = ui.checkbox(&mut differs, labels::ANOTHER_HANDLEBAR_ON_THE_OTHER_FRAMES);
    let mut elsewhere = rider.bar_elsewhere;
    if check.changed() {
        elsewhere = differs.then(|| other_kind(changed.bar));
    } else if let Some(bar) = elsewhere {
        elsewhere = Some(bar_ui(ui, units, labels::OTHER_HANDLEBAR, bar));
    }
    if changed != cockpit || elsewhere != rider.bar_elsewhere {
        put(out, Rider { cockpit: Some(changed), bar_elsewhere: elsewhere, ..rider });
    }
}

const FLAT: Handlebar = Handlebar::Flat { width: 740.0, rise: 20.0, sweep: 9.0 };
const DROP: Handlebar = Handlebar::Drop { reach: 75.0, drop: 120.0, hoods: 30.0 };

const fn other_kind(bar: Handlebar) -> Handlebar {
    match bar {
        Handlebar::Flat { .. } => DROP,
        Handlebar::Drop { .. } => FLAT,
    }
}

fn bar_ui(ui: &mut Ui, units: System, name: &str, bar: Handlebar) -> Handlebar {
    let mut after = bar;
    row_ui(ui, name, |ui| {
        let combo = ComboBox::from_id_salt(name).width(110.0).selected_text(bar.label()).show_ui(ui, |ui| {
            for kind in [FLAT, DROP] {
                let is_own = kind.label() == bar.label();
                if ui.selectable_label(is_own, kind.label()).clicked() && !is_own {
                    after = kind;
                }
            }
        });
        named(&combo.response, name);
    });
    let length = |ui: &mut Ui, label: &str, value: &mut f64, range| {
        if let Some(new) = length_ui(ui, units, &format!("{name} {label}"), *value, range) {
            *value = new;
        }
    };
    match &mut after {
        Handlebar::Flat { width, rise, sweep } => {
            length(ui, labels::WIDTH, width, 350.0..=1000.0);
            length(ui, labels::RISE, rise, -60.0..=150.0);
            if let Some(new) = number_ui(ui, &labels::sweep(&name), *sweep, 0.0..=90.0, "°") {
                *sweep = new;
            }
        }
        Handlebar::Drop { reach, drop, hoods } => {
            length(ui, labels::REACH, reach, 40.0..=130.0);
            length(ui, labels::DROP, drop, 80.0..=200.0);
            length(ui, labels::HOODS, hoods, 0.0..=80.0);
        }
    }
    after
}
