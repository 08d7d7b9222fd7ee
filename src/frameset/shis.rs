//! How far a lower headset reaches below the head tube, by its SHIS code: a code that is printed wrong says nothing, so
//! it must be one that is made. What fits such a head tube, and how each number is known, is the business of `parts`,
//! whose tables hold the same numbers.

use super::model::LowerFit;

/// Numbers of head tubes for external, semi-integrated and integrated cups.
const OUTSIDE: [f64; 6] = [30.0, 34.0, 37.0, 44.0, 49.0, 56.0];
const SEMI: [f64; 5] = [41.0, 44.0, 49.0, 55.0, 56.0];
const INTEGRATED: [f64; 5] = [41.0, 42.0, 47.0, 49.0, 52.0];
/// Crown races that are made, mm.
const RACES_MM: [f64; 5] = [26.4, 27.0, 30.0, 33.0, 40.0];

/// The fit that a code such as `EC44/40` states; `NotStated` where it is no code or none that is made.
pub(super) fn lower_fit(text: &str) -> LowerFit {
    let code: String = text.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_uppercase).collect();
    let Some((kind, (tube, race))) = code.get(..2).zip(code.get(2..).and_then(|rest| rest.split_once('/'))) else {
        return LowerFit::NotStated;
    };
    let (tubes, fit): (&[f64], _) = match kind {
        "EC" => (&OUTSIDE, LowerFit::Outside),
        "ZS" => (&SEMI, LowerFit::Inside),
        "IS" => (&INTEGRATED, LowerFit::Inside),
        _ => return LowerFit::NotStated,
    };
    let number = |text: &str| -> Option<f64> {
        let is_plain = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b','));
        if is_plain { text.replacen(',', ".", 1).parse().ok() } else { None }
    };
    let is_tube = number(tube).is_some_and(|n| tubes.contains(&n));
    let is_race = number(race).is_some_and(|n| RACES_MM.iter().any(|r| (r - n).abs() < 0.11));
    if is_tube && is_race { fit } else { LowerFit::NotStated }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_code_that_is_made_states_a_fit() {
        for (text, fit) in [
            ("EC44/40", LowerFit::Outside),
            ("ec 34/30", LowerFit::Outside),
            ("ZS56/40", LowerFit::Inside),
            ("IS52/40,0", LowerFit::Inside),
            ("ECHO", LowerFit::NotStated),
            ("EC44/400", LowerFit::NotStated),
            ("EC45/40", LowerFit::NotStated),
            ("EC44", LowerFit::NotStated),
            ("EC44/", LowerFit::NotStated),
            ("EÄ44/40", LowerFit::NotStated),
            ("", LowerFit::NotStated),
        ] {
            assert_eq!(lower_fit(text), fit, "{text}");
        }
    }
}
