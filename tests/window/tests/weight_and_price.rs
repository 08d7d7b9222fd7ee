//! Weights, money, the climb and gears, by the names of their controls.

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

use driving::{Driven, click, enter, press, sample, window_of_size};
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use spandrel::frameset::{Part, Tax};
use spandrel::lineup::{Findings, PartWeight, Settings, read_lineup, write_lineup};
use spandrel::weight::{Amount, Method, PartWeightChoices, Per, What};

/// High enough for the whole panel to be in sight.
fn library() -> Driven {
    window_of_size(&[sample("village-library.lineup.ron")], 1280.0, 2200.0)
}

/// The same with a factor of 1.10 typed, which counts.
fn guessing_library() -> Driven {
    let mut harness = library();
    click(&mut harness, "Weight");
    enter(&mut harness, "Weight factor", "1.10");
    click(&mut harness, "your factor");
    harness
}

fn settings(harness: &Driven) -> Settings {
    harness.state().lineup().settings.clone()
}

fn weight_choices(harness: &Driven, part: Part) -> PartWeightChoices {
    harness.state().lineup().frames[0].weight_choices.part(part).clone()
}

/// What the drawing in front says, in sentences.
fn told(harness: &Driven) -> String {
    told_of(harness, |_| true)
}

/// What those drawings say that are wanted by their words.
fn told_of(harness: &Driven, is_wanted: impl Fn(&str) -> bool) -> String {
    let drawings = harness.query_all_by_role(egui::accesskit::Role::GraphicsDocument);
    let words = drawings.filter_map(|n| n.accesskit_node().data().description().map(str::to_owned));
    let words: Vec<String> = words.filter(|words| is_wanted(words)).collect();
    words.join(" ").replace(['\u{2009}', '\u{a0}'], " ")
}

/// The weight of the first frame's frame.
fn drift(harness: &Driven) -> PartWeight {
    Findings::of(harness.state().lineup()).frames[0].weights.frame.clone().unwrap()
}

fn undo(harness: &mut Driven) {
    press(harness, Modifiers::COMMAND, Key::Z);
}

#[test]
fn one_screen_answers_and_the_story_changes_with_the_way_to_the_size() {
    let mut harness = guessing_library();
    click(&mut harness, "Price and climb");
    let guessed = told(&harness);
    assert!(
        guessed.contains("Too close to call: the lightest frameset is E") && guessed.contains("by your factor, 1.10 per size."),
        "{guessed}"
    );
    assert!(guessed.contains("Nothing shown is both lighter and cheaper than D."), "{guessed}");
    click(&mut harness, "from tube lengths");
    assert_eq!(settings(&harness).weight.method, Method::TubeLengths);
    let scaled = told(&harness);
    assert!(scaled.contains("E Brackwater Cob 57 is the lightest frameset: 2238 ± 92 g"), "{scaled}");
    assert!(scaled.contains("(99.4 % certain)"), "{scaled}");
    assert!(scaled.contains("EUR for each gram saved") && scaled.contains("10 km at 5 %"), "{scaled}");
    assert!(!scaled.contains("Nothing shown is both lighter and cheaper than D."), "{scaled}");
    undo(&mut harness);
    assert_eq!(told(&harness), guessed);
}

#[test]
fn rider_and_climb_are_typed_and_slips_change_nothing() {
    let mut harness = library();
    click(&mut harness, "Price and climb");
    let before = settings(&harness).price_and_climb;
    for (field, text) in [
        ("Rider, kg", "7"),
        ("Luggage, kg", "-3"),
        ("Other parts, kg", "heavy"),
        ("Length, km", "0"),
        ("Gradient, %", "80"),
        ("Power, W", "nan"),
        ("Drag area CdA, m²", "45"),
        ("Rolling resistance", "1"),
        ("Drivetrain efficiency", "97"),
        ("Cadence, rpm", "700"),
        ("Build 1: chainrings", "340"),
        ("Build 1: sprockets", "11-x"),
        ("Build 1: name", " "),
    ] {
        enter(&mut harness, field, text);
        assert_eq!(settings(&harness).price_and_climb, before, "{field}: {text}");
    }
    enter(&mut harness, "Rider, kg", "82,5");
    enter(&mut harness, "Length, km", "12");
    enter(&mut harness, "Gradient, %", "7.5");
    enter(&mut harness, "Power, W", "180");
    enter(&mut harness, "Drag area CdA, m²", "0,5");
    enter(&mut harness, "Head wind, m/s", "−2");
    let worth = settings(&harness).price_and_climb;
    assert_eq!((worth.rider_kg, worth.climb.length_km, worth.climb.gradient_percent), (82.5, 12.0, 7.5));
    assert_eq!((worth.climb.power_w, worth.conditions.drag_area_m2, worth.conditions.head_wind_m_s), (180.0, 0.5, -2.0));
    assert!(told(&harness).contains("for 12 km at 7.5 % with 180 W."), "{}", told(&harness));
    for _ in 0..6 {
        undo(&mut harness);
    }
    assert_eq!(settings(&harness).price_and_climb, before);
}

