//! What a round tube weighs.

use std::f64::consts::PI;

/// Area of a round tube's section, mm²: π/4 (D² − d²) = π t (D − t). A wall of half the diameter or more is a solid rod.
#[must_use]
pub fn section_mm2(outside_mm: f64, wall_mm: f64) -> f64 {
    let wall = wall_mm.clamp(0.0, outside_mm / 2.0);
    PI * wall * (outside_mm - wall)
}

/// A tube's outside diameter and its walls along its length; the outside stays the same, the wall changes evenly in the
/// tapers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Profile {
    /// Outside diameter, mm.
    pub outside_mm: f64,
    /// Wall at the first end, in the middle and at the other end, mm.
    pub walls_mm: [f64; 3],
    /// Length of the first and of the other butt, mm.
    pub butts_mm: [f64; 2],
    /// Length of each taper, mm.
    pub taper_mm: f64,
}

impl Profile {
    /// The same wall all along.
    #[must_use]
    pub const fn plain(outside_mm: f64, wall_mm: f64) -> Self {
        Self { outside_mm, walls_mm: [wall_mm; 3], butts_mm: [0.0; 2], taper_mm: 0.0 }
    }

    /// Volume of `length_mm` (≥ 0) of it, mm³. A longer tube has a longer middle; one that is shorter than its butts and
    /// tapers has all of them shortened alike.
    #[must_use]
    pub fn volume_mm3(&self, length_mm: f64) -> f64 {
        let [first, middle, other] = self.walls_mm;
        let ends = self.butts_mm[0] + self.butts_mm[1] + 2.0 * self.taper_mm;
        let share = if length_mm < ends { length_mm / ends } else { 1.0 };
        let taper = self.taper_mm * share;
        section_mm2(self.outside_mm, first) * self.butts_mm[0] * share
            + section_mm2(self.outside_mm, other) * self.butts_mm[1] * share
            + self.taper_volume(first, middle, taper)
            + self.taper_volume(middle, other, taper)
            + section_mm2(self.outside_mm, middle) * (length_mm - ends).max(0.0)
    }

    /// What `length_mm` of it weighs, g.
    #[must_use]
    pub fn grams(&self, length_mm: f64, density_kg_m3: f64) -> f64 {
        self.volume_mm3(length_mm) * density_kg_m3 * 1e-6
    }

    /// What one more millimetre weighs at `length_mm`, g.
    #[must_use]
    pub fn grams_per_added_mm(&self, length_mm: f64, density_kg_m3: f64) -> f64 {
        let ends = self.butts_mm[0] + self.butts_mm[1] + 2.0 * self.taper_mm;
        if length_mm < ends {
            return self.grams(ends, density_kg_m3) / ends;
        }
        section_mm2(self.outside_mm, self.walls_mm[1]) * density_kg_m3 * 1e-6
    }

    /// Volume of a taper from wall `a` to wall `b`: π L [D (a + b)/2 − (a² + ab + b²)/3], exact for an even change.
    fn taper_volume(&self, a: f64, b: f64, length_mm: f64) -> f64 {
        PI * length_mm * (self.outside_mm * (a + b) / 2.0 - (a * a + a * b + b * b) / 3.0)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_metre_of_tube() {
        // π/4 (D² − d²) × density (trade practice, unverified; carbon 1550 by the rule of mixtures), computed independently.
        let per_metre = |density| Profile::plain(28.6, 0.8).grams(1000.0, density);
        assert!((section_mm2(28.6, 0.8) - 69.869021).abs() < 1e-6);
        for (density, grams) in
            [(7850.0, 548.4718), (2700.0, 188.6464), (2780.0, 194.2359), (4480.0, 313.0132), (1550.0, 108.2970)]
        {
            assert!((per_metre(density) - grams).abs() < 1e-4, "{density}");
        }
    }

    #[test]
    fn a_double_butted_tube() {
        // Own example, computed independently: 100 + 30 + 300 + 30 + 100 mm of 0.8/0.5/0.8, and the same in steps.
        let butted = Profile { outside_mm: 28.6, walls_mm: [0.8, 0.5, 0.8], butts_mm: [100.0, 100.0], taper_mm: 30.0 };
        assert!((butted.grams(560.0, 7850.0) - 240.5138).abs() < 1e-3);
        let stepped = Profile { taper_mm: 0.0, ..butted };
        assert!((stepped.grams(560.0, 7850.0) - 234.4322).abs() < 1e-3);
        let plain = |wall| Profile::plain(28.6, wall).grams(560.0, 7850.0);
        assert!((plain(0.8) - 307.1442).abs() < 1e-3 && (plain(0.5) - 194.0367).abs() < 1e-3);
    }

    #[test]
    fn a_wall_beyond_the_middle_is_a_rod() {
        assert!((section_mm2(10.0, 8.0) - PI * 25.0).abs() < 1e-12);
        assert_eq!(section_mm2(10.0, -1.0), 0.0);
    }

    proptest! {
        #[test]
        fn a_longer_tube_is_heavier_and_the_slope_is_its_derivative(
            outside in 10.0..60.0f64, first in 0.4..2.0f64, middle in 0.4..2.0f64, butt in 0.0..150.0f64,
            taper in 0.0..50.0f64, length in 1.0..800.0f64
        ) {
            let profile = Profile { outside_mm: outside, walls_mm: [first, middle, first], butts_mm: [butt; 2], taper_mm: taper };
            let (at, after) = (profile.grams(length, 7850.0), profile.grams(length + 0.001, 7850.0));
            prop_assert!(after > at);
            let ends = 2.0 * (butt + taper);
            if (length - ends).abs() > 0.01 {
                prop_assert!(((after - at) / 0.001 - profile.grams_per_added_mm(length, 7850.0)).abs() < 1e-5);
            }
        }
    }
}
