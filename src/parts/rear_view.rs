//! The rear of a frame seen from above: hub, sprockets, rotor, chainrings, chain and tyre, each in its place with its u, and
//! the clearances between them.
//!
//! A part of the list counts before what the frame's maker publishes. Invariant: what nobody states is not there; where the
//! stay's outside is neither published nor measured, what clears it is unknown.

use super::list::{Meaning, PartKind, PartsList};
use super::places::{RearPlaces, between, chain_angle, chain_width_mm, rings};
use super::rear_settings::RearGear;
use super::rules;
use super::standards::{CrankSpacing, Hub, StayOutside, built_width};
use super::stated::Statements;
use crate::frameset::{Figure, TyreSize};
use crate::geometry::AdjustedSize;
use crate::units::{Angle, Length, Measured};

/// Where the tyre or the hub of a rear view comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RearSource {
    /// The list of parts.
    Listed,
    /// What the frame's maker publishes.
    Published,
}

/// The tyre, in the middle of the frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RearTyre {
    /// Its designation.
    pub size: TyreSize,
    /// Width on its rim.
    pub width: Measured<Length>,
    /// Whose it is.
    pub source: RearSource,
}

/// The chainrings, to the right of the centre plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RearRings {
    /// Smallest ring, or the only one.
    pub smallest: Measured<Length>,
    /// Largest ring, or the only one.
    pub largest: Measured<Length>,
    /// How many, where stated; else drawn as one.
    pub count: Option<u8>,
    /// Radius of the largest, mm, where its teeth are stated.
    pub radius_mm: Option<f64>,
    /// Radius of the smallest of several, mm, where its teeth are stated.
    pub smallest_radius_mm: Option<f64>,
    /// Whose they are.
    pub source: RearSource,
}

/// The right crank arm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RearArm {
    /// Its length, mm.
    pub length_mm: f64,
    /// Its inner face where the pedal is.
    pub inner: Measured<Length>,
}

/// Why it is not known what clears the right chainstay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoStayGap {
    /// No crank is published or listed.
    NoCrank,
    /// The rings' teeth are not stated, so that it is not known how far back they reach.
    TeethNotStated,
    /// The crank's length or its Q factor is not stated.
    ArmNotStated,
    /// The stay's outside is neither published nor measured; it is wanted so far behind the bottom bracket, mm.
    StayUnknown(f64),
}

/// The chain in a chosen gear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GearChain {
    /// Plane of its sprocket, mm from the middle.
    pub sprocket: Measured<Length>,
    /// Plane of its chainring.
    pub ring: Measured<Length>,
    /// How far off straight it runs, positive where the ring is further out.
    pub angle: Measured<Angle>,
    /// Its gap to the tyre, negative where they touch; `None` where no tyre is known.
    pub to_tyre: Option<Measured<Length>>,
}

/// Why a chain in a chosen gear is not drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoGearChain {
    /// Hub or crank is unknown.
    NoDrive,
    /// How many sprockets there are is not stated.
    SprocketsNotStated,
    /// How many chainrings there are is not stated.
    RingsNotStated,
    /// There are only so many sprockets.
    Sprockets(u8),
    /// There are only so many chainrings.
    Rings(u8),
}

/// The rear of one frame, seen from above. Lengths in mm from the centre plane, to the right positive but for the left
/// flange and the rotor, whose distances to the left are given.
#[derive(Clone, Debug, PartialEq)]
pub struct RearView {
    /// Rear axle to bottom bracket.
    pub chainstay: Measured<Length>,
    /// The hub's planes, where a hub is known; of a gear hub its one sprocket where its chainline is.
    pub hub: Option<(RearPlaces, RearSource)>,
    /// Whether it is a hub with gears inside and one sprocket.
    pub is_gear_hub: bool,
    /// How many sprockets the hub has, where stated; one of a gear hub.
    pub sprockets: Option<u8>,
    /// The chainrings, where a crank is known.
    pub rings: Option<RearRings>,
    /// The crank's right arm, where its length and its Q factor are known.
    pub arm: Option<RearArm>,
    /// Whether the chainrings clear the chainstay by the maker's word, where it says so.
    pub rings_clear: Option<bool>,
    /// The outside of the right chainstay, where it is known.
    pub stay: Option<StayOutside>,
    /// The tyre, where one is known.
    pub tyre: Option<RearTyre>,
    /// The widest tyre that the maker allows on that wheel without a condition, mm.
    pub widest_tyre_mm: Option<f64>,
    /// Outer width of the chain.
    pub chain_width_mm: f64,
}

