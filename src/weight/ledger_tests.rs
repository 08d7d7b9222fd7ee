//! The ledger: what is an estimate and what is not, which notes a total has, and what its published weight asks for.

use super::density::{fork_g, small_part_g};
use super::tests::{FRAME_M, TYPICAL, at, steel};
use super::*;
use crate::frameset::{Material, Part, SizeIndex, SmallPart, Tube};
use crate::units::Measured;

const CLAIMED_FRAME_M: &str = "(part: Frame, size: \"M\", grams: 2600, from: Claimed)";
const FORK_M: &str = "(part: Fork, size: \"M\", grams: 1370, from: Weighed(to: 5))";
const CLAIMED_FORK_M: &str = "(part: Fork, size: \"M\", grams: 1370, from: Claimed)";

fn plain(weights: &str, size: &str) -> Weights {
    at(&steel(weights, TYPICAL), size, &WeightChoices::default(), &WeightSettings::default())
}

#[test]
fn a_sum_is_as_sure_as_its_less_sure_part() {
    use WeightOrigin::{Claimed, Estimated, Weighed};
    for (frame, fork, size, origins, is_estimate) in [
        (FRAME_M, FORK_M, "M", [Weighed, Weighed, Weighed], false),
        (CLAIMED_FRAME_M, FORK_M, "M", [Claimed, Weighed, Claimed], true),
        (FRAME_M, CLAIMED_FORK_M, "M", [Weighed, Claimed, Claimed], true),
        (FRAME_M, CLAIMED_FORK_M, "L", [Estimated, Estimated, Estimated], true),
    ] {
        let found = plain(&format!("{frame}, {fork}"), size);
        assert_eq!(
            [Part::Frame, Part::Fork, Part::Frameset].map(|p| found.origin(p)),
            origins.map(Some),
            "{frame} {fork} {size}"
        );
        assert_eq!(found.frameset.unwrap().is_estimate, is_estimate, "{frame} {fork} {size}");
    }
    let alone = plain(FRAME_M, "M");
    assert_eq!((alone.origin(Part::Fork), alone.origin(Part::Frameset)), (None, None));
}

/// A fork is the same in most sizes: where nobody says which, that is no note and no ±. A frame is not.
#[test]
fn a_size_that_nobody_names_matters_to_frames() {
    let found = plain("(part: Frame, grams: 2600, from: Weighed(to: 5)), (part: Fork, grams: 1370, from: Weighed(to: 5))", "L");
    let (frame, fork) = (found.frame.unwrap(), found.fork.unwrap());
    assert_eq!((fork.is_estimate, fork.notes, fork.rows.len()), (false, vec![], 1));
    // The scale's step, and one specimen of 1 %.
    let scale = 5.0 / 12f64.sqrt();
    assert!((fork.mass.u - scale.hypot(13.7)).abs() < 1e-12);
    assert_eq!((frame.is_estimate, frame.notes), (true, vec![WeightNote::SizeNotPublished]));
    assert!((frame.mass.u - scale.hypot(26.0).hypot(2600.0 * 0.02)).abs() < 1e-9);
}

#[test]
fn disagreement_is_noted_where_the_factor_was_typed_or_chosen() {
    let noted = |weights: &str, part: Part, settings: WeightSettings, own: Option<f64>| {
        let mut weight_choices = WeightChoices::default();
        weight_choices.part_mut(part).factor = own;
        let found = at(&steel(weights, TYPICAL), "L", &weight_choices, &settings);
        let found = found.part(part).unwrap();
        let is_clear = disagreement(found.ways.as_ref().unwrap(), SizeIndex(2), SizeIndex(3)).is_some();
        (is_clear, found.notes.iter().any(|n| matches!(n, WeightNote::WaysDisagree(_))))
    };
    let with = |factor: f64, method| WeightSettings {
        factor: Some(factor),
        factor_plus_minus: Some(0.0),
        method,
        ..WeightSettings::default()
    };
    // The tubes say some 2.5 %.
    assert_eq!(noted(FRAME_M, Part::Frame, with(1.1, Method::TubeLengths), None), (true, true));
    assert_eq!(noted(FRAME_M, Part::Frame, with(1.1, Method::YourFactor), None), (true, true));
    assert_eq!(noted(FRAME_M, Part::Frame, with(1.0, Method::TubeLengths), None), (true, false), "1 is no claim");
    assert_eq!(noted(FRAME_M, Part::Frame, with(1.0, Method::YourFactor), None), (true, true), "it counts");
    assert_eq!(noted(FRAME_M, Part::Frame, with(1.1, Method::TubeLengths), Some(1.0)), (true, false), "the frame's own is 1");
    assert_eq!(noted(FRAME_M, Part::Frame, with(1.0, Method::TubeLengths), Some(1.1)), (true, true));
    assert_eq!(noted(FRAME_M, Part::Frame, WeightSettings::default(), None), (false, false));
    assert_eq!(
        noted(FORK_M, Part::Fork, with(1.1, Method::YourFactor), None),
        (true, false),
        "a fork is not scaled with the frame"
    );
}

