//! The room between rider and frame: over the top tube, before the toe, and the layback that the seat post must have.

use super::super::source::Source;
use super::super::verdict::Caution;
use super::cockpit::{Rider, Saddle};
use crate::frameset::Figure;
use crate::geometry::{AdjustedSize, Quantity as Q, figure};
use crate::units::{Length, Measured};

/// A gap with its u, and whether it is enough.
#[derive(Clone, Debug, PartialEq)]
pub struct Clearance {
    /// The gap; negative where there is none.
    pub gap: Measured<Length>,
    /// Whether it is enough; `None` where the ± covers the limit.
    pub is_enough: Option<bool>,
}

/// Standover clearance that is usual on rough ground, mm: trade practice, unverified.
pub const STANDOVER_CLEARANCE_MM: f64 = 25.0;

fn judged(gap: Measured<Length>, limit: f64) -> Option<bool> {
    let beyond = gap.moved(-limit);
    beyond.is_clear().then_some(beyond.value > 0.0)
}

/// The inside leg above the top tube. `None` where standover is missing.
#[must_use]
pub fn standover(size: &AdjustedSize, inside_leg_mm: f64) -> Option<Clearance> {
    let value = size.value(Figure::Standover);
    if value.is_missing {
        return None;
    }
    let gap = (-value.measured().as_length()).moved(inside_leg_mm);
    Some(Clearance { gap, is_enough: judged(gap, STANDOVER_CLEARANCE_MM) })
}

/// A published least distance from the pedal's axle to the front tyre or mudguard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToeLimit {
    /// Least distance, mm.
    pub least_mm: f64,
    /// Whether it is for clipped-in feet.
    pub clipped_in: bool,
    /// How it is known.
    pub source: Source,
}

/// The published limits, measured from the pedal's centre.
pub const TOE_LIMITS: [ToeLimit; 2] = [
    ToeLimit { least_mm: 100.0, clipped_in: false, source: Source::Standard("JIS D 9301:2019, 5.6.2 b)") },
    ToeLimit { least_mm: 89.0, clipped_in: true, source: Source::Standard("JIS D 9301:2019, 5.6.2 b)") },
];

/// The front tyre before the foot.
#[derive(Clone, Debug, PartialEq)]
pub struct ToeGap {
    /// Pedal axle to tyre or mudguard.
    pub from_pedal: Measured<Length>,
    /// Tip of the shoe to tyre or mudguard, mm; negative where they overlap.
    pub from_toe_mm: f64,
    /// Whether a mudguard is what the toe meets first.
    pub is_to_mudguard: bool,
    /// Against the published limit; `None` where the ± covers it.
    pub is_enough: Option<bool>,
    /// The limit.
    pub limit: ToeLimit,
    /// What to mind.
    pub caution: Caution,
}

/// The least gap: front centre less crank less tyre radius, the pedal pointing at the front axle. Along the foot, beside
/// the turned wheel, the gap is larger by ten millimetres or two, so this errs on the safe side. `None` where the front
/// centre or the tyre's radius is missing.
#[must_use]
pub fn toe_gap(size: &AdjustedSize, rider: &Rider) -> Option<ToeGap> {
    if size.value(Figure::FrontCentre).is_missing || size.value(Figure::FrontTyreRadius).is_missing {
        return None;
    }
    let tyre = size.propagate(|s| figure(Figure::FrontCentre, s, size.top_tube) - s.get(Q::FrontTyreRadius));
    let from_pedal = tyre.moved(-rider.crank).moved(-rider.mudguard);
    let limit = TOE_LIMITS[usize::from(rider.clipped_in)];
    let is_enough = judged(from_pedal, limit.least_mm);
    let from_toe_mm = from_pedal.value - rider.shoe_ahead;
    Some(ToeGap { from_pedal, from_toe_mm, is_to_mudguard: rider.mudguard > 0.0, is_enough, limit, caution: Caution::Toe })
}

/// The rails' clamp is this far below the top of the saddle, mm: trade practice, unverified.
const CLAMP_BELOW_TOP_MM: f64 = 50.0;
/// Setback of seat posts that are sold, with the play of a saddle's rails, least and most, mm: trade practice, unverified.
pub const POST_SETBACK_MM: (f64, f64) = (-20.0, 45.0);

