//! Why there is no bag.

/// Why there is no bag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoBag {
    /// Gap to the tubes and corners take everything.
    TooTight {
        /// Gap to the tubes, mm.
        clearance: f64,
        /// Corner radius, mm.
        radius: f64,
    },
    /// Nothing lies above the cut line.
    NothingAboveCut,
}

impl NoBag {
    /// Stable code, for programs that read JSON.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::TooTight { .. } => "gap_and_corners_leave_no_bag",
            Self::NothingAboveCut => "nothing_above_cut_line",
        }
    }
}
