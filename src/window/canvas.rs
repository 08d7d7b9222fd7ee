//! A field that a scene is painted in: moving and enlarging it by mouse, wheel and keys, pointing at what is drawn, and
//! the words that a screen reader gets instead.

use std::sync::Arc;

use egui::{Context, EventFilter, Id, Key, PointerButton, Pos2, Rect, Response, Sense, Tooltip, Ui, pos2, vec2};

use super::labels::drawings as labels;
use super::named::described;
use super::paint;
use super::shown::Shown;
use super::theme::Tones;
use crate::drawing::{Page, Pt, Scene, Target, View};

/// How near the pointer must come to a spot, points.
const NEAR: f64 = 8.0;
/// How far an arrow key moves a drawing, points.
const STEP: f32 = 48.0;
/// Under which id the pointer's place is told to the status line.
const READOUT_ID: &str = "place of the pointer";

/// A field that a scene is painted in.
pub(crate) struct Field {
    /// What mouse and keyboard did to the field.
    pub(crate) response: Response,
    /// Where it lies.
    pub(crate) rect: Rect,
    /// Its size as a page.
    pub(crate) page: Page,
}

/// What a drag of the first button does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum FirstButton {
    /// It moves the drawing.
    Animation,
    /// It does something of the view's own.
    Own,
}

impl Field {
    /// Takes all the room that is left.
    pub(crate) fn of(ui: &mut Ui, id: Id) -> Self {
        let size = ui.available_size();
        Self::of_size(ui, id, size)
    }

    /// Takes so much room, for a drawing that scrolls.
    pub(crate) fn of_size(ui: &mut Ui, id: Id, size: egui::Vec2) -> Self {
        let rect = egui::Rect::from_min_size(ui.available_rect_before_wrap().min, size);
        ui.allocate_rect(rect, Sense::hover());
        let response = ui.interact(rect, id, Sense::click_and_drag());
        let page = Page { width: f64::from(rect.width().max(1.0)), height: f64::from(rect.height().max(1.0)) };
        Self { response, rect, page }
    }

    /// A place on the screen as a point of the page.
    pub(crate) fn on_page(&self, place: Pos2) -> Pt {
        Pt { x: f64::from(place.x - self.rect.left()), y: f64::from(place.y - self.rect.top()) }
    }

    /// A point of the page as a place on the screen.
    pub(crate) fn on_screen(&self, point: Pt) -> Pos2 {
        self.rect.min + vec2(point.x as f32, point.y as f32)
    }

    /// Where the pointer is on the page.
    pub(crate) fn pointer(&self) -> Option<Pt> {
        self.response.hover_pos().map(|place| self.on_page(place))
    }

    /// The view after what mouse and keys did to it; `None` when they did nothing.
    pub(crate) fn moved(&self, ui: &Ui, before: View, first: FirstButton, shown: Shown<'_>) -> Option<View> {
        let mut after = before.zoomed_at(self.page, middle(self.page), shown.moment.zoom);
        let by_hand = self.response.dragged_by(PointerButton::Middle)
            || self.response.dragged_by(PointerButton::Secondary)
            || (self.response.dragged_by(PointerButton::Primary) && is_moving(ui, first));
        if by_hand {
            let delta = self.response.drag_delta();
            after = after.panned(f64::from(delta.x), f64::from(delta.y));
            ui.ctx().set_cursor_icon(egui::CursorIcon::Grabbing);
        }
        if let Some(place) = self.pointer() {
            let (wheel, pinch) = ui.input(|i| (i.smooth_scroll_delta().y, i.zoom_delta()));
            let factor = f64::from((wheel * 0.004).exp() * pinch);
            if factor != 1.0 {
                after = after.zoomed_at(self.page, place, factor);
            }
        }
        let (right, down) = keys_moved(ui, &self.response);
        if right != 0.0 || down != 0.0 {
            after = after.panned(f64::from(right), f64::from(down));
        }
        (after != before).then_some(after)
    }

    /// Paints the scene, tells what the pointer is over, and gives screen readers the findings in sentences.
    pub(crate) fn show(&self, ui: &Ui, scene: &Scene, tones: Tones) {
        self.show_and_say(ui, scene, tones, |_| None);
    }

    /// The same; what the pointer is over may have something more to be said of it.
    pub(crate) fn show_and_say(&self, ui: &Ui, scene: &Scene, tones: Tones, more: impl Fn(&Target) -> Option<String>) {
        paint::scene(ui.painter(), self.rect.min, scene, tones);
        described(&self.response, &labels::drawing(&scene.title), &scene.description);
        outlined(ui, &self.response, tones);
        let is_busy = ui.input(|i| i.pointer.any_down());
        if let Some(target) = self.pointer().filter(|_| !is_busy).and_then(|place| pointed_at(scene, place)) {
            self.point_out(ui, target, tones, more(target));
        }
    }

