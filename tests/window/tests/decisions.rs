//! What the user decides about published figures: used anyway, ignored, measured, stated by the maker; and what Check shows
//! of what is perhaps wrong.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

mod driving;

use driving::{Driven, click, control, enter, press, sample, type_over, window_on};
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::frameset::{Figure, FigureUse, Frameset, OwnMeasurement, Stated};

/// The sample whose size L, the fourth, has a misprinted wheelbase.
fn quern() -> Driven {
    window_on(&[sample("quern-halter.frame.ron")])
}

fn frameset(harness: &Driven) -> &Frameset {
    &harness.state().lineup().frames[0].frameset
}

fn wheelbase_use(harness: &Driven) -> FigureUse {
    frameset(harness).sizes[3].figure_use(Figure::Wheelbase).expect("published")
}

fn undo(harness: &mut Driven) {
    press(harness, Modifiers::COMMAND, Key::Z);
}

fn redo(harness: &mut Driven) {
    press(harness, Modifiers { shift: true, ..Modifiers::COMMAND }, Key::Z);
}

fn is_set(harness: &Driven, name: &str) -> bool {
    control(harness, name).accesskit_node().toggled() == Some(egui::accesskit::Toggled::True)
}

const AGREE: &str = "Use if the others agree: wheelbase, size L";
const ANYWAY: &str = "Use it anyway: wheelbase, size L";
const IGNORE: &str = "Ignore it: wheelbase, size L";
const REASON: &str = "Reason for ignoring wheelbase, size L";
const VALUE: &str = "Measured wheelbase, size L";
const SPREAD: &str = "± of measured wheelbase, size L";

/// The choices about the misprint, in each view that has them.
fn views() -> [Driven; 2] {
    let mut in_check = quern();
    click(&mut in_check, "Check");
    let mut in_table = quern();
    click(&mut in_table, "Frameset");
    control(&in_table, "Wheelbase, size L").focus();
    in_table.run();
    in_table.run();
    [in_check, in_table]
}

#[test]
fn a_published_figure_is_used_anyway_or_ignored_and_undo_takes_it_back() {
    for mut harness in views() {
        assert!(is_set(&harness, AGREE) && !is_set(&harness, ANYWAY) && !is_set(&harness, IGNORE));
        let before = frameset(&harness).clone();
        click(&mut harness, ANYWAY);
        assert_eq!(wheelbase_use(&harness), FigureUse::Anyway);
        undo(&mut harness);
        assert_eq!(*frameset(&harness), before);
        redo(&mut harness);
        assert_eq!(wheelbase_use(&harness), FigureUse::Anyway);
        undo(&mut harness);
        click(&mut harness, IGNORE);
        assert_eq!(wheelbase_use(&harness), FigureUse::Ignored(String::new()));
        undo(&mut harness);
        enter(&mut harness, REASON, "differs from the drawing");
        assert_eq!(wheelbase_use(&harness), FigureUse::Ignored("differs from the drawing".to_owned()));
        undo(&mut harness);
        assert_eq!(*frameset(&harness), before);
    }
}

#[test]
fn what_is_set_shows_and_is_taken_back_at_the_figure() {
    let [_, mut harness] = views();
    click(&mut harness, IGNORE);
    assert!(is_set(&harness, IGNORE) && !is_set(&harness, AGREE));
    assert!(harness.query_all_by_label_contains("ignored").count() >= 1, "in its cell");
    enter(&mut harness, REASON, "from an older table");
    assert!(harness.query_all_by_label_contains("Ignored: from an older table.").count() >= 1);
    click(&mut harness, ANYWAY);
    assert!(is_set(&harness, ANYWAY));
    assert_eq!(wheelbase_use(&harness), FigureUse::Anyway);
    assert!(harness.query_all_by_label_contains("used anyway").count() >= 1, "in its cell");
    click(&mut harness, AGREE);
    assert_eq!(wheelbase_use(&harness), FigureUse::AsOthersAgree);
}

