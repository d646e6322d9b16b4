//! Runs against what must be so: rest stays at rest, long runs end at the steady laws, heat is kept.

use super::run::Care;
use super::*;
use crate::bundle::{self, BundleWire, Sleeve};
use crate::conductor::T0;
use crate::fuse_clock::Gate;
use crate::wire_heat;
use std::ops::ControlFlow;

/// Currents that stay whatever the wires resist.
struct Held(Vec<f64>);

impl Currents for Held {
    fn amps(&self, _: &[f64], amps: &mut [f64]) {
        amps.copy_from_slice(&self.0);
    }
}

/// A stiff supply behind a resistance, all pieces and fuses in a row.
struct Loop {
    volts: f64,
    ohms: f64,
}

impl Currents for Loop {
    fn amps(&self, ohms: &[f64], amps: &mut [f64]) {
        amps.fill(self.volts / (self.ohms + ohms.iter().sum::<f64>()));
    }
}

/// Class 5 copper in PVC, as sold: mm², conductor, outside, mΩ/m.
fn wire(mm2: f64, d_mm: f64, over_mm: f64, milliohm: f64) -> Warmed {
    Warmed {
        body: WireBody {
            conductor_d: d_mm * 1e-3,
            outside_d: over_mm * 1e-3,
            k_insulation: 0.17,
            emissivity: 0.9,
        },
        copper_m2: mm2 * 1e-6,
        insulation_j_m3k: 1.7e6,
        r20_per_m: milliohm * 1e-3,
    }
}

fn thin() -> Warmed {
    wire(1.0, 1.35, 2.1, 18.5)
}

fn middling() -> Warmed {
    wire(2.5, 2.2, 3.0, 7.6)
}

fn piece(section: Section, wire: &Warmed) -> Piece {
    Piece {
        sections: vec![(section, 1.0)],
        r20_per_m: wire.r20_per_m,
        joints_ohms: 0.0,
        damage_k: 1e6,
    }
}

fn no_watch(_: Sample) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

const TIGHT: Care = Care {
    kelvin: 1e-4,
    clock: 1e-6,
};

#[test]
fn a_wire_at_rest_stays_there() {
    let section = alone(&middling(), T0 + 40.0);
    let kelvin = rest(&section, 20.0, middling().r20_per_m, &[]);
    let run = Run {
        pieces: vec![piece(section, &middling())],
        clocks: Vec::new(),
    };
    let mut values = run.start(&kelvin);
    let (end, _) = run.go(
        &Held(vec![20.0]),
        &mut values,
        (600.0, TIGHT),
        &mut no_watch,
    );
    assert_eq!(end, End::Over);
    for (now, then) in values.iter().zip(&kelvin) {
        assert!((now - then).abs() < 1e-3, "{now} {then}");
    }
}

#[test]
fn a_lone_wire_ends_where_the_steady_law_says() {
    let wire = middling();
    let section = alone(&wire, T0 + 40.0);
    let run = Run {
        pieces: vec![piece(section.clone(), &wire)],
        clocks: Vec::new(),
    };
    let steady = wire_heat::steady_kelvin(&wire.body, wire.r20_per_m, 35.0, T0 + 40.0);
    assert!((rest(&section, 35.0, wire.r20_per_m, &[])[0] - steady).abs() < 1e-3);
    let mut values = run.start(&vec![T0 + 40.0; run.heat_size()]);
    run.go(
        &Held(vec![35.0]),
        &mut values,
        (3000.0, TIGHT),
        &mut no_watch,
    );
    assert!((values[0] - steady).abs() < 0.02, "{} {steady}", values[0]);
}

