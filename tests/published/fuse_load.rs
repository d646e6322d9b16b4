//! Fuses in steady work: loss, rating by load, resistance, melting: cases F11 to F18 and D06.

use super::bench::{heat, in_series, source};
use super::case::Case;
use super::fuse_gate::stock_gates;
use super::ledger::Run;
use physics::fuse_clock::{hot_resistance, opening_band};
use physics::network::Law;
use stock::{FuseKind, FuseRating, Stock};

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["F11"],
        check: loss,
    },
    Run {
        ids: &["F14"],
        check: overload,
    },
    Run {
        ids: &["F15"],
        check: quarter_less,
    },
    Run {
        ids: &["F16"],
        check: cold,
    },
    Run {
        ids: &["F17"],
        check: hot,
    },
    Run {
        ids: &["F18"],
        check: melting,
    },
    Run {
        ids: &["D06"],
        check: drain,
    },
];

pub(crate) fn class<'a>(stock: &'a Stock, name: &str) -> &'a FuseKind {
    stock
        .fuse_kind(name)
        .unwrap_or_else(|| panic!("stock has no {name}"))
}

pub(crate) fn rating<'a>(stock: &'a Stock, name: &str, amps: f64) -> &'a FuseRating {
    class(stock, name)
        .rating(amps)
        .unwrap_or_else(|| panic!("no {name} of {amps} A"))
}

/// The least rating that carries a current for ever in a place.
fn least_rating(kind: &FuseKind, amps: f64, celsius: f64) -> f64 {
    amps / (kind.continuous_factor * kind.ambient(celsius))
}

fn loss(c: &mut Case) {
    let stock = Stock::embedded();
    let cold = rating(&stock, "miniature blade", 7.5).cold_ohms;
    c.holds(
        "stock's 7.5 A fuse is the record's",
        (cold * 1e3 - c.num("R_mohm")).abs() < 1e-9,
    );
    c.near("P_W", heat(cold, c.num("I_A")));
}

fn overload(c: &mut Case) {
    let stock = Stock::embedded();
    c.near(
        "overload_A",
        least_rating(class(&stock, "miniature blade"), c.num("I_A"), 40.0),
    );
    c.leave(
        "short_only_A",
        "a fuse that guards against shorts only is not a thing that we size",
    );
}

fn quarter_less(c: &mut Case) {
    let stock = Stock::embedded();
    let kind = class(&stock, "medium blade");
    c.holds(
        "the class has the factor",
        (kind.continuous_factor - c.num("factor")).abs() < 1e-9,
    );
    c.near("rating_A", least_rating(kind, c.num("I_A"), 25.0));
}

fn cold(c: &mut Case) {
    let stock = Stock::embedded();
    let ours = rating(&stock, c.word("class"), c.num("rating_A")).cold_ohms * 1e3;
    c.near("R_mohm_chart", ours);
    c.near("R_mohm_sheet", ours);
}

fn hot(c: &mut Case) {
    let ours = hot_resistance(c.num("R_cold_mohm"), 1.0);
    c.near("R_hot_mohm", ours);
    c.near("ratio", ours / c.num("R_cold_mohm"));
    let stock = Stock::embedded();
    let printed = class(&stock, "miniature blade").hot_ratio;
    c.holds(
        "stock's ratio is the law's",
        (printed - ours / c.num("R_cold_mohm")).abs() < 1e-9,
    );
}

fn melting(c: &mut Case) {
    let stock = Stock::embedded();
    let melt = rating(&stock, "miniature blade", c.num("rating_A"))
        .melt_i2t
        .unwrap_or(0.0);
    c.holds(
        "stock's I²t is the sheet's",
        (melt - c.num("I2t_A2s")).abs() < 1e-9,
    );
    let seconds = melt / c.num("fault_A").powi(2);
    c.near("t_s", seconds);
    let (min, max) = (c.expected("inside_min_s"), c.expected("inside_max_s"));
    c.holds("inside the printed gate", (min..=max).contains(&seconds));
    let gates = stock_gates(&stock, "miniature blade").unwrap_or_default();
    let (may, must) = opening_band(&gates, c.num("fault_A") / c.num("rating_A"));
    c.holds("inside our band", (may..=must).contains(&seconds));
}

/// A millivolt over a 10 A fuse: how much current is that?
fn drain(c: &mut Case) {
    let stock = Stock::embedded();
    let fuse = Law::Resistor {
        ohms: rating(&stock, "medium blade", 10.0).cold_ohms,
    };
    c.near(
        "mA",
        in_series(&[source(c.num("mV") * 1e-3), fuse]).amps[1] * 1e3,
    );
}
