//! One question of a form: its field, why it is asked, and what is wrong with its answer.

use super::Page;
use job::Told;
use job::finding::Span;
use job::plan::ask::{Ask, AskTable, Asked as Weighs, Takes};
use job::plan::{Entry, Node};
use maud::{Markup, html};

/// The fields of an entry.
pub(super) struct Fields<'a> {
    pub page: &'a Page<'a>,
    pub entry: &'a Entry<'a>,
}

/// Why a question is asked, opened where it stands.
pub(super) fn why(question: &str, why: &str) -> Markup {
    html! {
        details.why { summary aria-label={ "Why: " (question) } { "why" } p { (why) } }
    }
}

/// What something is, opened where it stands.
pub(super) fn about(what: &str, is: &str) -> Markup {
    html! {
        details.why { summary aria-label={ "What is this: " (what) } { "what is this?" } p { (is) } }
    }
}

/// An id for a field of an entry, of letters that an id may have.
pub(crate) fn id(entry: &str, path: &str) -> String {
    let letter = |c: char| match c.is_ascii_alphanumeric() {
        true => c.to_string(),
        false => format!("-{:x}-", u32::from(c)),
    };
    let full = format!("{entry}.{path}");
    format!("f-{}", full.chars().map(letter).collect::<String>())
}

/// An answer in a text, with where it stands.
type Said<'a> = Option<(&'a Node, Span)>;

