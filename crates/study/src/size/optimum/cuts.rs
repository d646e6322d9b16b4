//! What the full model breaks of a choice, and what forbids it. For a rule of a wire's own, a cut: of the wires that could
//! mend it, one at least must be larger; wires that could be as thick as they come while it still breaks are left out.
//! For a load that loses too much, a row ([`tangent`]).

use super::options::{self, Options};
use super::program::{Cut, Need, Row, Step};
use super::rows::Ask;
use super::tangent;
use crate::design::Design;
use crate::fuse;
use crate::settle::Settled;
use crate::size::{Case, Verdict, judge, lost, settle_all, wire_loss};
use crate::state::State;
use loom::{PartId, WireId};
use quantity::Quantity;
use rayon::prelude::*;

/// Something that a choice breaks.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Broken {
    /// A rule of a wire's own.
    Own(WireId, &'static str),
    /// In a state, what is asked for a load.
    Drop(usize, PartId, Ask),
    /// A fuse position's fuse carries too little.
    Fuse(usize),
}

/// A margin that rounding may eat.
const ROUNDING: f64 = 1e-9;

/// All that the choice in `d` breaks of what is not hopeless.
pub(super) fn broken(
    d: &Design,
    settled: &[Settled],
    o: &Options,
    asks: &[(PartId, Ask)],
) -> Vec<Broken> {
    let wires: Vec<WireId> = d.loom.each_wire().map(|(id, _)| id).collect();
    let own = wires.par_iter().flat_map_iter(|wire| {
        let hopeless = &o.hopeless[wire.0 as usize];
        let verdicts = own(d, settled, *wire).into_iter();
        let broken = verdicts.filter(|v| !v.holds() && !hopeless.contains(&v.rule));
        broken.map(|v| Broken::Own(*wire, v.rule))
    });
    let mut found: Vec<Broken> = own.collect();
    for (load, ask) in asks {
        let each = settled.iter().enumerate();
        let over = each.filter_map(|(i, s)| Some((i, over(d, s, *load, *ask)?)));
        let worst = over.max_by(|a, b| a.1.total_cmp(&b.1));
        found.extend(worst.map(|(i, _)| Broken::Drop(i, *load, *ask)));
    }
    for (f, (part, _)) in o.fuses.iter().enumerate() {
        let ask = fuse::demand(d, settled, *part);
        let suits = d
            .fuse(*part)
            .is_none_or(|(k, r)| fuse::suits(k, r.amps.si(), &ask));
        if !suits && may_grow(d, o, f) {
            found.push(Broken::Fuse(f));
        }
    }
    found
}

/// What all rules of a wire but drop say of what is chosen.
fn own(d: &Design, settled: &[Settled], wire: WireId) -> Vec<Verdict> {
    let case = Case {
        design: d,
        settled,
        wire,
        conductor: d.conductor(wire),
        quiet: true,
    };
    let verdicts = judge(&case).into_iter();
    verdicts.filter(|v| v.rule != "drop").collect()
}

/// By how many volts a load loses more than is asked.
fn over(d: &Design, s: &Settled, load: PartId, ask: Ask) -> Option<f64> {
    let l = lost(d, s, load)?;
    let volts = match ask.copper {
        false => l.volts,
        true => wire_loss(d, s, load),
    };
    (volts > ask.volts * (1.0 + ROUNDING)).then_some(volts - ask.volts)
}

/// Whether a fuse position has a larger rating to choose.
fn may_grow(d: &Design, o: &Options, f: usize) -> bool {
    let (part, held) = &o.fuses[f];
    d.choice.fuses[part.0 as usize].is_some_and(|now| now != held[0])
}

/// What forbids a choice that breaks something.
pub(super) enum Forbids {
    /// Of these one must be larger.
    Cut(Cut),
    /// This sum must be kept.
    Row(Row),
    /// An option of a fuse that never does, however thick or thin the wires on the way of its loads.
    Never(Need),
}

impl Forbids {
    /// Whether a choice is left by it.
    pub fn keeps(&self, taken: &[usize]) -> bool {
        match self {
            Self::Cut(cut) => cut.keeps(taken),
            Self::Row(row) => row.keeps(taken),
            Self::Never(need) => need.keeps(taken),
        }
    }
}

/// By thing: which option is taken.
type Taken<'a> = &'a [usize];

/// The cut that forbids what was broken. `d` holds the choice, and does again afterwards.
pub(super) fn forbid(
    d: &mut Design,
    (states, settled): (&[State], &[Settled]),
    (o, taken): (&Options, Taken),
    broken: &Broken,
) -> Forbids {
    match broken {
        Broken::Own(wire, rule) => Forbids::Cut(own_cut(d, settled, (o, taken), (*wire, rule))),
        Broken::Drop(at, load, ask) => {
            let row = tangent::row((d, o), &settled[*at], (*load, *ask));
            row.map_or(Forbids::Cut(Cut(Vec::new())), Forbids::Row)
        }
        Broken::Fuse(f) => fuse_cut(d, (states, settled), (o, taken), *f),
    }
}

