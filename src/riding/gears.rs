//! Gears: range, developments, speeds at a cadence, and the steepest grade that a power holds.
//!
//! Development is the distance travelled in one turn of the cranks (so defined in 16 CFR 1512.5): the rear tyre's
//! circumference times chainring over cog.

use crate::units::{Length, Measured, Ratio};
use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

use super::climb::gradient_at;
use super::power::Conditions;

/// Teeth of the chainrings and cogs of one build.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gearing {
    /// What the user calls it.
    pub name: String,
    /// Teeth of the chainrings, any order.
    #[serde(deserialize_with = "teeth")]
    pub chainrings: Vec<u32>,
    /// Teeth of the cogs, any order.
    #[serde(deserialize_with = "teeth")]
    pub cogs: Vec<u32>,
}

/// Why gears have no answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum GearError {
    /// No number of teeth.
    #[error("no teeth are given: write numbers such as 11, 13, 15")]
    Empty,
    /// Not a number.
    #[error("“{0}” is not a number of teeth: write whole numbers with spaces or commas between them")]
    NotANumber(String),
    /// Beyond what turns.
    #[error("{0} teeth are outside 9 to 60: write numbers such as 11, 13, 15")]
    Teeth(u32),
    /// Too many of them.
    #[error("{0} numbers are too many: write at most 14")]
    TooMany(usize),
}

/// Reads teeth as typed: `11 13 15`, `11, 13, 15`, `44/28`, `11-13-15`.
///
/// # Errors
/// A sentence on the first number that is not valid.
pub fn read_teeth(text: &str) -> Result<Vec<u32>, GearError> {
    let parts = text.split(|c: char| !c.is_alphanumeric() && c != '.').filter(|p| !p.is_empty());
    let teeth: Vec<u32> =
        parts.map(|p| p.parse::<u32>().ok().ok_or_else(|| GearError::NotANumber(p.to_owned()))).collect::<Result<_, _>>()?;
    check(&teeth)?;
    Ok(teeth)
}

/// Teeth as they are typed: `11, 13, 15`.
#[must_use]
pub fn write_teeth(teeth: &[u32]) -> String {
    teeth.iter().map(u32::to_string).collect::<Vec<_>>().join(", ")
}

fn check(teeth: &[u32]) -> Result<(), GearError> {
    if teeth.is_empty() {
        return Err(GearError::Empty);
    }
    if teeth.len() > 14 {
        return Err(GearError::TooMany(teeth.len()));
    }
    teeth.iter().try_for_each(|t| check_one(*t))
}

fn check_one(teeth: u32) -> Result<(), GearError> {
    if (9..=60).contains(&teeth) { Ok(()) } else { Err(GearError::Teeth(teeth)) }
}