#[test]
fn with_inches_chosen_riding_is_typed_and_refused_in_pounds_miles_and_mph() {
    let mut harness = library();
    click(&mut harness, "in, lb");
    click(&mut harness, "Price and climb");
    let before = settings(&harness).price_and_climb;
    refusal(&mut harness, "Rider, lb", "15", "a rider of 15 lb is outside 44.1 to 551.2 lb");
    refusal(&mut harness, "Length, mi", "200", "a length of 200 mi is outside 0.1 to 124.3 mi");
    assert_eq!(settings(&harness).price_and_climb, before);
    enter(&mut harness, "Rider, lb", "154");
    enter(&mut harness, "Length, mi", "6");
    enter(&mut harness, "Head wind, mph", "10");
    let riding = settings(&harness).price_and_climb;
    assert_eq!((riding.rider_kg, riding.climb.length_km, riding.conditions.head_wind_m_s), (69.8532, 9.6561, 4.4704));
    let value = driving::control(&harness, "Rider, lb").accesskit_node().value().unwrap_or_default();
    assert_eq!(value, "154");
    assert!(told(&harness).contains("for 6 mi at 5 % with 150 W."), "{}", told(&harness));
    // A build names axles and clamps, which are in mm in every shop.
    let riding = told_of(&harness, |words| !words.contains("Listed parts that cannot be used"));
    for metric in [" kg", " km", " mm"] {
        assert!(!riding.contains(metric), "{metric}: {riding}");
    }
}

#[test]
fn gears_stand_side_by_side() {
    let mut harness = library();
    click(&mut harness, "Price and climb");
    enter(&mut harness, "Build 1: chainrings", "38");
    enter(&mut harness, "Build 1: sprockets", "10-12-14-17-20-24-28-34-42-52");
    assert_eq!(settings(&harness).price_and_climb.builds[0].cogs.last(), Some(&52));
    let said = told(&harness);
    assert!(said.contains("Range: one ring 520 %; two rings 486 %"), "{said}");
    assert!(said.contains("“two rings” needs a front derailleur.") || said.contains("climbs the steepest gradient"), "{said}");
    click(&mut harness, "Add a build");
    assert_eq!(settings(&harness).price_and_climb.builds.len(), 3);
    click(&mut harness, "Remove build 2");
    assert_eq!(settings(&harness).price_and_climb.builds.len(), 2);
    undo(&mut harness);
    assert_eq!(settings(&harness).price_and_climb.builds.len(), 3);
}

#[test]
fn money_is_typed_with_its_rates_and_their_days() {
    let mut harness = library();
    click(&mut harness, "Price and climb");
    let before = settings(&harness).money;
    for (field, text) in [
        ("Currency shown", "EURO"),
        ("Currency shown", "XQX"),
        ("Your tax rate, %", "0.19"),
        ("Your tax rate, %", "190"),
        ("Exchange rate 1", "1 EUR = 0 GBP, 2026-10-12"),
        ("Exchange rate 1", "1 EUR = 0.87"),
        ("New exchange rate", "1 EUR = 1.15 USD, 12.10.2026"),
    ] {
        enter(&mut harness, field, text);
        assert_eq!(settings(&harness).money, before, "{field}: {text}");
    }
    // Without the rate the price is asked for, not guessed.
    click(&mut harness, "Remove exchange rate 1");
    assert!(told(&harness).contains("needs an exchange rate from GBP to EUR"), "{}", told(&harness));
    enter(&mut harness, "New exchange rate", "1 GBP = 1,15 EUR, 2026-10-30");
    assert_eq!(settings(&harness).money.rates[0].text(), "1 GBP = 1.15 EUR, 2026-10-30");
    click(&mut harness, "Prices shown");
    click(&mut harness, "without tax");
    assert_eq!(settings(&harness).money.tax, Tax::Excluded);
    assert!(told(&harness).contains("Price, frameset, without tax: A Marrowby Drift L 491.60 EUR"), "{}", told(&harness));
    driving::control(&harness, "Your tax rate, %").focus();
    harness.run();
    press(&mut harness, Modifiers::COMMAND, Key::A);
    press(&mut harness, Modifiers::NONE, Key::Delete);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(settings(&harness).money.tax_percent, None);
    assert!(told(&harness).contains("Enter your tax rate"), "{}", told(&harness));
    for _ in 0..4 {
        undo(&mut harness);
    }
    assert_eq!(settings(&harness).money, before);
}

