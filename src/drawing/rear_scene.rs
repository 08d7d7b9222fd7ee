//! The rear of each frame seen from above, to scale: tyre, hub, sprockets, rotor, chainrings and chain. Forward is to the
//! right, the drive side below.

use super::bag_space_layout::cell_of;
use super::measure::{shorten, wrap};
use super::pen::{BALLOON, Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pattern, Pt, Role, Scene, Stroke};
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, Lineup};
use crate::parts::places::RearPlaces;
use crate::parts::{RearGear, RearView};
use crate::units::{Length, Measured, System};
use crate::words::{
    CHOSEN_GEAR_KEY, Label, REAR_TITLE, REAR_VIEW_CAUTION, REAR_VIEW_KEY, RearItem, chosen_gear_text, frame_and_size,
    from_the_middle, over_reference_text, rear_chain_text, rear_tyre_text, rear_view_sentences,
};

/// Margin at either side, page units.
pub(super) const SIDE: f64 = 20.0;
const NAME: Face = Face::semibold(12.5, Role::Ink);
const WORDS: Face = Face::regular(11.5, Role::SecondInk);
const LINE: f64 = 14.5;
const HEADING: f64 = 28.0;
/// What is drawn behind the axle and before the bottom bracket, mm.
const BEHIND_MM: f64 = 115.0;
const AHEAD_MM: f64 = 115.0;
/// What is drawn to either side of the middle, mm.
const ASIDE_MM: f64 = 105.0;
/// Half a sprocket's thickness, and half a rotor's and a flange's, as drawn, mm. A sketch: nobody's figure.
const THIN_MM: f64 = 1.0;
/// Radii of largest and smallest sprocket, rotor and flanges as drawn, mm. A sketch: nobody's figure.
const SPROCKETS_MM: (f64, f64) = (75.0, 24.0);
const ROTOR_MM: f64 = 80.0;
const FLANGE_MM: f64 = 29.0;
/// A ring's radius where its teeth are not stated, mm: 40 teeth. A sketch: nobody's figure.
const RING_MM: f64 = 81.0;
/// How much shorter each smaller ring is drawn, mm. A sketch.
const RING_STEP_MM: f64 = 20.0;

/// How many columns so many frames stand in.
const fn columns(count: usize, width: f64) -> usize {
    if count > 1 && width >= 900.0 { 2 } else { 1 }
}

fn shown(findings: &Findings) -> Vec<FrameIndex> {
    FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown).map(|(place, _)| place).collect()
}

fn view_of(findings: &Findings, place: FrameIndex) -> Option<&RearView> {
    place.of(&findings.fit)?.rear.as_ref()
}

/// Whether any shown frame's rear can be drawn.
pub(super) fn has_rear(findings: &Findings) -> bool {
    shown(findings).into_iter().any(|place| view_of(findings, place).is_some())
}

/// What a frame's rear says.
fn sentences(lineup: &Lineup, findings: &Findings, place: FrameIndex) -> Vec<String> {
    let settings = &lineup.settings;
    rear_view_sentences(settings.units, view_of(findings, place), settings.rear.gear)
}

fn told(lineup: &Lineup, findings: &Findings, place: FrameIndex, width: f64) -> Vec<String> {
    let sentences = sentences(lineup, findings, place);
    sentences.iter().flat_map(|s| wrap(s, WORDS.size, WORDS.weight, width, usize::MAX)).collect()
}

fn notes(lineup: &Lineup, findings: &Findings, width: f64) -> Vec<String> {
    let rear = &lineup.settings.rear;
    let is_over = shown(findings).into_iter().any(|place| below(lineup, findings, place).is_some());
    let below = findings.reference_frame().filter(|_| is_over).map(|f| over_reference_text(&f.letter));
    let mut notes = vec![REAR_VIEW_KEY.to_owned()];
    notes.extend(rear.gear.map(|_| CHOSEN_GEAR_KEY.to_owned()));
    notes.extend(below);
    notes.push(REAR_VIEW_CAUTION.to_owned());
    notes.iter().flat_map(|n| wrap(n, WORDS.size, WORDS.weight, width, usize::MAX)).collect()
}

