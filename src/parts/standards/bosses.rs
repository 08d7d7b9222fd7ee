//! Threaded bosses for cages, eyelets for racks and mudguards, and the way in for a dropper post's cable.

use super::super::reading::{counts_in_digits, folded, numbers, says, says_any, unknown_word};
use super::{NotUnderstood, refused};

/// Bosses, as counts at each place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bosses {
    /// Bosses at each place: on a fork left and right, on a frame the tubes in the order printed.
    pub places: Vec<u32>,
}

impl Bosses {
    /// Reads bosses on a frame, or those that cages need: `2 on down tube, 2 on seat tube`, `3+3`, `3 pairs`, `none`.
    ///
    /// # Errors
    /// A text without counts, more than eight bosses at one place, or `2x3`, which may be meant either way.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        Self::read_places(text, false)
    }

    /// Reads bosses on a fork, left and right: `3+3`, `3 per leg`, `2x3`, `3 pairs`, `none`.
    ///
    /// # Errors
    /// As [`Bosses::read`]; and one even number, of which it is not said whether one leg has them or both together.
    pub fn on_fork(text: &str) -> Result<Self, NotUnderstood> {
        Self::read_places(text, true)
    }

    fn read_places(text: &str, is_fork: bool) -> Result<Self, NotUnderstood> {
        let text = without_screws(&counts_in_digits(&folded(text)));
        let is_per_leg = says_any(&text, &PER_LEG);
        let mut places = Vec::new();
        for clause in text.split([',', ';', '+', '/', '&']).flat_map(|c| c.split(" and ")) {
            let mut counts = Vec::new();
            for n in numbers(clause) {
                match (0u32..=8).find(|k| f64::from(*k) == n) {
                    Some(count) => counts.push(count),
                    None => return refused(format!("`{text}`: {n} bosses at one place: write counts up to 8, such as 3+3")),
                }
            }
            // A count of cages is one of places, unless the clause says where or names the bosses.
            let is_cages = says_any(clause, &CAGES) && !clause.contains("tube") && !clause.contains("boss");
            let is_pairs = says_any(clause, &["pair", "pairs"]) || (is_cages && !is_fork);
            match counts.as_slice() {
                [a, b] if clause.contains('x') => places.extend(times(&text, *a, *b, is_fork)?),
                // Three pairs on a fork are three on each leg; on a frame each pair is a place.
                [n] if is_pairs && is_fork => places.extend([*n, *n]),
                [n] if is_pairs => places.extend(std::iter::repeat_n(2, usize::try_from(*n).unwrap_or(0))),
                [n] if is_per_leg => places.extend([*n, *n]),
                counts => places.extend(counts),
            }
        }
        if let (true, true, Some(least), Some(most)) = (is_fork, is_per_leg, places.iter().min(), places.iter().max()) {
            // Beside the count of a leg there may be that of both.
            if *most != *least && *most != 2 * *least {
                return refused(format!("`{text}`: write the bosses of both legs, such as {least}+{least}"));
            }
            places = vec![*least, *least];
        }
        if places.is_empty() && !says(&text, "none") && !says(&text, "no") {
            return refused(format!("`{text}` is not a valid number of bosses: write for example 3+3, 2 on down tube, or none"));
        }
        if let (true, [n]) = (is_fork, places.as_slice()) {
            if n % 2 == 0 && *n > 0 {
                let half = n / 2;
                return refused(format!("`{text}`: on one leg or on both together? Write {n}+{n} or {half}+{half}"));
            }
            // An odd number cannot be shared out between two legs.
            places = vec![*n, *n];
        }
        Ok(Self { places })
    }

    /// The most bosses at one place.
    #[must_use]
    pub fn most(&self) -> u32 {
        self.places.iter().copied().max().unwrap_or(0)
    }

    /// Places for a bottle cage: two bosses or more.
    #[must_use]
    pub fn cages(&self) -> usize {
        self.places.iter().filter(|n| **n >= 2).count()
    }

    /// Places for a cargo cage: three bosses or more.
    #[must_use]
    pub fn cargo_cages(&self) -> usize {
        self.places.iter().filter(|n| **n >= 3).count()
    }
}

