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

use made_up::tables::{MadeUpTable, Where, Wrong, table};
use made_up::{Dice, USUAL, printed_value};
use rayon::prelude::*;
use spandrel::frameset::{Figure, OwnMeasurement, SizeIndex};
use spandrel::geometry::{Adjusted, Slip, SlipKind, adjust, figure};

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
    let rest = [Figure::Stack, Figure::Reach, Figure::HeadTube, Figure::BbDrop, Figure::Wheelbase, Figure::Trail];
    let horizontal = rates(4, Wrong::Horizontal);
    horizontal.hold(&rest, 0.90, "horizontal chainstays");
    // Where all sizes have one head angle, its rounding is one error, and short chainstays hide in it.
    horizontal.hold(&[Figure::HeadAngle, Figure::Chainstay, Figure::FrontCentre], 0.80, "horizontal chainstays");
    let row = rates(4, Wrong::Row(Figure::Wheelbase, 8.0));
    row.hold(&[Figure::Stack, Figure::Reach, Figure::HeadTube, Figure::BbDrop, Figure::Trail], 0.75, "all wheelbases");
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

/// Two gross slips at once, and tables that nothing explains: never a number that is sure of itself and wrong.
#[test]
fn several_gross_slips_are_wide_or_found() {
    let (mut covered, mut all) = (0.0, 0.0);
    for seed in 0..tables() {
        let mut made_up = table(seed, 4, &USUAL, Wrong::Cell(Figure::Wheelbase, 120.0));
        let mut dice = Dice::new(seed);
        let size = dice.below(4);
        *printed_value(&mut made_up.frameset.sizes[size], Figure::Stack) += 60.0;
        let adjusted = adjust(&made_up.frameset);
        let rates = judge(&made_up, &adjusted);
        covered += rates.covered.iter().sum::<f64>();
        all += rates.sizes * JUDGED.len() as f64;
        assert!(
            adjusted
                .sizes
                .iter()
                .flat_map(spandrel::geometry::AdjustedSize::values)
                .all(|v| v.value.is_finite() && v.u.is_finite())
        );
    }
    assert!(covered / all >= allowed(0.90, tables()), "{}", covered / all);
}
