//! The shrink sleeve over an end: adhesive-lined over a joint and where it is wet, plain elsewhere. It goes onto the wire
//! before the crimp, slides over the barrel and closes on the wire; where its bore passes the widest of the terminal too, it
//! may also go on afterwards.

use super::{Termination, at};
use crate::design::Design;
use crate::laid::{Laying, shrink_cut};
use loom::{PartKind, PinId, WireId};
use physics::packing::pack;
use quantity::{Length, Quantity, figures, millimetres};
use stock::Terminal;

/// A piece of shrink sleeve.
#[derive(Clone, Debug, PartialEq)]
pub struct Cover {
    /// Index into `stock.sleeves`, or what to look for.
    pub sleeve: Result<usize, String>,
    /// Length to cut.
    pub cut: Length,
    /// It must be on the wire before the end is crimped: its bore does not pass the terminal.
    pub before: bool,
}

/// Tries of the packing: a few wires.
const TRIES: usize = 20;

/// What goes over an end, if anything does.
pub(super) fn over(
    d: &Design,
    laying: &Laying,
    (wire, pin): (WireId, PinId),
    gets: &Termination,
) -> Option<Cover> {
    let (Termination::Terminal(t) | Termination::Shared(t)) = gets else {
        return None;
    };
    let part = d.loom.part_of(pin);
    let terminal = &d.stock.terminals[*t];
    let wet = d.loom.place(part.place).wet;
    // A receptacle is drawn off again: it gets a slip-on cover where its barrel is not insulated and no socket holds it.
    if terminal.kind == "tab" || terminal.sealed || (terminal.insulated && !wet) {
        return None;
    }
    let joint = terminal.kind == "butt";
    let kind = match joint || wet {
        true => "adhesive shrink",
        false => "plain shrink",
    };
    let (barrel, strip) = (terminal.barrel?, terminal.strip?.si() * 1e3);
    let wide = terminal.across.unwrap_or(barrel);
    let smallest = smallest(d, (wire, pin), matches!(gets, Termination::Shared(_)));
    let sleeve = d.stock.shrink_for(kind, barrel, smallest);
    Some(Cover {
        cut: millimetres(cut(laying, terminal, strip).ceil()),
        before: joint || sleeve.is_none_or(|s| d.stock.sleeves[s].bundle_max < wide),
        sleeve: sleeve.ok_or_else(|| {
            let mm = |l: Length| figures(l.si() * 1e3, 3);
            format!(
                "{kind} that slides over {} mm and closes on {} mm",
                mm(barrel),
                mm(smallest)
            )
        }),
    })
}

fn cut(laying: &Laying, terminal: &Terminal, strip_mm: f64) -> f64 {
    let shrinks = laying.value("shrinks in length");
    let lug = laying.value("over a lug");
    match terminal.kind.as_str() {
        "butt" => shrink_cut(2.0 * strip_mm, 2.0 * laying.value("over a joint"), shrinks),
        _ => shrink_cut(strip_mm, lug, shrinks),
    }
}

/// Whether a receptacle wants a slip-on cover.
pub(super) fn slip_on(d: &Design, pin: PinId, gets: &Termination) -> bool {
    let (Termination::Terminal(t) | Termination::Shared(t)) = gets else {
        return false;
    };
    let terminal = &d.stock.terminals[*t];
    let socketed = matches!(d.loom.part_of(pin).kind, PartKind::Relay(_));
    terminal.kind == "tab" && !terminal.insulated && !socketed
}

/// The thinnest that it is to grip: the wire; in a joint the thinner side.
fn smallest(d: &Design, (wire, pin): (WireId, PinId), shared: bool) -> Length {
    let outside = |w: WireId| d.conductor(w).outside_d;
    if !shared {
        return outside(wire);
    }
    let mut radii: Vec<f64> = at(d.loom, pin).map(|w| outside(w).si() / 2.0).collect();
    radii.sort_by(f64::total_cmp);
    let thickest = radii.pop().unwrap_or_default();
    let rest = pack(&radii, TRIES).radius;
    Length::from_si(2.0 * thickest.min(rest))
}
