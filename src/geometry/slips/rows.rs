//! Rows are regular: sizes of one frameset step evenly or stay. A corrected row that is more even than the printed one
//! speaks for the correction, an uneven one against it.

use crate::frameset::{Figure, Frameset, SizeIndex};

/// Beyond the ends of a row, the line through the two nearest sizes says less, by this factor.
const BEYOND_THE_ENDS: f64 = 1.5;
/// Degrees of freedom of Student's t, which forgives a single uneven step.
const FREEDOM: f64 = 3.0;

/// How far a value usually lies from the line through its neighbours, mm or degrees: ours, trade
/// practice, unverified. `None` for figures that say nothing.
pub(super) const fn scale(figure: Figure) -> Option<f64> {
    match figure {
        Figure::Chainstay | Figure::ChainstayHorizontal => Some(1.5),
        Figure::AxleToCrown | Figure::AxleToCrownAlongAxis | Figure::AxleToCrownDirect | Figure::ForkOffset => Some(1.5),
        Figure::BbDrop | Figure::BbHeight => Some(2.0),
        Figure::Reach => Some(4.0),
        Figure::Stack | Figure::EffectiveTopTube | Figure::TopTube => Some(5.0),
        Figure::HeadTube | Figure::Wheelbase | Figure::FrontCentre | Figure::FrontCentreHorizontal => Some(6.0),
        Figure::SeatTube | Figure::Standover => Some(12.0),
        Figure::HeadAngle => Some(0.4),
        Figure::SeatAngle | Figure::SeatTubeAngle => Some(0.35),
        _ => None,
    }
}

/// The likelihood of the rows with some cells corrected over that of the printed rows, as a logarithm.
pub(super) fn ln_likelihood_ratio(frameset: &Frameset, corrections: &[(SizeIndex, Figure, f64)]) -> f64 {
    let mut total = 0.0;
    for (i, (_, figure, _)) in corrections.iter().enumerate() {
        if corrections[..i].iter().any(|(_, f, _)| f == figure) {
            continue;
        }
        let Some(scale) = scale(*figure) else { continue };
        let printed: Vec<(SizeIndex, f64)> =
            SizeIndex::numbered(&frameset.sizes).filter_map(|(k, s)| Some((k, s.believed(*figure)?))).collect();
        let corrected: Vec<f64> = printed
            .iter()
            .map(|(k, v)| corrections.iter().find(|(size, f, _)| size == k && f == figure).map_or(*v, |(.., to)| *to))
            .collect();
        let printed: Vec<f64> = printed.into_iter().map(|(_, v)| v).collect();
        total += ln_likelihood(&corrected, scale) - ln_likelihood(&printed, scale);
    }
    total
}

/// ln of the likelihood of a row but for a constant: each value against the line through its two nearest neighbours.
fn ln_likelihood(row: &[f64], scale: f64) -> f64 {
    let n = row.len();
    if n < 3 {
        return 0.0;
    }
    (0..n)
        .map(|i| {
            let (expected, scale) = if i == 0 {
                (2.0 * row[1] - row[2], BEYOND_THE_ENDS * scale)
            } else if i + 1 == n {
                (2.0 * row[n - 2] - row[n - 3], BEYOND_THE_ENDS * scale)
            } else {
                (f64::midpoint(row[i - 1], row[i + 1]), scale)
            };
            let off = (row[i] - expected) / scale;
            -0.5 * (FREEDOM + 1.0) * (off * off / FREEDOM).ln_1p()
        })
        .sum()
}

/// What its row says of a cell: the line through its two nearest neighbours.
pub(super) fn from_neighbours(frameset: &Frameset, size: SizeIndex, figure: Figure) -> Option<f64> {
    let mut others: Vec<(f64, f64)> = SizeIndex::numbered(&frameset.sizes)
        .filter(|(k, _)| *k != size)
        .filter_map(|(k, s)| Some((k.0 as f64, s.believed(figure)?)))
        .collect();
    let at = size.0 as f64;
    others.sort_by(|a, b| (a.0 - at).abs().total_cmp(&(b.0 - at).abs()));
    match others.as_slice() {
        [] => None,
        [(_, only)] => Some(*only),
        [(x, a), (y, b), ..] => Some(a + (b - a) * (at - x) / (y - x)),
    }
}

/// How uneven a cell lies in its row, in scales; 0 where its row says nothing.
pub(super) fn unevenness(frameset: &Frameset, size: SizeIndex, figure: Figure) -> f64 {
    let (Some(scale), Some(line)) = (scale(figure), from_neighbours(frameset, size, figure)) else { return 0.0 };
    size.of(&frameset.sizes).and_then(|s| s.believed(figure)).map_or(0.0, |v| (v - line).abs() / scale)
}
