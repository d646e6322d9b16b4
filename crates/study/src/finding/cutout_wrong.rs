//! Battery protection that is set so that it protects nothing, or never lets its circuit in.

use super::{About, lasting};
use crate::answers::{Answers, StateAnswer};
use crate::design::Design;
use finding::{Finding, Weight};
use loom::{PartId, PartKind};
use plan::SupplyState;
use quantity::{Quantity, figures};

pub(super) const ABOUT: About = About {
    id: "cutout-wrong",
    weight: Weight::Mend,
    asks: "Is every cut-out set between a battery that is nearly empty and one that is charging?",
    source: "the battery's rested voltages by kind and charge; the alternator's set-point",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let part = |name: &str| d.limits.value(name);
    let (empty, charging) = (d.rested_volts(0.1), d.supply.regulated);
    let resting = d.rested_volts(d.supply.charge);
    let mut found = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Cutout(c) = &p.kind else {
            continue;
        };
        let back = match d.supply.alternator {
            Some(_) => charging,
            None => d.rested_volts(1.0),
        };
        let what = if c.opens.si() < empty - part("cut-out far too low") * d.nominal() {
            format!(
                "opens at {}, and even a battery at a tenth of its charge rests at {} V: it protects nothing",
                c.opens.show(),
                figures(empty, 3)
            )
        } else if c.closes.si() > back {
            format!(
                "closes above {}, and the supply never gets above {} V: once out it stays out",
                c.closes.show(),
                figures(back, 3)
            )
        } else if always_out(d, answers, (id, p.circuit)) {
            format!(
                "opens at {} and closes above {}, and the battery rests at {} V with the engine off, less what its load pulls it down by: it is out as soon as the engine stops",
                c.opens.show(),
                c.closes.show(),
                figures(resting, 3)
            )
        } else {
            continue;
        };
        let below = part("cut-out below rest") * d.nominal();
        let opens = d.rested_volts(part("cut-out opens at")) - below;
        let full = d.rested_volts(1.0);
        let closes = full + part("cut-out closes at") * (back - full);
        found.push(ABOUT.at(
            [p.name.clone()],
            format!("{} ({}) {what}", p.name, p.label),
            format!(
                "about opens = \"{} V\", closes = \"{} V\" on this battery: at a third of its charge, and above what it rests at when full",
                figures(opens, 3),
                figures(closes, 3)
            ),
        ));
    }
    found
}

/// Whether it is out in every state with the engine off in which its circuit is asked for.
fn always_out(d: &Design, answers: &Answers, (cutout, circuit): (PartId, Option<usize>)) -> bool {
    let off = |s: &&StateAnswer| {
        matches!(s.state.supply, SupplyState::KeyOn | SupplyState::Parked)
            && circuit.is_some_and(|c| s.state.asks(d.loom, c))
    };
    let mut states = lasting(answers).filter(off).peekable();
    states.peek().is_some() && states.all(|s| !s.settled.energised[cutout.0 as usize])
}
