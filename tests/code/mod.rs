//! The project's own source, read as text: each file's code, without comments and without its tests; and the paths that
//! stand in it, each led to the file that it means.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// A source file of the library or of the program.
pub(crate) struct Source {
    /// The module at the top level that the file belongs to.
    pub(crate) module: String,
    /// Names of the modules that lead to it, itself last: `window`, `views`, `trust`.
    pub(crate) place: Vec<String>,
    /// The path under `src/`, for messages.
    pub(crate) path: PathBuf,
    /// Its code without comments and without its tests.
    pub(crate) code: String,
}

/// All source files but the two roots of the crates, in order of their paths.
pub(crate) fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    gather(&root, &root, &mut found);
    assert!(found.len() > 30, "the source is there");
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

fn gather(root: &Path, folder: &Path, found: &mut Vec<Source>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            gather(root, &path, found);
            continue;
        }
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let is_test = name == "tests.rs" || name.ends_with("_tests.rs");
        if path.extension().is_none_or(|e| e != "rs") || is_test || name == "main.rs" || name == "lib.rs" {
            continue;
        }
        let inside = path.strip_prefix(root).unwrap().to_owned();
        let mut place: Vec<String> = inside.with_extension("").iter().map(|s| s.to_string_lossy().into_owned()).collect();
        if place.last().is_some_and(|last| last == "mod") {
            place.pop();
        }
        let code = code_of(&fs::read_to_string(&path).unwrap());
        found.push(Source { module: place[0].clone(), place, path: inside, code });
    }
}

/// The code of a file: without lines of comment, and without what is compiled for tests alone. A module of tests beside
/// other code hides only itself.
pub(crate) fn code_of(text: &str) -> String {
    let mut code = String::new();
    let mut lines = text.lines().filter(|l| !l.trim_start().starts_with("//"));
    while let Some(line) = lines.next() {
        if line.trim_start() != "#[cfg(test)]" {
            code.push_str(line);
            code.push('\n');
            continue;
        }
        // What is formatted ends with a semicolon or a brace in the column in which it begins.
        let indent = line.len() - line.trim_start().len();
        let end = format!("{}}}", " ".repeat(indent));
        let mut is_first = true;
        for line in lines.by_ref() {
            let is_attribute = line.trim_start().starts_with("#[");
            if line == end || (is_first && !is_attribute && (line.ends_with(';') || line.ends_with('}') || line.ends_with(','))) {
                break;
            }
            is_first = is_first && is_attribute;
        }
    }
    code
}

/// The names that follow `prefix` in some code.
pub(crate) fn names_after<'a>(code: &'a str, prefix: &str) -> Vec<&'a str> {
    let is_name = |c: char| c.is_alphanumeric() || c == '_';
    code.split(prefix).skip(1).map(|rest| rest.split(|c| !is_name(c)).next().unwrap_or_default()).collect()
}

/// What a piece of code is made of, as far as paths go.
fn tokens(code: &str) -> Vec<&str> {
    let is_name = |c: char| c.is_alphanumeric() || c == '_';
    let mut found = Vec::new();
    let mut rest = code;
    while let Some(first) = rest.chars().next() {
        let length = if is_name(first) {
            rest.find(|c| !is_name(c)).unwrap_or(rest.len())
        } else if rest.starts_with("::") {
            2
        } else if first == '"' {
            string_length(rest)
        } else {
            first.len_utf8()
        };
        let (token, after) = rest.split_at(length);
        if !token.trim().is_empty() {
            found.push(token);
        }
        rest = after;
    }
    found
}

/// The length of a string literal with its marks.
fn string_length(text: &str) -> usize {
    let mut is_escaped = false;
    for (at, c) in text.char_indices().skip(1) {
        match c {
            _ if is_escaped => is_escaped = false,
            '\\' => is_escaped = true,
            '"' => return at + 1,
            _ => {}
        }
    }
    text.len()
}

