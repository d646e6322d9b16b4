//! TOML text to values with spans. Reading never stops at the first error: a key that can't be
//! understood is reported and left out, and the rest is read on.

use crate::keys::Keys;
use crate::tell::{Finding, Span};
use std::cell::RefCell;
use toml::de::DeTable;

/// Parses `text` and hands its top table to `reader`; gives what it made and every error found,
/// in the order in which they stand in the text.
pub fn read_toml<T>(
    text: &str,
    what: &'static str,
    reader: impl FnOnce(&Keys) -> T,
) -> (T, Vec<Finding>) {
    let (document, faults) = DeTable::parse_recoverable(text);
    let errors = RefCell::new(Vec::new());
    // After a slip the parser stumbles on through that line and often the ones right below: its first
    // complaint is the one to mend.
    let mut stumbled = None;
    for fault in &faults {
        let span = fault.span().map_or(Span::default(), Span::from);
        let (line, _) = span.line_column(text);
        let follows = stumbled.is_some_and(|last| line == last || line == last + 1);
        stumbled = Some(line);
        if follows {
            continue;
        }
        errors.borrow_mut().push(Finding::error(
            "not-toml",
            span,
            fault.message().lines().collect::<Vec<_>>().join(", "),
            toml_mend(text, fault.message()),
        ));
    }
    let keys = Keys::new(what, document.get_ref(), document.span().into(), &errors);
    let made = reader(&keys);
    keys.finish();
    let mut found = errors.into_inner();
    // What is no TOML comes first: much of the rest may follow from it.
    found.sort_by_key(|f: &Finding| (f.id != "not-toml", f.span().unwrap_or_default()));
    found.dedup();
    (made, found)
}

/// What to do about a text that is no TOML, as far as the parser's words tell.
fn toml_mend(text: &str, message: &str) -> &'static str {
    if message.contains("duplicate") {
        "this stands twice: a list is written [[circuit]], with two brackets, once for each entry"
    } else if text.contains(['“', '”', '„']) {
        "there are curly quotes in this file: texts go in straight ones, \"like this\""
    } else {
        "the file is TOML: key = \"value\", [table], [[list of tables]]; check quotes, commas and brackets here"
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::bounds;

    #[test]
    fn every_error_is_told_not_only_the_first() {
        let text = "length = 1.9\nlenght = \"2 m\"\nkind = \"blad\"\n";
        let ((), errors) = read_toml(text, "stretch", |k| {
            k.quantity("length", &bounds::STRETCH);
            k.choice("kind", &[("blade", 1), ("strip", 2)]);
            k.need_text("name", "x");
        });
        let ids: Vec<_> = errors.iter().map(|e| e.id).collect();
        assert_eq!(
            ids,
            ["missing-key", "bad-value", "unknown-key", "unknown-word"]
        );
        assert!(errors[2].mend.contains("“length”"));
        assert!(errors[3].mend.contains("\"blade\""));
    }

    #[test]
    fn broken_toml_still_reads_what_it_can() {
        let text = "name = \"a\"\nbad = = 3\nlength = \"0 m\"\n";
        let (name, errors) = read_toml(text, "stretch", |k| {
            k.has("bad");
            k.quantity("length", &bounds::STRETCH);
            k.text("name")
        });
        assert_eq!(name.unwrap().value, "a");
        assert!(errors.iter().any(|e| e.id == "not-toml"));
        assert!(
            errors.iter().any(|e| e.says.contains("too small")),
            "{errors:?}"
        );
    }
}
