//! The rough search: start from what the ratings ask for, settle every state, make each wire that breaks a
//! rule larger, and at last try each wire one size smaller. Sizes only grow between settlings, so it
//! ends. The best choice is sought from what it finds ([`super::optimum`]), and where no choice keeps every rule, what
//! it finds stands.

use super::drop::{volts_saved, wire_loss};
use super::{Case, Verdict, as_load, judge, lost, settle_all};
use crate::design::Design;
use crate::settle::Settled;
use crate::state::State;
use crate::{fuse, load, switchgear};
use loom::{PartId, PartKind, WireId};
use quantity::Quantity;
use rayon::prelude::*;
use std::sync::Arc;

/// Rounds of settling and growing. A wire grows by at least one size a round, and stock has some
/// twenty sizes; more rounds than this means that no size will do.
const ROUNDS: usize = 40;

/// Sizes the design, and gives its states settled.
pub(crate) fn rough(d: &mut Design, states: &[State]) -> Vec<Settled> {
    start_by_density(d);
    for _ in 0..ROUNDS {
        let guess = vec![by_ratings(d)];
        let fuses = fuse::choose(d, &guess);
        if !grow(d, &guess) && !fuses {
            break;
        }
    }
    let mut settled = converge(d, states, None);
    for _ in 0..SHRINKS {
        let (before, was) = (d.choice.clone(), settled.clone());
        if !shrink(d, &settled) {
            break;
        }
        settled = converge(d, states, Some(settled));
        if copper(d) >= copper_of(d, &before) {
            (d.choice, settled) = (before, was);
            break;
        }
    }
    let settled = polish(d, states, settled);
    smaller_fuses(d, states, settled)
}

/// Fuses only grow while wires do; now that those stand, takes what each position asks for, if every rule still
/// holds with it.
fn smaller_fuses(d: &mut Design, states: &[State], settled: Vec<Settled>) -> Vec<Settled> {
    let was = d.choice.fuses.clone();
    fuse::choose_anew(d, &settled);
    if d.choice.fuses == was {
        return settled;
    }
    let tried = settle_all(d, states, Some(&settled));
    let asked = d.choice.fuses.clone();
    fuse::choose_anew(d, &tried);
    let stays = d.choice.fuses == asked;
    d.choice.fuses = asked;
    // What a rule breaks with the larger fuses it may break with these as well.
    if stays && (whole_holds(d, &tried) || !whole_holds(d, &settled)) {
        return tried;
    }
    d.choice.fuses = was;
    settled
}

/// Most wires that are tried one by one at the end; each trial settles every state again.
const TRIALS: usize = 24;

/// Tries each wire that could be smaller by itself, and keeps it so if every rule still holds with
/// everything settled again.
fn polish(d: &mut Design, states: &[State], mut settled: Vec<Settled>) -> Vec<Settled> {
    if !whole_holds(d, &settled) {
        return settled;
    }
    let mut left = TRIALS;
    for wire in by_copper(d) {
        let Some(smaller) = smaller_size(d, wire) else {
            continue;
        };
        let case = Case {
            design: d,
            settled: &settled,
            wire,
            conductor: &d.stock.conductors[smaller],
            quiet: true,
        };
        if left == 0 || !judge(&case).iter().all(Verdict::holds) {
            continue;
        }
        left -= 1;
        let was = std::mem::replace(&mut d.choice.wires[wire.0 as usize], smaller);
        let tried = settle_all(d, states, Some(&settled));
        if whole_holds(d, &tried) {
            settled = tried;
        } else {
            d.choice.wires[wire.0 as usize] = was;
        }
    }
    settled
}

/// Whether every state could be solved and every wire keeps every rule.
fn whole_holds(d: &Design, settled: &[Settled]) -> bool {
    settled.iter().all(|s| s.failure.is_none())
        && (0..d.loom.wires.len()).into_par_iter().all(|i| {
            let wire = WireId(i as u32);
            let case = Case {
                design: d,
                settled,
                wire,
                conductor: d.conductor(wire),
                quiet: true,
            };
            judge(&case).iter().all(Verdict::holds)
        })
}

