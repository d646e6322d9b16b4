//! What must not stand in the code: in a room, the world outside (files, environment, clock, network)
//! and order by hash; anywhere, tests that are skipped and work left undone.

use super::Violation;
use super::house::House;
use super::source::Source;

/// Crates that are no rooms: faces, measurements, tests, chores. They may touch the world.
const OUTSIDE: [&str; 5] = ["page", "spurline", "bench", "tests", "xtask"];

const HANDED_IN: &str = "have a face read it and hand it in";
const BY_ORDER: &str = "use BTreeMap, BTreeSet or a Vec: the same input gives the same bytes";

/// Beginnings of paths that a room may not use outside its tests, and how to mend.
const IN_ROOMS: [(&str, &str); 13] = [
    ("std::fs", HANDED_IN),
    ("std::env", HANDED_IN),
    ("std::net", HANDED_IN),
    ("std::process", HANDED_IN),
    ("std::io::stdin", HANDED_IN),
    ("std::time::Instant", HANDED_IN),
    ("std::time::SystemTime", HANDED_IN),
    ("time::Instant", HANDED_IN),
    ("time::SystemTime", HANDED_IN),
    ("HashMap", BY_ORDER),
    ("HashSet", BY_ORDER),
    (
        "clippy::disallowed_methods",
        "keep the ban of crates/clippy.toml",
    ),
    (
        "clippy::disallowed_types",
        "keep the ban of crates/clippy.toml",
    ),
];

const UNDONE: [(&str, &str); 3] = [
    (
        "todo",
        "do it, or leave it out and say so in ARCHITECTURE.md",
    ),
    (
        "unimplemented",
        "do it, or leave it out and say so in ARCHITECTURE.md",
    ),
    ("dbg", "take it out"),
];

pub(super) fn check(house: &House) -> Vec<Violation> {
    house.sources.iter().flat_map(of_source).collect()
}

fn of_source(source: &Source) -> Vec<Violation> {
    let mut found = Vec::new();
    if !OUTSIDE.contains(&source.room()) {
        found.extend(worldly(source));
    }
    for (name, line) in &source.tokens.macros {
        let last = name.rsplit("::").next().unwrap_or(name);
        if let Some((_, mend)) = UNDONE.iter().find(|(banned, _)| *banned == last) {
            found.push(Violation::new(
                &source.path,
                *line,
                format!("{last}! stands in the code"),
                *mend,
            ));
        }
    }
    let skipped = source
        .tokens
        .attributes
        .iter()
        .filter(|(text, _)| text == "ignore" || text.starts_with("ignore="));
    let mend = "make it quick enough to run always, or take it out";
    found.extend(
        skipped.map(|(_, line)| Violation::new(&source.path, *line, "a test is skipped", mend)),
    );
    found
}

fn worldly(source: &Source) -> Vec<Violation> {
    let mut found = Vec::new();
    for (path, line) in &source.tokens.paths {
        if source.in_tests(*line) {
            continue;
        }
        if let Some((banned, mend)) = IN_ROOMS.iter().find(|(banned, _)| begins(path, banned)) {
            let what = format!("a room uses {banned}");
            found.push(Violation::new(&source.path, *line, what, *mend));
        }
    }
    found
}

/// Whether a path is the banned one, or leads on from it; a bare name is banned wherever it stands.
fn begins(path: &str, banned: &str) -> bool {
    if !banned.contains("::") {
        return path.split("::").any(|part| part == banned);
    }
    path.strip_prefix(banned)
        .is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
}

#[cfg(test)]
mod tests {
    use super::check;
    use crate::tidy::house::House;

    fn whats(path: &str, text: &str) -> Vec<String> {
        check(&House::of([(path.to_owned(), text.to_owned())]))
            .into_iter()
            .map(|v| v.what)
            .collect()
    }

    #[test]
    fn a_room_may_not_touch_the_world_but_its_tests_and_the_faces_may() {
        let text = "use std::{fmt, fs};\nuse std::time::Duration;\nfn a(m: std::collections::HashMap<u8, u8>) {}\n#[cfg(test)]\nmod tests {\n use std::env;\n}\n";
        assert_eq!(
            whats("crates/plan/src/a.rs", text),
            ["a room uses std::fs", "a room uses HashMap"]
        );
        assert!(whats("crates/spurline/src/a.rs", text).is_empty());
    }

    #[test]
    fn nothing_is_skipped_or_left_undone_anywhere() {
        let text = "#[test]\n#[ignore = \"slow\"]\nfn a() { todo!() }\nfn b() { if dbg != 3 {} }\n";
        assert_eq!(
            whats("xtask/src/a.rs", text),
            ["todo! stands in the code", "a test is skipped"]
        );
    }

    #[test]
    fn a_test_module_in_its_own_file_is_a_test() {
        let lib = (
            "crates/plan/src/lib.rs".to_owned(),
            "#[cfg(test)]\nmod tests;\n".to_owned(),
        );
        let tests = (
            "crates/plan/src/tests.rs".to_owned(),
            "use std::fs;\n".to_owned(),
        );
        assert!(check(&House::of([lib, tests])).is_empty());
    }
}
