//! Thickness of tubes: as the file gives it, or typical for the material and marked as assumed.

use super::formulas::TopTubeShape;
use crate::frameset::{Frameset, Material, Size, Tube};

/// Outside diameter of a tube in the side view, mm, and whether it is assumed. Typical sizes by material are trade
/// practice, unverified; carbon and aluminium tubes are rarely round, so theirs are the height in the side view.
#[must_use]
pub fn diameter_mm(frameset: &Frameset, tube: Tube) -> (f64, bool) {
    if let Some(given) = frameset.tube_diameters.get(&tube) {
        return (*given, false);
    }
    let material = match tube {
        Tube::ForkBlade => frameset.fork.as_ref().and_then(|f| f.material),
        _ => None,
    }
    .or(frameset.tubing.as_ref().map(|t| t.material))
    .unwrap_or(Material::Steel);
    let typical = match (tube, material) {
        (Tube::TopTube, Material::Steel) => 28.6,
        (Tube::TopTube, Material::Aluminium) => 36.0,
        (Tube::TopTube, Material::Titanium) => 34.9,
        (Tube::TopTube, Material::Carbon) => 40.0,
        (Tube::DownTube, Material::Steel | Material::Titanium) => 34.9,
        (Tube::DownTube, Material::Aluminium) => 44.0,
        (Tube::DownTube, Material::Carbon) => 52.0,
        (Tube::SeatTube, Material::Steel) => 28.6,
        (Tube::SeatTube, _) => 34.9,
        (Tube::HeadTube, Material::Steel) => 36.0,
        (Tube::HeadTube, Material::Titanium) => 44.0,
        (Tube::HeadTube, Material::Aluminium | Material::Carbon) => 50.0,
        (Tube::ChainStay, Material::Steel) => 22.2,
        (Tube::ChainStay, _) => 24.0,
        (Tube::SeatStay, Material::Steel) => 16.0,
        (Tube::SeatStay, _) => 18.0,
        (Tube::ForkBlade, Material::Steel | Material::Titanium) => 28.6,
        (Tube::ForkBlade, Material::Aluminium | Material::Carbon) => 34.0,
        (Tube::SeatPost, _) => 27.2,
    };
    (typical, true)
}

/// The top tube's half thickness and its rise midway, which the standover needs.
pub(super) fn top_tube_shape(frameset: &Frameset, size: &Size) -> TopTubeShape {
    let radius_mm = diameter_mm(frameset, Tube::TopTube).0 / 2.0;
    let mut before = (0.0, 0.0);
    let mut rise_midway_mm = 0.0;
    for (along, off) in size.top_tube_bends.iter().map(|b| (b.along, b.off)).chain([(1.0, 0.0)]) {
        if before.0 <= 0.5 && along >= 0.5 && along > before.0 {
            rise_midway_mm = before.1 + (off - before.1) * (0.5 - before.0) / (along - before.0);
        }
        before = (along, off);
    }
    TopTubeShape { radius_mm, rise_midway_mm }
}
