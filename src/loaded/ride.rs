//! What a loaded bicycle does, each number with its standard uncertainty, and how two bicycles under one rider differ.
//!
//! Values answer to their inputs by central differences of half a standard uncertainty; covariances follow by JCGM
//! 100:2008, 5.2.2. A rider and luggage that are one for two bicycles drop out of their difference as far as both answer
//! to them alike.

use nalgebra::Complex;

use super::critical_speeds::{CriticalSpeeds, QUARTIC_COEFFICIENTS, Quartic};
use super::linear_model::LinearModel;
use super::loaded_bicycle::{FRAME_CENTRE_U_M, FrameBody, Load, OWN, Own, SHARED, assemble, own_inputs, shared_u};
use super::modes::modes;
use super::parameters::BicycleParameters;
use super::wheel_loads::WheelLoads;
use crate::geometry::{AdjustedSize, STATES};
use crate::units::{AnyKind, Measured};

/// What is said of a loaded bicycle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LoadedFigure {
    /// Everything that moves, kg.
    WholeMass,
    /// Load on the front wheel at rest on the level, kg.
    FrontLoad,
    /// Load on the rear wheel, kg.
    RearLoad,
    /// Share of the front wheel, percent.
    FrontShare,
    /// Deceleration at which the rear wheel lifts on the level, in units of g.
    PitchOver,
    /// The same on a descent of 10 %.
    PitchOverDownhill,
    /// Grade on which the front wheel lifts, climbing steadily, percent.
    LiftingGrade,
    /// Weave speed: above it weaving dies out, m/s.
    WeaveSpeed,
    /// Capsize speed: above it the bicycle falls slowly into a turn, m/s.
    CapsizeSpeed,
    /// Steering torque that holds a slow turn, N m: positive where the bar must be turned into the turn.
    TurnTorque,
}

/// How many figures there are.
const FIGURES: usize = LoadedFigure::ALL.len();

/// Values that are followed through the uncertainties: the figures, then the coefficients of the quartic.
const FOLLOWED: usize = FIGURES + QUARTIC_COEFFICIENTS;

/// Grade of the descent, and the slow turn: speed (m/s) and radius (m) of the front contact's path.
pub const DESCENT_GRADE: f64 = -0.10;
/// Speed of the slow turn, m/s: 10 km/h.
pub const TURN_SPEED: f64 = 10.0 / 3.6;
/// Speed at which the motions' time constants are said, m/s: 20 km/h.
pub const USUAL_SPEED: f64 = 20.0 / 3.6;
/// Radius of the slow turn, m.
pub const TURN_RADIUS: f64 = 8.0;

impl LoadedFigure {
    /// All, in the order of tables.
    pub const ALL: [Self; 10] = [
        Self::WholeMass,
        Self::FrontLoad,
        Self::RearLoad,
        Self::FrontShare,
        Self::PitchOver,
        Self::PitchOverDownhill,
        Self::LiftingGrade,
        Self::WeaveSpeed,
        Self::CapsizeSpeed,
        Self::TurnTorque,
    ];

    /// Stable key, for JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::WholeMass => "whole_kg",
            Self::FrontLoad => "front_kg",
            Self::RearLoad => "rear_kg",
            Self::FrontShare => "front_share_percent",
            Self::PitchOver => "pitch_over_g",
            Self::PitchOverDownhill => "pitch_over_downhill_g",
            Self::LiftingGrade => "lifting_grade_percent",
            Self::WeaveSpeed => "weave",
            Self::CapsizeSpeed => "capsize",
            Self::TurnTorque => "turn_torque",
        }
    }
}

/// Steering torque that holds a slow steady turn of a hands-off bicycle, N m.
#[must_use]
pub fn turn_torque(bicycle: &BicycleParameters, model: &LinearModel) -> f64 {
    let steer = bicycle.wheelbase / (TURN_RADIUS * bicycle.steer_axis_tilt.cos());
    let [[k11, k12], [k21, k22]] = model.stiffness_at(TURN_SPEED);
    let lean = -k12 * steer / k11;
    k21 * lean + k22 * steer
}

