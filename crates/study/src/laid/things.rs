//! How wide each thing on a wire's end is: what must pass where a finished end passes.

use super::Laying;
use crate::design::Design;
use crate::fit::{Fit, Termination, WireEnd, terminal_words};
use loom::{PartId, PartKind, WireId};
use quantity::{Length, Quantity, millimetres};

/// What is on one end of a wire.
#[derive(Clone, Debug)]
pub(super) struct Thing {
    /// In words.
    pub what: String,
    /// Its widest; none where nothing tells, or where it is joined on the vehicle.
    pub across: Option<Length>,
    /// The connector whose half it belongs to, and that half's live side.
    pub plug: Option<(PartId, bool)>,
}

/// The end of a wire.
pub(super) fn thing(
    d: &Design,
    table: &Laying,
    fit: &Fit,
    (wire, end): (WireId, &WireEnd),
) -> Thing {
    let part = d.loom.part_of(end.pin);
    let plain = |what: String, across: Option<Length>| Thing {
        what,
        across,
        plug: None,
    };
    match (&end.gets, &part.kind) {
        (_, PartKind::Load(_) | PartKind::Signal(_)) => {
            plain(format!("joined to {}’s own lead", part.name), None)
        }
        (Termination::Terminal(t) | Termination::Shared(t), _) => {
            let t = &d.stock.terminals[*t];
            plain(terminal_words(t), t.across)
        }
        (Termination::Contact { plug, seal }, _) => {
            let live = d.loom.mates.iter().any(|m| m.live == end.pin);
            let class = fit.class(d.stock, *plug);
            let blade = class.map(|c| c.contact_mm + table.value("contact over its blade"));
            let over_wire =
                d.conductor(wire).outside_d.si() * 1e3 + table.value("seal over its wire");
            let across = blade.map(|mm| {
                if seal.is_some() {
                    mm.max(over_wire)
                } else {
                    mm
                }
            });
            Thing {
                what: format!("contact of {}", d.loom.part(*plug).name),
                across: across.map(millimetres),
                plug: Some((*plug, live)),
            }
        }
        (Termination::Its(what), _) => plain(what.clone(), None),
        (Termination::Nothing(what), _) => plain(what.clone(), None),
    }
}

/// A half of a connector with its housing on.
pub(super) fn housed(d: &Design, fit: &Fit, plug: PartId) -> Option<(String, Length)> {
    let its = fit.plugs.iter().find(|p| p.part == plug)?;
    let (class, ways) = its.class.as_ref().ok()?;
    let across = d.stock.connectors[*class].across(*ways)?;
    let name = &d.loom.part(plug).name;
    Some((format!("{name}’s half of {ways} ways"), across))
}
