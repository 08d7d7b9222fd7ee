//! The stem and spacers that put the hands in the same place on another frame.
//!
//! With a the length along the steering axis above the head tube and L the stem, the clamp is at
//! top + a (−cos θ, sin θ) + L (sin(θ − α), cos(θ − α)). Two equations, two unknowns, of determinant −cos α:
//! a = (Δy sin(θ − α) − Δx cos(θ − α)) / cos α and L = (Δy cos θ + Δx sin θ) / cos α.

use super::super::verdict::Caution;
use super::cockpit::{Cockpit, HALF_STEM_MM, Hand, Handlebar, hands};
use super::upper_headset::UpperHeadset;
use crate::frameset::{Bar, Figure};
use crate::geometry::{AdjustedSize, Point, Quantity as Q, Scalar, State};
use crate::units::{Length, Measured};

/// Most spacers under a stem, mm: trade practice, unverified; the makers of steerer and stem decide.
pub const MOST_SPACERS_MM: f64 = 40.0;
/// Shortest stem, mm: trade practice, unverified.
pub const SHORTEST_STEM_MM: f64 = 35.0;
/// Longest stem, mm: trade practice, unverified.
pub const LONGEST_STEM_MM: f64 = 130.0;
/// Stem angles that are sold, degrees: trade practice, unverified.
const ANGLES_DEG: [f64; 9] = [-17.0, -10.0, -6.0, 0.0, 6.0, 10.0, 17.0, 25.0, 35.0];

/// Whether the position can be repeated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Works {
    /// With a stem of the same angle.
    AsIt,
    /// With a stem of another angle.
    WithAnotherAngle,
    /// Not at all.
    No,
}

impl Works {
    /// Its name in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::AsIt => "yes",
            Self::WithAnotherAngle => "with_another_angle",
            Self::No => "no",
        }
    }
}

/// The stem and spacers that repeat a position.
#[derive(Clone, Debug, PartialEq)]
pub struct Repeated {
    /// Whether it works.
    pub works: Works,
    /// Whether that holds within the ± too.
    pub is_sure: bool,
    /// Stem angle, degrees.
    pub stem_angle: f64,
    /// Stem length.
    pub stem: Measured<Length>,
    /// Spacers.
    pub spacers: Measured<Length>,
    /// The stem of the reference's angle, where that is not what works.
    pub refused: Option<RefusedStem>,
    /// Whether a drop bar goes on a frame that is designed for flat bars.
    pub is_drop_on_flat: bool,
    /// What to mind.
    pub caution: Caution,
}

/// A stem of the reference's angle that does not repeat the position: what it would need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RefusedStem {
    /// Stem angle, degrees.
    pub angle: f64,
    /// Stem length.
    pub stem: Measured<Length>,
    /// Spacers; negative where the bar stands too high without any.
    pub spacers: Measured<Length>,
    /// Whether that is outside what is done, whatever the ± makes of it.
    pub is_sure: bool,
}

/// One answer for one stem angle.
#[derive(Clone, Copy)]
struct Answer {
    angle: f64,
    stem: Measured<Length>,
    spacers: Measured<Length>,
}

impl Answer {
    /// How far outside what is done, mm; 0 within.
    fn misses(&self) -> f64 {
        let outside = |v: f64, low: f64, high: f64| (low - v).max(v - high).max(0.0);
        outside(self.spacers.value, 0.0, MOST_SPACERS_MM) + outside(self.stem.value, SHORTEST_STEM_MM, LONGEST_STEM_MM)
    }

    /// Whether it lies within what is done, whatever the ± makes of it: everywhere by more than the ±.
    fn surely_works(&self) -> bool {
        self.limits().iter().all(|inside| inside.is_clearly_above(0.0))
    }

    /// Whether it lies outside, whatever the ± makes of it: somewhere by more than the ±.
    fn surely_misses(&self) -> bool {
        self.limits().iter().any(|inside| inside.is_clearly_below(0.0))
    }

    /// How far inside each limit, negative outside.
    fn limits(&self) -> [Measured<Length>; 4] {
        let (spacers, stem) = (self.spacers, self.stem);
        [spacers, (-spacers).moved(MOST_SPACERS_MM), stem.moved(-SHORTEST_STEM_MM), (-stem).moved(LONGEST_STEM_MM)]
    }
}

