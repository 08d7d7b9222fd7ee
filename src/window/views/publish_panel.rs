//! What stands on the sheet: which sheet, its words, shape and ground, its parts in their order, the table's figures, the
//! sentences, what moves.

use egui::{ComboBox, Id, RichText, TextEdit, Tooltip, Ui};

use super::super::edits::Edit;
use super::super::entry::{TypedField, note_refused};
use super::super::labels::publish as labels;
use super::super::named::named;
use super::super::requests::{Request, Requests};
use super::super::sheet_edits::{SheetEdit, SheetPlace, free_name, is_same_name};
use super::super::shown::Shown;
use super::super::theme::{SMALL, Tones};
use super::side_panel::{arrow_ui, heading_ui, note_ui, pick_ui, row_ui};
use crate::frameset::{Figure, FrameIndex, TextKind};
use crate::lineup::{
    Animation, Block, FORK_LONGER_MM, Movement, PIXELS_ACROSS, RATES, SECONDS, Shape, Sheet, SheetBackground, Statement,
    StatementSubject, stated_frame,
};
use crate::units::{Quantity, System, fixed, typed_number};
use crate::words::Label;
use crate::words::{captions, frame_and_size, statement_headline};

/// The panel.
pub(super) fn sheet_panel_ui(ui: &mut Ui, shown: Shown<'_>, place: SheetPlace, sheet: &Sheet, out: &mut Requests) {
    which_ui(ui, shown, place, sheet, out);
    let mut panel = Changing { own: shown.lineup().sheets.len(), place, sheet, out };
    statement_ui(ui, shown, &mut panel);
    words_ui(ui, shown, &mut panel);
    shape_ui(ui, &mut panel);
    parts_ui(ui, &mut panel);
    sentences_ui(ui, shown, &mut panel);
    moves_ui(ui, shown.lineup().settings.units, &mut panel);
}

/// The sheet being changed: each change is pushed as an edit; one to begin with becomes the line-up's own by it.
struct Changing<'a> {
    own: usize,
    place: SheetPlace,
    sheet: &'a Sheet,
    out: &'a mut Requests,
}

impl Changing<'_> {
    fn put(&mut self, what: &str, field: Option<Id>, change: impl FnOnce(&mut Sheet)) {
        let mut sheet = self.sheet.clone();
        change(&mut sheet);
        let place = match self.place {
            SheetPlace::Own(index) => index,
            SheetPlace::ToBegin(_) => self.own,
        };
        let field = field.map(|id| id.value());
        self.out.edit(Edit::Sheet(SheetEdit::Put { place, sheet: Box::new(sheet), what: what.to_owned(), field }));
        self.out.push(Request::Sheet(SheetPlace::Own(place)));
    }
}

