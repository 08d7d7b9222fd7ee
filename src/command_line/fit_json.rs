//! What fits, what is needed, what another fork does and where the rider comes, in the JSON of `figures --json`: the keys
//! `parts`, `needs`, `fork_trial`, `contact_points`, `bottles`, `rear` and `build` of each frame of a line-up, for its chosen size.

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use super::bottles_json::BottleEntry;
use super::build_json::BuildEntry;
use super::numbers::{Pair, pair, rounded};
use super::rear_json::RearEntry;
use spandrel::frameset::FrameIndex;
use spandrel::lineup::{Findings, FrameFit, Lineup, SizeFit};
use spandrel::parts::contact_points::{Clearance, Works};
use spandrel::parts::standards::Wheel;
use spandrel::parts::{About, Number, Verdict};
use spandrel::units::{Measured, System};
use spandrel::words::{
    answer_text, caution_text, correction_text, extras_text, limit_text, matched_code, matched_text, put_on_text, reasons_text,
    repeated_code, repeated_text, saddle_code, saddle_text, size_fit_text, source_text, standover_code, standover_text, toe_code,
    toe_text, upper_headset_code, upper_headset_text,
};

/// One frame's keys.
#[derive(Serialize)]
pub(super) struct FitKeys<'a> {
    chosen_size: &'a str,
    size_fit: SizeFitEntry<'a>,
    parts: Vec<PartEntry<'a>>,
    needs: Vec<NeedEntry<'a>>,
    fork_trial: Option<Changes<'a>>,
    contact_points: ContactPoints<'a>,
    bottles: Vec<BottleEntry>,
    rear: RearEntry,
    build: Option<BuildEntry>,
}

impl<'a> FitKeys<'a> {
    pub(super) fn of(lineup: &'a Lineup, index: FrameIndex, fit: &'a FrameFit, findings: &Findings) -> Self {
        let bottles = index.of(&findings.frames).map(|f| f.luggage.bottles.fits.as_slice()).unwrap_or_default();
        let units = lineup.settings.units;
        let needs = lineup.settings.needs.iter().zip(&fit.answers);
        Self {
            chosen_size: index.of(&lineup.frames).map_or("", |e| e.size.as_str()),
            size_fit: SizeFitEntry::of(units, &fit.size_fit),
            parts: fit.verdicts.iter().map(|v| PartEntry::of(lineup, v)).collect(),
            needs: needs
                .map(|(n, a)| NeedEntry {
                    need: n.text(),
                    answer: a.met.key(),
                    reason: answer_text(units, a),
                    reason_codes: a.reasons.iter().map(|r| r.fact.code()).collect(),
                })
                .collect(),
            fork_trial: changes(units, fit),
            contact_points: ContactPoints::of(units, fit),
            bottles: bottles.iter().map(|fit| BottleEntry::of(units, fit)).collect(),
            rear: RearEntry::of(units, fit.rear.as_ref(), lineup.settings.rear.gear),
            build: index.of(&findings.builds).map(|build| BuildEntry::of(lineup, build)),
        }
    }
}

/// How alike in fit the size compared is to the reference's.
#[derive(Serialize)]
struct SizeFitEntry<'a> {
    basis: &'static str,
    is_alike: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reach_difference: Option<Pair>,
    #[serde(skip_serializing_if = "Option::is_none")]
    closer_size: Option<&'a str>,
    reason: String,
}

impl<'a> SizeFitEntry<'a> {
    fn of(units: System, fit: &'a SizeFit) -> Self {
        Self {
            basis: fit.basis.key(),
            is_alike: fit.is_alike(),
            reach_difference: fit.left_over.map(pair),
            closer_size: fit.closer.as_deref(),
            reason: size_fit_text(units, fit),
        }
    }
}

#[derive(Serialize)]
struct PartEntry<'a> {
    part: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    end: Option<&'static str>,
    #[serde(skip_serializing_if = "str::is_empty")]
    text: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    name: &'a str,
    verdict: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    with: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    with_codes: Vec<&'static str>,
    reason: String,
    reason_codes: Vec<&'static str>,
    numbers: Numbers<'a>,
    source: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    caution: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    caution_code: Option<&'static str>,
}

struct Numbers<'a>(&'a [Number]);

impl Serialize for Numbers<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|n| (n.label, rounded(n.value))))
    }
}

