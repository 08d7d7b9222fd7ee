//! The review of a pasted or opened table: what was read, as which figure, in which unit; what is asked; what is kept as
//! a note. Nothing goes into the line-up before it was seen here.

use egui::{Align, ComboBox, Id, Key, Layout, RichText, ScrollArea, TextEdit, Ui, vec2};

use super::import_review::ImportReview;
use super::import_review_specification::specification_ui;
use super::labels::import_review as labels;
use super::named::named;
use super::question::Answer;
use super::requests::{Request, Requests};
use super::theme::{SMALL, Tones};
use crate::frameset::import::{self, Reading, RowReading};
use crate::frameset::{Figure, RoundedTo};
use crate::words::shortest;

/// Room for the labels of rows, points; longer ones are cut and said whole under the pointer.
const LABELS: f32 = 190.0;

/// Shows the review.
pub(crate) fn import_review_ui(ui: &mut Ui, review: &mut ImportReview, tones: Tones, out: &mut Requests) {
    ui.label(RichText::new(labels::PASTE_OR_IMPORT_A_GEOMETRY_TABLE).heading());
    if review.came_from.is_none() {
        text_ui(ui, review, tones);
    }
    names_ui(ui, review);
    let height = (ui.ctx().content_rect().height() - if review.came_from.is_some() { 260.0 } else { 400.0 }).max(140.0);
    match review.reading.as_mut() {
        None => {
            ui.label(RichText::new(labels::HOW_TO_PASTE_A_TABLE).color(tones.second()));
        }
        Some(Err(why)) => {
            ui.label(RichText::new(why.to_string()).strong());
        }
        Some(Ok(reading)) => {
            ScrollArea::both().id_salt("review").max_height(height).auto_shrink([false, true]).show(ui, |ui| {
                questions_ui(ui, reading, tones);
                if !reading.rows.is_empty() {
                    rows_ui(ui, reading, tones);
                }
                specification_ui(ui, reading, tones);
                remarks_ui(ui, reading, tones);
            });
            steps_ui(ui, reading, &mut review.steps, tones);
        }
    }
    ui.add_space(8.0);
    let made = review.frameset();
    ui.horizontal(|ui| {
        if let Some((onto, added)) = review.added() {
            let button = ui.add_enabled(added.is_ok(), egui::Button::new(labels::add_to(&onto.name)));
            if let (true, Ok(frameset)) = (button.on_hover_text(labels::WHAT_ADDING_DOES).clicked(), added) {
                out.push(Request::Answer(Answer::Added(onto.key, Box::new(frameset))));
            }
        }
        let go = ui.add_enabled(made.is_ok(), egui::Button::new(labels::IMPORT));
        let enter = ui.input(|i| i.key_pressed(Key::Enter) && (i.modifiers.command || i.modifiers.is_none()))
            && !is_text_focused(ui, review);
        if let Ok(frameset) = &made
            && (go.clicked() || enter)
        {
            out.push(Request::Answer(Answer::Imported(Box::new(frameset.clone()), review.came_from.clone())));
        }
        if ui.button(labels::CANCEL).clicked() {
            out.push(Request::Answer(Answer::Cancel));
        }
        if let (Err(why), Some(Ok(_))) = (&made, &review.reading) {
            ui.label(RichText::new(why.to_string()).color(tones.second()));
        }
    });
}

fn text_id() -> Id {
    Id::unique("pasted table")
}

/// Whether Enter belongs to the text that is being typed.
fn is_text_focused(ui: &Ui, review: &ImportReview) -> bool {
    review.came_from.is_none() && ui.memory(|m| m.has_focus(text_id()))
}