/// Words that a count is one of bottle cages, each on two bosses or more.
const CAGES: [&str; 6] = ["set", "sets", "bottle", "bottles", "cage", "cages"];

/// Words that a count holds for each leg of a fork, or each side.
const PER_LEG: [&str; 12] = [
    "per leg",
    "per side",
    "per blade",
    "each leg",
    "each side",
    "each blade",
    "a side",
    "a leg",
    "on each",
    "each",
    "both legs",
    "both sides",
];

/// The text without the names of screws (`M5`) and the distance between bosses (`64 mm`), which are no counts.
fn without_screws(text: &str) -> String {
    let is_count = |word: &&str| !matches!(word.trim_matches([',', '(', ')', ';']), "m4" | "m5" | "m6" | "64mm" | "64-mm");
    text.replace("64 mm", " ").split(' ').filter(is_count).collect::<Vec<_>>().join(" ")
}

/// `2x3`: on the two legs of a fork three each; on a frame it may mean two places or three.
fn times(text: &str, a: u32, b: u32, is_fork: bool) -> Result<Vec<u32>, NotUnderstood> {
    match (a, b) {
        (2, n) | (n, 2) if is_fork => Ok(vec![n, n]),
        (a, b) if a == b && a <= 3 => Ok(vec![b; if a == 3 { 3 } else { 2 }]),
        _ => {
            let list = |places: u32, n: u32| vec![n.to_string(); usize::try_from(places).unwrap_or(0)].join(" + ");
            refused(format!("`{text}` may be read two ways: write {} or {}", list(a, b), list(b, a)))
        }
    }
}

/// Eyelets for racks and mudguards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(clippy::struct_excessive_bools, reason = "four independent eyelets, each there or not")]
pub struct Eyelets {
    /// Rear rack.
    pub rear_rack: bool,
    /// Front rack.
    pub front_rack: bool,
    /// Rear mudguard.
    pub rear_mudguard: bool,
    /// Front mudguard.
    pub front_mudguard: bool,
}

impl Eyelets {
    /// Reads `rack, mudguards`, `rear rack, front mudguard`, `none`. A word without front or rear means both ends.
    ///
    /// # Errors
    /// None of these.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text).replace(" & ", " and ");
        let mut eyelets = Self { rear_rack: false, front_rack: false, rear_mudguard: false, front_mudguard: false };
        if text == "none" {
            return Ok(eyelets);
        }
        let known = [
            "front",
            "rear",
            "rack",
            "racks",
            "mudguard",
            "mudguards",
            "fender",
            "fenders",
            "eyelet",
            "eyelets",
            "mount",
            "mounts",
            "fittings",
            "for",
            "a",
            "and",
            "at",
            "both",
            "ends",
            "full",
            "length",
            "yes",
        ];
        if let Some(word) = unknown_word(&text, &known) {
            return refused(format!("`{word}` in `{text}` is not a valid eyelet: write rack, mudguards, front or rear, or none"));
        }
        let mut is_anything = false;
        for clause in text.split([',', ';']).flat_map(|c| c.split(" and ")) {
            let (front, rear) = (says(clause, "front"), says(clause, "rear"));
            let both = front == rear;
            if clause.contains("rack") {
                eyelets.rear_rack |= rear || both;
                eyelets.front_rack |= front || both;
                is_anything = true;
            }
            if clause.contains("mudguard") || clause.contains("fender") {
                eyelets.rear_mudguard |= rear || both;
                eyelets.front_mudguard |= front || both;
                is_anything = true;
            }
        }
        if is_anything {
            Ok(eyelets)
        } else {
            refused(format!("`{text}` is not a valid list of eyelets: write rack, mudguards, front or rear, or none"))
        }
    }

    /// Whether any is there.
    #[must_use]
    pub const fn is_any(&self) -> bool {
        self.rear_rack || self.front_rack || self.rear_mudguard || self.front_mudguard
    }
}

