//! A monkey at the window: keys, clicks, drags, typed texts, pastes and dropped files at random, each seed its own. Nothing
//! may panic or hang; taking everything back and bringing it back again gives the same document byte for byte; what is
//! saved is read back equal.
//!
//! `MONKEY_EVENTS=5000` is how many events in all (300 without), `MONKEY_SEED=7` the first seed.

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
#[path = "../../made_up/mod.rs"]
mod made_up;

use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use driving::{Driven, control, sample, window_on};
use egui::{Event, Key, Modifiers, PointerButton, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT;
use made_up::Dice;
use spandrel::disk::{Loaded, load};
use spandrel::lineup::{Lineup, read_lineup, write_lineup};
use spandrel::window::commands::{Command, table};
use spandrel::window::{Chooser, Window};

/// Events of one seed.
const EVENTS_A_SEED: usize = 100;
/// Steps that undo goes back.
const STEPS: usize = 500;
/// No event takes this long, even on a busy machine: one that does hangs.
const HANGS_AFTER: Duration = Duration::from_secs(120);

/// What is typed and pasted: figures, slips, tables, and what is none of it.
const TEXTS: [&str; 22] = [
    "",
    "0",
    "-1",
    "1e999",
    "NaN",
    "72,5",
    "610",
    "28 5/8 in",
    "٤٧-٦٢٢",
    "47-622",
    "Marrowby",
    "\u{202e}drawkcab\u{202c}",
    "\u{1b}[2J",
    "a\u{0}b",
    "🚲 ≈ ½",
    "first line\nsecond line\r\nthird",
    "Size\tS\tM\nStack\t580\t600\nReach\t390\t400\nHead angle\t71,5°\t72°",
    "Size\tS\tS\nStack\t5800\t-600\nReach\t390",
    "\t\t\t\n\t\t\n",
    "picture.png",
    "bag.pdf",
    "no/such/folder/x.lineup.ron",
];

fn text_of(lineup: &Lineup) -> String {
    write_lineup(lineup).expect("what the window holds can be written")
}

fn number(name: &str, usual: usize) -> usize {
    std::env::var(name).map_or(usual, |text| text.parse().expect("a number"))
}

#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }
    fn bytes(&self) -> Result<Vec<u8>, String> {
        fs::read(&self.0).map_err(|e| e.to_string())
    }
}

/// The monkey with its dice, the window before it, and what it did so far.
struct Monkey {
    dice: Dice,
    window: Driven,
    folder: PathBuf,
    files: Vec<PathBuf>,
    /// Whether nothing may put another document in the place of this one, so that taking all back must end where it began.
    keeps_document: bool,
    trail: Arc<Mutex<Vec<String>>>,
}

impl Monkey {
    fn note(&self, what: String) {
        self.trail.lock().expect("unspoilt").push(what);
    }

    /// Does one thing.
    fn act(&mut self) {
        match self.dice.below(20) {
            0..=5 => self.press_shortcut(),
            6..=11 => self.click_control(),
            12 | 13 => self.point(),
            14 | 15 => self.type_text(),
            16 => self.press_key(),
            17 => self.paste(),
            18 => self.drop_file(),
            _ => self.scroll(),
        }
        // Work goes on in threads of its own, so the window may ask to be painted again and again: a few times are enough.
        self.window.run_steps(3);
    }

    /// Commands, but those that only other tests may reach: what publishes takes long, and what ends the window ends it.
    fn press_shortcut(&mut self) {
        let about = &table()[self.dice.below(table().len())];
        let replaces = matches!(about.command, Command::New | Command::Open | Command::OpenByPath | Command::Sample);
        if matches!(about.command, Command::Publish | Command::PublishAgain | Command::Quit) || (replaces && self.keeps_document)
        {
            return;
        }
        self.note(format!("the keys of {:?}", about.command));
        match about.shortcut {
            Some(keys) => self.window.key_press_modifiers(keys.modifiers, keys.logical_key),
            None => self.window.state_mut().ask(about.command),
        }
    }

    fn click_control(&mut self) {
        let forbidden = [
            "Publish",
            "Quit",
            "Restore",
            "Discard",
            "Open",
            "New line-up",
            "Sample comparison",
            "Choose a folder",
            "Export",
            "Save picture",
        ];
        let nodes: Vec<_> = self
            .window
            .root()
            .children_recursive()
            .filter(|node| {
                let about = node.accesskit_node();
                let name = about.label().unwrap_or_default();
                !about.is_disabled()
                    && about.role() != egui::accesskit::Role::Label
                    && !name.is_empty()
                    && (!self.keeps_document || forbidden.iter().all(|word| !name.starts_with(word)))
                    && !name.contains("ublish")
            })
            .collect();
        if nodes.is_empty() {
            return;
        }
        let node = &nodes[self.dice.below(nodes.len())];
        self.note(format!("a click on {:?}", node.accesskit_node().label().unwrap_or_default()));
        if self.dice.below(4) == 0 { node.focus() } else { node.click() }
    }

