//! How long the arithmetic takes: one frameset of five sizes, files read and adjusted, loaded bicycles.
//!
//! `cargo bench --no-default-features --bench adjustment`

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use rayon::prelude::*;
use spandrel::frameset::{Frameset, read_frameset};
use spandrel::geometry::adjust;
use spandrel::lineup::{Findings, read_lineup};

/// Five sizes, eleven figures each.
const FIVE_SIZES: &str = include_str!("../sample-frames/quern-halter.frame.ron");
/// Four sizes, thirteen figures each.
const FOUR_SIZES: &str = include_str!("../sample-frames/marrowby-drift.frame.ron");

fn frameset(text: &str) -> Frameset {
    read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("a sample frame does not read: {e}"))
}

fn five_sizes(c: &mut Criterion) {
    let quern = frameset(FIVE_SIZES);
    assert_eq!(quern.sizes.len(), 5);
    c.bench_function("five sizes adjusted, all figures, u and suspects (goal 200 µs)", |b| b.iter(|| adjust(&quern)));
}

fn reading(c: &mut Criterion) {
    c.bench_function("one frame file of five sizes read", |b| b.iter(|| read_frameset(FIVE_SIZES.as_bytes())));
}

fn many_files(c: &mut Criterion) {
    let mut group = c.benchmark_group("many");
    group.sample_size(10);
    group.bench_function("1,000 files of four sizes read and adjusted on all cores (goal 200 ms on two)", |b| {
        b.iter_batched(
            || vec![FOUR_SIZES; 1000],
            |texts| texts.par_iter().map(|t| adjust(&frameset(t)).sizes.len()).sum::<usize>(),
            BatchSize::LargeInput,
        );
    });
    group.finish();
}

/// Eight frames, each without luggage and with two loadings: every figure with its u, and the motions at 200 speeds.
fn loaded_bicycles(c: &mut Criterion) {
    let mut lineup = read_lineup(include_bytes!("../sample-frames/village-library.lineup.ron")).unwrap();
    // The last of the sample says too little to be ridden.
    lineup.frames.truncate(6);
    lineup.frames.extend(lineup.frames[..2].to_vec());
    let findings = Findings::of(&lineup);
    c.bench_function("loaded bicycles of eight frames, motions at 200 speeds (goal 20 ms)", |b| {
        b.iter(|| {
            let findings = findings.clone();
            let found = findings.loaded(&lineup);
            let rides = found.frames.iter().flat_map(|frame| &frame.rides[1..]).flatten();
            rides.map(|ride| (1..=200).map(|step| ride.motions(f64::from(step) * 0.07).len()).sum::<usize>()).sum::<usize>()
        });
    });
    let loaded = findings.clone();
    assert_eq!(loaded.loaded(&lineup).frames.len(), 8);
    c.bench_function("luggage of eight frames moved from the rear to the front", |b| {
        b.iter(|| loaded.clone().moved_luggage(&lineup).len());
    });
    c.bench_function("loaded bicycles of eight frames (goal 4 ms)", |b| b.iter(|| findings.clone().loaded(&lineup).frames.len()));
}

criterion_group!(benches, five_sizes, reading, many_files, loaded_bicycles);
criterion_main!(benches);
