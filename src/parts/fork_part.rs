//! A fork that the user owns: its lengths and standards, each checked when it is read. It takes the place of each frame's own
//! in the checks of parts.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize};

use super::purchase::Purchase;
use super::ranges::{within, within_lengths};
use super::reading::length_number;
use super::standards::{Bosses, Eyelets, Hub, Mount, NotUnderstood, ends_of, read_plainly};
use crate::units::System;

/// How a fork's length was measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ForkMeasurement {
    /// Along the steering axis.
    Along,
    /// Straight from crown race seat to axle, as makers mostly do.
    #[default]
    #[serde(alias = "Straight")]
    Direct,
}

/// A fork that the user owns. Texts are written as in frame files; an empty one is not stated.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ForkPart {
    /// The user's own name for it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Crown race seat to axle, mm, unloaded.
    #[serde(deserialize_with = "fork_length")]
    pub length: f64,
    /// How that was measured.
    #[serde(default)]
    pub measured: ForkMeasurement,
    /// Offset, mm.
    #[serde(deserialize_with = "fork_offset")]
    pub offset: f64,
    /// Travel of a suspension fork, mm; 0 for a rigid one.
    #[serde(default, deserialize_with = "travel")]
    pub travel: f64,
    /// How much of the travel it sinks under the rider, percent.
    #[serde(default, deserialize_with = "sag")]
    pub sag_percent: f64,
    /// Steerer and crown race: `28.6 | 40`, `tapered` or `straight`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "steerer")]
    pub steerer: String,
    /// Its hub: `100 x 9 quick release`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "hub")]
    pub hub: String,
    /// Its brake mount: `IS 160-180`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "mount")]
    pub brake: String,
    /// Widest tyre: `57-622`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "widest_tyre")]
    pub widest_tyre: String,
    /// Bosses: `3+3`.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "bosses")]
    pub bosses: String,
    /// Its eyelets: `rack, mudguards`. The frame's own are at its rear and on its own fork.
    #[serde(default, skip_serializing_if = "String::is_empty", deserialize_with = "eyelets")]
    pub eyelets: String,
    /// Whether it is owned, its weight and price.
    #[serde(default, skip_serializing_if = "Purchase::is_empty")]
    pub purchase: Purchase,
}

impl ForkPart {
    /// A rigid fork of this length and offset, mm, of which nothing else is known yet.
    #[must_use]
    pub fn rigid(length: f64, offset: f64) -> Self {
        Self {
            name: String::new(),
            length,
            measured: ForkMeasurement::default(),
            offset,
            travel: 0.0,
            sag_percent: 0.0,
            steerer: String::new(),
            hub: String::new(),
            brake: String::new(),
            widest_tyre: String::new(),
            bosses: String::new(),
            eyelets: String::new(),
            purchase: Purchase::default(),
        }
    }

    /// Whether all of it can be: lengths within their ranges, texts understood or empty.
    ///
    /// # Errors
    /// The first thing that cannot be, with the nearest right form, in the chosen units.
    pub fn check(&self, units: System) -> Result<(), NotUnderstood> {
        fn text<T>(text: &str, read: impl Fn(&str) -> Result<T, NotUnderstood>) -> Result<(), NotUnderstood> {
            if text.trim().is_empty() { Ok(()) } else { read_plainly(text, read).map(drop) }
        }
        check_fork_length(self.length, units)?;
        within_lengths(self.offset, FORK_OFFSETS_MM, "a fork offset", units)?;
        within_lengths(self.travel, FORK_TRAVELS_MM, "a fork's travel", units)?;
        within(self.sag_percent, 0.0, 60.0, "a sag", "%")?;
        text(&self.steerer, ends_of)?;
        text(&self.hub, Hub::read)?;
        text(&self.brake, Mount::read)?;
        text(&self.widest_tyre, super::standards::TyreClearances::read)?;
        text(&self.bosses, Bosses::on_fork)?;
        text(&self.eyelets, Eyelets::read)
    }

    /// Sag, mm along the axis.
    #[must_use]
    pub fn sag_mm(&self) -> f64 {
        self.travel * self.sag_percent / 100.0
    }

    /// Length along the steering axis as it stands under the rider, mm. A straight length shorter than the offset cannot
    /// be read from a file (lengths begin at 250 mm, offsets end at 150).
    #[must_use]
    pub fn standing_length_mm(&self) -> f64 {
        let along = match self.measured {
            ForkMeasurement::Along => self.length,
            ForkMeasurement::Direct => (self.length * self.length - self.offset * self.offset).max(0.0).sqrt(),
        };
        along - self.sag_mm()
    }
}

/// Axle-to-crown lengths of forks, mm.
const FORK_LENGTHS_MM: [f64; 2] = [250.0, 650.0];
/// Offsets of forks, mm.
const FORK_OFFSETS_MM: [f64; 2] = [-100.0, 150.0];
/// Travels of forks, mm.
const FORK_TRAVELS_MM: [f64; 2] = [0.0, 250.0];

