//! A load that works down to a certain voltage gets less while the engine is cranked.

use super::dead_load::lowest;
use super::relay_fails::once_each;
use super::{About, solved};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use plan::SupplyState;
use quantity::figures;

pub(super) const ABOUT: About = About {
    id: "out-while-cranking",
    weight: Weight::Note,
    asks: "Does what is on keep working while the engine is cranked on a cold morning?",
    source: "the load's `lowest`; without it, three quarters of nominal for electronics (from memory)",
    find,
};

/// The least voltage of what a restart disturbs: electronics, and whatever the plan gives a `lowest`. A lamp
/// that blinks is no news.
fn minds(d: &Design, load: loom::PartId) -> Option<f64> {
    let loom::PartKind::Load(l) = &d.loom.part(load).kind else {
        return None;
    };
    let electronic = l.kind == plan::LoadKind::Electronics;
    lowest(d, load).filter(|_| electronic || l.lowest.is_some())
}

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for s in solved(answers).filter(|s| s.state.supply == SupplyState::Cranking) {
        for (i, c) in d.loom.circuits.iter().enumerate() {
            let out = c.cutout.is_some_and(|q| !s.settled.energised[q.0 as usize]);
            if !s.state.asks(d.loom, i) || out || !s.settled.chatter.is_empty() {
                continue;
            }
            for load in &c.loads {
                let p = d.loom.part(*load);
                let Some(lowest) = minds(d, *load) else {
                    continue;
                };
                let volts = s.settled.across(p.pins[0], p.pins[1]);
                if volts < lowest {
                    found.push(ABOUT.at(
                        [p.name.clone()],
                        format!(
                            "{} ({}) gets {} V in “{}” and works from {} V up: it goes out, and starts again after",
                            p.name,
                            p.label,
                            figures(volts, 3),
                            s.state.name,
                            figures(lowest, 3)
                        ),
                        "nothing, if it may start again; else a supply of its own, or a battery that cranks at more",
                    ));
                }
            }
        }
    }
    once_each(found)
}
