//! The rider as rigid segments: masses, centres and radii of gyration by body table.
//!
//! Segment data: P. de Leva, "Adjustments to Zatsiorsky-Seluyanov's segment inertia parameters", J. Biomech. 29 (1996)
//! 1223–1230, Table 4. Segment lengths as shares of the body height are those of de Leva's mean subjects (1.741 m and
//! 1.735 m), from memory.

use serde::{Deserialize, Serialize};

use super::body::Body;
use super::posture::{Contacts, Lengths, Posture, PostureError};

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

/// Hips, shoulders and hands to either side of the middle, as shares of the body height: from memory, unverified.
const HIPS_BESIDE: f64 = 0.05;
const SHOULDERS_BESIDE: f64 = 0.10;
const HANDS_BESIDE: f64 = 0.12;

impl RiderBody {
    /// Where the joints are: on the saddle, hands on the bar, feet on level cranks.
    ///
    /// # Errors
    /// A posture that arms or legs of this body height do not reach.
    pub fn posture(&self, contacts: &Contacts) -> Result<Posture, PostureError> {
        let segments = self.table.segments();
        let length = |segment: Segment| segment.length * self.height_m;
        let lengths = Lengths {
            height: self.height_m,
            head: length(segments.head),
            trunk: length(segments.trunk),
            upper_arm: length(segments.upper_arm),
            forearm: length(segments.forearm),
            hand: length(segments.hand),
            thigh: length(segments.thigh),
            shank: length(segments.shank),
            foot: length(segments.foot),
        };
        Posture::of(&lengths, contacts)
    }

    /// The rider in that posture as one rigid body.
    ///
    /// # Errors
    /// A posture that arms or legs of this body height do not reach.
    pub fn seated(&self, contacts: &Contacts) -> Result<Body, PostureError> {
        let at = self.posture(contacts)?;
        let segments = self.table.segments();
        let (kg, height) = (self.mass_kg, self.height_m);
        let mut bodies = vec![
            segments.head.between(kg, at.vertex, at.cervicale),
            segments.trunk.between(kg, at.shoulder, at.hip),
            double(segments.upper_arm.between(kg, at.shoulder, at.elbow), SHOULDERS_BESIDE * height),
            double(segments.forearm.between(kg, at.elbow, at.wrist), HANDS_BESIDE * height),
            double(segments.hand.between(kg, at.wrist, at.knuckles), HANDS_BESIDE * height),
        ];
        for leg in &at.legs {
            bodies.push(segments.thigh.between(kg, at.hip, leg.knee).beside(HIPS_BESIDE * height));
            bodies.push(segments.shank.between(kg, leg.knee, leg.ankle).beside(HIPS_BESIDE * height));
            bodies.push(segments.foot.between(kg, leg.heel, leg.toe).beside(HIPS_BESIDE * height));
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
