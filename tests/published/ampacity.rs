//! Boat law and boat practice: every current of 33 CFR 183.425 table 5 (08), engine spaces and
//! bundles (14), and the NEC free-air table (19), asked of stock's tables as a sizing asks them.

use super::bench::gauge;
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use quantity::{Area, Quantity, WireSize};
use stock::{AmpacityTable, Stock};

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["CFR-4/0-200", "CFR-ENG-8"],
        check: by_law,
    },
    Run {
        ids: &["CFR-B7-14"],
        check: bundled,
    },
    Run {
        ids: &["CFR-OCP"],
        check: largest_device,
    },
    Run {
        ids: &["CFR-DIST"],
        check: sheathed_distance,
    },
];

/// What a table allows a wire of true gauge area, A; nothing where it forbids it.
pub(crate) fn allowed(
    table: &AmpacityTable,
    size: &str,
    celsius: f64,
    engine: bool,
    bundled: u32,
) -> Option<f64> {
    let g = gauge(size);
    let area = Area::from_si(g.area_mm2() * 1e-6);
    let found = table.allowed(WireSize::Gauge(g), area, celsius, engine, bundled)?;
    Some(found.amps.si())
}

pub(crate) fn table<'a>(stock: &'a Stock, name: &str) -> &'a AmpacityTable {
    stock
        .currents(name)
        .unwrap_or_else(|| panic!("stock has no table “{name}”"))
}

fn by_law(c: &mut Case) {
    let stock = Stock::embedded();
    let law = table(&stock, "33 CFR 183.425");
    let ours = allowed(
        law,
        c.word("size"),
        c.num("insulation_c"),
        c.has("engine_space"),
        1,
    );
    c.near("a", ours.unwrap_or(0.0));
}

fn bundled(c: &mut Case) {
    let stock = Stock::embedded();
    let n = c.num("bundled") as u32;
    let practice = allowed(
        table(&stock, "boat practice"),
        c.word("size"),
        c.num("insulation_c"),
        false,
        n,
    );
    c.near("a", practice.unwrap_or(0.0));
    let law = allowed(
        table(&stock, "33 CFR 183.425"),
        c.word("size"),
        c.num("insulation_c"),
        false,
        n,
    );
    c.holds(
        "the law itself bundles only from 50 V up",
        law == Some(35.0),
    );
}

fn largest_device(c: &mut Case) {
    let stock = Stock::embedded();
    let law = table(&stock, "33 CFR 183.425");
    c.near("max_device_a", c.num("table5_a") * law.fuse_max_fraction);
}

fn sheathed_distance(c: &mut Case) {
    let metres = study::Limits::default().value("fuse distance sheathed");
    c.near("max_in", metres / 0.0254);
}

#[test]
fn every_current_of_table_5() {
    let published = reference!("conductors/08_cfr33_183_425_table5.toml");
    let stock = Stock::embedded();
    let columns = published.nums("columns_c");
    let engine = published.at("note_1").nums("factor");
    for name in ["33 CFR 183.425", "boat practice"] {
        let ours = table(&stock, name);
        for row in published.rows("row") {
            let size = row.word("size");
            for ((celsius, amps), factor) in columns.iter().zip(row.nums("amp")).zip(&engine) {
                let what = format!("{name} {size} {celsius} °C");
                near(
                    &what,
                    allowed(ours, size, *celsius, false, 1).unwrap_or(0.0),
                    amps,
                    Relative(1e-9),
                );
                let inside = allowed(ours, size, *celsius, true, 1).unwrap_or(0.0);
                near(
                    &format!("{what} engine space"),
                    inside,
                    amps * factor,
                    Relative(1e-9),
                );
            }
        }
    }
}

#[test]
fn every_current_of_the_boat_tables() {
    let published = reference!("conductors/14_marine_ampacity_105c.toml");
    let stock = Stock::embedded();
    let practice = table(&stock, "boat practice");
    let celsius = published.num("insulation_c");
    let columns = [("b3", 3, 3), ("b4_6", 4, 6), ("b7_24", 7, 24)];
    for row in published.rows("row") {
        let size = row.word("size");
        let ours = |engine, n| allowed(practice, size, celsius, engine, n).unwrap_or(0.0);
        near(size, ours(false, 2), row.num("out"), Relative(1e-9));
        // Printed in whole amperes: 29.75 as 30, 21.25 as 21.
        near(size, ours(true, 1), row.num("in_engine"), Absolute(0.5));
        for (key, from, to) in columns {
            for n in [from, to] {
                near(
                    &format!("{size}, {n} together"),
                    ours(false, n),
                    row.num(key),
                    Relative(1e-9),
                );
            }
        }
    }
}

#[test]
fn every_current_of_the_nec_free_air_table() {
    let published = reference!("conductors/19_nec_free_air.toml");
    let stock = Stock::embedded();
    let ours = table(&stock, "NEC free air");
    for row in published.rows("rows") {
        let size = row.word("size");
        for celsius in published.nums("columns_c") {
            let key = format!("amp{celsius}");
            if row.get_at(&key).is_some() {
                let amps = allowed(ours, size, celsius, false, 1).unwrap_or(0.0);
                near(
                    &format!("{size} {celsius} °C"),
                    amps,
                    row.num(&key),
                    Relative(1e-9),
                );
            }
        }
    }
}

/// A size or an insulation that a table lacks is never rounded up.
#[test]
fn nothing_is_rounded_up() {
    let stock = Stock::embedded();
    let law = table(&stock, "33 CFR 183.425");
    // 5 AWG stands in no row: it gets 6 AWG's current. 104 °C gets the 90 °C column.
    near(
        "5 AWG",
        allowed(law, "5", 105.0, false, 1).unwrap_or(0.0),
        120.0,
        Relative(1e-9),
    );
    near(
        "104 °C",
        allowed(law, "14", 104.0, false, 1).unwrap_or(0.0),
        30.0,
        Relative(1e-9),
    );
    assert_eq!(allowed(law, "14", 55.0, false, 1), None);
    assert_eq!(allowed(law, "20", 105.0, false, 1), None);
}
