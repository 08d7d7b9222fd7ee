//! Price against weight: each shown frameset a point with the ± of its weight as a bar, a ring where nothing shown is both
//! lighter and cheaper, and the price per gram saved on the line from the reference.
//!
//! Invariants: framesets are compared with framesets only; what is not priced or not weighed stands in words under the
//! plot, never at a made-up place; no price of a gram without a clear difference of weight.

use super::measure::{text_width, wrap};
use super::order::from_back_to_front;
use super::pen::{Face, Pen};
use super::plot_axes::{BOTTOM, LEFT, RIGHT, SIDE, TOP};
use super::plot_marks::{DOT, MarkLook, PlotAxis, PlotDot, PlotJoin, PlotMarks, PlotValue, RING};
use super::plot_view::PlotView;
use super::rect::Rect;
use super::scene::{Anchor, Page, Pattern, Pt, Role, Scene, Stroke, Weight};
use crate::frameset::{FrameIndex, Part};
use crate::lineup::{Findings, Lineup};
use crate::money::Money;
use crate::units::{Mass, Measured, Quantity, System};
use crate::words::drawings as labels;
use crate::words::{
    cost_sentence, frame_and_size, missing_from_plot, per_gram_text, price_and_climb_answers, price_title, ring_sentence,
};

const NOTE_LINE: f64 = 16.0;
const NOTE: Face = Face::regular(12.0, Role::SecondInk);

/// The plot on a page.
#[must_use]
pub fn price_scene(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let mut pen = Pen::default();
    let marks = price_marks(lineup, findings);
    draw(&mut pen, &marks, Rect::of_page(page), marks.bounds);
    pen.finish(page, marks.title, marks.description)
}

/// The marks of the plot.
#[must_use]
pub fn price_marks(lineup: &Lineup, findings: &Findings) -> PlotMarks {
    let dots = dots(findings);
    let units = lineup.settings.units;
    let has_reference = dots.iter().any(|d| findings.reference == Some(d.place));
    let words = [
        (dots.iter().any(|d| d.is_unbeaten), labels::UNBEATEN_RING),
        (dots.iter().any(|d| d.mass.u > 0.0), labels::WEIGHT_BAR),
        (has_reference && dots.iter().any(|d| each_gram(findings, d.place).is_some()), saved_key(units)),
    ];
    PlotMarks {
        title: labels::PRICE_TITLE.to_owned(),
        description: description(lineup, findings),
        across: PlotAxis {
            title: labels::frameset_weight_axis(units.unit(Quantity::Mass)),
            factor: units.factor(Quantity::Mass),
            spacing: 74.0,
        },
        up: PlotAxis { title: price_title(lineup), factor: 1.0, spacing: 34.0 },
        bounds: window(&dots),
        joins: gram_lines(units, findings, &dots),
        dots: dots.iter().filter_map(|dot| mark(lineup, findings, dot)).collect(),
        key: words.into_iter().filter_map(|(is_there, text)| is_there.then_some(text)).collect(),
        notes: missing_from_plot(findings).join(" "),
        empty: if dots.is_empty() { labels::NO_WEIGHT_WITH_A_PRICE } else { "" },
        look: MarkLook {
            rings: [6.0, 14.0, 26.0, 40.0],
            leader_from: 16.0,
            bar_from: 2.0 * DOT,
            edge: 1.2,
            clear: RING + 1.0,
            bar_clear: 4.0,
            targets: (RING + 3.0, RING + 3.0),
        },
    }
}

/// A frameset's point with its words.
fn mark(lineup: &Lineup, findings: &Findings, dot: &Dot) -> Option<PlotDot> {
    let frame = dot.place.of(&findings.frames)?;
    let units = lineup.settings.units;
    let mut detail = format!("{}, {}.", dot.mass.text(units), dot.money.text());
    if dot.is_unbeaten {
        detail.push(' ');
        detail.push_str(&ring_sentence(&frame.letter));
    }
    if let Some(sentence) = cost_sentence(lineup, findings, dot.place) {
        detail.push(' ');
        detail.push_str(&sentence);
    }
    Some(PlotDot {
        place: dot.place,
        letter: frame.letter.clone(),
        label: String::new(),
        is_chosen: true,
        has_ring: dot.is_unbeaten,
        across: PlotValue { value: dot.mass.value, low: dot.mass.low(), high: dot.mass.high() },
        up: PlotValue { value: dot.price, low: dot.price, high: dot.price },
        name: frame_and_size(frame),
        detail,
    })
}

/// Broken lines from the reference to the frames whose grams have a price, each with it.
fn gram_lines(units: System, findings: &Findings, dots: &[Dot]) -> Vec<PlotJoin> {
    let Some(reference) = dots.iter().find(|d| findings.reference == Some(d.place)) else { return Vec::new() };
    let stroke = Stroke { role: Role::SecondInk, width: 0.9, pattern: Pattern::Dashes, opacity: 0.8 };
    let line = |dot: &Dot| {
        let each = each_gram(findings, dot.place)?;
        let letter = dot.place.of(&findings.frames).map_or("", |f| f.letter.as_str());
        let points = vec![(reference.mass.value, reference.price), (dot.mass.value, dot.price)];
        Some(PlotJoin { points, stroke, label: Some(format!("{letter}: {}", per_gram_text(units, each))) })
    };
    dots.iter().filter_map(line).collect()
}

