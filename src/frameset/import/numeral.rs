//! One cell's text read as numbers: `71,5°`, `28 5/8"`, `71°30'`, `1.118 mm`, `57.5 cm (22.6")`, `445/450`, `–`.
//!
//! Decimal and group marks are those of Unicode CLDR 48 (`main/LANGUAGE/numbers.json`,
//! `symbols-numberSystem-latn`): decimal and group are `.` `,` in en; `,` `.` in de, es, it and nl; `,` and U+202F in
//! fr; de-AT groups with U+00A0, de-CH and fr-CH with an apostrophe. So a table has a decimal point and may group with
//! commas, or a decimal comma and may group with points; blanks and apostrophes group in either.
//!
//! Invariant: a text has at most one reading under one decimal mark; what has none is words, never a part of a number.

use super::fold::{fold, is_footnote};
use super::unit::Unit;
pub(super) use crate::units::DecimalMark;
use crate::units::digits_at;

/// Digits before a blank that parts thousands: behind more of them the blank parts two cells.
const LONGEST_HEAD: u32 = 1;

/// How finely a number is printed, in its own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Fineness {
    /// Count of decimals.
    Decimals(u8),
    /// A fraction of an inch with this denominator.
    Fraction(u32),
    /// Minutes of arc.
    Minutes,
}

/// A number as printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Numeral {
    /// In its own unit.
    pub(super) value: f64,
    pub(super) fineness: Fineness,
    /// The unit written with it.
    pub(super) unit: Option<Unit>,
    /// Whether "about" stood before it.
    pub(super) approximate: bool,
}

/// A cell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Cell {
    /// Nothing in it.
    Blank,
    /// A dash, "n/a", "TBC" and the like.
    NotStated,
    /// A single number.
    Number(Numeral),
    /// Two numbers of one kind: a range or a choice.
    Range(Numeral, Numeral),
    /// A text that is not a number.
    Words,
}

impl Cell {
    /// Whether it holds a number or a range.
    pub(super) const fn is_numeric(&self) -> bool {
        matches!(self, Self::Number(_) | Self::Range(..))
    }
}

/// Reads a cell.
pub(super) fn read(text: &str, mark: DecimalMark) -> Cell {
    let text = normal(text);
    if text.is_empty() {
        return Cell::Blank;
    }
    if is_not_stated(&text) {
        return Cell::NotStated;
    }
    if !text.contains(|c: char| c.is_ascii_digit() || fraction_sign(c).is_some()) {
        return Cell::Words;
    }
    let (approximate, text) = without_about(&text);
    let chars: Vec<char> = text.chars().collect();
    let Some((mut first, at)) = amount(&chars, 0, mark) else { return Cell::Words };
    first.approximate = approximate;
    let rest = skip_blanks(&chars, at);
    if rest >= chars.len() {
        return Cell::Number(first);
    }
    let Some(at) = joint(&chars, rest) else { return Cell::Words };
    let Some((second, at)) = amount(&chars, skip_blanks(&chars, at), mark) else { return Cell::Words };
    let end = skip_blanks(&chars, at);
    let end = if matches!(chars.get(end), Some(')' | ']')) { skip_blanks(&chars, end + 1) } else { end };
    if end < chars.len() { Cell::Words } else { pair(first, second) }
}

/// Typographic variants made plain, footnote marks and outer blanks taken off.
fn normal(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.trim().chars().filter(|c| !is_footnote(*c)) {
        match c {
            '″' | '”' | '“' | '„' => plain.push('"'),
            '′' | '’' | '‘' | '´' | '`' => plain.push('\''),
            '−' | '‐' | '‑' | '‒' | '–' | '—' => plain.push('-'),
            'º' | '˚' => plain.push('°'),
            '⁄' => plain.push('/'),
            c if c.is_whitespace() => plain.push(' '),
            '\u{feff}' | '\u{200b}' => {}
            c => plain.push(c),
        }
    }
    let plain = plain.trim().replace("''", "\"");
    // A footnote number in square brackets.
    match plain.rsplit_once('[') {
        Some((before, note)) if note.len() == 2 && note.ends_with(']') && !before.trim().is_empty() => {
            before.trim_end().to_owned()
        }
        _ => plain,
    }
}

