//! The list of files that Spandrel made in a folder. It says which they are and how they looked, so that nothing is ever
//! overwritten or taken away but what the program itself made and nobody changed since.
//!
//! While files are exchanged the list is *incomplete*: it then names those from before and the new ones, and says so.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File};
use std::io::Read;
use std::path::{Component, Path};

use super::FileProblem;

/// Name of the list.
pub const LIST: &str = "made-by-spandrel.txt";
/// What the list begins with, by which it is known.
const OURS: &str = "# Made by Spandrel";
const HEAD: &str = "# Made by Spandrel, which makes these files again and leaves all others alone.\n";
const INCOMPLETE: &str = "# Incomplete: publishing was interrupted, and files are missing. Publish again to complete them.\n";
/// The largest list that is read, bytes.
const MOST: u64 = 4 << 20;

/// Names of files and the fingerprints that each may have.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct MadeList {
    prints: BTreeMap<String, BTreeSet<u64>>,
}

impl MadeList {
    /// The list of a folder, and its bytes; empty where there is none. A line that is no entry is passed over.
    ///
    /// # Errors
    /// It cannot be read, or a file of that name is something else.
    pub(super) fn read(folder: &Path) -> Result<(Self, Option<Vec<u8>>), FileProblem> {
        let path = folder.join(LIST);
        match fs::symlink_metadata(&path) {
            Err(_) => return Ok((Self::default(), None)),
            Ok(about) if !about.is_file() => return Err(not_ours(&path)),
            Ok(_) => {}
        }
        let mut bytes = Vec::new();
        let read = File::open(&path).and_then(|file| file.take(MOST + 1).read_to_end(&mut bytes));
        read.map_err(|e| FileProblem::io(&path, "cannot be read", &e))?;
        if bytes.len() as u64 > MOST {
            return Err(not_ours(&path));
        }
        let text = String::from_utf8_lossy(&bytes).into_owned();
        if !text.starts_with(OURS) {
            return Err(not_ours(&path));
        }
        let mut list = Self::default();
        for (print, name) in text.lines().filter_map(|line| line.split_once("  ")) {
            if let Ok(print) = u64::from_str_radix(print, 16)
                && is_inside(name)
            {
                list.add(name, print);
            }
        }
        Ok((list, Some(bytes)))
    }

    /// Whether a list says that it is incomplete.
    pub(super) fn is_incomplete(bytes: &[u8]) -> bool {
        bytes.windows(INCOMPLETE.len()).any(|window| window == INCOMPLETE.as_bytes())
    }

    /// Adds a file that may look so.
    pub(super) fn add(&mut self, name: &str, print: u64) {
        self.prints.entry(name.to_owned()).or_default().insert(print);
    }

    /// Adds all of another list.
    pub(super) fn add_all(&mut self, other: &Self) {
        for (name, prints) in &other.prints {
            self.prints.entry(name.clone()).or_default().extend(prints);
        }
    }

    /// Whether a file of that name that looks so is on the list.
    pub(super) fn has(&self, name: &str, print: u64) -> bool {
        self.prints.get(name).is_some_and(|prints| prints.contains(&print))
    }

    /// Whether a file of that name is on the list, however it looks.
    pub(super) fn names(&self, name: &str) -> bool {
        self.prints.contains_key(name)
    }

    /// All names.
    pub(super) fn all_names(&self) -> impl Iterator<Item = &str> {
        self.prints.keys().map(String::as_str)
    }

    /// The list as a file.
    pub(super) fn text(&self, is_complete: bool) -> String {
        let mut text = HEAD.to_owned();
        if !is_complete {
            text.push_str(INCOMPLETE);
        }
        for (name, prints) in &self.prints {
            for print in prints {
                text.push_str(&format!("{print:016x}  {name}\n"));
            }
        }
        text
    }
}

fn not_ours(path: &Path) -> FileProblem {
    FileProblem::new(path, None, "this is not a list that Spandrel wrote: move it, or choose another folder")
}

/// Whether a name stays inside the folder, and is neither the list nor hidden.
pub(super) fn is_inside(name: &str) -> bool {
    let is_plain = |c: Component| matches!(c, Component::Normal(_));
    !name.is_empty()
        && !name.starts_with('.')
        && name != LIST
        && !name.contains(['\\', '\n', '\r'])
        && Path::new(name).components().all(is_plain)
}

/// FNV-1a with 64 bits (G. Fowler, L. C. Noll, K.-P. Vo): tells a changed file from an unchanged one, no more.
pub(super) fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |print, byte| (print ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3))
}

/// The fingerprint of a regular file; `None` where there is none, or where it cannot be read.
pub(super) fn fingerprint_of(path: &Path) -> Option<u64> {
    fs::symlink_metadata(path).ok().filter(fs::Metadata::is_file)?;
    fs::read(path).ok().map(|bytes| fingerprint(&bytes))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_read_as_it_was_written() {
        let folder = tempfile::tempdir().unwrap();
        assert_eq!(MadeList::read(folder.path()).unwrap(), (MadeList::default(), None));
        let mut list = MadeList::default();
        for (name, print) in [("a.png", 1), ("a.png", u64::MAX), ("moving/0001.png", 7)] {
            list.add(name, print);
        }
        for is_complete in [true, false] {
            let text = list.text(is_complete);
            assert_eq!(MadeList::is_incomplete(text.as_bytes()), !is_complete);
            fs::write(folder.path().join(LIST), &text).unwrap();
            assert_eq!(MadeList::read(folder.path()).unwrap(), (list.clone(), Some(text.into_bytes())));
        }
        assert!(list.has("a.png", 1) && !list.has("a.png", 7) && !list.has("b.png", 1));
    }

    #[test]
    fn no_other_file_is_taken_for_a_list() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join(LIST), "my own notes").unwrap();
        let problem = MadeList::read(folder.path()).unwrap_err().to_string();
        assert!(problem.contains("not a list that Spandrel wrote"), "{problem}");
        fs::remove_file(folder.path().join(LIST)).unwrap();
        fs::create_dir(folder.path().join(LIST)).unwrap();
        MadeList::read(folder.path()).unwrap_err();
    }

    #[test]
    fn names_stay_inside() {
        for name in ["../a", "/a", "", ".spandrel-publish/lock", "a/../b", "a\\b", "a\nb", LIST] {
            assert!(!is_inside(name), "{name}");
        }
        assert!(is_inside("a.png") && is_inside("moving/0001.png"));
    }

    /// From the authors' own test list: "" and "a".
    #[test]
    fn the_fingerprint_is_fnv_1a() {
        assert_eq!(fingerprint(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fingerprint(b"a"), 0xaf63_dc4c_8601_ec8c);
    }
}
