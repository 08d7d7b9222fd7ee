//! Checks of weights and prices in words: every note, every reason, every step.

use super::*;
use crate::frameset::{FrameIndex, Part, SizeIndex, SmallPart, Tax, Tube, read_frameset};
use crate::lineup::{Findings, Lineup, WeightChoices};
use crate::money::{ChargeStep, Money, MoneyError, NotPriced, Rate};
use crate::units::{Measured, NO_BREAK_SPACE, System, THIN_SPACE};
use crate::weight::{
    Amount, Disagreement, Line, Method, NoWay, WeighedFrame, WeightNote, WeightSettings, Weights, What, weights,
};

const STEEL: &str = "#![enable(implicit_some)]
Frameset(format: 1, maker: \"Ellersby\", model: \"Longbarn\", tubing: (material: Steel), fork: (material: Steel), weights: [
    (part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5)), (part: Frame, size: \"XL\", grams: 2740, from: Claimed),
    (part: Fork, size: \"M\", grams: 1370, from: Claimed)],
    sizes: [
    (label: \"M\", figures: {Stack: 610, Reach: 390, HeadAngle: 71, SeatAngle: 73, HeadTube: 140, SeatTube: 480,
        ForkLengthAlong: 420, ForkOffset: 48, Chainstay: 445, BbDrop: 65}),
    (label: \"L\", figures: {Stack: 629, Reach: 400, HeadAngle: 71, SeatAngle: 73, HeadTube: 160, SeatTube: 510,
        ForkLengthAlong: 420, ForkOffset: 48, Chainstay: 445, BbDrop: 65}),
    (label: \"XL\", figures: {Stack: 648, Reach: 410, HeadAngle: 71, SeatAngle: 73, HeadTube: 180, SeatTube: 540,
        ForkLengthAlong: 420, ForkOffset: 48, Chainstay: 445, BbDrop: 65})])";

fn plain(text: &str) -> String {
    text.replace([THIN_SPACE, NO_BREAK_SPACE], " ")
}

fn found(method: Method, weight_choices: &WeightChoices) -> (crate::frameset::Frameset, Weights) {
    let frameset = read_frameset(STEEL.as_bytes()).unwrap();
    let adjusted = crate::geometry::adjust(&frameset);
    let settings = WeightSettings { factor: Some(1.10), method, ..WeightSettings::default() };
    let found =
        weights(&WeighedFrame { frameset: &frameset, adjusted: &adjusted, size: SizeIndex(1), weight_choices }, &settings);
    (frameset, found)
}