/// A ± that is typed for one published weight is that weight's alone.
#[test]
fn a_typed_plus_minus_is_of_the_weight_that_it_stands_beside() {
    let two = "(part: Frame, size: \"S\", grams: 2400, from: Weighed(to: 5)), (part: Frame, size: \"XL\", grams: 2700, from: Weighed(to: 5))";
    let mut weight_choices = WeightChoices::default();
    weight_choices.frame.start_from = Some(1);
    weight_choices.frame.plus_minus = Some(60.0);
    let frame = at(&steel(two, TYPICAL), "M", &weight_choices, &WeightSettings::default()).frame.unwrap();
    assert_eq!(frame.published.unwrap().mass, Measured::new(2700.0, 30.0));
    // A third of the way up: a third of the larger one's u and two thirds of the smaller one's.
    let between = frame.ways.unwrap().between.unwrap();
    let of_small = (5.0 / 12f64.sqrt()).hypot(24.0);
    // A line through sizes one and two steps away bends by ½ · 0.5 % · 1 · 2 of the weight, 2500 g.
    let expected = 10.0f64.hypot(2.0 / 3.0 * of_small).hypot(0.5 * 0.005 * 2500.0 * 2.0);
    assert!((between.mass.u - expected).abs() < 1e-9, "{between:?}");
}

#[test]
fn a_steerer_longer_than_it_needs_is_offered_to_be_cut() {
    // The head tube of M is 140 mm; 80 mm ± 25 mm stand on it. Steel weighs 1.07 ± 0.25 g/mm.
    let offered = |length: f64, lines: Vec<Line>| {
        let fork = format!("fork: (material: Steel, steerer: (length: {length})),");
        let mut weight_choices = WeightChoices::default();
        weight_choices.fork.lines = lines;
        at(
            &steel("(part: Fork, grams: 1370, from: Claimed, with: [Axle, Paint])", &fork),
            "M",
            &weight_choices,
            &WeightSettings::default(),
        )
        .fork
        .unwrap()
        .offered
    };
    let all = offered(300.0, Vec::new());
    let what = |lines: &[Line]| lines.iter().map(|l| l.what.clone()).collect::<Vec<_>>();
    let (axle, paint) = (What::Small(SmallPart::Axle), What::Small(SmallPart::Paint));
    assert_eq!(what(&all), [axle.clone(), paint.clone(), What::Steerer]);
    assert!((all[2].plus_minus - (0.25 * 80.0f64).hypot(1.07 * 25.0)).abs() <= 1.0, "{:?}", all[2]);
    assert!((all[2].amount.grams() + 80.0 * 1.07).abs() < 1.5, "{:?}", all[2]);
    assert!(all[0].amount.grams() < 0.0 && (all[0].amount.grams() + small_part_g(SmallPart::Axle).value).abs() < 1e-12);
    // What stands in the ledger is offered no more; the rest still is.
    assert_eq!(what(&offered(300.0, vec![all[0].clone()])), [paint.clone(), What::Steerer]);
    assert_eq!(what(&offered(300.0, vec![all[2].clone(), all[0].clone()])), [What::Small(SmallPart::Paint)]);
    assert_eq!(what(&offered(218.0, Vec::new())), [axle, paint]);
    // A frame has no steerer.
    let frame = at(
        &steel("(part: Frame, size: \"M\", grams: 2600, from: Claimed)", "fork: (steerer: (length: 300)),"),
        "M",
        &WeightChoices::default(),
        &WeightSettings::default(),
    );
    assert_eq!(frame.frame.unwrap().offered, []);
}

