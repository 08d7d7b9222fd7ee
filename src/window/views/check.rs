//! The Check view: the selected frame's figures as published and as best estimates; for the chosen one where its ± comes
//! from, what would narrow it, what the other figures give, and what would change without it; and which are unknown.

use egui::{Align2, Id, Rect, RichText, ScrollArea, Sense, Ui, pos2, vec2};

use super::super::canvas::{kept, tell};
use super::super::labels::check as labels;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::{BODY, SMALL, Tones, regular, semibold};
use super::all_figures::paint_mark;
use super::check_slips::slips_ui;
use super::decisions::{Decided, decisions_ui};
use super::edited_frameset::Sheet;
use super::{View, ViewId};
use crate::drawing::Role;
use crate::frameset::{Figure, FigureUse, FrameIndex};
use crate::lineup::{FigureCheck, FrameFindings, UncertaintyBudget};
use crate::units::{capitalised, lower_first, per_cent};
use crate::words::check::{budget_lines, budget_text, steps_text, unknown_needs, unknown_reason, unknown_texts};
use crate::words::{Mark, PublishedCell, PublishedRow, UNKNOWN, doubt_text, placing_text, published_table};

const LINE: f32 = 22.0;

/// The Check view.
pub(crate) struct Check;

/// What is shown of one figure; kept while neither the document nor the choice changes.
#[derive(Clone)]
struct Shows {
    rows: Vec<PublishedRow>,
    /// Where the chosen figure stands among the other frames.
    placing: Option<String>,
    check: Option<FigureCheck>,
    unknown: Vec<String>,
}

impl View for Check {
    fn tools_ui(&self, _ui: &mut Ui, _shown: Shown<'_>, _out: &mut Requests) {}

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        tell(ui.ctx(), None);
        let tones = Tones::of(ui);
        let Some(frame) = shown.moment.selected.of(&shown.findings().frames) else { return };
        let figure = shown.moment.figure;
        let key = (shown.document.revision(), shown.moment.selected, figure);
        let found = kept(ui, Id::unique("trust findings"), key, || shows(shown, frame, figure));
        let paper = egui::Frame::NONE.inner_margin(egui::Margin::symmetric(16, 10));
        let width = (ui.available_width() * 0.46).clamp(380.0, 560.0);
        egui::Panel::left("trust figures").exact_size(width).resizable(false).frame(paper).show(ui, |ui| {
            ui.horizontal(|ui| frame_picker_ui(ui, shown, out));
            ui.add_space(4.0);
            list_ui(ui, &found.rows, frame, figure, tones, out);
        });
        egui::CentralPanel::default().frame(paper).show(ui, |ui| {
            ScrollArea::vertical().id_salt("trust words").auto_shrink([false, false]).show(ui, |ui| {
                words_ui(ui, shown, frame, &found, tones, out);
            });
        });
    }
}

/// A picker of the selected frame.
pub(crate) fn frame_picker_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let frames = &shown.findings().frames;
    let words = |f: &FrameFindings| format!("{} {} {}", f.letter, f.name, f.size_label());
    let chosen = shown.moment.selected.of(frames).map(words).unwrap_or_default();
    let combo = egui::ComboBox::from_id_salt("frame shown").width(220.0).selected_text(chosen).truncate().show_ui(ui, |ui| {
        for (index, frame) in FrameIndex::numbered(frames) {
            if ui.selectable_label(index == shown.moment.selected, words(frame)).clicked() {
                out.push(Request::Select(index));
            }
        }
    });
    super::super::named::named(&combo.response, labels::FRAME_SHOWN);
}

fn shows(shown: Shown<'_>, frame: &FrameFindings, figure: Figure) -> Shows {
    Shows {
        rows: published_table(&frame.frameset, &frame.as_published, shown.lineup().settings.units).rows,
        placing: placing_text(shown.findings(), shown.moment.selected, &[figure]),
        check: shown.findings().check(shown.moment.selected, figure),
        unknown: unknown_texts(&frame.unknown()),
    }
}

fn list_ui(ui: &mut Ui, rows: &[PublishedRow], frame: &FrameFindings, chosen: Figure, tones: Tones, out: &mut Requests) {
    let width = ui.available_width();
    let rights = [width * 0.74, width * 0.98];
    let (head, _) = ui.allocate_exact_size(vec2(width, LINE), Sense::hover());
    for (right, words) in rights.iter().zip([labels::PUBLISHED, labels::BEST_ESTIMATE]) {
        ui.painter().text(
            pos2(head.left() + right, head.center().y),
            Align2::RIGHT_CENTER,
            words,
            regular(SMALL),
            tones.second(),
        );
    }
    ui.painter().hline(head.x_range(), head.bottom(), (1.0, tones.second()));
    ScrollArea::vertical().id_salt("trust list").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for row in rows {
            let Some(cell) = row.cells.get(frame.size.0) else { continue };
            line_ui(ui, row, cell, rights, row.figure == chosen, tones, out);
        }
    });
}

