//! Voltage lost along a wire: FAA AC 43.13-1B (06), worked examples (28), trailer cable (30). The
//! documents give ohms and amperes; our network solver gives the volts.

use super::bench::{FOOT, in_series, lost, source};
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::conductor::{COPPER_RHO20, resistance_at, resistance_per_metre};
use physics::network::Law;
use quantity::{Area, Gauge, Quantity, WireSize};
use stock::{Family, Stock};

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &[
            "FAA-7.1", "FAA-7.2", "FAA-7.3", "FAA-7.4", "FAA-8.1", "FAA-8.2", "FAA-8.3", "FAA-8.4",
        ],
        check: faa,
    },
    Run {
        ids: &["FAA-EX1"],
        check: faa_size,
    },
    Run {
        ids: &["VD1"],
        check: class_two,
    },
    Run {
        ids: &["VD2"],
        check: fifty_watts,
    },
    Run {
        ids: &["VD3"],
        check: bilge_pump,
    },
    Run {
        ids: &["VD4"],
        check: long_run,
    },
    Run {
        ids: &["VD5"],
        check: shorted_run,
    },
    Run {
        ids: &["VD6"],
        check: warm_wires,
    },
    Run {
        ids: &["TR-0.65", "TR-1.5", "TR-3.0"],
        check: trailer,
    },
];

fn faa(c: &mut Case) {
    let ours = lost(c.num("ohm_ft") * c.num("run_ft"), c.num("amp"));
    c.near("vd_v", ours);
    if c.id == "FAA-8.2" {
        // The circular misprints .366; ours must not agree with that.
        c.holds("not the misprint .366", (ours - 0.366).abs() > 0.1);
    }
}

/// The smallest wire of table 11-9 whose drop stays within the limit.
fn faa_size(c: &mut Case) {
    let table = reference!("conductors/04_faa_ac4313_table_11_9_copper.toml");
    let fits = |row: &toml::Value| {
        let ohms = row.num("ohm_kft_20c_max") * 1e-3 * c.num("run_ft");
        lost(ohms, c.num("amp")) <= c.num("limit_v")
    };
    let rows = table.rows("wire");
    let first = rows.iter().position(fits).unwrap_or(0);
    c.same("size", rows[first].word("size"));
    c.same("rejected", rows[first - 1].word("size"));
}

fn class_two(c: &mut Case) {
    let ohms = 2.0 * c.num("len_ft") * c.num("ohm_kft") * 1e-3;
    let ours = lost(ohms, c.num("amp"));
    c.near("drop_v", ours);
    c.wider(
        "percent",
        ours / c.num("v") * 100.0,
        Absolute(0.05),
        "printed to a tenth: 16.63 as 16.6",
    );
}

/// The example's 0.0127 Ω/m is our stock's 1.5 mm².
fn fifty_watts(c: &mut Case) {
    let stock = Stock::embedded();
    let thin = stock.conductors_of(Family::Metric, "PVC", "thin");
    let wire = thin
        .iter()
        .find(|w| w.size.metric_mm2().is_some_and(|a| (a - 1.5).abs() < 1e-9));
    let ohm_per_m = wire.map_or(0.0, |w| w.ohm_per_m_20);
    c.holds(
        "the stock wire is the example's",
        (ohm_per_m / c.num("ohm_m") - 1.0).abs() < 1e-9,
    );
    let ours = lost(ohm_per_m * c.num("len_m"), c.num("amp"));
    c.near("drop_v", ours);
    c.near("percent", ours / c.num("v") * 100.0);
}

/// The smallest SAE wire of stock that keeps a bilge pump within 10 %.
fn bilge_pump(c: &mut Case) {
    let stock = Stock::embedded();
    let length = c.num("loop_ft") * FOOT;
    let sae = stock.conductors_of(Family::Sae, "PVC 80", "thick");
    let fits = |ohm_per_m: f64| lost(ohm_per_m * length, c.num("amp")) <= c.num("limit_v");
    let chosen = sae.iter().find(|w| fits(w.ohm_per_m_20)).map(|w| w.size);
    c.same(
        "size",
        chosen.map_or(String::new(), |s| s.to_string().replace(" AWG", "")),
    );
    let area = COPPER_RHO20 * length * c.num("amp") / c.num("limit_v");
    let why = "the handbook's 10.75 Ω·cmil/ft is warm wire; ours is copper at 20 °C";
    c.wider("cm", Area::from_si(area).si() / CMIL, Relative(0.04), why);
}

/// One circular mil, m².
const CMIL: f64 = 5.067_074_79e-10;