/// The view that is drawn below a frame's: the reference's, where that is chosen.
fn below<'a>(lineup: &Lineup, findings: &'a Findings, place: FrameIndex) -> Option<(FrameIndex, &'a RearView)> {
    let reference = findings.reference.filter(|r| *r != place && lineup.settings.rear.over_reference)?;
    Some((reference, view_of(findings, reference)?))
}

/// Extent of a frame's drawing along the bicycle, mm.
fn along_mm(findings: &Findings) -> f64 {
    let stays = shown(findings)
        .into_iter()
        .chain(findings.reference)
        .filter_map(|place| view_of(findings, place))
        .map(|v| v.chainstay.value);
    BEHIND_MM + stays.fold(400.0, f64::max) + AHEAD_MM
}

/// Height at which all rears stand in full on a page of that width, page units.
#[must_use]
pub fn rear_height(lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    let inner = (width - 2.0 * SIDE).max(160.0);
    let places = shown(findings);
    let columns = columns(places.len(), inner);
    let cell = cell_of(Rect::new(0.0, 0.0, inner, 1.0), columns, places.len().max(1), 0).width;
    let words = places.iter().map(|p| told(lineup, findings, *p, cell).len()).max().unwrap_or(0) as f64 * LINE;
    let drawing = cell * 2.0 * ASIDE_MM / along_mm(findings);
    let rows = places.len().div_ceil(columns) as f64;
    rows * (HEADING + drawing + words + 28.0) + notes(lineup, findings, inner).len() as f64 * LINE + 30.0
}

/// The rears of all shown frames.
#[must_use]
pub fn rear_scene(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let mut pen = Pen::default();
    let inner = Rect::new(SIDE, 10.0, (page.width - 2.0 * SIDE).max(160.0), page.height - 20.0);
    let below = notes(lineup, findings, inner.width);
    let notes_height = below.len() as f64 * LINE;
    let field = Rect::new(inner.x, inner.y, inner.width, (inner.height - notes_height).max(1.0));
    let places = shown(findings);
    let columns = columns(places.len(), inner.width);
    for (i, place) in places.iter().enumerate() {
        cell(&mut pen, lineup, findings, *place, cell_of(field, columns, places.len(), i));
    }
    for (i, line) in below.into_iter().enumerate() {
        let y = field.bottom() + LINE * (i as f64 + 1.0);
        if y < page.height {
            pen.text(Pt { x: inner.x, y }, line, WORDS, Anchor::Start);
        }
    }
    pen.finish(page, REAR_TITLE, description(lineup, findings))
}

/// What it shows, for who cannot see it.
pub(super) fn description(lineup: &Lineup, findings: &Findings) -> String {
    let told = shown(findings).into_iter().filter_map(|place| {
        let frame = place.of(&findings.frames)?;
        Some(format!("{}: {}", frame.letter, sentences(lineup, findings, place).join(" ")))
    });
    told.collect::<Vec<_>>().join(" ")
}

