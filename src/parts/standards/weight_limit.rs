//! The heaviest load that a maker allows.

use super::{NotUnderstood, refused};
use crate::units::printed_masses;

/// What a limit counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LimitOf {
    /// Bicycle, rider and luggage.
    Whole,
    /// Rider and luggage.
    RiderAndLuggage,
    /// The rider alone.
    Rider,
}

impl LimitOf {
    /// Stable key, for JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::RiderAndLuggage => "rider_and_luggage",
            Self::Rider => "rider",
        }
    }
}

/// The heaviest load that a maker allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeightLimit {
    /// Kilograms.
    pub kg: f64,
    /// What they count.
    pub of: LimitOf,
}

/// Words for a rider and for luggage in the languages of pages.
const RIDER: [&str; 8] = ["rider", "fahrer", "cycliste", "ciclista", "fietser", "berijder", "pilote", "body weight"];
const LUGGAGE: [&str; 11] =
    ["luggage", "gear", "cargo", "bags", "gepäck", "gepack", "bagage", "equipaje", "bagagli", "bagaglio", "zuladung"];
const BICYCLE: [&str; 8] = ["bike", "bicycle", "fahrrad", "vélo", "velo", "bicicleta", "bicicletta", "fiets "];

impl WeightLimit {
    /// Reads a limit: `150 kg`, `135 kg rider and luggage`, `300 lb`. Without words it counts everything.
    ///
    /// # Errors
    /// No weight with its unit, several different ones, or one outside 40 to 400 kg.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let masses = printed_masses(text);
        let says = |words: &[&str]| {
            let text = text.to_lowercase();
            words.iter().any(|word| text.contains(word))
        };
        let of = match (says(&RIDER), says(&LUGGAGE), says(&BICYCLE)) {
            (true, false, false) => LimitOf::Rider,
            (true, true, false) => LimitOf::RiderAndLuggage,
            _ => LimitOf::Whole,
        };
        let kilograms: Vec<f64> = masses.iter().map(|mass| mass.grams / 1000.0).collect();
        match kilograms.as_slice() {
            // The same in two units is one limit.
            [kg, others @ ..] if (40.0..=400.0).contains(kg) && others.iter().all(|other| (other - kg).abs() < 1.5) => {
                Ok(Self { kg: *kg, of })
            }
            [_, _, ..] => {
                refused(format!("`{text}` names several limits: write one, such as 150 kg for bicycle, rider and luggage"))
            }
            _ => refused(format!(
                "`{text}` is not a valid weight limit: write kilograms from 40 to 400 with their unit, such as 150 kg"
            )),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_are_read_with_what_they_count() {
        for (text, kg, of) in [
            ("150 kg", 150.0, LimitOf::Whole),
            ("140 kg (bike, rider and luggage)", 140.0, LimitOf::Whole),
            ("135 kg rider and luggage", 135.0, LimitOf::RiderAndLuggage),
            ("max. 110 kg Fahrer", 110.0, LimitOf::Rider),
            ("130 kg Fahrer + Gepäck", 130.0, LimitOf::RiderAndLuggage),
            ("136 kg / 300 lb", 136.0, LimitOf::Whole),
        ] {
            assert_eq!(WeightLimit::read(text), Ok(WeightLimit { kg, of }), "{text}");
        }
        for text in ["150", "perhaps", "15 kg", "900 kg", "120 kg rider, 25 kg rack"] {
            assert!(WeightLimit::read(text).is_err(), "{text}");
        }
    }
}
