//! What the user decides about a maker's figures: whether a published one is used, what was measured instead, and which
//! ways of measuring the maker states.
//!
//! Invariant: a figure is never both ignored and used anyway, and nothing but a published one is either.

use super::conventions::{OwnMeasurement, Stated};
use super::edit::Refused;
use super::figure::Figure;
use super::model::{Frameset, Size};
use super::places::SizeIndex;
use super::values::check_measurement;

/// Whether a published figure is used.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum FigureUse {
    /// As far as the other figures agree with it.
    #[default]
    AsOthersAgree,
    /// Whatever the other figures give.
    Anyway,
    /// Not at all, for this reason, which may be empty.
    Ignored(String),
}

impl Size {
    /// How a published figure is used; `None` where it is not published.
    #[must_use]
    pub fn figure_use(&self, figure: Figure) -> Option<FigureUse> {
        if !self.figures.contains_key(&figure) {
            return None;
        }
        Some(match self.ignored.get(&figure) {
            Some(reason) => FigureUse::Ignored(reason.clone()),
            None if self.use_anyway.contains(&figure) => FigureUse::Anyway,
            None => FigureUse::AsOthersAgree,
        })
    }
}

impl Frameset {
    /// Decides how the published `figure` of the size at `index` is used. It stays in the file in any case. Changes nothing
    /// where the figure is not published.
    pub fn set_figure_use(&mut self, index: SizeIndex, figure: Figure, to: FigureUse) {
        let Some(size) = index.of_mut(&mut self.sizes).filter(|s| s.figures.contains_key(&figure)) else { return };
        size.ignored.remove(&figure);
        size.use_anyway.remove(&figure);
        match to {
            FigureUse::AsOthersAgree => {}
            FigureUse::Anyway => drop(size.use_anyway.insert(figure)),
            FigureUse::Ignored(reason) => drop(size.ignored.insert(figure, reason)),
        }
    }

    /// Ignores the published `figure` of the size at `index`: it stays in the file with the reason, out of the arithmetic.
    /// Changes nothing where the figure is not published.
    pub fn ignore_figure(&mut self, index: SizeIndex, figure: Figure, reason: &str) {
        self.set_figure_use(index, figure, FigureUse::Ignored(reason.to_owned()));
    }

    /// Keeps what the user measured of `figure` in the size at `index`, beside what is published, or drops it with `None`.
    ///
    /// # Errors
    /// A value that the figure cannot have, a ± that is not above 0 or above 50, no such size.
    pub fn set_measured(&mut self, index: SizeIndex, figure: Figure, measured: Option<OwnMeasurement>) -> Result<(), Refused> {
        let size = index.of_mut(&mut self.sizes).ok_or(Refused::NoSuchSize)?;
        match measured {
            Some(measured) => {
                check_measurement(figure, measured)?;
                size.measured.insert(figure, measured);
            }
            None => drop(size.measured.remove(&figure)),
        }
        Ok(())
    }

    /// Says whether the maker states a way of measuring. Stated ones stand in the order of [`Stated::ALL`].
    pub fn set_stated(&mut self, convention: Stated, is_stated: bool) {
        self.stated.retain(|s| *s != convention);
        if is_stated {
            self.stated.push(convention);
        }
        self.stated.sort_unstable();
    }

