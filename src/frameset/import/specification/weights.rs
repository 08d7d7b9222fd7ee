//! Weights of a specification's line: each with its part, its size, and what it was weighed with.

use super::super::fold::{fold, words};
use super::super::size_label::{Rank, rank};
use crate::frameset::{Known, Part, Weight, check_grams};
use crate::units::{printed_masses, typed_number};

/// A weight found, or why one is not taken.
pub(super) struct FoundWeight {
    pub(super) grams: f64,
    pub(super) size: Option<String>,
    pub(super) part: Option<Part>,
    pub(super) note: Option<String>,
}

/// What a text says of weights.
#[derive(Default)]
pub(super) struct Found {
    pub(super) weights: Vec<FoundWeight>,
    pub(super) problems: Vec<String>,
}

/// Words that name sizes before their label, in six languages.
const SIZE_WORDS: [&str; 15] = [
    "size",
    "grosse",
    "groesse",
    "gr",
    "rahmengrosse",
    "rahmengroesse",
    "rahmenhohe",
    "taille",
    "talla",
    "taglia",
    "maat",
    "framemaat",
    "misura",
    "framesize",
    "rh",
];

/// Words that lead to a size: `2.3 kg in M`.
const LEADING: [&str; 16] =
    ["in", "for", "at", "bei", "fur", "en", "pour", "para", "per", "voor", "bij", "der", "la", "frame", "the", "di"];

/// Words that say nothing of what was weighed.
const PLAIN: [&str; 26] = [
    "approx",
    "approximately",
    "about",
    "ca",
    "circa",
    "env",
    "environ",
    "aprox",
    "g",
    "gr",
    "kg",
    "lb",
    "lbs",
    "oz",
    "gramm",
    "only",
    "nur",
    "seul",
    "solo",
    "claimed",
    "weight",
    "gewicht",
    "poids",
    "peso",
    "and",
    "und",
];

/// Words of parts in six languages.
const FRAME: [&str; 7] = ["frame", "rahmen", "cadre", "cuadro", "telaio", "rahmens", "frames"];
const FORK: [&str; 7] = ["fork", "gabel", "fourche", "horquilla", "forcella", "vork", "voorvork"];
const FRAMESET: [&str; 6] = ["frameset", "rahmenset", "rahmenkit", "kit", "framesets", "framekit"];

/// The part that words name; frame and fork together are a frameset.
pub(super) fn part_of(text: &str) -> Option<Part> {
    let all = words(text);
    let has = |list: &[&str]| all.iter().any(|w| list.contains(&w.as_str()));
    match (has(&FRAME), has(&FORK), has(&FRAMESET)) {
        (_, _, true) | (true, true, _) => Some(Part::Frameset),
        (true, false, false) => Some(Part::Frame),
        (false, true, false) => Some(Part::Fork),
        (false, false, false) => None,
    }
}

/// A text without the words of parts.
pub(super) fn without_parts(text: &str) -> String {
    let is_part = |word: &String| [&FRAME[..], &FORK[..], &FRAMESET[..]].iter().any(|list| list.contains(&word.as_str()));
    words(text).into_iter().filter(|word| !is_part(word)).collect::<Vec<_>>().join(" ")
}

/// The label of `sizes` that a text is, size words and all; where no sizes are known, any size of letters, or of numbers
/// behind a size word.
pub(super) fn size_of(text: &str, sizes: &[String], is_said: bool) -> Option<String> {
    let text = text.trim().trim_matches(['(', ')', '[', ']', ':', ',', '.', ';']).trim();
    let bare = |text: &str| -> (String, bool) {
        let all = words(text);
        let kept: Vec<&String> = all.iter().filter(|w| !SIZE_WORDS.contains(&w.as_str())).collect();
        (kept.iter().map(|w| w.as_str()).collect::<String>(), kept.len() < all.len())
    };
    let (wanted, has_word) = bare(text);
    if wanted.is_empty() {
        return None;
    }
    if sizes.is_empty() {
        let own = text.split_whitespace().filter(|w| !SIZE_WORDS.contains(&fold(w).as_str())).collect::<Vec<_>>().join(" ");
        return match rank(&own) {
            Some(Rank::Letters(_)) => Some(own),
            Some(Rank::Number(_)) if has_word || is_said => Some(own),
            _ => None,
        };
    }
    sizes
        .iter()
        .find(|size| bare(size).0 == wanted || bare(size).0.trim_end_matches("cm") == wanted.trim_end_matches("cm"))
        .cloned()
}

