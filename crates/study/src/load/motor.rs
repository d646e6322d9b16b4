//! Motor, running. Law: near-constant torque, so near-constant current. Start: V/R of the armature,
//! as said or the usual multiple of the running current.

use super::{Frame, Model, Start};
use physics::motor;
use physics::network::Law;
use quantity::Quantity;
use stock::ContactLoad;

pub(super) const MODEL: Model = Model {
    contact: ContactLoad::Motor,
    law: |f| Law::Motor {
        rated_volts: f.rated_volts(),
        rated_amps: f.rated_amps(),
        armature_ohms: motor::armature_ohms(f.rated_volts(), f.rated_amps(), multiple(f)),
    },
    start: |f| Start {
        amps: f.rated_amps() * multiple(f),
        running: f.rated_amps(),
        seconds: f.limits.value("motor start seconds"),
    },
    on: |f, volts, _| volts >= f.limits.value("motor creeps") * f.rated_volts(),
};

fn multiple(f: &Frame) -> f64 {
    let said = f.load.start.map(|a| a.si() / f.rated_amps());
    said.unwrap_or(f.limits.value("motor start multiple"))
        .max(1.1)
}
