//! A value with its uncertainty, and what follows from the two.
//!
//! Invariant: what counts as a clear difference, and how wide a ± is shown, is said here and nowhere else.

use std::marker::PhantomData;
use std::ops::Neg;

use super::{Quantity, System};

/// Coverage factor k: a shown ± is k u. With k = 2 it holds the true value about 19 times in 20, for errors that are
/// about normal (JCGM 100:2008, *Guide to the expression of uncertainty in measurement*, 6.2.1, 6.3.3 and G.6.6).
pub const COVERAGE_FACTOR: f64 = 2.0;

/// Expanded uncertainty U = k u of a standard uncertainty `u`, in the same unit (JCGM 100:2008, 6.2.1).
#[must_use]
pub const fn expanded(u: f64) -> f64 {
    COVERAGE_FACTOR * u
}

/// Kinds of [`Measured`] that are told apart at compile time.
pub trait Kind {
    /// What is measured, and so which unit it is held in and shown in.
    const QUANTITY: Quantity;
}

macro_rules! kinds {
    ($($(#[doc = $doc:literal])* $name:ident;)*) => {
        $($(#[doc = $doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum $name {}

        impl Kind for $name {
            const QUANTITY: Quantity = Quantity::$name;
        })*
    };
}

kinds! {
    /// Length, mm.
    Length;
    /// Angle, degrees.
    Angle;
    /// Mass, g.
    Mass;
    /// Area, dm².
    Area;
    /// Volume, l.
    Volume;
    /// Time, s.
    Time;
    /// Ratio, %.
    Ratio;
}

/// Any kind: that of a figure's value, where the figure beside it says what is measured. It cannot be shown without the
/// [`Quantity`], or without saying that it is [a length](Measured::as_length) or [an angle](Measured::as_angle).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AnyKind {}

/// Measured value: the best estimate of a quantity, with its standard uncertainty. The kind `K` says what is measured and
/// in which unit; values of two kinds cannot be mixed.
#[derive(PartialEq)]
pub struct Measured<K> {
    /// Best estimate, in the kind's unit.
    pub value: f64,
    /// Standard uncertainty (JCGM 100:2008, 2.3.1), in the same unit, not negative; infinite where nothing is known.
    pub u: f64,
    kind: PhantomData<K>,
}

impl<K> Measured<K> {
    /// Value and standard uncertainty, in the kind's unit.
    #[must_use]
    pub const fn new(value: f64, u: f64) -> Self {
        Self { value, u, kind: PhantomData }
    }

    /// Value without uncertainty.
    #[must_use]
    pub const fn exact(value: f64) -> Self {
        Self::new(value, 0.0)
    }

    /// Expanded uncertainty, the ± that is shown: [`COVERAGE_FACTOR`] × u.
    #[must_use]
    pub const fn expanded(self) -> f64 {
        expanded(self.u)
    }

    /// Lower end of the ±.
    #[must_use]
    pub fn low(self) -> f64 {
        self.value - self.expanded()
    }

    /// Upper end of the ±.
    #[must_use]
    pub fn high(self) -> f64 {
        self.value + self.expanded()
    }

    /// Whether a difference is clear: further from zero than its ±. A difference that just reaches its ± is not.
    #[must_use]
    pub fn is_clear(self) -> bool {
        self.value.abs() > self.expanded()
    }

    /// Whether it lies above `limit` by more than its ±.
    #[must_use]
    pub fn is_clearly_above(self, limit: f64) -> bool {
        self.value - limit > self.expanded()
    }

    /// Whether it lies below `limit` by more than its ±.
    #[must_use]
    pub fn is_clearly_below(self, limit: f64) -> bool {
        limit - self.value > self.expanded()
    }

    /// Difference from `other`, where the two share no error: u² is the sum of both u² (JCGM 100:2008, 5.1.2).
    #[must_use]
    pub fn minus(self, other: Self) -> Self {
        Self::new(self.value - other.value, self.u.hypot(other.u))
    }

    /// Sum with `other`, where the two share no error.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self::new(self.value + other.value, self.u.hypot(other.u))
    }

    /// Value moved by an exact amount; u stays.
    #[must_use]
    pub fn moved(self, by: f64) -> Self {
        Self::new(self.value + by, self.u)
    }

    /// Value and u times an exact factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self::new(self.value * factor, self.u * factor.abs())
    }

    /// Size without the sign; u stays.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self::new(self.value.abs(), self.u)
    }
}

