//! What a battery can push into a short (15), and whether the fuses in front of it can break that.

use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use crate::walk::Walk;
use physics::battery::{internal_ohms, short_circuit_amps};
use quantity::Quantity;

#[test]
fn interrupting_capacity_by_cranking_rating() {
    let table = reference!("protection/15_battery_fault_aic.toml");
    let limits = study::Limits::default();
    let asked = |cranking: f64| {
        limits
            .breaking
            .iter()
            .find(|b| cranking <= b.cranking_most)
            .map_or(0.0, |b| b.amps)
    };
    for row in table.rows("aic") {
        for key in ["cca_total_min", "cca_total_max"] {
            if row.get_at(key).is_some() {
                near(key, asked(row.num(key)), row.num("aic_A"), Relative(1e-9));
            }
        }
    }
    near("far above", asked(3000.0), 5000.0, Relative(1e-9));
}

#[test]
fn resistance_from_the_cranking_rating() {
    let table = reference!("protection/15_battery_fault_aic.toml");
    let row = table.at("resistance_estimate");
    let cold = internal_ohms(row.num("example_cca"), row.num("example_Uoc"), 255.15);
    near(
        "cold",
        cold * 1e3,
        row.num("example_R_mohm"),
        Relative(1e-9),
    );
    near(
        "short",
        short_circuit_amps(row.num("example_Uoc"), cold),
        row.num("example_Isc_A"),
        Relative(1e-9),
    );
}

/// The same box behind a larger battery: the next class of main fuse, or a finding.
#[test]
fn a_larger_battery_asks_for_a_stronger_fuse() {
    let plan = |cranking: &str, kind: &str| {
        let vehicle = include_str!("plans/vehicle.toml").replace("600 A", cranking);
        let fuse = if kind.is_empty() {
            String::new()
        } else {
            format!("fuse = {{ kind = \"{kind}\" }}\n")
        };
        let boxed = "[[box]]\nname = \"box\"\nplace = \"tray\"\nways = 1\nfeed = \"battery\"\n";
        format!(
            "{vehicle}\n{boxed}{fuse}{}",
            include_str!("plans/lamp.toml")
        )
    };
    assert!(Walk::of(&plan("1000 A", "miniature blade")).finds("fuse-breaking"));
    assert!(!Walk::of(&plan("100 A", "miniature blade")).finds("fuse-breaking"));
    let walk = Walk::of(&plan("600 A", ""));
    let main = walk.fuse("F0.1");
    assert!(
        walk.stock().fuses[main.kind].breaking.si() >= 1500.0,
        "a class that breaks 1500 A is chosen by itself"
    );
}
