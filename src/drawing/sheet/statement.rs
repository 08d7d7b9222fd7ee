//! A statement picture: one finding as the headline, the reference's shape with the other frame's line over it, at most three
//! callouts, a line of conditions and the small print.

use super::SheetDrawing;
use super::placed::{Place, put};
use super::sheeted::Sheeted;
use crate::drawing::callouts::{self, Callout, Surroundings};
use crate::drawing::frame_shape::{self, FrameLook};
use crate::drawing::hatch::hatched;
use crate::drawing::measure::{LINE_HEIGHT, shorten, text_width, wrap};
use crate::drawing::order::frame_pattern_of;
use crate::drawing::outline_scene::road;
use crate::drawing::pen::{Face, Pen, solid};
use crate::drawing::rect::Rect;
use crate::drawing::scene::{Anchor, Fill, Page, Pattern, Pt, Role, Stroke};
use crate::drawing::standing::Standing;
use crate::drawing::view::{Canvas, Margins, View, fitted};
use crate::frameset::{Figure, FrameIndex};
use crate::geometry::{Point, SilhouettePart, area_beyond};
use crate::lineup::{BagSpaceFigure, CalloutFact, Findings, FrameFindings, Statement, StatementSubject, stated_frame};
use crate::units::Quantity;
use crate::words::drawings as labels;
use crate::words::{LeftOut, callout_words, short_frame, statement_conditions, statement_headline, statement_small_print};

/// Callouts at most.
const CALLOUTS: usize = 3;
/// How much wider lines are than on the screen.
const LINES: f64 = 1.6;
/// Width of a blank between runs of text, in text sizes.
const BLANK: f64 = 0.3;
/// Distance of hatching lines, page units.
const HATCHING: f64 = 8.0;

