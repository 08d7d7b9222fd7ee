//! The ledger of one weight: what it begins from, the three ways to the size side by side, every line with its ±, the
//! total. Each line can be typed over; what is not valid is said at its field, what is unlikely is asked about.

use egui::{Align, ComboBox, Id, Layout, RichText, Ui, vec2};

use super::super::edits::Edit;
use super::super::entry::TypedField;
use super::super::labels::weight as labels;
use super::super::named::named;
use super::super::requests::Requests;
use super::super::theme::{SMALL, Tones};
use super::super::weight_and_price_edits::WeightAndPriceEdit;
use super::edited_frameset::Sheet;
use super::side_panel::{heading_ui, note_ui, row_ui};
use super::weight_panel::optional;
use crate::frameset::{FrameIndex, Part, SmallPart};
use crate::lineup::{FrameFindings, PartWeight, WeightSettings};
use crate::units::{COVERAGE_FACTOR, Measured, Quantity, System, fixed};
use crate::weight::{
    Amount, Line, Method, PartWeightChoices, Row, RowOf, What, read_factor, read_grams, read_grams_per_mm, read_line_grams,
    read_line_mm, read_plus_minus, small_part_g, steerer_g_per_mm, write_factor, write_grams_per_mm,
};
use crate::words::{
    NOT_PUBLISHED, estimate_text, line_name, method_label, no_way_text, note_text, offered_text, part_heading, published_weight,
    row_label, weight_workings,
};

/// Widths of the columns of numbers, points; labels take the rest.
const GRAMS: f32 = 78.0;
const PLUS_MINUS: f32 = 66.0;
const REMOVE: f32 = 26.0;

/// A number's cell of so much width.
fn cell_ui<R>(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui) -> R) -> R {
    aligned_ui(ui, width, Layout::right_to_left(Align::Center), content)
}

fn aligned_ui<R>(ui: &mut Ui, width: f32, layout: Layout, content: impl FnOnce(&mut Ui) -> R) -> R {
    let size = vec2(width, ui.spacing().interact_size.y);
    let cell = ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_width(width);
        ui.set_max_width(width);
        content(ui)
    });
    cell.inner
}

/// The first cell of a row: what the numbers leave.
fn label_cell_ui(ui: &mut Ui, content: impl FnOnce(&mut Ui)) {
    let width = ui.available_width() - GRAMS - PLUS_MINUS - REMOVE - 4.0 * ui.spacing().item_spacing.x;
    aligned_ui(ui, width.max(60.0), Layout::left_to_right(Align::Center), content);
}

/// One weight of one frame, with its choices.
pub(super) struct Ledger<'a> {
    /// The frame's place in the line-up.
    pub(super) place: FrameIndex,
    /// Which of its weights.
    pub(super) part: Part,
    /// The choices about it.
    pub(super) own: &'a PartWeightChoices,
    /// What was found.
    pub(super) frame: &'a FrameFindings,
    /// What counts for all weights.
    pub(super) settings: WeightSettings,
    /// Units that it is shown and typed in.
    pub(super) units: System,
}

