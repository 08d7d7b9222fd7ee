//! Another fork, wheel or tyre on a frame: the frame turns as a rigid body about its bottom bracket until both wheels
//! stand on a level road again.
//!
//! In the frame's own axes only the front axle and the radii change. With Δ = front axle − rear axle, turning by φ
//! (nose up positive) lifts the front axle's height over the rear one's to `Δx sin φ + Δy cos φ`, which must be
//! `r_f − r_r`:
//! `φ = atan2(r_f − r_r, √(|Δ|² − (r_f − r_r)²)) − atan2(Δy, Δx)`. Head and seat tube angles fall by φ.

use super::adjust::times;
use super::adjusted::{AdjustedSize, Origin, Value};
use super::assumption::{Assumption, Assumptions};
use super::averaged::LikeliestState;
use super::figure_set::missing_above;
use super::formulas::{Point, figure, points};
use super::jet::Scalar;
use super::observations::quantity_of;
use super::second_order::second_order_variance;
use super::state::{Quantity as Q, STATES, State};
use crate::frameset::Figure;
use crate::units::{AnyKind, Length, Measured};

/// What is put on a frame in place of what it was drawn with; `None` leaves it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Change {
    /// Fork length along the steering axis, sag already taken off.
    pub fork_length: Option<Measured<Length>>,
    /// Fork offset.
    pub fork_offset: Option<Measured<Length>>,
    /// Lower headset.
    pub lower_headset: Option<Measured<Length>>,
    /// Front tyre radius.
    pub front_radius: Option<Measured<Length>>,
    /// Rear tyre radius.
    pub rear_radius: Option<Measured<Length>>,
    /// How much shorter the frame's own fork is than published, mm, because it is sagged; 0 for not at all.
    pub sag_mm: f64,
    /// Whether both radii are one tyre's, so that they share one error: the front one then equals the rear one.
    pub is_one_tyre: bool,
}

impl Change {
    /// Whether everything stays.
    #[must_use]
    pub fn is_none(&self) -> bool {
        self.sag_mm == 0.0 && self.replaced().next().is_none()
    }

    fn replaced(&self) -> impl Iterator<Item = (Q, Measured<Length>)> {
        [
            (Q::AxleToCrown, self.fork_length),
            (Q::ForkOffset, self.fork_offset),
            (Q::LowerHeadset, self.lower_headset),
            (Q::FrontTyreRadius, self.front_radius),
            (Q::RearTyreRadius, self.rear_radius),
        ]
        .into_iter()
        .filter_map(|(quantity, new)| new.map(|n| (quantity, n)))
    }
}

/// A size after a change.
#[derive(Clone, Debug, PartialEq)]
pub struct Changed {
    /// The size as it now stands. Its figures are computed ones; its doubts are those of the frame as drawn.
    pub size: AdjustedSize,
    /// How far the nose came up, degrees.
    pub nose_up_deg: f64,
    /// How every figure answers to the state before it was turned, by the order of [`Figure::ALL`].
    pub gradients: Box<[[f64; STATES]; Figure::COUNT]>,
    /// How far every figure moved from as drawn and the u of that difference, by the order of [`Figure::ALL`]. What is not
    /// replaced is one error on both sides, so a difference is known much better than either value.
    pub differences: [Measured<AnyKind>; Figure::COUNT],
}

impl Changed {
    /// How far a figure moved from as drawn, with the u of that difference.
    #[must_use]
    pub const fn difference(&self, figure: Figure) -> Measured<AnyKind> {
        self.differences[figure as usize]
    }
}