/// Where a dropper post's cable may run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PostRouting {
    /// Inside the seat tube.
    pub is_inside: bool,
    /// Along the tubes.
    pub is_outside: bool,
}

impl PostRouting {
    /// Reads `inside`, `outside`, `inside and outside`, `none`.
    ///
    /// # Errors
    /// None of these.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text);
        let known = ["inside", "internal", "outside", "external", "and", "or", "routing", "cable", "none"];
        if let Some(word) = unknown_word(&text, &known) {
            return refused(format!("`{word}` in `{text}` is not a valid cable routing: write inside, outside or none"));
        }
        let routing = Self {
            is_inside: says(&text, "inside") || says(&text, "internal"),
            is_outside: says(&text, "outside") || says(&text, "external"),
        };
        if routing.is_inside || routing.is_outside || says(&text, "none") {
            return Ok(routing);
        }
        refused(format!("`{text}` is not a valid cable routing: write inside, outside or none"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bosses_are_counted_by_place() {
        let fork = Bosses::on_fork("3+3").unwrap();
        assert_eq!((fork.most(), fork.cages(), fork.cargo_cages()), (3, 2, 2));
        let frame = Bosses::read("3 on down tube, 2 on seat tube, 2 below down tube").unwrap();
        assert_eq!((frame.places.as_slice(), frame.cages(), frame.cargo_cages()), ([3, 2, 2].as_slice(), 3, 1));
        assert_eq!(Bosses::read("none").unwrap().cages(), 0);
        for text in [
            "3 per leg",
            "3+3",
            "2x3",
            "3 x 2",
            "3 pairs",
            "three pairs of M5 bosses",
            "3 each side",
            "3 bosses",
            "3/3",
            "triple, 3 per side",
            "6 (3 per leg)",
            "6 in all, 3 per leg",
        ] {
            assert_eq!(Bosses::on_fork(text).map(|b| b.places), Ok(vec![3, 3]), "{text}");
        }
        for text in ["2 bottle cages", "two bottles", "2 sets", "zwei bottle cages", "2 cages"] {
            assert_eq!(Bosses::read(text).map(|b| b.places), Ok(vec![2, 2]), "{text}");
        }
        assert_eq!(Bosses::read("3 bottle bosses").map(|b| b.places), Ok(vec![3]));
        assert_eq!(Bosses::read("3 on down tube (bottle), 2 on seat tube").map(|b| b.places), Ok(vec![3, 2]));
        assert!(Bosses::on_fork("4").unwrap_err().0.contains("4+4 or 2+2"));
        assert_eq!(Bosses::read("3 pairs").map(|b| b.places), Ok(vec![2, 2, 2]));
        assert!(Bosses::read("2x3").unwrap_err().0.contains("3 + 3 or 2 + 2 + 2"));
        assert_eq!(Bosses::read("2 on down tube (M5, 64 mm), 2 on seat tube").map(|b| b.places), Ok(vec![2, 2]));
        assert!(Bosses::on_fork("5 (3 per leg)").unwrap_err().0.contains("3+3"));
        assert!(Bosses::read("plenty").is_err());
        assert!(Bosses::read("33").is_err());
    }

    #[test]
    fn eyelets_and_routing_are_read() {
        let eyelets = Eyelets::read("rear rack, mudguards").unwrap();
        assert!(eyelets.rear_rack && !eyelets.front_rack && eyelets.front_mudguard && eyelets.rear_mudguard);
        assert!(Eyelets::read("bell").is_err());
        assert!(Eyelets::read("mudguards, no rack").unwrap_err().0.contains("`no`"), "not taken for a rack");
        assert!(Eyelets::read("eyelets for rack and mudguards at both ends").unwrap().front_rack);
        assert!(PostRouting::read("no inside").is_err());
        assert!(PostRouting::read("inside").unwrap().is_inside);
        assert!(PostRouting::read("perhaps").is_err());
    }
}
