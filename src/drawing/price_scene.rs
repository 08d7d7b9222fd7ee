//! Price against weight: each shown frameset a point with the ± of its weight as a bar, those that nobody here beats in
//! both marked with a ring, and the price of each saved gram on the line from the reference.
//!
//! Invariants: framesets stand beside framesets only; what is not priced or not weighed stands in words under the plot,
//! never at a made-up place; no price of a gram where the weights cannot be told apart.

use super::measure::{CAP_HEIGHT, text_width, wrap};
use super::order::from_back_to_front;
use super::pen::{BALLOON, Face, Pen, solid};
use super::plot_labels::Taken;
use super::plot_view::PlotView;
use super::rect::Rect;
use super::scene::{Anchor, Fill, Page, Pattern, Pt, Role, Scene, Stroke};
use super::ticks::ticks;
use crate::frameset::{Part, Tax};
use crate::lineup::{Findings, Lineup};
use crate::money::Money;
use crate::units::{Mass, Measured, Quantity, System};
use crate::words::frame_and_size;
use crate::words::{cost_sentence, per_gram_text, worth_words};

const LEFT: f64 = 64.0;
const RIGHT: f64 = 24.0;
/// Where the upright axis's title begins.
pub(super) const SIDE: f64 = 20.0;
const TOP: f64 = 36.0;
const BOTTOM: f64 = 50.0;
const NOTE_LINE: f64 = 16.0;
const NOTE: Face = Face::regular(12.0, Role::SecondInk);
const TICK: Face = Face::regular(12.0, Role::SecondInk);
const TITLE: Face = Face::semibold(13.0, Role::Ink);
const GRAM: Face = Face::regular(11.5, Role::SecondInk);
/// Radius of a point and of the ring around one that nobody beats.
const DOT: f64 = 5.5;
const RING: f64 = 9.5;

/// The plot on a page.
#[must_use]
pub fn price_scene(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let mut pen = Pen::default();
    draw(&mut pen, lineup, findings, Rect::of_page(page));
    pen.finish(page, "Price against weight", description(lineup, findings))
}

/// The findings in sentences, for those who do not see the picture.
pub(super) fn description(lineup: &Lineup, findings: &Findings) -> String {
    let words = worth_words(lineup, findings);
    let mut sentences = vec![words.lightest];
    sentences.extend(words.other_ways);
    for (place, frame) in findings.frames.iter().enumerate().filter(|(_, f)| f.shown) {
        sentences.extend(cost_sentence(lineup, findings, place));
        if findings.worth.get(place).and_then(|w| w.is_unbeaten) == Some(true) {
            sentences.push(format!("Nobody here beats {} in both price and weight.", frame.letter));
        }
    }
    sentences.join(" ")
}

/// A frameset in the plane.
struct Dot {
    place: usize,
    mass: Measured<Mass>,
    price: f64,
    money: Money,
    is_unbeaten: bool,
}

/// An amount for a place on the page; amounts that are shown stay decimal.
fn on_axis(money: &Money) -> f64 {
    money.plain().parse().unwrap_or(0.0)
}

fn dots(findings: &Findings) -> Vec<Dot> {
    let dot = |place: usize| {
        let worth = findings.worth.get(place)?;
        let weight = findings.frames.get(place)?.weights.part(Part::Frameset)?;
        let money = worth.offer.set.as_ref().ok()?.money;
        let is_unbeaten = worth.is_unbeaten == Some(true);
        Some(Dot { place, mass: weight.mass, price: on_axis(&money), money, is_unbeaten })
    };
    let mut dots: Vec<Dot> = from_back_to_front(findings).into_iter().filter_map(dot).collect();
    if let [alone] = dots.as_mut_slice() {
        // Where nobody else stands, being beaten by nobody says nothing.
        alone.is_unbeaten = false;
    }
    dots
}

