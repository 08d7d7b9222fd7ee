//! Read ∘ write = identity: any frame file and any line-up that can be held is written as text that reads back equal,
//! and writing that again gives the same bytes.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::collections::BTreeMap;
use std::sync::Arc;

use proptest::collection::{btree_map, vec};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::RngSeed;
use spandrel::frameset::{
    Bar, Bend, Figure, Fork, FrameIndex, Frameset, Junctions, Known, Material, Part, Price, RoundedTo, Size, SmallPart, Source,
    Standard, Steerer, Tax, Tube, Tubing, TyreSize, Wall, Weight, read_frameset, write_frameset,
};
use spandrel::lineup::{
    AlignAt, Animation, Axes, Block, EditedCaption, Entry, Lineup, Movement, OutlineSettings, Sag, Settings, Shape, Sheet,
    SheetBackground, Statement, StatementSubject, Tyres, read_lineup, write_lineup,
};
use spandrel::units::System;

/// Text as people and makers write it, with what a file's grammar might stumble over.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        "[a-zA-Z0-9 äöüßéñ\\-/.,+()\\[\\]{}:\"'#!|<>\\\\]{0,24}",
        "\\PC{0,12}",
        select(vec![
            "",
            " ",
            "1.0",
            "10.00",
            "\"",
            "\\",
            "a\\\"1.0",
            "// no comment",
            "two\nlines",
            "\ttab",
            "\u{0}\u{7f}",
            "M\u{301}",
            "r#\"x\"#"
        ])
        .prop_map(str::to_owned),
    ]
}

/// A number of the given range: whole, to a tenth, or with all its digits.
fn number(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low..=high, 0..4).prop_map(move |(value, kind)| {
        let value: f64 = match kind {
            0 => value.round(),
            1 => (value * 10.0).round() / 10.0,
            _ => value,
        };
        value.clamp(low, high) + 0.0
    })
}

fn printable() -> impl Strategy<Value = Figure> {
    select(Figure::printable().collect::<Vec<_>>())
}

fn figures() -> impl Strategy<Value = BTreeMap<Figure, f64>> {
    vec((printable(), 0.0..=1.0), 0..20).prop_flat_map(|chosen| {
        let figures: Vec<_> = chosen.into_iter().map(|(f, _)| (Just(f), number(f.about().low, f.about().high))).collect();
        figures.prop_map(|list| list.into_iter().collect())
    })
}

fn bends() -> impl Strategy<Value = Vec<Bend>> {
    vec((0.001..0.999f64, number(-200.0, 200.0)), 0..4).prop_map(|mut bends| {
        bends.sort_by(|a, b| a.0.total_cmp(&b.0));
        bends.dedup_by(|a, b| a.0 == b.0);
        bends.into_iter().map(|(along, off)| Bend { along, off }).collect()
    })
}