#[test]
fn ways_stand_side_by_side_and_each_weight_may_go_its_own() {
    let mut harness = guessing_library();
    let grams = |h: &Driven| drift(h).mass.value;
    let guessed = grams(&harness);
    assert!((guessed - 2733.5).abs() < 1e-9, "2485 g × 1.10");
    for range in ["2734 ± 136 g, +10 ± 5 %", "2567 ± 53 g, +3.3 ± 0.5 %"] {
        let thin = range.replace(" ± ", "\u{2009}±\u{2009}").replace(" g,", "\u{2009}g,").replace(" %", "\u{a0}%");
        harness.get_by_label(&thin);
    }
    harness.get_by_label_contains("Not possible: weights of fewer than two sizes are published.");
    harness.get_by_label_contains("They clearly differ, by");
    click(&mut harness, "Frame: from tube lengths");
    assert_eq!(weight_choices(&harness, Part::Frame).method, Some(Method::TubeLengths));
    assert!(grams(&harness) < guessed - 100.0);
    click(&mut harness, "Frame: use the method for all");
    assert_eq!(grams(&harness), guessed);
    enter(&mut harness, "Frame: factor", "+5 %");
    assert!((grams(&harness) - 2485.0 * 1.05).abs() < 1e-9);
    undo(&mut harness);
    enter(&mut harness, "Weight factor", "1.08");
    click(&mut harness, "in total");
    assert_eq!((settings(&harness).weight.factor, settings(&harness).weight.per), (Some(1.08), Per::All));
    enter(&mut harness, "± of the factor", "0.02");
    enter(&mut harness, "± of claimed weights, %", "60");
    enter(&mut harness, "Fixed parts, g", "450");
    enter(&mut harness, "± of fixed parts, g", "100");
    let weight = settings(&harness).weight;
    assert_eq!((weight.factor_plus_minus, weight.claimed_percent), (Some(0.02), 5.0));
    assert_eq!((weight.fixed_grams, weight.fixed_plus_minus), (Some(450.0), 100.0));
}

#[test]
fn what_is_unlikely_is_asked_about_and_a_no_changes_nothing() {
    let mut harness = library();
    click(&mut harness, "Weight");
    enter(&mut harness, "Weight factor", "10");
    assert_eq!(settings(&harness).weight.factor, None, "10 is asked about");
    click(&mut harness, "No: Weight factor");
    assert_eq!(settings(&harness).weight.factor, None);
    enter(&mut harness, "Weight factor", "12");
    harness.get_by_label_contains("Do you mean 12\u{a0}%, a factor of 1.12?");
    click(&mut harness, "Yes: Weight factor");
    assert_eq!(settings(&harness).weight.factor, Some(1.12));
    let grams = |h: &Driven| h.state().lineup().frames[0].frameset.weights[0].grams;
    for text in ["0", "-2485", "heavy", "20 kg"] {
        enter(&mut harness, "Frame: published, g", text);
        assert_eq!(grams(&harness), 2485.0, "{text}");
    }
    enter(&mut harness, "Frame: published, g", "9000");
    assert_eq!(grams(&harness), 2485.0, "asked about");
    harness.get_by_label_contains("is heavier than 8\u{a0}kg. Is that right?");
    click(&mut harness, "No: Frame: published, g");
    enter(&mut harness, "Frame: published, g", "450");
    click(&mut harness, "Yes: Frame: published, g");
    assert_eq!(grams(&harness), 450.0);
    undo(&mut harness);
    enter(&mut harness, "Frame: published, g", "2.65 kg");
    assert_eq!(grams(&harness), 2650.0);
}

