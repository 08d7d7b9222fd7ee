//! The program: the command line, which opens the window when it is given files or nothing.

use std::process::ExitCode;

fn main() -> ExitCode {
    spandrel::command_line::run(open_window)
}

#[cfg(not(feature = "window"))]
fn open_window(_files: Vec<std::path::PathBuf>) -> Result<(), String> {
    Err("this build has no window: use `spandrel figures FILES…`, or build with the feature `window`".to_owned())
}

#[cfg(feature = "window")]
fn open_window(files: Vec<std::path::PathBuf>) -> Result<(), String> {
    spandrel::window::run(files).map_err(|e| e.to_string())
}
