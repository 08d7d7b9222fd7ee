//! Rules of thumb beside the arithmetic: what one change of shape does alone, rider and luggage staying where they are.

use super::parameters::BicycleParameters;

/// A change of shape that rules of thumb speak of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleOfThumb {
    /// Chainstay 25 mm shorter: the rear wheel stands further forward under rider and luggage.
    ShorterChainstay,
    /// Trail 10 mm more, wheelbase unchanged.
    MoreTrail,
    /// Wheelbase 30 mm more at the front: front wheel, fork and bar stand further forward.
    LongerFront,
}

impl RuleOfThumb {
    /// All, in the order of tables.
    pub const ALL: [Self; 3] = [Self::ShorterChainstay, Self::MoreTrail, Self::LongerFront];

    /// Stable key, for JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::ShorterChainstay => "chainstay_25_mm_shorter",
            Self::MoreTrail => "trail_10_mm_more",
            Self::LongerFront => "wheelbase_30_mm_more",
        }
    }

    /// The bicycle with that change alone.
    #[must_use]
    pub fn applied(self, bicycle: &BicycleParameters) -> BicycleParameters {
        let mut changed = *bicycle;
        match self {
            Self::ShorterChainstay => {
                changed.wheelbase -= 0.025;
                changed.body_x -= 0.025;
                changed.front_x -= 0.025;
            }
            Self::MoreTrail => changed.trail += 0.010,
            Self::LongerFront => {
                changed.wheelbase += 0.030;
                changed.front_x += 0.030;
            }
        }
        changed
    }
}

#[cfg(test)]
mod tests {
    use super::super::parameters::tests::benchmark;
    use super::super::wheel_loads::WheelLoads;
    use super::*;

    /// A shorter chainstay loads the rear wheel, a longer front does too; trail alone changes no load.
    #[test]
    fn loads_follow_the_wheels() {
        let share = |b: &BicycleParameters| WheelLoads::of(b).front_share();
        let before = share(&benchmark());
        assert!(share(&RuleOfThumb::ShorterChainstay.applied(&benchmark())) < before);
        assert!(share(&RuleOfThumb::LongerFront.applied(&benchmark())) < before);
        assert!((share(&RuleOfThumb::MoreTrail.applied(&benchmark())) - before).abs() < 1e-12);
    }
}
