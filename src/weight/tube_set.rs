//! A frame's tubes: diameters and walls as the file gives them, else typical for the material and marked as assumed.

use super::density::density_kg_m3;
use super::tube_mass::Profile;
use crate::frameset::{Frameset, Material, Tube, Wall};
use crate::geometry::diameter_mm;

/// How far the mass of a tube beside the others may be off, as a share (two standard uncertainties), where diameter and
/// wall are stated and where they are assumed. Our own assumption.
const STATED_SHARE: f64 = 0.05;
const ASSUMED_SHARE: f64 = 0.30;

/// One kind of tube of a frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeOf {
    /// Which.
    pub tube: Tube,
    /// How many a frame has: stays count twice.
    pub count: f64,
    /// Diameter and walls.
    pub profile: Profile,
    /// Whether the diameter or the wall is assumed from the material.
    pub is_assumed: bool,
    /// ± of its mass beside the other tubes', as a share.
    pub share_plus_minus: f64,
}

/// All tubes of a frame.
#[derive(Clone, Debug, PartialEq)]
pub struct TubeSet {
    /// The tubes.
    pub tubes: Vec<TubeOf>,
    /// kg/m³.
    pub density_kg_m3: f64,
    /// What the frame is made of; steel where the file does not say.
    pub material: Material,
    /// Whether the material is assumed.
    pub material_is_assumed: bool,
}

/// The tubes that a frame's weight is made of. The fork scales by its steerer only.
const COUNTED: [(Tube, f64); 6] = [
    (Tube::TopTube, 1.0),
    (Tube::DownTube, 1.0),
    (Tube::SeatTube, 1.0),
    (Tube::HeadTube, 1.0),
    (Tube::ChainStay, 2.0),
    (Tube::SeatStay, 2.0),
];

/// The tubes of a frameset's frame.
#[must_use]
pub fn tube_set(frameset: &Frameset) -> TubeSet {
    let stated = frameset.tubing.as_ref();
    let material = stated.map_or(Material::Steel, |t| t.material);
    let tubes = COUNTED
        .into_iter()
        .map(|(tube, count)| {
            let (outside, outside_is_assumed) = diameter_mm(frameset, tube);
            let given = frameset.tube_walls.get(&tube).copied();
            let is_assumed = outside_is_assumed || given.is_none();
            let profile = profile(outside, given.unwrap_or_else(|| typical_wall(tube, material)));
            let share_plus_minus = if is_assumed { ASSUMED_SHARE } else { STATED_SHARE };
            TubeOf { tube, count, profile, is_assumed, share_plus_minus }
        })
        .collect();
    let density_kg_m3 = density_kg_m3(material, stated.and_then(|t| t.grade.as_deref())).value;
    TubeSet { tubes, density_kg_m3, material, material_is_assumed: stated.is_none() }
}

fn profile(outside_mm: f64, wall: Wall) -> Profile {
    let Some(middle) = wall.middle else { return Profile::plain(outside_mm, wall.wall) };
    let butt = wall.butt.unwrap_or(100.0);
    Profile {
        outside_mm,
        walls_mm: [wall.wall, middle, wall.other_end.unwrap_or(wall.wall)],
        butts_mm: [butt, wall.other_butt.unwrap_or(butt)],
        taper_mm: wall.taper.unwrap_or(30.0),
    }
}

/// Typical walls, trade practice, unverified: double-butted steel and aluminium, plain titanium and carbon. Butts of
/// 100 mm and tapers of 30 mm where a file gives walls alone.
fn typical_wall(tube: Tube, material: Material) -> Wall {
    match (material, tube) {
        (Material::Steel, Tube::TopTube | Tube::DownTube | Tube::SeatTube) => Wall::butted(0.8, 0.5, 100.0, 30.0),
        (Material::Steel, Tube::HeadTube) => Wall::plain(1.2),
        (Material::Steel, _) => Wall::plain(0.8),
        (Material::Aluminium, Tube::TopTube | Tube::DownTube | Tube::SeatTube) => Wall::butted(1.6, 1.1, 100.0, 30.0),
        (Material::Aluminium, Tube::HeadTube) => Wall::plain(3.0),
        (Material::Aluminium, _) => Wall::plain(1.8),
        (Material::Titanium, Tube::HeadTube) => Wall::plain(1.6),
        (Material::Titanium, _) => Wall::plain(0.9),
        (Material::Carbon, Tube::HeadTube) => Wall::plain(2.5),
        (Material::Carbon, _) => Wall::plain(1.4),
    }
}
