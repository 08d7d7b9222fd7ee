//! A value with its uncertainty, and what follows from the two.
//!
//! Invariant: what counts as a clear difference, and how wide a ± is shown, is said here and nowhere else.

use std::marker::PhantomData;
use std::ops::Neg;

use super::{Quantity, System, probability_below};

/// Coverage factor k: a shown ± is k u. With k = 2 it holds the true value in about 95 of 100 cases, for errors that are
/// about normal (JCGM 100:2008, *Guide to the expression of uncertainty in measurement*, 6.2.1, 6.3.3 and G.6.6).
pub const COVERAGE_FACTOR: f64 = 2.0;

/// A verdict is yes or no from this chance on; below it is borderline, or there is no clear difference.
pub const SURE_FROM: f64 = 0.95;

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
    /// Where several explanations were averaged, the likeliest of them; [`Likeliest::NONE`] where there is one alone.
    likeliest: Likeliest,
    kind: PhantomData<K>,
}

/// A quantity by the likeliest of several explanations that were averaged, such as which of two published figures is wrong.
/// All others together have what is left of mean and variance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Likeliest {
    /// Chance that it is the right one, 0 to 1.
    pub chance: f64,
    /// Best estimate if it is.
    pub value: f64,
    /// Standard uncertainty if it is.
    pub u: f64,
}

impl Likeliest {
    /// None: without a chance. A value of its own keeps [`Measured`] small.
    const NONE: Self = Self { chance: 0.0, value: 0.0, u: 0.0 };
}

/// What two quantities have in common.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Common {
    /// Their covariance, over all explanations.
    pub covariance: f64,
    /// Their covariance if the likeliest explanation is the right one.
    pub of_likeliest: f64,
    /// Whether the explanations are the same ones, those of one table. Of two tables each has its own.
    pub has_same_explanations: bool,
}

/// Chance that a normal quantity lies above `limit`; 0.5 where nothing is known.
fn chance_above(value: f64, u: f64, limit: f64) -> f64 {
    let over = value - limit;
    if u > 0.0 && u.is_finite() {
        probability_below(over / u)
    } else if u == 0.0 && over != 0.0 {
        f64::from(u8::from(over > 0.0))
    } else {
        0.5
    }
}

impl<K> Measured<K> {
    /// Value and standard uncertainty, in the kind's unit.
    #[must_use]
    pub const fn new(value: f64, u: f64) -> Self {
        Self { value, u, likeliest: Likeliest::NONE, kind: PhantomData }
    }

    /// The same, averaged over several explanations, the likeliest of which says `likeliest`.
    #[must_use]
    pub const fn averaged(self, likeliest: Option<Likeliest>) -> Self {
        let likeliest = match likeliest {
            Some(likeliest) => likeliest,
            None => Likeliest::NONE,
        };
        Self { likeliest, ..self }
    }

    /// What the likeliest of several explanations says; `None` where there is one alone.
    #[must_use]
    pub const fn likeliest(self) -> Option<Likeliest> {
        if self.likeliest.chance > 0.0 { Some(self.likeliest) } else { None }
    }

    /// The same as what the likeliest of several explanations says.
    #[must_use]
    pub const fn as_likeliest(self, chance: f64) -> Likeliest {
        Likeliest { chance, value: self.value, u: self.u }
    }

