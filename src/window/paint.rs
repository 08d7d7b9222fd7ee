//! Paints a drawing's scene with the toolkit: the same items that the exporters write, at one point a page unit.
//!
//! It decides nothing about what is shown. Invariant: every kind of item is painted (the matches are exhaustive).

use egui::{Align2, Color32, Mesh, Painter, Pos2, Rect, Shape, Vec2, epaint::PathShape, epaint::PathStroke, pos2, vec2};

use super::theme::{Tones, regular, semibold};
use crate::drawing::{Anchor, Fill, Item, Pattern, Pt, Role, Scene, Stroke, Weight, dashes, frame_pattern};

/// Paints `scene` with its top left corner at `origin`.
pub(crate) fn scene(painter: &Painter, origin: Pos2, scene: &Scene, tones: Tones) {
    let page = Rect::from_min_size(origin, vec2(scene.page.width as f32, scene.page.height as f32));
    let whole = painter.with_clip_rect(painter.clip_rect().intersect(page));
    let mut clipped = whole.clone();
    for item in &scene.items {
        match item {
            Item::Line { points, stroke } => line(&clipped, &placed(points, origin), *stroke, tones, false),
            Item::Area { points, fill, stroke } => {
                let points = placed(points, origin);
                if let Some(fill) = fill {
                    area(&clipped, &points, fill_colour(*fill, tones));
                }
                if let Some(stroke) = stroke {
                    line(&clipped, &points, *stroke, tones, true);
                }
            }
            Item::Circle { centre, radius, fill, stroke } => {
                circle(&clipped, at(*centre, origin), *radius as f32, *fill, *stroke, tones);
            }
            Item::Text { at: place, text, size, anchor, role, weight } => {
                let font = match weight {
                    Weight::Regular => regular(*size as f32),
                    Weight::Semibold => semibold(*size as f32),
                };
                words(&clipped, at(*place, origin), text, font, *anchor, tones.colour(*role));
            }
            Item::Clip { at: corner, size } => {
                let rect = Rect::from_min_size(at(*corner, origin), vec2(size.width as f32, size.height as f32));
                clipped = whole.with_clip_rect(whole.clip_rect().intersect(rect));
            }
            Item::Unclip => clipped = whole.clone(),
        }
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
fn line(painter: &Painter, points: &[Pos2], stroke: Stroke, tones: Tones, is_closed: bool) {
    let look = egui::Stroke::new(stroke.width as f32, tones.faded(stroke.role, stroke.opacity));
    let dashes = dashes(stroke);
    if dashes.is_empty() {
        let shape =
            if is_closed { PathShape::closed_line(points.to_vec(), look) } else { PathShape::line(points.to_vec(), look) };
        painter.add(shape);
        return;
    }
    let mut path = points.to_vec();
    if is_closed && let Some(first) = points.first() {
        path.push(*first);
    }
    let lengths: Vec<f32> = dashes.into_iter().map(|d| d as f32).collect();
    painter.extend(broken(&path, &lengths).into_iter().map(|[from, to]| Shape::line_segment([from, to], look)));
}

/// How far a dash may pass beside a bend of its line, points: less than anybody sees.
const STRAIGHT: f32 = 0.2;

/// The dashes of a polyline, each as straight pieces: dash, gap, dash, gap … of these lengths. A dash is broken at a bend
/// only where it would leave it by more than [`STRAIGHT`]: a wheel's edge takes a piece a dash, not one more for each of
/// its chords.
fn broken(path: &[Pos2], lengths: &[f32]) -> Vec<[Pos2; 2]> {
    let mut pieces = Vec::new();
    let (Some(first), true) = (path.first(), lengths.iter().sum::<f32>() > 0.0) else { return pieces };
    let (mut place, mut left, mut begin) = (0, lengths[0], *first);
    for (index, ends) in path.windows(2).enumerate() {
        let (mut at, corner) = (ends[0], ends[1]);
        let way = (corner - at).normalized();
        while (corner - at).length() >= left {
            at += way * left;
            if place % 2 == 0 {
                pieces.push([begin, at]);
            }
            place = (place + 1) % lengths.len();
            (left, begin) = (lengths[place], at);
        }
        left -= (corner - at).length();
        let is_bent = path.get(index + 2).is_none_or(|next| beside(begin, corner, *next, left) > STRAIGHT);
        if place % 2 == 0 && is_bent && begin != corner {
            pieces.push([begin, corner]);
            begin = corner;
        }
    }
    pieces
}

/// How far the straight way from `begin` to `left` behind `corner`, towards `next`, passes beside the corner.
fn beside(begin: Pos2, corner: Pos2, next: Pos2, left: f32) -> f32 {
    let (before, behind) = (corner - begin, next - corner);
    let (long, short) = (before.length(), behind.length().min(left));
    let across = before.rot90().dot(behind.normalized()).abs();
    if long + short > 0.0 { across * short / (long + short) } else { 0.0 }
}

/// A filled outline: the toolkit's own fill, with its soft edge, where the outline is convex, triangles otherwise.
fn area(painter: &Painter, points: &[Pos2], fill: Color32) {
    if is_convex(points) {
        painter.add(PathShape::convex_polygon(points.to_vec(), fill, PathStroke::NONE));
        return;
    }
    let mut triangles: Vec<u32> = Vec::new();
    earcut::Earcut::new().earcut(points.iter().map(|p| [p.x, p.y]), &[], &mut triangles);
    let mut mesh = Mesh::default();
    for point in points {
        mesh.colored_vertex(*point, fill);
    }
    for corners in triangles.chunks_exact(3) {
        mesh.add_triangle(corners[0], corners[1], corners[2]);
    }
    painter.add(Shape::mesh(mesh));
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

fn circle(painter: &Painter, centre: Pos2, radius: f32, fill: Option<Fill>, stroke: Option<Stroke>, tones: Tones) {
    if let Some(fill) = fill {
        painter.circle_filled(centre, radius, fill_colour(fill, tones));
    }
    let Some(stroke) = stroke else { return };
    if stroke.pattern == Pattern::Solid {
        painter.circle_stroke(centre, radius, (stroke.width as f32, tones.faded(stroke.role, stroke.opacity)));
        return;
    }
    // Chords stay within a tenth of a point of the arc.
    let steps = (std::f32::consts::PI / (0.45 / radius.max(1.0).sqrt())).ceil().clamp(16.0, 360.0);
    let points: Vec<Pos2> =
        (0..steps as usize).map(|i| centre + radius * Vec2::angled(std::f32::consts::TAU * i as f32 / steps)).collect();
    line(painter, &points, stroke, tones, true);
}

/// One line of text with its base line at `place`.
fn words(painter: &Painter, place: Pos2, text: &str, font: egui::FontId, anchor: Anchor, colour: Color32) {
    let galley = painter.layout_no_wrap(text.to_owned(), font, colour);
    let base = galley.rows.first().and_then(|row| row.glyphs.first().map(|g| row.pos.y + g.pos.y)).unwrap_or(galley.size().y);
    let left = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => galley.size().x / 2.0,
        Anchor::End => galley.size().x,
    };
    painter.galley(place - vec2(left, base), galley, colour);
}

/// A frame's letter in its circle.
pub(crate) fn tag(painter: &Painter, centre: Pos2, radius: f32, letter: &str, index: usize, tones: Tones) {
    painter.circle(centre, radius, tones.paper(), (1.6, tones.colour(Role::FrameLine(index))));
    let size = if letter.len() > 1 { radius * 0.95 } else { radius * 1.2 };
    painter.text(centre, Align2::CENTER_CENTER, letter, regular(size), tones.colour(Role::FrameLetter(index)));
}

/// A sample of a frame's line.
pub(crate) fn sample(painter: &Painter, from: Pos2, length: f32, index: usize, is_reference: bool, tones: Tones) {
    let pattern = frame_pattern(index, is_reference);
    let stroke = Stroke { role: Role::FrameLine(index), width: 2.0, pattern, opacity: 1.0 };
    line(painter, &[from, pos2(from.x + length, from.y)], stroke, tones, false);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dashes_break_at_corners_and_run_over_a_wheels_chords() {
        let straight = broken(&[pos2(0.0, 0.0), pos2(10.0, 0.0)], &[3.0, 2.0]);
        assert_eq!(straight, [[pos2(0.0, 0.0), pos2(3.0, 0.0)], [pos2(5.0, 0.0), pos2(8.0, 0.0)]]);
        let corner = broken(&[pos2(0.0, 0.0), pos2(4.0, 0.0), pos2(4.0, 4.0)], &[6.0, 1.0]);
        assert_eq!(
            corner,
            [[pos2(0.0, 0.0), pos2(4.0, 0.0)], [pos2(4.0, 0.0), pos2(4.0, 2.0)], [pos2(4.0, 3.0), pos2(4.0, 4.0)]]
        );
        let wheel: Vec<Pos2> =
            (0..=100).map(|i| pos2(0.0, 0.0) + 200.0 * Vec2::angled(std::f32::consts::TAU * i as f32 / 100.0)).collect();
        let pieces = broken(&wheel, &[8.0, 4.0]);
        let around: f32 = wheel.windows(2).map(|p| p[0].distance(p[1])).sum();
        assert_eq!(pieces.len(), (around / 12.0).ceil() as usize, "a piece a dash");
        assert!(pieces.iter().flatten().all(|p| (p.to_vec2().length() - 200.0).abs() < 0.3), "on the wheel");
        assert!(broken(&wheel, &[0.0, 0.0]).is_empty() && broken(&[], &[3.0, 2.0]).is_empty());
    }

    #[test]
    fn convex_and_not() {
        let square = [pos2(0.0, 0.0), pos2(4.0, 0.0), pos2(4.0, 4.0), pos2(0.0, 4.0)];
        assert!(is_convex(&square));
        let boomerang = [pos2(0.0, 0.0), pos2(4.0, 0.0), pos2(1.0, 1.0), pos2(0.0, 4.0)];
        assert!(!is_convex(&boomerang));
    }
}
