//! Frame files as text: RON, UTF-8, one versioned format. Reading and writing know text only, never the disk.

use std::fmt;

use serde::Serialize;
use serde::de::{Deserialize, DeserializeOwned, DeserializeSeed, Deserializer, Error as _, IgnoredAny, MapAccess, Visitor};

use super::limits::FileKind;
use super::model::Frameset;
use super::nearest::nearest;
use super::retired_names::{RETIRED_NAMES, current};
use super::text_lengths::first_long_text;
use super::values::{NEWER, POINTING};

/// Where in a text something stands: line and column, both from 1, columns counted in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
}

/// Why a file's text was refused.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// More than is read of a file of that kind.
    #[error("this is larger than {}, the limit for {}", .0.limit(), .0.with_article())]
    TooLarge(FileKind),
    /// Not UTF-8.
    #[error("not UTF-8 text: save the file as UTF-8")]
    NotUtf8(Position),
    /// A format that only a newer program knows.
    #[error("{1}")]
    NewerFormat(Position, String),
    /// Anything else, in a sentence.
    #[error("{1}")]
    Refused(Position, String),
}

impl ReadError {
    /// Where it stands, when it stands somewhere.
    #[must_use]
    pub fn position(&self) -> Option<Position> {
        match self {
            Self::TooLarge(_) => None,
            Self::NotUtf8(at) | Self::NewerFormat(at, _) | Self::Refused(at, _) => Some(*at),
        }
    }
}

/// Why a document cannot be written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WriteError {
    /// The file would be larger than is read of its kind.
    #[error("the file would have {bytes} bytes, and the limit for {} is {}: remove what is not needed, such as frames", .kind.with_article(), .kind.limit())]
    TooLarge {
        /// The file's kind.
        kind: FileKind,
        /// What it would have.
        bytes: usize,
    },
    /// The file could not be read back, for the reason that reading would give.
    #[error("the file could not be read back: {0}")]
    Unreadable(String),
    /// The serializer's own word.
    #[error("{0}")]
    Serializer(String),
}

/// Reads a frame file.
///
/// # Errors
/// What is too large, not UTF-8, not RON, of a newer format, or holds a field, figure, size or value that cannot be;
/// each with its position and, where there is one, the nearest right form.
///
/// # Examples
/// ```
/// let text = r#"#![enable(implicit_some)]
/// Frameset(format: 1, maker: "Marrowby", model: "Drift", sizes: [(label: "M", figures: {Stack: 610, Reach: 398})])"#;
/// let frameset = spandrel::frameset::read_frameset(text.as_bytes())?;
/// assert_eq!(frameset.name(), "Marrowby Drift");
/// # Ok::<(), spandrel::frameset::ReadError>(())
/// ```
pub fn read_frameset(bytes: &[u8]) -> Result<Frameset, ReadError> {
    let frameset: Frameset = read_document(bytes, FileKind::Frame)?;
    frameset.check_whole().map_err(|(word, sentence)| refused_at(bytes, word, sentence))?;
    Ok(frameset)
}

/// The refusal of a document that reads but does not hold together, at the last place of the word that it is about.
#[must_use]
pub fn refused_at(bytes: &[u8], word: &str, sentence: String) -> ReadError {
    let text = String::from_utf8_lossy(bytes);
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    let end = end_of(text);
    ReadError::Refused(last_before(text, end, word).unwrap_or(end), sentence)
}

/// Writes a frame file. Reading it again gives an equal frameset.
///
/// # Errors
/// What reading would refuse: a text that is too long, a file that is too large, a value that is not accepted.
pub fn write_frameset(frameset: &Frameset) -> Result<String, WriteError> {
    write_document("Frameset", FileKind::Frame, frameset, read_frameset)
}

