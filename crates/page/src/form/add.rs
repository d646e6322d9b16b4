//! A new entry: the few questions that it can't do without.

use super::Page;
use super::field::{example, why};
use job::plan::ask::{Ask, AskTable, Asked, LOAD, Of, Stands, Takes};
use job::plan::form::{How, NEW_LOAD, new_asks};
use maud::{Markup, html};

/// What is mostly added; anything else can be typed.
const KINDS: [&str; 11] = [
    "LED lamp",
    "filament lamp",
    "pump",
    "fan",
    "compressor",
    "winch",
    "fridge",
    "radio",
    "heater",
    "USB socket",
    "lighter socket",
];

struct New<'a> {
    page: &'a Page<'a>,
    list: String,
}

/// The form of a new entry.
pub(super) fn form(page: &Page, t: &'static AskTable) -> Markup {
    let new = New {
        page,
        list: t.key.to_owned(),
    };
    html! {
        form.entry.new method="post" action=(page.to("add")) data-new=(t.key) {
            (page.seen())
            input type="hidden" name="list" value=(t.key);
            p.is { (t.is) }
            @match t.key {
                "circuit" => (new.circuit(t.asks)),
                "place" => { (new.name(t)) (new.asks(t.key)) (new.reached()) }
                _ => {
                    @if t.stands == Stands::Named { (new.name(t)) }
                    (new.asks(t.key))
                }
            }
            (new.refused())
            button type="submit" { "Add it" }
            " " a.deed href=(page.asked.with("edit", None).href()) { "Not now" }
        }
    }
}

/// The form of a new load of a circuit.
pub(super) fn load(page: &Page, list: &str) -> Markup {
    let new = New {
        page,
        list: list.to_owned(),
    };
    html! {
        form.entry.new method="post" action=(page.to("add")) data-new=(list) {
            (page.seen())
            input type="hidden" name="list" value=(list);
            @for key in NEW_LOAD { (new.of_load(key, "")) }
            (new.refused())
            button type="submit" { "Add it" }
            " " a.deed href=(page.asked.with("edit", list.strip_suffix(".load")).href()) { "Not now" }
        }
    }
}

/// The id of the first field of a new load’s form.
pub(super) fn first(list: &str) -> String {
    id(list, NEW_LOAD[0])
}

fn id(list: &str, key: &str) -> String {
    let list: String = list.chars().filter(char::is_ascii_alphanumeric).collect();
    format!("new-{list}-{}", key.replace('.', "-"))
}

