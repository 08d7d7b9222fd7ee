//! The strip below the outline: a few figures of the reference, of the selected frame, and their difference, out of the
//! table of figures.

use egui::{Align2, Panel, Rect, Sense, Ui, pos2};

use super::super::labels::drawings as labels;
use super::super::shown::Shown;
use super::super::theme::{BODY, SMALL, Tones, regular, semibold};
use super::all_figures::meaning;
use crate::drawing::Role;
use crate::frameset::{Figure, FrameIndex, Part};
use crate::words::{Cell, Subject, Table, placing_text};

/// The figures of the strip, two to a line.
const FIGURES: [Subject; 8] = [
    Subject::Figure(Figure::Stack),
    Subject::Figure(Figure::HeadAngle),
    Subject::Figure(Figure::Reach),
    Subject::Figure(Figure::Wheelbase),
    Subject::Figure(Figure::Trail),
    Subject::Figure(Figure::BbDrop),
    Subject::Figure(Figure::Chainstay),
    Subject::Weight(Part::Frameset),
];
const LINE: f32 = 22.0;
/// The least width of a block, points.
const LEAST_BLOCK: f32 = 400.0;

/// Which columns of the table the strip shows.
struct Columns {
    reference: usize,
    other: Option<(usize, usize)>,
}

fn columns(shown: Shown<'_>, table: &Table) -> Option<Columns> {
    let reference_frame = shown.findings().reference?;
    let place = |frame: FrameIndex, is_difference: bool| {
        table.columns.iter().position(|c| c.frame == frame && c.is_difference == is_difference)
    };
    let reference = place(reference_frame, false)?;
    let selected = Some(shown.moment.selected).filter(|s| *s != reference_frame && place(*s, true).is_some());
    let other = selected.or_else(|| table.columns.iter().find(|c| c.is_difference).map(|c| c.frame));
    Some(Columns { reference, other: other.and_then(|o| place(o, false).zip(place(o, true))) })
}

/// Shows the strip.
pub(crate) fn strip_ui(ui: &mut Ui, shown: Shown<'_>) {
    let table = shown.table;
    let Some(columns) = columns(shown, table) else { return };
    let tones = Tones::of(ui);
    let frame = egui::Frame::NONE.inner_margin(egui::Margin::symmetric(16, 8));
    Panel::bottom("key figures").resizable(false).show_separator_line(true).frame(frame).show(ui, |ui| {
        let height = LINE * (FIGURES.len() / 2 + 1) as f32;
        let (rect, _) = ui.allocate_exact_size(egui::vec2(ui.available_width(), height), Sense::hover());
        let block = ((rect.width() - 32.0) / 2.0).min(620.0);
        // Where both blocks would be too narrow to read, the first stands alone; the Figures view has the rest.
        let is_narrow = block < LEAST_BLOCK;
        let block = if is_narrow { rect.width() } else { block };
        for side in 0..if is_narrow { 1 } else { 2 } {
            let left = rect.left() + side as f32 * (block + 32.0);
            let area = Rect::from_min_size(pos2(left, rect.top()), egui::vec2(block, height));
            block_ui(ui, area, side, &columns, shown, tones);
        }
    });
}

