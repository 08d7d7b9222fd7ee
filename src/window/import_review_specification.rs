//! The specification list of a pasted table under review: each line, what it is read as, and what was taken of it.

use egui::{Align, ComboBox, Layout, RichText, Ui, vec2};

use super::labels::import_review as labels;
use super::named::named;
use super::theme::{SMALL, Tones};
use crate::frameset::import::{Reading, SpecificationFact, SpecificationField, SpecificationRow};

/// Room for labels and for published texts, points; longer ones are cut and said whole under the pointer.
const LABELS: f32 = 190.0;
const TEXTS: f32 = 260.0;

/// Shows the lines; a line can be assigned by hand.
pub(super) fn specification_ui(ui: &mut Ui, reading: &mut Reading, tones: Tones) {
    if reading.specification.is_empty() {
        return;
    }
    ui.add_space(8.0);
    ui.label(RichText::new(labels::SPECIFICATION).strong());
    let mut assign = None;
    egui::Grid::new("review specification").num_columns(4).spacing([14.0, 4.0]).show(ui, |ui| {
        for head in [labels::LINE, labels::AS_PUBLISHED, labels::READ_AS, labels::IMPORTED_AS] {
            ui.label(RichText::new(head).size(SMALL).color(tones.second()));
        }
        ui.end_row();
        for row in &reading.specification {
            cut_ui(ui, LABELS, &row.label);
            cut_ui(ui, TEXTS, &row.text);
            if let Some(field) = field_picker_ui(ui, row) {
                assign = Some((row.line, field));
            }
            taken_ui(ui, row, tones);
            ui.end_row();
        }
    });
    if let Some((line, field)) = assign {
        reading.assign_specification(line, field);
    }
}

fn cut_ui(ui: &mut Ui, width: f32, text: &str) {
    ui.allocate_ui_with_layout(vec2(width, 18.0), Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(width);
        ui.add(egui::Label::new(text).truncate()).on_hover_text(text);
    });
}

fn taken_ui(ui: &mut Ui, row: &SpecificationRow, tones: Tones) {
    ui.vertical(|ui| {
        let facts: Vec<String> = row.facts.iter().map(SpecificationFact::text).collect();
        if facts.is_empty() {
            ui.label(RichText::new(labels::KEPT_AS_A_NOTE).color(tones.grey()));
        } else {
            ui.label(facts.join("; "));
        }
        for remark in &row.remarks {
            ui.label(RichText::new(remark).size(SMALL).color(tones.second()));
        }
    });
}

#[expect(clippy::option_option, reason = "nothing picked, or picked that it is a note")]
fn field_picker_ui(ui: &mut Ui, row: &SpecificationRow) -> Option<Option<SpecificationField>> {
    let words = row.field.map_or_else(|| labels::NOTE.to_owned(), SpecificationField::label);
    let mut picked = None;
    let combo = ComboBox::from_id_salt(("line read as", row.line)).width(190.0).selected_text(words).show_ui(ui, |ui| {
        if ui.selectable_label(row.field.is_none(), labels::NOTE).clicked() {
            picked = Some(None);
        }
        for field in SpecificationField::all() {
            if ui.selectable_label(row.field == Some(field), field.label()).clicked() {
                picked = Some(Some(field));
            }
        }
    });
    named(&combo.response, labels::read_as(&row.label));
    picked
}
