//! How long a pasted table of 14 figures and 6 sizes takes until it is drawn (goal: 50 ms), a pasted page of 200 lines until it is
//! understood (goal: 50 ms), and a keystroke in the
//! maker's table until the new picture's triangles (goal: 8 ms of the processor).
//!
//! `cargo bench --bench tables`

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
use egui::{Context, Event, Key, Modifiers, Pos2, RawInput, Rect, vec2};
use spandrel::drawing::{Page, fit_outline, outline_scene};
use spandrel::frameset::import;
use spandrel::lineup::{Findings, Lineup};
use spandrel::window::commands::Command;
use spandrel::window::{ViewId, Window};

/// Figures of an invented maker, for six sizes.
const TABLE: &str = "Size\tXS\tS\tM\tL\tXL\tXXL
Stack\t560\t577\t596\t615\t634\t655
Reach\t365\t372\t390\t408\t425\t440
Head tube angle\t69.5°\t69.5°\t70°\t70°\t70.5°\t70.5°
Seat tube angle\t74.5°\t74°\t73.5°\t73.5°\t73°\t73°
Head tube length\t80\t93\t111\t131\t153\t175
Seat tube length\t380\t410\t445\t480\t520\t555
Effective top tube\t520\t538\t567\t590\t619\t640
Fork length (axle to crown)\t482\t482\t482\t482\t482\t482
Fork offset\t46\t46\t46\t46\t46\t46
Chainstay length\t445\t445\t445\t445\t445\t445
BB drop\t62\t62\t62\t62\t62\t62
Wheelbase\t1046\t1055\t1074\t1099\t1117\t1138
Standover\t760\t782\t808\t834\t864\t890
Rider height\t150-160\t158-168\t166-176\t174-184\t182-192\t190-200
";

fn pasted() -> Lineup {
    let reading = import::read_text(TABLE).unwrap();
    assert_eq!((reading.sizes.len(), reading.open_questions().count()), (6, 0));
    let mut lineup = Lineup::default();
    lineup.add(reading.to_frameset("Marrowby", "Drift").unwrap(), None);
    lineup
}

fn paste(c: &mut Criterion) {
    let page = Page { width: 1100.0, height: 620.0 };
    c.bench_function("a pasted table of 14 figures and 6 sizes, understood and drawn", |b| {
        b.iter(|| {
            let lineup = pasted();
            let findings = Findings::of(&lineup);
            let view = fit_outline(&findings, &lineup.settings.outline, page);
            outline_scene(&findings, &lineup.settings.outline, lineup.settings.units, page, view).items.len()
        });
    });
}

/// A page of 200 lines: the table, a specification list, and prose.
fn page_of_200_lines() -> String {
    const LIST: &str = "Frame weight: 2.41 kg (M)
Fork weight: 1,120 g
Price: €1,349 incl. 19% VAT
Rear axle: 142 x 12 mm thru-axle
Bottom bracket: BSA 73
Tyre clearance: 700 x 50c / 27.5 x 2.1\"
Colour: moss
";
    let mut page = format!("{TABLE}\n{LIST}\n");
    for line in 0.. {
        if page.lines().count() >= 200 {
            break;
        }
        page.push_str(&format!("Sentence {line} of a page says what the frame is for, and where it was ridden last summer.\n"));
    }
    page
}

fn paste_page(c: &mut Criterion) {
    let page = page_of_200_lines();
    let reading = import::read_text(&page).unwrap();
    assert_eq!((reading.sizes.len(), reading.specification.len()), (6, 7));
    c.bench_function("a pasted page of 200 lines, understood (goal: 50 ms)", |b| {
        b.iter(|| import::read_text(&page).unwrap().taken());
    });
}

fn frame(ctx: &Context, window: &mut Window, events: Vec<Event>) -> usize {
    let input = RawInput {
        screen_rect: Some(Rect::from_min_size(Pos2::ZERO, vec2(1440.0, 900.0))),
        events,
        focused: true,
        ..RawInput::default()
    };
    let output = ctx.run_ui(input, |ui| window.frame_ui(ui, None));
    output.textures_delta.clone().clear();
    ctx.tessellate(output.shapes, output.pixels_per_point).len()
}

fn key(key: Key, modifiers: Modifiers) -> Event {
    Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers }
}

fn keystroke(c: &mut Criterion) {
    let ctx = Context::default();
    let mut window = Window::headless(&ctx, pasted());
    window.ask(Command::Show(ViewId::Frameset));
    // By Tab into the first figure of the table, which holds a stack.
    for _ in 0..400 {
        frame(&ctx, &mut window, vec![key(Key::Tab, Modifiers::NONE)]);
        frame(&ctx, &mut window, Vec::new());
        if !ctx.text_edit_focused() {
            continue;
        }
        frame(&ctx, &mut window, vec![key(Key::A, Modifiers::COMMAND)]);
        frame(&ctx, &mut window, vec![Event::Text("561".to_owned())]);
        if window.lineup().frames[0].frameset.sizes[0].figures.values().any(|v| *v == 561.0) {
            break;
        }
    }
    let is_there = window.lineup().frames[0].frameset.sizes[0].figures.values().any(|v| *v == 561.0);
    assert!(is_there, "the field was found");
    let mut is_one = true;
    let mut stroke = |window: &mut Window| {
        is_one = !is_one;
        let digit = if is_one { "1" } else { "2" };
        frame(&ctx, window, vec![key(Key::Backspace, Modifiers::NONE), Event::Text(digit.to_owned())])
            + frame(&ctx, window, Vec::new())
    };
    let before = window.lineup().clone();
    stroke(&mut window);
    assert!(before != *window.lineup(), "a stroke changes the line-up");
    c.bench_function("a keystroke in the table of 6 sizes to the new picture", |b| b.iter(|| stroke(&mut window)));
}

criterion_group!(tables, paste, paste_page, keystroke);
criterion_main!(tables);
