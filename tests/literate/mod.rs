//! The literate suite: Markdown files in folders that mirror the rooms. Each heading with a plan is a
//! case: prose that an electrician can read, the plan, what must come of it. README.md beside this
//! folder says how to write one.
//!
//! | file | what it does |
//! |---|---|
//! | [`markdown`] | text of a file → headings, prose, fenced blocks, each with its line |
//! | [`case`] | blocks → plan text, expectations; runs them |
//! | [`marks`] | marks on the plan's lines → whether they are told |
//! | [`expect`] | one line of expectation → whether it holds |
//! | [`library`] | reads the folders, once |
//! | [`meta`] | every finding and every error has its cases; nothing lies about unused |

mod case;
mod expect;
mod library;
mod markdown;
mod marks;
mod meta;

use library::library;

/// Runs the cases of one room. `LITERATE=word` runs only those whose heading or file has the word.
fn room(name: &str) {
    let library = library();
    let only = std::env::var("LITERATE").unwrap_or_default();
    let of_room = library
        .cases
        .iter()
        .filter(|c| c.file.starts_with(&format!("{name}/")));
    let chosen: Vec<_> = of_room
        .filter(|c| c.file.contains(&only) || c.title.contains(&only))
        .collect();
    assert!(
        !chosen.is_empty() || !only.is_empty(),
        "no cases in {name}/"
    );
    let wrong: Vec<String> = chosen.iter().flat_map(|c| c.run(&library.bases)).collect();
    println!("{name}: {} cases", chosen.len());
    assert!(
        wrong.is_empty(),
        "{} of {} cases' expectations fail:\n\n{}\n",
        wrong.len(),
        chosen.len(),
        wrong.join("\n\n")
    );
}

#[test]
fn quantity() {
    room("quantity");
}

#[test]
fn plan() {
    room("plan");
}

#[test]
fn loom() {
    room("loom");
}

#[test]
fn study() {
    room("study");
}

#[test]
fn stock() {
    room("stock");
}
