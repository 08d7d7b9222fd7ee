//! The Loaded view: at which speeds each bicycle steadies itself, what its wheels carry and when one lifts, without luggage
//! and with each loading; rider and luggage are typed at the right.

use egui::{Align2, FontId, Id, ScrollArea, Sense, Ui, vec2};

use super::super::beside::made_beside;
use super::super::canvas::{Field, tell};
use super::super::labels::loaded as labels;
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::theme::Tones;
use super::loaded_panel::panel_ui;
use super::side_panel::side_panel_ui;
use super::{View, ViewId};
use crate::drawing::{
    FitPart, LoadedCharts, Page, Scene, fit_bands_scene, fit_width, loaded_charts, loaded_charts_height, loaded_height,
    loaded_scene, loaded_sides_height, loaded_sides_scene,
};
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, Lineup, PictureView};
use crate::words::{loaded_tables, rules_of_thumb_table};

/// The Loaded view.
pub(crate) struct Loaded;

impl View for Loaded {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, _out: &mut Requests) {
        if ui.button(labels::COPY_TABLES).on_hover_text(labels::COPIES_AS_TABS).clicked() {
            let (lineup, findings) = (shown.lineup(), shown.findings());
            let tables = loaded_tables(lineup, findings).chain([rules_of_thumb_table(lineup, findings)]);
            let tables: Vec<String> = tables.map(|table| table.as_text()).collect();
            ui.ctx().copy_text(tables.join("\n\n") + "\n");
        }
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, _id: ViewId, out: &mut Requests) {
        side_panel_ui(ui, "loaded", |ui| panel_ui(ui, shown, out));
        tell(ui.ctx(), None);
        let width = f64::from(ui.available_width().max(1.0));
        let (lineup, findings) = shown.document.shared();
        let selected = shown.moment.selected;
        let key = (shown.document.revision(), width.to_bits(), selected);
        let beside = made_beside(ui, Id::unique("loaded pictures"), key, move || pictures(&lineup, &findings, selected, width));
        let top_right = ui.max_rect().right_top();
        ScrollArea::vertical().id_salt("loaded scene").auto_shrink([false, false]).show(ui, |ui| {
            ui.add_space(8.0);
            for (place, scene) in beside.made.iter().flat_map(|made| made.iter()).enumerate() {
                // A table that is wider than the view scrolls for itself.
                ScrollArea::horizontal().id_salt(("loaded", place)).show(ui, |ui| scene_ui(ui, scene));
                ui.add_space(8.0);
            }
        });
        if beside.is_late {
            let tones = Tones::of(ui);
            ui.painter().text(
                top_right + vec2(-16.0, 6.0),
                Align2::RIGHT_TOP,
                labels::COMPUTING,
                FontId::proportional(12.5),
                tones.second(),
            );
        }
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::Loaded)
    }
}

/// All pictures and tables of the view, the bicycles from the side being those of the selected frame.
fn pictures(lineup: &Lineup, findings: &Findings, selected: FrameIndex, width: f64) -> Vec<Scene> {
    let bars = Page { width, height: loaded_height(lineup, findings, width) };
    let sides = Page { width, height: loaded_sides_height(lineup, findings, width) };
    let mut scenes = vec![loaded_scene(lineup, findings, bars), loaded_sides_scene(lineup, findings, Some(selected), sides)];
    for charts in LoadedCharts::ALL {
        let page = Page { width, height: loaded_charts_height(charts, width) };
        scenes.push(loaded_charts(charts, lineup, findings, page));
    }
    let loadings = lineup.settings.loaded.loadings.len();
    for part in (0..=loadings).map(FitPart::Loaded).chain([FitPart::RulesOfThumb]) {
        scenes.push(fit_bands_scene(part, lineup, findings, width.max(fit_width(part, lineup, findings))));
    }
    scenes
}

fn scene_ui(ui: &mut Ui, scene: &Scene) {
    let (rect, response) = ui.allocate_exact_size(vec2(scene.page.width as f32, scene.page.height as f32), Sense::click());
    Field { response, rect, page: scene.page }.show(ui, scene, Tones::of(ui));
}
