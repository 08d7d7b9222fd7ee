//! Opening the window for a test, and a few moves that all tests share.
#![allow(dead_code, reason = "each test file uses its own part")]

use std::path::{Path, PathBuf};

use egui::{Event, Key, Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::window::commands::Command;
use spandrel::window::{Chooser, ViewId, Window};

pub(crate) type Driven = Harness<'static, Window>;

/// An invented maker's table in English: sizes across, parted by tabs.
pub(crate) const ENGLISH_TABLE: &str = "Size\tS\tM\tL
Stack\t602\t616\t630
Reach\t405\t425\t445
Head tube angle\t68°\t68.1°\t68.2°
Seat tube angle\t75°\t74.8°\t74.6°
Head tube length\t97\t112\t126
Seat tube length\t400\t430\t460
Fork length (axle to crown)\t507\t507\t507
Fork offset\t44\t44\t44
Chainstay length\t435\t435\t435
BB drop\t58\t58\t58
Wheelbase\t1103\t1128\t1152
";

/// A sample file.
pub(crate) fn sample(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../sample-frames").join(name)
}

/// The window on these files as it opens, with the overview in front.
pub(crate) fn window_as_it_opens(files: &[PathBuf], width: f32, height: f32) -> Driven {
    let files = files.to_vec();
    let mut harness = Harness::builder()
        .with_size(Vec2::new(width, height))
        .with_max_steps(40)
        .build_eframe(move |cc| Window::new(cc, files, Chooser::Typed));
    harness.run();
    // On a busy machine the window goes on before its files are read.
    for _ in 0..500 {
        if !harness.state().is_reading() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        harness.run();
    }
    harness
}

/// The window on these files with the outline in front, 1280 × 800 points, files chosen by typing.
pub(crate) fn window_on(files: &[PathBuf]) -> Driven {
    window_of_size(files, 1280.0, 800.0)
}

pub(crate) fn window_of_size(files: &[PathBuf], width: f32, height: f32) -> Driven {
    let mut harness = window_as_it_opens(files, width, height);
    harness.state_mut().ask(Command::Show(ViewId::Outline));
    harness.run();
    harness
}

/// The window on three sample frames.
pub(crate) fn window_on_three() -> Driven {
    window_on(&["marrowby-drift.frame.ron", "quern-halter.frame.ron", "tansett-fourways.frame.ron"].map(sample))
}

/// Presses a key.
pub(crate) fn press(harness: &mut Driven, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

/// The one control of that name; words beside it may say the same.
pub(crate) fn control<'a>(harness: &'a Driven, name: &'a str) -> egui_kittest::Node<'a> {
    let controls: Vec<_> =
        harness.query_all_by_label(name).filter(|n| n.accesskit_node().role() != egui::accesskit::Role::Label).collect();
    assert_eq!(controls.len(), 1, "controls named {name}");
    controls.into_iter().next().expect("one")
}

/// Clicks the control of that name. A view whose tab is not there is reached by the tab of its group first.
pub(crate) fn click(harness: &mut Driven, name: &str) {
    if let Some(view) = ViewId::ALL.into_iter().find(|view| view.label() == name)
        && view.group() != harness.state().view().group()
        && harness.query_all_by_label(name).all(|n| n.accesskit_node().role() == egui::accesskit::Role::Label)
    {
        click(harness, view.group().label());
    }
    control(harness, name).click();
    harness.run();
}

/// Puts the keyboard into a field and types in place of what it says, without leaving it.
pub(crate) fn type_over(harness: &mut Driven, name: &str, text: &str) {
    control(harness, name).focus();
    harness.run();
    press(harness, Modifiers::COMMAND, Key::A);
    control(harness, name).type_text(text);
    harness.run();
}

/// Types into the field of that name, in place of what it says, and enters it.
pub(crate) fn enter(harness: &mut Driven, name: &str, text: &str) {
    type_over(harness, name, text);
    press(harness, Modifiers::NONE, Key::Enter);
}

/// The models in the order of the line-up.
pub(crate) fn models(harness: &Driven) -> Vec<String> {
    harness.state().lineup().frames.iter().map(|f| f.frameset.model.clone()).collect()
}

/// A hand at the window that counts what it does: clicks and keys with a meaning. Words typed into a field are content.
pub(crate) struct Hand {
    pub(crate) window: Driven,
    pub(crate) actions: usize,
}

impl Hand {
    /// A hand that has done nothing yet.
    pub(crate) fn at(window: Driven) -> Self {
        Self { window, actions: 0 }
    }

    pub(crate) fn key(&mut self, modifiers: Modifiers, key: Key) {
        self.actions += 1;
        press(&mut self.window, modifiers, key);
    }

    pub(crate) fn click(&mut self, name: &str) {
        self.actions += 1;
        click(&mut self.window, name);
    }

    /// Ctrl+V, as a desktop delivers it.
    pub(crate) fn paste(&mut self, text: &str) {
        self.actions += 1;
        self.window.event(Event::Paste(text.to_owned()));
        self.window.run();
    }

    /// Types where the keyboard is.
    pub(crate) fn words(&mut self, text: &str) {
        self.window.event(Event::Text(text.to_owned()));
        self.window.run();
    }
}

/// Waits until a file is written.
pub(crate) fn until_there(window: &mut Driven, path: &Path) {
    for _ in 0..500 {
        std::thread::sleep(std::time::Duration::from_millis(20));
        window.step();
        if path.exists() {
            break;
        }
    }
    window.run();
}