/// Half a link of a bicycle chain over the sine of half a tooth's angle is a ring's radius; the pitch, mm: half an inch
/// (ISO 9633; from memory).
const PITCH_MM: f64 = 12.7;
/// Thickness of an arm where the pedal is screwed in, mm: 12 to 14. Trade practice, unverified.
const ARM_MM: Measured<Length> = Measured::new(13.0, 0.6);
/// u of a Q factor that is stated, both arms together, mm. Trade practice, unverified.
const Q_U_MM: f64 = 1.0;
/// How far the teeth reach beyond the chain's middle, mm. Trade practice, unverified.
const TEETH_MM: f64 = 3.0;
/// Half a ring's thickness, mm. Trade practice, unverified.
const HALF_RING_MM: f64 = 1.0;
/// Heights of the chain, and places over the tyre's section at each, at which the gap is taken.
const STEPS: u32 = 40;
/// Highest place of the chain above the axle, mm: the radius of a sprocket of 50 teeth.
const CHAIN_HEIGHT_MM: f64 = 101.0;

impl RearView {
    /// The rear of a frame with the parts of a list; `None` where the chainstay is unknown, or nothing else is known.
    #[must_use]
    pub fn of(list: &PartsList, said: &Statements, size: Option<&AdjustedSize>, own_tyre: Option<TyreSize>) -> Option<Self> {
        let chainstay = size.map(|s| s.value(Figure::Chainstay)).filter(|v| !v.is_missing)?.measured().as_length();
        let listed = |kind| match list.first(kind).map(|p| &p.meaning) {
            Some(Meaning::Hub(ends)) => ends.first().copied(),
            _ => None,
        };
        let gear_hub = listed(PartKind::GearHub);
        let (hub, source) = match gear_hub.or_else(|| listed(PartKind::RearHub)) {
            Some(hub) => (Some(hub), RearSource::Listed),
            None => (said.rear_hub.is().copied(), RearSource::Published),
        };
        let places = |hub: &Hub| if gear_hub.is_some() { RearPlaces::of_gear_hub(hub) } else { Some(RearPlaces::of(hub)) };
        let tyre = list.tyre(super::standards::Wheel::Rear).map(|t| (t, RearSource::Listed));
        let tyre = tyre.or_else(|| own_tyre.map(|t| (t, RearSource::Published)));
        let rings = list.crank().map(|c| RearRings::of(&c, RearSource::Listed));
        let widest = said.widest_tyre.is().zip(tyre).and_then(|(rooms, (size, _))| {
            let own = rooms.0.iter().filter(|r| r.bead_seat_mm == size.bead_seat_mm());
            let plain = own.filter(|r| !r.with_mudguards && r.with_spacing_mm.is_none() && r.with_rings.is_none());
            plain.filter_map(|r| r.widest_mm).reduce(f64::max)
        });
        let view = Self {
            chainstay,
            hub: hub.as_ref().and_then(places).map(|places| (places, source)),
            is_gear_hub: gear_hub.is_some(),
            sprockets: if gear_hub.is_some() { Some(1) } else { hub.and_then(|h| h.sprockets) },
            arm: list.crank().and_then(|c| RearArm::of(&c)),
            rings_clear: list.crank().zip(said.crank_spacing.is()).and_then(|(own, frame)| rules::rings_clear(&own, frame)),
            stay: said.chainstay_outside.is().cloned(),
            rings: rings.or_else(|| said.crank_spacing.is().map(|c| RearRings::of(c, RearSource::Published))),
            tyre: tyre.map(|(size, source)| RearTyre { size, width: built_width(size, list.rim_inner_mm()), source }),
            widest_tyre_mm: widest,
            chain_width_mm: chain_width_mm(hub.and_then(|h| h.sprockets)),
        };
        (view.hub.is_some() || view.rings.is_some() || view.tyre.is_some()).then_some(view)
    }

