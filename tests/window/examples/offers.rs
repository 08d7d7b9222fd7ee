//! What a new window offers of the work that was left unsaved: `offers HOME` opens windows without a screen on copies of
//! the state folder below HOME, and prints a line of JSON for each offer: how frame A stands when it is restored, and the
//! file that the work belongs to. `offers HOME --look` opens one on the folder itself, where living windows hold their
//! locks, restores nothing, and prints the files alone.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::print_stdout, reason = "what checks may panic and print")]

use std::fs;
use std::path::{Path, PathBuf};

use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::window::{Chooser, Window};

/// Where a window keeps its state, below a home whose data folder is `data`.
const STATE: &str = "data/spandrel";

fn main() {
    let mut arguments = std::env::args().skip(1);
    let state = PathBuf::from(arguments.next().expect("a home")).join(STATE);
    if !state.exists() {
        return;
    }
    if arguments.next().is_some() {
        let mut harness = window_on(state);
        while let Some(file) = offered(&harness) {
            println!("{{\"state\": null, \"file\": {file:?}}}");
            answer(&mut harness, "Decide later");
        }
        return;
    }
    for passed_over in 0.. {
        let copy = tempfile::tempdir().expect("a folder");
        copy_all(&state, copy.path());
        let mut harness = window_on(copy.path().to_owned());
        for _ in 0..passed_over {
            answer(&mut harness, "Decide later");
        }
        let Some(file) = offered(&harness) else { return };
        answer(&mut harness, "Restore");
        let frame = harness.state().lineup().frames.first().expect("a frame");
        let shown = if frame.shown { "shown" } else { "hidden" };
        println!("{{\"state\": \"{} {shown}\", \"file\": {file:?}}}", frame.size);
    }
}

fn window_on(state: PathBuf) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_max_steps(40).build_eframe(move |cc| {
        let mut window = Window::new(cc, Vec::new(), Chooser::Typed);
        window.keep_state_in(&state);
        window
    });
    harness.run();
    harness
}

/// The file that the offered work belongs to, where there is an offer.
fn offered(harness: &Harness<'static, Window>) -> Option<String> {
    harness.query_by_label("Restore")?;
    let texts = harness.root().children_recursive().filter_map(|n| n.accesskit_node().label().or(n.accesskit_node().value()));
    Some(texts.into_iter().find(|text| text.starts_with('/') && text.ends_with(".ron")).unwrap_or_default())
}

fn answer(harness: &mut Harness<'static, Window>, button: &str) {
    harness.get_by_label(button).click();
    harness.run();
}

fn copy_all(from: &Path, to: &Path) {
    for entry in fs::read_dir(from).expect("a folder") {
        let path = entry.expect("an entry").path();
        let copied = to.join(path.file_name().expect("a name"));
        if path.is_dir() {
            fs::create_dir(&copied).expect("made");
            copy_all(&path, &copied);
        } else {
            fs::copy(&path, copied).expect("copied");
        }
    }
}
