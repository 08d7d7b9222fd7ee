//! The pen that scenes are written with: short ways to put items and targets on a page.
//!
//! Invariants: every item that goes through it is finite, and what is not (a figure gone wrong) leaves no mark; no item of
//! a finished scene reaches far beyond its page.

use std::borrow::Cow;

use super::reach::{near, near_target};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Item, Page, Pattern, Pt, Role, Scene, Stroke, Target, Weight};
use crate::frameset::{Figure, FrameIndex};
use crate::units::visible;

/// A text's look: size, role, weight.
#[derive(Clone, Copy, Debug)]
pub(super) struct Face {
    pub(super) size: f64,
    pub(super) role: Role,
    pub(super) weight: Weight,
}

impl Face {
    pub(super) const fn regular(size: f64, role: Role) -> Self {
        Self { size, role, weight: Weight::Regular }
    }

    pub(super) const fn semibold(size: f64, role: Role) -> Self {
        Self { size, role, weight: Weight::Semibold }
    }
}

/// An unbroken, opaque line.
pub(super) const fn solid(role: Role, width: f64) -> Stroke {
    Stroke { role, width, pattern: Pattern::Solid, opacity: 1.0 }
}

/// Collects items and targets.
#[derive(Debug, Default)]
pub(super) struct Pen {
    items: Vec<Item>,
    targets: Vec<Target>,
    /// The frame that targets are of.
    about: Option<FrameIndex>,
}

fn are_finite(points: &[Pt]) -> bool {
    points.iter().all(|p| p.x.is_finite() && p.y.is_finite())
}

impl Pen {
    pub(super) fn line(&mut self, points: Vec<Pt>, stroke: Stroke) {
        if points.len() > 1 && are_finite(&points) {
            self.items.push(Item::Line { points, stroke });
        }
    }

    pub(super) fn area(&mut self, points: Vec<Pt>, fill: Option<Fill>, stroke: Option<Stroke>) {
        if points.len() > 2 && are_finite(&points) {
            self.items.push(Item::Area { points, fill, stroke });
        }
    }

    /// A filled shape with openings, its outer edge the first ring.
    pub(super) fn shape(&mut self, rings: Vec<Vec<Pt>>, fill: Fill) {
        if rings.iter().all(|ring| ring.len() > 2 && are_finite(ring)) && !rings.is_empty() {
            self.items.push(Item::Shape { rings, fill });
        }
    }

    pub(super) fn circle(&mut self, centre: Pt, radius: f64, fill: Option<Fill>, stroke: Option<Stroke>) {
        if are_finite(&[centre]) && radius.is_finite() && radius > 0.0 {
            self.items.push(Item::Circle { centre, radius, fill, stroke });
        }
    }

    pub(super) fn text(&mut self, at: Pt, text: impl Into<String>, face: Face, anchor: Anchor) {
        let text = visible(&text.into()).into_owned();
        if are_finite(&[at]) && !text.is_empty() {
            self.items.push(Item::Text { at, text, size: face.size, anchor, role: face.role, weight: face.weight });
        }
    }

    /// Text with paper under it, so that lines do not run through it. Gives back what it covers.
    pub(super) fn backed_text(&mut self, at: Pt, text: impl Into<String>, face: Face, anchor: Anchor) -> Rect {
        let text = text.into();
        let covered = Rect::of_text(at, &text, face.size, anchor, face.weight);
        let back = Rect::new(covered.x - 4.0, covered.y - 1.0, covered.width + 8.0, covered.height + 2.0);
        self.area(back.corners(), Some(Fill { role: Role::Background, opacity: 0.85 }), None);
        self.text(at, text, face, anchor);
        back
    }

    /// A letter in a circle. The circle is [`BALLOON`] page units in radius.
    pub(super) fn balloon(&mut self, centre: Pt, letter: &str, place: FrameIndex) {
        let stroke = solid(Role::FrameLine(place), 1.6);
        self.circle(centre, BALLOON, Some(Fill { role: Role::Background, opacity: 1.0 }), Some(stroke));
        let size = if letter.len() > 1 { 10.0 } else { 13.0 };
        let base = Pt { x: centre.x, y: centre.y + size * super::measure::CAP_HEIGHT / 2.0 };
        self.text(base, letter, Face::semibold(size, Role::FrameLetter(place)), Anchor::Middle);
    }

    /// An item of another scene, as it is.
    pub(super) fn item(&mut self, item: Item) {
        self.items.push(item);
    }

    pub(super) fn clip(&mut self, rect: Rect) {
        self.items.push(Item::Clip { at: Pt { x: rect.x, y: rect.y }, size: rect.size() });
    }

    pub(super) fn unclip(&mut self) {
        self.items.push(Item::Unclip);
    }

    pub(super) fn target(&mut self, shape: Vec<Pt>, name: impl Into<String>, detail: impl Into<String>) {
        self.target_of_figures(shape, name, detail, Vec::new());
    }

    /// A target that shows figures of the frame that it is about.
    pub(super) fn target_of_figures(
        &mut self,
        shape: Vec<Pt>,
        name: impl Into<String>,
        detail: impl Into<String>,
        figures: Vec<Figure>,
    ) {
        if shape.len() > 2 && are_finite(&shape) {
            self.targets.push(Target { shape, frame: self.about, name: name.into(), detail: detail.into(), figures });
        }
    }

    /// A target around a point: an octagon of that radius.
    pub(super) fn spot(&mut self, centre: Pt, radius: f64, name: impl Into<String>, detail: impl Into<String>) {
        self.target(octagon(centre, radius), name, detail);
    }

    /// The frame that the targets to come belong to.
    pub(super) const fn about(&mut self, frame: Option<FrameIndex>) {
        self.about = frame;
    }

    /// Puts a whole scene down with its top left corner there.
    pub(super) fn place(&mut self, scene: Scene, corner: Pt) {
        self.items.extend(scene.items.into_iter().map(|item| item.moved(corner)));
        self.targets.extend(scene.targets.into_iter().map(|target| target.moved(corner)));
    }

    /// The items alone, for a page that another hand finishes.
    pub(super) fn into_items(self) -> Vec<Item> {
        self.items
    }

    pub(super) fn finish(self, page: Page, title: impl Into<String>, description: impl Into<String>) -> Scene {
        let field = Rect::of_page(page);
        let is_near = |item: &Item| matches!(near(item, field), Cow::Borrowed(_));
        let items = if self.items.iter().all(is_near) {
            self.items
        } else {
            self.items.iter().flat_map(|item| near(item, field).into_owned()).collect()
        };
        let targets = self.targets.into_iter().filter_map(|target| near_target(target, field)).collect();
        let words = |text: String| visible(&text).into_owned();
        Scene { page, items, targets, title: words(title.into()), description: words(description.into()) }
    }
}

/// Radius of the circle around a frame's letter, page units.
pub(super) const BALLOON: f64 = 11.0;

pub(super) fn octagon(centre: Pt, radius: f64) -> Vec<Pt> {
    (0..8)
        .map(|i| {
            let (sin, cos) = (f64::from(i) * std::f64::consts::FRAC_PI_4).sin_cos();
            Pt { x: centre.x + radius * cos, y: centre.y + radius * sin }
        })
        .collect()
}
