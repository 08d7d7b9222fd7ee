//! Sag: how far the frames' own suspension forks are compressed where frames are compared, so that a suspension frame
//! stands beside rigid ones as it is ridden.

use serde::{Deserialize, Deserializer, Serialize, de::Error as _};

use crate::frameset::Frameset;

/// Greatest sag, mm along the steering axis, and percent of a fork's travel.
pub const MOST_SAG_MM: f64 = 100.0;
/// Greatest sag in percent of the travel.
pub const MOST_SAG_PERCENT: f64 = 60.0;

/// Sag of all suspension forks of a comparison.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Sag {
    /// Forks are as long as published.
    #[default]
    Unsagged,
    /// So many mm along the steering axis, at most the fork's travel.
    Millimetres(#[serde(deserialize_with = "millimetres")] f64),
    /// So many percent of each fork's travel.
    Percent(#[serde(deserialize_with = "percent")] f64),
}

impl Sag {
    /// Whether forks are as long as published.
    #[must_use]
    pub fn is_unsagged(&self) -> bool {
        *self == Self::Unsagged
    }

    /// Sag of a frameset's own fork, mm; 0 for a rigid fork, and where no travel is published.
    #[must_use]
    pub fn of(self, frameset: &Frameset) -> f64 {
        let travel = travel_mm(frameset).unwrap_or(0.0);
        match self {
            Self::Unsagged => 0.0,
            Self::Millimetres(mm) => mm.min(travel),
            Self::Percent(percent) => travel * percent / 100.0,
        }
    }
}

/// Travel of a frameset's own suspension fork, mm; `None` for a rigid fork, and where none is published.
#[must_use]
pub fn travel_mm(frameset: &Frameset) -> Option<f64> {
    frameset.fork.as_ref().and_then(|f| f.travel).filter(|t| *t > 0.0)
}

fn within<'de, D: Deserializer<'de>>(deserializer: D, most: f64, unit: &str) -> Result<f64, D::Error> {
    let value = f64::deserialize(deserializer)?;
    if (0.0..=most).contains(&value) {
        return Ok(value);
    }
    Err(D::Error::custom(format!(
        "a sag of {value}{unit} is outside 0 to {most}{unit}: write Percent(20) for a fifth of the travel"
    )))
}

fn millimetres<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    within(deserializer, MOST_SAG_MM, " mm")
}

fn percent<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    within(deserializer, MOST_SAG_PERCENT, " %")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frameset::read_frameset;

    fn frameset(fork: &str) -> Frameset {
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 2, maker: \"Marrowby\", model: \"Drift\", {fork}
             sizes: [(label: \"M\", figures: {{Stack: 600}})])"
        );
        read_frameset(text.as_bytes()).unwrap()
    }

    #[test]
    fn only_suspension_forks_sag_and_by_their_travel_at_most() {
        let (rigid, fork) = (frameset(""), frameset("fork: (travel: 120),"));
        for sag in [Sag::Unsagged, Sag::Millimetres(30.0), Sag::Percent(25.0)] {
            assert_eq!(sag.of(&rigid), 0.0);
        }
        assert_eq!(Sag::Unsagged.of(&fork), 0.0);
        assert_eq!(Sag::Millimetres(30.0).of(&fork), 30.0);
        assert_eq!(Sag::Percent(25.0).of(&fork), 30.0);
        assert_eq!(Sag::Millimetres(100.0).of(&frameset("fork: (travel: 40),")), 40.0);
    }

    #[test]
    fn a_sag_that_no_fork_has_is_refused() {
        for (text, said) in [("Percent(70)", "outside 0 to 60 %"), ("Millimetres(-1)", "outside 0 to 100 mm")] {
            let refused = ron::from_str::<Sag>(text).unwrap_err().to_string();
            assert!(refused.contains(said), "{refused}");
        }
        assert_eq!(ron::from_str::<Sag>("Percent(20)").unwrap(), Sag::Percent(20.0));
    }
}
