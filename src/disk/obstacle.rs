//! Obstacles to saving: what has to be asked before a file is written, because something would be lost.

use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

use super::{ContentHash, FileIdentity, full_path, is_same_file};

/// What stands between a document and its place on disk. Whoever agrees to one agrees to what was found then, not to
/// what may come after.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// The document's own file holds something else than when it was last read or saved here.
    Changed(Option<ContentHash>),
    /// A file that this document has nothing to do with.
    Exists(Option<ContentHash>),
    /// The document's own file is no longer there.
    Gone,
    /// The folder of the document's own file is no longer there.
    NoFolder(PathBuf),
    /// The file may not be written to.
    WriteProtected,
    /// A link that leads to this file, which is not there.
    DanglingLink(PathBuf),
}

/// What a file is taken to hold when a document is written over it: whoever agreed to its end agreed to the end of this.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Expected {
    /// There is no file of that name.
    Nothing,
    /// A file with these bytes.
    Bytes(ContentHash),
    /// Something that cannot be read.
    Unknown,
}

/// What a document written to `path` is expected to meet there, or the first obstacle to it that was not agreed to.
/// `known` is the document's own file.
///
/// # Errors
/// The obstacle.
pub fn expected(path: &Path, known: Option<&FileIdentity>, agreed: &[Obstacle]) -> Result<Expected, Obstacle> {
    let known = known.filter(|known| is_same_file(&known.path, path));
    let path = full_path(path);
    let mut found = Vec::new();
    let mut expected = Expected::Unknown;
    match fs::metadata(&path) {
        Ok(about) if about.is_file() => {
            let now = content_hash(&path);
            expected = now.map_or(Expected::Unknown, Expected::Bytes);
            match known {
                Some(known) if now == Some(known.hash) => {}
                Some(_) => found.push(Obstacle::Changed(now)),
                None => found.push(Obstacle::Exists(now)),
            }
            if about.permissions().readonly() {
                found.push(Obstacle::WriteProtected);
            }
        }
        Ok(_) => {}
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            expected = Expected::Nothing;
            let folder = path.parent().filter(|folder| !folder.exists());
            if let Ok(target) = fs::read_link(&path) {
                found.push(Obstacle::DanglingLink(target));
            } else if let (Some(folder), Some(_)) = (folder, known) {
                found.push(Obstacle::NoFolder(folder.to_owned()));
            } else if known.is_some() {
                found.push(Obstacle::Gone);
            }
        }
        Err(_) => {}
    }
    found.into_iter().find(|obstacle| !agreed.contains(obstacle)).map_or(Ok(expected), Err)
}

/// The hash of what a regular file holds now; `None` where there is none, or it cannot be read.
#[must_use]
pub fn content_hash(path: &Path) -> Option<ContentHash> {
    if !fs::metadata(path).ok()?.is_file() {
        return None;
    }
    let mut file = fs::File::open(path).ok()?;
    let mut hasher = Sha256::new();
    let mut part = vec![0; 65536];
    loop {
        match file.read(&mut part) {
            Ok(0) => return Some(ContentHash::from_digest(hasher.finalize().into())),
            Ok(length) => hasher.update(part.get(..length)?),
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            Err(_) => return None,
        }
    }
}

/// Where writing to a path writes: at the end of its links, whether or not that file is there yet.
#[must_use]
pub fn write_target(path: &Path) -> PathBuf {
    let mut target = full_path(path);
    // As many links as Linux follows (path_resolution(7)).
    for _ in 0..40 {
        let Ok(next) = fs::read_link(&target) else { break };
        target = target.parent().map_or_else(|| next.clone(), |folder| folder.join(&next));
    }
    target
}

