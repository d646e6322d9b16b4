//! Steady heat of one wire in still air.
//!
//! `I² R(Tc) = π D [h (Ts − Ta) + ε σ (Ts⁴ − Ta⁴)]`, `Tc − Ts = q′ ln(D/d) / (2 π k)`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | Tc, Ts, Ta | conductor, surface, ambient temperature | K |
//! | d, D | diameter of the conductor, over the insulation | m |
//! | k, ε | insulation's conductivity, surface's emissivity | W/m·K, 1 |
//! | R(T) | resistance per metre, rising with temperature | Ω/m |
//!
//! Range: horizontal, sea level, no draught, no sun. Above a certain current the resistance rises
//! faster than the loss and no steady state exists: [`RUNAWAY_K`] is given back. Source: the
//! balance is textbook heat transfer; trial in reference `conductors/31` (within 12 % of three
//! published heating tables).

use crate::conductor::{COPPER_ALPHA, resistance_at};
use crate::{air, convection, radiation, root, shell};
use std::f64::consts::PI;

/// Given back where a wire finds no steady state: about where copper (1356 K) would be soft and
/// every insulation gone, so nothing above it is of use to anyone.
pub const RUNAWAY_K: f64 = 1300.0;

/// Temperatures are settled to this, K: far below what any input is known to.
const WITHIN_K: f64 = 1e-9;

/// A wire as heat sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireBody {
    /// Diameter of the conductor, m.
    pub conductor_d: f64,
    /// Diameter over the insulation, m.
    pub outside_d: f64,
    /// Thermal conductivity of the insulation, W/m·K.
    pub k_insulation: f64,
    /// Emissivity of the outer surface.
    pub emissivity: f64,
}

impl WireBody {
    /// Thermal resistance of the insulation, K·m/W.
    pub fn insulation_resistance(&self) -> f64 {
        shell::resistance(self.conductor_d, self.outside_d, self.k_insulation)
    }
}

/// Heat leaving a metre of round surface, W/m, by convection and radiation.
pub fn surface_loss(outside_d: f64, emissivity: f64, surface_k: f64, ambient_k: f64) -> f64 {
    let convected = convection::flux(outside_d, surface_k, ambient_k);
    let radiated = radiation::flux(emissivity, surface_k, ambient_k);
    PI * outside_d * (convected + radiated)
}

/// The least that a round surface sheds for each kelvin that it is warmer than ambient, W/m·K: air
/// that is not warmed at all, at the Nusselt number of no rise, and radiation at ambient.
pub(crate) fn least_loss(outside_d: f64, emissivity: f64, ambient_k: f64) -> f64 {
    let radiated = 4.0 * emissivity * radiation::SIGMA * ambient_k.powi(3);
    PI * (convection::STILL * air::at(ambient_k).k + outside_d * radiated)
}

/// A surface temperature that a steady state can't be above, K, where `least` leaves a surface for
/// each kelvin, `made` W/m at ambient inside it and `per_kelvin` more for each kelvin there, behind
/// `inside` K·m/W. At most [`RUNAWAY_K`].
pub(crate) fn most_kelvin(
    least: f64,
    (made, per_kelvin): (f64, f64),
    inside: f64,
    ambient_k: f64,
) -> f64 {
    let spare = least * (1.0 - per_kelvin * inside) - per_kelvin;
    if spare <= 0.0 {
        return RUNAWAY_K;
    }
    (ambient_k + made / spare + WITHIN_K).min(RUNAWAY_K)
}

/// Temperature of a round surface that has to shed `heat` (W/m); at most [`RUNAWAY_K`].
pub fn surface_kelvin(outside_d: f64, emissivity: f64, heat: f64, ambient_k: f64) -> f64 {
    let short = |surface| surface_loss(outside_d, emissivity, surface, ambient_k) - heat;
    if heat <= 0.0 || ambient_k >= RUNAWAY_K {
        return ambient_k;
    }
    let least = least_loss(outside_d, emissivity, ambient_k);
    let most = most_kelvin(least, (heat, 0.0), 0.0, ambient_k);
    if most >= RUNAWAY_K && short(RUNAWAY_K) < 0.0 {
        return RUNAWAY_K;
    }
    root::bracketed(short, ambient_k, most, WITHIN_K)
}

/// Conductor temperature that `amps` settles at, K.
pub fn steady_kelvin(wire: &WireBody, r20_per_m: f64, amps: f64, ambient_k: f64) -> f64 {
    let inside = wire.insulation_resistance();
    let made_cold = amps * amps * r20_per_m;
    if made_cold <= 0.0 || ambient_k >= RUNAWAY_K {
        return ambient_k;
    }
    let loss = |surface| surface_loss(wire.outside_d, wire.emissivity, surface, ambient_k);
    let spare = |surface: f64| {
        let lost = loss(surface);
        lost - resistance_at(made_cold, surface + lost * inside)
    };
    // `spare` starts below zero and bends upwards, so it crosses once or never.
    let least = least_loss(wire.outside_d, wire.emissivity, ambient_k);
    let made = (
        resistance_at(made_cold, ambient_k),
        COPPER_ALPHA * made_cold,
    );
    let most = most_kelvin(least, made, inside, ambient_k);
    if most >= RUNAWAY_K && spare(RUNAWAY_K) < 0.0 {
        return RUNAWAY_K;
    }
    let surface = root::bracketed(spare, ambient_k, most, WITHIN_K);
    (surface + loss(surface) * inside).min(RUNAWAY_K)
}