    /// The gap between tyre and chain in the lowest gear, which runs from the largest sprocket to the smallest ring;
    /// negative where they touch. `None` where tyre, hub or crank is unknown.
    #[must_use]
    pub fn chain_to_tyre(&self) -> Option<Measured<Length>> {
        self.gap(self.hub?.0.innermost, self.rings?.smallest)
    }

    /// The gap between tyre and a chain from a sprocket's plane to a ring's. Between the axle's height and the top of the
    /// largest sprocket, the chain is taken where the gap is least.
    fn gap(&self, sprocket: Measured<Length>, ring: Measured<Length>) -> Option<Measured<Length>> {
        let tyre = self.tyre?;
        let half = tyre.width.value / 2.0;
        let middle = tyre.size.radius_mm() - half;
        let part = |i: u32| f64::from(i) / f64::from(STEPS);
        let heights = (0..=STEPS).map(|i| CHAIN_HEIGHT_MM * part(i));
        let places = heights.flat_map(|height| {
            (0..=STEPS).filter_map(move |i| {
                let from_axle = middle - half + 2.0 * half * part(i);
                let beside = (half * half - (from_axle - middle) * (from_axle - middle)).max(0.0).sqrt();
                let forward = (from_axle * from_axle - height * height).sqrt();
                (forward <= self.chainstay.value).then_some((forward, beside))
            })
        });
        let least = places
            .map(|(forward, beside)| {
                let share = forward / self.chainstay.value;
                let chain = sprocket.value + share * (ring.value - sprocket.value);
                (chain - self.chain_width_mm / 2.0 - beside, share)
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))?;
        let (gap, share) = least;
        let u = ((1.0 - share) * sprocket.u).hypot(share * ring.u).hypot(tyre.width.u / 2.0);
        Some(Measured::new(gap, u))
    }

    /// The gap between the chainrings and the outside of the right chainstay, the least of the largest and the smallest ring;
    /// negative where they touch.
    ///
    /// # Errors
    /// Why it is not known.
    pub fn rings_to_stay(&self) -> Result<Measured<Length>, NoStayGap> {
        let rings = self.rings.ok_or(NoStayGap::NoCrank)?;
        let largest = (rings.radius_mm.ok_or(NoStayGap::TeethNotStated)?, rings.largest);
        let is_several = rings.count.is_some_and(|n| n > 1);
        let smallest = match (is_several, rings.smallest_radius_mm) {
            (true, None) => return Err(NoStayGap::TeethNotStated),
            (true, Some(radius)) => Some((radius, rings.smallest)),
            (false, _) => None,
        };
        let mut least: Option<Measured<Length>> = None;
        for (radius_mm, plane) in std::iter::once(largest).chain(smallest) {
            let gap = self.to_stay(radius_mm + TEETH_MM, plane.moved(-HALF_RING_MM))?;
            least = Some(least.filter(|known| known.value <= gap.value).unwrap_or(gap));
        }
        least.ok_or(NoStayGap::NoCrank)
    }

    /// The gap between the right crank arm, where the pedal is, and the outside of the right chainstay; negative where they
    /// touch.
    ///
    /// # Errors
    /// Why it is not known.
    pub fn arm_to_stay(&self) -> Result<Measured<Length>, NoStayGap> {
        let arm = self.arm.ok_or(if self.rings.is_some() { NoStayGap::ArmNotStated } else { NoStayGap::NoCrank })?;
        self.to_stay(arm.length_mm, arm.inner)
    }

    fn to_stay(&self, behind_mm: f64, face: Measured<Length>) -> Result<Measured<Length>, NoStayGap> {
        let stay = self.stay.as_ref().and_then(|stay| stay.at(behind_mm)).ok_or(NoStayGap::StayUnknown(behind_mm))?;
        Ok(face.minus(stay))
    }

