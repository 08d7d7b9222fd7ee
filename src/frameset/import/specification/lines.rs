//! Lines of a specification list cut out of a text or out of rows of cells, so that what is left is the geometry table.
//!
//! Invariant: a line is cut out whole or not at all, and only where a known field is named in it or beside it.

use super::super::names::{self, Meaning};
use super::super::size_label::rank;
use super::super::unit::bracketed;
use super::ends::headset_codes;
use super::field::{SpecificationField, field_of};
use super::weights::{part_of, without_parts};
use crate::frameset::{Figure, Standard};
use crate::units::{printed_masses, printed_prices};

/// A line with its label and what it says, for all sizes or for each.
#[derive(Clone, Debug, PartialEq)]
pub(in super::super) struct SpecificationLine {
    pub(in super::super) line: usize,
    pub(in super::super) label: String,
    /// Texts, each with the size's label where it stands in a size's column.
    pub(in super::super) cells: Vec<(Option<String>, String)>,
}

/// How a line is cut into label and value.
#[derive(Clone, Copy, PartialEq)]
enum Cut {
    /// Two cells: tabs, bars, semicolons, several blanks.
    Cells,
    /// A colon, which also marks a label that is not known.
    Colon,
    /// Label and value on lines of their own.
    Lines,
}

/// What one line may be.
#[derive(Clone, Debug)]
enum Piece {
    Blank,
    /// Label, value.
    Pair(String, String, bool),
    Other(String),
}

/// The text without the lines of a specification list, and these lines. A text without any comes back as it is.
pub(in super::super) fn take_from_text(text: &str) -> (String, Vec<SpecificationLine>) {
    let lines: Vec<&str> = text.lines().collect();
    let pieces: Vec<Piece> = lines.iter().map(|line| piece_of_text(line)).collect();
    let (taken, found) = take(&pieces);
    if found.is_empty() {
        return (text.to_owned(), found);
    }
    let rest: Vec<&str> = lines.iter().zip(&taken).filter(|(_, taken)| !**taken).map(|(line, _)| *line).collect();
    (rest.join("\n"), found)
}

/// The same for rows of cells, as spreadsheets and web pages have them.
pub(in super::super) fn take_from_rows(rows: Vec<Vec<String>>, first_line: usize) -> (Vec<Vec<String>>, Vec<SpecificationLine>) {
    let pieces: Vec<Piece> = rows
        .iter()
        .map(|row| {
            let filled: Vec<&String> = row.iter().filter(|cell| !cell.is_empty()).collect();
            match filled.as_slice() {
                [] => Piece::Blank,
                [only] => piece_of_text(only),
                // A value under another column than the first may be one size's.
                [label, value] if row.first() == Some(*label) && row.get(1) == Some(*value) => {
                    Piece::Pair(label.trim_end_matches([':', '：']).trim().to_owned(), (*value).clone(), label.ends_with(':'))
                }
                _ => Piece::Other(row.concat()),
            }
        })
        .collect();
    let (taken, mut found) = take(&pieces);
    for line in &mut found {
        line.line += first_line;
    }
    (rows.into_iter().zip(&taken).filter(|(_, taken)| !**taken).map(|(row, _)| row).collect(), found)
}

