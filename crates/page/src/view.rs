//! What every page has around it, and the small pages that say what is not there.

use job::Job;
use job::pack::{Content, fragment};
use maud::{Markup, html};

/// The pages of a plan, as links from any of them.
pub(crate) const PAGES: [(&str, &str); 11] = [
    ("./", "Plan and circuit"),
    ("report", "Report"),
    ("supply", "Battery life"),
    ("faults", "Every fault"),
    ("loom", "Loom board"),
    ("lists", "Lists"),
    ("steps", "Build steps"),
    ("prove", "Prove and find"),
    ("pack", "Pack"),
    ("compare", "Compare"),
    ("/", "Other plans"),
];

/// A page around a body; its style is a file of its own, as the content policy asks.
pub(crate) fn around(title: &str, body: &Markup) -> String {
    let head = html! {
        link rel="stylesheet" href="/style.css";
        link rel="stylesheet" href="/page.css";
        link rel="stylesheet" href="/drawings.css";
        link rel="icon" href="/icon.svg";
    };
    job::pack::around(title, &head, body)
}

/// The links to the other pages of a plan, and what is found in it.
pub(crate) fn rooms(here: &str, job: Option<&Job>) -> Markup {
    let findings = job.and_then(Job::answers).map(|a| &a.findings[..]);
    let worst = findings
        .and_then(|f| f.first())
        .map(|f| f.weight.to_string());
    html! {
        nav.rooms aria-label="Pages of this plan" {
            @for (href, says) in PAGES { a href=(href) aria-current=[(href == here).then_some("page")] { (says) } " " }
        }
        @if let Some(findings) = findings {
            p.tally { a class=[worst] href="./#found" { (job::pack::tally(findings)) } }
        }
    }
}

/// A page without the styles that its drawings carry: the policy lets none stand within a page, and `drawings.css` says
/// the same.
pub(crate) fn unstyled(page: &str) -> String {
    let mut out = String::with_capacity(page.len());
    let mut rest = page;
    while let Some((before, after)) = rest.split_once("<style>") {
        out += before;
        rest = after.split_once("</style>").map_or("", |(_, after)| after);
    }
    out + rest
}

/// A document as a page of a plan.
pub(crate) fn document(here: &str, job: &Job, content: &Content) -> String {
    let body = html! { (rooms(here, Some(job))) (fragment(content)) };
    around(&content.title, &body)
}

fn plain(title: &str, text: &str, back: &str) -> String {
    around(
        title,
        &html! { header { h1 { (title) } } main { p { (text) } p { a href=(back) { "Back" } } } },
    )
}

/// The texts can't be had.
pub(crate) fn unread(why: &str) -> String {
    plain("The plan can't be read", why, "/")
}

/// There is nothing of this name.
pub(crate) fn not_there(what: &str) -> String {
    plain("There is no such thing", what, "./")
}

/// What is wrong with a request, to somebody who sent a form.
pub(crate) fn refused(why: &str) -> String {
    plain("That could not be taken", why, "./")
}

/// Something went wrong inside.
pub(crate) fn broken() -> String {
    plain(
        "Something went wrong",
        "The program failed on this plan, which is a defect: please report it with the plan.",
        "./",
    )
}
