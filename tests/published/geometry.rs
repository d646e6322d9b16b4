//! Wire sizes: AWG geometry (tables 01, G-*), SAE and boat areas (12), metric cable (10).

use super::bench::gauge;
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use quantity::{Quantity, WireSize, in_mm2};
use stock::{Conductor, Family, Stock};

pub(crate) const RUNS: &[Run] = &[Run {
    ids: &["G-4/0", "G-1/0", "G-10", "G-14", "G-18", "G-24"],
    check: awg,
}];

fn awg(c: &mut Case) {
    let g = gauge(c.word("size"));
    c.near("d_mm", g.diameter_mm());
    // Half a unit of the last printed digit is more than the list's 1e-4 for the thinnest wire.
    let printed = if c.id == "G-24" {
        Relative(2.5e-4)
    } else {
        c.tolerance
    };
    c.wider(
        "cmil",
        g.circular_mils(),
        printed,
        "the thinnest is printed to four figures only",
    );
    c.wider(
        "mm2",
        g.area_mm2(),
        printed,
        "the thinnest is printed to four figures only",
    );
}

#[test]
fn every_gauge_of_the_table() {
    let table = reference!("conductors/01_awg_geometry.toml");
    for row in table.rows("awg") {
        let size = row.word("size");
        let g = gauge(size);
        let inches = g.diameter_mm() / 25.4;
        near(size, inches, row.num("d_in"), Absolute(0.6e-5));
        // To the last printed digit: a tenth of a circular mil, four decimals of mm².
        near(size, g.circular_mils(), row.num("cmil"), Absolute(0.051));
        near(size, g.area_mm2(), row.num("mm2"), Absolute(0.51e-4));
        near(size, g.diameter_mm(), row.num("d_mm"), Absolute(0.51e-4));
        if row.get_at("d_in_read").is_some() {
            near(size, inches, row.num("d_in_read"), Absolute(1e-4));
        }
        if row.get_at("cmil_read").is_some() {
            // Printed to four figures: one unit of the fourth.
            near(
                size,
                g.circular_mils(),
                row.num("cmil_read"),
                Relative(1e-3),
            );
        }
    }
}

/// The stock wires of a family and size.
fn wires(stock: &Stock, family: Family, size: WireSize) -> Vec<&Conductor> {
    let same = |a: WireSize| match (a.metric_mm2(), size.metric_mm2()) {
        (Some(a), Some(b)) => (a - b).abs() < 1e-9,
        _ => a == size,
    };
    stock
        .conductors
        .iter()
        .filter(|c| c.family == family && same(c.size))
        .collect()
}

#[test]
fn sae_and_boat_areas_are_kept_apart() {
    let table = reference!("conductors/12_sae_j1127_j1128.toml");
    let stock = Stock::embedded();
    for row in table.rows("size") {
        let size = WireSize::Gauge(gauge(row.word("sae")));
        let sae = wires(&stock, Family::Sae, size);
        let boat = wires(&stock, Family::Boat, size);
        assert!(
            !sae.is_empty() && !boat.is_empty(),
            "{size} is not in stock"
        );
        for wire in sae {
            near(
                &wire.id,
                in_mm2(wire.area),
                row.num("sae_mm2"),
                Relative(1e-3),
            );
            // The table's own fact: 2.9 to 11.9 % below the boat cable of the same number.
            let less = 1.0 - wire.area.si() / boat[0].area.si();
            assert!(
                (0.028..0.121).contains(&less),
                "{}: {less} below the boat cable",
                wire.id
            );
        }
        let marine = quantity::read(&format!("{} cmil", row.num("marine_cmil")))
            .unwrap_or_else(|e| panic!("{e:?}"));
        near(
            &boat[0].id,
            in_mm2(boat[0].area),
            in_mm2(marine),
            Relative(2e-3),
        );
    }
}

#[test]
fn metric_cable_by_its_own_standard() {
    let table = reference!("conductors/10_iso6722_cable.toml");
    let stock = Stock::embedded();
    let band = table.nums("check_band_ohm_mm2_per_km");
    let mut seen = 0;
    for row in table.rows("cable") {
        let size = WireSize::Metric(quantity::Area::from_si(row.num("mm2") * 1e-6));
        for wire in wires(&stock, Family::Metric, size) {
            seen += 1;
            near(
                &wire.id,
                wire.ohm_per_m_20 * 1e3,
                row.num("r_max_mohm_m"),
                Relative(1e-9),
            );
            near(
                &wire.id,
                wire.conductor_d.si() * 1e3,
                row.num("conductor_d_max_mm"),
                Absolute(1e-9),
            );
            let outside = format!("{}_wall_od_max_mm", wire.wall);
            if row.get_at(&outside).is_some() {
                near(
                    &wire.id,
                    wire.outside_d.si() * 1e3,
                    row.num(&outside),
                    Absolute(0.05),
                );
            }
            let resistivity = wire.ohm_per_m_20 * wire.area.si() * 1e9;
            assert!(
                (band[0]..=band[1]).contains(&resistivity),
                "{}: {resistivity} Ω·mm²/km",
                wire.id
            );
        }
    }
    println!("ISO 6722: {seen} stock wires");
    assert!(seen > 60, "only {seen} metric wires met the table");
}