#[test]
fn workings_name_each_step_in_the_units_shown() {
    let mut weight_choices = WeightChoices::default();
    weight_choices.frame.lines = vec![
        Line { what: What::Small(SmallPart::SeatClamp), amount: Amount::Grams(-30.0), plus_minus: 12.0 },
        Line { what: What::Other("decals".to_owned()), amount: Amount::Grams(4.0), plus_minus: 0.0 },
    ];
    let of = |units| {
        let all = Method::ALL.map(|method| {
            let (frameset, found) = found(method, &weight_choices);
            [Part::Frameset, Part::Fork].map(|part| weight_steps(units, &frameset, &found, part).join("; ")).join("\n")
        });
        plain(&all.join("\n"))
    };
    insta::assert_snapshot!(of(System::Metric), @"
    2600 g (M, weighed) × 1.10 = 2860 g (L, estimate); − seat clamp 30 g = 2830 g; + decals 4 g = 2834 g; with the 1391 g fork: 4225 g
    1370 g (M, claimed) + 21 g for 20 mm of steerer = 1391 g (L, estimate)
    2600 g (M, weighed) + 67 ± 11 g from tube lengths = 2667 g (L, estimate); − seat clamp 30 g = 2637 g; + decals 4 g = 2641 g; with the 1391 g fork: 4032 g
    1370 g (M, claimed) + 21 g for 20 mm of steerer = 1391 g (L, estimate)
    on the line from 2600 g (M) to 2740 g (XL): 2670 g (L, estimate); − seat clamp 30 g = 2640 g; + decals 4 g = 2644 g; with the 1391 g fork: 4035 g
    1370 g (M, claimed) + 21 g for 20 mm of steerer = 1391 g (L, estimate)
    ");
    insta::assert_snapshot!(of(System::Imperial), @"
    5.73 lb (M, weighed) × 1.10 = 6.31 lb (L, estimate); − seat clamp 0.07 lb = 6.24 lb; + decals 0.01 lb = 6.25 lb; with the 3.07 lb fork: 9.32 lb
    3.02 lb (M, claimed) + 0.05 lb for 0.8 in of steerer = 3.07 lb (L, estimate)
    5.73 lb (M, weighed) + 0.15 ± 0.02 lb from tube lengths = 5.88 lb (L, estimate); − seat clamp 0.07 lb = 5.81 lb; + decals 0.01 lb = 5.82 lb; with the 3.07 lb fork: 8.89 lb
    3.02 lb (M, claimed) + 0.05 lb for 0.8 in of steerer = 3.07 lb (L, estimate)
    on the line from 5.73 lb (M) to 6.04 lb (XL): 5.89 lb (L, estimate); − seat clamp 0.07 lb = 5.82 lb; + decals 0.01 lb = 5.83 lb; with the 3.07 lb fork: 8.90 lb
    3.02 lb (M, claimed) + 0.05 lb for 0.8 in of steerer = 3.07 lb (L, estimate)
    ");
    let (frameset, found) = found(Method::TubeLengths, &weight_choices);
    let frame = found.frame.unwrap();
    let labels: Vec<String> = frame.rows.iter().map(|row| row_label(System::Metric, &frameset, &frame, row)).collect();
    assert_eq!(plain(&labels.join("; ")), "2600 g (M, weighed); to L, from tube lengths; seat clamp; decals");
}

#[test]
fn every_note_and_reason_has_its_sentences() {
    let frameset = read_frameset(STEEL.as_bytes()).unwrap();
    let reasons = [
        NoWay::NoFactor,
        NoWay::TubesUnknown { size: SizeIndex(0), tubes: Vec::new() },
        NoWay::TubesUnknown { size: SizeIndex(0), tubes: vec![Tube::TopTube] },
        NoWay::TubesUnknown { size: SizeIndex(1), tubes: vec![Tube::TopTube, Tube::DownTube] },
        NoWay::FixedPartsTooHeavy { fixed: Measured::new(500.0, 75.0) },
        NoWay::NoTubeLength,
        NoWay::HeadTubeUnknown { size: SizeIndex(1) },
        NoWay::FewerThanTwoSizes,
    ];
    let ratio = |value| Measured::new(value, 0.5);
    let notes = [
        WeightNote::Unlikely { part: Part::Frame, mass: Measured::new(9000.0, 1.0), usual: [500.0, 8000.0] },
        WeightNote::OtherWay { chosen: Method::YourFactor, why: NoWay::NoFactor, counts: Method::TubeLengths },
        WeightNote::SizeNotPublished,
        WeightNote::TubesDoNotFit { fixed: Measured::new(500.0, 75.0), times: 2.34 },
        WeightNote::BeyondWeighed { size: SizeIndex(2), weighed: [SizeIndex(0), SizeIndex(1)] },
        WeightNote::WaysDisagree(Disagreement {
            from: SizeIndex(0),
            to: SizeIndex(1),
            by_factor: ratio(10.0),
            by_lengths: ratio(-2.5),
            apart: Measured::new(325.0, 20.0),
        }),
    ];
    let all = |units| {
        let reasons = reasons.iter().map(|why| format!("{}: {}", why.code(), no_way_text(units, &frameset, why)));
        let notes = notes.iter().map(|note| format!("{}: {}", note.code(), note_text(units, &frameset, note)));
        plain(&reasons.chain(notes).collect::<Vec<_>>().join("\n"))
    };
    insta::assert_snapshot!(all(System::Metric), @r"
    no_factor: no factor is entered
    tubes_unknown: too few figures of M are published to draw its tubes
    tubes_unknown: the length of the top tube of M is unknown
    tubes_unknown: the lengths of the top tube and down tube of L are unknown
    fixed_parts_too_heavy: its fixed parts, 500 g, weigh more than the whole
    no_tube_length: its tubes have no length
    head_tube_unknown: the head tube length of L is unknown
    fewer_than_two_sizes: weights of fewer than two sizes are published
    unlikely_weight: A frame of 9000 g is doubtful: most weigh 500 to 8000 g. Check the published weight.
    other_way: Conversion by your factor is not possible: no factor is entered. The weight is converted from tube lengths instead.
    size_not_published: The weighed size is not published. The weight is not converted.
    tubes_do_not_fit: With 500 g of fixed parts, the tubes weigh 2.3 times what is assumed. Check their walls, the material and what was weighed.
    beyond_weighed_sizes: XL is beyond the weighed sizes, M to L. The line is extended.
    ways_disagree: By your factor, L is 10.0 ± 1.0 % heavier than M. From tube lengths, it is 2.5 ± 1.0 % lighter. They clearly differ, by 325 g.
    ");
    insta::assert_snapshot!(all(System::Imperial), @r"
    no_factor: no factor is entered
    tubes_unknown: too few figures of M are published to draw its tubes
    tubes_unknown: the length of the top tube of M is unknown
    tubes_unknown: the lengths of the top tube and down tube of L are unknown
    fixed_parts_too_heavy: its fixed parts, 1.10 lb, weigh more than the whole
    no_tube_length: its tubes have no length
    head_tube_unknown: the head tube length of L is unknown
    fewer_than_two_sizes: weights of fewer than two sizes are published
    unlikely_weight: A frame of 19.84 lb is doubtful: most weigh 1.10 to 17.64 lb. Check the published weight.
    other_way: Conversion by your factor is not possible: no factor is entered. The weight is converted from tube lengths instead.
    size_not_published: The weighed size is not published. The weight is not converted.
    tubes_do_not_fit: With 1.10 lb of fixed parts, the tubes weigh 2.3 times what is assumed. Check their walls, the material and what was weighed.
    beyond_weighed_sizes: XL is beyond the weighed sizes, M to L. The line is extended.
    ways_disagree: By your factor, L is 10.0 ± 1.0 % heavier than M. From tube lengths, it is 2.5 ± 1.0 % lighter. They clearly differ, by 0.72 lb.
    ");
}

#[test]
fn every_step_of_a_price_and_every_reason_has_its_words() {
    let money = |amount: &str, currency: &str| Money::read(amount, currency).unwrap();
    let rate = Rate::read("EUR", "0.86905", "GBP", "2023-12-29").unwrap();
    let nineteen = "19".parse().unwrap();
    let steps = [
        ChargeStep::Published { money: money("1790", "GBP"), tax: Tax::Excluded },
        ChargeStep::TaxAdded { percent: nineteen, money: money("2130.10", "GBP") },
        ChargeStep::TaxTakenOff { percent: nineteen, money: money("100", "GBP") },
        ChargeStep::TaxReplaced { from: "25".parse().unwrap(), to: nineteen, money: money("616.90", "EUR") },
        ChargeStep::Converted { rates: vec![rate], money: money("2451.07", "EUR") },
        ChargeStep::Sum { frame: money("499", "EUR"), fork: money("389", "EUR"), money: money("888", "EUR") },
    ];
    let each: Vec<String> = steps.iter().map(|step| charge_text(std::slice::from_ref(step))).collect();
    insta::assert_snapshot!(plain(&each.join("\n")), @r"
    1790.00 GBP without tax
    plus 19 % tax = 2130.10 GBP
    less 19 % tax = 100.00 GBP
    with 19 % tax instead of 25 % = 616.90 EUR
    converted at 1 EUR = 0.86905 GBP (2023-12-29): 2451.07 EUR
    frame 499.00 EUR + fork 389.00 EUR = 888.00 EUR
    ");
    let pounds = money("100", "GBP");
    let missing = NotPriced::RateMissing { money: pounds, to: iso_currency::Currency::EUR };
    let reasons = [
        NotPriced::NotPublished,
        NotPriced::PartNotPublished(Part::Fork),
        NotPriced::TaxUnknown(pounds),
        NotPriced::TaxRateMissing { money: pounds, tax: Tax::Excluded },
        missing.clone(),
        NotPriced::Part(Part::Frame, Box::new(missing)),
        NotPriced::TooMuch,
        NotPriced::Invalid(MoneyError::Currency("XQX".to_owned())),
    ];
    let each: Vec<String> = reasons.iter().map(|why| format!("{}: {}", why.code(), not_priced_text(why))).collect();
    insta::assert_snapshot!(plain(&each.join("\n")), @r"
    price_not_published: the price is not published
    part_price_not_published: the price of the fork is not published
    tax_unknown: 100.00 GBP is published without saying whether tax is included
    tax_rate_missing: 100.00 GBP is without tax. Enter your tax rate
    exchange_rate_missing: 100.00 GBP needs an exchange rate from GBP to EUR
    exchange_rate_missing: frame 100.00 GBP needs an exchange rate from GBP to EUR
    sum_too_large: the sum of frame and fork is too large
    price_not_valid: “XQX” is not a currency code of ISO 4217: write three letters such as EUR, GBP or USD
    ");
    let each = (money("0.5", "EUR"), money("0.1", "EUR"));
    assert_eq!(plain(&per_gram_text(System::Metric, &each)), "0.50 ± 0.10 EUR/g");
    // Half a euro a gram is 14.17 euros an ounce of 28.35 g.
    assert_eq!(plain(&per_gram_text(System::Imperial, &each)), "14.17 ± 2.83 EUR/oz");
    let cheaper = Money { amount: -each.0.amount, ..each.0 };
    assert_eq!(per_gram_text(System::Metric, &(cheaper, each.1)), "lighter and cheaper");
}

#[test]
fn differences_have_their_per_cent_and_say_whether_they_are_clear() {
    let mut lineup = Lineup::default();
    for grams in [4000.0, 3500.0, 4002.0, 0.0] {
        let weight = format!("weights: [(part: Frameset, size: \"L\", grams: {grams}, from: Weighed(to: 5))],");
        let weight = if grams > 0.0 { weight } else { String::new() };
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Ellersby\", model: \"Longbarn\", {weight}
             sizes: [(label: \"L\", figures: {{Stack: 610}})])"
        );
        lineup.add(read_frameset(text.as_bytes()).unwrap(), None);
    }
    // The user's own frames, so that none is a specimen of others.
    lineup.frames.iter_mut().for_each(|entry| entry.weight_choices.frameset.own_frame = true);
    let findings = Findings::of(&lineup);
    let difference = |place| weight_difference(System::Metric, &findings, place, Part::Frameset);
    let text = |place| difference(place).map(|d| (plain(&d.text), d.is_clear));
    assert_eq!(text(FrameIndex(1)), Some(("−500 ± 4 g (−12.5 %)".to_owned(), true)));
    assert_eq!(text(FrameIndex(2)), Some(("+2 ± 4 g (+0.1 %)".to_owned(), false)));
    assert_eq!((text(FrameIndex(0)), text(FrameIndex(3))), (None, None));
    assert_eq!(weight_text(System::Metric, &findings.frames[3], Part::Frameset), "not published");
    assert_eq!(frameset_workings(System::Metric, &findings.frames[3]), "not published");
}
