//! What is not published and could be entered: the one weight, price, standard or figure whose entry would fill what a view
//! cannot show of a frame.
//!
//! Facts only; `words` names them. Invariant: what is named has no value yet, or one that cannot be read.

use super::findings::Findings;
use super::frame_findings::FrameFindings;
use super::loaded_findings::NotLoaded;
use super::overview_settings::OverviewRow;
use crate::frameset::{Figure, FrameIndex, Part, Standard};
use crate::luggage::NoOpening;
use crate::money::NotPriced;

/// Something that a maker can publish and this one has not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MissingEntry {
    /// A weight of frame, fork or both.
    Weight,
    /// A price of frame, fork or both.
    Price,
    /// A standard.
    Standard(Standard),
    /// A figure of the chosen size.
    Figure(Figure),
}

/// What the side view of a frame needs.
const OUTLINE: [Figure; 6] =
    [Figure::Stack, Figure::Reach, Figure::HeadAngle, Figure::SeatAngle, Figure::Chainstay, Figure::AxleToCrown];

impl FrameFindings {
    /// Of some figures of the chosen size the first unknown one, or the figure that would settle it most sharply.
    #[must_use]
    pub fn missing_figure(&self, figures: &[Figure]) -> Option<MissingEntry> {
        let unknown = figures.iter().find(|figure| self.value(**figure).is_none_or(|value| value.is_missing))?;
        let settled = self.unknown().into_iter().find(|missing| missing.figure == *unknown);
        let sharpest = settled.and_then(|missing| missing.sets.first()?.first().copied()).unwrap_or(*unknown);
        sharpest.about().in_files.then_some(MissingEntry::Figure(sharpest))
    }

    /// What its bag space lacks.
    #[must_use]
    pub fn missing_for_bags(&self) -> Option<MissingEntry> {
        match self.luggage.bag_space.as_ref().err()? {
            NoOpening::Missing(figures) => self.missing_figure(figures),
            NoOpening::NoSeatTubeJunction => self.missing_figure(&[Figure::SeatTube]),
            NoOpening::Crossing(..) => None,
        }
    }

    /// What its outline lacks.
    #[must_use]
    pub fn missing_for_outline(&self) -> Option<MissingEntry> {
        self.missing_figure(&OUTLINE)
    }

    /// What its weight lacks.
    #[must_use]
    pub fn missing_weight(&self) -> Option<MissingEntry> {
        self.weights.part(Part::Frameset).is_none().then_some(MissingEntry::Weight)
    }
}

impl Findings {
    /// What a frame's price lacks; `None` too where an exchange or tax rate is missing, which is no published value.
    #[must_use]
    pub fn missing_price(&self, frame: FrameIndex) -> Option<MissingEntry> {
        fn is_unpublished(why: &NotPriced) -> bool {
            match why {
                NotPriced::NotPublished | NotPriced::PartNotPublished(_) | NotPriced::TaxUnknown(_) => true,
                NotPriced::Part(_, why) => is_unpublished(why),
                _ => false,
            }
        }
        let offer = &frame.of(&self.price_and_climb)?.offer;
        offer.set.as_ref().err().is_some_and(is_unpublished).then_some(MissingEntry::Price)
    }

    /// What the widest tyre of a frame on the overview's wheel lacks.
    #[must_use]
    pub fn missing_clearance(&self, frame: FrameIndex) -> Option<MissingEntry> {
        let clearances = frame.of(&self.fit)?.statements.widest_tyre.is();
        let widest = clearances.and_then(|clearances| clearances.widest_on(self.overview_bead_mm()));
        widest.is_none().then_some(MissingEntry::Standard(Standard::WidestTyre))
    }

    /// What the fit of a frame lacks, or that of the reference.
    #[must_use]
    pub fn missing_for_fit(&self, frame: FrameIndex) -> Option<(FrameIndex, MissingEntry)> {
        let needs = [Figure::Stack, Figure::Reach, Figure::HeadAngle];
        [Some(frame), self.reference].into_iter().flatten().find_map(|place| {
            let missing = place.of(&self.frames)?.missing_figure(&needs)?;
            Some((place, missing))
        })
    }

