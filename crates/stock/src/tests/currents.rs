//! Tables of allowed current against what was published.

use super::*;

#[test]
fn every_cell_of_33_cfr_is_as_published() {
    // 33 CFR 183.425 table 5, read: 60, 75, 80, 90, 105, 125, 200 °C.
    let published: [(i8, [f64; 7]); 15] = [
        (18, [10., 10., 15., 20., 20., 25., 25.]),
        (16, [15., 15., 20., 25., 25., 30., 35.]),
        (14, [20., 20., 25., 30., 35., 40., 45.]),
        (12, [25., 25., 35., 40., 45., 50., 55.]),
        (10, [40., 40., 50., 55., 60., 70., 70.]),
        (8, [55., 65., 70., 70., 80., 90., 100.]),
        (6, [80., 95., 100., 100., 120., 125., 135.]),
        (4, [105., 125., 130., 135., 160., 170., 180.]),
        (3, [120., 145., 150., 155., 180., 195., 210.]),
        (2, [140., 170., 175., 180., 210., 225., 240.]),
        (1, [165., 195., 210., 210., 245., 265., 280.]),
        (0, [195., 230., 245., 245., 285., 305., 325.]),
        (-1, [225., 265., 285., 285., 330., 355., 370.]),
        (-2, [260., 310., 330., 330., 385., 410., 430.]),
        (-3, [300., 360., 385., 385., 445., 475., 510.]),
    ];
    let stock = Stock::embedded();
    let table = stock.currents("33 CFR 183.425").unwrap();
    assert_eq!(table.rows.len(), published.len());
    for ((size, cells), (n, currents)) in table.rows.iter().zip(published) {
        assert_eq!(*size, gauge(n));
        assert_eq!(*cells, currents.map(Some));
    }
    assert_eq!(table.fuse_max_fraction, 1.5);
}

#[test]
fn gauges_use_their_own_row_and_the_column_at_or_below() {
    let t = "33 CFR 183.425";
    assert_eq!(amps(allowed(t, gauge(14), 2.08, 105.0, false)), 35.0);
    assert!((amps(allowed(t, gauge(14), 2.08, 105.0, true)) - 29.75).abs() < 1e-9);
    assert!((amps(allowed(t, gauge(8), 8.5, 105.0, true)) - 68.0).abs() < 1e-9);
    // An SAE 14 AWG has less copper than the true gauge; the law still gives it the row of its name.
    assert_eq!(amps(allowed(t, gauge(14), 1.876, 80.0, false)), 25.0);
    // 100 °C insulation: the 90 °C column.
    assert_eq!(
        allowed(t, gauge(14), 2.08, 100.0, false).unwrap().column_c,
        90.0
    );
    assert_eq!(allowed(t, gauge(14), 2.08, 55.0, false), None);
    assert_eq!(allowed(t, gauge(20), 0.508, 105.0, false), None);
}

#[test]
fn a_metric_wire_is_never_rounded_up_to_a_gauge() {
    let t = "33 CFR 183.425";
    let metric = |v: f64| WireSize::Metric(mm2(v));
    // 2.5 mm² lies between 14 AWG (2.08) and 12 AWG (3.31); 2 mm² is less than 14 AWG.
    let found = allowed(t, metric(2.5), 2.5, 105.0, false).unwrap();
    assert_eq!((found.row, found.amps), (gauge(14), amperes(35.0)));
    assert!(
        found.note.contains("largest row within 2.5 mm²"),
        "{}",
        found.note
    );
    assert_eq!(
        allowed(t, metric(2.0), 2.0, 105.0, false).unwrap().row,
        gauge(16)
    );
    assert_eq!(allowed(t, metric(0.75), 0.75, 105.0, false), None);
    // ISO 10133 has metric rows: the size's own where there is one.
    assert_eq!(
        amps(allowed("ISO 10133", metric(2.5), 2.5, 105.0, false)),
        35.0
    );
    assert_eq!(
        allowed("ISO 10133", metric(3.0), 3.0, 105.0, false)
            .unwrap()
            .row,
        metric(2.5)
    );
    assert_eq!(allowed("ISO 10133", metric(2.5), 2.5, 60.0, true), None);
}

#[test]
fn bundles_count_only_where_the_rule_set_says_so() {
    let stock = Stock::embedded();
    let ask = |table: &str, n| {
        let table = stock.currents(table).unwrap();
        amps(table.allowed(gauge(14), mm2(2.08), 105.0, false, n))
    };
    // Boat cable tables as quoted publicly: 14 AWG at 105 °C gives 35, 24.5, 21, 17.5 A.
    for (n, published) in [
        (1, 35.0),
        (2, 35.0),
        (3, 24.5),
        (4, 21.0),
        (6, 21.0),
        (7, 17.5),
        (24, 17.5),
        (25, 14.0),
    ] {
        assert!((ask("boat practice", n) - published).abs() < 1e-9, "{n}");
        assert_eq!(ask("33 CFR 183.425", n), 35.0);
    }
    // NEC has no 75 °C figure for 18 AWG: the 60 °C one holds.
    assert_eq!(
        amps(allowed("NEC free air", gauge(18), 0.82, 80.0, false)),
        13.0
    );
}
