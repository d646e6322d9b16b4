//! Settles a state: currents, relays and temperatures together. Currents set heat, heat sets
//! resistance, resistance sets currents; coils pull in on the voltage that they really get.

use crate::design::Design;
use crate::heat::{self, Heat};
use crate::network::{Inner, Model, Piece, coil_kelvin, model};
use crate::state::State;
use loom::{PartId, PartKind, PinId};
use physics::coil;
use physics::conductor::T20;
use physics::network::{Failure, Knobs, Network, Node, Solution, solve};
use quantity::Quantity;

/// Passes of currents and heat; three or four are enough, and each gains about a decade.
const PASSES: usize = 8;
/// A wire that moves less than this between passes has settled, K.
const SETTLED_K: f64 = 0.02;
/// Rounds of relay decisions before a circuit counts as chattering.
const ROUNDS: usize = 12;

/// A solved state.
#[derive(Clone, Debug, Default)]
pub struct Settled {
    /// By pin: volts against the battery's negative post, where current can reach.
    pub volts: Vec<Option<f64>>,
    /// By wire: amperes from its `from` to its `to`.
    pub wire_amps: Vec<f64>,
    /// By wire: hottest temperature, K.
    pub hottest_k: Vec<f64>,
    /// By wire: mean temperature, K.
    pub mean_k: Vec<f64>,
    /// By wire: heat around it where it is hottest, K.
    pub around_k: Vec<f64>,
    /// By part: amperes through a fuse, a load, a contact.
    pub part_amps: Vec<f64>,
    /// By part: whether a relay has pulled in.
    pub energised: Vec<bool>,
    /// Relays that never came to rest.
    pub chatter: Vec<PartId>,
    /// Why the network could not be solved, if it could not.
    pub failure: Option<String>,
    /// The network of the last pass.
    pub model: Option<Model>,
}

impl Settled {
    /// Volts at a pin; a pin that no current reaches counts as dead.
    pub fn at(&self, pin: PinId) -> f64 {
        self.volts[pin.0 as usize].unwrap_or(0.0)
    }
}

/// Settles a state, from an earlier settling of it if there is one.
pub(crate) fn settle(d: &Design, state: &State, before: Option<&Settled>) -> Settled {
    let mut s = before.cloned().unwrap_or_else(|| cold(d));
    s.failure = None;
    for _ in 0..PASSES {
        if let Err(f) = relays(d, state, &mut s) {
            s.failure = Some(blame(d, &s, f));
            return s;
        }
        let heat = heat::all(d, &s.wire_amps);
        let moved = s
            .mean_k
            .iter()
            .zip(&heat.mean)
            .map(|(a, b)| (a - b).abs())
            .fold(0.0, f64::max);
        let Heat {
            hottest,
            mean,
            around,
        } = heat;
        (s.hottest_k, s.mean_k, s.around_k) = (hottest, mean, around);
        if moved < SETTLED_K {
            break;
        }
    }
    s
}

/// Where a settling starts: no relay pulled in, every wire as hot as its surroundings.
fn cold(d: &Design) -> Settled {
    let heat = heat::all(d, &vec![0.0; d.loom.wires.len()]);
    Settled {
        volts: vec![None; d.loom.pins.len()],
        wire_amps: vec![0.0; d.loom.wires.len()],
        hottest_k: heat.hottest,
        mean_k: heat.mean,
        around_k: heat.around,
        part_amps: vec![0.0; d.loom.parts.len()],
        energised: vec![false; d.loom.parts.len()],
        ..Settled::default()
    }
}

/// Solves, decides every relay by its coil's voltage, and solves again until nothing changes.
fn relays(d: &Design, state: &State, s: &mut Settled) -> Result<(), Failure> {
    s.chatter.clear();
    for round in 0..ROUNDS {
        solve_once(d, state, s)?;
        let decided = decide(d, s);
        if decided == s.energised {
            return Ok(());
        }
        if round + 1 == ROUNDS {
            s.chatter = d
                .loom
                .each_part()
                .map(|(id, _)| id)
                .filter(|p| decided[p.0 as usize] != s.energised[p.0 as usize])
                .collect();
        }
        s.energised = decided;
    }
    Ok(())
}

fn solve_once(d: &Design, state: &State, s: &mut Settled) -> Result<(), Failure> {
    let inner = Inner {
        energised: &s.energised,
        mean_k: &s.mean_k,
        fuse_amps: &s.part_amps,
    };
    let m = model(d, state, &inner);
    let m = s.model.insert(m);
    let solution = run(m)?;
    s.volts = m
        .node_of_pin
        .iter()
        .map(|n| n.map(|n| solution.volts[n]))
        .collect();
    s.wire_amps.fill(0.0);
    s.part_amps.fill(0.0);
    for (e, amps) in m.elements.iter().zip(&solution.amps) {
        match e.piece {
            Piece::Wire(w) => s.wire_amps[w.0 as usize] = *amps,
            Piece::Fuse(p) | Piece::Load(p) | Piece::Contact(p) | Piece::Feed(p) => {
                s.part_amps[p.0 as usize] = *amps
            }
            _ => {}
        }
    }
    Ok(())
}

/// Solves a model.
pub(crate) fn run(m: &Model) -> Result<Solution, Failure> {
    let mut network = Network::new();
    let mut nodes = vec![Node::GROUND];
    nodes.extend((1..m.nodes).map(|_| network.node()));
    for e in &m.elements {
        network.element(nodes[e.a], nodes[e.b], e.law);
    }
    solve(&network, &Knobs::default())
}

/// Which relays hold: one that rests pulls in at its pull-in voltage, one that holds lets go below
/// its drop-out voltage, both at the temperature of its coil.
fn decide(d: &Design, s: &Settled) -> Vec<bool> {
    let mut held = s.energised.clone();
    for (id, part) in d.loom.each_part() {
        let PartKind::Relay(r) = &part.kind else {
            continue;
        };
        let Some(kind) = d.stock.relay(&r.kind, d.loom.supply.system.volts()) else {
            continue;
        };
        let volts = s.at(part.pins[2]) - s.at(part.pins[3]);
        let on = s.energised[id.0 as usize];
        let needed = if on { kind.drop_out } else { kind.pull_in };
        let needed = coil::pull_in_volts(needed.si(), T20, coil_kelvin(d, part.place, on));
        held[id.0 as usize] = volts >= needed;
    }
    held
}

/// Names the worst place of a network that would not be solved.
fn blame(d: &Design, s: &Settled, failure: Failure) -> String {
    let worst = match &failure {
        Failure::Stuck { worst, .. } => Some(worst.index()),
        Failure::Flawed(_) => None,
    };
    let pin = s
        .model
        .as_ref()
        .and_then(|m| {
            m.node_of_pin
                .iter()
                .position(|n| worst.is_some_and(|w| *n == Some(w)))
        })
        .map(|i| d.loom.pin_name(PinId(i as u32)));
    match pin {
        Some(pin) => format!("{failure}, worst at {pin}"),
        None => failure.to_string(),
    }
}
