//! A fuse against its wire and its place: 33 CFR 183.455 (P01, P02, P04, P05), and why every gate
//! counts, not only the dead short (P09). Where a plan can say it, the whole program is asked.

use super::adiabatic::k;
use super::ampacity::{allowed, table};
use super::case::Case;
use super::fuse_gate::stock_gates;
use super::ledger::Run;
use crate::walk::Walk;
use physics::adiabatic::{COPPER, withstand};
use physics::fuse_clock::opening_band;
use stock::Stock;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["P01", "P02"],
        check: half_as_much_again,
    },
    Run {
        ids: &["P04"],
        check: seven_inches,
    },
    Run {
        ids: &["P05"],
        check: forty_inches,
    },
    Run {
        ids: &["P09"],
        check: every_multiple,
    },
];

fn half_as_much_again(c: &mut Case) {
    let stock = Stock::embedded();
    let law = table(&stock, "33 CFR 183.425");
    let amps = allowed(law, c.word("awg"), c.num("insulation_C"), false, 1).unwrap_or(0.0);
    c.near("ampacity_A", amps);
    c.near("fuse_max_A", amps * law.fuse_max_fraction);
}

/// Whether a plan whose main fuse stands so far from the battery passes.
fn fuse_passes(millimetres: f64, sheathed: bool) -> bool {
    let plan = format!(
        "{}\n[[box]]\nname = \"box\"\nplace = \"tray\"\nways = 2\nfeed = \"battery\"\nspare = \"5 A\"\n\
         fuse = {{ within = \"{millimetres} mm\", sheathed = {sheathed} }}\n{}",
        include_str!("plans/vehicle.toml"),
        include_str!("plans/lamp.toml"),
    );
    !Walk::of(&plan).finds("fuse-far")
}

fn seven_inches(c: &mut Case) {
    c.same("pass_33cfr", fuse_passes(c.num("unfused_mm"), false));
    c.near(
        "limit_mm",
        study::Limits::default().value("fuse distance") * 1e3,
    );
    c.holds("177 mm passes", fuse_passes(177.0, false));
}

fn forty_inches(c: &mut Case) {
    c.same("pass_33cfr", fuse_passes(c.num("unfused_mm"), true));
    c.near(
        "limit_33cfr_mm",
        study::Limits::default().value("fuse distance sheathed") * 1e3,
    );
    c.holds("1017 mm does not pass", !fuse_passes(1017.0, true));
    c.leave(
        "limit_abyc_mm",
        "the longer limit of boat practice at a battery's own post is not a rule of ours",
    );
}

/// A 15 A blade on 0.5 mm²: quick enough at a dead short, too slow at twice its rating.
fn every_multiple(c: &mut Case) {
    let stock = Stock::embedded();
    let gates = stock_gates(&stock, "miniature blade").unwrap_or_default();
    let bears = withstand(c.num("k") * 1e6, c.num("mm2") * 1e-6);
    c.near("wire_I2t", bears);
    c.holds(
        "the case's k is PVC's from 70 to 160 °C",
        (k(&COPPER, 70.0, 160.0) - c.num("k")).abs() < 0.5,
    );
    let holds =
        |multiple: f64| (multiple * 15.0).powi(2) * opening_band(&gates, multiple).1 <= bears;
    c.same("ok_600pct", holds(6.0));
    c.same("ok_350pct", holds(3.5));
    c.same("ok_200pct_adiabatic", holds(2.0));
    let refused = |size: &str| Walk::of(&fifteen_amps_on(size)).finds("fuse-above-wire");
    c.holds("the program refuses it", refused("0.5 mm²"));
    c.holds("and takes it on 4 mm²", !refused("4 mm²"));
}

/// A plan with a 15 A miniature blade before one wire of this size, in a cool place.
fn fifteen_amps_on(size: &str) -> String {
    format!(
        "{}\n[[box]]\nname = \"box\"\nplace = \"tray\"\nways = 2\nfeed = \"battery\"\nspare = \"5 A\"\n{}\n\
         [wire.\"W1.1\"]\nsize = \"{size}\"\n",
        include_str!("plans/vehicle.toml"),
        include_str!("plans/lamp.toml").replace(
            "box = \"box\"",
            "box = \"box\"\nfuse = { rating = \"15 A\", kind = \"miniature blade\" }"
        ),
    )
}
