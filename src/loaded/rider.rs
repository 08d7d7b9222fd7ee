//! The rider as rigid segments: masses, centres and radii of gyration by body table, posture by saddle, bar and pedals.
//!
//! Segment data: P. de Leva, "Adjustments to Zatsiorsky-Seluyanov's segment inertia parameters", J. Biomech. 29 (1996)
//! 1223–1230, Table 4. Segment lengths as shares of the body height are those of de Leva's mean subjects (1.741 m and
//! 1.735 m), from memory. Where the rider touches the bicycle and how far the elbows bend is trade practice, unverified.

use serde::{Deserialize, Serialize};

use super::body::Body;

/// Which body table counts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum BodyTable {
    /// Mean of both tables.
    #[default]
    Mean,
    /// Table of men.
    Male,
    /// Table of women.
    Female,
}

/// A segment of the body. Limbs are one side.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Segment {
    /// Share of the body's mass.
    mass: f64,
    /// Centre of mass from the first end, as a share of the length.
    centre: f64,
    /// Radii of gyration as shares of the length: about the forward (sagittal), sideways (transverse) and own axis.
    radii: [f64; 3],
    /// Length as a share of the body height.
    length: f64,
}

/// Segments of one body table, in de Leva's order of end points.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Segments {
    /// Vertex to cervicale.
    head: Segment,
    /// Mid-shoulder to mid-hip.
    trunk: Segment,
    /// Shoulder to elbow.
    upper_arm: Segment,
    /// Elbow to wrist.
    forearm: Segment,
    /// Wrist to third metacarpal.
    hand: Segment,
    /// Hip to knee.
    thigh: Segment,
    /// Knee to ankle.
    shank: Segment,
    /// Heel to toe tip.
    foot: Segment,
}

const fn segment(mass: f64, centre: f64, radii: [f64; 3], length: f64) -> Segment {
    Segment { mass, centre, radii, length }
}

const MALE: Segments = Segments {
    head: segment(0.0694, 0.5002, [0.303, 0.315, 0.261], 0.1395),
    trunk: segment(0.4346, 0.4310, [0.384, 0.358, 0.197], 0.296),
    upper_arm: segment(0.0271, 0.5772, [0.285, 0.269, 0.158], 0.162),
    forearm: segment(0.0162, 0.4574, [0.276, 0.265, 0.121], 0.154),
    hand: segment(0.0061, 0.7900, [0.628, 0.513, 0.401], 0.0495),
    thigh: segment(0.1416, 0.4095, [0.329, 0.329, 0.149], 0.243),
    shank: segment(0.0433, 0.4395, [0.251, 0.246, 0.102], 0.249),
    foot: segment(0.0137, 0.4415, [0.257, 0.245, 0.124], 0.148),
};

const FEMALE: Segments = Segments {
    head: segment(0.0668, 0.4841, [0.271, 0.295, 0.261], 0.1405),
    trunk: segment(0.4257, 0.3782, [0.379, 0.361, 0.182], 0.286),
    upper_arm: segment(0.0255, 0.5754, [0.278, 0.260, 0.148], 0.159),
    forearm: segment(0.0138, 0.4559, [0.261, 0.257, 0.094], 0.152),
    hand: segment(0.0056, 0.7474, [0.531, 0.454, 0.335], 0.0450),
    thigh: segment(0.1478, 0.3612, [0.369, 0.364, 0.162], 0.213),
    shank: segment(0.0481, 0.4352, [0.267, 0.263, 0.092], 0.249),
    foot: segment(0.0129, 0.4014, [0.299, 0.279, 0.139], 0.1316),
};

impl Segment {
    fn mean(self, other: Self) -> Self {
        Self {
            mass: f64::midpoint(self.mass, other.mass),
            centre: f64::midpoint(self.centre, other.centre),
            radii: std::array::from_fn(|i| f64::midpoint(self.radii[i], other.radii[i])),
            length: f64::midpoint(self.length, other.length),
        }
    }

    /// One side of the body from `from` to `to`, whose distance need not be the segment's length.
    fn between(&self, body_kg: f64, from: [f64; 2], to: [f64; 2]) -> Body {
        Body::long(self.mass * body_kg, from, to, self.centre, self.radii)
    }

