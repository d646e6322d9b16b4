//! The plan's text: shown with what is wrong on its lines, and changed; two texts that were changed at once; and what it was
//! before. Works without script.

use crate::asked::Asked;
use crate::kept::{Seen, revision};
use crate::shelf::{Shelf, Version};
use crate::view;
use job::{Job, Source};
use maud::{Markup, html};
use std::collections::BTreeMap;

/// What is wrong, by line.
fn wrong(job: &Job) -> BTreeMap<usize, String> {
    let mut lines: BTreeMap<usize, String> = BTreeMap::new();
    let Some(source) = job.sources().first() else {
        return lines;
    };
    for told in job.errors().into_iter().filter(|t| t.source == 0) {
        let span = told.finding.span().unwrap_or_default();
        let (line, _) = span.line_column(&source.text);
        let says = lines.entry(line).or_default();
        if !says.is_empty() {
            says.push_str("; ");
        }
        says.push_str(&told.finding.says);
    }
    lines
}

/// The text with its lines numbered, those that are wrong marked.
pub(crate) fn text(seen: &Seen, asked: &Asked) -> Markup {
    let source = seen.job.sources().first();
    let text = source.map_or("", |s| s.text.as_str());
    let wrong = wrong(&seen.job);
    let lines = text.lines().count() + 2;
    html! {
        section id="text" aria-label="The text of the plan" {
            form.text method="post" action={ "text" (asked.href()) } {
                input type="hidden" name="seen" value=(seen.revision);
                label for="words" { "The plan as text. What is changed here changes the forms, and the other way round." }
                div.lined {
                    ol.lines aria-hidden="true" {
                        @for n in 1..=lines {
                            li id={ "line-" (n) } class=[wrong.contains_key(&n).then_some("wrong")] title=[wrong.get(&n)] { (n) }
                        }
                    }
                    textarea id="words" name="text" rows=(lines) spellcheck="false" autocapitalize="off" autocomplete="off" wrap="off" { "\n" (text) }
                }
                button.plain type="submit" { "Keep this" }
                " " a href="before" { "What it was before" }
            }
        }
    }
}

fn editor(text: &str, seen: &str) -> Markup {
    let rows = (text.lines().count() + 2).clamp(12, 60);
    html! {
        form.text method="post" action="text?beside=text" {
            input type="hidden" name="seen" value=(seen);
            label for="words" { "The plan" }
            textarea id="words" name="text" rows=(rows) spellcheck="false" autocapitalize="off" autocomplete="off" wrap="off" { "\n" (text) }
            button type="submit" { "Keep this" }
        }
    }
}

fn links() -> Markup {
    html! { p { a href="./" { "Back to the plan" } " · " a href="before" { "What it was before" } } }
}

/// Two changed the plan: what is there, and what was sent, line by line where they differ.
pub(crate) fn conflict(there: &str, sent: &str) -> String {
    let body = html! {
        header { h1 { "The plan has changed since you opened it" } (links()) }
        main id="conflict" {
            p { "Somebody else, or an editor, has kept another text meanwhile. Nothing of yours is lost: it stands below, with the lines that differ above it. Put both together, and keep that." }
            (differences(there, sent))
            (editor(sent, &revision(there)))
            details { summary { "The plan as it is now" } pre tabindex="0" { (there) } }
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
        pre tabindex="0" { (only(similar::ChangeTag::Delete)) }
        h2 { "Only in yours" }
        pre tabindex="0" { (only(similar::ChangeTag::Insert)) }
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

/// The first line that a later text has otherwise: what somebody remembers a change by.
fn changed(then: &str, later: &str) -> Option<String> {
    let diff = similar::TextDiff::from_lines(then, later);
    let mut lines = diff
        .iter_all_changes()
        .filter(|c| c.tag() != similar::ChangeTag::Equal)
        .map(|c| (c.tag(), c.value().trim().to_owned()))
        .filter(|(_, line)| !line.is_empty());
    let first = lines.next()?;
    // What it became says more than what it was.
    let became = std::iter::once(first.clone()).chain(lines);
    let became = became
        .into_iter()
        .find(|(tag, _)| *tag == similar::ChangeTag::Insert);
    let (tag, line) = became.unwrap_or(first);
    let short: String = line.chars().take(60).collect();
    Some(match tag {
        similar::ChangeTag::Insert => format!("before “{short}”"),
        _ => format!("before “{short}” went"),
    })
}

/// The versions of a plan, the newest first, each with what was changed next.
pub(crate) fn versions(shelf: &dyn Shelf) -> Vec<(Version, Option<String>)> {
    let mut later = shelf.read().map(|(plan, _)| plan.text).unwrap_or_default();
    let each = shelf.versions().into_iter().map(|v| {
        let text = shelf.version(v.number).unwrap_or_default();
        let words = changed(&text, &later);
        later = text;
        (v, words)
    });
    each.collect()
}

type Versions = [(Version, Option<String>)];

fn told((v, words): &(Version, Option<String>)) -> Markup {
    html! {
        @if !v.when.is_empty() { ", put away " (v.when) }
        @if let Some(words) = words { ", " (words) }
    }
}

/// What the plan was before.
pub(crate) fn before(versions: &Versions) -> String {
    let body = html! {
        header { h1 { "What the plan was before" } (links()) }
        main {
            @if versions.is_empty() { p { "Nothing was changed on the page yet." } }
            ul {
                @for v in versions {
                    li {
                        a href={ "version?n=" (v.0.number) } { "Version " (v.0.number) } (told(v))
                        " · " a href={ "compare?n=" (v.0.number) } { "compare it with the plan now" }
                    }
                }
            }
        }
    };
    view::around("What the plan was before", &body)
}

/// Which version the plan is to be compared with.
pub(crate) fn compare(versions: &Versions) -> String {
    let body = html! {
        (view::rooms("compare", None))
        header { h1 { "Compare the plan with what it was" } }
        main {
            @if versions.is_empty() { p { "There is nothing to compare with yet: every change on the page puts away what was there before." } }
            ul.bare { @for v in versions { li { a.deed href={ "compare?n=" (v.0.number) } { "Version " (v.0.number) } (told(v)) } } }
        }
    };
    view::around("Compare", &body)
}

/// One of the two can't be worked out.
pub(crate) fn not_compared(n: u32) -> String {
    let body = html! {
        (view::rooms("compare", None))
        header { h1 { "They can’t be compared" } }
        main { p { "Version " (n) " or the plan as it is now has errors, so that nothing can be worked out of it. " a href={ "version?n=" (n) } { "Its text" } } }
    };
    view::around("Compare", &body)
}

/// One of those, to be taken again: it goes into the form, and is kept like any other text.
pub(crate) fn version(number: u32, text: &str, now: &Source) -> String {
    let body = html! {
        header { h1 { "Version " (number) } (links()) }
        main {
            p { "Keep this to have it again; what is there now is put away like every other." }
            (differences(&now.text, text))
            (editor(text, &revision(&now.text)))
        }
    };
    view::around("An earlier version", &body)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_is_remembered_by_what_a_line_became() {
        let told = |then: &str, later: &str| changed(then, later).unwrap_or_default();
        assert_eq!(
            told("a\nrated = 1\n", "a\nrated = 2\n"),
            "before “rated = 2”"
        );
        assert_eq!(told("a\nb\n", "a\n"), "before “b” went");
        assert_eq!(changed("a\n", "a\n"), None);
    }

    #[test]
    fn a_conflict_shows_the_lines_of_both() {
        let page = conflict("one\ntwo\n", "one\nthree <b>\n");
        assert!(page.contains("two") && page.contains("three &lt;b&gt;"));
    }
}
