//! Settles a state: currents, relays and temperatures together. Currents set heat, heat sets
//! resistance, resistance sets currents; coils pull in on the voltage that they really get.

use crate::change::{Change, Poor, Spot};
use crate::design::Design;
use crate::heat::{self, Heat};
use crate::lost::Lost;
use crate::network::{Inner, Model, Piece, model};
use crate::relays::{self, Flip};
use crate::solve::run;
use crate::state::State;
use loom::{PartId, PinId};
use physics::network::{Failure, Solver};
use plan::SupplyState;
use std::sync::Arc;

/// Passes of currents and heat; three or four are enough, and each gains about a decade.
const PASSES: usize = 8;
/// A wire that moves less than this between passes has settled, K.
const SETTLED_K: f64 = 0.02;

/// A solved state.
#[derive(Clone, Debug, Default)]
pub struct Settled {
    /// By pin: volts against the battery's negative post, where current can reach.
    pub volts: Vec<Option<f64>>,
    /// By wire: amperes from its `from` to its `to`.
    pub wire_amps: Vec<f64>,
    /// Temperatures of the wires.
    pub heat: Arc<Heat>,
    /// By part: amperes through a fuse, a load, a contact, a coil's relay contact.
    pub part_amps: Vec<f64>,
    /// What the battery, or whatever supplies in its place, gives, A.
    pub given: f64,
    /// By part: whether a relay has pulled in, or a cut-out lets current through.
    pub energised: Vec<bool>,
    /// The circle that relays or cut-outs go round in, if they never come to rest.
    pub chatter: Vec<Flip>,
    /// Why the network could not be solved, if it could not.
    pub failure: Option<String>,
    /// The network of the last pass, where it was kept.
    pub model: Option<Model>,
}

impl Settled {
    /// Volts at a pin; a pin that no current reaches counts as dead.
    pub fn at(&self, pin: PinId) -> f64 {
        self.volts[pin.0 as usize].unwrap_or(0.0)
    }

    /// Volts from one pin to another. A pin that nothing reaches has no voltage against anything.
    pub fn across(&self, a: PinId, b: PinId) -> f64 {
        match (self.volts[a.0 as usize], self.volts[b.0 as usize]) {
            (Some(a), Some(b)) => a - b,
            _ => 0.0,
        }
    }

    /// Volts from one spot to another, or to the body; none where nothing reaches one of them and something may
    /// the other. Halfway along a wire is taken for the end that is further from the other spot.
    pub(crate) fn between(
        &self,
        ends: impl Fn(Spot) -> [PinId; 2],
        a: Spot,
        b: Option<Spot>,
    ) -> Option<f64> {
        let at = |spot: Spot| ends(spot).map(|pin| self.volts[pin.0 as usize]);
        let known = |volts: [Option<f64>; 2]| volts[0].zip(volts[1]);
        let first = at(a);
        let Some(b) = b else {
            return match known(first) {
                Some((x, y)) => Some(if x.abs() > y.abs() { x } else { y }),
                None => first.iter().all(Option::is_none).then_some(0.0),
            };
        };
        let second = at(b);
        match (known(first), known(second)) {
            (Some(x), Some(y)) => {
                let all = [x.0 - y.0, x.0 - y.1, x.1 - y.0, x.1 - y.1];
                all.into_iter().max_by(|p, q| p.abs().total_cmp(&q.abs()))
            }
            // Two that hang on nothing stay so.
            _ => first
                .iter()
                .chain(&second)
                .all(Option::is_none)
                .then_some(0.0),
        }
    }

    /// The same without its network, which is most of it.
    pub(crate) fn without_model(&self) -> Self {
        Self {
            volts: self.volts.clone(),
            wire_amps: self.wire_amps.clone(),
            heat: Arc::clone(&self.heat),
            part_amps: self.part_amps.clone(),
            given: self.given,
            energised: self.energised.clone(),
            chatter: self.chatter.clone(),
            failure: self.failure.clone(),
            model: None,
        }
    }

    /// Amperes through a piece of the network, where that was kept.
    pub(crate) fn through(&self, piece: Piece) -> f64 {
        let Some(model) = &self.model else { return 0.0 };
        let at = model.elements.iter().position(|e| e.piece == piece);
        at.and_then(|at| model.amps.get(at))
            .map_or(0.0, |a| a.abs())
    }