    /// What the loaded bicycle of a frame lacks.
    #[must_use]
    pub fn missing_for_load(&self, frame: FrameIndex, why: &NotLoaded) -> Option<MissingEntry> {
        match why {
            NotLoaded::Missing(figures) => frame.of(&self.frames)?.missing_figure(figures),
            NotLoaded::Posture(_) | NotLoaded::NoReference => None,
        }
    }

    /// What a cell of the overview lacks, and the frame that lacks it; `None` where its value is known.
    #[must_use]
    pub fn missing_behind(&self, row: OverviewRow, place: FrameIndex) -> Option<(FrameIndex, MissingEntry)> {
        let frame = place.of(&self.frames)?;
        let missing = match row {
            OverviewRow::SizeFit => return self.missing_for_fit(place),
            OverviewRow::LoadedWeight | OverviewRow::FramesetWeight => frame.missing_weight(),
            OverviewRow::Price => self.missing_price(place),
            OverviewRow::Trail | OverviewRow::Chainstay | OverviewRow::Wheelbase => frame.missing_figure(&[row.figure()?]),
            OverviewRow::BagVolume | OverviewRow::Bottles => frame.missing_for_bags(),
            OverviewRow::WidestTyre => self.missing_clearance(place),
            OverviewRow::Needs | OverviewRow::DoubtfulFigures => None,
        };
        missing.map(|missing| (place, missing))
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::lineup::{Lineup, OverviewValue, read_lineup};

    /// The sample with everything that a row needs taken away from frame B.
    fn without(take: impl FnOnce(&mut crate::frameset::Frameset)) -> (Lineup, Findings) {
        let mut lineup = read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        take(Arc::make_mut(&mut lineup.frames[1].frameset));
        let findings = Findings::of(&lineup);
        (lineup, findings)
    }

    #[test]
    fn every_unknown_cell_names_an_entry_that_fills_it() {
        let (lineup, findings) = without(|f| {
            f.weights.clear();
            f.prices.clear();
            f.standards.clear();
            for size in &mut f.sizes {
                size.figures.retain(|figure, _| matches!(figure, Figure::Stack | Figure::HeadTube | Figure::SeatAngle));
            }
        });
        let overview = findings.overview(&lineup);
        let mut unknown = 0;
        for line in overview.lines.iter().filter(|line| line.cells[1].value == OverviewValue::Unknown) {
            unknown += 1;
            let (place, missing) = findings.missing_behind(line.row, FrameIndex(1)).unwrap_or_else(|| panic!("{:?}", line.row));
            assert_eq!(place, FrameIndex(1), "{:?}", line.row);
            if let MissingEntry::Figure(figure) = missing {
                assert!(findings.frames[1].frameset.sizes.iter().all(|size| !size.figures.contains_key(&figure)), "{figure:?}");
            }
        }
        assert!(unknown >= 7, "{unknown}");
        assert_eq!(
            findings.missing_behind(OverviewRow::FramesetWeight, FrameIndex(1)),
            Some((FrameIndex(1), MissingEntry::Weight))
        );
    }

    #[test]
    fn what_is_known_misses_nothing_and_a_rate_is_not_published() {
        let (_, findings) = without(|_| ());
        let (a, e) = (FrameIndex(0), FrameIndex(4));
        assert_eq!(findings.frames[a].missing_weight(), None);
        assert_eq!(findings.missing_price(a), None);
        assert_eq!(findings.frames[a].missing_for_bags(), None);
        assert_eq!(findings.frames[a].missing_for_outline(), None);
        assert_eq!(findings.missing_clearance(a), None);
        assert_eq!(findings.missing_clearance(e), Some(MissingEntry::Standard(Standard::WidestTyre)));
        // A price in another currency without an exchange rate.
        let (mut lineup, _) = without(|_| ());
        lineup.settings.money.rates.clear();
        let findings = Findings::of(&lineup);
        for (place, cost) in FrameIndex::numbered(&findings.price_and_climb) {
            let is_published = !lineup.frames[place].frameset.prices.is_empty();
            assert!(!(is_published && cost.offer.set.is_err() && findings.missing_price(place).is_some()), "{place:?}");
        }
    }
}
