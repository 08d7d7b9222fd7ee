//! The Figures view: the table of all figures, frames as columns, each with its difference from the reference. The head
//! and the names stay in place while the rest scrolls.

use egui::{Align2, Button, Color32, Id, Painter, Rect, ScrollArea, Sense, Ui, pos2, vec2};

use super::super::commands::{Command, about};
use super::super::edits::Edit;
use super::super::labels::{all_figures as labels, commands as command_labels, line_up as card_labels};
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::theme::{BODY, SMALL, Tones, regular, semibold};
use super::decisions::ignore_ui;
use super::edited_frameset::Sheet;
use super::key_figures::{cell_colour, cell_words};
use super::{View, ViewId};
use crate::drawing::Role;
use crate::geometry::Origin;
use crate::units::capitalised;
use crate::words::{
    Cell, Column, Mark, Subject, Table, TableRow, decision_texts, doubt_text, partly_assumed, placing_text, published_value,
    weight_workings,
};

const LINE: f32 = 23.0;
const HEAD: f32 = 44.0;
const PAD: f32 = 10.0;
/// Room for the mark before a value.
const MARK: f32 = 12.0;

/// The All figures view.
pub(crate) struct AllFigures;

impl View for AllFigures {
    fn tools_ui(&self, ui: &mut Ui, _shown: Shown<'_>, out: &mut Requests) {
        if let Some(about) = about(Command::CopyFigures)
            && ui.button(about.label).on_hover_text(about.tooltip).clicked()
        {
            out.command(Command::CopyFigures);
        }
        let tones = Tones::of(ui);
        ui.label(egui::RichText::new(labels::NO_MARK_COMPUTED).size(SMALL).color(tones.second()))
            .on_hover_text(Mark::Computed.meaning());
        for (mark, words) in [
            (Mark::Doubtful, labels::DOUBTFUL),
            (Mark::PartlyAssumed, labels::PARTLY_ASSUMED),
            (Mark::Published, labels::PUBLISHED),
        ] {
            ui.label(egui::RichText::new(words).size(SMALL).color(tones.second())).on_hover_text(mark.meaning());
            let (rect, _) = ui.allocate_exact_size(vec2(8.0, 14.0), Sense::hover());
            paint_mark(ui.painter(), rect.center(), mark, tones.ink(), tones);
        }
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        super::super::canvas::tell(ui.ctx(), None);
        figures_ui(ui, shown, "figures", out);
    }
}

/// The table that is shown, in all the room that is left; names and head stay while the rest scrolls.
pub(super) fn figures_ui(ui: &mut Ui, shown: Shown<'_>, salt: &'static str, out: &mut Requests) {
    let tones = Tones::of(ui);
    let whole = ui.available_rect_before_wrap();
    let layout = Layout::of(ui, shown.table);
    let names = layout.names.min(whole.width() * 0.45);
    let body = Rect::from_min_max(whole.min + vec2(names, HEAD), whole.max);
    let mut offset = egui::Vec2::ZERO;
    let rows = &shown.table.rows;
    ui.scope_builder(egui::UiBuilder::new().max_rect(body), |ui| {
        ui.set_clip_rect(ui.clip_rect().intersect(body));
        let area = ScrollArea::both().id_salt(salt).auto_shrink([false, false]);
        let scrolled = area.show_viewport(ui, |ui, viewport| {
            scroll_by_keys(ui);
            let origin = ui.min_rect().min;
            ui.set_min_size(vec2(layout.width(), LINE * rows.len() as f32 + 8.0));
            for (line, row) in rows.iter().enumerate() {
                let top = LINE * line as f32;
                if top + LINE >= viewport.top() && top <= viewport.bottom() {
                    row_ui(ui, origin + vec2(0.0, top), row, shown, &layout, tones, out);
                }
            }
        });
        offset = scrolled.state.clamped_offset();
    });
    let head = Rect::from_min_max(pos2(body.left(), whole.top()), pos2(whole.right(), body.top()));
    head_ui(ui, head, offset.x, shown, &layout, tones);
    let side = Rect::from_min_max(pos2(whole.left(), body.top()), pos2(body.left(), whole.bottom()));
    names_ui(ui, side, offset.y, shown.table, tones);
    ui.painter().hline(whole.x_range(), body.top(), (1.0, tones.second()));
    ui.painter().vline(body.left(), whole.y_range(), (1.0, tones.hairline()));
}

