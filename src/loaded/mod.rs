//! The bicycle with its rider and luggage as rigid bodies: what each wheel carries, when one lifts in braking, and the
//! speeds between which the bicycle steadies itself.
//!
//! What it is not: a model of comfort, of shimmy, or of what a rider does. Hands are off the bar, tyres do not slip, the
//! frame is stiff. It says what shape and masses alone do.
//!
//! Rider and luggage are rigid bodies where the rider sits and the luggage hangs.
//!
//! Invariant: numbers in, numbers out; SI units, the axes of the paper named in `parameters.rs`; no files, no screen.
//! Checked parameters give finite answers.

mod body;
mod critical_speeds;
mod linear_model;
mod loaded_bicycle;
mod luggage_place;
mod modes;
mod parameters;
mod posture;
mod ride;
mod rider;
mod rules_of_thumb;
mod settings;
mod wheel_loads;

pub use body::Body;
pub use critical_speeds::{CriticalSpeeds, QUARTIC_COEFFICIENTS, Quartic};
pub use linear_model::{LinearModel, Matrix2};
pub use loaded_bicycle::{
    FRAME_CENTRE_U_M, FrameBody, GRAVITY, Load, OWN, Own, PartMasses, SHARED, WheelSize, assemble, own_inputs, shared_u,
};
pub use luggage_place::{Anchors, Bag, LuggagePlace, MOST_KG, PLACE_U_M};
pub use modes::{Modes, modes};
pub use parameters::{BicycleParameters, PARAMETERS, Parameter, ParameterError};
pub use posture::{Contacts, Leg, Posture, PostureError};
pub use ride::{
    DESCENT_GRADE, LoadedFigure, Motion, NamedMotion, OwnCovariance, Ride, TURN_RADIUS, TURN_SPEED, USUAL_SPEED, own_covariance,
    turn_torque,
};
pub use rider::{BodyTable, RiderBody};
pub use rules_of_thumb::RuleOfThumb;
pub use settings::{BODY_HEIGHT_MM, LoadedNumberError, LoadedSettings, Loading, MOST_LOADINGS, checked_height, checked_load};
pub use wheel_loads::WheelLoads;
