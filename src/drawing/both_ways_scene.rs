//! A frame both ways: its outline as published, broken, over the outline that the other figures give, with which is which.

use super::frame_shape::{self, FrameLook};
use super::ghost::outlined;
use super::measure::wrap;
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Page, Pattern, Pt, Role, Scene, Stroke};
use super::standing::Standing;
use super::view::{Canvas, Margins, fitted};
use crate::frameset::FrameIndex;
use crate::geometry::Point;
use crate::lineup::{AlignAt, BothWays, FrameFindings};
use crate::units::System;
use crate::words::drawings as labels;
use crate::words::{both_ways_legend, farthest_text};

/// Height of a line of the legend, page units.
const LINE: f64 = 17.0;
/// Length of a line's sample in the legend, page units.
const SAMPLE: f64 = 30.0;

/// The scene, fitted to the page; `place` is the frame's in the line-up.
#[must_use]
pub fn both_ways_scene(frame: &FrameFindings, place: FrameIndex, both: &BothWays, units: System, page: Page) -> Scene {
    let mut pen = Pen::default();
    let rect = Rect::of_page(page);
    let words = Face::regular(12.0, Role::SecondInk);
    let whole = solid(Role::FrameLine(place), 1.9);
    let broken = Stroke { role: Role::Ink, width: 1.1, pattern: Pattern::Dashes, opacity: 1.0 };
    let [published, expected] = both_ways_legend(both, units);
    let said = farthest_text(both, units);
    let width = rect.width - SAMPLE - 20.0;
    let mut lines: Vec<(Option<Stroke>, String)> = Vec::new();
    for (stroke, text) in [(broken, published.as_str()), (whole, expected.as_str())] {
        let wrapped = wrap(text, words.size, words.weight, width, 3);
        lines.extend(wrapped.into_iter().enumerate().map(|(i, line)| ((i == 0).then_some(stroke), line)));
    }
    if let Some(said) = &said {
        lines.extend(wrap(said, words.size, words.weight, width, 2).into_iter().map(|line| (None, line)));
    }
    let below = LINE * lines.len() as f64 + 14.0;
    let stands = [&both.published, &both.expected].map(|o| Standing::of_outline(o, AlignAt::BottomBracket));
    let bounds = stands.iter().filter_map(|s| s.bounds(true)).reduce(|(low, high), (l, h)| {
        (Point { x: low.x.min(l.x), y: low.y.min(l.y) }, Point { x: high.x.max(h.x), y: high.y.max(h.y) })
    });
    pen.clip(rect);
    if let Some((low, high)) = bounds {
        let view = fitted(low, high, page, Margins { side: 10.0, top: 8.0, bottom: below + 8.0 });
        let canvas = Canvas { rect, view };
        let [of_published, of_expected] = &stands;
        frame_shape::draw_wheels(&mut pen, canvas, of_expected, place);
        frame_shape::draw(&mut pen, canvas, of_expected, FrameLook::alone(place));
        outlined(&mut pen, canvas, of_published, broken, true);
    }
    let mut y = rect.bottom() - below + LINE;
    for (stroke, text) in lines {
        if let Some(stroke) = stroke {
            let level = y - words.size * 0.35;
            pen.line(vec![Pt { x: rect.x + 4.0, y: level }, Pt { x: rect.x + 4.0 + SAMPLE, y: level }], stroke);
        }
        pen.text(Pt { x: rect.x + SAMPLE + 14.0, y }, text, words, Anchor::Start);
        y += LINE;
    }
    pen.unclip();
    let label = both.size.of(&frame.as_published.sizes).map_or("", |s| s.label.as_str());
    let told = [Some(published), Some(expected)].into_iter().flatten().collect::<Vec<_>>().join("; ");
    let said = said.map(|s| format!(" {s}")).unwrap_or_default();
    pen.finish(page, labels::both_ways_title(&frame.letter, &frame.name, label), labels::both_ways_text(&told, &said))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Item;
    use crate::frameset::read_frameset;
    use crate::lineup::{Findings, Lineup};

    #[test]
    fn both_outlines_stand_on_the_page_with_a_legend() {
        let mut lineup = Lineup::default();
        lineup.add(read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap(), None);
        let findings = Findings::of(&lineup);
        let both = findings.both_ways(FrameIndex(0), 0).unwrap();
        for (width, height) in [(560.0, 300.0), (320.0, 240.0)] {
            let page = Page { width, height };
            let scene = both_ways_scene(&findings.frames[0], FrameIndex(0), &both, System::Metric, page);
            let texts: Vec<(&str, Pt)> = scene
                .items
                .iter()
                .filter_map(|i| match i {
                    Item::Text { text, at, .. } => Some((text.as_str(), *at)),
                    _ => None,
                })
                .collect();
            assert!(texts.iter().any(|(t, _)| t.contains("1071")) && texts.iter().any(|(t, _)| t.contains("1059.9")));
            assert!(texts.iter().all(|(_, at)| at.y < height && at.x < width), "{texts:?}");
            let broken = |i: &&Item| matches!(i, Item::Area { stroke: Some(stroke), .. } if stroke.pattern == Pattern::Dashes);
            assert_eq!(scene.items.iter().filter(broken).count(), 3, "the frame as published: its edge and two openings");
            assert!(scene.description.contains("as published: wheelbase 1071"), "{}", scene.description);
            assert!(scene.title.contains("size L"));
        }
    }
}
