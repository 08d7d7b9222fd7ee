//! Text made comparable: lower case, without accents, marks of footnotes and punctuation.

/// Words of `text`, lower case, accents taken off (ä → a, ß → ss, œ → oe), split at anything but letters and digits.
pub(super) fn words(text: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    for c in text.chars() {
        if is_footnote(c) || ('\u{300}'..='\u{36f}').contains(&c) {
            continue;
        }
        if c.is_alphanumeric() {
            if let Some(word) = words.last_mut() {
                for lower in c.to_lowercase() {
                    push_bare(word, lower);
                }
            }
        } else if words.last().is_some_and(|w| !w.is_empty()) {
            words.push(String::new());
        }
    }
    words.retain(|w| !w.is_empty());
    words
}

/// The same as one word without blanks.
pub(super) fn fold(text: &str) -> String {
    words(text).concat()
}

/// Whether a sign marks a footnote: stars, daggers, raised digits.
pub(super) const fn is_footnote(c: char) -> bool {
    matches!(c, '*' | '†' | '‡' | '§' | '¹' | '²' | '³' | '⁰' | '⁴'..='⁹' | '¶')
}

fn push_bare(word: &mut String, c: char) {
    match c {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' => word.push('a'),
        'ç' => word.push('c'),
        'è' | 'é' | 'ê' | 'ë' => word.push('e'),
        'ì' | 'í' | 'î' | 'ï' => word.push('i'),
        'ñ' => word.push('n'),
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' => word.push('o'),
        'ù' | 'ú' | 'û' | 'ü' => word.push('u'),
        'ý' | 'ÿ' => word.push('y'),
        'ß' => word.push_str("ss"),
        'œ' => word.push_str("oe"),
        'æ' => word.push_str("ae"),
        '\u{300}'..='\u{36f}' => {}
        other => word.push(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn accents_and_marks_fall_away() {
        assert_eq!(words("Überstands-Höhe*"), ["uberstands", "hohe"]);
        assert_eq!(fold("U\u{308}berstandsho\u{308}he ²"), "uberstandshohe");
        assert_eq!(words("Ángulo de dirección"), ["angulo", "de", "direccion"]);
        assert_eq!(fold("  – "), "");
    }
}