/// Widths of the columns.
struct Layout {
    names: f32,
    columns: Vec<f32>,
}

impl Layout {
    fn of(ui: &Ui, table: &Table) -> Self {
        let width = |text: &str| ui.painter().layout_no_wrap(text.to_owned(), regular(BODY), Color32::PLACEHOLDER).size().x;
        let names = table.rows.iter().map(|r| width(&name_words(r))).fold(0.0, f32::max) + 16.0 + PAD;
        let columns = (0..table.columns.len())
            .map(|column| {
                let cells = table.rows.iter().filter_map(|r| r.cells.get(column).map(|c| width(&cell_words(c, r.unit))));
                let least = if table.columns[column].is_difference { 56.0 } else { 92.0 };
                cells.fold(least, f32::max) + 2.0 * PAD + if table.columns[column].is_difference { 0.0 } else { MARK }
            })
            .collect();
        Self { names, columns }
    }

    fn width(&self) -> f32 {
        self.columns.iter().sum()
    }

    /// Left edge and width of each column.
    fn places(&self) -> impl Iterator<Item = (f32, f32)> {
        self.columns.iter().scan(0.0, |left, width| {
            let place = (*left, *width);
            *left += width;
            Some(place)
        })
    }
}

fn name_words(row: &TableRow) -> String {
    if row.unit.is_empty() { row.label.to_owned() } else { format!("{}, {}", row.label, row.unit) }
}

fn scroll_by_keys(ui: &Ui) {
    use egui::Key::{ArrowDown, ArrowLeft, ArrowRight, ArrowUp};
    if ui.memory(|m| m.focused().is_some()) {
        return;
    }
    let by = ui.input(|i| {
        let presses = |key| i.num_presses(key) as f32;
        vec2(presses(ArrowLeft) - presses(ArrowRight), presses(ArrowUp) - presses(ArrowDown)) * 2.0 * LINE
    });
    if by != egui::Vec2::ZERO {
        ui.scroll_with_delta(by);
    }
}

fn row_ui(ui: &Ui, corner: egui::Pos2, row: &TableRow, shown: Shown<'_>, layout: &Layout, tones: Tones, out: &mut Requests) {
    ui.painter().hline(egui::Rangef::new(corner.x, corner.x + layout.width()), corner.y + LINE, (1.0, tones.hairline()));
    for (column, (left, width)) in layout.places().enumerate() {
        let Some(cell) = row.cells.get(column) else { continue };
        let rect = Rect::from_min_size(corner + vec2(left, 0.0), vec2(width, LINE));
        if !ui.is_rect_visible(rect) {
            continue;
        }
        let words = cell_words(cell, row.unit);
        let colour = cell_colour(cell, tones);
        ui.painter().text(pos2(rect.right() - PAD, rect.center().y), Align2::RIGHT_CENTER, &words, regular(BODY), colour);
        if !shown.table.columns[column].is_difference {
            paint_mark(ui.painter(), pos2(rect.left() + PAD, rect.center().y), cell.mark, colour, tones);
        }
        let response = ui.interact(rect, Id::unique(("figure", row.label, column)), Sense::CLICK);
        response.widget_info(|| {
            let title = &shown.table.columns[column].title;
            egui::WidgetInfo::labeled(egui::Role::Cell, true, format!("{}, {title}: {words}, {}", row.label, cell.mark.meaning()))
        });
        response.context_menu(|ui| cell_menu_ui(ui, &words, row.subject, &shown.table.columns[column], shown, out));
        response.on_hover_ui(|ui| cell_tooltip(ui, row, column, cell, shown));
    }
}

