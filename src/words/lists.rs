//! Needs and parts, one line of words a frame: what it meets or takes, and what it does not.

use super::parts::verdict_title;
use crate::frameset::FrameIndex;
use crate::lineup::Findings;
use crate::parts::{Answer, Fit, Met, Need};
use crate::units::listed;

/// A line about a frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FrameLine {
    /// The frame's place.
    pub frame: FrameIndex,
    /// Its letter.
    pub letter: String,
    /// What is said of it.
    pub text: String,
}

/// Which frame meets the needs; `None` where there are none.
#[must_use]
pub fn needs_list(findings: &Findings, needs: &[Need]) -> Option<Vec<FrameLine>> {
    let line = |answers: &[Answer]| {
        let of = |met: Met| {
            let which: Vec<String> =
                answers.iter().zip(needs).filter(|(a, _)| a.met == met).map(|(_, n)| n.to_string()).collect();
            listed(which.iter().map(String::as_str))
        };
        let all = answers.len();
        let met = answers.iter().filter(|a| a.met == Met::Met).count();
        let mut words = vec![match (met, all) {
            (1, 1) => "meets the one need".to_owned(),
            _ if met == all => format!("meets all {all} needs"),
            (_, 1) => "does not surely meet the one need".to_owned(),
            _ => format!("meets {met} of {all} needs"),
        }];
        for (met, before) in [(Met::NotMet, "not met"), (Met::Borderline, "borderline"), (Met::NotPublished, "unknown")] {
            let which = of(met);
            if !which.is_empty() {
                words.push(format!("{before}: {which}"));
            }
        }
        format!("{}.", words.join("; "))
    };
    let has_needs = findings.fit.iter().any(|f| !f.answers.is_empty());
    has_needs.then(|| lines(findings, &|place| line(&findings.fit[place].answers)))
}

/// Which frame takes the parts; `None` where there are none.
#[must_use]
pub fn parts_list(findings: &Findings) -> Option<Vec<FrameLine>> {
    let line = |place: FrameIndex| {
        let fit = &findings.fit[place];
        let of = |wanted: Fit| {
            let mut titles: Vec<String> = fit.verdicts.iter().filter(|v| v.outcome.fit == wanted).map(verdict_title).collect();
            titles.dedup();
            listed(titles.iter().map(String::as_str))
        };
        let mut words = Vec::new();
        for (wanted, before) in [
            (Fit::DoesNotFit, "does not take"),
            (Fit::FitsWith, "takes with an extra part or on a condition"),
            (Fit::Borderline, "borderline"),
            (Fit::NotPublished, "unknown"),
        ] {
            let which = of(wanted);
            if !which.is_empty() {
                words.push(format!("{before}: {which}"));
            }
        }
        if words.is_empty() { "takes all parts.".to_owned() } else { format!("{}; takes the rest.", words.join("; ")) }
    };
    let has_parts = findings.fit.iter().any(|f| !f.verdicts.is_empty());
    has_parts.then(|| lines(findings, &line))
}

pub(super) fn lines(findings: &Findings, line: &dyn Fn(FrameIndex) -> String) -> Vec<FrameLine> {
    let shown = FrameIndex::numbered(&findings.frames).filter(|(i, f)| f.shown && i.of(&findings.fit).is_some());
    shown.map(|(frame, f)| FrameLine { frame, letter: f.letter.clone(), text: line(frame) }).collect()
}