/// Reads any of the program's documents from bytes.
///
/// # Errors
/// As [`read_frameset`].
pub fn read_document<T: DeserializeOwned>(bytes: &[u8], kind: FileKind) -> Result<T, ReadError> {
    if bytes.len() > kind.max_bytes() {
        return Err(ReadError::TooLarge(kind));
    }
    let text = std::str::from_utf8(bytes).map_err(|e| {
        let good = String::from_utf8_lossy(bytes.get(..e.valid_up_to()).unwrap_or_default()).into_owned();
        ReadError::NotUtf8(end_of(&good))
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let read = ron::Options::default()
        .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
        .from_str(text)
        .map_err(|e| newer_format::<T>(text).unwrap_or_else(|| explain(&e, text)));
    let Some(long) = first_long_text(text) else { return read };
    let at = end_of(text.get(..long.begins).unwrap_or_default());
    match read {
        // What stands behind a mistake is not looked at: a quotation mark may be missing.
        Err(error) if error.position().is_none_or(|wrong| wrong < at) => Err(error),
        _ => Err(ReadError::Refused(at, long.sentence)),
    }
}

/// Whether the text, which could not be read as a `T`, is of a format that only a newer program knows. Such a text may
/// hold anything before its `format`, so it is looked for on its own, and then asked of `T` whether it knows that one.
fn newer_format<T: DeserializeOwned>(text: &str) -> Option<ReadError> {
    let options = ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    let mut deserializer = ron::Deserializer::from_str_with_options(text, &options).ok()?;
    // The search stops at the value of `format` with an error of its own, so that the error's place is that value's.
    let ron::Error::Message(found) = deserializer.deserialize_any(FindFormat).err()? else { return None };
    let format = found.strip_prefix(FOUND_FORMAT)?;
    let place = deserializer.span_error(ron::Error::Eof).span.start;
    match options.from_str::<T>(&format!("(format: {format})")).err()?.code {
        ron::Error::Message(message) if message.starts_with(NEWER) => {
            Some(ReadError::NewerFormat(Position { line: place.line, column: place.col }, message))
        }
        _ => None,
    }
}

/// Begins the error with which the search for the format stops.
const FOUND_FORMAT: &str = "found format ";

/// Looks for a whole number named `format` in the outermost structure, whatever else is there.
struct FindFormat;

impl<'de> Visitor<'de> for FindFormat {
    type Value = ();
    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a structure")
    }
    fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<(), A::Error> {
        while let Some(key) = access.next_key::<String>()? {
            if key == "format" {
                access.next_value_seed(StopAtNumber)?;
            } else {
                access.next_value::<IgnoredAny>()?;
            }
        }
        Ok(())
    }
}

/// Reads a whole number and stops.
struct StopAtNumber;

impl<'de> DeserializeSeed<'de> for StopAtNumber {
    type Value = ();
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        let format = u32::deserialize(deserializer)?;
        Err(D::Error::custom(format!("{FOUND_FORMAT}{format}")))
    }
}

/// Writes any of the program's documents, its struct named `name`, and makes sure that `read` reads it.
///
/// # Errors
/// As [`write_frameset`].
pub fn write_document<T: Serialize>(
    name: &str,
    kind: FileKind,
    document: &T,
    read: impl Fn(&[u8]) -> Result<T, ReadError>,
) -> Result<String, WriteError> {
    let text = text_of(name, document).map_err(|e| WriteError::Serializer(e.to_string()))?;
    match read(text.as_bytes()) {
        Ok(_) => Ok(text),
        Err(ReadError::TooLarge(_)) => Err(WriteError::TooLarge { kind, bytes: text.len() }),
        Err(error) => Err(WriteError::Unreadable(error.to_string())),
    }
}

fn text_of<T: Serialize>(name: &str, document: &T) -> Result<String, ron::Error> {
    let pretty = ron::ser::PrettyConfig::new()
        .new_line("\n")
        .indentor("    ")
        .depth_limit(5)
        .extensions(ron::extensions::Extensions::IMPLICIT_SOME);
    let text = ron::Options::default().to_string_pretty(document, pretty)?;
    let named = text.replacen("\n(", &format!("\n{name}("), 1);
    Ok(format!("{}\n", whole_numbers(&named)))
}

/// `610.0` → `610` outside strings: files are read by people.
fn whole_numbers(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let (mut in_string, mut escaped) = (false, false);
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        if in_string {
            in_string = escaped || c != '"';
            escaped = c == '\\' && !escaped;
            out.push(c);
            continue;
        }
        if c == '"' {
            in_string = true;
        }
        let after_digit = out.ends_with(|d: char| d.is_ascii_digit());
        if c == '.' && after_digit && rest.peek() == Some(&'0') {
            let mut ahead = rest.clone();
            ahead.next();
            if ahead.peek().is_none_or(|d| !d.is_ascii_digit() && *d != 'e') {
                rest.next();
                continue;
            }
        }
        out.push(c);
    }
    out
}

