//! How long things run with the engine off, from a full battery down to its reserve.

use super::Study;
use super::answers::{Endurance, RunEnd};
use super::moment::Moment;
use crate::amiss::Amiss;
use crate::state::State;
use finding::joined;
use plan::{DayPart, SupplyState};

/// Charge is followed in steps of this much.
const STEP: f64 = 0.01;
/// A current below this is no use of the battery, A.
const NO_USE: f64 = 1e-3;

/// Every circuit alone, what each part of the day has on with the engine off, and everything.
pub(super) fn find(s: &Study, day: &[DayPart]) -> Result<Vec<Endurance>, Amiss> {
    let loom = s.moments.design.loom;
    let always = always_live(s);
    let mut sets: Vec<(String, Vec<usize>, Vec<usize>)> = Vec::new();
    let mut add = |what: String, named: Vec<usize>| {
        let mut circuits = named.clone();
        circuits.extend(&always);
        circuits.sort_unstable();
        circuits.dedup();
        if !circuits.is_empty() && !sets.iter().any(|(_, c, _)| *c == circuits) {
            sets.push((what, circuits, named));
        }
    };
    let name = |c: usize| loom.circuits[c].name.as_str();
    let always_names: Vec<&str> = always.iter().map(|c| name(*c)).collect();
    add(joined(&always_names), always.clone());
    for c in 0..loom.circuits.len() {
        let what = match always_names.as_slice() {
            [] => name(c).to_owned(),
            names => format!("{} with {}", name(c), joined(names)),
        };
        add(what, vec![c]);
    }
    add("everything".to_owned(), (0..loom.circuits.len()).collect());
    let off = |p: &&DayPart| matches!(p.supply, SupplyState::Parked | SupplyState::KeyOn);
    for part in day.iter().filter(off) {
        let circuits: Vec<usize> = part
            .on
            .iter()
            .filter_map(|n| circuit_named(s, &n.value))
            .collect();
        let names: Vec<&str> = circuits.iter().map(|c| name(*c)).collect();
        add(format!("{} ({})", part.what, joined(&names)), circuits);
    }
    sets.into_iter()
        .filter_map(|(what, circuits, named)| {
            let state = engine_off(s, &circuits)?;
            Some(run(s, &state, what, circuits, &named))
        })
        .collect()
}

/// The circuit of this name.
pub(super) fn circuit_named(s: &Study, name: &str) -> Option<usize> {
    s.moments
        .design
        .loom
        .circuits
        .iter()
        .position(|c| c.name == name)
}

/// Circuits that draw with every switch off and the key out.
fn always_live(s: &Study) -> Vec<usize> {
    let loom = s.moments.design.loom;
    let state = s.moments.state(SupplyState::Parked, &[]);
    (0..loom.circuits.len())
        .filter(|c| state.asks(loom, *c))
        .collect()
}

/// The state in which these circuits run with the engine off: parked, or with the key on where one needs it.
fn engine_off(s: &Study, circuits: &[usize]) -> Option<State> {
    let loom = s.moments.design.loom;
    let parked = s.moments.state(SupplyState::Parked, circuits);
    if circuits.iter().all(|c| parked.asks(loom, *c)) {
        return Some(parked);
    }
    let key_on = s.moments.state(SupplyState::KeyOn, circuits);
    circuits
        .iter()
        .any(|c| key_on.asks(loom, *c))
        .then_some(key_on)
}

/// A run ends when the last of the circuits that it is named for goes out, or at the reserve.
fn run(
    s: &Study,
    state: &State,
    what: String,
    circuits: Vec<usize>,
    named: &[usize],
) -> Result<Endurance, Amiss> {
    let (mut charge, mut hours, mut standing) = (1.0, 0.0, None);
    let mut used = 0.0;
    let mut end = if s.least >= 1.0 {
        RunEnd::AtOnce
    } else {
        RunEnd::Reserve
    };
    while charge > s.least + 1e-9 {
        let m = s.moments.at(state, charge, standing.as_deref())?;
        if let Some(over) = over(s, &m, named) {
            end = over;
            break;
        }
        if m.battery < NO_USE {
            (hours, end) = (f64::INFINITY, RunEnd::Never);
            break;
        }
        let step = STEP.min(charge - s.least);
        let lasts = step / s.store.taken_per_hour(m.battery);
        hours += lasts;
        used += m.battery * lasts;
        charge -= step;
        standing = Some(m.energised);
    }
    Ok(Endurance {
        what,
        circuits,
        supply: state.supply,
        amps: if used > 0.0 { used / hours } else { 0.0 },
        hours,
        to_charge: charge,
        end,
    })
}

/// Why a run is over, if all of the circuits that it is named for are out: cut out, or with too few volts.
fn over(s: &Study, m: &Moment, named: &[usize]) -> Option<RunEnd> {
    let d = s.moments.design;
    let mut end = None;
    for c in named {
        let circuit = &d.loom.circuits[*c];
        let out = circuit
            .cutout
            .filter(|q| !m.energised[q.0 as usize] || m.restless.contains(q));
        let weak = circuit.loads.iter().find(|l| m.weak.contains(l));
        end = match (out, weak) {
            (Some(q), _) => Some(RunEnd::CutOut(q)),
            (None, Some(load)) => Some(RunEnd::TooLow(*load)),
            (None, None) => return None,
        };
    }
    end
}
