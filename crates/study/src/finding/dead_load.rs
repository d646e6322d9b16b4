//! A load that is asked to be on and gets too little voltage to work.

use super::relay_fails::once_each;
use super::{About, lasting};
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
    for s in lasting(answers) {
        for (i, c) in d.loom.circuits.iter().enumerate() {
            let out = |part: Option<loom::PartId>| {
                part.is_some_and(|p| !s.settled.energised[p.0 as usize])
            };
            // A relay that stays out has a finding of its own, and a cut-out is out on purpose.
            if !s.state.asks(d.loom, i) || out(c.relay) || out(c.cutout) {
                continue;
            }
            for load in &c.loads {
                let p = d.loom.part(*load);
                let volts = s.settled.across(p.pins[0], p.pins[1]);
                let Some(lowest) = lowest(d, *load) else {
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
                        mend(d, lowest),
                    ));
                }
            }
        }
    }
    once_each(found)
}

/// No wire helps a load that asks for more than the supply ever gives.
fn mend(d: &Design, lowest: f64) -> &'static str {
    let most = match d.supply.alternator {
        Some(_) => d.supply.regulated,
        None => d.rested_volts(1.0),
    };
    if lowest >= most {
        "a load made for this vehicle's voltage, or a converter before it"
    } else {
        "larger wires on its way, or a load that works at less"
    }
}

/// The least voltage that a load works at: as said, or the usual one of electronics. Lamps, heaters and
/// motors have none.
pub(crate) fn lowest(d: &Design, load: loom::PartId) -> Option<f64> {
    let PartKind::Load(l) = &d.loom.part(load).kind else {
        return None;
    };
    let electronic = matches!(
        l.kind,
        plan::LoadKind::Electronics
            | plan::LoadKind::Socket
            | plan::LoadKind::Lamp(plan::LampKind::Led)
    );
    let frame = crate::load::Frame {
        load: l,
        limits: &d.limits,
        nominal: d.nominal(),
    };
    let usual = electronic.then(|| frame.lowest());
    l.lowest.map(Quantity::si).or(usual)
}