/// A frameset with one of everything that is a list, as a mould: what later formats add keeps its default in it.
fn mould() -> Frameset {
    let text = b"#![enable(implicit_some)]
        Frameset(format: 1, maker: \"\", model: \"\", fork: (), tubing: (material: Steel), tube_walls: {TopTube: (wall: 0.8)},
            sizes: [(label: \"M\", figures: {})], weights: [(part: Frame, grams: 2000, from: Claimed)],
            prices: [(part: Frame, amount: \"1\", currency: \"EUR\")], sources: [(what: \"\")])";
    read_frameset(text).unwrap_or_else(|e| panic!("{e}"))
}

fn size() -> impl Strategy<Value = Size> {
    let junction = || option::of(number(-50.0, 300.0));
    (
        figures(),
        btree_map(printable(), number(0.001, 50.0), 0..4),
        btree_map(printable(), text(), 0..3),
        (junction(), junction(), junction()),
        bends(),
        bends(),
    )
        .prop_map(|(figures, rounded_to, ignored, (a, b, c), top_tube_bends, seat_tube_bends)| Size {
            figures,
            rounded_to,
            ignored,
            junctions: Junctions {
                top_tube_below_head_tube_top: a,
                top_tube_below_seat_tube_top: b,
                down_tube_above_head_tube_bottom: c,
            },
            top_tube_bends,
            seat_tube_bends,
            ..mould().sizes.remove(0)
        })
}

fn tyre() -> impl Strategy<Value = TyreSize> {
    (18..=150u32, 203..=787u32).prop_map(|(width, bead_seat)| TyreSize::new(width, bead_seat).unwrap())
}

fn material() -> impl Strategy<Value = Material> {
    select(vec![Material::Steel, Material::Aluminium, Material::Titanium, Material::Carbon])
}

fn part() -> impl Strategy<Value = Part> {
    select(vec![Part::Frame, Part::Fork, Part::Frameset])
}

fn date() -> impl Strategy<Value = Option<String>> {
    option::of((1900..2100, 1..=12, 1..=28).prop_map(|(y, m, d)| format!("{y}-{m:02}-{d:02}")))
}

fn weight() -> impl Strategy<Value = Weight> {
    let known = prop_oneof![Just(Known::Claimed), number(0.1, 50.0).prop_map(|to| Known::Weighed { to })];
    let with = vec(select(SmallPart::ALL.to_vec()), 0..3);
    (part(), option::of(text()), number(50.0, 15000.0), known, with, option::of(text()))
        .prop_map(|(part, size, grams, from, with, note)| Weight { part, size, grams, from, with, note })
}

fn price() -> impl Strategy<Value = Price> {
    let tax = option::of(select(vec![Tax::Included, Tax::Excluded]));
    (part(), "[1-9][0-9]{0,8}(\\.[0-9]{1,3})?", "[A-Z]{3}", tax, date()).prop_map(|(part, amount, currency, tax, on)| Price {
        part,
        amount,
        currency,
        tax,
        on,
        ..mould().prices.remove(0)
    })
}

fn standard() -> impl Strategy<Value = Standard> {
    select(vec![
        Standard::UpperHeadset,
        Standard::LowerHeadset,
        Standard::FrontHub,
        Standard::RearHub,
        Standard::BottomBracket,
        Standard::SeatPost,
        Standard::FrontDerailleur,
        Standard::WidestTyre,
        Standard::FrameBosses,
    ])
}

fn tube() -> impl Strategy<Value = Tube> {
    select(vec![Tube::TopTube, Tube::DownTube, Tube::SeatTube, Tube::HeadTube, Tube::ChainStay, Tube::ForkBlade])
}

fn tubing() -> impl Strategy<Value = Tubing> {
    (material(), option::of(text()), option::of(text())).prop_map(|(material, grade, butting)| Tubing {
        material,
        grade,
        butting,
    })
}

fn wall() -> impl Strategy<Value = Wall> {
    let thickness = || number(0.2, 10.0);
    let run = || option::of(number(0.0, 400.0));
    (thickness(), option::of(thickness()), option::of(thickness()), run(), run(), run())
        .prop_map(|(wall, middle, other_end, butt, other_butt, taper)| Wall { wall, middle, other_end, butt, other_butt, taper })
}

fn fork() -> impl Strategy<Value = Fork> {
    let travel = || option::of(number(0.0, 300.0));
    let steerer = (option::of(number(100.0, 500.0)), option::of(number(0.1, 3.0)))
        .prop_map(|(length, grams_per_mm)| Steerer { length, grams_per_mm });
    (option::of(material()), travel(), travel(), option::of(steerer), option::of(text()))
        .prop_map(|(material, travel, corrected_for, steerer, note)| Fork { material, travel, corrected_for, steerer, note })
}

/// Any frameset a file may hold.
fn any_frameset() -> impl Strategy<Value = Frameset> {
    let front = (
        text(),
        text(),
        option::of(1900..2200i32),
        (number(0.001, 50.0), number(0.001, 50.0)),
        option::of(tyre()),
        option::of(tyre()),
    );
    let bar = option::of(select(vec![Bar::Flat, Bar::Drop, Bar::Either]));
    let made_of = (
        bar,
        option::of(tubing()),
        option::of(fork()),
        btree_map(tube(), number(5.0, 120.0), 0..4),
        btree_map(tube(), wall(), 0..3),
    );
    let source = (text(), date()).prop_map(|(what, on)| Source { what, on });
    let rest = (
        vec(size(), 1..4),
        vec(weight(), 0..3),
        vec(price(), 0..3),
        btree_map(standard(), text(), 0..4),
        vec(source, 0..3),
        option::of(text()),
    );
    (front, made_of, rest).prop_map(|(front, made_of, rest)| {
        let mut frameset = mould();
        let (mm, deg);
        (frameset.maker, frameset.model, frameset.year, (mm, deg), frameset.tyre, frameset.front_tyre) = front;
        frameset.rounded_to = RoundedTo { mm, deg };
        (frameset.bar, frameset.tubing, frameset.fork, frameset.tube_diameters, frameset.tube_walls) = made_of;
        let sizes;
        (sizes, frameset.weights, frameset.prices, frameset.standards, frameset.sources, frameset.note) = rest;
        frameset.sizes = sizes;
        for (i, size) in frameset.sizes.iter_mut().enumerate() {
            ["S", "M \"1.0\"", "5\\4", "L/XL"][i].clone_into(&mut size.label);
            // Only what is printed is set aside.
            let figures = &size.figures;
            size.ignored.retain(|figure, _| figures.contains_key(figure));
        }
        // Weights are of sizes that there are.
        for (i, weight) in frameset.weights.iter_mut().enumerate() {
            let label = frameset.sizes[i % frameset.sizes.len()].label.clone();
            weight.size = weight.size.take().map(|_| label);
        }
        frameset
    })
}

fn axes() -> impl Strategy<Value = Axes> {
    (select(Figure::ALL.to_vec()), select(Figure::ALL.to_vec())).prop_map(|(across, up)| Axes { across, up })
}

fn settings() -> impl Strategy<Value = Settings> {
    let tyres = option::of(tyre()).prop_map(|t| t.map_or(Tyres::AsPublished, Tyres::SameOnAll));
    let sag =
        prop_oneof![Just(Sag::Unsagged), number(0.0, 100.0).prop_map(Sag::Millimetres), number(0.0, 60.0).prop_map(Sag::Percent)];
    let outline = (select(AlignAt::ALL.to_vec()), any::<[bool; 5]>());
    (any::<bool>(), (tyres, sag), outline, axes(), axes(), option::of(number(0.5, 2.0))).prop_map(
        |(
            imperial,
            (tyres, sag),
            (align_at, [wheels, all_wheels, grid, dimensions, line_patterns]),
            steering,
            position,
            factor,
        )| {
            let units = if imperial { System::Imperial } else { System::Metric };
            let mut settings = Settings { units, tyres, sag, ..Settings::default() };
            settings.outline = OutlineSettings { align_at, wheels, all_wheels, grid, dimensions, line_patterns };
            (settings.steering, settings.stack_and_reach, settings.weight.factor) = (steering, position, factor);
            settings
        },
    )
}

fn any_lineup() -> impl Strategy<Value = Lineup> {
    let entry = (any_frameset(), option::of(text()), any::<bool>(), 0..9usize).prop_map(|(frameset, came_from, shown, size)| {
        let size = frameset.sizes[size % frameset.sizes.len()].label.clone();
        let mut lineup = Lineup::default();
        lineup.add(frameset, came_from);
        Entry { size, shown, ..lineup.frames.remove(0) }
    });
    let whole = (text(), vec(entry, 0..3), 0..5usize, settings(), text(), sheets());
    whole.prop_map(|(title, frames, reference, settings, notes, sheets)| {
        let frames_count = frames.len();
        Lineup {
            sheets,
            title,
            frames,
            reference: FrameIndex(if frames_count == 0 { 0 } else { reference % frames_count }),
            settings,
            notes,
            ..Lineup::default()
        }
    })
}

fn any_moves() -> impl Strategy<Value = Animation> {
    let what = prop_oneof![Just(Movement::Appear), Just(Movement::Change), (-100..=150).prop_map(Movement::Fork)];
    (what, 1u32..=30, 5u32..=60).prop_map(|(what, seconds, frames_per_second)| Animation { what, seconds, frames_per_second })
}

/// Sheets with names of their own.
fn sheets() -> impl Strategy<Value = Vec<Sheet>> {
    let words = (text(), text(), text(), text(), text());
    let sheet = (words, select(Shape::ALL.to_vec()), option::of(320u32..=7680), select(SheetBackground::ALL.to_vec()));
    let lists = (
        vec(select(Block::ALL.to_vec()), 0..4),
        vec(select(Figure::ALL.to_vec()), 0..4),
        vec((text(), text(), text()), 0..3),
        option::of(any_moves()),
        option::of((select(StatementSubject::ALL.to_vec()), text())),
    );
    let sheet = (sheet, lists).prop_map(|(((title, subtitle, date, author, words), shape, width, background), lists)| {
        let caption = |(of, text, instead_of): (String, String, String)| {
            let figures = instead_of.chars().rev().collect();
            EditedCaption { of, text, instead_of, figures }
        };
        let captions = lists.2.into_iter().map(caption).collect();
        let (contents, figures, animation) = (lists.0, lists.1, lists.3);
        let statement = lists.4.map(|(about, frame)| Statement { about, frame });
        let name = String::new();
        Sheet {
            name,
            title,
            subtitle,
            date,
            author,
            words,
            statement,
            shape,
            width,
            background,
            contents,
            figures,
            captions,
            animation,
        }
    });
    vec(sheet, 0..3).prop_map(|mut sheets| {
        for (place, sheet) in sheets.iter_mut().enumerate() {
            sheet.name = format!("sheet {place}");
        }
        sheets
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, rng_seed: RngSeed::Fixed(2026), ..ProptestConfig::default() })]

    #[test]
    fn frame_files(frameset in any_frameset()) {
        let written = write_frameset(&frameset).unwrap();
        let read = read_frameset(written.as_bytes()).map_err(|e| TestCaseError::fail(format!("{e} at {:?}\n{written}", e.position())))?;
        prop_assert_eq!(&read, &frameset, "{}", written);
        prop_assert_eq!(write_frameset(&read).unwrap(), written);
    }

    #[test]
    fn lineups(lineup in any_lineup()) {
        let written = write_lineup(&lineup).unwrap();
        let read = read_lineup(written.as_bytes()).map_err(|e| TestCaseError::fail(format!("{e} at {:?}\n{written}", e.position())))?;
        prop_assert_eq!(&read, &lineup, "{}", written);
        prop_assert_eq!(write_lineup(&read).unwrap(), written);
    }
}

/// The frame inside a line-up is the very one of its file.
#[test]
fn a_frame_is_the_same_inside_a_lineup() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-frames");
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.to_string_lossy().ends_with(".frame.ron") {
            let frameset = read_frameset(&std::fs::read(&path).unwrap()).unwrap();
            let mut lineup = Lineup::default();
            lineup.add(frameset.clone(), None);
            let again = read_lineup(write_lineup(&lineup).unwrap().as_bytes()).unwrap();
            assert_eq!(again.frames[0].frameset, Arc::new(frameset), "{}", path.display());
        }
    }
}