fn is_name(token: &str) -> bool {
    token.chars().next().is_some_and(|c| c.is_alphabetic() || c == '_')
}

/// The paths that a `use` names, each with the name under which it is known afterwards.
fn use_tree(tokens: &[&str], at: &mut usize, before: &[String], found: &mut Vec<(String, Vec<String>)>) {
    let mut path = before.to_vec();
    while let Some(token) = tokens.get(*at).copied() {
        *at += 1;
        match token {
            "::" => {}
            "{" => {
                while tokens.get(*at).is_some_and(|t| *t != "}") {
                    use_tree(tokens, at, &path, found);
                    if tokens.get(*at) == Some(&",") {
                        *at += 1;
                    }
                }
                *at += 1;
                return;
            }
            "as" => {
                let name = tokens.get(*at).copied().unwrap_or("_");
                *at += 1;
                found.push((name.to_owned(), path));
                return;
            }
            "}" | "," | ";" => {
                *at -= 1;
                break;
            }
            "self" if !path.is_empty() => {}
            name => path.push(name.to_owned()),
        }
    }
    if let Some(last) = path.last().cloned() {
        found.push((last, path));
    }
}

/// A file's `use`s, and every other path of two or more names in it, as they are written.
pub(crate) struct Paths {
    uses: Vec<(String, Vec<String>)>,
    inline: Vec<Vec<String>>,
}

/// Reads them off some code.
pub(crate) fn paths(code: &str) -> Paths {
    let tokens = tokens(code);
    let mut all = Paths { uses: Vec::new(), inline: Vec::new() };
    let mut at = 0;
    while let Some(token) = tokens.get(at).copied() {
        at += 1;
        if token == "mod" {
            at += 1;
        } else if token == "use" {
            use_tree(&tokens, &mut at, &[], &mut all.uses);
        } else if is_name(token) {
            if tokens.get(at) == Some(&"!") {
                // A macro.
                continue;
            }
            let mut path = vec![token.to_owned()];
            while tokens.get(at) == Some(&"::") && tokens.get(at + 1).is_some_and(|t| is_name(t)) {
                path.push(tokens[at + 1].to_owned());
                at += 2;
            }
            all.inline.push(path);
        }
    }
    all
}

/// Which file knows which: paths led through re-exports to where a thing is defined.
pub(crate) struct Graph {
    names: BTreeSet<Vec<String>>,
    aliases: BTreeMap<Vec<String>, BTreeMap<String, Vec<String>>>,
}

impl Graph {
    /// Reads off all files what is known under which name.
    pub(crate) fn of(sources: &[Source]) -> Self {
        let mut names: BTreeSet<Vec<String>> = sources.iter().map(|s| s.place.clone()).collect();
        names.insert(Vec::new());
        let mut graph = Self { names, aliases: BTreeMap::new() };
        for source in sources {
            let uses = paths(&source.code).uses;
            let known = uses.into_iter().filter_map(|(name, path)| Some((name, graph.absolute(&source.place, &path, false)?)));
            let known = known.collect();
            graph.aliases.insert(source.place.clone(), known);
        }
        graph
    }

    /// A path from the crate's root; none where it leads to another crate.
    fn absolute(&self, place: &[String], path: &[String], is_inline: bool) -> Option<Vec<String>> {
        let first = path.first()?.as_str();
        if first == "crate" || first == "spandrel" {
            return Some(path[1..].to_vec());
        }
        if first == "super" || first == "self" {
            let ups = path.iter().take_while(|s| *s == "super").count();
            let rest = path.iter().skip_while(|s| *s == "super" || *s == "self");
            let kept = place.len().checked_sub(ups)?;
            return Some(place[..kept].iter().chain(rest).cloned().collect());
        }
        let child: Vec<String> = place.iter().chain([&path[0]]).cloned().collect();
        if self.names.contains(&child) {
            return Some(place.iter().chain(path).cloned().collect());
        }
        let known = self.aliases.get(place).and_then(|a| a.get(first)).filter(|_| is_inline)?;
        Some(known.iter().chain(&path[1..]).cloned().collect())
    }

