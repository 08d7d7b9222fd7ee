//! Questions that wait for an answer: unsaved work, a typed path, the size of a picture; and what the Help menu shows.
//!
//! They ask and push the answer; what follows is done in `apply`.

use std::path::PathBuf;

use egui::{Context, Id, Key, Modal, RichText, ScrollArea, TextEdit, Ui};

use super::commands::{self, Command, Menu};
use super::help::guide_ui;
use super::import_review_ui::import_review_ui;
use super::named::named;
use super::question::{Answer, Busy, Ending, PictureChoice, Purpose, Question, Then};
use super::question_parts::{button, focus_first, heading};
use super::requests::{Request, Requests};
use super::saving_questions::{open_elsewhere_ui, replace_picture_ui, restore_ui, save_over_ui};
use super::theme::{BODY, SMALL, Tones, semibold};
use crate::frameset::TextKind;

/// Shows the open question. Escape cancels it.
pub(crate) fn question_ui(ctx: &Context, question: &mut Question, name: &str, out: &mut Requests) {
    forget_focus_of_another(ctx, question);
    let frame = egui::Frame::popup(&ctx.global_style()).inner_margin(20);
    let modal = Modal::new(Id::unique("question")).frame(frame).show(ctx, |ui| {
        let tones = Tones::of(ui);
        ui.set_width(match question {
            Question::Import(_) | Question::Guide(_) => (ui.ctx().content_rect().width() - 120.0).clamp(520.0, 1180.0),
            Question::Keyboard
            | Question::Path { .. }
            | Question::SaveOver { .. }
            | Question::ReplacePicture { .. }
            | Question::Restore(_) => 560.0,
            _ => 440.0,
        });
        match question {
            Question::Unsaved(then) => unsaved_ui(ui, then, name, out),
            Question::Path { purpose, text, why } => path_ui(ui, *purpose, text, why, tones, out),
            Question::ReplacePicture { path, occupant, .. } => replace_picture_ui(ui, path, occupant, out),
            Question::Busy { busy, ending, .. } => busy_ui(ui, *busy, *ending, out),
            Question::Picture(choice) => picture_ui(ui, choice, tones, out),
            Question::Import(review) => import_review_ui(ui, review, tones, out),
            Question::Restore(offer) => restore_ui(ui, offer, tones, out),
            Question::SaveOver { saving, path, obstacle, .. } => save_over_ui(ui, *saving, name, path, obstacle, out),
            Question::OpenElsewhere(Then::Replace(_, file)) => open_elsewhere_ui(ui, &file.path, out),
            Question::OpenElsewhere(_) => {}
            Question::Words { title, notes } => words_ui(ui, title, notes, out),
            Question::Guide(page) => guide_page_ui(ui, page, out),
            Question::Keyboard => keyboard_ui(ui, tones, out),
            Question::About => about_ui(ui, tones, out),
        }
    });
    if ctx.input_mut(|i| i.consume_key(egui::Modifiers::NONE, Key::Escape)) && !modal.any_popup_open {
        out.push(Request::Answer(Answer::Cancel));
    }
}

/// Where one question follows another, the keyboard does not stay with a control of the first.
fn forget_focus_of_another(ctx: &Context, question: &Question) {
    let id = Id::unique("question asked");
    let now = (std::mem::discriminant(question), ctx.cumulative_frame_nr());
    let before = ctx.data(|d| d.get_temp::<(std::mem::Discriminant<Question>, u64)>(id));
    ctx.data_mut(|d| d.insert_temp(id, now));
    let is_same = before.is_some_and(|(kind, frame)| kind == now.0 && frame + 1 >= now.1);
    if !is_same && let Some(focused) = ctx.memory(egui::Memory::focused) {
        ctx.memory_mut(|m| m.surrender_focus(focused));
    }
}

/// Asks how the work is to end, and tells while it does.
fn busy_ui(ui: &mut Ui, busy: Busy, ending: Ending, out: &mut Requests) {
    let (title, stop) = match busy {
        Busy::Publishing => ("Spandrel is still publishing.", "Stop publishing and quit"),
        Busy::Picture => ("Spandrel is still making a picture.", "Stop and quit"),
    };
    heading(ui, title);
    let lines: &[&str] = match (ending, busy) {
        (Ending::Asked, Busy::Publishing) => &[
            "Wait: closes the window when publishing has ended.",
            "Stop publishing and quit: the folder then has either all files from before or all new ones.",
            "Cancel: the window stays open, and publishing goes on.",
        ],
        (Ending::Asked, Busy::Picture) => {
            &["Wait: closes the window when the picture is done.", "Stop and quit: the picture is not saved."]
        }
        (Ending::Waiting, _) => &["The window closes when this has ended."],
        (Ending::Stopping, _) => &["This is being stopped. The window closes when it has stopped."],
    };
    for line in lines {
        ui.label(*line);
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        if ending == Ending::Asked {
            let wait = button(ui, "Wait", Answer::Wait, out);
            focus_first(ui, &wait);
        }
        if ending != Ending::Stopping {
            button(ui, stop, Answer::StopWork, out);
        }
        let cancel = button(ui, "Cancel", Answer::Cancel, out);
        if ending != Ending::Asked {
            focus_first(ui, &cancel);
        }
    });
}

