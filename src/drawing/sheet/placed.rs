//! A scene put onto another page, enlarged; on a clear ground with a halo around its lines, so that they are seen on any
//! film.

use crate::drawing::pen::Pen;
use crate::drawing::scene::{Fill, Item, Page, Pattern, Pt, Role, Scene, Stroke};

/// Where and how a scene is put.
#[derive(Clone, Copy)]
pub(super) struct Place {
    pub(super) at: Pt,
    /// How much larger than drawn.
    pub(super) by: f64,
    /// How much wider lines are.
    pub(super) lines_by: f64,
    /// Whether lines get a halo in the ground's colour.
    pub(super) has_halo: bool,
}

/// How far a halo reaches beyond its line, page units, and its opacity.
const HALO: f64 = 2.2;
const HALO_OPACITY: f64 = 0.8;

impl Place {
    fn point(&self, p: Pt) -> Pt {
        Pt { x: self.at.x + p.x * self.by, y: self.at.y + p.y * self.by }
    }

    fn points(&self, points: Vec<Pt>) -> Vec<Pt> {
        points.into_iter().map(|p| self.point(p)).collect()
    }

    fn stroke(&self, stroke: Stroke) -> Stroke {
        Stroke { width: stroke.width * self.lines_by, ..stroke }
    }

    fn item(&self, item: Item) -> Item {
        match item {
            Item::Line { points, stroke } => Item::Line { points: self.points(points), stroke: self.stroke(stroke) },
            Item::Area { points, fill, stroke } => {
                Item::Area { points: self.points(points), fill, stroke: stroke.map(|s| self.stroke(s)) }
            }
            Item::Circle { centre, radius, fill, stroke } => Item::Circle {
                centre: self.point(centre),
                radius: radius * self.by,
                fill,
                stroke: stroke.map(|s| self.stroke(s)),
            },
            Item::Text { at, text, size, anchor, role, weight } => {
                Item::Text { at: self.point(at), text, size: size * self.by, anchor, role, weight }
            }
            Item::Clip { at, size } => Item::Clip {
                at: self.point(at),
                size: Page { width: size.width * self.by, height: size.height * self.by },
            },
            Item::Unclip => Item::Unclip,
        }
    }
}

/// Puts a scene onto the pen's page.
pub(super) fn put(pen: &mut Pen, scene: Scene, place: Place) {
    if place.has_halo {
        for item in &scene.items {
            if let Some(halo) = halo(&place.item(item.clone())) {
                pen.item(halo);
            }
        }
    }
    for item in scene.items {
        pen.item(place.item(item));
    }
    for target in scene.targets {
        pen.target(place.points(target.shape), target.name, target.detail);
    }
}

/// What lies under an item on a clear ground.
fn halo(item: &Item) -> Option<Item> {
    let under = |stroke: Stroke| Stroke {
        role: Role::Paper,
        width: stroke.width + 2.0 * HALO,
        pattern: Pattern::Solid,
        opacity: HALO_OPACITY,
    };
    match item {
        Item::Line { points, stroke } => Some(Item::Line { points: points.clone(), stroke: under(*stroke) }),
        Item::Area { points, stroke: Some(stroke), .. } => {
            Some(Item::Area { points: points.clone(), fill: None, stroke: Some(under(*stroke)) })
        }
        Item::Circle { centre, radius, stroke: Some(stroke), .. } => {
            Some(Item::Circle { centre: *centre, radius: *radius, fill: None, stroke: Some(under(*stroke)) })
        }
        Item::Area { .. } | Item::Circle { .. } | Item::Text { .. } => None,
        Item::Clip { .. } | Item::Unclip => Some(item.clone()),
    }
}

/// A frame's letter in its circle, `by` times as large as on the screen.
pub(super) fn balloon(pen: &mut Pen, centre: Pt, letter: &str, place: usize, by: f64) {
    let stroke = crate::drawing::pen::solid(Role::FrameLine(place), 1.6 * by.sqrt());
    let radius = crate::drawing::pen::BALLOON * by;
    pen.circle(centre, radius, Some(Fill { role: Role::Paper, opacity: 1.0 }), Some(stroke));
    let size = by * if letter.len() > 1 { 11.0 } else { 13.0 };
    let base = Pt { x: centre.x, y: centre.y + size * crate::drawing::CAP_HEIGHT / 2.0 };
    let face = crate::drawing::pen::Face::semibold(size, Role::FrameLetter(place));
    pen.text(base, letter, face, crate::drawing::Anchor::Middle);
}
