//! The Table view: the selected frameset as its maker's table, sizes across, figures down, every cell to be typed in.
//! Outline and ± follow each keystroke; Tab goes on, Enter goes down, Escape gives the old figure back.

use std::fmt::Display;

use egui::{Align2, Id, Key, Response, RichText, ScrollArea, TextEdit, Tooltip, Ui, vec2};

use super::super::canvas::{kept, tell};
use super::super::commands::{Command, about};
use super::super::edits::Edit;
use super::super::entry::{note_refused, note_untouched};
use super::super::labels::frameset as labels;
use super::super::moment::Awaited;
use super::super::named::named;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::{SMALL, Tones};
use super::all_figures::copy_ui;
use super::check::frame_picker_ui;
use super::decisions::{Decided, decisions_ui, ignore_ui};
use super::edited_frameset::Sheet;
use super::frameset_facts::{Facts, facts_ui};
use super::{View, ViewId};
use crate::frameset::{Figure, FigureUse, Frameset, Refused, SizeIndex, import};
use crate::lineup::MissingEntry;
use crate::words::{PublishedCell, PublishedTable, published_table};

const NAMES: f32 = 276.0;
const CELL: f32 = 104.0;

/// The Frameset view.
pub(crate) struct FramesetTable;

impl View for FramesetTable {
    fn tools_ui(&self, _ui: &mut Ui, _shown: Shown<'_>, _out: &mut Requests) {}

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        tell(ui.ctx(), None);
        let selected = shown.moment.selected;
        let Some(frame) = selected.of(&shown.findings().frames) else { return };
        let tones = Tones::of(ui);
        let units = shown.lineup().settings.units;
        let sheet = Sheet { frame: selected, letter: &frame.letter, frameset: &frame.frameset, units };
        let table = kept(ui, Id::unique("maker's table kept"), (shown.document.revision(), selected), || {
            published_table(&frame.frameset, &frame.as_published, units)
        });
        let paper = egui::Frame::NONE.inner_margin(egui::Margin::symmetric(16, 10));
        // Before a figure is chosen, the most doubtful one stands there.
        let doubtful =
            frame.as_published.listed_slips().first().and_then(|slip| slip.cells.first()).map(|cell| (cell.size, cell.figure));
        let known = shown.moment.cell.filter(|(size, _)| size.0 < table.sizes.len());
        let chosen = known.or(doubtful).unwrap_or((frame.size, shown.moment.figure));
        // Once shown, it stays: a decision may take the doubt away.
        let awaited = shown.moment.awaited;
        if let Some(Awaited::Entry(MissingEntry::Figure(figure))) = awaited {
            ui.memory_mut(|m| m.request_focus(field_id(sheet, frame.size, figure).with("edit")));
            out.push(Request::Cell(frame.size, figure));
            out.push(Request::Entered);
        }
        let next = newly_focused(ui, sheet, &table, chosen).or(known.is_none().then_some(chosen));
        if let Some((size, figure)) = next {
            out.push(Request::Cell(size, figure));
        }
        decided_ui(ui, sheet, &table, chosen, tones, out);
        egui::CentralPanel::default().frame(paper).show(ui, |ui| {
            tools_ui(ui, shown, out);
            ScrollArea::both().id_salt("maker's table").auto_shrink([false, false]).show(ui, |ui| {
                let said = selected.of(&shown.findings().fit).map(|f| &f.statements);
                let below = size_label_id(sheet, SizeIndex(0)).with("edit");
                facts_ui(ui, sheet, Facts { said, awaited, below }, tones, out);
                ui.add_space(8.0);
                table_ui(ui, sheet, &table, tones, out);
            });
        });
    }
}

