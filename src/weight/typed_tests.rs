//! Bounds and units of what is typed about weights.

use super::*;
use crate::frameset::Part;
use crate::units::System;

const G_PER_LB: f64 = 453.59237;

fn is_refused<T: std::fmt::Debug>(read: &Result<T, TypedError>) -> bool {
    matches!(read, Err(TypedError::Refused(_)))
}

/// A unit that was written is meant; only a bare number may be kilograms or grams in disguise.
#[test]
fn a_written_unit_is_not_doubted() {
    let metric = |text| read_grams(text, Part::Frame, System::Metric);
    assert!(is_refused(&metric("12 g")) && is_refused(&metric("300 kg")) && is_refused(&metric("600 lb")));
    assert!(matches!(metric("12"), Err(TypedError::Asks { value, .. }) if value == 12000.0));
    assert!(matches!(metric("19.9"), Err(TypedError::Asks { .. })) && is_refused(&metric("20")));
    let imperial = |text: &str| read_grams(text, Part::Frame, System::Imperial);
    assert!(is_refused(&imperial("0.04")) && is_refused(&imperial("600 lb")) && is_refused(&imperial("199")));
    for grams in [200.0, 600.0, 15000.0] {
        let asked = imperial(&grams.to_string());
        assert!(matches!(asked, Err(TypedError::Asks { value, .. }) if value == grams), "{asked:?}");
    }
    assert!(is_refused(&imperial("15001")));
}

#[test]
fn fixed_parts_weigh_up_to_three_kilograms() {
    for (text, grams) in [("0", 0.0), ("450", 450.0), ("3 kg", 3000.0)] {
        assert_eq!(read_fixed_parts(text, System::Metric), Ok(grams));
    }
    for text in ["-1", "3001", "some", ""] {
        assert!(is_refused(&read_fixed_parts(text, System::Metric)), "{text}");
    }
    assert!(read_fixed_parts("1", System::Imperial).is_ok_and(|grams| (grams - G_PER_LB).abs() < 0.5));
}

/// 1 lb/in is 453.592 37 g on 25.4 mm: 17.858 g/mm.
#[test]
fn a_weight_by_length_keeps_its_meaning_in_either_units() {
    let each = read_grams_per_mm("0.06", System::Imperial).unwrap();
    assert!((each - 0.06 * G_PER_LB / 25.4).abs() < 1e-4, "{each}");
    let written: f64 = write_grams_per_mm(1.07, System::Imperial).parse().unwrap();
    assert!((written - 1.07 * 25.4 / G_PER_LB).abs() < 1e-6, "{written}");
    assert_eq!(write_grams_per_mm(1.07, System::Metric), "1.07");
    assert!(read_grams_per_mm("10", System::Metric).is_ok() && is_refused(&read_grams_per_mm("10.1", System::Metric)));
    assert!(read_grams_per_mm("0.55", System::Imperial).is_ok() && is_refused(&read_grams_per_mm("0.57", System::Imperial)));
    assert!(is_refused(&read_grams_per_mm("-1", System::Metric)) && is_refused(&read_grams_per_mm("-1", System::Imperial)));
}

#[test]
fn lines_and_ranges_reach_to_their_limits() {
    let metric = System::Metric;
    assert_eq!(read_line_grams("5000", metric), Ok(5000.0));
    assert_eq!(read_line_grams("-5 kg", metric), Ok(-5000.0));
    assert!(is_refused(&read_line_grams("5001", metric)) && is_refused(&read_line_grams("-5001", metric)));
    assert_eq!(read_line_mm("500", metric), Ok(500.0));
    assert_eq!(read_line_mm("-500", metric), Ok(-500.0));
    assert!(is_refused(&read_line_mm("501", metric)) && is_refused(&read_line_mm("-501", metric)));
    assert_eq!(read_plus_minus("0", metric), Ok(0.0));
    assert_eq!(read_plus_minus("5000", metric), Ok(5000.0));
    assert!(is_refused(&read_plus_minus("5001", metric)) && is_refused(&read_plus_minus("-1", metric)));
}