#[test]
fn a_measurement_with_its_spread_stands_beside_the_published_figure() {
    for mut harness in views() {
        let before = frameset(&harness).clone();
        let measured = |h: &Driven| frameset(h).sizes[3].measured.get(&Figure::Wheelbase).copied();
        enter(&mut harness, VALUE, "106,0 cm");
        assert_eq!(measured(&harness), Some(OwnMeasurement { value: 1060.0, plus_minus: 2.0 }));
        enter(&mut harness, SPREAD, "1.5");
        assert_eq!(measured(&harness), Some(OwnMeasurement { value: 1060.0, plus_minus: 1.5 }));
        assert_eq!(frameset(&harness).sizes[3].figures[&Figure::Wheelbase], 1071.0, "kept beside it");
        click(&mut harness, "Remove the measured wheelbase, size L");
        assert_eq!(measured(&harness), None);
        undo(&mut harness);
        assert!(measured(&harness).is_some());
        undo(&mut harness);
        undo(&mut harness);
        assert_eq!(*frameset(&harness), before);
        // The spread may be entered first.
        enter(&mut harness, SPREAD, "3");
        enter(&mut harness, VALUE, "1060");
        assert_eq!(measured(&harness), Some(OwnMeasurement { value: 1060.0, plus_minus: 3.0 }));
        type_over(&mut harness, VALUE, "");
        press(&mut harness, Modifiers::NONE, Key::Backspace);
        press(&mut harness, Modifiers::NONE, Key::Enter);
        assert_eq!(measured(&harness), None, "an empty field drops it");
    }
}

#[test]
fn what_cannot_be_measured_is_said_at_the_field() {
    let [_, mut harness] = views();
    let before = frameset(&harness).clone();
    type_over(&mut harness, VALUE, "106");
    assert!(harness.query_all_by_label_contains("is outside").count() >= 1);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    for spread in ["0", "51", "-2", "some"] {
        type_over(&mut harness, SPREAD, spread);
        assert!(harness.query_all_by_label_contains("the ± must be above 0 and at most 50").count() >= 1, "{spread}");
        press(&mut harness, Modifiers::NONE, Key::Escape);
    }
    assert_eq!(*frameset(&harness), before);
}

#[test]
fn in_inches_a_measurement_is_shown_and_entered_in_inches() {
    let [_, mut harness] = views();
    click(&mut harness, "in, lb");
    assert_eq!(control(&harness, SPREAD).value().as_deref(), Some("0.0787"));
    enter(&mut harness, VALUE, "41.75");
    enter(&mut harness, SPREAD, "0.1");
    let measured = frameset(&harness).sizes[3].measured[&Figure::Wheelbase];
    assert_eq!((measured.value, measured.plus_minus), (1060.45, 2.54));
    assert_eq!(control(&harness, VALUE).value().as_deref(), Some("41.75"));
}

#[test]
fn the_keyboard_leads_to_the_choices_of_a_figure_and_back() {
    let [mut in_check, mut in_table] = views();
    press(&mut in_table, Modifiers::COMMAND, Key::M);
    in_table.run();
    assert!(control(&in_table, AGREE).accesskit_node().is_focused());
    press(&mut in_table, Modifiers::NONE, Key::Tab);
    press(&mut in_table, Modifiers::NONE, Key::Space);
    assert_eq!(wheelbase_use(&in_table), FigureUse::Anyway);
    press(&mut in_table, Modifiers::NONE, Key::Escape);
    in_table.run();
    assert!(control(&in_table, "Wheelbase, size L").accesskit_node().is_focused());
    press(&mut in_check, Modifiers::COMMAND, Key::M);
    in_check.run();
    assert!(control(&in_check, AGREE).accesskit_node().is_focused());
    // From any other view, the choices are those of Check.
    let mut harness = quern();
    press(&mut harness, Modifiers::COMMAND, Key::M);
    harness.run();
    assert_eq!(harness.state().view_label(), "Check");
    assert!(control(&harness, AGREE).accesskit_node().is_focused());
}

