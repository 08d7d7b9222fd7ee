//! What weight and price come to, in sentences: which frameset is lightest and how sure that is, whether another way to
//! the size would say otherwise, what each saved gram costs, and what the difference does on the climb.
//!
//! Invariant: where a difference is within its ±, the sentence says that nobody can tell, and draws nothing from it.

use crate::frameset::{Part, Standard};
use crate::lineup::{Findings, FrameFindings, Lightest, Lineup, PriceAndClimb, lightest_of, weight_for_gears, weights_of};
use crate::money::Money;
use crate::parts::standards::{Attachment, FrontDerailleur};
use crate::riding::duration_text;
use crate::units::{System, THIN_SPACE, expanded, fixed, listed, plus_minus};
use crate::weight::{Method, PartWeight, Weighing, disagreement, write_factor};

/// How sure one must be before the lightest is named without doubt: two standard uncertainties, one side.
const SURE: f64 = 0.977;

/// The answers of the comparison, shortest first to read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PriceAndClimbAnswers {
    /// Which frameset is lightest at the sizes compared, and how sure that is.
    pub lightest: String,
    /// What the other ways to the size would say.
    pub other_ways: Vec<String>,
    /// What the lightest costs beside the reference, gram by gram.
    pub cost: Vec<String>,
    /// What it does on the climb.
    pub climb: Vec<String>,
}

/// The answers for a line-up and the findings that belong to it.
#[must_use]
pub fn price_and_climb_answers(lineup: &Lineup, findings: &Findings) -> PriceAndClimbAnswers {
    let words = Words { lineup, findings, units: lineup.settings.units };
    let mut said = PriceAndClimbAnswers { lightest: words.lightest(), ..PriceAndClimbAnswers::default() };
    said.other_ways = words.other_ways();
    let told = words.told_of();
    said.cost = told.iter().filter_map(|place| words.cost(*place)).collect();
    said.climb.extend(words.whole_climb());
    said.climb.extend(told.iter().filter_map(|place| words.climb(*place)));
    said
}

/// What a frame costs beside the reference, in a sentence; `None` for the reference itself.
#[must_use]
pub fn cost_sentence(lineup: &Lineup, findings: &Findings, place: usize) -> Option<String> {
    Words { lineup, findings, units: lineup.settings.units }.cost(place)
}

/// What a frame does on the climb beside the reference, in a sentence; for the reference the climb's whole time.
#[must_use]
pub fn climb_sentence(lineup: &Lineup, findings: &Findings, place: usize) -> Option<String> {
    let words = Words { lineup, findings, units: lineup.settings.units };
    if findings.reference == Some(place) { words.whole_climb() } else { words.climb(place) }
}

/// Where the typed factor and the tubes' lengths disagree about a frame, in a sentence with both numbers.
#[must_use]
pub fn disagreement_sentence(findings: &Findings, place: usize) -> Option<String> {
    let frame = findings.frames.get(place)?;
    let weight = [Part::Frame, Part::Frameset].into_iter().find_map(|p| frame.weights.part(p).filter(|w| w.ways.is_some()))?;
    let from = weight.published.and_then(|p| p.size).and_then(|s| frame.frameset.sizes.get(s))?;
    disagreement(weight.ways.as_ref()?, &from.label, frame.size_label())
}