    fn point_out(&self, ui: &Ui, target: &Target, tones: Tones, more: Option<String>) {
        let outline: Vec<Pos2> = target.shape.iter().map(|p| self.on_screen(*p)).collect();
        match outline.as_slice() {
            [spot] => {
                ui.painter().circle_stroke(*spot, 6.0, (1.2, tones.ink()));
            }
            _ => {
                ui.painter().with_clip_rect(self.rect).add(egui::Shape::closed_line(outline, (1.2, tones.ink())));
            }
        }
        let id = self.response.id.with("pointed at");
        let tooltip = Tooltip::always_open(ui.ctx().clone(), ui.layer_id(), id, egui::PopupAnchor::Pointer);
        tooltip.gap(14.0).show(|ui| {
            ui.label(&target.name);
            if !target.detail.is_empty() {
                ui.label(&target.detail);
            }
            if let Some(more) = more {
                ui.label(more);
            }
        });
    }
}

/// How far the arrow keys move a drawing, points to the right and down; taken out of the input. They are the drawing's while
/// it, or nothing, has the keyboard.
pub(crate) fn keys_moved(ui: &Ui, response: &Response) -> (f32, f32) {
    if response.clicked() || response.drag_started() {
        response.request_focus();
    }
    let is_ours = response.has_focus() || ui.memory(|m| m.focused().is_none());
    if !is_ours || ui.ctx().any_popup_open() {
        return (0.0, 0.0);
    }
    let arrows = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|m| m.set_focus_lock_filter(response.id, arrows));
    ui.input_mut(|i| {
        let mut pressed = |key: Key| {
            let plain = i.count_and_consume_key(egui::Modifiers::NONE, key) as f32;
            plain + if i.modifiers.shift { 3.0 * plain } else { 0.0 }
        };
        let right = pressed(Key::ArrowLeft) - pressed(Key::ArrowRight);
        let down = pressed(Key::ArrowUp) - pressed(Key::ArrowDown);
        (right * STEP, down * STEP)
    })
}

/// Draws an edge around a drawing that has the keyboard.
pub(crate) fn outlined(ui: &Ui, response: &Response, tones: Tones) {
    if response.has_focus() && !ui.input(|i| i.pointer.any_down()) {
        ui.painter().rect_stroke(response.rect.shrink(1.0), 0.0, (1.0, tones.second()), egui::StrokeKind::Inside);
    }
}

/// Whether a drag of the first button moves the drawing just now: always, or while Space is held.
pub(crate) fn is_moving(ui: &Ui, first: FirstButton) -> bool {
    first == FirstButton::Animation || ui.input(|i| i.key_down(Key::Space))
}

/// The topmost target at a point of the page: a spot that is near, else an outline that it lies in.
pub(crate) fn pointed_at(scene: &Scene, place: Pt) -> Option<&Target> {
    let near = |t: &&Target| matches!(t.shape.as_slice(), [spot] if (spot.x - place.x).hypot(spot.y - place.y) <= NEAR);
    let inside = |t: &&Target| t.shape.len() > 2 && crate::geometry::plane::contains(&t.shape, place);
    scene.targets.iter().rev().find(near).or_else(|| scene.targets.iter().rev().find(inside))
}

/// Tells the status line where the pointer is.
pub(crate) fn tell(ctx: &Context, words: Option<String>) {
    let id = Id::unique(READOUT_ID);
    let before = ctx.data(|d| d.get_temp::<Option<String>>(id)).flatten();
    if before != words {
        ctx.data_mut(|d| d.insert_temp(id, words));
        ctx.request_repaint();
    }
}

/// Where the pointer is, in words.
pub(crate) fn readout(ctx: &Context) -> Option<String> {
    ctx.data(|d| d.get_temp::<Option<String>>(Id::unique(READOUT_ID))).flatten()
}

/// What was made for `key`: kept from an earlier frame, or made anew.
pub(crate) fn kept<K, T>(ui: &Ui, id: Id, key: K, make: impl FnOnce() -> T) -> Arc<T>
where
    K: PartialEq + Clone + Send + Sync + 'static,
    T: Send + Sync + 'static,
{
    let known = ui.data(|d| d.get_temp::<(K, Arc<T>)>(id)).filter(|(known_key, _)| *known_key == key);
    if let Some((_, made)) = known {
        return made;
    }
    let made = Arc::new(make());
    ui.data_mut(|d| d.insert_temp(id, (key, Arc::clone(&made))));
    made
}

/// The middle of a page.
fn middle(page: Page) -> Pt {
    Pt { x: page.width / 2.0, y: page.height / 2.0 }
}

/// A place a little off another, for words beside a line.
pub(crate) fn beside(place: Pos2) -> Pos2 {
    pos2(place.x + 10.0, place.y - 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn target(name: &str, shape: &[(f64, f64)]) -> Target {
        let shape = shape.iter().map(|(x, y)| Pt { x: *x, y: *y }).collect();
        Target { shape, frame: None, name: name.to_owned(), detail: String::new(), figures: Vec::new() }
    }

    #[test]
    fn spots_come_before_areas_and_later_ones_before_earlier() {
        let square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)];
        let scene = Scene {
            page: Page { width: 200.0, height: 200.0 },
            items: Vec::new(),
            targets: vec![target("spot", &[(50.0, 50.0)]), target("low", &square), target("high", &square)],
            title: String::new(),
            description: String::new(),
        };
        let name = |x, y| pointed_at(&scene, Pt { x, y }).map(|t| t.name.as_str());
        assert_eq!(name(53.0, 50.0), Some("spot"));
        assert_eq!(name(20.0, 20.0), Some("high"));
        assert_eq!(name(150.0, 20.0), None);
    }
}
