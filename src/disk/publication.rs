//! Publishing into a folder: all files are made in a hidden folder first, then exchanged for those from before.
//!
//! Invariant: at no moment do files of two publications lie side by side. The steps, each of which may be the last:
//! 1. new files are written into the hidden folder and flushed; nothing else has changed;
//! 2. the list names files from before and new ones, and says that it is incomplete;
//! 3. files from before move into the hidden folder; what was changed since stays;
//! 4. new files get their names, each only where its name is free;
//! 5. the list names the new files alone; the hidden folder goes.
//!
//! What is interrupted is known by the list, so that the next publishing replaces it.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::leftovers::{Staging, clear_leftovers, put_back};
use super::made::{LIST, MadeList, fingerprint, fingerprint_of, is_inside};
use super::replace::{Replace, way};
use super::write::{flush_folder, folder_of, move_new, not_saved};
use super::{FileProblem, Occupant, make_folder};

/// What publishing came to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Publication {
    /// The files are there, but for what was kept as it is: why, in sentences.
    Written {
        /// What was kept, and why.
        kept: Vec<String>,
        /// How many files are as they were made.
        files: usize,
    },
    /// It was stopped before anything changed.
    Stopped,
}

/// Writes files, named with `/` between folder and file, into a folder. They take the place of those that Spandrel made
/// there before and nobody changed since; with [`Replace::Asked`] of any file of their names. All others stay. It waits for
/// another publisher, and can be stopped until the exchange begins: then, and after an error, the folder is as it was.
///
/// # Errors
/// What the system says, in one line.
pub fn publish_into(
    folder: &Path,
    files: &[(String, Vec<u8>)],
    replace: Replace,
    is_wanted: &dyn Fn() -> bool,
) -> Result<Publication, FileProblem> {
    match Occupant::at(folder) {
        None | Some(Occupant::Folder) => {}
        Some(found @ Occupant::DanglingLink(_)) => return Err(FileProblem::new(folder, None, found.sentence())),
        Some(_) => {
            return Err(FileProblem::new(folder, None, "this is not a folder: choose a folder to publish into, such as out"));
        }
    }
    let is_new = fs::symlink_metadata(folder).is_err();
    make_folder(folder)?;
    let result = exchange_all(folder, files, replace, is_wanted);
    if is_new && !matches!(result, Ok(Publication::Written { .. })) {
        // Only an empty one goes.
        drop(fs::remove_dir(folder));
    }
    result
}

fn exchange_all(
    folder: &Path,
    files: &[(String, Vec<u8>)],
    replace: Replace,
    is_wanted: &dyn Fn() -> bool,
) -> Result<Publication, FileProblem> {
    let Some(staging) = Staging::take(folder, is_wanted)? else { return Ok(Publication::Stopped) };
    clear_leftovers(folder);
    let (before, list) = MadeList::read(folder)?;
    let exchange = Exchange::of(folder, files, &before, replace);
    if exchange.is_nothing(&before, list.as_deref()) {
        return Ok(exchange.outcome());
    }
    if !exchange.stage(folder, &staging, &before, list.as_deref(), is_wanted)? {
        return Ok(Publication::Stopped);
    }
    exchange.carry_out(folder, &staging, list.is_some())
}

/// What is to be exchanged.
#[derive(Default)]
struct Exchange<'a> {
    /// New files.
    puts: Vec<(&'a str, &'a [u8])>,
    /// Files that go, each with the fingerprint that it must have; none where the user agreed to any.
    takes: Vec<(String, Option<u64>)>,
    /// Folders that files lay in, or may have been about to.
    parents: BTreeSet<PathBuf>,
    /// Files that Spandrel made, once all is done.
    now: MadeList,
    /// What goes though it was on no list.
    agreed: MadeList,
    /// What stays in the way, in sentences.
    kept: BTreeSet<String>,
    /// How many files are as they were made.
    files: usize,
}

