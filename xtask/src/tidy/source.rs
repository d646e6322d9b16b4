//! One Rust source: its text, its tokens, its syntax, and which of it is tests.

use super::tokens::{Tokens, flatten};
use proc_macro2::TokenStream;

/// A parsed source.
pub(super) struct Source {
    /// Its path from the root.
    pub path: String,
    /// Its text.
    pub text: String,
    /// Its tokens.
    pub tokens: Tokens,
    /// Its syntax.
    pub syntax: syn::File,
    /// Whether all of it is tests.
    pub is_test: bool,
}

impl Source {
    /// Parses it; an error comes with its line.
    pub fn parse(path: &str, text: String) -> Result<Self, (usize, String)> {
        let stream: TokenStream = text
            .parse()
            .map_err(|e: proc_macro2::LexError| (e.span().start().line, e.to_string()))?;
        let tokens = flatten(stream.clone());
        let syntax = syn::parse2(stream).map_err(|e| (e.span().start().line, e.to_string()))?;
        // `tests/` beside `src/`; the suite at the root is a package like others.
        let is_test = path.starts_with("crates/") && path.split('/').nth(2) == Some("tests");
        Ok(Self {
            path: path.to_owned(),
            text,
            tokens,
            syntax,
            is_test,
        })
    }

    /// The crate it belongs to: `plan`, `xtask`, `tests`.
    pub fn room(&self) -> &str {
        let mut parts = self.path.split('/');
        match parts.next() {
            Some("crates") => parts.next().unwrap_or_default(),
            other => other.unwrap_or_default(),
        }
    }

    /// How many lines it has.
    pub fn lines(&self) -> usize {
        self.text.lines().count()
    }

    /// Whether a line stands in a test or a test module.
    pub fn in_tests(&self, line: usize) -> bool {
        self.is_test || self.tokens.tests.iter().any(|range| range.contains(&line))
    }

    /// Path beginnings of the test modules that it declares in files of their own.
    pub fn test_modules(&self) -> Vec<String> {
        let stem = match self.path.strip_suffix(".rs") {
            Some(stem) => stem,
            None => return Vec::new(),
        };
        let (folder, name) = stem.rsplit_once('/').unwrap_or(("", stem));
        let here = if ["lib", "main", "mod"].contains(&name) {
            folder
        } else {
            stem
        };
        let names = self.tokens.test_modules.iter();
        names
            .flat_map(|name| [format!("{here}/{name}.rs"), format!("{here}/{name}/")])
            .collect()
    }
}