#[test]
fn the_middle_of_a_bundle_ends_where_the_steady_law_says() {
    let ambient = T0 + 40.0;
    let sleeve = Sleeve {
        gap: 1.5e-3,
        wall: 0.5e-3,
        k: 0.2,
        emissivity: 0.9,
    };
    let cover = Cover {
        sleeve,
        j_m3k: 1.8e6,
    };
    for (loaded, idle, over) in [(6, 6, Some(cover)), (0, 11, None), (11, 0, Some(cover))] {
        let amps = 14.0;
        let make = |kelvin: f64| {
            amps * amps * crate::conductor::resistance_at(middling().r20_per_m, kelvin)
        };
        let lying = |amps: f64| BundleWire {
            body: middling().body,
            r20_per_m: middling().r20_per_m,
            amps,
        };
        let mut wires = vec![lying(amps); loaded + 1];
        wires.extend(vec![lying(0.0); idle]);
        let steady = bundle::steady_kelvin(&wires, over.map(|c| c.sleeve), ambient);
        let beside: Vec<Beside> = steady[1..]
            .iter()
            .enumerate()
            .map(|(i, kelvin)| Beside {
                wire: middling(),
                watts_per_m: if i < loaded { make(*kelvin) } else { 0.0 },
                runs: None,
            })
            .collect();
        let section = laid(&middling(), &beside, over, ambient);
        let at_rest = rest(&section, amps, middling().r20_per_m, &[])[0];
        let rise = steady[0] - ambient;
        println!("{loaded}+{idle}: {:.2} K of {rise:.2} K", at_rest - ambient);
        assert!(
            ((at_rest - ambient) / rise - 1.0).abs() < 0.01,
            "{at_rest} {}",
            steady[0]
        );
    }
}

#[test]
fn heat_is_kept_to_a_millionth() {
    let ambient = T0 + 60.0;
    let beside = vec![
        Beside {
            wire: thin(),
            watts_per_m: 2.0,
            runs: None,
        };
        5
    ];
    let mut sections = vec![(alone(&thin(), ambient), 0.4)];
    let mut around = beside.clone();
    around.push(Beside {
        wire: middling(),
        watts_per_m: 3.0,
        runs: Some(1),
    });
    sections.push((laid(&thin(), &around, None, ambient), 1.2));
    let run = Run {
        pieces: vec![
            Piece {
                sections,
                r20_per_m: thin().r20_per_m,
                joints_ohms: 2e-3,
                damage_k: 1e6,
            },
            piece(laid(&middling(), &beside, None, ambient), &middling()),
        ],
        clocks: Vec::new(),
    };
    let mut values = run.start(&vec![ambient; run.heat_size()]);
    let before = run.stored(&values);
    let around = Loop {
        volts: 13.8,
        ohms: 0.25,
    };
    run.go(
        &around,
        &mut values,
        (400.0, Care::default()),
        &mut no_watch,
    );
    let n = values.len();
    let (made, shed) = (values[n - 2], values[n - 1]);
    let kept = run.stored(&values) - before;
    println!("made {made:.3} J, shed {shed:.3} J, kept {kept:.3} J");
    assert!(made > 1000.0 && shed > 0.2 * made);
    assert!(
        ((made - shed - kept) / made).abs() < 1e-6,
        "{}",
        made - shed - kept
    );
}

#[test]
fn a_short_run_agrees_with_the_adiabatic_law() {
    // A bare conductor sheds little in 0.1 s; the annex's own heat capacity and zero differ by 0.5 %.
    let bare = Warmed {
        body: WireBody {
            outside_d: 1.35e-3,
            ..thin().body
        },
        ..thin()
    };
    let run = Run {
        pieces: vec![piece(alone(&bare, T0 + 20.0), &bare)],
        clocks: Vec::new(),
    };
    let mut values = run.start(&vec![T0 + 20.0; run.heat_size()]);
    run.go(&Held(vec![300.0]), &mut values, (0.1, TIGHT), &mut no_watch);
    let metal = crate::adiabatic::Metal {
        rho20: bare.r20_per_m * bare.copper_m2,
        ..crate::adiabatic::COPPER
    };
    let law = crate::adiabatic::kelvin_after(&metal, T0 + 20.0, 1e-6, 300.0 * 300.0 * 0.1);
    let (ours, theirs) = (values[0] - T0 - 20.0, law - T0 - 20.0);
    assert!((ours / theirs - 1.0).abs() < 0.005, "{ours} {theirs}");
}

