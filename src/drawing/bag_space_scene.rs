//! The frame-bag spaces of the shown frames: all openings overlaid, aligned at the same corner, and each by itself between
//! its tubes with bag, cut line and bottles, its litres below as a bar with its ±.
//!
//! Not here: figures (they come from the findings), where things stand ([`BagSpaceLayout`]). Invariants: drawings
//! side by side have one scale; what does not fit looks different, not only coloured; a difference that its ± covers is grey.

use super::bag_space_layout::{BagSpaceLayout, Cell, HEADING, TUBES, leading, shift};
use super::balloons::{self, Balloon};
use super::grid;
use super::measure::{DESCENT, shorten, text_width, wrap};
use super::order::{frame_pattern_of, overlaid_from_back_to_front};
use super::pen::{BALLOON, Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pattern, Pt, Role, Scene, Stroke};
use super::view::Canvas;
use crate::frameset::{FrameIndex, Tube};
use crate::geometry::Point;
use crate::lineup::{BagSpaceFigure, BagSpaceSettings, Findings, FrameFindings};
use crate::luggage::{Bag, BagSpace, BottleFit, BottleVerdict, Clash};
use crate::units::{AnyKind, Measured, System, lower_first};
use crate::words::drawings as labels;
use crate::words::{
    bag_figure_label, bag_notes_text, bag_space_difference_text, bag_space_text, bottle_count_text, bottle_fit_text,
    corner_label, frame_and_size, holder_label, no_bag_text, no_bottle_beside_bag, no_opening_text, overlaid_text,
};

/// Free at each edge of the page, page units.
pub(super) const MARGIN: f64 = 18.0;
const NAME: Face = Face::semibold(13.0, Role::Ink);
const WORDS: Face = Face::regular(12.0, Role::SecondInk);
const NUMBER: Face = Face::semibold(14.0, Role::Ink);
/// Radius of the knobs at the ends of the cut line.
const KNOB: f64 = 4.0;

/// The rooms on a page.
#[must_use]
pub fn bag_space_scene(findings: &Findings, settings: &BagSpaceSettings, units: System, page: Page) -> Scene {
    let mut pen = Pen::default();
    let rect = Rect::of_page(page).inset(MARGIN);
    let spaces = BagSpaces { findings, settings, units };
    if findings.frames.iter().any(|f| f.shown) {
        let layout = BagSpaceLayout::of(findings, settings.align_at, rect);
        if let Some(canvas) = layout.overlay {
            spaces.overlay(&mut pen, canvas);
        }
        for cell in &layout.cells {
            spaces.cell(&mut pen, cell);
        }
    } else {
        pen.text(rect.centre(), labels::NO_FRAME_IS_SHOWN, Face::regular(15.0, Role::SecondInk), Anchor::Middle);
    }
    pen.finish(page, labels::BAGS_TITLE, spaces.description())
}

/// The rooms with what was chosen about them.
pub(super) struct BagSpaces<'a> {
    pub(super) findings: &'a Findings,
    pub(super) settings: &'a BagSpaceSettings,
    pub(super) units: System,
}