fn text_ui(ui: &mut Ui, review: &mut ImportReview, tones: Tones) {
    let rows = if matches!(review.reading, Some(Ok(_))) { 3 } else { 8 };
    // The edge of the field stands below its last row.
    let row = ui.text_style_height(&egui::TextStyle::Body);
    let height = row * rows as f32 + 14.0;
    let field = ScrollArea::vertical()
        .id_salt("pasted text")
        .max_height(height)
        .show(ui, |ui| {
            let edit = TextEdit::multiline(&mut review.text).id(text_id()).desired_rows(rows).desired_width(f32::INFINITY);
            ui.add(edit.hint_text(labels::PASTE_THE_TABLE_HERE).text_color(tones.second()))
        })
        .inner;
    named(&field, labels::TABLE);
    if review.text.is_empty() && ui.memory(|m| m.focused().is_none()) {
        field.request_focus();
    }
    if field.changed() {
        review.reading = (!review.text.trim().is_empty()).then(|| import::read_text(&review.text));
        if matches!(review.reading, Some(Ok(_))) {
            ui.memory_mut(|m| m.surrender_focus(text_id()));
        }
    }
}

fn names_ui(ui: &mut Ui, review: &mut ImportReview) {
    ui.horizontal(|ui| {
        ui.label(labels::MAKER);
        let maker = ui.add(TextEdit::singleline(&mut review.maker).desired_width(160.0).hint_text(labels::MAKERS_NAME));
        named(&maker, labels::MAKER);
        if matches!(review.reading, Some(Ok(_))) && ui.memory(|m| m.focused().is_none()) {
            maker.request_focus();
        }
        ui.label(labels::MODEL);
        let model = ui.add(TextEdit::singleline(&mut review.model).desired_width(160.0));
        named(&model, labels::MODEL);
    });
}

fn questions_ui(ui: &mut Ui, reading: &mut Reading, tones: Tones) {
    let mut answer = None;
    for question in &reading.questions {
        let words = RichText::new(&question.sentence);
        ui.label(if question.is_open() { words.strong() } else { words });
        ui.horizontal_wrapped(|ui| {
            for (index, choice) in question.choices.iter().enumerate() {
                let is_chosen = question.in_force() == Some(index);
                if ui.radio(is_chosen, choice).clicked() && !is_chosen {
                    answer = Some((question.subject.clone(), index));
                }
            }
            if question.answer.is_none() && question.proposal.is_some() {
                ui.label(RichText::new(labels::USUAL_CHOICE).size(SMALL).color(tones.second()));
            }
        });
    }
    if let Some((subject, choice)) = answer {
        reading.answer(&subject, choice);
    }
    if !reading.questions.is_empty() {
        ui.add_space(6.0);
    }
}

fn rows_ui(ui: &mut Ui, reading: &mut Reading, tones: Tones) {
    let mut assign = None;
    let columns = reading.sizes.len() + 4;
    egui::Grid::new("review rows").num_columns(columns).spacing([14.0, 4.0]).show(ui, |ui| {
        for head in [labels::AS_PUBLISHED, labels::READ_AS, labels::UNIT] {
            ui.label(RichText::new(head).size(SMALL).color(tones.second()));
        }
        for size in &reading.sizes {
            ui.label(RichText::new(&size.label).strong());
        }
        ui.label(RichText::new(labels::ROUNDED_TO).size(SMALL).color(tones.second()));
        ui.end_row();
        for row in &reading.rows {
            let label = if row.label.is_empty() { labels::NO_LABEL } else { &row.label };
            ui.allocate_ui_with_layout(vec2(LABELS, 18.0), Layout::left_to_right(Align::Center), |ui| {
                ui.set_min_width(LABELS);
                ui.add(egui::Label::new(label).truncate())
                    .on_hover_text(format!("{label}\n{}", row.remarks.join(" ")).trim_end());
            });
            if let Some(figure) = figure_picker_ui(ui, row) {
                assign = Some((row.line, figure));
            }
            ui.label(row.unit.map_or("", import::Unit::conversion));
            for cell in &row.cells {
                match (&cell.problem, cell.value) {
                    (Some(problem), _) => {
                        ui.label(RichText::new(format!("{} !", cell.text)).strong()).on_hover_text(problem);
                    }
                    (None, Some(value)) => {
                        let shown = shortest(value);
                        let text = if shown == cell.text { RichText::new(shown) } else { RichText::new(&shown) };
                        ui.label(text).on_hover_text(labels::published_as(&cell.text));
                    }
                    (None, None) => {
                        ui.label(RichText::new(&cell.text).color(tones.grey()));
                    }
                }
            }
            if let (Some(step), Some((figure, _))) = (row.step, row.figure) {
                let unit = if figure.is_angle() { "°" } else { labels::MILLIMETRES };
                ui.label(RichText::new(format!("{}{unit}", shortest(step))).size(SMALL).color(tones.second()));
            }
            ui.end_row();
        }
    });
    if let Some((line, figure)) = assign {
        reading.assign(line, figure);
    }
}

