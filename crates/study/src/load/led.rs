//! LED lamp with a driver. Law: constant power between its limits, so that current rises as voltage
//! falls; dead below (common practice). Start: its input capacitor.

use super::{Model, electronics};
use stock::ContactLoad;

pub(super) const MODEL: Model = Model {
    contact: ContactLoad::Resistive,
    law: electronics::constant_power,
    start: electronics::capacitor,
};
