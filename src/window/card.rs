//! One frame of the line-up as a card: letter, maker and model, its line, size, shown, reference, remove, handle, doubts.

use egui::{Align, ComboBox, Label, Layout, Rect, RichText, Sense, Ui, UiBuilder, vec2};

use super::commands::Command;
use super::edits::Edit;
use super::file_names::telling_name;
use super::labels::line_up as labels;
use super::lineup_panel::background;
use super::menu::context_menu_ui;
use super::named::named;
use super::requests::{Request, Requests};
use super::shown::Shown;
use super::theme::{BODY, SMALL, Tones};
use super::view_id::ViewId;
use super::{paint, views};
use crate::drawing::frame_pattern_of;
use crate::frameset::FrameIndex;
use crate::lineup::{SizeBasis, SizeRule};
use crate::words::{doubt_brief, doubt_text, no_fit, sag_brief, size_fit_badge, size_fit_short, size_fit_text};

/// Salt of the handles' ids.
pub(crate) const HANDLE_ID: &str = "card handle";

/// What a card's context menu offers.
const OF_CARD: [Command; 10] = [
    Command::Show(ViewId::Frameset),
    Command::MakeReference,
    Command::ShowOrHide,
    Command::LargerSize,
    Command::SmallerSize,
    Command::MoveUp,
    Command::MoveDown,
    Command::SaveFrame,
    Command::Show(ViewId::Check),
    Command::Remove,
];

/// Shows the card at `index` and says where it lies.
pub(crate) fn card_ui(ui: &mut Ui, index: FrameIndex, shown: Shown<'_>, tones: Tones, out: &mut Requests) -> Rect {
    let (Some(entry), Some(found)) = (index.of(&shown.lineup().frames), index.of(&shown.findings().frames)) else {
        return Rect::NOTHING;
    };
    let is_selected = shown.moment.selected == index;
    let is_reference = shown.findings().reference == Some(index);
    let edge = if is_selected { tones.second() } else { tones.hairline() };
    let frame = egui::Frame::NONE.fill(tones.paper()).stroke((1.0, edge)).corner_radius(4).inner_margin(egui::Margin {
        left: 8,
        right: 6,
        top: 6,
        bottom: 6,
    });
    // The background is sensed first, so that the controls on it come before it.
    let before = ui.ctx().read_response(egui::Id::unique(("card place", index))).map(|r| r.rect);
    if let Some(rect) = before {
        let ground = background(ui, rect, index);
        ground.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, is_selected, labels::select(&found.letter)));
        if ground.clicked() || ground.secondary_clicked() {
            out.push(Request::Select(index));
        }
        if ground.double_clicked() {
            out.command(Command::Show(ViewId::Frameset));
        }
        context_menu_ui(&ground, &OF_CARD, shown, out);
    }
    let response = frame.show(ui, |ui| {
        ui.set_min_width(ui.available_width());
        ui.spacing_mut().item_spacing = vec2(6.0, 3.0);
        let top = ui.cursor().min;
        ui.scope_builder(UiBuilder::new().layout(Layout::left_to_right(Align::Min)), |ui| {
            let (mark, _) = ui.allocate_exact_size(vec2(28.0, 44.0), Sense::hover());
            paint::tag(ui.painter(), top + vec2(14.0, 14.0), 12.0, &found.letter, index, tones);
            let pattern = frame_pattern_of(shown.findings(), index);
            paint::sample(ui.painter(), egui::pos2(mark.left(), top.y + 38.0), 28.0, index, pattern, tones);
            ui.vertical(|ui| {
                name_ui(ui, index, &found.name, &found.letter, tones, out);
                ui.horizontal(|ui| {
                    size_ui(ui, index, entry, &found.letter, out);
                    let mut is_shown = entry.shown;
                    let check = ui
                        .checkbox(&mut is_shown, RichText::new(labels::SHOWN).size(SMALL))
                        .on_hover_text(labels::SHOWS_OR_HIDES_THIS_FRAME);
                    named(&check, labels::show(&found.letter));
                    if check.changed() {
                        out.edit(Edit::Shown { frame: index, shown: is_shown });
                    }
                    let radio = ui
                        .radio(is_reference, RichText::new(labels::REFERENCE).size(SMALL))
                        .on_hover_text(labels::COMPARES_THE_OTHER_FRAMES);
                    named(&radio, labels::is_the_reference(&found.letter));
                    if radio.clicked() {
                        out.edit(Edit::Reference(index));
                    }
                });
            });
        });
        fit_ui(ui, index, shown, tones, out);
        sag_ui(ui, index, shown, tones);
        file_ui(ui, index, shown, tones);
        doubts_ui(ui, index, shown, tones, out);
    });
    let rect = response.response.rect;
    ui.interact(rect, egui::Id::unique(("card place", index)), Sense::hover());
    rect
}

