//! Files in and out: bad ones told, good ones opened all the same, unsaved work asked about, nothing written over unasked.

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

use std::fs;
use std::path::PathBuf;

use driving::{Driven, click, models, press, sample, window_on, window_on_three};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::lineup::read_lineup;

/// Types a path into the question that is open and confirms with `button`.
fn answer_path(harness: &mut Driven, path: &str, button: &str) {
    harness.get_by_label("Path").focus();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.run();
    harness.get_by_label("Path").type_text(path);
    harness.run();
    click(harness, button);
}

#[test]
fn one_bad_file_says_what_and_where_and_stops_no_other() {
    let folder = tempfile::tempdir().expect("a folder");
    let bad = folder.path().join("bad.frame.ron");
    fs::write(&bad, "#![enable(implicit_some)]\nFrameset(\n    format: 1,\n    makr: \"Quern\",\n)\n").expect("written");
    let mut harness = window_on(&[bad.clone(), sample("marrowby-drift.frame.ron"), PathBuf::from("/nowhere/x.frame.ron")]);
    assert_eq!(models(&harness), ["Drift"]);
    let notices: Vec<String> = harness.state().notices().map(str::to_owned).collect();
    assert_eq!(notices.len(), 2, "{notices:?}");
    assert!(notices[0].starts_with(&format!("{}:4:", bad.display())) && notices[0].contains("maker"), "{}", notices[0]);
    assert!(notices[1].contains("no such file"), "{}", notices[1]);
    click(&mut harness, "Dismiss notice 1");
    assert_eq!(harness.state().notices().count(), 1);
}

#[test]
fn dropped_files_are_added_in_one_step() {
    #[derive(Debug)]
    struct Dropped(PathBuf);
    impl egui::DroppedFile for Dropped {
        fn path(&self) -> &std::path::Path {
            &self.0
        }
        fn bytes(&self) -> Result<Vec<u8>, String> {
            fs::read(&self.0).map_err(|e| e.to_string())
        }
    }
    let mut harness = window_on(&[]);
    harness.input_mut().dropped_files = ["marrowby-drift.frame.ron", "quern-halter.frame.ron", "tansett-fourways.frame.ron"]
        .iter()
        .map(|n| std::sync::Arc::new(Dropped(sample(n))) as _)
        .collect();
    harness.step();
    harness.input_mut().dropped_files.clear();
    harness.run();
    assert_eq!(models(&harness).len(), 3);
    assert!(harness.state().is_unsaved());
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(models(&harness).len(), 0);
}

/// Waits for a file that is read, a minute at most.
fn until_read(harness: &mut Driven) {
    for _ in 0..3000 {
        harness.step();
        if harness.query_by_label("Stop").is_none() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    harness.run();
}

#[cfg(unix)]
#[test]
fn a_pipe_a_device_and_a_folder_are_refused_and_the_window_lives() {
    let folder = tempfile::tempdir().expect("a folder");
    let pipe = folder.path().join("pipe.frame.ron");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status().expect("mkfifo");
    assert!(made.success());
    let zero = folder.path().join("zero.lineup.ron");
    std::os::unix::fs::symlink("/dev/zero", &zero).expect("linked");
    // At start, and by a typed path.
    let mut harness = window_on(&[pipe.clone(), sample("marrowby-drift.frame.ron")]);
    until_read(&mut harness);
    assert_eq!(models(&harness), ["Drift"]);
    for path in [&zero, &pipe, &folder.path().to_owned()] {
        press(&mut harness, Modifiers::COMMAND, Key::O);
        answer_path(&mut harness, &path.to_string_lossy(), "Open");
        until_read(&mut harness);
    }
    let notices: Vec<String> = harness.state().notices().map(str::to_owned).collect();
    let told = |path: &std::path::Path, says: &str| notices.contains(&format!("{}: {says}", path.display()));
    assert_eq!(notices.len(), 3, "{notices:?}");
    assert!(told(&zero, "is a device, not a file: choose a regular file, such as NAME.frame.ron"), "{notices:?}");
    assert!(told(folder.path(), "is a folder, not a file: choose a file in it, such as NAME.frame.ron"), "{notices:?}");
    assert_eq!(models(&harness), ["Drift"]);
}

#[test]
fn saved_by_a_typed_path_and_opened_again_equal() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window_on_three();
    click(&mut harness, "Show B");
    press(&mut harness, Modifiers::COMMAND, Key::S);
    answer_path(&mut harness, &folder.path().join("three").to_string_lossy(), "Save");
    let path = folder.path().join("three.lineup.ron");
    let bytes = fs::read(&path).expect("saved with its ending");
    assert_eq!(&read_lineup(&bytes).expect("readable"), harness.state().lineup());
    assert!(!harness.state().is_unsaved());
    // Saving again asks nothing.
    click(&mut harness, "Show B");
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert!(!harness.state().is_unsaved());
    let again = window_on(&[path]);
    assert_eq!(again.state().lineup(), harness.state().lineup());
}

#[test]
fn another_file_is_not_written_over_unasked() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("there.lineup.ron");
    fs::write(&path, "mine").expect("written");
    let mut harness = window_on_three();
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    answer_path(&mut harness, &path.to_string_lossy(), "Save");
    click(&mut harness, "Cancel");
    assert_eq!(fs::read(&path).expect("there"), b"mine");
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    answer_path(&mut harness, &path.to_string_lossy(), "Save");
    click(&mut harness, "Replace");
    assert!(read_lineup(&fs::read(&path).expect("there")).is_ok());
}

