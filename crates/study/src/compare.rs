//! Two looms side by side: the findings that one has and the other has not, the wire that each takes, and what
//! a chafed switch wire does in each.

use crate::answers::Answers;
use crate::chafe::{self, Chafe};
use crate::design::Habits;
use finding::Finding;
use loom::Loom;
use quantity::{Quantity, WireSize};
use stock::Stock;

/// One of the two.
#[derive(Clone, Copy)]
pub struct Side<'a> {
    /// Its loom.
    pub loom: &'a Loom,
    /// Its stock.
    pub stock: &'a Stock,
    /// Its habits.
    pub habits: &'a Habits,
    /// What was answered.
    pub answers: &'a Answers,
}

/// The two side by side; the first of each pair is the first plan's.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// Findings that only the first has.
    pub only_first: Vec<Finding>,
    /// Findings that only the second has.
    pub only_second: Vec<Finding>,
    /// Findings that both have.
    pub both: usize,
    /// How many wires.
    pub wires: [usize; 2],
    /// Wire to cut, m.
    pub metres: [f64; 2],
    /// Copper in it, kg.
    pub copper_kg: [f64; 2],
    /// By size, m; the thinnest first.
    pub sizes: Vec<(WireSize, [f64; 2])>,
    /// Wires that pass a panel.
    pub through_panels: [usize; 2],
    /// Wires that pass a panel and are live at the battery's voltage with every switch off.
    pub live_through_panels: [usize; 2],
    /// What a chafed switch wire does.
    pub chafes: [Vec<Chafe>; 2],
}

/// Density of copper, kg/m³ (handbook).
const COPPER: f64 = 8960.0;

/// Compares two studied looms.
pub fn compare(first: &Side, second: &Side) -> Comparison {
    let same = |a: &Finding, b: &Finding| a.id == b.id && a.names() == b.names();
    let without = |of: &[Finding], other: &[Finding]| -> Vec<Finding> {
        let new = of.iter().filter(|f| !other.iter().any(|o| same(f, o)));
        new.cloned().collect()
    };
    let (a, b) = (&first.answers.findings, &second.answers.findings);
    let only_first = without(a, b);
    let both = a.len() - only_first.len();
    let sides = [first, second];
    Comparison {
        only_second: without(b, a),
        only_first,
        both,
        wires: sides.map(|s| s.loom.wires.len()),
        metres: sides.map(|s| s.loom.wires.iter().map(|w| w.cut.si()).sum()),
        copper_kg: sides.map(copper_kg),
        sizes: sizes(sides),
        through_panels: sides.map(|s| through_panels(s).count()),
        live_through_panels: sides.map(live_through_panels),
        chafes: sides.map(|s| chafe::of(s.loom, s.stock, s.habits, s.answers)),
    }
}

fn copper_kg(s: &Side) -> f64 {
    let each =
        s.answers.wires.iter().map(|a| {
            s.stock.conductors[a.conductor].area.si() * s.loom.wire(a.wire).cut.si() * COPPER
        });
    each.sum()
}

/// Metres of each size on each side.
fn sizes(sides: [&Side; 2]) -> Vec<(WireSize, [f64; 2])> {
    let mut found: Vec<(f64, WireSize, [f64; 2])> = Vec::new();
    for (i, s) in sides.into_iter().enumerate() {
        for a in &s.answers.wires {
            let c = &s.stock.conductors[a.conductor];
            let cut = s.loom.wire(a.wire).cut.si();
            match found.iter_mut().find(|(_, size, _)| *size == c.size) {
                Some((.., metres)) => metres[i] += cut,
                None => {
                    let mut metres = [0.0; 2];
                    metres[i] = cut;
                    found.push((c.area.si(), c.size, metres));
                }
            }
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found
        .into_iter()
        .map(|(_, size, metres)| (size, metres))
        .collect()
}

/// Wires that pass a panel, by index.
fn through_panels<'a>(s: &'a Side) -> impl Iterator<Item = usize> + 'a {
    let passes = |w: &loom::Wire| {
        w.stretches
            .iter()
            .any(|x| s.loom.stretch(*x).panel.is_some())
    };
    let each = s.loom.wires.iter().enumerate();
    each.filter(move |(_, w)| passes(w)).map(|(i, _)| i)
}

/// Of these, those that are live with every switch off and the key on: chafed, they meet the whole battery.
fn live_through_panels(s: &Side) -> usize {
    let off = |a: &&crate::StateAnswer| {
        a.state.supply == plan::SupplyState::KeyOn
            && a.state.turned_on(s.loom) == 0
            && a.state.signals.is_empty()
    };
    let Some(state) = s.answers.states.iter().find(off) else {
        return 0;
    };
    let half = s.loom.supply.system.nominal() / 2.0;
    // What a coil or a load holds up is live to a meter, and gives only what that lets through.
    let live = |i: &usize| {
        let w = &s.loom.wires[*i];
        !w.bounded && state.settled.at(w.from) > half
    };
    through_panels(s).filter(live).count()
}