/// The figure that the keyboard was last in, with what is said of it and what the user can decide, below the table.
fn decided_ui(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    table: &PublishedTable,
    cell: (SizeIndex, Figure),
    tones: Tones,
    out: &mut Requests,
) {
    let (size, figure) = cell;
    let row = table.rows.iter().find(|r| r.figure == figure && figure.about().in_files);
    let Some(about) = row.and_then(|r| r.cells.get(size.0)) else { return };
    let paper = egui::Frame::NONE.inner_margin(egui::Margin::symmetric(16, 8));
    egui::Panel::bottom("about a published figure").resizable(false).frame(paper).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 4.0;
        let label = table.sizes.get(size.0).map_or("", String::as_str);
        ui.horizontal_top(|ui| {
            ui.label(RichText::new(labels::figure_of_size(&figure.label(), &label)).strong());
            let words = RichText::new(&about.note).size(SMALL).color(tones.second());
            ui.add(egui::Label::new(words).wrap());
        });
        let back = field_id(sheet, size, figure).with("edit");
        decisions_ui(ui, sheet, Decided { cells: &[cell], measured: cell }, Some(back), tones, out);
    });
}

/// Which frame, and what can be done with the whole of it.
fn tools_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    ui.horizontal_wrapped(|ui| {
        frame_picker_ui(ui, shown, out);
        for command in [Command::NewFrame, Command::PasteTable, Command::SaveFrame] {
            let Some(about) = about(command) else { continue };
            if ui.button(about.label).on_hover_text(about.tooltip).clicked() {
                out.command(command);
            }
        }
    });
    ui.add_space(6.0);
}

/// Tells the field of a published figure apart.
fn field_id(sheet: Sheet<'_>, size: SizeIndex, figure: Figure) -> Id {
    Id::unique(("printed", sheet.frame, size, figure as usize))
}

/// Tells the field of a size's label apart.
fn size_label_id(sheet: Sheet<'_>, size: SizeIndex) -> Id {
    Id::unique(("size label", sheet.frame, size))
}

/// The figure whose field has the keyboard, where it is another than the `chosen` one.
fn newly_focused(ui: &Ui, sheet: Sheet<'_>, table: &PublishedTable, chosen: (SizeIndex, Figure)) -> Option<(SizeIndex, Figure)> {
    let focused = ui.memory(egui::Memory::focused)?;
    let is_it = |size: SizeIndex, figure: Figure| field_id(sheet, size, figure).with("edit") == focused;
    if is_it(chosen.0, chosen.1) {
        return None;
    }
    let figures = table.rows.iter().map(|row| row.figure).filter(|f| f.about().in_files);
    figures
        .flat_map(|figure| SizeIndex::all(table.sizes.len()).map(move |size| (size, figure)))
        .find(|(size, figure)| is_it(*size, *figure))
}

fn table_ui(ui: &mut Ui, sheet: Sheet<'_>, table: &PublishedTable, tones: Tones, out: &mut Requests) {
    ui.spacing_mut().item_spacing = vec2(6.0, 3.0);
    sizes_ui(ui, sheet, table, tones, out);
    let mut rows = table.rows.iter().filter(|r| r.figure.about().in_files).peekable();
    while let Some(row) = rows.next() {
        let below = rows.peek().map(|row| row.figure);
        ui.horizontal_top(|ui| {
            let unit = sheet.units.unit(row.figure.quantity());
            let words = RichText::new(format!("{}, {unit}", row.figure.label()));
            let words = if row.is_published { words } else { words.color(tones.second()) };
            ui.allocate_ui_with_layout(vec2(NAMES, 22.0), egui::Layout::left_to_right(egui::Align::Center), |ui| {
                ui.set_min_width(NAMES);
                ui.add(egui::Label::new(words).truncate()).on_hover_text(row.figure.meaning());
            });
            for (size, cell) in SizeIndex::numbered(&row.cells) {
                cell_ui(ui, sheet, size, (row.figure, below), cell, table, tones, out);
            }
        });
    }
}

