//! Tables of the loaded bicycle: what each wheel carries, when one lifts, from which speed the bicycle steadies itself, with
//! the frames across. The window, the pictures and the exports all show these.

use super::comparison_table::{NOT_PUBLISHED, UNKNOWN};
use super::fit_table::{FitCell, FitMark, FitRow, FitTable, open, plain};
use super::lengths::{length, length_to_whole};
use super::loaded::KM_H;
use super::loaded_motions::{motion_cell, motion_label};
use super::price_and_climb::{is_in_tables, name_of};
use super::riding::{MILE_KM, POUND_KG};
use crate::frameset::FrameIndex;
use crate::lineup::{AgainstLimit, Findings, Lineup, NotLoaded};
use crate::loaded::{BodyTable, LoadedFigure, Loading, LuggagePlace, NamedMotion, PostureError, RuleOfThumb};
use crate::parts::standards::LimitOf;
use crate::units::{
    AnyKind, Measured, System, THIN_SPACE, expanded, fixed, listed, per_cent, plus_minus, signed_plus_minus, with_sign,
};

/// Name of a loading, the first of all being the bicycle without any.
#[must_use]
pub fn loading_name(name: Option<&str>) -> &str {
    name.unwrap_or("no luggage")
}

/// Name of a place for luggage.
#[must_use]
pub const fn luggage_place_label(place: LuggagePlace) -> &'static str {
    match place {
        LuggagePlace::FrameBag => "Frame bag",
        LuggagePlace::SaddleBag => "Saddle bag",
        LuggagePlace::RackTop => "Top of the rear rack",
        LuggagePlace::RearPanniers => "Rear panniers",
        LuggagePlace::BarBag => "Handlebar bag",
        LuggagePlace::ForkCages => "Cages on the fork",
        LuggagePlace::FrontPanniersLow => "Front panniers, low",
        LuggagePlace::FrontPanniersHigh => "Front panniers, high",
    }
}

/// Name of a body table.
#[must_use]
pub const fn body_table_label(table: BodyTable) -> &'static str {
    match table {
        BodyTable::Mean => "Mean of women and men",
        BodyTable::Male => "Men",
        BodyTable::Female => "Women",
    }
}

/// Name of a figure of the loaded bicycle.
#[must_use]
pub const fn loaded_label(figure: LoadedFigure) -> &'static str {
    match figure {
        LoadedFigure::WholeMass => "Loaded total",
        LoadedFigure::FrontLoad => "Load on the front wheel",
        LoadedFigure::RearLoad => "Load on the rear wheel",
        LoadedFigure::FrontShare => "Share of the front wheel",
        LoadedFigure::PitchOver => "Rear wheel lifts when braking",
        LoadedFigure::PitchOverDownhill => "The same on a descent of 10\u{a0}%",
        LoadedFigure::LiftingGrade => "Front wheel lifts on a climb of",
        LoadedFigure::WeaveSpeed => "Steadies itself from",
        LoadedFigure::CapsizeSpeed => "Steadies itself up to",
        LoadedFigure::TurnTorque => "Torque that holds a slow turn",
    }
}

/// What a figure of the loaded bicycle means, in one or two sentences.
#[must_use]
pub const fn loaded_meaning(units: System, figure: LoadedFigure) -> &'static str {
    match figure {
        LoadedFigure::WholeMass => "Bicycle, rider and luggage.",
        LoadedFigure::FrontLoad | LoadedFigure::RearLoad | LoadedFigure::FrontShare => {
            "At rest on the level. Limits of wheels, tyres, racks and forks are the makers’."
        }
        LoadedFigure::PitchOver | LoadedFigure::PitchOverDownhill => {
            "Deceleration at which the rear wheel leaves the road, if the tyre grips and the rider does not move."
        }
        LoadedFigure::LiftingGrade => "Steady climb on which the front wheel leaves the road, if the rider does not move.",
        LoadedFigure::WeaveSpeed => "Weave speed. Above it, weaving from side to side dies out with the hands off the bar.",
        LoadedFigure::CapsizeSpeed => "Capsize speed. Above it, the bicycle falls slowly into a turn with the hands off the bar.",
        LoadedFigure::TurnTorque => match units {
            System::Metric => {
                "Steering torque on a circle of 8 m radius at 10 km/h. Negative: the bar turns further into the turn by itself, \
                 and the rider holds it back."
            }
            System::Imperial => {
                "Steering torque on a circle of 26 ft radius at 6.2 mph. Negative: the bar turns further into the turn by itself, \
                 and the rider holds it back."
            }
        },
    }
}