/// Whether a length, mm, can be a fork's. The refusal names the likely slip.
fn check_fork_length(mm: f64, units: System) -> Result<(), NotUnderstood> {
    let slips = match units {
        System::Metric => [(10.0, "centimetres"), (25.4, "inches"), (0.1, "a slip of the point")],
        System::Imperial => [(1.0 / 25.4, "millimetres"), (1.0 / 2.54, "centimetres"), (0.1, "a slip of the point")],
    };
    let [low, high] = FORK_LENGTHS_MM;
    within_lengths(mm, FORK_LENGTHS_MM, "an axle-to-crown length", units).map_err(|NotUnderstood(refusal)| {
        let slip = slips.into_iter().find(|(factor, _)| (low..=high).contains(&(mm * factor)));
        let hint = slip.map(|(factor, what)| format!(": it looks like {what}, so write {}", length_number(mm * factor, units)));
        NotUnderstood(refusal + &hint.unwrap_or_default())
    })
}

fn checked<'de, D: Deserializer<'de>>(d: D, check: impl Fn(f64) -> Result<(), NotUnderstood>) -> Result<f64, D::Error> {
    let value = f64::deserialize(d)?;
    check(value).map_err(serde::de::Error::custom)?;
    Ok(value)
}

fn fork_length<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    checked(d, |mm| check_fork_length(mm, System::Metric))
}

fn fork_offset<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    checked(d, |mm| within_lengths(mm, FORK_OFFSETS_MM, "a fork offset", System::Metric))
}

fn travel<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    checked(d, |mm| within_lengths(mm, FORK_TRAVELS_MM, "a fork's travel", System::Metric))
}

fn sag<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    checked(d, |v| within(v, 0.0, 60.0, "a sag", "%"))
}

fn checked_text<'de, D: Deserializer<'de>, T>(d: D, read: impl Fn(&str) -> Result<T, NotUnderstood>) -> Result<String, D::Error> {
    let text = String::deserialize(d)?;
    if !text.trim().is_empty() {
        read_plainly(&text, read).map_err(serde::de::Error::custom)?;
    }
    Ok(text)
}

fn steerer<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, ends_of)
}

fn hub<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, Hub::read)
}

fn mount<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, Mount::read)
}

fn widest_tyre<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, super::standards::TyreClearances::read)
}

fn bosses<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, Bosses::on_fork)
}

fn eyelets<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    checked_text(d, Eyelets::read)
}

impl fmt::Display for ForkMeasurement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Along => "along the steering axis",
            Self::Direct => "straight, crown race to axle",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_refused_in_the_chosen_units_with_the_likely_slip() {
        let refusal = |fork: ForkPart, units| fork.check(units).unwrap_err().to_string().replace(crate::units::THIN_SPACE, " ");
        let is = |fork: ForkPart, metric: &str, imperial: &str| {
            assert_eq!(refusal(fork.clone(), System::Metric), metric);
            assert_eq!(refusal(fork, System::Imperial), imperial);
        };
        is(
            ForkPart::rigid(420.0, -160.0),
            "a fork offset of \u{2212}160 mm is outside \u{2212}100 to 150 mm",
            "a fork offset of \u{2212}6.299 in is outside \u{2212}3.93 to 5.9 in",
        );
        is(
            ForkPart { travel: 1000.0, ..ForkPart::rigid(420.0, 45.0) },
            "a fork's travel of 1000 mm is outside 0 to 250 mm",
            "a fork's travel of 39.37 in is outside 0 to 9.84 in",
        );
        let length = |mm| ForkPart::rigid(mm, 45.0);
        assert!(
            refusal(length(42.0), System::Metric).ends_with("outside 250 to 650 mm: it looks like centimetres, so write 420")
        );
        assert!(refusal(length(16.5), System::Metric).ends_with("it looks like inches, so write 419.1"));
        assert!(refusal(length(420.0 * 25.4), System::Imperial).ends_with("it looks like millimetres, so write 16.535"));
        assert!(refusal(length(42.0 * 25.4), System::Imperial).ends_with("it looks like centimetres, so write 16.535"));
        assert!(check_fork_length(f64::NAN, System::Metric).is_err());
    }

    #[test]
    fn sag_and_the_way_of_measuring_shorten_a_fork() {
        let fork: ForkPart = ron::from_str("(length: 500, offset: 44, travel: 100, sag_percent: 20)").unwrap();
        // √(500² − 44²) = 498.0602, less 20 mm of sag.
        assert!((fork.standing_length_mm() - 478.0602).abs() < 1e-4);
    }

    #[test]
    fn each_text_of_a_fork_is_read_unless_it_is_empty() {
        let fork = |field: &str, text: &str| {
            let written = format!("(length: 440, offset: 45, {field}: \"{text}\")");
            ron::from_str::<ForkPart>(&written)
        };
        for (field, right, wrong) in [
            ("steerer", "28.6 | 40", "34"),
            ("hub", "100 x 12 through axle", "quick release"),
            ("brake", "post mount 160", "drum"),
            ("widest_tyre", "50-622", "large"),
            ("bosses", "3+3", "many"),
            ("eyelets", "rack", "bell"),
        ] {
            assert!(fork(field, right).is_ok_and(|f| f.check(System::Metric).is_ok()), "{field}");
            assert!(fork(field, " ").is_ok_and(|f| f.check(System::Metric).is_ok()), "{field}: blanks state nothing");
            assert!(fork(field, wrong).is_err(), "{field}");
        }
        let wrong = ForkPart { hub: "quick release".to_owned(), ..ForkPart::rigid(440.0, 45.0) };
        assert!(wrong.check(System::Metric).is_err());
    }
}
