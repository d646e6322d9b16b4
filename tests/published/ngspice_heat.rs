//! Two wires in a row and a fuse behind a stiff supply, warming: the same chain of resistors and capacitors for heat,
//! with resistances that rise, run by ngspice. Temperatures and current within 1 % of their change.

use super::ngspice::run_deck;
use physics::conductor::{COPPER_ALPHA, T0, T20};
use physics::warming::Beside;
use physics::warming::run::Care;
use physics::warming::{Currents, Piece, Run, Section, Warmed, alone, laid};
use physics::wire_heat::WireBody;
use std::fmt::Write;
use std::ops::ControlFlow;

const VOLTS: f64 = 12.6;
const OHMS: f64 = 0.06;
const AMBIENT: f64 = T0 + 60.0;
const TIMES: [f64; 7] = [0.1, 0.3, 1.0, 3.0, 10.0, 30.0, 100.0];

fn wire(mm2: f64, d: f64, over: f64, milliohm: f64) -> Warmed {
    Warmed {
        body: WireBody {
            conductor_d: d * 1e-3,
            outside_d: over * 1e-3,
            k_insulation: 0.17,
            emissivity: 0.9,
        },
        copper_m2: mm2 * 1e-6,
        insulation_j_m3k: 1.7e6,
        r20_per_m: milliohm * 1e-3,
    }
}

/// All in a row behind the supply.
struct Row;

impl Currents for Row {
    fn amps(&self, ohms: &[f64], amps: &mut [f64]) {
        amps.fill(VOLTS / (OHMS + ohms.iter().sum::<f64>()));
    }
}

/// The chain of a section, its nodes called `name` and a number: a volt is a kelvin above ambient, an ampere a watt
/// per metre. What the surface sheds is a table of points, straight between them.
fn chain(deck: &mut String, name: &str, section: &Section, r20: f64) {
    for (i, capacity) in section.capacity.iter().enumerate() {
        let _ = writeln!(deck, "c{name}{i} {name}{i} 0 {capacity:.9e} ic=0");
    }
    for (i, link) in section.link.iter().enumerate() {
        let _ = writeln!(
            deck,
            "r{name}{i} {name}{i} {name}{} {:.9e}",
            i + 1,
            1.0 / link
        );
    }
    for (i, given) in section.given.iter().enumerate().filter(|(_, g)| **g > 0.0) {
        let _ = writeln!(deck, "i{name}{i} 0 {name}{i} {given:.9e}");
    }
    let warm = 1.0 + COPPER_ALPHA * (AMBIENT - T20);
    let _ = writeln!(
        deck,
        "b{name}h 0 {name}0 i=i(vs)*i(vs)*{r20:.9e}*({warm:.9e}+{COPPER_ALPHA}*v({name}0))"
    );
    let last = section.shells() - 1;
    let mut points = String::from("-10,0,0,0");
    for k in 1..200 {
        let _ = write!(
            points,
            ",{},{:.9e}",
            k * 2,
            section.shed(AMBIENT + f64::from(k) * 2.0)
        );
    }
    let _ = writeln!(
        deck,
        "b{name}s {name}{last} 0 i=pwl(v({name}{last}),{points})"
    );
}

#[test]
fn two_wires_in_a_row_within_1_percent_of_ngspice() {
    let (thin, thick) = (wire(1.0, 1.35, 2.1, 18.5), wire(2.5, 2.2, 3.0, 7.6));
    let beside = vec![
        Beside {
            wire: thin,
            watts_per_m: 1.0,
            runs: None,
        };
        6
    ];
    let sections = [alone(&thin, AMBIENT), laid(&thick, &beside, None, AMBIENT)];
    let lengths = [2.0, 5.0];
    let of = [&thin, &thick];
    let mut deck = String::from("two wires that warm\n");
    let _ = writeln!(deck, "vs top 0 dc {VOLTS}\nrs top a {OHMS}");
    let warm = 1.0 + COPPER_ALPHA * (AMBIENT - T20);
    for (i, (from, to)) in [("a", "b"), ("b", "0")].into_iter().enumerate() {
        let r = lengths[i] * of[i].r20_per_m;
        let _ = writeln!(
            deck,
            "bw{i} {from} {to} i=v({from},{to})/({r:.9e}*({warm:.9e}+{COPPER_ALPHA}*v(w{i}n0)))"
        );
        chain(&mut deck, &format!("w{i}n"), &sections[i], of[i].r20_per_m);
    }
    deck += ".options reltol=1e-5\n.control\ntran 0.01 100 0 0.02 uic\n";
    for (m, t) in TIMES.iter().enumerate() {
        let _ = writeln!(
            deck,
            "meas tran p{m} find v(w0n0) at={t}\nmeas tran q{m} find v(w1n0) at={t}\nmeas tran i{m} find i(vs) at={t}"
        );
    }
    deck += "quit\n.endc\n.end\n";
    let theirs = run_deck("heat", &deck);
    let run = Run {
        pieces: (0..2)
            .map(|i| Piece {
                sections: vec![(sections[i].clone(), lengths[i])],
                r20_per_m: of[i].r20_per_m,
                joints_ohms: 0.0,
                damage_k: 1e6,
            })
            .collect(),
        clocks: Vec::new(),
    };
    let mut values = run.start(&vec![AMBIENT; run.heat_size()]);
    let second = sections[0].shells();
    let mut from = 0.0;
    let cold = VOLTS / (OHMS + warm * (lengths[0] * thin.r20_per_m + lengths[1] * thick.r20_per_m));
    for (m, to) in TIMES.into_iter().enumerate() {
        let care = Care {
            kelvin: 0.005,
            clock: 1e-3,
        };
        let mut amps = 0.0;
        run.go(&Row, &mut values, (to - from, care), &mut |s| {
            amps = s.amps[0];
            ControlFlow::Continue(())
        });
        from = to;
        let measured = |name: String| {
            theirs
                .get(&name)
                .copied()
                .unwrap_or_else(|| panic!("no {name}"))
        };
        let pairs = [
            ("thin", values[0] - AMBIENT, measured(format!("p{m}"))),
            ("thick", values[second] - AMBIENT, measured(format!("q{m}"))),
            (
                "fall of current",
                cold - amps,
                cold + measured(format!("i{m}")),
            ),
        ];
        for (what, ours, theirs) in pairs {
            println!("{to} s, {what}: {ours:.4} {theirs:.4}");
            assert!(
                (ours / theirs - 1.0).abs() < 0.01,
                "{to} s, {what}: {ours} {theirs}"
            );
        }
    }
}