/// A path beside this one whose name is free: `name-2.lineup.ron`, `name-3.lineup.ron` ….
#[must_use]
pub fn free_path(path: &Path) -> PathBuf {
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = [".lineup.ron", ".frame.ron", ".ron"].iter().find_map(|ending| Some((name.strip_suffix(ending)?, *ending)));
    let (stem, ending) = stem.unwrap_or((&name, ""));
    let free = (2..u32::MAX).map(|number| path.with_file_name(format!("{stem}-{number}{ending}")));
    free.into_iter().find(|path| fs::symlink_metadata(path).is_err()).unwrap_or_else(|| path.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn obstacle(path: &Path, known: Option<&FileIdentity>, agreed: &[Obstacle]) -> Option<Obstacle> {
        expected(path, known, agreed).err()
    }

    #[test]
    fn what_is_met_is_what_was_looked_at() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.lineup.ron");
        assert_eq!(expected(&path, None, &[]), Ok(Expected::Nothing));
        fs::write(&path, "one").unwrap();
        let known = FileIdentity::of(&path, b"one");
        assert_eq!(expected(&path, Some(&known), &[]), Ok(Expected::Bytes(known.hash)));
        fs::write(&path, "two").unwrap();
        let changed = expected(&path, Some(&known), &[]).unwrap_err();
        assert_eq!(expected(&path, Some(&known), &[changed]), Ok(Expected::Bytes(ContentHash::of(b"two"))));
    }

    #[test]
    fn a_documents_own_unchanged_file_is_no_obstacle_and_all_else_is() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sub/a.lineup.ron");
        let known = FileIdentity::of(&path, b"one");
        assert_eq!(obstacle(&path, None, &[]), None, "a new file, in a folder whose absence saving itself tells");
        assert!(matches!(obstacle(&path, Some(&known), &[]), Some(Obstacle::NoFolder(_))));
        fs::create_dir(folder.path().join("sub")).unwrap();
        assert_eq!(obstacle(&path, Some(&known), &[]), Some(Obstacle::Gone));
        fs::write(&path, "one").unwrap();
        assert_eq!(obstacle(&path, Some(&known), &[]), None);
        assert!(matches!(obstacle(&path, None, &[]), Some(Obstacle::Exists(_))));
        let other = FileIdentity::of(&folder.path().join("sub/b.lineup.ron"), b"one");
        assert!(matches!(obstacle(&path, Some(&other), &[]), Some(Obstacle::Exists(_))), "equal bytes make it no own file");
        fs::write(&path, "two").unwrap();
        let changed = obstacle(&path, Some(&known), &[]).unwrap();
        assert_eq!(changed, Obstacle::Changed(Some(ContentHash::of(b"two"))));
        assert_eq!(obstacle(&path, Some(&known), std::slice::from_ref(&changed)), None);
        fs::write(&path, "three").unwrap();
        assert!(obstacle(&path, Some(&known), &[changed]).is_some(), "another change was not agreed to");
        let mut permissions = fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).unwrap();
        let now = FileIdentity::of(&path, b"three");
        assert_eq!(obstacle(&path, Some(&now), &[]), Some(Obstacle::WriteProtected));
    }

    #[cfg(unix)]
    #[test]
    fn links_are_written_through_and_one_that_leads_nowhere_is_an_obstacle() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        std::os::unix::fs::symlink("there", at("link")).unwrap();
        assert_eq!(obstacle(&at("link"), None, &[]), Some(Obstacle::DanglingLink(PathBuf::from("there"))));
        assert_eq!(write_target(&at("link")), at("there"));
        fs::write(at("there"), "x").unwrap();
        let known = FileIdentity::of(&at("link"), b"x");
        assert_eq!(obstacle(&at("link"), Some(&known), &[]), None);
        std::os::unix::fs::symlink("loop", at("loop")).unwrap();
        drop(write_target(&at("loop")));
    }

    #[test]
    fn a_free_name_keeps_the_ending() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.lineup.ron");
        fs::write(&path, "").unwrap();
        assert_eq!(free_path(&path), folder.path().join("a-2.lineup.ron"));
        fs::write(folder.path().join("a-2.lineup.ron"), "").unwrap();
        assert_eq!(free_path(&path), folder.path().join("a-3.lineup.ron"));
    }
}