fn is_not_stated(text: &str) -> bool {
    if text.chars().all(|c| matches!(c, '-' | '.' | '…' | '/' | '?' | ' ')) {
        return true;
    }
    matches!(
        fold(text).as_str(),
        "na" | "nd"
            | "sd"
            | "tbc"
            | "tbd"
            | "tba"
            | "ka"
            | "nvt"
            | "nc"
            | "x"
            | "none"
            | "notavailable"
            | "unknown"
            | "pending"
            | "folgt"
            | "offen"
            | "avenir"
            | "porconfirmar"
            | "dadefinire"
            | "nochoffen"
            | "nb"
            | "nn"
            | "ns"
            | "nonprecise"
    )
}

fn without_about(text: &str) -> (bool, &str) {
    for sign in ["~", "≈", "ca.", "ca ", "Ca.", "c. ", "approx.", "approx ", "about ", "env. ", "environ ", "aprox. ", "circa "]
    {
        if let Some(rest) = text.strip_prefix(sign) {
            return (true, rest.trim_start());
        }
    }
    (false, text)
}

fn skip_blanks(chars: &[char], mut at: usize) -> usize {
    while chars.get(at) == Some(&' ') {
        at += 1;
    }
    at
}

/// What joins two numbers of one cell; the place after it.
fn joint(chars: &[char], at: usize) -> Option<usize> {
    if matches!(chars.get(at)?, '/' | '-' | '(' | '[' | '|' | '…' | '~') {
        return Some(at + 1);
    }
    let rest: String = chars.get(at..)?.iter().collect();
    ["to ", "bis ", "à ", "a ", "tot ", "or ", "oder ", "ou ", "o ", "of ", ".."]
        .iter()
        .find(|word| rest.starts_with(**word))
        .map(|word| at + word.chars().count())
}

/// A signed number with its unit, from `at` on; the place after it.
fn amount(chars: &[char], at: usize, mark: DecimalMark) -> Option<(Numeral, usize)> {
    let at = skip_blanks(chars, at);
    let (sign, at) = match chars.get(at)? {
        '-' => (-1.0, skip_blanks(chars, at + 1)),
        '+' => (1.0, skip_blanks(chars, at + 1)),
        _ => (1.0, at),
    };
    let (mut numeral, at) = magnitude(chars, at, mark)?;
    numeral.value *= sign;
    let (unit, after) = unit_after(chars, at);
    if unit.is_some() {
        numeral.unit = unit;
    }
    if numeral.unit == Some(Unit::Degree)
        && let Some((minutes, end)) = minutes_after(chars, after)
    {
        numeral.value += sign * minutes / 60.0;
        numeral.fineness = Fineness::Minutes;
        return Some((numeral, end));
    }
    Some((numeral, after))
}

fn magnitude(chars: &[char], at: usize, mark: DecimalMark) -> Option<(Numeral, usize)> {
    let plain = |value, fineness, unit| Numeral { value, fineness, unit, approximate: false };
    if let Some((part, denominator)) = chars.get(at).copied().and_then(fraction_sign) {
        return Some((plain(part, Fineness::Fraction(denominator), Some(Unit::Inch)), at + 1));
    }
    if let Some((part, denominator, end)) = fraction(chars, at) {
        return Some((plain(part, Fineness::Fraction(denominator), Some(Unit::Inch)), end));
    }
    let digits = digits_at(chars, at, mark, LONGEST_HEAD)?;
    let (value, decimals, end) = (digits.value(), digits.decimals, digits.end);
    if decimals == 0 {
        let next = skip_blanks(chars, end);
        let next = if chars.get(next) == Some(&'-') { skip_blanks(chars, next + 1) } else { next };
        if let Some((part, denominator)) = chars.get(next).copied().and_then(fraction_sign) {
            return Some((plain(value + part, Fineness::Fraction(denominator), Some(Unit::Inch)), next + 1));
        }
        if next > end
            && let Some((part, denominator, end)) = fraction(chars, next)
        {
            return Some((plain(value + part, Fineness::Fraction(denominator), Some(Unit::Inch)), end));
        }
    }
    Some((plain(value, Fineness::Decimals(decimals), None), end))
}

