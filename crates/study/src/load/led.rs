//! LED lamp with a driver. Law: constant power between its limits, so that current rises as voltage
//! falls; dead below (common practice). Start: its input capacitor.

use super::{Model, electronics};
use stock::ContactLoad;

pub(super) const MODEL: Model = Model {
    contact: ContactLoad::Resistive,
    law: electronics::constant_power,
    start: electronics::capacitor,
    // A light-emitting diode glows at milliamperes, driver or not.
    on: |f, _, amps| amps >= f.limits.value("LED glows"),
};
