//! One wire in time, against a fine radial finite-difference solution written here by itself: two hundred shells of
//! insulation, implicit steps of a hundredth of the time gone by. Within 2 % of the rise, over more than three
//! decades of time.

use physics::conductor::{T0, resistance_at};
use physics::time_constant::COPPER_J_M3K;
use physics::warming::run::Care;
use physics::warming::{Currents, Piece, Run, Warmed, alone};
use physics::wire_heat::{WireBody, surface_loss};
use std::f64::consts::PI;
use std::ops::ControlFlow;

const SHELLS: usize = 200;
const AMBIENT: f64 = T0 + 40.0;

/// Temperatures of the copper at these times, by finite differences: shells of even thickness, heat from middle to
/// middle, copper as one body against the innermost, the outermost half a shell from its surface.
fn fine(wire: &Warmed, amps: f64, times: &[f64]) -> Vec<f64> {
    let (inner, outer) = (0.5 * wire.body.conductor_d, 0.5 * wire.body.outside_d);
    let step = (outer - inner) / SHELLS as f64;
    let middle = |i: usize| inner + (i as f64 + 0.5) * step;
    let k = wire.body.k_insulation;
    let between = |from: f64, to: f64| 2.0 * PI * k / (to / from).ln();
    let mut capacity = vec![COPPER_J_M3K * wire.copper_m2];
    let mut link = vec![between(inner, middle(0))];
    for i in 0..SHELLS {
        capacity.push(wire.insulation_j_m3k * 2.0 * PI * middle(i) * step);
        if i + 1 < SHELLS {
            link.push(between(middle(i), middle(i + 1)));
        }
    }
    let last_half = between(middle(SHELLS - 1), outer);
    let n = capacity.len();
    let mut kelvin = vec![AMBIENT; n];
    let mut surface = AMBIENT;
    let (mut now, mut found) = (0.0, Vec::new());
    for &until in times {
        while now < until * (1.0 - 1e-12) {
            let dt = (0.01 * now).max(1e-5).min(until - now);
            // What the surface sheds, as a line through where it stands.
            let shed = surface_loss(wire.body.outside_d, 0.9, surface, AMBIENT);
            let steep =
                (surface_loss(wire.body.outside_d, 0.9, surface + 0.01, AMBIENT) - shed) / 0.01;
            let series = last_half * steep / (last_half + steep);
            let base = surface - shed / steep;
            let made = amps * amps * resistance_at(wire.r20_per_m, kelvin[0]);
            let (mut low, mut diagonal, mut high, mut right) =
                (vec![0.0; n], vec![0.0; n], vec![0.0; n], vec![0.0; n]);
            for i in 0..n {
                let (before, after) = (
                    if i > 0 { link[i - 1] } else { 0.0 },
                    link.get(i).copied().unwrap_or(0.0),
                );
                diagonal[i] = capacity[i] / dt + before + after;
                (low[i], high[i]) = (-before, -after);
                right[i] = capacity[i] / dt * kelvin[i];
            }
            right[0] += made;
            diagonal[n - 1] += series;
            right[n - 1] += series * base;
            for i in 1..n {
                let part = low[i] / diagonal[i - 1];
                diagonal[i] -= part * high[i - 1];
                right[i] -= part * right[i - 1];
            }
            kelvin[n - 1] = right[n - 1] / diagonal[n - 1];
            for i in (0..n - 1).rev() {
                kelvin[i] = (right[i] - high[i] * kelvin[i + 1]) / diagonal[i];
            }
            let out = series * (kelvin[n - 1] - base);
            surface = kelvin[n - 1] - out / last_half;
            now += dt;
        }
        found.push(kelvin[0]);
    }
    found
}

/// A current that stays.
struct Held(f64);

impl Currents for Held {
    fn amps(&self, _: &[f64], amps: &mut [f64]) {
        amps.fill(self.0);
    }
}

fn wire(mm2: f64, (d_mm, over_mm): (f64, f64), milliohm: f64, (k, heat): (f64, f64)) -> Warmed {
    Warmed {
        body: WireBody {
            conductor_d: d_mm * 1e-3,
            outside_d: over_mm * 1e-3,
            k_insulation: k,
            emissivity: 0.9,
        },
        copper_m2: mm2 * 1e-6,
        insulation_j_m3k: heat,
        r20_per_m: milliohm * 1e-3,
    }
}

#[test]
fn one_wire_within_2_percent_over_four_decades() {
    let times = [0.03, 0.1, 0.3, 1.0, 3.0, 10.0, 30.0, 100.0, 300.0];
    let (pvc, cross_linked) = ((0.17, 1.7e6), (0.286, 2.4e6));
    let wires = [
        ("0.5 mm² PVC, 25 A", wire(0.5, (1.0, 1.6), 37.1, pvc), 25.0),
        (
            "1 mm² thick PVC, 30 A",
            wire(1.0, (1.35, 2.7), 18.5, pvc),
            30.0,
        ),
        (
            "2.5 mm² cross-linked, 60 A",
            wire(2.5, (2.2, 3.0), 7.6, cross_linked),
            60.0,
        ),
        (
            "35 mm² PVC, 400 A",
            wire(35.0, (8.3, 10.4), 0.527, pvc),
            400.0,
        ),
    ];
    let mut worst = 0.0_f64;
    for (name, wire, amps) in wires {
        let theirs = fine(&wire, amps, &times);
        let run = Run {
            pieces: vec![Piece {
                sections: vec![(alone(&wire, AMBIENT), 1.0)],
                r20_per_m: wire.r20_per_m,
                joints_ohms: 0.0,
                damage_k: 1e6,
            }],
            clocks: Vec::new(),
        };
        let mut values = run.start(&vec![AMBIENT; run.heat_size()]);
        let mut from = 0.0;
        for (to, theirs) in times.into_iter().zip(theirs) {
            let care = Care {
                kelvin: 0.01,
                clock: 1e-3,
            };
            run.go(&Held(amps), &mut values, (to - from, care), &mut |_| {
                ControlFlow::Continue(())
            });
            from = to;
            let off = (values[0] - AMBIENT) / (theirs - AMBIENT) - 1.0;
            println!(
                "{name} at {to} s: {:.3} K, {:+.2} %",
                values[0] - AMBIENT,
                100.0 * off
            );
            worst = worst.max(off.abs());
            assert!(off.abs() < 0.02, "{name} at {to} s: {off}");
        }
    }
    println!("worst {:.2} %", 100.0 * worst);
}
