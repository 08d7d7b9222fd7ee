//! What must hold for any frame: properties of figures, adjustment and files, tried on random ones.
//!
//! Framesets are made up from a random seed (`made_up`), so that a failing case is repeated by its seed alone. The seeds
//! are the same in every run; `PROPTEST_CASES=5000` tries more of them.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::doc_markdown,
    clippy::type_complexity,
    reason = "what checks and measures may panic, print and write formulas in its comments"
)]

mod made_up;

use made_up::{Assumptions, Dice, TOP_TUBE, USUAL, frameset, printed_value};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use spandrel::frameset::{Figure, Frameset, SizeIndex, Stated, check_figure};
use spandrel::geometry::{
    Adjusted, Point, Quantity, STATES, SlipKind, State, adjust, budget, figure, outline, points, settled_by,
};

/// Other figures that a maker may print beside the usual dozen.
const FURTHER: [Figure; 9] = [
    Figure::FrontCentre,
    Figure::FrontCentreHorizontal,
    Figure::Standover,
    Figure::TopTube,
    Figure::BbHeight,
    Figure::Trail,
    Figure::ChainstayHorizontal,
    Figure::SeatTubeAngle,
    Figure::LowerHeadset,
];

/// The usual dozen with some left out and some further ones, and any of the three fork lengths.
fn some_figures(dice: &mut Dice, percent_usual: usize, percent_further: usize) -> Vec<Figure> {
    let fork = dice.one_of(&[Figure::AxleToCrownAlongAxis, Figure::AxleToCrownDirect, Figure::AxleToCrown]);
    let mut figures: Vec<Figure> = USUAL
        .iter()
        .map(|f| if *f == Figure::AxleToCrownAlongAxis { fork } else { *f })
        .filter(|_| dice.chance(percent_usual))
        .collect();
    figures.extend(FURTHER.iter().filter(|_| dice.chance(percent_further)));
    figures
}

// --- Turning and shifting -------------------------------------------------------------------------------------------

/// A turn by `angle_rad` followed by a shift.
#[derive(Clone, Copy, Debug)]
struct Motion {
    angle_rad: f64,
    dx: f64,
    dy: f64,
}

impl Motion {
    fn of(self, p: Point<f64>) -> Point<f64> {
        let (sin, cos) = self.angle_rad.sin_cos();
        Point { x: p.x * cos - p.y * sin + self.dx, y: p.x * sin + p.y * cos + self.dy }
    }
}

fn minus(a: Point<f64>, b: Point<f64>) -> Point<f64> {
    Point { x: a.x - b.x, y: a.y - b.y }
}

fn along(v: Point<f64>, unit: Point<f64>) -> f64 {
    v.x * unit.x + v.y * unit.y
}

fn length(v: Point<f64>) -> f64 {
    v.x.hypot(v.y)
}

