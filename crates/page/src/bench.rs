//! The page that one works at: the drawing, what is found, the plan.

use crate::asked::{Asked, Beside};
use crate::kept::Seen;
use crate::{form, found, live, text, vehicle, view};
use maud::{Markup, html};

/// The parts of the page, each under its id.
fn parts(seen: &Seen, asked: &Asked) -> Markup {
    let job = &seen.job;
    html! {
        nav.skips aria-label="On this page" { a.skip href="#left" { "The drawing" } " " a.skip href="#found" { "What is found" } " " a.skip href="#plan" { "The plan" } }
        (head(seen, asked))
        div.desk {
            div.left id="left" {
                nav.choice id="beside" aria-label="Beside the plan" {
                    "Beside the plan: "
                    @for (word, says, beside) in Beside::WORDS {
                        a href=(asked.with("beside", (beside != Beside::Circuit).then_some(word)).href()) aria-current=[(beside == asked.beside()).then_some("true")] { (says) }
                        " "
                    }
                }
                @match asked.beside() {
                    Beside::Text => (text::text(seen, asked)),
                    Beside::Circuit => (live::state(job, asked).unwrap_or_else(nothing_yet)),
                    Beside::Vehicle => (vehicle::vehicle(seen).unwrap_or_else(nothing_yet)),
                }
            }
            div.right {
                (found::tally(seen))
                (found::found(seen, asked))
                @if let Some(why) = live::why(job, asked) { (why) }
                (form::plan(seen, asked))
            }
        }
    }
}

/// Two answered the same question at once.
pub(crate) struct Clash<'a> {
    /// Which.
    pub path: &'a str,
    /// What stands there now.
    pub there: &'a str,
    /// What somebody else wants there.
    pub mine: &'a str,
}

/// Both answers, to choose from.
pub(crate) fn clash(seen: &Seen, clash: &Clash) -> String {
    let Clash { path, there, mine } = clash;
    let asked = job::plan::form::ask_at(path);
    let question = asked.map_or("", |a| a.question);
    let or_nothing = |said: &str| {
        if said.is_empty() {
            "nothing".to_owned()
        } else {
            said.replace('\n', ", ")
        }
    };
    let body = html! {
        header { h1 { "Two have answered the same" } }
        main id="conflict" {
            p { (question) " (" (path) ")" }
            p { "Somebody else, or an editor, has said meanwhile: " strong { (or_nothing(there)) } }
            p { "You say: " strong { (or_nothing(mine)) } }
            form method="post" action="set" {
                input type="hidden" name="seen" value=(seen.revision);
                input type="hidden" name={ "was." (path) } value=(there);
                @for each in mine.split('\n') { input type="hidden" name=(path) value=(each); }
                button type="submit" { "Keep mine" }
            }
            p { a.deed href="./" { "Keep theirs" } }
        }
    };
    view::around("Two have answered the same", &body)
}

fn nothing_yet() -> Markup {
    html! { section id="state" data-stays="true" aria-label="The drawing" { p.state { "There is no drawing of a plan that can’t be read yet: what is to be mended stands under the findings." } } }
}

fn head(seen: &Seen, asked: &Asked) -> Markup {
    let title = seen.job.plan().map(|p| p.job.title.clone());
    let vehicle = seen
        .job
        .plan()
        .map(|p| p.job.vehicle.clone())
        .unwrap_or_default();
    let turn = |what: &str, says: &str, words: &Option<String>| {
        html! {
            form method="post" action={ (what) (asked.href()) } {
                input type="hidden" name="seen" value=(seen.revision);
                button.turn type="submit" data-turn=(what) disabled[words.is_none()] title=[words.as_ref()] aria-label=[words.as_ref().map(|w| format!("{says}: {w}"))] { (says) }
            }
        }
    };
    html! {
        header id="head" data-tag=(seen.tag()) {
            h1 { (title.unwrap_or_else(|| "The plan can’t be read yet".to_owned())) }
            p.vehicle { (vehicle) }
            nav.rooms aria-label="Pages of this plan" {
                @for (href, says) in view::PAGES { a href=(href) aria-current=[(href == "./").then_some("page")] { (says) } " " }
            }
            div.turns { (turn("undo", "Undo", &seen.undo)) (turn("redo", "Redo", &seen.redo)) }
            p.said id="said" role="status" { @if let Some(said) = &seen.said { (said) } }
        }
    }
}

/// The parts alone, for the script.
pub(crate) fn fragment(seen: &Seen, asked: &Asked) -> String {
    html! { main id="page" { (parts(seen, asked)) } }.into_string()
}

/// The whole page.
pub(crate) fn page(seen: &Seen, asked: &Asked) -> String {
    let title = seen.job.plan().map_or("A plan", |p| p.job.title.as_str());
    let body = html! {
        main id="page" { (parts(seen, asked)) }
        details.care { summary { "What can hurt" } ul { @for c in job::pack::CAUTIONS { li { (c) } } } }
        script type="module" src="/page.js" {}
    };
    view::around(title, &body)
}
