//! Spandrel sets bicycle framesets side by side, every derived figure with the ± that the printed rounding and the
//! assumptions leave in it, every difference marked real or not.
//!
//! The rooms, each knowing only those below it:
//!
//! ```text
//! window, command_line → publish → drawing → words → lineup → { luggage, parts, weight → geometry; money, riding } → frameset → units
//! (disk beside publish)
//! ```

pub mod command_line;
pub mod disk;
pub mod drawing;
pub mod frameset;
pub mod geometry;
pub mod lineup;
pub mod luggage;
pub mod money;
pub mod parts;
pub mod publish;
pub mod riding;
pub mod units;
pub mod weight;
#[cfg(feature = "window")]
pub mod window;
pub mod words;
