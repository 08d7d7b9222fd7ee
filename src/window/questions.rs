//! Questions that wait for an answer: unsaved work, a typed path, the size of a picture; and what the Help menu shows.
//!
//! They ask and push the answer; what follows is done in `apply`.

use std::path::PathBuf;

use egui::{Context, Id, Key, Modal, RichText, ScrollArea, TextEdit, Ui};

use super::commands::{self, Command, Menu};
use super::help::guide_ui;
use super::import_review_ui::import_review_ui;
use super::labels::questions as labels;
use super::named::named;
use super::question::{Answer, Busy, Ending, PictureChoice, Purpose, Question, Then};
use super::question_parts::{button, focus_first, heading};
use super::requests::{Request, Requests};
use super::saving_questions::{open_elsewhere_ui, replace_picture_ui, restore_ui, save_over_ui};
use super::theme::{BODY, SMALL, Tones, semibold};
use super::view_id::ViewId;
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
        Busy::Publishing => (labels::SPANDREL_IS_STILL_PUBLISHING, labels::STOP_PUBLISHING_AND_QUIT),
        Busy::Picture => (labels::SPANDREL_IS_STILL_MAKING_A_PICTURE, labels::STOP_AND_QUIT),
    };
    heading(ui, title);
    let lines: &[&str] = match (ending, busy) {
        (Ending::Asked, Busy::Publishing) => {
            &[labels::WAIT_FOR_PUBLISHING, labels::STOP_PUBLISHING_LEAVES_A_WHOLE_FOLDER, labels::CANCEL_KEEPS_PUBLISHING]
        }
        (Ending::Asked, Busy::Picture) => &[labels::WAIT_FOR_THE_PICTURE, labels::STOP_LOSES_THE_PICTURE],
        (Ending::Waiting, _) => &[labels::THE_WINDOW_CLOSES_AFTER_THIS],
        (Ending::Stopping, _) => &[labels::THE_WINDOW_CLOSES_WHEN_STOPPED],
    };
    for line in lines {
        ui.label(*line);
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        if ending == Ending::Asked {
            let wait = button(ui, labels::WAIT, Answer::Wait, out);
            focus_first(ui, &wait);
        }
        if ending != Ending::Stopping {
            button(ui, stop, Answer::StopWork, out);
        }
        let cancel = button(ui, labels::CANCEL, Answer::Cancel, out);
        if ending != Ending::Asked {
            focus_first(ui, &cancel);
        }
    });
}

fn unsaved_ui(ui: &mut Ui, then: &Then, name: &str, out: &mut Requests) {
    heading(ui, labels::SAVE_THE_LINE_UP_FIRST);
    let what = match then {
        Then::New => labels::REPLACED_BY_A_NEW_LINE_UP,
        Then::Replace(..) => labels::REPLACED_BY_THE_OPENED_LINE_UP,
        Then::Sample => labels::REPLACED_BY_THE_SAMPLE,
        Then::Restore => labels::REPLACED_BY_THE_RESTORED_LINE_UP,
        Then::Quit => labels::THE_WINDOW_IS_ABOUT_TO_CLOSE,
    };
    ui.label(labels::has_changes_that_are_not_saved(&name, &what));
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let save = button(ui, labels::SAVE, Answer::Save, out);
        focus_first(ui, &save);
        button(ui, labels::DISCARD_CHANGES, Answer::Discard, out);
        button(ui, labels::CANCEL, Answer::Cancel, out);
    });
}

fn path_ui(ui: &mut Ui, purpose: Purpose, text: &mut String, why: &str, tones: Tones, out: &mut Requests) {
    let (title, verb, hint) = match purpose {
        Purpose::Open => (labels::OPEN_BY_PATH, labels::OPEN, labels::ONE_PATH_PER_LINE),
        Purpose::SaveLineup => (labels::SAVE_THE_LINE_UP, labels::SAVE, labels::FOLDER_NAME_LINEUP_RON),
        Purpose::SaveFrame(_) => (labels::SAVE_THE_FRAME_FILE, labels::SAVE, labels::FOLDER_NAME_FRAME_RON),
        Purpose::SavePicture => (labels::SAVE_THE_PICTURE, labels::SAVE, labels::FOLDER_NAME_SVG_OR_PNG),
        Purpose::SaveSheet => (labels::SAVE_THE_SHEET, labels::SAVE, labels::FOLDER_NAME_PNG_SVG_OR_PDF),
        Purpose::Publish => (labels::PUBLISH_THE_SHEET, labels::PUBLISH, labels::FOLDER_TO_PUBLISH_TO),
        Purpose::SavePattern(_) => (labels::SAVE_THE_PATTERN, labels::SAVE, labels::FOLDER_NAME_PDF_OR_SVG),
    };
    heading(ui, title);
    if !why.is_empty() {
        ui.label(RichText::new(why).color(tones.second()));
    }
    let rows = if purpose == Purpose::Open { 4 } else { 1 };
    let edit = if rows > 1 { TextEdit::multiline(text) } else { TextEdit::singleline(text) };
    let field = ui.add(edit.desired_rows(rows).desired_width(f32::INFINITY).hint_text(hint));
    named(&field, labels::PATH);
    focus_first(ui, &field);
    ui.label(RichText::new(labels::IS_YOUR_HOME_FOLDER).size(SMALL).color(tones.second()));
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
        button(ui, labels::CANCEL, Answer::Cancel, out);
    });
}