#[test]
fn what_a_maker_states_is_chosen_once_and_undone() {
    let mut harness = quern();
    click(&mut harness, "Frameset");
    let stated = |h: &Driven| frameset(h).stated.clone();
    let before = stated(&harness);
    assert!(!before.contains(&Stated::ChainstayAlong));
    let choice = "Stated by the maker: chainstay along the stay";
    click(&mut harness, choice);
    assert!(stated(&harness).contains(&Stated::ChainstayAlong) && is_set(&harness, choice));
    undo(&mut harness);
    assert_eq!(stated(&harness), before);
    redo(&mut harness);
    click(&mut harness, choice);
    assert_eq!(stated(&harness), before);
}

#[test]
fn possible_errors_are_drawn_both_ways_the_best_first() {
    let mut harness = quern();
    click(&mut harness, "Check");
    let drawing = |h: &Driven| {
        let node = h.get_by_role(egui::accesskit::Role::GraphicsDocument);
        node.accesskit_node().description().unwrap_or_default()
    };
    let told = drawing(&harness);
    assert!(
        told.contains("as published: wheelbase 1071") && told.contains("as the other figures give it: wheelbase 1059.9"),
        "{told}"
    );
    let lines: Vec<String> = harness
        .query_all_by_role(egui::accesskit::Role::ListItem)
        .filter_map(|n| n.accesskit_node().label())
        .filter(|l| l.contains("\u{a0}%)"))
        .collect();
    assert!(lines[0].starts_with("L: wheelbase 1071 is probably a misprint"), "{lines:?}");
    let chances: Vec<u32> = lines
        .iter()
        .map(|l| l.split("\u{a0}%)").next().and_then(|b| b.rsplit('(').next()).and_then(|n| n.parse().ok()).expect("a chance"))
        .collect();
    assert!(chances.is_sorted_by(|a, b| a >= b), "{chances:?}");
}

/// One size in which either wheelbase or chainstay is wrong.
const SHARED_DOUBT: &str = "#![enable(implicit_some)]
Frameset(
    format: 2, maker: \"Quern\", model: \"Single\", rounded_to: (mm: 1, deg: 0.5), tyre: \"47-622\",
    sizes: [(label: \"M\", figures: {
        Stack: 581, Reach: 381, EffectiveTopTube: 553, HeadAngle: 71, SeatAngle: 73.5, HeadTube: 156, SeatTube: 480,
        AxleToCrown: 401, ForkOffset: 50, Chainstay: 445, BbDrop: 72, Wheelbase: 1061, FrontCentre: 613, Trail: 71,
    })],
)";

#[test]
fn the_keyboard_chooses_which_possible_error_is_drawn_and_decided_about() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("single.frame.ron");
    std::fs::write(&file, SHARED_DOUBT).unwrap();
    let mut harness = window_on(&[file]);
    click(&mut harness, "Check");
    let line = |h: &Driven, figure: &str| {
        let lines = h.query_all_by_role(egui::accesskit::Role::ListItem).filter_map(|n| n.accesskit_node().label());
        lines.into_iter().find(|l| l.contains("\u{a0}%)") && l.starts_with(&format!("M: {figure}"))).expect("a possible error")
    };
    for (figure, other) in [("wheelbase", "chainstay"), ("chainstay", "wheelbase")] {
        let name = line(&harness, figure);
        control(&harness, &name).focus();
        harness.run();
        harness.run();
        let told =
            harness.get_by_role(egui::accesskit::Role::GraphicsDocument).accesskit_node().description().unwrap_or_default();
        assert!(told.contains(&format!("as published: {figure}")) && !told.contains(other), "{told}");
        assert!(!is_set(&harness, &format!("Ignore it: {figure}, size M")));
    }
    click(&mut harness, "Ignore it: chainstay, size M");
    assert_eq!(frameset(&harness).sizes[0].figure_use(Figure::Chainstay), Some(FigureUse::Ignored(String::new())));
}
