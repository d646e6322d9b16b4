//! Currents in warmer surroundings (16). The documents scale by √((Tc − Ta)/(Tc − T₀)); our heat law
//! works the loss out anew, and convection grows faster than in proportion, so it allows a little less.

use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use physics::wire_heat::{WireBody, steady_amps};
use stock::Stock;

pub(crate) const RUNS: &[Run] = &[Run {
    ids: &["AMB-B2-16"],
    check: sixteen,
}];

/// What warmer surroundings leave of a wire's current: ours for 16 mm².
fn left(conductor_c: f64, base_c: f64, around_c: f64) -> f64 {
    let body = WireBody {
        conductor_d: 5.8e-3,
        outside_d: 7.2e-3,
        k_insulation: 0.17,
        emissivity: 0.9,
    };
    let amps = |around: f64| steady_amps(&body, 1.16e-3, conductor_c + 273.15, around + 273.15);
    amps(around_c) / amps(base_c)
}

fn sixteen(c: &mut Case) {
    let around = [40.0, 45.0, 50.0, 55.0];
    let ours: Vec<f64> = around
        .iter()
        .map(|t| c.num("i30") * left(70.0, 30.0, *t))
        .collect();
    let why = "the document's factor goes by √ΔT, and ours by the loss itself";
    c.each_wider("a", &ours, Relative(0.04), why);
}

#[test]
fn every_ambient_factor_within_six_per_cent() {
    let published = reference!("conductors/16_ambient_correction.toml");
    for table in published
        .rows("table")
        .iter()
        .filter(|t| t.get_at("conductor_c").is_some())
    {
        let (limit, base) = (table.num("conductor_c"), table.num("base_c"));
        let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
        for (around, factor) in table.nums("ta_c").into_iter().zip(table.nums("factor")) {
            let ratio = left(limit, base, around) / factor;
            (least, most) = (least.min(ratio), most.max(ratio));
        }
        println!(
            "{:<24} {least:.3} to {most:.3} of the published factor",
            table.word("id")
        );
        // Measured: 0.951 to 1.017, the least with 5 K left.
        assert!(
            least > 0.94 && most < 1.03,
            "{}: {least} to {most}",
            table.word("id")
        );
    }
}

#[test]
fn boat_engine_spaces_are_the_laws_own_factors() {
    let published = reference!("conductors/16_ambient_correction.toml");
    let row = published
        .rows("table")
        .iter()
        .find(|t| t.word("id") == "boat_engine_space_50_vs_30");
    let row = row.unwrap_or_else(|| panic!("no engine-space row"));
    let stock = Stock::embedded();
    let law = super::ampacity::table(&stock, "33 CFR 183.425");
    for (ours, factor) in law.engine_space.iter().zip(row.nums("factor")) {
        near("engine space", *ours, factor, Relative(1e-9));
    }
    assert_eq!(law.columns_c, row.nums("conductor_columns_c"));
}