/// The figures measured on points anywhere in the plane, as one measures a drawing: the road is the line that both tyres
/// touch, level is along it, and the bottom bracket is where it is.
fn measured(state: &State<f64>, motion: Motion) -> Vec<(Figure, f64)> {
    let p = points(state);
    let m = |point| motion.of(point);
    let bb = m(Point { x: 0.0, y: 0.0 });
    let (rear, front) = (m(p.rear_axle), m(p.front_axle));
    let (head_top, head_bottom, crown) = (m(p.head_top), m(p.head_bottom), m(p.crown));
    let (r_rear, r_front) = (state.get(Quantity::RearTyreRadius), state.get(Quantity::FrontTyreRadius));
    // The common tangent under two circles: the axles' line falls off it by asin((r_rear − r_front) / distance) to the front.
    let axles = minus(front, rear);
    let tilt = ((r_rear - r_front) / length(axles)).asin();
    let turned = Motion { angle_rad: tilt, dx: 0.0, dy: 0.0 }.of(axles);
    let forward = Point { x: turned.x / length(axles), y: turned.y / length(axles) };
    let up = Point { x: -forward.y, y: forward.x };
    let road = |point: Point<f64>| along(minus(point, rear), up) + r_rear;
    let down_axis = {
        let v = minus(head_bottom, head_top);
        Point { x: v.x / length(v), y: v.y / length(v) }
    };
    let ahead = Point { x: -down_axis.y, y: down_axis.x };
    let angle = |v: Point<f64>| along(v, up).atan2(along(v, forward)).to_degrees();
    let axis_meets_road = {
        let t = road(head_top) / -along(down_axis, up);
        Point { x: head_top.x + down_axis.x * t, y: head_top.y + down_axis.y * t }
    };
    let from_seat = minus(m(p.seat_at_stack), bb);
    let tube = minus(m(p.seat_top), m(p.seat_foot));
    let (tt_rear, tt_front) = (m(p.top_tube_rear), m(p.top_tube_front));
    let middle = Point { x: f64::midpoint(tt_rear.x, tt_front.x), y: f64::midpoint(tt_rear.y, tt_front.y) };
    let slope = minus(tt_front, tt_rear);
    vec![
        (Figure::Stack, along(minus(head_top, bb), up)),
        (Figure::Reach, along(minus(head_top, bb), forward)),
        (Figure::HeadAngle, 180.0 - angle(minus(head_top, head_bottom))),
        (Figure::SeatAngle, 180.0 - angle(from_seat)),
        (Figure::EffectiveTopTube, along(minus(head_top, m(p.seat_at_stack)), forward)),
        (Figure::HeadTube, length(minus(head_bottom, head_top))),
        (Figure::LowerHeadset, length(minus(crown, head_bottom))),
        (Figure::AxleToCrownAlongAxis, along(minus(front, crown), down_axis)),
        (Figure::AxleToCrownDirect, length(minus(front, crown))),
        (Figure::ForkOffset, along(minus(front, crown), ahead)),
        (Figure::Chainstay, length(minus(rear, bb))),
        (Figure::ChainstayHorizontal, along(minus(bb, rear), forward)),
        (Figure::BbDrop, along(minus(rear, bb), up)),
        (Figure::BbHeight, road(bb)),
        (Figure::Wheelbase, along(axles, forward)),
        (Figure::FrontCentre, length(minus(front, bb))),
        (Figure::FrontCentreHorizontal, along(minus(front, bb), forward)),
        (Figure::Trail, along(minus(axis_meets_road, front), forward)),
        (Figure::SeatTube, length(tube)),
        (Figure::SeatTubeAngle, 180.0 - angle(tube)),
        (Figure::TopTube, length(slope)),
        (Figure::Standover, road(middle) + TOP_TUBE.radius_mm * length(slope) / along(slope, forward)),
    ]
}

/// So many cases unless the environment asks for another number, always the same ones.
fn config(cases: u32) -> ProptestConfig {
    let cases = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok()).unwrap_or(cases);
    ProptestConfig { cases, failure_persistence: None, rng_seed: RngSeed::Fixed(2026), ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config(200))]

    /// Turned and shifted, then measured as a drawing is, every figure is what its formula says: the formulas use no
    /// accident of where the origin lies or how the sheet hangs.
    #[test]
    fn turning_or_shifting_changes_no_figure(seed: u64, angle_rad in -3.0..3.0f64, dx in -5e3..5e3f64, dy in -5e3..5e3f64) {
        let mut dice = Dice::new(seed);
        let made_up = frameset(&mut dice, 1, &USUAL, (1.0, 0.5), true, Assumptions::AsSure);
        let mut state = made_up.truth[0];
        // Unlike tyres, still on one road, and a seat tube that passes behind the bottom bracket.
        let smaller = dice.between(0.0, 30.0);
        state.0[Quantity::FrontTyreRadius.index()] -= smaller;
        state.0[Quantity::HeadTube.index()] += smaller / state.get(Quantity::HeadAngle).to_radians().sin();
        state.0[Quantity::SeatTubeSetback.index()] = dice.between(-20.0, 60.0);
        for (f, drawn) in measured(&state, Motion { angle_rad, dx, dy }) {
            let formula = figure(f, &state, TOP_TUBE);
            prop_assert!((drawn - formula).abs() < 1e-8, "{:?}: measured {}, by formula {}", f, drawn, formula);
        }
    }
}

