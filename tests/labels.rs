//! What the window says stands in `src/window/labels/` alone, and what drawings say in `src/words/`: no other file of the
//! window, and none of `src/drawing/`, holds a text that a reader sees.
//!
//! The sources are parsed. Of all literals outside tests, these are no texts for a reader, each by a rule:
//! - what has no letter beside its values: `"{}: {}"`, `"×"`;
//! - the name or the ending of a file: `"README.md"`, `".lineup.ron"`, `"{name}.png"`;
//! - an id of the toolkit: what `Id`, `Grid` and `Panel` are made from, what goes to a parameter or a field called `id` or
//!   `salt`, and a constant whose name ends with `_ID`;
//! - what is looked for and not shown: patterns, arguments of `contains`, `strip_suffix` and the like, and names of
//!   variables of the environment (a parameter called `variable`);
//! - the name of a typeface in its file: what a function called `family` gives.

#![allow(clippy::unwrap_used, reason = "what checks may panic")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use syn::punctuated::Punctuated;
use syn::visit::{self, Visit};
use syn::{Attribute, Expr, FnArg, Lit, Macro, Pat, Token};

/// Parameters that take no text for a reader.
const UNREAD: [&str; 3] = ["id", "salt", "variable"];
/// Functions of the toolkit whose first argument is an id.
const MAKES_ID: [&str; 4] = ["unique", "with", "id_salt", "from_id_salt"];
/// Types of the toolkit that are made from an id.
const MADE_FROM_ID: [&str; 3] = ["Id", "Grid", "Panel"];
/// Methods whose argument is looked for in a text.
const LOOKS_FOR: [&str; 7] =
    ["contains", "starts_with", "ends_with", "strip_prefix", "strip_suffix", "eq_ignore_ascii_case", "split_once"];
/// Macros whose literals name files and variables, or are patterns.
const READS_FILES: [&str; 5] = ["include_str", "include_bytes", "concat", "env", "matches"];
/// Endings of the files that the window reads and writes.
const ENDINGS: [&str; 10] = ["ron", "svg", "png", "pdf", "csv", "tsv", "tab", "txt", "xlsx", "md"];

/// A place of an argument of the window's own functions that takes no text for a reader.
type Place = (String, usize);

fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|a| a.path().is_ident("cfg") && a.parse_args::<syn::Path>().is_ok_and(|p| p.is_ident("test")))
}

/// Gathers which arguments of functions are ids and the like.
#[derive(Default)]
struct Functions {
    unread: BTreeSet<Place>,
}

impl<'a> Visit<'a> for Functions {
    fn visit_signature(&mut self, signature: &'a syn::Signature) {
        let typed = signature.inputs.iter().filter_map(|input| match input {
            FnArg::Typed(typed) => Some(&*typed.pat),
            FnArg::Receiver(_) => None,
        });
        for (at, pattern) in typed.enumerate() {
            if let Pat::Ident(name) = pattern
                && UNREAD.iter().any(|unread| name.ident == unread)
            {
                self.unread.insert((signature.ident.to_string(), at));
            }
        }
    }
}

/// Gathers the texts of one file that a reader would see.
struct Texts<'f> {
    unread: &'f BTreeSet<Place>,
    found: Vec<String>,
}

impl Texts<'_> {
    fn text(&mut self, text: &str) {
        if is_read(text) {
            self.found.push(text.to_owned());
        }
    }

    fn arguments(&mut self, name: &str, of: Option<&str>, arguments: &Punctuated<Expr, Token![,]>) {
        for (at, argument) in arguments.iter().enumerate() {
            let is_id = at == 0 && (MAKES_ID.contains(&name) || of.is_some_and(|of| MADE_FROM_ID.contains(&of)));
            let is_unread = self.unread.contains(&(name.to_owned(), at));
            if !(is_id || is_unread || LOOKS_FOR.contains(&name)) {
                self.visit_expr(argument);
            }
        }
    }
}

