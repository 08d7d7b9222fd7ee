//! Paints a drawing's scene with the toolkit: the same items that the exporters write, at one point a page unit.
//!
//! It decides nothing about what is shown. Invariant: every kind of item is painted (the matches are exhaustive).

use egui::{Align2, Color32, Mesh, Painter, Pos2, Rect, Shape, epaint::PathShape, epaint::PathStroke, vec2};

use super::theme::{Tones, regular, semibold};
use crate::drawing::{self, Anchor, Fill, Item, Pattern, Pt, Role, Scene, Stroke, Weight, broken, dashes, near};
use crate::frameset::FrameIndex;

/// Paints `scene` with its top left corner at `origin`. Whatever reaches far beyond the page is cut near it first.
pub(crate) fn scene(painter: &Painter, origin: Pos2, scene: &Scene, tones: Tones) {
    let page = Rect::from_min_size(origin, vec2(scene.page.width as f32, scene.page.height as f32));
    let whole = painter.with_clip_rect(painter.clip_rect().intersect(page));
    let mut clipped = whole.clone();
    let field = drawing::Rect::of_page(scene.page);
    let mut shapes = Vec::new();
    for item in &scene.items {
        match item {
            Item::Clip { at: corner, size } => {
                let rect = Rect::from_min_size(at(*corner, origin), vec2(size.width as f32, size.height as f32));
                clipped = whole.with_clip_rect(whole.clip_rect().intersect(rect));
            }
            Item::Unclip => clipped = whole.clone(),
            Item::Line { .. } | Item::Area { .. } | Item::Shape { .. } | Item::Circle { .. } | Item::Text { .. } => {
                for item in near(item, field).iter() {
                    put(&mut shapes, painter, origin, item, tones);
                }
                clipped.extend(shapes.drain(..));
            }
        }
    }
}

/// The shapes of items that lie on `field` of a page whose top left corner is at `origin`; clips are left out.
pub(crate) fn shapes(painter: &Painter, origin: Pos2, items: &[Item], field: drawing::Rect, tones: Tones) -> Vec<Shape> {
    let mut shapes = Vec::with_capacity(items.len());
    for item in items {
        for item in near(item, field).iter() {
            put(&mut shapes, painter, origin, item, tones);
        }
    }
    shapes
}

fn put(shapes: &mut Vec<Shape>, painter: &Painter, origin: Pos2, item: &Item, tones: Tones) {
    match item {
        Item::Line { points, stroke } => line(shapes, points, origin, *stroke, tones, false),
        Item::Area { points, fill, stroke } => {
            if let Some(fill) = fill {
                shapes.push(area(&placed(points, origin), fill_colour(*fill, tones)));
            }
            if let Some(stroke) = stroke {
                line(shapes, points, origin, *stroke, tones, true);
            }
        }
        Item::Shape { rings, fill } => {
            let rings: Vec<Vec<Pos2>> = rings.iter().map(|ring| placed(ring, origin)).collect();
            shapes.push(triangles(&rings, fill_colour(*fill, tones)));
        }
        Item::Circle { centre, radius, fill, stroke } => circle(shapes, *centre, origin, *radius, *fill, *stroke, tones),
        Item::Text { at: place, text, size, anchor, role, weight } => {
            let font = match weight {
                Weight::Regular => regular(*size as f32),
                Weight::Semibold => semibold(*size as f32),
            };
            shapes.push(words(painter, at(*place, origin), text, font, *anchor, tones.colour(*role)));
        }
        Item::Clip { .. } | Item::Unclip => {}
    }
}

fn at(point: Pt, origin: Pos2) -> Pos2 {
    origin + vec2(point.x as f32, point.y as f32)
}

fn placed(points: &[Pt], origin: Pos2) -> Vec<Pos2> {
    points.iter().map(|p| at(*p, origin)).collect()
}

fn fill_colour(fill: Fill, tones: Tones) -> Color32 {
    tones.faded(fill.role, fill.opacity)
}

