//! One frame with its rider and each loading from the side, to one scale: where the bags hang, where the whole mass is, and
//! what each wheel carries.
//!
//! Invariant: all bicycles of the picture stand on one road and one scale.

use super::frame_shape::{self, FrameLook};
use super::loaded_scene::SIDE;
use super::measure::{CAP_HEIGHT, shorten};
use super::outline_scene::road;
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::rider_shape::{millimetres, rider_shape};
use super::scene::{Anchor, Fill, Page, Pt, Role, Scene, Stroke};
use super::standing::Standing;
use super::view::{Canvas, Margins, fitted};
use crate::frameset::FrameIndex;
use crate::geometry::{AdjustedSize, Point, SilhouettePart};
use crate::lineup::{AlignAt, Findings, FrameFindings, Lineup, LoadedSide};
use crate::loaded::LoadedFigure;
use crate::units::capitalised;
use crate::words::drawings as labels;
use crate::words::{
    CENTRE_OF_MASS, hung_bag_text, loaded_side_sentences, loaded_sides_title, loaded_text, loading_in_brief, luggage_place_label,
    luggage_text, not_loaded_text,
};

/// Least and greatest width of one bicycle, page units.
const LEAST: f64 = 210.0;
const MOST: f64 = 460.0;
const GAP: f64 = 12.0;
/// Half the length of a saddle, m. A sketch.
const HALF_SADDLE: f64 = 0.135;
/// Least height of one bicycle with its rider, page units.
const LEAST_BICYCLE: f64 = 150.0;
const HEAD: f64 = 26.0;
/// Below the road: the loads.
const LOADS: f64 = 24.0;
/// The line that explains the mark.
const KEY: f64 = 24.0;
const HEADING: Face = Face::semibold(12.5, Role::Ink);
const LOAD: Face = Face::semibold(12.0, Role::Ink);
const SMALL: Face = Face::regular(11.5, Role::SecondInk);
const IN_BAG: Face = Face::semibold(11.0, Role::Ink);
/// Height of a bicycle with its rider as a share of its length.
const HEIGHT_SHARE: f64 = 1.0;
/// Radius of the mark of the centre of mass, page units.
const MARK: f64 = 6.5;
/// Least width of a bag in which its weight is written, page units.
const ROOM_FOR_WEIGHT: f64 = 34.0;

/// A frame with each loading on a page; the reference where no frame is named.
#[must_use]
pub fn loaded_sides_scene(lineup: &Lineup, findings: &Findings, frame: Option<FrameIndex>, page: Page) -> Scene {
    let mut pen = Pen::default();
    let Some(place) = frame_of_sides(findings, frame) else {
        pen.text(Rect::of_page(page).centre(), labels::NO_FRAME_IS_SHOWN, Face::regular(14.0, Role::SecondInk), Anchor::Middle);
        return pen.finish(page, loaded_sides_title(""), labels::NO_FRAME_IS_SHOWN);
    };
    Sides { lineup, findings, place }.draw(&mut pen, Rect::new(SIDE, 0.0, (page.width - 2.0 * SIDE).max(40.0), page.height));
    let letter = place.of(&findings.frames).map_or("", |f| f.letter.as_str());
    pen.finish(page, loaded_sides_title(letter), loaded_side_sentences(lineup, findings, place).join(" "))
}

/// The height at which it stands at ease in that width, page units.
#[must_use]
pub fn loaded_sides_height(lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    let (count, width) = (findings.loaded(lineup).loadings.len(), width - 2.0 * SIDE);
    let columns = columns(count, width);
    let each = each(columns, width);
    count.div_ceil(columns) as f64 * (HEAD + each * HEIGHT_SHARE + LOADS) + KEY
}

/// The least height at which it is worth drawing in that width, page units.
pub(super) fn least_sides_height(lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    let (count, width) = (findings.loaded(lineup).loadings.len(), width - 2.0 * SIDE);
    count.div_ceil(columns(count, width)) as f64 * (HEAD + LEAST_BICYCLE + LOADS) + KEY
}

