//! Fuses, relays, switches and hardware: what the rows say and what the questions find.

use super::*;

#[test]
fn fuse_edges_keep_the_worse_of_what_was_read_and_remembered() {
    let stock = Stock::embedded();
    for kind in &stock.fuses {
        assert!(
            kind.gates.is_sorted_by(|a, b| a.min_s >= b.min_s),
            "{}",
            kind.name
        );
        let latest: Vec<f64> = kind.gates.iter().filter_map(|g| g.max_s).collect();
        assert!(latest.is_sorted_by(|a, b| a >= b), "{}", kind.name);
        assert!(
            kind.gates
                .iter()
                .all(|g| g.max_s.is_none_or(|m| m > g.min_s)),
            "{}",
            kind.name
        );
        assert!(kind.least_promised().unwrap() >= 1.35, "{}", kind.name);
        assert!(
            kind.ratings.is_sorted_by(|a, b| a.cold_ohms > b.cold_ohms),
            "{}",
            kind.name
        );
    }
    let mini = stock.fuse_kind("miniature blade").unwrap();
    let at = |m: f64| mini.gates.iter().find(|g| g.multiple == m).unwrap();
    assert_eq!((at(1.35).min_s, at(1.35).max_s), (0.75, Some(1800.0)));
    assert_eq!(
        (at(2.0).min_s, at(2.0).max_s, at(2.0).origin.basis),
        (0.15, Some(5.0), Basis::Read)
    );
    assert_eq!((at(3.5).min_s, at(3.5).max_s), (0.04, Some(0.5)));
    assert_eq!((at(6.0).min_s, at(6.0).max_s), (0.02, Some(0.1)));
    let fifteen = mini.rating(15.0).unwrap();
    assert_eq!(
        (fifteen.colour.as_str(), fifteen.resistance_origin.basis),
        ("blue", Basis::Read)
    );
    assert_eq!(
        mini.rating(10.0).unwrap().resistance_origin.basis,
        Basis::Memory
    );
}

#[test]
fn miniature_blades_give_back_the_published_allowed_currents() {
    let stock = Stock::embedded();
    let mini = stock.fuse_kind("miniature blade").unwrap();
    // Makers' allowed-current table, read: (rating, °C, A). It already holds the 20 % margin.
    for (rating, c, published) in [
        (5.0, 40.0, 4.0),
        (7.5, 40.0, 6.0),
        (7.5, 60.0, 5.5),
        (7.5, 80.0, 5.1),
        (15.0, 20.0, 13.0),
        (15.0, 100.0, 9.0),
    ] {
        let allowed = rating * mini.continuous_factor * mini.ambient(c);
        assert!(
            (allowed - published).abs() < 0.01,
            "{rating} A at {c} °C: {allowed}"
        );
    }
    assert_eq!(mini.ambient(-20.0), mini.ambient(20.0));
    assert!((mini.ambient(120.0) - 0.65).abs() < 1e-9);
    assert_eq!(mini.ambient(400.0), 0.0);
}

#[test]
fn relays_and_switches_by_name_and_voltage() {
    let stock = Stock::embedded();
    for name in ["micro", "mini", "power"] {
        let (at12, at24) = (
            stock.relay(name, 12).unwrap(),
            stock.relay(name, 24).unwrap(),
        );
        assert!(at24.make.resistive < at12.make.resistive && at24.pull_in > at12.pull_in);
    }
    let mini = stock.relay("mini", 12).unwrap();
    let parallel = 1.0 / (1.0 / mini.coil_ohms + 1.0 / mini.suppression_ohms.unwrap());
    assert!(
        (parallel - 71.6).abs() < 0.05,
        "published 71.6 Ω with its resistor: {parallel}"
    );
    assert_eq!(mini.make.of(ContactLoad::Lamp), amperes(20.0));
    assert!(mini.break_.as_ref().unwrap().resistive < mini.make.resistive);
    assert_eq!(stock.derating(12, ContactLoad::Lamp).unwrap().factor, 5.0);
    assert_eq!(stock.derating(24, ContactLoad::Motor).unwrap().factor, 3.0);
    assert!(stock.switch_for("rocker", 2, 12, 15.0).is_some());
    assert!(stock.switch_for("rocker", 2, 12, 50.0).is_none());
    assert!(stock.joint("earth ring on body").is_some() && stock.joint("mated sealed").is_some());
}

#[test]
fn hardware_fits_what_it_says() {
    let stock = Stock::embedded();
    let red = stock
        .terminal_for("ring", mm2(1.0), Onto::Stud("M6"), false)
        .unwrap();
    assert_eq!((red.colour.as_deref(), red.sealed), (Some("red"), false));
    assert!(
        stock
            .terminal_for("ring", mm2(1.0), Onto::Stud("M6"), true)
            .unwrap()
            .sealed
    );
    assert_eq!(
        stock.terminal_for("ring", mm2(1.0), Onto::Stud("M7"), false),
        None
    );
    // Every wire finds a ring and a butt; every one up to 6 mm² a 6.3 mm tab if it is 0.5 mm² or more.
    for c in &stock.conductors {
        let ring = ["M4", "M5", "M6", "M8", "M10", "M12"].iter().any(|s| {
            stock
                .terminal_for("ring", c.area, Onto::Stud(s), false)
                .is_some()
        });
        assert!(ring, "no ring for {}", c.id);
        assert!(
            stock
                .terminal_for("butt", c.area, Onto::Wire, false)
                .is_some(),
            "no butt for {}",
            c.id
        );
        if (0.5..=6.0).contains(&in_mm2(c.area)) {
            assert!(
                stock
                    .terminal_for("tab", c.area, Onto::Tab(6.3), false)
                    .is_some(),
                "no tab for {}",
                c.id
            );
        }
    }
    let sleeve = stock.sleeve_for("convolute", millimetres(9.0)).unwrap();
    assert!(sleeve.bore.si() >= 1.25 * 9.0e-3 - 1e-9 && sleeve.bore.si() < 13e-3);
    let shrink = stock
        .sleeve_for("adhesive shrink", millimetres(4.0))
        .unwrap();
    assert!(shrink.bore.si() > 4.4e-3 - 1e-9 && shrink.recovered.unwrap().si() < 3.6e-3 + 1e-9);
    assert_eq!(
        shrink.outside_on(millimetres(4.0)),
        millimetres(4.0) + shrink.wall + shrink.wall
    );
    let hole = stock
        .grommet_for(millimetres(9.0), millimetres(1.2))
        .unwrap();
    assert_eq!(
        (hole.bore, hole.hole),
        (millimetres(10.0), millimetres(13.0))
    );
    assert_eq!(stock.grommet_for(millimetres(9.0), millimetres(18.0)), None);
    let found = stock.connectors_for(2, mm2(2.5), millimetres(3.0), true);
    assert_eq!(
        found.first().map(|c| c.name.as_str()),
        Some("sealed, round contacts size 16")
    );
    assert!(found.iter().any(|c| c.name == "sealed, 2.8 mm contacts"));
}
