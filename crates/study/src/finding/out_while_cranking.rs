//! A load that works down to a certain voltage gets less while the engine is cranked.

use super::About;
use super::relay_fails::once_each;
use crate::answers::Answers;
use crate::design::Design;
use crate::on::weak;
use finding::{Finding, Weight};
use loom::{LoomCircuit, PartId, PartKind};
use plan::{LoadKind, SupplyState};

pub(super) const ABOUT: About = About {
    id: "out-while-cranking",
    weight: Weight::Note,
    asks: "Does what is on keep working while the engine is cranked on a cold morning?",
    source: "the load's `lowest`; without it, three quarters of nominal for electronics (from memory)",
    find,
};

/// Whether a restart disturbs it: electronics, and whatever the plan gives a `lowest`. A lamp that blinks is no news.
fn minds(d: &Design, load: PartId) -> bool {
    matches!(&d.loom.part(load).kind, PartKind::Load(l) if l.kind == LoadKind::Electronics || l.lowest.is_some())
}

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for s in answers.states.iter().filter(|s| s.settled.rests()) {
        if s.state.supply != SupplyState::Cranking {
            continue;
        }
        let stands = |c: &LoomCircuit| c.cutout.is_none_or(|q| s.settled.energised[q.0 as usize]);
        for w in weak(d, &s.state, &s.settled, stands).filter(|w| minds(d, w.load)) {
            let says = w.says(d, &s.state);
            found.push(ABOUT.at(
                [d.loom.part(w.load).name.clone()],
                format!("{says}: it goes out, and starts again after"),
                "nothing, if it may start again; else a supply of its own, or a battery that cranks at more",
            ));
        }
    }
    once_each(found)
}
