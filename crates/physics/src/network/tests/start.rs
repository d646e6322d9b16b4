//! A start from the last answer: the same answer as from nothing, sooner.

use super::*;

/// Same to 1e-9 of the vehicle's voltage, and of the largest current.
fn assert_same(a: &Solution, b: &Solution) {
    let off = |a: &[f64], b: &[f64]| {
        let pairs = a.iter().zip(b);
        pairs.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
    };
    let most = b
        .amps
        .iter()
        .fold(0.0_f64, |most, amps| most.max(amps.abs()));
    let (volts, amps) = (off(&a.volts, &b.volts), off(&a.amps, &b.amps));
    assert!(volts <= 1e-9 * 12.0, "{volts} V apart");
    assert!(amps <= 1e-9 * most, "{amps} A of {most} A apart");
}

fn from(solver: &mut Solver, net: &Network, start_volts: &[f64]) -> Solution {
    let solution = solver.solve_from(net, &Knobs::default(), start_volts);
    let solution = solution.unwrap_or_else(|failure| panic!("{failure}"));
    balanced(net, &solution);
    solution
}

#[test]
fn from_the_last_answer_it_comes_to_the_same_in_half_the_passes() {
    let (mut net, ids) = loom(40);
    let mut solver = Solver::new();
    let mut last = solved(&net);
    let (mut fresh_passes, mut passes) = (0, 0);
    // Every wire warms, then every circuit is as good as off, then on again.
    for ohms in [13e-3, 1e5, 12e-3] {
        for &id in &ids {
            net.set(id, Law::Resistor { ohms });
            let (fresh, warm) = (solved(&net), from(&mut solver, &net, &last.volts));
            assert_same(&warm, &fresh);
            fresh_passes += fresh.passes;
            passes += warm.passes;
            last = warm;
        }
    }
    assert!(
        10 * passes <= 6 * fresh_passes,
        "{passes} of {fresh_passes}"
    );
}

#[test]
fn a_start_that_is_none_or_far_off_does_no_harm() {
    let (net, _) = loom(8);
    let fresh = solved(&net);
    let mut solver = Solver::new();
    assert_eq!(from(&mut solver, &net, &[]), fresh);
    let all = |volts: f64| vec![volts; net.nodes()];
    assert_eq!(from(&mut solver, &net, &all(f64::NAN)), fresh);
    for volts in [0.0, -14.0, 1e6] {
        assert_same(&from(&mut solver, &net, &all(volts)), &fresh);
    }
}

#[test]
fn joined_nodes_start_together() {
    let mut net = Network::new();
    let [a, b, c] = [net.node(), net.node(), net.node()];
    let cell = |volts| Law::Source { volts, ohms: 0.0 };
    net.element(b, a, cell(6.0));
    net.element(c, b, Law::Resistor { ohms: 0.0 });
    net.element(
        a,
        G,
        Law::Source {
            volts: 6.0,
            ohms: 0.01,
        },
    );
    net.element(
        c,
        G,
        Law::Tungsten {
            rated_volts: 12.0,
            rated_amps: 4.0,
        },
    );
    let fresh = solved(&net);
    assert_same(&from(&mut Solver::new(), &net, &fresh.volts), &fresh);
    // Voltages that the joints rule out are a start as well.
    assert_same(
        &from(&mut Solver::new(), &net, &[1.0, 2.0, 3.0, 4.0]),
        &fresh,
    );
}

#[test]
fn of_two_answers_the_nearer_one_is_found() {
    let mut net = Network::new();
    let [a, b] = [net.node(), net.node()];
    let battery = Law::Source {
        volts: 12.0,
        ohms: 0.05,
    };
    net.element(a, G, battery);
    net.element(a, b, Law::Resistor { ohms: 0.55 });
    let lamp = Law::ConstantPower {
        watts: 54.0,
        lowest_volts: 3.0,
        highest_volts: 32.0,
    };
    net.element(b, G, lamp);
    // It may hold out, or have pulled its own voltage down to where it fades.
    let volts = |start: f64| from(&mut Solver::new(), &net, &[0.0, 12.0, start]).volts[b.index()];
    let held = 6.0 + (36.0 - 0.6 * 54.0_f64).sqrt();
    assert!((volts(9.0) - held).abs() < 1e-9);
    assert!((2.85..3.0).contains(&volts(2.9)), "{}", volts(2.9));
    assert!((solved(&net).volts[b.index()] - held).abs() < 1e-9);
}

proptest! {
    #![proptest_config(fixed())]
    #[test]
    fn random_changes_come_to_the_same_from_either_start(
        changes in prop::collection::vec((0_usize..12, -3.0..4.0_f64), 1..12),
    ) {
        let (mut net, ids) = loom(12);
        let mut solver = Solver::new();
        let mut last = solved(&net);
        for (which, decade) in changes {
            net.set(ids[which], Law::Resistor { ohms: 10.0_f64.powf(decade) });
            let warm = from(&mut solver, &net, &last.volts);
            assert_same(&warm, &solved(&net));
            last = warm;
        }
    }
}
