//! Lengths of a frame's tubes in one size, from its outline, and the ± that the printed figures leave in their weight.

use super::tube_set::TubeSet;
use crate::frameset::{Frameset, SizeIndex, Tube};
use crate::geometry::{Adjusted, AdjustedSize, Jet, Point, Points, STATES, Scalar, outline, points};

/// One tube's length, junction to junction along its centre line with all bends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeLength {
    /// Which.
    pub tube: Tube,
    /// Its length, mm.
    pub mm: f64,
    /// The straight line between its ends, mm.
    pub straight_mm: f64,
}

/// Lengths of the tubes of the size at `index`.
///
/// # Errors
/// The tubes whose ends nothing determines.
pub fn tube_lengths(frameset: &Frameset, adjusted: &Adjusted, index: SizeIndex) -> Result<Vec<TubeLength>, Vec<Tube>> {
    let Some(outline) = outline(frameset, adjusted, index, None) else { return Err(Vec::new()) };
    let undrawn: Vec<Tube> = outline.undrawn.iter().copied().filter(|t| !matches!(t, Tube::ForkBlade | Tube::SeatPost)).collect();
    if !undrawn.is_empty() {
        return Err(undrawn);
    }
    let frame = outline.tubes.iter().filter(|t| !matches!(t.tube, Tube::ForkBlade | Tube::SeatPost));
    Ok(frame
        .map(|t| {
            let mm = t.axis.windows(2).map(|w| (w[1].x - w[0].x).hypot(w[1].y - w[0].y)).sum();
            let straight_mm = match (t.axis.first(), t.axis.last()) {
                (Some(a), Some(b)) => (b.x - a.x).hypot(b.y - a.y),
                _ => 0.0,
            };
            TubeLength { tube: t.tube, mm, straight_mm }
        })
        .collect())
}

/// Weight of all tubes at those lengths, g, each tube's with its stays counted twice, in the set's order.
pub(super) fn tube_grams(set: &TubeSet, lengths: &[TubeLength]) -> Vec<f64> {
    let length = |tube| lengths.iter().find(|l| l.tube == tube).map_or(0.0, |l| l.mm);
    set.tubes.iter().map(|t| t.count * t.profile.grams(length(t.tube), set.density_kg_m3)).collect()
}

/// Standard uncertainty of the tubes' weight in one size less `ratio` times that in another, from the figures of both, g.
/// What both sizes share, such as where tubes meet, is one error.
pub(super) fn tube_grams_u(
    set: &TubeSet,
    adjusted: &Adjusted,
    (to, after): (SizeIndex, &[TubeLength]),
    (from, before): (SizeIndex, &[TubeLength]),
    ratio: f64,
) -> f64 {
    let (Some(size), Some(other)) = (to.of(&adjusted.sizes), from.of(&adjusted.sizes)) else { return 0.0 };
    let own = tube_gradient(set, size, after);
    let scaled = tube_gradient(set, other, before).map(|g| g * ratio);
    let between = adjusted.between_sizes(to, from);
    let common: f64 = own.iter().zip(&between).map(|(g, row)| g * row.iter().zip(&scaled).map(|(c, s)| c * s).sum::<f64>()).sum();
    (size.variance(&own) + other.variance(&scaled) - 2.0 * common).max(0.0).sqrt()
}

/// How the tubes' weight answers to the state of a size.
fn tube_gradient(set: &TubeSet, size: &AdjustedSize, lengths: &[TubeLength]) -> [f64; STATES] {
    let points = points(&size.state.jets());
    let mut total = Jet::of(0.0);
    for tube in &set.tubes {
        let Some(length) = lengths.iter().find(|l| l.tube == tube.tube) else { continue };
        let bend = if length.straight_mm > 0.0 { length.mm / length.straight_mm } else { 1.0 };
        let slope = tube.count * bend * tube.profile.grams_per_added_mm(length.mm, set.density_kg_m3);
        total = total + straight(tube.tube, &points) * Jet::of(slope);
    }
    total.gradient
}

/// The straight line between a tube's ends.
fn straight(tube: Tube, p: &Points<Jet>) -> Jet {
    let origin = Point { x: Jet::of(0.0), y: Jet::of(0.0) };
    let (from, to) = match tube {
        Tube::TopTube => (p.top_tube_rear, p.top_tube_front),
        Tube::DownTube => (origin, p.down_tube_front),
        Tube::SeatTube => (p.seat_foot, p.seat_top),
        Tube::HeadTube => (p.head_top, p.head_bottom),
        Tube::ChainStay => (origin, p.rear_axle),
        Tube::SeatStay => (p.top_tube_rear, p.rear_axle),
        Tube::ForkBlade | Tube::SeatPost => (origin, origin),
    };
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    (dx * dx + dy * dy).sqrt()
}