fn piece_of_text(line: &str) -> Piece {
    if line.trim().is_empty() {
        return Piece::Blank;
    }
    let pair = |label: &str, value: &str, colon: bool| Piece::Pair(label.trim().to_owned(), value.trim().to_owned(), colon);
    let label_of = |text: &str| text.trim().trim_start_matches(['•', '·', '-', '–', '*', '▪']).trim().to_owned();
    if line.contains('\t') {
        let cells: Vec<&str> = line.trim_end_matches(['\r', ' ']).split('\t').map(str::trim).collect();
        return match cells.as_slice() {
            [label, value] if !label.is_empty() && !value.is_empty() => pair(label.trim_end_matches(':'), value, false),
            [only, ""] | ["", only] => Piece::Other((*only).to_owned()),
            _ => Piece::Other(line.to_owned()),
        };
    }
    let bare = line.trim().trim_matches('|').trim();
    if let Some((label, value)) = bare.split_once('|')
        && !value.contains('|')
        && field_named(label).is_some()
    {
        return pair(&label_of(label), value, false);
    }
    if let Some((label, value)) = line.split_once([':', '：'])
        && label.contains(char::is_alphabetic)
        && label.chars().count() <= 60
    {
        return pair(&label_of(label), value, true);
    }
    for separator in [";", " – ", " — ", " - ", " = ", "  ", ".."] {
        if let Some((label, value)) = label_of(line).split_once(separator)
            && field_named(label).is_some()
        {
            let value = value.trim_matches([' ', '.', '…', ';']);
            // More cells: a row of the table.
            let more = (separator == "  " || separator == ";") && value.contains(separator);
            if !more && !value.is_empty() {
                return pair(label, value, false);
            }
        }
    }
    match at_a_blank(&label_of(line)) {
        Some((label, value)) => pair(label, value, false),
        None => Piece::Other(line.trim().to_owned()),
    }
}

/// The longest label in names of a list and a value that fits it, with nothing but a blank between them: `Seatpost 27.2 mm`.
fn at_a_blank(line: &str) -> Option<(&str, &str)> {
    let blanks = line.match_indices(' ').map(|(at, _)| at).take(LONGEST_LABEL).collect::<Vec<_>>();
    let value_from = |at: usize| Some((line.get(..at)?, line.get(at..)?.trim()));
    let (label, value) = blanks.into_iter().rev().filter_map(value_from).find(|(label, _)| field_named(label).is_some())?;
    // `Bottom bracket height 280` is another name, that of a figure.
    let up_to_number = line.split(|c: char| c.is_ascii_digit()).next().unwrap_or_default();
    (!is_table_label(up_to_number) && fits(field_named(label)?, value)).then_some((label, value))
}

/// Words of the longest label that a blank alone may part from its value.
const LONGEST_LABEL: usize = 6;

/// Whether a text behind a label is plainly its value, and not one more word of a sentence or a row of a table.
fn fits(field: SpecificationField, value: &str) -> bool {
    let words: Vec<&str> = value.split_whitespace().collect();
    let Some(first) = words.first() else { return false };
    let is_number = |word: &str| word.parse::<f64>().is_ok() || word.replace(',', ".").parse::<f64>().is_ok();
    match field {
        SpecificationField::Weight(_) => !printed_masses(value).is_empty(),
        SpecificationField::Price(_) => printed_prices(value).iter().any(|price| price.currency.is_some()),
        SpecificationField::Fork | SpecificationField::Tubing | SpecificationField::Sizes | SpecificationField::Year => false,
        _ => {
            let is_code = first.contains(|c: char| c.is_ascii_digit()) || (first.len() > 1 && *first == first.to_uppercase());
            let is_row = words.len() > 1 && words.iter().all(|word| is_number(word));
            is_code && !is_row && words.len() <= MOST_WORDS
        }
    }
}

/// Words of the longest value that a blank alone may part from its label.
const MOST_WORDS: usize = 8;

/// The field of a line: that of its label, or the lower headset where a cup's code stands beside the name of its height.
pub(super) fn field_of_line(label: &str, value: &str) -> Option<SpecificationField> {
    field_named(label).or_else(|| {
        let is_lower =
            matches!(names::find_exact(label)?.meaning, Meaning::Figures { choices, .. } if choices == [Figure::LowerHeadset]);
        (is_lower && headset_codes(value).len() == 1).then_some(SpecificationField::Standard(Standard::LowerHeadset))
    })
}

/// The field that a label names, with a remark in brackets behind it or not.
pub(super) fn field_named(label: &str) -> Option<SpecificationField> {
    field_of(label).or_else(|| field_beside_part(label)).or_else(|| {
        let (before, _, after) = bracketed(label)?;
        field_of(&format!("{before} {after}"))
    })
}

