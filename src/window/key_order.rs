//! Keys, typed text and clicks in the order in which they were made, also where a slow frame brings several at once.
//!
//! The toolkit gives all events of a frame to every widget, so a letter typed before Tab would reach the field after it,
//! and a command would overtake the text before it. Here each act (a shortcut, Tab, Enter, Escape, a click followed by
//! keys) has a frame of its own, with one more behind it before the next key, so that what it opens has the keyboard
//! first. What waits is kept, and the next frame asked for at once.
//!
//! Invariant: no event is lost, doubled or overtaken.

use std::collections::VecDeque;

use egui::{Context, Event, Key, Modifiers, Plugin, RawInput, Ui};

/// What an event is to the order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    /// Nothing: it goes with whatever it stands among.
    Neutral,
    /// A click, or a wish of a screen reader.
    Click,
    /// Something for the field that has the keyboard.
    Typed,
    /// A key that acts, and may move the keyboard elsewhere.
    Act(Option<(Key, Modifiers)>),
}

/// The events that wait for their frame.
#[derive(Debug, Default)]
pub(crate) struct KeyOrder {
    held: VecDeque<Event>,
    /// Whether something was done in the last frame that may move the keyboard.
    has_acted: bool,
}

impl KeyOrder {
    /// The events of the next frame.
    fn next(&mut self, is_typing: bool) -> Vec<Event> {
        let mut batch: Vec<Event> = Vec::new();
        let mut running = Kind::Neutral;
        let must_settle = std::mem::take(&mut self.has_acted);
        while let Some(event) = self.held.front() {
            let kind = kind(event, is_typing);
            let goes_on = match (running, kind) {
                // An act is done with the modifiers that it was made with.
                (Kind::Act(_), Kind::Neutral) => !matches!(event, Event::ModifiersChanged(_)),
                (_, Kind::Neutral) => true,
                (Kind::Neutral, Kind::Typed | Kind::Act(_)) => !must_settle,
                (Kind::Neutral, Kind::Click) => true,
                (Kind::Act(_), Kind::Typed) => is_own_letter(batch.last(), event),
                (Kind::Act(before), Kind::Act(again)) => before.is_some() && before == again && is_repeated(event),
                (before, kind) => before == kind,
            };
            if !goes_on {
                break;
            }
            if kind != Kind::Neutral && !matches!((running, kind), (Kind::Act(_), Kind::Typed)) {
                running = kind;
            }
            batch.extend(self.held.pop_front());
        }
        self.has_acted = matches!(running, Kind::Act(_) | Kind::Click);
        batch
    }
}

fn kind(event: &Event, is_typing: bool) -> Kind {
    match event {
        Event::PointerButton { .. } | Event::Touch { .. } | Event::AccessKitActionRequest(_) => Kind::Click,
        Event::Key { key, pressed: true, modifiers, .. } => {
            let is_act = !is_typing
                || modifiers.command
                || modifiers.ctrl
                || modifiers.alt
                || matches!(key, Key::Tab | Key::Enter | Key::Escape | Key::F1);
            if is_act { Kind::Act(Some((*key, *modifiers))) } else { Kind::Typed }
        }
        Event::Paste(_) if !is_typing => Kind::Act(None),
        Event::Text(_) | Event::Ime(_) | Event::Copy | Event::Cut | Event::Paste(_) => Kind::Typed,
        _ => Kind::Neutral,
    }
}

/// Whether an event is the letter that the key before it stands for.
fn is_own_letter(before: Option<&Event>, event: &Event) -> bool {
    let Some(Event::Key { key, pressed: true, modifiers, .. }) = before else { return false };
    // Keys that stand for no letter have long names; so have a few signs.
    let is_sign = matches!(
        key.name(),
        "Space"
            | "Colon"
            | "Comma"
            | "Minus"
            | "Period"
            | "Plus"
            | "Equals"
            | "Semicolon"
            | "Slash"
            | "Backslash"
            | "Pipe"
            | "Questionmark"
            | "Exclamationmark"
            | "OpenBracket"
            | "CloseBracket"
            | "OpenCurlyBracket"
            | "CloseCurlyBracket"
            | "Backtick"
            | "Quote"
    );
    let is_letter = is_sign || key.name().chars().count() == 1;
    is_letter && matches!(event, Event::Text(_)) && !(modifiers.command || modifiers.ctrl || modifiers.alt)
}

