//! Connectors with their contacts, seals and blanking plugs; terminals; barrels of splices.

use super::{Amount, Buy, Rows, pieces};
use crate::design::Design;
use crate::fit::{Fit, Table, Termination, terminal_words, ways};
use loom::PinId;
use std::collections::BTreeSet;

pub(super) fn rows(d: &Design, fit: &Fit, table: &Table) -> Vec<Buy> {
    let more = 1.0 + table.allowance("terminals").value;
    // A tenth more, and one at the least.
    let with_spares = |needed: f64| Amount::Pieces((needed * more).ceil().max(needed + 1.0) as u32);
    let mut found = plugs(d, fit);
    let (mut contacts, mut seals) = contacts(d, fit);
    let mut terminals = Rows::default();
    let mut met: BTreeSet<PinId> = BTreeSet::new();
    for ((_, w), ends) in d.loom.each_wire().zip(&fit.ends) {
        for end in ends {
            match &end.gets {
                Termination::Terminal(t) => {
                    terminals.add(terminal_words(&d.stock.terminals[*t]), 1.0, &w.name);
                }
                // One for all wires at its pin.
                Termination::Shared(t) => {
                    if met.insert(end.pin) {
                        let name = d.loom.pin_name(end.pin);
                        terminals.add(terminal_words(&d.stock.terminals[*t]), 1.0, &name);
                    }
                }
                Termination::Contact { plug, seal } => {
                    let Some(class) = fit.class(d.stock, *plug) else {
                        continue;
                    };
                    if let Some(seal) = seal.map(|s| &class.seals[s]) {
                        let what = format!("{}, for {}", seal.words(), class.name);
                        seals.add(what, 1.0, &w.name);
                    }
                }
                Termination::Its(what) => contacts.add(what.clone(), 1.0, &w.name),
                Termination::Nothing(_) => {}
            }
        }
    }
    found.extend(contacts.of("contact", with_spares));
    found.extend(seals.of("seal", with_spares));
    found.extend(terminals.of("terminal", with_spares));
    found
}

/// Sockets and pins of every way in use, and the seals of loads' own leads, which nobody has measured yet.
fn contacts(d: &Design, fit: &Fit) -> (Rows, Rows) {
    let (mut contacts, mut seals) = (Rows::default(), Rows::default());
    for plug in &fit.plugs {
        let Some(class) = fit.class(d.stock, plug.part) else {
            continue;
        };
        let socket = format!("socket contact for {}", class.name);
        let pin = format!("pin contact for {}", class.name);
        for way in ways(d.loom, plug).iter().filter(|w| w.used()) {
            let lead = way
                .own
                .map(|part| format!("{}’s own lead", d.loom.part(part).name));
            for (what, wires) in [(&socket, &way.live), (&pin, &way.far)] {
                for w in wires {
                    contacts.add(what.clone(), 1.0, &d.loom.wire(*w).name);
                }
                if let Some(lead) = lead.as_ref().filter(|_| wires.is_empty()) {
                    contacts.add(what.clone(), 1.0, lead);
                    if class.sealed {
                        let seal = format!(
                            "seal for {}, by the outside diameter of the lead: measure it",
                            class.name
                        );
                        seals.add(seal, 1.0, lead);
                    }
                }
            }
        }
    }
    (contacts, seals)
}

/// A connector is bought as a pair of halves; a sealed one's spare ways are plugged.
fn plugs(d: &Design, fit: &Fit) -> Vec<Buy> {
    let (mut pairs, mut blanks) = (Rows::default(), Rows::default());
    for plug in &fit.plugs {
        let name = &d.loom.part(plug.part).name;
        let Ok((class, ways)) = &plug.class else {
            continue;
        };
        let class = &d.stock.connectors[*class];
        pairs.add(
            format!("{}, {ways} ways, both halves", class.name),
            1.0,
            name,
        );
        let spare = 2 * (ways - plug.used);
        if class.sealed && spare > 0 {
            blanks.add(
                format!("blanking plug for {}", class.name),
                f64::from(spare),
                name,
            );
        }
    }
    let mut found = pairs.of("connector", pieces);
    found.extend(blanks.of("blanking plug", pieces));
    found
}
