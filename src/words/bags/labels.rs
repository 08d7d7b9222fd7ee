//! Labels of frame-bag space, bags and bottles.

use crate::frameset::Tube;
use crate::lineup::{BagSpaceCorner, BagSpaceFigure};
use crate::luggage::{Along, BagPart, Bottle, Cut, Holder};
use crate::words::Label;

/// What an edge of the bag runs along: `top tube`, `cut line`.
#[must_use]
pub fn along_label(along: Along) -> &'static str {
    match along {
        Along::Tube(tube) => tube.label(),
        Along::Cut => "cut line",
    }
}

/// A bottle by its volume, as the trade names it.
#[must_use]
pub const fn bottle_label(bottle: Bottle) -> &'static str {
    match bottle {
        Bottle::Small => "0.6 l",
        Bottle::Middle => "0.75 l",
        Bottle::Large => "1.0 l",
    }
}

/// Where a bottle cage sits: `on the down tube`.
#[must_use]
pub const fn holder_label(holder: Holder) -> &'static str {
    match holder {
        Holder::DownTube => "on the down tube",
        Holder::SeatTube => "on the seat tube",
        Holder::UnderDownTube => "under the down tube",
    }
}

/// The kind of a bag.
#[must_use]
pub const fn bag_part_label(part: BagPart) -> &'static str {
    match part {
        BagPart::Full => "Full frame bag",
        BagPart::Above(Cut::Level { .. }) => "Partial bag, horizontal cut line",
        BagPart::Above(Cut::AlongTopTube { .. }) => "Partial bag, cut line along the top tube",
    }
}

/// A corner at which frame-bag spaces are aligned.
#[must_use]
pub const fn corner_label(corner: BagSpaceCorner) -> &'static str {
    match corner {
        BagSpaceCorner::BottomBracket => "bottom bracket",
        BagSpaceCorner::SeatTubeTop => "seat cluster",
        BagSpaceCorner::HeadTube => "head tube",
    }
}

/// A figure of frame-bag space or bag, as it heads a row.
#[must_use]
pub const fn bag_figure_label(figure: BagSpaceFigure) -> &'static str {
    match figure {
        BagSpaceFigure::Area => "Bag space",
        BagSpaceFigure::Side(Tube::TopTube) => "Top tube, inside",
        BagSpaceFigure::Side(Tube::SeatTube) => "Seat tube, inside",
        BagSpaceFigure::Side(Tube::DownTube) => "Down tube, inside",
        BagSpaceFigure::Side(_) => "Head tube, inside",
        BagSpaceFigure::Angle(Tube::SeatTube, _) => "Seat and top tube angle",
        BagSpaceFigure::Angle(Tube::TopTube, Tube::HeadTube) => "Top and head tube angle",
        BagSpaceFigure::Angle(Tube::TopTube, _) => "Top and down tube angle",
        BagSpaceFigure::Angle(Tube::HeadTube, _) => "Head and down tube angle",
        BagSpaceFigure::Angle(..) => "Down and seat tube angle",
        BagSpaceFigure::HeightAboveBb => "Bottom bracket to top tube",
        BagSpaceFigure::Circle => "Largest circle",
        BagSpaceFigure::Rectangle => "Largest rectangle",
        BagSpaceFigure::RectangleWidth => "Rectangle width",
        BagSpaceFigure::RectangleHeight => "Rectangle height",
        BagSpaceFigure::Litres => "Bag volume",
        BagSpaceFigure::BagEdge(Along::Tube(Tube::TopTube)) => "Longest zip, top tube",
        BagSpaceFigure::BagEdge(Along::Tube(Tube::SeatTube)) => "Bag edge, seat tube",
        BagSpaceFigure::BagEdge(Along::Tube(Tube::DownTube)) => "Bag edge, down tube",
        BagSpaceFigure::BagEdge(Along::Tube(_)) => "Bag edge, head tube",
        BagSpaceFigure::BagEdge(Along::Cut) => "Bag edge, cut line",
        BagSpaceFigure::BagAround => "Gusset length",
    }
}

/// What a figure of frame-bag space or bag means, for tooltips.
#[must_use]
pub const fn bag_figure_meaning(figure: BagSpaceFigure) -> &'static str {
    match figure {
        BagSpaceFigure::Area => "area inside the main triangle, between the tubes",
        BagSpaceFigure::Side(_) => "length of the tube's inner edge, from corner to corner",
        BagSpaceFigure::Angle(..) => "inside angle between the tubes' inner edges",
        BagSpaceFigure::HeightAboveBb => "from the centre of the bottom bracket straight up to the lower edge of the top tube",
        BagSpaceFigure::Circle => "diameter of the largest circle between the tubes",
        BagSpaceFigure::Rectangle => "area of the largest upright rectangle between the tubes",
        BagSpaceFigure::RectangleWidth => "horizontal side of the largest upright rectangle",
        BagSpaceFigure::RectangleHeight => "vertical side of the largest upright rectangle",
        BagSpaceFigure::Litres => "volume of the bag at the chosen widths",
        BagSpaceFigure::BagEdge(_) => "straight edge of the bag between its rounded corners, the longest zip that fits",
        BagSpaceFigure::BagAround => "length of the strip of cloth between the two sides of the bag, once around",
    }
}
