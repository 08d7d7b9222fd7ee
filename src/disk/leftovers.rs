//! What an interrupted writer left in a folder: new files that never got their name, and the hidden folder in which
//! publishing makes its files. Both are locked while their writer lives; where the lock is free, they are cleared.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};

use super::lock::Unlocked;
use super::made::{MadeList, fingerprint_of};
use super::write::{folder_of, move_new, not_saved};
use super::{ContentHash, FileProblem, Lock, content_hash};

/// What the name of a new file begins with, before six letters and digits.
pub(super) const NEW_BEGINS: &str = ".spandrel-";
/// What it ends with.
pub(super) const NEW_ENDS: &str = ".part";
/// Name of the hidden folder.
const STAGING: &str = ".spandrel-publish";
/// How long another publisher is waited for.
const PATIENCE: Duration = Duration::from_secs(20);

/// Clears what interrupted writers left in a folder. What cannot be cleared is left to the next time.
pub(super) fn clear_leftovers(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let Some(name) = name.to_str().filter(|name| name.starts_with(NEW_BEGINS)) else { continue };
        let kind = entry.file_type();
        if is_new_file(name) && kind.as_ref().is_ok_and(fs::FileType::is_file) {
            // Held until the file is gone: its writer, if it has just begun, sees that and makes another.
            if let Ok(file) = File::open(entry.path())
                && file.try_lock().is_ok()
            {
                drop(fs::remove_file(entry.path()));
            }
        } else if let Some(exchanged) = ExchangedName::read(name)
            && kind.as_ref().is_ok_and(fs::FileType::is_file)
        {
            if let Ok(file) = File::open(entry.path())
                && file.try_lock().is_ok()
                && let Some(hash) = content_hash(&entry.path())
            {
                if exchanged.knows(hash) {
                    drop(fs::remove_file(entry.path()));
                } else {
                    put_back(&entry.path(), &folder.join(exchanged.target));
                }
            }
        } else if name == STAGING && kind.is_ok_and(|k| k.is_dir()) {
            let path = entry.path();
            let lock = path.join("lock");
            if let Ok(Some(held)) = Lock::try_take(&lock)
                && held.is_at(&lock)
            {
                drop(Staging { path, _lock: held });
            }
        }
    }
}

fn is_new_file(name: &str) -> bool {
    let middle = name.strip_prefix(NEW_BEGINS).and_then(|rest| rest.strip_suffix(NEW_ENDS));
    middle.is_some_and(is_random)
}

fn is_random(letters: &str) -> bool {
    letters.len() == 6 && letters.bytes().all(|b| b.is_ascii_alphanumeric())
}

/// The name of a file that is exchanged for a document: with the document's name and the hashes of the only bytes that may
/// be thrown away from under it, the new ones and those that were expected there.
pub(super) struct ExchangedName<'a> {
    known: [&'a str; 2],
    /// The document's name.
    target: &'a str,
}

impl<'a> ExchangedName<'a> {
    /// How many digits of a hash a name holds.
    const DIGITS: usize = 16;
    /// The longest name that disks take, bytes.
    const LONGEST: usize = 255;

    /// Such a name for a new file; `None` where the document's name is too long for it or no text.
    pub(super) fn of(new: &Path, target: &Path, ours: ContentHash, expected: ContentHash) -> Option<String> {
        let begin = new.file_name()?.to_str()?.strip_suffix(NEW_ENDS)?;
        let digits = |hash: ContentHash| hash.hex().chars().take(Self::DIGITS).collect::<String>();
        let name = format!("{begin}-{}-{}-{}{NEW_ENDS}", digits(ours), digits(expected), target.file_name()?.to_str()?);
        (name.len() <= Self::LONGEST).then_some(name)
    }

    fn read(name: &'a str) -> Option<Self> {
        let middle = name.strip_prefix(NEW_BEGINS)?.strip_suffix(NEW_ENDS)?;
        let mut parts = middle.splitn(4, '-');
        let (random, ours, expected, target) = (parts.next()?, parts.next()?, parts.next()?, parts.next()?);
        let is_hash = |text: &str| text.len() == Self::DIGITS && text.bytes().all(|b| b.is_ascii_hexdigit());
        (is_random(random) && is_hash(ours) && is_hash(expected) && !target.is_empty())
            .then_some(Self { known: [ours, expected], target })
    }

    fn knows(&self, hash: ContentHash) -> bool {
        self.known.iter().any(|known| hash.hex().starts_with(known))
    }
}

/// The hidden folder in which one publisher at a time makes its files. It goes when this is dropped.
pub(super) struct Staging {
    path: PathBuf,
    _lock: Lock,
}