// --- The adjustment -------------------------------------------------------------------------------------------------

/// The largest difference between two adjustments of the same sizes, as (values in u, u relative).
fn difference(a: &Adjusted, b: &Adjusted, size_of_b: impl Fn(usize) -> usize) -> (f64, f64) {
    let (mut values, mut us) = (0.0_f64, 0.0_f64);
    for (i, size) in a.sizes.iter().enumerate() {
        for (x, y) in size.values().iter().zip(b.sizes[size_of_b(i)].values()) {
            values = values.max((x.value - y.value).abs() / x.u);
            us = us.max((x.u / y.u - 1.0).abs());
        }
    }
    (values, us)
}

proptest! {
    #![proptest_config(config(60))]

    /// Figures printed without rounding, to a step of a ten-thousandth, of a frame that every assumption fits: all
    /// figures come back, printed or not. What leans on an assumption of some u is drawn a little towards the start
    /// values of ± 1000 mm (none of which is 20 mm away): by 2 · 20 · (u / 1000)² at most, below u / 10,000.
    #[test]
    fn a_frame_with_exact_figures_comes_back_exactly(seed: u64) {
        let mut dice = Dice::new(seed);
        let count = 1 + dice.below(4);
        let made_up = frameset(&mut dice, count, &USUAL, (1e-4, 1e-4), false, Assumptions::Right);
        let adjusted = adjust(&made_up.frameset);
        prop_assert!(adjusted.converged);
        for (size, truth) in adjusted.sizes.iter().zip(&made_up.truth) {
            prop_assert!(size.doubts.is_empty());
            for value in size.values() {
                let exact = figure(value.figure, truth, size.top_tube);
                let within = 1e-5 + 1e-4 * value.u;
                prop_assert!((value.value - exact).abs() < within, "{:?}: {} is not {}", value.figure, value.value, exact);
            }
        }
    }

    /// A figure printed to a coarser step in every size never makes any u smaller: less information is less. (In *one*
    /// size it may, where a fork printed alike to the same step in all sizes then no longer counts as one common fork.)
    /// The figures are exact, so that both adjustments are linear about the same state.
    #[test]
    fn coarser_steps_never_make_u_smaller(seed: u64) {
        let mut dice = Dice::new(seed);
        let figures = some_figures(&mut dice, 85, 20);
        // Of several sizes, equal figures are one measurement where the step is fine, and several where it is coarse.
        let count = 1;
        let fine = frameset(&mut dice, count, &figures, (1.0, 0.5), false, Assumptions::Right).frameset;
        // Whether figures are measured in another way is doubted the less, the finer they are: here the ways are stated.
        let ways = [Stated::ChainstayAlong, Stated::HeadTubeWithoutCups, Stated::TopTubeAlong, Stated::FrontCentreDirect];
        let fine = Frameset { stated: ways.to_vec(), ..fine };
        let mut coarse = fine.clone();
        for f in &figures {
            if dice.chance(40) {
                let factor = dice.between(1.0, 10.0);
                for size in &mut coarse.sizes {
                    let step = fine.step(size, *f) * factor;
                    size.rounded_to.insert(*f, step);
                }
            }
        }
        let (fine, coarse) = (adjust(&fine), adjust(&coarse));
        for (a, b) in fine.sizes.iter().zip(&coarse.sizes) {
            // What nothing determines is drawn to its start value by a hair more or less, and is never shown.
            for (x, y) in a.values().iter().zip(b.values()).filter(|(x, _)| !x.is_missing) {
                // The iteration stops within 1e-4 of a u, where the gradients are taken.
                prop_assert!(y.u >= x.u * (1.0 - 1e-4), "{:?}: {} became {}", x.figure, x.u, y.u);
            }
        }
    }

    /// The shares of a figure's budget add up to one, whatever is printed (a third of the figures each time): to 1e-9, and
    /// where the figure is much better known than the quantities that it is made of, to the digits that are left when
    /// their large variances cancel (sixteen, less two for the sums).
    #[test]
    fn budgets_add_up_to_one(seed: u64) {
        let mut dice = Dice::new(seed);
        let figures = some_figures(&mut dice, 70, 25);
        let count = 1 + dice.below(4);
        let made_up = frameset(&mut dice, count, &figures, (1.0, 0.5), true, Assumptions::AsSure);
        let size = dice.below(count);
        for f in Figure::ALL.iter().filter(|_| dice.chance(30)) {
            let all = adjust(&made_up.frameset);
            let shares = budget(&made_up.frameset, &all, SizeIndex(size), *f);
            let sum: f64 = shares.iter().map(|s| s.share).sum();
            let adjusted = &all.sizes[size];
            let largest = (0..STATES).map(|q| adjusted.covariance[q][q]).fold(0.0, f64::max);
            let within = 1e-9 + 1e-14 * largest / adjusted.value(*f).u.powi(2);
            prop_assert!((sum - 1.0).abs() < within, "{:?}: {} within {}", f, sum, within);
            prop_assert!(shares.iter().all(|s| s.share >= 0.0) && shares.windows(2).all(|w| w[0].share >= w[1].share));
        }
    }

    /// What the others give for a figure that is not used is what an adjustment without it gives: both solve anew.
    #[test]
    fn a_figure_that_is_not_used_is_expected_as_if_left_out(seed: u64) {
        let mut dice = Dice::new(seed);
        let count = 2 + dice.below(3);
        let mut frameset = frameset(&mut dice, count, &USUAL, (1.0, 0.5), true, Assumptions::AsSure).frameset;
        let wrong = dice.one_of(&USUAL);
        let size = dice.below(count);
        let by = if wrong.is_angle() { dice.between(3.0, 6.0) } else { dice.between(40.0, 80.0) };
        *printed_value(&mut frameset.sizes[size], wrong) += by;
        let adjusted = adjust(&frameset);
        for doubt in adjusted.sizes[size].doubts.iter().filter(|d| d.chance > 0.995 && !d.is_in_all_sizes && d.kind == SlipKind::Slip) {
            let mut without = frameset.clone();
            without.sizes[size].ignored.insert(doubt.figure, "left out".to_owned());
            let again = adjust(&without);
            // A second doubt, which either may have, is another story.
            if again.slip_free < 0.99 || adjusted.slips.iter().filter(|s| s.chance > 0.01).count() > 1 {
                continue;
            }
            let value = again.sizes[size].value(doubt.figure);
            prop_assert!((value.value - doubt.expected.value).abs() < 0.1 * value.u + 0.01, "{:?}: {} again", doubt, value.value);
            prop_assert!((value.u / doubt.expected.u - 1.0).abs() < 0.05, "{:?}: u {} again", doubt, value.u);
        }
    }

    /// Sizes in any order give the same figures, wherever the iteration settled. It does not always: a top tube's length
    /// printed without the seat tube's leaves the latter at a turning point, and about one such frameset in a hundred
    /// ends unsettled (`converged` is false), at the best values found.
    #[test]
    fn the_order_of_sizes_changes_nothing(seed: u64) {
        let mut dice = Dice::new(seed);
        let figures = some_figures(&mut dice, 85, 20);
        let count = 2 + dice.below(4);
        let ordered = frameset(&mut dice, count, &figures, (1.0, 0.5), true, Assumptions::AsSure).frameset;
        let mut places: Vec<usize> = (0..count).collect();
        for i in (1..count).rev() {
            places.swap(i, dice.below(i + 1));
        }
        let mut shuffled = ordered.clone();
        for (i, place) in places.iter().enumerate() {
            shuffled.sizes[*place] = ordered.sizes[i].clone();
        }
        let (a, b) = (adjust(&ordered), adjust(&shuffled));
        // Where something is looked for, even steps from size to size count, and so does their order.
        if !(a.converged && b.converged) || a.slip_free < 1.0 || b.slip_free < 1.0 {
            return Ok(());
        }
        let (values, us) = difference(&a, &b, |i| places[i]);
        prop_assert!(values < 1e-4 && us < 1e-6, "values differ by {} u, u by {}", values, us);
        prop_assert_eq!(a.slips.len(), b.slips.len());
    }
}

