//! The pages that a newcomer looks for are there, the map stays short, and what they link to exists.

use super::Violation;
use super::house::House;

/// Pages with the most lines that each may have.
const PAGES: [(&str, usize); 4] = [
    ("README.md", usize::MAX),
    ("ARCHITECTURE.md", 200),
    ("CHANGELOG.md", usize::MAX),
    ("STYLE.md", 90),
];

pub(super) fn check(house: &House) -> Vec<Violation> {
    let mut found = Vec::new();
    for (page, most) in PAGES {
        let Some(text) = house.text(page) else {
            let what = "the page is missing";
            found.push(Violation::new(page, 1, what, "write it"));
            continue;
        };
        let lines = text.lines().count();
        if lines > most {
            let what = format!("{lines} lines, and at most {most} are read");
            let mend = "say less, or move it to where it belongs";
            found.push(Violation::new(page, most + 1, what, mend));
        }
        found.extend(dangling(house, page, text));
    }
    found
}

/// Links of a page at the root to files that are not there.
fn dangling(house: &House, page: &str, text: &str) -> Vec<Violation> {
    let mut found = Vec::new();
    for (i, line) in text.lines().enumerate() {
        for target in line
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split_once(')'))
        {
            let file = target.0.split('#').next().unwrap_or_default();
            let elsewhere = file.is_empty() || file.contains("://");
            if !elsewhere && !house.has(file.trim_end_matches('/')) {
                let what = format!("it links to {file}, which is not there");
                found.push(Violation::new(
                    page,
                    i + 1,
                    what,
                    "write that file, or mend the link",
                ));
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::check;
    use crate::tidy::house::House;

    #[test]
    fn pages_are_there_and_their_links_lead_somewhere() {
        let file = |name: &str, text: &str| (name.to_owned(), text.to_owned());
        let readme = "[style](STYLE.md#words), [web](https://example.org), [plans](examples/)\n![d](docs/d.svg)\n";
        let house = House::of([
            file("README.md", readme),
            file("STYLE.md", ""),
            file("CHANGELOG.md", ""),
            file("examples/a.toml", ""),
        ]);
        let whats: Vec<String> = check(&house).into_iter().map(|v| v.what).collect();
        assert_eq!(
            whats,
            [
                "it links to docs/d.svg, which is not there",
                "the page is missing"
            ]
        );
    }
}