    /// The segment that begins at `from` in the direction `unit`, of a body `height` m tall.
    fn towards(&self, body_kg: f64, height: f64, from: [f64; 2], unit: [f64; 2]) -> Body {
        let length = self.length * height;
        self.between(body_kg, from, [from[0] + unit[0] * length, from[1] + unit[1] * length])
    }
}

impl BodyTable {
    /// All, in the order of menus.
    pub const ALL: [Self; 3] = [Self::Mean, Self::Male, Self::Female];

    fn segments(self) -> Segments {
        match self {
            Self::Male => MALE,
            Self::Female => FEMALE,
            Self::Mean => Segments {
                head: MALE.head.mean(FEMALE.head),
                trunk: MALE.trunk.mean(FEMALE.trunk),
                upper_arm: MALE.upper_arm.mean(FEMALE.upper_arm),
                forearm: MALE.forearm.mean(FEMALE.forearm),
                hand: MALE.hand.mean(FEMALE.hand),
                thigh: MALE.thigh.mean(FEMALE.thigh),
                shank: MALE.shank.mean(FEMALE.shank),
                foot: MALE.foot.mean(FEMALE.foot),
            },
        }
    }
}

/// A rider's body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RiderBody {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Body height, m.
    pub height_m: f64,
    /// Body table.
    pub table: BodyTable,
}

/// Where the rider touches the bicycle, m, x forward and y up from any origin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contacts {
    /// Top of the saddle.
    pub saddle: [f64; 2],
    /// Where the hands hold the bar.
    pub hands: [f64; 2],
    /// Bottom bracket.
    pub bottom_bracket: [f64; 2],
    /// Crank length.
    pub crank: f64,
}

/// Why no body takes a posture.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum PostureError {
    /// The bar lies further from the saddle than trunk and arms are long; by how much, mm.
    HandsOutOfReach(f64),
    /// The bar lies too near the saddle for trunk and arms; by how much, mm.
    HandsTooNear(f64),
    /// A pedal lies further from the saddle than the leg is long; by how much, mm.
    PedalOutOfReach(f64),
}

impl PostureError {
    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::HandsOutOfReach(_) => "hands_out_of_reach",
            Self::HandsTooNear(_) => "hands_too_near",
            Self::PedalOutOfReach(_) => "pedal_out_of_reach",
        }
    }
}

/// Hip joints above the top of the saddle, m: trade practice, unverified.
const HIP_ABOVE_SADDLE: f64 = 0.08;
/// Ankle behind and above the pedal's axle, m: trade practice, unverified.
const ANKLE_BEHIND_PEDAL: f64 = 0.10;
/// Height of the ankle above the pedal's axle, m: trade practice, unverified.
const ANKLE_ABOVE_PEDAL: f64 = 0.09;
/// Shoulder to hand of bent arms, as a share of straight ones: trade practice, unverified.
const ARMS_BENT: f64 = 0.96;
/// Cervicale above the middle of the shoulders, as a share of the body height: from memory, unverified.
const NECK: f64 = 0.045;
/// Hips, shoulders and hands to either side of the middle, as shares of the body height: from memory, unverified.
const HIPS_BESIDE: f64 = 0.05;
const SHOULDERS_BESIDE: f64 = 0.10;
const HANDS_BESIDE: f64 = 0.12;

fn plus(a: [f64; 2], b: [f64; 2], share: f64) -> [f64; 2] {
    [a[0] + share * b[0], a[1] + share * b[1]]
}

fn direction(from: [f64; 2], to: [f64; 2]) -> ([f64; 2], f64) {
    let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
    let length = dx.hypot(dy);
    if length > 0.0 { ([dx / length, dy / length], length) } else { ([1.0, 0.0], 0.0) }
}

