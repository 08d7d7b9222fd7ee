//! The Trust view: the selected frame's figures as printed and as adjusted; for the chosen one where its ± comes from,
//! what would narrow it, what the others expect, and what would change without it; and what nothing determines.

use egui::{Align2, Id, RichText, ScrollArea, Sense, Ui, pos2, vec2};

use super::super::app::Shown;
use super::super::canvas::{kept, tell};
use super::super::edits::Edit;
use super::super::entry::Entry;
use super::super::requests::{Request, Requests};
use super::super::theme::{BODY, SMALL, Tones, regular, semibold};
use super::View;
use super::figures::paint_mark;
use crate::drawing::Role;
use crate::frameset::Figure;
use crate::geometry::settled_by;
use crate::lineup::FrameFindings;
use crate::units::System;
use crate::words::trust::{Budget, WithAndWithout, budget_in_words, set_aside, suspect_sentence, without};
use crate::words::{Mark, PrintedCell, PrintedRow, plus_minus_alone, printed_table};

/// Its name.
pub(crate) const LABEL: &str = "Trust";
const LINE: f32 = 22.0;

/// The view.
pub(crate) struct Trust;

/// What is shown of one figure; kept while neither the document nor the choice changes.
#[derive(Clone)]
struct Findings {
    rows: Vec<PrintedRow>,
    budget: Option<Budget>,
    suspect: Option<String>,
    without: Vec<WithAndWithout>,
    settled: Vec<String>,
}

impl View for Trust {
    fn label(&self) -> &'static str {
        LABEL
    }

    fn tooltip(&self) -> &'static str {
        "Which figures of the selected frame to believe, where each ± comes from, and what to measure next."
    }

    fn tools_ui(&self, _ui: &mut Ui, _shown: Shown<'_>, _out: &mut Requests) {}

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _index: usize, out: &mut Requests) {
        tell(ui.ctx(), None);
        let tones = Tones::of(ui);
        let Some(frame) = shown.findings().frames.get(shown.moment.selected) else { return };
        let figure = shown.moment.figure;
        let key = (shown.document.revision(), shown.moment.selected, figure);
        let found = kept(ui, Id::unique("trust findings"), key, || findings(frame, figure, shown.lineup().settings.units));
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
    let chosen = frames.get(shown.moment.selected).map(words).unwrap_or_default();
    let combo = egui::ComboBox::from_id_salt("frame shown").width(220.0).selected_text(chosen).truncate().show_ui(ui, |ui| {
        for (index, frame) in frames.iter().enumerate() {
            if ui.selectable_label(index == shown.moment.selected, words(frame)).clicked() {
                out.push(Request::Select(index));
            }
        }
    });
    super::super::named::named(&combo.response, "Frame shown");
}

fn findings(frame: &FrameFindings, figure: Figure, units: System) -> Findings {
    let size = frame.as_drawn.sizes.get(frame.size);
    let printed = frame.frameset.sizes.get(frame.size);
    let settled = match (printed, size) {
        (Some(printed), Some(size)) => settled_by(&frame.frameset, printed, size).iter().map(settled_sentence).collect(),
        _ => Vec::new(),
    };
    let is_printed = printed.is_some_and(|p| p.believed(figure).is_some());
    Findings {
        rows: printed_table(&frame.frameset, &frame.as_drawn, units).rows,
        budget: budget_in_words(frame, figure, units),
        suspect: size.and_then(|s| s.suspect(figure)).map(|s| suspect_sentence(s, units)),
        without: if is_printed { without(frame, figure) } else { Vec::new() },
        settled,
    }
}

fn settled_sentence(missing: &crate::geometry::Missing) -> String {
    let sets: Vec<String> =
        missing.sets.iter().map(|set| set.iter().map(|f| f.label().to_lowercase()).collect::<Vec<_>>().join(" and ")).collect();
    if sets.is_empty() {
        return format!("{}: not even two further figures would settle it.", missing.figure.label());
    }
    format!("{}: settled by {}.", missing.figure.label(), sets.join(", or by "))
}

fn list_ui(ui: &mut Ui, rows: &[PrintedRow], frame: &FrameFindings, chosen: Figure, tones: Tones, out: &mut Requests) {
    let width = ui.available_width();
    let rights = [width * 0.60, width * 0.97];
    let (head, _) = ui.allocate_exact_size(vec2(width, LINE), Sense::hover());
    for (right, words) in rights.iter().zip(["printed", "adjusted"]) {
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
            let Some(cell) = row.cells.get(frame.size) else { continue };
            line_ui(ui, row.figure, cell, rights, row.figure == chosen, tones, out);
        }
    });
}

