//! What is found in tables with something wrong, and whether the ± then holds the truth.
//!
//! Made-up tables of regularly designed framesets, printed to 1 mm and 0.5°, whose assumptions are as wrong as their u says
//! (`made_up/tables.rs`). *Covered* is a figure whose truth lies within its ±; *named* is the wrong figure when it comes
//! first; a figure is *accused* from a chance of 0.5 on.
//!
//! What cannot be found, and why: a seat tube's length enters no other of the dozen figures; whole columns exchanged agree
//! with themselves; a head tube that is wrong in a single size alone is taken for another lower headset; a row of wheelbases
//! that are all too long cannot be told from horizontal chainstays; a fork length that is wrong in all sizes hides behind the
//! lower headset.
//!
//! `FRAMESETS=400 cargo test --release --test slips -- --nocapture` prints the rates over so many tables a row; with fewer,
//! as here, what chance allows is taken off each bound (three standard deviations of so few tables).

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

mod made_up;

use made_up::tables::{Kind, MadeUpTable, RIGID, Where, Wrong, table, table_of};
use made_up::{Dice, USUAL, printed_value};
use rayon::prelude::*;
use spandrel::frameset::{Figure, OwnMeasurement, SizeIndex, read_frameset};
use spandrel::geometry::{Adjusted, Change, Quantity, Slip, SlipKind, adjust, changed, figure, stand};
use spandrel::words::several_wrong_text;

/// How many tables a row; 6 unless the environment says otherwise.
fn tables() -> u64 {
    std::env::var("FRAMESETS").ok().and_then(|n| n.parse().ok()).unwrap_or(6)
}

/// What chance takes off a bound on a share, where each table gives one independent answer.
fn allowed(bound: f64, count: u64) -> f64 {
    bound - 3.0 * (bound * (1.0 - bound) / count as f64).sqrt()
}

const JUDGED: [Figure; 9] = [
    Figure::Stack,
    Figure::Reach,
    Figure::HeadAngle,
    Figure::HeadTube,
    Figure::Chainstay,
    Figure::BbDrop,
    Figure::Wheelbase,
    Figure::FrontCentre,
    Figure::Trail,
];

/// What came of one kind of table.
#[derive(Default)]
struct Rates {
    tables: u64,
    sizes: f64,
    covered: [f64; JUDGED.len()],
    named: f64,
    among_three: f64,
    seen: f64,
    accused_clean: f64,
    nobody: f64,
}

impl Rates {
    fn plus(mut self, other: &Self) -> Self {
        self.tables += other.tables;
        self.sizes += other.sizes;
        self.covered.iter_mut().zip(&other.covered).for_each(|(a, b)| *a += b);
        self.named += other.named;
        self.among_three += other.among_three;
        self.seen += other.seen;
        self.accused_clean += other.accused_clean;
        self.nobody += other.nobody;
        self
    }

    fn share(&self, of: f64) -> f64 {
        of / self.tables as f64
    }

    fn coverage(&self, figure: Figure) -> f64 {
        self.covered[JUDGED.iter().position(|f| *f == figure).unwrap()] / self.sizes
    }

    fn hold(&self, figures: &[Figure], bound: f64, what: &str) {
        for f in figures {
            assert!(self.coverage(*f) >= allowed(bound, self.tables), "{what}: {f:?} covered {}", self.coverage(*f));
        }
    }
}

fn is_it(slip: &Slip, at: &Where) -> bool {
    let is_row = matches!(slip.kind, SlipKind::AllSizes | SlipKind::Convention);
    let is_there = |size: usize| slip.cells.iter().any(|c| c.size == SizeIndex(size));
    slip.cells.first().is_some_and(|c| at.figures.contains(&c.figure)) && at.size.map_or(is_row, |k| !is_row && is_there(k))
}

fn judge(made_up: &MadeUpTable, adjusted: &Adjusted) -> Rates {
    let mut rates = Rates { tables: 1, sizes: made_up.truth.len() as f64, ..Rates::default() };
    for (size, truth) in adjusted.sizes.iter().zip(&made_up.truth) {
        for (covered, f) in rates.covered.iter_mut().zip(JUDGED) {
            let value = size.value(f);
            let off = (value.value - figure(f, truth, size.top_tube)).abs();
            *covered += f64::from(u8::from(off <= value.measured().expanded()));
        }
    }
    let accused: Vec<&Slip> = adjusted.slips.iter().filter(|s| s.chance >= 0.5 && s.assumption.is_none()).collect();
    rates.nobody = f64::from(u8::from(accused.is_empty()));
    let wrong_size = made_up.wrong.as_ref().and_then(|w| w.size);
    let is_row = made_up.wrong.as_ref().is_some_and(|w| w.size.is_none());
    let sizes: std::collections::BTreeSet<usize> = accused.iter().flat_map(|s| s.cells.iter().map(|c| c.size.0)).collect();
    rates.accused_clean = if is_row { 0.0 } else { sizes.iter().filter(|k| Some(**k) != wrong_size).count() as f64 };
    if let Some(at) = &made_up.wrong {
        let place = adjusted.slips.iter().position(|s| is_it(s, at));
        rates.named = f64::from(u8::from(place == Some(0)));
        rates.among_three = f64::from(u8::from(place.is_some_and(|p| p < 3)));
        let chance: f64 = adjusted.slips.iter().filter(|s| is_it(s, at)).map(|s| s.chance).sum();
        rates.seen = f64::from(u8::from(chance >= 0.1));
    }
    rates
}