/// What has no place in the plot, in lines that fit.
fn notes(findings: &Findings, width: f64, most: usize) -> Vec<String> {
    let mut sentences = Vec::new();
    for (place, frame) in findings.frames.iter().enumerate().filter(|(_, f)| f.shown) {
        let weighs = frame.weights.part(Part::Frameset).is_some();
        let price = findings.worth.get(place).map(|w| &w.offer.set);
        let why = match price {
            Some(Err(why)) => Some(why.to_string()),
            _ => None,
        };
        let name = &frame.letter;
        match (weighs, why) {
            (true, None) => {}
            (true, Some(why)) => sentences.push(format!("{name} has no price here: {why}.")),
            (false, None) => sentences.push(format!("{name} has no weight here: the frameset’s is not stated.")),
            (false, Some(why)) => sentences.push(format!("{name} has neither a frameset’s weight nor a price here: {why}.")),
        }
    }
    wrap(&sentences.join(" "), NOTE.size, NOTE.weight, width.max(0.0), most)
}

/// Draws the plot into a rectangle.
pub(super) fn draw(pen: &mut Pen, lineup: &Lineup, findings: &Findings, rect: Rect) {
    let dots = dots(findings);
    let inner = (rect.width - LEFT - RIGHT).max(0.0);
    let notes = notes(findings, rect.width - SIDE - RIGHT, if rect.height > 300.0 { 4 } else { 2 });
    let key = key(findings, &dots, rect.width - SIDE - 8.0);
    let key_height = NOTE_LINE * key.len() as f64;
    let below = BOTTOM + key_height + NOTE_LINE * notes.len() as f64;
    let area = Rect::new(rect.x + LEFT, rect.y + TOP, inner, rect.height - TOP - below);
    if area.width < 40.0 || area.height < 40.0 {
        return;
    }
    if dots.is_empty() {
        let text = wrap("No shown frameset has both a weight and a price.", 14.0, TITLE.weight, inner, 2);
        for (i, line) in text.into_iter().enumerate() {
            let at = Pt { x: rect.centre().x, y: area.centre().y + 20.0 * i as f64 };
            pen.text(at, line, Face::regular(14.0, Role::SecondInk), Anchor::Middle);
        }
    } else {
        let plot = Plot { lineup, findings, area, view: window(&dots) };
        plot.axes(pen, rect);
        plot.content(pen, &dots);
    }
    for (i, line) in key.into_iter().enumerate() {
        let y = area.bottom() + BOTTOM + 4.0 + NOTE_LINE * i as f64;
        for (x, text) in line {
            pen.text(Pt { x: rect.x + SIDE + x, y }, text, NOTE, Anchor::Start);
        }
    }
    for (i, line) in notes.into_iter().enumerate() {
        let y = area.bottom() + BOTTOM + key_height + 4.0 + NOTE_LINE * i as f64;
        pen.text(Pt { x: rect.x + SIDE, y }, line, NOTE, Anchor::Start);
    }
}

/// The window that shows all points with their ± and a margin.
fn window(dots: &[Dot]) -> PlotView {
    let spread = |low: f64, high: f64, least: f64| {
        let margin = ((high - low) * 0.14).max(least);
        (low - margin, high + margin)
    };
    let bounds = |of: &dyn Fn(&Dot) -> (f64, f64)| {
        dots.iter().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), (low, high)| (a.min(low), b.max(high)))
    };
    let (light, heavy) = bounds(&|d| (d.mass.low(), d.mass.high()));
    let (cheap, dear) = bounds(&|d| (d.price, d.price));
    let (left, right) = spread(light, heavy, 50.0);
    let (bottom, top) = spread(cheap, dear, (dear * 0.05).max(1.0));
    PlotView { left: left.max(0.0), right, bottom: bottom.max(0.0), top }
}

struct Plot<'a> {
    lineup: &'a Lineup,
    findings: &'a Findings,
    area: Rect,
    view: PlotView,
}

