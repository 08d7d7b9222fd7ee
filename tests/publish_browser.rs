//! What is published, opened in a browser: pictures painted alike by it and by this program, the page's layout, its table
//! that sorts, its policy, and what a checker of accessibility says of it.
//!
//! These need Chromium, and the last one axe-core (`npm pack axe-core`, unpacked, its `axe.min.js` named by `AXE_CORE`).
//! Where they are missing, that is said aloud and nothing is checked; with `CI` set, as `.ci/run` does, it fails.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::doc_markdown,
    reason = "what checks and measures may panic and write names in its comments"
)]

use std::io::Write;
use std::path::Path;
use std::process::Command;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};
use spandrel::drawing::sheet_scene;
use spandrel::lineup::{Block, Findings, Lineup, Shape, Sheet, SheetBackground, read_lineup};
use spandrel::publish::{sheet_page, sheet_pixels, sheet_size, sheet_svg};

/// Says what is not checked, past the harness, which would swallow it.
fn not_checked(why: &str) {
    assert!(std::env::var_os("CI").is_none(), "not checked in a browser: {why}");
    drop(writeln!(std::io::stderr(), "\n**** NOT CHECKED in a browser: {why} ****\n"));
}

fn chromium() -> Option<&'static str> {
    let is_there = |name: &&str| Command::new(name).arg("--version").output().is_ok_and(|o| o.status.success());
    let found = ["chromium", "chromium-browser", "google-chrome"].into_iter().find(is_there);
    if found.is_none() {
        not_checked("Chromium is missing; apt-get install chromium");
    }
    found
}

fn sample() -> Lineup {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-frames/village-library.lineup.ron");
    read_lineup(&std::fs::read(path).unwrap()).unwrap()
}

