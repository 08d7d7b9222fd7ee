//! The scene's items. Page units are CSS pixels (1/96 inch), origin top left, y down.

use crate::frameset::{Figure, FrameIndex};

/// A point on the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pt {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl From<Pt> for [f64; 2] {
    fn from(point: Pt) -> Self {
        [point.x, point.y]
    }
}

impl Pt {
    /// So far to the right and down from here.
    #[must_use]
    pub(super) fn moved(self, by: Self) -> Self {
        Self { x: self.x + by.x, y: self.y + by.y }
    }

    /// `by` times as far from the page's corner.
    pub(super) fn grown(self, by: f64) -> Self {
        Self { x: self.x * by, y: self.y * by }
    }
}

/// Size of a page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Page {
    /// Width in page units.
    pub width: f64,
    /// Height in page units.
    pub height: f64,
}

impl Page {
    /// `by` times as wide and as high.
    pub(super) fn grown(self, by: f64) -> Self {
        Self { width: self.width * by, height: self.height * by }
    }
}

/// What a colour is for. Palettes (paper, dark) turn it into a colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// The ground.
    Background,
    /// A raised ground.
    Panel,
    /// Grid and rules.
    Hairline,
    /// Text and lines that matter.
    Ink,
    /// Text and lines of second rank.
    SecondInk,
    /// Differences within their ±.
    Grey,
    /// Lines of the frame at this place: 3:1 against the ground.
    FrameLine(FrameIndex),
    /// Letters of the frame at this place: 4.5:1 against the ground.
    FrameLetter(FrameIndex),
}

/// How a line is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pattern {
    /// Unbroken.
    Solid,
    /// The pattern of the frame at this place (solid for none but the reference).
    Frame(FrameIndex),
    /// Short dashes, for construction lines.
    Dashes,
}

/// A line's look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its colour's role.
    pub role: Role,
    /// Page units.
    pub width: f64,
    /// Broken how.
    pub pattern: Pattern,
    /// 0 to 1.
    pub opacity: f64,
}

/// An area's look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill {
    /// Its colour's role.
    pub role: Role,
    /// 0 to 1.
    pub opacity: f64,
}

/// Where a text's point is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// At its left end, on the base line.
    Start,
    /// At its middle, on the base line.
    Middle,
    /// At its right end, on the base line.
    End,
}

/// A text's weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Regular.
    Regular,
    /// Semibold.
    Semibold,
}

/// One thing on the page, painted in the order of the list.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A polyline.
    Line {
        /// At least two points.
        points: Vec<Pt>,
        /// Its look.
        stroke: Stroke,
    },
    /// A closed outline, convex or not, not crossing itself.
    Area {
        /// At least three points, not repeated at the end.
        points: Vec<Pt>,
        /// Inside.
        fill: Option<Fill>,
        /// Edge.
        stroke: Option<Stroke>,
    },
    /// A filled shape with openings: what lies within an odd number of rings.
    Shape {
        /// Closed rings of at least three points, not repeated at the end; the outer edge first.
        rings: Vec<Vec<Pt>>,
        /// Inside.
        fill: Fill,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: Pt,
        /// Its radius.
        radius: f64,
        /// Inside.
        fill: Option<Fill>,
        /// Edge.
        stroke: Option<Stroke>,
    },
    /// One line of text.
    Text {
        /// Point on the base line.
        at: Pt,
        /// The text.
        text: String,
        /// Font size in page units.
        size: f64,
        /// Where `at` is in it.
        anchor: Anchor,
        /// Its colour's role.
        role: Role,
        /// Its weight.
        weight: Weight,
    },
    /// What follows is seen within this rectangle only, until [`Item::Unclip`]; clips do not nest.
    Clip {
        /// Top left corner.
        at: Pt,
        /// Size.
        size: Page,
    },
    /// Ends a clip.
    Unclip,
}

