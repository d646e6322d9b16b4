//! Kirchhoff's current law, one voltage at each node (the voltage law), and the balance of energy, in every state of the examples and of generated plans:
//! textbook laws that no answer may break, whatever the elements do.

use crate::walk::Walk;
use job::study::StateAnswer;
use proptest::prelude::*;

/// Of what meets, flows or is turned over.
const WITHIN: f64 = 1e-9;
/// Currents and powers below this are none, A and W.
const NONE: f64 = 1e-9;

/// What is wrong with a solved state.
fn wrong(s: &StateAnswer) -> Option<String> {
    let m = s.settled.model.as_ref()?;
    let mut volts = vec![None; m.nodes];
    volts[0] = Some(0.0);
    for (pin, node) in m.node_of_pin.iter().enumerate() {
        if let Some(n) = *node {
            let here = s.settled.volts[pin]?;
            match volts[n] {
                // Every way round leads to the same voltage: the second law.
                Some(there) if there != here => return Some(format!("node {n} has two voltages")),
                _ => volts[n] = Some(here),
            }
        }
    }
    let (mut sum, mut meeting) = (vec![0.0; m.nodes], vec![0.0; m.nodes]);
    let (mut power, mut turned) = (0.0, 0.0);
    for (e, amps) in m.elements.iter().zip(&m.amps) {
        for (node, out) in [(e.a, *amps), (e.b, -amps)] {
            sum[node] += out;
            meeting[node] += out.abs();
        }
        let across = volts[e.a]? - volts[e.b]?;
        power += across * amps;
        turned += (across * amps).abs();
    }
    for n in 0..m.nodes {
        if sum[n].abs() > WITHIN * meeting[n] + NONE {
            return Some(format!(
                "{} A are left over at node {n} of {}",
                sum[n], meeting[n]
            ));
        }
    }
    (power.abs() > WITHIN * turned + NONE).then(|| format!("{power} W are left over of {turned}"))
}

/// Every `stride`-th state of a plan; gives how many were looked at.
fn check(name: &str, plan: &str, stride: usize) -> usize {
    let walk = Walk::of(plan);
    let states = walk.answers().states.len();
    let mut seen = 0;
    for i in (0..states).step_by(stride) {
        let s = walk
            .job()
            .network(i)
            .unwrap_or_else(|| panic!("{name}: no network of state {i}"));
        assert_eq!(s.settled.failure, None, "{name}, {}", s.state.name);
        let model = s.settled.model.as_ref();
        let solved = model.is_some_and(|m| !m.amps.is_empty() && m.amps.len() == m.elements.len());
        assert!(solved, "{name}, {}: no currents to look at", s.state.name);
        assert_eq!(wrong(&s), None, "{name}, {}", s.state.name);
        seen += 1;
    }
    seen
}

#[test]
fn in_every_state_of_the_examples() {
    let plans = [
        ("farm", include_str!("../../examples/farm.toml")),
        ("camper", include_str!("../../examples/camper.toml")),
        ("lorry", include_str!("../../examples/lorry.toml")),
        ("every form", include_str!("plans/every_form.toml")),
    ];
    let seen: usize = plans.iter().map(|(name, plan)| check(name, plan, 1)).sum();
    assert!(seen > 100, "only {seen} states were looked at");
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 24,
        rng_seed: proptest::test_runner::RngSeed::Fixed(1845),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn in_states_of_generated_plans(seed in 0_u64..10_000) {
        let mut lot = super::lot::Lot(seed);
        let plan = super::lot::drawn(&mut lot);
        check(&format!("drawn {seed}"), &plan, 3);
    }
}
