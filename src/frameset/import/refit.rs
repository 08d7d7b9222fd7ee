//! Texts whose separator also stands inside their cells: commas between cells and before decimals, blanks between cells
//! and inside names, line ends alone. Each is cut so that the rows fit together.

use super::grid::tidy;
use super::names;
use super::numeral::{self, Cell, DecimalMark};
use crate::frameset::{Figure, check_figure};

/// More ways than this to cut one line are not worth a question: the row is left as it was cut.
const MOST_CUTS: usize = 12;

/// Rows of a text cut at commas, in which `71,5` fell into two: rows wider than the table are joined up again. Where
/// that can be done in more than one way, and the figure's range does not decide, all ways are returned.
#[expect(clippy::type_complexity, reason = "rows, and for some of them every way to cut them")]
pub(super) fn join_decimals(mut rows: Vec<Vec<String>>) -> (Vec<Vec<String>>, Vec<(usize, Vec<Vec<String>>)>) {
    for row in &mut rows {
        while row.last().is_some_and(String::is_empty) {
            row.pop();
        }
    }
    let Some(width) = rows.iter().map(Vec::len).find(|n| *n >= 3).or_else(|| rows.iter().map(Vec::len).find(|n| *n >= 2)) else {
        return (rows, Vec::new());
    };
    let header = rows.iter().find(|r| r.len() == width).cloned().unwrap_or_default();
    let mut others = Vec::new();
    for (index, row) in rows.iter_mut().enumerate() {
        if row.len() <= width {
            continue;
        }
        let mut ways = Vec::new();
        join_from(row, 1, width, row.get(..1).unwrap_or_default().to_vec(), &mut ways);
        if ways.is_empty() || ways.len() > MOST_CUTS {
            continue;
        }
        let believable: Vec<Vec<String>> = ways.iter().filter(|w| fits(w, &header)).cloned().collect();
        let ways = if believable.is_empty() { ways } else { believable };
        if let Some(first) = ways.first() {
            row.clone_from(first);
        }
        if ways.len() > 1 {
            others.push((index, ways));
        }
    }
    (rows, others)
}

fn join_from(row: &[String], at: usize, width: usize, so_far: Vec<String>, ways: &mut Vec<Vec<String>>) {
    if ways.len() > MOST_CUTS || so_far.len() > width {
        return;
    }
    let Some(cell) = row.get(at) else {
        if so_far.len() == width {
            ways.push(so_far);
        }
        return;
    };
    // Not enough left to fill the row even one by one, or too much even when all are paired.
    let left = row.len() - at;
    if so_far.len() + left < width || so_far.len() + left.div_ceil(2) > width {
        return;
    }
    if let Some(next) = row.get(at + 1) {
        let digits = |s: &str, most: usize| !s.is_empty() && s.len() <= most && s.bytes().all(|b| b.is_ascii_digit());
        let number_end = next.find(|c: char| !c.is_ascii_digit()).unwrap_or(next.len());
        let decimals = next.get(..number_end).unwrap_or_default();
        let rest_is_unit = !next.get(number_end..).unwrap_or_default().contains(|c: char| c.is_ascii_digit());
        if digits(cell.trim_start_matches(['-', '−']), 4) && digits(decimals, 2) && rest_is_unit {
            let mut joined = so_far.clone();
            joined.push(format!("{cell},{next}"));
            join_from(row, at + 2, width, joined, ways);
        }
    }
    let mut plain = so_far;
    plain.push(cell.clone());
    join_from(row, at + 1, width, plain, ways);
}

/// Whether all numbers of a row are believable values of the figure that the row, or else their column, is named for.
fn fits(row: &[String], header: &[String]) -> bool {
    let of_row = row.first().map(|label| figures_named(label)).unwrap_or_default();
    row.iter().enumerate().skip(1).all(|(place, cell)| {
        let of_column = header.get(place).map(|label| figures_named(label)).unwrap_or_default();
        let figures = if of_row.is_empty() { &of_column } else { &of_row };
        match numeral::read(cell, DecimalMark::Comma) {
            Cell::Number(n) if !figures.is_empty() => figures.iter().any(|f| {
                let factors: &[f64] = if f.is_angle() { &[1.0] } else { &[1.0, 10.0, 25.4] };
                factors.iter().any(|k| check_figure(*f, n.value * k).is_ok())
            }),
            _ => true,
        }
    })
}

fn figures_named(label: &str) -> Vec<Figure> {
    match names::find_exact(&super::unit::split_label(label).1).map(|f| f.meaning) {
        Some(names::Meaning::Figures { choices, .. }) => choices,
        _ => Vec::new(),
    }
}

