//! The widest tyres that a text allows, as designations: `700 x 50c / 27.5 x 2.1"` is `50-622; 53-584`.

use super::super::tyres::{designation, of_width};

const GUARDS: [&str; 9] =
    ["mudguards", "mudguard", "fenders", "fender", "schutzblech", "garde-boue", "guardabarros", "parafanghi", "spatborden"];
const WITHOUT: [&str; 8] = ["without", "w/o", "ohne", "sans", "sin", "senza", "zonder", "no "];
/// Names of wheels, and their bead seat diameters, mm (trade practice, unverified).
const RIMS: [(&str, u32); 8] =
    [("700c", 622), ("29er", 622), ("29\"", 622), ("29in", 622), ("650b", 584), ("27.5\"", 584), ("27.5in", 584), ("622", 622)];

/// The bead seat diameter of the wheel that a lower-case text names, mm.
pub(super) fn rim_named(text: &str) -> Option<u32> {
    RIMS.iter().find(|(name, _)| text.contains(name)).map(|(_, bead_seat)| *bead_seat)
}

/// The tyres in one text; `None` where any clause is not understood. `wheel` is the bead seat diameter of widths that stand
/// before any wheel, mm.
pub(super) fn tyres_in(text: &str, wheel: Option<u32>) -> Option<String> {
    let mut found: Vec<String> = Vec::new();
    let mut rim = wheel;
    for clause in clauses(text) {
        let lower = clause.to_lowercase().replace(['×', '*'], "x").replace(['″', '”'], "\"").replace("''", "\"");
        // A decimal comma.
        let lower = decimal_points(&lower);
        let guards = GUARDS.iter().any(|word| lower.contains(word));
        let without = WITHOUT.iter().any(|word| lower.contains(word));
        let bare = bare_size(&lower);
        rim = rim_named(&bare).or(rim);
        let tyre = match designation(&bare) {
            Ok((tyre, _)) => tyre,
            Err(_) => of_width(width(&bare)?, rim?)?,
        };
        // A width alone behind it is on the same wheel.
        rim = Some(u32::from(tyre.bead_seat()));
        let condition = if guards && !without { " with mudguards" } else { "" };
        let told = format!("{tyre}{condition}");
        if !found.contains(&told) {
            found.push(told);
        }
    }
    (!found.is_empty()).then(|| found.join("; "))
}

fn clauses(text: &str) -> Vec<String> {
    let mut text = text.replace(['\n', ';', '|', '&', '+'], ";");
    for joint in [" / ", ", ", " or ", " oder ", " ou ", " of ", " and ", " und ", " et ", " y ", " en ", " o ", " e "] {
        text = text.replace(joint, ";");
    }
    // `700x45c/650bx47`, but not `1 1/2`.
    if text.matches('/').count() == 1
        && let Some((a, b)) = text.split_once('/')
        && [a, b].iter().all(|half| half.to_lowercase().contains(['x', '×']))
    {
        text = format!("{a};{b}");
    }
    text.split(';').map(|c| c.trim().to_owned()).filter(|c| !c.is_empty()).collect()
}

fn decimal_points(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let is_digit = |at: Option<usize>| at.and_then(|i| chars.get(i)).is_some_and(char::is_ascii_digit);
    chars
        .iter()
        .enumerate()
        .map(|(i, c)| if *c == ',' && is_digit(i.checked_sub(1)) && is_digit(Some(i + 1)) { '.' } else { *c })
        .collect()
}

/// The clause without words around its size.
fn bare_size(lower: &str) -> String {
    let kept = lower.split(|c: char| c.is_whitespace() || matches!(c, '(' | ')')).filter(|word| {
        let has_digit = word.contains(|c: char| c.is_ascii_digit());
        has_digit || matches!(*word, "x" | "mm" | "c" | "b" | "in" | "\"" | "-")
    });
    let words: Vec<&str> = kept.collect();
    let text = words.join(" ");
    text.trim_matches([':', '.', ' ', '-', ',', '<', '≤']).trim_end_matches(" in").to_owned()
}

/// A width with its unit: `50 mm`, `2.1"`, `50mm`; the text without the rim's name.
fn width(bare: &str) -> Option<f64> {
    let mut rest = bare.to_owned();
    for (name, _) in RIMS {
        rest = rest.replace(name, " ");
    }
    let rest = rest.replace([':', '"'], " ").replace("mm", " ");
    let numbers: Vec<f64> = rest.split_whitespace().filter_map(|word| word.parse().ok()).collect();
    match numbers.as_slice() {
        [only] => Some(*only),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clearances_become_designations() {
        for (text, tyres) in [
            ("700x45c", "45-622"),
            ("up to 700 x 50c / 27.5 x 2.1\"", "50-622; 53-584"),
            ("bis zu 29 × 2,1", "53-622"),
            ("50-622", "50-622"),
            ("50 mm (700c)", "50-622"),
            ("700c: 50 mm, 650b: 54 mm", "50-622; 54-584"),
            ("700x50c, 700x45c with fenders", "50-622; 45-622 with mudguards"),
            ("700x50c, 45 mm mit Schutzblech", "50-622; 45-622 with mudguards"),
            ("700x45c/650bx47", "45-622; 47-584"),
        ] {
            assert_eq!(tyres_in(text, None).as_deref(), Some(tyres), "{text}");
        }
        for (text, wheel, tyres) in [
            ("50 mm", 622, "50-622"),
            ("2.1\"", 559, "53-559"),
            ("50 mm, 45 mm with mudguards", 584, "50-584; 45-584 with mudguards"),
        ] {
            assert_eq!(tyres_in(text, Some(wheel)).as_deref(), Some(tyres), "{text}");
        }
        for text in ["50 mm", "plenty", "", "28 x 1.5", "700c"] {
            assert_eq!(tyres_in(text, None), None, "{text}");
        }
    }
}