/// Both frames of a statement.
struct Pair<'a> {
    reference: (FrameIndex, &'a FrameFindings),
    other: (FrameIndex, &'a FrameFindings),
}

/// Lays a statement picture out.
pub(super) fn statement_scene(with: &Sheeted, statement: &Statement) -> SheetDrawing {
    let mut findings = with.findings.clone();
    let other = stated_frame(statement, &findings);
    let reference = findings.reference;
    for (place, frame) in FrameIndex::numbered(&mut findings.frames) {
        frame.shown &= Some(place) == other || Some(place) == reference;
    }
    let with = Sheeted { findings: &findings, ..*with };
    let frame = |place: FrameIndex| Some((place, place.of(&with.findings.frames)?));
    let pair = reference.and_then(frame).zip(other.and_then(frame)).map(|(reference, other)| Pair { reference, other });
    let mut pen = Pen::default();
    let safe = with.format.safe();
    let headline = statement_headline(with.lineup, with.findings, with.sheet, statement);
    let top = head(&mut pen, &with, safe, &headline, pair.as_ref());
    let notes = statement_small_print(with.lineup, with.findings, with.sheet);
    let (bottom, lost) = foot(&mut pen, &with, safe, &notes);
    let mut told = Vec::new();
    if let Some(pair) = &pair {
        // Wheels may run to the picture's edges; words keep to the safe area.
        let rect = Rect::new(0.0, top, with.format.page().width, bottom - top);
        told = drawing(&mut pen, &with, rect, statement.about, pair);
    }
    let names = pair.iter().flat_map(|p| [short_frame(p.reference.1), short_frame(p.other.1)]);
    let spoken: Vec<String> = std::iter::once(headline.clone()).chain(names).chain(told).chain(notes.iter().cloned()).collect();
    let left_out = (lost > 0).then_some(LeftOut::Footnotes { lost, of: notes.len() });
    SheetDrawing { scene: pen.finish(with.format.page(), headline, spoken.join(". ")), left_out: left_out.into_iter().collect() }
}

/// Headline and conditions; gives back where they end.
fn head(pen: &mut Pen, with: &Sheeted, rect: Rect, headline: &str, pair: Option<&Pair>) -> f64 {
    let title = Face::semibold(with.least * if with.format.is_wide() { 2.1 } else { 1.9 }, Role::Ink);
    let lines = wrap(headline, title.size, title.weight, rect.width, if with.format.is_wide() { 2 } else { 3 });
    let conditions = conditions(with, rect.width, pair);
    let pitch = with.least * LINE_HEIGHT * 1.05;
    let height = lines.len() as f64 * title.size * 1.2 + conditions.len() as f64 * pitch;
    with.backing(pen, Rect::new(rect.x, rect.y, rect.width, height));
    let mut y = rect.y;
    for line in lines {
        pen.text(Pt { x: rect.x, y: y + title.size * 0.86 }, line, title, Anchor::Start);
        y += title.size * 1.2;
    }
    for line in conditions {
        let mut x = rect.x;
        for (text, face) in line {
            let width = text_width(&text, face.size, face.weight);
            pen.text(Pt { x, y: y + with.least }, text, face, Anchor::Start);
            x += width + with.least * BLANK;
        }
        y += pitch;
    }
    y
}

/// The conditions in lines of runs: the frames in their colours, then what both share.
fn conditions(with: &Sheeted, width: f64, pair: Option<&Pair>) -> Vec<Vec<(String, Face)>> {
    let plain = Face::regular(with.least, Role::SecondInk);
    let rest = statement_conditions(with.lineup, with.findings, with.sheet);
    let rest_lines = |width: f64| wrap(&rest, plain.size, plain.weight, width, 2).into_iter().map(|text| vec![(text, plain)]);
    let Some(pair) = pair else { return rest_lines(width).collect() };
    let run = |(place, frame): (FrameIndex, &FrameFindings), room: f64| {
        let face = Face::semibold(with.least, Role::FrameLetter(place));
        (shorten(&short_frame(frame), face.size, face.weight, room), face)
    };
    let against = || (labels::AGAINST.to_owned(), plain);
    let blank = with.least * BLANK;
    let measure = |line: &[(String, Face)]| {
        line.iter().map(|(text, face)| text_width(text, face.size, face.weight) + blank).sum::<f64>() - blank
    };
    let whole = vec![run(pair.other, width), against(), run(pair.reference, width)];
    if measure(&whole) > width {
        // One frame a line.
        let lead = measure(&[against()]) + blank;
        let second = vec![against(), run(pair.reference, width - lead)];
        return [vec![run(pair.other, width)], second].into_iter().chain(rest_lines(width).take(1)).collect();
    }
    let mut longer = whole.clone();
    longer.push((format!("· {rest}"), plain));
    if measure(&longer) <= width { vec![longer] } else { std::iter::once(whole).chain(rest_lines(width)).collect() }
}

/// The small print at the foot, whole sentences only; gives back where it begins and how many notes were lost.
fn foot(pen: &mut Pen, with: &Sheeted, rect: Rect, notes: &[String]) -> (f64, usize) {
    let face = Face::regular(with.least, Role::SecondInk);
    let most = if with.format.is_wide() { 2 } else { 5 };
    let lines_of = |count: usize| wrap(&notes[..count].join(" "), face.size, face.weight, rect.width, 1000);
    let count = (1..=notes.len()).rev().find(|count| lines_of(*count).len() <= most).unwrap_or_else(|| notes.len().min(1));
    let lines = lines_of(count);
    let pitch = face.size * LINE_HEIGHT;
    let top = rect.bottom() - pitch * lines.len() as f64;
    with.backing(pen, Rect::new(rect.x, top, rect.width, rect.bottom() - top));
    for (i, line) in lines.into_iter().enumerate() {
        pen.text(Pt { x: rect.x, y: top + pitch * i as f64 + face.size }, line, face, Anchor::Start);
    }
    (top - with.least * 0.4, notes.len() - count)
}

/// The drawing with its callouts; gives back what these say.
fn drawing(pen: &mut Pen, with: &Sheeted, rect: Rect, about: StatementSubject, pair: &Pair) -> Vec<String> {
    let align_at = with.lineup.settings.outline.align_at;
    let (Some(reference), Some(other)) = (Standing::of(pair.reference.1, align_at), Standing::of(pair.other.1, align_at)) else {
        return Vec::new();
    };
    let page = rect.size();
    let canvas = Canvas { rect: Rect::of_page(page), view: view(page, about, &[&reference, &other]) };
    let mut own = Pen::default();
    own.clip(canvas.rect);
    if about == StatementSubject::Steering {
        road(&mut own, canvas, &reference);
    }
    frame_shape::draw_wheels(&mut own, canvas, &reference, pair.reference.0);
    let look =
        |place, is_filled, pattern| FrameLook { place, is_filled, has_saddle: false, pattern, frames: 2, steps_back: false };
    frame_shape::draw(&mut own, canvas, &reference, look(pair.reference.0, true, Pattern::Solid));
    let bags = if about == StatementSubject::Bags { bags(&mut own, canvas, pair, [&reference, &other]) } else { None };
    frame_shape::draw(&mut own, canvas, &other, look(pair.other.0, false, frame_pattern_of(with.findings, pair.other.0)));
    own.unclip();
    let has_halo = with.sheet.background.is_clear();
    let scene = own.finish(page, "", "");
    put(pen, scene, Place { at: Pt { x: rect.x, y: rect.y }, by: 1.0, lines_by: LINES, has_halo });
    let on_sheet = Canvas { rect, ..canvas };
    let safe = with.format.safe();
    let field = Rect::new(safe.x, rect.y, safe.width, rect.height);
    let mut around = surroundings(field, on_sheet, &[&reference, &other]);
    if let (StatementSubject::Steering, Some(road_y)) = (about, reference.outline.road_y) {
        let y = on_sheet.at(reference.on_drawing(Point { x: 0.0, y: road_y })).y;
        around.lines.push([Pt { x: rect.x, y }, Pt { x: rect.right(), y }]);
    }
    let mut told = Vec::new();
    if let Some(middle) = bags {
        let at = Pt { x: middle.x + rect.x, y: middle.y + rect.y };
        told.extend(litres(pen, with, at, pair, &mut around));
    }
    told.extend(callouts_of(pen, with, on_sheet, about, pair.other.0, &other, &around));
    told
}

/// The view that shows both shapes; on steering pictures down to the ground.
fn view(page: Page, about: StatementSubject, frames: &[&Standing]) -> View {
    let mut low = Point { x: f64::INFINITY, y: f64::INFINITY };
    let mut high = Point { x: f64::NEG_INFINITY, y: f64::NEG_INFINITY };
    let mut take = |p: Point<f64>| {
        low = Point { x: low.x.min(p.x), y: low.y.min(p.y) };
        high = Point { x: high.x.max(p.x), y: high.y.max(p.y) };
    };
    for stands in frames {
        stands.silhouette().iter().flat_map(|part| &part.edge).for_each(|p| take(stands.on_drawing(*p)));
        if let (StatementSubject::Steering, Some(wheel)) = (about, stands.outline.front_wheel) {
            take(stands.on_drawing(Point { x: wheel.axle.x, y: wheel.axle.y - wheel.tyre_radius_mm }));
        }
    }
    if !(low.x.is_finite() && high.x.is_finite()) {
        (low, high) = (Point { x: -600.0, y: -100.0 }, Point { x: 700.0, y: 700.0 });
    }
    // Words stand at both sides and above.
    let side = page.width * if page.width > page.height { 0.2 } else { 0.08 };
    let (top, bottom) =
        if page.width > page.height { (page.height * 0.1, page.height * 0.05) } else { (page.height * 0.22, page.height * 0.22) };
    fitted(low, high, page, Margins { side, top, bottom })
}

/// The reference's bag filled, and hatched what the other frame's bag has beyond it or lacks; gives back where the litres go.
fn bags(pen: &mut Pen, canvas: Canvas, pair: &Pair, stands: [&Standing; 2]) -> Option<Pt> {
    let on_drawing = |stands: &Standing, frame: &FrameFindings| {
        Some(frame.luggage.bag()?.outline.iter().map(|p| stands.on_drawing(*p)).collect::<Vec<Point<f64>>>())
    };
    let (own, theirs) = (on_drawing(stands[0], pair.reference.1)?, on_drawing(stands[1], pair.other.1)?);
    let on_page = |points: &[Point<f64>]| points.iter().map(|p| canvas.at(*p)).collect::<Vec<Pt>>();
    let bag = on_page(&own);
    pen.area(bag.clone(), Some(Fill { role: Role::FrameLine(pair.reference.0), opacity: 0.12 }), None);
    let sides = [(area_beyond(&theirs, &own), pair.other.0, true), (area_beyond(&own, &theirs), pair.reference.0, false)];
    for (parts, place, is_rising) in sides {
        let stroke = Stroke { opacity: 0.75, ..solid(Role::FrameLine(place), 0.9) };
        for part in &parts {
            let rings: Vec<Vec<Pt>> = SilhouettePart::rings(part).map(|ring| on_page(ring)).collect();
            for line in hatched(&rings, HATCHING, is_rising) {
                pen.line(line.to_vec(), stroke);
            }
        }
    }
    let count = bag.len().max(1) as f64;
    Some(Pt { x: bag.iter().map(|p| p.x).sum::<f64>() / count, y: bag.iter().map(|p| p.y).sum::<f64>() / count })
}

/// The litres of both bags, each in its frame's colour, around a point.
fn litres(pen: &mut Pen, with: &Sheeted, at: Pt, pair: &Pair, around: &mut Surroundings) -> Vec<String> {
    let units = with.lineup.settings.units;
    let size = with.least * 1.25;
    let mut told = Vec::new();
    for (row, (place, frame)) in [pair.reference, pair.other].into_iter().enumerate() {
        let Some(value) = BagSpaceFigure::Litres.of(frame) else { continue };
        let text = format!("{} {}", frame.letter, units.text(Quantity::Volume, value));
        let face = Face::semibold(size, Role::FrameLetter(place));
        let base = Pt { x: at.x, y: at.y + (row as f64 - 0.1) * size * 1.25 };
        around.covered.push(pen.backed_text(base, text.clone(), face, Anchor::Middle));
        told.push(text);
    }
    told
}

/// What callouts must not cover.
fn surroundings(field: Rect, canvas: Canvas, frames: &[&Standing]) -> Surroundings {
    let mut around = Surroundings { field, lines: Vec::new(), covered: Vec::new(), faint: Vec::new() };
    for stands in frames {
        let at = |p: &Point<f64>| canvas.at(stands.on_drawing(*p));
        for ring in stands.silhouette().iter().flat_map(SilhouettePart::rings) {
            let next = ring.iter().cycle().skip(1);
            around.lines.extend(ring.iter().zip(next).map(|(a, b)| [at(a), at(b)]));
        }
    }
    let wheels = frames.first().into_iter().flat_map(|s| [s.outline.rear_wheel, s.outline.front_wheel].map(|wheel| (s, wheel)));
    for (stands, wheel) in wheels {
        let Some(wheel) = wheel else { continue };
        let centre = canvas.at(stands.on_drawing(wheel.axle));
        around.faint.extend([wheel.tyre_radius_mm, wheel.rim_radius_mm].map(|radius| (centre, canvas.px(radius))));
    }
    around
}

/// The point that a callout about a figure is tied to, mm from the bottom bracket.
fn point_of(figure: Figure, stands: &Standing) -> Option<Point<f64>> {
    let p = &stands.outline.points;
    let middle = |a: Point<f64>, b: Point<f64>| Point { x: f64::midpoint(a.x, b.x), y: f64::midpoint(a.y, b.y) };
    let bottom = Point { x: 0.0, y: 0.0 };
    Some(match figure {
        Figure::Stack | Figure::Reach => p.head_top,
        Figure::HeadAngle => middle(p.head_top, p.head_bottom),
        Figure::SeatAngle => middle(p.seat_foot, p.seat_top),
        Figure::SeatTube => p.seat_top,
        Figure::Standover => middle(p.top_tube_rear, p.top_tube_front),
        Figure::Chainstay => middle(stands.outline.rear_wheel?.axle, bottom),
        Figure::BbDrop => bottom,
        Figure::AxleToCrownAlongAxis => p.crown,
        Figure::Wheelbase | Figure::FrontCentre | Figure::ForkOffset => stands.outline.front_wheel?.axle,
        Figure::Trail => {
            let wheel = stands.outline.front_wheel?;
            Point { x: wheel.axle.x, y: wheel.axle.y - wheel.tyre_radius_mm }
        }
        _ => return None,
    })
}

/// Draws the callouts that find a place; gives back what they say.
fn callouts_of(
    pen: &mut Pen,
    with: &Sheeted,
    canvas: Canvas,
    about: StatementSubject,
    place: FrameIndex,
    stands: &Standing,
    around: &Surroundings,
) -> Vec<String> {
    let findings: &Findings = with.findings;
    let number = Face::semibold(with.least * 1.3, Role::FrameLetter(place));
    let what = Face::regular(with.least, Role::SecondInk);
    let facts: Vec<(CalloutFact, Pt)> = findings
        .callout_facts(place, about.figures())
        .into_iter()
        .filter_map(|fact| Some((fact, canvas.at(stands.on_drawing(point_of(fact.figure, stands)?)))))
        .filter(|(_, at)| around.field.contains(*at))
        .take(CALLOUTS)
        .collect();
    let words: Vec<_> = facts.iter().map(|(fact, _)| callout_words(with.lineup.settings.units, fact)).collect();
    let height = number.size * 1.15 + what.size * LINE_HEIGHT;
    let wanted: Vec<Callout> = facts
        .iter()
        .zip(&words)
        .map(|((_, at), words)| {
            let widths = [(words.difference.as_str(), number), (words.what, what)].map(|(t, f)| text_width(t, f.size, f.weight));
            Callout { at: *at, width: widths[0].max(widths[1]), height }
        })
        .collect();
    let line = solid(Role::Ink, 1.3);
    let mut told = Vec::new();
    for ((spot, callout), words) in callouts::placed(&wanted, around).into_iter().zip(&wanted).zip(&words) {
        let Some(spot) = spot else { continue };
        with.backing(pen, spot.rect);
        pen.line(vec![spot.from, callout.at], line);
        pen.circle(callout.at, 4.0, Some(Fill { role: Role::Ink, opacity: 1.0 }), None);
        let base = Pt { x: spot.rect.x, y: spot.rect.y + number.size * 0.9 };
        pen.text(base, words.difference.clone(), number, Anchor::Start);
        pen.text(Pt { y: base.y + what.size * 1.25, ..base }, words.what, what, Anchor::Start);
        told.push(format!("{}: {}", words.what, words.difference));
    }
    told
}