impl<K: Kind> Measured<K> {
    /// Same numbers where the kind is told by what stands beside them, such as a figure of a table.
    #[must_use]
    pub const fn of_any_kind(self) -> Measured<AnyKind> {
        Measured::new(self.value, self.u)
    }
}

impl Measured<AnyKind> {
    /// Same numbers as a length, mm: for a figure that is one.
    #[must_use]
    pub const fn as_length(self) -> Measured<Length> {
        Measured::new(self.value, self.u)
    }

    /// Same numbers as an angle, degrees: for a figure that is one.
    #[must_use]
    pub const fn as_angle(self) -> Measured<Angle> {
        Measured::new(self.value, self.u)
    }
}

impl<K: Kind> Measured<K> {
    /// `value ± U` in these units, without the unit's name: `66.3 ± 1.4`.
    #[must_use]
    pub fn number(self, units: System) -> String {
        units.plus_minus(K::QUANTITY, self)
    }

    /// The same with its sign always written, for a difference: `+12 ± 3`.
    #[must_use]
    pub fn signed_number(self, units: System) -> String {
        units.signed_plus_minus(K::QUANTITY, self)
    }

    /// `value ± U` with the unit's name: `66.3 ± 1.4 mm`.
    #[must_use]
    pub fn text(self, units: System) -> String {
        units.text(K::QUANTITY, self)
    }

    /// The same with its sign always written, for a difference: `+12 ± 3 mm`.
    #[must_use]
    pub fn signed_text(self, units: System) -> String {
        units.signed_text(K::QUANTITY, self)
    }
}

impl<K> Clone for Measured<K> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<K> Copy for Measured<K> {}

impl<K> Neg for Measured<K> {
    type Output = Self;

    /// The opposite value; u stays.
    fn neg(self) -> Self {
        Self::new(-self.value, self.u)
    }
}

impl<K> std::fmt::Debug for Measured<K> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Measured").field("value", &self.value).field("u", &self.u).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clear_difference_is_larger_than_its_plus_minus() {
        let clear = |value: f64, u: f64| Measured::<Length>::new(value, u).is_clear();
        assert!(clear(2.1, 1.0) && clear(-2.1, 1.0) && clear(0.1, 0.0));
        assert!(!clear(2.0, 1.0) && !clear(-2.0, 1.0) && !clear(0.0, 0.0) && !clear(5.0, f64::INFINITY) && !clear(f64::NAN, 1.0));
    }

    #[test]
    fn a_limit_is_passed_clearly_or_not() {
        let gap = Measured::<Length>::new(14.0, 2.0);
        assert!(gap.is_clearly_above(9.9) && !gap.is_clearly_above(10.0) && !gap.is_clearly_above(14.0));
        assert!(gap.is_clearly_below(18.1) && !gap.is_clearly_below(18.0) && !gap.is_clearly_below(14.0));
    }

    /// Guide to the expression of uncertainty in measurement, 5.1.2: √(3² + 4²) = 5; and ± is twice that.
    #[test]
    fn uncertainties_add_as_squares() {
        let (a, b) = (Measured::<Mass>::new(2600.0, 3.0), Measured::<Mass>::new(600.0, 4.0));
        assert_eq!(a.minus(b), Measured::new(2000.0, 5.0));
        assert_eq!(a.plus(b), Measured::new(3200.0, 5.0));
        assert_eq!((a.minus(b).low(), a.minus(b).high(), a.minus(b).expanded()), (1990.0, 2010.0, 10.0));
    }

    #[test]
    fn each_kind_is_shown_in_its_unit() {
        assert_eq!(Measured::<Length>::new(66.31, 0.7).text(System::Metric), "66.3\u{2009}±\u{2009}1.4\u{2009}mm");
        assert_eq!(Measured::<Length>::new(254.0, 0.254).text(System::Imperial), "10.00\u{2009}±\u{2009}0.02\u{2009}in");
        assert_eq!(Measured::<Mass>::new(-80.0, 47.5).signed_text(System::Metric), "−80\u{2009}±\u{2009}95\u{2009}g");
        assert_eq!(Measured::<AnyKind>::new(71.5, 0.06).as_angle().text(System::Imperial), "71.50\u{2009}±\u{2009}0.12°");
        assert_eq!(Measured::<Time>::new(12.2, 0.4).signed_text(System::Imperial), "+12.2\u{2009}±\u{2009}0.8\u{2009}s");
        assert_eq!(Measured::<Ratio>::new(2.2, 0.5).number(System::Metric), "2.2\u{2009}±\u{2009}1.0");
    }
}