fn line_ui(
    ui: &mut Ui,
    row: &PublishedRow,
    cell: &PublishedCell,
    rights: [f32; 2],
    is_chosen: bool,
    tones: Tones,
    out: &mut Requests,
) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), LINE), Sense::click());
    if is_chosen {
        ui.painter().rect_filled(rect, 2.0, tones.panel());
        ui.painter().vline(rect.left() + 1.0, rect.y_range(), (2.0, tones.ink()));
    } else if response.hovered() || response.has_focus() {
        ui.painter().rect_filled(rect, 2.0, tones.faded(Role::Panel, 0.6));
    }
    let colour = if cell.mark.is_grey() { tones.grey() } else { tones.ink() };
    let font = if cell.mark == Mark::Doubtful { semibold(BODY) } else { regular(BODY) };
    let y = rect.center().y;
    paint_mark(ui.painter(), pos2(rect.left() + 14.0, y), cell.mark, colour, tones);
    let figure = row.figure;
    let name_with_unit = labels::figure_in(&figure.label(), &row.unit);
    let place =
        ui.painter().text(pos2(rect.left() + rights[0], y), Align2::RIGHT_CENTER, &cell.printed, regular(BODY), tones.ink());
    let name = Rect::from_min_max(
        pos2(rect.left() + 26.0, rect.top()),
        pos2(place.left().min(rect.left() + rights[0]) - 8.0, rect.bottom()),
    );
    let decided = match (&cell.figure_use, &cell.measured) {
        (Some(FigureUse::Anyway), None) => labels::USED_ANYWAY,
        (Some(FigureUse::Anyway), Some(_)) => labels::USED_ANYWAY_MEASURED,
        (_, Some(_)) => labels::MEASURED,
        (_, None) => "",
    };
    let label = egui::WidgetText::from(RichText::new(format!("{name_with_unit}{decided}")).font(font).color(colour));
    let label = label.into_galley(ui, Some(egui::TextWrapMode::Truncate), name.width(), egui::TextStyle::Body);
    ui.painter().galley(pos2(name.left(), y - label.size().y / 2.0), label, colour);
    if matches!(cell.figure_use, Some(FigureUse::Ignored(_))) {
        ui.painter().hline(place.x_range(), y, (1.2, tones.ink()));
    }
    ui.painter().text(pos2(rect.left() + rights[1], y), Align2::RIGHT_CENTER, &cell.adjusted, regular(BODY), colour);
    ui.painter().hline(rect.x_range(), rect.bottom(), (1.0, tones.hairline()));
    response.widget_info(|| {
        let printed = if cell.printed.is_empty() { labels::NOT_PUBLISHED.to_owned() } else { labels::published(&cell.printed) };
        let words = labels::best_estimate(&name_with_unit, &printed, &cell.adjusted, &cell.mark.meaning());
        egui::WidgetInfo::selected(egui::Role::ListItem, true, is_chosen, words)
    });
    if response.clicked() {
        out.push(Request::Figure(figure));
    }
    response.on_hover_text(format!("{} {}", figure.meaning(), cell.note));
}

fn words_ui(ui: &mut Ui, shown: Shown<'_>, frame: &FrameFindings, found: &Shows, tones: Tones, out: &mut Requests) {
    let figure = shown.moment.figure;
    let decided = slips_ui(ui, shown, frame, tones, out);
    ui.label(RichText::new(figure.label()).heading());
    ui.label(RichText::new(figure.meaning()).color(tones.second()));
    ui.add_space(8.0);
    let units = shown.lineup().settings.units;
    match found.check.as_ref().and_then(|c| c.budget.as_ref()) {
        Some(budget) => budget_ui(ui, budget, &budget_text(budget, units), tones),
        None => {
            ui.label(unknown_reason(figure, units));
        }
    }
    if let Some(placing) = &found.placing {
        ui.label(placing);
    }
    if let Some(missing) = found.check.as_ref().and_then(|c| c.needs.as_ref()) {
        ui.label(format!("{}.", capitalised(&unknown_needs(missing))));
    }
    if let Some(doubt) = found.check.as_ref().and_then(|c| c.doubt.as_ref()) {
        ui.add_space(10.0);
        ui.label(RichText::new(labels::DOUBTFUL_FIGURE).strong());
        ui.label(doubt_text(doubt, units));
    }
    if decided != Some(figure) {
        figure_ui(ui, shown, frame, figure, tones, out);
    }
    without_ui(ui, shown, found, figure, tones);
    overview_ui(ui, shown, frame, found, tones);
}