/// The followed values of a bicycle; NaN where it has none.
fn followed(bicycle: &BicycleParameters) -> [f64; FOLLOWED] {
    let model = LinearModel::of(bicycle);
    let quartic = Quartic::of(&model);
    let speeds = CriticalSpeeds::of(&quartic);
    let loads = WheelLoads::of(bicycle);
    let front = loads.front_share();
    let mut all = [0.0; FOLLOWED];
    all[..FIGURES].copy_from_slice(&[
        loads.mass_kg,
        loads.mass_kg * front,
        loads.mass_kg * (1.0 - front),
        100.0 * front,
        loads.pitch_over(),
        loads.pitch_over_on(DESCENT_GRADE),
        100.0 * loads.lifting_grade(),
        speeds.weave.unwrap_or(f64::NAN),
        speeds.capsize.unwrap_or(f64::NAN),
        turn_torque(bicycle, &model),
    ]);
    all[FIGURES..].copy_from_slice(&quartic.coefficients());
    all
}

/// Covariance of a frame's own inputs.
pub type OwnCovariance = [[f64; OWN]; OWN];

/// Covariance of a frame's own inputs: its state's, and the standard uncertainties of frame and fork, kg.
#[must_use]
pub fn own_covariance(size: &AdjustedSize, frame_u_kg: f64, fork_u_kg: f64) -> Box<OwnCovariance> {
    let mut covariance = Box::new([[0.0; OWN]; OWN]);
    for (row, state) in covariance.iter_mut().zip(&size.covariance) {
        row[..STATES].copy_from_slice(state);
    }
    let own = [frame_u_kg, fork_u_kg, FRAME_CENTRE_U_M, FRAME_CENTRE_U_M];
    for (i, u) in (STATES..).zip(own) {
        covariance[i][i] = u * u;
    }
    covariance
}

/// A loaded bicycle and how its figures answer to what is uncertain.
#[derive(Clone, Debug, PartialEq)]
pub struct Ride {
    /// The bicycle of the model.
    pub bicycle: BicycleParameters,
    /// Ranges of speed in which it steadies itself, m/s.
    pub speeds: CriticalSpeeds,
    model: LinearModel,
    values: [f64; FOLLOWED],
    /// Covariance of the followed values.
    covariance: Box<[[f64; FOLLOWED]; FOLLOWED]>,
    own: Box<[Own; FOLLOWED]>,
    shared: Box<[[f64; SHARED]; FOLLOWED]>,
    own_covariance: Box<OwnCovariance>,
}

/// A motion at one speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// How fast it grows (+) or dies out (−), 1/s.
    pub growth: Measured<AnyKind>,
    /// How fast it swings, 1/s; 0 where it does not.
    pub swing: f64,
}

impl Motion {
    /// The time in which it grows or dies out to 2.7 times or a 2.7th, s; `None` for a motion that does neither.
    #[must_use]
    pub fn time_constant(&self) -> Option<Measured<AnyKind>> {
        let rate = self.growth.value.abs();
        (rate > 0.0).then(|| Measured::new(1.0 / rate, self.growth.u / (rate * rate)))
    }
}

/// A motion by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NamedMotion {
    /// Swinging from side to side.
    Weave,
    /// Falling slowly into a turn, or coming back from it.
    Capsize,
}

impl NamedMotion {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Weave, Self::Capsize];

    /// Stable key, for JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Weave => "weave",
            Self::Capsize => "capsize",
        }
    }
}

/// Half a standard uncertainty, as the step of a central difference; where nothing is uncertain, a small one.
fn step(u: f64) -> f64 {
    if u > 1e-6 && u.is_finite() { 0.5 * u } else { 1e-6 }
}

