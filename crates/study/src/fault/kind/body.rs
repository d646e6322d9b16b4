//! A wire chafed through to the body: at its near end, halfway, at its far end. Ends that share a pin, or a
//! plugged pair, are one spot.

use super::{Each, Kind, guard, to_body, touch_range, wire_words};
use crate::change::Spot;
use crate::design::Design;
use crate::fault::Case;
use loom::{PinId, WireId};
use std::collections::BTreeSet;

pub(super) const KIND: Kind = Kind {
    id: "wire-to-body",
    what: "a wire chafed through to the body",
    source: "what installers count on going wrong, and arc and contact of 0 to 50 mΩ: common practice, no document claimed",
    each,
};

fn each(d: &Design) -> Each {
    let mut seen: BTreeSet<PinId> = BTreeSet::new();
    let mut each = Each::of(Vec::new());
    for (id, w) in d.loom.each_wire() {
        let spots = [
            ("near end", Spot::Pin(w.from)),
            ("middle", Spot::Middle(id)),
            ("far end", Spot::Pin(w.to)),
        ];
        for (place, spot) in spots {
            let known = match spot {
                Spot::Pin(pin) => !seen.insert(plugged(d, pin)),
                Spot::Middle(_) => false,
            };
            match known {
                true => each.alike += 1,
                false => each.cases.push(case(d, id, place, spot)),
            }
        }
    }
    each
}

/// The live half of a plugged pair; else the pin itself.
fn plugged(d: &Design, pin: PinId) -> PinId {
    let mate = d.loom.mates.iter().find(|m| m.far == pin);
    mate.map_or(pin, |m| m.live)
}

fn case(d: &Design, wire: WireId, place: &str, spot: Spot) -> Case {
    let w = d.loom.wire(wire);
    let changes = touch_range(d).map(|ohms| to_body(d, spot, ohms)).to_vec();
    let where_to = match spot {
        Spot::Middle(_) => "halfway along".to_owned(),
        Spot::Pin(_) => format!("at its {place}"),
    };
    let says = format!("{} touches the body {where_to}", wire_words(d, wire));
    Case::new(format!("{}, {place}", w.name), says, changes)
        .named([w.name.clone()])
        .of_circuits(w.circuit)
        .guarded(guard(d, wire))
}