/// Current that holds the conductor at `conductor_k`, A. Nothing where it is no warmer than the
/// air.
pub fn steady_amps(wire: &WireBody, r20_per_m: f64, conductor_k: f64, ambient_k: f64) -> f64 {
    if conductor_k <= ambient_k {
        return 0.0;
    }
    let inside = wire.insulation_resistance();
    let loss = |surface| surface_loss(wire.outside_d, wire.emissivity, surface, ambient_k);
    let over = |surface: f64| surface + loss(surface) * inside - conductor_k;
    let surface = root::bracketed(over, ambient_k, conductor_k, WITHIN_K);
    (loss(surface) / resistance_at(r20_per_m, conductor_k)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conductor::T0;

    fn wire(d_mm: f64, over_mm: f64, k: f64) -> WireBody {
        WireBody {
            conductor_d: d_mm * 1e-3,
            outside_d: over_mm * 1e-3,
            k_insulation: k,
            emissivity: 0.9,
        }
    }

    /// Reference conductors/31 (geometry) and 19 (currents at 60, 75 and 90 °C in air at 30 °C).
    const NEC_FREE_AIR: [(f64, f64, f64, [f64; 3]); 12] = [
        (1.85, 2.8, 8.4709, [25.0, 30.0, 35.0]),
        (2.34, 3.3, 5.3415, [30.0, 35.0, 40.0]),
        (2.95, 4.2, 3.3452, [40.0, 50.0, 55.0]),
        (3.71, 5.5, 2.0988, [60.0, 70.0, 80.0]),
        (4.67, 6.5, 1.3246, [80.0, 95.0, 105.0]),
        (5.89, 8.2, 0.8309, [105.0, 125.0, 140.0]),
        (7.42, 9.8, 0.5234, [140.0, 170.0, 190.0]),
        (8.43, 11.2, 0.4154, [165.0, 195.0, 220.0]),
        (9.45, 12.3, 0.3291, [195.0, 230.0, 260.0]),
        (10.62, 13.5, 0.2609, [225.0, 265.0, 300.0]),
        (11.94, 14.8, 0.2066, [260.0, 310.0, 350.0]),
        (13.41, 16.3, 0.1640, [300.0, 360.0, 405.0]),
    ];

    #[test]
    fn within_15_percent_of_every_nec_free_air_current() {
        let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
        for (d, over, milliohm, published) in NEC_FREE_AIR {
            for (celsius, amps) in [60.0, 75.0, 90.0].into_iter().zip(published) {
                let body = wire(d, over, 0.17);
                let ours = steady_amps(&body, milliohm * 1e-3, T0 + celsius, T0 + 30.0);
                least = least.min(ours / amps);
                most = most.max(ours / amps);
            }
        }
        println!("NEC free air: {least:.3} to {most:.3} of the published current");
        assert!(least > 0.85 && most < 1.15, "{least} to {most}");
    }

    #[test]
    fn within_8_percent_of_the_faa_free_air_current_of_14_awg() {
        let amps = steady_amps(&wire(1.75, 2.29, 0.24), 10.0394e-3, T0 + 200.0, T0 + 50.0);
        println!("FAA 14 AWG: {:.3} of 47 A", amps / 47.0);
        assert!((amps / 47.0 - 1.0).abs() < 0.08, "{amps}");
    }

    #[test]
    fn temperature_and_current_undo_each_other() {
        let body = wire(1.85, 2.8, 0.17);
        for celsius in [31.0, 60.0, 105.0, 250.0, 600.0] {
            let amps = steady_amps(&body, 8.47e-3, T0 + celsius, T0 + 30.0);
            let back = steady_kelvin(&body, 8.47e-3, amps, T0 + 30.0);
            assert!((back - T0 - celsius).abs() < 1e-6, "{celsius}: {back}");
        }
    }

    #[test]
    fn no_current_no_heat_and_too_much_is_capped() {
        let body = wire(1.85, 2.8, 0.17);
        assert_eq!(steady_kelvin(&body, 8.47e-3, 0.0, 300.0), 300.0);
        assert_eq!(steady_kelvin(&body, 8.47e-3, 500.0, 300.0), RUNAWAY_K);
        assert_eq!(steady_kelvin(&body, 8.47e-3, 1e9, 300.0), RUNAWAY_K);
    }

    #[test]
    fn more_current_is_never_cooler() {
        let body = wire(0.9, 1.9, 0.17);
        let mut last = 0.0;
        for step in 0..400 {
            let kelvin = steady_kelvin(&body, 32e-3, f64::from(step) * 0.25, 313.15);
            assert!(kelvin >= last && kelvin <= RUNAWAY_K);
            last = kelvin;
        }
    }
}
