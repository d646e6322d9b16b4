//! The pages that a newcomer looks for are there, and the map stays short.

use super::Violation;
use super::house::House;

/// Pages with the most lines that each may have.
const PAGES: [(&str, usize); 4] = [
    ("README.md", usize::MAX),
    ("ARCHITECTURE.md", 200),
    ("CHANGELOG.md", usize::MAX),
    ("STYLE.md", 200),
];

pub(super) fn check(house: &House) -> Vec<Violation> {
    let mut found = Vec::new();
    for (page, most) in PAGES {
        let Some(text) = house.text(page) else {
            found.push(Violation::new(page, 1, "the page is missing", "write it"));
            continue;
        };
        let lines = text.lines().count();
        if lines > most {
            let what = format!("{lines} lines, and at most {most} are read");
            found.push(Violation::new(
                page,
                most + 1,
                what,
                "say less, or move it to where it belongs",
            ));
        }
    }
    found
}
