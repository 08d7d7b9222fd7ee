//! Checks of what framesets are worth: on the sample comparison, and on made-up weights and prices.

use proptest::prelude::*;

use super::*;
use crate::frameset::read_frameset;
use crate::lineup::{Findings, Lineup, read_lineup};
use crate::units::THIN_SPACE;
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
    lineup
}

fn words(lineup: &Lineup) -> PriceAndClimbAnswers {
    let plain = |text: String| text.replace(THIN_SPACE, " ");
    let PriceAndClimbAnswers { lightest, other_ways, cost, climb } = price_and_climb_answers(lineup, &Findings::of(lineup));
    let all = |sentences: Vec<String>| sentences.into_iter().map(plain).collect();
    PriceAndClimbAnswers { lightest: plain(lightest), other_ways: all(other_ways), cost: all(cost), climb: all(climb) }
}

/// The sums by hand: Cob 57 from 54 claimed ± 5 %, one step of × 1.10 ± 0.05, its fork claimed; Longbarn 56 and its fork
/// as weighed to a gram.
#[test]
fn the_guess_leaves_open_which_is_lightest() {
    let lineup = sample(Method::Stated);
    let found = Findings::of(&lineup).lightest.unwrap();
    let (cob, longbarn) = (1710.0 * 1.10 + 480.0, 1805.0 + 560.0);
    assert!((found.difference.value - (longbarn - cob)).abs() < 1e-9, "{found:?}");
    let claimed = |grams: f64| grams * 0.025;
    let cob_u = (1.10 * claimed(1710.0)).hypot(1710.0 * 0.025).hypot(claimed(480.0));
    let longbarn_u = (1.0 / 12f64.sqrt()) * 2f64.sqrt();
    assert!((found.difference.u - cob_u.hypot(longbarn_u)).abs() < 1e-6, "{found:?}");
    // Φ(4 / 64.7) = 0.525.
    assert!((found.probability - 0.525).abs() < 5e-4, "{found:?}");
    let said = words(&lineup);
    assert!(said.lightest.ends_with(
        "E Brackwater Cob 57 at 2361 ± 129 g or D Ellersby Longbarn 56 at 2365.0 ± 0.8 g; 52 chances in 100 that it is E."
    ));
    // Both that may be lightest are told of.
    assert!(said.cost[0].starts_with("E costs 126.00 EUR less than A") && said.cost[0].ends_with("its grams cost nothing."));
    assert!(said.cost[1].contains("1.48 ± 0.13 EUR for each gram saved"), "{said:?}");
    assert!(said.climb[0].starts_with("10 km at 5 % with 150 W take A Marrowby Drift L"), "{said:?}");
    assert!(said.climb[1].starts_with("On the climb E is 61 ± 7 s faster"), "{said:?}");
}

#[test]
fn tube_lengths_change_the_story_and_each_says_what_the_other_would() {
    let (guessed, scaled) = (words(&sample(Method::Stated)), words(&sample(Method::TubeLengths)));
    assert_eq!(
        scaled.lightest,
        "With other sizes by tube lengths, E Brackwater Cob 57 is the lightest frameset: 2238 ± 92 g. The next, \
         D Ellersby Longbarn 56, is 127 ± 92 g heavier; that is sure to 99.7 %."
    );
    assert_eq!(
        guessed.other_ways,
        ["By tube lengths it would be E Brackwater Cob 57, 127 ± 92 g before D; that is sure to 99.7 %."]
    );
    assert!(scaled.other_ways[0].starts_with("By the stated factor 1.10 (each size step) nobody could tell"), "{scaled:?}");
    assert_eq!((guessed.cost.len(), scaled.cost.len()), (2, 1));
    assert_ne!(guessed.climb, scaled.climb);
    // What the other way would say is what is said once it counts.
    let found = Findings::of(&sample(Method::TubeLengths)).lightest.unwrap();
    assert!((found.difference.value - 127.0).abs() < 0.5 && (found.probability - 0.997).abs() < 5e-4, "{found:?}");
}

