//! Sets of figures, and from which u on a figure is missing.

use crate::frameset::Figure;

/// A figure whose u comes out above this many mm is missing.
pub const MISSING_MM: f64 = 15.0;
/// An angle whose u comes out above this many degrees is missing.
pub const MISSING_DEG: f64 = 3.0;

/// The u above which `figure` counts as missing, mm or degrees.
#[must_use]
pub fn missing_above(figure: Figure) -> f64 {
    if figure.is_angle() { MISSING_DEG } else { MISSING_MM }
}

/// A set of figures.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct FigureSet(u64);

impl FigureSet {
    pub(super) const fn contains(self, figure: Figure) -> bool {
        self.0 & (1 << figure as u64) != 0
    }

    pub(super) fn iter(self) -> impl Iterator<Item = Figure> {
        Figure::ALL.iter().copied().filter(move |f| self.contains(*f))
    }
}

impl FromIterator<Figure> for FigureSet {
    fn from_iter<I: IntoIterator<Item = Figure>>(figures: I) -> Self {
        Self(figures.into_iter().fold(0, |set, f| set | 1 << f as u64))
    }
}
