//! A field for a value that is typed and entered: what is being typed lives in the toolkit's memory until Enter or Tab;
//! Escape drops it; what cannot be read is said at the field and changes nothing, and Enter leaves it there to be mended.
//! A command enters what is typed too, before it is done: what is saved or published is what stands in the fields.
//! What may be meant and may not is asked about at the field, and taken only after a yes.

use std::fmt::Display;

use egui::{Align2, Area, Frame, Id, Key, Order, Response, TextEdit, Tooltip, Ui};

use super::labels::notices as labels;
use super::named::named;
use crate::frameset::TextKind;
use crate::units::{NO_BREAK_SPACE, THIN_SPACE};
use crate::weight::TypedError;

/// Tells that the field with the keyboard still says what it said when the keyboard came to it: undo and redo are then
/// the document's, not the field's.
pub(crate) fn note_untouched(ui: &Ui) {
    let frame = ui.ctx().cumulative_frame_nr();
    ui.data_mut(|d| d.insert_temp(Id::unique("untouched field"), frame));
}

/// Whether nothing was typed yet into the field with the keyboard.
pub(crate) fn is_untouched(ctx: &egui::Context) -> bool {
    let last = ctx.data(|d| d.get_temp::<u64>(Id::unique("untouched field")));
    last.is_some_and(|frame| frame + 1 >= ctx.cumulative_frame_nr())
}

/// Enters what is being typed in this frame, before a command that may need it is done.
pub(crate) fn enter_typed(ctx: &egui::Context) {
    let frame = ctx.cumulative_frame_nr();
    ctx.data_mut(|d| d.insert_temp(Id::unique("enter what is typed"), frame));
}

/// Whether what is being typed is to be entered in this frame.
fn is_entering(ctx: &egui::Context) -> bool {
    let asked = ctx.data(|d| d.get_temp::<u64>(Id::unique("enter what is typed")));
    asked == Some(ctx.cumulative_frame_nr())
}

/// Tells that what a field held when the keyboard left it was not taken.
pub(crate) fn note_refused(ui: &Ui, name: &str, text: &str, sentence: &str) {
    let words = labels::was_not_accepted(&name, &beginning(text), &sentence);
    ui.data_mut(|d| d.insert_temp(Id::unique("refused text"), words));
}

/// A sentence whose numbers stay with their units where a line ends: of the spaces, the layout keeps one kind together.
fn unbroken(sentence: &dyn Display) -> String {
    sentence.to_string().replace(THIN_SPACE, NO_BREAK_SPACE.encode_utf8(&mut [0; 4]))
}

/// A text as it is quoted in a sentence: of a long one its beginning.
fn beginning(text: &str) -> String {
    match text.char_indices().nth(LONGEST_QUOTED) {
        Some((end, _)) => format!("{}…", text[..end].trim_end()),
        None => text.to_owned(),
    }
}

/// The longest text that is quoted whole, characters.
const LONGEST_QUOTED: usize = 40;

/// What was last not taken, once, for the status line.
pub(crate) fn refused(ctx: &egui::Context) -> Option<String> {
    let id = Id::unique("refused text");
    let words = ctx.data(|d| d.get_temp::<String>(id))?;
    ctx.data_mut(|d| d.remove::<String>(id));
    Some(words)
}

/// Numbers stand at the right of their field; in a field wider than any number needs, words stand at the left.
const WIDEST_NUMBER: f32 = 110.0;

/// What an entry field is like.
pub(crate) struct TypedField<'a> {
    /// Tells the fields of a window apart.
    pub(crate) id: Id,
    /// Its name for screen readers.
    pub(crate) name: &'a str,
    /// What it says while nobody types.
    pub(crate) current: String,
    /// What it says when it is empty.
    pub(crate) hint: &'a str,
    /// Width in points.
    pub(crate) width: f32,
}

