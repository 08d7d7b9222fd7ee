//! What the pages of a pattern say, and where.

use super::pattern_paper::{MARGIN_MM, OVERLAP_MM, PX_PER_MM};
use super::rect::Rect;
use super::sample::lineup;
use super::scene::{Item, Weight};
use super::{Paper, pattern_scenes};
use crate::lineup::Findings;
use crate::luggage::{BagPart, Cut};
use crate::units::System;

/// No joint of two pages parts the words that stand in the bag: each is read on one page.
#[test]
fn words_in_the_bag_stand_on_one_page() {
    let mut read = 0;
    for part in [BagPart::Full, BagPart::Above(Cut::Level { above_bb_mm: 300.0 })] {
        let mut lineup = lineup(3);
        lineup.settings.bags.bag.part = part;
        let findings = Findings::of(&lineup);
        for (frame, paper) in findings.frames.iter().flat_map(|f| [Paper::A4, Paper::A3, Paper::Letter].map(|p| (f, p))) {
            let pages = pattern_scenes(frame, System::Metric, paper, None).unwrap();
            for words in ["Top tube", "Seat tube", "Down tube", "Cut line", "front of the bicycle"] {
                // Every page draws all words; what lies beyond its edge is cut off.
                let on = |margin_mm: f64| {
                    let shows = |page: &&super::Scene| {
                        let field = Rect::of_page(page.page).inset(margin_mm * PX_PER_MM);
                        page.items.iter().any(|item| match item {
                            Item::Text { at, text, size, anchor, .. } if text == words => {
                                Rect::of_text(*at, text, *size, *anchor, Weight::Semibold).overlaps(field)
                            }
                            _ => false,
                        })
                    };
                    pages[1..].iter().filter(shows).count()
                };
                let (printed, between_joints) = (on(MARGIN_MM), on(MARGIN_MM + OVERLAP_MM));
                if between_joints > 0 {
                    assert_eq!((printed, between_joints), (1, 1), "{} {words} on {}", frame.name, paper.label());
                    read += 1;
                }
            }
        }
    }
    assert!(read > 50, "{read}");
}
