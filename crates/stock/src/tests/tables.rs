//! The embedded tables: that they read, that each row has its origin, that wires are wires.

use super::*;

#[test]
fn the_embedded_tables_read_without_a_fault() {
    let (_, found) = Stock::read_embedded();
    assert_eq!(found, []);
}

#[test]
fn a_row_of_ours_without_source_and_basis_is_refused() {
    for text in [
        "[[joint]]\nname = \"x\"\nmohm = 1\nlife_factor = 2\nsource = \"y\"\n",
        "[[joint]]\nname = \"x\"\nmohm = 1\nlife_factor = 2\nbasis = \"read\"\n",
    ] {
        let mut stock = Stock::default();
        let found = stock.lay_over(text, None);
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].id, "missing-key");
        assert!(stock.joints.is_empty());
    }
}

#[test]
fn every_row_listed_ends_with_basis_and_source() {
    let stock = Stock::embedded();
    for what in WHATS {
        let listing = list(&stock, what).unwrap();
        assert!(!listing.rows.is_empty(), "{what}");
        for row in &listing.rows {
            assert_eq!(row.len(), listing.columns.len(), "{row:?}");
            assert!(!row[row.len() - 1].is_empty(), "{row:?}");
            let basis = &row[row.len() - 2];
            assert!(
                Basis::WORDS
                    .iter()
                    .any(|(w, b)| w == basis && *b != Basis::User),
                "{row:?}"
            );
        }
    }
    assert_eq!(list(&stock, "wires"), None);
}

#[test]
fn wires_are_unique_rise_in_area_and_resist_as_copper_does() {
    let stock = Stock::embedded();
    let mut ids: Vec<_> = stock.conductors.iter().map(|c| &c.id).collect();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), stock.conductors.len());
    for pair in stock.conductors.windows(2) {
        assert!(pair[0].family < pair[1].family || pair[0].area <= pair[1].area);
    }
    for c in &stock.conductors {
        let ohm_mm2_per_km = c.ohm_per_m_20 * in_mm2(c.area) * 1e3;
        assert!(
            (17.6..19.8).contains(&ohm_mm2_per_km),
            "{}: {ohm_mm2_per_km}",
            c.id
        );
        let solid = (4.0 * c.area.si() / std::f64::consts::PI).sqrt();
        assert!(
            (1.05..1.5).contains(&(c.conductor_d.si() / solid)),
            "{}",
            c.id
        );
        let wall = (c.outside_d.si() - c.conductor_d.si()) / 2e-3;
        assert!((0.15..2.1).contains(&wall), "{}: {wall} mm", c.id);
        assert!(stock.insulation(&c.insulation).is_some(), "{}", c.id);
    }
    let thin = stock.conductors_of(Family::Metric, "PVC", "thin");
    assert_eq!(thin.first().unwrap().id, "0.35 mm² thin-wall PVC");
    assert_eq!(thin.last().unwrap().id, "120 mm² thin-wall PVC");
    assert_eq!(
        stock.conductors_of(Family::Sae, "PVC 80", "thick").len(),
        15
    );
    assert_eq!(
        stock.conductors_of(Family::Boat, "boat PVC", "thick").len(),
        14
    );
    assert!(stock.conductor("12 AWG boat cable").is_some());
}