/// The weights of one text. `unit` is what its label says of bare numbers, `size` the size of its column.
pub(super) fn weights_in(text: &str, unit: Option<&str>, size: Option<&String>, sizes: &[String]) -> Found {
    let with_unit = match unit {
        Some(unit) if typed_number(text).is_some() => format!("{text} {unit}"),
        _ => text.to_owned(),
    };
    let text = with_unit.as_str();
    let masses = printed_masses(text);
    let mut found = Found::default();
    let mut from = 0;
    for (index, mass) in masses.iter().enumerate() {
        let before = text.get(from..mass.start).unwrap_or_default();
        let until = masses.get(index + 1).map_or(text.len(), |next| next.start);
        let after = text.get(mass.end..until).unwrap_or_default();
        from = mass.end;
        let repeats = found.weights.last().is_some_and(|last: &FoundWeight| (last.grams / mass.grams - 1.0).abs() < 0.02)
            && before.chars().all(|c| !c.is_alphanumeric());
        if repeats {
            continue;
        }
        if ends_with_number(before) {
            found.problems.push("Two weights are given for one part. Neither is used.".to_owned());
            continue;
        }
        if let Err(why) = check_grams(mass.grams) {
            found.problems.push(format!("{}.", crate::units::capitalised(&why.to_string())));
            continue;
        }
        let named = named_size(before, after, sizes);
        let own = match (named, size) {
            (Named::Size(label, in_after), _) => {
                from += in_after;
                Some(label)
            }
            (Named::Unknown(label), _) => {
                found.problems.push(format!("There is no size {label} here, so this weight is kept as a note."));
                continue;
            }
            (Named::Nothing, size) => size.cloned(),
        };
        let part = part_of(before).or_else(|| part_of(after.split([',', ';', '/', '\n']).next().unwrap_or_default()));
        found.weights.push(FoundWeight { grams: mass.grams, size: own, part, note: None });
    }
    let has_more = words(text).iter().any(|word| {
        let is_known = PLAIN.contains(&word.as_str())
            || LEADING.contains(&word.as_str())
            || SIZE_WORDS.contains(&word.as_str())
            || [&FRAME[..], &FORK[..], &FRAMESET[..]].concat().contains(&word.as_str())
            || word.contains(|c: char| c.is_ascii_digit());
        !is_known && found.weights.iter().all(|w| w.size.as_ref().is_none_or(|size| !words(size).contains(word)))
    });
    if has_more {
        for weight in &mut found.weights {
            weight.note = Some(text.trim().to_owned());
        }
    }
    found
}

/// `2.1–` before `2.3 kg`.
fn ends_with_number(before: &str) -> bool {
    let before = before.trim_end();
    let joint = ["-", "–", "—", "to", "bis", "à", "tot", "..", "…"].iter().find_map(|j| before.strip_suffix(j));
    joint.is_some_and(|rest| rest.trim_end().ends_with(|c: char| c.is_ascii_digit()))
}

enum Named {
    Nothing,
    /// The size, and how many bytes behind the weight name it.
    Size(String, usize),
    /// A size that is not there.
    Unknown(String),
}

/// The size that stands before or behind a weight.
fn named_size(before: &str, after: &str, sizes: &[String]) -> Named {
    // Behind it, in brackets: `2.3 kg (M)`, `2.3 kg (size M, painted)`.
    let open = after.trim_start();
    let blanks = after.len() - open.len();
    if open.starts_with(['(', '['])
        && let Some(close) = open.find([')', ']'])
        && let Some(inside) = open.get(1..close)
    {
        for clause in inside.split([',', ';']) {
            if let Some(size) = size_of(clause, sizes, false).or_else(|| said_size(clause, sizes).and_then(Result::ok)) {
                return Named::Size(size, blanks + close + 1);
            }
        }
        if let Some(Err(unknown)) = said_size(inside, sizes) {
            return Named::Unknown(unknown);
        }
    }
    // Before it: `M: 2.3 kg`, `size M 2.3 kg`.
    let last = before.rsplit([',', ';', '/', '|', '\n', ')']).next().unwrap_or_default();
    let last = last.rsplit('(').next().unwrap_or_default();
    if let Some(size) = size_of(last, sizes, last.trim_end().ends_with([':', '='])) {
        return Named::Size(size, 0);
    }
    if let Some(size) = last.split_whitespace().next_back().and_then(|word| size_of(word, sizes, word.ends_with(':'))) {
        return Named::Size(size, 0);
    }
    // Behind it: `2.3 kg in size M`.
    let behind = after.trim_start_matches([',', ';', ' ']);
    let clause = behind.split([',', ';', '/', '|', '\n', '(']).next().unwrap_or_default();
    let is_next_ones = clause.trim_end().ends_with([':', '=']);
    match said_size(clause, sizes).filter(|_| !is_next_ones) {
        Some(Ok(size)) => Named::Size(size, after.len() - behind.len() + clause.len()),
        Some(Err(unknown)) => Named::Unknown(unknown),
        None => match said_size(last, sizes) {
            Some(Ok(size)) => Named::Size(size, 0),
            Some(Err(unknown)) => Named::Unknown(unknown),
            None => Named::Nothing,
        },
    }
}