impl Ride {
    /// A frame of a size under a load; `frame_u` are the standard uncertainties of the masses of frame and fork, kg.
    #[must_use]
    pub fn of(size: &AdjustedSize, frame: &FrameBody, load: &Load<'_>, frame_u: [f64; 2]) -> Self {
        let own = own_inputs(&size.state, frame);
        let none = [0.0; SHARED];
        let bicycle = assemble(&own, &none, frame, load);
        let values = followed(&bicycle);
        let own_covariance = own_covariance(size, frame_u[0], frame_u[1]);
        let at = |own: &Own, shared: &[f64; SHARED]| followed(&assemble(own, shared, frame, load));
        let mut by_own = Box::new([[0.0; OWN]; FOLLOWED]);
        for i in 0..OWN {
            let variance = own_covariance[i][i];
            if variance > 0.0 {
                let by = step(variance.sqrt());
                let moved = |by: f64| {
                    let mut own = own;
                    own[i] += by;
                    at(&own, &none)
                };
                let (up, down) = (moved(by), moved(-by));
                (0..FOLLOWED).for_each(|k| by_own[k][i] = (up[k] - down[k]) / (2.0 * by));
            }
        }
        let us = shared_u();
        let mut by_shared = Box::new([[0.0; SHARED]; FOLLOWED]);
        for (i, u) in us.iter().enumerate() {
            let by = step(*u);
            let moved = |by: f64| {
                let mut shared = none;
                shared[i] = by;
                at(&own, &shared)
            };
            let (up, down) = (moved(by), moved(-by));
            (0..FOLLOWED).for_each(|k| by_shared[k][i] = (up[k] - down[k]) / (2.0 * by));
        }
        let model = LinearModel::of(&bicycle);
        let mut ride = Self {
            bicycle,
            speeds: CriticalSpeeds::of(&Quartic::of(&model)),
            model,
            values,
            covariance: Box::new([[0.0; FOLLOWED]; FOLLOWED]),
            own: by_own,
            shared: by_shared,
            own_covariance,
        };
        let covariance = ride.between(&ride, &ride.own_covariance);
        ride.covariance = covariance;
        ride
    }

    /// Covariance of this bicycle's followed values and another's, whose own inputs have the covariance `own` with this one's.
    fn between(&self, other: &Self, own: &OwnCovariance) -> Box<[[f64; FOLLOWED]; FOLLOWED]> {
        let us = shared_u();
        let mut found = Box::new([[0.0; FOLLOWED]; FOLLOWED]);
        for (i, row) in found.iter_mut().enumerate() {
            let through = through(own, &self.own[i]);
            row.iter_mut().enumerate().for_each(|(j, entry)| *entry = self.common(other, &through, &us, (i, j)));
        }
        found
    }

    /// A figure; `None` where the bicycle has none, such as a weave speed where weaving dies out at no speed. Its u is
    /// infinite where a small change takes the figure away.
    #[must_use]
    pub fn figure(&self, figure: LoadedFigure) -> Option<Measured<AnyKind>> {
        let i = figure as usize;
        measured(self.values[i], self.covariance[i][i])
    }

    /// Covariance of its own inputs, for differences with the same bicycle under another load.
    #[must_use]
    pub const fn own_covariance(&self) -> &OwnCovariance {
        &self.own_covariance
    }

    /// How a figure differs from another bicycle's under the same rider and luggage, this one less the other. `own` is the
    /// covariance of both bicycles' own inputs: zero but for what they share.
    #[must_use]
    pub fn difference(&self, other: &Self, own: &OwnCovariance, figure: LoadedFigure) -> Option<Measured<AnyKind>> {
        let i = figure as usize;
        let common = self.common(other, &through(own, &self.own[i]), &shared_u(), (i, i));
        measured(self.values[i] - other.values[i], self.covariance[i][i] + other.covariance[i][i] - 2.0 * common)
    }

    /// Covariance of one followed value of this bicycle and one of another. `through` is how this one's answers through the
    /// covariance of both bicycles' own inputs.
    fn common(&self, other: &Self, through: &Own, us: &[f64; SHARED], (of, and): (usize, usize)) -> f64 {
        let own: f64 = through.iter().zip(&other.own[and]).map(|(c, b)| c * b).sum();
        let shared = self.shared[of].iter().zip(&other.shared[and]).zip(us);
        own + shared.map(|((a, b), u)| a * b * u * u).sum::<f64>()
    }

