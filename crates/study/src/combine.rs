//! Which states are tried. Few switches: every combination. Many: all off, each alone, all on, each
//! off alone, and every pair that shares a wire or an earth point (what two circuits do to one
//! another they do through what both use). Each with every supply state.

use crate::paths::Paths;
use crate::state::{Position, State};
use loom::{Loom, PartId, PartKind, PinId};
use plan::SupplyState;

/// Up to this many combinations of switches and signals, every one is tried.
const WHOLE: usize = 64;

/// In this order: a state found first is the one that is told. Nothing is cranked by a battery that starts
/// no engine, unless a signal tells of it.
pub(crate) fn supplies(loom: &Loom, cranks: bool) -> Vec<SupplyState> {
    let mut all = vec![
        SupplyState::Driving,
        SupplyState::KeyOn,
        SupplyState::Idling,
        SupplyState::Parked,
    ];
    let told = each_signal(loom).any(|s| when(loom, s) == [SupplyState::Cranking]);
    all.extend((cranks || told).then_some(SupplyState::Cranking));
    all
}

/// How the states that were tried were chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// Circuits with a switch.
    pub switches: usize,
    /// Signals of the vehicle.
    pub signals: usize,
    /// States that there are in all.
    pub all: f64,
    /// States that were tried.
    pub states: usize,
    /// Whether every one was.
    pub whole: bool,
    /// Pairs of circuits that share a wire or an earth point.
    pub pairs: usize,
}

/// Positions of the switches and signals that are there.
type Setting = (Vec<Position>, Vec<PartId>);

/// Every state to try, those that size the loom first, and how they were chosen.
pub(crate) fn states(
    loom: &Loom,
    paths: &Paths,
    sizing: &[State],
    supplies: &[SupplyState],
    survey: bool,
) -> (Vec<State>, Tried) {
    let switched: Vec<usize> = (0..loom.circuits.len())
        .filter(|c| loom.circuits[*c].switch.is_some())
        .collect();
    let signals: Vec<PartId> = each_signal(loom).collect();
    let turns = |c: &usize| {
        if loom.circuits[*c].auto.is_some() {
            3.0
        } else {
            2.0
        }
    };
    let each: f64 = switched.iter().map(turns).product::<f64>() * 2f64.powi(signals.len() as i32);
    let whole = each <= WHOLE as f64;
    let pairs = sharing(loom, paths, &switched);
    let settings = match (whole, survey) {
        (true, _) => every(loom, &switched, &signals),
        (false, true) => chosen(loom, &switched, &signals, &pairs),
        (false, false) => few(loom, &switched, &signals),
    };
    let alone = |(positions, _): &Setting| {
        let off = |c: &usize| positions[*c] == Position::Off;
        switched.iter().filter(|c| !off(c)).count() == 1 && switched.len() > 2
    };
    let mut states = sizing.to_vec();
    for &supply in supplies {
        // Of a first look, each alone is tried on one supply.
        let skipped = |s: &&Setting| !survey && !whole && supply != supplies[0] && alone(s);
        for (positions, there) in settings.iter().filter(|s| !skipped(s)) {
            let there = possible(loom, supply, &signals, there);
            let state = State::new(loom, supply, positions.clone(), there);
            if !states.contains(&state) {
                states.push(state);
            }
        }
    }
    let tried = Tried {
        switches: switched.len(),
        signals: signals.len(),
        all: each * supplies.len() as f64,
        states: states.len(),
        whole,
        pairs: pairs.len(),
    };
    (states, tried)
}

/// Of these signals, those that can be there in a supply state, and those that always are.
pub(crate) fn possible(
    loom: &Loom,
    supply: SupplyState,
    signals: &[PartId],
    there: &[PartId],
) -> Vec<PartId> {
    let may = |s: &&PartId| {
        let when = when(loom, **s);
        let starter = when == [SupplyState::Cranking];
        match starter {
            // Terminal 50: there whenever the engine is cranked, and only then.
            true => supply == SupplyState::Cranking,
            false => there.contains(s) && (when.is_empty() || when.contains(&supply)),
        }
    };
    signals.iter().filter(may).copied().collect()
}

