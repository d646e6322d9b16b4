//! Pull on crimps: the table of stock against the rows as they were handed over, UL 486A.

use super::reference::{Look, reference};
use quantity::{Area, Quantity};
use stock::Stock;

/// Newtons in a pound-force.
const LBF: f64 = 4.448_221_6;

#[test]
fn every_gauge_from_22_on_stands_its_pounds() {
    let table = reference!("workmanship/crimp_pull_ul486a.toml");
    let stock = Stock::embedded();
    let mut met = 0;
    for row in table.rows("row") {
        let Some(ours) = stock.pulls.iter().find(|p| p.awg == row.word("awg")) else {
            // Thinner wire is not crimped by hand here.
            assert!(["26", "24"].contains(&row.word("awg")), "{row}");
            continue;
        };
        let newton = row.num("min_lbf") * LBF;
        assert!(
            (ours.newton / newton - 1.0).abs() < 1e-3,
            "{row}: {}",
            ours.newton
        );
        // One sheet prints 1235 N beside 300 lbf: a misprint, kept as a trap.
        if let Some(printed) = row.get_at("printed_n").and_then(toml::Value::number) {
            let misprint = (printed / newton - 1.0).abs() > 0.01;
            assert_eq!(misprint, row.word("awg") == "2/0");
        }
        let read = row.word("basis") == "READ";
        assert_eq!(ours.origin.basis == finding::Basis::Read, read, "{row}");
        met += 1;
    }
    assert_eq!(met, stock.pulls.len());
}

/// A wire between two gauges is asked what the thinner of them stands.
#[test]
fn a_metric_wire_is_pulled_as_the_gauge_below_it() {
    let stock = Stock::embedded();
    let asked = |mm2: f64| {
        let pull = stock.pull_for(Area::from_si(mm2 * 1e-6));
        pull.map(|p| p.awg.as_str())
    };
    for (mm2, awg) in [
        (0.5, "22"),
        (0.75, "20"),
        (1.0, "18"),
        (1.5, "16"),
        (2.5, "14"),
        (4.0, "12"),
        (6.0, "10"),
        (10.0, "8"),
        (16.0, "6"),
    ] {
        assert_eq!(asked(mm2), Some(awg), "{mm2} mm²");
    }
    assert_eq!(asked(0.2), None);
}