// --- Degenerate input -----------------------------------------------------------------------------------------------

/// A frameset of any figures with any accepted values, as contradictory as it comes.
fn anything(dice: &mut Dice) -> Frameset {
    let count = 1 + dice.below(6);
    let percent = dice.one_of(&[0, 5, 20, 50, 100]);
    let mut sizes = String::new();
    for i in 0..count {
        let mut figures = String::new();
        for f in Figure::printable() {
            if !dice.chance(percent) {
                continue;
            }
            let about = f.about();
            let value = match dice.below(4) {
                0 => about.low,
                1 => about.high,
                _ => dice.between(about.low, about.high),
            };
            assert_eq!(check_figure(f, value), Ok(()));
            figures.push_str(&format!("{}: {value:?}, ", about.name));
        }
        sizes.push_str(&format!("(label: \"{i}\", figures: {{{figures}}}), "));
    }
    let mm = dice.one_of(&[1e-6, 0.1, 1.0, 50.0]);
    let deg = dice.one_of(&[1e-6, 0.1, 0.5, 50.0]);
    let tyre = dice.one_of(&["", "tyre: \"18-203\",", "tyre: \"150-787\",", "tyre: \"47-622\", front_tyre: \"18-787\","]);
    let text =
        format!("Frameset(format: 1, maker: \"\", model: \"\", printed_to: (mm: {mm:?}, deg: {deg:?}), {tyre} sizes: [{sizes}])");
    spandrel::frameset::read_frameset(text.as_bytes()).unwrap_or_else(|e| panic!("{e}: {text}"))
}