/// The frame that is drawn: the one that is asked for, the reference, the first that is shown.
fn frame_of_sides(findings: &Findings, frame: Option<FrameIndex>) -> Option<FrameIndex> {
    let is_shown = |i: &FrameIndex| i.of(&findings.frames).is_some_and(|f| f.shown);
    let first = FrameIndex::all(findings.frames.len()).find(is_shown);
    frame.filter(is_shown).or_else(|| findings.reference.filter(is_shown)).or(first)
}

/// Bicycles side by side.
fn columns(count: usize, width: f64) -> usize {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
    let most = ((width + GAP) / (LEAST + GAP)).floor().max(1.0) as usize;
    count.clamp(1, most)
}

fn each(columns: usize, width: f64) -> f64 {
    ((width - GAP * (columns - 1) as f64) / columns as f64).min(MOST)
}

struct Sides<'a> {
    lineup: &'a Lineup,
    findings: &'a Findings,
    place: FrameIndex,
}

impl Sides<'_> {
    fn draw(&self, pen: &mut Pen, rect: Rect) {
        let Some(frame) = self.place.of(&self.findings.frames) else { return };
        let found = self.findings.loaded(self.lineup);
        let count = found.loadings.len();
        let sides: Vec<Option<LoadedSide>> =
            (0..count).map(|loading| self.findings.loaded_side(self.lineup, self.place, loading)).collect();
        let Some(stands) = Standing::of(frame, AlignAt::BottomBracket) else { return self.say_why_not(pen, rect) };
        // One rider sits alike with every loading.
        let rider = sides.iter().flatten().next().map(|side| rider_shape(&side.posture)).unwrap_or_default();
        let Some((low, high)) = bounds(&stands, &rider, sides.iter().flatten()) else { return self.say_why_not(pen, rect) };
        let columns = columns(count, rect.width);
        let rows = count.div_ceil(columns);
        let width = each(columns, rect.width);
        let height = ((rect.height - KEY) / rows as f64).max(HEAD + LOADS + 40.0);
        for (loading, side) in sides.iter().enumerate() {
            let (column, row) = (loading % columns, loading / columns);
            let cell = Rect::new(rect.x + column as f64 * (width + GAP), rect.y + row as f64 * height, width, height);
            let name = loading_in_brief(self.lineup.settings.units, found.loadings[loading].as_ref());
            let name = shorten(&capitalised(&name), HEADING.size, HEADING.weight, cell.width);
            pen.text(Pt { x: cell.x, y: cell.y + 16.0 }, name, HEADING, Anchor::Start);
            if let Some(side) = side {
                let field = Rect::new(cell.x, cell.y + HEAD, cell.width, cell.height - HEAD - LOADS);
                let view = fitted(low, high, field.size(), Margins { side: 2.0, top: 2.0, bottom: 2.0 });
                self.draw_side(pen, frame, &stands, (&rider, side), Canvas { rect: field, view });
            }
        }
        let base = rect.bottom() - 8.0;
        centre_mark(pen, Pt { x: rect.x + MARK, y: base - SMALL.size * CAP_HEIGHT / 2.0 });
        let words = shorten(CENTRE_OF_MASS, SMALL.size, SMALL.weight, rect.width - 2.0 * MARK - 6.0);
        pen.text(Pt { x: rect.x + 2.0 * MARK + 6.0, y: base }, words, SMALL, Anchor::Start);
    }

    /// Why nothing can be drawn.
    fn say_why_not(&self, pen: &mut Pen, rect: Rect) {
        let found = self.findings.loaded(self.lineup);
        let why = self.place.of(&found.frames).and_then(|f| f.rides.first()?.as_ref().err());
        let text = why.map_or_else(String::new, |why| not_loaded_text(self.lineup.settings.units, why));
        pen.text(Pt { x: rect.x, y: rect.y + 20.0 }, shorten(&text, SMALL.size, SMALL.weight, rect.width), SMALL, Anchor::Start);
    }

    fn draw_side(
        &self,
        pen: &mut Pen,
        frame: &FrameFindings,
        stands: &Standing,
        (rider, side): (&[SilhouettePart], &LoadedSide),
        canvas: Canvas,
    ) {
        let units = self.lineup.settings.units;
        let on_page = |point: Point<f64>| canvas.at(stands.on_drawing(point));
        pen.clip(canvas.rect);
        road(pen, canvas, stands);
        frame_shape::draw_wheels(pen, canvas, stands, self.place);
        for part in rider {
            let rings: Vec<Vec<Pt>> = part.rings().map(|ring| ring.iter().map(|p| on_page(*p)).collect()).collect();
            pen.shape(rings.clone(), Fill { role: Role::SecondInk, opacity: 0.16 });
            for ring in rings {
                pen.area(ring, None, Some(Stroke { opacity: 0.45, ..solid(Role::SecondInk, 1.0) }));
            }
        }
        self.draw_contacts(pen, frame, side, on_page);
        frame_shape::draw(pen, canvas, stands, FrameLook { has_saddle: false, ..FrameLook::alone(self.place) });
        let bags: Vec<Vec<Pt>> =
            side.bags.iter().map(|bag| bag.outline.iter().map(|p| on_page(millimetres(*p))).collect()).collect();
        for (bag, outline) in side.bags.iter().zip(&bags) {
            pen.area(outline.clone(), Some(Fill { role: Role::Background, opacity: 0.75 }), None);
            pen.area(outline.clone(), Some(Fill { role: Role::Ink, opacity: 0.16 }), Some(solid(Role::Ink, 1.3)));
            pen.target(outline.clone(), luggage_place_label(bag.place), hung_bag_text(units, bag));
        }
        for (bag, outline) in side.bags.iter().zip(&bags) {
            weight_in(pen, outline, &luggage_text(units, bag.kg));
        }
        let centre = on_page(millimetres(side.centre_of_mass));
        centre_mark(pen, centre);
        pen.spot(centre, MARK + 2.0, CENTRE_OF_MASS, "");
        pen.unclip();
        let wheels = [frame.outline.as_ref().and_then(|o| o.rear_wheel), frame.outline.as_ref().and_then(|o| o.front_wheel)];
        for (figure, (wheel, load)) in
            [LoadedFigure::RearLoad, LoadedFigure::FrontLoad].into_iter().zip(wheels.into_iter().zip(side.wheel_loads))
        {
            if let (Some(wheel), Some(load)) = (wheel, load) {
                let x = on_page(wheel.axle).x;
                let base = canvas.rect.bottom() + LOADS - 8.0;
                pen.text(Pt { x, y: base }, loaded_text(units, figure, load), LOAD, Anchor::Middle);
            }
        }
    }
}