/// Labels of the sizes, each with what can be done to it.
fn sizes_ui(ui: &mut Ui, sheet: Sheet<'_>, table: &PublishedTable, tones: Tones, out: &mut Requests) {
    ui.horizontal(|ui| {
        ui.allocate_ui(vec2(NAMES, 22.0), |ui| {
            ui.set_min_width(NAMES);
            ui.label(RichText::new(labels::PUBLISHED_BEST_ESTIMATE_BELOW).size(SMALL).color(tones.second()));
        });
        for (index, label) in SizeIndex::numbered(&table.sizes) {
            let id = size_label_id(sheet, index);
            ui.allocate_ui(vec2(CELL, 22.0), |ui| {
                ui.set_min_width(CELL);
                ui.horizontal(|ui| {
                    ui.spacing_mut().item_spacing.x = 2.0;
                    let name = labels::label_of_size(&label);
                    let read = |text: &str| sheet.changed(labels::RENAMING_A_SIZE, Some(id), |f| f.rename_size(index, text));
                    let field =
                        Field { id, name: &name, current: label, hint: labels::SIZE, width: CELL - 34.0, is_number: false };
                    let (response, edit) = field.show(ui, read);
                    if let Some(edit) = edit {
                        out.edit(edit);
                    }
                    // Enter goes down, to the first figure of the size.
                    if is_entered(ui, &response)
                        && let Some(first) = table.rows.iter().find(|row| row.figure.about().in_files)
                    {
                        ui.memory_mut(|m| m.request_focus(field_id(sheet, index, first.figure).with("edit")));
                    }
                    let menu = ui.menu_button("…", |ui| size_menu_ui(ui, sheet, index, out));
                    named(&menu.response, labels::size_menu(&label));
                });
            });
        }
    });
}

fn size_menu_ui(ui: &mut Ui, sheet: Sheet<'_>, index: SizeIndex, out: &mut Requests) {
    let mut offer = |ui: &mut Ui, label: &str, what: &str, change: &dyn Fn(&mut Frameset) -> Result<(), Refused>| {
        let edit = sheet.changed(what, None, change);
        if ui.add_enabled(edit.is_ok(), egui::Button::new(label)).clicked()
            && let Ok(edit) = edit
        {
            out.edit(edit);
            ui.close();
        }
    };
    offer(ui, labels::ADD_A_SIZE_AFTER_THIS_ONE, labels::ADDING_A_SIZE, &|f| {
        f.add_size(index);
        Ok(())
    });
    offer(ui, labels::COPY_THIS_SIZE, labels::COPYING_A_SIZE, &|f| {
        f.copy_size(index);
        Ok(())
    });
    offer(ui, labels::REMOVE_THIS_SIZE, labels::REMOVING_A_SIZE, &|f| f.remove_size(index));
}

#[expect(clippy::too_many_arguments, reason = "a cell is where everything of the table meets")]
fn cell_ui(
    ui: &mut Ui,
    sheet: Sheet<'_>,
    size: SizeIndex,
    (figure, below): (Figure, Option<Figure>),
    cell: &PublishedCell,
    table: &PublishedTable,
    tones: Tones,
    out: &mut Requests,
) {
    let id = field_id(sheet, size, figure);
    let name = labels::figure_of_size(&figure.label(), &table.sizes.get(size.0).map_or("", String::as_str));
    ui.allocate_ui(vec2(CELL, 40.0), |ui| {
        ui.set_min_width(CELL);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            let read = |text: &str| {
                let value = import::typed(figure, text, sheet.units).map_err(|why| why.to_string())?;
                let what = format!("{} {}", figure.label().to_lowercase(), table.sizes.get(size.0).map_or("", String::as_str));
                sheet.changed(&what, Some(id), |f| f.set_figure(size, figure, value)).map_err(|why| why.to_string())
            };
            let published = size.of(&sheet.frameset.sizes).and_then(|s| s.figures.get(&figure));
            let current = published.map(|value| sheet.units.in_field(figure.quantity(), *value)).unwrap_or_default();
            let field = Field { id, name: &name, current: &current, hint: "", width: CELL - 12.0, is_number: true };
            let (response, edit) = field.show(ui, read);
            if response.gained_focus() {
                response.scroll_to_me(None);
            }
            response.context_menu(|ui| {
                copy_ui(ui, &cell.adjusted);
                ignore_ui(ui, sheet, (size, figure), out);
            });
            if let Some(below) = below.filter(|_| is_entered(ui, &response)) {
                ui.memory_mut(|m| m.request_focus(field_id(sheet, size, below).with("edit")));
            }
            if let Some(edit) = edit {
                out.edit(edit);
            }
            let colour = if cell.mark.is_grey() { tones.grey() } else { tones.second() };
            let doubt = if cell.mark == crate::words::Mark::Doubtful { "? " } else { "" };
            let decided = match &cell.figure_use {
                Some(FigureUse::Ignored(_)) => Some(labels::IGNORED),
                Some(FigureUse::Anyway) => Some(labels::USED_ANYWAY),
                Some(FigureUse::AsOthersAgree) | None => None,
            };
            let decided: Vec<&str> = decided.into_iter().chain(cell.measured.as_ref().map(|_| labels::MEASURED)).collect();
            let mut lines = vec![format!("{doubt}{}", cell.adjusted)];
            if !decided.is_empty() {
                lines.push(decided.join(", "));
            }
            for words in lines {
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Min), |ui| {
                    ui.add_space(13.0);
                    ui.label(RichText::new(words).size(SMALL - 1.0).color(colour)).on_hover_text(&cell.note);
                });
            }
        });
    });
}

