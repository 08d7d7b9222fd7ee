//! Reading of what makers print: numbers and words out of one short text. It takes nothing for granted: what it does
//! not know it leaves to the caller to refuse.

use crate::units::{Quantity, System, fixed};

/// The numbers of a text, in order. A comma or point before other than three digits is a decimal sign (`27,2`), a comma
/// before exactly three digits parts thousands (`1,800`).
pub(super) fn numbers(text: &str) -> Vec<f64> {
    let mut found = Vec::new();
    let mut token = String::new();
    for c in text.chars().chain(std::iter::once(' ')) {
        if c.is_ascii_digit() || (matches!(c, '.' | ',') && !token.is_empty()) {
            token.push(c);
        } else if !token.is_empty() {
            found.extend(number(&token));
            token.clear();
        }
    }
    found
}

/// One number as printed; see [`numbers`].
pub(super) fn number(text: &str) -> Option<f64> {
    let text = text.trim().trim_end_matches(['.', ',']);
    if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b',')) {
        return None;
    }
    let plain = match text.split_once(',') {
        Some((whole, rest)) if rest.len() == 3 && !rest.contains(',') => format!("{whole}{rest}"),
        _ => text.replacen(',', ".", 1),
    };
    plain.parse().ok().filter(|n: &f64| n.is_finite())
}

/// Lower-case words, with dashes and strokes kept inside them.
pub(super) fn folded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars().flat_map(char::to_lowercase) {
        if matches!(c, '≤' | '≥') {
            out.push_str(if c == '≤' { " at most " } else { " at least " });
            continue;
        }
        let c = match c {
            '×' => 'x',
            '–' | '—' | '\u{2010}' | '\u{2011}' => '-',
            c if c.is_whitespace() => ' ',
            c => c,
        };
        if !(c == ' ' && out.ends_with(' ')) {
            out.push(c);
        }
    }
    out
}

/// Whether the folded text holds a phrase, not as the part of a longer word.
pub(super) fn says(folded: &str, phrase: &str) -> bool {
    place_of(folded, phrase).is_some()
}

/// Where the folded text holds a phrase, not as the part of a longer word.
fn place_of(folded: &str, phrase: &str) -> Option<usize> {
    let mut from = 0;
    while let Some(at) = folded.get(from..).and_then(|rest| rest.find(phrase)) {
        let (start, end) = (from + at, from + at + phrase.len());
        let before = folded.get(..start).and_then(|t| t.chars().next_back());
        let after = folded.get(end..).and_then(|t| t.chars().next());
        if !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric) {
            return Some(start);
        }
        from = end;
    }
    None
}

/// Whether the folded text says any of the phrases.
pub(super) fn says_any(folded: &str, phrases: &[&str]) -> bool {
    phrases.iter().any(|p| says(folded, p))
}

/// Phrases of an upper limit, as pages print them.
const UP_TO: [&str; 8] = ["at most", "up to", "max", "maximum", "no more than", "or smaller", "or less", "or narrower"];
/// Whether the folded text gives an upper limit: `max. 180`, `up to 180`.
pub(super) fn is_upper_limit(folded: &str) -> bool {
    says_any(folded, &UP_TO) || folded.contains("<=") || folded.contains('<')
}

/// The folded text without its words of an upper limit.
pub(super) fn without_limit(folded: &str) -> String {
    let mut out = folded.replace("<=", " ").replace('<', " ");
    for phrase in UP_TO {
        while let Some(at) = place_of(&out, phrase) {
            out.replace_range(at..at + phrase.len(), " ");
        }
    }
    out.replace(" . ", " ").split_whitespace().collect::<Vec<_>>().join(" ").trim_start_matches(['.', ' ']).to_owned()
}