#[expect(clippy::option_option, reason = "nothing picked, or picked that it is no figure")]
fn figure_picker_ui(ui: &mut Ui, row: &RowReading) -> Option<Option<Figure>> {
    let words = match row.figure {
        Some((figure, likeness)) if likeness < 0.995 => labels::percent_match(&figure.label(), &(likeness * 100.0)),
        Some((figure, _)) => figure.label().to_owned(),
        None => labels::KEPT_AS_A_NOTE.to_owned(),
    };
    let mut picked = None;
    let combo = ComboBox::from_id_salt(("read as", row.line)).width(190.0).selected_text(words).show_ui(ui, |ui| {
        if ui.selectable_label(row.figure.is_none(), labels::KEPT_AS_A_NOTE).clicked() {
            picked = Some(None);
        }
        for figure in Figure::printable() {
            let is_chosen = row.figure.is_some_and(|(f, _)| f == figure);
            if ui.selectable_label(is_chosen, figure.label()).on_hover_text(figure.meaning()).clicked() {
                picked = Some(Some(figure));
            }
        }
    });
    named(&combo.response, labels::read_as(&row.label));
    picked
}

fn remarks_ui(ui: &mut Ui, reading: &Reading, tones: Tones) {
    ui.add_space(6.0);
    for problem in import::problems(reading) {
        ui.label(RichText::new(problem).size(SMALL).strong());
    }
    for remark in &reading.remarks {
        ui.label(RichText::new(remark).size(SMALL).color(tones.second()));
    }
    let notes = reading.notes();
    if !notes.is_empty() {
        ui.label(RichText::new(labels::kept_as_a_note(&notes.join("; "))).size(SMALL).color(tones.second()));
    }
}

fn steps_ui(ui: &mut Ui, reading: &mut Reading, typed: &mut Option<(String, String)>, tones: Tones) {
    let to = reading.rounded_to;
    let (mut mm, mut deg) = typed.clone().unwrap_or_else(|| (shortest(to.mm), shortest(to.deg)));
    ui.horizontal(|ui| {
        ui.label(RichText::new(labels::ROUNDED_TO_CAPITAL).color(tones.second()));
        let first = ui.add(TextEdit::singleline(&mut mm).desired_width(52.0));
        named(&first, labels::ROUNDING_OF_LENGTHS_MM);
        ui.label(RichText::new(labels::MM_AND).color(tones.second()));
        let second = ui.add(TextEdit::singleline(&mut deg).desired_width(52.0));
        named(&second, labels::ROUNDING_OF_ANGLES_DEGREES);
        ui.label(RichText::new(labels::ROUNDING_COUNTS_UNLESS_A_ROW_DIFFERS).color(tones.second()));
        if first.changed() || second.changed() {
            let number = |text: &str| crate::units::typed_number(text).filter(|step| *step > 0.0 && *step <= 50.0);
            if let (Some(mm), Some(deg)) = (number(&mm), number(&deg)) {
                reading.set_rounded_to(RoundedTo { mm, deg });
            }
            *typed = Some((mm.clone(), deg.clone()));
        }
    });
}
