//! What the cases must cover as a whole: every finding with a plan that has it and one that has not,
//! every error that a plan can have, no base without a case, no Markdown outside a room.

use super::library::{files, library, root};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The first word after a prefix, for every expectation that starts so.
fn named(prefix: &str) -> BTreeSet<&'static str> {
    let lines = library().cases.iter().flat_map(|c| &c.expects);
    let rest = lines.filter_map(|(_, line)| line.strip_prefix(prefix));
    rest.filter_map(|r| r.split_whitespace().next()).collect()
}

fn none(missing: &[String]) {
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}

/// Findings that no plan is known to bring about, each with where it is tested instead.
const UNREACHED: [(&str, &str); 4] = [
    ("not-followed", "crates/study/src/fault/told.rs"),
    ("not-sized", "crates/study/src/finding/not_sized.rs"),
    ("not-solved", "crates/study/src/finding/not_solved.rs"),
    ("sneak-path", "crates/study/src/sneak/tests.rs"),
];

#[test]
fn every_finding_has_a_plan_with_it_and_one_without() {
    let (with, without) = (named("finds "), named("finds no "));
    let marked: BTreeSet<&str> = library().cases.iter().flat_map(|c| c.marked()).collect();
    let mut missing = Vec::new();
    for about in job::FINDINGS {
        let unreached = UNREACHED.iter().any(|(id, _)| *id == about.id);
        if !with.contains(about.id) && !marked.contains(about.id) && !unreached {
            missing.push(format!("no case has `finds {}`: {}", about.id, about.asks));
        }
        if !without.contains(about.id) {
            missing.push(format!("no case has `finds no {}`", about.id));
        }
    }
    let (with, without) = (named("trying finds "), named("trying finds no "));
    for told in job::FAULT_FINDINGS {
        let unreached = UNREACHED.iter().any(|(id, _)| *id == told.id);
        if !with.contains(told.id) && !unreached {
            missing.push(format!(
                "no case has `trying finds {}`: {}",
                told.id, told.asks
            ));
        }
        if !without.contains(told.id) {
            missing.push(format!("no case has `trying finds no {}`", told.id));
        }
    }
    none(&missing);
}

/// The ids of errors that the rooms below can tell: the first text after `error(`, `says(` or `refuse(`.
fn told_in(file: &Path) -> BTreeSet<String> {
    let text = fs::read_to_string(file).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
    let code = text.split("#[cfg(test)]").next().unwrap_or("");
    let mut ids = BTreeSet::new();
    for opening in ["error(", "says(", "refuse("] {
        for (at, _) in code.match_indices(opening) {
            let after = code[at + opening.len()..].trim_start();
            let id = after
                .strip_prefix('"')
                .and_then(|r| r.split('"').next())
                .unwrap_or("");
            if !id.is_empty() && id.chars().all(|c| c.is_ascii_lowercase() || c == '-') {
                ids.insert(id.to_owned());
            }
        }
    }
    ids
}

#[test]
fn every_error_of_a_plan_has_a_case() {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).join("../crates");
    let rooms = ["finding", "plan", "loom", "stock"].map(|r| crates.join(r).join("src"));
    let sources = rooms
        .iter()
        .flat_map(|r| files(r, "rs"))
        .filter(|f| !f.ends_with("tests.rs"));
    let ids: BTreeSet<String> = sources.flat_map(|f| told_in(&f)).collect();
    assert!(
        ids.contains("unknown-name") && ids.contains("needs-relay") && ids.len() > 25,
        "{ids:?}"
    );
    let expected = named("error ");
    let marked: BTreeSet<&str> = library().cases.iter().flat_map(|c| c.marked()).collect();
    let covered = |id: &String| expected.contains(id.as_str()) || marked.contains(id.as_str());
    let missing: Vec<String> = ids
        .iter()
        .filter(|id| !covered(id))
        .map(|id| format!("no case has the error {id}"))
        .collect();
    none(&missing);
}

#[test]
fn no_base_lies_about_unused() {
    let used: BTreeSet<&str> = library().cases.iter().filter_map(|c| c.base()).collect();
    let idle = library()
        .bases
        .iter()
        .filter(|(name, _)| !used.contains(name.as_str()));
    none(
        &idle
            .map(|(name, base)| format!("{}: no case includes the base “{name}”", base.at))
            .collect::<Vec<_>>(),
    );
}

#[test]
fn every_file_lies_in_a_room_and_holds_a_case_or_a_base() {
    let mut wrong = Vec::new();
    for path in files(&root(), "md") {
        let file = path
            .strip_prefix(root())
            .unwrap_or(&path)
            .display()
            .to_string();
        let holds = library().cases.iter().any(|c| c.file == file)
            || library().bases.values().any(|b| b.at.contains(&file));
        let room = file.split('/').next().unwrap_or("");
        if !["base", "quantity", "plan", "loom", "stock", "study"].contains(&room) {
            wrong.push(format!("{file} lies in no room"));
        }
        if !holds {
            wrong.push(format!("{file} has neither a case nor a base"));
        }
    }
    none(&wrong);
}

/// In `study/<finding>/` stand the cases of that finding.
#[test]
fn folders_of_study_are_named_for_findings() {
    let mut wrong = Vec::new();
    for case in library()
        .cases
        .iter()
        .filter(|c| c.file.starts_with("study/"))
    {
        let parts: Vec<&str> = case.file.split('/').collect();
        let name = parts[1].trim_end_matches(".md");
        let known = job::FINDINGS.iter().any(|a| a.id == name)
            || job::FAULT_FINDINGS.iter().any(|t| t.id == name);
        let speaks =
            case.expects.iter().any(|(_, l)| l.contains(name)) || case.marked().contains(name);
        if known && !speaks {
            wrong.push(format!(
                "{}: “{}” says nothing of {name}",
                case.file, case.title
            ));
        }
        if !known && !["sizing", "heat", "figures"].contains(&name) {
            wrong.push(format!(
                "{}: {name} is neither a finding nor a subject",
                case.file
            ));
        }
    }
    none(&wrong);
}
