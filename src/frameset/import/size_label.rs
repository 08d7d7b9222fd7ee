//! Labels of sizes: what can be one, and which of two is the smaller.

use super::fold::fold;
use super::numeral::{self, Cell, DecimalMark};

/// The place of a size among sizes: letters from XXXS (−3) by way of S (1), M (2), L (3) to 4XL, a label of two sizes
/// (M/L) halfway between; numbers by themselves. `None` for any other text. Letters and numbers do not compare.
pub(super) fn rank(label: &str) -> Option<Rank> {
    let text = label.trim();
    if let Some((first, second)) = text.split_once(['/', '-', '–'])
        && let (Some(a), Some(b)) = (letters(first), letters(second))
    {
        return Some(Rank::Letters(f64::midpoint(a, b)));
    }
    if let Some(place) = letters(text) {
        return Some(Rank::Letters(place));
    }
    let without = text.trim_start_matches(|c: char| c.is_alphabetic() && c != 'x').trim_start();
    for mark in DecimalMark::BOTH {
        if let Cell::Number(n) = numeral::read(without, mark)
            && (1.0..=800.0).contains(&n.value)
            && text.len() <= 10
        {
            return Some(Rank::Number(n.value));
        }
    }
    None
}

/// A size's place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Rank {
    Letters(f64),
    Number(f64),
}

fn letters(text: &str) -> Option<f64> {
    let word = fold(text);
    let word = ["size", "grosse", "taille", "talla", "taglia", "maat"]
        .iter()
        .find_map(|w| word.strip_prefix(w).filter(|rest| !rest.is_empty()))
        .unwrap_or(&word);
    let named = match word {
        "xxsmall" | "xxs" | "2xs" => -1.0,
        "xsmall" | "extrasmall" | "xs" => 0.0,
        "small" | "s" | "sm" | "sml" | "klein" | "petit" | "petite" | "pequena" | "pequeno" | "piccola" | "piccolo" => 1.0,
        "medium" | "m" | "md" | "med" | "mittel" | "moyen" | "moyenne" | "mediana" | "mediano" | "media" | "medio" | "middel" => {
            2.0
        }
        "mediumlarge" | "ml" => 2.5,
        "large" | "l" | "lg" | "lrg" | "gross" | "grand" | "grande" | "groot" => 3.0,
        "xlarge" | "extralarge" | "xl" | "1xl" => 4.0,
        "xxlarge" | "xxl" | "2xl" => 5.0,
        "xxxl" | "3xl" => 6.0,
        "4xl" | "xxxxl" => 7.0,
        "xxxs" | "3xs" => -2.0,
        _ => return None,
    };
    Some(named)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_have_their_order() {
        let order = ["XXS", "XS", "Small", "S/M", "Größe M", "M/L", "L", "Extra Large", "XXL", "3XL"];
        let ranks: Vec<f64> =
            order.iter().map(|l| if let Some(Rank::Letters(r)) = rank(l) { r } else { panic!("{l}") }).collect();
        assert!(ranks.windows(2).all(|w| w[0] < w[1]), "{ranks:?}");
        assert_eq!(rank("52 cm"), Some(Rank::Number(52.0)));
        assert_eq!(rank("19.5\""), Some(Rank::Number(19.5)));
        assert_eq!(rank("H54"), Some(Rank::Number(54.0)));
        for other in ["Alder", "", "–", "Head tube angle", "Marrowby Drift 2026"] {
            assert_eq!(rank(other), None, "{other}");
        }
    }
}