/// What builds do on the reference's wheels, and which shown frames take none of two rings, in sentences.
#[must_use]
pub fn gear_sentences(lineup: &Lineup, findings: &Findings) -> Vec<String> {
    let settings = &lineup.settings.riding;
    let mut sentences = Vec::new();
    let Some(place) = findings.reference else { return sentences };
    let Some(worth) = findings.price_and_climb.get(place) else { return sentences };
    let found: Vec<_> =
        settings.builds.iter().zip(&worth.gears).filter_map(|(build, gears)| Some((build, gears.as_ref().ok()?))).collect();
    if let (Some(frame), false) = (findings.frames.get(place), found.is_empty()) {
        let whole = settings.whole_kg(weight_for_gears(frame));
        sentences.push(format!(
            "With the rear wheel of {} {} {} and {} that move.",
            frame.letter,
            frame.name,
            frame.size_label(),
            with_unit(whole, 1, "kg"),
        ));
    }
    let steepest = found.iter().max_by(|a, b| a.1.steepest.value.total_cmp(&b.1.steepest.value));
    if let (Some((build, gears)), true) = (steepest, found.len() > 1) {
        sentences.push(format!(
            "“{}” climbs steepest: at {} turns a minute and {} it holds {}, in a gear of {}.",
            build.name,
            fixed(settings.cadence_rpm, 0),
            with_unit(settings.climb.power_w, 0, "W"),
            gears.steepest.text(System::Metric),
            with_plus_minus(gears.lowest_m, gears.share_u * gears.lowest_m, "m"),
        ));
    }
    if let Some(build) = settings.builds.iter().find(|b| b.chainrings.len() > 1) {
        let shown = findings.frames.iter().enumerate().filter(|(i, f)| f.shown || findings.reference == Some(*i));
        let (mut without, mut unknown) = (Vec::new(), Vec::new());
        for (_, frame) in shown {
            match frame.frameset.standards.get(&Standard::FrontDerailleur).map(|t| FrontDerailleur::read(t)) {
                None | Some(Err(_)) => unknown.push(frame.letter.as_str()),
                Some(Ok(mount)) if mount.attachment == Attachment::None => without.push(frame.letter.as_str()),
                Some(Ok(_)) => {}
            }
        }
        for (letters, says) in [(without, "no place for a front derailleur"), (unknown, "a mount that is not stated")] {
            if !letters.is_empty() {
                let have = if letters.len() == 1 { "has" } else { "have" };
                sentences.push(format!(
                    "“{}” needs a front derailleur: {} {have} {says}.",
                    build.name,
                    listed(letters.iter().copied())
                ));
            }
        }
    }
    sentences
}

/// What a whole total of money or weight stands for in a sentence, with its unit.
fn with_unit(value: f64, decimals: usize, unit: &str) -> String {
    format!("{}{THIN_SPACE}{unit}", fixed(value, decimals))
}

struct Words<'a> {
    lineup: &'a Lineup,
    findings: &'a Findings,
    units: System,
}