fn picture_ui(ui: &mut Ui, choice: &mut PictureChoice, tones: Tones, out: &mut Requests) {
    heading(ui, labels::SAVE_PICTURE);
    ui.horizontal(|ui| {
        ui.label(labels::SIZE);
        let width = ui.add(TextEdit::singleline(&mut choice.width).desired_width(52.0));
        named(&width, labels::WIDTH_IN_PIXELS);
        ui.label("×");
        let height = ui.add(TextEdit::singleline(&mut choice.height).desired_width(52.0));
        named(&height, labels::HEIGHT_IN_PIXELS);
        ui.label(labels::PIXELS);
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
        ui.radio_value(&mut choice.is_png, false, labels::SVG).on_hover_text(labels::STAYS_SHARP_AT_ANY_SIZE);
        ui.radio_value(&mut choice.is_png, true, labels::PNG).on_hover_text(labels::PIXELS_FOR_VIDEO_AND_WEB_PAGES);
        ui.add_space(16.0);
        ui.radio_value(&mut choice.is_dark, false, labels::LIGHT_BACKGROUND);
        ui.radio_value(&mut choice.is_dark, true, labels::DARK_BACKGROUND);
    });
    let size = choice.size();
    if let Err(why) = &size {
        ui.label(RichText::new(why.to_string()).color(tones.second()));
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let go = ui.add_enabled(size.is_ok(), egui::Button::new(labels::SAVE_TO));
        focus_first(ui, &go);
        if go.clicked() {
            out.push(Request::Answer(Answer::Picture(choice.clone())));
        }
        button(ui, labels::CANCEL, Answer::Cancel, out);
    });
}

fn words_ui(ui: &mut Ui, title: &mut String, notes: &mut String, out: &mut Requests) {
    heading(ui, labels::CHANGE_TITLE_AND_NOTES);
    ui.label(RichText::new(labels::TITLE).color(Tones::of(ui).second()));
    let field = ui.add(TextEdit::singleline(title).desired_width(f32::INFINITY).hint_text(labels::TITLE_OF_THE_LINE_UP));
    named(&field, labels::TITLE);
    focus_first(ui, &field);
    ui.label(RichText::new(labels::NOTES).color(Tones::of(ui).second()));
    let field =
        ui.add(TextEdit::multiline(notes).desired_rows(8).desired_width(f32::INFINITY).hint_text(labels::NOTES_ON_THE_LINE_UP));
    named(&field, labels::NOTES);
    let lengths = TextKind::Name.check(labels::THE_TITLE, title).and_then(|()| TextKind::Notes.check(labels::THE_TEXT, notes));
    if let Err(sentence) = &lengths {
        ui.label(RichText::new(sentence.to_string()).color(Tones::of(ui).second()));
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        ui.add_enabled_ui(lengths.is_ok(), |ui| button(ui, labels::CHANGE, Answer::Words(title.clone(), notes.clone()), out));
        button(ui, labels::CANCEL, Answer::Cancel, out);
    });
}

fn guide_page_ui(ui: &mut Ui, page: &mut usize, out: &mut Requests) {
    let height = (ui.ctx().content_rect().height() - 150.0).max(160.0);
    guide_ui(ui, page, height);
    ui.add_space(10.0);
    let close = button(ui, labels::CLOSE, Answer::Cancel, out);
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
                    if about.command == Command::Show(ViewId::Publish) {
                        ui.label(labels::ALT_AND_A_DIGIT);
                        ui.label(labels::SHOWS_A_VIEW_OF_THIS_GROUP);
                        ui.end_row();
                    }
                }
            });
        }
        ui.add_space(4.0);
        ui.label(RichText::new(labels::ON_A_DRAWING).font(semibold(BODY)));
        egui::Grid::new("on a drawing").num_columns(2).min_col_width(130.0).spacing([16.0, 3.0]).show(ui, |ui| {
            for (keys, what) in [
                (labels::ARROWS, labels::PAN_WITH_SHIFT_PAN_FURTHER),
                (labels::WHEEL, labels::ZOOM_IN_OR_OUT),
                (labels::DRAG, labels::MEASURE_OR_PAN),
                (labels::RIGHT_DRAG_SPACE_AND_DRAG, labels::PAN),
                (labels::ESCAPE, labels::CLEAR_THE_MEASUREMENT),
                (labels::TAB_SHIFT_TAB, labels::MOVE_BETWEEN_CONTROLS),
            ] {
                ui.label(keys);
                ui.label(RichText::new(what).color(tones.ink()));
                ui.end_row();
            }
        });
    });
    ui.add_space(10.0);
    let close = button(ui, labels::CLOSE, Answer::Cancel, out);
    focus_first(ui, &close);
}

fn about_ui(ui: &mut Ui, tones: Tones, out: &mut Requests) {
    heading(ui, &labels::spandrel_version(&env!("CARGO_PKG_VERSION")));
    ui.label(labels::WHAT_SPANDREL_DOES);
    ui.add_space(6.0);
    ui.label(RichText::new(labels::CAUTION).strong());
    ui.add_space(6.0);
    ui.label(RichText::new(labels::LICENCE).color(tones.second()));
    ui.add_space(10.0);
    let close = button(ui, labels::CLOSE, Answer::Cancel, out);
    focus_first(ui, &close);
}