fn rates(count: usize, wrong: Wrong) -> Rates {
    let rates = (0..tables())
        .into_par_iter()
        .map(|seed| {
            let made_up = table(seed, count, &USUAL, wrong);
            judge(&made_up, &adjust(&made_up.frameset))
        })
        .reduce(Rates::default, |a, b| a.plus(&b));
    let covered: Vec<String> = JUDGED.iter().map(|f| format!("{} {:.1}", f.key(), 100.0 * rates.coverage(*f))).collect();
    println!(
        "{wrong:?}, {count} sizes: named {:.1} %, among three {:.1} %, chance of 0.1 {:.1} %, clean sizes accused {:.3} a table, nobody accused {:.1} %; covered: {}",
        100.0 * rates.share(rates.named),
        100.0 * rates.share(rates.among_three),
        100.0 * rates.share(rates.seen),
        rates.share(rates.accused_clean),
        100.0 * rates.share(rates.nobody),
        covered.join(", ")
    );
    rates
}

#[test]
fn a_clean_table_is_covered_and_accuses_nobody() {
    for count in [2, 4, 5] {
        let rates = rates(count, Wrong::Nothing);
        rates.hold(&JUDGED, 0.94, "clean");
        assert!(rates.share(rates.nobody) >= allowed(0.99, rates.tables));
    }
}

/// One wrong figure, near and far: it comes first, the ± hold the truth, and other sizes are left alone.
#[test]
fn one_wrong_figure_is_named_and_left_out() {
    let cells = [
        (Figure::HeadTube, &[10.0, 100.0][..]),
        (Figure::Stack, &[10.0, 30.0, 300.0]),
        (Figure::Wheelbase, &[10.0, 30.0, 300.0]),
        (Figure::Reach, &[10.0, 100.0]),
        (Figure::Chainstay, &[10.0, 100.0]),
        (Figure::HeadAngle, &[2.0, 12.0]),
        (Figure::SeatAngle, &[2.0]),
        (Figure::EffectiveTopTube, &[10.0, 100.0]),
        (Figure::BbDrop, &[10.0]),
        (Figure::ForkOffset, &[10.0]),
    ];
    let mut all = Rates::default();
    for (figure, amounts) in cells {
        for by in amounts {
            let rates = rates(4, Wrong::Cell(figure, *by));
            rates.hold(&JUDGED, 0.90, &format!("{figure:?} off by {by}"));
            assert!(rates.share(rates.named) >= allowed(0.70, rates.tables), "{figure:?} off by {by}");
            all = all.plus(&rates);
        }
    }
    assert!(all.share(all.named) >= 0.85, "{}", all.share(all.named));
    assert!(all.share(all.seen) >= allowed(0.98, all.tables), "{}", all.share(all.seen));
    assert!(all.share(all.accused_clean) <= 0.05, "{}", all.share(all.accused_clean));
}

/// Two and three sizes know less: the ± hold the truth all the same.
#[test]
fn few_sizes_are_covered() {
    for count in [2, 3] {
        for (figure, by) in
            [(Figure::HeadTube, 10.0), (Figure::Wheelbase, 30.0), (Figure::Chainstay, 10.0), (Figure::HeadAngle, 2.0)]
        {
            rates(count, Wrong::Cell(figure, by)).hold(&JUDGED, 0.90, &format!("{figure:?} of {count} sizes"));
        }
    }
}

#[test]
fn exchanged_values_and_other_ways_of_measuring_are_covered() {
    for f in [Figure::Stack, Figure::HeadTube, Figure::Wheelbase, Figure::Reach] {
        rates(4, Wrong::Neighbour(f)).hold(&JUDGED, 0.90, &format!("the neighbour's {f:?}"));
    }
    rates(4, Wrong::Angles).hold(&JUDGED, 0.90, "angles exchanged");
    rates(4, Wrong::Cups).hold(&JUDGED, 0.90, "cups");
    rates(4, Wrong::Horizontal).hold(&JUDGED, 0.90, "horizontal chainstays");
    let row = rates(4, Wrong::Row(Figure::Wheelbase, 8.0));
    let told =
        [Figure::Stack, Figure::Reach, Figure::HeadTube, Figure::BbDrop, Figure::HeadAngle, Figure::FrontCentre, Figure::Trail];
    row.hold(&told, 0.75, "all wheelbases");
}

