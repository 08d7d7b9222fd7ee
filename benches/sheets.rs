//! How long a sheet takes: laid out anew, which is what a preview does at each move of a slider; as PNG files; as moving
//! pictures on all cores.
//!
//! `cargo bench --no-default-features --features publish --bench sheets`

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::doc_markdown,
    reason = "what checks and measures may panic and write names in its comments"
)]

use criterion::{Criterion, criterion_group, criterion_main};
use spandrel::drawing::sheet_scene;
use spandrel::lineup::{Animation, Block, Findings, Lineup, Movement, Sheet, SheetBackground, read_lineup};
use spandrel::publish::{PublishProgress, sequence, sheet_folder, sheet_png};

fn library() -> Lineup {
    let comparison = include_bytes!("../sample-frames/village-library.lineup.ron");
    read_lineup(comparison).unwrap_or_else(|e| panic!("the sample comparison does not read: {e}"))
}

fn stills(c: &mut Criterion) {
    let lineup = library();
    let findings = Findings::of(&lineup);
    let film = Sheet::default();
    let full = Sheet { contents: Block::ALL.to_vec(), ..Sheet::default() };
    let mut eight = lineup.clone();
    while eight.frames.len() < 8 {
        eight.frames.push(eight.frames[eight.frames.len() % 3].clone());
    }
    eight.frames.iter_mut().for_each(|f| f.shown = true);
    let of_eight = Findings::of(&eight);
    c.bench_function("sheet laid out (goal 8 ms)", |b| b.iter(|| sheet_scene(&findings, &lineup, &film)));
    c.bench_function("sheet of eight frames with every block laid out (goal 8 ms)", |b| {
        b.iter(|| sheet_scene(&of_eight, &eight, &full));
    });
    let mut group = c.benchmark_group("sheet as PNG");
    group.sample_size(10);
    for (width, name) in [(1920, "1920 × 1080 (goal 0.3 s)"), (3840, "3840 × 2160 (goal 1 s)")] {
        let sheet = Sheet { width: Some(width), ..film.clone() };
        group.bench_function(name, |b| {
            b.iter(|| sheet_png(&sheet_scene(&findings, &lineup, &sheet).scene, &sheet).unwrap());
        });
    }
    group.finish();
}

fn moving(c: &mut Criterion) {
    let lineup = library();
    let findings = Findings::of(&lineup);
    let mut group = c.benchmark_group("moving");
    group.sample_size(10);
    for (what, name) in Movement::ALL.into_iter().zip(["appear", "change", "fork"]) {
        let animation = Some(Animation { what, seconds: 4, frames_per_second: 30 });
        let sheet = Sheet { background: SheetBackground::TransparentLight, animation, ..Sheet::default() };
        group.bench_function(format!("{name}: 120 pictures of 1920 × 1080, numbered, APNG and GIF (goal 20 s)"), |b| {
            b.iter(|| {
                let files = sequence(&findings, &lineup, &sheet, &PublishProgress::default()).unwrap().unwrap();
                assert_eq!(files.len(), 122);
            });
        });
    }
    group.finish();
    let film = Sheet { animation: Some(Animation::default()), ..Sheet::default() };
    let mut group = c.benchmark_group("folder");
    group.sample_size(10);
    group.bench_function("everything of a film sheet, four seconds moving", |b| {
        b.iter(|| sheet_folder(&findings, &lineup, &film, &PublishProgress::default()).unwrap());
    });
    group.finish();
}

criterion_group!(benches, stills, moving);
criterion_main!(benches);