fn unsaved_ui(ui: &mut Ui, then: &Then, name: &str, out: &mut Requests) {
    heading(ui, "Save the line-up first?");
    let what = match then {
        Then::New => "A new line-up will replace it.",
        Then::Replace(..) => "The opened line-up will replace it.",
        Then::Restore => "The restored line-up will replace it.",
        Then::Quit => "The window is about to close.",
    };
    ui.label(format!("“{name}” has changes that are not saved. {what}"));
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let save = button(ui, "Save", Answer::Save, out);
        focus_first(ui, &save);
        button(ui, "Discard changes", Answer::Discard, out);
        button(ui, "Cancel", Answer::Cancel, out);
    });
}

fn path_ui(ui: &mut Ui, purpose: Purpose, text: &mut String, why: &str, tones: Tones, out: &mut Requests) {
    let (title, verb, hint) = match purpose {
        Purpose::Open => ("Open by path", "Open", "one path per line"),
        Purpose::SaveLineup => ("Save the line-up", "Save", "folder/name.lineup.ron"),
        Purpose::SaveFrame(_) => ("Save the frame file", "Save", "folder/name.frame.ron"),
        Purpose::SavePicture => ("Save the picture", "Save", "folder/name.svg or .png"),
        Purpose::SaveSheet => ("Save the sheet", "Save", "folder/name.png, .svg or .pdf"),
        Purpose::Publish => ("Publish the sheet", "Publish", "a folder, created if it does not exist"),
        Purpose::SavePattern(_) => ("Save the pattern", "Save", "folder/name.pdf or .svg"),
    };
    heading(ui, title);
    if !why.is_empty() {
        ui.label(RichText::new(why).color(tones.second()));
    }
    let rows = if purpose == Purpose::Open { 4 } else { 1 };
    let edit = if rows > 1 { TextEdit::multiline(text) } else { TextEdit::singleline(text) };
    let field = ui.add(edit.desired_rows(rows).desired_width(f32::INFINITY).hint_text(hint));
    named(&field, "Path");
    focus_first(ui, &field);
    ui.label(RichText::new("~ is your home folder.").size(SMALL).color(tones.second()));
    ui.add_space(10.0);
    let paths: Vec<PathBuf> = text.lines().map(str::trim).filter(|l| !l.is_empty()).map(super::file_names::typed_path).collect();
    let enter = ui.input(|i| {
        i.events.iter().any(
            |e| matches!(e, egui::Event::Key { key: Key::Enter, pressed: true, modifiers, .. } if rows == 1 || modifiers.command),
        )
    });
    ui.horizontal(|ui| {
        let go = ui.add_enabled(!paths.is_empty(), egui::Button::new(verb));
        if (go.clicked() || enter) && !paths.is_empty() {
            out.push(Request::Answer(Answer::Paths(purpose, paths)));
        }
        button(ui, "Cancel", Answer::Cancel, out);
    });
}

fn picture_ui(ui: &mut Ui, choice: &mut PictureChoice, tones: Tones, out: &mut Requests) {
    heading(ui, "Save picture");
    ui.horizontal(|ui| {
        ui.label("Size");
        let width = ui.add(TextEdit::singleline(&mut choice.width).desired_width(52.0));
        named(&width, "Width in pixels");
        ui.label("×");
        let height = ui.add(TextEdit::singleline(&mut choice.height).desired_width(52.0));
        named(&height, "Height in pixels");
        ui.label("pixels");
    });
    ui.horizontal(|ui| {
        for (label, width, height) in PictureChoice::SIZES {
            if ui.small_button(label).clicked() {
                (choice.width, choice.height) = (width.to_string(), height.to_string());
            }
        }
    });
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        ui.radio_value(&mut choice.is_png, false, "SVG")
            .on_hover_text("Stays sharp at any size, for print and drawing programs.");
        ui.radio_value(&mut choice.is_png, true, "PNG").on_hover_text("Pixels, for video and web pages.");
        ui.add_space(16.0);
        ui.radio_value(&mut choice.is_dark, false, "Light background");
        ui.radio_value(&mut choice.is_dark, true, "Dark background");
    });
    let size = choice.size();
    if let Err(why) = &size {
        ui.label(RichText::new(why.to_string()).color(tones.second()));
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let go = ui.add_enabled(size.is_ok(), egui::Button::new("Save…"));
        focus_first(ui, &go);
        if go.clicked() {
            out.push(Request::Answer(Answer::Picture(choice.clone())));
        }
        button(ui, "Cancel", Answer::Cancel, out);
    });
}