impl<'a> Exchange<'a> {
    fn of(folder: &Path, files: &'a [(String, Vec<u8>)], before: &MadeList, replace: Replace) -> Self {
        let parent = |name: &str| Path::new(name).parent().filter(|p| *p != Path::new("")).map(|p| folder.join(p));
        let names = before.all_names().chain(files.iter().map(|(name, _)| name.as_str()));
        let mut exchange = Self { parents: names.filter_map(parent).collect(), ..Self::default() };
        for (name, bytes) in files.iter().filter(|(name, _)| is_inside(name)) {
            exchange.judge(folder, name, bytes, before, replace);
        }
        let is_new = |name: &str| files.iter().any(|(new, _)| new == name);
        for name in before.all_names().filter(|name| !is_new(name)) {
            // What nobody changed goes; what somebody did is theirs now.
            let path = folder.join(name);
            if let Some(print) = fingerprint_of(&path).filter(|print| before.has(name, *print))
                && blocked(folder, name).is_none()
                && way(&path, Replace::Made, || true).is_ok()
            {
                exchange.takes.push((name.to_owned(), Some(print)));
            }
        }
        exchange
    }

    /// Decides on one file.
    fn judge(&mut self, folder: &Path, name: &'a str, bytes: &'a [u8], before: &MadeList, replace: Replace) {
        if let Some(in_the_way) = blocked(folder, name) {
            self.kept.insert(format!("{}: kept as it is: a folder of this name is needed; move it away", in_the_way.display()));
            return;
        }
        let path = folder.join(name);
        let print = fingerprint(bytes);
        let there = fingerprint_of(&path);
        if there == Some(print) {
            self.now.add(name, print);
            self.files += 1;
            return;
        }
        let is_made = there.is_some_and(|there| before.has(name, there));
        let is_link = fs::symlink_metadata(&path).is_ok_and(|about| about.is_symlink());
        let found = Occupant::at(&path);
        let gives_way = match &found {
            None => true,
            // Spandrel makes no links and no pipes: they are somebody's.
            Some(Occupant::Stream) => false,
            Some(_) if is_link && replace == Replace::Made => false,
            Some(_) => way(&path, replace, || is_made).is_ok(),
        };
        if !gives_way {
            let why = match found {
                Some(Occupant::File) | None if is_link => "it is a link".to_owned(),
                Some(Occupant::File) | None if before.names(name) => "it was changed since Spandrel made it".to_owned(),
                Some(Occupant::File) | None => "Spandrel did not make it".to_owned(),
                Some(Occupant::Protected) => "it is write-protected".to_owned(),
                Some(Occupant::DanglingLink(to)) => format!("it is a link to {}, which is not there", to.display()),
                Some(Occupant::Folder) => "it is a folder".to_owned(),
                Some(Occupant::Stream | Occupant::Other) => "it is not a file".to_owned(),
            };
            self.kept.insert(format!("{}: kept as it is, because {why}; move it away, and publish again", path.display()));
            return;
        }
        if found.is_some() {
            if let Some(there) = there.filter(|_| !is_made) {
                self.agreed.add(name, there);
            }
            self.takes.push((name.to_owned(), there.filter(|_| is_made)));
        }
        self.now.add(name, print);
        self.puts.push((name, bytes));
        self.files += 1;
    }

    /// Whether everything is there already, and the list says so.
    fn is_nothing(&self, before: &MadeList, list: Option<&[u8]>) -> bool {
        let is_listed = self.now == *before && list == Some(self.now.text(true).as_bytes());
        is_listed && self.puts.is_empty() && self.takes.is_empty()
    }

    /// Writes the new files and lists into the hidden folder. False where it is no longer wanted.
    fn stage(
        &self,
        folder: &Path,
        staging: &Staging,
        before: &MadeList,
        list: Option<&[u8]>,
        is_wanted: &dyn Fn() -> bool,
    ) -> Result<bool, FileProblem> {
        let mut both = before.clone();
        both.add_all(&self.now);
        both.add_all(&self.agreed);
        let lists = [
            (staging.list(BOTH), Some(both.text(false).into_bytes())),
            (staging.list(NOW), Some(self.now.text(true).into_bytes())),
            (staging.list(BEFORE), list.map(<[u8]>::to_vec)),
        ];
        for (path, bytes) in &lists {
            if let Some(bytes) = bytes {
                write_flushed(path, bytes).map_err(|e| not_saved(&folder.join(LIST), &e))?;
            }
        }
        for (name, bytes) in &self.puts {
            if !is_wanted() {
                return Ok(false);
            }
            let path = staging.new_files().join(name);
            make_folder(folder_of(&path))?;
            write_flushed(&path, bytes).map_err(|e| not_saved(&folder.join(name), &e))?;
        }
        make_folder(&staging.old_files())?;
        Ok(is_wanted())
    }

