//! Colours of looms of small plans.

use super::Colour;
use crate::{Loom, Role, build};
use plan::Plan;
use stock::Stock;

/// A box with as many lamp circuits as asked for, all in one bundle.
fn lamps(n: usize, job: &str, more: &str) -> Loom {
    let circuit = |i: usize| {
        format!(
            "[[circuit]]\nname = \"lamp {i}\"\nbox = \"box\"\nearth = \"rack\"\nswitch = {{ place = \"dash\" }}\n\
             load = [{{ lamp = \"tungsten\", rated = \"21 W\", place = \"rack\" }}]\n"
        )
    };
    let circuits: String = (1..=n).map(circuit).collect();
    let text = format!(
        "[job]\ntitle = \"lamps\"\n{job}\n[supply]\nsystem = \"12 V\"\nbattery = {{ capacity = \"70 Ah\", cranking = \"600 A\", place = \"tray\" }}\n\
         [place]\n\"tray\" = {{ zone = \"engine bay\" }}\n\"dash\" = {{ zone = \"cabin\" }}\n\"rack\" = {{ zone = \"outside\" }}\n\
         [[stretch]]\nbetween = [\"tray\", \"dash\"]\nlength = \"2 m\"\n[[stretch]]\nbetween = [\"dash\", \"rack\"]\nlength = \"3 m\"\n\
         [[box]]\nname = \"box\"\nplace = \"tray\"\nways = 40\nfeed = \"battery\"\n{circuits}\n{more}"
    );
    let (plan, errors) = Plan::read(&text);
    assert_eq!(errors, []);
    let (loom, errors) = build(&plan.unwrap(), &Stock::embedded());
    loom.unwrap_or_else(|| panic!("{errors:?}"))
}

#[test]
fn wires_that_meet_are_told_apart_as_far_as_colours_go() {
    for habit in ["road", "boat", "plain"] {
        let job = format!("colours = \"{habit}\"");
        let alike = lamps(6, &job, "").alike();
        assert!(alike.is_empty(), "{habit}: {alike:?}");
    }
    // Some seven stripes on red and no more: the rest are counted.
    assert!(!lamps(20, "", "").alike().is_empty());
}

#[test]
fn earth_is_never_taken_for_supply() {
    for (habit, earth) in [("road", "BN"), ("boat", "BK"), ("plain", "BK")] {
        let loom = lamps(30, &format!("colours = \"{habit}\""), "");
        assert_eq!(
            (loom.palette.earth.as_str(), loom.palette.habit),
            (earth, habit)
        );
        for w in &loom.wires {
            let earths = matches!(w.role, Role::Earth | Role::Return | Role::CoilEarth);
            assert_eq!(
                w.colour.base == earth,
                earths,
                "{habit}: {} {}",
                w.name,
                w.colour
            );
            assert_ne!(
                w.colour.stripe.as_deref(),
                Some(earth),
                "{habit}: {}",
                w.name
            );
        }
    }
}

#[test]
fn what_the_installer_set_stays_and_the_rest_make_way() {
    let before = lamps(1, "", "");
    let taken = before
        .wires
        .iter()
        .find(|w| w.role == Role::Switched)
        .unwrap();
    assert_eq!(taken.colour.to_string(), "YE");
    let loom = lamps(2, "", "[wire.\"W2.2\"]\ncolour = \"YE\"\n");
    let colour =
        |name: &str| -> Colour { loom.wire(loom.wire_named(name).unwrap()).colour.clone() };
    assert_eq!(colour("W2.2").to_string(), "YE");
    assert_ne!(colour(&taken.name), colour("W2.2"));
    assert!(loom.alike().is_empty());
}

#[test]
fn one_more_circuit_changes_no_colour_of_those_before() {
    let (few, more) = (lamps(7, "", ""), lamps(8, "", ""));
    for w in &few.wires {
        let same = more.wire(more.wire_named(&w.name).unwrap());
        assert_eq!(w.colour, same.colour, "{}", w.name);
    }
}
