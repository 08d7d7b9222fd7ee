//! How long the room takes: opening, circle and rectangle of one size, a bag, and a dragged cut line.
//!
//! `cargo bench --no-default-features --features publish --bench bag_space`

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use criterion::{Criterion, criterion_group, criterion_main};
use spandrel::drawing::{Paper, pattern_scenes};
use spandrel::frameset::{Frameset, read_frameset};
use spandrel::geometry::adjust;
use spandrel::lineup::{Findings, Lineup};
use spandrel::luggage::{BagPart, BagSettings, Cut, bag, bag_space};
use spandrel::publish::pattern_file;

const STRAIGHT: &str = include_str!("../sample-frames/quern-halter.frame.ron");
const OTHER: &str = include_str!("../sample-frames/marrowby-drift.frame.ron");

fn frameset(text: &str) -> Frameset {
    read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("a sample frame does not read: {e}"))
}

fn bag_spaces(c: &mut Criterion) {
    let quern = frameset(STRAIGHT);
    let adjusted = adjust(&quern);
    c.bench_function("opening, circle and rectangle of one size, all with u (goal 200 µs)", |b| {
        b.iter(|| bag_space(&quern, &quern.sizes[2], &adjusted.sizes[2]));
    });
    let mut bent = quern.clone();
    bent.sizes[2].top_tube_bends = vec![spandrel::frameset::Bend { along: 0.4, off: -25.0 }];
    c.bench_function("the same with a bent top tube (goal 200 µs)", |b| {
        b.iter(|| bag_space(&bent, &bent.sizes[2], &adjusted.sizes[2]));
    });
    if let Ok(bag_space) = bag_space(&quern, &quern.sizes[2], &adjusted.sizes[2]) {
        c.bench_function("a full bag with u", |b| b.iter(|| bag(&bag_space, &BagSettings::default())));
    }
}

/// Findings renewed with the cut line a millimetre further: what a dragged line costs, without painting.
fn dragging(c: &mut Criterion) {
    let mut lineup = Lineup::default();
    lineup.add(frameset(STRAIGHT), None);
    lineup.add(frameset(OTHER), None);
    let mut findings = Findings::of(&lineup);
    let mut at = 100.0;
    c.bench_function("two frames, the cut line a millimetre further (goal 4 ms with painting)", |b| {
        b.iter(|| {
            at = if at > 250.0 { 100.0 } else { at + 1.0 };
            lineup.settings.bags.bag.part = BagPart::Above(Cut::AlongTopTube { below_mm: at });
            findings = Findings::renewed(&lineup, Some(&findings));
        });
    });
}

/// A pattern from findings to the file's bytes.
fn patterns(c: &mut Criterion) {
    let mut lineup = Lineup::default();
    lineup.add(frameset(STRAIGHT), None);
    let findings = Findings::of(&lineup);
    for paper in [Paper::A4, Paper::OneSheet] {
        c.bench_function(&format!("pattern as PDF, {} (goal 100 ms)", paper.label()), |b| {
            b.iter(|| {
                let pages = pattern_scenes(&findings.frames[0], spandrel::units::System::Metric, paper, None).expect("a bag");
                pattern_file(&pages, true, None).expect("a file")
            });
        });
    }
}

criterion_group!(benches, bag_spaces, dragging, patterns);
criterion_main!(benches);