impl Staging {
    /// Takes the hidden folder of a folder; waits for another publisher for a while. What an interrupted one left is
    /// cleared. `None` where it is no longer wanted.
    ///
    /// # Errors
    /// The folder cannot be written to, another publisher takes too long, or the disk knows no locks.
    pub(super) fn take(folder: &Path, is_wanted: &dyn Fn() -> bool) -> Result<Option<Self>, FileProblem> {
        Self::take_by(&Lock::take_or_tell, folder, is_wanted)
    }

    fn take_by(
        take_lock: &dyn Fn(&Path) -> Result<Option<Lock>, Unlocked>,
        folder: &Path,
        is_wanted: &dyn Fn() -> bool,
    ) -> Result<Option<Self>, FileProblem> {
        let path = folder.join(STAGING);
        let lock = path.join("lock");
        let began = Instant::now();
        let mut failures = 0;
        while is_wanted() {
            match fs::create_dir(&path) {
                Err(error) if error.kind() != io::ErrorKind::AlreadyExists => {
                    return Err(FileProblem { path: folder.to_owned(), ..not_saved(&path, &error) });
                }
                _ => {}
            }
            if !fs::symlink_metadata(&path).map_or(true, |about| about.is_dir()) {
                let sentence = "Spandrel makes its files in a folder of this name: move what is here away";
                return Err(FileProblem::new(&path, None, sentence));
            }
            match take_lock(&lock) {
                Ok(Some(held)) if held.is_at(&lock) => {
                    let staging = Self { path, _lock: held };
                    staging.clear_inside();
                    return Ok(Some(staging));
                }
                // The one before took it away while it was opened here.
                Ok(Some(_)) => {}
                // It may have gone between the two steps; but not many times over.
                Err(unlocked) if unlocked.knows_no_locks => {
                    drop(fs::remove_file(&lock));
                    drop(fs::remove_dir(&path));
                    let sentence = "this disk has no file locks, which keep two Spandrels from mixing their files: \
                                    publish into a folder on another disk, and copy the files from there";
                    return Err(FileProblem::new(folder, None, sentence));
                }
                Err(unlocked) if failures > 20 => return Err(unlocked.problem),
                Err(_) => failures += 1,
                Ok(None) if began.elapsed() > PATIENCE => {
                    let sentence = "another Spandrel is publishing into this folder: wait until it has ended, or choose another";
                    return Err(FileProblem::new(folder, None, sentence));
                }
                Ok(None) => {}
            }
            sleep(Duration::from_millis(20));
        }
        Ok(None)
    }

    /// Where new files lie until they get their names.
    pub(super) fn new_files(&self) -> PathBuf {
        self.path.join("new")
    }

    /// Where files from before lie until the new ones have their names.
    pub(super) fn old_files(&self) -> PathBuf {
        self.path.join("old")
    }

    /// Where a list lies until it gets its name.
    pub(super) fn list(&self, name: &str) -> PathBuf {
        self.path.join(name)
    }

    /// Leaves everything as a publisher does that is killed.
    #[cfg(test)]
    pub(super) fn abandon(mut self) {
        self.path = PathBuf::from("/nowhere");
    }

    /// Takes everything but the lock away. While the list is incomplete, a file that was moved out of the folder and is not
    /// on it goes back first: it was changed at the last moment, and its publisher was interrupted before it put it back.
    fn clear_inside(&self) {
        let folder = folder_of(&self.path);
        if let Ok((list, Some(bytes))) = MadeList::read(folder)
            && MadeList::is_incomplete(&bytes)
        {
            for (name, path) in files_in(&self.old_files()) {
                if fingerprint_of(&path).is_some_and(|print| !list.has(&name, print)) {
                    put_back(&path, &folder.join(name));
                }
            }
        }
        for entry in fs::read_dir(&self.path).into_iter().flatten().flatten().filter(|e| e.file_name() != "lock") {
            let is_folder = entry.file_type().is_ok_and(|kind| kind.is_dir());
            drop(if is_folder { fs::remove_dir_all(entry.path()) } else { fs::remove_file(entry.path()) });
        }
    }
}

impl Drop for Staging {
    fn drop(&mut self) {
        self.clear_inside();
        drop(fs::remove_file(self.path.join("lock")));
        drop(fs::remove_dir(&self.path));
    }
}

/// Puts a file back where it came from, or beside that where the name is taken.
pub(super) fn put_back(from: &Path, to: &Path) {
    drop(fs::create_dir_all(folder_of(to)));
    let mut beside = to.as_os_str().to_owned();
    beside.push(".kept");
    for place in [to, Path::new(&beside)] {
        if move_new(from, place).is_ok() {
            return;
        }
    }
}

