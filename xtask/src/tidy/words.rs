//! The words: what Spurline says never promises that something is safe, and no file speaks of what it
//! was grown from.

use super::Violation;
use super::house::House;
use super::source::Source;

/// Files below `crates/` whose text reaches people, besides strings in Rust.
const SPOKEN: [&str; 6] = [".toml", ".html", ".css", ".js", ".typ", ".svg"];

pub(super) fn check(house: &House) -> Vec<Violation> {
    let mut found: Vec<Violation> = house.sources.iter().flat_map(promises).collect();
    for (path, text) in &house.texts {
        if path.starts_with("crates/") && SPOKEN.iter().any(|end| path.ends_with(end)) {
            let said = text
                .lines()
                .enumerate()
                .filter(|(_, l)| !is_comment(l) && promise(l));
            found.extend(said.map(|(i, _)| promised(path, i + 1)));
        }
        found.extend(origins(path, text));
    }
    found.extend(house.sources.iter().flat_map(|s| origins(&s.path, &s.text)));
    found
}

/// Strings of a room outside its tests; of the command line also its doc comments, which are its help.
fn promises(source: &Source) -> Vec<Violation> {
    if !source.path.starts_with("crates/") {
        return Vec::new();
    }
    let help = if source.room() == "spurline" {
        &source.tokens.docs[..]
    } else {
        &[]
    };
    let spoken = source.tokens.strings.iter().chain(help);
    let said = spoken.filter(|(text, line)| !source.in_tests(*line) && promise(text));
    said.map(|(_, line)| promised(&source.path, *line))
        .collect()
}

fn promised(path: &str, line: usize) -> Violation {
    Violation::new(
        path,
        line,
        "it promises “safe”",
        "say what was checked, what was assumed, what was not checked",
    )
}

/// Whether a text has the whole word; `fail-safe` and `unsafe` are other words.
fn promise(text: &str) -> bool {
    let words = text.split(|c: char| !(c.is_alphanumeric() || c == '-' || c == '_'));
    words.into_iter().any(|w| w.eq_ignore_ascii_case("safe"))
}

fn is_comment(line: &str) -> bool {
    let line = line.trim_start();
    ["#", "//", "*", "/*", "<!--"]
        .iter()
        .any(|start| line.starts_with(start))
}

/// Places that speak of the paper that the project was grown from.
fn origins(path: &str, text: &str) -> Vec<Violation> {
    // In two pieces, so that this line is no place.
    let needle = ["seed", "document"].join(" ");
    let lines = text.lines().enumerate();
    let found = lines.filter(|(_, l)| l.to_lowercase().replace('-', " ").contains(&needle));
    let mend = "say the reason itself, or cite ARCHITECTURE.md";
    found
        .map(|(i, _)| Violation::new(path, i + 1, format!("it speaks of a “{needle}”"), mend))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{check, promise};
    use crate::tidy::house::House;

    #[test]
    fn only_the_whole_word_is_a_promise() {
        assert!(promise("it is safe.") && promise("Safe to build"));
        assert!(!promise("fail-safe") && !promise("unsafe_code") && !promise("safety"));
    }

    #[test]
    fn comments_and_tests_may_say_it() {
        let text = "//! safe\n/// safe\nfn a() -> &'static str { \"safe\" }\n#[test]\nfn b() { a(\"safe\") }\n";
        let of = |room: &str| {
            check(&House::of([(
                format!("crates/{room}/src/lib.rs"),
                text.to_owned(),
            )]))
        };
        assert_eq!(of("plan").iter().map(|v| v.line).collect::<Vec<_>>(), [3]);
        assert_eq!(of("spurline").len(), 3);
    }
}
