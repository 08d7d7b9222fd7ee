//! How long the processor works on one frame of the window: all panels and one view on eight frames at 1440 × 900, from
//! input to triangles, with nothing kept but what the window itself keeps. The goal is 4 ms in any view.
//!
//! `cargo bench --bench window`

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
use egui::{Context, Event, Pos2, RawInput, Rect, vec2};
use spandrel::frameset::{Figure, Frameset, read_frameset};
use spandrel::lineup::Lineup;
use spandrel::luggage::{BagPart, Cut};
use spandrel::parts::{Part, PartKind};
use spandrel::window::commands::Command;
use spandrel::window::{ViewId, Window};

const FRAMES: [&str; 7] = [
    include_str!("../sample-frames/marrowby-drift.frame.ron"),
    include_str!("../sample-frames/quern-halter.frame.ron"),
    include_str!("../sample-frames/tansett-fourways.frame.ron"),
    include_str!("../sample-frames/ellersby-longbarn.frame.ron"),
    include_str!("../sample-frames/brackwater-cob.frame.ron"),
    include_str!("../sample-frames/wrenfold-ambler.frame.ron"),
    include_str!("../sample-frames/quern-halter.frame.ron"),
];

fn frameset(text: &str) -> Frameset {
    read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("a sample frame does not read: {e}"))
}

fn eight() -> Lineup {
    let mut lineup = Lineup::default();
    for text in FRAMES.iter().chain(&FRAMES[..1]) {
        lineup.add(frameset(text), None);
    }
    assert_eq!(lineup.frames.len(), 8);
    lineup
}

fn input(pointer: Pos2) -> RawInput {
    RawInput {
        screen_rect: Some(Rect::from_min_size(Pos2::ZERO, vec2(1440.0, 900.0))),
        events: vec![Event::PointerMoved(pointer)],
        ..RawInput::default()
    }
}

fn frame(ctx: &Context, window: &mut Window, pointer: Pos2) -> usize {
    let output = ctx.run_ui(input(pointer), |ui| window.frame_ui(ui, None));
    output.textures_delta.clone().clear();
    let triangles = ctx.tessellate(output.shapes, output.pixels_per_point);
    triangles.len()
}

fn views(c: &mut Criterion) {
    let mut group = c.benchmark_group("one frame of the window (goal 4 ms)");
    for view in ViewId::ALL {
        let label = view.label();
        let ctx = Context::default();
        let mut window = Window::headless(&ctx, eight());
        window.ask(Command::Show(view));
        for _ in 0..4 {
            frame(&ctx, &mut window, Pos2::new(900.0, 400.0));
        }
        let mut step = 0.0_f32;
        group.bench_function(label, |b| {
            b.iter(|| {
                step = (step + 1.0) % 60.0;
                frame(&ctx, &mut window, Pos2::new(900.0 + step, 400.0))
            });
        });
    }
    // The drawing is dragged: its scene is made anew each frame.
    let ctx = Context::default();
    let mut window = Window::headless(&ctx, eight());
    window.ask(Command::Show(ViewId::Outline));
    for _ in 0..4 {
        frame(&ctx, &mut window, Pos2::new(900.0, 400.0));
    }
    group.bench_function("Outline, moved by keys", |b| {
        let mut is_left = false;
        b.iter(|| {
            is_left = !is_left;
            let key = if is_left { egui::Key::ArrowLeft } else { egui::Key::ArrowRight };
            let press = Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers: egui::Modifiers::NONE };
            let mut input = input(Pos2::new(900.0, 400.0));
            input.events.push(press);
            let output = ctx.run_ui(input, |ui| window.frame_ui(ui, None));
            ctx.tessellate(output.shapes, output.pixels_per_point).len()
        });
    });
    // The rears of all frames, with hub, crank and tyre of the list.
    group.bench_function("Parts, rear from above", rear_from_above);
    // The bag's cut line is dragged: bags and bottles of all frames are found anew each frame.
    group.bench_function("Bags, cut line dragged", dragged_cut);
    // The sheet's preview follows a change of every frame: findings, sentences, layout and painting anew. The goal is 8 ms.
    group.bench_function("Publish, another size each frame (goal 8 ms)", |b| another_size(b, ViewId::Publish));
    // Pictures of loaded bicycles are made beside the window: while they are on their way, the last ones stay.
    group.bench_function("Loaded, another size each frame (goal 4 ms)", |b| another_size(b, ViewId::Loaded));
    // A figure of a table with a misprint is typed: the search for errors and all findings anew. The goal is 8 ms.
    group.bench_function("Frameset, a keystroke beside a misprint (goal 8 ms)", typed_beside_misprint);
    // Five thousand sizes in one plot, at rest and moved, when all marks are laid out anew. The goal is 8 ms.
    group.bench_function("Steering, 5,000 sizes (goal 8 ms)", |b| five_thousand(b, false));
    group.bench_function("Steering, 5,000 sizes moved (goal 8 ms)", |b| five_thousand(b, true));
    group.finish();
}

