//! What a label of a table means: names of figures in six languages, one file each under `names/`, and how like a
//! label is to one of them.
//!
//! A line of those files is `MEANING = name; name; …`. A meaning is a figure's name in files, or `@Size`, `@Tyre`,
//! `@FrontTyre`, `@Wheel`, `@Unit`, `@Aside` (known, and not a figure of the frame), `@Harmless` (words that may be left
//! out). `A? B` is a name that can be either and is usually A; `A | B` one with no usual reading, which is asked about.
//!
//! Invariant: nothing is assigned here. A meaning comes with its likeness, and the caller holds it against
//! [`SURE`] and [`WORTH_ASKING`].

use std::collections::{BTreeSet, HashMap};
use std::sync::LazyLock;

use super::fold::{fold, words};
use super::unit::bracketed;
use crate::frameset::Figure;

/// From this likeness on (1 = the same) a label is taken for a name without asking. No two names of different meaning
/// are as like each other as this (checked by a test over all six languages), so a label this like one name is less
/// like every other: one slipped letter in ten passes, a swapped word does not.
pub const SURE: f64 = 0.92;

/// From this likeness on a label is offered as a question; below it, the row is kept as a note. At three quarters
/// three letters in twelve differ: two slips in a short name, and "seat tube" against "head tube".
pub const WORTH_ASKING: f64 = 0.75;

/// What a label can mean.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Meaning {
    /// One figure, or one of several.
    Figures {
        /// What it can be, the usual one first.
        choices: Vec<Figure>,
        /// Whether the first is the usual reading.
        usual: bool,
        /// Whether it can also be the row of size labels.
        or_size: bool,
        /// Whether it can also be something that is no figure of the frame.
        or_aside: bool,
    },
    /// Size labels.
    Size,
    /// Tyres, both or the rear one.
    Tyre,
    /// The front tyre.
    FrontTyre,
    /// Wheel sizes.
    Wheel,
    /// Units.
    Unit,
    /// Known, and no figure of the frame: kept as a note.
    Aside,
}

/// A language of labels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "their own names")]
pub enum Language {
    English,
    German,
    French,
    Spanish,
    Italian,
    Dutch,
}

/// A label understood.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Found {
    pub(super) meaning: Meaning,
    /// 0 to 1.
    pub(super) likeness: f64,
    /// The name that it was like.
    pub(super) name: &'static str,
    pub(super) language: Language,
    /// Words of the label that no name accounts for.
    pub(super) left_over: String,
}

struct Name {
    text: &'static str,
    language: Language,
    meaning: usize,
    squeezed: String,
    sorted: String,
    letters: Vec<char>,
}

struct Names {
    meanings: Vec<Meaning>,
    all: Vec<Name>,
    exact: HashMap<String, usize>,
    harmless: BTreeSet<String>,
}

const FILES: [(Language, &str); 6] = [
    (Language::English, include_str!("names/en.txt")),
    (Language::German, include_str!("names/de.txt")),
    (Language::French, include_str!("names/fr.txt")),
    (Language::Spanish, include_str!("names/es.txt")),
    (Language::Italian, include_str!("names/it.txt")),
    (Language::Dutch, include_str!("names/nl.txt")),
];

static NAMES: LazyLock<Names> = LazyLock::new(|| {
    let mut all = Names { meanings: Vec::new(), all: Vec::new(), exact: HashMap::new(), harmless: BTreeSet::new() };
    for (language, text) in FILES {
        for line in text.lines().filter(|l| !l.starts_with('#') && !l.trim().is_empty()) {
            all.add_line(language, line);
        }
    }
    all
});

impl Names {
    fn add_line(&mut self, language: Language, line: &'static str) {
        let Some((meaning, names)) = line.split_once('=') else { return };
        if meaning.trim() == "@Harmless" {
            self.harmless.extend(names.split(';').map(fold));
            return;
        }
        let Some(meaning) = parse_meaning(meaning) else { return };
        self.meanings.push(meaning);
        let meaning = self.meanings.len() - 1;
        for name in names.split(';').map(str::trim).filter(|n| !n.is_empty()) {
            let index = self.all.len();
            let (squeezed, sorted) = forms(&words(name));
            self.exact.entry(squeezed.clone()).or_insert(index);
            self.exact.entry(sorted.clone()).or_insert(index);
            // Ä, Ö, Ü written without their dots: ae, oe, ue.
            let spelt = name.replace('ä', "ae").replace('ö', "oe").replace('ü', "ue");
            if spelt != name {
                self.exact.entry(fold(&spelt)).or_insert(index);
            }
            let letters = letters(&squeezed);
            self.all.push(Name { text: name, language, meaning, squeezed, sorted, letters });
        }
    }

