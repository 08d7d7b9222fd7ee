//! Numbers as they are printed: `1.299,00`, `1,195.00`, `2 350`, `5.9`. In a table one decimal mark holds throughout. In a
//! text alone a mark before three digits can part thousands or decimals; both readings are given, and whoever knows what is
//! counted chooses.

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
const MOST_DIGITS: u32 = 12;

/// Which mark stands before the decimals, in a whole table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DecimalMark {
    /// `71.5`, and `1,118` is a thousand.
    Point,
    /// `71,5`, and `1.118` is a thousand.
    Comma,
}

impl DecimalMark {
    pub(crate) const BOTH: [Self; 2] = [Self::Point, Self::Comma];

    const fn decimal(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    const fn group(self) -> char {
        match self {
            Self::Point => ',',
            Self::Comma => '.',
        }
    }
}

/// Digits with their marks, read under one decimal mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Digits {
    /// All digits as one whole number.
    mantissa: i64,
    /// How many of them stand behind the decimal mark.
    pub(crate) decimals: u8,
    /// The place behind them.
    pub(crate) end: usize,
}

impl Digits {
    /// The number.
    #[cfg(feature = "import")]
    pub(crate) fn value(self) -> f64 {
        self.mantissa as f64 / 10f64.powi(i32::from(self.decimals))
    }

    /// The number with at most one point.
    fn text(self) -> String {
        let decimals = usize::from(self.decimals);
        let digits = format!("{:0>width$}", self.mantissa, width = decimals + 1);
        match digits.split_at_checked(digits.len() - decimals) {
            Some((whole, part)) if !part.is_empty() => format!("{whole}.{part}"),
            _ => digits,
        }
    }
}

/// The digits from `at` on, with group and decimal marks. Groups are of three digits, and a number that has them does not
/// begin with a nought; else it is no number under this mark. A blank parts thousands only behind at most `longest_head`
/// digits: in a table it may also part two cells.
pub(crate) fn digits_at(chars: &[char], at: usize, mark: DecimalMark, longest_head: u32) -> Option<Digits> {
    let is_digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
    let mut mantissa: i64 = 0;
    let mut count = 0u32;
    let mut end = at;
    let mut decimals: Option<u8> = None;
    let mut group: Option<char> = None;
    let mut in_group = 0;
    loop {
        let c = chars.get(end).copied().unwrap_or('\0');
        let is_blank = c.is_whitespace();
        if let Some(digit) = c.to_digit(10) {
            count += 1;
            in_group += 1;
            if count > MOST_DIGITS {
                return None;
            }
            mantissa = mantissa * 10 + i64::from(digit);
            if let Some(d) = &mut decimals {
                *d += 1;
            }
        } else if c == mark.decimal() && decimals.is_none() && is_digit(end + 1) {
            if group.is_some() && in_group != 3 {
                return None;
            }
            decimals = Some(0);
        } else if decimals.is_none()
            && (c == mark.group()
                || matches!(c, '\'' | '’')
                || (is_blank && (group == Some(' ') || (group.is_none() && count <= longest_head))))
            && is_digit(end + 1)
        {
            let parts = if is_blank { ' ' } else { c };
            let starts_well = (1..=3).contains(&count) && mantissa > 0 && group.is_none();
            let goes_on = group == Some(parts) && in_group == 3;
            if !is_group(chars, end + 1) || !(starts_well || goes_on) {
                // A blank may also stand between two numbers; a mark may not.
                if is_blank {
                    break;
                }
                return None;
            }
            group = Some(parts);
            in_group = 0;
        } else if matches!(c, '.' | ',') && is_digit(end + 1) {
            return None;
        } else {
            break;
        }
        end += 1;
    }
    if count == 0 || (group.is_some() && decimals.is_none() && in_group != 3) {
        return None;
    }
    Some(Digits { mantissa, decimals: decimals.unwrap_or(0), end })
}

/// Whether exactly three digits stand there.
fn is_group(chars: &[char], at: usize) -> bool {
    let is_digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
    is_digit(at) && is_digit(at + 1) && is_digit(at + 2) && !is_digit(at + 3)
}

/// All numbers of a text that can be read, in order.
pub(super) fn printed_numbers(text: &str) -> Vec<PrintedNumber> {
    let chars: Vec<(usize, char)> = text.char_indices().collect();
    let place = |at: usize| chars.get(at).map_or(text.len(), |(byte, _)| *byte);
    let letters: Vec<char> = chars.iter().map(|(_, c)| *c).collect();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(c) = letters.get(at) {
        if !c.is_ascii_digit() {
            at += 1;
            continue;
        }
        let read = DecimalMark::BOTH.map(|mark| digits_at(&letters, at, mark, 3));
        let end = read.iter().flatten().map(|digits| digits.end).max();
        if let Some(end) = end {
            let with = |is_decimal: bool| {
                let mut readings = read.iter().flatten().filter(|digits| digits.end == end);
                readings.find(|digits| (digits.decimals > 0) == is_decimal).map(|digits| digits.text())
            };
            let (decimal, whole) = (with(true), with(false));
            let has_mark = letters.get(at..end).unwrap_or_default().iter().any(|c| matches!(c, '.' | ','));
            let with_decimals = if has_mark { decimal } else { whole.clone() };
            found.push(PrintedNumber { start: place(at), end: place(end), with_decimals, with_thousands: whole });
        }
        at = end.unwrap_or_else(|| end_of_unread(&letters, at));
    }
    found
}

/// The place behind digits and marks that are no number.
fn end_of_unread(chars: &[char], at: usize) -> usize {
    let is_digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
    let goes_on = |end: usize| {
        is_digit(end)
            || chars.get(end).is_some_and(|c| match c {
                '.' | ',' | '\'' | '’' => is_digit(end + 1),
                c => c.is_whitespace() && is_group(chars, end + 1),
            })
    };
    (at..=chars.len()).find(|end| !goes_on(*end)).unwrap_or(chars.len())
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
