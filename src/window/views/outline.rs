//! The Outline view: all frames overlaid, to scale, key figures below; a drag measures a distance and an angle.

use egui::{Align2, Button, Id, Key, PointerButton, Ui};

use super::super::canvas::{Field, FirstButton, beside, is_moving, kept, pointed_at, tell};
use super::super::commands::Command;
use super::super::labels::drawings as labels;
use super::super::measure::Measure;
use super::super::menu::commands_ui;
use super::super::requests::{Request, Requests};
use super::super::shown::Shown;
use super::super::theme::{BODY, Tones, semibold};
use super::super::viewport::Viewport;
use super::{View, ViewId, key_figures, switch_ui};
use crate::drawing::{Page, Scene, Target, View as ScaleView, fit_outline, outline_scene_of};
use crate::frameset::FrameIndex;
use crate::geometry::Point;
use crate::lineup::PictureView;
use crate::units::{Quantity, System, fixed};
use crate::words::placing_text;

/// The Outline view.
pub(crate) struct Outline;

/// What the drawing's context menu offers.
const OF_DRAWING: [Command; 7] = [
    Command::SavePicture,
    Command::CopyPicture,
    Command::CopyFigures,
    Command::Fit,
    Command::Dimensions,
    Command::Grid,
    Command::Wheels,
];

impl Outline {
    fn sight(shown: Shown<'_>, id: ViewId, page: Page) -> ScaleView {
        match shown.moment.viewports.get(&id).copied() {
            Some((Viewport::Scale(view), _)) => view,
            _ => fit_outline(shown.findings(), &shown.lineup().settings.outline, page),
        }
    }
}

impl View for Outline {
    fn tools_ui(&self, ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
        let outline = shown.lineup().settings.outline;
        switch_ui(ui, false, Command::Fit, out);
        switch_ui(ui, outline.dimensions, Command::Dimensions, out);
        switch_ui(ui, outline.grid, Command::Grid, out);
        switch_ui(ui, outline.wheels, Command::Wheels, out);
    }

    fn ui(&self, ui: &mut Ui, shown: Shown<'_>, id: ViewId, out: &mut Requests) {
        key_figures::strip_ui(ui, shown);
        let tones = Tones::of(ui);
        let field = Field::of(ui, Id::unique("outline"));
        let settings = shown.lineup().settings.outline;
        let units = shown.lineup().settings.units;
        let before = Self::sight(shown, id, field.page);
        let view = match field.moved(ui, before, FirstButton::Own, shown) {
            Some(after) => {
                out.push(Request::Look(id, Some((Viewport::Scale(after), field.page))));
                after
            }
            None => before,
        };
        if field.response.double_clicked() {
            out.command(Command::Fit);
        }
        let scene = |forward: Option<FrameIndex>| {
            let key = (shown.document.revision(), field.page, view, forward);
            kept(ui, Id::unique("outline scene"), key, || {
                outline_scene_of(shown.findings(), &settings, units, field.page, view, forward)
            })
        };
        let forward_id = Id::unique("frame brought forward");
        let before = ui.data(|d| d.get_temp::<Option<FrameIndex>>(forward_id)).flatten();
        let drawn = scene(before);
        let is_busy = ui.input(|i| i.pointer.any_down());
        let pointed = field.pointer().filter(|_| !is_busy).and_then(|at| pointed_at(&drawn, at)?.frame);
        let forward = pointed.or_else(|| selected_other(shown));
        let scene = if forward == before {
            drawn
        } else {
            ui.data_mut(|d| d.insert_temp(forward_id, forward));
            scene(forward)
        };
        let placing = |target: &Target| placing_text(shown.findings(), target.frame?, &target.figures);
        field.show_and_say(ui, &scene, tones, placing);
        measure_ui(ui, &field, &scene, view, shown, out);
        let place = field.pointer().map(|p| {
            let mm = view.to_mm(field.page, p);
            let number = |mm: f64| fixed(mm * units.factor(Quantity::Length), if units == System::Metric { 0 } else { 2 });
            labels::position(&number(mm.x), &number(mm.y), &units.unit(Quantity::Length))
        });
        tell(ui.ctx(), place);
    }

    fn picture(&self, _shown: Shown<'_>) -> Option<PictureView> {
        Some(PictureView::Outline)
    }
}

