//! The bicycle of the Whipple model as its 25 published parameters, with gravity.
//!
//! Names, axes and units are those of Meijaard, Papadopoulos, Ruina & Schwab, "Linearized dynamics equations for the
//! balance and steer of a bicycle: a benchmark and review", Proc. R. Soc. A 463 (2007) 1955–1982, Table 1: SI units; x
//! forward, y to the right, z **down**, from the rear wheel's contact with the ground. Four rigid bodies: R the rear
//! wheel, B the rear body with the rider, H the front assembly (handlebar, fork, what hangs on them), F the front wheel.

/// A parameter: its key in files, what it is, its unit, and the range that is accepted, both ends included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parameter {
    /// Key in files: the paper's symbol.
    pub key: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// Unit symbol; empty where there is none.
    pub unit: &'static str,
    /// Least accepted value.
    pub low: f64,
    /// Greatest accepted value.
    pub high: f64,
}

/// Why parameters describe no bicycle.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ParameterError {
    /// A value outside its range.
    #[error("`{}` ({}): {value} is outside {} to {} {}", parameter.key, parameter.meaning, parameter.low, parameter.high, parameter.unit)]
    OutOfRange {
        /// Which.
        parameter: Parameter,
        /// The value that was given.
        value: f64,
    },
    /// Moments of inertia that no body has.
    #[error(
        "{body}: no body has these moments of inertia: {reason}. Check {keys}, for instance whether they are in kg m² about \
         the body's own centre of mass"
    )]
    Inertia {
        /// The body.
        body: &'static str,
        /// Keys of its moments.
        keys: &'static str,
        /// What is impossible about them.
        reason: &'static str,
    },
}

