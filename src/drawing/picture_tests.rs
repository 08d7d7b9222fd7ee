//! Checks of whole pictures: that every word is on the sheet, that nothing covers anything, and golden SVG.

use std::sync::Arc;

use proptest::prelude::*;

use super::sample::{lineup, lineup_with_gaps};
use super::*;
use crate::lineup::{Findings, Lineup, PictureView};
use crate::words::CAUTION;

fn scene(lineup: &Lineup, view: PictureView, width_px: u32, height_px: u32) -> Scene {
    picture_scene(
        &Findings::of(lineup),
        lineup,
        &Picture { view, width_px, height_px, background: Background::Light, look: None },
    )
}

/// The rectangles of all words outside the clipped part, with their text.
fn words(scene: &Scene) -> Vec<(Rect, String)> {
    let mut is_clipped = false;
    let mut found = Vec::new();
    for item in &scene.items {
        match item {
            Item::Clip { .. } => is_clipped = true,
            Item::Unclip => is_clipped = false,
            Item::Text { at, text, size, anchor, weight, .. } if !is_clipped => {
                found.push((Rect::of_text(*at, text, *size, *anchor, *weight), text.clone()));
            }
            _ => {}
        }
    }
    found
}

/// Every word inside the safe area of the page (that of the canvas, for clipped words).
fn assert_words_are_inside(scene: &Scene) {
    let page = Rect::of_page(scene.page);
    let safe = Rect::new(page.width * 0.05, page.height * 0.05, page.width * 0.9, page.height * 0.9).inset(-0.01);
    let mut room = safe;
    for item in &scene.items {
        match item {
            Item::Clip { at, size } => room = Rect::new(at.x, at.y, size.width, size.height).inset(-0.01),
            Item::Unclip => room = safe,
            Item::Text { at, text, size, anchor, weight, .. } => {
                let covered = Rect::of_text(*at, text, *size, *anchor, *weight);
                assert!(room.encloses(covered), "{:?}: {text:?} at {covered:?} outside {room:?}", scene.page);
            }
            _ => {}
        }
    }
}

fn with_long_names(mut lineup: Lineup) -> Lineup {
    for (i, entry) in lineup.frames.iter_mut().enumerate() {
        let mut frameset = (*entry.frameset).clone();
        frameset.maker = ["Ponderously", "Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"][i % 2].to_owned();
        frameset.model = "Long Distance Expedition Special Edition Mark Two".to_owned();
        entry.frameset = Arc::new(frameset);
    }
    lineup.title =
        "How the six loan bikes for the village library were chosen, and what each of them can and cannot do".to_owned();
    lineup
}

#[test]
fn words_with_long_names_are_inside_every_picture() {
    for count in [1, 3, 8] {
        let mut lineup = with_long_names(lineup(count));
        for dimensions in [false, true] {
            lineup.settings.outline.dimensions = dimensions;
            for view in PictureView::ALL {
                for (width, height) in [(1920, 1080), (1280, 720), (1080, 1920), (1200, 1200), (640, 360), (3840, 2160)] {
                    assert_words_are_inside(&scene(&lineup, view, width, height));
                }
            }
        }
    }
}

