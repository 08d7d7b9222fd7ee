//! What a maker publishes besides the figures, as fields: names, tyre, steps, tubing; the lists stand in
//! `frameset_lists.rs`.

use std::convert::Infallible;

use egui::{Align, ComboBox, Id, Response, RichText, Ui};

use super::super::labels::frameset as labels;
use super::super::moment::Awaited;
use super::super::named::named;
use super::super::requests::{Request, Requests};
use super::super::theme::{SMALL, Tones, regular};
use super::decisions::stated_ui;
use super::edited_frameset::Sheet;
use super::frameset_lists::lists_ui;
use super::frameset_table::{Field, is_entered};
use crate::frameset::{Bar, Frameset, Material, Refused, RoundedTo, TextKind, Tubing, TyreSize, ValueError};
use crate::money::MoneyError;
use crate::parts::Statements;
use crate::parts::standards::{NotUnderstood, named_tyre};
use crate::units::{Quantity, System, as_typed};
use crate::words::{Label, shortest, stated_label, stated_meaning};

/// What is said of the facts, and which of them the keyboard is to go to.
#[derive(Clone, Copy)]
pub(crate) struct Facts<'a> {
    /// The standards, understood.
    pub(crate) said: Option<&'a Statements>,
    /// What is to be entered.
    pub(crate) awaited: Option<Awaited>,
    /// The field of the first size's label, to which Enter leads from the model's name.
    pub(crate) below: Id,
}

/// All of it.
pub(crate) fn facts_ui(ui: &mut Ui, sheet: Sheet<'_>, facts: Facts<'_>, tones: Tones, out: &mut Requests) {
    ui.spacing_mut().item_spacing.y = 5.0;
    ui.horizontal_wrapped(|ui| {
        let frameset = sheet.frameset;
        let maker = name(ui, sheet, labels::MAKER, &frameset.maker, out, |f, t| {
            t.trim().clone_into(&mut f.maker);
            Ok(())
        });
        if facts.awaited == Some(Awaited::Maker) {
            lead_to(&maker);
            out.push(Request::Entered);
        }
        let model = name(ui, sheet, labels::MODEL, &frameset.model, out, |f, t| {
            t.trim().clone_into(&mut f.model);
            Ok(())
        });
        if is_entered(ui, &model) {
            ui.memory_mut(|m| m.request_focus(facts.below));
        }
        let current = frameset.year.map(|y| y.to_string()).unwrap_or_default();
        text(ui, sheet, labels::YEAR, &current, 52.0, out, |f, t| {
            f.year = year(t)?;
            Ok(())
        });
        text(ui, sheet, labels::TYRE, &tyre_text(frameset.tyre), 60.0, out, |f, t| {
            f.tyre = tyre(t)?;
            Ok(())
        });
        text(ui, sheet, labels::FRONT_TYRE, &tyre_text(frameset.front_tyre), 60.0, out, |f, t| {
            f.front_tyre = tyre(t)?;
            Ok(())
        });
        let to = frameset.rounded_to;
        let units = sheet.units;
        let label = labels::length_step(&units.unit(Quantity::Length));
        let step = units.in_field(Quantity::Length, to.mm);
        let fact = Fact { salt: ("length step", 0), label: &label, current: &step, width: 54.0, kind: TextKind::Words };
        field(ui, sheet, fact, out, &|f, t| {
            let mm = units.from_field(Quantity::Length, number(t)?);
            f.set_rounded_to(RoundedTo { mm, ..f.rounded_to }).map_err(|why| match units {
                System::Metric => why.into(),
                System::Imperial => FactError::StepInInches(t.trim().to_owned()),
            })
        });
        text(ui, sheet, labels::ANGLE_STEP_DEGREES, &shortest(to.deg), 36.0, out, |f, t| {
            Ok(f.set_rounded_to(RoundedTo { deg: number(t)?, ..f.rounded_to })?)
        });
    });
    // Pickers are higher than fields: in a row of their own all words stand level.
    ui.horizontal(|ui| {
        material_ui(ui, sheet, out);
        bar_ui(ui, sheet, out);
    });
    conventions_ui(ui, sheet, tones, out);
    lists_ui(ui, sheet, facts, tones, out);
}

type Change = fn(&mut Frameset, &str) -> Result<(), FactError>;

