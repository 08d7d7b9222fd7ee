//! Names of files: those that every system takes, and those that tell files apart.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// A name that every system takes for a file.
pub(crate) fn file_name(name: &str) -> String {
    let plain: String = name.chars().map(|c| if c.is_alphanumeric() || "-_.".contains(c) { c } else { '-' }).collect();
    let plain = plain.trim_matches(['-', '.']);
    if plain.is_empty() { "line-up".to_owned() } else { plain.to_owned() }
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
}