#[test]
fn unsaved_work_is_asked_about() {
    let mut harness = window_on_three();
    click(&mut harness, "Show B");
    press(&mut harness, Modifiers::COMMAND, Key::N);
    click(&mut harness, "Cancel");
    assert_eq!(models(&harness).len(), 3);
    press(&mut harness, Modifiers::COMMAND, Key::N);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert_eq!(models(&harness).len(), 3);
    press(&mut harness, Modifiers::COMMAND, Key::N);
    click(&mut harness, "Discard changes");
    assert_eq!(models(&harness).len(), 0);
    assert!(!harness.state().is_unsaved());
}

#[test]
fn save_in_the_question_saves_and_then_goes_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("kept.lineup.ron");
    let mut harness = window_on_three();
    click(&mut harness, "Show B");
    press(&mut harness, Modifiers::COMMAND, Key::N);
    click(&mut harness, "Save");
    answer_path(&mut harness, &path.to_string_lossy(), "Save");
    assert_eq!(models(&harness).len(), 0, "the new line-up");
    assert_eq!(read_lineup(&fs::read(&path).expect("saved")).expect("readable").frames.len(), 3);
}

#[test]
fn a_failing_save_loses_nothing_and_says_why() {
    let mut harness = window_on_three();
    click(&mut harness, "Show B");
    press(&mut harness, Modifiers::COMMAND, Key::N);
    click(&mut harness, "Save");
    answer_path(&mut harness, "/nowhere/at/all.lineup.ron", "Save");
    assert_eq!(models(&harness).len(), 3, "the new line-up did not come");
    assert!(harness.state().is_unsaved());
    let notice = harness.state().notices().next().expect("told").to_owned();
    assert!(notice.contains("/nowhere/at/all.lineup.ron: cannot be saved"), "{notice}");
}

#[test]
fn a_line_up_opened_over_changes_asks_first() {
    let mut harness = window_on_three();
    click(&mut harness, "Show B");
    press(&mut harness, Modifiers::COMMAND, Key::O);
    answer_path(&mut harness, &sample("village-library.lineup.ron").to_string_lossy(), "Open");
    click(&mut harness, "Discard changes");
    assert!(models(&harness).len() > 3);
    assert!(!harness.state().is_unsaved());
}

/// Saves what the view in front shows and gives back the file's bytes.
fn saved_picture(harness: &mut Driven, kind: &str, path: &std::path::Path) -> Vec<u8> {
    press(harness, Modifiers::COMMAND, Key::E);
    click(harness, kind);
    click(harness, "1080 × 1080");
    click(harness, "Save…");
    answer_path(harness, &path.to_string_lossy(), "Save");
    for _ in 0..500 {
        std::thread::sleep(std::time::Duration::from_millis(20));
        harness.step();
        if path.exists() {
            break;
        }
    }
    harness.run();
    fs::read(path).expect("saved")
}

#[test]
fn pictures_are_saved_in_the_size_asked_for() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window_on_three();
    let png = saved_picture(&mut harness, "PNG", &folder.path().join("view.png"));
    assert_eq!(&png[..8], b"\x89PNG\r\n\x1a\n");
    assert_eq!(png[16..24], [0, 0, 4, 56, 0, 0, 4, 56], "1080 by 1080");
    let svg = String::from_utf8(saved_picture(&mut harness, "SVG", &folder.path().join("view.svg"))).expect("text");
    assert!(svg.contains("width=\"1080.00\""), "{}", &svg[..300]);
    // Whoever sees the picture alone is told which frames these are and what to be careful about.
    for words in ["Marrowby Drift", "Quern Halter", "Tansett Fourways", "competent mechanic"] {
        assert!(svg.contains(words), "{words}");
    }
}

#[test]
fn a_saved_line_up_opens_again_to_the_same_picture_byte_for_byte() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window_on_three();
    click(&mut harness, "Wheels");
    press(&mut harness, Modifiers::ALT, Key::ArrowRight);
    press(&mut harness, Modifiers::COMMAND, Key::S);
    let lineup = folder.path().join("three.lineup.ron");
    answer_path(&mut harness, &lineup.to_string_lossy(), "Save");
    let mut again = window_on(&[lineup]);
    for view in ["Outline", "Steering", "Weight"] {
        for (kind, ending) in [("SVG", "svg"), ("PNG", "png")] {
            click(&mut harness, view);
            click(&mut again, view);
            let first = saved_picture(&mut harness, kind, &folder.path().join(format!("first-{view}.{ending}")));
            let second = saved_picture(&mut again, kind, &folder.path().join(format!("second-{view}.{ending}")));
            assert!(first == second, "{view} as {kind}");
        }
    }
}

#[test]
fn a_picture_shows_the_part_that_was_seen() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window_on_three();
    let whole = saved_picture(&mut harness, "SVG", &folder.path().join("whole.svg"));
    press(&mut harness, Modifiers::NONE, Key::Plus);
    let closer = saved_picture(&mut harness, "SVG", &folder.path().join("closer.svg"));
    press(&mut harness, Modifiers::NONE, Key::F);
    let fitted = saved_picture(&mut harness, "SVG", &folder.path().join("fitted.svg"));
    assert!(whole != closer && whole == fitted);
}
