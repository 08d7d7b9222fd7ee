//! Made-up framesets whose truth is known: states drawn at random within what frames look like, their figures computed
//! by the library's formulas and printed to a step. Not a test by itself.

#![allow(dead_code, reason = "no test that shares these framesets asks for all of them")]

pub(crate) mod tables;

use spandrel::frameset::{Figure, Frameset, Size, read_frameset};
use spandrel::geometry::{Quantity, State, TopTubeShape, closure, figure};

/// A small reproducible source of random numbers (splitmix64, Steele, Lea & Flood 2014), so that every run of the tests
/// sees the same framesets.
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5851_f42d_4c95_7f2d)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Even between `low` and `high`.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Normal with standard deviation `sigma` (the sum of twelve even numbers, which never strays beyond 6 σ).
    pub(crate) fn normal(&mut self, mean: f64, sigma: f64) -> f64 {
        mean + sigma * ((0..12).map(|_| self.between(0.0, 1.0)).sum::<f64>() - 6.0)
    }

    /// One of 0 … n − 1.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        usize::try_from(self.next() % n as u64).unwrap()
    }

    pub(crate) fn one_of<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())]
    }

    /// True in `percent` of a hundred cases.
    pub(crate) fn chance(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }
}

/// How the assumptions stand to the truth.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Assumptions {
    /// Every assumption is exactly right.
    Right,
    /// Every assumption is off by what its u allows.
    AsSure,
}

/// A frameset with its truth.
#[derive(Debug)]
pub(crate) struct MadeUp {
    pub(crate) frameset: Frameset,
    pub(crate) truth: Vec<State<f64>>,
}

/// The dozen that most makers print.
pub(crate) const USUAL: [Figure; 12] = [
    Figure::Stack,
    Figure::Reach,
    Figure::EffectiveTopTube,
    Figure::HeadAngle,
    Figure::SeatAngle,
    Figure::HeadTube,
    Figure::SeatTube,
    Figure::AxleToCrownAlongAxis,
    Figure::ForkOffset,
    Figure::Chainstay,
    Figure::BbDrop,
    Figure::Wheelbase,
];

/// The top tube that a frameset without stated tubes is taken to have, straight and 28.6 mm thick.
pub(crate) const TOP_TUBE: TopTubeShape = TopTubeShape { radius_mm: 14.3, rise_midway_mm: 0.0 };

/// States of `count` sizes that belong together.
fn states(
    dice: &mut Dice,
    count: usize,
    lower_headset: (f64, f64),
    tyre_radius: f64,
    assumptions: Assumptions,
) -> Vec<State<f64>> {
    let off = |dice: &mut Dice, value: f64, u: f64| match assumptions {
        Assumptions::Right => value,
        Assumptions::AsSure => dice.normal(value, u),
    };
    let lower = off(dice, lower_headset.0, lower_headset.1).max(0.0);
    let radius = off(dice, tyre_radius, 2.0);
    let fork_length = dice.between(375.0, 500.0);
    let offset = dice.between(40.0, 60.0);
    let (stack, reach) = (dice.between(540.0, 600.0), dice.between(350.0, 390.0));
    let head_angle = dice.between(68.0, 72.0);
    let seat_angle = dice.between(73.0, 75.0);
    let (chainstay, drop) = (dice.between(425.0, 460.0), dice.between(50.0, 78.0));
    (0..count)
        .map(|i| {
            let k = i as f64;
            let mut state = State::start();
            let mut set = |q: Quantity, value: f64| state.0[q.index()] = value;
            set(Quantity::Stack, stack + k * dice.between(14.0, 24.0));
            set(Quantity::Reach, reach + k * dice.between(7.0, 13.0));
            set(Quantity::HeadAngle, head_angle + k * dice.between(0.0, 0.5));
            set(Quantity::SeatAngle, seat_angle - k * dice.between(0.0, 0.4));
            set(Quantity::SeatTube, 420.0 + k * dice.between(25.0, 45.0));
            set(Quantity::SeatTubeSetback, off(dice, 0.0, 0.5));
            set(Quantity::AxleToCrown, fork_length);
            set(Quantity::ForkOffset, offset);
            set(Quantity::Chainstay, chainstay);
            set(Quantity::BbDrop, drop);
            set(Quantity::TopTubeBelowHeadTubeTop, off(dice, 30.0, 8.0));
            set(Quantity::TopTubeBelowSeatTubeTop, off(dice, 35.0, 15.0));
            set(Quantity::DownTubeAboveHeadTubeBottom, off(dice, 40.0, 8.0));
            set(Quantity::LowerHeadset, lower);
            set(Quantity::RearTyreRadius, radius);
            set(Quantity::FrontTyreRadius, radius);
            // The head tube that lets both wheels stand on the road; its length is what a frame is built to.
            for _ in 0..60 {
                state.0[Quantity::HeadTube.index()] += closure(&state) / state.get(Quantity::HeadAngle).to_radians().sin();
            }
            state
        })
        .collect()
}

/// A frameset of `count` sizes that prints `printed` to `mm` and `deg`, rounded when `rounded`.
pub(crate) fn frameset(
    dice: &mut Dice,
    count: usize,
    printed: &[Figure],
    (mm, deg): (f64, f64),
    rounded: bool,
    assumptions: Assumptions,
) -> MadeUp {
    loop {
        let (fit, lower) = dice.one_of(&[("EC44/40", (12.0, 3.0)), ("ZS44/30", (1.5, 1.5)), ("EC34/30", (12.0, 3.0))]);
        let (tyre, radius) = dice.one_of(&[("47-622", 358.0), ("57-622", 368.0), ("50-584", 342.0), ("40-622", 351.0)]);
        let truth = states(dice, count, lower, radius, assumptions);
        let mut sizes = String::new();
        for (i, state) in truth.iter().enumerate() {
            let mut figures = String::new();
            for f in printed {
                let value = figure(*f, state, TOP_TUBE);
                let step = if f.is_angle() { deg } else { mm };
                let value = if rounded { (value / step).round() * step } else { value };
                figures.push_str(&format!("{}: {value:.12}, ", f.about().name));
            }
            sizes.push_str(&format!("(label: \"{i}\", figures: {{{figures}}}), "));
        }
        let text = format!(
            "Frameset(format: 1, maker: \"Marrowby\", model: \"Drift\", printed_to: (mm: {mm:?}, deg: {deg:?}), tyre: \"{tyre}\",
             standards: {{LowerHeadset: \"{fit}\"}}, sizes: [{sizes}])"
        );
        // A drawn head tube may come out shorter than any maker's: then the dice are thrown again.
        if let Ok(frameset) = read_frameset(text.as_bytes()) {
            return MadeUp { frameset, truth };
        }
    }
}

/// What a size prints of a figure, to be changed.
pub(crate) fn printed_value(size: &mut Size, figure: Figure) -> &mut f64 {
    size.figures.get_mut(&figure).unwrap()
}