impl BagSpaces<'_> {
    /// The findings in sentences, for those who do not see the picture.
    pub(super) fn description(&self) -> String {
        let mut sentences = Vec::new();
        sentences.extend(self.findings.overlaid_of_more().map(overlaid_text));
        for (place, frame) in self.findings.overlaid().into_iter().map(|place| (place, &self.findings.frames[place])) {
            let figures = [BagSpaceFigure::Area, BagSpaceFigure::Litres];
            let words: Vec<String> = figures
                .into_iter()
                .filter_map(|f| Some((f, f.of(frame)?)))
                .map(|(f, m)| {
                    let against = self.difference(place, f).map_or_else(String::new, |d| format!(" ({})", d.forms[0]));
                    format!("{}{against}", self.figure_text(f, m))
                })
                .collect();
            let figures = if words.is_empty() { String::new() } else { format!("{}. ", words.join(", ")) };
            sentences.push(format!(
                "{}: {figures}{}",
                frame_and_size(frame),
                bag_notes_text(self.units, &self.findings.bag_notes(place))
            ));
        }
        if sentences.is_empty() { labels::NO_FRAME_IS_SHOWN.to_owned() } else { sentences.join(" ") }
    }

    pub(super) fn with_unit(&self, figure: BagSpaceFigure, text: &str) -> String {
        self.units.with_unit(figure.quantity(), text)
    }

    /// `bag space 9.1 ± 0.4 dm²`.
    fn figure_text(&self, figure: BagSpaceFigure, measured: Measured<AnyKind>) -> String {
        let text = self.with_unit(figure, &bag_space_text(figure, measured, self.units));
        format!("{} {text}", lower_first(bag_figure_label(figure)))
    }

    /// The figure that the picture is about: the bag's litres, or the room where no bag is drawn.
    pub(super) fn figure(&self) -> BagSpaceFigure {
        if self.settings.with_bag { BagSpaceFigure::Litres } else { BagSpaceFigure::Area }
    }

    /// A difference from the reference; `None` for the reference itself and where either figure is unknown.
    pub(super) fn difference(&self, place: FrameIndex, figure: BagSpaceFigure) -> Option<DifferenceWords> {
        let difference = self.findings.bag_space_difference(place, figure)?;
        let letter = self.findings.reference_frame().map_or("", |f| f.letter.as_str());
        let text = self.with_unit(figure, &bag_space_difference_text(figure, difference, self.units));
        let against = labels::versus(&text, letter);
        Some(if difference.is_clear() {
            DifferenceWords { forms: vec![against, text], role: Role::Ink }
        } else {
            // Grey says it already; in words where they fit.
            DifferenceWords { forms: vec![against.clone() + labels::NO_CLEAR_DIFFERENCE_BEHIND, against, text], role: Role::Grey }
        })
    }

    /// All openings overlaid.
    fn overlay(&self, pen: &mut Pen, canvas: Canvas) {
        let whole = labels::overlaid_at(corner_label(self.settings.align_at));
        let whole = match self.findings.overlaid_of_more() {
            Some(more) => format!("{whole}. {}", overlaid_text(more)),
            None => whole,
        };
        let fits = text_width(&whole, WORDS.size, WORDS.weight) <= canvas.rect.width;
        let words = if fits { whole } else { labels::OVERLAID.to_owned() };
        pen.text(Pt { x: canvas.rect.x, y: canvas.rect.y - 10.0 }, words, WORDS, Anchor::Start);
        pen.clip(canvas.rect);
        let order = overlaid_from_back_to_front(self.findings);
        let mut tags = Vec::new();
        for place in order {
            let frame = &self.findings.frames[place];
            let Ok(room) = &frame.luggage.bag_space else { continue };
            let stands = Stands::of(room, self.settings, canvas);
            let is_reference = self.findings.reference == Some(place);
            let role = Role::FrameLine(place);
            let points = stands.all(&room.outline);
            // Only the reference is filled: several overlaid fills make a colour that is no frame's.
            if is_reference {
                pen.area(points.clone(), Some(Fill { role, opacity: 0.1 }), None);
            }
            let width = if is_reference { 2.2 } else { 1.8 };
            let pattern = frame_pattern_of(self.findings, place);
            pen.area(points.clone(), None, Some(Stroke { role, width, pattern, opacity: 1.0 }));
            pen.target(points, labels::opening_of(&frame.letter), self.detail(frame));
            let head = room.corner(Tube::HeadTube, Tube::TopTube).or_else(|| room.corner(Tube::DownTube, Tube::TopTube));
            if let Some(corner) = head {
                tags.push(Balloon { place, letter: frame.letter.clone(), at: stands.at(corner.at) });
            }
        }
        if let Some(frame) = leading(self.findings)
            && let (Ok(room), Some(bag)) = (&frame.luggage.bag_space, frame.luggage.bag())
        {
            cut_line(pen, &Stands::of(room, self.settings, canvas), bag);
        }
        // The corner at which they are aligned.
        let origin = canvas.at(Point { x: 0.0, y: 0.0 });
        pen.circle(origin, 5.0, None, Some(solid(Role::Ink, 1.4)));
        grid::scale_bar(pen, canvas, self.units);
        tags.sort_by_key(|t| t.place);
        balloons::draw(pen, &tags, canvas.rect);
        pen.unclip();
    }

    /// One frame for itself.
    fn cell(&self, pen: &mut Pen, cell: &Cell) {
        let frame = &self.findings.frames[cell.place];
        // On a page too small for a heading nothing can be told apart.
        if cell.rect.height < HEADING || cell.rect.width < 4.0 * BALLOON {
            return;
        }
        heading(pen, cell, frame);
        match &frame.luggage.bag_space {
            Ok(room) => {
                pen.clip(cell.canvas.rect);
                self.drawing(pen, cell.canvas, cell.place, room);
                pen.unclip();
                self.numbers(pen, cell, frame);
            }
            Err(why) => {
                // No numbers stand below it: the words may run on to the cell's end.
                let (rect, end) = (cell.canvas.rect, cell.rect.bottom() - WORDS.size * DESCENT);
                #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "some lines")]
                let most = ((end - rect.y - 16.0) / 17.0 + 1.0).floor().clamp(0.0, 40.0) as usize;
                let sentence = no_opening_text(why);
                let lines = wrap(&sentence, WORDS.size, WORDS.weight, rect.width.max(40.0), most);
                for (i, line) in lines.into_iter().take(most).enumerate() {
                    pen.text(Pt { x: rect.x, y: rect.y + 16.0 + 17.0 * i as f64 }, line, WORDS, Anchor::Start);
                }
            }
        }
    }

    /// A frame's room between its tubes.
    pub(super) fn drawing(&self, pen: &mut Pen, canvas: Canvas, place: FrameIndex, room: &BagSpace) {
        let Some(frame) = place.of(&self.findings.frames) else { return };
        let stands = Stands::of(room, self.settings, canvas);
        let role = Role::FrameLine(place);
        tubes(pen, &stands, frame, role);
        let opening = stands.all(&room.outline);
        pen.area(opening.clone(), Some(Fill { role: Role::Background, opacity: 1.0 }), Some(solid(role, 1.4)));
        pen.target(opening, labels::opening_of(&frame.letter), self.detail(frame));
        if self.settings.with_bag
            && let Some(bag) = frame.luggage.bag()
        {
            let shape = stands.all(&bag.outline);
            pen.area(shape.clone(), Some(Fill { role, opacity: 0.34 }), Some(solid(role, 1.8)));
            let litres = self.with_unit(BagSpaceFigure::Litres, &bag.litres.number(self.units));
            pen.target(shape, labels::bag_of(&frame.letter), litres);
        }
        if !self.settings.with_bag && !self.settings.with_bottles {
            largest(pen, &stands, room, &frame.letter);
        }
        if self.settings.with_bottles {
            for fit in &frame.luggage.bottles.fits {
                bottle(pen, &stands, fit, &frame.letter, self.units);
            }
        }
        if let Some(bag) = frame.luggage.bag() {
            cut_line(pen, &stands, bag);
        }
    }

    /// A bar with its ±, the number and the difference.
    fn numbers(&self, pen: &mut Pen, cell: &Cell, frame: &FrameFindings) {
        let figure = self.figure();
        let rect = cell.rect;
        let top = cell.canvas.rect.bottom() + 6.0;
        let Some(measured) = figure.of(frame) else {
            let why = match &frame.luggage.bag {
                Some(Err(why)) => no_bag_text(self.units, *why),
                _ => labels::NO_BAG_FITS.to_owned(),
            };
            for (i, line) in wrap(&why, WORDS.size, WORDS.weight, rect.width, 3).into_iter().enumerate() {
                let y = top + 12.0 + 15.0 * i as f64;
                if y + WORDS.size * DESCENT <= rect.bottom() {
                    pen.text(Pt { x: rect.x, y }, line, WORDS, Anchor::Start);
                }
            }
            return;
        };
        let shown = self.findings.frames.iter().filter(|f| f.shown);
        let most = shown.filter_map(|f| figure.of(f)).map(Measured::high).fold(0.0, f64::max);
        let length = |value: f64| if most > 0.0 { (value / most).clamp(0.0, 1.0) * rect.width } else { 0.0 };
        let bar = Rect::new(rect.x, top, length(measured.value), 8.0);
        let role = Role::FrameLine(cell.place);
        pen.area(bar.corners(), Some(Fill { role, opacity: 0.34 }), Some(solid(role, 1.0)));
        let (least, longest) = (length(measured.low()), length(measured.high()));
        let y = bar.centre().y;
        let stroke = solid(Role::Ink, 1.2);
        pen.line(vec![Pt { x: rect.x + least, y }, Pt { x: rect.x + longest, y }], stroke);
        for x in [least, longest] {
            pen.line(vec![Pt { x: rect.x + x, y: y - 4.0 }, Pt { x: rect.x + x, y: y + 4.0 }], stroke);
        }
        let number = self.with_unit(figure, &bag_space_text(figure, measured, self.units));
        line(pen, rect, top + 25.0, &[format!("{} {number}", bag_figure_label(figure)), number], NUMBER);
        let is_reference = self.findings.reference == Some(cell.place) && self.findings.frames.len() > 1;
        if is_reference {
            line(pen, rect, top + 41.0, &[labels::REFERENCE.to_owned()], WORDS);
        } else if let Some(DifferenceWords { forms, role }) = self.difference(cell.place, figure) {
            line(pen, rect, top + 41.0, &forms, Face { role, ..WORDS });
        }
        // Where nothing is compared, the next line moves up.
        let has_line = is_reference || self.findings.frames.len() > 1;
        line(pen, rect, top + if has_line { 57.0 } else { 41.0 }, &self.last_line(frame), WORDS);
    }

    /// How many bottles fit; where neither they nor the bag are drawn, the largest circle, which then is.
    pub(super) fn last_line(&self, frame: &FrameFindings) -> Vec<String> {
        if self.settings.with_bottles {
            let fits = &frame.luggage.bottles.fits;
            // What a bag leaves no place for is said of the bag, not of each bottle.
            let hits_bag = |fit: &BottleFit| fit.hits.contains(&Clash::Bag);
            if !fits.is_empty() && fits.iter().all(hits_bag) {
                return no_bottle_beside_bag(fits);
            }
            let count = bottle_count_text(fits.iter().map(|f| f.with_bag));
            return if count.is_empty() { Vec::new() } else { vec![count] };
        }
        if self.settings.with_bag {
            return Vec::new();
        }
        let words = |figure: BagSpaceFigure| figure.of(frame).map(|m| bag_space_text(figure, m, self.units));
        let Some(across) = words(BagSpaceFigure::Circle) else { return Vec::new() };
        let circle = self.with_unit(BagSpaceFigure::Circle, &across);
        let mut forms = labels::largest_circle_forms(circle);
        if let (Some(wide), Some(high)) = (words(BagSpaceFigure::RectangleWidth), words(BagSpaceFigure::RectangleHeight)) {
            let size = self.with_unit(BagSpaceFigure::RectangleHeight, &format!("{wide} × {high}"));
            forms.insert(0, labels::with_largest_rectangle(&forms[0], &size));
        }
        forms
    }

    /// What is said of an opening that is pointed at.
    fn detail(&self, frame: &FrameFindings) -> String {
        let figures = [BagSpaceFigure::Area, BagSpaceFigure::Circle, BagSpaceFigure::HeightAboveBb, BagSpaceFigure::Litres];
        let words = figures.into_iter().filter_map(|f| Some((f, f.of(frame)?)));
        words.map(|(f, m)| self.figure_text(f, m)).collect::<Vec<_>>().join(", ")
    }
}

