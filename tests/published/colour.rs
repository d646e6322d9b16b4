//! Wire colours: every code of IEC 60757 can be written in a plan, and nothing else; what a colour
//! means follows road practice (DIN 72551): red is live, brown is earth.

use super::reference::{Look, reference};
use crate::walk::Walk;
use loom::Role;

/// A plan whose first wire has this colour.
fn coloured(code: &str) -> String {
    let boxed = "[[box]]\nname = \"box\"\nplace = \"tray\"\nways = 1\nfeed = \"battery\"\n";
    format!(
        "{}\n{boxed}{}\n[wire.\"W1.1\"]\ncolour = \"{code}\"\n",
        include_str!("plans/vehicle.toml"),
        include_str!("plans/lamp.toml")
    )
}

#[test]
fn every_code_of_the_standard() {
    let table = reference!("workmanship/colour_codes_iec60757.toml");
    for row in table.rows("colour") {
        let code = row.word("code");
        let walk = Walk::of(&coloured(code));
        // Green-and-yellow belongs to protective earth at mains voltage, and to nothing in a vehicle.
        if code == "GNYE" {
            assert!(walk.has_error("bad-value"), "{code} must be refused");
            continue;
        }
        assert!(walk.errors().is_empty(), "{code}: {:?}", walk.errors());
        assert_eq!(walk.wire("W1.1").colour.to_string(), code);
    }
}

#[test]
fn base_and_stripe_stand_in_their_order() {
    let colour = |code: &str| Walk::of(&coloured(code)).wire("W1.1").colour.to_string();
    assert_eq!(colour("BU/GN"), "BU/GN");
    assert_eq!(colour("GN/BU"), "GN/BU");
    for wrong in ["blue", "BL", "OR", "RD/XX", "RD/WH/BK"] {
        assert!(
            Walk::of(&coloured(wrong)).has_error("bad-value"),
            "{wrong} must be refused"
        );
    }
}

#[test]
fn red_is_live_and_brown_is_earth() {
    let walk = Walk::of(include_str!("../../examples/farm.toml"));
    let loom = walk.loom();
    for (_, w) in loom.each_wire() {
        let base = w.colour.base.as_str();
        match w.role {
            Role::Lead | Role::Feeder | Role::Supply => assert_eq!(base, "RD", "{}", w.name),
            Role::Earth | Role::CoilEarth | Role::Return => assert_eq!(base, "BN", "{}", w.name),
            Role::Switched => assert!(base != "RD" && base != "BN", "{}", w.name),
            // Red where it is as live as what feeds it, black behind its switch.
            Role::Coil => assert!(["RD", "BK"].contains(&base), "{}", w.name),
        }
    }
    assert!(loom.wires.len() > 15);
}
