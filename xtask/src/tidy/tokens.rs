//! The tokens of a source as the rules want them: whole paths with `use` groups opened, macros, string
//! literals, attributes; each with its line. Comments are no tokens; doc comments are kept apart.

use proc_macro2::{Delimiter, Spacing, TokenStream, TokenTree};
use std::iter::Peekable;
use std::ops::RangeInclusive;

/// Something with its line.
pub(super) type At<T> = (T, usize);

/// The tokens of a source.
#[derive(Default)]
pub(super) struct Tokens {
    /// Paths: `std::fs::read`, and single names too.
    pub paths: Vec<At<String>>,
    /// Macros that are called, without `!`.
    pub macros: Vec<At<String>>,
    /// Contents of string literals.
    pub strings: Vec<At<String>>,
    /// Doc comments.
    pub docs: Vec<At<String>>,
    /// Attributes, as text without blanks.
    pub attributes: Vec<At<String>>,
    /// Lines of tests and test modules.
    pub tests: Vec<RangeInclusive<usize>>,
    /// Names of test modules in files of their own.
    pub test_modules: Vec<String>,
}

type Trees = Peekable<proc_macro2::token_stream::IntoIter>;

/// Sorts the tokens of a stream.
pub(super) fn flatten(stream: TokenStream) -> Tokens {
    let mut tokens = Tokens::default();
    tokens.read(stream, "");
    tokens
}

fn line(tree: &TokenTree) -> usize {
    tree.span().start().line
}

fn is_punct(tree: Option<&TokenTree>, mark: char) -> bool {
    matches!(tree, Some(TokenTree::Punct(p)) if p.as_char() == mark)
}

fn is_group(tree: &TokenTree, delimiter: Delimiter) -> bool {
    matches!(tree, TokenTree::Group(g) if g.delimiter() == delimiter)
}

/// The content of a string literal.
fn string(literal: &proc_macro2::Literal) -> Option<String> {
    match syn::Lit::new(literal.clone()) {
        syn::Lit::Str(s) => Some(s.value()),
        _ => None,
    }
}

impl Tokens {
    fn read(&mut self, stream: TokenStream, prefix: &str) {
        let mut trees = stream.into_iter().peekable();
        let mut test_from: Option<usize> = None;
        let mut words: Vec<String> = Vec::new();
        while let Some(tree) = trees.next() {
            let at = line(&tree);
            let ends_item = is_group(&tree, Delimiter::Brace) || is_punct(Some(&tree), ';');
            if let (Some(from), true) = (test_from, ends_item) {
                self.tests.push(from..=tree.span().end().line);
                if let ([.., word, name], true) = (&words[..], is_punct(Some(&tree), ';'))
                    && word == "mod"
                {
                    self.test_modules.push(name.clone());
                }
                test_from = None;
            }
            match tree {
                TokenTree::Punct(p) if p.as_char() == '#' => {
                    if self.attribute(&mut trees, at) {
                        test_from = Some(at);
                        words.clear();
                    }
                }
                TokenTree::Ident(name) => {
                    words.push(name.to_string());
                    self.path(&mut trees, format!("{prefix}{name}"), at);
                }
                TokenTree::Literal(l) => self.strings.extend(string(&l).map(|s| (s, at))),
                TokenTree::Group(g) => self.read(g.stream(), ""),
                TokenTree::Punct(_) => {}
            }
        }
    }

    /// After `#`: reads an attribute; gives whether it makes a test of what follows.
    fn attribute(&mut self, trees: &mut Trees, at: usize) -> bool {
        if is_punct(trees.peek(), '!') {
            trees.next();
        }
        let Some(TokenTree::Group(g)) = trees.next_if(|t| is_group(t, Delimiter::Bracket)) else {
            return false;
        };
        let mut inside = g.stream().into_iter();
        if matches!(inside.next(), Some(TokenTree::Ident(i)) if i == "doc") {
            if let Some(TokenTree::Literal(l)) = inside.nth(1) {
                self.docs.extend(string(&l).map(|s| (s, at)));
            }
            return false;
        }
        let text: String = g.stream().to_string().split_whitespace().collect();
        let is_test = ["test", "cfg(test)", "tokio::test"].contains(&text.as_str())
            || text.starts_with("cfg(all(test,");
        self.attributes.push((text, at));
        // Arguments of attributes hold words and paths too.
        self.read(g.stream(), "");
        is_test
    }

    /// After a name: reads the path that it begins, opening `{…}` groups of a `use`.
    fn path(&mut self, trees: &mut Trees, mut path: String, at: usize) {
        while is_punct(trees.peek(), ':') {
            let Some(TokenTree::Punct(first)) = trees.next() else {
                break;
            };
            if first.spacing() == Spacing::Alone {
                break;
            }
            trees.next();
            match trees.peek() {
                Some(TokenTree::Ident(name)) => {
                    path = format!("{path}::{name}");
                    trees.next();
                }
                Some(TokenTree::Group(g)) if g.delimiter() == Delimiter::Brace => {
                    let inside = g.stream();
                    trees.next();
                    self.read(inside, &format!("{path}::"));
                    return;
                }
                _ => break,
            }
        }
        if matches!(trees.peek(), Some(TokenTree::Punct(p)) if p.as_char() == '!' && p.spacing() == Spacing::Alone)
        {
            self.macros.push((path.clone(), at));
        }
        self.paths.push((path, at));
    }
}

#[cfg(test)]
mod tests {
    use super::flatten;

    fn of(text: &str) -> super::Tokens {
        flatten(text.parse().unwrap())
    }

    #[test]
    fn use_groups_are_opened() {
        let t =
            of("use std::{fs, time::{Instant, Duration}}; let x: Vec<u8> = std::env::var(\"A\");");
        let paths: Vec<&str> = t.paths.iter().map(|(p, _)| p.as_str()).collect();
        for path in [
            "std::fs",
            "std::time::Instant",
            "std::time::Duration",
            "std::env::var",
        ] {
            assert!(paths.contains(&path), "{path} of {paths:?}");
        }
        assert_eq!(t.strings, [("A".to_owned(), 1)]);
    }

    #[test]
    fn tests_are_known_by_their_attribute() {
        let t = of(
            "fn a() {}\n#[cfg(test)]\nmod tests {\n fn b() {}\n}\n#[cfg(test)]\nmod more;\nfn c() { todo!() }\n/// safe\nfn d() {}",
        );
        assert_eq!(t.tests, [2..=5, 6..=7]);
        assert_eq!(t.test_modules, ["more"]);
        assert_eq!(t.macros, [("todo".to_owned(), 8)]);
        assert_eq!(t.docs.len(), 1);
        assert!(t.strings.is_empty());
    }
}