/// Alloy 7005 is denser than 6061; without a grade the value lies between them with a ± that holds both.
#[test]
fn the_grade_of_aluminium_decides_within_its_range() {
    let of = |grade| density_kg_m3(Material::Aluminium, grade);
    let (zinc, magnesium, any) = (of(Some("7005-T6")), of(Some("6061")), of(None));
    assert!(magnesium.value < any.value && any.value < zinc.value);
    assert!(any.value - any.plus_minus <= magnesium.value && any.value + any.plus_minus >= zinc.value);
    assert!(zinc.plus_minus < any.plus_minus && magnesium.plus_minus < any.plus_minus);
    assert_eq!(of(Some("2024")), any);
    assert_eq!(density_kg_m3(Material::Steel, Some("7005")), density_kg_m3(Material::Steel, None));
}

#[test]
fn a_suspension_fork_is_heavier_than_a_rigid_one() {
    let of = |fork: &str| fork_g(&steel(FRAME_M, fork)).value;
    let rigid = of("fork: (material: Steel),");
    assert!(of("fork: (material: Steel, travel: 100),") > rigid + 500.0);
    assert_eq!(of("fork: (material: Steel, travel: 0),"), rigid);
    assert_eq!(of(""), rigid, "the frame's material");
    assert!(of("fork: (material: Carbon),") < rigid);
}

/// Diameter and wall both stated make a tube's weight known, either alone does not.
#[test]
fn a_tube_is_assumed_unless_diameter_and_wall_are_stated() {
    let (diameter, wall) = ("tube_diameters: {TopTube: 28.6},", "tube_walls: {TopTube: (wall: 0.9)},");
    let of = |more: &str| tube_set(&steel(FRAME_M, more)).tubes.into_iter().find(|t| t.tube == Tube::TopTube).unwrap();
    for (more, is_assumed) in
        [(String::new(), true), (diameter.to_owned(), true), (wall.to_owned(), true), (format!("{diameter}{wall}"), false)]
    {
        let tube = of(&more);
        assert_eq!(tube.is_assumed, is_assumed, "{more}");
        assert_eq!(tube.share_plus_minus > 0.1, is_assumed, "{more}");
    }
}

#[test]
fn choices_are_written_where_there_are_any() {
    assert!(WeightChoices::default().is_default());
    assert_eq!(ron::to_string(&WeightChoices::default()).unwrap(), "()");
    for part in [Part::Frame, Part::Fork, Part::Frameset] {
        let mut chosen = WeightChoices::default();
        chosen.part_mut(part).factor = Some(1.05);
        assert!(!chosen.is_default());
        assert_eq!(chosen.part(part).factor, Some(1.05));
        let text = ron::to_string(&chosen).unwrap();
        assert_eq!(text.matches("factor").count(), 1, "{text}");
        assert_eq!(ron::from_str::<WeightChoices>(&text).unwrap(), chosen);
    }
}

#[test]
fn settings_are_read_within_their_bounds() {
    let read = |text: &str| ron::from_str::<WeightSettings>(text).map_err(|e| e.to_string());
    for factor in ["0.5", "1.1", "2"] {
        assert!(read(&format!("(factor: Some({factor}))")).is_ok(), "{factor}");
    }
    for (factor, percent) in
        [("0.49", false), ("-3", false), ("0", false), ("NaN", false), ("2.01", true), ("50", true), ("51", false)]
    {
        let why = read(&format!("(factor: Some({factor}))")).unwrap_err();
        assert_eq!(why.contains(" % write "), percent, "{why}");
    }
    let line = |each: &str| ron::from_str::<Line>(&format!("(what: Steerer, amount: Length(mm: -90, grams_per_mm: {each}))"));
    for (each, is_read) in [("0", false), ("-1", false), ("0.01", true), ("10", true), ("10.01", false), ("NaN", false)] {
        assert_eq!(line(each).is_ok(), is_read, "{each}");
    }
}