impl Item {
    /// The item so far to the right and down.
    pub(super) fn moved(mut self, by: Pt) -> Self {
        match &mut self {
            Self::Line { points, .. } | Self::Area { points, .. } => points.iter_mut().for_each(|p| *p = p.moved(by)),
            Self::Shape { rings, .. } => rings.iter_mut().flatten().for_each(|p| *p = p.moved(by)),
            Self::Circle { centre: at, .. } | Self::Text { at, .. } | Self::Clip { at, .. } => *at = at.moved(by),
            Self::Unclip => {}
        }
        self
    }
}

impl Item {
    /// The item `by` times as large from the page's corner, with lines `lines_by` times as wide.
    pub(super) fn grown(mut self, by: f64, lines_by: f64) -> Self {
        let grown = |p: &mut Pt| *p = p.grown(by);
        let grown_line = |stroke: &mut Stroke| stroke.width *= lines_by;
        match &mut self {
            Self::Line { points, stroke } => {
                points.iter_mut().for_each(grown);
                grown_line(stroke);
            }
            Self::Area { points, stroke, .. } => {
                points.iter_mut().for_each(grown);
                stroke.iter_mut().for_each(grown_line);
            }
            Self::Shape { rings, .. } => rings.iter_mut().flatten().for_each(grown),
            Self::Circle { centre, radius, stroke, .. } => {
                grown(centre);
                *radius *= by;
                stroke.iter_mut().for_each(grown_line);
            }
            Self::Text { at, size, .. } => {
                grown(at);
                *size *= by;
            }
            Self::Clip { at, size } => {
                grown(at);
                *size = size.grown(by);
            }
            Self::Unclip => {}
        }
        self
    }
}

impl Item {
    /// The item with that share of its opacity; a text is there or not, from half on.
    pub(super) fn faded(mut self, share: f64) -> Option<Self> {
        let fade_fill = |fill: &mut Fill| fill.opacity *= share;
        let fade_stroke = |stroke: &mut Stroke| stroke.opacity *= share;
        match &mut self {
            Self::Line { stroke, .. } => fade_stroke(stroke),
            Self::Area { fill, stroke, .. } | Self::Circle { fill, stroke, .. } => {
                fill.iter_mut().for_each(fade_fill);
                stroke.iter_mut().for_each(fade_stroke);
            }
            Self::Shape { fill, .. } => fade_fill(fill),
            Self::Text { .. } if share < 0.5 => return None,
            Self::Text { .. } | Self::Clip { .. } | Self::Unclip => return Some(self),
        }
        (share > 0.0).then_some(self)
    }
}

impl Scene {
    /// The same scene on a page `by` times as large, letters and lines with it.
    #[must_use]
    pub fn scaled(mut self, by: f64) -> Self {
        self.items = self.items.into_iter().map(|item| item.grown(by, by)).collect();
        self.targets.iter_mut().flat_map(|t| &mut t.shape).for_each(|p| *p = p.grown(by));
        Self { page: self.page.grown(by), ..self }
    }
}

/// Something that can be pointed at.
#[derive(Clone, Debug, PartialEq)]
pub struct Target {
    /// Closed outline on the page; a single point is a spot of a few page units around it.
    pub shape: Vec<Pt>,
    /// The frame that it belongs to, where the drawing brings that frame forward.
    pub frame: Option<FrameIndex>,
    /// What it is: "A top tube, centre line".
    pub name: String,
    /// Its figure: "546 ± 14 mm, junctions assumed".
    pub detail: String,
    /// The figures of its frame that `detail` gives.
    pub figures: Vec<Figure>,
}

impl Target {
    /// The target so far to the right and down.
    pub(super) fn moved(mut self, by: Pt) -> Self {
        self.shape.iter_mut().for_each(|p| *p = p.moved(by));
        self
    }
}

/// A page of items.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// Its size.
    pub page: Page,
    /// What is painted, in order.
    pub items: Vec<Item>,
    /// What can be pointed at, the topmost last.
    pub targets: Vec<Target>,
    /// Title for screen readers.
    pub title: String,
    /// Description for screen readers: the findings in sentences.
    pub description: String,
}
