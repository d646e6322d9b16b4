//! Expectations of what is told: errors, findings, assumptions.

use super::Outcome;
use crate::walk::Walk;
use finding::Finding;

/// More than this is not listed: one broken brace can bring dozens of errors.
const MOST: usize = 10;

/// Everything told, for messages.
pub(in crate::literate) fn list(walk: &Walk) -> String {
    if !walk.errors().is_empty() {
        return list_errors(walk);
    }
    lines(walk, walk.findings().iter())
}

/// Everything found by trying, for messages.
fn list_tried(walk: &Walk) -> String {
    lines(walk, walk.found_by_trying().iter())
}

/// Every error, for messages.
pub(in crate::literate) fn list_errors(walk: &Walk) -> String {
    lines(walk, walk.errors().into_iter())
}

fn lines<'a>(walk: &Walk, told: impl Iterator<Item = &'a Finding>) -> String {
    let line = |f: &Finding| {
        format!(
            "\n      {} {} at {:?} (lines {:?}): {} → {}",
            f.weight,
            f.id,
            f.names(),
            walk.lines(f),
            f.says,
            f.mend
        )
    };
    let all: Vec<String> = told.map(line).collect();
    let more = all.len().saturating_sub(MOST);
    let mut shown = all.into_iter().take(MOST).collect::<String>();
    if shown.is_empty() {
        shown.push_str(" nothing is told");
    }
    if more > 0 {
        shown += &format!("\n      … and {more} more");
    }
    shown
}

/// What a line asks of something told: its id, and perhaps where and with which words.
#[derive(Debug, Default, PartialEq)]
struct Asked<'a> {
    id: &'a str,
    line: Option<usize>,
    names: Vec<&'a str>,
    says: Option<&'a str>,
    mends: Option<&'a str>,
}

/// Takes `key "…"` off the end of a line.
fn quoted<'a>(line: &'a str, key: &str) -> Result<(&'a str, Option<&'a str>), String> {
    let Some((before, after)) = line.split_once(&format!(" {key} \"")) else {
        return Ok((line, None));
    };
    match after.strip_suffix('"') {
        Some(words) => Ok((before, Some(words))),
        None => Err(format!(
            "{key} needs its words in quotes, at the end of the line"
        )),
    }
}

fn asked(line: &str) -> Result<Asked<'_>, String> {
    let (line, mends) = quoted(line, "mends")?;
    let (line, says) = quoted(line, "says")?;
    let (line, names) = line.split_once(" at ").unwrap_or((line, ""));
    let (id, number) = line.split_once(" line ").unwrap_or((line, ""));
    let number = if number.is_empty() {
        None
    } else {
        Some(
            number
                .parse()
                .map_err(|_| format!("“{number}” is no line"))?,
        )
    };
    Ok(Asked {
        id: id.trim(),
        line: number,
        names: names
            .split(',')
            .map(str::trim)
            .filter(|n| !n.is_empty())
            .collect(),
        says,
        mends,
    })
}

impl Asked<'_> {
    fn fits(&self, walk: &Walk, f: &Finding) -> bool {
        f.id == self.id
            && self.line.is_none_or(|l| walk.lines(f).contains(&l))
            && self.names.iter().all(|n| f.names().iter().any(|x| x == n))
            && self.says.is_none_or(|s| f.says.contains(s))
            && self.mends.is_none_or(|s| f.mend.contains(s))
    }

    fn among<'a>(&self, walk: &Walk, mut told: impl Iterator<Item = &'a Finding>) -> bool {
        told.any(|f| self.fits(walk, f))
    }
}

fn known(id: &str) -> Outcome {
    let listed = job::FINDINGS.iter().any(|a| a.id == id) || id == "two-ways";
    if listed {
        Ok(())
    } else {
        Err(format!("“{id}” is the id of no finding"))
    }
}

