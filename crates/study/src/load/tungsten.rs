//! Tungsten lamp. Law: I = I₀ (V/V₀)^0.55 (handbook exponent, read). Start: the cold filament has a
//! twelfth of its hot resistance, for a few milliseconds (read).

use super::{Frame, Model, Start};
use physics::lamp;
use physics::network::Law;
use stock::ContactLoad;

pub(super) const MODEL: Model = Model {
    contact: ContactLoad::Lamp,
    law: |f| Law::Tungsten {
        rated_volts: f.rated_volts(),
        rated_amps: f.rated_amps(),
    },
    start,
    on: |f, volts, _| volts >= f.limits.value("lamp glows") * f.rated_volts(),
};

fn start(f: &Frame) -> Start {
    let cold = lamp::cold_ohms(f.rated_volts(), f.rated_amps());
    Start {
        amps: lamp::inrush_amps(f.rated_volts(), cold, 0.0),
        running: f.rated_amps(),
        seconds: f.limits.value("tungsten start seconds"),
    }
}
