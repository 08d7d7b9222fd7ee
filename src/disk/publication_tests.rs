//! Publishing: whose files give way, and what is left when it is interrupted after any of its steps.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};

use super::super::names_in;
use super::*;

fn files(names: &[(&str, &str)]) -> Vec<(String, Vec<u8>)> {
    names.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec())).collect()
}

#[track_caller]
fn publish(folder: &Path, names: &[(&str, &str)]) -> Vec<String> {
    match publish_into(folder, &files(names), Replace::Made, &|| true).unwrap() {
        Publication::Written { kept, .. } => kept,
        Publication::Stopped => panic!("nobody stopped it"),
    }
}

/// Every file that is neither the list nor hidden, with its text.
fn texts(folder: &Path) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for name in names_in(folder).into_iter().filter(|n| n != LIST && !n.starts_with('.')) {
        let path = folder.join(&name);
        if path.is_dir() {
            found.extend(texts(&path).into_iter().map(|(inner, text)| (format!("{name}/{inner}"), text)));
        } else {
            found.insert(name, fs::read_to_string(&path).unwrap());
        }
    }
    found
}

fn as_texts(names: &[(&str, &str)]) -> BTreeMap<String, String> {
    names.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
}

#[test]
fn only_its_own_unchanged_files_are_overwritten_or_taken_away() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    fs::write(at("mine.txt"), "mine").unwrap();
    let kept = publish(folder.path(), &[("a.png", "one"), ("mine.txt", "theirs"), ("frames/1.png", "1"), ("frames/2.png", "2")]);
    assert_eq!(kept.len(), 1);
    assert!(kept[0].contains("mine.txt: kept as it is, because Spandrel did not make it"), "{kept:?}");
    assert_eq!(fs::read_to_string(at("mine.txt")).unwrap(), "mine");
    // Again, with other bytes, one file changed by hand and one no longer made.
    fs::write(at("frames/1.png"), "retouched").unwrap();
    let kept = publish(folder.path(), &[("a.png", "two"), ("frames/1.png", "new")]);
    assert_eq!(fs::read_to_string(at("a.png")).unwrap(), "two");
    assert_eq!(fs::read_to_string(at("frames/1.png")).unwrap(), "retouched");
    assert!(kept[0].contains("it was changed since Spandrel made it"), "{kept:?}");
    assert!(!at("frames/2.png").exists() && at("mine.txt").exists());
    // A folder of nothing but its own goes with them; this one holds what was retouched.
    publish(folder.path(), &[("more/1.png", "1")]);
    publish(folder.path(), &[]);
    assert!(!at("more").exists() && at("frames/1.png").exists() && !at("a.png").exists());
    // What the user agreed to gives way.
    let new = files(&[("mine.txt", "theirs"), ("frames/1.png", "new")]);
    let agreed = publish_into(folder.path(), &new, Replace::Asked, &|| true).unwrap();
    assert_eq!(agreed, Publication::Written { kept: Vec::new(), files: 2 });
    assert_eq!(texts(folder.path()), as_texts(&[("mine.txt", "theirs"), ("frames/1.png", "new")]));
    assert!(names_in(folder.path()).iter().all(|n| !n.starts_with('.')));
}

#[test]
fn neither_a_name_nor_the_list_reaches_outside() {
    let folder = tempfile::tempdir().unwrap();
    let inside = folder.path().join("inside");
    fs::create_dir(&inside).unwrap();
    let outside = folder.path().join("outside.txt");
    fs::write(&outside, "x").unwrap();
    let print = fingerprint(b"x");
    fs::write(inside.join(LIST), format!("# Made by Spandrel.\n{print:016x}  ../outside.txt\n")).unwrap();
    publish(&inside, &[("../outside.txt", "y"), ("/tmp/spandrel-none", "y"), ("ok.txt", "y")]);
    assert_eq!(fs::read_to_string(&outside).unwrap(), "x");
    assert!(inside.join("ok.txt").exists() && !Path::new("/tmp/spandrel-none").exists());
}

