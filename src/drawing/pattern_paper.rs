//! The sheets that a pattern is printed on, and how a drawing of true size is spread over several of them.
//!
//! Invariant: neighbouring tiles share a strip of [`OVERLAP_MM`], and all of a drawing lies on some tile.

use serde::{Deserialize, Serialize};

use super::rect::Rect;
use super::scene::{Page, Pt};
use crate::geometry::Point;
use crate::words::drawings as labels;

/// Page units in a millimetre: 96 to the inch of 25.4 mm.
pub const PX_PER_MM: f64 = 96.0 / 25.4;
/// What neighbouring tiles share, mm.
pub(super) const OVERLAP_MM: f64 = 10.0;
/// Left free at each edge of a page, mm: more than printers cut off, and room for the check bars.
pub(super) const MARGIN_MM: f64 = 14.0;

/// What a pattern is printed on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Paper {
    /// 210 mm × 297 mm (ISO 216).
    #[default]
    A4,
    /// 297 mm × 420 mm (ISO 216).
    A3,
    /// 8.5 in × 11 in (ASME Y14.1, size A).
    Letter,
    /// One sheet as large as the pattern, for a plotter or a copy shop.
    OneSheet,
}

impl Paper {
    /// All, in the order of menus.
    pub const ALL: [Self; 4] = [Self::A4, Self::A3, Self::Letter, Self::OneSheet];

    /// Name on screen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::A4 => labels::A4,
            Self::A3 => labels::A3,
            Self::Letter => labels::US_LETTER,
            Self::OneSheet => labels::ONE_LARGE_SHEET,
        }
    }

    /// Width and height when it stands upright, mm; `None` for a sheet as large as what is on it.
    #[must_use]
    pub const fn size_mm(self) -> Option<(f64, f64)> {
        match self {
            Self::A4 => Some((210.0, 297.0)),
            Self::A3 => Some((297.0, 420.0)),
            Self::Letter => Some((215.9, 279.4)),
            Self::OneSheet => None,
        }
    }
}

/// A page of millimetres.
pub(super) fn page_of_mm((width, height): (f64, f64)) -> Page {
    Page { width: width * PX_PER_MM, height: height * PX_PER_MM }
}

/// Room for the neighbour's number beside a joint, mm.
const BESIDE_JOINT_MM: f64 = 6.0;

/// A drawing spread over pages of one size.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Tiling {
    /// Size of each page, mm.
    pub(super) page_mm: (f64, f64),
    /// Pages side by side and above one another.
    pub(super) columns: usize,
    pub(super) rows: usize,
    /// Corner of all tiles together, upper rear, mm, y up.
    from: Point<f64>,
}

impl Tiling {
    /// The fewest pages, upright or on their side, for a drawing of this size (lowest and highest corner, mm).
    pub(super) fn fewest(paper: (f64, f64), low: Point<f64>, high: Point<f64>) -> Self {
        let (upright, across) = (Self::of(paper, low, high), Self::of((paper.1, paper.0), low, high));
        if across.columns * across.rows < upright.columns * upright.rows { across } else { upright }
    }

    fn of(page_mm: (f64, f64), low: Point<f64>, high: Point<f64>) -> Self {
        let net = net_mm(page_mm);
        let count = |length: f64, net: f64| {
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few pages")]
            let count = ((length - OVERLAP_MM) / net).ceil().clamp(1.0, 99.0) as usize;
            count
        };
        let (columns, rows) = (count(high.x - low.x, net.0), count(high.y - low.y, net.1));
        let whole = (columns as f64 * net.0 + OVERLAP_MM, rows as f64 * net.1 + OVERLAP_MM);
        let from = Point { x: f64::midpoint(low.x, high.x) - whole.0 / 2.0, y: f64::midpoint(low.y, high.y) + whole.1 / 2.0 };
        Self { page_mm, columns, rows, from }
    }

    /// Upper rear and lower front corner of what the tile shows, mm, overlaps included. Rows count from the top.
    pub(super) fn window(&self, column: usize, row: usize) -> (Point<f64>, Point<f64>) {
        let net = net_mm(self.page_mm);
        let from = Point { x: self.from.x + column as f64 * net.0, y: self.from.y - row as f64 * net.1 };
        (from, Point { x: from.x + net.0 + OVERLAP_MM, y: from.y - net.1 - OVERLAP_MM })
    }

    /// The part of a tile's window where words meet neither joints nor what is written beside them, mm.
    pub(super) fn between_joints(&self, column: usize, row: usize) -> (Point<f64>, Point<f64>) {
        let ((a, b), off) = (self.window(column, row), OVERLAP_MM + BESIDE_JOINT_MM);
        (Point { x: a.x + off, y: a.y - off }, Point { x: b.x - off, y: b.y + off })
    }

    /// Where the tile's window lies on its page, page units.
    pub(super) fn on_page(&self) -> Rect {
        let page = page_of_mm(self.page_mm);
        Rect::of_page(page).inset(MARGIN_MM * PX_PER_MM)
    }