/// All files under a folder, by their names from there with `/` between.
fn files_in(folder: &Path) -> Vec<(String, PathBuf)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        match entry.file_type() {
            Ok(kind) if kind.is_dir() => {
                found.extend(files_in(&entry.path()).into_iter().map(|(inner, path)| (format!("{name}/{inner}"), path)));
            }
            _ => found.push((name, entry.path())),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::made::{LIST, fingerprint};
    use super::super::save;
    use super::*;

    #[test]
    fn what_the_dead_left_is_cleared_and_the_living_are_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        for name in [".spandrel-dead01.part", ".spandrel-live01.part", ".spandrel-mine", ".spandrel-longer-than.part"] {
            fs::write(at(name), "x").unwrap();
        }
        fs::create_dir_all(at(".spandrel-publish/new/moving")).unwrap();
        fs::write(at(".spandrel-publish/new/moving/1.png"), "x").unwrap();
        let living = File::open(at(".spandrel-live01.part")).unwrap();
        living.lock().unwrap();
        let publisher = Lock::try_take(&at(".spandrel-publish/lock")).unwrap().unwrap();
        save(&at("a.csv"), b"x").unwrap();
        assert!(!at(".spandrel-dead01.part").exists());
        for name in
            [".spandrel-live01.part", ".spandrel-mine", ".spandrel-longer-than.part", ".spandrel-publish/new/moving/1.png"]
        {
            assert!(at(name).exists(), "{name}");
        }
        drop((publisher, living));
        save(&at("a.csv"), b"x").unwrap();
        let mut names = super::super::names_in(folder.path());
        names.sort();
        assert_eq!(names, [".spandrel-longer-than.part", ".spandrel-mine", "a.csv"]);
    }

    #[test]
    fn the_hidden_folder_has_one_owner_and_goes_with_it() {
        let folder = tempfile::tempdir().unwrap();
        let staging = Staging::take(folder.path(), &|| true).unwrap().unwrap();
        let asked = std::cell::Cell::new(0);
        let few = || {
            asked.set(asked.get() + 1);
            asked.get() < 4
        };
        assert!(Staging::take(folder.path(), &few).unwrap().is_none(), "it waits while it is wanted");
        drop(staging);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
        assert!(Staging::take(folder.path(), &|| true).unwrap().is_some());
        fs::write(folder.path().join(STAGING), "mine").unwrap();
        let problem = Staging::take(folder.path(), &|| true).err().unwrap().to_string();
        assert!(problem.contains("move what is here away"), "{problem}");
    }

    #[test]
    fn a_disk_without_locks_is_told_at_once_and_nothing_is_left() {
        let folder = tempfile::tempdir().unwrap();
        let tries = std::cell::Cell::new(0);
        let without = |lock: &Path| {
            tries.set(tries.get() + 1);
            fs::write(lock, "").unwrap();
            Err(Unlocked { problem: FileProblem::new(lock, None, "cannot be locked"), knows_no_locks: true })
        };
        let problem = Staging::take_by(&without, folder.path(), &|| true).err().unwrap();
        assert_eq!(problem.path, folder.path());
        let expected = "this disk has no file locks, which keep two Spandrels from mixing their files: publish into a folder \
                        on another disk, and copy the files from there";
        assert_eq!((problem.sentence.as_str(), tries.get()), (expected, 1));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    /// Many take it one after the other; no two have it at once.
    #[test]
    fn no_two_have_it_at_once() {
        let folder = tempfile::tempdir().unwrap();
        let owners = std::sync::atomic::AtomicUsize::new(0);
        std::thread::scope(|scope| {
            for _ in 0..4 {
                scope.spawn(|| {
                    for _ in 0..20 {
                        let staging = Staging::take(folder.path(), &|| true).unwrap().unwrap();
                        assert_eq!(owners.fetch_add(1, std::sync::atomic::Ordering::SeqCst), 0);
                        fs::write(staging.list("x"), "x").unwrap();
                        std::thread::yield_now();
                        assert!(staging.list("x").exists());
                        owners.fetch_sub(1, std::sync::atomic::Ordering::SeqCst);
                        drop(staging);
                    }
                });
            }
        });
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn a_file_that_was_changed_at_the_last_moment_goes_back() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        let mut list = MadeList::default();
        list.add("a.png", fingerprint(b"a"));
        fs::write(at(LIST), list.text(false)).unwrap();
        fs::create_dir_all(at(".spandrel-publish/old/moving")).unwrap();
        for (name, text) in [("a.png", "a"), ("b.png", "retouched"), ("moving/1.png", "retouched")] {
            fs::write(at(".spandrel-publish/old").join(name), text).unwrap();
        }
        fs::write(at("b.png"), "another").unwrap();
        clear_leftovers(folder.path());
        assert!(!at("a.png").exists() && !at(".spandrel-publish").exists());
        assert_eq!(fs::read_to_string(at("moving/1.png")).unwrap(), "retouched");
        assert_eq!(fs::read_to_string(at("b.png.kept")).unwrap(), "retouched");
        assert_eq!(fs::read_to_string(at("b.png")).unwrap(), "another");
    }
}