/// A size behind a word that leads to it: `in M`, `size 56`; the error is a size that is not among `sizes`.
fn said_size(clause: &str, sizes: &[String]) -> Option<Result<String, String>> {
    let all: Vec<&str> = clause.split_whitespace().collect();
    let leads = |word: &str| LEADING.contains(&fold(word).as_str());
    let is_size_word = |word: &str| SIZE_WORDS.contains(&fold(word).as_str());
    let (at, word) = all.iter().enumerate().rfind(|(_, word)| leads(word) || is_size_word(word))?;
    let label = all.get(at + 1..)?.join(" ");
    if label.is_empty() {
        return None;
    }
    let first = label.split_whitespace().next().unwrap_or_default();
    match size_of(&label, sizes, true).or_else(|| size_of(first, sizes, true)) {
        Some(size) => Some(Ok(size)),
        None if is_size_word(word) => Some(Err(label.trim_matches([')', ']', '.']).to_owned())),
        None => None,
    }
}

/// The weight as frame files have it: claimed by the maker.
pub(super) fn weight(found: FoundWeight, part: Part) -> Weight {
    Weight { part, size: found.size, grams: found.grams, from: Known::Claimed, with: Vec::new(), note: found.note }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, sizes: &[&str]) -> (Vec<String>, usize) {
        let sizes: Vec<String> = sizes.iter().map(|s| (*s).to_owned()).collect();
        let found = weights_in(text, None, None, &sizes);
        let told = |w: &FoundWeight| {
            format!(
                "{}{}{}{}",
                w.grams,
                w.size.as_ref().map_or(String::new(), |s| format!(" {s}")),
                w.part.map_or(String::new(), |p| format!(" {}", p.label())),
                if w.note.is_some() { " noted" } else { "" }
            )
        };
        (found.weights.iter().map(told).collect(), found.problems.len())
    }

    #[test]
    fn weights_have_their_sizes() {
        let sizes = ["S", "M", "L"];
        for (text, wanted) in [
            ("2.35 kg", vec!["2350"]),
            ("2.35 kg (M)", vec!["2350 M"]),
            ("approx. 2,35 kg in Größe M", vec!["2350 M"]),
            ("2.35 kg, size L", vec!["2350 L"]),
            ("S: 2.1 kg, M: 2.2 kg, L: 2.3 kg", vec!["2100 S", "2200 M", "2300 L"]),
            ("2100 g (S) / 2200 g (M)", vec!["2100 S", "2200 M"]),
            ("S 2100 g / M 2200 g", vec!["2100 S", "2200 M"]),
            ("2.35 kg (5.18 lb)", vec!["2350"]),
            ("frame 2.35 kg (M), fork 985 g", vec!["2350 M frame", "985 fork"]),
            ("2350 g (taille M, peint, sans axe)", vec!["2350 M noted"]),
            ("3.3 kg frame and fork", vec!["3300 frameset"]),
        ] {
            assert_eq!(read(text, &sizes), (wanted.iter().map(|s| (*s).to_owned()).collect(), 0), "{text}");
        }
        assert_eq!(read("2.35 kg (size 56)", &sizes), (vec![], 1));
        assert_eq!(read("2.35 kg (size 56)", &[]), (vec!["2350 56".to_owned()], 0));
        assert_eq!(read("2.1–2.3 kg", &sizes), (vec![], 1));
        assert_eq!(read("2.3 g", &sizes), (vec![], 1));
        assert_eq!(read("light", &sizes), (vec![], 0));
    }
}
