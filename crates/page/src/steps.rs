//! The order of the work with ticks that stay; one step a screen, large enough for gloves.

use crate::view;
use job::Job;
use job::sheet::Sheet;
use job::study::{BuildStep, StepSight};
use maud::{Markup, PreEscaped, html};
use std::collections::BTreeSet;

/// What a step is ticked as: its words, which stay when steps before it come and go. Two of the same words are told apart by
/// their count.
fn names(steps: &[BuildStep]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for step in steps {
        let name = format!("{}: {}", step.stage.words(), step.title);
        let same = names
            .iter()
            .filter(|n| **n == name || n.starts_with(&format!("{name} #")))
            .count();
        names.push(match same {
            0 => name,
            n => format!("{name} #{}", n + 1),
        });
    }
    names
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
                None => button.box type="submit" role="checkbox" aria-checked=(if done { "true" } else { "false" }) aria-label=(name) { (if done { "☑" } else { "☐" }) },
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
}
