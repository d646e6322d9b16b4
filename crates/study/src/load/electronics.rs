//! Electronics: radio, fridge controller, charger. Law: constant power between its limits. Start:
//! its input capacitor.

use super::{Frame, Model, Start};
use physics::network::Law;
use stock::ContactLoad;

pub(super) const MODEL: Model = Model {
    contact: ContactLoad::Resistive,
    law: constant_power,
    start: capacitor,
    on: wakes,
};

pub(super) fn constant_power(f: &Frame) -> Law {
    Law::ConstantPower {
        watts: f.rated_watts(),
        lowest_volts: f.lowest(),
        highest_volts: f.highest(),
    }
}

/// It wakes once it draws a twentieth of its current (from memory).
pub(super) fn wakes(f: &Frame, _: f64, amps: f64) -> bool {
    amps >= f.limits.value("electronics wake") * f.rated_amps()
}

pub(super) fn capacitor(f: &Frame) -> Start {
    let said = f.load.start.map(quantity::Quantity::si);
    Start {
        amps: said.unwrap_or(f.rated_amps() * f.limits.value("electronic start multiple")),
        running: f.rated_amps(),
        seconds: f.limits.value("electronic start seconds"),
    }
}