/// Fifty framesets of a hundred sizes each, all drawn by one.
fn many_sizes() -> Lineup {
    let mut lineup = Lineup::default();
    for place in 0..50 {
        let mut frameset = frameset(FRAMES[place % FRAMES.len()]);
        let first = frameset.sizes[0].clone();
        frameset.sizes = (0..100)
            .map(|step| {
                let mut size = first.clone();
                size.label = format!("{place}-{step}");
                let further = f64::from(step) * 0.3 + place as f64 * 0.1;
                for (figure, value) in &mut size.figures {
                    if !figure.is_angle() {
                        *value += further;
                    }
                }
                size
            })
            .collect();
        lineup.add(frameset, None);
    }
    assert_eq!(lineup.frames.iter().map(|f| f.frameset.sizes.len()).sum::<usize>(), 5_000);
    lineup
}

/// One frame with a plot of five thousand sizes, moved to and fro by keys or left alone.
fn five_thousand(b: &mut criterion::Bencher, is_moved: bool) {
    let ctx = Context::default();
    let mut window = Window::headless(&ctx, many_sizes());
    window.ask(Command::Show(ViewId::Steering));
    for _ in 0..4 {
        frame(&ctx, &mut window, Pos2::new(900.0, 400.0));
    }
    let mut is_left = false;
    b.iter(|| {
        is_left = !is_left;
        let key = if is_left { egui::Key::ArrowLeft } else { egui::Key::ArrowRight };
        let mut input = input(Pos2::new(900.0, 400.0));
        if is_moved {
            let modifiers = egui::Modifiers::NONE;
            input.events.push(Event::Key { key, physical_key: None, pressed: true, repeat: true, modifiers });
        }
        let mut output = ctx.run_ui(input, |ui| window.frame_ui(ui, None));
        output.textures_delta.clear();
        ctx.tessellate(output.shapes, output.pixels_per_point).len()
    });
}

/// Eight rears seen from above, the pointer moving over them.
fn rear_from_above(b: &mut criterion::Bencher) {
    let mut lineup = eight();
    for (kind, text) in
        [(PartKind::RearHub, "142 x 12, 11-speed"), (PartKind::Crank, "142, 2x, chainline 45"), (PartKind::Tyre, "50-622")]
    {
        lineup.settings.parts.parts.push(Part::new(kind, text, "").unwrap_or_else(|e| panic!("{text}: {e}")));
    }
    let ctx = Context::default();
    ctx.enable_accesskit();
    let mut window = Window::headless(&ctx, lineup);
    window.ask(Command::Show(ViewId::Parts));
    let with = |window: &mut Window, events: Vec<Event>| {
        let output = ctx.run_ui(RawInput { events, ..input(Pos2::ZERO) }, |ui| window.frame_ui(ui, None));
        let nodes = output.platform_output.accesskit_update.as_ref().map_or(&[][..], |update| &update.nodes);
        nodes.iter().find(|(_, node)| node.label() == Some("Rear from above")).and_then(|(_, node)| node.bounds())
    };
    let mut button = None;
    for _ in 0..4 {
        button = with(&mut window, Vec::new()).or(button);
    }
    let button = button.unwrap_or_else(|| panic!("no button of that name"));
    #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
    let at = Pos2::new(f64::midpoint(button.x0, button.x1) as f32, f64::midpoint(button.y0, button.y1) as f32);
    let click = |pressed| {
        let (pos, button, modifiers) = (at, egui::PointerButton::Primary, egui::Modifiers::NONE);
        Event::PointerButton { pos, button, pressed, modifiers }
    };
    with(&mut window, vec![Event::PointerMoved(at), click(true)]);
    with(&mut window, vec![Event::PointerMoved(at), click(false)]);
    let mut step = 0.0_f32;
    b.iter(|| {
        step = (step + 1.0) % 60.0;
        frame(&ctx, &mut window, Pos2::new(600.0 + step, 400.0))
    });
}

/// Takes the reference's next larger and smaller size by turns, with a view in front.
fn another_size(b: &mut criterion::Bencher, view: ViewId) {
    let ctx = Context::default();
    let mut window = Window::headless(&ctx, eight());
    window.ask(Command::Show(view));
    window.ask(Command::SmallerSize);
    for _ in 0..4 {
        frame(&ctx, &mut window, Pos2::new(700.0, 300.0));
    }
    let sizes = |w: &Window| w.lineup().frames[0].size.clone();
    let before = sizes(&window);
    let mut is_larger = false;
    let mut change = |window: &mut Window| {
        is_larger = !is_larger;
        window.ask(if is_larger { Command::LargerSize } else { Command::SmallerSize });
        frame(&ctx, window, Pos2::new(700.0, 300.0))
    };
    change(&mut window);
    assert!(before != sizes(&window), "the size is changed");
    change(&mut window);
    b.iter(|| change(&mut window));
}

