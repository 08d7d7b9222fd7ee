//! What puts the frames on one footing: where they stand together, one tyre on all, the factor for weights of
//! other sizes, units.

use egui::{ComboBox, Id, RichText, Ui};

use super::edits::Edit;
use super::entry::TypedField;
use super::labels::line_up as labels;
use super::named::named;
use super::requests::Requests;
use super::shown::Shown;
use super::theme::{SMALL, Tones};
use crate::lineup::{AlignAt, MOST_SAG_MM, MOST_SAG_PERCENT, Sag, SizeRule, Tyres};
use crate::parts::standards::{NotUnderstood, named_tyre};
use crate::units::{Quantity, System, as_typed, typed_number};
use crate::weight::{read_factor, write_factor};
use crate::words::{Label, size_rule_text};

/// Shows the settings.
pub(crate) fn common_settings_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let tones = Tones::of(ui);
    let settings = &shown.lineup().settings;
    ui.add_space(6.0);
    let top = ui.cursor().top();
    ui.painter().hline(ui.max_rect().x_range(), top, (1.0, tones.hairline()));
    ui.add_space(8.0);
    ui.label(RichText::new(labels::COMMON_SETTINGS).heading());
    row(ui, labels::SIZES, tones, |ui| sizes_ui(ui, settings.sizes, out));
    row(ui, labels::ALIGN_AT, tones, |ui| align_at_ui(ui, settings.outline.align_at, out));
    row(ui, labels::SAME_TYRE_ON_ALL, tones, |ui| tyre_ui(ui, settings.tyres, out));
    row(ui, labels::FORK_SAG, tones, |ui| sag_ui(ui, settings.units, settings.sag, out));
    row(ui, labels::WEIGHT_FACTOR_PER_SIZE, tones, |ui| factor_ui(ui, settings.weight.factor, out));
    row(ui, labels::UNITS, tones, |ui| units_ui(ui, settings.units, out));
}

fn row(ui: &mut Ui, label: &str, tones: Tones, control: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.label(RichText::new(label).color(tones.second()));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), control);
    });
}

/// The picker of the rule by which frames get their sizes.
fn sizes_ui(ui: &mut Ui, chosen: SizeRule, out: &mut Requests) {
    let combo = ComboBox::from_id_salt(labels::SIZES).width(182.0).selected_text(chosen.label()).show_ui(ui, |ui| {
        for rule in SizeRule::ALL {
            if ui.selectable_label(rule == chosen, rule.label()).on_hover_text(size_rule_text(rule)).clicked() {
                out.edit(Edit::Sizes(rule));
            }
        }
    });
    named(&combo.response, labels::SIZES);
    combo.response.on_hover_text(size_rule_text(chosen));
}

/// A picker of the point at which the frames are aligned.
pub(crate) fn align_at_ui(ui: &mut Ui, chosen: AlignAt, out: &mut Requests) {
    let combo = ComboBox::from_id_salt("align at").width(122.0).selected_text(chosen.label()).show_ui(ui, |ui| {
        for at in AlignAt::ALL {
            if ui.selectable_label(at == chosen, at.label()).clicked() {
                out.edit(Edit::AlignAt(at));
            }
        }
    });
    named(&combo.response, labels::ALIGN_AT);
    combo.response.on_hover_text(labels::OUTLINES_ARE_ALIGNED_HERE);
}

/// The field for the factor on weights that were published for another size.
fn factor_ui(ui: &mut Ui, factor: Option<f64>, out: &mut Requests) {
    let name = labels::WEIGHT_FACTOR_PER_SIZE;
    let entry = TypedField {
        id: Id::unique("factor"),
        name,
        current: factor.map(write_factor).unwrap_or_default(),
        hint: labels::NONE,
        width: 80.0,
    };
    let (field, entered) = entry.show_asking_or_none(ui, read_factor);
    field.on_hover_text(labels::HOW_TO_ENTER_A_WEIGHT_FACTOR);
    if let Some(factor) = entered {
        out.edit(Edit::Factor(factor));
    }
}

