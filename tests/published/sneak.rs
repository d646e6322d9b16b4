//! A textbook sneak circuit: two circuits whose lamps share an earth, and the earth lost. The current of the
//! one that is on goes backwards through a lamp of the one that is off, and on through another that has an
//! earth of its own. Worked by hand; common practice, no source.

use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use crate::walk::Walk;
use job::study::{Direction, Lost, Piece, Sneak};
use physics::network::{Knobs, Law, Network, Node, solve};

/// Three equal resistances in a row across the battery: each gets a third of its voltage, and a third of the
/// current that one alone would draw. Three equal lamps share the voltage alike, and their current falls by
/// the power 0.55 only: (1/3)^0.55 of the rated.
#[test]
fn in_a_network_of_ideal_wires() {
    let rated = |volts: f64, amps: f64, tungsten: bool| match tungsten {
        true => Law::Tungsten {
            rated_volts: volts,
            rated_amps: amps,
        },
        false => Law::Resistor { ohms: volts / amps },
    };
    for (tungsten, share) in [(false, 1.0 / 3.0), (true, (1.0f64 / 3.0).powf(0.55))] {
        let mut n = Network::new();
        let [plus, stud, off] = [n.node(), n.node(), n.node()];
        n.element(
            plus,
            Node::GROUND,
            Law::Source {
                volts: 12.0,
                ohms: 0.0,
            },
        );
        let law = rated(12.0, 4.0, tungsten);
        let first = n.element(plus, stud, law);
        // The stud has come off: no element joins it to ground.
        let back = n.element(off, stud, law);
        let last = n.element(off, Node::GROUND, law);
        let s = solve(&n, &Knobs::default()).expect("it has an answer");
        let wanted = 4.0 * share;
        near(
            "through the lamp that is on",
            s.amps[first.index()],
            wanted,
            Relative(1e-9),
        );
        near("backwards", s.amps[back.index()], -wanted, Relative(1e-9));
        near("and out", s.amps[last.index()], wanted, Relative(1e-9));
        near("at the stud", s.volts[stud.index()], 8.0, Relative(1e-9));
        near(
            "at the switch that is off",
            s.volts[off.index()],
            4.0,
            Relative(1e-9),
        );
    }
}

fn sneak<'a>(walk: &'a Walk, on: &str) -> &'a Sneak {
    let of = |s: &&Sneak| walk.loom().part(s.on).name == on && matches!(s.lost, Lost::Earth(_));
    let found = walk.answers().sneaks.iter().find(of);
    found.unwrap_or_else(|| panic!("{on} is not on when an earth is lost"))
}

/// The same as a plan, with real wires. Three heaters of 12 V 4 A are 9 Ω in a row; the wires, fuses,
/// switches and joints of their way add some 0.1 Ω, and the posts stand at the regulated voltage: the
/// current is that voltage over 9 Ω, less at most 2 % for the way.
#[test]
fn in_a_plan() {
    let vehicle = include_str!("plans/vehicle.toml");
    let plan = format!("{vehicle}\n{}", include_str!("plans/shared_earth.toml"));
    let walk = Walk::of(&plan);
    let s = sneak(&walk, "E2.1");
    let state = &walk.answers().states[s.state];
    let posts = state.settled.at(walk.loom().parts[0].pins[0]);
    near("the current", s.amps.abs(), posts / 9.0, Relative(0.02));
    let load = |name: &str| {
        let part = walk.part_of(name).unwrap_or_else(|| panic!("no {name}"));
        Piece::Load(part)
    };
    let ways: Vec<(Piece, Direction)> = s
        .path
        .iter()
        .filter(|s| matches!(s.through, Piece::Load(_)))
        .map(|s| (s.through, s.way))
        .collect();
    assert_eq!(
        ways,
        [
            (load("E1.1"), Direction::Forwards),
            (load("E2.1"), Direction::Backwards),
            (load("E2.2"), Direction::Forwards),
        ]
    );
}
