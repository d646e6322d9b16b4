//! Socket: whatever is plugged in, taken as electronics drawing the socket's rating.

use super::{Model, electronics};
use stock::ContactLoad;

pub(super) const MODEL: Model = Model {
    contact: ContactLoad::Resistive,
    law: electronics::constant_power,
    start: electronics::capacitor,
    on: electronics::wakes,
};