impl Ledger<'_> {
    fn put(&self, out: &mut Requests, weight_choices: PartWeightChoices, what: &'static str) {
        out.edit(Edit::WeightAndPrice(WeightAndPriceEdit::WeightChoices {
            frame: self.place,
            part: self.part,
            weight_choices,
            what,
        }));
    }

    fn put_line(&self, out: &mut Requests, index: usize, line: Line) {
        let mut after = self.own.clone();
        if let Some(own) = after.lines.get_mut(index) {
            *own = line;
        }
        self.put(out, after, labels::A_LINE);
    }

    /// The part's name with a capital.
    fn name(&self) -> String {
        part_heading(self.part)
    }

    fn id(&self, salt: &str, index: usize) -> Id {
        Id::unique(("ledger", self.place, self.name(), salt, index))
    }

    /// Shows it.
    pub(super) fn ui(&self, ui: &mut Ui, out: &mut Requests) {
        let tones = Tones::of(ui);
        let unit = self.units.unit(Quantity::Mass);
        let Some(weight) = self.frame.weights.part(self.part) else {
            heading_ui(ui, &format!("{}: {NOT_PUBLISHED}", self.name()));
            return;
        };
        let total = weight.mass.text(self.units);
        heading_ui(ui, &labels::size(&self.name(), &self.frame.size_label(), &total));
        if weight.published.is_none() {
            let workings = weight_workings(self.units, self.frame, self.part);
            note_ui(ui, &labels::frame_and_fork_as_above(&workings));
            return;
        }
        self.begins_ui(ui, weight, out);
        self.own_frame_ui(ui, weight, out);
        self.ways_ui(ui, weight, tones, out);
        let second = |words: &str| RichText::new(words).size(SMALL).color(tones.second());
        ui.horizontal(|ui| {
            label_cell_ui(ui, |_| {});
            cell_ui(ui, GRAMS, |ui| ui.label(second(unit)));
            cell_ui(ui, PLUS_MINUS, |ui| ui.label(second(&format!("± {unit}"))));
        });
        for row in &weight.rows {
            ui.horizontal(|ui| self.row_ui(ui, row, weight, tones, out));
        }
        ui.horizontal(|ui| {
            label_cell_ui(ui, |ui| drop(ui.label(labels::TOTAL)));
            cell_ui(ui, GRAMS, |ui| ui.label(RichText::new(self.mass(weight.mass.value)).strong()));
            cell_ui(ui, PLUS_MINUS, |ui| ui.label(self.mass(weight.mass.expanded())));
        });
        self.more_ui(ui, weight, out);
        for note in &weight.notes {
            note_ui(ui, &note_text(self.units, &self.frame.frameset, note));
        }
    }

    /// Whether the weighed frame is the user's own, so that it is not one specimen of many.
    fn own_frame_ui(&self, ui: &mut Ui, weight: &PartWeight, out: &mut Requests) {
        if weight.published.is_none_or(|p| p.is_claimed) {
            return;
        }
        let mut own_frame = self.own.own_frame;
        let check = ui.checkbox(&mut own_frame, labels::WEIGHED_ON_YOUR_OWN);
        named(&check, labels::weighed_on_your_own(&self.name()));
        let text = labels::OWN_PART_OR_SPECIMEN;
        if check.on_hover_text(text).changed() {
            self.put(out, PartWeightChoices { own_frame, ..self.own.clone() }, labels::THE_WEIGHED_SPECIMEN);
        }
    }

    /// Which of several published weights it begins from.
    fn begins_ui(&self, ui: &mut Ui, weight: &PartWeight, out: &mut Requests) {
        let all: Vec<usize> = (0..self.frame.frameset.weights.len())
            .filter(|i| self.frame.frameset.weights.get(*i).is_some_and(|w| w.part == self.part))
            .collect();
        if all.len() < 2 {
            return;
        }
        let words = |index: usize| {
            let found =
                crate::weight::Published::of(&self.frame.frameset, index, self.settings.claimed_percent, self.own.own_frame);
            found.map(|p| published_weight(self.units, &self.frame.frameset, &p)).unwrap_or_default()
        };
        let current = weight.published.map(|p| p.index);
        row_ui(ui, labels::BASED_ON, |ui| {
            let text = match self.own.start_from {
                Some(index) => words(index),
                None => labels::CLOSEST_SIZE.to_owned(),
            };
            let combo = ComboBox::from_id_salt(self.id("from", 0)).width(190.0).selected_text(text).show_ui(ui, |ui| {
                if ui.selectable_label(self.own.start_from.is_none(), labels::CLOSEST_SIZE).clicked() {
                    self.put(out, PartWeightChoices { start_from: None, ..self.own.clone() }, labels::WHERE_THE_WEIGHT_BEGINS);
                }
                for index in all {
                    let is_chosen = self.own.start_from == Some(index) && current == Some(index);
                    if ui.selectable_label(is_chosen, words(index)).clicked() {
                        self.put(
                            out,
                            PartWeightChoices { start_from: Some(index), ..self.own.clone() },
                            labels::WHERE_THE_WEIGHT_BEGINS,
                        );
                    }
                }
            });
            named(&combo.response, labels::based_on(&self.name()));
        });
    }

    /// The three ways, each with its range, and the one that counts.
    fn ways_ui(&self, ui: &mut Ui, weight: &PartWeight, tones: Tones, out: &mut Requests) {
        let Some(ways) = &weight.ways else { return };
        for method in Method::ALL {
            let way = ways.by(method);
            let counts = weight.counted == Some(method);
            ui.horizontal(|ui| {
                let radio = ui.radio(counts, method_label(method));
                named(&radio, format!("{}: {}", self.name(), method_label(method)));
                let radio = radio.on_hover_text(labels::OWN_METHOD_FOR_THIS_WEIGHT);
                if radio.clicked() && (!counts || self.own.method.is_none()) {
                    self.put(out, PartWeightChoices { method: Some(method), ..self.own.clone() }, labels::CONVERSION_METHOD);
                }
                if let Ok(estimate) = way {
                    ui.label(RichText::new(estimate_text(self.units, estimate)).color(if counts {
                        tones.ink()
                    } else {
                        tones.second()
                    }));
                }
            });
            if let Err(why) = way {
                note_ui(ui, &labels::not_possible(&no_way_text(self.units, &self.frame.frameset, why)));
            }
        }
        let follows = |ui: &mut Ui, out: &mut Requests, name: String, after: PartWeightChoices, what| {
            let button = ui.small_button(labels::USE_THE_SETTING_FOR_ALL).on_hover_text(labels::SETTING_FOR_ALL_WEIGHTS);
            named(&button, name);
            if button.clicked() {
                self.put(out, after, what);
            }
        };
        if self.own.method.is_some() {
            row_ui(ui, labels::OWN_CONVERSION_METHOD, |ui| {
                let after = PartWeightChoices { method: None, ..self.own.clone() };
                follows(ui, out, labels::use_the_method_for_all(&self.name()), after, labels::CONVERSION_METHOD);
            });
        }
        row_ui(ui, labels::FACTOR_FOR_THIS_WEIGHT, |ui| {
            let name = labels::factor(&self.name());
            let current = self.own.factor.map(write_factor).unwrap_or_default();
            let hint = self.settings.factor.map_or_else(|| labels::NONE.to_owned(), write_factor);
            let entry = TypedField { id: self.id("factor", 0), name: &name, current, hint: &hint, width: 60.0 };
            if let Some(factor) = entry.show_asking(ui, read_factor).1 {
                self.put(out, PartWeightChoices { factor: Some(factor), ..self.own.clone() }, labels::FACTOR);
            }
            if self.own.factor.is_some() {
                let after = PartWeightChoices { factor: None, ..self.own.clone() };
                follows(ui, out, labels::use_the_factor_for_all(&self.name()), after, labels::FACTOR);
            }
        });
    }

    /// A row of the ledger, with what of it can be typed over.
    fn row_ui(&self, ui: &mut Ui, row: &Row, weight: &PartWeight, tones: Tones, out: &mut Requests) {
        let label = |ui: &mut Ui, words: &str| {
            label_cell_ui(ui, |ui| {
                ui.add(egui::Label::new(RichText::new(words).size(SMALL)).truncate()).on_hover_text(words);
            });
        };
        match &row.of {
            RowOf::Published => {
                label(ui, &row_label(self.units, &self.frame.frameset, weight, row));
                self.published_ui(ui, weight, out);
            }
            RowOf::Line { index, .. } => {
                if let Some(line) = self.own.lines.get(*index) {
                    self.line_ui(ui, *index, line, out);
                }
            }
            RowOf::ToSize(_) | RowOf::SizeNotPublished | RowOf::Part(_) => {
                label(ui, &row_label(self.units, &self.frame.frameset, weight, row));
                cell_ui(ui, GRAMS, |ui| ui.label(self.signed(row.mass.value)));
                cell_ui(ui, PLUS_MINUS, |ui| ui.label(RichText::new(self.mass(row.mass.expanded())).color(tones.second())));
            }
        }
    }

    /// The published weight itself, and its ±.
    fn published_ui(&self, ui: &mut Ui, weight: &PartWeight, out: &mut Requests) {
        let Some(published) = weight.published else { return };
        let (units, unit) = (self.units, self.units.unit(Quantity::Mass));
        let name = labels::published(&self.name(), &unit);
        let current = units.in_field(Quantity::Mass, published.mass.value);
        let entry = TypedField { id: self.id("grams", 0), name: &name, current, hint: "", width: GRAMS - 12.0 };
        if let Some(grams) = cell_ui(ui, GRAMS, |ui| entry.show_asking(ui, |t| read_grams(t, self.part, units)).1) {
            let sheet = Sheet { frame: self.place, letter: &self.frame.letter, frameset: &self.frame.frameset, units };
            let Ok(edit) = sheet.changed(labels::PUBLISHED_WEIGHT, None, |f| {
                if let Some(own) = f.weights.get_mut(published.index) {
                    own.grams = grams;
                }
                Ok::<(), std::convert::Infallible>(())
            });
            out.edit(edit);
        }
        let name = labels::plus_minus_of_published(&self.name(), &unit);
        let current = self.mass(self.own.plus_minus.unwrap_or(published.mass.expanded()));
        let entry = TypedField { id: self.id("plus minus", 0), name: &name, current, hint: "", width: PLUS_MINUS - 12.0 };
        let (field, entered) = cell_ui(ui, PLUS_MINUS, |ui| entry.show(ui, |t| optional(t, |t| read_plus_minus(t, units))));
        field.on_hover_text(labels::EMPTY_PLUS_MINUS_OF_A_WEIGHT);
        if let Some(plus_minus) = entered {
            self.put(out, PartWeightChoices { plus_minus, ..self.own.clone() }, "±");
        }
    }

    /// A line of the user's.
    fn line_ui(&self, ui: &mut Ui, index: usize, line: &Line, out: &mut Requests) {
        let number = index + 1;
        let part = self.name();
        let units = self.units;
        let (mass_unit, length_unit) = (units.unit(Quantity::Mass), units.unit(Quantity::Length));
        label_cell_ui(ui, |ui| {
            match &line.what {
                What::Other(words) => {
                    let name = labels::line_what(&part, &number);
                    let entry = TypedField {
                        id: self.id("what", index),
                        name: &name,
                        current: words.clone(),
                        hint: labels::WHAT_IT_IS,
                        width: 150.0,
                    };
                    let read = |t: &str| match t.trim() {
                        "" => Err(labels::WRITE_WHAT_IT_IS.to_owned()),
                        words => Ok(words.to_owned()),
                    };
                    if let Some(words) = entry.show(ui, read).1 {
                        self.put_line(out, index, Line { what: What::Other(words), ..line.clone() });
                    }
                }
                what => {
                    ui.label(RichText::new(line_name(what)).size(SMALL));
                }
            }
            if let Amount::Length { mm, grams_per_mm } = line.amount {
                let small = |ui: &mut Ui, words: &str| ui.label(RichText::new(words).size(SMALL));
                let name = labels::line(&part, &number, &length_unit);
                let current = units.in_field(Quantity::Length, mm);
                let entry = TypedField { id: self.id("mm", index), name: &name, current, hint: "", width: 40.0 };
                if let Some(mm) = entry.show(ui, |t| read_line_mm(t, units)).1 {
                    self.put_line(out, index, Line { amount: Amount::Length { mm, grams_per_mm }, ..line.clone() });
                }
                small(ui, &format!("{length_unit} ×"));
                let per_length = format!("{mass_unit}/{length_unit}");
                let name = labels::line(&part, &number, &per_length);
                let current = write_grams_per_mm(grams_per_mm, units);
                let entry = TypedField { id: self.id("each", index), name: &name, current, hint: "", width: 36.0 };
                if let Some(grams_per_mm) = entry.show(ui, |t| read_grams_per_mm(t, units)).1 {
                    self.put_line(out, index, Line { amount: Amount::Length { mm, grams_per_mm }, ..line.clone() });
                }
                small(ui, &per_length);
            }
        });
        match line.amount {
            Amount::Length { .. } => {
                cell_ui(ui, GRAMS, |ui| ui.label(self.signed(line.amount.grams())));
            }
            Amount::Grams(grams) => {
                let name = labels::line(&part, &number, &mass_unit);
                let current = self.signed(grams);
                let entry = TypedField { id: self.id("line", index), name: &name, current, hint: "", width: GRAMS - 12.0 };
                let read = |t: &str| read_line_grams(t, units);
                let (field, entered) = cell_ui(ui, GRAMS, |ui| entry.show(ui, read));
                field.on_hover_text(labels::A_NEGATIVE_WEIGHT_IS_SUBTRACTED);
                if let Some(grams) = entered {
                    self.put_line(out, index, Line { amount: Amount::Grams(grams), ..line.clone() });
                }
            }
        }
        let name = labels::line_plus_minus(&part, &number);
        let current = units.in_field(Quantity::Mass, line.plus_minus);
        let entry = TypedField { id: self.id("line ±", index), name: &name, current, hint: "", width: 40.0 };
        let read = |t: &str| read_plus_minus(t, units);
        if let Some(plus_minus) = cell_ui(ui, PLUS_MINUS, |ui| entry.show(ui, read).1) {
            self.put_line(out, index, Line { plus_minus, ..line.clone() });
        }
        let button = ui.small_button("×").on_hover_text(labels::REMOVES_THE_LINE);
        named(&button, labels::remove_line(&self.part.label(), &number));
        if button.clicked() {
            let mut after = self.own.clone();
            after.lines.remove(index);
            self.put(out, after, labels::REMOVING_A_LINE);
        }
    }

    /// What the weight asks for, and any other line.
    fn more_ui(&self, ui: &mut Ui, weight: &PartWeight, out: &mut Requests) {
        let add = |out: &mut Requests, line: Line| {
            let mut after = self.own.clone();
            after.lines.push(line);
            self.put(out, after, labels::ADDING_A_LINE);
        };
        for line in &weight.offered {
            let mass = Measured::new(line.amount.grams(), line.plus_minus / COVERAGE_FACTOR);
            let words = offered_text(self.units, &line.what, mass);
            let tooltip = labels::WEIGHED_WITH_THE_PART;
            if ui.small_button(words).on_hover_text(tooltip).clicked() {
                add(out, line.clone());
            }
        }
        let combo = ComboBox::from_id_salt(self.id("add", 0)).width(130.0).selected_text(labels::ADD_A_LINE).show_ui(ui, |ui| {
            for what in addable(self.part) {
                if ui.selectable_label(false, line_name(&what)).clicked() {
                    add(out, self.first_line(what));
                }
            }
        });
        named(&combo.response, labels::add_a_line(&self.name()));
    }

    /// A weight of the ledger without its unit: whole grams, or hundredths of a pound.
    fn mass(&self, grams: f64) -> String {
        let decimals = match self.units {
            System::Metric => 0,
            System::Imperial => 2,
        };
        fixed(grams * self.units.factor(Quantity::Mass), decimals)
    }

    /// The same with its sign always written.
    fn signed(&self, grams: f64) -> String {
        let text = self.mass(grams);
        let is_zero = text.bytes().all(|b| matches!(b, b'0' | b'.'));
        if grams > 0.0 && !is_zero { format!("+{text}") } else { text }
    }

    /// A new line as it begins: taken off, with what such a part usually weighs and its ±.
    fn first_line(&self, what: What) -> Line {
        match &what {
            What::Small(part) => {
                let given = self.frame.frameset.small_parts.get(part).copied();
                let usual = small_part_g(*part);
                let (grams, plus_minus) = given.map_or((usual.value, usual.plus_minus), |g| (g, 2.0));
                Line { what, amount: Amount::Grams(-grams), plus_minus }
            }
            What::Steerer => {
                let each = steerer_g_per_mm(&self.frame.frameset);
                let amount = Amount::Length { mm: -50.0, grams_per_mm: each.value };
                Line { what, amount, plus_minus: (each.plus_minus * 50.0).round() }
            }
            What::Other(_) => Line { what, amount: Amount::Grams(-50.0), plus_minus: 10.0 },
        }
    }
}

/// What a line may be of; a frame has no steerer.
fn addable(part: Part) -> Vec<What> {
    let mut all: Vec<What> = SmallPart::ALL.into_iter().map(What::Small).collect();
    if part != Part::Frame {
        all.push(What::Steerer);
    }
    all.push(What::Other(labels::ANOTHER_ITEM.to_owned()));
    all
}
