//! Weight, price and the climb on one page: the answers in sentences, price against weight, and the climb; beside one another where the page is wide, else one below the other.

use super::measure::wrap;
use super::pen::{Face, Pen};
use super::plot_marks::PlotMarks;
use super::plot_view::PlotView;
use super::price_scene::price_marks;
use super::rect::Rect;
use super::scene::{Anchor, Page, Pt, Role, Scene};
use super::{climb_scene, price_scene};
use crate::lineup::{Findings, Lineup};
use crate::words::drawings as labels;
use crate::words::price_and_climb_answers;

const SIDE: f64 = climb_scene::SIDE;
const TOP: f64 = 10.0;
const FIRST: Face = Face::semibold(14.5, Role::Ink);
const REST: Face = Face::regular(12.5, Role::Ink);
const OTHER: Face = Face::regular(12.5, Role::SecondInk);
/// From this width on the two halves stand beside one another; from the other one, where they do not fit one below the
/// other.
const WIDE: f64 = 980.0;
const WIDE_ENOUGH: f64 = 760.0;
const LEAST_PLOT: f64 = 250.0;
/// The plot's part of the width where both stand beside one another.
const PLOT: f64 = 0.46;

/// A line of the answers.
struct Line {
    text: String,
    face: Face,
}

fn answers(lineup: &Lineup, findings: &Findings, width: f64) -> Vec<Line> {
    let words = price_and_climb_answers(lineup, findings);
    let first = std::iter::once((words.lightest, FIRST));
    let others = words.ways.into_iter().map(|s| (s, OTHER));
    // The climb's whole time stands at its block, and what all but the first of the frames told of do there.
    let rest = words.cost.into_iter().chain(words.climb.into_iter().skip(1).take(1)).map(|s| (s, REST));
    let lines = first.chain(others).chain(rest).flat_map(|(text, face)| {
        wrap(&text, face.size, face.weight, (width - 2.0 * SIDE).max(80.0), 4).into_iter().map(move |text| Line { text, face })
    });
    lines.collect()
}

fn answers_height(lines: &[Line]) -> f64 {
    TOP + lines.iter().map(|l| l.face.size * 1.35).sum::<f64>() + 8.0
}

/// The height at which all of it stands comfortably on a page of that width, page units.
#[must_use]
pub fn price_and_climb_height(lineup: &Lineup, findings: &Findings, width: f64) -> f64 {
    let top = answers_height(&answers(lineup, findings, width));
    if width >= WIDE {
        top + LEAST_PLOT.max(climb_scene::height(lineup, findings, width * (1.0 - PLOT)))
    } else {
        top + LEAST_PLOT + climb_scene::height(lineup, findings, width) + 8.0
    }
}

/// All of it on a page; the plot shows `view` of its plane, or all.
#[must_use]
pub fn price_and_climb_scene(lineup: &Lineup, findings: &Findings, page: Page, view: Option<PlotView>) -> Scene {
    let price = price_scene::description(lineup, findings);
    let draw = |pen: &mut Pen, marks: &PlotMarks, place| price_scene::draw(pen, marks, place, view.unwrap_or(marks.bounds));
    let (scene, _) = drawn(lineup, findings, page, draw);
    Scene { description: format!("{price} {}", scene.description), ..scene }
}

/// All but the plot, and the place that is left for it, for a page whose plot is not painted but is there.
#[must_use]
pub fn price_and_climb_around_plot(lineup: &Lineup, findings: &Findings, page: Page) -> (Scene, Rect) {
    drawn(lineup, findings, page, |_, _, _| {})
}

