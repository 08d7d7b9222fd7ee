//! Text from files as it may stand beside other text.

use std::borrow::Cow;

/// Text without marks that turn the direction of what stands around it (Unicode Standard Annex #9: embeddings,
/// overrides, isolates), and with control characters as spaces.
#[must_use]
pub fn plain(text: &str) -> Cow<'_, str> {
    let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    if text.chars().all(|c| !turns(c) && !c.is_control()) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.chars().filter(|c| !turns(*c)).map(|c| if c.is_control() { ' ' } else { c }).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_turns_or_breaks_what_stands_around_it() {
        assert_eq!(plain("Drift \u{202e}6202\u{202c}\nL"), "Drift 6202 L");
        assert!(matches!(plain("הגה Drift ±"), Cow::Borrowed(_)));
    }
}