/// Runs the browser on a file; gives back what it wrote on standard output.
fn browse(chromium: &str, arguments: &[&str], file: &Path) -> String {
    let profile = tempfile::tempdir().unwrap();
    let output = Command::new(chromium)
        .args(["--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars"])
        .args(["--font-render-hinting=none", "--disable-lcd-text", "--no-first-run"])
        .arg(format!("--user-data-dir={}", profile.path().display()))
        .args(arguments)
        .arg(format!("file://{}", file.display()))
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// Red, green and blue of a PNG file.
fn decoded(bytes: &[u8]) -> (u32, u32, Vec<u8>) {
    let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().unwrap();
    let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
    let info = reader.next_frame(&mut pixels).unwrap();
    let samples = info.color_type.samples();
    assert!(samples >= 3 && info.bit_depth == png::BitDepth::Eight, "{info:?}");
    (info.width, info.height, pixels[..info.buffer_size()].chunks_exact(samples).flat_map(|p| [p[0], p[1], p[2]]).collect())
}

/// Half as many pixels across and down, each the mean of four.
fn halved(rgb: &[u8], width: u32) -> Vec<u8> {
    let row = width as usize * 3;
    let of = |pair: &[u8]| {
        (0..row / 2)
            .map(|i| i / 3 * 6 + i % 3)
            .map(|i| {
                let sum: u32 = [i, i + 3, row + i, row + i + 3].into_iter().map(|at| u32::from(pair[at])).sum();
                u8::try_from((sum + 2) / 4).unwrap()
            })
            .collect::<Vec<_>>()
    };
    rgb.chunks_exact(2 * row).flat_map(of).collect()
}

/// Mean difference of a channel, of 255, and the share of pixels of which a channel differs by more than a quarter.
fn difference(a: &[u8], b: &[u8]) -> (f64, f64) {
    assert_eq!(a.len(), b.len());
    let mean = a.iter().zip(b).map(|(a, b)| f64::from(a.abs_diff(*b))).sum::<f64>() / a.len() as f64;
    let far = a.chunks(3).zip(b.chunks(3)).filter(|(a, b)| a.iter().zip(*b).any(|(a, b)| a.abs_diff(*b) > 64)).count();
    (mean, far as f64 / (a.len() / 3) as f64)
}

#[test]
fn a_browser_paints_a_sheet_as_this_program_does() {
    let Some(chromium) = chromium() else { return };
    let lineup = sample();
    let findings = Findings::of(&lineup);
    let folder = tempfile::tempdir().unwrap();
    let mut painted = Vec::new();
    let all = [Block::Outline, Block::Steering, Block::Bags, Block::Weights, Block::Table, Block::Captions];
    for (shape, background, blocks) in [
        (Shape::Wide, SheetBackground::Light, &all[..]),
        (Shape::Wide, SheetBackground::Dark, &[Block::Outline, Block::Table, Block::Captions]),
        (Shape::Upright, SheetBackground::TransparentLight, &[Block::Bags, Block::Table]),
    ] {
        let sheet = Sheet { shape, background, contents: blocks.to_vec(), ..Sheet::default() };
        let scene = sheet_scene(&findings, &lineup, &sheet).scene;
        let (width, height) = sheet_size(&scene, &sheet);
        let (svg, shot) = (folder.path().join("sheet.svg"), folder.path().join("shot.png"));
        std::fs::write(&svg, sheet_svg(&scene, &sheet)).unwrap();
        let arguments = [format!("--window-size={width},{height}"), format!("--screenshot={}", shot.display())];
        // Twice as fine, for a browser puts letters on whole rows of its pixels.
        browse(chromium, &[&arguments[0], &arguments[1], "--force-device-scale-factor=2"], &svg);
        let (found_width, found_height, theirs) = decoded(&std::fs::read(&shot).unwrap());
        assert_eq!((found_width, found_height), (2 * width, 2 * height));
        let ours = sheet_pixels(&scene, &Sheet { width: Some(2 * width), ..sheet }).unwrap();
        // Where the ground is clear a browser paints white.
        let on_white = |p: &[u8]| {
            let over = |c: u8| {
                let (c, a) = (u32::from(c), u32::from(p[3]));
                u8::try_from((c * a + 255 * (255 - a) + 127) / 255).unwrap()
            };
            [over(p[0]), over(p[1]), over(p[2])]
        };
        let ours: Vec<u8> = ours.rgba.chunks_exact(4).flat_map(on_white).collect();
        let (ours, theirs) = (halved(&ours, 2 * width), halved(&theirs, 2 * width));
        let (mean, far) = difference(&ours, &theirs);
        drop(writeln!(
            std::io::stderr(),
            "{shape:?} {background:?}: mean difference {mean:.3} of 255; {:.3} % of pixels differ by more than a quarter",
            far * 100.0
        ));
        assert!(mean < MEAN && far < FAR, "{shape:?} {background:?}: {mean} {far}");
        painted.push((width, ours));
    }
    // The bound tells pictures apart: the same one three pixels aside is beyond it.
    let (width, picture) = &painted[0];
    let mut aside = picture.clone();
    for row in aside.chunks_mut(*width as usize * 3) {
        row.rotate_right(9);
    }
    let (mean, far) = difference(picture, &aside);
    drop(writeln!(std::io::stderr(), "three pixels aside: {mean:.3}, {:.3} %", far * 100.0));
    assert!(mean > 2.0 * MEAN && far > 2.0 * FAR, "{mean} {far}");
}

/// The browser puts letters on whole rows of its pixels and smooths edges by another rule; nothing else may differ. Measured
/// with Chromium 156: at most 0.76 and 0.12 %.
const MEAN: f64 = 1.0;
const FAR: f64 = 0.002;

/// The page with one more script, which its policy is told of, and what the document is once all have run.
fn with_script(chromium: &str, page: &str, script: &str, window: &str) -> serde_json::Value {
    let print = STANDARD.encode(Sha256::digest(script));
    let page = page.replacen("script-src ", &format!("script-src 'sha256-{print}' "), 1);
    let page = page.replacen("</body>", &format!("<script>{script}</script></body>"), 1);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("page.html");
    std::fs::write(&file, page).unwrap();
    let document = browse(chromium, &["--dump-dom", "--virtual-time-budget=20000", &format!("--window-size={window}")], &file);
    let found = document.split_once("<pre id=\"found\">").expect("the script has run").1.split_once("</pre>").unwrap().0;
    let found = found.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
    serde_json::from_str(&found).unwrap()
}

/// What a script tells: it stands at the end of the document.
const TELL: &str = "const tell = found => { const p = document.createElement('pre'); p.id = 'found'; \
                    p.textContent = JSON.stringify(found); document.body.append(p); };";

fn page(lineup: &Lineup, sheet: &Sheet) -> String {
    sheet_page(&Findings::of(lineup), lineup, sheet).unwrap()
}

#[test]
fn the_page_fits_its_window_and_its_table_sorts_under_its_own_policy() {
    let Some(chromium) = chromium() else { return };
    let sheet = Sheet { contents: Block::ALL.to_vec(), ..Sheet::default() };
    let page = page(&sample(), &sheet);
    let script = format!(
        "{TELL} const table = document.querySelector('table.sortable'); const heads = [...table.tHead.rows[0].cells];
        const column = heads.findIndex(h => h.textContent.startsWith('Trail'));
        const order = () => [...table.tBodies[0].rows].map(r => Number.parseFloat(r.cells[column].dataset.number));
        const press = () => {{ heads[column].firstElementChild.click(); return [order(), heads[column].getAttribute('aria-sort')]; }};
        const before = order(); const [up, is_up] = press(); const [down, is_down] = press();
        tell({{ before, up, down, is_up, is_down, wide: document.documentElement.scrollWidth, window: innerWidth,
               table: table.scrollWidth, room: table.parentElement.clientWidth }});"
    );
    for (window, table_fits) in [("1280,800", true), ("500,900", false)] {
        let found = with_script(chromium, &page, &script, window);
        let list = |key: &str| -> Vec<f64> { found[key].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect() };
        let mut expected = list("before");
        assert!(expected.len() > 2 && !expected.is_sorted(), "{found}");
        expected.sort_by(f64::total_cmp);
        assert_eq!(list("up"), expected);
        expected.reverse();
        assert_eq!(list("down"), expected);
        assert_eq!((found["is_up"].as_str(), found["is_down"].as_str()), (Some("ascending"), Some("descending")));
        let number = |key: &str| found[key].as_f64().unwrap();
        assert!(number("wide") <= number("window"), "the page is wider than its window: {found}");
        assert_eq!(number("table") <= number("room"), table_fits, "{found}");
    }
    // A script that the policy does not know does not run.
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("page.html");
    std::fs::write(&file, page.replacen("</body>", "<script>document.title = 'RUN'</script></body>", 1)).unwrap();
    assert!(!browse(chromium, &["--dump-dom"], &file).contains("<title>RUN</title>"));
}

/// axe-core's rules for WCAG 2.0 to 2.2, A and AA, and its best practices.
#[test]
fn a_checker_of_accessibility_finds_nothing() {
    let Some(chromium) = chromium() else { return };
    let Some(axe) = std::env::var_os("AXE_CORE").and_then(|path| std::fs::read_to_string(path).ok()) else {
        not_checked("axe-core is missing; npm pack axe-core, unpack it, and name its axe.min.js in AXE_CORE");
        return;
    };
    let run = format!(
        "{axe};{TELL} for (const d of document.querySelectorAll('details')) d.open = true;
        axe.run(document, {{ resultTypes: ['violations', 'incomplete'] }}).then(r => tell({{ passes: r.passes.length,
            version: r.testEngine.version,
            violations: r.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html.slice(0, 200)).slice(0, 3).join(' | ')),
            incomplete: r.incomplete.map(v => v.id + ': ' + v.nodes.map(n => n.target + ' ' + n.any.map(a => a.message)).slice(0, 3).join(' | ')) }}));"
    );
    let mut wild = sample();
    for entry in &mut wild.frames {
        let mut frameset = (*entry.frameset).clone();
        frameset.maker = "<script>alert(1)</script> \"' 🚲 הגה ".repeat(4);
        entry.frameset = std::sync::Arc::new(frameset);
        entry.shown = true;
    }
    for lineup in [sample(), wild] {
        for background in [SheetBackground::Light, SheetBackground::Dark] {
            let sheet = Sheet { contents: Block::ALL.to_vec(), background, ..Sheet::default() };
            let found = with_script(chromium, &page(&lineup, &sheet), &run, "1280,900");
            drop(writeln!(std::io::stderr(), "axe-core {} on {background:?}: {found}", found["version"]));
            assert!(found["passes"].as_u64().unwrap() > 15, "{found}");
            assert_eq!(found["violations"].as_array().unwrap().len(), 0, "{found}");
        }
    }
    // It does find what is wrong.
    let broken = page(&sample(), &Sheet::default()).replacen("<html lang=\"en\">", "<html>", 1);
    let found = with_script(chromium, &broken, &run, "1280,900");
    assert!(found["violations"].to_string().contains("html-has-lang"), "{found}");
}
