//! The bicycle with its rider and luggage as rigid bodies: what each wheel carries, when one lifts in braking, and the
//! speeds between which the bicycle steadies itself.
//!
//! What it is not: a model of comfort, of shimmy, or of what a rider does. Hands are off the bar, tyres do not slip, the
//! frame is stiff. It says what shape and masses alone do.
//!
//! Invariant: numbers in, numbers out; SI units, the axes of the paper named in `parameters.rs`; no files, no screen.
//! Checked parameters give finite answers.

mod critical_speeds;
mod linear_model;
mod modes;
mod parameters;
mod wheel_loads;

pub use critical_speeds::{CriticalSpeeds, QUARTIC_COEFFICIENTS, Quartic};
pub use linear_model::{LinearModel, Matrix2};
pub use modes::{Modes, modes};
pub use parameters::{BicycleParameters, PARAMETERS, Parameter, ParameterError};
pub use wheel_loads::WheelLoads;