/// A difference in words.
pub(super) struct DifferenceWords {
    /// `+0.9 ± 0.4 l vs A, no clear difference` and shorter forms, the fullest first.
    pub(super) forms: Vec<String>,
    /// Grey where there is no clear difference.
    pub(super) role: Role,
}

/// A frame as it stands in a canvas.
struct Stands {
    canvas: Canvas,
    shift: Point<f64>,
}

impl Stands {
    fn of(room: &BagSpace, settings: &BagSpaceSettings, canvas: Canvas) -> Self {
        Self { canvas, shift: shift(room, settings.align_at) }
    }

    fn at(&self, p: Point<f64>) -> Pt {
        self.canvas.at(Point { x: p.x - self.shift.x, y: p.y - self.shift.y })
    }

    fn all(&self, points: &[Point<f64>]) -> Vec<Pt> {
        points.iter().map(|p| self.at(*p)).collect()
    }
}

/// The tubes around, pale.
fn tubes(pen: &mut Pen, stands: &Stands, frame: &FrameFindings, role: Role) {
    let Some(outline) = &frame.outline else { return };
    for tube in outline.tubes.iter().filter(|t| TUBES.contains(&t.tube)) {
        pen.area(stands.all(&tube.outline), Some(Fill { role: Role::Panel, opacity: 1.0 }), Some(solid(role, 0.8)));
    }
    let centre = stands.at(Point { x: 0.0, y: 0.0 });
    let fill = Fill { role: Role::Panel, opacity: 1.0 };
    pen.circle(centre, stands.canvas.px(outline.shell_radius_mm), Some(fill), Some(solid(role, 0.8)));
}