/// Wires, those with most copper first.
fn by_copper(d: &Design) -> Vec<WireId> {
    let copper = |w: WireId| d.conductor(w).area.si() * d.loom.wire(w).cut.si();
    let mut order: Vec<WireId> = d.loom.each_wire().map(|(id, _)| id).collect();
    order.sort_by(|a, b| copper(*b).total_cmp(&copper(*a)));
    order
}

/// The next smaller conductor that a wire may be.
fn smaller_size(d: &Design, wire: WireId) -> Option<usize> {
    let list = &d.candidates[wire.0 as usize];
    let now = d.choice.wires[wire.0 as usize];
    list.iter()
        .position(|c| *c == now)?
        .checked_sub(1)
        .map(|at| list[at])
}

/// Rounds of shrinking and settling again; each must save copper, and few ever do.
const SHRINKS: usize = 6;

/// Copper in the loom, m³.
fn copper(d: &Design) -> f64 {
    copper_of(d, &d.choice)
}

fn copper_of(d: &Design, choice: &crate::Choice) -> f64 {
    let volume =
        |(i, w): (usize, &loom::Wire)| d.stock.conductors[choice.wires[i]].area.si() * w.cut.si();
    d.loom.wires.iter().enumerate().map(volume).sum()
}

/// Settles and grows until every rule holds or nothing more can grow.
pub(super) fn converge(
    d: &mut Design,
    states: &[State],
    before: Option<Vec<Settled>>,
) -> Vec<Settled> {
    let mut settled = settle_all(d, states, before.as_deref());
    for _ in 0..ROUNDS {
        let fuses = fuse::choose(d, &settled);
        switchgear::choose(d, &settled);
        let grown = grow(d, &settled) || grow_for_drop(d, &settled);
        if !fuses && !grown {
            break;
        }
        settled = settle_all(d, states, Some(&settled));
    }
    settled
}

/// Current density to start from, A/mm². Small wires bear three times as much; it only has to be
/// cool enough for the first look.
const START_DENSITY: f64 = 5.0;

/// Gives each wire the first size whose density at its loads' ratings is moderate.
fn start_by_density(d: &mut Design) {
    let guess = by_ratings(d);
    for (i, list) in d.candidates.iter().enumerate() {
        let area = guess.wire_amps[i] / START_DENSITY * 1e-6;
        let fits = list
            .iter()
            .copied()
            .find(|c| d.stock.conductors[*c].area.si() >= area);
        d.choice.wires[i] = fits.unwrap_or(list[list.len() - 1]);
    }
}

/// A settled state that nobody solved: every load at its rating, every coil at a fifth of an ampere.
fn by_ratings(d: &Design) -> Settled {
    let loom = d.loom;
    let mut wire_amps = vec![0.0; loom.wires.len()];
    for (id, w) in loom.each_wire() {
        let rated = d
            .paths
            .loads(id)
            .iter()
            .filter_map(|l| as_load(d, *l))
            .map(load::rated_amps);
        wire_amps[id.0 as usize] = rated.sum();
        if matches!(w.role, loom::Role::Coil | loom::Role::CoilEarth) {
            wire_amps[id.0 as usize] = 0.2;
        }
    }
    let mut part_amps = vec![0.0; loom.parts.len()];
    for (id, p) in loom.each_part() {
        match &p.kind {
            PartKind::Load(l) => part_amps[id.0 as usize] = load::rated_amps(l),
            PartKind::Fuse(_) => part_amps[id.0 as usize] = behind(d, id),
            _ => {}
        }
    }
    let mut guess = Settled {
        volts: vec![None; loom.pins.len()],
        wire_amps,
        part_amps,
        energised: vec![false; loom.parts.len()],
        ..Settled::default()
    };
    guess.heat = Arc::new(crate::heat::all(d, &guess, None));
    guess
}

