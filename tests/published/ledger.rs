//! The two lists of cases, run whole. Every id is either run by one checker or listed in
//! [`later`](super::later) with its reason; none is forgotten, and none is claimed twice.

use super::case::{Case, Form};
use super::later;
use super::reference::{Look, reference};
use super::tolerance::Tolerance;
use toml::Value;

/// The cases that one checker runs.
pub(crate) struct Run {
    pub ids: &'static [&'static str],
    pub check: fn(&mut Case),
}

/// One list with those who run its cases.
struct List {
    name: &'static str,
    rows: Value,
    form: Form,
    runs: Vec<&'static [Run]>,
    later: &'static [(&'static str, &'static [&'static str])],
}

fn conductors() -> List {
    List {
        name: "conductors/99_check_cases.toml",
        rows: reference!("conductors/99_check_cases.toml"),
        form: Form {
            inputs: "inputs",
            expect: "expect",
            tolerance: |row| Tolerance::read(row.word("tol")),
            source: &["status", "file"],
        },
        runs: vec![
            super::geometry::RUNS,
            super::resistance::RUNS,
            super::drop::RUNS,
            super::ampacity::RUNS,
            super::ambient::RUNS,
            super::bundle::RUNS,
            super::air::RUNS,
            super::heat_case::RUNS,
            super::free_air::RUNS,
            super::adiabatic::RUNS,
        ],
        later: later::CONDUCTORS,
    }
}

fn protection() -> List {
    List {
        name: "protection/90_cases.toml",
        rows: reference!("protection/90_cases.toml"),
        form: Form {
            inputs: "in",
            expect: "out",
            tolerance: |row| Some(Tolerance::relative(row.num("rel_tol"))),
            source: &["kind", "source"],
        },
        runs: vec![
            super::fuse_gate::RUNS,
            super::fuse_load::RUNS,
            super::fuse_wire::RUNS,
            super::relay::RUNS,
            super::switch::RUNS,
            super::lamp::RUNS,
            super::motor::RUNS,
            super::load::RUNS,
            super::supply_class::RUNS,
            super::adiabatic::PROTECTION_RUNS,
            super::battery::RUNS,
            super::rested::RUNS,
            super::discharge::RUNS,
            super::alternator::RUNS,
            super::fly_back::RUNS,
            super::inrush::RUNS,
            super::fault_finding::RUNS,
        ],
        later: later::PROTECTION,
    }
}

impl List {
    fn checkers(&self, id: &str) -> Vec<fn(&mut Case)> {
        let all = self.runs.iter().flat_map(|r| r.iter());
        all.filter(|r| r.ids.contains(&id))
            .map(|r| r.check)
            .collect()
    }

    fn reasons(&self, id: &str) -> Vec<&'static str> {
        let found = self.later.iter().filter(|(_, ids)| ids.contains(&id));
        found.map(|(why, _)| *why).collect()
    }

    /// Runs every case that is run, and gives what is wrong.
    fn run(&self) -> Vec<String> {
        let (mut cases, mut compared, mut wrong) = (0, 0, Vec::new());
        for row in self.rows.rows("case") {
            let [check] = self.checkers(row.word("id"))[..] else {
                continue;
            };
            let mut case = Case::new(row, &self.form);
            check(&mut case);
            let (n, found) = case.finish();
            cases += 1;
            compared += n;
            wrong.extend(found);
        }
        println!("{}: {cases} cases run, {compared} comparisons", self.name);
        wrong
    }

    /// Every id that is not dealt with exactly once, or that the list does not have.
    fn astray(&self) -> Vec<String> {
        let ids: Vec<&str> = self
            .rows
            .rows("case")
            .iter()
            .map(|r| r.word("id"))
            .collect();
        let mut wrong = Vec::new();
        for id in &ids {
            let (run, left) = (self.checkers(id).len(), self.reasons(id).len());
            if run + left != 1 {
                wrong.push(format!(
                    "{id} is run by {run} checkers and listed {left} times for later"
                ));
            }
        }
        let run = self.runs.iter().flat_map(|r| r.iter()).flat_map(|r| r.ids);
        let left = self.later.iter().flat_map(|(_, ids)| ids.iter());
        for id in run.chain(left).filter(|id| !ids.contains(id)) {
            wrong.push(format!("{id} is no case of {}", self.name));
        }
        wrong
    }
}

fn none(wrong: &[String]) {
    assert!(
        wrong.is_empty(),
        "{} disagree:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

#[test]
fn every_conductor_case_agrees() {
    none(&conductors().run());
}

#[test]
fn every_protection_case_agrees() {
    none(&protection().run());
}

#[test]
fn every_case_is_run_once_or_listed_with_its_reason() {
    let mut wrong = conductors().astray();
    wrong.extend(protection().astray());
    none(&wrong);
    let reasons = later::CONDUCTORS.iter().chain(later::PROTECTION);
    for (why, _) in reasons {
        assert!(why.len() > 20, "“{why}” is no reason");
    }
}
