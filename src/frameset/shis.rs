//! Head tubes and crown races by their SHIS codes, and how far a lower headset reaches below the head tube: a code that is
//! published wrong says nothing, so it must be one that is made. What fits such a head tube, and how each number is known,
//! is the business of `parts`, which reads this table.

use super::model::LowerFit;

/// How a cup sits in the head tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CupKind {
    /// External cup: the bearing sits outside the head tube.
    External,
    /// Semi-integrated: a cup inside, its flange visible.
    SemiIntegrated,
    /// Integrated: the bearing lies in the head tube itself.
    Integrated,
}

impl CupKind {
    /// All kinds.
    pub const ALL: [Self; 3] = [Self::External, Self::SemiIntegrated, Self::Integrated];

    /// The letters of the code.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::External => "EC",
            Self::SemiIntegrated => "ZS",
            Self::Integrated => "IS",
        }
    }
}

/// Head tubes that have a code: kind of cup, the code's number, finished bore in mm. Trade practice, unverified. The number
/// is a name and not the bore rounded: 49.61 is called 49.
pub const HEAD_TUBES: [(CupKind, u16, f64); 16] = [
    (CupKind::External, 30, 30.10),
    (CupKind::External, 34, 33.95),
    (CupKind::External, 37, 36.95),
    (CupKind::External, 44, 44.00),
    (CupKind::External, 49, 49.61),
    (CupKind::External, 56, 55.95),
    (CupKind::SemiIntegrated, 41, 41.40),
    (CupKind::SemiIntegrated, 44, 44.00),
    (CupKind::SemiIntegrated, 49, 49.61),
    (CupKind::SemiIntegrated, 55, 54.95),
    (CupKind::SemiIntegrated, 56, 55.95),
    (CupKind::Integrated, 41, 41.15),
    (CupKind::Integrated, 42, 42.00),
    (CupKind::Integrated, 47, 47.05),
    (CupKind::Integrated, 49, 49.10),
    (CupKind::Integrated, 52, 52.10),
];

/// Crown races that are made, mm. Trade practice, unverified.
pub const CROWN_RACES_MM: [f64; 5] = [26.4, 27.0, 30.0, 33.0, 40.0];

/// The fit that a code such as `EC44/40` states; `NotStated` where it is no code or none that is made.
pub(super) fn lower_fit(text: &str) -> LowerFit {
    let code: String = text.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_uppercase).collect();
    let Some((kind, (tube, race))) = code.get(..2).zip(code.get(2..).and_then(|rest| rest.split_once('/'))) else {
        return LowerFit::NotStated;
    };
    let Some(kind) = CupKind::ALL.into_iter().find(|k| k.code() == kind) else { return LowerFit::NotStated };
    let fit = match kind {
        CupKind::External => LowerFit::Outside,
        CupKind::SemiIntegrated | CupKind::Integrated => LowerFit::Inside,
    };
    let number = |text: &str| -> Option<f64> {
        let is_plain = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b','));
        if is_plain { text.replacen(',', ".", 1).parse().ok() } else { None }
    };
    let is_tube = number(tube).is_some_and(|n| HEAD_TUBES.iter().any(|(k, code, _)| *k == kind && f64::from(*code) == n));
    let is_race = number(race).is_some_and(|n| CROWN_RACES_MM.iter().any(|r| (r - n).abs() < 0.11));
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
