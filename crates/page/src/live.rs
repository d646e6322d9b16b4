//! The live circuit: a state is chosen by pressing what is drawn, solved, and drawn as it then is. All of it works without
//! script: every press is a link. The script only saves the jump.

use crate::chosen::{Fault, href, on_supply};
use job::quantity::figures;
use job::study::{Chosen, FAULTS, Outcome, SupplyState};
use job::{Aim, Job, Live, Press, Struck};
use maud::{Markup, PreEscaped, html};

/// What is drawn of a fault, and what came of it.
fn aimed(job: &Job, chosen: &Chosen, fault: &Fault) -> (Aim, Option<Struck>) {
    let kind = fault.kind.as_deref();
    let struck = kind
        .zip(fault.at.as_deref())
        .and_then(|(kind, at)| job.strike(chosen, kind, at));
    let mut aim = Aim {
        can: kind.map(|k| job.can_strike(k)).unwrap_or_default(),
        ..Aim::default()
    };
    if let Some(s) = &struck {
        let at = fault.at.clone().into_iter();
        aim.struck.extend(at.chain(s.struck.iter().cloned()));
        aim.opened.clone_from(&s.opened);
    }
    (aim, struck)
}

/// The part of the page that shows a state, and a fault in it if one is made.
pub(crate) fn state(job: &Job, chosen: &Chosen, fault: &Fault) -> Option<Markup> {
    let (aim, struck) = aimed(job, chosen, fault);
    let press = |p: &Press| match p {
        Press::State(next) => fault.added(&href(next)),
        Press::Strike(name) => {
            let at = Some((*name).to_owned());
            Fault {
                at,
                ..fault.clone()
            }
            .added(&href(chosen))
        }
    };
    let live = job.live(chosen, &aim, &press)?;
    let loom = job.loom()?;
    let to = |next: &Chosen| fault.added(&href(next));
    Some(html! {
        section id="state" {
            p.state aria-live="polite" { strong { (live.seen.state.name) } @if let Some(why) = restless(job, &live) { ": " (why) } }
            nav.choice aria-label="What the vehicle does" {
                @for (word, supply) in SupplyState::WORDS {
                    a href=(to(&on_supply(chosen, supply))) aria-current=[(supply == chosen.supply).then_some("true")] { (word) }
                    " "
                }
            }
            @if loom.circuits.iter().any(|c| c.switch.is_some()) {
                nav.choice aria-label="Switches" {
                    @for (i, c) in loom.circuits.iter().enumerate().filter(|(_, c)| c.switch.is_some()) {
                        a href=(to(&chosen.pressed(loom, i))) aria-current=[on(chosen, i).then_some("true")] { (c.name) ": " (position(chosen, i)) }
                        " "
                    }
                }
            }
            (faults(chosen, fault))
            @if let Some(s) = &struck { (told(s)) } @else if fault.at.is_some() { p { "That can’t happen there." } }
            @for sheet in &live.sheets {
                figure { div.drawing.broad tabindex="0" { (PreEscaped(&sheet.svg)) } }
            }
            @if let Some(chart) = struck.as_ref().and_then(|s| s.chart.as_ref()) {
                figure { div.drawing.card tabindex="0" { (PreEscaped(&chart.svg)) } }
            }
            @if live.seen.settled.rests() { (readings(job, &live)?) }
        }
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

/// The kinds of fault to make.
fn faults(chosen: &Chosen, fault: &Fault) -> Markup {
    let with = |kind: Option<&str>| {
        let kind = kind.map(str::to_owned);
        Fault { kind, at: None }.added(&href(chosen))
    };
    html! {
        details open[fault.kind.is_some()] {
            summary { "Make something go wrong" }
            nav.choice aria-label="Faults" {
                a href=(with(None)) aria-current=[fault.kind.is_none().then_some("true")] { "nothing" }
                " "
                @for f in FAULTS {
                    a href=(with(Some(f.id))) aria-current=[(fault.kind.as_deref() == Some(f.id)).then_some("true")] { (f.what) }
                    " "
                }
            }
            @if fault.kind.is_some() { p { "Touch where it happens: a wire, or a part with a frame." } }
        }
    }
}

/// What came of a fault.
fn told(s: &Struck) -> Markup {
    let class = |outcome: &Outcome| match outcome {
        Outcome::Overheats => "finding stop",
        Outcome::Opens | Outcome::Dead | Outcome::Nothing => "finding",
        _ => "finding mend",
    };
    html! {
        div id="struck" {
            @for (says, comes, outcome) in &s.told {
                article class=(class(outcome)) {
                    p.says { strong { (outcome.word()) } " " (says) ": " (comes) }
                }
            }
            p.source { "Tried in “" (s.state) "”." }
        }
    }
}

fn on(chosen: &Chosen, circuit: usize) -> bool {
    chosen.positions[circuit] != job::study::Position::Off
}

fn position(chosen: &Chosen, circuit: usize) -> &'static str {
    match chosen.positions[circuit] {
        job::study::Position::Off => "off",
        job::study::Position::Auto => "auto",
        job::study::Position::On => "on",
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
    })
}

/// The body of the whole page.
pub(crate) fn body(job: &Job, chosen: &Chosen, fault: &Fault) -> Option<Markup> {
    let title = &job.plan()?.job;
    Some(html! {
        header {
            h1 { (title.title) }
            p.vehicle { (title.vehicle) " · " a href="/" { "Report" } }
        }
        main {
            p { "Press a switch or a signal on the drawing, or choose what the vehicle does: it is solved again. Point at a wire or a part for its figures." }
            output id="point" { "Nothing pointed at." }
            (state(job, chosen, fault)?)
            p.source { "Wires as warm as they get if it stays so; while cranking, cold. What was assumed stands in the report." }
        }
        script type="module" src="/live.js" {}
    })
}
