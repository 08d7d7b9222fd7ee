//! What must hold for every sheet: sizes of text, the safe area, nothing over anything else, contrast over film.

use proptest::prelude::*;

use super::*;
use crate::drawing::scene::{Anchor, Item};
use crate::drawing::scene::{Fill, Role};
use crate::drawing::{Background, Palette, Pt, Rgb};
use crate::lineup::{Shape, SheetBackground, Statement, StatementSubject, read_lineup};

fn library() -> Lineup {
    read_lineup(include_bytes!("../../../sample-frames/village-library.lineup.ron")).unwrap()
}

fn all_blocks() -> Vec<Block> {
    Block::ALL.to_vec()
}

/// The texts of a scene and what each covers.
fn texts(scene: &Scene) -> Vec<(String, Rect, f64)> {
    let mut clip: Option<Rect> = None;
    let mut found = Vec::new();
    for item in &scene.items {
        match item {
            Item::Clip { at, size } => clip = Some(Rect::new(at.x, at.y, size.width, size.height)),
            Item::Unclip => clip = None,
            Item::Text { at, text, size, anchor, weight, .. } => {
                let rect = Rect::of_text(*at, text, *size, *anchor, *weight);
                if clip.is_none_or(|c| c.overlaps(rect)) {
                    found.push((text.clone(), rect, *size));
                }
            }
            _ => {}
        }
    }
    found
}

/// Every shape with every ground; what is true of all sheets.
fn check(lineup: &Lineup, blocks: &[Block]) {
    let findings = Findings::of(lineup);
    for shape in Shape::ALL {
        let sheet = Sheet {
            shape,
            contents: blocks.to_vec(),
            author: "V. Library".to_owned(),
            date: "2026-10-20".to_owned(),
            ..Sheet::default()
        };
        let drawing = sheet_scene(&findings, lineup, &sheet);
        let format = Format::of(shape);
        let page = drawing.scene.page;
        assert!(page.height < 20_000.0, "{shape:?}");
        let safe =
            Rect::new(format.margin.0, format.margin.1, page.width - 2.0 * format.margin.0, page.height - 2.0 * format.margin.1);
        let texts = texts(&drawing.scene);
        assert!(texts.len() > 3, "{shape:?}");
        for (text, rect, size) in &texts {
            assert!(*size >= format.least - 0.01, "{shape:?}: “{text}” has a size of {size}");
            assert!(safe.inset(-0.6).encloses(*rect), "{shape:?}: “{text}” at {rect:?} leaves {safe:?}");
        }
        for (i, (text, rect, _)) in texts.iter().enumerate() {
            for (other, fork_trial, _) in &texts[i + 1..] {
                assert!(!rect.inset(0.8).overlaps(fork_trial.inset(0.8)), "{shape:?}: “{text}” and “{other}” overlap");
            }
        }
    }
}

#[test]
fn on_every_shape_text_is_large_enough_within_the_safe_area_and_overlaps_nothing() {
    let lineup = library();
    check(&lineup, &Sheet::default().contents);
    check(&lineup, &all_blocks());
}

#[test]
fn eight_frames_with_long_names_overlap_nothing() {
    let mut lineup = library();
    let mut again = lineup.frames[0].clone();
    let mut frameset = crate::frameset::Frameset::clone(&again.frameset);
    frameset.model = "Very Long Name of a Frame That Nobody Would Ever Print in Full ".repeat(4);
    again.frameset = std::sync::Arc::new(frameset);
    lineup.frames.push(again);
    lineup.frames.iter_mut().for_each(|f| f.shown = true);
    lineup.title = "One of the longest titles that anybody could give to a comparison of framesets ".repeat(3);
    assert_eq!(lineup.frames.len(), 8);
    check(&lineup, &all_blocks());
    // Nobody is missing from the legend, whose letters stand on the drawing.
    for shape in Shape::ALL {
        let sheet = Sheet { shape, ..Sheet::default() };
        let left_out = sheet_scene(&Findings::of(&lineup), &lineup, &sheet).left_out;
        assert!(left_out.iter().all(|l| !matches!(l, LeftOut::LegendFrames(_))), "{shape:?}: {left_out:?}");
    }
}

#[test]
fn an_empty_line_up_has_a_sheet_too() {
    let lineup = Lineup::default();
    for shape in Shape::ALL {
        let sheet = Sheet { shape, contents: all_blocks(), ..Sheet::default() };
        let drawing = sheet_scene(&Findings::of(&lineup), &lineup, &sheet);
        assert!(drawing.scene.description.contains("No frame is shown"));
    }
}

