//! Writing a document over its own file, which another program may change in the same moment.
//!
//! Where the disk can exchange two files in one step (`renameat2` of Linux with `RENAME_EXCHANGE`), the new file is exchanged
//! for the one that is there, and what came out is looked at before it goes: if it is not what was expected, it goes back.
//! Elsewhere the file is looked at once more right before it is replaced. Two windows that save into one folder do so one
//! after the other.
//!
//! Invariant: of two files exchanged, none is removed whose bytes are unknown.

use std::fs::{self, File};
use std::io;
use std::path::Path;
use std::thread::sleep;
use std::time::{Duration, Instant};

use tempfile::{NamedTempFile, TempPath};

use super::leftovers::{ExchangedName, put_back};
use super::replace::{Replace, Way, way};
use super::write::{flush_folder, flushed_beside, folder_of, move_new, not_saved};
use super::{ContentHash, Expected, FileProblem, content_hash, write_target};

/// What saving a document came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Saved {
    /// The file holds it.
    Written,
    /// Another program came first: its file is there, and nothing was replaced.
    Overtaken,
}

/// Writes a document to a path, through its links, whole or not at all, where that path is as it is `expected` to be: the
/// name is free, or its file holds these very bytes.
///
/// # Errors
/// As [`write`](super::write()) has them.
pub fn save_document(path: &Path, bytes: &[u8], expected: Expected) -> Result<Saved, FileProblem> {
    save_with(path, bytes, expected, &exchange)
}

type Exchange<'a> = &'a dyn Fn(&Path, &Path) -> io::Result<()>;

fn save_with(path: &Path, bytes: &[u8], expected: Expected, exchange: Exchange<'_>) -> Result<Saved, FileProblem> {
    let target = write_target(path);
    let way = way(&target, Replace::Confirmed, || false)?;
    match (way, expected) {
        // A pipe or a device takes the bytes; what nobody could read is replaced as it was agreed to.
        (Way::Into, _) | (Way::Over(_), Expected::Unknown) => {
            super::write(&target, bytes, Replace::Confirmed)?;
            Ok(Saved::Written)
        }
        (Way::Over(_), Expected::Nothing) | (Way::Free, Expected::Bytes(_)) => Ok(Saved::Overtaken),
        (Way::Free, Expected::Nothing | Expected::Unknown) => {
            let (_file, new) = flushed_beside(&target, bytes).map_err(|e| not_saved(path, &e))?.into_parts();
            match move_new(&new, &target) {
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => return Ok(Saved::Overtaken),
                moved => moved.map_err(|e| not_saved(path, &e))?,
            }
            flush_folder(folder_of(&target));
            Ok(Saved::Written)
        }
        (Way::Over(target), Expected::Bytes(hash)) => {
            let new = flushed_beside(&target, bytes).map_err(|e| not_saved(path, &e))?;
            let saved = replace_expected(new, &target, ContentHash::of(bytes), hash, exchange);
            flush_folder(folder_of(&target));
            saved.map_err(|e| not_saved(path, &e))
        }
    }
}

/// Puts the new file, of hash `ours`, in the place of the target, which must have the hash `expected`.
fn replace_expected(
    new: NamedTempFile,
    target: &Path,
    ours: ContentHash,
    expected: ContentHash,
    exchange: Exchange<'_>,
) -> io::Result<Saved> {
    let _turn = turn_in(folder_of(target));
    if content_hash(target) != Some(expected) {
        return Ok(Saved::Overtaken);
    }
    // The file stays open, and so locked.
    let (_file, new) = new.into_parts();
    let new = named_for_exchange(new, target, ours, expected)?;
    match exchange(&new, target) {
        Ok(()) => {}
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Saved::Overtaken),
        // Disks that know no such step.
        Err(_) => {
            new.persist(target).map_err(|e| e.error)?;
            return Ok(Saved::Written);
        }
    }
    // From here on the new file's name holds what was the target's.
    let old = new;
    // Another window that clears what the dead left may have come first: it knows from the name what may go.
    let is_cleared = fs::symlink_metadata(&old).is_err_and(|e| e.kind() == io::ErrorKind::NotFound);
    if is_cleared || content_hash(&old) == Some(expected) {
        return Ok(Saved::Written);
    }
    let is_back = exchange(&old, target).is_ok();
    if !is_back || content_hash(&old) != Some(ours) {
        keep(old, target)?;
    }
    Ok(Saved::Overtaken)
}

