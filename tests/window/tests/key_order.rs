//! Several keys, letters and clicks in one frame do what they do one after the other, in the order in which they came.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

mod driving;

use driving::{Driven, click, control, press, sample, window_on, window_on_three};
use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::Queryable;
use spandrel::frameset::Figure;
use spandrel::lineup::{Lineup, read_lineup};

fn key(modifiers: Modifiers, key: Key) -> Event {
    Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers }
}

fn typed(text: &str) -> Vec<Event> {
    text.chars().map(|c| Event::Text(c.to_string())).collect()
}

/// Gives the window all these events in one frame, and runs it until it rests.
fn at_once(harness: &mut Driven, events: Vec<Event>) {
    harness.input_mut().events.extend(events);
    harness.run();
}

/// Every order of these.
fn orders<T: Clone>(of: &[T]) -> Vec<Vec<T>> {
    if of.is_empty() {
        return vec![Vec::new()];
    }
    let begun_with = |i: usize| {
        let mut rest = of.to_vec();
        let first = rest.remove(i);
        orders(&rest).into_iter().map(move |order| [vec![first.clone()], order].concat())
    };
    (0..of.len()).flat_map(begun_with).collect()
}

#[test]
fn commands_of_one_frame_are_done_in_every_order() {
    let keys = [
        (Modifiers::NONE, Key::H),
        (Modifiers::NONE, Key::PageDown),
        (Modifiers::ALT, Key::ArrowRight),
        (Modifiers::COMMAND, Key::Z),
    ];
    let mut outcomes = Vec::new();
    for order in orders(&keys) {
        let (mut together, mut apart) = (window_on_three(), window_on_three());
        at_once(&mut together, order.iter().map(|(m, k)| key(*m, *k)).collect());
        for (modifiers, key) in &order {
            press(&mut apart, *modifiers, *key);
        }
        assert!(together.state().lineup() == apart.state().lineup(), "{order:?}");
        assert_eq!(together.state().selected(), apart.state().selected(), "{order:?}");
        outcomes.push(format!("{:?}", together.state().lineup()));
    }
    outcomes.sort();
    outcomes.dedup();
    assert!(outcomes.len() > 2, "the order matters");
}

/// The window on a copy of the sample comparison, and how its file reads now.
fn window_on_a_file(folder: &tempfile::TempDir) -> (Driven, impl Fn() -> Lineup + use<>) {
    let path = folder.path().join("own.lineup.ron");
    std::fs::copy(sample("village-library.lineup.ron"), &path).unwrap();
    let harness = window_on(std::slice::from_ref(&path));
    (harness, move || read_lineup(&std::fs::read(&path).unwrap()).unwrap())
}

#[test]
fn an_edit_before_saving_is_saved_and_one_behind_it_is_not() {
    let folder = tempfile::tempdir().unwrap();
    let (mut harness, saved) = window_on_a_file(&folder);
    let before = saved();
    let (h, save) = (key(Modifiers::NONE, Key::H), key(Modifiers::COMMAND, Key::S));
    at_once(&mut harness, vec![h.clone(), Event::Text("h".to_owned()), save.clone()]);
    assert_ne!(saved().frames[0].shown, before.frames[0].shown);
    assert!(!harness.state().is_unsaved());
    at_once(&mut harness, vec![save, h, Event::Text("h".to_owned())]);
    assert_ne!(saved().frames[0].shown, before.frames[0].shown);
    assert!(harness.state().is_unsaved());
}

/// Puts the keyboard into a field that waits for Enter, and selects what it says.
fn in_the_field(harness: &mut Driven) {
    click(harness, "Price and climb");
    control(harness, "Rider, kg").focus();
    harness.run();
    press(harness, Modifiers::COMMAND, Key::A);
}

#[test]
fn what_is_typed_before_a_command_is_entered_before_it() {
    let save = key(Modifiers::COMMAND, Key::S);
    let folder = tempfile::tempdir().unwrap();
    let (mut harness, saved) = window_on_a_file(&folder);
    in_the_field(&mut harness);
    at_once(&mut harness, [typed("71"), vec![save.clone()]].concat());
    assert_eq!(saved().settings.price_and_climb.rider_kg, 71.0);
    // The keyboard stays in the field, and what is typed behind the command goes on there.
    press(&mut harness, Modifiers::COMMAND, Key::A);
    at_once(&mut harness, [typed("72"), vec![save.clone()], typed("9"), vec![key(Modifiers::NONE, Key::Escape)]].concat());
    assert_eq!(saved().settings.price_and_climb.rider_kg, 72.0);
    assert_eq!(harness.state().lineup().settings.price_and_climb.rider_kg, 72.0, "Escape drops what was typed behind it");
    // Going to another view enters it too.
    in_the_field(&mut harness);
    at_once(&mut harness, [typed("75"), vec![key(Modifiers::COMMAND, Key::Num1)]].concat());
    assert_eq!(harness.state().lineup().settings.price_and_climb.rider_kg, 75.0);
    assert_eq!(harness.state().view_label(), "Outline");
}