/// A weight or price with its part, in words that no list has together: `UVP Rahmenset`.
fn field_beside_part(label: &str) -> Option<SpecificationField> {
    let part = part_of(label)?;
    match field_of(&without_parts(label))? {
        SpecificationField::Weight(None) => Some(SpecificationField::Weight(Some(part))),
        SpecificationField::Price(None) => Some(SpecificationField::Price(Some(part))),
        _ => None,
    }
}

/// Which pieces are lines of a list, and the lines.
fn take(pieces: &[Piece]) -> (Vec<bool>, Vec<SpecificationLine>) {
    let mut taken = vec![false; pieces.len()];
    let mut found: Vec<SpecificationLine> = Vec::new();
    let push = |found: &mut Vec<SpecificationLine>, line: usize, label: &str, value: &str| {
        found.push(SpecificationLine { line, label: label.to_owned(), cells: vec![(None, value.to_owned())] });
    };
    let mut at = 0;
    while let Some(piece) = pieces.get(at) {
        let (cut, label, value) = match piece {
            Piece::Pair(label, value, true) if !value.is_empty() => (Cut::Colon, label, value.clone()),
            Piece::Pair(label, value, false) => (Cut::Cells, label, value.clone()),
            Piece::Pair(label, _, true) | Piece::Other(label) => {
                let Some(value) = value_below(pieces, at) else {
                    at += 1;
                    continue;
                };
                (Cut::Lines, label, value)
            }
            Piece::Blank => {
                at += 1;
                continue;
            }
        };
        let is_line = field_of_line(label, &value).is_some_and(|field| says_something(field, cut, &value));
        if is_line {
            push(&mut found, at, label, &value);
            let lines = if cut == Cut::Lines { 2 } else { 1 };
            for slot in taken.iter_mut().skip(at).take(lines) {
                *slot = true;
            }
            at += lines;
        } else {
            at += 1;
        }
    }
    if !found.is_empty() {
        take_neighbours(pieces, &mut taken, &mut found);
    }
    found.sort_by_key(|line| line.line);
    (taken, found)
}

/// The row of sizes and a table's title are no lines of a list.
fn says_something(field: SpecificationField, cut: Cut, value: &str) -> bool {
    let is_size = rank(value).is_some() && !value.contains(',');
    match field {
        SpecificationField::Sizes => cut == Cut::Colon && !value.contains('\t') && !is_size,
        SpecificationField::Tubing | SpecificationField::Fork => !is_size && !value.contains('\t'),
        _ => !value.contains('\t'),
    }
}

/// The value of a label that stands alone on its line: the next line, where a line after it begins the next label or ends
/// the list.
fn value_below(pieces: &[Piece], at: usize) -> Option<String> {
    let label = match pieces.get(at)? {
        Piece::Other(label) => label,
        Piece::Pair(label, _, true) => label,
        _ => return None,
    };
    field_named(label)?;
    let Some(Piece::Other(value)) = pieces.get(at + 1) else { return None };
    let is_label = |text: &str| field_named(text).is_some() || is_table_label(text);
    let ends = match pieces.get(at + 2) {
        None | Some(Piece::Blank | Piece::Pair(..)) => true,
        Some(Piece::Other(next)) => field_named(next).is_some(),
    };
    (ends && !is_label(value) && !value.contains('\t')).then(|| value.clone())
}