fn name_ui(ui: &mut Ui, index: FrameIndex, name: &str, letter: &str, tones: Tones, out: &mut Requests) {
    ui.allocate_ui_with_layout(vec2(ui.available_width(), 20.0), Layout::right_to_left(Align::Center), |ui| {
        let away = ui.add(egui::Button::new(RichText::new("×").color(tones.second())).frame_when_inactive(false).small());
        named(&away, labels::remove(&letter));
        if away.on_hover_text(labels::removes_from_the_line_up(&letter)).clicked() {
            out.edit(Edit::Remove(index));
        }
        handle_ui(ui, index, letter, tones);
        ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
            ui.add(Label::new(RichText::new(name).size(BODY + 0.5).color(tones.ink())).truncate().selectable(false));
        });
    });
}

/// Six dots to drag a card by.
fn handle_ui(ui: &mut Ui, index: FrameIndex, letter: &str, tones: Tones) {
    let (rect, _) = ui.allocate_exact_size(vec2(14.0, 20.0), Sense::hover());
    let response = ui.interact(rect, egui::Id::unique((HANDLE_ID, index)), Sense::drag());
    let keys = labels::HOW_TO_MOVE_A_FRAME;
    let response = response.on_hover_text(keys).on_hover_cursor(egui::CursorIcon::Grab);
    named(&response, labels::move_letter(&letter));
    let colour = if response.hovered() || response.dragged() { tones.ink() } else { tones.second() };
    for row in -1_i8..=1 {
        for side in [-2.5, 2.5] {
            ui.painter().circle_filled(rect.center() + vec2(side, 5.0 * f32::from(row)), 1.2, colour);
        }
    }
}

fn size_ui(ui: &mut Ui, index: FrameIndex, entry: &crate::lineup::Entry, letter: &str, out: &mut Requests) {
    let combo = ComboBox::from_id_salt(("size", index)).width(58.0).selected_text(short(&entry.size)).show_ui(ui, |ui| {
        for size in &entry.frameset.sizes {
            if ui.selectable_label(size.label == entry.size, &size.label).clicked() {
                out.edit(Edit::Size { frame: index, label: size.label.clone() });
            }
        }
    });
    named(&combo.response, labels::size_of(&letter));
    combo.response.on_hover_text(labels::size_of_alt(&letter, &entry.size));
}

/// Long labels ("52 cm / small-medium") are cut in the picker; its tooltip says them whole.
fn short(label: &str) -> String {
    if label.chars().count() <= 6 { label.to_owned() } else { format!("{}…", label.chars().take(5).collect::<String>()) }
}

/// What is left over of the frame's fit in this size, and whether the size was chosen by hand.
fn fit_ui(ui: &mut Ui, index: FrameIndex, shown: Shown<'_>, tones: Tones, out: &mut Requests) {
    let Some(fit) = index.of(&shown.findings().fit).map(|f| &f.size_fit) else { return };
    let units = shown.lineup().settings.units;
    let Some(badge) = size_fit_badge(units, fit) else { return };
    let letter = crate::lineup::letter(index);
    ui.horizontal(|ui| {
        ui.add_space(34.0);
        if fit.basis == SizeBasis::Hand && shown.lineup().settings.sizes == SizeRule::SameFit {
            let mark = ui.small_button(labels::BY_HAND);
            named(&mark, labels::size_chosen_by_hand(&letter));
            if mark.on_hover_text(labels::unpin(&size_fit_text(units, fit))).clicked() {
                out.edit(Edit::Unpin(index));
            }
        }
        let colour = if fit.is_alike() == Some(true) { tones.second() } else { tones.ink() };
        let text = RichText::new(size_fit_short(units, fit)).size(SMALL).color(colour);
        let line = ui.add(Label::new(text).sense(Sense::hover()).truncate().selectable(false));
        line.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, labels::fit_of(&letter, &badge)));
        line.on_hover_text(size_fit_text(units, fit));
    });
}

