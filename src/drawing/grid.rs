//! The sheet under a drawing to scale: hairline grid, the lines through the point where frames stand together, a scale
//! bar.

use super::pen::{Face, Pen, solid};
use super::scene::{Anchor, Pattern, Pt, Role, Stroke};
use super::view::Canvas;
use crate::geometry::Point;
use crate::units::{Quantity, System, THIN_SPACE};

/// Least distance between grid lines, page units.
const LEAST_SPACING: f64 = 40.0;

/// Spacing of grid lines: its length in mm and in words (`100 mm`, `2 in`).
fn step(canvas: Canvas, units: System) -> (f64, f64) {
    let factor = units.factor(Quantity::Length);
    let mut step = 0.1;
    for round in 0..20 {
        step = [1.0, 2.0, 5.0][round % 3] * 10f64.powi(i32::try_from(round / 3).unwrap_or(0) - 1);
        if canvas.px(step / factor) >= LEAST_SPACING {
            break;
        }
    }
    (step / factor, step)
}

/// Grid lines, and somewhat stronger ones through the origin.
pub(super) fn draw(pen: &mut Pen, canvas: Canvas, units: System) {
    let (step_mm, _) = step(canvas, units);
    let rect = canvas.rect;
    let (low, high) = (canvas.mm(Pt { x: rect.x, y: rect.bottom() }), canvas.mm(Pt { x: rect.right(), y: rect.y }));
    let faint = Stroke { role: Role::Hairline, width: 0.7, pattern: Pattern::Solid, opacity: 0.75 };
    let lines = |low: f64, high: f64| {
        let first = (low / step_mm).ceil();
        let count = ((high / step_mm).floor() - first).clamp(-1.0, 1000.0);
        (0..).map(f64::from).take_while(move |i| *i <= count).map(move |i| (first + i) * step_mm)
    };
    let upright = |x: f64| vec![canvas.at(Point { x, y: low.y }), canvas.at(Point { x, y: high.y })];
    let level = |y: f64| vec![canvas.at(Point { x: low.x, y }), canvas.at(Point { x: high.x, y })];
    for x in lines(low.x, high.x) {
        pen.line(upright(x), faint);
    }
    for y in lines(low.y, high.y) {
        pen.line(level(y), faint);
    }
    pen.line(upright(0.0), solid(Role::Hairline, 1.2));
    pen.line(level(0.0), solid(Role::Hairline, 1.2));
}

/// A bar two grid steps long with its length, at the bottom left.
pub(super) fn scale_bar(pen: &mut Pen, canvas: Canvas, units: System) {
    let (step_mm, shown) = step(canvas, units);
    let left = canvas.rect.x + 20.0;
    let y = canvas.rect.bottom() - 18.0;
    let half = canvas.px(step_mm);
    let stroke = solid(Role::SecondInk, 1.2);
    pen.line(vec![Pt { x: left, y }, Pt { x: left + 2.0 * half, y }], stroke);
    for (x, tick) in [(left, 5.0), (left + half, 3.0), (left + 2.0 * half, 5.0)] {
        pen.line(vec![Pt { x, y: y - tick }, Pt { x, y: y + tick }], stroke);
    }
    let length = 2.0 * shown;
    let text = format!("{length}{THIN_SPACE}{}", units.unit(Quantity::Length));
    let at = Pt { x: left + 2.0 * half + 10.0, y: y + 4.0 };
    pen.backed_text(at, text, Face::regular(12.0, Role::SecondInk), Anchor::Start);
}