/// The new file under a name that says which bytes may be thrown away from under it: should this be interrupted after the
/// exchange, whoever clears it knows another program's bytes when it finds them.
fn named_for_exchange(new: TempPath, target: &Path, ours: ContentHash, expected: ContentHash) -> io::Result<TempPath> {
    let Some(name) = ExchangedName::of(&new, target, ours, expected) else { return Ok(new) };
    let named = folder_of(target).join(name);
    fs::rename(&new, &named)?;
    // Nothing has the old name now, so that dropping it removes nothing.
    drop(new);
    TempPath::try_from_path(named)
}

/// The folder, locked against other windows that save into it. It is only waited for a moment: whoever comes in between is
/// seen by the exchange.
fn turn_in(folder: &Path) -> Option<File> {
    const PATIENCE: Duration = Duration::from_secs(1);
    let folder = File::open(folder).ok()?;
    let began = Instant::now();
    while matches!(folder.try_lock(), Err(fs::TryLockError::WouldBlock)) && began.elapsed() < PATIENCE {
        sleep(Duration::from_millis(2));
    }
    Some(folder)
}

/// Keeps a file of unknown bytes beside the target.
fn keep(old: TempPath, target: &Path) -> io::Result<()> {
    let old = old.keep().map_err(|e| e.error)?;
    put_back(&old, target);
    if fs::symlink_metadata(&old).is_ok() {
        return Err(io::Error::other(format!("another program changed it meanwhile: its version is in {}", old.display())));
    }
    Ok(())
}

/// Exchanges two files in one step.
#[cfg(target_os = "linux")]
fn exchange(one: &Path, other: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE)?)
}

