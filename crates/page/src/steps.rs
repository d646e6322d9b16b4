//! The order of the work with ticks that stay; one step a screen, large enough for gloves.

use crate::view;
use job::Job;
use job::sheet::Sheet;
use job::study::{BuildStep, StepSight};
use maud::{Markup, PreEscaped, html};
use std::collections::BTreeSet;

/// What a step is ticked as: its words, which stay when steps before it come and go, and a sign of what is to be done in it,
/// so that a step that has changed since is not taken for done. Two of the same words are told apart by their count.
fn names(steps: &[BuildStep]) -> Vec<String> {
    let mut plain: Vec<String> = Vec::new();
    let mut names = Vec::new();
    for step in steps {
        let name = format!("{}: {}", step.stage.words(), step.title);
        let same = plain.iter().filter(|n| **n == name).count();
        let count = if same == 0 {
            String::new()
        } else {
            format!(" #{}", same + 1)
        };
        names.push(format!("{name}{count}{BEGIN}{:08x}]", sign(step)));
        plain.push(name);
    }
    names
}

/// What stands before the sign of a step.
const BEGIN: &str = " [";

/// A sign of what is to be taken, done and checked (FNV-1a).
fn sign(step: &BuildStep) -> u32 {
    let words = step.take.iter().chain(&step.act).chain(&step.checks);
    let bytes = words.flat_map(|w| w.bytes().chain([0]));
    bytes.fold(0x811c_9dc5, |h, b| {
        (h ^ u32::from(b)).wrapping_mul(0x0100_0193)
    })
}

/// Whether a step was ticked before it became what it is now.
fn was_other(name: &str, ticks: &BTreeSet<String>) -> bool {
    let stem = name.rsplit_once(BEGIN).map_or(name, |(stem, _)| stem);
    let of = |tick: &String| tick.rsplit_once(BEGIN).is_some_and(|(s, _)| s == stem);
    !ticks.contains(name) && ticks.iter().any(of)
}

/// Whether there is a step of this name: nothing else is noted.
pub(crate) fn is_step(job: &Job, name: &str) -> bool {
    let steps = job.steps().unwrap_or_default();
    names(&steps).iter().any(|n| n == name)
}

/// All steps, each with its tick.
pub(crate) fn all(job: &Job, ticks: &BTreeSet<String>) -> Option<String> {
    let steps = job.steps()?;
    let names = names(&steps);
    let done = names.iter().filter(|n| ticks.contains(*n)).count();
    let first = names.iter().position(|n| !ticks.contains(n));
    let title = &job.plan()?.job.title;
    let mut stage = None;
    let body = html! {
        (view::rooms("steps", Some(job)))
        header { h1 { (title) ": build steps" } }
        main {
            details open[done == 0] { summary { "What can hurt" } ul { @for c in job::pack::CAUTIONS { li { (c) } } } }
            p.state role="status" { (done) " of " (steps.len()) " done" }
            @if let Some(n) = first { p { a.big href={ "step?n=" (n + 1) } { @if done == 0 { "Begin" } @else { "Go on with step " (n + 1) } } } }
            @for (i, (step, name)) in steps.iter().zip(&names).enumerate() {
                @if stage.replace(step.stage) != Some(step.stage) { h2 { (step.stage.words()) } }
                div.tick {
                    (tick(name, ticks.contains(name), None))
                    a href={ "step?n=" (i + 1) } { (i + 1) ". " (step.title) }
                    @if was_other(name, ticks) { " " strong.wrong { "changed since it was ticked" } }
                }
            }
        }
    };
    Some(view::around(&format!("{title}: build steps"), &body))
}

