//! Price and climb in sentences: which frameset is lightest and how sure that is, what other ways to the size would say,
//! the price per gram saved, the climb, and the gears.
//!
//! Invariant: where there is no clear difference, the sentence says so, and draws nothing from it.

use super::prices::{missing_price_text, price_each, saved_unit};
use super::riding::{cadence_text, climb_described, development_text, duration_text, load_text, no_climb_text, power_text};
use super::weights::by_method;
use crate::frameset::{FrameIndex, Part, Standard};
use crate::lineup::{Findings, FrameFindings, Lightest, Lineup, PriceAndClimb, lightest_of, weight_for_gears, weights_of};
use crate::money::Money;
use crate::parts::standards::{Attachment, FrontDerailleur};
use crate::units::{System, capitalised, fixed, listed, per_cent};
use crate::weight::{Method, PartWeight, WeightChoices, write_factor};

/// Probability from which on the lightest is named: two standard uncertainties, one side.
const CERTAIN: f64 = 0.977;

/// Answers of the comparison, in sentences.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PriceAndClimbAnswers {
    /// Which frameset is lightest at the sizes compared, and how sure that is.
    pub lightest: String,
    /// How weights were converted to the sizes compared, and what other ways would say.
    pub ways: Vec<String>,
    /// Price of the lightest beside the reference, and of each gram saved.
    pub cost: Vec<String>,
    /// The climb with the reference, and with the lightest beside it.
    pub climb: Vec<String>,
}

/// The answers for a line-up and the findings that belong to it.
#[must_use]
pub fn price_and_climb_answers(lineup: &Lineup, findings: &Findings) -> PriceAndClimbAnswers {
    let words = Words { lineup, findings, units: lineup.settings.units };
    let told = words.told_of();
    PriceAndClimbAnswers {
        lightest: words.lightest(),
        ways: words.conversion().into_iter().chain(words.other_ways()).collect(),
        cost: told.iter().filter_map(|place| words.cost(*place)).collect(),
        climb: words.whole_climb().into_iter().chain(told.iter().filter_map(|place| words.climb(*place))).collect(),
    }
}

/// Price of a frame beside the reference, in a sentence; `None` for the reference itself.
#[must_use]
pub fn cost_sentence(lineup: &Lineup, findings: &Findings, place: FrameIndex) -> Option<String> {
    Words { lineup, findings, units: lineup.settings.units }.cost(place)
}

/// Climb of a frame beside the reference, in a sentence; for the reference the climb's whole time.
#[must_use]
pub fn climb_sentence(lineup: &Lineup, findings: &Findings, place: FrameIndex) -> Option<String> {
    let words = Words { lineup, findings, units: lineup.settings.units };
    if findings.reference == Some(place) { words.whole_climb() } else { words.climb(place) }
}

