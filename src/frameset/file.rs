//! Frame files as text: RON, UTF-8, one versioned format. Reading and writing know text only, never the disk.

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::model::Frameset;
use super::nearest::nearest;
use super::values::NEWER;

/// The largest text that is read at all, bytes.
pub const MAX_BYTES: usize = 4 * 1024 * 1024;

/// Where in a text something stands: line and column, both from 1, columns counted in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
}

/// Why a file's text was refused.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// More than [`MAX_BYTES`].
    #[error("the file is larger than 4 MB and was not read: a frame file is a few kilobytes")]
    TooLarge,
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
            Self::TooLarge => None,
            Self::NotUtf8(at) | Self::NewerFormat(at, _) | Self::Refused(at, _) => Some(*at),
        }
    }
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
    read_document(bytes)
}

/// Writes a frame file. Reading it again gives an equal frameset.
///
/// # Errors
/// Never for a frameset that was read or built from checked values; the serializer's own word otherwise.
pub fn write_frameset(frameset: &Frameset) -> Result<String, ron::Error> {
    write_document("Frameset", frameset)
}

/// Reads any of the program's documents from bytes.
///
/// # Errors
/// As [`read_frameset`].
pub fn read_document<T: DeserializeOwned>(bytes: &[u8]) -> Result<T, ReadError> {
    if bytes.len() > MAX_BYTES {
        return Err(ReadError::TooLarge);
    }
    let text = std::str::from_utf8(bytes).map_err(|e| {
        let good = String::from_utf8_lossy(bytes.get(..e.valid_up_to()).unwrap_or_default()).into_owned();
        ReadError::NotUtf8(end_of(&good))
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    ron::Options::default()
        .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
        .from_str(text)
        .map_err(|e| explain(&e))
}

/// Writes any of the program's documents, its struct named `name`.
///
/// # Errors
/// As [`write_frameset`].
pub fn write_document<T: Serialize>(name: &str, document: &T) -> Result<String, ron::Error> {
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
fn explain(error: &ron::error::SpannedError) -> ReadError {
    use ron::Error as E;
    let at = Position { line: error.span.start.line, column: error.span.start.col };
    let known = |expected: &'static [&'static str], found: &str| match nearest(found, expected.iter().copied()) {
        Some(name) => format!("did you mean `{name}`?"),
        None => format!("known are {}", expected.join(", ")),
    };
    let sentence = match &error.code {
        E::Message(message) if message.starts_with(NEWER) => return ReadError::NewerFormat(at, message.clone()),
        E::Message(message) => message.clone(),
        E::NoSuchStructField { expected, found, .. } => format!("unknown field `{found}`: {}", known(expected, found)),
        E::NoSuchEnumVariant { expected, found, .. } => format!("unknown name `{found}`: {}", known(expected, found)),
        E::DuplicateStructField { field, .. } => format!("field `{field}` is given twice"),
        E::MissingStructField { field, .. } => format!("field `{field}` is missing"),
        other => format!("not well-formed: {other}"),
    };
    ReadError::Refused(at, sentence)
}