impl<'a> Visit<'a> for Texts<'_> {
    fn visit_item(&mut self, item: &'a syn::Item) {
        let attributes = match item {
            syn::Item::Mod(item) => &item.attrs,
            syn::Item::Fn(item) => &item.attrs,
            syn::Item::Use(item) => &item.attrs,
            syn::Item::Impl(item) => &item.attrs,
            syn::Item::Const(item) => &item.attrs,
            _ => return visit::visit_item(self, item),
        };
        if !is_test(attributes) {
            visit::visit_item(self, item);
        }
    }

    fn visit_item_fn(&mut self, item: &'a syn::ItemFn) {
        if item.sig.ident != "family" {
            visit::visit_item_fn(self, item);
        }
    }

    fn visit_item_const(&mut self, item: &'a syn::ItemConst) {
        if !item.ident.to_string().ends_with("_ID") {
            visit::visit_item_const(self, item);
        }
    }

    fn visit_attribute(&mut self, attribute: &'a Attribute) {
        // Of the attributes only an error is read.
        if attribute.path().is_ident("error")
            && let syn::Meta::List(list) = &attribute.meta
        {
            self.tokens(list.tokens.clone());
        }
    }

    fn visit_pat(&mut self, _: &'a Pat) {}

    fn visit_lit(&mut self, literal: &'a Lit) {
        if let Lit::Str(text) = literal {
            self.text(&text.value());
        }
    }

    fn visit_expr_call(&mut self, call: &'a syn::ExprCall) {
        let Expr::Path(path) = &*call.func else { return visit::visit_expr_call(self, call) };
        let mut names = path.path.segments.iter().rev().map(|s| s.ident.to_string());
        let name = names.next().unwrap_or_default();
        self.arguments(&name, names.next().as_deref(), &call.args);
    }

    fn visit_expr_method_call(&mut self, call: &'a syn::ExprMethodCall) {
        self.visit_expr(&call.receiver);
        self.arguments(&call.method.to_string(), None, &call.args);
    }

    fn visit_field_value(&mut self, field: &'a syn::FieldValue) {
        let is_unread = matches!(&field.member, syn::Member::Named(name) if UNREAD.iter().any(|unread| name == unread));
        if !is_unread {
            visit::visit_field_value(self, field);
        }
    }

    fn visit_macro(&mut self, called: &'a Macro) {
        let name = called.path.segments.last().map(|s| s.ident.to_string()).unwrap_or_default();
        if name == "macro_rules" || READS_FILES.contains(&name.as_str()) {
            return;
        }
        self.tokens(called.tokens.clone());
    }
}

impl Texts<'_> {
    /// What stands between the brackets of a macro or of an attribute: expressions, or else all literals.
    fn tokens(&mut self, tokens: proc_macro2::TokenStream) {
        use syn::parse::Parser;
        if let Ok(expressions) = Punctuated::<Expr, Token![,]>::parse_terminated.parse2(tokens.clone()) {
            // An expression of a macro lives no longer than this.
            let mut inner = Texts { unread: self.unread, found: Vec::new() };
            for expression in &expressions {
                inner.visit_expr(expression);
            }
            self.found.append(&mut inner.found);
            return;
        }
        for token in tokens {
            match token {
                proc_macro2::TokenTree::Group(group) => self.tokens(group.stream()),
                proc_macro2::TokenTree::Literal(literal) => {
                    if let Lit::Str(text) = Lit::new(literal) {
                        self.text(&text.value());
                    }
                }
                _ => {}
            }
        }
    }
}

/// Whether a reader sees some text: whether it has a letter beside its values, and is no name of a file.
fn is_read(text: &str) -> bool {
    let mut said = String::new();
    let mut depth = 0;
    for c in text.chars() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ if depth == 0 => said.push(c),
            _ => {}
        }
    }
    let is_file_name = said.rsplit('.').next().is_some_and(|ending| ENDINGS.contains(&ending)) && !said.contains(' ');
    said.chars().any(char::is_alphabetic) && !is_file_name
}

fn files(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            files(&path, into);
        } else if path.extension().is_some_and(|ending| ending == "rs") && name != "tests.rs" && !name.ends_with("_tests.rs") {
            into.push(path);
        }
    }
}

fn texts(code: &str, unread: &BTreeSet<Place>) -> Vec<String> {
    let mut texts = Texts { unread, found: Vec::new() };
    texts.visit_file(&syn::parse_file(code).unwrap());
    texts.found
}

