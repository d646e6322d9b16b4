//! The lowest steady state of a bundle.
//! Takes its round body and what flows, gives its temperatures.
//!
//! For one order of the rings heat is a straight line of temperature and rise a straight line of heat,
//! so all temperatures follow the bundle's outside on straight lines, `T = T₀ + s (Tb − Ta)`, and what
//! is left is one number: the skin whose loss is the heat made. The order that puts most heat
//! innermost is found from the temperatures, and again, until it stays. Every other order is cooler,
//! so temperatures rise from round to round and stop at the lowest state that the worst order has.
//! Where copper outruns its loss there is no such state below [`RUNAWAY_K`]; then temperatures are
//! raised from ambient pass by pass, each held at that, until nothing rises.

use super::body::Body;
use super::rings::Rings;
use super::{BundleHeat, BundleWire};
use crate::conductor::{COPPER_ALPHA, resistance_at};
use crate::root;
use crate::wire_heat::RUNAWAY_K;

/// Steps are small enough to stop, K: what is left to go is about as much, and no input is known to it.
const WITHIN_K: f64 = 1e-7;
/// Two wires whose heat for their area differs by less may lie in either order.
const EVEN: f64 = 1e-9;
/// Most rounds of ordering: three are usual, and each is an answer that is not too hot.
const MOST_ROUNDS: usize = 30;
/// Near runaway the steps shrink slowly; by then the wire is past every limit anyway.
const MOST_PASSES: usize = 3000;

/// A wire that carries something.
#[derive(Clone, Copy)]
struct Loaded {
    /// Its place among the wires given.
    wire: usize,
    kind: usize,
    /// Heat that it would make at 20 °C, W/m.
    cold: f64,
    kelvin: f64,
}

impl Loaded {
    fn heat(&self) -> f64 {
        resistance_at(self.cold, self.kelvin)
    }
}

/// Straight lines of temperature over the outside's, ring by ring.
struct Lines {
    /// With the outside at ambient, K.
    at_ambient: Vec<f64>,
    /// For each kelvin that the outside is warmer.
    slope: Vec<f64>,
}

/// The steady state; `start` may hold temperatures from which to guess the order.
pub(super) fn settle(body: &Body, wires: &[BundleWire], start: Option<&[f64]>) -> BundleHeat {
    let start = start.filter(|kelvin| kelvin.len() == wires.len());
    let mut loaded: Vec<Loaded> = Vec::with_capacity(wires.len());
    for (at, wire) in wires.iter().enumerate() {
        let cold = wire.amps * wire.amps * wire.r20_per_m;
        if cold > 0.0 {
            loaded.push(Loaded {
                wire: at,
                kind: body.kind_of[at],
                cold,
                kelvin: start.map_or(body.ambient_k, |kelvin| kelvin[at]),
            });
        }
    }
    if loaded.is_empty() || body.ambient_k >= RUNAWAY_K {
        return BundleHeat {
            kelvin: vec![body.ambient_k; wires.len()],
            outside_k: body.ambient_k,
            watts_per_m: 0.0,
        };
    }
    let (rings, outside_k) =
        by_lines(body, &mut loaded).unwrap_or_else(|| by_passes(body, &mut loaded));
    gather(body, &loaded, &rings, outside_k)
}

/// Temperatures of all wires, the idle ones from what the loaded ones make.
fn gather(body: &Body, loaded: &[Loaded], rings: &Rings, outside_k: f64) -> BundleHeat {
    let heat: Vec<f64> = loaded.iter().map(Loaded::heat).collect();
    let watts_per_m = heat.iter().sum();
    let sums = rings.rises(&heat, &mut vec![0.0; heat.len()]);
    let idle = rings.idle_rises(&sums, watts_per_m);
    let held = |rise: f64| (outside_k + rise).min(RUNAWAY_K);
    let mut kelvin: Vec<f64> = body.kind_of.iter().map(|&kind| held(idle[kind])).collect();
    for one in loaded {
        kelvin[one.wire] = one.kelvin;
    }
    BundleHeat {
        kelvin,
        outside_k,
        watts_per_m,
    }
}

/// Puts the most heat for its area first. Whether anything moved.
fn reorder(body: &Body, loaded: &mut [Loaded]) -> bool {
    let density = |one: &Loaded| one.heat() / body.kinds[one.kind].share;
    let even = |pair: &[Loaded]| density(&pair[0]) >= density(&pair[1]) * (1.0 - EVEN);
    if loaded.windows(2).all(even) {
        return false;
    }
    loaded.sort_by(|a, b| density(b).total_cmp(&density(a)).then(a.wire.cmp(&b.wire)));
    true
}

fn rings(body: &Body, loaded: &[Loaded]) -> Rings {
    Rings::new(body, loaded.iter().map(|one| one.kind))
}