/// How many chainrings the folded text names: `1x`, `single ring`, `double`, `2 x 11`.
pub(super) fn rings_named(folded: &str) -> Option<u8> {
    const NAMES: [(u8, &[&str]); 3] = [
        (1, &["1x", "1 x", "single ring", "single chainring", "single", "one ring", "one chainring", "mono"]),
        (2, &["2x", "2 x", "double", "two rings", "two chainrings", "compact"]),
        (3, &["3x", "3 x", "triple", "three rings", "three chainrings"]),
    ];
    // `1x12` is one word: the letter parts it from the count of sprockets.
    let spaced = folded.replace("1x", "1x ").replace("2x", "2x ").replace("3x", "3x ");
    let mut named = NAMES.iter().filter(|(_, names)| says_any(&spaced, names)).map(|(n, _)| *n);
    named.next().filter(|_| named.next().is_none())
}

/// Chainlines that are made, mm.
pub(super) const CHAINLINES_MM: std::ops::RangeInclusive<f64> = 35.0..=85.0;

/// The number beside the word "chainline", mm, and the text without both: `chainline 49`, `49 mm chainline`.
pub(super) fn take_chainline(folded: &str) -> (String, Option<f64>) {
    let Some((before, after)) =
        folded.replace("chain line", "chainline").split_once("chainline").map(|(b, a)| (b.to_owned(), a.to_owned()))
    else {
        return (folded.to_owned(), None);
    };
    let is_digit = |c: char| c.is_ascii_digit();
    let begins = after.trim_start_matches([' ', ':', '=', '(']).starts_with(is_digit) || after.trim_start().starts_with("of ");
    if begins {
        let from = after.find(is_digit).unwrap_or(after.len());
        let rest = after.get(from..).unwrap_or_default();
        let end = rest.find(|c: char| !(is_digit(c) || matches!(c, '.' | ','))).unwrap_or(rest.len());
        let value = rest.get(..end).and_then(number);
        return (format!("{before} {}", rest.get(end..).unwrap_or_default()), value);
    }
    let bare = before.trim_end().trim_end_matches("mm").trim_end();
    let from = bare.rfind(|c: char| !(is_digit(c) || matches!(c, '.' | ','))).map_or(0, |at| at + 1);
    match bare.get(from..).and_then(|digits| number(digits.trim_matches([',', '.']))) {
        Some(value) => (format!("{} {after}", bare.get(..from).unwrap_or_default()), Some(value)),
        None => (format!("{before} {after}"), None),
    }
}

/// Counts in words made digits, in the six languages: `three pairs` is `3 pairs`.
pub(super) fn counts_in_digits(folded: &str) -> String {
    const COUNTS: [&str; 8] = ["one", "two", "three", "four", "five", "six", "seven", "eight"];
    /// From two on: of one nothing is said.
    const OTHERS: [[&str; 3]; 5] = [
        ["zwei", "drei", "vier"],
        ["deux", "trois", "quatre"],
        ["due", "tre", "quattro"],
        ["dos", "tres", "cuatro"],
        ["twee", "drie", "vier"],
    ];
    let other = |word: &str| OTHERS.iter().find_map(|counts| counts.iter().position(|c| *c == word)).map(|at| at + 2);
    let own = |word: &str| COUNTS.iter().position(|c| *c == word).map(|at| at + 1);
    let digits = |word: &str| own(word).or_else(|| other(word)).map(|count| count.to_string());
    folded.split(' ').map(|word| digits(word).unwrap_or_else(|| word.to_owned())).collect::<Vec<_>>().join(" ")
}

/// The distinct values within a range, in order of size.
pub(super) fn distinct(values: impl IntoIterator<Item = f64>, range: std::ops::RangeInclusive<f64>) -> Vec<f64> {
    let mut found: Vec<f64> = values.into_iter().filter(|n| range.contains(n)).collect();
    found.sort_unstable_by(f64::total_cmp);
    found.dedup();
    found
}

/// The first word of a folded text that is neither known nor a number: what is not known may turn the rest round.
pub(super) fn unknown_word<'a>(folded: &'a str, known: &[&str]) -> Option<&'a str> {
    let parts = folded.split([' ', ',', ';', '(', ')', '/', '+', '.']);
    parts.filter(|w| !w.is_empty() && number(w).is_none()).find(|w| !known.contains(w))
}

/// The word by which a text says what it is not, if it does: that is for nobody to guess.
pub(super) fn negation(text: &str) -> Option<&'static str> {
    let folded = folded(text);
    ["not", "never", "except", "unless"].into_iter().find(|w| says(&folded, w))
}