/// Length above the head tube along the axis, and stem, that bring the clamp to `at`.
fn solve<T: Scalar>(state: &State<T>, at: Point<T>, angle_deg: f64) -> (T, T) {
    let (sin, cos) = state.get(Q::HeadAngle).sin_cos_deg();
    let (sin_stem, cos_stem) = (state.get(Q::HeadAngle) - T::of(angle_deg)).sin_cos_deg();
    let (dx, dy) = (at.x - state.get(Q::Reach), at.y - state.get(Q::Stack));
    let det = T::of(angle_deg.to_radians().cos());
    ((dy * sin_stem - dx * cos_stem) / det, (dy * cos + dx * sin) / det)
}

/// A frame's size with the headset that the stem stands on.
#[derive(Clone, Copy, Debug)]
pub struct Steered<'a> {
    /// The size.
    pub size: &'a AdjustedSize,
    /// Its upper headset.
    pub headset: UpperHeadset,
}

impl Steered<'_> {
    /// The reference's hands: forward of and above the bottom bracket. `None` where stack, reach or head angle is missing.
    #[must_use]
    pub fn hands(&self, cockpit: &Cockpit) -> Option<[Measured<Length>; 2]> {
        let stack_height = self.headset.stack_height;
        let of = |pick: fn(Point<crate::geometry::Jet>) -> crate::geometry::Jet| {
            self.size.propagate(|s| pick(hands(s, cockpit, stack_height.value, Hand::Main)))
        };
        let (sin, cos) = self.size.state.get(Q::HeadAngle).sin_cos_deg();
        let by_headset = |slope: f64| Measured::new(0.0, stack_height.u * slope);
        self.is_known().then(|| [of(|p| p.x).plus(by_headset(cos)), of(|p| p.y).plus(by_headset(sin))])
    }

    fn is_known(&self) -> bool {
        [Figure::Stack, Figure::Reach, Figure::HeadAngle].iter().all(|f| !self.size.value(*f).is_missing)
    }
}