impl Plot<'_> {
    fn units(&self) -> System {
        self.lineup.settings.units
    }

    fn at(&self, grams: f64, price: f64) -> Pt {
        self.view.to_page(self.area, grams, price)
    }

    fn axes(&self, pen: &mut Pen, rect: Rect) {
        let Self { area, view, .. } = *self;
        let grid = Stroke { role: Role::Hairline, width: 0.8, pattern: Pattern::Solid, opacity: 0.9 };
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of labels across a page")]
        let most = |length: f64, spacing: f64| ((length / spacing) as usize).max(2);
        let by = self.units().factor(Quantity::Mass);
        for tick in ticks(view.left * by, view.right * by, most(area.width, 74.0)) {
            let x = self.at(tick.value / by, view.bottom).x;
            pen.line(vec![Pt { x, y: area.y }, Pt { x, y: area.bottom() }], grid);
            pen.text(Pt { x, y: area.bottom() + 16.0 }, tick.label, TICK, Anchor::Middle);
        }
        for tick in ticks(view.bottom, view.top, most(area.height, 34.0)) {
            let y = self.at(view.left, tick.value).y;
            pen.line(vec![Pt { x: area.x, y }, Pt { x: area.right(), y }], grid);
            pen.text(Pt { x: area.x - 8.0, y: y + 4.0 }, tick.label, TICK, Anchor::End);
        }
        let (left, bottom) = (area.x, area.bottom());
        pen.line(
            vec![Pt { x: left, y: area.y }, Pt { x: left, y: bottom }, Pt { x: area.right(), y: bottom }],
            solid(Role::Ink, 1.2),
        );
        let money = &self.lineup.settings.money;
        let tax = match money.tax {
            Tax::Included => "with tax",
            Tax::Excluded => "without tax",
        };
        let title = format!("Price of frame and fork, {} {tax}", money.currency.code());
        pen.text(Pt { x: rect.x + SIDE, y: area.y - 14.0 }, title, TITLE, Anchor::Start);
        let title = format!("Weight of the frameset, {}", self.units().unit(Quantity::Mass));
        pen.text(Pt { x: area.right(), y: bottom + 34.0 }, title, TITLE, Anchor::End);
    }

    /// All but the axes.
    fn content(&self, pen: &mut Pen, dots: &[Dot]) {
        pen.clip(self.area);
        let mut taken = Taken::within(self.area.inset(2.0));
        let ends = |dot: &Dot| [dot.mass.low(), dot.mass.high()].map(|grams| self.at(grams, dot.price));
        for dot in dots {
            taken.add(Rect::around(self.at(dot.mass.value, dot.price), RING + 1.0));
            let [low, high] = ends(dot);
            taken.add_line(low, high);
            taken.add(Rect::new(low.x, low.y - 4.0, high.x - low.x, 8.0));
        }
        let lines = self.gram_lines(pen, dots, &mut taken);
        for dot in dots {
            self.dot(pen, dot, ends(dot));
        }
        let size = 2.0 * BALLOON + 1.0;
        let mut ordered: Vec<&Dot> = dots.iter().collect();
        ordered.sort_by_key(|d| d.place);
        let mut balloons = Vec::new();
        for dot in ordered {
            let at = self.at(dot.mass.value, dot.price);
            let found = taken.place(at, size, size, &[6.0, 14.0, 26.0, 40.0]).or_else(|| taken.place_anywhere(at, size, size));
            let Some(centre) = found else { continue };
            if (at.x - centre.x).hypot(at.y - centre.y) > BALLOON + 16.0 {
                let line = Stroke { role: Role::FrameLine(dot.place), width: 0.9, pattern: Pattern::Solid, opacity: 0.9 };
                pen.line(vec![centre, at], line);
            }
            balloons.push((centre, dot));
        }
        for (middle, text) in lines {
            let width = text_width(&text, GRAM.size, GRAM.weight);
            let (width, height) = (width + 8.0, GRAM.size + 4.0);
            let near = taken.place(middle, width, height, &[0.0, 4.0, 10.0, 18.0, 30.0]);
            if let Some(centre) = near.or_else(|| taken.place_anywhere(middle, width, height)) {
                let base = Pt { x: centre.x, y: centre.y + GRAM.size * CAP_HEIGHT / 2.0 };
                pen.backed_text(base, text, GRAM, Anchor::Middle);
            }
        }
        for (centre, dot) in &balloons {
            if let Some(frame) = self.findings.frames.get(dot.place) {
                pen.balloon(*centre, &frame.letter, dot.place);
            }
        }
        pen.unclip();
        for dot in dots {
            self.target(pen, dot);
        }
    }

    /// Broken lines from the reference to the frames whose grams have a price, and where their price may stand.
    fn gram_lines(&self, pen: &mut Pen, dots: &[Dot], taken: &mut Taken) -> Vec<(Pt, String)> {
        let Some(reference) = dots.iter().find(|d| self.findings.reference == Some(d.place)) else { return Vec::new() };
        let from = self.at(reference.mass.value, reference.price);
        let stroke = Stroke { role: Role::SecondInk, width: 0.9, pattern: Pattern::Dashes, opacity: 0.8 };
        let mut labels = Vec::new();
        for dot in dots {
            let Some(each) = each_gram(self.findings, dot.place) else { continue };
            let letter = self.findings.frames.get(dot.place).map_or("", |f| f.letter.as_str());
            let to = self.at(dot.mass.value, dot.price);
            pen.line(vec![from, to], stroke);
            taken.add_line(from, to);
            labels.push((
                Pt { x: f64::midpoint(from.x, to.x), y: f64::midpoint(from.y, to.y) },
                format!("{letter}: {}", per_gram_text(each)),
            ));
        }
        labels
    }

    fn dot(&self, pen: &mut Pen, dot: &Dot, [low, high]: [Pt; 2]) {
        let role = Role::FrameLine(dot.place);
        let at = self.at(dot.mass.value, dot.price);
        let stroke = solid(role, 1.6);
        // A bar inside its point would only blur it.
        if high.x - low.x > 2.0 * if dot.is_unbeaten { RING } else { DOT } {
            pen.line(vec![low, high], stroke);
            for end in [low, high] {
                pen.line(vec![Pt { x: end.x, y: end.y - 4.0 }, Pt { x: end.x, y: end.y + 4.0 }], stroke);
            }
        }
        if dot.is_unbeaten {
            pen.circle(at, RING, None, Some(solid(role, 1.6)));
        }
        pen.circle(at, DOT, Some(Fill { role, opacity: 1.0 }), Some(solid(Role::Paper, 1.2)));
    }

    fn target(&self, pen: &mut Pen, dot: &Dot) {
        let Some(frame) = self.findings.frames.get(dot.place) else { return };
        let mut detail = format!("{}, {}.", dot.mass.text(self.units()), dot.money.text());
        if dot.is_unbeaten {
            detail.push_str(" Nobody here beats it in both.");
        }
        if let Some(sentence) = cost_sentence(self.lineup, self.findings, dot.place) {
            detail.push(' ');
            detail.push_str(&sentence);
        }
        pen.spot(self.at(dot.mass.value, dot.price), RING + 3.0, frame_and_size(frame), detail);
    }
}