fn words_ui(ui: &mut Ui, title: &mut String, notes: &mut String, out: &mut Requests) {
    heading(ui, "Change title and notes");
    ui.label(RichText::new("Title").color(Tones::of(ui).second()));
    let field = ui.add(TextEdit::singleline(title).desired_width(f32::INFINITY).hint_text("title of the line-up"));
    named(&field, "Title");
    focus_first(ui, &field);
    ui.label(RichText::new("Notes").color(Tones::of(ui).second()));
    let field = ui.add(TextEdit::multiline(notes).desired_rows(8).desired_width(f32::INFINITY).hint_text("notes on the line-up"));
    named(&field, "Notes");
    let lengths = TextKind::Name.check("the title", title).and_then(|()| TextKind::Notes.check("the text", notes));
    if let Err(sentence) = &lengths {
        ui.label(RichText::new(sentence.to_string()).color(Tones::of(ui).second()));
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        ui.add_enabled_ui(lengths.is_ok(), |ui| button(ui, "Change", Answer::Words(title.clone(), notes.clone()), out));
        button(ui, "Cancel", Answer::Cancel, out);
    });
}

fn guide_page_ui(ui: &mut Ui, page: &mut usize, out: &mut Requests) {
    let height = (ui.ctx().content_rect().height() - 150.0).max(160.0);
    guide_ui(ui, page, height);
    ui.add_space(10.0);
    let close = button(ui, "Close", Answer::Cancel, out);
    focus_first(ui, &close);
}

fn keyboard_ui(ui: &mut Ui, tones: Tones, out: &mut Requests) {
    heading(ui, commands::about(Command::Shortcuts).map_or("", |about| about.label));
    let height = (ui.ctx().content_rect().height() - 200.0).max(160.0);
    ScrollArea::vertical().max_height(height).min_scrolled_height(height).auto_shrink([false, true]).show(ui, |ui| {
        for menu in Menu::ALL {
            ui.add_space(4.0);
            ui.label(RichText::new(menu.label()).font(semibold(BODY)));
            egui::Grid::new(menu.label()).num_columns(2).min_col_width(130.0).spacing([16.0, 3.0]).show(ui, |ui| {
                for about in commands::table().iter().filter(|a| a.menu == menu) {
                    let Some(shortcut) = about.shortcut else { continue };
                    ui.label(ui.ctx().format_shortcut(&shortcut));
                    ui.label(about.tooltip);
                    ui.end_row();
                }
            });
        }
        ui.add_space(4.0);
        ui.label(RichText::new("On a drawing").font(semibold(BODY)));
        egui::Grid::new("on a drawing").num_columns(2).min_col_width(130.0).spacing([16.0, 3.0]).show(ui, |ui| {
            for (keys, what) in [
                ("Arrows", "Pan. With Shift, pan further."),
                ("Wheel", "Zoom in or out at the pointer."),
                ("Drag", "On the outline, measure a distance and an angle. On a plot, pan."),
                ("Right drag, Space and drag", "Pan."),
                ("Escape", "Clear the measurement."),
                ("Tab, Shift+Tab", "Move between controls."),
            ] {
                ui.label(keys);
                ui.label(RichText::new(what).color(tones.ink()));
                ui.end_row();
            }
        });
    });
    ui.add_space(10.0);
    let close = button(ui, "Close", Answer::Cancel, out);
    focus_first(ui, &close);
}

fn about_ui(ui: &mut Ui, tones: Tones, out: &mut Requests) {
    heading(ui, &format!("Spandrel {}", env!("CARGO_PKG_VERSION")));
    ui.label("Compares bicycle framesets. Each ± covers the rounding of published figures and the assumptions made. Grey marks no clear difference.");
    ui.add_space(6.0);
    ui.label(
        RichText::new(
            "Spandrel calculates from published figures and has not seen the frame. A longer fork, a wide tyre, a large rotor, a raised seat post or toe overlap can cause a crash. Keep to the maker's limits and local rules, and have a competent mechanic check the built bicycle.",
        )
        .strong(),
    );
    ui.add_space(6.0);
    ui.label(RichText::new("Licence: MIT or Apache 2.0. Typeface: Open Sans.").color(tones.second()));
    ui.add_space(10.0);
    let close = button(ui, "Close", Answer::Cancel, out);
    focus_first(ui, &close);
}