/// The field for one tyre on all frames; empty leaves each on the tyres that it was drawn with.
fn tyre_ui(ui: &mut Ui, tyres: Tyres, out: &mut Requests) {
    let current = match tyres {
        Tyres::AsPublished => String::new(),
        Tyres::SameOnAll(tyre) => tyre.to_string(),
    };
    let entry = TypedField {
        id: Id::unique("same tyre on all"),
        name: labels::SAME_TYRE_ON_ALL,
        current,
        hint: labels::AS_PUBLISHED,
        width: 96.0,
    };
    let (field, entered) = entry.show(ui, read_tyre);
    field.on_hover_text(labels::DRAWS_ALL_ON_ONE_TYRE);
    if let Some(tyres) = entered {
        out.edit(Edit::Tyres(tyres));
    }
}

fn read_tyre(text: &str) -> Result<Tyres, NotUnderstood> {
    if text.trim().is_empty() {
        return Ok(Tyres::AsPublished);
    }
    named_tyre(text).map(Tyres::SameOnAll)
}

/// The field for the sag of suspension forks; empty leaves them as long as published.
fn sag_ui(ui: &mut Ui, units: System, sag: Sag, out: &mut Requests) {
    let current = match sag {
        Sag::Unsagged => String::new(),
        Sag::Millimetres(mm) => units.with_unit(Quantity::Length, &units.in_field(Quantity::Length, mm)),
        Sag::Percent(percent) => format!("{} %", as_typed(percent)),
    };
    let entry = TypedField { id: Id::unique("fork sag"), name: labels::FORK_SAG, current, hint: labels::NONE, width: 96.0 };
    let (field, entered) = entry.show(ui, |text| read_sag(units, text));
    field.on_hover_text(labels::SHOWS_FORKS_WITH_SAG);
    if let Some(sag) = entered {
        out.edit(Edit::Sag(sag));
    }
}

/// A sag that is not valid.
#[derive(Debug, thiserror::Error)]
#[error("{}", labels::sag_is_not_valid_enter(&MOST_SAG_PERCENT, &MOST_SAG_MM))]
struct SagError;

fn read_sag(units: System, text: &str) -> Result<Sag, SagError> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(Sag::Unsagged);
    }
    let (number, is_percent) = match text.strip_suffix('%') {
        Some(number) => (number, true),
        None => (text.strip_suffix(units.unit(Quantity::Length)).unwrap_or(text), false),
    };
    let number = typed_number(number.trim()).ok_or(SagError)?;
    let (sag, value, most) = if is_percent {
        (Sag::Percent(number), number, MOST_SAG_PERCENT)
    } else {
        let mm = units.from_field(Quantity::Length, number);
        (Sag::Millimetres(mm), mm, MOST_SAG_MM)
    };
    if !(0.0..=most).contains(&value) {
        return Err(SagError);
    }
    Ok(if value == 0.0 { Sag::Unsagged } else { sag })
}

fn units_ui(ui: &mut Ui, units: System, out: &mut Requests) {
    for (system, label, tooltip) in [
        (System::Imperial, labels::IN_LB, labels::SHOWS_INCHES_AND_POUNDS),
        (System::Metric, labels::MM_G, labels::SHOWS_MILLIMETRES_AND_GRAMS),
    ] {
        if ui.selectable_label(units == system, RichText::new(label).size(SMALL + 0.5)).on_hover_text(tooltip).clicked() {
            out.edit(Edit::Units(system));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sag_is_typed_in_percent_or_in_the_chosen_unit() {
        let read = |text: &str| read_sag(System::Metric, text).ok();
        assert_eq!(read(""), Some(Sag::Unsagged));
        assert_eq!(read("20 %"), Some(Sag::Percent(20.0)));
        assert_eq!(read("20%"), Some(Sag::Percent(20.0)));
        assert_eq!((read("25"), read("25 mm")), (Some(Sag::Millimetres(25.0)), Some(Sag::Millimetres(25.0))));
        assert_eq!(read("0"), Some(Sag::Unsagged));
        assert_eq!(read_sag(System::Imperial, "1").ok(), Some(Sag::Millimetres(25.4)));
        for refused in ["-1", "70 %", "101", "a fifth"] {
            assert_eq!(read(refused), None, "{refused}");
        }
    }
}
