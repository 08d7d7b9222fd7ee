//! Room, bag and bottles of each frame, and how they differ from the reference's.

use std::sync::Arc;

use super::bag_space_settings::BagSpaceSettings;
use super::document::Tyres;
use super::frame_findings::FrameFindings;
use super::sag::Sag;
use crate::frameset::{Figure, Frameset, SizeIndex, Tube};
use crate::geometry::{Adjusted, Outline};
use crate::luggage::{Along, Bag, BagSpace, Bottles, NoBag, NoOpening, PlaceDoubts, bag, bag_space, bottles};
use crate::units::{AnyKind, Measured, Quantity};

/// What follows about the room in one frame.
#[derive(Clone, Debug, PartialEq)]
pub struct BagSpaceFindings {
    /// The room, or why there is none.
    pub bag_space: Result<Arc<BagSpace>, NoOpening>,
    /// The bag, or why there is none; `None` where there is no room.
    pub bag: Option<Result<Arc<Bag>, NoBag>>,
    /// The bottles.
    pub bottles: Arc<Bottles>,
    /// What it was computed from, so that what did not change is not computed again.
    from: BagSpaceOf,
}

/// Size, settings common to all frames, and the choices about room, bag and bottles that something was computed from.
#[derive(Clone, Copy, Debug, PartialEq)]
struct BagSpaceOf {
    size: SizeIndex,
    tyres: Tyres,
    sag: Sag,
    settings: BagSpaceSettings,
}

/// What a frame's room is computed from.
pub(super) struct BagSpaceSource<'a> {
    pub(super) frameset: &'a Arc<Frameset>,
    pub(super) adjusted: &'a Adjusted,
    pub(super) size: SizeIndex,
    pub(super) outline: Option<&'a Outline>,
    pub(super) tyres: Tyres,
    pub(super) sag: Sag,
    pub(super) settings: BagSpaceSettings,
}

impl BagSpaceFindings {
    pub(super) fn renewed(from: &BagSpaceSource, before: Option<&FrameFindings>) -> Self {
        let known = before.filter(|b| Arc::ptr_eq(&b.frameset, from.frameset)).map(|b| &b.luggage);
        let of = BagSpaceOf { size: from.size, tyres: from.tyres, sag: from.sag, settings: from.settings };
        let same_frame = known.filter(|k| BagSpaceOf { settings: of.settings, ..k.from } == of);
        if let Some(same) = same_frame.filter(|k| k.from == of) {
            return same.clone();
        }
        let found = same_frame.map_or_else(|| Self::bag_space(from), |k| k.bag_space.clone());
        let same_bag = same_frame.filter(|k| k.from.settings.bag == from.settings.bag).and_then(|k| k.bag.clone());
        let bag = same_bag.or_else(|| found.as_ref().ok().map(|r| bag(r, &from.settings.bag).map(Arc::new)));
        let in_the_way = bag.as_ref().filter(|_| from.settings.with_bag).and_then(|b| b.as_ref().ok());
        let u_of = |figures: [Figure; 2]| {
            let size = from.size.of(&from.adjusted.sizes);
            size.map_or(0.0, |size| figures.iter().map(|f| size.value(*f).u).fold(0.0, f64::hypot))
        };
        let doubts = PlaceDoubts {
            bag_space: found.as_ref().ok().map(AsRef::as_ref),
            front_tyre_u_mm: u_of([Figure::FrontCentre, Figure::FrontTyreRadius]),
            rear_tyre_u_mm: u_of([Figure::Chainstay, Figure::RearTyreRadius]),
        };
        let stand = |o| bottles(o, in_the_way.map(AsRef::as_ref), &from.settings.cages, doubts);
        let bottles = from.outline.map(stand).unwrap_or_default();
        Self { bag_space: found, bag, bottles: Arc::new(bottles), from: of }
    }

    fn bag_space(from: &BagSpaceSource) -> Result<Arc<BagSpace>, NoOpening> {
        match (from.size.of(&from.frameset.sizes), from.size.of(&from.adjusted.sizes)) {
            (Some(printed), Some(size)) => bag_space(from.frameset, printed, size).map(Arc::new),
            _ => Err(NoOpening::NoSeatTubeJunction),
        }
    }

