//! `cargo xtask tidy`: the rules of the house that neither compiler nor clippy holds. Takes the root
//! of the workspace, prints the budget and every violation as `file:line: what, how to mend`.

mod bans;
mod budget;
mod header;
mod house;
mod members;
mod pages;
mod source;
mod tokens;
mod words;

pub use house::walk;

use house::House;
use std::path::Path;

/// A rule broken at a line of a file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Violation {
    path: String,
    line: usize,
    what: String,
    mend: String,
}

impl Violation {
    fn new(path: &str, line: usize, what: impl Into<String>, mend: impl Into<String>) -> Self {
        Self {
            path: path.to_owned(),
            line,
            what: what.into(),
            mend: mend.into(),
        }
    }
}

/// Checks everything; gives whether all is well.
pub fn run(root: &Path) -> bool {
    let house = House::read(root);
    let mut found = house.unread.clone();
    found.extend(members::check(&house));
    found.extend(bans::check(&house));
    found.extend(header::check(&house));
    found.extend(words::check(&house));
    found.extend(pages::check(&house));
    let budget = budget::measure(&house);
    print!("{}", budget.table());
    found.extend(budget.check());
    found.sort();
    found.dedup();
    for v in &found {
        println!("{}:{}: {}; {}", v.path, v.line, v.what, v.mend);
    }
    match found.len() {
        0 => println!("tidy: nothing to mend"),
        n => println!("tidy: {n} to mend"),
    }
    found.is_empty()
}