impl Fields<'_> {
    pub fn id(&self, path: &str) -> String {
        id(&self.entry.path, path)
    }

    /// What is wrong within a part of the text.
    fn wrong(&self, span: Span) -> Vec<&Told> {
        let here = |t: &&Told| {
            let at = t.finding.span().unwrap_or_default();
            t.source == 0 && (span.start..=span.end).contains(&at.start) && at.end <= span.end
        };
        self.page
            .seen
            .job
            .errors()
            .into_iter()
            .filter(here)
            .collect()
    }

    /// All questions, the ones for who knows why behind a line.
    pub fn all(&self, asks: &'static [Ask], node: &Node, path: &str) -> Markup {
        // By what it asks alone, never by what is answered: a field that is typed in stays where it is.
        let shown = |a: &&Ask| a.asked != Weighs::Seldom;
        // How a circuit is turned on is one question of its own, and so is what a load is: what stands there is told of.
        let asked = |a: &&Ask| node.get(a.key).is_some() || !is_chosen(asks, a.key, node);
        let (first, rest): (Vec<&Ask>, Vec<&Ask>) = asks.iter().filter(asked).partition(shown);
        let one = |ask: &Ask| self.field(ask, node.get(ask.key), &format!("{path}.{}", ask.key));
        html! {
            @for ask in first { (one(ask)) }
            @if !rest.is_empty() {
                @let said = rest.iter().filter(|a| node.get(a.key).is_some()).count();
                details.more open[said > 0] {
                    summary { "More about it" @if said > 0 { " (" (said) " said)" } }
                    @for ask in rest { (one(ask)) }
                }
            }
        }
    }

    /// The name of an entry that stands by its name.
    pub fn own_name(&self, t: &AskTable, name: &str) -> Markup {
        let id = self.id("name");
        html! {
            div.field {
                label for=(id) { "What is this " (t.what) " called?" }
                input id=(id) name=(self.entry.path) value=(name) required autocomplete="off";
                input type="hidden" name={ "was." (self.entry.path) } value=(name);
                (why("its name", "Its name is what you would call the spot. Where the plan speaks of it, it is renamed with it."))
            }
        }
    }

    fn field(&self, ask: &Ask, said: Said, path: &str) -> Markup {
        match ask.takes {
            Takes::Table(inner) => self.table(ask, inner, said, path),
            Takes::Fuse(inner) => self.fuse(ask, inner, said, path),
            _ => self.one(ask, said, path),
        }
    }

    /// A table of its own, which is there or not.
    fn table(&self, ask: &Ask, inner: &'static [Ask], said: Said, path: &str) -> Markup {
        html! {
            fieldset id=(self.id(path)) data-path=(path) tabindex="-1" {
                legend { (ask.question) }
                (why(ask.question, ask.why))
                @if let Some((node, _)) = said {
                    (self.all(inner, node, path))
                    @if ask.asked != Weighs::Always {
                        button.away type="submit" formaction=(self.page.to("remove")) name="path" value=(path) { "Do without" }
                    }
                } @else {
                    button.deed type="submit" formaction=(self.page.to("make")) name="path" value=(path) { "Yes: say more about it" }
                }
            }
        }
    }

    /// A fuse: chosen, none, a rating, or more about it.
    fn fuse(&self, ask: &Ask, inner: &'static [Ask], said: Said, path: &str) -> Markup {
        let node = said.map(|(n, _)| n);
        let rating = match node {
            Some(Node::Table(_)) => node.and_then(|n| n.get("rating")),
            _ => said,
        };
        let own = match node {
            Some(Node::Table(_)) => format!("{path}.rating"),
            _ => path.to_owned(),
        };
        let rest = inner.iter().filter(|a| a.key != "rating");
        html! {
            fieldset id=[(own != path).then(|| self.id(path))] data-path=(path) tabindex="-1" {
                legend { (ask.question) }
                (self.one(&Ask { takes: Takes::Amount("40 A, or none"), question: "Which rating?", ..*ask }, rating, &own))
                details.more {
                    summary { "More about it" }
                    @for a in rest { (self.one(a, node.and_then(|n| n.get(a.key)), &format!("{path}.{}", a.key))) }
                }
            }
        }
    }

    fn one(&self, ask: &Ask, said: Said, path: &str) -> Markup {
        let id = self.id(path);
        let typed = said.and_then(|(n, _)| n.typed()).unwrap_or_default();
        let errors = said.map(|(_, span)| self.wrong(span)).unwrap_or_default();
        let missing = said.is_none() && ask.asked == Weighs::Always;
        let told = format!("{id}-told");
        let wrong = (!errors.is_empty()).then_some("true");
        let described = (!errors.is_empty() || missing).then_some(told.as_str());
        html! {
            div.field data-path=(path) {
                @match self.choices(ask, said) {
                    Some(Choices::Many(words)) => {
                        fieldset.many aria-describedby=[described] {
                            legend { (ask.question) }
                            @let texts = said.map(|(n, _)| n.texts()).unwrap_or_default();
                            @for (i, word) in words.iter().enumerate() {
                                label for={ (id) "-" (i) } {
                                    input id={ (id) "-" (i) } type="checkbox" name=(path) value=(word) checked[texts.contains(&word.as_str())];
                                    " " (word)
                                }
                            }
                            @if words.is_empty() { span.source { "There are none in the plan yet." } }
                        }
                    }
                    Some(Choices::Ends(words)) => {
                        @let texts = said.map(|(n, _)| n.texts()).unwrap_or_default();
                        fieldset.many {
                            legend { (ask.question) }
                            @for i in 0..2 {
                                label.hidden for={ (id) "-" (i) } { (["from", "to"][i]) }
                                select id={ (id) "-" (i) } name=(path) { (options(&words, texts.get(i).copied().unwrap_or(""), None)) }
                            }
                        }
                    }
                    Some(Choices::One(words, nothing)) => {
                        label for=(id) { (ask.question) }
                        select id=(id) name=(path) aria-invalid=[wrong] aria-describedby=[described] { (options(&words, &typed, Some(nothing))) }
                    }
                    None => {
                        label for=(id) { (ask.question) }
                        @let amount = matches!(ask.takes, Takes::Whole(..));
                        @let shown = if typed == "false" { "none" } else { typed.as_str() };
                        input id=(id) name=(path) value=(shown) placeholder=[example(ask).map(|e| format!("like {e}"))] autocomplete="off" autocapitalize="off" spellcheck="false"
                            inputmode=[amount.then_some("numeric")] list=[self.list(ask)] aria-invalid=[wrong] aria-describedby=[described] required[ask.asked == Weighs::Always];
                    }
                }
                @let texts = match said.map(|(n, _)| n) { Some(Node::List(_)) => said.map(|(n, _)| n.texts().join("\n")).unwrap_or_default(), _ => typed.clone() };
                input type="hidden" name={ "was." (path) } value=(texts);
                (why(ask.question, ask.why))
                @if missing { p.told id=(told) { "This is still to be said" @if let Some(e) = example(ask) { ", like " (e) } "." } }
                @if !errors.is_empty() {
                    div.told.wrong id=(told) { @for t in errors { p { (t.finding.says) ". " (t.finding.mend) "." } } }
                }
            }
        }
    }

    /// What can be chosen, if it is a choice.
    fn choices(&self, ask: &Ask, said: Said) -> Option<Choices> {
        let known = &self.page.known;
        let owned = |words: Vec<&str>| words.into_iter().map(str::to_owned).collect::<Vec<_>>();
        let with_said = |mut words: Vec<String>| {
            for text in said.map(|(n, _)| n.texts()).unwrap_or_default() {
                if !words.iter().any(|w| w == text) {
                    words.push(text.to_owned());
                }
            }
            words
        };
        Some(match ask.takes {
            Takes::One(of) => Choices::One(with_said(owned(of())), "as usual"),
            Takes::YesNo(usual) => {
                let (usual, other) = if usual { ("yes", "no") } else { ("no", "yes") };
                Choices::One(vec![other.to_owned()], usual)
            }
            Takes::Either(usual) => Choices::One(vec!["yes".to_owned(), "no".to_owned()], usual),
            Takes::Some(of) => Choices::Many(with_said(owned(of()))),
            Takes::Named(of) => Choices::One(with_said(known.names(of)), "none"),
            Takes::AllNamed(of) if ask.key == "between" => {
                Choices::Ends(with_said(known.names(of)))
            }
            Takes::AllNamed(of) => Choices::Many(with_said(known.names(of))),
            _ => return None,
        })
    }

    /// The list that a field suggests from.
    fn list(&self, ask: &Ask) -> Option<String> {
        match ask.takes {
            Takes::Stocked(of) if !self.page.known.stocked(of).is_empty() => {
                Some(format!("stock-{of}"))
            }
            _ => None,
        }
    }
}