    /// The ways of measuring that matter for what is published here, and those already stated.
    #[must_use]
    pub fn conventions(&self) -> Vec<Stated> {
        let is_published = |figure: Figure| self.sizes.iter().any(|s| s.figures.contains_key(&figure));
        let matters = |convention: &Stated| match convention {
            Stated::StraightSeatTube => !self.sizes.iter().all(|s| s.figures.contains_key(&Figure::SeatTubeSetback)),
            Stated::ChainstayAlong => is_published(Figure::Chainstay),
            Stated::ForkAlong => is_published(Figure::AxleToCrown),
            Stated::HeadTubeWithoutCups => is_published(Figure::HeadTube),
            Stated::TopTubeAlong => is_published(Figure::TopTube),
            Stated::FrontCentreDirect => is_published(Figure::FrontCentre),
            Stated::StandoverMidway => is_published(Figure::Standover),
        };
        Stated::ALL.into_iter().filter(|c| self.states(*c) || matters(c)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{read_frameset, write_frameset};

    fn frameset() -> Frameset {
        let mut frameset = Frameset::blank();
        frameset.maker = "Quern".to_owned();
        frameset.set_figure(SizeIndex(0), Figure::Wheelbase, Some(1071.0)).unwrap();
        frameset
    }

    #[test]
    fn a_figure_is_ignored_or_used_anyway_and_comes_back() {
        let mut frameset = frameset();
        let before = frameset.clone();
        let is = |f: &Frameset| f.sizes[0].figure_use(Figure::Wheelbase).unwrap();
        assert_eq!(is(&frameset), FigureUse::AsOthersAgree);
        for to in [FigureUse::Anyway, FigureUse::Ignored(String::new()), FigureUse::Anyway] {
            frameset.set_figure_use(SizeIndex(0), Figure::Wheelbase, to.clone());
            assert_eq!(is(&frameset), to);
            let text = write_frameset(&frameset).unwrap();
            assert_eq!(read_frameset(text.as_bytes()).unwrap(), frameset);
            assert!(frameset.check_whole().is_ok());
        }
        frameset.set_figure_use(SizeIndex(0), Figure::Wheelbase, FigureUse::AsOthersAgree);
        assert_eq!(frameset, before);
        frameset.set_figure_use(SizeIndex(0), Figure::Stack, FigureUse::Anyway);
        frameset.set_figure_use(SizeIndex(1), Figure::Wheelbase, FigureUse::Anyway);
        assert_eq!((&frameset, before.sizes[0].figure_use(Figure::Stack)), (&before, None), "not published");
    }

    #[test]
    fn a_corrected_or_removed_figure_is_no_longer_used_anyway() {
        let mut frameset = frameset();
        frameset.set_figure_use(SizeIndex(0), Figure::Wheelbase, FigureUse::Anyway);
        frameset.set_figure(SizeIndex(0), Figure::Wheelbase, Some(1071.0)).unwrap();
        assert_eq!(frameset.sizes[0].figure_use(Figure::Wheelbase), Some(FigureUse::Anyway), "the same value");
        frameset.set_figure(SizeIndex(0), Figure::Wheelbase, Some(1060.0)).unwrap();
        assert_eq!(frameset.sizes[0].figure_use(Figure::Wheelbase), Some(FigureUse::AsOthersAgree));
        frameset.set_figure_use(SizeIndex(0), Figure::Wheelbase, FigureUse::Anyway);
        frameset.set_figure(SizeIndex(0), Figure::Wheelbase, None).unwrap();
        assert!(frameset.sizes[0].use_anyway.is_empty());
    }

    #[test]
    fn a_measurement_stands_beside_what_is_published() {
        let mut frameset = frameset();
        let measured = |value, plus_minus| Some(OwnMeasurement { value, plus_minus });
        frameset.set_measured(SizeIndex(0), Figure::Wheelbase, measured(1060.0, 2.0)).unwrap();
        frameset.set_measured(SizeIndex(0), Figure::Stack, measured(590.0, 1.0)).unwrap();
        let before = frameset.clone();
        for (value, plus_minus) in [(106.0, 2.0), (1060.0, 0.0), (1060.0, 51.0), (f64::NAN, 2.0), (1060.0, f64::NAN)] {
            assert!(
                frameset.set_measured(SizeIndex(0), Figure::Wheelbase, measured(value, plus_minus)).is_err(),
                "{value} {plus_minus}"
            );
        }
        assert!(frameset.set_measured(SizeIndex(1), Figure::Wheelbase, measured(1060.0, 2.0)).is_err());
        assert_eq!(frameset, before);
        assert_eq!(frameset.sizes[0].figures[&Figure::Wheelbase], 1071.0);
        frameset.set_measured(SizeIndex(0), Figure::Wheelbase, None).unwrap();
        assert_eq!(frameset.sizes[0].measured.keys().collect::<Vec<_>>(), [&Figure::Stack]);
    }

    #[test]
    fn ways_of_measuring_are_asked_where_they_matter() {
        let mut frameset = frameset();
        assert_eq!(frameset.conventions(), [Stated::StraightSeatTube]);
        frameset.set_figure(SizeIndex(0), Figure::Chainstay, Some(440.0)).unwrap();
        frameset.set_stated(Stated::StandoverMidway, true);
        frameset.set_stated(Stated::ChainstayAlong, true);
        frameset.set_stated(Stated::ChainstayAlong, true);
        assert_eq!(frameset.stated, [Stated::ChainstayAlong, Stated::StandoverMidway]);
        assert_eq!(frameset.conventions(), [Stated::StraightSeatTube, Stated::ChainstayAlong, Stated::StandoverMidway]);
        frameset.set_stated(Stated::StandoverMidway, false);
        assert_eq!(frameset.conventions(), [Stated::StraightSeatTube, Stated::ChainstayAlong]);
    }
}
