//! Heater. Law: I = V/R, R from its rating. Start: as it runs (a cold PTC element takes up to twice,
//! from memory; the installer can say so with `start`).

use super::{Model, Start};
use physics::network::Law;
use quantity::Quantity;
use stock::ContactLoad;

pub(super) const MODEL: Model = Model {
    contact: ContactLoad::Resistive,
    law: |f| Law::Resistor {
        ohms: f.rated_volts() / f.rated_amps(),
    },
    start: |f| Start {
        amps: f.load.start.map_or(f.rated_amps(), |a| a.si()),
        running: f.rated_amps(),
        seconds: 1.0,
    },
    on: |f, volts, _| volts >= f.limits.value("heater warms") * f.rated_volts(),
};