/// A published fact with a field of its own.
#[derive(Clone, Copy)]
pub(super) struct Fact<'a> {
    /// Tells the field apart from others, with its place in a list.
    pub(super) salt: (&'a str, usize),
    /// Label beside the field, and its name for screen readers.
    pub(super) label: &'a str,
    /// The text as published so far.
    pub(super) current: &'a str,
    /// Width of the field, points.
    pub(super) width: f32,
    /// What it holds, by which its length is limited.
    pub(super) kind: TextKind,
}

/// A labelled field.
fn text(ui: &mut Ui, sheet: Sheet<'_>, label: &str, current: &str, width: f32, out: &mut Requests, change: Change) {
    let kind = TextKind::Words;
    field(ui, sheet, Fact { salt: (label, 0), label, current, width, kind }, out, &|f, t| change(f, t));
}

/// A labelled field of a maker's or a model's name.
fn name(ui: &mut Ui, sheet: Sheet<'_>, label: &str, current: &str, out: &mut Requests, change: Change) -> Response {
    let kind = TextKind::Name;
    field(ui, sheet, Fact { salt: (label, 0), label, current, width: 130.0, kind }, out, &|f, t| change(f, t))
}

pub(super) fn field(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    fact: Fact<'_>,
    out: &mut Requests,
    change: &dyn Fn(&mut Frameset, &str) -> Result<(), FactError>,
) -> Response {
    // A label and its field stand on one line.
    let words = ui.painter().layout_no_wrap(fact.label.to_owned(), regular(SMALL), egui::Color32::PLACEHOLDER).size().x;
    if words + fact.width + 3.0 * ui.spacing().item_spacing.x > ui.available_size_before_wrap().x {
        ui.end_row();
        ui.set_row_height(ui.spacing().interact_size.y);
    }
    label_ui(ui, fact.label);
    bare_field(ui, sheet, fact, out, change)
}

pub(super) fn label_ui(ui: &mut Ui, label: &str) {
    ui.label(RichText::new(label).size(SMALL).color(Tones::of(ui).second()));
}

/// A field whose label stands elsewhere.
pub(super) fn bare_field(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    fact: Fact<'_>,
    out: &mut Requests,
    change: &dyn Fn(&mut Frameset, &str) -> Result<(), FactError>,
) -> Response {
    let Fact { salt, label, current, width, kind } = fact;
    let id = Id::unique(("fact", sheet.frame, salt));
    let read = |text: &str| {
        kind.check(&format!("\u{201c}{label}\u{201d}"), text)?;
        sheet.changed(&label.to_lowercase(), Some(id), |f| change(f, text))
    };
    let (field, edit) = (Field { id, name: label, current, hint: "", width, is_number: false }).show(ui, read);
    if let Some(edit) = edit {
        out.edit(edit);
    }
    field
}

