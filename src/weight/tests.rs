//! Checks of the ways to another size and of the ledger on made-up framesets.

use proptest::prelude::*;

use super::*;
use crate::frameset::{Frameset, Known, Part, SizeIndex, Weight, read_frameset};
use crate::geometry::adjust;
use crate::units::Measured;

/// Double-butted steel in even steps of +19 mm stack, +10 mm reach and +30 mm seat tube.
pub(super) fn steel(weights: &str, more: &str) -> Frameset {
    let sizes: Vec<String> = ["XS", "S", "M", "L", "XL"]
        .into_iter()
        .zip(0u8..)
        .map(|(label, i)| {
            let n = f64::from(i);
            format!(
                "(label: \"{}\", figures: {{Stack: {}, Reach: {}, HeadAngle: 71, SeatAngle: 73, HeadTube: {}, SeatTube: {},
                  ForkLengthAlong: 420, ForkOffset: 48, Chainstay: 445, BbDrop: 65}})",
                label,
                572.0 + 19.0 * n,
                370.0 + 10.0 * n,
                100.0 + 20.0 * n,
                420.0 + 30.0 * n
            )
        })
        .collect();
    let text = format!(
        "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Marrowby\", model: \"Drift\", tubing: (material: Steel),
         printed_to: (mm: 1, deg: 0.1), weights: [{weights}], {more} sizes: [{}])",
        sizes.join(", ")
    );
    read_frameset(text.as_bytes()).unwrap()
}

pub(super) const TYPICAL: &str = "tube_diameters: {TopTube: 28.6, DownTube: 31.8, SeatTube: 28.6},
    tube_walls: {TopTube: (wall: 0.8, middle: 0.5), DownTube: (wall: 0.8, middle: 0.5), SeatTube: (wall: 0.8, middle: 0.5)},";

pub(super) fn at(frameset: &Frameset, size: &str, weight_choices: &WeightChoices, settings: &WeightSettings) -> Weights {
    let adjusted = adjust(frameset);
    let size = frameset.size_index(size).unwrap();
    weights(&WeighedFrame { frameset, adjusted: &adjusted, size, weight_choices }, settings)
}

fn ways(frameset: &Frameset, size: &str) -> Ways {
    let settings = WeightSettings { factor: Some(1.10), ..WeightSettings::default() };
    at(frameset, size, &WeightChoices::default(), &settings).frame.unwrap().ways.unwrap()
}

pub(super) const FRAME_M: &str = "(part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5))";
const BOTH: &str = "(part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5)), (part: Fork, grams: 1370, from: Claimed)";

fn stated(factor: f64) -> WeightSettings {
    WeightSettings { factor: Some(factor), method: Method::YourFactor, ..WeightSettings::default() }
}

#[test]
fn frame_and_fork_make_a_frameset_with_the_steps_behind_it() {
    // 2.6 kg × 1.10 = 2.86 kg: trade practice, unverified.
    let weights = at(&steel(BOTH, ""), "L", &WeightChoices::default(), &stated(1.10));
    let frameset = weights.frameset.unwrap();
    assert!((frameset.mass.value - 4230.0).abs() < 1e-9);
    assert!(frameset.is_estimate && frameset.published.is_none());
    assert_eq!(
        frameset.rows.iter().map(|r| r.of.clone()).collect::<Vec<_>>(),
        [RowOf::Part(Part::Frame), RowOf::Part(Part::Fork)]
    );
    let frame = weights.frame.unwrap();
    assert_eq!(
        frame.rows.iter().map(|r| r.of.clone()).collect::<Vec<_>>(),
        [RowOf::Published, RowOf::ToSize(Method::YourFactor)]
    );
    assert_eq!(frame.estimate().unwrap().step, SizeStep::Factor { factor: 1.10, times: 1 });
    assert_eq!(weights.fork.unwrap().estimate(), None);
    // A factor of 1.10 has ± 0.05 where nobody says; the scale reads to 5 g, and what stood on it is one specimen (1 %).
    let expected = (2600.0 * 0.025f64).hypot(1.1 * (5.0 / 12f64.sqrt()).hypot(26.0));
    assert!((frame.mass.u - expected).abs() < 1e-9);
    assert!((frame.rows.iter().map(|r| r.mass.value).sum::<f64>() - frame.mass.value).abs() < 1e-9);
}

