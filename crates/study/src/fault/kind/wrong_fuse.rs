//! A fuse swapped for the next size up. By itself it changes nothing: so each wire that it protects is then
//! chafed through at its far end, where least flows and the larger fuse is slowest.

use super::{Each, Kind, to_body, touch_range};
use crate::change::Spot;
use crate::design::Design;
use crate::fault::Case;
use loom::PartKind;
use quantity::{Quantity, figures};

pub(super) const KIND: Kind = Kind {
    id: "fuse-too-large",
    what: "a fuse swapped for the next size up, and then a wire behind it on the body",
    source: "what installers count on going wrong: common practice",
    each,
};

fn each(d: &Design) -> Each {
    let mut cases = Vec::new();
    for (id, p) in d.loom.each_part() {
        if !matches!(p.kind, PartKind::Fuse(_)) {
            continue;
        }
        let Some(choice) = d.choice.fuses[id.0 as usize] else {
            continue;
        };
        let ratings = &d.stock.fuses[choice.kind].ratings;
        let Some(next) = ratings.get(choice.rating + 1) else {
            continue;
        };
        let protected = d
            .loom
            .each_wire()
            .filter(|(_, w)| w.fuse == Some(id) && !w.bounded);
        let changes = protected
            .flat_map(|(_, w)| touch_range(d).map(|ohms| to_body(d, Spot::Pin(w.to), ohms)));
        let changes: Vec<_> = changes.collect();
        if changes.is_empty() {
            continue;
        }
        let amps = |a: quantity::ElectricCurrent| figures(a.si(), 3);
        let says = format!(
            "{} holds {} A instead of {} A, and a wire behind it touches the body at its far end",
            p.name,
            amps(next.amps),
            amps(ratings[choice.rating].amps)
        );
        let mut case = Case::new(p.name.clone(), says, changes)
            .of_circuits(p.circuit)
            .guarded([id]);
        case.swapped = Some(id);
        cases.push(case);
    }
    Each::of(cases)
}
