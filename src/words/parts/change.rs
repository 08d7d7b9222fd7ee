//! Another fork or other tyres in words: what is put on, what it does, and whether the frame looks corrected for suspension.

use super::super::lengths::{length, length_to_tenth};
use super::wheels::travels;
use crate::frameset::Figure;
use crate::parts::{ChangeFindings, Correction, Look, PutOn};
use crate::units::System;

/// What is put on: `Brindle touring fork, 465.8 mm along the steering axis, offset 45 mm`.
#[must_use]
pub fn put_on_text(units: System, put_on: &PutOn) -> String {
    let tenth = |mm: f64| length_to_tenth(units, mm);
    let mut words = Vec::new();
    match put_on.listed_fork.as_deref() {
        Some("") => words.push("the fork from the parts list".to_owned()),
        Some(name) => words.push(name.to_owned()),
        None if put_on.fork_length.is_some() || put_on.fork_offset.is_some() => words.push("another fork".to_owned()),
        None => {}
    }
    words.extend(put_on.fork_length.map(|mm| format!("{} along the steering axis", tenth(mm))));
    words.extend(put_on.fork_length.filter(|_| put_on.sag > 0.0).map(|_| format!("less {} of sag", tenth(put_on.sag))));
    words.extend(put_on.fork_offset.map(|mm| format!("offset {}", tenth(mm))));
    words.extend(put_on.lower_headset.map(|mm| format!("lower headset stack height {}", tenth(mm))));
    words.extend(put_on.front_tyre.map(|t| format!("front tyre {t}")));
    words.extend(put_on.rear_tyre.map(|t| format!("rear tyre {t}")));
    words.join(", ")
}

/// What a change does, in one sentence: `Head angle −0.30 ± 0.03°, trail +2.1 ± 0.4 mm, bottom bracket height …`.
#[must_use]
pub fn change_sentence(units: System, change: &ChangeFindings) -> String {
    let moved = |(figure, name): (Figure, &str)| {
        let difference = change.figure(figure)?.difference?;
        Some(format!("{name} {}", units.signed_text(figure.quantity(), difference)))
    };
    let figures = [(Figure::HeadAngle, "head angle"), (Figure::Trail, "trail"), (Figure::BbHeight, "bottom bracket height")];
    let told: Vec<String> = figures.into_iter().filter_map(moved).collect();
    format!("{}.", crate::units::capitalised(&told.join(", ")))
}

/// Whether the frame looks corrected for suspension, beside what its maker publishes.
#[must_use]
pub fn correction_text(units: System, correction: &Correction) -> String {
    let beyond = correction.beyond.text(units);
    let spare = format!("The fork is {beyond} longer than the wheel needs.");
    let look = match (correction.own_travel, correction.look, correction.travel) {
        (Some(own), ..) => {
            return with_published(
                units,
                correction,
                format!("The frame is designed for a suspension fork with {} travel. {spare}", length(units, own)),
            );
        }
        (None, Look::Corrected, Some(travel)) => {
            format!("The frame looks suspension-corrected for {} of travel.", travels(units, travel))
        }
        (None, Look::Corrected, None) => "The frame looks suspension-corrected.".to_owned(),
        (None, Look::NotCorrected, _) => "The frame does not look suspension-corrected.".to_owned(),
        (None, Look::CannotTell, _) => "Whether the frame is suspension-corrected is borderline.".to_owned(),
    };
    with_published(units, correction, format!("{spare} {look}"))
}

fn with_published(units: System, correction: &Correction, text: String) -> String {
    match correction.published_travel {
        Some(mm) => format!("{text} The maker publishes {} of travel.", length(units, mm)),
        None if correction.own_travel.is_none() => format!("{text} The maker publishes nothing about it."),
        None => text,
    }
}