#[test]
fn the_weighed_size_itself_is_not_scaled_and_nothing_is_invented() {
    let weights = at(&steel(FRAME_M, ""), "M", &WeightChoices::default(), &stated(1.10));
    let frame = weights.frame.unwrap();
    assert_eq!((frame.mass.value, frame.is_estimate), (2600.0, false));
    assert!((frame.mass.u - (5.0 / 12f64.sqrt()).hypot(26.0)).abs() < 1e-12);
    let mut own = WeightChoices::default();
    own.frame.own_frame = true;
    let frame = at(&steel(FRAME_M, ""), "M", &own, &stated(1.10)).frame.unwrap();
    assert!((frame.mass.u - 5.0 / 12f64.sqrt()).abs() < 1e-12, "the user's own frame is no specimen of others");
    assert_eq!((weights.fork, weights.frameset), (None, None));
}

#[test]
fn a_frameset_weight_is_never_split() {
    let weights = at(&steel("(part: Frameset, grams: 4100, from: Claimed)", ""), "L", &WeightChoices::default(), &stated(1.10));
    assert_eq!(weights.frame, None);
    let frameset = weights.frameset.unwrap();
    assert_eq!(frameset.mass.value, 4100.0);
    assert_eq!((frameset.notes, &frameset.rows[1].of), (vec![WeightNote::SizeNotPublished], &RowOf::SizeNotPublished));
    // Claimed ± 5 % and a size not published ± 4 %.
    assert!((frameset.mass.u - 4100.0 * 0.025f64.hypot(0.02)).abs() < 1e-9);
}

#[test]
fn a_weighing_stays_a_weighing_where_its_size_is_not_published() {
    let origin = |from: &str, size: &str| {
        let frameset = steel(&format!("(part: Frame, {size} grams: 2600, from: {from})"), "");
        at(&frameset, "L", &WeightChoices::default(), &stated(1.10)).origin(Part::Frame).unwrap()
    };
    assert_eq!(origin("Weighed(to: 5)", ""), WeightOrigin::Weighed);
    assert_eq!(origin("Claimed", ""), WeightOrigin::Claimed);
    assert_eq!(origin("Weighed(to: 5)", "size: \"L\","), WeightOrigin::Weighed);
    assert_eq!(origin("Weighed(to: 5)", "size: \"M\","), WeightOrigin::Estimated);
}

#[test]
fn a_step_of_double_butted_steel_is_a_third_of_the_usual_guess() {
    // A trial of the same tubes, steps and fixed parts gave 2.3 to 3.2 % a step.
    for fixed in [350.0, 500.0, 650.0] {
        let settings = WeightSettings { fixed_grams: Some(fixed), ..WeightSettings::default() };
        for size in ["L", "S"] {
            let found = at(&steel(FRAME_M, TYPICAL), size, &WeightChoices::default(), &settings).frame.unwrap();
            let percent = found.ways.unwrap().tube_lengths.unwrap().percent.value.abs();
            assert!((2.0..3.4).contains(&percent), "{size} with {fixed} g: {percent}");
        }
    }
}

#[test]
fn the_guess_and_the_lengths_are_set_against_each_other() {
    let ways = ways(&steel(FRAME_M, TYPICAL), "L");
    let found = disagreement(&ways, SizeIndex(2), SizeIndex(3)).unwrap();
    assert_eq!((found.from, found.to), (SizeIndex(2), SizeIndex(3)));
    assert!((found.by_factor.value - 10.0).abs() < 1e-9 && (2.0..3.0).contains(&found.by_lengths.value), "{found:?}");
    let apart = 2600.0 * (found.by_factor.value - found.by_lengths.value) / 100.0;
    assert!((found.apart.value - apart).abs() < 1e-6, "{found:?}");
    let settings = WeightSettings { factor: Some(1.03), ..WeightSettings::default() };
    let close = at(&steel(FRAME_M, TYPICAL), "L", &WeightChoices::default(), &settings).frame.unwrap();
    assert_eq!(disagreement(&close.ways.unwrap(), SizeIndex(2), SizeIndex(3)), None);
}

