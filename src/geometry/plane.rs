//! Outlines in the plane, whatever their points are of: millimetres of a frame or units of a page.

/// Whether a point lies inside a closed outline, its first point not repeated: by the even–odd rule, the crossings of a
/// level ray to the right. A point on the outline may count as inside or outside.
#[must_use]
pub fn contains<P: Copy + Into<[f64; 2]>>(outline: &[P], point: P) -> bool {
    let [x, y] = point.into();
    let following = outline.iter().cycle().skip(1);
    outline.iter().zip(following).fold(false, |is_inside, (from, to)| {
        let ([ax, ay], [bx, by]): ([f64; 2], [f64; 2]) = ((*from).into(), (*to).into());
        is_inside != ((ay > y) != (by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_notch_is_outside_and_nothing_holds_nothing() {
        // A square of 4 with a notch cut from the top down to 1.
        let outline = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [3.0, 4.0], [2.0, 1.0], [1.0, 4.0], [0.0, 4.0]];
        for (point, is_inside) in [
            ([0.5, 3.5], true),
            ([3.5, 3.5], true),
            ([2.0, 3.0], false),
            ([2.0, 0.5], true),
            ([5.0, 2.0], false),
            ([2.0, -1.0], false),
        ] {
            assert_eq!(contains(&outline, point), is_inside, "{point:?}");
            let turned: Vec<[f64; 2]> = outline.iter().rev().copied().collect();
            assert_eq!(contains(&turned, point), is_inside, "{point:?}, clockwise");
        }
        assert!(!contains(&[], [0.0, 0.0]));
    }
}
