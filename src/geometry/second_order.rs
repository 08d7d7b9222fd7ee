//! What the gradient of a figure leaves out of its u: second-order parts that are not small beside the first.
//!
//! A length L between two points answers to a change square to it not at all in the first order, and with s² / 2L in the
//! second (JCGM 100:2008, 5.1.2, note). Where junctions are assumed to ± 30 mm along the seat tube, which stands nearly
//! square to the top tube, that is more than all rounding.

use super::formulas::top_tube;
use super::jet::Jet;
use super::state::{STATES, State};
use crate::frameset::Figure;

/// The variance that the second order adds to a figure's, from the covariance of the state as a quadratic form.
///
/// For L = |d| and s² the variance of d square to itself, L is longer by e² / 2L where e ~ N(0, s²). Its mean square is
/// ¾ s⁴ / L²; s⁴ / L² is taken, so that twice the u holds 19 in 20 of this one-sided error too.
pub(super) fn second_order_variance(of: Figure, state: &State<Jet>, variance: impl Fn(&[f64; STATES]) -> f64) -> f64 {
    if of != Figure::TopTube {
        return 0.0;
    }
    let (rear, front) = top_tube(state);
    let (dx, dy) = (front.x - rear.x, front.y - rear.y);
    let length = dx.value.hypot(dy.value).max(1.0);
    let (cos, sin) = (dx.value / length, dy.value / length);
    let square: [f64; STATES] = std::array::from_fn(|i| cos * dy.gradient[i] - sin * dx.gradient[i]);
    let s = variance(&square) / length;
    s * s
}
