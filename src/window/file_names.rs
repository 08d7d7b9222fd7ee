//! Names of files: those that every system takes, those that tell files apart, and those that are typed.

use super::labels::notices as labels;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// A name that every system takes for a file.
pub(crate) fn file_name(name: &str) -> String {
    let plain: String = name.chars().map(|c| if c.is_alphanumeric() || "-_.".contains(c) { c } else { '-' }).collect();
    let plain = plain.trim_matches(['-', '.']);
    if plain.is_empty() { labels::LINE_UP.to_owned() } else { plain.to_owned() }
}

/// The shortest end of a path that no other path has, where another has the same base name; `None` where the base name
/// is enough, or nothing tells the files apart.
pub(crate) fn telling_name<'a>(path: &Path, others: impl Iterator<Item = &'a Path>) -> Option<String> {
    let others: Vec<&Path> = others.filter(|other| other.file_name() == path.file_name() && *other != path).collect();
    if others.is_empty() {
        return None;
    }
    let count = path.components().count();
    let end = (2..=count).map(|parts| end_of(path, parts)).find(|end| !others.iter().any(|other| other.ends_with(end)));
    Some(end.unwrap_or_else(|| path.to_owned()).display().to_string())
}

/// The last so many parts of a path.
fn end_of(path: &Path, parts: usize) -> PathBuf {
    let all: Vec<&OsStr> = path.iter().collect();
    all.get(all.len().saturating_sub(parts)..).unwrap_or_default().iter().collect()
}

/// Whether a file's name says that it is a table: CSV, tabbed text or a spreadsheet.
pub(crate) fn is_table_name(path: &Path) -> bool {
    let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
    ["csv", "tsv", "tab", "txt", "xlsx"].contains(&ending.as_str())
}

/// A file's name without its folders: all that a line-up says of where a frame came from, for it may be published.
pub(crate) fn base_name(path: &Path) -> Option<String> {
    path.file_name().map(|name| name.to_string_lossy().into_owned())
}

/// A typed path: `~` is the home folder, and quotes around it are dropped.
pub(crate) fn typed_path(text: &str) -> PathBuf {
    let text = text.trim().trim_matches(['"', '\'']);
    let address = text.strip_prefix("file://").map(unescaped);
    let text = address.as_deref().unwrap_or(text);
    match text.strip_prefix("~/").zip(std::env::home_dir()) {
        Some((rest, home)) => home.join(rest),
        None => PathBuf::from(text),
    }
}

/// An address without its escapes: `%20` is a blank.
fn unescaped(address: &str) -> String {
    let mut plain: Vec<u8> = Vec::with_capacity(address.len());
    let mut rest = address.as_bytes();
    while let Some((first, after)) = rest.split_first() {
        let code = after.get(..2).filter(|_| *first == b'%').and_then(|code| std::str::from_utf8(code).ok());
        let byte = code.and_then(|code| u8::from_str_radix(code, 16).ok());
        plain.push(byte.unwrap_or(*first));
        rest = if byte.is_some() { after.get(2..).unwrap_or_default() } else { after };
    }
    String::from_utf8_lossy(&plain).into_owned()
}

/// The files of a pasted text: one whole path or address a line, as file managers copy them, and nothing else.
pub(crate) fn pasted_files(text: &str) -> Option<Vec<PathBuf>> {
    let lines: Vec<&str> = text.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    let is_whole = |line: &&str| {
        let plain = line.trim_matches(['"', '\'']);
        let is_drive = plain.get(1..3).is_some_and(|mark| mark == ":\\") && plain.starts_with(|c: char| c.is_ascii_alphabetic());
        let begins = plain.starts_with('/') || plain.starts_with("~/") || plain.starts_with("file://") || is_drive;
        // An ending has a letter; a number behind a stroke is a figure.
        let has_ending = typed_path(line).extension().is_some_and(|e| e.to_string_lossy().contains(char::is_alphabetic));
        begins && !plain.contains('\t') && has_ending
    };
    (!lines.is_empty() && lines.iter().all(is_whole)).then(|| lines.into_iter().map(typed_path).collect())
}

/// The path with its ending, where the typed one has none.
pub(crate) fn with_ending(path: &Path, ending: &str) -> PathBuf {
    if path.extension().is_some() {
        return path.to_owned();
    }
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_files_are_plain() {
        assert_eq!(file_name("Six loan bikes / 2026"), "Six-loan-bikes---2026");
        assert_eq!(file_name("…"), "line-up");
    }

    #[test]
    fn as_many_folders_as_it_takes() {
        let name = |path: &str, others: &[&str]| telling_name(Path::new(path), others.iter().map(Path::new));
        assert_eq!(name("/a/x.ron", &["/a/y.ron"]), None);
        assert_eq!(name("/a/x.ron", &["/a/x.ron"]), None, "one file, opened twice");
        assert_eq!(name("/a/x.ron", &["/b/x.ron"]).as_deref(), Some("a/x.ron"));
        assert_eq!(name("/one/a/x.ron", &["/two/a/x.ron", "/b/x.ron"]).as_deref(), Some("one/a/x.ron"));
        assert_eq!(name("/x.ron", &["/a/x.ron"]).as_deref(), Some("/x.ron"));
    }

    #[test]
    fn pasted_paths_are_files_and_tables_are_not() {
        let files = |text: &str| pasted_files(text);
        assert_eq!(files("/tmp/a.frame.ron\n"), Some(vec![PathBuf::from("/tmp/a.frame.ron")]));
        let two = files("file:///tmp/my%20frame.ron\nfile:///tmp/caf%C3%A9.csv").expect("two files");
        assert_eq!(two, ["/tmp/my frame.ron", "/tmp/café.csv"].map(PathBuf::from));
        assert_eq!(files("\"/tmp/100%.csv\""), Some(vec![PathBuf::from("/tmp/100%.csv")]));
        for text in ["", "Stack\t600", "/tmp/a.ron\nReach 400", "/ 12.5", "/tmp/a.ron\t12.5", "a.ron"] {
            assert_eq!(files(text), None, "{text}");
        }
    }

    #[test]
    fn typed_paths() {
        assert_eq!(typed_path(" \"/tmp/a b.frame.ron\" "), PathBuf::from("/tmp/a b.frame.ron"));
        assert_eq!(typed_path("file:///tmp/a"), PathBuf::from("/tmp/a"));
        assert!(!typed_path("~/x").starts_with("~"));
        assert_eq!(with_ending(Path::new("/tmp/a"), ".lineup.ron"), PathBuf::from("/tmp/a.lineup.ron"));
        assert_eq!(with_ending(Path::new("/tmp/a.svg"), ".svg"), PathBuf::from("/tmp/a.svg"));
    }
}