#[test]
fn what_cannot_be_read_is_told_and_stays_in_the_field() {
    let folder = tempfile::tempdir().unwrap();
    let (mut harness, saved) = window_on_a_file(&folder);
    let before = saved().settings.price_and_climb.rider_kg;
    in_the_field(&mut harness);
    at_once(&mut harness, [typed("7o"), vec![key(Modifiers::COMMAND, Key::S)]].concat());
    assert_eq!(saved().settings.price_and_climb.rider_kg, before);
    assert!(harness.state().status().contains("“7o”"), "{}", harness.state().status());
    assert_eq!(control(&harness, "Rider, kg").value().as_deref(), Some("7o"));
}

#[test]
fn tab_between_letters_parts_them() {
    let mut harness = window_on_three();
    in_the_field(&mut harness);
    let tab = key(Modifiers::NONE, Key::Tab);
    let back = key(Modifiers::SHIFT, Key::Tab);
    at_once(&mut harness, [typed("81"), vec![tab, back, key(Modifiers::COMMAND, Key::A)], typed("82")].concat());
    assert_eq!(harness.state().lineup().settings.price_and_climb.rider_kg, 81.0, "entered by Tab");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(harness.state().lineup().settings.price_and_climb.rider_kg, 82.0);
}

#[test]
fn a_click_and_letters_in_one_frame_reach_the_field() {
    let mut harness = window_on_three();
    click(&mut harness, "Price and climb");
    let pos = control(&harness, "Rider, kg").rect().center();
    let button =
        |pressed| Event::PointerButton { pos, button: egui::PointerButton::Primary, pressed, modifiers: Modifiers::NONE };
    let click = vec![Event::PointerMoved(pos), button(true), button(false), key(Modifiers::COMMAND, Key::A)];
    at_once(&mut harness, [click, typed("84"), vec![key(Modifiers::NONE, Key::Enter)]].concat());
    assert_eq!(harness.state().lineup().settings.price_and_climb.rider_kg, 84.0);
}

#[test]
fn letters_behind_a_command_reach_the_field_that_it_opens() {
    for (opens, field) in [
        (key(Modifiers::COMMAND, Key::T), "Title"),
        (key(Modifiers { shift: true, ..Modifiers::COMMAND }, Key::O), "Path"),
        (key(Modifiers { shift: true, ..Modifiers::COMMAND }, Key::V), "Table"),
    ] {
        let mut harness = window_on_three();
        at_once(&mut harness, [vec![opens], typed("heath")].concat());
        let typed = harness.query_all_by_label(field).any(|n| n.value().as_deref() == Some("heath"));
        assert!(typed, "{field}");
        assert!(harness.state().lineup().frames.iter().all(|f| f.shown), "no letter was a command");
    }
}

/// Types a table of a hundred cells, one key a window frame, with `next` in the frame of a cell's last key; gives what
/// differs from what was typed.
fn lost_of_a_hundred_cells(next: Key, by_size: bool) -> Vec<String> {
    let mut harness = window_on(&[sample("marrowby-drift.frame.ron")]);
    click(&mut harness, "Frameset");
    click(&mut harness, "Size S: add, copy, remove");
    click(&mut harness, "Copy this size");
    let sizes: Vec<String> = harness.state().lineup().frames[0].frameset.sizes.iter().map(|s| s.label.clone()).collect();
    let figures: Vec<Figure> = Figure::printable().take(20).collect();
    let mut cells: Vec<(usize, Figure)> =
        figures.iter().flat_map(|figure| (0..sizes.len()).map(|size| (size, *figure))).collect();
    if by_size {
        cells.sort_by_key(|(size, _)| *size);
    }
    assert_eq!(cells.len(), 100);
    // A table that agrees with itself, so that little has to be explained at each key.
    let estimated = spandrel::geometry::adjust(&harness.state().lineup().frames[0].frameset);
    let value = |size: usize, figure: Figure| {
        let (low, high) = (figure.about().low, figure.about().high);
        (estimated.sizes[size].value(figure).value.clamp(low, high) * 2.0).round() / 2.0
    };
    for (place, (size, figure)) in cells.iter().enumerate() {
        if place == 0 || (by_size && cells[place - 1].0 != *size) {
            harness.run();
            let name = format!("{}, size {}", figure.label(), sizes[*size]);
            control(&harness, &name).focus();
            harness.run();
        }
        let text = value(*size, *figure).to_string();
        for (at, letter) in text.chars().enumerate() {
            harness.input_mut().events.push(Event::Text(letter.to_string()));
            if at + 1 == text.len() {
                harness.input_mut().events.push(key(Modifiers::NONE, next));
            }
            harness.step();
        }
    }
    harness.run();
    let frameset = &harness.state().lineup().frames[0].frameset;
    let lost = cells.iter().filter_map(|(size, figure)| {
        let found = frameset.sizes[*size].figures.get(figure).copied();
        (found != Some(value(*size, *figure))).then(|| format!("{} {}: {found:?}", figure.label(), sizes[*size]))
    });
    lost.collect()
}

#[test]
fn no_key_of_a_hundred_cells_is_lost_with_tab_in_the_frame_of_the_last_digit() {
    assert_eq!(lost_of_a_hundred_cells(Key::Tab, false), Vec::<String>::new());
}

#[test]
fn no_key_of_a_hundred_cells_is_lost_with_enter_which_goes_to_the_figure_below() {
    assert_eq!(lost_of_a_hundred_cells(Key::Enter, true), Vec::<String>::new());
}