    fn found(&self, index: usize, likeness: f64, left_over: String) -> Option<Found> {
        let name = self.all.get(index)?;
        let meaning = self.meanings.get(name.meaning)?.clone();
        Some(Found { meaning, likeness, name: name.text, language: name.language, left_over })
    }

    /// The name that these words are, in order or in any order, harmless words left out if need be.
    fn exactly(&self, words: &[String]) -> Option<usize> {
        if words.is_empty() {
            return None;
        }
        let look = |words: &[String]| {
            let (squeezed, sorted) = forms(words);
            self.exact.get(&squeezed).or_else(|| self.exact.get(&sorted)).copied()
        };
        look(words).or_else(|| {
            let needed: Vec<String> = words.iter().filter(|w| !self.harmless.contains(*w)).cloned().collect();
            if needed.is_empty() || needed.len() == words.len() { None } else { look(&needed) }
        })
    }
}

/// A letter or number of the drawing beside the table.
fn is_plain_letter(word: &str) -> bool {
    word.chars().count() == 1 || (word.len() <= 2 && word.bytes().all(|b| b.is_ascii_digit()))
}

fn parse_meaning(text: &str) -> Option<Meaning> {
    let text = text.trim();
    Some(match text {
        "@Size" => Meaning::Size,
        "@Tyre" => Meaning::Tyre,
        "@FrontTyre" => Meaning::FrontTyre,
        "@Wheel" => Meaning::Wheel,
        "@Unit" => Meaning::Unit,
        "@Aside" => Meaning::Aside,
        _ => {
            let usual = !text.contains('|');
            let mut choices = Vec::new();
            let (mut or_size, mut or_aside) = (false, false);
            for part in text.split([' ', '|']).filter(|p| !p.is_empty()) {
                match part {
                    "@Size" => or_size = true,
                    "@Aside" => or_aside = true,
                    name => choices.push(Figure::from_name(name.trim_end_matches('?'))?),
                }
            }
            Meaning::Figures { choices, usual, or_size, or_aside }
        }
    })
}

/// The words run together in order, and in alphabetical order.
fn forms(words: &[String]) -> (String, String) {
    let mut sorted = words.to_vec();
    sorted.sort();
    (words.concat(), sorted.concat())
}

/// The letters of a word in alphabetical order.
fn letters(word: &str) -> Vec<char> {
    let mut letters: Vec<char> = word.chars().collect();
    letters.sort_unstable();
    letters
}

/// The fewest letters to change between two words of these letters, however either is ordered: one change takes one
/// letter away, adds one or does both. Both in alphabetical order.
fn fewest_changes(a: &[char], b: &[char]) -> usize {
    let (mut shared, mut at_a, mut at_b) = (0, 0, 0);
    while let (Some(in_a), Some(in_b)) = (a.get(at_a), b.get(at_b)) {
        shared += usize::from(in_a == in_b);
        at_a += usize::from(in_a <= in_b);
        at_b += usize::from(in_b <= in_a);
    }
    a.len().max(b.len()) - shared
}

/// What a label without its unit means, with the greatest likeness to any name; `None` when it is below
/// [`WORTH_ASKING`].
pub(super) fn find(label: &str) -> Option<Found> {
    find_exact(label).or_else(|| alike(label))
}

/// Only what needs no likeness: the names themselves, with brackets, letters of a drawing and second languages beside.
pub(super) fn find_exact(label: &str) -> Option<Found> {
    if label.chars().count() > 80 {
        return None;
    }
    let names = &*NAMES;
    let all = words(label);
    if let Some(index) = names.exactly(&all) {
        return names.found(index, 1.0, String::new());
    }
    // A letter or number of the drawing before or after it: "A. Stack", "Reach (B)", "3 Wheelbase".
    if all.len() > 1 {
        let (first, rest) = (all.first()?, all.get(1..)?);
        if is_plain_letter(first)
            && let Some(index) = names.exactly(rest)
        {
            return names.found(index, 1.0, String::new());
        }
        let (last, rest) = (all.last()?, all.get(..all.len() - 1)?);
        if is_plain_letter(last)
            && let Some(index) = names.exactly(rest)
        {
            return names.found(index, 1.0, String::new());
        }
    }
    find_in_parts(names, label)
}