/// The budget as sentences, a bar and a list.
fn budget_ui(ui: &mut Ui, budget: &UncertaintyBudget, text: &str, tones: Tones) {
    let lines = budget_lines(budget);
    ui.label(text);
    ui.add_space(6.0);
    let (bar, response) = ui.allocate_exact_size(vec2(ui.available_width().min(560.0), 16.0), Sense::hover());
    let mut left = bar.left();
    for (index, part) in lines.iter().enumerate() {
        let right = left + bar.width() * part.share as f32;
        let piece = egui::Rect::from_min_max(pos2(left, bar.top()), pos2(right.min(bar.right()), bar.bottom()));
        ui.painter().rect_filled(piece, 0.0, tones.faded(Role::SecondInk, 0.85 / (1.0 + index as f64 * 0.6)));
        if part.is_assumed {
            hatch(ui, piece, tones);
        }
        ui.painter().vline(piece.right(), piece.y_range(), (1.0, tones.paper()));
        left = right;
    }
    ui.painter().rect_stroke(bar, 0.0, (1.0, tones.second()), egui::StrokeKind::Inside);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, labels::where_the_plus_minus_comes_from(&text)));
    response.on_hover_text(labels::BARS_OF_UNCERTAINTY);
    ui.add_space(4.0);
    for part in &lines {
        let percent = if part.share < 0.01 { "< 1".to_owned() } else { format!("{:.0}", part.share * 100.0) };
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 12.0;
            let right = egui::Layout::right_to_left(egui::Align::Min);
            ui.allocate_ui_with_layout(vec2(34.0, 0.0), right, |ui| {
                ui.set_min_width(34.0);
                ui.label(per_cent(&percent));
            });
            let colour = if part.is_assumed { tones.ink() } else { tones.second() };
            ui.add(egui::Label::new(RichText::new(&part.label).color(colour)).wrap());
        });
    }
}

fn hatch(ui: &Ui, rect: egui::Rect, tones: Tones) {
    let painter = ui.painter().with_clip_rect(rect);
    let mut x = rect.left() - rect.height();
    while x < rect.right() {
        painter.line_segment([pos2(x, rect.bottom()), pos2(x + rect.height(), rect.top())], (1.0, tones.paper()));
        x += 6.0;
    }
}

/// What the user decides about the chosen figure, where a file may publish it.
fn figure_ui(ui: &mut Ui, shown: Shown<'_>, frame: &FrameFindings, figure: Figure, tones: Tones, out: &mut Requests) {
    if !figure.about().in_files {
        return;
    }
    let units = shown.lineup().settings.units;
    let sheet = Sheet { frame: shown.moment.selected, letter: &frame.letter, frameset: &frame.frameset, units };
    let cell = (frame.size, figure);
    ui.add_space(10.0);
    decisions_ui(ui, sheet, Decided { cells: &[cell], measured: cell }, None, tones, out);
}

fn without_ui(ui: &mut Ui, shown: Shown<'_>, found: &Shows, figure: Figure, tones: Tones) {
    let Some(check) = found.check.as_ref().filter(|c| !c.without.is_empty()) else { return };
    let units = shown.lineup().settings.units;
    ui.add_space(10.0);
    egui::CollapsingHeader::new(labels::with_and_without_the_published(&lower_first(figure.label())))
        .id_salt("with and without")
        .default_open(check.doubt.is_some())
        .show(ui, |ui| {
            egui::Grid::new("without").num_columns(3).spacing([22.0, 3.0]).show(ui, |ui| {
                for head in ["", labels::WITH_IT, labels::WITHOUT_IT] {
                    ui.label(RichText::new(head).size(SMALL).color(tones.second()));
                }
                ui.end_row();
                for change in &check.without {
                    let quantity = change.figure.quantity();
                    let words = |value| units.text(quantity, value);
                    ui.label(change.figure.label());
                    ui.label(words(change.with));
                    match change.without {
                        Some(value) => ui.label(words(value)),
                        None => ui.label(RichText::new(UNKNOWN).color(tones.grey())),
                    };
                    ui.end_row();
                }
            });
        });
}

/// What is unknown, and the step to which everything is published.
fn overview_ui(ui: &mut Ui, shown: Shown<'_>, frame: &FrameFindings, found: &Shows, tones: Tones) {
    let Some(size) = frame.size.of(&frame.as_published.sizes) else { return };
    let units = shown.lineup().settings.units;
    ui.add_space(14.0);
    ui.separator();
    ui.label(RichText::new(labels::size(&frame.letter, &frame.name, &size.label)).strong());
    if size.doubts.is_empty() {
        ui.label(labels::NO_FIGURE_IS_DOUBTFUL);
    }
    if !found.unknown.is_empty() {
        ui.add_space(8.0);
        ui.label(RichText::new(labels::UNKNOWN_FIGURES).strong());
        for sentence in &found.unknown {
            ui.label(RichText::new(sentence).color(tones.second()));
        }
    }
    ui.add_space(8.0);
    ui.label(RichText::new(steps_text(frame.frameset.rounded_to, units)).size(SMALL).color(tones.second()));
}