#[test]
fn between_weighed_sizes_is_the_straight_line_and_says_when_it_goes_beyond() {
    let two = "(part: Frame, size: \"S\", grams: 2400, from: Weighed(to: 5)), (part: Frame, size: \"L\", grams: 2600, from: Weighed(to: 5))";
    let frameset = steel(two, "");
    let between = ways(&frameset, "M").between.unwrap();
    assert!((between.mass.value - 2500.0).abs() < 1e-9);
    assert!(between.note.is_none());
    let of = |size: usize, grams: f64| (SizeIndex(size), Measured::new(grams, (5.0 / 12f64.sqrt()).hypot(grams / 100.0)));
    assert_eq!(between.step, SizeStep::Line { low: of(1, 2400.0), high: of(3, 2600.0) });
    // Half of each end's u, and half of 0.5 % of the weight for a line that bends between them.
    let ends = (of(1, 2400.0).1.u / 2.0).hypot(of(3, 2600.0).1.u / 2.0);
    assert!((between.mass.u - ends.hypot(0.5 * 0.005 * 2500.0)).abs() < 1e-9);
    let beyond = ways(&frameset, "XL").between.unwrap();
    assert!((beyond.mass.value - 2700.0).abs() < 1e-9);
    assert_eq!(beyond.note, Some(WeightNote::BeyondWeighed { size: SizeIndex(4), weighed: [SizeIndex(1), SizeIndex(3)] }));
    assert!(beyond.mass.u > between.mass.u * 2.0);
    assert_eq!(ways(&steel(FRAME_M, ""), "L").between, Err(NoWay::FewerThanTwoSizes));
}