/// What builds do on the reference's wheels, and which shown frames take no front derailleur, in sentences.
#[must_use]
pub fn gear_sentences(lineup: &Lineup, findings: &Findings) -> Vec<String> {
    let (settings, units) = (&lineup.settings.price_and_climb, lineup.settings.units);
    let mut sentences = Vec::new();
    let Some(place) = findings.reference else { return sentences };
    let Some(found) = place.of(&findings.price_and_climb) else { return sentences };
    let gears: Vec<_> =
        settings.builds.iter().zip(&found.gears).filter_map(|(build, gears)| Some((build, gears.as_ref().ok()?))).collect();
    if let (Some(frame), false) = (place.of(&findings.frames), gears.is_empty()) {
        let total = load_text(units, settings.whole_kg(weight_for_gears(frame)));
        let name = name_of(frame);
        sentences.push(format!("Gears are worked out with the rear wheel of {name} and a loaded total of {total}."));
    }
    let steepest = gears.iter().max_by(|a, b| a.1.steepest.value.total_cmp(&b.1.steepest.value));
    if let (Some((build, found)), true) = (steepest, gears.len() > 1) {
        sentences.push(format!(
            "“{}” climbs the steepest gradient: {} at {} and {}, in a gear with {} of development.",
            build.name,
            found.steepest.text(units),
            cadence_text(settings.cadence_rpm),
            power_text(settings.climb.power_w),
            development_text(units, found.lowest_m, found.share_u * found.lowest_m),
        ));
    }
    if let Some(build) = settings.builds.iter().find(|b| b.chainrings.len() > 1) {
        let (mut without, mut unknown) = (Vec::new(), Vec::new());
        for (_, frame) in FrameIndex::numbered(&findings.frames).filter(|(i, f)| is_in_tables(findings, *i, f)) {
            match frame.frameset.standards.get(&Standard::FrontDerailleur).map(|t| FrontDerailleur::read(t)) {
                None | Some(Err(_)) => unknown.push(frame.letter.as_str()),
                Some(Ok(mount)) if mount.attachment == Attachment::None => without.push(frame.letter.as_str()),
                Some(Ok(_)) => {}
            }
        }
        let mut words = Vec::new();
        if !without.is_empty() {
            let have = if without.len() == 1 { "has" } else { "have" };
            words.push(format!("{} {have} no mount for one.", listed(without.into_iter())));
        }
        match unknown.as_slice() {
            [] => {}
            [one] => words.push(format!("The mount of {one} is not published.")),
            several => words.push(format!("The mounts of {} are not published.", listed(several.iter().copied()))),
        }
        if !words.is_empty() {
            sentences.push(format!("“{}” needs a front derailleur. {}", build.name, words.join(" ")));
        }
    }
    sentences
}

/// A frame with its letter and size: `A Marrowby Drift L`.
pub(super) fn name_of(frame: &FrameFindings) -> String {
    format!("{} {} {}", frame.letter, frame.name, frame.size_label()).trim_end().to_owned()
}

struct Words<'a> {
    lineup: &'a Lineup,
    findings: &'a Findings,
    units: System,
}