/// A polyline, or a closed outline's edge, broken as its pattern says.
fn line(shapes: &mut Vec<Shape>, points: &[Pt], origin: Pos2, stroke: Stroke, tones: Tones, is_closed: bool) {
    let look = egui::Stroke::new(stroke.width as f32, tones.faded(stroke.role, stroke.opacity));
    let dashes = dashes(stroke);
    let pieces = match points.first() {
        Some(first) if is_closed && !dashes.is_empty() => broken(&[points, &[*first]].concat(), &dashes),
        _ => broken(points, &dashes),
    };
    match pieces {
        Some(pieces) => {
            let piece = |[from, to]: [Pt; 2]| Shape::line_segment([at(from, origin), at(to, origin)], look);
            shapes.extend(pieces.into_iter().map(piece));
        }
        None if is_closed => shapes.push(PathShape::closed_line(placed(points, origin), look).into()),
        None if points.len() == 2 => {
            shapes.push(Shape::line_segment([at(points[0], origin), at(points[1], origin)], look));
        }
        None => shapes.push(PathShape::line(placed(points, origin), look).into()),
    }
}

/// A filled outline: the toolkit's own fill, with its soft edge, where the outline is convex, triangles otherwise.
fn area(points: &[Pos2], fill: Color32) -> Shape {
    if is_convex(points) {
        return PathShape::convex_polygon(points.to_vec(), fill, PathStroke::NONE).into();
    }
    triangles(&[points.to_vec()], fill)
}

/// What lies within the first ring and outside the others, which lie in it, as triangles.
fn triangles(rings: &[Vec<Pos2>], fill: Color32) -> Shape {
    let starts = rings.iter().scan(0_u32, |before, ring| {
        let start = *before;
        *before += ring.len() as u32;
        Some(start)
    });
    let openings: Vec<u32> = starts.skip(1).collect();
    let mut triangles: Vec<u32> = Vec::new();
    earcut::Earcut::new().earcut(rings.iter().flatten().map(|p| [p.x, p.y]), &openings, &mut triangles);
    let mut mesh = Mesh::default();
    for point in rings.iter().flatten() {
        mesh.colored_vertex(*point, fill);
    }
    for corners in triangles.chunks_exact(3) {
        mesh.add_triangle(corners[0], corners[1], corners[2]);
    }
    Shape::mesh(mesh)
}

/// Whether an outline turns one way only. Collinear points are neither way.
fn is_convex(points: &[Pos2]) -> bool {
    let count = points.len();
    let turn = |i: usize| {
        let (a, b, c) = (points[i], points[(i + 1) % count], points[(i + 2) % count]);
        (b - a).x * (c - b).y - (b - a).y * (c - b).x
    };
    let turns = (0..count).map(turn);
    let (low, high) = turns.fold((0.0_f32, 0.0_f32), |(low, high), t| (low.min(t), high.max(t)));
    low >= -1e-3 || high <= 1e-3
}

/// A small circle that is full and has an edge is one disc on another, which costs a fifth of a ring's triangles.
const SMALL_DISC: f64 = 12.0;

fn circle(
    shapes: &mut Vec<Shape>,
    centre: Pt,
    origin: Pos2,
    radius: f64,
    fill: Option<Fill>,
    stroke: Option<Stroke>,
    tones: Tones,
) {
    let place = at(centre, origin);
    if let (Some(fill), Some(edge)) = (fill, stroke)
        && (fill.opacity, edge.opacity, edge.pattern) == (1.0, 1.0, Pattern::Solid)
        && radius < SMALL_DISC
    {
        shapes.push(Shape::circle_filled(place, (radius + edge.width / 2.0) as f32, tones.colour(edge.role)));
        shapes.push(Shape::circle_filled(place, (radius - edge.width / 2.0).max(0.0) as f32, fill_colour(fill, tones)));
        return;
    }
    if let Some(fill) = fill {
        shapes.push(Shape::circle_filled(place, radius as f32, fill_colour(fill, tones)));
    }
    let Some(stroke) = stroke else { return };
    if stroke.pattern == Pattern::Solid {
        let look = (stroke.width as f32, tones.faded(stroke.role, stroke.opacity));
        shapes.push(Shape::circle_stroke(place, radius as f32, look));
        return;
    }
    // Chords stay within a tenth of a point of the arc.
    let steps = (std::f64::consts::PI / (0.45 / radius.max(1.0).sqrt())).ceil().clamp(16.0, 360.0);
    let corner = |i: usize| {
        let (sin, cos) = (std::f64::consts::TAU * i as f64 / steps).sin_cos();
        Pt { x: centre.x + radius * cos, y: centre.y + radius * sin }
    };
    let points: Vec<Pt> = (0..steps as usize).map(corner).collect();
    line(shapes, &points, origin, stroke, tones, true);
}