#[cfg(unix)]
#[test]
fn what_stands_in_the_way_stays_with_a_sentence() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("out");
    let at = |name: &str| to.join(name);
    fs::create_dir_all(at("folder.png")).unwrap();
    fs::create_dir(folder.path().join("elsewhere")).unwrap();
    fs::write(folder.path().join("theirs"), "theirs").unwrap();
    symlink("../theirs", at("link.png")).unwrap();
    symlink("gone", at("dangling.png")).unwrap();
    symlink("../elsewhere", at("moving")).unwrap();
    let new = [
        ("folder.png", "x"),
        ("link.png", "x"),
        ("dangling.png", "x"),
        ("moving/1.png", "x"),
        ("moving/2.png", "x"),
        ("protected.png", "x"),
    ];
    let kept = publish(&to, &new);
    let said = |words: &str| assert!(kept.iter().any(|k| k.contains(words)), "{words}: {kept:?}");
    said("folder.png: kept as it is, because it is a folder");
    said("link.png: kept as it is, because it is a link");
    said("dangling.png: kept as it is, because it is a link to gone, which is not there");
    said("moving: kept as it is: a folder of this name is needed");
    assert_eq!(kept.len(), 4, "{kept:?}");
    assert_eq!(fs::read_to_string(folder.path().join("theirs")).unwrap(), "theirs");
    assert!(names_in(&folder.path().join("elsewhere")).is_empty() && !folder.path().join("out/gone").exists());
    // What was made here and then protected was protected by somebody.
    fs::set_permissions(at("protected.png"), fs::Permissions::from_mode(0o444)).unwrap();
    let kept = publish(&to, &[("protected.png", "y")]);
    assert!(kept[0].contains("it is write-protected"), "{kept:?}");
    // A link that the user agreed to lose goes; what it leads to stays.
    publish_into(&to, &files(&[("link.png", "x")]), Replace::Asked, &|| true).unwrap();
    assert!(fs::symlink_metadata(at("link.png")).unwrap().is_file());
    assert_eq!(fs::read_to_string(folder.path().join("theirs")).unwrap(), "theirs");
    // The folder itself.
    for (name, words) in [("theirs", "not a folder"), ("out/dangling.png", "a link to gone")] {
        let path = folder.path().join(name);
        let problem = publish_into(&path, &files(&new), Replace::Asked, &|| true).unwrap_err().to_string();
        assert!(problem.contains(words), "{problem}");
    }
}

#[test]
fn it_is_stopped_before_anything_changes() {
    let folder = tempfile::tempdir().unwrap();
    let old = [("a.png", "one"), ("b.png", "one")];
    publish(folder.path(), &old);
    let asked = AtomicUsize::new(0);
    for most in 0..5 {
        asked.store(0, Ordering::Relaxed);
        let is_wanted = || asked.fetch_add(1, Ordering::Relaxed) < most;
        let stopped = publish_into(folder.path(), &files(&[("a.png", "two"), ("c.png", "two")]), Replace::Made, &is_wanted);
        if stopped != Ok(Publication::Stopped) {
            assert!(most > 2, "{most}: it asks before each file and before the exchange");
            break;
        }
        assert_eq!(texts(folder.path()), as_texts(&old));
        assert!(names_in(folder.path()).iter().all(|n| !n.starts_with('.')));
    }
    let new = folder.path().join("new");
    assert_eq!(publish_into(&new, &files(&old), Replace::Made, &|| false), Ok(Publication::Stopped));
    assert!(!new.exists());
}

/// Interrupted after each step, by an end without any warning: what is there belongs to one publication, the list says that
/// it is incomplete, strangers' files stay, and the next publishing makes it whole.
#[test]
fn an_interrupted_run_neither_mixes_nor_blocks() {
    let old = [("a.png", "one"), ("same.csv", "same"), ("gone.md", "one"), ("moving/1.png", "one"), ("moving/2.png", "one")];
    let new = [("a.png", "two"), ("same.csv", "same"), ("new.md", "two"), ("moving/1.png", "two"), ("still/1.png", "two")];
    let third = [("a.png", "three"), ("same.csv", "same")];
    let stranger = ("mine.txt", "mine");
    let mut after = 0_usize;
    loop {
        let is_last = [&new[..], &third[..]].map(|next| {
            let folder = tempfile::tempdir().unwrap();
            let folder = folder.path();
            fs::write(folder.join(stranger.0), stranger.1).unwrap();
            publish(folder, &old);
            // As far as `after` moves.
            let (new, before) = (files(&new), MadeList::read(folder).unwrap());
            let staging = Staging::take(folder, &|| true).unwrap().unwrap();
            let mut exchange = Exchange::of(folder, &new, &before.0, Replace::Made);
            assert!(exchange.stage(folder, &staging, &before.0, before.1.as_deref(), &|| true).unwrap());
            let animation = exchange.takes.len() + exchange.puts.len();
            exchange.puts.truncate(after.saturating_sub(exchange.takes.len()));
            exchange.takes.truncate(after);
            fs::rename(staging.list(BOTH), folder.join(LIST)).unwrap();
            exchange.exchange(folder, &staging, &mut Vec::new()).unwrap();
            staging.abandon();
            // What a reader finds.
            let mut found = texts(folder);
            assert_eq!(found.remove(stranger.0).as_deref(), Some(stranger.1));
            found.remove("same.csv");
            let whose: BTreeSet<&String> = found.values().collect();
            assert!(whose.len() <= 1, "after {after} moves: {found:?}");
            assert!(fs::read_to_string(folder.join(LIST)).unwrap().contains("# Incomplete"));
            // The next.
            assert_eq!(publish(folder, next), Vec::<String>::new(), "after {after} moves");
            let mut whole = as_texts(next);
            whole.insert(stranger.0.to_owned(), stranger.1.to_owned());
            assert_eq!(texts(folder), whole, "after {after} moves");
            let mut names = names_in(folder);
            names.retain(|n| folder.join(n).is_dir() || n.starts_with('.'));
            assert!(names.iter().all(|n| whole.keys().any(|k| k.starts_with(&format!("{n}/")))), "{names:?}");
            assert!(!fs::read_to_string(folder.join(LIST)).unwrap().contains("# Incomplete"));
            after == animation
        });
        if is_last == [true; 2] {
            break;
        }
        after += 1;
    }
    assert!(after > 6);
}

