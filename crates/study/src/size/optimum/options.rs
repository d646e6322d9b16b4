//! What each wire and fuse may be: everything that keeps its own rules in the roomiest loom, where all is coolest. Which
//! fuse asks for which wire behind it.

use super::plugs::{self, Plug};
use super::program::Need;
use super::roomy::Roomy;
use crate::design::{Choice, Design, FuseChoice};
use crate::fuse;
use crate::heat;
use crate::settle::Settled;
use crate::size::{Case, Verdict, guard, heat as heat_rule, least, table};
use loom::{PartId, PartKind, Role, WireId};
use quantity::Quantity;
use rayon::prelude::*;
use std::sync::Arc;

/// What there is to choose from.
pub(super) struct Options {
    /// By wire: conductors, by rising area.
    pub wires: Vec<Vec<usize>>,
    /// By wire: rules that nothing in stock keeps there; findings tell of them.
    pub hopeless: Vec<Vec<&'static str>>,
    /// Fuse positions, each with what it may hold: the largest rating first, so that a later one asks less of a wire.
    pub fuses: Vec<(PartId, Vec<FuseChoice>)>,
    /// Which fuse asks for which wire.
    pub needs: Vec<Need>,
    /// Connectors, with what their classes take.
    pub plugs: Vec<Plug>,
}

/// A thing of the problem: wires come first, then fuse positions, then connectors.
pub(super) enum What<'a> {
    /// A wire, by its conductors.
    Wire(&'a [usize]),
    /// A fuse position, by what it may hold.
    Fuse(PartId, &'a [FuseChoice]),
    /// A connector, by its classes.
    Plug(&'a Plug),
}

/// A fuse may carry so much more or less than in the looms that were settled, as a part.
const ABOUT: f64 = 0.03;

impl Options {
    /// What a thing of the problem is.
    pub fn what(&self, thing: usize) -> What<'_> {
        let fuse = thing.checked_sub(self.wires.len());
        let plug = fuse.and_then(|f| f.checked_sub(self.fuses.len()));
        match (fuse, plug) {
            (None, _) => What::Wire(&self.wires[thing]),
            (Some(f), None) => What::Fuse(self.fuses[f].0, &self.fuses[f].1),
            (_, Some(p)) => What::Plug(&self.plugs[p]),
        }
    }

    /// How many options a thing has.
    pub fn count(&self, thing: usize) -> usize {
        match self.what(thing) {
            What::Wire(list) => list.len(),
            What::Fuse(_, held) => held.len(),
            What::Plug(plug) => plug.takes.len(),
        }
    }

    /// Takes an option of a thing. The class of a connector is chosen when all is fitted, by what its wires are.
    pub fn take(&self, d: &mut Design, thing: usize, option: usize) {
        match self.what(thing) {
            What::Wire(list) => d.choice.wires[thing] = list[option],
            What::Fuse(part, held) => d.choice.fuses[part.0 as usize] = Some(held[option]),
            What::Plug(_) => {}
        }
    }
}

/// A wire's rules of its own, drop and fuse aside.
const OWN: [fn(&Case) -> Option<Verdict>; 3] = [least::judge, table::judge, heat_rule::judge];

/// Which of its own rules a conductor breaks.
fn breaks(case: &Case) -> Vec<&'static str> {
    let verdicts = OWN.iter().filter_map(|rule| rule(case));
    verdicts.filter(|v| !v.holds()).map(|v| v.rule).collect()
}

/// The conductors among a wire's candidates that fit the fuses in the line at its ends and that the rule set has a row for,
/// if any do.
pub(super) fn known(d: &Design, settled: &[Settled], wire: WireId) -> Vec<usize> {
    let list = &d.candidates[wire.0 as usize];
    let most = crate::ends::in_line(d, wire).unwrap_or(f64::INFINITY);
    let fits = |c: &usize| d.stock.conductors[*c].area.si() <= most * 1.001;
    let has = |c: &usize| {
        let case = quiet(d, settled, wire, *c);
        d.table.is_none() || table::allowed(&case).is_some()
    };
    let kept = |of: &dyn Fn(&usize) -> bool, list: &[usize]| -> Vec<usize> {
        let kept: Vec<usize> = list.iter().copied().filter(of).collect();
        if kept.is_empty() { list.to_vec() } else { kept }
    };
    kept(&has, &kept(&fits, list))
}

