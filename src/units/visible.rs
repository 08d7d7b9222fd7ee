//! Text from files and fields as it may stand beside other text: whatever would steer a terminal, turn the direction of
//! its neighbours or hide is written out.
//!
//! Not here: the marks of a format, such as `<` and `|`; each exporter writes its own.

use std::borrow::Cow;

/// Text with nothing in it that acts on what stands around it. Line feeds, returns and tabs become spaces; other control
/// characters their pictures (Unicode, *Control Pictures*: escape is `␛`); marks of direction (Unicode Standard Annex #9),
/// line and paragraph separators, characters without width and tags their numbers, as in `[U+202E]`.
///
/// A joiner stays where scripts and emoji need it: between two characters that are not ASCII.
#[must_use]
pub fn visible(text: &str) -> Cow<'_, str> {
    let is_plain = |c: char| !c.is_control() && !is_hidden(c) && !is_joiner(c);
    if text.chars().all(is_plain) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    let mut before = None;
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        match c {
            '\r' if rest.peek() == Some(&'\n') => {}
            '\n' | '\r' | '\t' => out.push(' '),
            '\0'..='\u{1f}' => out.extend(char::from_u32(0x2400 + u32::from(c))),
            '\u{7f}' => out.push('\u{2421}'),
            c if is_joiner(c) && before.is_some_and(joins) && rest.peek().copied().is_some_and(joins) => out.push(c),
            c if is_plain(c) => out.push(c),
            c => out.push_str(&format!("[U+{:04X}]", u32::from(c))),
        }
        before = Some(c);
    }
    Cow::Owned(out)
}

/// The same for text of several lines: line feeds stay.
#[must_use]
pub fn visible_lines(text: &str) -> Cow<'_, str> {
    if text.split('\n').all(|line| matches!(visible(line), Cow::Borrowed(_))) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.split('\n').map(visible).collect::<Vec<_>>().join("\n"))
}

/// Zero-width non-joiner and joiner.
const fn is_joiner(c: char) -> bool {
    matches!(c, '\u{200c}' | '\u{200d}')
}

/// Whether a joiner beside it may be meant.
const fn joins(c: char) -> bool {
    !c.is_ascii() && !is_hidden(c) && !is_joiner(c)
}

/// What is not seen itself: marks of direction, separators, characters without width, letters that are blank, tags.
const fn is_hidden(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}' | '\u{180e}')
        || matches!(c, '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}')
        || matches!(c, '\u{3164}' | '\u{feff}' | '\u{ffa0}' | '\u{fff9}'..='\u{fffb}')
        || matches!(c, '\u{1d173}'..='\u{1d17a}' | '\u{e0000}'..='\u{e0fff}')
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn nothing_steers_turns_or_hides() {
        for (text, seen) in [
            ("Drift \u{202e}6202\u{202c}", "Drift [U+202E]6202[U+202C]"),
            ("Drift\nL\tM\r\nS", "Drift L M S"),
            ("\u{1b}[31mred\u{7}", "␛[31mred␇"),
            ("\u{7f}\u{9b}31m", "␡[U+009B]31m"),
            ("a\u{200b}b\u{2066}c\u{61c}", "a[U+200B]b[U+2066]c[U+061C]"),
            ("Dri\u{200d}ft", "Dri[U+200D]ft"),
            ("x\u{2028}y\u{e0041}", "x[U+2028]y[U+E0041]"),
        ] {
            assert_eq!(visible(text), seen);
        }
        assert_eq!(visible_lines("one\n\u{1b}two\n"), "one\n␛two\n");
    }

    #[test]
    fn honest_text_stays() {
        for text in ["הגה Drift ±", "−12\u{2009}mm", "10\u{202f}000", "می\u{200c}خواهم", "👩🏽\u{200d}🔧\u{fe0f}", "Žluťoučký"]
        {
            assert_eq!(visible(text), text);
        }
        assert!(matches!(visible_lines("one\ntwo"), Cow::Borrowed(_)));
    }

    /// Each class, listed here from the standard and not from the code above: controls (`General_Category` Cc), marks of
    /// direction (`Bidi_Control`), separators of lines and paragraphs (Zl, Zp), and what is ignored where it is not known
    /// (`Default_Ignorable_Code_Point`, without joiners, variation selectors and unassigned places).
    #[test]
    fn every_class_of_what_acts_or_hides_is_written_out() {
        let classes: [(&str, &[(u32, u32)]); 4] = [
            ("controls", &[(0x00, 0x1f), (0x7f, 0x9f)]),
            ("direction", &[(0x61c, 0x61c), (0x200e, 0x200f), (0x202a, 0x202e), (0x2066, 0x2069)]),
            ("separators", &[(0x2028, 0x2029)]),
            (
                "ignored",
                &[
                    (0xad, 0xad),
                    (0x34f, 0x34f),
                    (0x115f, 0x1160),
                    (0x17b4, 0x17b5),
                    (0x180e, 0x180e),
                    (0x200b, 0x200b),
                    (0x2060, 0x206f),
                    (0x3164, 0x3164),
                    (0xfeff, 0xfeff),
                    (0xffa0, 0xffa0),
                    (0x1d173, 0x1d17a),
                    (0xe0001, 0xe0001),
                    (0xe0020, 0xe007f),
                ],
            ),
        ];
        for (class, ranges) in classes {
            for c in ranges.iter().flat_map(|(low, high)| *low..=*high).filter_map(char::from_u32) {
                let seen = visible(&format!("a{c}b")).into_owned();
                assert!(!seen.contains(c) && seen.starts_with('a') && seen.ends_with('b'), "{class}: U+{:04X}", u32::from(c));
                let is_blank = matches!(c, '\t' | '\n' | '\r');
                assert!(is_blank || seen.chars().count() > 2, "{class}: U+{:04X} vanished", u32::from(c));
            }
        }
    }

    proptest! {
        /// Nothing is left that acts, and what is seen stays as it is when it is made visible again.
        #[test]
        fn whatever_it_is_nothing_acts(text in any::<String>()) {
            let seen = visible(&text).into_owned();
            prop_assert!(!seen.chars().any(|c| c.is_control() || is_hidden(c)), "{seen:?}");
            prop_assert_eq!(visible(&seen).into_owned(), seen);
        }
    }
}