    /// Exchanges the files; after an error everything is put back.
    fn carry_out(mut self, folder: &Path, staging: &Staging, had_list: bool) -> Result<Publication, FileProblem> {
        let list = folder.join(LIST);
        let announced = if had_list { fs::rename(staging.list(BOTH), &list) } else { move_new(&staging.list(BOTH), &list) };
        announced.map_err(|e| not_saved(&list, &e))?;
        flush_folder(folder);
        let mut moved = Vec::new();
        let exchanged = self.exchange(folder, staging, &mut moved).and_then(|()| {
            flush_folder(folder);
            fs::rename(staging.list(NOW), &list).map_err(|e| not_saved(&list, &e))
        });
        if let Err(problem) = exchanged {
            for (from, to) in moved.iter().rev() {
                put_back(to, from);
            }
            let restored = if had_list { fs::rename(staging.list(BEFORE), &list) } else { fs::remove_file(&list) };
            drop(restored);
            self.remove_empty_folders();
            return Err(problem);
        }
        flush_folder(folder);
        self.remove_empty_folders();
        Ok(self.outcome())
    }

    /// A folder goes with the last file in it; one with anything in it stays, whoever put it there.
    fn remove_empty_folders(&self) {
        for parent in &self.parents {
            drop(fs::remove_dir(parent));
        }
    }

    /// Moves files from before out, and new ones in; notes each move.
    fn exchange(&mut self, folder: &Path, staging: &Staging, moved: &mut Vec<(PathBuf, PathBuf)>) -> Result<(), FileProblem> {
        let mut changed = BTreeSet::new();
        for (name, print) in &self.takes {
            let (from, to) = (folder.join(name), staging.old_files().join(name));
            make_folder(folder_of(&to))?;
            match move_new(&from, &to) {
                Err(error) if error.kind() == io::ErrorKind::NotFound => continue,
                result => result.map_err(|e| not_saved(&from, &e))?,
            }
            if print.is_some() && fingerprint_of(&to) != *print {
                // Changed in this very moment: it goes back.
                move_new(&to, &from).map_err(|e| not_saved(&from, &e))?;
                changed.insert(name.clone());
                continue;
            }
            moved.push((from, to));
        }
        let mut folders = BTreeSet::new();
        for (name, _) in &self.puts {
            let (from, to) = (staging.new_files().join(name), folder.join(name));
            make_folder(folder_of(&to))?;
            match move_new(&from, &to) {
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
                    let why = if changed.contains(*name) { "it was changed" } else { "it was put there" };
                    let path = to.display();
                    self.kept.insert(format!("{path}: kept as it is, because {why} meanwhile; move it away, and publish again"));
                    self.files -= 1;
                }
                result => {
                    result.map_err(|e| not_saved(&to, &e))?;
                    folders.insert(folder_of(&to).to_owned());
                    moved.push((from, to));
                }
            }
        }
        for folder in &folders {
            flush_folder(folder);
        }
        Ok(())
    }

    fn outcome(self) -> Publication {
        Publication::Written { kept: self.kept.into_iter().collect(), files: self.files }
    }
}

/// Names of the lists in the hidden folder.
const BOTH: &str = "list-of-both";
const NOW: &str = "list-of-now";
const BEFORE: &str = "list-from-before";

/// What stands in the place of a folder that a file needs: a file, or a link, which may lead elsewhere.
fn blocked(folder: &Path, name: &str) -> Option<PathBuf> {
    let parents = Path::new(name).ancestors().skip(1).filter(|p| *p != Path::new(""));
    let is_in_the_way = |path: &PathBuf| fs::symlink_metadata(path).is_ok_and(|about| !about.is_dir());
    parents.map(|parent| folder.join(parent)).find(is_in_the_way)
}

fn write_flushed(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create_new(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

#[cfg(test)]
#[path = "publication_tests.rs"]
mod tests;
