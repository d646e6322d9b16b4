//! Switches and contacts: what they must carry by the kind of load, and the switch chosen.

use crate::design::Design;
use crate::load;
use crate::settle::Settled;
use loom::{PartId, PartKind, SwitchPart};
use quantity::Quantity;
use stock::ContactLoad;

/// What a contact carries, and the kind of load that is hardest on it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Carried {
    pub amps: f64,
    pub load: ContactLoad,
}

/// What the contact of a switch or relay carries at most.
pub(crate) fn carried(
    d: &Design,
    settled: &[impl std::borrow::Borrow<Settled>],
    part: PartId,
) -> Carried {
    let amps = settled
        .iter()
        .map(|s| s.borrow().part_amps[part.0 as usize].abs())
        .fold(0.0, f64::max);
    let works_coil = match &d.loom.part(part).kind {
        PartKind::Switch(s) => s.breaks.is_some(),
        PartKind::Relay(r) => r.condition,
        _ => false,
    };
    if works_coil {
        return Carried {
            amps,
            load: ContactLoad::Inductive,
        };
    }
    let circuit = d.loom.part(part).circuit;
    let of_circuit = d
        .loom
        .circuits
        .iter()
        .enumerate()
        .filter(|(i, _)| Some(*i) == circuit);
    let kinds = of_circuit
        .flat_map(|(_, c)| &c.loads)
        .filter_map(|l| crate::size::as_load(d, *l));
    let hardest = kinds
        .map(|l| load::model(l.kind).contact)
        .max_by(|a, b| factor(d, *a).total_cmp(&factor(d, *b)));
    Carried {
        amps,
        load: hardest.unwrap_or(ContactLoad::Resistive),
    }
}

/// Rating needed over current, for a switch.
pub(crate) fn factor(d: &Design, load: ContactLoad) -> f64 {
    let row = d.stock.derating(d.loom.supply.system.volts(), load);
    row.map_or_else(
        || panic!("stock has no derating for {}", load.word()),
        |r| r.factor,
    )
}

/// The class of switch taken when the plan names none.
const USUAL: &str = "rocker";

/// Chooses the class and rating of every switch.
pub(crate) fn choose(d: &mut Design, settled: &[Settled]) {
    let mut chosen = d.choice.switches.clone();
    for (id, part) in d.loom.each_part() {
        if let PartKind::Switch(s) = &part.kind {
            let c = carried(d, settled, id);
            chosen[id.0 as usize] = pick(d, s, c.amps * factor(d, c.load));
        }
    }
    d.choice.switches = chosen;
}

/// The smallest switch with the rating needed, or the largest there is.
fn pick(d: &Design, s: &SwitchPart, amps: f64) -> Option<usize> {
    let name = s.kind.as_ref().map_or(USUAL, |k| k.value.as_str());
    let volts = d.loom.supply.system.volts();
    let index = |k: &stock::SwitchKind| d.stock.switches.iter().position(|x| x == k);
    if let Some(found) = d.stock.switch_for(name, s.positions, volts, amps) {
        return index(found);
    }
    let of =
        |k: &&stock::SwitchKind| k.name == name && k.positions == s.positions && k.volts == volts;
    let largest = d
        .stock
        .switches
        .iter()
        .filter(of)
        .max_by(|a, b| a.rating.si().total_cmp(&b.rating.si()));
    largest.and_then(index)
}
