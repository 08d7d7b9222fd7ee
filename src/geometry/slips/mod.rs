//! Which error explains a table, and what is then believed: hypotheses with prior chances, the evidence for sets of them,
//! and the states of all sets averaged with their chances.
//!
//! The mean-shift outlier model with its Bayes factor (Box & Tiao 1968, *Biometrika* 55, 119–129). To select one set and
//! then to estimate as if nothing had been selected is the error that the detection–identification–adaptation theory
//! treats (Teunissen 2018, *Journal of Geodesy* 92, 59–80); averaging over the sets is the answer here.

mod candidates;
mod columns;
pub mod evidence;
mod explain;
mod hypothesis;
mod project;
mod resolve;
mod rounding;
mod rows;
mod search;
mod settle;

pub use explain::{LISTED_FROM, Slip, SlipCell};
pub use hypothesis::{OtherWay, PRIORS, Prior, Priors, SlipKind};
pub use settle::Settling;

pub(super) use explain::{Explained, WeighedSet, explain};
