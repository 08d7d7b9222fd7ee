//! What is perhaps wrong with a table, in Check: each possible error with its chance as a bar, the best first; the one that
//! is pointed at, or chosen by keyboard, is drawn both ways, with what can be decided about it.

use egui::{Id, Rect, RichText, Sense, TextStyle, TextWrapMode, Ui, WidgetText, pos2, vec2};

use super::super::canvas::{Field, kept};
use super::super::labels::check as labels;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::{SMALL, Tones};
use super::decisions::{Decided, decisions_ui, stated_ui};
use super::edited_frameset::Sheet;
use crate::drawing::both_ways_scene;
use crate::frameset::{Figure, SizeIndex};
use crate::geometry::{Assumption, OtherWay, Slip};
use crate::lineup::FrameFindings;
use crate::units::lower_first;
use crate::words::{no_fit, settling_text, several_wrong_text, slip_text, stated_label};

/// Width of a bar, points.
const BAR: f32 = 80.0;

/// The errors, the drawing of the chosen one, and what can be decided about it; nothing where nothing seems wrong. Gives the
/// figure of the chosen size whose choices stand here.
pub(crate) fn slips_ui(ui: &mut Ui, shown: Shown<'_>, frame: &FrameFindings, tones: Tones, out: &mut Requests) -> Option<Figure> {
    let slips = frame.as_published.listed_slips();
    if let Some(sentence) = no_fit(&frame.as_published).or(several_wrong_text(slips)) {
        ui.label(RichText::new(sentence).strong());
    }
    if slips.is_empty() {
        return None;
    }
    ui.label(RichText::new(labels::POSSIBLE_ERRORS_IN_THE_TABLE).heading());
    let selected = shown.moment.selected;
    let chosen = shown.moment.slip.filter(|(of, _)| *of == selected).map_or(0, |(_, slip)| slip).min(slips.len() - 1);
    ui.spacing_mut().item_spacing.y = 2.0;
    for (place, slip) in slips.iter().enumerate() {
        line_ui(ui, shown, frame, (place, slip), place == chosen, tones, out);
    }
    ui.spacing_mut().item_spacing.y = 6.0;
    if let Some(settling) = &frame.as_published.settling {
        ui.label(settling_text(settling, &frame.as_published.size_labels()));
    }
    let slip = slips.get(chosen)?;
    drawing_ui(ui, shown, frame, chosen, tones);
    let units = shown.lineup().settings.units;
    let sheet = Sheet { frame: selected, letter: &frame.letter, frameset: &frame.frameset, units };
    if let Some(convention) = slip.other_way.map(OtherWay::ruled_out_by) {
        stated_ui(ui, sheet, convention, &labels::stated_by_the_maker(&lower_first(stated_label(convention))), out);
    }
    let cells: Vec<(SizeIndex, Figure)> = slip.cells.iter().map(|c| (c.size, c.figure)).collect();
    let measured = measured_cell(slip, frame.size);
    if let Some(measured) = measured {
        decisions_ui(ui, sheet, Decided { cells: &cells, measured }, None, tones, out);
    }
    ui.add_space(6.0);
    ui.separator();
    measured.filter(|(size, _)| *size == frame.size && cells.len() <= 1).map(|(_, figure)| figure)
}

/// The figure that a measurement would settle: the slip’s own, in the chosen size where that has it.
fn measured_cell(slip: &Slip, chosen: SizeIndex) -> Option<(SizeIndex, Figure)> {
    match slip.assumption {
        Some((Assumption::LowerHeadset, _)) => Some((chosen, Figure::LowerHeadset)),
        Some((Assumption::SeatTubeSetback, _)) => Some((chosen, Figure::SeatTubeSetback)),
        Some(_) => None,
        None => slip.cells.iter().find(|c| c.size == chosen).or(slip.cells.first()).map(|own| (own.size, own.figure)),
    }
}

fn line_ui(
    ui: &mut Ui,
    shown: Shown<'_>,
    frame: &FrameFindings,
    (place, slip): (usize, &Slip),
    is_chosen: bool,
    tones: Tones,
    out: &mut Requests,
) {
    let text = slip_text(slip, &frame.as_published.size_labels(), shown.lineup().settings.units);
    let width = ui.available_width();
    let words = WidgetText::from(RichText::new(&text).color(tones.ink()));
    let words = words.into_galley(ui, Some(TextWrapMode::Wrap), width - BAR - 26.0, TextStyle::Body);
    let (rect, response) = ui.allocate_exact_size(vec2(width, words.size().y + 6.0), Sense::click());
    if is_chosen {
        ui.painter().rect_filled(rect, 2.0, tones.panel());
        ui.painter().vline(rect.left() + 1.0, rect.y_range(), (2.0, tones.ink()));
    }
    if response.has_focus() {
        ui.painter().rect_stroke(rect, 2.0, (1.0, tones.second()), egui::StrokeKind::Inside);
    }
    let bar = Rect::from_min_size(pos2(rect.left() + 8.0, rect.top() + 8.0), vec2(BAR, 9.0));
    ui.painter().rect_filled(bar, 0.0, tones.hairline());
    let filled = Rect::from_min_max(bar.min, pos2(bar.left() + bar.width() * slip.chance as f32, bar.bottom()));
    ui.painter().rect_filled(filled, 0.0, tones.second());
    ui.painter().galley(pos2(bar.right() + 12.0, rect.top() + 3.0), words, tones.ink());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::ListItem, true, is_chosen, &text));
    let is_pointed_at = response.hovered() && ui.input(|i| i.pointer.is_moving());
    if !is_chosen && (is_pointed_at || response.gained_focus() || response.clicked()) {
        out.push(Request::Slip(place));
    }
    if let (true, Some(cell)) = (response.clicked(), slip.cells.first()) {
        out.push(Request::Figure(cell.figure));
    }
}

fn drawing_ui(ui: &mut Ui, shown: Shown<'_>, frame: &FrameFindings, slip: usize, tones: Tones) {
    let selected = shown.moment.selected;
    let key = (shown.document.revision(), selected, slip);
    let both = kept(ui, Id::unique("frame both ways"), key, || shown.findings().both_ways(selected, slip));
    let Some(both) = both.as_ref() else {
        ui.label(RichText::new(labels::NO_FIGURE_CHANGES).size(SMALL).color(tones.second()));
        return;
    };
    let width = ui.available_width();
    let field = Field::of_size(ui, Id::unique("both ways"), vec2(width, (0.52 * width).clamp(220.0, 360.0)));
    let scene = kept(ui, Id::unique("both ways scene"), (key, field.page), || {
        both_ways_scene(frame, selected, both, shown.lineup().settings.units, field.page)
    });
    field.show(ui, &scene, tones);
}
