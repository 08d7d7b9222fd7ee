//! The words of a need, taken one after another by what understands them. What nobody took is left over, so that no word
//! is ever dropped.

use super::super::reading::{folded, number};
use super::super::standards::{NotUnderstood, Wheel, refused};

/// Words that change nothing wherever they stand.
const FILLING: [&str; 3] = ["a", "an", "the"];

/// A need's words and which of them are understood.
pub(super) struct Words {
    words: Vec<String>,
    is_taken: Vec<bool>,
}

/// The unit behind a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unit {
    None,
    Millimetres,
    Degrees,
}

impl Words {
    pub(super) fn of(text: &str) -> Self {
        let mut words: Vec<String> = Vec::new();
        // Full stops and commas at the end of a word part words; those within a number belong to it.
        for word in folded(text).split(' ').map(|w| w.trim_matches([',', '.', ';', ':', '"', '(', ')', '!', '?'])) {
            let digits = word.find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ',')).unwrap_or(word.len());
            match word.split_at(digits) {
                // `50mm` is a number and its unit.
                (number, unit @ ("mm" | "°" | "deg")) if !number.is_empty() => {
                    words.extend([number.to_owned(), unit.to_owned()]);
                }
                _ if word.is_empty() => {}
                _ => words.push(word.to_owned()),
            }
        }
        Self { is_taken: vec![false; words.len()], words }
    }

    fn place(&self, phrase: &str) -> Option<(usize, usize)> {
        let phrase: Vec<&str> = phrase.split(' ').collect();
        let is_here = |at: usize| {
            phrase.iter().enumerate().all(|(i, w)| self.words.get(at + i).is_some_and(|x| x == w) && !self.is_taken[at + i])
        };
        (0..self.words.len()).find(|at| is_here(*at)).map(|at| (at, phrase.len()))
    }

    /// Whether a phrase is there and not taken.
    pub(super) fn has(&self, phrase: &str) -> bool {
        self.place(phrase).is_some()
    }

    /// Takes a phrase once; whether it was there.
    pub(super) fn take(&mut self, phrase: &str) -> bool {
        let Some((at, count)) = self.place(phrase) else { return false };
        self.is_taken[at..at + count].fill(true);
        true
    }

    /// Takes the first of these that is there.
    pub(super) fn take_any(&mut self, phrases: &[&str]) -> bool {
        phrases.iter().any(|p| self.take(p))
    }

    /// Takes `no`, `not` or `without`.
    pub(super) fn take_negation(&mut self) -> bool {
        self.take_any(&["no", "not", "without"])
    }

    /// Takes the end that is named; `None` where none is, or both are.
    pub(super) fn take_end(&mut self) -> Option<Wheel> {
        if self.take_any(&["at both ends", "front and rear", "rear and front"]) {
            return None;
        }
        let front = self.take_any(&["at the front", "in front", "front"]);
        match (front, self.take_any(&["at the rear", "rear"])) {
            (true, false) => Some(Wheel::Front),
            (false, true) => Some(Wheel::Rear),
            // Neither: asked of both.
            _ => None,
        }
    }

    /// Takes the first number, with `mm` or `°` behind it.
    pub(super) fn take_number(&mut self) -> Option<(f64, Unit)> {
        let at = (0..self.words.len()).find(|i| !self.is_taken[*i] && number(&self.words[*i]).is_some())?;
        let value = number(&self.words[at])?;
        self.is_taken[at] = true;
        let behind = self.words.get(at + 1).filter(|_| !self.is_taken[at + 1]).map_or("", String::as_str);
        let unit = match behind {
            "mm" | "millimetre" | "millimetres" => Unit::Millimetres,
            "°" | "deg" | "degree" | "degrees" => Unit::Degrees,
            _ => return Some((value, Unit::None)),
        };
        self.is_taken[at + 1] = true;
        Some((value, unit))
    }

    /// Takes the first untaken word for which `is` holds.
    pub(super) fn take_word(&mut self, is: impl Fn(&str) -> bool) -> Option<String> {
        let at = (0..self.words.len()).find(|i| !self.is_taken[*i] && is(&self.words[*i]))?;
        self.is_taken[at] = true;
        Some(self.words[at].clone())
    }

    /// Takes the word behind the last one taken of `word`, whatever it is.
    pub(super) fn take_behind(&mut self, word: &str) -> Option<String> {
        let at = (0..self.words.len()).find(|i| self.words[*i] == word && self.is_taken[*i])? + 1;
        if *self.is_taken.get(at)? {
            return None;
        }
        self.is_taken[at] = true;
        self.words.get(at).cloned()
    }

    /// Takes a count in digits or words.
    pub(super) fn take_count(&mut self) -> Option<u32> {
        const COUNTS: [&str; 8] = ["one", "two", "three", "four", "five", "six", "seven", "eight"];
        let count = |word: &str| {
            let digits = || number(word).and_then(|n| (1u32..=8).find(|k| f64::from(*k) == n));
            (1u32..).zip(COUNTS).find(|(_, w)| *w == word).map(|(n, _)| n).or_else(digits)
        };
        count(&self.take_word(|w| count(w).is_some())?)
    }

    /// That every word was understood.
    ///
    /// # Errors
    /// The first words that were not, and how such a need is written.
    pub(super) fn all_understood(&self, of_what: &str, example: &str) -> Result<(), NotUnderstood> {
        let is_open = |i: &usize| !self.is_taken[*i] && !FILLING.contains(&self.words[*i].as_str());
        let Some(first) = (0..self.words.len()).find(is_open) else { return Ok(()) };
        let run: Vec<&str> =
            (first..self.words.len()).take_while(|i| !self.is_taken[*i]).map(|i| self.words[i].as_str()).collect();
        let left = run.join(" ");
        if run.first() == Some(&"and") {
            return refused(format!("`{left}` is a second need: enter it by itself"));
        }
        refused(format!("`{left}` is not understood in a need for {of_what}: write it as \"{example}\""))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_taken_once_and_what_is_left_is_named() {
        let mut words = Words::of("A tyre, at least 50mm on 622.");
        assert!(words.take("tyre") && !words.take("tyre"));
        assert!(words.take("at least"));
        assert_eq!(words.take_number(), Some((50.0, Unit::Millimetres)));
        let left = words.all_understood("a tyre", "such").unwrap_err().0;
        assert!(left.starts_with("`on 622` is not understood"), "{left}");
        assert!(words.take("on"));
        assert_eq!(words.take_behind("on").as_deref(), Some("622"));
        assert_eq!(words.all_understood("a tyre", "such"), Ok(()));
    }

    #[test]
    fn ends_and_counts_are_read() {
        assert_eq!(Words::of("at the front").take_end(), Some(Wheel::Front));
        assert_eq!(Words::of("front and rear").take_end(), None);
        assert_eq!(Words::of("3 bosses").take_count(), Some(3));
        assert_eq!(Words::of("no bosses").take_count(), None);
        assert_eq!(Words::of("12 bosses").take_count(), None);
    }
}