/// What a load can be; a circuit’s ways of being turned on.
const KINDS: [&str; 5] = ["lamp", "motor", "heater", "electronics", "socket"];
const HOW: [&str; 4] = ["relay", "switch", "live", "trigger"];

/// Whether one of several keys was chosen where another stands, so that this one would contradict it.
fn is_chosen(asks: &[Ask], key: &str, node: &Node) -> bool {
    let has = |key: &str| asks.iter().any(|a| a.key == key);
    match has("switch") {
        true => HOW.contains(&key) && HOW.iter().any(|k| node.get(k).is_some()),
        false => has("lamp") && KINDS.contains(&key) && KINDS.iter().any(|k| node.get(k).is_some()),
    }
}

enum Choices {
    One(Vec<String>, &'static str),
    Many(Vec<String>),
    Ends(Vec<String>),
}

fn options(words: &[String], typed: &str, nothing: Option<&str>) -> Markup {
    let typed = match typed {
        "true" => "yes",
        "false" => "no",
        typed => typed,
    };
    let known = words.iter().any(|w| w.eq_ignore_ascii_case(typed));
    html! {
        @if let Some(nothing) = nothing { option value="" selected[typed.is_empty()] { (nothing) } }
        @for word in words { option value=(word) selected[word.eq_ignore_ascii_case(typed)] { (word) } }
        @if !known && !typed.is_empty() { option value=(typed) selected { (typed) } }
    }
}

/// An example of an answer.
pub(super) fn example(ask: &Ask) -> Option<String> {
    match ask.takes {
        Takes::Words(e) | Takes::Amount(e) | Takes::Listed(e) | Takes::Number(e) => {
            Some(e.to_owned())
        }
        Takes::Whole(least, _) => Some(least.max(4).to_string()),
        _ => None,
    }
}
