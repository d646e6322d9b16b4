//! Tungsten lamps away from their voltage (30) and cold (31): cases L01, L02, L04.

use super::bench::{in_series, source};
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use physics::lamp;
use physics::network::Law;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["L01"],
        check: re_rated,
    },
    Run {
        ids: &["L02"],
        check: half_life,
    },
    Run {
        ids: &["L04"],
        check: cold,
    },
];

fn re_rated(c: &mut Case) {
    let (rated, volts) = (c.num("Vd"), c.num("Va"));
    c.near("I_A", lamp::amps_at(rated, c.num("I_A"), volts));
    let in_network = Law::Tungsten {
        rated_volts: rated,
        rated_amps: c.num("I_A"),
    };
    c.near("I_A", in_series(&[source(volts), in_network]).amps[1]);
    c.wider(
        "light",
        lamp::light_ratio(rated, volts),
        Relative(0.011),
        "exponents from 3.4 to 3.5 are published; ours is 3.4",
    );
    let hours = c.num("life_h") * lamp::life_ratio(rated, volts);
    let (most, least) = (c.expected("life_h_at_exp12"), c.expected("life_h_at_exp16"));
    c.holds(
        &format!("{hours} h between the published exponents"),
        (least..=most).contains(&hours),
    );
}

fn half_life(c: &mut Case) {
    let ours = lamp::life_ratio(1.0, c.num("ratio"));
    let why = "life goes by −12 to −16 in the documents: ours is −13, this one says −14.2";
    c.wider("life_ratio", ours, Relative(0.07), why);
    c.wider(
        "implied_exponent",
        ours.ln() / c.num("ratio").ln(),
        Relative(0.09),
        why,
    );
}

fn cold(c: &mut Case) {
    let (volts, running) = (c.num("U"), c.num("P_W") / c.num("U"));
    let peak = lamp::inrush_amps(volts, c.num("R_cold_ohm"), 0.0);
    c.near("I_peak_A", peak);
    c.near("I_run_A", running);
    c.near("multiple", peak / running);
    let ours = lamp::inrush_amps(volts, lamp::cold_ohms(volts, running), 0.0);
    c.holds(
        &format!("our rule's {ours} A is near the measured one"),
        (ours / peak - 1.0).abs() < 0.1,
    );
}

#[test]
fn exponents_and_cold_multiples_within_the_published_ranges() {
    let table = reference!("protection/30_lamp_law.toml");
    let of = |quantity: &str| {
        let row = table
            .rows("exponent")
            .iter()
            .find(|r| r.word("quantity").starts_with(quantity));
        row.unwrap_or_else(|| panic!("no {quantity}")).nums("n")
    };
    let inside = |value: f64, span: Vec<f64>| {
        assert!((span[0]..=span[1]).contains(&value), "{value} in {span:?}")
    };
    inside(lamp::CURRENT_EXPONENT, of("current"));
    inside(lamp::LIGHT_EXPONENT, of("luminous"));
    inside(lamp::LIFE_EXPONENT, of("life"));
    let inrush = reference!("protection/31_inrush_multiples.toml");
    for row in inrush
        .rows("inrush")
        .iter()
        .filter(|r| r.word("load").starts_with("tungsten"))
    {
        inside(lamp::COLD_MULTIPLE, row.nums("multiple"));
    }
}

/// Through a harness the peak is a half to a third of that on a stiff supply.
#[test]
fn a_harness_tames_the_start() {
    let running = 55.0 / 12.0;
    let cold = lamp::cold_ohms(12.0, running);
    for loop_ohms in [0.1, 0.2] {
        let law = [
            source(12.0),
            Law::Resistor { ohms: cold },
            Law::Resistor { ohms: loop_ohms },
        ];
        let solved = in_series(&law).amps[1];
        let direct = lamp::inrush_amps(12.0, cold, loop_ohms);
        assert!((solved / direct - 1.0).abs() < 1e-9);
        let multiple = direct / running;
        assert!(
            (5.0..9.0).contains(&multiple),
            "{loop_ohms} Ω: {multiple} times"
        );
    }
}
