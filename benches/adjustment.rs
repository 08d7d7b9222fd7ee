//! How long the arithmetic takes: one frameset of five sizes, clean and with a slip, files read and adjusted, loaded bicycles.
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

#[path = "../tests/made_up/mod.rs"]
mod made_up;

use std::cell::OnceCell;
use std::path::{Path, PathBuf};

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use made_up::USUAL;
use made_up::tables::{Wrong, table};
use rayon::prelude::*;
use spandrel::disk::{Loaded, load};
use spandrel::frameset::{Figure, Frameset, read_frameset, write_frameset};
use spandrel::geometry::adjust;
use spandrel::lineup::{Findings, read_lineup};

/// Five sizes, eleven figures each, one wheelbase wrong.
const FIVE_SIZES: &str = include_str!("../sample-frames/quern-halter.frame.ron");
fn frameset(text: &str) -> Frameset {
    read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("a sample frame does not read: {e}"))
}

/// Five sizes in which nothing is wrong, and nothing gives reason to look.
fn five_sizes(c: &mut Criterion) {
    let mut group = c.benchmark_group("five clean sizes adjusted, all figures and u (goal 200 µs)");
    for seed in [1, 2, 4] {
        let clean = table(seed, 5, &USUAL, Wrong::Nothing).frameset;
        assert!(adjust(&clean).slips.is_empty(), "table {seed} is not clean");
        group.bench_function(BenchmarkId::from_parameter(seed), |b| b.iter(|| adjust(&clean)));
    }
    group.finish();
}

/// Five sizes, one figure of which is wrong: found, left out, averaged over.
fn with_a_slip(c: &mut Criterion) {
    let mut group = c.benchmark_group("five sizes with a slip (goal 3 ms)");
    let cells = [
        (Figure::Wheelbase, 10.0),
        (Figure::Wheelbase, 100.0),
        (Figure::Stack, 10.0),
        (Figure::HeadAngle, 2.0),
        (Figure::HeadTube, 10.0),
        (Figure::EffectiveTopTube, 10.0),
    ];
    for (figure, by) in cells {
        let made_up = table(1, 5, &USUAL, Wrong::Cell(figure, by)).frameset;
        assert!(!adjust(&made_up).slips.is_empty(), "{} by {by} is not found", figure.key());
        group.bench_function(BenchmarkId::new(figure.key(), by), |b| b.iter(|| adjust(&made_up)));
    }
    let sample = frameset(FIVE_SIZES);
    assert_eq!((sample.sizes.len(), adjust(&sample).slips.is_empty()), (5, false));
    group.bench_function("sample", |b| b.iter(|| adjust(&sample)));
    group.finish();
}

fn reading(c: &mut Criterion) {
    c.bench_function("one frame file of five sizes read", |b| b.iter(|| read_frameset(FIVE_SIZES.as_bytes())));
}

/// How many files of four sizes; one in [`ONE_IN`] has a slip.
const FILES: u64 = 10_000;
const ONE_IN: u64 = 20;

/// Figures that others check, which a slip may be in.
const CHECKED: [Figure; 6] =
    [Figure::Wheelbase, Figure::Stack, Figure::Reach, Figure::HeadTube, Figure::HeadAngle, Figure::EffectiveTopTube];

/// Files of made-up tables in a folder of their own, which is gone when it is dropped.
fn files() -> (tempfile::TempDir, Vec<PathBuf>) {
    let folder = tempfile::tempdir().unwrap();
    let paths = (0..FILES).map(|seed| {
        let which = seed / ONE_IN;
        let figure = CHECKED[which as usize % CHECKED.len()];
        let by = if figure.is_angle() { [2.0, 12.0] } else { [10.0, 100.0] }[(which / 6) as usize % 2];
        let wrong = if seed % ONE_IN == 0 { Wrong::Cell(figure, by) } else { Wrong::Nothing };
        let text = write_frameset(&table(seed, 4, &USUAL, wrong).frameset).unwrap();
        let path = folder.path().join(format!("{seed}.frame.ron"));
        std::fs::write(&path, text).unwrap();
        path
    });
    let paths = paths.collect();
    (folder, paths)
}

/// What is asked of one file: whether something is probably wrong, and u of the first size's stack.
fn read_and_adjusted(path: &Path) -> (bool, f64) {
    let Ok(Loaded::Frameset(frameset)) = load(path) else { panic!("{} does not read", path.display()) };
    let adjusted = adjust(&frameset);
    (adjusted.slips.iter().any(|s| s.chance >= 0.5), adjusted.sizes[0].value(Figure::Stack).u)
}

/// The most memory that this process held so far, MB, where the system says so.
fn most_memory_mb() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|l| l.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse::<u64>().ok().map(|kb| kb / 1000)
}

/// Hundredths of a second that this process took of the processor so far, where the system says so.
fn processor_time() -> Option<u64> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    let fields: Vec<&str> = stat.rsplit_once(')')?.1.split_whitespace().collect();
    Some(fields.get(11)?.parse::<u64>().ok()? + fields.get(12)?.parse::<u64>().ok()?)
}

/// Files read from the disk and adjusted on all cores.
fn many_files(c: &mut Criterion) {
    let made = OnceCell::new();
    let mut group = c.benchmark_group("many");
    group.sample_size(10);
    group.bench_function(
        "10,000 files of four sizes, one in twenty with a slip, read and adjusted on all cores (goal 1.5 s)",
        |b| {
            let (_folder, paths) = made.get_or_init(|| {
                let made = files();
                tell_once(&made.1);
                made
            });
            b.iter(|| paths.par_iter().map(|path| read_and_adjusted(path)).filter(|(is_doubtful, _)| *is_doubtful).count());
        },
    );
    group.finish();
}

/// What one pass over the files gives, and takes. What other programs take of the cores is not in the processor's time.
fn tell_once(paths: &[PathBuf]) {
    let before = processor_time();
    let all: Vec<(bool, f64)> = paths.par_iter().map(|path| read_and_adjusted(path)).collect();
    let after = processor_time();
    let doubtful = all.iter().filter(|(is_doubtful, _)| *is_doubtful).count();
    let stack = all.iter().map(|(_, u)| u).sum::<f64>() / FILES as f64;
    println!("{doubtful} of {FILES} with something probably wrong, mean u of stack {stack:.4} mm");
    println!("hundredths of a second of the processor: {:?}", before.zip(after).map(|(before, after)| after - before));
    println!("most memory: {:?} MB (goal 300)", most_memory_mb());
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

criterion_group!(benches, five_sizes, with_a_slip, reading, many_files, loaded_bicycles);
criterion_main!(benches);
