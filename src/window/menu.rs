//! The menu bar, made from the table of commands, and recent files.

use egui::{Button, MenuBar, Response, RichText, ScrollArea, Ui};

use super::add_menu::add_menu_ui;
use super::commands::{About, Command, Menu, about, table};
use super::labels::commands as labels;
use super::labels::start_screen as start_labels;
use super::named::named;
use super::requests::{Request, Requests};
use super::shown::Shown;
use super::theme::Tones;
use super::theme::bar;

/// The bar along the top, with the line-up's name in its middle.
pub(crate) fn menu_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    let tones = Tones::of(ui);
    let frame = egui::Frame::NONE.fill(tones.panel()).inner_margin(egui::Margin::symmetric(8, 3));
    bar("menu").frame(frame).show(ui, |ui| {
        let whole = ui.max_rect();
        let right = MenuBar::new().ui(ui, |ui| {
            for menu in Menu::ALL {
                ui.menu_button(menu.label(), |ui| {
                    // A low window shows a part of a long menu, and scrolls.
                    let height = (ui.ctx().content_rect().height() - 56.0).max(120.0);
                    ScrollArea::vertical()
                        .max_height(height)
                        .min_scrolled_height(height)
                        .show(ui, |ui| entries_ui(ui, menu, shown, out));
                });
            }
            ui.cursor().left()
        });
        let mark = if shown.document.is_unsaved() { " *" } else { "" };
        let text = format!("{}{mark}", shown.document.name());
        let galley = ui.painter().layout(text, super::theme::regular(super::theme::BODY), tones.second(), whole.width() * 0.5);
        let left = (whole.center().x - galley.size().x / 2.0).max(right.inner + 16.0);
        ui.painter().galley(egui::pos2(left, whole.center().y - galley.size().y / 2.0), galley, tones.second());
    });
    rule(ui, tones);
}

/// A hairline right below what was last shown.
fn rule(ui: &Ui, tones: Tones) {
    let rect = ui.available_rect_before_wrap();
    ui.painter().hline(rect.x_range(), rect.top(), (1.0, tones.hairline()));
}

fn entries_ui(ui: &mut Ui, menu: Menu, shown: Shown<'_>, out: &mut Requests) {
    for about in table().iter().filter(|a| a.menu == menu) {
        if about.begins_group {
            ui.separator();
        }
        let text = match (about.command, shown.document.undo_label(), shown.document.redo_label()) {
            (Command::Undo, Some(label), _) | (Command::Redo, _, Some(label)) => format!("{}: {label}", about.label),
            // The views of a group stand below its name.
            (Command::Show(view), ..) if view.group().only_view().is_none() => format!("\u{2003}{}", about.label),
            _ => about.label.to_owned(),
        };
        if entry_ui(ui, about, text, shown) {
            out.command(about.command);
        }
        if about.command == Command::OpenByPath {
            ui.menu_button(labels::RECENT_FILES, |ui| recent_ui(ui, shown, out));
        }
    }
    if menu == Menu::Edit {
        ui.separator();
        ui.menu_button(start_labels::ADD_A_FRAME, |ui| add_menu_ui(ui, shown, out));
    }
}

pub(crate) fn recent_ui(ui: &mut Ui, shown: Shown<'_>, out: &mut Requests) {
    if shown.session.recent.is_empty() {
        ui.add_enabled(false, Button::new(labels::NO_RECENT_FILES));
        return;
    }
    for path in &shown.session.recent {
        let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
        let response = ui.button(name).on_hover_text(path.display().to_string());
        if response.clicked() {
            out.push(Request::Open(vec![path.clone()]));
            ui.close();
        }
    }
    ui.separator();
    if ui.button(labels::CLEAR_RECENT_FILES).clicked() {
        out.push(Request::ForgetRecent);
        ui.close();
    }
}

/// A command's entry in a menu, with its keys; says whether it was chosen, which closes the menu.
fn entry_ui(ui: &mut Ui, about: &About, text: String, shown: Shown<'_>) -> bool {
    let mut button = match is_on(about.command, shown) {
        Some(is_on) => Button::selectable(is_on, text),
        None => Button::new(text).frame_when_inactive(false),
    };
    if let Some(shortcut) = about.shortcut {
        button = button.shortcut_text(RichText::new(ui.ctx().format_shortcut(&shortcut)).weak());
    }
    let response = ui.add_enabled(is_enabled(about.command, shown), button).on_hover_text(about.tooltip);
    named(&response, about.label);
    if response.clicked() {
        ui.close();
    }
    response.clicked()
}

/// An entry for each of some commands.
pub(crate) fn commands_ui(ui: &mut Ui, commands: &[Command], shown: Shown<'_>, out: &mut Requests) {
    for about in commands.iter().filter_map(|command| about(*command)) {
        if entry_ui(ui, about, about.label.to_owned(), shown) {
            out.command(about.command);
        }
    }
}

/// The same in a menu that opens at the pointer.
pub(crate) fn context_menu_ui(response: &Response, commands: &[Command], shown: Shown<'_>, out: &mut Requests) {
    response.context_menu(|ui| commands_ui(ui, commands, shown, out));
}

/// The context menu of a view's picture.
pub(crate) fn picture_menu_ui(response: &Response, shown: Shown<'_>, out: &mut Requests) {
    context_menu_ui(response, &[Command::SavePicture, Command::CopyPicture], shown, out);
}

/// Whether a command that switches something has it switched on.
fn is_on(command: Command, shown: Shown<'_>) -> Option<bool> {
    let outline = shown.lineup().settings.outline;
    match command {
        Command::Show(view) => Some(shown.moment.view == view),
        Command::Wheels => Some(outline.wheels),
        Command::AllWheels => Some(outline.all_wheels),
        Command::LinePatterns => Some(outline.line_patterns),
        Command::Grid => Some(outline.grid),
        Command::Dimensions => Some(outline.dimensions),
        Command::Appearance(appearance) => Some(shown.session.appearance == appearance),
        _ => None,
    }
}

/// Whether a command can do anything now.
pub(crate) fn is_enabled(command: Command, shown: Shown<'_>) -> bool {
    let lineup = shown.lineup();
    let selected = shown.moment.selected;
    let entry = selected.of(&lineup.frames);
    match command {
        Command::Undo => shown.document.undo_label().is_some(),
        Command::Redo => shown.document.redo_label().is_some(),
        Command::SelectPrevious | Command::MoveUp => selected.before().is_some() && entry.is_some(),
        Command::SelectNext | Command::MoveDown => selected.after().of(&lineup.frames).is_some(),
        Command::SmallerSize => entry.is_some_and(|e| e.size_index().before().is_some()),
        Command::LargerSize => entry.is_some_and(|e| e.size_index().after().of(&e.frameset.sizes).is_some()),
        Command::MakeReference => entry.is_some() && lineup.reference_index() != Some(selected),
        Command::ShowOrHide | Command::Remove | Command::CopyFigures | Command::SavePicture | Command::CopyPicture => {
            entry.is_some()
        }
        _ => true,
    }
}
