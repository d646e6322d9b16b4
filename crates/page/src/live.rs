//! The live circuit: a state is chosen by pressing what is drawn, solved, and drawn as it then is. All of it works without
//! script: every press is a link. The script only saves the jump.

use crate::asked::{Asked, on_supply};
use job::loom::PartKind;
use job::quantity::figures;
use job::study::{Chosen, FAULTS, Position, SupplyState};
use job::{Aim, Blow, Job, Live, Press, Struck};
use maud::{Markup, PreEscaped, html};

/// What is drawn of a fault, and what came of it.
fn aimed(job: &Job, chosen: &Chosen, asked: &Asked) -> (Aim, Option<Struck>) {
    let kind = asked.fault();
    let struck = kind
        .zip(asked.get("at"))
        .and_then(|(kind, at)| job.strike(chosen, kind, at));
    let mut aim = Aim {
        can: kind.map(|k| job.can_strike(k)).unwrap_or_default(),
        shown: asked.find(),
        ..Aim::default()
    };
    if let Some(s) = &struck {
        let at = asked.get("at").map(str::to_owned).into_iter();
        aim.struck.extend(at.chain(s.struck.iter().cloned()));
        aim.opened.clone_from(&s.opened);
    }
    (aim, struck)
}

/// The part of the page that shows a state, and a fault in it if one is made.
pub(crate) fn state(job: &Job, asked: &Asked) -> Option<Markup> {
    let loom = job.loom()?;
    let chosen = &asked.chosen(loom);
    let (aim, struck) = aimed(job, chosen, asked);
    let press = |p: &Press| match p {
        Press::State(next) => asked.in_state(next).href(),
        Press::Strike(name) => asked.with("at", Some(name)).href(),
        Press::Why(name) => asked.with("why", Some(name)).href() + "#why",
    };
    let live = job.live(chosen, &aim, &press)?;
    Some(html! {
        section id="state" aria-label="The circuit as it is" {
            p.state role="status" { strong { (live.seen.state.name) } @if let Some(why) = restless(job, &live) { ": " (why) } }
            (choices(job, asked, chosen)?)
            (faults(asked))
            @if let Some(s) = &struck { (told(s)) } @else if let Some(why) = missed(&live, asked) { p role="status" { (why) } }
            output id="point" for="drawn" { "Point at a wire or a part for its figures." }
            div id="drawn" {
                @for sheet in &live.sheets {
                    figure { div.drawing.broad tabindex="0" role="group" aria-label=(sheet.title) { (PreEscaped(&sheet.svg)) } }
                }
            }
            @if let Some(chart) = struck.as_ref().and_then(|s| s.chart.as_ref()) {
                figure { div.drawing.card tabindex="0" role="group" aria-label=(chart.title) { (PreEscaped(&chart.svg)) } }
            }
            @if live.seen.settled.rests() { (readings(job, &live)?) }
            p.source { "As it is today: what free ways of fuse boxes are to carry one day is left out here, and counted in the report. Wires as warm as they get if it stays so; while cranking, cold. What was assumed stands in the report." }
        }
    })
}

/// What a person can choose beside the drawing.
fn choices(job: &Job, asked: &Asked, chosen: &Chosen) -> Option<Markup> {
    let loom = job.loom()?;
    let to = |next: &Chosen| asked.in_state(next).href();
    let switched = || {
        let all = loom.circuits.iter().enumerate();
        all.filter(|(_, c)| c.switch.is_some())
    };
    let signals: Vec<_> = loom
        .each_part()
        .filter(|(_, p)| matches!(p.kind, PartKind::Signal(_)))
        .collect();
    let with = |id| {
        let mut next = chosen.clone();
        match next.signals.iter().position(|s| *s == id) {
            Some(at) => {
                next.signals.remove(at);
            }
            None => next.signals.push(id),
        }
        next
    };
    Some(html! {
        nav.choice aria-label="What the vehicle does" {
            @for (word, supply) in SupplyState::WORDS {
                a href=(to(&on_supply(chosen, supply))) aria-current=[(supply == chosen.supply).then_some("true")] { (word) }
                " "
            }
        }
        @if switched().next().is_some() {
            nav.choice aria-label="Switches" {
                @for (i, c) in switched() {
                    a href=(to(&chosen.pressed(loom, i))) aria-current=[(chosen.positions[i] != Position::Off).then_some("true")] { (c.name) ": " (position(chosen, i)) }
                    " "
                }
            }
        }
        @if !signals.is_empty() {
            nav.choice aria-label="Signals of the vehicle" {
                @for (id, part) in &signals {
                    @let there = chosen.signals.contains(id);
                    a href=(to(&with(*id))) aria-current=[there.then_some("true")] { (part.label) ": " (if there { "there" } else { "not there" }) }
                    " "
                }
            }
        }
    })
}

/// Why nothing came of a fault that was asked for.
fn missed(live: &Live, asked: &Asked) -> Option<&'static str> {
    asked.get("at")?;
    asked.fault()?;
    Some(match live.seen.settled.rests() {
        true => "That can’t happen there.",
        false => "This state does not come to rest, so that no fault can be followed in it.",
    })
}