/// The size with the change. Without any change it is the size itself, to the last bit.
#[must_use]
pub fn changed(size: &AdjustedSize, change: &Change) -> Changed {
    if change.is_none() {
        return Changed {
            size: size.clone(),
            nose_up_deg: 0.0,
            gradients: Box::new(size.gradients()),
            differences: [Measured::exact(0.0); Figure::COUNT],
        };
    }
    let mut state = size.state;
    state.0[Q::AxleToCrown.index()] -= change.sag_mm;
    let mut covariance = size.covariance;
    for (quantity, new) in change.replaced() {
        let i = quantity.index();
        state.0[i] = new.value;
        for row in &mut covariance {
            row[i] = 0.0;
        }
        covariance[i] = [0.0; STATES];
        covariance[i][i] = new.u * new.u;
    }
    let (rear, front) = (Q::RearTyreRadius.index(), Q::FrontTyreRadius.index());
    if change.is_one_tyre {
        covariance[rear][front] = covariance[rear][rear].min(covariance[front][front]);
        covariance[front][rear] = covariance[rear][front];
    }
    let (stood, turn) = stand(&state.jets());
    let mut result = size.clone();
    result.state = State(stood.0.map(|jet| jet.value));
    // C″ = J C′ Jᵀ, row by row.
    for i in 0..STATES {
        let product = times(&covariance, &stood.0[i].gradient);
        for j in 0..STATES {
            result.covariance[i][j] = product.iter().zip(&stood.0[j].gradient).map(|(a, b)| a * b).sum();
        }
    }
    // The likeliest explanation of the table stands on the same fork and tyres.
    let by_likeliest = size.by_likeliest_alone().map(|(chance, alone)| (chance, changed(&alone, change)));
    result.likeliest = by_likeliest.as_ref().map(|(chance, after)| {
        let (state, covariance) = (after.size.state, after.size.covariance);
        Box::new(LikeliestState { chance: *chance, state, covariance })
    });
    let likeliest =
        |of: &dyn Fn(&Changed) -> Measured<AnyKind>| by_likeliest.as_ref().map(|(chance, after)| of(after).as_likeliest(*chance));
    let mut gradients = Box::new([[0.0; STATES]; Figure::COUNT]);
    let mut differences = [Measured::exact(0.0); Figure::COUNT];
    let before_jets = size.state.jets();
    let is_replaced: [bool; STATES] = std::array::from_fn(|i| change.replaced().any(|(q, _)| q.index() == i));
    let jets = result.state.jets();
    for f in Figure::ALL.iter().copied() {
        // Gradient by the state before standing, through the stood state.
        let outer = figure(f, &jets, size.top_tube);
        let mut gradient = [0.0; STATES];
        for (slope, inner) in outer.gradient.iter().zip(&stood.0) {
            for (g, i) in gradient.iter_mut().zip(&inner.gradient) {
                *g += slope * i;
            }
        }
        gradients[f as usize] = gradient;
        differences[f as usize] = {
            let before = figure(f, &before_jets, size.top_tube);
            let old: [f64; STATES] = std::array::from_fn(|i| if is_replaced[i] { 0.0 } else { gradient[i] } - before.gradient[i]);
            let new: [f64; STATES] = std::array::from_fn(|i| if is_replaced[i] { gradient[i] } else { 0.0 });
            let product = times(&covariance, &new);
            let variance = size.variance(&old) + product.iter().zip(&new).map(|(a, b)| a * b).sum::<f64>().max(0.0);
            let by_likeliest = likeliest(&|after| after.difference(f));
            Measured::new(outer.value - before.value, variance.sqrt()).averaged(by_likeliest)
        };
        let by_tyre_radius = gradient[rear] + if change.is_one_tyre { gradient[front] } else { 0.0 };
        let tyre_u = covariance[rear][rear].sqrt() * by_tyre_radius;
        let variance = result.variance(&outer.gradient) + second_order_variance(f, &jets, |g| result.variance(g));
        let likeliest = likeliest(&|after| after.size.value(f).measured());
        result.values[f as usize] = Value { likeliest, ..after_change(size.value(f), outer.value, variance, tyre_u, change) };
    }
    Changed { size: result, nose_up_deg: turn.value, gradients, differences }
}