/// Labels in several parts: two languages, a name and its abbreviation, a name and a remark in brackets.
fn find_in_parts(names: &Names, label: &str) -> Option<Found> {
    if let Some((before, inside, after)) = bracketed(label) {
        let outside = format!("{before} {after}");
        if let Some(main) = names.exactly(&words(&outside)) {
            return match names.exactly(&words(inside)) {
                Some(second) if compatible(names, main, second) => names.found(main, 1.0, String::new()),
                _ => names.found(main, 0.85, inside.trim().to_owned()),
            };
        }
    }
    let parts: Vec<&str> = label.split(['/', '|', ':', '–', '—', ';', ',']).flat_map(|p| p.split(" - ")).collect();
    if parts.len() < 2 {
        return None;
    }
    let mut known: Option<usize> = None;
    let mut left_over = Vec::new();
    for part in parts {
        let part_words = words(part);
        match names.exactly(&part_words) {
            Some(index) if known.is_none_or(|k| compatible(names, k, index)) => {
                if known.is_none_or(|k| broader(names, k, index)) {
                    known = Some(index);
                }
            }
            Some(_) => return None,
            None if part_words.iter().all(|w| is_plain_letter(w)) => {}
            None => left_over.push(part.trim()),
        }
    }
    let likeness = if left_over.is_empty() { 1.0 } else { 0.85 };
    names.found(known?, likeness, left_over.join(", "))
}

/// Whether two names can be of one thing.
fn compatible(names: &Names, a: usize, b: usize) -> bool {
    match (meaning(names, a), meaning(names, b)) {
        (Some(Meaning::Figures { choices: a, .. }), Some(Meaning::Figures { choices: b, .. })) => a.iter().any(|f| b.contains(f)),
        (a, b) => a == b,
    }
}

/// Whether the first name leaves more open than the second.
fn broader(names: &Names, a: usize, b: usize) -> bool {
    match (meaning(names, a), meaning(names, b)) {
        (Some(Meaning::Figures { choices: a, .. }), Some(Meaning::Figures { choices: b, .. })) => a.len() > b.len(),
        _ => false,
    }
}

fn meaning(names: &Names, index: usize) -> Option<&Meaning> {
    names.all.get(index).and_then(|n| names.meanings.get(n.meaning))
}

/// The name that a label is most like: one less the share of letters to change (Damerau and Levenshtein's distance), or
/// twice the shared words over all words where the label holds a whole name and more; the latter is never [`SURE`].
fn alike(label: &str) -> Option<Found> {
    let names = &*NAMES;
    let all = words(label);
    let (squeezed, sorted) = forms(&all);
    let length = squeezed.chars().count();
    // Abbreviations of up to four letters are exact or nothing: one letter makes HA of SA.
    if length <= 4 || length > 60 {
        return None;
    }
    let of_label = letters(&squeezed);
    let mut best: Option<(usize, f64)> = None;
    for (index, name) in names.all.iter().enumerate() {
        let (short, long) = (length.min(name.letters.len()), length.max(name.letters.len()));
        let floor = best.map_or(WORTH_ASKING, |(_, b)| b);
        // The distance is slow to work out, and no distance is below this.
        let changes = fewest_changes(&of_label, &name.letters);
        if short <= 4 || ((long - changes) as f64) < floor * long as f64 {
            continue;
        }
        let likeness = strsim::normalized_damerau_levenshtein(&squeezed, &name.squeezed)
            .max(strsim::normalized_damerau_levenshtein(&sorted, &name.sorted));
        if likeness >= WORTH_ASKING && best.is_none_or(|(_, b)| likeness > b) {
            best = Some((index, likeness));
        }
    }
    if best.is_none_or(|(_, b)| b < SURE)
        && let Some(found) = holding(names, &all)
        && best.is_none_or(|(_, b)| found.likeness > b)
    {
        return Some(found);
    }
    best.and_then(|(index, likeness)| names.found(index, likeness, String::new()))
}

/// A label that holds a whole name at its start or end, and other words besides.
fn holding(names: &Names, all: &[String]) -> Option<Found> {
    for kept in (1..all.len()).rev() {
        let dice = 2.0 * kept as f64 / (kept + all.len()) as f64;
        let likeness = dice.min(0.88);
        if likeness < WORTH_ASKING {
            return None;
        }
        for (part, rest) in [(all.get(..kept)?, all.get(kept..)?), (all.get(all.len() - kept..)?, all.get(..all.len() - kept)?)] {
            if let Some(index) = names.exactly(part) {
                return names.found(index, likeness, rest.join(" "));
            }
        }
    }
    None
}

#[cfg(test)]
mod tests;
