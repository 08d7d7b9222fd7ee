//! The Price and climb view: which frameset is lightest and how sure that is, the price per gram saved, the climb
//! and the gears; money, rider, climb and gears are typed at the right.

use egui::{Id, ScrollArea, Ui, vec2};

use super::super::canvas::{Field, kept, tell};
use super::super::commands::Command;
use super::super::edits::Edit;
use super::super::labels::price_and_climb as labels;
use super::super::menu::picture_menu_ui;
use super::super::plot_field::{PlotField, Wheel};
use super::super::requests::Requests;
use super::super::shown::Shown;
use super::super::theme::Tones;
use super::super::weight_and_price_edits::WeightAndPriceEdit;
use super::parts::table_ui;
use super::plot::{look, seen};
use super::price_and_climb_panel::panel_ui;
use super::side_panel::side_panel_ui;
use super::{View, ViewId, switch_ui};
use crate::drawing::{FitPart, Page, Pt, Rect, price_and_climb_around_plot, price_and_climb_height, price_marks};
use crate::lineup::{PictureView, WeightSettings};
use crate::weight::Method;
use crate::words::{build_table, gears_table, method_label, price_and_climb_table};

/// The Price and climb view.
pub(crate) struct PriceAndClimb;

impl View for PriceAndClimb {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        switch_ui(ui, false, Command::Fit, out);
        let copy = ui.button(labels::COPY_PRICE_AND_CLIMB).on_hover_text(labels::COPIES_BOTH_TABLES);
        if copy.clicked() {
            let (lineup, findings) = (shown.lineup(), shown.findings());
            let gears = gears_table(lineup, findings, findings.reference.unwrap_or_default());
            let (prices, build) = (price_and_climb_table(lineup, findings), build_table(lineup, findings));
            ui.ctx().copy_text(format!("{}\n\n{}\n\n{}\n", prices.as_text(), gears.as_text(), build.as_text()));
        }
        method_ui(ui, shown, true, out);
        ui.label(egui::RichText::new(labels::CONVERTED_WEIGHTS).size(super::super::theme::SMALL).color(Tones::of(ui).second()));
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, id: ViewId, out: &mut Requests) {
        side_panel_ui(ui, "price and climb", |ui| panel_ui(ui, shown, out));
        tell(ui.ctx(), None);
        ScrollArea::vertical().id_salt("price and climb").auto_shrink([false, false]).show(ui, |ui| {
            let (lineup, findings) = (shown.lineup(), shown.findings());
            let width = ui.available_width();
            let room = ui.clip_rect().height();
            let key = (shown.document.revision(), width.to_bits(), room.to_bits());
            let made = kept(ui, Id::unique("price and climb scene"), key, || {
                // As high as the window lets it be, never crowded: a low window scrolls.
                let least = price_and_climb_height(lineup, findings, f64::from(width));
                let height = least.max((f64::from(room) - 4.0).min(least * 1.5));
                price_and_climb_around_plot(lineup, findings, Page { width: f64::from(width.max(1.0)), height })
            });
            let (scene, place) = &*made;
            let size = vec2(scene.page.width as f32, scene.page.height as f32);
            let field = Field::of_size(ui, Id::unique("price and climb"), size);
            picture_menu_ui(&field.response, shown, out);
            field.show(ui, scene, Tones::of(ui));
            plot_ui(ui, &field, *place, shown, id, out);
            for part in [FitPart::Gears, FitPart::PriceAndClimb, FitPart::Build] {
                ScrollArea::horizontal().id_salt(part.label()).show(ui, |ui| table_ui(ui, part, shown));
            }
        });
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::PriceAndClimb)
    }
}

/// Price against weight, in the place that the scene leaves for it.
fn plot_ui(ui: &mut Ui, field: &Field, place: Rect, shown: Shown<'_>, view: ViewId, out: &mut Requests) {
    let id = Id::unique("price against weight");
    let revision = shown.document.revision();
    let marks = kept(ui, id.with("marks of"), revision, || price_marks(shown.lineup(), shown.findings()));
    let corner = |x: f64, y: f64| field.on_screen(Pt { x, y });
    let rect = egui::Rect::from_min_max(corner(place.x, place.y), corner(place.right(), place.bottom()));
    let field = PlotField { id, marks: &marks, revision, view: seen(shown, view), wheel: Wheel::Scrolls, figures: None };
    let (after, is_all) = field.show(ui, rect, shown, out);
    look(view, after, out);
    if is_all {
        out.command(Command::Fit);
    }
}

/// A choice of the way to another size that counts for all weights without one of their own.
pub(super) fn method_ui(ui: &mut Ui, shown: Shown<'_>, from_the_right: bool, out: &mut Requests) {
    let before = shown.lineup().settings.weight;
    let mut methods = Method::ALL;
    if from_the_right {
        methods.reverse();
    }
    for method in methods {
        let response = ui.selectable_label(before.method == method, method_label(method)).on_hover_text(about(method));
        if response.clicked() && before.method != method {
            let settings = WeightSettings { method, ..before };
            out.edit(Edit::WeightAndPrice(WeightAndPriceEdit::Weights { settings, what: labels::WAY_TO_OTHER_SIZES }));
        }
    }
}

/// What a way to another size is.
const fn about(method: Method) -> &'static str {
    match method {
        Method::YourFactor => labels::USES_YOUR_OWN_ESTIMATE,
        Method::TubeLengths => labels::CONVERTS_BY_TUBE_LENGTHS,
        Method::BetweenWeighedSizes => labels::CONVERTS_BETWEEN_PUBLISHED_SIZES,
    }
}
