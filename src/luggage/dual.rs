//! Exact derivatives by everything that the room inside the main triangle follows from: the state, and the thickness of
//! the four tubes around it.
//!
//! Method: dual numbers, as in [`Jet`](crate::geometry::Jet), with four more variables, because a diameter that is
//! assumed from the material moves an edge as much as an assumed junction does.
//! Not here: what the derivatives are used for.

use std::ops::{Add, Div, Mul, Neg, Sub};

use crate::geometry::{STATES, Scalar};

/// How many variables: the state's quantities and the four tubes' radii.
pub(super) const VARIABLES: usize = STATES + 4;

/// Below this, a root's value is taken as that of this, with no gradient, so that no state makes NaN.
const LEAST_UNDER_ROOT: f64 = 1e-9;

/// A value with its gradient by the state and the tubes' radii, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Dual {
    pub(super) value: f64,
    pub(super) gradient: [f64; VARIABLES],
}

impl Dual {
    /// The variable at `index`.
    pub(super) fn variable(value: f64, index: usize) -> Self {
        let mut gradient = [0.0; VARIABLES];
        if let Some(slot) = gradient.get_mut(index) {
            *slot = 1.0;
        }
        Self { value, gradient }
    }

    #[inline]
    fn chain(self, value: f64, slope: f64) -> Self {
        Self { value, gradient: self.gradient.map(|g| g * slope) }
    }

    #[inline]
    fn join(a: &Self, b: &Self, value: f64, slope_a: f64, slope_b: f64) -> Self {
        let mut gradient = [0.0; VARIABLES];
        for ((g, a), b) in gradient.iter_mut().zip(&a.gradient).zip(&b.gradient) {
            *g = a * slope_a + b * slope_b;
        }
        Self { value, gradient }
    }
}

impl Add for Dual {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::join(&self, &other, self.value + other.value, 1.0, 1.0)
    }
}

impl Sub for Dual {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::join(&self, &other, self.value - other.value, 1.0, -1.0)
    }
}

impl Mul for Dual {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::join(&self, &other, self.value * other.value, other.value, self.value)
    }
}

impl Div for Dual {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let quotient = self.value / other.value;
        Self::join(&self, &other, quotient, 1.0 / other.value, -quotient / other.value)
    }
}

impl Neg for Dual {
    type Output = Self;
    fn neg(self) -> Self {
        self.chain(-self.value, -1.0)
    }
}

impl Scalar for Dual {
    fn of(value: f64) -> Self {
        Self { value, gradient: [0.0; VARIABLES] }
    }
    fn value(self) -> f64 {
        self.value
    }
    fn sin_cos_deg(self) -> (Self, Self) {
        let (sin, cos) = self.value.to_radians().sin_cos();
        let per_degree = std::f64::consts::PI / 180.0;
        (self.chain(sin, cos * per_degree), self.chain(cos, -sin * per_degree))
    }
    fn sqrt(self) -> Self {
        let root = f64::sqrt(self.value.max(LEAST_UNDER_ROOT));
        self.chain(root, if self.value > LEAST_UNDER_ROOT { 0.5 / root } else { 0.0 })
    }
    fn atan2_deg(self, x: Self) -> Self {
        let square = self.value * self.value + x.value * x.value;
        let angle = self.value.atan2(x.value).to_degrees();
        if square < LEAST_UNDER_ROOT {
            return Self::of(angle);
        }
        let per_radian = 180.0 / std::f64::consts::PI;
        Self::join(&self, &x, angle, per_radian * x.value / square, -per_radian * self.value / square)
    }
}
