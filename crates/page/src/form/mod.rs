//! The plan in forms: its entries, each in a line; the one that is open with its questions, and why each is asked. What is
//! shown is what stands in the text, also where the plan can't be read.
//!
//! | file | what |
//! |---|---|
//! | `field` | one question |
//! | `known` | the names that can be chosen |
//! | `add` | a new entry |
//! | `line` | an entry in a line |

mod add;
pub(crate) mod field;
mod known;
mod line;

use crate::asked::Asked;
use crate::kept::Seen;
use field::Fields;
use job::plan::ask::{AskTable, LOAD, Stands, TABLES};
use job::plan::form::How;
use job::plan::{Entry, Node, Written};
use known::Known;
use maud::{Markup, html};

/// What a form needs to know of the page around it.
pub(super) struct Page<'a> {
    pub seen: &'a Seen,
    pub asked: &'a Asked,
    pub written: &'a Written,
    pub known: Known,
}

impl Page<'_> {
    /// Where a form is sent, so that the same is seen after.
    fn to(&self, what: &str) -> String {
        format!("{what}{}", self.asked.href())
    }

    fn seen(&self) -> Markup {
        html! { input type="hidden" name="seen" value=(self.seen.revision); }
    }

    fn is_open(&self, path: &str) -> bool {
        self.asked.get("edit") == Some(path)
    }
}

/// The plan in forms.
pub(crate) fn plan(seen: &Seen, asked: &Asked) -> Markup {
    let text = seen.job.sources().first().map_or("", |s| s.text.as_str());
    let written = Written::read(text);
    let page = Page {
        seen,
        asked,
        known: Known::of(&written, seen.job.stock()),
        written: &written,
    };
    let mut tables: Vec<&AskTable> = TABLES.iter().collect();
    tables.sort_by_key(|t| ORDER.iter().position(|key| *key == t.key));
    let (usual, rare): (Vec<&AskTable>, Vec<&AskTable>) = tables.into_iter().partition(|t| {
        is_usual(t)
            || entries(&written, t).is_some_and(|e| !e.is_empty())
            || page.is_open(&format!("+{}", t.key))
    });
    html! {
        section id="plan" aria-label="The plan" {
            (page.known.lists())
            p.source { "What you change here is kept at once; Undo takes it back." }
            @for t in usual { (part(&page, t)) }
            @if !rare.is_empty() {
                details id="more" {
                    summary { "More that a plan can say" }
                    @for t in rare { (part(&page, t)) }
                }
            }
        }
    }
}

/// What one comes back to stands first.
const ORDER: [&str; 11] = [
    "circuit", "box", "feed", "earth", "signal", "place", "stretch", "supply", "job", "day", "wire",
];

/// The path of the entry that a place in the text belongs to.
pub(crate) fn entry_at(text: &str, span: job::finding::Span) -> Option<String> {
    let written = Written::read(text);
    let mut found: Option<(usize, String)> = None;
    for t in &TABLES {
        let starts: Vec<(usize, String)> = match entries(&written, t) {
            None => {
                let node = written.top().get(t.key);
                node.map(|(_, span)| (span.start, t.key.to_owned()))
                    .into_iter()
                    .collect()
            }
            Some(all) => all.into_iter().map(|e| (e.span.start, e.path)).collect(),
        };
        // What begins last before it holds it.
        for (start, path) in starts {
            if start <= span.start && found.as_ref().is_none_or(|(at, _)| *at <= start) {
                found = Some((start, path));
            }
        }
    }
    found.map(|(_, path)| path)
}

fn is_usual(t: &AskTable) -> bool {
    matches!(
        t.key,
        "job" | "supply" | "place" | "stretch" | "box" | "circuit"
    )
}

/// The entries of a table; none of one that stands once.
fn entries<'a>(written: &'a Written, t: &AskTable) -> Option<Vec<Entry<'a>>> {
    match t.stands {
        Stands::Once => None,
        Stands::Listed => Some(written.top().entries("", t.key)),
        Stands::Named => Some(written.top().named(t.key)),
    }
}

/// What several of it are called.
fn heading(t: &AskTable) -> &'static str {
    match t.key {
        "job" => "The work",
        "supply" => "Battery and engine",
        "place" => "Places",
        "stretch" => "The ways between them",
        "feed" => "Other feeds",
        "box" => "Fuse boxes",
        "earth" => "Earth points",
        "signal" => "Signals of the vehicle",
        "circuit" => "Circuits",
        "day" => "A day",
        _ => "Single wires",
    }
}