/// Factor and unit in which a figure is shown.
pub(super) const fn unit(units: System, figure: LoadedFigure) -> (f64, &'static str) {
    match (figure, units) {
        (LoadedFigure::WholeMass | LoadedFigure::FrontLoad | LoadedFigure::RearLoad, System::Metric) => (1.0, "kg"),
        (LoadedFigure::WholeMass | LoadedFigure::FrontLoad | LoadedFigure::RearLoad, System::Imperial) => (1.0 / POUND_KG, "lb"),
        (LoadedFigure::FrontShare | LoadedFigure::LiftingGrade, _) => (1.0, "%"),
        // A bare g would be read as grams.
        (LoadedFigure::PitchOver | LoadedFigure::PitchOverDownhill, _) => (1.0, "× gravity"),
        (LoadedFigure::WeaveSpeed | LoadedFigure::CapsizeSpeed, System::Metric) => (KM_H, "km/h"),
        (LoadedFigure::WeaveSpeed | LoadedFigure::CapsizeSpeed, System::Imperial) => (KM_H / MILE_KM, "mph"),
        (LoadedFigure::TurnTorque, _) => (1.0, "N\u{2009}m"),
    }
}

pub(super) fn with_unit(units: System, figure: LoadedFigure, number: &str) -> String {
    match unit(units, figure).1 {
        "%" => per_cent(number),
        unit => format!("{number}{THIN_SPACE}{unit}"),
    }
}

/// A figure of the loaded bicycle: `19.9 ± 1.1 km/h`.
#[must_use]
pub fn loaded_text(units: System, figure: LoadedFigure, measured: Measured<AnyKind>) -> String {
    let factor = unit(units, figure).0;
    with_unit(units, figure, &plus_minus(measured.value * factor, expanded(measured.u) * factor))
}

/// A difference of such a figure: `+1.1 ± 0.3 km/h`.
#[must_use]
pub fn loaded_difference_text(units: System, figure: LoadedFigure, measured: Measured<AnyKind>) -> String {
    let factor = unit(units, figure).0;
    with_unit(units, figure, &signed_plus_minus(measured.value * factor, expanded(measured.u) * factor))
}

/// Why a frame has no loaded bicycle, in one sentence.
#[must_use]
pub fn not_loaded_text(units: System, why: &NotLoaded) -> String {
    match why {
        NotLoaded::Missing(figures) if figures.is_empty() => "No size is chosen.".to_owned(),
        NotLoaded::Missing(figures) => {
            let figures = figures.iter().map(|f| f.label().to_lowercase()).collect::<Vec<_>>();
            format!("The table does not fix {}.", listed(figures.iter().map(String::as_str)))
        }
        NotLoaded::NoReference => "No frame is the reference, so that saddle and bar have no place.".to_owned(),
        NotLoaded::Posture(PostureError::HandsOutOfReach(by)) => format!(
            "The bar is {} further from the saddle than a rider of this height reaches. Check body height, saddle, stem and bar.",
            length_to_whole(units, *by)
        ),
        NotLoaded::Posture(PostureError::HandsTooNear(by)) => format!(
            "The bar is {} too near the saddle for a rider of this height. Check body height, saddle, stem and bar.",
            length_to_whole(units, *by)
        ),
        NotLoaded::Posture(PostureError::PedalOutOfReach(by)) => format!(
            "A pedal is {} further from the saddle than a leg of a rider of this height reaches. Check body height, saddle \
             height and crank length.",
            length_to_whole(units, *by)
        ),
    }
}