/// Why a state has no figures, if it has none.
fn restless(job: &Job, live: &Live) -> Option<String> {
    let settled = &live.seen.settled;
    if settled.rests() {
        return None;
    }
    let loom = job.loom()?;
    let parts = settled.chattering();
    let names: Vec<&str> = parts
        .iter()
        .map(|id| loom.part(*id).name.as_str())
        .collect();
    let why = settled.failure.clone();
    let round = || {
        format!(
            "{} never comes to rest, on and off again",
            names.join(" and ")
        )
    };
    Some(format!(
        "{}; there are no figures",
        why.unwrap_or_else(round)
    ))
}

/// Why a wire or part is as it is, if that is asked.
pub(crate) fn why(job: &Job, asked: &Asked) -> Option<Markup> {
    let section = job.why(asked.get("why")?)?;
    Some(html! {
        div.reason role="status" {
            (job::pack::section(&section))
            p { a.deed href=(asked.with("why", None).href()) { "Enough" } }
        }
    })
}

/// The kinds of fault to make.
fn faults(asked: &Asked) -> Markup {
    let kind = asked.fault();
    let with = |kind: Option<&str>| asked.with("fault", kind).with("at", None).href();
    html! {
        details id="go-wrong" open[kind.is_some()] data-open=(kind.is_some()) {
            summary { "Make something go wrong" }
            nav.choice aria-label="Faults" {
                a href=(with(None)) aria-current=[kind.is_none().then_some("true")] { "nothing" }
                " "
                @for f in FAULTS {
                    a href=(with(Some(f.id))) aria-current=[(kind == Some(f.id)).then_some("true")] { (f.what) }
                    " "
                }
            }
            @if kind.is_some() { p { "Touch where it happens: a wire, or a part with a frame." } }
        }
    }
}

/// What came of a fault.
fn told(s: &Struck) -> Markup {
    let class = |b: &Blow| match b.weight {
        Some(weight) => format!("finding {weight}"),
        None => "finding".to_owned(),
    };
    html! {
        div id="struck" role="status" {
            @for blow in &s.told {
                article class=(class(blow)) {
                    p.says { strong { (blow.outcome.word()) } " " (blow.says) ": " (blow.comes) }
                }
            }
            @match &s.instead {
                Some(why) => p.wrong { "Tried in “" (s.state) "”, not in the state that is drawn: " (why) "." },
                None => p.source { "Tried in “" (s.state) "”. The drawing and the readings show the circuit as it was until then." },
            }
        }
    }
}

fn position(chosen: &Chosen, circuit: usize) -> &'static str {
    match chosen.positions[circuit] {
        Position::Off => "off",
        Position::Auto => "auto",
        Position::On => "on",
    }
}

/// What loads get and fuses carry.
fn readings(job: &Job, live: &Live) -> Option<Markup> {
    let loom = job.loom()?;
    let settled = &live.seen.settled;
    let loads: Vec<_> = loom
        .circuits
        .iter()
        .flat_map(|c| &c.loads)
        .map(|id| {
            let part = loom.part(*id);
            let volts = settled.across(part.pins[0], part.pins[1]);
            (part, volts, settled.part_amps[id.0 as usize])
        })
        .collect();
    Some(html! {
        div.scroll tabindex="0" role="group" aria-label="Readings" {
            table id="live-loads" {
                caption { "At the loads’ own pins" }
                thead { tr { th scope="col" { "load" } th scope="col" { "what" } th.figure scope="col" { "V" } th.figure scope="col" { "A" } } }
                tbody {
                    @for (part, volts, amps) in loads {
                        tr data-of=(part.name) {
                            td { (part.name) }
                            td { (part.label) }
                            td.figure { (format!("{volts:.2}")) }
                            td.figure { (figures(amps, 3)) }
                        }
                    }
                }
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_state_that_never_rests_shows_no_figures() {
        // A plate of hundreds of amperes on a tired stud: the relay takes its own coil's voltage away.
        let text = include_str!("../../../examples/farm.toml").replace(
            "[[circuit]]\nname   = \"rack lamps\"",
            "[[feed]]\nname = \"tired stud\"\nkind = \"power stud\"\nplace = \"inner wing\"\nresistance = \"0.4 Ω\"\n\n[[circuit]]\nname = \"plate\"\nload = { heater = \"plate\", rated = \"400 A\", place = \"inner wing\" }\nfeed = \"tired stud\"\nrelay = { place = \"inner wing\", kind = \"contactor\" }\nswitch = { place = \"inner wing\" }\nearth = \"battery\"\n\n[[circuit]]\nname   = \"rack lamps\"",
        );
        let name = "farm.toml".to_owned();
        let job = Job::read(job::Source { name, text }, Vec::new());
        assert!(job.errors().is_empty(), "{:?}", job.errors());
        let pairs = [("on", "0"), ("fault", "wire-open"), ("at", "W1.1")];
        let query = pairs.map(|(k, v)| (k.to_owned(), v.to_owned())).into();
        let page = state(&job, &Asked::read(&query)).unwrap().into_string();
        assert!(page.contains("never comes to rest"), "{page}");
        assert!(!page.contains("live-loads") && page.contains("no figures"));
    }
}