/// The findings in sentences, for those who do not see the picture.
pub(super) fn description(lineup: &Lineup, findings: &Findings) -> String {
    let words = price_and_climb_answers(lineup, findings);
    let mut sentences = vec![words.lightest];
    sentences.extend(words.ways);
    for (place, frame) in FrameIndex::numbered(&findings.frames).filter(|(_, f)| f.shown) {
        sentences.extend(cost_sentence(lineup, findings, place));
        if place.of(&findings.price_and_climb).and_then(|w| w.is_unbeaten) == Some(true) {
            sentences.push(ring_sentence(&frame.letter));
        }
    }
    sentences.join(" ")
}

/// A frameset in the plane.
struct Dot {
    place: FrameIndex,
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
    let dot = |place: FrameIndex| {
        let worth = place.of(&findings.price_and_climb)?;
        let weight = place.of(&findings.frames)?.weights.part(Part::Frameset)?;
        let money = worth.offer.set.as_ref().ok()?.money;
        let is_unbeaten = worth.is_unbeaten == Some(true);
        Some(Dot { place, mass: weight.mass, price: on_axis(&money), money, is_unbeaten })
    };
    let mut dots: Vec<Dot> = from_back_to_front(findings).into_iter().filter_map(dot).collect();
    if let [alone] = dots.as_mut_slice() {
        // Where nothing else is shown, a ring says nothing.
        alone.is_unbeaten = false;
    }
    dots
}

/// Draws the plot into a rectangle.
pub(super) fn draw(pen: &mut Pen, marks: &PlotMarks, rect: Rect, view: PlotView) {
    let inner = (rect.width - LEFT - RIGHT).max(0.0);
    let most = if rect.height > 300.0 { 4 } else { 2 };
    let notes = wrap(&marks.notes, NOTE.size, NOTE.weight, (rect.width - SIDE - RIGHT).max(0.0), most);
    let key = key_lines(&marks.key, rect.width - SIDE - 8.0);
    let key_height = NOTE_LINE * key.len() as f64;
    let below = BOTTOM + key_height + NOTE_LINE * notes.len() as f64;
    let area = Rect::new(rect.x + LEFT, rect.y + TOP, inner, rect.height - TOP - below);
    if area.width < 40.0 || area.height < 40.0 {
        return;
    }
    if marks.empty.is_empty() {
        marks.draw_axes(pen, rect, area, view);
        pen.clip(area);
        marks.draw(pen, area, view);
        pen.unclip();
        marks.targets(pen, area, view);
    } else {
        let text = wrap(marks.empty, 14.0, Weight::Regular, inner, 2);
        for (i, line) in text.into_iter().enumerate() {
            let at = Pt { x: rect.centre().x, y: area.centre().y + 20.0 * i as f64 };
            pen.text(at, line, Face::regular(14.0, Role::SecondInk), Anchor::Middle);
        }
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
    if dots.is_empty() {
        return PlotView { left: 0.0, right: 1.0, bottom: 0.0, top: 1.0 };
    }
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

/// The price of each gram that a frame saves, where it has one: dearer and lighter beyond the ±.
fn each_gram(findings: &Findings, place: FrameIndex) -> Option<&(Money, Money)> {
    let each = place.of(&findings.price_and_climb)?.against.as_ref()?.per_gram.as_ref()?;
    (each.0.amount.is_sign_positive() && !each.0.amount.is_zero()).then_some(each)
}

/// Key of the broken lines.
const fn saved_key(units: System) -> &'static str {
    match units {
        System::Metric => labels::PRICE_PER_GRAM_SAVED,
        System::Imperial => labels::PRICE_PER_OUNCE_SAVED,
    }
}

/// What ring, bar and broken line mean: lines of words, each with its place.
fn key_lines(key: &[&'static str], width: f64) -> Vec<Vec<(f64, &'static str)>> {
    let mut lines: Vec<Vec<(f64, &'static str)>> = Vec::new();
    let mut x = 0.0;
    for text in key.iter().copied() {
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
    fn what_nothing_beats_has_a_ring_and_a_saved_gram_its_price() {
        let lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let findings = Findings::of(&lineup);
        let scene = price_scene(&lineup, &findings, PAGE);
        let shown = |i: &FrameIndex| findings.frames[*i].shown;
        let unbeaten = FrameIndex::all(findings.frames.len())
            .filter(shown)
            .filter(|i| findings.price_and_climb[*i].is_unbeaten == Some(true))
            .count();
        assert!(unbeaten > 0 && rings(&scene) == unbeaten, "{unbeaten} {}", rings(&scene));
        let grams = findings.price_and_climb.iter().zip(&findings.frames).filter(|(_, f)| f.shown);
        let priced =
            grams.filter_map(|(w, _)| w.against.as_ref()?.per_gram.as_ref()).filter(|(each, _)| !each.amount.is_sign_negative());
        let priced = priced.map(|each| per_gram_text(System::Metric, each));
        let priced: Vec<String> = priced.collect();
        assert!(!priced.is_empty());
        // However low the plot, each has its label and the key its line.
        for page in [PAGE, Page { width: 560.0, height: 260.0 }] {
            let scene = price_scene(&lineup, &findings, page);
            for text in &priced {
                assert!(texts(&scene).iter().any(|t| t.ends_with(text.as_str())), "{text} in {:?}", texts(&scene));
            }
            assert!(texts(&scene).contains(&saved_key(System::Metric)), "{:?}", texts(&scene));
        }
        assert!(scene.description.contains("for each gram saved"), "{}", scene.description);
    }

    #[test]
    fn what_is_missing_is_said_and_not_drawn() {
        let lineup = lineup_with_gaps();
        let scene = price_scene(&lineup, &Findings::of(&lineup), PAGE);
        let words = texts(&scene).join(" ");
        assert!(words.contains("B has no"), "{words}");
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
