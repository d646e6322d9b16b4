//! What each kind of load does electrically. One kind, one file: its law, its start, what a contact
//! feels of it, what counts as on, on whose word.

mod electronics;
mod heater;
mod led;
mod motor;
mod socket;
mod tungsten;

use crate::limits::Limits;
use loom::LoadPart;
use physics::network::Law;
use plan::{LampKind, LoadKind, Rated};
use quantity::Quantity;
use stock::ContactLoad;

/// A load's starting pulse: from its peak it falls to the running current exponentially, and has
/// fallen to a twentieth of the way after `seconds`, which are three time constants.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Start {
    /// Peak, A.
    pub amps: f64,
    /// Running current, A.
    pub running: f64,
    /// Until it is over, s.
    pub seconds: f64,
}

impl Start {
    /// Current at a time after switching on, A.
    pub fn at(&self, t: f64) -> f64 {
        self.running + (self.amps - self.running).max(0.0) * (-3.0 * t / self.seconds).exp()
    }
}

/// What a kind of load is to the circuit.
pub(crate) struct Model {
    /// What a contact feels of it.
    pub contact: ContactLoad,
    /// Its law for the network.
    pub law: fn(&Frame) -> Law,
    /// Its starting pulse.
    pub start: fn(&Frame) -> Start,
    /// Whether it does anything that a person would notice, at these volts and amperes across it.
    pub on: fn(&Frame, f64, f64) -> bool,
}

/// A load with what its law needs to know.
pub(crate) struct Frame<'a> {
    pub load: &'a LoadPart,
    pub limits: &'a Limits,
    /// Nominal system voltage, V.
    pub nominal: f64,
}

impl Frame<'_> {
    /// Rated voltage, V.
    pub fn rated_volts(&self) -> f64 {
        self.load.at.si()
    }

    /// Rated current, A.
    pub fn rated_amps(&self) -> f64 {
        rated_amps(self.load)
    }

    /// Rated power, W.
    pub fn rated_watts(&self) -> f64 {
        self.rated_amps() * self.rated_volts()
    }

    /// Least voltage it works at, V: as said, or the usual one.
    pub fn lowest(&self) -> f64 {
        let part = self.limits.value("lowest volts of electronics");
        // A load of another voltage than the vehicle's goes by its own.
        let own = self
            .load
            .highest
            .map_or(self.nominal, |v| v.si().min(self.nominal));
        self.load.lowest.map_or(part * own, |v| v.si())
    }

    /// Most voltage it bears, V; without a printed one, none that decides anything here.
    pub fn highest(&self) -> f64 {
        self.load.highest.map_or(self.nominal * 3.0, |v| v.si())
    }
}

/// Rated current of a load, A.
pub(crate) fn rated_amps(load: &LoadPart) -> f64 {
    match load.rated {
        Rated::Current(a) => a.si(),
        Rated::Power(p) => p.si() / load.at.si(),
    }
}

/// The model of a kind.
pub(crate) fn model(kind: LoadKind) -> &'static Model {
    match kind {
        LoadKind::Lamp(LampKind::Tungsten) => &tungsten::MODEL,
        LoadKind::Lamp(LampKind::Led) => &led::MODEL,
        LoadKind::Motor => &motor::MODEL,
        LoadKind::Heater => &heater::MODEL,
        LoadKind::Electronics => &electronics::MODEL,
        LoadKind::Socket => &socket::MODEL,
    }
}
