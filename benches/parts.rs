//! How long what fits takes: eight frames against twenty parts, a fork slider a millimetre further, rears from above.
//!
//! `cargo bench --no-default-features --bench parts`

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]
#![expect(clippy::panic, reason = "a benchmark without its sample files measures nothing")]

use criterion::{Criterion, criterion_group, criterion_main};
use spandrel::drawing::{Page, change_scene, fit_change, rear_height, rear_scene};
use spandrel::frameset::{Frameset, read_frameset};
use spandrel::geometry::{Adjusted, adjust};
use spandrel::lineup::{Findings, read_lineup};
use spandrel::parts::{Candidate, Part, PartKind, PartsList, RearGear, RearSettings, Statements, check};

const LINE_UP: &[u8] = include_bytes!("../sample-frames/village-library.lineup.ron");

fn frames() -> Vec<(Frameset, Adjusted)> {
    let texts = [
        include_str!("../sample-frames/marrowby-drift.frame.ron"),
        include_str!("../sample-frames/quern-halter.frame.ron"),
        include_str!("../sample-frames/tansett-fourways.frame.ron"),
        include_str!("../sample-frames/ellersby-longbarn.frame.ron"),
    ];
    let read = |text: &str| read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("a sample frame does not read: {e}"));
    texts.iter().chain(&texts).map(|t| read(t)).map(|f| (f.clone(), adjust(&f))).collect()
}

/// Reading what the makers state is part of it; the adjustment is not.
fn table(c: &mut Criterion) {
    let frames = frames();
    let parts = PartKind::ALL.iter().take(20).map(|k| Part::new(*k, k.example(), ""));
    let parts: Vec<Part> = parts.collect::<Result<_, _>>().unwrap_or_else(|e| panic!("an example does not read: {e}"));
    let list = PartsList { parts, fork: None, ..PartsList::default() };
    c.bench_function("8 frames × 20 parts (goal 1 ms)", |b| {
        b.iter(|| {
            let verdicts = frames.iter().map(|(frameset, adjusted)| {
                let statements = Statements::of(frameset);
                let candidate =
                    Candidate { frameset, statements: &statements, size: adjusted.sizes.get(1), saddle_height_mm: Some(740.0) };
                check(&list, &candidate).len()
            });
            verdicts.sum::<usize>()
        });
    });
}

/// The whole line-up found anew and the ghost drawn: what a moved slider costs, without painting.
fn slider(c: &mut Criterion) {
    let mut lineup = read_lineup(LINE_UP).unwrap_or_else(|e| panic!("the sample line-up does not read: {e}"));
    lineup.settings.fork_trial.use_listed_fork = false;
    let mut findings = Findings::of(&lineup);
    let page = Page { width: 1000.0, height: 700.0 };
    let mut length = 400.0;
    c.bench_function("fork slider a millimetre further, seven frames, ghost drawn (goal 4 ms with painting)", |b| {
        b.iter(|| {
            length = if length > 500.0 { 400.0 } else { length + 1.0 };
            lineup.settings.fork_trial.fork_length = Some(length);
            findings = Findings::renewed(&lineup, Some(&findings));
            let settings = &lineup.settings;
            let view = fit_change(&findings, &settings.outline, page);
            change_scene(&findings, &settings.outline, settings.units, page, view)
        });
    });
}

/// Seven rears with the chain of a chosen gear over the reference's, laid out and drawn anew.
fn rears(c: &mut Criterion) {
    let mut lineup = read_lineup(LINE_UP).unwrap_or_else(|e| panic!("the sample line-up does not read: {e}"));
    lineup.frames.iter_mut().for_each(|entry| entry.shown = true);
    lineup.settings.rear = RearSettings { gear: Some(RearGear { ring: 1, sprocket: 3 }), over_reference: true };
    let findings = Findings::of(&lineup);
    let width = 1000.0;
    c.bench_function("seven rears from above, drawn anew (goal 4 ms with painting)", |b| {
        b.iter(|| {
            let page = Page { width, height: rear_height(&lineup, &findings, width) };
            rear_scene(&lineup, &findings, page)
        });
    });
}

criterion_group!(benches, table, slider, rears);
criterion_main!(benches);