/// The joint between two links of lengths `first` and `second` from `from` to `to`, on the left of that direction. `Err`
/// with how far the ends are too far apart (+) or too near (−).
fn joint(from: [f64; 2], to: [f64; 2], first: f64, second: f64) -> Result<[f64; 2], f64> {
    let (unit, apart) = direction(from, to);
    if apart > first + second {
        return Err(apart - first - second);
    }
    let least = (first - second).abs();
    if apart < least || apart == 0.0 {
        return Err(apart - least.max(f64::MIN_POSITIVE));
    }
    let along = (apart * apart + first * first - second * second) / (2.0 * apart);
    let aside = (first * first - along * along).max(0.0).sqrt();
    Ok([from[0] + unit[0] * along - unit[1] * aside, from[1] + unit[1] * along + unit[0] * aside])
}

impl RiderBody {
    /// The rider on the saddle, hands on the bar, feet on level cranks, as one rigid body.
    ///
    /// # Errors
    /// A posture that arms or legs of this body height do not reach.
    pub fn seated(&self, contacts: &Contacts) -> Result<Body, PostureError> {
        let segments = self.table.segments();
        let (kg, height) = (self.mass_kg, self.height_m);
        let length = |segment: &Segment| segment.length * height;
        let hip = plus(contacts.saddle, [0.0, HIP_ABOVE_SADDLE], 1.0);

        // Trunk and bent arms span from the hip to the hands; the shoulders lie above that line.
        let arm = ARMS_BENT * (length(&segments.upper_arm) + length(&segments.forearm) + length(&segments.hand));
        let shoulder = joint(hip, contacts.hands, length(&segments.trunk), arm).map_err(|by| {
            if by > 0.0 { PostureError::HandsOutOfReach(by * 1000.0) } else { PostureError::HandsTooNear(-by * 1000.0) }
        })?;
        let lower = length(&segments.forearm) + length(&segments.hand);
        // Elbows bend down: on the right of the way from shoulder to hand.
        let elbow = joint(contacts.hands, shoulder, lower, length(&segments.upper_arm)).unwrap_or(shoulder);
        let (along_forearm, _) = direction(elbow, contacts.hands);
        let wrist = plus(elbow, along_forearm, length(&segments.forearm));
        let (up_trunk, _) = direction(hip, shoulder);
        // The head looks ahead: halfway between the trunk's direction and upright.
        let (up_head, _) = direction([0.0, 0.0], [up_trunk[0] * 0.5, f64::midpoint(up_trunk[1], 1.0)]);
        let cervicale = plus(shoulder, up_trunk, NECK * height);
        let vertex = plus(cervicale, up_head, length(&segments.head));

        let mut bodies = vec![
            segments.head.between(kg, vertex, cervicale),
            segments.trunk.between(kg, shoulder, hip),
            double(segments.upper_arm.between(kg, shoulder, elbow), SHOULDERS_BESIDE * height),
            double(segments.forearm.between(kg, elbow, wrist), HANDS_BESIDE * height),
            double(segments.hand.towards(kg, height, wrist, along_forearm), HANDS_BESIDE * height),
        ];
        for crank in [contacts.crank, -contacts.crank] {
            let pedal = plus(contacts.bottom_bracket, [crank, 0.0], 1.0);
            let ankle = plus(pedal, [-ANKLE_BEHIND_PEDAL, ANKLE_ABOVE_PEDAL], 1.0);
            let (thigh, shank) = (length(&segments.thigh), length(&segments.shank));
            // Knees bend forward: on the left of the way from the hip down to the ankle.
            let knee = joint(hip, ankle, thigh, shank).map_err(|by| PostureError::PedalOutOfReach(by.abs() * 1000.0))?;
            let heel = plus(ankle, [-0.25 * length(&segments.foot), -ANKLE_ABOVE_PEDAL], 1.0);
            bodies.push(segments.thigh.between(kg, hip, knee).beside(HIPS_BESIDE * height));
            bodies.push(segments.shank.between(kg, knee, ankle).beside(HIPS_BESIDE * height));
            bodies.push(segments.foot.towards(kg, height, heel, [1.0, 0.0]).beside(HIPS_BESIDE * height));
        }
        let mut whole = Body::together(&bodies);
        // The table's shares sum to 1 but for rounding.
        let share = kg / whole.mass;
        whole.mass = kg;
        whole.about_forward *= share;
        whole.about_sideways *= share;
        whole.about_vertical *= share;
        whole.forward_and_up *= share;
        Ok(whole)
    }
}