/// Rated amperes of the loads behind a fuse.
fn behind(d: &Design, fuse: PartId) -> f64 {
    let passes = |id: PartId| {
        d.paths
            .out(id)
            .iter()
            .any(|w| d.loom.wire(*w).fuse == Some(fuse))
    };
    d.loom
        .each_part()
        .filter(|(id, _)| passes(*id))
        .filter_map(|(id, _)| as_load(d, id))
        .map(load::rated_amps)
        .sum()
}

/// Makes each wire that breaks a rule of its own (not a load's drop) larger: to the first size at
/// which none is broken. Gives whether any grew.
fn grow(d: &mut Design, settled: &[Settled]) -> bool {
    let frozen: &Design = d;
    let next: Vec<usize> = (0..frozen.loom.wires.len())
        .into_par_iter()
        .map(|i| grown(frozen, settled, WireId(i as u32)))
        .collect();
    let changed = next != d.choice.wires;
    d.choice.wires = next;
    changed
}

fn own_rules_hold(verdicts: &[Verdict]) -> bool {
    verdicts.iter().all(|v| v.rule == "drop" || v.holds())
}

fn grown(d: &Design, settled: &[Settled], wire: WireId) -> usize {
    let list = &d.candidates[wire.0 as usize];
    let now = d.choice.wires[wire.0 as usize];
    let start = list.iter().position(|c| *c == now).unwrap_or(0);
    let verdicts = |index: usize| {
        judge(&Case {
            design: d,
            settled,
            wire,
            conductor: &d.stock.conductors[index],
            quiet: true,
        })
    };
    let hopeless = hopeless(d, settled, wire, &verdicts(list[list.len() - 1]));
    let fits = |index: &usize| {
        verdicts(*index)
            .iter()
            .all(|v| v.rule == "drop" || v.holds() || hopeless.contains(&v.rule))
    };
    let next = list.get(start + 1).copied().unwrap_or(now);
    // In a bundle that is far too hot no size looks right yet: go up one, and look again.
    list[start..]
        .iter()
        .copied()
        .find(|i| fits(i))
        .unwrap_or(next)
}

/// Rules that no size in stock can keep: the findings tell of them, and copper would be wasted. A
/// bundle may cool as other wires grow, so heat is hopeless only where the place itself is too hot.
fn hopeless(
    d: &Design,
    settled: &[Settled],
    wire: WireId,
    largest: &[Verdict],
) -> Vec<&'static str> {
    let limit = d.insulation(d.conductor(wire)).limit.si() - d.habits.margin_k;
    let too_hot = settled
        .iter()
        .any(|s| s.heat.around[wire.0 as usize] >= limit);
    let broken = largest.iter().filter(|v| !v.holds());
    broken
        .filter(|v| v.rule != "heat" || too_hot)
        .map(|v| v.rule)
        .collect()
}

/// For each load that loses too much, makes the wires on its way larger, each time the one that
/// saves most volts for the copper it adds. Gives whether any grew.
fn grow_for_drop(d: &mut Design, settled: &[Settled]) -> bool {
    let mut grew = false;
    let loads: Vec<PartId> = d
        .loom
        .circuits
        .iter()
        .flat_map(|c| c.loads.iter().copied())
        .collect();
    for s in settled {
        for &load in &loads {
            let Some(lost) = lost(d, s, load) else {
                continue;
            };
            // What grew for an earlier load helps this one too, at the next settling.
            let saved = saved_already(d, s, load);
            let mut over = (lost.part - lost.limit) * d.nominal() - saved;
            let most = most_saved(d, s, load);
            if over > most {
                // No wire in stock can mend it: joints and contacts lose too much. Then the wires
                // alone are made to keep the limit, and the findings tell of the rest.
                let wires = wire_loss(d, s, load) - saved;
                let least = wires - most;
                let limit = lost.limit * d.nominal();
                over = wires - limit.max(least * d.limits.value("eased"));
            }
            while over > 0.0 {
                let Some((wire, saves)) = best_step(d, s, load) else {
                    break;
                };
                step(d, wire);
                over -= saves;
                grew = true;
            }
        }
    }
    grew
}