    fn place(&mut self) -> Pos2 {
        Pos2::new(self.dice.between(-20.0, 1300.0) as f32, self.dice.between(-20.0, 820.0) as f32)
    }

    fn button(&self, at: Pos2, button: PointerButton, pressed: bool) {
        self.window.event(Event::PointerButton { pos: at, button, pressed, modifiers: Modifiers::NONE });
    }

    /// Points somewhere in the drawing, and clicks or drags there. Menus and the panel are left to clicks by name.
    fn point(&mut self) {
        let from = Pos2::new(self.dice.between(330.0, 1200.0) as f32, self.dice.between(150.0, 700.0) as f32);
        let to = self.place();
        let button = [PointerButton::Primary, PointerButton::Secondary, PointerButton::Middle][self.dice.below(3)];
        self.note(format!("a drag with {button:?} from {from:?} to {to:?}"));
        self.window.event(Event::PointerMoved(from));
        self.button(from, button, true);
        if self.dice.below(2) == 0 {
            self.window.step();
            self.window.event(Event::PointerMoved(to));
            self.window.step();
            self.button(to, button, false);
        } else {
            self.button(from, button, false);
        }
        if self.dice.below(3) == 0 {
            self.window.event(Event::PointerGone);
        }
    }

    fn text(&mut self) -> String {
        match self.dice.below(30) {
            0 => "x".repeat(5000),
            _ => TEXTS[self.dice.below(TEXTS.len())].to_owned(),
        }
    }

    fn type_text(&mut self) {
        let text = self.text();
        self.note(format!("typing {:?}", text.chars().take(40).collect::<String>()));
        if self.dice.below(2) == 0 {
            self.window.key_press_modifiers(Modifiers::COMMAND, Key::A);
        }
        self.window.event(Event::Text(text));
        if self.dice.below(2) == 0 {
            self.window.key_press_modifiers(Modifiers::NONE, Key::Enter);
        }
    }

    fn press_key(&mut self) {
        let keys = [
            Key::Enter,
            Key::Escape,
            Key::Tab,
            Key::Space,
            Key::Backspace,
            Key::Delete,
            Key::ArrowUp,
            Key::ArrowDown,
            Key::ArrowLeft,
            Key::ArrowRight,
            Key::Home,
            Key::End,
        ];
        let key = keys[self.dice.below(keys.len())];
        let modifiers = [Modifiers::NONE, Modifiers::SHIFT, Modifiers::ALT][self.dice.below(3)];
        for _ in 0..=self.dice.below(3) {
            self.note(format!("{modifiers:?} {key:?}"));
            self.window.key_press_modifiers(modifiers, key);
        }
    }

    fn paste(&mut self) {
        let text = self.text();
        self.note(format!("pasting {:?}", text.chars().take(40).collect::<String>()));
        self.window.event(Event::Paste(text));
    }

    fn drop_file(&mut self) {
        let file = self.files[self.dice.below(self.files.len())].clone();
        if self.keeps_document && file.to_string_lossy().ends_with(".lineup.ron") {
            return;
        }
        self.note(format!("dropping {}", file.display()));
        self.window.input_mut().dropped_files = vec![Arc::new(Dropped(file)) as _];
        self.window.step();
        self.window.input_mut().dropped_files.clear();
    }

    fn scroll(&mut self) {
        let by = self.dice.between(-400.0, 400.0) as f32;
        let at = self.place();
        self.note(format!("scrolling by {by:.0} at {at:?}"));
        self.window.event(Event::PointerMoved(at));
        let modifiers = if self.dice.below(2) == 0 { Modifiers::COMMAND } else { Modifiers::NONE };
        let event = Event::MouseWheel {
            unit: egui::MouseWheelUnit::Point,
            source: egui::MouseWheelSource::Wheel,
            delta: Vec2::new(0.0, by),
            phase: egui::TouchPhase::Move,
            modifiers,
        };
        for _ in 0..=self.dice.below(12) {
            self.window.event(event.clone());
            self.window.step();
        }
    }