impl Sides<'_> {
    /// Seat post, saddle, stem and handlebar, where the rider has them.
    fn draw_contacts(&self, pen: &mut Pen, frame: &FrameFindings, side: &LoadedSide, on_page: impl Fn(Point<f64>) -> Pt) {
        let Some(points) = frame.chosen().map(AdjustedSize::points) else { return };
        let role = Role::FrameLine(self.place);
        let part = |width: f64| Stroke { opacity: 0.55, ..solid(role, width) };
        let at = |p: [f64; 2]| on_page(millimetres(p));
        let saddle = |forward: f64| at([side.saddle[0] + forward, side.saddle[1]]);
        pen.line(vec![on_page(points.seat_top), saddle(0.0)], part(2.5));
        pen.line(vec![saddle(-HALF_SADDLE), saddle(HALF_SADDLE)], part(3.6));
        pen.line(vec![on_page(points.head_top), at(side.bar[0]), at(side.bar[1])], part(2.5));
    }
}

/// Lowest and highest corner of a bicycle with its rider and all its loadings, mm; `None` without wheels.
fn bounds<'a>(
    stands: &Standing,
    rider: &[SilhouettePart],
    sides: impl Iterator<Item = &'a LoadedSide>,
) -> Option<(Point<f64>, Point<f64>)> {
    let (mut low, mut high) = stands.bounds(true)?;
    let bags = sides.flat_map(|side| &side.bags).flat_map(|bag| &bag.outline).map(|p| millimetres(*p));
    let rider_edges = rider.iter().flat_map(|part| part.edge.iter().copied());
    for point in rider_edges.chain(bags).map(|p| stands.on_drawing(p)) {
        low = Point { x: low.x.min(point.x), y: low.y.min(point.y) };
        high = Point { x: high.x.max(point.x), y: high.y.max(point.y) };
    }
    (!rider.is_empty()).then_some((low, high))
}

