//! A folder of files that the program made, and may make again: a list beside them says which they are and how they
//! looked, so that nothing is ever overwritten or taken away but what the program itself made and nobody changed since.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Component, Path};

use super::{FileProblem, make_folder, remove, save};

/// Name of the list.
pub const LIST: &str = "made-by-spandrel.txt";
const HEAD: &str = "# Made by Spandrel, which makes these files again and leaves all others alone.\n";

/// Writes files into a folder: new ones, and those on its list that nobody changed since. Those on the list that are no
/// longer among them are taken away. Gives back what was kept as it is and why, in sentences.
///
/// # Errors
/// Whatever the system says, in one line; the list then holds what was written so far.
pub fn write_made(folder: &Path, files: &[(String, Vec<u8>)]) -> Result<Vec<String>, FileProblem> {
    make_folder(folder)?;
    let before = read_list(folder);
    let mut now: BTreeMap<String, u64> = BTreeMap::new();
    let mut kept = Vec::new();
    let mut result = Ok(());
    for (name, bytes) in files.iter().filter(|(name, _)| is_inside(name)) {
        let path = folder.join(name);
        let there = fs::read(&path).ok();
        let is_ours = match &there {
            None => !path.exists(),
            Some(old) => old == bytes || before.get(name) == Some(&fingerprint(old)),
        };
        if !is_ours {
            let why =
                if before.contains_key(name) { "it was changed since Spandrel made it" } else { "Spandrel did not make it" };
            kept.push(format!("{}: kept as it is, for {why}; move it away to have it made", path.display()));
            continue;
        }
        if there.as_ref() != Some(bytes) {
            let parent = path.parent().map_or(Ok(()), make_folder);
            if let Err(problem) = parent.and_then(|()| save(&path, bytes)) {
                result = Err(problem);
                break;
            }
        }
        now.insert(name.clone(), fingerprint(bytes));
    }
    if result.is_ok() {
        for (name, print) in before.iter().filter(|(name, _)| files.iter().all(|f| f.0 != **name)) {
            let path = folder.join(name);
            if fs::read(&path).is_ok_and(|old| fingerprint(&old) == *print) {
                remove(&path)?;
                // Its folder goes with the last file; one with anything in it stays, whoever put it there.
                if let Some(parent) = path.parent().filter(|p| *p != folder) {
                    drop(fs::remove_dir(parent));
                }
            }
        }
    } else {
        // What was not reached stays on the list as it was.
        for (name, print) in &before {
            now.entry(name.clone()).or_insert(*print);
        }
    }
    let mut list = HEAD.to_owned();
    for (name, print) in &now {
        list.push_str(&format!("{print:016x}  {name}\n"));
    }
    save(&folder.join(LIST), list.as_bytes())?;
    result.map(|()| kept)
}

/// Names and fingerprints on the list; a line that is neither is passed over.
fn read_list(folder: &Path) -> BTreeMap<String, u64> {
    let text = fs::read_to_string(folder.join(LIST)).unwrap_or_default();
    let entry = |line: &str| {
        let (print, name) = line.split_once("  ")?;
        let print = u64::from_str_radix(print, 16).ok()?;
        is_inside(name).then(|| (name.to_owned(), print))
    };
    text.lines().filter_map(entry).collect()
}

/// Whether a name stays inside the folder.
fn is_inside(name: &str) -> bool {
    !name.is_empty() && !name.contains('\\') && Path::new(name).components().all(|c| matches!(c, Component::Normal(_)))
}

/// FNV-1a with 64 bits (G. Fowler, L. C. Noll, K.-P. Vo): tells a changed file from an unchanged one, no more.
fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |print, byte| (print ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(names: &[(&str, &str)]) -> Vec<(String, Vec<u8>)> {
        names.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec())).collect()
    }

    #[test]
    fn only_its_own_unchanged_files_are_overwritten_or_taken_away() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::write(at("mine.txt"), "mine").unwrap();
        let first = files(&[("a.png", "one"), ("mine.txt", "theirs"), ("frames/1.png", "1"), ("frames/2.png", "2")]);
        let kept = write_made(folder.path(), &first).unwrap();
        assert_eq!(kept.len(), 1);
        assert!(kept[0].contains("mine.txt: kept as it is, for Spandrel did not make it"), "{kept:?}");
        assert_eq!(fs::read_to_string(at("mine.txt")).unwrap(), "mine");
        // Again, with other bytes, one file changed by hand and one no longer made.
        fs::write(at("frames/1.png"), "retouched").unwrap();
        let kept = write_made(folder.path(), &files(&[("a.png", "two"), ("frames/1.png", "new")])).unwrap();
        assert_eq!(fs::read_to_string(at("a.png")).unwrap(), "two");
        assert_eq!(fs::read_to_string(at("frames/1.png")).unwrap(), "retouched");
        assert!(kept[0].contains("it was changed since Spandrel made it"), "{kept:?}");
        assert!(!at("frames/2.png").exists() && at("mine.txt").exists());
        // A folder of nothing but its own goes with them; this one holds what was retouched.
        write_made(folder.path(), &files(&[("more/1.png", "1")])).unwrap();
        write_made(folder.path(), &[]).unwrap();
        assert!(!at("more").exists() && at("frames/1.png").exists() && !at("a.png").exists());
    }

    #[test]
    fn neither_a_name_nor_the_list_reaches_outside() {
        let folder = tempfile::tempdir().unwrap();
        let inside = folder.path().join("inside");
        fs::create_dir(&inside).unwrap();
        let outside = folder.path().join("outside.txt");
        fs::write(&outside, "x").unwrap();
        fs::write(inside.join(LIST), format!("{:016x}  ../outside.txt\n", fingerprint(b"x"))).unwrap();
        write_made(&inside, &files(&[("../outside.txt", "y"), ("/tmp/spandrel-none", "y"), ("ok.txt", "y")])).unwrap();
        assert_eq!(fs::read_to_string(&outside).unwrap(), "x");
        assert!(inside.join("ok.txt").exists());
    }

    /// From the authors' own test list: "" and "a".
    #[test]
    fn the_fingerprint_is_fnv_1a() {
        assert_eq!(fingerprint(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fingerprint(b"a"), 0xaf63_dc4c_8601_ec8c);
    }
}
