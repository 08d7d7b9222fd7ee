//! What is promised of files: unsaved work outlives the program, and no file is replaced unasked.

mod driving;

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use driving::{Driven, click, models, press, sample, window_on, window_on_three};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::frameset::Figure;
use spandrel::lineup::{read_lineup, write_lineup};

fn answer_path(harness: &mut Driven, path: &Path, button: &str) {
    driving::type_over(harness, "Path", &path.to_string_lossy());
    click(harness, button);
}

/// Journals in the state folder.
fn journals(state: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(state.join("journals")).into_iter().flatten().flatten();
    entries.map(|e| e.path()).filter(|p| p.extension().is_some_and(|e| e == "journal")).collect()
}

/// Waits until something is so, for at most ten seconds, while the window lives on.
fn wait_until(harness: &mut Driven, is_so: impl Fn(&Driven) -> bool) {
    let began = Instant::now();
    while !is_so(harness) {
        assert!(began.elapsed() < Duration::from_secs(10), "waited in vain");
        std::thread::sleep(Duration::from_millis(20));
        harness.step();
    }
    harness.run();
}

fn come_back(harness: &mut Driven) {
    harness.input_mut().focused = false;
    harness.step();
    harness.input_mut().focused = true;
    harness.run();
}

/// Opens the window on three frames that keeps its state there.
fn three_keeping(state: &Path) -> Driven {
    let mut harness = window_on_three();
    harness.state_mut().keep_state_in(state);
    harness
}

/// A line-up of the three sample frames in a file.
fn line_up_in(folder: &Path) -> PathBuf {
    let path = folder.join("loan.lineup.ron");
    fs::write(&path, write_lineup(window_on_three().state().lineup()).expect("written")).expect("saved");
    path
}

fn size(harness: &Driven) -> String {
    harness.state().lineup().frames[0].size.clone()
}

fn size_in(path: &Path) -> String {
    read_lineup(&fs::read(path).expect("there")).expect("readable").frames[0].size.clone()
}

#[test]
fn a_change_an_undo_and_a_redo_each_outlive_a_kill() {
    for (keys, what) in [(0, "a change"), (1, "an undo"), (2, "a redo")] {
        let state = tempfile::tempdir().expect("a folder");
        let mut harness = three_keeping(state.path());
        assert!(journals(state.path()).is_empty(), "nothing is unsaved");
        press(&mut harness, Modifiers::ALT, Key::ArrowRight);
        click(&mut harness, "Show B");
        for key in [Key::Z, Key::Y].iter().take(keys) {
            press(&mut harness, Modifiers::COMMAND, *key);
        }
        // No frame is painted while a second passes, and nothing is said goodbye to.
        std::thread::sleep(Duration::from_secs(1));
        let text = fs::read_to_string(&journals(state.path())[0]).expect("kept");
        let lineup = read_lineup(text.split_once('\n').expect("two parts").1.as_bytes()).expect("readable");
        assert_eq!(&lineup, harness.state().lineup(), "{what}");
    }
}

#[test]
fn unsaved_work_is_restored_with_its_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let state = folder.path().join("state");
    let path = line_up_in(folder.path());
    let mut harness = window_on(std::slice::from_ref(&path));
    harness.state_mut().keep_state_in(&state);
    press(&mut harness, Modifiers::ALT, Key::ArrowRight);
    let changed = size(&harness);
    drop(harness);
    assert_ne!(size_in(&path), changed);

    let mut again = window_on(&[]);
    again.state_mut().keep_state_in(&state);
    again.run();
    assert!(again.query_by_label("Restore unsaved work?").is_some());
    assert!(again.query_by_label(&path.display().to_string()).is_some(), "it says which file");
    click(&mut again, "Restore");
    assert!(again.state().is_unsaved());
    assert_eq!(size(&again), changed);
    press(&mut again, Modifiers::COMMAND, Key::S);
    assert_eq!(size_in(&path), changed, "saved into its file, without a question");
    assert!(journals(&state).is_empty());
}

#[test]
fn several_windows_work_is_offered_one_after_the_other_and_none_is_lost_unasked() {
    let state = tempfile::tempdir().expect("a folder");
    let mut windows = [three_keeping(state.path()), three_keeping(state.path())];
    click(&mut windows[0], "Show A");
    click(&mut windows[1], "Show B");
    std::thread::sleep(Duration::from_secs(1));
    assert_eq!(journals(state.path()).len(), 2, "each its own");
    let mut other = window_on(&[]);
    other.state_mut().keep_state_in(state.path());
    other.run();
    assert!(other.query_by_label("Restore unsaved work?").is_none(), "their windows live");
    drop(other);
    drop(windows);
    let mut again = window_on(&[]);
    again.state_mut().keep_state_in(state.path());
    again.run();
    assert!(again.query_by_label("1 of 2 line-ups with unsaved work").is_some());
    click(&mut again, "Decide later");
    assert!(again.query_by_label("2 of 2 line-ups with unsaved work").is_some());
    click(&mut again, "Discard");
    assert!(models(&again).is_empty());
    assert_eq!(journals(state.path()).len(), 1, "the first one waits");
}

