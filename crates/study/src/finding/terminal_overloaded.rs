//! A push-on terminal that carries more than it bears with its wire. Contacts of connectors are chosen by the same table.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::fit::{Termination, at, fit};
use finding::{Finding, Weight};
use loom::{PinId, WireId};
use quantity::{Area, Quantity, figures, in_mm2};
use std::collections::BTreeSet;

pub(super) const ABOUT: About = About {
    id: "terminal-overloaded",
    weight: Weight::Mend,
    asks: "Does every push-on terminal bear its current for as long as it flows?",
    source: "test currents of UL 310 by tab and wire, for a rise of 30 K; where they have no row, the stock row's own",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut met: BTreeSet<PinId> = BTreeSet::new();
    for end in fit(d, answers).ends.iter().flatten() {
        let (Termination::Terminal(t) | Termination::Shared(t)) = end.gets else {
            continue;
        };
        let terminal = &d.stock.terminals[t];
        if terminal.kind != "tab" || !met.insert(end.pin) {
            continue;
        }
        let amps = |w: WireId| answers.wires[w.0 as usize].amps;
        // Into the tab, or handed on over its crimp: whichever is more.
        let (into, most) = at(d.loom, end.pin).fold((0.0, 0.0_f64), |(sum, most), w| {
            let way = if d.loom.wire(w).to == end.pin {
                1.0
            } else {
                -1.0
            };
            (sum + way * amps(w), most.max(amps(w)))
        });
        let carries = into.abs().max(most);
        let area = at(d.loom, end.pin).map(|w| d.conductor(w).area.si()).sum();
        let area = Area::from_si(area);
        let Some(bears) = d.stock.terminal_bears(terminal, area) else {
            continue;
        };
        if carries <= bears.si() * (1.0 + 1e-6) {
            continue;
        }
        found.push(ABOUT.at(
            [d.loom.pin_name(end.pin)],
            format!(
                "the receptacle on {} ({} mm tab) carries {} A, and bears {} A with {} mm² in it",
                d.loom.pin_name(end.pin),
                figures(terminal.tab_mm.unwrap_or_default(), 3),
                figures(carries, 3),
                figures(bears.si(), 3),
                figures(in_mm2(area), 3)
            ),
            "a part with wider tabs or studs, a thicker wire there, or loads shared between two circuits",
        ));
    }
    found
}