/// Lines beside known ones that have a label nobody knows.
fn take_neighbours(pieces: &[Piece], taken: &mut [bool], found: &mut Vec<SpecificationLine>) {
    let mut start = 0;
    while start < pieces.len() {
        let end = (start..pieces.len()).find(|i| !matches!(pieces.get(*i), Some(Piece::Pair(..)))).unwrap_or(pieces.len());
        if taken.get(start..end).unwrap_or_default().contains(&true) {
            for at in start..end {
                let Some(Piece::Pair(label, value, _)) = pieces.get(at) else { continue };
                let is_free = taken.get(at) == Some(&false) && !value.is_empty() && label.contains(char::is_alphabetic);
                if is_free && label.split_whitespace().count() <= 6 && !is_table_label(label) {
                    found.push(SpecificationLine { line: at, label: label.clone(), cells: vec![(None, value.clone())] });
                    if let Some(slot) = taken.get_mut(at) {
                        *slot = true;
                    }
                }
            }
        }
        start = end.max(start + 1);
    }
}

/// Whether a label belongs to the geometry table.
fn is_table_label(label: &str) -> bool {
    let (_, label) = super::super::unit::split_label(label);
    names::find(&label).is_some_and(|found| found.meaning != Meaning::Aside)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str) -> (String, Vec<String>) {
        let (rest, lines) = take_from_text(text);
        (rest, lines.iter().map(|l| format!("{}={}", l.label, l.cells[0].1)).collect())
    }

    #[test]
    fn lists_are_cut_out_in_their_many_forms() {
        let (rest, lines) = cut("Size\tS\tM\nStack\t580\t600\n\nFrame weight: 2.3 kg\nColour: moss\nSeatpost\t27.2 mm");
        assert_eq!(rest, "Size\tS\tM\nStack\t580\t600\n");
        assert_eq!(lines, ["Frame weight=2.3 kg", "Colour=moss", "Seatpost=27.2 mm"]);
        let (_, lines) = cut("Rahmengewicht\n2,3 kg\nAchse hinten\n12 x 142 mm\n");
        assert_eq!(lines, ["Rahmengewicht=2,3 kg", "Achse hinten=12 x 142 mm"]);
        let (_, lines) = cut("• Tyre clearance – 700x50c\n- Bottom bracket ...... BSA 73\n| Headset | EC34/28.6 |");
        assert_eq!(lines, ["Tyre clearance=700x50c", "Bottom bracket=BSA 73", "Headset=EC34/28.6"]);
    }

    #[test]
    fn a_blank_alone_parts_a_known_label_from_a_plain_value() {
        let (rest, lines) = cut(
            "Stack 580 600\nFrame weight 2.35 kg (M)\nRRP £1,250\nRear axle 12 x 142 mm\nBottom bracket BSA 73\nSeatpost 27.2 mm\nSattelstütze 30,9",
        );
        assert_eq!(rest, "Stack 580 600");
        let wanted = [
            "Frame weight=2.35 kg (M)",
            "RRP=£1,250",
            "Rear axle=12 x 142 mm",
            "Bottom bracket=BSA 73",
            "Seatpost=27.2 mm",
            "Sattelstütze=30,9",
        ];
        assert_eq!(lines, wanted);
        // A row of the table, another name, a sentence.
        for text in [
            "Seatpost 27.2 27.2",
            "Bottom bracket drop 70 mm",
            "Bottom bracket height 280",
            "Price on request",
            "Weight is low",
            "Frame 2024",
        ] {
            assert_eq!(cut(text).1, Vec::<String>::new(), "{text}");
        }
    }

    #[test]
    fn a_cups_code_beside_the_name_of_its_height_is_a_standard() {
        assert_eq!(
            cut("Lower headset: EC44/40\nUpper headset: EC34/28.6").1,
            ["Lower headset=EC44/40", "Upper headset=EC34/28.6"]
        );
        assert_eq!(cut("Lower headset: 12").1, Vec::<String>::new());
    }

    #[test]
    fn a_geometry_table_stays_whole() {
        for text in [
            "Size\tS\tM\nStack\t580\t600\nSeatpost\t27.2\t27.2",
            "Frame\tM\nStack\t580\nReach\t390",
            "Note: all sizes in mm\nSize\tS\tM\nStack\t580\t600",
            "Sizes\tS\nStack\t580",
        ] {
            assert_eq!(cut(text), (text.to_owned(), Vec::new()));
        }
    }
}