/// The fuse must be larger; or, since what its loads take changes with what they get, a wire on their way other.
fn fuse_cut(
    d: &mut Design,
    (states, settled): (&[State], &[Settled]),
    (o, taken): (&Options, Taken),
    f: usize,
) -> Forbids {
    let of = o.wires.len() + f;
    let part = o.fuses[f].0;
    let behind = |load: &PartId| {
        let mut out = d.paths.out(*load).iter();
        out.any(|w| d.loom.wire(*w).fuse == Some(part))
    };
    let loads = d.loom.each_part().map(|(id, _)| id).filter(behind);
    let mut way: Vec<usize> = loads
        .flat_map(|load| d.paths.way(load).map(|w| w.0 as usize))
        .collect();
    way.sort_unstable();
    way.dedup();
    let mut suits = |thickest: bool| {
        let was = d.choice.wires.clone();
        for w in &way {
            let list = &o.wires[*w];
            d.choice.wires[*w] = list[if thickest { list.len() - 1 } else { 0 }];
        }
        let other = settle_all(d, states, Some(settled));
        let ask = fuse::demand(d, &other, part);
        d.choice.wires = was;
        d.fuse(part)
            .is_some_and(|(kind, r)| fuse::suits(kind, r.amps.si(), &ask))
    };
    let mut steps = Vec::new();
    if suits(true) {
        steps.extend(larger(o, taken, way.iter().copied()));
    }
    if suits(false) {
        let may = way.iter().filter(|w| taken[**w] > 0);
        steps.extend(may.map(|w| Step::Down(*w, taken[*w])));
    }
    if steps.is_empty() {
        return Forbids::Never(Need {
            of: (of, taken[of]),
            asks: (of, o.fuses[f].1.len()),
        });
    }
    if taken[of] > 0 {
        steps.push(Step::Down(of, taken[of]));
    }
    Forbids::Cut(Cut(steps))
}

/// Things that may take a later option, each with the next.
fn larger(o: &Options, taken: Taken, things: impl Iterator<Item = usize>) -> Vec<Step> {
    let may = things.filter(|t| taken[*t] + 1 < o.count(*t));
    may.map(|t| Step::Up(t, taken[t] + 1)).collect()
}

/// The wire must be larger, or its neighbours, those that warm it most; or its fuse smaller.
fn own_cut(
    d: &mut Design,
    settled: &[Settled],
    (o, taken): (&Options, Taken),
    (wire, rule): (WireId, &str),
) -> Cut {
    let made = |w: &WireId| {
        let at = w.0 as usize;
        let amps = settled
            .iter()
            .map(|s| s.wire_amps[at].abs())
            .fold(0.0, f64::max);
        amps * amps * d.conductor(*w).ohm_per_m_20
    };
    let mut beside: Vec<WireId> = d
        .loom
        .wire(wire)
        .stretches
        .iter()
        .flat_map(|s| d.loom.stretch(*s).wires.iter().copied())
        .filter(|w| *w != wire && taken[w.0 as usize] + 1 < o.wires[w.0 as usize].len())
        .collect();
    beside.sort_by(|a, b| made(a).total_cmp(&made(b)).then(a.cmp(b)));
    beside.dedup();
    // The most of them that may be as thick as they come while the rule still breaks.
    let was = d.choice.wires.clone();
    let (mut least, mut most) = (0, beside.len());
    while least < most {
        let half = (least + most).div_ceil(2);
        for w in &beside[..half] {
            let list = &o.wires[w.0 as usize];
            d.choice.wires[w.0 as usize] = list[list.len() - 1];
        }
        let tried = options::with(d, settled, wire, was[wire.0 as usize]);
        let breaks = own(d, &tried, wire)
            .iter()
            .any(|v| v.rule == rule && !v.holds());
        d.choice.wires.clone_from(&was);
        if breaks {
            least = half;
        } else {
            most = half - 1;
        }
    }
    let fuses = o
        .needs
        .iter()
        .filter(|n| n.asks.0 == wire.0 as usize)
        .map(|n| n.of.0);
    let fuses: std::collections::BTreeSet<usize> = fuses.filter(|_| rule == "fuse").collect();
    let wires =
        std::iter::once(wire.0 as usize).chain(beside[least..].iter().map(|w| w.0 as usize));
    Cut(larger(o, taken, wires.chain(fuses)))
}