fn quiet<'a>(d: &'a Design, settled: &'a [Settled], wire: WireId, c: usize) -> Case<'a> {
    Case {
        design: d,
        settled,
        wire,
        conductor: &d.stock.conductors[c],
        quiet: true,
    }
}

/// The states as they settled, with this conductor in a wire's place and its heat worked out for it.
pub(super) fn with(d: &mut Design, settled: &[Settled], wire: WireId, c: usize) -> Vec<Settled> {
    let was = std::mem::replace(&mut d.choice.wires[wire.0 as usize], c);
    let frozen: &Design = d;
    let warmed = |s: &Settled| Settled {
        heat: Arc::new(heat::anew(frozen, s, wire)),
        ..s.without_model()
    };
    let settled = settled.par_iter().map(warmed).collect();
    d.choice.wires[wire.0 as usize] = was;
    settled
}

/// Everything that may be chosen. `d` holds the roomiest loom; `rough` is a loom that was sized roughly.
pub(super) fn all(
    d: &mut Design,
    roomy: &Roomy,
    lists: &[Vec<usize>],
    rough: (&Choice, &[Settled]),
) -> Options {
    let (wires, hopeless) = own(d, roomy, lists);
    let fuses = fuses(d, roomy, rough);
    let mut options = Options {
        wires,
        hopeless,
        fuses,
        needs: Vec::new(),
        plugs: Vec::new(),
    };
    needs(d, roomy, &mut options);
    options.plugs = plugs::all(d, rough.1, &options.wires);
    options
}

type Hopeless = Vec<Vec<&'static str>>;

/// By wire: the conductors that keep its own rules, and the rules that none keeps.
fn own(d: &mut Design, roomy: &Roomy, lists: &[Vec<usize>]) -> (Vec<Vec<usize>>, Hopeless) {
    let settled = &roomy.settled[..];
    let frozen: &Design = d;
    let quick: Vec<Vec<Vec<&'static str>>> = lists
        .par_iter()
        .enumerate()
        .map(|(w, list)| {
            let at = |c: &usize| breaks(&quiet(frozen, settled, WireId(w as u32), *c));
            list.iter().map(at).collect()
        })
        .collect();
    let mut wires = Vec::new();
    let mut hopeless = Vec::new();
    for (w, (list, mut broken)) in lists.iter().zip(quick).enumerate() {
        let wire = WireId(w as u32);
        let without_hope = broken[broken.len() - 1].clone();
        for b in &mut broken {
            b.retain(|rule| !without_hope.contains(rule));
        }
        // What only heat forbids is looked at with its own heat, from the thickest such down.
        for k in (0..list.len()).rev().filter(|_| list.len() > 1) {
            if broken[k] == ["heat"] {
                let settled = with(d, settled, wire, list[k]);
                d.choice.wires[w] = list[k];
                let still = breaks(&quiet(d, &settled, wire, list[k]));
                d.choice.wires[w] = roomy.choice.wires[w];
                if !still.iter().any(|rule| !without_hope.contains(rule)) {
                    broken[k].clear();
                    continue;
                }
                break;
            }
        }
        let keeps = list.iter().zip(&broken).filter(|(_, b)| b.is_empty());
        wires.push(keeps.map(|(c, _)| *c).collect());
        hopeless.push(without_hope);
    }
    (wires, hopeless)
}

/// What each fuse position may hold: of the class that it has now, the ratings that may suit when all is settled.
fn fuses(
    d: &Design,
    roomy: &Roomy,
    (now, rough): (&Choice, &[Settled]),
) -> Vec<(PartId, Vec<FuseChoice>)> {
    let mut found = Vec::new();
    for (id, part) in d.loom.each_part() {
        let (PartKind::Fuse(f), Some(held)) = (&part.kind, now.fuses[id.0 as usize]) else {
            continue;
        };
        let kind = &d.stock.fuses[held.kind];
        let ask = fuse::demand(d, &roomy.settled, id);
        let other = fuse::demand(d, rough, id).amps;
        let least = |amps: f64| {
            let ask = fuse::Demand {
                amps,
                ..ask.clone()
            };
            let suits = |r: &stock::FuseRating| fuse::suits(kind, r.amps.si(), &ask);
            kind.ratings.iter().position(suits)
        };
        let from = least(ask.amps.min(other) * (1.0 - ABOUT))
            .unwrap_or(held.rating)
            .min(held.rating);
        let to = least(ask.amps.max(other) * (1.0 + ABOUT))
            .unwrap_or(held.rating)
            .max(held.rating);
        let range = match &f.rating {
            Some(_) => held.rating..=held.rating,
            None => from..=to,
        };
        let of = |rating: usize| FuseChoice {
            kind: held.kind,
            rating,
        };
        found.push((id, range.rev().map(of).collect()));
    }
    found
}

