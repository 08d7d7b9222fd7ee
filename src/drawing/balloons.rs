//! The letters of the frames, in circles that stand in a row above the head tubes, each with a line to its own: as item
//! numbers stand on an assembly drawing.
//!
//! Invariant: circles never overlap, lines never cross one another, and every letter is inside the picture.

use super::pen::{BALLOON, Pen};
use super::rect::Rect;
use super::scene::{Pattern, Pt, Role, Stroke};
use crate::frameset::FrameIndex;

/// A letter and the point that it belongs to.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Balloon {
    pub(super) place: FrameIndex,
    pub(super) letter: String,
    /// The point on the page.
    pub(super) at: Pt,
}

/// Distance from centre to centre, page units.
const SPACING: f64 = 2.0 * BALLOON + 5.0;
/// How far the row stands above the highest point.
const RISE: f64 = 34.0;

/// Centres for the letters, in their order, inside `rect`: more than one row where one is too short.
pub(super) fn placed(balloons: &[Balloon], rect: Rect) -> Vec<Pt> {
    let room = rect.inset(BALLOON + 4.0);
    let mut order: Vec<usize> = (0..balloons.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (&balloons[*a], &balloons[*b]);
        a.at.x.total_cmp(&b.at.x).then(b.at.y.total_cmp(&a.at.y)).then(a.place.cmp(&b.place))
    });
    let top = balloons.iter().map(|b| b.at.y).fold(f64::INFINITY, f64::min);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of circles across a page")]
    let a_row = ((room.width / SPACING).floor() as usize + 1).max(1);
    let below = balloons.len().div_ceil(a_row).saturating_sub(1) as f64 * SPACING;
    let row_y = (top - RISE).min(room.bottom() - below).max(room.y);
    let mut centres = vec![Pt { x: 0.0, y: row_y }; balloons.len()];
    for (row, of_row) in order.chunks(a_row).enumerate() {
        let wanted: Vec<f64> = of_row.iter().map(|i| balloons[*i].at.x).collect();
        let y = row_y + SPACING * row as f64;
        for (i, x) in of_row.iter().zip(spread(&wanted, SPACING, room.x, room.right())) {
            centres[*i] = Pt { x, y };
        }
    }
    centres
}

/// Positions as near as can be (least squares) to `wanted`, which rises, at least `spacing` apart and from `low` to
/// `high`. Where they do not fit, they stand `spacing` apart from `low` on.
///
/// Pool-adjacent-violators on wanted − i · spacing: neighbours that would overlap move as one block around their mean.
fn spread(wanted: &[f64], spacing: f64, low: f64, high: f64) -> Vec<f64> {
    let mut blocks: Vec<(f64, usize)> = Vec::new();
    for (i, x) in wanted.iter().enumerate() {
        let mut block = (x - i as f64 * spacing, 1);
        while let Some((mean, count)) = blocks.pop_if(|(mean, _)| *mean >= block.0) {
            let all = count + block.1;
            block = ((mean * count as f64 + block.0 * block.1 as f64) / all as f64, all);
        }
        blocks.push(block);
    }
    let last = wanted.len().saturating_sub(1) as f64 * spacing;
    let most = (high - last).max(low);
    blocks
        .iter()
        .flat_map(|(mean, count)| std::iter::repeat_n(mean.clamp(low, most), *count))
        .enumerate()
        .map(|(i, x)| x + i as f64 * spacing)
        .collect()
}

/// Draws the letters with their lines.
pub(super) fn draw(pen: &mut Pen, balloons: &[Balloon], rect: Rect) {
    draw_some(pen, balloons, rect, &vec![true; balloons.len()]);
}

/// Draws those that are visible, each where it stands among all.
pub(super) fn draw_some(pen: &mut Pen, balloons: &[Balloon], rect: Rect, are_visible: &[bool]) {
    let centres = placed(balloons, rect);
    let visible = || balloons.iter().zip(&centres).zip(are_visible).filter(|(_, v)| **v).map(|(b, _)| b);
    for (balloon, centre) in visible() {
        let (dx, dy) = (balloon.at.x - centre.x, balloon.at.y - centre.y);
        let distance = dx.hypot(dy);
        if rect.contains(balloon.at) && distance > BALLOON + 2.0 {
            let share = BALLOON / distance;
            let from = Pt { x: centre.x + dx * share, y: centre.y + dy * share };
            let role = Role::FrameLine(balloon.place);
            pen.line(vec![from, balloon.at], Stroke { role, width: 0.9, pattern: Pattern::Solid, opacity: 0.9 });
        }
    }
    for (balloon, centre) in visible() {
        pen.balloon(*centre, &balloon.letter, balloon.place);
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn balloons(points: &[(f64, f64)]) -> Vec<Balloon> {
        let of = |(place, (x, y)): (usize, &(f64, f64))| Balloon {
            place: FrameIndex(place),
            letter: "A".to_owned(),
            at: Pt { x: *x, y: *y },
        };
        points.iter().enumerate().map(of).collect()
    }

    #[test]
    fn one_letter_stands_straight_above() {
        let centres = placed(&balloons(&[(300.0, 200.0)]), Rect::new(0.0, 0.0, 600.0, 400.0));
        assert_eq!(centres, [Pt { x: 300.0, y: 166.0 }]);
    }

    #[test]
    fn two_heads_at_one_point_share_the_room_evenly() {
        let centres = placed(&balloons(&[(300.0, 200.0), (300.0, 200.0)]), Rect::new(0.0, 0.0, 600.0, 400.0));
        assert_eq!(centres[0].x + centres[1].x, 600.0);
        assert_eq!(centres[1].x - centres[0].x, SPACING);
    }

    proptest! {
        #[test]
        fn never_overlap_and_stay_inside(points in prop::collection::vec((-2000.0..2000.0_f64, -2000.0..2000.0_f64), 1..30)) {
            let rect = Rect::new(10.0, 20.0, 500.0, 300.0);
            let centres = placed(&balloons(&points), rect);
            for (i, a) in centres.iter().enumerate() {
                prop_assert!(rect.encloses(Rect::around(*a, BALLOON)), "{a:?}");
                for b in &centres[..i] {
                    prop_assert!((a.x - b.x).hypot(a.y - b.y) >= 2.0 * BALLOON + 1.0, "{a:?} {b:?}");
                }
            }
        }

        #[test]
        fn a_row_keeps_the_order_of_the_heads(xs in prop::collection::vec(50.0..450.0_f64, 1..10)) {
            let points: Vec<(f64, f64)> = xs.iter().map(|x| (*x, 200.0)).collect();
            let centres = placed(&balloons(&points), Rect::new(0.0, 0.0, 500.0, 300.0));
            for (i, a) in xs.iter().enumerate() {
                for (j, b) in xs.iter().enumerate() {
                    prop_assert!(a >= b || centres[i].x < centres[j].x);
                }
            }
        }
    }
}
