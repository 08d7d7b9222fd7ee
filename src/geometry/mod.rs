//! Shape: the state of a frame, its figures as functions of it, and the adjustment that finds the state which fits what
//! was printed.
//!
//! Invariant: numbers in, numbers out: no files, no screen, no NaN from checked input.

mod adjust;
#[cfg(test)]
mod adjust_tests;
mod adjusted;
mod assumption;
mod averaged;
mod between;
mod budget;
mod change;
mod doubt;
mod figure_set;
mod formulas;
mod jet;
mod layout;
pub mod least_squares;
mod missing;
mod observations;
mod outline;
pub mod plane;
mod runs;
mod second_order;
mod silhouette;
pub mod slips;
mod solved;
mod state;
mod tubes;

pub use adjust::adjust;
pub use adjusted::{Adjusted, AdjustedSize, Origin, Value};
pub use assumption::{Assumption, Assumptions};
pub use between::outline_between;
pub use budget::{Share, budget};
pub use change::{Change, Changed, changed, stand};
pub use doubt::Doubt;
pub use figure_set::{MISSING_DEG, MISSING_MM, missing_above};
pub use formulas::{Point, Points, TopTubeShape, closure, figure, points, trail};
pub use jet::{Jet, Scalar};
pub use missing::{Missing, settled_by};
pub use observations::{Cause, TYRE_RADIUS_U_MM, assumed_mm, u_of_step};
pub use outline::{Outline, TubeOutline, Wheel, outline, thicken};
pub use silhouette::{DROPOUT_RADIUS_MM, SilhouettePart, area_beyond, joined, limb, silhouette};
pub use slips::{LISTED_FROM, OtherWay, Settling, Slip, SlipCell, SlipKind};
pub use state::{Quantity, STATES, State};
pub use tubes::diameter_mm;