    /// The place of the file in which what an absolute path names is defined; none where it names a module and no more.
    fn home(&self, path: &[String], depth: usize) -> Option<Vec<String>> {
        let mut module = Vec::new();
        for (at, name) in path.iter().enumerate() {
            let mut inner: Vec<String> = module.clone();
            inner.push(name.clone());
            if self.names.contains(&inner) {
                module = inner;
                continue;
            }
            let known = self.aliases.get(&module).and_then(|a| a.get(name)).filter(|_| depth < 8);
            return match known {
                Some(known) => self.home(&known.iter().chain(&path[at + 1..]).cloned().collect::<Vec<_>>(), depth + 1),
                None => Some(module),
            };
        }
        None
    }

    /// The modules at the top level that a file names, through `crate::`, through `super::`, or by their own names.
    pub(crate) fn modules_named(&self, source: &Source) -> BTreeSet<String> {
        let paths = paths(&source.code);
        let uses = paths.uses.iter().filter_map(|(_, path)| self.absolute(&source.place, path, false));
        let inline = paths.inline.iter().filter(|p| p.len() > 1).filter_map(|p| self.absolute(&source.place, p, true));
        let named: BTreeSet<String> = uses.chain(inline).filter_map(|path| path.first().cloned()).collect();
        named.into_iter().filter(|name| self.names.contains(&vec![name.clone()])).collect()
    }

    /// The places of the files that a file knows.
    pub(crate) fn known_to(&self, source: &Source) -> BTreeSet<Vec<String>> {
        let paths = paths(&source.code);
        let is_front = source.path.ends_with("mod.rs");
        // A front hands on what its folder holds: such a `use` is a name, and knows nothing.
        let uses = paths.uses.iter().filter(|(name, path)| {
            let leads_inside = self.absolute(&source.place, path, false).is_some_and(|p| p.starts_with(&source.place));
            !(is_front && leads_inside && !paths.inline.iter().any(|p| p[0] == *name))
        });
        let uses = uses.filter_map(|(_, path)| self.absolute(&source.place, path, false));
        let inline = paths.inline.iter().filter(|p| p.len() > 1).filter_map(|p| self.absolute(&source.place, p, true));
        let homes = uses.chain(inline).filter_map(|path| self.home(&path, 0));
        homes.filter(|home| !home.is_empty() && *home != source.place).collect()
    }
}

/// The circles of a graph: groups of files each of which leads to each other, of two or more, larger ones first.
pub(crate) fn circles(known: &BTreeMap<Vec<String>, BTreeSet<Vec<String>>>) -> Vec<Vec<Vec<String>>> {
    let reach = |from: &Vec<String>| {
        let mut reached: BTreeSet<&Vec<String>> = BTreeSet::new();
        let mut open: Vec<&Vec<String>> = known.get(from).into_iter().flatten().collect();
        while let Some(next) = open.pop() {
            if reached.insert(next) {
                open.extend(known.get(next).into_iter().flatten());
            }
        }
        reached
    };
    let reached: BTreeMap<&Vec<String>, BTreeSet<&Vec<String>>> = known.keys().map(|place| (place, reach(place))).collect();
    let mut found: BTreeSet<Vec<Vec<String>>> = BTreeSet::new();
    for (place, to) in &reached {
        let circle: Vec<Vec<String>> = to
            .iter()
            .filter(|other| reached.get(**other).is_some_and(|back| back.contains(*place)))
            .map(|o| (*o).clone())
            .collect();
        if circle.len() > 1 {
            found.insert(circle);
        }
    }
    let mut found: Vec<_> = found.into_iter().collect();
    found.sort_by_key(|circle| std::cmp::Reverse(circle.len()));
    found
}
