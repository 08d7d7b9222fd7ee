//! The Loaded view: at which speeds each bicycle steadies itself, what its wheels carry and when one lifts, without luggage
//! and with each loading; rider and luggage are typed at the right.

use std::fmt::Debug;
use std::hash::Hash;

use egui::{Id, ScrollArea, Sense, Ui, vec2};

use super::super::canvas::{Field, kept, tell};
use super::super::labels::loaded as labels;
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::theme::Tones;
use super::loaded_panel::panel_ui;
use super::parts::table_ui;
use super::side_panel::side_panel_ui;
use super::{View, ViewId};
use crate::drawing::{FitPart, LOADED_CHART_HEIGHT, LoadedChart, Page, Scene, loaded_chart, loaded_height, loaded_scene};
use crate::lineup::PictureView;
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
        ScrollArea::vertical().id_salt("loaded scene").auto_shrink([false, false]).show(ui, |ui| {
            ui.add_space(8.0);
            let (lineup, findings) = (shown.lineup(), shown.findings());
            let width = f64::from(ui.available_width().max(1.0));
            scene_ui(ui, shown, PictureView::Loaded, width, || {
                let height = loaded_height(lineup, findings, width);
                loaded_scene(lineup, findings, Page { width, height })
            });
            for chart in [LoadedChart::Spread, LoadedChart::Growth] {
                let page = Page { width, height: LOADED_CHART_HEIGHT };
                scene_ui(ui, shown, chart, width, || loaded_chart(chart, lineup, findings, page));
                ui.add_space(8.0);
            }
            ui.add_space(8.0);
            let loadings = lineup.settings.loaded.loadings.len();
            for part in (0..=loadings).map(FitPart::Loaded).chain([FitPart::RulesOfThumb]) {
                ScrollArea::horizontal().id_salt(("loaded table", part)).show(ui, |ui| table_ui(ui, part, shown));
            }
        });
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::Loaded)
    }
}

/// A scene of this view, made anew when the line-up or the width changes.
fn scene_ui(ui: &mut Ui, shown: Shown<'_>, which: impl Hash + Debug, width: f64, make: impl FnOnce() -> Scene) {
    let key = (shown.document.revision(), width.to_bits());
    let scene = kept(ui, Id::unique(("loaded scene", which)), key, make);
    let (rect, response) = ui.allocate_exact_size(vec2(width as f32, scene.page.height as f32), Sense::click());
    Field { response, rect, page: scene.page }.show(ui, &scene, Tones::of(ui));
}