impl<'a> PartEntry<'a> {
    fn of(lineup: &'a Lineup, verdict: &'a Verdict) -> Self {
        let listed = &lineup.settings.parts;
        let fork_name = listed.fork.as_ref().map_or("", |f| f.name.as_str());
        let (part, end, text, name) = match verdict.about {
            About::ForkSteerer => ("fork_steerer", None, "", fork_name),
            About::ForkLength => ("fork_length", None, "", fork_name),
            About::Part(index, end) => {
                let part = listed.parts.get(index);
                let end = end.map(|e| if e == Wheel::Front { "front" } else { "rear" });
                let text = part.map_or("", |p| p.text.as_str());
                (verdict.kind.map_or("", |k| k.key()), end, text, part.map_or("", |p| p.name.as_str()))
            }
        };
        let outcome = &verdict.outcome;
        let units = lineup.settings.units;
        Self {
            part,
            end,
            text,
            name,
            verdict: outcome.fit.key(),
            with: (!outcome.extras.is_empty()).then(|| extras_text(units, &outcome.extras)),
            with_codes: outcome.extras.iter().map(spandrel::parts::Extra::code).collect(),
            reason: reasons_text(units, outcome),
            reason_codes: outcome.reasons.iter().map(spandrel::parts::Reason::code).collect(),
            numbers: Numbers(&outcome.numbers),
            source: source_text(outcome.source),
            caution: outcome.caution.map(caution_text),
            caution_code: outcome.caution.map(|c| c.code()),
        }
    }
}

#[derive(Serialize)]
struct NeedEntry<'a> {
    need: &'a str,
    answer: &'static str,
    reason: String,
    reason_codes: Vec<&'static str>,
}

#[derive(Serialize)]
struct Changes<'a> {
    with: String,
    figures: ChangedFigures<'a>,
    nose_up_deg: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    within_makers_limits: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limits: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limits_code: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    correction: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    correction_code: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    caution: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    caution_code: Option<&'static str>,
}

struct ChangedFigures<'a>(&'a [spandrel::parts::ChangedFigure]);

#[derive(Serialize)]
struct ChangedFigure {
    as_published: Option<Pair>,
    changed: Option<Pair>,
    difference: Option<Pair>,
    unit: &'static str,
}

impl Serialize for ChangedFigures<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for f in self.0 {
            let entry = ChangedFigure {
                as_published: f.before.map(pair),
                changed: f.after.map(pair),
                difference: f.difference.map(pair),
                unit: f.figure.file_unit(),
            };
            map.serialize_entry(f.figure.key(), &entry)?;
        }
        map.end()
    }
}

fn changes(units: System, fit: &FrameFit) -> Option<Changes<'_>> {
    let change = fit.change.as_ref()?;
    Some(Changes {
        with: put_on_text(units, &change.put_on),
        figures: ChangedFigures(&change.figures),
        nose_up_deg: rounded(change.changed.nose_up_deg),
        within_makers_limits: change.limit.as_ref().and_then(spandrel::parts::LengthLimit::is_within),
        limits: change.limit.as_ref().map(|l| limit_text(units, l)),
        limits_code: change.limit.as_ref().map(spandrel::parts::LengthLimit::code),
        correction: change.correction.as_ref().map(|c| correction_text(units, c)),
        correction_code: change.correction.as_ref().map(|c| c.look.code()),
        caution: change.caution.map(caution_text),
        caution_code: change.caution.map(|c| c.code()),
    })
}

#[derive(Serialize)]
struct Gap {
    value: f64,
    u: f64,
    unit: &'static str,
    is_enough: Option<bool>,
    reason: String,
    reason_code: &'static str,
}

fn gap(clearance: &Clearance, reason: String, reason_code: &'static str) -> Gap {
    let Measured { value, u, .. } = clearance.gap;
    Gap { value: rounded(value), u: rounded(u), unit: "mm", is_enough: clearance.is_enough, reason, reason_code }
}

#[derive(Serialize)]
struct Same {
    works: &'static str,
    is_sure: bool,
    stem: Pair,
    stem_angle: f64,
    spacers: Pair,
    reason: String,
    reason_code: &'static str,
    caution: &'static str,
    caution_code: &'static str,
}

#[derive(Serialize)]
struct UpperHeadsetEntry {
    value: f64,
    u: f64,
    unit: &'static str,
    is_assumed: bool,
    reason: String,
    reason_code: &'static str,
}

#[derive(Serialize)]
struct Matched<'a> {
    size: &'a str,
    difference: Pair,
    is_clear: bool,
    reason: String,
    reason_code: &'static str,
}

#[derive(Serialize)]
struct ContactPoints<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    hands: Option<[Pair; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    same_hand_position: Option<Same>,
    #[serde(skip_serializing_if = "Option::is_none")]
    upper_headset_stack_height: Option<UpperHeadsetEntry>,
    #[serde(skip_serializing_if = "Option::is_none")]
    standover_clearance: Option<Gap>,
    #[serde(skip_serializing_if = "Option::is_none")]
    toe_overlap_clearance: Option<Gap>,
    #[serde(skip_serializing_if = "Option::is_none")]
    saddle_setback_from_post: Option<Gap>,
    #[serde(skip_serializing_if = "Option::is_none")]
    closest_size: Option<Matched<'a>>,
}

