//! Places across the bicycle: the planes of sprockets, chainrings, flanges and rotor, measured from the frame's centre
//! plane, each with its u; and the angle of the chain between them.
//!
//! All numbers are trade practice, unverified, and quoted from memory; makers differ by one or two millimetres, which their
//! u carries. Invariant: what a maker states is used; what none states has the u of all that are made.

use super::standards::{Axle, CrankSpacing, GROOVE_MM, Hub};
use crate::units::{Angle, Length, Measured};

/// How far off straight a chain may run, degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChainLimits {
    /// Up to this it runs well.
    pub well_deg: f64,
    /// Up to this it is borderline; above, it does not run.
    pub most_deg: f64,
}

/// A chain that a derailleur moves, in its lowest gear on the smallest ring and its highest on the largest. Gears that
/// cross over are not judged. Trade practice, unverified.
pub const DERAILLEUR: ChainLimits = ChainLimits { well_deg: 2.5, most_deg: 3.3 };
/// A chain between one ring and one sprocket. Trade practice, unverified.
pub const ONE_SPROCKET: ChainLimits = ChainLimits { well_deg: 0.4, most_deg: 0.8 };

/// Pitch of sprockets, centre to centre, mm, by their number. Trade practice, unverified.
const PITCHES_MM: [(u8, f64); 7] = [(7, 5.0), (8, 4.8), (9, 4.35), (10, 3.95), (11, 3.8), (12, 3.65), (13, 3.5)];
/// Outer width of a chain, mm, by the number of sprockets. Trade practice, unverified.
const CHAINS_MM: [(u8, f64); 7] = [(7, 7.3), (8, 7.1), (9, 6.6), (10, 5.9), (11, 5.5), (12, 5.2), (13, 5.0)];
/// Half the width from the smallest to the largest sprocket where their number is not stated: 8 to 12 of them.
const HALF_CASSETTE: Measured<Length> = Measured::new(18.4, 0.9);
/// Right locknut's face to the middle of the smallest sprocket: 3 to 4.5 mm and half a sprocket. Trade practice, unverified.
const LOCKNUT_TO_SPROCKET: Measured<Length> = Measured::new(4.6, 0.5);
/// From one chainring to the next, 7 to 8.5 mm. Trade practice, unverified.
const RING_PITCH: Measured<Length> = Measured::new(7.75, 0.4);
/// u of a chainline that is stated, and of one that is a family's, mm. Trade practice, unverified.
const LINE_U_MM: (f64, f64) = (0.5, 1.0);
/// A chainstay where the frame's is unknown, mm. Trade practice, unverified.
const CHAINSTAY: Measured<Length> = Measured::new(440.0, 10.0);
/// Rotor's plane from the hub's end between its locknuts, mm: rear, 135 and what lies like it. Trade practice, unverified.
const ROTOR_FROM_END_MM: f64 = 15.3;
/// Flanges of a rear hub from the centre plane, mm, for 135 mm between locknuts: left and right. Trade practice, unverified.
const FLANGES_MM: (f64, f64) = (34.0, 20.0);
/// u of flanges and rotor, mm.
const HUB_PART_U_MM: f64 = 1.5;

/// The planes of a rear hub.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RearPlaces {
    /// Face of the locknut, mm from the centre plane, to the left as to the right.
    pub locknut_mm: f64,
    /// Largest sprocket; of a gear hub the only one.
    pub innermost: Measured<Length>,
    /// Smallest sprocket; of a gear hub the only one.
    pub outermost: Measured<Length>,
    /// Left flange.
    pub left_flange: Measured<Length>,
    /// Right flange.
    pub right_flange: Measured<Length>,
    /// Rotor, to the left.
    pub rotor: Measured<Length>,
}

/// The spacing between a hub's locknuts without the grooves of closed dropouts, mm: 135 of 142, 141 of 148.
#[must_use]
pub fn between_locknuts_mm(hub: &Hub) -> f64 {
    const GROOVED_MM: [f64; 5] = [142.0, 148.0, 157.0, 177.0, 197.0];
    // 157 is 150 with grooves; 150 and 135 with a through axle have none.
    let is_grooved = GROOVED_MM.iter().any(|g| (g - hub.spacing_mm).abs() < 0.5) && !hub.axle.is_some_and(Axle::is_slotted);
    if is_grooved { hub.spacing_mm - 2.0 * GROOVE_MM } else { hub.spacing_mm }
}