fn drawn(lineup: &Lineup, findings: &Findings, page: Page, plot: impl Fn(&mut Pen, &PlotMarks, Rect)) -> (Scene, Rect) {
    let mut pen = Pen::default();
    let mut lines = answers(lineup, findings, page.width);
    while lines.len() > 1 && answers_height(&lines) > page.height * 0.5 {
        lines.pop();
    }
    let mut y = TOP;
    for line in &lines {
        y += line.face.size * 1.35;
        pen.text(Pt { x: SIDE, y: y - 4.0 }, line.text.clone(), line.face, Anchor::Start);
    }
    let top = answers_height(&lines);
    let left = (page.height - top).max(0.0);
    let climb = climb_scene::height(lineup, findings, page.width);
    let place = if page.width >= WIDE || (page.width >= WIDE_ENOUGH && left < LEAST_PLOT + climb + 8.0) {
        let half = page.width * PLOT;
        climb_scene::draw(&mut pen, lineup, findings, Rect::new(half, top + 6.0, page.width - half, left - 10.0));
        Rect::new(0.0, top, half, left)
    } else {
        let climb = climb.min(left * 0.6);
        climb_scene::draw(&mut pen, lineup, findings, Rect::new(0.0, page.height - climb, page.width, climb));
        Rect::new(0.0, top, page.width, left - climb - 8.0)
    };
    plot(&mut pen, &price_marks(lineup, findings), place);
    let description = climb_scene::description(lineup, findings);
    (pen.finish(page, labels::PRICE_AND_CLIMB_TITLE, description), place)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Item;
    use crate::drawing::sample::{lineup, lineup_with_gaps};
    use crate::lineup::read_lineup;
    use crate::weight::Method;
    use crate::words::duration_text;

    fn sample() -> Lineup {
        read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap()
    }

    #[test]
    fn the_story_changes_with_the_way_to_the_size() {
        let mut lineup = sample();
        let told = |lineup: &Lineup| {
            let scene = price_and_climb_scene(lineup, &Findings::of(lineup), Page { width: 1200.0, height: 700.0 }, None);
            let first = scene.items.iter().find_map(|i| if let Item::Text { text, .. } = i { Some(text.clone()) } else { None });
            (first.unwrap_or_default(), scene.description)
        };
        lineup.settings.weight.method = Method::YourFactor;
        lineup.settings.weight.factor = Some(1.1);
        let guessed = told(&lineup);
        lineup.settings.weight.method = Method::TubeLengths;
        let scaled = told(&lineup);
        assert!(
            guessed.0.starts_with("Too close to call") && guessed.1.contains("by your factor, 1.10 per size."),
            "{}",
            guessed.1
        );
        assert!(scaled.0.contains("is the lightest") && scaled.1.contains("converted from tube lengths."), "{}", scaled.1);
        // Each says beforehand what the other would say.
        assert!(guessed.1.contains("From tube lengths, E Brackwater Cob 57 is the lightest"), "{}", guessed.1);
        assert!(scaled.1.contains("By your factor, 1.10 per size, E and D are too close to call"), "{}", scaled.1);
    }

    #[test]
    fn a_low_page_puts_plot_and_climb_beside_one_another_and_keeps_every_row() {
        let lineup = sample();
        let findings = Findings::of(&lineup);
        // What a sheet of 16 to 9 leaves beside its legend.
        let scene = price_and_climb_scene(&lineup, &findings, Page { width: 860.0, height: 480.0 }, None);
        let at = |words: &str| {
            let place =
                |i: &Item| if let Item::Text { at, text, .. } = i { text.starts_with(words).then_some(*at) } else { None };
            scene.items.iter().find_map(place)
        };
        let (plot, climb) = (at("Price of frame and fork").unwrap(), at("A Marrowby Drift L takes").unwrap());
        assert!(climb.x > plot.x + 300.0 && (climb.y - plot.y).abs() < 40.0, "{plot:?} {climb:?}");
        let plots = scene.items.iter().filter_map(|i| if let Item::Clip { size, .. } = i { Some(size.height) } else { None });
        assert!(plots.into_iter().all(|height| height > 150.0), "the plot is not crushed");
        let times = findings.price_and_climb.iter().zip(&findings.frames).filter(|(_, f)| f.shown);
        for time in times.filter_map(|(w, _)| Some(duration_text(w.climb.as_ref().ok()?.value))) {
            assert!(at(&time).is_some(), "{time}");
        }
    }

    #[test]
    fn words_stay_on_the_page() {
        for lineup in [lineup(1), lineup(2), lineup(8), lineup_with_gaps(), sample()] {
            let findings = Findings::of(&lineup);
            for width in [480.0, 570.0, 1000.0, 1400.0] {
                let page = Page { width, height: price_and_climb_height(&lineup, &findings, width) };
                let scene = price_and_climb_scene(&lineup, &findings, page, None);
                for item in &scene.items {
                    if let Item::Text { at, text, size, anchor, weight, .. } = item {
                        let covered = Rect::of_text(*at, text, *size, *anchor, *weight);
                        assert!(Rect::of_page(page).encloses(covered), "{text:?} at {at:?}, {page:?}");
                    }
                }
            }
        }
    }
}