#[test]
fn all_blocks_of_the_templates_fit() {
    let lineup = library();
    for sheet in Sheet::presets() {
        let left_out = sheet_scene(&Findings::of(&lineup), &lineup, &sheet).left_out;
        assert!(left_out.iter().all(|l| !matches!(l, LeftOut::Block(_))), "{}: {left_out:?}", sheet.name);
    }
}

/// The sheets of all statements, in every shape of a screen.
fn statements() -> Vec<Sheet> {
    let shapes = Shape::ALL.into_iter().filter(|shape| shape.is_screen());
    let of = |shape| {
        StatementSubject::ALL.map(|about| Sheet {
            shape,
            statement: Some(Statement { about, frame: "Ellersby Longbarn".to_owned() }),
            ..Sheet::default()
        })
    };
    shapes.flat_map(of).collect()
}

#[test]
fn statements_are_large_enough_within_the_safe_area_and_overlap_nothing() {
    let mut long = library();
    let mut frameset = crate::frameset::Frameset::clone(&long.frames[3].frameset);
    frameset.model = "Very Long Name of a Frame That Nobody Would Ever Print in Full ".repeat(2);
    long.frames[3].frameset = std::sync::Arc::new(frameset);
    for (lineup, least_callouts) in [(library(), 1), (long, 0)] {
        let findings = Findings::of(&lineup);
        for sheet in statements() {
            let drawing = sheet_scene(&findings, &lineup, &sheet);
            let (format, what) = (Format::of(sheet.shape), sheet.statement.as_ref().unwrap().about);
            let texts = texts(&drawing.scene);
            for (i, (text, rect, size)) in texts.iter().enumerate() {
                assert!(*size >= format.least - 0.01, "{what:?} {:?}: “{text}” has a size of {size}", sheet.shape);
                assert!(format.safe().inset(-0.6).encloses(*rect), "{what:?} {:?}: “{text}” at {rect:?}", sheet.shape);
                for (other, other_rect, _) in &texts[i + 1..] {
                    let is_over = rect.inset(0.8).overlaps(other_rect.inset(0.8));
                    assert!(!is_over, "{what:?} {:?}: “{text}” and “{other}” overlap", sheet.shape);
                }
            }
            let callouts =
                drawing.scene.items.iter().filter(|item| matches!(item, Item::Circle { radius, .. } if *radius == 4.0));
            let count = callouts.count();
            assert!(count >= least_callouts && count <= 3, "{what:?} {:?}: {count} callouts", sheet.shape);
        }
    }
}

#[test]
fn the_drawing_of_a_statement_takes_three_fifths_of_a_wide_picture() {
    let lineup = library();
    let sheet = Sheet { statement: Some(Statement::default()), ..Sheet::default() };
    let drawing = sheet_scene(&Findings::of(&lineup), &lineup, &sheet);
    let clip = drawing.scene.items.iter().find_map(|item| match item {
        Item::Clip { size, .. } => Some(size.width * size.height),
        _ => None,
    });
    let page = drawing.scene.page;
    assert!(clip.unwrap() >= 0.6 * page.width * page.height, "{clip:?}");
}