#[test]
fn a_ledger_is_kept_line_by_line_and_saved() {
    let mut harness = library();
    click(&mut harness, "Weight");
    let before = harness.state().lineup().clone();
    click(&mut harness, "Frame: add a line");
    click(&mut harness, "seat clamp");
    enter(&mut harness, "Frame line 1: g", "−28");
    enter(&mut harness, "Frame line 1: ±", "5");
    let lines = weight_choices(&harness, Part::Frame).lines;
    assert_eq!((lines[0].amount, lines[0].plus_minus), (Amount::Grams(-28.0), 5.0));
    for (field, text) in [("Frame line 1: g", "0"), ("Frame line 1: g", "9000"), ("Frame line 1: ±", "-1")] {
        enter(&mut harness, field, text);
        assert_eq!(weight_choices(&harness, Part::Frame).lines, lines, "{field}: {text}");
    }
    click(&mut harness, "Fork: add a line");
    click(&mut harness, "steerer");
    enter(&mut harness, "Fork line 1: mm", "-90");
    enter(&mut harness, "Fork line 1: g/mm", "1,1");
    assert!((weight_choices(&harness, Part::Fork).lines[0].amount.grams() + 99.0).abs() < 1e-9);
    click(&mut harness, "Fork: add a line");
    click(&mut harness, "another item");
    enter(&mut harness, "Fork line 2: what", "bottle bosses");
    assert_eq!(weight_choices(&harness, Part::Fork).lines[1].what, What::Other("bottle bosses".to_owned()));
    enter(&mut harness, "Fork: ± of published, g", "30");
    assert_eq!(weight_choices(&harness, Part::Fork).plus_minus, Some(30.0));
    let workings = harness.query_all_by_label_contains("; − seat clamp 28\u{2009}g = 2539\u{2009}g");
    assert!(workings.count() > 0);
    let saved = write_lineup(harness.state().lineup()).unwrap();
    assert_eq!(&read_lineup(saved.as_bytes()).unwrap(), harness.state().lineup());
    click(&mut harness, "Remove fork line 1");
    assert_eq!(weight_choices(&harness, Part::Fork).lines.len(), 1);
    for _ in 0..30 {
        undo(&mut harness);
    }
    assert_eq!(harness.state().lineup(), &before);
}

#[test]
fn an_unknown_currency_is_not_taken_for_a_price() {
    let mut harness = library();
    click(&mut harness, "Frameset");
    let published = "Also published: 2 weights, 1 price, 17 standards, 2 sources";
    click(&mut harness, published);
    let currency = |h: &Driven| h.state().lineup().frames[0].frameset.prices[0].currency.clone();
    enter(&mut harness, "currency", "QQQ");
    assert_eq!(currency(&harness), "EUR");
    enter(&mut harness, "currency", "chf");
    assert_eq!(currency(&harness), "CHF");
}

/// Types into a field and enters it; what it says about what is not valid. The text stays to be mended until Escape.
fn refusal(harness: &mut Driven, field: &str, text: &str, sentence: &str) {
    enter(harness, field, text);
    let said: Vec<_> = harness.query_all_by_label_contains(sentence).collect();
    assert_eq!(said.len(), 1, "{field}: {text}: {sentence}");
    drop(said);
    let value = driving::control(harness, field).accesskit_node().value().unwrap_or_default();
    assert_eq!(value, text, "{field} keeps what was typed");
    press(harness, Modifiers::NONE, Key::Escape);
    assert!(harness.query_by_label_contains(sentence).is_none(), "{field}: gone with Escape");
    let value = driving::control(harness, field).accesskit_node().value().unwrap_or_default();
    assert_ne!(value, text, "{field} says again what counts");
}