/// The largest circle and the largest upright rectangle.
fn largest(pen: &mut Pen, stands: &Stands, room: &BagSpace, letter: &str) {
    if let Some(found) = room.rectangle {
        let (a, b) = (stands.at(found.from), stands.at(found.to));
        let shape = vec![a, Pt { x: b.x, y: a.y }, b, Pt { x: a.x, y: b.y }];
        let stroke = Stroke { role: Role::SecondInk, width: 1.2, pattern: Pattern::Dashes, opacity: 1.0 };
        pen.area(shape.clone(), None, Some(stroke));
        pen.target(shape, labels::rectangle_of(letter), labels::LARGEST_RECTANGLE.to_owned());
    }
    if let Some(found) = room.circle {
        let radius = stands.canvas.px(found.diameter_mm.value / 2.0);
        pen.circle(stands.at(found.centre), radius, None, Some(solid(Role::SecondInk, 1.2)));
    }
}

/// A line of words, in the fullest form that fits; none where the rectangle ends above it.
pub(super) fn line(pen: &mut Pen, rect: Rect, y: f64, forms: &[String], face: Face) {
    let Some(last) = forms.last().filter(|_| y + face.size * DESCENT <= rect.bottom()) else { return };
    let whole = forms.iter().find(|f| text_width(f, face.size, face.weight) <= rect.width);
    let text = whole.cloned().unwrap_or_else(|| shorten(last, face.size, face.weight, rect.width));
    pen.text(Pt { x: rect.x, y }, text, face, Anchor::Start);
}