    /// The chain in a gear.
    ///
    /// # Errors
    /// Why it is not known where the chain runs.
    pub fn chain_in(&self, gear: RearGear) -> Result<GearChain, NoGearChain> {
        let ((hub, _), rings) = self.hub.zip(self.rings).ok_or(NoGearChain::NoDrive)?;
        let sprockets = self.sprockets.ok_or(NoGearChain::SprocketsNotStated)?;
        let count = rings.count.ok_or(NoGearChain::RingsNotStated)?;
        if gear.sprocket > sprockets {
            return Err(NoGearChain::Sprockets(sprockets));
        }
        if gear.ring > count {
            return Err(NoGearChain::Rings(count));
        }
        let sprocket = between(hub.innermost, hub.outermost, gear.sprocket, sprockets);
        let ring = between(rings.smallest, rings.largest, gear.ring, count);
        let angle = chain_angle(ring, sprocket, self.chainstay);
        Ok(GearChain { sprocket, ring, angle, to_tyre: self.gap(sprocket, ring) })
    }
}

impl RearRings {
    fn of(crank: &CrankSpacing, source: RearSource) -> Self {
        let (smallest, largest) = rings(crank, crank.rings.unwrap_or(1));
        let radius = |teeth: u8| PITCH_MM / (2.0 * (std::f64::consts::PI / f64::from(teeth.max(3))).sin());
        // A frame's teeth are the most that it allows, not those of a ring.
        let teeth = crank.largest_teeth.filter(|_| source == RearSource::Listed);
        let small_teeth = crank.smallest_teeth.filter(|_| source == RearSource::Listed);
        let smallest_radius_mm = small_teeth.map(radius);
        Self { smallest, largest, count: crank.rings, radius_mm: teeth.map(radius), smallest_radius_mm, source }
    }
}