impl RearPlaces {
    /// Where the parts of a rear hub lie with a cassette.
    #[must_use]
    pub fn of(hub: &Hub) -> Self {
        let locknut_mm = between_locknuts_mm(hub) / 2.0;
        let half = hub.sprockets.and_then(half_cassette_mm).map_or(HALF_CASSETTE, |mm| Measured::new(mm, 0.3));
        let (innermost, outermost) = if let Some(line) = hub.chainline_mm {
            let line = Measured::new(line, LINE_U_MM.0);
            (line.minus(half), line.plus(half))
        } else {
            let outermost = (-LOCKNUT_TO_SPROCKET).moved(locknut_mm);
            (outermost.minus(half.times(2.0)), outermost)
        };
        Self { innermost, outermost, ..Self::without_sprockets(locknut_mm) }
    }

    /// Where the one sprocket of a gear hub lies; `None` where its chainline is not stated.
    #[must_use]
    pub fn of_gear_hub(hub: &Hub) -> Option<Self> {
        let line = Measured::new(hub.chainline_mm?, LINE_U_MM.0);
        Some(Self { innermost: line, outermost: line, ..Self::without_sprockets(between_locknuts_mm(hub) / 2.0) })
    }

    fn without_sprockets(locknut_mm: f64) -> Self {
        // The flanges move out with the locknuts: what is not filled by the cassette widens the hub.
        let out = locknut_mm - 67.5;
        let part = |mm: f64| Measured::new(mm, HUB_PART_U_MM);
        Self {
            locknut_mm,
            innermost: Measured::exact(0.0),
            outermost: Measured::exact(0.0),
            left_flange: part(FLANGES_MM.0 + out),
            right_flange: part(FLANGES_MM.1 + out),
            rotor: part(locknut_mm - ROTOR_FROM_END_MM),
        }
    }
}

fn half_cassette_mm(sprockets: u8) -> Option<f64> {
    let pitch = PITCHES_MM.iter().find(|(n, _)| *n == sprockets)?.1;
    Some(f64::from(sprockets - 1) * pitch / 2.0)
}

/// Outer width of the chain for that many sprockets, mm; of 11 where it is not stated.
#[must_use]
pub fn chain_width_mm(sprockets: Option<u8>) -> f64 {
    let of = |n: u8| CHAINS_MM.iter().find(|(s, _)| *s == n).map(|(_, mm)| *mm);
    sprockets.and_then(of).or_else(|| of(11)).unwrap_or(5.5)
}

/// The planes of the smallest and of the largest chainring.
#[must_use]
pub fn rings(crank: &CrankSpacing, count: u8) -> (Measured<Length>, Measured<Length>) {
    let u = if crank.is_chainline_stated { LINE_U_MM.0 } else { LINE_U_MM.1 };
    let line = Measured::new(crank.chainline_mm, u);
    let half = RING_PITCH.times(f64::from(count.saturating_sub(1)) / 2.0);
    (line.minus(half), line.plus(half))
}

/// The angle of a chain from straight between a ring and a sprocket, over the chainstay's length; positive where the ring
/// is further out.
#[must_use]
pub fn chain_angle(ring: Measured<Length>, sprocket: Measured<Length>, chainstay: Measured<Length>) -> Measured<Angle> {
    let off = ring.minus(sprocket);
    let value = (off.value / chainstay.value).atan().to_degrees();
    // Small angles: the chainstay's own doubt scales them.
    let u = (off.u / chainstay.value).hypot(off.value / chainstay.value * chainstay.u / chainstay.value).to_degrees();
    Measured::new(value, u)
}

/// The plane at a place of `count` that lie evenly between two, 1 the first.
#[must_use]
pub fn between(first: Measured<Length>, last: Measured<Length>, place: u8, count: u8) -> Measured<Length> {
    let share = if count > 1 { f64::from(place.saturating_sub(1)) / f64::from(count - 1) } else { 0.5 };
    let value = first.value + share * (last.value - first.value);
    // First and last are held by the same hub or crank, so that they err together.
    Measured::new(value, first.u + share * (last.u - first.u))
}

/// The chain's angle from straight in the gears that are judged; positive where the ring is further out than the sprocket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChainAngles {
    /// Largest sprocket on the smallest ring.
    pub lowest: Measured<Angle>,
    /// Smallest sprocket on the largest ring.
    pub highest: Measured<Angle>,
}