/// The cut line from tube to tube, with a knob at either end by which it is taken.
fn cut_line(pen: &mut Pen, stands: &Stands, bag: &Bag) {
    let Some([a, b]) = bag.cut else { return };
    let (a, b) = (stands.at(a), stands.at(b));
    pen.line(vec![a, b], Stroke { role: Role::Ink, width: 1.6, pattern: Pattern::Dashes, opacity: 1.0 });
    for end in [a, b] {
        pen.circle(end, KNOB, Some(Fill { role: Role::Background, opacity: 1.0 }), Some(solid(Role::Ink, 1.4)));
    }
}

/// A bottle that fits is drawn full; one that is borderline is broken; one that does not fit is empty, too, and crossed out.
fn bottle(pen: &mut Pen, stands: &Stands, fit: &BottleFit, letter: &str, units: System) {
    let shape = stands.all(&fit.outline);
    let broken = Stroke { role: Role::Ink, width: 1.2, pattern: Pattern::Dashes, opacity: 1.0 };
    if fit.with_bag == BottleVerdict::DoesNotFit {
        pen.area(shape.clone(), None, Some(broken));
        let count = shape.len().max(1) as f64;
        let middle = Pt { x: shape.iter().map(|p| p.x).sum::<f64>() / count, y: shape.iter().map(|p| p.y).sum::<f64>() / count };
        let half = 8.0;
        for (dx, dy) in [(half, half), (half, -half)] {
            let line = vec![Pt { x: middle.x - dx, y: middle.y - dy }, Pt { x: middle.x + dx, y: middle.y + dy }];
            pen.line(line, solid(Role::Ink, 2.0));
        }
    } else {
        let edge = if fit.with_bag == BottleVerdict::Fits { solid(Role::Ink, 1.2) } else { broken };
        pen.area(shape.clone(), Some(Fill { role: Role::Background, opacity: 1.0 }), None);
        pen.area(shape.clone(), Some(Fill { role: Role::Ink, opacity: 0.16 }), Some(edge));
    }
    for boss in fit.bosses {
        pen.circle(stands.at(boss), 1.8, Some(Fill { role: Role::Ink, opacity: 1.0 }), None);
    }
    pen.target(shape, labels::bottle_of(letter, holder_label(fit.holder)), bottle_fit_text(units, fit));
}

/// Whose room it is.
fn heading(pen: &mut Pen, cell: &Cell, frame: &FrameFindings) {
    let (x, y) = (cell.rect.x, cell.rect.y + HEADING / 2.0 - 4.0);
    pen.balloon(Pt { x: x + BALLOON, y }, &frame.letter, cell.place);
    let left = x + 2.0 * BALLOON + 8.0;
    let width = cell.rect.right() - left;
    // The size stays whole as long as half of the line is left for the name.
    let size = format!(", {}", frame.size_label());
    let size = shorten(&size, NAME.size, NAME.weight, width / 2.0);
    let name = shorten(&frame.name, NAME.size, NAME.weight, width - text_width(&size, NAME.size, NAME.weight));
    pen.text(Pt { x: left, y: y + 4.5 }, format!("{name}{size}"), NAME, Anchor::Start);
}
