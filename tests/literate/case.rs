//! A case: its plan, put together from a base, replacements and lines of its own; the marks on the
//! plan's lines; its expectations. Running it gives every expectation that does not hold.

use super::expect;
use super::markdown::Section;
use super::marks::{check_marks, marks};
use crate::walk::Walk;
use std::collections::{BTreeMap, BTreeSet};

/// A plan that cases may build on.
pub(super) struct Base {
    pub text: String,
    /// File and line, for messages.
    pub at: String,
}

/// By name.
pub(super) type Bases = BTreeMap<String, Base>;

/// One case.
pub(super) struct Case {
    /// Path under `literate/`.
    pub file: String,
    /// Heading.
    pub title: String,
    line: usize,
    prose: bool,
    plan: (usize, String),
    stock: Vec<String>,
    /// Expectations with their lines.
    pub expects: Vec<(usize, String)>,
}

/// What a `toml` block says before its own TOML.
enum Step<'a> {
    Include(&'a str),
    Replace(&'a str, &'a str),
}

impl Case {
    pub(super) fn new(file: &str, section: &Section) -> Self {
        let plans: Vec<_> = section.blocks.iter().filter(|b| b.info == "toml").collect();
        let at = format!("tests/literate/{file}:{}", section.line);
        assert!(
            plans.len() == 1,
            "{at}: a case has one plan, and this has {}",
            plans.len()
        );
        let of = |info: &'static str| section.blocks.iter().filter(move |b| b.info == info);
        let lines = |b: &super::markdown::Block| {
            let numbered = b
                .text
                .lines()
                .enumerate()
                .map(|(i, l)| (b.line + i + 1, l.trim().to_owned()));
            numbered
                .filter(|(_, l)| !l.is_empty() && !l.starts_with('#'))
                .collect::<Vec<_>>()
        };
        Self {
            file: file.to_owned(),
            title: section.title.clone(),
            line: section.line,
            prose: section.prose,
            plan: (plans[0].line, plans[0].text.clone()),
            stock: of("stock").map(|b| b.text.clone()).collect(),
            expects: of("expect").flat_map(lines).collect(),
        }
    }

    fn at(&self, line: usize) -> String {
        format!("tests/literate/{}:{line}: “{}”", self.file, self.title)
    }

    /// The base that it builds on.
    pub(super) fn base(&self) -> Option<&str> {
        self.plan
            .1
            .lines()
            .find_map(|l| l.strip_prefix("include "))
            .map(str::trim)
    }

    /// The ids that stand in marks on the lines of its own plan block.
    pub(super) fn marked(&self) -> BTreeSet<&str> {
        self.plan.1.lines().flat_map(marks).collect()
    }

    /// The plan's text, or what is wrong with the way it is put together.
    fn text(&self, bases: &Bases) -> Result<String, String> {
        let mut text = String::new();
        let mut own = String::new();
        for (i, chunk) in chunks(&self.plan.1) {
            let fail = |what: String| format!("{}: {what}", self.at(self.plan.0 + i + 1));
            match step(&chunk).map_err(fail)? {
                None => own = own + &chunk + "\n",
                Some(Step::Include(name)) => {
                    let base = bases
                        .get(name)
                        .ok_or_else(|| fail(format!("there is no base “{name}”")))?;
                    text.clone_from(&base.text);
                }
                Some(Step::Replace(from, to)) => {
                    let times = text.matches(from).count();
                    if times != 1 {
                        return Err(fail(format!(
                            "`{from}` stands {times} times in the base; it must stand once"
                        )));
                    }
                    text = text.replace(from, to);
                }
            }
        }
        Ok(text + "\n" + &own)
    }

    /// What fails: one message for each, with file and line.
    pub(super) fn run(&self, bases: &Bases) -> Vec<String> {
        let text = match self.text(bases) {
            Ok(text) => text,
            Err(e) => return vec![e],
        };
        let walk = Walk::with_stock(&text, &self.stock);
        let mut wrong = Vec::new();
        if !self.prose {
            wrong.push(format!(
                "{}: a case needs a sentence of prose",
                self.at(self.line)
            ));
        }
        let mut asked = check_marks(&text, &walk, &mut |what| {
            wrong.push(format!("{}: {what}", self.at(self.plan.0)))
        });
        for (line, expectation) in &self.expects {
            asked |= expectation.starts_with("error ");
            if let Err(got) = expect::check(&walk, expectation) {
                wrong.push(format!(
                    "{}\n    expected: {expectation}\n    but {got}",
                    self.at(*line)
                ));
            }
        }
        if !asked && !walk.errors().is_empty() {
            wrong.push(format!(
                "{}: the plan can't be read:{}",
                self.at(self.line),
                expect::list_errors(&walk)
            ));
        }
        if self.expects.is_empty() && !asked {
            wrong.push(format!("{}: nothing is expected", self.at(self.line)));
        }
        wrong
    }
}

/// The lines of a block, those of one `replace` taken together, each with its number from 0.
fn chunks(block: &str) -> Vec<(usize, String)> {
    let mut found: Vec<(usize, String)> = Vec::new();
    for (i, line) in block.lines().enumerate() {
        match found.last_mut() {
            Some((_, open)) if open.starts_with("replace ") && open.matches('`').count() < 4 => {
                *open = format!("{open}\n{line}");
            }
            _ => found.push((i, line.to_owned())),
        }
    }
    found
}

/// Reads a directive, if the line is one.
fn step(line: &str) -> Result<Option<Step<'_>>, String> {
    if let Some(name) = line.strip_prefix("include ") {
        return Ok(Some(Step::Include(name.trim())));
    }
    let Some(rest) = line.strip_prefix("replace ") else {
        return Ok(None);
    };
    let parts: Vec<&str> = rest.split('`').collect();
    match parts.as_slice() {
        ["", from, with, to, end] if with.trim() == "with" && end.trim().is_empty() => {
            Ok(Some(Step::Replace(from, to)))
        }
        _ => Err("write: replace `this` with `that`".to_owned()),
    }
}

#[test]
fn directives_are_read() {
    assert!(matches!(
        step("include one lamp"),
        Ok(Some(Step::Include("one lamp")))
    ));
    assert!(matches!(
        step("replace `a = \"x\"` with `b`"),
        Ok(Some(Step::Replace("a = \"x\"", "b")))
    ));
    assert!(matches!(step("name = \"x\""), Ok(None)));
    assert!(step("replace a with b").is_err());
    let two = chunks("replace `a` with `b\nc`\nd = 1");
    assert_eq!(
        two,
        [
            (0, "replace `a` with `b\nc`".to_owned()),
            (2, "d = 1".to_owned())
        ]
    );
}