/// A cell's context menu: its value to the clipboard, alone or with its ±; its frame as the reference; a published figure
/// left out or used again.
fn cell_menu_ui(ui: &mut Ui, words: &str, subject: Subject, column: &Column, shown: Shown<'_>, out: &mut Requests) {
    let entry = |label: &'static str| Button::new(label).frame_when_inactive(false);
    copy_ui(ui, words);
    let is_reference = shown.findings().reference == Some(column.frame);
    if ui
        .add_enabled(!is_reference, entry(command_labels::MAKE_REFERENCE.label))
        .on_hover_text(card_labels::COMPARES_THE_OTHER_FRAMES)
        .clicked()
    {
        out.edit(Edit::Reference(column.frame));
        ui.close();
    }
    if let (Subject::Figure(figure), false, Some(frame)) =
        (subject, column.is_difference, column.frame.of(&shown.findings().frames))
    {
        let units = shown.lineup().settings.units;
        let sheet = Sheet { frame: column.frame, letter: &frame.letter, frameset: &frame.frameset, units };
        ignore_ui(ui, sheet, (frame.size, figure), out);
    }
}

/// Entries of a cell's menu: its value to the clipboard, alone or with its ±.
pub(super) fn copy_ui(ui: &mut Ui, words: &str) {
    let alone = words.split('±').next().unwrap_or_default().trim();
    for (label, text) in [(labels::COPY_VALUE, alone), (labels::COPY_WITH_UNCERTAINTY, words)] {
        if ui.add(Button::new(label).frame_when_inactive(false)).clicked() {
            ui.ctx().copy_text(text.to_owned());
            ui.close();
        }
    }
}

/// A dot: published; a ring: partly assumed; a question mark: doubtful.
pub(crate) fn paint_mark(painter: &Painter, centre: egui::Pos2, mark: Mark, colour: Color32, tones: Tones) {
    match mark {
        Mark::Published => {
            painter.circle_filled(centre, 2.4, colour);
        }
        Mark::PartlyAssumed => {
            painter.circle_stroke(centre, 2.6, (1.2, tones.second()));
        }
        Mark::Doubtful => {
            painter.text(centre, Align2::CENTER_CENTER, "?", semibold(BODY), tones.ink());
        }
        Mark::Computed | Mark::ClearDifference | Mark::NoClearDifference | Mark::Absent => {}
    }
}

fn head_ui(ui: &Ui, rect: Rect, scrolled: f32, shown: Shown<'_>, layout: &Layout, tones: Tones) {
    let painter = ui.painter().with_clip_rect(rect);
    painter.rect_filled(rect, 0.0, tones.paper());
    let places: Vec<(f32, f32)> = layout.places().collect();
    for (column, ((left, width), about)) in places.iter().zip(&shown.table.columns).enumerate() {
        let left = rect.left() + left - scrolled;
        if about.is_difference {
            painter.text(
                pos2(left + width - PAD, rect.bottom() - 13.0),
                Align2::RIGHT_CENTER,
                &about.title,
                regular(SMALL),
                tones.second(),
            );
            continue;
        }
        let Some(frame) = about.frame.of(&shown.findings().frames) else { continue };
        let follows = places.get(column + 1).filter(|_| shown.table.columns.get(column + 1).is_some_and(|c| c.is_difference));
        let room = width + follows.map_or(0.0, |(_, w)| *w) - 2.0 * PAD;
        let job = egui::text::LayoutJob::simple_singleline(frame.name.clone(), semibold(BODY), tones.ink());
        let mut job = job;
        job.wrap = egui::text::TextWrapping::truncate_at_width(room);
        let name = painter.layout_job(job);
        let place = pos2(left + PAD, rect.top() + 6.0);
        let area = Rect::from_min_size(pos2(left, rect.top()), vec2(room + 2.0 * PAD, HEAD)).intersect(rect);
        painter.galley(place, name, tones.ink());
        let tag = format!("{} {}", frame.letter, frame.size_label());
        painter.text(
            pos2(left + width - PAD, rect.bottom() - 13.0),
            Align2::RIGHT_CENTER,
            tag,
            semibold(SMALL),
            tones.colour(Role::FrameLetter(about.frame)),
        );
        if column > 0 {
            painter.vline(left, rect.y_range(), (1.0, tones.hairline()));
        }
        if area.is_positive() {
            let response = ui.interact(area, Id::unique(("figures head", column)), Sense::hover());
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::ColumnHeader, true, &about.title));
            response.on_hover_text(&about.title);
        }
    }
}

