//! Questions that wait for an answer: unsaved work, a typed path, the size of a picture; and what the Help menu shows.
//!
//! They ask and push the answer; what follows is done in `apply`.

use std::path::PathBuf;

use egui::{Context, Id, Key, Modal, RichText, ScrollArea, TextEdit, Ui};

use super::commands::{self, Menu};
use super::help::guide_ui;
use super::import_review::{ImportReview, import_review_ui};
use super::named::named;
use super::quitting::{Busy, Ending, busy_ui};
use super::recovery::Offer;
use super::requests::{Request, Requests};
use super::saving_questions::{open_elsewhere_ui, replace_picture_ui, restore_ui, save_over_ui};
use super::theme::{BODY, SMALL, Tones, semibold};
use crate::disk::{FileIdentity, Obstacle, Occupant};
use crate::frameset::{Frameset, TextKind};
use crate::lineup::{FrameKey, Lineup};

/// What a path is wanted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Purpose {
    /// Opening files.
    Open,
    /// Saving the line-up.
    SaveLineup,
    /// Saving this frame as a frame file.
    SaveFrame(FrameKey),
    /// Saving a picture.
    SavePicture,
    /// Saving the bag's pattern for the frame at this place.
    SavePattern(usize),
    /// Saving the sheet in front.
    SaveSheet,
    /// Publishing the sheet in front: a folder.
    Publish,
}

/// What is saved in a file that may hold something else.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Saving {
    /// The line-up.
    Lineup,
    /// A frame of it.
    Frame(FrameKey),
}

/// What was about to happen when unsaved work came in between.
#[derive(Clone, Debug)]
pub(crate) enum Then {
    /// An empty line-up.
    New,
    /// Another line-up, already read.
    Replace(Box<Lineup>, FileIdentity),
    /// The unsaved line-up that is offered.
    Restore,
    /// The end.
    Quit,
}

/// Size and ground of a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct PictureChoice {
    /// Width as typed, pixels.
    pub(crate) width: String,
    /// Height as typed, pixels.
    pub(crate) height: String,
    /// PNG rather than SVG.
    pub(crate) is_png: bool,
    /// Dark ground.
    pub(crate) is_dark: bool,
}

/// An open question.
#[derive(Clone, Debug)]
pub(crate) enum Question {
    /// Save, discard or cancel.
    Unsaved(Then),
    /// A path to type, and why it has to be typed.
    Path {
        /// What for.
        purpose: Purpose,
        /// As typed so far.
        text: String,
        /// Why it is asked here.
        why: String,
    },
    /// Whether a picture, a pattern or a sheet replaces what is there.
    ReplacePicture {
        /// What is saved.
        purpose: Purpose,
        /// Where.
        path: PathBuf,
        /// What is there.
        occupant: Occupant,
    },
    /// The window is to close, and something still goes on.
    Busy {
        /// What goes on.
        busy: Busy,
        /// How it is to end.
        ending: Ending,
        /// The line-up whose unsaved changes were asked about.
        revision: u64,
    },
    /// What picture to save.
    Picture(PictureChoice),
    /// A table to review before it is imported.
    Import(Box<ImportReview>),
    /// A line-up that was left unsaved.
    Restore(Offer),
    /// Something would be lost by saving.
    SaveOver {
        /// What is saved.
        saving: Saving,
        /// Where.
        path: PathBuf,
        /// What stands in the way.
        obstacle: Obstacle,
        /// What was agreed to before.
        agreed: Vec<Obstacle>,
    },
    /// A line-up that another window has open.
    OpenElsewhere(Then),
    /// The comparison's title and notes.
    Words {
        /// The title as typed so far.
        title: String,
        /// The notes as typed so far.
        notes: String,
    },
    /// The user guide, open at the page of this place.
    Guide(usize),
    /// Every key.
    Keyboard,
    /// What the program is.
    About,
}

/// An answer.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Answer {
    /// Nothing shall happen.
    Cancel,
    /// Save first.
    Save,
    /// Lose it.
    Discard,
    /// The typed paths, one a line.
    Paths(Purpose, Vec<PathBuf>),
    /// This picture.
    Picture(PictureChoice),
    /// This frameset from a table, and the file that it came from.
    Imported(Box<Frameset>, Option<String>),
    /// Restore what was left unsaved.
    Restore,
    /// Discard what was left unsaved.
    DiscardLeft,
    /// Save beside the file.
    KeepBoth,
    /// Read the file again.
    ReadAgain,
    /// Replace the file, or make what is absent.
    Replace,
    /// Save in another place.
    SaveElsewhere,
    /// Open it all the same.
    Open,
    /// Close when what goes on has ended.
    Wait,
    /// Stop what goes on, and close.
    StopWork,
    /// This title and these notes.
    Words(String, String),
}

impl PictureChoice {
    /// Sizes offered in one click.
    pub(crate) const SIZES: [(&'static str, u32, u32); 4] =
        [("1920 × 1080", 1920, 1080), ("3840 × 2160", 3840, 2160), ("1080 × 1080", 1080, 1080), ("1080 × 1920", 1080, 1920)];

    /// The size in pixels.
    ///
    /// # Errors
    /// A sentence that says what to write.
    pub(crate) fn size(&self) -> Result<(u32, u32), String> {
        let side = |text: &str, name: &str| match text.trim().parse::<u32>() {
            Ok(pixels) if (320..=7680).contains(&pixels) => Ok(pixels),
            _ => Err(format!("The {name} must be a whole number from 320 to 7680, for example 1920.")),
        };
        Ok((side(&self.width, "width")?, side(&self.height, "height")?))
    }
}

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

pub(super) fn heading(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).heading());
    ui.add_space(4.0);
}

pub(super) fn button(ui: &mut Ui, label: &str, answer: Answer, out: &mut Requests) -> egui::Response {
    let response = ui.button(label);
    if response.clicked() {
        out.push(Request::Answer(answer));
    }
    response
}

/// Gives the keyboard to a control when the question has just appeared.
pub(super) fn focus_first(ui: &Ui, response: &egui::Response) {
    if ui.memory(|m| m.focused().is_none()) {
        response.request_focus();
    }
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
    let paths: Vec<PathBuf> = text.lines().map(str::trim).filter(|l| !l.is_empty()).map(super::files::typed_path).collect();
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
    if let Err(sentence) = &size {
        ui.label(RichText::new(sentence).color(tones.second()));
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
    let field = ui.add(TextEdit::singleline(title).desired_width(f32::INFINITY).hint_text("title of the line-up"));
    named(&field, "Title");
    focus_first(ui, &field);
    let field = ui.add(TextEdit::multiline(notes).desired_rows(8).desired_width(f32::INFINITY).hint_text("notes on the line-up"));
    named(&field, "Notes");
    let lengths = TextKind::Name.check("the title", title).and_then(|()| TextKind::Notes.check("the text", notes));
    if let Err(sentence) = &lengths {
        ui.label(RichText::new(sentence).color(Tones::of(ui).second()));
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
    heading(ui, "Keyboard shortcuts");
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn picture_sizes_are_checked() {
        let choice = |width: &str, height: &str| PictureChoice {
            width: width.to_owned(),
            height: height.to_owned(),
            is_png: true,
            is_dark: false,
        };
        assert_eq!(choice("1920", " 1080 ").size(), Ok((1920, 1080)));
        for (width, height) in [("0", "1080"), ("1920", "-4"), ("99999", "10"), ("a", "b"), ("", "")] {
            assert!(choice(width, height).size().is_err());
        }
    }
}