fn end_of(text: &str) -> Position {
    let line = text.bytes().filter(|b| *b == b'\n').count() + 1;
    let column = text.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
    Position { line, column }
}

/// The library's error in our words: what is wrong, then the nearest right form.
fn explain(error: &ron::error::SpannedError, text: &str) -> ReadError {
    use ron::Error as E;
    let at = past_blanks(text, Position { line: error.span.start.line, column: error.span.start.col });
    let known = |expected: &'static [&'static str], found: &str| match nearest(found, current(expected)) {
        Some(name) => format!("did you mean `{name}`?"),
        None => format!("known are {}", current(expected).collect::<Vec<_>>().join(", ")),
    };
    let sentence = match &error.code {
        E::Message(message) if message.starts_with(NEWER) => return ReadError::NewerFormat(at, message.clone()),
        E::Message(message) if message.starts_with(POINTING) => {
            let (word, sentence) = message.get(1..).and_then(|m| m.split_once(POINTING)).unwrap_or_default();
            return ReadError::Refused(last_before(text, at, word).unwrap_or(at), sentence.to_owned());
        }
        E::Message(message) => message.clone(),
        E::NoSuchStructField { expected, found, .. } => format!("unknown field `{found}`: {}", known(expected, found)),
        E::NoSuchEnumVariant { expected, found, .. } => format!("unknown name `{found}`: {}", known(expected, found)),
        E::DuplicateStructField { field, .. } => format!("field `{field}` is given twice"),
        E::MissingStructField { field, .. } => format!("field `{field}` is missing"),
        E::Eof => "the text ends too early: a bracket or a quotation mark is not closed".to_owned(),
        E::ExpectedFloat => "a number is expected here, without quotation marks and without a unit".to_owned(),
        E::SuggestRawIdentifier(found) if found.starts_with(|c: char| c.is_ascii_digit()) => {
            format!("a name is expected here, not `{found}`: decimals are written with a point, as in 71.5")
        }
        E::ExpectedNamedStructLike(name) if !name.is_empty() => format!("`{name}(` is expected here"),
        E::ExpectedDifferentStructName { expected, found } => format!("`{expected}(` is expected here, not `{found}`"),
        E::TrailingCharacters => "nothing may stand behind the closing bracket".to_owned(),
        other => format!("not well-formed: {other}"),
    };
    ReadError::Refused(at, sentence)
}

/// The first place from `at` on where something stands; `at` itself where nothing follows.
fn past_blanks(text: &str, at: Position) -> Position {
    let Some(offset) = offset_of(text, at) else { return at };
    let (before, behind) = text.split_at_checked(offset).unwrap_or_default();
    let blanks = behind.len() - behind.trim_start().len();
    if blanks == 0 || blanks == behind.len() {
        return at;
    }
    let here = end_of(before);
    let moved = end_of(behind.get(..blanks).unwrap_or_default());
    if moved.line == 1 {
        Position { column: here.column + moved.column - 1, ..here }
    } else {
        Position { line: here.line + moved.line - 1, ..moved }
    }
}

/// How many bytes of the text stand before `at`.
fn offset_of(text: &str, at: Position) -> Option<usize> {
    let line_start: usize = text.split_inclusive('\n').take(at.line - 1).map(str::len).sum();
    Some(text.get(line_start..)?.chars().take(at.column - 1).map(char::len_utf8).sum::<usize>() + line_start)
}

/// Where `word`, or what it was called in format 1, stands for the last time before `at`, as a word of its own.
fn last_before(text: &str, at: Position, word: &str) -> Option<Position> {
    let former = RETIRED_NAMES.iter().filter(|(_, new)| *new == word).map(|(old, _)| *old);
    let places = [word].into_iter().chain(former).filter_map(|name| last_word_before(text, at, name));
    places.max()
}

fn last_word_before(text: &str, at: Position, word: &str) -> Option<Position> {
    let is_letter = |c: char| c.is_alphanumeric() || c == '_';
    text.get(..offset_of(text, at)?)?.rmatch_indices(word).map(|(i, _)| i).find_map(|i| {
        let (left, right) = (text.get(..i)?, text.get(i + word.len()..)?);
        let is_alone = !left.ends_with(is_letter) && !right.starts_with(is_letter);
        is_alone.then(|| end_of(left))
    })
}
