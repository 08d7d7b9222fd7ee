//! A chart of lines over a common axis, some with a band for their ±, each named where it ends.

use super::measure::text_width;
use super::pen::{Face, Pen, solid};
use super::rect::Rect;
use super::scene::{Anchor, Fill, Pattern, Pt, Role, Stroke};
use super::ticks::ticks;

/// A line of the chart. Points go from left to right.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Line {
    /// Name at its end, short; empty for a line that is told by another one's.
    pub(super) name: String,
    /// What the pointer is told.
    pub(super) detail: String,
    /// Across, up, and half the height of its band.
    pub(super) points: Vec<(f64, f64, f64)>,
    /// Colour.
    pub(super) role: Role,
    /// Whether it is broken.
    pub(super) is_broken: bool,
}

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LineChart {
    /// Title above the vertical axis.
    pub(super) up: String,
    /// Title at the end of the horizontal axis.
    pub(super) across: String,
    /// Ends of the vertical axis.
    pub(super) up_range: (f64, f64),
    /// Ends of the horizontal axis.
    pub(super) across_range: (f64, f64),
    /// A value up that matters, and what it is: a line of its own.
    pub(super) mark: Option<(f64, String)>,
    /// Lines, the last on top.
    pub(super) lines: Vec<Line>,
}

const TICK: Face = Face::regular(11.5, Role::SecondInk);
const TITLE: Face = Face::semibold(12.5, Role::Ink);
const NAME_SIZE: f64 = 11.5;
const TOP: f64 = 26.0;
const BELOW: f64 = 38.0;
const LEFT: f64 = 34.0;
/// Names of lines stand at least so far apart, page units.
const APART: f64 = 14.0;

impl LineChart {
    /// Draws it in a rectangle. Nothing where there is no room or nothing to draw.
    pub(super) fn draw(&self, pen: &mut Pen, rect: Rect) {
        let names = self.named().map(|l| text_width(&l.name, NAME_SIZE, super::scene::Weight::Regular)).fold(0.0, f64::max);
        let area = Rect::new(rect.x + LEFT, rect.y + TOP, rect.width - LEFT - names - 14.0, rect.height - TOP - BELOW);
        if area.width < 60.0 || area.height < 40.0 || self.lines.is_empty() {
            return;
        }
        let ((low, high), (left, right)) = (self.up_range, self.across_range);
        let x = |value: f64| area.x + area.width * (value - left) / (right - left);
        // What lies outside is clipped, not bent onto the edge.
        let y = |value: f64| area.bottom() - area.height * ((value - low) / (high - low)).clamp(-1.0, 2.0);
        let grid = solid(Role::Hairline, 0.8);
        for tick in ticks(left, right, 8) {
            pen.line(vec![Pt { x: x(tick.value), y: area.y }, Pt { x: x(tick.value), y: area.bottom() }], grid);
            pen.text(Pt { x: x(tick.value), y: area.bottom() + 15.0 }, tick.label, TICK, Anchor::Middle);
        }
        for tick in ticks(low, high, 6) {
            pen.line(vec![Pt { x: area.x, y: y(tick.value) }, Pt { x: area.right(), y: y(tick.value) }], grid);
            pen.text(Pt { x: area.x - 6.0, y: y(tick.value) + 4.0 }, tick.label, TICK, Anchor::End);
        }
        pen.text(Pt { x: rect.x, y: rect.y + 14.0 }, self.up.clone(), TITLE, Anchor::Start);
        pen.text(Pt { x: area.right(), y: area.bottom() + 32.0 }, self.across.clone(), TITLE, Anchor::End);
        if let Some((value, _)) = &self.mark {
            pen.line(vec![Pt { x: area.x, y: y(*value) }, Pt { x: area.right(), y: y(*value) }], solid(Role::Ink, 1.2));
        }
        pen.clip(area);
        for line in &self.lines {
            Self::draw_line(pen, line, &x, &y);
        }
        pen.unclip();
        if let Some((value, name)) = &self.mark {
            pen.backed_text(Pt { x: area.x + 6.0, y: y(*value) + 15.0 }, name.clone(), TICK, Anchor::Start);
        }
        for (line, at) in self.named().zip(self.places_of_names(&y, area)) {
            let face = Face::semibold(NAME_SIZE, line.role);
            pen.text(Pt { x: area.right() + 8.0, y: at + 4.0 }, line.name.clone(), face, Anchor::Start);
        }
    }

