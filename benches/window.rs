//! What one frame of the window costs: eight framesets, each view, all panels laid out and tessellated. No screen, so
//! nothing is sent to one.
//!
//! `cargo bench --bench window`

use std::sync::Arc;

use criterion::{Criterion, criterion_group, criterion_main};
use egui::{Context, Event, Pos2, RawInput, Rect, pos2};
use spandrel::lineup::{Lineup, read_lineup};
use spandrel::window::commands::Command;
use spandrel::window::{Window, view_labels};

const COMPARISON: &str = include_str!("../sample-frames/village-library.lineup.ron");
const SCREEN: Rect = Rect { min: Pos2::ZERO, max: pos2(1440.0, 900.0) };

/// The sample comparison with an eighth frame, all shown.
fn eight_frames() -> Lineup {
    let mut lineup = read_lineup(COMPARISON.as_bytes()).unwrap_or_else(|e| panic!("the sample comparison does not read: {e}"));
    while lineup.frames.len() < 8 {
        let mut again = lineup.frames[lineup.frames.len() % 3].clone();
        again.frameset = Arc::new((*again.frameset).clone());
        lineup.frames.push(again);
    }
    lineup.frames.iter_mut().for_each(|f| f.shown = true);
    lineup
}

/// Lays one frame out and tessellates it; the pointer moves, so nothing may be kept from the frame before because
/// nothing happened. Returns how many triangles there are.
fn one_frame(ctx: &Context, window: &mut Window, desktop: &eframe::Frame, count: u32) -> usize {
    let across = 700.0 + (count % 200) as f32;
    let input = RawInput {
        screen_rect: Some(SCREEN),
        time: Some(f64::from(count) / 60.0),
        events: vec![Event::PointerMoved(pos2(across, 400.0))],
        ..RawInput::default()
    };
    let mut output = ctx.run_ui(input, |ui| window.frame_ui(ui, desktop));
    output.textures_delta.clear();
    let meshes = ctx.tessellate(output.shapes, output.pixels_per_point);
    meshes
        .iter()
        .map(|m| match &m.primitive {
            egui::epaint::Primitive::Mesh(mesh) => mesh.indices.len() / 3,
            egui::epaint::Primitive::Callback(_) => 0,
        })
        .sum()
}

fn frames(c: &mut Criterion) {
    let desktop = eframe::Frame::_new_kittest();
    for (view, label) in view_labels().into_iter().enumerate() {
        let ctx = Context::default();
        let mut window = Window::headless(&ctx, eight_frames());
        window.ask(Command::Show(view));
        let mut count = 0;
        for _ in 0..30 {
            count += 1;
            one_frame(&ctx, &mut window, &desktop, count);
        }
        assert_eq!(window.view_label(), label);
        assert!(one_frame(&ctx, &mut window, &desktop, count) > 1000, "{label} is painted");
        c.bench_function(&format!("one frame of the window, {label}, eight framesets (goal 4 ms)"), |b| {
            b.iter(|| {
                count += 1;
                one_frame(&ctx, &mut window, &desktop, count)
            });
        });
    }
}

criterion_group!(benches, frames);
criterion_main!(benches);
