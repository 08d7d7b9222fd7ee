//! The program: the command line, which opens the window when it is given files or nothing.

mod command_line;

use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    command_line::run(open_window)
}

/// Why a program built without the window opens none.
#[cfg(not(feature = "window"))]
#[derive(Debug, thiserror::Error)]
#[error("this build has no window: use `spandrel figures FILES…`, or build with the feature `window`")]
struct NoWindow;

#[cfg(not(feature = "window"))]
fn open_window(_files: Vec<PathBuf>) -> Result<(), NoWindow> {
    Err(NoWindow)
}

#[cfg(feature = "window")]
fn open_window(files: Vec<PathBuf>) -> Result<(), spandrel::window::StartError> {
    spandrel::window::run(files)
}
