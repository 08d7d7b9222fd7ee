//! What a maker publishes besides the figures, as lists: weights, prices, standards and sources.

use egui::{Align, ComboBox, Id, Layout, RichText, Ui, vec2};

use super::super::entry::TypedField;
use super::super::labels::frameset as labels;
use super::super::moment::Awaited;
use super::super::named::named;
use super::super::requests::{Request, Requests};
use super::super::theme::{SMALL, Tones};
use super::edited_frameset::Sheet;
use super::frameset_facts::{Fact, FactError, Facts, bare_field, field, label_ui, lead_to, number, pick_or_none, push};
use crate::frameset::{
    Frameset, Known, Part, Price, Source, Standard, Tax, TextKind, ValueError, Weight, check_amount, check_date, check_grams,
};
use crate::lineup::MissingEntry;
use crate::money::{read_currency, typed_price};
use crate::parts::Statements;
use crate::units::{Quantity, System, typed_mass};

/// The lists, closed until one of them is wanted.
pub(super) fn lists_ui(ui: &mut Ui, sheet: Sheet<'_>, facts: Facts<'_>, tones: Tones, out: &mut Requests) {
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
    let awaited = match facts.awaited {
        Some(Awaited::Entry(entry)) if !matches!(entry, MissingEntry::Figure(_)) => Some(entry),
        _ => None,
    };
    let header = egui::CollapsingHeader::new(title).id_salt("also published").open(awaited.map(|_| true));
    let shown = header.show(ui, |ui| {
        weights_ui(ui, sheet, awaited == Some(MissingEntry::Weight), out);
        prices_ui(ui, sheet, awaited == Some(MissingEntry::Price), out);
        standards_ui(ui, sheet, facts, tones, out);
        sources_ui(ui, sheet, out);
    });
    // While the list opens, its fields still move.
    if awaited.is_some() && shown.openness >= 1.0 {
        out.push(Request::Entered);
    }
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

/// A picker of one of the parts.
fn pick_part(ui: &mut Ui, salt: usize, chosen: Part) -> Option<Part> {
    label_ui(ui, labels::PART);
    let mut picked = None;
    let words = PARTS.iter().find(|(part, _)| *part == chosen).map_or("", |(_, words)| *words);
    let combo = ComboBox::from_id_salt((labels::PART, salt)).selected_text(words).show_ui(ui, |ui| {
        for (part, words) in PARTS {
            if ui.selectable_label(part == chosen, words).clicked() {
                picked = Some(part);
            }
        }
    });
    named(&combo.response, labels::PART);
    picked
}

/// The head of a list with the field whose entry begins a new line of it: nothing is stated until it is typed.
fn list_head<T>(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    words: &str,
    (name, hint): (&str, &str),
    is_awaited: bool,
    read: impl Fn(&str) -> Result<T, FactError>,
) -> Option<T> {
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        ui.label(RichText::new(words).color(Tones::of(ui).ink()).strong());
        let entry = TypedField { id: Id::unique(("fact", sheet.frame, name)), name, current: String::new(), hint, width: 220.0 };
        let (field, entered) = entry.show(ui, read);
        if is_awaited {
            lead_to(&field);
        }
        entered
    })
    .inner
}

fn remove_ui(ui: &mut Ui, name: &str) -> bool {
    let button = ui.small_button("×");
    named(&button, name);
    button.on_hover_text(name).clicked()
}

const PARTS: [(Part, &str); 3] = [(Part::Frame, labels::FRAME), (Part::Fork, labels::FORK), (Part::Frameset, labels::FRAMESET)];

fn weights_ui(ui: &mut Ui, sheet: Sheet<'_>, is_awaited: bool, out: &mut Requests) {
    let units = sheet.units;
    let read = |text: &str| typed_grams(units, text);
    let unit_words = match units {
        System::Metric => labels::GRAMS,
        System::Imperial => labels::POUNDS,
    };
    let hint = labels::new_weight_in_then_enter(&unit_words);
    if let Some(grams) = list_head(ui, sheet, labels::WEIGHTS, (labels::NEW_WEIGHT, &hint), is_awaited, read) {
        push(sheet, labels::ADDING_A_WEIGHT, out, |f| {
            f.weights.push(Weight { part: Part::Frame, size: None, grams, from: Known::Claimed, with: Vec::new(), note: None });
        });
    }
    for (index, weight) in sheet.frameset.weights.iter().enumerate() {
        ui.horizontal_wrapped(|ui| {
            if let Some(part) = pick_part(ui, 100 + index, weight.part) {
                push(sheet, labels::WEIGHT, out, |f| f.weights[index].part = part);
            }
            let sizes: Vec<(usize, &str)> = sheet.frameset.sizes.iter().map(|size| size.label.as_str()).enumerate().collect();
            let chosen = sizes.iter().find(|(_, label)| Some(*label) == weight.size.as_deref()).map(|(at, _)| *at);
            if let Some(size) = pick_or_none(ui, (labels::SIZE, 400 + index), labels::ALL_SIZES, chosen, &sizes) {
                let label = size.and_then(|at| sheet.frameset.sizes.get(at)).map(|size| size.label.clone());
                push(sheet, labels::WEIGHT, out, |f| f.weights[index].size = label);
            }
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

fn prices_ui(ui: &mut Ui, sheet: Sheet<'_>, is_awaited: bool, out: &mut Requests) {
    if let Some((amount, currency)) =
        list_head(ui, sheet, labels::PRICES, (labels::NEW_PRICE, labels::NEW_PRICE_EXAMPLE), is_awaited, read_price)
    {
        push(sheet, labels::ADDING_A_PRICE, out, |f| {
            f.prices.push(Price { part: Part::Frameset, amount, currency, tax: None, tax_percent: None, on: None });
        });
    }
    for (index, price) in sheet.frameset.prices.iter().enumerate() {
        ui.horizontal_wrapped(|ui| {
            if let Some(part) = pick_part(ui, 200 + index, price.part) {
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
            if let Some(tax) = pick_or_none(ui, (labels::TAX, 300 + index), labels::NOT_PUBLISHED, price.tax, &taxes) {
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
fn standards_ui(ui: &mut Ui, sheet: Sheet<'_>, facts: Facts<'_>, tones: Tones, out: &mut Requests) {
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
                let field = bare_field(
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
                if facts.awaited == Some(Awaited::Entry(MissingEntry::Standard(*standard))) {
                    lead_to(&field);
                }
                ui.allocate_ui(vec2(MARK, 22.0), |ui| {
                    ui.set_min_width(MARK);
                    if let Some(slip) = facts.said.and_then(|s| s.slip(*standard)).map(|s| s.to_string()) {
                        let mark = ui.label(RichText::new("?").color(tones.ink()).strong());
                        named(&mark, slip.as_str());
                        mark.on_hover_text(slip);
                    }
                });
            }
        });
    }
    for slip in facts.said.map(Statements::slips).unwrap_or_default() {
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
    if let Some(what) = list_head(ui, sheet, labels::SOURCES, (labels::NEW_SOURCE, labels::NEW_SOURCE_THEN_ENTER), false, read) {
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