#[test]
fn what_is_not_valid_is_said_at_its_field_and_stays_to_be_mended() {
    let mut harness = library();
    click(&mut harness, "Price and climb");
    let before = harness.state().lineup().clone();
    for (field, text, sentence) in [
        ("Rider, kg", "7", "a rider of 7 kg is outside 20 to 250 kg"),
        ("Other parts, kg", "heavy", "“heavy” is not a number"),
        ("Gradient, %", "80", "a gradient of 80 % is outside −25 to 40 %"),
        ("Currency shown", "EURO", "“EURO” is not a currency code of ISO 4217: write three letters"),
        ("Your tax rate, %", "0.19", "looks like a fraction: for 19 % write 19"),
        ("Exchange rate 1", "1 EUR = 0.87", "“1 EUR = 0.87” is not an exchange rate"),
        ("New exchange rate", "1 EUR = 1 EUR, 2026-10-12", "an exchange rate needs two different currencies"),
        ("Build 1: chainrings", "340", "340 teeth are outside 9 to 60"),
        ("Build 2: sprockets", "11-x", "is not a number of teeth"),
    ] {
        refusal(&mut harness, field, text, sentence);
    }
    click(&mut harness, "Weight");
    for (field, text, sentence) in [
        ("Frame: published, g", "0", "the weight of a frame must be above 0"),
        ("Frame: published, g", "-2600", "the weight of a frame must be above 0"),
        ("Fork: ± of published, g", "-4", "a ± is from 0 to 5000\u{a0}g"),
        ("Weight factor", "60", "a factor of 60.00 is outside 0.5 to 2: write a factor such as 1.10"),
        ("± of claimed weights, %", "60", "is outside 0 to 50"),
    ] {
        refusal(&mut harness, field, text, sentence);
    }
    assert_eq!(harness.state().lineup(), &before);
    // Mended in place, the value is taken.
    enter(&mut harness, "± of claimed weights, %", "60");
    enter(&mut harness, "± of claimed weights, %", "6");
    assert_eq!(settings(&harness).weight.claimed_percent, 6.0);
}

/// A frameset with two weights of its frame, a fork weighed with its axle and an uncut steerer.
const LADEN: &str = "#![enable(implicit_some)]
Frameset(
    format: 1, maker: \"Ellersby\", model: \"Longbarn\", small_parts: {Axle: 62},
    fork: (material: Steel, steerer: (length: 300, grams_per_mm: 1.07)), printed_to: (mm: 1, deg: 0.1),
    weights: [
        (part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5)),
        (part: Frame, size: \"XL\", grams: 2740, from: Claimed),
        (part: Fork, grams: 1370, from: Claimed, with: [Axle]),
    ],
    sizes: [
        (label: \"M\", figures: {Stack: 610, Reach: 390, HeadAngle: 71, SeatAngle: 73, HeadTube: 140, SeatTube: 480,
            ForkLengthAlong: 420, ForkOffset: 48, Chainstay: 445, BbDrop: 65}),
        (label: \"L\", figures: {Stack: 629, Reach: 400, HeadAngle: 71, SeatAngle: 73, HeadTube: 160, SeatTube: 510,
            ForkLengthAlong: 420, ForkOffset: 48, Chainstay: 445, BbDrop: 65}),
        (label: \"XL\", figures: {Stack: 648, Reach: 410, HeadAngle: 71, SeatAngle: 73, HeadTube: 180, SeatTube: 540,
            ForkLengthAlong: 420, ForkOffset: 48, Chainstay: 445, BbDrop: 65}),
    ],
)";

#[test]
fn what_was_weighed_with_it_is_offered_and_two_weights_make_a_line() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("laden.frame.ron");
    std::fs::write(&file, LADEN).unwrap();
    let mut harness = window_of_size(&[file], 1280.0, 1600.0);
    click(&mut harness, "Weight");
    let fork = |h: &Driven| Findings::of(h.state().lineup()).frames[0].weights.fork.clone().unwrap().mass.value;
    assert_eq!(fork(&harness), 1370.0, "nothing is taken off unasked");
    click(&mut harness, "Subtract the axle: −62\u{2009}±\u{2009}2\u{2009}g");
    assert_eq!(fork(&harness), 1308.0);
    let steerer = weight_choices(&harness, Part::Fork);
    assert_eq!(steerer.lines[0].what, What::Small(spandrel::frameset::SmallPart::Axle));
    // Between the weighed sizes, half way from M to XL.
    click(&mut harness, "Frame: between weighed sizes");
    assert!((drift(&harness).mass.value - 2670.0).abs() < 1e-9, "{:?}", drift(&harness).rows);
    click(&mut harness, "Frame based on");
    click(&mut harness, "2740\u{2009}g (XL, claimed)");
    assert_eq!(weight_choices(&harness, Part::Frame).start_from, Some(1));
    click(&mut harness, "Frame: your factor");
    enter(&mut harness, "Frame: factor", "1.04");
    assert!((drift(&harness).mass.value - 2740.0 / 1.04).abs() < 1e-9, "one size down is divided");
    for _ in 0..5 {
        undo(&mut harness);
    }
    assert_eq!(harness.state().lineup().frames[0].weight_choices, spandrel::lineup::WeightChoices::default());
}