/// One frame: heading, drawing, sentences.
fn cell(pen: &mut Pen, lineup: &Lineup, findings: &Findings, place: FrameIndex, rect: Rect) {
    let Some(frame) = place.of(&findings.frames) else { return };
    if rect.height < HEADING || rect.width < 4.0 * BALLOON {
        return;
    }
    pen.balloon(Pt { x: rect.x + BALLOON, y: rect.y + BALLOON + 1.0 }, &frame.letter, place);
    let left = rect.x + 2.0 * BALLOON + 8.0;
    let name = shorten(&frame_and_size(frame), NAME.size, NAME.weight, rect.right() - left);
    pen.text(Pt { x: left, y: rect.y + BALLOON + 5.5 }, name, NAME, Anchor::Start);
    let lines = told(lineup, findings, place, rect.width);
    let words = lines.len() as f64 * LINE;
    let room = Rect::new(rect.x, rect.y + HEADING, rect.width, (rect.height - HEADING - words - 14.0).max(0.0));
    let mut y = room.y;
    if let Some(view) = view_of(findings, place) {
        let scale = (room.width / along_mm(findings)).min(room.height / (2.0 * ASIDE_MM));
        if scale > 0.05 {
            let at = Above { left: room.x, middle: room.y + scale * ASIDE_MM, scale };
            pen.clip(Rect::new(room.x, room.y, room.width, scale * 2.0 * ASIDE_MM));
            let own = Own { at, view, units: lineup.settings.units, role: Role::FrameLine(place), letter: &frame.letter };
            own.tyre(pen);
            if let Some((reference, other)) = below(lineup, findings, place) {
                lines_only(pen, at, other, Role::FrameLine(reference));
            }
            own.drive(pen, lineup.settings.rear.gear);
            pen.unclip();
            y += scale * 2.0 * ASIDE_MM;
        }
    }
    for line in lines {
        y += LINE;
        if y <= rect.bottom() {
            pen.text(Pt { x: rect.x, y }, line, WORDS, Anchor::Start);
        }
    }
}

/// From millimetres (forward of the rear axle, to the right of the middle) to the page.
#[derive(Clone, Copy)]
struct Above {
    left: f64,
    middle: f64,
    scale: f64,
}

impl Above {
    fn at(self, forward_mm: f64, right_mm: f64) -> Pt {
        Pt { x: self.left + (BEHIND_MM + forward_mm) * self.scale, y: self.middle + right_mm * self.scale }
    }

    /// A box around a place, that far to both sides, mm.
    fn block(self, forward: (f64, f64), right: (f64, f64)) -> Vec<Pt> {
        [(forward.0, right.0), (forward.1, right.0), (forward.1, right.1), (forward.0, right.1)]
            .map(|(x, y)| self.at(x, y))
            .to_vec()
    }

    /// A disc seen on its edge.
    fn disc(self, centre_mm: f64, radius_mm: f64, right_mm: f64) -> Vec<Pt> {
        self.block((centre_mm - radius_mm, centre_mm + radius_mm), (right_mm - THIN_MM, right_mm + THIN_MM))
    }
}

/// A target's name: `A chain`.
fn named(letter: &str, what: RearItem) -> String {
    format!("{letter} {}", what.label())
}

/// Outline of a tyre of that width in front of the axle, its front end round as its section is.
fn tyre_outline(at: Above, radius_mm: f64, width_mm: f64) -> Vec<Pt> {
    let half = width_mm / 2.0;
    let from = radius_mm - half;
    let front = (0..=24).map(|i| (f64::from(i) / 24.0 - 0.5) * std::f64::consts::PI);
    let round: Vec<Pt> = front.map(|a| at.at(from + half * a.cos(), half * a.sin())).collect();
    [at.at(-BEHIND_MM - 10.0, -half)].into_iter().chain(round).chain([at.at(-BEHIND_MM - 10.0, half)]).collect()
}

/// Outline of a chain from a sprocket's plane to a ring's.
fn chain_outline(at: Above, view: &RearView, sprocket_mm: f64, ring_mm: f64) -> Vec<Pt> {
    let half = view.chain_width_mm / 2.0;
    let stay = view.chainstay.value;
    vec![at.at(0.0, sprocket_mm - half), at.at(stay, ring_mm - half), at.at(stay, ring_mm + half), at.at(0.0, sprocket_mm + half)]
}

/// A chainring as drawn: what it is, radius and plane.
type Ring = (RearItem, f64, Measured<Length>);

/// The largest and the smallest chainring, or the only one.
fn rings_of(view: &RearView) -> Vec<Ring> {
    let Some(rings) = view.rings else { return Vec::new() };
    let largest = rings.radius_mm.unwrap_or(RING_MM);
    if rings.count.is_some_and(|n| n > 1) {
        let radius = rings.smallest_radius_mm.unwrap_or(largest - RING_STEP_MM);
        let smallest = (RearItem::SmallestChainring, radius, rings.smallest);
        vec![(RearItem::LargestChainring, largest, rings.largest), smallest]
    } else {
        vec![(RearItem::Chainring, largest, rings.largest)]
    }
}

