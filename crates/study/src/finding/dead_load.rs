//! A load that is asked to be on and gets too little voltage to work.

use super::relay_fails::once_each;
use super::{About, solved};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::{Quantity, figures};

pub(super) const ABOUT: About = About {
    id: "dead-load",
    weight: Weight::Mend,
    asks: "Does every load that is on get the least voltage it works at?",
    source: "the load's `lowest`; without it, three quarters of nominal for electronics (from memory)",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for s in solved(answers) {
        for (i, c) in d.loom.circuits.iter().enumerate() {
            let relay_out = c.relay.is_some_and(|r| !s.settled.energised[r.0 as usize]);
            if !s.state.asks(d.loom, i) || relay_out {
                continue;
            }
            for load in &c.loads {
                let p = d.loom.part(*load);
                let PartKind::Load(l) = &p.kind else { continue };
                let volts = s.settled.at(p.pins[0]) - s.settled.at(p.pins[1]);
                let electronic = matches!(
                    l.kind,
                    plan::LoadKind::Electronics
                        | plan::LoadKind::Socket
                        | plan::LoadKind::Lamp(plan::LampKind::Led)
                );
                let usual =
                    electronic.then(|| d.limits.value("lowest volts of electronics") * d.nominal());
                let Some(lowest) = l.lowest.map(Quantity::si).or(usual) else {
                    continue;
                };
                if volts < lowest {
                    found.push(ABOUT.at(
                        [p.name.clone()],
                        format!(
                            "{} ({}) gets {} V in “{}” and works from {} V up",
                            p.name,
                            p.label,
                            figures(volts, 3),
                            s.state.name,
                            figures(lowest, 3)
                        ),
                        "larger wires on its way, or a load that works at less",
                    ));
                }
            }
        }
    }
    once_each(found)
}