/// Every signal of the vehicle.
pub(crate) fn each_signal(loom: &Loom) -> impl Iterator<Item = PartId> {
    let signals = loom
        .each_part()
        .filter(|(_, p)| matches!(p.kind, PartKind::Signal(_)));
    signals.map(|(id, _)| id)
}

fn when(loom: &Loom, signal: PartId) -> &[SupplyState] {
    match &loom.part(signal).kind {
        PartKind::Signal(s) => &s.when,
        _ => &[],
    }
}

/// Every switch at rest: off, and on where there is none to turn.
pub(crate) fn at_rest(loom: &Loom) -> Vec<Position> {
    let rest = |c: &loom::LoomCircuit| match c.switch {
        Some(_) => Position::Off,
        None => Position::On,
    };
    loom.circuits.iter().map(rest).collect()
}

/// Every combination, the last switch turning fastest.
fn every(loom: &Loom, switched: &[usize], signals: &[PartId]) -> Vec<Setting> {
    let mut settings: Vec<Setting> = vec![(at_rest(loom), Vec::new())];
    for &c in switched {
        let mut turned = Vec::new();
        for (positions, there) in settings {
            for to in turns(loom, c) {
                let mut p = positions.clone();
                p[c] = to;
                turned.push((p, there.clone()));
            }
        }
        settings = turned;
    }
    for &s in signals {
        let with = settings.iter().map(|(p, there)| {
            let mut there = there.clone();
            there.push(s);
            (p.clone(), there)
        });
        let with: Vec<Setting> = with.collect();
        settings.extend(with);
    }
    settings
}

fn turns(loom: &Loom, circuit: usize) -> Vec<Position> {
    match loom.circuits[circuit].auto {
        Some(_) => vec![Position::Off, Position::Auto, Position::On],
        None => vec![Position::Off, Position::On],
    }
}

/// The signals that a circuit wants at a position of its switch.
fn wants(loom: &Loom, circuit: usize, position: Position) -> Vec<PartId> {
    let c = &loom.circuits[circuit];
    let auto = c.auto.filter(|_| position == Position::Auto);
    c.only.iter().copied().chain(auto).collect()
}

/// All off, each alone, all on, each off alone, and the pairs; the signals as each wants them.
fn chosen(
    loom: &Loom,
    switched: &[usize],
    signals: &[PartId],
    pairs: &[(usize, usize)],
) -> Vec<Setting> {
    let rest = at_rest(loom);
    let all_on = vec![Position::On; loom.circuits.len()];
    let free = unbarred(loom);
    let mut settings = vec![(rest.clone(), Vec::new()), (rest.clone(), free.clone())];
    settings.push((all_on.clone(), free.clone()));
    settings.push((all_on.clone(), Vec::new()));
    settings.push((all_on.clone(), signals.to_vec()));
    for &c in switched {
        for to in turns(loom, c).into_iter().skip(1) {
            let mut alone = rest.clone();
            alone[c] = to;
            settings.push((alone, wants(loom, c, to)));
        }
        for to in turns(loom, c).into_iter().filter(|p| *p != Position::On) {
            let mut without = all_on.clone();
            without[c] = to;
            settings.push((without, free.clone()));
        }
    }
    for &(a, b) in pairs {
        let mut both = rest.clone();
        (both[a], both[b]) = (Position::On, Position::On);
        let mut there = wants(loom, a, Position::On);
        there.extend(wants(loom, b, Position::On));
        settings.push((both, there));
    }
    for &s in signals {
        settings.push((rest.clone(), vec![s]));
        settings.push((all_on.clone(), vec![s]));
        let others = signals.iter().copied().filter(|o| *o != s);
        settings.push((all_on.clone(), others.collect()));
    }
    settings
}

/// Of many, those that mostly tell: all off, each alone, all on.
fn few(loom: &Loom, switched: &[usize], signals: &[PartId]) -> Vec<Setting> {
    let rest = at_rest(loom);
    let all_on = vec![Position::On; loom.circuits.len()];
    let free = unbarred(loom);
    let mut settings = vec![
        (rest.clone(), Vec::new()),
        (all_on.clone(), free),
        (all_on, signals.to_vec()),
    ];
    for &c in switched {
        let mut alone = rest.clone();
        alone[c] = Position::On;
        settings.push((alone, wants(loom, c, Position::On)));
    }
    settings
}