/// The fuse positions that decide what a wire must bear.
fn watch(d: &Design, wire: WireId) -> Vec<PartId> {
    let w = d.loom.wire(wire);
    if w.bounded {
        return Vec::new();
    }
    let ends_at = d.loom.pin(w.to).part;
    let ahead = matches!(d.loom.part(ends_at).kind, PartKind::Fuse(_)).then_some(ends_at);
    if let Some(fuse) = w.fuse.or(ahead) {
        return vec![fuse];
    }
    if w.role != Role::Return {
        return Vec::new();
    }
    let circuits = d
        .paths
        .loads(wire)
        .iter()
        .filter_map(|l| d.loom.part(*l).circuit);
    let mut fuses: Vec<PartId> = circuits.filter_map(|c| d.loom.circuits[c].fuse).collect();
    fuses.sort();
    fuses.dedup();
    fuses
}

/// Works out which fuse asks for which wire, and drops the conductors that a fuse that cannot be changed forbids.
fn needs(d: &mut Design, roomy: &Roomy, options: &mut Options) {
    let watched: Vec<Vec<PartId>> = d.loom.each_wire().map(|(id, _)| watch(d, id)).collect();
    fixed(d, roomy, options, &watched);
    let fuses = options.fuses.clone();
    for (f, (part, held)) in fuses.iter().enumerate() {
        let behind: Vec<usize> = (0..watched.len())
            .filter(|w| watched[*w].contains(part))
            .collect();
        // By rating: for each wire the first conductor that bears it.
        let mut first: Vec<Vec<usize>> = Vec::new();
        for option in held {
            d.choice.fuses.fill(None);
            d.choice.fuses[part.0 as usize] = Some(*option);
            let at = behind.iter().map(|w| bears(d, roomy, options, *w));
            first.push(at.collect());
        }
        for (i, w) in behind.iter().enumerate() {
            let all = options.wires[*w].len();
            if first.iter().all(|f| f[i] == all) {
                options.hopeless[*w].push("fuse");
                continue;
            }
            let asks = first.iter().enumerate().filter(|(_, f)| f[i] > 0);
            options.needs.extend(asks.map(|(k, f2)| Need {
                of: (watched.len() + f, k),
                asks: (*w, f2[i]),
            }));
        }
    }
    d.choice.fuses.clone_from(&roomy.choice.fuses);
}

/// Wires behind a fuse of the vehicle's own.
fn fixed(d: &mut Design, roomy: &Roomy, options: &mut Options, watched: &[Vec<PartId>]) {
    for (w, watched) in watched.iter().enumerate() {
        if watched.is_empty() {
            let first = bears(d, roomy, options, w);
            if first == options.wires[w].len() {
                options.hopeless[w].push("fuse");
            } else {
                options.wires[w].drain(..first);
            }
        }
    }
}

/// The first of a wire's options that bears what the fuse chosen lets through; one beyond the last if none does.
fn bears(d: &mut Design, roomy: &Roomy, options: &Options, w: usize) -> usize {
    let (wire, list) = (WireId(w as u32), &options.wires[w]);
    let holds = |d: &Design, settled: &[Settled], c: usize| {
        guard::judge(&quiet(d, settled, wire, c)).is_none_or(|v| v.holds())
    };
    let mut first = list.partition_point(|c| !holds(d, &roomy.settled, *c));
    // What the quick look forbids for its heat alone is looked at with its own heat.
    while first > 0 && guard::unheated(&quiet(d, &roomy.settled, wire, list[first - 1])) {
        let c = list[first - 1];
        let settled = with(d, &roomy.settled, wire, c);
        d.choice.wires[w] = c;
        let bears = holds(d, &settled, c);
        d.choice.wires[w] = roomy.choice.wires[w];
        if !bears {
            break;
        }
        first -= 1;
    }
    first
}