/// How far behind the seat post's axis the rails must be clamped for the saddle to stand where it should, mm with u.
/// `None` where the seat angle or stack is missing.
#[must_use]
pub fn seat_layback(size: &AdjustedSize, saddle: Saddle) -> Option<Clearance> {
    let needed = [Figure::Stack, Figure::SeatAngle, Figure::SeatTubeSetback];
    if needed.iter().any(|f| size.value(*f).is_missing) || saddle.height <= saddle.setback {
        return None;
    }
    let height = (saddle.height * saddle.height - saddle.setback * saddle.setback).sqrt() - CLAMP_BELOW_TOP_MM;
    let layback = size.propagate(|s| {
        use crate::geometry::Scalar;
        // The axis is behind the bottom bracket by the tube's setback at y = 0 and by S / tan(seat angle) at y = S.
        let (sin, cos) = s.get(Q::SeatAngle).sin_cos_deg();
        let at_stack = s.get(Q::Stack) * cos / sin;
        let setback = s.get(Q::SeatTubeSetback);
        let back = setback + (at_stack - setback) * Scalar::of(height) / s.get(Q::Stack);
        <crate::geometry::Jet as Scalar>::of(saddle.setback) - back
    });
    let low = judged(layback, POST_SETBACK_MM.0);
    let high = judged(-layback, -POST_SETBACK_MM.1);
    let is_enough = match (low, high) {
        (Some(true), Some(true)) => Some(true),
        (Some(false), _) | (_, Some(false)) => Some(false),
        _ => None,
    };
    Some(Clearance { gap: layback, is_enough })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;
    use crate::geometry::adjust;

    fn size() -> AdjustedSize {
        let frameset = read_frameset(include_bytes!("../../../sample-frames/marrowby-drift.frame.ron")).unwrap();
        adjust(&frameset).sizes.remove(2)
    }

    #[test]
    fn standover_is_held_against_the_leg() {
        let size = size();
        let printed = size.value(Figure::Standover).value;
        assert_eq!(standover(&size, printed + 60.0).unwrap().is_enough, Some(true));
        assert_eq!(standover(&size, printed - 10.0).unwrap().is_enough, Some(false));
        assert!((standover(&size, 900.0).unwrap().gap.value - (900.0 - printed)).abs() < 1e-9);
    }

    #[test]
    fn the_toe_has_its_published_room() {
        // JIS D 9301:2019, 5.6.2 b): 100 mm from the pedal's centre, 89 mm with feet held.
        assert_eq!(TOE_LIMITS.map(|l| l.least_mm), [100.0, 89.0]);
        let size = size();
        let rider = Rider::default();
        let gap = toe_gap(&size, &rider).unwrap();
        let expected = size.value(Figure::FrontCentre).value - size.value(Figure::FrontTyreRadius).value - 170.0;
        assert!((gap.from_pedal.value - expected).abs() < 1e-9);
        assert_eq!(gap.is_enough, Some(true));
        let long = toe_gap(&size, &Rider { crank: 215.0, mudguard: 60.0, ..rider }).unwrap();
        assert_eq!(long.is_enough, Some(false));
        assert!(toe_gap(&size, &Rider { clipped_in: true, ..rider }).unwrap().limit.least_mm < gap.limit.least_mm);
    }

    #[test]
    fn a_saddle_over_the_axis_wants_no_layback() {
        let size = size();
        // On the axis at 700 mm above the bottom bracket: behind by 700 / tan(seat angle), no setback assumed.
        let angle = size.value(Figure::SeatAngle).value.to_radians();
        let back = 700.0 / angle.tan();
        let saddle = Saddle { height: (750f64 * 750.0 + back * back).sqrt(), setback: back };
        let layback = seat_layback(&size, saddle).unwrap();
        assert!(layback.gap.value.abs() < 0.1, "{:?}", layback.gap);
        assert_eq!(layback.is_enough, Some(true));
        assert_eq!(seat_layback(&size, Saddle { setback: back + 120.0, ..saddle }).unwrap().is_enough, Some(false));
    }

    #[test]
    fn the_toe_is_as_far_ahead_as_the_shoe_and_meets_a_mudguard_first() {
        let size = size();
        let rider = Rider { shoe_ahead: 120.0, ..Rider::default() };
        let bare = toe_gap(&size, &rider).unwrap();
        assert!((bare.from_pedal.value - bare.from_toe_mm - 120.0).abs() < 1e-9);
        let guarded = toe_gap(&size, &Rider { mudguard: 25.0, ..rider }).unwrap();
        assert!((bare.from_pedal.value - guarded.from_pedal.value - 25.0).abs() < 1e-9);
        assert_eq!((bare.is_to_mudguard, guarded.is_to_mudguard), (false, true));
    }

    fn with(tyre: &str, figures: &str) -> AdjustedSize {
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 2, maker: \"Quern\", model: \"Halter\", rounded_to: (mm: 1, deg: 0.1),
             {tyre} sizes: [(label: \"M\", figures: {{{figures}}})])"
        );
        adjust(&read_frameset(text.as_bytes()).unwrap()).sizes.remove(0)
    }

    #[test]
    fn no_gap_is_guessed_where_the_front_centre_is_unknown() {
        let tyre = "tyre: \"47-622\",";
        assert!(toe_gap(&with(tyre, "Stack: 600, FrontCentre: 620"), &Rider::default()).is_some());
        assert!(toe_gap(&with(tyre, "Stack: 600"), &Rider::default()).is_none());
    }

    #[test]
    fn a_seat_tube_behind_the_bottom_bracket_is_counted() {
        // The axis is 30 mm back at the bottom bracket and 600 / tan 73° at the top of the head tube; so at 500 mm, where the
        // clamp is: 30 + (183.4 − 30) · 500 / 600 = 157.9 mm back.
        let size = with("", "Stack: 600, Reach: 390, HeadAngle: 71, SeatAngle: 73, SeatTubeSetback: 30");
        let back = 30.0 + (600.0 / 73f64.to_radians().tan() - 30.0) * 500.0 / 600.0;
        let saddle = Saddle { height: (550f64 * 550.0 + back * back).sqrt(), setback: back };
        assert!(seat_layback(&size, saddle).unwrap().gap.value.abs() < 1e-3);
        let behind =
            seat_layback(&size, Saddle { height: (550f64 * 550.0 + (back + 20.0) * (back + 20.0)).sqrt(), setback: back + 20.0 });
        assert!((behind.unwrap().gap.value - 20.0).abs() < 1e-3);
    }

    #[test]
    fn no_layback_is_guessed() {
        let saddle = Saddle { height: 720.0, setback: 200.0 };
        assert!(seat_layback(&with("", "Reach: 390"), saddle).is_none(), "neither stack nor seat angle");
        // A saddle cannot be further back than it is far away.
        assert!(seat_layback(&size(), Saddle { height: 400.0, setback: 400.0 }).is_none());
        assert!(seat_layback(&size(), saddle).is_some());
    }
}
