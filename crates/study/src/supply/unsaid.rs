//! What the vehicle itself draws where the plan does not say it.

use crate::design::Design;
use loom::{Assumed, Assumption};
use plan::SupplyState;

/// By supply state, A; nothing where the plan says it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Unsaid {
    parked: f64,
    key_on: f64,
    idling: f64,
    driving: f64,
}

impl Unsaid {
    pub fn new(d: &Design, assumed: &Assumed, heard: &mut Vec<Assumption>) -> Self {
        let v = &d.loom.supply.vehicle;
        // A battery that starts no engine has no vehicle on it.
        let mut unless = |said: bool, name: &str| match said || d.supply.starter <= 0.0 {
            true => 0.0,
            false => assumed.number(name, heard) * 12.0 / d.nominal(),
        };
        let driving = unless(v.driving.is_some(), "running draw");
        Self {
            parked: unless(v.parked.is_some(), "parked draw"),
            key_on: unless(v.key_on.is_some(), "key-on draw"),
            // Idling it draws what it does driving, unless the plan says otherwise.
            idling: if v.idling.is_some() { 0.0 } else { driving },
            driving,
        }
    }

    pub fn in_state(&self, supply: SupplyState) -> f64 {
        match supply {
            SupplyState::Parked => self.parked,
            SupplyState::KeyOn => self.key_on,
            SupplyState::Idling => self.idling,
            SupplyState::Driving => self.driving,
            SupplyState::Cranking => 0.0,
        }
    }
}
