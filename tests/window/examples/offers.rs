//! What a new window offers of the work that was left unsaved: `offers HOME [--look]` opens a window without a screen on a
//! copy of the folder of left work below HOME (with `--look` on the folder itself, where living windows hold their locks),
//! and prints a line of JSON for each offer: how frame A stands, and the file that the work belongs to.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::print_stdout, reason = "what checks may panic and print")]

use std::fs;
use std::path::{Path, PathBuf};

use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use spandrel::window::{Chooser, Window};

/// Where a window keeps unsaved work, below a home whose data folder is `data`.
const KEPT_IN: &str = "data/spandrel";

fn main() {
    let mut arguments = std::env::args().skip(1);
    let home = PathBuf::from(arguments.next().expect("a home"));
    let folder = home.join(KEPT_IN);
    if !folder.exists() {
        return;
    }
    let copy = tempfile::tempdir().expect("a folder");
    let folder = if arguments.next().is_some() {
        folder
    } else {
        copy_all(&folder, copy.path());
        copy.path().to_owned()
    };
    let mut harness = Harness::builder().with_max_steps(40).build_eframe(move |cc| {
        let mut window = Window::new(cc, Vec::new(), Chooser::Typed);
        window.keep_recovery_in(&folder);
        window
    });
    harness.run();
    while harness.query_by_label("Go on with it").is_some() {
        harness.get_by_label("Go on with it").click();
        harness.run();
        let lineup = harness.state().lineup();
        let frame = lineup.frames.first().expect("a frame");
        let shown = if frame.shown { "shown" } else { "hidden" };
        println!("{{\"state\": \"{} {shown}\", \"file\": \"\"}}", frame.size);
    }
}

fn copy_all(from: &Path, to: &Path) {
    for entry in fs::read_dir(from).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_file() {
            fs::copy(&path, to.join(path.file_name().expect("a name"))).expect("copied");
        }
    }
}
