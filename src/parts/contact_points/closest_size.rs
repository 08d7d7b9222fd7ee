//! The size of another frame that is nearest to the reference's: by reach at one bar height.
//!
//! Reach falls as one goes up the steering axis, so two frames are compared where the bar will be: going up by y moves
//! the axis back by y / tan θ.

use crate::frameset::{Figure, SizeIndex};
use crate::geometry::{Adjusted, AdjustedSize, Quantity as Q};
use crate::units::{Length, Measured};

/// The nearest size and why.
#[derive(Clone, Debug, PartialEq)]
pub struct ClosestSize {
    /// Its place among the frameset's sizes.
    pub size: SizeIndex,
    /// Its label.
    pub label: String,
    /// Reach at that height less the reference's.
    pub difference: Measured<Length>,
    /// The next nearest, with its difference, mm.
    pub next: Option<(String, f64)>,
    /// Whether the nearest is nearer than the next by more than the ±.
    pub is_clear: bool,
    /// Whether its head tube stands above the bar's height.
    pub is_too_tall: bool,
    /// Height above the bottom bracket at which reaches are compared, mm.
    pub height_mm: f64,
}

/// Reach of the steering axis at a height above the bottom bracket; `None` where it is missing.
fn reach_at(size: &AdjustedSize, height_mm: f64) -> Option<Measured<Length>> {
    if [Figure::Stack, Figure::Reach, Figure::HeadAngle].iter().any(|f| size.value(*f).is_missing) {
        return None;
    }
    Some(size.propagate(|s| {
        use crate::geometry::{Jet, Scalar};
        let (sin, cos) = s.get(Q::HeadAngle).sin_cos_deg();
        s.get(Q::Reach) - (<Jet as Scalar>::of(height_mm) - s.get(Q::Stack)) * cos / sin
    }))
}

/// Reach of `size` at `height_mm`, less that of `reference`; `None` where either has no stack, reach or head angle.
#[must_use]
pub fn reach_difference(reference: &AdjustedSize, size: &AdjustedSize, height_mm: f64) -> Option<Measured<Length>> {
    Some(reach_at(size, height_mm)?.minus(reach_at(reference, height_mm)?))
}

/// The size of `frame` whose reach at `height_mm` (of the bar's clamp above the bottom bracket) is nearest to that of
/// `reference`. `None` where no size has stack, reach and head angle.
#[must_use]
pub fn closest_size(reference: &AdjustedSize, frame: &Adjusted, height_mm: f64) -> Option<ClosestSize> {
    let wanted = reach_at(reference, height_mm)?;
    let mut sizes: Vec<(SizeIndex, Measured<Length>)> = SizeIndex::numbered(&frame.sizes)
        .filter_map(|(i, s)| reach_at(s, height_mm).map(|reach| (i, reach.minus(wanted))))
        .collect();
    sizes.sort_by(|a, b| a.1.value.abs().total_cmp(&b.1.value.abs()).then(a.0.cmp(&b.0)));
    let (size, difference) = *sizes.first()?;
    let label = size.of(&frame.sizes)?.label.clone();
    let next = sizes.get(1).and_then(|(i, d)| i.of(&frame.sizes).map(|s| (s.label.clone(), d.value)));
    let is_clear = next.as_ref().is_none_or(|(_, d)| difference.abs().is_clearly_below(d.abs()));
    let is_too_tall = size.of(&frame.sizes).is_some_and(|s| s.value(Figure::Stack).value > height_mm);
    Some(ClosestSize { size, label, difference, next, is_clear, is_too_tall, height_mm })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;

    #[test]
    fn a_frame_matches_itself() {
        let frameset = read_frameset(include_bytes!("../../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        let adjusted = adjust(&frameset);
        for (index, size) in SizeIndex::numbered(&adjusted.sizes) {
            let matched = closest_size(size, &adjusted, 680.0).unwrap();
            assert_eq!((matched.size, matched.difference.value), (index, 0.0));
            assert!(matched.next.is_some());
        }
    }

    #[test]
    fn reach_is_compared_at_the_bars_height_and_not_at_the_stack() {
        // Equal reach, one frame 40 mm taller at 71.5°: up by 40 moves its neighbour's axis back by 40 / tan 71.5° = 13.4.
        let frame = |stack: f64, reach: f64| {
            let text = format!(
                "#![enable(implicit_some)]\nFrameset(format: 1, maker: \"Quern\", model: \"Halter\", printed_to: (mm: 1, deg: 0.1),
                 sizes: [(label: \"M\", figures: {{Stack: {stack}, Reach: {reach}, HeadAngle: 71.5, SeatAngle: 73}})])"
            );
            adjust(&read_frameset(text.as_bytes()).unwrap())
        };
        let matched = closest_size(&frame(600.0, 390.0).sizes[0], &frame(640.0, 390.0), 660.0).unwrap();
        assert!((matched.difference.value - 40.0 / 71.5f64.to_radians().tan()).abs() < 1e-3, "{:?}", matched.difference);
        assert!(closest_size(&frame(600.0, 390.0).sizes[0], &frame(640.0, 390.0), 620.0).unwrap().is_too_tall);
    }

    #[test]
    fn what_is_not_known_is_not_matched() {
        let wether = read_frameset(include_bytes!("../../../sample-frames/hollinshaw-wether.frame.ron")).unwrap();
        let drift = read_frameset(include_bytes!("../../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        assert!(closest_size(&adjust(&drift).sizes[1], &adjust(&wether), 680.0).is_none());
    }
}