/// Volts that a load would gain with the largest conductor everywhere on its way.
fn most_saved(d: &Design, s: &Settled, load: PartId) -> f64 {
    let way = d.paths.way(load);
    way.map(|w| {
        let list = &d.candidates[w.0 as usize];
        let largest = &d.stock.conductors[list[list.len() - 1]];
        volts_saved(d, s, *w, largest)
    })
    .sum()
}

/// Volts that this round's larger wires save a load, against what was settled.
fn saved_already(d: &Design, s: &Settled, load: PartId) -> f64 {
    let way = d.paths.way(load);
    way.map(|w| {
        let i = w.0 as usize;
        let then = s.model.as_ref().and_then(|m| settled_ohms(m, *w));
        let now = d.copper_ohms(*w, d.conductor(*w), s.heat.mean[i]) + d.joint_ohms(*w);
        then.map_or(0.0, |r| (r - now) * s.wire_amps[i].abs())
    })
    .sum()
}

fn settled_ohms(m: &crate::network::Model, wire: WireId) -> Option<f64> {
    m.elements.iter().find_map(|e| match (e.piece, e.law) {
        (crate::network::Piece::Wire(w), physics::network::Law::Resistor { ohms }) if w == wire => {
            Some(ohms)
        }
        _ => None,
    })
}

fn next_size(d: &Design, wire: WireId) -> Option<usize> {
    let list = &d.candidates[wire.0 as usize];
    let now = d.choice.wires[wire.0 as usize];
    let at = list.iter().position(|c| *c == now)?;
    list.get(at + 1).copied()
}

fn step(d: &mut Design, wire: WireId) {
    if let Some(next) = next_size(d, wire) {
        d.choice.wires[wire.0 as usize] = next;
    }
}

/// What a larger size costs besides its copper, as metres of it: terminals, seals, a stiffer end. It
/// keeps stubs thin and puts copper into long runs, as a person would; no source.
const SIZE_COST_M: f64 = 1.0;

/// The wire on a load's way whose next size saves most volts for its copper, and those volts.
fn best_step(d: &Design, s: &Settled, load: PartId) -> Option<(WireId, f64)> {
    let way = d.paths.way(load);
    way.filter_map(|&w| {
        let next = &d.stock.conductors[next_size(d, w)?];
        let now = d.conductor(w);
        let length = d.loom.wire(w).cut.si();
        let saves = volts_saved(d, s, w, next);
        let copper = (next.area.si() - now.area.si()) * (length + SIZE_COST_M);
        (saves > 1e-9).then_some((w, saves, saves / copper))
    })
    .max_by(|a, b| a.2.total_cmp(&b.2))
    .map(|(w, saves, _)| (w, saves))
}

/// Tries every wire one size smaller, those with most copper first. Gives whether any shrank.
fn shrink(d: &mut Design, settled: &[Settled]) -> bool {
    // Volts that shrunk wires already cost each load, by part.
    let mut spent = vec![0.0; d.loom.parts.len()];
    let mut shrank = false;
    for wire in by_copper(d) {
        let Some(smaller) = smaller_size(d, wire) else {
            continue;
        };
        let case = Case {
            design: d,
            settled,
            wire,
            conductor: &d.stock.conductors[smaller],
            quiet: true,
        };
        let verdicts = judge(&case);
        if !own_rules_hold(&verdicts) {
            continue;
        }
        let cost = cost_of(d, settled, wire, smaller);
        let loads = d.paths.loads(wire).to_vec();
        let bears = |l: &PartId| {
            settled
                .iter()
                .filter_map(|s| lost(d, s, *l))
                .all(|x| x.part + (spent[l.0 as usize] + cost) / d.nominal() <= x.limit)
        };
        if loads.iter().all(bears) {
            for l in loads {
                spent[l.0 as usize] += cost;
            }
            d.choice.wires[wire.0 as usize] = smaller;
            shrank = true;
        }
    }
    shrank
}

/// Volts that a smaller conductor costs, at the worst settled current.
fn cost_of(d: &Design, settled: &[Settled], wire: WireId, smaller: usize) -> f64 {
    settled
        .iter()
        .map(|s| -volts_saved(d, s, wire, &d.stock.conductors[smaller]))
        .fold(0.0, f64::max)
}
