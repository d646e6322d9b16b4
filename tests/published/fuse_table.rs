//! Tables of fuses against stock's rows: allowed currents and heat (07), resistance (06), colours
//! (04), breaking capacity of a class (05).

use super::fuse_load::{class, rating};
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use quantity::Quantity;
use stock::Stock;

#[test]
fn allowed_currents_of_the_sheet() {
    let table = reference!("protection/07_fuse_rerating_temperature.toml");
    let stock = Stock::embedded();
    for row in table.rows("allowed_continuous") {
        let kind = class(&stock, row.word("class"));
        let ours =
            row.num("rating_A") * kind.continuous_factor * kind.ambient(row.num("ambient_C"));
        near(
            &format!("{} A at {} °C", row.num("rating_A"), row.num("ambient_C")),
            ours,
            row.num("allowed_A"),
            Relative(0.005),
        );
    }
}

#[test]
fn the_curve_family_of_zinc_elements() {
    let table = reference!("protection/07_fuse_rerating_temperature.toml");
    let row = table
        .rows("ambient_factor")
        .iter()
        .find(|r| r.word("class").starts_with("blade fuse"));
    let row = row.unwrap_or_else(|| panic!("no curve family"));
    let stock = Stock::embedded();
    for point in row.rows("points_C_factor") {
        let cells: Vec<f64> = point
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(Look::number)
            .collect();
        for name in [
            "medium blade",
            "high-current blade",
            "bolt-in strip M5",
            "bolt-in strip M8",
        ] {
            near(
                name,
                class(&stock, name).ambient(cells[0]),
                cells[1],
                Absolute(1e-9),
            );
        }
        // The miniature blade has a sheet of its own, which starts at 20 °C and already holds a margin.
        if (20.0..=100.0).contains(&cells[0]) {
            near(
                "miniature blade",
                class(&stock, "miniature blade").ambient(cells[0]),
                cells[1],
                Absolute(0.07),
            );
        }
    }
}

#[test]
fn resistances_read_and_remembered() {
    let table = reference!("protection/06_fuse_resistance_i2t.toml");
    let stock = Stock::embedded();
    for row in table.rows("miniature_blade") {
        let ours = rating(&stock, "miniature blade", row.num("amps"));
        near(
            "cold",
            ours.cold_ohms * 1e3,
            row.num("R_cold_mohm"),
            Relative(1e-9),
        );
        near(
            "I²t",
            ours.melt_i2t.unwrap_or(0.0),
            row.num("I2t_A2s"),
            Relative(1e-9),
        );
    }
    for row in table
        .rows("range_memory")
        .iter()
        .filter(|r| r.get_at("R_cold_mohm_lo").is_some())
    {
        let names: &[&str] = match row.word("class") {
            "miniature and medium blade" => &["miniature blade", "medium blade"],
            "high-current blade" => &["high-current blade"],
            _ => &["bolt-in strip M5"],
        };
        let spread = row
            .nums("R_cold_mohm_lo")
            .into_iter()
            .zip(row.nums("R_cold_mohm_hi"));
        for (amps, (low, high)) in row.nums("amps").into_iter().zip(spread) {
            for found in names.iter().filter_map(|n| class(&stock, n).rating(amps)) {
                let ours = found.cold_ohms * 1e3;
                assert!(
                    (low..=high).contains(&ours),
                    "{names:?} {amps} A: {ours} mΩ"
                );
            }
        }
    }
}

#[test]
fn colours_of_blades() {
    let table = reference!("protection/04_fuse_ratings_colours.toml");
    let stock = Stock::embedded();
    let lists = [
        (
            "colour_medium_and_miniature",
            &["miniature blade", "medium blade"][..],
        ),
        ("colour_high_current_blade", &["high-current blade"][..]),
    ];
    let mut seen = 0;
    for (key, names) in lists {
        for row in table.rows(key) {
            for found in names
                .iter()
                .filter_map(|n| class(&stock, n).rating(row.num("amps")))
            {
                let colour = row.word("colour");
                assert!(
                    colour.starts_with(&found.colour),
                    "{} A: ours {}, published {colour}",
                    row.num("amps"),
                    found.colour
                );
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
        let found = table
            .rows("class")
            .iter()
            .find(|r| r.word("name").contains(text));
        found
            .unwrap_or_else(|| panic!("no {text}"))
            .num("breaking_capacity_A")
    };
    for name in ["miniature blade", "medium blade", "high-current blade"] {
        near(
            name,
            class(&stock, name).breaking.si(),
            of("8820-3:2015"),
            Relative(1e-9),
        );
    }
    for name in ["bolt-in strip M5", "bolt-in strip M8"] {
        assert!(
            class(&stock, name).breaking.si() <= of("8820-5:2015"),
            "{name}"
        );
    }
}
