//! Marks on a plan's lines, `# !! id`, against what is told of those lines.

use super::expect;
use crate::walk::Walk;

/// The ids marked at the end of a line: `# !! unknown-name, drop`.
pub(super) fn marks(line: &str) -> Vec<&str> {
    let Some((_, after)) = line.split_once("# !!") else {
        return Vec::new();
    };
    let ids = after.trim_end_matches('`').split(',');
    ids.map(str::trim).filter(|id| !id.is_empty()).collect()
}

/// Holds the marks of a plan against what is told at its lines. Errors must match the marks exactly;
/// a finding may also stand where there is no mark. Gives whether there were any marks.
pub(super) fn check_marks(text: &str, walk: &Walk, wrong: &mut dyn FnMut(String)) -> bool {
    let mut marked: Vec<(usize, &str)> = Vec::new();
    for (i, line) in text.lines().enumerate() {
        marked.extend(marks(line).into_iter().map(|id| (i + 1, id)));
    }
    if marked.is_empty() {
        return false;
    }
    let errors = walk.errors();
    let told: Vec<_> = if errors.is_empty() {
        walk.findings().iter().collect()
    } else {
        errors.clone()
    };
    for (line, id) in &marked {
        let here = |f: &&&finding::Finding| f.id == *id && walk.lines(f).contains(line);
        if !told.iter().any(|f| here(&f)) {
            let said = text.lines().nth(line - 1).unwrap_or("");
            wrong(format!(
                "nothing is told of “{id}” at the line\n    {said}\n    but:{}",
                expect::list(walk)
            ));
        }
    }
    let expected = |e: &&finding::Finding| {
        marked
            .iter()
            .any(|(line, id)| e.id == *id && walk.lines(e).contains(line))
    };
    if errors.iter().any(|e| !expected(e)) {
        wrong(format!(
            "an error is told that no mark expects:{}",
            expect::list_errors(walk)
        ));
    }
    true
}

#[test]
fn marks_are_read_from_the_end_of_a_line() {
    assert_eq!(
        marks("box = \"x\" # !! unknown-name, drop"),
        ["unknown-name", "drop"]
    );
    assert_eq!(marks("replace `a` with `b # !! unit`"), ["unit"]);
    assert!(marks("# a remark").is_empty());
}
