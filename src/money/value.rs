//! Price against weight: which framesets nothing else is both lighter and cheaper than, and what each gram saved costs.
//!
//! Weights come in as decimal grams with the ± of each; a difference of weight counts only beyond its ±.

use rust_decimal::{Decimal, MathematicalOps};

use super::amount::Money;

/// A frameset in the plot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// Its price, in the currency that all share.
    pub money: Money,
    /// Its weight, g.
    pub grams: Decimal,
    /// Standard uncertainty of the weight, g.
    pub u: Decimal,
}

impl Candidate {
    /// Lighter than `other` by more than the ± (two standard uncertainties) of the difference; without any ±, lighter at all.
    #[must_use]
    pub fn is_lighter_than(&self, other: &Self) -> bool {
        let saved = other.grams - self.grams;
        saved > Decimal::ZERO && saved * saved > Decimal::from(4) * (self.u * self.u + other.u * other.u)
    }

    /// Beats `other`: clearly lighter and not dearer, or cheaper and weighed exactly alike.
    #[must_use]
    pub fn beats(&self, other: &Self) -> bool {
        let is_alike = self.grams == other.grams && self.u.is_zero() && other.u.is_zero();
        (self.is_lighter_than(other) && self.money.amount <= other.money.amount)
            || (is_alike && self.money.amount < other.money.amount)
    }
}

/// For each candidate whether no other beats it in both price and weight; without a clear difference of weight none does.
/// Where there is no candidate there is no answer.
#[must_use]
pub fn unbeaten(candidates: &[Option<Candidate>]) -> Vec<Option<bool>> {
    let all: Vec<&Candidate> = candidates.iter().flatten().collect();
    candidates.iter().map(|own| own.as_ref().map(|own| !all.iter().any(|other| other.beats(own)))).collect()
}

/// The price of each gram that `own` saves against `reference`, unrounded, with its ± from the weights' ±; negative
/// where it is lighter and cheaper. `None` where it is not lighter beyond the ±.
#[must_use]
pub fn per_gram(own: &Candidate, reference: &Candidate) -> Option<(Money, Money)> {
    if !own.is_lighter_than(reference) || own.money.currency != reference.money.currency {
        return None;
    }
    let saved = reference.grams - own.grams;
    let amount = (own.money.amount - reference.money.amount).checked_div(saved)?;
    let u = (own.u * own.u + reference.u * reference.u).sqrt()?;
    let plus_minus = (amount * Decimal::TWO * u).checked_div(saved)?.abs();
    let money = |amount| Money { amount, currency: own.money.currency };
    Some((money(amount), money(plus_minus)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn candidate(price: &str, grams: i64, u: i64) -> Candidate {
        Candidate { money: Money::read(price, "EUR").unwrap(), grams: Decimal::from(grams), u: Decimal::from(u) }
    }

    #[test]
    fn who_is_beaten_in_both_is_not_marked() {
        let list = [("648", 4230), ("719", 3650), ("900", 3800), ("2950", 2365), ("459", 4300)];
        let candidates: Vec<_> = list.iter().map(|(p, g)| Some(candidate(p, *g, 0))).chain([None]).collect();
        let marks = unbeaten(&candidates);
        assert_eq!(marks, [Some(true), Some(true), Some(false), Some(true), Some(true), None]);
    }

    #[test]
    fn a_difference_within_its_plus_minus_beats_nobody_and_costs_nothing() {
        let (a, b) = (candidate("648", 4000, 60), candidate("900", 3900, 60));
        assert!(!b.is_lighter_than(&a));
        assert_eq!(unbeaten(&[Some(a), Some(candidate("700", 4100, 60))]), [Some(true), Some(true)]);
        assert_eq!(per_gram(&b, &a), None);
        assert_eq!(per_gram(&a, &a), None);
    }

    #[test]
    fn each_saved_gram_has_its_price() {
        let (a, b) = (candidate("648", 4230, 0), candidate("938", 3650, 58));
        // 290 EUR for 580 g: 0.50 EUR a gram; ± 2 · 58 / 580 = 20 %.
        let (each, plus_minus) = per_gram(&b, &a).unwrap();
        assert_eq!((each.plain().as_str(), plus_minus.plain().as_str()), ("0.50", "0.10"));
        let (each, _) = per_gram(&candidate("548", 4130, 0), &a).unwrap();
        assert_eq!(each.plain(), "-1.00");
        assert_eq!(per_gram(&a, &b), None);
    }
}
