//! What the built program writes: nothing is replaced unasked, `-` is standard output, and what is in the way is said.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what checks may panic")]

use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn program(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_spandrel"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).args(arguments).stdin(Stdio::null());
    command
}

fn spandrel(arguments: &[&str]) -> Output {
    program(arguments).output().unwrap()
}

fn problems(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

const LINEUP: &str = "sample-frames/village-library.lineup.ron";
const FRAME: &str = "sample-frames/quern-halter.frame.ron";

/// A page that carries a comparison, and a table.
fn sources(folder: &Path) -> (PathBuf, PathBuf) {
    use base64::Engine;
    let inside = base64::engine::general_purpose::STANDARD.encode(fs::read(LINEUP).unwrap());
    let (page, table) = (folder.join("page.svg"), folder.join("table.csv"));
    fs::write(&page, format!("<svg><metadata id=\"comparison\">{inside}</metadata></svg>")).unwrap();
    fs::write(&table, "Size,S,M\nStack (mm),590,610\nReach (mm),380,390\nHead angle (deg),71,71.5\nChainstay (mm),445,445\n")
        .unwrap();
    (page, table)
}

/// Every command that writes one file, but for the file.
fn writers(page: &Path, table: &Path) -> Vec<(&'static str, Vec<String>)> {
    let words = |text: &str, file: &Path| -> Vec<String> {
        text.split(' ').map(|word| if word == "FILE" { file.to_string_lossy().into_owned() } else { word.to_owned() }).collect()
    };
    vec![
        ("a.pdf", words("pattern FILE --date 2026-10-02", Path::new(FRAME))),
        ("a.svg", words("pattern FILE --date 2026-10-02", Path::new(FRAME))),
        ("a.frame.ron", words("import FILE --maker Marrowby --model Drift", table)),
        ("a.lineup.ron", words("extract FILE", page)),
    ]
}

fn to(arguments: &[String], target: &str, more: &[&str]) -> Output {
    let mut all: Vec<&str> = arguments.iter().map(String::as_str).collect();
    all.extend(["--to", target]);
    all.extend(more);
    spandrel(&all)
}

#[test]
fn no_file_is_replaced_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let (page, table) = sources(folder.path());
    for (name, arguments) in writers(&page, &table) {
        let path = folder.path().join(name);
        let target = path.to_str().unwrap();
        fs::write(&path, "theirs").unwrap();
        let refused = to(&arguments, target, &[]);
        assert_eq!(refused.status.code(), Some(1), "{name}");
        let said = format!("{target}: this file exists already: choose another name, or add --replace\n");
        assert_eq!(problems(&refused), said);
        assert_eq!(fs::read_to_string(&path).unwrap(), "theirs");
        let agreed = to(&arguments, target, &["--replace"]);
        assert!(agreed.status.success(), "{}", problems(&agreed));
        let written = fs::read(&path).unwrap();
        assert_ne!(written, b"theirs");
        // And where there is none.
        fs::remove_file(&path).unwrap();
        assert!(to(&arguments, target, &[]).status.success());
        assert_eq!(fs::read(&path).unwrap(), written, "{name}");
    }
}

#[test]
fn a_dash_is_standard_output() {
    let folder = tempfile::tempdir().unwrap();
    let (page, table) = sources(folder.path());
    for (name, arguments) in writers(&page, &table) {
        let path = folder.path().join(name);
        assert!(to(&arguments, path.to_str().unwrap(), &[]).status.success());
        let written = fs::read(&path).unwrap();
        let format: &[&str] = if name == "a.svg" { &["--format", "svg"] } else { &[] };
        for standard in ["-", "/dev/stdout"] {
            let output = to(&arguments, standard, format);
            assert!(output.status.success() && output.stderr.is_empty(), "{name}: {}", problems(&output));
            assert!(output.stdout == written, "{name}: {standard}");
        }
        // Into a file that the shell made, and into a reader who has had enough.
        let redirected = folder.path().join("redirected");
        let mut all: Vec<&str> = arguments.iter().map(String::as_str).chain(["--to", "/dev/stdout"]).collect();
        all.extend(format);
        assert!(program(&all).stdout(fs::File::create(&redirected).unwrap()).status().unwrap().success());
        assert!(fs::read(&redirected).unwrap() == written, "{name}");
        let mut child = program(&all).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let mut out = child.stdout.take().unwrap();
        out.read_exact(&mut [0; 1]).unwrap();
        drop(out);
        let output = child.wait_with_output().unwrap();
        assert!(output.status.success() && output.stderr.is_empty(), "{name}: {}", problems(&output));
    }
    assert!(!Path::new(env!("CARGO_MANIFEST_DIR")).join("-").exists());
    let output = spandrel(&["publish", LINEUP, "--to", "-"]);
    assert_eq!(problems(&output), "-: several files are published: name a folder, such as --to out\n");
    let both = spandrel(&["import", table.to_str().unwrap(), "--maker", "M", "--model", "N", "--report", "--to", "-"]);
    assert!(problems(&both).contains("both write to standard output") && both.stdout.is_empty());
}

