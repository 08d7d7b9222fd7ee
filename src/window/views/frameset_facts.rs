//! What a maker publishes besides the figures, as fields: names, tyre, steps, tubing, fork; weights, prices, standards
//! and sources as lists.

use std::convert::Infallible;

use egui::{Align, ComboBox, Id, Layout, RichText, Ui, vec2};

use super::super::entry::TypedField;
use super::super::labels::frameset as labels;
use super::super::named::named;
use super::super::requests::Requests;
use super::super::theme::{SMALL, Tones, regular};
use super::decisions::stated_ui;
use super::edited_frameset::Sheet;
use super::frameset_table::Field;
use crate::frameset::{
    Bar, Frameset, Known, Material, Part, Price, Refused, RoundedTo, Source, Standard, Tax, TextKind, Tubing, TyreSize,
    ValueError, Weight, check_amount, check_date, check_grams,
};
use crate::money::{MoneyError, read_currency, typed_price};
use crate::parts::Statements;
use crate::parts::standards::{NotUnderstood, named_tyre};
use crate::units::{Quantity, System, as_typed, typed_mass};
use crate::words::{Label, shortest, stated_label, stated_meaning};

/// All of it.
pub(crate) fn facts_ui(ui: &mut Ui, sheet: Sheet<'_>, said: Option<&Statements>, tones: Tones, out: &mut Requests) {
    ui.spacing_mut().item_spacing.y = 5.0;
    ui.horizontal_wrapped(|ui| {
        let frameset = sheet.frameset;
        name(ui, sheet, labels::MAKER, &frameset.maker, out, |f, t| {
            t.trim().clone_into(&mut f.maker);
            Ok(())
        });
        name(ui, sheet, labels::MODEL, &frameset.model, out, |f, t| {
            t.trim().clone_into(&mut f.model);
            Ok(())
        });
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
    lists_ui(ui, sheet, said, tones, out);
}

type Change = fn(&mut Frameset, &str) -> Result<(), FactError>;

/// A published fact with a field of its own.
#[derive(Clone, Copy)]
struct Fact<'a> {
    /// Tells the field apart from others, with its place in a list.
    salt: (&'a str, usize),
    /// Label beside the field, and its name for screen readers.
    label: &'a str,
    /// The text as published so far.
    current: &'a str,
    /// Width of the field, points.
    width: f32,
    /// What it holds, by which its length is limited.
    kind: TextKind,
}

/// A labelled field.
fn text(ui: &mut Ui, sheet: Sheet<'_>, label: &str, current: &str, width: f32, out: &mut Requests, change: Change) {
    let kind = TextKind::Words;
    field(ui, sheet, Fact { salt: (label, 0), label, current, width, kind }, out, &|f, t| change(f, t));
}

/// A labelled field of a maker's or a model's name.
fn name(ui: &mut Ui, sheet: Sheet<'_>, label: &str, current: &str, out: &mut Requests, change: Change) {
    let kind = TextKind::Name;
    field(ui, sheet, Fact { salt: (label, 0), label, current, width: 130.0, kind }, out, &|f, t| change(f, t));
}

fn field(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    fact: Fact<'_>,
    out: &mut Requests,
    change: &dyn Fn(&mut Frameset, &str) -> Result<(), FactError>,
) {
    // A label and its field stand on one line.
    let words = ui.painter().layout_no_wrap(fact.label.to_owned(), regular(SMALL), egui::Color32::PLACEHOLDER).size().x;
    if words + fact.width + 3.0 * ui.spacing().item_spacing.x > ui.available_size_before_wrap().x {
        ui.end_row();
        ui.set_row_height(ui.spacing().interact_size.y);
    }
    label_ui(ui, fact.label);
    bare_field(ui, sheet, fact, out, change);
}

fn label_ui(ui: &mut Ui, label: &str) {
    ui.label(RichText::new(label).size(SMALL).color(Tones::of(ui).second()));
}

/// A field whose label stands elsewhere.
fn bare_field(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    fact: Fact<'_>,
    out: &mut Requests,
    change: &dyn Fn(&mut Frameset, &str) -> Result<(), FactError>,
) {
    let Fact { salt, label, current, width, kind } = fact;
    let id = Id::unique(("fact", sheet.frame, salt));
    let read = |text: &str| {
        kind.check(&format!("\u{201c}{label}\u{201d}"), text)?;
        sheet.changed(&label.to_lowercase(), Some(id), |f| change(f, text))
    };
    if let Some(edit) = (Field { id, name: label, current, hint: "", width, is_number: false }).ui(ui, read) {
        out.edit(edit);
    }
}

/// Why a text typed for a published fact is not taken.
#[derive(Debug, thiserror::Error)]
enum FactError {
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
    #[error("{}", labels::there_is_no_size_here(.0))]
    NoSize(String),
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

fn number(text: &str) -> Result<f64, FactError> {
    crate::units::typed_number(text).ok_or(FactError::NotANumber)
}

/// A weight typed in the units chosen, in grams.
fn typed_grams(units: System, text: &str) -> Result<f64, FactError> {
    if let Some(grams) = typed_mass(text) {
        return check_grams(grams).map(|()| grams).map_err(FactError::from);
    }
    let typed = number(text)?;
    let grams = units.from_field(Quantity::Mass, typed);
    match (check_grams(grams), units) {
        (Ok(()), _) => Ok(grams),
        (Err(why), System::Metric) => Err(why.into()),
        (Err(_), System::Imperial) => Err(FactError::OutsideInPounds(typed)),
    }
}

/// What a scale reads to, typed in the units chosen, in grams.
fn typed_scale_step(units: System, text: &str) -> Result<f64, FactError> {
    let to = match typed_mass(text) {
        Some(to) => to,
        None => units.from_field(Quantity::Mass, number(text)?),
    };
    if to > 0.0 && to <= 50.0 { Ok(to) } else { Err(FactError::ScaleStep(units)) }
}

/// A picker of one of a few, or none.
#[expect(clippy::option_option, reason = "nothing picked, or picked that nothing is stated")]
fn pick<T: Copy + PartialEq>(
    ui: &mut Ui,
    label: &str,
    salt: usize,
    chosen: Option<T>,
    choices: &[(T, &str)],
) -> Option<Option<T>> {
    let words = |choice: Option<T>| choices.iter().find(|(c, _)| Some(*c) == choice).map_or(labels::NOT_PUBLISHED, |(_, w)| *w);
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

fn push(sheet: Sheet<'_>, what: &str, out: &mut Requests, change: impl FnOnce(&mut Frameset)) {
    let Ok(edit) = sheet.changed(what, None, |f| {
        change(f);
        Ok::<(), Infallible>(())
    });
    out.edit(edit);
}

fn material_ui(ui: &mut Ui, sheet: Sheet<'_>, out: &mut Requests) {
    let choices = [Material::Steel, Material::Aluminium, Material::Titanium, Material::Carbon].map(|m| (m, m.label()));
    if let Some(picked) = pick(ui, labels::MATERIAL, 0, sheet.frameset.tubing.as_ref().map(|t| t.material), &choices) {
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
    if let Some(picked) = pick(ui, labels::HANDLEBAR, 0, sheet.frameset.bar, &choices) {
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

fn lists_ui(ui: &mut Ui, sheet: Sheet<'_>, said: Option<&Statements>, tones: Tones, out: &mut Requests) {
    let frameset = sheet.frameset;
    let counts = [
        (labels::WEIGHT, frameset.weights.len()),
        (labels::PRICE, frameset.prices.len()),
        (labels::STANDARD, frameset.standards.len()),
        (labels::SOURCE, frameset.sources.len()),
    ];
    let counted = |(name, count): &(&str, usize)| match count {
        0 => labels::none_of(&name),
        1 => format!("1 {name}"),
        _ => labels::several(&count, &name),
    };
    let words: Vec<String> = counts.iter().map(counted).collect();
    let title = labels::also_published(&words.join(", "));
    egui::CollapsingHeader::new(title).id_salt("also published").show(ui, |ui| {
        weights_ui(ui, sheet, out);
        prices_ui(ui, sheet, out);
        standards_ui(ui, sheet, said, tones, out);
        sources_ui(ui, sheet, out);
    });
}

/// The head of a list with the field whose entry begins a new line of it: nothing is stated until it is typed.
fn list_head<T>(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    words: &str,
    (name, hint): (&str, &str),
    read: impl Fn(&str) -> Result<T, FactError>,
) -> Option<T> {
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        ui.label(RichText::new(words).color(Tones::of(ui).ink()).strong());
        let entry = TypedField { id: Id::unique(("fact", sheet.frame, name)), name, current: String::new(), hint, width: 220.0 };
        entry.show(ui, read).1
    })
    .inner
}

fn remove_ui(ui: &mut Ui, name: &str) -> bool {
    let button = ui.small_button("×");
    named(&button, name);
    button.on_hover_text(name).clicked()
}

const PARTS: [(Part, &str); 3] = [(Part::Frame, labels::FRAME), (Part::Fork, labels::FORK), (Part::Frameset, labels::FRAMESET)];

fn weights_ui(ui: &mut Ui, sheet: Sheet<'_>, out: &mut Requests) {
    let units = sheet.units;
    let read = |text: &str| typed_grams(units, text);
    let unit_words = match units {
        System::Metric => labels::GRAMS,
        System::Imperial => labels::POUNDS,
    };
    let hint = labels::new_weight_in_then_enter(&unit_words);
    if let Some(grams) = list_head(ui, sheet, labels::WEIGHTS, (labels::NEW_WEIGHT, &hint), read) {
        push(sheet, labels::ADDING_A_WEIGHT, out, |f| {
            f.weights.push(Weight { part: Part::Frame, size: None, grams, from: Known::Claimed, with: Vec::new(), note: None });
        });
    }
    for (index, weight) in sheet.frameset.weights.iter().enumerate() {
        ui.horizontal_wrapped(|ui| {
            if let Some(Some(part)) = pick(ui, labels::PART, 100 + index, Some(weight.part), &PARTS) {
                push(sheet, labels::WEIGHT, out, |f| f.weights[index].part = part);
            }
            let size = weight.size.as_deref().unwrap_or_default();
            let fact =
                Fact { salt: ("weight size", index), label: labels::SIZE, current: size, width: 60.0, kind: TextKind::Name };
            field(ui, sheet, fact, out, &|f, t| {
                let t = t.trim();
                if !t.is_empty() && f.size_index(t).is_none() {
                    return Err(FactError::NoSize(t.to_owned()));
                }
                f.weights[index].size = Some(t.to_owned()).filter(|t| !t.is_empty());
                Ok(())
            });
            let shown = units.in_field(Quantity::Mass, weight.grams);
            let fact = Fact { salt: ("grams", index), label: unit_words, current: &shown, width: 56.0, kind: TextKind::Words };
            field(ui, sheet, fact, out, &|f, t| {
                f.weights[index].grams = typed_grams(units, t)?;
                Ok(())
            });
            let step = match weight.from {
                Known::Weighed { to } => units.in_field(Quantity::Mass, to),
                Known::Claimed => String::new(),
            };
            let label = labels::scale_step_empty_if_claimed(&units.unit(Quantity::Mass));
            let fact = Fact { salt: ("weighed to", index), label: &label, current: &step, width: 52.0, kind: TextKind::Words };
            field(ui, sheet, fact, out, &|f, t| {
                let to = Some(t.trim()).filter(|t| !t.is_empty());
                f.weights[index].from = match to {
                    Some(t) => Known::Weighed { to: typed_scale_step(units, t)? },
                    None => Known::Claimed,
                };
                Ok(())
            });
            let note = weight.note.as_deref().unwrap_or_default();
            let fact =
                Fact { salt: ("weight note", index), label: labels::NOTE, current: note, width: 180.0, kind: TextKind::Notes };
            field(ui, sheet, fact, out, &|f, t| {
                f.weights[index].note = Some(t.to_owned()).filter(|t| !t.is_empty());
                Ok(())
            });
            if remove_ui(ui, &labels::remove_weight(&(index + 1))) {
                push(sheet, labels::REMOVING_A_WEIGHT, out, |f| drop(f.weights.remove(index)));
            }
        });
    }
}

fn prices_ui(ui: &mut Ui, sheet: Sheet<'_>, out: &mut Requests) {
    if let Some((amount, currency)) =
        list_head(ui, sheet, labels::PRICES, (labels::NEW_PRICE, labels::NEW_PRICE_EXAMPLE), read_price)
    {
        push(sheet, labels::ADDING_A_PRICE, out, |f| {
            f.prices.push(Price { part: Part::Frameset, amount, currency, tax: None, tax_percent: None, on: None });
        });
    }
    for (index, price) in sheet.frameset.prices.iter().enumerate() {
        ui.horizontal_wrapped(|ui| {
            if let Some(Some(part)) = pick(ui, labels::PART, 200 + index, Some(price.part), &PARTS) {
                push(sheet, labels::PRICE, out, |f| f.prices[index].part = part);
            }
            field(
                ui,
                sheet,
                Fact {
                    salt: ("amount", index),
                    label: labels::AMOUNT,
                    current: &price.amount,
                    width: 80.0,
                    kind: TextKind::Words,
                },
                out,
                &|f, t| {
                    let (amount, currency) = typed_price(t)?;
                    let amount = amount.to_string();
                    check_amount(&amount)?;
                    f.prices[index].amount = amount;
                    if let Some(currency) = currency {
                        currency.code().clone_into(&mut f.prices[index].currency);
                    }
                    Ok(())
                },
            );
            field(
                ui,
                sheet,
                Fact {
                    salt: ("currency", index),
                    label: labels::CURRENCY,
                    current: &price.currency,
                    width: 44.0,
                    kind: TextKind::Words,
                },
                out,
                &|f, t| {
                    let currency = read_currency(t)?;
                    currency.code().clone_into(&mut f.prices[index].currency);
                    Ok(())
                },
            );
            let taxes = [(Tax::Included, labels::INCLUDED), (Tax::Excluded, labels::EXCLUDED)];
            if let Some(tax) = pick(ui, labels::TAX, 300 + index, price.tax, &taxes) {
                push(sheet, labels::TAX, out, |f| f.prices[index].tax = tax);
            }
            date_field(ui, sheet, ("price date", index), price.on.as_deref(), out, &|f| &mut f.prices[index].on);
            if remove_ui(ui, &labels::remove_price(&(index + 1))) {
                push(sheet, labels::REMOVING_A_PRICE, out, |f| drop(f.prices.remove(index)));
            }
        });
    }
}

/// An amount and its currency.
fn read_price(text: &str) -> Result<(String, String), FactError> {
    let (amount, currency) = typed_price(text)?;
    check_amount(&amount.to_string())?;
    let currency = currency.ok_or(FactError::NoCurrency)?;
    Ok((amount.to_string(), currency.code().to_owned()))
}

/// The date of a price or of a source.
fn date_field(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    salt: (&'static str, usize),
    current: Option<&str>,
    out: &mut Requests,
    date: &dyn Fn(&mut Frameset) -> &mut Option<String>,
) {
    let fact = Fact { salt, label: labels::DATE, current: current.unwrap_or_default(), width: 84.0, kind: TextKind::Words };
    field(ui, sheet, fact, out, &|f, t| {
        *date(f) = dated(t)?;
        Ok(())
    });
}

fn dated(text: &str) -> Result<Option<String>, ValueError> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    check_date(text)?;
    Ok(Some(text.to_owned()))
}

/// A standard that is stated and not understood has a mark behind its field; what it says stands below all.
fn standards_ui(ui: &mut Ui, sheet: Sheet<'_>, said: Option<&Statements>, tones: Tones, out: &mut Requests) {
    ui.add_space(4.0);
    ui.label(RichText::new(labels::STANDARDS_AS_PUBLISHED).color(tones.ink()).strong());
    let pairs = ((ui.available_width() / (NAME + STANDARD + 24.0)).floor() as usize).clamp(1, 3);
    let all: Vec<(usize, Standard)> = Standard::ALL.into_iter().enumerate().collect();
    for row in all.chunks(pairs) {
        ui.horizontal(|ui| {
            for (index, standard) in row {
                ui.allocate_ui_with_layout(vec2(NAME, 22.0), Layout::left_to_right(Align::Center), |ui| {
                    ui.set_min_width(NAME);
                    label_ui(ui, standard.label());
                });
                let current = sheet.frameset.standards.get(standard).map_or("", String::as_str);
                bare_field(
                    ui,
                    sheet,
                    Fact { salt: ("standard", *index), label: standard.label(), current, width: STANDARD, kind: TextKind::Words },
                    out,
                    &|f, t| {
                        if t.trim().is_empty() {
                            f.standards.remove(standard);
                        } else {
                            f.standards.insert(*standard, t.to_owned());
                        }
                        Ok(())
                    },
                );
                ui.allocate_ui(vec2(MARK, 22.0), |ui| {
                    ui.set_min_width(MARK);
                    if let Some(slip) = said.and_then(|s| s.slip(*standard)).map(|s| s.to_string()) {
                        let mark = ui.label(RichText::new("?").color(tones.ink()).strong());
                        named(&mark, slip.as_str());
                        mark.on_hover_text(slip);
                    }
                });
            }
        });
    }
    for slip in said.map(Statements::slips).unwrap_or_default() {
        ui.label(RichText::new(format!("? {slip}")).size(SMALL).color(tones.ink()));
    }
}

/// Widths of a standard's name and field, points.
const NAME: f32 = 178.0;
const STANDARD: f32 = 230.0;
/// Room for the mark behind the field, points.
const MARK: f32 = 12.0;

fn sources_ui(ui: &mut Ui, sheet: Sheet<'_>, out: &mut Requests) {
    let read = |text: &str| match text.trim() {
        "" => Err(FactError::NoSource),
        what => Ok(what.to_owned()),
    };
    if let Some(what) = list_head(ui, sheet, labels::SOURCES, (labels::NEW_SOURCE, labels::NEW_SOURCE_THEN_ENTER), read) {
        push(sheet, labels::ADDING_A_SOURCE, out, |f| f.sources.push(Source { what, on: None }));
    }
    for (index, source) in sheet.frameset.sources.iter().enumerate() {
        ui.horizontal_wrapped(|ui| {
            field(
                ui,
                sheet,
                Fact {
                    salt: ("source", index),
                    label: labels::SOURCE,
                    current: &source.what,
                    width: 300.0,
                    kind: TextKind::Words,
                },
                out,
                &|f, t| {
                    t.clone_into(&mut f.sources[index].what);
                    Ok(())
                },
            );
            date_field(ui, sheet, ("source date", index), source.on.as_deref(), out, &|f| &mut f.sources[index].on);
            if remove_ui(ui, &labels::remove_source(&(index + 1))) {
                push(sheet, labels::REMOVING_A_SOURCE, out, |f| drop(f.sources.remove(index)));
            }
        });
    }
}