proptest! {
    #![proptest_config(config(120))]

    /// Whatever a file may hold is answered: no panic, no NaN, u above zero, and nothing that is not known shown as a number.
    #[test]
    fn degenerate_input_is_answered(seed: u64) {
        let mut dice = Dice::new(seed);
        let frameset = anything(&mut dice);
        let adjusted = adjust(&frameset);
        prop_assert_eq!(adjusted.sizes.len(), frameset.sizes.len());
        prop_assert!((0.0..=1.0 + 1e-9).contains(&adjusted.slip_free));
        for (index, size) in adjusted.sizes.iter().enumerate() {
            for value in size.values() {
                prop_assert!(value.value.is_finite() && value.u.is_finite() && value.u >= 0.0, "{:?}", value);
            }
            prop_assert!(size.covariance.iter().flatten().all(|c| c.is_finite()));
            for d in &size.doubts {
                prop_assert!(d.expected.value.is_finite() && d.expected.u >= 0.0 && d.chance.is_finite(), "{:?}", d);
            }
            for missing in settled_by(&frameset, &frameset.sizes[index], size) {
                prop_assert!(missing.sets.len() <= 6);
            }
            let drawn = outline(&frameset, &adjusted, SizeIndex(index), None).unwrap();
            for tube in &drawn.tubes {
                prop_assert!(tube.outline.iter().all(|p| p.x.is_finite() && p.y.is_finite()), "{:?}", tube);
            }
        }
        let index = dice.below(frameset.sizes.len());
        let shares = budget(&frameset, &adjusted, SizeIndex(index), dice.one_of(Figure::ALL));
        prop_assert!(shares.iter().all(|s| s.share.is_finite()));
    }
}

/// Figures published to a nanometre that contradict one another by metres: all evidence is −1e19 and less, where a chance
/// added to it changes nothing.
#[test]
fn a_table_against_all_chance_is_answered() {
    let frameset = anything(&mut Dice::new(18183138686175979724));
    let adjusted = adjust(&frameset);
    assert!(adjusted.sizes.iter().all(|size| size.value(Figure::Stack).value > 1.0));
}