#[test]
fn a_clean_close_and_a_return_to_what_is_saved_leave_nothing_to_offer() {
    let state = tempfile::tempdir().expect("a folder");
    let mut harness = three_keeping(state.path());
    click(&mut harness, "Show B");
    std::thread::sleep(Duration::from_secs(1));
    assert_eq!(journals(state.path()).len(), 1);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    wait_until(&mut harness, |_| journals(state.path()).is_empty());
    harness.state_mut().end_recovery();
    drop(harness);
    assert_eq!(fs::read_dir(state.path().join("journals")).expect("a folder").count(), 0);
}

#[test]
fn a_line_up_changed_by_another_program_is_never_replaced_unasked() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = line_up_in(folder.path());
    let theirs = fs::read_to_string(&path).expect("there").replacen("title: \"\"", "title: \"Theirs\"", 1);
    for button in ["Cancel", "Keep both", "Read again", "Replace"] {
        let path = line_up_in(folder.path());
        let mut harness = window_on(std::slice::from_ref(&path));
        press(&mut harness, Modifiers::ALT, Key::ArrowRight);
        let ours = size(&harness);
        fs::write(&path, &theirs).expect("written");
        press(&mut harness, Modifiers::COMMAND, Key::S);
        assert!(harness.query_by_label("The file has changed").is_some());
        assert_eq!(fs::read_to_string(&path).expect("there"), theirs);
        click(&mut harness, button);
        let beside = folder.path().join("loan-2.lineup.ron");
        match button {
            "Cancel" => assert!(harness.state().is_unsaved()),
            "Keep both" => {
                assert_eq!(size_in(&beside), ours);
                assert!(!harness.state().is_unsaved());
            }
            "Read again" => {
                assert_ne!(size(&harness), ours);
                assert!(!harness.state().is_unsaved());
                press(&mut harness, Modifiers::COMMAND, Key::Z);
                assert_eq!(size(&harness), ours, "undo brings it back");
                assert!(harness.state().is_unsaved());
            }
            _ => assert_eq!(size_in(&path), ours),
        }
        assert_eq!(fs::read_to_string(&path).expect("there") == theirs, button != "Replace", "{button}");
    }
}

#[test]
fn a_deleted_file_a_removed_folder_a_protected_file_and_a_dangling_link_are_asked_about() {
    let folder = tempfile::tempdir().expect("a folder");
    let inside = folder.path().join("inside");
    let open = |protect: bool| {
        fs::create_dir_all(&inside).expect("made");
        let path = line_up_in(&inside);
        let mut harness = window_on(std::slice::from_ref(&path));
        press(&mut harness, Modifiers::ALT, Key::ArrowRight);
        let mut permissions = fs::metadata(&path).expect("there").permissions();
        permissions.set_readonly(protect);
        fs::set_permissions(&path, permissions).expect("set");
        (harness, path)
    };
    let (mut harness, path) = open(false);
    fs::remove_file(&path).expect("removed");
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert!(!path.exists());
    click(&mut harness, "Save again");
    assert_eq!(size_in(&path), size(&harness));

    let (mut harness, path) = open(false);
    fs::remove_dir_all(&inside).expect("removed");
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert!(!inside.exists());
    click(&mut harness, "Create folder and save");
    assert_eq!(size_in(&path), size(&harness));

    let (mut harness, path) = open(true);
    let before = size_in(&path);
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert_eq!(size_in(&path), before);
    click(&mut harness, "Replace");
    assert_eq!(size_in(&path), size(&harness));

    #[cfg(unix)]
    {
        let mut harness = window_on_three();
        let link = folder.path().join("link.lineup.ron");
        std::os::unix::fs::symlink("there.lineup.ron", &link).expect("linked");
        press(&mut harness, Modifiers::COMMAND, Key::S);
        answer_path(&mut harness, &link, "Save");
        click(&mut harness, "Create file");
        assert!(fs::symlink_metadata(&link).expect("there").is_symlink(), "the link stays");
        assert_eq!(size_in(&folder.path().join("there.lineup.ron")), size(&harness));
    }
}