#[test]
fn a_way_that_cannot_be_gone_is_said_and_another_counts() {
    let text = "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Hollinshaw\", model: \"Wether\",
        weights: [(part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5))],
        sizes: [(label: \"M\", figures: {Stack: 600}), (label: \"L\", figures: {Stack: 620})])";
    let frameset = read_frameset(text.as_bytes()).unwrap();
    let settings = WeightSettings { factor: Some(1.10), ..WeightSettings::default() };
    let frame = at(&frameset, "L", &WeightChoices::default(), &settings).frame.unwrap();
    assert_eq!(frame.counted, Some(Method::YourFactor));
    let [
        WeightNote::OtherWay {
            chosen: Method::TubeLengths,
            why: NoWay::TubesUnknown { size: SizeIndex(0), .. },
            counts: Method::YourFactor,
        },
    ] = frame.notes.as_slice()
    else {
        unreachable!("{:?}", frame.notes)
    };
    assert!((frame.mass.value - 2860.0).abs() < 1e-9);
}

#[test]
fn until_a_factor_is_typed_the_stated_way_says_so_and_tube_lengths_count() {
    let at_l = |settings: &WeightSettings, own: Option<f64>| {
        let mut weight_choices = WeightChoices::default();
        weight_choices.frame.factor = own;
        at(&steel(FRAME_M, TYPICAL), "L", &weight_choices, settings).frame.unwrap()
    };
    let untyped = at_l(&WeightSettings::default(), None);
    assert_eq!(untyped.counted, Some(Method::TubeLengths));
    assert_eq!(untyped.ways.unwrap().stated, Err(NoWay::NoFactor));
    assert_eq!(untyped.notes, []);
    // Asked for all the same, it is said to be impossible and the tubes count.
    let asked = at_l(&WeightSettings { method: Method::YourFactor, ..WeightSettings::default() }, None);
    assert_eq!((asked.counted, asked.mass), (Some(Method::TubeLengths), untyped.mass));
    let note = WeightNote::OtherWay { chosen: Method::YourFactor, why: NoWay::NoFactor, counts: Method::TubeLengths };
    assert_eq!(asked.notes, [note]);
    // A weight's own factor is one.
    let own = at_l(&WeightSettings { method: Method::YourFactor, ..WeightSettings::default() }, Some(1.05));
    assert_eq!((own.counted, own.mass.value), (Some(Method::YourFactor), 2600.0 * 1.05));
}

#[test]
fn every_weight_has_its_own_choice() {
    let mut weight_choices = WeightChoices::default();
    weight_choices.frame.method = Some(Method::YourFactor);
    weight_choices.frame.factor = Some(1.05);
    weight_choices.frame.plus_minus = Some(40.0);
    weight_choices.frame.lines = vec![
        Line { what: What::Small(crate::frameset::SmallPart::SeatClamp), amount: Amount::Grams(-30.0), plus_minus: 12.0 },
        Line { what: What::Other("decals".to_owned()), amount: Amount::Grams(4.0), plus_minus: 0.0 },
    ];
    weight_choices.fork.lines =
        vec![Line { what: What::Steerer, amount: Amount::Length { mm: -90.0, grams_per_mm: 1.07 }, plus_minus: 10.0 }];
    let weights = at(&steel(BOTH, ""), "L", &weight_choices, &stated(1.10));
    let frame = weights.frame.unwrap();
    assert!((frame.mass.value - (2600.0 * 1.05 - 26.0)).abs() < 1e-9);
    let u = (20.0f64 * 1.05).hypot(2600.0 * 0.0125).hypot(6.0);
    assert!((frame.mass.u - u).abs() < 1e-9);
    assert_eq!(frame.rows[3].of, RowOf::Line { index: 1, what: What::Other("decals".to_owned()) });
    assert!((weights.fork.unwrap().mass.value - (1370.0 - 96.3)).abs() < 1e-9);
    assert!((frame.rows.iter().map(|r| r.mass.value).sum::<f64>() - frame.mass.value).abs() < 1e-9);
}

#[test]
fn what_was_weighed_with_it_is_offered_and_not_taken_off_unasked() {
    let weights = "(part: Fork, grams: 1370, from: Claimed, with: [Axle])";
    let frameset = steel(weights, "small_parts: {Axle: 62}, fork: (material: Steel, steerer: (length: 300)),");
    let fork = at(&frameset, "M", &WeightChoices::default(), &WeightSettings::default()).fork.unwrap();
    assert_eq!(fork.mass.value, 1370.0);
    let offered: Vec<_> = fork.offered.iter().map(|l| (l.what.clone(), l.amount.grams())).collect();
    // 300 − the head tube of M (published as 140) − 80 mm for what stands on it, to a millimetre.
    let head_tube = adjust(&frameset).sizes[2].value(crate::frameset::Figure::HeadTube).value;
    assert!((head_tube - 140.0).abs() < 1.0, "{head_tube}");
    let steerer = -(300.0 - head_tube - 80.0).round() * 1.07;
    assert_eq!(offered, [(What::Small(crate::frameset::SmallPart::Axle), -62.0), (What::Steerer, steerer)]);
    let mut weight_choices = WeightChoices::default();
    weight_choices.fork.lines = fork.offered;
    let fork = at(&frameset, "M", &weight_choices, &WeightSettings::default()).fork.unwrap();
    assert!(fork.offered.is_empty());
    assert!((fork.mass.value - (1370.0 - 62.0 + steerer)).abs() < 1e-9);
}

#[test]
fn a_fork_scales_by_its_steerer_alone() {
    let fork = "(part: Fork, size: \"M\", grams: 1370, from: Weighed(to: 5))";
    let frameset = steel(fork, "fork: (material: Steel, steerer: (grams_per_mm: 1.07)),");
    let found = at(&frameset, "L", &WeightChoices::default(), &stated(1.10)).fork.unwrap();
    // The adjusted head tubes differ by the 20 mm printed and what the wheels' level line leaves of their rounding.
    let adjusted = adjust(&frameset);
    let head_tube = |size: SizeIndex| adjusted.sizes[size].value(crate::frameset::Figure::HeadTube).value;
    let longer = head_tube(SizeIndex(3)) - head_tube(SizeIndex(2));
    assert!((longer - 20.0).abs() < 0.5, "{longer}");
    assert!((found.mass.value - (1370.0 + longer * 1.07)).abs() < 1e-9, "{}", found.mass.value);
}

#[test]
fn an_unlikely_weight_has_a_note() {
    let frame =
        at(&steel("(part: Frame, size: \"M\", grams: 9000, from: Claimed)", ""), "M", &WeightChoices::default(), &stated(1.1));
    let frame = frame.frame.unwrap();
    assert_eq!(frame.notes, [WeightNote::Unlikely { part: Part::Frame, mass: frame.mass, usual: [500.0, 8000.0] }]);
}

#[test]
fn choices_come_back_as_they_were_written() {
    let mut weight_choices = WeightChoices::default();
    weight_choices.fork.lines =
        vec![Line { what: What::Steerer, amount: Amount::Length { mm: -90.0, grams_per_mm: 1.07 }, plus_minus: 10.0 }];
    weight_choices.frame.method = Some(Method::YourFactor);
    let text = ron::to_string(&weight_choices).unwrap();
    assert_eq!(ron::from_str::<WeightChoices>(&text).unwrap(), weight_choices);
    // As files state it, and as they leave it out.
    let read = |text: &str| {
        let options = ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
        options.from_str::<WeightSettings>(text).map_err(|e| e.to_string())
    };
    assert_eq!(read("(factor: 1.1)").unwrap(), WeightSettings { factor: Some(1.1), ..WeightSettings::default() });
    assert_eq!(read("(factor: 1.0)").unwrap().factor, Some(1.0), "stated is stated, also where it changes nothing");
    assert_eq!(read("()").unwrap(), WeightSettings { factor: None, method: Method::TubeLengths, ..WeightSettings::default() });
    let error = read("(factor: 10)").unwrap_err();
    assert!(error.contains("for 10 % write 1.10"), "{error}");
}

fn published(grams: f64) -> Published {
    Published { index: 0, mass: Measured::new(grams, 2.0), size: Some(SizeIndex(0)), is_claimed: false }
}

proptest! {
    #[test]
    fn there_and_back_is_the_identity(grams in 900.0..4000.0f64, factor in 0.8..1.3f64, steps in -4i32..=4) {
        for per in [Per::Step, Per::All] {
            let typed = TypedFactor { factor, u: 0.0, is_own: false };
            let there = by_stated_factor(&published(grams), Part::Frame, steps, &typed, per);
            let back = by_stated_factor(&published(there.mass.value), Part::Frame, -steps, &typed, per);
            prop_assert!((back.mass.value - grams).abs() < 1e-9);
        }
    }

    #[test]
    fn there_and_back_by_tube_lengths_is_the_identity(grams in 900.0..4000.0f64, from in 0usize..5, to in 0usize..5) {
        let frameset = steel(FRAME_M, "");
        let adjusted = adjust(&frameset);
        let set = tube_set(&frameset);
        let parts = Assumed { value: 500.0, plus_minus: 150.0 };
        let lengths = |size| tube_lengths(&frameset, &adjusted, size);
        let (a, b) = (lengths(SizeIndex(from)), lengths(SizeIndex(to)));
        let there = by_tube_lengths(&published(grams), Part::Frame, (SizeIndex(from), &a), (SizeIndex(to), &b), &set, &adjusted, parts).unwrap();
        let back = by_tube_lengths(&published(there.mass.value), Part::Frame, (SizeIndex(to), &b), (SizeIndex(from), &a), &set, &adjusted, parts).unwrap();
        prop_assert!((back.mass.value - grams).abs() < 1e-9);
        prop_assert!(from == to || (there.mass.value > grams) == (to > from));
    }

    #[test]
    fn it_grows_with_every_tube(which in 0usize..6, by in 1.0..80.0f64) {
        let frameset = steel(FRAME_M, "");
        let adjusted = adjust(&frameset);
        let set = tube_set(&frameset);
        let parts = Assumed { value: 500.0, plus_minus: 150.0 };
        let before = tube_lengths(&frameset, &adjusted, SizeIndex(2));
        let mut longer = before.clone();
        if let Ok(lengths) = &mut longer {
            lengths[which].mm += by;
        }
        let grams = |after| by_tube_lengths(&published(2600.0), Part::Frame, (SizeIndex(2), &before), (SizeIndex(3), after), &set, &adjusted, parts).unwrap().mass.value;
        prop_assert!(grams(&longer) > grams(&before));
    }
}

#[test]
fn a_weight_of_every_origin_begins_from_the_nearest_weighed_size() {
    let many =
        "(part: Frame, size: \"XS\", grams: 2400, from: Weighed(to: 5)), (part: Frame, size: \"M\", grams: 2590, from: Claimed),
        (part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5)), (part: Frame, grams: 2550, from: Claimed)";
    let frameset = steel(many, "");
    let best = |size, choice: &PartWeightChoices| best_published(&frameset, Part::Frame, size, choice, 5.0).unwrap().index;
    assert_eq!(best(SizeIndex(3), &PartWeightChoices::default()), 2);
    assert_eq!(best(SizeIndex(0), &PartWeightChoices::default()), 0);
    assert_eq!(best(SizeIndex(3), &PartWeightChoices { start_from: Some(1), ..PartWeightChoices::default() }), 1);
    // A place that holds another part's weight, or none, is no choice.
    assert_eq!(best(SizeIndex(3), &PartWeightChoices { start_from: Some(9), ..PartWeightChoices::default() }), 2);
    let odd = Weight {
        part: Part::Frame,
        size: Some("XXL".to_owned()),
        grams: 2700.0,
        from: Known::Claimed,
        with: Vec::new(),
        note: None,
    };
    let mut other = frameset.clone();
    other.weights = vec![odd];
    assert_eq!(best_published(&other, Part::Frame, SizeIndex(2), &PartWeightChoices::default(), 5.0).unwrap().size, None);
}