/// One line of text with its base line at `place`.
fn words(painter: &Painter, place: Pos2, text: &str, font: egui::FontId, anchor: Anchor, colour: Color32) -> Shape {
    let galley = painter.layout_no_wrap(text.to_owned(), font, colour);
    let base = galley.rows.first().and_then(|row| row.glyphs.first().map(|g| row.pos.y + g.pos.y)).unwrap_or(galley.size().y);
    let left = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => galley.size().x / 2.0,
        Anchor::End => galley.size().x,
    };
    Shape::galley(place - vec2(left, base), galley, colour)
}

/// A frame's letter in its circle.
pub(crate) fn tag(painter: &Painter, centre: Pos2, radius: f32, letter: &str, index: FrameIndex, tones: Tones) {
    painter.circle(centre, radius, tones.paper(), (1.6, tones.colour(Role::FrameLine(index))));
    let size = if letter.len() > 1 { radius * 0.95 } else { radius * 1.2 };
    painter.text(centre, Align2::CENTER_CENTER, letter, regular(size), tones.colour(Role::FrameLetter(index)));
}

/// A sample of a frame's line.
pub(crate) fn sample(painter: &Painter, from: Pos2, length: f32, index: FrameIndex, pattern: Pattern, tones: Tones) {
    let stroke = Stroke { role: Role::FrameLine(index), width: 2.0, pattern, opacity: 1.0 };
    let points = [Pt { x: 0.0, y: 0.0 }, Pt { x: f64::from(length), y: 0.0 }];
    let mut shapes = Vec::new();
    line(&mut shapes, &points, from, stroke, tones, false);
    painter.extend(shapes);
}

#[cfg(test)]
mod tests {
    use egui::pos2;

    use super::*;
    use crate::drawing::Page;

    /// What is painted of a scene of one item on a page of 1000 × 600.
    fn painted(item: Item) -> (usize, Rect) {
        let ctx = egui::Context::default();
        let page = Page { width: 1000.0, height: 600.0 };
        let scene = Scene { page, items: vec![item], targets: Vec::new(), title: String::new(), description: String::new() };
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            super::scene(&ui.painter().clone(), pos2(0.0, 0.0), &scene, Tones::on(false));
        });
        output.textures_delta.clear();
        let covered = output.shapes.iter().fold(Rect::NOTHING, |all, s| all.union(s.shape.visual_bounding_rect()));
        (output.shapes.len(), covered)
    }

    #[test]
    fn a_line_of_any_length_is_painted_in_pieces_that_can_be_counted() {
        let stroke = Stroke { role: Role::Ink, width: 1.6, pattern: Pattern::Frame(FrameIndex(3)), opacity: 1.0 };
        for far in [1e3, 1e5, 3e7, 1e12, 1e300] {
            let points = vec![Pt { x: -far, y: 300.0 }, Pt { x: far, y: 301.0 }];
            let (count, covered) = painted(Item::Line { points: points.clone(), stroke });
            assert!((100..2_000).contains(&count), "{count} pieces of a line of {far}");
            assert!(covered.width() < 3_000.0, "{covered:?}");
            let around = [points, vec![Pt { x: 0.0, y: far }]].concat();
            let fill = Some(Fill { role: Role::Ink, opacity: 1.0 });
            let (count, covered) = painted(Item::Area { points: around, fill, stroke: Some(stroke) });
            assert!((1..4_000).contains(&count) && covered.width() < 3_000.0, "{count} {covered:?}");
            let wheel = Item::Circle { centre: Pt { x: -far, y: 300.0 }, radius: far + 500.0, fill, stroke: Some(stroke) };
            let (count, covered) = painted(wheel);
            assert!((1..4_000).contains(&count) && covered.width() < 3_000.0, "{count} {covered:?}");
        }
    }

    #[test]
    fn convex_and_not() {
        let square = [pos2(0.0, 0.0), pos2(4.0, 0.0), pos2(4.0, 4.0), pos2(0.0, 4.0)];
        assert!(is_convex(&square));
        let boomerang = [pos2(0.0, 0.0), pos2(4.0, 0.0), pos2(1.0, 1.0), pos2(0.0, 4.0)];
        assert!(!is_convex(&boomerang));
    }
}