/// Why a text typed for a published fact is not taken.
#[derive(Debug, thiserror::Error)]
pub(super) enum FactError {
    #[error("{0}")]
    Change(#[from] Refused),
    #[error("{0}")]
    Value(#[from] ValueError),
    #[error("{0}")]
    Money(#[from] MoneyError),
    #[error("{0}")]
    Tyre(#[from] NotUnderstood),
    #[error("{}", labels::NUMBER_IS_NOT_VALID)]
    NotANumber,
    #[error("{}", labels::YEAR_IS_NOT_VALID)]
    NotAYear,
    #[error("{}", labels::scale_step_out_of_range(&match .0 { System::Metric => labels::SCALE_STEP_METRIC, System::Imperial => labels::SCALE_STEP_IMPERIAL }))]
    ScaleStep(System),
    #[error("{}", labels::a_step(.0))]
    StepInInches(String),
    #[error("{}", labels::is_outside_in_pounds(&as_typed(*.0)))]
    OutsideInPounds(f64),
    #[error("{}", labels::A_PRICE_NEEDS_AN_AMOUNT)]
    NoCurrency,
    #[error("{}", labels::A_SOURCE_CANNOT_BE_EMPTY)]
    NoSource,
}

fn tyre_text(tyre: Option<TyreSize>) -> String {
    tyre.map(|t| t.to_string()).unwrap_or_default()
}

fn tyre(text: &str) -> Result<Option<TyreSize>, NotUnderstood> {
    if text.trim().is_empty() { Ok(None) } else { named_tyre(text).map(Some) }
}

fn year(text: &str) -> Result<Option<i32>, FactError> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    text.parse::<i32>().ok().filter(|year| (1900..2200).contains(year)).map(Some).ok_or(FactError::NotAYear)
}

pub(super) fn number(text: &str) -> Result<f64, FactError> {
    crate::units::typed_number(text).ok_or(FactError::NotANumber)
}

/// A picker of one of a few, or of none in the words for it.
#[expect(clippy::option_option, reason = "nothing picked, or picked that nothing is stated")]
pub(super) fn pick_or_none<T: Copy + PartialEq>(
    ui: &mut Ui,
    (label, salt): (&str, usize),
    none: &str,
    chosen: Option<T>,
    choices: &[(T, &str)],
) -> Option<Option<T>> {
    let words = |choice: Option<T>| choices.iter().find(|(c, _)| Some(*c) == choice).map_or(none, |(_, w)| *w);
    label_ui(ui, label);
    let mut picked = None;
    let combo = ComboBox::from_id_salt((label, salt)).selected_text(words(chosen)).show_ui(ui, |ui| {
        for choice in std::iter::once(None).chain(choices.iter().map(|(c, _)| Some(*c))) {
            if ui.selectable_label(choice == chosen, words(choice)).clicked() {
                picked = Some(choice);
            }
        }
    });
    named(&combo.response, label);
    picked
}

pub(super) fn push(sheet: Sheet<'_>, what: &str, out: &mut Requests, change: impl FnOnce(&mut Frameset)) {
    let Ok(edit) = sheet.changed(what, None, |f| {
        change(f);
        Ok::<(), Infallible>(())
    });
    out.edit(edit);
}

fn material_ui(ui: &mut Ui, sheet: Sheet<'_>, out: &mut Requests) {
    let choices = [Material::Steel, Material::Aluminium, Material::Titanium, Material::Carbon].map(|m| (m, m.label()));
    if let Some(picked) = pick_or_none(
        ui,
        (labels::MATERIAL, 0),
        labels::NOT_PUBLISHED,
        sheet.frameset.tubing.as_ref().map(|t| t.material),
        &choices,
    ) {
        push(sheet, labels::MATERIAL_CHANGE, out, |f| {
            f.tubing = picked.map(|material| match f.tubing.take() {
                Some(tubing) => Tubing { material, ..tubing },
                None => Tubing { material, grade: None, butting: None },
            });
        });
    }
}

fn bar_ui(ui: &mut Ui, sheet: Sheet<'_>, out: &mut Requests) {
    let choices = [(Bar::Flat, labels::FLAT), (Bar::Drop, labels::DROP), (Bar::Either, labels::EITHER)];
    if let Some(picked) = pick_or_none(ui, (labels::HANDLEBAR, 0), labels::NOT_PUBLISHED, sheet.frameset.bar, &choices) {
        push(sheet, labels::HANDLEBAR_CHANGE, out, |f| f.bar = picked);
    }
}

/// Which ways of measuring the maker states, each as a choice with what it means.
fn conventions_ui(ui: &mut Ui, sheet: Sheet<'_>, tones: Tones, out: &mut Requests) {
    const COLUMN: f32 = 600.0;
    let conventions = sheet.frameset.conventions();
    if conventions.is_empty() {
        return;
    }
    let title = labels::stated_by_the_maker_of(&sheet.frameset.stated.len(), &conventions.len());
    egui::CollapsingHeader::new(title).id_salt("stated by the maker").default_open(true).show(ui, |ui| {
        let words = labels::TICK_WHAT_THE_MAKER_STATES;
        ui.label(RichText::new(words).size(SMALL).color(tones.second()));
        let columns = if ui.available_width() > 2.0 * COLUMN { 2 } else { 1 };
        ui.spacing_mut().interact_size.y = 20.0;
        egui::Grid::new("stated").num_columns(2 * columns).spacing([14.0, 3.0]).show(ui, |ui| {
            for row in conventions.chunks(columns) {
                for convention in row {
                    stated_ui(ui, sheet, *convention, stated_label(*convention), out);
                    ui.label(RichText::new(stated_meaning(*convention)).size(SMALL).color(tones.second()));
                }
                ui.end_row();
            }
        });
    });
}

/// Leads the keyboard to a field, and the field into sight.
pub(super) fn lead_to(field: &Response) {
    field.request_focus();
    field.scroll_to_me(Some(Align::Center));
}