macro_rules! parameters {
    ($($field:ident, $key:literal, $meaning:literal, $unit:literal, $low:literal..=$high:literal;)*) => {
        /// The bicycle of the Whipple model: 25 parameters of Table 1 of Meijaard et al. 2007, and gravity.
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub struct BicycleParameters {
            $(#[doc = $meaning] #[doc = concat!(", ", $unit, ".")] pub $field: f64,)*
        }

        /// All parameters, in the paper's order.
        pub const PARAMETERS: &[Parameter] = &[
            $(Parameter { key: $key, meaning: $meaning, unit: $unit, low: $low, high: $high },)*
        ];

        impl BicycleParameters {
            /// Parameters from the values that `value` gives for their keys.
            ///
            /// # Errors
            /// The first error of `value`. Values are not [checked](Self::checked).
            pub fn from_keys<E>(mut value: impl FnMut(&'static Parameter) -> Result<f64, E>) -> Result<Self, E> {
                let mut next = PARAMETERS.iter();
                $(let $field = match next.next() {
                    Some(parameter) => value(parameter)?,
                    None => 0.0,
                };)*
                Ok(Self { $($field,)* })
            }

            /// Values, in the order of [`PARAMETERS`].
            #[must_use]
            pub const fn values(&self) -> [f64; PARAMETERS.len()] {
                [$(self.$field,)*]
            }
        }
    };
}

parameters! {
    wheelbase, "w", "Wheelbase", "m", 0.3..=4.0;
    trail, "c", "Trail", "m", -1.0..=1.0;
    steer_axis_tilt, "lambda", "Tilt of the steering axis from the vertical, its top to the rear", "rad", -1.3..=1.3;
    gravity, "g", "Gravity", "m/s²", 0.1..=30.0;
    rear_wheel_radius, "rR", "Radius of the rear wheel", "m", 0.05..=1.0;
    rear_wheel_mass, "mR", "Mass of the rear wheel", "kg", 0.0..=100.0;
    rear_wheel_ixx, "IRxx", "Rear wheel's moment of inertia about a diameter", "kg m²", 0.0..=100.0;
    rear_wheel_iyy, "IRyy", "Rear wheel's moment of inertia about its axle", "kg m²", 0.0..=100.0;
    body_x, "xB", "Rear body's centre of mass, forward", "m", -5.0..=5.0;
    body_z, "zB", "Rear body's centre of mass, down", "m", -5.0..=0.0;
    body_mass, "mB", "Mass of the rear body with the rider", "kg", 0.1..=1000.0;
    body_ixx, "IBxx", "Rear body's moment of inertia about the forward axis", "kg m²", 0.0..=1000.0;
    body_iyy, "IByy", "Rear body's moment of inertia about the sideways axis", "kg m²", 0.0..=1000.0;
    body_izz, "IBzz", "Rear body's moment of inertia about the vertical axis", "kg m²", 0.0..=1000.0;
    body_ixz, "IBxz", "Rear body's product of inertia", "kg m²", -1000.0..=1000.0;
    front_x, "xH", "Front assembly's centre of mass, forward", "m", -5.0..=5.0;
    front_z, "zH", "Front assembly's centre of mass, down", "m", -5.0..=0.0;
    front_mass, "mH", "Mass of the front assembly", "kg", 0.0..=1000.0;
    front_ixx, "IHxx", "Front assembly's moment of inertia about the forward axis", "kg m²", 0.0..=1000.0;
    front_iyy, "IHyy", "Front assembly's moment of inertia about the sideways axis", "kg m²", 0.0..=1000.0;
    front_izz, "IHzz", "Front assembly's moment of inertia about the vertical axis", "kg m²", 0.0..=1000.0;
    front_ixz, "IHxz", "Front assembly's product of inertia", "kg m²", -1000.0..=1000.0;
    front_wheel_radius, "rF", "Radius of the front wheel", "m", 0.05..=1.0;
    front_wheel_mass, "mF", "Mass of the front wheel", "kg", 0.0..=100.0;
    front_wheel_ixx, "IFxx", "Front wheel's moment of inertia about a diameter", "kg m²", 0.0..=100.0;
    front_wheel_iyy, "IFyy", "Front wheel's moment of inertia about its axle", "kg m²", 0.0..=100.0;
}

/// Slack of the tests on moments of inertia, as a share of their sum: printed values are rounded.
const ROUNDING: f64 = 1e-3;

/// What is impossible about a body's moments of inertia about its own centre of mass; `None` where nothing is.
fn impossible(ixx: f64, iyy: f64, izz: f64, ixz: f64) -> Option<&'static str> {
    let slack = ROUNDING * (ixx + iyy + izz);
    if ixz * ixz > (ixx + slack) * (izz + slack) {
        return Some("the product of inertia is greater than the moments allow");
    }
    // Principal moments of the plane of symmetry; of three principal moments none exceeds the sum of the other two.
    let half_difference = (0.5 * (ixx - izz)).hypot(ixz);
    let (least, greatest) = (0.5 * (ixx + izz) - half_difference, 0.5 * (ixx + izz) + half_difference);
    let exceeds = greatest > least + iyy + slack || iyy > least + greatest + slack;
    exceeds.then_some("one moment exceeds the sum of the other two")
}

impl BicycleParameters {
    /// Itself, where it describes a bicycle: every value in its range, moments of inertia that bodies can have.
    ///
    /// # Errors
    /// The first value outside its range (not a number is outside), or the first body with impossible moments.
    pub fn checked(self) -> Result<Self, ParameterError> {
        for (parameter, value) in PARAMETERS.iter().zip(self.values()) {
            if !(parameter.low..=parameter.high).contains(&value) {
                return Err(ParameterError::OutOfRange { parameter: *parameter, value });
            }
        }
        // A wheel is alike about every diameter.
        let bodies = [
            ("Rear wheel", "IRxx and IRyy", self.rear_wheel_ixx, self.rear_wheel_iyy, self.rear_wheel_ixx, 0.0),
            ("Rear body", "IBxx, IByy, IBzz and IBxz", self.body_ixx, self.body_iyy, self.body_izz, self.body_ixz),
            ("Front assembly", "IHxx, IHyy, IHzz and IHxz", self.front_ixx, self.front_iyy, self.front_izz, self.front_ixz),
            ("Front wheel", "IFxx and IFyy", self.front_wheel_ixx, self.front_wheel_iyy, self.front_wheel_ixx, 0.0),
        ];
        for (body, keys, ixx, iyy, izz, ixz) in bodies {
            if let Some(reason) = impossible(ixx, iyy, izz, ixz) {
                return Err(ParameterError::Inertia { body, keys, reason });
            }
        }
        Ok(self)
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// The benchmark bicycle: Meijaard et al. 2007, Table 1.
    pub(in super::super) fn benchmark() -> BicycleParameters {
        BicycleParameters {
            wheelbase: 1.02,
            trail: 0.08,
            steer_axis_tilt: std::f64::consts::PI / 10.0,
            gravity: 9.81,
            rear_wheel_radius: 0.3,
            rear_wheel_mass: 2.0,
            rear_wheel_ixx: 0.0603,
            rear_wheel_iyy: 0.12,
            body_x: 0.3,
            body_z: -0.9,
            body_mass: 85.0,
            body_ixx: 9.2,
            body_iyy: 11.0,
            body_izz: 2.8,
            body_ixz: 2.4,
            front_x: 0.9,
            front_z: -0.7,
            front_mass: 4.0,
            front_ixx: 0.05892,
            front_iyy: 0.06,
            front_izz: 0.00708,
            front_ixz: -0.00756,
            front_wheel_radius: 0.35,
            front_wheel_mass: 3.0,
            front_wheel_ixx: 0.1405,
            front_wheel_iyy: 0.28,
        }
    }

    #[test]
    fn the_benchmark_is_a_bicycle_and_comes_back_by_its_keys() {
        let benchmark = benchmark().checked().unwrap();
        let values = benchmark.values();
        let back = BicycleParameters::from_keys(|parameter| {
            PARAMETERS.iter().position(|p| p.key == parameter.key).map(|i| values[i]).ok_or(())
        });
        assert_eq!(back, Ok(benchmark));
        let keys: std::collections::BTreeSet<_> = PARAMETERS.iter().map(|p| p.key).collect();
        assert_eq!(keys.len(), 26);
    }

    #[test]
    fn what_no_bicycle_has_is_named() {
        let out = |change: fn(&mut BicycleParameters)| {
            let mut parameters = benchmark();
            change(&mut parameters);
            parameters.checked().unwrap_err().to_string()
        };
        assert_eq!(out(|p| p.body_mass = -3.0), "`mB` (Mass of the rear body with the rider): -3 is outside 0.1 to 1000 kg");
        assert!(out(|p| p.wheelbase = f64::NAN).starts_with("`w` (Wheelbase): NaN is outside"));
        assert!(out(|p| p.front_wheel_iyy = 0.9).starts_with("Front wheel: no body has these moments"));
        assert!(out(|p| p.body_ixz = 5.5).contains("product of inertia"));
        assert!(out(|p| p.body_ixx = 30.0).contains("exceeds"));
    }
}
