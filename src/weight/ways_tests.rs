//! The ways to another size and their ±, on tubes and weights worked out by hand, and against differences.

use super::density::Assumed;
use super::lengths::{tube_grams, tube_grams_u};
use super::tests::{FRAME_M, TYPICAL, at, steel};
use super::*;
use crate::frameset::{Figure, Frameset, Material, Part, SizeIndex, Tube};
use crate::geometry::{Adjusted, Quantity, STATES, adjust};
use crate::units::Measured;

#[track_caller]
fn assert_close(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

fn published(grams: f64, u: f64, size: SizeIndex, is_claimed: bool) -> Published {
    Published { index: size.0, mass: Measured::new(grams, u), size: Some(size), is_claimed }
}

/// u of the tubes' weight in one size.
fn u_alone(set: &TubeSet, adjusted: &Adjusted, size: SizeIndex, lengths: &[TubeLength]) -> f64 {
    tube_grams_u(set, adjusted, (size, lengths), (size, lengths), 0.0)
}

fn typed(factor: f64) -> TypedFactor {
    TypedFactor { factor, u: 0.02, is_own: false }
}

/// Compound growth by hand: 1.1² = 1.21, 1.1³ = 1.331, 1 / 1.1 = 0.909 09…
#[test]
fn a_factor_counts_once_a_step_or_once_in_all() {
    for (steps, per, times, total) in [
        (1, Per::Step, 1, 1.1),
        (2, Per::Step, 2, 1.21),
        (3, Per::Step, 3, 1.331),
        (-1, Per::Step, -1, 1.0 / 1.1),
        (-2, Per::Step, -2, 1.0 / 1.21),
        (3, Per::All, 1, 1.1),
        (-3, Per::All, -1, 1.0 / 1.1),
        (0, Per::Step, 0, 1.0),
        (0, Per::All, 0, 1.0),
    ] {
        let found = by_stated_factor(&published(2000.0, 7.0, SizeIndex(0), false), Part::Frame, steps, &typed(1.1), per);
        assert_eq!(found.step, SizeStep::Factor { factor: 1.1, times });
        assert_close(found.mass.value, 2000.0 * total, 1e-9);
        assert_close(found.percent.value, 100.0 * (total - 1.0), 1e-9);
        // The factor's part of the u by differences.
        let by = |factor: f64| {
            by_stated_factor(&published(2000.0, 7.0, SizeIndex(0), false), Part::Frame, steps, &typed(factor), per).mass.value
        };
        let slope = (by(1.1 + 1e-6) - by(1.1 - 1e-6)) / 2e-6;
        assert_close(found.way_u, slope.abs() * 0.02, 1e-4);
        assert_close(found.percent.u, found.way_u / 20.0, 1e-9);
        assert_close(found.mass.u, found.way_u.hypot(7.0 * total), 1e-9);
    }
}

/// Grams a millimetre of the two tubes below: π t (D − t) ρ.
const EACH: [f64; 2] = [std::f64::consts::PI * 0.9 * (30.0 - 0.9) * 0.00785, std::f64::consts::PI * 0.8 * (16.0 - 0.8) * 0.00785];

/// A top tube, and chainstays, which count twice.
fn two_tubes() -> TubeSet {
    let of = |tube, count, outside, wall, share_plus_minus| TubeOf {
        tube,
        count,
        profile: Profile::plain(outside, wall),
        is_assumed: false,
        share_plus_minus,
    };
    let tubes = vec![of(Tube::TopTube, 1.0, 30.0, 0.9, 0.10), of(Tube::ChainStay, 2.0, 16.0, 0.8, 0.30)];
    TubeSet { tubes, density_kg_m3: 7850.0, material: Material::Steel, material_is_assumed: false }
}

/// Lengths that are known, or the tubes whose are not.
type Lengths = Result<Vec<TubeLength>, Vec<Tube>>;

fn lengths(top: f64, chain: f64) -> Vec<TubeLength> {
    [(Tube::TopTube, top), (Tube::ChainStay, chain)].map(|(tube, mm)| TubeLength { tube, mm, straight_mm: mm }).to_vec()
}

const FIXED: Assumed = Assumed { value: 500.0, plus_minus: 150.0 };

/// F + (m − F) Σ(target) / Σ(published), with each tube's weight in Σ off by its own share.
fn by_hand(m: f64, fixed: f64, shares: [f64; 2], before: [f64; 2], after: [f64; 2]) -> f64 {
    let sum = |mm: [f64; 2]| shares[0] * EACH[0] * mm[0] + shares[1] * 2.0 * EACH[1] * mm[1];
    fixed + (m - fixed) * sum(after) / sum(before)
}

#[test]
fn tube_lengths_bring_the_rest_of_the_weight_along() {
    let adjusted = adjust(&steel(FRAME_M, ""));
    let set = two_tubes();
    let (before, after) = ([550.0, 440.0], [590.0, 455.0]);
    let found = by_tube_lengths(
        &published(2000.0, 9.0, SizeIndex(2), false),
        Part::Frame,
        (SizeIndex(2), &Ok(lengths(before[0], before[1]))),
        (SizeIndex(2), &Ok(lengths(after[0], after[1]))),
        &set,
        &adjusted,
        FIXED,
    )
    .unwrap();
    let of = |m, fixed, shares| by_hand(m, fixed, shares, before, after);
    let grams = of(2000.0, 500.0, [1.0, 1.0]);
    assert_close(found.mass.value, grams, 1e-9);
    assert_close(found.percent.value, 100.0 * (grams - 2000.0) / 2000.0, 1e-9);
    let SizeStep::TubeLengths { change } = found.step else { panic!("{:?}", found.step) };
    assert_close(change.value, grams - 2000.0, 1e-9);
    // u by differences: half of each ± moves one thing at a time; one size's figures are off alike on both sides.
    let by = |up: f64, down: f64| (up - down) / 2.0;
    let share = |i: usize, off: f64| {
        let mut shares = [1.0, 1.0];
        shares[i] += off;
        of(2000.0, 500.0, shares)
    };
    let way = [
        by(share(0, 0.05e-3), share(0, -0.05e-3)) * 1e3,
        by(share(1, 0.15e-3), share(1, -0.15e-3)) * 1e3,
        by(of(2000.0, 575.0, [1.0; 2]), of(2000.0, 425.0, [1.0; 2])),
    ];
    let way_u = way.iter().map(|w| w * w).sum::<f64>().sqrt();
    assert_close(found.way_u, way_u, 1e-6 * way_u);
    assert_close(change.u, way_u, 1e-6 * way_u);
    assert_close(found.percent.u, way_u / 20.0, 1e-6 * way_u);
    let own = by(of(2009.0, 500.0, [1.0; 2]), of(1991.0, 500.0, [1.0; 2]));
    assert_close(found.mass.u, way_u.hypot(own), 1e-6 * way_u);
    // Another size has its own figures: their u comes in for both, the published size's scaled by the ratio.
    let other = by_tube_lengths(
        &published(2000.0, 9.0, SizeIndex(1), false),
        Part::Frame,
        (SizeIndex(1), &Ok(lengths(before[0], before[1]))),
        (SizeIndex(3), &Ok(lengths(after[0], after[1]))),
        &set,
        &adjusted,
        FIXED,
    )
    .unwrap();
    let scale = 1500.0 / (EACH[0] * before[0] + 2.0 * EACH[1] * before[1]);
    let ratio = (grams - 500.0) / 1500.0;
    let (after, before) = (lengths(after[0], after[1]), lengths(before[0], before[1]));
    let figures = scale * tube_grams_u(&set, &adjusted, (SizeIndex(3), &after), (SizeIndex(1), &before), ratio);
    assert!(figures > 0.02 * way_u, "{figures} {way_u}");
    // Both sizes share most of it: the stays' length and where the tubes meet.
    let both = u_alone(&set, &adjusted, SizeIndex(3), &after).hypot(ratio * u_alone(&set, &adjusted, SizeIndex(1), &before));
    assert!(figures < scale * both);
    assert_close(other.way_u, way_u.hypot(figures), 1e-6 * way_u);
    assert_close(other.mass.value, grams, 1e-9);
}

#[test]
fn what_cannot_be_scaled_says_why_or_has_a_note() {
    let adjusted = adjust(&steel(FRAME_M, ""));
    let unknown = Err(vec![Tube::SeatTube]);
    let known = Ok(lengths(550.0, 440.0));
    let with = |grams: f64, before: &Lengths, after: &Lengths, fixed| {
        by_tube_lengths(
            &published(grams, 2.0, SizeIndex(1), false),
            Part::Frame,
            (SizeIndex(1), before),
            (SizeIndex(3), after),
            &two_tubes(),
            &adjusted,
            fixed,
        )
    };
    let tubes = vec![Tube::SeatTube];
    assert_eq!(with(2000.0, &unknown, &known, FIXED), Err(NoWay::TubesUnknown { size: SizeIndex(1), tubes: tubes.clone() }));
    assert_eq!(with(2000.0, &known, &unknown, FIXED), Err(NoWay::TubesUnknown { size: SizeIndex(3), tubes }));
    assert_eq!(with(500.0, &known, &known, FIXED), Err(NoWay::FixedPartsTooHeavy { fixed: Measured::new(500.0, 75.0) }));
    assert_eq!(with(2000.0, &Ok(Vec::new()), &known, FIXED), Err(NoWay::NoTubeLength));
    // The tubes assumed weigh s: a frame whose own weigh from half to twice as much is taken, others have a note.
    let s = EACH[0] * 550.0 + 2.0 * EACH[1] * 440.0;
    for (times, has_note) in [(0.49, true), (0.51, false), (1.0, false), (1.99, false), (2.01, true)] {
        let found = with(500.0 + times * s, &known, &known, FIXED).unwrap();
        assert_eq!(found.note.is_some(), has_note, "{times}");
        if let Some(WeightNote::TubesDoNotFit { times: noted, .. }) = found.note {
            assert_close(noted, times, 1e-9);
        }
    }
}

/// u of the tubes' weight by one quantity at a time, against weights of frames in which that quantity was moved.
#[test]
fn figures_move_the_tubes_as_differences_do() {
    let frameset = steel(FRAME_M, TYPICAL);
    let adjusted = adjust(&frameset);
    let set = tube_set(&frameset);
    let own = tube_lengths(&frameset, &adjusted, SizeIndex(2)).unwrap();
    let grams =
        |adjusted: &Adjusted| tube_grams(&set, &tube_lengths(&frameset, adjusted, SizeIndex(2)).unwrap()).iter().sum::<f64>();
    for quantity in Quantity::ALL {
        let mut alone = adjusted.clone();
        alone.sizes[2].covariance = [[0.0; STATES]; STATES];
        alone.sizes[2].covariance[quantity.index()][quantity.index()] = 1.0;
        let found = u_alone(&set, &alone, SizeIndex(2), &own);
        let moved = |by: f64| {
            let mut moved = adjusted.clone();
            moved.sizes[2].state.0[quantity.index()] += by;
            grams(&moved)
        };
        let slope = (moved(1e-3) - moved(-1e-3)) / 2e-3;
        assert_close(found, slope.abs(), 1e-4 * (1.0 + slope.abs()));
        // Bends lengthen a tube in proportion; where no straight line is known it counts as straight.
        let bent: Vec<TubeLength> = own.iter().map(|l| TubeLength { straight_mm: l.mm / 1.25, ..*l }).collect();
        assert_close(u_alone(&set, &alone, SizeIndex(2), &bent), 1.25 * found, 1e-9 * (1.0 + found));
        // Each tube by its own bends.
        let top = TubeSet { tubes: set.tubes.iter().copied().filter(|t| t.tube == Tube::TopTube).collect(), ..set.clone() };
        let factor = |tube| if tube == Tube::TopTube { 1.5 } else { 1.0 };
        let one: Vec<TubeLength> = own.iter().map(|l| TubeLength { straight_mm: l.mm / factor(l.tube), ..*l }).collect();
        assert_close(
            u_alone(&top, &alone, SizeIndex(2), &one),
            1.5 * u_alone(&top, &alone, SizeIndex(2), &own),
            1e-9 * (1.0 + found),
        );
        let nowhere: Vec<TubeLength> = own.iter().map(|l| TubeLength { straight_mm: 0.0, ..*l }).collect();
        assert_close(u_alone(&set, &alone, SizeIndex(2), &nowhere), found, 1e-9 * (1.0 + found));
    }
    assert_close(u_alone(&set, &adjusted, SizeIndex(99), &own), 0.0, 0.0);
}

#[test]
fn lengths_run_from_junction_to_junction() {
    let frameset = steel(FRAME_M, "");
    let adjusted = adjust(&frameset);
    let straight = tube_lengths(&frameset, &adjusted, SizeIndex(2)).unwrap();
    let size = &adjusted.sizes[2];
    let of = |lengths: &[TubeLength], tube| *lengths.iter().find(|l| l.tube == tube).unwrap();
    for (tube, figure) in
        [(Tube::HeadTube, Figure::HeadTube), (Tube::TopTube, Figure::TopTube), (Tube::ChainStay, Figure::Chainstay)]
    {
        assert_close(of(&straight, tube).mm, size.value(figure).value, 1e-9);
    }
    assert_eq!(straight.len(), 6);
    assert!(straight.iter().all(|l| (l.mm - l.straight_mm).abs() < 1e-9), "{straight:?}");
    // A bend of 60 mm in the middle: two sides of half the tube and 60 mm.
    let mut bent = frameset.clone();
    bent.sizes[2].top_tube_bends = vec![crate::frameset::Bend { along: 0.5, off: -60.0 }];
    let bent = of(&tube_lengths(&bent, &adjusted, SizeIndex(2)).unwrap(), Tube::TopTube);
    assert_close(bent.straight_mm, of(&straight, Tube::TopTube).mm, 1e-9);
    assert_close(bent.mm, 2.0 * (bent.straight_mm / 2.0).hypot(60.0), 1e-9);
}

/// A tube is missing where its ends are unknown; fork and seat post are no tubes of the frame.
#[test]
fn tubes_of_unknown_length_are_named() {
    let read = |figures: &str| -> Frameset {
        let text = format!(
            "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", sizes: [(label: \"M\", figures: {{{figures}}})])"
        );
        crate::frameset::read_frameset(text.as_bytes()).unwrap()
    };
    let lengths = |figures: &str| {
        let frameset = read(figures);
        tube_lengths(&frameset, &adjust(&frameset), SizeIndex(0))
    };
    let frame = "Stack: 610, Reach: 390, HeadAngle: 71, SeatAngle: 73, HeadTube: 140, Chainstay: 445, BbDrop: 65";
    let known = lengths(&format!("{frame}, SeatTube: 500")).unwrap();
    assert!(known.len() == 6 && known.iter().all(|l| !matches!(l.tube, Tube::ForkBlade | Tube::SeatPost)), "{known:?}");
    let mut missing = lengths(frame).unwrap_err();
    missing.sort();
    let mut expected = vec![Tube::SeatTube, Tube::TopTube, Tube::SeatStay];
    expected.sort();
    assert_eq!(missing, expected);
}

#[test]
fn the_nearest_two_weighed_sizes_span_the_line() {
    // By size: 2400, –, 2600, –, 2700. A line bends by 0.5 % of the weight a step: ½ · 0.005 m · both distances.
    let bend = |grams: f64, distances: f64| 0.5 * 0.005 * grams * distances;
    let three = [
        published(2600.0, 3.0, SizeIndex(2), false),
        published(2400.0, 4.0, SizeIndex(0), false),
        published(2700.0, 6.0, SizeIndex(4), false),
    ];
    for (to, grams, u) in [
        (0, 2400.0, 4.0),
        (1, 2500.0, 2.0f64.hypot(1.5).hypot(bend(2500.0, 1.0))),
        (2, 2600.0, 3.0),
        (3, 2650.0, 1.5f64.hypot(3.0).hypot(bend(2650.0, 1.0))),
        (4, 2700.0, 6.0),
        (6, 2800.0, 3.0f64.hypot(12.0).hypot(bend(2800.0, 8.0))),
    ] {
        let found = between_weighed(&three, Part::Frame, SizeIndex(to), &three[1]).unwrap();
        assert_close(found.mass.value, grams, 1e-9);
        assert_close(found.mass.u, u, 1e-9);
        assert_close(found.way_u, u, 1e-9);
        assert_close(found.percent.value, (grams - 2400.0) / 24.0, 1e-9);
        assert_close(found.percent.u, u / 24.0, 1e-9);
        let beyond = (to == 6).then_some(WeightNote::BeyondWeighed { size: SizeIndex(6), weighed: [SizeIndex(0), SizeIndex(4)] });
        assert_eq!(found.note, beyond);
    }
    // Below the smallest the first pair goes on.
    let upper = [published(2600.0, 3.0, SizeIndex(2), false), published(2700.0, 3.0, SizeIndex(3), false)];
    let below = between_weighed(&upper, Part::Frame, SizeIndex(0), &upper[0]).unwrap();
    assert_close(below.mass.value, 2400.0, 1e-9);
    assert_eq!(below.note, Some(WeightNote::BeyondWeighed { size: SizeIndex(0), weighed: [SizeIndex(2), SizeIndex(3)] }));
}

#[test]
fn of_two_weights_of_a_size_the_weighed_one_counts() {
    let (claimed, weighed, later) = (
        published(2300.0, 60.0, SizeIndex(0), true),
        published(2400.0, 4.0, SizeIndex(0), false),
        published(2450.0, 4.0, SizeIndex(0), false),
    );
    let other = published(2600.0, 4.0, SizeIndex(2), false);
    let at_first = |list: &[Published]| between_weighed(list, Part::Frame, SizeIndex(0), &other).unwrap().mass.value;
    assert_close(at_first(&[claimed, weighed, other]), 2400.0, 1e-9);
    assert_close(at_first(&[weighed, claimed, other]), 2400.0, 1e-9);
    assert_close(at_first(&[weighed, later, other]), 2400.0, 1e-9);
    assert_close(at_first(&[claimed, published(2350.0, 60.0, SizeIndex(0), true), other]), 2300.0, 1e-9);
    let nowhere = Published { size: None, ..weighed };
    for too_few in [&[][..], &[other], &[claimed, weighed], &[nowhere, other]] {
        assert_eq!(between_weighed(too_few, Part::Frame, SizeIndex(0), &other), Err(NoWay::FewerThanTwoSizes));
    }
}

/// 20 mm of steerer between two sizes; each end's u and that of a millimetre's weight go in.
#[test]
fn a_longer_steerer_weighs_its_millimetres() {
    let frameset = steel("(part: Fork, size: \"M\", grams: 1370, from: Weighed(to: 5))", "fork: (material: Steel),");
    let adjusted = adjust(&frameset);
    let [m, l] = [SizeIndex(2), SizeIndex(3)].map(|size| adjusted.sizes[size].value(Figure::HeadTube));
    let found = at(&frameset, "L", &WeightChoices::default(), &WeightSettings::default()).fork.unwrap();
    let found = found.estimate().unwrap();
    let SizeStep::Steerer { mm, change } = found.step else { panic!("{:?}", found.step) };
    assert_close(mm, l.value - m.value, 1e-12);
    // Steel: 1.07 ± 0.25 g/mm where the file does not say.
    let grams = (l.value - m.value) * 1.07;
    let longer = adjusted.difference(SizeIndex(3), SizeIndex(2), Figure::HeadTube).unwrap().u;
    assert!(longer <= m.u.hypot(l.u), "{longer}");
    let u = (1.07 * longer).hypot((l.value - m.value) * 0.125);
    assert_close(change.value, grams, 1e-9);
    assert_close(change.u, u, 1e-9);
    assert_close(found.way_u, u, 1e-9);
    assert_close(found.mass.value, 1370.0 + grams, 1e-9);
    assert_close(found.percent.value, grams / 13.7, 1e-9);
    assert_close(found.percent.u, u / 13.7, 1e-9);
    // Without head tubes there is no steerer's length.
    let mut unknown = frameset.clone();
    for size in &mut unknown.sizes {
        for figure in [Figure::HeadTube, Figure::HeadAngle, Figure::AxleToCrownAlongAxis, Figure::ForkOffset] {
            size.figures.remove(&figure);
        }
    }
    let none = at(&unknown, "L", &WeightChoices::default(), &WeightSettings::default()).fork.unwrap();
    assert_eq!(none.ways.unwrap().tube_lengths, Err(NoWay::HeadTubeUnknown { size: SizeIndex(2) }));
}

/// What a frameset's fork weighs does not grow with its tubes: F is the frame's fixed parts and the fork.
#[test]
fn a_frameset_keeps_its_forks_weight() {
    let weights = |fork: &str| {
        let text = format!(
            "(part: Frame, size: \"M\", grams: 2600, from: Weighed(to: 5)), (part: Frameset, size: \"M\", grams: 3900, from: Weighed(to: 5)){fork}"
        );
        let found = at(&steel(&text, TYPICAL), "L", &WeightChoices::default(), &WeightSettings::default());
        let by_tubes = |part: Part| found.part(part).unwrap().ways.clone().unwrap().tube_lengths.unwrap().mass.value;
        // 500 g of a steel frame's fixed parts.
        let ratio = (by_tubes(Part::Frame) - 500.0) / (2600.0 - 500.0);
        (by_tubes(Part::Frameset), ratio)
    };
    let (found, ratio) = weights(", (part: Fork, grams: 1000, from: Claimed)");
    assert!(ratio > 1.01, "{ratio}");
    assert_close(found, 1500.0 + 2400.0 * ratio, 1e-9);
    // An assumed fork of steel weighs 1100 g.
    let (found, ratio) = weights("");
    assert_close(found, 1600.0 + 2300.0 * ratio, 1e-9);
}
