//! Texts that say something of both ends: `front 100 x 12, rear 142 x 12`, `EC34/28.6 | EC44/40`.

use crate::frameset::trade_words::in_english;

/// What is said of the front (or upper) end, of the rear (or lower) end, and of neither by name.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct BothEnds {
    pub(super) first: Option<String>,
    pub(super) second: Option<String>,
}

const FRONT: [&str; 6] = ["front", "fork", "delantera", "gabel", "fourche", "v:"];
const REAR: [&str; 5] = ["rear", "frame", "trasera", "back", "h:"];

/// Front and rear by their words; `None` where a text names not both.
pub(super) fn front_and_rear(text: &str) -> Option<BothEnds> {
    let (english, _) = in_english(text);
    let lower = english.to_lowercase();
    if lower.len() != english.len() {
        return None;
    }
    let find = |words: &[&str]| {
        words
            .iter()
            .filter_map(|word| {
                let at = lower.find(word)?;
                let before = lower.get(..at).and_then(|t| t.chars().next_back());
                let after = lower.get(at + word.len()..).and_then(|t| t.chars().next());
                let is_whole = !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric);
                is_whole.then_some((at, at + word.len()))
            })
            .min()
    };
    let (front, rear) = (find(&FRONT)?, find(&REAR)?);
    let (one, two) = if front < rear { (front, rear) } else { (rear, front) };
    let leads = english.get(..one.0)?.trim().is_empty();
    // Words before their values, or behind them.
    let (a, b) = if leads {
        (english.get(one.1..two.0)?, english.get(two.1..)?)
    } else {
        (english.get(..one.0)?, english.get(one.1..two.0)?)
    };
    let tidy = |text: &str| text.trim_matches([' ', ',', ';', ':', '/', '|', '(', ')', '&', '\n', '–', '-', '=', '+']).to_owned();
    let (a, b) = (tidy(a), tidy(b));
    if a.is_empty() || b.is_empty() {
        return None;
    }
    let (first, second) = if front < rear { (a, b) } else { (b, a) };
    Some(BothEnds { first: Some(first), second: Some(second) })
}

/// The two halves of a text that a stroke, bar, semicolon or comma parts; `None` for any other.
pub(super) fn halves(text: &str) -> Option<(String, String)> {
    for separator in [" | ", "|", " / ", ";", ", ", "/"] {
        let parts: Vec<&str> = text.split(separator).map(str::trim).filter(|part| !part.is_empty()).collect();
        if let [first, second] = parts.as_slice() {
            return Some(((*first).to_owned(), (*second).to_owned()));
        }
    }
    None
}

/// The spacing of a hub that a text gives, mm: the number between 70 and 210.
pub(super) fn spacing(text: &str) -> Option<f64> {
    let numbers = text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))).filter(|t| !t.is_empty());
    numbers
        .filter_map(|t| t.trim_matches(['.', ',']).replace(',', ".").parse::<f64>().ok())
        .find(|mm| (70.0..=210.0).contains(mm))
}

/// Codes of headsets (SHIS) in a text, in order: `EC34/28.6`.
pub(super) fn headset_codes(text: &str) -> Vec<String> {
    let upper = text.to_uppercase();
    let mut found = Vec::new();
    for token in upper.split(|c: char| c.is_whitespace() || matches!(c, '|' | ';' | '(' | ')' | '+' | '&')) {
        let token = token.trim_matches([',', '.', ':']).replace(',', ".");
        let Some(rest) = ["EC", "ZS", "IS"].iter().find_map(|kind| token.strip_prefix(kind)) else { continue };
        let is_number = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
        if rest.split_once('/').is_some_and(|(bore, fork)| is_number(bore) && is_number(fork)) {
            found.push(token);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_are_told_apart_by_their_words() {
        let read = |text: &str| front_and_rear(text).map(|b| (b.first.unwrap_or_default(), b.second.unwrap_or_default()));
        let wanted = Some(("100 x 12".to_owned(), "142 x 12".to_owned()));
        for text in [
            "front 100 x 12, rear 142 x 12",
            "rear: 142 x 12 / front: 100 x 12",
            "100 x 12 front / 142 x 12 rear",
            "100 x 12 (vorne), 142 x 12 (hinten)",
            "avant 100 x 12, arrière 142 x 12",
        ] {
            assert_eq!(read(text), wanted, "{text}");
        }
        assert_eq!(read("142 x 12 rear"), None);
        assert_eq!(halves("100 x 12 / 142 x 12"), Some(("100 x 12".to_owned(), "142 x 12".to_owned())));
        assert_eq!(spacing("12 x 142 mm"), Some(142.0));
        assert_eq!(headset_codes("EC34/28.6 | zs56/40 (sealed)"), ["EC34/28.6", "ZS56/40"]);
        assert_eq!(headset_codes("tapered ZS44"), Vec::<String>::new());
    }
}