#[cfg(unix)]
#[test]
fn what_is_in_the_way_is_said_and_stays() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let (page, table) = sources(folder.path());
    let at = |name: &str| folder.path().join(name);
    fs::create_dir(at("folder.pdf")).unwrap();
    symlink("gone", at("dangling.pdf")).unwrap();
    fs::write(at("protected.pdf"), "theirs").unwrap();
    fs::set_permissions(at("protected.pdf"), fs::Permissions::from_mode(0o444)).unwrap();
    for (_, arguments) in writers(&page, &table).into_iter().filter(|(name, _)| *name != "a.svg") {
        for (name, says) in [
            ("folder.pdf", "this is a folder, not a file"),
            ("dangling.pdf", "this is a link to gone, which is not there"),
            ("protected.pdf", "this file is write-protected"),
            ("none/a.pdf", "cannot be saved: there is no folder"),
        ] {
            for more in [&[][..], &["--replace"]] {
                let output = to(&arguments, at(name).to_str().unwrap(), more);
                assert_eq!(output.status.code(), Some(1));
                let said = problems(&output);
                assert!(said.contains(says) && said.contains(name) && said.lines().count() == 1, "{arguments:?}: {said}");
            }
        }
        if Path::new("/dev/full").exists() {
            let more: &[&str] = if arguments[0] == "pattern" { &["--format", "pdf"] } else { &[] };
            assert!(problems(&to(&arguments, "/dev/full", more)).contains("the disk is full"));
            assert!(to(&arguments, "/dev/null", more).status.success());
        }
        // A link to a file is written through, when that was asked for.
        fs::write(at("theirs.pdf"), "theirs").unwrap();
        symlink("theirs.pdf", at("link.pdf")).unwrap();
        let link = at("link.pdf");
        assert!(problems(&to(&arguments, link.to_str().unwrap(), &[])).contains("exists already"));
        assert!(to(&arguments, link.to_str().unwrap(), &["--replace"]).status.success());
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink() && fs::read(at("theirs.pdf")).unwrap() != b"theirs");
        fs::remove_file(&link).unwrap();
    }
    assert_eq!(fs::read_to_string(at("protected.pdf")).unwrap(), "theirs");
    assert!(fs::read_dir(folder.path()).unwrap().all(|e| !e.unwrap().file_name().to_string_lossy().starts_with('.')));
}

#[test]
fn publishing_replaces_its_own_files_alone() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let target = out.to_str().unwrap();
    let small = ["--width", "320", "--height", "320", "--to", target];
    let publish = |more: &[&str]| spandrel(&[&["publish", FRAME][..], &small, more].concat());
    fs::create_dir(&out).unwrap();
    for name in ["outline.svg", "mine.txt"] {
        fs::write(out.join(name), "theirs").unwrap();
    }
    let first = publish(&[]);
    assert_eq!(first.status.code(), Some(1));
    let said = problems(&first);
    assert!(
        said.contains("outline.svg: kept as it is, because Spandrel did not make it") && said.contains("add --replace"),
        "{said}"
    );
    assert_eq!(fs::read_to_string(out.join("outline.svg")).unwrap(), "theirs");
    let figures = fs::read(out.join("figures.csv")).unwrap();
    fs::write(out.join("figures.csv"), "changed").unwrap();
    assert!(problems(&publish(&[])).contains("figures.csv: kept as it is, because it was changed since Spandrel made it"));
    let agreed = publish(&["--replace"]);
    assert!(agreed.status.success(), "{}", problems(&agreed));
    assert_eq!(fs::read(out.join("figures.csv")).unwrap(), figures);
    assert!(fs::read(out.join("outline.svg")).unwrap().starts_with(b"<svg"));
    assert_eq!(fs::read_to_string(out.join("mine.txt")).unwrap(), "theirs");
    // A sheet takes the place of what was published before.
    let sheet = spandrel(&["publish", LINEUP, "--sheet", "Square", "--still", "--to", target]);
    assert!(sheet.status.success(), "{}", problems(&sheet));
    assert!(!out.join("outline.svg").exists() && out.join("page.html").exists() && out.join("mine.txt").exists());
    assert!(fs::read_dir(&out).unwrap().all(|e| !e.unwrap().file_name().to_string_lossy().starts_with('.')));
}

#[test]
fn nothing_to_publish_is_a_problem() {
    let folder = tempfile::tempdir().unwrap();
    let (empty, out) = (folder.path().join("empty.lineup.ron"), folder.path().join("out"));
    fs::write(&empty, spandrel::lineup::write_lineup(&spandrel::lineup::Lineup::default()).unwrap()).unwrap();
    for more in [&[][..], &["--sheet", "Film"]] {
        let output = spandrel(&[&["publish", empty.to_str().unwrap(), "--to", out.to_str().unwrap()], more].concat());
        assert_eq!(output.status.code(), Some(1));
        assert!(problems(&output).ends_with("empty.lineup.ron: there are no frames to publish: add a frame to the line-up\n"));
        assert!(!out.exists());
    }
    let not_a_folder = folder.path().join("file");
    fs::write(&not_a_folder, "theirs").unwrap();
    let output = spandrel(&["publish", FRAME, "--width", "320", "--height", "320", "--to", not_a_folder.to_str().unwrap()]);
    assert!(problems(&output).contains("this is not a folder: choose a folder to publish into"));
}