fn which_ui(ui: &mut Ui, shown: Shown<'_>, place: SheetPlace, sheet: &Sheet, out: &mut Requests) {
    let lineup = shown.lineup();
    heading_ui(ui, labels::SHEET);
    row_ui(ui, labels::SHOWN, |ui| {
        let combo = ComboBox::from_id_salt("sheet shown").width(190.0).selected_text(&sheet.name).truncate().show_ui(ui, |ui| {
            for (index, own) in lineup.sheets.iter().enumerate() {
                if ui.selectable_label(place == SheetPlace::Own(index), &own.name).clicked() {
                    out.push(Request::Sheet(SheetPlace::Own(index)));
                }
            }
            ui.label(RichText::new(labels::TEMPLATES).size(SMALL).color(Tones::of(ui).second()));
            for (index, first) in Sheet::presets().iter().enumerate() {
                if ui.selectable_label(place == SheetPlace::ToBegin(index), &first.name).clicked() {
                    out.push(Request::Sheet(SheetPlace::ToBegin(index)));
                }
            }
        });
        named(&combo.response, labels::SHEET_SHOWN);
    });
    match place {
        SheetPlace::ToBegin(_) => note_ui(ui, labels::THIS_IS_A_TEMPLATE),
        SheetPlace::Own(index) => {
            let in_use = |text: &str| {
                let others = lineup.sheets.iter().enumerate().filter(|(i, _)| *i != index);
                others.into_iter().any(|(_, s)| is_same_name(&s.name, text))
            };
            let read = |text: &str| match text.trim() {
                "" => Err(labels::ENTER_A_NAME_FOR_EXAMPLE_FILM.to_owned()),
                text if in_use(text) => Err(labels::is_already_the_name(&text)),
                text => TextKind::Name.check(labels::THE_NAME, text).map(|()| text.to_owned()).map_err(|why| why.to_string()),
            };
            row_ui(ui, labels::NAME, |ui| {
                let current = sheet.name.clone();
                let entry =
                    TypedField { id: Id::unique("sheet name"), name: labels::NAME_OF_THE_SHEET, current, hint: "", width: 190.0 };
                if let Some(name) = entry.show(ui, read).1 {
                    Changing { own: 0, place, sheet, out }.put(labels::NAME_CHANGE, None, |s| s.name = name);
                }
            });
        }
    }
    ui.horizontal(|ui| {
        if ui.button(labels::DUPLICATE_SHEET).on_hover_text(labels::ADDS_A_COPY).clicked() {
            let own = lineup.sheets.len();
            let copy = Sheet { name: free_name(lineup, &sheet.name), ..sheet.clone() };
            Changing { own, place: SheetPlace::ToBegin(0), sheet: &copy, out }.put(labels::DUPLICATING_THE_SHEET, None, |_| {});
        }
        if let SheetPlace::Own(index) = place
            && ui.button(labels::REMOVE_SHEET).on_hover_text(labels::REMOVES_THIS_SHEET).clicked()
        {
            out.edit(Edit::Sheet(SheetEdit::Remove(index)));
            out.push(Request::Sheet(SheetPlace::Own(index.saturating_sub(1))));
        }
    });
}

/// A text that follows each keystroke. One that is too long stays in its field, with a sentence, until it is shorter or the
/// keyboard leaves it.
fn text_ui(ui: &mut Ui, name: &str, current: &str, hint: &str, rows: usize, kind: TextKind) -> Option<(Id, String)> {
    let id = Id::unique(("sheet text", name));
    let too_long = id.with("too long");
    let mut text = ui.data(|d| d.get_temp::<String>(too_long)).unwrap_or_else(|| current.to_owned());
    let edit = if rows > 1 { TextEdit::multiline(&mut text) } else { TextEdit::singleline(&mut text) };
    let width = (ui.available_width() - 8.0).max(80.0);
    let field = ui.add(edit.id(id).hint_text(hint).desired_rows(rows).desired_width(width));
    named(&field, name);
    if let Err(why) = kind.check(labels::THIS_TEXT, &text) {
        let sentence = why.to_string();
        if field.has_focus() {
            Tooltip::always_open(ui.ctx().clone(), ui.layer_id(), id.with("why"), &field).show(|ui| ui.label(sentence));
            ui.data_mut(|d| d.insert_temp(too_long, text));
        } else {
            note_refused(ui, name, &text, &sentence);
            ui.data_mut(|d| d.remove::<String>(too_long));
        }
        return None;
    }
    ui.data_mut(|d| d.remove::<String>(too_long));
    (text != current).then_some((id, text))
}