/// Figures that every loading shows.
const IN_TABLE: [LoadedFigure; 8] = [
    LoadedFigure::WeaveSpeed,
    LoadedFigure::CapsizeSpeed,
    LoadedFigure::FrontLoad,
    LoadedFigure::RearLoad,
    LoadedFigure::FrontShare,
    LoadedFigure::PitchOver,
    LoadedFigure::LiftingGrade,
    LoadedFigure::TurnTorque,
];

/// A weight limit and whether this load stays within it.
fn limit_cell(units: System, against: &AgainstLimit) -> FitCell {
    let figure = LoadedFigure::WholeMass;
    let (factor, unit) = unit(units, figure);
    let what = match against.limit.of {
        LimitOf::Whole => "bicycle, rider and luggage",
        LimitOf::RiderAndLuggage => "rider and luggage",
        LimitOf::Rider => "the rider",
    };
    let text = format!("{}{THIN_SPACE}{unit}", fixed(against.limit.kg * factor, 0));
    let load = loaded_text(units, figure, against.load);
    let (mark, says) = if against.load.is_clearly_above(against.limit.kg) {
        (FitMark::No, "That is more than the maker allows.")
    } else if against.load.is_clearly_below(against.limit.kg) {
        (FitMark::Yes, "That is within the limit. Wheels, tyres and racks have limits of their own.")
    } else {
        (FitMark::Open, "That is about the limit: weigh it.")
    };
    FitCell { text, detail: format!("The limit counts {what}: here {load}. {says}"), mark }
}

/// One loading: its figures down, each followed by its difference from the reference; the frames across. `loading` is a
/// place among the findings' loadings, 0 without luggage.
#[must_use]
pub fn loaded_table(lineup: &Lineup, findings: &Findings, loading: usize) -> FitTable {
    let loaded = findings.loaded(lineup);
    let units = lineup.settings.units;
    let frames: Vec<FrameIndex> =
        FrameIndex::numbered(&findings.frames).filter(|(i, f)| is_in_tables(findings, *i, f)).map(|(i, _)| i).collect();
    let base = findings.reference_frame().map_or("the reference", |f| f.letter.as_str());
    let ride = |frame: FrameIndex| frame.of(&loaded.frames).and_then(|f| f.rides.get(loading));
    let mut rows = Vec::new();
    for figure in IN_TABLE {
        let own = |frame: &FrameIndex| match ride(*frame) {
            Some(Ok(ride)) => match (figure, ride.figure(figure)) {
                (LoadedFigure::WeaveSpeed, _) if ride.speeds.self_steady.is_empty() => {
                    open("at no speed", "This bicycle steadies itself at no speed.")
                }
                (_, Some(measured)) => plain(loaded_text(units, figure, measured), loaded_meaning(units, figure)),
                (_, None) => open("–", loaded_meaning(units, figure)),
            },
            Some(Err(why)) => open(UNKNOWN, not_loaded_text(units, why)),
            None => open(UNKNOWN, ""),
        };
        rows.push(FitRow { label: loaded_label(figure).to_owned(), cells: frames.iter().map(own).collect() });
        let apart = |frame: &FrameIndex| {
            if findings.reference == Some(*frame) {
                return plain("reference", "");
            }
            match findings.loaded_difference(lineup, *frame, loading, figure) {
                Some(measured) if measured.is_clear() => plain(loaded_difference_text(units, figure, measured), ""),
                Some(measured) => open(loaded_difference_text(units, figure, measured), "No clear difference."),
                None => open("–", ""),
            }
        };
        if frames.len() > 1 && matches!(figure, LoadedFigure::WeaveSpeed | LoadedFigure::FrontLoad | LoadedFigure::PitchOver) {
            rows.push(FitRow { label: format!("Difference from {base}"), cells: frames.iter().map(apart).collect() });
        }
    }
    for motion in NamedMotion::ALL {
        let cell = |frame: &FrameIndex| match ride(*frame) {
            Some(Ok(ride)) => motion_cell(motion, ride),
            Some(Err(why)) => open(UNKNOWN, not_loaded_text(units, why)),
            None => open(UNKNOWN, ""),
        };
        rows.push(FitRow { label: motion_label(units, motion), cells: frames.iter().map(cell).collect() });
    }
    let limit = |frame: &FrameIndex| match loaded.against_limit(lineup, *frame, loading) {
        Some(against) => limit_cell(units, &against),
        None => open(NOT_PUBLISHED, "Ask the maker what frame, fork, wheels and racks may carry."),
    };
    rows.push(FitRow { label: "Maker’s weight limit".to_owned(), cells: frames.iter().map(limit).collect() });
    if loading == 0 {
        let lean = |frame: &FrameIndex| match frame.of(&loaded.frames).and_then(|f| f.pedal_lean) {
            Some(lean) => {
                plain(lean.text(units), "Lean at which the lower pedal touches the road: a pedal 180 mm out, cranks upright.")
            }
            None => open(UNKNOWN, "It needs the bottom bracket’s height."),
        };
        rows.push(FitRow { label: "Pedal touches the road at a lean of".to_owned(), cells: frames.iter().map(lean).collect() });
    }
    let name = loaded.loadings.get(loading).and_then(|l| l.as_ref()).map(|l| l.name.as_str());
    FitTable {
        corner: format!("With {}", loading_name(name)),
        columns: frames.iter().filter_map(|i| i.of(&findings.frames)).map(name_of).collect(),
        frames,
        rows,
    }
}

