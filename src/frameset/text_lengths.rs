//! Lengths of the texts in a file, read off the file's own text, so that no field of any document can be forgotten.
//!
//! Not here: reading. What is scanned is RON that reads, or is as good up to the place in question.

use super::limits::TextKind;

/// A text in a file that is too long.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct LongText {
    /// Where it begins, bytes.
    pub(super) begins: usize,
    /// What is wrong, with the limit.
    pub(super) sentence: String,
}

/// The first text that is too long for its field.
pub(super) fn first_long_text(text: &str) -> Option<LongText> {
    let mut scan = Scan { text, at: 0 };
    let (mut field, mut last_word) = ("", "");
    while let Some(c) = scan.peek() {
        let begins = scan.at;
        let characters = match c {
            '"' => scan.quoted(),
            '\'' => {
                scan.character();
                continue;
            }
            '/' => {
                scan.comment();
                continue;
            }
            c if c.is_alphabetic() || c == '_' => {
                let word = scan.word();
                let raw = if matches!(word, "r" | "br") { scan.raw() } else { None };
                let Some(characters) = raw else {
                    last_word = word;
                    continue;
                };
                characters
            }
            c => {
                if c == ':' {
                    field = last_word;
                }
                scan.at += c.len_utf8();
                continue;
            }
        };
        if let Err(why) = TextKind::of_field(field).check_length(&format!("`{field}`"), characters) {
            return Some(LongText { begins, sentence: why.to_string() });
        }
    }
    None
}

/// A place in the text, always between two characters.
struct Scan<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Scan<'a> {
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn next(&mut self) -> Option<char> {
        let c = self.peek()?;
        self.at += c.len_utf8();
        Some(c)
    }

    /// Goes behind the next `end`, or to the end of the text.
    fn past(&mut self, end: &str) {
        self.at = self.rest().find(end).map_or(self.text.len(), |found| self.at + found + end.len());
    }

    fn word(&mut self) -> &'a str {
        let rest = self.rest();
        let word = rest.split(|c: char| !c.is_alphanumeric() && c != '_').next().unwrap_or_default();
        self.at += word.len();
        word
    }

    /// A text in quotation marks; its length in characters, each escape being one.
    fn quoted(&mut self) -> usize {
        self.next();
        let mut characters = 0;
        while let Some(c) = self.next() {
            match c {
                '"' => break,
                '\\' if self.next() == Some('u') && self.peek() == Some('{') => self.past("}"),
                _ => {}
            }
            characters += 1;
        }
        characters
    }

    /// A raw text, `#"…"#`; `None` where these number signs begin none.
    fn raw(&mut self) -> Option<usize> {
        let signs = self.rest().bytes().take_while(|b| *b == b'#').count();
        self.at += signs;
        if self.peek() != Some('"') {
            return None;
        }
        self.next();
        let from = self.at;
        let end = format!("\"{}", "#".repeat(signs));
        self.past(&end);
        let inside = self.text.get(from..self.at).unwrap_or_default();
        Some(inside.strip_suffix(&end).unwrap_or(inside).chars().count())
    }

    /// A character in single quotation marks.
    fn character(&mut self) {
        self.next();
        if self.next() == Some('\\') {
            self.next();
        }
        self.past("'");
    }

    /// A comment, or a stroke that begins none.
    fn comment(&mut self) {
        if self.rest().starts_with("//") {
            self.past("\n");
        } else if self.rest().starts_with("/*") {
            let mut depth = 0;
            loop {
                if self.rest().starts_with("/*") {
                    (depth, self.at) = (depth + 1, self.at + 2);
                } else if self.rest().starts_with("*/") {
                    (depth, self.at) = (depth - 1, self.at + 2);
                } else if self.next().is_none() {
                    break;
                }
                if depth == 0 {
                    break;
                }
            }
        } else {
            self.next();
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn sentence(text: &str) -> Option<String> {
        first_long_text(text).map(|l| l.sentence)
    }

    #[test]
    fn each_field_has_its_limit() {
        let (name, words) = ("n".repeat(201), "w".repeat(1001));
        for (text, says) in [
            (format!("(maker: \"{name}\")"), Some("`maker` has 201 characters: at most 200 are accepted")),
            (format!("(maker: r#\"{name}\"#)"), Some("`maker` has 201")),
            (format!("(maker: \"{}\")", "\\u{e9}".repeat(201)), Some("`maker` has 201")),
            (format!("(maker: \"{}\")", "\\\"".repeat(200)), None),
            (format!("(note: Some(\"{name}\"))"), None),
            (format!("(note: Some(\"{}\"))", "n".repeat(20_001)), Some("`note` has 20,001")),
            (format!("(standards: {{RearHub: \"{words}\"}})"), Some("`RearHub` has 1,001")),
            (format!("(needs: [\"a\", \"{words}\"])"), Some("`needs` has 1,001")),
            (format!("(maker: \"a\", // \"{name}\"\n/* \"{name} /* {name} */ \" */ model: \"b\", c: '\"', d: '\\'')"), None),
            (format!("(c: '\"', maker: \"{name}\")"), Some("`maker`")),
            (format!("(r#maker: \"{name}\")"), Some("`maker`")),
            (format!("(maker /* \"x\" */ : \"{name}\")"), Some("has 201")),
        ] {
            let found = sentence(&text);
            match says {
                None => assert_eq!(found, None, "{text}"),
                Some(says) => assert!(found.as_ref().is_some_and(|f| f.contains(says)), "{says}: {found:?}"),
            }
        }
        assert_eq!(first_long_text(&format!("(maker: \"{name}\")")).map(|l| l.begins), Some(8));
    }

    proptest! {
        /// Whatever stands there, the scan ends, and a text that is too long is found behind any other text.
        #[test]
        fn a_long_text_is_found_behind_any_other(text in "\\PC{0,60}", any in ".{0,80}") {
            drop(first_long_text(&any));
            let file = ron::to_string(&(text, 'x', "m".repeat(1001))).unwrap();
            prop_assert!(first_long_text(&file).is_some());
        }
    }
}