/// Each column agrees with itself; what tells are the rows, which step back. Each is then used for the other size.
#[test]
fn exchanged_columns_are_found() {
    for count in [4, 5] {
        let rates = rates(count, Wrong::Columns);
        rates.hold(&JUDGED, 0.90, "columns");
        assert!(rates.share(rates.named) >= allowed(0.85, rates.tables), "{count} sizes");
        assert!(rates.share(rates.seen) >= allowed(0.95, rates.tables), "{count} sizes");
    }
}

/// A suspension frame at sag, as it stands on the road: its ± hold the figures of the true frame on the same shorter fork.
#[test]
fn a_sagged_frame_is_covered() {
    let kind = Kind { has_suspension: true, ..RIGID };
    let change = Change { sag_mm: 24.0, ..Change::default() };
    let judged = [Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::SeatAngle, Figure::BbDrop, Figure::Trail];
    let (mut covered, mut all) = (0.0, 0.0);
    for seed in 0..4 * tables() {
        let made_up = table_of(seed, 4, &kind, Wrong::Nothing);
        for (size, truth) in adjust(&made_up.frameset).sizes.iter().zip(&made_up.truth) {
            let mut sagged = *truth;
            sagged.0[Quantity::AxleToCrown.index()] -= change.sag_mm;
            let (sagged, nose_up) = stand(&sagged);
            let found = changed(size, &change);
            assert!((0.5..3.0).contains(&-found.nose_up_deg) && (found.nose_up_deg - nose_up).abs() < 0.1, "{nose_up}");
            for f in judged {
                let value = found.size.value(f);
                let off = (value.value - figure(f, &sagged, size.top_tube)).abs();
                covered += f64::from(u8::from(off <= value.measured().expanded()));
                all += 1.0;
            }
            // How far sag moves a figure is known better than the figure itself.
            let steeper = found.difference(Figure::HeadAngle);
            let truth = figure(Figure::HeadAngle, &sagged, size.top_tube) - figure(Figure::HeadAngle, truth, size.top_tube);
            assert!(
                steeper.u < 0.2 * size.value(Figure::HeadAngle).u && (steeper.value - truth).abs() < 0.05,
                "{steeper:?} {truth}"
            );
        }
    }
    assert!(covered / all >= allowed(0.94, 4 * tables()), "{}", covered / all);
}

/// A figure that is found wrong is not used: the others come out as in the table without it.
#[test]
fn a_gross_slip_leaves_nothing_behind() {
    for seed in 0..tables() {
        let wrong = table(seed, 4, &USUAL, Wrong::Cell(Figure::Wheelbase, 218.0));
        let found = adjust(&wrong.frameset);
        let size = wrong.wrong.as_ref().and_then(|w| w.size).unwrap();
        let mut without = wrong.frameset.clone();
        without.ignore_figure(SizeIndex(size), Figure::Wheelbase, "tried");
        let without = adjust(&without);
        assert!(!found.slips[0].is_used, "{:?}", found.slips);
        for (a, b) in found.sizes[size].values().iter().zip(without.sizes[size].values()).filter(|(_, b)| !b.is_missing) {
            assert!((a.value - b.value).abs() < 0.5 * b.u, "{:?} of {seed}: {} and {}", a.figure, a.value, b.value);
        }
    }
}

/// Two sizes whose figures are printed alike are alike: their difference is nearly 0, and n equal figures are one.
#[test]
fn equal_figures_are_one_measurement() {
    let (mut height, mut sizes) = (0.0, 0.0);
    let printed: Vec<Figure> = USUAL.into_iter().chain([Figure::BbHeight]).collect();
    for seed in 0..4 * tables() {
        let made_up = table(seed, 5, &printed, Wrong::Nothing);
        let adjusted = adjust(&made_up.frameset);
        for (size, truth) in adjusted.sizes.iter().zip(&made_up.truth) {
            let value = size.value(Figure::RearTyreRadius);
            let off = (value.value - figure(Figure::RearTyreRadius, truth, size.top_tube)).abs();
            height += f64::from(u8::from(off <= value.measured().expanded()));
            sizes += 1.0;
        }
        let headset = adjusted.difference(SizeIndex(4), SizeIndex(0), Figure::LowerHeadset).unwrap();
        assert!(headset.value.abs() < 1e-9 && headset.u < 1e-6, "{headset:?}");
        let trail = adjusted.difference(SizeIndex(4), SizeIndex(0), Figure::Trail).unwrap();
        let alone = adjusted.sizes[4].value(Figure::Trail).u.hypot(adjusted.sizes[0].value(Figure::Trail).u);
        assert!(trail.u < 0.7 * alone, "{} of {alone}", trail.u);
    }
    assert!(height / sizes >= allowed(0.94, 4 * tables()), "{}", height / sizes);
}

