//! Loads that switch themselves on and off: a fridge, a compressor. A wire that feeds one warms while it is on
//! and cools while it is off, as fast as its time constant lets it; a bundle is slower than its wires.

use crate::design::Design;
use crate::heat;
use crate::settle::Settled;
use crate::size::as_load;
use loom::WireId;
use physics::bundle::BundleHeat;
use physics::conductor::resistance_at;
use physics::time_constant::{duty_part, time_constant, wire_capacity};
use quantity::Quantity;
use stock::Conductor;

/// How the current of a wire comes and goes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Share {
    /// What flows all the time, A.
    always: f64,
    /// The longest time on of what comes and goes, s, and the time from start to start.
    on_s: f64,
    every_s: f64,
}

impl Share {
    /// The steady current that warms as much at the peak, A, where heat follows with this time constant.
    pub(crate) fn felt(&self, amps: f64, constant_s: f64) -> f64 {
        let part = duty_part(self.on_s, self.every_s, constant_s);
        let always = self.always.min(amps).powi(2);
        (always + (amps * amps - always) * part).sqrt()
    }
}

/// How a wire's current comes and goes, if any load on it switches itself. Several of them count as
/// on together, for as long as the one that is on longest.
pub(crate) fn share(d: &Design, s: &Settled, wire: WireId) -> Option<Share> {
    let amps = s.wire_amps[wire.0 as usize].abs();
    let mut found: Option<Share> = None;
    for load in d.paths.loads(wire) {
        let drawn = s.part_amps[load.0 as usize].abs();
        let Some(duty) = as_load(d, *load)
            .and_then(|l| l.duty)
            .filter(|_| drawn > 1e-3)
        else {
            continue;
        };
        let (on_s, every_s) = (duty.on.si(), duty.every.si());
        let share = found.get_or_insert(Share {
            always: amps,
            on_s,
            every_s,
        });
        share.always = (share.always - drawn).max(0.0);
        // The heavier duty of the two: on for longer, and for more of the time.
        let part = (share.on_s / share.every_s).max(on_s / every_s);
        share.on_s = share.on_s.max(on_s);
        share.every_s = share.on_s / part;
    }
    found
}

fn capacity(c: &Conductor) -> f64 {
    wire_capacity(c.area.si(), c.conductor_d.si(), c.outside_d.si())
}

/// Time constant of a wire alone at a current, s.
pub(crate) fn alone_constant(d: &Design, c: &Conductor, amps: f64, around: f64) -> f64 {
    let kelvin = heat::alone(d, c, amps, around);
    let watts = amps * amps * resistance_at(c.ohm_per_m_20, kelvin);
    time_constant(capacity(c), kelvin - around, watts)
}

/// Time constant of a bundle at what it carries, s: the heat that its wires hold over what leaves it.
pub(crate) fn bundle_constant(d: &Design, wires: &[WireId], h: &BundleHeat, around: f64) -> f64 {
    let each = wires.iter().zip(&h.kelvin);
    let (mut held, mut whole) = (0.0, 0.0);
    for (w, kelvin) in each {
        let c = capacity(d.conductor(*w));
        held += c * (kelvin - around);
        whole += c;
    }
    time_constant(whole, held / whole, h.watts_per_m)
}