impl New<'_> {
    /// Why it was not added, if it was just tried.
    fn refused(&self) -> Markup {
        let told = self.page.seen.refused.as_ref();
        let told = told.filter(|(list, _)| *list == self.list);
        html! { @if let Some((_, why)) = told { p.told.wrong role="alert" { (why) } } }
    }

    fn id(&self, key: &str) -> String {
        id(&self.list, key)
    }

    fn name(&self, t: &AskTable) -> Markup {
        let id = self.id("name");
        html! {
            div.field {
                label for=(id) { "What do you call this " (t.what) "?" }
                input id=(id) name="name" required autocomplete="off";
            }
        }
    }

    fn asks(&self, key: &str) -> Markup {
        html! { @for ask in new_asks(key) { (self.field(ask, ask.key)) } }
    }

    /// From where a new place is reached.
    fn reached(&self) -> Markup {
        let places = self.page.known.names(Of::Place);
        let (from, length) = (self.id("from"), self.id("length"));
        html! {
            @if !places.is_empty() {
                div.field {
                    label for=(from) { "From which place does a wire reach it?" }
                    select id=(from) name="from" { @for p in &places { option value=(p) { (p) } } }
                    (why("from where it is reached", "A stretch of the loom is laid from there to the new place."))
                }
                div.field {
                    label for=(length) { "How long is the way?" }
                    input id=(length) name="length" placeholder="like 1.8 m" required autocomplete="off";
                    (why("how long the way is", "As long as a string laid as the wire will lie."))
                }
                div.field {
                    label { input type="checkbox" name="guessed" value="yes"; " That length is a guess; I shall measure it" }
                }
            }
        }
    }

    fn field(&self, ask: &Ask, key: &str) -> Markup {
        let id = self.id(key);
        let known = &self.page.known;
        let choice = match ask.takes {
            Takes::One(of) => Some(of().into_iter().map(str::to_owned).collect()),
            Takes::Named(of) => Some(known.names(of)),
            _ => None,
        };
        html! {
            div.field {
                @match (ask.takes, choice) {
                    (Takes::AllNamed(of), _) if ask.key == "between" => {
                        fieldset.many {
                            legend { (ask.question) }
                            @for i in 0..2 {
                                label.hidden for={ (id) "-" (i) } { (["from", "to"][i]) }
                                select id={ (id) "-" (i) } name=(key) { @for (n, p) in known.names(of).iter().enumerate() { option value=(p) selected[n == i] { (p) } } }
                            }
                        }
                    }
                    (Takes::AllNamed(of), _) => {
                        fieldset.many {
                            legend { (ask.question) }
                            @for name in known.names(of) { label { input type="checkbox" name=(key) value=(name); " " (name) } }
                        }
                    }
                    (Takes::YesNo(_), _) => label { input type="checkbox" name=(key) value="yes"; " " (ask.question) },
                    (Takes::Named(_), Some(words)) => {
                        label for=(id) { (ask.question) }
                        select id=(id) name=(key) required { option value="" { "choose" } (options(&words)) }
                    }
                    (_, Some(words)) => {
                        label for=(id) { (ask.question) }
                        select id=(id) name=(key) { (options(&words)) }
                    }
                    _ => {
                        label for=(id) { (ask.question) }
                        input id=(id) name=(key) placeholder=[example(ask).map(|e| format!("like {e}"))] required[ask.asked == Asked::Always] autocomplete="off" autocapitalize="off";
                    }
                }
                (why(ask.question, ask.why))
            }
        }
    }

    fn of_load(&self, key: &str, within: &str) -> Markup {
        let full = format!("{within}{key}");
        let id = self.id(&full);
        let ask = LOAD.iter().find(|a| a.key == key);
        html! {
            @match (key, ask) {
                ("kind", _) => {
                    div.field {
                        label for=(id) { "What is it?" }
                        input id=(id) name=(full) list="kinds" placeholder="like LED lamp" required autocomplete="off" autocapitalize="off";
                        datalist id="kinds" { @for k in KINDS { option value=(k) {} } }
                        (why("what it is", "A filament lamp draws ten times its current for a moment, a motor several times while it starts; electronics draw more when the voltage falls. Choose the nearest, or type your own."))
                    }
                }
                ("count", Some(ask)) => {
                    div.field {
                        label for=(id) { (ask.question) }
                        input id=(id) name=(full) value="1" inputmode="numeric" required autocomplete="off";
                        (why(ask.question, ask.why))
                    }
                }
                (_, Some(ask)) => (self.field(ask, &full)),
                _ => {}
            }
        }
    }

    /// What is asked of a new circuit.
    fn circuit(&self, asks: &'static [Ask]) -> Markup {
        let known = &self.page.known;
        let ask = |key: &str| asks.iter().find(|a| a.key == key);
        let boxes = known.names(Of::Box);
        let (how, place, source) = (self.id("how"), self.id("switch.place"), self.id("box"));
        html! {
            @if let Some(a) = ask("name") { (self.field(a, "name")) }
            @for key in NEW_LOAD { (self.of_load(key, "load.")) }
            @if boxes.is_empty() {
                @if let Some(a) = ask("feed") { (self.field(a, "feed")) }
            } @else {
                div.field {
                    label for=(source) { "Which fuse box feeds it?" }
                    select id=(source) name="box" { (options(&boxes)) }
                    @if let Some(a) = ask("box") { (why(a.question, a.why)) }
                }
            }
            div.field {
                label for=(how) { "How is it turned on?" }
                select id=(how) name="how" { @for (word, says, _) in How::WORDS { option value=(word) { (says) } } }
                (why("how it is turned on", "A small switch with a relay suits anything above a few amperes: the thick wire stays short and the dash stays cool."))
            }
            div.field {
                label for=(place) { "Where is the switch, if it has one?" }
                select id=(place) name="switch.place" { (options(&self.dash_first())) }
                (why("where the switch is", "Where the hand is; a small wire goes there."))
            }
            @if let Some(a) = ask("earth") { (self.field(a, "earth")) }
        }
    }

    /// The places, those in the cabin first.
    fn dash_first(&self) -> Vec<String> {
        let top = self.page.written.top();
        let cabin = |name: &String| {
            let places = top.named("place");
            let mine = places.iter().find(|e| e.name == Some(name.as_str()));
            mine.and_then(|e| e.node.get("zone")?.0.typed()).as_deref() != Some("cabin")
        };
        let mut places = self.page.known.names(Of::Place);
        places.sort_by_key(cabin);
        places
    }
}

fn options(words: &[String]) -> Markup {
    html! { @for word in words { option value=(word) { (word) } } }
}