/// Tells that this system knows no such step.
#[cfg(not(target_os = "linux"))]
fn exchange(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;

    fn hash(text: &str) -> Expected {
        Expected::Bytes(ContentHash::of(text.as_bytes()))
    }

    fn names(folder: &Path) -> Vec<String> {
        let mut names = super::super::names_in(folder);
        names.sort();
        names
    }

    #[test]
    fn a_document_is_written_where_all_is_as_expected_and_nowhere_else() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.lineup.ron");
        let read = || fs::read_to_string(&path).unwrap();
        assert_eq!(save_document(&path, b"one", hash("none")), Ok(Saved::Overtaken), "it is gone");
        assert_eq!(save_document(&path, b"one", Expected::Nothing), Ok(Saved::Written));
        assert_eq!(save_document(&path, b"two", Expected::Nothing), Ok(Saved::Overtaken), "it is there");
        assert_eq!(save_document(&path, b"two", hash("none")), Ok(Saved::Overtaken), "it holds something else");
        assert_eq!(read(), "one");
        assert_eq!(save_document(&path, b"two", hash("one")), Ok(Saved::Written));
        assert_eq!((read().as_str(), names(folder.path())), ("two", vec!["a.lineup.ron".to_owned()]));
    }

    /// Another program writes between the last look and the exchange, and again before the file is put back.
    #[test]
    fn what_another_program_writes_in_the_same_moment_is_never_lost() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.lineup.ron");
        for (others, found, kept) in [(vec!["theirs"], "theirs", None), (vec!["theirs", "theirs 2"], "theirs", Some("theirs 2"))]
        {
            fs::write(&path, "one").unwrap();
            let calls = Cell::new(0);
            let meddled = |one: &Path, other: &Path| {
                if let Some(text) = others.get(calls.get()) {
                    // As editors do: a new file renamed over the old one.
                    fs::write(folder.path().join("new"), text).unwrap();
                    fs::rename(folder.path().join("new"), other).unwrap();
                }
                calls.set(calls.get() + 1);
                exchange(one, other)
            };
            assert_eq!(save_with(&path, b"ours", hash("one"), &meddled), Ok(Saved::Overtaken));
            assert_eq!(calls.get(), 2, "there and back");
            assert_eq!(fs::read_to_string(&path).unwrap(), found);
            let beside = folder.path().join("a.lineup.ron.kept");
            assert_eq!(fs::read_to_string(&beside).ok().as_deref(), kept);
            assert_eq!(names(folder.path()).len(), 1 + usize::from(kept.is_some()), "{:?}", names(folder.path()));
        }
    }

    /// Killed between the exchange and the look at what came out.
    #[test]
    fn what_an_interrupted_exchange_took_out_is_kept_where_nobody_knows_it() {
        for (found, kept) in [("one", None), ("theirs", Some("theirs"))] {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("a.lineup.ron");
            fs::write(&path, "one").unwrap();
            let killed = |one: &Path, other: &Path| {
                fs::write(other, found).unwrap();
                exchange(one, other).unwrap();
                // What a killed process leaves behind: both names, and no lock.
                fs::hard_link(one, folder.path().join("aside")).unwrap();
                let name = one.to_owned();
                fs::write(folder.path().join("name"), name.to_str().unwrap()).unwrap();
                Err(io::ErrorKind::NotFound.into())
            };
            save_with(&path, b"ours", hash("one"), &killed).unwrap();
            let name = fs::read_to_string(folder.path().join("name")).unwrap();
            fs::rename(folder.path().join("aside"), &name).unwrap();
            fs::remove_file(folder.path().join("name")).unwrap();
            super::super::save(&folder.path().join("b.csv"), b"x").unwrap();
            assert_eq!(fs::read_to_string(&path).unwrap(), "ours");
            let beside = folder.path().join("a.lineup.ron.kept");
            assert_eq!(fs::read_to_string(&beside).ok().as_deref(), kept);
            assert_eq!(names(folder.path()).len(), 2 + usize::from(kept.is_some()), "{:?}", names(folder.path()));
        }
    }

    #[test]
    fn a_disk_that_cannot_exchange_takes_the_file_all_the_same() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.lineup.ron");
        fs::write(&path, "one").unwrap();
        let cannot = |_: &Path, _: &Path| Err(io::ErrorKind::InvalidInput.into());
        assert_eq!(save_with(&path, b"two", hash("one"), &cannot), Ok(Saved::Written));
        assert_eq!(fs::read_to_string(&path).unwrap(), "two");
        assert_eq!(save_with(&path, b"three", hash("one"), &cannot), Ok(Saved::Overtaken), "it is looked at right before");
        assert_eq!(names(folder.path()), ["a.lineup.ron"]);
    }

    /// Two programs that save in turns, each only over what it has read: no version is lost between them.
    #[test]
    fn of_many_that_save_over_one_version_one_does() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.lineup.ron");
        fs::write(&path, "start").unwrap();
        for round in 0..20 {
            let before = fs::read_to_string(&path).unwrap();
            let written: Vec<String> = std::thread::scope(|scope| {
                let writers: Vec<_> = (0..4)
                    .map(|writer| {
                        let (path, before) = (&path, &before);
                        scope.spawn(move || {
                            let text = format!("{round} {writer}");
                            (save_document(path, text.as_bytes(), hash(before)) == Ok(Saved::Written)).then_some(text)
                        })
                    })
                    .collect();
                writers.into_iter().filter_map(|w| w.join().unwrap()).collect()
            });
            assert!(written.len() <= 1, "{written:?}");
            let now = fs::read_to_string(&path).unwrap();
            assert!(written.first().is_none_or(|text| *text == now), "{written:?}, and {now} is there");
        }
    }

    #[cfg(unix)]
    #[test]
    fn links_and_permissions_are_kept() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::write(at("file"), "one").unwrap();
        fs::set_permissions(at("file"), fs::Permissions::from_mode(0o640)).unwrap();
        symlink("file", at("link")).unwrap();
        assert_eq!(save_document(&at("link"), b"two", hash("one")), Ok(Saved::Written));
        let mode = fs::metadata(at("file")).unwrap().permissions().mode() & 0o777;
        assert_eq!((fs::read_to_string(at("file")).unwrap().as_str(), mode), ("two", 0o640));
        assert!(fs::symlink_metadata(at("link")).unwrap().is_symlink());
        symlink("gone", at("dangling")).unwrap();
        assert_eq!(save_document(&at("dangling"), b"x", Expected::Nothing), Ok(Saved::Written), "where the link leads");
        assert_eq!(fs::read_to_string(at("gone")).unwrap(), "x");
    }
}