#[test]
fn a_second_window_on_one_line_up_is_told_and_its_saving_asks() {
    let folder = tempfile::tempdir().expect("a folder");
    let state = folder.path().join("state");
    let path = line_up_in(folder.path());
    let mut first = window_on(std::slice::from_ref(&path));
    first.state_mut().keep_state_in(&state);
    let mut second = window_on(&[]);
    second.state_mut().keep_state_in(&state);
    let open = |second: &mut Driven, button: &str| {
        press(second, Modifiers::COMMAND, Key::O);
        answer_path(second, &path, "Open");
        assert!(second.query_by_label("Open a second time?").is_some());
        click(second, button);
    };
    open(&mut second, "Cancel");
    assert!(models(&second).is_empty());
    open(&mut second, "Open");
    assert_eq!(models(&second).len(), 3);
    press(&mut first, Modifiers::ALT, Key::ArrowRight);
    press(&mut first, Modifiers::COMMAND, Key::S);
    let theirs = fs::read(&path).expect("there");
    click(&mut second, "Show B");
    press(&mut second, Modifiers::COMMAND, Key::S);
    assert!(second.query_by_label("The file has changed").is_some());
    click(&mut second, "Cancel");
    assert_eq!(fs::read(&path).expect("there"), theirs);
}

/// Two frame files of one name in two folders, and the window on both.
fn twins(folder: &Path) -> ([PathBuf; 2], Driven) {
    let text = fs::read_to_string(sample("marrowby-drift.frame.ron")).expect("read");
    let paths = ["north", "south"].map(|shop| {
        fs::create_dir(folder.join(shop)).expect("made");
        let path = folder.join(shop).join("drift.frame.ron");
        fs::write(&path, &text).expect("written");
        path
    });
    let harness = window_on(&paths);
    (paths, harness)
}

fn stack(harness: &Driven, frame: usize) -> f64 {
    harness.state().lineup().frames[frame].frameset.sizes[1].figures[&Figure::Stack]
}

#[test]
fn two_frame_files_of_one_name_are_told_apart_and_each_frame_keeps_to_its_own() {
    let folder = tempfile::tempdir().expect("a folder");
    let (paths, mut harness) = twins(folder.path());
    for name in ["north/drift.frame.ron", "south/drift.frame.ron"] {
        assert!(harness.query_by_label(name).is_some(), "{name} on its card");
    }
    // Through a move, an undo and a redo, B's file stays B's.
    press(&mut harness, Modifiers::ALT, Key::ArrowDown);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    press(&mut harness, Modifiers::COMMAND, Key::Y);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    let text = fs::read_to_string(&paths[1]).expect("read");
    come_back(&mut harness);
    fs::write(&paths[1], text.replace("Stack: 619", "Stack: 617")).expect("written");
    come_back(&mut harness);
    wait_until(&mut harness, |h| h.query_by_label("The file has changed").is_some());
    assert_eq!((stack(&harness, 0), stack(&harness, 1)), (619.0, 619.0), "nothing is taken silently");
    click(&mut harness, "Read again");
    assert_eq!((stack(&harness, 0), stack(&harness, 1)), (619.0, 617.0), "B, whose file it is");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(stack(&harness, 1), 619.0);
    // What is published carries no folder.
    let saved = write_lineup(harness.state().lineup()).expect("written");
    assert!(saved.contains("drift.frame.ron") && !saved.contains("south"), "{saved}");
}

#[test]
fn saving_a_frames_file_never_reaches_another_frames_file_unasked() {
    let folder = tempfile::tempdir().expect("a folder");
    let (paths, mut harness) = twins(folder.path());
    fs::write(&paths[0], fs::read_to_string(&paths[0]).expect("read").replace("Stack: 619", "Stack: 617")).expect("written");
    let first = fs::read(&paths[0]).expect("there");
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    harness.state_mut().ask(spandrel::window::commands::Command::SelectNext);
    harness.run();
    harness.state_mut().ask(spandrel::window::commands::Command::SaveFrame);
    harness.run();
    // The suggested path is its own.
    click(&mut harness, "Save");
    assert_eq!(fs::read(&paths[0]).expect("there"), first);
    assert!(harness.state().status().contains("south"), "{}", harness.state().status());
    harness.state_mut().ask(spandrel::window::commands::Command::SaveFrame);
    harness.run();
    answer_path(&mut harness, &paths[0], "Save");
    assert!(harness.query_by_label("Replace this file?").is_some());
    click(&mut harness, "Cancel");
    assert_eq!(fs::read(&paths[0]).expect("there"), first);
}
