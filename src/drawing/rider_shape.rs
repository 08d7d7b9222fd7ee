//! The rider of a loaded bicycle as one pale shape. Only the joints are computed; how thick a limb is, is a sketch.

use crate::geometry::{Point, SilhouettePart, joined, limb};
use crate::loaded::Posture;

/// Half the thickness of a limb at either end, mm.
const HEAD: [f64; 2] = [62.0, 88.0];
const TRUNK: [f64; 2] = [118.0, 96.0];
const UPPER_ARM: [f64; 2] = [52.0, 40.0];
const FOREARM: [f64; 2] = [40.0, 28.0];
const HAND: [f64; 2] = [30.0, 34.0];
const THIGH: [f64; 2] = [92.0, 60.0];
const SHANK: [f64; 2] = [60.0, 38.0];
const FOOT: [f64; 2] = [40.0, 26.0];
/// Share of the head's length at which its round middle lies.
const MIDDLE_OF_HEAD: f64 = 0.62;
/// How far the foot's axis lies above the sole, mm.
const ABOVE_SOLE: f64 = 26.0;

/// A point given in metres, mm.
pub(super) fn millimetres([x, y]: [f64; 2]) -> Point<f64> {
    Point { x: x * 1000.0, y: y * 1000.0 }
}

/// The rider from the side, mm from where the posture is counted from.
pub(super) fn rider_shape(posture: &Posture) -> Vec<SilhouettePart> {
    let of = |from: [f64; 2], to: [f64; 2], radii| limb(millimetres(from), millimetres(to), radii);
    let ([cx, cy], [vx, vy]) = (posture.cervicale, posture.vertex);
    let head = [cx + MIDDLE_OF_HEAD * (vx - cx), cy + MIDDLE_OF_HEAD * (vy - cy)];
    let mut limbs = vec![
        of(posture.cervicale, head, HEAD),
        of(posture.hip, posture.shoulder, TRUNK),
        of(posture.shoulder, posture.elbow, UPPER_ARM),
        of(posture.elbow, posture.wrist, FOREARM),
        of(posture.wrist, posture.knuckles, HAND),
    ];
    for leg in &posture.legs {
        let on_sole = |p: [f64; 2]| [p[0], p[1] + ABOVE_SOLE / 1000.0];
        limbs.push(of(posture.hip, leg.knee, THIGH));
        limbs.push(of(leg.knee, leg.ankle, SHANK));
        limbs.push(of(on_sole(leg.heel), on_sole(leg.toe), FOOT));
    }
    joined(&limbs)
}
