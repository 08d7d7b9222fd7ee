//! Every view that can be enlarged, found by enlarging all of them, is driven to its limits at many places, in and out, on
//! both backgrounds: it never paints more than a bounded number of vertices, it stops at a limit, and fitting it brings
//! back the very picture that it began with.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

mod driving;

use driving::sample;
use egui::{Context, Event, Key, Modifiers, Pos2, RawInput, Rect, epaint::Primitive, vec2};
use spandrel::lineup::{Lineup, read_lineup};
use spandrel::window::commands::Command;
use spandrel::window::{Appearance, ViewId, Window};

/// More than any view needs for eight frames, and far less than hurts: 40 bytes each.
const MOST_VERTICES: usize = 300_000;
const SIZE: egui::Vec2 = vec2(1440.0, 900.0);
/// Where the line-up's panel ends, points.
const PANEL: f32 = 330.0;

fn comparison() -> Lineup {
    read_lineup(&std::fs::read(sample("village-library.lineup.ron")).unwrap()).unwrap()
}

struct Driver {
    ctx: Context,
    window: Window,
    /// Corners of all that was painted in the last frame, right of the panel with its scroll bar that fades by the clock.
    painted: Vec<Pos2>,
    seconds: f64,
}

impl Driver {
    fn of(view: ViewId, appearance: Appearance) -> Self {
        let ctx = Context::default();
        let mut window = Window::headless(&ctx, comparison());
        window.ask(Command::Appearance(appearance));
        window.ask(Command::Show(view));
        let mut driver = Self { ctx, window, painted: Vec::new(), seconds: 0.0 };
        driver.frames(&[Event::PointerGone], 6);
        // Some pictures are made beside the window.
        for _ in 0..3000 {
            if !Window::is_making_pictures(&driver.ctx) {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(10));
            driver.frames(&[], 1);
        }
        driver
    }

    /// One frame; what it paints is bounded.
    fn frame(&mut self, events: Vec<Event>) {
        self.seconds += 0.1;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, SIZE)),
            time: Some(self.seconds),
            events,
            ..RawInput::default()
        };
        let window = &mut self.window;
        let mut output = self.ctx.run_ui(input, |ui| window.frame_ui(ui, None));
        output.textures_delta.clear();
        self.painted.clear();
        let mut count = 0;
        for primitive in self.ctx.tessellate(output.shapes, output.pixels_per_point) {
            if let Primitive::Mesh(mesh) = primitive.primitive {
                count += mesh.vertices.len();
                assert!(mesh.vertices.iter().all(|v| v.pos.x.is_finite() && v.pos.y.is_finite()), "painted at no place");
                self.painted.extend(mesh.vertices.iter().map(|v| v.pos).filter(|p| p.x > PANEL));
            }
        }
        let label = self.window.view_label();
        assert!(count <= MOST_VERTICES, "{label} paints {count} vertices");
    }

    /// A frame with some events and so many behind it in which what it asked for is shown.
    fn frames(&mut self, events: &[Event], more: usize) {
        self.frame(events.to_vec());
        for _ in 0..more {
            self.frame(Vec::new());
        }
    }

    fn ask(&mut self, command: Command) {
        self.window.ask(command);
        self.frames(&[], 3);
    }

    fn press(&mut self, key: Key) {
        let event = |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers: Modifiers::NONE };
        // A key has a frame of its own and one behind it.
        self.frames(&[event(true), event(false)], 1);
    }

    /// What is painted is what was painted before.
    fn shows(&self, before: &[Pos2]) {
        let label = self.window.view_label();
        let other = self.painted.iter().zip(before).find(|(a, b)| a != b);
        let counts = (before.len(), self.painted.len());
        assert!(self.painted == before, "{label}: fitting does not bring the drawing back: {counts:?}, first {other:?}");
    }

    /// Enlarges at a place until nothing changes any more.
    fn zoom_to_the_limit(&mut self, at: Pos2, factor: f32) {
        self.frame(vec![Event::PointerMoved(at)]);
        for _ in 0..40 {
            let before = std::mem::take(&mut self.painted);
            self.frames(&[Event::Zoom(factor)], 1);
            if self.painted == before {
                return;
            }
        }
        panic!("{} is enlarged by {factor} at {at:?} without a limit", self.window.view_label());
    }
}

/// The views whose drawing is another one after it was enlarged.
fn zooming() -> Vec<ViewId> {
    let zooms = |view: &ViewId| {
        let mut driver = Driver::of(*view, Appearance::Light);
        let before = driver.painted.clone();
        driver.ask(Command::ZoomIn);
        driver.painted != before
    };
    ViewId::ALL.into_iter().filter(zooms).collect()
}

#[test]
fn every_zooming_view_stands_at_its_limits() {
    let views = zooming();
    let labels: Vec<&str> = views.iter().map(|v| v.label()).collect();
    println!("zooming: {labels:?}");
    assert!(views.len() >= 4, "{labels:?}");
    let places = [(560.0, 560.0), (480.0, 300.0), (700.0, 420.0), (900.0, 240.0), (1050.0, 600.0), (1200.0, 380.0)];
    for view in views {
        for appearance in [Appearance::Light, Appearance::Dark] {
            let mut driver = Driver::of(view, appearance);
            let before = driver.painted.clone();
            for (x, y) in places {
                let at = Pos2::new(x, y);
                driver.zoom_to_the_limit(at, 1.7);
                driver.zoom_to_the_limit(at, 0.4);
                driver.zoom_to_the_limit(at, 2.9);
                for key in [Key::ArrowLeft, Key::ArrowUp] {
                    for _ in 0..15 {
                        driver.press(key);
                    }
                }
                driver.zoom_to_the_limit(at, 0.6);
            }
            driver.frames(&[Event::PointerGone], 2);
            driver.ask(Command::Fit);
            driver.shows(&before);
        }
    }
}

#[test]
fn panning_does_not_lose_a_drawing() {
    for view in zooming() {
        let mut driver = Driver::of(view, Appearance::Light);
        let before = driver.painted.clone();
        for key in [Key::ArrowRight, Key::ArrowDown, Key::ArrowRight] {
            for _ in 0..120 {
                driver.press(key);
            }
        }
        driver.ask(Command::Fit);
        driver.shows(&before);
    }
}