/// A number as people write it: no decimals where there are none.
pub(super) fn plain(value: f64) -> String {
    trimmed(fixed(value, 2))
}

/// A decimal number without noughts at its end.
fn trimmed(text: String) -> String {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// `value mm`, with a thin space.
pub(super) fn mm(value: f64) -> String {
    format!("{}{}mm", plain(value), crate::units::THIN_SPACE)
}

/// A length, mm, as a number in the chosen units: `420`, `16.535`.
pub(super) fn length_number(mm: f64, units: System) -> String {
    let decimals = if units == System::Metric { 2 } else { 3 };
    trimmed(fixed(mm * units.factor(Quantity::Length), decimals))
}

/// The known value that has the same digits but for the decimal sign or noughts behind (`286` for 28.6, `1800` for 180).
pub(super) fn same_digits(value: f64, known: impl IntoIterator<Item = f64>) -> Option<f64> {
    let digits = |v: f64| plain(v).chars().filter(char::is_ascii_digit).collect::<String>().trim_end_matches('0').to_owned();
    known.into_iter().find(|k| digits(*k) == digits(value))
}

/// The nearest of the known values.
pub(super) fn nearest_value(value: f64, known: impl IntoIterator<Item = f64>) -> Option<f64> {
    known.into_iter().min_by(|a, b| (a - value).abs().total_cmp(&(b - value).abs()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_printed() {
        assert_eq!(numbers("142 x 12 through axle"), [142.0, 12.0]);
        assert_eq!(numbers("27,2"), [27.2]);
        assert_eq!(numbers("a rotor of 1,800 mm."), [1800.0]);
        assert_eq!(numbers("3+3"), [3.0, 3.0]);
        assert_eq!(plain(28.60), "28.6");
        assert_eq!(plain(180.0), "180");
    }

    #[test]
    fn what_turns_a_text_round_is_seen() {
        assert_eq!(unknown_word("rear rack, no mudguards", &["rear", "rack", "mudguards"]), Some("no"));
        assert_eq!(unknown_word("2 racks", &["racks"]), None);
        assert_eq!((negation("Not for belts"), negation("knot")), (Some("not"), None));
    }

    #[test]
    fn limits_rings_and_counts_are_seen() {
        for text in ["max. 180", "up to 180", "180 maximum", "≤ 180", "≤180", "<=180", "180 or smaller"] {
            let folded = folded(text);
            assert!(is_upper_limit(&folded), "{text}");
            assert_eq!(numbers(&without_limit(&folded)), [180.0], "{text}");
        }
        assert!(!is_upper_limit("maxi 180") && !is_upper_limit("from 160"));
        for (text, rings) in
            [("1x only", Some(1)), ("2x11", Some(2)), ("triple", Some(3)), ("1x or 2x", None), ("142 x 12", None)]
        {
            assert_eq!(rings_named(text), rings, "{text}");
        }
        for (text, line) in
            [("142, chainline 49", Some(49.0)), ("49 mm chainline, 142", Some(49.0)), ("chainline, 142", None), ("142", None)]
        {
            let (rest, found) = take_chainline(text);
            assert_eq!(found, line, "{text}");
            assert!(numbers(&rest).contains(&142.0), "{text}: {rest}");
        }
        assert_eq!(counts_in_digits("three pairs"), "3 pairs");
        assert_eq!(distinct([12.0, 160.0, 140.0, 160.0], 100.0..=200.0), [140.0, 160.0]);
    }

    #[test]
    fn slips_of_the_point_are_seen() {
        assert_eq!(same_digits(286.0, [25.4, 28.6, 31.8]), Some(28.6));
        assert_eq!(same_digits(1800.0, [160.0, 180.0]), Some(180.0));
        assert_eq!(same_digits(34.0, [25.4, 28.6]), None);
        assert!(says("braze-on, top pull", "top pull") && !says("laptop pull", "top pull"));
    }

    #[test]
    fn signs_and_powers_of_ten_are_no_printed_numbers() {
        for text in ["1e3", "-5", "inf", "12mm", ""] {
            assert_eq!(number(text), None, "{text}");
        }
    }
}