/// A table a loading, the first without luggage.
pub fn loaded_tables(lineup: &Lineup, findings: &Findings) -> impl Iterator<Item = FitTable> {
    (0..findings.loaded(lineup).loadings.len()).map(|loading| loaded_table(lineup, findings, loading))
}

/// All loadings in one table, each row named with its loading.
#[must_use]
pub fn loaded_tables_in_one(lineup: &Lineup, findings: &Findings) -> FitTable {
    let mut tables = loaded_tables(lineup, findings).map(|mut table| {
        for row in &mut table.rows {
            row.label = format!("{}: {}", table.corner, row.label);
        }
        table
    });
    let mut whole = tables.next().unwrap_or_else(|| loaded_table(lineup, findings, 0));
    whole.rows.extend(tables.flat_map(|table| table.rows));
    whole
}

/// Name of a change of shape.
#[must_use]
pub fn rule_of_thumb_label(units: System, rule: RuleOfThumb) -> String {
    match rule {
        RuleOfThumb::ShorterChainstay => format!("Chainstay {} shorter", length(units, 25.0)),
        RuleOfThumb::MoreTrail => format!("Trail {} more", length(units, 10.0)),
        RuleOfThumb::LongerFront => format!("Front centre and wheelbase {} longer", length(units, 30.0)),
    }
}

/// What one change of the reference's shape does alone, the loadings across.
#[must_use]
pub fn rules_of_thumb_table(lineup: &Lineup, findings: &Findings) -> FitTable {
    let loaded = findings.loaded(lineup);
    let units = lineup.settings.units;
    let reference = findings.reference.unwrap_or_default();
    let signed = |value: f64, decimals: usize| with_sign(fixed(value, decimals));
    let rows = RuleOfThumb::ALL.map(|rule| FitRow {
        label: rule_of_thumb_label(units, rule),
        cells: (0..loaded.loadings.len())
            .map(|loading| match loaded.rule_of_thumb(reference, loading, rule) {
                Some(effect) => {
                    let (factor, unit) = unit(units, LoadedFigure::WeaveSpeed);
                    let weave = effect.weave.map_or("–".to_owned(), |v| format!("{}{THIN_SPACE}{unit}", signed(v * factor, 1)));
                    let share = per_cent(&signed(effect.front_share_percent, 1));
                    let braking = format!("{}{THIN_SPACE}× gravity", signed(effect.pitch_over, 2));
                    plain(
                        format!("steady from {weave}, front wheel {share}, braking {braking}"),
                        "Rider and luggage stay where they are. Nothing else changes.",
                    )
                }
                None => open(UNKNOWN, ""),
            })
            .collect(),
    });
    let names = loaded.loadings.iter().map(|l| format!("With {}", loading_name(l.as_ref().map(|l| l.name.as_str()))));
    FitTable {
        corner: "One change alone, on the reference".to_owned(),
        frames: Vec::new(),
        columns: names.collect(),
        rows: rows.to_vec(),
    }
}

