//! Rows that name tyres and wheels. A row that names one tyre for all sizes gives the frameset's tyre; anything else is
//! kept as a note, with a word on why.

use super::cell_error::CellError;
use super::names::Meaning;
use super::reading::{Answers, Reading, Stated};
use super::row::Row;
use super::skeleton::Skeleton;
use crate::frameset::TyreSize;

/// Reads the tyre rows; warns where sizes stand on different wheels.
pub(super) fn read_tyres(bones: &Skeleton, rows: &mut [Row], answers: &Answers, reading: &mut Reading) {
    for (raw, row) in bones.rows.iter().zip(rows.iter_mut()) {
        if answers.assigned.contains_key(&raw.line) {
            continue;
        }
        let front = match raw.found.as_ref().map(|f| (&f.meaning, f.likeness >= super::names::SURE)) {
            Some((Meaning::Tyre, true)) => false,
            Some((Meaning::FrontTyre, true)) => true,
            Some((Meaning::Wheel, _)) => {
                if several(raw.cells.iter()) {
                    reading.remarks.push(format!(
                        "“{}” differs between sizes: a frameset has one tyre for all its sizes, so import each wheel size as a separate frameset",
                        raw.label
                    ));
                }
                continue;
            }
            _ => continue,
        };
        let stated: Vec<&String> = raw.cells.iter().filter(|c| !matches!(c.as_str(), "" | "-" | "–" | "—")).collect();
        if several(stated.iter().copied()) {
            row.reading
                .remarks
                .push("Tyres differ between sizes. They are kept as a note, because a frameset has one.".to_owned());
            reading.remarks.push(format!(
                "“{}” differs between sizes: a frameset has one tyre for all its sizes, so import each tyre size as a separate frameset",
                raw.label
            ));
            continue;
        }
        let Some(text) = stated.first() else { continue };
        match designation(text) {
            Ok((tyre, remark)) => {
                if front {
                    reading.front_tyre = Some(tyre);
                } else {
                    reading.tyre = Some(tyre);
                }
                row.reading.kept_as_note = false;
                row.reading.remarks.push(remark.unwrap_or_else(|| format!("Read as the tyre {tyre}.")));
            }
            Err(problem) => row.reading.remarks.push(problem.to_string()),
        }
    }
    if let Stated::ByUser(tyre) = answers.tyre {
        reading.tyre = tyre;
    }
}

fn several<'a>(cells: impl Iterator<Item = &'a String>) -> bool {
    let mut cells: Vec<String> = cells.map(|c| c.to_lowercase().replace(' ', "")).filter(|c| !c.is_empty()).collect();
    cells.sort_unstable();
    cells.dedup();
    cells.len() > 1
}

/// A tyre by its ISO 5775 designation, or by a trade name whose rim is not in doubt (700C and 29 inch are bead seat 622,
/// 650B and 27.5 inch 584, 26 inch with decimals 559: trade practice, unverified), with a remark in the latter case.
pub(super) fn designation(text: &str) -> Result<(TyreSize, Option<String>), CellError> {
    let plain = text.trim().trim_end_matches("mm").trim().replace(',', ".");
    if let Ok(tyre) = plain.parse::<TyreSize>() {
        return Ok((tyre, None));
    }
    let lower = plain.to_lowercase().replace(['×', '*'], "x").replace(['"', '″', '”', ' '], "").replace("''", "");
    let (rim, width) = lower.split_once('x').ok_or_else(|| CellError::NotATyre(text.to_owned()))?;
    let ambiguous = || CellError::AmbiguousTyre(text.to_owned());
    // A letter may stand after either number: 700Cx45, 700x45C.
    let number = width.trim_end_matches(|c: char| c.is_alphabetic());
    let width_value: f64 = number.parse().ok().filter(|w: &f64| w.is_finite()).ok_or_else(ambiguous)?;
    let in_inches = width_value < WIDEST_INCHES;
    let bead_seat = match rim {
        "700" | "700c" | "29" | "29er" => 622,
        "650b" | "27.5" => 584,
        "26" if in_inches && number.contains('.') => 559,
        _ => return Err(ambiguous()),
    };
    let tyre = of_width(width_value, bead_seat).ok_or_else(ambiguous)?;
    Ok((tyre, Some(format!("“{text}” is read as the tyre {tyre}."))))
}

/// Widths below this are inches.
const WIDEST_INCHES: f64 = 6.0;

/// The tyre of a width, in inches or mm by its size, on a bead seat diameter, mm.
pub(super) fn of_width(width: f64, bead_seat: u32) -> Option<TyreSize> {
    let millimetres = if width < WIDEST_INCHES { width * 25.4 } else { width };
    let whole = (18..=150u32).find(|mm| (f64::from(*mm) - millimetres).abs() <= 0.5)?;
    TyreSize::new(whole, bead_seat).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn designations_and_trade_names() {
        for (text, tyre) in [
            ("47-622", "47-622"),
            ("700x45c", "45-622"),
            ("700C × 38", "38-622"),
            ("29 x 2.25\"", "57-622"),
            ("27,5 × 2,1", "53-584"),
            ("650B x 47", "47-584"),
            ("26 x 2.1", "53-559"),
        ] {
            assert_eq!(designation(text).map(|(t, _)| t.to_string()), Ok(tyre.to_owned()), "{text}");
        }
        // 26 × 1½ is another rim than 26 × 1.5, and 28 has two: neither is guessed.
        for text in ["26 x 1 1/2", "28 x 1.5", "622-47 mm?", "29\"", "up to 50 mm", "700 x 0", "29xinf"] {
            assert!(designation(text).is_err(), "{text}");
        }
    }
}
