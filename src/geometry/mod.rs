//! Shape: the state of a frame, its figures as functions of it, and the adjustment that finds the state which fits what
//! was printed.
//!
//! Invariant: numbers in, numbers out: no files, no screen, no NaN from checked input.

mod formulas;
mod jet;
pub mod least_squares;
mod state;

pub use formulas::{Point, Points, TopTubeShape, closure, figure, points, trail};
pub use jet::{Jet, Scalar};
pub use state::{Quantity, STATES, State};