    /// Amperes through a joint, where the network was kept.
    pub(crate) fn through_joint(&self, poor: Poor) -> f64 {
        match poor {
            Poor::Wire(w) => self.wire_amps[w.0 as usize],
            Poor::Mate(i) => self.through(Piece::Mate(i)),
            Poor::Earth(p) => self.through(Piece::Body(p)),
            Poor::Fuse(p) => self.through(Piece::Fuse(p)),
            Poor::Contact(p) => self.through(Piece::Contact(p)),
        }
    }

    /// Whether it was solved and everything in it came to rest.
    pub fn rests(&self) -> bool {
        self.failure.is_none() && self.chatter.is_empty()
    }

    /// The relays and cut-outs that never come to rest.
    pub fn chattering(&self) -> Vec<PartId> {
        let mut parts: Vec<PartId> = self.chatter.iter().map(|f| f.part).collect();
        parts.sort();
        parts.dedup();
        parts
    }
}

/// Settles a state with its heat, from an earlier settling of it if there is one.
pub(crate) fn settle(d: &Design, state: &State, before: Option<&Settled>) -> Settled {
    settle_as(d, state, View::default(), before)
}

/// The same, looked at in another way; cut-outs are held.
pub(crate) fn settle_as(
    d: &Design,
    state: &State,
    view: View,
    before: Option<&Settled>,
) -> Settled {
    let mut s = before.cloned().unwrap_or_else(|| cold(d));
    let mut solver = Solver::new();
    s.failure = None;
    for _ in 0..PASSES {
        let view = View {
            hold: Hold::CutOuts,
            ..view
        };
        if let Err(f) = turn(d, state, view, &mut s, &mut solver) {
            s.failure = Some(blame(d, &s, f));
            return s;
        }
        let heat = heat::all(d, &s, Some(&s.heat));
        let moved = s
            .heat
            .mean
            .iter()
            .zip(&heat.mean)
            .map(|(a, b)| (a - b).abs())
            .fold(0.0, f64::max);
        s.heat = Arc::new(heat);
        if moved < SETTLED_K {
            break;
        }
    }
    s
}

/// Solves a state at temperatures that are known: those that its wires have in their worst state, or
/// those of a cold morning. Relays start as `from` left them.
pub(crate) fn glance(
    d: &Design,
    (state, lost): (&State, Lost),
    heat: &Arc<Heat>,
    from: Option<&[bool]>,
) -> Settled {
    let view = View {
        change: Change::lost(lost),
        ..View::default()
    };
    glance_as(d, state, view, heat, from)
}

/// How a state is looked at.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct View {
    /// What a fault has changed.
    pub change: Change,
    /// What a second one has.
    pub also: Option<Change>,
    /// Charge and temperature of the battery, where the supply state does not say.
    pub battery: Option<(f64, f64)>,
    /// What the vehicle itself draws beyond what the plan says of it, A.
    pub unsaid: f64,
    /// Loads that switch themselves at the mean of their current.
    pub mean_loads: bool,
    /// As it is today: what is to come to spare ways later draws nothing.
    pub today: bool,
    /// What does not turn.
    pub hold: Hold,
    /// Whether each solution is sought from the one before it.
    pub near: bool,
}

/// What is held as it stands, whatever voltage it gets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Hold {
    /// Nothing.
    #[default]
    Nothing,
    /// Cut-outs: a loom is sized for what flows while they let it.
    CutOuts,
    /// Relays too.
    Everything,
}

/// The same, looked at in another way.
pub(crate) fn glance_as(
    d: &Design,
    state: &State,
    view: View,
    heat: &Arc<Heat>,
    from: Option<&[bool]>,
) -> Settled {
    let mut s = Settled {
        heat: warmth(d, state, heat),
        ..blank(d)
    };
    let mut solver = Solver::new();
    let solved = match from {
        Some(from) => {
            s.energised = from.to_vec();
            turn(d, state, view, &mut s, &mut solver)
        }
        None => as_asked(d, state, view, &mut s, &mut solver).and_then(|held| match held {
            true => Ok(()),
            false => {
                s.energised = relays::at_rest(d);
                s.part_amps.fill(0.0);
                turn(d, state, view, &mut s, &mut solver)
            }
        }),
    };
    if let Err(f) = solved {
        s.failure = Some(blame(d, &s, f));
    }
    s
}