/// A tick to press, which stays.
fn tick(name: &str, done: bool, next: Option<usize>) -> Markup {
    html! {
        form method="post" action="tick" {
            input type="hidden" name="what" value=(name);
            input type="hidden" name="done" value=(if done { "no" } else { "yes" });
            @if let Some(n) = next { input type="hidden" name="next" value=(n); }
            @match next {
                None => button.box type="submit" role="checkbox" aria-checked=(if done { "true" } else { "false" }) aria-label=(name.rsplit_once(BEGIN).map_or(name, |(stem, _)| stem)) { (if done { "☑" } else { "☐" }) },
                Some(_) if done => button.big type="submit" { "Take the tick back" },
                Some(_) => button.big type="submit" { "Done, next" },
            }
        }
    }
}

fn pictures(job: &Job, steps: &[BuildStep], at: usize) -> Vec<Sheet> {
    match steps[at].sight {
        StepSight::Circuit => job.pictures(steps).into_iter().nth(at).unwrap_or_default(),
        StepSight::Board => job.board().into_iter().take(1).collect(),
        StepSight::Route => job.route(),
    }
}

/// One step.
pub(crate) fn one(job: &Job, ticks: &BTreeSet<String>, number: usize) -> Option<String> {
    let steps = job.steps()?;
    let at = number.clamp(1, steps.len().max(1)) - 1;
    let step = steps.get(at)?;
    let name = names(&steps).into_iter().nth(at)?;
    let done = ticks.contains(&name);
    let care: Vec<String> = step.cautions.iter().map(|c| (*c).to_owned()).collect();
    let tools: Vec<String> = step.tools.iter().map(|t| (*t).to_owned()).collect();
    let list = |title: &str, lines: &[String]| {
        html! { @if !lines.is_empty() { h2 { (title) } ul { @for l in lines { li { (l) } } } } }
    };
    let next = (at + 2).min(steps.len());
    let title = format!("{}. {}", at + 1, step.title);
    let body = html! {
        nav.rooms aria-label="Steps" { a href="steps" { "All steps" } " " @if at > 0 { a href={ "step?n=" (at) } { "The one before" } " " } @if at + 1 < steps.len() { a href={ "step?n=" (at + 2) } { "The next" } } }
        header { p.vehicle { (step.stage.words()) ", step " (at + 1) " of " (steps.len()) } h1 { (title) } }
        main.step {
            @if was_other(&name, ticks) { p.wrong role="status" { "This step was ticked when it was another: the plan has changed since. Look at it again." } }
            @if !care.is_empty() { div.finding.stop { @for c in &care { p { (c) } } } }
            (list("Take", &step.take))
            (list("With", &tools))
            (list("Do", &step.act))
            @for sheet in pictures(job, &steps, at) {
                figure { div.drawing.broad tabindex="0" role="group" aria-label=(sheet.title) { (PreEscaped(&sheet.svg)) } }
            }
            (list("Check", &step.checks))
            @if done { p.state role="status" { "☑ done" } }
            (tick(&name, done, Some(if done { at + 1 } else { next })))
        }
        (view::rooms("step", Some(job)))
    };
    Some(view::around(&title, &body))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_step_is_ticked_as_itself() {
        let text = include_str!("../../../examples/camper.toml").to_owned();
        let name = "camper.toml".to_owned();
        let job = Job::read(job::Source { name, text }, Vec::new());
        let names = names(&job.steps().unwrap());
        let once: BTreeSet<&String> = names.iter().collect();
        assert!(names.len() > 10 && once.len() == names.len(), "{names:#?}");
    }

    #[test]
    fn a_step_that_became_another_is_not_taken_for_done() {
        let text = include_str!("../../../examples/farm.toml");
        let steps = |text: String| {
            let name = "farm.toml".to_owned();
            let job = Job::read(job::Source { name, text }, Vec::new());
            names(&job.steps().unwrap())
        };
        let before = steps(text.to_owned());
        let after = steps(text.replace("\"2.1 m\"", "\"2.6 m\""));
        let ticks: BTreeSet<String> = before.iter().cloned().collect();
        // What is longer now is to be cut anew; what has not changed is done still.
        assert!(after.iter().any(|n| was_other(n, &ticks)));
        assert!(after.iter().any(|n| ticks.contains(n)));
        assert!(!before.iter().any(|n| was_other(n, &ticks)));
    }
}
