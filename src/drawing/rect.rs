//! An upright rectangle on the page.

use super::measure::{ASCENT, DESCENT, text_width};
use super::scene::{Anchor, Page, Pt, Weight};

/// An upright rectangle in page units, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width, never negative.
    pub width: f64,
    /// Height, never negative.
    pub height: f64,
}

impl Rect {
    /// From its top left corner and its size; a negative size becomes zero.
    #[must_use]
    pub fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x, y, width: width.max(0.0), height: height.max(0.0) }
    }

    /// The whole page.
    #[must_use]
    pub fn of_page(page: Page) -> Self {
        Self::new(0.0, 0.0, page.width, page.height)
    }

    /// The square around a circle.
    #[must_use]
    pub fn around(centre: Pt, radius: f64) -> Self {
        Self::new(centre.x - radius, centre.y - radius, 2.0 * radius, 2.0 * radius)
    }

    /// What one line of text covers.
    #[must_use]
    pub fn of_text(at: Pt, text: &str, size: f64, anchor: Anchor, weight: Weight) -> Self {
        let width = text_width(text, size, weight);
        let x = match anchor {
            Anchor::Start => at.x,
            Anchor::Middle => at.x - width / 2.0,
            Anchor::End => at.x - width,
        };
        Self::new(x, at.y - ASCENT * size, width, (ASCENT + DESCENT) * size)
    }

    /// Its size as a page.
    #[must_use]
    pub fn size(self) -> Page {
        Page { width: self.width, height: self.height }
    }

    /// Right edge.
    #[must_use]
    pub fn right(self) -> f64 {
        self.x + self.width
    }

    /// Bottom edge.
    #[must_use]
    pub fn bottom(self) -> f64 {
        self.y + self.height
    }

    /// Its centre.
    #[must_use]
    pub fn centre(self) -> Pt {
        Pt { x: self.x + self.width / 2.0, y: self.y + self.height / 2.0 }
    }

    /// The corners, from the top left, clockwise as seen.
    #[must_use]
    pub fn corners(self) -> Vec<Pt> {
        let (r, b) = (self.right(), self.bottom());
        vec![Pt { x: self.x, y: self.y }, Pt { x: r, y: self.y }, Pt { x: r, y: b }, Pt { x: self.x, y: b }]
    }

    /// Smaller by `margin` on every side, larger where it is negative.
    #[must_use]
    pub fn inset(self, margin: f64) -> Self {
        Self::new(self.x + margin, self.y + margin, self.width - 2.0 * margin, self.height - 2.0 * margin)
    }

    /// Whether a point is in it or on its edge.
    #[must_use]
    pub fn contains(self, p: Pt) -> bool {
        p.x >= self.x && p.x <= self.right() && p.y >= self.y && p.y <= self.bottom()
    }

    /// Whether the other lies wholly in it.
    #[must_use]
    pub fn encloses(self, other: Self) -> bool {
        other.x >= self.x && other.y >= self.y && other.right() <= self.right() && other.bottom() <= self.bottom()
    }

    /// Whether they share more than an edge.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        self.x < other.right() && other.x < self.right() && self.y < other.bottom() && other.y < self.bottom()
    }
}