/// The same, from a state much like it: its relays stand as they did there, and of two answers the nearer is found.
pub(crate) fn glance_near(
    d: &Design,
    state: &State,
    view: View,
    heat: &Arc<Heat>,
    before: &Settled,
) -> Settled {
    let mut s = Settled {
        heat: warmth(d, state, heat),
        volts: before.volts.clone(),
        part_amps: before.part_amps.clone(),
        energised: before.energised.clone(),
        ..blank(d)
    };
    if let Err(f) = turn(d, state, view, &mut s, &mut Solver::new()) {
        s.failure = Some(blame(d, &s, f));
    }
    s
}

/// Temperatures of the wires in a state: on a cold morning none is warm yet.
fn warmth(d: &Design, state: &State, heat: &Arc<Heat>) -> Arc<Heat> {
    match state.supply {
        SupplyState::Cranking => Arc::new(Heat::even(d.loom.wires.len(), d.cold_k())),
        _ => Arc::clone(heat),
    }
}

/// Tries the usual end first: every relay that is asked has pulled in, no other has. It holds where each would
/// pull in with its loads already on, and the others would not even then; else the relays are followed from rest.
fn as_asked(
    d: &Design,
    state: &State,
    view: View,
    s: &mut Settled,
    solver: &mut Solver,
) -> Result<bool, Failure> {
    for relay in d.asked(state) {
        s.energised[relay.0 as usize] = true;
    }
    // The second time the fuses are as warm as their currents make them.
    for _ in 0..2 {
        solve_once(d, state, view, s, solver)?;
    }
    Ok(relays::would_come(d, state, s))
}

/// Where a settling starts: no relay pulled in, every wire as hot as its surroundings.
fn cold(d: &Design) -> Settled {
    let mut s = blank(d);
    s.heat = Arc::new(heat::all(d, &s, None));
    s
}

fn blank(d: &Design) -> Settled {
    Settled {
        volts: vec![None; d.loom.pins.len()],
        wire_amps: vec![0.0; d.loom.wires.len()],
        part_amps: vec![0.0; d.loom.parts.len()],
        energised: relays::at_rest(d),
        ..Settled::default()
    }
}

/// Solves with every relay decided, and once more with the fuses as warm as their currents make them.
fn turn(
    d: &Design,
    state: &State,
    view: View,
    s: &mut Settled,
    solver: &mut Solver,
) -> Result<(), Failure> {
    let fuses = s.part_amps.clone();
    relays::settle(d, (state, view.hold), s, |s| {
        solve_once(d, state, view, s, solver)
    })?;
    let moved = fuses
        .iter()
        .zip(&s.part_amps)
        .any(|(a, b)| (a - b).abs() > 0.5);
    if moved && s.chatter.is_empty() {
        solve_once(d, state, view, s, solver)?;
    }
    Ok(())
}

fn solve_once(
    d: &Design,
    state: &State,
    view: View,
    s: &mut Settled,
    solver: &mut Solver,
) -> Result<(), Failure> {
    let inner = Inner {
        energised: &s.energised,
        mean_k: &s.heat.mean,
        fuse_amps: &s.part_amps,
        view,
    };
    let m = model(d, state, &inner);
    let m = s.model.insert(m);
    let from = view.near.then_some(s.volts.as_slice());
    let solution = run(m, solver, from)?;
    s.volts.clear();
    s.volts
        .extend(m.node_of_pin.iter().map(|n| n.map(|n| solution.volts[n])));
    s.wire_amps.fill(0.0);
    s.part_amps.fill(0.0);
    s.given = 0.0;
    for (e, amps) in m.elements.iter().zip(&solution.amps) {
        match e.piece {
            // Of a wire that is touched halfway along, the half that carries more.
            Piece::Wire(w) => {
                let most = &mut s.wire_amps[w.0 as usize];
                if amps.abs() > most.abs() {
                    *most = *amps;
                }
            }
            Piece::Battery => s.given = -*amps,
            Piece::Fuse(p) | Piece::Load(p) | Piece::Contact(p) | Piece::Feed(p) => {
                s.part_amps[p.0 as usize] = *amps
            }
            _ => {}
        }
    }
    m.amps = solution.amps;
    Ok(())
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
