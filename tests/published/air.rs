//! Natural convection (22): Nusselt numbers of Churchill and Chu, and the properties of air.

use super::bench::ZERO;
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use physics::{air, convection};

pub(crate) const RUNS: &[Run] = &[Run {
    ids: &["NU-CC"],
    check: churchill_chu,
}];

fn churchill_chu(c: &mut Case) {
    c.near(
        "nu",
        convection::nusselt(c.num("pr") * c.num("gr"), c.num("pr")),
    );
}

#[test]
fn nusselt_numbers_of_the_library_and_the_textbook() {
    let table = reference!("conductors/22_air_convection_radiation.toml");
    for row in table.at("churchill_chu").rows("check") {
        let pr = row.num("pr");
        let rayleigh = if row.get_at("ra").is_some() {
            row.num("ra")
        } else {
            row.num("gr") * pr
        };
        let within = if row.get_at("nu_range").is_some() {
            4e-4
        } else {
            1e-9
        };
        near(
            "Nu",
            convection::nusselt(rayleigh, pr),
            row.num("nu"),
            Relative(within),
        );
    }
}

#[test]
fn air_of_the_textbook() {
    let table = reference!("conductors/22_air_convection_radiation.toml");
    for row in table.rows("air") {
        let ours = air::at(ZERO + row.num("t_c"));
        let what = format!("air at {} °C", row.num("t_c"));
        near(&what, ours.k, row.num("k"), Relative(1e-6));
        near(&what, ours.nu, row.num("nu"), Relative(1e-6));
        near(&what, ours.pr, row.num("pr"), Relative(1e-6));
    }
}
