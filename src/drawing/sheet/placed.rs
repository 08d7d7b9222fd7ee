//! A scene put onto another page, enlarged; on a clear ground with a halo around its lines, so that they are seen on any
//! film.

use crate::drawing::pen::Pen;
use crate::drawing::scene::{Fill, Item, Pattern, Pt, Role, Scene, Stroke};
use crate::frameset::FrameIndex;

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
const HALO: f64 = 1.5;
const HALO_OPACITY: f64 = 0.75;

/// Puts a scene onto the pen's page.
pub(super) fn put(pen: &mut Pen, scene: Scene, place: Place) {
    let item = |item: Item| item.grown(place.by, place.lines_by).moved(place.at);
    if place.has_halo {
        for under in scene.items.iter().filter_map(|i| halo(&item(i.clone()))) {
            pen.item(under);
        }
    }
    for over in scene.items {
        pen.item(item(over));
    }
    for target in scene.targets {
        let shape = target.shape.into_iter().map(|p| p.grown(place.by).moved(place.at)).collect();
        pen.target(shape, target.name, target.detail);
    }
}

/// What lies under a pale area.
const UNDER_PALE: Fill = Fill { role: Role::Background, opacity: 0.35 };

/// What lies under an item on a clear ground.
fn halo(item: &Item) -> Option<Item> {
    let under = |stroke: Stroke| Stroke {
        role: Role::Background,
        width: stroke.width + 2.0 * HALO,
        pattern: Pattern::Solid,
        opacity: HALO_OPACITY * stroke.opacity,
    };
    match item {
        Item::Line { points, stroke } => Some(Item::Line { points: points.clone(), stroke: under(*stroke) }),
        Item::Area { points, stroke: Some(stroke), .. } => {
            Some(Item::Area { points: points.clone(), fill: None, stroke: Some(under(*stroke)) })
        }
        Item::Circle { centre, radius, stroke: Some(stroke), .. } => {
            Some(Item::Circle { centre: *centre, radius: *radius, fill: None, stroke: Some(under(*stroke)) })
        }
        // The pale inside of tubes needs more under it than film.
        Item::Area { points, fill: Some(Fill { role: Role::FrameLine(_), .. }), stroke: None } => {
            Some(Item::Area { points: points.clone(), fill: Some(UNDER_PALE), stroke: None })
        }
        Item::Shape { rings, .. } => Some(Item::Shape { rings: rings.clone(), fill: UNDER_PALE }),
        Item::Area { .. } | Item::Circle { .. } | Item::Text { .. } => None,
        Item::Clip { .. } | Item::Unclip => Some(item.clone()),
    }
}

/// A frame's letter in its circle, `by` times as large as on the screen.
pub(super) fn balloon(pen: &mut Pen, centre: Pt, letter: &str, place: FrameIndex, by: f64) {
    let stroke = crate::drawing::pen::solid(Role::FrameLine(place), 1.6 * by.sqrt());
    let radius = crate::drawing::pen::BALLOON * by;
    pen.circle(centre, radius, Some(Fill { role: Role::Background, opacity: 1.0 }), Some(stroke));
    let size = by * if letter.len() > 1 { 11.0 } else { 13.0 };
    let base = Pt { x: centre.x, y: centre.y + size * crate::drawing::CAP_HEIGHT / 2.0 };
    let face = crate::drawing::pen::Face::semibold(size, Role::FrameLetter(place));
    pen.text(base, letter, face, crate::drawing::Anchor::Middle);
}