/// Whether a key is held down rather than pressed anew: its strokes go together, so that a slow window does not lag behind.
fn is_repeated(event: &Event) -> bool {
    matches!(event, Event::Key { repeat: true, .. })
}

/// Under which name the toolkit lists the plugin.
const PLUGIN_ID: &str = "order of keys";

impl Plugin for KeyOrder {
    fn debug_name(&self) -> &'static str {
        PLUGIN_ID
    }

    fn input_hook(&mut self, ctx: &Context, input: &mut RawInput) {
        self.held.extend(input.events.drain(..));
        input.events = self.next(ctx.text_edit_focused());
    }

    fn on_end_pass(&mut self, ui: &mut Ui) {
        if !self.held.is_empty() {
            ui.ctx().request_repaint();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(key: Key, modifiers: Modifiers) -> Event {
        Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers }
    }

    fn text(text: &str) -> Event {
        Event::Text(text.to_owned())
    }

    fn click() -> Event {
        Event::PointerButton {
            pos: egui::Pos2::ZERO,
            button: egui::PointerButton::Primary,
            pressed: true,
            modifiers: Modifiers::NONE,
        }
    }

    /// The frames in which some events are given out; an empty one is a frame between.
    fn frames(events: &[Event], is_typing: bool) -> Vec<Vec<Event>> {
        let mut order = KeyOrder { held: events.iter().cloned().collect(), has_acted: false };
        let mut frames = Vec::new();
        while !order.held.is_empty() {
            frames.push(order.next(is_typing));
            assert!(frames.len() < 50, "it comes to an end");
        }
        frames
    }

    #[test]
    fn text_goes_before_the_command_behind_it_and_the_command_before_the_text_behind_it() {
        let save = key(Key::S, Modifiers::COMMAND);
        let found = frames(&[text("4"), text("2"), save.clone(), text("7")], true);
        assert_eq!(found, [vec![text("4"), text("2")], vec![save], vec![], vec![text("7")]]);
    }

    #[test]
    fn each_act_has_its_frame_with_its_own_letter() {
        let (h, save) = (key(Key::H, Modifiers::NONE), key(Key::S, Modifiers::COMMAND));
        let found = frames(&[h.clone(), text("h"), save.clone()], false);
        assert_eq!(found, [vec![h, text("h")], vec![], vec![save]]);
        let tab = key(Key::Tab, Modifiers::NONE);
        let found = frames(&[text("1"), tab.clone(), text("2")], true);
        assert_eq!(found, [vec![text("1")], vec![tab], vec![], vec![text("2")]]);
    }

    #[test]
    fn a_click_comes_before_the_text_behind_it_and_clicks_alone_are_left_as_they_are() {
        let found = frames(&[click(), text("5")], false);
        assert_eq!(found, [vec![click()], vec![], vec![text("5")]]);
        let moved = Event::PointerMoved(egui::Pos2::ZERO);
        let drag = [click(), moved.clone(), click(), moved];
        assert_eq!(frames(&drag, false), [drag.to_vec()]);
    }

    #[test]
    fn a_key_held_down_does_not_lag_behind() {
        let held =
            |repeat| Event::Key { key: Key::PageDown, physical_key: None, pressed: true, repeat, modifiers: Modifiers::NONE };
        let events = [held(false), held(true), held(true), held(true)];
        assert_eq!(frames(&events, false), [events.to_vec()]);
        assert_eq!(frames(&[held(false), held(false)], false).len(), 3, "pressed anew");
    }

    #[test]
    fn nothing_is_lost_or_overtaken() {
        let all = [
            text("a"),
            key(Key::Tab, Modifiers::NONE),
            click(),
            key(Key::Z, Modifiers::COMMAND),
            text("z"),
            Event::Paste("1\t2".to_owned()),
            Event::ModifiersChanged(Modifiers::SHIFT),
            key(Key::H, Modifiers::NONE),
            Event::ModifiersChanged(Modifiers::NONE),
            Event::PointerMoved(egui::Pos2::ZERO),
            key(Key::Escape, Modifiers::NONE),
        ];
        for shift in 0..all.len() {
            let mut events = all.to_vec();
            events.rotate_left(shift);
            for is_typing in [false, true] {
                assert_eq!(frames(&events, is_typing).concat(), events);
            }
        }
    }
}