fn names_ui(ui: &Ui, rect: Rect, scrolled: f32, table: &Table, tones: Tones) {
    let painter = ui.painter().with_clip_rect(rect);
    painter.rect_filled(rect, 0.0, tones.paper());
    for (line, row) in table.rows.iter().enumerate() {
        let place = Rect::from_min_size(pos2(rect.left(), rect.top() + LINE * line as f32 - scrolled), vec2(rect.width(), LINE));
        if !place.intersects(rect) {
            continue;
        }
        painter.hline(rect.x_range(), place.bottom(), (1.0, tones.hairline()));
        let unit = painter.text(
            pos2(place.right() - PAD, place.center().y),
            Align2::RIGHT_CENTER,
            row.unit,
            regular(SMALL),
            tones.second(),
        );
        let names = painter.with_clip_rect(Rect::from_min_max(place.min, pos2(unit.left() - 4.0, place.max.y)).intersect(rect));
        names.text(pos2(place.left() + 16.0, place.center().y), Align2::LEFT_CENTER, row.label, regular(BODY), tones.ink());
        let response = ui.interact(place.intersect(rect), Id::unique(("figures name", line)), Sense::hover());
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::RowHeader, true, row.label));
        response.on_hover_text(meaning(row.subject));
    }
}

/// What a row of the table is about, in a sentence.
pub(super) fn meaning(subject: Subject) -> String {
    match subject {
        Subject::Figure(figure) => figure.meaning().to_owned(),
        Subject::Weight(part) => labels::weight_of(&part.label()),
        Subject::BagSpace(figure) => crate::words::bag_figure_meaning(figure).to_owned(),
    }
}

fn cell_tooltip(ui: &mut Ui, row: &TableRow, column: usize, cell: &Cell, shown: Shown<'_>) {
    let about = &shown.table.columns[column];
    let units = shown.lineup().settings.units;
    ui.label(egui::RichText::new(format!("{}, {}: {}", row.label, about.title, cell_words(cell, row.unit))).strong());
    ui.label(meaning(row.subject));
    let value = match row.subject {
        Subject::Figure(figure) if !about.is_difference => {
            about.frame.of(&shown.findings().frames).and_then(|frame| frame.value(figure))
        }
        _ => None,
    };
    // What is assumed follows below, by name.
    if cell.mark != Mark::PartlyAssumed || value.is_none_or(|v| v.assumed.is_empty()) {
        ui.label(format!("{}.", capitalised(cell.mark.meaning())));
    }
    let Some(frame) = about.frame.of(&shown.findings().frames).filter(|_| !about.is_difference) else { return };
    match row.subject {
        Subject::Figure(figure) => {
            let Some(value) = value else { return };
            if let Some(printed) = value.printed {
                let published = units.with_unit(figure.quantity(), &published_value(figure, printed, units));
                ui.label(labels::published(&published));
            } else if value.origin == Origin::Computed {
                ui.label(labels::NOT_PUBLISHED);
            }
            if !value.assumed.is_empty() {
                ui.label(format!("{}.", capitalised(&partly_assumed(value.assumed))));
            }
            let published = frame.size.of(&frame.frameset.sizes);
            for sentence in published.map(|s| decision_texts(s, figure, units)).unwrap_or_default() {
                ui.label(sentence);
            }
            if let Some(doubt) = frame.chosen().and_then(|s| s.doubt(figure)) {
                ui.label(doubt_text(doubt, units));
            }
            if let Some(placing) = placing_text(shown.findings(), about.frame, &[figure]) {
                ui.label(placing);
            }
        }
        Subject::BagSpace(_) => {}
        Subject::Weight(part) => {
            if frame.weights.part(part).is_some() {
                ui.label(weight_workings(units, frame, part));
            }
        }
    }
}