/// How far the frame's suspension fork is compressed, where it has one.
fn sag_ui(ui: &mut Ui, index: FrameIndex, shown: Shown<'_>, tones: Tones) {
    let settings = &shown.lineup().settings;
    let Some(found) = index.of(&shown.findings().frames) else { return };
    let Some(sag) = sag_brief(settings.units, settings.sag, &found.frameset) else { return };
    ui.horizontal(|ui| {
        ui.add_space(34.0);
        let text = RichText::new(labels::suspension_fork(&sag)).size(SMALL).color(tones.second());
        ui.add(Label::new(text).truncate().selectable(false)).on_hover_text(labels::WHERE_SAG_IS_SET);
    });
}

/// The file of a frame, where another frame's file has the same name.
fn file_ui(ui: &mut Ui, index: FrameIndex, shown: Shown<'_>, tones: Tones) {
    let document = shown.document;
    let Some(file) = document.frame_file(index) else { return };
    let frames = document.lineup().frames.len();
    let others = FrameIndex::all(frames).filter(|other| *other != index).filter_map(|other| document.frame_file(other));
    if let Some(name) = telling_name(&file.path, others.map(|other| other.path.as_path())) {
        ui.horizontal(|ui| {
            ui.add_space(34.0);
            let text = RichText::new(name).size(SMALL).color(tones.second());
            ui.add(Label::new(text).truncate()).on_hover_text(file.path.display().to_string());
        });
    }
}

fn doubts_ui(ui: &mut Ui, index: FrameIndex, shown: Shown<'_>, tones: Tones, out: &mut Requests) {
    let Some(size) = index.of(&shown.findings().frames).and_then(|f| f.chosen()) else { return };
    let letter = crate::lineup::letter(index);
    let mut words = Vec::new();
    match size.doubts.as_slice() {
        [] => {}
        [one] => words.push(doubt_brief(one)),
        several => words.push(labels::doubtful_figures(&several.len())),
    }
    let (missing, sentence) = views::missing_words(size);
    if missing > 0 {
        words.push(match (words.is_empty(), missing) {
            (true, 1) => labels::ONE_UNKNOWN_FIGURE.to_owned(),
            (true, _) => labels::unknown_figures(&missing),
            (false, _) => labels::unknown(&missing),
        });
    }
    let unsettled = index.of(&shown.findings().frames).and_then(|f| no_fit(&f.as_published));
    if unsettled.is_some() {
        words.insert(0, labels::FIGURES_DISAGREE.to_owned());
    }
    if words.is_empty() {
        return;
    }
    let text = RichText::new(words.join(", ")).size(SMALL).color(tones.ink()).underline();
    let line = ui.horizontal(|ui| {
        ui.add_space(34.0);
        ui.add(Label::new(text).sense(Sense::click()).truncate())
    });
    let response = line.inner;
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::Button, true, labels::doubtful_or_unknown_figures_of(&letter, &words.join(", ")))
    });
    let response = response.on_hover_cursor(egui::CursorIcon::PointingHand).on_hover_ui(|ui| {
        if let Some(sentence) = unsettled {
            ui.label(sentence);
        }
        for doubt in &size.doubts {
            ui.label(doubt_text(doubt, shown.lineup().settings.units));
        }
        if missing > 0 {
            ui.label(&sentence);
        }
    });
    if response.clicked() {
        out.push(Request::Select(index));
        out.push(Request::Slip(0));
        if let Some(doubt) = size.doubts.first() {
            out.push(Request::Figure(doubt.figure));
        }
        out.command(Command::Show(ViewId::Check));
    }
}