/// The weight in a bag, where the bag is wide enough for it.
fn weight_in(pen: &mut Pen, outline: &[Pt], text: &str) {
    let (left, right) = outline.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, r), p| (l.min(p.x), r.max(p.x)));
    let sum = outline.iter().fold((0.0, 0.0), |(x, y), p| (x + p.x, y + p.y));
    if right - left >= ROOM_FOR_WEIGHT {
        let count = outline.len() as f64;
        let base = sum.1 / count + IN_BAG.size * CAP_HEIGHT / 2.0;
        pen.text(Pt { x: sum.0 / count, y: base }, text, IN_BAG, Anchor::Middle);
    }
}

/// A circle in quarters, as drawings mark a centre of mass.
fn centre_mark(pen: &mut Pen, centre: Pt) {
    pen.circle(centre, MARK, Some(Fill { role: Role::Background, opacity: 1.0 }), None);
    for (from, to) in [(0.0_f64, 90.0_f64), (180.0, 270.0)] {
        let mut quarter = vec![centre];
        for step in 0..=6 {
            let (sin, cos) = (from + (to - from) * f64::from(step) / 6.0).to_radians().sin_cos();
            quarter.push(Pt { x: centre.x + MARK * cos, y: centre.y + MARK * sin });
        }
        pen.area(quarter, Some(Fill { role: Role::Ink, opacity: 1.0 }), None);
    }
    pen.circle(centre, MARK, None, Some(solid(Role::Ink, 1.3)));
}

#[cfg(test)]
mod tests {
    use super::super::loaded_picture::loaded_picture;
    use super::super::loaded_scene::loaded_height;
    use super::super::sample;
    use super::super::scene::Item;
    use super::*;

    /// Every loading has its bicycle, and no text leaves the page, in whatever width.
    #[test]
    fn every_loading_stands_on_the_page() {
        let lineup = sample::lineup(2);
        let findings = Findings::of(&lineup);
        for width in [240.0, 420.0, 700.0, 1300.0] {
            let page = Page { width, height: loaded_sides_height(&lineup, &findings, width) };
            let height = loaded_height(&lineup, &findings, width) + 14.0 + page.height;
            let whole = Page { width, height };
            let scenes = [
                loaded_sides_scene(&lineup, &findings, None, page),
                loaded_sides_scene(&lineup, &findings, Some(FrameIndex(1)), page),
                loaded_picture(&lineup, &findings, whole),
            ];
            for (scene, page) in scenes.iter().zip([page, page, whole]) {
                let mut loads = 0;
                for item in &scene.items {
                    if let Item::Text { at, text, size, anchor, weight, .. } = item {
                        let taken = Rect::of_text(*at, text, *size, *anchor, *weight);
                        assert!(taken.x >= -0.5 && taken.right() <= page.width + 0.5, "{text:?} at {width}");
                        assert!(taken.y >= -0.5 && taken.bottom() <= page.height + 0.5, "{text:?} at {width}");
                        loads += usize::from(text.contains("±") && text.ends_with("kg"));
                    }
                }
                assert_eq!(loads, 6, "two wheels, three loadings, {width} wide");
            }
            assert!(scenes[1].title.starts_with('B') && scenes[0].title.starts_with('A'));
        }
    }

    /// What cannot be put together says why, and draws no rider.
    #[test]
    fn a_bare_frame_says_what_is_missing() {
        let lineup = sample::lineup_with_gaps();
        let findings = Findings::of(&lineup);
        let page = Page { width: 600.0, height: 300.0 };
        let scene = loaded_sides_scene(&lineup, &findings, Some(FrameIndex(1)), page);
        let says = scene.items.iter().any(|item| matches!(item, Item::Text { text, .. } if text.contains("does not fix")));
        assert!(says, "{:?}", scene.items);
    }
}