impl TypedField<'_> {
    /// Shows the field; gives the value when one was entered.
    pub(crate) fn show<T, E: Display>(self, ui: &mut Ui, read: impl Fn(&str) -> Result<T, E>) -> (Response, Option<T>) {
        let kept = ui.data(|d| d.get_temp::<String>(self.id));
        let mut text = kept.unwrap_or_else(|| self.current.clone());
        let edit = TextEdit::singleline(&mut text).id(self.id.with("edit")).hint_text(self.hint);
        let align = if self.width > WIDEST_NUMBER { Align2::LEFT_CENTER } else { Align2::RIGHT_CENTER };
        let field = ui.add(edit.desired_width(self.width).align(align));
        named(&field, self.name);
        let is_short = TextKind::Words.check(labels::THIS_TEXT, &text).map_err(|why| unbroken(&why));
        let value = is_short.and_then(|()| read(&text).map_err(|why| unbroken(&why)));
        let mut entered = None;
        let is_refused = field.lost_focus() && value.is_err() && text != self.current && ui.input(|i| i.key_pressed(Key::Enter));
        if is_refused {
            field.request_focus();
        }
        let is_typed = field.has_focus() && text != self.current && is_entering(ui.ctx());
        if is_typed && value.is_ok() {
            ui.data_mut(|d| d.remove::<String>(self.id));
            entered = value.ok();
        } else if field.has_focus() || is_refused {
            if let (true, Err(sentence)) = (is_typed, &value) {
                note_refused(ui, self.name, &text, sentence);
            }
            if text == self.current {
                note_untouched(ui);
            }
            ui.data_mut(|d| d.insert_temp(self.id, text));
            if let Err(sentence) = &value {
                Tooltip::always_open(ui.ctx().clone(), ui.layer_id(), self.id.with("why"), &field).show(|ui| ui.label(sentence));
            }
        } else {
            ui.data_mut(|d| d.remove::<String>(self.id));
            let is_dropped = text == self.current || ui.input(|i| i.key_pressed(Key::Escape));
            if field.lost_focus() && !is_dropped {
                match value {
                    Ok(value) => entered = Some(value),
                    Err(sentence) => note_refused(ui, self.name, &text, &sentence),
                }
            }
        }
        (field, entered)
    }

    /// The same for text that may have to be asked about: the question stands below the field, with a yes and a no, until
    /// it is answered or something else is typed.
    pub(crate) fn show_asking(self, ui: &mut Ui, read: impl Fn(&str) -> Result<f64, TypedError>) -> (Response, Option<f64>) {
        let (field, entered) = self.show_asking_about(ui, |text| read(text).map(Some));
        (field, entered.flatten())
    }

    /// The same where an emptied field is entered as none.
    #[expect(clippy::option_option, reason = "nothing entered, entered as none, or a value")]
    pub(crate) fn show_asking_or_none(
        self,
        ui: &mut Ui,
        read: impl Fn(&str) -> Result<f64, TypedError>,
    ) -> (Response, Option<Option<f64>>) {
        self.show_asking_about(ui, |text| if text.trim().is_empty() { Ok(None) } else { read(text).map(Some) })
    }

    #[expect(clippy::option_option, reason = "nothing entered, entered as none, or a value")]
    fn show_asking_about(
        self,
        ui: &mut Ui,
        read: impl Fn(&str) -> Result<Option<f64>, TypedError>,
    ) -> (Response, Option<Option<f64>>) {
        let (id, asked, name) = (self.id, self.id.with("asked"), self.name.to_owned());
        let (field, entered) = self.show(ui, |text| match read(text) {
            Ok(value) => Ok(Entered::Value(value)),
            Err(TypedError::Asks { sentence, value }) => Ok(Entered::Question(text.to_owned(), sentence, value)),
            Err(TypedError::Refused(sentence)) => Err(sentence),
        });
        let mut value = None;
        match entered {
            Some(Entered::Value(entered)) => value = Some(entered),
            // Asked when the field is left: a command does not wait for the answer.
            Some(Entered::Question(text, sentence, _)) if field.has_focus() => {
                note_refused(ui, &name, &text, &unbroken(&sentence));
                ui.data_mut(|d| d.insert_temp(id, text));
            }
            Some(Entered::Question(_, sentence, meant)) => {
                ui.data_mut(|d| d.insert_temp(asked, (unbroken(&sentence), meant)));
            }
            None => {}
        }
        if field.has_focus() {
            ui.data_mut(|d| d.remove::<(String, f64)>(asked));
        } else if let Some((sentence, meant)) = ui.data(|d| d.get_temp::<(String, f64)>(asked))
            && let Some(is_meant) = question_ui(ui, asked, &field, &name, &sentence)
        {
            ui.data_mut(|d| d.remove::<(String, f64)>(asked));
            value = is_meant.then_some(Some(meant));
        }
        (field, value)
    }
}

/// What was entered, or what it must be asked about.
enum Entered {
    Value(Option<f64>),
    /// What was typed, the question, and what it means if the answer is yes.
    Question(String, String, f64),
}

/// A question below a field; gives the answer once there is one.
fn question_ui(ui: &Ui, id: Id, field: &Response, name: &str, sentence: &str) -> Option<bool> {
    let mut answer = None;
    let area = Area::new(id).order(Order::Foreground).fixed_pos(field.rect.left_bottom() + egui::vec2(-120.0, 4.0));
    area.constrain(true).show(ui.ctx(), |ui| {
        Frame::popup(ui.style()).show(ui, |ui| {
            ui.set_max_width(300.0);
            ui.label(sentence);
            ui.horizontal(|ui| {
                for (words, is_yes) in [(labels::YES, true), (labels::NO, false)] {
                    let button = ui.button(words);
                    named(&button, format!("{words}: {name}"));
                    if button.clicked() {
                        answer = Some(is_yes);
                    }
                }
            });
        });
    });
    if ui.input(|i| i.key_pressed(Key::Escape)) {
        answer = Some(false);
    }
    answer
}