#[test]
fn a_fuse_opens_at_its_slow_edge_and_a_hot_wire_before_it_is_told() {
    let gates = vec![
        Gate {
            multiple: 1.35,
            min_s: 0.75,
            max_s: Some(600.0),
        },
        Gate {
            multiple: 2.0,
            min_s: 0.15,
            max_s: Some(5.0),
        },
    ];
    let fused = |damage_k: f64| Run {
        pieces: vec![Piece {
            damage_k,
            ..piece(alone(&thin(), T0 + 40.0), &thin())
        }],
        clocks: vec![Clock {
            gates: gates.clone(),
            slow_amps: 15.0,
            fast_amps: 15.0,
        }],
    };
    let go = |damage_k: f64| {
        let run = fused(damage_k);
        let mut values = run.start(&vec![T0 + 40.0; run.heat_size()]);
        let end = run.go(
            &Held(vec![30.0, 30.0]),
            &mut values,
            (600.0, TIGHT),
            &mut no_watch,
        );
        (end, run.rounds(&values).next())
    };
    let ((end, seconds), rounds) = go(1e6);
    assert_eq!(end, End::Opens(0));
    assert!((seconds - 5.0).abs() < 1e-3, "{seconds}");
    let (slow, fast) = rounds.unwrap_or_default();
    assert!(
        (slow - 1.0).abs() < 1e-4 && (fast - 5.0 / 0.15).abs() < 0.01,
        "{slow} {fast}"
    );
    let ((end, seconds), _) = go(T0 + 50.0);
    assert_eq!(end, End::Damaged(0, 0));
    assert!(seconds < 5.0);
    assert_eq!(go(T0 + 30.0).0, (End::Damaged(0, 0), 0.0));
}

#[test]
fn resistance_that_rises_starves_the_current() {
    let run = Run {
        pieces: vec![piece(alone(&thin(), T0 + 20.0), &thin())],
        clocks: Vec::new(),
    };
    let mut values = run.start(&vec![T0 + 20.0; run.heat_size()]);
    let mut last = f64::INFINITY;
    let supply = Loop {
        volts: 1.0,
        ohms: 0.005,
    };
    run.go(&supply, &mut values, (60.0, TIGHT), &mut |s| {
        assert!(s.amps[0] <= last + 1e-9);
        last = s.amps[0];
        ControlFlow::Continue(())
    });
    assert!(last < 0.95 / 0.0235, "{last}");
}

proptest::proptest! {
    /// Whatever flows, heat made is heat shed and kept, and the copper of a wire that carries more is never cooler.
    #[test]
    fn heat_is_kept_and_more_current_is_never_cooler(
        amps in 10.0..80.0_f64,
        more in 1.0..1.5_f64,
        seconds in 0.05..300.0_f64,
        others in 0_usize..9,
    ) {
        let ambient = T0 + 50.0;
        let beside = vec![
            Beside {
                wire: thin(),
                watts_per_m: 1.5,
                runs: None,
            };
            others
        ];
        let section = match others {
            0 => alone(&middling(), ambient),
            _ => laid(&middling(), &beside, None, ambient),
        };
        let run = Run {
            pieces: vec![piece(section, &middling())],
            clocks: Vec::new(),
        };
        let go = |amps: f64| {
            let mut values = run.start(&vec![ambient; run.heat_size()]);
            let before = run.stored(&values);
            let (end, _) = run.go(&Held(vec![amps]), &mut values, (seconds, TIGHT), &mut no_watch);
            (end, run.stored(&values) - before, values)
        };
        let (end, kept, values) = go(amps);
        proptest::prop_assert_eq!(end, End::Over);
        let n = values.len();
        let (made, shed) = (values[n - 2], values[n - 1]);
        proptest::prop_assert!(((made - shed - kept) / made).abs() < 1e-6, "{} {} {}", made, shed, kept);
        proptest::prop_assert!(go(amps * more).2[0] >= values[0] - 0.2);
    }
}
