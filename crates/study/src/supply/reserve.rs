//! What must be left in the battery: enough to hold the starter, by its own resistance at this temperature;
//! and no less than service practice and wear ask.

use super::answers::{Reserve, ReserveRule};
use super::battery::Store;
use crate::design::Design;
use crate::supply_side::battery_at;
use finding::Basis;
use loom::Assumption;
use physics::battery;
use plan::Chemistry;
use quantity::{Quantity, figures};

/// On whose word the starter needs its voltage.
const FLOOR: &str =
    "makers' load-test tables: 9.6 V at 21 °C down to 8.5 V at −18 °C for 12 V (from memory)";

/// Finds it, at the battery temperature that the store was made for.
pub(super) fn find(d: &Design, store: &Store, heard: &mut Vec<Assumption>) -> Reserve {
    let starter = d.supply.starter;
    let cranking = |charge: f64| {
        let (volts, ohms) = battery_at(d, charge, store.kelvin);
        volts - starter * ohms
    };
    let told = |charge: f64, rule, source: String| Reserve {
        charge,
        rule,
        cranking_volts: (starter > 0.0).then(|| cranking(charge)),
        source,
    };
    if let Some(said) = d.loom.supply.battery.cranks {
        return told(said.si(), ReserveRule::Said, "the plan's cranks_at".into());
    }
    let lithium = d.loom.supply.battery.chemistry == Chemistry::LithiumIron;
    let (name, rule) = match (starter > 0.0, lithium) {
        (true, false) => ("charge that cranks", ReserveRule::Practice),
        (false, false) => ("least charge of lead", ReserveRule::Wear),
        (_, true) => ("least charge of lithium", ReserveRule::Wear),
    };
    let row = d.limits.row(name);
    heard.push(assumed(
        "least charge to be left, whatever the starter needs",
        format!("{} %", figures(row.value * 100.0, 3)),
        (&row.source, row.basis),
    ));
    let needed = battery::load_test_volts(store.kelvin) * d.nominal() / 12.0;
    if starter <= 0.0 || cranking(row.value) >= needed {
        return told(row.value, rule, row.cite());
    }
    heard.push(assumed(
        "least voltage at the posts while the starter turns",
        format!("{} V", figures(needed, 3)),
        (FLOOR, Basis::Memory),
    ));
    let more = (0..=100).map(|p| f64::from(p) / 100.0);
    let enough = more
        .filter(|c| *c > row.value)
        .find(|c| cranking(*c) >= needed);
    match enough {
        Some(charge) => told(charge, ReserveRule::Starter, FLOOR.into()),
        None => told(1.0, ReserveRule::Never, FLOOR.into()),
    }
}

fn assumed(what: &str, value: String, (source, basis): (&str, Basis)) -> Assumption {
    Assumption {
        what: what.to_owned(),
        value,
        source: source.to_owned(),
        basis,
        set: "battery = { cranks_at = \"…\" }".into(),
    }
}
