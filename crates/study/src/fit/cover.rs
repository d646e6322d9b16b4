//! The shrink sleeve over an end whose barrel is bare, or stands in the wet unsealed: adhesive-lined over a joint and where it
//! is wet, plain elsewhere. An insulated barrel in the dry has its cover: common practice, though an adhesive one is better. It goes onto the wire
//! before the crimp, slides over the barrel and closes on the wire; where its bore passes the widest of the terminal too, it
//! may also go on afterwards.

use super::{Termination, at, terminal_words};
use crate::design::Design;
use crate::laying::{Laying, shrink_cut};
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
    // One piece for all wires at a splice: told at the first of them.
    if matches!(gets, Termination::Shared(_)) && at(d.loom, pin).next() != Some(wire) {
        return None;
    }
    // A receptacle is drawn off again: it gets a slip-on cover where its barrel is not insulated and no socket holds it.
    if terminal.kind == "tab" || terminal.sealed || (terminal.insulated && !wet) {
        return None;
    }
    let joint = matches!(terminal.kind.as_str(), "butt" | "splice");
    // Adhesive over joints and where it is wet; elsewhere plain, or adhesive where none that is plain closes far enough.
    let kinds: &[&str] = match joint || wet {
        true => &["adhesive shrink"],
        false => &["plain shrink", "adhesive shrink"],
    };
    let Some((barrel, strip)) = terminal.barrel.zip(terminal.strip) else {
        return Some(Cover {
            sleeve: Err(format!(
                "{} over {}: its row in stock says no barrel_mm or strip_mm",
                kinds[0],
                terminal_words(terminal)
            )),
            cut: millimetres(0.0),
            before: true,
        });
    };
    let [thick, thin] = sides(d, (wire, pin), terminal.kind == "splice");
    let largest = if thick > barrel { thick } else { barrel };
    let sleeve = kinds
        .iter()
        .find_map(|kind| d.stock.shrink_for(kind, largest, thin));
    let wide = terminal.across.unwrap_or(barrel);
    Some(Cover {
        cut: millimetres(cut(laying, terminal, strip.si() * 1e3).ceil()),
        before: joint || sleeve.is_none_or(|s| d.stock.sleeves[s].bundle_max < wide),
        sleeve: sleeve.ok_or_else(|| {
            let mm = |l: Length| figures(l.si() * 1e3, 3);
            format!(
                "{} that slides over {} mm and closes on {} mm",
                kinds[0],
                mm(largest),
                mm(thin)
            )
        }),
    })
}

fn cut(laying: &Laying, terminal: &Terminal, strip_mm: f64) -> f64 {
    let shrinks = laying.value("shrinks in length");
    let lug = laying.value("over a lug");
    match terminal.kind.as_str() {
        "splice" => shrink_cut(strip_mm, 2.0 * laying.value("over a joint"), shrinks),
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

/// The thicker and the thinner of what it slides over and closes on: the wire; at a splice its two sides, the wires led in
/// from both so that these come out as alike as they can one by one.
fn sides(d: &Design, (wire, pin): (WireId, PinId), splice: bool) -> [Length; 2] {
    let outside = |w: WireId| d.conductor(w).outside_d;
    if !splice {
        return [outside(wire); 2];
    }
    let mut radii: Vec<f64> = at(d.loom, pin).map(|w| outside(w).si() / 2.0).collect();
    radii.sort_by(|a, b| b.total_cmp(a));
    let mut sides = [Vec::new(), Vec::new()];
    let mut thick = [0.0, 0.0];
    for radius in radii {
        let thinner = usize::from(thick[1] < thick[0]);
        sides[thinner].push(radius);
        thick[thinner] = pack(&sides[thinner], TRIES).radius;
    }
    let [a, b] = thick;
    [a.max(b), a.min(b)].map(|r| Length::from_si(2.0 * r))
}