    /// The motions at a speed, m/s: those that grow fastest first. Empty for a bicycle without mass.
    #[must_use]
    pub fn motions(&self, speed_m_s: f64) -> Vec<Motion> {
        let v = speed_m_s;
        let quartic = Quartic::of(&self.model);
        let [a, b, c, d, _] = quartic.at(v);
        let found = modes(&self.model, v).into_iter().flatten();
        found
            .map(|s| {
                let [s2, s3] = [s * s, s * s * s];
                let slope = s3 * 4.0 * a + s2 * 3.0 * b + s * 2.0 * c + d;
                let one = Complex::new(1.0, 0.0);
                let by: [Complex<f64>; QUARTIC_COEFFICIENTS] =
                    [s2 * s2, s3 * v, s2, s2 * v * v, s * v, s * v * v * v, one, one * v * v];
                let answers = by.map(|p| -(p / slope).re);
                let mut variance = 0.0;
                for (i, a) in answers.iter().enumerate() {
                    let row = &self.covariance[FIGURES + i][FIGURES..];
                    variance += a * row.iter().zip(&answers).map(|(c, b)| c * b).sum::<f64>();
                }
                let u = if variance.is_finite() { variance.max(0.0).sqrt() } else { f64::INFINITY };
                Motion { growth: Measured::new(s.re, u), swing: s.im }
            })
            .collect()
    }
}

impl Ride {
    /// A motion by its name at a speed, m/s. `None` at low speeds, where nothing swings and names mean nothing, and where
    /// more than one motion swings.
    #[must_use]
    pub fn motion(&self, named: NamedMotion, speed_m_s: f64) -> Option<Motion> {
        let motions = self.motions(speed_m_s);
        let (swinging, others): (Vec<&Motion>, Vec<&Motion>) = motions.iter().partition(|m| m.swing != 0.0);
        match (named, swinging.as_slice(), others.as_slice()) {
            (NamedMotion::Weave, [weave, _], [_, _]) => Some(**weave),
            // The other one is the castering of the front wheel, which dies out quickly.
            (NamedMotion::Capsize, [_, _], [capsize, _]) => Some(**capsize),
            _ => None,
        }
    }
}

/// aᵀ C.
fn through(covariance: &OwnCovariance, answers: &Own) -> Own {
    let mut through = [0.0; OWN];
    for (a, line) in answers.iter().zip(covariance).filter(|(a, _)| **a != 0.0) {
        through.iter_mut().zip(line).for_each(|(sum, c)| *sum += a * c);
    }
    through
}

fn measured(value: f64, variance: f64) -> Option<Measured<AnyKind>> {
    let u = if variance.is_nan() { f64::INFINITY } else { variance.max(0.0).sqrt() };
    value.is_finite().then(|| Measured::new(value, u))
}

#[cfg(test)]
mod tests {
    use super::super::parameters::tests::benchmark;
    use super::*;

    #[test]
    fn a_motion_that_grows_twice_a_second_has_half_a_second() {
        let motion = |growth: f64| Motion { growth: Measured::new(growth, 0.2), swing: 0.0 };
        for growth in [2.0, -2.0] {
            let time = motion(growth).time_constant().unwrap();
            assert!((time.value - 0.5).abs() < 1e-12 && (time.u - 0.05).abs() < 1e-12);
        }
        assert_eq!(motion(0.0).time_constant(), None);
    }

    /// Measured by this project with numpy 2.4.6: the steady turn solved from the matrices that Meijaard et al. 2007 print
    /// for their benchmark bicycle.
    #[test]
    fn the_benchmark_is_held_back_in_a_slow_turn() {
        let bicycle = benchmark();
        let torque = turn_torque(&bicycle, &LinearModel::of(&bicycle));
        assert!((torque + 0.745_391_16).abs() < 1e-7, "{torque}");
    }
}