/// Whether a field was left with Enter. The key goes no further: the field below would be left by it at once.
pub(super) fn is_entered(ui: &Ui, field: &Response) -> bool {
    field.lost_focus() && ui.input_mut(|i| i.consume_key(egui::Modifiers::NONE, Key::Enter))
}

/// A field whose value follows each keystroke: what can be read is an edit at once, what cannot is said at the field and
/// changes nothing, Escape gives back what stood there.
pub(crate) struct Field<'a> {
    /// Tells the fields apart.
    pub(crate) id: Id,
    /// Its name for screen readers.
    pub(crate) name: &'a str,
    /// What the document says.
    pub(crate) current: &'a str,
    /// What it says when empty.
    pub(crate) hint: &'a str,
    /// Width, points.
    pub(crate) width: f32,
    /// Whether it holds a number, and so is set to the right.
    pub(crate) is_number: bool,
}

impl Field<'_> {
    /// Shows it; gives what the toolkit says of it, and the edit of a keystroke.
    pub(super) fn show<E: Display>(self, ui: &mut Ui, read: impl Fn(&str) -> Result<Edit, E>) -> (Response, Option<Edit>) {
        let read = |text: &str| read(text).map_err(|why| why.to_string());
        let kept = ui.data(|d| d.get_temp::<(String, String)>(self.id));
        // A field in which nothing was typed yet follows the document, so that undo shows in it.
        let kept = kept.filter(|(text, before)| text != before || text == self.current);
        let (mut text, before) = kept.unwrap_or_else(|| (self.current.to_owned(), self.current.to_owned()));
        let edit_id = self.id.with("edit");
        let align = if self.is_number { Align2::RIGHT_CENTER } else { Align2::LEFT_CENTER };
        let field =
            ui.add(TextEdit::singleline(&mut text).id(edit_id).hint_text(self.hint).desired_width(self.width).align(align));
        named(&field, self.name);
        if field.has_focus() {
            if field.gained_focus() && self.is_number {
                select_all(ui, edit_id, text.chars().count());
            }
            if text == before {
                note_untouched(ui);
            }
            let value = read(&text);
            ui.data_mut(|d| d.insert_temp(self.id, (text, before)));
            if let Err(sentence) = &value {
                Tooltip::always_open(ui.ctx().clone(), ui.layer_id(), self.id.with("why"), &field).show(|ui| ui.label(sentence));
            }
            let edit = value.ok().filter(|_| field.changed());
            return (field, edit);
        }
        ui.data_mut(|d| d.remove::<(String, String)>(self.id));
        let is_left = field.lost_focus() && !ui.input(|i| i.key_pressed(Key::Escape));
        if is_left && let Err(sentence) = read(&text) {
            note_refused(ui, self.name, &text, &sentence);
        }
        if field.lost_focus() && ui.input(|i| i.key_pressed(Key::Escape)) && self.current != before {
            return (field, read(&before).ok());
        }
        (field, None)
    }
}

fn select_all(ui: &Ui, id: Id, length: usize) {
    if let Some(mut state) = egui::text_edit::TextEditState::load(ui.ctx(), id) {
        let all = egui::text::CCursorRange::two(egui::text::CCursor::new(0), egui::text::CCursor::new(length));
        state.cursor.set_char_range(Some(all));
        state.store(ui.ctx(), id);
    }
}
