//! The rider's posture: where the joints are, given where saddle, bar and pedals stand.
//!
//! Where the rider touches the bicycle and how far the elbows bend is trade practice, unverified.

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

/// Lengths of the body's segments, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Lengths {
    pub(super) height: f64,
    pub(super) head: f64,
    pub(super) trunk: f64,
    pub(super) upper_arm: f64,
    pub(super) forearm: f64,
    pub(super) hand: f64,
    pub(super) thigh: f64,
    pub(super) shank: f64,
    pub(super) foot: f64,
}

/// The joints of a seated rider in the bicycle's plane, m, x forward and y up from where the contacts are given from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Posture {
    /// Top of the head.
    pub vertex: [f64; 2],
    /// Where the neck begins.
    pub cervicale: [f64; 2],
    /// Middle of the shoulders.
    pub shoulder: [f64; 2],
    /// Middle of the hips.
    pub hip: [f64; 2],
    /// Elbows.
    pub elbow: [f64; 2],
    /// Wrists.
    pub wrist: [f64; 2],
    /// Ends of the hands.
    pub knuckles: [f64; 2],
    /// The leg whose pedal is in front, then the other.
    pub legs: [Leg; 2],
}

/// One leg.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Knee.
    pub knee: [f64; 2],
    /// Ankle.
    pub ankle: [f64; 2],
    /// Heel.
    pub heel: [f64; 2],
    /// Tip of the toes.
    pub toe: [f64; 2],
}

impl Posture {
    /// A body of these lengths on these contacts.
    pub(super) fn of(lengths: &Lengths, contacts: &Contacts) -> Result<Self, PostureError> {
        let hip = plus(contacts.saddle, [0.0, HIP_ABOVE_SADDLE], 1.0);
        // Trunk and bent arms span from the hip to the hands; the shoulders lie above that line.
        let lower = lengths.forearm + lengths.hand;
        let arm = ARMS_BENT * (lengths.upper_arm + lower);
        let shoulder = joint(hip, contacts.hands, lengths.trunk, arm).map_err(|by| {
            if by > 0.0 { PostureError::HandsOutOfReach(by * 1000.0) } else { PostureError::HandsTooNear(-by * 1000.0) }
        })?;
        // Elbows bend down: on the right of the way from shoulder to hand.
        let elbow = joint(contacts.hands, shoulder, lower, lengths.upper_arm).unwrap_or(shoulder);
        let (along_forearm, _) = direction(elbow, contacts.hands);
        let wrist = plus(elbow, along_forearm, lengths.forearm);
        let (up_trunk, _) = direction(hip, shoulder);
        // The head looks ahead: halfway between the trunk's direction and upright.
        let (up_head, _) = direction([0.0, 0.0], [up_trunk[0] * 0.5, f64::midpoint(up_trunk[1], 1.0)]);
        let cervicale = plus(shoulder, up_trunk, NECK * lengths.height);
        let leg = |crank: f64| {
            let pedal = plus(contacts.bottom_bracket, [crank, 0.0], 1.0);
            let ankle = plus(pedal, [-ANKLE_BEHIND_PEDAL, ANKLE_ABOVE_PEDAL], 1.0);
            // Knees bend forward: on the left of the way from the hip down to the ankle.
            let knee = joint(hip, ankle, lengths.thigh, lengths.shank);
            let knee = knee.map_err(|by| PostureError::PedalOutOfReach(by.abs() * 1000.0))?;
            let heel = plus(ankle, [-0.25 * lengths.foot, -ANKLE_ABOVE_PEDAL], 1.0);
            Ok(Leg { knee, ankle, heel, toe: plus(heel, [1.0, 0.0], lengths.foot) })
        };
        Ok(Self {
            vertex: plus(cervicale, up_head, lengths.head),
            cervicale,
            shoulder,
            hip,
            elbow,
            wrist,
            knuckles: plus(wrist, along_forearm, lengths.hand),
            legs: [leg(contacts.crank)?, leg(-contacts.crank)?],
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
}