/// Settles by straight lines; nothing where a wire would pass [`RUNAWAY_K`].
fn by_lines(body: &Body, loaded: &mut [Loaded]) -> Option<(Rings, f64)> {
    reorder(body, loaded);
    let mut found = None;
    for _ in 0..MOST_ROUNDS {
        let rings = rings(body, loaded);
        let lines = lines(body.ambient_k, loaded, &rings)?;
        let outside_k = outside(body, loaded, &lines)?;
        let warmer = outside_k - body.ambient_k;
        let mut change = 0.0_f64;
        for ((one, at_ambient), slope) in loaded.iter_mut().zip(&lines.at_ambient).zip(&lines.slope)
        {
            let next = at_ambient + slope * warmer;
            change = change.max((next - one.kelvin).abs());
            one.kelvin = next;
        }
        if loaded.iter().any(|one| one.kelvin >= RUNAWAY_K) {
            return None;
        }
        found = Some((rings, outside_k));
        if change < WITHIN_K || !reorder(body, loaded) {
            break;
        }
    }
    found
}

/// The lines of one order. They are sums of what each turn of heat adds, so they only rise; nothing
/// where they pass [`RUNAWAY_K`] with the outside at ambient.
fn lines(ambient_k: f64, loaded: &[Loaded], rings: &Rings) -> Option<Lines> {
    let count = loaded.len();
    let mut lines = Lines {
        at_ambient: vec![ambient_k; count],
        slope: vec![1.0; count],
    };
    let (mut heat, mut rise) = (vec![0.0; count], vec![0.0; count]);
    // As exact as the temperatures, with the outside as hot as it may be.
    let within_slope = WITHIN_K / (RUNAWAY_K - ambient_k);
    for _ in 0..MOST_PASSES {
        for ((heat, one), kelvin) in heat.iter_mut().zip(loaded).zip(&lines.at_ambient) {
            *heat = resistance_at(one.cold, *kelvin);
        }
        rings.rises(&heat, &mut rise);
        let (change, hottest) = step(&mut lines.at_ambient, &rise, ambient_k);
        if hottest >= RUNAWAY_K {
            return None;
        }
        for ((heat, one), slope) in heat.iter_mut().zip(loaded).zip(&lines.slope) {
            *heat = COPPER_ALPHA * one.cold * slope;
        }
        rings.rises(&heat, &mut rise);
        let (steeper, _) = step(&mut lines.slope, &rise, 1.0);
        if change < WITHIN_K && steeper < within_slope {
            break;
        }
    }
    Some(lines)
}

/// Moves values to `base` and their rise. The largest change, and the largest value.
fn step(values: &mut [f64], rise: &[f64], base: f64) -> (f64, f64) {
    let (mut change, mut most) = (0.0_f64, 0.0_f64);
    for (value, rise) in values.iter_mut().zip(rise) {
        let next = base + rise;
        change = change.max((next - *value).abs());
        most = most.max(next);
        *value = next;
    }
    (change, most)
}

/// Temperature of the bundle's outside at which it sheds what is made; nothing where it never does.
fn outside(body: &Body, loaded: &[Loaded], lines: &Lines) -> Option<f64> {
    let (mut at_ambient, mut slope) = (0.0, 0.0);
    for ((one, kelvin), steep) in loaded.iter().zip(&lines.at_ambient).zip(&lines.slope) {
        at_ambient += resistance_at(one.cold, *kelvin);
        slope += COPPER_ALPHA * one.cold * steep;
    }
    let spare = |skin_k: f64| {
        let (shed, outside_k) = body.shedding(skin_k);
        shed - at_ambient - slope * (outside_k - body.ambient_k)
    };
    // `spare` starts below zero and bends upwards, so it crosses once or never.
    let most = body.most_skin_kelvin((at_ambient, slope));
    if most >= RUNAWAY_K && spare(RUNAWAY_K) < 0.0 {
        return None;
    }
    let skin_k = root::bracketed(spare, body.ambient_k, most, WITHIN_K);
    Some(body.shedding(skin_k).1)
}

/// Settles pass by pass from ambient, every wire held at [`RUNAWAY_K`].
fn by_passes(body: &Body, loaded: &mut [Loaded]) -> (Rings, f64) {
    for one in loaded.iter_mut() {
        one.kelvin = body.ambient_k;
    }
    reorder(body, loaded);
    let mut around = rings(body, loaded);
    let mut outside_k = body.ambient_k;
    let (mut heat, mut rise) = (vec![0.0; loaded.len()], vec![0.0; loaded.len()]);
    for _ in 0..MOST_PASSES {
        for (heat, one) in heat.iter_mut().zip(loaded.iter()) {
            *heat = one.heat();
        }
        outside_k = body.outside_kelvin(heat.iter().sum());
        around.rises(&heat, &mut rise);
        let mut change = 0.0_f64;
        for (one, rise) in loaded.iter_mut().zip(&rise) {
            let next = (outside_k + rise).min(RUNAWAY_K);
            change = change.max((next - one.kelvin).abs());
            one.kelvin = next;
        }
        if change < WITHIN_K {
            break;
        }
        if reorder(body, loaded) {
            around = rings(body, loaded);
        }
    }
    (around, outside_k)
}
