//! What is open: wires, plugs, earths, fuses.

use super::{Cause, circuits_of, pin_times, place_times};
use crate::change::Change;
use crate::design::Design;
use crate::lost::Lost;
use loom::PartKind;
use plan::EarthReturn;

pub(super) fn all(d: &Design) -> Vec<Cause> {
    let mut found = Vec::new();
    for (id, w) in d.loom.each_wire() {
        let times = pin_times(d, w.from).max(pin_times(d, w.to));
        let says = format!(
            "{} is open, or off at {} or {}",
            w.name,
            d.loom.pin_name(w.from),
            d.loom.pin_name(w.to)
        );
        found.push(
            Cause::new("wire-open", &w.name, says, Change::lost(Lost::Wire(id)))
                .of(w.circuit)
                .often(d, "wire open", times)
                .mended("look at both ends; else lay a new one beside it"),
        );
    }
    for (id, p) in d.loom.each_part() {
        let times = place_times(d, p.place);
        let of = format!("{} ({})", p.name, p.label);
        let cause = match &p.kind {
            PartKind::Connector { .. } => Cause::new(
                "plug-off",
                &p.name,
                format!("{of} is unplugged"),
                Change::lost(Lost::Connector(id)),
            )
            .often(d, "plug off", times)
            .mended("push it together until it latches"),
            PartKind::Earth(e) if e.to == EarthReturn::Body => Cause::new(
                "earth-off",
                &p.name,
                format!("{of} is off the body"),
                Change::lost(Lost::Earth(id)),
            )
            .often(d, "earth off", times)
            .mended("bolt it on again on bare metal"),
            PartKind::Fuse(_) => {
                let Some(change) = Change::default().blow(id) else {
                    continue;
                };
                Cause::new(
                    "fuse-open",
                    &p.name,
                    format!("{of} is open, with nothing else amiss any more"),
                    change,
                )
                .often(d, "fuse open", times)
                .mended("put in a new one of the same rating, and see whether it holds")
            }
            _ => continue,
        };
        found.push(cause.of(circuits_of(d, id)));
    }
    found
}