/// What repeats the hands of `own` on `other`, the cockpit being `cockpit` there and the bar `bar` here. `None` where stack,
/// reach or head angle of either is missing. Two headsets share no error, even of one code.
#[must_use]
pub fn repeat(
    own: Steered<'_>,
    cockpit: &Cockpit,
    other: Steered<'_>,
    bar: Handlebar,
    drawn_for: Option<Bar>,
) -> Option<Repeated> {
    use crate::geometry::Jet;
    if !own.is_known() || !other.is_known() {
        return None;
    }
    let [upper, upper_here] = [own.headset.stack_height, other.headset.stack_height];
    let (bar_x, bar_y) = bar.offset(Hand::Main);
    let clamp_at = |upper_mm: f64| {
        let at = hands(&own.size.state, cockpit, upper_mm, Hand::Main);
        Point { x: at.x - bar_x, y: at.y - bar_y }
    };
    let (target, target_if_higher) = (clamp_at(upper.value), clamp_at(upper.value + upper.u));
    let answers = |angle: f64| {
        // The new frame's part of u, the target held; then the old frame's, the new one held; then the old headset's. Two
        // makers share no error.
        let part = |pick: fn((Jet, Jet)) -> Jet| {
            let held = |at: Point<f64>| Point { x: Scalar::of(at.x), y: Scalar::of(at.y) };
            let here: Measured<Length> = other.size.propagate(|s| pick(solve(s, held(target), angle)));
            let state = State(other.size.state.0.map(<Jet as Scalar>::of));
            let there: Measured<Length> = own.size.propagate(|s| {
                let at = hands(s, cockpit, upper.value, Hand::Main);
                pick(solve(&state, Point { x: at.x - Scalar::of(bar_x), y: at.y - Scalar::of(bar_y) }, angle))
            });
            let by_headset = (pick(solve(&state, held(target_if_higher), angle)).value - here.value).abs();
            here.plus(there.moved(-there.value)).plus(Measured::new(0.0, by_headset))
        };
        let spacers = part(|p| p.0).minus(upper_here).moved(-HALF_STEM_MM);
        Answer { angle, stem: part(|p| p.1), spacers }
    };
    let same = answers(cockpit.stem_angle);
    let (works, best, is_sure) = if same.misses() == 0.0 {
        (Works::AsIt, same, same.surely_works())
    } else {
        let mut others: Vec<Answer> = ANGLES_DEG.iter().map(|a| answers(*a)).collect();
        others.sort_by(|a, b| {
            let turn = |x: &Answer| (x.angle - cockpit.stem_angle).abs();
            a.misses().total_cmp(&b.misses()).then(turn(a).total_cmp(&turn(b)))
        });
        match others.first() {
            // The no to the same stem has its ± as well as the yes to the other.
            Some(other) if other.misses() == 0.0 => {
                (Works::WithAnotherAngle, *other, same.surely_misses() && other.surely_works())
            }
            _ => (Works::No, same, same.surely_misses() && others.iter().all(Answer::surely_misses)),
        }
    };
    Some(Repeated {
        works,
        is_sure,
        stem_angle: best.angle,
        stem: best.stem,
        spacers: best.spacers,
        refused: (works != Works::AsIt).then(|| RefusedStem {
            angle: same.angle,
            stem: same.stem,
            spacers: same.spacers,
            is_sure: same.surely_misses(),
        }),
        is_drop_on_flat: drawn_for == Some(Bar::Flat) && matches!(bar, Handlebar::Drop { .. }),
        caution: Caution::Spacers,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{Frameset, read_frameset};
    use crate::geometry::adjust;

    fn frame(stack: f64, reach: f64, head: f64) -> AdjustedSize {
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Marrowby\", model: \"Drift\", printed_to: (mm: 1, deg: 0.1),
             sizes: [(label: \"M\", figures: {{Stack: {stack}, Reach: {reach}, HeadAngle: {head}, SeatAngle: 73}})])"
        );
        let frameset: Frameset = read_frameset(text.as_bytes()).unwrap();
        adjust(&frameset).sizes.remove(0)
    }

    fn cockpit() -> Cockpit {
        Cockpit { stem_length: 90.0, stem_angle: -6.0, spacers: 20.0, ..Cockpit::default() }
    }

    /// Both headsets stand 10 mm high to ± 2 `u`.
    fn repeated_on(
        own: &AdjustedSize,
        cockpit: &Cockpit,
        other: &AdjustedSize,
        bar: Handlebar,
        drawn_for: Option<Bar>,
        u: f64,
    ) -> Option<Repeated> {
        let headset = UpperHeadset { stack_height: Measured::new(10.0, u), is_entered: false, kind: None };
        super::repeat(Steered { size: own, headset }, cockpit, Steered { size: other, headset }, bar, drawn_for)
    }

    /// The same where both headsets are known exactly.
    fn repeat(
        own: &AdjustedSize,
        cockpit: &Cockpit,
        other: &AdjustedSize,
        bar: Handlebar,
        drawn_for: Option<Bar>,
    ) -> Option<Repeated> {
        repeated_on(own, cockpit, other, bar, drawn_for, 0.0)
    }

    fn hands(state: &State<f64>, cockpit: &Cockpit, hand: Hand) -> Point<f64> {
        super::hands(state, cockpit, 10.0, hand)
    }

    /// On parallel head tubes a headset that stands 3 mm higher takes 3 mm of spacers: of both together √2 · 3 mm of u, and
    /// nothing of the stem.
    #[test]
    fn the_heights_of_both_headsets_are_in_the_spacers() {
        let own = frame(600.0, 390.0, 71.0);
        let [exact, assumed] = [0.0, 3.0].map(|u| repeated_on(&own, &cockpit(), &own, cockpit().bar, None, u).unwrap());
        assert!((exact.spacers.value - assumed.spacers.value).abs() < 1e-9);
        let by_headsets = (assumed.spacers.u.powi(2) - exact.spacers.u.powi(2)).sqrt();
        assert!((by_headsets - 18f64.sqrt()).abs() < 1e-6, "{by_headsets}");
        assert!((assumed.stem.u - exact.stem.u).abs() < 1e-6);
        // Hands go up the axis by as much: 3 sin 71°, 3 cos 71°.
        let with = |u: f64| {
            let headset = UpperHeadset { stack_height: Measured::new(10.0, u), is_entered: false, kind: None };
            Steered { size: &own, headset }.hands(&cockpit()).unwrap()
        };
        let ([x, y], [x_wide, y_wide]) = (with(0.0), with(3.0));
        assert!(((x_wide.u.powi(2) - x.u.powi(2)).sqrt() - 3.0 * 71f64.to_radians().cos()).abs() < 0.01);
        assert!(((y_wide.u.powi(2) - y.u.powi(2)).sqrt() - 3.0 * 71f64.to_radians().sin()).abs() < 0.01);
    }

    /// 5 mm lower here than there: 5 mm more spacers.
    #[test]
    fn a_lower_headset_is_made_up_by_spacers() {
        let own = frame(600.0, 390.0, 71.0);
        let with = |height: f64| UpperHeadset { stack_height: Measured::exact(height), is_entered: false, kind: None };
        let there = Steered { size: &own, headset: with(13.0) };
        let here = Steered { size: &own, headset: with(8.0) };
        let found = super::repeat(there, &cockpit(), here, cockpit().bar, None).unwrap();
        assert!((found.spacers.value - 25.0).abs() < 1e-9 && (found.stem.value - 90.0).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn the_same_frame_repeats_itself() {
        let own = frame(600.0, 390.0, 71.0);
        let repeated = repeat(&own, &cockpit(), &own, cockpit().bar, None).unwrap();
        assert_eq!((repeated.works, repeated.refused), (Works::AsIt, None));
        assert!((repeated.stem.value - 90.0).abs() < 1e-9 && (repeated.spacers.value - 20.0).abs() < 1e-9);
    }

    #[test]
    fn the_hands_come_out_where_they_were() {
        let (own, other) = (frame(600.0, 390.0, 71.0), frame(615.0, 400.0, 69.0));
        let repeated = repeat(&own, &cockpit(), &other, cockpit().bar, None).unwrap();
        let there = Cockpit {
            stem_length: repeated.stem.value,
            spacers: repeated.spacers.value,
            stem_angle: repeated.stem_angle,
            ..cockpit()
        };
        let (a, b) = (hands(&own.state, &cockpit(), Hand::Main), hands(&other.state, &there, Hand::Main));
        assert!((a.x - b.x).abs() < 1e-9 && (a.y - b.y).abs() < 1e-9);
        // Printed to 1 mm on both: at least √2 · 0.29 mm of u.
        assert!(repeated.stem.u > 0.4 && repeated.spacers.u > 0.4);
    }

    #[test]
    fn a_clear_no_where_it_cannot_be() {
        let own = frame(560.0, 390.0, 71.0);
        // 80 mm more stack: even the lowest stem stands too high.
        let tall = repeat(&own, &cockpit(), &frame(640.0, 390.0, 71.0), cockpit().bar, None).unwrap();
        assert_eq!(tall.works, Works::No);
        assert!(tall.refused.unwrap().spacers.value < 0.0, "{tall:?}");
        // 60 mm less stack: more than 40 mm of spacers, unless the stem rises.
        let low = repeat(&own, &cockpit(), &frame(510.0, 385.0, 71.0), cockpit().bar, None).unwrap();
        assert_eq!(low.works, Works::WithAnotherAngle);
        assert!(low.refused.unwrap().spacers.value > MOST_SPACERS_MM, "{low:?}");
    }

    #[test]
    fn a_no_within_its_plus_minus_is_not_sure() {
        let own = frame(560.0, 390.0, 71.0);
        let at = |stack: f64| repeat(&own, &cockpit(), &frame(stack, 390.0, 71.0), cockpit().bar, None).unwrap();
        // The stack at which the same stem needs a few tenths of a millimetre more than 40 mm, printed to 1 mm.
        let edge = (520..560).map(|s| at(f64::from(s))).find(|r| r.refused.is_some_and(|s| !s.is_sure)).unwrap();
        assert_eq!((edge.works, edge.is_sure), (Works::WithAnotherAngle, false), "{edge:?}");
        let clear = at(520.0);
        assert_eq!(clear.works, Works::WithAnotherAngle);
        assert!(clear.refused.unwrap().is_sure, "{clear:?}");
        // And a no to all stems: by 80 mm it is sure.
        assert!(at(640.0).is_sure);
    }

    #[test]
    fn a_flat_bar_frame_is_too_long_for_drops() {
        let flat = Cockpit { stem_length: 60.0, bar: Handlebar::Flat { width: 760.0, rise: 10.0, sweep: 8.0 }, ..cockpit() };
        let own = frame(620.0, 430.0, 68.0);
        let drop = Handlebar::Drop { reach: 75.0, drop: 120.0, hoods: 30.0 };
        let repeated = repeat(&own, &flat, &own, drop, Some(Bar::Flat)).unwrap();
        assert_eq!(repeated.works, Works::No);
        assert!(repeated.refused.unwrap().stem.value < SHORTEST_STEM_MM, "{repeated:?}");
        assert!(repeated.is_drop_on_flat);
        // And the way back is longer by as much.
        let back = repeat(&own, &Cockpit { bar: drop, stem_length: 40.0, ..flat }, &own, flat.bar, Some(Bar::Flat)).unwrap();
        assert!(back.stem.value > 130.0, "{:?}", back.stem);
        assert!(!back.is_drop_on_flat);
    }

    #[test]
    fn a_stem_and_spacers_are_judged_by_the_worst_limit() {
        let answer = |spacers, stem| Answer { angle: 0.0, stem: Measured::new(stem, 1.0), spacers: Measured::new(spacers, 1.0) };
        // Spacers 0 to 40 mm, stems 35 to 130 mm; the ± is 2 mm.
        for (spacers, stem, misses, surely_works, surely_misses) in [
            (20.0, 90.0, 0.0, true, false),
            (1.0, 90.0, 0.0, false, false),
            (39.0, 90.0, 0.0, false, false),
            (20.0, 36.0, 0.0, false, false),
            (20.0, 129.0, 0.0, false, false),
            (-1.0, 90.0, 1.0, false, false),
            (-3.0, 90.0, 3.0, false, true),
            (41.0, 90.0, 1.0, false, false),
            (43.0, 90.0, 3.0, false, true),
            (20.0, 32.0, 3.0, false, true),
            (20.0, 133.0, 3.0, false, true),
            (50.0, 30.0, 15.0, false, true),
            (-10.0, 140.0, 20.0, false, true),
        ] {
            let answer = answer(spacers, stem);
            assert_eq!(answer.misses(), misses, "{spacers} {stem}");
            assert_eq!((answer.surely_works(), answer.surely_misses()), (surely_works, surely_misses), "{spacers} {stem}");
        }
    }

    #[test]
    fn another_bar_is_made_up_for() {
        let own = frame(600.0, 390.0, 71.0);
        let bar = Handlebar::Flat { width: 730.0, rise: 15.0, sweep: 0.0 };
        let repeated = repeat(&own, &cockpit(), &own, bar, None).unwrap();
        let stem = repeated.refused.unwrap();
        let there = Cockpit { stem_length: stem.stem.value, spacers: stem.spacers.value, bar, ..cockpit() };
        let (a, b) = (hands(&own.state, &cockpit(), Hand::Main), hands(&own.state, &there, Hand::Main));
        assert!((a.x - b.x).abs() < 1e-9 && (a.y - b.y).abs() < 1e-9, "{a:?} {b:?}");
    }

    #[test]
    fn of_the_stems_that_work_the_most_alike_is_taken() {
        // 24 mm less stack: 45 mm of spacers with the same stem, about 9 mm less with a level one. Steeper ones work too.
        let own = frame(560.0, 390.0, 71.0);
        let repeated = repeat(&own, &cockpit(), &frame(536.0, 390.0, 71.0), cockpit().bar, None).unwrap();
        assert_eq!((repeated.works, repeated.is_sure, repeated.stem_angle), (Works::WithAnotherAngle, true, 0.0), "{repeated:?}");
    }

    #[test]
    fn nothing_is_repeated_on_or_from_an_unknown_frame() {
        let text = "Frameset(format: 2, maker: \"Quern\", model: \"Halter\", sizes: [(label: \"M\", figures: {Stack: 600, Reach: 390})])";
        let unknown = adjust(&read_frameset(text.as_bytes()).unwrap()).sizes.remove(0);
        let known = frame(600.0, 390.0, 71.0);
        assert!(unknown.value(Figure::HeadAngle).is_missing);
        assert!(repeat(&known, &cockpit(), &known, cockpit().bar, None).is_some());
        for (own, other) in [(&known, &unknown), (&unknown, &known), (&unknown, &unknown)] {
            assert!(repeat(own, &cockpit(), other, cockpit().bar, None).is_none());
        }
    }
}
