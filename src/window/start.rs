//! Opening the window, and saying in one line why it could not be opened.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;

use super::app::{Chooser, Window};
use super::labels::notices as labels;
use super::moment::Reading;
use super::session::APP_ID;

/// Why there is no window. One line, with what to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StartError {
    /// Neither X11 nor Wayland answers.
    #[error("{}", labels::NO_DISPLAY)]
    NoDisplay,
    /// A library of the desktop is absent.
    #[error("{}", labels::DESKTOP_LIBRARY_IS_MISSING)]
    NoLibrary,
    /// The graphics do not work.
    #[error("{}", labels::OPENGL_DOES_NOT_WORK)]
    NoGraphics,
}

/// Size of the window where none is remembered, points; the toolkit makes it smaller where the screen is.
const FIRST_SIZE: [f32; 2] = [1760.0, 990.0];

/// Opens the window on these files and returns when it is closed.
///
/// # Errors
/// No display, no graphics, or an absent library, in one line.
pub fn run(files: Vec<PathBuf>) -> Result<(), StartError> {
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_app_id(APP_ID)
            .with_title(labels::SPANDREL)
            .with_inner_size(FIRST_SIZE)
            .with_min_inner_size([1000.0, 640.0])
            .with_drag_and_drop(true),
        ..eframe::NativeOptions::default()
    };
    let reading = Reading::at_start(files);
    // A library that the desktop's bindings load at run time and do not find ends in a panic inside them. Its message is
    // kept from the screen until it is known whether the window had opened.
    let has_opened = std::sync::Arc::new(std::sync::atomic::AtomicBool::new(false));
    let opened = std::sync::Arc::clone(&has_opened);
    let usual = std::panic::take_hook();
    let hook_opened = std::sync::Arc::clone(&has_opened);
    let hook_usual = std::sync::Arc::new(usual);
    let later = std::sync::Arc::clone(&hook_usual);
    std::panic::set_hook(Box::new(move |info| {
        if hook_opened.load(std::sync::atomic::Ordering::Relaxed) {
            hook_usual(info);
        }
    }));
    let result = catch_unwind(AssertUnwindSafe(|| {
        eframe::run_native(
            APP_ID,
            options,
            Box::new(move |cc| {
                opened.store(true, std::sync::atomic::Ordering::Relaxed);
                Ok(Box::new(Window::reading(cc, reading, Chooser::Desktop)))
            }),
        )
    }));
    std::panic::set_hook(Box::new(move |info| later(info)));
    match result {
        Ok(Ok(())) => Ok(()),
        Ok(Err(error)) => Err(reason(&error)),
        Err(panic) if has_opened.load(std::sync::atomic::Ordering::Relaxed) => std::panic::resume_unwind(panic),
        Err(_) => Err(StartError::NoLibrary),
    }
}

/// Whether the environment has a variable.
fn is_set(variable: &str) -> bool {
    std::env::var_os(variable).is_some()
}

fn reason(error: &eframe::Error) -> StartError {
    let has_display = is_set("DISPLAY") || is_set("WAYLAND_DISPLAY") || is_set("WAYLAND_SOCKET");
    match error {
        eframe::Error::Winit(_) | eframe::Error::WinitEventLoop(_) => {
            let text = error.to_string();
            if has_display && (text.contains("NotSupported") || text.contains("lib") && text.contains(".so")) {
                StartError::NoLibrary
            } else {
                StartError::NoDisplay
            }
        }
        _ => StartError::NoGraphics,
    }
}