fn part(page: &Page, t: &'static AskTable) -> Markup {
    let new = format!("+{}", t.key);
    html! {
        div.part id={ "part-" (t.key) } {
            h3 { (heading(t)) }
            (field::about(heading(t), t.is))
            @match entries(page.written, t) {
                None => (once(page, t)),
                Some(all) => {
                    ul.bare { @for e in &all { li { (entry(page, t, e)) } } }
                    @if page.is_open(&new) {
                        (add::form(page, t))
                    } @else {
                        p { a.deed href={ (page.asked.with("edit", Some(&new)).href()) "#part-" (t.key) } { "Add " (line::a(t.what)) } }
                    }
                }
            }
        }
    }
}

/// A line of an entry; its form if it is open.
fn opened(page: &Page, path: &str, line: Markup, form: impl FnOnce() -> Markup) -> Markup {
    let open = page.is_open(path);
    let next = if open { None } else { Some(path) };
    html! {
        a.line href=(page.asked.with("edit", next).href()) aria-expanded=(if open { "true" } else { "false" }) { (line) }
        @if open { (form()) }
    }
}

static NOTHING: Node = Node::Table(Vec::new());

fn once(page: &Page, t: &'static AskTable) -> Markup {
    let found = page.written.top().get(t.key);
    let (node, span) = found.unwrap_or((&NOTHING, job::finding::Span::default()));
    let e = Entry {
        path: t.key.to_owned(),
        name: None,
        node,
        span,
    };
    entry(page, t, &e)
}

fn entry(page: &Page, t: &'static AskTable, e: &Entry) -> Markup {
    let wrong = page.seen.job.errors().iter().any(|told| {
        let at = told.finding.span().unwrap_or_default();
        told.source == 0 && e.span.end > 0 && (e.span.start..=e.span.end).contains(&at.start)
    });
    let line = html! {
        (line::of(t, e))
        @if wrong { " " strong.wrong { "to mend" } }
    };
    let list = format!("{}.load", e.path);
    if page.is_open(&format!("+{list}")) {
        return html! { a.line href=(page.asked.with("edit", Some(&e.path)).href()) aria-expanded="true" { (line) } (add::load(page, &list)) };
    }
    opened(page, &e.path, line, || form(page, t, e))
}

fn form(page: &Page, t: &'static AskTable, e: &Entry) -> Markup {
    let fields = Fields { page, entry: e };
    html! {
        div.entry data-entry=(e.path) {
            p.is { (t.is) }
            form.set method="post" action=(page.to("set")) {
                (page.seen())
                // What Enter presses: the first button of a form.
                button.hidden type="submit" tabindex="-1" aria-hidden="true" { "Keep these answers" }
                @if t.stands == Stands::Named { (fields.own_name(t, e.name.unwrap_or(""))) }
                @if t.key == "circuit" { (loads(page, e)) (how(&fields, e)) }
                (fields.all(t.asks, e.node, &e.path))
                button.plain type="submit" { "Keep these answers" }
            }
            @if t.stands != Stands::Once {
                form method="post" action=(page.to("remove")) {
                    (page.seen())
                    button.away type="submit" name="path" value=(e.path) { "Take this " (t.what) " out" }
                }
            }
        }
    }
}

/// The loads of a circuit, each with its questions.
fn loads(page: &Page, circuit: &Entry) -> Markup {
    let all = circuit.node.entries(&circuit.path, "load");
    let new = format!("+{}.load", circuit.path);
    html! {
        fieldset.loads {
            legend { "What it feeds" }
            @for load in &all {
                @let fields = Fields { page, entry: load };
                details.load open[all.len() == 1] {
                    summary { (line::load(load.node)) }
                    (fields.all(LOAD, load.node, &load.path))
                    @if all.len() > 1 { button.away type="submit" formaction=(page.to("remove")) name="path" value=(load.path) { "Take this load out" } }
                }
            }
            p { a.deed href={ (page.asked.with("edit", Some(&new)).href()) "#" (add::first(&format!("{}.load", circuit.path))) } { "Add a load to this circuit" } }
        }
    }
}

/// How a circuit is switched: one choice, several keys.
fn how(fields: &Fields, e: &Entry) -> Markup {
    let now = How::of(e.node);
    let id = fields.id("how");
    html! {
        div.field {
            label for=(id) { "How is it turned on?" }
            select id=(id) name={ "how." (e.path) } {
                @for (word, says, how) in How::WORDS { option value=(word) selected[how == now] { (says) } }
            }
            input type="hidden" name={ "was.how." (e.path) } value=(now.word());
            (field::why("How is it turned on?", "A small switch with a relay suits anything above a few amperes: the thick wire stays short and the dash stays cool. A switch that carries the whole current suits small things. What must not stop is live always; what must not be forgotten goes with the ignition."))
        }
    }
}