/// The reference below another frame: outlines without fill, which nobody points at.
fn lines_only(pen: &mut Pen, at: Above, view: &RearView, role: Role) {
    let line = Stroke { role, width: 1.0, pattern: Pattern::Solid, opacity: 0.8 };
    if let Some(tyre) = view.tyre {
        pen.line(tyre_outline(at, tyre.size.radius_mm(), tyre.width.value), line);
    }
    for (_, radius, right) in rings_of(view) {
        pen.area(at.disc(view.chainstay.value, radius, right.value), None, Some(line));
    }
    let Some((hub, _)) = view.hub else { return };
    for side in [-hub.locknut_mm, hub.locknut_mm] {
        pen.line(vec![at.at(-16.0, side), at.at(16.0, side)], line);
    }
    if let Some(rings) = view.rings {
        pen.area(chain_outline(at, view, hub.innermost.value, rings.smallest.value), None, Some(line));
    }
}

/// A frame's own rear and where it is drawn.
struct Own<'a> {
    at: Above,
    view: &'a RearView,
    units: System,
    role: Role,
    letter: &'a str,
}

impl Own<'_> {
    /// The middle, the tyre in front of the axle, and the widest that is allowed.
    fn tyre(&self, pen: &mut Pen) {
        let (at, view, role) = (self.at, self.view, self.role);
        let centre = Stroke { role: Role::Hairline, width: 0.9, pattern: Pattern::Dashes, opacity: 1.0 };
        pen.line(vec![at.at(-BEHIND_MM, 0.0), at.at(view.chainstay.value + AHEAD_MM, 0.0)], centre);
        let Some(tyre) = view.tyre else { return };
        let radius = tyre.size.radius_mm();
        let shape = tyre_outline(at, radius, tyre.width.value);
        pen.area(shape.clone(), Some(Fill { role: Role::Panel, opacity: 1.0 }), Some(solid(role, 1.4)));
        pen.target(shape, named(self.letter, RearItem::Tyre), rear_tyre_text(self.units, view));
        if let Some(widest) = view.widest_tyre_mm {
            pen.line(tyre_outline(at, radius, widest), solid(role, 0.8));
        }
    }

    /// Bottom bracket, hub, rings and chains.
    fn drive(&self, pen: &mut Pen, gear: Option<RearGear>) {
        let (at, view, role, units) = (self.at, self.view, self.role, self.units);
        let stay = view.chainstay.value;
        // Bottom bracket and seat tube: where they are, not how wide.
        pen.circle(at.at(stay, 0.0), 3.0, Some(Fill { role, opacity: 1.0 }), None);
        let bottom_bracket = RearItem::BottomBracket;
        let name = named(self.letter, bottom_bracket);
        pen.spot(at.at(stay, 0.0), 6.0, name, from_the_middle(units, bottom_bracket, Measured::exact(0.0)));
        if let Some((hub, _)) = view.hub {
            self.hub(pen, &hub);
        }
        if let Some(outside) = &view.stay {
            let line: Vec<Pt> = outside.places.iter().map(|(behind, out)| at.at(stay - behind, *out)).collect();
            for (point, (_, out)) in line.iter().zip(&outside.places) {
                let what = RearItem::ChainstayOutside;
                pen.circle(*point, 2.0, Some(Fill { role, opacity: 1.0 }), None);
                pen.spot(*point, 5.0, named(self.letter, what), from_the_middle(units, what, Measured::exact(*out)));
            }
            pen.line(line, solid(role, 1.6));
        }
        for (what, radius, right) in rings_of(view) {
            let shape = at.disc(stay, radius, right.value);
            pen.area(shape.clone(), Some(Fill { role, opacity: 0.5 }), Some(solid(role, 1.0)));
            pen.target(shape, named(self.letter, what), from_the_middle(units, what, right));
        }
        if let (Some((hub, _)), Some(rings)) = (view.hub, view.rings) {
            let highest = chain_outline(at, view, hub.outermost.value, rings.largest.value);
            pen.area(highest, None, Some(Stroke { role: Role::Ink, width: 0.9, pattern: Pattern::Dashes, opacity: 0.8 }));
            let lowest = chain_outline(at, view, hub.innermost.value, rings.smallest.value);
            pen.area(lowest.clone(), Some(Fill { role: Role::Ink, opacity: 0.3 }), Some(solid(Role::Ink, 1.1)));
            pen.target(lowest, named(self.letter, RearItem::Chain), rear_chain_text(units, view));
        }
        if let Some((gear, chain)) = gear.and_then(|gear| Some((gear, view.chain_in(gear).ok()?))) {
            let shape = chain_outline(at, view, chain.sprocket.value, chain.ring.value);
            pen.area(shape.clone(), None, Some(solid(Role::Ink, 1.3)));
            pen.target(shape, named(self.letter, RearItem::ChosenChain), chosen_gear_text(units, view, gear));
        }
    }

    /// Axle, locknuts, flanges, rotor, and the outermost sprockets.
    fn hub(&self, pen: &mut Pen, hub: &RearPlaces) {
        let (at, role) = (self.at, self.role);
        let end = hub.locknut_mm;
        pen.line(vec![at.at(0.0, -end), at.at(0.0, end)], solid(Role::SecondInk, 2.0));
        for side in [-end, end] {
            pen.line(vec![at.at(-16.0, side), at.at(16.0, side)], solid(role, 2.4));
        }
        let mut discs = vec![
            (RearItem::LeftFlange, FLANGE_MM, hub.left_flange, -1.0),
            (RearItem::RightFlange, FLANGE_MM, hub.right_flange, 1.0),
            (RearItem::Rotor, ROTOR_MM, hub.rotor, -1.0),
        ];
        if self.view.is_gear_hub {
            discs.push((RearItem::Sprocket, SPROCKETS_MM.1, hub.outermost, 1.0));
        } else {
            discs.push((RearItem::LargestSprocket, SPROCKETS_MM.0, hub.innermost, 1.0));
            discs.push((RearItem::SmallestSprocket, SPROCKETS_MM.1, hub.outermost, 1.0));
        }
        for (what, radius, place, side) in discs {
            let shape = at.disc(0.0, radius, side * place.value);
            let is_rotor = what == RearItem::Rotor;
            let edge = Stroke {
                role: Role::SecondInk,
                width: 1.0,
                pattern: if is_rotor { Pattern::Dashes } else { Pattern::Solid },
                opacity: 1.0,
            };
            pen.area(shape.clone(), Some(Fill { role: Role::SecondInk, opacity: if is_rotor { 0.0 } else { 0.35 } }), Some(edge));
            pen.target(shape, named(self.letter, what), from_the_middle(self.units, what, place));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::lineup;
    use super::super::scene::Item;
    use super::*;
    use crate::parts::{Part, PartKind, RearSettings};

    fn with_parts(count: usize) -> crate::lineup::Lineup {
        let mut lineup = lineup(count);
        let parts = &mut lineup.settings.parts.parts;
        parts.clear();
        for (kind, text) in [
            (PartKind::RearHub, "142 x 12, 11-speed"),
            (PartKind::Crank, "2x, chainline 45, 142"),
            (PartKind::RearTyre, "50-622"),
        ] {
            parts.push(Part::new(kind, text, "").unwrap());
        }
        lineup
    }

    fn scene_of(lineup: &crate::lineup::Lineup, page: Page) -> Scene {
        rear_scene(lineup, &Findings::of(lineup), page)
    }

    #[test]
    fn every_part_can_be_pointed_at() {
        let scene = scene_of(&with_parts(1), Page { width: 800.0, height: 500.0 });
        for what in
            ["tyre", "chain", "largest sprocket", "smallest sprocket", "largest chainring", "smallest chainring", "left flange"]
        {
            assert!(scene.targets.iter().any(|t| t.name == format!("A {what}")), "{what}: {:?}", scene.targets);
        }
    }

    /// A hub of 142 is 135 mm between its locknuts, and the tyre as wide as it is built, on the same scale.
    #[test]
    fn it_is_to_scale() {
        let lineup = with_parts(1);
        let scene = scene_of(&lineup, Page { width: 800.0, height: 500.0 });
        let high = |name: &str| {
            let shape = &scene.targets.iter().find(|t| t.name == name).unwrap().shape;
            let y = shape.iter().map(|p| p.y);
            y.clone().fold(f64::NEG_INFINITY, f64::max) - y.fold(f64::INFINITY, f64::min)
        };
        let along = |name: &str| {
            let shape = &scene.targets.iter().find(|t| t.name == name).unwrap().shape;
            let x = shape.iter().map(|p| p.x);
            x.clone().fold(f64::NEG_INFINITY, f64::max) - x.fold(f64::INFINITY, f64::min)
        };
        let findings = Findings::of(&lineup);
        let view = findings.fit[0].rear.as_ref().unwrap();
        let scale = along("A chain") / view.chainstay.value;
        assert!((high("A tyre") / scale - view.tyre.unwrap().width.value).abs() < 1e-6);
        assert!((along("A largest chainring") / scale - 2.0 * RING_MM).abs() < 1e-6);
    }

    #[test]
    fn the_reference_is_drawn_below_the_others_and_the_chosen_gear_on_all() {
        let strokes = |scene: &Scene, wanted: FrameIndex| {
            let is_its = |role: Role| role == Role::FrameLine(wanted);
            scene
                .items
                .iter()
                .filter(|i| match i {
                    Item::Area { stroke: Some(s), .. } | Item::Line { stroke: s, .. } => is_its(s.role),
                    _ => false,
                })
                .count()
        };
        let page = Page { width: 1000.0, height: 900.0 };
        let mut lineup = with_parts(2);
        let plain = scene_of(&lineup, page);
        lineup.settings.rear = RearSettings { gear: Some(RearGear { ring: 1, sprocket: 3 }), over_reference: true };
        let both = scene_of(&lineup, page);
        let reference = Findings::of(&lineup).reference.unwrap();
        let other = FrameIndex(1 - reference.0);
        assert!(strokes(&both, reference) > strokes(&plain, reference));
        assert_eq!(strokes(&both, other), strokes(&plain, other));
        for letter in ["A", "B"] {
            let is_chosen = |scene: &Scene| scene.targets.iter().any(|t| t.name == format!("{letter} chain in the chosen gear"));
            assert!(is_chosen(&both) && !is_chosen(&plain), "{letter}");
        }
        let says =
            |scene: &Scene, words: &str| scene.items.iter().any(|i| matches!(i, Item::Text { text, .. } if text.contains(words)));
        assert!(says(&both, "Lines without fill: ") && says(&both, "Chain on ring 1 and sprocket 3: "));
        assert!(!says(&plain, "Lines without fill: "));
        lineup.frames[other].shown = false;
        assert!(!says(&scene_of(&lineup, page), "Lines without fill: "), "no frame lies over the reference");
    }

    #[test]
    fn words_stand_within_the_height_that_they_ask_for() {
        for (count, width) in [(1, 700.0), (3, 1100.0), (7, 1200.0), (7, 500.0)] {
            let mut lineup = with_parts(count);
            lineup.settings.rear = RearSettings { gear: Some(RearGear { ring: 2, sprocket: 6 }), over_reference: true };
            let findings = Findings::of(&lineup);
            let height = rear_height(&lineup, &findings, width);
            let scene = rear_scene(&lineup, &findings, Page { width, height });
            let lowest = scene.items.iter().filter_map(|i| if let Item::Text { at, .. } = i { Some(at.y) } else { None });
            let told =
                scene.items.iter().filter(|i| matches!(i, Item::Text { text, .. } if text.contains("Chain to tyre"))).count();
            assert_eq!(told, count, "{width}");
            assert!(lowest.fold(0.0, f64::max) <= height, "{count} {width}");
        }
    }
}
