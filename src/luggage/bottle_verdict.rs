//! Whether a bottle fits, over all places at which its bosses may be: on its own, beside the others, and with a bag.
//!
//! A bottle that is moved along its tube by a millimetre comes at most a millimetre nearer to anything: what is farther off
//! than all of the ± needs no second look.

use super::bottle_gaps::{Obstacle, PlaceDoubts, Surroundings, gap};
use super::bottles::{BottleFit, CageOnTube, Clash, own_tube};
use crate::geometry::Point;
use crate::units::{Length, Measured};

/// Whether a bottle fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BottleVerdict {
    /// It clears everything by more than the ±, wherever its bosses are.
    Fits,
    /// It depends on the height of the bosses, or on less than the ±.
    Borderline,
    /// It hits something by more than the ±, wherever its bosses are.
    DoesNotFit,
}

impl BottleVerdict {
    /// Its name in JSON.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::Borderline => "borderline",
            Self::DoesNotFit => "does_not_fit",
        }
    }

    fn of(gap: Measured<Length>) -> Self {
        if gap.low() > 0.0 {
            Self::Fits
        } else if gap.high() < 0.0 {
            Self::DoesNotFit
        } else {
            Self::Borderline
        }
    }

    /// Over places that are all possible: sure only where all agree.
    fn over(places: impl IntoIterator<Item = Self>) -> Self {
        let mut places = places.into_iter();
        let first = places.next().unwrap_or(Self::Fits);
        if places.all(|p| p == first) { first } else { Self::Borderline }
    }
}

/// Places that are tried within the ± of a boss.
const PLACES: u32 = 11;
/// Halvings of the last step towards the end of a free stretch.
const HALVINGS: u32 = 6;

/// A bottle that may slide along its tube, and what stands around it.
#[derive(Clone, Debug)]
pub(super) struct Slides {
    cage: CageOnTube,
    around: Surroundings,
    bag: Option<Obstacle>,
}

impl Slides {
    pub(super) const fn of(cage: CageOnTube, around: Surroundings, bag: Option<Obstacle>) -> Self {
        Self { cage, around, bag }
    }

    fn usual(&self) -> f64 {
        self.cage.cage.lower_boss_mm
    }

    fn plus_minus(&self) -> f64 {
        self.cage.cage.boss_plus_minus_mm
    }

    fn gap(&self, at: f64, to: &Obstacle, doubts: PlaceDoubts) -> Measured<Length> {
        gap(&self.cage.bottle(at), own_tube(self.cage.holder), to, doubts)
    }

    /// Places of the lower boss that are tried, from the lowest.
    fn places(&self) -> Vec<f64> {
        let (usual, off) = (self.usual(), self.plus_minus());
        if off <= 0.0 {
            return vec![usual];
        }
        let step = 2.0 * off / f64::from(PLACES - 1);
        (0..PLACES).map(|i| usual - off + step * f64::from(i)).collect()
    }

