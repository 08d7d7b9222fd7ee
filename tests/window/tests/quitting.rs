//! Quitting while a sheet is published, and what is asked before a picture replaces a file.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

mod driving;

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use driving::{Driven, click, control, enter, press, sample, type_over, window_on};
use egui::{Key, Modifiers, ViewportCommand, ViewportEvent, ViewportId};
use egui_kittest::kittest::Queryable;

const TITLE: &str = "Spandrel is still publishing.";

/// The Sheet view, with a film that takes a while.
fn sheets() -> Driven {
    let mut harness = window_on(&[sample("village-library.lineup.ron")]);
    click(&mut harness, "Publish");
    harness
}

fn publish(harness: &mut Driven, to: &Path) {
    press(harness, Modifiers::COMMAND, Key::P);
    enter(harness, "Path", to.to_str().unwrap());
    assert!(harness.query_by_label("Stop").is_some(), "it goes on");
}

/// What one frame sends to the desktop.
fn commands(harness: &Driven) -> Vec<ViewportCommand> {
    harness.output().viewport_output.get(&ViewportId::ROOT).map(|o| o.commands.clone()).unwrap_or_default()
}

/// Asks the window to close, as the desktop does. Says whether it agreed.
fn close(harness: &mut Driven) -> bool {
    harness.input_mut().viewports.entry(ViewportId::ROOT).or_default().events.push(ViewportEvent::Close);
    harness.step();
    let is_refused = commands(harness).contains(&ViewportCommand::CancelClose);
    harness.input_mut().viewports.entry(ViewportId::ROOT).or_default().events.clear();
    harness.run();
    !is_refused
}

/// Steps until the window closes itself.
fn wait_for_close(harness: &mut Driven, meanwhile: impl Fn(&Driven)) {
    let began = Instant::now();
    while !commands(harness).contains(&ViewportCommand::Close) {
        assert!(began.elapsed() < Duration::from_secs(240), "{}", harness.state().status());
        meanwhile(harness);
        std::thread::sleep(Duration::from_millis(20));
        harness.step();
    }
    assert!(close(harness), "and then it may");
}

fn is_asked(harness: &Driven) -> bool {
    harness.query_by_label(TITLE).is_some()
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut names: Vec<String> = entries.map(|e| e.file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn nothing_going_on_closes_unasked() {
    assert!(close(&mut sheets()));
}

#[test]
fn quitting_waits_for_publishing_where_the_user_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("out");
    let copy = folder.path().join("a.lineup.ron");
    fs::copy(sample("village-library.lineup.ron"), &copy).unwrap();
    let mut harness = window_on(&[copy]);
    click(&mut harness, "Publish");
    enter(&mut harness, "Width, pixels", "320");
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert!(!harness.state().is_unsaved());
    publish(&mut harness, &to);
    assert!(!close(&mut harness) && is_asked(&harness));
    // Cancelled: it stays, and goes on.
    click(&mut harness, "Cancel");
    assert!(!is_asked(&harness) && harness.query_by_label("Stop").is_some());
    assert!(!close(&mut harness) && is_asked(&harness));
    click(&mut harness, "Wait");
    assert!(is_asked(&harness) && harness.query_by_label("Wait").is_none());
    assert!(!close(&mut harness), "asked again, it still waits");
    wait_for_close(&mut harness, |_| ());
    let files = names(&to);
    assert!(files.iter().any(|n| n == "moving.gif") && files.iter().all(|n| !n.starts_with('.')), "{files:?}");
    assert!(!fs::read_to_string(to.join("made-by-spandrel.txt")).unwrap().contains("# Incomplete"));
}

#[test]
fn quitting_stops_publishing_where_the_user_says_so_and_the_folder_is_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("out");
    let mut harness = sheets();
    publish(&mut harness, &to);
    // Unsaved work is asked about first.
    type_over(&mut harness, "Title", "Another title");
    press(&mut harness, Modifiers::NONE, Key::Tab);
    assert!(!close(&mut harness) && !is_asked(&harness));
    click(&mut harness, "Discard changes");
    assert!(is_asked(&harness), "and then about publishing");
    click(&mut harness, "Stop publishing and quit");
    wait_for_close(&mut harness, is_unbroken(&to));
    assert!(!to.exists());
    assert!(harness.state().status().starts_with("Publishing was stopped. Nothing was changed"), "{}", harness.state().status());
}

fn is_unbroken(to: &Path) -> impl Fn(&Driven) {
    move |harness| assert!(is_asked(harness) && !to.exists(), "it says so until the thread has reported")
}