/// Two sizes of a frameset share their tyres, fork and headset, so they differ by what their own figures leave open.
#[test]
fn two_sizes_of_the_sample_differ_by_little_more_than_their_rounding() {
    let text = include_bytes!("../sample-frames/marrowby-drift.frame.ron");
    let adjusted = adjust(&read_frameset(text).unwrap());
    let place = |label: &str| SizeIndex(adjusted.sizes.iter().position(|s| s.label == label).unwrap());
    let between = |f: Figure| adjusted.difference(place("L"), place("M"), f).unwrap();
    assert!(between(Figure::BbHeight).expanded() <= 0.7, "{:?}", between(Figure::BbHeight));
    assert!(between(Figure::Trail).expanded() <= 0.9, "{:?}", between(Figure::Trail));
    let headset = between(Figure::LowerHeadset);
    assert!(headset.value.abs() < 1e-9 && headset.u < 1e-6, "{headset:?}");
}

/// The user decides: a figure that is used anyway is doubted no more, and a measurement settles what is shared.
#[test]
fn the_user_overrules() {
    let mut made_up = table(3, 4, &USUAL, Wrong::Cell(Figure::Wheelbase, 30.0));
    let size = made_up.wrong.as_ref().and_then(|w| w.size).unwrap();
    assert!(adjust(&made_up.frameset).sizes[size].doubt(Figure::Wheelbase).is_some());
    let mut anyway = made_up.frameset.clone();
    anyway.sizes[size].use_anyway.insert(Figure::Wheelbase);
    assert!(adjust(&anyway).sizes[size].doubt(Figure::Wheelbase).is_none());
    let truth = figure(Figure::Wheelbase, &made_up.truth[size], adjust(&made_up.frameset).sizes[size].top_tube);
    let measured = OwnMeasurement { value: truth.round(), plus_minus: 2.0 };
    made_up.frameset.sizes[size].measured.insert(Figure::Wheelbase, measured);
    let value = *adjust(&made_up.frameset).sizes[size].value(Figure::Wheelbase);
    assert!((value.value - truth).abs() < 2.0, "{} and {truth}", value.value);
}

/// Figures that the others check.
const CHECKED: [Figure; 8] = [
    Figure::Stack,
    Figure::Reach,
    Figure::Wheelbase,
    Figure::Chainstay,
    Figure::HeadTube,
    Figure::EffectiveTopTube,
    Figure::HeadAngle,
    Figure::BbDrop,
];

/// Two gross slips at once, in any two figures: said to be so, and never a number that is sure of itself and wrong.
#[test]
fn two_gross_slips_are_said_and_wide_or_found() {
    let (mut covered, mut all, mut said) = (0.0, 0.0, 0.0);
    let count = 4 * tables();
    for seed in 0..count {
        let mut dice = Dice::new(seed + 77);
        let first = dice.one_of(&CHECKED);
        let by = |f: Figure| if f.is_angle() { 12.0 } else { 70.0 };
        let mut made_up = table(seed, 4, &USUAL, Wrong::Cell(first, by(first)));
        // The second in any cell but that one.
        let wrong_size = made_up.wrong.as_ref().and_then(|w| w.size).unwrap();
        let (size, second) = loop {
            let cell = (dice.below(4), dice.one_of(&CHECKED));
            if cell != (wrong_size, first) {
                break cell;
            }
        };
        let value = printed_value(&mut made_up.frameset.sizes[size], second);
        let range = second.about().low..=second.about().high;
        *value += if range.contains(&(*value + by(second))) { by(second) } else { -by(second) };
        let adjusted = adjust(&made_up.frameset);
        let values = || adjusted.sizes.iter().flat_map(spandrel::geometry::AdjustedSize::values);
        assert!(values().all(|v| v.value.is_finite() && v.u.is_finite()), "{seed}");
        let rates = judge(&made_up, &adjusted);
        covered += rates.covered.iter().sum::<f64>();
        all += rates.sizes * JUDGED.len() as f64;
        let is_said = adjusted.is_unexplained || several_wrong_text(&adjusted.slips).is_some();
        if !is_said {
            let told: Vec<_> =
                adjusted.slips.iter().map(|s| (s.kind, s.cells.first().map(|c| (c.figure, c.size)), s.chance)).collect();
            println!("{seed}: {first:?} of {wrong_size} and {second:?} of {size}, found {told:?}");
        }
        said += f64::from(u8::from(is_said));
    }
    println!("two gross slips: said {said} of {count}, covered {:.3}", covered / all);
    assert!(covered / all >= allowed(0.90, count), "{}", covered / all);
    assert!(said / count as f64 >= allowed(0.90, count), "{said} of {count}");
}
