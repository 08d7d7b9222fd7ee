//! What each wheel carries, and the braking and the grades at which one lifts.
//!
//! Statics of a rigid bicycle on two points of contact: with the centre of mass x ahead of the rear contact and h above
//! the ground, wheelbase w, a deceleration a on the level puts x / w + (a / g) h / w of the weight on the front wheel.

use super::parameters::BicycleParameters;

/// The whole bicycle as one mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WheelLoads {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Centre of mass ahead of the rear contact, m.
    pub ahead_m: f64,
    /// Centre of mass above the ground, m.
    pub height_m: f64,
    /// Wheelbase, m.
    pub wheelbase_m: f64,
}

impl WheelLoads {
    /// The bicycle of a model as one mass.
    #[must_use]
    pub fn of(p: &BicycleParameters) -> Self {
        let bodies = [
            (p.rear_wheel_mass, 0.0, p.rear_wheel_radius),
            (p.body_mass, p.body_x, -p.body_z),
            (p.front_mass, p.front_x, -p.front_z),
            (p.front_wheel_mass, p.wheelbase, p.front_wheel_radius),
        ];
        let mass_kg: f64 = bodies.iter().map(|(mass, ..)| mass).sum();
        let mean = |part: fn(&(f64, f64, f64)) -> f64| bodies.iter().map(|b| b.0 * part(b)).sum::<f64>() / mass_kg;
        Self { mass_kg, ahead_m: mean(|b| b.1), height_m: mean(|b| b.2), wheelbase_m: p.wheelbase }
    }

    /// Share of the weight on the front wheel at rest on the level; outside 0 to 1 where the bicycle would tip over.
    #[must_use]
    pub fn front_share(&self) -> f64 {
        self.ahead_m / self.wheelbase_m
    }

    /// Share on the front wheel while braking with a deceleration of `braking` × g on the level.
    #[must_use]
    pub fn front_share_braking(&self, braking: f64) -> f64 {
        self.front_share() + braking * self.height_m / self.wheelbase_m
    }

    /// Deceleration at which the rear wheel lifts on the level, in units of g: (w − x) / h.
    #[must_use]
    pub fn pitch_over(&self) -> f64 {
        (self.wheelbase_m - self.ahead_m) / self.height_m
    }

    /// The same on a slope, `grade` being the metres that the road rises in a level metre, negative downhill:
    /// cos α (w − x) / h + sin α, the deceleration along the road.
    #[must_use]
    pub fn pitch_over_on(&self, grade: f64) -> f64 {
        let along = grade.hypot(1.0);
        (self.pitch_over() + grade) / along
    }

    /// Grade on which the front wheel lifts of a bicycle that stands or climbs steadily: x / h.
    #[must_use]
    pub fn lifting_grade(&self) -> f64 {
        self.ahead_m / self.height_m
    }
}

#[cfg(test)]
mod tests {
    use super::super::parameters::tests::benchmark;
    use super::*;

    #[track_caller]
    fn near(found: f64, expected: f64, within: f64) {
        assert!((found - expected).abs() <= within, "{found} is not {expected}");
    }

    /// Statics of the benchmark bicycle (Meijaard et al. 2007, Table 1), computed apart.
    #[test]
    fn the_benchmark_loads_its_wheels() {
        let loads = WheelLoads::of(&benchmark());
        near(loads.ahead_m, 0.342_127_659_574_468, 1e-12);
        near(loads.height_m, 0.861_170_212_765_957, 1e-12);
        near(loads.front_share(), 0.335_419_274, 1e-9);
        near(loads.pitch_over(), 0.787_152_563, 1e-9);
        near(loads.front_share_braking(0.5), 0.757_561_535, 1e-9);
        near(loads.front_share_braking(loads.pitch_over()), 1.0, 1e-12);
    }

    /// J. K. Moore, *Human Control of a Bicycle*, doctoral thesis, University of California Davis, 2012: a measured bicycle.
    #[test]
    fn a_measured_bicycle_loads_its_wheels() {
        let loads = WheelLoads { mass_kg: 10.23, ahead_m: 0.565_837_73, height_m: 0.533_092_67, wheelbase_m: 1.089 };
        near(loads.front_share(), 0.519_593_88, 1e-7);
    }

    /// J. S. Riel, "Maximal Braking on a Standard Bicycle", 2005: 0.7 g on the level, 0.6 g on a descent of 10 %, where
    /// sin α is taken for the grade and cos α for 1; the exact form differs by half a per cent.
    #[test]
    fn a_descent_takes_its_grade() {
        let loads = WheelLoads { mass_kg: 90.0, ahead_m: 0.3, height_m: 1.0, wheelbase_m: 1.0 };
        near(loads.pitch_over(), 0.7, 1e-12);
        near(loads.pitch_over_on(-0.1), 0.6, 0.004);
        near(loads.pitch_over_on(-0.1), 0.6 / 1.01_f64.sqrt(), 1e-12);
        near(loads.lifting_grade(), 0.3, 1e-12);
    }

    /// A load over a wheel's contact weighs on that wheel alone.
    #[test]
    fn a_mass_over_the_rear_contact_leaves_the_front_wheel_alone() {
        let mut bicycle = benchmark();
        let before = WheelLoads::of(&bicycle);
        // Ten kilograms at x = 0, added to the rear wheel's body: 32.16 / 104 m (statics, computed apart).
        bicycle.rear_wheel_mass += 10.0;
        let after = WheelLoads::of(&bicycle);
        near(after.ahead_m, 0.309_230_769, 1e-9);
        near(after.front_share(), 0.303_167_421, 1e-9);
        near(after.front_share() * after.mass_kg, before.front_share() * before.mass_kg, 1e-12);
    }
}