/// Whether the pictures state one finding, about what, and of which frame.
fn statement_ui(ui: &mut Ui, shown: Shown<'_>, panel: &mut Changing<'_>) {
    heading_ui(ui, labels::STATEMENT);
    let mut is_on = panel.sheet.statement.is_some();
    let check = ui.checkbox(&mut is_on, labels::STATE_ONE_FINDING);
    if check.on_hover_text(labels::STATES_ONE_FINDING).changed() {
        panel.put(labels::STATEMENT_CHANGE, None, |s| s.statement = is_on.then(Statement::default));
    }
    let Some(statement) = panel.sheet.statement.clone() else { return };
    let about = pick_ui(ui, labels::STATEMENT_ABOUT, 190.0, statement.about, &StatementSubject::ALL, StatementSubject::label);
    if let Some(about) = about {
        panel.put(labels::STATEMENT_CHANGE, None, |s| s.statement = Some(Statement { about, ..statement.clone() }));
    }
    let findings = shown.findings();
    let others: Vec<FrameIndex> = FrameIndex::numbered(&findings.frames)
        .filter(|(place, frame)| frame.shown && findings.reference != Some(*place))
        .map(|(place, _)| place)
        .collect();
    let Some(now) = stated_frame(&statement, findings) else {
        note_ui(ui, labels::SHOW_ANOTHER_FRAME);
        return;
    };
    let name = |place: FrameIndex| place.of(&findings.frames).map(frame_and_size).unwrap_or_default();
    row_ui(ui, labels::STATEMENT_FRAME, |ui| {
        let combo =
            ComboBox::from_id_salt("statement frame").width(190.0).selected_text(name(now)).truncate().show_ui(ui, |ui| {
                for place in others {
                    if ui.selectable_label(place == now, name(place)).clicked() && place != now {
                        let frame = place.of(&findings.frames).map(|f| f.name.clone()).unwrap_or_default();
                        panel.put(labels::STATEMENT_CHANGE, None, |s| {
                            s.statement = Some(Statement { frame, ..statement.clone() });
                        });
                    }
                }
            });
        named(&combo.response, labels::STATEMENT_FRAME);
    });
}

/// A text of a sheet.
type Text = fn(&mut Sheet) -> &mut String;

fn words_ui(ui: &mut Ui, shown: Shown<'_>, panel: &mut Changing<'_>) {
    heading_ui(ui, labels::WORDS);
    let lineup = shown.lineup();
    let title = match &panel.sheet.statement {
        Some(statement) => {
            let proposed = Sheet { title: String::new(), ..panel.sheet.clone() };
            statement_headline(lineup, shown.findings(), &proposed, statement)
        }
        None => panel.sheet.headline(lineup).to_owned(),
    };
    let fields: [(&str, &str, usize, Text); 5] = [
        (labels::TITLE, &title, 1, |s| &mut s.title),
        (labels::SUBTITLE, labels::WHAT_ALL_FRAMES_SHARE, 1, |s| &mut s.subtitle),
        (labels::DATE, labels::FOR_EXAMPLE_12_OCTOBER_2026, 1, |s| &mut s.date),
        (labels::AUTHOR, labels::YOUR_NAME_OR_YOUR_SITES, 1, |s| &mut s.author),
        (labels::INTRODUCTION, labels::TEXT_ABOVE_THE_SENTENCES, 2, |s| &mut s.words),
    ];
    for (name, hint, rows, part) in fields {
        let current = part(&mut panel.sheet.clone()).clone();
        ui.label(RichText::new(name).size(SMALL).color(Tones::of(ui).second()));
        let kind = if rows > 1 { TextKind::Notes } else { TextKind::Name };
        if let Some((id, text)) = text_ui(ui, name, &current, hint, rows, kind) {
            panel.put(&name.to_lowercase(), Some(id), |s| *part(s) = text);
        }
    }
}

/// A whole number within its range.
fn whole_ui(ui: &mut Ui, name: &str, now: i64, (low, high): (i64, i64)) -> Option<i64> {
    let mut entered = None;
    let read = |text: &str| match text.trim().replace('−', "-").parse::<i64>() {
        Ok(value) if (low..=high).contains(&value) => Ok(value),
        _ => Err(labels::enter_a_whole_number_from_to(&low, &high)),
    };
    row_ui(ui, name, |ui| {
        entered = TypedField { id: Id::unique(("sheet", name)), name, current: now.to_string(), hint: "", width: 60.0 }
            .show(ui, read)
            .1;
    });
    entered
}