#[test]
fn another_way_that_says_the_same_says_so_and_an_untyped_guess_says_nothing() {
    let mut lineup = sample(Method::Stated);
    lineup.settings.weight.factor = Some(1.03);
    let said = words(&lineup);
    assert!(said.lightest.contains("E Brackwater Cob 57 is the lightest"), "{said:?}");
    assert!(said.other_ways[0].starts_with("By tube lengths it would be the same, E Brackwater Cob 57"), "{said:?}");
    let mut untyped = sample(Method::TubeLengths);
    for factor in [None, Some(1.0)] {
        untyped.settings.weight.factor = factor;
        assert_eq!(words(&untyped).other_ways, Vec::<String>::new());
    }
}

/// Own, by hand: 0.5 kg of 100 kg is 0.5 %.
#[test]
fn half_a_kilogram_of_a_hundred() {
    let lineup = framesets(&[(4000.0, Some("600")), (3500.0, Some("850"))]);
    let findings = Findings::of(&lineup);
    assert_eq!(findings.price_and_climb[0].whole_kg, Some(100.0), "70 + 15 + 11 + 4");
    assert_eq!(findings.price_and_climb[0].share_percent.map(|share| share.value), Some(4.0));
    let against = findings.price_and_climb[1].against.as_ref().unwrap();
    assert!((against.whole_percent.value + 0.5).abs() < 1e-12);
    let said = words(&lineup);
    assert!(
        said.cost[0].starts_with("B costs 250.00 EUR more than A and is 500 ± 4 g lighter: 0.50 ± 0.00 EUR for each gram"),
        "{said:?}"
    );
    assert!(said.climb[1].ends_with("the whole is 0.500 ± 0.004 % lighter."), "{said:?}");
}

#[test]
fn within_the_plus_minus_there_is_neither_price_nor_time() {
    let lineup = framesets(&[(3500.0, Some("600")), (3497.0, Some("850"))]);
    let against = Findings::of(&lineup).price_and_climb[1].against.clone().unwrap();
    assert!(!against.mass.is_clear() && against.climb.is_none() && against.per_gram.is_none());
    let said = words(&lineup);
    assert!(said.lightest.starts_with("As published, nobody can tell which frameset is lightest"), "{said:?}");
    assert!(said.cost[0].ends_with("(−3 ± 4 g), so no gram has a price."), "{said:?}");
    assert!(said.climb[1].starts_with("B cannot be told from A on the climb"), "{said:?}");
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
    assert_eq!(own.offer.set.as_ref().unwrap_err().to_string(), "not stated: the fork has no price");
    let found = findings.lightest.unwrap();
    assert_eq!((found.frame, found.next), (0, None), "the only frameset");
}

#[test]
fn what_is_missing_is_said() {
    let lineup = framesets(&[(3500.0, Some("600")), (0.0, Some("850")), (3000.0, None)]);
    let findings = Findings::of(&lineup);
    assert!(findings.price_and_climb[1].against.is_none() && findings.price_and_climb[1].share_percent.is_none());
    let sentence = |place| cost_sentence(&lineup, &findings, place).unwrap();
    assert_eq!(sentence(1), "B: without both weights no gram has a price.");
    assert_eq!(sentence(2), "C: the set’s price is not stated.");
    assert_eq!(climb_sentence(&lineup, &findings, 1).unwrap(), "B: no time on the climb, the frameset's weight is not stated.");
    let none = framesets(&[(0.0, None)]);
    assert!(words(&none).lightest.contains("no shown frameset’s weight is stated"));
    assert_eq!(words(&Lineup::default()).cost, Vec::<String>::new());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_heavier_frameset_never_climbs_faster(light in 1500.0..5000.0f64, more in 0.0..3000.0f64) {
        let findings = Findings::of(&framesets(&[(light, None), (light + more, None)]));
        let seconds = |place: usize| findings.price_and_climb[place].climb.as_ref().unwrap().value;
        prop_assert!(seconds(1) >= seconds(0));
        let against = findings.price_and_climb[1].against.as_ref().unwrap();
        prop_assert_eq!(against.climb.is_some(), against.mass.is_clear());
        if let Some(time) = against.climb {
            prop_assert!(time.value > 0.0 && time.u > 0.0);
        }
    }
}