    /// The choice that bag and bottles follow.
    #[must_use]
    pub const fn settings(&self) -> &BagSpaceSettings {
        &self.from.settings
    }

    /// The bag, where there is one.
    #[must_use]
    pub fn bag(&self) -> Option<&Bag> {
        self.bag.as_ref()?.as_ref().ok().map(AsRef::as_ref)
    }
}

/// A figure of the room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BagSpaceFigure {
    /// Area of the opening, dm².
    Area,
    /// A tube's inner edge, mm.
    Side(Tube),
    /// Inside angle where two tubes' edges meet, degrees.
    Angle(Tube, Tube),
    /// Diameter of the largest circle, mm.
    Circle,
    /// Area of the largest upright rectangle, dm².
    Rectangle,
    /// Its level side, mm.
    RectangleWidth,
    /// Its upright side, mm.
    RectangleHeight,
    /// Under the top tube, straight above the bottom bracket, mm.
    HeightAboveBb,
    /// The bag's litres.
    Litres,
    /// Straight edge of the bag, mm.
    BagEdge(Along),
    /// Length of the gusset, once around the bag, mm.
    BagAround,
}

impl BagSpaceFigure {
    /// All, in the order of tables.
    pub const ALL: [Self; 22] = [
        Self::Area,
        Self::Side(Tube::TopTube),
        Self::Side(Tube::SeatTube),
        Self::Side(Tube::DownTube),
        Self::Side(Tube::HeadTube),
        Self::Angle(Tube::SeatTube, Tube::TopTube),
        Self::Angle(Tube::TopTube, Tube::HeadTube),
        Self::Angle(Tube::TopTube, Tube::DownTube),
        Self::Angle(Tube::HeadTube, Tube::DownTube),
        Self::Angle(Tube::DownTube, Tube::SeatTube),
        Self::HeightAboveBb,
        Self::Circle,
        Self::Rectangle,
        Self::RectangleWidth,
        Self::RectangleHeight,
        Self::Litres,
        Self::BagEdge(Along::Tube(Tube::TopTube)),
        Self::BagEdge(Along::Tube(Tube::SeatTube)),
        Self::BagEdge(Along::Tube(Tube::DownTube)),
        Self::BagEdge(Along::Tube(Tube::HeadTube)),
        Self::BagEdge(Along::Cut),
        Self::BagAround,
    ];

    /// Its unit.
    #[must_use]
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Area | Self::Rectangle => Quantity::Area,
            Self::Litres => Quantity::Volume,
            Self::Angle(..) => Quantity::Angle,
            _ => Quantity::Length,
        }
    }

    /// The unit of its numbers in files.
    #[must_use]
    pub const fn file_unit(self) -> &'static str {
        self.quantity().file_unit()
    }

    /// Its value for a frame, in dm², litres, degrees or mm; `None` where there is none.
    #[must_use]
    pub fn of(self, frame: &FrameFindings) -> Option<Measured<AnyKind>> {
        let bag_space = frame.luggage.bag_space.as_ref().ok()?;
        let bag = || frame.luggage.bag();
        match self {
            Self::Area => Some(bag_space.area_dm2.of_any_kind()),
            Self::Side(tube) => bag_space.side(tube).map(|s| s.length_mm.of_any_kind()),
            Self::Angle(a, b) => bag_space.corner(a, b).map(|c| c.angle_deg.of_any_kind()),
            Self::HeightAboveBb => bag_space.height_above_bb_mm.map(Measured::of_any_kind),
            Self::Circle => bag_space.circle.map(|c| c.diameter_mm.of_any_kind()),
            Self::Rectangle => bag_space.rectangle.map(|r| r.area_dm2.of_any_kind()),
            Self::RectangleWidth => bag_space.rectangle.map(|r| r.width_mm.of_any_kind()),
            Self::RectangleHeight => bag_space.rectangle.map(|r| r.height_mm.of_any_kind()),
            Self::Litres => bag().map(|b| b.litres.of_any_kind()),
            Self::BagEdge(along) => bag()?.edges.iter().find(|e| e.along == along).map(|e| e.length_mm.of_any_kind()),
            Self::BagAround => bag().map(|b| b.around_mm.of_any_kind()),
        }
    }
}
