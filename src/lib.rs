//! Spandrel sets bicycle framesets side by side, every derived figure with the ± that the printed rounding and the
//! assumptions leave in it, every difference marked real or not.

pub mod drawing;
pub mod frameset;
pub mod geometry;
pub mod lineup;
pub mod units;
