//! A load that switches itself: the peak temperature of its wire, reckoned by one time constant, against the
//! heat balance stepped through second by second until it repeats (explicit steps, textbook).

use physics::conductor::resistance_at;
use physics::time_constant::{duty_part, time_constant, wire_capacity};
use physics::wire_heat::{WireBody, steady_kelvin, surface_loss};

const AROUND_K: f64 = 313.15;
/// 2.5 mm² with thin wall: the project's own stock row.
const AREA: f64 = 2.5e-6;
const OHM_PER_M: f64 = 7.6e-3;

fn body() -> WireBody {
    WireBody {
        conductor_d: 2.1e-3,
        outside_d: 3.0e-3,
        k_insulation: 0.17,
        emissivity: 0.9,
    }
}

/// Peak of the conductor, K, after many turns of on and off. The insulation's own resistance is taken out of
/// the loss at the conductor's temperature: it is small against the air's.
fn stepped(amps: f64, on_s: u32, every_s: u32) -> f64 {
    let b = body();
    let capacity = wire_capacity(AREA, b.conductor_d, b.outside_d);
    let lost = |kelvin: f64| {
        // The surface at which what comes through the insulation leaves.
        let (mut low, mut high) = (AROUND_K, kelvin);
        for _ in 0..40 {
            let surface = 0.5 * (low + high);
            let leaves = surface_loss(b.outside_d, b.emissivity, surface, AROUND_K);
            match surface + leaves * b.insulation_resistance() < kelvin {
                true => low = surface,
                false => high = surface,
            }
        }
        surface_loss(b.outside_d, b.emissivity, low, AROUND_K)
    };
    let (mut kelvin, mut peak) = (AROUND_K, 0.0_f64);
    for second in 0..every_s * 6 {
        let on = second % every_s < on_s;
        let made = if on {
            amps * amps * resistance_at(OHM_PER_M, kelvin)
        } else {
            0.0
        };
        kelvin += (made - lost(kelvin)) / capacity;
        if second >= every_s * 5 {
            peak = peak.max(kelvin);
        }
    }
    peak
}

/// The same by one time constant, as the study does it.
fn reckoned(amps: f64, on_s: u32, every_s: u32) -> f64 {
    let b = body();
    let steady = steady_kelvin(&b, OHM_PER_M, amps, AROUND_K);
    let watts = amps * amps * resistance_at(OHM_PER_M, steady);
    let capacity = wire_capacity(AREA, b.conductor_d, b.outside_d);
    let constant = time_constant(capacity, steady - AROUND_K, watts);
    let felt = amps * duty_part(f64::from(on_s), f64::from(every_s), constant).sqrt();
    steady_kelvin(&b, OHM_PER_M, felt, AROUND_K)
}

/// Loss grows faster than temperature, so one time constant is a little off: 6 % of the rise is allowed.
#[test]
fn one_time_constant_is_as_good_as_second_by_second() {
    for (amps, on_s, every_s) in [
        (25.0, 30, 120),
        (25.0, 60, 180),
        (30.0, 20, 60),
        (20.0, 120, 600),
        (30.0, 900, 3600),
    ] {
        let (ours, theirs) = (reckoned(amps, on_s, every_s), stepped(amps, on_s, every_s));
        let off = (ours - theirs) / (theirs - AROUND_K);
        assert!(
            off.abs() < 0.06,
            "{amps} A, {on_s} s of {every_s} s: {ours} K against {theirs} K"
        );
    }
}

/// A quarter of an hour is ages to a wire: it is as hot as if it were on for ever. Half a minute is not.
#[test]
fn a_wire_follows_minutes_and_not_seconds() {
    let for_ever = steady_kelvin(&body(), OHM_PER_M, 30.0, AROUND_K) - AROUND_K;
    assert!((reckoned(30.0, 900, 3600) - AROUND_K) / for_ever > 0.99);
    assert!((reckoned(30.0, 20, 60) - AROUND_K) / for_ever < 0.6);
}
