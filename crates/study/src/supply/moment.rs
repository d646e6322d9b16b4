//! One moment: the network solved at a charge, with loads that switch themselves at their mean.

use super::unsaid::Unsaid;
use crate::amiss::{Amiss, Beside};
use crate::design::Design;
use crate::heat::Heat;
use crate::network::Piece;
use crate::on::weak;
use crate::settle::{self, Hold, Settled, View};
use crate::state::{Position, State};
use loom::PartId;
use std::sync::Arc;

/// What one moment comes to.
pub(super) struct Moment {
    /// Current that the battery gives, A.
    pub battery: f64,
    /// Current that the alternator gives, A.
    pub alternator: f64,
    /// Current that the vehicle itself draws, said and assumed, A.
    pub vehicle: f64,
    /// Voltage at the posts, V.
    pub volts: f64,
    /// Loads that are asked for and get less than they work at, while all that is on draws in full.
    pub weak: Vec<PartId>,
    /// How relays and cut-outs stand, by part.
    pub energised: Vec<bool>,
    /// Cut-outs and relays that can't come to rest.
    pub restless: Vec<PartId>,
}

/// The network at any moment.
pub(super) struct Moments<'a> {
    pub design: &'a Design<'a>,
    pub heat: Arc<Heat>,
    /// Temperature of the battery, K.
    pub kelvin: f64,
    pub unsaid: Unsaid,
}

impl Moments<'_> {
    /// A state at a charge; relays and cut-outs start as `from` left them. They turn on what the loads draw
    /// while they are on; what is used over time is the mean.
    pub fn at(&self, state: &State, charge: f64, from: Option<&[bool]>) -> Result<Moment, Amiss> {
        let d = self.design;
        let full = View {
            battery: Some((charge, self.kelvin)),
            unsaid: self.unsaid.in_state(state.supply),
            ..View::default()
        };
        let turned = settle::glance_as(d, state, full, &self.heat, from);
        let mean = View {
            mean_loads: true,
            hold: Hold::Everything,
            ..full
        };
        let s = settle::glance_as(d, state, mean, &self.heat, Some(&turned.energised));
        for s in [&turned, &s] {
            let amiss = Amiss::of(state, Beside::Charge(charge), s);
            if let Some(amiss) = amiss.filter(|_| s.failure.is_some()) {
                return Err(amiss);
            }
        }
        let given = |wanted: Piece| amps_of(&s, wanted).map_or(0.0, |a| -a);
        Ok(Moment {
            battery: given(Piece::Battery),
            alternator: given(Piece::Alternator),
            vehicle: amps_of(&s, Piece::Vehicle).unwrap_or(0.0),
            volts: s.at(d.loom.parts[0].pins[0]),
            weak: weak(d, state, &turned, |_| true).map(|w| w.load).collect(),
            restless: turned.chattering(),
            energised: s.energised,
        })
    }

    /// A state with these circuits on and everything else as it rests, with the signals that they want.
    pub fn state(&self, supply: plan::SupplyState, on: &[usize]) -> State {
        let loom = self.design.loom;
        let wanted = on.iter().flat_map(|c| &loom.circuits[*c].only);
        self.state_with(supply, on, &wanted.copied().collect::<Vec<_>>())
    }

    /// The same with these signals, as far as they can be there.
    pub fn state_with(&self, supply: plan::SupplyState, on: &[usize], signals: &[PartId]) -> State {
        let loom = self.design.loom;
        let mut positions = crate::combine::at_rest(loom);
        for &c in on {
            positions[c] = Position::On;
        }
        let all: Vec<PartId> = crate::combine::each_signal(loom).collect();
        let there = crate::combine::possible(loom, supply, &all, signals);
        State::new(loom, supply, positions, there)
    }
}

fn amps_of(s: &Settled, wanted: Piece) -> Option<f64> {
    let m = s.model.as_ref()?;
    let at = m.elements.iter().position(|e| e.piece == wanted)?;
    m.amps.get(at).copied()
}
