//! Where a load's volts go: the way of its current from the battery's plus post out to it and back to the minus post, piece
//! by piece, in the state in which it loses most.

use crate::answers::{Answers, LoadAnswer};
use loom::{Loom, PinId, WireId};

/// A piece of the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FallIn {
    /// A wire with the joints at its ends.
    Wire(WireId),
    /// From one pin to another, without a wire of the loom: a fuse, a contact, a plug, the vehicle's own wiring or body.
    Between(PinId, PinId),
    /// The load itself, which is not lost.
    Load,
}

/// What is lost in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// In what.
    pub within: FallIn,
    /// V, from the side nearer to the plus post to the other.
    pub volts: f64,
}

/// Less is lost nowhere that is worth telling, V.
const LEAST: f64 = 0.5e-3;

/// The pieces in the order in which current passes them. Their volts, the load's with them, add up to the battery's,
/// but for pieces that lose less than half a millivolt.
pub fn falls(loom: &Loom, answers: &Answers, load: &LoadAnswer) -> Vec<Fall> {
    let settled = &answers.states[load.state].settled;
    let volts = |pin: PinId| settled.at(pin);
    let posts = &loom.parts[0].pins;
    let own = &loom.part(load.part).pins;
    let mut out = Vec::new();
    let mut at = posts[0];
    let step = |out: &mut Vec<Fall>, from: PinId, to: PinId| {
        let lost = volts(from) - volts(to);
        if from != to && lost.abs() >= LEAST {
            out.push(Fall {
                within: FallIn::Between(from, to),
                volts: lost,
            });
        }
    };
    let mut passed = false;
    for (wire, _) in &load.way {
        let w = loom.wire(*wire);
        // Current runs down: it comes in at the end that is higher.
        let (near, far) = match volts(w.from) >= volts(w.to) {
            true => (w.from, w.to),
            false => (w.to, w.from),
        };
        if !passed && volts(near) <= volts(own[1]) + LEAST && volts(own[0]) > volts(own[1]) {
            step(&mut out, at, own[0]);
            out.push(of_load(load));
            (at, passed) = (own[1], true);
        }
        step(&mut out, at, near);
        out.push(Fall {
            within: FallIn::Wire(*wire),
            volts: volts(near) - volts(far),
        });
        at = far;
    }
    if !passed {
        step(&mut out, at, own[0]);
        out.push(of_load(load));
        at = own[1];
    }
    step(&mut out, at, posts[1]);
    out
}

fn of_load(load: &LoadAnswer) -> Fall {
    Fall {
        within: FallIn::Load,
        volts: load.volts,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Habits;

    /// Kirchhoff's second law: round the way, what is lost and what the load gets is what the battery gives.
    #[test]
    fn what_is_lost_and_what_the_load_gets_add_up_to_the_battery() {
        for text in [
            include_str!("../../../examples/farm.toml"),
            include_str!("../../../examples/camper.toml"),
            include_str!("../../../examples/lorry.toml"),
        ] {
            let stock = stock::Stock::embedded();
            let plan = plan::Plan::read(text).0.unwrap();
            let loom = loom::build(&plan, &stock).0.unwrap();
            let habits = Habits::of(&plan, &loom, &stock).quick();
            let answers = crate::study(&loom, &stock, &habits);
            assert!(!answers.loads.is_empty());
            for load in &answers.loads {
                let falls = falls(&loom, &answers, load);
                let settled = &answers.states[load.state].settled;
                let posts = &loom.parts[0].pins;
                let given = settled.across(posts[0], posts[1]);
                let all: f64 = falls.iter().map(|f| f.volts).sum();
                let slack = LEAST * (falls.len() + 4) as f64;
                assert!((all - given).abs() < slack, "{all} of {given}: {falls:?}");
                let wires = falls.iter().filter(|f| matches!(f.within, FallIn::Wire(_)));
                assert_eq!(wires.count(), load.way.len());
                assert!(falls.iter().all(|f| f.volts >= -1e-9), "{falls:?}");
                let lost = load.drop_percent / 100.0 * loom.supply.system.nominal();
                assert!((all - load.volts - lost).abs() < slack, "{lost} of {all}");
            }
        }
    }
}
