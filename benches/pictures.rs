//! How long drawing takes: eight frames as scenes, as SVG, and as a PNG of 3840 × 2160.
//!
//! `cargo bench --no-default-features --features publish --bench pictures`

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

use std::sync::Arc;

use criterion::{Criterion, criterion_group, criterion_main};
use spandrel::drawing::{
    Background, Page, Scene, fit_outline, fit_plot, outline_scene, plot_scene, price_and_climb_scene, weight_scene,
};
use spandrel::lineup::{Findings, Lineup, read_lineup};
use spandrel::publish::{png, svg};

const COMPARISON: &str = include_str!("../sample-frames/village-library.lineup.ron");

/// The sample comparison with an eighth frame, all shown, dimensions on.
fn eight_frames() -> Lineup {
    let mut lineup = read_lineup(COMPARISON.as_bytes()).unwrap_or_else(|e| panic!("the sample comparison does not read: {e}"));
    while lineup.frames.len() < 8 {
        let mut again = lineup.frames[lineup.frames.len() % 3].clone();
        again.frameset = Arc::new((*again.frameset).clone());
        lineup.frames.push(again);
    }
    lineup.frames.iter_mut().for_each(|f| f.shown = true);
    lineup.settings.outline.dimensions = true;
    lineup
}

fn outline(lineup: &Lineup, findings: &Findings, page: Page) -> Scene {
    let settings = &lineup.settings;
    outline_scene(findings, &settings.outline, settings.units, page, fit_outline(findings, &settings.outline, page))
}

fn scenes(c: &mut Criterion) {
    let lineup = eight_frames();
    let findings = Findings::of(&lineup);
    let settings = &lineup.settings;
    let page = Page { width: 1200.0, height: 700.0 };
    c.bench_function("findings of eight framesets", |b| b.iter(|| Findings::of(&lineup)));
    c.bench_function("outline of eight frames as a scene", |b| b.iter(|| outline(&lineup, &findings, page)));
    c.bench_function("plot of eight frames as a scene", |b| {
        let view = fit_plot(&findings, settings.steering);
        b.iter(|| plot_scene(&findings, settings.steering, settings.units, page, view));
    });
    c.bench_function("weights of eight frames as a scene", |b| b.iter(|| weight_scene(&findings, settings.units, page)));
    c.bench_function("price and climb of eight frames as a scene", |b| {
        b.iter(|| price_and_climb_scene(&lineup, &findings, page, None));
    });
}

fn files(c: &mut Criterion) {
    let lineup = eight_frames();
    let scene = outline(&lineup, &Findings::of(&lineup), Page { width: 1920.0, height: 1080.0 });
    let text = svg(&scene, Background::Light);
    c.bench_function("outline of eight frames as SVG", |b| b.iter(|| svg(&scene, Background::Light)));
    let mut group = c.benchmark_group("picture");
    group.sample_size(10);
    group.bench_function("outline of eight frames as PNG, 3840 × 2160 (goal 1 s)", |b| b.iter(|| png(&text, 3840, 2160)));
    group.finish();
}

criterion_group!(benches, scenes, files);
criterion_main!(benches);
