//! Price against weight: which framesets nothing else is both lighter and cheaper than, and what each gram saved costs.
//!
//! Weights come in as decimal grams, their differences with a u; a difference of weight counts only beyond its ±.

use rust_decimal::Decimal;

use super::amount::Money;

/// A frameset in the plot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// Its price, in the currency that all share.
    pub money: Money,
    /// Its weight, g.
    pub grams: Decimal,
}

impl Candidate {
    /// Lighter than `other` by more than the ± (two standard uncertainties) of the difference, whose u is `apart_u`; without
    /// any ±, lighter at all.
    #[must_use]
    pub fn is_lighter_than(&self, other: &Self, apart_u: Decimal) -> bool {
        let saved = other.grams - self.grams;
        saved > Decimal::ZERO && saved * saved > Decimal::from(4) * apart_u * apart_u
    }

    /// Beats `other`: clearly lighter and not dearer, or cheaper and weighed exactly alike.
    #[must_use]
    pub fn beats(&self, other: &Self, apart_u: Decimal) -> bool {
        let is_alike = self.grams == other.grams && apart_u.is_zero();
        (self.is_lighter_than(other, apart_u) && self.money.amount <= other.money.amount)
            || (is_alike && self.money.amount < other.money.amount)
    }
}

/// For each candidate whether no other beats it in both price and weight; without a clear difference of weight none does.
/// Where there is no candidate there is no answer. `apart_u` is the standard uncertainty of the difference of two weights,
/// by their places, g.
#[must_use]
pub fn unbeaten(candidates: &[Option<Candidate>], apart_u: impl Fn(usize, usize) -> Decimal) -> Vec<Option<bool>> {
    let is_beaten = |place: usize, own: &Candidate| {
        let others = candidates.iter().enumerate().filter(|(other, _)| *other != place);
        others.filter_map(|(i, other)| Some((i, other.as_ref()?))).any(|(i, other)| other.beats(own, apart_u(i, place)))
    };
    candidates.iter().enumerate().map(|(place, own)| own.as_ref().map(|own| !is_beaten(place, own))).collect()
}

/// The price of each gram that `own` saves against `reference`, unrounded, with its ± from that of the difference of the
/// weights, whose u is `apart_u`; negative where it is lighter and cheaper. `None` where it is not lighter beyond the ±.
#[must_use]
pub fn per_gram(own: &Candidate, reference: &Candidate, apart_u: Decimal) -> Option<(Money, Money)> {
    if !own.is_lighter_than(reference, apart_u) || own.money.currency != reference.money.currency {
        return None;
    }
    let saved = reference.grams - own.grams;
    let amount = (own.money.amount - reference.money.amount).checked_div(saved)?;
    let plus_minus = (amount * Decimal::TWO * apart_u).checked_div(saved)?.abs();
    let money = |amount| Money { amount, currency: own.money.currency };
    Some((money(amount), money(plus_minus)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn candidate(price: &str, grams: i64) -> Candidate {
        Candidate { money: Money::read(price, "EUR").unwrap(), grams: Decimal::from(grams) }
    }

    const NO_U: Decimal = Decimal::ZERO;

    #[test]
    fn who_is_beaten_in_both_is_not_marked() {
        let list = [("648", 4230), ("719", 3650), ("900", 3800), ("2950", 2365), ("459", 4300)];
        let candidates: Vec<_> = list.iter().map(|(p, g)| Some(candidate(p, *g))).chain([None]).collect();
        let marks = unbeaten(&candidates, |_, _| NO_U);
        assert_eq!(marks, [Some(true), Some(true), Some(false), Some(true), Some(true), None]);
    }

    #[test]
    fn a_difference_within_its_plus_minus_beats_nobody_and_costs_nothing() {
        let (a, b) = (candidate("648", 4000), candidate("900", 3900));
        let u = Decimal::from(85);
        assert!(!b.is_lighter_than(&a, u) && b.is_lighter_than(&a, Decimal::from(49)));
        let dearer = candidate("700", 4100);
        assert_eq!(unbeaten(&[Some(a), Some(dearer)], |_, _| u), [Some(true), Some(true)]);
        // What both share leaves less between them.
        assert_eq!(unbeaten(&[Some(a), Some(dearer)], |_, _| Decimal::from(20)), [Some(true), Some(false)]);
        assert_eq!(per_gram(&b, &a, u), None);
        assert_eq!(per_gram(&a, &a, NO_U), None);
    }

    #[test]
    fn each_saved_gram_has_its_price() {
        let (a, b) = (candidate("648", 4230), candidate("938", 3650));
        // 290 EUR for 580 g: 0.50 EUR a gram; ± 2 · 58 / 580 = 20 %.
        let (each, plus_minus) = per_gram(&b, &a, Decimal::from(58)).unwrap();
        assert_eq!((each.plain().as_str(), plus_minus.plain().as_str()), ("0.50", "0.10"));
        let (each, _) = per_gram(&candidate("548", 4130), &a, NO_U).unwrap();
        assert_eq!(each.plain(), "-1.00");
        assert_eq!(per_gram(&a, &b, NO_U), None);
    }
}