#[test]
fn a_statement_says_the_finding_or_the_users_words() {
    let lineup = library();
    let findings = Findings::of(&lineup);
    let headline = |about, title: &str| {
        let statement = Some(Statement { about, frame: String::new() });
        let sheet = Sheet { statement, title: title.to_owned(), ..Sheet::default() };
        sheet_scene(&findings, &lineup, &sheet).scene.title
    };
    let found: Vec<String> = StatementSubject::ALL.map(|about| headline(about, "")).to_vec();
    insta::assert_snapshot!(found.join("\n"), @"
    Quern Halter’s fork is 81 mm shorter
    Quern Halter takes a frame bag 0.8 l larger
    Quern Halter has 17 mm less trail
    Quern Halter’s wheelbase is 44 mm shorter
    ");
    assert_eq!(headline(StatementSubject::Bags, "It takes the larger bag"), "It takes the larger bag");
}

#[test]
fn a_statement_without_another_frame_is_a_picture_all_the_same() {
    for lineup in [Lineup::default(), Lineup { frames: library().frames[..1].to_vec(), ..Lineup::default() }] {
        for sheet in statements() {
            let drawing = sheet_scene(&Findings::of(&lineup), &lineup, &sheet);
            assert!(texts(&drawing.scene).iter().any(|(text, ..)| text.contains("95")), "{:?}", drawing.scene.title);
        }
    }
}

#[test]
fn what_does_not_fit_is_told() {
    let lineup = library();
    let sheet = Sheet { contents: all_blocks(), ..Sheet::default() };
    let drawing = sheet_scene(&Findings::of(&lineup), &lineup, &sheet);
    assert!(drawing.left_out.contains(&LeftOut::Block(Block::StackAndReach)), "{:?}", drawing.left_out);
    // What is not there has no footnote.
    assert!(drawing.left_out.contains(&LeftOut::Block(Block::Bags)), "{:?}", drawing.left_out);
    assert!(texts(&drawing.scene).iter().all(|t| !t.0.contains("Bags: full frame bag")));
    // A column holds everything.
    let sheet = Sheet { shape: Shape::BlogColumn, ..sheet };
    let drawing = sheet_scene(&Findings::of(&lineup), &lineup, &sheet);
    assert_eq!(drawing.left_out, Vec::new());
}

#[test]
fn footnotes_and_sentences_stand_on_the_sheet() {
    let lineup = library();
    let drawing = sheet_scene(&Findings::of(&lineup), &lineup, &Sheet::default());
    let words: String = texts(&drawing.scene).into_iter().map(|t| t.0 + " ").collect();
    for needed in ["maker’s limits", "trail", "B − A", "Weight"] {
        assert!(words.contains(needed), "{needed}: {words}");
    }
}

/// WCAG 2.2, success criterion 1.4.3, over black and over white film: the backing's colour is mixed with the film's.
#[test]
fn on_film_text_keeps_its_contrast_over_any_film() {
    for background in [SheetBackground::TransparentLight, SheetBackground::TransparentDark] {
        let palette =
            Palette::of(if background == SheetBackground::TransparentLight { Background::Light } else { Background::Dark });
        for film in [Rgb::new(0, 0, 0), Rgb::new(255, 255, 255)] {
            let under = film.mixed(palette.colour(Role::Background), BACKING);
            for role in [Role::Ink, Role::SecondInk] {
                let contrast = palette.colour(role).contrast(under);
                assert!(contrast >= 4.5, "{background:?} over {film:?}: {role:?} has {contrast:.2}");
            }
        }
    }
    // And every text that is not in a drawing lies on a backing.
    let lineup = library();
    let sheet = Sheet { background: SheetBackground::TransparentDark, ..Sheet::default() };
    let scene = sheet_scene(&Findings::of(&lineup), &lineup, &sheet).scene;
    let backings: Vec<Rect> = scene.items.iter().filter_map(backing).collect();
    for (text, rect, _) in texts(&scene).iter().filter(|t| t.0.chars().count() > 2) {
        assert!(backings.iter().any(|b| b.inset(-1.0).encloses(*rect)), "“{text}” lies on film");
    }
}

fn backing(item: &Item) -> Option<Rect> {
    match item {
        Item::Area { points, fill: Some(Fill { role: Role::Background, opacity }), .. }
            if *opacity >= 0.85 && points.len() == 4 =>
        {
            let (a, c): (Pt, Pt) = (points[0], points[2]);
            Some(Rect::new(a.x, a.y, c.x - a.x, c.y - a.y))
        }
        Item::Text { anchor: Anchor::Middle, .. } => None,
        _ => None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn any_words_are_laid_out(title in "\\PC{0,200}", name in "\\PC{0,200}", author in "\\PC{0,80}") {
        let mut lineup = library();
        let mut frameset = crate::frameset::Frameset::clone(&lineup.frames[0].frameset);
        frameset.maker = name;
        lineup.frames[0].frameset = std::sync::Arc::new(frameset);
        let findings = Findings::of(&lineup);
        for shape in [Shape::Wide, Shape::Upright] {
            let sheet = Sheet { shape, title: title.clone(), author: author.clone(), ..Sheet::default() };
            let drawing = sheet_scene(&findings, &lineup, &sheet);
            let safe = Format::of(shape).safe();
            for (text, rect, _) in texts(&drawing.scene) {
                prop_assert!(safe.inset(-0.6).encloses(rect), "“{}” at {:?}", text, rect);
            }
        }
    }
}
