//! Numbers inside printed text: `1.299,00`, `1,195.00`, `2 350`, `5.9`. A mark before three digits can part thousands or
//! decimals; both readings are given, and whoever knows what is counted chooses.

/// A number between two places of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct PrintedNumber {
    /// Where it begins, bytes.
    pub(super) start: usize,
    /// Where it ends, bytes.
    pub(super) end: usize,
    /// Digits and at most one point, a mark before three last digits read as the decimal one; `None` where it cannot be.
    pub(super) with_decimals: Option<String>,
    /// The same, that mark read as parting thousands; `None` where it cannot be.
    pub(super) with_thousands: Option<String>,
}

/// Most digits of a number: more are a code, such as that of an article.
const MOST_DIGITS: usize = 12;

/// All numbers of a text that can be read, in order.
pub(super) fn printed_numbers(text: &str) -> Vec<PrintedNumber> {
    let chars: Vec<(usize, char)> = text.char_indices().collect();
    let place = |at: usize| chars.get(at).map_or(text.len(), |(byte, _)| *byte);
    let mut found = Vec::new();
    let mut at = 0;
    while let Some((_, c)) = chars.get(at) {
        if !c.is_ascii_digit() {
            at += 1;
            continue;
        }
        let end = end_of_number(&chars, at);
        let token: String = chars.get(at..end).unwrap_or_default().iter().map(|(_, c)| *c).collect();
        let (with_decimals, with_thousands) = readings(&token);
        if with_decimals.is_some() || with_thousands.is_some() {
            found.push(PrintedNumber { start: place(at), end: place(end), with_decimals, with_thousands });
        }
        at = end;
    }
    found
}

/// The place behind the number that begins at `at`.
fn end_of_number(chars: &[(usize, char)], at: usize) -> usize {
    let is_digit = |i: usize| chars.get(i).is_some_and(|(_, c)| c.is_ascii_digit());
    let three_digits = |i: usize| is_digit(i) && is_digit(i + 1) && is_digit(i + 2) && !is_digit(i + 3);
    let mut end = at;
    let mut group = 0;
    let mut has_mark = false;
    while let Some((_, c)) = chars.get(end) {
        if c.is_ascii_digit() {
            group += 1;
        } else if matches!(c, '.' | ',' | '\'' | '’') && is_digit(end + 1) {
            has_mark = true;
            group = 0;
        } else if c.is_whitespace() && !has_mark && (1..=3).contains(&group) && three_digits(end + 1) {
            group = 0;
        } else {
            break;
        }
        end += 1;
    }
    end
}

/// With decimals and with thousands; see [`PrintedNumber`].
fn readings(token: &str) -> (Option<String>, Option<String>) {
    if token.chars().filter(char::is_ascii_digit).count() > MOST_DIGITS {
        return (None, None);
    }
    // Apostrophes and blanks part thousands only.
    let parted = token.contains(|c: char| matches!(c, '\'' | '’') || c.is_whitespace());
    let plain: String = token.chars().filter(|c| !matches!(c, '\'' | '’') && !c.is_whitespace()).collect();
    let last = plain.rfind(['.', ',']);
    let Some(last) = last else { return (Some(plain.clone()), Some(plain)) };
    let (whole, rest) = plain.split_at(last);
    let decimals = rest.get(1..).unwrap_or_default();
    let mark = rest.chars().next().unwrap_or('.');
    let grouped = |text: &str| -> Option<String> {
        let mut groups = text.split(['.', ',']);
        let first = groups.next()?;
        let sound = (1..=3).contains(&first.len()) && !first.starts_with('0') && groups.all(|g| g.len() == 3);
        sound.then(|| text.chars().filter(char::is_ascii_digit).collect())
    };
    let marks: Vec<char> = plain.chars().filter(|c| matches!(c, '.' | ',')).collect();
    let one_kind = marks.iter().all(|m| *m == mark);
    // Two marks of one kind part thousands; a mark behind another kind is the decimal one.
    let with_decimals = if marks.len() == 1 {
        Some(format!("{whole}.{decimals}"))
    } else if !one_kind && marks.iter().filter(|m| **m == mark).count() == 1 {
        grouped(whole).map(|whole| format!("{whole}.{decimals}"))
    } else {
        None
    };
    let with_thousands = if one_kind && !parted { grouped(&plain) } else { None };
    (with_decimals, with_thousands)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_tell_what_they_mean_or_both_readings_are_given() {
        let read = |text: &str| {
            let found = printed_numbers(text);
            assert_eq!(found.len(), 1, "{text}: {found:?}");
            found.into_iter().next().map(|n| (n.with_decimals.unwrap_or_default(), n.with_thousands.unwrap_or_default()))
        };
        for (text, decimals, thousands) in [
            ("1299", "1299", "1299"),
            ("1.299,00", "1299.00", ""),
            ("1,195.00", "1195.00", ""),
            ("1'195.50", "1195.50", ""),
            ("1.299", "1.299", "1299"),
            ("2,350", "2.350", "2350"),
            ("2 350 g", "2350", "2350"),
            ("1.234.567", "", "1234567"),
            ("0.350", "0.350", ""),
            ("5,9", "5.9", ""),
        ] {
            assert_eq!(read(text), Some((decimals.to_owned(), thousands.to_owned())), "{text}");
        }
        assert_eq!(printed_numbers("1.2.3"), []);
        assert_eq!(printed_numbers("none, EAN 40123456789012345"), []);
        assert_eq!(printed_numbers("56 2350 g").len(), 2);
    }
}