/// The price of each gram that a frame saves, where it has one: dearer and lighter beyond the ±.
fn each_gram(findings: &Findings, place: usize) -> Option<&(Money, Money)> {
    let each = findings.worth.get(place)?.against.as_ref()?.per_gram.as_ref()?;
    (each.0.amount.is_sign_positive() && !each.0.amount.is_zero()).then_some(each)
}

/// What ring, bar and broken line mean, of those that are there: lines of words, each with its place.
fn key(findings: &Findings, dots: &[Dot], width: f64) -> Vec<Vec<(f64, &'static str)>> {
    let has_reference = dots.iter().any(|d| findings.reference == Some(d.place));
    let words = [
        (dots.iter().any(|d| d.is_unbeaten), "ring: beaten by nobody here in both"),
        (dots.iter().any(|d| d.mass.u > 0.0), "bar: ± of the weight"),
        (has_reference && dots.iter().any(|d| each_gram(findings, d.place).is_some()), "broken line: price of a saved gram"),
    ];
    let mut lines: Vec<Vec<(f64, &'static str)>> = Vec::new();
    let mut x = 0.0;
    for (_, text) in words.into_iter().filter(|(is_there, _)| *is_there) {
        let taken = text_width(text, NOTE.size, NOTE.weight);
        match lines.last_mut() {
            Some(line) if x + taken <= width => line.push((x, text)),
            _ => {
                x = 0.0;
                lines.push(vec![(x, text)]);
            }
        }
        x += taken + 20.0;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Item;
    use crate::drawing::sample::{lineup, lineup_with_gaps};
    use crate::lineup::read_lineup;

    fn texts(scene: &Scene) -> Vec<&str> {
        scene.items.iter().filter_map(|i| if let Item::Text { text, .. } = i { Some(text.as_str()) } else { None }).collect()
    }

    fn rings(scene: &Scene) -> usize {
        scene.items.iter().filter(|i| matches!(i, Item::Circle { radius, .. } if *radius == RING)).count()
    }

    const PAGE: Page = Page { width: 700.0, height: 420.0 };

    #[test]
    fn those_that_nobody_beats_have_a_ring_and_a_saved_gram_its_price() {
        let lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let findings = Findings::of(&lineup);
        let scene = price_scene(&lineup, &findings, PAGE);
        let shown = |i: &usize| findings.frames[*i].shown;
        let unbeaten = (0..findings.frames.len()).filter(shown).filter(|i| findings.worth[*i].is_unbeaten == Some(true)).count();
        assert!(unbeaten > 0 && rings(&scene) == unbeaten, "{unbeaten} {}", rings(&scene));
        let grams = findings.worth.iter().zip(&findings.frames).filter(|(_, f)| f.shown);
        let priced = grams.filter_map(|(w, _)| w.against.as_ref()?.per_gram.as_ref()).map(per_gram_text);
        let priced: Vec<String> = priced.filter(|t| t != "nothing").collect();
        assert!(!priced.is_empty());
        // However low the plot, each has its label and the key its line.
        for page in [PAGE, Page { width: 560.0, height: 260.0 }] {
            let scene = price_scene(&lineup, &findings, page);
            for text in &priced {
                assert!(texts(&scene).iter().any(|t| t.ends_with(text.as_str())), "{text} in {:?}", texts(&scene));
            }
            assert!(texts(&scene).contains(&"broken line: price of a saved gram"), "{:?}", texts(&scene));
        }
        assert!(scene.description.contains("for each gram saved"), "{}", scene.description);
    }

    #[test]
    fn what_is_missing_is_said_and_not_drawn() {
        let lineup = lineup_with_gaps();
        let scene = price_scene(&lineup, &Findings::of(&lineup), PAGE);
        let words = texts(&scene).join(" ");
        assert!(words.contains("B has neither") || words.contains("B has no"), "{words}");
        let nothing = Lineup::default();
        let scene = price_scene(&nothing, &Findings::of(&nothing), PAGE);
        assert!(texts(&scene).iter().any(|t| t.contains("No shown frameset")), "{:?}", texts(&scene));
    }

    #[test]
    fn words_stay_on_the_page() {
        for frames in [1, 2, 8] {
            let lineup = lineup(frames);
            let findings = Findings::of(&lineup);
            for (width, height) in [(480.0, 260.0), (560.0, 300.0), (1200.0, 700.0)] {
                let scene = price_scene(&lineup, &findings, Page { width, height });
                for item in &scene.items {
                    if let Item::Text { at, text, size, anchor, weight, .. } = item {
                        let covered = Rect::of_text(*at, text, *size, *anchor, *weight);
                        assert!(Rect::of_page(scene.page).encloses(covered), "{text:?} at {at:?}, {width} × {height}");
                    }
                }
            }
        }
    }
}
