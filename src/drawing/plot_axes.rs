//! Axes of a published plot: what is left around its field, grid lines with their numbers, and the two titles.

use super::pen::{Face, Pen, solid};
use super::plot_marks::PlotMarks;
use super::plot_view::PlotView;
use super::rect::Rect;
use super::scene::{Anchor, Pattern, Pt, Role, Stroke};

/// Left of the field, page units.
pub(super) const LEFT: f64 = 64.0;
/// Right of it.
pub(super) const RIGHT: f64 = 24.0;
/// Above it, with the title of the upright axis.
pub(super) const TOP: f64 = 38.0;
/// Below it, with the numbers and the title of the level axis.
pub(super) const BOTTOM: f64 = 52.0;
/// Where the upright axis's title begins.
pub(super) const SIDE: f64 = 20.0;
const TICK: Face = Face::regular(12.0, Role::SecondInk);
const TITLE: Face = Face::semibold(13.0, Role::Ink);

impl PlotMarks {
    /// Draws grid, axes and titles of the field `area` in `rect`.
    pub(super) fn draw_axes(&self, pen: &mut Pen, rect: Rect, area: Rect, view: PlotView) {
        let grid = Stroke { role: Role::Hairline, width: 0.8, pattern: Pattern::Solid, opacity: 0.9 };
        for (value, _, label) in self.across.ticks(view.left, view.right, area.width) {
            let x = view.to_page(area, value, view.bottom).x;
            pen.line(vec![Pt { x, y: area.y }, Pt { x, y: area.bottom() }], grid);
            pen.text(Pt { x, y: area.bottom() + 17.0 }, label, TICK, Anchor::Middle);
        }
        for (value, _, label) in self.up.ticks(view.bottom, view.top, area.height) {
            let y = view.to_page(area, view.left, value).y;
            pen.line(vec![Pt { x: area.x, y }, Pt { x: area.right(), y }], grid);
            pen.text(Pt { x: area.x - 8.0, y: y + 4.0 }, label, TICK, Anchor::End);
        }
        let (left, bottom) = (area.x, area.bottom());
        pen.line(
            vec![Pt { x: left, y: area.y }, Pt { x: left, y: bottom }, Pt { x: area.right(), y: bottom }],
            solid(Role::Ink, 1.2),
        );
        pen.text(Pt { x: rect.x + SIDE, y: area.y - 14.0 }, self.up.title.clone(), TITLE, Anchor::Start);
        pen.text(Pt { x: area.right(), y: bottom + 38.0 }, self.across.title.clone(), TITLE, Anchor::End);
    }
}