    /// Chance that the true value lies above `limit`, over all explanations: normal for the likeliest, and normal for all
    /// others together, with the mean and variance that they have.
    #[must_use]
    pub fn chance_above(self, limit: f64) -> f64 {
        let Some(Likeliest { chance, value, u }) = self.likeliest().filter(|l| l.chance < 1.0) else {
            return chance_above(self.value, self.u, limit);
        };
        let rest = 1.0 - chance;
        // How far the others' mean lies from the mean of all, and what they scatter about it.
        let off = chance * (self.value - value) / rest;
        let apart = value - self.value;
        let variance = (self.u * self.u - chance * (u * u + apart * apart)) / rest - off * off;
        let others = chance_above(self.value + off, variance.max(0.0).sqrt(), limit);
        chance * chance_above(value, u, limit) + rest * others
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

    /// Whether a difference is clear: further from zero than its ±, and on that side with a chance of [`SURE_FROM`]. A
    /// difference that just reaches its ± is not.
    #[must_use]
    pub fn is_clear(self) -> bool {
        self.is_clearly_above(0.0) || self.is_clearly_below(0.0)
    }

    /// Whether it lies above `limit`: by more than its ±, and with a chance of [`SURE_FROM`].
    #[must_use]
    pub fn is_clearly_above(self, limit: f64) -> bool {
        self.value - limit > self.expanded() && self.chance_above(limit) >= SURE_FROM
    }

    /// Whether it lies below `limit`: by more than its ±, and with a chance of [`SURE_FROM`].
    #[must_use]
    pub fn is_clearly_below(self, limit: f64) -> bool {
        limit - self.value > self.expanded() && 1.0 - self.chance_above(limit) >= SURE_FROM
    }

    /// Difference from `other`, where the two share no error: u² is the sum of both u² (JCGM 100:2008, 5.1.2).
    #[must_use]
    pub fn minus(self, other: Self) -> Self {
        self.plus(-other)
    }

    /// Difference from `other`, where the two have something in common: Var(a − b) = Var a + Var b − 2 Cov(a, b).
    #[must_use]
    pub fn minus_with(self, other: Self, common: Common) -> Self {
        let less = |u: f64, covariance: f64| (u * u - 2.0 * covariance).max(0.0).sqrt();
        let apart = self.minus(other);
        let one_chance = self.likeliest().filter(|_| common.has_same_explanations).map(|own| own.chance);
        let likeliest = apart.likeliest().map(|l| Likeliest {
            chance: one_chance.unwrap_or(l.chance),
            value: l.value,
            u: less(l.u, common.of_likeliest),
        });
        Self::new(apart.value, less(apart.u, common.covariance)).averaged(likeliest)
    }

    /// Sum with `other`, where the two share no error and no explanation.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        let alone = |of: Self| of.likeliest().unwrap_or(Likeliest { chance: 1.0, value: of.value, u: of.u });
        let (own, its) = (alone(self), alone(other));
        let both = Likeliest { chance: own.chance * its.chance, value: own.value + its.value, u: own.u.hypot(its.u) };
        let likeliest = self.likeliest().or(other.likeliest()).map(|_| both);
        Self::new(self.value + other.value, self.u.hypot(other.u)).averaged(likeliest)
    }

    /// Value moved by an exact amount; u stays.
    #[must_use]
    pub fn moved(self, by: f64) -> Self {
        self.plus(Self::exact(by))
    }

    /// Value and u times an exact factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        let scaled = |l: Likeliest| Likeliest { value: l.value * factor, u: l.u * factor.abs(), ..l };
        Self::new(self.value * factor, self.u * factor.abs()).averaged(self.likeliest().map(scaled))
    }

    /// Size without the sign; u stays.
    #[must_use]
    pub fn abs(self) -> Self {
        if self.value < 0.0 { -self } else { self }
    }
}

impl<K: Kind> Measured<K> {
    /// Same numbers where the kind is told by what stands beside them, such as a figure of a table.
    #[must_use]
    pub const fn of_any_kind(self) -> Measured<AnyKind> {
        Measured::new(self.value, self.u).averaged(self.likeliest())
    }
}

impl Measured<AnyKind> {
    /// Same numbers as a length, mm: for a figure that is one.
    #[must_use]
    pub const fn as_length(self) -> Measured<Length> {
        Measured::new(self.value, self.u).averaged(self.likeliest())
    }

    /// Same numbers as a mass, g: for a measure that is one.
    #[must_use]
    pub const fn as_mass(self) -> Measured<Mass> {
        Measured::new(self.value, self.u).averaged(self.likeliest())
    }

    /// Same numbers as an angle, degrees: for a figure that is one.
    #[must_use]
    pub const fn as_angle(self) -> Measured<Angle> {
        Measured::new(self.value, self.u).averaged(self.likeliest())
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
        self.times(-1.0)
    }
}

