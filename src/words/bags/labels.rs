//! Labels of frame-bag space, bags and bottles.

use crate::frameset::Tube;
use crate::lineup::{RoomCorner, RoomFigure};
use crate::luggage::{Along, BagPart, Bottle, Cut, Holder};

/// What an edge of the bag runs along: `top tube`, `cut line`.
#[must_use]
pub const fn along_label(along: Along) -> &'static str {
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
pub const fn corner_label(corner: RoomCorner) -> &'static str {
    match corner {
        RoomCorner::BottomBracket => "bottom bracket",
        RoomCorner::SeatTubeTop => "seat cluster",
        RoomCorner::HeadTube => "head tube",
    }
}

/// A figure of frame-bag space or bag, as it heads a row.
#[must_use]
pub const fn bag_figure_label(figure: RoomFigure) -> &'static str {
    match figure {
        RoomFigure::Area => "Bag space",
        RoomFigure::Side(Tube::TopTube) => "Top tube, inside",
        RoomFigure::Side(Tube::SeatTube) => "Seat tube, inside",
        RoomFigure::Side(Tube::DownTube) => "Down tube, inside",
        RoomFigure::Side(_) => "Head tube, inside",
        RoomFigure::Angle(Tube::SeatTube, _) => "Seat and top tube angle",
        RoomFigure::Angle(Tube::TopTube, Tube::HeadTube) => "Top and head tube angle",
        RoomFigure::Angle(Tube::TopTube, _) => "Top and down tube angle",
        RoomFigure::Angle(Tube::HeadTube, _) => "Head and down tube angle",
        RoomFigure::Angle(..) => "Down and seat tube angle",
        RoomFigure::HeightAboveBb => "Bottom bracket to top tube",
        RoomFigure::Circle => "Largest circle",
        RoomFigure::Rectangle => "Largest rectangle",
        RoomFigure::RectangleWidth => "Rectangle width",
        RoomFigure::RectangleHeight => "Rectangle height",
        RoomFigure::Litres => "Bag volume",
        RoomFigure::BagEdge(Along::Tube(Tube::TopTube)) => "Longest zip, top tube",
        RoomFigure::BagEdge(Along::Tube(Tube::SeatTube)) => "Bag edge, seat tube",
        RoomFigure::BagEdge(Along::Tube(Tube::DownTube)) => "Bag edge, down tube",
        RoomFigure::BagEdge(Along::Tube(_)) => "Bag edge, head tube",
        RoomFigure::BagEdge(Along::Cut) => "Bag edge, cut line",
        RoomFigure::BagAround => "Gusset length",
    }
}

/// What a figure of frame-bag space or bag means, for tooltips.
#[must_use]
pub const fn bag_figure_meaning(figure: RoomFigure) -> &'static str {
    match figure {
        RoomFigure::Area => "area inside the main triangle, between the tubes",
        RoomFigure::Side(_) => "length of the tube's inner edge, from corner to corner",
        RoomFigure::Angle(..) => "inside angle between the tubes' inner edges",
        RoomFigure::HeightAboveBb => "from the centre of the bottom bracket straight up to the lower edge of the top tube",
        RoomFigure::Circle => "diameter of the largest circle between the tubes",
        RoomFigure::Rectangle => "area of the largest upright rectangle between the tubes",
        RoomFigure::RectangleWidth => "horizontal side of the largest upright rectangle",
        RoomFigure::RectangleHeight => "vertical side of the largest upright rectangle",
        RoomFigure::Litres => "volume of the bag at the chosen widths",
        RoomFigure::BagEdge(_) => "straight edge of the bag between its rounded corners, the longest zip that fits",
        RoomFigure::BagAround => "length of the strip of cloth between the two sides of the bag, once around",
    }
}