impl ChainAngles {
    /// Between a crank with `count` rings and a hub, over the chainstay's length, mm; a usual one where it is unknown.
    #[must_use]
    pub fn of(crank: &CrankSpacing, count: u8, hub: &RearPlaces, chainstay: Option<Measured<Length>>) -> Self {
        let (smallest, largest) = rings(crank, count);
        let stay = chainstay.unwrap_or(CHAINSTAY);
        Self { lowest: chain_angle(smallest, hub.innermost, stay), highest: chain_angle(largest, hub.outermost, stay) }
    }

    /// The larger of both, degrees.
    #[must_use]
    pub fn worst_deg(&self) -> f64 {
        self.lowest.value.abs().max(self.highest.value.abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hub(text: &str) -> Hub {
        Hub::read(text).unwrap()
    }

    fn middle(text: &str) -> f64 {
        let places = RearPlaces::of(&hub(text));
        f64::midpoint(places.innermost.value, places.outermost.value)
    }

    #[test]
    fn slots_and_grooves_hold_the_same_hub() {
        for (closed, slotted) in [
            ("142 x 12", "135 quick release"),
            ("148 x 12", "141 quick release"),
            ("177 x 12", "170 quick release"),
            ("197 x 12", "190 quick release"),
        ] {
            assert_eq!(RearPlaces::of(&hub(closed)), RearPlaces::of(&hub(slotted)), "{closed}");
        }
        assert_eq!(between_locknuts_mm(&hub("157 x 12")), 150.0);
        assert_eq!((between_locknuts_mm(&hub("150 x 12")), between_locknuts_mm(&hub("135 x 12"))), (150.0, 135.0));
    }

    #[test]
    fn the_middle_of_the_cassette_is_where_the_trade_has_it() {
        // 130: 42 to 43; 135 and 142: 43 to 45.5; 141 and 148: 46.5 to 49. Trade practice, unverified; ± 1 mm.
        for (text, least, most) in [
            ("130 quick release", 42.0, 43.0),
            ("130 quick release, 9-speed", 42.0, 43.0),
            ("142 x 12, 11-speed", 43.0, 45.5),
            ("135 quick release, 8-speed", 43.0, 46.0),
            ("148 x 12, 12-speed", 45.5, 49.0),
        ] {
            assert!((least - 1.0..=most + 1.0).contains(&middle(text)), "{text}: {}", middle(text));
        }
        assert_eq!(middle("142 x 12, chainline 45"), 45.0, "what is stated is used");
    }

    #[test]
    fn the_angle_is_that_of_the_triangle() {
        // Eleven sprockets of 3.8 mm in 135 mm: 67.5 − 4.6 = 62.9 and 62.9 − 38 = 24.9. Two rings at 43.5: 39.625, 47.375.
        let crank = CrankSpacing::read("2x, chainline 43.5").unwrap();
        let angles = ChainAngles::of(&crank, 2, &RearPlaces::of(&hub("142 x 12, 11-speed")), Some(Measured::new(430.0, 0.5)));
        assert!((angles.lowest.value - (14.725f64 / 430.0).atan().to_degrees()).abs() < 1e-9, "{angles:?}");
        assert!((angles.highest.value - (-15.525f64 / 430.0).atan().to_degrees()).abs() < 1e-9, "{angles:?}");
        assert!(angles.worst_deg() < DERAILLEUR.well_deg && angles.lowest.u > 0.0);
    }

    #[test]
    fn a_gear_hub_has_one_line_if_it_says_so() {
        assert_eq!(RearPlaces::of_gear_hub(&hub("135 nutted")), None);
        let places = RearPlaces::of_gear_hub(&hub("135 nutted, chainline 54")).unwrap();
        assert_eq!((places.innermost.value, places.outermost.value), (54.0, 54.0));
    }

    #[test]
    fn rotors_lie_where_calipers_want_them() {
        // 67.5 − 15.3, and three millimetres further out on a wide hub.
        assert_eq!(RearPlaces::of(&hub("142 x 12")).rotor.value, 67.5 - 15.3);
        assert_eq!(RearPlaces::of(&hub("148 x 12")).rotor.value, 70.5 - 15.3);
        assert!(chain_width_mm(Some(8)) > chain_width_mm(Some(12)) && chain_width_mm(None) == 5.5);
    }
}