/// Checks a line about what is told; nothing if the line is about something else.
pub(super) fn check(walk: &Walk, line: &str) -> Option<Outcome> {
    if let Some(rest) = line.strip_prefix("error ") {
        return Some(asked(rest).and_then(|a| so(walk, a.among(walk, walk.errors().into_iter()))));
    }
    if line == "reads" {
        return Some(so(walk, walk.errors().is_empty()));
    }
    let about = ["finds ", "nothing stops", "stops", "assumes ", "trying "]
        .iter()
        .any(|w| line.starts_with(w));
    if about && !walk.errors().is_empty() {
        return Some(Err(format!("the plan can't be read:{}", list_errors(walk))));
    }
    about.then(|| found(walk, line))
}

fn so(walk: &Walk, yes: bool) -> Outcome {
    if yes {
        Ok(())
    } else {
        Err(format!("this is told:{}", list(walk)))
    }
}

/// A line about findings, of a plan without errors.
fn found(walk: &Walk, line: &str) -> Outcome {
    if let Some(rest) = line.strip_prefix("trying ") {
        return tried(walk, rest);
    }
    let stops = !walk.stops().is_empty();
    if let Some(ids) = line.strip_prefix("finds only ") {
        return only(walk, ids);
    }
    let any = |rest| {
        let a = asked(rest)?;
        known(a.id)?;
        Ok::<bool, String>(a.among(walk, walk.findings().iter()))
    };
    if let Some(rest) = line.strip_prefix("finds no ") {
        return so(walk, !any(rest)?);
    }
    if let Some(rest) = line.strip_prefix("finds ") {
        return so(walk, any(rest)?);
    }
    if let Some(what) = line.strip_prefix("assumes ") {
        let list = &walk.answers().assumptions;
        let whats: Vec<&str> = list.iter().map(|a| a.what.as_str()).collect();
        let there = whats.contains(&what);
        return if there {
            Ok(())
        } else {
            Err(format!("this is assumed: {whats:#?}"))
        };
    }
    match line {
        "stops" => so(walk, stops),
        "nothing stops" => so(walk, !stops),
        _ => Err(
            "nobody knows what this line means; tests/README.md lists what can be said".to_owned(),
        ),
    }
}

/// A line about what trying every fault finds.
fn tried(walk: &Walk, line: &str) -> Outcome {
    let found = walk.found_by_trying();
    let any = |rest| {
        let a = asked(rest)?;
        match job::FAULT_FINDINGS.iter().any(|t| t.id == a.id) {
            true => Ok(a.among(walk, found.iter())),
            false => Err(format!("“{}” is the id of nothing that trying finds", a.id)),
        }
    };
    let holds = match (line.strip_prefix("finds no "), line.strip_prefix("finds ")) {
        (Some(rest), _) => !any(rest)?,
        (None, Some(rest)) => any(rest)?,
        (None, None) => return Err("after `trying` comes `finds` or `finds no`".to_owned()),
    };
    match holds {
        true => Ok(()),
        false => Err(format!("trying finds this:{}", list_tried(walk))),
    }
}

/// The ids of the findings must be these and no others; `nothing` for none at all.
fn only(walk: &Walk, ids: &str) -> Outcome {
    let mut wanted: Vec<&str> = ids
        .split(',')
        .map(str::trim)
        .filter(|id| *id != "nothing")
        .collect();
    for id in &wanted {
        known(id)?;
    }
    let mut found: Vec<&str> = walk.findings().iter().map(|f| f.id).collect();
    wanted.sort_unstable();
    found.sort_unstable();
    found.dedup();
    if wanted == found {
        Ok(())
    } else {
        Err(format!("this is found:{}", list(walk)))
    }
}

#[test]
fn a_line_is_taken_apart() {
    let found = asked("bad-value line 7 says \"no unit\" mends \"mm²\"");
    let wanted = Asked {
        id: "bad-value",
        line: Some(7),
        names: vec![],
        says: Some("no unit"),
        mends: Some("mm²"),
    };
    assert_eq!(found, Ok(wanted));
    assert_eq!(
        asked("drop at E1.1, E1.2").map(|a| a.names),
        Ok(vec!["E1.1", "E1.2"])
    );
    assert!(asked("drop says \"half").is_err());
    assert!(asked("drop line x").is_err());
}