impl Words<'_> {
    fn name(&self, place: usize) -> String {
        let Some(frame) = self.findings.frames.get(place) else { return String::new() };
        format!("{} {} {}", frame.letter, frame.name, frame.size_label()).trim_end().to_owned()
    }

    fn letter(&self, place: usize) -> &str {
        self.findings.frames.get(place).map_or("", |f| f.letter.as_str())
    }

    fn weight(&self, place: usize) -> Option<&PartWeight> {
        self.findings.frames.get(place)?.weights.part(Part::Frameset)
    }

    fn worth(&self, place: usize) -> Option<&PriceAndClimb> {
        self.findings.price_and_climb.get(place)
    }

    /// The way to another size that counts for the whole line-up, in words.
    fn way(&self, method: Method) -> String {
        match method {
            Method::Stated => {
                let weight = &self.lineup.settings.weight;
                match weight.factor {
                    Some(factor) => format!("the stated factor {} ({})", write_factor(factor), weight.per.label()),
                    None => "the stated factor (none is typed for all weights)".to_owned(),
                }
            }
            Method::TubeLengths => "tube lengths".to_owned(),
            Method::BetweenWeighed => "the line between weighed sizes".to_owned(),
        }
    }

    fn lightest(&self) -> String {
        let Some(found) = self.findings.lightest else {
            return "Which frameset is lightest is open: no shown frameset’s weight is stated.".to_owned();
        };
        let is_scaled = self.findings.frames.iter().any(|f| {
            f.shown && [Part::Frame, Part::Frameset].iter().any(|p| f.weights.part(*p).is_some_and(|w| w.ways.is_some()))
        });
        let own_ways = self.lineup.frames.iter().any(|e| e.weighing != Weighing::default());
        let by = match (is_scaled, own_ways) {
            (false, _) => "As published".to_owned(),
            (true, false) => format!("With other sizes by {}", self.way(self.lineup.settings.weight.method)),
            (true, true) => {
                format!("With other sizes by {} and each weight’s own choices", self.way(self.lineup.settings.weight.method))
            }
        };
        let weight = self.weight(found.frame).map_or_else(String::new, |w| w.mass.text(self.units));
        let name = self.name(found.frame);
        let Some(next) = found.next else {
            return format!("{by}: {name} is the only frameset whose weight is stated, {weight}.");
        };
        let other = self.weight(next).map_or_else(String::new, |w| w.mass.text(self.units));
        if found.probability < SURE {
            return format!(
                "{by}, nobody can tell which frameset is lightest: {name} at {weight} or {} at {other}; {} that it is {}.",
                self.name(next),
                chance(found.probability),
                self.letter(found.frame),
            );
        }
        let by_how_much = found.difference.text(self.units);
        format!(
            "{by}, {name} is the lightest frameset: {weight}. The next, {}, is {by_how_much} heavier; {}.",
            self.name(next),
            sure(found.probability),
        )
    }

    /// The lightest if all weights went another way.
    fn other_ways(&self) -> Vec<String> {
        let own = self.lineup.settings.weight.method;
        let others = match own {
            Method::Stated => vec![Method::TubeLengths],
            Method::TubeLengths => vec![Method::Stated],
            Method::BetweenWeighed => vec![Method::Stated, Method::TubeLengths],
        };
        let mut sentences = Vec::new();
        for method in others {
            if method == Method::Stated && self.lineup.settings.weight.factor.is_none_or(|f| f == 1.0) {
                // No factor is typed: there is no guess to set beside it.
                continue;
            }
            let Some(found) = self.lightest_by(method) else { continue };
            if Some(found) == self.findings.lightest {
                continue;
            }
            let is_same = self.findings.lightest.is_some_and(|l| l.frame == found.frame && l.probability >= SURE);
            let (Some(next), way) = (found.next, self.way(method)) else { continue };
            let (first, second) = (self.name(found.frame), self.letter(next));
            let difference = found.difference.text(self.units);
            sentences.push(if found.probability < SURE {
                format!(
                    "By {way} nobody could tell {first} from {}: {difference} between them, {} that it is {}.",
                    self.name(next),
                    chance(found.probability),
                    self.letter(found.frame),
                )
            } else {
                let too = if is_same { "it would be the same, " } else { "it would be " };
                format!("By {way} {too}{first}, {difference} before {second}; {}.", sure(found.probability))
            });
        }
        sentences
    }

    /// The lightest, were all weights brought to their size by one way. The user's lines stay; own ways do not.
    fn lightest_by(&self, method: Method) -> Option<Lightest> {
        let mut settings = self.lineup.settings.weight;
        settings.method = method;
        let weights = self.lineup.frames.iter().zip(&self.findings.frames).enumerate();
        let stated =
            weights.filter(|(i, (_, f))| f.shown || self.findings.reference == Some(*i)).filter_map(|(i, (entry, found))| {
                let mut entry = entry.clone();
                for part in [Part::Frame, Part::Fork, Part::Frameset] {
                    entry.weighing.part_mut(part).method = None;
                }
                let whole = weights_of(&entry, &found.as_drawn, found.size, &settings).frameset?;
                Some((i, whole.mass))
            });
        lightest_of(stated.collect())
    }

    /// The frames that cost and climb are told of: the lightest, the next too where nobody can tell; never the reference.
    fn told_of(&self) -> Vec<usize> {
        let Some(found) = self.findings.lightest else { return Vec::new() };
        let mut told = vec![found.frame];
        if found.probability < SURE || self.findings.reference == Some(found.frame) {
            told.extend(found.next);
        }
        told.retain(|place| self.findings.reference != Some(*place));
        told
    }

    fn cost(&self, place: usize) -> Option<String> {
        let reference = self.findings.reference.filter(|r| *r != place)?;
        let (name, base) = (self.letter(place), self.letter(reference));
        let worth = self.worth(place)?;
        if let Err(why) = &worth.offer.set {
            return Some(format!("{name}: the set’s price is {}.", not_priced(&why.to_string())));
        }
        if let Err(why) = &self.worth(reference)?.offer.set {
            return Some(format!("{base}, the reference: the set’s price is {}.", not_priced(&why.to_string())));
        }
        let Some(against) = &worth.against else {
            return Some(format!("{name}: without both weights no gram has a price."));
        };
        let price = against.price?;
        let dearer = if price.rounded().amount.is_zero() {
            format!("costs as much as {base}")
        } else if price.amount.is_sign_negative() {
            format!("costs {} less than {base}", absolute(price).text())
        } else {
            format!("costs {} more than {base}", price.text())
        };
        let mass = against.mass;
        if !mass.is_clear() {
            return Some(format!(
                "{name} {dearer}; its weight cannot be told from {base}’s ({}), so no gram has a price.",
                mass.signed_text(self.units)
            ));
        }
        let difference = mass.abs().text(self.units);
        Some(match &against.per_gram {
            Some((each, _)) if each.amount.is_sign_negative() || each.amount.is_zero() => {
                format!("{name} {dearer} and is {difference} lighter: its grams cost nothing.")
            }
            Some((each, plus_minus)) => {
                let currency = each.currency.code();
                format!(
                    "{name} {dearer} and is {difference} lighter: {}{THIN_SPACE}±{THIN_SPACE}{}{THIN_SPACE}{currency} for each gram saved.",
                    each.digits(),
                    plus_minus.digits(),
                )
            }
            None => format!("{name} {dearer} and is {difference} heavier: it saves no gram."),
        })
    }

    /// The climb and its whole time on the reference.
    fn whole_climb(&self) -> Option<String> {
        let reference = self.findings.reference?;
        let worth = self.worth(reference)?;
        let climb = &self.lineup.settings.riding.climb;
        let described = format!(
            "{} at {} with {}",
            with_unit(climb.length_km, decimals(climb.length_km), "km"),
            with_unit(climb.gradient_percent, decimals(climb.gradient_percent), "%"),
            with_unit(climb.power_w, 0, "W"),
        );
        let name = self.name(reference);
        Some(match (&worth.climb, worth.whole_kg, worth.share_percent) {
            (Ok(time), Some(whole), Some(share)) => format!(
                "{described} take {name} {}; its frameset is {} of the {} that move.",
                duration_text(time.value),
                share.text(System::Metric),
                with_unit(whole, 1, "kg"),
            ),
            (Err(why), ..) => format!("{described}: no time for {name}, {why}."),
            _ => format!("{described}: no time for {name}."),
        })
    }

    fn climb(&self, place: usize) -> Option<String> {
        let reference = self.findings.reference.filter(|r| *r != place)?;
        let (name, base) = (self.letter(place), self.letter(reference));
        let worth = self.worth(place)?;
        if let Err(why) = &worth.climb {
            return Some(format!("{name}: no time on the climb, {why}."));
        }
        let against = worth.against.as_ref()?;
        let Some(time) = against.climb else {
            return Some(format!("{name} cannot be told from {base} on the climb: their weights are within their ±."));
        };
        let whole = self.worth(reference)?.climb.as_ref().ok().map_or_else(String::new, |t| duration_text(t.value));
        let faster = if time.value < 0.0 { "faster" } else { "slower" };
        let seconds = time.abs().text(System::Metric);
        let percent = against.whole_percent.abs().text(System::Metric);
        let lighter = if against.whole_percent.value < 0.0 { "lighter" } else { "heavier" };
        Some(format!("On the climb {name} is {seconds} {faster} than {base}’s {whole}: the whole is {percent} {lighter}."))
    }
}

