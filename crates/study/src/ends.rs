//! What can be put on a wire's ends: no wire larger than the terminals that its pins take.

use crate::design::Design;
use crate::fit::{self, Table};
use crate::load;
use loom::{Loom, PartKind, PinId, WireId};
use plan::FeedKind;
use quantity::Quantity;
use stock::{Conductor, Stock, Terminal};

/// The class of fuse taken in a way when none is named, up to what it is sold in, and the next.
const SMALL: &str = "miniature blade";
const LARGE: &str = "high-current blade";
/// Width of an ordinary receptacle, mm.
pub(crate) const USUAL_TAB_MM: f64 = 6.3;

/// Whether something in stock goes on both ends of a wire if it is this conductor. Nothing is asked at splices, nor at a fuse
/// in the line whose class is not chosen yet.
pub(crate) fn takes(
    loom: &Loom,
    stock: &Stock,
    studs: &Table,
    (wire, c): (WireId, &Conductor),
) -> bool {
    let w = loom.wire(wire);
    let mut ends = [w.from, w.to].into_iter();
    ends.all(|pin| at(loom, stock, studs, (pin, c)))
}

/// The largest copper area, m², that the fuses in the line at the ends of a wire take, of the classes that are chosen.
pub(crate) fn in_line(d: &Design, wire: WireId) -> Option<f64> {
    let w = d.loom.wire(wire);
    let ends = [w.from, w.to].into_iter().filter_map(|pin| {
        let part = d.loom.pin(pin).part;
        match &d.loom.part(part).kind {
            PartKind::Fuse(f) if f.way.is_none() => {
                let (class, _) = d.fuse(part)?;
                match class.stud() {
                    Some(stud) => on_stud(d.stock, stud),
                    None => Some(class.max_wire_area.si()),
                }
            }
            _ => None,
        }
    });
    ends.min_by(f64::total_cmp)
}

/// What a part's pins are studs of, as the table of fittings calls it; none where they are none, or by class.
pub(crate) fn stud_of(kind: &PartKind) -> Option<&'static str> {
    Some(match kind {
        PartKind::Battery { .. } => "battery",
        PartKind::Box(_) => "box",
        PartKind::Earth(e) if e.to == plan::EarthReturn::Body => "earth",
        PartKind::Earth(_) => "earth stud",
        PartKind::Feed(f) if f.kind == FeedKind::BatteryPost => "battery",
        PartKind::Feed(f) if f.kind == FeedKind::PowerStud => "power stud",
        _ => return None,
    })
}

/// The largest copper area, m², that the rings on a stud take.
fn on_stud(stock: &Stock, stud: &str) -> Option<f64> {
    let areas = rings(stock, stud).map(|t| t.wire_max.si());
    areas.max_by(f64::total_cmp)
}

fn rings<'a>(stock: &'a Stock, stud: &'a str) -> impl Iterator<Item = &'a Terminal> {
    let fits = move |t: &&Terminal| t.kind == "ring" && t.stud.as_deref() == Some(stud);
    stock.terminals.iter().filter(fits)
}

fn tabs(stock: &Stock, mm: f64) -> impl Iterator<Item = &Terminal> {
    let fits =
        move |t: &&Terminal| t.kind == "tab" && t.tab_mm.is_some_and(|w| (w - mm).abs() < 1e-6);
    stock.terminals.iter().filter(fits)
}

/// Whether one of the terminals takes a conductor.
fn any<'a>(mut of: impl Iterator<Item = &'a Terminal>, c: &Conductor) -> bool {
    of.any(|t| (t.wire_min..=t.wire_max).contains(&c.area))
}

/// Whether one of the receptacles takes a conductor; the wires at a pin share one, which then takes it with others.
fn tab_takes(loom: &Loom, stock: &Stock, mm: f64, (pin, c): (PinId, &Conductor)) -> bool {
    match fit::at(loom, pin).count() {
        1 => any(tabs(stock, mm), c),
        _ => tabs(stock, mm).any(|t| c.area <= t.wire_max),
    }
}

fn at(loom: &Loom, stock: &Stock, studs: &Table, (pin, c): (PinId, &Conductor)) -> bool {
    let id = loom.pin(pin).part;
    let part = loom.part(id);
    let ring = |stud: &str| any(rings(stock, stud), c);
    let tab = |mm: f64| tab_takes(loom, stock, mm, (pin, c));
    if let Some(on) = stud_of(&part.kind) {
        return ring(&studs.stud(on).stud);
    }
    match &part.kind {
        PartKind::Relay(r) => {
            let Some(kind) = stock.relay(&r.kind, loom.supply.system.volts()) else {
                return true;
            };
            let coil = part.pins[2] == pin || part.pins[3] == pin;
            match (coil, kind.coil_tab_mm, kind.tab_mm, &kind.stud) {
                (true, Some(mm), ..) | (false, _, Some(mm), _) => tab(mm),
                (_, _, _, Some(stud)) => ring(stud),
                _ => true,
            }
        }
        PartKind::Switch(_) | PartKind::Cutout(_) => tab(USUAL_TAB_MM),
        PartKind::Feed(f) if matches!(f.kind, FeedKind::SpareWay | FeedKind::IgnitionTap) => {
            tab(USUAL_TAB_MM)
        }
        PartKind::Fuse(f) if f.way.is_some() => {
            let named = f.kind.as_ref().map(|k| k.value.as_str());
            let name = named.unwrap_or(if needs_large(loom, stock, part.circuit) {
                LARGE
            } else {
                SMALL
            });
            let kind = stock.fuse_kind(name);
            kind.is_none_or(|k| c.area.si() <= k.max_wire_area.si() * 1.001)
        }
        PartKind::Connector { .. } => {
            let mut classes = fit::classes(loom, stock, id);
            classes.any(|(_, class)| class.takes(c))
        }
        PartKind::Load(_) | PartKind::Signal(_) => {
            any(stock.terminals.iter().filter(|t| t.kind == "butt"), c)
        }
        _ => true,
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
