//! How a weight is known, and weights and their differences in words.

use super::scene::Role;
use crate::frameset::Part;
use crate::lineup::{Findings, FrameFindings};
use crate::units::{MINUS, System, THIN_SPACE, fixed};

/// How a weight is known, the surest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    /// Put on a scale, in this size.
    Weighed,
    /// Said by the maker.
    Claimed,
    /// Brought to this size from another.
    Estimated,
}

impl Kind {
    /// In words, for the key.
    pub(super) const fn label(self) -> &'static str {
        match self {
            Self::Weighed => "weighed",
            Self::Claimed => "claimed by the maker",
            Self::Estimated => "estimated from another size",
        }
    }
}

/// How a frame's weight of that part is known; a frameset that is summed is as sure as its less sure part.
pub(super) fn kind(frame: &FrameFindings, part: Part) -> Kind {
    let Some(weight) = frame.weights.part(part) else { return Kind::Claimed };
    if weight.published.is_none() {
        return kind(frame, Part::Frame).max(kind(frame, Part::Fork));
    }
    match (weight.is_estimate, weight.ways.is_some()) {
        (false, _) => Kind::Weighed,
        (true, false) => Kind::Claimed,
        (true, true) => Kind::Estimated,
    }
}

/// `2734 ± 124 g`.
pub(super) fn value_words(frame: &FrameFindings, part: Part, units: System) -> String {
    let Some(weight) = frame.weights.part(part) else { return "not stated".to_owned() };
    weight.mass.text(units)
}

/// A weight's difference from the reference's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct DifferenceWords {
    /// `−70 ± 20 g (−2.4 %)`.
    pub(super) text: String,
    /// Ink where it is larger than its ±, grey where the ± covers it.
    pub(super) role: Role,
}

/// The difference in words; `None` for the reference itself and where either weight is not stated.
pub(super) fn difference_words(findings: &Findings, place: usize, part: Part, units: System) -> Option<DifferenceWords> {
    let difference = findings.weight_difference(place, part)?;
    let reference = findings.reference_frame()?.weights.part(part)?;
    let percent = signed(difference.value / reference.mass.value * 100.0, 1);
    let text = format!("{} ({percent}{THIN_SPACE}%)", difference.signed_text(units));
    Some(DifferenceWords { text, role: if difference.is_clear() { Role::Ink } else { Role::Grey } })
}

/// A number with its sign always written, except zero.
fn signed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    let is_zero = text.bytes().all(|b| b == b'0' || b == b'.');
    if value > 0.0 && !is_zero && !text.starts_with(MINUS) { format!("+{text}") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::lineup;
    use crate::lineup::WeightSettings;
    use crate::weight::Method;

    #[test]
    fn a_sum_is_as_sure_as_its_less_sure_part() {
        let mut lineup = lineup(4);
        lineup.settings.weight.factor = Some(1.1);
        for entry in &mut lineup.frames {
            entry.size = "L".to_owned();
        }
        let findings = Findings::of(&lineup);
        let kinds = |place: usize, part| kind(&findings.frames[place], part);
        // A: frame weighed in M, fork weighed.
        assert_eq!(
            (kinds(0, Part::Frame), kinds(0, Part::Fork), kinds(0, Part::Frameset)),
            (Kind::Estimated, Kind::Weighed, Kind::Estimated)
        );
        // B: both claimed, the frame in L.
        assert_eq!((kinds(1, Part::Frame), kinds(1, Part::Frameset)), (Kind::Claimed, Kind::Claimed));
        // C: only the frameset, claimed.
        assert_eq!(kinds(2, Part::Frameset), Kind::Claimed);
        assert_eq!(value_words(&findings.frames[2], Part::Frame, System::Metric), "not stated");
    }

    #[test]
    fn differences_have_grams_and_per_cent_and_a_plus_minus() {
        let mut lineup = lineup(4);
        for entry in &mut lineup.frames {
            entry.size = "M".to_owned();
        }
        let findings = Findings::of(&lineup);
        let words = |place| difference_words(&findings, place, Part::Frame, System::Metric);
        // D 2350 g to 10 g, A 2640 g to 5 g, both weighed in M: −290 g, 2u = 2 √(100 + 25) / √12 = 6.5 g.
        let d = words(3).unwrap();
        assert_eq!((d.text.replace(THIN_SPACE, " ").as_str(), d.role), ("−290 ± 6 g (−11.0 %)", Role::Ink));
        // B is claimed, 2790 g in L, which leaves 5 % of ±; with a factor of 1.05 down from L it is 17 g more, ± 147 g of
        // claim and factor: grey.
        lineup.settings.weight = WeightSettings { factor: Some(1.05), method: Method::Stated, ..WeightSettings::default() };
        let findings = Findings::of(&lineup);
        let b = difference_words(&findings, 1, Part::Frame, System::Metric).unwrap();
        let u = (2790.0 * 0.025 / 1.05f64).hypot(2790.0 * 0.0125 / 1.05 / 1.05).hypot(5.0 / 12f64.sqrt());
        let expected = format!("+17 ± {:.0} g (+0.6 %)", 2.0 * u);
        assert_eq!((b.text.replace(THIN_SPACE, " "), b.role), (expected, Role::Grey));
        assert_eq!(words(0), None);
        assert_eq!(words(2), None, "a frameset's weight is no frame's");
    }
}