impl RearArm {
    /// The right arm of a crank that states its length and its Q factor.
    fn of(crank: &CrankSpacing) -> Option<Self> {
        let outer = Measured::new(crank.q_mm? / 2.0, Q_U_MM / 2.0);
        Some(Self { length_mm: crank.arm_mm?, inner: outer.minus(ARM_MM) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::{SizeIndex, Standard, read_frameset};
    use crate::geometry::adjust;
    use crate::parts::Part;

    fn view(parts: &[(PartKind, &str)]) -> RearView {
        let frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let adjusted = adjust(&frameset);
        let parts = parts.iter().map(|(kind, text)| Part::new(*kind, text, "").unwrap()).collect();
        let list = PartsList { parts, fork: None, ..PartsList::default() };
        RearView::of(&list, &Statements::of(&frameset), SizeIndex(0).of(&adjusted.sizes), frameset.tyre).unwrap()
    }

    const HUB: (PartKind, &str) = (PartKind::RearHub, "142 x 12, 11-speed");
    const CRANK: (PartKind, &str) = (PartKind::Crank, "1x, chainline 45");
    const TYRE: (PartKind, &str) = (PartKind::RearTyre, "50-622");

    #[test]
    fn the_gap_is_that_of_the_triangle() {
        // Largest sprocket at 67.5 − 4.6 − 38 = 24.9; on the way to 45 the chain passes the widest places of the tyre.
        let view = view(&[HUB, CRANK, TYRE]);
        let (stay, radius) = (view.chainstay.value, view.tyre.unwrap().size.radius_mm());
        let half = view.tyre.unwrap().width.value / 2.0;
        let at_widest = |height: f64| {
            let forward = ((radius - half).powi(2) - height * height).sqrt();
            24.9 + forward / stay * (45.0 - 24.9) - 2.75 - half
        };
        // It runs outward, so that it is nearest where it stands highest and the tyre lies furthest back.
        let gap = view.chain_to_tyre().unwrap();
        let least = at_widest(CHAIN_HEIGHT_MM);
        assert!(gap.value <= least && gap.value > least - 0.2 && least < at_widest(0.0), "{gap:?} {least}");
        assert!(gap.u > 0.3 && gap.u < 2.0, "{gap:?}");
    }

    #[test]
    fn wider_tyres_and_narrower_chainlines_leave_less() {
        let gap = |crank: &str, tyre: &str| {
            view(&[HUB, (PartKind::Crank, crank), (PartKind::RearTyre, tyre)]).chain_to_tyre().unwrap().value
        };
        let usual = gap("1x, chainline 45", "50-622");
        assert!(gap("1x, chainline 45", "57-622") < usual - 3.0);
        assert!(gap("1x, chainline 48", "50-622") > usual + 1.5);
        assert!(gap("2x, chainline 45", "50-622") < usual - 2.0, "the smallest ring lies further in");
        assert!(gap("1x, chainline 45", "90-622") < 0.0, "it touches");
    }

    #[test]
    fn the_chain_of_a_chosen_gear_lies_between_those_that_are_judged() {
        let view = view(&[HUB, (PartKind::Crank, "2x, chainline 45"), TYRE]);
        let chain = |ring, sprocket| view.chain_in(RearGear { ring, sprocket });
        let lowest = chain(1, 1).unwrap();
        assert_eq!(lowest.to_tyre, view.chain_to_tyre());
        let (hub, rings) = (view.hub.unwrap().0, view.rings.unwrap());
        let highest = chain(2, 11).unwrap();
        assert_eq!((highest.sprocket, highest.ring), (hub.outermost, rings.largest));
        // Eleven sprockets 3.8 mm apart from 24.9: the sixth lies at 43.9; the large ring at 45 + 3.875.
        let middle = chain(2, 6).unwrap();
        assert!((middle.sprocket.value - 43.9).abs() < 1e-9, "{middle:?}");
        let degrees = ((48.875f64 - 43.9) / view.chainstay.value).atan().to_degrees();
        assert!((middle.angle.value - degrees).abs() < 1e-9 && middle.angle.u > 0.0, "{middle:?}");
        assert!(middle.to_tyre.unwrap().value > lowest.to_tyre.unwrap().value);
        assert_eq!((chain(3, 1), chain(1, 12)), (Err(NoGearChain::Rings(2)), Err(NoGearChain::Sprockets(11))));
    }

    #[test]
    fn a_gear_among_an_unknown_number_is_not_drawn() {
        let gear = RearGear { ring: 1, sprocket: 1 };
        let why = |parts: &[(PartKind, &str)]| view(parts).chain_in(gear).unwrap_err();
        assert_eq!(why(&[(PartKind::RearHub, "142 x 12"), CRANK, TYRE]), NoGearChain::SprocketsNotStated);
        assert_eq!(why(&[HUB, (PartKind::Crank, "chainline 45"), TYRE]), NoGearChain::RingsNotStated);
        assert_eq!(why(&[(PartKind::GearHub, "135 nutted"), CRANK, TYRE]), NoGearChain::NoDrive);
        let hub = (PartKind::GearHub, "135 nutted, chainline 54");
        assert!(view(&[hub, CRANK, TYRE]).chain_in(gear).unwrap().angle.value < 0.0);
    }

    #[test]
    fn what_is_not_known_is_not_drawn() {
        let nothing_listed = view(&[]);
        assert!(nothing_listed.hub.is_none_or(|(_, source)| source == RearSource::Published));
        assert!(nothing_listed.rings.is_none_or(|r| r.radius_mm.is_none()));
        let gear = view(&[(PartKind::GearHub, "135 nutted"), CRANK, TYRE]);
        assert!(gear.hub.is_none() && gear.chain_to_tyre().is_none(), "its chainline is not stated");
        assert!(view(&[(PartKind::GearHub, "135 nutted, chainline 54"), CRANK, TYRE]).chain_to_tyre().is_some());
    }

    const STAY: &str = "40 at 60, 45 at 90, 50 at 120, 60 at 170";

    fn with_stay(stay: &str, crank_spacing: &str, crank: &str) -> RearView {
        let mut frameset = read_frameset(include_bytes!("../../sample-frames/quern-halter.frame.ron")).unwrap();
        let published = [(Standard::ChainstayOutside, stay), (Standard::CrankSpacing, crank_spacing)];
        for (standard, text) in published.into_iter().filter(|(_, text)| !text.is_empty()) {
            frameset.standards.insert(standard, text.to_owned());
        }
        let adjusted = adjust(&frameset);
        let list = PartsList { parts: vec![Part::new(PartKind::Crank, crank, "").unwrap()], ..PartsList::default() };
        RearView::of(&list, &Statements::of(&frameset), SizeIndex(0).of(&adjusted.sizes), frameset.tyre).unwrap()
    }

    #[test]
    fn rings_and_arm_are_held_against_the_measured_stay() {
        // Forty teeth reach 80.93 + 3 behind; there the stay lies at 43.99. 50 − 1 − 43.99 = 5.01.
        let view = with_stay(STAY, "", "142, 1x 40T, chainline 50, 170 mm long, Q 160");
        let rings = view.rings_to_stay().unwrap();
        assert!((rings.value - 5.011).abs() < 0.005 && rings.u > 0.5 && rings.u < 1.0, "{rings:?}");
        // Half of 160 less 13 is 67: 7 mm.
        let arm = view.arm_to_stay().unwrap();
        assert!((arm.value - 7.0).abs() < 1e-9 && arm.u > 0.5 && arm.u < 1.5, "{arm:?}");
        // Of two rings the one that lies nearer: the small one of 30 teeth reaches 63.75, to 40.62; 46 − 3.875 − 1 − 40.62.
        let two = with_stay(STAY, "", "142, 46/30T, chainline 46").rings_to_stay().unwrap();
        assert!((two.value - 0.50).abs() < 0.01, "{two:?}");
        assert!(with_stay(STAY, "", "142, 1x 40T, chainline 44").rings_to_stay().unwrap().value < 0.0, "it touches");
    }

    #[test]
    fn what_is_missing_for_the_stay_is_told() {
        let of = |stay, crank| {
            let view = with_stay(stay, "", crank);
            (view.rings_to_stay().unwrap_err(), view.arm_to_stay().unwrap_err())
        };
        assert_eq!(of(STAY, "142, 2x"), (NoStayGap::TeethNotStated, NoStayGap::ArmNotStated));
        assert_eq!(of(STAY, "142, 2x 46T").0, NoStayGap::TeethNotStated, "the small ring may be the nearer one");
        let (rings, arm) = of("", "142, 1x 40T, 170 mm long, Q 160");
        assert!(matches!(rings, NoStayGap::StayUnknown(mm) if (mm - 83.93).abs() < 0.01), "{rings:?}");
        assert_eq!(arm, NoStayGap::StayUnknown(170.0));
        assert_eq!(of("45 at 30", "142, 1x 40T, 170 mm long, Q 160").1, NoStayGap::StayUnknown(170.0));
    }

    #[test]
    fn the_makers_word_on_rings_is_told() {
        let clear = |spacing, crank| with_stay("", spacing, crank).rings_clear;
        assert_eq!(clear("142, 1x 42T", "142, 1x 40T"), Some(true));
        assert_eq!(clear("142, 1x 42T", "142, 1x 44T"), Some(false));
        assert_eq!(clear("142, 1x 42T", "142, 1x 40T, chainline 45"), None, "further in than the maker speaks of");
        assert_eq!((clear("142", "142, 1x 40T"), clear("142, 1x 42T", "142, 1x")), (None, None));
    }

    #[test]
    fn rings_are_as_large_as_their_teeth() {
        // Forty teeth of half an inch: 12.7 / (2 sin 4.5°) = 80.93.
        let radius = view(&[HUB, (PartKind::Crank, "142, 1x 40T"), TYRE]).rings.unwrap().radius_mm.unwrap();
        assert!((radius - 80.93).abs() < 0.01, "{radius}");
    }
}
