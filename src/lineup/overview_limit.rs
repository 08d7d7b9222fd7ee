//! A limit that the user types at a row of the overview, as a need.

use super::overview_settings::{Better, OverviewRow};
use crate::parts::Need;
use crate::parts::standards::NotUnderstood;
use crate::units::{Quantity, System, as_typed, typed_number};

/// Signs and words of a limit, and whether it is the least.
const SIGNS: [(&str, bool); 10] = [
    ("at most", false),
    ("at least", true),
    ("≤", false),
    ("<=", false),
    ("<", false),
    ("max", false),
    ("≥", true),
    (">=", true),
    (">", true),
    ("min", true),
];

/// The need that a limit such as `≤ 450` at a row means; lengths and weights without a unit are in the chosen units. `None`
/// for an empty text. Without a sign, the limit is on the side where values get worse.
///
/// # Errors
/// What is wrong with it, and how it is written.
pub fn limit_need(row: OverviewRow, text: &str, units: System, bead_mm: f64) -> Result<Option<Need>, NotUnderstood> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let signed = SIGNS.iter().find_map(|(sign, is_least)| Some((text.strip_prefix(sign)?.trim(), *is_least)));
    let usual = row.better().map(|better| (text, better == Better::More));
    let Some((value, is_least)) = signed.or(usual) else {
        return Err(NotUnderstood(format!("`{text}` does not say which side: write \"≤ 450\" or \"≥ 420\"")));
    };
    let side = if is_least { "at least" } else { "at most" };
    if row == OverviewRow::WidestTyre {
        if !is_least {
            return Err(NotUnderstood(format!("`{text}` is not a limit for a tyre: write \"≥ 50\"")));
        }
        return format!("tyre at least {value} on {bead_mm}").parse().map(Some);
    }
    let quantity = row.figure().map(crate::frameset::Figure::quantity).or_else(|| row.measure()?.quantity());
    // In pounds or inches as in grams or millimetres: a number alone is in the units of the row.
    let value = match (typed_number(value), quantity, row) {
        (Some(number), Some(Quantity::Mass), OverviewRow::LoadedWeight) if units == System::Metric => {
            format!("{} kg", as_typed(number))
        }
        (Some(number), Some(quantity), _) => {
            format!("{} {}", as_typed(units.from_field(quantity, number)), quantity.file_unit())
        }
        _ => value.to_owned(),
    };
    let name = row.figure().map(crate::frameset::Figure::label).or_else(|| Some(row.measure()?.name())).unwrap_or_default();
    format!("{} {side} {value}", name.to_lowercase()).parse().map(Some)
}

#[cfg(test)]
mod tests {
    use super::OverviewRow as R;
    use super::*;
    use crate::parts::{Limited, Measure};

    #[test]
    fn a_limit_is_read_in_the_chosen_units_and_on_the_right_side() {
        let read = |row, text, units| limit_need(row, text, units, 622.0).map(|need| need.and_then(|n| n.limit()));
        let limit = |row, text, units| {
            let limit = read(row, text, units).unwrap().unwrap();
            (limit.is_least, limit.value)
        };
        assert_eq!(limit(R::Chainstay, "≤ 450", System::Metric), (false, 450.0));
        assert_eq!(limit(R::Chainstay, ">=17.5", System::Imperial), (true, 444.5));
        assert_eq!(limit(R::FramesetWeight, "2500", System::Metric), (false, 2500.0));
        assert_eq!(limit(R::FramesetWeight, "2.5 kg", System::Metric), (false, 2500.0));
        assert!((limit(R::FramesetWeight, "at most 5", System::Imperial).1 - 2268.0).abs() < 0.1);
        assert_eq!(limit(R::LoadedWeight, "100", System::Metric), (false, 100_000.0));
        assert_eq!(limit(R::BagVolume, "6", System::Metric), (true, 6.0));
        assert_eq!(limit(R::Price, "1200", System::Metric), (false, 1200.0));
        assert_eq!(limit(R::WidestTyre, "50", System::Metric), (true, 50.0));
        assert_eq!(read(R::Bottles, "≥ 2", System::Metric).unwrap().unwrap().of, Limited::Measure(Measure::Bottles));
        assert_eq!(read(R::Price, "  ", System::Metric), Ok(None));
        for (row, text) in [(R::Chainstay, "450"), (R::WidestTyre, "≤ 50"), (R::Trail, "≤ long"), (R::Price, "cheap")] {
            assert!(read(row, text, System::Metric).unwrap_err().0.contains("write"), "{row:?} {text}");
        }
    }

    #[test]
    fn every_row_that_takes_a_limit_reads_one() {
        for row in OverviewRow::ALL.into_iter().filter(|row| row.takes_limit()) {
            let text = match row {
                OverviewRow::Trail => "≤ 80",
                OverviewRow::Chainstay => "≤ 450",
                OverviewRow::Wheelbase => "≤ 1100",
                OverviewRow::Bottles => "2",
                _ => "50",
            };
            let need = limit_need(row, text, System::Metric, 622.0).unwrap().unwrap();
            assert!(need.limit().is_some(), "{row:?}");
        }
    }
}