impl<'a> ContactPoints<'a> {
    fn of(units: System, fit: &'a FrameFit) -> Self {
        let position = &fit.contact_points;
        Self {
            hands: position.hands.map(|[x, y]| [pair(x), pair(y)]),
            same_hand_position: position.repeated.as_ref().map(|r| Same {
                works: Works::key(r.works),
                is_sure: r.is_sure,
                stem: pair(r.stem),
                stem_angle: rounded(r.stem_angle),
                spacers: pair(r.spacers),
                reason: repeated_text(units, r),
                reason_code: repeated_code(r),
                caution: caution_text(r.caution),
                caution_code: r.caution.code(),
            }),
            upper_headset_stack_height: position.upper_headset.as_ref().map(|h| UpperHeadsetEntry {
                value: rounded(h.stack_height.value),
                u: rounded(h.stack_height.u),
                unit: "mm",
                is_assumed: !h.is_entered,
                reason: upper_headset_text(h),
                reason_code: upper_headset_code(h),
            }),
            standover_clearance: position.standover.as_ref().map(|c| gap(c, standover_text(units, c), standover_code(c))),
            toe_overlap_clearance: position.toe.as_ref().map(|t| Gap {
                value: rounded(t.from_pedal.value),
                u: rounded(t.from_pedal.u),
                unit: "mm",
                is_enough: t.is_enough,
                reason: toe_text(units, t),
                reason_code: toe_code(t),
            }),
            saddle_setback_from_post: position.layback.as_ref().map(|c| gap(c, saddle_text(units, c), saddle_code(c))),
            closest_size: position.closest_size.as_ref().map(|m| Matched {
                size: &m.label,
                difference: pair(m.difference),
                is_clear: m.is_clear,
                reason: matched_text(units, m),
                reason_code: matched_code(m),
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use spandrel::frameset::FrameIndex;
    use spandrel::lineup::Findings;

    #[test]
    fn a_line_up_answers_for_parts_needs_changes_and_position() {
        let lineup = spandrel::lineup::read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let findings = Findings::of(&lineup);
        for (index, fit) in FrameIndex::numbered(&findings.fit) {
            let json = serde_json::to_value(super::FitKeys::of(&lineup, index, fit, &findings)).unwrap();
            assert_eq!(json["needs"].as_array().unwrap().len(), lineup.settings.needs.len());
            for part in json["parts"].as_array().unwrap() {
                for key in ["part", "verdict", "reason", "reason_codes", "numbers", "source"] {
                    assert!(!part[key].is_null(), "{key} of {part}");
                }
                assert_eq!(part["with"].is_string(), part["verdict"] == "fits_with", "{part}");
            }
            let bottles = json["bottles"].as_array().unwrap();
            assert_eq!(bottles.len(), findings.frames[index].luggage.bottles.fits.len());
            for bottle in bottles {
                for key in ["alone", "without_bag", "with_bag"] {
                    assert!(["fits", "borderline", "does_not_fit"].contains(&bottle[key].as_str().unwrap()), "{bottle}");
                }
            }
            let gap = fit.rear.as_ref().and_then(spandrel::parts::RearView::chain_to_tyre);
            assert_eq!(json["rear"]["chain_to_tyre"].is_object(), gap.is_some());
            let build = &findings.builds[index];
            assert_eq!(json["build"]["rows"].as_array().unwrap().len(), build.rows.len());
            assert_eq!(json["build"]["price"], build.price.plain());
            let is_reference = findings.reference == Some(index);
            assert_eq!(json["contact_points"]["hands"].is_array(), is_reference);
        }
        let drift = serde_json::to_value(super::FitKeys::of(&lineup, FrameIndex(0), &findings.fit[0], &findings)).unwrap();
        let angle = &drift["fork_trial"]["figures"]["head_angle"];
        let value = |key: &str| angle[key]["value"].as_f64().unwrap();
        assert!((value("changed") - value("as_published") - value("difference")).abs() < 2e-4);
    }

    #[test]
    fn every_sentence_has_its_code() {
        let lineup = spandrel::lineup::read_lineup(include_bytes!("../../sample-frames/village-library.lineup.ron")).unwrap();
        let findings = Findings::of(&lineup);
        for (index, fit) in FrameIndex::numbered(&findings.fit) {
            let json = serde_json::to_value(super::FitKeys::of(&lineup, index, fit, &findings)).unwrap();
            for part in json["parts"].as_array().unwrap() {
                assert!(!part["reason_codes"].as_array().unwrap().is_empty(), "{part}");
                assert_eq!(part["with_codes"].is_array(), part["with"].is_string(), "{part}");
                assert_eq!(part["caution_code"].is_string(), part["caution"].is_string(), "{part}");
            }
            for need in json["needs"].as_array().unwrap() {
                assert!(!need["reason_codes"].as_array().unwrap().is_empty(), "{need}");
            }
            let changes = &json["fork_trial"];
            for key in ["limits", "correction", "caution"] {
                assert_eq!(changes[key].is_string(), changes[format!("{key}_code")].is_string(), "{key} of {changes}");
            }
            for (key, found) in json["contact_points"].as_object().unwrap() {
                assert_eq!(found["reason"].is_string(), found["reason_code"].is_string(), "{key}");
            }
        }
    }
}
