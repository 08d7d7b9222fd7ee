//! Stem, spacers, bar and saddle, and the points that they put the hands at.
//!
//! A stem's angle is counted from square to the steering axis, up positive: −17° is level at a head angle of 73°. The
//! clamp of a stem is taken as 40 mm high, its middle 20 mm above the spacers (trade practice, unverified).

use serde::{Deserialize, Serialize};

use super::super::ranges::{bounded, bounded_option};
use crate::geometry::{Point, Quantity as Q, Scalar, State};

/// Half the height of a stem at the steerer, mm.
pub(super) const HALF_STEM_MM: f64 = 20.0;

/// A handlebar. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Handlebar {
    /// A flat or risen bar.
    Flat {
        /// End to end.
        #[serde(deserialize_with = "bounded::<_, 350, 1000>")]
        width: f64,
        /// How far the ends stand above the clamp.
        #[serde(default, deserialize_with = "bounded::<_, -60, 150>")]
        rise: f64,
        /// Backsweep of the ends, degrees.
        #[serde(default, deserialize_with = "bounded::<_, 0, 90>")]
        sweep: f64,
    },
    /// A drop bar.
    Drop {
        /// Clamp to the foremost point of the bend, level.
        #[serde(deserialize_with = "bounded::<_, 40, 130>")]
        reach: f64,
        /// Clamp down to the lower grips.
        #[serde(deserialize_with = "bounded::<_, 80, 200>")]
        drop: f64,
        /// The palms on the hoods ahead of that foremost point.
        #[serde(default = "hoods", deserialize_with = "bounded::<_, 0, 80>")]
        hoods: f64,
    },
}

fn hoods() -> f64 {
    30.0
}

/// Where the hands are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Hand {
    /// The grips of a flat bar, the hoods of a drop bar.
    Main,
    /// The tops of the bar, beside the stem.
    Tops,
    /// The lower grips of a drop bar; of a flat bar its grips.
    Drops,
}

/// The grip's middle stands this far in from the bar's end, mm: trade practice, unverified.
const GRIP_MIDDLE_MM: f64 = 65.0;

impl Handlebar {
    /// From the middle of the clamp to the hand: forward and up, mm.
    #[must_use]
    pub fn offset(self, hand: Hand) -> (f64, f64) {
        match (self, hand) {
            (_, Hand::Tops) => (0.0, 0.0),
            (Self::Flat { width, rise, sweep }, _) => {
                let half = (width / 2.0 - GRIP_MIDDLE_MM).max(0.0);
                (-half * sweep.to_radians().sin(), rise)
            }
            (Self::Drop { reach, hoods, .. }, Hand::Main) => (reach + hoods, 0.0),
            (Self::Drop { drop, .. }, Hand::Drops) => (0.0, -drop),
        }
    }
}

/// What stands on the steerer. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Cockpit {
    /// Stem, middle of steerer to middle of bar.
    #[serde(deserialize_with = "bounded::<_, 20, 160>")]
    pub stem_length: f64,
    /// Stem angle from square to the steering axis, degrees, up positive.
    #[serde(deserialize_with = "bounded::<_, -45, 60>")]
    pub stem_angle: f64,
    /// Spacers under the stem.
    #[serde(deserialize_with = "bounded::<_, 0, 150>")]
    pub spacers: f64,
    /// Upper headset above the head tube of the reference; where it is not entered, it is
    /// [assumed](super::UpperHeadset::of_reference).
    #[serde(alias = "upper_headset", deserialize_with = "bounded_option::<_, 0, 60>", skip_serializing_if = "Option::is_none")]
    pub upper_headset_stack_height: Option<f64>,
    /// Handlebar of the build.
    pub bar: Handlebar,
}

impl Default for Cockpit {
    fn default() -> Self {
        let bar = Handlebar::Drop { reach: 75.0, drop: 120.0, hoods: hoods() };
        Self { stem_length: 90.0, stem_angle: -6.0, spacers: 20.0, upper_headset_stack_height: None, bar }
    }
}

/// Where the saddle stands. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Saddle {
    /// Bottom bracket to the top of the saddle, straight.
    #[serde(deserialize_with = "bounded::<_, 400, 950>")]
    pub height: f64,
    /// The rails' clamp behind the bottom bracket, level.
    #[serde(deserialize_with = "bounded::<_, 0, 400>")]
    pub setback: f64,
}

/// The rider and what the rider sits on and holds. Nothing entered is nothing computed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Rider {
    /// Stem, spacers and bar on the reference frame.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cockpit: Option<Cockpit>,
    /// Another bar for the other frames.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bar_elsewhere: Option<Handlebar>,
    /// The saddle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub saddle: Option<Saddle>,
    /// Inside leg in shoes, mm.
    #[serde(skip_serializing_if = "Option::is_none", deserialize_with = "bounded_option::<_, 500, 1100>")]
    pub inside_leg: Option<f64>,
    /// Crank length, mm.
    #[serde(deserialize_with = "bounded::<_, 100, 220>")]
    pub crank: f64,
    /// Tip of the shoe ahead of the pedal's axle, mm.
    #[serde(deserialize_with = "bounded::<_, 0, 220>")]
    pub shoe_ahead: f64,
    /// Whether the feet are held to the pedals.
    #[serde(alias = "feet_held")]
    pub clipped_in: bool,
    /// How far the front mudguard stands off the tyre, mm; 0 without one.
    #[serde(deserialize_with = "bounded::<_, 0, 60>")]
    pub mudguard: f64,
}