/// Cut at two or more blanks. A line with fewer cells than the widest is laid under it by the places of its letters.
pub(super) fn by_blanks(text: &str) -> Option<Vec<Vec<String>>> {
    if !text.contains("  ") {
        return None;
    }
    let lines: Vec<Vec<Piece>> = text.lines().map(pieces).collect();
    let widest = lines.iter().max_by_key(|l| l.len())?.clone();
    if widest.len() < 2 {
        return None;
    }
    Some(lines.into_iter().map(|line| lay_under(&line, &widest)).collect())
}

#[derive(Clone)]
struct Piece {
    text: String,
    start: usize,
    end: usize,
}

fn pieces(line: &str) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    let mut blanks = 2;
    for (place, c) in line.chars().enumerate() {
        if c == ' ' || c == '\t' {
            blanks += 1;
            continue;
        }
        match pieces.last_mut() {
            Some(piece) if blanks < 2 => {
                if blanks == 1 {
                    piece.text.push(' ');
                }
                piece.text.push(c);
                piece.end = place + 1;
            }
            _ => pieces.push(Piece { text: c.to_string(), start: place, end: place + 1 }),
        }
        blanks = 0;
    }
    pieces
}

fn lay_under(line: &[Piece], widest: &[Piece]) -> Vec<String> {
    let plain = |line: &[Piece]| line.iter().map(|p| p.text.clone()).collect();
    if line.len() == widest.len() || line.len() < 2 {
        return plain(line);
    }
    let mut cells = vec![String::new(); widest.len()];
    let mut next = 0;
    for piece in line {
        // Columns stand flush left, flush right or centred: the column with an edge or middle nearest to the piece's.
        let distance = |column: &Piece| {
            let ends = piece.end.abs_diff(column.end).min(piece.start.abs_diff(column.start)) * 2;
            ends.min((piece.start + piece.end).abs_diff(column.start + column.end))
        };
        let nearest = widest.iter().enumerate().skip(next).min_by_key(|(_, column)| distance(column));
        let Some((column, _)) = nearest else { return plain(line) };
        if let Some(cell) = cells.get_mut(column) {
            cell.clone_from(&piece.text);
        }
        next = column + 1;
    }
    cells
}

/// Cut at every blank, as text copied from a printed page: the last so many tokens of a line are its cells, what stands
/// before them its label. How many is what most lines have.
pub(super) fn by_single_blanks(text: &str) -> Option<Vec<Vec<String>>> {
    let lines: Vec<Vec<String>> = text.lines().map(tokens).collect();
    let counts: Vec<usize> = lines.iter().map(|l| trailing_values(l)).filter(|n| *n > 0).collect();
    let mut tally = std::collections::BTreeMap::<usize, usize>::new();
    for count in counts {
        *tally.entry(count).or_default() += 1;
    }
    let (values, _) = tally.into_iter().max_by_key(|(count, times)| (*times, *count))?;
    let rows: Vec<Vec<String>> = lines
        .into_iter()
        .map(|line| {
            let found = trailing_values(&line);
            let cut = if found == 0 {
                line.len().checked_sub(values).filter(|_| line.len() <= values + 2)
            } else {
                line.len().checked_sub(values)
            };
            match cut {
                Some(cut) if !line.is_empty() => {
                    let mut row = vec![line.get(..cut).unwrap_or_default().join(" ")];
                    row.extend(line.into_iter().skip(cut));
                    row
                }
                _ => vec![line.join(" ")],
            }
        })
        .collect();
    Some(rows)
}

/// Words of a line, units and fractions joined to the number before them.
fn tokens(line: &str) -> Vec<String> {
    let mut tokens: Vec<String> = Vec::new();
    for word in line.split([' ', '\t']).filter(|w| !w.is_empty()) {
        let after_number = tokens.last().is_some_and(|t| {
            numeral::read(t, DecimalMark::Point).is_numeric() || numeral::read(t, DecimalMark::Comma).is_numeric()
        });
        let is_fraction = word.contains('/')
            && word.starts_with(|c: char| c.is_ascii_digit())
            && matches!(numeral::read(word, DecimalMark::Point), Cell::Number(n) if n.value.abs() < 1.0);
        let is_unit = super::unit::Unit::from_word(word).is_some() && word != "m" && word != "M";
        match tokens.last_mut() {
            Some(last) if after_number && (is_unit || is_fraction) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => tokens.push(word.to_owned()),
        }
    }
    tokens
}