    /// Asks for a command when no question is open.
    fn ask(&mut self, command: Command) {
        self.window.state_mut().ask(command);
        self.window.run_steps(2);
    }

    /// Leaves fields, menus and questions.
    fn come_to_rest(&mut self) {
        self.window.event(Event::PointerGone);
        for _ in 0..6 {
            self.window.key_press_modifiers(Modifiers::NONE, Key::Escape);
            self.window.run_steps(2);
        }
        // What is read or made in threads arrives.
        for _ in 0..20 {
            std::thread::sleep(Duration::from_millis(5));
            self.window.run_steps(1);
        }
    }

    /// Takes steps back, or brings them back, until nothing changes; gives each document on the way, the last one last.
    fn all(&mut self, command: Command) -> Vec<String> {
        let mut passed = vec![text_of(self.window.state().lineup())];
        for _ in 0..=STEPS {
            let before = self.window.state().lineup().clone();
            self.ask(command);
            if *self.window.state().lineup() == before {
                break;
            }
            passed.push(text_of(self.window.state().lineup()));
        }
        passed
    }

    /// Everything back, everything again: the same documents in both directions.
    fn check_history(&mut self, began_with: &str) {
        // What was undone last may still be brought back: then the end is what all of it leads to.
        self.all(Command::Redo);
        let back = self.all(Command::Undo);
        if self.keeps_document {
            assert_eq!(back.last().map(String::as_str), Some(began_with), "taking all back leads to the beginning");
        }
        let mut again = self.all(Command::Redo);
        again.reverse();
        assert_eq!(back.len(), again.len(), "as many steps in both directions");
        for (step, (one, other)) in back.iter().zip(&again).enumerate() {
            assert_eq!(one, other, "document {step} before the last");
        }
    }

    /// What is saved is read back equal, as a file and by the window.
    fn check_saved(&mut self, seed: usize) {
        let path = self.folder.join(format!("saved-{seed}.lineup.ron"));
        let lineup = self.window.state().lineup().clone();
        assert_eq!(read_lineup(text_of(&lineup).as_bytes()).expect("readable"), lineup);
        self.ask(Command::SaveAs);
        control(&self.window, "Path").focus();
        self.window.run_steps(2);
        self.window.key_press_modifiers(Modifiers::COMMAND, Key::A);
        self.window.run_steps(2);
        control(&self.window, "Path").type_text(&path.to_string_lossy());
        self.window.run_steps(2);
        control(&self.window, "Save").click();
        self.window.run_steps(4);
        let Ok(Loaded::Lineup(read)) = load(&path) else {
            let notices: Vec<&str> = self.window.state().notices().collect();
            panic!("not saved: {notices:?}");
        };
        assert_eq!(*read, lineup);
        assert!(!self.window.state().is_unsaved());
    }
}

/// Ends the test program, and says where, when one event takes too long.
fn watch(beat: &Arc<AtomicU64>, trail: &Arc<Mutex<Vec<String>>>) {
    let (beat, trail) = (Arc::clone(beat), Arc::clone(trail));
    std::thread::spawn(move || {
        let mut last = beat.load(Ordering::Relaxed);
        let mut since = std::time::Instant::now();
        while last != u64::MAX {
            std::thread::sleep(Duration::from_millis(500));
            let now = beat.load(Ordering::Relaxed);
            if now != last {
                (last, since) = (now, std::time::Instant::now());
            } else if since.elapsed() > HANGS_AFTER {
                println!("the window hangs, after: {:#?}", trail.lock().map(|t| t.clone()).unwrap_or_default());
                std::process::exit(1);
            }
        }
    });
}

