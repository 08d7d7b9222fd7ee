//! A loaded bicycle from the side in words.

use super::loaded_charts::loaded_short_name;
use super::loaded_table::{loaded_text, loading_name, luggage_text};
use crate::frameset::FrameIndex;
use crate::lineup::{Findings, HungBag, Lineup};
use crate::loaded::LoadedFigure;
use crate::units::System;

/// What the mark in quarters is.
pub const CENTRE_OF_MASS: &str = "centre of mass of bicycle, rider and luggage";

/// Title of the picture: `A with rider and luggage`.
#[must_use]
pub fn loaded_sides_title(letter: &str) -> String {
    if letter.is_empty() { "A frame with rider and luggage".to_owned() } else { format!("{letter} with rider and luggage") }
}

/// What a bag says to the pointer: `15 kg. It turns with the handlebar.`
#[must_use]
pub fn hung_bag_text(units: System, bag: &HungBag) -> String {
    let belongs = if bag.place.turns_with_the_bar() { "It turns with the handlebar." } else { "It is fixed to the frame." };
    format!("{}. {belongs}", luggage_text(units, bag.kg))
}

/// What the picture shows: the load on each wheel with each loading.
#[must_use]
pub fn loaded_side_sentences(lineup: &Lineup, findings: &Findings, frame: FrameIndex) -> Vec<String> {
    let units = lineup.settings.units;
    let found = findings.loaded(lineup);
    let Some(letter) = frame.of(&findings.frames).map(|f| f.letter.as_str()) else { return Vec::new() };
    let loadings = found.loadings.iter().enumerate();
    loadings
        .filter_map(|(place, loading)| {
            let ride = frame.of(&found.frames)?.rides.get(place)?.as_ref().ok()?;
            let load = |figure| Some(loaded_text(units, figure, ride.figure(figure)?));
            let name = match loading {
                Some(loading) => loaded_short_name(letter, Some(loading)),
                None => format!("{letter}, {}", loading_name(None)),
            };
            Some(format!(
                "{name}: {} on the front wheel, {} on the rear wheel.",
                load(LoadedFigure::FrontLoad)?,
                load(LoadedFigure::RearLoad)?
            ))
        })
        .collect()
}
