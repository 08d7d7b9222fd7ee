//! Exact derivatives: forward-mode automatic differentiation over the quantities of a frame's state, and more
//! where more is uncertain.
//!
//! Method: dual numbers (Wengert 1964; Griewank & Walther, *Evaluating Derivatives*, 2nd ed. 2008, ch. 3). A formula is
//! written once over [`Scalar`] and evaluated with plain numbers or with [`Jet`]s that carry the gradient.

use std::ops::{Add, Div, Mul, Neg, Sub};

use super::state::STATES;

/// A number that formulas are written over: `f64`, or a [`Jet`] that carries its gradient along.
pub trait Scalar:
    Copy + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self> + Neg<Output = Self>
{
    /// A constant.
    fn of(value: f64) -> Self;
    /// Its value, without gradient.
    fn value(self) -> f64;
    /// Sine and cosine of an angle in degrees.
    fn sin_cos_deg(self) -> (Self, Self);
    /// Square root. Below `1e-9` the value of `1e-9` is taken and the gradient is zero, so that no state makes NaN.
    #[must_use]
    fn sqrt(self) -> Self;
    /// The angle of the vector (x, self) from the x axis, degrees.
    #[must_use]
    fn atan2_deg(self, x: Self) -> Self;
}

const LEAST_UNDER_ROOT: f64 = 1e-9;

impl Scalar for f64 {
    fn of(value: f64) -> Self {
        value
    }
    fn value(self) -> f64 {
        self
    }
    fn sin_cos_deg(self) -> (Self, Self) {
        self.to_radians().sin_cos()
    }
    fn sqrt(self) -> Self {
        f64::sqrt(self.max(LEAST_UNDER_ROOT))
    }
    fn atan2_deg(self, x: Self) -> Self {
        self.atan2(x).to_degrees()
    }
}

/// A value with its gradient by `N` variables: those of the state, or more where more than the state is uncertain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jet<const N: usize = STATES> {
    /// The value.
    pub value: f64,
    /// Its partial derivative by each variable.
    pub gradient: [f64; N],
}

impl<const N: usize> Jet<N> {
    /// The variable `index`, at `value`.
    #[must_use]
    pub fn variable(value: f64, index: usize) -> Self {
        let mut gradient = [0.0; N];
        if let Some(slot) = gradient.get_mut(index) {
            *slot = 1.0;
        }
        Self { value, gradient }
    }

    /// `f(self)` where `slope` is f′.
    #[inline]
    fn chain(self, value: f64, slope: f64) -> Self {
        Self { value, gradient: self.gradient.map(|g| g * slope) }
    }

    /// `f(a, b)` where the slopes are the partial derivatives.
    #[inline]
    fn join(a: &Self, b: &Self, value: f64, slope_a: f64, slope_b: f64) -> Self {
        let mut gradient = [0.0; N];
        for ((g, a), b) in gradient.iter_mut().zip(&a.gradient).zip(&b.gradient) {
            *g = a * slope_a + b * slope_b;
        }
        Self { value, gradient }
    }
}

impl<const N: usize> Add for Jet<N> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::join(&self, &other, self.value + other.value, 1.0, 1.0)
    }
}

impl<const N: usize> Sub for Jet<N> {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::join(&self, &other, self.value - other.value, 1.0, -1.0)
    }
}

impl<const N: usize> Mul for Jet<N> {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::join(&self, &other, self.value * other.value, other.value, self.value)
    }
}

impl<const N: usize> Div for Jet<N> {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let quotient = self.value / other.value;
        Self::join(&self, &other, quotient, 1.0 / other.value, -quotient / other.value)
    }
}

impl<const N: usize> Neg for Jet<N> {
    type Output = Self;
    fn neg(self) -> Self {
        self.chain(-self.value, -1.0)
    }
}

impl<const N: usize> Scalar for Jet<N> {
    fn of(value: f64) -> Self {
        Self { value, gradient: [0.0; N] }
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
