//! What can be put on a wire's ends: no wire larger than the terminals that its pins take.

use crate::load;
use loom::{Loom, PartKind, PinId, WireId};
use plan::FeedKind;
use quantity::Quantity;
use stock::Stock;

/// The class of fuse taken in a way when none is named, up to what it is sold in, and the next.
const SMALL: &str = "miniature blade";
const LARGE: &str = "high-current blade";
/// Width of an ordinary receptacle, mm.
pub(crate) const USUAL_TAB_MM: f64 = 6.3;

/// The largest copper area, m², that both ends of a wire can be terminated with; none where studs,
/// splices or connectors of any size stand.
pub(crate) fn largest(loom: &Loom, stock: &Stock, wire: WireId) -> Option<f64> {
    let w = loom.wire(wire);
    let ends = [w.from, w.to]
        .into_iter()
        .filter_map(|pin| at(loom, stock, pin));
    ends.min_by(f64::total_cmp)
}

/// What the terminals on a tab of this width take.
fn on_tab(stock: &Stock, mm: f64) -> Option<f64> {
    let fits =
        |t: &&stock::Terminal| t.kind == "tab" && t.tab_mm.is_some_and(|w| (w - mm).abs() < 1e-6);
    let areas = stock.terminals.iter().filter(fits).map(|t| t.wire_max.si());
    areas.max_by(f64::total_cmp)
}

fn at(loom: &Loom, stock: &Stock, pin: PinId) -> Option<f64> {
    let part = loom.part_of(pin);
    match &part.kind {
        PartKind::Relay(r) => {
            let kind = stock.relay(&r.kind, loom.supply.system.volts())?;
            let coil = part.pins[2] == pin || part.pins[3] == pin;
            on_tab(
                stock,
                if coil {
                    kind.coil_tab_mm?
                } else {
                    kind.tab_mm?
                },
            )
        }
        PartKind::Switch(_) | PartKind::Cutout(_) => on_tab(stock, USUAL_TAB_MM),
        PartKind::Feed(f) if matches!(f.kind, FeedKind::SpareWay | FeedKind::IgnitionTap) => {
            on_tab(stock, USUAL_TAB_MM)
        }
        PartKind::Fuse(f) if f.way.is_some() => {
            let named = f.kind.as_ref().map(|k| k.value.as_str());
            let name = named.unwrap_or(if needs_large(loom, stock, part.circuit) {
                LARGE
            } else {
                SMALL
            });
            stock.fuse_kind(name).map(|k| k.max_wire_area.si())
        }
        _ => None,
    }
}

/// Whether a circuit's loads ask for more than the small class is sold in.
fn needs_large(loom: &Loom, stock: &Stock, circuit: Option<usize>) -> bool {
    let Some(small) = stock.fuse_kind(SMALL) else {
        return true;
    };
    let most = small.ratings.last().map_or(0.0, |r| r.amps.si()) * small.continuous_factor;
    let loads = circuit.map_or(&[][..], |c| &loom.circuits[c].loads);
    let rated = loads.iter().filter_map(|l| match &loom.part(*l).kind {
        PartKind::Load(l) => Some(load::rated_amps(l)),
        _ => None,
    });
    rated.sum::<f64>() > most
}
