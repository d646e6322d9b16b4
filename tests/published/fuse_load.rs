//! Fuses in steady work: continuous load and heat (07), resistance (06), colours (04), breaking
//! capacity of a class (05), cases F11 to F18 and D06.

use super::bench::{heat, in_series, source};
use super::case::Case;
use super::fuse_gate::stock_gates;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::fuse_clock::{hot_resistance, opening_band};
use physics::network::Law;
use quantity::Quantity;
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

fn class<'a>(stock: &'a Stock, name: &str) -> &'a FuseKind {
    stock.fuse_kind(name).unwrap_or_else(|| panic!("stock has no {name}"))
}

fn rating<'a>(stock: &'a Stock, name: &str, amps: f64) -> &'a FuseRating {
    class(stock, name).rating(amps).unwrap_or_else(|| panic!("no {name} of {amps} A"))
}

/// The least rating that carries a current for ever in a place.
fn least_rating(kind: &FuseKind, amps: f64, celsius: f64) -> f64 {
    amps / (kind.continuous_factor * kind.ambient(celsius))
}

fn loss(c: &mut Case) {
    let stock = Stock::embedded();
    let cold = rating(&stock, "miniature blade", 7.5).cold_ohms;
    c.holds("stock's 7.5 A fuse is the record's", (cold * 1e3 - c.num("R_mohm")).abs() < 1e-9);
    c.near("P_W", heat(cold, c.num("I_A")));
}

fn overload(c: &mut Case) {
    let stock = Stock::embedded();
    c.near("overload_A", least_rating(class(&stock, "miniature blade"), c.num("I_A"), 40.0));
    c.leave("short_only_A", "a fuse that guards against shorts only is not a thing that we size");
}

fn quarter_less(c: &mut Case) {
    let stock = Stock::embedded();
    let kind = class(&stock, "medium blade");
    c.holds("the class has the factor", (kind.continuous_factor - c.num("factor")).abs() < 1e-9);
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
    c.holds("stock's ratio is the law's", (printed - ours / c.num("R_cold_mohm")).abs() < 1e-9);
}

fn melting(c: &mut Case) {
    let stock = Stock::embedded();
    let melt = rating(&stock, "miniature blade", c.num("rating_A")).melt_i2t.unwrap_or(0.0);
    c.holds("stock's I²t is the sheet's", (melt - c.num("I2t_A2s")).abs() < 1e-9);
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
    c.near("mA", in_series(&[source(c.num("mV") * 1e-3), fuse]).amps[1] * 1e3);
}

#[test]
fn allowed_currents_of_the_sheet() {
    let table = reference!("protection/07_fuse_rerating_temperature.toml");
    let stock = Stock::embedded();
    for row in table.rows("allowed_continuous") {
        let kind = class(&stock, row.word("class"));
        let ours = row.num("rating_A") * kind.continuous_factor * kind.ambient(row.num("ambient_C"));
        near(&format!("{} A at {} °C", row.num("rating_A"), row.num("ambient_C")), ours, row.num("allowed_A"), Relative(0.005));
    }
}

#[test]
fn the_curve_family_of_zinc_elements() {
    let table = reference!("protection/07_fuse_rerating_temperature.toml");
    let row = table.rows("ambient_factor").iter().find(|r| r.word("class").starts_with("blade fuse"));
    let row = row.unwrap_or_else(|| panic!("no curve family"));
    let stock = Stock::embedded();
    for point in row.rows("points_C_factor") {
        let cells: Vec<f64> = point.as_array().into_iter().flatten().filter_map(Look::number).collect();
        for name in ["medium blade", "high-current blade", "bolt-in strip M5", "bolt-in strip M8"] {
            near(name, class(&stock, name).ambient(cells[0]), cells[1], Absolute(1e-9));
        }
        // The miniature blade has a sheet of its own, which starts at 20 °C and already holds a margin.
        if (20.0..=100.0).contains(&cells[0]) {
            near("miniature blade", class(&stock, "miniature blade").ambient(cells[0]), cells[1], Absolute(0.07));
        }
    }
}

#[test]
fn resistances_read_and_remembered() {
    let table = reference!("protection/06_fuse_resistance_i2t.toml");
    let stock = Stock::embedded();
    for row in table.rows("miniature_blade") {
        let ours = rating(&stock, "miniature blade", row.num("amps"));
        near("cold", ours.cold_ohms * 1e3, row.num("R_cold_mohm"), Relative(1e-9));
        near("I²t", ours.melt_i2t.unwrap_or(0.0), row.num("I2t_A2s"), Relative(1e-9));
    }
    for row in table.rows("range_memory").iter().filter(|r| r.get_at("R_cold_mohm_lo").is_some()) {
        let names: &[&str] = match row.word("class") {
            "miniature and medium blade" => &["miniature blade", "medium blade"],
            "high-current blade" => &["high-current blade"],
            _ => &["bolt-in strip M5"],
        };
        let spread = row.nums("R_cold_mohm_lo").into_iter().zip(row.nums("R_cold_mohm_hi"));
        for (amps, (low, high)) in row.nums("amps").into_iter().zip(spread) {
            for found in names.iter().filter_map(|n| class(&stock, n).rating(amps)) {
                let ours = found.cold_ohms * 1e3;
                assert!((low..=high).contains(&ours), "{names:?} {amps} A: {ours} mΩ");
            }
        }
    }
}

#[test]
fn colours_of_blades() {
    let table = reference!("protection/04_fuse_ratings_colours.toml");
    let stock = Stock::embedded();
    let lists = [
        ("colour_medium_and_miniature", &["miniature blade", "medium blade"][..]),
        ("colour_high_current_blade", &["high-current blade"][..]),
    ];
    let mut seen = 0;
    for (key, names) in lists {
        for row in table.rows(key) {
            for found in names.iter().filter_map(|n| class(&stock, n).rating(row.num("amps"))) {
                let colour = row.word("colour");
                assert!(colour.starts_with(&found.colour), "{} A: ours {}, published {colour}", row.num("amps"), found.colour);
                seen += 1;
            }
        }
    }
    assert!(seen >= 25, "only {seen} colours were compared");
}

#[test]
fn breaking_capacity_of_the_standards() {
    let stock = Stock::embedded();
    let table = reference!("protection/05_fuse_class_limits.toml");
    let of = |text: &str| {
        let found = table.rows("class").iter().find(|r| r.word("name").contains(text));
        found.unwrap_or_else(|| panic!("no {text}")).num("breaking_capacity_A")
    };
    for name in ["miniature blade", "medium blade", "high-current blade"] {
        near(name, class(&stock, name).breaking.si(), of("8820-3:2015"), Relative(1e-9));
    }
    for name in ["bolt-in strip M5", "bolt-in strip M8"] {
        assert!(class(&stock, name).breaking.si() <= of("8820-5:2015"), "{name}");
    }
}