/// Files of a folder that are compiled for tests alone, by the `mod` lines above them.
fn compiled_for_tests(folder: &Path) -> BTreeSet<PathBuf> {
    let code = syn::parse_file(&fs::read_to_string(folder.join("mod.rs")).unwrap()).unwrap();
    let modules = code.items.into_iter().filter_map(|item| match item {
        syn::Item::Mod(item) if is_test(&item.attrs) => Some(folder.join(format!("{}.rs", item.ident))),
        _ => None,
    });
    modules.collect()
}

#[test]
fn the_texts_of_drawings_stand_in_words() {
    let drawing = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/drawing");
    let tests = compiled_for_tests(&drawing);
    let mut paths = Vec::new();
    files(&drawing, &mut paths);
    paths.retain(|path| !tests.contains(path));
    paths.sort();
    assert!(paths.len() > 40 && !tests.is_empty(), "{} files, {} for tests", paths.len(), tests.len());
    let none = BTreeSet::new();
    let mut problems = Vec::new();
    for path in paths {
        let code = fs::read_to_string(&path).unwrap();
        let place = path.strip_prefix(&drawing).unwrap().display().to_string();
        problems.extend(texts(&code, &none).iter().map(|text| format!("{place}: {text:?}")));
    }
    assert!(problems.is_empty(), "write these texts in src/words/:\n{}", problems.join("\n"));
}

#[test]
fn the_windows_texts_stand_with_its_labels_alone() {
    let window = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/window");
    let labels = window.join("labels");
    let mut paths = Vec::new();
    files(&window, &mut paths);
    paths.sort();
    let codes: Vec<(PathBuf, String)> = paths.into_iter().map(|path| (path.clone(), fs::read_to_string(path).unwrap())).collect();
    let mut functions = Functions::default();
    for (_, code) in &codes {
        functions.visit_file(&syn::parse_file(code).unwrap());
    }
    let (of_labels, others): (Vec<_>, Vec<_>) = codes.iter().partition(|(path, _)| path.starts_with(&labels));
    let count: usize = of_labels.iter().map(|(_, code)| texts(code, &functions.unread).len()).sum();
    assert!(count > 700 && others.len() > 60, "{count} labels, {} other files", others.len());
    let mut problems = Vec::new();
    for (path, code) in others {
        let place = path.strip_prefix(&window).unwrap().display();
        problems.extend(texts(code, &functions.unread).iter().map(|text| format!("{place}: {text:?}")));
    }
    assert!(problems.is_empty(), "write these texts in src/window/labels/:\n{}", problems.join("\n"));
}

/// The test finds what a reader would see, and nothing else.
#[test]
fn texts_are_told_from_ids_and_names_of_files() {
    let code = r#"
        const PANEL_ID: &str = "left side";
        const HEAD: &str = "Head";
        #[expect(missing_docs, reason = "an attribute")]
        fn put(ui: &mut Ui, salt: &str, label: &str) {
            Grid::new("a grid").show(ui, |ui| ui.label(RichText::new("shown")));
            let id = Id::unique(("the salt", 1));
            put(ui, "the salt", "Put");
            if name.ends_with(".lineup.ron") || matches!(key, "Space" | "Tab") {
                say(format!("{a}: {b}, {c}"), format!("{} saved", path), format!("{name}.png"), vec![Button::new("Save")]);
            }
            const fn family(weight: Weight) -> &'static str { "Open Sans" }
            match text { "png" => "PNG", _ => "×" }
        }
        #[derive(thiserror::Error)]
        enum E { #[error("a is wrong: {0}")] A, #[error("{}", labels::B)] B, #[error("{}", if c { "c" } else { "" })] C }
        #[cfg(test)]
        mod tests { fn label() -> &'static str { "in a test" } }
    "#;
    let mut functions = Functions::default();
    functions.visit_file(&syn::parse_file(code).unwrap());
    let found = texts(code, &functions.unread);
    assert_eq!(found, ["Head", "shown", "Put", "{} saved", "Save", "PNG", "a is wrong: {0}", "c"]);
}
