//! What goes through a panel, tried in order of assembly: whole through the grommet; whole through the bare hole, with the
//! grommet on the wires before the end is crimped; a connector's contacts with the housing put on behind the panel; and
//! where nothing of these will do, bare wire that is crimped behind it.
//!
//! Ends go through one at a time, the widest first, while fewest wires lie in the hole: an end passes if it and the wires
//! already there can be packed into the bore.

use super::things::{Thing, housed, thing};
use super::{Laid, Laying};
use crate::design::Design;
use crate::fit::{Fit, WireEnd};
use loom::{PartId, PinId, PlaceId, StretchId, WireId};
use physics::packing::pack;
use quantity::{Length, Quantity};
use std::collections::BTreeMap;

/// How an end goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum How {
    /// Made up, with the grommet in its place.
    Whole,
    /// Made up, through the bare hole; the grommet is on the wires already.
    GrommetFirst,
    /// Contacts crimped, the housing put on behind the panel.
    HousingAfter,
    /// Crimped behind the panel.
    CrimpAfter,
}

/// One thing that goes through, with the wires that it is on.
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// Its wires.
    pub wires: Vec<WireId>,
    /// In words.
    pub what: String,
    /// Its widest, where that is known.
    pub across: Option<Length>,
    /// How.
    pub how: How,
}

/// What goes through one panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Passing {
    /// Where the panel is.
    pub stretch: StretchId,
    /// The end of the stretch towards which things go through: the one that asks for less work behind the panel.
    pub towards: PlaceId,
    /// In the order in which they go.
    pub passes: Vec<Pass>,
}

/// Tries of the packing: a handful of circles.
const TRIES: usize = 20;

/// Through a panel, whichever way takes less work behind it.
pub(super) fn through(d: &Design, table: &Laying, fit: &Fit, laid: &Laid) -> Option<Passing> {
    let hole = laid.hole.as_ref()?;
    let across = hole.across?;
    let bore = match &hole.grommet {
        Some(Ok(g)) => d.stock.grommets[*g].bore,
        Some(Err(_)) => return None,
        None => across,
    };
    let ends = d.loom.stretch(laid.stretch).ends;
    let each = ends.map(|towards| Passing {
        stretch: laid.stretch,
        towards,
        passes: passes(
            d,
            (across, bore),
            &things(d, table, fit, (laid.stretch, towards)),
            fit,
        ),
    });
    each.into_iter().min_by_key(work)
}

/// How much is to be done behind the panel: crimps, then housings, then what has to go before the grommet.
fn work(passing: &Passing) -> [usize; 3] {
    [How::CrimpAfter, How::HousingAfter, How::GrommetFirst]
        .map(|how| passing.passes.iter().filter(|p| p.how == how).count())
}

/// The end of each wire of a stretch that lies towards one of its ends.
fn things(
    d: &Design,
    table: &Laying,
    fit: &Fit,
    (stretch, towards): (StretchId, PlaceId),
) -> Vec<(WireId, Thing)> {
    let wires = d.loom.stretch(stretch).wires.iter();
    let each = wires.map(|id| {
        let w = d.loom.wire(*id);
        let at = w.stretches.iter().position(|s| *s == stretch);
        let forwards = at.is_some_and(|i| w.places.get(i + 1) == Some(&towards));
        let end: &WireEnd = &fit.ends[id.0 as usize][usize::from(forwards)];
        (*id, thing(d, table, fit, (*id, end)))
    });
    each.collect()
}

/// Something that is to go through.
struct Waiting {
    pass: Pass,
    /// For a connector's half the widest of its contacts.
    contact: Option<Length>,
}

/// Each thing with how it goes, the widest first.
fn passes(
    d: &Design,
    (hole, bore): (Length, Length),
    things: &[(WireId, Thing)],
    fit: &Fit,
) -> Vec<Pass> {
    let mut waiting = halves(d, things, fit);
    waiting.extend(single(things));
    let width = |w: &Waiting| w.pass.across.or(w.contact).map_or(0.0, |a| a.si());
    waiting.sort_by(|a, b| width(b).total_cmp(&width(a)));
    let mut through: Vec<f64> = Vec::new();
    let mut done = Vec::new();
    for Waiting { mut pass, contact } in waiting {
        let fits = |thing: Option<Length>, opening| {
            thing.is_some_and(|across| passes_through(&through, across, opening))
        };
        pass.how = if fits(pass.across, bore) {
            How::Whole
        } else if fits(pass.across, hole) {
            How::GrommetFirst
        } else if fits(contact, bore) {
            How::HousingAfter
        } else {
            How::CrimpAfter
        };
        let radius = |w: &WireId| d.conductor(*w).outside_d.si() / 2.0;
        through.extend(pass.wires.iter().map(radius));
        done.push(pass);
    }
    done
}

/// Ends that are on no connector.
fn single(things: &[(WireId, Thing)]) -> impl Iterator<Item = Waiting> {
    let alone = things.iter().filter(|(_, t)| t.plug.is_none());
    alone.map(|(wire, thing)| Waiting {
        pass: Pass {
            wires: vec![*wire],
            what: thing.what.clone(),
            across: thing.across,
            how: How::Whole,
        },
        contact: None,
    })
}

/// Connectors' halves. One whose wires do not all come this way can't bring its housing.
fn halves(d: &Design, things: &[(WireId, Thing)], fit: &Fit) -> Vec<Waiting> {
    let mut halves: BTreeMap<(PartId, bool), Vec<(WireId, Option<Length>)>> = BTreeMap::new();
    for (wire, thing) in things {
        if let Some(half) = thing.plug {
            halves.entry(half).or_default().push((*wire, thing.across));
        }
    }
    let half = |((plug, live), ends): ((PartId, bool), Vec<(WireId, Option<Length>)>)| {
        let housed = housed(d, fit, plug);
        let what = housed.as_ref().map(|h| h.0.clone());
        let contacts = ends.iter().filter_map(|(_, across)| *across);
        Waiting {
            pass: Pass {
                what: what.unwrap_or_else(|| format!("contacts of {}", d.loom.part(plug).name)),
                across: housed
                    .map(|h| h.1)
                    .filter(|_| on_half(d, plug, live) == ends.len()),
                how: How::Whole,
                wires: ends.iter().map(|(wire, _)| *wire).collect(),
            },
            contact: contacts.max_by(|a, b| a.si().total_cmp(&b.si())),
        }
    };
    halves.into_iter().map(half).collect()
}

/// How many wires end on a half of a connector.
fn on_half(d: &Design, plug: PartId, live: bool) -> usize {
    let mates = d.loom.mates.iter();
    let pins: Vec<PinId> = mates.map(|m| if live { m.live } else { m.far }).collect();
    let here = |pin: PinId| d.loom.pin(pin).part == plug && pins.contains(&pin);
    let wires = d.loom.wires.iter();
    wires.filter(|w| here(w.from) || here(w.to)).count()
}

/// Whether a thing goes through a bore in which wires of these radii, m, lie already.
fn passes_through(through: &[f64], across: Length, bore: Length) -> bool {
    let (widest, bore) = (across.si() / 2.0, bore.si() / 2.0);
    if widest > bore {
        return false;
    }
    let mut radii = through.to_vec();
    radii.push(widest);
    let area: f64 = radii.iter().map(|r| r * r).sum();
    area <= bore * bore && pack(&radii, TRIES).radius <= bore * (1.0 + 1e-6)
}
