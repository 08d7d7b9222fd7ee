//! Densities of materials, and what is assumed where a file does not say: fixed parts, forks, steerers, small parts.
//!
//! Each assumption has its ± (two standard uncertainties) and is marked as assumed wherever it is shown.

use crate::frameset::{Frameset, Material, SmallPart};
use crate::units::{COVERAGE_FACTOR, Mass, Measured};

/// A value that stands in for what is not stated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumed {
    /// The value.
    pub value: f64,
    /// Its ±: two standard uncertainties.
    pub plus_minus: f64,
}

impl Assumed {
    const fn new(value: f64, plus_minus: f64) -> Self {
        Self { value, plus_minus }
    }

    /// Standard uncertainty.
    #[must_use]
    pub const fn u(self) -> f64 {
        self.plus_minus / COVERAGE_FACTOR
    }

    /// As a mass, where it is in grams.
    #[must_use]
    pub const fn mass(self) -> Measured<Mass> {
        Measured::new(self.value, self.u())
    }
}

/// Density of a frame's tubes, kg/m³. 4130 steel 7850, 6061 aluminium 2700, 7005 aluminium 2780 and Ti-3Al-2.5V 4480: trade
/// practice, unverified; carbon is computed by the rule of mixtures at 55 to 60 % of fibre (1530 to 1560; fibre 1800 and
/// epoxy 1200: trade practice, unverified) with a little more for what is not fibre.
#[must_use]
pub fn density_kg_m3(material: Material, grade: Option<&str>) -> Assumed {
    match material {
        Material::Steel => Assumed::new(7850.0, 50.0),
        Material::Aluminium if grade.is_some_and(|g| g.contains("7005")) => Assumed::new(2780.0, 20.0),
        Material::Aluminium if grade.is_some_and(|g| g.contains("6061")) => Assumed::new(2700.0, 20.0),
        Material::Aluminium => Assumed::new(2740.0, 60.0),
        Material::Titanium => Assumed::new(4480.0, 30.0),
        Material::Carbon => Assumed::new(1575.0, 40.0),
    }
}

/// What a frame weighs apart from its tubes (shell, dropouts, bosses, bridges, paint), g. For steel 350 to 650 g; the
/// rest likewise trade practice, unverified.
#[must_use]
pub const fn fixed_parts(material: Material) -> Assumed {
    match material {
        Material::Steel => Assumed::new(500.0, 150.0),
        Material::Aluminium => Assumed::new(400.0, 150.0),
        Material::Titanium => Assumed::new(400.0, 150.0),
        Material::Carbon => Assumed::new(300.0, 150.0),
    }
}

/// A fork where only the frameset's weight is known, g. Trade practice, unverified.
#[must_use]
pub fn fork_g(frameset: &Frameset) -> Assumed {
    let fork = frameset.fork.as_ref();
    if fork.and_then(|f| f.travel).is_some_and(|t| t > 0.0) {
        return Assumed::new(1900.0, 400.0);
    }
    match fork.and_then(|f| f.material).or(frameset.tubing.as_ref().map(|t| t.material)) {
        Some(Material::Carbon) => Assumed::new(550.0, 150.0),
        Some(Material::Titanium) => Assumed::new(800.0, 250.0),
        Some(Material::Aluminium) => Assumed::new(900.0, 300.0),
        Some(Material::Steel) | None => Assumed::new(1100.0, 300.0),
    }
}

/// A millimetre of steerer, g: as the file gives it, else by the fork's material (28.6 mm outside and 1.6 mm of steel or
/// titanium, 2.5 of aluminium, 3 of carbon: trade practice, unverified).
#[must_use]
pub fn steerer_g_per_mm(frameset: &Frameset) -> Assumed {
    let fork = frameset.fork.as_ref();
    if let Some(given) = fork.and_then(|f| f.steerer).and_then(|s| s.grams_per_mm) {
        return Assumed::new(given, 0.0);
    }
    match fork.and_then(|f| f.material).or(frameset.tubing.as_ref().map(|t| t.material)) {
        Some(Material::Aluminium) => Assumed::new(0.55, 0.15),
        Some(Material::Carbon) => Assumed::new(0.38, 0.12),
        Some(Material::Titanium) => Assumed::new(0.61, 0.15),
        Some(Material::Steel) | None => Assumed::new(1.07, 0.25),
    }
}

/// A small part where the file does not give its weight, g. Trade practice, unverified.
#[must_use]
pub const fn small_part_g(part: SmallPart) -> Assumed {
    match part {
        SmallPart::Axle => Assumed::new(60.0, 25.0),
        SmallPart::SeatClamp => Assumed::new(30.0, 12.0),
        SmallPart::HeadsetCups => Assumed::new(100.0, 40.0),
        SmallPart::Paint => Assumed::new(120.0, 60.0),
        SmallPart::Hanger => Assumed::new(15.0, 8.0),
        SmallPart::Bolts => Assumed::new(40.0, 25.0),
    }
}