fn line_ui(ui: &mut Ui, figure: Figure, cell: &PrintedCell, rights: [f32; 2], is_chosen: bool, tones: Tones, out: &mut Requests) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), LINE), Sense::click());
    if is_chosen {
        ui.painter().rect_filled(rect, 2.0, tones.panel());
        ui.painter().vline(rect.left() + 1.0, rect.y_range(), (2.0, tones.ink()));
    } else if response.hovered() || response.has_focus() {
        ui.painter().rect_filled(rect, 2.0, tones.faded(Role::Panel, 0.6));
    }
    let colour = if cell.mark.is_grey() { tones.grey() } else { tones.ink() };
    let font = if cell.mark == Mark::Doubted { semibold(BODY) } else { regular(BODY) };
    let y = rect.center().y;
    paint_mark(ui.painter(), pos2(rect.left() + 14.0, y), cell.mark, colour, tones);
    ui.painter().text(pos2(rect.left() + 26.0, y), Align2::LEFT_CENTER, figure.label(), font, colour);
    let unit = if figure.is_angle() && !cell.printed.is_empty() { "°" } else { "" };
    let printed = format!("{}{unit}", cell.printed);
    let place = ui.painter().text(pos2(rect.left() + rights[0], y), Align2::RIGHT_CENTER, printed, regular(BODY), tones.ink());
    if cell.set_aside.is_some() {
        ui.painter().hline(place.x_range(), y, (1.2, tones.ink()));
    }
    ui.painter().text(pos2(rect.left() + rights[1], y), Align2::RIGHT_CENTER, &cell.adjusted, regular(BODY), colour);
    ui.painter().hline(rect.x_range(), rect.bottom(), (1.0, tones.hairline()));
    response.widget_info(|| {
        let printed = if cell.printed.is_empty() { "not printed".to_owned() } else { format!("printed {}", cell.printed) };
        let words = format!("{}: {printed}, adjusted {}, {}", figure.label(), cell.adjusted, cell.mark.meaning());
        egui::WidgetInfo::selected(egui::Role::ListItem, true, is_chosen, words)
    });
    if response.clicked() {
        out.push(Request::Figure(figure));
    }
    response.on_hover_text(format!("{} {}", figure.meaning(), cell.note));
}

fn words_ui(ui: &mut Ui, shown: Shown<'_>, frame: &FrameFindings, found: &Findings, tones: Tones, out: &mut Requests) {
    let figure = shown.moment.figure;
    ui.label(RichText::new(figure.label()).heading());
    ui.label(RichText::new(figure.meaning()).color(tones.second()));
    ui.add_space(8.0);
    match &found.budget {
        Some(budget) => budget_ui(ui, budget, tones),
        None => {
            ui.label("Nothing determines it: its ± would be larger than 30 mm or 6°, so no number is shown.");
        }
    }
    if let Some(sentence) = &found.suspect {
        ui.add_space(10.0);
        ui.label(RichText::new("In doubt").strong());
        ui.label(sentence);
    }
    aside_ui(ui, shown, frame, figure, out);
    without_ui(ui, shown, found, figure, tones);
    overview_ui(ui, shown, frame, found, tones, out);
}