/// One seed from opening to closing.
fn try_seed(seed: usize, folder: &Path, beat: &AtomicU64, trail: &Arc<Mutex<Vec<String>>>) {
    let bad = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../bad-files");
    let tables = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../tables");
    let given = folder.join("given");
    fs::create_dir_all(&given).expect("a folder for copies");
    // Copies: whatever is opened here may be saved over.
    let copy = |path: PathBuf| {
        let to = given.join(path.file_name().expect("a file"));
        fs::copy(&path, &to).expect("copied");
        to
    };
    let files = vec![
        copy(sample("marrowby-drift.frame.ron")),
        copy(sample("wrenfold-ambler.frame.ron")),
        copy(sample("village-library.lineup.ron")),
        copy(bad.join("figure-twice.frame.ron")),
        copy(bad.join("not-ron.frame.ron")),
        copy(tables.join("english-tabs.tsv")),
        copy(tables.join("german-spreadsheet.xlsx")),
        folder.to_owned(),
        folder.join("not-there.frame.ron"),
        PathBuf::from("/dev/null"),
    ];
    let opened = match seed % 3 {
        0 => vec![copy(sample("village-library.lineup.ron"))],
        1 => {
            ["marrowby-drift.frame.ron", "quern-halter.frame.ron", "tansett-fourways.frame.ron"].map(|n| copy(sample(n))).to_vec()
        }
        _ => vec![],
    };
    // What is typed may be in any script, and the embedded typefaces have not every one: an empty box stands for it.
    let mut window = Harness::builder()
        .with_size(Vec2::new(1280.0, 800.0))
        .with_max_steps(40)
        .allow_missing_glyphs()
        .build_eframe(move |cc| Window::new(cc, opened, Chooser::Typed));
    window.run();
    // On a busy machine the window goes on before its files are read.
    for _ in 0..500 {
        if !window.state().is_reading() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        window.run();
    }
    let began_with = text_of(window.state().lineup());
    let mut monkey = Monkey {
        dice: Dice::new(seed as u64),
        window,
        folder: folder.to_owned(),
        files,
        keeps_document: seed.is_multiple_of(2),
        trail: Arc::clone(trail),
    };
    for _ in 0..EVENTS_A_SEED {
        monkey.act();
        beat.fetch_add(1, Ordering::Relaxed);
    }
    monkey.come_to_rest();
    monkey.check_history(&began_with);
    monkey.check_saved(seed);
    beat.fetch_add(1, Ordering::Relaxed);
}

#[test]
fn nothing_that_is_done_at_random_breaks_the_window_or_its_document() {
    let events = number("MONKEY_EVENTS", 300);
    let first = number("MONKEY_SEED", 1);
    let folder = tempfile::tempdir().expect("a folder");
    // Whatever is typed as a path lands here.
    std::env::set_current_dir(folder.path()).expect("entered");
    let beat = Arc::new(AtomicU64::new(0));
    let mut failures = Vec::new();
    let mut tried = 0;
    let watched = Arc::new(Mutex::new(Vec::new()));
    watch(&beat, &watched);
    for seed in (first..).take(events.div_ceil(EVENTS_A_SEED)) {
        watched.lock().expect("unspoilt").clear();
        let result = catch_unwind(AssertUnwindSafe(|| try_seed(seed, folder.path(), &beat, &watched)));
        tried += EVENTS_A_SEED;
        if result.is_err() {
            let trail = watched.lock().map(|t| t.clone()).unwrap_or_default();
            let last = trail.len().saturating_sub(14);
            failures.push(format!("seed {seed}, {} events in; the last: {:#?}", trail.len(), &trail[last..]));
        }
    }
    beat.store(u64::MAX, Ordering::Relaxed);
    println!("monkey: {tried} events, {} failures", failures.len());
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

/// As many steps as undo remembers, and some more: each comes back, in both directions, byte for byte.
#[test]
fn undo_to_its_limit_and_redo_of_all_pass_the_same_documents() {
    let mut harness = window_on(&["marrowby-drift.frame.ron", "quern-halter.frame.ron"].map(sample));
    let commands = [
        Command::ShowOrHide,
        Command::Grid,
        Command::MoveDown,
        Command::SelectNext,
        Command::Dimensions,
        Command::MakeReference,
        Command::MoveUp,
        Command::Wheels,
    ];
    let mut passed = vec![text_of(harness.state().lineup())];
    let mut turn = 0;
    while passed.len() < STEPS + 21 {
        harness.state_mut().ask(commands[turn % commands.len()]);
        turn += 1;
        harness.step();
        let now = text_of(harness.state().lineup());
        if passed.last() != Some(&now) {
            passed.push(now);
        }
    }
    let last = passed.len() - 1;
    for step in 1..=STEPS {
        harness.state_mut().ask(Command::Undo);
        harness.step();
        assert_eq!(text_of(harness.state().lineup()), passed[last - step], "{step} steps back");
    }
    harness.state_mut().ask(Command::Undo);
    harness.step();
    assert_eq!(text_of(harness.state().lineup()), passed[last - STEPS], "the limit is reached");
    for step in (0..STEPS).rev() {
        harness.state_mut().ask(Command::Redo);
        harness.step();
        assert_eq!(text_of(harness.state().lineup()), passed[last - step], "{step} steps from the last");
    }
    harness.state_mut().ask(Command::Redo);
    harness.step();
    assert_eq!(text_of(harness.state().lineup()), passed[last]);
}
