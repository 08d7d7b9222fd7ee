//! Places for labels beside points, so that none covers another label or a point.
//!
//! Method: greedy, in the order asked; each label tries places around its point, nearest ring first, and takes the first
//! that is free of lines too, else the first that is free of labels and points. Deterministic.

use super::reach::crossing;
use super::rect::Rect;
use super::scene::Pt;

/// Directions that labels try, in order of liking: right above first.
const DIRECTIONS: [(f64, f64); 8] =
    [(0.8, -0.6), (0.0, -1.0), (-0.8, -0.6), (1.0, 0.0), (-1.0, 0.0), (0.8, 0.6), (0.0, 1.0), (-0.8, 0.6)];

/// What is taken already.
#[derive(Debug)]
pub(super) struct Taken {
    area: Rect,
    rects: Vec<Rect>,
    lines: Vec<(Pt, Pt)>,
}

impl Taken {
    /// Nothing taken yet; labels stay inside `area`.
    pub(super) fn within(area: Rect) -> Self {
        Self { area, rects: Vec::new(), lines: Vec::new() }
    }

    pub(super) fn add(&mut self, rect: Rect) {
        self.rects.push(rect);
    }

    /// A line, which labels avoid where they can.
    pub(super) fn add_line(&mut self, from: Pt, to: Pt) {
        self.lines.push((from, to));
    }

    fn is_off_lines(&self, rect: Rect) -> bool {
        !self.lines.iter().any(|(a, b)| crossing(rect, *a, *b).is_some())
    }

    fn is_free(&self, rect: Rect) -> bool {
        self.area.encloses(rect) && !self.rects.iter().any(|r| r.overlaps(rect))
    }

    /// A free place for a label of that size whose centre is one of `rings` away from the point (that much clear of it,
    /// the label's own extent added); taken from then on.
    pub(super) fn place(&mut self, point: Pt, width: f64, height: f64, rings: &[f64]) -> Option<Pt> {
        let tried = rings.iter().flat_map(|ring| {
            DIRECTIONS.iter().map(move |(dx, dy)| {
                let (x, y) = (point.x + dx * (ring + width / 2.0), point.y + dy * (ring + height / 2.0));
                Rect::new(x - width / 2.0, y - height / 2.0, width, height)
            })
        });
        let free: Vec<Rect> = tried.filter(|r| self.is_free(*r)).collect();
        let rect = *free.iter().find(|r| self.is_off_lines(**r)).or(free.first())?;
        self.add(rect);
        Some(rect.centre())
    }

    /// The free place nearest to the point on a grid over the whole area, where [`Self::place`] found none.
    pub(super) fn place_anywhere(&mut self, point: Pt, width: f64, height: f64) -> Option<Pt> {
        let room = self.area;
        let steps = |length: f64, size: f64| (0..200).map(move |i| f64::from(i) * size).take_while(move |x| *x + size <= length);
        let corners = steps(room.height, height).flat_map(|dy| steps(room.width, width).map(move |dx| (dx, dy)));
        let rect = corners
            .map(|(dx, dy)| Rect::new(room.x + dx, room.y + dy, width, height))
            .filter(|r| self.is_free(*r))
            .min_by(|a, b| distance(a.centre(), point).total_cmp(&distance(b.centre(), point)))?;
        self.add(rect);
        Some(rect.centre())
    }
}

fn distance(a: Pt, b: Pt) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn lines_through_rectangles() {
        let rect = Rect::new(0.0, 0.0, 10.0, 10.0);
        let p = |x, y| Pt { x, y };
        assert!(crossing(rect, p(-5.0, 5.0), p(15.0, 5.0)).is_some());
        assert!(crossing(rect, p(5.0, 5.0), p(6.0, 6.0)).is_some());
        assert!(crossing(rect, p(-5.0, 8.0), p(8.0, 21.0)).is_none());
        assert!(crossing(rect, p(-5.0, 12.0), p(15.0, 12.0)).is_none());
        assert!(crossing(rect, p(12.0, -5.0), p(12.0, 15.0)).is_none());
    }

    #[test]
    fn lines_are_avoided_where_there_is_room() {
        let mut taken = Taken::within(Rect::new(0.0, 0.0, 100.0, 100.0));
        taken.add_line(Pt { x: 50.0, y: 50.0 }, Pt { x: 100.0, y: 10.0 });
        let centre = taken.place(Pt { x: 50.0, y: 50.0 }, 10.0, 10.0, &[6.0]).unwrap();
        assert!(centre.x <= 50.0, "{centre:?}");
    }

    proptest! {
        #[test]
        fn labels_never_overlap(points in prop::collection::vec((0.0..300.0_f64, 0.0..200.0_f64), 1..25)) {
            let area = Rect::new(0.0, 0.0, 300.0, 200.0);
            let mut taken = Taken::within(area);
            let mut placed = Vec::new();
            for (x, y) in points {
                let point = Pt { x, y };
                let found = taken.place(point, 22.0, 22.0, &[6.0, 20.0]).or_else(|| taken.place_anywhere(point, 22.0, 22.0));
                placed.extend(found.map(|c| Rect::around(c, 11.0)));
            }
            for (i, a) in placed.iter().enumerate() {
                prop_assert!(area.inset(-1e-9).encloses(*a));
                prop_assert!(placed[..i].iter().all(|b| !a.inset(1e-9).overlaps(*b)));
            }
        }
    }
}
