//! Words as text: first letters and lists.

/// The words with their first letter made large, as at the beginning of a sentence or a heading.
#[must_use]
pub fn capitalised(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The words with their first letter made small, for the middle of a sentence.
#[must_use]
pub fn lower_first(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    let words: Vec<&str> = words.collect();
    match words.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_first_letter_changes() {
        assert_eq!(capitalised("wheels off A"), "Wheels off A");
        assert_eq!(capitalised("élan"), "Élan");
        assert_eq!(capitalised("0.6 l"), "0.6 l");
        assert_eq!(capitalised(""), "");
        assert_eq!(lower_first("Head angle of B"), "head angle of B");
        assert_eq!(lower_first(""), "");
    }

    #[test]
    fn lists_read_like_prose() {
        assert_eq!(listed(["a"].into_iter()), "a");
        assert_eq!(listed(["a", "b", "c"].into_iter()), "a, b and c");
    }
}
