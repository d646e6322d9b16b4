//! The plan's text on the page: shown with what is wrong on its lines, changed, kept; and what it was before. Works without
//! script.

use crate::shelf::{Refused, Shelf, Version};
use crate::view;
use job::{Job, Source};
use maud::{Markup, html};
use std::hash::{DefaultHasher, Hash, Hasher};

/// Tells one text from another. Whoever saves says which text was seen.
pub(crate) fn revision(text: &str) -> String {
    let mut hasher = DefaultHasher::new();
    text.hash(&mut hasher);
    format!("{:016x}-{:x}", hasher.finish(), text.len())
}

/// A text as a form sends it, with the line ends of the one that it replaces.
fn as_there(sent: &str, there: &str) -> String {
    let plain = sent.replace("\r\n", "\n");
    match there.contains("\r\n") {
        true => plain.replace('\n', "\r\n"),
        false => plain,
    }
}

/// What came of a text that was sent.
pub(crate) enum Sent {
    /// It is the plan now.
    Kept,
    /// The plan has changed since it was seen: what is there, and what was sent.
    Changed { there: String, sent: String },
    /// It could not be written.
    Failed { why: String, sent: String },
}

/// Puts a text in place of the one that was seen.
pub(crate) fn keep(shelf: &dyn Shelf, seen: &str, sent: &str) -> Sent {
    let there = shelf.read().map(|(plan, _)| plan.text).unwrap_or_default();
    let text = as_there(sent, &there);
    match shelf.write(&|now| revision(now) == seen, &text) {
        Ok(()) => Sent::Kept,
        Err(Refused::Changed(there)) => Sent::Changed { there, sent: text },
        Err(Refused::Failed(why)) => Sent::Failed { why, sent: text },
    }
}

fn editor(text: &str, seen: &str) -> Markup {
    let rows = (text.lines().count() + 2).clamp(12, 60);
    html! {
        form.plan method="post" action="/plan" {
            input type="hidden" name="seen" value=(seen);
            label for="text" { "The plan" }
            textarea id="text" name="text" rows=(rows) spellcheck="false" autocapitalize="off" autocomplete="off" wrap="off" { "\n" (text) }
            button type="submit" { "Keep this" }
        }
    }
}

fn links() -> Markup {
    html! { p { a href="/" { "Report" } " · " a href="/live" { "Live circuit" } " · " a href="/plan/before" { "What it was before" } } }
}

/// The plan with what is wrong on its lines.
pub(crate) fn page(job: &Job) -> String {
    let source = &job.sources()[0];
    let errors = job.errors();
    let findings = job.answers().map(|a| job::pack::tally(&a.findings));
    let body = html! {
        header { h1 { (source.name) } (links()) }
        main {
            @if errors.is_empty() {
                @if let Some(tally) = findings { p.state { a href="/#findings" { (tally) } } }
            } @else {
                p.state { (errors.len()) " to mend before anything can be worked out:" }
                @for t in &errors { (view::error(job, t)) }
            }
            (editor(&source.text, &revision(&source.text)))
        }
    };
    view::around("The plan", &body)
}

/// Two changed the plan: what is there, and what was sent, line by line where they differ.
pub(crate) fn conflict(there: &str, sent: &str) -> String {
    let body = html! {
        header { h1 { "The plan has changed since you opened it" } (links()) }
        main {
            p { "Somebody else, or an editor, has kept another text meanwhile. Nothing of yours is lost: it stands below, with the lines that differ above it. Put both together, and keep that." }
            (differences(there, sent))
            (editor(sent, &revision(there)))
            details { summary { "The plan as it is now" } pre { (there) } }
        }
    };
    view::around("The plan has changed", &body)
}

/// The lines that stand in one text only.
fn differences(there: &str, sent: &str) -> Markup {
    let diff = similar::TextDiff::from_lines(there, sent);
    let only = |wanted: similar::ChangeTag| {
        let changes = diff.iter_all_changes().filter(move |c| c.tag() == wanted);
        changes
            .map(|c| c.value().trim_end().to_owned())
            .collect::<Vec<_>>()
            .join("\n")
    };
    html! {
        h2 { "Only in the plan as it is now" }
        pre { (only(similar::ChangeTag::Delete)) }
        h2 { "Only in yours" }
        pre { (only(similar::ChangeTag::Insert)) }
    }
}

/// It could not be written; the text stays in the form.
pub(crate) fn failed(why: &str, sent: &str, seen: &str) -> String {
    let body = html! {
        header { h1 { "The plan could not be kept" } (links()) }
        main { p.state { (why) } p { "What was there is there still. Mend that, and keep it again." } (editor(sent, seen)) }
    };
    view::around("The plan could not be kept", &body)
}

/// What the plan was before.
pub(crate) fn before(versions: &[Version]) -> String {
    let body = html! {
        header { h1 { "What the plan was before" } (links()) }
        main {
            @if versions.is_empty() { p { "Nothing was changed on the page yet." } }
            ul { @for v in versions { li { a href={ "/plan/before/" (v.number) } { "Version " (v.number) } @if !v.when.is_empty() { ", put away " (v.when) } } } }
        }
    };
    view::around("What the plan was before", &body)
}

/// One of those, to be taken again: it goes into the form, and is kept like any other text.
pub(crate) fn version(number: u32, text: &str, now: &Source) -> String {
    let body = html! {
        header { h1 { "Version " (number) } (links()) }
        main {
            p { "Keep this to have it again; what is there now is put away like every other." }
            (editor(text, &revision(&now.text)))
        }
    };
    view::around("An earlier version", &body)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn line_ends_stay_as_they_are() {
        assert_eq!(as_there("a\r\nb\r\n", "x\ny\n"), "a\nb\n");
        assert_eq!(as_there("a\r\nb\n", "x\r\ny\r\n"), "a\r\nb\r\n");
    }

    #[test]
    fn a_conflict_shows_the_lines_of_both() {
        let page = conflict("one\ntwo\n", "one\nthree <b>\n");
        assert!(page.contains("two") && page.contains("three &lt;b&gt;"));
    }
}