/// The budget as a bar and a list, and the sentence that follows.
fn budget_ui(ui: &mut Ui, budget: &Budget, tones: Tones) {
    ui.label(&budget.sentence);
    ui.add_space(6.0);
    let (bar, response) = ui.allocate_exact_size(vec2(ui.available_width().min(560.0), 16.0), Sense::hover());
    let mut left = bar.left();
    for (index, part) in budget.parts.iter().enumerate() {
        let right = left + bar.width() * part.share as f32;
        let piece = egui::Rect::from_min_max(pos2(left, bar.top()), pos2(right.min(bar.right()), bar.bottom()));
        ui.painter().rect_filled(piece, 0.0, tones.faded(Role::SecondInk, 0.85 / (1.0 + index as f64 * 0.6)));
        if part.is_assumption {
            hatch(ui, piece, tones);
        }
        ui.painter().vline(piece.right(), piece.y_range(), (1.0, tones.paper()));
        left = right;
    }
    ui.painter().rect_stroke(bar, 0.0, (1.0, tones.second()), egui::StrokeKind::Inside);
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::Image, true, format!("Where the ± comes from. {}", budget.sentence))
    });
    response.on_hover_text("Shares of the squared ±. Hatched: an assumption; plain: rounding of something printed.");
    ui.add_space(4.0);
    for part in &budget.parts {
        let percent = if part.share < 0.01 { "< 1".to_owned() } else { format!("{:.0}", part.share * 100.0) };
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 12.0;
            let right = egui::Layout::right_to_left(egui::Align::Min);
            ui.allocate_ui_with_layout(vec2(34.0, 0.0), right, |ui| {
                ui.set_min_width(34.0);
                ui.label(format!("{percent}\u{2009}%"));
            });
            let colour = if part.is_assumption { tones.ink() } else { tones.second() };
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

/// Setting the figure aside with a reason, or taking it back in.
fn aside_ui(ui: &mut Ui, shown: Shown<'_>, frame: &FrameFindings, figure: Figure, out: &mut Requests) {
    let Some(size) = frame.frameset.sizes.get(frame.size) else { return };
    if !size.figures.contains_key(&figure) {
        return;
    }
    let selected = shown.moment.selected;
    let change = |reason: Option<&str>, what: &str| Edit::Frameset {
        frame: selected,
        frameset: set_aside(&frame.frameset, frame.size, figure, reason),
        what: format!("{what} {} of {}", figure.label().to_lowercase(), frame.letter),
        field: None,
    };
    ui.add_space(10.0);
    ui.horizontal_wrapped(|ui| {
        if let Some(reason) = size.set_aside.get(&figure) {
            ui.label(format!("Set aside: {reason}."));
            if ui.button("Take back in").on_hover_text("The figure counts again.").clicked() {
                out.edit(change(None, "taking back in"));
            }
        } else {
            ui.label("Do not believe it:");
            let entry = Entry {
                id: Id::unique(("reason", selected, figure as usize)),
                name: "Reason for setting it aside",
                current: String::new(),
                hint: "reason, then Enter",
                width: 220.0,
            };
            let (field, entered) = entry.show(ui, |text| match text.trim() {
                "" => Err("write why; the reason stays in the file".to_owned()),
                reason => Ok(reason.to_owned()),
            });
            field.on_hover_text("The figure stays in the file and out of the arithmetic; undo brings it back.");
            if let Some(reason) = entered {
                out.edit(change(Some(&reason), "setting aside"));
            }
        }
    });
}

fn without_ui(ui: &mut Ui, shown: Shown<'_>, found: &Findings, figure: Figure, tones: Tones) {
    if found.without.is_empty() {
        return;
    }
    let units = shown.lineup().settings.units;
    ui.add_space(10.0);
    egui::CollapsingHeader::new(format!("With and without the printed {}", figure.label().to_lowercase()))
        .id_salt("with and without")
        .default_open(found.suspect.is_some())
        .show(ui, |ui| {
            egui::Grid::new("without").num_columns(3).spacing([22.0, 3.0]).show(ui, |ui| {
                for head in ["", "with it", "without it"] {
                    ui.label(RichText::new(head).size(SMALL).color(tones.second()));
                }
                ui.end_row();
                for change in &found.without {
                    let quantity = change.figure.quantity();
                    let words = |value| units.text(quantity, value);
                    ui.label(change.figure.label());
                    ui.label(words(change.with));
                    match change.without {
                        Some(value) => ui.label(words(value)),
                        None => ui.label(RichText::new("not determined").color(tones.grey())),
                    };
                    ui.end_row();
                }
            });
        });
}

/// All suspects of the size, what is missing, and the step that everything was printed to.
fn overview_ui(ui: &mut Ui, shown: Shown<'_>, frame: &FrameFindings, found: &Findings, tones: Tones, out: &mut Requests) {
    let Some(size) = frame.as_drawn.sizes.get(frame.size) else { return };
    let units = shown.lineup().settings.units;
    ui.add_space(14.0);
    ui.separator();
    ui.label(RichText::new(format!("{} {}, size {}", frame.letter, frame.name, size.label)).strong());
    if let Some(sentence) = frame.as_drawn.unsettled() {
        ui.label(sentence);
    }
    if size.suspects.is_empty() {
        let tested = frame.as_drawn.tested;
        ui.label(format!("No printed figure contradicts the others; {tested} were tested over all sizes."));
    } else {
        ui.label("A wrong figure throws suspicion on its neighbours. Strongest first:");
        for suspect in &size.suspects {
            let words = format!(
                "{}: printed {}, expected {}",
                suspect.figure.label(),
                crate::words::shortest(suspect.printed),
                expected(suspect, units)
            );
            if ui.link(words).on_hover_text(suspect_sentence(suspect, units)).clicked() {
                out.push(Request::Figure(suspect.figure));
            }
        }
    }
    if !found.settled.is_empty() {
        ui.add_space(8.0);
        ui.label(RichText::new("Not determined").strong());
        for sentence in &found.settled {
            ui.label(RichText::new(sentence).color(tones.second()));
        }
    }
    ui.add_space(8.0);
    let to = frame.frameset.printed_to;
    ui.label(
        RichText::new(format!(
            "Printed to {}\u{2009}mm and {}°. The ± is two standard uncertainties; rounding of {}\u{2009}mm alone leaves {}.",
            crate::words::shortest(to.mm),
            crate::words::shortest(to.deg),
            crate::words::shortest(to.mm),
            plus_minus_alone(Figure::Stack, crate::geometry::u_of_step(to.mm), units)
        ))
        .size(SMALL)
        .color(tones.second()),
    );
}

fn expected(suspect: &crate::geometry::Suspect, units: System) -> String {
    units.text(suspect.figure.quantity(), suspect.expected())
}
