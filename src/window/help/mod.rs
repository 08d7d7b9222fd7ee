//! The user guide: the README and the pages of `docs/`, embedded in the program and shown under Help.
//!
//! It holds no text of its own. Invariant: every page of `docs/` is one of [`PAGES`], and every link from one page to
//! another leads to a page that is shown.

mod guide_ui;
mod markdown;

use super::labels::help as labels;

pub(crate) use guide_ui::guide_ui;

/// A page of the guide.
#[derive(Debug)]
pub(crate) struct Page {
    /// File name, which links lead to.
    pub(crate) file: &'static str,
    /// Title in the list of pages: the first heading of the page.
    pub(crate) title: &'static str,
    /// Its text, in Markdown.
    text: &'static str,
}

macro_rules! pages {
    ($($path:literal, $file:literal, $title:expr;)*) => {
        /// All pages, in the order of the list.
        pub(crate) static PAGES: &[Page] = &[$(Page {
            file: $file,
            title: $title,
            text: include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/", $path)),
        }),*];
    };
}

pages! {
    "README.md", "README.md", labels::SPANDREL;
    "docs/window.md", "window.md", labels::THE_WINDOW;
    "docs/assumptions.md", "assumptions.md", labels::UNCERTAINTY_AND_ASSUMPTIONS;
    "docs/figures.md", "figures.md", labels::FIGURES;
    "docs/frame-files.md", "frame-files.md", labels::FRAME_FILES;
    "docs/lineup-files.md", "lineup-files.md", labels::LINE_UP_FILES;
    "docs/command-line.md", "command-line.md", labels::COMMAND_LINE;
    "docs/json.md", "json.md", labels::JSON;
    "docs/keys.md", "keys.md", labels::OLD_AND_NEW_NAMES;
    "docs/publishing.md", "publishing.md", labels::PUBLISHING;
}

/// Place in [`PAGES`] of the page that a link leads to; `None` for a link out of the guide.
pub(crate) fn page_of_link(link: &str) -> Option<usize> {
    let path = link.split('#').next().unwrap_or_default();
    let file = path.rsplit('/').next().unwrap_or_default();
    let is_outside = path.contains("://");
    PAGES.iter().position(|page| !is_outside && page.file == file)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;
    use std::path::Path;

    use super::markdown::{Block, blocks};
    use super::*;

    #[test]
    fn every_page_of_docs_is_shown_under_its_own_heading() {
        let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs");
        let files = std::fs::read_dir(docs).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
        let all: BTreeSet<String> = files.chain(["README.md".to_owned()]).collect();
        let shown: BTreeSet<String> = PAGES.iter().map(|page| page.file.to_owned()).collect();
        assert_eq!(shown, all);
        for page in PAGES {
            let Some(Block::Heading(1, text)) = blocks(page.text).into_iter().next() else { panic!("{}", page.file) };
            assert_eq!(text.plain(), page.title);
        }
    }

    #[test]
    fn links_lead_to_pages() {
        assert_eq!(page_of_link("docs/json.md"), page_of_link("json.md"));
        assert_eq!(page_of_link("../README.md#cautions"), Some(0));
        for outside in ["LICENSE", "../DEVELOPERS.md", "https://example.org/json.md", ""] {
            assert_eq!(page_of_link(outside), None, "{outside}");
        }
    }
}
