//! The live circuit: a state is chosen by pressing what is drawn, solved, and drawn as it then is. All of it works without
//! script: every press is a link. The script only saves the jump.

use crate::chosen::{href, on_supply};
use job::quantity::figures;
use job::study::{Chosen, SupplyState};
use job::{Job, Live};
use maud::{Markup, PreEscaped, html};

/// The part of the page that shows a state.
pub(crate) fn state(job: &Job, chosen: &Chosen) -> Option<Markup> {
    let live = job.live(chosen, &|c| href(c))?;
    let loom = job.loom()?;
    Some(html! {
        section id="state" data-address=(href(chosen)) {
            p.state aria-live="polite" { strong { (live.seen.state.name) } @if let Some(why) = &live.seen.settled.failure { ": " (why) } }
            nav.choice aria-label="What the vehicle does" {
                @for (word, supply) in SupplyState::WORDS {
                    a href=(href(&on_supply(chosen, supply))) aria-current=[(supply == chosen.supply).then_some("true")] { (word) }
                    " "
                }
            }
            @if loom.circuits.iter().any(|c| c.switch.is_some()) {
                nav.choice aria-label="Switches" {
                    @for (i, c) in loom.circuits.iter().enumerate().filter(|(_, c)| c.switch.is_some()) {
                        a href=(href(&chosen.pressed(loom, i))) aria-current=[on(chosen, i).then_some("true")] { (c.name) ": " (position(chosen, i)) }
                        " "
                    }
                }
            }
            @for sheet in &live.sheets {
                figure { div.drawing.broad tabindex="0" { (PreEscaped(&sheet.svg)) } }
            }
            (readings(job, &live)?)
        }
    })
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
pub(crate) fn body(job: &Job, chosen: &Chosen) -> Option<Markup> {
    let title = &job.plan()?.job;
    Some(html! {
        header {
            h1 { (title.title) }
            p.vehicle { (title.vehicle) " · " a href="/" { "Report" } }
        }
        main {
            p { "Press a switch or a signal on the drawing, or choose what the vehicle does: it is solved again. Point at a wire or a part for its figures." }
            output id="point" { "Nothing pointed at." }
            (state(job, chosen)?)
            p.source { "Wires as warm as they get if it stays so; while cranking, cold. What was assumed stands in the report." }
        }
        script type="module" src="/live.js" {}
    })
}
