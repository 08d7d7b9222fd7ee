//! The Hands view: stem, spacers, bar and saddle on the reference, and what repeats that position on every other frame.

use egui::{ComboBox, Id, Ui};

use super::super::canvas::tell;
use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::fit_edits::FitEdit;
use super::super::named::named;
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::parts::table_ui;
use super::side_panel::{heading_ui, note_ui, number_ui, row_ui, side_panel_ui};
use super::{View, ViewId};
use crate::drawing::{FitPart, PictureView};
use crate::lineup::with_matched_sizes;
use crate::parts::position::{Cockpit, Handlebar, Rider, Saddle};
use crate::words::{matched_text, repeated_text, shortest};

/// The Contact points view.
pub(crate) struct Hands;

impl View for Hands {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        let sizes = with_matched_sizes(shown.lineup(), &shown.findings().fit);
        let button = ui.add_enabled(!sizes.is_empty(), egui::Button::new("Take the nearest sizes"));
        let tooltip =
            "Puts every other frame in the size whose reach at the reference's bar height is nearest; undo takes it back.";
        if button.on_hover_text(tooltip).clicked() {
            out.edit(Edit::Fit(FitEdit::Sizes(sizes)));
        }
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        side_panel_ui(ui, "rider", |ui| rider_ui(ui, shown, out));
        tell(ui.ctx(), None);
        let visible = ui.available_width();
        let units = shown.lineup().settings.units;
        egui::ScrollArea::both().id_salt("hands table").auto_shrink([false, false]).show(ui, |ui| {
            table_ui(ui, FitPart::Position, shown);
            ui.add_space(8.0);
            for frame in shown.findings().frames.iter().zip(&shown.findings().fit) {
                let (frame, fit) = frame;
                let repeated = fit.position.repeated.as_ref().map(|r| repeated_text(units, r));
                let matched = fit.position.matched.as_ref().map(|m| matched_text(units, m));
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
        Some(PictureView::Hands)
    }
}

fn put(out: &mut Requests, rider: Rider) {
    out.edit(Edit::Fit(FitEdit::Rider(rider)));
}

fn rider_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let rider = shown.lineup().settings.rider;
    let letter = shown.findings().reference_frame().map_or("A", |f| f.letter.as_str());
    heading_ui(ui, &format!("Hands on {letter}"));
    match rider.cockpit {
        None => {
            note_ui(ui, "Nothing entered yet.");
            if ui.button("Enter stem and bar").clicked() {
                put(out, Rider { cockpit: Some(Cockpit::default()), ..rider });
            }
        }
        Some(cockpit) => cockpit_ui(ui, rider, cockpit, out),
    }
    heading_ui(ui, "Saddle");
    match rider.saddle {
        None => {
            if ui.button("Enter the saddle").clicked() {
                put(out, Rider { saddle: Some(Saddle { height: 740.0, setback: 210.0 }), ..rider });
            }
        }
        Some(saddle) => {
            if let Some(height) = number_ui(ui, "Saddle height", saddle.height, 400.0..=950.0, "mm") {
                put(out, Rider { saddle: Some(Saddle { height, ..saddle }), ..rider });
            }
            if let Some(setback) = number_ui(ui, "Clamp behind bottom bracket", saddle.setback, 0.0..=400.0, "mm") {
                put(out, Rider { saddle: Some(Saddle { setback, ..saddle }), ..rider });
            }
        }
    }
    heading_ui(ui, "Legs and feet");
    leg_ui(ui, rider, out);
    if let Some(crank) = number_ui(ui, "Crank", rider.crank, 100.0..=220.0, "mm") {
        put(out, Rider { crank, ..rider });
    }
    if let Some(shoe_ahead) = number_ui(ui, "Shoe ahead of the pedal's axle", rider.shoe_ahead, 0.0..=220.0, "mm") {
        put(out, Rider { shoe_ahead, ..rider });
    }
    if let Some(mudguard) = number_ui(ui, "Mudguard off the front tyre", rider.mudguard, 0.0..=60.0, "mm") {
        put(out, Rider { mudguard, ..rider });
    }
    let mut feet_held = rider.feet_held;
    if ui.checkbox(&mut feet_held, "feet held to the pedals").changed() {
        put(out, Rider { feet_held, ..rider });
    }
    note_ui(ui, "Stem 35 to 130 mm and spacers up to 40 mm: trade practice, unverified. The makers of steerer and stem decide.");
}

/// The inside leg, which may be left empty.
fn leg_ui(ui: &mut Ui, rider: Rider, out: &mut Requests) {
    let read = |text: &str| match text.trim().trim_end_matches("mm").trim() {
        "" => Ok(None),
        number => match crate::units::typed_number(number) {
            Some(leg) if (500.0..=1100.0).contains(&leg) => Ok(Some(leg)),
            _ => Err("write the inside leg in mm, 500 to 1100, or leave it empty".to_owned()),
        },
    };
    let mut entered = None;
    row_ui(ui, "Inside leg, mm", |ui| {
        let current = rider.inside_leg.map(shortest).unwrap_or_default();
        let entry = TypedField { id: Id::unique("inside leg"), name: "Inside leg", current, hint: "not stated", width: 100.0 };
        entered = entry.show(ui, read).1;
    });
    if let Some(inside_leg) = entered {
        put(out, Rider { inside_leg, ..rider });
    }
}

fn cockpit_ui(ui: &mut Ui, rider: Rider, cockpit: Cockpit, out: &mut Requests) {
    let mut changed = cockpit;
    let take = |value: Option<f64>, place: &mut f64| {
        if let Some(value) = value {
            *place = value;
        }
    };
    take(number_ui(ui, "Stem", cockpit.stem_length, 20.0..=160.0, "mm"), &mut changed.stem_length);
    take(number_ui(ui, "Stem angle", cockpit.stem_angle, -45.0..=60.0, "°"), &mut changed.stem_angle);
    take(number_ui(ui, "Spacers", cockpit.spacers, 0.0..=150.0, "mm"), &mut changed.spacers);
    take(number_ui(ui, "Upper headset", cockpit.upper_headset, 0.0..=60.0, "mm"), &mut changed.upper_headset);
    changed.bar = bar_ui(ui, "Bar", cockpit.bar);
    let mut differs = rider.bar_elsewhere.is_some();
    let check = ui.checkbox(&mut differs, "another bar on the other frames");
    let mut elsewhere = rider.bar_elsewhere;
    if check.changed() {
        elsewhere = differs.then(|| other_kind(changed.bar));
    } else if let Some(bar) = elsewhere {
        elsewhere = Some(bar_ui(ui, "Other bar", bar));
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

fn bar_ui(ui: &mut Ui, name: &str, bar: Handlebar) -> Handlebar {
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
    let number = |ui: &mut Ui, label: &str, value: &mut f64, range, unit| {
        if let Some(new) = number_ui(ui, &format!("{name}: {label}"), *value, range, unit) {
            *value = new;
        }
    };
    match &mut after {
        Handlebar::Flat { width, rise, sweep } => {
            number(ui, "width", width, 350.0..=1000.0, "mm");
            number(ui, "rise", rise, -60.0..=150.0, "mm");
            number(ui, "sweep", sweep, 0.0..=90.0, "°");
        }
        Handlebar::Drop { reach, drop, hoods } => {
            number(ui, "reach", reach, 40.0..=130.0, "mm");
            number(ui, "drop", drop, 80.0..=200.0, "mm");
            number(ui, "hoods", hoods, 0.0..=80.0, "mm");
        }
    }
    after
}