    /// The obstacles that it may hit at some places and not at others.
    fn in_doubt<'a>(&'a self, all: &[&'a Obstacle], doubts: PlaceDoubts) -> Vec<&'a Obstacle> {
        let decides = |to: &&&Obstacle| {
            let gap = self.gap(self.usual(), to, doubts);
            gap.value.abs() <= self.plus_minus() + gap.expanded()
        };
        all.iter().filter(decides).copied().collect()
    }

    /// The verdict against those obstacles over all places.
    fn verdict(&self, all: &[&Obstacle], doubts: PlaceDoubts) -> BottleVerdict {
        let usual = all.iter().map(|to| BottleVerdict::of(self.gap(self.usual(), to, doubts))).max();
        let doubted = self.in_doubt(all, doubts);
        let is_sure_hit =
            all.iter().any(|to| !doubted.iter().any(|d| std::ptr::eq(*d, *to)) && self.gap(self.usual(), to, doubts).value < 0.0);
        if is_sure_hit {
            return BottleVerdict::DoesNotFit;
        }
        if doubted.is_empty() {
            return usual.unwrap_or(BottleVerdict::Fits);
        }
        let at = |place: &f64| doubted.iter().map(|to| BottleVerdict::of(self.gap(*place, to, doubts))).max();
        BottleVerdict::over(self.places().iter().filter_map(at))
    }

    /// Whether it hits nothing there, by the best estimates.
    fn is_free(&self, at: f64, all: &[&Obstacle], doubts: PlaceDoubts) -> bool {
        all.iter().all(|to| self.gap(at, to, doubts).value > 0.0)
    }

    /// The stretch of places, nearest to the usual one, at which it hits nothing; `None` where there is none.
    fn free(&self, all: &[&Obstacle], doubts: PlaceDoubts) -> Option<(f64, f64)> {
        let doubted = self.in_doubt(all, doubts);
        if all.iter().any(|to| !doubted.iter().any(|d| std::ptr::eq(*d, *to)) && self.gap(self.usual(), to, doubts).value < 0.0) {
            return None;
        }
        let places = self.places();
        let free: Vec<bool> = places.iter().map(|at| self.is_free(*at, &doubted, doubts)).collect();
        let usual = self.usual();
        let nearest = (0..places.len())
            .filter(|i| free.get(*i) == Some(&true))
            .min_by(|a, b| (places[*a] - usual).abs().total_cmp(&(places[*b] - usual).abs()))?;
        let mut from = nearest;
        while from > 0 && free[from - 1] {
            from -= 1;
        }
        let mut to = nearest;
        while to + 1 < free.len() && free[to + 1] {
            to += 1;
        }
        let end = |inside: usize, outside: Option<usize>| {
            let (mut good, Some(mut bad)) = (places[inside], outside.and_then(|o| places.get(o).copied())) else {
                return places[inside];
            };
            for _ in 0..HALVINGS {
                let middle = f64::midpoint(good, bad);
                if self.is_free(middle, &doubted, doubts) { good = middle } else { bad = middle }
            }
            good
        };
        Some((end(from, from.checked_sub(1)), end(to, Some(to + 1))))
    }

    fn others(&self) -> Vec<&Obstacle> {
        self.around.0.iter().collect()
    }

    fn all(&self) -> Vec<&Obstacle> {
        self.around.0.iter().chain(&self.bag).collect()
    }

    /// Where it is drawn: where it is set, or at the nearest free place, beside the bag if there is one.
    fn drawn(&self, doubts: PlaceDoubts) -> f64 {
        let free = self.free(&self.all(), doubts).or_else(|| self.free(&self.others(), doubts));
        free.map_or(self.usual(), |(from, to)| self.usual().clamp(from.min(to), to.max(from)))
    }
}

/// How the bottle of cage `i` stands to everything.
pub(super) fn fit(all: &[Slides], i: usize, doubts: PlaceDoubts) -> Option<BottleFit> {
    let own = all.get(i)?;
    let lower_boss_mm = own.drawn(doubts);
    let outline = own.cage.bottle(lower_boss_mm);
    let others: Vec<(usize, &Slides)> = all.iter().enumerate().filter(|(j, _)| *j != i).collect();
    let mut near: Vec<(Clash, Measured<Length>)> =
        own.bag.iter().chain(&own.around.0).map(|to| (to.clash, own.gap(lower_boss_mm, to, doubts))).collect();
    near.extend(others.iter().map(|(_, other)| {
        let at = other.drawn(doubts);
        (Clash::Bottle(other.cage.holder), between(own, lower_boss_mm, other, at, doubts))
    }));
    let alone = own.verdict(&own.others(), doubts);
    let beside = others.iter().map(|(_, other)| beside(own, other, doubts)).max().unwrap_or(BottleVerdict::Fits);
    let without_bag = alone.max(beside);
    let with_bag = own.verdict(&own.all(), doubts).max(beside);
    let free_mm = own.free(&own.all(), doubts).filter(|(from, to)| to - from < 2.0 * own.plus_minus() - 0.5);
    Some(BottleFit {
        holder: own.cage.holder,
        bottle: own.cage.cage.bottle,
        lower_boss_mm,
        bosses: own.cage.bosses(lower_boss_mm),
        outline,
        hits: near.iter().filter(|(_, gap)| gap.value <= 0.0).map(|(clash, _)| *clash).collect(),
        nearest: near.into_iter().filter(|(_, gap)| gap.value > 0.0).min_by(|a, b| a.1.value.total_cmp(&b.1.value)),
        free_mm,
        alone,
        without_bag,
        with_bag,
    })
}

/// The gap between two bottles at those places.
fn between(own: &Slides, at: f64, other: &Slides, other_at: f64, doubts: PlaceDoubts) -> Measured<Length> {
    let outline: Vec<Point<f64>> = other.cage.bottle(other_at);
    own.gap(at, &Obstacle::area(Clash::Bottle(other.cage.holder), &outline), doubts)
}

/// Two bottles, each over all its places while the other stands where it is set: they come nearest and farthest at the ends.
fn beside(own: &Slides, other: &Slides, doubts: PlaceDoubts) -> BottleVerdict {
    let usual = between(own, own.usual(), other, other.usual(), doubts);
    let most = own.plus_minus().max(other.plus_minus());
    if most <= 0.0 || usual.value.abs() > most + usual.expanded() {
        return BottleVerdict::of(usual);
    }
    let ends = |s: &Slides| [s.usual() - s.plus_minus(), s.usual() + s.plus_minus()];
    let own_moved = ends(own).map(|at| between(own, at, other, other.usual(), doubts));
    let other_moved = ends(other).map(|at| between(own, own.usual(), other, at, doubts));
    BottleVerdict::over(own_moved.into_iter().chain(other_moved).chain([usual]).map(BottleVerdict::of))
}

impl BottleFit {
    /// Whether it fits where it is drawn, by the best estimates.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.hits.is_empty()
    }

    /// Whether it fits there where there is no bag.
    #[must_use]
    pub fn fits_without_bag(&self) -> bool {
        self.hits.iter().all(|clash| *clash == Clash::Bag)
    }
}
