//! Relays: coils and contacts of a class (20), coils in the heat (23), cases R03, R04, R06.

use super::bench::{ZERO, in_series, source};
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::coil;
use physics::network::{Knobs, Law, Network, Node, solve};
use quantity::Quantity;
use stock::{ContactLoad, RelayKind, Stock};

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["R03", "R04"],
        check: with_resistor,
    },
    Run {
        ids: &["R06"],
        check: four_headlamps,
    },
];

fn relay<'a>(stock: &'a Stock, name: &str, volts: u32) -> &'a RelayKind {
    stock
        .relay(name, volts)
        .unwrap_or_else(|| panic!("stock has no {name} relay for {volts} V"))
}

/// The mini relay of stock is the sheet's: coil and resistor across it.
fn with_resistor(c: &mut Case) {
    let stock = Stock::embedded();
    let volts = c.num("U");
    let ours = relay(&stock, "mini", volts as u32);
    let across = ours.suppression_ohms.unwrap_or(f64::INFINITY);
    c.holds(
        "stock's coil is the sheet's",
        (ours.coil_ohms - c.num("R_coil_ohm")).abs() < 1e-9,
    );
    c.holds(
        "and its resistor too",
        (across - c.num("R_par_ohm")).abs() < 1e-9,
    );
    let mut network = Network::new();
    let plus = network.node();
    network.element(plus, Node::GROUND, source(volts));
    for ohms in [ours.coil_ohms, across] {
        network.element(plus, Node::GROUND, Law::Resistor { ohms });
    }
    let solved = solve(&network, &Knobs::default()).unwrap_or_else(|e| panic!("{e}"));
    let amps = solved.amps[1] + solved.amps[2];
    c.near("R_ohm", volts / amps);
    c.near("P_W", volts * amps);
}

/// Four 60 W lamps on the contact of a mini relay.
fn four_headlamps(c: &mut Case) {
    let stock = Stock::embedded();
    let volts = c.num("U");
    let lamps = c.nums("lamp_W");
    let current = |watts: &f64| {
        let lamp = Law::Tungsten {
            rated_volts: volts,
            rated_amps: watts / volts,
        };
        in_series(&[source(volts), lamp]).amps[1]
    };
    let amps: f64 = lamps.iter().map(current).sum();
    c.near("I_A", amps);
    c.same(
        "ok",
        relay(&stock, "mini", 12).make.of(ContactLoad::Lamp).si() >= amps,
    );
    c.leave("ops_min", "contact life is not worked out");
    c.leave(
        "make_peak_A_max",
        "the rating for lamps already allows for their cold start",
    );
}

#[test]
fn coils_in_the_heat() {
    let table = reference!("protection/23_relay_coil_temperature_suppression.toml");
    for row in table.rows("example") {
        let (from, to) = (ZERO + row.num("T0_C"), ZERO + row.num("T1_C"));
        near(
            "coil",
            coil::resistance_at(row.num("R0_ohm"), from, to),
            row.num("R1_ohm"),
            Absolute(0.06),
        );
        near(
            "pull-in",
            coil::pull_in_volts(row.num("V0"), from, to),
            row.num("V1"),
            Absolute(0.02),
        );
    }
    // Four per cent for ten kelvin; 52 K of its own warmth at nominal voltage.
    let ten = coil::resistance_at(1.0, ZERO + 20.0, ZERO + 30.0);
    near("rule of thumb", ten, 1.04, Absolute(0.002));
    let classes = reference!("protection/20_relay_class_data.toml");
    let rule = classes
        .rows("coil")
        .iter()
        .find(|r| r.word("class") == "general rule");
    let rise = rule.map_or(0.0, |r| r.num("coil_temperature_rise_C_at_nominal"));
    near(
        "own warmth",
        coil::warm_kelvin(300.0, 12.0, 12.0) - 300.0,
        rise,
        Absolute(1e-9),
    );
}

#[test]
fn coils_of_the_class() {
    let table = reference!("protection/20_relay_class_data.toml");
    let stock = Stock::embedded();
    for row in table
        .rows("coil")
        .iter()
        .filter(|r| r.get_at("equivalent_ohm").is_some())
    {
        let volts = if row.word("class").contains("12 V") {
            12
        } else {
            24
        };
        let inside = |key: &str, value: f64| {
            let span = row.nums(key);
            assert!(
                (span[0]..=span[1]).contains(&value),
                "{volts} V {key}: {value} in {span:?}"
            );
        };
        for name in ["mini", "micro"] {
            let ours = relay(&stock, name, volts);
            inside("R_ohm", ours.coil_ohms);
            inside("pull_in_max_V", ours.pull_in.si());
            inside("drop_out_min_V", ours.drop_out.si());
            near(
                name,
                ours.coil_most.map_or(0.0, |v| v.si()),
                row.num("max_continuous_coil_V_20C"),
                Absolute(1e-9),
            );
            near(
                name,
                ours.coil_most_hot.map_or(0.0, |v| v.si()),
                row.num("max_continuous_coil_V_85C"),
                Absolute(1e-9),
            );
        }
    }
}

/// Contacts: no class promises more than any sheet that was read.
#[test]
fn contacts_of_the_class() {
    let table = reference!("protection/20_relay_class_data.toml");
    let stock = Stock::embedded();
    for row in table.rows("contact") {
        let (text, volts) = (
            row.word("class"),
            if row.word("class").contains("24 V") {
                24
            } else {
                12
            },
        );
        let name = match text.split([',', ' ']).next() {
            Some("large") => "power",
            Some(n @ ("mini" | "micro")) => n,
            _ => continue,
        };
        let ours = relay(&stock, name, volts);
        let make = ["NO_A_13_5V", "NO_A_27V"]
            .iter()
            .find(|k| row.get_at(k).is_some())
            .map(|k| row.num(k));
        let rest = ["NC_A_13_5V", "NC_A_27V"]
            .iter()
            .find(|k| row.get_at(k).is_some())
            .map(|k| row.num(k));
        assert!(
            make.is_some_and(|a| ours.make.resistive.si() <= a),
            "{text}: make {}",
            ours.make.resistive.si()
        );
        if let (Some(published), Some(b)) = (rest, &ours.break_) {
            assert!(
                b.resistive.si() <= published,
                "{text}: break {}",
                b.resistive.si()
            );
        }
        assert!(
            ours.make.hot < ours.make.resistive && ours.make.lamp <= ours.make.resistive,
            "{text}"
        );
    }
    near(
        "mini at 85 °C",
        relay(&stock, "mini", 12).make.hot.si(),
        25.0,
        Relative(1e-9),
    );
}