/// Both sides of a limb.
fn double(one: Body, beside: f64) -> Body {
    Body {
        mass: 2.0 * one.mass,
        about_forward: 2.0 * one.about_forward,
        about_sideways: 2.0 * one.about_sideways,
        about_vertical: 2.0 * one.about_vertical,
        forward_and_up: 2.0 * one.forward_and_up,
        ..one
    }
    .beside(beside)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn contacts() -> Contacts {
        Contacts { saddle: [-0.2, 0.70], hands: [0.5, 0.72], bottom_bracket: [0.0, 0.0], crank: 0.17 }
    }

    fn body(height_m: f64, table: BodyTable) -> RiderBody {
        RiderBody { mass_kg: 70.0, height_m, table }
    }

    /// de Leva 1996, Table 4: the shares of each table sum to 1 but for rounding.
    #[test]
    fn shares_of_the_body_sum_to_one() {
        for table in BodyTable::ALL {
            let s = table.segments();
            let limbs = [s.upper_arm, s.forearm, s.hand, s.thigh, s.shank, s.foot].map(|l| 2.0 * l.mass).iter().sum::<f64>();
            assert!((s.head.mass + s.trunk.mass + limbs - 1.0).abs() < 2e-4, "{table:?}");
        }
    }

    /// Bends of a joint lie on the left of the way and keep both lengths.
    #[test]
    fn joints_keep_their_lengths() {
        let knee = joint([0.0, 1.0], [0.1, 0.2], 0.42, 0.43).unwrap();
        assert!((knee[0].hypot(knee[1] - 1.0) - 0.42).abs() < 1e-12);
        assert!(((knee[0] - 0.1).hypot(knee[1] - 0.2) - 0.43).abs() < 1e-12);
        assert!(knee[0] > 0.1, "knees bend forward");
        assert!((joint([0.0, 0.0], [1.0, 0.0], 0.4, 0.5).unwrap_err() - 0.1).abs() < 1e-12);
        assert!(joint([0.0, 0.0], [0.1, 0.0], 0.2, 0.5).unwrap_err() < 0.0);
    }

    /// Measured by this project with numpy 2.4.6: tensors of all segments in space, turned by rotation matrices and moved by
    /// the parallel axes, joints by the law of cosines, for the table of men, 70 kg and 1.75 m on these contacts.
    #[test]
    fn a_seated_body_agrees_with_tensors_in_space() {
        let found = body(1.75, BodyTable::Male).seated(&contacts()).unwrap();
        for (found, expected) in [
            (found.x, 2.906_848_19e-3),
            (found.y, 8.408_982_02e-1),
            (found.about_forward, 8.029_227_12),
            (found.about_sideways, 8.909_181_97),
            (found.about_vertical, 2.418_054_29),
            (found.forward_and_up, 1.204_565_16),
        ] {
            assert!((found - expected).abs() < 1e-8, "{found} is not {expected}");
        }
    }

    #[test]
    fn a_body_that_does_not_reach_is_told() {
        let far = Contacts { hands: [1.4, 0.7], ..contacts() };
        assert!(matches!(body(1.75, BodyTable::Mean).seated(&far), Err(PostureError::HandsOutOfReach(by)) if by > 100.0));
        let high = Contacts { saddle: [-0.2, 1.2], hands: [0.4, 1.2], ..contacts() };
        assert!(matches!(body(1.6, BodyTable::Mean).seated(&high), Err(PostureError::PedalOutOfReach(_))));
    }

    #[test]
    fn a_taller_rider_sits_higher_and_further_back_is_further_back() {
        let low = body(1.65, BodyTable::Male).seated(&contacts()).unwrap();
        let tall = body(1.9, BodyTable::Male).seated(&contacts()).unwrap();
        assert!(tall.y > low.y && (low.mass - 70.0).abs() < 1e-9);
        let back = Contacts { saddle: [-0.25, 0.70], ..contacts() };
        assert!(
            body(1.75, BodyTable::Mean).seated(&back).unwrap().x < body(1.75, BodyTable::Mean).seated(&contacts()).unwrap().x
        );
        // Leaning forward: what is higher is further forward.
        assert!(tall.forward_and_up > 0.0);
    }
}