/// Types a digit behind the stack of a size whose wheelbase is misprinted and takes it back by turns, in the maker's table.
fn typed_beside_misprint(b: &mut criterion::Bencher) {
    let ctx = Context::default();
    let mut lineup = eight();
    lineup.frames.rotate_left(1);
    let mut window = Window::headless(&ctx, lineup);
    window.ask(Command::Show(ViewId::Frameset));
    ctx.enable_accesskit();
    let with = |window: &mut Window, events: Vec<Event>| {
        let output = ctx.run_ui(RawInput { events, ..input(Pos2::ZERO) }, |ui| window.frame_ui(ui, None));
        let bounds = output.platform_output.accesskit_update.as_ref().and_then(|update| {
            let field = update.nodes.iter().find(|(_, node)| node.label() == Some("Stack, size L"));
            field.and_then(|(_, node)| node.bounds())
        });
        output.textures_delta.clone().clear();
        ctx.tessellate(output.shapes, output.pixels_per_point);
        bounds
    };
    let mut field = None;
    for _ in 0..4 {
        field = with(&mut window, Vec::new()).or(field);
    }
    let field = field.expect("the field has a name");
    ctx.disable_accesskit();
    #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
    let place = Pos2::new(f64::midpoint(field.x0, field.x1) as f32, f64::midpoint(field.y0, field.y1) as f32);
    let button = |pressed| Event::PointerButton {
        pos: place,
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: egui::Modifiers::NONE,
    };
    let key = |key| Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers: egui::Modifiers::NONE };
    for event in [Event::PointerMoved(place), button(true), button(false), key(egui::Key::End), Event::Text(".".to_owned())] {
        with(&mut window, vec![event]);
        with(&mut window, Vec::new());
    }
    let stack = |window: &Window| window.lineup().frames[0].frameset.sizes[3].figures[&Figure::Stack];
    let mut is_typed = false;
    let mut strike = |window: &mut Window| {
        is_typed = !is_typed;
        with(window, vec![if is_typed { Event::Text("1".to_owned()) } else { key(egui::Key::Backspace) }])
    };
    let before = stack(&window);
    strike(&mut window);
    assert!((stack(&window) - before - 0.1).abs() < 1e-9, "a keystroke changes the figure: {}", stack(&window));
    strike(&mut window);
    b.iter(|| strike(&mut window));
}

/// Takes the cut line where the window itself says that it can be taken, and drags it up and down.
fn dragged_cut(b: &mut criterion::Bencher) {
    let ctx = Context::default();
    let mut lineup = eight();
    lineup.settings.bags.bag.part = BagPart::Above(Cut::Level { above_bb_mm: 300.0 });
    let mut window = Window::headless(&ctx, lineup);
    window.ask(Command::Show(ViewId::Bags));
    let with = |ctx: &Context, window: &mut Window, events: Vec<Event>| {
        let output = ctx.run_ui(RawInput { events, ..input(Pos2::ZERO) }, |ui| window.frame_ui(ui, None));
        let cursor = output.platform_output.cursor_icon;
        output.textures_delta.clone().clear();
        (cursor, ctx.tessellate(output.shapes, output.pixels_per_point).len())
    };
    for _ in 0..4 {
        frame(&ctx, &mut window, Pos2::new(700.0, 300.0));
    }
    let start = (80..700).map(|y| Pos2::new(430.0, y as f32)).find(|at| {
        with(&ctx, &mut window, vec![Event::PointerMoved(*at)]);
        with(&ctx, &mut window, vec![Event::PointerMoved(*at)]).0 == egui::CursorIcon::ResizeVertical
    });
    let start = start.expect("the cut line is on the screen");
    let button = |pressed| Event::PointerButton {
        pos: start,
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: egui::Modifiers::NONE,
    };
    with(&ctx, &mut window, vec![Event::PointerMoved(start), button(true)]);
    let mut step = 0_u32;
    let mut drag = |window: &mut Window| {
        step = (step + 1) % 80;
        let up = if step < 40 { step } else { 80 - step };
        with(&ctx, window, vec![Event::PointerMoved(start - vec2(0.0, up as f32))])
    };
    // A drag begins after a few points.
    let before = window.lineup().settings.bags;
    for _ in 0..20 {
        drag(&mut window);
    }
    assert!(before != window.lineup().settings.bags, "the line is moved");
    b.iter(|| drag(&mut window));
}

criterion_group!(benches, views);
criterion_main!(benches);
