//! Threaded bosses for cages, eyelets for racks and mudguards, and the way in for a dropper post's cable.

use super::super::reading::{folded, numbers, says, unknown_word};
use super::{NotUnderstood, refused};

/// Bosses, as counts at each place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bosses {
    /// Bosses at each place: on a fork left and right, on a frame the tubes in the order printed.
    pub places: Vec<u32>,
}

impl Bosses {
    /// Reads `3+3`, `2 on down tube, 2 on seat tube`, `none`.
    ///
    /// # Errors
    /// A text without counts, or more than eight bosses at one place.
    pub fn read(text: &str) -> Result<Self, NotUnderstood> {
        let text = folded(text);
        let mut places = Vec::new();
        for n in numbers(&text) {
            match (0u32..=8).find(|k| f64::from(*k) == n) {
                Some(count) => places.push(count),
                None => return refused(format!("`{text}`: {n} bosses at one place: write counts up to 8, such as 3+3")),
            }
        }
        if places.is_empty() && !says(&text, "none") && !says(&text, "no") {
            return refused(format!("`{text}` is not a valid number of bosses: write for example 3+3, 2 on down tube, or none"));
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
        let text = folded(text);
        let mut eyelets = Self { rear_rack: false, front_rack: false, rear_mudguard: false, front_mudguard: false };
        if text == "none" {
            return Ok(eyelets);
        }
        let known =
            ["front", "rear", "rack", "racks", "mudguard", "mudguards", "eyelets", "for", "a", "and", "at", "both", "ends"];
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
            if clause.contains("mudguard") {
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
        let fork = Bosses::read("3+3").unwrap();
        assert_eq!((fork.most(), fork.cages(), fork.cargo_cages()), (3, 2, 2));
        let frame = Bosses::read("3 on down tube, 2 on seat tube, 2 below down tube").unwrap();
        assert_eq!((frame.places.as_slice(), frame.cages(), frame.cargo_cages()), ([3, 2, 2].as_slice(), 3, 1));
        assert_eq!(Bosses::read("none").unwrap().cages(), 0);
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
