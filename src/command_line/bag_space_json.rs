//! Frame-bag space in the JSON of `figures --json`: `bag_space` of each size, or the sentence and code that say why there is none.

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use super::numbers::rounded;
use spandrel::frameset::{Frameset, Tube};
use spandrel::geometry::{AdjustedSize, Point};
use spandrel::luggage::{BagSpace as Found, NoOpening, bag_space};
use spandrel::units::{Kind, Measured};
use spandrel::words::no_opening_text;

/// A size's room.
pub(super) struct BagSpace(Result<Found, NoOpening>);

impl BagSpace {
    pub(super) fn of(frameset: &Frameset, printed: &spandrel::frameset::Size, size: &AdjustedSize) -> Self {
        Self(bag_space(frameset, printed, size))
    }
}

const fn key(tube: Tube) -> &'static str {
    match tube {
        Tube::TopTube => "top_tube",
        Tube::DownTube => "down_tube",
        Tube::SeatTube => "seat_tube",
        _ => "head_tube",
    }
}

#[derive(Serialize)]
struct Entry {
    value: f64,
    u: f64,
    unit: &'static str,
}

fn entry<K: Kind>(m: Measured<K>) -> Entry {
    Entry { value: rounded(m.value), u: rounded(m.u), unit: K::QUANTITY.file_unit() }
}

fn pair(p: Point<f64>) -> [f64; 2] {
    [rounded(p.x), rounded(p.y)]
}

/// A map written from its pairs.
struct Pairs<K, V>(Vec<(K, V)>);

impl<K: Serialize, V: Serialize> Serialize for Pairs<K, V> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(k, v)| (k, v)))
    }
}

#[derive(Serialize)]
struct Circle {
    diameter: Entry,
    centre: [f64; 2],
}

#[derive(Serialize)]
struct Rectangle {
    area: Entry,
    width: Entry,
    height: Entry,
    from: [f64; 2],
    to: [f64; 2],
}

#[derive(Serialize)]
struct Help {
    measure: &'static str,
    area_u: f64,
}

impl Serialize for BagSpace {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        let bag_space = match &self.0 {
            Ok(bag_space) => bag_space,
            Err(why) => {
                map.serialize_entry("none", &no_opening_text(why))?;
                map.serialize_entry("none_code", why.code())?;
                return map.end();
            }
        };
        map.serialize_entry("area", &entry(bag_space.area_dm2))?;
        map.serialize_entry("sides", &Pairs(bag_space.sides.iter().map(|s| (key(s.tube), entry(s.length_mm))).collect()))?;
        let angles = bag_space.corners.iter().map(|c| (format!("{}_{}", key(c.between.0), key(c.between.1)), entry(c.angle_deg)));
        map.serialize_entry("angles", &Pairs(angles.collect()))?;
        if let Some(c) = bag_space.circle {
            map.serialize_entry("circle", &Circle { diameter: entry(c.diameter_mm), centre: pair(c.centre) })?;
        }
        if let Some(r) = bag_space.rectangle {
            let rectangle = Rectangle {
                area: entry(r.area_dm2),
                width: entry(r.width_mm),
                height: entry(r.height_mm),
                from: pair(r.from),
                to: pair(r.to),
            };
            map.serialize_entry("rectangle", &rectangle)?;
        }
        if let Some(h) = bag_space.height_above_bb_mm {
            map.serialize_entry("height_above_bb", &entry(h))?;
        }
        map.serialize_entry("outline", &bag_space.outline.iter().map(|p| pair(*p)).collect::<Vec<_>>())?;
        map.serialize_entry("assumed_diameters", &bag_space.assumed_diameters.iter().map(|t| key(*t)).collect::<Vec<_>>())?;
        let helps = bag_space.helps.iter().map(|h| Help { measure: h.measure.key(), area_u: rounded(h.area_u_dm2) });
        map.serialize_entry("measure_first", &helps.collect::<Vec<_>>())?;
        map.end()
    }
}