/// An error in the middle of the exchange: everything is as it was.
#[test]
fn after_an_error_everything_is_put_back() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let old = [("a.png", "one"), ("b.png", "one"), ("moving/1.png", "one")];
    publish(folder, &old);
    let list = fs::read(folder.join(LIST)).unwrap();
    let new = files(&[("a.png", "two"), ("b.png", "two"), ("still/1.png", "two")]);
    for lost in ["b.png", "still/1.png", "../list-of-now"] {
        let before = MadeList::read(folder).unwrap();
        let staging = Staging::take(folder, &|| true).unwrap().unwrap();
        let exchange = Exchange::of(folder, &new, &before.0, Replace::Made);
        assert!(exchange.stage(folder, &staging, &before.0, before.1.as_deref(), &|| true).unwrap());
        fs::remove_file(staging.new_files().join(lost)).unwrap();
        exchange.carry_out(folder, &staging, true).unwrap_err();
        drop(staging);
        assert_eq!(texts(folder), as_texts(&old), "{lost}");
        assert_eq!(fs::read(folder.join(LIST)).unwrap(), list, "{lost}");
        let mut names = names_in(folder);
        names.sort();
        assert_eq!(names, ["a.png", "b.png", LIST, "moving"]);
    }
}

/// What somebody puts there, or changes, between the decision and the exchange stays.
#[test]
fn what_changes_in_the_last_moment_stays() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    publish(folder, &[("a.png", "one"), ("b.png", "one")]);
    let new = files(&[("a.png", "two"), ("b.png", "two"), ("c.png", "two")]);
    let before = MadeList::read(folder).unwrap();
    let staging = Staging::take(folder, &|| true).unwrap().unwrap();
    let exchange = Exchange::of(folder, &new, &before.0, Replace::Made);
    assert!(exchange.stage(folder, &staging, &before.0, before.1.as_deref(), &|| true).unwrap());
    fs::write(folder.join("a.png"), "retouched").unwrap();
    fs::write(folder.join("c.png"), "mine").unwrap();
    let Publication::Written { kept, files } = exchange.carry_out(folder, &staging, true).unwrap() else { panic!() };
    drop(staging);
    assert_eq!((kept.len(), files), (2, 1), "{kept:?}");
    assert!(kept[0].contains("a.png: kept as it is, because it was changed meanwhile"), "{kept:?}");
    assert!(kept[1].contains("c.png: kept as it is, because it was put there meanwhile"), "{kept:?}");
    assert_eq!(texts(folder), as_texts(&[("a.png", "retouched"), ("b.png", "two"), ("c.png", "mine")]));
}

/// Many at once into one folder: each waits for its turn, and the last one's files are there, alone.
#[test]
fn publishers_at_once_do_not_mix() {
    let folder = tempfile::tempdir().unwrap();
    std::thread::scope(|scope| {
        for publisher in 0..4 {
            let folder = folder.path();
            scope.spawn(move || {
                for turn in 0..5 {
                    let text = format!("{publisher} {turn}");
                    let own = format!("of-{publisher}.png");
                    let kept = publish(folder, &[("a.png", &text), ("moving/1.png", &text), (&own, &text)]);
                    assert_eq!(kept, Vec::<String>::new());
                }
            });
        }
    });
    let found = texts(folder.path());
    assert_eq!(found.len(), 3, "{found:?}");
    assert_eq!(found.values().collect::<BTreeSet<_>>().len(), 1, "{found:?}");
}