/// As many decimals as a typed number needs, at most two.
fn decimals(value: f64) -> usize {
    (0..2).find(|d| (value * 10f64.powi(*d)).fract().abs() < 1e-9).map_or(2, |d| usize::try_from(d).unwrap_or(2))
}

fn absolute(money: Money) -> Money {
    Money { amount: money.amount.abs(), ..money }
}

/// "not stated" as it is; a reason after "open, ".
fn not_priced(why: &str) -> String {
    if why.starts_with("not stated") { why.to_owned() } else { format!("open: {why}") }
}

fn chance(probability: f64) -> String {
    format!("{} chances in 100", fixed(probability * 100.0, 0))
}

fn sure(probability: f64) -> String {
    if probability > 0.9995 {
        return "that is sure, as far as the ± go".to_owned();
    }
    format!("that is sure to {}{THIN_SPACE}%", fixed(probability * 100.0, 1))
}

/// A value with its ± and unit.
fn with_plus_minus(value: f64, u: f64, unit: &str) -> String {
    format!("{}{THIN_SPACE}{unit}", plus_minus(value, expanded(u)))
}

/// Price of each saved gram: `0.69 ± 0.03 EUR/g`; `nothing` where it is cheaper and lighter.
#[must_use]
pub fn per_gram_text(per_gram: &(Money, Money)) -> String {
    let (each, plus_minus) = per_gram;
    if each.amount.is_sign_negative() || each.amount.is_zero() {
        return "nothing".to_owned();
    }
    format!("{}{THIN_SPACE}±{THIN_SPACE}{}{THIN_SPACE}{}/g", each.digits(), plus_minus.digits(), each.currency.code())
}

/// Whether the frame stands in plots and tables: shown, or the reference.
pub(super) fn stands(findings: &Findings, place: usize, frame: &FrameFindings) -> bool {
    frame.shown || findings.reference == Some(place)
}
