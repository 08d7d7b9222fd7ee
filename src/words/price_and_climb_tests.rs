//! Checks of price and climb in words: on the sample comparison, and on made-up weights and prices.

use proptest::prelude::*;

use super::*;
use crate::frameset::read_frameset;
use crate::frameset::{FrameIndex, Part};
use crate::lineup::{Findings, Lineup, read_lineup};
use crate::money::NotPriced;
use crate::units::{NO_BREAK_SPACE, THIN_SPACE};
use crate::weight::Method;

fn sample(method: Method) -> Lineup {
    let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
    lineup.settings.weight.method = method;
    lineup.settings.weight.factor = Some(1.1);
    lineup
}

/// Framesets weighed to 5 g, each with its price where it has one.
fn framesets(of: &[(f64, Option<&str>)]) -> Lineup {
    let mut lineup = Lineup::default();
    for (grams, price) in of {
        let price = price.map_or_else(String::new, |amount| {
            format!("prices: [(part: Frameset, amount: \"{amount}\", currency: \"EUR\", tax: Included)],")
        });
        let weight = if *grams > 0.0 {
            format!("weights: [(part: Frameset, size: \"L\", grams: {grams}, from: Weighed(to: 5))],")
        } else {
            String::new()
        };
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Ellersby\", model: \"Longbarn\", {weight} {price}
             sizes: [(label: \"L\", figures: {{Stack: 610}})])"
        );
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
    }
    // The user's own frames, so that none is a specimen of others.
    lineup.frames.iter_mut().for_each(|entry| entry.weight_choices.frameset.own_frame = true);
    lineup
}

fn words(lineup: &Lineup) -> PriceAndClimbAnswers {
    let plain = |text: String| text.replace([THIN_SPACE, NO_BREAK_SPACE], " ");
    let PriceAndClimbAnswers { lightest, ways, cost, climb } = price_and_climb_answers(lineup, &Findings::of(lineup));
    let all = |sentences: Vec<String>| sentences.into_iter().map(plain).collect();
    PriceAndClimbAnswers { lightest: plain(lightest), ways: all(ways), cost: all(cost), climb: all(climb) }
}

fn all(lineup: &Lineup) -> String {
    let said = words(lineup);
    std::iter::once(said.lightest).chain(said.ways).chain(said.cost).chain(said.climb).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_sample_in_sentences() {
    insta::assert_snapshot!(all(&sample(Method::TubeLengths)), @"
    E Brackwater Cob 57 is the lightest frameset: 2238 ± 92 g. D Ellersby Longbarn 56 is next, 127 ± 100 g heavier (99.4 % certain).
    Weights of other sizes are converted from tube lengths.
    By your factor, 1.10 per size, E and D are too close to call: they differ by 4 ± 135 g.
    E is lighter and cheaper than A: 1553 ± 123 g and 126.00 EUR less.
    A Marrowby Drift L takes 1 h 08 min 44 s for 10 km at 5 % with 150 W. Its frameset is 3.80 ± 0.08 % of the loaded total, 99.8 kg.
    E is 59 ± 5 s faster than A on the climb: its loaded total is 1.56 ± 0.12 % lighter.
    ");
    insta::assert_snapshot!(all(&sample(Method::YourFactor)), @"
    Too close to call: the lightest frameset is E Brackwater Cob 57, 2361 ± 129 g, or D Ellersby Longbarn 56, 2365 ± 38 g. E has a 52 % chance.
    Weights of other sizes are converted by your factor, 1.10 per size.
    From tube lengths, E Brackwater Cob 57 is the lightest: 127 ± 100 g lighter than D (99.4 % certain).
    E is lighter and cheaper than A: 1598 ± 148 g and 126.00 EUR less.
    D is 1594 ± 154 g lighter than A and costs 2362.64 EUR more: 1.48 ± 0.14 EUR for each gram saved.
    A Marrowby Drift L takes 1 h 08 min 51 s for 10 km at 5 % with 150 W. Its frameset is 3.96 ± 0.14 % of the loaded total, 100.0 kg.
    E is 61 ± 6 s faster than A on the climb: its loaded total is 1.60 ± 0.15 % lighter.
    D is 61 ± 6 s faster than A on the climb: its loaded total is 1.59 ± 0.15 % lighter.
    ");
    let mut inches = sample(Method::TubeLengths);
    inches.settings.units = crate::units::System::Imperial;
    let text = all(&inches);
    insta::assert_snapshot!(text, @"
    E Brackwater Cob 57 is the lightest frameset: 4.9 ± 0.2 lb. D Ellersby Longbarn 56 is next, 0.3 ± 0.2 lb heavier (99.4 % certain).
    Weights of other sizes are converted from tube lengths.
    By your factor, 1.10 per size, E and D are too close to call: they differ by 0.0 ± 0.3 lb.
    E is lighter and cheaper than A: 3.4 ± 0.3 lb and 126.00 EUR less.
    A Marrowby Drift L takes 1 h 08 min 44 s for 6.21 mi at 5 % with 150 W. Its frameset is 3.80 ± 0.08 % of the loaded total, 220.0 lb.
    E is 59 ± 5 s faster than A on the climb: its loaded total is 1.56 ± 0.12 % lighter.
    ");
    let is_metric = |word: &str| ["g", "kg", "km", "mm", "m"].contains(&word.trim_matches([',', '.', ':', ')']));
    assert!(!text.split(' ').any(is_metric), "{text}");
    let gears = |lineup: &Lineup| gear_sentences(lineup, &Findings::of(lineup)).join("\n").replace(THIN_SPACE, " ");
    insta::assert_snapshot!(gears(&sample(Method::TubeLengths)), @"
    Gears are worked out with the rear wheel of A Marrowby Drift L and a loaded total of 99.8 kg.
    “one ring” climbs the steepest gradient: 7.07 ± 0.10 % at 70 rpm and 150 W, in a gear with 1.572 ± 0.018 m of development.
    ");
    insta::assert_snapshot!(gears(&inches), @"
    Gears are worked out with the rear wheel of A Marrowby Drift L and a loaded total of 220.0 lb.
    “one ring” climbs the steepest gradient: 7.07 ± 0.10 % at 70 rpm and 150 W, in a gear with 5.16 ± 0.06 ft of development.
    ");
}

/// Every turn of the sentence on price and weight: lighter or heavier, dearer or cheaper or alike.
#[test]
fn each_turn_of_price_and_weight_has_its_sentence() {
    let prices = ["600", "850", "350"];
    let mut sentences = Vec::new();
    for grams in [3500.0, 4500.0, 4001.0] {
        for price in prices {
            let lineup = framesets(&[(4000.0, Some("600")), (grams, Some(price))]);
            sentences.extend(cost_sentence(&lineup, &Findings::of(&lineup), FrameIndex(1)));
        }
    }
    insta::assert_snapshot!(sentences.join("\n").replace([THIN_SPACE, NO_BREAK_SPACE], " "), @r"
    B is 500 ± 4 g lighter than A, at the same price.
    B is 500 ± 4 g lighter than A and costs 250.00 EUR more: 0.50 EUR for each gram saved.
    B is lighter and cheaper than A: 500 ± 4 g and 250.00 EUR less.
    B is 500 ± 4 g heavier than A, at the same price.
    B is heavier and dearer than A: 500 ± 4 g and 250.00 EUR more.
    B is cheaper but heavier than A: 250.00 EUR less, 500 ± 4 g more.
    B costs as much as A. Their weights show no clear difference: +1 ± 4 g.
    B costs 250.00 EUR more than A. Their weights show no clear difference: +1 ± 4 g.
    B costs 250.00 EUR less than A. Their weights show no clear difference: +1 ± 4 g.
    ");
}

#[test]
fn the_tables_follow_the_units() {
    let table = |units| {
        let mut lineup = sample(Method::TubeLengths);
        lineup.settings.units = units;
        for (place, frame) in lineup.frames.iter_mut().enumerate() {
            frame.shown = [0, 4].contains(&place);
        }
        let findings = Findings::of(&lineup);
        let tables = [price_and_climb_table(&lineup, &findings), gears_table(&lineup, &findings, FrameIndex(0))];
        tables.map(|t| t.as_text()).join("\n").replace([THIN_SPACE, NO_BREAK_SPACE], " ").replace('\t', " | ")
    };
    insta::assert_snapshot!(table(crate::units::System::Metric), @"
    Price and climb | A Marrowby Drift L | E Brackwater Cob 57
    Price, frame, with tax | not published | not published
    Price, fork, with tax | not published | not published
    Price, frameset, with tax | 585.00 EUR | 459.00 EUR
    Weight, frameset | 3792 ± 81 g | 2238 ± 92 g
    Weight difference from A | reference | −1553 ± 123 g
    Price per gram saved | reference | lighter and cheaper
    Another is lighter and cheaper | yes | no
    Loaded total | 99.79 ± 0.08 kg | 98.24 ± 0.09 kg
    Share of loaded total | 3.80 ± 0.08 % | 2.28 ± 0.09 %
    Loaded total, difference from A | reference | −1.55 ± 0.12 kg (−1.56 ± 0.12 %)
    Time of the climb | 1 h 08 min 44 s | 1 h 07 min 45 s
    Climb, difference from A | reference | −59 ± 5 s
    Front derailleur mount | 28.6 clamp | braze-on
    Development, one ring | 1.572 ± 0.018 to 7.14 ± 0.08 m | 1.449 ± 0.013 to 6.58 ± 0.06 m
    Development, two rings | 1.90 ± 0.02 to 9.25 ± 0.11 m | 1.754 ± 0.015 to 8.52 ± 0.07 m
    Gears on A | one ring | two rings
    Chainrings | 34 | 44, 28
    Sprockets | 11, 13, 15, 17, 20, 23, 27, 32, 38, 44, 50 | 11, 12, 14, 16, 18, 20, 23, 26, 30, 34
    Range | 455 % | 486 %
    Different gears | 11 | 20
    Lowest development | 1.572 ± 0.018 m | 1.90 ± 0.02 m
    Highest development | 7.14 ± 0.08 m | 9.25 ± 0.11 m
    Lowest gear at 70 rpm | 6.60 ± 0.08 km/h | 8.00 ± 0.09 km/h
    Highest gear at 70 rpm | 30.0 ± 0.3 km/h | 38.8 ± 0.4 km/h
    Steepest gradient at 150 W | 7.07 ± 0.10 % | 5.60 ± 0.08 %
    ");
    insta::assert_snapshot!(table(crate::units::System::Imperial), @"
    Price and climb | A Marrowby Drift L | E Brackwater Cob 57
    Price, frame, with tax | not published | not published
    Price, fork, with tax | not published | not published
    Price, frameset, with tax | 585.00 EUR | 459.00 EUR
    Weight, frameset | 8.36 ± 0.18 lb | 4.9 ± 0.2 lb
    Weight difference from A | reference | −3.4 ± 0.3 lb
    Price per ounce saved | reference | lighter and cheaper
    Another is lighter and cheaper | yes | no
    Loaded total | 220.00 ± 0.18 lb | 216.6 ± 0.2 lb
    Share of loaded total | 3.80 ± 0.08 % | 2.28 ± 0.09 %
    Loaded total, difference from A | reference | −3.4 ± 0.3 lb (−1.56 ± 0.12 %)
    Time of the climb | 1 h 08 min 44 s | 1 h 07 min 45 s
    Climb, difference from A | reference | −59 ± 5 s
    Front derailleur mount | 28.6 clamp | braze-on
    Development, one ring | 5.16 ± 0.06 to 23.4 ± 0.3 ft | 4.75 ± 0.04 to 21.60 ± 0.19 ft
    Development, two rings | 6.25 ± 0.07 to 30.3 ± 0.3 ft | 5.76 ± 0.05 to 28.0 ± 0.2 ft
    Gears on A | one ring | two rings
    Chainrings | 34 | 44, 28
    Sprockets | 11, 13, 15, 17, 20, 23, 27, 32, 38, 44, 50 | 11, 12, 14, 16, 18, 20, 23, 26, 30, 34
    Range | 455 % | 486 %
    Different gears | 11 | 20
    Lowest development | 5.16 ± 0.06 ft | 6.25 ± 0.07 ft
    Highest development | 23.4 ± 0.3 ft | 30.3 ± 0.3 ft
    Lowest gear at 70 rpm | 4.10 ± 0.05 mph | 4.97 ± 0.06 mph
    Highest gear at 70 rpm | 18.6 ± 0.2 mph | 24.1 ± 0.3 mph
    Steepest gradient at 150 W | 7.07 ± 0.10 % | 5.60 ± 0.08 %
    ");
}

/// By hand: Cob 57 from 54 claimed ± 5 %, one step of × 1.10 ± 0.05, its fork claimed; Longbarn 56 and its fork
/// as weighed to a gram.
#[test]
fn the_guess_leaves_open_which_is_lightest() {
    let lineup = sample(Method::YourFactor);
    let found = Findings::of(&lineup).lightest.unwrap();
    let (cob, longbarn) = (1710.0 * 1.10 + 480.0, 1805.0 + 560.0);
    assert!((found.difference.value - (longbarn - cob)).abs() < 1e-9, "{found:?}");
    let claimed = |grams: f64| grams * 0.025;
    let cob_u = (1.10 * claimed(1710.0)).hypot(1710.0 * 0.025).hypot(claimed(480.0));
    // Each was weighed as one specimen of many, which differ by 1 %.
    let longbarn_u = (1.0 / 12f64.sqrt()).hypot(18.05).hypot((1.0 / 12f64.sqrt()).hypot(5.60));
    assert!((found.difference.u - cob_u.hypot(longbarn_u)).abs() < 1e-6, "{found:?}");
    // Φ(4 / 67.4) = 0.524.
    assert!((found.probability - 0.524).abs() < 5e-4, "{found:?}");
    let said = words(&lineup);
    assert_eq!(
        said.lightest,
        "Too close to call: the lightest frameset is E Brackwater Cob 57, 2361 ± 129 g, or D Ellersby Longbarn 56, \
         2365 ± 38 g. E has a 52 % chance."
    );
    // Both that may be lightest are told of.
    assert!(said.cost[0].starts_with("E is lighter and cheaper than A") && said.cost[0].contains("126.00 EUR less"), "{said:?}");
    assert!(said.cost[1].contains("1.48 ± 0.14 EUR for each gram saved"), "{said:?}");
    assert!(said.climb[0].contains("for 10 km at 5 % with 150 W."), "{said:?}");
    assert!(said.climb[1].starts_with("E is 61 ± 6 s faster than A on the climb"), "{said:?}");
}

#[test]
fn tube_lengths_change_the_story_and_each_says_what_the_other_would() {
    let (guessed, scaled) = (words(&sample(Method::YourFactor)), words(&sample(Method::TubeLengths)));
    assert_eq!(
        scaled.lightest,
        "E Brackwater Cob 57 is the lightest frameset: 2238 ± 92 g. D Ellersby Longbarn 56 is next, 127 ± 100 g heavier \
         (99.4 % certain)."
    );
    assert_eq!(
        guessed.ways,
        [
            "Weights of other sizes are converted by your factor, 1.10 per size.",
            "From tube lengths, E Brackwater Cob 57 is the lightest: 127 ± 100 g lighter than D (99.4 % certain)."
        ]
    );
    assert!(scaled.ways[1].starts_with("By your factor, 1.10 per size, E and D are too close to call"), "{scaled:?}");
    assert_eq!((guessed.cost.len(), scaled.cost.len()), (2, 1));
    assert_ne!(guessed.climb, scaled.climb);
    // What the other way would say is what is said once it counts.
    let found = Findings::of(&sample(Method::TubeLengths)).lightest.unwrap();
    assert!((found.difference.value - 127.0).abs() < 0.5 && (found.probability - 0.994).abs() < 5e-4, "{found:?}");
}

#[test]
fn another_way_that_says_the_same_says_so_and_an_untyped_guess_says_nothing() {
    let mut lineup = sample(Method::YourFactor);
    lineup.settings.weight.factor = Some(1.03);
    let said = words(&lineup);
    assert!(said.lightest.contains("E Brackwater Cob 57 is the lightest"), "{said:?}");
    assert!(said.ways[1].starts_with("From tube lengths, E Brackwater Cob 57 is also the lightest"), "{said:?}");
    let mut untyped = sample(Method::TubeLengths);
    for factor in [None, Some(1.0)] {
        untyped.settings.weight.factor = factor;
        assert_eq!(words(&untyped).ways, ["Weights of other sizes are converted from tube lengths."]);
    }
}

/// Own, by hand: 0.5 kg of 100 kg is 0.5 %.
#[test]
fn half_a_kilogram_of_a_hundred() {
    let lineup = framesets(&[(4000.0, Some("600")), (3500.0, Some("850"))]);
    let findings = Findings::of(&lineup);
    assert_eq!(findings.price_and_climb[0].loaded.map(|total| total.value), Some(100_000.0), "70 + 15 + 11 + 4");
    assert_eq!(findings.price_and_climb[0].share_percent.map(|share| share.value), Some(4.0));
    let against = findings.price_and_climb[1].against.as_ref().unwrap();
    assert!((against.whole_percent.value + 0.5).abs() < 1e-12);
    let said = words(&lineup);
    assert!(
        said.cost[0].starts_with("B is 500 ± 4 g lighter than A and costs 250.00 EUR more: 0.50 EUR for each gram"),
        "{said:?}"
    );
    assert!(said.climb[1].ends_with("its loaded total is 0.500 ± 0.004 % lighter."), "{said:?}");
}

#[test]
fn within_the_plus_minus_there_is_neither_price_nor_time() {
    let lineup = framesets(&[(3500.0, Some("600")), (3497.0, Some("850"))]);
    let against = Findings::of(&lineup).price_and_climb[1].against.clone().unwrap();
    assert!(!against.mass.is_clear() && against.climb.is_none() && against.per_gram.is_none());
    let said = words(&lineup);
    assert!(said.lightest.starts_with("Too close to call") && said.ways.is_empty(), "{said:?}");
    assert!(said.cost[0].ends_with("Their weights show no clear difference: −3 ± 4 g."), "{said:?}");
    assert!(said.climb[1].starts_with("B and A show no clear difference on the climb"), "{said:?}");
}

/// One that publishes its frame alone is not set against a frameset, however light.
#[test]
fn a_frame_is_never_compared_with_a_frameset() {
    let mut lineup = framesets(&[(3500.0, Some("600"))]);
    let bare = "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Quern\", model: \"Halter\",
        weights: [(part: Frame, size: \"L\", grams: 1800, from: Weighed(to: 5))],
        prices: [(part: Frame, amount: \"300\", currency: \"EUR\", tax: Included)],
        sizes: [(label: \"L\", figures: {Stack: 610})])";
    lineup.add(read_frameset(bare.as_bytes()).unwrap(), None);
    let findings = Findings::of(&lineup);
    let own = &findings.price_and_climb[1];
    assert!(own.against.is_none() && own.is_unbeaten.is_none() && own.share_percent.is_none() && own.climb.is_err());
    assert_eq!(own.offer.set, Err(NotPriced::PartNotPublished(Part::Fork)));
    let found = findings.lightest.unwrap();
    assert_eq!((found.frame, found.next), (FrameIndex(0), None), "the only frameset");
}

#[test]
fn what_is_missing_is_said() {
    let lineup = framesets(&[(3500.0, Some("600")), (0.0, Some("850")), (3000.0, None)]);
    let findings = Findings::of(&lineup);
    assert!(findings.price_and_climb[1].against.is_none() && findings.price_and_climb[1].share_percent.is_none());
    let sentence = |place| cost_sentence(&lineup, &findings, place).unwrap();
    assert_eq!(sentence(FrameIndex(1)), "B: the price per gram saved is unknown (needs both weights).");
    assert_eq!(sentence(FrameIndex(2)), "C has no price to compare: the price is not published.");
    let climb = climb_sentence(&lineup, &findings, FrameIndex(1)).unwrap();
    assert_eq!(climb, "B: the time of the climb is unknown (needs the frameset’s weight).");
    let none = framesets(&[(0.0, None)]);
    assert!(words(&none).lightest == "No weight of a shown frameset is published.");
    assert_eq!(words(&Lineup::default()).cost, Vec::<String>::new());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_heavier_frameset_never_climbs_faster(light in 1500.0..5000.0f64, more in 0.0..3000.0f64) {
        let findings = Findings::of(&framesets(&[(light, None), (light + more, None)]));
        let seconds = |place: FrameIndex| findings.price_and_climb[place].climb.as_ref().unwrap().value;
        prop_assert!(seconds(FrameIndex(1)) >= seconds(FrameIndex(0)));
        let against = findings.price_and_climb[1].against.as_ref().unwrap();
        prop_assert_eq!(against.climb.is_some(), against.mass.is_clear());
        if let Some(time) = against.climb {
            prop_assert!(time.value > 0.0 && time.u > 0.0);
        }
    }
}