fn block_ui(ui: &Ui, area: Rect, side: usize, columns: &Columns, shown: Shown<'_>, tones: Tones) {
    let table = shown.table;
    let shares = [0.36, 0.59, 0.80, 1.0];
    let right_of = |column: usize| area.left() + area.width() * shares[column + 1];
    let text = |place: egui::Pos2, anchor: Align2, words: &str, font, colour| {
        ui.painter().text(place, anchor, words, font, colour);
    };
    let y = area.top() + LINE / 2.0;
    let head = |place: usize| {
        let column = &table.columns[place];
        let frame = column.frame.of(&shown.findings().frames);
        match frame {
            Some(f) if !column.is_difference => {
                (format!("{} {}", f.letter, f.size_label()), tones.colour(Role::FrameLetter(column.frame)))
            }
            _ => (column.title.clone(), tones.second()),
        }
    };
    let places: Vec<usize> =
        std::iter::once(columns.reference).chain(columns.other.into_iter().flat_map(|(a, b)| [a, b])).collect();
    for (column, place) in places.iter().enumerate() {
        let (words, colour) = head(*place);
        let words = cut(ui, &words, area.width() * 0.2);
        text(pos2(right_of(column), y), Align2::RIGHT_CENTER, &words, semibold(SMALL), colour);
    }
    for (line, subject) in FIGURES.iter().skip(side).step_by(2).enumerate() {
        let Some(row) = table.rows.iter().find(|r| r.subject == *subject) else { continue };
        let y = area.top() + LINE * (line as f32 + 1.5);
        ui.painter().hline(area.x_range(), y - LINE / 2.0, (1.0, tones.hairline()));
        let label = if row.unit == "°" { row.label.to_owned() } else { format!("{}, {}", row.label, row.unit) };
        let label = cut(ui, &label, area.width() * 0.36);
        text(pos2(area.left(), y), Align2::LEFT_CENTER, &label, regular(BODY), tones.ink());
        let mut said = Vec::new();
        for (column, place) in places.iter().enumerate() {
            let Some(cell) = row.cells.get(*place) else { continue };
            let words = cell_words(cell, row.unit);
            // Words are longer than numbers, and the columns stand close.
            let size = if cell.value.is_some() { BODY } else { SMALL };
            text(pos2(right_of(column), y), Align2::RIGHT_CENTER, &words, regular(size), cell_colour(cell, tones));
            said.push(format!("{} {words}", table.columns[*place].title));
        }
        let line_rect = Rect::from_min_max(pos2(area.left(), y - LINE / 2.0), pos2(area.right(), y + LINE / 2.0));
        let response = ui.interact(line_rect, ui.scope_id().with((side, line)), Sense::hover());
        response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, format!("{}: {}", row.label, said.join("; "))));
        response.on_hover_ui(|ui| {
            ui.label(meaning(*subject));
            let Subject::Figure(figure) = subject else { return };
            let frames = places.iter().map(|place| &table.columns[*place]).filter(|column| !column.is_difference);
            for column in frames {
                if let Some(placing) = placing_text(shown.findings(), column.frame, &[*figure]) {
                    let letter = column.frame.of(&shown.findings().frames).map_or("", |f| f.letter.as_str());
                    ui.label(labels::placed(&letter, &placing));
                }
            }
        });
    }
}

/// A cell's words, with the degree sign that its column's unit asks for.
pub(crate) fn cell_words(cell: &Cell, unit: &str) -> String {
    if unit == "°" && cell.value.is_some() { format!("{}°", cell.text) } else { cell.text.clone() }
}

/// Ink, or grey where the ± covers a difference or nothing is known.
pub(crate) fn cell_colour(cell: &Cell, tones: Tones) -> egui::Color32 {
    if cell.mark.is_grey() { tones.grey() } else { tones.ink() }
}

/// Text cut with an ellipsis to a width.
fn cut(ui: &Ui, words: &str, width: f32) -> String {
    beginning(words, |text| {
        ui.painter().layout_no_wrap(text.to_owned(), regular(BODY), egui::Color32::PLACEHOLDER).size().x <= width
    })
}

/// The words, or their longest beginning that fits with an ellipsis. Layout is slow, so few texts are tried.
fn beginning(words: &str, fits: impl Fn(&str) -> bool) -> String {
    if fits(words) {
        return words.to_owned();
    }
    // The longer the beginning, the wider: half of what is left is ruled out at each try.
    let begins = |end: usize| format!("{}…", words.get(..end).unwrap_or_default().trim_end());
    let ends: Vec<usize> = words.char_indices().map(|(end, _)| end).collect();
    let kept = ends.partition_point(|end| fits(&begins(*end)));
    begins(kept.checked_sub(1).and_then(|last| ends.get(last)).copied().unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;

    #[test]
    fn the_longest_beginning_that_fits_is_kept_and_few_are_tried() {
        let tries = Cell::new(0);
        let within = |most: usize| {
            let tries = &tries;
            move |text: &str| {
                tries.set(tries.get() + 1);
                text.chars().count() <= most
            }
        };
        for (words, most, kept) in [
            ("Drift", 5, "Drift"),
            ("Drift", 4, "Dri…"),
            ("Drift", 1, "…"),
            ("Drift", 0, "…"),
            ("Dr ift", 4, "Dr…"),
            ("Žluťoučký", 6, "Žluťo…"),
            ("", 0, ""),
        ] {
            assert_eq!(beginning(words, within(most)), kept, "{words} in {most}");
        }
        tries.set(0);
        assert_eq!(beginning(&"x".repeat(10_000), within(37)).chars().count(), 37);
        assert!(tries.get() < 20, "{} layouts", tries.get());
    }
}
