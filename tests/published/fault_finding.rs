//! Readings of fault finding: FAA-H-8083-30 and service practice (62), meters (61), drops that service allows (60): cases D04,
//! D07, and what a voltmeter and an ammeter read on the farm with something amiss.

use super::bench::{in_series, source};
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use crate::walk::Walk;
use job::study::Limits;
use job::study::prove::{Bench, Suspect, meter_error};
use physics::network::Law;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["D04"],
        check: meter,
    },
    Run {
        ids: &["D07"],
        check: drops,
    },
];

fn meter(c: &mut Case) {
    let most = meter_error(
        c.num("reading"),
        c.num("pct"),
        c.num("counts"),
        c.num("resolution"),
    );
    c.near("lo", c.num("reading") - most);
    c.near("hi", c.num("reading") + most);
}

fn drops(c: &mut Case) {
    let limits = Limits::default();
    let ours =
        ["connection", "cable", "switch"].map(|of| limits.value(&format!("service drop, {of}")));
    c.each("max_V", &ours);
}

/// Meters of the table, read: what is printed of each.
#[test]
fn a_meter_is_out_as_the_pages_print() {
    let table = reference!("protection/61_meter_accuracy.toml");
    let mut tried = 0;
    for row in table.rows("example") {
        let spec = row.word("spec");
        let number = |before: &str| -> f64 {
            let (head, _) = spec.split_once(before).expect("a spec");
            head.rsplit([' ', '('])
                .next()
                .and_then(|n| n.parse().ok())
                .expect("a number")
        };
        let percent = number(" %");
        let counts = if spec.contains("count") {
            number(" count")
        } else {
            0.0
        };
        let resolution = spec.split_once('(').map_or(0.0, |(_, r)| {
            r.split([' ', ')'])
                .next()
                .and_then(|n| n.parse().ok())
                .expect("a resolution")
        });
        let most = meter_error(row.num("reading"), percent, counts, resolution);
        // Pages print to the meter's own last place.
        let place = resolution.max(1e-9) * 1.01;
        assert!(
            (row.num("reading") - most - row.num("lo")).abs() <= place,
            "{spec}"
        );
        assert!(
            (row.num("reading") + most - row.num("hi")).abs() <= place,
            "{spec}"
        );
        tried += 1;
    }
    assert!(tried >= 5, "{tried}");
}

/// Something amiss with the farm, by kind and place.
fn suspect(bench: &Bench, kind: &str, at: &str) -> Suspect {
    let cause = bench
        .causes
        .iter()
        .position(|c| c.kind == kind && c.at == at);
    Suspect::One(cause.unwrap_or_else(|| panic!("{kind} {at}")), 0)
}

fn with_farm(f: impl FnOnce(&Bench)) {
    let walk = Walk::of(include_str!("../../examples/farm.toml"));
    let bench = walk.job().bench().expect("a bench");
    f(&bench);
}

/// In the state in which a load is on alone.
fn read(bench: &Bench, amiss: Suspect, state: &str, probe: &str) -> f64 {
    let test = bench.named(&format!("{state} | {probe}"));
    bench.expected(amiss, test.unwrap_or_else(|| panic!("{state} | {probe}")))
}

const PUMP: &str = "parked, transfer pump on";
const LAMPS: &str = "parked, rack lamps on";

/// FAA, series, open component: the voltmeter across it reads the full supply voltage, across the good ones nothing, and no
/// current flows.
#[test]
fn an_open_component_has_the_whole_supply_across_it() {
    let table = reference!("protection/62_fault_finding.toml");
    assert_eq!(
        table.rows("series")[0].word("voltmeter_across_open"),
        "full supply voltage"
    );
    with_farm(|bench| {
        let open = suspect(bench, "load-dead", "M2");
        let supply = read(bench, open, PUMP, "V G1:30 G1:31");
        assert!((read(bench, open, PUMP, "V M2:+ M2:31") - supply).abs() < 0.02 * supply);
        assert!(read(bench, open, PUMP, "V G1:30 M2:+").abs() < 0.02 * supply);
        assert!(read(bench, open, PUMP, "V M2:31 G1:31").abs() < 0.01);
        assert!(read(bench, open, PUMP, "A W2.7").abs() < 1e-6);
    });
}

/// FAA, parallel, open branch: the voltmeter across it reads the branch's voltage and does not find it; the ammeter does, and
/// the total is what the others draw.
#[test]
fn an_open_branch_is_found_with_the_ammeter_and_not_with_the_voltmeter() {
    let table = reference!("protection/62_fault_finding.toml");
    let row = &table.rows("parallel")[0];
    assert_eq!(row.num("one_open_I_total"), 2.0 * row.num("I_branch"));
    with_farm(|bench| {
        let open = suspect(bench, "load-dead", "E1.1");
        let volts = bench
            .named(&format!("{LAMPS} | V E1.1:+ E1.1:31"))
            .expect("a test");
        assert_eq!(
            bench
                .band(volts)
                .verdict(bench.expected(open, volts))
                .word(),
            "sound"
        );
        let amps = bench.named(&format!("{LAMPS} | A W1.8")).expect("a test");
        assert_eq!(
            bench.band(amps).verdict(bench.expected(open, amps)).word(),
            "too low"
        );
        let total = |amiss| read(bench, amiss, LAMPS, "A W1.1");
        let coil = read(bench, open, LAMPS, "A W1.1") - read(bench, open, LAMPS, "A W1.9");
        let (sound, one) = (total(Suspect::Nothing) - coil, total(open) - coil);
        // One of two equal branches: a half, the other a little brighter for the drop that is gone.
        assert!((one / sound - 0.5).abs() < 0.02, "{one} of {sound}");
    });
}

/// Service practice, read and derived: an open way does not make every point read nothing; a fuse that is open has the supply
/// across it and nothing behind.
#[test]
fn before_an_open_contact_there_is_voltage_and_behind_it_none() {
    with_farm(|bench| {
        let stuck = suspect(bench, "relay-stuck", "K2");
        let supply = read(bench, stuck, PUMP, "V G1:30 G1:31");
        assert!(read(bench, stuck, PUMP, "V K2:30 G1:31") > 0.98 * supply);
        assert!(read(bench, stuck, PUMP, "V K2:87 G1:31").abs() < 0.01);
        let fuse = suspect(bench, "fuse-open", "F2");
        assert!(read(bench, fuse, PUMP, "V F2:1 F2:2") > 0.98 * supply);
        assert!(read(bench, fuse, PUMP, "V F2:2 G1:31").abs() < 0.01);
    });
}

/// Derived in the table: a joint of 0.5 Ω before a lamp of 2.6 Ω on 12.0 V takes 1.94 V of it.
#[test]
fn a_joint_that_resists_takes_its_share() {
    let solved = in_series(&[
        source(12.0),
        Law::Resistor { ohms: 0.5 },
        Law::Resistor { ohms: 2.6 },
    ]);
    let amps = solved.amps[1];
    assert!(
        (amps - 3.87).abs() < 0.005
            && (amps * 0.5 - 1.94).abs() < 0.005
            && (amps * 2.6 - 10.06).abs() < 0.01,
        "{amps}"
    );
}
