//! Batteries in the cold and standing (43).

use super::bench::ZERO;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::battery::Chemistry::{self, Agm, Flooded, LithiumIron};
use physics::battery::{capacity_factor, cranking_factor, internal_ohms};
use physics::charging::self_discharge_per_day;

#[test]
fn capacity_and_cranking_by_temperature() {
    let table = reference!("protection/43_battery_temperature.toml");
    let compare = |key: &str, factor: fn(f64) -> f64| {
        let row = &table.rows(key)[0];
        for (celsius, percent) in row.nums("temp_C").into_iter().zip(row.nums("pct")) {
            let ours = factor(ZERO + celsius) * 100.0;
            near(key, ours, percent, Relative(1e-9));
        }
    };
    compare("capacity", capacity_factor);
    compare("cranking_output", cranking_factor);
}

/// Half the cranking current at −28.8 °C: twice the resistance.
#[test]
fn resistance_below_the_rating_goes_by_cranking_output() {
    let table = reference!("protection/43_battery_temperature.toml");
    let rows = &table.rows("cranking_output")[0];
    let (celsius, percent) = (rows.nums("temp_C"), rows.nums("pct"));
    let ohms = |at: usize| internal_ohms(Flooded, 600.0, 12.65, 1.0, ZERO + celsius[at]);
    // The rating is taken at −18 °C, 0.2 K below the row, and both lines are left there.
    near(
        "colder",
        ohms(3) / ohms(2),
        percent[2] / percent[3],
        Relative(0.01),
    );
    // Between −17.8 and 26.7 °C the output says 2.5, common practice says that resistance halves.
    near(
        "warmer",
        ohms(2) / ohms(0),
        percent[0] / percent[2],
        Relative(0.21),
    );
}

#[test]
fn standing_loses_the_upper_figures() {
    let table = reference!("protection/43_battery_temperature.toml");
    let published = table.at("self_discharge");
    let of: [(&str, Chemistry); 3] = [
        ("flooded_pct_per_month", Flooded),
        ("agm_pct_per_month", Agm),
        ("lfp_pct_per_month", LithiumIron),
    ];
    for (key, chemistry) in of {
        let ours = self_discharge_per_day(chemistry) * 30.0 * 100.0;
        near(key, ours, published.nums(key)[1], Absolute(1e-9));
    }
}