/// The signals that some circuit wants and none is kept off by.
fn unbarred(loom: &Loom) -> Vec<PartId> {
    let barring: Vec<PartId> = loom
        .circuits
        .iter()
        .flat_map(|c| c.unless.clone())
        .collect();
    let wanted = loom
        .circuits
        .iter()
        .flat_map(|c| c.only.iter().chain(&c.auto));
    wanted.copied().filter(|s| !barring.contains(s)).collect()
}

/// Pairs of switched circuits that share a wire or an earth point.
fn sharing(loom: &Loom, paths: &Paths, switched: &[usize]) -> Vec<(usize, usize)> {
    let used: Vec<Vec<u32>> = switched.iter().map(|c| uses(loom, paths, *c)).collect();
    let mut pairs = Vec::new();
    for (i, a) in switched.iter().enumerate() {
        for (j, b) in switched.iter().enumerate().skip(i + 1) {
            if used[i].iter().any(|x| used[j].binary_search(x).is_ok()) {
                pairs.push((*a, *b));
            }
        }
    }
    pairs
}

/// The wires on the way of a circuit's loads, and the earth points it ends at, as sorted numbers.
fn uses(loom: &Loom, paths: &Paths, circuit: usize) -> Vec<u32> {
    let wires = loom.circuits[circuit]
        .loads
        .iter()
        .flat_map(|l| paths.way(*l));
    let mut used: Vec<u32> = wires.map(|w| w.0).collect();
    let earth = |pin: PinId| {
        let part = loom.pin(pin).part;
        matches!(loom.part(part).kind, PartKind::Earth(_)).then_some(part.0)
    };
    let own = loom.wires.iter().filter(|w| w.circuit == Some(circuit));
    let offset = loom.wires.len() as u32;
    used.extend(
        own.flat_map(|w| [w.from, w.to])
            .filter_map(earth)
            .map(|p| p + offset),
    );
    used.sort_unstable();
    used.dedup();
    used
}

/// The states that a loom is sized in: every switch on, with the engine running (most volts, most
/// heat) and with the engine off (constant-power loads take most current); the vehicle's signals as
/// each circuit wants them, for circuits that want them differently one after the other; and
/// three-position switches once on auto. What another state asks beyond these is found by the survey.
pub(crate) fn to_size(loom: &Loom) -> Vec<State> {
    let of = |pick: fn(&loom::LoomCircuit) -> &[PartId]| {
        let mut all: Vec<PartId> = loom.circuits.iter().flat_map(pick).copied().collect();
        all.sort();
        all.dedup();
        all
    };
    let (barring, auto) = (of(|c| &c.unless), of(|c| c.auto.as_slice()));
    let wanted = of(|c| &c.only).into_iter().filter(|s| !barring.contains(s));
    let free: Vec<PartId> = wanted.collect();
    let all_on = vec![Position::On; loom.circuits.len()];
    let mut cases = vec![(all_on.clone(), free.clone())];
    if !barring.is_empty() {
        let with = free.iter().chain(&barring).copied().collect();
        cases.push((all_on.clone(), with));
    }
    if !auto.is_empty() {
        let turned = loom.circuits.iter().map(|c| match c.auto {
            Some(_) => Position::Auto,
            None => Position::On,
        });
        let with = auto.iter().filter(|s| !barring.contains(s));
        let with = free.iter().chain(with).copied().collect();
        cases.push((turned.collect(), with));
    }
    let signals: Vec<PartId> = each_signal(loom).collect();
    let mut states: Vec<State> = Vec::new();
    // What is asked for only while cranking is sized as if the engine ran: seconds warm no wire.
    let starter = |s: &&PartId| when(loom, **s) == [SupplyState::Cranking];
    let cranked: Vec<PartId> = free.iter().filter(starter).copied().collect();
    for supply in [SupplyState::Driving, SupplyState::KeyOn] {
        for (positions, there) in &cases {
            let mut there = possible(loom, supply, &signals, there);
            there.extend(&cranked);
            let state = State::new(loom, supply, positions.clone(), there);
            if !states.contains(&state) {
                states.push(state);
            }
        }
    }
    states
}
