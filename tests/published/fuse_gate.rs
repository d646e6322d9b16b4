//! Opening times of fuses: gates as makers print them (01, 03), gates as standards are remembered
//! (02), cases F01 to F08 and F20. Our stock keeps the worse of the documents at every gate, so its
//! band holds every published band; the clock itself gives the published times from published gates.

use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use physics::fuse_clock::{Gate, opening_band};
use stock::Stock;
use toml::Value;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["F01", "F02", "F03", "F04", "F05", "F06", "F07", "F08"],
        check: gate,
    },
    Run {
        ids: &["F20"],
        check: cartridge,
    },
];

/// A stock class's gates as the clock takes them.
pub(crate) fn stock_gates(stock: &Stock, class: &str) -> Option<Vec<Gate>> {
    let kind = stock.fuse_kind(class)?;
    let as_gate = |g: &stock::FuseGate| Gate {
        multiple: g.multiple,
        min_s: g.min_s,
        max_s: g.max_s,
    };
    Some(kind.gates.iter().map(as_gate).collect())
}

/// The published gates of the class whose name holds this text.
fn published_gates(table: &Value, class: &str) -> Vec<Gate> {
    let rows = table.rows("gate").iter();
    let mut gates: Vec<Gate> = rows
        .filter(|r| {
            r.get_at("class").is_some_and(|c| {
                c.as_str()
                    .is_some_and(|c| c.contains(class) && !c.contains("58 V"))
            })
        })
        .filter(|r| r.get_at("pct_of_rating").is_some())
        .map(|r| Gate {
            multiple: r.num("pct_of_rating") / 100.0,
            min_s: r.get_at("t_min_s").and_then(Look::number).unwrap_or(0.0),
            max_s: r.get_at("t_max_s").and_then(Look::number),
        })
        .collect();
    gates.sort_by(|a, b| a.multiple.total_cmp(&b.multiple));
    gates
}

fn gate(c: &mut Case) {
    let table = reference!("protection/01_fuse_gates_blade_read.toml");
    let multiple = c.num("fault_A") / c.num("rating_A");
    let class = c.word("class").to_owned();
    let (soonest, latest) = opening_band(&published_gates(&table, &class), multiple);
    c.near("t_min_s", soonest);
    if latest.is_infinite() {
        c.same("t_max_s", "none");
    } else {
        c.near("t_max_s", latest);
    }
    // The micro class is not in stock.
    let stock = Stock::embedded();
    if let Some(ours) = stock_gates(&stock, &class) {
        let (may, must) = opening_band(&ours, multiple);
        c.holds(
            &format!("stock's band {may}–{must} s holds the printed one"),
            may <= soonest && must >= latest,
        );
    } else {
        c.holds(
            "only the micro class is missing from stock",
            class.contains("micro"),
        );
    }
}

fn cartridge(c: &mut Case) {
    let table = reference!("protection/03_fuse_gates_cartridge_ul_read.toml");
    let mut gates = published_gates(&table, "248-14 listed cartridge, all");
    gates.extend(published_gates(&table, "248-14 listed cartridge, 0-30 A"));
    let ours: Vec<f64> = c
        .nums("pct")
        .iter()
        .map(|p| opening_band(&gates, p / 100.0).1)
        .collect();
    c.each("t_max_s", &ours);
}

/// The class of stock that a standard's type is.
const TYPES: [(&str, &str); 5] = [
    ("ISO 8820-3 type F", "miniature blade"),
    ("ISO 8820-3 type C", "medium blade"),
    ("ISO 8820-3 type E", "high-current blade"),
    ("ISO 8820-5 type SF 30", "bolt-in strip M5"),
    ("ISO 8820-5 type SF 51", "bolt-in strip M8"),
];

/// At every gate of every document, our band is never the tighter one.
#[test]
fn stock_is_never_tighter_than_any_document() {
    let stock = Stock::embedded();
    let table = reference!("protection/02_fuse_gates_memory.toml");
    let mut compared = 0;
    for row in table.rows("gate") {
        let standard = row.word("standard");
        let Some((_, class)) = TYPES.iter().find(|(t, _)| standard.contains(t)) else {
            continue;
        };
        let gates = stock_gates(&stock, class).unwrap_or_else(|| panic!("no {class}"));
        for triple in row.rows("rows_pct_tmin_tmax") {
            let cells: Vec<f64> = triple
                .as_array()
                .into_iter()
                .flatten()
                .filter_map(Look::number)
                .collect();
            let (may, must) = opening_band(&gates, cells[0] / 100.0);
            let what = format!("{standard} at {} %", cells[0]);
            assert!(may <= cells[1] + 1e-9, "{what}: ours not before {may} s");
            assert!(
                cells[2] == 0.0 || must >= cells[2] - 1e-9,
                "{what}: ours by {must} s"
            );
            compared += 1;
        }
    }
    for class in ["miniature blade", "medium blade"] {
        let gates = stock_gates(&stock, class).unwrap_or_else(|| panic!("no {class}"));
        for g in published_gates(
            &reference!("protection/01_fuse_gates_blade_read.toml"),
            &format!("{class} (ISO"),
        ) {
            let (may, must) = opening_band(&gates, g.multiple);
            assert!(
                may <= g.min_s && must >= g.max_s.unwrap_or(0.0),
                "{class} at {}",
                g.multiple
            );
            compared += 1;
        }
    }
    println!("{compared} published gates lie within stock's bands");
    assert!(compared >= 30, "only {compared} gates were compared");
}

/// Between 110 % and 135 % nothing is promised: a class without that gap would be wishful.
#[test]
fn no_opening_is_promised_below_135_percent() {
    let stock = Stock::embedded();
    for kind in &stock.fuses {
        let gates = stock_gates(&stock, &kind.name).unwrap_or_default();
        assert_eq!(opening_band(&gates, 1.34).1, f64::INFINITY, "{}", kind.name);
        assert!(
            kind.least_promised().is_some_and(|m| m >= 1.35),
            "{}",
            kind.name
        );
    }
    let blade = stock_gates(&stock, "miniature blade").unwrap_or_default();
    near(
        "blade at 200 %",
        opening_band(&blade, 2.0).1,
        5.0,
        Relative(1e-9),
    );
}
