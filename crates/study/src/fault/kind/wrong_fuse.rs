//! A fuse swapped for the next size up. By itself it changes nothing: so each wire that it protects is then
//! chafed through at its far end, where least flows and the larger fuse is slowest; and each load behind it draws as much as
//! the larger fuse lets through longest.

use super::overload::draws;
use super::{Each, Kind, fuse_before, to_body, touch_range};
use crate::change::{Change, Spot};
use crate::design::Design;
use crate::fault::Case;
use loom::PartKind;
use quantity::{Quantity, figures};

pub(super) const KIND: Kind = Kind {
    id: "fuse-too-large",
    what: "a fuse swapped for the next size up, and then a wire behind it on the body or a load that draws too much",
    source: super::INSTALLERS,
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
        let held = format!(
            "{} holds {} A instead of {} A",
            p.name,
            amps(next.amps),
            amps(ratings[choice.rating].amps)
        );
        let swapped = |at: String, then: String, changes: Vec<Change>| {
            let mut case = Case::new(at, format!("{held}, and {then}"), changes)
                .named([p.name.clone()])
                .of_circuits(p.circuit)
                .guarded([id]);
            case.swapped = Some(id);
            case
        };
        let touches = "a wire behind it touches the body at its far end";
        cases.push(swapped(p.name.clone(), touches.to_owned(), changes));
        let scale = next.amps.si() / ratings[choice.rating].amps.si();
        for (load, l) in d.loom.each_part() {
            if !matches!(l.kind, PartKind::Load(_)) || fuse_before(d, load) != Some(id) {
                continue;
            }
            let larger = |c: Change| Change {
                draws: c.draws.map(|(load, amps)| (load, amps * scale)),
                ..c
            };
            let changes = draws(d, load, id).into_iter().map(larger);
            let at = format!("{}, {} overloads", p.name, l.name);
            let then = format!("{} ({}) draws more than it should", l.name, l.label);
            let mut case = swapped(at, then, changes.collect());
            case.slow = true;
            cases.push(case);
        }
    }
    Each::of(cases)
}