#[test]
fn title_legend_and_foot_note_do_not_cover_one_another() {
    for count in [2, 8] {
        let lineup = with_long_names(lineup(count));
        for view in [PictureView::Outline, PictureView::Weight, PictureView::Price, PictureView::Climb] {
            for (width, height) in [(1920, 1080), (1080, 1920), (640, 480)] {
                let all = words(&scene(&lineup, view, width, height));
                for (i, (a, text)) in all.iter().enumerate() {
                    for (b, other) in &all[..i] {
                        assert!(!a.inset(1.5).overlaps(b.inset(1.5)), "{width} × {height} {view:?}: {text:?} on {other:?}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_picture_names_its_frames_and_carries_the_caution() {
    let scene = scene(&lineup(3), PictureView::Outline, 1920, 1080);
    let all: Vec<String> = words(&scene).into_iter().map(|(_, t)| t).collect();
    for name in ["Marrowby Drift", "Quern Halter", "Tansett Fourways"] {
        assert!(all.iter().any(|t| t == name), "{name} in {all:?}");
    }
    let joined = all.join(" ");
    assert!(joined.contains(CAUTION), "{joined}");
    assert!(joined.contains("size L") && joined.contains("reference") && joined.contains("55-622"), "{joined}");
    assert!(scene.description.contains("trail"), "{}", scene.description);
}

#[test]
fn the_sheet_is_the_same_in_any_grain() {
    let picture = |width_px, height_px| Picture {
        view: PictureView::Outline,
        width_px,
        height_px,
        background: Background::Light,
        look: None,
    };
    let (full, fine) = (picture(1920, 1080).page(), picture(3840, 2160).page());
    assert!((full.width - 1280.0).abs() < 1e-9 && (full.height - 720.0).abs() < 1e-9);
    assert!((fine.width - full.width).abs() < 1e-9);
    // Few pixels: a smaller sheet, so that words stay as large as they can be read.
    assert!(picture(640, 360).page().width < 720.0);
}

#[test]
fn small_scenes_as_svg() {
    let mut lineup = lineup(2);
    lineup.settings.outline.grid = false;
    lineup.settings.outline.wheels = false;
    let findings = Findings::of(&lineup);
    let page = Page { width: 400.0, height: 260.0 };
    let view = fit_outline(&findings, &lineup.settings.outline, page);
    let units = lineup.settings.units;
    let outline = outline_scene(&findings, &lineup.settings.outline, units, page, view);
    insta::assert_snapshot!("outline", plain(&outline));
    let axes = lineup.settings.stack_and_reach;
    insta::assert_snapshot!("stack_and_reach", plain(&plot_scene(&findings, axes, units, page, fit_plot(&findings, axes))));
    insta::assert_snapshot!("weight", plain(&weight_scene(&findings, units, Page { width: 700.0, height: 420.0 })));
}

/// A scene in lines that can be read and compared: what is where, to a tenth of a page unit.
fn plain(scene: &Scene) -> String {
    let at = |p: &Pt| format!("{:.1},{:.1}", p.x, p.y);
    let all = |points: &[Pt]| points.iter().map(at).collect::<Vec<_>>().join(" ");
    let stroke = |s: &Stroke| format!("{:?} {:.1} {:?} {:.2}", s.role, s.width, s.pattern, s.opacity);
    let line = |item: &Item| match item {
        Item::Line { points, stroke: s } => format!("line {} | {}", all(points), stroke(s)),
        Item::Area { points, fill, stroke: s } => {
            format!("area {} | {:?} | {}", all(points), fill.map(|f| f.role), s.as_ref().map_or_else(String::new, stroke))
        }
        Item::Shape { rings, fill } => {
            format!("shape {} | {:?}", rings.iter().map(|ring| all(ring)).collect::<Vec<_>>().join(" / "), fill.role)
        }
        Item::Circle { centre, radius, fill, .. } => format!("circle {} r {radius:.1} | {:?}", at(centre), fill.map(|f| f.role)),
        Item::Text { at: p, text, size, anchor, role, .. } => format!("text {} {anchor:?} {size} {role:?} | {text}", at(p)),
        Item::Clip { at: p, size } => format!("clip {} {:.1} × {:.1}", at(p), size.width, size.height),
        Item::Unclip => "unclip".to_owned(),
    };
    let mut lines: Vec<String> = scene.items.iter().map(line).collect();
    lines.push(format!("title: {}", scene.title));
    lines.push(format!("description: {}", scene.description));
    lines.join("\n").replace("-0.0", "0.0")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn words_are_inside_pictures_of_any_size(width in 480_u32..4000, height in 360_u32..4000, count in 1_usize..9, which in 0_usize..PictureView::ALL.len()) {
        prop_assume!(width < 4 * height && height < 3 * width);
        assert_words_are_inside(&scene(&with_long_names(lineup(count)), PictureView::ALL[which], width, height));
    }

    #[test]
    fn gaps_do_not_push_words_off(width in 640_u32..2000, height in 480_u32..2000, which in 0_usize..PictureView::ALL.len()) {
        prop_assume!(width < 3 * height && height < 2 * width);
        assert_words_are_inside(&scene(&lineup_with_gaps(), PictureView::ALL[which], width, height));
    }
}

#[test]
fn low_pages_keep_answers_and_climb_inside() {
    assert_words_are_inside(&scene(&with_long_names(lineup(1)), PictureView::PriceAndClimb, 1300, 412));
    assert_words_are_inside(&scene(&lineup_with_gaps(), PictureView::PriceAndClimb, 640, 511));
}