impl Default for Rider {
    fn default() -> Self {
        Self {
            cockpit: None,
            bar_elsewhere: None,
            saddle: None,
            inside_leg: None,
            crank: 170.0,
            shoe_ahead: 100.0,
            clipped_in: false,
            mudguard: 0.0,
        }
    }
}

/// The middle of the bar's clamp, the upper headset standing `upper_mm` above the head tube.
pub(super) fn clamp<T: Scalar>(state: &State<T>, cockpit: &Cockpit, upper_mm: f64) -> Point<T> {
    let (sin, cos) = state.get(Q::HeadAngle).sin_cos_deg();
    let (sin_stem, cos_stem) = (state.get(Q::HeadAngle) - T::of(cockpit.stem_angle)).sin_cos_deg();
    let up = T::of(upper_mm + cockpit.spacers + HALF_STEM_MM);
    let stem = T::of(cockpit.stem_length);
    Point { x: state.get(Q::Reach) - cos * up + sin_stem * stem, y: state.get(Q::Stack) + sin * up + cos_stem * stem }
}

/// Where a hand is: forward of and above the bottom bracket, mm. The upper headset stands `upper_mm` above the head tube.
#[must_use]
pub fn hands<T: Scalar>(state: &State<T>, cockpit: &Cockpit, upper_mm: f64, hand: Hand) -> Point<T> {
    let clamp = clamp(state, cockpit, upper_mm);
    let (x, y) = cockpit.bar.offset(hand);
    Point { x: clamp.x + T::of(x), y: clamp.y + T::of(y) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::STATES;

    pub(super) fn state(stack: f64, reach: f64, head_angle: f64) -> State<f64> {
        let mut state = State([0.0; STATES]);
        state.0[Q::Stack.index()] = stack;
        state.0[Q::Reach.index()] = reach;
        state.0[Q::HeadAngle.index()] = head_angle;
        state
    }

    #[test]
    fn a_stem_of_minus_seventeen_is_level_at_seventy_three() {
        let cockpit = Cockpit { stem_length: 100.0, stem_angle: -17.0, spacers: 0.0, ..Cockpit::default() };
        let at = clamp(&state(600.0, 400.0, 73.0), &cockpit, 0.0);
        // 20 mm up the axis, then 100 mm level: x = 400 − 20 cos 73° + 100, y = 600 + 20 sin 73°.
        assert!((at.x - (500.0 - 20.0 * 73f64.to_radians().cos())).abs() < 1e-9);
        assert!((at.y - (600.0 + 20.0 * 73f64.to_radians().sin())).abs() < 1e-9);
    }

    #[test]
    fn bars_reach_as_they_are_drawn() {
        let drop = Handlebar::Drop { reach: 75.0, drop: 120.0, hoods: 30.0 };
        assert_eq!(drop.offset(Hand::Main), (105.0, 0.0));
        assert_eq!(drop.offset(Hand::Drops), (0.0, -120.0));
        let flat = Handlebar::Flat { width: 730.0, rise: 20.0, sweep: 0.0 };
        assert_eq!(flat.offset(Hand::Main), (0.0, 20.0));
        let swept = Handlebar::Flat { width: 730.0, rise: 0.0, sweep: 90.0 };
        assert!((swept.offset(Hand::Main).0 + 300.0).abs() < 1e-9);
    }

    #[test]
    fn old_files_read_and_impossible_ones_do_not() {
        assert_eq!(ron::from_str::<Rider>("()").unwrap(), Rider::default());
        assert!(ron::from_str::<Rider>("(crank: 17)").is_err());
        assert!(ron::from_str::<Cockpit>("(stem_length: 900)").is_err());
        assert!(ron::from_str::<Handlebar>("Flat(width: 200)").is_err());
    }

    #[test]
    fn hoods_that_are_not_given_lie_thirty_millimetres_ahead() {
        let bar = ron::from_str::<Handlebar>("Drop(reach: 75, drop: 120)").unwrap();
        assert_eq!(bar, Handlebar::Drop { reach: 75.0, drop: 120.0, hoods: 30.0 });
    }

    #[test]
    fn hands_are_where_the_bar_puts_them() {
        let state = state(600.0, 400.0, 72.0);
        for (bar, hand, ahead, above) in [
            (Handlebar::Drop { reach: 75.0, drop: 120.0, hoods: 30.0 }, Hand::Main, 105.0, 0.0),
            (Handlebar::Drop { reach: 75.0, drop: 120.0, hoods: 30.0 }, Hand::Drops, 0.0, -120.0),
            (Handlebar::Flat { width: 730.0, rise: 40.0, sweep: 0.0 }, Hand::Main, 0.0, 40.0),
            (Handlebar::Flat { width: 730.0, rise: 40.0, sweep: 0.0 }, Hand::Tops, 0.0, 0.0),
        ] {
            let cockpit = Cockpit { bar, ..Cockpit::default() };
            let (clamp, hands) = (clamp(&state, &cockpit, 10.0), hands(&state, &cockpit, 10.0, hand));
            assert!((hands.x - clamp.x - ahead).abs() < 1e-9 && (hands.y - clamp.y - above).abs() < 1e-9, "{bar:?} {hand:?}");
        }
    }
}
