//! A signal of the vehicle that is asked for more than it can give.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::fixed::rooted_at;
use crate::network::{coil_kelvin, coil_ohms};
use finding::{Finding, Weight};
use loom::{PartId, PartKind};
use plan::SupplyState;
use quantity::{Quantity, amperes};

pub(super) const ABOUT: About = About {
    id: "signal-overloaded",
    weight: Weight::Mend,
    asks: "Is every signal of the vehicle left as good as unloaded?",
    source: "the plan's `gives` of the signal; common practice: monitored lamp feeds give little",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Signal(s) = &p.kind else {
            continue;
        };
        let warm = answers
            .states
            .iter()
            .map(|s| s.settled.part_amps[id.0 as usize].abs());
        // Settled with coils as warm as they get; the most is drawn by cold ones.
        let taken = warm.fold(0.0, f64::max) * cold_over_warm(d, id);
        if taken <= 0.0 {
            continue;
        }
        let shown = amperes(taken).show();
        match s.gives {
            Some(gives) if taken > gives.si() * (1.0 + 1e-9) => found.push(ABOUT.at(
                [p.name.clone()],
                format!("{shown} is taken from the signal “{}” with coils cold, and it gives {}", p.label, gives.show()),
                "a relay with a weaker coil, or an interface that reads the signal without loading it",
            )),
            Some(_) => {}
            None => {
                let mut f = ABOUT.at(
                    [p.name.clone()],
                    format!("{shown} is taken from the signal “{}”, and the plan does not say what it gives", p.label),
                    "measure or look up what the vehicle allows there, and add gives = \"…\"",
                );
                f.weight = Weight::Note;
                found.push(f);
            }
        }
    }
    found
}

/// How much more the coils on a signal draw at 20 °C, at the class's least resistance, than settled.
fn cold_over_warm(d: &Design, signal: PartId) -> f64 {
    let mut most: f64 = 1.0;
    for p in &d.loom.parts {
        let PartKind::Relay(r) = &p.kind else {
            continue;
        };
        let Some(kind) = d.stock.relay(&r.kind, d.loom.supply.system.volts()) else {
            continue;
        };
        if rooted_at(d.loom, p.pins[2]) != Some(signal)
            && p.circuit
                .is_none_or(|c| d.loom.circuits[c].auto != Some(signal))
        {
            continue;
        }
        let warm = coil_ohms(kind, coil_kelvin(d, SupplyState::Driving, p.place, true));
        let least = kind.coil_spread.0;
        let cold = kind
            .suppression_ohms
            .map_or(least, |s| least * s / (least + s));
        most = most.max(warm / cold);
    }
    most
}