#[test]
fn the_window_stays_where_publishing_failed() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("out");
    let mut harness = sheets();
    publish(&mut harness, &to);
    assert!(!close(&mut harness));
    click(&mut harness, "Wait");
    fs::write(&to, "in the way").unwrap();
    let began = Instant::now();
    while !harness.state().notices().any(|n| n.contains("this is not a folder")) {
        assert!(began.elapsed() < Duration::from_secs(240));
        std::thread::sleep(Duration::from_millis(20));
        harness.step();
        assert!(!commands(&harness).contains(&ViewportCommand::Close));
    }
    harness.run();
    assert!(!is_asked(&harness), "the notice can be read");
}

/// Asks for the sheet as a picture in this file.
fn save_sheet(harness: &mut Driven, path: &Path) {
    press(harness, Modifiers::COMMAND, Key::E);
    enter(harness, "Path", path.to_str().unwrap());
}

fn wait_for(harness: &mut Driven, is_done: impl Fn(&Driven) -> bool) {
    let began = Instant::now();
    while !is_done(harness) {
        assert!(began.elapsed() < Duration::from_secs(240), "{}", harness.state().status());
        std::thread::sleep(Duration::from_millis(20));
        harness.step();
    }
    harness.run();
}

#[test]
fn a_picture_replaces_a_file_only_after_a_question() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.svg");
    let is_saved = |h: &Driven| h.state().status().starts_with("Saved");
    let mut harness = sheets();
    fs::write(&path, "theirs").unwrap();
    save_sheet(&mut harness, &path);
    assert!(harness.query_by_label("Replace this file?").is_some());
    click(&mut harness, "Cancel");
    assert!(harness.query_by_label("Replace this file?").is_none());
    assert_eq!(fs::read_to_string(&path).unwrap(), "theirs");
    save_sheet(&mut harness, &path);
    click(&mut harness, "Save elsewhere…");
    let other = folder.path().join("other.svg");
    enter(&mut harness, "Path", other.to_str().unwrap());
    wait_for(&mut harness, is_saved);
    assert_eq!(fs::read_to_string(&path).unwrap(), "theirs");
    save_sheet(&mut harness, &path);
    click(&mut harness, "Replace");
    wait_for(&mut harness, |_| fs::read(&path).unwrap() != b"theirs");
    assert_eq!(fs::read(&path).unwrap(), fs::read(&other).unwrap());
}

#[test]
fn a_file_that_appears_while_a_picture_is_made_stays() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.png");
    let mut harness = sheets();
    press(&mut harness, Modifiers::COMMAND, Key::E);
    type_over(&mut harness, "Path", path.to_str().unwrap());
    control(&harness, "Save").click();
    // In the frames of the click the picture begins to be made; it is taken in a later one.
    harness.step();
    harness.step();
    fs::write(&path, "theirs").unwrap();
    wait_for(&mut harness, |h| h.state().notices().next().is_some() || h.state().status().starts_with("Saved"));
    let expected = format!("{}: this file exists already: choose another name", path.display());
    assert_eq!(harness.state().notices().collect::<Vec<_>>(), [expected]);
    assert_eq!(fs::read_to_string(&path).unwrap(), "theirs");
}

#[cfg(unix)]
#[test]
fn what_is_protected_or_a_link_to_nowhere_has_its_own_question() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let mut harness = sheets();
    fs::write(at("a.svg"), "theirs").unwrap();
    fs::set_permissions(at("a.svg"), fs::Permissions::from_mode(0o444)).unwrap();
    save_sheet(&mut harness, &at("a.svg"));
    assert!(harness.query_by_label("Replace a write-protected file?").is_some());
    click(&mut harness, "Cancel");
    symlink("gone.svg", at("link.svg")).unwrap();
    save_sheet(&mut harness, &at("link.svg"));
    assert!(harness.query_by_label("Create the file that the link names?").is_some());
    click(&mut harness, "Create file");
    wait_for(&mut harness, |h| h.state().status().starts_with("Saved"));
    assert!(fs::symlink_metadata(at("link.svg")).unwrap().is_symlink() && at("gone.svg").is_file());
    assert_eq!(fs::read_to_string(at("a.svg")).unwrap(), "theirs");
    fs::create_dir(at("b.svg")).unwrap();
    save_sheet(&mut harness, &at("b.svg"));
    assert!(harness.state().notices().any(|n| n.ends_with("this is a folder, not a file: add a file name")));
}