fn shape_ui(ui: &mut Ui, panel: &mut Changing<'_>) {
    heading_ui(ui, labels::SHAPE);
    if let Some(shape) = pick_ui(ui, labels::SHAPE, 190.0, panel.sheet.shape, &Shape::ALL, Shape::label) {
        panel.put(labels::SHAPE_CHANGE, None, |s| (s.shape, s.width) = (shape, None));
    }
    let (low, high) = (*PIXELS_ACROSS.start(), *PIXELS_ACROSS.end());
    let read = |text: &str| match text.trim() {
        "" => Ok(None),
        text => match text.parse::<u32>() {
            Ok(width) if PIXELS_ACROSS.contains(&width) => Ok(Some(width)),
            _ => Err(labels::enter_a_whole_number(&low, &high)),
        },
    };
    let mut entered = None;
    row_ui(ui, labels::WIDTH_PIXELS, |ui| {
        let hint = panel.sheet.shape.usual_width().to_string();
        let current = panel.sheet.width.map(|w| w.to_string()).unwrap_or_default();
        let entry = TypedField { id: Id::unique("sheet width"), name: labels::WIDTH_PIXELS, current, hint: &hint, width: 60.0 };
        entered = entry.show(ui, read).1;
    });
    if let Some(width) = entered {
        panel.put(labels::WIDTH, None, |s| s.width = width);
    }
    if let Some(background) =
        pick_ui(ui, labels::BACKGROUND, 190.0, panel.sheet.background, &SheetBackground::ALL, SheetBackground::label)
    {
        panel.put(labels::BACKGROUND_CHANGE, None, |s| s.background = background);
    }
}

fn parts_ui(ui: &mut Ui, panel: &mut Changing<'_>) {
    heading_ui(ui, labels::CONTENTS);
    if let Some(blocks) = order_ui(ui, labels::PART, &panel.sheet.contents, &Block::ALL, Block::label) {
        panel.put(labels::PARTS, None, |s| s.contents = blocks);
    }
    if panel.sheet.has(Block::Table) {
        heading_ui(ui, labels::FIGURES_IN_THE_TABLE);
        if let Some(figures) = order_ui(ui, labels::FIGURE, &panel.sheet.figures, Figure::ALL, Figure::label) {
            panel.put(labels::FIGURES, None, |s| s.figures = figures);
        }
    }
}

/// A list in an order of the user's own: each up, down or away, and what is not on it yet to be added.
fn order_ui<T: Copy + PartialEq>(
    ui: &mut Ui,
    what: &str,
    chosen: &[T],
    all: &[T],
    label: impl Fn(T) -> &'static str,
) -> Option<Vec<T>> {
    let mut after = chosen.to_vec();
    for (index, item) in chosen.iter().enumerate() {
        let name = label(*item);
        row_ui(ui, name, |ui| {
            let words = labels::remove(&name);
            let away = ui.small_button("×");
            named(&away, &words);
            if away.on_hover_text(words).clicked() {
                after.remove(index);
            }
            if arrow_ui(ui, &labels::move_down(&name), false, index + 1 < chosen.len()) {
                after.swap(index, index + 1);
            }
            if arrow_ui(ui, &labels::move_up(&name), true, index > 0) {
                after.swap(index, index - 1);
            }
        });
    }
    let rest: Vec<T> = all.iter().copied().filter(|t| !chosen.contains(t)).collect();
    if !rest.is_empty() {
        let words = labels::add_a(&what);
        let combo =
            ComboBox::from_id_salt(("add to sheet", what)).width(150.0).height(420.0).selected_text(&words).show_ui(ui, |ui| {
                for item in rest {
                    if ui.selectable_label(false, label(item)).clicked() {
                        after.push(item);
                    }
                }
            });
        named(&combo.response, &words);
    }
    (after != chosen).then_some(after)
}

fn sentences_ui(ui: &mut Ui, shown: Shown<'_>, panel: &mut Changing<'_>) {
    if !panel.sheet.has(Block::Captions) {
        return;
    }
    heading_ui(ui, labels::SENTENCES);
    note_ui(ui, labels::SENTENCES_FOLLOW_THE_FIGURES);
    for caption in captions(shown.lineup(), shown.findings(), panel.sheet) {
        // As typed, with blanks at its ends: the sheet itself takes them off.
        let typed = panel.sheet.captions.iter().find(|c| c.of == caption.of).map(|c| c.text.clone());
        let current = typed.unwrap_or_else(|| caption.found.clone());
        ui.horizontal(|ui| {
            let words = if caption.is_edited { labels::yours(&caption.of) } else { caption.of.clone() };
            ui.label(RichText::new(words).size(SMALL).color(Tones::of(ui).second()));
            if caption.is_edited {
                let button = ui.small_button(labels::RESET).on_hover_text(&caption.found);
                named(&button, labels::reset(&caption.of));
                if button.clicked() {
                    panel.put(labels::A_SENTENCE, None, |s| {
                        s.edit_caption(&caption.of, caption.found.clone(), &caption.found, "");
                    });
                }
            }
        });
        let name = labels::sentence(&caption.of);
        if let Some((id, text)) = text_ui(ui, &name, &current, labels::LEFT_OUT, 2, TextKind::Words) {
            panel.put(labels::A_SENTENCE, Some(id), |s| s.edit_caption(&caption.of, text, &caption.found, &caption.figures));
        }
        if caption.is_outdated {
            note_ui(ui, &labels::the_figures_or_their_wording(&caption.found));
        }
    }
}