    /// A line, in as many pieces as its points that are no numbers leave of it.
    fn draw_line(pen: &mut Pen, line: &Line, x: &impl Fn(f64) -> f64, y: &impl Fn(f64) -> f64) {
        let as_points = |points: Vec<(f64, f64)>| points.into_iter().map(|p| Pt { x: x(p.0), y: y(p.1) }).collect::<Vec<_>>();
        let pattern = if line.is_broken { Pattern::Dashes } else { Pattern::Solid };
        for piece in line.points.split(|p| !p.1.is_finite()).filter(|piece| piece.len() > 1) {
            let side = |sign: f64| piece.iter().map(move |p| (p.0, p.1 + sign * p.2));
            if piece.iter().any(|p| p.2 > 0.0) {
                let mut band: Vec<(f64, f64)> = side(1.0).collect();
                band.extend(side(-1.0).rev());
                pen.area(as_points(band), Some(Fill { role: line.role, opacity: 0.14 }), None);
            }
            let middle = as_points(side(0.0).collect());
            pen.line(middle.clone(), Stroke { role: line.role, width: 2.0, pattern, opacity: 1.0 });
            for point in middle.iter().step_by(4) {
                pen.spot(*point, 8.0, line.detail.clone(), "");
            }
        }
    }

    fn named(&self) -> impl Iterator<Item = &Line> {
        self.lines.iter().filter(|line| !line.name.is_empty())
    }

    /// Heights of the names: each at its line's end, moved apart in their order, within the field.
    fn places_of_names(&self, y: &impl Fn(f64) -> f64, area: Rect) -> Vec<f64> {
        let end = |line: &Line| {
            line.points.iter().rev().find(|p| p.1.is_finite()).map_or(area.bottom(), |p| y(p.1).clamp(area.y, area.bottom()))
        };
        let mut order: Vec<(usize, f64)> = self.named().map(end).enumerate().collect();
        order.sort_by(|a, b| a.1.total_cmp(&b.1));
        let mut lowest = f64::NEG_INFINITY;
        for (_, at) in &mut order {
            *at = at.max(lowest + APART);
            lowest = *at;
        }
        // What was pushed out at the bottom pushes back up.
        let mut highest = area.bottom() + APART;
        for (_, at) in order.iter_mut().rev() {
            *at = at.min(highest - APART);
            highest = *at;
        }
        order.sort_by_key(|(line, _)| *line);
        order.into_iter().map(|(_, at)| at).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chart(ends: &[f64]) -> LineChart {
        let line = |end: &f64| Line {
            name: "A".to_owned(),
            detail: String::new(),
            points: vec![(0.0, 0.0, 0.0), (1.0, *end, 0.0)],
            role: Role::Ink,
            is_broken: false,
        };
        LineChart {
            up: String::new(),
            across: String::new(),
            up_range: (0.0, 1.0),
            across_range: (0.0, 1.0),
            mark: None,
            lines: ends.iter().map(line).collect(),
        }
    }

    #[test]
    fn names_stand_apart_and_in_the_order_of_their_lines() {
        let area = Rect::new(0.0, 0.0, 200.0, 200.0);
        let chart = chart(&[0.0, 0.01, 0.02, 0.9, 0.5]);
        let at = chart.places_of_names(&|v| 200.0 - 200.0 * v, area);
        assert!(at[0] > at[1] && at[1] > at[2] && at[2] > at[4] && at[4] > at[3]);
        let mut sorted = at.clone();
        sorted.sort_by(f64::total_cmp);
        assert!(sorted.windows(2).all(|pair| pair[1] - pair[0] >= APART - 1e-9), "{at:?}");
        assert!(at.iter().all(|y| *y <= area.bottom()));
    }

    /// A gap in a line stays a gap: what is not known is not joined.
    #[test]
    fn a_line_is_not_drawn_over_a_gap() {
        let mut chart = chart(&[0.5]);
        let at = |x: f64, y: f64| (x, y, 0.0);
        chart.lines[0].points =
            vec![at(0.0, 0.1), at(0.2, 0.2), at(0.4, f64::NAN), at(0.6, 0.4), at(0.8, 0.5), at(0.9, f64::NAN)];
        let mut pen = Pen::default();
        chart.draw(&mut pen, Rect::new(0.0, 0.0, 500.0, 300.0));
        let drawn = |item: &super::super::scene::Item| match item {
            super::super::scene::Item::Line { points, stroke } if stroke.width == 2.0 => Some(points.len()),
            _ => None,
        };
        let pieces: Vec<usize> = pen.into_items().iter().filter_map(drawn).collect();
        assert_eq!(pieces, [2, 2]);
    }

    #[test]
    fn nothing_is_drawn_without_lines_or_room() {
        for (chart, rect) in [(chart(&[]), Rect::new(0.0, 0.0, 500.0, 300.0)), (chart(&[0.5]), Rect::new(0.0, 0.0, 60.0, 30.0))] {
            let mut pen = Pen::default();
            chart.draw(&mut pen, rect);
            assert!(pen.into_items().is_empty());
        }
    }
}