/// Name of a loading with its kilograms: `rear panniers (15 kg)`.
#[must_use]
pub fn loading_in_brief(units: System, loading: Option<&Loading>) -> String {
    let Some(loading) = loading else {
        return loading_name(None).to_owned();
    };
    format!("{} ({})", loading.name, luggage_text(units, loading.whole_kg()))
}

/// A load as it is typed: `15 kg`.
#[must_use]
pub fn luggage_text(units: System, kg: f64) -> String {
    let (factor, unit) = unit(units, LoadedFigure::WholeMass);
    let load = kg * factor;
    let decimals = usize::from((load - load.round()).abs() > 0.05);
    format!("{}{THIN_SPACE}{unit}", fixed(load, decimals))
}

/// What stands out: on the reference, from which speed it steadies itself with each loading; without luggage, the frame that
/// differs most and clearly.
#[must_use]
pub fn loaded_sentences(lineup: &Lineup, findings: &Findings) -> Vec<String> {
    let loaded = findings.loaded(lineup);
    let units = lineup.settings.units;
    let figure = LoadedFigure::WeaveSpeed;
    let Some((place, letter)) = findings.reference.zip(findings.reference_frame().map(|f| f.letter.as_str())) else {
        return Vec::new();
    };
    let mut sentences = Vec::new();
    let rides = place.of(&loaded.frames).map(|f| f.rides.as_slice()).unwrap_or_default();
    for (i, (loading, ride)) in loaded.loadings.iter().zip(rides).enumerate() {
        let with = match loading {
            None => "Without luggage".to_owned(),
            Some(_) => format!("With {}", loading_in_brief(units, loading.as_ref())),
        };
        match ride {
            Err(why) => {
                sentences.push(format!("{letter}: {}", not_loaded_text(units, why)));
                return sentences;
            }
            Ok(ride) => match ride.figure(figure) {
                Some(speed) => {
                    let by = loaded.by_loading(place, i, figure).filter(|by| i > 0 && by.is_clear());
                    let by = by.map_or(String::new(), |by| {
                        let word = if by.value < 0.0 { "less" } else { "more" };
                        format!(", {} {word} than without", loaded_text(units, figure, by.abs()))
                    });
                    sentences.push(format!("{with} {letter} steadies itself from {}{by}.", loaded_text(units, figure, speed)));
                }
                None => sentences.push(format!("{with} {letter} steadies itself at no speed.")),
            },
        }
    }
    let apart = FrameIndex::numbered(&findings.frames).filter(|(i, f)| is_in_tables(findings, *i, f));
    let apart = apart.filter_map(|(i, f)| Some((f, findings.loaded_difference(lineup, i, 0, figure)?)));
    let most = apart.filter(|(_, d)| d.is_clear()).max_by(|(_, a), (_, b)| a.value.abs().total_cmp(&b.value.abs()));
    if let Some((frame, difference)) = most {
        let word = if difference.value < 0.0 { "less" } else { "more" };
        sentences.push(format!(
            "Without luggage {} steadies itself from {} {word} than {letter}.",
            frame.letter,
            loaded_text(units, figure, difference.abs())
        ));
    }
    sentences
}
