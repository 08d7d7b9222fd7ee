//! What the drawing of the rooms shows and says.

use super::sample::{lineup, lineup_with_gaps};
use super::scene::{Item, Page, Scene};
use super::{Role, bag_space_scene};
use crate::frameset::FrameIndex;
use crate::lineup::{BagSpaceFigure, Findings, Lineup};
use crate::luggage::{BagPart, Cut};
use crate::words::bag_space_difference_text;

const PAGE: Page = Page { width: 1200.0, height: 700.0 };

fn scene(lineup: &Lineup, page: Page) -> Scene {
    bag_space_scene(&Findings::of(lineup), &lineup.settings.bags, lineup.settings.units, page)
}

fn texts(scene: &Scene) -> Vec<(&str, Role)> {
    let text = |item| if let &Item::Text { ref text, role, .. } = item { Some((text.as_str(), role)) } else { None };
    scene.items.iter().filter_map(text).collect()
}

fn says(scene: &Scene, words: &str) -> bool {
    texts(scene).iter().any(|(text, _)| text.contains(words))
}

#[test]
fn a_full_bag_leaves_no_bottle_and_half_a_bag_does() {
    let mut lineup = lineup(2);
    let said = |lineup: &Lineup| texts(&scene(lineup, PAGE)).iter().map(|(text, _)| (*text).to_owned()).collect::<Vec<_>>();
    let has = |lineup: &Lineup, words: &str| said(lineup).iter().any(|t| t.contains(words));
    assert!(has(&lineup, "without the bag") && !has(&lineup, "0 of 2"), "{:?}", said(&lineup));
    // A boss that is measured leaves nothing to slide.
    let cages = &mut lineup.settings.bags.cages;
    for cage in [&mut cages.down_tube, &mut cages.seat_tube].into_iter().flatten() {
        cage.boss_plus_minus_mm = 0.0;
    }
    assert!(has(&lineup, "without the bag both bottles fit"), "each way is said: {:?}", said(&lineup));
    lineup.settings.bags.bag.part = BagPart::Above(Cut::AlongTopTube { below_mm: 60.0 });
    assert!(has(&lineup, "both bottles fit"), "{:?}", said(&lineup));
    lineup.settings.bags.cages.seat_tube = None;
    assert!(says(&scene(&lineup, PAGE), "the bottle fits"));
    lineup.settings.bags.with_bottles = false;
    assert!(!says(&scene(&lineup, PAGE), "bottle"));
}

#[test]
fn circle_and_rectangle_stand_where_nothing_else_does() {
    let mut lineup = lineup(1);
    let circles = |scene: &Scene| scene.items.iter().filter(|i| matches!(i, Item::Circle { fill: None, .. })).count();
    assert_eq!(circles(&scene(&lineup, PAGE)), 0);
    (lineup.settings.bags.with_bag, lineup.settings.bags.with_bottles) = (false, false);
    let bare = scene(&lineup, PAGE);
    assert_eq!(circles(&bare), 1);
    assert!(says(&bare, "largest circle") && says(&bare, "largest rectangle") && says(&bare, "Bag space "), "{:?}", texts(&bare));
}

#[test]
fn a_difference_within_its_plus_minus_is_grey() {
    let mut lineup = lineup(3);
    // Much larger than the reference.
    let largest = lineup.frames[1].frameset.sizes.last().unwrap().label.clone();
    lineup.frames[1].size = largest;
    let findings = Findings::of(&lineup);
    let scene = scene(&lineup, PAGE);
    let mut seen = [false; 2];
    for place in 0..findings.frames.len() {
        let Some(difference) = findings.bag_space_difference(FrameIndex(place), BagSpaceFigure::Litres) else { continue };
        let words = bag_space_difference_text(BagSpaceFigure::Litres, difference, lineup.settings.units);
        let found = texts(&scene).into_iter().find(|(text, _)| text.starts_with(&words));
        let expected = if difference.is_clear() { Role::Ink } else { Role::Grey };
        assert_eq!(found.map(|(_, role)| role), Some(expected), "{words}");
        seen[usize::from(difference.is_clear())] = true;
    }
    assert_eq!(seen, [true; 2], "both kinds are there");
}

#[test]
fn a_frame_without_room_says_why() {
    let lineup = lineup_with_gaps();
    let scene = scene(&lineup, PAGE);
    assert!(says(&scene, "Frame-bag space cannot be"), "{:?}", texts(&scene));
    assert!(scene.description.contains("Frame-bag space cannot be drawn"));
}

/// However small the page, nothing is written outside it.
#[test]
fn words_stay_on_the_page() {
    for (width, height) in [(1200.0, 700.0), (530.0, 420.0), (260.0, 200.0), (90.0, 60.0), (400.0, 1200.0)] {
        for frames in [1, 2, 5] {
            let page = Page { width, height };
            let scene = scene(&lineup(frames), page);
            for item in &scene.items {
                if let Item::Text { at, text, size, .. } = item {
                    let is_inside = at.x >= 0.0 && at.x <= width && at.y <= height && at.y - size >= -2.0;
                    assert!(is_inside, "{text:?} at {at:?} of {width} × {height}");
                }
            }
        }
    }
}