fn after_change(before: &Value, value: f64, variance: f64, tyre_u: f64, change: &Change) -> Value {
    let u = variance.sqrt();
    let mut assumed = Assumptions::default();
    for assumption in before.assumed.iter() {
        let is_replaced = change.replaced().any(|(q, _)| q == assumption.quantity());
        if !is_replaced {
            assumed.insert(assumption);
        }
    }
    if tyre_u * tyre_u > 0.1 * variance {
        assumed.insert(Assumption::RearTyreRadius);
    }
    let is_replaced = quantity_of(before.figure).is_some_and(|own| change.replaced().any(|(q, _)| q == own));
    let is_same = (value - before.value).abs() < 1e-9 && !is_replaced;
    Value {
        figure: before.figure,
        value,
        u,
        origin: if is_same { before.origin } else { Origin::Computed },
        assumed,
        printed: before.printed,
        is_ignored: before.is_ignored,
        is_missing: !(u <= missing_above(before.figure) && value.is_finite()),
        likeliest: None,
    }
}

/// The state turned about the bottom bracket until both wheels stand on a level road, and by how many degrees the nose
/// came up.
#[must_use]
pub fn stand<T: Scalar>(state: &State<T>) -> (State<T>, T) {
    let p = points(state);
    let (dx, dy) = (p.front_axle.x - p.rear_axle.x, p.front_axle.y - p.rear_axle.y);
    let rise = state.get(Q::FrontTyreRadius) - state.get(Q::RearTyreRadius);
    let run = (dx * dx + dy * dy - rise * rise).sqrt();
    let turn = rise.atan2_deg(run) - dy.atan2_deg(dx);
    let (sin, cos) = turn.sin_cos_deg();
    let turned = |at: Point<T>| Point { x: at.x * cos - at.y * sin, y: at.x * sin + at.y * cos };
    let head_top = turned(p.head_top);
    let seat_tube_angle = figure(Figure::SeatTubeAngle, state, super::formulas::TopTubeShape::default());
    // The bottom bracket's distance from the seat tube's axis stays: setback · sin(tube angle).
    let (sin_before, _) = seat_tube_angle.sin_cos_deg();
    let (sin_after, cos_after) = (seat_tube_angle - turn).sin_cos_deg();
    let setback = state.get(Q::SeatTubeSetback) * sin_before / sin_after;
    let back = setback + head_top.y * cos_after / sin_after;
    let mut stood = *state;
    stood.0[Q::Reach.index()] = head_top.x;
    stood.0[Q::Stack.index()] = head_top.y;
    stood.0[Q::HeadAngle.index()] = state.get(Q::HeadAngle) - turn;
    stood.0[Q::SeatAngle.index()] = head_top.y.atan2_deg(back);
    stood.0[Q::SeatTubeSetback.index()] = setback;
    stood.0[Q::BbDrop.index()] = turned(p.rear_axle).y;
    (stood, turn)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::adjust_tests::made_up;
    use crate::geometry::{adjust, closure};

    fn size() -> AdjustedSize {
        adjust(&made_up(3, 1.0, 0.1)).sizes.remove(1)
    }

    #[expect(clippy::unnecessary_wraps, reason = "fields of a change are optional")]
    fn exactly(value: f64) -> Option<Measured<Length>> {
        Some(Measured::exact(value))
    }

    #[test]
    fn its_own_fork_and_tyre_change_nothing() {
        let before = size();
        let own = Change {
            fork_length: exactly(before.value(Figure::AxleToCrownAlongAxis).value),
            front_radius: exactly(before.value(Figure::FrontTyreRadius).value),
            ..Change::default()
        };
        let after = changed(&before, &own);
        for f in Figure::ALL {
            // Closure holds the wheels to 0.05 mm, and that is all that standing can correct.
            assert!((after.size.value(*f).value - before.value(*f).value).abs() < 0.02, "{f:?}");
        }
        assert_eq!(changed(&before, &Change::default()).size, before);
    }

    #[test]
    fn a_longer_fork_slackens_and_there_and_back_is_the_identity() {
        let before = size();
        let length = before.value(Figure::AxleToCrownAlongAxis).value;
        let longer = changed(&before, &Change { fork_length: exactly(length + 20.0), ..Change::default() });
        let fall = before.value(Figure::HeadAngle).value - longer.size.value(Figure::HeadAngle).value;
        // "A fork 20 mm longer slackens the head by about 1°": trade practice, unverified. Exactly: the axle drops by
        // 20 sin θ, so the frame turns by about asin(20 sin 71.6° / 1076) = 1.01°.
        let wheelbase = before.value(Figure::Wheelbase).value;
        let expected = (20.0 * before.value(Figure::HeadAngle).value.to_radians().sin() / wheelbase).asin().to_degrees();
        assert!((fall - expected).abs() < 0.02, "{fall} {expected}");
        assert!((fall - 1.0).abs() < 0.1);
        assert!((longer.nose_up_deg - fall).abs() < 1e-9);
        assert!(closure(&longer.size.state).abs() < 1e-9, "both wheels stand");
        let back = changed(&longer.size, &Change { fork_length: exactly(length), ..Change::default() });
        for f in Figure::ALL {
            assert!((back.size.value(*f).value - before.value(*f).value).abs() < 0.02, "{f:?}");
        }
    }

    #[test]
    fn a_difference_is_known_better_than_its_two_sides() {
        let before = size();
        let length = before.value(Figure::AxleToCrownAlongAxis).value + 20.0;
        let after = changed(&before, &Change { fork_length: exactly(length), ..Change::default() });
        let Measured { value: moved, u, .. } = after.difference(Figure::HeadAngle);
        assert!((moved - (after.size.value(Figure::HeadAngle).value - before.value(Figure::HeadAngle).value)).abs() < 1e-9);
        // Longer by exactly the new length less the old one, of which only the old one's u is left.
        let longer = after.difference(Figure::AxleToCrownAlongAxis);
        assert!((longer.value - 20.0).abs() < 1e-9);
        assert!((longer.u - before.value(Figure::AxleToCrownAlongAxis).u).abs() < 1e-6);
        assert!(u > 0.0 && u < 0.2, "{u}");
    }

    /// A fork that is shorter by its sag is a shorter fork, but for what is known of its length.
    #[test]
    fn sag_steepens_and_is_its_own_forks() {
        let before = size();
        let length = before.value(Figure::AxleToCrownAlongAxis);
        let sagged = changed(&before, &Change { sag_mm: 25.0, ..Change::default() });
        let shorter = changed(&before, &Change { fork_length: exactly(length.value - 25.0), ..Change::default() });
        assert!(sagged.nose_up_deg < -0.5, "{}", sagged.nose_up_deg);
        for f in Figure::ALL {
            let (a, b) = (sagged.size.value(*f), shorter.size.value(*f));
            assert!((a.value - b.value).abs() < 1e-9, "{f:?}: {} {}", a.value, b.value);
        }
        assert!((sagged.size.value(Figure::AxleToCrownAlongAxis).u - length.u).abs() < 1e-9);
        assert!(sagged.difference(Figure::HeadAngle).u < 0.02);
    }

    #[test]
    fn one_tyre_on_both_wheels_lifts_the_frame_without_turning_it() {
        let before = size();
        let tyre = Some(Measured::new(before.value(Figure::RearTyreRadius).value + 10.0, 2.0));
        let change = Change { front_radius: tyre, rear_radius: tyre, is_one_tyre: true, ..Change::default() };
        let after = changed(&before, &change);
        assert!((after.size.value(Figure::BbHeight).value - before.value(Figure::BbHeight).value - 10.0).abs() < 0.02);
        assert!((after.size.value(Figure::HeadAngle).value - before.value(Figure::HeadAngle).value).abs() < 1e-3);
        // Trail answers with cot θ (the partial derivative of design's own formula), the head angle not at all.
        let theta = after.size.value(Figure::HeadAngle).value.to_radians();
        let by_radius = |f: Figure| {
            let gradient = after.gradients[f as usize];
            gradient[Q::RearTyreRadius.index()] + gradient[Q::FrontTyreRadius.index()]
        };
        assert!((by_radius(Figure::Trail) - 1.0 / theta.tan()).abs() < 1e-3);
        assert!(by_radius(Figure::HeadAngle).abs() < 1e-9);
        assert!((by_radius(Figure::BbHeight) - 1.0).abs() < 1e-9);
    }
}