/// Checked as it is read, so that a refusal points at it.
#[derive(Deserialize)]
#[serde(transparent)]
struct Teeth(#[serde(deserialize_with = "one")] u32);

fn one<'de, D: Deserializer<'de>>(deserializer: D) -> Result<u32, D::Error> {
    let teeth = u32::deserialize(deserializer)?;
    check_one(teeth).map(|()| teeth).map_err(D::Error::custom)
}

fn teeth<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<u32>, D::Error> {
    let teeth: Vec<u32> = Vec::<Teeth>::deserialize(deserializer)?.into_iter().map(|t| t.0).collect();
    check(&teeth).map_err(D::Error::custom)?;
    Ok(teeth)
}

/// What gears do on one bicycle.
#[derive(Clone, Debug, PartialEq)]
pub struct GearsFound {
    /// Highest over lowest gear, percent: 500 means that the highest is five times the lowest.
    pub range_percent: f64,
    /// Lowest development, m.
    pub lowest_m: f64,
    /// Highest development, m.
    pub highest_m: f64,
    /// Speed in the lowest gear at the cadence, km/h.
    pub lowest_km_h: f64,
    /// Speed in the highest gear at the cadence, km/h.
    pub highest_km_h: f64,
    /// How many gears differ by more than a hundredth from the next lower one.
    pub different: usize,
    /// Steepest grade that the power holds in the lowest gear at the cadence, percent; zero or less: not even the level.
    /// Its u is from the tyre's radius.
    pub steepest: Measured<Ratio>,
    /// Standard uncertainty of developments and speeds as a share of them: the tyre radius's share of itself.
    pub share_u: f64,
}

/// What `gearing` does on wheels of a radius, at `cadence_rpm` and `power_w` with `mass_kg` in all.
///
/// # Errors
/// Teeth outside their range.
pub fn gears(
    gearing: &Gearing,
    radius: Measured<Length>,
    cadence_rpm: f64,
    power_w: f64,
    mass_kg: f64,
    conditions: &Conditions,
) -> Result<GearsFound, GearError> {
    check(&gearing.chainrings)?;
    check(&gearing.cogs)?;
    let pairs = gearing.chainrings.iter().flat_map(|ring| gearing.cogs.iter().map(|cog| f64::from(*ring) / f64::from(*cog)));
    let mut ratios: Vec<f64> = pairs.collect();
    ratios.sort_by(f64::total_cmp);
    let (Some(lowest), Some(highest)) = (ratios.first(), ratios.last()) else { return Err(GearError::Empty) };
    let development = |ratio: f64| development_m(radius.value, ratio);
    let km_h = |ratio: f64| development(ratio) * cadence_rpm * 60.0 / 1000.0;
    let mut different = 0;
    let mut last = 0.0;
    for ratio in &ratios {
        if *ratio > last * 1.01 {
            different += 1;
            last = *ratio;
        }
    }
    let share_u = radius.u / radius.value;
    let steepest = |share: f64| {
        let metres_a_second = (km_h(*lowest) * share / 3.6).max(1e-3);
        gradient_at(power_w, metres_a_second, mass_kg, conditions) * 100.0
    };
    Ok(GearsFound {
        range_percent: highest / lowest * 100.0,
        lowest_m: development(*lowest),
        highest_m: development(*highest),
        lowest_km_h: km_h(*lowest),
        highest_km_h: km_h(*highest),
        different,
        steepest: Measured::new(steepest(1.0), (steepest(1.0 - share_u) - steepest(1.0 + share_u)).abs() / 2.0),
        share_u,
    })
}

/// Metres travelled in one turn of the cranks.
fn development_m(radius_mm: f64, ratio: f64) -> f64 {
    2.0 * std::f64::consts::PI * radius_mm / 1000.0 * ratio
}

#[cfg(test)]
mod tests {
    use super::super::climb::speed_at;
    use super::*;

    fn build(chainrings: &[u32], cogs: &[u32]) -> Gearing {
        Gearing { name: String::new(), chainrings: chainrings.to_vec(), cogs: cogs.to_vec() }
    }

    #[test]
    fn developments_of_known_gears() {
        // π D × front / rear, computed independently: 46/16 on 47-622 (716 mm), 53/19 on 680 mm, 39/16 on 668 mm.
        for (ring, cog, diameter, metres) in
            [(46, 16, 716.0, 6.46697), (53, 19, 680.0, 5.95911), (39, 16, 668.0, 5.11530), (48, 12, 27.0 * 25.4, 8.61802)]
        {
            let found =
                gears(&build(&[ring], &[cog]), Measured::exact(diameter / 2.0), 60.0, 150.0, 100.0, &Conditions::default())
                    .unwrap();
            assert!((found.lowest_m - metres).abs() < 1e-5, "{}", found.lowest_m);
            assert_eq!(found.range_percent, 100.0);
            assert_eq!(found.lowest_m, found.highest_m);
        }
        // 48/12 on a 27 inch wheel is a gear of 108 inches exactly: development over π.
        let still = |ring, cog, radius| {
            gears(&build(&[ring], &[cog]), Measured::exact(radius), 60.0, 150.0, 100.0, &Conditions::default()).unwrap().lowest_m
        };
        assert!((still(48, 12, 27.0 * 12.7) / std::f64::consts::PI / 0.0254 - 108.0).abs() < 1e-9);
        // Own, by hand: one metre round, 39/14 is 2.786 m and 53/19 is 2.789 m.
        let radius = 500.0 / std::f64::consts::PI;
        assert_eq!(format!("{:.3} {:.3}", still(39, 14, radius), still(53, 19, radius)), "2.786 2.789");
    }

    #[test]
    fn the_speed_of_a_development() {
        // US 16 CFR 1512.5, footnote 3: a development of 6.67 m (24 km/h at 60 rpm, from memory).
        let radius = 6.67 / (2.0 * std::f64::consts::PI) * 1000.0;
        let found = gears(&build(&[40], &[40]), Measured::exact(radius), 60.0, 150.0, 100.0, &Conditions::default()).unwrap();
        assert!((found.lowest_m - 6.67).abs() < 1e-9);
        assert!((found.lowest_km_h - 24.0).abs() < 0.02, "{}", found.lowest_km_h);
    }

    #[test]
    fn the_steepest_grade_is_where_the_power_holds_the_speed() {
        let conditions = Conditions::default();
        let found = gears(&build(&[44, 28], &[11, 34]), Measured::new(350.0, 3.5), 60.0, 150.0, 107.0, &conditions).unwrap();
        let speed = speed_at(150.0, 107.0, found.steepest.value / 100.0, &conditions);
        assert!((speed * 3.6 - found.lowest_km_h).abs() < 1e-6);
        assert!((found.range_percent - 100.0 * (44.0 / 11.0) / (28.0 / 34.0)).abs() < 1e-9);
        assert_eq!(found.different, 4);
    }

    #[test]
    fn a_gear_too_high_for_the_power_says_so_with_its_sign() {
        let found = gears(&build(&[60], &[9]), Measured::exact(350.0), 120.0, 50.0, 107.0, &Conditions::default()).unwrap();
        assert!(found.steepest.value < 0.0);
    }

    #[test]
    fn teeth_are_read_as_typed() {
        assert_eq!(read_teeth("11, 13 15-17/19"), Ok(vec![11, 13, 15, 17, 19]));
        assert_eq!(read_teeth(&write_teeth(&[28, 44])), Ok(vec![28, 44]));
        assert_eq!(read_teeth(" "), Err(GearError::Empty));
        assert_eq!(read_teeth("11 x 15"), Err(GearError::NotANumber("x".to_owned())));
        assert_eq!(read_teeth("11.5"), Err(GearError::NotANumber("11.5".to_owned())));
        assert_eq!(read_teeth("4"), Err(GearError::Teeth(4)));
        assert_eq!(read_teeth("440"), Err(GearError::Teeth(440)));
    }
}