fn trailing_values(line: &[String]) -> usize {
    let is_value = |t: &String| {
        DecimalMark::BOTH.iter().any(|m| matches!(numeral::read(t, *m), Cell::Number(_) | Cell::Range(..) | Cell::NotStated))
    };
    let values = line.iter().rev().take_while(|t| is_value(t)).count();
    // A line of values alone is the row of numeric size labels.
    values.min(line.len())
}

/// One cell a line, as tables made of boxes copy: the known labels stand at equal distances, and that is the row.
pub(super) fn by_lines(text: &str) -> Option<Vec<Vec<String>>> {
    let lines: Vec<String> = text.lines().map(tidy).filter(|l| !l.is_empty()).collect();
    if lines.len() > 2000 {
        return None;
    }
    let is_label = |line: &String| {
        matches!(
            names::find_exact(&super::unit::split_label(line).1).map(|f| f.meaning),
            Some(names::Meaning::Figures { .. } | names::Meaning::Aside | names::Meaning::Wheel | names::Meaning::Tyre)
        )
    };
    let labels: Vec<usize> = lines.iter().enumerate().filter(|(_, l)| is_label(l)).map(|(i, _)| i).collect();
    let (first, second) = (*labels.first()?, *labels.get(1)?);
    let width = second - first;
    let equal = labels.windows(2).all(|pair| matches!(pair, [a, b] if (b - a) % width == 0));
    if width < 2 || !equal {
        return None;
    }
    // What stands before the first label: sizes, with or without a word before them, and lines before those.
    let mut rows: Vec<Vec<String>> = Vec::new();
    let before = lines.get(..first)?;
    let sizes = before.len().min(width);
    let has_word = before
        .len()
        .checked_sub(width)
        .and_then(|at| before.get(at))
        .is_some_and(|word| matches!(names::find_exact(word).map(|f| f.meaning), Some(names::Meaning::Size)));
    let taken = if has_word { sizes } else { sizes.min(width - 1) };
    let split = before.len() - taken;
    rows.extend(before.get(..split)?.iter().map(|l| vec![l.clone()]));
    let mut header: Vec<String> = before.get(split..)?.to_vec();
    while header.len() < width {
        header.insert(0, String::new());
    }
    rows.push(header);
    rows.extend(lines.get(first..)?.chunks(width).map(<[String]>::to_vec));
    Some(rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn show(rows: &[Vec<String>]) -> Vec<String> {
        rows.iter().map(|r| r.join("|")).collect()
    }

    fn cells(text: &str) -> Vec<Vec<String>> {
        text.lines().map(|l| l.split(',').map(str::to_owned).collect()).collect()
    }

    #[test]
    fn decimal_commas_between_commas_are_joined_and_doubt_is_kept() {
        let (rows, others) = join_decimals(cells("Size,S,M\nHead angle,71,5,72\nSeat angle,73,5,73,5\nStack,580,600"));
        assert_eq!(show(&rows), ["Size|S|M", "Head angle|71,5|72", "Seat angle|73,5|73,5", "Stack|580|600"]);
        assert!(others.is_empty(), "only one way is in range");
        let (_, others) = join_decimals(cells("Size,S,M\nTrail,60,5,62"));
        assert_eq!(others.len(), 1, "60,5 and 62, or 60 and 5,62");
    }

    #[test]
    fn blanks_are_cut_by_place_and_by_count() {
        let text = "Size       S      M      L\nStack    580           620\nReach    390    400    410";
        assert_eq!(show(&by_blanks(text).unwrap_or_default()), ["Size|S|M|L", "Stack|580||620", "Reach|390|400|410"]);
        let text = "Size S M\nHead tube angle 71.5° 72°\nTop tube 22 5/8\" 23\"\nStack 580 mm –";
        let rows = by_single_blanks(text).unwrap_or_default();
        assert_eq!(show(&rows), ["Size|S|M", "Head tube angle|71.5°|72°", "Top tube|22 5/8\"|23\"", "Stack|580 mm|–"]);
    }

    #[test]
    fn one_cell_a_line() {
        let text = "Geometry\nSize\nS\nM\nStack\n580\n600\nReach\n390\n400";
        assert_eq!(show(&by_lines(text).unwrap_or_default()), ["Geometry", "Size|S|M", "Stack|580|600", "Reach|390|400"]);
        assert!(by_lines("Stack\n580\n600\nReach\n390").is_some_and(|r| r.len() > 1));
        assert!(by_lines("just\nwords").is_none());
    }
}