/// Long enough that resistance alone sizes it. The book's copper has 10.09 Ω·cmil/ft; ours 10.37.
fn long_run(c: &mut Case) {
    let lay = book_copper(c.num("rho"));
    let drop = |g: Gauge| {
        let per_metre = resistance_per_metre(g.area_mm2() * 1e-6, lay);
        lost(per_metre * c.num("len_ft") * FOOT, c.num("amp"))
    };
    // From thin to thick; 4/0 is gauge −3.
    let chosen = (-3..=20)
        .rev()
        .map(Gauge)
        .find(|g| drop(*g) <= c.num("limit_v_per_wire"));
    c.same("size", chosen.map_or(String::new(), |g| g.to_string()));
    let area =
        COPPER_RHO20 * lay * c.num("len_ft") * FOOT * c.num("amp") / c.num("limit_v_per_wire");
    c.wider(
        "cm",
        area / CMIL,
        Relative(1e-4),
        "a unit in the sixth figure",
    );
}

/// A book's resistivity in Ω·cmil/ft, over ours: our law takes it where it takes strand lay.
fn book_copper(ohm_cmil_ft: f64) -> f64 {
    ohm_cmil_ft * CMIL / FOOT / COPPER_RHO20
}

fn shorted_run(c: &mut Case) {
    let area = c.num("cm") * CMIL;
    let ohms = resistance_per_metre(area, book_copper(c.num("rho"))) * c.num("len_ft") * FOOT;
    c.near("r_ohm", ohms);
    let wire = Law::Resistor { ohms };
    let amps = in_series(&[source(230.0), wire, wire]).amps[1];
    c.near("isc_230", amps);
    c.near("total", 230.0 / amps);
}

/// Two 15 Ω wires and a 250 Ω load: warm wires leave the load less.
fn warm_wires(c: &mut Case) {
    let wire = Law::Resistor {
        ohms: resistance_at(15.0, physics::conductor::T0 + c.num("t_c")),
    };
    let load = Law::Resistor {
        ohms: c.num("load"),
    };
    let v = in_series(&[source(c.num("v")), wire, load, wire]).volts;
    c.near("load_v", v[2] - v[3]);
    c.near("wire_v", v[1] - v[2]);
    let book = resistance_at(15.0, physics::conductor::T0 + 35.0) / 15.0;
    c.holds(
        "our copper warms within 0.2 % as the book's",
        (book * c.num("wires") / 15.909 - 1.0).abs() < 0.002,
    );
}

fn trailer(c: &mut Case) {
    c.near(
        "drop_v",
        lost(c.num("ohm_m") * c.num("len_m"), c.num("amp")),
    );
}

#[test]
fn faa_tables_as_computed_not_as_misprinted() {
    let table = reference!("conductors/06_faa_ac4313_voltage_drop.toml");
    for (key, length) in [("table_11_7", "run_ft"), ("table_11_8", "max_run_ft")] {
        for row in table.rows(key) {
            let ours = lost(row.num("ohm_ft") * row.num(length), row.num("amp"));
            near(key, ours, row.num("vd_computed"), Relative(1e-4));
            if !row
                .get_at("note")
                .is_some_and(|n| n.to_string().contains("MISPRINT"))
            {
                near(key, ours, row.num("vd_printed"), Absolute(0.046));
            }
        }
    }
}

#[test]
fn trailer_cable_over_5_metres_and_our_stock_beside_it() {
    let table = reference!("conductors/30_trailer_cable_5m.toml");
    let stock = Stock::embedded();
    let thin = stock.conductors_of(Family::Metric, "PVC", "thin");
    for row in table.rows("row") {
        let ours = lost(row.num("ohm_m") * table.num("length_m"), row.num("amp"));
        near(
            row.word("strands"),
            ours,
            row.num("drop_v"),
            Absolute(0.001),
        );
        let size = WireSize::Metric(Area::from_si(row.num("mm2") * 1e-6));
        let same =
            |w: &&&stock::Conductor| (w.area.si() / (row.num("mm2") * 1e-6) - 1.0).abs() < 1e-6;
        for wire in thin.iter().filter(same) {
            let drop = lost(wire.ohm_per_m_20 * table.num("length_m"), row.num("amp"));
            near(&size.to_string(), drop, row.num("drop_v"), Relative(0.03));
        }
    }
}

#[test]
fn twelve_gauge_house_wire() {
    let table = reference!("conductors/28_voltage_drop_examples.toml");
    let row = table
        .rows("case")
        .iter()
        .find(|r| r.word("id") == "VD8")
        .unwrap_or_else(|| panic!("no VD8"));
    let area = std::f64::consts::FRAC_PI_4 * (row.num("d_mm") * 1e-3).powi(2);
    let ours = resistance_per_metre(area, 1.0) * row.num("length_m");
    near("VD8", ours, row.num("r_ohm"), Relative(0.004));
}