impl<K> std::fmt::Debug for Measured<K> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let mut shown = f.debug_struct("Measured");
        shown.field("value", &self.value).field("u", &self.u);
        if let Some(likeliest) = self.likeliest() {
            shown.field("likeliest", &likeliest);
        }
        shown.finish()
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

    /// 9 in 10: 10 ± 2; 1 in 10: −2 ± 2. The mean is 8.8, its variance 1 + 0.09 · 12² = 13.96.
    fn of_two() -> Measured<Length> {
        let likeliest = Likeliest { chance: 0.9, value: 10.0, u: 1.0 };
        Measured::new(8.8, 13.96f64.sqrt()).averaged(Some(likeliest))
    }

    #[test]
    fn a_chance_is_that_of_both_explanations() {
        let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-9, "{found} {expected}");
        // Φ(10) and Φ(−2) of the tables: 1 and 0.022750131948.
        near(of_two().chance_above(0.0), 0.9 + 0.1 * 0.022_750_131_948);
        near(of_two().chance_above(-2.0), 0.9 + 0.1 * 0.5);
        near(of_two().chance_above(10.0), 0.9 * 0.5);
        near((-of_two()).chance_above(2.0), 0.1 * 0.5);
        near(of_two().moved(5.0).chance_above(3.0), 0.9 + 0.1 * 0.5);
        near(of_two().times(-3.0).chance_above(6.0), 0.1 * 0.5);
        // One alone: normal, a step where it is exact, and nothing where nothing is known.
        near(Measured::<Length>::new(1.0, 1.0).chance_above(0.0), 0.841_344_746_069);
        let exact = Measured::<Length>::exact(1.0);
        assert_eq!([0.9, 1.0, 1.1].map(|limit| exact.chance_above(limit)), [1.0, 0.5, 0.0]);
        assert_eq!(Measured::<Length>::new(1.0, f64::INFINITY).chance_above(0.0), 0.5);
    }

    /// Further from zero than its ±, and yet one explanation in ten says the opposite: not clear.
    #[test]
    fn a_difference_that_one_explanation_in_ten_denies_is_not_clear() {
        assert!(of_two().value > of_two().expanded());
        assert!(Measured::<Length>::new(8.8, of_two().u).is_clear(), "by its ± alone");
        assert!(!of_two().is_clear() && !(-of_two()).is_clear());
        assert!(!of_two().is_clearly_above(0.0) && !(-of_two()).is_clearly_below(0.0));
        assert!(of_two().is_clearly_above(-5.0) && (-of_two()).is_clearly_below(5.0), "that far both agree");
        // 97 in 100 are sure enough, where the ± allows it.
        let likeliest = Likeliest { chance: 0.97, value: 10.0, u: 1.0 };
        assert!(
            Measured::<Length>::new(9.64, (0.97 + 0.03 + 0.97 * 0.03 * 144.0f64).sqrt()).averaged(Some(likeliest)).is_clear()
        );
    }

    /// Both at their likeliest: 0.9 · 0.9. With 3 and 1 in quadrature.
    #[test]
    fn explanations_of_two_tables_are_independent() {
        let apart = of_two().minus(Measured::new(1.0, 3.0).averaged(Some(Likeliest { chance: 0.9, value: 2.0, u: 3.0 })));
        let expected = Likeliest { chance: 0.81, value: 8.0, u: 10f64.sqrt() };
        let found = apart.likeliest().unwrap();
        assert!((found.chance - expected.chance).abs() < 1e-12 && found.value == expected.value && found.u == expected.u);
        assert_eq!(of_two().plus(Measured::exact(1.0)).likeliest().unwrap().chance, 0.9);
        assert_eq!(Measured::<Length>::new(3.0, 1.0).minus(Measured::new(1.0, 1.0)).likeliest(), None);
        assert_eq!(of_two().abs(), of_two());
        assert_eq!((-of_two()).abs(), of_two());
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