/// The selected frame, where it is another than the reference and shown.
fn selected_other(shown: Shown<'_>) -> Option<FrameIndex> {
    let (selected, findings) = (shown.moment.selected, shown.findings());
    let is_shown = selected.of(&findings.frames).is_some_and(|frame| frame.shown);
    (is_shown && findings.reference != Some(selected)).then_some(selected)
}

/// The measured distance: drawn by dragging, or begun in the context menu and ended by a click; kept until the next one or
/// Escape.
fn measure_ui(ui: &Ui, field: &Field, scene: &Scene, view: ScaleView, shown: Shown<'_>, out: &mut Requests) {
    let response = &field.response;
    let mut measure = shown.moment.measure;
    let snapped = |place: egui::Pos2| {
        let at = field.on_page(place);
        let spot = pointed_at(scene, at).and_then(|t| match t.shape.as_slice() {
            [spot] => Some(*spot),
            _ => None,
        });
        view.to_mm(field.page, spot.unwrap_or(at))
    };
    let begun = Id::unique("measuring from");
    if let Some(from) = menu_ui(ui, response, snapped, shown, out) {
        ui.data_mut(|d| d.insert_temp(begun, from));
    }
    let is_escaped = (response.has_focus() || ui.memory(|m| m.focused().is_none())) && ui.input(|i| i.key_pressed(Key::Escape));
    let (origin, now) = ui.input(|i| (i.pointer.press_origin(), i.pointer.latest_pos()));
    let from = ui.data(|d| d.get_temp::<Point<f64>>(begun));
    if is_escaped || response.clicked() {
        ui.data_mut(|d| d.remove::<Point<f64>>(begun));
    }
    if response.dragged_by(PointerButton::Primary) && !is_moving(ui, FirstButton::Own) {
        if let (Some(origin), Some(now)) = (origin, now) {
            measure = Some(Measure { from: snapped(origin), to: snapped(now) });
        }
    } else if is_escaped {
        measure = None;
    } else if let Some(from) = from {
        if let Some(now) = now.filter(|now| field.rect.contains(*now)) {
            measure = Some(Measure { from, to: snapped(now) });
        }
    } else if response.clicked() {
        measure = None;
    }
    if measure != shown.moment.measure {
        out.push(Request::Measure(measure));
        if let Some(measure) = measure {
            out.push(Request::Say(measure.words(shown.lineup().settings.units)));
        }
    }
    let Some(measure) = measure else { return };
    let tones = Tones::of(ui);
    let place = |point: Point<f64>| field.on_screen(view.to_page(field.page, point));
    let (from, to) = (place(measure.from), place(measure.to));
    let painter = ui.painter().with_clip_rect(field.rect);
    painter.line_segment([from, to], (1.5, tones.ink()));
    for end in [from, to] {
        painter.circle(end, 3.0, tones.paper(), (1.5, tones.ink()));
    }
    let galley = painter.layout_no_wrap(measure.words(shown.lineup().settings.units), semibold(BODY), tones.ink());
    let corner = Align2::LEFT_BOTTOM.anchor_size(beside(to), galley.size());
    let kept = field.rect.shrink(8.0);
    let left = corner.left().min(kept.right() - galley.size().x).max(kept.left());
    let top = corner.top().max(kept.top());
    let rect = egui::Rect::from_min_size(egui::pos2(left, top), galley.size());
    painter.rect(rect.expand2(egui::vec2(6.0, 3.0)), 3.0, tones.paper(), (1.0, tones.hairline()), egui::StrokeKind::Outside);
    painter.galley(rect.min, galley, tones.ink());
}

/// The drawing's context menu; gives the place that a distance is to be measured from.
fn menu_ui(
    ui: &Ui,
    response: &egui::Response,
    snapped: impl Fn(egui::Pos2) -> Point<f64>,
    shown: Shown<'_>,
    out: &mut Requests,
) -> Option<Point<f64>> {
    let opened = Id::unique("place of the drawing's menu");
    if let Some(place) = response.interact_pointer_pos().filter(|_| response.secondary_clicked()) {
        ui.data_mut(|d| d.insert_temp(opened, snapped(place)));
    }
    let mut from = None;
    response.context_menu(|ui| {
        let entry = Button::new(labels::MEASURE_FROM_HERE).frame_when_inactive(false);
        if ui.add(entry).on_hover_text(labels::HOW_A_MEASUREMENT_ENDS).clicked() {
            from = ui.data(|d| d.get_temp::<Point<f64>>(opened));
            ui.close();
        }
        commands_ui(ui, &OF_DRAWING, shown, out);
    });
    from
}