/// `5/8`: only the denominators that rulers have.
fn fraction(chars: &[char], at: usize) -> Option<(f64, u32, usize)> {
    let (numerator, slash) = digits(chars, at)?;
    if chars.get(slash) != Some(&'/') {
        return None;
    }
    let (denominator, end) = digits(chars, slash + 1)?;
    let on_a_ruler = matches!(denominator, 2 | 4 | 8 | 16 | 32 | 64) && (1..denominator).contains(&numerator);
    on_a_ruler.then(|| (f64::from(numerator) / f64::from(denominator), denominator, end))
}

fn fraction_sign(c: char) -> Option<(f64, u32)> {
    Some(match c {
        '½' => (0.5, 2),
        '¼' => (0.25, 4),
        '¾' => (0.75, 4),
        '⅛' => (0.125, 8),
        '⅜' => (0.375, 8),
        '⅝' => (0.625, 8),
        '⅞' => (0.875, 8),
        _ => return None,
    })
}

/// Up to four digits without marks.
fn digits(chars: &[char], at: usize) -> Option<(u32, usize)> {
    let mut end = at;
    let mut value = 0;
    while let Some(digit) = chars.get(end).and_then(|c| c.to_digit(10)) {
        value = value * 10 + digit;
        end += 1;
        if end > at + 4 {
            return None;
        }
    }
    (end > at).then_some((value, end))
}

/// The unit that follows a number, and the place after it; the place itself where none does.
fn unit_after(chars: &[char], at: usize) -> (Option<Unit>, usize) {
    let start = skip_blanks(chars, at);
    match chars.get(start) {
        Some('°') => return (Some(Unit::Degree), start + 1),
        Some('"') => return (Some(Unit::Inch), start + 1),
        _ => {}
    }
    let mut end = start;
    while chars.get(end).is_some_and(|c| c.is_alphabetic()) {
        end += 1;
    }
    let word: String = chars.get(start..end).unwrap_or_default().iter().collect();
    match Unit::from_word(&word) {
        Some(unit) if !word.is_empty() => (Some(unit), if chars.get(end) == Some(&'.') { end + 1 } else { end }),
        _ => (None, at),
    }
}

/// `30'`, `30'15"`, in minutes.
fn minutes_after(chars: &[char], at: usize) -> Option<(f64, usize)> {
    let (minutes, end) = digits(chars, skip_blanks(chars, at))?;
    if minutes > 59 || chars.get(end) != Some(&'\'') {
        return None;
    }
    let after = end + 1;
    if let Some((seconds, end)) = digits(chars, skip_blanks(chars, after))
        && seconds < 60
        && chars.get(end) == Some(&'"')
    {
        return Some((f64::from(minutes) + f64::from(seconds) / 60.0, end + 1));
    }
    Some((f64::from(minutes), after))
}

/// Two numbers of one cell: the metric one where they are one length in two units, a range where they are near each
/// other, else words.
fn pair(mut first: Numeral, mut second: Numeral) -> Cell {
    if first.unit.is_none() && second.unit.is_none() {
        // 580 (22.8): millimetres and inches, or centimetres and inches, by their ratio. Each is rounded, so 2 %.
        for (metric, inches) in [(first, second), (second, first)] {
            for unit in [Unit::Millimetre, Unit::Centimetre] {
                let ratio = metric.value / inches.value * unit.factor() / Unit::Inch.factor();
                if (ratio - 1.0).abs() < 0.02 {
                    return Cell::Number(Numeral { unit: Some(unit), ..metric });
                }
            }
        }
    }
    let unit = first.unit.or(second.unit);
    if first.unit.is_none() || second.unit.is_none() {
        (first.unit, second.unit) = (unit, unit);
    }
    if first.unit != second.unit {
        let (Some(a), Some(b)) = (first.unit, second.unit) else { return Cell::Words };
        let same = (first.value * a.factor() / (second.value * b.factor()) - 1.0).abs() < 0.02;
        if a.is_angle() || b.is_angle() || !same {
            return Cell::Words;
        }
        return Cell::Number(if a == Unit::Inch { second } else { first });
    }
    let ratio = second.value / first.value;
    if (0.5..=2.0).contains(&ratio) { Cell::Range(first, second) } else { Cell::Words }
}

#[cfg(test)]
mod tests;
