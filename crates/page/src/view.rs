//! The pages: the report, the errors of a plan, and what to say when there is neither.

use job::pack::{Content, fragment};
use job::{Job, Told};
use maud::{Markup, html};

/// A page around a body; its style is a file of its own, as the content policy asks.
pub(crate) fn around(title: &str, body: &Markup) -> String {
    let head = html! {
        link rel="stylesheet" href="/style.css";
        link rel="stylesheet" href="/drawings.css";
    };
    job::pack::around(title, &head, body)
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

/// The report.
pub(crate) fn report(content: &Content) -> String {
    let body = html! {
        (fragment(content))
        p { a href="/plan" { "The plan: change it here" } }
        p { a href="/live" { "The live circuit: press a switch on the drawing and see what happens" } }
        p { a href="/faults" { "Every fault: what happens when any one thing goes wrong" } " (some seconds for a large plan)" }
    };
    around(&content.title, &body)
}

/// Every fault of a plan that can be read, with its matrix.
pub(crate) fn faults(job: &Job) -> Option<String> {
    let tries = job.tries(&|_, _| {})?;
    let mended = job.mended(&tries, &|_, _| {});
    let protection = job.protection();
    let drawn = job.fault_drawings(&tries, protection.as_ref());
    let content = job.fault_report(&tries, &mended, protection.as_ref(), Some(&drawn))?;
    let body = html! {
        (fragment(&content))
        p { a href="/" { "Back to the report" } }
    };
    Some(around(&content.title, &body))
}

/// Every error of a plan, each with its line.
pub(crate) fn errors(job: &Job) -> String {
    let told = job.errors();
    let body = html! {
        header { h1 { "The plan can't be read yet" } p.vehicle { (told.len()) " to mend; this page follows the file: mend it and look again." } }
        main { @for t in &told { (error(job, t)) } }
    };
    around("The plan can't be read yet", &body)
}

pub(crate) fn error(job: &Job, told: &Told) -> Markup {
    let source = &job.sources()[told.source];
    let (line, column) = told
        .finding
        .span()
        .unwrap_or_default()
        .line_column(&source.text);
    let text = source.text.lines().nth(line - 1).unwrap_or("");
    html! {
        article.finding.stop {
            p.says { strong { "stop" } " " (told.finding.says) }
            p.source { (source.name) ", line " (line) ", column " (column) }
            pre { (text) }
            p.mend { "Mend: " (told.finding.mend) }
        }
    }
}

fn plain(title: &str, text: &str) -> String {
    around(
        title,
        &html! { header { h1 { (title) } } main { p { (text) } p { a href="/" { "Back to the report" } } } },
    )
}

/// The texts can't be had.
pub(crate) fn unread(why: &str) -> String {
    plain("The plan can't be read", why)
}

/// No drawing of this name.
pub(crate) fn no_drawing(name: &str) -> String {
    plain(
        "No such drawing",
        &format!("There is no drawing called {name}."),
    )
}

/// No version of this number.
pub(crate) fn no_version(number: u32) -> String {
    plain(
        "No such version",
        &format!("There is no version {number} of the plan; the last hundred are kept."),
    )
}

/// Something went wrong inside.
pub(crate) fn broken() -> String {
    plain(
        "Something went wrong",
        "The program failed on this plan, which is a defect: please report it with the plan.",
    )
}
