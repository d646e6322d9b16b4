//! Which plans there are, and a new one: from an example, or from a few questions.

use crate::asked::encoded;
use crate::cabinet::Found;
use crate::view;
use job::plan::form::{Start, start};
use job::plan::{Chemistry, Outline};
use maud::{Markup, html};

/// Plans to begin with: a name, what it shows, its text.
const EXAMPLES: [(&str, &str, &str); 3] = [
    (
        "farm",
        "A farm utility: two work lamps on relays, and a pump",
        include_str!("../../../examples/farm.toml"),
    ),
    (
        "camper",
        "A van made into a camper: a living battery, fridge, fan, sockets, reading lamps, a day of use",
        include_str!("../../../examples/camper.toml"),
    ),
    (
        "lorry",
        "A 24 V lorry with lamps that follow its own signals",
        include_str!("../../../examples/lorry.toml"),
    ),
];

/// The text of an example.
pub(crate) fn example(name: &str) -> Option<&'static str> {
    let found = EXAMPLES.iter().find(|(n, ..)| *n == name);
    found.map(|(.., text)| *text)
}

/// The plans that can be opened.
pub(crate) fn plans(found: &[Found], takes_new: bool) -> String {
    let body = html! {
        header { h1 { "Plans" } p.vehicle { "What is to be added to a vehicle, and how" } }
        main {
            @if found.is_empty() { p { "There is no plan here yet." } }
            ul.bare.plans { @for f in found { li { a.big href={ "/" (encoded(&f.name)) "/" } { (f.title.as_deref().unwrap_or(&f.name)) } " " span.source { (f.name) ".toml" } } } }
            @if takes_new { p { a.big href="/new" { "A new plan" } } }
        }
    };
    view::around("Plans", &body)
}

fn asked(id: &str, question: &str, why: &str, field: Markup) -> Markup {
    html! {
        div.field {
            label for=(id) { (question) }
            (field)
            details.why { summary aria-label={ "Why: " (question) } { "why" } p { (why) } }
        }
    }
}

/// What was answered already, and what is wrong with it.
pub(crate) struct Answered<'a> {
    pub said: &'a dyn Fn(&str) -> String,
    pub wrong: Option<&'a str>,
}

impl Answered<'_> {
    fn typed(&self, id: &str, example: &str, needed: bool) -> Markup {
        html! { input id=(id) name=(id) value=((self.said)(id)) placeholder={ "like " (example) } required[needed] autocomplete="off"; }
    }

    fn choice<'w>(&self, id: &str, words: impl Iterator<Item = &'w str>) -> Markup {
        let said = (self.said)(id);
        html! { select id=(id) name=(id) { @for w in words { option value=(w) selected[w == said] { (w) } } } }
    }
}

/// What is asked of somebody who begins.
pub(crate) fn questions(a: &Answered) -> String {
    let body = html! {
        nav.rooms aria-label="Pages" { a href="/" { "Plans" } }
        header { h1 { "A new plan" } }
        main {
            section {
                h2 { "From a few questions" }
                @if let Some(wrong) = a.wrong { p.wrong role="alert" { (wrong) } }
                form.entry method="post" action="/new" {
                    (asked("title", "What do you call this work?", "It heads every page and drawing.", a.typed("title", "Rack lamps", true)))
                    (asked("outline", "What shape is the vehicle?", "You get the places that such a vehicle has, to be renamed, moved and taken out. Lengths are guesses until you measure them.", a.choice("outline", Outline::WORDS.iter().map(|(w, _)| *w))))
                    (asked("vehicle", "Which vehicle is it?", "In your words. Nothing is looked up by it.", a.typed("vehicle", "two-seat farm utility", false)))
                    (asked("volts", "12 volts or 24?", "Cars and vans have 12 V, most lorries 24 V.", a.choice("volts", ["12", "24"].into_iter())))
                    (asked("chemistry", "What kind of battery?", "It stands on its label.", a.choice("chemistry", Chemistry::WORDS.iter().map(|(w, _)| *w))))
                    (asked("capacity", "How many ampere-hours?", "As printed on it, at 20 hours.", a.typed("capacity", "70 Ah", true)))
                    (asked("cranking", "Which cold cranking current?", "As printed on it; leave it out if it is not.", a.typed("cranking", "600 A", false)))
                    (asked("alternator", "What can the alternator give?", "As stamped on it. Leave it out where nothing charges, or if you can’t see it yet.", a.typed("alternator", "90 A", false)))
                    button type="submit" { "Begin" }
                }
            }
            section {
                h2 { "From an example" }
                ul.bare {
                    @for (name, says, _) in EXAMPLES {
                        li { form method="post" action="/new" { input type="hidden" name="example" value=(name); button.plain type="submit" { (says) } } }
                    }
                }
            }
        }
    };
    view::around("A new plan", &body)
}

/// The title and text of a plan made of the answers, or what they lack.
pub(crate) fn answered(said: &dyn Fn(&str) -> String) -> Result<(String, String), &'static str> {
    let title = said("title");
    if title.is_empty() {
        return Err("The work has no name yet: say what you call it.");
    }
    if said("capacity").is_empty() {
        return Err("The battery’s ampere-hours are not said: they are printed on it.");
    }
    let outline = Outline::WORDS.iter().find(|(w, _)| *w == said("outline"));
    let chemistry = Chemistry::WORDS
        .iter()
        .find(|(w, _)| *w == said("chemistry"));
    let amount = |key: &str, unit: &str| match said(key) {
        // Whoever types a bare figure means the unit that was asked for.
        figure if figure.parse::<f64>().is_ok() => format!("{figure} {unit}"),
        said => said,
    };
    let text = start(&Start {
        title: title.clone(),
        vehicle: said("vehicle"),
        outline: outline.map_or(Outline::Car, |(_, o)| *o),
        volts: if said("volts") == "24" { 24 } else { 12 },
        capacity: amount("capacity", "Ah"),
        chemistry: chemistry.map_or(Chemistry::Flooded, |(_, c)| *c),
        cranking: amount("cranking", "A"),
        alternator: amount("alternator", "A"),
    });
    Ok((title, text))
}

/// Where the code is told.
pub(crate) fn code(wrong: Option<&str>) -> String {
    let body = html! {
        header { h1 { "Which code stands on the terminal?" } }
        main {
            @if let Some(wrong) = wrong { p.wrong role="alert" { (wrong) } }
            form.entry method="post" action="/pair" {
                div.field {
                    label for="code" { "Eight letters and figures, on the machine that serves this page" }
                    input id="code" name="code" required autocomplete="off" autocapitalize="characters" spellcheck="false";
                }
                button type="submit" { "Let this browser in" }
            }
            p.source { "What goes between the two is not encrypted: use it on a network that you trust." }
        }
    };
    view::around("Pairing", &body)
}