    /// Where neighbouring tiles are joined: the middle of the overlap, as points on the page, at all four corners.
    pub(super) fn joints(&self) -> [Pt; 4] {
        let corners = self.on_page().inset(OVERLAP_MM / 2.0 * PX_PER_MM).corners();
        std::array::from_fn(|i| corners.get(i).copied().unwrap_or(Pt { x: 0.0, y: 0.0 }))
    }
}

/// What a page adds to its neighbours', mm.
fn net_mm((width, height): (f64, f64)) -> (f64, f64) {
    let less = 2.0 * MARGIN_MM + OVERLAP_MM;
    (width - less, height - less)
}

/// Whether an outline passes through an upright rectangle (two opposite corners) or holds it.
pub(super) fn touches(outline: &[Point<f64>], a: Point<f64>, b: Point<f64>) -> bool {
    let (low, high) = (Point { x: a.x.min(b.x), y: a.y.min(b.y) }, Point { x: a.x.max(b.x), y: a.y.max(b.y) });
    // Cut to the rectangle side by side (I. E. Sutherland and G. W. Hodgman, 1974): what is left has an area or has not.
    let sides: [&dyn Fn(Point<f64>) -> f64; 4] = [&|p| p.x - low.x, &|p| high.x - p.x, &|p| p.y - low.y, &|p| high.y - p.y];
    let mut left = outline.to_vec();
    for inside in sides {
        let mut kept = Vec::with_capacity(left.len() + 2);
        for (i, p) in left.iter().enumerate() {
            let q = left[(i + 1) % left.len()];
            let (at_p, at_q) = (inside(*p), inside(q));
            if at_p >= 0.0 {
                kept.push(*p);
            }
            if (at_p >= 0.0) != (at_q >= 0.0) {
                let part = at_p / (at_p - at_q);
                kept.push(Point { x: p.x + (q.x - p.x) * part, y: p.y + (q.y - p.y) * part });
            }
        }
        left = kept;
    }
    let twice: f64 = left.iter().zip(left.iter().cycle().skip(1)).map(|(p, q)| p.x * q.y - q.x * p.y).sum();
    twice.abs() > 2.0
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_page_has_its_printed_size() {
        // ISO 216: the sides of A3 are √2 apart, and A4 is half of it.
        let (a3, a4) = (Paper::A3.size_mm().unwrap(), Paper::A4.size_mm().unwrap());
        assert!((a3.1 / a3.0 - 2.0_f64.sqrt()).abs() < 1e-3 && a3.0 == a4.1 && a3.1 == 2.0 * a4.0);
        let letter = Paper::Letter.size_mm().unwrap();
        assert_eq!((letter.0 / 25.4, letter.1 / 25.4), (8.5, 11.0));
        assert!((page_of_mm(letter).width - 816.0).abs() < 1e-9);
    }

    #[test]
    fn touching_is_more_than_a_corner() {
        let p = |x, y| Point { x, y };
        let triangle = [p(0.0, 0.0), p(100.0, 0.0), p(0.0, 100.0)];
        assert!(touches(&triangle, p(10.0, 10.0), p(20.0, 20.0)), "the rectangle within");
        assert!(touches(&triangle, p(-500.0, -500.0), p(500.0, 500.0)), "the triangle within");
        assert!(touches(&triangle, p(-10.0, 40.0), p(10.0, 60.0)), "an edge through it");
        assert!(!touches(&triangle, p(60.0, 60.0), p(90.0, 90.0)), "in its bounds only");
        assert!(!touches(&triangle, p(100.0, 0.0), p(150.0, 50.0)), "a corner only");
    }

    proptest! {
        #[test]
        fn tiles_hold_all_and_share_their_overlap(
            x in -900.0..0.0_f64, y in -300.0..300.0_f64, width in 20.0..1500.0_f64, height in 20.0..1200.0_f64,
            which in 0_usize..3, at_x in 0.0..=1.0_f64, at_y in 0.0..=1.0_f64,
        ) {
            let (low, high) = (Point { x, y }, Point { x: x + width, y: y + height });
            let tiling = Tiling::fewest(Paper::ALL[which].size_mm().unwrap(), low, high);
            let point = Point { x: x + at_x * width, y: y + at_y * height };
            let holds = |c: usize, r: usize| {
                let (from, to) = tiling.window(c, r);
                (from.x..=to.x).contains(&point.x) && (to.y..=from.y).contains(&point.y)
            };
            prop_assert!((0..tiling.columns).any(|c| (0..tiling.rows).any(|r| holds(c, r))));
            let ((a, b), (c, _), (_, d)) = (tiling.window(0, 0), tiling.window(1, 1), tiling.window(0, 0));
            prop_assert!((b.x - c.x - OVERLAP_MM).abs() < 1e-9 && (c.y - d.y - OVERLAP_MM).abs() < 1e-9);
            let on_page = tiling.on_page();
            prop_assert!((on_page.width / PX_PER_MM - (b.x - a.x)).abs() < 1e-9, "true to size");
            prop_assert!((on_page.height / PX_PER_MM - (a.y - b.y)).abs() < 1e-9, "true to size");
        }
    }
}
