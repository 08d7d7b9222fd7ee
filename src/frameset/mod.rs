//! What a maker publishes: the data of one frameset, its file, its checks.
//!
//! Invariant: no arithmetic, no disk, no screen. Every value that was read is finite and within its accepted range.

mod checks;
mod conventions;
mod edit;
mod figure;
mod figure_use;
mod file;
#[cfg(feature = "import")]
pub mod import;
mod limits;
mod making;
mod model;
mod nearest;
mod places;
mod retired_names;
mod shis;
mod text_lengths;
pub(crate) mod trade_words;
mod tyre;
mod value_error;
mod values;

pub use checks::{check_amount, check_date, check_grams};
pub use conventions::{OwnMeasurement, Stated};
pub use edit::Refused;
pub use figure::{About, Figure};
pub use figure_use::FigureUse;
pub use file::{Position, ReadError, WriteError, read_document, read_frameset, refused_at, write_document, write_frameset};
pub use limits::{FileKind, TextKind};
pub use making::{SmallPart, Steerer, Wall};
pub use model::{
    Bar, Bend, Fork, Frameset, Junctions, Known, LowerFit, Material, Part, Price, RoundedTo, Size, Source, Standard, Tax, Tube,
    Tubing, Weight,
};
pub use nearest::nearest;
pub use places::{FrameIndex, OnePerFrame, OnePerSize, SizeIndex};
pub use retired_names::RETIRED_NAMES;
pub use shis::{CROWN_RACES_MM, CupKind, HEAD_TUBES};
pub use tyre::{TyreError, TyreSize};
pub use value_error::ValueError;
pub use values::{check_figure, check_measurement, checked_list, known_format};
