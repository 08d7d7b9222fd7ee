//! The Weight view: published weights, converted to the size compared, as bars and as workings in text that can be selected;
//! the ways there and the ledger of each total are typed at the right.

use egui::{Id, Label, RichText, ScrollArea, Ui, vec2};

use super::super::canvas::{Field, kept, tell};
use super::super::labels::weight as labels;
use super::super::menu::picture_menu_ui;
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::theme::{BODY, SMALL, Tones};
use super::side_panel::side_panel_ui;
use super::weight_panel::panel_ui;
use super::{View, ViewId};
use crate::drawing::{Role, weight_height, weight_scene};
use crate::frameset::FrameIndex;
use crate::lineup::PictureView;
use crate::words::frameset_workings;

/// The Weight view.
pub(crate) struct Weight;

impl View for Weight {
    fn tools_ui(&self, _ui: &mut Ui, _shown: Shown<'_>, _out: &mut Requests) {}

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        side_panel_ui(ui, "weights panel", |ui| panel_ui(ui, shown, out));
        let tones = Tones::of(ui);
        let sums = 44.0 + 26.0 * shown.findings().frames.iter().filter(|f| f.shown).count() as f32;
        ScrollArea::vertical().id_salt("weights").auto_shrink([false, false]).show(ui, |ui| {
            // Every row in its full height: where the window is too low for all, the view scrolls.
            let least = weight_height(shown.findings()) as f32;
            let height = least.max((ui.clip_rect().height() - sums).min(least * 1.4));
            let size = vec2(ui.available_width(), height);
            let field = Field::of_size(ui, Id::unique("weights"), size);
            let units = shown.lineup().settings.units;
            let key = (shown.document.revision(), field.page);
            let scene = kept(ui, Id::unique("weight scene"), key, || weight_scene(shown.findings(), units, field.page));
            picture_menu_ui(&field.response, shown, out);
            field.show(ui, &scene, tones);
            let frame = egui::Frame::NONE.inner_margin(egui::Margin::symmetric(16, 10));
            frame.show(ui, |ui| workings_ui(ui, shown, tones));
        });
        tell(ui.ctx(), None);
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::Weight)
    }
}

/// The workings, in text.
fn workings_ui(ui: &mut Ui, shown: Shown<'_>, tones: Tones) {
    ui.spacing_mut().item_spacing = vec2(10.0, 4.0);
    ui.label(RichText::new(labels::WORKINGS).size(SMALL).color(tones.second()));
    for (index, frame) in FrameIndex::numbered(&shown.findings().frames).filter(|(_, f)| f.shown) {
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new(&frame.letter).color(tones.colour(Role::FrameLetter(index))).size(BODY));
            let words = frameset_workings(shown.lineup().settings.units, frame);
            ui.add(Label::new(RichText::new(words).color(tones.ink())).wrap().selectable(true));
        });
    }
}