impl Words<'_> {
    fn name(&self, place: FrameIndex) -> String {
        place.of(&self.findings.frames).map_or_else(String::new, name_of)
    }

    fn letter(&self, place: FrameIndex) -> &str {
        place.of(&self.findings.frames).map_or("", |f| f.letter.as_str())
    }

    fn weight(&self, place: FrameIndex) -> Option<&PartWeight> {
        place.of(&self.findings.frames)?.weights.part(Part::Frameset)
    }

    fn found(&self, place: FrameIndex) -> Option<&PriceAndClimb> {
        place.of(&self.findings.price_and_climb)
    }

    /// A way to another size that counts for the whole line-up: `by your factor, 1.10 per size`.
    fn way(&self, method: Method) -> String {
        let weight = &self.lineup.settings.weight;
        match (method, weight.factor) {
            (Method::YourFactor, Some(factor)) => {
                format!("{}, {} {}", by_method(method), write_factor(factor), super::per_label(weight.per))
            }
            _ => by_method(method).to_owned(),
        }
    }

    fn lightest(&self) -> String {
        let Some(found) = self.findings.lightest else {
            return "No weight of a shown frameset is published.".to_owned();
        };
        let weight = |place| self.weight(place).map_or_else(String::new, |w| w.mass.text(self.units));
        let (name, own) = (self.name(found.frame), weight(found.frame));
        let Some(next) = found.next else {
            return format!("Only {name} has a frameset weight to compare: {own}.");
        };
        let other = self.name(next);
        if found.probability < CERTAIN {
            return format!(
                "Too close to call: the lightest frameset is {name}, {own}, or {other}, {}. {} has a {} chance.",
                weight(next),
                self.letter(found.frame),
                chance(found.probability),
            );
        }
        let difference = found.difference.text(self.units);
        let certainty = certain(found.probability);
        format!("{name} is the lightest frameset: {own}. {other} is next, {difference} heavier ({certainty}).")
    }

    /// How weights were converted; `None` where none was.
    fn conversion(&self) -> Option<String> {
        let parts = [Part::Frame, Part::Frameset];
        let is_converted = |f: &FrameFindings| parts.iter().any(|p| f.weights.part(*p).is_some_and(|w| w.ways.is_some()));
        self.findings.frames.iter().any(|f| f.shown && is_converted(f)).then(|| {
            let way = self.way(self.lineup.settings.weight.method);
            let has_own = self.lineup.frames.iter().any(|e| e.weight_choices != WeightChoices::default());
            let but = if has_own { " Some weights have settings of their own." } else { "" };
            format!("Weights of other sizes are converted {way}.{but}")
        })
    }

    /// The lightest if all weights went another way.
    fn other_ways(&self) -> Vec<String> {
        let others: &[Method] = match self.lineup.settings.weight.method {
            Method::YourFactor => &[Method::TubeLengths],
            Method::TubeLengths => &[Method::YourFactor],
            Method::BetweenWeighedSizes => &[Method::YourFactor, Method::TubeLengths],
        };
        others.iter().filter_map(|method| self.other_way(*method)).collect()
    }

    fn other_way(&self, method: Method) -> Option<String> {
        if method == Method::YourFactor && self.lineup.settings.weight.factor.is_none_or(|f| f == 1.0) {
            // No factor is typed: there is no estimate to compare.
            return None;
        }
        let found = self.lightest_by(method)?;
        if Some(found) == self.findings.lightest {
            return None;
        }
        let next = found.next?;
        let way = capitalised(&self.way(method));
        let (name, other) = (self.name(found.frame), self.letter(next));
        let difference = found.difference.text(self.units);
        if found.probability < CERTAIN {
            let letter = self.letter(found.frame);
            return Some(format!("{way}, {letter} and {other} are too close to call: they differ by {difference}."));
        }
        let is_same = self.findings.lightest.is_some_and(|l| l.frame == found.frame && l.probability >= CERTAIN);
        let too = if is_same { "also " } else { "" };
        let certainty = certain(found.probability);
        Some(format!("{way}, {name} is {too}the lightest: {difference} lighter than {other} ({certainty})."))
    }

    /// The lightest, were all weights brought to their size by one way. The user's lines stay; own ways do not.
    fn lightest_by(&self, method: Method) -> Option<Lightest> {
        let mut settings = self.lineup.settings.weight;
        settings.method = method;
        let frames = FrameIndex::numbered(self.lineup.frames.iter().zip(&self.findings.frames));
        let weighed: Vec<(FrameIndex, PartWeight)> = frames
            .filter(|(i, (_, f))| is_in_tables(self.findings, *i, f))
            .filter_map(|(i, (entry, found))| {
                let mut entry = entry.clone();
                for part in [Part::Frame, Part::Fork, Part::Frameset] {
                    entry.weight_choices.part_mut(part).method = None;
                }
                Some((i, weights_of(&entry, &found.as_published, found.size, &settings).frameset?))
            })
            .collect();
        let of = |place: FrameIndex| weighed.iter().find(|(i, _)| *i == place).map(|(_, w)| w);
        let is_one_frameset = |a: FrameIndex, b: FrameIndex| {
            let (a, b) = (a.of(&self.findings.frames)?, b.of(&self.findings.frames)?);
            Some(a.is_of_same_frameset(b))
        };
        lightest_of(weighed.iter().map(|(i, w)| (*i, w.mass)).collect(), |heavier, lighter| {
            Some(of(heavier)?.difference(of(lighter)?, is_one_frameset(heavier, lighter)?))
        })
    }

    /// The frames that cost and climb are told of: the lightest, the next too where it is too close to call; never the
    /// reference.
    fn told_of(&self) -> Vec<FrameIndex> {
        let Some(found) = self.findings.lightest else { return Vec::new() };
        let mut told = vec![found.frame];
        if found.probability < CERTAIN || self.findings.reference == Some(found.frame) {
            told.extend(found.next);
        }
        told.retain(|place| self.findings.reference != Some(*place));
        told
    }

    fn cost(&self, place: FrameIndex) -> Option<String> {
        let reference = self.findings.reference.filter(|r| *r != place)?;
        let (name, base) = (self.letter(place), self.letter(reference));
        let found = self.found(place)?;
        let missing = missing_price_text(name, &found.offer).or_else(|| missing_price_text(base, &self.found(reference)?.offer));
        if missing.is_some() {
            return missing;
        }
        let unit = saved_unit(self.units);
        let Some(against) = &found.against else {
            return Some(format!("{name}: the price per {unit} saved is unknown (needs both weights)."));
        };
        let price = against.price?;
        let amount = absolute(price).text();
        let is_alike = price.rounded().amount.is_zero();
        let is_cheaper = !is_alike && price.amount.is_sign_negative();
        let mass = against.mass;
        if !mass.is_clear() {
            let cost = match (is_alike, is_cheaper) {
                (true, _) => format!("{name} costs as much as {base}"),
                (_, true) => format!("{name} costs {amount} less than {base}"),
                _ => format!("{name} costs {amount} more than {base}"),
            };
            return Some(format!("{cost}. Their weights show no clear difference: {}.", mass.signed_text(self.units)));
        }
        let difference = mass.abs().text(self.units);
        let is_lighter = mass.value < 0.0;
        Some(match (is_lighter, is_alike, is_cheaper, &against.per_gram) {
            (true, true, ..) => format!("{name} is {difference} lighter than {base}, at the same price."),
            (true, _, true, _) => format!("{name} is lighter and cheaper than {base}: {difference} and {amount} less."),
            (true, _, _, Some(each)) => {
                let each = price_each(self.units, each);
                format!("{name} is {difference} lighter than {base} and costs {amount} more: {each} for each {unit} saved.")
            }
            (true, ..) => format!("{name} is {difference} lighter than {base} and costs {amount} more."),
            (false, true, ..) => format!("{name} is {difference} heavier than {base}, at the same price."),
            (false, _, true, _) => format!("{name} is cheaper but heavier than {base}: {amount} less, {difference} more."),
            (false, ..) => format!("{name} is heavier and dearer than {base}: {difference} and {amount} more."),
        })
    }

    /// The climb and its whole time on the reference.
    fn whole_climb(&self) -> Option<String> {
        let reference = self.findings.reference?;
        let found = self.found(reference)?;
        let climb = climb_described(self.units, &self.lineup.settings.price_and_climb.climb);
        let name = self.name(reference);
        Some(match (&found.climb, found.loaded, found.share_percent) {
            (Ok(time), Some(total), Some(share)) => format!(
                "{name} takes {} for {climb}. Its frameset is {} of the loaded total, {}.",
                duration_text(time.value),
                share.text(self.units),
                load_text(self.units, total.value / 1000.0),
            ),
            (Err(why), ..) => format!("{name}: the time for {climb} is {}.", no_climb_text(self.units, why)),
            _ => format!("{name}: the time for {climb} is unknown."),
        })
    }

    fn climb(&self, place: FrameIndex) -> Option<String> {
        let reference = self.findings.reference.filter(|r| *r != place)?;
        let (name, base) = (self.letter(place), self.letter(reference));
        let found = self.found(place)?;
        if let Err(why) = &found.climb {
            return Some(format!("{name}: the time of the climb is {}.", no_climb_text(self.units, why)));
        }
        let against = found.against.as_ref()?;
        let Some(time) = against.climb else {
            let difference = against.mass.signed_text(self.units);
            return Some(format!(
                "{name} and {base} show no clear difference on the climb: their weights differ by {difference}."
            ));
        };
        let faster = if time.value < 0.0 { "faster" } else { "slower" };
        let lighter = if against.whole_percent.value < 0.0 { "lighter" } else { "heavier" };
        let (seconds, percent) = (time.abs().text(self.units), against.whole_percent.abs().text(self.units));
        Some(format!("{name} is {seconds} {faster} than {base} on the climb: its loaded total is {percent} {lighter}."))
    }
}

fn absolute(money: Money) -> Money {
    Money { amount: money.amount.abs(), ..money }
}

fn chance(probability: f64) -> String {
    per_cent(&fixed(probability * 100.0, 0))
}

fn certain(probability: f64) -> String {
    if probability > 0.9995 {
        return format!("more than {} certain", per_cent("99.9"));
    }
    format!("{} certain", per_cent(&fixed(probability * 100.0, 1)))
}

/// Whether a frame stands in plots and tables: shown, or the reference.
#[must_use]
pub fn is_in_tables(findings: &Findings, place: FrameIndex, frame: &FrameFindings) -> bool {
    frame.shown || findings.reference == Some(place)
}