/// By how much the fork gets longer, mm. In inches it is typed to a hundredth, and kept to the millimetre.
fn fork_longer_ui(ui: &mut Ui, units: System, now: i32) -> Option<i32> {
    let name = labels::fork_longer_by(&units.unit(Quantity::Length));
    let (low, high) = (*FORK_LONGER_MM.start(), *FORK_LONGER_MM.end());
    if units == System::Metric {
        let entered = whole_ui(ui, &name, i64::from(now), (i64::from(low), i64::from(high)));
        return entered.and_then(|mm| i32::try_from(mm).ok());
    }
    let factor = units.factor(Quantity::Length);
    let shown = |mm: i32| fixed(f64::from(mm) * factor, 2);
    let read = |text: &str| {
        let mm = typed_number(text).map(|number| (number / factor).round());
        let mm = mm.filter(|mm| (f64::from(low)..=f64::from(high)).contains(mm));
        #[expect(clippy::cast_possible_truncation, reason = "a whole number within the range")]
        mm.map(|mm| mm as i32).ok_or_else(|| labels::enter_a_number_from_to(&shown(low), &shown(high)))
    };
    let mut entered = None;
    row_ui(ui, &name, |ui| {
        entered = TypedField { id: Id::unique(("sheet", &name)), name: &name, current: shown(now), hint: "", width: 60.0 }
            .show(ui, read)
            .1;
    });
    entered
}

fn moves_ui(ui: &mut Ui, units: System, panel: &mut Changing<'_>) {
    heading_ui(ui, labels::ANIMATION);
    let mut is_moving = panel.sheet.animation.is_some();
    let check = ui.checkbox(&mut is_moving, labels::PUBLISH_AN_ANIMATION);
    if check.on_hover_text(labels::PUBLISHES_NUMBERED_PNG_PICTURES).changed() {
        panel.put(labels::ANIMATION_CHANGE, None, |s| s.animation = is_moving.then(Animation::default));
    }
    let Some(animation) = panel.sheet.animation else { return };
    let kind = |m: Movement| Movement::ALL.into_iter().find(|k| k.label() == m.label()).unwrap_or_default();
    if let Some(what) = pick_ui(ui, labels::ANIMATION_TYPE, 190.0, kind(animation.what), &Movement::ALL, Movement::label) {
        panel.put(labels::ANIMATION_TYPE_CHANGE, None, |s| s.animation = Some(Animation { what, ..animation }));
    }
    if let Movement::Fork(longer) = animation.what
        && let Some(longer) = fork_longer_ui(ui, units, longer)
    {
        panel.put(labels::ANIMATION_TYPE_CHANGE, None, |s| {
            s.animation = Some(Animation { what: Movement::Fork(longer), ..animation });
        });
    }
    let range = (i64::from(*SECONDS.start()), i64::from(*SECONDS.end()));
    if let Some(seconds) = whole_ui(ui, labels::SECONDS, i64::from(animation.seconds), range).and_then(|s| u32::try_from(s).ok())
    {
        panel.put(labels::SECONDS_CHANGE, None, |s| s.animation = Some(Animation { seconds, ..animation }));
    }
    let range = (i64::from(*RATES.start()), i64::from(*RATES.end()));
    if let Some(frames_per_second) =
        whole_ui(ui, labels::FRAMES_PER_SECOND, i64::from(animation.frames_per_second), range).and_then(|r| u32::try_from(r).ok())
    {
        panel.put(labels::FRAMES_PER_SECOND_CHANGE, None, |s| s.animation = Some(Animation { frames_per_second, ..animation }));
    }
}
